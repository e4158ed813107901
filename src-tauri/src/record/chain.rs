//! Whether the chains of a record hold together.

use std::collections::HashMap;

use serde::Serialize;
use uuid::Uuid;

use super::entry::Entry;
use super::error::sql;
use super::{Hash, RecordError, Store};

/// A place where a chain does not hold.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct ChainFault {
    /// The chain's device as stored.
    pub device: String,
    /// The entry's number in the chain.
    pub seq: i64,
    /// What is wrong with it, in words.
    pub what: String,
}

/// Checks the chains of a job: numbers without a gap, every link, every hash made again, ticks that follow, and that what an
/// entry says it had seen or corrects is there. Empty means they hold.
#[must_use]
pub fn chain_faults(job: Uuid, entries: &[Entry]) -> Vec<ChainFault> {
    let known: HashMap<(Uuid, i64), &Entry> = entries.iter().map(|entry| ((entry.device, entry.seq), entry)).collect();
    let by_hash: HashMap<Hash, &Entry> = entries.iter().map(|entry| (entry.hash, entry)).collect();
    let mut faults = Vec::new();
    if known.len() != entries.len() {
        faults.push(ChainFault {
            device: String::new(),
            seq: 0,
            what: "an entry stands twice".to_owned(),
        });
    }
    for entry in entries {
        let before = known.get(&(entry.device, entry.seq - 1));
        let (prev, tick) = before.map_or((Hash::ZERO, 0), |before| (before.hash, before.tick));
        // A tick is one more than the largest the writer knew, which its own chain and what it had seen show. Any other
        // could keep every later entry from being written.
        let seen_tick = entry.seen.iter().filter_map(|head| known.get(&(head.device, head.seq)));
        let due_tick = 1 + seen_tick.map(|other| other.tick).fold(tick, i64::max);
        let seen = |head: &super::Head| {
            known
                .get(&(head.device, head.seq))
                .is_some_and(|other| other.hash == head.hash && other.tick < entry.tick)
        };
        let what = if entry.seq > 1 && before.is_none() {
            "the entry before it is missing"
        } else if entry.prev != prev {
            "it does not follow the entry before it"
        } else if entry.computed_hash(job).ok() != Some(entry.hash) {
            "its contents do not fit its hash"
        } else if entry.tick <= tick {
            "it is not later than the entry before it"
        } else if !entry.seen.iter().all(seen) {
            "it names an entry of another phone that is not there"
        } else if entry.tick != due_tick {
            "its place in the order of the job does not follow from what it had seen"
        } else if entry
            .corrects
            .is_some_and(|old| by_hash.get(&old).is_none_or(|old| old.tick >= entry.tick))
        {
            "it corrects an entry that is not there"
        } else {
            continue;
        };
        faults.push(ChainFault {
            device: entry.device.to_string(),
            seq: entry.seq,
            what: what.to_owned(),
        });
    }
    faults
}

impl Store {
    /// Checks every chain of the job and that photos and entries agree; empty means they hold. Reads every entry.
    ///
    /// # Errors
    ///
    /// What the database said; a row that cannot be read is a fault, not an error.
    pub fn verify_chain(&self) -> Result<Vec<ChainFault>, RecordError> {
        let text = include_str!("sql/select_entries.sql");
        let mut statement = self.db.prepare(text).map_err(sql("Ask for the chains"))?;
        let mut rows = statement.query([]).map_err(sql("Read the chains"))?;
        let (mut entries, mut faults) = (Vec::new(), Vec::new());
        while let Some(row) = rows.next().map_err(sql("Read a chain"))? {
            match super::read::entry_of(row) {
                Ok(entry) => entries.push(entry),
                Err(why) => faults.push(ChainFault {
                    device: row.get(1).unwrap_or_default(),
                    seq: row.get(2).unwrap_or_default(),
                    what: format!("it cannot be read: {why}"),
                }),
            }
        }
        faults.extend(chain_faults(self.job(), &entries));
        faults.extend(self.photo_faults(&entries)?);
        Ok(faults)
    }
}
