//! Published factors, forms that people write, and what is refused.
#![expect(clippy::unwrap_used, reason = "a test stops at the first broken promise")]

use super::*;
use crate::clause::units::convert;
use crate::job::schema::{Field, Kind};
use crate::job::{ROUND, job_schema};
use proptest::prelude::*;

fn close(a: f64, b: f64) -> bool {
    (a - b).abs() <= 1e-9 * b.abs().max(1e-12)
}

/// NIST SP 811 appendix B.8 as reprinted, from memory where more digits are given than the reprints show: ft 0.3048 m,
/// lbf 4.448 221 615 260 5 N, lbf/ft 14.593 90 N/m, lbf/ft² 47.880 26 Pa, psi 6894.757 Pa, mph 0.447 04 m/s,
/// lb/ft³ 16.018 46 kg/m³, knot 1852/3600 m/s.
#[test]
fn factors_are_the_published_ones() {
    let rows: [(&str, Unit, f64, f64); 15] = [
        ("1 ft", Unit::Metre, 0.3048, 0.0),
        ("1 in", Unit::Millimetre, 25.4, 0.0),
        ("1 yd", Unit::Metre, 0.9144, 0.0),
        ("1000 lbf", Unit::Kilonewton, 4.448_221_615_260_5, 1e-14),
        ("1 kip", Unit::Kilonewton, 4.448_221_615_260_5, 1e-14),
        ("1000 plf", Unit::KilonewtonPerMetre, 14.593_90, 5e-6),
        ("1000 psf", Unit::KilonewtonPerSquareMetre, 47.880_26, 5e-6),
        ("1000 psf", Unit::Kilopascal, 47.880_26, 5e-6),
        ("1000 psi", Unit::NewtonPerSquareMillimetre, 6.894_757, 5e-7),
        ("100 mph", Unit::MetrePerSecond, 44.704, 0.0),
        ("1 lb", Unit::Kilogram, 0.453_592_37, 0.0),
        // lb/ft 1.488 164 kg/m.
        ("1 lb/ft", Unit::KilogramPerMetre, 1.488_164, 5e-7),
        ("1 kg", Unit::Kilonewton, 0.009_806_65, 1e-18),
        ("36 knots", Unit::MetrePerSecond, 18.52, 0.0),
        ("100 pcf", Unit::KilonewtonPerCubicMetre, 1601.846 * 9.806_65e-3, 5e-6),
    ];
    for (text, unit, published, tolerance) in rows {
        let found = read(text, unit).unwrap();
        assert!((found - published).abs() <= tolerance, "{text}: {found} {published}");
    }
}

/// The clause function that converts has a table of its own, confirmed with a library: where both know a unit they agree.
#[test]
fn both_tables_of_units_agree() {
    let rows = [
        ("ft", "ft", Unit::Metre, "m"),
        ("in", "in", Unit::Millimetre, "mm"),
        ("lb", "lb", Unit::Kilogram, "kg"),
        ("lb", "lbf", Unit::Kilonewton, "kN"),
        ("kg", "kgf", Unit::Kilonewton, "kN"),
        ("plf", "lbf/ft", Unit::KilonewtonPerMetre, "kN/m"),
        ("psf", "lbf/ft2", Unit::KilonewtonPerSquareMetre, "kN/m2"),
        ("psf", "lbf/ft2", Unit::Kilopascal, "kPa"),
        ("psi", "lbf/in2", Unit::NewtonPerSquareMillimetre, "N/mm2"),
        ("mph", "mile/h", Unit::MetrePerSecond, "m/s"),
        ("km/h", "km/h", Unit::MetrePerSecond, "m/s"),
    ];
    for (name, other, unit, to) in rows {
        let here = read(&format!("1 {name}"), unit).unwrap();
        let there = convert(1.0, other, to).unwrap();
        assert!((here - there).abs() <= 1e-13 * there, "{name}: {here} {there}");
    }
}

