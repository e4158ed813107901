//! Wind as it is typed in: units, and the Beaufort scale in each of them.
#![expect(clippy::unwrap_used, reason = "a test that fails is to stop where it fails")]

use calc::units::Unit;

/// Upper ends of forces 0 to 11, read as text: m/s on a public weather page (0 - 0,2 … 28,5 - 32,6) and a list of the scale
/// that agrees in every figure; knots in a copy of the Met Office's table of specifications and equivalent speeds (1-3, 4-6,
/// 7-10, 11-16, 17-21, 22-27, 28-33, 34-40, 41-47, 48-55, 56-63); mph and km/h on public pages after it (force 8: 39-46 mph,
/// force 9: 47-54; 62-74 and 75-88 km/h). The WMO's own manual was not seen.
const UPPER: [(f64, f64, f64, f64); 11] = [
    // m/s, knots, mph, km/h
    (1.5, 3.0, 3.0, 5.5),
    (3.3, 6.0, 7.0, 11.0),
    (5.4, 10.0, 12.0, 19.0),
    (7.9, 16.0, 18.0, 28.0),
    (10.7, 21.0, 24.0, 38.0),
    (13.8, 27.0, 31.0, 49.0),
    (17.1, 33.0, 38.0, 61.0),
    (20.7, 40.0, 46.0, 74.0),
    (24.4, 47.0, 54.0, 88.0),
    (28.4, 55.0, 63.0, 102.0),
    (32.6, 63.0, 72.0, 117.0),
];

fn m_s(text: &str) -> f64 {
    calc::units::read(text, Unit::MetrePerSecond).unwrap()
}

/// The same end in four units: whole knots and miles an hour are rounded by up to one, as printed tables round them.
#[test]
fn each_force_ends_at_the_same_wind_in_every_unit() {
    for (end, knots, mph, km_h) in UPPER {
        for (text, step) in [
            (format!("{knots} knots"), m_s("1 knot")),
            (format!("{mph} mph"), m_s("1 mph")),
            (format!("{km_h} km/h"), m_s("1 km/h")),
        ] {
            let read = m_s(&text);
            assert!((read - end).abs() <= step, "{text}: {read:.2} m/s against {end}");
        }
    }
}

/// A nautical mile is 1852 m and a mile 1609.344 m by definition.
#[test]
fn units_of_wind_are_exact() {
    assert!((m_s("36 kt") - 18.52).abs() < 1e-12);
    assert!((m_s("100 mph") - 44.704).abs() < 1e-12);
    assert!((m_s("90 km/h") - 25.0).abs() < 1e-12);
    assert!((m_s("25 m/s") - 25.0).abs() < 1e-12);
}
