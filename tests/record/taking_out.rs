//! Taking out in small turns, the looks after it, and closing a job.

use serde_json::{Value, json};
use upstay_lib::record::{Hash, Kind, Moment, NewEntry, Store};
use upstay_lib::site::{self, GaugeRead, NewClosing, NewFinding, NewLetDown, NewLook, NewRepair, Turn, due, state};

use crate::import::{hand_over, phone};
use crate::make::{at, job};

const HOUR: i64 = 60;
const DAY: i64 = 24 * HOUR;

fn add(store: &mut Store, when: Moment, kind: Kind, body: Value) -> Hash {
    store.append_many(when, vec![NewEntry::new(kind, body)], None).unwrap()[0].hash
}

/// A job of two props and one gauge, its permit to take out given after one round.
fn ready(store: &mut Store) -> Hash {
    let option = json!({"props": [{"name": "N1-in"}, {"name": "N1-out"}], "floor_lines": []});
    let body = json!({"aim": "fewest", "option": 0, "job": {}, "proposal": {"options": [option], "order": []}});
    let proposal = add(store, at(0), Kind::ProposalKept, body);
    let reading = |prop: &str, lean: f64| json!({"prop": prop, "lean_mm": [lean, 4.0], "over_m": 2.0});
    let round = |lean: f64, used: f64| {
        json!({
            "proposal": proposal,
            "round": {"name": "A. Mason", "readings": [reading("N1-in", lean), reading("N1-out", 0.0)],
                "gauges": [{"name": "G1", "mm": 1.0}]},
            "evaluation": {"passed": true, "stop": false, "reasons": [],
                "props": [{"name": "N1-in", "utilisation": used, "take_up_mm": lean}]},
        })
    };
    add(store, at(0), Kind::RoundDone, round(2.0, 0.61));
    add(store, at(DAY), Kind::RoundDone, round(6.0, 0.72));
    let permit = json!({"stop": "permit_to_take_out/1", "code": "permit_to_take_out", "proposal": proposal,
        "name": "B. Check", "set_out": false});
    add(store, at(DAY), Kind::Permit, permit);
    proposal
}

fn turn(prop: &str, turns: f64) -> Turn {
    Turn {
        prop: prop.to_owned(),
        turns,
        thread_mm: Some(8.0),
    }
}

fn step(turns: Vec<Turn>, out: &[&str], mm: f64) -> NewLetDown {
    NewLetDown {
        name: "A. Mason".to_owned(),
        turns,
        out: out.iter().map(|&name| name.to_owned()).collect(),
        gauges: vec![gauge(mm)],
        ..NewLetDown::default()
    }
}

fn gauge(mm: f64) -> GaugeRead {
    GaugeRead {
        name: "G1".to_owned(),
        mm,
    }
}

fn look(mm: f64) -> NewLook {
    NewLook {
        name: "A. Mason".to_owned(),
        gauges: vec![gauge(mm)],
        ..NewLook::default()
    }
}

fn closing(anyway: &str) -> NewClosing {
    NewClosing {
        name: "C. Engineer".to_owned(),
        anyway: anyway.to_owned(),
    }
}

