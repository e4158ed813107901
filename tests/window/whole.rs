//! The main job from the first screen to a pack that verifies, by what can be read on the screens.

use crate::hand::Hand;
use crate::stage::play;
use jpeg_encoder::{ColorType, Encoder};
use serde_json::{Value, json};
use std::path::Path;
use std::process::Command;

/// Fields of the wall, by label, as somebody with a tape would fill them in; point, comma and units mixed on purpose.
const WALL: &[(&str, &str)] = &[
    ("Width of the opening", "2,4"),
    ("Head height", "2000 mm"),
    ("Wall left of it", "1.35"),
    ("Wall right of it", "1.6 m"),
    ("Depth of the new beam", "203"),
    ("Outer leaf: made of", "Clay brick"),
    ("Outer leaf: thickness", "102,5"),
    ("Outer leaf: plaster", "0"),
    ("Cavity", "65"),
    ("Inner leaf: made of", "Dense concrete block"),
    ("Inner leaf: thickness", "100"),
    ("Inner leaf: plaster", "13"),
    ("Inside: what the feet stand on", "Concrete slab on the ground"),
    ("Inside: thickness of the slab", "100"),
    ("Inside: ground below", "Firm clay"),
    ("Inside: ground level", "0"),
    ("Inside: clear room from the wall", "3"),
    ("Outside: what the feet stand on", "Bare ground"),
    ("Outside: ground below", "Firm clay"),
    ("Outside: ground level", "−0.15"),
    ("Outside: clear room from the wall", "2.5"),
    ("Distance to the next corner", "1.35"),
    ("What ties the wall just above the opening", "The floor above"),
];

/// Questions of the wall and their answers.
const WALL_ANSWERS: &[(&str, &str)] = &[
    ("Outer leaf: mortar", "Cement"),
    ("Inner leaf: mortar", "Cement"),
    ("Condition of the wall", "Sound"),
    ("Is it an outside wall?", "Yes"),
    ("Is it a gable?", "No"),
    ("Inside: feet set out and fixed on the middle of their boards?", "Yes"),
    ("Outside: feet set out and fixed on the middle of their boards?", "Yes"),
    ("Cellar, drain, manhole or void under or near the feet?", "No"),
    ("Chimney breast or stack in or over the wall?", "No"),
    ("Is it a bay window?", "No"),
    ("Only a brick skin over a frame?", "No"),
    ("Floors, cross walls or roof ties taken out, or to be taken out?", "No"),
    ("Anyone digging near the feet?", "No"),
    ("Does the wall bulge, lean or crack?", "No"),
];

const ABOVE: &[(&str, &str)] = &[
    ("Storey 1 above: height", "2.55"),
    ("Storey 1 above: joist span inside", "3.3"),
    ("Storey 1 above: joist span on the other side", "0"),
    ("Storey 1 above: floor bears on", "Inner leaf"),
    ("Storey 1 above: underside of the joists", "2.75"),
    ("Span of the roof", "6.4"),
    ("Pitch", "35"),
    ("Overhang at the eaves", "300 mm"),
    ("Roof bears on", "Inner leaf"),
    ("Days it will stand", "18"),
    ("Height above the sea", "55"),
    ("Snow zone of the UK map", "3"),
    ("Basic wind speed", "22"),
];

const ABOVE_ANSWERS: &[(&str, &str)] = &[
    ("Storey 1 above: joists run through over the wall?", "No"),
    ("Storey 1 above: does anyone sleep there?", "No"),
    ("Storey 1 above: emptied of furniture and stores?", "Yes"),
    ("Kind of roof", "Trusses"),
    ("Does the roof rest on this wall?", "Yes"),
];

/// What is read at one prop on a good day.
const PROP: &[(&str, &str)] = &[
    ("Lean along the wall", "+2"),
    ("Lean across the wall", "-1,5"),
    ("Head off centre", "3"),
    ("Foot off centre", "1"),
];

const PROP_ANSWERS: &[(&str, &str)] = &[
    ("Is the right pin in, all the way?", "Yes"),
    ("Is its board firm?", "Yes"),
    ("Is it straight and undented?", "Yes"),
    ("Are its head and foot fixed?", "Yes"),
];

/// What has to be packed over a prop: the needle, or the header of a floor's own line.
fn packed(prop: &str) -> &'static str {
    if prop.starts_with('F') {
        "Is every joist packed tight on the header?"
    } else {
        "Is the needle packed and wedged over the full leaf?"
    }
}

