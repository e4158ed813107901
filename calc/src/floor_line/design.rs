//! The line of a floor: distance, number of props, header, props, boards, chosen and checked.

use super::comb::{Both, OnProps, comb_effects};
use super::joist::{Joists, OverHeader};
use super::member::{BEYOND_MM, timber_design};
use super::scope::{refused, sides};
use super::{FLOOR_BOARDS_MM, Held, IN_WALL_M, JOIST_MM, Place, Timber, held, span_m};
use crate::checks::feet::{BOARDS, Boards, Under};
use crate::checks::prop::rate_design;
use crate::checks::{Side, Worst};
use crate::job::{Floor, Job, Side as SideInput, WhichLeaf};
use crate::proposal::{FloorLine, OneLost, Part};
use crate::propose::CLOSE;
use crate::props::Rating;
use crate::ready::{Ready, ready, trade_size};
use crate::scene::Scene;
use crate::tables::Member;
use crate::tables::members::parse_member;
use crate::tables::timber::grade;
use crate::takedown::floor_imposed_kn_m2;

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
/// Fewest props of a line: with three, the header tips over the middle one when an end one is knocked away. Own judgement.
const FEWEST: usize = 4;
/// Room between the needles' line of props and the header's axis at the least: the needle's end, the header's half and a
/// hand's breadth, mm. Own judgement.
const BEHIND_NEEDLES_MM: f64 = 250.0;
/// Own weight of a prop with its board and spreader that the stage below takes over, kN. Own estimate.
pub(super) const STAGE_KN: f64 = 0.3;
/// Tube of a diagonal, wall in mm and mass in kg/m.
pub(super) const TUBE_MM: f64 = 3.2;
pub(super) const TUBE_KG_M: f64 = 3.56;

/// The needles' props beside which the lines stand.
#[derive(Clone, Copy, Debug)]
pub struct Beside {
    /// Distance of their axes from the wall's face, inside and outside, mm.
    pub distance_mm: [f64; 2],
    /// Index of their boards, inside and outside.
    pub boards: [usize; 2],
    /// Least spacing of the needles, mm.
    pub spacing_mm: f64,
    /// Largest load of a needle's prop at service, inside and outside, kN.
    pub load_kn: [f64; 2],
}

/// A line with its parts.
#[derive(Clone, Debug)]
pub struct Designed {
    /// As the contract has it.
    pub line: FloorLine,
    /// Its parts.
    pub parts: Vec<Part>,
    /// What happens when one of its props is lost.
    pub one_lost: Vec<OneLost>,
}

/// What is chosen for a line.
#[derive(Clone, Copy, Debug)]
pub(super) struct Choice {
    pub(super) props: usize,
    pub(super) header: usize,
    pub(super) boards: usize,
}

/// A line in the making.
pub(super) struct Line<'a> {
    pub(super) scene: &'a Scene<'a>,
    pub(super) place: Place,
    pub(super) floor: &'a Floor,
    pub(super) side: &'a SideInput,
    pub(super) under: Under,
    pub(super) beside: Beside,
    pub(super) at_hand: &'a [Ready],
    /// Floors on this side below this one that the props pass, from the top down: level of the floor's top and of its
    /// joists' underside.
    pub(super) passes: Vec<(f64, f64)>,
}

