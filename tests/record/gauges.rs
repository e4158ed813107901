//! What a crack gauge has grown is held against the record, however phones were merged, proposals changed and readings
//! corrected.

use serde_json::{Value, json};
use upstay_lib::record::{Kind, NewEntry, Store};
use upstay_lib::site::{self, curves, state};

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
        "job_checks": {"braces": true, "doors_stick": false, "load_on_floors": false, "digging": false, "wind_m_s": 4.0}})
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

fn codes(seen: &Value) -> Vec<&str> {
    let reasons = seen.pointer("/reasons").unwrap().as_array().unwrap();
    reasons.iter().filter_map(|reason| reason["code"].as_str()).collect()
}

/// A gauge that is known is read in each round, or the day is not passed; one that is gone is asked for no longer.
#[test]
fn a_known_gauge_that_was_not_read_keeps_the_day_from_being_passed() {
    let (_data, _jobs, mut store) = job();
    let (body, readings) = support();
    add(&mut store, 0, Kind::ProposalKept, body);
    let first = site::done(&mut store, &round(&readings, 12.0, 12.0), at(1)).unwrap();
    assert_eq!(first.evaluation["passed"], true, "{}", first.evaluation);
    let mut unread = round(&readings, 12.0, 12.0);
    unread["gauges"] = json!([]);
    let left = |why: &str| json!([{"gauge": "G1", "why": why}]);
    for why in [json!([]), left("not now")] {
        unread["gauges_left"] = why;
        let seen = site::check(&store, &unread, at(DAY)).unwrap();
        assert_eq!((codes(&seen), &seen["passed"]), (vec!["gauge_not_read"], &json!(false)));
        assert!(
            seen["reasons"][0]["words"]
                .as_str()
                .unwrap()
                .starts_with("G1: not read"),
            "{seen}"
        );
        assert_eq!(seen["stop"], false);
    }
    site::done(&mut store, &unread, at(DAY)).unwrap();
    assert_eq!(
        state(&store).unwrap().open,
        0,
        "nothing was found, only nothing looked at"
    );
    let due = site::due(&store, at(DAY + 1)).unwrap();
    assert!(
        due.code == "repair" && due.words.contains("G1: not read in this round"),
        "{due:?}"
    );
    // Gone for good, and said so: that is found, and it is asked for no longer.
    unread["gauges_left"] = left("gone");
    let gone = site::done(&mut store, &unread, at(DAY + 2)).unwrap();
    assert_eq!(
        (codes(&gone.evaluation), &gone.evaluation["passed"]),
        (vec!["gauge_gone"], &json!(false))
    );
    assert_eq!(site::rounds(&store).unwrap().last().unwrap().gauges_left, left("gone"));
    unread["gauges_left"] = json!([]);
    let after = site::done(&mut store, &unread, at(2 * DAY)).unwrap();
    assert_eq!(after.evaluation["passed"], true, "{}", after.evaluation);
    // Read again it is there again.
    site::done(&mut store, &round(&readings, 12.0, 12.0), at(3 * DAY)).unwrap();
    assert_eq!(
        codes(&site::check(&store, &unread, at(4 * DAY)).unwrap()),
        ["gauge_not_read"]
    );
    // A look at one prop says nothing of the gauges and is no round of everything anyway.
    unread["readings"] = json!([readings[0]]);
    let short = site::check(&store, &unread, at(4 * DAY)).unwrap();
    assert!(
        !codes(&short).contains(&"gauge_not_read") && short["passed"] == false,
        "{short}"
    );
}

/// The wind belongs to a round of an outside wall; inside nobody asks for it.
#[test]
fn an_outside_wall_is_not_passed_without_the_wind() {
    for (outside, expected) in [(Some(true), false), (None, false), (Some(false), true)] {
        let (_data, _jobs, mut store) = job();
        let (mut body, readings) = support();
        body["job"]["wall"].as_object_mut().unwrap().remove("outside_wall");
        if let Some(outside) = outside {
            body["job"]["wall"]["outside_wall"] = json!(outside);
        }
        add(&mut store, 0, Kind::ProposalKept, body);
        let mut calm = round(&readings, 12.0, 12.0);
        calm["job_checks"]["wind_m_s"] = json!(null);
        let seen = site::check(&store, &calm, at(1)).unwrap();
        assert_eq!(seen["passed"], expected, "{outside:?}: {seen}");
        assert_eq!(codes(&seen).contains(&"wind_not_read"), !expected);
        calm["job_checks"]["wind_m_s"] = json!(0);
        assert_eq!(
            site::check(&store, &calm, at(1)).unwrap()["passed"],
            true,
            "no wind is a reading"
        );
    }
}

