//! Tipping sideways: the least horizontal force at the heads, wind, and the bracing that takes it to the ground.

use super::rakers::{Raker, TUBE_MM, Tie, rise_m};
use super::{At, Finding, Side, Sink};
use crate::clause::NationalParameters;
use crate::clause::en1991::wind::{Wind, gust_kn_m2, q_p, terrain};
use crate::clause::sideways::{SOURCE as H_MIN, Sideways, brace as one_brace, h_min};
use crate::geometry::Geometry;
use crate::job::Job;
use crate::proposal::Bracing;
use crate::propose::CLOSE;
use crate::source::{Seen, Source};

/// Pressure and suction together on a freestanding strip of wall. Own judgement.
const WIND_SHAPE: f64 = 1.2;
/// Least share of the load as a sideways force. BS 5975 and Bragg report, read in secondary texts.
pub const LEAST_SHARE: f64 = 0.025;
/// Share of the load added to forces that are named. BS 5975 and Bragg report, read in secondary texts.
pub const ADDED_SHARE: f64 = 0.01;

const BRACE: Source = Source::new(
    "EN 1993-1-1:2005 6.3.1 curve c for the tube; EN 74-1 for the coupler",
    "the smaller of both, times the cosine of the brace",
    Seen::Memory,
);

/// What the bracing of a support has to meet and is made of.
#[derive(Clone, Debug, PartialEq)]
pub struct Braced {
    /// As the contract has it.
    pub bracing: Bracing,
    /// Diagonals along the wall on each line of props.
    pub diagonals_per_line: u32,
    /// Rakers inside and outside, with their number; none where a floor's joists hold the heads instead.
    pub rakers: [Option<(Raker, u32)>; 2],
    /// Ties up to a floor's joists, where a side has no room for rakers.
    pub tie: Option<Tie>,
    /// Length of one diagonal, m.
    pub diagonal_m: f64,
    /// What one diagonal resists along the wall, kN.
    pub one_along_kn: f64,
    /// Permanent load that comes down between the two lines of heads, kN.
    pub permanent_kn: f64,
    /// Wind on the wall over the cut, kN.
    pub wind_kn: f64,
}

/// Wind on the wall over the cut up to half the height to the next floor or roof that ties it, kN.
#[must_use]
pub fn wind_kn(job: &Job, geometry: &Geometry, soffit_m: f64, national: &NationalParameters) -> f64 {
    let Some((z0_m, z_min_m)) = terrain(job.site.terrain.name()) else {
        return 0.0;
    };
    let wind = Wind {
        vb_m_s: job.site.wind_m_s,
        z0_m,
        z_min_m,
        z_m: soffit_m.max(z_min_m),
        rho_kg_m3: national.air_kg_m3.value,
    };
    let pressure = q_p(&wind).q_p_kn_m2;
    let pressure = job
        .site
        .gust_m_s
        .map_or(pressure, |gust| pressure.max(gust_kn_m2(gust)));
    pressure * wind_area_m2(job, geometry, soffit_m)
}

/// Force of a gust on the same stretch of wall, kN: 0.613 v² N/m², on an outside wall only.
#[must_use]
pub fn gust_kn(job: &Job, geometry: &Geometry, soffit_m: f64, gust_m_s: f64) -> f64 {
    gust_kn_m2(gust_m_s) * wind_area_m2(job, geometry, soffit_m)
}

/// What a wind pressure is multiplied by, m²: the wall over the cut up to half the height to the next tie, with its shape.
fn wind_area_m2(job: &Job, geometry: &Geometry, soffit_m: f64) -> f64 {
    if !job.wall.outside_wall {
        return 0.0;
    }
    let tie = geometry.next_tie_m(soffit_m);
    WIND_SHAPE * geometry.cut_width_m() * (tie - soffit_m).max(0.0) / 2.0
}

/// The least sideways force beside a force that is known, kN.
fn least_kn(v_kn: f64, identified_kn: f64) -> f64 {
    h_min(&Sideways {
        v_kn,
        identified_kn,
        least_share: LEAST_SHARE,
        added_share: ADDED_SHARE,
    })
    .h_kn
}

