//! Lifting by hand.

use crate::source::{Seen, Source};
use serde::Serialize;

/// Source of [`people_to_lift`] and [`hse_filter`].
pub const SOURCE: Source = Source::new(
    "HSE INDG143",
    "guideline filter at the waist, reductions for twisting and frequency",
    Seen::Secondary("a reprint; both reductions multiplied is an assumption; not a safe limit"),
);

/// Filter at the waist close to the body, kg: men and women.
pub const FILTER_KG: [f64; 2] = [25.0, 16.0];

/// Filter with its reductions, kg: 10 % for a twist beyond 45°, 20 % beyond 90°; 30 % once or twice a minute, 50 % five to
/// eight times, 80 % more than twelve times.
#[must_use]
pub fn hse_filter(base_kg: f64, twist_deg: f64, per_min: f64) -> f64 {
    let twist = match twist_deg {
        t if t > 90.0 => 0.8,
        t if t > 45.0 => 0.9,
        _ => 1.0,
    };
    let often = match per_min {
        f if f > 12.0 => 0.2,
        f if f >= 5.0 => 0.5,
        f if f >= 1.0 => 0.7,
        _ => 1.0,
    };
    base_kg * twist * often
}

/// Result of [`people_to_lift`].
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct LiftResult {
    /// Mass, kg.
    pub mass_kg: f64,
    /// Whether one person is within the filter.
    pub one_person_ok: bool,
    /// People needed: two carry 1.33 times, three or more half of the sum of what each alone may.
    pub people: u32,
}

/// People needed to lift a mass by the filter, which is no safe limit. Above what four may lift, 0 says: lift it otherwise.
#[must_use]
pub fn people_to_lift(mass_kg: f64, filter_kg: f64) -> LiftResult {
    // A team lifts less than the sum of its members: two thirds for two, half for three and more (from memory, HSE L23).
    let can = [filter_kg, 4.0 / 3.0 * filter_kg, 1.5 * filter_kg, 2.0 * filter_kg];
    let people = (1..)
        .zip(can)
        .find(|(_, can)| mass_kg <= can + 1e-9)
        .map_or(0, |(people, _)| people);
    LiftResult {
        mass_kg,
        one_person_ok: mass_kg <= filter_kg,
        people,
    }
}

impl LiftResult {
    /// The derivation, line by line.
    #[must_use]
    pub fn steps(&self) -> Vec<String> {
        let who = match self.people {
            0 => "more than four may lift: lift it otherwise".to_owned(),
            n => format!("{n} to lift"),
        };
        vec![format!("{:.1} kg: {who}", self.mass_kg)]
    }
}
