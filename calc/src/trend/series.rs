//! From the rounds to curves.

use super::draw;
use super::fit::Fit;
use super::rules::{GAUGE_LAST_MM, GAUGE_START_MM, crack_grows, take_up_grows, take_up_sums};
use super::say;
use crate::job::schema::Reader;
use crate::job::{GAUGE_ROW, READING_ROW};
use crate::props::{LEAN_LIMIT_MM_M, State};
use crate::round::{BEDDING_MM, BEDDING_ROUNDS, Gauge, LATER_MM, Reading};
use serde::Serialize;
use serde_json::{Value, json};

/// Change of a crack over its whole curve that is worth telling, mm: two steps of its gauge [own].
const CRACK_TOLD_MM: f64 = 0.2;
/// The same of a prop's take-up after bedding-in, mm [own].
const TAKE_UP_TOLD_MM: f64 = 1.0;
/// The same of a lean, mm per m: what two readings by a level differ by [own].
const LEAN_TOLD_MM_M: f64 = 3.0;
/// With fewer readings than these a line is hardly ever sure: Student's t is then above 3. Until there are more, a change
/// that is worth telling counts as movement by itself [own].
const FEW: usize = 5;

/// What a curve shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum What {
    /// What was taken up at a prop, summed, mm.
    TakeUp,
    /// A crack gauge since its first reading, mm.
    Crack,
    /// Lean of a prop along the wall, mm per m.
    LeanAlong,
    /// Lean of a prop across the wall, mm per m.
    LeanAcross,
}

/// How a curve stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Standing {
    /// Nothing to be seen.
    Steady,
    /// It moves: the fitted slope is surely not nothing, or there are too few readings to ask that and they differ.
    Moves,
    /// It grows three rounds running.
    Growing,
    /// It is past its limit, or made a step that stops the round.
    Over,
}

/// A reading.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Point {
    /// Days since the first round.
    pub day: f64,
    /// When, as it was handed in.
    pub at: String,
    /// The value.
    pub value: f64,
}

/// A line not to be passed.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Limit {
    /// The value.
    pub value: f64,
    /// What it is.
    pub words: String,
}

/// One curve.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Series {
    /// What it shows.
    pub what: What,
    /// The prop or gauge.
    pub name: String,
    /// Unit of its values.
    pub unit: &'static str,
    /// Its readings, in the order of the record.
    pub points: Vec<Point>,
    /// The line through them; for take-up through those after bedding-in.
    pub fit: Option<Fit>,
    /// Its limits.
    pub limits: Vec<Limit>,
    /// How it stands.
    pub standing: Standing,
    /// Whether it stops the job.
    pub stops: bool,
    /// What it says, in one sentence.
    pub words: String,
    /// The curve as SVG.
    pub svg: String,
}

/// All curves of a job.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Trends {
    /// The curves: take-up, cracks, leans.
    pub series: Vec<Series>,
    /// What they say together, the gravest first.
    pub words: Vec<String>,
    /// Whether one of them stops the job.
    pub stop: bool,
}

/// The readings of one round.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Round {
    day: f64,
    at: String,
    readings: Vec<Reading>,
    gauges: Vec<Gauge>,
}

impl Round {
    /// Reads a kept round (`readings`, `gauges`), done `day` days after the first one. Rows that cannot be read are left out:
    /// a curve with a gap is better than none.
    #[must_use]
    pub fn read(day: f64, at: &str, round: &Value) -> Self {
        let rows = |key: &str| round.get(key).and_then(Value::as_array).into_iter().flatten();
        let reading = |row: &Value| {
            let mut reader = Reader::default();
            let filled = reader.object("", &json!({ "row": row }), READING_ROW);
            let row = filled.get("row").filter(|_| reader.problems.is_empty())?;
            serde_json::from_value(row.clone()).ok()
        };
        let gauge = |row: &Value| {
            let mut reader = Reader::default();
            let filled = reader.object("", &json!({ "row": row }), GAUGE_ROW);
            let row = filled.get("row").filter(|_| reader.problems.is_empty())?;
            serde_json::from_value(row.clone()).ok()
        };
        Self {
            day: if day.is_finite() { day } else { 0.0 },
            at: at.to_owned(),
            readings: rows("readings").filter_map(reading).collect(),
            gauges: rows("gauges").filter_map(gauge).collect(),
        }
    }
}

