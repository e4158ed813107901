//! A round: what was read at each prop today, checked against the proposal that is kept.

use super::curves::{in_time, is_of};
use super::gauges::{GAUGE_GONE, fill_gauges, gauges_of, names_in};
use super::keep::kept_as;
use super::left_out::say_left_out;
use super::proposals::lineage;
use super::readings::TOLD_ONLY;
use super::{Kept, kept};
use crate::failure::{Answer, Failure};
use crate::form;
use crate::record::{Entry, Hash, Kind, Moment, NewEntry, Store, as_corrected};
use calc::Problem;
use calc::units::Unit;
use serde::Serialize;
use serde_json::{Map, Value, json};

/// Prefix of the fields of a round being written.
const DRAFTS: &str = "/round/";
/// What a round reads, beside why it was done.
const READ: [&str; 3] = ["readings", "gauges", "job_checks"];
/// What a round tells that nothing is computed from: why and by whom it was done, how far the work is, what was done to
/// props since the round before, why there is no photo of a "no", and why a gauge was left out.
const TOLD: [&str; 6] = ["why", "name", "stage", "changed", "no_photo", "gauges_left"];
/// Longest text of these, characters, and most rows.
const TOLD_CHARACTERS: usize = 200;
const TOLD_ROWS: usize = 200;

/// A round just done.
#[derive(Clone, Debug, Serialize)]
pub struct RoundDone {
    /// The entry.
    pub entry: Hash,
    /// What it came to.
    pub evaluation: Value,
}

/// A round as listed.
#[derive(Clone, Debug, Serialize)]
pub struct RoundLine {
    /// The entry.
    pub entry: Hash,
    /// When, as RFC 3339.
    pub at: String,
    /// Why it was done.
    pub why: String,
    /// Who did it; empty where nobody was named.
    pub name: String,
    /// How far the work was.
    pub stage: String,
    /// The gauges that were left out, each with why.
    pub gauges_left: Value,
    /// Whether everything passed.
    pub passed: bool,
    /// Whether to keep out.
    pub stop: bool,
    /// The proposal it was checked against.
    pub proposal: Value,
    /// What each prop was good for, as evaluated then.
    pub today: Value,
    /// What was read: readings, gauges and the checks of the whole job.
    #[serde(flatten)]
    pub read: Map<String, Value>,
}

/// What the readings come to; nothing is written.
///
/// # Errors
///
/// `no_proposal` before one was kept, `description` naming every reading that cannot be right, or what the record said.
pub fn check(store: &Store, round: &Value, moment: Moment) -> Answer<Value> {
    evaluated(store, round, moment).map(|(_, _, evaluation)| evaluation)
}

/// Writes a round down and clears its drafts, both in one transaction.
///
/// # Errors
///
/// As [`check`].
pub fn done(store: &mut Store, round: &Value, moment: Moment) -> Answer<RoundDone> {
    super::closing::open_only(&super::state(store)?)?;
    let (kept, full, evaluation) = evaluated(store, round, moment)?;
    let body = body(round, &full, &evaluation, kept.entry);
    let entries = store.append_many(moment, vec![NewEntry::new(Kind::RoundDone, body)], Some(DRAFTS))?;
    let entry = entries
        .first()
        .ok_or_else(|| Failure::new("database", "The record kept nothing."))?
        .hash;
    Ok(RoundDone { entry, evaluation })
}

/// The body of a correction of the round `entry`, evaluated again against the proposal and the rounds before it.
pub(super) fn corrected(store: &Store, entry: &Entry, round: &Value) -> Answer<Value> {
    let proposal = entry.body.get("proposal").and_then(Value::as_str);
    let proposal: Option<Hash> = proposal.and_then(|text| text.parse().ok());
    let kept = match proposal {
        Some(hash) => kept_as(store, hash)?,
        None => None,
    };
    let (kept, full, evaluation) = evaluated_against(store, kept, round, entry.moment, Some(entry))?;
    Ok(body(round, &full, &evaluation, kept.entry))
}

