//! What can go wrong with a seal.

use crate::record::RecordError;

/// A failure with a seal.
#[derive(Debug, thiserror::Error)]
pub enum SealError {
    /// The demonstration cannot be sealed.
    #[error("The demonstration seals nothing. Begin a job of your own to seal its record.")]
    Demo,
    /// The chains do not hold, so a seal would cover a changed record.
    #[error("The record does not hold together, so it is not sealed: {what}")]
    Broken {
        /// The first fault found.
        what: String,
    },
    /// A code that cannot be read.
    #[error("This seal cannot be read: {what}")]
    Code {
        /// What is wrong with it.
        what: String,
    },
    /// The picture of the code could not be made.
    #[error("The square code could not be drawn ({what}).")]
    Picture {
        /// The reason.
        what: String,
    },
    /// The record refused.
    #[error(transparent)]
    Record(#[from] RecordError),
}

impl SealError {
    /// Stable code that the screens branch on.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::Demo => "demo_seals_nothing",
            Self::Broken { .. } => "chain_broken",
            Self::Code { .. } => "seal_code",
            Self::Picture { .. } => "seal_picture",
            Self::Record(why) => why.code(),
        }
    }
}
