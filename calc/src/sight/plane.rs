//! The wall's plane under a photo: every quantity that goes into a reading, and the map they make.

use super::asked::Cause;
use super::camera::{self, FocalFrom, Pose};
use super::homography::{Degenerate, Homography, Point};
use super::lens::{Frame, Lens};
use super::spread::{Input, spread};
use super::view::{Side, Size, View};

/// Inputs before the taps: eight corner coordinates, width, height, shear, turn, k, origin and floor.
const FIXED: usize = 17;
/// Which of the inputs belong to which cause; taps come behind.
const CAUSES: [(Cause, std::ops::Range<usize>); 6] = [
    (Cause::Corners, 0..8),
    (Cause::Size, 8..11),
    (Cause::Level, 11..12),
    (Cause::Lens, 12..13),
    (Cause::Zero, 13..FIXED),
    (Cause::Taps, FIXED..usize::MAX),
];
/// ± (95 %) by which the reference may stand out of level, mm per m [own judgement].
const LEVEL_MM_PER_M: f64 = 4.0;

/// A photo made ready for readings.
pub(super) struct Ground<'v> {
    pub view: &'v View,
    pub frame: Frame,
    pub lens: Lens,
    pub size: Size,
    inputs: Vec<Input>,
}

/// The plane for one set of inputs.
#[derive(Clone, Copy)]
pub(super) struct Plane {
    frame: Frame,
    k: f64,
    /// From the straightened picture to the reference's own axes, mm.
    to_wall: Homography,
    /// Signed depth at the middle of the reference: the same sign is this side of the horizon.
    depth: f64,
    turn: (f64, f64),
    origin: Point,
    mirrored: bool,
    begins: Point,
}

/// Takes `N` numbers from a list.
fn take<const N: usize>(numbers: &mut impl Iterator<Item = f64>) -> Option<[f64; N]> {
    let mut out = [0.0; N];
    for out in &mut out {
        *out = numbers.next()?;
    }
    Some(out)
}

impl<'v> Ground<'v> {
    pub(super) fn new(view: &'v View, size: Size) -> Self {
        let frame = Frame::of(view.photo.width_px, view.photo.height_px);
        let tap = view.tap_px();
        let lens = frame.lens(view.lens_kind(), &view.edges_px, tap);
        let mut inputs: Vec<Input> = Vec::with_capacity(FIXED);
        inputs.extend(view.corners_px.iter().flatten().map(|v| Input::within(*v, tap)));
        inputs.push(Input::within(size.width, size.width_pm));
        inputs.push(Input::within(size.height, size.height_pm));
        // How far the upper edge may stand beside the lower one: as sure as the size itself.
        inputs.push(Input::within(0.0, size.width_pm.max(size.height_pm)));
        inputs.push(Input::within(0.0, LEVEL_MM_PER_M / 1000.0));
        inputs.push(Input::within(lens.k, lens.plus_minus));
        let lower_left = view.corners_px.last().copied().unwrap_or_default();
        for at in [view.origin.map(|o| o.at_px), view.floor.map(|f| f.at_px)] {
            // Without a tap of its own the reference's corner is meant, whose error is already there.
            let within = if at.is_some() { tap } else { 0.0 };
            inputs.extend(at.unwrap_or(lower_left).iter().map(|v| Input::within(*v, within)));
        }
        Self {
            view,
            frame,
            lens,
            size,
            inputs,
        }
    }

    /// The plane as tapped.
    pub(super) fn plane(&self) -> Result<Plane, Degenerate> {
        let values: Vec<f64> = self.inputs.iter().map(|input| input.value).collect();
        self.plane_of(&values).ok_or(Degenerate::NoAnswer)
    }