#[test]
fn props_are_let_down_by_small_turns_under_a_permit_and_what_moves_stops_it() {
    let (_data, _jobs, mut store) = job();
    let code = |store: &mut Store, new: &NewLetDown| site::let_down(store, new, at(DAY)).unwrap_err().code;
    assert_eq!(
        code(&mut store, &step(vec![turn("N1-in", 0.25)], &[], 1.0)),
        "no_permit"
    );
    ready(&mut store);
    assert_eq!(due(&store, at(DAY)).unwrap().code, "taking_out");
    assert_eq!(code(&mut store, &step(vec![turn("N1-in", 0.5)], &[], 1.0)), "too_much");
    let twice = vec![turn("N1-in", 0.25), turn("N1-in", 0.25)];
    assert_eq!(
        code(&mut store, &step(twice, &[], 1.0)),
        "too_much",
        "two quarters are a half"
    );
    assert_eq!(code(&mut store, &step(vec![turn("N9-in", 0.25)], &[], 1.0)), "no_prop");
    assert_eq!(code(&mut store, &step(vec![], &[], 1.0)), "nothing_done");
    let unread = NewLetDown {
        gauges: vec![],
        ..step(vec![turn("N1-in", 0.25)], &[], 1.0)
    };
    assert_eq!(code(&mut store, &unread), "gauges_missing");
    let both = || vec![turn("N1-in", 0.25), turn("N1-out", 0.25)];
    site::let_down(&mut store, &step(both(), &[], 1.1), at(DAY + 1)).unwrap();
    site::let_down(&mut store, &step(both(), &["N1-in"], 1.2), at(DAY + 2)).unwrap();
    let now = state(&store).unwrap().taking_out;
    // Two quarter turns of a thread of 8 mm.
    assert_eq!(
        (now.props[0].turns, now.props[0].down_mm, now.props[0].out),
        (0.5, 4.0, true)
    );
    assert_eq!((now.props[1].out, now.out_at), (false, None));
    assert_eq!(
        code(&mut store, &step(vec![turn("N1-in", 0.25)], &[], 1.2)),
        "no_prop",
        "it is out"
    );
    // Half a millimetre more at once: the permit falls, and nothing is turned any further.
    let entry = site::let_down(&mut store, &step(vec![turn("N1-out", 0.25)], &[], 1.7), at(DAY + 3)).unwrap();
    assert_eq!(
        site::words(&entry),
        "N1-out 0.25 turn down. Gauges: G1 1.7 mm. Nothing moved. (A. Mason)"
    );
    let now = state(&store).unwrap();
    assert!(now.stop && now.ring && !now.permits[0].stands);
    assert!(
        now.findings[0].words.contains("G1: grown 0.5 mm"),
        "{}",
        now.findings[0].words
    );
    assert_eq!(
        code(&mut store, &step(vec![turn("N1-out", 0.25)], &[], 1.7)),
        "no_permit"
    );
    assert_eq!(due(&store, at(DAY + 4)).unwrap().code, "stop");
}

/// What was typed wrong is corrected, and everything that follows from it with it.
#[test]
fn turns_and_props_that_were_typed_wrong_are_corrected() {
    let (_data, _jobs, mut store) = job();
    ready(&mut store);
    let first = site::let_down(&mut store, &step(vec![turn("N1-in", 0.25)], &["N1-out"], 1.0), at(DAY)).unwrap();
    site::let_down(&mut store, &step(vec![], &["N1-in"], 1.1), at(DAY + 1)).unwrap();
    assert!(due(&store, at(DAY + 2)).unwrap().after.is_some(), "all out, it said");
    // It was the other prop that was turned, half a turn too, and none came out.
    let change = json!({"turns": [{"prop": "N1-out", "turns": 0.5, "thread_mm": 8}], "out": []});
    site::correct(&mut store, first.hash, &change, at(DAY + 3)).unwrap();
    let now = state(&store).unwrap().taking_out;
    let told: Vec<(f64, f64, bool)> = now
        .props
        .iter()
        .map(|prop| (prop.turns, prop.down_mm, prop.out))
        .collect();
    assert_eq!(told, [(0.0, 0.0, true), (0.5, 4.0, false)]);
    assert_eq!((now.steps, now.out_at), (2, None));
    assert_eq!(due(&store, at(DAY + 4)).unwrap().code, "taking_out");
    let code =
        |store: &mut Store, change: &Value| site::correct(store, first.hash, change, at(DAY + 5)).unwrap_err().code;
    for wrong in [
        json!({"turns": [{"prop": "N9-in", "turns": 0.25}]}),
        json!({"turns": [{"prop": "N1-in", "turns": -0.25}]}),
        json!({"turns": [{"prop": "N1-in", "turns": 0.25}, {"prop": "N1-in", "turns": 0.25}]}),
        json!({"turns": [{"prop": "N1-in", "turns": 0.25, "thread_mm": 0}]}),
        json!({"turns": "a quarter"}),
        json!({"out": ["N9-in"]}),
        json!({"gauges": []}),
        json!({"gauges": [{"name": "G2", "mm": 1.0}]}),
        json!({"moved": false}),
        json!({"words": 7}),
    ] {
        assert_eq!(code(&mut store, &wrong), "not_corrected", "{wrong}");
    }
    // A gauge that was read wrong: with the right reading the crack has grown, and that is found.
    assert_eq!(state(&store).unwrap().open, 0);
    let read = json!({"gauges": [{"name": "G1", "mm": 1.6}], "words": "read again by torch"});
    site::correct(&mut store, first.hash, &read, at(DAY + 6)).unwrap();
    let now = state(&store).unwrap();
    assert!(now.stop && !now.permits[0].stands, "{:?}", now.findings);
    assert!(
        now.findings[0].words.contains("G1: grown 0.6 mm"),
        "{}",
        now.findings[0].words
    );
    assert_eq!(
        format!("{}", now.taking_out.props[1].turns),
        "0.5",
        "the turns stay as corrected"
    );
    assert!(store.health().unwrap().whole);
}

