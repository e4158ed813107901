//! What curves say, in plain words.

use super::rules::GAUGE_START_MM;
use super::series::{Series, Standing, What, last_step};
use crate::props::LEAN_LIMIT_MM_M;
use crate::sketch::plain;

/// A side or end that was taken up at least this much, mm, and twice as much as the other one, is said to settle [own].
const SETTLES_MM: f64 = 2.0;
/// Longest time ahead that a slope is drawn out to, days: beyond, nothing of it is known [own].
const AHEAD_DAYS: f64 = 60.0;

/// The sentence of one curve.
pub fn sentence(series: &Series) -> String {
    let Some(last) = series.points.last() else {
        return "No reading yet.".to_owned();
    };
    let name = &series.name;
    let now = plain(last.value.abs(), 1);
    // A rate is told only where it is surely one.
    let sure = series.fit.filter(|fit| fit.slope_low * fit.slope_high > 0.0);
    let rate = sure.map(|fit| {
        let reach = (fit.slope_high - fit.slope_low) / 2.0;
        format!(
            "{} mm a day, give or take {}",
            plain(fit.slope_per_day.abs(), 2),
            plain(reach, 2)
        )
    });
    let rate = rate.map_or_else(String::new, |rate| format!(", {rate}"));
    match (series.what, series.standing) {
        (What::TakeUp, Standing::Over) => {
            format!(
                "{name} gives way: too much taken up since the last round, within a day or in all, which is {now} mm. Stop and ring."
            )
        }
        (What::TakeUp, Standing::Growing) => {
            format!("{name} loosens faster each round, three rounds running: {now} mm taken up in all. Stop and ring.")
        }
        (What::TakeUp, Standing::Moves) => format!("{name} goes on loosening: {now} mm taken up in all{rate}."),
        (What::TakeUp, _) => format!("{name}: {now} mm taken up in all."),
        (What::Crack, Standing::Over) if last.value > GAUGE_START_MM - 1e-9 => {
            format!("{name} has grown {now} mm since the start. Stop and ring.")
        }
        (What::Crack, Standing::Over) => {
            let step = plain(last_step(&series.points), 1);
            format!("{name} has grown {step} mm since the last round. Stop and ring.")
        }
        (What::Crack, Standing::Growing) => {
            format!("{name} grows, three rounds running: {now} mm since the start. Stop and ring.")
        }
        (What::Crack, Standing::Moves) if sure.is_none() => {
            format!("{name} is {now} mm wider than at the start, with too few readings to say whether it goes on.")
        }
        (What::Crack, Standing::Moves) => format!("{name} grows: {now} mm since the start{rate}."),
        (What::Crack, Standing::Steady) => match last.value {
            closed if closed < -0.05 => format!("{name} has closed by {now} mm since the start."),
            open if open > 0.05 => format!("{name}: {now} mm wider than at the start, not surely growing."),
            _ => format!("{name} has not changed."),
        },
        (What::LeanAlong | What::LeanAcross, standing) => lean(series, standing, last.value),
    }
}

fn lean(series: &Series, standing: Standing, now: f64) -> String {
    let name = &series.name;
    let way = if series.what == What::LeanAlong {
        "along the wall"
    } else {
        "across the wall"
    };
    let leans = format!("{name} leans {} mm per m {way}", plain(now.abs(), 0));
    match standing {
        Standing::Over if now.abs() > LEAN_LIMIT_MM_M => {
            format!("{leans}, more than any prop load allows for. Stop and ring.")
        }
        Standing::Over => {
            format!("{leans}; with its lean the other way that is more than any prop load allows for. Stop and ring.")
        }
        Standing::Moves if series.fit.is_none_or(|fit| fit.slope_low * fit.slope_high <= 0.0) => {
            let first = series.points.first().map_or(0.0, |first| first.value);
            format!(
                "{leans}; at the first reading it was {} mm per m.",
                plain(first.abs(), 0)
            )
        }
        Standing::Moves => {
            let left = series
                .limits
                .iter()
                .map(|limit| limit.value.abs())
                .fold(f64::INFINITY, f64::min)
                - now.abs();
            let rate = series.fit.map_or(0.0, |fit| fit.slope_per_day.abs());
            let days = left / rate;
            if days.is_finite() && days <= AHEAD_DAYS {
                format!(
                    "{leans} and leans more each day: at this rate it is at its limit in {} days.",
                    plain(days.floor().max(0.0), 0)
                )
            } else {
                format!("{leans} and leans a little more each day.")
            }
        }
        _ => format!("{leans}."),
    }
}