    fn plane_of(&self, values: &[f64]) -> Option<Plane> {
        let mut numbers = values.iter().copied();
        let corners: [f64; 8] = take(&mut numbers)?;
        let [width, height, shear, turn, k] = take(&mut numbers)?;
        let [ox, oy, fx, fy] = take(&mut numbers)?;
        let [ax, ay, bx, by, cx, cy, dx, dy] = corners;
        let frame = self.frame;
        let picture = [[ax, ay], [bx, by], [cx, cy], [dx, dy]].map(|p| frame.straighten(p, k));
        let wall = [[shear, height], [width + shear, height], [width, 0.0], [0.0, 0.0]];
        let to_wall = Homography::from_pairs(&picture, &wall).ok()?;
        let middle = crossing(picture)?;
        let mut plane = Plane {
            frame,
            k,
            to_wall,
            depth: to_wall.depth(middle),
            turn: turn.sin_cos(),
            origin: [0.0, 0.0],
            mirrored: self.view.side == Side::Outside,
            begins: [
                self.view.origin.map_or(0.0, |o| o.x_mm),
                self.view.floor.map_or(0.0, |f| f.level_mm),
            ],
        };
        let origin_at = if self.view.origin.is_some() { [ox, oy] } else { [dx, dy] };
        let floor_at = if self.view.floor.is_some() { [fx, fy] } else { [dx, dy] };
        let ([x, _], [_, y]) = (plane.level(origin_at)?, plane.level(floor_at)?);
        plane.origin = [x, y];
        Some(plane)
    }

    /// Values of `model` on the plane and taps, each with ± (95 %). `sure` taps carry no error of their own.
    pub(super) fn read<const N: usize>(
        &self,
        taps: &[Point],
        sure: bool,
        model: impl Fn(&Plane, &[Point]) -> Option<[f64; N]>,
    ) -> Option<[(f64, f64); N]> {
        self.spread_of(
            &self.with_taps(taps, if sure { 0.0 } else { self.view.tap_px() }),
            &model,
        )
    }

    /// Which cause alone leaves the largest ± on what `model` gives; one that leaves no answer at all comes before any.
    pub(super) fn mostly<const N: usize>(
        &self,
        taps: &[Point],
        model: impl Fn(&Plane, &[Point]) -> Option<[f64; N]>,
    ) -> Option<Cause> {
        let all = self.with_taps(taps, self.view.tap_px());
        let weights = CAUSES.into_iter().map(|(cause, own)| {
            let inputs: Vec<Input> = all
                .iter()
                .enumerate()
                .map(|(i, input)| {
                    if own.contains(&i) {
                        *input
                    } else {
                        Input { sigma: 0.0, ..*input }
                    }
                })
                .collect();
            let read = self.spread_of(&inputs, &model);
            let weight = read.map_or(f64::INFINITY, |read| {
                read.iter().map(|(_, within)| within * within).sum()
            });
            (cause, weight)
        });
        weights.max_by(|(_, a), (_, b)| a.total_cmp(b)).map(|(cause, _)| cause)
    }

    fn with_taps(&self, taps: &[Point], within: f64) -> Vec<Input> {
        let mut inputs = self.inputs.clone();
        inputs.extend(taps.iter().flatten().map(|v| Input::within(*v, within)));
        inputs
    }

    fn spread_of<const N: usize>(
        &self,
        inputs: &[Input],
        model: &impl Fn(&Plane, &[Point]) -> Option<[f64; N]>,
    ) -> Option<[(f64, f64); N]> {
        spread(inputs, |values| {
            let plane = self.plane_of(values.get(..FIXED)?)?;
            let taps: Vec<Point> = values
                .get(FIXED..)?
                .chunks_exact(2)
                .filter_map(|pair| <Point>::try_from(pair).ok())
                .collect();
            model(&plane, &taps)
        })
    }

