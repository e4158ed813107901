//! From the contract's units to feet, inches and pounds, for screens. Rounded to what a tape or a load table shows: never
//! for a calculation.

use super::{Unit, read};

/// Eighths of an inch in a foot.
const FOOT_EIGHTHS: u64 = 96;

/// Whole feet and inches to the nearest eighth, as `11' 9 1/8"`; `9"` below a foot.
#[must_use]
pub fn feet_inches(length_m: f64) -> String {
    let Some((sign, eighths)) = eighths(length_m) else {
        return "–".to_owned();
    };
    let (feet, below) = (eighths / FOOT_EIGHTHS, eighths % FOOT_EIGHTHS);
    if feet == 0 {
        format!("{sign}{}", inch_words(below))
    } else {
        format!("{sign}{feet}' {}", inch_words(below))
    }
}

/// Inches to the nearest eighth, as `4 1/8"`.
#[must_use]
pub fn inches(length_mm: f64) -> String {
    eighths(length_mm / 1000.0).map_or_else(
        || "–".to_owned(),
        |(sign, eighths)| format!("{sign}{}", inch_words(eighths)),
    )
}

fn eighths(length_m: f64) -> Option<(&'static str, u64)> {
    let eighths = (length_m.abs() * 80_000.0 / 254.0).round();
    // Beyond this nothing is a length of a house; the cast below stays exact.
    if !eighths.is_finite() || eighths > 1e12 {
        return None;
    }
    let sign = if length_m < 0.0 && eighths > 0.0 { "-" } else { "" };
    Some((sign, eighths as u64))
}

fn inch_words(eighths: u64) -> String {
    let (whole, share) = (eighths / 8, eighths % 8);
    let share = match share {
        0 => return format!("{whole}\""),
        2 => "1/4",
        4 => "1/2",
        6 => "3/4",
        1 => "1/8",
        3 => "3/8",
        5 => "5/8",
        _ => "7/8",
    };
    if whole == 0 {
        format!("{share}\"")
    } else {
        format!("{whole} {share}\"")
    }
}

/// A value of the contract with its customary unit: `1349 lb`, `12.5 psf`, `49 mph`.
#[must_use]
pub fn imperial(value: f64, unit: Unit) -> String {
    // What one of the customary unit is comes from the same table that reads it.
    let (name, decimals) = match unit {
        Unit::Metre => return feet_inches(value),
        Unit::Millimetre => return inches(value),
        Unit::Degree => return format!("{value:.0}°"),
        Unit::Day => return format!("{value:.0} days"),
        Unit::Kilonewton | Unit::Kilogram => ("lb", 0),
        Unit::KilonewtonPerMetre => ("plf", 0),
        Unit::KilogramPerMetre => ("lb/ft", 1),
        Unit::KilonewtonPerSquareMetre => ("psf", 1),
        Unit::Kilopascal => ("psf", 0),
        Unit::NewtonPerSquareMillimetre => ("psi", 0),
        Unit::KilonewtonPerCubicMetre => ("pcf", 0),
        Unit::MetrePerSecond => ("mph", 0),
    };
    match read(&format!("1 {name}"), unit) {
        Ok(one) if value.is_finite() => format!("{:.decimals$} {name}", value / one),
        _ => "–".to_owned(),
    }
}
