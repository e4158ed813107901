//! The search: positions × section × steel pack × prop × side distances × foot.
//!
//! For each number of needles and each section the layouts are tried, symmetric ones first. What depends on the layout
//! alone (arch, end bays, stage) is checked before what depends on the section, and the pack, the side distances, the
//! props and the feet are each chosen by the checks that depend on them: none of these choices touches another's checks
//! but through the reactions, so choosing them one after the other loses nothing.

use crate::candidate::{Bests, Candidate, Judged, judge, nearest};
use crate::demand::NeedleLoad;
use crate::layout::{fault, layouts};
use crate::packs::{Outline, Packs};
use crate::scene::Scene;

/// A best use above this counts as close to the limit.
pub const CLOSE: f64 = 0.90;

/// Length of a needle beside the wall at the least: 0.30 m to each prop and 0.15 m beyond, m.
const LEAST_BESIDE_M: f64 = 0.9;

/// What is looked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Aim {
    /// Fewest parts.
    Fewest,
    /// Lightest needles.
    Lightest,
    /// Cheapest to hire.
    Cheapest,
}

impl Aim {
    /// All aims.
    pub const ALL: [Self; 3] = [Self::Fewest, Self::Lightest, Self::Cheapest];

    /// Word of the contract.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Fewest => "fewest",
            Self::Lightest => "lightest",
            Self::Cheapest => "cheapest",
        }
    }
}

/// A candidate with its layout, loads and judgement.
#[derive(Clone, Debug)]
pub struct Found {
    /// Axes of the needles, m.
    pub axes: Vec<f64>,
    /// Their loads.
    pub loads: Vec<NeedleLoad>,
    /// The rest of the candidate.
    pub candidate: Candidate,
    /// How it fares.
    pub judged: Judged,
}

/// What the search brings back.
#[derive(Clone, Debug, Default)]
pub struct Search {
    /// The best of each aim, in the order of [`Aim::ALL`].
    pub best: Vec<(Aim, Found)>,
    /// The nearest that fails, when nothing passes.
    pub nearest: Option<Found>,
    /// Why given positions are not allowed.
    pub misfit: Option<String>,
    /// Candidates looked at.
    pub looked_at: u64,
}

/// A layout with its loads.
struct Laid {
    axes: Vec<f64>,
    loads: Vec<NeedleLoad>,
    symmetric: bool,
}

/// Searches for the best of each aim.
#[must_use]
pub fn search(scene: &Scene<'_>) -> Search {
    let mut out = Search::default();
    let narrowest = scene
        .sections
        .iter()
        .map(|s| s.member.width_mm())
        .fold(f64::INFINITY, f64::min);
    let given = scene.job.fix.as_ref().and_then(|fix| fix.needles_x_m.clone());
    let all = match given {
        Some(mut axes) => {
            axes.sort_by(f64::total_cmp);
            vec![axes]
        }
        None => layouts(narrowest, scene.job, scene.geometry, &scene.anchors),
    };
    let fixed = scene.job.fix.as_ref().is_some_and(|fix| fix.needles_x_m.is_some());
    let middle = scene.geometry.cut_left_m + scene.geometry.cut_width_m() / 2.0;
    let mut laid: Vec<Laid> = all
        .into_iter()
        .filter(|axes| !axes.is_empty())
        .map(|axes| Laid {
            symmetric: axes
                .iter()
                .zip(axes.iter().rev())
                .all(|(a, b)| (a + b - 2.0 * middle).abs() < 2e-3),
            loads: scene.needles(&axes),
            axes,
        })
        .collect();
    laid.sort_by(|a, b| {
        let key = |l: &Laid| (l.axes.len(), !l.symmetric);
        key(a)
            .cmp(&key(b))
            .then(unevenness(&a.loads).total_cmp(&unevenness(&b.loads)))
    });
    let mut best: [Option<Found>; 3] = [None, None, None];
    for layout in &laid {
        let mut outlines = Vec::new();
        for (index, section) in scene.sections.iter().enumerate() {
            let misfit = fault(
                &layout.axes,
                section.member.width_mm(),
                scene.job,
                scene.geometry,
                &scene.anchors,
            );
            if misfit.is_some() && !fixed || hopeless(scene, layout, index, &best) {
                continue;
            }
            out.looked_at += 1;
            // Once every aim has a find used at most 0.90, one that is used more betters none.
            let settled = best
                .iter()
                .all(|slot| slot.as_ref().is_some_and(|old| old.judged.worst.utilisation <= CLOSE));
            let limits: &[f64] = if settled { &[CLOSE] } else { &[CLOSE, 1.0] };
            let on_wall = (layout.axes.as_slice(), layout.loads.as_slice());
            let Some(packs) = Packs::among(&mut outlines, scene, on_wall, Outline::of(&section.member)) else {
                continue;
            };
            let choices = judge(scene, packs, index, limits);
            if let Some(misfit) = misfit {
                out.show_misfit(scene, layout, index, choices, misfit);
                continue;
            }
            for ((aim, slot), choice) in Aim::ALL.into_iter().zip(&mut best).zip(choices) {
                let Some(choice) = choice else { continue };
                if slot
                    .as_ref()
                    .is_none_or(|old| key(aim, &choice.1) < key(aim, &old.judged))
                {
                    *slot = Some(layout.found(choice));
                }
            }
        }
    }
    if best.iter().all(Option::is_none) {
        out.look_for_nearest(scene, &laid);
    } else {
        (out.nearest, out.misfit) = (None, None);
    }
    out.best = Aim::ALL
        .into_iter()
        .zip(best)
        .filter_map(|(aim, slot)| slot.map(|found| (aim, found)))
        .collect();
    out
}

