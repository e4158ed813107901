//! Lean, off centre and crack width from taps in a photo with something known beside what is measured.

use super::asked::{Doubt, Trust};
use super::homography::{Point, distance};
use super::measure::{doubt, reading, worst};
use super::spread::{Input, Reading, spread};
use super::view::Photo;
use crate::problem::Problem;
use serde::{Deserialize, Serialize};

/// ± (95 %) by which a hand holds the phone out of level, degrees [own judgement].
const PITCH_DEG: f64 = 10.0;
/// ± (95 %) by which a photo meant to be straight on is taken aside, degrees [own judgement].
const ASIDE_DEG: f64 = 4.0;
/// Distance at which a prop head is usually photographed, mm [own judgement].
const HEAD_DISTANCE_MM: f64 = 800.0;
/// Lean that prop loads allow for, mm per m.
pub(super) const LIMIT_MM_PER_M: f64 = 25.0;

/// A lean across the line of sight.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LeanRequest {
    /// The photo.
    pub photo: Photo,
    /// A plumb line or another known vertical, its upper point first, px.
    pub vertical_px: [Point; 2],
    /// The prop's axis, its upper point first, px.
    pub axis_px: [Point; 2],
    /// ± (95 %) of a tap, px; as for a wall when missing.
    #[serde(default)]
    pub tap_px: Option<f64>,
}

/// Beside a limit, with the uncertainty counted.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Limit {
    /// Within it, the whole ± counted.
    Within,
    /// The limit lies within the ±.
    Unclear,
    /// Beyond it, the whole ± counted.
    Beyond,
}

/// Where a value with ± lies beside a limit.
pub(super) fn beside(value: f64, plus_minus: f64, limit: f64) -> Limit {
    if value.abs() + plus_minus <= limit {
        Limit::Within
    } else if value.abs() - plus_minus > limit {
        Limit::Beyond
    } else {
        Limit::Unclear
    }
}

/// A lean.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct LeanAnswer {
    /// Lean to the right in the photo, degrees; negative to the left.
    pub lean_deg: Option<f64>,
    /// ± (95 %), degrees.
    pub plus_minus_deg: Option<f64>,
    /// Lean to the right, mm per m of height.
    pub mm_per_m: Option<f64>,
    /// ± (95 %), mm per m.
    pub plus_minus_mm_per_m: Option<f64>,
    /// Beside 25 mm per m.
    pub limit: Option<Limit>,
    /// Trust.
    pub trust: Trust,
    /// Reasons.
    pub doubts: Vec<Doubt>,
    /// What a photo cannot show.
    pub caution: String,
}

fn tap_of(photo: &Photo, given: Option<f64>, problems: &mut Vec<Problem>) -> f64 {
    for (name, value) in [("width_px", photo.width_px), ("height_px", photo.height_px)] {
        if !(value.is_finite() && (50.0..=100_000.0).contains(&value)) {
            let path = format!("/photo/{name}");
            problems.push(Problem::new(
                path,
                format!("{value} is out of range"),
                "50 to 100000 px",
            ));
        }
    }
    if let Some(film) = photo.focal_35mm_mm.filter(|f| !(5.0..=2000.0).contains(f)) {
        problems.push(Problem::new(
            "/photo/focal_35mm_mm",
            format!("{film} is out of range"),
            "5 to 2000 mm",
        ));
    }
    if let Some(tap) = given.filter(|t| !(0.01..=200.0).contains(t)) {
        problems.push(Problem::new(
            "/tap_px",
            format!("{tap} is out of range"),
            "0.01 to 200 px",
        ));
    }
    given.unwrap_or((photo.width_px.max(photo.height_px) / 1000.0).max(1.5))
}

fn on_photo(photo: &Photo, pairs: &[(&str, [Point; 2])], problems: &mut Vec<Problem>) {
    for (name, pair) in pairs {
        for (i, [x, y]) in pair.iter().enumerate() {
            if !((0.0..=photo.width_px).contains(x) && (0.0..=photo.height_px).contains(y)) {
                let right = format!("0 to {} and 0 to {} px", photo.width_px, photo.height_px);
                problems.push(Problem::new(
                    format!("/{name}/{i}"),
                    format!("({x}, {y}) is not on the photo"),
                    right,
                ));
            }
        }
    }
}

fn in_range(path: &str, value: f64, least: f64, most: f64, problems: &mut Vec<Problem>) {
    if !(least..=most).contains(&value) {
        problems.push(Problem::new(
            path,
            format!("{value} is out of range"),
            format!("{least} to {most}"),
        ));
    }
}

fn inputs(taps: &[Point], tap: f64) -> Vec<Input> {
    taps.iter().flatten().map(|v| Input::within(*v, tap)).collect()
}

/// Direction of a line down the photo, its angle from straight down, radians: positive where the upper end lies right.
fn angle(upper: Point, lower: Point) -> f64 {
    let ([ux, uy], [lx, ly]) = (upper, lower);
    (ux - lx).atan2(ly - uy)
}

