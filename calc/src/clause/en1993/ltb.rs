//! Lateral-torsional buckling.

use super::resistance::{BendingResult, CrossSection, m_c_rd};
use crate::source::{Seen, Source};
use crate::tables::steel::{E_N_MM2, G_N_MM2};
use serde::Serialize;
use std::f64::consts::PI;

/// Source of [`m_b_rd`].
pub const SOURCE: Source = Source::new("EN 1993-1-1:2005", "6.3.2.2 and 6.3.2.3, UK NA.2.17", Seen::Memory);
/// Source of [`m_cr`].
pub const MCR_SOURCE: Source = Source::new(
    "NCCI SN003",
    "elastic critical moment, doubly symmetric section",
    Seen::Memory,
);

/// C1 and C2 of a simple span with one load in the middle.
pub const C1_POINT: f64 = 1.348;
/// See [`C1_POINT`].
pub const C2_POINT: f64 = 0.630;

/// Which buckling curves are used.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub enum LtbCurve {
    /// 6.3.2.3 for rolled sections: curve b up to h/b 2, c above.
    Rolled,
    /// 6.3.2.2 for any section: curve a up to h/b 2, b above.
    General,
}

/// Arguments of [`m_b_rd`].
#[derive(Clone, Copy, Debug)]
pub struct Ltb {
    /// Section, f_y and γ_M.
    pub cross: CrossSection,
    /// Length between places fixed against turning, mm (k = 1).
    pub length_mm: f64,
    /// C1, shape of the bending moment.
    pub c1: f64,
    /// C2, with the load off the shear centre.
    pub c2: f64,
    /// z_g, height of the load above the shear centre, mm (top flange: h/2).
    pub zg_mm: f64,
    /// Which curves.
    pub curve: LtbCurve,
    /// λ_LT,0 of the rolled curves.
    pub lambda_lt0: f64,
    /// β of the rolled curves.
    pub beta: f64,
}

/// Elastic critical moment, kNm:
/// C1·π²E·I_z/L² · (√(I_w/I_z + L²·G·I_t/(π²E·I_z) + (C2·z_g)²) − C2·z_g).
#[must_use]
pub fn m_cr(args: &Ltb) -> f64 {
    let s = &args.cross.section;
    let euler = PI * PI * E_N_MM2 * s.iz_mm4 / (args.length_mm * args.length_mm);
    let lever = args.c2 * args.zg_mm;
    let root = (s.iw_mm6 / s.iz_mm4 + G_N_MM2 * s.it_mm4 / euler + lever * lever).sqrt();
    args.c1 * euler * (root - lever) * 1e-6
}

/// Result of [`m_b_rd`].
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct LtbResult {
    /// Cross-section in bending.
    pub bending: BendingResult,
    /// M_cr, kNm; 0 for hollow sections, where it is not asked.
    pub m_cr_kn_m: f64,
    /// λ_LT.
    pub lambda_lt: f64,
    /// α_LT.
    pub alpha_lt: f64,
    /// χ_LT.
    pub chi_lt: f64,
    /// M_b,Rd, kNm.
    pub m_b_rd_kn_m: f64,
}

/// Bending resistance with lateral-torsional buckling. Hollow sections up to h/b 2 do not buckle sideways at the spans of
/// needles (6.3.2.1(2)), so χ_LT is 1 for them.
#[must_use]
pub fn m_b_rd(args: &Ltb) -> LtbResult {
    let bending = m_c_rd(&args.cross);
    let s = &args.cross.section;
    if s.is_hollow() {
        return LtbResult {
            bending,
            m_cr_kn_m: 0.0,
            lambda_lt: 0.0,
            alpha_lt: 0.0,
            chi_lt: 1.0,
            m_b_rd_kn_m: bending.m_c_rd_kn_m,
        };
    }
    let m_cr_kn_m = m_cr(args);
    let lambda_lt = (bending.w_mm3 * args.cross.fy_n_mm2 * 1e-6 / m_cr_kn_m).sqrt();
    let slender = s.h_mm / s.b_mm > 2.0;
    let (alpha_lt, plateau, beta) = match (args.curve, slender) {
        (LtbCurve::Rolled, false) => (0.34, args.lambda_lt0, args.beta),
        (LtbCurve::Rolled, true) => (0.49, args.lambda_lt0, args.beta),
        (LtbCurve::General, false) => (0.21, 0.2, 1.0),
        (LtbCurve::General, true) => (0.34, 0.2, 1.0),
    };
    let chi_lt = if lambda_lt <= plateau {
        1.0
    } else {
        let phi = 0.5 * (1.0 + alpha_lt * (lambda_lt - plateau) + beta * lambda_lt * lambda_lt);
        let chi = 1.0 / (phi + (phi * phi - beta * lambda_lt * lambda_lt).sqrt());
        let cap = if args.curve == LtbCurve::Rolled {
            1.0 / (lambda_lt * lambda_lt)
        } else {
            1.0
        };
        chi.min(1.0).min(cap)
    };
    LtbResult {
        bending,
        m_cr_kn_m,
        lambda_lt,
        alpha_lt,
        chi_lt,
        m_b_rd_kn_m: chi_lt * bending.m_c_rd_kn_m,
    }
}

impl LtbResult {
    /// The derivation, line by line.
    #[must_use]
    pub fn steps(&self) -> Vec<String> {
        let mut steps = self.bending.steps();
        if self.m_cr_kn_m > 0.0 {
            steps.push(format!(
                "M_cr = {:.1} kNm, λ_LT = {:.3}",
                self.m_cr_kn_m, self.lambda_lt
            ));
            steps.push(format!("α_LT = {:.2}: χ_LT = {:.3}", self.alpha_lt, self.chi_lt));
        } else {
            steps.push("hollow section: χ_LT = 1".to_owned());
        }
        steps.push(format!("M_b,Rd = χ_LT·W·f_y/γ_M = {:.2} kNm", self.m_b_rd_kn_m));
        steps
    }
}
