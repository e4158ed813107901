//! The days of a record in the order of its entries, with the days between them that miss a round.

use crate::record::Entry;
use chrono::NaiveDate;
use serde::Serialize;

/// Entries that follow each other on one day, or a day without its round.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct DayRun {
    /// The date where they were written, as `2026-03-02`; empty where the clock stood outside every calendar.
    pub day: String,
    /// Place of its newest entry in the record.
    pub first: i64,
    /// Number of entries; 0 for a day that is only missing.
    pub entries: usize,
    /// Whether a round was due on this day and none was done.
    pub missing: bool,
}

/// The days of `all` (in fold order) from the newest on, those of `missing` at their places.
pub fn runs(all: &[Entry], missing: &[NaiveDate]) -> Vec<DayRun> {
    let mut waiting: Vec<NaiveDate> = missing.to_vec();
    waiting.sort_unstable();
    let mut runs: Vec<DayRun> = Vec::new();
    let mut open: Option<NaiveDate> = None;
    for entry in all.iter().rev() {
        let day = entry.moment.local_date();
        match runs.last_mut() {
            Some(last) if last.entries > 0 && open == day => last.entries += 1,
            _ => {
                // Missing days that lie after this one come before it; a day with entries of its own says so itself.
                let later = |missing: &NaiveDate| day.is_some_and(|day| *missing > day);
                while let Some(gap) = waiting.pop_if(|missing| later(missing)) {
                    runs.push(missed(gap));
                }
                let without = waiting.pop_if(|missing| Some(*missing) == day).is_some();
                runs.push(DayRun {
                    day: day.map(|day| day.to_string()).unwrap_or_default(),
                    first: entry.position,
                    entries: 1,
                    missing: without,
                });
            }
        }
        open = day;
    }
    while let Some(gap) = waiting.pop() {
        runs.push(missed(gap));
    }
    runs
}

fn missed(day: NaiveDate) -> DayRun {
    DayRun {
        day: day.to_string(),
        first: 0,
        entries: 0,
        missing: true,
    }
}
