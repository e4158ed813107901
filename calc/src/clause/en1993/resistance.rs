//! Resistance of cross-sections: bending, shear, and both together.

use super::class::{ClassResult, section_class};
use crate::source::{Seen, Source};
use crate::tables::steel::SteelSection;
use serde::Serialize;

/// Source of [`m_c_rd`].
pub const BENDING_SOURCE: Source = Source::new(
    "EN 1993-1-1:2005",
    "6.2.5, Eq. (6.13) and (6.14)",
    Seen::Library("metku 0.1.35, classes 1 and 2"),
);
/// Source of [`v_c_rd`].
pub const SHEAR_SOURCE: Source = Source::new(
    "EN 1993-1-1:2005",
    "6.2.6, Eq. (6.18)",
    Seen::Secondary("Steel Buildings in Europe MSB08, worked example 5"),
);
/// Source of [`m_v_rd`].
pub const BENDING_SHEAR_SOURCE: Source = Source::new("EN 1993-1-1:2005", "6.2.8, Eq. (6.29) and (6.30)", Seen::Memory);
/// Source of [`m_permissible`].
pub const PERMISSIBLE_SOURCE: Source = Source::new(
    "EN 12812",
    "class A, permissible stress f_y/1.65 at service",
    Seen::Secondary("texts on falsework design"),
);

/// Arguments of [`m_c_rd`], [`v_c_rd`] and [`m_v_rd`].
#[derive(Clone, Copy, Debug)]
pub struct CrossSection {
    /// The section.
    pub section: SteelSection,
    /// f_y, N/mm².
    pub fy_n_mm2: f64,
    /// γ_M.
    pub gamma_m: f64,
}

/// Result of [`m_c_rd`].
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct BendingResult {
    /// Class and its derivation.
    pub class: ClassResult,
    /// Modulus used: plastic for classes 1 and 2, elastic for class 3, 0 for class 4, mm³.
    pub w_mm3: f64,
    /// f_y, N/mm².
    pub fy_n_mm2: f64,
    /// γ_M.
    pub gamma_m: f64,
    /// M_c,Rd, kNm; 0 for class 4, which is not covered.
    pub m_c_rd_kn_m: f64,
}

/// Bending resistance of a cross-section, M_c,Rd = W·f_y/γ_M.
#[must_use]
pub fn m_c_rd(args: &CrossSection) -> BendingResult {
    let class = section_class(&args.section, args.fy_n_mm2);
    let w_mm3 = match class.class {
        1 | 2 => args.section.wpl_y_mm3,
        3 => args.section.wel_y_mm3,
        _ => 0.0,
    };
    BendingResult {
        class,
        w_mm3,
        fy_n_mm2: args.fy_n_mm2,
        gamma_m: args.gamma_m,
        m_c_rd_kn_m: w_mm3 * args.fy_n_mm2 / args.gamma_m * 1e-6,
    }
}

impl BendingResult {
    /// The derivation, line by line.
    #[must_use]
    pub fn steps(&self) -> Vec<String> {
        let mut steps = self.class.steps();
        steps.push(match self.class.class {
            1 | 2 => format!("class {}: W_pl = {:.1} cm³", self.class.class, self.w_mm3 / 1e3),
            3 => format!("class 3: only W_el = {:.1} cm³ counts", self.w_mm3 / 1e3),
            _ => "class 4: not covered, no resistance is counted".to_owned(),
        });
        steps.push(format!(
            "M_c,Rd = W·f_y/γ_M = {:.1} cm³ × {:.0} / {:.2} = {:.2} kNm",
            self.w_mm3 / 1e3,
            self.fy_n_mm2,
            self.gamma_m,
            self.m_c_rd_kn_m
        ));
        steps
    }
}

/// Result of [`v_c_rd`].
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct ShearResult {
    /// A_v, shear area, mm².
    pub av_mm2: f64,
    /// f_y, N/mm².
    pub fy_n_mm2: f64,
    /// γ_M.
    pub gamma_m: f64,
    /// V_c,Rd, kN.
    pub v_c_rd_kn: f64,
}

