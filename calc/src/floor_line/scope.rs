//! What a floor line cannot do, what it takes as true, and what the wall loses when a floor is cut from it.

use super::{FLOOR_BOARDS_MM, Held, JOIST_MM, has_own_line, held, span_m};
use crate::brief::check_words;
use crate::checks::Side;
use crate::geometry::Geometry;
use crate::job::{Job, Restraint};
use crate::proposal::{Assumption, Opt, Reason};
use crate::standing::Verdict;
use serde_json::json;

/// Sides on which a floor has a span.
pub(super) fn sides(job: &Job, i: usize) -> impl Iterator<Item = Side> + '_ {
    let floor = job.above.get(i).and_then(|storey| storey.floor.as_ref());
    [Side::Inside, Side::Outside]
        .into_iter()
        .filter(move |side| floor.is_some_and(|floor| span_m(floor, *side) > 0.0))
}

/// Why the line of a floor on a side cannot be designed here; none where it can.
#[must_use]
pub(super) fn refused(job: &Job, geometry: &Geometry, i: usize, side: Side) -> Option<String> {
    let concrete = |i: usize| {
        job.above
            .get(i)
            .and_then(|storey| storey.floor.as_ref())
            .is_some_and(|floor| floor.beam_and_block)
    };
    let on_this_side = |j: usize| sides(job, j).any(|other| other == side);
    if concrete(i) {
        return Some(
            "beams of a concrete floor must not hang past a header: their steel lies at the bottom. This line needs its own design."
                .to_owned(),
        );
    }
    if (0..i).any(|j| on_this_side(j) && concrete(j)) {
        return Some(
            "its props would have to be carried down through a concrete floor. This line needs its own design."
                .to_owned(),
        );
    }
    let another = (0..job.above.len()).any(|j| j != i && on_this_side(j) && has_own_line(job, geometry, j));
    another.then(|| {
        format!(
            "two floors need a line of their own {} of the wall, one above the other. Both in one need their own design.",
            side.word()
        )
    })
}

/// Reasons why a needed line cannot be designed, for each floor and side.
#[must_use]
pub fn refusals(job: &Job, geometry: &Geometry) -> Vec<Reason> {
    let mut out = Vec::new();
    for i in (0..job.above.len()).filter(|i| has_own_line(job, geometry, *i)) {
        for side in sides(job, i) {
            if let Some(why) = refused(job, geometry, i, side) {
                out.push(Reason::new(
                    "floor_line",
                    format!("Floor {} {} of the wall: {why}", i + 1, side.word()),
                ));
            }
        }
    }
    out
}

/// What the failing line of an option fails on: that it could not be made at all, or its checks, each kind once.
#[must_use]
pub fn why_not(option: &Opt) -> Vec<Reason> {
    let mut out: Vec<Reason> = Vec::new();
    for line in option.floor_lines.iter().filter(|line| line.needed) {
        if line.header.is_none() {
            out.push(Reason::new(
                "floor_line",
                format!("Floor {} {} of the wall: {}", line.floor, line.side, line.why),
            ));
        }
        for check in line.checks.iter().filter(|check| check.utilisation > 1.0 + 1e-9) {
            let words = format!(
                "The line for floor {} {} of the wall: {} at {}, asked {:.2} {}, can {:.2} {}.",
                line.floor,
                line.side,
                check_words(&check.name),
                check.at,
                check.demand,
                check.unit,
                check.resistance,
                check.unit
            );
            let told = format!("{} at", check_words(&check.name));
            if !out.iter().any(|reason| reason.words.contains(&told)) {
                out.push(Reason::new("floor_line", words));
            }
        }
    }
    out
}

/// Lists what is taken as true for the lines of their own and the props beside them.
pub fn assume(job: &Job, geometry: &Geometry, assumptions: &mut Vec<Assumption>) {
    for (i, storey) in job.above.iter().enumerate() {
        let Some(floor) = storey.floor.as_ref() else { continue };
        if !has_own_line(job, geometry, i) {
            continue;
        }
        let mut add = |key: &str, value, words: String, source: &str| {
            assumptions.push(Assumption {
                path: format!("/above/{i}/floor/{key}"),
                value,
                words,
                source: source.to_owned(),
            });
        };
        add(
            "joist_depth_m",
            json!([JOIST_MM, (floor.joist_depth_m * 1000.0 - FLOOR_BOARDS_MM).round()]),
            format!(
                "joists taken as C16, {JOIST_MM:.0} × {:.0} mm ({FLOOR_BOARDS_MM:.0} mm of the depth are boards), sound and unnotched over the header; look at them",
                floor.joist_depth_m * 1000.0 - FLOOR_BOARDS_MM
            ),
            "common practice, no source",
        );
        if held(job, geometry, i) == Some(Held::Below) && floor.inside_span_m > 0.0 {
            add(
                "joist_spacing_m",
                json!(floor.joist_spacing_m),
                format!(
                    "props of the needles pass through this floor: a hole in boards and ceiling between two joists, {:.0} mm clear; no joist is cut or notched for it. Where a needle's place falls on a joist, that is for an engineer",
                    floor.joist_spacing_m * 1000.0 - JOIST_MM
                ),
                "own judgement",
            );
        }
    }
}

/// What the wall loses as a tie where the floor that is named as its tie bears below the needles: the opening cuts it.
/// Without another floor or a roof that ties the wall above the needles the method does not apply; with one the answer is
/// capped. [own, after the rule that a restraint that the opening cuts does not count]
pub fn restraint(job: &Job, geometry: &Geometry, verdict: &mut Verdict) {
    let above = |i: usize| {
        geometry
            .floors_m
            .get(i)
            .is_some_and(|level| *level > geometry.soffit_m + 1e-9)
    };
    let strapped = job.answers.restraint == Restraint::Strapped;
    let cut = match held(job, geometry, 0) {
        Some(Held::Below) => strapped || job.answers.restraint == Restraint::Floor,
        // Straps to joists along the wall are cut with it as well.
        Some(Held::Along) => strapped && !above(0),
        _ => false,
    };
    if !cut {
        return;
    }
    let straps_above = strapped && (1..job.above.len()).any(|i| above(i) && held(job, geometry, i).is_some());
    if straps_above || geometry.ties_m.iter().any(|tie| *tie > geometry.soffit_m + 1e-9) {
        verdict.caps.push(Reason::new(
            "floor_tie_cut",
            "The floor that ties the wall bears below the needles: over the opening it ties nothing until its joists hang on the new beam. The rakers hold the wall at the needles, the next floor or roof holds it above.",
        ));
    } else {
        verdict.no_model.push(Reason::new(
            "restraint",
            "The floor named as what ties the wall bears below the needles and is cut from the wall, and nothing else above ties it.",
        ));
    }
}
