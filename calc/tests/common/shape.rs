//! Whether a value has the shape of a schema.

use serde_json::Value;

/// What of a value does not fit a schema, by the parts of JSON Schema that this project's schemas use. A number that is not
/// finite is written as null, which no number's schema fits.
pub fn misfits(schema: &Value, value: &Value, at: &str, out: &mut Vec<String>) {
    if let Some(choices) = schema.get("anyOf").and_then(Value::as_array) {
        let fits = |choice: &Value| {
            let mut inner = Vec::new();
            misfits(choice, value, at, &mut inner);
            inner.is_empty()
        };
        if !choices.iter().any(fits) {
            out.push(format!("{at}: {value} fits no choice"));
        }
        return;
    }
    if let Some(constant) = schema.get("const") {
        if constant != value {
            out.push(format!("{at}: {value} is not {constant}"));
        }
        return;
    }
    if let Some(words) = schema.get("enum").and_then(Value::as_array) {
        if !words.contains(value) {
            out.push(format!("{at}: {value} is not one of {words:?}"));
        }
        return;
    }
    let fits = match schema.get("type").and_then(Value::as_str) {
        Some("number") => value.as_f64().is_some_and(f64::is_finite),
        Some("integer") => value.is_u64(),
        Some("string") => value.is_string(),
        Some("boolean") => value.is_boolean(),
        Some("null") => value.is_null(),
        Some("array") => value.is_array(),
        Some("object") => value.is_object(),
        _ => true,
    };
    if !fits {
        out.push(format!("{at}: {value} is not of type {}", schema["type"]));
        return;
    }
    for key in schema.get("required").and_then(Value::as_array).into_iter().flatten() {
        if value.get(key.as_str().unwrap()).is_none() {
            out.push(format!("{at}: {key} is missing"));
        }
    }
    for (key, inner) in schema
        .get("properties")
        .and_then(Value::as_object)
        .into_iter()
        .flatten()
    {
        if let Some(value) = value.get(key) {
            misfits(inner, value, &format!("{at}/{key}"), out);
        }
    }
    if let (Some(inner), Some(items)) = (schema.get("items"), value.as_array()) {
        for (i, item) in items.iter().enumerate() {
            misfits(inner, item, &format!("{at}/{i}"), out);
        }
    }
}
