//! Names of needles, headers and boards as the contract writes them: `SHS100x100x5 S355`, `UC152x152x23 S275`,
//! `C24 150x150`.

use super::steel::{self, SteelGrade, SteelSection};
use super::timber::{self, TimberGrade};
use serde::Serialize;
use std::fmt;

/// What a needle, header or board is made of.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub enum Member {
    /// A steel section in a grade.
    Steel(SteelSection, SteelGrade),
    /// Solid timber, width by depth in mm.
    Timber {
        /// Strength class.
        grade: TimberGrade,
        /// Width, mm.
        b_mm: f64,
        /// Depth, mm.
        h_mm: f64,
    },
}

impl Member {
    /// Depth, mm.
    #[must_use]
    pub const fn depth_mm(&self) -> f64 {
        match self {
            Self::Steel(section, _) => section.h_mm,
            Self::Timber { h_mm, .. } => *h_mm,
        }
    }

    /// Width, mm.
    #[must_use]
    pub const fn width_mm(&self) -> f64 {
        match self {
            Self::Steel(section, _) => section.b_mm,
            Self::Timber { b_mm, .. } => *b_mm,
        }
    }

    /// Mass, kg/m.
    #[must_use]
    pub const fn mass_kg_m(&self) -> f64 {
        match self {
            Self::Steel(section, _) => section.mass_kg_m,
            Self::Timber { grade, b_mm, h_mm } => grade.rho_mean_kg_m3 * *b_mm * *h_mm * 1e-6,
        }
    }

    /// Bending stiffness E·I about the strong axis, N·mm².
    #[must_use]
    pub fn ei_n_mm2(&self) -> f64 {
        match self {
            Self::Steel(section, _) => steel::E_N_MM2 * section.iy_mm4,
            Self::Timber { grade, b_mm, h_mm } => grade.e0_mean_n_mm2 * b_mm * h_mm.powi(3) / 12.0,
        }
    }

    /// Whether it is steel.
    #[must_use]
    pub const fn is_steel(&self) -> bool {
        matches!(self, Self::Steel(..))
    }
}

/// A member together with its name written in full.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct NamedSection {
    /// Name in full, with the grade.
    pub name: String,
    /// The member.
    pub member: Member,
}

/// A name that is not understood.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct MemberError {
    /// What is wrong.
    pub wrong: String,
    /// What would be right.
    pub right: String,
}

impl fmt::Display for MemberError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}; right would be {}", self.wrong, self.right)
    }
}

impl std::error::Error for MemberError {}

/// Needle sections offered where the catalogue names none.
pub const DEFAULT_CATALOGUE: &[&str] = &[
    "SHS80x80x5 S355",
    "SHS90x90x5 S355",
    "SHS100x100x5 S355",
    "SHS100x100x6.3 S355",
    "SHS100x100x8 S355",
    "SHS120x120x5 S355",
    "SHS120x120x6.3 S355",
    "SHS150x150x6.3 S355",
    "SHS150x150x8 S355",
    "RHS120x80x6.3 S355",
    "RHS150x100x6.3 S355",
    "RHS150x100x8 S355",
    "RHS200x100x8 S355",
    "UB127x76x13 S275",
    "UB152x89x16 S275",
    "UB178x102x19 S275",
    "UB203x102x23 S275",
    "UB203x133x25 S275",
    "UB203x133x30 S275",
    "UC152x152x23 S275",
    "UC152x152x30 S275",
    "UC152x152x37 S275",
    "UC203x203x46 S275",
    "C24 150x150",
];

const RIGHT: &str =
    "a name as SHS100x100x5 S355, RHS150x100x6.3 S355, UC152x152x23 S275, UB178x102x19 S275 or C24 150x150";

