//! A small schema: which keys an object may have, what each may hold, and what stands in when it is missing.
//!
//! One walk checks a whole document, collects every problem, and writes the defaults in with a listed assumption each.

use crate::problem::Problem;
use crate::proposal::Assumption;
use crate::units::{self, Unit};
use serde_json::{Map, Value, json};

/// What a value may be.
#[derive(Clone, Copy, Debug)]
pub enum Kind {
    /// A finite number from `min` to `max`, in `unit`; where the unit is known to [`Unit`], also text with any unit of its
    /// kind, converted before the range is checked.
    Number(f64, f64, &'static str),
    /// A whole number from `min` to `max`.
    Whole(u32, u32),
    /// True or false.
    Flag,
    /// Text of at most this many characters.
    Text(usize),
    /// One of these words.
    Choice(&'static [&'static str]),
    /// An object with these keys.
    Object(&'static [Field]),
    /// A list of at most this many.
    List(&'static Kind, usize),
    /// A list of exactly this many numbers.
    Tuple(&'static [Kind]),
    /// Text, or an object.
    TextOr(&'static [Field]),
}

/// What stands in for a missing key.
#[derive(Clone, Copy, Debug)]
pub enum Missing {
    /// The key must be there.
    Required,
    /// Absent or null has a meaning of its own.
    Null,
    /// The key stays away.
    Absent,
    /// This JSON text is taken and listed, with plain words and a source.
    Taken(&'static str, &'static str, &'static str),
    /// This JSON text is taken without being listed: an empty list or "not this".
    Quiet(&'static str),
}

/// A key of an object.
#[derive(Clone, Copy, Debug)]
pub struct Field {
    /// Key.
    pub key: &'static str,
    /// What it may hold.
    pub kind: Kind,
    /// What stands in for it.
    pub missing: Missing,
}

/// Shorthand for a field.
#[must_use]
pub const fn field(key: &'static str, kind: Kind, missing: Missing) -> Field {
    Field { key, kind, missing }
}

/// Walks a document; afterwards holds all problems and all assumptions.
#[derive(Debug, Default)]
pub struct Reader {
    /// Problems found.
    pub problems: Vec<Problem>,
    /// Assumptions made.
    pub assumptions: Vec<Assumption>,
}

impl Reader {
    /// Checks an object and returns it with the defaults filled in.
    pub fn object(&mut self, path: &str, value: &Value, fields: &'static [Field]) -> Value {
        let Some(map) = value.as_object() else {
            self.wrong(
                path,
                format!("{} where an object is asked", shown(value)),
                keys_words(fields),
            );
            return Value::Null;
        };
        for key in map.keys() {
            if !fields.iter().any(|field| field.key == key) {
                self.wrong(
                    &format!("{path}/{key}"),
                    format!("unknown key `{key}`"),
                    nearest_key(key, fields),
                );
            }
        }
        let mut out = Map::new();
        for field in fields {
            let here = format!("{path}/{}", field.key);
            let given = map.get(field.key);
            match (given, field.missing) {
                (Some(given), missing) if !given.is_null() || matches!(missing, Missing::Required) => {
                    let read = self.value(&here, given, field.kind);
                    out.insert(field.key.to_owned(), read);
                }
                (None, Missing::Required) => self.wrong(&here, "missing".to_owned(), kind_words(field.kind)),
                (Some(_) | None, Missing::Null) => {
                    out.insert(field.key.to_owned(), Value::Null);
                }
                (Some(_), Missing::Required) | (Some(_) | None, Missing::Absent) => {}
                (Some(_) | None, Missing::Taken(text, words, source)) => {
                    let taken: Value = serde_json::from_str(text).unwrap_or(Value::Null);
                    // A default object brings its own assumptions, one for each of its keys, and none for itself.
                    let taken = if taken.is_object() {
                        self.value(&here, &taken, field.kind)
                    } else {
                        self.assumptions.push(Assumption {
                            path: here,
                            value: taken.clone(),
                            words: words.to_owned(),
                            source: source.to_owned(),
                        });
                        taken
                    };
                    out.insert(field.key.to_owned(), taken);
                }
                (Some(_) | None, Missing::Quiet(text)) => {
                    let taken: Value = serde_json::from_str(text).unwrap_or(Value::Null);
                    let taken = if taken.is_object() {
                        self.value(&here, &taken, field.kind)
                    } else {
                        taken
                    };
                    out.insert(field.key.to_owned(), taken);
                }
            }
        }
        Value::Object(out)
    }

    fn value(&mut self, path: &str, value: &Value, kind: Kind) -> Value {
        match kind {
            Kind::Number(min, max, unit) => self.number(path, value, min, max, unit),
            Kind::Whole(min, max) => {
                let fits = value
                    .as_f64()
                    .is_some_and(|n| n.fract().abs() < f64::EPSILON && n >= f64::from(min) && n <= f64::from(max));
                if fits {
                    // The range check above makes the cast exact.
                    json!(value.as_f64().unwrap_or_default() as u32)
                } else {
                    self.wrong(path, shown(value), kind_words(kind));
                    Value::Null
                }
            }
            Kind::Flag => self.check(path, value, kind, value.is_boolean()),
            Kind::Text(longest) => {
                let fits = value.as_str().is_some_and(|text| text.chars().count() <= longest);
                self.check(path, value, kind, fits)
            }
            Kind::Choice(words) => {
                let fits = value.as_str().is_some_and(|text| words.contains(&text));
                self.check(path, value, kind, fits)
            }
            Kind::Object(fields) => self.object(path, value, fields),
            Kind::List(each, longest) => match value.as_array() {
                Some(items) if items.len() <= longest => {
                    let read = items.iter().enumerate();
                    Value::Array(
                        read.map(|(i, item)| self.value(&format!("{path}/{i}"), item, *each))
                            .collect(),
                    )
                }
                _ => self.check(path, value, kind, false),
            },
            Kind::Tuple(kinds) => match value.as_array() {
                Some(items) if items.len() == kinds.len() => {
                    let read = items.iter().zip(kinds).enumerate();
                    Value::Array(
                        read.map(|(i, (item, each))| self.value(&format!("{path}/{i}"), item, *each))
                            .collect(),
                    )
                }
                _ => self.check(path, value, kind, false),
            },
            Kind::TextOr(fields) => {
                if value.is_string() {
                    self.value(path, value, Kind::Text(80))
                } else {
                    self.object(path, value, fields)
                }
            }
        }
    }

    fn number(&mut self, path: &str, value: &Value, min: f64, max: f64, unit: &'static str) -> Value {
        let read = match (value.as_str(), Unit::of_symbol(unit)) {
            (Some(text), Some(known)) => match units::read(text, known) {
                Ok(number) => Some(number),
                Err(error) => {
                    self.wrong(path, error.wrong, error.right);
                    return Value::Null;
                }
            },
            _ => value.as_f64(),
        };
        let Some(number) = read.filter(|n| n.is_finite()) else {
            self.wrong(path, shown(value), kind_words(Kind::Number(min, max, unit)));
            return Value::Null;
        };
        if number >= min && number <= max {
            return json!(number);
        }
        let mut right = kind_words(Kind::Number(min, max, unit));
        // A slip between millimetres and metres is the likeliest wrong number.
        for factor in [1e-3, 1e3] {
            let other = number * factor;
            if other >= min && other <= max && other > 0.0 {
                right = format!("{right}; perhaps {} {unit}", trim(other));
                break;
            }
        }
        self.wrong(path, format!("{} {unit} is out of range", trim(number)), right);
        Value::Null
    }

    fn check(&mut self, path: &str, value: &Value, kind: Kind, fits: bool) -> Value {
        if fits {
            value.clone()
        } else {
            self.wrong(path, shown(value), kind_words(kind));
            Value::Null
        }
    }

    fn wrong(&mut self, path: &str, wrong: String, right: String) {
        self.problems.push(Problem::new(path, wrong, right));
    }
}

/// The schema as JSON Schema (draft 2020-12 vocabulary).
#[must_use]
pub fn json_schema(title: &str, fields: &'static [Field]) -> Value {
    let mut schema = kind_schema(Kind::Object(fields));
    if let Some(map) = schema.as_object_mut() {
        map.insert(
            "$schema".to_owned(),
            json!("https://json-schema.org/draft/2020-12/schema"),
        );
        map.insert("title".to_owned(), json!(title));
    }
    schema
}

fn kind_schema(kind: Kind) -> Value {
    match kind {
        Kind::Number(min, max, unit) => match Unit::of_symbol(unit) {
            Some(known) => json!({
                "type": ["number", "string"], "minimum": min, "maximum": max,
                "description": format!("{unit}; or text with its unit: {}", known.examples())
            }),
            None => json!({"type": "number", "minimum": min, "maximum": max, "description": unit}),
        },
        Kind::Whole(min, max) => json!({"type": "integer", "minimum": min, "maximum": max}),
        Kind::Flag => json!({"type": "boolean"}),
        Kind::Text(longest) => json!({"type": "string", "maxLength": longest}),
        Kind::Choice(words) => json!({"type": "string", "enum": words}),
        Kind::List(each, longest) => json!({"type": "array", "maxItems": longest, "items": kind_schema(*each)}),
        Kind::Tuple(kinds) => {
            let items: Vec<Value> = kinds.iter().map(|each| kind_schema(*each)).collect();
            json!({"type": "array", "minItems": kinds.len(), "maxItems": kinds.len(), "prefixItems": items})
        }
        Kind::TextOr(fields) => json!({"anyOf": [{"type": "string"}, kind_schema(Kind::Object(fields))]}),
        Kind::Object(fields) => {
            let mut properties = Map::new();
            let mut required = Vec::new();
            for field in fields {
                let mut one = kind_schema(field.kind);
                match field.missing {
                    Missing::Required => required.push(field.key),
                    Missing::Null | Missing::Absent => one = json!({"anyOf": [one, {"type": "null"}]}),
                    Missing::Taken(text, words, source) => {
                        let taken: Value = serde_json::from_str(text).unwrap_or(Value::Null);
                        one = json!({"anyOf": [one, {"type": "null"}], "default": taken, "description": format!("{words} [{source}]")});
                    }
                    Missing::Quiet(text) => {
                        let taken: Value = serde_json::from_str(text).unwrap_or(Value::Null);
                        one = json!({"anyOf": [one, {"type": "null"}], "default": taken});
                    }
                }
                properties.insert(field.key.to_owned(), one);
            }
            json!({"type": "object", "additionalProperties": false, "required": required, "properties": properties})
        }
    }
}

fn kind_words(kind: Kind) -> String {
    match kind {
        Kind::Number(min, max, unit) => format!("a number from {} to {} {unit}", trim(min), trim(max)),
        Kind::Whole(min, max) => format!("a whole number from {min} to {max}"),
        Kind::Flag => "true or false".to_owned(),
        Kind::Text(longest) => format!("text of at most {longest} characters"),
        Kind::Choice(words) => format!("one of {}", words.join(", ")),
        Kind::Object(fields) | Kind::TextOr(fields) => keys_words(fields),
        Kind::List(each, longest) => format!("a list of at most {longest}, each {}", kind_words(*each)),
        Kind::Tuple(kinds) => format!("a list of exactly {} numbers", kinds.len()),
    }
}

fn keys_words(fields: &[Field]) -> String {
    let keys: Vec<&str> = fields.iter().map(|field| field.key).collect();
    format!("an object with {}", keys.join(", "))
}

fn nearest_key(key: &str, fields: &[Field]) -> String {
    let close = fields.iter().map(|field| (distance(key, field.key), field.key)).min();
    match close {
        Some((far, near)) if far <= 3 => format!("perhaps `{near}`; known keys: {}", keys_words(fields)),
        _ => keys_words(fields),
    }
}

/// Edit distance, for "perhaps you meant".
fn distance(a: &str, b: &str) -> usize {
    let mut row: Vec<usize> = (0..=b.chars().count()).collect();
    for (i, x) in a.chars().enumerate() {
        let mut before = i;
        let mut left = i + 1;
        if let Some(first) = row.first_mut() {
            *first = i + 1;
        }
        for (cell, y) in row.iter_mut().skip(1).zip(b.chars()) {
            let now = (before + usize::from(x != y)).min(left + 1).min(*cell + 1);
            before = *cell;
            *cell = now;
            left = now;
        }
    }
    row.last().copied().unwrap_or_default()
}

fn shown(value: &Value) -> String {
    let text = value.to_string();
    let short: String = text.chars().take(60).collect();
    if short.len() < text.len() {
        format!("{short}…")
    } else {
        short
    }
}

/// A number without trailing zeros.
pub(crate) fn trim(number: f64) -> String {
    if number.abs() >= 1e9 || (number.abs() < 1e-6 && number.abs() > 0.0) {
        return format!("{number:e}");
    }
    let text = format!("{number:.4}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}
