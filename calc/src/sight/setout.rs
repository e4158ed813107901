//! The kept proposal drawn back onto the wall photo: shapes and labels in px of the photo, as data and as an SVG overlay.
//!
//! Everything is drawn in the wall's plane. Prop feet stand in front of it: their line is drawn where the wall meets their
//! level, and says how far out they stand.

use super::asked::{Doubt, Trust};
use super::homography::Point;
use super::measure::{Ready, doubt, reading, ready, worst};
use super::spread::Reading;
use super::view::{Side, View};
use crate::job::Job;
use crate::problem::Problem;
use crate::tables::{Member, parse_member};
use serde::{Deserialize, Serialize};
use serde_json::Value;

/// What is asked.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SetOutRequest {
    /// The photo, with `origin` and `floor` tapped.
    pub view: View,
    /// The job, as the contract writes it.
    pub job: Value,
    /// One option of its proposal, as the contract writes it.
    pub option: Value,
}

/// The keys of an option that are drawn; the others are the contract's business.
#[derive(Debug, Deserialize)]
struct Kept {
    needle_soffit_m: f64,
    needle_top_m: f64,
    needles: Vec<KeptNeedle>,
    #[serde(default)]
    props: Vec<KeptProp>,
}

#[derive(Debug, Deserialize)]
struct KeptNeedle {
    name: String,
    x_m: f64,
    section: String,
    inside_y_mm: f64,
    outside_y_mm: f64,
}

#[derive(Debug, Deserialize)]
struct KeptProp {
    name: String,
    #[serde(default)]
    x_m: Option<f64>,
}

/// What a shape means.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum What {
    /// Edge of the opening to be cut.
    Opening,
    /// Hole and needle.
    Needle,
    /// Centre line of a needle.
    NeedleCentre,
    /// Line of running dimensions.
    Measure,
    /// Masonry between needles that may come down.
    LooseTriangle,
    /// Stretch where no hole may be cut.
    Forbidden,
    /// Level of the props' feet.
    Feet,
}

/// A line or an area on the photo.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Shape {
    /// What it means.
    pub what: What,
    /// Name: of a needle, or why a stretch is forbidden.
    pub name: String,
    /// Points, px.
    pub points_px: Vec<Point>,
    /// Whether the last point joins the first.
    pub closed: bool,
    /// Whether all of it lies on the photo.
    pub on_photo: bool,
}

/// Words on the photo.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Label {
    /// What it belongs to.
    pub what: What,
    /// The words.
    pub words: String,
    /// Their middle, px.
    pub at_px: Point,
}

/// Where a needle is marked on the wall.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Mark {
    /// Needle.
    pub name: String,
    /// From the marked left jamb, mm: measured by rule this is right, whatever the photo.
    pub x_mm: f64,
    /// Underside over the inside floor, mm.
    pub soffit_mm: f64,
    /// Where its centre is drawn, px.
    pub at_px: Option<Point>,
    /// Where that drawn point really lies along the wall, with ±, mm.
    pub drawn_x: Option<Reading>,
}

/// The answer.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SetOutAnswer {
    /// Trust.
    pub trust: Trust,
    /// Reasons.
    pub doubts: Vec<Doubt>,
    /// To be said beside the picture.
    pub caution: String,
    /// Shapes.
    pub shapes: Vec<Shape>,
    /// Labels.
    pub labels: Vec<Label>,
    /// Marks, needle by needle.
    pub marks: Vec<Mark>,
    /// All of it as an SVG over the photo, every stroke twice: light under dark.
    pub svg: String,
}

/// Pieces of a straight line, so that it follows the lens.
const PIECES: usize = 12;
/// Hole beyond the needle, width and height, mm.
const HOLE_MM: f64 = 75.0;

struct Board<'a> {
    ready: &'a Ready<'a>,
    shapes: Vec<Shape>,
    labels: Vec<Label>,
}

