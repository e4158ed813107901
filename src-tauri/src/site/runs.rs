//! Entries of one chain in runs along which their writer forgets nothing: what a later one had not seen, none before it had.

use super::seen::{count, names};
use crate::record::Entry;
use std::collections::{HashMap, HashSet};
use uuid::Uuid;

/// Most runs that are looked through. A phone writes one, and a job has a few phones; in a record of more than these what
/// stands in the later ones does not count, which is the careful side.
const RUNS: usize = 64;

/// Places of entries by runs.
pub(super) struct Runs {
    /// The runs, each in the order of its chain.
    pub(super) runs: Vec<Vec<usize>>,
    /// The places that are in none of them.
    pub(super) beyond: HashSet<usize>,
}

/// Runs of entries, given in fold order. Only a record that was made up breaks a phone's run into more.
pub(super) fn runs(entries: &[&Entry]) -> Runs {
    let mut out: Vec<Vec<usize>> = Vec::new();
    let mut beyond = HashSet::new();
    let mut last: HashMap<Uuid, (usize, &Entry)> = HashMap::new();
    for (place, entry) in entries.iter().enumerate() {
        let forgot_nothing = |before: &Entry| {
            before.seen.iter().all(|head| {
                count();
                names(entry, head.device, head.seq)
            })
        };
        match last.get_mut(&entry.device) {
            Some((run, before)) if forgot_nothing(before) => {
                *before = entry;
                if let Some(run) = out.get_mut(*run) {
                    run.push(place);
                }
            }
            _ if out.len() < RUNS => {
                last.insert(entry.device, (out.len(), entry));
                out.push(vec![place]);
            }
            _ => {
                beyond.insert(place);
            }
        }
    }
    Runs { runs: out, beyond }
}
