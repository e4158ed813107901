//! Lengths, rectangles and coursing read on the wall plane of a photo.

use super::asked::{
    Cause, Counted, CoursingRead, Doubt, LengthRead, MeasureAnswer, MeasureRequest, RectangleRead, RectangleSizes,
    Trust,
};
use super::camera::Pose;
use super::homography::{Degenerate, Point, distance};
use super::plane::{Ground, Plane};
use super::spread::Reading;
use super::view::View;
use crate::problem::Problem;

/// Said beside every reading.
const CAUTIONS: [&str; 2] = [
    "Only what lies in the plane of the thing of known size is read right. A reveal, a sill or a pipe in front of it reads too long, one behind too short; a photo cannot show which.",
    "Check one length with a rule before anything is ordered or cut.",
];

pub(super) fn doubt(code: &str, trust: Trust, words: impl Into<String>) -> Doubt {
    Doubt {
        code: code.to_owned(),
        trust,
        words: words.into(),
    }
}

pub(super) fn worst(doubts: &[Doubt]) -> Trust {
    doubts.iter().map(|d| d.trust).max().unwrap_or(Trust::Good)
}

pub(super) fn reading((mm, plus_minus_mm): (f64, f64)) -> Reading {
    Reading { mm, plus_minus_mm }
}

/// The photo made ready, its plane and camera, with doubts about it as a whole.
pub(super) struct Ready<'v> {
    pub ground: Ground<'v>,
    pub plane: Plane,
    pub pose: Option<Pose>,
    pub doubts: Vec<Doubt>,
}

/// Makes a view ready.
///
/// # Errors
/// Problems of the numbers first; then, in `Ok(Err(..))`, why the reference cannot be used.
pub(super) fn ready(view: &View) -> Result<Result<Ready<'_>, Vec<Doubt>>, Vec<Problem>> {
    let mut problems = view.problems();
    let size = view.reference.size(&mut problems);
    let (Some(size), true) = (size, problems.is_empty()) else {
        return Err(problems);
    };
    if let Some((code, words)) = view.corners_wrong() {
        return Ok(Err(vec![doubt(code, Trust::Refused, words)]));
    }
    let ground = Ground::new(view, size);
    let plane = match ground.plane() {
        Ok(plane) => plane,
        Err(why @ Degenerate::NoAnswer) => {
            let words = format!(
                "The corners, or where x and heights begin, give no plane: {}.",
                why.words()
            );
            return Ok(Err(vec![doubt("no_plane", Trust::Refused, words)]));
        }
        Err(why) => return Ok(Err(vec![doubt("no_plane", Trust::Refused, why.words())])),
    };
    let mut doubts = Vec::new();
    let pose = ground.pose(&plane);
    match pose.map(|pose| pose.oblique_deg) {
        Some(angle) if angle <= 50.0 => {}
        Some(angle) if angle <= 65.0 => doubts.push(doubt(
            "oblique",
            Trust::Doubtful,
            format!("The photo looks at the wall from {angle:.0}° aside. Stand more squarely to it."),
        )),
        _ => doubts.push(doubt(
            "too_oblique",
            Trust::Refused,
            "The photo looks along the wall. Stand more squarely to it.",
        )),
    }
    let [a, b, c, d] = view.corners_px;
    let shortest = [(a, b), (b, c), (c, d), (d, a)]
        .into_iter()
        .map(|(p, q)| distance(p, q))
        .fold(f64::INFINITY, f64::min);
    if shortest < 60.0 * view.tap_px() {
        doubts.push(doubt(
            "reference_smallish",
            Trust::Doubtful,
            "The thing of known size is small in this photo: readings are rough.",
        ));
    }
    if !view.edges_px.is_empty() && !ground.lens.from_edges {
        let words = if ground.frame.longest_edge(&view.edges_px) < 0.5 {
            "The straight edges are too short to tell anything of the lens."
        } else {
            "The straight edges tell less of the lens than what is usual for it."
        };
        doubts.push(doubt("edges_unused", Trust::Good, words));
    }
    if worst(&doubts) == Trust::Refused {
        return Ok(Err(doubts));
    }
    Ok(Ok(Ready {
        ground,
        plane,
        pose,
        doubts,
    }))
}

