//! Combinations of actions.

use super::national::NationalParameters;
use crate::source::{Seen, Source};
use serde::Serialize;

/// Source of [`strength`].
pub const SOURCE: Source = Source::new("EN 1990:2002", "6.4.3.2, Eq. (6.10) and (6.10b)", Seen::Memory);
/// Source of [`accidental`].
pub const ACCIDENTAL_SOURCE: Source = Source::new("EN 1990:2002", "6.4.3.3, Eq. (6.11b), Table A1.1", Seen::Memory);

/// Result of [`strength`].
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct StrengthLoad {
    /// Permanent part with its factor.
    pub g: f64,
    /// Variable part with its factor.
    pub q: f64,
    /// Sum, in the unit of the arguments.
    pub total: f64,
}

/// Strength load ξ·γ_G·G + γ_Q·Q in the unit of its arguments; ξ is 1 in Eq. (6.10), which this project uses, and 0.925 in
/// the UK's (6.10b). All variable loads are taken in full.
#[must_use]
pub fn strength(g: f64, q: f64, xi: f64, national: &NationalParameters) -> StrengthLoad {
    let g = xi * national.gamma_g.value * g;
    let q = national.gamma_q.value * q;
    StrengthLoad { g, q, total: g + q }
}

impl StrengthLoad {
    /// The derivation, line by line.
    #[must_use]
    pub fn steps(&self) -> Vec<String> {
        vec![format!(
            "ξ·γ_G·G + γ_Q·Q = {:.3} + {:.3} = {:.3}",
            self.g, self.q, self.total
        )]
    }
}

/// Accidental load G + ψ1·Q in the unit of its arguments, variable loads apart by kind.
#[must_use]
pub fn accidental(g: f64, q_floor: f64, q_snow: f64, q_roof: f64, national: &NationalParameters) -> f64 {
    g + national.psi1_floor.value * q_floor + national.psi1_snow.value * q_snow + national.psi1_roof.value * q_roof
}
