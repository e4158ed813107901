//! What closes a finding: a round that leaves a question out answers nothing, and an old photo shows nothing new.

use serde_json::{Value, json};
use upstay_lib::record::{Kind, NewEntry, Store};
use upstay_lib::site::{self, NewFinding, NewRepair, due, record_days, state};

use crate::import::{hand_over, phone};
use crate::make::{at, job, jpeg, photo};

const DAY: i64 = 24 * 60;

fn add(store: &mut Store, minutes: i64, kind: Kind, body: Value) -> Value {
    json!(
        store
            .append_many(at(minutes), vec![NewEntry::new(kind, body)], None)
            .unwrap()[0]
            .hash
    )
}

fn keep(store: &mut Store) -> Value {
    let body = json!({"aim": "fewest", "option": 0, "job": {}, "proposal": {"options": [{}], "order": []}});
    add(store, 0, Kind::ProposalKept, body)
}

/// What one round reads and finds.
struct Read<'a> {
    /// The reasons it comes to, by code.
    reasons: &'a [&'a str],
    props: &'a [&'a str],
    gauges: &'a [&'a str],
    doors_stick: bool,
    gust_m_s: Option<f64>,
}

const CALM: Read<'_> = Read {
    reasons: &[],
    props: &["N1-in", "N1-out"],
    gauges: &[],
    doors_stick: false,
    gust_m_s: None,
};

fn round(store: &mut Store, minutes: i64, proposal: &Value, read: &Read<'_>) {
    let readings: Vec<Value> = read.props.iter().map(|prop| json!({"prop": prop})).collect();
    let gauges: Vec<Value> = read
        .gauges
        .iter()
        .map(|name| json!({"name": name, "mm": 3.2}))
        .collect();
    let found = |code: &&str| json!({"code": code, "words": format!("{code} is wrong.")});
    let left = ["N1-in", "N1-out"]
        .into_iter()
        .filter(|prop| !read.props.contains(prop));
    let left = left.map(|prop| json!({"code": "not_read", "words": format!("{prop} was not looked at.")}));
    let reasons: Vec<Value> = read.reasons.iter().map(found).chain(left).collect();
    let body = json!({
        "proposal": proposal,
        "round": {"readings": readings, "gauges": gauges, "job_checks": {"braces": true, "doors_stick": read.doors_stick,
            "load_on_floors": false, "digging": false, "wind_m_s": read.gust_m_s}},
        "evaluation": {"passed": reasons.is_empty(), "stop": !read.reasons.is_empty(), "reasons": reasons},
    });
    add(store, minutes, Kind::RoundDone, body);
}

/// Writes down that everything that is open was put right.
fn put_right(store: &mut Store, minutes: i64) {
    let open: Vec<String> = state(store)
        .unwrap()
        .open_findings()
        .map(|one| one.id.clone())
        .collect();
    for finding in open {
        let new = NewRepair {
            finding,
            what: "Put right.".to_owned(),
            name: "A. Mason".to_owned(),
            photos: Vec::new(),
        };
        site::repair_add(store, &new, at(minutes)).unwrap();
    }
}

fn open(store: &Store) -> Vec<String> {
    state(store)
        .unwrap()
        .open_findings()
        .map(|one| one.code.clone())
        .collect()
}

#[test]
fn a_gust_that_was_too_hard_waits_for_a_round_that_names_one() {
    let (_data, _jobs, mut store) = job();
    let proposal = keep(&mut store);
    let gust = Read {
        reasons: &["wind"],
        gust_m_s: Some(30.0),
        ..CALM
    };
    round(&mut store, 1, &proposal, &gust);
    put_right(&mut store, 2);
    round(&mut store, 3, &proposal, &CALM);
    assert_eq!(open(&store), ["wind"], "nobody said how hard it blows");
    let calm = Read {
        gust_m_s: Some(5.0),
        ..CALM
    };
    round(&mut store, 4, &proposal, &calm);
    assert!(open(&store).is_empty());
}

#[test]
fn braces_asked_for_too_much_wait_for_a_round_of_every_prop() {
    let (_data, _jobs, mut store) = job();
    let proposal = keep(&mut store);
    let leaning = Read {
        reasons: &["sideways"],
        ..CALM
    };
    round(&mut store, 1, &proposal, &leaning);
    put_right(&mut store, 2);
    for props in [&[][..], &["N1-in"]] {
        round(&mut store, 3, &proposal, &Read { props, ..CALM });
        assert_eq!(
            open(&store),
            ["sideways"],
            "the leans of {props:?} are not those of all"
        );
    }
    round(&mut store, 4, &proposal, &CALM);
    assert!(open(&store).is_empty());
}