/// Rounds from before a gauge was asked for are not made worse by rating them again.
#[test]
fn what_an_old_round_left_out_is_no_reason_to_correct_it() {
    let (_data, _jobs, mut store) = job();
    let (body, readings) = support();
    let proposal = add(&mut store, 0, Kind::ProposalKept, body);
    let first = site::done(&mut store, &round(&readings, 12.0, 12.0), at(1)).unwrap();
    let mut old = round(&readings, 12.0, 12.0);
    old["gauges"] = json!([]);
    old["job_checks"]["wind_m_s"] = json!(null);
    let evaluation = json!({"passed": true, "stop": false, "reasons": [], "props": []});
    add(
        &mut store,
        DAY,
        Kind::RoundDone,
        json!({"round": old, "proposal": proposal, "evaluation": evaluation}),
    );
    let change = json!({"round": round(&readings, 12.1, 12.1)});
    site::correct(&mut store, first.entry, &change, at(DAY + 1)).unwrap();
    let passed: Vec<bool> = site::rounds(&store).unwrap().iter().map(|one| one.passed).collect();
    assert_eq!(passed, [true, true]);
}

/// What a gauge was put up for is open until another one is read in its place; a round without any gauge closes nothing.
#[test]
fn a_gauge_that_is_gone_stays_open_until_another_is_read_in_its_place() {
    for (read, closes) in [
        (json!([{"name": "G2", "mm": 0.3}]), true),
        (json!([{"name": "G1", "mm": 0.3}]), true),
        (json!([]), false),
    ] {
        let (_data, _jobs, mut store) = job();
        let (body, readings) = support();
        add(&mut store, 0, Kind::ProposalKept, body);
        site::done(&mut store, &round(&readings, 12.0, 12.0), at(1)).unwrap();
        let mut next = round(&readings, 12.0, 12.0);
        next["gauges_left"] = json!([{"gauge": "G1", "why": "gone"}]);
        next["gauges"] = json!([{"name": "G2", "mm": 0.3}]);
        let at_once = site::check(&store, &next, at(DAY)).unwrap();
        assert_eq!(at_once["passed"], true, "another was read in the same round: {at_once}");
        next["gauges"] = json!([]);
        next["gauges_left"] = json!([{"gauge": "G1", "why": "gone"}]);
        site::done(&mut store, &next, at(DAY)).unwrap();
        next["gauges_left"] = json!([]);
        let open = |store: &Store| -> Vec<(String, String, bool)> {
            let found = state(store).unwrap().findings;
            let open = found.into_iter().filter(|finding| finding.open);
            open.map(|finding| (finding.code, finding.about, finding.stops))
                .collect()
        };
        let lost = ("gauge_gone".to_owned(), "G1".to_owned(), false);
        assert_eq!(open(&store), std::slice::from_ref(&lost));
        // Another one read without a word of what took its place closes nothing.
        next["gauges"] = read.clone();
        site::done(&mut store, &next, at(2 * DAY)).unwrap();
        assert_eq!(open(&store), std::slice::from_ref(&lost), "{read}");
        let finding = state(&store).unwrap().findings[0].id.clone();
        let repair = site::NewRepair {
            finding,
            what: "A strip of glass in its place".to_owned(),
            name: "A. Mason".to_owned(),
            photos: Vec::new(),
        };
        site::repair_add(&mut store, &repair, at(2 * DAY + 1)).unwrap();
        site::done(&mut store, &next, at(3 * DAY)).unwrap();
        assert_eq!(open(&store).is_empty(), closes, "{read}: {:?}", open(&store));
    }
}

/// A gauge put up anew under the old name has a zero of its own: what it grows is counted from the lesser of both.
#[test]
fn growth_is_not_hidden_by_a_gauge_that_was_put_up_anew() {
    let (_data, _jobs, mut store) = job();
    let (body, readings) = support();
    add(&mut store, 0, Kind::ProposalKept, body);
    site::done(&mut store, &round(&readings, 12.0, 12.0), at(1)).unwrap();
    let mut gone = round(&readings, 12.0, 12.0);
    gone["gauges"] = json!([]);
    gone["gauges_left"] = json!([{"gauge": "G1", "why": "gone"}]);
    site::done(&mut store, &gone, at(DAY)).unwrap();
    let read = |store: &mut Store, mm: f64, day: i64| {
        site::done(store, &round(&readings, mm, mm), at(day * DAY))
            .unwrap()
            .evaluation
    };
    let put_up = read(&mut store, 0.0, 2);
    assert!(!codes(&put_up).contains(&"crack"), "{put_up}");
    read(&mut store, 0.4, 3);
    read(&mut store, 0.8, 4);
    // 1.2 mm since the new zero; against the old one it would have closed by 10.8 mm.
    let grown = read(&mut store, 1.2, 5);
    assert!(codes(&grown).contains(&"crack"), "{grown}");
}
