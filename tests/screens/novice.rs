//! From an empty list of jobs to a first proposal, one question to a page, by what can be read; answers and touches are held.

use crate::bench::{Bench, play};
use crate::view::{LARGE_TEXT, PHONE, SMALL, TABLET, View};
use serde_json::{Value, json};
use upstay_lib::form::{Fields, assemble};

/// What is asked on the last page, in its order.
pub const STRANGE: [&str; 12] = [
    "Cellar, drain, manhole or void under or near the feet?",
    "Anyone digging near the feet?",
    "Does the wall bulge, lean or crack?",
    "Loose bricks, open joints, damp or rotten places?",
    "A corner or the end of the wall nearer than 0.45 m?",
    "A door or window in this stretch now that reaches higher?",
    "Is it a bay window?",
    "Only a brick skin over a frame?",
    "Is it a gable, rising into a triangle?",
    "Chimney breast or stack in or over the wall?",
    "Floors, cross walls or roof ties taken out, or to be taken out?",
    "A beam, post or tank that bears on it from above?",
];

/// Waits for the page with this question on it.
pub fn at(bench: &Bench, question: &str) {
    let shown = format!("document.querySelector('h1')?.textContent === {}", json!(question));
    bench.wait(&format!("the page asks `{question}`"), &shown);
    bench.settle();
}

/// A person who answers; counts pages and answers.
struct Novice<'a> {
    bench: &'a Bench,
    answers: u32,
    pages: u32,
}

impl Novice<'_> {
    fn page(&mut self, question: &str) {
        at(self.bench, question);
        self.pages += 1;
    }

    fn answer(&mut self, question: &str, answer: &str) {
        self.bench.answer(question, answer);
        self.answers += 1;
    }

    fn measure(&mut self, question: &str, measures: &[(&str, &str)]) {
        self.page(question);
        for (label, text) in measures {
            self.bench.fill(label, text);
            self.answers += 1;
        }
        self.bench.tap("Next");
    }

    fn as_it_is(&mut self, question: &str) {
        self.page(question);
        self.bench.see("Filled in from the house type");
        self.bench.tap("It is so, next");
    }

    fn house(&mut self, name: &str, house: &str, (width, head): (&str, &str), mortar: &str) {
        self.bench.go("");
        self.bench.fill("Name of the job", name);
        self.bench.tap("Begin this job");
        self.page("Which house is nearest to yours?");
        self.answer("Which house is nearest to yours?", house);
        self.bench.tap("Next");
        self.measure("How wide will the opening be?", &[("Width of the opening", width)]);
        self.measure("How high will it be?", &[("Head height", head)]);
        self.page("How is the wall built?");
        self.answer("What does a screwdriver do to the mortar?", mortar);
        self.bench.tap("It is so, next");
        self.as_it_is("How many storeys stand above it?");
    }

    fn rest(&mut self, beside: [&str; 2], asked: &[&str]) {
        let beside: Vec<(&str, &str)> = ["Wall left of it", "Wall right of it"]
            .into_iter()
            .zip(beside)
            .collect();
        self.measure("How much wall stays beside it?", &beside);
        self.page("What will the props’ feet stand on?");
        self.answer("Inside: what the feet stand on", "Concrete slab on the ground");
        self.answer("Outside: what the feet stand on", "Bare ground");
        self.answer("Inside: the ground below, under a boot heel", "It leaves a dent");
        self.answer("Outside: the ground, under a boot heel", "It leaves a dent");
        self.bench.tap("It is so, next");
        self.as_it_is("Where does the new beam go?");
        self.page("Anything strange?");
        for question in asked {
            let line = self.bench.value("document.querySelector('.sofar').innerText");
            assert!(!line.as_str().unwrap().contains("Holds"), "before `{question}`: {line}");
            self.answer(question, "No");
        }
        self.bench.tap("To all answers");
        self.page("All answers");
        self.bench.see("Everything is asked");
        self.bench.tap("See the proposal");
        self.bench.see("When in doubt, stay out and ring.");
        self.bench.settle();
    }
}

/// The description of the only job, as the app holds it.
pub fn described(bench: &Bench) -> Value {
    bench.settle();
    let list = bench.app().invoke("jobs", json!({})).unwrap();
    let id = list.pointer("/jobs/0/id").unwrap().clone();
    let open = bench.app().invoke("job_open", json!({ "id": id })).unwrap();
    let fields: Fields = serde_json::from_value(open.get("fields").unwrap().clone()).unwrap();
    let (job, problems) = assemble(&fields);
    assert_eq!(problems, Vec::new());
    job
}

/// A bungalow; gives its job.
fn bungalow(test: &str, view: View) -> Option<Value> {
    let mut job = None;
    play(test, view, |bench| {
        let mut novice = Novice {
            bench,
            answers: 0,
            pages: 0,
        };
        novice.house("Weir Cottage", "Bungalow", ("2,4", "2000 mm"), "Hardly a scratch");
        novice.as_it_is("Does the roof rest on this wall?");
        novice.rest(["1.2", "1.5"], &STRANGE);
        bench.see("Holds, as described");
        bench.shot(&format!("novice-{}", view.name().replace(' ', "-")));
        let (answers, pages, taps) = (novice.answers, novice.pages, bench.taps());
        println!("{test}: {pages} pages, {answers} answers, {taps} touches");
        assert_eq!((answers, pages), (22, 11));
        // Touches: one to begin, one a page, one for each answer that is not typed.
        assert_eq!(taps, 1 + 11 + 18);
        job = Some(described(bench));
    });
    job
}

#[test]
fn two_houses_from_nothing_to_a_proposal_give_two_jobs() {
    let test = "two_houses_from_nothing_to_a_proposal_give_two_jobs";
    let Some(first) = bungalow(test, PHONE) else { return };
    play(test, TABLET, |bench| {
        let mut novice = Novice {
            bench,
            answers: 0,
            pages: 0,
        };
        novice.house(
            "Mill Row",
            "Two storeys, cavity wall",
            ("1.8", "2.1"),
            "Hardly a scratch",
        );
        novice.as_it_is("Do the joists above rest on this wall?");
        novice.as_it_is("Does the roof rest on this wall?");
        novice.page("Where are the windows above?");
        bench.tap("No window or door above");
        novice.answers += 1;
        bench.tap("Next");
        let sleeping = "Will anyone sleep above while it stands?";
        let asked: Vec<&str> = STRANGE.into_iter().chain([sleeping]).collect();
        novice.rest(["1.2", "1.5"], &asked);
        println!("{test}: {} answers, {} touches", novice.answers, bench.taps());
        assert_eq!((novice.answers, novice.pages), (24, 13));
        assert_eq!(bench.taps(), 1 + 13 + 20);
        let second = described(bench);
        assert_ne!(first, second);
        for (path, one, other) in [
            ("/opening/width_m", json!(2.4), json!(1.8)),
            ("/above", json!([]), second.pointer("/above").unwrap().clone()),
        ] {
            assert_eq!(first.pointer(path), Some(&one), "{path}");
            assert_eq!(second.pointer(path), Some(&other), "{path}");
        }
        assert_eq!(second.pointer("/above").unwrap().as_array().unwrap().len(), 1);
    });
}

#[test]
fn a_small_phone_and_large_text_lead_to_the_same_proposal() {
    let test = "a_small_phone_and_large_text_lead_to_the_same_proposal";
    let Some(small) = bungalow(test, SMALL) else { return };
    assert_eq!(Some(small), bungalow(test, LARGE_TEXT));
}
