//! Timber in bending and shear: needles, boards, plates, joists, headers.

use crate::source::{Seen, Source};
use crate::tables::timber::TimberGrade;
use serde::Serialize;

/// Source of [`timber_bending`].
pub const BENDING_SOURCE: Source = Source::new("EN 1995-1-1:2004+A1", "6.1.6, 3.2(3) k_h, 6.6 k_sys", Seen::Memory);
/// Source of [`timber_shear`].
pub const SHEAR_SOURCE: Source = Source::new("EN 1995-1-1:2004+A1", "6.1.7, Eq. (6.13), k_cr", Seen::Memory);

/// Arguments of [`timber_bending`].
#[derive(Clone, Copy, Debug)]
pub struct TimberBending {
    /// Width, mm.
    pub b_mm: f64,
    /// Depth in the direction of the load, mm.
    pub h_mm: f64,
    /// Bending moment, kNm.
    pub m_kn_m: f64,
    /// f_m,d, N/mm².
    pub fmd_n_mm2: f64,
    /// k_sys, 1.1 where several share the load, else 1.0.
    pub k_sys: f64,
    /// Whether the depth factor k_h below 150 mm may be used.
    pub use_k_h: bool,
}

/// Result of [`timber_bending`].
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct TimberBendingResult {
    /// k_h.
    pub k_h: f64,
    /// Bending stress, N/mm².
    pub sigma_n_mm2: f64,
    /// Strength with k_h and k_sys, N/mm².
    pub f_n_mm2: f64,
    /// Moment of resistance, kNm.
    pub m_rd_kn_m: f64,
    /// Stress over strength.
    pub utilisation: f64,
}

/// Bending stress in a rectangular timber against its strength; buckling sideways is held off by its own breadth.
#[must_use]
pub fn timber_bending(args: &TimberBending) -> TimberBendingResult {
    let k_h = if args.use_k_h && args.h_mm < 150.0 {
        (150.0 / args.h_mm).powf(0.2).min(1.3)
    } else {
        1.0
    };
    let modulus = args.b_mm * args.h_mm * args.h_mm / 6.0;
    let sigma_n_mm2 = args.m_kn_m * 1e6 / modulus;
    let f_n_mm2 = args.fmd_n_mm2 * k_h * args.k_sys;
    TimberBendingResult {
        k_h,
        sigma_n_mm2,
        f_n_mm2,
        m_rd_kn_m: f_n_mm2 * modulus * 1e-6,
        utilisation: sigma_n_mm2 / f_n_mm2,
    }
}

impl TimberBendingResult {
    /// The derivation, line by line.
    #[must_use]
    pub fn steps(&self) -> Vec<String> {
        vec![format!(
            "σ_m = M/W = {:.2} N/mm² against {:.2} N/mm² (k_h {:.2}): {:.3}",
            self.sigma_n_mm2, self.f_n_mm2, self.k_h, self.utilisation
        )]
    }
}

/// Source of [`k_crit`].
pub const LATERAL_SOURCE: Source = Source::new(
    "EN 1995-1-1:2004+A1",
    "6.3.3, Eq. (6.32) and (6.34), with Table 6.1's two depths for a load on top",
    Seen::Memory,
);

/// k_crit of a rectangular softwood beam of a grade with its load on top: breadth, depth and span in mm, the span and twice
/// the depth as effective length.
#[must_use]
pub fn k_crit(grade: &TimberGrade, b_mm: f64, h_mm: f64, span_mm: f64) -> f64 {
    let critical = 0.78 * b_mm * b_mm * grade.e005_n_mm2 / (h_mm * (span_mm + 2.0 * h_mm));
    let slender = (grade.fmk_n_mm2 / critical).sqrt();
    match slender {
        l if l <= 0.75 => 1.0,
        l if l <= 1.4 => 1.56 - 0.75 * l,
        l => 1.0 / (l * l),
    }
}

/// Arguments of [`timber_shear`].
#[derive(Clone, Copy, Debug)]
pub struct TimberShear {
    /// Width, mm.
    pub b_mm: f64,
    /// Depth, mm.
    pub h_mm: f64,
    /// Shear force, kN.
    pub v_kn: f64,
    /// f_v,d, N/mm².
    pub fvd_n_mm2: f64,
    /// k_cr.
    pub k_cr: f64,
}

/// Result of [`timber_shear`].
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct TimberShearResult {
    /// Effective width, mm.
    pub b_ef_mm: f64,
    /// Shear stress, N/mm².
    pub tau_n_mm2: f64,
    /// f_v,d, N/mm².
    pub f_n_mm2: f64,
    /// Shear resistance, kN.
    pub v_rd_kn: f64,
    /// Stress over strength.
    pub utilisation: f64,
}

/// Shear stress 1.5·V/(k_cr·b·h) against f_v,d.
#[must_use]
pub fn timber_shear(args: &TimberShear) -> TimberShearResult {
    let b_ef_mm = args.k_cr * args.b_mm;
    let area = b_ef_mm * args.h_mm;
    let tau_n_mm2 = 1.5 * args.v_kn * 1e3 / area;
    TimberShearResult {
        b_ef_mm,
        tau_n_mm2,
        f_n_mm2: args.fvd_n_mm2,
        v_rd_kn: args.fvd_n_mm2 * area / 1.5 * 1e-3,
        utilisation: tau_n_mm2 / args.fvd_n_mm2,
    }
}

impl TimberShearResult {
    /// The derivation, line by line.
    #[must_use]
    pub fn steps(&self) -> Vec<String> {
        vec![format!(
            "τ = 1.5·V/(k_cr·b·h) = {:.3} N/mm² against {:.3} N/mm²: {:.3}",
            self.tau_n_mm2, self.f_n_mm2, self.utilisation
        )]
    }
}

/// Source of [`timber_deflection`].
pub const DEFLECTION_SOURCE: Source = Source::new(
    "EN 1995-1-1:2004+A1",
    "2.2.3, instantaneous deflection, with shear",
    Seen::Memory,
);

/// Result of [`timber_deflection`].
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct TimberDeflectionResult {
    /// From bending, mm.
    pub bending_mm: f64,
    /// From shear, mm.
    pub shear_mm: f64,
    /// Both, mm.
    pub total_mm: f64,
}

/// Instantaneous deflection in the middle of a simple span under a uniform load, with shear: span in mm, load in kN/m, E and
/// G in N/mm², width and depth in mm.
#[must_use]
pub fn timber_deflection(
    span_mm: f64,
    w_kn_m: f64,
    stiffness_n_mm2: [f64; 2],
    size_mm: [f64; 2],
) -> TimberDeflectionResult {
    let ([e, g], [b, h]) = (stiffness_n_mm2, size_mm);
    let bending_mm = 5.0 * w_kn_m * span_mm.powi(4) / (384.0 * e * b * h.powi(3) / 12.0);
    let shear_mm = 1.2 * w_kn_m * span_mm * span_mm / (8.0 * g * b * h);
    TimberDeflectionResult {
        bending_mm,
        shear_mm,
        total_mm: bending_mm + shear_mm,
    }
}

impl TimberDeflectionResult {
    /// The derivation, line by line.
    #[must_use]
    pub fn steps(&self) -> Vec<String> {
        vec![format!(
            "{:.3} mm bending + {:.3} mm shear = {:.3} mm",
            self.bending_mm, self.shear_mm, self.total_mm
        )]
    }
}
