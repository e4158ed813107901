//! The units that are read, by name, with their exact factors.

/// Kind of a quantity.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Dimension {
    Length,
    Force,
    LineLoad,
    Pressure,
    Density,
    Speed,
    Mass,
    LineMass,
    Angle,
    Time,
}

impl Dimension {
    /// In plain words, after "is a".
    pub(super) const fn words(self) -> &'static str {
        match self {
            Self::Length => "length",
            Self::Force => "force",
            Self::LineLoad => "load per length",
            Self::Pressure => "load per area",
            Self::Density => "weight per volume",
            Self::Speed => "speed",
            Self::Mass => "mass",
            Self::LineMass => "mass per length",
            Self::Angle => "number of degrees",
            Self::Time => "time",
        }
    }
}

/// A unit with its names and its size in the dimension's base unit, as a ratio.
pub(super) struct Row {
    names: &'static [&'static str],
    dimension: Dimension,
    pub(super) base: (f64, f64),
}

const fn row(names: &'static [&'static str], dimension: Dimension, up: f64, down: f64) -> Row {
    Row {
        names,
        dimension,
        base: (up, down),
    }
}

/// Pound-force, N: 0.45359237 × 9.80665 = 4.4482216152605, as a ratio of whole numbers.
const LBF: (f64, f64) = (44_482_216_152_605.0, 1e13);
/// Foot and inch, m.
const FOOT: (f64, f64) = (3048.0, 10_000.0);
const INCH: (f64, f64) = (254.0, 10_000.0);
/// Square foot, square inch, cubic foot: 9.290304e-2 m², 6.4516e-4 m², 2.8316846592e-2 m³.
const FOOT2: (f64, f64) = (9_290_304.0, 1e8);
const INCH2: (f64, f64) = (64_516.0, 1e8);
const FOOT3: (f64, f64) = (28_316_846_592.0, 1e12);
/// Standard gravity, m/s²: the weight of a kilogram, N.
const G: (f64, f64) = (980_665.0, 100_000.0);

/// Pounds-force over something, with a factor for kips.
const fn over(names: &'static [&'static str], dimension: Dimension, times: f64, by: (f64, f64)) -> Row {
    row(names, dimension, times * LBF.0 * by.1, LBF.1 * by.0)
}

use Dimension::{Angle, Density, Force, Length, LineLoad, LineMass, Mass, Pressure, Speed, Time};

/// All units. A mass stands for its weight where a force is asked.
const ROWS: &[Row] = &[
    row(&["m", "metre", "metres", "meter", "meters"], Length, 1.0, 1.0),
    row(
        &["mm", "millimetre", "millimetres", "millimeter", "millimeters"],
        Length,
        1.0,
        1000.0,
    ),
    row(
        &["cm", "centimetre", "centimetres", "centimeter", "centimeters"],
        Length,
        1.0,
        100.0,
    ),
    row(&["in", "inch", "inches", "\""], Length, INCH.0, INCH.1),
    row(&["ft", "foot", "feet", "'"], Length, FOOT.0, FOOT.1),
    row(&["yd", "yard", "yards"], Length, 9144.0, 10_000.0),
    row(&["n"], Force, 1.0, 1.0),
    row(&["kn"], Force, 1000.0, 1.0),
    row(&["lb", "lbs", "lbf", "pound", "pounds"], Force, LBF.0, LBF.1),
    row(&["kip", "kips"], Force, 1000.0 * LBF.0, LBF.1),
    row(&["kg", "kgf"], Force, G.0, G.1),
    row(&["t", "tonne", "tonnes"], Force, 1000.0 * G.0, G.1),
    row(&["n/m"], LineLoad, 1.0, 1.0),
    row(&["kn/m"], LineLoad, 1000.0, 1.0),
    row(&["kg/m"], LineLoad, G.0, G.1),
    over(&["plf", "lb/ft", "lbs/ft", "lbf/ft"], LineLoad, 1.0, FOOT),
    over(&["klf", "kip/ft", "kips/ft"], LineLoad, 1000.0, FOOT),
    row(&["pa", "n/m2"], Pressure, 1.0, 1.0),
    row(&["kpa", "kn/m2"], Pressure, 1000.0, 1.0),
    row(&["mpa", "n/mm2"], Pressure, 1e6, 1.0),
    row(&["kg/m2"], Pressure, G.0, G.1),
    over(&["psf", "lb/ft2", "lbs/ft2", "lbf/ft2"], Pressure, 1.0, FOOT2),
    over(&["ksf", "kip/ft2", "kips/ft2"], Pressure, 1000.0, FOOT2),
    over(&["psi", "lb/in2", "lbs/in2", "lbf/in2"], Pressure, 1.0, INCH2),
    over(&["ksi", "kip/in2", "kips/in2"], Pressure, 1000.0, INCH2),
    row(&["n/m3"], Density, 1.0, 1.0),
    row(&["kn/m3"], Density, 1000.0, 1.0),
    row(&["kg/m3"], Density, G.0, G.1),
    over(&["pcf", "lb/ft3", "lbs/ft3", "lbf/ft3"], Density, 1.0, FOOT3),
    row(&["m/s"], Speed, 1.0, 1.0),
    row(&["km/h", "kmh", "kph"], Speed, 1000.0, 3600.0),
    row(&["mph", "mi/h", "miles/hour", "miles/h"], Speed, 44_704.0, 100_000.0),
    row(&["ft/s", "fps"], Speed, FOOT.0, FOOT.1),
    row(&["knot", "knots", "kt", "kts"], Speed, 1852.0, 3600.0),
    row(&["kg"], Mass, 1.0, 1.0),
    row(&["t", "tonne", "tonnes"], Mass, 1000.0, 1.0),
    row(&["lb", "lbs", "pound", "pounds"], Mass, 45_359_237.0, 1e8),
    row(&["kg/m"], LineMass, 1.0, 1.0),
    // 0.45359237 / 0.3048, both times 1e8.
    row(&["lb/ft", "lbs/ft", "plf"], LineMass, 45_359_237.0, 30_480_000.0),
    row(&["°", "deg", "degree", "degrees"], Angle, 1.0, 1.0),
    row(&["day", "days"], Time, 1.0, 1.0),
    row(&["week", "weeks"], Time, 7.0, 1.0),
];

/// The unit of this name within a dimension.
pub(super) fn find(name: &str, dimension: Dimension) -> Option<&'static Row> {
    ROWS.iter()
        .find(|row| row.dimension == dimension && row.names.contains(&name))
}

/// The first kind of quantity that a name stands for.
pub(super) fn kind_of(name: &str) -> Option<Dimension> {
    ROWS.iter()
        .find(|row| row.names.contains(&name))
        .map(|row| row.dimension)
}