#[test]
fn out_stands_while_doors_stick_or_gauges_are_left_out() {
    let (_data, _jobs, mut store) = job();
    let proposal = keep(&mut store);
    let sticks = Read {
        reasons: &["doors_stick"],
        doors_stick: true,
        ..CALM
    };
    let out = Read {
        reasons: &["out"],
        gauges: &["G1"],
        doors_stick: true,
        ..CALM
    };
    round(&mut store, 1, &proposal, &sticks);
    put_right(&mut store, 2);
    // The doors stick still, and the cracks grow as well.
    round(&mut store, 3, &proposal, &out);
    assert_eq!(open(&store), ["doors_stick", "out"]);
    put_right(&mut store, 4);
    // The gauge is not read, so that nothing grows on paper.
    round(&mut store, 5, &proposal, &sticks);
    assert!(state(&store).unwrap().out, "the doors stick still");
    put_right(&mut store, 6);
    round(&mut store, 7, &proposal, &CALM);
    assert_eq!(open(&store), ["out"], "nobody read the gauge");
    let whole = Read {
        gauges: &["G1"],
        ..CALM
    };
    round(&mut store, 8, &proposal, &whole);
    assert!(open(&store).is_empty() && !state(&store).unwrap().out);
    // Written down by hand once everybody was told to get out.
    let moved = NewFinding {
        category: "moves".to_owned(),
        name: "A. Mason".to_owned(),
        ..NewFinding::default()
    };
    site::finding_add(&mut store, &moved, at(9)).unwrap();
    assert!(state(&store).unwrap().out);
}

#[test]
fn a_photo_from_before_a_finding_does_not_close_it() {
    let (_data, _jobs, mut store) = job();
    keep(&mut store);
    let old = photo(&mut store, &jpeg(8, 8), "floor", 1);
    let found = NewFinding {
        category: "other".to_owned(),
        what: "A wedge lies on the floor".to_owned(),
        name: "C. Neighbour".to_owned(),
        ..NewFinding::default()
    };
    let finding = site::finding_add(&mut store, &found, at(2)).unwrap().hash.to_string();
    // Said anew what it shows, it is no newer.
    let taken = store.of_kind(Kind::PhotoTaken).unwrap()[0].hash;
    site::correct(&mut store, taken, &json!({"about": "N1-in"}), at(3)).unwrap();
    let mut repair = NewRepair {
        finding,
        what: "Driven home.".to_owned(),
        name: "A. Mason".to_owned(),
        photos: vec![old.sha.to_string()],
    };
    site::repair_add(&mut store, &repair, at(4)).unwrap();
    assert_eq!(open(&store), ["other"], "it shows what was there before");
    repair.photos = vec![photo(&mut store, &jpeg(10, 8), "floor", 5).sha.to_string()];
    site::repair_add(&mut store, &repair, at(6)).unwrap();
    assert!(open(&store).is_empty());
}

#[test]
fn a_round_that_knew_nothing_of_a_stage_cut_elsewhere_does_not_answer_for_it() {
    let (_data, _jobs, mut one) = job();
    let proposal = keep(&mut one);
    let (_there, theirs) = phone();
    hand_over(&mut one, &theirs, 1);
    let mut two = theirs.open_job(one.job()).unwrap();
    let stage = json!({"stop": "needle/1", "code": "needle", "group": "holes", "proposal": proposal, "name": "A",
        "asked": "Needle N1 is in and packed."});
    add(&mut two, 10, Kind::StopPassed, stage);
    // This phone wrote more, so that its round stands behind the stage in the record.
    for minutes in 2..20 {
        add(&mut one, minutes, Kind::Note, json!({"text": "x"}));
    }
    round(&mut one, 21, &proposal, &CALM);
    let entries = two.all_entries().unwrap();
    one.write(|gate| gate.take_in(&entries).map(drop)).unwrap();
    assert_eq!(due(&one, at(22)).unwrap().code, "after_stage");
    round(&mut one, 23, &proposal, &CALM);
    assert_eq!(due(&one, at(24)).unwrap().code, "done");
}

#[test]
fn a_permit_to_take_out_that_was_withdrawn_hides_no_missing_day() {
    let (_data, _jobs, mut store) = job();
    let proposal = keep(&mut store);
    round(&mut store, 0, &proposal, &CALM);
    let out = json!({"stop": "permit_to_take_out/1", "code": "permit_to_take_out", "proposal": proposal, "name": "B"});
    add(&mut store, 1, Kind::Permit, out);
    let missing = |store: &Store| -> Vec<String> {
        let days = record_days(store, at(3 * DAY)).unwrap().days;
        days.into_iter().filter(|run| run.missing).map(|run| run.day).collect()
    };
    assert!(missing(&store).is_empty());
    let knock = NewFinding {
        category: "knock".to_owned(),
        name: "A".to_owned(),
        ..NewFinding::default()
    };
    site::finding_add(&mut store, &knock, at(2)).unwrap();
    assert_eq!(missing(&store), ["2026-03-04", "2026-03-03"]);
    assert_eq!(due(&store, at(3 * DAY)).unwrap().missing.len(), 2);
}

