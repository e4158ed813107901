//! How long a full search with three aims takes: the ready house types and the largest job that the method covers.
//!
//! Run with `cargo bench -p calc --bench search`. Times differ from machine to machine; `beside.py` next to this file sets
//! them against a general structural library in one run.

#![expect(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a benchmark stops at the first job that cannot be read"
)]

use calc::example;
use calc::tables::members::DEFAULT_CATALOGUE;
use calc::tables::steel::open_names;
use divan::{Bencher, black_box};
use serde_json::{Value, json};
use std::time::Instant;

fn main() {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let mut words = arguments.iter().map(String::as_str);
    match (words.next(), words.next(), words.next()) {
        (Some("time"), Some(name), Some(repeats)) => time(name, repeats.parse().unwrap()),
        _ => divan::main(),
    }
}

/// Prints the median of the seconds that a full search of a house type takes, for a script that sets it beside others.
fn time(name: &str, repeats: usize) {
    let job = example::job(name).unwrap();
    let mut seconds: Vec<f64> = (0..repeats)
        .map(|_| {
            let start = Instant::now();
            black_box(calc::size_value(black_box(&job)).unwrap());
            start.elapsed().as_secs_f64()
        })
        .collect();
    seconds.sort_by(f64::total_cmp);
    println!("{:e}", seconds.get(repeats / 2).unwrap());
}

/// A ready house type.
#[divan::bench(args = example::names())]
fn ready(bencher: Bencher<'_, '_>, name: &str) {
    let job = example::job(name).unwrap();
    bencher.bench_local(|| calc::size_value(black_box(&job)).unwrap());
}

/// 4.5 m wide with three storeys above and every part of the catalogue.
#[divan::bench]
fn largest(bencher: Bencher<'_, '_>) {
    let job = largest_job();
    bencher.bench_local(|| calc::size_value(black_box(&job)).unwrap());
}

fn largest_job() -> Value {
    let mut job = example::job("three_storey_terrace").unwrap();
    let storeys = job.pointer_mut("/above").and_then(Value::as_array_mut).unwrap();
    let mut third = storeys.last().unwrap().clone();
    *third.pointer_mut("/floor/bearing_m").unwrap() = json!(8.5);
    storeys.push(third);
    *job.pointer_mut("/opening/width_m").unwrap() = json!(4.5);
    let opened = open_names().map(|name| format!("{name} S275"));
    let sections: Vec<String> = DEFAULT_CATALOGUE
        .iter()
        .map(|name| (*name).to_owned())
        .chain(opened)
        .collect();
    job["catalogue"] = json!({ "sections": sections });
    let sizes = (0..=4).map(|size| json!({"name": format!("size {size}"), "data": "tn79", "size": size}));
    let classes = [
        "A25", "A30", "A35", "A40", "B25", "B30", "B35", "B40", "C25", "C30", "C35", "C40", "D25", "D30", "D35", "D40",
        "E25", "E30", "E35", "E40",
    ]
    .map(|class| json!({"name": class, "data": "en1065", "class": class}));
    job["props"] = sizes.chain(classes).collect();
    job
}
