//! The curves of a job: what the readings of all rounds on the proposal that stands say together.

use super::kept;
use super::proposals::lineage;
use crate::failure::Answer;
use crate::record::{Entry, Kind, Store, as_corrected};
use calc::trend::{Round, Trends, trends};
use serde_json::Value;

/// Milliseconds in a day.
const DAY_MS: f64 = 86_400_000.0;

/// The curves, from every kept round as corrected; empty before a proposal is kept.
///
/// # Errors
///
/// What the record said.
pub fn curves(store: &Store) -> Answer<Trends> {
    let Some(kept) = kept(store)? else {
        return Ok(Trends::default());
    };
    let of = lineage(store, kept.entry)?;
    let rounds: Vec<Entry> = as_corrected(store.of_kind(Kind::RoundDone)?)
        .into_iter()
        .filter(|entry| is_of(entry, &of))
        .collect();
    Ok(trends(&read(&in_time(rounds.iter().collect()))))
}

/// Whether a round was done on one of these proposals.
pub(super) fn is_of(entry: &Entry, proposals: &[String]) -> bool {
    let of = entry.body.get("proposal").and_then(Value::as_str);
    of.is_some_and(|of| proposals.iter().any(|own| own == of))
}

/// Rounds (in the order of the record) as they followed each other. On one phone that is the same; where several wrote, a
/// phone that had not heard of the others for days stands too early in the record, so their clocks say it.
pub(super) fn in_time(mut rounds: Vec<&Entry>) -> Vec<&Entry> {
    let one_phone = rounds
        .windows(2)
        .all(|pair| matches!(pair, [one, next] if one.device == next.device));
    if !one_phone {
        rounds.sort_by_key(|entry| entry.moment.utc_ms);
    }
    rounds
}

/// Rounds, as they followed each other, as the curves read them.
fn read(rounds: &[&Entry]) -> Vec<Round> {
    // Clocks of two phones need not agree: days count from the earliest.
    let first = rounds.iter().map(|entry| entry.moment.utc_ms).min().unwrap_or_default();
    let nothing = Value::Null;
    rounds
        .iter()
        .map(|entry| {
            let ms = entry.moment.utc_ms.saturating_sub(first);
            let day = ms as f64 / DAY_MS;
            let round = entry.body.get("round").unwrap_or(&nothing);
            Round::read(day, &entry.moment.rfc3339(), round)
        })
        .collect()
}
