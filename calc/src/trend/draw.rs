//! A curve as a small drawing: days to the right, the value upwards, limits as broken lines, each reading by a shape.

use super::series::{Series, Standing, What};
use crate::sketch::{Anchor, Look, Pen, WIDTH, plain, short};

const LEFT: f64 = 44.0;
const RIGHT: f64 = WIDTH - 12.0;
const TOP: f64 = 30.0;
const BOTTOM: f64 = 130.0;
const TALL: f64 = 156.0;
/// Half the size of a reading's mark.
const MARK: f64 = 3.5;
/// Most readings drawn one by one; more lie on each other on a phone.
const MOST: usize = 120;

struct Scale {
    days: (f64, f64),
    values: (f64, f64),
}

impl Scale {
    fn x(&self, day: f64) -> f64 {
        LEFT + (day - self.days.0) / (self.days.1 - self.days.0).max(1e-9) * (RIGHT - LEFT)
    }

    fn y(&self, value: f64) -> f64 {
        BOTTOM - (value - self.values.0) / (self.values.1 - self.values.0).max(1e-9) * (BOTTOM - TOP)
    }
}

/// Draws a curve.
#[must_use]
pub fn curve(series: &Series) -> String {
    let mut pen = Pen::default();
    let scale = scale(series);
    let title = format!("{}: {}, {}", short(&series.name, 22), what(series.what), series.unit);
    pen.strong(&title, Anchor::Start, &[(2.0, 14.0)]);
    axes(&mut pen, series, &scale);
    for limit in &series.limits {
        if limit.value < scale.values.0 || limit.value > scale.values.1 {
            continue;
        }
        let y = scale.y(limit.value);
        pen.line(Look::Cut, (LEFT, y), (RIGHT, y));
        let words = format!("{} {}", limit.words, plain(limit.value.abs(), 0));
        // At the left, where a curve that comes up to its limit has not come yet.
        pen.words(&words, Anchor::Start, &[(LEFT + 8.0, y - 5.0), (LEFT + 8.0, y + 14.0)]);
    }
    line(&mut pen, series, &scale);
    readings(&mut pen, series, &scale);
    pen.finish(TALL, &format!("{title}. {}", series.words))
}

const fn what(what: What) -> &'static str {
    match what {
        What::TakeUp => "taken up in all",
        What::Crack => "since the start",
        What::LeanAlong => "lean along the wall",
        What::LeanAcross => "lean across the wall",
    }
}

/// Days and values shown: all readings and nothing; a limit once the readings come half way to it.
fn scale(series: &Series) -> Scale {
    let days = series.points.iter().map(|point| point.day);
    let first = days.clone().fold(f64::INFINITY, f64::min);
    let last = days.fold(f64::NEG_INFINITY, f64::max);
    let (first, last) = if first.is_finite() { (first, last) } else { (0.0, 1.0) };
    let values = series
        .points
        .iter()
        .map(|point| point.value)
        .filter(|value| value.is_finite());
    let (mut low, mut high) = values.fold((0.0_f64, 0.0_f64), |(low, high), value| {
        (low.min(value), high.max(value))
    });
    for limit in &series.limits {
        if limit.value > 0.0 && high >= limit.value / 2.0 {
            high = high.max(limit.value);
        }
        if limit.value < 0.0 && low <= limit.value / 2.0 {
            low = low.min(limit.value);
        }
    }
    // A curve of nothing but noise must not look like a mountain.
    let least = match series.what {
        What::Crack => 0.5,
        What::TakeUp => 2.0,
        What::LeanAlong | What::LeanAcross => 5.0,
    };
    high = high.max(least);
    let room = (high - low) * 0.08;
    Scale {
        days: (first, last.max(first + 1.0)),
        values: (if low < 0.0 { low - room } else { 0.0 }, high + room),
    }
}

