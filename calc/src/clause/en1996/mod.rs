//! Masonry.

pub mod arch;
pub mod concentrated;
pub mod historic;
pub mod strength;