impl Board<'_> {
    fn at(&self, point: Point) -> Option<Point> {
        self.ready.plane.picture(point).filter(|[x, y]| {
            // A point far off the photo is of no use to a screen.
            let photo = &self.ready.ground.view.photo;
            x.abs() < 5.0 * photo.width_px && y.abs() < 5.0 * photo.height_px
        })
    }

    /// A line along wall points, in pieces; left out where any of it cannot be seen.
    fn line(&mut self, what: What, name: &str, corners: &[Point], closed: bool) {
        let mut corners = corners.to_vec();
        if closed {
            corners.extend(corners.first().copied());
        }
        let mut points = Vec::new();
        for pair in corners.windows(2) {
            let [[ax, ay], [bx, by]] = *pair else { continue };
            for i in 0..PIECES {
                let share = i as f64 / PIECES as f64;
                points.push(self.at([ax + (bx - ax) * share, ay + (by - ay) * share]));
            }
        }
        if !closed {
            points.push(corners.last().and_then(|last| self.at(*last)));
        }
        let Some(points) = points.into_iter().collect::<Option<Vec<Point>>>() else {
            return;
        };
        let photo = &self.ready.ground.view.photo;
        let on_photo = points
            .iter()
            .all(|[x, y]| (0.0..=photo.width_px).contains(x) && (0.0..=photo.height_px).contains(y));
        self.shapes.push(Shape {
            what,
            name: name.to_owned(),
            points_px: points,
            closed,
            on_photo,
        });
    }

    fn label(&mut self, what: What, words: String, at: Point) {
        if let Some(at_px) = self.at(at) {
            self.labels.push(Label { what, words, at_px });
        }
    }
}

/// A rectangle's corners between two of them.
fn rectangle(left: f64, low: f64, right: f64, high: f64) -> [Point; 4] {
    [[left, high], [right, high], [right, low], [left, low]]
}

/// Where a thing stands along the wall: name, x, half width, mm.
struct Station {
    name: String,
    x: f64,
    half: f64,
}

fn stations(kept: &Kept) -> Vec<Station> {
    let mut out: Vec<Station> = if kept.needles.is_empty() {
        let mut out: Vec<Station> = Vec::new();
        for prop in &kept.props {
            let Some(x) = prop.x_m.map(|x| x * 1000.0) else {
                continue;
            };
            if out.iter().all(|one| (one.x - x).abs() > 0.5) {
                let name = prop.name.split('-').next().unwrap_or(&prop.name).to_owned();
                out.push(Station { name, x, half: 75.0 });
            }
        }
        out
    } else {
        let of = |needle: &KeptNeedle| Station {
            name: needle.name.clone(),
            x: needle.x_m * 1000.0,
            half: match parse_member(&needle.section).map(|named| named.member) {
                Ok(Member::Steel(section, _)) => section.b_mm / 2.0,
                Ok(Member::Timber { b_mm, .. }) => b_mm / 2.0,
                Err(_) => 50.0,
            },
        };
        kept.needles.iter().map(of).collect()
    };
    out.sort_by(|a, b| a.x.total_cmp(&b.x));
    out
}

