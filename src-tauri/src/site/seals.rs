//! The seals that were given.

use crate::failure::Answer;
use crate::record::{Kind, Store};
use serde::Serialize;
use serde_json::Value;

/// A seal that was given.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct SealGiven {
    /// Its twelve characters.
    pub code: String,
    /// When, as RFC 3339.
    pub at: String,
    /// Number of entries that it covers.
    pub entries: i64,
}

/// Every seal of a job, newest first.
///
/// # Errors
///
/// What the record said.
pub fn seals(store: &Store) -> Answer<Vec<SealGiven>> {
    let mut given: Vec<SealGiven> = store
        .of_kind(Kind::SealGiven)?
        .into_iter()
        .map(|entry| SealGiven {
            code: entry
                .body
                .get("code")
                .and_then(Value::as_str)
                .unwrap_or_default()
                .to_owned(),
            at: entry.moment.rfc3339(),
            // The number in each chain counts its entries.
            entries: crate::seal::heads_in(&entry.body)
                .into_iter()
                .flatten()
                .map(|head| head.seq)
                .sum(),
        })
        .collect();
    given.reverse();
    Ok(given)
}