/// Lean of an axis beside a known vertical.
///
/// With the camera pitched by p, an upright line at x from the middle is seen turned by about x/f · tan p; the difference
/// between vertical and axis is counted with p within ±10° (95 %).
///
/// # Errors
/// Numbers out of range and taps off the photo.
pub fn lean(request: &LeanRequest) -> Result<LeanAnswer, Vec<Problem>> {
    let mut problems = Vec::new();
    let photo = &request.photo;
    let tap = tap_of(photo, request.tap_px, &mut problems);
    let pairs = [("vertical_px", request.vertical_px), ("axis_px", request.axis_px)];
    on_photo(photo, &pairs, &mut problems);
    if !problems.is_empty() {
        return Err(problems);
    }
    let mut doubts = Vec::new();
    let shortest = pairs
        .iter()
        .map(|(_, [a, b])| distance(*a, *b))
        .fold(f64::INFINITY, f64::min);
    let upright = pairs.iter().all(|(_, [u, l])| angle(*u, *l).abs() < 0.6);
    if shortest < 40.0 * tap {
        doubts.push(doubt(
            "too_short",
            Trust::Refused,
            "The two points of a line are too near to each other.",
        ));
    } else if !upright {
        let words = "The lines do not run up the photo: the upper point first, and hold the phone upright.";
        doubts.push(doubt("not_upright", Trust::Refused, words));
    }
    let film = photo.focal_35mm_mm.unwrap_or(super::camera::USUAL_FOCAL_MM);
    let frame = super::lens::Frame::of(photo.width_px, photo.height_px);
    let focal = super::camera::focal_of_film(&frame, film);
    let mut all = inputs(&[request.vertical_px, request.axis_px].concat(), tap);
    all.push(Input::within(0.0, PITCH_DEG.to_radians()));
    let model = |v: &[f64]| {
        let [ax, ay, bx, by, cx, cy, dx, dy, pitch] = <[f64; 9]>::try_from(v).ok()?;
        let apart = (f64::midpoint(cx, dx) - f64::midpoint(ax, bx)) / focal;
        let turned = angle([cx, cy], [dx, dy]) - angle([ax, ay], [bx, by]) + apart * pitch.tan();
        Some([turned.to_degrees(), turned.tan() * 1000.0])
    };
    let refused = worst(&doubts) == Trust::Refused;
    let read = (!refused).then(|| spread(&all, model)).flatten();
    let limit = read.map(|[_, (mm, pm)]| beside(mm, pm, LIMIT_MM_PER_M));
    if let Some([_, (_, pm)]) = read.filter(|[_, (_, pm)]| *pm > LIMIT_MM_PER_M / 2.0) {
        let words = format!("Only to ±{pm:.0} mm per m: hang the line nearer to the prop and tap further apart.");
        doubts.push(doubt("rough", Trust::Doubtful, words));
    }
    Ok(LeanAnswer {
        lean_deg: read.map(|[(v, _), _]| v),
        plus_minus_deg: read.map(|[(_, pm), _]| pm),
        mm_per_m: read.map(|[_, (v, _)]| v),
        plus_minus_mm_per_m: read.map(|[_, (_, pm)]| pm),
        limit,
        trust: if read.is_some() { worst(&doubts) } else { Trust::Refused },
        doubts,
        caution: "A photo shows the lean across the line of sight only: take another from a quarter turn aside."
            .to_owned(),
    })
}

/// How far a tube stands off the middle of a plate.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct OffCentreRequest {
    /// The photo.
    pub photo: Photo,
    /// Left and right edge of the plate, px.
    pub plate_px: [Point; 2],
    /// Left and right edge of the tube, px.
    pub tube_px: [Point; 2],
    /// Width of the plate, mm.
    pub plate_mm: f64,
    /// ± (95 %) of that width, mm; 1 mm when missing.
    #[serde(default)]
    pub plus_minus_mm: Option<f64>,
    /// ± (95 %) of a tap, px.
    #[serde(default)]
    pub tap_px: Option<f64>,
}

/// A length read in a photo with a scale of its own.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ScaleAnswer {
    /// The reading; none where refused. Off centre is positive to the right in the photo.
    pub reading: Option<Reading>,
    /// Trust.
    pub trust: Trust,
    /// Reasons.
    pub doubts: Vec<Doubt>,
    /// What a photo cannot show.
    pub caution: String,
}

