//! Real situations to get right: published accounts of walls that were held up well, badly or not at all, as acceptance
//! tests.
//!
//! Each test goes the way of a user of the program: a job or a round as JSON into `calc`, the answer as JSON out. It asks
//! for the right advice, the right refusal and the order of magnitude, never for a third digit: the hand checks beside the
//! accounts stand under one stated set of assumptions.
//!
//! What is shown on a screen or kept in the record and never passes through `calc` is told as NOT RUN, with where it is
//! shown.

#![expect(clippy::unwrap_used, reason = "a test stops at the first answer that is not there")]
#![expect(
    clippy::indexing_slicing,
    reason = "a key that is missing reads as null, which no comparison meets"
)]

mod brackets;
mod ground;
mod house;
mod multi_storey;
mod needles;
mod not_yet;
mod order;
mod program;
mod rounds;
mod scope;
