//! Nothing that a person sees is a raw key: every check, and every key that can be named as taken or missing, has words in
//! `ui/words/en/fields.js`, and every country has a name.
#![expect(clippy::unwrap_used, reason = "a test may stop at the first thing that is not there")]

use super::kind_at;
use calc::job::job_schema;
use calc::job::schema::{Field, Kind, Missing};
use calc::order::country::Country;
use serde_json::{Value, json};
use std::collections::BTreeSet;

const FIELDS: &str = include_str!("../../../ui/words/en/fields.js");
const WORDS: &str = include_str!("../../../ui/words/en/order.js");

/// Keys that no screen asks for; a job that has them came from elsewhere.
const NEVER_ASKED: [&str; 3] = ["/contract", "/fix", "/catalogue/rates"];

/// The part of a source from a mark to the end of what it opens.
fn block<'a>(text: &'a str, mark: &str) -> &'a str {
    let (_, rest) = text.split_once(mark).unwrap_or_else(|| panic!("{mark} is gone"));
    rest.split_once("\n  })").map_or(rest, |(inside, _)| inside)
}

fn has_label(path: &str) -> bool {
    let line = format!("  '{path}': {{ label: '");
    block(FIELDS, "  texts: Object.freeze({").contains(&line)
}

fn has_check(name: &str) -> bool {
    let checks = block(FIELDS, "  checks: Object.freeze({");
    checks.split([' ', '\n', ',']).any(|word| word == format!("{name}:"))
}

/// A path with `#` for each row's number, as the labels are written.
fn pattern(path: &str) -> String {
    let parts = path
        .split('/')
        .map(|part| if part.parse::<usize>().is_ok() { "#" } else { part });
    let joined = parts.collect::<Vec<_>>().join("/");
    joined
        .replace("/sides/inside", "/sides/#")
        .replace("/sides/outside", "/sides/#")
}

/// Paths of all keys that `calc` may name by itself: those it takes something for, and those it must have.
fn named_keys(at: &str, kind: Kind, out: &mut BTreeSet<String>) {
    let mut all = |fields: &'static [Field]| {
        for field in fields {
            let here = format!("{at}/{}", field.key);
            if NEVER_ASKED.iter().any(|never| here.starts_with(never)) || here.contains("/prop/") {
                continue;
            }
            // An object that is taken as empty brings its own keys, and no line for itself.
            let own = matches!(field.missing, Missing::Taken(text, ..) if text != "{}");
            if own || matches!(field.missing, Missing::Required) {
                out.insert(pattern(&here));
            }
            named_keys(&here, field.kind, out);
        }
    };
    match kind {
        Kind::Object(fields) | Kind::TextOr(fields) => all(fields),
        Kind::List(each, _) => named_keys(&format!("{at}/0"), *each, out),
        _ => {}
    }
}

#[test]
fn every_key_that_is_taken_or_missed_has_words() {
    let mut keys = BTreeSet::new();
    named_keys("", Kind::Object(job_schema()), &mut keys);
    assert!(keys.len() > 60, "{}", keys.len());
    // A sheet's basis and tubes come from files only; a round has no fields of the job.
    let without: Vec<&String> = keys
        .iter()
        .filter(|key| !key.starts_with("/props/#/basis") && !key.starts_with("/props/#/tubes") && !has_label(key))
        .collect();
    assert!(without.is_empty(), "no words for {without:#?}");
}

#[test]
fn every_label_names_a_key_of_the_schema() {
    let texts = block(FIELDS, "  texts: Object.freeze({");
    let paths = texts
        .lines()
        .filter_map(|line| line.trim().strip_prefix('\'')?.split_once("': {"));
    let mut seen = 0;
    for (path, _) in paths {
        let real = path.replace("/sides/#", "/sides/inside").replace('#', "0");
        assert!(kind_at(&real).is_some(), "{path} is no key of a job");
        seen += 1;
    }
    assert!(seen > 100, "{seen}");
}

#[test]
fn every_country_and_group_has_a_name() {
    let countries = FIELDS
        .lines()
        .find(|line| line.trim().starts_with("country: ["))
        .unwrap();
    for country in Country::all() {
        assert!(
            countries.contains(&format!("['{}', '", country.name())),
            "{}",
            country.name()
        );
    }
    for job in jobs() {
        for step in calc::size_value(&job).unwrap().order {
            assert!(WORDS.contains(&format!("{}: '", step.group)), "{}", step.group);
        }
    }
}

