//! What can go wrong with the record, in words for the person holding the phone.

use std::path::PathBuf;

use uuid::Uuid;

/// A failure of the record.
#[derive(Debug, thiserror::Error)]
pub enum RecordError {
    /// A file operation failed.
    #[error("{doing} did not work: {} ({source})", path.display())]
    File {
        /// What was being done.
        doing: &'static str,
        /// The file or folder.
        path: PathBuf,
        /// The system's reason.
        source: std::io::Error,
    },
    /// The database refused.
    #[error("{doing} did not work ({source})")]
    Sql {
        /// What was being done.
        doing: &'static str,
        /// The database's reason.
        source: rusqlite::Error,
    },
    /// The file of a job is damaged.
    #[error(
        "The record of this job is damaged ({what}). Other jobs are not affected, and its photos lie beside it as they were. Keep the folder, set the damaged job aside, and take in its last pack."
    )]
    Damaged {
        /// What the check found.
        what: String,
    },
    /// The file was written by a later version of the app.
    #[error(
        "This job was written by a newer version of the app (file version {found}, this app knows {known}). Update the app; nothing was changed."
    )]
    Newer {
        /// Version in the file.
        found: i64,
        /// Newest version known here.
        known: i64,
    },
    /// No such job.
    #[error("There is no job {job} here.")]
    NoJob {
        /// The id asked for.
        job: Uuid,
    },
    /// A stored value is not what its column promises.
    #[error("The record holds a value that does not belong in {column}: {what}")]
    BadColumn {
        /// Table and column.
        column: &'static str,
        /// What stood there.
        what: String,
    },
    /// A body cannot be kept so that it reads back the same.
    #[error("This cannot be kept: {what}")]
    Body {
        /// The reason.
        what: String,
    },
    /// A correction names an entry that is not there, or of another kind.
    #[error("A correction must name an earlier entry of the same kind: {what}")]
    Correction {
        /// The reason.
        what: String,
    },
    /// Entries handed over could not have been written by this app.
    #[error("What was handed over cannot be taken in: {what}. Nothing was changed here.")]
    Foreign {
        /// The place and the reason.
        what: String,
    },
    /// Entries handed over bear this job's id and begin otherwise.
    #[error(
        "What was handed over bears the number of a job that is here, but begins with another entry. It is another job, or one of the two was changed. Nothing was taken in."
    )]
    OtherJob,
    /// A job needs a name.
    #[error("Give the job a name, such as the street and house number.")]
    NameMissing,
    /// A job that is whole is not set aside.
    #[error("This job is not damaged, so it is not set aside.")]
    NotDamaged,
    /// Only a demonstration can be deleted.
    #[error("Only the demonstration can be deleted. A job is put away instead: its folder is moved and stays whole.")]
    NotADemo,
}

impl RecordError {
    /// Stable code that the screens branch on.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::File { .. } => "file",
            Self::Sql { .. } => "database",
            Self::Damaged { .. } | Self::BadColumn { .. } => "damaged",
            Self::Newer { .. } => "newer",
            Self::NoJob { .. } => "no_job",
            Self::Body { .. } => "body",
            Self::Correction { .. } => "correction",
            Self::Foreign { .. } => "foreign",
            Self::OtherJob => "other_job",
            Self::NameMissing => "name_missing",
            Self::NotDamaged => "not_damaged",
            Self::NotADemo => "not_a_demo",
        }
    }
}

/// Names the step a database error happened in; a broken file becomes [`RecordError::Damaged`].
pub(super) fn sql(doing: &'static str) -> impl Fn(rusqlite::Error) -> RecordError {
    move |source| match source.sqlite_error_code() {
        Some(rusqlite::ErrorCode::NotADatabase | rusqlite::ErrorCode::DatabaseCorrupt) => RecordError::Damaged {
            what: source.to_string(),
        },
        _ => RecordError::Sql { doing, source },
    }
}

/// Names the step and the path a file error happened at.
pub(super) fn file(doing: &'static str, path: &std::path::Path) -> impl FnOnce(std::io::Error) -> RecordError + use<> {
    let path = path.to_path_buf();
    move |source| RecordError::File { doing, path, source }
}
