//! Sideways force on the frame, and what tubes and couplers hold.

use super::en1993::buckling::{Compression, n_b_rd};
use crate::props::strut::Tube;
use crate::source::{Seen, Source};
use serde::Serialize;

/// Source of [`h_min`].
pub const SOURCE: Source = Source::new(
    "BS 5975; Bragg report (1975) p. 47",
    "2.5 % of the vertical load, or identified forces + 1 %",
    Seen::Secondary("a building-design wiki and the report (there 3 %)"),
);
/// Source of the coupler's slip load.
pub const COUPLER_SOURCE: Source = Source::new(
    "EN 74-1:2005",
    "right-angle coupler class A, slip 10 kN characteristic, ÷ 1.65",
    Seen::Memory,
);
/// Slip of a right-angle coupler at service, kN.
pub const COUPLER_SLIP_KN: f64 = 10.0 / 1.65;

/// Arguments of [`h_min`].
#[derive(Clone, Copy, Debug)]
pub struct Sideways {
    /// Vertical service load of all props of the frame, kN.
    pub v_kn: f64,
    /// Forces that can be named (lean, wind), kN.
    pub identified_kn: f64,
    /// Least share of V: 0.025, in the Bragg report 0.03.
    pub least_share: f64,
    /// Share of V added to the identified forces: 0.01.
    pub added_share: f64,
}

/// Result of [`h_min`].
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct SidewaysResult {
    /// Least share of V, kN.
    pub least_kn: f64,
    /// Identified forces and the added share, kN.
    pub identified_kn: f64,
    /// H at the heads, kN.
    pub h_kn: f64,
}

/// Sideways force at the heads: the greater of a share of V and the identified forces with 1 % of V.
#[must_use]
pub fn h_min(args: &Sideways) -> SidewaysResult {
    let least_kn = args.least_share * args.v_kn;
    let identified_kn = args.identified_kn + args.added_share * args.v_kn;
    SidewaysResult {
        least_kn,
        identified_kn,
        h_kn: least_kn.max(identified_kn),
    }
}

impl SidewaysResult {
    /// The derivation, line by line.
    #[must_use]
    pub fn steps(&self) -> Vec<String> {
        vec![format!(
            "H = max({:.2}, {:.2}) = {:.2} kN",
            self.least_kn, self.identified_kn, self.h_kn
        )]
    }
}

/// Result of [`brace`].
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct BraceResult {
    /// Tube in compression at service, kN.
    pub tube_kn: f64,
    /// Coupler at service, kN.
    pub coupler_kn: f64,
    /// Horizontal force the brace holds, kN.
    pub h_kn: f64,
}

/// Horizontal force that one scaffold tube 48.3 × `t_mm` at an angle to the ground holds at service: curve c over 1.65, or the
/// slip of its couplers, `couplers` at each end, whichever is less, times the cosine.
#[must_use]
pub fn brace(length_mm: f64, t_mm: f64, angle_deg: f64, couplers: f64) -> BraceResult {
    let tube = Tube::round(48.3, t_mm);
    let compression = Compression {
        area_mm2: tube.area_mm2,
        i_mm4: tube.i_mm4,
        length_mm,
        fy_n_mm2: 235.0,
        alpha: 0.49,
        gamma_m1: 1.65,
    };
    let tube_kn = n_b_rd(&compression).n_b_rd_kn;
    let coupler_kn = couplers * COUPLER_SLIP_KN;
    BraceResult {
        tube_kn,
        coupler_kn,
        h_kn: tube_kn.min(coupler_kn) * angle_deg.to_radians().cos(),
    }
}

impl BraceResult {
    /// The derivation, line by line.
    #[must_use]
    pub fn steps(&self) -> Vec<String> {
        vec![format!(
            "tube {:.2} kN, couplers {:.2} kN; horizontally {:.2} kN",
            self.tube_kn, self.coupler_kn, self.h_kn
        )]
    }
}
