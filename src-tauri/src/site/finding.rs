//! A finding as screens, report and pack show it.

use crate::record::Hash;
use serde::Serialize;

/// One finding.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Finding {
    /// Names it, for a repair: the entry's hash, and for what a round found also the question and the prop.
    pub id: String,
    /// The entry that opened it.
    pub entry: Hash,
    /// When, as RFC 3339.
    pub at: String,
    /// `round` or `hand`.
    pub from: &'static str,
    /// Who wrote it down; empty where a round found it.
    pub name: String,
    /// The question of the round, or the category chosen by hand.
    pub code: String,
    /// The prop or gauge it is about; empty for the whole job.
    pub about: String,
    /// Where it is, as written by hand.
    pub place: String,
    /// What it is in a few words.
    pub title: String,
    /// What was found, in one sentence.
    pub words: String,
    /// What it means.
    pub means: String,
    /// What to do, in order.
    #[serde(rename = "do")]
    pub to_do: Vec<String>,
    /// Whether work stops until it is closed.
    pub stops: bool,
    /// Whether the engineer is rung.
    pub ring: bool,
    /// Photos named with it, by SHA-256.
    pub photos: Vec<String>,
    /// Later entries that found the same while it was open.
    pub again: Vec<Again>,
    /// Repairs that name it, in the order of the record.
    pub repairs: Vec<RepairLine>,
    /// Whether it still stands.
    pub open: bool,
    /// What it waits for: `repair`, `reading`, or nothing once it is closed.
    pub waits: &'static str,
    /// What it waits for, in words.
    pub waits_words: String,
    /// What closed it.
    pub closed: Option<Closed>,
    /// The correction since which no round says it any more. It closes nothing: the next reading does.
    pub corrected: Option<CorrectedAway>,
}

/// A correction that says yes where the round had said no.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct CorrectedAway {
    /// The entry.
    pub entry: Hash,
    /// When, as RFC 3339.
    pub at: String,
    /// Who corrected it; empty where nobody was named.
    pub name: String,
}

/// The same finding in a later entry.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Again {
    /// The entry.
    pub entry: Hash,
    /// When, as RFC 3339.
    pub at: String,
}

/// A repair that names a finding.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct RepairLine {
    /// The entry.
    pub entry: Hash,
    /// When, as RFC 3339.
    pub at: String,
    /// Who did it.
    pub name: String,
    /// What was done.
    pub words: String,
    /// Photos named with it, by SHA-256.
    pub photos: Vec<String>,
    /// Whether it counts for all of the finding.
    pub counts: bool,
    /// Why it does not, in words.
    pub why_not: String,
}

/// What closed a finding.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Closed {
    /// The repair.
    pub repair: Hash,
    /// The round that found it right; the repair itself where its photo was enough.
    pub reading: Hash,
    /// When that was, as RFC 3339.
    pub at: String,
}
