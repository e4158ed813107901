//! What is fetched for an arrangement: pieces with their lengths and weights, weeks, and what goes into a car.

use calc::Job;
use calc::proposal::{Opt, Part};
use calc::ready::{Ready, ready, trade_size};
use serde::Serialize;

/// Longest piece that lies in an estate car with its seats down, m. Own judgement.
pub const CAR_M: f64 = 1.8;
/// What such a car may carry beside its driver, kg. Own judgement.
pub const CAR_KG: f64 = 350.0;

/// One line of what is fetched.
#[derive(Clone, Debug, Serialize)]
pub struct HireLine {
    /// What it is.
    pub what: String,
    /// How many.
    pub count: u32,
    /// Mass of one, kg.
    pub mass_kg: f64,
    /// Length of one as it is carried, m: a prop's closed length.
    pub length_m: Option<f64>,
    /// Length of a prop drawn out in full, m.
    pub open_m: Option<f64>,
    /// Lengths at which props of this size stand here, m.
    pub stands_m: Vec<f64>,
    /// What to look at when it is handed over: `needle`, `prop`, `board`, `tube`, or `other`.
    pub kind: &'static str,
}

/// All that is fetched.
#[derive(Clone, Debug, Serialize)]
pub struct Hire {
    /// Days that the support stands.
    pub days: f64,
    /// Weeks begun.
    pub weeks: u32,
    /// The pieces.
    pub lines: Vec<HireLine>,
    /// Number of hired pieces: needles, props, tubes.
    pub pieces: u32,
    /// Mass of all, kg.
    pub mass_kg: f64,
    /// Longest piece taken for a car, m.
    pub car_m: f64,
    /// Load taken for a car, kg.
    pub car_kg: f64,
    /// Trips of such a car for what fits in.
    pub trips: u32,
    /// What is too long for it.
    pub too_long: Vec<String>,
}

/// The list of an arrangement.
#[must_use]
pub fn hire(job: &Job, option: &Opt) -> Hire {
    let at_hand: Vec<Ready> = if job.props.is_empty() {
        (0..=4).filter_map(|size| ready(&trade_size(size)).ok()).collect()
    } else {
        job.props.iter().filter_map(|input| ready(input).ok()).collect()
    };
    let lines: Vec<HireLine> = option.parts.iter().map(|part| line(part, option, &at_hand)).collect();
    let long = |line: &&HireLine| line.length_m.is_some_and(|long| long > CAR_M);
    let of_all = |line: &HireLine| f64::from(line.count) * line.mass_kg;
    let fits: f64 = lines.iter().filter(|line| !long(line)).map(of_all).sum();
    let hired = |line: &&HireLine| matches!(line.kind, "needle" | "prop" | "tube");
    Hire {
        days: job.site.days,
        weeks: (job.site.days / 7.0).ceil().max(1.0) as u32,
        pieces: lines.iter().filter(hired).map(|line| line.count).sum(),
        mass_kg: lines.iter().map(of_all).sum(),
        car_m: CAR_M,
        car_kg: CAR_KG,
        trips: (fits / CAR_KG).ceil().max(1.0) as u32,
        too_long: lines.iter().filter(long).map(|line| line.what.clone()).collect(),
        lines,
    }
}

fn line(part: &Part, option: &Opt, at_hand: &[Ready]) -> HireLine {
    let what = part.what.as_str();
    let prop = what.contains("adjustable steel prop");
    let size = at_hand
        .iter()
        .filter(|_| prop)
        .find(|ready| what.ends_with(&format!(", {}", ready.words)) || what.contains(&format!(", {},", ready.words)));
    let range = size.and_then(|ready| ready.data.range_m().ok());
    let all = option
        .props
        .iter()
        .chain(option.floor_lines.iter().flat_map(|line| &line.props));
    let mut stands_m: Vec<f64> = size.map_or_else(Vec::new, |ready| {
        all.filter(|prop| prop.kind == ready.kind && prop.size == ready.size)
            .map(|prop| prop.length_m)
            .collect()
    });
    stands_m.sort_by(f64::total_cmp);
    stands_m.dedup_by(|a, b| (*a - *b).abs() < 0.0005);
    HireLine {
        what: part.what.clone(),
        count: part.count,
        mass_kg: part.mass_kg,
        length_m: range.map(|range| range.0).or_else(|| length_m(what).filter(|_| !prop)),
        open_m: range.map(|range| range.1),
        stands_m,
        kind: kind(what, prop),
    }
}

fn kind(what: &str, prop: bool) -> &'static str {
    let begins = |starts: &[&str]| starts.iter().any(|start| what.starts_with(start));
    if prop {
        "prop"
    } else if begins(&["needle", "header", "runner"]) {
        "needle"
    } else if begins(&["board", "sleeper", "crossed", "two crossed", "spreader"]) {
        "board"
    } else if begins(&["diagonal", "raker", "lacing"]) {
        "tube"
    } else {
        "other"
    }
}

/// The length that a part's words name in metres, as “of 1.27 m” and “2.76 m”.
fn length_m(what: &str) -> Option<f64> {
    let tokens: Vec<&str> = what.split_whitespace().collect();
    tokens.windows(2).find_map(|pair| match pair {
        [number, unit] if unit.trim_end_matches(',') == "m" => number.parse().ok(),
        _ => None,
    })
}

#[cfg(test)]
mod tests {
    #![expect(clippy::unwrap_used, reason = "a test may stop at the first thing that is not there")]

    use super::*;

    #[test]
    fn every_ready_house_has_its_pieces_with_lengths() {
        let mut seen = 0;
        for name in calc::example::names() {
            let value = calc::example::job(name).unwrap();
            let (job, _) = Job::from_value(&value).unwrap();
            let proposal = calc::size_value(&value).unwrap();
            for option in &proposal.options {
                let list = hire(&job, option);
                for line in &list.lines {
                    match line.kind {
                        "needle" if line.what.starts_with("needle") => {
                            let needle = option.needles.first().unwrap();
                            // 150 mm beyond the axis of each prop.
                            assert!(
                                (line.length_m.unwrap() - needle.span_m - 0.3).abs() < 0.006,
                                "{}",
                                line.what
                            );
                        }
                        "prop" => {
                            let (closed, open) = (line.length_m.unwrap(), line.open_m.unwrap());
                            assert!(line.stands_m.iter().all(|at| *at > closed && *at < open), "{line:?}");
                        }
                        "tube" => assert!(line.length_m.is_some(), "{}", line.what),
                        _ => {}
                    }
                    seen += 1;
                }
                assert_eq!(list.lines.len(), option.parts.len());
                assert!(list.weeks >= 1 && list.trips >= 1);
            }
        }
        assert!(seen > 50, "{seen}");
    }

    #[test]
    fn the_closed_and_open_length_of_a_trade_size_are_the_yards() {
        // Size 2 as hire texts have it: 1.98 to 3.35 m.
        let size = ready(&trade_size(2)).unwrap().data.range_m().unwrap();
        assert!((size.0 - 1.98).abs() < 1e-9 && (size.1 - 3.35).abs() < 1e-9);
    }
}
