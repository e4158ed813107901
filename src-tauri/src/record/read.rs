//! Reading the record back.

use std::collections::HashSet;

use rusqlite::types::Value as Cell;
use rusqlite::{Connection, OptionalExtension, Params, Row, params};
use serde::Serialize;
use serde_json::Value;
use uuid::Uuid;

use super::entry::{Entry, Head};
use super::error::sql;
use super::{Hash, Kind, Moment, RecordError, Store};

/// The columns of an entry; its position stands before them as 0 and is counted where the rows come in fold order.
const SELECT: &str = include_str!("sql/select_entries.sql");

/// The same with the position counted, for a single entry: it reads a place of the index for each entry before it.
const SELECT_PLACED: &str = include_str!("sql/select_entries_placed.sql");

/// The same without what makes entries long: enough for days, clocks and corrections of a record of any length.
const SELECT_OUTLINE: &str = include_str!("sql/select_outline.sql");

/// Fold order, oldest first.
const FOLD: &str = "ORDER BY tick, device, seq";

/// What a job is called.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct JobInfo {
    /// The job's id.
    pub id: Uuid,
    /// What people call it.
    pub name: String,
    /// Where it is.
    pub place: String,
    /// The country whose words and stops apply.
    pub country: String,
    /// Whether it is the demonstration.
    pub demo: bool,
    /// When it was begun.
    pub begun: Moment,
}

impl Store {
    /// Name, place and country as last corrected, and when the job was begun.
    ///
    /// # Errors
    ///
    /// [`RecordError::BadColumn`] if the record does not begin with the job, otherwise what the database said.
    pub fn info(&self) -> Result<JobInfo, RecordError> {
        let lacking = || RecordError::BadColumn {
            column: "entry.kind",
            what: "no entry begins the job".to_owned(),
        };
        let all = self.of_kind(Kind::JobBegun)?;
        let first = all.first().ok_or_else(lacking)?;
        let last = all.last().ok_or_else(lacking)?;
        let text = |key: &str| {
            last.body
                .get(key)
                .and_then(Value::as_str)
                .unwrap_or_default()
                .to_owned()
        };
        Ok(JobInfo {
            id: self.job(),
            name: text("name"),
            place: text("place"),
            country: text("country"),
            // A correction cannot turn a demonstration into a job.
            demo: first.body.get("demo").and_then(Value::as_bool).unwrap_or_default(),
            begun: first.moment,
        })
    }

    /// Number of entries, as it follows from the number of the last row: rows are numbered from 1 on and none is ever removed,
    /// while counting reads a place of an index for each of them. In a file that somebody changed it may be another, never less
    /// than 0.
    ///
    /// # Errors
    ///
    /// What the database said.
    pub fn entry_count(&self) -> Result<i64, RecordError> {
        self.db
            .query_row("SELECT max(coalesce(max(rowid), 0), 0) FROM entry", [], |row| {
                row.get(0)
            })
            .map_err(sql("Count the entries"))
    }

    /// Number of entries by reading all of them, for a file that may have been changed.
    pub(super) fn entries_there(&self) -> Result<i64, RecordError> {
        self.db
            .query_row("SELECT count(*) FROM entry", [], |row| row.get(0))
            .map_err(sql("Count the entries"))
    }

    /// At most `limit` entries, newest first in fold order; with `before`, those before that position.
    ///
    /// # Errors
    ///
    /// [`RecordError::BadColumn`] for a row that cannot be read, otherwise what the database said.
    pub fn entries(&self, before: Option<i64>, limit: u32) -> Result<Vec<Entry>, RecordError> {
        let count = self.entry_count()?;
        let newest = before.map_or(count, |before| before.saturating_sub(1).clamp(0, count));
        let text = format!("{SELECT} ORDER BY tick DESC, device DESC, seq DESC LIMIT ?1 OFFSET ?2");
        let mut entries = collect(&self.db, &text, params![limit, count - newest])?;
        for (behind, entry) in (0..).zip(&mut entries) {
            entry.position = newest - behind;
        }
        Ok(entries)
    }

    /// Every entry, oldest first in fold order.
    ///
    /// # Errors
    ///
    /// As [`Store::entries`].
    pub fn all_entries(&self) -> Result<Vec<Entry>, RecordError> {
        let mut entries = collect(&self.db, &format!("{SELECT} {FOLD}"), [])?;
        for (position, entry) in (1..).zip(&mut entries) {
            entry.position = position;
        }
        Ok(entries)
    }

    /// Every entry in fold order without what it saw, and without the bodies of notes, photos, rounds, walls and
    /// proposals, which are read page by page.
    ///
    /// # Errors
    ///
    /// As [`Store::entries`].
    pub fn outline(&self) -> Result<Vec<Entry>, RecordError> {
        let mut entries = collect(&self.db, &format!("{SELECT_OUTLINE} {FOLD}"), [])?;
        for (position, entry) in (1..).zip(&mut entries) {
            entry.position = position;
        }
        Ok(entries)
    }

