//! The rating of a prop as a round reads it: against a boundary-value solver over a grid of states, and the published limits.
#![expect(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a test that fails is to stop where it fails"
)]

mod limits;
mod solver;

use calc::props::{PropData, State, en1065};
use serde_json::{Value, json};

/// The data of a prop as a job names it.
fn data(prop: &Value) -> PropData {
    match prop["class"].as_str() {
        Some(class) => PropData::En1065(en1065::parse(class).unwrap()),
        None => PropData::Tn79(u8::try_from(prop["size"].as_u64().unwrap()).unwrap()),
    }
}

/// What a round says of one prop that carries `load_kn` in a state; the lean is measured over 1.8 m.
fn in_a_round(prop: &Value, length_m: f64, load_kn: f64, state: &State) -> calc::Evaluation {
    let mut job = calc::example::job("two_storey_cavity").unwrap();
    let mut named = prop.clone();
    named["name"] = json!("at hand");
    job["props"] = json!([named]);
    let size = prop["class"]
        .as_str()
        .map_or_else(|| prop["size"].to_string(), str::to_owned);
    let [along, across] = state.lean_mm_m;
    let round = json!({
        "contract": 1, "job": job, "at": "2026-03-02T07:40:00Z",
        "option": {
            "kind": "needles",
            "props": [{ "name": "N1-in", "needle": "N1", "kind": prop["data"], "size": size, "length_m": length_m, "load_kn": load_kn }],
            "bracing": { "v_kn": load_kn, "demand_across_kn": 0.025 * load_kn, "resistance_along_kn": 100, "resistance_across_kn": 100 },
        },
        "readings": [{
            "prop": "N1-in", "pin": "right", "collar_turns": 0, "thread_mm": 6, "lean_mm": [along * 1.8, across * 1.8], "over_m": 1.8,
            "head_off_mm": state.head_mm, "foot_off_mm": state.foot_mm, "foot_firm": true, "straight": true, "fixed": true, "packed": true,
        }],
        "gauges": [],
        "job_checks": { "braces": true, "doors_stick": false, "load_on_floors": false, "digging": false, "wind_m_s": null },
    });
    calc::round_value(&round).unwrap_or_else(|problems| panic!("{problems:?}"))
}
