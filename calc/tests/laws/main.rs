//! Laws that hold for every job, tried on random plausible ones.

#![expect(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a test stops at the first broken law"
)]

#[path = "../common/mod.rs"]
mod common;

mod input;
mod load;
mod mirror;
mod scale;
mod strength;
mod verdict;
