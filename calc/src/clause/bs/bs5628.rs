//! Masonry by BS 5628-1, beside EN 1996: characteristic strength of brickwork and bearing types.

use crate::source::{Seen, Source};
use serde::Serialize;

/// Source of [`f_k_bs5628`].
pub const STRENGTH_SOURCE: Source = Source::new(
    "BS 5628-1:1992",
    "Table 2(a), standard format bricks",
    Seen::Secondary("a reprint of the table in a public document on brick properties"),
);
/// Source of [`bearing_types`].
pub const BEARING_SOURCE: Source = Source::new(
    "BS 5628-1",
    "clause 34, Figure 4",
    Seen::Secondary("an engineers' forum thread"),
);

const UNITS: [f64; 9] = [5.0, 10.0, 15.0, 20.0, 27.5, 35.0, 50.0, 70.0, 100.0];

/// Characteristic strength by unit strength in N/mm² and mortar designation (`i` to `iv`), linear between the columns, N/mm².
/// `None` outside the table.
#[must_use]
pub fn f_k_bs5628(unit_n_mm2: f64, mortar: &str) -> Option<f64> {
    let row: [f64; 9] = match mortar.trim_matches(['(', ')']) {
        "i" => [2.5, 4.4, 6.0, 7.4, 9.2, 11.4, 15.0, 19.2, 24.0],
        "ii" => [2.5, 4.2, 5.3, 6.4, 7.9, 9.4, 12.2, 15.1, 18.2],
        "iii" => [2.5, 4.1, 5.0, 5.8, 7.1, 8.5, 10.6, 13.1, 15.5],
        "iv" => [2.2, 3.5, 4.4, 5.2, 6.2, 7.3, 9.0, 10.8, 12.7],
        _ => return None,
    };
    let columns: Vec<(f64, f64)> = UNITS.into_iter().zip(row).collect();
    columns.windows(2).find_map(|pair| match pair {
        [(u0, f0), (u1, f1)] if (*u0..=*u1).contains(&unit_n_mm2) => {
            Some(f0 + (f1 - f0) * (unit_n_mm2 - u0) / (u1 - u0))
        }
        _ => None,
    })
}

/// Result of [`bearing_types`].
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct BearingTypes {
    /// Bearing type 1, N/mm².
    pub type_1_n_mm2: f64,
    /// Bearing type 2, N/mm².
    pub type_2_n_mm2: f64,
    /// Bearing type 3, N/mm².
    pub type_3_n_mm2: f64,
}

/// Local design strengths 1.25, 1.5 and 2.0 times f_k/γ_m.
#[must_use]
pub fn bearing_types(f_k_n_mm2: f64, gamma_m: f64) -> BearingTypes {
    let f = f_k_n_mm2 / gamma_m;
    BearingTypes {
        type_1_n_mm2: 1.25 * f,
        type_2_n_mm2: 1.5 * f,
        type_3_n_mm2: 2.0 * f,
    }
}

impl BearingTypes {
    /// The derivation, line by line.
    #[must_use]
    pub fn steps(&self) -> Vec<String> {
        vec![format!(
            "1.25, 1.5, 2.0 × f_k/γ_m = {:.3}, {:.3}, {:.3} N/mm²",
            self.type_1_n_mm2, self.type_2_n_mm2, self.type_3_n_mm2
        )]
    }
}
