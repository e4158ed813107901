//! Masonry between two needles as a flat arch, its thrust at the cut edge, and the stage with all holes cut.

use crate::source::{Seen, Source};
use serde::Serialize;

/// Source of [`flat_arch`].
pub const SOURCE: Source = Source::new(
    "EN 1996-1-1:2005, arching",
    "6.3.2, rise 0.9 d and thrust zone 0.1 d",
    Seen::Model("three-hinged arch within the masonry over the gap; depth limited to the span"),
);

/// Source of [`end_bay`].
pub const END_BAY_SOURCE: Source = Source::new(
    "end bay of a row of needles",
    "sliding 0.3 and no tension",
    Seen::Practice,
);

/// Source of [`stage`].
pub const STAGE_SOURCE: Source = Source::new(
    "EN 1996-1-1:2005",
    "6.1.2, design strength on the masonry left between the holes",
    Seen::Model("all holes cut, no needle tight yet"),
);

/// Rise of the arch as a share of its depth.
pub const RISE_SHARE: f64 = 0.9;

/// Arguments of [`flat_arch`].
#[derive(Clone, Copy, Debug)]
pub struct Arch {
    /// Mean strength load of the leaf between the needles, kN/m.
    pub w_kn_m: f64,
    /// Span: axis spacing less the needle's width, mm.
    pub s_mm: f64,
    /// Masonry height over the needle's top, mm.
    pub depth_mm: f64,
    /// Thickness of the leaf, mm.
    pub t_mm: f64,
    /// f_k, N/mm².
    pub f_k_n_mm2: f64,
    /// γ_M.
    pub gamma_m: f64,
}

/// Result of [`flat_arch`].
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct ArchResult {
    /// d, least of masonry height and span, mm.
    pub d_mm: f64,
    /// r = 0.9 d, mm.
    pub rise_mm: f64,
    /// H, thrust, kN.
    pub h_kn: f64,
    /// Largest thrust the masonry can take, kN.
    pub h_rd_kn: f64,
}

/// H = w·s²/(8 r) against 0.1·d·t·f_k/γ_M.
#[must_use]
pub fn flat_arch(args: &Arch) -> ArchResult {
    let d = args.depth_mm.min(args.s_mm).max(0.0);
    let rise = RISE_SHARE * d;
    let h_kn = if args.s_mm > 0.0 {
        args.w_kn_m * 1e-3 * args.s_mm * args.s_mm / (8.0 * rise)
    } else {
        0.0
    };
    ArchResult {
        d_mm: d,
        rise_mm: rise,
        h_kn,
        h_rd_kn: 0.1 * d * args.t_mm * args.f_k_n_mm2 / args.gamma_m * 1e-3,
    }
}

impl ArchResult {
    /// The derivation, line by line.
    #[must_use]
    pub fn steps(&self) -> Vec<String> {
        vec![
            format!("d = {:.0} mm, r = 0.9 d = {:.0} mm", self.d_mm, self.rise_mm),
            format!(
                "H = w·s²/(8 r) = {:.2} kN; H_Rd = 0.1·d·t·f_k/γ_M = {:.2} kN",
                self.h_kn, self.h_rd_kn
            ),
        ]
    }
}

/// Arguments of [`end_bay`].
#[derive(Clone, Copy, Debug)]
pub struct EndBay {
    /// Thrust of the end bay's arch at permanent and variable load, kN.
    pub h_kn: f64,
    /// Depth of that arch, mm.
    pub d_mm: f64,
    /// Permanent service load at needle level over the masonry beside, kN.
    pub n_kn: f64,
    /// Width of the masonry beside, mm.
    pub width_mm: f64,
    /// Least width asked for: the greater of 600 mm and 0.2 times the cut width, mm.
    pub least_width_mm: f64,
}

/// Result of [`end_bay`].
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct EndBayResult {
    /// H, kN.
    pub h_kn: f64,
    /// Thrust that friction holds, 0.3 N, kN.
    pub sliding_kn: f64,
    /// Thrust that leaves no tension, N·width/(6 d), kN.
    pub no_tension_kn: f64,
    /// The lesser of both, 0 where the masonry beside is too narrow, kN.
    pub h_rd_kn: f64,
}

/// H ≤ 0.3 N and H·d ≤ N·width/6, with the masonry beside wide enough.
#[must_use]
pub fn end_bay(args: &EndBay) -> EndBayResult {
    let sliding_kn = 0.3 * args.n_kn;
    let no_tension_kn = if args.d_mm > 0.0 {
        args.n_kn * args.width_mm / (6.0 * args.d_mm)
    } else {
        0.0
    };
    let wide = args.width_mm >= args.least_width_mm;
    let h_rd_kn = if wide {
        sliding_kn.min(no_tension_kn).max(0.0)
    } else {
        0.0
    };
    EndBayResult {
        h_kn: args.h_kn,
        sliding_kn,
        no_tension_kn,
        h_rd_kn,
    }
}

impl EndBayResult {
    /// The derivation, line by line.
    #[must_use]
    pub fn steps(&self) -> Vec<String> {
        vec![format!(
            "H = {:.2} kN; 0.3 N = {:.2} kN; N·b/(6 d) = {:.2} kN; resistance {:.2} kN",
            self.h_kn, self.sliding_kn, self.no_tension_kn, self.h_rd_kn
        )]
    }
}

/// Arguments of [`stage`].
#[derive(Clone, Copy, Debug)]
pub struct Stage {
    /// Strength load of the leaf over the cut width, kN.
    pub load_kn: f64,
    /// Thickness of the leaf, mm.
    pub t_mm: f64,
    /// Sum of the clear masonry between the holes, mm.
    pub clear_mm: f64,
    /// f_k, N/mm².
    pub f_k_n_mm2: f64,
    /// γ_M.
    pub gamma_m: f64,
}

/// Result of [`stage`].
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct StageResult {
    /// Stress in the masonry left, N/mm².
    pub stress_n_mm2: f64,
    /// Design strength, N/mm².
    pub fd_n_mm2: f64,
}

/// Stress in the masonry left between the holes while all are cut and nothing is tight yet.
#[must_use]
pub fn stage(args: &Stage) -> StageResult {
    StageResult {
        stress_n_mm2: args.load_kn * 1e3 / (args.t_mm * args.clear_mm),
        fd_n_mm2: args.f_k_n_mm2 / args.gamma_m,
    }
}

impl StageResult {
    /// The derivation, line by line.
    #[must_use]
    pub fn steps(&self) -> Vec<String> {
        vec![format!(
            "load/(t·Σ clear) = {:.3} N/mm² against f_k/γ_M = {:.3} N/mm²",
            self.stress_n_mm2, self.fd_n_mm2
        )]
    }
}
