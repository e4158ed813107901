//! Whole paths by what can be read: the builder's plan, brief and answer, rounds, a stop, the pack.

use crate::bench::{Bench, play};
use crate::jobs;
use crate::view::{DESK, LARGE_TEXT, PHONE, SMALL};
use serde_json::{Value, json};

/// What is read at a prop on a good day: one touch each.
const TOUCHES: [&str; 4] = [
    "Lean along the wall: 0 mm",
    "Lean across the wall: 0 mm",
    "Head off centre: 5 mm",
    "Foot off centre: 0 mm",
];
const LAST: [&str; 4] = [
    "Is its board firm?",
    "Is it straight and undented?",
    "Are its head and foot fixed?",
    "Is the needle packed and wedged over the full leaf?",
];
pub const WHOLE: [(&str, &str); 4] = [
    ("Are all braces on?", "Yes"),
    ("Do doors or windows stick?", "No"),
    ("Is load stacked on the floors above?", "No"),
    ("Is anyone digging near the feet?", "No"),
];
const PIN: &str = "Is the right pin in, all the way?";

/// The description as the app holds it, once what the page still waits to keep has come to it.
pub fn fields(bench: &Bench, id: &str) -> Value {
    bench.wait(
        "all that was typed is kept",
        "!document.querySelector('[data-kept=false]')",
    );
    bench.settle();
    let open = bench.app().invoke("job_open", json!({ "id": id })).unwrap();
    open.get("fields").unwrap().clone()
}

fn at_prop(bench: &Bench, name: &str) {
    let shown = format!(
        "document.querySelector('main .prop .figure b')?.textContent === {}",
        json!(name)
    );
    bench.wait(&format!("the round is at {name}"), &shown);
    bench.settle();
}

pub fn begin_round(bench: &Bench, id: &str, first: &str) {
    bench.go(&format!("{id}/round"));
    bench.answer("Why this round?", "Start of the day");
    bench.fill("Who does it", "Sam Weir");
    bench.fill("Measured over a length of", "1");
    bench.tap(&format!("Begin with {first}"));
    at_prop(bench, first);
}

fn read(bench: &Bench) {
    bench.answer(PIN, "Yes");
    for touch in TOUCHES {
        bench.tap(touch);
    }
    for question in LAST {
        bench.answer(question, "Yes");
    }
}

#[test]
fn a_builders_plan_is_judged_in_words() {
    play("a_builders_plan_is_judged_in_words", SMALL, |bench| {
        let id = jobs::kept(bench.app());
        bench.go(&format!("{id}/support"));
        bench.tap("The builder’s plan");
        bench.answer("How the wall is to be held", "On prop-head brackets");
        bench.tap("4 brackets, evenly");
        bench.see("each would carry");
        bench.see("Does not hold. Do not load");
        bench.shot("plan");
        let plan = fields(bench, &id);
        let places = plan
            .get("/builders_plan/needles_x_m")
            .unwrap()
            .as_str()
            .unwrap()
            .to_owned();
        assert_eq!(places.split(';').count(), 4, "{places}");
        bench.tap("Take this plan out");
        bench.wait("the judgement is gone", "!document.querySelector('.verdict .trial')");
        assert_eq!(fields(bench, &id).get("/builders_plan/needles_x_m"), None);
    });
}

