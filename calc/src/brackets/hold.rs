//! What holds a wall on brackets sideways: never the bracket props, which take nothing sideways together with their load.
//!
//! A load beside its prop turns the prop's head towards the wall: each line pushes the leaf it carries with load × arm ÷
//! length, several times the least sideways force. Across the wall that push counts as known, and rakers of their own with
//! a waling on the wall take it to the ground; the floor or roof named as what ties the wall holds its upper edge. Along
//! the wall the masonry over the opening hangs together with the masonry beside it.

use super::masonry::FRICTION;
use super::row::Row;
use crate::candidate::LegChoice;
use crate::checks::rakers::Raker;
use crate::checks::sideways::{ADDED_SHARE, LEAST_SHARE, wind_kn};
use crate::checks::{At, Finding, Side, Sink};
use crate::clause::sideways::{SOURCE as H_MIN, Sideways, h_min};
use crate::demand::service;
use crate::job::{Restraint, Side as SideInput};
use crate::legs::leg_length_m;
use crate::proposal::Bracing;
use crate::source::{Seen, Source};

const PUSH: Source = Source::new(
    "statics of a prop loaded beside its axis",
    "load × arm ÷ length at head and foot",
    Seen::Model("prop pinned at its foot, its head against the wall"),
);

/// What holds it, and what is asked of that.
pub struct Held {
    /// As the contract has it.
    pub bracing: Bracing,
    /// Rakers on each side.
    pub rakers: u32,
    /// Length of one, m.
    pub raker_m: f64,
    one_each: [Raker; 2],
    sides: [SideInput; 2],
    one_kn: f64,
    push_kn: f64,
    wind_kn: f64,
    beside_kn: f64,
}

/// Designs the least that holds a row sideways.
pub fn hold(row: &Row<'_, '_>, legs: &[LegChoice]) -> Held {
    let (job, geometry, scene) = (row.scene.job, row.scene.geometry, row.scene);
    let (left, right) = (geometry.cut_left_m, geometry.cut_right_m);
    let (mut v_kn, mut push_kn) = (0.0, 0.0_f64);
    for (line, choice) in row.lines.iter().zip(legs) {
        let load = row
            .burden
            .loads
            .straight(line.leaf)
            .map_or(0.0, |steps| service(&steps.between(left, right)));
        let length = scene
            .boards
            .get(choice.boards)
            .map_or(1.0, |boards| leg_length_m(job, geometry, line.side, boards))
            .max(0.5);
        v_kn += load;
        // Both lines push towards each other, but not surely at the same time: the greater counts alone.
        push_kn = push_kn.max(load * row.kit.arm_mm / 1000.0 / length);
    }
    let wind = wind_kn(job, geometry, geometry.soffit_m, scene.national);
    let least = |identified_kn| {
        h_min(&Sideways {
            v_kn,
            identified_kn,
            least_share: LEAST_SHARE,
            added_share: ADDED_SHARE,
        })
        .h_kn
    };
    let (along, across) = (least(0.0), least(push_kn + wind));
    // They start at the wall's face, from a waling.
    let rakers = [&job.sides.inside, &job.sides.outside].map(|side| Raker::of(side, geometry.soffit_m, 0.0));
    let one_kn = rakers.iter().map(|raker| raker.one_kn).fold(f64::INFINITY, f64::min);
    let raker_m = rakers.iter().map(|raker| raker.length_m).fold(0.0, f64::max);
    let [inside, outside] = rakers.map(|raker| format!("{:.0}°", raker.angle_deg));
    let count = (across / one_kn.max(1e-6)).ceil().clamp(2.0, 40.0);
    let permanent: f64 = (0..scene.leaves.len())
        .filter_map(|i| scene.loads.straight(i))
        .map(|steps| steps.between(left, right).permanent() / (right - left))
        .sum();
    let beside_kn = permanent * (scene.beside_m.0 + scene.beside_m.1);
    let named = match job.answers.restraint {
        Restraint::Floor => "the floor just above",
        Restraint::Roof => "the roof",
        Restraint::Strapped => "the straps to floor or roof",
        Restraint::Designed => "the restraint that was designed",
        Restraint::None | Restraint::Unknown => "nothing that is named",
    };
    let way = vec![
        format!("Upper edge: held by {named}; it must not be touched while the wall stands on brackets."),
        format!(
            "Across the wall: {count:.0} rakers a side of their own, tube 48.3 × 3.2, {:.1} m each, from a waling fixed along the wall just above the brackets down to the ground at {inside} inside and {outside} outside, their feet against a fixed kicker. Nothing is fixed to the bracket props: they take no sideways force.",
            raker_m
        ),
        "Along the wall: the masonry over the opening stays joined to the masonry beside it; no slot nearer to the cut edge than shown.".to_owned(),
        format!(
            "Feet: each line pushes its boards away from the wall with up to {push_kn:.2} kN in all, and its heads towards it: boards fixed against sliding, foot plates screwed to them, heads fixed in their brackets and the plates packed tight."
        ),
    ];
    Held {
        bracing: Bracing {
            v_kn,
            demand_along_kn: along,
            demand_across_kn: across,
            resistance_along_kn: FRICTION * beside_kn,
            resistance_across_kn: count * one_kn,
            way,
        },
        rakers: count as u32,
        raker_m,
        one_each: rakers,
        sides: [job.sides.inside.clone(), job.sides.outside.clone()],
        one_kn,
        push_kn,
        wind_kn: wind,
        beside_kn,
    }
}

impl Held {
    /// Puts both directions into a sink.
    pub fn check(&self, sink: &mut impl Sink) {
        let b = &self.bracing;
        for ((side, raker), input) in [Side::Inside, Side::Outside]
            .into_iter()
            .zip(&self.one_each)
            .zip(&self.sides)
        {
            raker.check_room(At::Bracket(0, side), input, sink);
        }
        let finding = |name, demand, resistance| Finding {
            name,
            at: At::All,
            demand,
            resistance,
            unit: "kN",
            source: H_MIN,
        };
        sink.put(
            finding("sideways_along", b.demand_along_kn, b.resistance_along_kn),
            &|| {
                vec![
                    format!("H = 2.5 % V, V = {:.1} kN: {:.2} kN", b.v_kn, b.demand_along_kn),
                    format!(
                        "the masonry beside the cut, joined to what is over it: {FRICTION} × {:.1} kN of permanent load = {:.2} kN",
                        self.beside_kn, b.resistance_along_kn
                    ),
                ]
            },
        );
        sink.put(
            finding("sideways_across", b.demand_across_kn, b.resistance_across_kn),
            &|| {
                vec![
                    format!(
                        "the heavier line pushes the wall with load × arm ÷ length = {:.2} kN ({PUSH}); wind on the wall over the cut {:.2} kN",
                        self.push_kn, self.wind_kn
                    ),
                    format!(
                        "H = max(2.5 % V, push + wind + 1 % V), V = {:.1} kN: {:.2} kN",
                        b.v_kn, b.demand_across_kn
                    ),
                    format!(
                        "one raker of up to {:.2} m, not fixed to the props, resists {:.2} kN; {} push at a time: {:.2} kN",
                        self.raker_m, self.one_kn, self.rakers, b.resistance_across_kn
                    ),
                ]
            },
        );
    }
}

/// Word of the leaf in the contract: a single leaf by the side that its line stands on.
pub fn leaf_word(leaf: usize, count: usize, side: Side) -> &'static str {
    match (count, leaf, side) {
        (1, _, Side::Inside) | (_, 1, _) => "inner",
        _ => "outer",
    }
}
