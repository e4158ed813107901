//! Days on which a round was due and none was done.

use std::collections::BTreeSet;

use chrono::NaiveDate;
use serde_json::Value;

use super::{Entry, Kind, Moment};

/// Days without a round while the wall was held: from the first round to the day it `ended`, or else to today. Whether and
/// when it ended follows from what whoever gave a permit had seen, which is not told here.
#[must_use]
pub fn missing_days(entries: &[Entry], ended: Option<NaiveDate>, today: Moment) -> Vec<NaiveDate> {
    let day = |entry: &Entry| entry.moment.local_date();
    // A correction written on another day is no round of that day.
    let done: BTreeSet<NaiveDate> = entries
        .iter()
        .filter(|entry| entry.kind == Kind::RoundDone && entry.corrects.is_none())
        .filter_map(day)
        .collect();
    let Some(first) = done.first() else {
        return Vec::new();
    };
    let Some(until) = ended.or_else(|| today.local_date()) else {
        return Vec::new();
    };
    // Today is not missing before it is over.
    first
        .iter_days()
        .take_while(|day| *day < until)
        .take(LONGEST)
        .filter(|day| !done.contains(day))
        .collect()
}

/// Most days looked at, ten years: a clock set to another century must not fill the report.
const LONGEST: usize = 3660;

/// Code of the step that lets the props be taken out.
pub const TAKE_OUT: &str = "permit_to_take_out";

/// Whether an entry is the permit to take the props out.
#[must_use]
pub fn takes_out(entry: &Entry) -> bool {
    entry.kind == Kind::Permit && entry.body.get("code").and_then(Value::as_str) == Some(TAKE_OUT)
}
