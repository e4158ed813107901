//! The pack: everything about a job in one ZIP file, and the check that it is still as it was written.
//!
//! Members, all stored and in this order: `report.pdf`, `photos/…`, `record.json`, `rounds.csv`, `SHA256SUMS`. All but the
//! report and the photos is made from the entries alone, so that the check makes it again and compares.

mod answer;
mod checks;
mod container;
mod error;
mod make;
mod names;
mod record_json;
mod rounds;
mod sums;
mod verify;

pub use answer::{Answer, SealForm, Verdict};
pub use error::PackError;
pub use make::{Made, make};
pub use names::{PhotoFile, photo_files};
pub use verify::verify;
