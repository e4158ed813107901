//! One open job, and the one gate every write goes through.

use std::path::{Path, PathBuf};
use std::time::Duration;

use rusqlite::config::DbConfig;
use rusqlite::{Connection, OpenFlags, OptionalExtension, TransactionBehavior};
use uuid::Uuid;

use super::entry::{Entry, NewEntry};
use super::error::sql;
use super::gate::Gate;
use super::migrate::{MIGRATIONS, bring_up_to_date, version};
use super::{Moment, RecordError};

/// How long a write waits for another one (own judgement).
const BUSY: Duration = Duration::from_secs(5);

/// Size of a page in the file of a new job. An entry touches a page of its table and one of each index over it, and each is
/// written and synced whole: at half the usual size an entry takes a tenth less time (measured; see the contributor guide).
const PAGE_BYTES: u32 = 2048;

/// One open job.
#[derive(Debug)]
pub struct Store {
    pub(super) db: Connection,
    folder: PathBuf,
    job: Uuid,
    device: Uuid,
    /// Whether the whole file was found sound since it was opened. Before that nothing is written into it.
    sound: bool,
}

impl Store {
    /// Makes the file of a new job in `folder`, which exists and is empty.
    pub(super) fn create(folder: &Path, job: Uuid, device: Uuid) -> Result<Self, RecordError> {
        let path = folder.join("record.sqlite");
        let mut db = Connection::open(&path).map_err(sql("Begin the file of a job"))?;
        db.pragma_update(None, "page_size", PAGE_BYTES)
            .map_err(sql("Set the size of pages"))?;
        settle(&db)?;
        bring_up_to_date(&mut db, &path, MIGRATIONS)?;
        db.execute("INSERT INTO job (only, id) VALUES (1, ?1)", [job.to_string()])
            .map_err(sql("Name the job"))?;
        Ok(Self {
            db,
            folder: folder.to_path_buf(),
            job,
            device,
            sound: true,
        })
    }

    /// Opens the job in `folder` for the installation `device`; checks the file and brings it up to date.
    ///
    /// # Errors
    ///
    /// [`RecordError::Damaged`] if the file does not pass its check, [`RecordError::Newer`] if a later version of the app
    /// wrote it, otherwise what the database said.
    pub fn open(folder: &Path, device: Uuid) -> Result<Self, RecordError> {
        let mut store = Self::open_to_look(folder, device)?;
        store.check()?;
        Ok(store)
    }

    /// Opens the job in `folder` without reading its whole file, so that it opens as fast with ten thousand entries as with
    /// ten. It can be read at once; the first write checks the whole file before, unless [`Store::check`] did meanwhile.
    ///
    /// # Errors
    ///
    /// As [`Store::open`], as far as the beginning of the file shows it.
    pub fn open_to_look(folder: &Path, device: Uuid) -> Result<Self, RecordError> {
        let path = folder.join("record.sqlite");
        if !path.is_file() {
            return Err(RecordError::Damaged {
                what: "the file record.sqlite is missing".to_owned(),
            });
        }
        let flags = OpenFlags::SQLITE_OPEN_READ_WRITE | OpenFlags::SQLITE_OPEN_NO_MUTEX;
        let mut db = Connection::open_with_flags(&path, flags).map_err(sql("Open the file of a job"))?;
        // Nothing is set before the version is known, so that a newer file is left as it is.
        if version(&db)? == 0 {
            return Err(RecordError::Damaged {
                what: "the file record.sqlite is empty".to_owned(),
            });
        }
        let known = i64::try_from(MIGRATIONS.len()).unwrap_or(i64::MAX);
        match version(&db)? {
            found if found > known => return Err(RecordError::Newer { found, known }),
            _ => settle(&db)?,
        }
        // A file that is about to be changed is checked first.
        let sound = version(&db)? < known;
        if sound {
            check(&db)?;
            bring_up_to_date(&mut db, &path, MIGRATIONS)?;
        }
        let id: String = db
            .query_row("SELECT id FROM job", [], |row| row.get(0))
            .map_err(sql("Read the job's id"))?;
        let job = Uuid::parse_str(&id).map_err(|_| RecordError::BadColumn {
            column: "job.id",
            what: id,
        })?;
        Ok(Self {
            db,
            folder: folder.to_path_buf(),
            job,
            device,
            sound,
        })
    }

