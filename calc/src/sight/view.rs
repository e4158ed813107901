//! What is asked of a photo: its size, something of known size in it, and where x and heights begin.

use super::homography::{Point, distance, in_line, twice_area};
use super::lens::LensKind;
use crate::problem::Problem;
use serde::{Deserialize, Serialize};

/// The photo.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Photo {
    /// Width as shown (after turning by its own data), px.
    pub width_px: f64,
    /// Height as shown, px.
    pub height_px: f64,
    /// Focal length on 35 mm film by the photo's own data, mm.
    #[serde(default)]
    pub focal_35mm_mm: Option<f64>,
}

/// What the four corners are tapped on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Kind {
    /// A door leaf, measured by rule.
    DoorLeaf,
    /// A panel of brickwork, counted in courses and stretchers from joint to joint.
    BrickPanel,
    /// A sheet of board.
    Board,
    /// A rectangle marked with tape and measured by rule.
    Taped,
}

/// Format of brickwork, sizes with a joint.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Format {
    /// 225 × 75 mm: metric brick of 215 × 65 mm with 10 mm joints [common practice].
    #[default]
    UkMetric,
    /// 229 × 76 mm: nine inches by three [from memory; old courses differ, measure four of them].
    UkImperial,
}

impl Format {
    /// Length of a stretcher and height of a course with one joint each, mm.
    #[must_use]
    pub const fn module_mm(self) -> (f64, f64) {
        match self {
            Self::UkMetric => (225.0, 75.0),
            Self::UkImperial => (228.6, 76.2),
        }
    }
}

/// Something flat of known size that lies in the wall's plane, level and plumb.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Reference {
    /// What it is.
    pub kind: Kind,
    /// Width, mm; not for a brick panel.
    #[serde(default)]
    pub width_mm: Option<f64>,
    /// Height, mm; not for a brick panel.
    #[serde(default)]
    pub height_mm: Option<f64>,
    /// ± (95 %) of width and height each, mm. Missing: 3 mm door leaf, 2 mm board, 5 mm taped, brickwork 1.5 % and at least
    /// 5 mm [own judgement].
    #[serde(default)]
    pub plus_minus_mm: Option<f64>,
    /// Courses in the height of a brick panel.
    #[serde(default)]
    pub courses: Option<f64>,
    /// Stretchers in its width; halves are allowed.
    #[serde(default)]
    pub stretchers: Option<f64>,
    /// Format of the brickwork.
    #[serde(default)]
    pub format: Format,
}

/// Where x begins.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Origin {
    /// Tap, px.
    pub at_px: Point,
    /// x of that point from the marked left jamb, mm: 0 on that jamb itself.
    #[serde(default)]
    pub x_mm: f64,
}

/// Where heights begin.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Floor {
    /// Tap on the wall at a known level, px.
    pub at_px: Point,
    /// That level over the inside floor, mm.
    #[serde(default)]
    pub level_mm: f64,
}

/// From which side the photo was taken. x runs to the right as seen from inside.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Side {
    /// From inside: x runs to the right.
    #[default]
    Inside,
    /// From outside: x runs to the left.
    Outside,
}

/// A photo that can be measured on.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct View {
    /// The photo.
    pub photo: Photo,
    /// Side it was taken from.
    #[serde(default)]
    pub side: Side,
    /// The thing of known size.
    pub reference: Reference,
    /// Its corners from the upper left one clockwise, px, x to the right and y down.
    pub corners_px: [Point; 4],
    /// ± (95 %) of a tap in each direction, px. Missing: a thousandth of the photo's longer side, at least 1.5 px: about two
    /// points of a screen under a magnifier of four [own judgement].
    #[serde(default)]
    pub tap_px: Option<f64>,
    /// What is known of the lens.
    #[serde(default)]
    pub lens: LensKind,
    /// Edges that are straight in truth, each with three points or more, px.
    #[serde(default)]
    pub edges_px: Vec<Vec<Point>>,
    /// Where x begins; missing: at the reference's left edge.
    #[serde(default)]
    pub origin: Option<Origin>,
    /// Where heights begin; missing: at the reference's lower edge.
    #[serde(default)]
    pub floor: Option<Floor>,
}

