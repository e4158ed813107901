//! The house above the opening as a stack, and the weight along the wall beneath it on the same scale.

use super::pen::{Anchor, Look, Pen, SIZE, WIDTH, plain, short, width};
use super::place::{feet_m, rise_m, roof_bearing_m, stretch_m};
use crate::job::{Direction, Floor, Job, RoofKind};
use crate::proposal::Load;

/// Margin left and right.
const SIDE: f64 = 12.0;
/// Tallest that the house is drawn.
const TALL: f64 = 330.0;
/// Height of the largest weight.
const HEAVY: f64 = 52.0;

/// Scale and origin: metres to sketch units.
struct Scale {
    unit: f64,
    x0: f64,
    from_m: f64,
    to_m: f64,
    top_m: f64,
}

impl Scale {
    fn x(&self, x_m: f64) -> f64 {
        self.x0 + (x_m.clamp(self.from_m, self.to_m) - self.from_m) * self.unit
    }

    fn z(&self, z_m: f64) -> f64 {
        16.0 + (self.top_m - z_m) * self.unit
    }
}

/// The stack with the weight under it. Nothing is computed here: the weight is the one given.
#[must_use]
pub fn stack(job: &Job, load: &Load) -> String {
    let (from_m, to_m) = stretch_m(job);
    let bearing = roof_bearing_m(job);
    let top_m = bearing + rise_m(job);
    let low_m = (job.opening.head_m - 0.6).max(0.0);
    let unit = ((WIDTH - 2.0 * SIDE - 16.0) / (to_m - from_m).max(0.5)).min(TALL / (top_m - low_m).max(0.5));
    let x0 = (WIDTH - (to_m - from_m) * unit) / 2.0;
    let scale = Scale {
        unit,
        x0,
        from_m,
        to_m,
        top_m,
    };
    let mut pen = Pen::default();

    let (left, right, foot) = (scale.x(from_m), scale.x(to_m), scale.z(low_m));
    roof(&mut pen, job, &scale, bearing);
    pen.rect(
        Look::Wash,
        (left, scale.z(bearing)),
        (right, scale.z(job.opening.head_m.min(bearing))),
    );
    for x in [left, right] {
        pen.line(Look::Line, (x, scale.z(bearing)), (x, foot));
    }
    for (storey, level) in job.above.iter().zip(feet_m(job)) {
        let depth = storey.floor.as_ref().map_or(0.0, |floor| floor.joist_depth_m);
        for opening in &storey.openings {
            let (a, b) = (scale.x(opening.x_m), scale.x(opening.x_m + opening.width_m));
            let sill = level + depth + opening.sill_m;
            if b - a > 1.0 {
                let (low, high) = (scale.z(sill), scale.z(sill + opening.height_m));
                pen.rect(Look::Board, (a, high), (b, low));
                pen.line(Look::Thin, (f64::midpoint(a, b), high), (f64::midpoint(a, b), low));
            }
        }
        if let Some(floor) = &storey.floor {
            self::floor(&mut pen, floor, &scale, level);
        }
    }
    for point in &job.points {
        let level = usize::try_from(point.level)
            .ok()
            .and_then(|n| feet_m(job).get(n).copied())
            .unwrap_or(bearing);
        let (x, y) = (scale.x(point.x_m), scale.z(level));
        pen.path(Look::Steel, &[(x - 5.0, y - 9.0), (x + 5.0, y - 9.0), (x, y)], true);
        let words = format!("{} {:.1} kN", short(&point.what, 16), point.dead_kn + point.imposed_kn);
        pen.words(&words, Anchor::Middle, &[(x, y - 13.0), (x, y - 27.0), (x, y + 14.0)]);
    }
    opening(&mut pen, job, &scale, foot);
    let ground = weight(&mut pen, load, &scale, foot + 44.0);
    pen.finish(ground + 22.0, &label(job, load))
}

