//! Actions: imposed loads, snow, wind.

pub mod imposed;
pub mod snow;
pub mod wind;