impl Laid {
    fn found(&self, (candidate, judged): (Candidate, Judged)) -> Found {
        Found {
            axes: self.axes.clone(),
            loads: self.loads.clone(),
            candidate,
            judged,
        }
    }
}

impl Search {
    /// Given positions that a section does not fit: never an option, at most the nearest. The lightest that passes, else
    /// the least overstressed, says most of such positions.
    fn show_misfit(&mut self, scene: &Scene<'_>, layout: &Laid, section: usize, choices: Bests, misfit: String) {
        let [first, ..] = choices;
        let shown = first.or_else(|| nearest(scene, &layout.axes, &layout.loads, section));
        let better =
            |new: &Judged, old: &Judged| !old.worst.passes() && (new.worst.passes() || new.badness() < old.badness());
        if let Some(choice) = shown
            && self.nearest.as_ref().is_none_or(|old| better(&choice.1, &old.judged))
        {
            self.misfit = Some(misfit);
            self.nearest = Some(layout.found(choice));
        }
    }

    /// The nearest that fails, where nothing passes; a section that may stand on a layout says more than one that may not.
    fn look_for_nearest(&mut self, scene: &Scene<'_>, laid: &[Laid]) {
        for layout in laid {
            for (index, section) in scene.sections.iter().enumerate() {
                let width = section.member.width_mm();
                if fault(&layout.axes, width, scene.job, scene.geometry, &scene.anchors).is_some() {
                    continue;
                }
                let Some(choice) = nearest(scene, &layout.axes, &layout.loads, index) else {
                    continue;
                };
                if self.misfit.is_some()
                    || self
                        .nearest
                        .as_ref()
                        .is_none_or(|old| choice.1.badness() < old.judged.badness())
                {
                    self.misfit = None;
                    self.nearest = Some(layout.found(choice));
                }
            }
        }
    }
}

/// Order of candidates for an aim: those used at most 0.90 first, then the aim's own figure, then total mass, then use.
fn key(aim: Aim, judged: &Judged) -> (bool, [f64; 3]) {
    let figure = judged.objective(aim);
    (
        judged.worst.utilisation > CLOSE,
        [figure, judged.mass_kg, judged.worst.utilisation],
    )
}

/// Whether this section on this layout can no longer better any aim: every aim has a find of the first kind, and what
/// the needles alone come to (their count with two props and a board each, their mass at the least span) is no better.
fn hopeless(scene: &Scene<'_>, layout: &Laid, section: usize, best: &[Option<Found>; 3]) -> bool {
    let count = layout.axes.len() as f64;
    let Some(section) = scene.sections.get(section) else {
        return false;
    };
    let least_mass = count * section.member.mass_kg_m() * (scene.geometry.thickness_mm / 1000.0 + LEAST_BESIDE_M);
    Aim::ALL.iter().zip(best).all(|(aim, slot)| {
        slot.as_ref().is_some_and(|old| {
            let (before, heavier) = (old.axes.len() as f64, least_mass >= old.judged.needles_kg);
            let no_better = match aim {
                Aim::Lightest => heavier,
                Aim::Fewest => 5.0 * count > old.judged.pieces || (5.0 * count >= old.judged.pieces && heavier),
                Aim::Cheapest => count > before || (count >= before && heavier),
            };
            old.judged.worst.utilisation <= CLOSE && no_better
        })
    })
}

/// Largest over mean load of a layout's needles.
fn unevenness(loads: &[NeedleLoad]) -> f64 {
    loads.iter().map(|load| load.load_kn).fold(0.0, f64::max)
}