/// Size of a reference with its ±, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Size {
    pub width: f64,
    pub height: f64,
    pub width_pm: f64,
    pub height_pm: f64,
}

impl Reference {
    /// The size with its ±.
    pub(super) fn size(&self, problems: &mut Vec<Problem>) -> Option<Size> {
        let mut needed = |name: &str, value: Option<f64>, least: f64, most: f64, right: &str| {
            let good = value.filter(|v| v.is_finite() && (least..=most).contains(v));
            if good.is_none() {
                let wrong = value.map_or("it is missing".to_owned(), |v| format!("{v} is out of range"));
                problems.push(Problem::new(format!("/view/reference/{name}"), wrong, right));
            }
            good
        };
        let (width, height, usual) = if self.kind == Kind::BrickPanel {
            let stretchers = needed(
                "stretchers",
                self.stretchers,
                0.5,
                100.0,
                "0.5 to 100 stretchers, counted",
            );
            let courses = needed("courses", self.courses, 1.0, 200.0, "1 to 200 courses, counted");
            let (long, high) = self.format.module_mm();
            let (width, height) = (stretchers? * long, courses? * high);
            (width, height, [width, height].map(|size| (0.015 * size).max(5.0)))
        } else {
            let right = "20 to 20000 mm, measured by rule";
            let width = needed("width_mm", self.width_mm, 20.0, 20_000.0, right);
            let height = needed("height_mm", self.height_mm, 20.0, 20_000.0, right);
            let usual = match self.kind {
                Kind::DoorLeaf | Kind::BrickPanel => 3.0,
                Kind::Board => 2.0,
                Kind::Taped => 5.0,
            };
            (width?, height?, [usual; 2])
        };
        let [mut width_pm, mut height_pm] = usual;
        if let Some(given) = self.plus_minus_mm {
            if !(given.is_finite() && given >= 0.0 && given < width.min(height) / 4.0) {
                problems.push(Problem::new(
                    "/view/reference/plus_minus_mm",
                    format!("{given} is out of range"),
                    "0 to a quarter of the smaller side, mm",
                ));
                return None;
            }
            (width_pm, height_pm) = (given, given);
        }
        Some(Size {
            width,
            height,
            width_pm,
            height_pm,
        })
    }
}

impl View {
    /// ± (95 %) of a tap, px.
    #[must_use]
    pub fn tap_px(&self) -> f64 {
        let longer = self.photo.width_px.max(self.photo.height_px);
        self.tap_px.unwrap_or((longer / 1000.0).max(1.5))
    }

    /// The kind of lens: a wide angle by the photo's own data is never taken as a main camera [20 mm, own judgement].
    pub(super) fn lens_kind(&self) -> LensKind {
        match self.photo.focal_35mm_mm {
            Some(film) if film < 20.0 => LensKind::Unknown,
            _ => self.lens,
        }
    }

