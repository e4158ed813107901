//! One candidate: the choices that follow from a layout and a section, and how it fares.

use crate::checks::arch::{self, Wall};
use crate::checks::bearing::{self, PACKS_MM, Seat};
use crate::checks::feet::{self, BOARDS, Boards, Under};
use crate::checks::needle::{self, Loaded, OVERHANG_MM, worst_reaction_kn};
use crate::checks::statics::{Bridge, Strip};
use crate::checks::{At, Finding, Side, Sink, Worst, plate, prop};
use crate::demand::NeedleLoad;
use crate::geometry::Geometry;
use crate::job::{Job, Side as SideInput};
use crate::propose::{Aim, CLOSE};
use crate::scene::Scene;
use crate::source::{Seen, Source};
use crate::tables::Member;

/// Distances of a prop axis from the wall's face tried, mm, in the order tried.
const DISTANCES_MM: &[f64] = &[
    450.0, 400.0, 350.0, 300.0, 500.0, 550.0, 600.0, 650.0, 700.0, 750.0, 800.0, 850.0, 900.0, 950.0, 1000.0,
];
/// How many of these are 450 mm or nearer.
const NEAR_ONES: usize = 4;
/// Nearest and farthest a prop axis may stand from the wall's face, mm. Own judgement.
const NEAREST_MM: f64 = 300.0;
const FARTHEST_MM: f64 = 1000.0;
/// Room that must stay between a prop axis and the end of the working room, mm.
const BEHIND_MM: f64 = 150.0;
/// Room beside the beam where it is lifted between the wall and a line of props, mm. Own judgement.
const BESIDE_BEAM_MM: f64 = 50.0;

/// A beam deeper than this is narrower than deep, and is carried on its side. Own judgement.
const WIDEST_BEAM_MM: f64 = 254.0;

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
#[derive(Clone, Copy, Debug, PartialEq)]
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

/// What a section on a layout comes to.
#[derive(Clone, Debug, Default)]
pub struct Choices {
    /// The best of each aim, in the order of [`Aim::ALL`]; none where nothing passes.
    pub best: [Option<(Candidate, Judged)>; 3],
    /// The nearest to passing, where nothing passes.
    pub nearest: Option<(Candidate, Judged)>,
}

/// Chooses pack, distances, props and feet for a section on a layout: all used at most 0.90 where that can be had, else
/// at most 1.0, and within that by each aim.
#[must_use]
pub fn judge(scene: &Scene<'_>, axes: &[f64], loads: &[NeedleLoad], section: usize) -> Choices {
    let mut out = Choices::default();
    let Some(member) = scene.sections.get(section).map(|s| &s.member) else {
        return out;
    };
    let packs: Vec<(f64, Worst)> = packs(scene)
        .into_iter()
        .map(|pack| {
            let mut worst = Worst::default();
            masonry(scene, axes, loads, member, pack, &mut worst);
            (pack, worst)
        })
        .collect();
    for limit in [CLOSE, 1.0] {
        let Some((pack, on_masonry)) = packs
            .iter()
            .find(|(_, worst)| !worst.misfit && worst.utilisation <= limit)
            .copied()
        else {
            continue;
        };
        let near = 5.0 * axes.len() as f64;
        for (k, (inside_mm, outside_mm)) in distances(scene).into_iter().enumerate() {
            // The nearer distances come first. Farther ones make needles heavier, and only worse boards could be bettered:
            // where one board a prop does already, nothing is left to gain.
            let [fewest, ..] = &out.best;
            if k >= NEAR_ONES && fewest.as_ref().is_some_and(|(_, judged)| judged.pieces <= near + 1e-9) {
                break;
            }
            let (candidate, judged) = stand(
                scene,
                axes,
                loads,
                section,
                (pack, on_masonry),
                (inside_mm, outside_mm),
                limit,
            );
            if judged.worst.misfit || judged.worst.utilisation > limit {
                continue;
            }
            for (aim, slot) in Aim::ALL.into_iter().zip(&mut out.best) {
                if slot
                    .as_ref()
                    .is_none_or(|(_, old)| judged.objective(aim) < old.objective(aim) - 1e-9)
                {
                    *slot = Some((candidate.clone(), judged.clone()));
                }
            }
        }
        if out.best.iter().any(Option::is_some) {
            return out;
        }
    }
    let least = packs.into_iter().min_by(|a, b| {
        (a.1.misfit, a.1.utilisation)
            .partial_cmp(&(b.1.misfit, b.1.utilisation))
            .unwrap_or(std::cmp::Ordering::Equal)
    });
    if let Some(pack) = least {
        // One distance says enough of how far it is from passing.
        let all = distances(scene)
            .into_iter()
            .take(1)
            .map(|distance| stand(scene, axes, loads, section, pack, distance, 0.0));
        out.nearest = all.min_by(|a, b| a.1.badness().total_cmp(&b.1.badness()));
    }
    out
}

