//! The coverage page, `tests/coverage.md`: every clause function and every check with its source, how that was seen, and
//! the tests that use it. Made here from the source constants and the tests' own text; stale when it differs.
#![expect(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a test stops at the first file or key that is not there"
)]

mod scan;

use calc::clause::{Annex, registry};
use calc::proposal::{Check, Proposal};
use calc::source::Source;
use calc::tables::masonry::MATERIALS;
use scan::{Tests, check_names, tests};
use serde_json::{Value, json};
use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write;
use std::path::Path;

const REFRESH: &str = "UPDATE_COVERAGE=1 cargo test -p calc --test coverage";

/// A check with each source it was met with.
type Checks = BTreeMap<String, BTreeMap<String, Source>>;

/// The house types as they are and with what else brings out a check: timber, open sections, lime, a plate, a plan.
fn jobs() -> Vec<Value> {
    let mut out = Vec::new();
    for name in calc::example::names() {
        let plain = calc::example::job(name).unwrap();
        let with = |pointer: &str, value: Value| {
            let mut job = plain.clone();
            *job.pointer_mut(pointer).unwrap() = value;
            job
        };
        for section in ["C24 150x150", "UC152x152x23 S275", "SHS100x100x5 S355"] {
            let mut job = plain.clone();
            job["catalogue"] = json!({"sections": [section]});
            out.push(job);
        }
        for mortar in ["cement", "lime"] {
            out.push(with("/wall/leaves/0/mortar", json!(mortar)));
        }
        let mut low = plain.clone();
        low["above"] = json!([]);
        low["roof"]["bearing_m"] = json!(2.45);
        low["points"] = json!([{"x_m": 0.8, "level": 0, "dead_kn": 3}]);
        out.push(low);
        let mut plan = plain.clone();
        plan["builders_plan"] = json!({"kind": "brackets", "needles_x_m": [0.4, 1.2]});
        out.push(plan);
        out.push(plain);
    }
    out
}

fn checks() -> Checks {
    let mut out = Checks::new();
    let mut take = |checks: &[Check]| {
        for check in checks {
            let sources = out.entry(check.name.clone()).or_default();
            sources.insert(check.source.to_string(), check.source);
        }
    };
    for job in jobs() {
        let answer: Proposal = calc::size_value(&job).unwrap_or_else(|problems| panic!("{problems:?}"));
        for option in answer.options.iter().chain(&answer.nearest) {
            take(&option.checks);
        }
        if let Some(plan) = &answer.builders_plan {
            take(&plan.checks);
        }
    }
    out
}

fn cell(text: &str) -> String {
    text.replace('|', "\\|").replace('\n', " ")
}

fn row(out: &mut String, cells: [&str; 5]) {
    let cells = cells.map(cell);
    writeln!(out, "| {} |", cells.join(" | ")).unwrap();
}

fn own_words(tests: &Tests, name: &str) -> Option<String> {
    let files = tests.own.get(name)?;
    let words: Vec<String> = files.iter().map(|(file, count)| format!("{file} ({count})")).collect();
    Some(format!("own: {}", words.join(", ")))
}

fn published_words(topics: &BTreeMap<String, String>) -> String {
    let words: Vec<String> = topics.iter().map(|(topic, seen)| format!("{topic} ({seen})")).collect();
    format!("published: {}", words.join("; "))
}

/// The cell of a name: published topics, then own tests; the flag says whether anything published covers it.
fn tests_cell(tests: &Tests, name: &str, topics: &BTreeMap<String, String>) -> (String, bool) {
    let mut parts = Vec::new();
    if topics.is_empty() {
        parts.push("NOT COVERED by a published value".to_owned());
    } else {
        parts.push(published_words(topics));
    }
    parts.extend(own_words(tests, name));
    (parts.join(". "), !topics.is_empty())
}

/// Published topics of the clause functions that cite the same place.
fn topics_of(tests: &Tests, source: &Source) -> BTreeMap<String, String> {
    registry()
        .filter(|entry| entry.source == *source)
        .filter_map(|entry| tests.published.get(entry.name))
        .flatten()
        .map(|(topic, seen)| (topic.clone(), seen.clone()))
        .collect()
}

const HEAD: &str = "| document | clause | function or check | seen | tests |\n|---|---|---|---|---|\n";

