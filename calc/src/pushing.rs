//! The wall over the cut as a continuous beam whose supports only push: a needle under which the wall would lift carries
//! nothing, and the beam is solved again without it.

use crate::clause::NationalParameters;
use crate::demand::{service, strength};
use crate::line::Influence;
use crate::steps::{Shares, Steps};

/// Reactions below nothing by less than this are rounding, kN.
const ROUNDING_KN: f64 = 1e-9;

/// One way of coming down over needles at given axes.
pub struct Pushing<'a> {
    /// Load of each leaf.
    pub leaves: &'a [Steps],
    /// Axes of the needles, in rising order, m.
    pub axes: &'a [f64],
    /// Influence lines over all of them.
    pub beam: &'a Influence,
    /// Cut edges, m: the beam's free ends.
    pub cut: (f64, f64),
    /// Nationally determined values.
    pub national: &'a NationalParameters,
}

/// A stretch of one leaf's load with what of it counts.
struct Stretch {
    leaf: usize,
    from: f64,
    to: f64,
    load: Shares,
}

/// The load with its imposed part times a factor.
fn imposed_times(load: &Shares, factor: f64) -> Shares {
    let mut out = *load;
    for cell in out.0.iter_mut().skip(4) {
        *cell *= factor;
    }
    out
}

impl Pushing<'_> {
    /// Load of each needle per leaf: permanent load in full, imposed load only where it adds. Where the wall would lift off
    /// a needle, one answer for each combination that decides what lifts.
    #[must_use]
    pub fn reactions(&self) -> Vec<Vec<[Shares; 2]>> {
        let n = self.axes.len();
        let mut found = vec![[Shares::default(); 2]; n];
        let mut lifts = false;
        for (i, pair) in found.iter_mut().enumerate() {
            let mut least = Shares::default();
            for (leaf, cell) in self.leaves.iter().zip(pair.iter_mut()) {
                for (from, to, value) in self.over_cut(leaf) {
                    let (plus, minus) = self.beam.integral(i, from, to);
                    *cell = cell.plus(&split(value, plus, minus, plus));
                    // No pattern of the imposed load presses this needle less.
                    least = least.plus(&split(value, plus, minus, minus));
                }
            }
            lifts |= service(&least).min(strength(&least, self.national)) < -ROUNDING_KN;
        }
        if !lifts {
            return found.into_iter().map(|pair| vec![pair]).collect();
        }
        (0..n)
            .map(|i| {
                let pattern = self.pattern(i);
                [
                    self.without_lifted(i, &pattern, service),
                    self.without_lifted(i, &pattern, |load| strength(load, self.national)),
                ]
                .into_iter()
                // Where nothing stable is left, what was found with all supports stands.
                .map(|pair| pair.unwrap_or_else(|| found.get(i).copied().unwrap_or_default()))
                .collect()
            })
            .collect()
    }

    fn over_cut<'s>(&self, steps: &'s Steps) -> impl Iterator<Item = (f64, f64, &'s Shares)> {
        let (left, right) = self.cut;
        steps
            .intervals()
            .map(move |(from, to, value)| (from.max(left), to.min(right), value))
            .filter(|(from, to, _)| to > from)
    }

    /// What presses needle `i` most: imposed load only where its influence is positive.
    fn pattern(&self, i: usize) -> Vec<Stretch> {
        let mut out = Vec::new();
        for (leaf, steps) in self.leaves.iter().enumerate() {
            for (from, to, value) in self.over_cut(steps) {
                self.beam.by_pieces(i, from, to, |from, to, part| {
                    let load = imposed_times(value, if part >= 0.0 { 1.0 } else { 0.0 });
                    out.push(Stretch { leaf, from, to, load });
                });
            }
        }
        out
    }

    /// Load of needle `i` per leaf under a pattern, with the needles left out under which the wall lifts; none where no
    /// stable beam is left.
    fn without_lifted(&self, i: usize, pattern: &[Stretch], combine: impl Fn(&Shares) -> f64) -> Option<[Shares; 2]> {
        let mut alive: Vec<(usize, f64)> = self.axes.iter().copied().enumerate().collect();
        loop {
            let places: Vec<f64> = alive.iter().map(|(_, x)| *x).collect();
            let beam = Influence::of(&places);
            let whole = |k: usize, stretch: &Stretch| {
                let (plus, minus) = beam.integral(k, stretch.from, stretch.to);
                plus + minus
            };
            let lifted = (0..alive.len())
                .map(|k| {
                    let parts = pattern.iter().map(|s| combine(&s.load) * whole(k, s));
                    (k, parts.sum::<f64>())
                })
                .filter(|(_, reaction)| *reaction < -ROUNDING_KN)
                .min_by(|a, b| a.1.total_cmp(&b.1));
            if let Some((k, _)) = lifted {
                if alive.len() <= 2 {
                    return None;
                }
                alive.remove(k);
                continue;
            }
            let mut out = [Shares::default(); 2];
            let Some(k) = alive.iter().position(|(needle, _)| *needle == i) else {
                return Some(out);
            };
            for stretch in pattern {
                if let Some(cell) = out.get_mut(stretch.leaf) {
                    *cell = cell.plus(&stretch.load.times(whole(k, stretch)));
                }
            }
            return Some(out);
        }
    }
}

/// A load times the whole of an influence line, its imposed part times a part of it.
fn split(load: &Shares, plus: f64, minus: f64, imposed: f64) -> Shares {
    let mut out = load.times(plus + minus);
    for (cell, value) in out.0.iter_mut().zip(load.0).skip(4) {
        *cell = value * imposed;
    }
    out
}