fn packs(scene: &Scene<'_>) -> Vec<f64> {
    let fixed = scene.job.fix.as_ref().and_then(|fix| fix.pack_mm);
    fixed.map_or_else(|| PACKS_MM.to_vec(), |pack| vec![pack])
}

/// One candidate with everything chosen under a limit of use.
fn stand(
    scene: &Scene<'_>,
    axes: &[f64],
    loads: &[NeedleLoad],
    section: usize,
    (pack, on_masonry): (f64, Worst),
    (inside_mm, outside_mm): (f64, f64),
    limit: f64,
) -> (Candidate, Judged) {
    let candidate = place(scene, axes, loads, section, pack, (inside_mm, outside_mm), limit);
    let mut worst = on_masonry;
    let Some(member) = scene.sections.get(section).map(|s| &s.member) else {
        worst.misfit = true;
        return (
            candidate,
            Judged {
                worst,
                needles_kg: 0.0,
                mass_kg: 0.0,
                pieces: 0.0,
                hire: 0.0,
            },
        );
    };
    room(scene, &candidate, &mut worst);
    for (i, load) in loads.iter().enumerate() {
        needle::check(
            i,
            &loaded(scene, load, member, inside_mm, outside_mm),
            member,
            &mut worst,
        );
        // A needle far over the limit needs no look at its legs to be passed over.
        if limit > 0.0 && worst.utilisation > limit {
            break;
        }
    }
    if limit <= 0.0 || worst.utilisation <= limit {
        legs(scene, axes, loads, member, &candidate, &mut worst);
    }
    let judged = tally(scene, axes.len(), member, &candidate, worst);
    (candidate, judged)
}

/// All checks of a candidate into one sink.
pub fn check_all(scene: &Scene<'_>, axes: &[f64], loads: &[NeedleLoad], candidate: &Candidate, sink: &mut impl Sink) {
    let Some(section) = scene.sections.get(candidate.section) else {
        return;
    };
    masonry(scene, axes, loads, &section.member, candidate.pack_mm, sink);
    room(scene, candidate, sink);
    for (i, load) in loads.iter().enumerate() {
        needle::check(
            i,
            &loaded(scene, load, &section.member, candidate.inside_mm, candidate.outside_mm),
            &section.member,
            sink,
        );
    }
    legs(scene, axes, loads, &section.member, candidate, sink);
}

/// Level of a needle's top with its pack, m.
#[must_use]
pub fn needle_top_m(scene: &Scene<'_>, member: &Member, pack_mm: f64) -> f64 {
    scene.geometry.soffit_m + (member.depth_mm() + pack_mm) / 1000.0
}

fn masonry(scene: &Scene<'_>, axes: &[f64], loads: &[NeedleLoad], member: &Member, pack_mm: f64, sink: &mut impl Sink) {
    let top = needle_top_m(scene, member, pack_mm);
    let wall = Wall {
        geometry: scene.geometry,
        loads: &scene.loads,
        leaves: &scene.leaves,
        needle_top_m: top,
        needle_width_mm: member.width_mm(),
        beside_m: scene.beside_m,
        bearings: &scene.bearings,
    };
    if scene.on_plate(top) {
        plate::room(top, scene.geometry.top_m, sink);
        plate::check(&wall, axes, scene.job.roof.plate_mm, scene.job.site.days, sink);
        arch::check_holes(&wall, axes, sink);
    } else {
        arch::check(&wall, axes, sink);
    }
    let seat = Seat {
        geometry: scene.geometry,
        leaves: &scene.leaves,
        axes,
        width_mm: member.width_mm(),
        pack_mm,
        top_m: top,
    };
    for (i, load) in loads.iter().enumerate() {
        bearing::check(&seat, i, load, sink);
    }
}

