//! Names of the photos in a pack: about, day, kind. They follow from the entries alone.

use std::collections::{HashMap, HashSet};

use chrono::NaiveDate;
use serde_json::Value;

use crate::photos::Format;
use crate::record::{Entry, Hash, Kind};

/// Longest subject in a name, characters (own judgement).
const SUBJECT: usize = 40;

/// One original in a pack.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PhotoFile {
    /// Name in the pack, with its folder.
    pub file: String,
    /// SHA-256 of its bytes.
    pub sha: Hash,
}

/// The originals that `entries` (in fold order) name: each once, under the name of the entry that added it first.
#[must_use]
pub fn photo_files(entries: &[Entry]) -> Vec<PhotoFile> {
    let began = entries
        .iter()
        .find(|entry| entry.kind == Kind::JobBegun)
        .and_then(|entry| entry.moment.local_date());
    let (mut files, mut known, mut taken) = (Vec::new(), HashSet::new(), HashSet::new());
    let mut copies: HashMap<String, u32> = HashMap::new();
    for entry in entries.iter().filter(|entry| entry.kind == Kind::PhotoTaken) {
        let text = |key: &str| entry.body.get(key).and_then(Value::as_str).unwrap_or_default();
        let Ok(sha) = text("sha256").parse::<Hash>() else {
            continue;
        };
        if !known.insert(sha) {
            continue;
        }
        let stem = format!("{}-{}-{}", plain(text("about")), day(entry, began), plain(text("kind")));
        let extension = Format::extension(text("format"));
        // The next number is kept for each stem, so that a thousand alike do not take a million tries.
        let next = copies.entry(stem.to_lowercase()).or_insert(1_u32);
        let name = (*next..)
            .inspect(|copy| *next = copy.saturating_add(1))
            .map(|copy| {
                if copy == 1 {
                    format!("{stem}.{extension}")
                } else {
                    format!("{stem}-{copy}.{extension}")
                }
            })
            // Some systems take large and small letters as the same.
            .find(|name| taken.insert(name.to_lowercase()));
        files.extend(name.map(|name| PhotoFile {
            file: format!("photos/{name}"),
            sha,
        }));
    }
    files
}

/// Day of the job an entry was written on, `D01` being the day it was begun.
fn day(entry: &Entry, began: Option<NaiveDate>) -> String {
    let days = entry
        .moment
        .local_date()
        .zip(began)
        .map(|(at, began)| (at - began).num_days() + 1);
    days.map_or_else(|| "D00".to_owned(), |days| format!("D{:02}", days.max(1)))
}

/// Letters, digits and single dashes only, so that the name works on every system.
pub(super) fn plain(text: &str) -> String {
    let mut out = String::new();
    for letter in text.chars().take(SUBJECT) {
        if letter.is_ascii_alphanumeric() {
            out.push(letter);
        } else if !out.ends_with('-') && !out.is_empty() {
            out.push('-');
        }
    }
    let out = out.trim_end_matches('-');
    if out.is_empty() {
        "other".to_owned()
    } else {
        out.to_owned()
    }
}
