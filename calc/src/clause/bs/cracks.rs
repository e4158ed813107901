//! Categories of cracks by their width.

use crate::source::{Seen, Source};

/// Source of [`crack_category`].
pub const SOURCE: Source = Source::new(
    "BRE Digest 251",
    "Table 1, width as one factor only",
    Seen::Secondary("a BRE page and surveyors' reprints; which side a boundary falls on from memory"),
);

/// Category 0 to 5 by width in mm: 0 below 0.1, 1 up to 1, 2 up to 5, 3 up to 15, 4 up to 25, 5 above.
#[must_use]
pub fn crack_category(width_mm: f64) -> u8 {
    match width_mm {
        w if w < 0.1 => 0,
        w if w <= 1.0 => 1,
        w if w <= 5.0 => 2,
        w if w <= 15.0 => 3,
        w if w <= 25.0 => 4,
        _ => 5,
    }
}
