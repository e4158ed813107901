//! How a prop stands, and the limits of that.

use super::tn79;
use crate::source::{Seen, Source};
use serde::Serialize;

/// Largest eccentricity that prop loads allow for, mm.
pub const ECCENTRICITY_LIMIT_MM: f64 = 25.0;
/// Largest lean that prop loads allow for, mm per m.
pub const LEAN_LIMIT_MM_M: f64 = 25.0;
/// Source of both limits.
pub const LIMITS_SOURCE: Source = Source::new(
    "BS 5975:1996",
    "25 mm off centre, 25 mm per m out of plumb",
    Seen::Secondary("CROSS report 32 (2006)"),
);

/// How a prop stands.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct State {
    /// Load off centre at the head, mm.
    pub head_mm: f64,
    /// Load off centre at the foot, mm.
    pub foot_mm: f64,
    /// Lean along the wall and across it, mm per m; both are added as vectors.
    pub lean_mm_m: [f64; 2],
}

/// mm per m of a lean in degrees.
#[must_use]
pub fn lean_mm_m(degrees: f64) -> f64 {
    degrees.to_radians().tan() * 1e3
}

impl State {
    /// A state with its lean given in degrees in one plane.
    #[must_use]
    pub fn new(head_mm: f64, foot_mm: f64, lean_deg: f64) -> Self {
        Self {
            head_mm,
            foot_mm,
            lean_mm_m: [lean_mm_m(lean_deg), 0.0],
        }
    }

    /// The state that a proposal is made for: 25 mm at the head, 1.5° of lean, and 25 mm at the foot to the same side unless
    /// the foot is set out and fixed on centre.
    ///
    /// Its lean of 1.5° is 26.2 mm per m, what the tables allow for; a measured lean is held to 25 mm per m, so
    /// [`State::in_basis`] is asked of measured states only.
    #[must_use]
    pub fn design(foot_fixed: bool) -> Self {
        Self::new(
            ECCENTRICITY_LIMIT_MM,
            if foot_fixed { 0.0 } else { ECCENTRICITY_LIMIT_MM },
            tn79::LEAN_DEG,
        )
    }

    /// Lean in both directions together, mm per m.
    #[must_use]
    pub fn lean_total_mm_m(&self) -> f64 {
        let [along, across] = self.lean_mm_m;
        along.hypot(across)
    }

    /// The greater eccentricity of both ends, mm.
    #[must_use]
    pub fn eccentricity_mm(&self) -> f64 {
        self.head_mm.abs().max(self.foot_mm.abs())
    }

    /// Whether a measured state is within 25 mm off centre and 25 mm per m of lean.
    #[must_use]
    pub fn in_basis(&self) -> bool {
        self.eccentricity_mm() <= ECCENTRICITY_LIMIT_MM + 1e-9 && self.lean_total_mm_m() <= LEAN_LIMIT_MM_M + 1e-9
    }

    /// Whether the state is beyond 25 mm or 1.5°, where the strut's own resistance over 1.65 caps the load.
    #[must_use]
    pub fn beyond(&self) -> bool {
        self.eccentricity_mm() > ECCENTRICITY_LIMIT_MM + 1e-9
            || self.lean_total_mm_m() > lean_mm_m(tn79::LEAN_DEG) + 1e-6
    }
}
