//! What is known of a prop, and the state it stands in.

use super::en1065::{Class, ClassOfProp};
pub use super::state::{ECCENTRICITY_LIMIT_MM, LEAN_LIMIT_MM_M, LIMITS_SOURCE, State, lean_mm_m};
use super::strut::{self, Strut, Tube};
use super::tn79;
use crate::source::{Seen, Source};
use serde::Serialize;
use std::fmt;

/// Source of the tubes assumed where they are not known.
pub const TUBES_SOURCE: Source = Source::new(
    "tubes of adjustable steel props",
    "by class and trade size",
    Seen::Memory,
);

/// Tubes and closed length of a prop.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Tubes {
    /// Outer tube, diameter and thickness, mm.
    pub outer_mm: [f64; 2],
    /// Inner tube, diameter and thickness, mm.
    pub inner_mm: [f64; 2],
    /// Closed length of the prop, m.
    pub closed_m: f64,
}

/// Kind of load that a sheet states.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub enum LoadKind {
    /// Safe working load, taken as stated.
    SafeWorking,
    /// Characteristic strength, divided by 1.65.
    Characteristic,
}

/// A maker's sheet as typed in.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Sheet {
    /// Length in m and load in kN, in any order.
    pub table: Vec<(f64, f64)>,
    /// What the loads are.
    pub load: LoadKind,
    /// State that the loads assume; not stated means 10 mm at both ends and upright.
    pub basis: Option<State>,
    /// Shortest length, m.
    pub min_m: f64,
    /// Longest length, m.
    pub max_m: f64,
    /// Tubes where they are known.
    pub tubes: Option<Tubes>,
}

/// What is known of a prop.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub enum PropData {
    /// Trade size 0 to 4.
    Tn79(u8),
    /// Class by EN 1065.
    En1065(ClassOfProp),
    /// A maker's sheet.
    Sheet(Sheet),
}

/// Why no working load is given.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub enum Refusal {
    /// The prop does not reach that length, or does not close to it.
    OutOfRange {
        /// Length asked for, m.
        length_m: f64,
        /// Shortest length, m.
        min_m: f64,
        /// Longest length, m.
        max_m: f64,
    },
    /// The table has no row as tall as that.
    NoRow {
        /// Length asked for, m.
        length_m: f64,
    },
    /// There is no such size.
    UnknownSize,
    /// The state or the length is not a finite number.
    NotFinite,
    /// The tubes given make no strut.
    NoStrut,
}

impl Refusal {
    /// Stable code.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::OutOfRange { .. } => "prop_out_of_range",
            Self::NoRow { .. } => "prop_no_row",
            Self::UnknownSize => "prop_unknown_size",
            Self::NotFinite => "prop_not_finite",
            Self::NoStrut => "prop_no_strut",
        }
    }
}

impl fmt::Display for Refusal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::OutOfRange { length_m, min_m, max_m } => {
                write!(f, "{length_m:.2} m is outside this prop's {min_m:.2} to {max_m:.2} m")
            }
            Self::NoRow { length_m } => write!(f, "the table has no row at or above {length_m:.2} m"),
            Self::UnknownSize => f.write_str("there is no such trade size"),
            Self::NotFinite => f.write_str("length and state must be finite numbers"),
            Self::NoStrut => f.write_str("the tubes given make no strut: diameter and wall in mm, closed length in m"),
        }
    }
}

impl std::error::Error for Refusal {}

/// Closed length as a share of the longest one where it is not known.
const CLOSED_SHARE: f64 = 0.58;
/// The outer tube is shorter than the closed prop by this, m.
const OUTER_SHORTER_M: f64 = 0.1;
/// Adjustment that must be left at both ends, m.
pub const ADJUSTMENT_LEFT_M: f64 = 0.05;

impl PropData {
    /// Shortest and longest length, m.
    ///
    /// # Errors
    /// [`Refusal::UnknownSize`] for a trade size above 4.
    pub fn range_m(&self) -> Result<(f64, f64), Refusal> {
        match self {
            Self::Tn79(size) => tn79::range_m(*size).ok_or(Refusal::UnknownSize),
            Self::En1065(prop) => Ok((CLOSED_SHARE * prop.l_max_m, prop.l_max_m)),
            Self::Sheet(sheet) => Ok((sheet.min_m, sheet.max_m)),
        }
    }

    /// Lengths that leave at least 50 mm of adjustment at both ends, m.
    ///
    /// # Errors
    /// As [`PropData::range_m`].
    pub fn usable_m(&self) -> Result<(f64, f64), Refusal> {
        let (min_m, max_m) = self.range_m()?;
        Ok((min_m + ADJUSTMENT_LEFT_M, max_m - ADJUSTMENT_LEFT_M))
    }

