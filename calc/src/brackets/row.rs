//! A row of brackets: its lines, its legs, and every check of it.

use super::Kit;
use super::burden::Burden;
use super::ratings::Ratings;
use crate::candidate::LegChoice;
use crate::checks::feet::{self, Pressed};
use crate::checks::{At, Finding, Side, Sink, Worst};
use crate::demand::NeedleLoad;
use crate::props::bracket;
use crate::scene::Scene;
use crate::source::{Seen, Source};

/// Half of a prop's foot plate: nearer than this the prop would stand in the wall, mm. Common practice, no source.
const FOOT_HALF_MM: f64 = 75.0;
/// Room behind a prop's axis, mm. Own judgement.
const BEHIND_MM: f64 = 150.0;
/// A beam deeper than this is narrower than deep, and is carried on its side, mm; room beside it, mm. Own judgement.
const WIDEST_BEAM_MM: f64 = 254.0;
const BESIDE_BEAM_MM: f64 = 50.0;
/// Outer diameter of a prop where the beam passes between two lines, mm.
const TUBE_MM: f64 = 60.3;

const RATED: Source = Source::new(
    "the maker's rated load of the bracket",
    "as typed in",
    Seen::Secondary("the user's entry"),
);
const SEAT: Source = Source::new(
    "plate of the bracket under the leaf",
    "at least two thirds of its thickness, so that it bears within the middle third",
    Seen::Own,
);
const CLEAR: Source = Source::new(
    "prop beside the wall",
    "its foot plate of 150 mm clear of the leaf's face",
    Seen::Own,
);
const ROOM: Source = Source::new(
    "working room beside the wall",
    "prop axis + 150 mm within it",
    Seen::Own,
);
const BEAM: Source = Source::new(
    "way of the new beam",
    "laid down between the lines of props, or brought from the side without one",
    Seen::Own,
);

/// A line of brackets under one leaf.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Line {
    /// Index of the leaf.
    pub leaf: usize,
    /// Side where the props stand.
    pub side: Side,
}

/// Brackets of one kind in lines, one line a leaf.
#[derive(Clone)]
pub struct Row<'a, 'b> {
    /// The job.
    pub scene: &'b Scene<'a>,
    /// The bracket.
    pub kit: Kit,
    /// What it carries.
    pub burden: &'b Burden,
    /// Ratings of the props.
    pub ratings: &'b Ratings,
    /// Lines, outermost leaf first.
    pub lines: Vec<Line>,
}

impl Row<'_, '_> {
    /// Load of each bracket of a line, service and strength, kN.
    pub fn loads(&self, axes: &[f64], line: Line) -> Vec<(f64, f64)> {
        let of = |load: &NeedleLoad| {
            let pick = |pair: [f64; 2]| pair.get(line.leaf).copied().unwrap_or_default();
            (pick(load.leaf_service_kn), pick(load.leaf_strength_kn))
        };
        self.burden.loads.needles(axes).iter().map(of).collect()
    }

    /// Chooses prop and boards of each line: the first that are used at most the limit, else the least used.
    pub fn choose(&self, axes: &[f64], limit: f64) -> Vec<LegChoice> {
        let choose = |line: &Line| {
            let all = self.loads(axes, *line);
            let most = all
                .iter()
                .fold((0.0, 0.0), |(a, b): (f64, f64), (c, d)| (a.max(*c), b.max(*d)));
            let mut best: Option<(LegChoice, f64)> = None;
            for boards in 0..self.scene.boards.len() {
                for prop in 0..self.scene.props.len() {
                    let choice = LegChoice {
                        prop: Some(prop),
                        boards,
                    };
                    let mut worst = Worst::default();
                    self.leg(0, *line, choice, most, spacing_mm(axes), &mut worst);
                    let bad = worst.utilisation + if worst.misfit { 100.0 } else { 0.0 };
                    if best.is_none_or(|(_, old)| bad < old - 1e-12) {
                        best = Some((choice, bad));
                    }
                    if bad <= limit {
                        return choice;
                    }
                }
            }
            best.map_or(LegChoice { prop: None, boards: 0 }, |(choice, _)| choice)
        };
        self.lines.iter().map(choose).collect()
    }

    /// Every check of a row but what holds it sideways.
    pub fn check(&self, axes: &[f64], legs: &[LegChoice], sink: &mut impl Sink) {
        self.masonry(axes, sink);
        self.place(sink);
        for (line, choice) in self.lines.iter().zip(legs) {
            for (i, load) in self.loads(axes, *line).into_iter().enumerate() {
                self.leg(i, *line, *choice, load, spacing_mm(axes), sink);
            }
        }
    }

    /// The most used bracket: what it carries and what it can, kN.
    pub fn hardest(&self, axes: &[f64], legs: &[LegChoice]) -> (f64, f64) {
        let mut out = (0.0, f64::INFINITY);
        for (line, choice) in self.lines.iter().zip(legs) {
            let can = self.can_kn(*line, *choice);
            for (service, _) in self.loads(axes, *line) {
                if out.1.is_infinite() || service * out.1 > out.0 * can {
                    out = (service, can);
                }
            }
        }
        if out.1.is_finite() { out } else { (out.0, 0.0) }
    }

