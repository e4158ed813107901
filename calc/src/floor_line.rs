//! Floors held apart from the wall: a header on props under the joists on each side where they come onto the wall.
//!
//! A floor that bears below the needles is not on them: without its own line nothing holds it. A floor that bears above
//! them is on the needles, and its line is a reserve that is designed only where the user takes the floor off the needles.
//! Joists that run along the wall bring nothing to speak of. Each of these gets its entry: no line stays empty in silence.

pub mod comb;
mod design;
pub mod joist;
mod judge;
mod lost;
pub mod member;
pub mod runner;
mod runner_lost;
mod scope;
#[cfg(test)]
mod tests;
mod write;

use crate::checks::Side;
use crate::clause::en1995::design::DesignValues;
use crate::geometry::Geometry;
use crate::job::{Direction, Floor, Job};
use crate::tables::timber::TimberGrade;

pub use design::{Beside, Designed, lines};
pub use scope::{assume, refusals, restraint, why_not};

/// Breadth of a joist that is not described, mm. Common practice, no source.
pub const JOIST_MM: f64 = 47.0;
/// Thickness of the boards within the depth of joists and boards, mm. Common practice, no source.
pub const FLOOR_BOARDS_MM: f64 = 20.0;
/// Sideways load of one screw 5 × 100 through a joist's side, kN. A low value from memory.
pub const SCREW_KN: f64 = 0.4;
/// Length of joist in the wall, m. Common practice, no source.
const IN_WALL_M: f64 = 0.1;

/// Which floor and which side.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Place {
    /// Floor, counted from 0.
    pub floor: usize,
    /// Side of the wall.
    pub side: Side,
}

/// A timber with its design values.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Timber {
    /// Strength class.
    pub grade: TimberGrade,
    /// Breadth, mm.
    pub b_mm: f64,
    /// Depth, mm.
    pub h_mm: f64,
    /// Design values.
    pub design: DesignValues,
    /// k_cr.
    pub k_cr: f64,
}

/// What becomes of a floor.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Held {
    /// It bears below the needles: only its own line holds it.
    Below,
    /// The user takes it off the needles.
    Apart,
    /// It is on the needles.
    OnNeedles,
    /// Its joists run along the wall.
    Along,
}

/// Span of a floor on a side, m.
#[must_use]
pub fn span_m(floor: &Floor, side: Side) -> f64 {
    match side {
        Side::Inside => floor.inside_span_m,
        Side::Outside => floor.outside_span_m,
    }
}

/// What becomes of floor `i`; none where there is no floor or it has no span.
#[must_use]
pub fn held(job: &Job, geometry: &Geometry, i: usize) -> Option<Held> {
    let floor = job.above.get(i)?.floor.as_ref()?;
    let bearing = geometry.floors_m.get(i)?;
    if floor.inside_span_m + floor.outside_span_m <= 0.0 {
        return None;
    }
    Some(if floor.direction == Direction::Along {
        Held::Along
    } else if *bearing < geometry.soffit_m - 1e-9 {
        Held::Below
    } else if floor.held_apart {
        Held::Apart
    } else {
        Held::OnNeedles
    })
}

/// Whether the needles' props inside pass through a floor.
#[must_use]
pub fn passed_inside(job: &Job, geometry: &Geometry) -> bool {
    let floors = job.above.iter().zip(&geometry.floors_m);
    floors
        .filter_map(|(storey, bearing)| storey.floor.as_ref().map(|floor| (floor, *bearing)))
        .any(|(floor, bearing)| floor.inside_span_m > 0.0 && bearing < geometry.soffit_m - 1e-9)
}

/// Whether the load of floor `i` is left to a line of its own.
#[must_use]
pub fn has_own_line(job: &Job, geometry: &Geometry, i: usize) -> bool {
    matches!(held(job, geometry, i), Some(Held::Below | Held::Apart))
}
