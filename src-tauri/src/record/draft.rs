//! What is being typed: one row per field, the newest write wins.

use rusqlite::{OptionalExtension, params};
use serde::{Deserialize, Serialize};

use super::error::sql;
use super::{Gate, RecordError, Store};

/// One field being written.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize)]
pub struct DraftWrite {
    /// Path of the field.
    pub field: String,
    /// What stands in it; `None` empties it.
    pub text: Option<String>,
    /// Rises with every write of the job; an older one than the field already has is ignored.
    pub counter: i64,
}

/// What became of a write.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct DraftKept {
    /// Path of the field.
    pub field: String,
    /// Counter of the write.
    pub counter: i64,
    /// Whether it now stands; false for an older write than the one that does.
    pub kept: bool,
}

/// One kept field.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Draft {
    /// Path of the field.
    pub field: String,
    /// What stands in it.
    pub text: String,
    /// Counter of the write that put it there.
    pub counter: i64,
}

impl Store {
    /// Keeps what was typed, all in one transaction.
    ///
    /// # Errors
    ///
    /// What the database said; a negative counter is refused by it.
    pub fn draft_put(&mut self, writes: &[DraftWrite]) -> Result<Vec<DraftKept>, RecordError> {
        self.write(|gate| writes.iter().map(|write| gate.draft_put(write)).collect())
    }

    /// Every field with something in it, by path.
    ///
    /// # Errors
    ///
    /// What the database said.
    pub fn drafts(&self) -> Result<Vec<Draft>, RecordError> {
        let text = "SELECT field, text, counter FROM draft WHERE text IS NOT NULL ORDER BY field";
        let mut statement = self.db.prepare(text).map_err(sql("Ask for the drafts"))?;
        let rows = statement
            .query_map([], |row| {
                Ok(Draft {
                    field: row.get(0)?,
                    text: row.get(1)?,
                    counter: row.get(2)?,
                })
            })
            .map_err(sql("Read the drafts"))?;
        rows.collect::<Result<_, _>>().map_err(sql("Read a draft"))
    }

    /// The largest counter of the job, 0 before the first write: the next write takes one more.
    ///
    /// # Errors
    ///
    /// What the database said.
    pub fn draft_counter(&self) -> Result<i64, RecordError> {
        self.db
            .query_row("SELECT coalesce(max(counter), 0) FROM draft", [], |row| row.get(0))
            .map_err(sql("Read the draft counter"))
    }
}

impl Gate<'_> {
    /// Keeps one field unless a newer write already stands. The same write sent twice counts as kept.
    ///
    /// # Errors
    ///
    /// What the database said.
    pub fn draft_put(&self, write: &DraftWrite) -> Result<DraftKept, RecordError> {
        self.tx
            .execute(
                "INSERT INTO draft (field, text, counter) VALUES (?1, ?2, ?3) \
                 ON CONFLICT (field) DO UPDATE SET text = excluded.text, counter = excluded.counter \
                 WHERE excluded.counter > draft.counter",
                params![write.field, write.text, write.counter],
            )
            .map_err(sql("Keep a draft"))?;
        let standing: Option<(Option<String>, i64)> = self
            .tx
            .query_row(
                "SELECT text, counter FROM draft WHERE field = ?1",
                [&write.field],
                |row| Ok((row.get(0)?, row.get(1)?)),
            )
            .optional()
            .map_err(sql("Read a draft back"))?;
        let kept = standing.is_some_and(|(text, counter)| text == write.text && counter == write.counter);
        Ok(DraftKept {
            field: write.field.clone(),
            counter: write.counter,
            kept,
        })
    }

    /// Empties every field whose path starts with `prefix`. Their rows take the job's largest counter, so that a write
    /// still on its way cannot bring them back.
    ///
    /// # Errors
    ///
    /// What the database said.
    pub fn draft_clear_prefix(&self, prefix: &str) -> Result<(), RecordError> {
        self.tx
            .execute(
                "UPDATE draft SET text = NULL, counter = (SELECT max(counter) FROM draft) \
                 WHERE substr(field, 1, length(?1)) = ?1",
                [prefix],
            )
            .map_err(sql("Clear drafts"))?;
        Ok(())
    }
}
