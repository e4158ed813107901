//! A sheet of paper and a pen: enough to draw the demo's pictures, and nothing else.

use image::{Rgb, RgbImage};

/// A point on the sheet in pixels, x to the right, y down.
pub type Point = (f32, f32);

/// Ink of the house and the words.
pub const INK: Rgb<u8> = Rgb([21, 35, 43]);
/// Red oxide: what bears.
pub const OXIDE: Rgb<u8> = Rgb([163, 49, 27]);
/// Shadow on the paper.
pub const WASH: Rgb<u8> = Rgb([228, 221, 206]);
const PAPER: Rgb<u8> = Rgb([247, 244, 235]);

/// Strokes of the four letters that a demo picture is marked with, on a grid one wide and one high.
const LETTERS: [&[&[Point]]; 4] = [
    &[&[
        (0.0, 0.0),
        (0.0, 1.0),
        (0.6, 1.0),
        (1.0, 0.7),
        (1.0, 0.3),
        (0.6, 0.0),
        (0.0, 0.0),
    ]],
    &[
        &[(1.0, 0.0), (0.0, 0.0), (0.0, 1.0), (1.0, 1.0)],
        &[(0.0, 0.5), (0.8, 0.5)],
    ],
    &[&[(0.0, 1.0), (0.0, 0.0), (0.5, 0.6), (1.0, 0.0), (1.0, 1.0)]],
    &[&[
        (0.3, 0.0),
        (0.7, 0.0),
        (1.0, 0.3),
        (1.0, 0.7),
        (0.7, 1.0),
        (0.3, 1.0),
        (0.0, 0.7),
        (0.0, 0.3),
        (0.3, 0.0),
    ]],
];

/// A drawing under way.
pub struct Sheet {
    pixels: RgbImage,
    tremor: u32,
}

impl Sheet {
    /// Takes a clean sheet. `tremor` starts the hand's unsteadiness, so that each picture has its own and always the same.
    pub fn new(width_px: u32, height_px: u32, tremor: u32) -> Self {
        Self {
            pixels: RgbImage::from_pixel(width_px, height_px, PAPER),
            tremor,
        }
    }

    /// The finished drawing.
    pub fn into_pixels(self) -> RgbImage {
        self.pixels
    }

    /// Fills an upright rectangle.
    pub fn fill(&mut self, from: Point, to: Point, colour: Rgb<u8>) {
        for y in (from.1.max(0.0) as u32)..(to.1.max(0.0) as u32) {
            for x in (from.0.max(0.0) as u32)..(to.0.max(0.0) as u32) {
                self.blend(x, y, 1.0, colour);
            }
        }
    }

    /// Draws a line as a hand would: nearly straight.
    pub fn stroke(&mut self, from: Point, to: Point, width_px: f32, colour: Rgb<u8>) {
        let length = (to.0 - from.0).hypot(to.1 - from.1);
        let pieces = (length / 60.0).ceil().max(1.0);
        let mut last = from;
        for piece in 1..=(pieces as u32) {
            let share = piece as f32 / pieces;
            let sway = if (share - 1.0).abs() < 1e-6 {
                (0.0, 0.0)
            } else {
                (self.sway(), self.sway())
            };
            let next = (
                from.0 + (to.0 - from.0) * share + sway.0,
                from.1 + (to.1 - from.1) * share + sway.1,
            );
            self.segment(last, next, width_px, colour);
            last = next;
        }
    }

    /// Draws through these points one after the other.
    pub fn path(&mut self, points: &[Point], width_px: f32, colour: Rgb<u8>) {
        for (from, to) in points.iter().zip(points.iter().skip(1)) {
            self.stroke(*from, *to, width_px, colour);
        }
    }

    /// Draws an upright rectangle's outline.
    pub fn frame(&mut self, from: Point, to: Point, width_px: f32, colour: Rgb<u8>) {
        self.path(&[from, (to.0, from.1), to, (from.0, to.1), from], width_px, colour);
    }

    /// Draws a dashed line.
    pub fn dashes(&mut self, from: Point, to: Point, width_px: f32, colour: Rgb<u8>) {
        let length = (to.0 - from.0).hypot(to.1 - from.1);
        let count = (length / 34.0).floor().max(1.0);
        let at = |share: f32| (from.0 + (to.0 - from.0) * share, from.1 + (to.1 - from.1) * share);
        for dash in 0..(count as u32) {
            self.stroke(
                at(dash as f32 / count),
                at((dash as f32 + 0.6) / count),
                width_px,
                colour,
            );
        }
    }

    /// Draws masonry in stretcher bond inside a rectangle.
    pub fn courses(&mut self, from: Point, to: Point, unit_px: Point) {
        let mut y = from.1;
        let mut odd = false;
        while y < to.1 {
            self.stroke((from.0, y), (to.0, y), 2.0, INK);
            let bottom = (y + unit_px.1).min(to.1);
            let mut x = from.0 + if odd { unit_px.0 / 2.0 } else { unit_px.0 };
            while x < to.0 {
                self.stroke((x, y), (x, bottom), 2.0, INK);
                x += unit_px.0;
            }
            y += unit_px.1;
            odd = !odd;
        }
        self.frame(from, to, 3.0, INK);
    }

    /// Marks the picture as a demo in a corner, in letters too large to overlook.
    pub fn mark_demo(&mut self) {
        let size = self.pixels.width() as f32 * 0.045;
        let mut left = size;
        let top = self.pixels.height() as f32 - size * 2.0;
        for letter in LETTERS {
            for line in letter {
                let placed: Vec<Point> = line
                    .iter()
                    .map(|(x, y)| (left + x * size * 0.7, top + y * size))
                    .collect();
                self.path(&placed, size * 0.13, OXIDE);
            }
            left += size;
        }
    }

    fn segment(&mut self, from: Point, to: Point, width_px: f32, colour: Rgb<u8>) {
        let half = width_px / 2.0;
        let (left, right) = (from.0.min(to.0) - half - 1.0, from.0.max(to.0) + half + 1.0);
        let (top, bottom) = (from.1.min(to.1) - half - 1.0, from.1.max(to.1) + half + 1.0);
        let (along_x, along_y) = (to.0 - from.0, to.1 - from.1);
        let square = (along_x * along_x + along_y * along_y).max(1e-6);
        for y in (top.max(0.0) as u32)..=(bottom.max(0.0) as u32) {
            for x in (left.max(0.0) as u32)..=(right.max(0.0) as u32) {
                let (dx, dy) = (x as f32 - from.0, y as f32 - from.1);
                let share = ((dx * along_x + dy * along_y) / square).clamp(0.0, 1.0);
                let off = (dx - share * along_x).hypot(dy - share * along_y);
                self.blend(x, y, (half + 0.5 - off).clamp(0.0, 1.0), colour);
            }
        }
    }

    fn blend(&mut self, x: u32, y: u32, cover: f32, colour: Rgb<u8>) {
        if let Some(pixel) = self.pixels.get_pixel_mut_checked(x, y) {
            for (under, over) in pixel.0.iter_mut().zip(colour.0) {
                *under = (f32::from(*under) * (1.0 - cover) + f32::from(over) * cover).round() as u8;
            }
        }
    }

    /// The next sway of the hand, in pixels, from a linear congruential sequence (multiplier and increment of Numerical
    /// Recipes' quick generator, from memory; any would do).
    fn sway(&mut self) -> f32 {
        self.tremor = self.tremor.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
        ((self.tremor >> 16) as f32 / 65_535.0 - 0.5) * 3.0
    }
}
