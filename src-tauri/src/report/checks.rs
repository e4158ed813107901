//! Checks as a table of short rows; where each rule comes from stands once, numbered, under it.

use super::blocks::{Cell, Column};
use super::sheet::{SOFT, Sheet};
use super::values::{figure, number, text, used};
use super::words::at_words;
use calc::brief::{check_words, check_words_for, leaves_of, sentence};
use serde_json::Value;

/// The checks, and their sources numbered.
pub fn checks(sheet: &mut Sheet<'_>, checks: &[Value]) {
    let mut sources: Vec<String> = Vec::new();
    let leaves = leaves_of(checks.iter().filter_map(|check| check.get("name")?.as_str()));
    let cells: Vec<Vec<Cell>> = checks
        .iter()
        .map(|check| {
            let unit = text(check, "unit");
            let share = number(check, "utilisation");
            let source = check.get("source").map_or_else(String::new, |source| {
                let words = format!(
                    "{}, {}; {}",
                    text(source, "document"),
                    text(source, "locator"),
                    text(source, "seen")
                );
                let known = sources.iter().position(|other| *other == words).unwrap_or_else(|| {
                    sources.push(words);
                    sources.len() - 1
                });
                format!("[{}]", known + 1)
            });
            vec![
                Cell::new(sentence(&check_words_for(leaves, &text(check, "name")))),
                Cell::new(at_words(&text(check, "at"))),
                Cell::new(figure(check, "demand", 2, &unit)),
                Cell::new(figure(check, "resistance", 2, &unit)),
                Cell::new(used(share)).with_bar(share),
                Cell::new(source),
            ]
        })
        .collect();
    let columns = [
        Column("What", 0.34, false),
        Column("where", 0.16, false),
        Column("is or carries", 0.15, true),
        Column("limit or good for", 0.15, true),
        Column("used", 0.13, false),
        Column("rule", 0.07, false),
    ];
    sheet.table(&columns, &cells);
    if !sources.is_empty() {
        sheet.paragraph(
            "The steps of each check stand in record.json, in the entry that keeps the proposal. Its sources, and how each was seen:",
            SOFT,
        );
        for (number, source) in sources.iter().enumerate() {
            sheet.indented(&format!("[{}] {source}", number + 1), SOFT, 14.0);
        }
    }
}

/// Each check once, where it is used most.
pub fn worst(checks: &[Value]) -> Vec<Value> {
    let mut out: Vec<Value> = Vec::new();
    let used = |check: &Value| number(check, "utilisation").unwrap_or(f64::INFINITY);
    for check in checks {
        match out.iter_mut().find(|other| other.get("name") == check.get("name")) {
            Some(other) if used(check) > used(other) => *other = check.clone(),
            Some(_) => {}
            None => out.push(check.clone()),
        }
    }
    out
}

/// What decides in an option, its check's name in plain words.
pub fn decides(option: &Value) -> String {
    let governs = &text(option, "governs");
    let checks = option.get("checks").and_then(Value::as_array);
    let names = checks
        .into_iter()
        .flatten()
        .filter_map(|check| check.get("name")?.as_str());
    let words = match governs.split_once(" at ") {
        Some((name, place)) => {
            let name = check_words_for(leaves_of(names), name);
            format!("{name} at {}", at_words(place))
        }
        None => check_words(governs),
    };
    sentence(&words)
}
