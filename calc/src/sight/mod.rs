//! The photo and the phone as measuring tools: lengths on a wall plane, the set-out drawn back onto it, lean, cracks.
//!
//! Pure geometry over taps and sensor samples; no picture is decoded here. Every reading carries ± (95 %) and says where it
//! is doubtful or refused. Points of a photo run to the right and down from its upper left corner in px; points of a wall run
//! to the right as seen from inside and up, in mm.

mod asked;
mod camera;
mod homography;
mod lean;
mod lens;
mod measure;
mod overlay;
mod plane;
mod setout;
mod solve;
mod spread;
mod tilt;
mod view;

pub use asked::{
    Cause, Counted, CoursingAsked, CoursingRead, Doubt, LengthAsked, LengthRead, LevelAsked, MeasureAnswer,
    MeasureRequest, RectangleAsked, RectangleRead, RectangleSizes, Trust,
};
pub use camera::{FocalFrom, Pose};
pub use homography::{Degenerate, Homography, Point, SOURCE};
pub use lean::{CrackRequest, LeanAnswer, LeanRequest, Limit, OffCentreRequest, ScaleAnswer, crack, lean, off_centre};
pub use lens::{Lens, LensKind};
pub use measure::measure;
pub use setout::{Label, Mark, SetOutAnswer, SetOutRequest, Shape, What, set_out};
pub use spread::Reading;
pub use tilt::{Faces, Lean, Sample, TiltAnswer, TiltRequest, Turn, tilt};
pub use view::{Floor, Format, Kind, Origin, Photo, Reference, Side, View};

use crate::problem::Problem;
use serde::Serialize;
use serde::de::DeserializeOwned;
use serde_json::Value;

/// Calls one of the functions here with JSON in and JSON out: unknown keys are refused, as everywhere.
///
/// # Errors
/// What the JSON lacks, else what the function itself finds wrong.
fn by_json<Q: DeserializeOwned, A: Serialize>(
    request: &Value,
    call: impl Fn(&Q) -> Result<A, Vec<Problem>>,
) -> Result<Value, Vec<Problem>> {
    let wrong = |error: serde_json::Error, right: &str| vec![Problem::new("", error.to_string(), right)];
    let asked: Q = Q::deserialize(request).map_err(|error| wrong(error, "the keys this request has"))?;
    let answer = call(&asked)?;
    serde_json::to_value(answer).map_err(|error| wrong(error, "finite numbers"))
}

/// [`measure`] with JSON in and out.
///
/// # Errors
/// As [`measure`], and what the JSON lacks.
pub fn measure_value(request: &Value) -> Result<Value, Vec<Problem>> {
    by_json(request, measure)
}

/// [`lean`] with JSON in and out.
///
/// # Errors
/// As [`lean`], and what the JSON lacks.
pub fn lean_value(request: &Value) -> Result<Value, Vec<Problem>> {
    by_json(request, lean)
}

/// [`off_centre`] with JSON in and out.
///
/// # Errors
/// As [`off_centre`], and what the JSON lacks.
pub fn off_centre_value(request: &Value) -> Result<Value, Vec<Problem>> {
    by_json(request, off_centre)
}

/// [`crack`] with JSON in and out.
///
/// # Errors
/// As [`crack`], and what the JSON lacks.
pub fn crack_value(request: &Value) -> Result<Value, Vec<Problem>> {
    by_json(request, crack)
}

/// [`tilt`] with JSON in and out.
///
/// # Errors
/// As [`tilt`], and what the JSON lacks.
pub fn tilt_value(request: &Value) -> Result<Value, Vec<Problem>> {
    by_json(request, tilt)
}

/// [`set_out`] with JSON in and out.
///
/// # Errors
/// As [`set_out`], and what the JSON lacks.
pub fn set_out_value(request: &Value) -> Result<Value, Vec<Problem>> {
    by_json(request, set_out)
}