/// Plastic shear resistance, V_c,Rd = A_v·(f_y/√3)/γ_M; loads in the plane of the web.
#[must_use]
pub fn v_c_rd(args: &CrossSection) -> ShearResult {
    let s = &args.section;
    let av_mm2 = if s.is_hollow() {
        s.area_mm2 * s.h_mm / (s.b_mm + s.h_mm)
    } else {
        let web = (s.h_mm - 2.0 * s.tf_mm) * s.tw_mm;
        (s.area_mm2 - 2.0 * s.b_mm * s.tf_mm + (s.tw_mm + 2.0 * s.r_mm) * s.tf_mm).max(web)
    };
    let v_c_rd_kn = av_mm2 * args.fy_n_mm2 / 3.0_f64.sqrt() / args.gamma_m * 1e-3;
    ShearResult {
        av_mm2,
        fy_n_mm2: args.fy_n_mm2,
        gamma_m: args.gamma_m,
        v_c_rd_kn,
    }
}

impl ShearResult {
    /// The derivation, line by line.
    #[must_use]
    pub fn steps(&self) -> Vec<String> {
        vec![format!(
            "V_c,Rd = A_v·f_y/(√3·γ_M) = {:.0} mm² × {:.0} / (1.732 × {:.2}) = {:.1} kN",
            self.av_mm2, self.fy_n_mm2, self.gamma_m, self.v_c_rd_kn
        )]
    }
}

/// Result of [`m_v_rd`].
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct BendingShearResult {
    /// V/V_c,Rd.
    pub shear_ratio: f64,
    /// ρ, 0 up to half the shear resistance.
    pub rho: f64,
    /// M_c,Rd without shear, kNm.
    pub m_c_rd_kn_m: f64,
    /// M_V,Rd, kNm.
    pub m_v_rd_kn_m: f64,
}

/// Bending resistance beside a shear force V in kN: the webs' share is reduced by ρ = (2 V/V_c,Rd − 1)².
///
/// In class 3 the whole moment is reduced by ρ, which is on the safe side.
#[must_use]
pub fn m_v_rd(args: &CrossSection, v_kn: f64) -> BendingShearResult {
    let bending = m_c_rd(args);
    let shear_ratio = v_kn.abs() / v_c_rd(args).v_c_rd_kn;
    let rho = if shear_ratio <= 0.5 {
        0.0
    } else {
        (2.0 * shear_ratio - 1.0).powi(2).min(1.0)
    };
    let s = &args.section;
    let hw = s.h_mm - 2.0 * s.tf_mm;
    let webs = if s.is_hollow() { 2.0 } else { 1.0 };
    let reduced = match bending.class.class {
        1 | 2 => bending.w_mm3 - rho * webs * s.tw_mm * hw * hw / 4.0,
        _ => bending.w_mm3 * (1.0 - rho),
    };
    let m_v_rd_kn_m = (reduced * args.fy_n_mm2 / args.gamma_m * 1e-6).min(bending.m_c_rd_kn_m);
    BendingShearResult {
        shear_ratio,
        rho,
        m_c_rd_kn_m: bending.m_c_rd_kn_m,
        m_v_rd_kn_m,
    }
}

impl BendingShearResult {
    /// The derivation, line by line.
    #[must_use]
    pub fn steps(&self) -> Vec<String> {
        vec![
            format!("V/V_c,Rd = {:.3}, ρ = {:.3}", self.shear_ratio, self.rho),
            format!(
                "M_V,Rd = {:.2} kNm (M_c,Rd = {:.2} kNm)",
                self.m_v_rd_kn_m, self.m_c_rd_kn_m
            ),
        ]
    }
}

/// Result of [`m_permissible`].
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct PermissibleResult {
    /// Modulus used, as in [`m_c_rd`], mm³.
    pub w_mm3: f64,
    /// f_y, N/mm².
    pub fy_n_mm2: f64,
    /// Moment allowed at service load, kNm.
    pub m_kn_m: f64,
}

/// Moment allowed at service load by permissible stress, W·f_y/1.65, kNm.
#[must_use]
pub fn m_permissible(args: &CrossSection) -> PermissibleResult {
    // Permissible stress is elastic: never the plastic modulus.
    let w_mm3 = m_c_rd(args).w_mm3.min(args.section.wel_y_mm3);
    PermissibleResult {
        w_mm3,
        fy_n_mm2: args.fy_n_mm2,
        m_kn_m: w_mm3 * args.fy_n_mm2 / 1.65 * 1e-6,
    }
}

impl PermissibleResult {
    /// The derivation, line by line.
    #[must_use]
    pub fn steps(&self) -> Vec<String> {
        vec![format!(
            "W·f_y/1.65 = {:.1} cm³ × {:.0} / 1.65 = {:.2} kNm",
            self.w_mm3 / 1e3,
            self.fy_n_mm2,
            self.m_kn_m
        )]
    }
}
