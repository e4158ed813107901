//! A point in time as the phone saw it.

use std::time::{SystemTime, UNIX_EPOCH};

use chrono::{DateTime, FixedOffset, Local, NaiveDate, Offset, SecondsFormat, TimeZone, Utc};
use serde::Serialize;

/// Wall clock, its offset, and the time since the phone was started. The last one shows when the wall clock was moved.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct Moment {
    /// Milliseconds since 1970-01-01 UTC.
    pub utc_ms: i64,
    /// Minutes the local clock is ahead of UTC.
    pub offset_min: i32,
    /// Milliseconds since the phone was started, sleep included; `None` where the system does not say.
    pub boot_ms: Option<i64>,
}

impl Moment {
    /// The system's clocks now.
    #[must_use]
    pub fn now() -> Self {
        let utc_ms = match SystemTime::now().duration_since(UNIX_EPOCH) {
            Ok(after) => i64::try_from(after.as_millis()).unwrap_or(i64::MAX),
            Err(before) => i64::try_from(before.duration().as_millis()).map_or(i64::MIN, |ms| -ms),
        };
        let offset_min = DateTime::<Utc>::from_timestamp_millis(utc_ms).map_or(0, |at| {
            Local.offset_from_utc_datetime(&at.naive_utc()).fix().local_minus_utc() / 60
        });
        Self {
            utc_ms,
            offset_min,
            boot_ms: since_boot_ms(),
        }
    }

    /// The date on the local calendar; `None` outside the calendar's range.
    #[must_use]
    pub fn local_date(&self) -> Option<NaiveDate> {
        self.local().map(|at| at.date_naive())
    }

    /// The local time with its offset, as RFC 3339 with seconds; empty outside the calendar's range.
    #[must_use]
    pub fn rfc3339(&self) -> String {
        self.local()
            .map_or_else(String::new, |at| at.to_rfc3339_opts(SecondsFormat::Secs, false))
    }

    fn local(&self) -> Option<DateTime<FixedOffset>> {
        let offset = FixedOffset::east_opt(self.offset_min.checked_mul(60)?)?;
        Some(DateTime::<Utc>::from_timestamp_millis(self.utc_ms)?.with_timezone(&offset))
    }
}

#[cfg(any(target_os = "linux", target_os = "android"))]
fn since_boot_ms() -> Option<i64> {
    clock_ms(rustix::time::ClockId::Boottime)
}

// The monotonic clock of this family of systems goes on while the phone sleeps.
#[cfg(any(target_os = "macos", target_os = "ios"))]
fn since_boot_ms() -> Option<i64> {
    clock_ms(rustix::time::ClockId::Monotonic)
}

#[cfg(not(any(target_os = "linux", target_os = "android", target_os = "macos", target_os = "ios")))]
fn since_boot_ms() -> Option<i64> {
    None
}

#[cfg(any(target_os = "linux", target_os = "android", target_os = "macos", target_os = "ios"))]
fn clock_ms(clock: rustix::time::ClockId) -> Option<i64> {
    let since = std::time::Duration::try_from(rustix::time::clock_gettime(clock)).ok()?;
    i64::try_from(since.as_millis()).ok()
}