/// What follows from a choice.
pub(super) struct Worked {
    pub(super) member: Member,
    pub(super) name: &'static str,
    pub(super) ply_mm: f64,
    pub(super) distance_mm: f64,
    pub(super) spacing_m: f64,
    pub(super) joists: Joists,
    pub(super) over: OverHeader,
    pub(super) on_props: OnProps,
    pub(super) effects: Both,
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
                one_lost: Vec::new(),
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

pub(super) fn entry(place: Place, needed: bool, why: &str) -> FloorLine {
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
    pub(super) fn index(&self) -> usize {
        usize::from(self.place.side == Side::Outside)
    }

    pub(super) fn width_m(&self) -> f64 {
        self.scene.geometry.cut_width_m()
    }

    /// Distance of the header's axis from the wall's face: behind the needles' props, boards of both clear, mm.
    fn distance_mm(&self, index: usize, boards: &Boards, spacing_m: f64) -> f64 {
        let needles = self.beside.distance_mm.get(index).copied().unwrap_or(450.0);
        needles + self.apart_mm(index, boards, spacing_m).max(BEHIND_NEEDLES_MM)
    }

    pub(super) fn apart_mm(&self, index: usize, boards: &Boards, spacing_m: f64) -> f64 {
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
        let (days, national) = (self.scene.job.site.days, self.scene.national);
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
                design: timber_design(&c16, days, 2, national),
                k_cr: national.k_cr.value,
            },
            factors: (national.gamma_g.value, national.gamma_q.value),
        })
    }

    pub(super) fn service_class(&self) -> u8 {
        if self.place.side == Side::Outside && self.scene.job.wall.outside_wall {
            3
        } else {
            2
        }
    }

    pub(super) fn worked(&self, choice: Choice) -> Option<Worked> {
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
        let effects = comb_effects(&beam, joists.spacing_m, over.g_kn, over.q_kn, joists.factors)?;
        Some(Worked {
            member,
            name,
            ply_mm,
            distance_mm: self.distance_mm(self.index(), boards, spacing_m),
            spacing_m,
            joists,
            over,
            on_props: beam,
            effects,
        })
    }

    /// Lengths of the props of each stage from the ground up, m: one where no floor lies between.
    pub(super) fn stages_m(&self, header_mm: f64, boards: usize) -> Vec<f64> {
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
        let boards = BOARDS.get(boards).map_or(0.0, Boards::thickness_mm) / 1000.0;
        out.push(top - self.side.foot_level_m - boards);
        out.reverse();
        out
    }

    /// The lightest prop that stands at a length under a load at a use of at most 0.90, else the one least used.
    pub(super) fn prop(&self, length_m: f64, load_kn: f64) -> Option<(usize, Rating)> {
        let mut best: Option<(usize, Rating, f64)> = None;
        for (k, candidate) in self.at_hand.iter().enumerate() {
            let Some(rating) = rate_design(candidate, length_m, self.side.foot.fixed) else {
                continue;
            };
            let used = load_kn / rating.working_load_kn.max(1e-9);
            if used <= CLOSE {
                return Some((k, rating));
            }
            if best.as_ref().is_none_or(|(_, _, old)| used < *old) {
                best = Some((k, rating, used));
            }
        }
        best.map(|(k, rating, _)| (k, rating))
    }

    fn designed(&self, below: bool) -> Option<Designed> {
        let fewest = ((self.width_m() / WIDEST_M - 1e-9).ceil() as usize + 1).max(FEWEST);
        let most = ((self.width_m() / NARROWEST_M + 1e-9).floor() as usize + 1).max(fewest);
        // One pass: the first that is used at most 0.90 is taken, else the first that passes, else the nearest.
        let mut second: Option<Choice> = None;
        let mut nearest: Option<(f64, Choice)> = None;
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
                    self.check(choice, &worked, &mut worst);
                    if worst.passes() && worst.utilisation <= CLOSE {
                        return self.write(choice, below);
                    }
                    if worst.passes() && second.is_none() {
                        second = Some(choice);
                    }
                    let bad = worst.utilisation + if worst.misfit { 100.0 } else { 0.0 };
                    if nearest.as_ref().is_none_or(|(old, _)| bad < *old) {
                        nearest = Some((bad, choice));
                    }
                    // What joists and header lack, larger boards do not give.
                    let mut above = Worst::default();
                    self.timbers(&worked, &mut above);
                    if above.utilisation > 1.0 {
                        break;
                    }
                    last = Some(worked);
                }
            }
        }
        second
            .or(nearest.map(|(_, choice)| choice))
            .and_then(|choice| self.write(choice, below))
    }
}
