//! The line of a floor: distance, number of props, header, props, boards, chosen and checked.

use super::comb::{Both, OnProps, comb_effects};
use super::joist::{Joists, OverHeader};
use super::member::{Asked, BEYOND_MM, HEADER, check as check_member, timber_design};
use super::scope::{refused, sides};
use super::{FLOOR_BOARDS_MM, Held, IN_WALL_M, JOIST_MM, Place, Timber, held, span_m};
use crate::checks::feet::{self, BOARDS, Boards, Under};
use crate::checks::prop::{rate_design, stand};
use crate::checks::sideways::LEAST_SHARE;
use crate::checks::{At, Finding, Full, Side, Sink, Worst};
use crate::clause::en1995::bearing::{self as across, AcrossGrain, f_c90_rd};
use crate::clause::national::uk;
use crate::clause::sideways::{SOURCE as H_MIN, brace as one_brace};
use crate::job::{Floor, Job, Side as SideInput, WhichLeaf};
use crate::proposal::{FloorLine, Foot, Part, Prop};
use crate::propose::CLOSE;
use crate::props::Rating;
use crate::ready::{Ready, ready, trade_size};
use crate::scene::Scene;
use crate::source::{Seen, Source};
use crate::tables::Member;
use crate::tables::members::parse_member;
use crate::tables::timber::grade;
use crate::takedown::{floor_imposed_kn_m2, reaction_length_m};

/// Headers tried: name, what it is by its outline, breadth of one piece. Lightest first.
const HEADERS: &[(&str, &str, f64)] = &[
    ("C24 100x100", "C24 100x100", 100.0),
    ("C24 100x150", "C24 100x150", 100.0),
    ("C24 75x225", "C24 75x225", 75.0),
    ("C24 150x150", "C24 150x150", 150.0),
    ("C24 2/75x225", "C24 150x225", 75.0),
    ("SHS100x100x5 S355", "SHS100x100x5 S355", 0.0),
    ("SHS120x120x6.3 S355", "SHS120x120x6.3 S355", 0.0),
    ("SHS150x150x6.3 S355", "SHS150x150x6.3 S355", 0.0),
];
/// Widest and narrowest spacing of the props of a line, m. Own judgement.
const WIDEST_M: f64 = 1.5;
const NARROWEST_M: f64 = 0.45;
/// Room between the needles' line of props and the header's axis at the least: the needle's end, the header's half and a
/// hand's breadth, mm. Own judgement.
const BEHIND_NEEDLES_MM: f64 = 250.0;
/// Room behind the line, mm; as for the needles' props.
const BEHIND_MM: f64 = 150.0;
/// Own weight of a prop with its board and spreader that the stage below takes over, kN. Own estimate.
const STAGE_KN: f64 = 0.3;
/// Packing between the joists under a board of an upper stage, mm. Own judgement.
const PACKING_MM: [f64; 2] = [150.0, 100.0];
/// Sideways load of one screw 5 × 100 through a joist's side into the header, kN. A low value from memory.
const SCREW_KN: f64 = 0.4;
/// Tube of a diagonal, wall in mm and mass in kg/m.
const TUBE_MM: f64 = 3.2;
const TUBE_KG_M: f64 = 3.56;

const ROOM: Source = Source::new(
    "working room beside the wall",
    "header's axis + 150 mm within it",
    Seen::Own,
);
const FIT: Source = Source::new(
    "boards of both lines of props",
    "side by side without overlap",
    Seen::Own,
);
const SCREWS: Source = Source::new(
    "header screwed to each joist",
    "two screws 5 × 100 a joist at 0.4 kN",
    Seen::Memory,
);

/// The needles' props beside which the lines stand.
#[derive(Clone, Copy, Debug)]
pub struct Beside {
    /// Distance of their axes from the wall's face, inside and outside, mm.
    pub distance_mm: [f64; 2],
    /// Index of their boards, inside and outside.
    pub boards: [usize; 2],
    /// Least spacing of the needles, mm.
    pub spacing_mm: f64,
}

/// A line with its parts.
#[derive(Clone, Debug)]
pub struct Designed {
    /// As the contract has it.
    pub line: FloorLine,
    /// Its parts.
    pub parts: Vec<Part>,
}

/// What is chosen for a line.
#[derive(Clone, Copy, Debug)]
struct Choice {
    props: usize,
    header: usize,
    boards: usize,
}

