//! Permits, and what withdraws them.

use super::findings::{Found, closed_before};
use super::proposals::{same_as, standing};
use super::runs::{Runs, runs};
use super::seen::{Versions, saw};
use crate::record::{Entry, Hash, Kind};
use serde::Serialize;
use serde_json::Value;
use std::collections::{HashMap, HashSet};
use uuid::Uuid;

/// Most findings named in one permit; a line says how many more there are.
const NAMED: usize = 20;

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
    let kept = || entries.iter().filter(|entry| entry.kind == Kind::ProposalKept);
    // Whoever had seen the last proposal of a chain had seen those before it.
    let last_kept: HashMap<Uuid, &Entry> = kept().map(|entry| (entry.device, entry)).collect();
    let newest = standing(entries);
    let same: HashSet<Hash> = newest.iter().flat_map(|entry| same_as(entries, entry)).collect();
    let all = Versions::of_kind(entries, Kind::Permit);
    let roots: Vec<&Entry> = all.iter().map(|versions| versions.root).collect();
    let Runs { runs, beyond } = runs(&roots);
    let against = against(&roots, &runs, findings);
    all.into_iter()
        .zip(against)
        .enumerate()
        .map(|(place, (versions, (open, more)))| {
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
            } else if !last_kept.is_empty() && !of.is_some_and(|of| same.contains(&of)) {
                withdrawn.push("Another proposal was kept since.".to_owned());
            } else if last_kept.values().any(|entry| !saw(permit, entry)) {
                withdrawn.push("Whoever gave it had not seen every proposal.".to_owned());
            }
            withdrawn.extend(open.into_iter().map(|found| {
                let knew = found.known_to(permit);
                let how = if knew {
                    "It was given over a finding that was open"
                } else {
                    "A finding that whoever gave it had not seen"
                };
                format!("{how}: {}", sentence(&found.finding.words))
            }));
            if beyond.contains(&place) {
                withdrawn.push("The record holds permits of more phones than can be looked through.".to_owned());
            }
            withdrawn.extend((more > 0).then(|| format!("Findings beside these: {more}.")));
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

/// For each permit the findings that were not closed before the eyes of whoever gave it: the first few, and how many more.
///
/// Within a chain a phone that knows one thing goes on knowing it: a finding bars the permits before a place and none after
/// it. That place is looked for instead of asking of every permit and finding.
fn against<'f, 'a>(
    permits: &[&Entry],
    runs: &[Vec<usize>],
    findings: &'f [Found<'a>],
) -> Vec<(Vec<&'f Found<'a>>, usize)> {
    let mut out: Vec<(Vec<&Found<'a>>, usize)> = permits.iter().map(|_| (Vec::new(), 0)).collect();
    for run in runs {
        // Permits that name as many as they may are at the beginning, since each finding bars from there on.
        let mut full = 0;
        let mut more = vec![0_usize; run.len() + 1];
        for found in findings {
            let bars =
                run.partition_point(|place| permits.get(*place).is_some_and(|permit| !closed_before(found, permit)));
            for place in run.get(full..bars).into_iter().flatten() {
                if let Some((named, _)) = out.get_mut(*place) {
                    named.push(found);
                }
            }
            // Beyond those that are named it is only counted, where the stretch ends.
            if let Some(count) = more.get_mut(full.min(bars)) {
                *count += 1;
            }
            let is_full = |place: &usize| out.get(*place).is_some_and(|(named, _)| named.len() >= NAMED);
            full += run
                .get(full..)
                .map_or(0, |rest| rest.iter().take_while(|place| is_full(place)).count());
        }
        let mut counted = 0;
        for (at, place) in run.iter().enumerate().rev() {
            counted += more.get(at + 1).copied().unwrap_or_default();
            if let Some((_, left)) = out.get_mut(*place) {
                *left = counted;
            }
        }
    }
    out
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
