//! Where the wall clock of a phone was moved between two entries, seen by the time since it was started.

use std::collections::HashMap;

use uuid::Uuid;

use super::{Entry, Hash};

/// A difference up to this is drift and the network's own corrections, seconds (own judgement).
const SLACK_S: i64 = 60;

/// The place where a clock was moved.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ClockMove {
    /// The entry before which it happened.
    pub entry: Hash,
    /// How far the wall clock went beyond the time that had passed, seconds; negative if it was set back.
    pub by_s: i64,
    /// False if the phone may as well have been switched off in between.
    pub sure: bool,
}

impl ClockMove {
    /// What people are told at that place.
    #[must_use]
    pub fn words(&self) -> String {
        let (away, way) = (length(self.by_s), if self.by_s < 0 { "back" } else { "forward" });
        if self.sure {
            format!("The phone’s clock was set {way} by {away} before this entry.")
        } else {
            format!("Before this entry the phone was switched off and on, or its clock was set {way} by {away}.")
        }
    }
}

/// Every place in `entries` (in fold order) where the clock of the phone that wrote them was moved.
///
/// Within one run of a phone both clocks advance alike. After a restart the time since the start begins anew; then only a
/// start that lies before the entry before it shows that the clock was set back.
#[must_use]
pub fn clock_moves(entries: &[Entry]) -> Vec<ClockMove> {
    let mut last: HashMap<Uuid, &Entry> = HashMap::new();
    let mut moves = Vec::new();
    for entry in entries {
        if let Some((by_s, sure)) = last.insert(entry.device, entry).and_then(|before| moved(before, entry)) {
            moves.push(ClockMove {
                entry: entry.hash,
                by_s,
                sure,
            });
        }
    }
    moves
}

/// By how much the wall clock was moved between two entries of one phone, seconds, and whether that is sure.
fn moved(before: &Entry, after: &Entry) -> Option<(i64, bool)> {
    let wall = after.moment.utc_ms.saturating_sub(before.moment.utc_ms) / 1000;
    let beyond = |by: i64| (by.saturating_abs() > SLACK_S).then_some(by);
    let (Some(earlier), Some(later)) = (before.moment.boot_ms, after.moment.boot_ms) else {
        // Without the second clock only a step back shows.
        return beyond(wall).filter(|by| *by < 0).map(|by| (by, true));
    };
    let running = later.saturating_sub(earlier) / 1000;
    if running >= 0 {
        let by = beyond(wall.saturating_sub(running))?;
        // A restart explains a wall clock that went further, as long as the time since the start fits in between.
        let restart_explains = by > 0 && later / 1000 <= wall.saturating_add(SLACK_S);
        return Some((by, !restart_explains));
    }
    // Restarted: at least the time since the start has passed.
    beyond(wall.saturating_sub(later / 1000))
        .filter(|by| *by < 0)
        .map(|by| (by, true))
}

fn length(seconds: i64) -> String {
    let seconds = seconds.unsigned_abs();
    match seconds {
        0..120 => format!("{seconds} s"),
        120..7_200 => format!("{} min", seconds / 60),
        7_200..172_800 => format!("{} h {} min", seconds / 3_600, seconds % 3_600 / 60),
        _ => format!("{} days", seconds / 86_400),
    }
}