#[test]
fn the_brief_goes_out_and_the_engineers_answer_comes_in() {
    play("the_brief_goes_out_and_the_engineers_answer_comes_in", DESK, |bench| {
        let id = jobs::kept(bench.app());
        bench.go(&format!("{id}/support"));
        bench.tap("Read the brief");
        bench.wait(
            "the brief is shown",
            "document.querySelector('dialog[open]')?.innerText.length > 400",
        );
        bench.tap("Close");
        bench.tap("Save the brief as a PDF");
        bench.see("The brief lies at ");
        // As it is written, not as it is set: two blanks in a row are drawn as one.
        let said = bench.value("document.querySelector('main').textContent");
        let said = said.as_str().unwrap().split_once("The brief lies at ").unwrap().1;
        let path = said.split_inclusive(".pdf").next().unwrap();
        let file = std::fs::read(path).unwrap_or_else(|why| panic!("{path}: {why}"));
        assert!(file.starts_with(b"%PDF-"));
        bench.tap("The engineer’s answer");
        for (label, text) in [
            ("Engineer", "Ada Roy"),
            ("Date of the answer", "2026-03-01"),
            ("Section", "UC152x152x23"),
            ("Needles apart", "0.6"),
            ("Load along the wall", "40"),
        ] {
            bench.fill(label, text);
        }
        bench.see("The engineer’s answer beside these figures");
        assert_eq!(fields(bench, &id).get("/engineer/load_kn_m"), Some(&json!("40")));
    });
}

#[test]
fn a_round_of_ten_props_takes_ten_touches_a_prop() {
    play("a_round_of_ten_props_takes_ten_touches_a_prop", PHONE, |bench| {
        let (id, props) = jobs::ten(bench.app());
        assert_eq!(props.len(), 10);
        begin_round(bench, &id, props.first().unwrap());
        for (number, prop) in props.iter().enumerate() {
            at_prop(bench, prop);
            let answered =
                "document.querySelectorAll('main .prop :is(.yesno input:checked, .mark[aria-pressed=true])').length";
            assert_eq!(bench.value(answered), json!(0), "nothing is answered beforehand");
            let before = bench.taps();
            read(bench);
            bench.see("kN today");
            bench.tap(
                &props
                    .get(number + 1)
                    .map_or("The whole job ›".to_owned(), |next| format!("{next} ›")),
            );
            assert_eq!(bench.taps() - before, 10, "touches at {prop}");
        }
        for (question, answer) in WHOLE {
            bench.answer(question, answer);
        }
        bench.fill("Gust", "5");
        bench.tap("Finish this round");
        bench.see("This round is passed");
        bench.see("Kept in the record.");
        bench.shot("round-passed");
        // Two to begin, ten a prop, four for the whole, one to finish.
        println!("a round of ten props: {} touches", bench.taps());
        assert_eq!(bench.taps(), 2 + 100 + 4 + 1);
        let open = bench.app().invoke("job_open", json!({ "id": id })).unwrap();
        assert_eq!(
            open.pointer("/rounds/0/readings").unwrap().as_array().unwrap().len(),
            10
        );
    });
}

#[test]
fn a_round_that_was_cut_off_goes_on_where_it_stopped() {
    play("a_round_that_was_cut_off_goes_on_where_it_stopped", PHONE, |bench| {
        let id = jobs::kept(bench.app());
        begin_round(bench, &id, "N1-in");
        read(bench);
        bench.see("kN today");
        bench.tap("N1-out ›");
        at_prop(bench, "N1-out");
        bench.answer(PIN, "Yes");
        bench.tap("Head off centre: 10 mm");
        bench.settle();
        // The page is torn down, and another comes up on the list of jobs.
        bench.go("");
        bench.tap("Weir Cottage");
        bench.wait("the job is open", "document.body.dataset.screen === 'support'");
        bench.tap("Round");
        at_prop(bench, "N1-out");
        assert_eq!(bench.reads("Head off centre"), "10");
        assert_eq!(
            bench.value("document.querySelector('main .prop .yesno input:checked')?.value"),
            json!("right")
        );
    });
}