/// Ties up to a floor's joists, where they hold what is asked across the wall under a total service load `v_kn`.
#[must_use]
pub fn tie(job: &Job, geometry: &Geometry, v_kn: f64, national: &NationalParameters) -> Option<Tie> {
    let soffit_m = geometry.soffit_m;
    let across = least_kn(v_kn, wind_kn(job, geometry, soffit_m, national));
    Tie::of(job, geometry, soffit_m).filter(|tie| across <= tie.all_kn() * CLOSE)
}

/// What a support has to be braced for.
#[derive(Clone, Copy, Debug)]
pub struct Frame<'a> {
    /// Total service load, kN.
    pub v_kn: f64,
    /// Permanent part of it, kN.
    pub permanent_kn: f64,
    /// Axes of the needles, m.
    pub axes: &'a [f64],
    /// Distance of the heads from the wall's face inside and outside, m.
    pub heads_m: [f64; 2],
}

/// Designs the least bracing for a support.
#[must_use]
pub fn brace(job: &Job, geometry: &Geometry, frame: &Frame<'_>, national: &NationalParameters) -> Braced {
    let Frame { v_kn, axes, .. } = *frame;
    let soffit_m = geometry.soffit_m;
    let wind = wind_kn(job, geometry, soffit_m, national);
    let (along, across) = (least_kn(v_kn, 0.0), least_kn(v_kn, wind));
    let height = (soffit_m - job.sides.outside.foot_level_m.min(job.sides.inside.foot_level_m)).max(0.5);
    let run = match (axes.first(), axes.last()) {
        (Some(first), Some(last)) if axes.len() > 1 => ((last - first) / (axes.len() - 1) as f64).max(0.3),
        _ => height,
    };
    let rise = rise_m(height, 0.0);
    let diagonal = (rise * rise + run * run).sqrt();
    let one_along = one_brace(diagonal * 1000.0, TUBE_MM, rise.atan2(run).to_degrees(), 1.0).h_kn;
    let [inside, outside] =
        [(Side::Inside, &job.sides.inside), (Side::Outside, &job.sides.outside)].map(|(side, input)| {
            let [near_in, near_out] = frame.heads_m;
            let distance = if side == Side::Inside { near_in } else { near_out };
            Raker::of(input, soffit_m, distance)
        });
    // The search leaves out rakers where ties hold with room to spare; here they are judged like any other brace.
    let tie = Tie::of(job, geometry, soffit_m).filter(|_| !(inside.fits && outside.fits));
    // At least two diagonals a line, in opposite directions, so that one always pushes whichever way it tips; only the
    // pushing half counts. Rakers likewise: only one side's push at a time. They are enough for a use of at most 0.90, as
    // the search seeks for everything else: a brace more costs little and must not be what makes an option close.
    let pairs = (along / (2.0 * one_along * CLOSE)).ceil().max(1.0);
    let counted = |raker: Raker| {
        let count = (across / (raker.one_kn * CLOSE)).ceil().clamp(2.0, 99.0);
        // What does not fit fails by its own check of place, unless ties stand in for it.
        (raker.fits || tie.is_none()).then_some((raker, count as u32))
    };
    let rakers = [counted(inside), counted(outside)];
    let by_tie = tie.map_or(0.0, |tie| tie.all_kn());
    let resistance_across_kn = rakers
        .iter()
        .map(|side| side.map_or(by_tie, |(raker, count)| f64::from(count) * raker.one_kn))
        .fold(f64::INFINITY, f64::min);
    let mut way = vec![
        "Heads: needles packed tight in the wall; the floor or roof named as what ties the wall holds its upper edge."
            .to_owned(),
        format!(
            "Along the wall: tube 48.3 × 3.2 lacing at head and foot of each line of props, {} diagonals a line in opposite directions, {:.1} m each, fixed with fittings for the real diameter of the prop's tubes (a 48.3 coupler does not grip a prop's outer tube).",
            2.0 * pairs,
            diagonal
        ),
    ];
    way.extend(across_in_words(&rakers, tie));
    way.push("Foot: boards fixed against sliding; kickers on solid ground, not on the boards.".to_owned());
    Braced {
        bracing: Bracing {
            v_kn,
            demand_along_kn: along,
            demand_across_kn: across,
            resistance_along_kn: 2.0 * pairs * one_along,
            resistance_across_kn,
            way,
        },
        diagonals_per_line: (2.0 * pairs) as u32,
        rakers,
        tie,
        diagonal_m: diagonal,
        one_along_kn: one_along,
        permanent_kn: frame.permanent_kn,
        wind_kn: wind,
    }
}