/// Off centre of a prop's head from a photo straight on.
///
/// The plate's front edge stands half a plate nearer to the camera than the tube's axis: seen from an angle aside the tube
/// moves by that depth times the tangent (±4°, 95 %), and it is seen smaller by depth over distance.
///
/// # Errors
/// Numbers out of range and taps off the photo.
pub fn off_centre(request: &OffCentreRequest) -> Result<ScaleAnswer, Vec<Problem>> {
    let mut problems = Vec::new();
    let tap = tap_of(&request.photo, request.tap_px, &mut problems);
    let pairs = [("plate_px", request.plate_px), ("tube_px", request.tube_px)];
    on_photo(&request.photo, &pairs, &mut problems);
    in_range("/plate_mm", request.plate_mm, 40.0, 600.0, &mut problems);
    let within = request.plus_minus_mm.unwrap_or(1.0);
    in_range("/plus_minus_mm", within, 0.0, 20.0, &mut problems);
    if !problems.is_empty() {
        return Err(problems);
    }
    let mut doubts = Vec::new();
    if distance(request.plate_px[0], request.plate_px[1]) < 40.0 * tap {
        doubts.push(doubt(
            "scale_small",
            Trust::Refused,
            "The plate is too small in this photo. Go nearer.",
        ));
    }
    let mut all = inputs(&[request.plate_px, request.tube_px].concat(), tap);
    all.push(Input::within(request.plate_mm, within));
    all.push(Input::within(0.0, ASIDE_DEG.to_radians()));
    let depth = request.plate_mm / 2.0;
    all.push(Input::within(1.0, 2.0 * depth / HEAD_DISTANCE_MM));
    let model = |v: &[f64]| {
        let [ax, ay, bx, by, cx, cy, dx, dy, plate, aside, nearer] = <[f64; 11]>::try_from(v).ok()?;
        let (px, py) = (bx - ax, by - ay);
        let (ox, oy) = ((cx + dx - ax - bx) / 2.0, (cy + dy - ay - by) / 2.0);
        let share = (ox * px + oy * py) / (px * px + py * py);
        Some([share * plate * nearer + depth * aside.tan()])
    };
    let turned = |[[ax, _], [bx, _]]: [Point; 2]| bx <= ax;
    if turned(request.plate_px) || turned(request.tube_px) {
        doubts.push(doubt("order", Trust::Refused, "Left edge first, then the right one."));
    }
    let refused = worst(&doubts) == Trust::Refused;
    let read = (!refused).then(|| spread(&all, model)).flatten().map(|[r]| reading(r));
    Ok(ScaleAnswer {
        trust: if read.is_some() { worst(&doubts) } else { Trust::Refused },
        reading: read,
        doubts,
        caution: "Stand straight in front of the head: from aside the tube seems to move.".to_owned(),
    })
}

/// A crack's width beside a scale.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CrackRequest {
    /// The photo.
    pub photo: Photo,
    /// Both edges of the crack, straight across it, px.
    pub crack_px: [Point; 2],
    /// Two marks of the scale, px.
    pub scale_px: [Point; 2],
    /// Length between those marks, mm.
    pub scale_mm: f64,
    /// ± (95 %) of that length, mm; 0.3 mm when missing [printed card or gauge, own judgement].
    #[serde(default)]
    pub plus_minus_mm: Option<f64>,
    /// ± (95 %) of a tap, px.
    #[serde(default)]
    pub tap_px: Option<f64>,
}

/// Width of a crack.
///
/// # Errors
/// Numbers out of range and taps off the photo.
pub fn crack(request: &CrackRequest) -> Result<ScaleAnswer, Vec<Problem>> {
    let mut problems = Vec::new();
    let tap = tap_of(&request.photo, request.tap_px, &mut problems);
    let pairs = [("crack_px", request.crack_px), ("scale_px", request.scale_px)];
    on_photo(&request.photo, &pairs, &mut problems);
    in_range("/scale_mm", request.scale_mm, 1.0, 1000.0, &mut problems);
    let within = request.plus_minus_mm.unwrap_or(0.3);
    in_range("/plus_minus_mm", within, 0.0, 10.0, &mut problems);
    if !problems.is_empty() {
        return Err(problems);
    }
    let mut doubts = Vec::new();
    let ([ca, cb], [sa, sb]) = (request.crack_px, request.scale_px);
    if distance(sa, sb) < 40.0 * tap {
        doubts.push(doubt(
            "scale_small",
            Trust::Refused,
            "The scale is too small in this photo. Go nearer.",
        ));
    }
    // Seen from aside, lengths in two directions shrink differently: 15° make 3.4 %.
    let direction = |[ax, ay]: Point, [bx, by]: Point| (by - ay).atan2(bx - ax);
    let aside = 0.035 * (direction(ca, cb) - direction(sa, sb)).sin().abs();
    let mut all = inputs(&[request.crack_px, request.scale_px].concat(), tap);
    all.push(Input::within(request.scale_mm, within));
    all.push(Input::within(1.0, aside));
    let model = |v: &[f64]| {
        let [ax, ay, bx, by, cx, cy, dx, dy, scale, aside] = <[f64; 10]>::try_from(v).ok()?;
        Some([(bx - ax).hypot(by - ay) / (dx - cx).hypot(dy - cy) * scale * aside])
    };
    let refused = worst(&doubts) == Trust::Refused;
    let read = (!refused).then(|| spread(&all, model)).flatten().map(|[r]| reading(r));
    if read.is_some_and(|r| r.plus_minus_mm > r.mm / 2.0) {
        let words = "The crack is hardly wider than a tap is sure. Go nearer, or use a gauge.";
        doubts.push(doubt("rough", Trust::Doubtful, words));
    }
    Ok(ScaleAnswer {
        trust: if read.is_some() { worst(&doubts) } else { Trust::Refused },
        reading: read,
        doubts,
        caution: "The scale must lie flat on the wall, close beside the crack.".to_owned(),
    })
}