#[test]
fn a_curve_that_stops_bars_a_permit_though_each_round_passed() {
    let (_data, _jobs, mut store) = job();
    let order = json!([{"stop": true, "code": "permit_to_load", "group": "holes", "words": "Permit."}]);
    let body = json!({"aim": "fewest", "option": 0, "job": {}, "proposal": {"options": [{}], "order": order}});
    let proposal = add(&mut store, 0, Kind::ProposalKept, body);
    // After two still days 1.6 mm are taken up in each of two rounds of one morning: 3.2 mm in a day.
    for (minutes, turns) in [(0, 0.0), (DAY, 0.0), (2 * DAY, 0.2), (2 * DAY + 180, 0.2)] {
        let reading = json!({"prop": "N1-in", "pin": "right", "collar_turns": turns, "thread_mm": 8, "lean_mm": [0, 0],
            "over_m": 1.5, "head_off_mm": 0, "foot_off_mm": 0, "foot_firm": true, "straight": true, "fixed": true,
            "packed": true});
        let body = json!({"proposal": proposal, "round": {"readings": [reading]},
            "evaluation": {"passed": true, "stop": false, "reasons": []}});
        add(&mut store, minutes, Kind::RoundDone, body);
        let given = site::pass(&mut store, "permit_to_load/1", "B. Check", None, at(minutes + 1));
        if minutes > 2 * DAY {
            let why = given.unwrap_err();
            assert_eq!(why.code, "permit_refused");
            assert!(why.message.contains("N1-in gives way: too much"), "{}", why.message);
        } else {
            assert!(given.is_ok(), "{minutes}");
        }
    }
}

#[test]
fn a_permit_that_was_withdrawn_does_not_come_back_by_a_correction() {
    let (_data, _jobs, mut store) = job();
    let proposal = keep(&mut store);
    round(&mut store, 0, &proposal, &CALM);
    let permit = json!({"stop": "permit_to_load/1", "code": "permit_to_load", "proposal": proposal, "name": "B"});
    add(&mut store, 1, Kind::Permit, permit.clone());
    let stands = |store: &Store| -> Vec<bool> {
        let permits = state(store).unwrap().permits;
        permits.iter().map(|permit| permit.stands).collect()
    };
    assert_eq!(stands(&store), [true]);
    let braces = Read {
        reasons: &["braces"],
        ..CALM
    };
    round(&mut store, 2, &proposal, &braces);
    assert_eq!(stands(&store), [false]);
    // It was a slip of the thumb, and is corrected: somebody looks again all the same, and the permit is given again.
    let rounds = store.of_kind(Kind::RoundDone).unwrap();
    let mended = NewEntry::new(Kind::RoundDone, rounds[0].body.clone()).correcting(rounds[1].hash);
    store.append_many(at(3), vec![mended], None).unwrap();
    assert_eq!(open(&store), ["braces"]);
    assert_eq!(stands(&store), [false]);
    add(&mut store, 4, Kind::Permit, permit.clone());
    assert_eq!(stands(&store), [false, false], "given over what was only corrected");
    round(&mut store, 5, &proposal, &CALM);
    assert!(open(&store).is_empty());
    assert_eq!(stands(&store), [false, false]);
    add(&mut store, 6, Kind::Permit, permit);
    assert_eq!(stands(&store), [false, false, true]);
}

/// A correction is no way round a repair: what it says yes to stays open until somebody who knows of it has looked again.
#[test]
fn what_is_corrected_to_yes_stays_open_until_it_is_looked_at_again() {
    let (_data, _jobs, mut store) = job();
    let proposal = keep(&mut store);
    round(&mut store, 0, &proposal, &CALM);
    let bent = Read {
        reasons: &["braces"],
        ..CALM
    };
    round(&mut store, 1, &proposal, &bent);
    let (_there, theirs) = crate::import::phone();
    hand_over(&mut store, &theirs, 2);
    let mut other = theirs.open_job(store.job()).unwrap();
    let rounds = store.of_kind(Kind::RoundDone).unwrap();
    let me = upstay_lib::record::DraftWrite {
        field: "/job/people/me".to_owned(),
        text: Some("A. Mason".to_owned()),
        counter: 1,
    };
    store.draft_put(&[me]).unwrap();
    let mended = NewEntry::new(Kind::RoundDone, rounds[0].body.clone()).correcting(rounds[1].hash);
    let mended = store.append_many(at(10), vec![mended], None).unwrap()[0].hash;
    let finding = state(&store).unwrap().findings.remove(0);
    let corrected = finding.corrected.as_ref().unwrap();
    assert_eq!((corrected.entry, corrected.name.as_str()), (mended, "A. Mason"));
    assert!(finding.open && finding.waits == "reading", "{finding:?}");
    assert!(
        finding.waits_words.contains("not with the correction"),
        "{}",
        finding.waits_words
    );
    // A round on a phone that had not heard of the correction closes nothing, nor does the corrected round itself.
    round(&mut other, 11, &proposal, &CALM);
    let entries = other.all_entries().unwrap();
    store.write(|gate| gate.take_in(&entries).map(drop)).unwrap();
    assert_eq!(open(&store), ["braces"]);
    round(&mut store, 12, &proposal, &CALM);
    let now = state(&store).unwrap();
    assert_eq!((now.open, now.findings[0].open), (0, false));
    assert_eq!(now.findings[0].closed.as_ref().unwrap().repair, mended);
    assert!(
        now.findings[0].corrected.is_some(),
        "it goes on saying how it was closed"
    );
}
