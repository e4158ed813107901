//! Lean of a prop from the phone's own sensor, with its zero error removed by turning the phone.
//!
//! **Axes** [W3C DeviceOrientation Event Specification, device orientation model, read as text]: x to the right of the screen,
//! y to its top, z out of it, all fixed to the device in its standard orientation; a turned screen does not turn them. Angles
//! are intrinsic, about z by alpha, then x by beta, then y by gamma, right-handed, so that R = Rz(α) Rx(β) Ry(γ) brings device
//! axes to the earth's. "Up" in device axes is the last row of R: (−cos β sin γ, sin β, cos β cos γ); alpha drops out. At
//! β = 90° the angles themselves jump, their "up" does not, so means are taken of "up" and never of angles.
//!
//! **Lean.** The phone lies with its back on the tube and an edge along it. The axis of the device that points nearest to up
//! is the tube's (t = ±x or ±y); r = t × z points to the right as one looks at the screen. With u = "up":
//! lean to the right = atan2(−u·r, u·t), lean towards the one who looks = atan2(−u·z, u·t).
//!
//! **Zero error.** A sensor that is turned in its case by small e about an axis, or whose accelerometer adds d, reads
//! right + e_z − d_r and towards − e_r − d_z (to first order, axes of the device). *Turned about the tube* to its other side
//! (same end up), the true leans change sign in the device's axes and the errors do not: half the difference is free of both
//! kinds, in both directions. *Turned end for end on the same side*, only d_r leaves the lean to the right and e_r the lean
//! towards; e_z and d_z stay. What is left to second order is zero error times lean: 2° make 3.5 % of the lean. So the other side is the way asked for, and end for end says that it is half a way.

use super::asked::{Doubt, Trust};
use super::lean::{LIMIT_MM_PER_M, Limit, beside};
use super::measure::{doubt, worst};
use crate::problem::Problem;
use serde::{Deserialize, Serialize};

/// Fewest samples of a placement: half a second at the usual sixty a second.
const FEWEST: usize = 30;
/// Standard deviation about the mean above which the phone shakes, degrees [own judgement].
const SHAKING_DEG: f64 = 0.5;
/// Change between the first and last third above which it drifts or slides, degrees [own judgement].
const DRIFT_DEG: f64 = 0.4;
/// ± (95 %) of laying an edge of the phone along a tube, degrees [own judgement].
const EDGE_DEG: f64 = 0.6;
/// ± (95 %) of laying its back against a tube, degrees [own judgement].
const BACK_DEG: f64 = 0.2;

/// One reading of the sensor.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Sample {
    /// About z, degrees; may be missing.
    #[serde(default)]
    pub alpha: Option<f64>,
    /// About x, degrees, −180 to 180.
    pub beta: f64,
    /// About y, degrees, −90 to 90.
    pub gamma: f64,
}

/// How the phone was turned between both placements.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Turn {
    /// To the other side of the tube, same end up: removes the zero error whole.
    OtherSide,
    /// End for end on the same side of the tube: removes it in part.
    EndForEnd,
}

/// Where the screen looks in the first placement.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Faces {
    /// Away from the wall: right is along it, towards the looker is across.
    AwayFromWall,
    /// Along the wall.
    AlongWall,
}

/// What is asked.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TiltRequest {
    /// Samples of the first placement.
    pub first: Vec<Sample>,
    /// Samples of the second.
    pub second: Vec<Sample>,
    /// How it was turned in between.
    pub turn: Turn,
    /// Where the screen looked in the first placement.
    pub faces: Faces,
}

/// Lean in one direction.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Lean {
    /// Lean, degrees: to the right, or towards the one who looks at the screen in the first placement.
    pub deg: f64,
    /// ± (95 %), degrees.
    pub plus_minus_deg: f64,
    /// Lean, mm per m.
    pub mm_per_m: f64,
    /// ± (95 %), mm per m.
    pub plus_minus_mm_per_m: f64,
    /// Zero error found, degrees.
    pub zero_deg: f64,
    /// Whether the zero error is removed whole.
    pub zero_removed: bool,
    /// Beside 25 mm per m.
    pub limit: Limit,
}

/// The answer.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct TiltAnswer {
    /// Along the wall.
    pub along: Option<Lean>,
    /// Across the wall.
    pub across: Option<Lean>,
    /// Standard deviation of the samples about their mean in each placement, degrees.
    pub spread_deg: [f64; 2],
    /// Which edge of the device was up in each placement.
    pub up: [Option<&'static str>; 2],
    /// Trust.
    pub trust: Trust,
    /// Reasons.
    pub doubts: Vec<Doubt>,
}

type Vector = [f64; 3];

fn dot(a: Vector, b: Vector) -> f64 {
    a.iter().zip(&b).map(|(a, b)| a * b).sum()
}

/// "Up" in device axes.
fn up(sample: &Sample) -> Vector {
    let ((sb, cb), (sg, cg)) = (sample.beta.to_radians().sin_cos(), sample.gamma.to_radians().sin_cos());
    [-cb * sg, sb, cb * cg]
}