/// Draws a proposal onto its photo.
///
/// # Errors
/// Problems of the view, of the job, and an option that lacks the keys drawn here.
pub fn set_out(request: &SetOutRequest) -> Result<SetOutAnswer, Vec<Problem>> {
    let (job, _) = Job::from_value(&request.job)?;
    let kept = Kept::deserialize(&request.option)
        .map_err(|error| vec![Problem::new("/option", error.to_string(), "an option of a proposal")])?;
    let numbers = kept.needles.iter().flat_map(|n| [n.x_m, n.inside_y_mm, n.outside_y_mm]);
    let numbers = numbers.chain(kept.props.iter().filter_map(|p| p.x_m));
    let mut all = numbers.chain([kept.needle_soffit_m, kept.needle_top_m]);
    if kept.needles.len() + kept.props.len() > 500 || all.any(|v| !v.is_finite() || v.abs() > 1e6) {
        let right = "an option of a proposal";
        return Err(vec![Problem::new("/option", "a number is out of range", right)]);
    }
    let mut answer = SetOutAnswer {
        trust: Trust::Refused,
        doubts: Vec::new(),
        caution: "The picture shows which brick; the rule says where. Mark by the figures from the jamb, let a second person measure again, and drill no hole by the picture alone.".to_owned(),
        shapes: Vec::new(),
        labels: Vec::new(),
        marks: Vec::new(),
        svg: String::new(),
    };
    let ready = match ready(&request.view)? {
        Ok(ready) => ready,
        Err(doubts) => {
            answer.doubts = doubts;
            return Ok(answer);
        }
    };
    answer.doubts.clone_from(&ready.doubts);
    for (missing, code, words) in [
        (
            request.view.origin.is_none(),
            "no_jamb",
            "Tap the marked left jamb: without it nothing is in its place along the wall.",
        ),
        (
            request.view.floor.is_none(),
            "no_floor",
            "Tap the floor at the wall: without it heights are not in their place.",
        ),
    ] {
        if missing {
            answer.doubts.push(doubt(code, Trust::Refused, words));
        }
    }
    if worst(&answer.doubts) == Trust::Refused {
        return Ok(answer);
    }
    let mut board = Board {
        ready: &ready,
        shapes: Vec::new(),
        labels: Vec::new(),
    };
    draw(&mut board, &job, &kept, request.view.side);
    answer.marks = stations(&kept).iter().map(|s| mark(&ready, s, &kept)).collect();
    let (shapes, labels) = (board.shapes, board.labels);
    let rough = answer
        .marks
        .iter()
        .filter_map(|m| m.drawn_x)
        .fold(0.0_f64, |most, r| most.max(r.plus_minus_mm));
    if rough > 50.0 {
        let words = format!("The drawn marks are sure to ±{rough:.0} mm only: take them as a sketch.");
        answer.doubts.push(doubt("rough", Trust::Doubtful, words));
    }
    let seen = answer.marks.iter().filter_map(|m| m.at_px).collect::<Vec<_>>();
    answer.doubts.extend(ready.far(&seen).into_iter().map(|mut far| {
        // A drawing far off is poor but still no reading: the figures beside it stay right.
        far.trust = Trust::Doubtful;
        far
    }));
    if answer.marks.iter().any(|m| m.at_px.is_none()) {
        let words = "Not every needle can be seen in this photo.";
        answer.doubts.push(doubt("out_of_sight", Trust::Doubtful, words));
    }
    answer.trust = worst(&answer.doubts);
    answer.svg = super::overlay::svg(&request.view.photo, &shapes, &labels);
    answer.shapes = shapes;
    answer.labels = labels;
    Ok(answer)
}

fn mark(ready: &Ready<'_>, station: &Station, kept: &Kept) -> Mark {
    let middle = f64::midpoint(kept.needle_soffit_m, kept.needle_top_m) * 1000.0;
    let at_px = ready.plane.picture([station.x, middle]);
    // The ink lies where it lies: only what the plane is known to matters, not a tap.
    let drawn_x = at_px.and_then(|at| {
        ready.ground.read(&[at], true, |plane, taps| {
            let [x, _] = plane.wall(*taps.first()?)?;
            Some([x])
        })
    });
    Mark {
        name: station.name.clone(),
        x_mm: station.x,
        soffit_mm: kept.needle_soffit_m * 1000.0,
        at_px,
        drawn_x: drawn_x.map(|[r]| reading(r)),
    }
}