/// A line in the making.
struct Line<'a> {
    scene: &'a Scene<'a>,
    place: Place,
    floor: &'a Floor,
    side: &'a SideInput,
    under: Under,
    beside: Beside,
    at_hand: &'a [Ready],
    /// Floors on this side below this one that the props pass, from the top down: level of the floor's top and of its
    /// joists' underside.
    passes: Vec<(f64, f64)>,
}

/// What follows from a choice.
struct Worked {
    member: Member,
    name: &'static str,
    ply_mm: f64,
    distance_mm: f64,
    spacing_m: f64,
    joists: Joists,
    over: OverHeader,
    beam: OnProps,
    effects: Both,
}

/// All lines of an option: one entry for each floor and side that comes onto or runs along the wall.
#[must_use]
pub fn lines(scene: &Scene<'_>, beside: &Beside) -> Vec<Designed> {
    let at_hand = at_hand(scene);
    let mut out = Vec::new();
    for (i, storey) in scene.job.above.iter().enumerate() {
        let (Some(floor), Some(held)) = (storey.floor.as_ref(), held(scene.job, scene.geometry, i)) else {
            continue;
        };
        for side in sides(scene.job, i) {
            let place = Place { floor: i, side };
            let idle = |needed: bool, why: &str| Designed {
                line: entry(place, needed, why),
                parts: Vec::new(),
            };
            out.push(match held {
                Held::Along => idle(
                    false,
                    "Joists run along the wall: the wall carries at most the strip to the joist beside it. No line; if the last joist or a trimmer rests on the wall over the cut, ring the engineer.",
                ),
                Held::OnNeedles => idle(
                    false,
                    "Not needed: the needles carry this floor too. A line under the joists near the wall may stand as a reserve; it is not reckoned with.",
                ),
                Held::Below | Held::Apart => match refused(scene.job, scene.geometry, i, side) {
                    Some(why) => idle(true, &format!("Needed, but not designed here: {why}")),
                    None => {
                        let (side_input, under) = match side {
                            Side::Inside => (&scene.job.sides.inside, scene.under_inside),
                            Side::Outside => (&scene.job.sides.outside, scene.under_outside),
                        };
                        let line = Line {
                            scene,
                            place,
                            floor,
                            side: side_input,
                            under,
                            beside: *beside,
                            at_hand: &at_hand,
                            passes: passes(scene, i, side),
                        };
                        line.designed(held == Held::Below)
                            .unwrap_or_else(|| idle(true, "Needed, but the joists are too short for a header beside the needles' props."))
                    }
                },
            });
        }
    }
    out
}

fn entry(place: Place, needed: bool, why: &str) -> FloorLine {
    FloorLine {
        floor: place.floor as u32 + 1,
        side: place.side.word().to_owned(),
        needed,
        why: why.to_owned(),
        ..FloorLine::default()
    }
}

/// Props to choose from. A prop that is held still for the needles need not fit here, so all at hand are asked.
fn at_hand(scene: &Scene<'_>) -> Vec<Ready> {
    let job: &Job = scene.job;
    let held_still = job.fix.as_ref().is_some_and(|fix| fix.prop.is_some());
    if !held_still {
        return scene.props.clone();
    }
    let mut out: Vec<Ready> = if job.props.is_empty() {
        (0..=4).filter_map(|size| ready(&trade_size(size)).ok()).collect()
    } else {
        job.props.iter().filter_map(|input| ready(input).ok()).collect()
    };
    out.sort_by(|a, b| a.mass_kg.total_cmp(&b.mass_kg));
    out
}

fn passes(scene: &Scene<'_>, i: usize, side: Side) -> Vec<(f64, f64)> {
    let floors = scene.job.above.iter().zip(&scene.geometry.floors_m).take(i);
    floors
        .rev()
        .filter_map(|(storey, bearing)| storey.floor.as_ref().map(|floor| (floor, *bearing)))
        .filter(|(floor, _)| span_m(floor, side) > 0.0)
        .map(|(floor, bearing)| (bearing + floor.joist_depth_m, bearing))
        .collect()
}

/// How far boards reach from their axis towards a line beside it, mm: along the wall where they have room there.
fn reach_mm(boards: &Boards, spacing_mm: f64) -> f64 {
    let [length, breadth, _] = boards.size_mm();
    if length <= spacing_mm + 1e-9 {
        breadth / 2.0
    } else {
        length / 2.0
    }
}