/// The level part of the screen's normal in the earth's axes; none without alpha.
fn facing(sample: &Sample) -> Option<[f64; 2]> {
    let (sa, ca) = sample.alpha?.to_radians().sin_cos();
    let ((sb, _), (sg, cg)) = (sample.beta.to_radians().sin_cos(), sample.gamma.to_radians().sin_cos());
    Some([ca * sg + sa * sb * cg, sa * sg - ca * sb * cg])
}

fn mean(samples: &[Sample]) -> Option<Vector> {
    let mut sum = [0.0; 3];
    for sample in samples {
        for (sum, v) in sum.iter_mut().zip(up(sample)) {
            *sum += v;
        }
    }
    let long = dot(sum, sum).sqrt();
    (long > 1e-9).then(|| sum.map(|v| v / long))
}

fn between_deg(a: Vector, b: Vector) -> f64 {
    let square: f64 = a.iter().zip(&b).map(|(a, b)| (a - b).powi(2)).sum();
    (2.0 * (square.sqrt() / 2.0).min(1.0).asin()).to_degrees()
}

/// One placement: mean up, spread, and what speaks against it.
struct Placement {
    up: Vector,
    spread_deg: f64,
    edge: Option<(&'static str, Vector, Vector)>,
}

impl Placement {
    fn of(samples: &[Sample], doubts: &mut Vec<Doubt>) -> Option<Self> {
        if samples.len() < FEWEST {
            doubts.push(doubt(
                "too_few",
                Trust::Refused,
                "Hold the phone on the tube a little longer.",
            ));
            return None;
        }
        let up_mean = mean(samples)?;
        let square: f64 = samples.iter().map(|s| between_deg(up(s), up_mean).powi(2)).sum();
        let spread_deg = (square / samples.len() as f64).sqrt();
        if spread_deg > SHAKING_DEG {
            doubts.push(doubt(
                "shaking",
                Trust::Refused,
                "The phone shakes: rest it on the tube and hold still.",
            ));
        } else {
            let third = samples.len() / 3;
            let ends = (
                mean(samples.get(..third)?)?,
                mean(samples.get(samples.len() - third..)?)?,
            );
            if between_deg(ends.0, ends.1) > DRIFT_DEG {
                doubts.push(doubt(
                    "moving",
                    Trust::Refused,
                    "The phone moved while it was read: once more.",
                ));
            }
        }
        let edges: [(&'static str, Vector, Vector); 4] = [
            ("top", [0.0, 1.0, 0.0], [1.0, 0.0, 0.0]),
            ("bottom", [0.0, -1.0, 0.0], [-1.0, 0.0, 0.0]),
            ("right", [1.0, 0.0, 0.0], [0.0, -1.0, 0.0]),
            ("left", [-1.0, 0.0, 0.0], [0.0, 1.0, 0.0]),
        ];
        // An edge within 20° of up: more is no prop that stands.
        let edge = edges
            .into_iter()
            .find(|(_, t, _)| dot(up_mean, *t) > 20.0_f64.to_radians().cos());
        if edge.is_none() {
            doubts.push(doubt(
                "not_along",
                Trust::Refused,
                "The phone does not stand upright along the tube: lay its back on it, an edge along it.",
            ));
        }
        Some(Self {
            up: up_mean,
            spread_deg,
            edge,
        })
    }

    /// Lean to the right and towards the looker, degrees, as this placement reads it.
    fn lean(&self) -> Option<[f64; 2]> {
        let (_, t, r) = self.edge?;
        let [_, _, out] = self.up;
        let along = dot(self.up, t);
        Some([(-dot(self.up, r)).atan2(along), (-out).atan2(along)].map(f64::to_degrees))
    }
}

/// Checks by the compass angle, where there is one, that the phone was turned as said.
fn turned_otherwise(request: &TiltRequest) -> bool {
    let middle = |samples: &[Sample]| samples.get(samples.len() / 2).and_then(facing);
    let (Some([ax, ay]), Some([bx, by])) = (middle(&request.first), middle(&request.second)) else {
        return false;
    };
    let angle = (ax * by - ay * bx).atan2(ax * bx + ay * by).abs().to_degrees();
    match request.turn {
        Turn::OtherSide => angle < 120.0,
        Turn::EndForEnd => angle > 60.0,
    }
}

/// Lean of a prop from two placements of the phone.
///
/// # Errors
/// Samples that are not finite or out of their ranges.
pub fn tilt(request: &TiltRequest) -> Result<TiltAnswer, Vec<Problem>> {
    let mut problems = Vec::new();
    for (name, samples) in [("first", &request.first), ("second", &request.second)] {
        if samples.len() > 20_000 {
            problems.push(Problem::new(format!("/{name}"), "too many samples", "up to 20000"));
        }
        let odd = |s: &Sample| {
            !((-180.0..=180.0).contains(&s.beta) && (-90.0..=90.0).contains(&s.gamma))
                || s.alpha.is_some_and(|a| !(-360.0..=360.0).contains(&a))
        };
        if let Some(i) = samples.iter().position(odd) {
            let right = "beta −180 to 180, gamma −90 to 90, alpha −360 to 360 degrees or left out";
            problems.push(Problem::new(
                format!("/{name}/{i}"),
                "an angle is out of its range",
                right,
            ));
        }
    }
    if !problems.is_empty() {
        return Err(problems);
    }
    let mut doubts = Vec::new();
    let first = Placement::of(&request.first, &mut doubts);
    let second = Placement::of(&request.second, &mut doubts);
    let edge = |p: &Option<Placement>| p.as_ref().and_then(|p| p.edge).map(|(name, ..)| name);
    let ups = [edge(&first), edge(&second)];
    if let [Some(one), Some(other)] = ups {
        let opposite = matches!(
            (one, other),
            ("top", "bottom") | ("bottom", "top") | ("left", "right") | ("right", "left")
        );
        let right = match request.turn {
            Turn::OtherSide => one == other,
            Turn::EndForEnd => opposite,
        };
        if !right || turned_otherwise(request) {
            let words = match request.turn {
                Turn::OtherSide => "Carry the phone round to the other side of the tube, the same end up.",
                Turn::EndForEnd => "Turn the phone end for end on the same side of the tube.",
            };
            doubts.push(doubt("not_turned", Trust::Refused, words));
        }
    }
    let spread_deg = [&first, &second].map(|p| p.as_ref().map_or(0.0, |p| p.spread_deg));
    let mut answer = TiltAnswer {
        along: None,
        across: None,
        spread_deg,
        up: ups,
        trust: Trust::Refused,
        doubts,
    };
    let pair = first
        .as_ref()
        .and_then(Placement::lean)
        .zip(second.as_ref().and_then(Placement::lean));
    let (Some((one, other)), true) = (pair, worst(&answer.doubts) < Trust::Refused) else {
        return Ok(answer);
    };
    let [sideways, towards] = leans(request, one, other, spread_deg);
    if sideways.zero_deg.abs().max(towards.zero_deg.abs()) > 5.0 {
        answer.doubts.push(doubt(
            "zero_large",
            Trust::Doubtful,
            "The phone's own zero is far off: look that nothing lies between phone and tube.",
        ));
    }
    if request.turn == Turn::EndForEnd {
        answer.doubts.push(doubt(
            "zero_in_part",
            Trust::Doubtful,
            "End for end removes only part of the phone's zero error. Carry it to the other side of the tube instead.",
        ));
    }
    (answer.along, answer.across) = match request.faces {
        Faces::AwayFromWall => (Some(sideways), Some(towards)),
        Faces::AlongWall => (Some(towards), Some(sideways)),
    };
    answer.trust = worst(&answer.doubts);
    Ok(answer)
}

/// Lean sideways and towards the looker from both placements.
fn leans(request: &TiltRequest, one: [f64; 2], other: [f64; 2], spread_deg: [f64; 2]) -> [Lean; 2] {
    // On the other side true leans change sign in what the phone reads; end for end they do not.
    let sign = if request.turn == Turn::OtherSide { -1.0 } else { 1.0 };
    let [s1, s2] = spread_deg;
    // Samples of a held phone hang together: one in ten counts as one of its own [own judgement].
    let counts = [request.first.len(), request.second.len()].map(|n| (n as f64 / 10.0).max(1.0));
    let [n1, n2] = counts;
    // Twice the standard deviation of half the sum.
    let noise = (s1 * s1 / n1 + s2 * s2 / n2).sqrt();
    let ([a1, b1], [a2, b2]) = (one, other);
    // Two degrees of zero error times the lean itself stay, in size and in direction.
    let second = 0.035 * ((a1 + sign * a2) / 2.0).hypot((b1 + sign * b2) / 2.0);
    let make = |a: f64, b: f64, laid: f64| {
        let (deg, zero_deg) = ((a + sign * b) / 2.0, (a - sign * b) / 2.0);
        // What is not removed may be as large as two degrees (95 %) [own judgement].
        let left = if request.turn == Turn::OtherSide { 0.0 } else { 2.0 };
        let plus_minus_deg = noise.hypot(laid / std::f64::consts::SQRT_2).hypot(left).hypot(second);
        let mm_per_m = 1000.0 * deg.to_radians().tan();
        let plus_minus_mm_per_m = 1000.0 * plus_minus_deg.to_radians().tan();
        Lean {
            deg,
            plus_minus_deg,
            mm_per_m,
            plus_minus_mm_per_m,
            zero_deg,
            zero_removed: request.turn == Turn::OtherSide,
            limit: beside(mm_per_m, plus_minus_mm_per_m, LIMIT_MM_PER_M),
        }
    };
    [make(a1, a2, EDGE_DEG), make(b1, b2, BACK_DEG)]
}
