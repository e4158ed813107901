//! The pack: everything about a job in one ZIP file, and the check that it is still as it was written.
//!
//! Members, all stored and in this order: `report.pdf`, `photos/…`, `record.json`, `rounds.csv`, `check.html`,
//! `SHA256SUMS`. All but the report, the photos and the page is made from the entries alone, so that the check makes it again
//! and compares; the entry "pack made" names all files but the record itself by one hash.

mod answer;
mod away;
mod checks;
mod choice;
mod container;
mod error;
mod import;
mod make;
mod names;
mod page;
mod record_json;
mod rounds;
mod sums;
mod verify;
mod watch;

pub use answer::{Answer, SealForm, Verdict};
pub use away::put_away;
pub use choice::Choice;
pub use error::PackError;
pub use import::{Imported, import};
pub use make::{How, Made, make, make_watched, make_with};
pub use names::{PhotoFile, photo_files};
pub use page::page;
pub use verify::{verify, verify_in};
pub use watch::{Progress, Watch};
