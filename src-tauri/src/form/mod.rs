//! From the fields of the screens to the job that `calc` reads, and back.
//!
//! A screen keeps every field as the text that was typed, under the JSON pointer of the key it fills (`/opening/width_m`
//! → `3,6 m`). [`assemble`] turns such a set into the job's JSON. What a key may hold is asked of `calc`'s own schema, so
//! there is no second list of keys here; ranges and missing keys stay `calc`'s business too.

mod quantity;
mod tree;

pub use quantity::number;

use calc::Problem;
use calc::job::job_schema;
use calc::job::schema::{Field, Kind};
use serde_json::{Map, Value, json};
use std::collections::BTreeMap;

/// Fields as typed, by the path of the key that each fills.
pub type Fields = BTreeMap<String, String>;

/// Paths that a job keeps beside the description: its name, its place, and the round being written.
const BESIDE: [&str; 2] = ["/job/", "/round/"];

/// Text that says "none of these": a list with nothing in it, which is not the same as a list nobody asked about.
const EMPTY_LIST: &str = "[]";

/// The contract that the assembled job says it follows.
const CONTRACT: u32 = 1;

/// Whether a field belongs to the job's description rather than to its name or to a round.
#[must_use]
pub fn describes(path: &str) -> bool {
    !BESIDE.iter().any(|beside| path.starts_with(beside))
}

/// Builds the job's JSON from the fields. A field that cannot be read is left out and named in the problems, each with
/// what is wrong and what would be right. Empty text counts as absent; `null` on a key takes away all below it.
#[must_use]
pub fn assemble(fields: &Fields) -> (Value, Vec<Problem>) {
    let mut problems = Vec::new();
    let mut root = tree::Node::default();
    for (path, text) in fields
        .iter()
        .filter(|(path, text)| describes(path) && !text.trim().is_empty())
    {
        match value_at(path, text.trim()) {
            Ok(value) => {
                if let Err(problem) = root.put(path, value) {
                    problems.push(problem);
                }
            }
            Err(problem) => problems.push(problem),
        }
    }
    let mut job = match root.into_value() {
        Value::Object(map) => map,
        _ => Map::new(),
    };
    // Whoever described a wall and never said whether it is a gable has not said that it is none.
    if let Some(wall) = job.get_mut("wall").and_then(Value::as_object_mut) {
        wall.entry("gable").or_insert(Value::Bool(true));
    }
    job.shift_insert(0, "contract".to_owned(), json!(CONTRACT));
    (Value::Object(job), problems)
}

/// The fields that give this job back when assembled: what the demo and the ready house types fill in.
#[must_use]
pub fn flatten(job: &Value) -> Fields {
    let mut fields = Fields::new();
    if let Value::Object(map) = job {
        for (key, value) in map.iter().filter(|(key, _)| *key != "contract") {
            flatten_into(&mut fields, format!("/{key}"), value);
        }
    }
    fields
}

fn flatten_into(fields: &mut Fields, path: String, value: &Value) {
    match value {
        Value::Object(map) => {
            for (key, below) in map {
                flatten_into(fields, format!("{path}/{key}"), below);
            }
        }
        Value::Array(items) if items.is_empty() => {
            fields.insert(path, EMPTY_LIST.to_owned());
        }
        Value::Array(items) => {
            for (index, below) in items.iter().enumerate() {
                flatten_into(fields, format!("{path}/{index}"), below);
            }
        }
        Value::String(text) => {
            fields.insert(path, text.clone());
        }
        // An absent key means the same as null in a job, and an absent field is easier to read on a screen.
        Value::Null => {}
        Value::Bool(_) | Value::Number(_) => {
            fields.insert(path, value.to_string());
        }
    }
}

/// Reads one text as what the schema says the path holds.
fn value_at(path: &str, text: &str) -> Result<Value, Problem> {
    if text == "null" {
        return Ok(Value::Null);
    }
    let kind = kind_at(path);
    let unit = kind.and_then(quantity::unit_of);
    match kind {
        Some(Kind::List(..)) if text == EMPTY_LIST => Ok(Value::Array(Vec::new())),
        Some(Kind::Number(..) | Kind::Whole(..)) => number(path, text, unit).map(json_number),
        Some(Kind::Flag) => match text {
            "true" | "yes" => Ok(Value::Bool(true)),
            "false" | "no" => Ok(Value::Bool(false)),
            _ => Err(Problem::new(
                path,
                format!("`{text}` is neither yes nor no"),
                "true or false",
            )),
        },
        Some(Kind::Tuple(_) | Kind::List(Kind::Number(..), _)) => {
            let read = quantity::numbers(path, text, unit)?;
            Ok(read.into_iter().map(json_number).collect())
        }
        // Unknown keys go through as they are: `calc` names them and the nearest key it knows.
        Some(Kind::Text(_) | Kind::Choice(_) | Kind::TextOr(_) | Kind::List(..) | Kind::Object(_)) | None => {
            Ok(Value::String(text.to_owned()))
        }
    }
}

/// A whole number stays whole, so that a job reads the same after a round trip.
fn json_number(read: f64) -> Value {
    // 2^53: up to here every whole number is exact.
    if read.fract() == 0.0 && read.abs() < 9_007_199_254_740_992.0 {
        // The check above makes the cast exact.
        json!(read as i64)
    } else {
        json!(read)
    }
}

/// What the schema says stands at a path, or nothing for a path it does not know.
fn kind_at(path: &str) -> Option<Kind> {
    let mut kind = Kind::Object(job_schema());
    for part in path.strip_prefix('/')?.split('/') {
        kind = match kind {
            Kind::Object(fields) | Kind::TextOr(fields) => key_kind(fields, part)?,
            Kind::List(each, _) => {
                part.parse::<usize>().ok()?;
                *each
            }
            Kind::Tuple(kinds) => *kinds.get(part.parse::<usize>().ok()?)?,
            Kind::Number(..) | Kind::Whole(..) | Kind::Flag | Kind::Text(_) | Kind::Choice(_) => return None,
        };
    }
    Some(kind)
}

fn key_kind(fields: &'static [Field], key: &str) -> Option<Kind> {
    fields.iter().find(|field| field.key == key).map(|field| field.kind)
}

#[cfg(test)]
mod houses;
#[cfg(test)]
mod shown;
#[cfg(test)]
mod tests;
