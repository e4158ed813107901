//! Where the lines of props stand beside the wall.

use crate::candidate::Candidate;
use crate::checks::rakers::Raker;
use crate::checks::sideways::tie;
use crate::checks::{At, Finding, Side, Sink};
use crate::job::Side as SideInput;
use crate::scene::Scene;
use crate::source::{Seen, Source};

/// Distances of a prop axis from the wall's face tried, mm, in the order tried.
const DISTANCES_MM: &[f64] = &[
    450.0, 400.0, 350.0, 300.0, 500.0, 550.0, 600.0, 650.0, 700.0, 750.0, 800.0, 850.0, 900.0, 950.0, 1000.0,
];
/// How many of these are 450 mm or nearer.
pub const NEAR_ONES: usize = 4;
/// Nearest and farthest a prop axis may stand from the wall's face, mm. Own judgement.
const NEAREST_MM: f64 = 300.0;
const FARTHEST_MM: f64 = 1000.0;
/// Room that must stay between a prop axis and the end of the working room, mm.
const BEHIND_MM: f64 = 150.0;
/// Room beside the beam where it is lifted between the wall and a line of props, mm. Own judgement.
const BESIDE_BEAM_MM: f64 = 50.0;

/// A beam deeper than this is narrower than deep, and is carried on its side. Own judgement.
const WIDEST_BEAM_MM: f64 = 254.0;

/// Whether the new beam is lifted in from inside: from the side with more room.
fn lifted_inside(scene: &Scene<'_>) -> bool {
    scene.job.sides.inside.room_m >= scene.job.sides.outside.room_m
}

/// Pairs of distances to try: both sides alike, each as far as its working room allows, wide enough for the beam on the
/// side where it is lifted. What does not fit is shown by the checks of place.
pub fn distances(scene: &Scene<'_>) -> Vec<(f64, f64)> {
    let fix = scene.job.fix.as_ref();
    let thickness = scene.geometry.thickness_mm;
    let most = |side: &SideInput| ((side.room_m * 1000.0 - BEHIND_MM) / 50.0 + 1e-9).floor() * 50.0;
    let (most_in, most_out) = (most(&scene.job.sides.inside), most(&scene.job.sides.outside));
    let beam = beam_room_mm(scene);
    let mut out = Vec::with_capacity(DISTANCES_MM.len());
    for distance in DISTANCES_MM {
        let on = |lifted: bool, most: f64| {
            if lifted { distance.max(beam) } else { *distance }
                .min(most)
                .max(NEAREST_MM)
        };
        let inside = fix
            .and_then(|fix| fix.inside_y_mm)
            .unwrap_or_else(|| thickness + on(lifted_inside(scene), most_in));
        let outside = fix
            .and_then(|fix| fix.outside_y_mm)
            .unwrap_or_else(|| -on(!lifted_inside(scene), most_out));
        // Axes must at least be apart for a needle to be a beam at all.
        if inside - outside > 100.0 && !out.contains(&(inside, outside)) {
            out.push((inside, outside));
        }
    }
    out
}

/// Least distance of a prop axis where the new beam is lifted through: the beam lies at most as wide as deep.
fn beam_room_mm(scene: &Scene<'_>) -> f64 {
    ((scene.job.opening.beam_depth_mm.min(WIDEST_BEAM_MM) + BESIDE_BEAM_MM) / 50.0 - 1e-9).ceil() * 50.0
}

const ROOM: Source = Source::new(
    "working room beside the wall",
    "prop axis + 150 mm within it",
    Seen::Own,
);
const PLACE: Source = Source::new(
    "distance of the props from the wall",
    "0.30 to 1.0 m from its faces",
    Seen::Own,
);
const BEAM: Source = Source::new(
    "way of the new beam",
    "between the wall and the line of props",
    Seen::Own,
);

/// Where the props stand: within the working room, neither too near nor too far, with a way in for the beam.
pub fn room(scene: &Scene<'_>, candidate: &Candidate, sink: &mut impl Sink) {
    let sides = [
        (
            Side::Inside,
            candidate.inside_mm - scene.geometry.thickness_mm,
            &scene.job.sides.inside,
        ),
        (Side::Outside, -candidate.outside_mm, &scene.job.sides.outside),
    ];
    let tied = tie(scene.job, scene.geometry, scene.total_service_kn(), scene.national).is_some();
    for (side, distance, input) in sides {
        let at = At::Prop(0, side);
        let mut put = |name, demand, resistance, source, words: &dyn Fn() -> String| {
            sink.put(
                Finding {
                    name,
                    at,
                    demand,
                    resistance,
                    unit: "m",
                    source,
                },
                &|| vec![words()],
            );
        };
        let asked = (distance + BEHIND_MM) / 1000.0;
        put("working_room", asked, input.room_m, ROOM, &|| {
            format!(
                "props {distance:.0} mm from the wall's face and 150 mm behind them, room {:.2} m",
                input.room_m
            )
        });
        put("prop_distance", NEAREST_MM / 1000.0, distance / 1000.0, PLACE, &|| {
            format!("props {distance:.0} mm from the wall's face, at least {NEAREST_MM:.0} mm")
        });
        put("prop_distance", distance / 1000.0, FARTHEST_MM / 1000.0, PLACE, &|| {
            format!("props {distance:.0} mm from the wall's face, at most {FARTHEST_MM:.0} mm")
        });
        if (side == Side::Inside) == lifted_inside(scene) {
            let beam = beam_room_mm(scene);
            put("beam_room", beam / 1000.0, distance / 1000.0, BEAM, &|| {
                format!(
                    "the beam needs {beam:.0} mm between wall and props on the side it is lifted from, {distance:.0} mm are there"
                )
            });
        }
        // Ties up to the joists just above stand in for rakers that have no room.
        let raker = Raker::of(input, scene.geometry.soffit_m, distance / 1000.0);
        if raker.fits || !tied {
            raker.check_room(at, input, sink);
        }
    }
}
