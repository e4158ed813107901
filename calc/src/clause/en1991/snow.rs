//! Snow.

use crate::source::{Seen, Source};
use serde::Serialize;

/// Source of [`s_k_uk`].
pub const GROUND_SOURCE: Source = Source::new(
    "EN 1991-1-3 UK NA with corrigendum 1 of June 2007",
    "NA.2.8, (A − 100)/525",
    Seen::Secondary("a public copy of the annex; earlier reprints have (A + 100)"),
);
/// Source of [`s_roof`].
pub const ROOF_SOURCE: Source = Source::new("EN 1991-1-3:2003", "5.2(3), 5.3, Table 5.2", Seen::Memory);
/// Ground snow where the zone is unknown, kN/m².
pub const UNKNOWN_ZONE_KN_M2: f64 = 0.6;

/// Result of [`s_k_uk`].
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct GroundSnow {
    /// Zone.
    pub zone: f64,
    /// Altitude, m.
    pub altitude_m: f64,
    /// s_k, kN/m².
    pub s_k_kn_m2: f64,
}

/// Ground snow in the United Kingdom, 0.15 + (0.1·Z + 0.05) + (A − 100)/525, never below 0, kN/m².
#[must_use]
pub fn s_k_uk(zone: f64, altitude_m: f64) -> GroundSnow {
    let s_k = 0.15 + (0.1 * zone + 0.05) + (altitude_m - 100.0) / 525.0;
    GroundSnow {
        zone,
        altitude_m,
        s_k_kn_m2: s_k.max(0.0),
    }
}

impl GroundSnow {
    /// The derivation, line by line.
    #[must_use]
    pub fn steps(&self) -> Vec<String> {
        vec![format!(
            "s_k = 0.15 + (0.1 × {} + 0.05) + ({} − 100)/525 = {:.3} kN/m²",
            self.zone, self.altitude_m, self.s_k_kn_m2
        )]
    }
}

/// Shape coefficient μ1 of a roof by its pitch: 0.8 up to 30°, then falling to 0 at 60°.
#[must_use]
pub fn mu_1(pitch_deg: f64) -> f64 {
    0.8 * ((60.0 - pitch_deg) / 30.0).clamp(0.0, 1.0)
}

/// Arguments of [`s_roof`].
#[derive(Clone, Copy, Debug)]
pub struct RoofSnow {
    /// Pitch, degrees.
    pub pitch_deg: f64,
    /// Ground snow, kN/m².
    pub s_k_kn_m2: f64,
    /// C_e, exposure.
    pub c_e: f64,
    /// C_t, heat.
    pub c_t: f64,
}

/// Result of [`s_roof`].
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct RoofSnowResult {
    /// μ1.
    pub mu_1: f64,
    /// s, kN/m² on plan.
    pub s_kn_m2: f64,
}

/// Snow on a roof, μ1·C_e·C_t·s_k, kN/m² on plan, undrifted.
#[must_use]
pub fn s_roof(args: &RoofSnow) -> RoofSnowResult {
    let mu_1 = mu_1(args.pitch_deg);
    RoofSnowResult {
        mu_1,
        s_kn_m2: mu_1 * args.c_e * args.c_t * args.s_k_kn_m2,
    }
}

impl RoofSnowResult {
    /// The derivation, line by line.
    #[must_use]
    pub fn steps(&self) -> Vec<String> {
        vec![format!(
            "μ1 = {:.3}; s = μ1·C_e·C_t·s_k = {:.3} kN/m²",
            self.mu_1, self.s_kn_m2
        )]
    }
}
