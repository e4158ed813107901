//! The jobs and the reference results beside them.

use serde_json::Value;
use std::path::Path;

/// A job with its reference result.
pub struct Case {
    /// Line in the data, from nought.
    pub number: usize,
    /// The job as the contract writes it.
    pub job: Value,
    /// What the scripts found.
    pub reference: Value,
}

/// Text of a file beside this one.
pub fn text(name: &str) -> String {
    let path = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("../tests/second_opinion")
        .join(name);
    let read = std::fs::read_to_string(&path);
    assert!(read.is_ok(), "{}: {read:?}", path.display());
    read.unwrap()
}

/// Pairs of two files line by line.
pub fn pairs(jobs: &str, references: &str) -> Vec<Case> {
    let (jobs, references) = (text(jobs), text(references));
    assert_eq!(jobs.lines().count(), references.lines().count());
    jobs.lines()
        .zip(references.lines())
        .enumerate()
        .map(|(number, (job, reference))| Case {
            number,
            job: serde_json::from_str(job).unwrap(),
            reference: serde_json::from_str(reference).unwrap(),
        })
        .collect()
}

/// All jobs of the comparison.
pub fn cases() -> Vec<Case> {
    pairs("jobs.jsonl", "reference.jsonl")
}

/// Seed of the jobs and how they were checked, as the scripts wrote it.
pub fn about() -> String {
    text("about.txt").trim().to_owned()
}

/// Does something for each case on all cores; the order stays.
pub fn on_all_cores<T: Send>(cases: &[Case], work: fn(&Case) -> T) -> Vec<T> {
    let cores = std::thread::available_parallelism().map_or(2, usize::from);
    let chunk = cases.len().div_ceil(cores).max(1);
    std::thread::scope(|scope| {
        let running: Vec<_> = cases
            .chunks(chunk)
            .map(|part| scope.spawn(move || part.iter().map(work).collect::<Vec<T>>()))
            .collect();
        running.into_iter().flat_map(|thread| thread.join().unwrap()).collect()
    })
}

/// What the tool answers.
pub fn answer(job: &Value) -> Value {
    let proposal = calc::size_value(job);
    assert!(proposal.is_ok(), "{:?} of {job}", proposal.err());
    serde_json::to_value(proposal.unwrap()).unwrap()
}

/// Whether an upper storey has openings.
pub fn has_windows(job: &Value) -> bool {
    let storeys = job["above"].as_array().unwrap();
    storeys
        .iter()
        .any(|s| s["openings"].as_array().is_some_and(|o| !o.is_empty()))
}

/// Whether the feet of both sides stand at different levels.
pub fn unequal_feet(job: &Value) -> bool {
    job["sides"]["inside"]["foot_level_m"] != job["sides"]["outside"]["foot_level_m"]
}
