//! The record, the photos, the seal and the pack, from outside and against somebody who tampers.
#![expect(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    clippy::panic,
    reason = "a test that fails is to stop where it fails"
)]

mod browser;
mod canonical;
mod chain;
mod check_page;
mod clock;
mod closing;
mod correct;
mod crowd;
mod disks;
mod drafts;
mod due;
mod durable;
mod findings;
mod full;
mod fuzz;
mod gauges;
mod import;
mod import_hostile;
mod jobs;
mod kill;
mod look;
mod make;
mod migrate;
mod outside;
mod pack;
mod pack_forged;
mod people;
mod photos;
mod photos_kept;
mod seal;
mod taking_out;
mod tamper;
mod watch;
