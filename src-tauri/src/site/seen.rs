//! What whoever wrote an entry had before them, and which versions of a corrected entry stand.
//!
//! The order of time on several phones says nothing of who knew what. What an entry had seen does: everything before it in
//! its own chain, and the heads of the other chains that it names.

use crate::record::{Entry, Hash, Kind};
use std::cell::Cell;
use std::collections::HashMap;

thread_local! {
    static ASKED: Cell<u64> = const { Cell::new(0) };
}

/// How often this thread asked [`saw`] so far: what folding costs, so that a test counts it instead of taking the time.
#[must_use]
pub fn asked() -> u64 {
    ASKED.get()
}

/// Whether whoever wrote `later` had `earlier` before them. Only what the entry itself names counts: an entry that names
/// less than its phone knew is taken at its word, which is the careful side.
#[must_use]
pub fn saw(later: &Entry, earlier: &Entry) -> bool {
    ASKED.set(ASKED.get().wrapping_add(1));
    if later.device == earlier.device {
        return earlier.seq < later.seq;
    }
    later
        .seen
        .iter()
        .any(|head| head.device == earlier.device && head.seq >= earlier.seq)
}

/// An entry with those of its versions that stand: itself or its corrections, but none that a later one had seen. Two
/// phones that correct the same entry without knowing of each other leave two.
#[derive(Clone, Debug)]
pub struct Versions<'a> {
    /// The entry at the beginning.
    pub root: &'a Entry,
    /// The versions that stand, in fold order; never empty.
    pub standing: Vec<&'a Entry>,
    /// Every version there ever was, in fold order, the entry itself among them.
    pub every: Vec<&'a Entry>,
}

impl<'a> Versions<'a> {
    /// The version that screens show: the last in fold order.
    #[must_use]
    pub fn shown(&self) -> &'a Entry {
        self.standing.last().copied().unwrap_or(self.root)
    }

    /// Why a yes was taken back, by any version that stands.
    pub fn taken_back(&self) -> impl Iterator<Item = &'a str> {
        let why = |entry: &&'a Entry| entry.body.get(super::correct::TAKEN_BACK)?.as_str();
        self.standing
            .iter()
            .filter_map(why)
            .filter(|why| !why.trim().is_empty())
    }

    /// Every entry of a kind with its versions, in fold order; `entries` are in fold order.
    #[must_use]
    pub fn of_kind(entries: &'a [Entry], kind: Kind) -> Vec<Self> {
        let mut roots: HashMap<Hash, usize> = HashMap::new();
        let mut out: Vec<Self> = Vec::new();
        for entry in entries.iter().filter(|entry| entry.kind == kind) {
            let place = match entry.corrects {
                // In fold order an entry stands before what corrects it.
                Some(old) => match roots.get(&old) {
                    Some(place) => *place,
                    None => continue,
                },
                None => {
                    out.push(Self {
                        root: entry,
                        standing: Vec::new(),
                        every: Vec::new(),
                    });
                    out.len() - 1
                }
            };
            roots.insert(entry.hash, place);
            if let Some(versions) = out.get_mut(place) {
                versions.standing.retain(|before| !saw(entry, before));
                versions.standing.push(entry);
                versions.every.push(entry);
            }
        }
        out
    }
}

/// Entries in fold order, which is the same on every phone.
#[must_use]
pub fn folded(mut entries: Vec<Entry>) -> Vec<Entry> {
    entries.sort_by_cached_key(|entry| (entry.tick, entry.device.to_string(), entry.seq));
    // Some kinds only may be here: places count among these.
    for (position, entry) in (1..).zip(&mut entries) {
        entry.position = position;
    }
    entries
}
