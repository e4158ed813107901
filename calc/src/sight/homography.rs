//! A homography: the map between a flat wall and its picture, from four or more pairs of points.
//!
//! Direct linear transform with both sets of points moved to their centroid and scaled to a mean distance of √2; with more
//! than four pairs the sum of squared distances in the picture is then made least by a few Gauss–Newton steps.

use super::solve::least_squares;
use crate::source::{Seen, Source};
use serde::{Deserialize, Serialize};

/// The method and how it was seen.
pub const SOURCE: Source = Source::new(
    "Hartley and Zisserman, Multiple View Geometry, 2nd edition",
    "algorithm 4.2, normalised direct linear transform",
    Seen::Secondary("public lecture notes on homographies; values confirmed with a reference library"),
);

/// A point: right and down in a picture (px), right and up on a wall (mm).
pub type Point = [f64; 2];

/// Why pairs of points give no homography.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Degenerate {
    /// Fewer than four pairs, or unequal numbers of points.
    TooFew,
    /// A coordinate is not a finite number.
    NotFinite,
    /// Three of the four points lie on one line, or all points do.
    ThreeInLine,
    /// The equations have no single answer, or a point goes through infinity.
    NoAnswer,
}

impl Degenerate {
    /// What is wrong, in plain words.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::TooFew => "four pairs of points are needed, as many on the one side as on the other",
            Self::NotFinite => "a coordinate is not a finite number",
            Self::ThreeInLine => "three of the points lie on one line",
            Self::NoAnswer => "these points give no single map",
        }
    }
}

/// A 3 × 3 matrix that maps points of one plane to another, last element brought to 1.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Homography {
    /// Rows of the matrix.
    pub rows: [[f64; 3]; 3],
}

/// Shift and scale that bring points to centroid 0 and mean distance √2.
#[derive(Clone, Copy)]
struct Normal {
    x: f64,
    y: f64,
    scale: f64,
}

impl Normal {
    fn of(points: &[Point]) -> Option<Self> {
        let n = points.len() as f64;
        let x = points.iter().map(|[x, _]| x).sum::<f64>() / n;
        let y = points.iter().map(|[_, y]| y).sum::<f64>() / n;
        let mean = points.iter().map(|[a, b]| (a - x).hypot(b - y)).sum::<f64>() / n;
        let scale = std::f64::consts::SQRT_2 / mean;
        (scale.is_finite() && scale > 0.0).then_some(Self { x, y, scale })
    }

    fn apply(self, [x, y]: Point) -> Point {
        [(x - self.x) * self.scale, (y - self.y) * self.scale]
    }

    fn forth(self) -> Homography {
        let s = self.scale;
        Homography {
            rows: [[s, 0.0, -s * self.x], [0.0, s, -s * self.y], [0.0, 0.0, 1.0]],
        }
    }

    fn back(self) -> Homography {
        let s = 1.0 / self.scale;
        Homography {
            rows: [[s, 0.0, self.x], [0.0, s, self.y], [0.0, 0.0, 1.0]],
        }
    }
}

/// Twice the area of a triangle, positive where the points turn from the first axis to the second.
pub(super) fn twice_area([ax, ay]: Point, [bx, by]: Point, [cx, cy]: Point) -> f64 {
    (bx - ax) * (cy - ay) - (by - ay) * (cx - ax)
}

/// Distance of two points.
pub(super) fn distance([ax, ay]: Point, [bx, by]: Point) -> f64 {
    (bx - ax).hypot(by - ay)
}

/// Whether the third point stands off the line of the other two by less than a share of the longest side.
pub(super) fn in_line(a: Point, b: Point, c: Point, share: f64) -> bool {
    let longest = distance(a, b).max(distance(b, c)).max(distance(c, a));
    twice_area(a, b, c).abs() <= share * longest * longest
}

impl Homography {
    /// The map that brings each point of `from` to its partner in `to`, exactly with four pairs, best in `to` with more.
    ///
    /// # Errors
    /// [`Degenerate`] with the reason.
    pub fn from_pairs(from: &[Point], to: &[Point]) -> Result<Self, Degenerate> {
        if from.len() < 4 || from.len() != to.len() {
            return Err(Degenerate::TooFew);
        }
        if !from.iter().chain(to).flatten().all(|v| v.is_finite()) {
            return Err(Degenerate::NotFinite);
        }
        for side in [from, to] {
            if lies_in_line(side) {
                return Err(Degenerate::ThreeInLine);
            }
        }
        Self::direct(from, to).ok_or(Degenerate::NoAnswer)
    }

