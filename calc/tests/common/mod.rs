//! What the tests of `calc` share: random plausible jobs over the full contract, and what is read out of an answer.

#![allow(dead_code, reason = "each test binary takes what it needs")]

pub mod jobs;
pub mod shape;

use proptest::prelude::TestCaseError;
use serde_json::Value;

/// The answer to a job that has no problems, as JSON.
pub fn size(job: &Value) -> Result<Value, TestCaseError> {
    let answer = calc::size_value(job).map_err(|problems| TestCaseError::fail(format!("{problems:?} in {job}")))?;
    serde_json::to_value(answer).map_err(|error| TestCaseError::fail(error.to_string()))
}

/// Numbers of a list of objects by key.
pub fn each(list: &Value, key: &str) -> Vec<f64> {
    list.as_array()
        .into_iter()
        .flatten()
        .filter_map(|item| item[key].as_f64())
        .collect()
}

/// The options of an answer.
pub fn options(answer: &Value) -> &[Value] {
    // The engineer's own comes first and follows the engineer's figures, not the job's.
    let all = answer["options"].as_array().map_or(&[][..], Vec::as_slice);
    let own = all
        .iter()
        .position(|option| option["by"] == "tool")
        .unwrap_or(all.len());
    all.get(own..).unwrap_or_default()
}

/// The first option, else the nearest: what an arrangement that is held still comes to.
pub fn shown(answer: &Value) -> &Value {
    options(answer).first().unwrap_or(&answer["nearest"])
}

/// Sets keys by JSON pointer.
pub fn edit(job: &mut Value, edits: &[(&str, Value)]) {
    for (pointer, value) in edits {
        let (parent, key) = pointer.rsplit_once('/').unwrap();
        job.pointer_mut(parent).unwrap()[key] = value.clone();
    }
}

/// Worst utilisation of an option.
pub fn used(option: &Value) -> f64 {
    option["worst_utilisation"].as_f64().unwrap_or(f64::NAN)
}

/// Whether two numbers are the same but for rounding.
pub fn near(a: f64, b: f64) -> bool {
    (a - b).abs() <= 1e-6 * a.abs().max(b.abs()).max(1.0)
}

/// All paths of a JSON value that meet a condition, as JSON pointers.
pub fn paths(value: &Value, wanted: fn(&Value) -> bool) -> Vec<String> {
    fn walk(value: &Value, path: String, wanted: fn(&Value) -> bool, out: &mut Vec<String>) {
        match value {
            Value::Array(items) => items
                .iter()
                .enumerate()
                .for_each(|(i, item)| walk(item, format!("{path}/{i}"), wanted, out)),
            Value::Object(map) => map
                .iter()
                .for_each(|(key, item)| walk(item, format!("{path}/{key}"), wanted, out)),
            _ => {}
        }
        if wanted(value) {
            out.push(path);
        }
    }
    let mut out = Vec::new();
    walk(value, String::new(), wanted, &mut out);
    out
}
