//! A beam on a line of props under real point loads: the comb of joists on a header, the needles on a runner.
//!
//! Imposed load stands where it makes each effect largest, by span of the header; the comb of joists is shifted over one
//! spacing, because nobody knows beforehand how the joists fall over the props.

use crate::clause::beam::{BeamLoad, Support, beam_reactions};

/// Shifts of the comb within one joist spacing.
const SHIFTS: u32 = 8;

/// A point load.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PointLoad {
    /// Place from the beam's left end, m.
    pub x_m: f64,
    /// Permanent, kN.
    pub g_kn: f64,
    /// Imposed, kN.
    pub q_kn: f64,
}

/// A beam on props.
#[derive(Clone, Debug, PartialEq)]
pub struct OnProps {
    /// Length of the beam, m.
    pub length_m: f64,
    /// Prop axes from its left end, m.
    pub props_m: Vec<f64>,
    /// Its own weight, kN/m.
    pub weight_kn_m: f64,
}

/// Largest effects over all ways the loads may stand.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Effects {
    /// Largest sagging or hogging moment, kNm.
    pub moment_kn_m: f64,
    /// Largest shear force, kN.
    pub shear_kn: f64,
    /// Largest load of each prop, kN.
    pub props_kn: Vec<f64>,
    /// Largest deflection times E·I, kN·m³.
    pub deflection_kn_m3: f64,
    /// Largest sum of all loads, kN.
    pub total_kn: f64,
}

impl Effects {
    /// Largest load of one prop, kN.
    #[must_use]
    pub fn largest_prop_kn(&self) -> f64 {
        self.props_kn.iter().copied().fold(0.0, f64::max)
    }

    fn take(&mut self, other: &Self) {
        self.moment_kn_m = self.moment_kn_m.max(other.moment_kn_m);
        self.shear_kn = self.shear_kn.max(other.shear_kn);
        self.deflection_kn_m3 = self.deflection_kn_m3.max(other.deflection_kn_m3);
        self.total_kn = self.total_kn.max(other.total_kn);
        self.props_kn.resize(other.props_kn.len().max(self.props_kn.len()), 0.0);
        for (mine, theirs) in self.props_kn.iter_mut().zip(&other.props_kn) {
            *mine = mine.max(*theirs);
        }
    }
}

/// Effects at service and at strength.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Both {
    /// G + Q.
    pub service: Effects,
    /// With partial factors.
    pub strength: Effects,
}

/// Effects of the given loads where they stand, with the partial factors of permanent and imposed load at strength; none
/// where nothing holds the beam.
#[must_use]
pub fn effects(beam: &OnProps, loads: &[PointLoad], factors: (f64, f64)) -> Option<Both> {
    Some(Both {
        service: with_factors(beam, loads, (1.0, 1.0))?,
        strength: with_factors(beam, loads, factors)?,
    })
}

/// Effects of a comb of equal loads at a spacing, shifted over one spacing: each effect at its worst shift.
#[must_use]
pub fn comb_effects(beam: &OnProps, spacing_m: f64, g_kn: f64, q_kn: f64, factors: (f64, f64)) -> Option<Both> {
    Some(Both {
        service: comb_with(beam, spacing_m, (g_kn, q_kn), (1.0, 1.0))?,
        strength: comb_with(beam, spacing_m, (g_kn, q_kn), factors)?,
    })
}

/// The same by one combination: factors of permanent and imposed load.
#[must_use]
pub fn comb_with(beam: &OnProps, spacing_m: f64, (g_kn, q_kn): (f64, f64), factors: (f64, f64)) -> Option<Effects> {
    let mut out = Effects::default();
    for shift in 0..SHIFTS {
        let first = spacing_m * f64::from(shift) / f64::from(SHIFTS);
        let count = ((beam.length_m - first) / spacing_m + 1e-9).floor().max(-1.0) as i32 + 1;
        let loads: Vec<PointLoad> = (0..count)
            .map(|k| PointLoad {
                x_m: (first + f64::from(k) * spacing_m).min(beam.length_m),
                g_kn,
                q_kn,
            })
            .collect();
        out.take(&with_factors(beam, &loads, factors)?);
    }
    Some(out)
}

