//! Timber columns.

use crate::source::{Seen, Source};
use crate::tables::timber::TimberGrade;
use serde::Serialize;
use std::f64::consts::PI;

/// Source of [`timber_column`].
pub const SOURCE: Source = Source::new(
    "EN 1995-1-1:2004+A1",
    "6.3.2, Eq. (6.21) to (6.29)",
    Seen::Secondary("the printed output of a public worked example, reproduced"),
);

/// Arguments of [`timber_column`].
#[derive(Clone, Copy, Debug)]
pub struct TimberColumn {
    /// Strength class.
    pub grade: TimberGrade,
    /// Least side, mm.
    pub b_mm: f64,
    /// Other side, mm.
    pub h_mm: f64,
    /// Buckling length, mm.
    pub length_mm: f64,
    /// Load, kN.
    pub n_kn: f64,
    /// k_mod.
    pub k_mod: f64,
    /// γ_M.
    pub gamma_m: f64,
}

/// Result of [`timber_column`].
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct TimberColumnResult {
    /// Slenderness.
    pub lambda: f64,
    /// Relative slenderness.
    pub lambda_rel: f64,
    /// k.
    pub k: f64,
    /// k_c.
    pub k_c: f64,
    /// f_c,0,d, N/mm².
    pub fc0d_n_mm2: f64,
    /// Stress, N/mm².
    pub sigma_n_mm2: f64,
    /// Resistance, kN.
    pub n_rd_kn: f64,
    /// Stress over strength.
    pub utilisation: f64,
}

/// Solid timber column in axial compression, buckling about its least side.
#[must_use]
pub fn timber_column(args: &TimberColumn) -> TimberColumnResult {
    let least = args.b_mm.min(args.h_mm);
    let lambda = args.length_mm / (least / 12.0_f64.sqrt());
    let lambda_rel = lambda / PI * (args.grade.fc0k_n_mm2 / args.grade.e005_n_mm2).sqrt();
    let k = 0.5 * (1.0 + 0.2 * (lambda_rel - 0.3) + lambda_rel * lambda_rel);
    let k_c = if lambda_rel <= 0.3 {
        1.0
    } else {
        (1.0 / (k + (k * k - lambda_rel * lambda_rel).sqrt())).min(1.0)
    };
    let fc0d_n_mm2 = args.grade.fc0k_n_mm2 * args.k_mod / args.gamma_m;
    let area = args.b_mm * args.h_mm;
    let sigma_n_mm2 = args.n_kn * 1e3 / area;
    TimberColumnResult {
        lambda,
        lambda_rel,
        k,
        k_c,
        fc0d_n_mm2,
        sigma_n_mm2,
        n_rd_kn: k_c * fc0d_n_mm2 * area * 1e-3,
        utilisation: sigma_n_mm2 / (k_c * fc0d_n_mm2),
    }
}

impl TimberColumnResult {
    /// The derivation, line by line.
    #[must_use]
    pub fn steps(&self) -> Vec<String> {
        vec![
            format!(
                "λ = {:.1}, λ_rel = {:.3}, k = {:.3}, k_c = {:.3}",
                self.lambda, self.lambda_rel, self.k, self.k_c
            ),
            format!(
                "N_Rd = k_c·f_c,0,d·A = {:.2} kN; used {:.3}",
                self.n_rd_kn, self.utilisation
            ),
        ]
    }
}
