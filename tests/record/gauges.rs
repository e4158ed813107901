//! What a crack gauge has grown is held against the record, however phones were merged, proposals changed and readings
//! corrected.

use serde_json::{Value, json};
use upstay_lib::record::{Kind, NewEntry, Store};
use upstay_lib::site::{self, curves};

use crate::import::{hand_over, phone};
use crate::make::{at, job};

const DAY: i64 = 24 * 60;

/// A proposal for a ready house, and a reading of each of its props with nothing wrong.
fn support() -> (Value, Vec<Value>) {
    let house = calc::example::job("two_storey_cavity").unwrap();
    let proposal = json!(calc::size_value(&house).unwrap());
    let props = proposal.pointer("/options/0/props").unwrap().as_array().unwrap();
    let reading = |prop: &Value| {
        json!({"prop": prop["name"], "pin": "right", "collar_turns": 0, "thread_mm": 6, "lean_mm": [2, 0], "over_m": 1,
            "head_off_mm": 5, "foot_off_mm": 0, "foot_firm": true, "straight": true, "fixed": true, "packed": true})
    };
    let readings = props.iter().map(reading).collect();
    (
        json!({"aim": "fewest", "option": 0, "job": house, "proposal": proposal}),
        readings,
    )
}

fn add(store: &mut Store, minutes: i64, kind: Kind, body: Value) -> Value {
    json!(
        store
            .append_many(at(minutes), vec![NewEntry::new(kind, body)], None)
            .unwrap()[0]
            .hash
    )
}

/// A round as it is handed in: what the screen knew of the gauge before stands beside what it reads now.
fn round(readings: &[Value], mm: f64, before_mm: f64) -> Value {
    json!({"why": "look", "readings": readings, "gauges": [{"name": "G1", "mm": mm, "first_mm": before_mm, "last_mm": before_mm}],
        "job_checks": {"braces": true, "doors_stick": false, "load_on_floors": false, "digging": false, "wind_m_s": null}})
}

fn since(seen: &Value, what: &str) -> f64 {
    seen.pointer(&format!("/gauges/0/{what}")).unwrap().as_f64().unwrap()
}

#[test]
fn growth_since_the_start_is_seen_though_the_other_phones_round_stands_early_in_the_record() {
    let (_data, _jobs, mut one) = job();
    let (body, readings) = support();
    add(&mut one, 0, Kind::ProposalKept, body);
    let (_there, theirs) = phone();
    hand_over(&mut one, &theirs, 1);
    let mut two = theirs.open_job(one.job()).unwrap();
    // This phone writes much all week; the other hears nothing of it and reads the gauge on Saturday.
    for minutes in 2..30 {
        add(&mut one, minutes, Kind::Note, json!({"text": "x"}));
    }
    for (day, mm) in [(0, 12.0), (1, 12.1), (2, 12.0), (4, 12.1)] {
        site::done(&mut one, &round(&readings, mm, 12.0), at(day * DAY + 40)).unwrap();
    }
    site::done(&mut two, &round(&readings, 12.4, 12.4), at(5 * DAY)).unwrap();
    let entries = two.all_entries().unwrap();
    one.write(|gate| gate.take_in(&entries).map(drop)).unwrap();
    assert!(
        site::rounds(&one).unwrap()[0].at.starts_with("2026-03-07"),
        "Saturday stands first in the record"
    );
    let seen = site::check(&one, &round(&readings, 13.0, 12.4), at(7 * DAY)).unwrap();
    assert!((since(&seen, "since_start_mm") - 1.0).abs() < 1e-9, "{seen}");
    assert_eq!(seen.pointer("/stop"), Some(&json!(true)), "1 mm since the start");
    // The curve runs through the days as they were.
    let curves = curves(&one).unwrap();
    let crack = curves.series.iter().find(|one| one.name == "G1").unwrap();
    assert!(crack.points.is_sorted_by_key(|point| point.day), "{:?}", crack.points);
}

#[test]
fn a_gauge_goes_on_over_another_proposal_and_after_a_correction() {
    let (_data, _jobs, mut store) = job();
    let (body, readings) = support();
    add(&mut store, 0, Kind::ProposalKept, body.clone());
    let first = site::done(&mut store, &round(&readings, 12.4, 12.4), at(1)).unwrap();
    site::correct(
        &mut store,
        first.entry,
        &json!({"round": round(&readings, 12.0, 12.0)}),
        at(2),
    )
    .unwrap();
    add(&mut store, 3, Kind::ProposalKept, body);
    // The screen still holds what was typed at first.
    let seen = site::check(&store, &round(&readings, 12.6, 12.4), at(DAY)).unwrap();
    assert!((since(&seen, "since_last_mm") - 0.6).abs() < 1e-9, "{seen}");
    assert_eq!(seen.pointer("/stop"), Some(&json!(true)));
}

#[test]
fn rounds_after_a_corrected_one_are_rated_again() {
    let (_data, _jobs, mut store) = job();
    let (body, readings) = support();
    add(&mut store, 0, Kind::ProposalKept, body);
    let first = site::done(&mut store, &round(&readings, 12.9, 12.9), at(1)).unwrap();
    let second = site::done(&mut store, &round(&readings, 13.0, 12.9), at(DAY)).unwrap();
    assert_eq!(second.evaluation.pointer("/passed"), Some(&json!(true)));
    assert_eq!(site::state(&store).unwrap().open, 0);
    // It had read 12.0: the crack grew by 1 mm, and the second round did not know.
    site::correct(
        &mut store,
        first.entry,
        &json!({"round": round(&readings, 12.0, 12.0)}),
        at(DAY + 1),
    )
    .unwrap();
    let now = site::state(&store).unwrap();
    assert!(now.stop && now.findings[0].code == "crack", "{:?}", now.findings);
    let rounds = site::rounds(&store).unwrap();
    assert_eq!(
        (rounds[1].entry, rounds[1].passed, rounds[1].stop),
        (second.entry, false, true)
    );
    // Corrected back, it is no longer so; what was found is not taken back by itself.
    site::correct(
        &mut store,
        first.entry,
        &json!({"round": round(&readings, 12.9, 12.9)}),
        at(DAY + 2),
    )
    .unwrap();
    assert!(site::state(&store).unwrap().stop);
}