fn page() -> String {
    let checks = checks();
    let mut names: BTreeSet<String> = registry().map(|entry| entry.name.to_owned()).collect();
    names.extend(checks.keys().cloned());
    let tests = tests(&names);
    let mut out = String::from("# Coverage\n\n");
    writeln!(
        out,
        "Made from the source constants and the tests; not written by hand. Refresh with `{REFRESH}`.\n"
    )
    .unwrap();
    out.push_str("*Published* names topics of `tests/published/cases.json` and sources of `tests/published/sources` that call the function, with how many cases and how their values were seen (disputed cases and cases that do not run are left out). *Own* counts this project's own tests that mention the name: laws, properties, hand checks. A test that reaches a function by another name is not counted.\n\n## Clause functions\n\n");
    out.push_str(HEAD);
    let mut entries: Vec<_> = registry().collect();
    entries.sort_by_key(|entry| (entry.source.document, entry.source.locator, entry.name));
    let mut bare = Vec::new();
    let none = BTreeMap::new();
    for entry in entries {
        let (words, covered) = tests_cell(&tests, entry.name, tests.published.get(entry.name).unwrap_or(&none));
        if !covered {
            bare.push(format!("`{}`", entry.name));
        }
        let (name, seen) = (format!("`{}`", entry.name), entry.source.seen.to_string());
        row(
            &mut out,
            [entry.source.document, entry.source.locator, &name, &seen, &words],
        );
    }
    writeln!(out, "\nNOT COVERED by a published value: {}.\n", bare.join(", ")).unwrap();
    out.push_str("## Checks\n\nA check is covered by what covers a clause function that cites the same place.\n\n");
    out.push_str(HEAD);
    let mut rows = Vec::new();
    for (name, sources) in &checks {
        for source in sources.values() {
            let (words, covered) = tests_cell(&tests, name, &topics_of(&tests, source));
            rows.push((
                source.document,
                source.locator,
                name,
                source.seen.to_string(),
                words,
                covered,
            ));
        }
    }
    rows.sort();
    for (document, locator, name, seen, words, _) in &rows {
        row(&mut out, [document, locator, &format!("`{name}`"), seen, words]);
    }
    let bare: BTreeSet<String> = checks
        .keys()
        .filter(|name| !rows.iter().any(|row| row.2 == *name && row.5))
        .map(|name| format!("`{name}`"))
        .collect();
    let words: Vec<String> = bare.into_iter().collect();
    writeln!(out, "\nNOT COVERED by a published value: {}.\n", words.join(", ")).unwrap();
    let unmet: Vec<String> = check_names()
        .into_iter()
        .filter(|name| !checks.contains_key(name))
        .map(|name| format!("`{name}`"))
        .collect();
    if !unmet.is_empty() {
        writeln!(
            out,
            "Written in the source but met by none of the jobs tried here: {}.\n",
            unmet.join(", ")
        )
        .unwrap();
    }
    constants(&mut out);
    out
}

/// Values with a source of their own: nationally determined ones and the masonry table.
fn constants(out: &mut String) {
    out.push_str("## Values\n\n| document | clause | value | seen |\n|---|---|---|---|\n");
    let mut rows = Vec::new();
    for (annex, word) in [(Annex::Uk, "uk"), (Annex::Recommended, "recommended")] {
        sourced(word, &serde_json::to_value(annex.parameters()).unwrap(), &mut rows);
    }
    for material in MATERIALS {
        for (what, value) in [
            ("density_kn_m3", material.density_kn_m3),
            ("unit_n_mm2", material.unit_n_mm2),
        ] {
            let value = serde_json::to_value(value).unwrap();
            sourced(&format!("{}.{what}", material.name), &value, &mut rows);
        }
    }
    rows.sort();
    for row in rows {
        writeln!(out, "| {} |", row.map(|text| cell(&text)).join(" | ")).unwrap();
    }
}

fn sourced(name: &str, value: &Value, rows: &mut Vec<[String; 4]>) {
    let text = |key: &str| value["source"][key].as_str().unwrap().to_owned();
    match (value.get("value").and_then(Value::as_f64), value.get("source")) {
        (Some(number), Some(_)) => rows.push([
            text("document"),
            text("locator"),
            format!("`{name}` = {number}"),
            text("seen"),
        ]),
        _ => {
            for (key, below) in value.as_object().into_iter().flatten() {
                sourced(&format!("{name}.{key}"), below, rows);
            }
        }
    }
}

#[test]
fn the_page_is_what_the_sources_say() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../tests/coverage.md");
    let made = page();
    if std::env::var_os("UPDATE_COVERAGE").is_some() {
        std::fs::write(&path, &made).unwrap();
        return;
    }
    let kept = std::fs::read_to_string(&path).unwrap_or_default();
    let differing = made.lines().zip(kept.lines()).find(|(made, kept)| made != kept);
    assert!(
        made == kept,
        "tests/coverage.md is stale: refresh it with `{REFRESH}`\nfirst difference, made and kept: {differing:?}"
    );
}

#[test]
fn the_scan_finds_what_is_known_to_be_there() {
    let names = ["f_k", "m_b_rd", "h_min", "needle_ltb"].map(str::to_owned).into();
    let tests = tests(&names);
    assert!(tests.published["f_k"].contains_key("fk = K fb^0.7 fm^0.3"));
    assert!(tests.published["m_b_rd"].contains_key("LTB needle C1=1 S275"));
    assert!(tests.published["timber_column"].contains_key("porteous_kermani"));
    // An argument of this name is no call of the function.
    assert!(!tests.published["timber_column"].contains_key("fk = K fb^0.7 fm^0.3"));
    let written = check_names();
    for name in [
        "needle_bending",
        "plate_point",
        "timber_shear",
        "ground",
        "sideways_across",
    ] {
        assert!(written.contains(name), "{name}");
    }
    assert!(registry().all(|entry| !entry.source.document.is_empty()));
}