    /// All problems with the numbers of the view itself.
    pub(super) fn problems(&self) -> Vec<Problem> {
        let mut out = Vec::new();
        let photo = &self.photo;
        for (name, value) in [("width_px", photo.width_px), ("height_px", photo.height_px)] {
            if !(value.is_finite() && (50.0..=100_000.0).contains(&value)) {
                let path = format!("/view/photo/{name}");
                out.push(Problem::new(
                    path,
                    format!("{value} is out of range"),
                    "50 to 100000 px",
                ));
            }
        }
        if let Some(film) = photo
            .focal_35mm_mm
            .filter(|f| !(f.is_finite() && (5.0..=2000.0).contains(f)))
        {
            let path = "/view/photo/focal_35mm_mm";
            out.push(Problem::new(
                path,
                format!("{film} is out of range"),
                "5 to 2000 mm, or left out",
            ));
        }
        if let Some(tap) = self.tap_px.filter(|t| !(t.is_finite() && (0.01..=200.0).contains(t))) {
            out.push(Problem::new(
                "/view/tap_px",
                format!("{tap} is out of range"),
                "0.01 to 200 px",
            ));
        }
        for (i, corner) in self.corners_px.iter().enumerate() {
            self.tap_problem(&format!("/view/corners_px/{i}"), *corner, &mut out);
        }
        if self.edges_px.len() > 50 || self.edges_px.iter().any(|edge| edge.len() > 200) {
            out.push(Problem::new(
                "/view/edges_px",
                "too many points",
                "up to 50 edges of 200 points",
            ));
        }
        for (i, edge) in self.edges_px.iter().enumerate() {
            if edge.len() < 3 {
                let path = format!("/view/edges_px/{i}");
                out.push(Problem::new(
                    path,
                    "an edge of fewer than three points",
                    "three points or more",
                ));
            }
            for (j, point) in edge.iter().enumerate() {
                self.tap_problem(&format!("/view/edges_px/{i}/{j}"), *point, &mut out);
            }
        }
        for (path, at, mm) in [
            (
                "/view/origin",
                self.origin.map(|o| o.at_px),
                self.origin.map(|o| o.x_mm),
            ),
            (
                "/view/floor",
                self.floor.map(|f| f.at_px),
                self.floor.map(|f| f.level_mm),
            ),
        ] {
            if let Some(at) = at {
                self.tap_problem(&format!("{path}/at_px"), at, &mut out);
            }
            if let Some(mm) = mm.filter(|mm| !(-100_000.0..=100_000.0).contains(mm)) {
                out.push(Problem::new(path, format!("{mm} mm is out of range"), "within 100 m"));
            }
        }
        out
    }

    /// A tap must be a finite point on the photo.
    pub(super) fn tap_problem(&self, path: &str, [x, y]: Point, out: &mut Vec<Problem>) {
        let on = (0.0..=self.photo.width_px).contains(&x) && (0.0..=self.photo.height_px).contains(&y);
        if !on {
            let right = format!(
                "a point of the photo, 0 to {} and 0 to {} px",
                self.photo.width_px, self.photo.height_px
            );
            out.push(Problem::new(path, format!("({x}, {y}) is not on the photo"), right));
        }
    }

    /// What is wrong with the four corners as a rectangle seen from the front: code and words.
    pub(super) fn corners_wrong(&self) -> Option<(&'static str, &'static str)> {
        let [a, b, c, d] = self.corners_px;
        let tap = self.tap_px();
        let shortest = [(a, b), (b, c), (c, d), (d, a)]
            .into_iter()
            .map(|(p, q)| distance(p, q))
            .fold(f64::INFINITY, f64::min);
        // Half the tap's error over a side is a share of its length; beyond a tenth first order no longer holds [own].
        if shortest < 20.0 * tap {
            return Some((
                "reference_small",
                "The thing of known size is too small in this photo. Go nearer, or take something larger.",
            ));
        }
        if [(a, b, c), (b, c, d), (c, d, a), (d, a, b)]
            .into_iter()
            .any(|(p, q, r)| in_line(p, q, r, 0.02))
        {
            return Some(("corners_in_line", "Three of the four corners lie on one line."));
        }
        let turns = [(a, b, c), (b, c, d), (c, d, a), (d, a, b)].map(|(p, q, r)| twice_area(p, q, r) > 0.0);
        match turns.iter().filter(|right| **right).count() {
            4 => {}
            0 => {
                return Some((
                    "corners_order",
                    "The corners run the wrong way round: upper left first, then clockwise.",
                ));
            }
            _ => {
                return Some((
                    "corners_crossed",
                    "The sides between the corners cross: upper left first, then clockwise.",
                ));
            }
        }
        // The first corner must be one of the two upper and one of the two left ones, or width and height are exchanged.
        let ([ax, ay], [bx, by]) = (a, b);
        if (bx - ax) < (by - ay).abs() {
            return Some((
                "corners_turned",
                "The first two corners are not the upper edge: upper left first, then clockwise.",
            ));
        }
        None
    }
}