/// What cannot be read names its field, what stands there and what would be right, and nothing of how it is read inside.
#[test]
fn a_correction_that_cannot_be_read_says_which_field_and_what_would_be_right() {
    let (_data, _jobs, mut store) = job();
    ready(&mut store);
    let first = site::let_down(&mut store, &step(vec![turn("N1-in", 0.25)], &[], 1.0), at(DAY)).unwrap();
    let count = store.entry_count().unwrap();
    for (change, field, words) in [
        (
            json!({"turns": "a quarter"}),
            "/turns",
            "turns: \"a quarter\" stands there. A list is needed, as [{\"prop\": \"N1-in\", \"turns\": 0.25}].",
        ),
        (
            json!({"turns": [0.25]}),
            "/turns/0",
            "turns 1: 0.25 stands there. A row is needed, as {\"prop\": \"N1-in\", \"turns\": 0.25}.",
        ),
        (
            json!({"turns": [{"prop": "N1-in", "turns": 0.25}, {"prop": "N1-out"}]}),
            "/turns/1/turns",
            "turns 2: turns is missing. A row is written as {\"prop\": \"N1-in\", \"turns\": 0.25}.",
        ),
        (
            json!({"turns": [{"prop": "N1-in", "turns": 0.25, "thread_mm": "six"}]}),
            "/turns/0/thread_mm",
            "turns 1, thread_mm: \"six\" stands there. A number is needed, as 6.",
        ),
        (
            json!({"turns": [{"prop": "N1-in", "turn": 0.25}]}),
            "/turns/0/turn",
            "turns 1: “turn” is not known here. A row holds prop, turns, thread_mm.",
        ),
        (
            json!({"out": ["N1-in", null]}),
            "/out/1",
            "out 2: null stands there. Text is needed, as \"N1-in\".",
        ),
        (
            json!({"gauges": [{"name": 1, "mm": 1.0}]}),
            "/gauges/0/name",
            "gauges 1, name: 1 stands there. Text is needed, as \"G1\".",
        ),
        (
            json!({"gauges": [{"name": "G1", "mm": [1.0]}]}),
            "/gauges/0/mm",
            "gauges 1, mm: [1.0] stands there. A number is needed, as 1.2.",
        ),
        (
            json!({"moved": false}),
            "/moved",
            "“moved” stays as it is. Only turns, out, gauges, words can be corrected here.",
        ),
        (
            json!({"words": " "}),
            "/words",
            "words is empty. Some words are needed.",
        ),
    ] {
        let why = site::correct(&mut store, first.hash, &change, at(DAY + 1)).unwrap_err();
        assert_eq!(
            (why.code.as_str(), why.field.as_deref(), why.message.as_str()),
            ("not_corrected", Some(field), words),
            "{change}"
        );
    }
    let long = json!({"turns": "x".repeat(5000)});
    let why = site::correct(&mut store, first.hash, &long, at(DAY + 1)).unwrap_err();
    assert!(why.message.chars().count() < 200, "{}", why.message);
    assert_eq!(store.entry_count().unwrap(), count);
}