    fn direct(from: &[Point], to: &[Point]) -> Option<Self> {
        let (normal_from, normal_to) = (Normal::of(from)?, Normal::of(to)?);
        let pairs: Vec<(Point, Point)> = from
            .iter()
            .zip(to)
            .map(|(a, b)| (normal_from.apply(*a), normal_to.apply(*b)))
            .collect();
        let mut equations = Vec::with_capacity(2 * pairs.len());
        for ([x, y], [u, v]) in &pairs {
            equations.push(vec![*x, *y, 1.0, 0.0, 0.0, 0.0, -u * x, -u * y, *u]);
            equations.push(vec![0.0, 0.0, 0.0, *x, *y, 1.0, -v * x, -v * y, *v]);
        }
        let mut h = Self::from_slice(&least_squares(&equations, 8)?)?;
        if pairs.len() > 4 {
            for _ in 0..20 {
                match h.better(&pairs) {
                    Some((next, moved)) => {
                        h = next;
                        if moved < 1e-14 {
                            break;
                        }
                    }
                    None => break,
                }
            }
        }
        normal_to.back().times(&h).times(&normal_from.forth()).ended_by_one()
    }

    fn from_slice(values: &[f64]) -> Option<Self> {
        let [a, b, c, d, e, f, g, h] = <[f64; 8]>::try_from(values).ok()?;
        Some(Self {
            rows: [[a, b, c], [d, e, f], [g, h, 1.0]],
        })
    }

    /// One Gauss–Newton step on the distances in the target plane, and how far it moved the matrix.
    fn better(&self, pairs: &[(Point, Point)]) -> Option<(Self, f64)> {
        let mut equations = Vec::with_capacity(2 * pairs.len());
        for ([x, y], [u, v]) in pairs {
            let w = self.depth([*x, *y]);
            let [mu, mv] = self.map([*x, *y])?;
            equations.push(vec![
                x / w,
                y / w,
                1.0 / w,
                0.0,
                0.0,
                0.0,
                -mu * x / w,
                -mu * y / w,
                u - mu,
            ]);
            equations.push(vec![
                0.0,
                0.0,
                0.0,
                x / w,
                y / w,
                1.0 / w,
                -mv * x / w,
                -mv * y / w,
                v - mv,
            ]);
        }
        let step = least_squares(&equations, 8)?;
        let old = self.rows.iter().flatten().take(8);
        let new: Vec<f64> = old.zip(&step).map(|(old, step)| old + step).collect();
        let moved = step.iter().fold(0.0_f64, |most, s| most.max(s.abs()));
        Some((Self::from_slice(&new)?, moved))
    }

    /// Product of two matrices: `other` first, then this one.
    #[must_use]
    pub fn times(&self, other: &Self) -> Self {
        let [a, b, c] = other.rows;
        let row = |[x, y, z]: [f64; 3]| {
            let mut out = [0.0; 3];
            for (o, ((a, b), c)) in out.iter_mut().zip(a.iter().zip(&b).zip(&c)) {
                *o = x * a + y * b + z * c;
            }
            out
        };
        Self {
            rows: self.rows.map(row),
        }
    }

    /// The same map with the last element 1; none where that element vanishes.
    fn ended_by_one(&self) -> Option<Self> {
        let [.., [_, _, last]] = self.rows;
        let rows = self.rows.map(|row| row.map(|v| v / last));
        rows.iter().flatten().all(|v| v.is_finite()).then_some(Self { rows })
    }

    /// The third homogeneous coordinate of a mapped point: its sign tells the two sides of the horizon apart.
    #[must_use]
    pub fn depth(&self, [x, y]: Point) -> f64 {
        let [.., [g, h, i]] = self.rows;
        g * x + h * y + i
    }

    /// Where a point comes to lie; none on the horizon.
    #[must_use]
    pub fn map(&self, point: Point) -> Option<Point> {
        let [x, y] = point;
        let [[a, b, c], [d, e, f], _] = self.rows;
        let w = self.depth(point);
        let out = [(a * x + b * y + c) / w, (d * x + e * y + f) / w];
        out.iter().all(|v| v.is_finite()).then_some(out)
    }

    /// The map back.
    #[must_use]
    pub fn inverse(&self) -> Option<Self> {
        let [[a, b, c], [d, e, f], [g, h, i]] = self.rows;
        let rows = [
            [e * i - f * h, c * h - b * i, b * f - c * e],
            [f * g - d * i, a * i - c * g, c * d - a * f],
            [d * h - e * g, b * g - a * h, a * e - b * d],
        ];
        Self { rows }.ended_by_one()
    }
}

/// Whether three of four points, or all of more, lie on a line as near as makes the map useless.
fn lies_in_line(points: &[Point]) -> bool {
    const SHARE: f64 = 1e-9;
    if let [a, b, c, d] = *points {
        return [(a, b, c), (b, c, d), (c, d, a), (d, a, b)]
            .into_iter()
            .any(|(a, b, c)| in_line(a, b, c, SHARE));
    }
    let Some((first, rest)) = points.split_first() else {
        return true;
    };
    let far = rest
        .iter()
        .max_by(|a, b| distance(*first, **a).total_cmp(&distance(*first, **b)));
    far.is_none_or(|far| points.iter().all(|p| in_line(*first, *far, *p, SHARE)))
}
