//! The other side of care: what holds must not be refused.

use crate::compare::Compared;
use crate::data::{Case, answer, on_all_cores};
use serde_json::Value;
use std::collections::BTreeMap;

/// How many of some jobs stay without an option.
pub struct Without {
    /// Jobs asked.
    pub of: usize,
    /// Jobs without an option.
    pub without: usize,
    /// What stands against them.
    pub words: Vec<String>,
}

impl Without {
    /// Share without an option.
    pub fn share(&self) -> f64 {
        self.without as f64 / self.of.max(1) as f64
    }
}

fn has_to_spare(case: &Case, limit: f64) -> bool {
    let geometry = case.reference["geometry"].as_array().is_some_and(Vec::is_empty);
    geometry && case.reference["worst"].as_f64().is_some_and(|worst| worst <= limit)
}

fn counted<'a>(reasons: impl Iterator<Item = &'a str>) -> Vec<String> {
    let mut by: BTreeMap<&str, usize> = BTreeMap::new();
    for reason in reasons {
        *by.entry(reason).or_default() += 1;
    }
    by.into_iter().map(|(reason, n)| format!("{n} × {reason}")).collect()
}

/// Jobs with a given arrangement that holds by the reference and not by the tool.
pub fn refused(cases: &[Case], all: &[Compared], limit: f64) -> Without {
    let asked: Vec<&Compared> = cases
        .iter()
        .zip(all)
        .filter(|(case, _)| has_to_spare(case, limit))
        .map(|(_, one)| one)
        .collect();
    let without: Vec<&&Compared> = asked.iter().filter(|one| !one.passes).collect();
    Without {
        of: asked.len(),
        without: without.len(),
        words: counted(without.iter().map(|one| one.against.as_str())),
    }
}

/// What stands against a job whose arrangement the tool is free to choose; none where it gives an option.
fn against(case: &Case) -> Option<String> {
    let mut job = case.job.clone();
    let prop = job["fix"]["prop"].clone();
    let keys = job.as_object_mut()?;
    keys.remove("fix");
    // The prop of the arrangement stays the one at hand.
    keys.insert("props".to_owned(), Value::Array(vec![prop]));
    let found = answer(&job);
    let codes = found["reasons"]
        .as_array()
        .unwrap()
        .iter()
        .filter_map(|reason| reason["code"].as_str());
    let words = codes.collect::<Vec<_>>().join(", ");
    found["options"].as_array().unwrap().is_empty().then_some(words)
}

/// Searches freely for every so-manieth of the jobs with something to spare.
pub fn free_search(cases: &[Case], limit: f64, count: usize) -> Without {
    let asked: Vec<&Case> = cases.iter().filter(|case| has_to_spare(case, limit)).collect();
    let step = (asked.len() / count).max(1);
    let chosen: Vec<Case> = asked
        .iter()
        .step_by(step)
        .take(count)
        .map(|case| Case {
            number: case.number,
            job: case.job.clone(),
            reference: Value::Null,
        })
        .collect();
    let found: Vec<String> = on_all_cores(&chosen, against).into_iter().flatten().collect();
    Without {
        of: chosen.len(),
        without: found.len(),
        words: counted(found.iter().map(String::as_str)),
    }
}