/// Reads a member's name. Without a grade open sections are S275 and hollow ones S355.
///
/// # Errors
/// [`MemberError`] with what is wrong and what would be right.
pub fn parse_member(text: &str) -> Result<NamedSection, MemberError> {
    let fail = |wrong: String| MemberError {
        wrong,
        right: RIGHT.to_owned(),
    };
    let mut words = text.split_whitespace();
    let (first, second) = (words.next().unwrap_or(""), words.next());
    if first.is_empty() || words.next().is_some() {
        return Err(fail(format!("“{text}” is not a section's name")));
    }
    if let Some(grade) = timber::grade(first) {
        let numbers = second.map(sizes).unwrap_or_default();
        return match *numbers.as_slice() {
            [b_mm, h_mm] if (20.0..=600.0).contains(&b_mm) && (20.0..=600.0).contains(&h_mm) => Ok(NamedSection {
                name: format!("{} {b_mm}x{h_mm}", grade.name),
                member: Member::Timber {
                    grade: *grade,
                    b_mm,
                    h_mm,
                },
            }),
            _ => Err(fail(format!("“{text}” lacks a timber size between 20 and 600 mm"))),
        };
    }
    let upper = first.to_ascii_uppercase().replace('X', "x");
    let (section, default) = if let Some(open) = steel::open(&upper) {
        (open, "S275")
    } else {
        (
            hollow_by_name(&upper).ok_or_else(|| fail(format!("section “{first}” is not in the table")))?,
            "S355",
        )
    };
    let wanted = second.unwrap_or(default);
    let grade = steel::steel_grade(wanted).ok_or_else(|| fail(format!("steel grade “{wanted}” is not known")))?;
    Ok(NamedSection {
        name: format!("{upper} {}", grade.name),
        member: Member::Steel(section, grade),
    })
}

fn hollow_by_name(upper: &str) -> Option<SteelSection> {
    let (cold, rest) = upper.strip_prefix("CF").map_or((false, upper), |rest| (true, rest));
    let square = rest.starts_with("SHS");
    let rest = rest.strip_prefix("SHS").or_else(|| rest.strip_prefix("RHS"))?;
    match *sizes(rest).as_slice() {
        [h, b, t] => {
            let kind_fits = ((h - b).abs() < 1e-9) == square;
            let usual = (40.0..=400.0).contains(&h) && (40.0..=400.0).contains(&b) && (3.0..=16.0).contains(&t);
            if kind_fits && usual {
                steel::hollow(h, b, t, cold)
            } else {
                None
            }
        }
        _ => None,
    }
}

/// Numbers between the `x` of a size; empty if one of them is not a finite number.
fn sizes(text: &str) -> Vec<f64> {
    let parts: Result<Vec<f64>, _> = text.split(['x', 'X']).map(str::parse::<f64>).collect();
    parts
        .ok()
        .filter(|numbers| numbers.iter().all(|n| n.is_finite()))
        .unwrap_or_default()
}

#[cfg(test)]
mod tests {
    #![expect(clippy::unwrap_used, reason = "a test stops at the first name that is not read")]
    use super::*;

    #[test]
    fn the_whole_catalogue_reads_and_writes_back() {
        for name in DEFAULT_CATALOGUE {
            assert_eq!(parse_member(name).unwrap().name, *name);
        }
    }

    #[test]
    fn grades_are_filled_in() {
        assert_eq!(parse_member("uc152X152x23").unwrap().name, "UC152x152x23 S275");
        assert_eq!(parse_member("shs100x100x5").unwrap().name, "SHS100x100x5 S355");
    }

    #[test]
    fn nonsense_is_refused_with_what_would_be_right() {
        for name in [
            "",
            "SHS",
            "SHS100x100",
            "SHS100x50x5",
            "UC999x1x1",
            "C24",
            "C24 150",
            "C24 inf x nan",
            "SHS100x100x5 S999",
            "RHS150x100x6.3 S355 now",
            "SHS100x100xNaN",
        ] {
            let error = parse_member(name).unwrap_err();
            assert!(
                !error.wrong.is_empty() && error.right.contains("SHS100x100x5"),
                "{name}"
            );
        }
    }
}
