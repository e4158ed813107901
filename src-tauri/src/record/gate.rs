//! The one gate every write goes through: an entry and what it names are kept together.

use rusqlite::{OptionalExtension, Params, Row, Transaction, params};
use serde_json::Value;
use uuid::Uuid;

use super::canonical::canonical_part;
use super::entry::{BODY_LIMIT_BYTES, Entry, NewEntry, hash_of};
use super::error::sql;
use super::{Hash, Kind, Moment, RecordError, canonical};

/// Field of the name of whoever holds this phone.
const NAME_FIELD: &str = "/job/people/me";
/// Key of that name in an entry's body.
pub const WRITTEN_BY: &str = "by";
/// Longest name kept, characters (own judgement).
const NAME_CHARACTERS: usize = 80;

/// An open transaction: what is written through it is kept together.
#[derive(Debug)]
pub struct Gate<'a> {
    pub(super) tx: Transaction<'a>,
    pub(super) job: Uuid,
    pub(super) device: Uuid,
}

impl Gate<'_> {
    /// Adds one entry to this installation's chain.
    ///
    /// # Errors
    ///
    /// [`RecordError::Body`] if the body cannot be kept so that it reads back the same, [`RecordError::Correction`] if it
    /// corrects what is not there or of another kind, otherwise what the database said.
    pub fn append(&self, moment: Moment, new: NewEntry) -> Result<Entry, RecordError> {
        let NewEntry { kind, body, corrects } = new;
        let (body, text) = settled(self.signed(body)?)?;
        self.check_correction(kind, corrects)?;
        let (own, seen): (Vec<_>, Vec<_>) = super::read::heads(&self.tx)?
            .into_iter()
            .partition(|head| head.device == self.device);
        // Rows are numbered from 1 on and none is ever removed, so the last number is how many there are; counting would
        // read more with every entry. Asked apart, each is answered from an edge; asked together they read every entry.
        let (last_tick, count): (i64, i64) = self
            .ask(
                "SELECT coalesce((SELECT max(tick) FROM entry), 0), coalesce((SELECT max(rowid) FROM entry), 0)",
                [],
                |row| Ok((row.get(0)?, row.get(1)?)),
            )
            .map_err(sql("Read the last tick"))?;
        // A file that somebody changed may name this device in capitals as well, which come first.
        let (last_seq, prev) = own.last().map_or((0, Hash::ZERO), |head| (head.seq, head.hash));
        let mut entry = Entry {
            position: count.saturating_add(1),
            device: self.device,
            seq: last_seq + 1,
            tick: last_tick + 1,
            seen,
            moment,
            kind,
            body,
            corrects,
            prev,
            hash: Hash::ZERO,
        };
        let seen = seen_text(&entry)?;
        entry.hash = hash_of(&entry.spelled(self.job, &text, &seen)?);
        self.insert(&entry, &text, &seen)?;
        Ok(entry)
    }

    /// The body with the name of whoever holds this phone, so that every entry has one. A body that was taken over from an
    /// older entry does not keep that one's name.
    fn signed(&self, mut body: Value) -> Result<Value, RecordError> {
        let me: Option<Option<String>> = self
            .ask("SELECT text FROM draft WHERE field = ?1", [NAME_FIELD], |row| {
                row.get(0)
            })
            .optional()
            .map_err(sql("Read who holds the phone"))?;
        if let Some(members) = body.as_object_mut() {
            members.remove(WRITTEN_BY);
            let name: String = me
                .flatten()
                .unwrap_or_default()
                .trim()
                .chars()
                .take(NAME_CHARACTERS)
                .collect();
            if !name.is_empty() {
                members.insert(WRITTEN_BY.to_owned(), name.into());
            }
        }
        Ok(body)
    }

    /// Keeps an entry, given also the canonical texts of its body and of what it had seen.
    pub(super) fn insert(&self, entry: &Entry, body: &str, seen: &str) -> Result<(), RecordError> {
        self.tx
            .prepare_cached(include_str!("sql/insert_entry.sql"))
            .and_then(|mut statement| {
                statement.execute(params![
                    entry.device.to_string(),
                    entry.seq,
                    entry.tick,
                    seen,
                    entry.moment.utc_ms,
                    entry.moment.offset_min,
                    entry.moment.boot_ms,
                    entry.kind.as_str(),
                    body,
                    entry.corrects,
                    entry.prev,
                    entry.hash,
                ])
            })
            .map_err(sql("Add an entry"))?;
        Ok(())
    }

    /// One row by a statement that stays prepared for the next entry.
    fn ask<T>(
        &self,
        text: &str,
        with: impl Params,
        read: impl FnOnce(&Row<'_>) -> rusqlite::Result<T>,
    ) -> rusqlite::Result<T> {
        self.tx.prepare_cached(text)?.query_row(with, read)
    }

    fn check_correction(&self, kind: Kind, corrects: Option<Hash>) -> Result<(), RecordError> {
        let Some(old) = corrects else { return Ok(()) };
        let corrected: Option<String> = self
            .ask("SELECT kind FROM entry WHERE hash = ?1", [old], |row| row.get(0))
            .optional()
            .map_err(sql("Look for the entry to correct"))?;
        match corrected {
            None => Err(RecordError::Correction {
                what: format!("no entry {} is here", old.short()),
            }),
            Some(other) if other != kind.as_str() => Err(RecordError::Correction {
                what: format!("{other} cannot be corrected by {}", kind.as_str()),
            }),
            Some(_) => Ok(()),
        }
    }
}

/// What an entry had seen, in canonical JSON.
pub(super) fn seen_text(entry: &Entry) -> Result<String, RecordError> {
    let seen = serde_json::to_value(&entry.seen).map_err(|why| RecordError::Body { what: why.to_string() })?;
    canonical(&seen)
}

/// The body as it will read back, and its text.
fn settled(body: Value) -> Result<(Value, String), RecordError> {
    let text = canonical_part(&body)?;
    if text.len() > BODY_LIMIT_BYTES {
        return Err(RecordError::Body {
            what: format!("it takes {} bytes, more than {BODY_LIMIT_BYTES}", text.len()),
        });
    }
    let back: Value = serde_json::from_str(&text).map_err(|why| RecordError::Body { what: why.to_string() })?;
    // What is equal has the same text.
    if back != body && canonical(&back)? != text {
        return Err(RecordError::Body {
            what: "it does not read back the same".to_owned(),
        });
    }
    Ok((back, text))
}