fn roof(pen: &mut Pen, job: &Job, scale: &Scale, bearing: f64) {
    let (left, right, eaves) = (scale.x(scale.from_m), scale.x(scale.to_m), scale.z(bearing));
    let over = (job.roof.overhang_m.clamp(0.0, 0.6) * scale.unit)
        .min(left - 2.0)
        .max(0.0);
    let ridge = scale.z(scale.top_m);
    let name = match job.roof.kind {
        RoofKind::None => {
            pen.line(Look::Line, (left, eaves), (right, eaves));
            return;
        }
        RoofKind::Flat => {
            pen.rect(Look::Board, (left - over, ridge), (right + over, eaves));
            "flat roof"
        }
        RoofKind::Trusses | RoofKind::Rafters => {
            let middle = f64::midpoint(left, right);
            if job.wall.gable {
                pen.path(
                    Look::Line,
                    &[(left - over, eaves), (middle, ridge), (right + over, eaves)],
                    false,
                );
            } else {
                // Seen from the front the slope lies back: a ridge line and a few courses.
                let inset = (right - left) * 0.08;
                let edge = |share: f64| (eaves + (ridge - eaves) * share, inset * share - over * (1.0 - share));
                let corners = [
                    (left - over, eaves),
                    (left + inset, ridge),
                    (right - inset, ridge),
                    (right + over, eaves),
                ];
                pen.path(Look::Line, &corners, true);
                for share in [0.2, 0.8] {
                    let (y, step) = edge(share);
                    pen.line(Look::Thin, (left + step, y), (right - step, y));
                }
            }
            pen.line(Look::Thin, (left, eaves), (right, eaves));
            if job.roof.kind == RoofKind::Trusses {
                "trusses"
            } else {
                "rafters"
            }
        }
    };
    let bears = if job.roof.bears { "" } else { ", not on it" };
    let middle = (f64::midpoint(left, right), f64::midpoint(eaves, ridge) + SIZE * 0.35);
    let full = format!("{name} {:.1} m{bears}", job.roof.span_m);
    let above = (middle.0, ridge - 3.0);
    if job.roof.kind == RoofKind::Flat || !pen.words(&full, Anchor::Middle, &[middle]) {
        pen.words(&full, Anchor::Middle, &[above]);
    }
}

/// A floor: its two edges, the joists' ends where they run onto the wall, an arrow along it where they run along.
fn floor(pen: &mut Pen, floor: &Floor, scale: &Scale, level: f64) {
    let (left, right) = (scale.x(scale.from_m), scale.x(scale.to_m));
    let (low, high) = (scale.z(level), scale.z(level + floor.joist_depth_m));
    pen.line(Look::Line, (left, high), (right, high));
    pen.line(Look::Line, (left, low), (right, low));
    let middle = f64::midpoint(low, high);
    let spans = match (floor.inside_span_m > 0.0, floor.outside_span_m > 0.0) {
        (true, true) => format!("{:.1} + {:.1} m", floor.inside_span_m, floor.outside_span_m),
        (true, false) => format!("{:.1} m", floor.inside_span_m),
        (false, true) => format!("{:.1} m outside", floor.outside_span_m),
        (false, false) => String::new(),
    };
    let words = match floor.direction {
        Direction::Onto => {
            let step = floor.joist_spacing_m.max(0.2) * scale.unit;
            let mut x = left + step / 2.0;
            while x < right {
                pen.rect(Look::Thin, (x - 1.2, high), (x + 1.2, low));
                x += step;
            }
            // The joists come towards the wall: two arrows that run into it from below and above.
            for x in [left + 16.0, right - 16.0] {
                pen.arrow(Look::Dim, (x - 7.0, high - 14.0), (x, high - 1.5));
            }
            format!("joists on it {spans}")
        }
        Direction::Along => {
            let centre = f64::midpoint(left, right);
            pen.arrow(Look::Dim, (centre, middle), (left + 10.0, middle));
            pen.arrow(Look::Dim, (centre, middle), (right - 10.0, middle));
            "joists along it".to_owned()
        }
    };
    pen.words(
        words.trim_end(),
        Anchor::Start,
        &[
            (left + 26.0, high - 5.0),
            (left + 26.0, low + 14.0),
            (left + 26.0, high - 19.0),
        ],
    );
}

