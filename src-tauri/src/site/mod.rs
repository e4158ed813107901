//! What is done on a job: figure it, keep a proposal, do a round, read the record, make the papers.
//!
//! Everything here works on an open job and knows nothing of the window, so the screens' commands and the demo without a
//! window do the very same. The time comes in as an argument.

mod closers;
mod closing;
mod correct;
mod curves;
mod day;
mod days;
mod derived;
mod due;
mod figure;
mod finding;
mod findings;
mod gauges;
mod given;
mod gust;
mod held;
mod hire;
mod keep;
mod left_out;
mod line;
mod looks;
mod meaning;
mod open;
mod papers;
mod permits;
mod proposals;
mod readings;
mod remind;
mod repair;
mod round;
mod runs;
mod seals;
mod seen;
mod sight;
mod state;
mod stops;
mod summary;
mod taking_out;
mod trial;
mod words;

pub use closing::{Closing, NewClosing, against_closing, close, reopen};
pub use correct::correct;
pub use curves::curves;
pub use day::next_due;
pub use days::DayRun;
pub use derived::Derived;
pub use due::{Ask, Due, DueReason, Watch, due, due_in, watch};
pub use figure::{Figure, Sketches, figure, helps};
pub use finding::{Again, Closed, CorrectedAway, Finding, RepairLine};
pub use gauges::GaugeRead;
pub use gust::{Gust, Stands, gust};
pub use held::missing_days;
pub use hire::{Hire, HireLine};
pub use keep::{Kept, fields, keep, kept};
pub use line::{
    PhotoLine, RecordDays, RecordLine, RecordPage, Said, photo_lines, photo_page, record_days, record_page,
};
pub use looks::{After, LookLine, LookStands, NewLook, after, look_after};
pub use meaning::{MEANINGS, Meaning, meaning};
pub use open::{OpenJob, open};
pub use papers::{brief, caution, pack, pack_of, report};
pub use permits::PermitState;
pub use proposals::{ProposalLine, ProposalsOpen, choose};
pub use remind::{Reminder, reminders};
pub use repair::{NewFinding, NewRepair, finding_add, repair_add};
pub use round::{RoundDone, RoundLine, check, done, rounds};
pub use seals::{SealGiven, seals};
pub(crate) use seen::count;
pub use seen::{asked, folded, saw};
pub use sight::{crack, drawn, lean, measure, off_centre, set_out};
pub use state::{SiteState, fold, state};
pub use stops::{Passed, pass, passed, passed_in};
pub use summary::{PropEnds, Summary, summary};
pub use taking_out::{NewLetDown, PropOut, TakingOut, Turn, let_down};
pub use trial::{Swap, Trial, swaps, trial};
pub use words::{signed_by, words};
