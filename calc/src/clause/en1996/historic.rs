//! Bearing on old brickwork in lime mortar, at service load.

use crate::source::{Seen, Source};
use serde::Serialize;

/// Source of [`historic_bearing`].
pub const SOURCE: Source = Source::new(
    "CIRIA guidance on existing brickwork in lime mortar",
    "allowable stress 0.42 N/mm², 1.5 times that under a local load",
    Seen::Secondary("an engineers' forum thread that quotes it"),
);

/// Allowable stress of old brickwork at service load, N/mm².
pub const ALLOWABLE_N_MM2: f64 = 0.42;
/// Factor under a local load.
pub const LOCAL_FACTOR: f64 = 1.5;

/// Arguments of [`historic_bearing`].
#[derive(Clone, Copy, Debug)]
pub struct Historic {
    /// Service load on the bearing, kN.
    pub load_kn: f64,
    /// Length of the bearing along the wall, mm.
    pub width_mm: f64,
    /// Thickness of the leaf, mm.
    pub t_mm: f64,
}

/// Result of [`historic_bearing`].
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct HistoricResult {
    /// Bearing stress, N/mm².
    pub bearing_n_mm2: f64,
    /// Allowable local stress, N/mm².
    pub allow_local_n_mm2: f64,
    /// Load that may bear here, kN.
    pub allow_kn: f64,
    /// Whether the stress is allowed.
    pub ok: bool,
}

/// Stress under a needle in old brickwork against 0.42 × 1.5 N/mm², both at service load.
#[must_use]
pub fn historic_bearing(args: &Historic) -> HistoricResult {
    let area = args.width_mm * args.t_mm;
    let allow = ALLOWABLE_N_MM2 * LOCAL_FACTOR;
    let stress = args.load_kn * 1e3 / area;
    HistoricResult {
        bearing_n_mm2: stress,
        allow_local_n_mm2: allow,
        allow_kn: allow * area * 1e-3,
        ok: stress <= allow,
    }
}

impl HistoricResult {
    /// The derivation, line by line.
    #[must_use]
    pub fn steps(&self) -> Vec<String> {
        vec![
            format!(
                "allowable = {ALLOWABLE_N_MM2} × {LOCAL_FACTOR} = {:.2} N/mm² at service",
                self.allow_local_n_mm2
            ),
            format!(
                "stress = {:.3} N/mm²; the bearing may take {:.2} kN",
                self.bearing_n_mm2, self.allow_kn
            ),
        ]
    }
}