/// What all curves say together: the side or end that sinks, then each curve that does not stand still, the gravest first.
pub fn together(series: &[Series]) -> Vec<String> {
    let rank = |one: &&Series| match one.standing {
        Standing::Over => 0,
        Standing::Growing => 1,
        Standing::Moves => 2,
        Standing::Steady => 3,
    };
    let mut told: Vec<&Series> = series.iter().filter(|one| one.standing != Standing::Steady).collect();
    told.sort_by_key(rank);
    let mut out: Vec<String> = sinking(series);
    let stops = told.iter().filter(|one| one.stops).count();
    for (place, one) in told.iter().enumerate() {
        // What stops stands before what only settles.
        let at = if place < stops { place } else { out.len() };
        out.insert(at, one.words.clone());
    }
    if out.is_empty() && series.iter().any(|one| one.points.len() > 1) {
        let words = if series.iter().any(Series::differs) {
            "Some readings differ from the first ones, though none surely goes on: look at the curves."
        } else {
            "Nothing has moved so that it could be told from the readings."
        };
        out.push(words.to_owned());
    }
    out
}

/// The side and the end whose props were taken up most.
fn sinking(series: &[Series]) -> Vec<String> {
    let taken: Vec<(&str, f64)> = series
        .iter()
        .filter(|one| one.what == What::TakeUp)
        .filter_map(|one| Some((one.name.as_str(), one.points.last()?.value)))
        .collect();
    let side = |ending: &str| {
        mean(
            taken
                .iter()
                .filter(|(name, _)| name.ends_with(ending))
                .map(|(_, mm)| *mm),
        )
    };
    let mut numbers: Vec<u32> = taken.iter().filter_map(|(name, _)| number(name)).collect();
    numbers.sort_unstable();
    numbers.dedup();
    let (first, last) = (numbers.first().copied(), numbers.last().copied());
    let halfway = first.zip(last).map(|(first, last)| f64::from(first + last) / 2.0);
    let end = |beyond: f64| {
        let here = taken.iter().filter(|(name, _)| {
            number(name)
                .zip(halfway)
                .is_some_and(|(number, half)| (f64::from(number) - half) * beyond > 0.25)
        });
        mean(here.map(|(_, mm)| *mm))
    };
    [
        ("The inside", side("-in"), "the outside", side("-out")),
        ("The left end", end(-1.0), "the right end", end(1.0)),
    ]
    .into_iter()
    .filter_map(|(one, here, other, there)| settles(one, here?, other, there?))
    .collect()
}

fn settles(one: &str, here: f64, other: &str, there: f64) -> Option<String> {
    let ((more, most), (less, least)) = if here >= there {
        ((one, here), (other, there))
    } else {
        ((other, there), (one, here))
    };
    if most < SETTLES_MM - 1e-9 || most < 2.0 * least {
        return None;
    }
    let mut letters = more.chars();
    let more: String = letters
        .next()
        .map(|first| first.to_uppercase().chain(letters).collect())?;
    Some(format!(
        "{more} settles more: its props were taken up {} mm on average, those of {} {} mm.",
        plain(most, 1),
        less.to_lowercase(),
        plain(least, 1)
    ))
}

fn mean(values: impl Iterator<Item = f64>) -> Option<f64> {
    let (sum, count) = values.fold((0.0, 0.0), |(sum, count), value| (sum + value, count + 1.0));
    (count > 0.0).then(|| sum / count)
}

/// The needle's number in a prop's name, as in `N3-in`.
fn number(name: &str) -> Option<u32> {
    let digits: String = name
        .strip_prefix('N')?
        .chars()
        .take_while(char::is_ascii_digit)
        .take(4)
        .collect();
    digits.parse().ok()
}
