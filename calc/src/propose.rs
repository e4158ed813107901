//! The search: positions × section × steel pack × prop × side distances × foot.
//!
//! For each number of needles and each section the layouts are tried, symmetric ones first. What depends on the layout
//! alone (arch, end bays, stage) is checked before what depends on the section, and the pack, the side distances, the
//! props and the feet are each chosen by the checks that depend on them: none of these choices touches another's checks
//! but through the reactions, so choosing them one after the other loses nothing.

use crate::candidate::{Candidate, Judged, judge};
use crate::demand::NeedleLoad;
use crate::layout::{fault, layouts};
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
        for (index, section) in scene.sections.iter().enumerate() {
            let width = section.member.width_mm();
            let misfit = fault(&layout.axes, width, scene.job, scene.geometry, &scene.anchors);
            if misfit.is_some() && !fixed {
                continue;
            }
            if hopeless(scene, layout, index, &best) {
                continue;
            }
            out.looked_at += 1;
            let choices = judge(scene, &layout.axes, &layout.loads, index);
            let found = |(candidate, judged): (Candidate, Judged)| Found {
                axes: layout.axes.clone(),
                loads: layout.loads.clone(),
                candidate,
                judged,
            };
            if let Some(misfit) = misfit {
                // Given positions that this section does not fit: never an option, at most the nearest.
                let [first, ..] = choices.best;
                let shown = first.or(choices.nearest);
                // The lightest that passes, else the least overstressed, says most of such positions; a section that may
                // stand there says more than one that may not.
                let better = |new: &Judged, old: &Judged| {
                    !old.worst.passes() && (new.worst.passes() || new.badness() < old.badness())
                };
                let allowed = out.nearest.is_some() && out.misfit.is_none();
                if let Some(choice) = shown.filter(|_| !allowed)
                    && out.nearest.as_ref().is_none_or(|old| better(&choice.1, &old.judged))
                {
                    out.misfit = Some(misfit);
                    out.nearest = Some(found(choice));
                }
                continue;
            }
            for ((aim, slot), choice) in Aim::ALL.into_iter().zip(&mut best).zip(choices.best) {
                let Some(choice) = choice else { continue };
                if slot
                    .as_ref()
                    .is_none_or(|old| key(aim, &choice.1) < key(aim, &old.judged))
                {
                    *slot = Some(found(choice));
                }
            }
            let Some(choice) = choices.nearest else { continue };
            if out.misfit.is_some()
                || out
                    .nearest
                    .as_ref()
                    .is_none_or(|old| choice.1.badness() < old.judged.badness())
            {
                out.misfit = None;
                out.nearest = Some(found(choice));
            }
        }
    }
    out.best = Aim::ALL
        .into_iter()
        .zip(best)
        .filter_map(|(aim, slot)| slot.map(|found| (aim, found)))
        .collect();
    if !out.best.is_empty() {
        out.nearest = None;
        out.misfit = None;
    }
    out
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
