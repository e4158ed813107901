//! Taking in entries that another phone wrote. What stands here is never changed: a chain is only continued, and what
//! does not fit is left out and told.

use std::collections::{HashMap, HashSet};

use serde::Serialize;
use uuid::Uuid;

use super::chain::chain_faults;
use super::entry::{BODY_LIMIT_BYTES, Entry};
use super::error::sql;
use super::gate::seen_text;
use super::{Gate, Hash, Kind, LARGEST_WHOLE, PhotoRow, RecordError, Store, canonical};

/// Longest name or subject of a photo that is taken in, bytes (own judgement).
const WORDS_BYTES: usize = 1000;

/// An entry that was not taken in.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct LeftOut {
    /// The device that wrote it.
    pub device: Uuid,
    /// Its number in the device's chain.
    pub seq: i64,
    /// Its hash.
    pub hash: Hash,
    /// Hash of the entry that stands here under the same number; `None` if it only follows one that was left out.
    pub here: Option<Hash>,
    /// What it records.
    pub kind: Kind,
    /// When it was written, by its own phone.
    pub at: String,
}

/// What taking entries in would come to, or came to.
#[derive(Clone, Debug, Default)]
pub struct Taken<'a> {
    /// The entries that are new here, in fold order.
    pub added: Vec<&'a Entry>,
    /// Number of entries that stand here already.
    pub known: usize,
    /// What was left out.
    pub left_out: Vec<LeftOut>,
}

/// Looks at the entries of a job (in fold order, all of them) that somebody hands over: whether they hold together, and
/// whether each could have been written by this app.
///
/// # Errors
///
/// [`RecordError::Foreign`] naming the first entry that is wrong.
pub fn check_foreign(job: Uuid, entries: &[Entry]) -> Result<(), RecordError> {
    let wrong = |entry: &Entry, what: &str| {
        Err(RecordError::Foreign {
            what: format!("entry {} of {}: {what}", entry.seq, entry.device),
        })
    };
    if let Some(fault) = chain_faults(job, entries).first() {
        return Err(RecordError::Foreign {
            what: format!("entry {} of {}: {}", fault.seq, fault.device, fault.what),
        });
    }
    if !entries.is_sorted_by_key(|entry| (entry.tick, entry.device.to_string(), entry.seq)) {
        return Err(RecordError::Foreign {
            what: "its entries are out of order".to_owned(),
        });
    }
    for (place, entry) in entries.iter().enumerate() {
        let begins = entry.kind == Kind::JobBegun && entry.corrects.is_none();
        if begins != (place == 0) {
            return wrong(entry, "a job begins once, with its first entry");
        }
        let whole = |value: i64| (0..=LARGEST_WHOLE).contains(&value);
        let moment = entry.moment;
        if !whole(entry.seq)
            || !whole(entry.tick)
            || !whole(moment.utc_ms.saturating_abs())
            || !moment.boot_ms.is_none_or(whole)
            || !(-1080..=1080).contains(&moment.offset_min)
        {
            return wrong(entry, "a number in it is outside its range");
        }
        if canonical(&entry.body)?.len() > BODY_LIMIT_BYTES {
            return wrong(entry, "it is too long");
        }
        let adds_photo = entry.kind == Kind::PhotoTaken && entry.corrects.is_none();
        if adds_photo && photo_row(entry).is_none() {
            return wrong(entry, "its photo is not described as this app does");
        }
    }
    Ok(())
}

/// The row of a photo that an entry adds; `None` if its body is not what this app writes.
fn photo_row(entry: &Entry) -> Option<PhotoRow> {
    let row = PhotoRow::from_body(entry.device, entry.seq, &entry.body)?;
    (row.name.len() <= WORDS_BYTES && row.about.len() <= WORDS_BYTES && row.body() == entry.body).then_some(row)
}

/// Sorts `foreign` (checked, in fold order) into what is new, known and left out, against what stands here.
fn plan<'a>(here: &HashMap<(Uuid, i64), Hash>, foreign: &'a [Entry]) -> Taken<'a> {
    let mut taken = Taken::default();
    let mut left: HashSet<Hash> = HashSet::new();
    for entry in foreign {
        let standing = here.get(&(entry.device, entry.seq)).copied();
        if standing == Some(entry.hash) {
            taken.known += 1;
            continue;
        }
        // What builds on something left out cannot be taken in either: its chain would have a hole.
        let builds_on_left = left.contains(&entry.prev)
            || entry.seen.iter().any(|head| left.contains(&head.hash))
            || entry.corrects.is_some_and(|old| left.contains(&old));
        if standing.is_some() || builds_on_left {
            left.insert(entry.hash);
            taken.left_out.push(LeftOut {
                device: entry.device,
                seq: entry.seq,
                hash: entry.hash,
                here: standing,
                kind: entry.kind,
                at: entry.moment.rfc3339(),
            });
        } else {
            taken.added.push(entry);
        }
    }
    taken
}

impl Store {
    /// What [`Gate::take_in`] would do with `foreign`; nothing is written.
    ///
    /// # Errors
    ///
    /// [`RecordError::OtherJob`] if these entries do not begin as this job does, otherwise what the database said.
    pub fn plan<'a>(&self, foreign: &'a [Entry]) -> Result<Taken<'a>, RecordError> {
        planned(&self.db, foreign)
    }
}

impl Gate<'_> {
    /// Adds those of `foreign` that are new and fit, with their photo rows. `foreign` has passed [`check_foreign`].
    ///
    /// # Errors
    ///
    /// [`RecordError::OtherJob`] if these entries do not begin as this job does, otherwise what the database said.
    pub fn take_in<'a>(&self, foreign: &'a [Entry]) -> Result<Taken<'a>, RecordError> {
        let taken = planned(&self.tx, foreign)?;
        for entry in &taken.added {
            self.insert(entry, &canonical(&entry.body)?, &seen_text(entry)?)?;
            if entry.kind == Kind::PhotoTaken && entry.corrects.is_none() {
                let row = photo_row(entry).ok_or_else(|| RecordError::Foreign {
                    what: format!("entry {} of {} describes no photo", entry.seq, entry.device),
                })?;
                self.insert_photo(&row)?;
            }
        }
        Ok(taken)
    }
}

fn planned<'a>(db: &rusqlite::Connection, foreign: &'a [Entry]) -> Result<Taken<'a>, RecordError> {
    let text = "SELECT device, seq, hash FROM entry ORDER BY tick, device, seq";
    let mut statement = db.prepare(text).map_err(sql("Ask for the chains"))?;
    let rows = statement
        .query_map([], |row| {
            Ok((row.get::<_, String>(0)?, row.get::<_, i64>(1)?, row.get::<_, Hash>(2)?))
        })
        .map_err(sql("Read the chains"))?;
    let (mut here, mut first) = (HashMap::new(), None);
    for row in rows {
        let (device, seq, hash) = row.map_err(sql("Read a chain"))?;
        first = first.or(Some(hash));
        here.insert((super::read::device_of(&device)?, seq), hash);
    }
    match (first, foreign.first()) {
        (Some(own), Some(theirs)) if own != theirs.hash => Err(RecordError::OtherJob),
        _ => Ok(plan(&here, foreign)),
    }
}
