//! The README and the figures of the last measuring run say the same.

use serde_json::Value;
use std::path::{Path, PathBuf};

/// What the README says as long as no measuring run is kept.
const NONE_KEPT: &str = "No full measuring run is kept yet.";

fn path(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("..").join(name)
}

fn read(name: &str) -> String {
    let path = path(name);
    std::fs::read_to_string(&path).unwrap_or_else(|why| panic!("{}: {why}", path.display()))
}

/// Rows of the README's table of figures.
fn told(readme: &str) -> Vec<&str> {
    readme
        .lines()
        .skip_while(|line| !line.starts_with("| Work | Beside |"))
        .take_while(|line| line.starts_with('|'))
        .skip(2)
        .collect()
}

fn text<'a>(row: &'a Value, key: &str) -> &'a str {
    row.get(key)
        .and_then(Value::as_str)
        .unwrap_or_else(|| panic!("no {key} in {row}"))
}

fn median(row: &Value, side: &str) -> Option<f64> {
    let mut all: Vec<f64> = row.get(side)?.as_array()?.iter().filter_map(Value::as_f64).collect();
    all.sort_by(f64::total_cmp);
    let middle = all.len() / 2;
    let (upper, lower) = (all.get(middle)?, all.get(middle.saturating_sub(1))?);
    Some(if all.len().is_multiple_of(2) {
        (upper + lower) / 2.0
    } else {
        *upper
    })
}

/// A row of the README's table from the figures themselves, and not from what the script made of them.
fn line(row: &Value) -> String {
    let measured = match (median(row, "ours"), median(row, "theirs")) {
        (Some(ours), Some(theirs)) => format!("{:.2}", ours / theirs),
        (Some(ours), None) => format!("{ours:.1} {}", text(row, "unit")),
        (None, _) => "NOT RUN".to_owned(),
    };
    format!(
        "| {} | {} | {measured} | {} |",
        text(row, "work"),
        text(row, "against"),
        text(row, "reach")
    )
}

#[test]
fn counts_of_the_readme_are_those_of_the_last_run() {
    let readme = read("README.md");
    let (last, told) = ("tests/benches/last.json", told(&readme));
    let kept = path(last).exists();
    assert_eq!(
        readme.contains(NONE_KEPT),
        !kept,
        "{last} is there: {kept}, and the README says otherwise"
    );
    if !kept {
        assert_eq!(told, Vec::<&str>::new(), "the README tells of what was not measured");
        return;
    }
    let last: Value = serde_json::from_str(&read(last)).unwrap();
    let rows = last.get("rows").and_then(Value::as_array).unwrap();
    assert!(rows.len() >= 10, "only {} rows", rows.len());
    for row in rows {
        let run = row.get("ours").is_some();
        assert!(run || !text(row, "not_run").is_empty(), "why did it not run? {row}");
    }
    let measured: Vec<String> = rows.iter().map(line).collect();
    assert_eq!(told, measured, "the README's figures and those that were measured");
}
