//! Compression across the grain.

use crate::source::{Seen, Source};
use serde::Serialize;

/// Source of [`f_c90_rd`].
pub const SOURCE: Source = Source::new("EN 1995-1-1:2004+A1", "6.1.5, Eq. (6.3)", Seen::Memory);

/// Arguments of [`f_c90_rd`].
#[derive(Clone, Copy, Debug)]
pub struct AcrossGrain {
    /// Contact length along the grain, mm.
    pub length_mm: f64,
    /// Contact width across the grain, mm.
    pub width_mm: f64,
    /// Length beyond the contact on each side along the grain, mm; the contact grows by at most 30 mm a side, the length
    /// beyond, or the contact length itself.
    pub beyond_mm: [f64; 2],
    /// f_c,90,d, N/mm².
    pub fc90d_n_mm2: f64,
    /// k_c,90: 1.25 for solid softwood lying on a continuous support with loads at least two depths apart, 1.5 on single
    /// supports, else 1.0.
    pub k_c90: f64,
}

/// Result of [`f_c90_rd`].
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct AcrossGrainResult {
    /// A_ef, mm².
    pub aef_mm2: f64,
    /// k_c,90.
    pub k_c90: f64,
    /// F_c,90,Rd, kN.
    pub f_rd_kn: f64,
}

/// Resistance to compression across the grain, k_c,90·f_c,90,d·A_ef, kN.
#[must_use]
pub fn f_c90_rd(args: &AcrossGrain) -> AcrossGrainResult {
    let grown: f64 = args
        .beyond_mm
        .iter()
        .map(|beyond| beyond.clamp(0.0, 30.0).min(args.length_mm))
        .sum();
    let aef_mm2 = (args.length_mm + grown) * args.width_mm;
    AcrossGrainResult {
        aef_mm2,
        k_c90: args.k_c90,
        f_rd_kn: args.k_c90 * args.fc90d_n_mm2 * aef_mm2 * 1e-3,
    }
}

impl AcrossGrainResult {
    /// The derivation, line by line.
    #[must_use]
    pub fn steps(&self) -> Vec<String> {
        vec![format!(
            "A_ef = {:.0} mm², k_c,90 = {:.2}: F_c,90,Rd = {:.2} kN",
            self.aef_mm2, self.k_c90, self.f_rd_kn
        )]
    }
}