/// The curves of rounds of one proposal, in the order of the record.
#[must_use]
pub fn trends(rounds: &[Round]) -> Trends {
    let mut props: Vec<&str> = Vec::new();
    let mut gauges: Vec<&str> = Vec::new();
    for round in rounds {
        for reading in &round.readings {
            if !props.contains(&reading.prop.as_str()) {
                props.push(&reading.prop);
            }
        }
        for gauge in &round.gauges {
            if !gauges.contains(&gauge.name.as_str()) {
                gauges.push(&gauge.name);
            }
        }
    }
    let take_ups = props.iter().map(|prop| take_up(rounds, prop));
    let cracks = gauges.iter().map(|gauge| crack(rounds, gauge));
    let leans = [(What::LeanAlong, 0), (What::LeanAcross, 1)];
    let leans = leans
        .iter()
        .flat_map(|(what, axis)| props.iter().map(move |prop| lean(rounds, prop, *what, *axis)));
    let mut series: Vec<Series> = take_ups.chain(cracks).chain(leans).collect();
    for one in &mut series {
        one.words = say::sentence(one);
        one.svg = draw::curve(one);
    }
    Trends {
        words: say::together(&series),
        stop: series.iter().any(|one| one.stops),
        series,
    }
}

/// Readings of one prop with the round they are from.
fn of_prop<'a>(rounds: &'a [Round], prop: &'a str) -> impl Iterator<Item = (usize, &'a Round, &'a Reading)> {
    rounds.iter().enumerate().filter_map(move |(number, round)| {
        let reading = round.readings.iter().find(|reading| reading.prop == prop)?;
        Some((number, round, reading))
    })
}

fn take_up(rounds: &[Round], prop: &str) -> Series {
    let mut sum = 0.0;
    let mut amounts = Vec::new();
    let mut points = Vec::new();
    let mut later = Vec::new();
    let (mut since_bedding, mut sums) = (0.0, false);
    for (number, round, reading) in of_prop(rounds, prop) {
        let amount = reading.collar_turns * reading.thread_mm;
        sum += amount;
        amounts.push(amount);
        points.push(point(round, sum));
        if number >= BEDDING_ROUNDS {
            sums = take_up_sums(since_bedding, amount);
            since_bedding += amount.max(0.0);
        }
        // The line begins where bedding-in ends.
        if number + 1 >= BEDDING_ROUNDS {
            later.push((round.day, sum));
        }
    }
    let fit = Fit::of(&later);
    let grows = take_up_grows(&amounts);
    let change = later.last().map_or(0.0, |last| last.1) - later.first().map_or(0.0, |first| first.1);
    let moves = change > TAKE_UP_TOLD_MM - 1e-9 && (later.len() < FEW || surely_up(fit));
    let over = too_much(rounds, prop);
    Series {
        limits: vec![limit(BEDDING_MM, "bedding-in, at most")],
        standing: standing(over || sums, grows, moves),
        stops: over || sums || grows,
        ..series(What::TakeUp, prop, "mm", points, fit)
    }
}

/// Whether the last round's take-up is too much: over the first day and in the first rounds more than bedding-in, summed;
/// later more than 2 mm since the round before or within a day.
fn too_much(rounds: &[Round], prop: &str) -> bool {
    let began = rounds.first().map_or(0.0, |round| round.day);
    let taken: Vec<(bool, f64, f64)> = of_prop(rounds, prop)
        .map(|(number, round, reading)| {
            let beds_in = number < BEDDING_ROUNDS || round.day - began < 1.0;
            (beds_in, round.day, (reading.collar_turns * reading.thread_mm).max(0.0))
        })
        .collect();
    let Some((beds_in, day, amount)) = taken.last().copied() else {
        return false;
    };
    if beds_in {
        let sum: f64 = taken.iter().map(|(_, _, amount)| amount).sum();
        return sum > BEDDING_MM + 1e-9 || (rounds.len() > BEDDING_ROUNDS && amount > LATER_MM + 1e-9);
    }
    let of_the_day = taken
        .iter()
        .filter(|(beds_in, at, _)| !beds_in && (day - at).abs() < 1.0);
    amount > 0.0 && of_the_day.map(|(_, _, amount)| amount).sum::<f64>() > LATER_MM + 1e-9
}

