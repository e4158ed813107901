//! Cutting the opening under the needles.

use super::say::{list, m, member};
use super::{Group, OWN, OrderStep, Site, step};
use crate::proposal::Opt;
use crate::source::{Seen, Source};

const ARCH: Source = Source::new(
    "flat arch between needles",
    "loose triangle, half the clear gap high",
    Seen::Model("the masonry under the arch hangs on nothing"),
);
const PLATE: Source = Source::new(
    "wall plate carried between needles",
    "loose courses taken down or strapped",
    Seen::Own,
);
const NIGHT: Source = Source::new(
    "forum topic 1685934 (23 Jul 2017); CROSS report 128",
    "left overnight or over a weekend",
    Seen::Secondary("summaries of the accounts"),
);

/// Steps of cutting.
pub fn steps(site: &Site<'_>, option: &Opt) -> Vec<OrderStep> {
    let mut out = Vec::new();
    if is_plate_case(option) {
        out.push(plate(site, option));
    } else {
        out.extend(loose(site, option));
    }
    out.push(padstones(site));
    out.push(slot(site));
    out.push(rest(site));
    out.push(
        step(
            Group::Cutting,
            "stages",
            "Stop after each stage and do a round. Gauge, lean, packs, boards. Rubble goes out at once, never on floors, never against a prop.",
        )
        .sourced(OWN)
        .at("after each stage of cutting"),
    );
    out.push(night("every needle packed; no hole without its needle"));
    out
}

/// Whether the wall plate carries between the needles instead of an arch.
pub fn is_plate_case(option: &Opt) -> bool {
    option.checks.iter().any(|check| check.name == "plate_bending")
}

/// Loose triangles by name and height, the end bays too.
fn loose(site: &Site<'_>, option: &Opt) -> Vec<OrderStep> {
    let width_m = option
        .needles
        .first()
        .and_then(|needle| member(&needle.section))
        .map_or(0.0, |member| member.width_mm() / 1000.0);
    let mut bays: Vec<(String, f64)> = Vec::new();
    if let Some(first) = option.needles.first() {
        bays.push((
            format!("left jamb to {}", first.name),
            first.x_m - width_m / 2.0 - site.geometry.cut_left_m,
        ));
    }
    for (a, b) in option.needles.iter().zip(option.needles.iter().skip(1)) {
        bays.push((format!("{} to {}", a.name, b.name), b.x_m - a.x_m - width_m));
    }
    if let Some(last) = option.needles.last() {
        bays.push((
            format!("{} to right jamb", last.name),
            site.geometry.cut_right_m - last.x_m - width_m / 2.0,
        ));
    }
    let named: Vec<String> = bays
        .iter()
        .filter(|(_, gap_m)| *gap_m > 0.02)
        .map(|(name, gap_m)| format!("{name} {}", m(gap_m / 2.0)))
        .collect();
    named
        .chunks(5)
        .map(|few| {
            step(
                Group::Cutting,
                "loose_triangles",
                format!(
                    "Loose masonry hangs over the cut, m high: {}. Take it down or strut it, from the side, before anybody stands under it.",
                    few.join(", ")
                ),
            )
            .with_photo()
            .sourced(ARCH)
        })
        .collect()
}

/// Courses between needles where only the wall plate carries.
fn plate(site: &Site<'_>, option: &Opt) -> OrderStep {
    let over_mm = ((site.geometry.top_m - option.needle_top_m) * 1000.0).max(0.0);
    let names: Vec<String> = option.needles.iter().map(|needle| needle.name.clone()).collect();
    let between = match names.as_slice() {
        [first, _, _, .., last] => format!("{first} to {last}"),
        _ => list(&names),
    };
    step(
        Group::Cutting,
        "plate_courses",
        format!(
            "Only the wall plate carries from needle to needle ({between}): nothing holds the {over_mm:.0} mm of courses over the needle tops. Take them down between needles and to the jambs, or strap them to the plate, first.",
        ),
    )
    .with_photo()
    .sourced(PLATE)
}

fn padstones(site: &Site<'_>) -> OrderStep {
    step(
        Group::Cutting,
        "padstones",
        format!(
            "Padstones first, one jamb at a time, top at {} m: pocket cut, stone bedded level, then the other jamb. Bed cured, as its product and the engineer ask, before the beam comes on.",
            m(site.geometry.beam_top_m - site.job.opening.beam_depth_mm / 1000.0)
        ),
    )
    .with_photo()
}

fn slot(site: &Site<'_>) -> OrderStep {
    let top = site.geometry.beam_top_m;
    step(
        Group::Cutting,
        "slot",
        format!(
            "First stage, from the top down: saw both jamb lines, then only the slot for the beam, from {} to {} m, middle first, jambs last. The wall below stays as long as it can.",
            m(top - site.job.opening.beam_depth_mm / 1000.0),
            m(site.geometry.soffit_m)
        ),
    )
    .sourced(OWN)
    .with_photo()
}

fn rest(site: &Site<'_>) -> OrderStep {
    let marked = site.job.opening.width_m;
    let fall = (site.geometry.cut_width_m() - marked) / 2.0;
    let stone = if fall > 0.001 {
        format!(" Up to {} m more may fall at each jamb.", m(fall))
    } else {
        String::new()
    };
    step(
        Group::Cutting,
        "rest_of_opening",
        format!(
            "Rest of the opening, {} m wide: better after the beam is packed and cured. Course by course from the top, middle first, jambs last by saw. Never undercut, never pull it down.{stone}",
            m(marked)
        ),
    )
    .sourced(OWN)
    .at("after the beam is cured, or as the engineer says")
}

/// What is asked before leaving for a night; `carried` says that every needle or bracket carries.
pub fn night(carried: &str) -> OrderStep {
    step(
        Group::Cutting,
        "before_night",
        format!(
            "Before leaving for a night or weekend: round done; {carried}; braces on; opening boarded; zone closed; nobody asleep above unless the engineer says so."
        ),
    )
    .with_photo()
    .stops("last one to leave")
    .sourced(NIGHT)
    .at("every evening")
}
