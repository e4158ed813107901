//! What the tests' own text says of what they use.

use serde_json::Value;
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

/// Topics of published cases by the clause function that computes them, and own tests by the name they mention.
pub struct Tests {
    /// Function → topic → how its expected values were seen, with how often; nothing for a topic that is not run.
    pub published: BTreeMap<String, BTreeMap<String, String>>,
    /// Name → file → how many tests in it mention the name.
    pub own: BTreeMap<String, BTreeMap<String, usize>>,
}

/// Folder of the repository.
fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("..")
}

fn read(path: &str) -> String {
    let path = root().join(path);
    std::fs::read_to_string(&path).unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}

fn files(folder: &Path, out: &mut Vec<PathBuf>) {
    let mut entries: Vec<PathBuf> = std::fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .collect();
    entries.sort();
    for path in entries {
        if path.is_dir() {
            files(&path, out);
        } else if path.extension().is_some_and(|end| end == "rs") {
            out.push(path);
        }
    }
}

/// Functions of a source text: name → body, cut where the next begins in the first column.
fn functions(text: &str) -> BTreeMap<String, String> {
    let mut out = BTreeMap::new();
    let mut name = String::new();
    for line in text.lines() {
        let head = line.strip_prefix("pub ").unwrap_or(line);
        if let Some(after) = head.strip_prefix("fn ") {
            name = after.split(['(', '<']).next().unwrap_or_default().to_owned();
        }
        let body: &mut String = out.entry(name.clone()).or_default();
        body.push_str(line);
        body.push('\n');
    }
    out
}

/// Arms of a match over topics: the arm's topics and its text. The formatter keeps an arm's pattern at eight spaces.
fn arms(compute: &str) -> Vec<(Vec<String>, String)> {
    let mut out: Vec<(Vec<String>, String)> = Vec::new();
    let mut pattern = true;
    for line in compute.lines() {
        let arm = line
            .strip_prefix("        ")
            .filter(|rest| rest.starts_with(['"', '|', '_']));
        if let Some(rest) = arm {
            if !pattern || out.is_empty() {
                out.push((Vec::new(), String::new()));
            }
            let before = rest.split("=>").next().unwrap_or_default();
            if let Some((topics, _)) = out.last_mut() {
                topics.extend(before.split('"').skip(1).step_by(2).map(str::to_owned));
            }
            pattern = !rest.contains("=>");
        }
        if let Some((_, text)) = out.last_mut() {
            text.push_str(line);
            text.push('\n');
        }
    }
    out
}

/// Names of clause functions called by name in a text, and in the helpers it calls.
fn called(text: &str, helpers: &BTreeMap<String, String>, seen: &mut BTreeSet<String>) -> BTreeSet<String> {
    let mut out = BTreeSet::new();
    for door in ["values(", "number(", "refuses("] {
        for after in text.split(door).skip(1) {
            if let Some(name) = after
                .trim_start()
                .strip_prefix('"')
                .and_then(|rest| rest.split('"').next())
            {
                out.insert(name.to_owned());
            }
        }
    }
    for (name, body) in helpers {
        if name != "compute" && !name.is_empty() && mentions(text, name, "(") && seen.insert(name.clone()) {
            out.extend(called(body, helpers, seen));
        }
    }
    out
}

/// Whether a text has `name` followed by `after` and not within a longer word.
fn mentions(text: &str, name: &str, after: &str) -> bool {
    let word = |sign: char| sign.is_alphanumeric() || sign == '_';
    text.match_indices(&format!("{name}{after}"))
        .any(|(at, _)| !text.get(..at).is_some_and(|before| before.ends_with(word)))
}

