//! Calling clause functions by name, as a script would.

use calc::clause::evaluate;
use serde_json::Value;

/// Text of an argument: lists between commas, numbers and words as they are.
fn text(value: &Value) -> String {
    match value {
        Value::String(text) => text.clone(),
        Value::Array(items) => items.iter().map(text).collect::<Vec<_>>().join(","),
        other => other.to_string(),
    }
}

fn arguments(args: &[(&str, Value)]) -> Vec<(String, String)> {
    args.iter()
        .map(|(name, value)| ((*name).to_owned(), text(value)))
        .collect()
}

/// All values of a clause function.
pub fn values(name: &str, args: &[(&str, Value)]) -> Value {
    let answer = evaluate(name, &arguments(args));
    assert!(answer.is_ok(), "{name} {args:?}: {answer:?}");
    answer.unwrap().values
}

/// The one number of a clause function.
pub fn number(name: &str, args: &[(&str, Value)]) -> f64 {
    let answer = evaluate(name, &arguments(args)).unwrap();
    answer.value.as_f64().unwrap()
}

/// The value of a clause function called with arguments as text, and all its values; or why it refused.
pub fn answer(name: &str, args: &[(String, String)]) -> Result<(Value, Value), String> {
    evaluate(name, args)
        .map(|answer| (answer.value, answer.values))
        .map_err(|error| error.to_string())
}

/// Whether a clause function refuses these arguments.
pub fn refuses(name: &str, args: &[(&str, Value)]) -> bool {
    evaluate(name, &arguments(args)).is_err()
}

/// A list of numbers.
pub fn list(value: &Value) -> Vec<f64> {
    value.as_array().unwrap().iter().map(|n| n.as_f64().unwrap()).collect()
}
