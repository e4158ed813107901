//! One lost: what the others must carry when a needle, one of its props or one of its feet is gone.
//!
//! Beam on rigid supports over the remaining needles; a jamb counts as a support at the cut edge only where the masonry
//! beside it is wide enough and sound; supports only push. Accidental combination, no dynamic factor.

use crate::clause::NationalParameters;
use crate::demand::accidental;
use crate::line::Influence;
use crate::proposal::OneLost;
use crate::steps::Steps;

/// What goes with a support that is lost, and what to keep at hand, in words.
#[derive(Clone, Copy, Debug)]
pub struct Goes {
    with: &'static str,
    spare: &'static str,
}

impl Goes {
    /// A needle with its props and feet.
    pub const NEEDLE: Self = Self {
        with: "one of its props or one of its feet",
        spare: "a spare needle, props and packs",
    };
    /// A bracket with its prop and foot.
    pub const BRACKET: Self = Self {
        with: "its prop or its foot",
        spare: "a spare bracket, prop and shims",
    };
}

/// What each needle can carry when one is lost, and what stands at the cut edges.
#[derive(Clone, Debug)]
pub struct Line<'a> {
    /// Axes of the needles, m.
    pub axes: &'a [f64],
    /// Their names.
    pub names: &'a [String],
    /// What goes with one of them.
    pub goes: Goes,
    /// Accidental resistance of each needle with its props, kN.
    pub resistance_kn: &'a [f64],
    /// Cut edges, m.
    pub cut: (f64, f64),
    /// Whether the masonry at the left and at the right edge counts as a support.
    pub jambs: (bool, bool),
    /// Nationally determined parameters.
    pub national: &'a NationalParameters,
}

impl Line<'_> {
    /// Loses each needle in turn; its props and feet count with it.
    #[must_use]
    pub fn lose_each(&self, leaves: &[&Steps]) -> Vec<OneLost> {
        (0..self.axes.len()).map(|lost| self.lose(lost, leaves)).collect()
    }

    fn name(&self, i: usize) -> String {
        self.names.get(i).cloned().unwrap_or_default()
    }

    fn lose(&self, lost: usize, leaves: &[&Steps]) -> OneLost {
        let name = self.name(lost);
        let Goes { with, spare } = self.goes;
        let mut supports: Vec<(f64, Option<usize>)> = Vec::with_capacity(self.axes.len() + 1);
        if self.jambs.0 {
            supports.push((self.cut.0, None));
        }
        supports.extend(
            self.axes
                .iter()
                .enumerate()
                .filter(|(i, _)| *i != lost)
                .map(|(i, x)| (*x, Some(i))),
        );
        if self.jambs.1 {
            supports.push((self.cut.1, None));
        }
        let others = self.axes.len() > 1;
        let Some(reactions) = self.reactions(&mut supports, leaves).filter(|_| others) else {
            return OneLost {
                lost: name.clone(),
                worst: "all".to_owned(),
                utilisation: None,
                words: format!("If {name}, {with} goes, nothing holds: this one must not be lost."),
            };
        };
        let used = supports.iter().zip(&reactions).filter_map(|((_, needle), reaction)| {
            let i = (*needle)?;
            let can = self.resistance_kn.get(i).copied().unwrap_or_default();
            Some((i, if can > 0.0 { (reaction / can).min(99.0) } else { 99.0 }))
        });
        let (worst, utilisation) = used.max_by(|a, b| a.1.total_cmp(&b.1)).unwrap_or((lost, 0.0));
        let worst = self.name(worst);
        let words = if utilisation > 1.0 {
            format!(
                "If {name}, {with} goes, {worst} is asked for {:.0} % of what it can do: guard it against knocks, keep {spare} at hand.",
                utilisation * 100.0
            )
        } else {
            format!(
                "If {name}, {with} goes, the others hold; {worst} is then used {:.0} %. No allowance for the jolt.",
                utilisation * 100.0
            )
        };
        OneLost {
            lost: name,
            worst,
            utilisation: Some(utilisation),
            words,
        }
    }

    /// Reactions with pulls taken out one after another; none when too few supports remain.
    fn reactions(&self, supports: &mut Vec<(f64, Option<usize>)>, leaves: &[&Steps]) -> Option<Vec<f64>> {
        loop {
            if supports.len() < 2 {
                return None;
            }
            let places: Vec<f64> = supports.iter().map(|(x, _)| *x).collect();
            let beam = Influence::of(&places);
            let reactions: Vec<f64> = (0..places.len())
                .map(|i| {
                    let sum = |steps: &&Steps| -> f64 {
                        let parts = steps.intervals().filter_map(|(from, to, value)| {
                            let (from, to) = (from.max(self.cut.0), to.min(self.cut.1));
                            (to > from).then(|| {
                                let (plus, minus) = beam.integral(i, from, to);
                                accidental(value, self.national) * (plus + minus)
                            })
                        });
                        parts.sum()
                    };
                    leaves.iter().map(sum).sum()
                })
                .collect();
            let pulled = reactions
                .iter()
                .enumerate()
                .filter(|(_, r)| **r < -1e-9)
                .min_by(|a, b| a.1.total_cmp(b.1));
            match pulled {
                Some((i, _)) => {
                    supports.remove(i);
                }
                None => return Some(reactions),
            }
        }
    }
}