/// Reads all tests; `names` are the clause functions and checks looked for in the project's own tests.
pub fn tests(names: &BTreeSet<String>) -> Tests {
    let cases: Vec<Value> = serde_json::from_str(&read("tests/published/cases.json")).unwrap();
    let disputed: Vec<Value> = serde_json::from_str(&read("tests/published/disputed.json")).unwrap();
    let is_disputed = |case: &Value| disputed.iter().any(|one| one["id"] == case["id"]);
    let seen_of = |topic: &str| -> String {
        let mut counts: BTreeMap<&str, usize> = BTreeMap::new();
        for case in cases.iter().filter(|case| case["topic"] == topic && !is_disputed(case)) {
            *counts.entry(case["seen"].as_str().unwrap()).or_default() += 1;
        }
        let words: Vec<String> = counts.iter().map(|(seen, count)| format!("{count} {seen}")).collect();
        words.join(", ")
    };
    let mut published: BTreeMap<String, BTreeMap<String, String>> = BTreeMap::new();
    let mut met = BTreeSet::new();
    for file in ["loads", "props", "strength"] {
        let helpers = functions(&read(&format!("tests/published/{file}.rs")));
        for (topics, text) in arms(&helpers["compute"]) {
            let functions = called(&text, &helpers, &mut BTreeSet::new());
            for topic in topics {
                let seen = seen_of(&topic);
                met.insert(topic.clone());
                if seen.is_empty() || text.contains("NotRun") {
                    continue;
                }
                for function in &functions {
                    published
                        .entry(function.clone())
                        .or_default()
                        .insert(topic.clone(), seen.clone());
                }
            }
        }
    }
    for case in &cases {
        let topic = case["topic"].as_str().unwrap();
        assert!(
            met.contains(topic),
            "no arm computes the topic {topic}: the scan has lost it"
        );
    }
    further(&mut published);
    Tests {
        published,
        own: own(names),
    }
}

/// Rows of `tests/published/sources`, one file for each source: groups of rows that call one function.
fn further(published: &mut BTreeMap<String, BTreeMap<String, String>>) {
    let mut paths = Vec::new();
    files(&root().join("tests/published/sources"), &mut paths);
    for path in paths {
        let text = std::fs::read_to_string(&path).unwrap();
        let after = |text: &str, key: &str| text.split_once(key)?.1.split('"').next().map(str::to_owned);
        let Some(source) = after(&text, "name: \"").filter(|_| text.contains("Group {")) else {
            continue;
        };
        let seen = if text.contains("Seen::Library") {
            "library"
        } else {
            "text"
        };
        for group in text.split("Group {").skip(1) {
            let function = after(group, "function: \"").unwrap();
            let rows = group.matches("Within::").count() - group.matches("Within::NotRun").count();
            if rows > 0 {
                let topics = published.entry(function).or_default();
                let before = topics
                    .get(&source)
                    .and_then(|words| words.split(' ').next()?.parse::<usize>().ok());
                topics.insert(source.clone(), format!("{} {seen}", rows + before.unwrap_or_default()));
            }
        }
    }
}

fn own(names: &BTreeSet<String>) -> BTreeMap<String, BTreeMap<String, usize>> {
    let mut out: BTreeMap<String, BTreeMap<String, usize>> = BTreeMap::new();
    let mut paths = Vec::new();
    for folder in ["calc/src", "calc/tests"] {
        files(&root().join(folder), &mut paths);
    }
    for path in paths
        .iter()
        .filter(|path| !path.components().any(|part| part.as_os_str() == "coverage"))
    {
        let text = std::fs::read_to_string(path).unwrap();
        let shown = path
            .strip_prefix(root().join("calc"))
            .unwrap()
            .display()
            .to_string()
            .replace('\\', "/");
        for test in text.split("#[test]").skip(1) {
            for name in names {
                if mentions(test, name, "(") || mentions(test, &format!("\"{name}\""), "") {
                    *out.entry(name.clone()).or_default().entry(shown.clone()).or_default() += 1;
                }
            }
        }
    }
    out
}

/// Names of checks written in the source of the checks.
pub fn check_names() -> BTreeSet<String> {
    let mut paths = Vec::new();
    files(&root().join("calc/src"), &mut paths);
    let mut out = BTreeSet::new();
    for path in paths {
        let text = std::fs::read_to_string(&path).unwrap();
        for after in text.split("Finding {").skip(1) {
            let name = after
                .split_once("name: \"")
                .filter(|(before, _)| before.trim().is_empty());
            if let Some(name) = name.and_then(|(_, rest)| rest.split('"').next()) {
                out.insert(name.to_owned());
            }
        }
    }
    out
}