impl Ready<'_> {
    /// Doubts about taps by their distance from the reference.
    pub(super) fn far(&self, taps: &[Point]) -> Vec<Doubt> {
        let reach = taps
            .iter()
            .map(|tap| self.ground.reach(&self.plane, *tap))
            .try_fold(0.0_f64, |most, reach| reach.map(|reach| most.max(reach)));
        match reach {
            None => vec![doubt(
                "beyond_horizon",
                Trust::Refused,
                "A point lies where this wall can no longer be seen.",
            )],
            Some(reach) if reach > 8.0 => vec![doubt(
                "beyond_reach",
                Trust::Refused,
                "A point lies too far beyond the thing of known size. Take something larger, or one nearer to it.",
            )],
            Some(reach) if reach > 4.0 => vec![doubt(
                "far",
                Trust::Doubtful,
                "A point lies far beyond the thing of known size.",
            )],
            Some(_) => Vec::new(),
        }
    }

    fn length(&self, from: Point, to: Point) -> (Option<Reading>, Option<Cause>, Vec<Doubt>) {
        let taps = [from, to];
        let mut doubts = self.far(&taps);
        if worst(&doubts) == Trust::Refused {
            return (None, None, doubts);
        }
        let apart = |plane: &Plane, taps: &[Point]| {
            let [a, b] = *taps else { return None };
            Some([distance(plane.wall(a)?, plane.wall(b)?)])
        };
        let read = self.ground.read(&taps, false, apart);
        let read = self.rough(read.map(|[length]| [reading(length)]), &mut doubts);
        (read.map(|[length]| length), self.ground.mostly(&taps, apart), doubts)
    }

    /// Height over the inside floor. Its ± is no share of it: near the floor any share is large.
    fn level(&self, at: Point) -> (Option<Reading>, Option<Cause>, Vec<Doubt>) {
        let height = |plane: &Plane, taps: &[Point]| {
            let [_, y] = plane.wall(*taps.first()?)?;
            Some([y])
        };
        let mut doubts = self.far(&[at]);
        let read = if worst(&doubts) == Trust::Refused {
            None
        } else {
            self.ground.read(&[at], false, height)
        };
        if read.is_none() && doubts.is_empty() {
            doubts.push(doubt(
                "too_rough",
                Trust::Refused,
                "The photo is too rough for this height.",
            ));
        }
        let mostly = self.ground.mostly(&[at], height);
        (read.map(|[value]| reading(value)), mostly, doubts)
    }

    /// Adds what the size of ± says: doubtful above a tenth of the largest length, refused above a third.
    fn rough<const N: usize>(&self, read: Option<[Reading; N]>, doubts: &mut Vec<Doubt>) -> Option<[Reading; N]> {
        let share = read.as_ref().map_or(f64::INFINITY, |read| {
            let pm = read.iter().fold(0.0_f64, |most, r| most.max(r.plus_minus_mm));
            pm / read.iter().fold(0.0_f64, |most, r| most.max(r.mm.abs()))
        });
        if share.is_nan() || share > 1.0 / 3.0 {
            doubts.push(doubt(
                "too_rough",
                Trust::Refused,
                "The photo is too rough for this: the reading could be a third off.",
            ));
            return None;
        }
        if share > 0.1 {
            doubts.push(doubt("rough", Trust::Doubtful, "The reading could be a tenth off."));
        }
        read
    }

    fn rectangle(&self, corners: &[Point; 4]) -> (Option<RectangleSizes>, Option<Cause>, Vec<Doubt>) {
        let mut doubts = self.far(corners);
        let places: Vec<Point> = corners.iter().filter_map(|tap| self.plane.wall(*tap)).collect();
        let Some(roles) = roles(&places).filter(|_| worst(&doubts) < Trust::Refused) else {
            if worst(&doubts) < Trust::Refused {
                let words = "These four corners are not those of an upright rectangle.";
                doubts.push(doubt("not_a_rectangle", Trust::Refused, words));
            }
            return (None, None, doubts);
        };
        let model = |plane: &Plane, taps: &[Point]| {
            let at = |role: usize| plane.wall(*taps.get(role)?);
            let [a, b, c, d] = roles;
            let ([ax, ay], [bx, by], [cx, cy], [dx, dy]) = (at(a)?, at(b)?, at(c)?, at(d)?);
            let (left, right) = (f64::midpoint(ax, dx), f64::midpoint(bx, cx));
            let (head, sill) = (f64::midpoint(ay, by), f64::midpoint(cy, dy));
            let skew_wide = (bx - ax) - (cx - dx);
            let skew_high = (ay - dy) - (by - cy);
            Some([left, right - left, sill, head, head - sill, skew_wide, skew_high])
        };
        let mostly = self.ground.mostly(corners, |plane, taps| {
            let [_, width, _, head, height, ..] = model(plane, taps)?;
            Some([width, head, height])
        });
        let read = self.ground.read(corners, false, model);
        let Some([x, width, sill, head, height, wide, high]) = read.map(|read| read.map(reading)) else {
            let _ = self.rough::<1>(None, &mut doubts);
            return (None, mostly, doubts);
        };
        if self.rough(Some([width, height]), &mut doubts).is_none() {
            return (None, mostly, doubts);
        }
        if [wide, high]
            .iter()
            .any(|skew| skew.mm.abs() > skew.plus_minus_mm.max(20.0))
        {
            doubts.push(doubt(
                "out_of_square",
                Trust::Doubtful,
                format!(
                    "Opposite sides differ by {:.0} mm: it is out of square, or does not lie in the wall's plane.",
                    wide.mm.abs().max(high.mm.abs())
                ),
            ));
        }
        let sizes = RectangleSizes {
            x,
            width,
            sill,
            head,
            height,
        };
        (Some(sizes), mostly, doubts)
    }
}

