//! Imposed loads and weights of partitions.

use crate::clause::national::NationalParameters;
use crate::source::{Seen, Source};
use serde::Serialize;

/// Source of [`q_roof`].
pub const ROOF_SOURCE: Source = Source::new(
    "EN 1991-1-1 with UK NA",
    "Table NA.7",
    Seen::Secondary("a public data file citing the table"),
);
/// Source of [`q_partitions`].
pub const PARTITIONS_SOURCE: Source = Source::new("EN 1991-1-1:2002", "6.3.1.2(8)", Seen::Memory);
/// Source of [`partition_line`].
pub const LINE_SOURCE: Source = Source::new(
    "NHBC Standards 2011",
    "chapter 6.5, appendix 6.5-A",
    Seen::Secondary("a scanned copy"),
);
/// Load on a storey kept empty, kN/m², and its source: people at work, furniture and stores out.
pub const EMPTY_STOREY_KN_M2: f64 = 1.0;
/// Source of [`EMPTY_STOREY_KN_M2`].
pub const EMPTY_SOURCE: Source = Source::new("EN 1991-1-6:2005", "4.11, Table 4.1", Seen::Memory);

/// Result of [`q_roof`].
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct RoofResult {
    /// Pitch, degrees.
    pub pitch_deg: f64,
    /// Imposed load on plan, kN/m².
    pub q_kn_m2: f64,
}

/// Imposed load on a roof without access by its pitch, kN/m² on plan.
#[must_use]
pub fn q_roof(pitch_deg: f64, national: &NationalParameters) -> RoofResult {
    let (from, to) = (national.roof_falls_from_deg.value, national.roof_zero_from_deg.value);
    let share = ((to - pitch_deg) / (to - from)).clamp(0.0, 1.0);
    RoofResult {
        pitch_deg,
        q_kn_m2: national.roof_imposed_kn_m2.value * share,
    }
}

impl RoofResult {
    /// The derivation, line by line.
    #[must_use]
    pub fn steps(&self) -> Vec<String> {
        vec![format!(
            "pitch {:.1}°: q_k = {:.3} kN/m² on plan",
            self.pitch_deg, self.q_kn_m2
        )]
    }
}

/// Movable partitions as a uniform load by their weight per m run, kN/m²; `None` above 3 kN/m, where the line load itself
/// must be used.
#[must_use]
pub fn q_partitions(line_kn_m: f64) -> Option<f64> {
    match line_kn_m {
        w if w <= 1.0 => Some(0.5),
        w if w <= 2.0 => Some(0.8),
        w if w <= 3.0 => Some(1.2),
        _ => None,
    }
}

/// Weight of a partition per m run, kN/m: density in kg/m³, thickness in mm, height in m, plaster of both sides in kN/m².
#[must_use]
pub fn partition_line(rho_kg_m3: f64, t_mm: f64, height_m: f64, plaster_kn_m2: f64) -> f64 {
    height_m * (rho_kg_m3 * 9.81e-3 * t_mm * 1e-3 + plaster_kn_m2)
}