    /// What one bracket of a line can carry, kN: the least of the maker's, the prop's and the strut's figure.
    pub fn can_kn(&self, line: Line, choice: LegChoice) -> f64 {
        self.ratings
            .get(line.side, choice.boards, choice.prop)
            .map_or(0.0, |found| {
                found.can_kn.min(self.kit.rated_kn.unwrap_or(f64::INFINITY))
            })
    }

    /// Axis of a line of props through the wall, mm from its outer face inwards.
    pub fn axis_mm(&self, line: Line) -> f64 {
        let faces = self
            .scene
            .geometry
            .leaves
            .get(line.leaf)
            .map_or((0.0, 0.0), |leaf| (leaf.from_mm, leaf.to_mm));
        match line.side {
            Side::Inside => faces.1 + self.kit.distance_mm(),
            Side::Outside => faces.0 - self.kit.distance_mm(),
        }
    }

    /// Where the props stand, and whether the plate reaches far enough.
    fn place(&self, sink: &mut impl Sink) {
        let (job, scene) = (self.scene.job, self.scene);
        let [_, into] = self.kit.plate_mm;
        let distance = self.kit.distance_mm();
        let mut put = |name, at, demand, resistance, unit, source, words: String| {
            let finding = Finding {
                name,
                at,
                demand,
                resistance,
                unit,
                source,
            };
            sink.put(finding, &|| vec![words.clone()]);
        };
        for line in &self.lines {
            let at = At::Bracket(0, line.side);
            let leaf = scene.leaves.get(line.leaf).map_or(0.0, |leaf| leaf.thickness_mm);
            put(
                "bracket_seat",
                at,
                2.0 / 3.0 * leaf,
                into,
                "mm",
                SEAT,
                format!(
                    "plate reaches {into:.0} mm under a leaf of {leaf:.1} mm; two thirds of it are asked for, else the leaf bears on its face and turns"
                ),
            );
            put(
                "bracket_clear",
                at,
                FOOT_HALF_MM,
                distance,
                "mm",
                CLEAR,
                format!(
                    "arm {:.0} mm less half the plate's {into:.0} mm: prop axis {distance:.0} mm from the leaf's face, at least {FOOT_HALF_MM:.0} mm",
                    self.kit.arm_mm
                ),
            );
            let room = if line.side == Side::Inside {
                job.sides.inside.room_m
            } else {
                job.sides.outside.room_m
            };
            put(
                "working_room",
                at,
                (distance + BEHIND_MM) / 1000.0,
                room,
                "m",
                ROOM,
                format!("props {distance:.0} mm from the leaf's face and 150 mm behind them, room {room:.2} m"),
            );
        }
        let beam = job.opening.beam_depth_mm.min(WIDEST_BEAM_MM) + BESIDE_BEAM_MM;
        let way = match self.lines.as_slice() {
            [one] if one.side == Side::Inside => job.sides.outside.room_m * 1000.0,
            [_] => job.sides.inside.room_m * 1000.0,
            _ => scene.geometry.thickness_mm + 2.0 * distance - TUBE_MM,
        };
        put(
            "beam_room",
            At::All,
            beam / 1000.0,
            way / 1000.0,
            "m",
            BEAM,
            format!(
                "the beam needs {beam:.0} mm, {way:.0} mm are there; between two lines it is laid down before the props are set"
            ),
        );
    }

    /// One bracket with its prop and foot.
    pub fn leg(
        &self,
        i: usize,
        line: Line,
        choice: LegChoice,
        (service, strength): (f64, f64),
        spacing_mm: f64,
        sink: &mut impl Sink,
    ) -> Option<Pressed> {
        let scene = self.scene;
        let at = At::Bracket(i, line.side);
        let mut put = |name, resistance, source, steps: &dyn Fn() -> Vec<String>| {
            let finding = Finding {
                name,
                at,
                demand: service,
                resistance,
                unit: "kN",
                source,
            };
            sink.put(finding, steps);
        };
        if let Some(rated) = self.kit.rated_kn {
            put("bracket_rated", rated, RATED, &|| {
                let mut steps = self.burden.steps.clone();
                steps.push(format!(
                    "{service:.2} kN on this bracket, rated {rated:.2} kN by its maker"
                ));
                steps
            });
        }
        match self.ratings.get(line.side, choice.boards, choice.prop) {
            Some(found) => {
                put("bracket_prop", found.scaled_kn, bracket::SOURCE, &|| found.steps());
                put("bracket_strut", found.r_over_kn, bracket::SOURCE, &|| found.steps());
            }
            None => put("bracket_prop", 0.0, bracket::SOURCE, &|| {
                vec!["no prop at hand fits the length with 50 mm of adjustment left at both ends".to_owned()]
            }),
        }
        let boards = scene.boards.get(choice.boards)?;
        let under = if line.side == Side::Inside {
            scene.under_inside
        } else {
            scene.under_outside
        };
        let foot = feet::check(boards, under, at, service, strength, scene.timber(), sink);
        feet::fit(boards, at, spacing_mm, self.kit.distance_mm().max(1.0), sink);
        Some(foot)
    }
}

/// Least distance between two props of a line, mm; without bound for one alone.
fn spacing_mm(axes: &[f64]) -> f64 {
    axes.iter()
        .zip(axes.iter().skip(1))
        .map(|(a, b)| (b - a) * 1000.0)
        .fold(1e6, f64::min)
}
