//! Reads JSON that people write: a key that stands twice in one object is refused, since nobody knows which one is meant.

use crate::problem::Problem;
use serde::de::{DeserializeSeed, Deserializer, Error, MapAccess, SeqAccess, Visitor};
use serde_json::{Map, Number, Value};
use std::fmt;

/// The JSON document in `bytes`.
///
/// # Errors
/// One problem: what is not JSON (with line and column), or the path of the key that stands twice.
pub fn read(bytes: &[u8]) -> Result<Value, Problem> {
    let mut twice = None;
    let mut reader = serde_json::Deserializer::from_slice(bytes);
    let seed = Here {
        path: String::new(),
        twice: &mut twice,
    };
    let read = seed
        .deserialize(&mut reader)
        .and_then(|value| reader.end().map(|()| value));
    match (read, twice) {
        (Ok(value), _) => Ok(value),
        (Err(_), Some(path)) => Err(Problem::new(
            path,
            "this key stands twice in the same object",
            "each key once",
        )),
        (Err(error), None) => Err(Problem::new(
            "",
            format!("not JSON: {error}"),
            "a JSON document with finite numbers",
        )),
    }
}

/// A value and the path that leads to it.
struct Here<'t> {
    path: String,
    twice: &'t mut Option<String>,
}

impl Here<'_> {
    fn below(&mut self, part: &str) -> Here<'_> {
        Here {
            path: format!("{}/{}", self.path, part.replace('~', "~0").replace('/', "~1")),
            twice: self.twice,
        }
    }
}

impl<'de> DeserializeSeed<'de> for Here<'_> {
    type Value = Value;

    fn deserialize<D: Deserializer<'de>>(self, reader: D) -> Result<Value, D::Error> {
        reader.deserialize_any(self)
    }
}

impl<'de> Visitor<'de> for Here<'_> {
    type Value = Value;

    fn expecting(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str("a JSON value")
    }

    fn visit_unit<E>(self) -> Result<Value, E> {
        Ok(Value::Null)
    }

    fn visit_bool<E>(self, value: bool) -> Result<Value, E> {
        Ok(Value::Bool(value))
    }

    fn visit_u64<E>(self, value: u64) -> Result<Value, E> {
        Ok(value.into())
    }

    fn visit_i64<E>(self, value: i64) -> Result<Value, E> {
        Ok(value.into())
    }

    fn visit_f64<E: Error>(self, value: f64) -> Result<Value, E> {
        Number::from_f64(value)
            .map(Value::Number)
            .ok_or_else(|| E::custom("a number that is not finite"))
    }

    fn visit_str<E>(self, value: &str) -> Result<Value, E> {
        Ok(value.into())
    }

    fn visit_string<E>(self, value: String) -> Result<Value, E> {
        Ok(value.into())
    }

    fn visit_seq<A: SeqAccess<'de>>(mut self, mut items: A) -> Result<Value, A::Error> {
        let mut out = Vec::new();
        while let Some(item) = items.next_element_seed(self.below(&out.len().to_string()))? {
            out.push(item);
        }
        Ok(Value::Array(out))
    }

    fn visit_map<A: MapAccess<'de>>(mut self, mut entries: A) -> Result<Value, A::Error> {
        let mut out = Map::new();
        while let Some(key) = entries.next_key::<String>()? {
            let here = self.below(&key);
            if out.contains_key(&key) {
                *here.twice = Some(here.path);
                return Err(A::Error::custom("a key stands twice"));
            }
            let value = entries.next_value_seed(here)?;
            out.insert(key, value);
        }
        Ok(Value::Object(out))
    }
}

#[cfg(test)]
mod tests {
    use super::read;
    use serde_json::Value;

    #[test]
    fn what_is_whole_reads_as_the_library_reads_it() {
        for text in [
            r#"{"a":[1,-2,3.5,1e300,null,true,"\u00e9"],"b":{"a":{}}}"#,
            "0.1",
            "[]",
            "18446744073709551615",
        ] {
            assert_eq!(read(text.as_bytes()).ok(), serde_json::from_str::<Value>(text).ok());
        }
    }

    #[test]
    fn a_key_that_stands_twice_is_named_by_its_path() {
        let said = |text: &str| read(text.as_bytes()).map_err(|problem| problem.path);
        assert_eq!(said(r#"{"a":1,"a":1}"#), Err("/a".to_owned()));
        assert_eq!(
            said(r#"{"wall":{"leaves":[{},{"x/y":1,"x\/y":2}]}}"#),
            Err("/wall/leaves/1/x~1y".to_owned())
        );
        assert!(said(r#"{"a":{"b":1},"c":{"b":1}}"#).is_ok());
    }

    #[test]
    fn what_is_no_json_is_refused_without_a_panic() {
        let deep = "[".repeat(100_000);
        for text in ["", "{", "{} {}", "1e999", "nan", "{\"a\"}", "\u{feff}{}", &deep] {
            assert!(read(text.as_bytes()).is_err(), "{text:.20}");
        }
    }
}
