//! A prop under a bracket: the bracket's arm is the eccentricity at its head.

use super::data::{PropData, Refusal, State};
use super::en1065::DIVISOR;
use super::rating::rate;
use super::tn79;
use crate::source::{Seen, Source};
use serde::Serialize;

/// Source of [`bracket_resistance`].
pub const SOURCE: Source = Source::new(
    "CROSS reports 32 and 57",
    "a bracket's arm of about 200 mm against the 25 mm that prop loads assume",
    Seen::Model("the prop as a strut with the bracket's arm at its head"),
);

/// Source of a load typed in from a maker's sheet.
pub const SHEET_SOURCE: Source = Source::new(
    "the maker's sheet, as typed in",
    "its line for this length",
    Seen::Secondary("the user's entry"),
);

/// Result of [`bracket_resistance`].
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct BracketResult {
    /// Arm, mm.
    pub arm_mm: f64,
    /// Load at first yield, kN.
    pub r_kn: f64,
    /// κ of the prop in this state.
    pub kappa: f64,
    /// The prop's tabulated working load at this length, kN.
    pub table_kn: f64,
    /// Load at first yield over 1.65, kN.
    pub r_over_kn: f64,
    /// κ times the prop's working load, kN.
    pub scaled_kn: f64,
    /// The lesser of both, kN.
    pub can_kn: f64,
}

/// What a bracket on this prop can carry, before the maker's rated load: min(κ × working load, R(arm + lean)/1.65).
///
/// # Errors
/// As [`rate`].
pub fn bracket_resistance(
    data: &PropData,
    length_m: f64,
    arm_mm: f64,
    lean_deg: f64,
) -> Result<BracketResult, Refusal> {
    bracket_in_state(data, length_m, &State::new(arm_mm, 0.0, lean_deg))
}

/// As [`bracket_resistance`], for a prop in a state whose eccentricity at the head is the arm.
///
/// # Errors
/// As [`rate`].
pub fn bracket_in_state(data: &PropData, length_m: f64, state: &State) -> Result<BracketResult, Refusal> {
    let rating = rate(data, length_m, state)?;
    let r_over_kn = rating.r_state_kn / DIVISOR;
    let scaled_kn = rating.kappa * rating.table_kn;
    Ok(BracketResult {
        arm_mm: state.head_mm,
        r_kn: rating.r_state_kn,
        kappa: rating.kappa,
        table_kn: rating.table_kn,
        r_over_kn,
        scaled_kn,
        can_kn: r_over_kn.min(scaled_kn),
    })
}

/// Lean that is reckoned with under a bracket, degrees.
pub const LEAN_DEG: f64 = tn79::LEAN_DEG;

impl BracketResult {
    /// The derivation, line by line.
    #[must_use]
    pub fn steps(&self) -> Vec<String> {
        vec![
            format!(
                "strut with {:.0} mm at its head: first yield at {:.2} kN",
                self.arm_mm, self.r_kn
            ),
            format!(
                "R/1.65 = {:.2} kN; κ × working load = {:.3} × {:.2} = {:.2} kN",
                self.r_over_kn, self.kappa, self.table_kn, self.scaled_kn
            ),
        ]
    }
}
