//! What is done on a job: figure it, keep a proposal, do a round, read the record, make the papers.
//!
//! Everything here works on an open job and knows nothing of the window, so the screens' commands and the demo without a
//! window do the very same. The time comes in as an argument.

mod correct;
mod day;
mod figure;
mod keep;
mod line;
mod papers;
mod round;
mod stops;
mod words;

pub use correct::correct;
pub use day::next_due;
pub use figure::{Figure, Sketches, figure};
pub use keep::{Kept, fields, keep, kept};
pub use line::{PhotoLine, RecordLine, RecordPage, photo_lines, record_page};
pub use papers::{brief, caution, pack, pack_of, report};
pub use round::{RoundDone, RoundLine, check, done, rounds};
pub use stops::{Passed, pass, passed};
pub use words::words;
