//! How much room is left, so that a warning comes before something cannot be kept.

use std::path::Path;

use serde::Serialize;

/// Below this the screens warn, bytes (own judgement: a day of photos and a pack).
const LOW: u64 = 500 * 1024 * 1024;

/// This much stays free when something large is written, bytes (own judgement: a round must still be kept after it).
const SPARE: u64 = 50 * 1024 * 1024;

/// Room on the medium that holds the jobs.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Room {
    /// Bytes free; `None` where the system does not say.
    pub free_bytes: Option<u64>,
    /// Whether it runs low.
    pub low: bool,
    /// What to say about it; empty if there is room.
    pub words: String,
}

impl Room {
    /// Judges `free` bytes.
    #[must_use]
    pub fn of(free: Option<u64>) -> Self {
        let low = free.is_some_and(|free| free < LOW);
        let words = match free {
            Some(free) if low => format!(
                "Only {} are free on this phone. Photos and rounds are still kept, but make room soon: move packs elsewhere, \
                 or put a finished job away after its pack is checked.",
                megabytes(free)
            ),
            _ => String::new(),
        };
        Self {
            free_bytes: free,
            low,
            words,
        }
    }

    /// Why `needed` bytes cannot be written, in words; `None` if they can, or if nobody knows.
    #[must_use]
    pub fn lacking(free: Option<u64>, needed: u64) -> Option<String> {
        let free = free?;
        let lacking = needed.saturating_add(SPARE).saturating_sub(free);
        (lacking > 0).then(|| format!("{} more must be free for this", megabytes(lacking)))
    }
}

/// Bytes free for this app where `folder` lies; `None` where the system does not say.
#[cfg(unix)]
#[must_use]
pub fn free_bytes(folder: &Path) -> Option<u64> {
    let about = rustix::fs::statvfs(folder).ok()?;
    Some(about.f_bavail.saturating_mul(about.f_frsize))
}

/// Bytes free for this app where `folder` lies; `None` where the system does not say.
#[cfg(not(unix))]
#[must_use]
pub fn free_bytes(_folder: &Path) -> Option<u64> {
    None
}

fn megabytes(bytes: u64) -> String {
    format!("{} MB", bytes.div_ceil(1024 * 1024))
}