const WHOLE_ANSWERS: &[(&str, &str)] = &[
    ("Are all braces on?", "Yes"),
    ("Do doors or windows stick?", "No"),
    ("Is load stacked on the floors above?", "No"),
    ("Is anyone digging near the feet?", "No"),
];

async fn fill_all(hand: &Hand, fields: &[(&str, &str)]) {
    for (label, text) in fields {
        hand.fill(label, text).await;
    }
}

async fn answer_all(hand: &Hand, answers: &[(&str, &str)]) {
    for (question, answer) in answers {
        hand.answer(question, answer).await;
    }
}

/// A photo as a phone could have taken it: grey, with nothing in it.
fn photo(file: &Path) {
    let grey: Vec<u8> = (0..800 * 600_u32).map(|at| (at % 241) as u8).collect();
    let mut bytes = Vec::new();
    Encoder::new(&mut bytes, 80)
        .encode(&grey, 800, 600, ColorType::Luma)
        .unwrap();
    std::fs::write(file, bytes).unwrap();
}

async fn describe(hand: &Hand, file: &Path, beam: &str) {
    hand.fill("Name of the job", "Weir Cottage, kitchen").await;
    hand.fill("Place", "Mill Lane").await;
    hand.press("Begin this job").await;
    hand.press("All questions on one page").await;
    hand.see("Photo of the wall").await;
    hand.upload("Add a photo of the wall from this device", file).await;
    let loaded = "return [...document.images].some((image) => image.alt === arguments[0] && image.naturalWidth > 0)";
    hand.wait("the photo of the wall can be seen", loaded, json!("Photo of wall"))
        .await;
    hand.answer("Leaves of the wall", "Two with a cavity").await;
    fill_all(hand, WALL).await;
    answer_all(hand, WALL_ANSWERS).await;
    hand.answer("Where the new beam goes", beam).await;
    hand.see_tick("Outside: ground level").await;
    hand.picture("wall").await;

    hand.press("Above").await;
    hand.answer("Storeys above the opening", "One").await;
    hand.answer("Storey 1 above: how its joists lie", "On this wall").await;
    fill_all(hand, ABOVE).await;
    answer_all(hand, ABOVE_ANSWERS).await;
    hand.see("All together").await;
    hand.picture("above").await;
}

/// Looks at every prop on a good day and at the whole job; the round passes only when none is left out.
async fn walk_round(hand: &Hand, props: &[String]) {
    hand.press("Round").await;
    hand.answer("Why this round?", "Before loading").await;
    hand.fill("Who does it", "Sam Weir").await;
    hand.fill("Measured over a length of", "1").await;
    hand.press("Begin with").await;
    for (number, prop) in props.iter().enumerate() {
        let shown = "return document.querySelector('main .figure b')?.textContent === arguments[0]";
        hand.wait(&format!("the round is at {prop}"), shown, json!(prop)).await;
        fill_all(hand, PROP).await;
        answer_all(hand, PROP_ANSWERS).await;
        hand.answer(packed(prop), "Yes").await;
        hand.see("kN today").await;
        if number == 0 {
            hand.picture("round").await;
        }
        hand.press(props.get(number + 1).map_or("The whole job", String::as_str))
            .await;
    }
    answer_all(hand, WHOLE_ANSWERS).await;
    hand.fill("Gust", "5").await;
    hand.see("This round is passed").await;
    hand.press("Finish this round").await;
    hand.see("Kept in the record").await;
    hand.picture("round-done").await;
}

/// Names of the props of the option that is kept: under the needles, and under floors' own headers.
async fn kept_props(hand: &Hand) -> (Vec<String>, Vec<String>) {
    let list = hand.invoke("jobs", json!({})).await.unwrap();
    let open = hand
        .invoke("job_open", json!({"id": list.pointer("/jobs/0/id").unwrap()}))
        .await
        .unwrap();
    let at = open.pointer("/kept/option").and_then(Value::as_u64).unwrap();
    let option = open.pointer(&format!("/kept/proposal/options/{at}")).unwrap();
    let names = |of: &Value| -> Vec<String> {
        let props = of.get("props").and_then(Value::as_array).unwrap();
        props
            .iter()
            .map(|prop| prop.get("name").unwrap().as_str().unwrap().to_owned())
            .collect()
    };
    let lines = option.get("floor_lines").and_then(Value::as_array).unwrap();
    (names(option), lines.iter().flat_map(&names).collect())
}