fn axes(pen: &mut Pen, series: &Series, scale: &Scale) {
    pen.line(Look::Thin, (LEFT, TOP), (LEFT, BOTTOM));
    let zero = scale.y(0.0);
    pen.line(Look::Thin, (LEFT, zero), (RIGHT, zero));
    pen.measure("0", Anchor::End, &[(LEFT - 5.0, zero + 4.0)]);
    let decimals = usize::from(series.what == What::Crack);
    let values = series
        .points
        .iter()
        .map(|point| point.value)
        .filter(|value| value.is_finite());
    let (low, high) = values.fold((0.0_f64, 0.0_f64), |(low, high), value| {
        (low.min(value), high.max(value))
    });
    for value in [high, low] {
        if value.abs() > 0.04 {
            let y = scale.y(value);
            pen.line(Look::Dim, (LEFT - 4.0, y), (LEFT, y));
            let text = plain(value, decimals.max(usize::from(value.abs() < 10.0))).replace('-', "−");
            pen.measure(&text, Anchor::End, &[(LEFT - 5.0, y + 4.0)]);
        }
    }
    let date = |at: Option<&super::Point>| at.map(|point| point.at.split('T').next().unwrap_or_default().to_owned());
    let by_day = |a: &&super::Point, b: &&super::Point| a.day.total_cmp(&b.day);
    if let Some(first) = date(series.points.iter().min_by(by_day)) {
        pen.measure(&short(&first, 16), Anchor::Start, &[(LEFT, TALL - 6.0)]);
    }
    if let Some(last) = date(series.points.iter().max_by(by_day)).filter(|_| series.points.len() > 1) {
        pen.measure(&short(&last, 16), Anchor::End, &[(RIGHT, TALL - 6.0)]);
    }
}

/// The fitted line, over the days it was fitted to.
fn line(pen: &mut Pen, series: &Series, scale: &Scale) {
    let Some(fit) = series.fit else { return };
    let mut days: Vec<f64> = series.points.iter().map(|point| point.day).collect();
    days.sort_by(f64::total_cmp);
    let from = days.len().saturating_sub(fit.count);
    if let (Some(from), Some(to)) = (days.get(from), days.last()) {
        let clamp = |value: f64| scale.y(value.clamp(scale.values.0, scale.values.1));
        let at = |day: f64| (scale.x(day), clamp(fit.intercept + fit.slope_per_day * day));
        pen.line(Look::ThinBroken, at(*from), at(*to));
    }
}

fn readings(pen: &mut Pen, series: &Series, scale: &Scale) {
    let mut points: Vec<(f64, f64)> = series.points.iter().map(|point| (point.day, point.value)).collect();
    points.sort_by(|a, b| a.0.total_cmp(&b.0));
    let path: Vec<(f64, f64)> = points
        .iter()
        .map(|(day, value)| (scale.x(*day), scale.y(*value)))
        .collect();
    pen.path(Look::Dim, &path, false);
    // The last reading is always marked; of very many, every so many.
    let step = path.len().div_ceil(MOST).max(1);
    let count = path.len();
    for (place, (at, (_, value))) in path.iter().zip(&points).enumerate() {
        if !(count - 1 - place).is_multiple_of(step) {
            continue;
        }
        let past = series.limits.iter().any(|limit| {
            series.what != What::TakeUp && limit.value.abs() <= value.abs() + 1e-9 && limit.value * value > 0.0
        });
        let grave = past || (place + 1 == count && series.standing == Standing::Growing);
        mark(pen, series.what, *at, grave);
    }
}

/// A reading by its shape: square for take-up, diamond for a crack, triangle for a lean, and a cross where it says stop.
fn mark(pen: &mut Pen, what: What, (x, y): (f64, f64), grave: bool) {
    if grave {
        let r = MARK + 1.5;
        pen.line(Look::Weight, (x - r, y - r), (x + r, y + r));
        pen.line(Look::Weight, (x - r, y + r), (x + r, y - r));
        return;
    }
    let r = MARK;
    match what {
        What::TakeUp => pen.rect(Look::Board, (x - r, y - r), (x + r, y + r)),
        What::Crack => pen.path(
            Look::Board,
            &[(x, y - r - 1.0), (x + r + 1.0, y), (x, y + r + 1.0), (x - r - 1.0, y)],
            true,
        ),
        What::LeanAlong | What::LeanAcross => {
            pen.path(
                Look::Board,
                &[(x, y - r - 1.0), (x + r + 1.0, y + r), (x - r - 1.0, y + r)],
                true,
            );
        }
    }
}
