//! How much the support gives way when the weight comes on, and how much of it tightening takes out beforehand.

use crate::proposal::Movement;
use crate::tables::ground::SETTLEMENT_AT_PRESUMED_MM;

/// Largest difference that leaves the answer alone, mm. Own judgement.
pub const DIFFERENCE_MM: f64 = 3.0;
/// Rise of a prop's collar per turn, mm, where the thread is not known. Own judgement.
pub const THREAD_MM: f64 = 6.0;
/// Modulus of softwood across the grain, C24, N/mm².
const E90_N_MM2: f64 = 370.0;
/// Modulus of steel, N/mm².
const E_N_MM2: f64 = 210_000.0;

/// What one prop and its foot are made of, as movement sees them.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Leg {
    /// Service load, kN.
    pub load_kn: f64,
    /// Length, m.
    pub length_m: f64,
    /// Length of the outer tube, m.
    pub outer_m: f64,
    /// Area of the outer tube, mm².
    pub outer_mm2: f64,
    /// Area of the inner tube, mm².
    pub inner_mm2: f64,
    /// Thickness of the boards, mm.
    pub board_mm: f64,
    /// Pressure on the ground over what is allowed.
    pub ground_use: f64,
}

impl Leg {
    fn prop_mm(&self) -> f64 {
        let outer = self.outer_m.min(self.length_m);
        let inner = self.length_m - outer;
        self.load_kn * 1e6 / E_N_MM2 * (outer / self.outer_mm2.max(1.0) + inner / self.inner_mm2.max(1.0))
    }

    /// The plate's pressure on the wood, spread over the board's thickness as if it stayed that of the plate: an upper bound.
    fn board_mm(&self) -> f64 {
        self.load_kn * 1000.0 / (150.0 * 150.0) / E90_N_MM2 * self.board_mm
    }

    fn ground_mm(&self) -> f64 {
        SETTLEMENT_AT_PRESUMED_MM.value * self.ground_use
    }

    fn total_mm(&self) -> f64 {
        self.prop_mm() + self.board_mm() + self.ground_mm()
    }

    /// Part that tightening before cutting takes out: all that is there under the tightening force. Tightening reaches
    /// about half the load before the wall would lift. Own judgement.
    fn left_mm(&self) -> f64 {
        0.5 * self.total_mm()
    }
}

/// Movement of a support from its legs, `[inside, outside]` per needle, and its needles' deflections.
#[must_use]
pub fn movement(legs: &[[Leg; 2]], needles_mm: &[f64]) -> Movement {
    let all = || legs.iter().flatten();
    let largest = |part: fn(&Leg) -> f64| all().map(part).fold(0.0, f64::max);
    let sink_of = |(pair, needle): (&[Leg; 2], &f64)| pair.iter().map(Leg::left_mm).sum::<f64>() / 2.0 + needle;
    let levels: Vec<f64> = legs.iter().zip(needles_mm).map(sink_of).collect();
    let neighbours = levels
        .iter()
        .zip(levels.iter().skip(1))
        .map(|(a, b)| (a - b).abs())
        .fold(0.0, f64::max);
    let sides = legs
        .iter()
        .map(|[inside, outside]| (inside.left_mm() - outside.left_mm()).abs())
        .fold(0.0, f64::max);
    let difference = neighbours.max(sides);
    Movement {
        props_mm: largest(Leg::prop_mm),
        needle_mm: needles_mm.iter().copied().fold(0.0, f64::max),
        board_mm: largest(Leg::board_mm),
        ground_mm: largest(Leg::ground_mm),
        worst_difference_mm: difference,
        utilisation: difference / DIFFERENCE_MM,
        turns: largest(Leg::left_mm) / THREAD_MM,
    }
}