/// Whether the new beam is lifted in from inside: from the side with more room.
fn lifted_inside(scene: &Scene<'_>) -> bool {
    scene.job.sides.inside.room_m >= scene.job.sides.outside.room_m
}

/// Pairs of distances to try: both sides alike, each as far as its working room allows, wide enough for the beam on the
/// side where it is lifted. What does not fit is shown by the checks of place.
fn distances(scene: &Scene<'_>) -> Vec<(f64, f64)> {
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

/// A needle with its loads.
#[must_use]
pub fn loaded(scene: &Scene<'_>, load: &NeedleLoad, member: &Member, inside_mm: f64, outside_mm: f64) -> Loaded {
    let strips = |each: [f64; 2]| {
        let mut strips = [Strip::default(); 2];
        for ((strip, leaf), load_kn) in strips.iter_mut().zip(&scene.geometry.leaves).zip(each) {
            *strip = Strip {
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
        strength: bridge(load.strength_kn, 1.35 * weight),
        leaf_strength_kn: load.leaf_strength_kn,
        days: scene.job.site.days,
    }
}

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
fn place(
    scene: &Scene<'_>,
    axes: &[f64],
    loads: &[NeedleLoad],
    section: usize,
    pack_mm: f64,
    (inside_mm, outside_mm): (f64, f64),
    limit: f64,
) -> Candidate {
    let empty = LegChoice { prop: None, boards: 0 };
    let mut candidate = Candidate {
        section,
        pack_mm,
        inside_mm,
        outside_mm,
        inside: empty,
        outside: empty,
    };
    let Some(member) = scene.sections.get(section).map(|s| &s.member) else {
        return candidate;
    };
    for side in [Side::Inside, Side::Outside] {
        let reaction = |bridge: fn(&Loaded) -> &Bridge| {
            loads
                .iter()
                .map(|load| worst_reaction_kn(bridge(&loaded(scene, load, member, inside_mm, outside_mm)), side))
                .fold(0.0, f64::max)
        };
        let (service, strength) = (reaction(|l| &l.service), reaction(|l| &l.strength));
        let (_, under) = side_of(scene, side);
        let mut best: Option<(LegChoice, f64)> = None;
        'boards: for (b, boards) in BOARDS.iter().enumerate() {
            let mut ground = Worst::default();
            feet::check(
                boards,
                under,
                At::Prop(0, side),
                service,
                strength,
                scene.job.site.days,
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
        let choice = best.map_or(empty, |(choice, _)| choice);
        match side {
            Side::Inside => candidate.inside = choice,
            Side::Outside => candidate.outside = choice,
        }
    }
    candidate
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
fn room(scene: &Scene<'_>, candidate: &Candidate, sink: &mut impl Sink) {
    let sides = [
        (
            Side::Inside,
            candidate.inside_mm - scene.geometry.thickness_mm,
            &scene.job.sides.inside,
        ),
        (Side::Outside, -candidate.outside_mm, &scene.job.sides.outside),
    ];
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

fn legs(
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
            let Some(boards) = BOARDS.get(choice.boards) else {
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
            feet::check(boards, under, at, service, strength, scene.job.site.days, sink);
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

fn tally(scene: &Scene<'_>, count: usize, member: &Member, candidate: &Candidate, worst: Worst) -> Judged {
    let n = count as f64;
    let length = (candidate.inside_mm - candidate.outside_mm + 2.0 * OVERHANG_MM) / 1000.0;
    let needles_kg = n * length * member.mass_kg_m();
    let (mut mass, mut pieces, mut boards_count) = (needles_kg, n, 0.0);
    for choice in [candidate.inside, candidate.outside] {
        if let Some(boards) = BOARDS.get(choice.boards) {
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