#[test]
fn people_write_it_in_many_ways() {
    // 11 ft 9 in = 141 in, by hand × 25.4 mm.
    for text in [
        "11 ft 9 in",
        "11'9\"",
        "11' 9\"",
        "11′ 9″",
        "11’9”",
        "11'-9\"",
        "11 ft, 9 in",
        "11ft9in",
        "11 Feet 9 Inches",
        "141 in",
        "141in.",
        "11.75 ft",
        "11 3/4 ft",
        " 11 ft.  9 in. ",
        "11' 9''",
        "11 ¾'",
        "3581.4 mm",
        "358.14 cm",
        "3.5814 m",
        "3,5814 m",
    ] {
        let found = read(text, Unit::Metre);
        assert!(
            found.as_ref().is_ok_and(|found| close(*found, 3.5814)),
            "{text}: {found:?}"
        );
    }
    for text in ["4 1/8 in", "4-1/8\"", "4⅛ in", "4.125 in", "33/8 in", "104.775 mm"] {
        let found = read(text, Unit::Millimetre);
        assert!(
            found.as_ref().is_ok_and(|found| close(*found, 104.775)),
            "{text}: {found:?}"
        );
    }
    for text in ["3' 6 1/2\"", "3'-6 1/2\"", "3' 6-1/2\"", "42.5 in", "3' 6½\""] {
        let found = read(text, Unit::Metre);
        assert!(
            found.as_ref().is_ok_and(|found| close(*found, 1.0795)),
            "{text}: {found:?}"
        );
    }
    assert!(close(read("0,102 m", Unit::Millimetre).unwrap(), 102.0));
    assert!(close(read("-1' 6\"", Unit::Metre).unwrap(), -0.4572));
    assert!(close(
        read("12 lb per sq ft", Unit::KilonewtonPerSquareMetre).unwrap(),
        read("12 psf", Unit::Kilopascal).unwrap()
    ));
    assert!(close(read("0.6 kN/m²", Unit::KilonewtonPerSquareMetre).unwrap(), 0.6));
    assert!(close(read("0.6 kN/m^2", Unit::Kilopascal).unwrap(), 0.6));
    assert!(close(read("4 weeks", Unit::Day).unwrap(), 28.0));
    assert!(close(read("35°", Unit::Degree).unwrap(), 35.0));
}

/// What decimal writes exactly is the same binary number as the metric literal.
#[test]
fn plain_metric_text_is_the_number_itself() {
    for (text, unit, number) in [
        ("3.6 m", Unit::Metre, 3.6_f64),
        ("3600 mm", Unit::Metre, 3.6),
        ("102.5 mm", Unit::Millimetre, 102.5),
        ("0.1025 m", Unit::Millimetre, 102.5),
        ("11 ft 9 in", Unit::Metre, 3.5814),
        ("4 1/8 in", Unit::Millimetre, 104.775),
        ("0.85 kN/m2", Unit::KilonewtonPerSquareMetre, 0.85),
        ("50 mph", Unit::MetrePerSecond, 22.352),
    ] {
        assert_eq!(read(text, unit).unwrap().to_bits(), number.to_bits(), "{text}");
    }
}

#[test]
fn what_cannot_be_meant_is_refused_with_what_would_be_right() {
    let rows = [
        ("12", Unit::Metre, "no unit"),
        ("", Unit::Metre, "number"),
        ("ft", Unit::Metre, "number"),
        ("3 kN", Unit::Metre, "is a force"),
        ("12 psf", Unit::Metre, "is a load per area"),
        ("11 ft", Unit::Kilonewton, "is a length"),
        ("3 furlongs", Unit::Metre, "not a unit known"),
        ("2 tons", Unit::Kilonewton, "2240"),
        ("2,000 psf", Unit::Kilopascal, "comma"),
        ("1.234,5 mm", Unit::Millimetre, "comma"),
        ("0,102,5 m", Unit::Metre, "comma"),
        ("11 ft 14 in", Unit::Metre, "less than 12"),
        ("5.5 ft 3 in", Unit::Metre, "whole feet"),
        ("9 in 11 ft", Unit::Metre, "goes on"),
        ("11' 9", Unit::Metre, "no unit"),
        ("3 m 20 cm", Unit::Metre, "goes on"),
        ("11 ft 9 in x", Unit::Metre, "goes on"),
        ("4 9/8 in", Unit::Millimetre, "number"),
        ("1/0 in", Unit::Millimetre, "number"),
        ("--3 m", Unit::Metre, "number"),
        ("1e3 mm", Unit::Metre, ""),
        ("inf m", Unit::Metre, "number"),
        ("NaN m", Unit::Metre, "number"),
    ];
    for (text, unit, says) in rows {
        let error = read(text, unit).unwrap_err();
        assert!(error.wrong.contains(says), "{text}: {}", error.wrong);
        assert_eq!(error.right, unit.examples());
    }
    let long = "9".repeat(100_000);
    assert!(read(&format!("{long} m"), Unit::Metre).unwrap_err().wrong.len() < 200);
}

