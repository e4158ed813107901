//! What can go wrong with a pack.

use std::path::{Path, PathBuf};

use crate::record::RecordError;
use crate::seal::SealError;

/// A failure with a pack. A pack that was changed is no failure but an answer.
#[derive(Debug, thiserror::Error)]
pub enum PackError {
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
    /// The report could not be made.
    #[error("The report could not be made: {what}")]
    Report {
        /// The reason.
        what: String,
    },
    /// Something is too large for the pack.
    #[error("{what} is too large for the pack ({bytes} bytes, at most {limit}).")]
    TooLarge {
        /// Which part.
        what: String,
        /// Its size, bytes.
        bytes: u64,
        /// The largest size, bytes.
        limit: u64,
    },
    /// A pack that was changed is not taken in.
    #[error("This pack is not as it was written, so nothing of it is taken in. {}", places.join(". "))]
    Changed {
        /// Where it was changed, in words.
        places: Vec<String>,
    },
    /// There is not enough room.
    #[error("There is too little room: {what}. Nothing was changed; make room and try again.")]
    NoRoom {
        /// How much is lacking.
        what: String,
    },
    /// Somebody stopped it.
    #[error("The pack was stopped before it was finished; nothing of it is left in the folder.")]
    Stopped,
    /// The job cannot be put away yet.
    #[error("This job is not put away: {what}.")]
    NotPutAway {
        /// The reason.
        what: String,
    },
    /// The seal to check against cannot be read.
    #[error(transparent)]
    Seal(#[from] SealError),
    /// The record refused.
    #[error(transparent)]
    Record(#[from] RecordError),
}

impl PackError {
    /// Stable code that the screens branch on.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::File { .. } => "file",
            Self::Report { .. } => "report",
            Self::TooLarge { .. } => "pack_too_large",
            Self::Changed { .. } => "pack_changed",
            Self::NoRoom { .. } => "no_room",
            Self::Stopped => "stopped",
            Self::NotPutAway { .. } => "not_put_away",
            Self::Seal(why) => why.code(),
            Self::Record(why) => why.code(),
        }
    }
}

/// Names the step and the path a file error happened at.
pub(super) fn file(doing: &'static str, path: &Path) -> impl FnOnce(std::io::Error) -> PackError + use<> {
    let path = path.to_path_buf();
    move |source| PackError::File { doing, path, source }
}
