//! Trade sizes 0 to 4 and their tabulated safe working loads.

use crate::source::{Seen, Source};

/// Source of the tables.
pub const SOURCE: Source = Source::new(
    "CIRIA Technical Note 79 (1977)",
    "safe working loads of adjustable steel props, sizes 1 to 4; size 0 added by the sheet",
    Seen::Secondary("a public one-page sheet after the note"),
);

/// Source of the sizes.
pub const RANGE_SOURCE: Source = Source::new(
    "trade sizes of adjustable steel props",
    "closed and extended lengths",
    Seen::Secondary("hire texts"),
);

/// Eccentricity of the eccentric table, mm.
pub const ECCENTRICITY_MM: f64 = 25.0;
/// Lean of both tables, degrees.
pub const LEAN_DEG: f64 = 1.5;

/// One tabulated row: height in m, load in kN.
pub type Row = (f64, f64);

/// 25 mm off centre and 1.5° out of plumb, sizes 0 to 3.
pub const ECCENTRIC: &[Row] = &[
    (1.25, 17.0),
    (1.5, 17.0),
    (1.75, 17.0),
    (2.0, 17.0),
    (2.25, 17.0),
    (2.5, 17.0),
    (2.75, 17.0),
    (3.0, 15.0),
    (3.25, 13.0),
    (3.5, 11.0),
    (3.75, 10.0),
];

/// Concentric and 1.5° out of plumb, sizes 1 to 3.
pub const CONCENTRIC: &[Row] = &[
    (1.75, 32.0),
    (2.0, 32.0),
    (2.25, 32.0),
    (2.5, 26.0),
    (2.75, 23.0),
    (3.0, 19.0),
    (3.25, 17.0),
    (3.5, 15.0),
    (3.75, 13.0),
];

const CONCENTRIC_0: &[Row] = &[(1.25, 32.0), (1.5, 32.0), (1.75, 21.0)];

const ECCENTRIC_4: &[Row] = &[
    (3.25, 17.0),
    (3.5, 14.0),
    (3.75, 11.0),
    (4.0, 10.0),
    (4.25, 9.0),
    (4.5, 8.0),
    (4.75, 7.0),
    (5.0, 7.0),
];

const CONCENTRIC_4: &[Row] = &[
    (3.25, 24.0),
    (3.5, 19.0),
    (3.75, 15.0),
    (4.0, 12.0),
    (4.25, 11.0),
    (4.5, 10.0),
    (4.75, 9.0),
];

/// Closed and extended length of a size, m; `None` above size 4.
#[must_use]
pub const fn range_m(size: u8) -> Option<(f64, f64)> {
    match size {
        0 => Some((1.07, 1.82)),
        1 => Some((1.75, 3.12)),
        2 => Some((1.98, 3.35)),
        3 => Some((2.59, 3.95)),
        4 => Some((3.20, 4.87)),
        _ => None,
    }
}

/// The rows of a size, eccentric or concentric.
#[must_use]
pub const fn rows(size: u8, concentric: bool) -> &'static [Row] {
    match (size, concentric) {
        (4, false) => ECCENTRIC_4,
        (4, true) => CONCENTRIC_4,
        (0, true) => CONCENTRIC_0,
        (_, true) => CONCENTRIC,
        (_, false) => ECCENTRIC,
    }
}

/// The next taller row at a length, kN; `None` above the tallest row.
///
/// The tables are stepped, so nothing is interpolated. A micrometre of tolerance keeps 2.75 m on its own row.
#[must_use]
pub fn next_taller(rows: &[Row], length_m: f64) -> Option<Row> {
    rows.iter().copied().find(|(height, _)| *height >= length_m - 1e-6)
}

/// The note's own ratio of the eccentric to the concentric load at a length, for sizes 1 to 3 between 1.75 and 3.75 m.
#[must_use]
pub fn own_ratio(length_m: f64) -> Option<f64> {
    if !(1.75 - 1e-6..=3.75 + 1e-6).contains(&length_m) {
        return None;
    }
    let (_, eccentric) = next_taller(ECCENTRIC, length_m)?;
    let (_, concentric) = next_taller(CONCENTRIC, length_m)?;
    Some(eccentric / concentric)
}
