//! Webs under local loads.

use crate::source::{Seen, Source};
use crate::tables::steel::{E_N_MM2, SteelSection};
use serde::Serialize;

/// Source of [`f_rd`].
pub const SOURCE: Source = Source::new(
    "EN 1993-1-5:2006",
    "6.2 to 6.5, types (a) and (c)",
    Seen::Secondary("the printed output of a public web-bearing checker, reproduced"),
);

/// Source of [`hollow_web`].
pub const HOLLOW_SOURCE: Source = Source::new(
    "walls of hollow sections under local loads",
    "2t(ss + 2t)f_y/γ_M at the wall, 2t(ss + t)f_y/γ_M at the prop",
    Seen::Model("yield of both walls over the stiff length and a spread of 1:1 through one wall thickness"),
);

/// Where the load stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub enum WebLoad {
    /// Type (a): inside the member, carried by shear in the web.
    Interior,
    /// Type (c): near an unstiffened end.
    End,
}

/// Arguments of [`f_rd`].
#[derive(Clone, Copy, Debug)]
pub struct Web {
    /// The section (open).
    pub section: SteelSection,
    /// f_y of web and flange, N/mm².
    pub fy_n_mm2: f64,
    /// γ_M1.
    pub gamma_m1: f64,
    /// s_s, stiff bearing length, mm.
    pub ss_mm: f64,
    /// Where the load stands.
    pub load: WebLoad,
    /// a, distance between stiffeners, mm; infinite where there are none.
    pub a_mm: f64,
    /// c, from the end of the member to the bearing's edge, mm (type c).
    pub c_mm: f64,
}

/// Result of [`f_rd`].
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct WebResult {
    /// k_F.
    pub kf: f64,
    /// F_cr, kN.
    pub fcr_kn: f64,
    /// l_y, mm.
    pub ly_mm: f64,
    /// λ_F.
    pub lambda_f: f64,
    /// χ_F.
    pub chi_f: f64,
    /// F_Rd, kN.
    pub f_rd_kn: f64,
}

/// Resistance of an open section's web to a local load.
#[must_use]
pub fn f_rd(args: &Web) -> WebResult {
    let s = &args.section;
    let (tw, tf, fy) = (s.tw_mm, s.tf_mm, args.fy_n_mm2);
    let hw = s.h_mm - 2.0 * tf;
    // 6.3(1): the stiff length is not taken longer than the web is deep.
    let ss = args.ss_mm.min(hw);
    let kf = match args.load {
        WebLoad::Interior => 6.0 + 2.0 * (hw / args.a_mm).powi(2),
        WebLoad::End => (2.0 + 6.0 * (ss + args.c_mm) / hw).min(6.0),
    };
    let fcr = 0.9 * kf * E_N_MM2 * tw.powi(3) / hw;
    let m1 = s.b_mm / tw;
    let length = |m2: f64| {
        let inside = (ss + 2.0 * tf * (1.0 + (m1 + m2).sqrt())).min(args.a_mm);
        match args.load {
            WebLoad::Interior => inside,
            // 6.5(3): the smallest of Equations (6.10), (6.11) and (6.12).
            WebLoad::End => {
                let le = (kf * E_N_MM2 * tw * tw / (2.0 * fy * hw)).min(ss + args.c_mm);
                let short = le + tf * (m1 / 2.0 + (le / tf).powi(2) + m2).sqrt();
                short.min(le + tf * (m1 + m2).sqrt()).min(inside)
            }
        }
    };
    let slenderness = |ly: f64| (ly * tw * fy / fcr).sqrt();
    // m2 counts only for slender webs, which is known only once l_y is; so it is tried with m2 first.
    let with = length(0.02 * (hw / tf).powi(2));
    let ly_mm = if slenderness(with) > 0.5 { with } else { length(0.0) };
    let lambda_f = slenderness(ly_mm);
    let chi_f = (0.5 / lambda_f).min(1.0);
    WebResult {
        kf,
        fcr_kn: fcr * 1e-3,
        ly_mm,
        lambda_f,
        chi_f,
        f_rd_kn: fy * chi_f * ly_mm * tw / args.gamma_m1 * 1e-3,
    }
}

impl WebResult {
    /// The derivation, line by line.
    #[must_use]
    pub fn steps(&self) -> Vec<String> {
        vec![
            format!("k_F = {:.3}, F_cr = {:.1} kN", self.kf, self.fcr_kn),
            format!(
                "l_y = {:.1} mm, λ_F = {:.3}, χ_F = {:.3}",
                self.ly_mm, self.lambda_f, self.chi_f
            ),
            format!("F_Rd = χ_F·l_y·t_w·f_y/γ_M1 = {:.1} kN", self.f_rd_kn),
        ]
    }
}

/// Arguments of [`hollow_web`].
#[derive(Clone, Copy, Debug)]
pub struct HollowWeb {
    /// Wall thickness, mm.
    pub t_mm: f64,
    /// Stiff bearing length, mm.
    pub ss_mm: f64,
    /// f_y, N/mm².
    pub fy_n_mm2: f64,
    /// γ_M.
    pub gamma_m: f64,
    /// Inside the member (at the wall) or near its end (at the prop).
    pub load: WebLoad,
}

/// Result of [`hollow_web`].
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct HollowWebResult {
    /// Length of wall that yields, mm.
    pub length_mm: f64,
    /// Resistance of both walls, kN.
    pub f_rd_kn: f64,
}

/// Resistance of the two walls of a hollow section under a local load, kN.
#[must_use]
pub fn hollow_web(args: &HollowWeb) -> HollowWebResult {
    let spread = if args.load == WebLoad::Interior { 2.0 } else { 1.0 };
    let length_mm = args.ss_mm + spread * args.t_mm;
    HollowWebResult {
        length_mm,
        f_rd_kn: 2.0 * args.t_mm * length_mm * args.fy_n_mm2 / args.gamma_m * 1e-3,
    }
}

impl HollowWebResult {
    /// The derivation, line by line.
    #[must_use]
    pub fn steps(&self) -> Vec<String> {
        vec![format!(
            "two walls over {:.1} mm yield at {:.1} kN",
            self.length_mm, self.f_rd_kn
        )]
    }
}
