//! Conversion between the units of old drawings, of other countries and of this program.

use crate::source::{Seen, Source};

/// Source of [`convert`].
pub const SOURCE: Source = Source::new(
    "international yard and pound of 1959, standard gravity 9.80665 m/s²",
    "1 ft = 0.3048 m, 1 lb = 0.45359237 kg, long ton = 2240 lb; all exact",
    Seen::Library("pint 0.25.3"),
);

const FOOT_M: f64 = 0.3048;
const INCH_M: f64 = FOOT_M / 12.0;
const POUND_KG: f64 = 0.453_592_37;
const GRAVITY_M_S2: f64 = 9.806_65;
const POUND_FORCE_N: f64 = POUND_KG * GRAVITY_M_S2;
const TON_FORCE_N: f64 = 2240.0 * POUND_FORCE_N;

/// What a unit measures; only units of one kind convert into each other.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// Length, in m.
    Length,
    /// Mass, in kg.
    Mass,
    /// Force, in N.
    Force,
    /// Force along a line, in N/m.
    Line,
    /// Pressure or stress, in N/m².
    Pressure,
    /// Density, in kg/m³.
    Density,
    /// Moment, in Nm.
    Moment,
    /// Speed, in m/s.
    Speed,
}

/// All units: name, kind, and how many of the kind's own unit one of it is. `tonf` is the long ton's weight.
pub const UNITS: &[(&str, Kind, f64)] = &[
    ("m", Kind::Length, 1.0),
    ("mm", Kind::Length, 1e-3),
    ("ft", Kind::Length, FOOT_M),
    ("in", Kind::Length, INCH_M),
    ("kg", Kind::Mass, 1.0),
    ("lb", Kind::Mass, POUND_KG),
    ("cwt", Kind::Mass, 112.0 * POUND_KG),
    ("ton", Kind::Mass, 2240.0 * POUND_KG),
    ("N", Kind::Force, 1.0),
    ("kN", Kind::Force, 1e3),
    ("kgf", Kind::Force, GRAVITY_M_S2),
    ("lbf", Kind::Force, POUND_FORCE_N),
    ("tonf", Kind::Force, TON_FORCE_N),
    ("kN/m", Kind::Line, 1e3),
    ("lbf/ft", Kind::Line, POUND_FORCE_N / FOOT_M),
    ("tonf/ft", Kind::Line, TON_FORCE_N / FOOT_M),
    ("kN/m2", Kind::Pressure, 1e3),
    ("kPa", Kind::Pressure, 1e3),
    ("N/mm2", Kind::Pressure, 1e6),
    ("lbf/ft2", Kind::Pressure, POUND_FORCE_N / (FOOT_M * FOOT_M)),
    ("lbf/in2", Kind::Pressure, POUND_FORCE_N / (INCH_M * INCH_M)),
    ("tonf/ft2", Kind::Pressure, TON_FORCE_N / (FOOT_M * FOOT_M)),
    ("kg/m3", Kind::Density, 1.0),
    ("lb/ft3", Kind::Density, POUND_KG / (FOOT_M * FOOT_M * FOOT_M)),
    ("kNm", Kind::Moment, 1e3),
    ("lbf.ft", Kind::Moment, POUND_FORCE_N * FOOT_M),
    ("m/s", Kind::Speed, 1.0),
    ("km/h", Kind::Speed, 1.0 / 3.6),
    ("mile/h", Kind::Speed, 5280.0 * FOOT_M / 3600.0),
];

/// A unit by its name: its kind and its size in the kind's own unit; `None` for a name that is not in the list.
#[must_use]
pub fn unit(name: &str) -> Option<(Kind, f64)> {
    UNITS
        .iter()
        .find(|(unit, _, _)| *unit == name)
        .map(|&(_, kind, size)| (kind, size))
}

/// A value in another unit; `None` where a unit is not known or the two measure different things.
///
/// Source: [`SOURCE`].
#[must_use]
pub fn convert(value: f64, from: &str, to: &str) -> Option<f64> {
    let ((from_kind, from_size), (to_kind, to_size)) = (unit(from)?, unit(to)?);
    (from_kind == to_kind).then_some(value * from_size / to_size)
}

#[cfg(test)]
mod tests {
    use super::{UNITS, convert};

    #[test]
    fn there_and_back_is_where_one_started() {
        for (from, kind, _) in UNITS {
            for (to, other, _) in UNITS {
                let back = convert(3.7, from, to).and_then(|there| convert(there, to, from));
                assert_eq!(back.is_some(), kind == other, "{from} {to}");
                assert!(back.is_none_or(|v| (v - 3.7).abs() < 1e-12), "{from} {to}");
            }
        }
    }

    #[test]
    fn names_are_unique() {
        for (i, (name, _, _)) in UNITS.iter().enumerate() {
            assert!(UNITS.iter().skip(i + 1).all(|(other, _, _)| other != name), "{name}");
        }
    }
}
