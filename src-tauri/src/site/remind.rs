//! When a phone may remind somebody of a round: each morning while a wall stands on props.

use super::state::SiteState;
use crate::failure::Answer;
use crate::record::{Kind, Moment, Store, TAKE_OUT};
use chrono::{DateTime, Days, FixedOffset, NaiveTime, SecondsFormat, TimeZone, Utc};
use serde::Serialize;

/// Half past seven by the local clock, before work begins (own judgement).
const MORNING: (u32, u32) = (7, 30);
/// Mornings that are armed at once. Whoever does not open the app for a week is not reminded for ever.
const MORNINGS: u64 = 7;

/// One reminder.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Reminder {
    /// When, as RFC 3339 in UTC.
    pub at: String,
    /// First line.
    pub title: String,
    /// Second line.
    pub body: String,
}

/// The mornings on which a round of this job is due, from now on. None before the first round, none once the props may come
/// out, and none for the demo: that is the caller's to leave out.
///
/// # Errors
///
/// What the record said.
pub fn reminders(store: &Store, state: &SiteState, job: &str, now: Moment) -> Answer<Vec<Reminder>> {
    let out = state
        .permits
        .iter()
        .any(|permit| permit.code == TAKE_OUT && permit.stands);
    if out || store.last_of(Kind::RoundDone)?.is_none() {
        return Ok(Vec::new());
    }
    Ok(mornings(now)
        .into_iter()
        .map(|at| Reminder {
            at: at.to_utc().to_rfc3339_opts(SecondsFormat::Secs, true),
            title: format!("Round: {job}"),
            body: "Look at each prop before anybody works near the wall.".to_owned(),
        })
        .collect())
}

/// The next mornings by the local clock; the time that today's offset gives, since a change of summer time is no matter here.
fn mornings(now: Moment) -> Vec<DateTime<FixedOffset>> {
    let local = || {
        let offset = FixedOffset::east_opt(now.offset_min.checked_mul(60)?)?;
        Some(DateTime::<Utc>::from_timestamp_millis(now.utc_ms)?.with_timezone(&offset))
    };
    let (Some(local), Some(time)) = (local(), NaiveTime::from_hms_opt(MORNING.0, MORNING.1, 0)) else {
        return Vec::new();
    };
    (0..=MORNINGS)
        .filter_map(|days| local.date_naive().checked_add_days(Days::new(days)))
        .filter_map(|day| local.timezone().from_local_datetime(&day.and_time(time)).single())
        .filter(|at| *at > local)
        .take(usize::try_from(MORNINGS).unwrap_or(usize::MAX))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::mornings;
    use crate::record::Moment;

    /// 2026-03-02, in milliseconds; the hour is added.
    const DAY_MS: i64 = 1_772_409_600_000;

    fn at(hour: i64, offset_min: i32) -> Vec<String> {
        let now = Moment {
            utc_ms: DAY_MS + hour * 3_600_000,
            offset_min,
            boot_ms: None,
        };
        mornings(now).iter().map(chrono::DateTime::to_rfc3339).collect()
    }

    #[test]
    fn a_week_of_mornings_by_the_local_clock() {
        let early = at(6, 0);
        assert_eq!(early.len(), 7);
        assert_eq!(early.first().map(String::as_str), Some("2026-03-02T07:30:00+00:00"));
        assert_eq!(early.last().map(String::as_str), Some("2026-03-08T07:30:00+00:00"));
        let late = at(8, 0);
        assert_eq!(late.first().map(String::as_str), Some("2026-03-03T07:30:00+00:00"));
        assert_eq!(late.len(), 7);
        // Eight in the morning by UTC is half past one in the afternoon in a zone five and a half hours ahead.
        assert_eq!(
            at(0, 330).first().map(String::as_str),
            Some("2026-03-02T07:30:00+05:30")
        );
        assert!(at(0, i32::MAX).is_empty());
    }
}
