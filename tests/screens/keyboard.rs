//! Once through with nothing but the keys: from the empty list of jobs to a proposal.

use crate::bench::{Bench, play};
use crate::novice::{STRANGE, at, described};
use crate::view::DESK;
use serde_json::json;

/// What the focus stands on: its group, its words, and whether it can be seen.
const FOCUS: &str = include_str!("focus.js");
/// No page has more stops than this between two things that one wants.
const FAR: usize = 90;

/// Whether the focus stands on this, by the words that can be read or heard; for an answer in the group that asks for it.
fn on(bench: &Bench, words: &str, group: &str) -> bool {
    bench.value(&format!("{FOCUS}({}, {})", json!(words), json!(group))) == json!(true)
}

/// Walks on with Tab until the focus is there; each stop on the way must be seen to have the focus.
fn to(bench: &Bench, words: &str, group: &str) {
    for _ in 0..FAR {
        bench.key("Tab");
        if on(bench, words, group) {
            return;
        }
    }
    panic!(
        "Tab never comes to `{words}` of `{group}`; it is on {}",
        bench.value("document.activeElement.outerHTML.slice(0, 200)")
    );
}

fn press(bench: &Bench, words: &str) {
    to(bench, words, "");
    bench.key("Enter");
}

fn write(bench: &Bench, label: &str, text: &str) {
    to(bench, label, "");
    bench.write(text);
}

/// Comes into a group of answers and moves on with the arrow until the right one is taken.
fn answer(bench: &Bench, question: &str, answer: &str) {
    to(bench, "", question);
    if on(bench, answer, question) {
        bench.key("Space");
    }
    for _ in 0..12 {
        bench.settle();
        if on(bench, answer, question) && bench.value("document.activeElement.checked") == json!(true) {
            return;
        }
        bench.key("ArrowDown");
    }
    panic!("the arrow never comes to `{answer}` of `{question}`");
}

#[test]
fn the_keys_alone_lead_from_nothing_to_a_proposal() {
    play("the_keys_alone_lead_from_nothing_to_a_proposal", DESK, |bench| {
        bench.go("");
        write(bench, "Name of the job", "Weir Cottage");
        bench.key("Enter");
        at(bench, "Which house is nearest to yours?");
        answer(bench, "Which house is nearest to yours?", "Bungalow");
        press(bench, "Next");
        at(bench, "How wide will the opening be?");
        write(bench, "Width of the opening", "2.4");
        press(bench, "Next");
        at(bench, "How high will it be?");
        write(bench, "Head height", "2.0");
        press(bench, "Next");
        at(bench, "How is the wall built?");
        answer(bench, "What does a screwdriver do to the mortar?", "Hardly a scratch");
        press(bench, "It is so, next");
        for question in ["How many storeys stand above it?", "Does the roof rest on this wall?"] {
            at(bench, question);
            press(bench, "It is so, next");
        }
        at(bench, "How much wall stays beside it?");
        write(bench, "Wall left of it", "1.2");
        write(bench, "Wall right of it", "1.5");
        press(bench, "Next");
        at(bench, "What will the props’ feet stand on?");
        answer(bench, "Inside: what the feet stand on", "Concrete slab on the ground");
        answer(bench, "Inside: the ground below, under a boot heel", "It leaves a dent");
        answer(bench, "Outside: what the feet stand on", "Bare ground");
        answer(bench, "Outside: the ground, under a boot heel", "It leaves a dent");
        press(bench, "It is so, next");
        at(bench, "Where does the new beam go?");
        press(bench, "It is so, next");
        at(bench, "Anything strange?");
        for question in STRANGE {
            answer(bench, question, "No");
        }
        press(bench, "To all answers");
        at(bench, "All answers");
        press(bench, "See the proposal");
        bench.see("When in doubt, stay out and ring.");
        bench.see("Holds, as described");
        assert_eq!(bench.taps(), 0, "nothing was touched");
        assert_eq!(described(bench).pointer("/opening/right_masonry_m"), Some(&json!(1.5)));
        // What the keys stand on can be seen, once round the whole page: from where the focus leaves it to there again.
        let left = |bench: &Bench| bench.value("document.activeElement === document.body") == json!(true);
        let (mut stops, mut rounds) = (0, 0);
        for _ in 0..600 {
            bench.key("Tab");
            if left(bench) {
                rounds += 1;
                if rounds == 2 {
                    break;
                }
                continue;
            }
            let seen = bench.value(&format!("{FOCUS}()"));
            let what = bench.value("document.activeElement.outerHTML.slice(0, 160)");
            assert_eq!(seen, json!(""), "stop {stops}: {what}");
            stops += rounds;
        }
        assert_eq!(rounds, 2, "the focus never leaves the page");
        println!("{stops} stops on the proposal");
        assert!(stops >= 30, "only {stops} stops");
    });
}
