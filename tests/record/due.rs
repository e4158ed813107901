//! What is due, and who is asked about nights and weekends.

use serde_json::{Value, json};
use upstay_lib::record::{Kind, Moment, NewEntry, Store};
use upstay_lib::site::{self, NewFinding, Watch, due};

use crate::make::{at, job};

const HOUR: i64 = 60;
const DAY: i64 = 24 * HOUR;

// `at(0)` is Monday 2026-03-02, ten in the morning by the local clock.
fn add(store: &mut Store, when: Moment, kind: Kind, body: Value) -> Value {
    json!(store.append_many(when, vec![NewEntry::new(kind, body)], None).unwrap()[0].hash)
}

fn job_with_a_round(turns: f64) -> (tempfile::TempDir, Store, Value) {
    let (data, _jobs, mut store) = job();
    let body = json!({"aim": "fewest", "option": 0, "job": {}, "proposal": {"options": [{}], "order": []}});
    let proposal = add(&mut store, at(0), Kind::ProposalKept, body);
    round(&mut store, at(0), &proposal, turns);
    (data, store, proposal)
}

fn round(store: &mut Store, when: Moment, proposal: &Value, turns: f64) {
    let body = json!({
        "proposal": proposal, "evaluation": {"passed": true, "stop": false, "reasons": []},
        "round": {"readings": [{"prop": "N1-in", "collar_turns": turns}]},
    });
    add(store, when, Kind::RoundDone, body);
}

#[test]
fn each_thing_that_makes_a_round_due_is_named_with_its_time() {
    let (_data, mut store, proposal) = job_with_a_round(0.5);
    assert_eq!(due(&store, at(HOUR)).unwrap().code, "done");
    let again = due(&store, at(2 * HOUR)).unwrap();
    assert_eq!(
        (again.code, again.since.as_deref(), again.overdue),
        ("look_again", Some("2026-03-02T12:00:00+02:00"), false)
    );
    assert!(due(&store, at(4 * HOUR)).unwrap().overdue);
    round(&mut store, at(2 * HOUR), &proposal, 0.0);
    assert_eq!(due(&store, at(4 * HOUR)).unwrap().code, "done");
    let stop = json!({"stop": "needle/1", "code": "needle", "group": "holes", "proposal": proposal, "name": "A",
        "asked": "Needle N1 is in and packed. Say so."});
    add(&mut store, at(4 * HOUR), Kind::StopPassed, stop);
    let stage = due(&store, at(4 * HOUR)).unwrap();
    assert_eq!(stage.code, "after_stage");
    assert!(stage.words.contains("Needle N1 is in and packed"), "{}", stage.words);
    // The next morning comes before it, at midnight due and from nine on overdue.
    let early = due(&store, at(DAY - 3 * HOUR)).unwrap();
    assert_eq!(
        (early.code, early.since.as_deref()),
        ("start_of_day", Some("2026-03-03T00:00:00+02:00"))
    );
    assert!(early.reasons.iter().any(|reason| reason.code == "after_stage"));
    round(&mut store, at(DAY), &proposal, 0.0);
    let late = due(&store, at(3 * DAY - 2 * HOUR)).unwrap();
    assert!(late.overdue && late.missing == ["2026-03-04"], "{late:?}");
    let frost = NewFinding {
        category: "frost".to_owned(),
        name: "A".to_owned(),
        ..NewFinding::default()
    };
    site::finding_add(&mut store, &frost, at(DAY + HOUR)).unwrap();
    assert_eq!(due(&store, at(DAY + HOUR)).unwrap().code, "repair");
}

#[test]
fn nights_and_weekends_with_a_part_open_wall_are_asked_about_until_somebody_is_named() {
    let (_data, mut store, proposal) = job_with_a_round(0.0);
    let friday = 4 * DAY;
    round(&mut store, at(friday), &proposal, 0.0);
    let asked = |store: &Store, minutes: i64| -> Vec<(&str, String)> {
        let asks = due(store, at(minutes)).unwrap().asks;
        asks.into_iter().map(|ask| (ask.code, ask.until)).collect()
    };
    assert!(asked(&store, friday + 8 * HOUR).is_empty(), "nothing is open yet");
    let permit = json!({"stop": "permit_to_load/1", "code": "permit_to_load", "proposal": proposal, "name": "B"});
    add(&mut store, at(friday), Kind::Permit, permit);
    assert_eq!(asked(&store, friday), [("weekend", "2026-03-09".to_owned())]);
    let both = [
        ("weekend", "2026-03-09".to_owned()),
        ("tonight", "2026-03-07".to_owned()),
    ];
    assert_eq!(asked(&store, friday + 5 * HOUR), both);
    let say = |ask: &str, name: &str| Watch {
        ask: ask.to_owned(),
        name: name.to_owned(),
        until: String::new(),
    };
    assert_eq!(
        site::watch(&mut store, &say("weekend", " "), at(friday))
            .unwrap_err()
            .code,
        "name_missing"
    );
    assert_eq!(
        site::watch(&mut store, &say("tonight", "A"), at(friday))
            .unwrap_err()
            .code,
        "ask"
    );
    let note = site::watch(&mut store, &say("weekend", "A. Mason"), at(friday + 5 * HOUR)).unwrap();
    assert_eq!(site::words(&note), "A. Mason looks after the wall until 9 March 2026.");
    assert_eq!(asked(&store, friday + 5 * HOUR), both[1..]);
    assert!(asked(&store, friday + DAY).is_empty(), "Saturday is answered");
    assert_eq!(asked(&store, friday + 7 * DAY), [("weekend", "2026-03-16".to_owned())]);
    let out = json!({"stop": "permit_to_take_out/1", "code": "permit_to_take_out", "proposal": proposal, "name": "B"});
    add(&mut store, at(friday + 7 * DAY), Kind::Permit, out);
    let after = due(&store, at(friday + 7 * DAY)).unwrap();
    assert_eq!((after.code, after.asks.len()), ("after_out", 0));
    // Three looks at the cracks are asked for, and two of them cannot be made up for.
    let late = due(&store, at(friday + 9 * DAY)).unwrap();
    assert_eq!(
        (late.code, late.overdue, late.after.unwrap().missing),
        ("after_out", false, 3)
    );
    // A finding that the permit's giver had not seen: the wall stands on its props again.
    let knock = NewFinding {
        category: "knock".to_owned(),
        name: "A".to_owned(),
        ..NewFinding::default()
    };
    site::finding_add(&mut store, &knock, at(friday + 8 * DAY)).unwrap();
    let back = due(&store, at(friday + 8 * DAY)).unwrap();
    assert_eq!((back.code, back.overdue, back.asks.len()), ("stop", true, 1));
}
