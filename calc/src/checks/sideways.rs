//! Tipping sideways: the least horizontal force at the heads, wind, and the bracing that takes it to the ground.

use super::{At, Finding, Sink};
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
/// Wall of the bracing tube, mm.
const TUBE_MM: f64 = 3.2;
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
    /// Rakers on each side of the wall.
    pub rakers_per_side: u32,
    /// Length of one diagonal, m.
    pub diagonal_m: f64,
    /// Length of one raker, m.
    pub raker_m: f64,
    /// What one diagonal resists along the wall, kN.
    pub one_along_kn: f64,
    /// What one raker resists across the wall, kN.
    pub one_across_kn: f64,
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

/// Designs the least bracing for a support with a total service load `v_kn`.
#[must_use]
pub fn brace(
    job: &Job,
    geometry: &Geometry,
    soffit_m: f64,
    v_kn: f64,
    axes: &[f64],
    national: &NationalParameters,
) -> Braced {
    let wind = wind_kn(job, geometry, soffit_m, national);
    let least = |identified_kn| {
        h_min(&Sideways {
            v_kn,
            identified_kn,
            least_share: LEAST_SHARE,
            added_share: ADDED_SHARE,
        })
        .h_kn
    };
    let (along, across) = (least(0.0), least(wind));
    let height = (soffit_m - job.sides.outside.foot_level_m.min(job.sides.inside.foot_level_m)).max(0.5);
    let run = match (axes.first(), axes.last()) {
        (Some(first), Some(last)) if axes.len() > 1 => ((last - first) / (axes.len() - 1) as f64).max(0.3),
        _ => height,
    };
    // A brace starts within 0.15 m of the head and of the foot.
    let rise = (height - 0.3).max(0.2);
    let diagonal = (rise * rise + run * run).sqrt();
    let one_along = one_brace(diagonal * 1000.0, TUBE_MM, rise.atan2(run).to_degrees(), 1.0).h_kn;
    let raker = (rise * rise * 2.0).sqrt();
    let one_across = one_brace(raker * 1000.0, TUBE_MM, 45.0, 1.0).h_kn;
    // At least two diagonals a line, in opposite directions, so that one always pushes whichever way it tips; only the
    // pushing half counts. Rakers likewise: only one side's push at a time. They are enough for a use of at most 0.90, as
    // the search seeks for everything else: a brace more costs little and must not be what makes an option close.
    let pairs = (along / (2.0 * one_along * CLOSE)).ceil().max(1.0);
    let rakers = (across / (one_across * CLOSE)).ceil().max(2.0);
    let way = vec![
        "Heads: needles packed tight in the wall; the floor or roof named as what ties the wall holds its upper edge."
            .to_owned(),
        format!(
            "Along the wall: tube 48.3 × 3.2 lacing at head and foot of each line of props, {} diagonals a line in opposite directions, {:.1} m each, fixed with fittings for the real diameter of the prop's tubes (a 48.3 coupler does not grip a prop's outer tube).",
            2.0 * pairs,
            diagonal
        ),
        format!(
            "Across the wall: {rakers:.0} rakers a side from the heads down to the ground at 45°, {raker:.1} m each, their feet against a fixed kicker."
        ),
        "Foot: boards fixed against sliding; kickers on solid ground, not on the boards.".to_owned(),
    ];
    Braced {
        bracing: Bracing {
            v_kn,
            demand_along_kn: along,
            demand_across_kn: across,
            resistance_along_kn: 2.0 * pairs * one_along,
            resistance_across_kn: rakers * one_across,
            way,
        },
        diagonals_per_line: (2.0 * pairs) as u32,
        rakers_per_side: rakers as u32,
        diagonal_m: diagonal,
        raker_m: raker,
        one_along_kn: one_along,
        one_across_kn: one_across,
        wind_kn: wind,
    }
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
        vec![
            format!("wind on the wall over the cut {:.2} kN", braced.wind_kn),
            format!(
                "H = max(2.5 % V, wind + 1 % V), V = {:.1} kN: {:.2} kN",
                b.v_kn, b.demand_across_kn
            ),
            format!(
                "one raker of {:.2} m at 45° resists {:.2} kN: {BRACE}",
                braced.raker_m, braced.one_across_kn
            ),
            format!(
                "{} rakers push at a time: {:.2} kN",
                braced.rakers_per_side, b.resistance_across_kn
            ),
        ]
    });
}
