//! What can be asked of a wall photo, and the shape of the answer.

use super::camera::Pose;
use super::homography::{Homography, Point};
use super::lens::Lens;
use super::spread::Reading;
use super::view::{Format, View};
use serde::{Deserialize, Serialize};

/// What is asked.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MeasureRequest {
    /// The photo.
    pub view: View,
    /// Lengths between two taps.
    #[serde(default)]
    pub lengths: Vec<LengthAsked>,
    /// Openings, windows and piers by their four corners.
    #[serde(default)]
    pub rectangles: Vec<RectangleAsked>,
    /// Heights over the floor of single taps.
    #[serde(default)]
    pub levels: Vec<LevelAsked>,
    /// Courses or stretchers counted between two taps, as a check of the whole reading.
    #[serde(default)]
    pub coursing: Vec<CoursingAsked>,
}

/// A height over the inside floor.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LevelAsked {
    /// Name, given back.
    pub name: String,
    /// The point, px.
    pub at_px: Point,
}

/// A length.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LengthAsked {
    /// Name, given back.
    pub name: String,
    /// One end, px.
    pub from_px: Point,
    /// The other end, px.
    pub to_px: Point,
}

/// A rectangle; its corners may be tapped in any order.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RectangleAsked {
    /// Name, given back.
    pub name: String,
    /// Corners, px.
    pub corners_px: [Point; 4],
}

/// What is counted.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Counted {
    /// Courses, upwards.
    Courses,
    /// Stretchers, sideways.
    Stretchers,
}

/// Brickwork counted from joint to the same joint.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CoursingAsked {
    /// Name, given back.
    pub name: String,
    /// One end, px.
    pub from_px: Point,
    /// The other end, px.
    pub to_px: Point,
    /// What was counted.
    pub of: Counted,
    /// How many.
    pub count: f64,
    /// Format of the brickwork.
    #[serde(default)]
    pub format: Format,
}

/// How far a reading may be relied on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Trust {
    /// Within its ±.
    Good,
    /// Given, with a reason for care.
    Doubtful,
    /// Not given.
    Refused,
}

/// Why a reading is doubtful or refused.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Doubt {
    /// Stable code.
    pub code: String,
    /// How far the reading may be relied on because of it.
    pub trust: Trust,
    /// Plain words.
    pub words: String,
}

/// What the ± of a reading mostly comes from: what is worth doing better.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Cause {
    /// Taps on the corners of the thing of known size: it is small or far away.
    Corners,
    /// Its size, and how square it is.
    Size,
    /// How level it stands.
    Level,
    /// The lens.
    Lens,
    /// Taps on the marked jamb and the floor.
    Zero,
    /// Taps on what is read itself.
    Taps,
}

/// A named length or height.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct LengthRead {
    /// Name as asked.
    pub name: String,
    /// The length; none where refused.
    pub length: Option<Reading>,
    /// What its ± mostly comes from; none where nothing can be worked out.
    pub mostly: Option<Cause>,
    /// Trust.
    pub trust: Trust,
    /// Reasons.
    pub doubts: Vec<Doubt>,
}

/// A rectangle in the wall.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct RectangleRead {
    /// Name as asked.
    pub name: String,
    /// Its sizes; none where refused.
    pub sizes: Option<RectangleSizes>,
    /// What their ± mostly comes from; none where nothing can be worked out.
    pub mostly: Option<Cause>,
    /// Trust.
    pub trust: Trust,
    /// Reasons.
    pub doubts: Vec<Doubt>,
}

/// Sizes of a rectangle; x from the marked left jamb to its left edge as seen from inside, heights over the inside floor.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[allow(missing_docs, reason = "the names say it")]
pub struct RectangleSizes {
    pub x: Reading,
    pub width: Reading,
    pub sill: Reading,
    pub head: Reading,
    pub height: Reading,
}

/// Coursing beside what the photo reads.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct CoursingRead {
    /// Name as asked.
    pub name: String,
    /// What the photo reads.
    pub length: Option<Reading>,
    /// What the count makes, with 1.5 % for brickwork as built [own judgement].
    pub counted: Reading,
    /// Whether both agree within both ± together; none where nothing was read.
    pub agrees: Option<bool>,
    /// Trust.
    pub trust: Trust,
    /// Reasons.
    pub doubts: Vec<Doubt>,
}

/// The answer.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct MeasureAnswer {
    /// Trust in the photo as a whole; where refused nothing is read.
    pub trust: Trust,
    /// Reasons.
    pub doubts: Vec<Doubt>,
    /// What a photo cannot show, to be said beside every reading.
    pub cautions: Vec<String>,
    /// From the straightened photo (px) to the reference's own axes (mm, from its lower left corner).
    pub matrix: Option<Homography>,
    /// The lens as taken.
    pub lens: Option<Lens>,
    /// The camera.
    pub pose: Option<Pose>,
    /// ± of a tap as taken, px.
    pub tap_px: f64,
    /// Lengths.
    pub lengths: Vec<LengthRead>,
    /// Rectangles.
    pub rectangles: Vec<RectangleRead>,
    /// Heights over the floor.
    pub levels: Vec<LengthRead>,
    /// Coursing.
    pub coursing: Vec<CoursingRead>,
}