    /// The outline of the entries of some kinds, in fold order, without their positions.
    ///
    /// # Errors
    ///
    /// As [`Store::entries`].
    pub fn outline_of(&self, kinds: &[Kind]) -> Result<Vec<Entry>, RecordError> {
        let mut entries = Vec::new();
        for kind in kinds {
            let text = format!("{SELECT_OUTLINE} WHERE kind = ?1 {FOLD}");
            entries.extend(collect(&self.db, &text, [kind.as_str()])?);
        }
        entries.sort_by_key(Entry::order);
        Ok(entries)
    }

    /// The outline of every correction, in fold order, without its position.
    ///
    /// # Errors
    ///
    /// As [`Store::entries`].
    pub fn corrections(&self) -> Result<Vec<Entry>, RecordError> {
        collect(
            &self.db,
            &format!("{SELECT_OUTLINE} INDEXED BY entry_corrects WHERE corrects IS NOT NULL {FOLD}"),
            [],
        )
    }

    /// Every correction of entries of `kind`, whole, in fold order and without its position.
    ///
    /// # Errors
    ///
    /// As [`Store::entries`].
    pub fn corrections_of(&self, kind: Kind) -> Result<Vec<Entry>, RecordError> {
        let text = format!("{SELECT} INDEXED BY entry_corrects WHERE corrects IS NOT NULL AND kind = ?1 {FOLD}");
        collect(&self.db, &text, [kind.as_str()])
    }

    /// `entries` with the entry before each of them in its own chain, in fold order and in outline: what it takes to see
    /// whether a clock was moved before one of them.
    ///
    /// # Errors
    ///
    /// As [`Store::entries`].
    pub fn with_those_before(&self, entries: &[Entry]) -> Result<Vec<Entry>, RecordError> {
        let here: HashSet<(Uuid, i64)> = entries.iter().map(|entry| (entry.device, entry.seq)).collect();
        let mut all = entries.to_vec();
        let text = format!("{SELECT_OUTLINE} WHERE device = ?1 AND seq = ?2");
        for entry in entries
            .iter()
            .filter(|entry| !here.contains(&(entry.device, entry.seq - 1)))
        {
            all.extend(collect(
                &self.db,
                &text,
                params![entry.device.to_string(), entry.seq - 1],
            )?);
        }
        all.sort_by_key(Entry::order);
        Ok(all)
    }

    /// Every entry of `kind`, oldest first in fold order, without positions.
    ///
    /// # Errors
    ///
    /// As [`Store::entries`].
    pub fn of_kind(&self, kind: Kind) -> Result<Vec<Entry>, RecordError> {
        collect(&self.db, &format!("{SELECT} WHERE kind = ?1 {FOLD}"), [kind.as_str()])
    }

    /// At most `limit` entries of `kind`, newest first in fold order, without positions.
    ///
    /// # Errors
    ///
    /// As [`Store::entries`].
    pub fn newest_of(&self, kind: Kind, limit: u32) -> Result<Vec<Entry>, RecordError> {
        // By the index of kinds: only what comes out is read.
        let text = format!(
            "{SELECT} INDEXED BY entry_kind WHERE kind = ?1 ORDER BY tick DESC, device DESC, seq DESC LIMIT ?2"
        );
        collect(&self.db, &text, params![kind.as_str(), limit])
    }

    /// The last entry of `kind` in fold order, without its position.
    ///
    /// # Errors
    ///
    /// As [`Store::entries`].
    pub fn last_of(&self, kind: Kind) -> Result<Option<Entry>, RecordError> {
        Ok(self.newest_of(kind, 1)?.pop())
    }

    /// The entries that added a photo with this hash, in fold order and without positions.
    ///
    /// # Errors
    ///
    /// As [`Store::entries`].
    pub fn adding_photo(&self, sha: Hash) -> Result<Vec<Entry>, RecordError> {
        let text = format!("{SELECT} WHERE (device, seq) IN (SELECT device, seq FROM photo WHERE sha256 = ?1) {FOLD}");
        collect(&self.db, &text, [sha])
    }

    /// The entry with this hash.
    ///
    /// # Errors
    ///
    /// As [`Store::entries`].
    pub fn entry(&self, hash: Hash) -> Result<Option<Entry>, RecordError> {
        Ok(collect(&self.db, &format!("{SELECT_PLACED} WHERE hash = ?1"), [hash])?.pop())
    }

    /// The last entry of every chain, by device.
    ///
    /// # Errors
    ///
    /// As [`Store::entries`].
    pub fn heads(&self) -> Result<Vec<Head>, RecordError> {
        let tx = self
            .db
            .unchecked_transaction()
            .map_err(sql("Begin to read the heads"))?;
        heads(&tx)
    }

