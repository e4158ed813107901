//! Correcting what was kept: a new entry that names the old one. Nothing is taken back.

use super::gauges::grown_by_correction;
use super::given::{self, text_needed};
use super::round;
use super::state::state;
use super::taking_out::{corrected_turns, write};
use crate::failure::{Answer, Failure};
use crate::photos::PhotoKind;
use crate::record::{Entry, Hash, Kind, Moment, NewEntry, Store, as_corrected};
use serde_json::Value;

/// Key of why a yes was taken back.
pub const TAKEN_BACK: &str = "taken_back";

/// What may be corrected in an entry of a kind.
pub(super) const fn keys(kind: Kind) -> &'static [&'static str] {
    match kind {
        Kind::JobBegun => &["name", "place", "country"],
        Kind::Note => &["text"],
        Kind::PhotoTaken => &["about", "kind"],
        Kind::RoundDone => &["round"],
        Kind::Finding => &["words", "where"],
        Kind::EngineersAnswer | Kind::Repair => &["words"],
        Kind::LetDown => &["turns", "out", "gauges", "words"],
        Kind::LookAfter => &["gauges", "words"],
        Kind::JobClosed => &["name", "anyway"],
        Kind::JobReopened => &["name", "reason"],
        // A yes that ought not to have been said is taken back: its stop is asked again.
        Kind::StopPassed => &["name", TAKEN_BACK],
        Kind::Permit => &["name", "set_out", TAKEN_BACK],
        Kind::WallDescribed | Kind::ProposalKept | Kind::SealGiven | Kind::PackMade | Kind::Import => &[],
    }
}

/// Corrects the entry `old`: `change` holds the new values by key. A round is evaluated again against its own proposal, and
/// so are those after it, which were held against its readings.
///
/// # Errors
///
/// `no_entry`, `not_corrected` for a kind or key that is not corrected but superseded, `description` for a round that cannot
/// be right, otherwise what the record said.
pub fn correct(store: &mut Store, old: Hash, change: &Value, moment: Moment) -> Answer<Entry> {
    let named = store.entry(old)?;
    let Some(named) = named else {
        return Err(Failure::new("no_entry", "That entry is not in this job."));
    };
    let change = changed(named.kind, change)?;
    // The root of a chain of corrections is what they all are about.
    let mut root = named.clone();
    while let Some(before) = root.corrects {
        root = store
            .entry(before)?
            .ok_or_else(|| Failure::new("damaged", "An entry that was corrected is not there."))?;
    }
    let standing = as_corrected(store.of_kind(named.kind)?);
    let mut body = standing
        .into_iter()
        .find(|entry| entry.hash == root.hash)
        .map_or_else(|| named.body.clone(), |entry| entry.body);
    match named.kind {
        Kind::RoundDone => {
            let reading = change.get("round").cloned().unwrap_or_default();
            body = round::corrected(store, &root, &reading)?;
        }
        Kind::LetDown | Kind::LookAfter => return taken_out(store, &root, (old, body), change, moment),
        _ => check(named.kind, change).and_then(|()| {
            let members = body
                .as_object_mut()
                .ok_or_else(|| Failure::new("damaged", "That entry holds nothing that could be corrected."))?;
            members.extend(change.iter().map(|(key, value)| (key.clone(), value.clone())));
            Ok(())
        })?,
    }
    let new = NewEntry::new(named.kind, body).correcting(old);
    let written = store.write(|gate| gate.append(moment, new))?;
    if written.kind == Kind::RoundDone {
        round::rate_after(store, &root, moment)?;
    }
    Ok(written)
}

/// The members of a correction, each of which may be corrected in an entry of this kind.
fn changed(kind: Kind, change: &Value) -> Answer<&serde_json::Map<String, Value>> {
    let refused = |words: String| Failure::new("not_corrected", words);
    let known = keys(kind);
    let can = || format!("Only {} can be corrected here.", known.join(", "));
    if known.is_empty() {
        let words = "This cannot be corrected: do it again, which supersedes it.";
        return Err(refused(words.to_owned()));
    }
    let Some(change) = change.as_object().filter(|change| !change.is_empty()) else {
        return Err(refused(format!(
            "A correction names what it changes and its new value. {}",
            can()
        )));
    };
    match change.keys().find(|key| !known.contains(&key.as_str())) {
        Some(other) => Err(refused(format!("“{other}” stays as it is. {}", can())).at(&format!("/{other}"))),
        None => Ok(change),
    }
}

/// Corrects what was read while or after the props were taken out. How far they are out follows from what stands corrected; a
/// gauge that has grown too much by it opens a finding in the same transaction.
fn taken_out(
    store: &mut Store,
    root: &Entry,
    (old, mut body): (Hash, Value),
    change: &serde_json::Map<String, Value>,
    moment: Moment,
) -> Answer<Entry> {
    let refused = |words: &str| Failure::new("not_corrected", words);
    let mut texts = change.clone();
    for key in ["turns", "out", "gauges"] {
        texts.remove(key);
    }
    check(root.kind, &texts)?;
    let mut new = corrected_turns(&state(store)?.taking_out.props, change)?;
    if let Some(gauges) = change.get("gauges") {
        let read = given::gauges(gauges)?;
        let names = |rows: &Value| -> Vec<String> {
            let rows = rows.as_array().into_iter().flatten();
            rows.filter_map(|row| Some(row.get("name")?.as_str()?.to_owned()))
                .collect()
        };
        let held = body.get("gauges").map(names).unwrap_or_default();
        if names(gauges) != held || read.iter().any(|gauge| !gauge.mm.is_finite()) {
            return Err(refused(
                "Each gauge that was read then needs its reading, and no other.",
            ));
        }
        new.insert("gauges".to_owned(), gauges.clone());
    }
    let members = body
        .as_object_mut()
        .ok_or_else(|| Failure::new("damaged", "That entry holds nothing that could be corrected."))?;
    members.extend(texts.into_iter().chain(new));
    let name = body.get("name").and_then(Value::as_str).unwrap_or_default().to_owned();
    let grown = grown_by_correction(store, root.hash, &body)?;
    let entry = NewEntry::new(root.kind, body).correcting(old);
    write(store, entry, grown, &name, moment)
}

/// Every new value is text, and a name or a kind is one.
fn check(kind: Kind, change: &serde_json::Map<String, Value>) -> Answer<()> {
    for (key, value) in change {
        if key == "set_out" && value.is_boolean() {
            continue;
        }
        let path = format!("/{key}");
        let Some(text) = value.as_str() else {
            if key == "set_out" {
                let words = "set_out: yes or no is needed, as true or false.";
                return Err(given::refused(&path, words.to_owned()));
            }
            return Err(text_needed(&path, key, value, "…"));
        };
        if text.trim().is_empty() && !matches!(key.as_str(), "place" | "where") {
            return Err(given::refused(&path, format!("{key} is empty. Some words are needed.")));
        }
        if kind == Kind::PhotoTaken && key == "kind" && PhotoKind::parse(text).is_none() {
            let kinds = PhotoKind::ALL.map(PhotoKind::as_str).join(", ");
            let words = format!("kind: “{text}” is no kind of photo. Kinds are {kinds}.");
            return Err(given::refused(&path, words));
        }
    }
    Ok(())
}
