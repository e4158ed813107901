//! The seal: one short code that stands for everything the chains of a job hold at that moment.
//!
//! SHA-256 over the sorted heads of all chains known here. Written down or photographed elsewhere, it shows later that the
//! record up to then was not quietly changed. Twelve characters are enough against a quiet change, not against weeks of
//! machine time; the QR carries all 256 bits.

mod code;
mod error;
mod give;

pub use code::{SealCode, parse, short_code};
pub use error::SealError;
pub use give::{Seal, digest, give, heads_in, last};