/// Rates the rounds after `entry` again, once its readings were corrected. What comes out worse is written as a correction of
/// its own; what comes out better stays as it was found, and is corrected by hand where that is right.
pub(super) fn rate_after(store: &mut Store, entry: &Entry, moment: Moment) -> Answer<()> {
    let mut later = as_corrected(store.of_kind(Kind::RoundDone)?);
    later.retain(|round| round.order() > entry.order());
    for round in later {
        // One that cannot be rated again stands as it was.
        let again = round
            .body
            .get("round")
            .and_then(|read| corrected(store, &round, read).ok());
        if let Some(body) = again.filter(|body| worse(&round.body, body)) {
            let new = NewEntry::new(Kind::RoundDone, body).correcting(round.hash);
            store.write(|gate| gate.append(moment, new))?;
        }
    }
    Ok(())
}

/// Whether a round now finds something that it did not find before.
fn worse(before: &Value, now: &Value) -> bool {
    let found = |body: &Value| -> Vec<(String, String)> {
        let reasons = body.pointer("/evaluation/reasons").and_then(Value::as_array);
        // What was left out of an old round is not found by rating it again.
        let is_found = |reason: &&Value| {
            let code = reason.get("code").and_then(Value::as_str).unwrap_or_default();
            !TOLD_ONLY.contains(&code) && code != GAUGE_GONE
        };
        let reason = |reason: &Value| {
            let text = |key: &str| reason.get(key).and_then(Value::as_str).unwrap_or_default();
            let about = text("words").split_once(':').map_or("", |(about, _)| about);
            (text("code").to_owned(), about.to_owned())
        };
        reasons.into_iter().flatten().filter(is_found).map(reason).collect()
    };
    let known = found(before);
    found(now).iter().any(|reason| !known.contains(reason))
}

fn body(round: &Value, full: &Value, evaluation: &Value, proposal: Hash) -> Value {
    let why = round.get("why").and_then(Value::as_str).unwrap_or_default();
    let mut written = Map::new();
    written.insert("why".to_owned(), json!(why));
    for key in TOLD.iter().skip(1) {
        if let Some(told) = told(round.get(key)) {
            written.insert((*key).to_owned(), told);
        }
    }
    for key in ["at"].iter().chain(&READ) {
        written.insert((*key).to_owned(), full.get(key).cloned().unwrap_or_default());
    }
    json!({ "why": why, "round": written, "evaluation": evaluation, "proposal": proposal })
}

/// Text, or rows of text, that a round tells; anything else is left out, and what is too long is cut.
fn told(value: Option<&Value>) -> Option<Value> {
    let short = |text: &str| -> Value { text.trim().chars().take(TOLD_CHARACTERS).collect::<String>().into() };
    match value? {
        Value::String(text) => (!text.trim().is_empty()).then(|| short(text)),
        Value::Array(rows) => {
            let row = |row: &Value| -> Option<Value> {
                let text = |(key, value): (&String, &Value)| Some((key.clone(), short(value.as_str()?)));
                Some(Value::Object(row.as_object()?.iter().filter_map(text).collect()))
            };
            let rows: Vec<Value> = rows.iter().take(TOLD_ROWS).filter_map(row).collect();
            (!rows.is_empty()).then_some(Value::Array(rows))
        }
        _ => None,
    }
}

/// Every round, oldest first.
///
/// # Errors
///
/// What the record said.
pub fn rounds(store: &Store) -> Answer<Vec<RoundLine>> {
    Ok(as_corrected(store.of_kind(Kind::RoundDone)?).iter().map(line).collect())
}

fn line(entry: &Entry) -> RoundLine {
    let flag = |key: &str| {
        entry
            .body
            .pointer(&format!("/evaluation/{key}"))
            .and_then(Value::as_bool)
    };
    let read = READ
        .iter()
        .map(|key| ((*key).to_owned(), read_of(entry, key)))
        .collect();
    let told = |key: &str| read_of(entry, key).as_str().unwrap_or_default().to_owned();
    RoundLine {
        entry: entry.hash,
        at: entry.moment.rfc3339(),
        why: entry
            .body
            .get("why")
            .and_then(Value::as_str)
            .unwrap_or_default()
            .to_owned(),
        name: told("name"),
        stage: told("stage"),
        gauges_left: read_of(entry, "gauges_left"),
        // What cannot be read counts as not passed.
        passed: flag("passed").unwrap_or(false),
        stop: flag("stop").unwrap_or(true),
        proposal: entry.body.get("proposal").cloned().unwrap_or_default(),
        today: entry.body.pointer("/evaluation/props").cloned().unwrap_or_default(),
        read,
    }
}

