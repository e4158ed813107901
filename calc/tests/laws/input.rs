//! What comes in: any number, word or gap anywhere is answered or refused, never a panic, and what goes out has its shape.

use crate::common::jobs::{Kind, jobs};
use crate::common::shape::misfits;
use crate::common::{paths, size};
use proptest::prelude::*;
use serde_json::{Value, json};

/// Values that nobody means, for any place of a job.
fn garbage() -> impl Strategy<Value = Value> {
    prop_oneof![
        Just(Value::Null),
        any::<bool>().prop_map(|flag| json!(flag)),
        prop_oneof![
            Just(0.0),
            Just(-1.0),
            Just(1e308),
            Just(-1e308),
            Just(5e-324),
            Just(102_000.0),
            -10.0..10.0_f64
        ]
        .prop_map(|n| json!(n)),
        any::<i64>().prop_map(|n| json!(n)),
        prop_oneof![
            Just(""),
            Just("NaN"),
            Just("inner"),
            Just("\u{0}\u{202e}x"),
            Just("SHS1x1x1 S355"),
            Just("C24 0x0"),
            Just("A0"),
            Just("B1e9")
        ]
        .prop_map(|text| json!(text)),
        Just(json!([])),
        Just(json!([null, {}, []])),
        Just(json!({})),
        Just(json!({"x_m": 1})),
        prop::collection::vec(-5.0..5.0_f64, 0..60).prop_map(|list| json!(list)),
    ]
}

fn said_well(problems: &[calc::Problem]) -> Result<(), TestCaseError> {
    prop_assert!(!problems.is_empty());
    for problem in problems {
        prop_assert!(problem.path.is_empty() || problem.path.starts_with('/'), "{problem:?}");
        prop_assert!(!problem.wrong.is_empty() && !problem.right.is_empty(), "{problem:?}");
    }
    Ok(())
}

fn answered_or_refused(job: &Value) -> Result<(), TestCaseError> {
    match calc::size_value(job) {
        Ok(answer) => {
            let mut out = Vec::new();
            misfits(
                &calc::schema("proposal").unwrap(),
                &serde_json::to_value(answer).unwrap(),
                "",
                &mut out,
            );
            prop_assert!(out.is_empty(), "{out:?}");
        }
        Err(problems) => said_well(&problems)?,
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 40, ..ProptestConfig::default() })]

    #[test]
    fn every_answer_has_its_shape_and_no_number_that_is_none(job in jobs(Kind::Any)) {
        let mut out = Vec::new();
        misfits(&calc::schema("proposal").unwrap(), &size(&job)?, "", &mut out);
        prop_assert!(out.is_empty(), "{out:?}");
    }

    #[test]
    fn garbage_anywhere_is_answered_or_refused(job in jobs(Kind::Any), put in prop::collection::vec((0..10_000_usize, garbage()), 1..4)) {
        let mut job = job;
        for (index, value) in put {
            let places = paths(&job, |_| true);
            *job.pointer_mut(&places[index % places.len()]).unwrap() = value;
        }
        answered_or_refused(&job)?;
    }

    #[test]
    fn an_extreme_number_anywhere_is_answered_or_refused(job in jobs(Kind::Any), value in prop_oneof![Just(0.0), Just(-1.0), Just(1e308), Just(102_000.0), -10.0..10.0_f64], index in 0..1000_usize) {
        let mut job = job;
        let places = paths(&job, Value::is_number);
        *job.pointer_mut(&places[index % places.len()]).unwrap() = json!(value);
        answered_or_refused(&job)?;
    }

    #[test]
    fn a_key_gone_anywhere_is_answered_or_refused(job in jobs(Kind::Any), index in 0..1000_usize) {
        let mut job = job;
        let places = paths(&job, |_| true);
        let keyed: Vec<&String> = places.iter().filter(|path| path.rsplit('/').next().is_some_and(|key| key.parse::<usize>().is_err() && !key.is_empty())).collect();
        let (parent, key) = keyed[index % keyed.len()].rsplit_once('/').unwrap();
        job.pointer_mut(parent).unwrap().as_object_mut().unwrap().shift_remove(key);
        answered_or_refused(&job)?;
    }

    /// Every wrong key of a job is told at once, each by its own path.
    #[test]
    fn all_wrong_numbers_and_words_are_told_at_once(job in jobs(Kind::Any), picks in prop::collection::vec(0..1000_usize, 1..6)) {
        let mut job = job;
        let (numbers, words) = (paths(&job, Value::is_number), paths(&job, Value::is_string));
        let mut spoiled = Vec::new();
        for (i, pick) in picks.iter().enumerate() {
            let places = if i % 2 == 0 { &numbers } else { &words };
            let path = &places[pick % places.len()];
            // Far outside every range; a list where a word belongs.
            *job.pointer_mut(path).unwrap() = if i % 2 == 0 { json!(-1e12) } else { json!([1, 2]) };
            spoiled.push(path.clone());
        }
        let problems = calc::size_value(&job).unwrap_err();
        said_well(&problems)?;
        for path in spoiled {
            prop_assert!(problems.iter().any(|problem| problem.path == path), "{path} is not in {problems:?}");
        }
    }

    #[test]
    fn garbage_in_a_round_is_answered_or_refused(put in prop::collection::vec((0..10_000_usize, garbage()), 1..3)) {
        let mut round = round();
        for (index, value) in put {
            let places = paths(&round, |_| true);
            *round.pointer_mut(&places[index % places.len()]).unwrap() = value;
        }
        round_answered_or_refused(&round)?;
    }
}

