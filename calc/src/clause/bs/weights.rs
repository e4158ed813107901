//! Weights of walls by area, by the schedule of BS 648.

use crate::source::{Seen, Source};
use serde::Serialize;

/// Source of [`surface_weight`].
pub const SOURCE: Source = Source::new(
    "BS 648:1964",
    "schedule of weights",
    Seen::Secondary("a textbook's table 2.1"),
);

/// kg/m² per 25 mm of thickness by the schedule.
pub const PER_25_MM: &[(&str, f64)] = &[("brick", 55.0), ("dense_block", 55.0), ("aerated_block", 15.0)];
/// 13 mm of two-coat gypsum plaster, kg/m².
pub const PLASTER_13_KG_M2: f64 = 22.0;

/// Result of [`surface_weight`].
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct SurfaceResult {
    /// kg/m².
    pub kg_m2: f64,
    /// kN/m².
    pub kn_m2: f64,
}

/// Weight of a wall by area: thicknesses in mm with their kg/m² per 25 mm, and plaster in kg/m².
#[must_use]
pub fn surface_weight(layers: &[(f64, f64)], plaster_kg_m2: f64) -> SurfaceResult {
    let kg_m2 = layers.iter().map(|(t_mm, per_25)| t_mm / 25.0 * per_25).sum::<f64>() + plaster_kg_m2;
    SurfaceResult {
        kg_m2,
        kn_m2: kg_m2 * 9.81e-3,
    }
}

impl SurfaceResult {
    /// The derivation, line by line.
    #[must_use]
    pub fn steps(&self) -> Vec<String> {
        vec![format!("{:.1} kg/m² = {:.3} kN/m²", self.kg_m2, self.kn_m2)]
    }
}
