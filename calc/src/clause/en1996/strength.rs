//! Characteristic compressive strength of masonry.

use crate::source::{Seen, Source};
use serde::Serialize;

/// Source of [`f_k`].
pub const SOURCE: Source = Source::new(
    "EN 1996-1-1:2005",
    "3.6.1.2, Eq. (3.1) and (3.2)",
    Seen::Secondary("pamd_eurocodes 0.3.0 (exponents); limits and the 0.8 from memory"),
);

/// Arguments of [`f_k`].
#[derive(Clone, Copy, Debug)]
pub struct Strength {
    /// K, by unit and mortar.
    pub k: f64,
    /// f_b, normalised mean strength of the unit, N/mm².
    pub fb_n_mm2: f64,
    /// f_m, strength of the mortar, N/mm².
    pub fm_n_mm2: f64,
    /// Whether a mortar joint runs along inside the wall (a wall thicker than one unit).
    pub joint_along: bool,
}

/// Result of [`f_k`].
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct StrengthResult {
    /// K used, times 0.8 where a joint runs along inside the wall.
    pub k_used: f64,
    /// Unit strength used, at most 75 N/mm².
    pub fb_n_mm2: f64,
    /// Mortar strength used, at most 12 N/mm² and twice the unit's.
    pub fm_n_mm2: f64,
    /// f_k, N/mm².
    pub f_k_n_mm2: f64,
}

/// f_k = K · f_b^0.7 · f_m^0.3, N/mm², for general purpose mortar.
#[must_use]
pub fn f_k(args: &Strength) -> StrengthResult {
    let k_used = if args.joint_along { 0.8 * args.k } else { args.k };
    let fb = args.fb_n_mm2.clamp(0.0, 75.0);
    let fm = args.fm_n_mm2.clamp(0.0, 12.0_f64.min(2.0 * fb));
    StrengthResult {
        k_used,
        fb_n_mm2: fb,
        fm_n_mm2: fm,
        f_k_n_mm2: k_used * fb.powf(0.7) * fm.powf(0.3),
    }
}

impl StrengthResult {
    /// The derivation, line by line.
    #[must_use]
    pub fn steps(&self) -> Vec<String> {
        vec![format!(
            "f_k = K·f_b^0.7·f_m^0.3 = {:.3} × {:.2}^0.7 × {:.2}^0.3 = {:.3} N/mm²",
            self.k_used, self.fb_n_mm2, self.fm_n_mm2, self.f_k_n_mm2
        )]
    }
}