/// Words for what holds the heads across the wall, side by side.
fn across_in_words(rakers: &[Option<(Raker, u32)>; 2], tie: Option<Tie>) -> Vec<String> {
    let mut out = Vec::with_capacity(3);
    for (side, rakers) in sides().zip(rakers) {
        out.push(match rakers {
            Some((raker, count)) => format!(
                "Across the wall, {}: {count} rakers from the heads down to the ground at {:.0}°, {:.1} m each, their feet against a fixed kicker.",
                side.word(),
                raker.angle_deg,
                raker.length_m
            ),
            None => format!("Across the wall, {}: no raker fits in the room there.", side.word()),
        });
    }
    if let Some(tie) = tie {
        out.push(format!(
            "In their place ties hold both ways: a rail 100 × 50 mm fixed along the needles' ends, and from it a timber 47 × 100 mm at 45° up to each of {} joists of floor {}, two screws 5 × 100 at each end. The ceiling is opened there; the floor's boards stay down.",
            tie.joists, tie.floor
        ));
    }
    out
}

/// Puts both directions into a sink.
pub fn check(braced: &Braced, sink: &mut impl Sink) {
    let b = &braced.bracing;
    let along = Finding {
        name: "sideways_along",
        at: At::All,
        demand: b.demand_along_kn,
        resistance: b.resistance_along_kn,
        unit: "kN",
        source: H_MIN,
    };
    sink.put(along, &|| {
        vec![
            format!(
                "H = max(2.5 % V, known + 1 % V), V = {:.1} kN: {:.2} kN",
                b.v_kn, b.demand_along_kn
            ),
            format!(
                "one diagonal of {:.2} m resists {:.2} kN along the wall: {BRACE}",
                braced.diagonal_m, braced.one_along_kn
            ),
            format!(
                "{} of {} diagonals a line push at a time, two lines: {:.2} kN",
                braced.diagonals_per_line / 2,
                braced.diagonals_per_line,
                b.resistance_along_kn
            ),
        ]
    });
    let across = Finding {
        name: "sideways_across",
        at: At::All,
        demand: b.demand_across_kn,
        resistance: b.resistance_across_kn,
        unit: "kN",
        source: H_MIN,
    };
    sink.put(across, &|| {
        let mut steps = vec![
            format!("wind on the wall over the cut {:.2} kN", braced.wind_kn),
            format!(
                "H = max(2.5 % V, wind + 1 % V), V = {:.1} kN: {:.2} kN",
                b.v_kn, b.demand_across_kn
            ),
        ];
        for (side, rakers) in sides().zip(&braced.rakers) {
            if let Some((raker, count)) = rakers {
                steps.push(format!(
                    "{}: one raker of {:.2} m at {:.0}° resists {:.2} kN: {BRACE}; {count} push at a time: {:.2} kN",
                    side.word(),
                    raker.length_m,
                    raker.angle_deg,
                    raker.one_kn,
                    f64::from(*count) * raker.one_kn
                ));
            }
        }
        if let Some(tie) = braced.tie {
            steps.push(format!(
                "ties up to {} joists of floor {}, {:.2} kN each, the lesser of two screws at 45° and 0.9 of a joist's dead load near the wall: {:.2} kN",
                tie.joists,
                tie.floor,
                tie.one_kn,
                tie.all_kn()
            ));
        }
        steps
    });
    for (side, rakers) in sides().zip(&braced.rakers) {
        if let Some((raker, _)) = rakers {
            raker.check_lift(side, b.demand_across_kn, braced.permanent_kn / 2.0, sink);
        }
    }
}

fn sides() -> impl Iterator<Item = Side> {
    [Side::Inside, Side::Outside].into_iter()
}