/// Jobs that bring every kind of check: all ready houses, floors on lines of their own, brackets, timber, plans.
fn jobs() -> Vec<Value> {
    let mut out = Vec::new();
    for name in calc::example::names() {
        let plain = calc::example::job(name).unwrap();
        let with = |edits: Value| {
            let mut job = plain.clone();
            for (path, value) in edits.as_object().unwrap() {
                let (parent, key) = path.rsplit_once('/').unwrap();
                if let Some(map) = job.pointer_mut(parent).and_then(Value::as_object_mut) {
                    map.insert(key.to_owned(), value.clone());
                }
            }
            job
        };
        let plan = |plan: Value| with(json!({ "/builders_plan": plan }));
        out.extend([
            plain.clone(),
            with(json!({"/opening/flush": true})),
            with(json!({"/opening/flush": true, "/catalogue": {"sections": ["C24 100x100", "C24 150x150"]}})),
            with(json!({"/above/0/floor/held_apart": true})),
            with(json!({"/above/0/floor/direction": "along"})),
            with(json!({"/above": [], "/roof/bears": false, "/opening/width_m": 1.0, "/answers/restraint": "designed",
                "/catalogue": {"bracket": {"rated_kn": 15}}})),
            with(json!({"/fix": {"section": "C24 150x150"}})),
            with(json!({"/engineer": {"name": "E. Neer", "date": "2026-03-01", "section": "UC152x152x23", "spacing_m": 0.6, "load_kn_m": 20}})),
            plan(json!({"kind": "props", "count": 3})),
            plan(json!({"kind": "brackets", "count": 4, "rated_kn": 3, "arm_mm": 200})),
            plan(json!({"kind": "needles", "count": 3, "section": "C24 100x100"})),
            plan(json!({"kind": "needles", "count": 3, "section": "UC152x152x23", "feet": "no boards"})),
            plan(json!({"kind": "needles", "count": 3, "section": "SHS100x100x5", "runner": {"section": "UC152x152x23", "spacing_m": 1.5}})),
            plan(json!({"kind": "needles", "count": 3, "section": "SHS100x100x5", "runner": {"section": "C24 150x150", "spacing_m": 1.0}})),
        ]);
    }
    out
}

/// Sentences of the core that the screens put through `inWords`, and those that go straight onto a page.
#[test]
fn no_sentence_shows_a_raw_key() {
    let raw = |line: &str| -> Option<String> {
        line.split(|sign: char| !(sign.is_ascii_alphanumeric() || sign == '_'))
            .find(|word| word.contains('_') && !word.starts_with('_'))
            .map(str::to_owned)
    };
    let mut lines = 0;
    for job in jobs() {
        let Ok(proposal) = calc::size_value(&job) else { continue };
        let translated = proposal
            .builders_plan
            .iter()
            .flat_map(|plan| plan.filled.iter().chain([&plan.words]));
        for line in translated.chain(proposal.engineer.iter().flat_map(|answer| &answer.compared)) {
            assert!(raw(line).is_none_or(|name| has_check(&name)), "{line}");
            lines += 1;
        }
        let options = proposal.options.iter().chain(&proposal.nearest);
        let reasons = proposal
            .reasons
            .iter()
            .chain(&proposal.brackets.reasons)
            .map(|reason| &reason.words);
        let of_options = options.flat_map(|option| {
            let lost = option.one_lost.iter().map(|one| &one.words);
            let floors = option
                .floor_lines
                .iter()
                .flat_map(|line| line.way.iter().chain([&line.why]));
            lost.chain(floors)
                .chain(&option.bracing.way)
                .chain(option.parts.iter().map(|part| &part.what))
        });
        let order = proposal.order.iter().map(|step| &step.words);
        let taken = proposal.assumptions.iter().map(|taken| &taken.words);
        for line in reasons
            .chain(of_options)
            .chain(order)
            .chain(taken)
            .chain(&proposal.basis)
            .chain(&proposal.cautions)
        {
            assert_eq!(raw(line), None, "{line}");
            lines += 1;
        }
    }
    assert!(lines > 1000, "{lines}");
}

#[test]
fn every_check_that_is_shown_has_words() {
    let mut names = BTreeSet::new();
    let mut paths = BTreeSet::new();
    for job in jobs() {
        let Ok(proposal) = calc::size_value(&job) else { continue };
        let engineers = proposal.engineer.iter().filter_map(|answer| answer.option.as_ref());
        for option in proposal.options.iter().chain(&proposal.nearest).chain(engineers) {
            names.extend(option.checks.iter().map(|check| check.name.clone()));
            names.extend(
                option
                    .floor_lines
                    .iter()
                    .flat_map(|line| &line.checks)
                    .map(|check| check.name.clone()),
            );
            names.extend(option.governs.split(" at ").next().map(str::to_owned));
        }
        names.extend(
            proposal
                .builders_plan
                .iter()
                .flat_map(|plan| &plan.checks)
                .map(|check| check.name.clone()),
        );
        paths.extend(proposal.assumptions.iter().map(|taken| pattern(&taken.path)));
    }
    for family in [
        "header_",
        "joist_",
        "line_sideways",
        "runner_",
        "bracket_",
        "timber_",
        "needle_",
    ] {
        assert!(
            names.iter().any(|name| name.starts_with(family)),
            "no {family} among {names:?}"
        );
    }
    let raw: Vec<&String> = names
        .iter()
        .filter(|name| !name.is_empty() && !has_check(name))
        .collect();
    assert!(raw.is_empty(), "no words for the checks {raw:?}");
    let raw: Vec<&String> = paths.iter().filter(|path| !has_label(path)).collect();
    assert!(raw.is_empty(), "no words for {raw:?}");
}