/// Span that a place lies in: 0 left of the first prop, then one more behind each prop.
fn span_of(beam: &OnProps, x_m: f64) -> usize {
    beam.props_m.iter().filter(|prop| **prop <= x_m).count()
}

/// Which spans carry imposed load: all, every second one either way, and for each prop its two neighbours with every
/// second one beyond, which is where its load and the hogging over it are largest.
fn patterns(spans: usize, props: usize) -> Vec<Vec<bool>> {
    let mut out = vec![vec![true; spans]];
    for parity in 0..2 {
        out.push((0..spans).map(|i| i % 2 == parity).collect());
    }
    for prop in 0..props {
        let (left, right) = (prop, prop + 1);
        out.push(
            (0..spans)
                .map(|i| {
                    if i <= left {
                        (left - i).is_multiple_of(2)
                    } else {
                        (i - right).is_multiple_of(2)
                    }
                })
                .collect(),
        );
    }
    out
}

fn with_factors(beam: &OnProps, loads: &[PointLoad], (g, q): (f64, f64)) -> Option<Effects> {
    let supports: Vec<Support> = beam
        .props_m
        .iter()
        .map(|x_m| Support {
            x_m: *x_m,
            k_kn_m: f64::INFINITY,
        })
        .collect();
    let mut out = Effects::default();
    for pattern in patterns(supports.len() + 1, supports.len()) {
        let mut all: Vec<BeamLoad> = loads
            .iter()
            .map(|load| {
                let on = pattern.get(span_of(beam, load.x_m)).copied().unwrap_or(true);
                BeamLoad::Point {
                    x_m: load.x_m,
                    p_kn: g * load.g_kn + if on { q * load.q_kn } else { 0.0 },
                }
            })
            .collect();
        all.push(BeamLoad::Uniform {
            from_m: 0.0,
            to_m: beam.length_m,
            w_kn_m: g * beam.weight_kn_m,
        });
        // E·I of 1 kN·m² scales the deflection only: the props are taken as rigid.
        let found = beam_reactions(beam.length_m, 1.0, &supports, &all, true).ok()?;
        out.take(&Effects {
            moment_kn_m: found.m_sag_kn_m.max(found.m_hog_kn_m),
            shear_kn: largest_shear_kn(&supports, &found.r_kn, &all),
            total_kn: found.r_kn.iter().sum(),
            props_kn: found.r_kn,
            deflection_kn_m3: found.d_max_mm / 1000.0,
        });
    }
    Some(out)
}

/// Largest shear force beside any support, by statics from the left, kN. Shear is largest there, since it only falls
/// between two supports.
#[must_use]
pub fn largest_shear_kn(supports: &[Support], reactions_kn: &[f64], loads: &[BeamLoad]) -> f64 {
    let before = |x: f64, with: bool| -> f64 {
        loads
            .iter()
            .map(|load| match *load {
                BeamLoad::Uniform { from_m, to_m, w_kn_m } => w_kn_m * (to_m.min(x) - from_m).max(0.0),
                BeamLoad::Point { x_m, p_kn } if x_m < x - 1e-9 || (with && x_m <= x + 1e-9) => p_kn,
                BeamLoad::Point { .. } => 0.0,
            })
            .sum()
    };
    let mut pushed = 0.0;
    let mut largest = 0.0_f64;
    for (support, reaction) in supports.iter().zip(reactions_kn) {
        largest = largest.max((pushed - before(support.x_m, false)).abs());
        // A load right over the support counts on either side of it, whichever is worse.
        largest = largest.max((pushed - before(support.x_m, true)).abs());
        pushed += reaction;
        largest = largest.max((pushed - before(support.x_m, true)).abs());
    }
    largest
}
