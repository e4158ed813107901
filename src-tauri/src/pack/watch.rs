//! How far a pack is while it is made, and the wish to stop it.

use std::io::{self, Read};
use std::sync::atomic::{AtomicBool, AtomicU64, Ordering};

use serde::Serialize;

/// Shared between whoever makes a pack and whoever looks at it; nothing here ever waits.
#[derive(Debug, Default)]
pub struct Watch {
    done: AtomicU64,
    total: AtomicU64,
    stop: AtomicBool,
}

/// How far a pack is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct Progress {
    /// Bytes of photos read so far: each photo is read once to be checked and once to be copied.
    pub done_bytes: u64,
    /// Bytes of photos to be read in all; 0 while the report is being written.
    pub total_bytes: u64,
}

impl Watch {
    /// Asks whoever makes the pack to stop.
    pub fn stop(&self) {
        self.stop.store(true, Ordering::Relaxed);
    }

    /// Whether it shall stop.
    #[must_use]
    pub fn stopped(&self) -> bool {
        self.stop.load(Ordering::Relaxed)
    }

    /// How far it is.
    #[must_use]
    pub fn progress(&self) -> Progress {
        Progress {
            done_bytes: self.done.load(Ordering::Relaxed),
            total_bytes: self.total.load(Ordering::Relaxed),
        }
    }

    /// Says how much there is to read.
    pub(super) fn expect(&self, bytes: u64) {
        self.total.store(bytes, Ordering::Relaxed);
    }

    /// Counts what is read from `from`, and ends the reading once it shall stop.
    pub(super) const fn over<R: Read>(&self, from: R) -> Watched<'_, R> {
        Watched { watch: self, from }
    }
}

/// A reader under watch.
pub(super) struct Watched<'a, R> {
    watch: &'a Watch,
    from: R,
}

impl<R: Read> Read for Watched<'_, R> {
    fn read(&mut self, buffer: &mut [u8]) -> io::Result<usize> {
        if self.watch.stopped() {
            return Err(io::Error::other("stopped by hand"));
        }
        let count = self.from.read(buffer)?;
        let bytes = u64::try_from(count).unwrap_or_default();
        self.watch.done.fetch_add(bytes, Ordering::Relaxed);
        Ok(count)
    }
}