fn opening(pen: &mut Pen, job: &Job, scale: &Scale, foot: f64) {
    let (a, b, head) = (scale.x(0.0), scale.x(job.opening.width_m), scale.z(job.opening.head_m));
    pen.path(Look::Cut, &[(a, foot), (a, head), (b, head), (b, foot)], false);
    let middle = f64::midpoint(a, b);
    if let Some(name) = ["new opening", "opening", "new"]
        .into_iter()
        .find(|name| width(name) < b - a - 4.0)
    {
        pen.words(name, Anchor::Middle, &[(middle, f64::midpoint(head, foot) + 4.0)]);
    }
    let y = foot + 10.0;
    pen.line(Look::Dim, (a, y), (b, y));
    for x in [a, b] {
        pen.line(Look::Dim, (x, y - 5.0), (x, y + 5.0));
    }
    pen.measure(
        &format!("{:.2} m", job.opening.width_m),
        Anchor::Middle,
        &[(middle, y + 14.0)],
    );
}

/// The weight along the wall; gives the height of its ground line.
fn weight(pen: &mut Pen, load: &Load, scale: &Scale, top: f64) -> f64 {
    let profile = &load.profile;
    // Neighbouring stretches that would print the same figure are one.
    let mut steps: Vec<(f64, f64, f64)> = Vec::new();
    let pieces = profile
        .x_m
        .iter()
        .zip(profile.x_m.iter().skip(1))
        .zip(profile.g_kn_m.iter().zip(&profile.q_kn_m));
    for ((from, to), (g, q)) in pieces {
        let value = g + q;
        match steps.last_mut() {
            Some(last) if figure(last.2) == figure(value) => last.1 = *to,
            _ => steps.push((*from, *to, value)),
        }
    }
    steps.retain(|step| step.0.is_finite() && step.1 > step.0 && step.2.is_finite());
    let most = steps.iter().map(|step| step.2).fold(0.0, f64::max);
    let base = top + SIZE + HEAVY;
    let height = |value: f64| if most > 0.0 { value.max(0.0) / most * HEAVY } else { 0.0 };
    let mut outline = Vec::new();
    if let (Some(first), Some(last)) = (steps.first(), steps.last()) {
        outline.push((scale.x(first.0), base));
        for (from, to, value) in &steps {
            outline.push((scale.x(*from), base - height(*value)));
            outline.push((scale.x(*to), base - height(*value)));
        }
        outline.push((scale.x(last.1), base));
    }
    pen.path(Look::Wash, &outline, true);
    pen.path(Look::Weight, &outline, false);
    pen.line(Look::Line, (scale.x(scale.from_m), base), (scale.x(scale.to_m), base));
    // The largest figure first, so that it keeps its place.
    let mut order: Vec<&(f64, f64, f64)> = steps.iter().collect();
    order.sort_by(|a, b| b.2.total_cmp(&a.2));
    for (index, (from, to, value)) in order.into_iter().enumerate() {
        let (x, y) = (f64::midpoint(scale.x(*from), scale.x(*to)), base - height(*value) - 4.0);
        let places = [(x, y), (x, y - SIZE)];
        // A figure much wider than its stretch would stand over another one's; beside a taller one its line must stay clear.
        let room = scale.x(*to) - scale.x(*from);
        let beside = |other: &&(f64, f64, f64)| (other.0 - to).abs() < 1e-9 || (other.1 - from).abs() < 1e-9;
        let walled = steps.iter().filter(beside).any(|other| other.2 > *value);
        let fits = width(&figure(*value)) < if walled { room - 4.0 } else { 1.3 * room };
        if index == 0 {
            pen.strong(&figure(*value), Anchor::Middle, &places);
        } else if fits {
            pen.words(&figure(*value), Anchor::Middle, &places);
        }
    }
    pen.words(
        "weight along the wall, kN per m",
        Anchor::Middle,
        &[(WIDTH / 2.0, base + 16.0)],
    );
    base
}

/// A load per metre as printed on the sketch.
fn figure(kn_m: f64) -> String {
    if kn_m >= 10.0 {
        format!("{kn_m:.0}")
    } else {
        format!("{kn_m:.1}")
    }
}

fn label(job: &Job, load: &Load) -> String {
    let storeys = match job.above.len() {
        0 => "no storey".to_owned(),
        1 => "one storey".to_owned(),
        n => format!("{n} storeys"),
    };
    format!(
        "The wall above a new opening {:.2} m wide, with {storeys} above it. The weight along the wall is {} kN per m on average and {} kN per m at most.",
        job.opening.width_m,
        plain(load.mean_service_kn_m, 1),
        plain(load.largest_service_kn_m, 1)
    )
}
