//! Radial distortion with one parameter, and its estimate from edges that are straight in truth.
//!
//! Model: a straight lens would have put the point at `centre + d (1 + k r²)`, with `d` the point's offset from the middle of
//! the photo and `r` its length in half diagonals. `k` is above 0 for a barrel (lines bulge outwards) and is at once the share by
//! which a corner of the photo is moved. [own model: one term of the usual series, written from the picture inwards]

use super::homography::{Point, distance};
use super::spread::COVERAGE;
use serde::{Deserialize, Serialize};

/// What is known of the lens when no straight edges are drawn.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum LensKind {
    /// Main camera of a phone: its own software straightens the picture. Corner moved by up to 2 % [own judgement].
    #[default]
    Phone,
    /// Wide angle, cropped, another camera, or not known: up to 10 %, twice what the camera of a published calibration shows
    /// [own judgement].
    Unknown,
}

impl LensKind {
    /// ± (95 %) of k.
    const fn plus_minus(self) -> f64 {
        match self {
            Self::Phone => 0.02,
            Self::Unknown => 0.10,
        }
    }
}

/// The lens as it is taken into account.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Lens {
    /// Share by which a corner of the photo is moved inwards; 0 where nothing was estimated.
    pub k: f64,
    /// ± (95 %) of `k`.
    pub plus_minus: f64,
    /// Whether straight edges were used.
    pub from_edges: bool,
}

/// Middle of the photo and half its diagonal, px.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Frame {
    pub centre: Point,
    pub half_diagonal: f64,
}

impl Frame {
    pub(super) fn of(width_px: f64, height_px: f64) -> Self {
        Self {
            centre: [width_px / 2.0, height_px / 2.0],
            half_diagonal: width_px.hypot(height_px) / 2.0,
        }
    }

    /// Where a straight lens would have put a point of the photo.
    pub(super) fn straighten(&self, [x, y]: Point, k: f64) -> Point {
        let [cx, cy] = self.centre;
        let (dx, dy) = (x - cx, y - cy);
        let r = dx.hypot(dy) / self.half_diagonal;
        let by = 1.0 + k * r * r;
        [cx + dx * by, cy + dy * by]
    }

    /// Where the lens puts a point that a straight lens would show at `point`; none where the model folds over.
    pub(super) fn bend(&self, [x, y]: Point, k: f64) -> Option<Point> {
        let [cx, cy] = self.centre;
        let (dx, dy) = (x - cx, y - cy);
        let straight = dx.hypot(dy) / self.half_diagonal;
        if straight < 1e-12 || k.abs() < 1e-15 {
            return Some([x, y]);
        }
        // s = r + k r³ by Newton from s: monotone for k ≥ 0, and up to the fold for k < 0.
        let mut r = straight / (1.0 + k.max(0.0) * straight * straight).cbrt();
        for _ in 0..60 {
            let step = (r + k * r * r * r - straight) / (1.0 + 3.0 * k * r * r);
            r -= step;
            if step.abs() < 1e-14 {
                break;
            }
        }
        let good = r.is_finite() && r > 0.0 && 1.0 + 3.0 * k * r * r > 0.0;
        let by = r / straight;
        (good && (r + k * r * r * r - straight).abs() < 1e-9).then_some([cx + dx * by, cy + dy * by])
    }

    /// Offsets of straightened points from the line through them, px, for all edges one after the other.
    fn off_line(&self, edges: &[Vec<Point>], k: f64) -> Vec<f64> {
        let mut out = Vec::new();
        for edge in edges {
            let points: Vec<Point> = edge.iter().map(|p| self.straighten(*p, k)).collect();
            let n = points.len() as f64;
            let mx = points.iter().map(|[x, _]| x).sum::<f64>() / n;
            let my = points.iter().map(|[_, y]| y).sum::<f64>() / n;
            let sum = |f: &dyn Fn(f64, f64) -> f64| points.iter().map(|[x, y]| f(x - mx, y - my)).sum::<f64>();
            let (xx, yy, xy) = (sum(&|x, _| x * x), sum(&|_, y| y * y), sum(&|x, y| x * y));
            let angle = 0.5 * (2.0 * xy).atan2(xx - yy);
            let (s, c) = angle.sin_cos();
            out.extend(points.iter().map(|[x, y]| (y - my) * c - (x - mx) * s));
        }
        out
    }

    /// The lens from edges that are straight in truth, each tapped at three points or more; none where they tell nothing.
    ///
    /// `tap_px` is ± (95 %) of a tap in each direction.
    pub(super) fn straightened_by(&self, edges: &[Vec<Point>], tap_px: f64) -> Option<Lens> {
        let (points, lines) = (edges.iter().map(Vec::len).sum::<usize>(), edges.len());
        // Each line has two unknowns of its own, and k is one more.
        if edges.iter().any(|edge| edge.len() < 3) || points < 2 * lines + 1 {
            return None;
        }
        let (mut k, step) = (0.0_f64, 1e-4);
        let mut information = 0.0;
        for _ in 0..40 {
            let now = self.off_line(edges, k);
            let (up, down) = (self.off_line(edges, k + step), self.off_line(edges, k - step));
            let slopes: Vec<f64> = up.iter().zip(&down).map(|(u, d)| (u - d) / (2.0 * step)).collect();
            information = slopes.iter().map(|s| s * s).sum::<f64>();
            let pull: f64 = slopes.iter().zip(&now).map(|(s, r)| s * r).sum();
            let change = -pull / information;
            if !change.is_finite() {
                return None;
            }
            k = (k + change.clamp(-0.05, 0.05)).clamp(-0.3, 0.5);
            if change.abs() < 1e-12 {
                break;
            }
        }
        let rest: f64 = self.off_line(edges, k).iter().map(|r| r * r).sum();
        let free = (points - 2 * lines).saturating_sub(1).max(1) as f64;
        let sigma = (tap_px / COVERAGE).max((rest / free).sqrt());
        // One term is not the whole lens: a tenth of it, and never less than 0.2 %, is left open [own judgement].
        let left_open = (0.1 * k.abs()).max(0.002);
        let plus_minus = (COVERAGE * sigma / information.sqrt()).hypot(left_open);
        plus_minus.is_finite().then_some(Lens {
            k,
            plus_minus,
            from_edges: true,
        })
    }

    /// The lens as taken: from edges where they say more than the kind does, else by its kind.
    pub(super) fn lens(&self, kind: LensKind, edges: &[Vec<Point>], tap_px: f64) -> Lens {
        let usual = Lens {
            k: 0.0,
            plus_minus: kind.plus_minus(),
            from_edges: false,
        };
        match self.straightened_by(edges, tap_px) {
            Some(found) if found.plus_minus < usual.plus_minus => found,
            _ => usual,
        }
    }

    /// Length of the longest edge over half the diagonal: a short edge says nothing about the lens.
    pub(super) fn longest_edge(&self, edges: &[Vec<Point>]) -> f64 {
        let length = |edge: &Vec<Point>| Some(distance(*edge.first()?, *edge.last()?));
        edges.iter().filter_map(length).fold(0.0, f64::max) / self.half_diagonal
    }
}
