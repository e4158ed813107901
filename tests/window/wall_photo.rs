//! A photo of a wall of known size, drawn here: brickwork, a taped rectangle, a marked opening, a window.

use jpeg_encoder::{ColorType, Encoder};
use std::path::Path;

/// Size of the photo, px.
pub const SIZE: (u16, u16) = (1600, 1200);
/// Focal length, px.
const FOCAL: f64 = 1200.0;
/// Where the camera stands, mm: along the wall from the jamb, over the floor, out from the wall.
const CAMERA: [f64; 3] = [1900.0, 1350.0, 5200.0];
/// How far it is turned aside and up, radians.
const TURNED: [f64; 2] = [0.12, 0.02];

/// The opening as marked: 2.4 m wide from x = 0, its head 2.1 m over the floor.
pub const OPENING_MM: [f64; 2] = [2400.0, 2100.0];
/// The rectangle of tape: left, right, lower edge, upper edge.
pub const TAPED_MM: [f64; 4] = [2700.0, 4200.0, 100.0, 2100.0];

type Matrix = [[f64; 3]; 3];

/// From the wall's axes to the camera's: x to the right, y up, z towards who looks.
fn turned() -> Matrix {
    let [(ps, pc), (ts, tc)] = TURNED.map(f64::sin_cos);
    // First about the upright axis, then about the level one.
    [[pc, 0.0, ps], [ts * ps, tc, -ts * pc], [-tc * ps, ts, tc * pc]]
}

fn times(matrix: &Matrix, v: [f64; 3]) -> [f64; 3] {
    matrix.map(|row| row.iter().zip(v).map(|(a, b)| a * b).sum())
}

fn transposed(m: &Matrix) -> Matrix {
    let [[a, b, c], [d, e, f], [g, h, i]] = *m;
    [[a, d, g], [b, e, h], [c, f, i]]
}

/// Where a point of the wall is in the photo, px.
pub fn see([x, y]: [f64; 2]) -> [f64; 2] {
    let [cx, cy, cz] = CAMERA;
    let [px, py, pz] = times(&turned(), [x - cx, y - cy, -cz]);
    let (width, height) = (f64::from(SIZE.0), f64::from(SIZE.1));
    [width / 2.0 - FOCAL * px / pz, height / 2.0 + FOCAL * py / pz]
}

/// The same as a share of width and height.
pub fn share(at: [f64; 2]) -> [f64; 2] {
    let [x, y] = see(at);
    [x / f64::from(SIZE.0), y / f64::from(SIZE.1)]
}

/// Colour of the wall at a point.
fn colour(x: f64, y: f64) -> [u8; 3] {
    let within = |a: f64, b: f64, v: f64| (a..=b).contains(&v);
    let [left, right, low, high] = TAPED_MM;
    let [wide, head] = OPENING_MM;
    let near = |line: f64, v: f64| (v - line).abs() <= 6.0;
    if y < 0.0 {
        [120, 110, 100]
    } else if within(left, right, x) && within(low, high, y) {
        [235, 235, 230]
    } else if (near(0.0, x) || near(wide, x)) && y <= head || near(head, y) && within(0.0, wide, x) {
        [20, 20, 120]
    } else {
        let course = (y / 75.0).floor();
        let shift = if course.rem_euclid(2.0) < 1.0 { 0.0 } else { 112.5 };
        let joint = y.rem_euclid(75.0) < 10.0 || (x + shift).rem_euclid(225.0) < 10.0;
        if joint { [225, 220, 205] } else { [196, 150, 120] }
    }
}

/// Draws the photo into a file, with so many times its pixels along each side: to where things lie on it that is all one.
pub fn take(file: &Path, times_as_large: f64) {
    let back = transposed(&turned());
    let focal = FOCAL * times_as_large;
    let [width, height] = [SIZE.0, SIZE.1].map(|px| (f64::from(px) * times_as_large).round() as u16);
    let mut rgb = Vec::with_capacity(usize::from(width) * usize::from(height) * 3);
    for row in 0..height {
        for column in 0..width {
            let u = (f64::from(column) + 0.5 - f64::from(width) / 2.0) / focal;
            let v = (f64::from(row) + 0.5 - f64::from(height) / 2.0) / focal;
            let [dx, dy, dz] = times(&back, [u, -v, -1.0]);
            let [cx, cy, cz] = CAMERA;
            let far = -cz / dz;
            rgb.extend(colour(cx + far * dx, cy + far * dy));
        }
    }
    let mut bytes = Vec::new();
    Encoder::new(&mut bytes, 90)
        .encode(&rgb, width, height, ColorType::Rgb)
        .unwrap();
    std::fs::write(file, bytes).unwrap();
}
