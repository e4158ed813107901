//! Trends: what the readings of all rounds together say. A settlement curve for each prop (turns taken up × thread pitch,
//! summed), a curve for each crack gauge, and the leans; each with a fitted line, its limits, a plain sentence and a drawing.
//!
//! What stops the job is in [`rules`] and in the round; a curve only shows it. Where no source is named, the thresholds are
//! this project's own judgement.

pub mod draw;
pub mod fit;
pub mod rules;
mod say;
mod series;

pub use fit::Fit;
pub use series::{Limit, Point, Round, Series, Standing, Trends, What, trends};
