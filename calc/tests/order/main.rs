//! The order of work: its numbers are the option's, its stops are there, and it never tells how to cut where nothing
//! may be built.
#![expect(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a test stops at the first broken promise"
)]

mod numbers;
mod words;

use calc::geometry::Geometry;
use calc::order::country::Country;
use calc::order::order;
use calc::proposal::{Opt, OrderStep, Proposal, Standing};
use calc::standing::verdict;
use calc::{Job, example, size_value};
use serde_json::{Value, json};

fn sized(job: &Value) -> Proposal {
    size_value(job).unwrap()
}

fn house(name: &str) -> Value {
    example::job(name).unwrap()
}

/// The order for an option that was changed after the search.
fn order_for(job: &Value, option: &Opt) -> Vec<OrderStep> {
    let (job, mut assumptions) = Job::from_value(job).unwrap();
    let geometry = Geometry::of(&job, &mut assumptions);
    let found = verdict(&job, &geometry, &mut assumptions);
    order(&job, &geometry, &found, Standing::Close, Some(option))
}

fn coded<'a>(steps: &'a [OrderStep], code: &str) -> Vec<&'a OrderStep> {
    steps.iter().filter(|step| step.code == code).collect()
}

fn one<'a>(steps: &'a [OrderStep], code: &str) -> &'a str {
    let found = coded(steps, code);
    assert_eq!(found.len(), 1, "{code}");
    &found[0].words
}

/// All numbers of a text, in order; a name as `N1` gives its number too.
fn figures(text: &str) -> Vec<f64> {
    text.split(|c: char| !c.is_ascii_digit() && c != '.')
        .filter_map(|word| word.trim_matches('.').parse().ok())
        .collect()
}

fn has(text: &str, value: f64, half_last_digit: f64) {
    let found = figures(text);
    assert!(
        found.iter().any(|n| (n - value).abs() <= half_last_digit + 1e-9),
        "{value} is not in: {text}"
    );
}

/// Jobs that are built from, of different sizes and kinds.
fn buildable() -> Vec<(String, Value, Proposal)> {
    let mut out = Vec::new();
    for name in example::names() {
        for width_m in [1.0, 1.5, 2.1, 2.7, 3.3, 4.4] {
            let mut job = house(name);
            job["opening"]["width_m"] = json!(width_m);
            let Ok(found) = size_value(&job) else { continue };
            if !found.options.is_empty() {
                out.push((format!("{name} {width_m} m"), job, found));
            }
        }
    }
    assert!(out.len() >= 15, "only {} jobs are built from", out.len());
    out
}

/// Every order this test can think of.
fn many_orders() -> Vec<Vec<OrderStep>> {
    let mut out: Vec<Vec<OrderStep>> = buildable().into_iter().map(|(_, _, found)| found.order).collect();
    for name in example::names() {
        for country in Country::all() {
            let mut job = house(name);
            job["country"] = json!(country.name());
            job["site"]["days"] = json!(120);
            out.push(sized(&job).order);
            for key in ["cellar", "chimney", "bay", "veneer", "removed", "digging", "cracked"] {
                job["answers"][key] = json!("unknown");
            }
            job["answers"]["restraint"] = json!("none");
            job["answers"]["corner_m"] = json!(0.2);
            job["wall"]["condition"] = json!("poor");
            job["wall"]["gable"] = json!(true);
            job["sides"]["inside"]["foot"]["kind"] = json!("decking");
            out.push(sized(&job).order);
        }
    }
    out
}
