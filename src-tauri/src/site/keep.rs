//! Keeping a proposal: from then on the rounds check the props against it.

use super::figure;
use crate::failure::{Answer, Failure};
use crate::form::{Fields, describes};
use crate::record::{Entry, Hash, Kind, Moment, NewEntry, Store};
use serde::Serialize;
use serde_json::{Value, json};

/// The proposal that the job is held up by.
#[derive(Clone, Debug, Serialize)]
pub struct Kept {
    /// The entry that keeps it.
    pub entry: Hash,
    /// When, as RFC 3339.
    pub at: String,
    /// What its option aims at.
    pub aim: String,
    /// Index of its option among the proposal's.
    pub option: usize,
    /// The whole proposal.
    pub proposal: Value,
    /// The job it was made for.
    pub job: Value,
    /// Its drawings as they were shown.
    pub sketches: Value,
}

impl Kept {
    /// The option that was kept.
    #[must_use]
    pub fn chosen(&self) -> Option<&Value> {
        self.proposal.get("options")?.get(self.option)
    }

    /// Names of the props of the option that was kept.
    #[must_use]
    pub fn props(&self) -> Vec<&str> {
        let props = self
            .chosen()
            .and_then(|option| option.get("props"))
            .and_then(Value::as_array);
        props
            .into_iter()
            .flatten()
            .filter_map(|prop| prop.get("name")?.as_str())
            .collect()
    }

    fn from_entry(entry: &Entry) -> Option<Self> {
        let part = |key: &str| entry.body.get(key).cloned();
        Some(Self {
            entry: entry.hash,
            at: entry.moment.rfc3339(),
            aim: part("aim")?.as_str()?.to_owned(),
            option: usize::try_from(part("option")?.as_u64()?).ok()?,
            proposal: part("proposal")?,
            job: part("job")?,
            sketches: part("sketches").unwrap_or_default(),
        })
    }
}

/// Whether an option is the one picked: `brackets` and `engineer` name those of a kind of their own, all else is an aim of
/// the tool's own needles.
fn picked(option: &calc::proposal::Opt, pick: &str) -> bool {
    match pick {
        "engineer" => option.by == "engineer",
        "brackets" => option.kind == "brackets",
        aim => option.by == "tool" && option.kind == "needles" && option.aim == aim,
    }
}

/// Describes the wall and keeps the option with this aim, both in one transaction.
///
/// # Errors
///
/// A failure `description` naming every field that cannot be right, `nothing_to_keep` when no option has this aim, or
/// what the record said.
pub fn keep(store: &mut Store, fields: &Fields, aim: &str, moment: Moment) -> Answer<Entry> {
    super::closing::open_only(&super::state(store)?)?;
    let first = figure(fields, 0);
    let Some(proposal) = &first.proposal else {
        return Err(Failure::described(first.problems));
    };
    let Some(option) = proposal.options.iter().position(|option| picked(option, aim)) else {
        let words = "There is no such proposal for this wall as described. Send the engineer's brief instead.";
        return Err(Failure::new("nothing_to_keep", words));
    };
    let shown = if option == 0 {
        first.clone()
    } else {
        figure(fields, option)
    };
    let described: Fields = fields
        .iter()
        .filter(|(path, _)| describes(path))
        .map(|(a, b)| (a.clone(), b.clone()))
        .collect();
    let wall = json!({ "fields": described, "job": first.job, "words": first.words });
    let kept = json!({
        "aim": aim,
        "option": option,
        "job": first.job,
        "proposal": shown.proposal,
        "sketches": shown.sketches,
    });
    let entries = vec![
        NewEntry::new(Kind::WallDescribed, wall),
        NewEntry::new(Kind::ProposalKept, kept),
    ];
    let mut written = store.append_many(moment, entries, None)?;
    written
        .pop()
        .ok_or_else(|| Failure::new("database", "The record kept nothing."))
}

/// The proposal that stands, or nothing before the first was kept.
///
/// # Errors
///
/// What the record said; `damaged` when the entry does not hold a proposal.
pub fn kept(store: &Store) -> Answer<Option<Kept>> {
    let Some(entry) = store.last_of(Kind::ProposalKept)? else {
        return Ok(None);
    };
    read(&entry)
}

/// The proposal that the entry with this hash keeps.
pub(super) fn kept_as(store: &Store, hash: Hash) -> Answer<Option<Kept>> {
    match store.entry(hash)? {
        Some(entry) => read(&entry),
        None => Ok(None),
    }
}

fn read(entry: &Entry) -> Answer<Option<Kept>> {
    Kept::from_entry(entry)
        .map(Some)
        .ok_or_else(|| Failure::new("damaged", format!("Entry {} keeps no proposal.", entry.hash.short())))
}

/// The fields as last typed.
///
/// # Errors
///
/// What the record said.
pub fn fields(store: &Store) -> Answer<Fields> {
    Ok(store
        .drafts()?
        .into_iter()
        .map(|draft| (draft.field, draft.text))
        .collect())
}
