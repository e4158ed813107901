//! What whoever wrote an entry had before them, and which versions of a corrected entry stand.
//!
//! The order of time on several phones says nothing of who knew what. What an entry had seen does: everything before it in
//! its own chain, and the heads of the other chains that it names.

use crate::record::{Entry, Hash, Kind};
use std::cell::Cell;
use std::collections::{BTreeMap, HashMap};
use uuid::Uuid;

thread_local! {
    static ASKED: Cell<u64> = const { Cell::new(0) };
}

/// How often this thread held two things against each other so far, mostly by [`saw`]: what folding costs, so that a test
/// counts it instead of taking the time.
#[must_use]
pub fn asked() -> u64 {
    ASKED.get()
}

/// Counts one thing that was held against another.
pub(crate) fn count() {
    ASKED.set(ASKED.get().wrapping_add(1));
}

/// Whether whoever wrote `later` had `earlier` before them. Only what the entry itself names counts: an entry that names
/// less than its phone knew is taken at its word, which is the careful side.
#[must_use]
pub fn saw(later: &Entry, earlier: &Entry) -> bool {
    count();
    if later.device == earlier.device {
        return earlier.seq < later.seq;
    }
    names(later, earlier.device, earlier.seq)
}

/// Whether an entry names this number of another chain, or a later one. The gate writes heads in the order of their devices;
/// where a record that was made up has them in another order one may be passed over, never taken wrongly.
pub(super) fn names(entry: &Entry, device: Uuid, seq: i64) -> bool {
    let place = entry.seen.binary_search_by(|head| head.device.cmp(&device));
    let head = place.ok().and_then(|place| entry.seen.get(place));
    head.is_some_and(|head| head.seq >= seq)
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
        // Of each entry what stands of every chain: of one chain the last, since its writer had seen those before it.
        let mut standing: Vec<BTreeMap<Uuid, &Entry>> = Vec::new();
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
                    standing.push(BTreeMap::new());
                    out.len() - 1
                }
            };
            roots.insert(entry.hash, place);
            if let (Some(versions), Some(stand)) = (out.get_mut(place), standing.get_mut(place)) {
                supersede(stand, entry);
                versions.every.push(entry);
            }
        }
        for (versions, stand) in out.iter_mut().zip(&standing) {
            let stands = |entry: &&&Entry| stand.get(&entry.device).is_some_and(|last| last.hash == entry.hash);
            versions.standing = versions.every.iter().filter(stands).copied().collect();
        }
        out
    }
}

/// Puts `entry` in the place of all that its writer had seen. Asks of those that stand or of what it names, whichever are fewer.
fn supersede<'a>(stand: &mut BTreeMap<Uuid, &'a Entry>, entry: &'a Entry) {
    if stand.len() <= entry.seen.len() + 1 {
        stand.retain(|_, before| !saw(entry, before));
    } else {
        for head in &entry.seen {
            count();
            if stand.get(&head.device).is_some_and(|before| before.seq <= head.seq) {
                stand.remove(&head.device);
            }
        }
    }
    stand.insert(entry.device, entry);
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
