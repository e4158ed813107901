//! Bringing a job's file up to date, one numbered step at a time.

use std::fs;
use std::path::Path;

use rusqlite::{Connection, TransactionBehavior};

use super::RecordError;
use super::error::{file, sql};

/// One step: the SQL that leads from the version before it to this one.
#[derive(Clone, Copy, Debug)]
pub struct Migration {
    /// The SQL text.
    pub sql: &'static str,
}

/// All steps. The number of steps is the version of the file; a step once released is never edited.
pub const MIGRATIONS: &[Migration] = &[
    Migration {
        sql: include_str!("sql/001_record.sql"),
    },
    Migration {
        sql: include_str!("sql/002_photos_drafts.sql"),
    },
    Migration {
        sql: include_str!("sql/003_corrections.sql"),
    },
];

/// Version of the file behind `db`.
pub(super) fn version(db: &Connection) -> Result<i64, RecordError> {
    db.query_row("PRAGMA user_version", [], |row| row.get(0))
        .map_err(sql("Read the version of the file"))
}

/// Applies the steps that the file at `path` lacks, each in a transaction of its own. A file that already holds something
/// is first copied to `record.before-<version>.sqlite` beside it.
///
/// # Errors
///
/// [`RecordError::Newer`] if the file knows more steps than `steps`, otherwise what the database or the copy said; the
/// file then stands at the last step that succeeded.
pub fn bring_up_to_date(db: &mut Connection, path: &Path, steps: &[Migration]) -> Result<(), RecordError> {
    let found = version(db)?;
    let known = i64::try_from(steps.len()).unwrap_or(i64::MAX);
    if found > known {
        return Err(RecordError::Newer { found, known });
    }
    if found > 0 && found < known {
        copy(db, path, found)?;
    }
    for (number, step) in (1_i64..).zip(steps) {
        if number <= found {
            continue;
        }
        let tx = db
            .transaction_with_behavior(TransactionBehavior::Immediate)
            .map_err(sql("Begin a migration"))?;
        tx.execute_batch(step.sql).map_err(sql("Run a migration"))?;
        tx.pragma_update(None, "user_version", number)
            .map_err(sql("Number a migration"))?;
        tx.commit().map_err(sql("Keep a migration"))?;
    }
    Ok(())
}

fn copy(db: &Connection, path: &Path, found: i64) -> Result<(), RecordError> {
    let target = path.with_file_name(format!("record.before-{}.sqlite", found + 1));
    if target.exists() {
        // Left by a migration that did not get through: the file it was made from is still as it was.
        fs::remove_file(&target).map_err(file("Remove an unfinished copy", &target))?;
    }
    let text = target.to_string_lossy().into_owned();
    db.execute("VACUUM INTO ?1", [text])
        .map_err(sql("Copy the file before a migration"))?;
    fs::OpenOptions::new()
        .write(true)
        .open(&target)
        .and_then(|kept| kept.sync_all())
        .map_err(file("Keep the copy before a migration", &target))
}
