//! What each needle carries: by the lever rule and as a continuous beam, whichever is larger.

use crate::clause::NationalParameters;
use crate::line::Influence;
use crate::lone::{Lone, Over};
use crate::pushing::Pushing;
use crate::steps::{Shares, Steps};
use crate::takedown::TakeDown;

/// Strength combination, EN 1990 Eq. (6.10), all imposed load in full: γ_G G + γ_Q Q.
#[must_use]
pub fn strength(load: &Shares, national: &NationalParameters) -> f64 {
    national.gamma_g.value * load.permanent() + national.gamma_q.value * load.imposed()
}

/// Service combination G + Q.
#[must_use]
pub fn service(load: &Shares) -> f64 {
    load.permanent() + load.imposed()
}

/// Accidental combination G + ψ1 Q.
#[must_use]
pub fn accidental(load: &Shares, national: &NationalParameters) -> f64 {
    load.permanent() + load.frequent(national)
}

/// What one needle carries, kN; pairs run over the leaves from outside in.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct NeedleLoad {
    /// Total by the lever rule, service.
    pub lever_kn: f64,
    /// Total as a continuous beam, service.
    pub continuous_kn: f64,
    /// The larger of both.
    pub load_kn: f64,
    /// Split of the larger total among the leaves, service.
    pub service_kn: [f64; 2],
    /// Split of the larger total among the leaves, strength.
    pub strength_kn: [f64; 2],
    /// Largest load of each leaf for itself, service.
    pub leaf_service_kn: [f64; 2],
    /// Largest load of each leaf for itself, strength.
    pub leaf_strength_kn: [f64; 2],
}

/// The step functions prepared for many layouts.
#[derive(Clone, Debug)]
pub struct Loads {
    variants: Vec<Vec<Steps>>,
    lone: Vec<Lone>,
    cut: (f64, f64),
    national: NationalParameters,
}

impl Loads {
    /// Takes the load over the cut from a take-down; both ways of coming down where they differ.
    #[must_use]
    pub fn of(down: &TakeDown, cut: (f64, f64), national: &NationalParameters) -> Self {
        let mut variants = vec![down.straight.clone()];
        if down.spread != down.straight {
            variants.push(down.spread.clone());
        }
        Self {
            variants,
            lone: down.lone.clone(),
            cut,
            national: *national,
        }
    }

    /// The same total evenly along the cut, times a factor: each leaf and each kind of load keeps its share.
    #[must_use]
    pub fn evenly(&self, factor: f64) -> Self {
        let (left, right) = self.cut;
        let even = |steps: &Steps| {
            let mut out = Steps::default();
            let per_m = steps.between(left, right).times(factor / (right - left));
            out.add(left, right, &per_m);
            out
        };
        let straight: Vec<Steps> = self.variants.first().into_iter().flatten().map(even).collect();
        Self {
            variants: vec![straight],
            lone: Vec::new(),
            cut: self.cut,
            national: self.national,
        }
    }

    /// Straight-down load of a leaf.
    #[must_use]
    pub fn straight(&self, leaf: usize) -> Option<&Steps> {
        self.variants.first().and_then(|leaves| leaves.get(leaf))
    }

    /// The ways of coming down, each with its leaves: straight first, then spread where that differs.
    pub fn ways(&self) -> impl Iterator<Item = &Vec<Steps>> {
        self.variants.iter()
    }

    /// Largest mean service load per metre of a leaf between two places, over the ways of coming down.
    #[must_use]
    pub fn mean_service(&self, leaf: usize, a: f64, b: f64) -> f64 {
        self.mean_between(leaf, a, b, service)
    }

    /// Largest mean strength load per metre of a leaf between two places, over the ways of coming down.
    #[must_use]
    pub fn mean_strength(&self, leaf: usize, a: f64, b: f64) -> f64 {
        self.mean_between(leaf, a, b, |load| strength(load, &self.national))
    }

    /// Largest moment of a simple beam over a clear gap under a leaf's strength load, kNm, over the ways of coming down;
    /// a point load counts as it lies at the crown of the arch over the gap where that is worse.
    #[must_use]
    pub fn gap_moment_kn_m(&self, leaf: usize, gap: (f64, f64), arch: Over) -> f64 {
        let combine = |load: &Shares| strength(load, &self.national);
        let mut largest = 0.0_f64;
        for (way, leaves) in self.variants.iter().enumerate() {
            let Some(steps) = leaves.get(leaf) else { continue };
            largest = largest.max(steps.largest_moment(gap.0, gap.1, combine));
            let mut changed: Option<Steps> = None;
            for lone in &self.lone {
                let mut trial = changed.clone().unwrap_or_else(|| steps.clone());
                if lone.at_crown(way, leaf, gap, arch, &mut trial) {
                    changed = Some(trial);
                }
            }
            if let Some(changed) = changed {
                largest = largest.max(changed.largest_moment(gap.0, gap.1, combine));
            }
        }
        largest
    }

