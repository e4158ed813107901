//! What is wrong with an input, said so that it can be put right.

use serde::Serialize;

/// One thing wrong with an input: where, what, and what would be right.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Problem {
    /// JSON pointer to the field, as `/opening/width_m`.
    pub path: String,
    /// What is wrong, with the value given.
    pub wrong: String,
    /// What would be right.
    pub right: String,
}

impl Problem {
    /// Builds a problem from its three parts.
    pub fn new(path: impl Into<String>, wrong: impl Into<String>, right: impl Into<String>) -> Self {
        Self {
            path: path.into(),
            wrong: wrong.into(),
            right: right.into(),
        }
    }
}
