//! Reading the contract's JSON for print: what is missing or of another kind is shown as a dash, never invented.

use super::words::in_words;
use serde_json::Value;

/// A text, or a dash.
pub fn text(value: &Value, key: &str) -> String {
    match value.get(key) {
        Some(Value::String(words)) => words.clone(),
        Some(Value::Number(number)) => number.to_string(),
        Some(Value::Bool(yes)) => (if *yes { "yes" } else { "no" }).to_owned(),
        _ => "–".to_owned(),
    }
}

/// A number.
pub fn number(value: &Value, key: &str) -> Option<f64> {
    value.get(key).and_then(Value::as_f64)
}

/// A number with a unit and some decimals, or a dash.
pub fn figure(value: &Value, key: &str, decimals: usize, unit: &str) -> String {
    number(value, key).map_or_else(|| "–".to_owned(), |number| shown(number, decimals, unit))
}

/// A number with a unit; no minus stands before a zero.
pub fn shown(number: f64, decimals: usize, unit: &str) -> String {
    let digits = format!("{number:.decimals$}");
    let digits = if digits.chars().all(|c| matches!(c, '-' | '0' | '.')) {
        digits.replace('-', "")
    } else {
        digits
    };
    // A bare ratio or a check of place has a dash for its unit.
    if unit.is_empty() || unit == "-" || unit == "–" {
        digits
    } else {
        format!("{digits} {unit}")
    }
}

/// A share as per cent, rounded up so that it never looks better than it is.
pub fn used(share: Option<f64>) -> String {
    share.map_or_else(
        || "–".to_owned(),
        |share| format!("{} %", shown((share * 100.0 - 1e-6).ceil(), 0, "")),
    )
}

/// The rows under a key.
pub fn rows<'v>(value: &'v Value, key: &str) -> &'v [Value] {
    value.get(key).and_then(Value::as_array).map_or(&[], Vec::as_slice)
}

/// The program's own texts under a key, in words.
pub fn texts(value: &Value, key: &str) -> Vec<String> {
    rows(value, key)
        .iter()
        .filter_map(Value::as_str)
        .map(in_words)
        .collect()
}

/// The words of the reasons under a key.
pub fn reasons(value: &Value, key: &str) -> Vec<String> {
    rows(value, key)
        .iter()
        .map(|reason| in_words(&text(reason, "words")))
        .collect()
}

/// The standing in words.
pub fn standing(value: &Value) -> &'static str {
    match value.get("standing").and_then(Value::as_str) {
        Some("holds") => "Holds, as described",
        Some("close") => "Close to its limit",
        Some("does_not_hold") => "Does not hold. Do not load",
        Some("needs_own_design") => "Needs its own design by an engineer",
        _ => "No answer is kept",
    }
}