/// Which of four places is upper left, upper right, lower right, lower left; none where that is not clear.
fn roles(places: &[Point]) -> Option<[usize; 4]> {
    if places.len() != 4 {
        return None;
    }
    let mut order: Vec<(usize, Point)> = places.iter().copied().enumerate().collect();
    order.sort_by(|(_, [_, a]), (_, [_, b])| b.total_cmp(a));
    let (upper, lower) = order.split_at_mut_checked(2)?;
    for pair in [&mut *upper, &mut *lower] {
        pair.sort_by(|(_, [a, _]), (_, [b, _])| a.total_cmp(b));
    }
    let ([(a, [ax, ay]), (b, [bx, by])], [(d, [dx, dy]), (c, [cx, cy])]) = (&*upper, &*lower) else {
        return None;
    };
    let upright = ay.min(*by) > dy.max(*cy) && ax.max(*dx) < bx.min(*cx);
    upright.then_some([*a, *b, *c, *d])
}

/// Reads a photo.
///
/// # Errors
/// Numbers out of range and taps off the photo, all at once. A photo that cannot be measured on is an answer, not an error.
pub fn measure(request: &MeasureRequest) -> Result<MeasureAnswer, Vec<Problem>> {
    let mut problems = Vec::new();
    let view = &request.view;
    let mut look = |path: String, tap: Point| view.tap_problem(&path, tap, &mut problems);
    for (i, asked) in request.lengths.iter().enumerate() {
        look(format!("/lengths/{i}/from_px"), asked.from_px);
        look(format!("/lengths/{i}/to_px"), asked.to_px);
    }
    for (i, asked) in request.levels.iter().enumerate() {
        look(format!("/levels/{i}/at_px"), asked.at_px);
    }
    for (i, asked) in request.rectangles.iter().enumerate() {
        for (j, corner) in asked.corners_px.iter().enumerate() {
            look(format!("/rectangles/{i}/corners_px/{j}"), *corner);
        }
    }
    for (i, asked) in request.coursing.iter().enumerate() {
        look(format!("/coursing/{i}/from_px"), asked.from_px);
        look(format!("/coursing/{i}/to_px"), asked.to_px);
    }
    for (i, asked) in request.coursing.iter().enumerate() {
        if !(asked.count.is_finite() && (0.5..=500.0).contains(&asked.count)) {
            let wrong = format!("{} is out of range", asked.count);
            problems.push(Problem::new(
                format!("/coursing/{i}/count"),
                wrong,
                "0.5 to 500, counted",
            ));
        }
    }
    let ready = match ready(view) {
        Err(more) => {
            problems.extend(more);
            return Err(problems);
        }
        Ok(_) if !problems.is_empty() => return Err(problems),
        Ok(ready) => ready,
    };
    Ok(match ready {
        Err(doubts) => answer(request, None, doubts),
        Ok(ready) => {
            let doubts = ready.doubts.clone();
            answer(request, Some(&ready), doubts)
        }
    })
}

