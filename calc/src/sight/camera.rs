//! The camera that took the photo, as far as the homography tells: focal length and how obliquely it looks at the wall.
//!
//! Taken: square pixels and the principal point in the middle of the photo. Then the two columns of the homography are images
//! of perpendicular directions of equal length, which gives two equations for 1/f² (Zhang's constraints, read in public
//! implementations of his method). Facing the wall squarely both vanish, and f comes from the photo's data or is assumed.

use super::homography::{Homography, Point};
use super::lens::Frame;
use serde::{Deserialize, Serialize};

/// Where a focal length comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum FocalFrom {
    /// Found in the perspective of the reference.
    Perspective,
    /// The photo's own data.
    PhotoData,
    /// 26 mm on 35 mm film, usual for a phone's main camera [own judgement].
    Assumed,
}

/// The camera's pose to the wall.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Pose {
    /// Focal length, px.
    pub focal_px: f64,
    /// Where it comes from.
    pub focal_from: FocalFrom,
    /// Angle between the line of sight to the middle of the reference and the wall's normal, degrees.
    pub oblique_deg: f64,
}

/// Diagonal of 35 mm film, mm.
const FILM_DIAGONAL_MM: f64 = 43.27;
/// Focal length on 35 mm film taken where nothing is known, mm.
pub(super) const USUAL_FOCAL_MM: f64 = 26.0;

/// Focal length in px of a focal length on 35 mm film, by the diagonal.
pub(super) fn focal_of_film(frame: &Frame, film_mm: f64) -> f64 {
    film_mm / FILM_DIAGONAL_MM * 2.0 * frame.half_diagonal
}

/// Columns of a wall-to-picture homography with the picture's origin in the middle of the photo.
fn columns(to_picture: &Homography, [cx, cy]: Point) -> [[f64; 3]; 2] {
    let [[a, b, _], [d, e, _], [g, h, _]] = to_picture.rows;
    [[a - cx * g, d - cy * g, g], [b - cx * h, e - cy * h, h]]
}

/// Focal length in px from the perspective of the wall alone; none where the wall is faced squarely.
#[must_use]
pub(super) fn focal_px(to_picture: &Homography, frame: &Frame) -> Option<f64> {
    let s = frame.half_diagonal;
    let [[a1, a2, a3], [b1, b2, b3]] = columns(to_picture, frame.centre).map(|[x, y, z]| [x / s, y / s, z]);
    // 1/f² · p + q = 0, twice: perpendicular, and of equal length.
    let (p1, q1) = (a1 * b1 + a2 * b2, a3 * b3);
    let (p2, q2) = (a1 * a1 + a2 * a2 - b1 * b1 - b2 * b2, a3 * a3 - b3 * b3);
    let inverse = -(p1 * q1 + p2 * q2) / (p1 * p1 + p2 * p2);
    let f = 1.0 / inverse.sqrt();
    (f.is_finite() && f > 0.2 && f < 20.0).then_some(f * s)
}

/// Angle between the line of sight to a picture point and the wall's normal, degrees.
#[must_use]
pub(super) fn oblique_deg(to_picture: &Homography, frame: &Frame, focal_px: f64, [x, y]: Point) -> Option<f64> {
    let [a, b] = columns(to_picture, frame.centre).map(|[x, y, z]| [x / focal_px, y / focal_px, z]);
    let ([a1, a2, a3], [b1, b2, b3]) = (a, b);
    let normal = [a2 * b3 - a3 * b2, a3 * b1 - a1 * b3, a1 * b2 - a2 * b1];
    let [cx, cy] = frame.centre;
    let sight = [(x - cx) / focal_px, (y - cy) / focal_px, 1.0];
    let dot: f64 = normal.iter().zip(&sight).map(|(n, s)| n * s).sum();
    let long = |v: [f64; 3]| v.iter().map(|v| v * v).sum::<f64>().sqrt();
    let cosine = (dot / long(normal) / long(sight)).abs();
    let angle = cosine.min(1.0).acos().to_degrees();
    angle.is_finite().then_some(angle)
}