/// Two phones that correct the same step without knowing of each other: a prop is out only if both say so.
#[test]
fn a_prop_is_out_only_if_every_correction_that_stands_says_so() {
    let (_data, _jobs, mut one) = job();
    ready(&mut one);
    let wrong = site::let_down(&mut one, &step(vec![], &["N1-in", "N1-out"], 1.0), at(DAY)).unwrap();
    let (_there, theirs) = phone();
    hand_over(&mut one, &theirs, DAY + 1);
    let mut two = theirs.open_job(one.job()).unwrap();
    site::correct(&mut one, wrong.hash, &json!({"out": ["N1-in"]}), at(DAY + 2)).unwrap();
    site::correct(&mut two, wrong.hash, &json!({"out": ["N1-out"]}), at(DAY + 2)).unwrap();
    let entries = two.all_entries().unwrap();
    one.write(|gate| gate.take_in(&entries).map(drop)).unwrap();
    assert!(state(&one).unwrap().taking_out.props.iter().all(|prop| !prop.out));
}

#[test]
fn three_looks_follow_and_one_whose_time_is_over_stays_missing() {
    let (_data, _jobs, mut store) = job();
    ready(&mut store);
    let early = site::look_after(&mut store, &look(1.0), at(DAY)).unwrap_err().code;
    assert_eq!(early, "props_stand");
    site::let_down(&mut store, &step(vec![], &["N1-in", "N1-out"], 1.0), at(DAY)).unwrap();
    let after = |store: &Store, minutes: i64| {
        let due = due(store, at(DAY + minutes)).unwrap();
        let after = due.after.clone().unwrap();
        (due.code, due.overdue, after.missing, after.now)
    };
    assert_eq!(after(&store, HOUR), ("after_out", false, 3, true));
    assert!(after(&store, 3 * HOUR).1, "two hours late");
    site::look_after(&mut store, &look(1.1), at(DAY + 3 * HOUR)).unwrap();
    assert_eq!(after(&store, 4 * HOUR), ("after_out", false, 2, false));
    let told = due(&store, at(DAY + 4 * HOUR)).unwrap();
    assert_eq!(
        told.since.as_deref(),
        Some("2026-03-04T10:00:00+02:00"),
        "a day after the last prop"
    );
    // Nobody came a day after; the last look cannot stand for it.
    site::look_after(&mut store, &look(1.1), at(DAY + 50 * HOUR)).unwrap();
    assert_eq!(after(&store, 51 * HOUR), ("close", false, 1, false));
    assert!(
        due(&store, at(9 * DAY)).unwrap().missing.is_empty(),
        "no round was due any more"
    );
    let refused = site::close(&mut store, &closing(""), at(4 * DAY)).unwrap_err();
    assert_eq!(refused.code, "close_refused");
    assert!(
        refused.message.contains("Look 2 of 3, a day after: missing"),
        "{}",
        refused.message
    );
    assert_eq!(refused.message.matches("Look ").count(), 1, "{}", refused.message);
}

