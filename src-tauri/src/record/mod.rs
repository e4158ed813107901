//! The record of a job: an append-only list of entries, chained by hash, and the fields being typed.
//!
//! One folder per job, `jobs/<id>/record.sqlite` with its `photos/`. Only this module speaks SQL. The time and the device
//! come in as arguments; [`Moment::now`] and [`Jobs::open`] are the two places that ask the system.

mod canonical;
mod chain;
mod clock;
mod correct;
mod days;
mod device;
mod disk;
mod draft;
mod entry;
mod error;
mod gate;
mod hash;
mod health;
mod jobs;
mod kind;
mod merge;
mod migrate;
mod moment;
mod photo_rows;
mod read;
mod space;
mod statements;
mod store;

pub use canonical::{LARGEST_WHOLE, canonical};
pub use chain::{ChainFault, chain_faults};
pub use clock::{ClockMove, clock_moves};
pub use correct::{as_corrected, corrected_bodies};
pub use days::{TAKE_OUT, missing_days, takes_out};
pub use disk::{Disk, SystemDisk, keep_file};
pub use draft::{Draft, DraftKept, DraftWrite};
pub use entry::{BODY_LIMIT_BYTES, Entry, Head, NewEntry, Order};
pub use error::RecordError;
pub use gate::{Gate, WRITTEN_BY};
pub use hash::Hash;
pub use health::Health;
pub(crate) use health::hash_file;
pub use jobs::{JobLine, Jobs};
pub use kind::Kind;
pub use merge::{LeftOut, Taken, check_foreign};
pub use migrate::{MIGRATIONS, Migration, bring_up_to_date};
pub use moment::Moment;
pub use photo_rows::{Added, PhotoRow};
pub use read::JobInfo;
pub(crate) use read::head_of;
pub use space::{Room, free_bytes};
pub use store::Store;