    /// For each way of coming down the mean permanent load per metre of a leaf between two places.
    pub fn holds(&self, leaf: usize, a: f64, b: f64) -> impl Iterator<Item = f64> {
        self.variants
            .iter()
            .filter_map(move |leaves| leaves.get(leaf))
            .map(move |steps| steps.between(a, b).permanent() / (b - a))
    }

    fn mean_between(&self, leaf: usize, a: f64, b: f64, combine: impl Fn(&Shares) -> f64) -> f64 {
        let means = self
            .variants
            .iter()
            .filter_map(|leaves| leaves.get(leaf))
            .map(|steps| combine(&steps.between(a, b)) / (b - a));
        means.fold(0.0, f64::max)
    }

    /// Loads of needles at the given axes, in rising order.
    #[must_use]
    pub fn needles(&self, axes: &[f64]) -> Vec<NeedleLoad> {
        let mut out = vec![NeedleLoad::default(); axes.len()];
        let beam = Influence::of(axes);
        for leaves in &self.variants {
            let lever: Vec<Vec<Shares>> = leaves.iter().map(|steps| self.lever(steps, axes)).collect();
            for (i, needle) in out.iter_mut().enumerate() {
                let mut pair = [Shares::default(); 2];
                for (cell, leaf) in pair.iter_mut().zip(&lever) {
                    *cell = leaf.get(i).copied().unwrap_or_default();
                }
                needle.take(&pair, true, &self.national);
            }
            let line = Pushing {
                leaves,
                axes,
                beam: &beam,
                cut: self.cut,
                national: &self.national,
            };
            for (needle, found) in out.iter_mut().zip(line.reactions()) {
                for pair in &found {
                    needle.take(pair, false, &self.national);
                }
            }
        }
        out
    }

    /// Simple spans between needles, end strips whole to the outer needles.
    fn lever(&self, steps: &Steps, axes: &[f64]) -> Vec<Shares> {
        let mut out = vec![Shares::default(); axes.len()];
        if let (Some(first), Some(cell)) = (axes.first(), out.first_mut()) {
            *cell = steps.between(self.cut.0, *first);
        }
        if let (Some(last), Some(cell)) = (axes.last(), out.last_mut()) {
            *cell = cell.plus(&steps.between(*last, self.cut.1));
        }
        for (i, (a, b)) in axes.iter().zip(axes.iter().skip(1)).enumerate() {
            let (left, right) = steps.simple_beam(*a, *b);
            if let Some(cell) = out.get_mut(i) {
                *cell = cell.plus(&left);
            }
            if let Some(cell) = out.get_mut(i + 1) {
                *cell = cell.plus(&right);
            }
        }
        out
    }
}

impl NeedleLoad {
    /// Adds what comes down on one leaf beside the load along the wall, service and strength in kN.
    pub fn add(&mut self, leaf: usize, service_kn: f64, strength_kn: f64) {
        self.lever_kn += service_kn;
        self.continuous_kn += service_kn;
        self.load_kn += service_kn;
        for (pairs, more) in [
            ([&mut self.service_kn, &mut self.leaf_service_kn], service_kn),
            ([&mut self.strength_kn, &mut self.leaf_strength_kn], strength_kn),
        ] {
            for pair in pairs {
                if let Some(cell) = pair.get_mut(leaf) {
                    *cell += more;
                }
            }
        }
    }

    fn take(&mut self, leaves: &[Shares; 2], lever: bool, national: &NationalParameters) {
        let strength = |load: &Shares| strength(load, national);
        let total: f64 = leaves.iter().map(service).sum();
        if lever {
            self.lever_kn = self.lever_kn.max(total);
        } else {
            self.continuous_kn = self.continuous_kn.max(total);
        }
        if total > self.load_kn {
            self.load_kn = total;
            self.service_kn = leaves.map(|leaf| service(&leaf));
        }
        if leaves.iter().map(&strength).sum::<f64>() > self.strength_kn.iter().sum::<f64>() {
            self.strength_kn = leaves.map(|leaf| strength(&leaf));
        }
        for ((cell, strong), leaf) in self
            .leaf_service_kn
            .iter_mut()
            .zip(&mut self.leaf_strength_kn)
            .zip(leaves)
        {
            *cell = cell.max(service(leaf));
            *strong = strong.max(strength(leaf));
        }
    }
}
