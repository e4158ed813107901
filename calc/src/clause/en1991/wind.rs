//! Wind.

use crate::source::{Seen, Source};
use serde::Serialize;

/// Source of [`q_p`].
pub const SOURCE: Source = Source::new(
    "EN 1991-1-4:2005",
    "4.3 to 4.5, recommended values",
    Seen::Secondary("Steel Buildings in Europe SSB03 appendix B and public calculation sheets; eurocodepy 2026.1.1"),
);
/// Source of [`gust_kn_m2`].
pub const GUST_SOURCE: Source = Source::new(
    "BS 6399-2",
    "2.1.2.1, 0.613 v² N/m², half the density of air",
    Seen::Secondary("two public calculation sheets"),
);

/// Roughness length and least height of a terrain category (`0`, `I`, `II`, `III`, `IV`), m.
#[must_use]
pub fn terrain(category: &str) -> Option<(f64, f64)> {
    match category {
        "0" => Some((0.003, 1.0)),
        "I" => Some((0.01, 1.0)),
        "II" => Some((0.05, 2.0)),
        "III" => Some((0.3, 5.0)),
        "IV" => Some((1.0, 10.0)),
        _ => None,
    }
}

/// Arguments of [`q_p`].
#[derive(Clone, Copy, Debug)]
pub struct Wind {
    /// v_b, basic wind speed, m/s.
    pub vb_m_s: f64,
    /// z_0, roughness length, m.
    pub z0_m: f64,
    /// z_min, m.
    pub z_min_m: f64,
    /// z, height, m.
    pub z_m: f64,
    /// Density of air, kg/m³.
    pub rho_kg_m3: f64,
}

/// Result of [`q_p`].
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct WindResult {
    /// c_r, roughness factor.
    pub c_r: f64,
    /// I_v, turbulence.
    pub i_v: f64,
    /// q_b, basic pressure, kN/m².
    pub q_b_kn_m2: f64,
    /// c_e, exposure factor.
    pub c_e: f64,
    /// q_p, peak pressure, kN/m².
    pub q_p_kn_m2: f64,
}

/// Peak velocity pressure, flat open ground, no orography.
#[must_use]
pub fn q_p(args: &Wind) -> WindResult {
    let k_r = 0.19 * (args.z0_m / 0.05).powf(0.07);
    let log = (args.z_m.max(args.z_min_m) / args.z0_m).ln();
    let (c_r, i_v) = (k_r * log, 1.0 / log);
    let q_b_kn_m2 = 0.5 * args.rho_kg_m3 * args.vb_m_s * args.vb_m_s * 1e-3;
    let c_e = (1.0 + 7.0 * i_v) * c_r * c_r;
    WindResult {
        c_r,
        i_v,
        q_b_kn_m2,
        c_e,
        q_p_kn_m2: c_e * q_b_kn_m2,
    }
}

impl WindResult {
    /// The derivation, line by line.
    #[must_use]
    pub fn steps(&self) -> Vec<String> {
        vec![
            format!("c_r = {:.3}, I_v = {:.3}, c_e = {:.3}", self.c_r, self.i_v, self.c_e),
            format!(
                "q_b = ½ρv_b² = {:.3} kN/m²; q_p = c_e·q_b = {:.4} kN/m²",
                self.q_b_kn_m2, self.q_p_kn_m2
            ),
        ]
    }
}

/// Pressure of a measured or forecast gust in m/s, kN/m².
#[must_use]
pub fn gust_kn_m2(gust_m_s: f64) -> f64 {
    0.613e-3 * gust_m_s * gust_m_s
}
