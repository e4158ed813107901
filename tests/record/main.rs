//! The record, the photos, the seal and the pack, from outside and against somebody who tampers.
#![expect(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a test that fails is to stop where it fails"
)]

mod canonical;
mod chain;
mod drafts;
mod jobs;
mod kill;
mod make;
mod migrate;
mod pack;
mod pack_forged;
mod photos;
mod photos_kept;
mod seal;
