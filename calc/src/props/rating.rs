//! Working load of a prop at a length in a state.

use super::data::{ECCENTRICITY_LIMIT_MM, LoadKind, PropData, Refusal, Sheet, State};
use super::en1065::{self, Class, DIVISOR, prop_nominal_en1065};
use super::{strut, tn79};
use crate::source::Source;
use serde::Serialize;

/// Working load of a prop in a state, and how it comes about.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Rating {
    /// Load that may stand on the prop in this state at service, kN.
    pub working_load_kn: f64,
    /// What is left of the tabulated load in this state, at most 1.
    pub kappa: f64,
    /// Load of the table, sheet or class at this length, as a working load, kN.
    pub table_kn: f64,
    /// State that this load assumes.
    pub basis: State,
    /// Strut's load at first yield in the state, kN.
    pub r_state_kn: f64,
    /// Strut's load at first yield in the basis, kN.
    pub r_basis_kn: f64,
    /// Whether a measured state is within 25 mm off centre and 25 mm per m of lean.
    pub in_basis: bool,
    /// Whether it is more than 25 mm off centre.
    pub off_centre: bool,
    /// Whether it leans more than 25 mm per m.
    pub leaning: bool,
    /// Whether the strut's own resistance over 1.65 governs.
    pub capped_by_strut: bool,
    /// Where the load comes from.
    pub source: Source,
}

/// Tabulated load at a length: the next taller row, linear only where two rows stand at most 100 mm apart.
fn sheet_row(sheet: &Sheet, length_m: f64) -> Option<f64> {
    let taller = sheet
        .table
        .iter()
        .filter(|(l, _)| *l >= length_m - 1e-6)
        .min_by(|a, b| a.0.total_cmp(&b.0))?;
    let shorter = sheet
        .table
        .iter()
        .filter(|(l, _)| *l < length_m - 1e-6)
        .max_by(|a, b| a.0.total_cmp(&b.0));
    let load = match shorter {
        Some((l, load)) if taller.0 - l <= 0.1 + 1e-9 => load + (taller.1 - load) * (length_m - l) / (taller.0 - l),
        _ => taller.1,
    };
    Some(match sheet.load {
        LoadKind::SafeWorking => load,
        LoadKind::Characteristic => load / DIVISOR,
    })
}

/// Whether a basis is concentric with 1.5° of lean.
fn is_concentric_leaning(basis: &State) -> bool {
    basis.eccentricity_mm() < 1e-9 && (basis.lean_total_mm_m() - super::data::lean_mm_m(tn79::LEAN_DEG)).abs() < 0.5
}

/// Whether a state is the one of the concentric table: nothing off centre, no more than 1.5° of lean.
fn is_concentric(state: &State) -> bool {
    state.eccentricity_mm() < 1e-9 && !state.beyond()
}

/// What is left of a load that assumes concentric loading and 1.5°: the model's ratio, lowered by as much as the technical
/// note's own ratio lies below the model's at 25 mm, in proportion to the eccentricity up to 25 mm.
fn kappa_from_concentric(
    data: &PropData,
    length_m: f64,
    state: &State,
    r_state: f64,
    r_basis: f64,
) -> Result<f64, Refusal> {
    let model = (r_state / r_basis).min(1.0);
    let Some(note) = tn79::own_ratio(length_m) else {
        return Ok(model);
    };
    let eccentric = State::new(tn79::ECCENTRICITY_MM, 0.0, tn79::LEAN_DEG);
    let at_25 = data.strut(length_m, &eccentric)?.first_yield_kn() / r_basis;
    let shortfall = 1.0 - (note / at_25).min(1.0);
    Ok(model * (1.0 - shortfall * (state.eccentricity_mm() / ECCENTRICITY_LIMIT_MM).min(1.0)))
}

