//! JSON Schemas of a round and of what it says.

use crate::job::ROUND;
use crate::job::schema::json_schema;
use serde_json::{Value, json};

/// JSON Schema of a round.
#[must_use]
pub fn schema() -> Value {
    let mut schema = json_schema("round", ROUND);
    let job = json_schema("job", crate::job::job_schema());
    if let Some(properties) = schema.get_mut("properties").and_then(Value::as_object_mut) {
        properties.insert("contract".to_owned(), json!({"const": 1}));
        properties.insert("job".to_owned(), job);
        properties.insert(
            "option".to_owned(),
            json!({"type": "object", "description": "one option of a proposal, as proposed"}),
        );
        properties.insert(
            "earlier".to_owned(),
            json!({"type": "array", "items": {"type": "array"}}),
        );
        properties.insert(
            "earlier_gauges".to_owned(),
            json!({"type": "array", "items": {"type": "array"}}),
        );
        properties.insert("at".to_owned(), json!({"type": "string", "format": "date-time"}));
    }
    if let Some(map) = schema.as_object_mut() {
        map.insert(
            "required".to_owned(),
            json!(["contract", "job", "option", "at", "readings", "job_checks"]),
        );
    }
    schema
}

/// JSON Schema of an evaluation.
#[must_use]
pub fn evaluation_schema() -> Value {
    let number = json!({"type": "number"});
    let text = json!({"type": "string"});
    let flag = json!({"type": "boolean"});
    let object = |properties: Value| json!({"type": "object", "properties": properties});
    let list = |items: Value| json!({"type": "array", "items": items});
    let prop = object(
        json!({"name": text, "kappa": number, "working_load_kn": number, "load_kn": number, "utilisation": number,
        "in_basis": flag, "take_up_mm": number, "do": list(text.clone())}),
    );
    json!({
        "$schema": "https://json-schema.org/draft/2020-12/schema", "title": "evaluation", "type": "object",
        "required": ["passed", "stop", "ring", "out", "props", "sideways", "gauges", "reasons"],
        "properties": {
            "passed": flag, "stop": flag, "ring": flag, "out": flag, "props": list(prop),
            "sideways": object(json!({"demand_kn": number, "resistance_kn": number, "utilisation": number})),
            "gauges": list(object(json!({"name": text, "since_start_mm": number, "since_last_mm": number}))),
            "reasons": list(object(json!({"code": text, "words": text})))
        }
    })
}