fn answer(request: &MeasureRequest, ready: Option<&Ready<'_>>, doubts: Vec<Doubt>) -> MeasureAnswer {
    let whole = worst(&doubts);
    let trust = |own: &[Doubt], read: bool| if read { whole.max(worst(own)) } else { Trust::Refused };
    let nothing = || (None, None, Vec::new());
    let length = |from, to| ready.map_or_else(nothing, |ready| ready.length(from, to));
    let named = |name: &str, (length, mostly, doubts): (Option<Reading>, Option<Cause>, Vec<Doubt>)| LengthRead {
        name: name.to_owned(),
        trust: trust(&doubts, length.is_some()),
        length,
        mostly,
        doubts,
    };
    let lengths = request
        .lengths
        .iter()
        .map(|asked| named(&asked.name, length(asked.from_px, asked.to_px)));
    let levels = request.levels.iter().map(|asked| {
        let read = ready.map_or_else(nothing, |ready| ready.level(asked.at_px));
        named(&asked.name, read)
    });
    let rectangles = request.rectangles.iter().map(|asked| {
        let nothing = || (None, None, Vec::new());
        let (sizes, mostly, doubts) = ready.map_or_else(nothing, |ready| ready.rectangle(&asked.corners_px));
        RectangleRead {
            name: asked.name.clone(),
            trust: trust(&doubts, sizes.is_some()),
            sizes,
            mostly,
            doubts,
        }
    });
    let coursing = request.coursing.iter().map(|asked| {
        let (length, _, mut doubts) = length(asked.from_px, asked.to_px);
        let (long, high) = asked.format.module_mm();
        let module = if asked.of == Counted::Courses { high } else { long };
        let mm = asked.count * module;
        let counted = Reading {
            mm,
            plus_minus_mm: (0.015 * mm).max(5.0),
        };
        let agrees = length.map(|read| (read.mm - mm).abs() <= read.plus_minus_mm.hypot(counted.plus_minus_mm));
        if agrees == Some(false) {
            doubts.push(doubt(
                "coursing_differs",
                Trust::Doubtful,
                "Counting and reading do not agree: another format of brick, a miscount, or a wrong size of the reference.",
            ));
        }
        CoursingRead {
            name: asked.name.clone(),
            trust: trust(&doubts, length.is_some()),
            length,
            counted,
            agrees,
            doubts,
        }
    });
    MeasureAnswer {
        trust: whole,
        cautions: CAUTIONS.map(str::to_owned).to_vec(),
        matrix: ready.map(|ready| ready.plane.matrix()),
        lens: ready.map(|ready| ready.ground.lens),
        pose: ready.and_then(|ready| ready.pose),
        tap_px: request.view.tap_px(),
        lengths: lengths.collect(),
        levels: levels.collect(),
        rectangles: rectangles.collect(),
        coursing: coursing.collect(),
        doubts,
    }
}