/// Working load of a prop at a length in a state.
///
/// κ = R(state)/R(basis), at most 1, times the tabulated load; the table for the very state where there is one and never
/// above it; beyond 25 mm or 1.5° not above R(state)/1.65. Classes D and E: the lesser of class load and R(state), over 1.65.
///
/// # Errors
/// [`Refusal`] for a length outside the prop's range or above its table, an unknown size, numbers that are none.
pub fn rate(data: &PropData, length_m: f64, state: &State) -> Result<Rating, Refusal> {
    let (min_m, max_m) = data.range_m()?;
    let strut = data.strut(length_m, state)?;
    if !(min_m - 1e-6..=max_m + 1e-6).contains(&length_m) {
        return Err(Refusal::OutOfRange { length_m, min_m, max_m });
    }
    let r_state = strut.first_yield_kn();
    let no_row = Refusal::NoRow { length_m };
    let own_basis = data.basis();
    let r_own = data.strut(length_m, &own_basis)?.first_yield_kn();
    if r_own <= 0.0 {
        return Err(Refusal::NoStrut);
    }
    let plain = (r_state / r_own).min(1.0);
    let (table_kn, basis, r_basis, kappa, source) = match data {
        PropData::Tn79(size) => {
            let (_, eccentric) = tn79::next_taller(tn79::rows(*size, false), length_m).ok_or(no_row)?;
            let concentric = tn79::next_taller(tn79::rows(*size, true), length_m).filter(|_| is_concentric(state));
            match concentric {
                Some((_, load)) => {
                    let basis = State::new(0.0, 0.0, tn79::LEAN_DEG);
                    let r_basis = data.strut(length_m, &basis)?.first_yield_kn();
                    (load, basis, r_basis, (r_state / r_basis).min(1.0), tn79::SOURCE)
                }
                // A state between both tables gets no more than the eccentric one.
                None => (eccentric, own_basis, r_own, plain, tn79::SOURCE),
            }
        }
        PropData::En1065(prop) => {
            let nominal = prop_nominal_en1065(*prop, length_m);
            let kappa = match prop.class {
                Class::D | Class::E => (r_state / nominal.ryk_kn).min(1.0),
                Class::A | Class::B | Class::C => plain,
            };
            (nominal.allowable_kn, own_basis, r_own, kappa, en1065::SOURCE)
        }
        PropData::Sheet(sheet) => {
            let load = sheet_row(sheet, length_m).ok_or(no_row)?;
            let kappa = if is_concentric_leaning(&own_basis) {
                kappa_from_concentric(data, length_m, state, r_state, r_own)?
            } else {
                plain
            };
            (load, own_basis, r_own, kappa, super::bracket::SHEET_SOURCE)
        }
    };
    let scaled = kappa * table_kn;
    let cap = r_state / DIVISOR;
    let capped_by_strut = state.beyond() && cap < scaled;
    Ok(Rating {
        working_load_kn: if capped_by_strut { cap } else { scaled },
        kappa,
        table_kn,
        basis,
        r_state_kn: r_state,
        r_basis_kn: r_basis,
        in_basis: state.in_basis(),
        off_centre: state.eccentricity_mm() > ECCENTRICITY_LIMIT_MM + 1e-9,
        leaning: state.lean_total_mm_m() > super::data::LEAN_LIMIT_MM_M + 1e-9,
        capped_by_strut,
        source,
    })
}

impl Rating {
    /// The derivation, line by line.
    #[must_use]
    pub fn steps(&self) -> Vec<String> {
        let mut steps = vec![
            format!(
                "working load {:.2} kN, for {:.0} mm off centre at the head, {:.0} mm at the foot, {:.1} mm per m of lean",
                self.table_kn,
                self.basis.head_mm,
                self.basis.foot_mm,
                self.basis.lean_total_mm_m()
            ),
            format!(
                "strut with {} of its length tan(lean) at both ends: first yield at {:.2} kN in this state, {:.2} kN in that",
                strut::LEAN_SHARE,
                self.r_state_kn,
                self.r_basis_kn
            ),
            format!(
                "κ = {:.3}: {:.3} × {:.2} = {:.2} kN",
                self.kappa,
                self.kappa,
                self.table_kn,
                self.kappa * self.table_kn
            ),
        ];
        if self.source == tn79::SOURCE && self.basis.head_mm > 0.0 {
            steps.push(format!(
                "the table stands as published; the strut over {DIVISOR} gives {:.2} kN in its basis",
                self.r_basis_kn / DIVISOR
            ));
        }
        if self.capped_by_strut {
            steps.push(format!(
                "beyond 25 mm or 1.5°: not above R/{DIVISOR} = {:.2} kN",
                self.working_load_kn
            ));
        }
        steps
    }
}
