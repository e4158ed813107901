//! Feet, inches and pounds at the edge: text with a unit becomes the contract's own unit, and back for the screen.
//!
//! Inside, everything stays metric. A number of a job may also be text with its unit, as `11' 9"`, `12 psf` or `3600 mm`;
//! what the key's suffix says decides which kind of unit is allowed. The definitions are exact: international yard and
//! pound agreement of 1959 (inch 25.4 mm, pound 0.45359237 kg) and standard gravity 9.80665 m/s², read in NIST SP 811 as
//! other works reprint it.

mod scan;
mod show;
mod table;

pub use show::{feet_inches, imperial, inches};

use crate::source::{Seen, Source};
use table::Dimension;

/// Source of the definitions.
pub const SOURCE: Source = Source::new(
    "International yard and pound agreement 1959; NIST SP 811",
    "appendix B, exact factors",
    Seen::Secondary("public tables of conversion factors"),
);

/// A unit in which the contract keeps a number.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs, reason = "the names are the units' own")]
pub enum Unit {
    Metre,
    Millimetre,
    Kilonewton,
    KilonewtonPerMetre,
    KilonewtonPerSquareMetre,
    KilonewtonPerCubicMetre,
    Kilopascal,
    NewtonPerSquareMillimetre,
    MetrePerSecond,
    Kilogram,
    KilogramPerMetre,
    Degree,
    Day,
}

impl Unit {
    /// All of them; a longer suffix stands before one that it ends with.
    pub const ALL: [Self; 13] = [
        Self::KilonewtonPerSquareMetre,
        Self::KilonewtonPerCubicMetre,
        Self::KilonewtonPerMetre,
        Self::KilogramPerMetre,
        Self::NewtonPerSquareMillimetre,
        Self::MetrePerSecond,
        Self::Millimetre,
        Self::Kilonewton,
        Self::Kilopascal,
        Self::Kilogram,
        Self::Degree,
        Self::Metre,
        Self::Day,
    ];