#[test]
fn a_stop_is_unmistakable_and_its_number_is_under_the_thumb() {
    for view in [PHONE, SMALL, LARGE_TEXT] {
        play(
            "a_stop_is_unmistakable_and_its_number_is_under_the_thumb",
            view,
            |bench| {
                let id = jobs::peopled(bench.app());
                begin_round(bench, &id, "N1-in");
                bench.answer(PIN, "Missing");
                bench.see("Stop. No more load");
                bench.see("STOP");
                bench.shot(&format!("stop-{}", view.name().replace([' ', '%'], "")));
                let link = "document.querySelector('#foot .stopnow a.ring')";
                assert_eq!(
                    bench.value(&format!("{link}?.getAttribute('href')")),
                    json!("tel:+441632960123")
                );
                let seen = format!(
                    "(() => {{ const box = {link}.getBoundingClientRect(); \
                 return box.top >= 0 && box.bottom <= innerHeight && box.height >= 48 \
                 && {link}.contains(document.elementFromPoint(box.x + box.width / 2, box.y + box.height / 2)) }})()"
                );
                assert_eq!(
                    bench.value(&seen),
                    json!(true),
                    "the number is under the thumb at {}",
                    view.name()
                );
                bench.tap("Ring Ada Roy");
                bench.wait(
                    "the number is shown large",
                    "document.querySelector('dialog[open] .digits')?.textContent === '+44 1632 960123'",
                );
                bench.tap("Close");
                bench.see("Stop. No more load");
            },
        );
    }
}

#[test]
fn a_pack_leaves_one_phone_and_opens_on_another() {
    let test = "a_pack_leaves_one_phone_and_opens_on_another";
    play(test, PHONE, |first| {
        let id = jobs::demo(first.app());
        first.go(&format!("{id}/record"));
        first.fill("Note", "written on the first phone");
        first.tap("Keep this note");
        first.see("Kept.");
        first.tap("Make the pack");
        first.see("The pack is made.");
        let said = first.text();
        let path = said
            .lines()
            .find_map(|line| Some(line.split_once(" at /")?.1.trim().to_owned()))
            .unwrap();
        play(test, SMALL, |second| {
            second.go("");
            second.open_pack(format!("/{path}").as_ref());
            second.see("A new job from this pack");
            second.tap("Go to this job");
            second.see("written on the first phone");
            second.see("Also written by another phone");
        });
    });
}

#[test]
fn a_correction_that_is_no_number_says_which_and_keeps_what_stood() {
    play(
        "a_correction_that_is_no_number_says_which_and_keeps_what_stood",
        PHONE,
        |bench| {
            let id = jobs::taken_out(bench.app());
            bench.go(&format!("{id}/record"));
            bench.tap("Correct this");
            bench.see("Turns down");
            let kept = || {
                bench
                    .app()
                    .invoke("record", json!({"id": id, "before": null, "limit": 3}))
                    .unwrap()
            };
            let before = kept();
            for (typed, said) in [
                ("1,3 or so", "“1,3 or so” is no number. Type a number, as 0.5."),
                ("", "nothing stands there. Type a number, as 0.5."),
            ] {
                bench.fill("What was read wrong", "Crack gauge Kitchen, over the door");
                bench.fill("Reads, mm", typed);
                bench.tap("Keep the correction");
                bench.see(said);
                assert_eq!(kept(), before, "`{typed}` was kept");
            }
            bench.fill("Reads, mm", "1,2");
            bench.tap("Keep the correction");
            bench.wait(
                "the correction is in the record",
                "!document.querySelector('dialog[open]')",
            );
            assert_ne!(kept(), before);
        },
    );
}

#[test]
fn a_lean_whose_way_is_not_said_is_asked_for_its_way() {
    play("a_lean_whose_way_is_not_said_is_asked_for_its_way", PHONE, |bench| {
        let id = jobs::at_prop(bench.app());
        bench.go(&format!("{id}/round"));
        bench.answer("Is the right pin in, all the way?", "Yes");
        bench.see("Still open: lean along the wall.");
        bench.fill("Lean along the wall", "4");
        bench.see("Still open: whether it leans to the right or to the left.");
        bench.tap("Lean along the wall: to the left");
        bench.see("Still open: lean across the wall.");
    });
}
