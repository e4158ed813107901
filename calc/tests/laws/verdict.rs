//! A verdict is the same however it is asked for, and nothing that fails a check is ever an option.

use crate::common::jobs::{Kind, jobs};
use crate::common::{near, options, size, used};
use proptest::prelude::*;
use proptest::strategy::ValueTree;
use serde_json::{Value, json};

/// What an option holds still: everything that `fix` can name.
fn arrangement(job: &Value, option: &Value) -> Value {
    let needle = &option["needles"][0];
    let axes: Vec<&Value> = option["needles"]
        .as_array()
        .unwrap()
        .iter()
        .map(|needle| &needle["x_m"])
        .collect();
    let mut out = json!({"needles_x_m": axes, "section": needle["section"], "pack_mm": needle["pack_mm"],
        "inside_y_mm": needle["inside_y_mm"], "outside_y_mm": needle["outside_y_mm"]});
    // One prop for both sides can be named where both have the same.
    let props = option["props"].as_array().unwrap();
    if props.iter().all(|prop| prop["size"] == props[0]["size"]) && job["props"] == json!([]) {
        out["prop"] =
            json!({"name": "same", "data": "tn79", "size": props[0]["size"].as_str().unwrap().parse::<u32>().unwrap()});
    }
    out
}

/// The laws below say nothing of jobs without an option: most ordinary ones must have some, and each standing must occur.
#[test]
fn random_jobs_have_answers_worth_asking_about() {
    let mut runner = proptest::test_runner::TestRunner::deterministic();
    let mut seen = std::collections::BTreeMap::<String, u32>::new();
    for kind in [Kind::Ordinary, Kind::Any] {
        for _ in 0..60 {
            let job = jobs(kind).new_tree(&mut runner).unwrap().current();
            let answer = size(&job).unwrap();
            let of = if options(&answer).is_empty() {
                "no option"
            } else {
                "options"
            };
            for key in [
                format!("{kind:?} {of}"),
                format!("{kind:?} {}", answer["standing"].as_str().unwrap()),
            ] {
                *seen.entry(key).or_default() += 1;
            }
        }
    }
    let count = |key: &str| seen.get(key).copied().unwrap_or_default();
    assert!(count("Ordinary options") >= 24, "{seen:?}");
    for standing in ["holds", "close", "does_not_hold", "needs_own_design"] {
        assert!(
            count(&format!("Ordinary {standing}")) > 0 || standing == "holds",
            "{seen:?}"
        );
        assert!(
            count(&format!("Any {standing}")) + count(&format!("Ordinary {standing}")) > 0,
            "{seen:?}"
        );
    }
    println!("{seen:?}");
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 16, ..ProptestConfig::default() })]

    #[test]
    fn every_option_passes_its_checks(job in jobs(Kind::Any)) {
        let answer = size(&job)?;
        let refused = answer["refusal"] == "no_model";
        prop_assert!(!refused || (options(&answer).is_empty() && answer["nearest"].is_null() && answer["brackets"]["allowed"] == false));
        prop_assert!(answer["nearest"].is_null() || options(&answer).is_empty());
        for option in options(&answer) {
            for check in option["checks"].as_array().unwrap() {
                let (demand, resistance) = (check["demand"].as_f64().unwrap(), check["resistance"].as_f64().unwrap());
                prop_assert!(check["utilisation"].as_f64().unwrap() <= 1.0 + 1e-9, "{check}");
                prop_assert!(demand <= resistance * (1.0 + 1e-9), "{check}");
            }
            for prop in option["props"].as_array().unwrap() {
                prop_assert!(prop["load_kn"].as_f64() <= prop["working_load_kn"].as_f64().map(|can| can * (1.0 + 1e-9)), "{prop}");
            }
            prop_assert!(used(option) <= 1.0 + 1e-9);
            // The search does not see the braces: they must never be what makes an option close.
            let braces = &option["bracing"];
            for way in ["along", "across"] {
                let figure = |what: &str| braces[format!("{what}_{way}_kn")].as_f64().unwrap();
                prop_assert!(figure("demand") <= 0.9 * figure("resistance") + 1e-9, "{braces}");
            }
            prop_assert!(option["standing"] == "holds" || option["standing"] == "close", "{}", option["standing"]);
            prop_assert!(used(option) <= 0.9 || option["standing"] == "close");
        }
        if let Some(nearest) = Some(&answer["nearest"]).filter(|nearest| nearest.is_object()) {
            prop_assert_eq!(&nearest["standing"], "does_not_hold");
        }
    }

    #[test]
    fn fed_back_through_fix_an_option_gets_the_same_verdict(job in jobs(Kind::Ordinary)) {
        let mut job = job;
        job["builders_plan"] = Value::Null;
        // An engineer's own figures are held apart and would come first.
        job["engineer"] = Value::Null;
        let first = size(&job)?;
        for option in options(&first).iter().filter(|option| option["kind"] == "needles") {
            job["fix"] = arrangement(&job, option);
            let again = size(&job)?;
            let same = options(&again).iter().find(|other| other["aim"] == option["aim"]);
            prop_assert!(same.is_some(), "{}: {}", option["aim"], again["reasons"]);
            let same = same.unwrap();
            prop_assert!(near(used(same), used(option)), "{}: {} after {}", option["aim"], used(same), used(option));
            prop_assert_eq!(&same["standing"], &option["standing"]);
            prop_assert_eq!(&same["governs"], &option["governs"]);
        }
    }

    #[test]
    fn fed_back_as_a_plan_an_option_gets_the_same_verdict(job in jobs(Kind::Ordinary)) {
        let mut job = job;
        job["builders_plan"] = Value::Null;
        // An engineer's own figures are held apart and would come first.
        job["engineer"] = Value::Null;
        let first = size(&job)?;
        for option in options(&first).iter().filter(|option| option["kind"] == "needles") {
            let mut plan = arrangement(&job, option);
            plan["kind"] = json!("needles");
            job["builders_plan"] = plan;
            let answer = size(&job)?;
            let verdict = &answer["builders_plan"];
            if first["refusal"].is_null() {
                prop_assert_eq!(&verdict["standing"], &option["standing"], "{}: {}", &option["aim"], &verdict["words"]);
            } else {
                prop_assert_eq!(&verdict["standing"], "needs_own_design");
            }
            for check in verdict["checks"].as_array().unwrap() {
                prop_assert!(check["utilisation"].as_f64().unwrap() <= 1.0 + 1e-9, "{check}");
            }
        }
    }

    /// A round in which everything is right passes, the day the support stands as proposed.
    #[test]
    fn a_round_with_everything_right_passes(job in jobs(Kind::Ordinary), lean in -4.0..4.0_f64) {
        let answer = size(&job)?;
        for option in options(&answer).iter().filter(|option| option["kind"] == "needles") {
            let readings: Vec<Value> = option["props"].as_array().unwrap().iter().enumerate().map(|(i, prop)| {
                // Each leans another way, as set up by hand.
                let lean = if i % 2 == 0 { lean } else { -lean };
                json!({"prop": prop["name"], "pin": "right", "collar_turns": 0, "lean_mm": [lean, -lean], "over_m": 1.0, "head_off_mm": 5,
                    "foot_off_mm": 0, "foot_firm": true, "straight": true, "fixed": true, "packed": true})
            }).collect();
            let round = json!({"contract": 1, "job": job, "option": option, "earlier": [], "at": "2026-03-02T07:40:00Z", "readings": readings,
                "gauges": [], "job_checks": {"braces": true, "doors_stick": false, "load_on_floors": false, "digging": false, "wind_m_s": 3.0}});
            let found = calc::round_value(&round).map_err(|problems| TestCaseError::fail(format!("{problems:?}")))?;
            prop_assert!(found.passed && !found.stop, "{:?}", found.reasons);
        }
    }
}
