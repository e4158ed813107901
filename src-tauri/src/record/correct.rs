//! What the record says once its corrections are taken in. The record itself keeps and shows both.

use std::collections::HashMap;

use serde_json::Value;

use super::{Entry, Hash};

/// `entries` (in fold order) without the corrections among them, each with the body that its last correction gave it. A
/// correction of a correction counts for the entry that stands at the beginning.
#[must_use]
pub fn as_corrected(entries: Vec<Entry>) -> Vec<Entry> {
    let (corrections, mut standing): (Vec<Entry>, Vec<Entry>) =
        entries.into_iter().partition(|entry| entry.corrects.is_some());
    let mut bodies = corrected_bodies(corrections);
    for entry in &mut standing {
        if let Some(body) = bodies.remove(&entry.hash) {
            entry.body = body;
        }
    }
    standing
}

/// The bodies that `corrections` (in fold order) give, by the hash of the entry at the beginning.
#[must_use]
pub fn corrected_bodies(corrections: Vec<Entry>) -> HashMap<Hash, Value> {
    let mut first: HashMap<Hash, Hash> = HashMap::new();
    let mut bodies = HashMap::new();
    for entry in corrections {
        // In fold order an entry stands before what corrects it, and of two corrections the later one counts.
        if let Some(old) = entry.corrects {
            let root = first.get(&old).copied().unwrap_or(old);
            first.insert(entry.hash, root);
            bodies.insert(root, entry.body);
        }
    }
    bodies
}
