//! A beam with free ends on rigid or springy supports that can only push.
//!
//! Hermite elements between all supports, loads' ends and beam's ends; exact at the nodes for uniform and point loads.

mod band;
mod solve;

use crate::source::{Seen, Source};
use serde::Serialize;
use solve::{largest_deflection, moments, solve};

/// Source of [`beam_reactions`].
pub const SOURCE: Source = Source::new(
    "elastic beam on discrete supports",
    "displacement method, supports that pull are released",
    Seen::Library("PyNiteFEA 3.2.0 and anastruct 1.7.0"),
);

/// A support.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Support {
    /// Place, m.
    pub x_m: f64,
    /// Stiffness, kN/m; infinite for a rigid support.
    pub k_kn_m: f64,
}

/// A load, downwards positive.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum BeamLoad {
    /// Uniform over a stretch.
    Uniform {
        /// From, m.
        from_m: f64,
        /// To, m.
        to_m: f64,
        /// kN/m.
        w_kn_m: f64,
    },
    /// At a place.
    Point {
        /// Place, m.
        x_m: f64,
        /// kN.
        p_kn: f64,
    },
}

/// Why there is no answer.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub enum BeamError {
    /// Too few supports, or none that pushes: nothing holds the beam.
    Mechanism,
    /// A number is not finite, a support or load lies off the beam, or stiffness is not above zero.
    BadInput,
}

/// The beam's answer.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct BeamResult {
    /// Reaction of each support, kN; 0 where it would pull.
    pub r_kn: Vec<f64>,
    /// Largest sagging moment, kNm.
    pub m_sag_kn_m: f64,
    /// Largest hogging moment, kNm.
    pub m_hog_kn_m: f64,
    /// Largest deflection either way, mm.
    pub d_max_mm: f64,
}

fn sound(length_m: f64, ei: f64, supports: &[Support], loads: &[BeamLoad]) -> bool {
    let on_beam = |x: f64| (-1e-9..=length_m + 1e-9).contains(&x);
    let supports_fit = supports.iter().all(|s| on_beam(s.x_m) && s.k_kn_m > 0.0);
    let loads_fit = loads.iter().all(|load| match *load {
        BeamLoad::Uniform { from_m, to_m, w_kn_m } => {
            on_beam(from_m) && on_beam(to_m) && from_m <= to_m && w_kn_m.is_finite()
        }
        BeamLoad::Point { x_m, p_kn } => on_beam(x_m) && p_kn.is_finite(),
    });
    length_m > 0.0 && length_m.is_finite() && ei > 0.0 && ei.is_finite() && supports_fit && loads_fit
}

/// Reactions, moments and deflection of a beam with free ends under all loads together; with `push_only` a support that would
/// pull is released, worst first, and the beam solved again.
///
/// # Errors
/// [`BeamError::Mechanism`] when nothing holds the beam; [`BeamError::BadInput`] for numbers that make no beam.
pub fn beam_reactions(
    length_m: f64,
    ei_kn_m2: f64,
    supports: &[Support],
    loads: &[BeamLoad],
    push_only: bool,
) -> Result<BeamResult, BeamError> {
    if !sound(length_m, ei_kn_m2, supports, loads) {
        return Err(BeamError::BadInput);
    }
    let mut on = vec![true; supports.len()];
    let solved = loop {
        let solved = solve(length_m, ei_kn_m2, supports, &on, loads).ok_or(BeamError::Mechanism)?;
        let largest = solved.reactions.iter().fold(0.0_f64, |a, r| a.max(r.abs()));
        let worst = solved
            .reactions
            .iter()
            .enumerate()
            .filter(|(_, r)| **r < -1e-7 * largest)
            .min_by(|a, b| a.1.total_cmp(b.1))
            .map(|(i, _)| i);
        match worst.and_then(|i| on.get_mut(i)) {
            Some(pulling) if push_only => *pulling = false,
            _ => break solved,
        }
    };
    let (m_sag_kn_m, m_hog_kn_m) = moments(length_m, supports, &solved.reactions, loads);
    let d_max_mm = largest_deflection(&solved, ei_kn_m2, loads);
    Ok(BeamResult {
        r_kn: solved.reactions,
        m_sag_kn_m,
        m_hog_kn_m,
        d_max_mm,
    })
}

/// Reactions of each support for each load alone, all supports holding both ways: `[load][support]`, kN.
///
/// The sum over all loads gives the reactions; picking the positive shares of imposed load gives each support's largest.
///
/// # Errors
/// As [`beam_reactions`].
pub fn reactions_by_load(
    length_m: f64,
    ei_kn_m2: f64,
    supports: &[Support],
    loads: &[BeamLoad],
) -> Result<Vec<Vec<f64>>, BeamError> {
    if !sound(length_m, ei_kn_m2, supports, loads) {
        return Err(BeamError::BadInput);
    }
    let on = vec![true; supports.len()];
    loads
        .iter()
        .map(|load| {
            solve(length_m, ei_kn_m2, supports, &on, std::slice::from_ref(load))
                .map(|solved| solved.reactions)
                .ok_or(BeamError::Mechanism)
        })
        .collect()
}

impl BeamResult {
    /// The derivation, line by line.
    #[must_use]
    pub fn steps(&self) -> Vec<String> {
        let reactions: Vec<String> = self.r_kn.iter().map(|r| format!("{r:.3}")).collect();
        vec![
            format!("reactions {} kN", reactions.join(", ")),
            format!(
                "M {:.3} sagging, {:.3} hogging kNm; deflection {:.4} mm",
                self.m_sag_kn_m, self.m_hog_kn_m, self.d_max_mm
            ),
        ]
    }
}

#[cfg(test)]
mod tests;
