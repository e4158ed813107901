//! The public JSON: every answer has exactly the shape that `calc schema` prints, and the shape is frozen here.
#![expect(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a test stops at the first broken promise"
)]

mod common;

use common::shape::misfits;
use serde_json::{Value, json};

#[test]
fn every_answer_has_the_shape_of_its_schema() {
    let schema = calc::schema("proposal").unwrap();
    for name in calc::example::names() {
        let mut job = calc::example::job(name).unwrap();
        let mut jobs = vec![job.clone()];
        job["answers"]["bay"] = json!("yes");
        jobs.push(job.clone());
        job["answers"]["bay"] = json!("no");
        job["opening"]["width_m"] = json!(5.5);
        jobs.push(job.clone());
        // Needles in the room above, or a line that does not stand.
        job["opening"]["width_m"] = json!(2.4);
        job["opening"]["flush"] = json!(true);
        jobs.push(job);
        for job in jobs {
            let answer = serde_json::to_value(calc::size_value(&job).unwrap()).unwrap();
            let mut out = Vec::new();
            misfits(&schema, &answer, "", &mut out);
            assert!(out.is_empty(), "{name}: {out:#?}");
        }
    }
}

/// The keys of contract version 1. A key that goes or is renamed needs a new version.
#[test]
fn the_keys_of_version_1_are_all_there() {
    let schema = calc::schema("proposal").unwrap();
    let keys = |pointer: &str| -> Vec<String> {
        let found = schema.pointer(pointer).unwrap_or(&Value::Null);
        found.as_object().unwrap().keys().cloned().collect()
    };
    let top = keys("/properties");
    for key in "contract version basis standing refusal independent_check_needed reasons cautions assumptions load brackets options nearest builders_plan engineer order".split(' ') {
        assert!(top.iter().any(|k| k == key), "{key}");
    }
    let option = keys("/properties/options/items/properties");
    for key in "kind aim objective standing worst_utilisation governs needle_soffit_m needle_top_m spacing_m needles props feet bracing floor_lines parts checks one_lost movement".split(' ') {
        assert!(option.iter().any(|k| k == key), "{key}");
    }
}

#[test]
fn a_round_on_a_proposal_is_answered_in_the_shape_of_its_schema() {
    let job = calc::example::job("garage_with_room_over").unwrap();
    let answer = serde_json::to_value(calc::size_value(&job).unwrap()).unwrap();
    let option = answer["options"][0].clone();
    let reading = |name: &str, lean: f64| {
        json!({"prop": name, "pin": "right", "collar_turns": 0, "thread_mm": 6, "lean_mm": [lean, 0.0],
        "over_m": 1.0, "head_off_mm": 5, "foot_off_mm": 0, "foot_firm": true, "straight": true, "fixed": true, "packed": true})
    };
    let names: Vec<String> = option["props"]
        .as_array()
        .unwrap()
        .iter()
        .map(|p| p["name"].as_str().unwrap().to_owned())
        .collect();
    let round = |lean: f64| {
        json!({"contract": 1, "job": job, "option": option, "earlier": [], "at": "2026-03-02T07:40:00Z",
        "readings": names.iter().map(|name| reading(name, lean)).collect::<Vec<_>>(), "gauges": [],
        "job_checks": {"braces": true, "doors_stick": false, "load_on_floors": false, "digging": false, "wind_m_s": 4.0}})
    };
    let good = serde_json::to_value(calc::round_value(&round(4.0)).unwrap()).unwrap();
    let mut out = Vec::new();
    misfits(&calc::schema("evaluation").unwrap(), &good, "", &mut out);
    assert!(out.is_empty(), "{out:#?}");
    assert_eq!(good["passed"], true, "{good}");
    // 25 mm per m is the limit that CROSS report 32 (2006) quotes from BS 5975:1996.
    let at_limit = calc::round_value(&round(25.0)).unwrap();
    assert!(at_limit.props.iter().all(|prop| prop.in_basis));
    let beyond = calc::round_value(&round(26.0)).unwrap();
    assert!(beyond.stop && beyond.ring && beyond.props.iter().all(|prop| !prop.in_basis));
}

#[test]
fn growing_cracks_with_sticking_doors_mean_out() {
    // CROSS-style advice as in the account of the three-storey house (forum topic 1685934, 2017): keep out, no re-tightening.
    let job = calc::example::job("garage_with_room_over").unwrap();
    let answer = serde_json::to_value(calc::size_value(&job).unwrap()).unwrap();
    let round = json!({"contract": 1, "job": job, "option": answer["options"][0], "earlier": [], "at": "2026-03-02T07:40:00Z", "readings": [],
        "gauges": [{"name": "over the door", "mm": 1.4, "first_mm": 0.2, "last_mm": 0.6}],
        "job_checks": {"braces": true, "doors_stick": true, "load_on_floors": false, "digging": false, "wind_m_s": null}});
    let found = calc::round_value(&round).unwrap();
    assert!(found.out && found.stop && found.ring && !found.passed, "{found:?}");
}