    /// Reads the whole file once and says whether it is sound; nothing is read where that is known already.
    ///
    /// # Errors
    ///
    /// [`RecordError::Damaged`] if it is not, otherwise what the database said.
    pub fn check(&mut self) -> Result<(), RecordError> {
        if !self.sound {
            check(&self.db)?;
            self.sound = true;
        }
        Ok(())
    }

    /// Takes it that the whole file is sound, since it was just read through another connection.
    pub(crate) const fn found_sound(&mut self) {
        self.sound = true;
    }

    /// The job's id.
    #[must_use]
    pub const fn job(&self) -> Uuid {
        self.job
    }

    /// This installation's id.
    #[must_use]
    pub const fn device(&self) -> Uuid {
        self.device
    }

    /// The job's folder.
    #[must_use]
    pub fn folder(&self) -> &Path {
        &self.folder
    }

    /// Where the photos lie, named by their SHA-256.
    #[must_use]
    pub fn photo_folder(&self) -> PathBuf {
        self.folder.join("photos")
    }

    /// Runs `work` in one transaction: all of it is kept, or none.
    ///
    /// # Errors
    ///
    /// What `work` said, that the transaction could not be begun or kept, or [`RecordError::Damaged`] for a file that was
    /// opened to look and is not sound.
    pub fn write<T, E: From<RecordError>>(&mut self, work: impl FnOnce(&Gate<'_>) -> Result<T, E>) -> Result<T, E> {
        self.check()?;
        let tx = self
            .db
            .transaction_with_behavior(TransactionBehavior::Immediate)
            .map_err(sql("Begin a write"))?;
        let gate = Gate {
            tx,
            job: self.job,
            device: self.device,
        };
        let out = work(&gate)?;
        gate.tx.commit().map_err(sql("Keep a write"))?;
        Ok(out)
    }

    /// Adds entries in one transaction and, in the same one, empties the drafts whose field starts with `clear_prefix`.
    ///
    /// # Errors
    ///
    /// As [`Gate::append`].
    pub fn append_many(
        &mut self,
        moment: Moment,
        entries: Vec<NewEntry>,
        clear_prefix: Option<&str>,
    ) -> Result<Vec<Entry>, RecordError> {
        self.write(|gate| {
            let kept = entries
                .into_iter()
                .map(|entry| gate.append(moment, entry))
                .collect::<Result<_, _>>()?;
            if let Some(prefix) = clear_prefix {
                gate.draft_clear_prefix(prefix)?;
            }
            Ok(kept)
        })
    }
}

/// Sets what every connection needs.
fn settle(db: &Connection) -> Result<(), RecordError> {
    db.busy_timeout(BUSY).map_err(sql("Set the waiting time"))?;
    let mode: String = db
        .query_row("PRAGMA journal_mode = WAL", [], |row| row.get(0))
        .map_err(sql("Set the write-ahead log"))?;
    if mode != "wal" {
        return Err(RecordError::Damaged {
            what: format!("the write-ahead log cannot be used here, only {mode}"),
        });
    }
    // Else a statement with a limit is prepared anew for each value it is used with, in case another plan suited that one better.
    db.set_db_config(DbConfig::SQLITE_DBCONFIG_ENABLE_QPSG, true)
        .map_err(sql("Keep the ways of looking things up"))?;
    // recursive_triggers makes INSERT OR REPLACE run the triggers that forbid deleting.
    db.execute_batch(
        "PRAGMA synchronous = FULL; PRAGMA foreign_keys = ON; PRAGMA recursive_triggers = ON; \
         PRAGMA trusted_schema = OFF; PRAGMA cell_size_check = ON;",
    )
    .map_err(sql("Set up the connection"))
}

/// The check at start, with a plain answer.
fn check(db: &Connection) -> Result<(), RecordError> {
    let answer: String = db
        .query_row("PRAGMA integrity_check(1)", [], |row| row.get(0))
        .map_err(sql("Check the file of a job"))?;
    if answer != "ok" {
        return Err(RecordError::Damaged { what: answer });
    }
    let stray: Option<String> = db
        .query_row("PRAGMA foreign_key_check", [], |row| row.get(0))
        .optional()
        .map_err(sql("Check the references of a job"))?;
    match stray {
        Some(table) => Err(RecordError::Damaged {
            what: format!("a row of {table} names an entry that is not there"),
        }),
        None => Ok(()),
    }
}