fn read_of(entry: &Entry, key: &str) -> Value {
    entry
        .body
        .pointer(&format!("/round/{key}"))
        .cloned()
        .unwrap_or_default()
}

/// The proposal, the round in the form of the contract, and what it comes to.
fn evaluated(store: &Store, round: &Value, moment: Moment) -> Answer<(Kept, Value, Value)> {
    evaluated_against(store, kept(store)?, round, moment, None)
}

/// The same against a proposal, with the rounds before a place in the record.
fn evaluated_against(
    store: &Store,
    kept: Option<Kept>,
    round: &Value,
    moment: Moment,
    before: Option<&Entry>,
) -> Answer<(Kept, Value, Value)> {
    let Some(kept) = kept else {
        return Err(Failure::new(
            "no_proposal",
            "Keep a proposal first: a round is checked against it.",
        ));
    };
    let option = kept.chosen().cloned().unwrap_or_default();
    let all: Vec<Entry> = as_corrected(store.of_kind(Kind::RoundDone)?)
        .into_iter()
        .filter(|entry| before.is_none_or(|other| entry.order() < other.order()))
        .collect();
    // Rounds stay tied to the proposal that they were checked against, also where it was chosen again.
    let own = lineage(store, kept.entry)?;
    let of_props = in_time(all.iter().filter(|entry| is_of(entry, &own)).collect());
    let earlier: Vec<Value> = of_props.iter().map(|entry| read_of(entry, "readings")).collect();
    // Cracks are the wall's: they go on over another proposal.
    let recorded: Vec<&Entry> = all.iter().collect();
    let followed = in_time(recorded.clone());
    let gauges: Vec<Value> = followed.iter().map(|entry| gauges_of(entry)).collect();
    let mut full = Map::new();
    // Unknown keys go through, so that `calc` names them.
    full.extend(
        round
            .as_object()
            .into_iter()
            .flatten()
            .filter(|(key, _)| !TOLD.contains(&key.as_str()))
            .map(|(a, b)| (a.clone(), b.clone())),
    );
    full.insert("contract".to_owned(), json!(1));
    full.insert("job".to_owned(), kept.job.clone());
    full.insert("option".to_owned(), option);
    full.insert("earlier".to_owned(), Value::Array(earlier));
    full.insert("earlier_gauges".to_owned(), Value::Array(gauges));
    full.insert("at".to_owned(), json!(moment.rfc3339()));
    let mut problems = Vec::new();
    for key in READ {
        if let Some(read) = full.get_mut(key) {
            read_texts(&format!("/{key}"), key, read, &mut problems);
        }
    }
    if !problems.is_empty() {
        return Err(Failure::described(problems));
    }
    fill_gauges(full.get_mut("gauges"), [&recorded, &followed]);
    let full = Value::Object(full);
    let mut evaluation = calc::round_value(&full).map_err(Failure::described)?;
    say_left_out(&mut evaluation, &kept.job, round, &names_in(&all));
    let evaluation = serde_json::to_value(evaluation).map_err(|why| Failure::new("body", why.to_string()))?;
    Ok((kept, full, evaluation))
}

/// Measures come as they were typed, with or without a unit; they are read as any other field is, so that the record keeps
/// numbers.
fn read_texts(path: &str, key: &str, value: &mut Value, problems: &mut Vec<Problem>) {
    match value {
        Value::Object(map) => {
            for (key, below) in map.iter_mut() {
                read_texts(&format!("{path}/{key}"), key, below, problems);
            }
        }
        Value::Array(items) => {
            for (row, below) in items.iter_mut().enumerate() {
                read_texts(&format!("{path}/{row}"), key, below, problems);
            }
        }
        Value::String(text) => {
            let unit = Unit::of_key(key);
            if unit.is_some() || key == "collar_turns" {
                match form::number(path, text, unit) {
                    Ok(read) => *value = json!(read),
                    Err(problem) => problems.push(problem),
                }
            }
        }
        Value::Null | Value::Bool(_) | Value::Number(_) => {}
    }
}
