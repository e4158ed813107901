//! Concentrated load on masonry: a wall that bears on the top of a needle.

use crate::source::{Seen, Source};
use serde::Serialize;

/// Source of [`n_rdc_concentrated`].
pub const SOURCE: Source = Source::new(
    "EN 1996-1-1:2005",
    "6.1.3, Eq. (6.9) to (6.11)",
    Seen::Library("the class Padstone of the repository pyMasonry, commit 0e8b3b4"),
);

/// tan 30°: a spread at 60° to the horizontal.
const TAN_30: f64 = 0.577_350_269_189_625_8;

/// Length over which a bearing spreads at 60° to mid-height, mm, stopped at a distance on either side.
///
/// `left_mm` and `right_mm` are from the bearing's edge to where the spread must stop: halfway to the next needle, or the
/// cut edge.
#[must_use]
pub fn effective_length_mm(lb_mm: f64, hc_mm: f64, left_mm: f64, right_mm: f64) -> f64 {
    let spread = hc_mm.max(0.0) / 2.0 * TAN_30;
    lb_mm + spread.min(left_mm.max(0.0)) + spread.min(right_mm.max(0.0))
}

/// Arguments of [`n_rdc_concentrated`].
#[derive(Clone, Copy, Debug)]
pub struct Concentrated {
    /// Length of the bearing along the wall (needle width and both spreads through a steel pack), mm.
    pub lb_mm: f64,
    /// Depth of the bearing: the leaf's thickness, mm.
    pub t_mm: f64,
    /// h_c, masonry height over the bearing, mm.
    pub hc_mm: f64,
    /// a_1, from the bearing's nearer edge to the end of the wall, mm.
    pub a1_mm: f64,
    /// l_efm, by [`effective_length_mm`], mm.
    pub lefm_mm: f64,
    /// f_k, N/mm².
    pub f_k_n_mm2: f64,
    /// γ_M.
    pub gamma_m: f64,
    /// Whether the units are Group 1; others get no enhancement.
    pub group_1: bool,
}

/// Result of [`n_rdc_concentrated`].
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct ConcentratedResult {
    /// A_b, loaded area, mm².
    pub ab_mm2: f64,
    /// l_efm, mm.
    pub lefm_mm: f64,
    /// A_ef, effective area, mm².
    pub aef_mm2: f64,
    /// A_b / A_ef; above 0.45 there is no enhancement.
    pub ratio: f64,
    /// β before its limits.
    pub beta_raw: f64,
    /// Upper limit of β.
    pub beta_limit: f64,
    /// β.
    pub beta: f64,
    /// f_d, N/mm².
    pub fd_n_mm2: f64,
    /// N_Rdc, kN.
    pub n_rdc_kn: f64,
}

/// N_Rdc = β · A_b · f_d, kN.
///
/// β = (1 + 0.3 a_1/h_c)(1.5 − 1.1 A_b/A_ef), at least 1.0, at most the lesser of 1.25 + a_1/(2 h_c) and 1.5; 1.0 for
/// units not of Group 1 and where A_b/A_ef is above 0.45.
#[must_use]
pub fn n_rdc_concentrated(args: &Concentrated) -> ConcentratedResult {
    let ab_mm2 = args.lb_mm * args.t_mm;
    let aef_mm2 = args.lefm_mm.max(args.lb_mm) * args.t_mm;
    let ratio = ab_mm2 / aef_mm2;
    let beta_raw = (1.0 + 0.3 * args.a1_mm / args.hc_mm) * (1.5 - 1.1 * ratio);
    let beta_limit = (1.25 + args.a1_mm / (2.0 * args.hc_mm)).min(1.5);
    let beta = if args.group_1 && ratio <= 0.45 {
        beta_raw.min(beta_limit).max(1.0)
    } else {
        1.0
    };
    let fd_n_mm2 = args.f_k_n_mm2 / args.gamma_m;
    ConcentratedResult {
        ab_mm2,
        lefm_mm: args.lefm_mm,
        aef_mm2,
        ratio,
        beta_raw,
        beta_limit,
        beta,
        fd_n_mm2,
        n_rdc_kn: beta * ab_mm2 * fd_n_mm2 * 1e-3,
    }
}

impl ConcentratedResult {
    /// The derivation, line by line.
    #[must_use]
    pub fn steps(&self) -> Vec<String> {
        vec![
            format!(
                "A_b = {:.0} mm², A_ef = {:.0} mm² over {:.0} mm",
                self.ab_mm2, self.aef_mm2, self.lefm_mm
            ),
            format!("A_b/A_ef = {:.3} (enhancement only up to 0.45)", self.ratio),
            format!(
                "β = {:.3}, within 1.0 and {:.3}: {:.3}",
                self.beta_raw, self.beta_limit, self.beta
            ),
            format!(
                "N_Rdc = β·A_b·f_d = {:.3} × {:.0} × {:.3} / 1000 = {:.2} kN",
                self.beta, self.ab_mm2, self.fd_n_mm2, self.n_rdc_kn
            ),
        ]
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn beta_stays_within_its_limits() {
        for lb in [60.0, 100.0, 150.0, 300.0] {
            for a1 in [0.0, 100.0, 600.0, 3000.0] {
                for hc in [200.0, 600.0, 2500.0] {
                    let lefm = effective_length_mm(lb, hc, a1, 500.0);
                    let args = Concentrated {
                        lb_mm: lb,
                        t_mm: 102.5,
                        hc_mm: hc,
                        a1_mm: a1,
                        lefm_mm: lefm,
                        f_k_n_mm2: 3.0,
                        gamma_m: 3.0,
                        group_1: true,
                    };
                    let beta = n_rdc_concentrated(&args).beta;
                    assert!((1.0..=1.5).contains(&beta), "{lb} {a1} {hc}: {beta}");
                }
            }
        }
    }
}
