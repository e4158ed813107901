//! The legs of a needle: the prop and the boards on each side, chosen and checked.

use crate::candidate::{Candidate, LegChoice, loaded};
use crate::checks::feet::{self, Boards, Under};
use crate::checks::needle::{Loaded, worst_reaction_kn};
use crate::checks::{At, Side, Sink, Worst, prop};
use crate::clause::statics::Bridge;
use crate::demand::NeedleLoad;
use crate::geometry::Geometry;
use crate::job::{Job, Side as SideInput};
use crate::scene::Scene;
use crate::tables::Member;

fn side_of<'a>(scene: &'a Scene<'_>, side: Side) -> (&'a SideInput, Under) {
    match side {
        Side::Inside => (&scene.job.sides.inside, scene.under_inside),
        Side::Outside => (&scene.job.sides.outside, scene.under_outside),
    }
}

/// Length of a prop on a side with the given boards, m.
#[must_use]
pub fn prop_length_m(scene: &Scene<'_>, side: Side, boards: &Boards) -> f64 {
    leg_length_m(scene.job, scene.geometry, side, boards)
}

/// Length of a prop from its boards to the needle's underside, m.
#[must_use]
pub fn leg_length_m(job: &Job, geometry: &Geometry, side: Side, boards: &Boards) -> f64 {
    let foot = if side == Side::Inside {
        job.sides.inside.foot_level_m
    } else {
        job.sides.outside.foot_level_m
    };
    geometry.soffit_m - foot - boards.thickness_mm() / 1000.0
}

/// Chooses prop and boards on both sides: the first boards, and with them the lightest prop, used at most the limit;
/// else the pair with the least use.
pub fn place(
    scene: &Scene<'_>,
    axes: &[f64],
    loads: &[NeedleLoad],
    member: &Member,
    limit: f64,
    candidate: &mut Candidate,
) {
    let (inside_mm, outside_mm) = (candidate.inside_mm, candidate.outside_mm);
    for side in [Side::Inside, Side::Outside] {
        let reaction = |bridge: for<'x> fn(&'x Loaded<'_>) -> &'x Bridge| {
            loads
                .iter()
                .map(|load| worst_reaction_kn(bridge(&loaded(scene, load, member, inside_mm, outside_mm)), side))
                .fold(0.0, f64::max)
        };
        let (service, strength) = (reaction(|l| &l.service), reaction(|l| &l.strength));
        let (_, under) = side_of(scene, side);
        let mut best: Option<(LegChoice, f64)> = None;
        'boards: for (b, boards) in scene.boards.iter().enumerate() {
            let mut ground = Worst::default();
            feet::check(
                boards,
                under,
                At::Prop(0, side),
                service,
                strength,
                scene.timber(),
                &mut ground,
            );
            feet::fit(
                boards,
                At::Prop(0, side),
                spacing_mm(axes),
                distance_mm(scene, side, inside_mm, outside_mm),
                &mut ground,
            );
            let length = prop_length_m(scene, side, boards);
            for p in 0..scene.props.len() {
                let mut worst = ground;
                prop::stand(At::Prop(0, side), scene.rating(side, b, p), length, service, &mut worst);
                let bad = worst.utilisation + if worst.misfit { 100.0 } else { 0.0 };
                if best.is_none_or(|(_, old)| bad < old - 1e-12) {
                    best = Some((
                        LegChoice {
                            prop: Some(p),
                            boards: b,
                        },
                        bad,
                    ));
                }
                if bad <= limit {
                    break 'boards;
                }
            }
        }
        let choice = best.map(|(choice, _)| choice).unwrap_or_default();
        match side {
            Side::Inside => candidate.inside = choice,
            Side::Outside => candidate.outside = choice,
        }
    }
}

/// Least distance between two props of a line, mm: the least spacing of the needles, without bound for one needle.
fn spacing_mm(axes: &[f64]) -> f64 {
    axes.iter()
        .zip(axes.iter().skip(1))
        .map(|(a, b)| (b - a) * 1000.0)
        .fold(1e6, f64::min)
}

/// Distance of a line of props from the wall's face, mm.
fn distance_mm(scene: &Scene<'_>, side: Side, inside_mm: f64, outside_mm: f64) -> f64 {
    match side {
        Side::Inside => inside_mm - scene.geometry.thickness_mm,
        Side::Outside => -outside_mm,
    }
    .max(1.0)
}

/// Checks all legs of a candidate.
pub fn check(
    scene: &Scene<'_>,
    axes: &[f64],
    loads: &[NeedleLoad],
    member: &Member,
    candidate: &Candidate,
    sink: &mut impl Sink,
) {
    for (i, load) in loads.iter().enumerate() {
        let needle = loaded(scene, load, member, candidate.inside_mm, candidate.outside_mm);
        for (side, choice) in [(Side::Inside, candidate.inside), (Side::Outside, candidate.outside)] {
            let Some(boards) = scene.boards.get(choice.boards) else {
                continue;
            };
            let (_, under) = side_of(scene, side);
            let (service, strength) = (
                worst_reaction_kn(&needle.service, side),
                worst_reaction_kn(&needle.strength, side),
            );
            let at = At::Prop(i, side);
            let rating = choice.prop.and_then(|p| scene.rating(side, choice.boards, p));
            prop::stand(at, rating, prop_length_m(scene, side, boards), service, sink);
            feet::check(boards, under, at, service, strength, scene.timber(), sink);
            feet::fit(
                boards,
                at,
                spacing_mm(axes),
                distance_mm(scene, side, candidate.inside_mm, candidate.outside_mm),
                sink,
            );
        }
    }
}
