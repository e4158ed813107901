//! Timber.

pub mod beam;
pub mod bearing;
pub mod column;
pub mod design;
