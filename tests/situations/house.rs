//! Houses to start from, edits to them, and what is read out of an answer.

use super::program::{example, size};
use serde_json::{Value, json};

/// A ready house type with keys set by JSON pointer; a parent that is null becomes an object.
pub fn house(name: &str, edits: &[(&str, Value)]) -> Value {
    let mut job = example(name);
    edit(&mut job, edits);
    job
}

/// Sets keys by JSON pointer.
pub fn edit(job: &mut Value, edits: &[(&str, Value)]) {
    for (pointer, value) in edits {
        let (parent, key) = pointer.rsplit_once('/').unwrap();
        job.pointer_mut(parent).unwrap()[key] = value.clone();
    }
}

/// An independent check of its own, so that nothing but the case itself keeps a job from holding.
pub fn checked() -> (&'static str, Value) {
    (
        "/check",
        json!({"name": "A. Checker", "date": "2026-03-01", "category": 2}),
    )
}

/// A floor of the hand checks: timber, 0.5 dead and 1.5 imposed, no partitions.
pub fn floor(inside_m: f64, outside_m: f64, bearing_m: f64) -> Value {
    json!({"leaf": "inner", "inside_span_m": inside_m, "outside_span_m": outside_m, "direction": "onto", "continuous": false,
        "joist_spacing_m": 0.4, "joist_depth_m": 0.2, "dead_kn_m2": 0.5, "imposed_kn_m2": 1.5, "partitions_kn_m2": 0.0,
        "empty": false, "slept_in": false, "bearing_m": bearing_m})
}

/// Whether a list of reasons has a code.
pub fn has(reasons: &Value, code: &str) -> bool {
    words(reasons, code).is_some()
}

/// The words of a reason.
pub fn words(reasons: &Value, code: &str) -> Option<String> {
    let found = reasons.as_array()?.iter().find(|reason| reason["code"] == code)?;
    found["words"].as_str().map(str::to_owned)
}

/// Largest utilisation of the checks by a name; none where there is no such check.
pub fn worst(checks: &Value, name: &str) -> Option<f64> {
    let named = checks.as_array()?.iter().filter(|check| check["name"] == name);
    named.filter_map(|check| check["utilisation"].as_f64()).reduce(f64::max)
}

/// Whether something may be built from an answer.
pub fn held(answer: &Value) -> bool {
    ["holds", "close"].iter().any(|word| answer["standing"] == *word)
}

/// Asserts that the method does not apply, for a reason by its code, and gives the reason's words.
pub fn no_model(job: &Value, code: &str) -> String {
    let answer = size(job);
    assert_eq!(answer["standing"], "needs_own_design", "{code}");
    assert_eq!(answer["refusal"], "no_model", "{code}");
    assert_eq!(answer["options"], json!([]), "nothing to build from: {code}");
    assert!(answer["nearest"].is_null(), "nothing near it either: {code}");
    assert_eq!(answer["brackets"]["allowed"], false, "{code}");
    words(&answer["reasons"], code).unwrap_or_else(|| panic!("no reason {code} in {}", answer["reasons"]))
}

/// Total service load on the needles, kN.
pub fn total_kn(answer: &Value) -> f64 {
    answer["load"]["total_service_kn"].as_f64().unwrap()
}

/// Dead and imposed load of one part of the weight, kN.
pub fn part_kn(answer: &Value, what: &str) -> f64 {
    let parts = answer["load"]["parts"]
        .as_array()
        .unwrap()
        .iter()
        .filter(|part| part["what"] == what);
    parts
        .map(|part| part["dead_kn"].as_f64().unwrap() + part["imposed_kn"].as_f64().unwrap())
        .sum()
}

/// Axes of an option's needles, m.
pub fn axes(option: &Value) -> Vec<f64> {
    option["needles"]
        .as_array()
        .unwrap()
        .iter()
        .map(|needle| needle["x_m"].as_f64().unwrap())
        .collect()
}