/// A round of every prop of a ready house.
fn round() -> Value {
    let job = calc::example::job("garage_with_room_over").unwrap();
    let answer = calc::size_value(&job).unwrap();
    let option = serde_json::to_value(&answer.options[0]).unwrap();
    let readings: Vec<Value> = answer.options[0].props.iter().map(|prop| json!({"prop": prop.name, "pin": "right", "collar_turns": 0.5, "thread_mm": 6,
        "lean_mm": [1, 2], "over_m": 1.0, "head_off_mm": 5, "foot_off_mm": 0, "foot_firm": true, "straight": true, "fixed": true, "packed": true})).collect();
    json!({"contract": 1, "job": job, "option": {"props": option["props"], "bracing": option["bracing"]}, "earlier": [readings], "at": "2026-03-02T07:40:00Z",
        "readings": readings, "gauges": [{"name": "crack", "mm": 0.2, "first_mm": 0.1, "last_mm": null}],
        "job_checks": {"braces": true, "doors_stick": false, "load_on_floors": false, "digging": false, "wind_m_s": 3.0}})
}

fn round_answered_or_refused(round: &Value) -> Result<(), TestCaseError> {
    match calc::round_value(round) {
        Ok(found) => {
            let mut out = Vec::new();
            misfits(
                &calc::schema("evaluation").unwrap(),
                &serde_json::to_value(found).unwrap(),
                "",
                &mut out,
            );
            prop_assert!(out.is_empty(), "{out:?}");
        }
        Err(problems) => said_well(&problems)?,
    }
    Ok(())
}

/// The least and the largest numbers that there are, at each place of a round: what is used is a number all the same.
#[test]
fn the_least_and_the_largest_number_anywhere_in_a_round_are_answered_or_refused() {
    let whole = round();
    for path in paths(&whole, Value::is_number) {
        for value in [
            f64::from_bits(1),
            f64::MIN_POSITIVE,
            f64::MAX,
            -f64::from_bits(1),
            f64::MIN,
        ] {
            let mut round = whole.clone();
            *round.pointer_mut(&path).unwrap() = json!(value);
            round_answered_or_refused(&round).unwrap_or_else(|why| panic!("{path} = {value:e}: {why}"));
        }
    }
}

#[test]
fn an_unknown_key_names_itself_and_its_neighbour() {
    let mut job = calc::example::job("bungalow").unwrap();
    job["opening"]["widht_m"] = json!(3.0);
    let problems = calc::size_value(&job).unwrap_err();
    assert!(
        problems
            .iter()
            .any(|p| p.path == "/opening/widht_m" && p.right.contains("width_m")),
        "{problems:?}"
    );
}

#[test]
fn all_problems_come_at_once_and_a_slip_of_units_is_guessed() {
    let mut job = calc::example::job("two_storey_cavity").unwrap();
    job["wall"]["leaves"][0]["thickness_mm"] = json!(102_500.0);
    job["opening"]["width_m"] = json!("wide");
    job["answers"]["bay"] = json!("perhaps");
    let problems = calc::size_value(&job).unwrap_err();
    for path in ["/wall/leaves/0/thickness_mm", "/opening/width_m", "/answers/bay"] {
        assert!(problems.iter().any(|p| p.path == path), "{path} in {problems:?}");
    }
    assert!(
        problems.iter().any(|p| p.right.contains("perhaps 102.5 mm")),
        "{problems:?}"
    );
}

#[test]
fn every_refusal_reason_of_the_questions_refuses_when_yes_unknown_or_missing() {
    for key in ["cellar", "chimney", "bay", "veneer", "removed", "digging", "cracked"] {
        for answer in [json!("yes"), json!("unknown"), Value::Null] {
            let mut job = calc::example::job("two_storey_cavity").unwrap();
            job["answers"][key] = answer.clone();
            let proposal = calc::size_value(&job).unwrap();
            assert_eq!(
                serde_json::to_value(proposal.standing).unwrap(),
                "needs_own_design",
                "{key} {answer}"
            );
            assert!(
                proposal.options.is_empty() && proposal.reasons.iter().any(|r| r.code.starts_with(key)),
                "{key} {answer}"
            );
        }
    }
}
