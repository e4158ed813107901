//! From an empty job to a first proposal, one question to a page, as a novice answers them by what can be read.

use crate::hand::Hand;
use crate::stage::{PATIENCE, play};
use serde_json::{Value, json};
use std::time::Instant;
use upstay_lib::form::{Fields, assemble, flatten};

/// What is asked on the last page, in its order.
const STRANGE: [&str; 12] = [
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

async fn begin(hand: &Hand, name: &str, house: &str) {
    hand.fill("Name of the job", name).await;
    hand.press("Begin this job").await;
    at(hand, "Which house is nearest to yours?").await;
    hand.answer("Which house is nearest to yours?", house).await;
    hand.press("Next").await;
}

/// Waits for the page with this question on it.
async fn at(hand: &Hand, question: &str) {
    let shown = "return document.querySelector('h1')?.textContent === arguments[0]";
    hand.wait(&format!("the page asks `{question}`"), shown, json!(question))
        .await;
}

/// Types measures, each by its label, and goes on.
async fn measure(hand: &Hand, question: &str, measures: &[(&str, &str)]) {
    at(hand, question).await;
    for (label, text) in measures {
        hand.fill(label, text).await;
    }
    hand.press("Next").await;
}

/// Takes what the house type filled in, which the button says.
async fn as_it_is(hand: &Hand, question: &str) {
    at(hand, question).await;
    hand.see("Filled in from the house type").await;
    hand.press("It is so, next").await;
}

async fn wall(hand: &Hand, mortar: &str) {
    at(hand, "How is the wall built?").await;
    hand.answer("What does a screwdriver do to the mortar?", mortar).await;
    hand.press("It is so, next").await;
}

async fn feet(hand: &Hand, inside: &str, outside: &str) {
    at(hand, "What will the props’ feet stand on?").await;
    for (side, kind) in [("Inside", inside), ("Outside", outside)] {
        hand.answer(&format!("{side}: what the feet stand on"), kind).await;
    }
    hand.answer("Inside: the ground below, under a boot heel", "It leaves a dent")
        .await;
    hand.answer("Outside: the ground, under a boot heel", "It leaves a dent")
        .await;
    hand.press("It is so, next").await;
}

/// The description as the app holds it, once nothing is on its way any more.
async fn kept(hand: &Hand, id: usize) -> Fields {
    let start = Instant::now();
    let mut last = None;
    loop {
        let list = hand.invoke("jobs", json!({})).await.unwrap();
        let job = list.pointer(&format!("/jobs/{id}/id")).unwrap().clone();
        let open = hand.invoke("job_open", json!({ "id": job })).await.unwrap();
        let fields: Fields = serde_json::from_value(open.get("fields").unwrap().clone()).unwrap();
        if last.as_ref() == Some(&fields) {
            return fields;
        }
        assert!(start.elapsed() < PATIENCE, "the fields never come to rest");
        last = Some(fields);
        // Longer than a field waits before it is kept.
        tokio::time::sleep(std::time::Duration::from_millis(400)).await;
    }
}

/// The job's standing by what is kept of it now.
async fn standing(hand: &Hand) -> String {
    let figure = hand
        .invoke("figure", json!({"fields": kept(hand, 0).await, "option": 0}))
        .await
        .unwrap();
    figure
        .pointer("/proposal/standing")
        .and_then(Value::as_str)
        .unwrap_or("none")
        .to_owned()
}

/// What the line above the buttons says.
async fn line(hand: &Hand) -> String {
    hand.ask("return document.querySelector('.sofar').innerText")
        .await
        .as_str()
        .unwrap()
        .to_owned()
}

/// Answers the list with no, one by one; before its last answer nothing may look like a pass.
async fn nothing_strange(hand: &Hand, asked: &[&str]) {
    at(hand, "Anything strange?").await;
    for (number, question) in asked.iter().enumerate() {
        assert!(!line(hand).await.contains("Holds"), "before `{question}`");
        if number + 2 > asked.len() || number == 6 {
            let so_far = standing(hand).await;
            assert_eq!(
                so_far, "needs_own_design",
                "`{question}` and what follows is not asked yet"
            );
        }
        hand.answer(question, "No").await;
    }
}

/// Answers to all questions but the list, for a bungalow with the measures of the ready house.
async fn bungalow(hand: &Hand) {
    begin(hand, "Weir Cottage", "Bungalow").await;
    measure(
        hand,
        "How wide will the opening be?",
        &[("Width of the opening", "2,4")],
    )
    .await;
    measure(hand, "How high will it be?", &[("Head height", "2000 mm")]).await;
    wall(hand, "Hardly a scratch").await;
    as_it_is(hand, "How many storeys stand above it?").await;
    as_it_is(hand, "Does the roof rest on this wall?").await;
    let beside = [("Wall left of it", "1.2"), ("Wall right of it", "1.5")];
    measure(hand, "How much wall stays beside it?", &beside).await;
    feet(hand, "Concrete slab on the ground", "Bare ground").await;
    as_it_is(hand, "Where does the new beam go?").await;
}

#[test]
fn a_novice_comes_to_a_first_holds_only_after_every_reason_was_asked() {
    play(
        "a_novice_comes_to_a_first_holds_only_after_every_reason_was_asked",
        async |stage| {
            let hand = stage.open().await;
            bungalow(&hand).await;
            nothing_strange(&hand, &STRANGE).await;
            hand.press("To all answers").await;
            at(&hand, "All answers").await;
            hand.see("Everything is asked").await;
            hand.picture("start-all").await;
            let fields = kept(&hand, 0).await;
            hand.press("See the proposal").await;
            hand.see("When in doubt, stay out and ring.").await;
            hand.see("Holds, as described").await;
            hand.close().await;

            // The job is the ready house's, but for what Start does not ask: it is left to the careful value, and listed.
            let (job, problems) = assemble(&fields);
            assert_eq!(problems, Vec::new());
            let mut own = flatten(&job);
            let mut ready = flatten(&calc::example::job("bungalow").unwrap());
            for map in [&mut own, &mut ready] {
                map.retain(|path, _| {
                    !["/site", "/props", "/points", "/forbidden", "/wall/openings", "/country"]
                        .iter()
                        .any(|start| path.starts_with(start))
                        && !["/foot/fixed", "/foot/thickness_mm", "/room_m", "corner_m"]
                            .iter()
                            .any(|end| path.ends_with(end))
                });
            }
            // As `calc` reads them: 2 and 2.0 are one height.
            let read = |fields: &Fields| calc::Job::from_value(&assemble(fields).0).unwrap().0;
            assert_eq!(read(&own), read(&ready));
        },
    );
}

#[test]
fn not_sure_is_careful_and_a_stopped_start_goes_on() {
    play("not_sure_is_careful_and_a_stopped_start_goes_on", async |mut stage| {
        let hand = stage.open().await;
        begin(&hand, "Mill Row", "Old terrace, solid brick").await;
        measure(
            &hand,
            "How wide will the opening be?",
            &[("Width of the opening", "1.8")],
        )
        .await;
        measure(&hand, "How high will it be?", &[("Head height", "2.1")]).await;
        wall(&hand, "Crumbles, or not sure").await;
        as_it_is(&hand, "How many storeys stand above it?").await;
        at(&hand, "Do the joists above rest on this wall?").await;
        hand.answer("The floor above", "Not sure").await;
        hand.see("but not as a tie").await;
        hand.press("Next").await;
        at(&hand, "Does the roof rest on this wall?").await;
        kept(&hand, 0).await;
        stage.pull_the_plug();

        // It goes on at the page where it stopped, with what was said.
        let hand = stage.open().await;
        hand.press("Mill Row").await;
        as_it_is(&hand, "Does the roof rest on this wall?").await;
        at(&hand, "Where are the windows above?").await;
        // The driver of this engine clicks on no part of a drawing, so the touch comes as the event that it makes.
        let touch = "const wall = document.querySelector('[data-piece=\"wall-0\"]'); const box = wall.getBoundingClientRect(); \
             wall.dispatchEvent(new MouseEvent('click', { bubbles: true, clientX: box.x + box.width / 2, clientY: box.y + box.height / 2 }))";
        hand.ask(touch).await;
        hand.see("Window 1").await;
        let weight = "return document.querySelectorAll('.house .weightline').length === 1";
        hand.wait("the weight is drawn under the house", weight, Value::Null)
            .await;
        hand.picture("start-windows").await;
        hand.press("Next").await;
        let beside = [("Wall left of it", "0.9"), ("Wall right of it", "3 ft")];
        measure(&hand, "How much wall stays beside it?", &beside).await;
        feet(&hand, "Paving", "Bare ground").await;
        as_it_is(&hand, "Where does the new beam go?").await;
        let sleeping = "Will anyone sleep above while it stands?";
        let asked: Vec<&str> = STRANGE.into_iter().chain([sleeping]).collect();
        nothing_strange(&hand, &asked).await;
        // A floor that may not bear ties nothing, though its weight is counted.
        hand.see("Own design").await;
        let fields = kept(&hand, 0).await;
        let (job, problems) = assemble(&fields);
        assert_eq!(problems, Vec::new());
        let at = |path: &str| job.pointer(path).cloned().unwrap_or_default();
        assert_eq!(at("/answers/restraint"), json!("unknown"));
        assert_eq!(at("/above/0/floor/direction"), json!("onto"));
        assert_eq!(at("/above/0/floor/slept_in"), json!(false));
        assert_eq!(at("/wall/leaves/0/mortar"), json!("lime"));
        assert_eq!(at("/opening/right_masonry_m"), json!(0.9144));
        let windows = at("/above/0/openings");
        assert_eq!(windows.as_array().map(Vec::len), Some(1), "{windows}");
        hand.close().await;
    });
}

#[test]
fn what_was_not_asked_is_never_taken_as_no() {
    play("what_was_not_asked_is_never_taken_as_no", async |stage| {
        let hand = stage.open().await;
        bungalow(&hand).await;
        // All but the last row of the list: nothing holds, and the page is named as open.
        at(&hand, "Anything strange?").await;
        for question in STRANGE.iter().take(STRANGE.len() - 1) {
            hand.answer(question, "No").await;
        }
        hand.press("To all answers").await;
        hand.see("Until they are answered nothing is called safe").await;
        hand.press("See the weights found so far").await;
        hand.see("Ask for its own design").await;
        hand.close().await;
    });
}
