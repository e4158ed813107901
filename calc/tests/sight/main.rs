//! Photo geometry from outside: against a library, a published calibration board, and scenes made here with errors drawn.
#![expect(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a test stops at the first number that is not there"
)]

mod board;
mod causes;
mod draw;
mod lean;
mod library;
mod scenes;
mod setout;
mod tilt;
