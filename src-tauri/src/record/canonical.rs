//! JSON in one spelling (RFC 8785), so that a hash over it can be made again anywhere.

use std::fmt;

use serde_json::Value;

use super::error::RecordError;

/// Largest whole number that a double keeps exactly: 2⁵³ − 1 (RFC 8785, section 3.2.2.3 and appendix D, from memory).
pub const LARGEST_WHOLE: i64 = 9_007_199_254_740_991;

/// Deepest nesting kept. Readers refuse at 128 and the pack wraps a body in a few levels more (own judgement).
const DEEPEST: usize = 64;

/// Writes `value` in the one canonical spelling.
///
/// # Errors
///
/// [`RecordError::Body`] if the value is nested too deep or holds a whole number beyond ±(2⁵³ − 1), which would not read
/// back the same.
pub fn canonical(value: &Value) -> Result<String, RecordError> {
    spelled(value, 0)
}

/// As [`canonical`], for what will stand one level down in another value.
///
/// # Errors
///
/// As [`canonical`], one level earlier.
pub(super) fn canonical_part(value: &Value) -> Result<String, RecordError> {
    spelled(value, 1)
}

fn spelled(value: &Value, depth: usize) -> Result<String, RecordError> {
    check(value, depth)?;
    serde_json_canonicalizer::to_string(value).map_err(|why| RecordError::Body { what: why.to_string() })
}

/// A whole number as it stands in canonical JSON.
///
/// # Errors
///
/// [`RecordError::Body`] beyond ±(2⁵³ − 1).
pub(super) fn whole(number: i64) -> Result<i64, RecordError> {
    if number.unsigned_abs() > LARGEST_WHOLE.unsigned_abs() {
        return Err(too_large(number));
    }
    Ok(number)
}

fn too_large(number: impl fmt::Display) -> RecordError {
    RecordError::Body {
        what: format!("the whole number {number} is too large to be kept exactly"),
    }
}

fn check(value: &Value, depth: usize) -> Result<(), RecordError> {
    if depth > DEEPEST {
        return Err(RecordError::Body {
            what: format!("it is nested more than {DEEPEST} levels deep"),
        });
    }
    match value {
        Value::Number(number) => {
            let whole = number.as_i64().map(i64::unsigned_abs).or_else(|| number.as_u64());
            match whole {
                Some(size) if size > LARGEST_WHOLE.unsigned_abs() => Err(too_large(number)),
                _ => Ok(()),
            }
        }
        Value::Array(items) => items.iter().try_for_each(|item| check(item, depth + 1)),
        Value::Object(members) => members.values().try_for_each(|member| check(member, depth + 1)),
        Value::Null | Value::Bool(_) | Value::String(_) => Ok(()),
    }
}