    /// As written in the schema and on screens.
    #[must_use]
    pub const fn symbol(self) -> &'static str {
        match self {
            Self::Metre => "m",
            Self::Millimetre => "mm",
            Self::Kilonewton => "kN",
            Self::KilonewtonPerMetre => "kN/m",
            Self::KilonewtonPerSquareMetre => "kN/m²",
            Self::KilonewtonPerCubicMetre => "kN/m³",
            Self::Kilopascal => "kPa",
            Self::NewtonPerSquareMillimetre => "N/mm²",
            Self::MetrePerSecond => "m/s",
            Self::Kilogram => "kg",
            Self::KilogramPerMetre => "kg/m",
            Self::Degree => "°",
            Self::Day => "days",
        }
    }

    /// Suffix of a key that holds it; `days` is a whole key.
    #[must_use]
    pub const fn suffix(self) -> &'static str {
        match self {
            Self::Metre => "_m",
            Self::Millimetre => "_mm",
            Self::Kilonewton => "_kn",
            Self::KilonewtonPerMetre => "_kn_m",
            Self::KilonewtonPerSquareMetre => "_kn_m2",
            Self::KilonewtonPerCubicMetre => "_kn_m3",
            Self::Kilopascal => "_kpa",
            Self::NewtonPerSquareMillimetre => "_n_mm2",
            Self::MetrePerSecond => "_m_s",
            Self::Kilogram => "_kg",
            Self::KilogramPerMetre => "_kg_m",
            Self::Degree => "_deg",
            Self::Day => "days",
        }
    }

    /// The unit of this symbol.
    #[must_use]
    pub fn of_symbol(symbol: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|unit| unit.symbol() == symbol)
    }

    /// The unit that a key's suffix names; none where it names no unit or a ratio of two lengths.
    #[must_use]
    pub fn of_key(key: &str) -> Option<Self> {
        let ratio = key.ends_with("_mm_m") || key.ends_with("_mm_mm") || key.contains("_per_");
        // A bare unit is a key too, as the `mm` of a crack gauge.
        let bare = |unit: &Self| unit.suffix().strip_prefix('_') == Some(key);
        Self::ALL
            .into_iter()
            .find(|unit| !ratio && (key.ends_with(unit.suffix()) || bare(unit)))
    }

    /// What texts are right, with examples.
    #[must_use]
    pub const fn examples(self) -> &'static str {
        match self {
            Self::Metre => "a length such as 3.6 m, 3600 mm, 11 ft 9 in or 11' 9 1/2\"",
            Self::Millimetre => "a length such as 105 mm, 4 1/8 in or 1' 2\"",
            Self::Kilonewton => "a force or weight such as 6 kN, 1350 lb or 600 kg",
            Self::KilonewtonPerMetre => "a load per length such as 12 kN/m or 820 plf",
            Self::KilonewtonPerSquareMetre => "a load per area such as 0.6 kN/m² or 12 psf",
            Self::KilonewtonPerCubicMetre => "a weight density such as 19 kN/m³, 120 pcf or 1900 kg/m³",
            Self::Kilopascal => "a pressure such as 100 kPa or 2000 psf",
            Self::NewtonPerSquareMillimetre => "a stress such as 10 N/mm² or 1450 psi",
            Self::MetrePerSecond => "a speed such as 22 m/s, 50 mph or 80 km/h",
            Self::Kilogram => "a mass such as 14 kg or 31 lb",
            Self::KilogramPerMetre => "a mass per length such as 23 kg/m or 15.5 lb/ft",
            Self::Degree => "an angle such as 35°",
            Self::Day => "a time such as 28 days or 4 weeks",
        }
    }

    const fn dimension(self) -> Dimension {
        match self {
            Self::Metre | Self::Millimetre => Dimension::Length,
            Self::Kilonewton => Dimension::Force,
            Self::KilonewtonPerMetre => Dimension::LineLoad,
            Self::KilonewtonPerSquareMetre | Self::Kilopascal | Self::NewtonPerSquareMillimetre => Dimension::Pressure,
            Self::KilonewtonPerCubicMetre => Dimension::Density,
            Self::MetrePerSecond => Dimension::Speed,
            Self::Kilogram => Dimension::Mass,
            Self::KilogramPerMetre => Dimension::LineMass,
            Self::Degree => Dimension::Angle,
            Self::Day => Dimension::Time,
        }
    }

    /// How many of this unit make one of the dimension's base unit (m, N, N/m, N/m², N/m³, m/s, kg, kg/m, °, days), as a
    /// ratio of two numbers that binary holds exactly.
    const fn per_base(self) -> (f64, f64) {
        match self {
            Self::Millimetre => (1000.0, 1.0),
            Self::Kilonewton
            | Self::KilonewtonPerMetre
            | Self::KilonewtonPerSquareMetre
            | Self::KilonewtonPerCubicMetre
            | Self::Kilopascal => (1.0, 1000.0),
            Self::NewtonPerSquareMillimetre => (1.0, 1e6),
            Self::Metre | Self::MetrePerSecond | Self::Kilogram | Self::KilogramPerMetre | Self::Degree | Self::Day => {
                (1.0, 1.0)
            }
        }
    }
}

/// Why a text is not the quantity asked for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Unread {
    /// What is wrong.
    pub wrong: String,
    /// What would be right.
    pub right: String,
}

/// Longest text that is looked at, in bytes.
const LONGEST: usize = 60;

/// Reads a number with its unit and gives it in `unit`.
///
/// # Errors
///
/// The text cannot be read, has no unit, or has one of another kind: with what is wrong and what would be right.
pub fn read(text: &str, unit: Unit) -> Result<f64, Unread> {
    let unread = |wrong: String| Unread {
        wrong,
        right: unit.examples().to_owned(),
    };
    let shown: String = text.chars().take(40).collect();
    if text.len() > LONGEST {
        return Err(unread(format!("“{shown}…” is too long for a number with its unit")));
    }
    let quantity = scan::quantity(text).map_err(|error| unread(format!("“{shown}” {}", error.words())))?;
    let Some(row) = table::find(&quantity.unit, unit.dimension()) else {
        let wrong = match table::kind_of(&quantity.unit) {
            Some(kind) => format!("“{shown}” is a {}", kind.words()),
            None if quantity.unit.starts_with("ton") => {
                format!("“{shown}”: a ton is 2000 lb, 2240 lb or 1000 kg depending on who says it")
            }
            None => format!("“{shown}”: “{}” is not a unit known here", quantity.unit),
        };
        return Err(unread(wrong));
    };
    let (up, down) = unit.per_base();
    // One product and one division: what decimal writes exactly comes out as the nearest binary number.
    let value = quantity.value * (row.base.0 * up) / (row.base.1 * down);
    if value.is_finite() {
        Ok(value)
    } else {
        Err(unread(format!("“{shown}” is no finite number")))
    }
}

#[cfg(test)]
mod tests;
