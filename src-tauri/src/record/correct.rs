//! What the record says once its corrections are taken in. The record itself keeps and shows both.

use std::collections::HashMap;

use super::{Entry, Hash};

/// `entries` (in fold order) without the corrections among them, each with the body that its last correction gave it. A
/// correction of a correction counts for the entry that stands at the beginning.
#[must_use]
pub fn as_corrected(entries: Vec<Entry>) -> Vec<Entry> {
    let mut first: HashMap<Hash, Hash> = HashMap::new();
    let mut bodies = HashMap::new();
    let mut standing = Vec::new();
    for entry in entries {
        match entry.corrects {
            // In fold order an entry stands before what corrects it, and of two corrections the later one counts.
            Some(old) => {
                let root = first.get(&old).copied().unwrap_or(old);
                first.insert(entry.hash, root);
                bodies.insert(root, entry.body);
            }
            None => standing.push(entry),
        }
    }
    for entry in &mut standing {
        if let Some(body) = bodies.remove(&entry.hash) {
            entry.body = body;
        }
    }
    standing
}