    /// The camera, with the focal length that is surest.
    pub(super) fn pose(&self, plane: &Plane) -> Option<Pose> {
        let to_picture = plane.to_wall.inverse()?;
        let film = self.view.photo.focal_35mm_mm;
        let found = self
            .read(&[], true, |plane, _| {
                Some([camera::focal_px(&plane.to_wall.inverse()?, &plane.frame)?.ln()])
            })
            // Known to a quarter (95 %), else the photo's own data or the usual lens are better [own judgement].
            .filter(|[(_, within)]| *within < 0.25)
            .map(|[(ln, _)]| ln.exp());
        let (focal_px, focal_from) = match (film, found) {
            (Some(film), _) => (camera::focal_of_film(&self.frame, film), FocalFrom::PhotoData),
            (None, Some(found)) => (found, FocalFrom::Perspective),
            (None, None) => (
                camera::focal_of_film(&self.frame, camera::USUAL_FOCAL_MM),
                FocalFrom::Assumed,
            ),
        };
        let middle = crossing(self.view.corners_px.map(|p| self.frame.straighten(p, plane.k)))?;
        Some(Pose {
            focal_px,
            focal_from,
            oblique_deg: camera::oblique_deg(&to_picture, &self.frame, focal_px, middle)?,
        })
    }

    /// Distance of a tap from the middle of the reference over half the reference's diagonal.
    pub(super) fn reach(&self, plane: &Plane, tap: Point) -> Option<f64> {
        let [x, y] = plane.own(tap)?;
        let (w, h) = (self.size.width, self.size.height);
        Some((x - w / 2.0).hypot(y - h / 2.0) / (w.hypot(h) / 2.0))
    }
}

impl Plane {
    /// A point of the photo in the reference's own axes, mm; none on or beyond the horizon.
    fn own(&self, tap: Point) -> Option<Point> {
        let at = self.frame.straighten(tap, self.k);
        let depth = self.to_wall.depth(at);
        (depth / self.depth > 1e-3).then(|| self.to_wall.map(at)).flatten()
    }

    /// A point of the photo in level axes through the reference's corner, mm.
    fn level(&self, tap: Point) -> Option<Point> {
        let ([x, y], (sin, cos)) = (self.own(tap)?, self.turn);
        Some([x * cos - y * sin, x * sin + y * cos])
    }

    /// A point of the photo on the wall: x from the marked left jamb, height over the inside floor, mm.
    pub(super) fn wall(&self, tap: Point) -> Option<Point> {
        let ([x, y], [ox, oy], [x0, y0]) = (self.level(tap)?, self.origin, self.begins);
        let dx = x - ox;
        Some([if self.mirrored { x0 - dx } else { x0 + dx }, y0 + y - oy])
    }

    /// Where a point of the wall is seen, px; none where it is not.
    pub(super) fn picture(&self, [x, y]: Point) -> Option<Point> {
        let ([x0, y0], (sin, cos), [ox, oy]) = (self.begins, self.turn, self.origin);
        let x = ox + if self.mirrored { x0 - x } else { x - x0 };
        let y = oy + y - y0;
        let own = [x * cos + y * sin, y * cos - x * sin];
        let back = self.to_wall.inverse()?;
        let at = back.map(own)?;
        if self.to_wall.depth(at) / self.depth <= 1e-3 {
            return None;
        }
        self.frame.bend(at, self.k)
    }

    /// The map from the straightened photo to the wall, in the reference's own axes.
    pub(super) fn matrix(&self) -> Homography {
        self.to_wall
    }
}

/// Where the diagonals of four corners cross.
fn crossing([a, b, c, d]: [Point; 4]) -> Option<Point> {
    let ([ax, ay], [bx, by], [cx, cy], [dx, dy]) = (a, b, c, d);
    let (ux, uy, vx, vy) = (cx - ax, cy - ay, dx - bx, dy - by);
    let t = ((bx - ax) * vy - (by - ay) * vx) / (ux * vy - uy * vx);
    let out = [ax + t * ux, ay + t * uy];
    out.iter().all(|v| v.is_finite()).then_some(out)
}