fn crack(rounds: &[Round], gauge: &str) -> Series {
    let read = |round: &Round| {
        let row = round.gauges.iter().find(|row| row.name == gauge)?;
        Some((point(round, row.mm), (row.mm, row.first_mm)))
    };
    let (mut points, read): (Vec<Point>, Vec<(f64, Option<f64>)>) = rounds.iter().filter_map(read).unzip();
    let values: Vec<f64> = read.iter().map(|(now, _)| *now).collect();
    // What the gauge read when it was put up, where the first round says so.
    let start = read.first().map_or(0.0, |(now, first)| first.unwrap_or(*now));
    for point in &mut points {
        point.value -= start;
    }
    let grown = points.last().map_or(0.0, |last| last.value);
    let fit = fitted(&points);
    let grows = crack_grows(&values);
    let over = grown > GAUGE_START_MM - 1e-9 || last_step(&points) > GAUGE_LAST_MM - 1e-9;
    let moves = grown > CRACK_TOLD_MM - 1e-9 && (points.len() < FEW || surely_up(fit));
    Series {
        limits: vec![limit(GAUGE_START_MM, "stop: grown since the start by")],
        standing: standing(over, grows, moves),
        stops: over || grows,
        ..series(What::Crack, gauge, "mm", points, fit)
    }
}

fn lean(rounds: &[Round], prop: &str, what: What, axis: usize) -> Series {
    let mut lean_mm_m = [0.0, 0.0];
    let points: Vec<Point> = of_prop(rounds, prop)
        .map(|(_, round, reading)| {
            lean_mm_m = reading.lean_mm.map(|mm| mm / reading.over_m);
            point(round, lean_mm_m.get(axis).copied().unwrap_or_default())
        })
        .collect();
    let fit = fitted(&points);
    let now = points.last().map_or(0.0, |last| last.value);
    let first = points.first().map_or(0.0, |first| first.value);
    let change = now - first;
    // Both ways together, as the round has it.
    let over = !State {
        head_mm: 0.0,
        foot_mm: 0.0,
        lean_mm_m,
    }
    .in_basis();
    // Towards the limit, not back to the plumb.
    let outwards = if points.len() < FEW {
        now.abs() > first.abs()
    } else {
        fit.is_some_and(|fit| fit.slope_low * now.signum() > 0.0 && fit.slope_high * now.signum() > 0.0)
    };
    Series {
        limits: vec![
            limit(LEAN_LIMIT_MM_M, "stop: out of plumb by"),
            limit(-LEAN_LIMIT_MM_M, "stop: out of plumb by"),
        ],
        standing: standing(over, false, outwards && change.abs() > LEAN_TOLD_MM_M - 1e-9),
        stops: over,
        ..series(what, prop, "mm per m", points, fit)
    }
}

/// Whether a line surely rises.
fn surely_up(fit: Option<Fit>) -> bool {
    fit.is_some_and(|fit| fit.slope_low > 0.0)
}

/// What was added from the last reading but one to the last.
pub(super) fn last_step(points: &[Point]) -> f64 {
    match points {
        [.., before, last] => last.value - before.value,
        _ => 0.0,
    }
}

impl Series {
    /// Whether its last reading differs from its first by as much as is worth telling, sure or not.
    pub(super) fn differs(&self) -> bool {
        let (Some(first), Some(last)) = (self.points.first(), self.points.last()) else {
            return false;
        };
        let told = match self.what {
            What::TakeUp => TAKE_UP_TOLD_MM,
            What::Crack => CRACK_TOLD_MM,
            What::LeanAlong | What::LeanAcross => LEAN_TOLD_MM_M,
        };
        (last.value - first.value).abs() > told - 1e-9
    }
}

fn standing(over: bool, grows: bool, moves: bool) -> Standing {
    match (over, grows, moves) {
        (true, _, _) => Standing::Over,
        (_, true, _) => Standing::Growing,
        (_, _, true) => Standing::Moves,
        _ => Standing::Steady,
    }
}

fn series(what: What, name: &str, unit: &'static str, points: Vec<Point>, fit: Option<Fit>) -> Series {
    Series {
        what,
        name: name.to_owned(),
        unit,
        points,
        fit,
        limits: Vec::new(),
        standing: Standing::Steady,
        stops: false,
        words: String::new(),
        svg: String::new(),
    }
}

fn point(round: &Round, value: f64) -> Point {
    Point {
        day: round.day,
        at: round.at.clone(),
        value,
    }
}

fn limit(value: f64, words: &str) -> Limit {
    Limit {
        value,
        words: words.to_owned(),
    }
}

fn fitted(points: &[Point]) -> Option<Fit> {
    let pairs: Vec<(f64, f64)> = points.iter().map(|point| (point.day, point.value)).collect();
    Fit::of(&pairs)
}
