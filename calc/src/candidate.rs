//! One candidate: the choices that follow from a layout and a section, and how it fares.

use crate::checks::needle::{self, Loaded, OVERHANG_MM};
use crate::checks::{Sink, Worst};
use crate::clause::statics::{Bridge, SpanLoad};
use crate::demand::NeedleLoad;
use crate::legs;
use crate::packs::{Outline, Packs, masonry};
use crate::propose::Aim;
use crate::scene::Scene;
use crate::stand::{NEAR_ONES, distances, room};
use crate::tables::Member;

/// The choices of a candidate beside its layout.
#[derive(Clone, Debug, PartialEq)]
pub struct Candidate {
    /// Index of the section.
    pub section: usize,
    /// Steel pack, mm.
    pub pack_mm: f64,
    /// Prop axis inside, mm.
    pub inside_mm: f64,
    /// Prop axis outside, mm.
    pub outside_mm: f64,
    /// Leg inside.
    pub inside: LegChoice,
    /// Leg outside.
    pub outside: LegChoice,
}

/// Prop and foot on one side.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct LegChoice {
    /// Index of the prop; none when no prop fits the length.
    pub prop: Option<usize>,
    /// Index of the boards.
    pub boards: usize,
}

/// How a candidate fares.
#[derive(Clone, Debug, PartialEq)]
pub struct Judged {
    /// Largest use.
    pub worst: Worst,
    /// Mass of all needles, kg.
    pub needles_kg: f64,
    /// Mass of everything, kg.
    pub mass_kg: f64,
    /// Count of all pieces.
    pub pieces: f64,
    /// Cost of hire, or hired piece-weeks without rates.
    pub hire: f64,
}

impl Judged {
    /// One that is passed over before its parts are counted.
    const fn nothing(worst: Worst) -> Self {
        Self {
            worst,
            needles_kg: 0.0,
            mass_kg: 0.0,
            pieces: 0.0,
            hire: 0.0,
        }
    }

    /// The aim's own figure; smaller is better.
    #[must_use]
    pub fn objective(&self, aim: Aim) -> f64 {
        match aim {
            Aim::Fewest => self.pieces,
            Aim::Lightest => self.needles_kg,
            Aim::Cheapest => self.hire,
        }
    }

    /// How far it is from passing.
    #[must_use]
    pub fn badness(&self) -> f64 {
        self.worst.utilisation + if self.worst.misfit { 100.0 } else { 0.0 }
    }
}

/// The best of each aim with its choices, in the order of [`Aim::ALL`]; none where nothing passes.
pub type Bests = [Option<(Candidate, Judged)>; 3];

/// Chooses pack, distances, props and feet for a section on a layout: all used at most the first of the limits that can
/// be kept, and within that by each aim.
#[must_use]
pub fn judge(scene: &Scene<'_>, packs: &mut Packs<'_>, section: usize, limits: &[f64]) -> Bests {
    let (axes, loads) = packs.layout();
    let mut best = Bests::default();
    let Some(member) = scene.sections.get(section).map(|s| &s.member) else {
        return best;
    };
    let near = 5.0 * axes.len() as f64;
    for limit in limits {
        let Some((pack, on_masonry)) = packs.within(*limit) else {
            continue;
        };
        for (k, distance) in distances(scene).into_iter().enumerate() {
            // The nearer distances come first. Farther ones make needles heavier, and only worse boards could be bettered:
            // where one board a prop does already, nothing is left to gain.
            let [fewest, ..] = &best;
            if k >= NEAR_ONES && fewest.as_ref().is_some_and(|(_, judged)| judged.pieces <= near + 1e-9) {
                break;
            }
            let Some(on_needles) = needles_within(scene, loads, member, distance, *limit) else {
                continue;
            };
            let (candidate, judged) = fill(
                scene,
                axes,
                loads,
                section,
                (pack, on_masonry.with(on_needles)),
                distance,
                *limit,
            );
            if judged.worst.misfit || judged.worst.utilisation > *limit {
                continue;
            }
            for (aim, slot) in Aim::ALL.into_iter().zip(&mut best) {
                if slot
                    .as_ref()
                    .is_none_or(|(_, old)| judged.objective(aim) < old.objective(aim) - 1e-9)
                {
                    *slot = Some((candidate.clone(), judged.clone()));
                }
            }
        }
        if best.iter().any(Option::is_some) {
            break;
        }
    }
    best
}

/// What comes nearest to passing with a section on a layout where nothing passes. One distance says enough of how far it
/// is from it.
#[must_use]
pub fn nearest(scene: &Scene<'_>, axes: &[f64], loads: &[NeedleLoad], section: usize) -> Option<(Candidate, Judged)> {
    let member = &scene.sections.get(section)?.member;
    let (pack, on_masonry) = Packs::of(scene, axes, loads, Outline::of(member)).least()?;
    let distance = distances(scene).into_iter().next()?;
    let on_needles = needles(scene, loads, member, distance);
    Some(fill(
        scene,
        axes,
        loads,
        section,
        (pack, on_masonry.with(on_needles)),
        distance,
        0.0,
    ))
}

/// How all needles fare.
fn needles(scene: &Scene<'_>, loads: &[NeedleLoad], member: &Member, (inside_mm, outside_mm): (f64, f64)) -> Worst {
    let mut worst = Worst::default();
    for (i, load) in loads.iter().enumerate() {
        let loaded = loaded(scene, load, member, inside_mm, outside_mm);
        needle::check(i, &loaded, member, &mut worst);
    }
    worst
}