impl Line<'_> {
    fn index(&self) -> usize {
        usize::from(self.place.side == Side::Outside)
    }

    fn width_m(&self) -> f64 {
        self.scene.geometry.cut_width_m()
    }

    /// Distance of the header's axis from the wall's face: behind the needles' props, boards of both clear, mm.
    fn distance_mm(&self, index: usize, boards: &Boards, spacing_m: f64) -> f64 {
        let needles = self.beside.distance_mm.get(index).copied().unwrap_or(450.0);
        needles + self.apart_mm(index, boards, spacing_m).max(BEHIND_NEEDLES_MM)
    }

    fn apart_mm(&self, index: usize, boards: &Boards, spacing_m: f64) -> f64 {
        let theirs = self.beside.boards.get(index).and_then(|b| BOARDS.get(*b));
        let theirs = theirs.map_or(0.0, |boards| reach_mm(boards, self.beside.spacing_mm));
        ((theirs + reach_mm(boards, spacing_m * 1000.0)) / 50.0 - 1e-9).ceil() * 50.0
    }

    /// From the wall's face to the middle of the joists' bearing, m.
    fn in_wall_m(&self, side: Side) -> f64 {
        let geometry = self.scene.geometry;
        let leaves = &geometry.leaves;
        // The inner leaf stands last, and one leaf is both.
        let on = match (self.floor.leaf, side) {
            (WhichLeaf::Outer, _) | (WhichLeaf::Both, Side::Outside) => leaves.first(),
            (WhichLeaf::Inner, _) | (WhichLeaf::Both, Side::Inside) => leaves.last(),
        };
        on.map_or(IN_WALL_M / 2.0, |leaf| {
            let before = match side {
                Side::Inside => geometry.thickness_mm - leaf.to_mm,
                Side::Outside => leaf.from_mm,
            };
            before / 1000.0 + (IN_WALL_M / 2.0).min((leaf.to_mm - leaf.from_mm) / 2000.0)
        })
    }

    fn joists(&self, boards: &Boards, spacing_m: f64) -> Option<Joists> {
        let c16 = *grade("C16")?;
        let past = |side: Side| {
            let index = usize::from(side == Side::Outside);
            self.distance_mm(index, boards, spacing_m) / 1000.0 + self.in_wall_m(side)
        };
        let (this, other) = match self.place.side {
            Side::Inside => (Side::Inside, Side::Outside),
            Side::Outside => (Side::Outside, Side::Inside),
        };
        let through = (self.floor.continuous && span_m(self.floor, other) > 0.0)
            .then(|| (span_m(self.floor, other), past(other)));
        let days = self.scene.job.site.days;
        Some(Joists {
            span_m: span_m(self.floor, this),
            past_m: past(this),
            spacing_m: self.floor.joist_spacing_m,
            g_kn_m2: self.floor.dead_kn_m2,
            q_kn_m2: floor_imposed_kn_m2(self.floor),
            through,
            timber: Timber {
                grade: c16,
                b_mm: JOIST_MM,
                h_mm: (self.floor.joist_depth_m * 1000.0 - FLOOR_BOARDS_MM).max(10.0),
                design: timber_design(&c16, days, 2),
                k_cr: uk().k_cr.value,
            },
        })
    }

    fn service_class(&self) -> u8 {
        if self.place.side == Side::Outside && self.scene.job.wall.outside_wall {
            3
        } else {
            2
        }
    }

    fn worked(&self, choice: Choice) -> Option<Worked> {
        let (name, outline, ply_mm) = *HEADERS.get(choice.header)?;
        let member = parse_member(outline).ok()?.member;
        let boards = BOARDS.get(choice.boards)?;
        let spacing_m = self.width_m() / (choice.props.max(2) - 1) as f64;
        let joists = self.joists(boards, spacing_m)?;
        let over = joists.over_header()?;
        let beyond = BEYOND_MM / 1000.0;
        let beam = OnProps {
            length_m: self.width_m() + 2.0 * beyond,
            props_m: (0..choice.props).map(|k| beyond + k as f64 * spacing_m).collect(),
            weight_kn_m: member.mass_kg_m() * 9.81e-3,
        };
        let effects = comb_effects(&beam, joists.spacing_m, over.g_kn, over.q_kn)?;
        Some(Worked {
            member,
            name,
            ply_mm,
            distance_mm: self.distance_mm(self.index(), boards, spacing_m),
            spacing_m,
            joists,
            over,
            beam,
            effects,
        })
    }

    /// Lengths of the props of each stage from the ground up, m: one where no floor lies between.
    fn stages_m(&self, header_mm: f64, boards: &Boards) -> Vec<f64> {
        let bearing = self
            .scene
            .geometry
            .floors_m
            .get(self.place.floor)
            .copied()
            .unwrap_or_default();
        let head = header_mm / 1000.0;
        let upper_board = BOARDS.first().map_or(0.0, Boards::thickness_mm) / 1000.0;
        let mut out = Vec::with_capacity(self.passes.len() + 1);
        let mut top = bearing - head;
        for (floor_top, underside) in &self.passes {
            out.push(top - floor_top - upper_board);
            // Under each floor a spreader as deep as the header.
            top = underside - head;
        }
        out.push(top - self.side.foot_level_m - boards.thickness_mm() / 1000.0);
        out.reverse();
        out
    }

    /// The lightest prop that stands at a length under a load within a limit, else the one least used.
    fn prop(&self, length_m: f64, load_kn: f64, limit: f64) -> Option<(usize, Rating)> {
        let mut best: Option<(usize, Rating, f64)> = None;
        for (k, candidate) in self.at_hand.iter().enumerate() {
            let Some(rating) = rate_design(candidate, length_m, self.side.foot.fixed) else {
                continue;
            };
            let used = load_kn / rating.working_load_kn.max(1e-9);
            if used <= limit {
                return Some((k, rating));
            }
            if best.as_ref().is_none_or(|(_, _, old)| used < *old) {
                best = Some((k, rating, used));
            }
        }
        best.map(|(k, rating, _)| (k, rating))
    }

    fn designed(&self, below: bool) -> Option<Designed> {
        let fewest = ((self.width_m() / WIDEST_M - 1e-9).ceil() as usize + 1).max(2);
        let most = ((self.width_m() / NARROWEST_M + 1e-9).floor() as usize + 1).max(fewest);
        let mut nearest: Option<(f64, Choice, f64)> = None;
        for limit in [CLOSE, 1.0] {
            for props in fewest..=most {
                for header in 0..HEADERS.len() {
                    let mut last: Option<Worked> = None;
                    for (boards, kind) in BOARDS.iter().enumerate() {
                        let choice = Choice { props, header, boards };
                        // Boards touch the header only through its distance from the wall.
                        let spacing_m = self.width_m() / (props.max(2) - 1) as f64;
                        let distance = self.distance_mm(self.index(), kind, spacing_m);
                        let same = last.take().filter(|old| (old.distance_mm - distance).abs() < 1e-9);
                        let Some(worked) = same.or_else(|| self.worked(choice)) else {
                            continue;
                        };
                        let mut worst = Worst::default();
                        self.check(choice, &worked, limit, &mut worst);
                        if !worst.misfit && worst.utilisation <= limit {
                            return self.write(choice, limit, below);
                        }
                        let bad = worst.utilisation + if worst.misfit { 100.0 } else { 0.0 };
                        if nearest.as_ref().is_none_or(|(old, ..)| bad < *old) {
                            nearest = Some((bad, choice, limit));
                        }
                        last = Some(worked);
                    }
                }
            }
        }
        nearest.and_then(|(_, choice, limit)| self.write(choice, limit, below))
    }

    /// All checks of a choice; the feet come back.
    fn check(&self, choice: Choice, worked: &Worked, limit: f64, sink: &mut impl Sink) -> Vec<Foot> {
        let at = At::Header(self.place.floor, self.place.side);
        let days = self.scene.job.site.days;
        let Some(boards) = BOARDS.get(choice.boards) else {
            return Vec::new();
        };
        let strength_joist = Joists::strength_kn(&worked.over);
        worked.joists.check(&worked.over, &self.place, sink);
        self.on_header(worked, strength_joist, sink);
        check_member(
            at,
            &HEADER,
            &Asked {
                member: &worked.member,
                ply_mm: worked.ply_mm,
                effects: &worked.effects,
                span_m: worked.spacing_m,
                load_kn: strength_joist,
                contact_mm: JOIST_MM,
                days,
                service_class: self.service_class(),
            },
            sink,
        );
        self.geometry(boards, worked, sink);
        self.sideways(worked, sink);
        let stages = self.stages_m(worked.member.depth_mm(), boards);
        let extra = STAGE_KN * (stages.len() - 1) as f64;
        let mut feet = Vec::with_capacity(choice.props);
        let all = worked
            .effects
            .service
            .props_kn
            .iter()
            .zip(&worked.effects.strength.props_kn);
        let largest = worked.effects.service.largest_prop_kn();
        for (k, (service, strength)) in all.enumerate() {
            for (level, length) in stages.iter().enumerate() {
                let at = At::Post(
                    self.place.floor,
                    self.place.side,
                    k,
                    (stages.len() > 1).then_some(level),
                );
                let above = STAGE_KN * (stages.len() - 1 - level) as f64;
                let chosen = self.prop(*length, largest + above, limit);
                stand(
                    at,
                    chosen.as_ref().map(|(_, rating)| rating),
                    *length,
                    service + above,
                    sink,
                );
                if level > 0 {
                    self.packing(at, strength + 1.35 * above, sink);
                }
            }
            let at = At::Post(self.place.floor, self.place.side, k, (stages.len() > 1).then_some(0));
            feet.push(feet::check(
                boards,
                self.under,
                at,
                service + extra,
                strength + 1.35 * extra,
                days,
                sink,
            ));
        }
        feet
    }

    /// The joist pressed by the header across its grain.
    fn on_header(&self, worked: &Worked, load_kn: f64, sink: &mut impl Sink) {
        let timber = &worked.joists.timber;
        let contact = worked.member.width_mm();
        let can = f_c90_rd(&AcrossGrain {
            length_mm: contact,
            width_mm: timber.b_mm,
            beyond_mm: [30.0, 30.0],
            fc90d_n_mm2: timber.design.fc90d_n_mm2,
            k_c90: 1.0,
        });
        let finding = Finding {
            name: "joist_bearing",
            at: At::Header(self.place.floor, self.place.side),
            demand: load_kn,
            resistance: can.f_rd_kn,
            unit: "kN",
            source: across::SOURCE,
        };
        sink.put(finding, &|| {
            let mut steps = vec![format!(
                "one joist brings {:.2} kN dead and {:.2} kN imposed; {load_kn:.2} kN at strength over {contact:.0} mm of header",
                worked.over.g_kn, worked.over.q_kn
            )];
            steps.extend(timber.design.steps());
            steps.extend(can.steps());
            steps
        });
    }

    /// Packing between the joists under the board of an upper stage.
    fn packing(&self, at: At, load_kn: f64, sink: &mut impl Sink) {
        let Some(c24) = grade("C24") else { return };
        let design = timber_design(c24, self.scene.job.site.days, 2);
        let [length, breadth] = PACKING_MM;
        let can = f_c90_rd(&AcrossGrain {
            length_mm: length,
            width_mm: breadth,
            beyond_mm: [0.0, 0.0],
            fc90d_n_mm2: design.fc90d_n_mm2,
            k_c90: 1.0,
        });
        let finding = Finding {
            name: "packing_bearing",
            at,
            demand: load_kn,
            resistance: can.f_rd_kn,
            unit: "kN",
            source: across::SOURCE,
        };
        sink.put(finding, &|| {
            let mut steps = vec![format!(
                "packing {length:.0} × {breadth:.0} mm C24 tight between the joists, from the board above to the spreader below"
            )];
            steps.extend(design.steps());
            steps.extend(can.steps());
            steps
        });
    }

    fn geometry(&self, boards: &Boards, worked: &Worked, sink: &mut impl Sink) {
        let at = At::Header(self.place.floor, self.place.side);
        let needles = self.beside.distance_mm.get(self.index()).copied().unwrap_or(450.0);
        let asked = (worked.distance_mm + BEHIND_MM) / 1000.0;
        let room = Finding {
            name: "working_room",
            at,
            demand: asked,
            resistance: self.side.room_m,
            unit: "m",
            source: ROOM,
        };
        sink.put(room, &|| {
            vec![format!(
                "header {:.0} mm from the wall's face, behind the needles' props at {needles:.0} mm; 150 mm behind it, room {:.2} m",
                worked.distance_mm, self.side.room_m
            )]
        });
        let apart = Finding {
            name: "board_fit",
            at,
            demand: self.apart_mm(self.index(), boards, worked.spacing_m) / 1000.0,
            resistance: (worked.distance_mm - needles) / 1000.0,
            unit: "m",
            source: FIT,
        };
        sink.put(apart, &|| {
            vec![format!(
                "{} under the header's props and the boards of the needles' props side by side",
                boards.words
            )]
        });
        let [length, breadth, _] = boards.size_mm();
        let row = Finding {
            name: "board_fit",
            at,
            demand: length.min(breadth) / 1000.0,
            resistance: worked.spacing_m,
            unit: "m",
            source: FIT,
        };
        sink.put(row, &|| {
            vec![format!(
                "boards {length:.0} × {breadth:.0} mm, props {:.0} mm apart",
                worked.spacing_m * 1000.0
            )]
        });
    }

    /// Rise, length and resistance along the wall of one diagonal of the line.
    fn diagonal(&self, worked: &Worked) -> (f64, f64) {
        let boards = BOARDS.first().map_or(0.0, Boards::thickness_mm) / 1000.0;
        let bearing = self
            .scene
            .geometry
            .floors_m
            .get(self.place.floor)
            .copied()
            .unwrap_or_default();
        let under = self.passes.last().map_or(bearing, |(_, underside)| *underside);
        let rise = (under - worked.member.depth_mm() / 1000.0 - self.side.foot_level_m - boards - 0.3).max(0.2);
        let length = rise.hypot(worked.spacing_m);
        let can = one_brace(length * 1000.0, TUBE_MM, rise.atan2(worked.spacing_m).to_degrees(), 1.0).h_kn;
        (length, can)
    }

    fn sideways(&self, worked: &Worked, sink: &mut impl Sink) {
        let at = At::Header(self.place.floor, self.place.side);
        let v = worked.effects.service.total_kn;
        let demand = LEAST_SHARE * v;
        let (length, can) = self.diagonal(worked);
        let along = Finding {
            name: "line_sideways_along",
            at,
            demand,
            resistance: can,
            unit: "kN",
            source: H_MIN,
        };
        sink.put(along, &|| {
            vec![
                format!("2.5 % of {v:.1} kN on the line"),
                format!("two diagonals of {length:.2} m in opposite directions, one pushes: {can:.2} kN"),
            ]
        });
        let joists = (worked.beam.length_m / worked.joists.spacing_m).floor();
        let can = joists * 2.0 * SCREW_KN;
        let across = Finding {
            name: "line_sideways_across",
            at,
            demand,
            resistance: can,
            unit: "kN",
            source: SCREWS,
        };
        sink.put(across, &|| {
            vec![
                format!("2.5 % of {v:.1} kN on the line"),
                format!(
                    "the floor's boards hold the joists; header screwed to {joists:.0} joists, two screws each at {SCREW_KN} kN: {can:.2} kN"
                ),
            ]
        });
    }

    /// Load per metre of wall that this side of the floor would bring to it, kN/m.
    fn share_kn_m(&self) -> f64 {
        let floor = self.floor;
        let both = floor.inside_span_m + floor.outside_span_m;
        let all = reaction_length_m(floor) * (floor.dead_kn_m2 + floor_imposed_kn_m2(floor));
        all * span_m(floor, self.place.side) / both.max(1e-9)
    }

    fn write(&self, choice: Choice, limit: f64, below: bool) -> Option<Designed> {
        let worked = self.worked(choice)?;
        let boards = BOARDS.get(choice.boards)?;
        let mut full = Full::default();
        let feet = self.check(choice, &worked, limit, &mut full);
        let stages = self.stages_m(worked.member.depth_mm(), boards);
        let largest = worked.effects.service.largest_prop_kn();
        let header_at = At::Header(self.place.floor, self.place.side).to_string();
        let mut props = Vec::new();
        let mut parts: Vec<Part> = Vec::new();
        let mut add = |what: String, count: u32, mass_kg: f64| match parts.iter_mut().find(|part| part.what == what) {
            Some(part) => part.count += count,
            None => parts.push(Part { what, count, mass_kg }),
        };
        let count = choice.props as u32;
        add(
            format!("header {} of {:.2} m, in one piece", worked.name, worked.beam.length_m),
            1,
            worked.member.mass_kg_m() * worked.beam.length_m,
        );
        for (level, length) in stages.iter().enumerate() {
            let above = STAGE_KN * (stages.len() - 1 - level) as f64;
            let chosen = self.prop(*length, largest + above, limit);
            let at_hand = chosen.as_ref().and_then(|(k, _)| self.at_hand.get(*k));
            if let Some(prop) = at_hand {
                add(format!("adjustable steel prop, {}", prop.words), count, prop.mass_kg);
            }
            for (k, service) in worked.effects.service.props_kn.iter().enumerate() {
                let at = At::Post(
                    self.place.floor,
                    self.place.side,
                    k,
                    (stages.len() > 1).then_some(level),
                );
                let (working, kappa) = chosen
                    .as_ref()
                    .map_or((0.0, 0.0), |(_, r)| (r.working_load_kn, r.kappa));
                let load_kn = service + above;
                props.push(Prop {
                    name: at.to_string(),
                    needle: header_at.clone(),
                    side: self.place.side.word().to_owned(),
                    kind: at_hand.map_or_else(String::new, |prop| prop.kind.clone()),
                    size: at_hand.map_or_else(|| "none fits".to_owned(), |prop| prop.size.clone()),
                    length_m: *length,
                    load_kn,
                    working_load_kn: working,
                    kappa,
                    utilisation: if working > 0.0 { load_kn / working } else { 99.0 },
                });
            }
            if level > 0 {
                add(
                    "board 225 × 38 × 450, C24, under one prop".to_owned(),
                    count,
                    BOARDS.first().map_or(0.0, Boards::mass_kg),
                );
                add(
                    format!("spreader {} of 0.60 m under a floor that the line passes", worked.name),
                    count,
                    worked.member.mass_kg_m() * 0.6,
                );
                add("packing 150 × 100 mm, C24, tight between joists".to_owned(), count, 1.5);
            }
        }
        add(
            format!("{}, C24, under one prop", boards.words),
            count,
            boards.mass_kg(),
        );
        let (diagonal, _) = self.diagonal(&worked);
        add(
            format!("diagonal, tube 48.3 × 3.2, {diagonal:.2} m"),
            2,
            diagonal * TUBE_KG_M,
        );
        add("coupler or clamp for the real diameters".to_owned(), 4, 1.2);
        let joists = (worked.beam.length_m / worked.joists.spacing_m).floor() as u32 + 1;
        add("screw 5 × 100, header to joist".to_owned(), 2 * joists, 0.015);
        add(
            "fixing of a head or foot (bolts or screws)".to_owned(),
            2 * count * stages.len() as u32,
            0.3,
        );
        let cause = if below {
            "This floor bears below the needles, so they do not carry it: without this line nothing holds it while the wall is cut."
        } else {
            "The needles are reckoned without this floor: this line alone carries it and must stand, tight, before a hole is cut, until the new beam carries."
        };
        let down = if stages.len() > 1 {
            format!(
                " Props stand in line on {} levels down to the ground, packed tight between the joists of each floor that they pass: {} props.",
                stages.len(),
                props.len()
            )
        } else {
            String::new()
        };
        let why = format!(
            "{cause} Header {} {:.0} mm from the wall's face, {} props at {:.0} mm.{down}",
            worked.name,
            worked.distance_mm,
            choice.props,
            worked.spacing_m * 1000.0
        );
        let way = vec![
            "Floor: its boards hold the joists; the header is screwed to every joist, the heads of the props to the header."
                .to_owned(),
            format!("Along the wall: two diagonals of tube 48.3 × 3.2 in the line, {diagonal:.1} m, in opposite directions."),
            "Foot: boards fixed against sliding, feet fixed to the boards.".to_owned(),
            "Joists stay on their bearing in the wall until every joist is packed tight on the header.".to_owned(),
        ];
        Some(Designed {
            line: FloorLine {
                header: Some(worked.name.to_owned()),
                length_m: Some(worked.beam.length_m),
                distance_mm: Some(worked.distance_mm),
                spacing_m: Some(worked.spacing_m),
                load_kn: Some(worked.effects.service.total_kn),
                takes_kn: self.share_kn_m() * self.width_m(),
                props,
                feet,
                way,
                checks: full.checks,
                ..entry(self.place, true, &why)
            },
            parts,
        })
    }
}