/// Every number of the schema with a unit that can be converted says the same unit by its key, and every example reads.
#[test]
fn keys_and_schema_say_the_same_unit() {
    fn walk(key: &str, kind: Kind, seen: &mut u32) {
        match kind {
            Kind::Number(_, _, symbol) => {
                let by_symbol = Unit::of_symbol(symbol);
                // Rows of a maker's sheet have no key of their own.
                if key != "table" {
                    assert_eq!(by_symbol, Unit::of_key(key), "{key} in {symbol}");
                }
                *seen += u32::from(by_symbol.is_some());
            }
            Kind::Object(fields) | Kind::TextOr(fields) => all(fields, seen),
            Kind::List(each, _) => walk(key, *each, seen),
            Kind::Tuple(kinds) => kinds.iter().for_each(|each| walk(key, *each, seen)),
            Kind::Whole(..) | Kind::Flag | Kind::Text(_) | Kind::Choice(_) => {}
        }
    }
    fn all(fields: &'static [Field], seen: &mut u32) {
        for field in fields {
            walk(field.key, field.kind, seen);
        }
    }
    let mut seen = 0;
    all(job_schema(), &mut seen);
    all(ROUND, &mut seen);
    assert!(seen > 60, "{seen}");
}

proptest! {
    #[test]
    fn shown_lengths_read_back_within_a_sixteenth(m in -20.0..20.0_f64) {
        let back = read(&feet_inches(m), Unit::Metre);
        prop_assert!(back.as_ref().is_ok_and(|back| (back - m).abs() <= 0.0254 / 16.0 + 1e-9), "{} {:?}", feet_inches(m), back);
        let back = read(&inches(m * 1000.0), Unit::Millimetre);
        prop_assert!(back.is_ok_and(|back| (back - m * 1000.0).abs() <= 25.4 / 16.0 + 1e-6));
    }

    #[test]
    fn shown_loads_read_back_within_their_last_digit(value in 0.0..500.0_f64) {
        for (unit, half) in [
            (Unit::Kilonewton, "0.5 lb"), (Unit::KilonewtonPerMetre, "0.5 plf"),
            (Unit::KilonewtonPerSquareMetre, "0.05 psf"), (Unit::Kilogram, "0.5 lb"),
            (Unit::NewtonPerSquareMillimetre, "0.5 psi"), (Unit::MetrePerSecond, "0.5 mph"),
        ] {
            let back = read(&imperial(value, unit), unit).unwrap();
            prop_assert!((back - value).abs() <= read(half, unit).unwrap() * (1.0 + 1e-9));
        }
    }

    #[test]
    fn no_text_makes_it_panic(text in "\\PC{0,70}") {
        for unit in Unit::ALL {
            if let Err(error) = read(&text, unit) {
                prop_assert!(!error.wrong.is_empty() && !error.right.is_empty());
            }
        }
    }

    #[test]
    fn near_texts_do_not_panic(text in "[-+]?[0-9.,/ ]{0,8} ?(ft|'|in|\"|lb/ft2|kN/m²|½)? ?[-0-9 /]{0,5}(in|\"|'')?") {
        for unit in Unit::ALL {
            if let Ok(value) = read(&text, unit) {
                prop_assert!(value.is_finite());
            }
        }
    }
}

#[test]
fn screens_get_what_a_tape_shows() {
    let rows = [
        (3.5814, "11' 9\""),
        (3.5846, "11' 9 1/8\""),
        (0.2286, "9\""),
        (0.0032, "1/8\""),
        (-0.4572, "-1' 6\""),
        (0.3047, "1' 0\""),
        (0.0, "0\""),
        (f64::NAN, "–"),
        (f64::INFINITY, "–"),
    ];
    for (m, shown) in rows {
        assert_eq!(feet_inches(m), shown, "{m}");
    }
    // 6 kN ÷ 4.448 221 6 N = 1348.8 lb; 0.6 kN/m² ÷ 47.88026 Pa = 12.53 psf, by hand.
    assert_eq!(imperial(6.0, Unit::Kilonewton), "1349 lb");
    assert_eq!(imperial(0.6, Unit::KilonewtonPerSquareMetre), "12.5 psf");
    assert_eq!(imperial(22.0, Unit::MetrePerSecond), "49 mph");
    assert_eq!(imperial(105.0, Unit::Millimetre), "4 1/8\"");
}
