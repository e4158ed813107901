//! Nominal characteristic strength of props by class.

use crate::source::{Seen, Source};
use serde::Serialize;

/// Source of [`prop_nominal_en1065`].
pub const SOURCE: Source = Source::new(
    "EN 1065:1998",
    "clause 8, nominal characteristic strength",
    Seen::Secondary("public notes (classes A, B, D, E); class C and the upper limits of A, B and C from memory"),
);

/// Divisor from characteristic strength to working load.
pub const DIVISOR: f64 = 1.65;

/// Divisor's source.
pub const DIVISOR_SOURCE: Source = Source::new(
    "EN 1065 props in use",
    "characteristic strength ÷ 1.65",
    Seen::Secondary("public notes"),
);

/// Class of a prop.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[allow(missing_docs, reason = "the letters are the standard's own")]
pub enum Class {
    A,
    B,
    C,
    D,
    E,
}

/// Class and longest length, as `B35`.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct ClassOfProp {
    /// The letter.
    pub class: Class,
    /// Longest length, m.
    pub l_max_m: f64,
}

/// Reads a class as `B35`: a letter A to E and the longest length in decimetres, 20 to 60.
#[must_use]
pub fn parse(text: &str) -> Option<ClassOfProp> {
    let text = text.trim();
    let class = match text.chars().next()?.to_ascii_uppercase() {
        'A' => Class::A,
        'B' => Class::B,
        'C' => Class::C,
        'D' => Class::D,
        'E' => Class::E,
        _ => return None,
    };
    let decimetres: u8 = text.get(1..)?.parse().ok()?;
    (20..=60).contains(&decimetres).then(|| ClassOfProp {
        class,
        l_max_m: f64::from(decimetres) / 10.0,
    })
}

/// Result of [`prop_nominal_en1065`].
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct NominalResult {
    /// Upper limit, kN.
    pub cap_kn: f64,
    /// Nominal characteristic strength R_y,k, kN.
    pub ryk_kn: f64,
    /// The same divided by 1.65, kN.
    pub allowable_kn: f64,
}

/// Nominal characteristic strength at a length: A 51.0·l_max/l² ≤ 44, B 68.0·l_max/l² ≤ 51, C 102.0·l_max/l² ≤ 59.5, D 34 and
/// E 51 at every length, kN; lengths in m.
#[must_use]
pub fn prop_nominal_en1065(prop: ClassOfProp, l_m: f64) -> NominalResult {
    let by_length = |factor: f64| factor * prop.l_max_m / (l_m * l_m);
    let (value, cap_kn) = match prop.class {
        Class::A => (by_length(51.0), 44.0),
        Class::B => (by_length(68.0), 51.0),
        Class::C => (by_length(102.0), 59.5),
        Class::D => (34.0, 34.0),
        Class::E => (51.0, 51.0),
    };
    let ryk_kn = value.min(cap_kn);
    NominalResult {
        cap_kn,
        ryk_kn,
        allowable_kn: ryk_kn / DIVISOR,
    }
}

impl NominalResult {
    /// The derivation, line by line.
    #[must_use]
    pub fn steps(&self) -> Vec<String> {
        vec![
            format!("R_y,k = {:.3} kN (upper limit {:.1} kN)", self.ryk_kn, self.cap_kn),
            format!("R_y,k / {DIVISOR} = {:.3} kN", self.allowable_kn),
        ]
    }
}

/// Least dimensions the standard asks for, told by a public page on it: wall of the tubes of class A and of the others, pin,
/// end plates of A, B, D and of C, E, mm.
pub const LEAST_DETAILS_MM: [f64; 5] = [2.3, 2.6, 13.0, 6.0, 8.0];