    /// When the last entry was written.
    pub(super) fn last_moment(&self) -> Result<Option<Moment>, RecordError> {
        Ok(self.entries(None, 1)?.pop().map(|entry| entry.moment))
    }
}

/// The last entry of every chain, by device; all as of one moment only within a transaction.
pub(super) fn heads(db: &Connection) -> Result<Vec<Head>, RecordError> {
    // From one device down to the next by the primary key: a scan would read every entry for each one that is added, and a
    // statement that recurses makes a table of its own each time.
    let text = "SELECT device, seq, hash FROM entry WHERE device < ?1 ORDER BY device DESC, seq DESC LIMIT 1";
    let mut statement = db.prepare_cached(text).map_err(sql("Ask for the heads"))?;
    let mut heads = Vec::new();
    // Every text comes before a blob.
    let mut below = Cell::Blob(Vec::new());
    loop {
        let head: Option<(String, i64, Hash)> = statement
            .query_row([&below], |row| Ok((row.get(0)?, row.get(1)?, row.get(2)?)))
            .optional()
            .map_err(sql("Read a head"))?;
        let Some((device, seq, hash)) = head else { break };
        heads.push(Head {
            device: device_of(&device)?,
            seq,
            hash,
        });
        below = Cell::Text(device);
    }
    heads.reverse();
    Ok(heads)
}

fn collect(db: &Connection, text: &str, with: impl Params) -> Result<Vec<Entry>, RecordError> {
    let mut statement = db.prepare(text).map_err(sql("Ask for entries"))?;
    let mut rows = statement.query(with).map_err(sql("Read entries"))?;
    let mut entries = Vec::new();
    while let Some(row) = rows.next().map_err(sql("Read an entry"))? {
        entries.push(entry_of(row)?);
    }
    Ok(entries)
}

/// One row of [`SELECT`] as an entry; nothing is defaulted.
pub(super) fn entry_of(row: &Row<'_>) -> Result<Entry, RecordError> {
    let device: String = row.get(1).map_err(sql("Read entry.device"))?;
    let seen: String = row.get(4).map_err(sql("Read entry.seen"))?;
    let kind: String = row.get(8).map_err(sql("Read entry.kind"))?;
    let body: String = row.get(9).map_err(sql("Read entry.body"))?;
    let bad = |column, what: &str| RecordError::BadColumn {
        column,
        what: what.to_owned(),
    };
    Ok(Entry {
        position: row.get(0).map_err(sql("Read a position"))?,
        device: device_of(&device)?,
        seq: row.get(2).map_err(sql("Read entry.seq"))?,
        tick: row.get(3).map_err(sql("Read entry.tick"))?,
        seen: seen_of(&seen)?,
        moment: Moment {
            utc_ms: row.get(5).map_err(sql("Read entry.at_utc_ms"))?,
            offset_min: row.get(6).map_err(sql("Read entry.offset_min"))?,
            boot_ms: row.get(7).map_err(sql("Read entry.boot_ms"))?,
        },
        kind: Kind::parse(&kind).ok_or_else(|| bad("entry.kind", &kind))?,
        body: serde_json::from_str(&body).map_err(|why| bad("entry.body", &why.to_string()))?,
        corrects: row.get(10).map_err(sql("Read entry.corrects"))?,
        prev: row.get(11).map_err(sql("Read entry.prev"))?,
        hash: row.get(12).map_err(sql("Read entry.hash"))?,
    })
}

pub(super) fn device_of(text: &str) -> Result<Uuid, RecordError> {
    Uuid::parse_str(text).map_err(|_| RecordError::BadColumn {
        column: "entry.device",
        what: text.to_owned(),
    })
}

fn seen_of(text: &str) -> Result<Vec<Head>, RecordError> {
    let bad = || RecordError::BadColumn {
        column: "entry.seen",
        what: text.chars().take(80).collect(),
    };
    let list: Vec<Value> = serde_json::from_str(text).map_err(|_| bad())?;
    list.iter().map(|item| head_of(item).ok_or_else(bad)).collect()
}

/// A head from its JSON; `None` if a member is missing or not what it ought to be.
pub(crate) fn head_of(item: &Value) -> Option<Head> {
    Some(Head {
        device: Uuid::parse_str(item.get("device")?.as_str()?).ok()?,
        seq: item.get("seq")?.as_i64()?,
        hash: item.get("hash")?.as_str()?.parse().ok()?,
    })
}

/// The number of distinct photos and of entries.
pub(super) fn counts(store: &Store) -> Result<(i64, i64), RecordError> {
    let photos = store
        .db
        .query_row("SELECT count(DISTINCT sha256) FROM photo", [], |row| row.get(0))
        .optional()
        .map_err(sql("Count the photos"))?;
    Ok((photos.unwrap_or(0), store.entry_count()?))
}
