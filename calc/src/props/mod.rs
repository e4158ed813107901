//! Props: what is known of them, the strut model, and the working load in a given state.

pub mod bracket;
pub mod data;
pub mod en1065;
pub mod rating;
pub mod state;
pub mod strut;
pub mod tn79;

pub use bracket::{BracketResult, bracket_resistance};
pub use data::{LoadKind, PropData, Refusal, Sheet, Tubes};
pub use rating::{Rating, rate};
pub use state::{ECCENTRICITY_LIMIT_MM, LEAN_LIMIT_MM_M, State};

#[cfg(test)]
mod tests;