fn draw(board: &mut Board<'_>, job: &Job, kept: &Kept, side: Side) {
    let (width, head) = (job.opening.width_m * 1000.0, job.opening.head_m * 1000.0);
    let level = match side {
        Side::Inside => job.sides.inside.foot_level_m,
        Side::Outside => job.sides.outside.foot_level_m,
    } * 1000.0;
    let (soffit, top) = (kept.needle_soffit_m * 1000.0, kept.needle_top_m * 1000.0);
    let stations = stations(kept);
    let mm = |v: f64| format!("{v:.0}");
    let base = [[0.0, level], [0.0, head], [width, head], [width, level]];
    board.line(What::Opening, "opening", &base, false);
    let words = format!("opening {} wide", mm(width));
    board.label(What::Opening, words, [width / 2.0, f64::midpoint(head, level)]);
    for stretch in &job.forbidden {
        let (from, to) = (stretch.from_m * 1000.0, stretch.to_m * 1000.0);
        let corners = rectangle(from, soffit - 120.0, to, top + 120.0);
        board.line(What::Forbidden, &stretch.why, &corners, true);
        let [[left, high], _, [right, low], _] = corners;
        board.line(What::Forbidden, &stretch.why, &[[left, low], [right, high]], false);
        board.line(What::Forbidden, &stretch.why, &[[left, high], [right, low]], false);
        let words = format!("no hole: {}", stretch.why);
        board.label(What::Forbidden, words, [f64::midpoint(from, to), top + 420.0]);
    }
    for pair in stations.windows(2) {
        let [one, next] = pair else { continue };
        let (from, to) = (one.x + one.half + HOLE_MM / 2.0, next.x - next.half - HOLE_MM / 2.0);
        if to > from && !kept.needles.is_empty() {
            let apex = [f64::midpoint(from, to), top + (to - from) / 2.0];
            board.line(What::LooseTriangle, "loose", &[[from, top], apex, [to, top]], false);
        }
    }
    for station in &stations {
        let half = station.half + HOLE_MM / 2.0;
        let hole = rectangle(station.x - half, soffit, station.x + half, top + HOLE_MM);
        if kept.needles.is_empty() {
            board.line(
                What::Needle,
                &station.name,
                &rectangle(station.x - half, soffit, station.x + half, top),
                true,
            );
        } else {
            board.line(What::Needle, &station.name, &hole, true);
        }
        let centre = [
            [station.x, soffit.min(head) - 250.0],
            [station.x, top + HOLE_MM + 100.0],
        ];
        board.line(What::NeedleCentre, &station.name, &centre, false);
        board.label(What::Needle, station.name.clone(), [station.x, top + HOLE_MM + 160.0]);
    }
    measures(board, &stations, width, soffit.min(head) - 250.0);
    feet(board, kept, width, level, (side, thickness_mm(job)));
}

/// Running dimensions from the left jamb, on a line under the needles and under the opening's head.
fn measures(board: &mut Board<'_>, stations: &[Station], width: f64, y: f64) {
    let least = stations.iter().map(|s| s.x).fold(0.0, f64::min);
    let most = stations.iter().map(|s| s.x).fold(width, f64::max);
    board.line(What::Measure, "from the left jamb", &[[least, y], [most, y]], false);
    let mut all: Vec<f64> = stations.iter().map(|s| s.x).chain([0.0, width]).collect();
    all.sort_by(f64::total_cmp);
    all.dedup_by(|a, b| (*a - *b).abs() < 0.5);
    for x in &all {
        board.line(
            What::Measure,
            "from the left jamb",
            &[[*x, y - 40.0], [*x, y + 40.0]],
            false,
        );
        board.label(What::Measure, format!("{x:.0}"), [*x, y - 110.0]);
    }
}

fn thickness_mm(job: &Job) -> f64 {
    let leaves = &job.wall.leaves;
    let cavity = if leaves.len() > 1 { job.wall.cavity_mm } else { 0.0 };
    leaves.iter().map(|leaf| leaf.thickness_mm).sum::<f64>() + cavity
}

fn feet(board: &mut Board<'_>, kept: &Kept, width: f64, level: f64, (side, thickness): (Side, f64)) {
    board.line(What::Feet, "feet", &[[-300.0, level], [width + 300.0, level]], false);
    // Axes are given from the outer face inwards: outside ones are negative.
    let out = kept.needles.iter().map(|needle| match side {
        Side::Outside => -needle.outside_y_mm,
        Side::Inside => needle.inside_y_mm - thickness,
    });
    let furthest = out.fold(0.0_f64, f64::max);
    if furthest > 0.0 {
        let words = format!("prop feet at this level, axes {furthest:.0} out from the wall");
        board.label(What::Feet, words, [width / 2.0, level - 180.0]);
    }
}