#[test]
fn a_job_closes_when_nothing_stands_against_it_or_with_a_reason_that_is_kept() {
    let (_data, _jobs, mut store) = job();
    ready(&mut store);
    let refused = site::close(&mut store, &closing(""), at(DAY)).unwrap_err();
    assert!(refused.message.contains("N1-in, N1-out"), "{}", refused.message);
    site::let_down(&mut store, &step(vec![], &["N1-in", "N1-out"], 1.0), at(DAY)).unwrap();
    for hours in [1, 24, 48] {
        site::look_after(&mut store, &look(1.0), at(DAY + hours * HOUR)).unwrap();
    }
    let nameless = NewClosing::default();
    assert_eq!(
        site::close(&mut store, &nameless, at(4 * DAY)).unwrap_err().code,
        "name_missing"
    );
    let entry = site::close(&mut store, &closing("not needed"), at(4 * DAY)).unwrap();
    assert_eq!(site::words(&entry), "Nothing stood against it. (C. Engineer)");
    assert_eq!(due(&store, at(5 * DAY)).unwrap().code, "closed");
    assert_eq!(
        site::close(&mut store, &closing(""), at(5 * DAY)).unwrap_err().code,
        "closed"
    );
    assert_eq!(
        site::reopen(&mut store, "A", " ", at(5 * DAY)).unwrap_err().code,
        "reason_missing"
    );
    site::reopen(&mut store, "A. Mason", "The lintel was changed.", at(5 * DAY)).unwrap();
    assert!(state(&store).unwrap().closing.is_none());
    // With something open it closes only by a reason, and both are kept.
    let crack = NewFinding {
        category: "other".to_owned(),
        what: "A hairline crack".to_owned(),
        name: "D".to_owned(),
        ..NewFinding::default()
    };
    site::finding_add(&mut store, &crack, at(5 * DAY)).unwrap();
    assert_eq!(
        site::close(&mut store, &closing(""), at(5 * DAY)).unwrap_err().code,
        "close_refused"
    );
    site::close(&mut store, &closing("Painted over by the owner."), at(5 * DAY)).unwrap();
    let closed = state(&store).unwrap().closing.unwrap();
    assert_eq!(closed.anyway, "Painted over by the owner.");
    assert!(closed.against[0].contains("hairline"), "{:?}", closed.against);
}

#[test]
fn a_finding_that_the_closer_had_not_seen_opens_the_job_again_on_both_phones() {
    let (_data, _jobs, mut store) = job();
    ready(&mut store);
    let (_other_data, jobs) = phone();
    hand_over(&mut store, &jobs, 2 * DAY);
    let mut other = jobs.open_job(store.job()).unwrap();
    site::close(&mut store, &closing("The owner wants it so."), at(3 * DAY)).unwrap();
    assert!(state(&store).unwrap().closing.is_some());
    let crack = NewFinding {
        category: "other".to_owned(),
        what: "A crack".to_owned(),
        name: "D".to_owned(),
        ..NewFinding::default()
    };
    let finding = site::finding_add(&mut other, &crack, at(3 * DAY)).unwrap();
    let entries = store.all_entries().unwrap();
    let told = other.all_entries().unwrap();
    other.write(|gate| gate.take_in(&entries).map(drop)).unwrap();
    store.write(|gate| gate.take_in(&told).map(drop)).unwrap();
    for one in [&store, &other] {
        let now = state(one).unwrap();
        assert!(now.closing.is_none() && now.open == 1);
    }
    // It is put right, but the old closing does not come back by itself.
    let repair = NewRepair {
        finding: finding.hash.to_string(),
        what: "Looked at".to_owned(),
        name: "D".to_owned(),
        photos: Vec::new(),
    };
    site::repair_add(&mut store, &repair, at(4 * DAY)).unwrap();
    assert!(state(&store).unwrap().closing.is_none());
}

#[test]
fn the_summary_tells_the_whole_job_with_its_largest_use_and_each_prop_at_both_ends() {
    let (_data, _jobs, mut store) = job();
    ready(&mut store);
    let told = site::summary(&store, at(DAY)).unwrap();
    assert_eq!(told.days, Some(("2026-03-02".to_owned(), "2026-03-03".to_owned())));
    assert_eq!((told.rounds, told.findings, told.photos), (2, 0, 0));
    let most = told.largest.unwrap();
    assert_eq!((most.utilisation, most.prop.as_str()), (0.72, "N1-in"));
    let prop = &told.props[0];
    // 2 mm and 6 mm over 2 m.
    assert_eq!(prop.lean_mm_m, [Some([1.0, 2.0]), Some([3.0, 2.0])]);
    assert_eq!(prop.take_up_mm, [Some(2.0), Some(6.0)]);
    assert_eq!(
        told.permits,
        ["Permit to take out: B. Check, who did not set it out, 3 March 2026."]
    );
    assert_eq!(told.names, ["A. Mason", "B. Check"]);
}
