//! The tool beside an independent second opinion: the same jobs, judged from the method alone by scripts that import
//! nothing of this project (`reference.py`, `generate.py` and the modules under `opinion`).
//!
//! `jobs.jsonl` holds the jobs, each with a complete arrangement; `reference.jsonl` what the scripts found. A result of the
//! tool below the reference is unconservative and fails the test; one above it costs usefulness, which has its own floors.

#![expect(clippy::unwrap_used, reason = "a test stops at the first value that is not there")]
#![expect(
    clippy::indexing_slicing,
    reason = "a key that is missing reads as null, which no comparison meets"
)]

mod compare;
mod data;
mod lifting;
mod needle_weight;
mod useful;

use compare::{Compared, compare};
use std::collections::BTreeMap;

/// How far below the reference a result may lie: rounding and the choices that the method leaves open.
const BELOW: f64 = 0.98;
/// The same where a support is lost: the tool shares out the loss between a needle's props as its own load is shared out.
const LOST_BELOW: f64 = 0.95;
/// Largest difference of the total load either way.
const TOTAL: f64 = 0.005;
/// Fewest jobs.
const JOBS: usize = 2000;
/// Smallest share of the jobs that hold, are close and fail by the reference.
const SHARE: f64 = 0.15;
/// Fewest jobs of each kind.
const EACH: usize = 200;
/// Use up to which the reference passes with a quarter to spare.
const TO_SPARE: f64 = 0.80;

/// Value at a share of a sorted list.
fn quantile(sorted: &[f64], share: f64) -> f64 {
    let last = sorted.len() - 1;
    sorted[((last as f64 * share).round() as usize).min(last)]
}

fn spread_words(values: &mut [f64]) -> String {
    values.sort_by(f64::total_cmp);
    let q: Vec<String> = [0.0, 0.01, 0.5, 0.99, 1.0]
        .iter()
        .map(|share| format!("{:.3}", quantile(values, *share)))
        .collect();
    format!(
        "min {} · 1 % {} · median {} · 99 % {} · max {}",
        q[0], q[1], q[2], q[3], q[4]
    )
}

#[test]
fn the_tool_is_not_less_careful_than_the_second_opinion() {
    let cases = data::cases();
    println!("{}", data::about());
    let all: Vec<Compared> = data::on_all_cores(&cases, compare);
    let count = |test: &dyn Fn(&data::Case) -> bool| cases.iter().filter(|case| test(case)).count();
    let verdict = |name: &str| count(&|case| case.reference["verdict"] == name);
    let kinds = [
        ("windows above", count(&|case| data::has_windows(&case.job))),
        (
            "point loads",
            count(&|case| case.job["points"].as_array().is_some_and(|p| !p.is_empty())),
        ),
        ("unequal feet", count(&|case| data::unequal_feet(&case.job))),
        ("one lost compared", all.iter().filter(|one| one.lost.is_some()).count()),
    ];
    let verdicts = ["holds", "close", "fails"].map(|name| (name, verdict(name)));
    println!("{} jobs; {verdicts:?}; {kinds:?}", cases.len());
    let mut worst: Vec<f64> = all.iter().filter_map(|one| one.worst).collect();
    println!("worst use, tool / reference: {}", spread_words(&mut worst));
    let careful = worst.iter().filter(|ratio| **ratio > 1.02).count();
    let factor = worst.iter().filter(|ratio| **ratio > 1.02).sum::<f64>() / careful.max(1) as f64;
    println!(
        "more careful by over 2 % in {careful} of {} jobs ({:.1} %), there by a factor of {factor:.2} on average",
        worst.len(),
        100.0 * careful as f64 / worst.len() as f64
    );
    let mut families: BTreeMap<&str, Vec<f64>> = BTreeMap::new();
    for one in &all {
        for (name, ratio) in &one.families {
            families.entry(name.as_str()).or_default().push(*ratio);
        }
    }
    for (name, ratios) in &mut families {
        println!("  {name:<22} {:>5}: {}", ratios.len(), spread_words(ratios));
    }
    let wrong: Vec<String> = all.iter().flat_map(|one| one.wrong.clone()).collect();
    for line in wrong.iter().take(40) {
        println!("UNCONSERVATIVE {line}");
    }
    let refused = useful::refused(&cases, &all, TO_SPARE);
    println!(
        "of {} jobs which the reference passes at a use up to {TO_SPARE}, the tool passes all but {} ({:.1} %)",
        refused.of,
        refused.without,
        100.0 * refused.share()
    );
    for line in &refused.words {
        println!("  {line}");
    }
    assert!(
        wrong.is_empty(),
        "{} results are less careful than the reference",
        wrong.len()
    );
    assert!(cases.len() >= JOBS, "{} jobs", cases.len());
    for (name, n) in verdicts {
        assert!(n as f64 >= SHARE * cases.len() as f64, "only {n} jobs {name}");
    }
    for (name, n) in kinds {
        assert!(n >= EACH, "only {n} jobs with {name}");
    }
    assert!(refused.share() <= 0.10, "the tool refuses too much of what holds");
}

#[test]
fn a_free_search_finds_something_where_the_second_opinion_has_to_spare() {
    let cases = data::cases();
    let found = useful::free_search(&cases, TO_SPARE, EACH);
    println!(
        "free search: {} of {} jobs get options ({:.1} %)",
        found.of - found.without,
        found.of,
        100.0 * (1.0 - found.share())
    );
    for line in &found.words {
        println!("  {line}");
    }
    assert_eq!(found.of, EACH);
    assert!(found.share() <= 0.10, "too many jobs without an option");
}