    /// Tubes: the maker's where known, else by class and size.
    ///
    /// # Errors
    /// As [`PropData::range_m`].
    pub fn tubes(&self) -> Result<Tubes, Refusal> {
        let (min_m, max_m) = self.range_m()?;
        let (outer_mm, inner_mm, closed_m) = match self {
            Self::Tn79(_) => ([60.3, 3.2], [48.3, 4.0], min_m),
            Self::Sheet(Sheet { tubes: Some(tubes), .. }) => return Ok(*tubes),
            Self::Sheet(_) => ([60.3, 3.2], [48.3, 4.0], CLOSED_SHARE * max_m),
            Self::En1065(prop) => {
                let (outer, inner) = match prop.class {
                    Class::A => ([57.0, 3.2], [48.3, 3.2]),
                    Class::B => ([60.3, 3.2], [48.3, 4.0]),
                    Class::C => ([70.0, 3.2], [60.3, 3.2]),
                    Class::D | Class::E => ([76.1, 3.2], [60.3, 4.0]),
                };
                (outer, inner, CLOSED_SHARE * max_m)
            }
        };
        Ok(Tubes {
            outer_mm,
            inner_mm,
            closed_m,
        })
    }

    /// State that the data's loads assume.
    #[must_use]
    pub fn basis(&self) -> State {
        match self {
            Self::Tn79(_) => State::new(tn79::ECCENTRICITY_MM, 0.0, tn79::LEAN_DEG),
            Self::Sheet(Sheet { basis: Some(basis), .. }) => *basis,
            Self::Sheet(_) | Self::En1065(_) => State::new(10.0, 10.0, 0.0),
        }
    }

    /// The strut that this prop makes at a length in a state.
    ///
    /// # Errors
    /// [`Refusal::NotFinite`] for numbers that are none; as [`PropData::range_m`].
    pub fn strut(&self, length_m: f64, state: &State) -> Result<Strut, Refusal> {
        let tubes = self.tubes()?;
        let lean = state.lean_total_mm_m();
        if !(length_m.is_finite() && length_m > 0.0 && lean.is_finite() && state.eccentricity_mm().is_finite()) {
            return Err(Refusal::NotFinite);
        }
        let ([od, ot], [id, it]) = (tubes.outer_mm, tubes.inner_mm);
        let length_mm = length_m * 1e3;
        // A length at or below the outer tube's own (a sheet with an odd closed length) leaves a stub of inner tube.
        let outer_mm = ((tubes.closed_m - OUTER_SHORTER_M) * 1e3).clamp(0.05 * length_mm, 0.99 * length_mm);
        let from_lean = strut::LEAN_SHARE * length_m * lean;
        Ok(Strut {
            outer: Tube::round(od, ot),
            inner: Tube::round(id, it),
            outer_mm,
            inner_mm: length_mm - outer_mm,
            e_foot_mm: state.foot_mm.abs() + from_lean,
            e_head_mm: state.head_mm.abs() + from_lean,
            bow_mm: length_mm * strut::BOW,
            e_n_mm2: strut::E_N_MM2,
            fy_n_mm2: strut::FY_N_MM2,
        })
    }

    /// Kind of data, in the contract's words.
    #[must_use]
    pub const fn kind(&self) -> &'static str {
        match self {
            Self::Tn79(_) => "tn79",
            Self::En1065(_) => "en1065",
            Self::Sheet(_) => "sheet",
        }
    }

    /// Size or class, `sheet` for a sheet.
    #[must_use]
    pub fn size(&self) -> String {
        match self {
            Self::Tn79(size) => size.to_string(),
            Self::En1065(prop) => format!("{:?}{:.0}", prop.class, prop.l_max_m * 10.0),
            Self::Sheet(_) => "sheet".to_owned(),
        }
    }

    /// Mass, kg: the tubes' steel with 0.3 m of lap, two plates 150 × 150 × 6 and 1.5 kg of collar, pin and nut. Own estimate.
    ///
    /// # Errors
    /// As [`PropData::range_m`].
    pub fn mass_kg(&self) -> Result<f64, Refusal> {
        let (tubes, (_, max_m)) = (self.tubes()?, self.range_m()?);
        let ([od, ot], [id, it]) = (tubes.outer_mm, tubes.inner_mm);
        let outer_m = (tubes.closed_m - OUTER_SHORTER_M).max(0.3);
        let inner_m = (max_m - outer_m + 0.3).max(0.3);
        let steel = Tube::round(od, ot).area_mm2 * outer_m + Tube::round(id, it).area_mm2 * inner_m;
        Ok(steel * 7.85e-3 + 2.0 * 0.15 * 0.15 * 0.006 * 7850.0 + 1.5)
    }
}