/// How all needles fare, where they keep a limit of use: the most loaded one is looked at first.
fn needles_within(
    scene: &Scene<'_>,
    loads: &[NeedleLoad],
    member: &Member,
    (inside_mm, outside_mm): (f64, f64),
    limit: f64,
) -> Option<Worst> {
    let heaviest = loads
        .iter()
        .enumerate()
        .max_by(|a, b| a.1.load_kn.total_cmp(&b.1.load_kn))
        .map_or(0, |(i, _)| i);
    let rest = (0..loads.len()).filter(|i| *i != heaviest);
    let mut worst = Worst::default();
    for i in std::iter::once(heaviest).chain(rest) {
        let Some(load) = loads.get(i) else { continue };
        let loaded = loaded(scene, load, member, inside_mm, outside_mm);
        needle::check(i, &loaded, member, &mut worst);
        if worst.misfit || worst.utilisation > limit {
            return None;
        }
    }
    Some(worst)
}

/// One candidate with everything chosen under a limit of use, given how its masonry and its needles fare.
fn fill(
    scene: &Scene<'_>,
    axes: &[f64],
    loads: &[NeedleLoad],
    section: usize,
    (pack, so_far): (f64, Worst),
    (inside_mm, outside_mm): (f64, f64),
    limit: f64,
) -> (Candidate, Judged) {
    let mut worst = so_far;
    let mut candidate = Candidate {
        section,
        pack_mm: pack,
        inside_mm,
        outside_mm,
        inside: LegChoice::default(),
        outside: LegChoice::default(),
    };
    let Some(member) = scene.sections.get(section).map(|s| &s.member) else {
        worst.misfit = true;
        return (candidate, Judged::nothing(worst));
    };
    room(scene, &candidate, &mut worst);
    legs::place(scene, axes, loads, member, limit, &mut candidate);
    legs::check(scene, axes, loads, member, &candidate, &mut worst);
    let judged = tally(scene, axes.len(), member, &candidate, worst);
    (candidate, judged)
}

/// All checks of a candidate into one sink.
pub fn check_all(scene: &Scene<'_>, axes: &[f64], loads: &[NeedleLoad], candidate: &Candidate, sink: &mut impl Sink) {
    let Some(section) = scene.sections.get(candidate.section) else {
        return;
    };
    masonry(
        scene,
        axes,
        loads,
        Outline::of(&section.member),
        candidate.pack_mm,
        sink,
    );
    room(scene, candidate, sink);
    for (i, load) in loads.iter().enumerate() {
        needle::check(
            i,
            &loaded(scene, load, &section.member, candidate.inside_mm, candidate.outside_mm),
            &section.member,
            sink,
        );
    }
    legs::check(scene, axes, loads, &section.member, candidate, sink);
}

/// Level of a needle's top with its pack, m.
#[must_use]
pub fn needle_top_m(scene: &Scene<'_>, member: &Member, pack_mm: f64) -> f64 {
    scene.geometry.soffit_m + (member.depth_mm() + pack_mm) / 1000.0
}

/// A needle with its loads.
#[must_use]
pub fn loaded<'a>(
    scene: &Scene<'a>,
    load: &NeedleLoad,
    member: &Member,
    inside_mm: f64,
    outside_mm: f64,
) -> Loaded<'a> {
    let strips = |each: [f64; 2]| {
        let mut strips = [SpanLoad::default(); 2];
        for ((strip, leaf), load_kn) in strips.iter_mut().zip(&scene.geometry.leaves).zip(each) {
            *strip = SpanLoad {
                from_mm: leaf.from_mm,
                to_mm: leaf.to_mm,
                load_kn,
            };
        }
        strips
    };
    let weight = member.mass_kg_m() * 9.81e-3;
    let bridge = |each, weight_kn_m| Bridge {
        outside_mm,
        inside_mm,
        strips: strips(each),
        weight_kn_m,
    };
    Loaded {
        service: bridge(load.service_kn, weight),
        strength: bridge(load.strength_kn, scene.national.gamma_g.value * weight),
        leaf_strength_kn: load.leaf_strength_kn,
        days: scene.job.site.days,
        national: scene.national,
    }
}

fn tally(scene: &Scene<'_>, count: usize, member: &Member, candidate: &Candidate, worst: Worst) -> Judged {
    let n = count as f64;
    let length = (candidate.inside_mm - candidate.outside_mm + 2.0 * OVERHANG_MM) / 1000.0;
    let needles_kg = n * length * member.mass_kg_m();
    let (mut mass, mut pieces, mut boards_count) = (needles_kg, n, 0.0);
    for choice in [candidate.inside, candidate.outside] {
        if let Some(boards) = scene.boards.get(choice.boards) {
            mass += n * boards.mass_kg();
            boards_count += n * f64::from(boards.pieces);
        }
        mass += n * choice
            .prop
            .and_then(|p| scene.props.get(p))
            .map_or(0.0, |prop| prop.mass_kg);
        pieces += n;
    }
    pieces += boards_count;
    let weeks = (scene.job.site.days / 7.0).ceil();
    let hire = match &scene.job.catalogue.rates {
        Some(rates) => weeks * (n * rates.needle + 2.0 * n * rates.prop + boards_count * rates.board),
        None => weeks * 3.0 * n,
    };
    Judged {
        worst,
        needles_kg,
        mass_kg: mass,
        pieces,
        hire,
    }
}
