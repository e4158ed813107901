//! A builder's runner: what it may not make good.
//!
//! The rules are the method's own (sections 5, 11 and 13).
#![expect(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a test stops at the first broken rule"
)]

mod common;

use calc::proposal::{PlanVerdict, Standing};
use common::edit;
use serde_json::{Value, json};

fn judged(name: &str, plan: Value, edits: &[(&str, Value)]) -> PlanVerdict {
    let mut job = calc::example::job(name).unwrap();
    edit(&mut job, &[("/builders_plan", plan)]);
    edit(&mut job, edits);
    calc::size_value(&job).unwrap().builders_plan.unwrap()
}

/// A runner does not make good what stands against the needles themselves, and one of its props may go as any other.
#[test]
fn a_runner_hides_nothing_that_stands_against_the_plan() {
    let plan = |section: &str, needles: Value, props: Value| {
        json!({
            "kind": "needles", "needles_x_m": needles, "section": section,
            "runner": {"section": "SHS150x150x8 S355", "props_x_m": props}
        })
    };
    let many = json!([0.3, 0.65, 1.0, 1.35, 1.7, 2.05, 2.4]);
    let four = || plan("SHS100x100x8 S355", json!([0.3, 1.0, 1.7, 2.4]), many.clone());
    assert_eq!(judged("two_storey_cavity", four(), &[]).standing, Standing::Close);
    let post = json!([{"x_m": 1.0, "level": 0, "leaf": "inner", "dead_kn": 8.0, "imposed_kn": 4.0, "what": "post"}]);
    let pipe = json!([{"from_m": 0.9, "to_m": 1.1, "why": "pipe"}]);
    let flush = ("/opening/flush", json!(true));
    for (edits, words) in [
        (vec![("/forbidden", pipe)], "not allowed"),
        (
            vec![flush.clone(), ("/above/0/floor/beam_and_block", json!(true))],
            "concrete",
        ),
        (
            vec![flush.clone(), ("/points", post)],
            "post needs a support of its own",
        ),
        (
            vec![
                flush,
                ("/above/0/floor/imposed_kn_m2", json!(10.0)),
                ("/above/0/floor/inside_span_m", json!(7.0)),
            ],
            "line for floor",
        ),
    ] {
        let found = judged("two_storey_cavity", four(), &edits);
        assert_eq!(found.standing, Standing::DoesNotHold, "{words}: {}", found.words);
        assert!(found.words.contains(words), "{}", found.words);
    }
    // Two props a side: when one goes the runner falls.
    let small = [("/opening/width_m", json!(1.2)), ("/roof/span_m", json!(5.0))];
    let two = judged(
        "bungalow",
        plan("SHS100x100x5 S355", json!([0.25, 0.95]), json!([0.1, 1.1])),
        &small,
    );
    assert_eq!(two.standing, Standing::Close, "{}", two.words);
    assert!(
        two.words.contains("R-in-1") && two.words.contains("must not be lost"),
        "{}",
        two.words
    );
    let five = judged(
        "bungalow",
        plan(
            "SHS100x100x5 S355",
            json!([0.25, 0.95]),
            json!([0.1, 0.3, 0.6, 0.9, 1.1]),
        ),
        &small,
    );
    assert_eq!(five.standing, Standing::Holds, "{}", five.words);
}
