//! The record of a job: an append-only list of entries, chained by hash, and the fields being typed.
//!
//! One folder per job, `jobs/<id>/record.sqlite` with its `photos/`. Only this module speaks SQL. The time and the device
//! come in as arguments; [`Moment::now`] and [`Jobs::open`] are the two places that ask the system.

mod canonical;
mod chain;
mod device;
mod disk;
mod draft;
mod entry;
mod error;
mod gate;
mod hash;
mod jobs;
mod kind;
mod migrate;
mod moment;
mod photo_rows;
mod read;
mod store;

pub use canonical::{LARGEST_WHOLE, canonical};
pub use chain::{ChainFault, chain_faults};
pub use disk::{Disk, SystemDisk, keep_file};
pub use draft::{Draft, DraftKept, DraftWrite};
pub use entry::{BODY_LIMIT_BYTES, Entry, Head, NewEntry};
pub use error::RecordError;
pub use gate::Gate;
pub use hash::Hash;
pub use jobs::{JobLine, Jobs};
pub use kind::Kind;
pub use migrate::{MIGRATIONS, Migration, bring_up_to_date};
pub use moment::Moment;
pub use photo_rows::PhotoRow;
pub use read::JobInfo;
pub(crate) use read::head_of;
pub use store::Store;
