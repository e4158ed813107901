//! A job's JSON while it grows out of single paths.

use calc::Problem;
use serde_json::{Map, Value};
use std::collections::BTreeMap;

/// More rows than any list of a job can hold; an index beyond it is a slip, and would cost memory.
const MOST_ROWS: usize = 64;

/// One place in the growing job.
#[derive(Debug, Default)]
pub struct Node {
    value: Option<Value>,
    below: BTreeMap<String, Node>,
}

impl Node {
    /// Puts a value at a path.
    ///
    /// # Errors
    ///
    /// A problem when the path is no JSON pointer, or its row number is beyond any list.
    pub fn put(&mut self, path: &str, value: Value) -> Result<(), Problem> {
        let wrong = || {
            Problem::new(
                path,
                format!("`{path}` is no place in a job"),
                "a path such as `/opening/width_m`",
            )
        };
        let parts: Vec<&str> = path.strip_prefix('/').ok_or_else(wrong)?.split('/').collect();
        let too_far = |part: &str| part.parse::<usize>().is_ok_and(|row| row >= MOST_ROWS);
        if parts.iter().any(|part| part.is_empty() || too_far(part)) {
            return Err(wrong());
        }
        let mut node = self;
        for part in parts {
            node = node.below.entry(part.to_owned()).or_default();
        }
        node.value = Some(value);
        Ok(())
    }

    /// The finished JSON. Null at a place takes away what stands below it, any other value gives way to what stands below;
    /// a list is as long as its highest row.
    pub fn into_value(self) -> Value {
        if self.below.is_empty() || self.value == Some(Value::Null) {
            return self.value.unwrap_or(Value::Null);
        }
        let rows: Option<Vec<usize>> = self.below.keys().map(|key| key.parse().ok()).collect();
        let Some(rows) = rows else {
            return Value::Object(
                self.below
                    .into_iter()
                    .map(|(key, node)| (key, node.into_value()))
                    .collect(),
            );
        };
        let length = rows.iter().max().map_or(0, |highest| highest + 1);
        // A row that nothing was typed into is an empty object: its missing keys are then named one by one.
        let mut list = vec![Value::Object(Map::new()); length];
        for (row, node) in rows.into_iter().zip(self.below.into_values()) {
            if let Some(place) = list.get_mut(row) {
                *place = node.into_value();
            }
        }
        Value::Array(list)
    }
}
