//! Rows that a correction hands over, read field by field, so that what cannot be is told by its name with what would be right.

use super::gauges::GaugeRead;
use super::taking_out::Turn;
use crate::failure::{Answer, Failure};
use serde_json::{Map, Value};

/// Most characters of what stands there that are told.
const TOLD: usize = 60;

/// How rows are written.
const TURN: &str = r#"{"prop": "N1-in", "turns": 0.25}"#;
const GAUGE: &str = r#"{"name": "G1", "mm": 1.2}"#;

/// One row with where it stands.
struct Row<'a> {
    /// As words: `turns 2`.
    at: String,
    /// As a path: `/turns/1`.
    path: String,
    members: &'a Map<String, Value>,
    example: &'static str,
}

/// A refusal that names the field.
pub(super) fn refused(path: &str, words: String) -> Failure {
    Failure::new("not_corrected", words).at(path)
}

/// What stands there, as it was handed over.
fn told(value: &Value) -> String {
    let text = value.to_string();
    match text.char_indices().nth(TOLD) {
        Some((end, _)) => format!("{} …", text.get(..end).unwrap_or_default()),
        None => text,
    }
}

/// Turns of props, downwards.
pub(super) fn turns(value: &Value) -> Answer<Vec<Turn>> {
    let read = |row: &Row<'_>| {
        row.only(&["prop", "turns", "thread_mm"])?;
        Ok(Turn {
            prop: row.text("prop", "N1-in")?.to_owned(),
            turns: row.number("turns", "0.25")?,
            thread_mm: match row.members.get("thread_mm") {
                None | Some(Value::Null) => None,
                Some(_) => Some(row.number("thread_mm", "6")?),
            },
        })
    };
    rows("turns", value, TURN)?.iter().map(read).collect()
}

/// Readings of gauges.
pub(super) fn gauges(value: &Value) -> Answer<Vec<GaugeRead>> {
    let read = |row: &Row<'_>| {
        row.only(&["name", "mm"])?;
        Ok(GaugeRead {
            name: row.text("name", "G1")?.to_owned(),
            mm: row.number("mm", "1.2")?,
        })
    };
    rows("gauges", value, GAUGE)?.iter().map(read).collect()
}

/// Names of props.
pub(super) fn names(key: &str, value: &Value) -> Answer<Vec<String>> {
    let example = r#"["N1-in"]"#;
    let name = |(place, one): (usize, &Value)| {
        let (at, path) = (format!("{key} {}", place + 1), format!("/{key}/{place}"));
        let name = one.as_str().map(str::to_owned);
        name.ok_or_else(|| text_needed(&path, &at, one, "N1-in"))
    };
    list(key, value, example)?.iter().enumerate().map(name).collect()
}

/// A text is needed and something else stands there.
pub(super) fn text_needed(path: &str, at: &str, value: &Value, example: &str) -> Failure {
    let words = format!("{at}: {} stands there. Text is needed, as \"{example}\".", told(value));
    refused(path, words)
}

fn list<'a>(key: &str, value: &'a Value, example: &str) -> Answer<&'a Vec<Value>> {
    value.as_array().ok_or_else(|| {
        let words = format!("{key}: {} stands there. A list is needed, as {example}.", told(value));
        refused(&format!("/{key}"), words)
    })
}

fn rows<'a>(key: &str, value: &'a Value, example: &'static str) -> Answer<Vec<Row<'a>>> {
    let row = |(place, one): (usize, &'a Value)| {
        let (at, path) = (format!("{key} {}", place + 1), format!("/{key}/{place}"));
        match one.as_object() {
            Some(members) => Ok(Row {
                at,
                path,
                members,
                example,
            }),
            None => {
                let words = format!("{at}: {} stands there. A row is needed, as {example}.", told(one));
                Err(refused(&path, words))
            }
        }
    };
    let all = list(key, value, &format!("[{example}]"))?;
    all.iter().enumerate().map(row).collect()
}

impl Row<'_> {
    /// Nothing stands in it but these.
    fn only(&self, known: &[&str]) -> Answer<()> {
        match self.members.keys().find(|key| !known.contains(&key.as_str())) {
            None => Ok(()),
            Some(other) => {
                let words = format!(
                    "{}: “{other}” is not known here. A row holds {}.",
                    self.at,
                    known.join(", ")
                );
                Err(refused(&format!("{}/{other}", self.path), words))
            }
        }
    }

    fn member(&self, key: &str) -> Answer<(&Value, String, String)> {
        let path = format!("{}/{key}", self.path);
        let value = self.members.get(key).ok_or_else(|| {
            let words = format!("{}: {key} is missing. A row is written as {}.", self.at, self.example);
            refused(&path, words)
        })?;
        Ok((value, format!("{}, {key}", self.at), path))
    }

    fn text(&self, key: &str, example: &str) -> Answer<&str> {
        let (value, at, path) = self.member(key)?;
        value.as_str().ok_or_else(|| text_needed(&path, &at, value, example))
    }

    fn number(&self, key: &str, example: &str) -> Answer<f64> {
        let (value, at, path) = self.member(key)?;
        value.as_f64().ok_or_else(|| {
            let words = format!("{at}: {} stands there. A number is needed, as {example}.", told(value));
            refused(&path, words)
        })
    }
}
