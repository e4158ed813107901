//! What a machine can find out about who is kept out of a page: axe-core, every rule, over the whole page.

use crate::bench::{Bench, not_run};
use serde_json::Value;
use std::path::PathBuf;

/// What axe-core said about a page.
pub struct Said {
    /// What it found wrong, and what it could not decide.
    pub found: Vec<String>,
    /// Rules that something on the page passed.
    pub passed: usize,
    /// Elements that were looked at.
    pub nodes: u64,
}

/// The program, or NOT RUN where it was not fetched.
pub fn source(test: &str) -> Option<String> {
    let file = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../tests/screens/node_modules/axe-core/axe.min.js");
    let read = std::fs::read_to_string(file).ok();
    if read.is_none() {
        not_run(&format!("{test}: tests/screens/node_modules is missing here"));
    }
    read
}

/// Looks at the page as it stands.
pub fn look(bench: &Bench, source: &str) -> Said {
    if bench.value("typeof axe") != "object" {
        bench.value(&format!("{source}; 1"));
    }
    let said = bench.value(include_str!("axe.js"));
    let list = |key: &str| -> Vec<String> {
        let all = said.get(key).and_then(Value::as_array).cloned().unwrap_or_default();
        all.iter()
            .map(|one| one.as_str().unwrap_or_default().to_owned())
            .collect()
    };
    Said {
        found: list("found"),
        passed: list("passed").len(),
        nodes: said.get("nodes").and_then(Value::as_u64).unwrap_or_default(),
    }
}
