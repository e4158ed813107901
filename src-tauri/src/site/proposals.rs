//! Which proposal stands, and whether two were kept without their keepers knowing of each other.

use super::seen::{count, saw};
use crate::failure::{Answer, Failure};
use crate::record::{Entry, Hash, Kind, Moment, NewEntry, Store};
use serde::Serialize;
use serde_json::{Value, json};
use std::collections::HashMap;
use uuid::Uuid;

/// Two or more proposals, none of which knew of the others: nobody can say which one holds the wall up.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct ProposalsOpen {
    /// The proposals, in the order of the record.
    pub proposals: Vec<ProposalLine>,
    /// What that means and what to do.
    pub words: String,
}

/// One of them.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct ProposalLine {
    /// The entry that keeps it.
    pub entry: Hash,
    /// When, as RFC 3339.
    pub at: String,
    /// What it is, in one sentence.
    pub words: String,
}

/// The proposals of `entries` (in fold order) that no other one had seen.
pub(super) fn standing(entries: &[Entry]) -> Vec<&Entry> {
    let kept: Vec<&Entry> = entries
        .iter()
        .filter(|entry| entry.kind == Kind::ProposalKept)
        .collect();
    // How far of each chain the keeper of any of them had seen.
    let mut seen: HashMap<Uuid, i64> = HashMap::new();
    for one in &kept {
        let others = one.seen.iter().filter(|head| head.device != one.device);
        let others = others.map(|head| (head.device, head.seq));
        for (device, seq) in others.chain([(one.device, one.seq - 1)]) {
            count();
            seen.entry(device)
                .and_modify(|most| *most = seq.max(*most))
                .or_insert(seq);
        }
    }
    let newest = kept
        .iter()
        .filter(|one| seen.get(&one.device).is_none_or(|most| *most < one.seq));
    newest.copied().collect()
}

/// The open question, where there is one.
pub(super) fn open(entries: &[Entry]) -> Option<ProposalsOpen> {
    let standing = standing(entries);
    if standing.len() < 2 {
        return None;
    }
    let line = |entry: &&Entry| ProposalLine {
        entry: entry.hash,
        at: entry.moment.rfc3339(),
        words: super::words(entry),
    };
    Some(ProposalsOpen {
        proposals: standing.iter().map(line).collect(),
        words: format!(
            "{} proposals were kept on phones that did not know of each other. Say which one holds the wall up, or keep a \
             new one; until then no permit stands and nothing is cut.",
            standing.len()
        ),
    })
}

/// The entries that keep the same arrangement as the proposal `entry`: itself, and the one it was chosen as.
pub(super) fn same_as<'a>(entries: &'a [Entry], entry: &'a Entry) -> Vec<Hash> {
    let mut out = vec![entry.hash];
    let mut at = entry;
    let by_hash: HashMap<Hash, &Entry> = match entry.body.get("chosen") {
        Some(_) => entries.iter().map(|entry| (entry.hash, entry)).collect(),
        None => HashMap::new(),
    };
    while let Some(old) = at
        .body
        .get("chosen")
        .and_then(Value::as_str)
        .and_then(|text| text.parse::<Hash>().ok())
    {
        // What was chosen was seen, so this goes back in time and ends.
        match by_hash.get(&old).copied() {
            Some(before) if saw(at, before) => {
                out.push(old);
                at = before;
            }
            _ => break,
        }
    }
    out
}

/// Says which of the proposals that stand is the one: it is kept again, by someone who has seen them all.
///
/// # Errors
///
/// `name_missing`; `no_question` when no question is open; `no_proposal` when it is none of those; or what the record said.
pub fn choose(store: &mut Store, proposal: Hash, name: &str, moment: Moment) -> Answer<Entry> {
    let name = name.trim();
    if name.is_empty() {
        return Err(Failure::new("name_missing", "Say who chose."));
    }
    let entries = store.of_kind(Kind::ProposalKept)?;
    let standing = standing(&entries);
    if standing.len() < 2 {
        return Err(Failure::new(
            "no_question",
            "Only one proposal stands: there is nothing to choose.",
        ));
    }
    let Some(chosen) = standing.into_iter().find(|entry| entry.hash == proposal) else {
        return Err(Failure::new(
            "no_proposal",
            "That proposal is none of those that stand.",
        ));
    };
    let mut body = chosen.body.clone();
    if let Some(members) = body.as_object_mut() {
        members.insert("chosen".to_owned(), json!(chosen.hash));
        members.insert("name".to_owned(), json!(name));
    }
    Ok(store.write(|gate| gate.append(moment, NewEntry::new(Kind::ProposalKept, body)))?)
}

/// The entries that keep the arrangement of the proposal `kept`, as rounds and stops name them.
pub(super) fn lineage(store: &Store, kept: Hash) -> Answer<Vec<String>> {
    let entries = store.of_kind(Kind::ProposalKept)?;
    let own = entries.iter().find(|entry| entry.hash == kept);
    let same = own.map_or_else(|| vec![kept], |entry| same_as(&entries, entry));
    Ok(same.iter().map(ToString::to_string).collect())
}