#[test]
fn a_job_from_the_first_screen_to_a_pack_that_verifies() {
    play("a_job_from_the_first_screen_to_a_pack_that_verifies", async |stage| {
        let file = stage.home().join("IMG 0042.jpg");
        photo(&file);
        let hand = stage.open().await;
        let watch = "window.refused = []; \
             document.addEventListener('securitypolicyviolation', (event) => window.refused.push(event.violatedDirective))";
        hand.ask(watch).await;
        describe(&hand, &file, "Below the ceiling").await;

        hand.press("Support").await;
        // A storey above and nobody independent has checked it: never plainly "holds".
        hand.see("Close to its limit").await;
        hand.see("When in doubt, stay out and ring.").await;
        hand.picture("support").await;
        hand.press("Keep this proposal").await;
        hand.see("It stands in the record").await;

        let (props, under_floors) = kept_props(&hand).await;
        assert_eq!(
            under_floors,
            Vec::<String>::new(),
            "a beam below the ceiling needs no line of its own"
        );
        assert!(props.len() >= 4, "{props:?}");

        walk_round(&hand, &props).await;
        hand.press("To the record").await;
        for title in [
            "Job begun",
            "Photo added",
            "Wall described",
            "Proposal kept",
            "Round done",
        ] {
            hand.see(title).await;
        }
        hand.press("Give a seal").await;
        let code = "return document.querySelector('.code')?.textContent.length >= 12";
        hand.wait("a seal is shown", code, Value::Null).await;
        let code = hand.ask("return document.querySelector('.code').textContent").await;
        hand.picture("record").await;
        hand.press("Make the pack").await;
        hand.see("The pack is made").await;
        assert_eq!(
            hand.ask("return window.refused").await,
            json!([]),
            "the pages break their own content policy"
        );
        let said = hand.text().await;
        let path = said
            .lines()
            .find_map(|line| Some(line.split_once(" at ")?.1.trim()))
            .filter(|path| path.ends_with(".zip"));
        let path = path
            .unwrap_or_else(|| panic!("no path of a pack in:\n{said}"))
            .to_owned();
        hand.close().await;

        let verify = Command::new(env!("CARGO_BIN_EXE_upstay"))
            .args(["verify", &path, "--seal", code.as_str().unwrap()])
            .output()
            .unwrap();
        let answer = String::from_utf8_lossy(&verify.stdout);
        assert_eq!(verify.status.code(), Some(0), "{answer}");
        assert!(answer.contains("Intact"), "{answer}");
    });
}

#[test]
fn a_beam_up_in_the_floor_gets_a_line_of_its_own_that_every_round_looks_at() {
    play(
        "a_beam_up_in_the_floor_gets_a_line_of_its_own_that_every_round_looks_at",
        async |stage| {
            let file = stage.home().join("IMG 0043.jpg");
            photo(&file);
            let hand = stage.open().await;
            describe(&hand, &file, "Up in the floor").await;

            hand.press("Support").await;
            hand.see("Close to its limit").await;
            hand.see("Floors held by a line of their own").await;
            hand.see("without this line nothing holds it").await;
            hand.see("mm from the wall").await;
            hand.press("Keep this proposal").await;
            hand.see("It stands in the record").await;
            let (under_needles, under_floors) = kept_props(&hand).await;
            assert!(under_floors.len() >= 4, "{under_floors:?}");

            // The first stop is passed by a name, and stands as passed afterwards.
            hand.press("Order").await;
            hand.see("stops still wait").await;
            let waiting = "return Number(document.querySelector('main .figure b').textContent)";
            let before = hand.ask(waiting).await.as_u64().unwrap();
            hand.press("Say yes").await;
            hand.fill("Name of whoever says yes", "Sam Weir").await;
            hand.press("Yes, write it down").await;
            hand.see("Sam Weir, ").await;
            assert_eq!(hand.ask(waiting).await.as_u64().unwrap(), before - 1);
            hand.press("Questions for the builder").await;
            hand.see("Are you insured").await;
            hand.press("Send the questions and the hire list").await;
            let sent = "return /Copied|Copy it/.test(document.querySelector('.share [role=status]')?.innerText ?? '')";
            hand.wait("the questions are copied or shown", sent, Value::Null).await;

            let all: Vec<String> = under_needles.into_iter().chain(under_floors).collect();
            walk_round(&hand, &all).await;
            hand.press("To the record").await;
            hand.see("Round done").await;
            hand.close().await;
        },
    );
}
