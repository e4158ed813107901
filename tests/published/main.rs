//! Every published value that the project knows, computed by the clause functions by name and compared.
//!
//! `cases.json` holds the cases, `sources/` further ones, one file for each source; `disputed.json` those shown to be wrong,
//! each with the reason and a better source.

#![expect(clippy::unwrap_used, reason = "a test stops at the first value that is not there")]
#![expect(
    clippy::indexing_slicing,
    reason = "a key that is missing reads as null, which no comparison meets"
)]

mod call;
mod loads;
mod props;
mod sources;
mod strength;

use serde_json::Value;
use std::collections::BTreeMap;

/// A published case.
struct Case {
    id: String,
    topic: String,
    inputs: Value,
    expected: Value,
    tolerance: f64,
    source: String,
}

/// What became of a case.
enum Outcome {
    /// Computed, with the same shape as what is expected.
    Found(Value),
    /// Not computable, and why.
    NotRun(&'static str),
}

fn cases() -> Vec<Case> {
    let all: Vec<Value> = serde_json::from_str(include_str!("cases.json")).unwrap();
    all.into_iter()
        .map(|case| Case {
            id: case["id"].as_str().unwrap().to_owned(),
            topic: case["topic"].as_str().unwrap().to_owned(),
            inputs: case["inputs"].clone(),
            expected: case["expected"].clone(),
            tolerance: case["tolerance"].as_f64().unwrap(),
            source: case["source"].as_str().unwrap().to_owned(),
        })
        .collect()
}

fn disputed() -> BTreeMap<String, String> {
    let all: Vec<Value> = serde_json::from_str(include_str!("disputed.json")).unwrap();
    all.into_iter()
        .map(|case| {
            for key in ["reason", "better"] {
                assert!(
                    case[key].as_str().is_some_and(|text| text.len() > 10),
                    "a disputed case needs its {key}"
                );
            }
            (
                case["id"].as_str().unwrap().to_owned(),
                case["reason"].as_str().unwrap().to_owned(),
            )
        })
        .collect()
}

fn compute(case: &Case) -> Option<Outcome> {
    loads::compute(case)
        .or_else(|| strength::compute(case))
        .or_else(|| props::compute(case))
}

/// Differences between what is expected and what was found, each with its place.
fn differences(place: &str, expected: &Value, found: &Value, tolerance: f64, out: &mut Vec<String>) {
    match (expected, found) {
        (Value::Number(e), Value::Number(f)) => {
            let (e, f) = (e.as_f64().unwrap(), f.as_f64().unwrap());
            // A tolerance of 0 means the printed digits; binary fractions need a hair beside them.
            let allowed = (tolerance * e.abs()).max(1e-9);
            if (e - f).abs() > allowed {
                out.push(format!("{place}: printed {e}, computed {f:.5}"));
            }
        }
        (Value::Array(e), Value::Array(f)) if e.len() == f.len() => {
            for (i, (e, f)) in e.iter().zip(f).enumerate() {
                differences(&format!("{place}[{i}]"), e, f, tolerance, out);
            }
        }
        (Value::Object(e), Value::Object(f)) => {
            // A formula in words says what the numbers beside it are; it is nothing to compute.
            for (key, e) in e.iter().filter(|(key, _)| *key != "formula") {
                match f.get(key) {
                    Some(f) => differences(&format!("{place}/{key}"), e, f, tolerance, out),
                    None => out.push(format!("{place}/{key}: nothing computed")),
                }
            }
        }
        (e, f) if e == f => {}
        (e, f) => out.push(format!("{place}: printed {e}, computed {f}")),
    }
}

#[test]
fn published_values_are_met() {
    let disputed = disputed();
    let (mut ran, mut set_aside, mut skipped, mut failures) = (0_u32, 0_u32, Vec::new(), Vec::new());
    let all = cases();
    for case in &all {
        if let Some(reason) = disputed.get(&case.id) {
            println!("DISPUTED {} {}: {reason}", case.id, case.topic);
            set_aside += 1;
            continue;
        }
        match compute(case) {
            None => failures.push(format!("{} {}: no function for this topic", case.id, case.topic)),
            Some(Outcome::NotRun(reason)) => skipped.push(format!("NOT RUN {} {}: {reason}", case.id, case.topic)),
            Some(Outcome::Found(found)) => {
                ran += 1;
                let mut off = Vec::new();
                differences("", &case.expected, &found, case.tolerance, &mut off);
                failures.extend(
                    off.into_iter()
                        .map(|o| format!("{} {} {o} ({})", case.id, case.topic, case.source)),
                );
            }
        }
    }
    for line in &skipped {
        println!("{line}");
    }
    println!(
        "published: {} cases, {ran} ran, {set_aside} disputed, {} not run",
        all.len(),
        skipped.len()
    );
    assert!(failures.is_empty(), "{} off:\n{}", failures.len(), failures.join("\n"));
    assert!(
        skipped.len() <= 1,
        "only a case whose source hides an input may stay unrun"
    );
}

#[test]
fn the_comparison_notices_a_wrong_value() {
    let expected = serde_json::json!({ "a": [1.0, 2.0], "b": true, "c": 3 });
    for wrong in [
        serde_json::json!({ "a": [1.0, 2.1], "b": true, "c": 3 }),
        serde_json::json!({ "a": [1.0], "b": true, "c": 3 }),
        serde_json::json!({ "a": [1.0, 2.0], "b": false, "c": 3 }),
        serde_json::json!({ "a": [1.0, 2.0], "b": true }),
    ] {
        let mut off = Vec::new();
        differences("", &expected, &wrong, 0.01, &mut off);
        assert_eq!(off.len(), 1, "{wrong}");
    }
}

#[test]
fn disputed_cases_exist() {
    let further = sources::SOURCES.iter().flat_map(|s| s.rows().map(|(_, row)| row.id(s)));
    let ids: Vec<String> = cases().into_iter().map(|case| case.id).chain(further).collect();
    let disputed = disputed();
    assert!(disputed.keys().all(|id| ids.contains(id)), "{disputed:?}");
    assert!(disputed.len() <= 3, "more disputes than that are a fault of ours");
}
