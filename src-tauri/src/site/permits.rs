//! Permits, and what withdraws them.

use super::findings::{Found, closed_before};
use super::proposals::{same_as, standing};
use super::readings::Round;
use super::seen::{Versions, saw};
use crate::record::{Entry, Hash, Kind};
use serde::Serialize;
use serde_json::Value;

/// A permit as it stands now.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PermitState {
    /// The entry.
    pub entry: Hash,
    /// Which stop of the order it is.
    pub key: String,
    /// `permit_to_load` or `permit_to_take_out`.
    pub code: String,
    /// Who gave it.
    pub name: String,
    /// Whether that person set the support out; nothing where it was not asked.
    pub set_out: Option<bool>,
    /// When, as RFC 3339.
    pub at: String,
    /// Whether it stands.
    pub stands: bool,
    /// What withdrew it, one sentence each.
    pub withdrawn: Vec<String>,
}

/// Every permit, in the order of the record.
pub(super) fn permits(entries: &[Entry], findings: &[Found<'_>]) -> Vec<PermitState> {
    let kept: Vec<&Entry> = entries
        .iter()
        .filter(|entry| entry.kind == Kind::ProposalKept)
        .collect();
    let newest = standing(entries);
    let same: Vec<Vec<Hash>> = newest.iter().map(|entry| same_as(entries, entry)).collect();
    let taken_back = Round::taken_back(entries);
    Versions::of_kind(entries, Kind::Permit)
        .into_iter()
        .map(|versions| {
            // A correction mends the name; what its giver had seen stays what it was.
            let (permit, shown) = (versions.root, &versions.shown().body);
            let text = |key: &str| permit.body.get(key).and_then(Value::as_str).unwrap_or_default();
            let mut withdrawn: Vec<String> = versions
                .taken_back()
                .map(|why| format!("It was taken back: {}", sentence(why)))
                .collect();
            let of: Option<Hash> = text("proposal").parse().ok();
            if newest.len() > 1 {
                withdrawn.push("Two proposals stand that did not know of each other.".to_owned());
            } else if !kept.is_empty() && !same.iter().flatten().any(|hash| Some(*hash) == of) {
                withdrawn.push("Another proposal was kept since.".to_owned());
            } else if kept.iter().any(|entry| !saw(permit, entry)) {
                withdrawn.push("Whoever gave it had not seen every proposal.".to_owned());
            }
            let against = findings.iter().filter(|found| !closed_before(found, permit));
            withdrawn.extend(against.map(|found| {
                let knew = found.faults.iter().all(|fault| saw(permit, fault.entry));
                let how = if knew {
                    "It was given over a finding that was open"
                } else {
                    "A finding that whoever gave it had not seen"
                };
                format!("{how}: {}", sentence(&found.finding.words))
            }));
            // What a correction took back since had withdrawn it meanwhile: it does not come back by itself.
            let unknown = taken_back
                .iter()
                .filter(|(_, by)| !by.iter().any(|entry| saw(permit, entry)));
            withdrawn.extend(unknown.map(|(no, _)| {
                format!(
                    "A finding that was taken back since by a correction: {}",
                    sentence(&no.words)
                )
            }));
            PermitState {
                entry: permit.hash,
                key: text("stop").to_owned(),
                code: text("code").to_owned(),
                name: shown.get("name").and_then(Value::as_str).unwrap_or_default().to_owned(),
                set_out: shown.get("set_out").and_then(Value::as_bool),
                at: permit.moment.rfc3339(),
                stands: withdrawn.is_empty(),
                withdrawn,
            }
        })
        .collect()
}

/// Words as a sentence.
pub(super) fn sentence(words: &str) -> String {
    let words = words.trim();
    if words.ends_with(['.', '!', '?']) {
        words.to_owned()
    } else {
        format!("{words}.")
    }
}
