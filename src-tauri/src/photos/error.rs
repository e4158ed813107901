//! What can go wrong with a photo, in words that say what would be right.

use std::path::{Path, PathBuf};

use crate::record::RecordError;

/// A failure with a photo.
#[derive(Debug, thiserror::Error)]
pub enum PhotoError {
    /// The file holds nothing.
    #[error("This file is empty. Choose the photo again.")]
    Empty,
    /// The file is no image of a kind known here.
    #[error("This file is not a photo: it does not begin like a JPEG, PNG, WebP or HEIC file. Choose a photo.")]
    NotAnImage,
    /// The file is larger than the limit.
    #[error(
        "This file has {bytes} bytes, more than the {limit} that are taken in. Choose a smaller size in the camera."
    )]
    TooManyBytes {
        /// Size of the file, bytes.
        bytes: u64,
        /// Largest size taken in, bytes.
        limit: u64,
    },
    /// The photo is kept but cannot be shown.
    #[error("{words}")]
    NoView {
        /// Why, in words.
        words: String,
    },
    /// The file of a photo is not there.
    #[error("The file of this photo is missing from the phone: {}", path.display())]
    Missing {
        /// Where it ought to be.
        path: PathBuf,
    },
    /// The file of a photo is not what was taken in.
    #[error("The file of this photo was changed after it was taken in: {}", path.display())]
    Changed {
        /// Where it is.
        path: PathBuf,
    },
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
    /// The record refused.
    #[error(transparent)]
    Record(#[from] RecordError),
}

impl PhotoError {
    /// Stable code that the screens branch on.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::Empty => "empty",
            Self::NotAnImage => "not_an_image",
            Self::TooManyBytes { .. } => "too_many_bytes",
            Self::NoView { .. } => "no_view",
            Self::Missing { .. } => "missing",
            Self::Changed { .. } => "changed",
            Self::File { .. } => "file",
            Self::Record(why) => why.code(),
        }
    }
}

/// Names the step and the path a file error happened at.
pub(super) fn file(doing: &'static str, path: &Path) -> impl FnOnce(std::io::Error) -> PhotoError + use<> {
    let path = path.to_path_buf();
    move |source| PhotoError::File { doing, path, source }
}
