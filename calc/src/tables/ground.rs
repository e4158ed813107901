//! Presumed bearing values of ground, at the low end of what is published.

use crate::source::{Seen, Source, Sourced};

/// Source of the presumed values.
pub const SOURCE: Source = Source::new(
    "National Building Code of Canada, presumed bearing pressures",
    "Table 9.4.4.1",
    Seen::Secondary("a reprint on a public plan set; BS 8004:1986 Table 1 gives the same families, from memory"),
);

/// Ground name of the contract → presumed allowable bearing, kPa. `unknown` is taken as soft clay by the caller.
pub const PRESUMED: &[(&str, f64)] = &[
    ("soft_clay", 40.0),
    ("firm_clay", 75.0),
    ("stiff_clay", 150.0),
    ("loose_sand", 50.0),
    ("dense_sand", 150.0),
    ("gravel", GRAVEL_KPA),
    ("rock", 500.0),
];

/// Low end of medium dense gravel or sand and gravel, 200 to 600 kPa, which the other table does not have, kPa.
const GRAVEL_KPA: f64 = 200.0;

/// Source of the value for gravel.
pub const GRAVEL_SOURCE: Source = Source::new(
    "BS 8004:1986",
    "Table 1, medium dense gravel or medium dense sand and gravel, low end of 200 to 600 kPa",
    Seen::Secondary("an adapted reprint of the table on a structural engineer's public page"),
);

/// Where the presumed value of a named ground comes from.
#[must_use]
pub fn source_of(name: &str) -> Source {
    if name == "gravel" { GRAVEL_SOURCE } else { SOURCE }
}

/// Source of a value that the user has entered.
pub const ENTERED: Source = Source::new(
    "bearing value entered",
    "foot.bearing_kpa of the job",
    Seen::Secondary("the job as described"),
);

/// Further rows of the same reprint that no ground name of the contract maps to, kPa.
pub const OTHER_ROWS: &[(&str, f64)] = &[("dense_silt", 100.0), ("till", 200.0), ("clay_shale", 300.0)];

/// A family of ground with its published range, kPa.
pub struct Family {
    /// Name of the family.
    pub name: &'static str,
    /// Low end, kPa.
    pub low_kpa: f64,
    /// High end, kPa.
    pub high_kpa: f64,
    /// Where it comes from.
    pub source: Source,
}

/// Source of [`FAMILIES`].
pub const FAMILIES_SOURCE: Source = BS8004;
const BS8004: Source = Source::new(
    "BS 8004:1986",
    "Table 1",
    Seen::Secondary("public program code that cites the table"),
);
const BS8004_REPRINT: Source = Source::new(
    "BS 8004:1986",
    "Table 1",
    Seen::Secondary("an adapted reprint of the table on a structural engineer's public page"),
);

/// Ranges by BS 8004, for comparison with the presumed values.
pub const FAMILIES: &[Family] = &[
    Family {
        name: "sand",
        low_kpa: 100.0,
        high_kpa: 300.0,
        source: BS8004,
    },
    Family {
        name: "sand_gravel",
        low_kpa: 200.0,
        high_kpa: 600.0,
        source: BS8004,
    },
    Family {
        name: "clay_firm_to_stiff",
        low_kpa: 75.0,
        high_kpa: 300.0,
        source: BS8004,
    },
    Family {
        name: "clay_firm",
        low_kpa: 75.0,
        high_kpa: 150.0,
        source: BS8004_REPRINT,
    },
    Family {
        name: "clay_stiff",
        low_kpa: 150.0,
        high_kpa: 300.0,
        source: BS8004_REPRINT,
    },
    Family {
        name: "clay_soft",
        low_kpa: 0.0,
        high_kpa: 75.0,
        source: BS8004_REPRINT,
    },
    Family {
        name: "clay_very_stiff",
        low_kpa: 300.0,
        high_kpa: 600.0,
        source: BS8004_REPRINT,
    },
    Family {
        name: "sand_loose",
        low_kpa: 0.0,
        high_kpa: 100.0,
        source: BS8004_REPRINT,
    },
    Family {
        name: "sand_gravel_loose",
        low_kpa: 0.0,
        high_kpa: 200.0,
        source: BS8004_REPRINT,
    },
];

/// Presumed allowable bearing of a named ground, kPa; `None` for a name that is not in the table.
#[must_use]
pub fn presumed_kpa(name: &str) -> Option<Sourced> {
    PRESUMED
        .iter()
        .chain(OTHER_ROWS)
        .find(|(ground, _)| *ground == name)
        .map(|&(ground, value)| Sourced {
            value,
            source: source_of(ground),
        })
}

/// Published range of a family of ground by BS 8004.
#[must_use]
pub fn family(name: &str) -> Option<&'static Family> {
    FAMILIES.iter().find(|family| family.name == name)
}

/// Settlement of a sole board's ground at the presumed bearing value, mm, taken in proportion below it.
///
/// Presumed values are commonly said to keep the settlement of footings a metre or two wide within about 25 mm; a board a
/// few hundred millimetres wide settles less.
pub const SETTLEMENT_AT_PRESUMED_MM: Sourced = Sourced::new(
    10.0,
    "settlement at the presumed bearing value",
    "sole boards under props",
    Seen::Own,
);
