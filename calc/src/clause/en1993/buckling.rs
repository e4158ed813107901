//! Flexural buckling of members in compression.

use crate::source::{Seen, Source};
use crate::tables::steel::E_N_MM2;
use serde::Serialize;
use std::f64::consts::PI;

/// Source of [`n_b_rd`].
pub const SOURCE: Source = Source::new(
    "EN 1993-1-1:2005",
    "6.3.1, Eq. (6.47) to (6.49), Table 6.1",
    Seen::Secondary("a reprinted scaffold-tube table that curve c / 1.65 reproduces within 0.5 %"),
);

/// Imperfection factor of a buckling curve (a0, a, b, c, d); `None` for another name.
#[must_use]
pub fn imperfection(curve: &str) -> Option<f64> {
    match curve {
        "a0" => Some(0.13),
        "a" => Some(0.21),
        "b" => Some(0.34),
        "c" => Some(0.49),
        "d" => Some(0.76),
        _ => None,
    }
}

/// Arguments of [`n_b_rd`].
#[derive(Clone, Copy, Debug)]
pub struct Compression {
    /// Area, mm².
    pub area_mm2: f64,
    /// Second moment about the axis of buckling, mm⁴.
    pub i_mm4: f64,
    /// Buckling length, mm.
    pub length_mm: f64,
    /// f_y, N/mm².
    pub fy_n_mm2: f64,
    /// α of the curve.
    pub alpha: f64,
    /// γ_M1.
    pub gamma_m1: f64,
}

/// Result of [`n_b_rd`].
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct CompressionResult {
    /// N_cr, kN.
    pub n_cr_kn: f64,
    /// Slenderness λ.
    pub lambda: f64,
    /// χ.
    pub chi: f64,
    /// N_b,Rd, kN.
    pub n_b_rd_kn: f64,
}

/// Buckling resistance of a compression member, classes 1 to 3.
#[must_use]
pub fn n_b_rd(args: &Compression) -> CompressionResult {
    let n_cr = PI * PI * E_N_MM2 * args.i_mm4 / (args.length_mm * args.length_mm);
    let squash = args.area_mm2 * args.fy_n_mm2;
    let lambda = (squash / n_cr).sqrt();
    let chi = if lambda <= 0.2 {
        1.0
    } else {
        let phi = 0.5 * (1.0 + args.alpha * (lambda - 0.2) + lambda * lambda);
        (1.0 / (phi + (phi * phi - lambda * lambda).sqrt())).min(1.0)
    };
    CompressionResult {
        n_cr_kn: n_cr * 1e-3,
        lambda,
        chi,
        n_b_rd_kn: chi * squash / args.gamma_m1 * 1e-3,
    }
}

impl CompressionResult {
    /// The derivation, line by line.
    #[must_use]
    pub fn steps(&self) -> Vec<String> {
        vec![
            format!(
                "N_cr = {:.2} kN, λ = {:.3}, χ = {:.3}",
                self.n_cr_kn, self.lambda, self.chi
            ),
            format!("N_b,Rd = χ·A·f_y/γ_M1 = {:.2} kN", self.n_b_rd_kn),
        ]
    }
}
