//! Where a job stands is folded with work that grows with the record, not with its pairs: ten thousand entries in which every
//! finding, repair, round and permit could be held against every other.

use serde_json::{Value, json};
use std::collections::BTreeSet;
use upstay_lib::record::{Entry, Hash, Head, Kind, Moment};
use upstay_lib::site::{asked, fold};
use uuid::Uuid;

use crate::make::at;

/// Entries of a few phones, made without a database: only folding is looked at.
struct Crowd {
    phones: Vec<Uuid>,
    entries: Vec<Entry>,
}

impl Crowd {
    fn of(phones: u128) -> Self {
        Self {
            phones: (1..=phones).map(Uuid::from_u128).collect(),
            entries: Vec::new(),
        }
    }

    /// Adds an entry of a phone that has heard of everything before it.
    fn add(&mut self, phone: usize, kind: Kind, body: Value) -> Hash {
        let device = self.phones[phone];
        let last = |of: Uuid| self.entries.iter().rev().find(|entry| entry.device == of);
        let others = self.phones.iter().filter(|other| **other != device);
        let seen: Vec<Head> = others.filter_map(|other| last(*other).map(Entry::head)).collect();
        let place = self.entries.len();
        let entry = Entry {
            position: 0,
            device,
            seq: last(device).map_or(0, |entry| entry.seq) + 1,
            tick: place as i64 + 1,
            seen,
            moment: Moment { ..at(place as i64) },
            kind,
            body,
            corrects: None,
            prev: Hash::ZERO,
            hash: Hash::of(&place.to_be_bytes()),
        };
        let hash = entry.hash;
        self.entries.push(entry);
        hash
    }
}

fn round(no: Option<&str>) -> Value {
    let reasons: Vec<Value> = no
        .iter()
        .map(|code| json!({"code": code, "words": format!("{code} is wrong.")}))
        .collect();
    json!({"round": {"readings": [{"prop": "N1-in"}], "job_checks": {}},
        "evaluation": {"passed": no.is_none(), "stop": false, "reasons": reasons}})
}

fn repair(of: Hash, code: &str) -> Value {
    json!({"finding": format!("{of}/{code}/"), "words": "Put right.", "name": "A", "photos": []})
}

fn permit() -> Value {
    json!({"stop": "permit_to_load/1", "code": "permit_to_load", "name": "B"})
}

/// Found, repaired, looked at again, permitted: each in a block of its own, so that every pair comes up.
fn blocks(each: usize, phones: u128) -> Vec<Entry> {
    let mut crowd = Crowd::of(phones);
    let on = |n: usize| n % phones as usize;
    let found: Vec<Hash> = (0..each)
        .map(|n| crowd.add(on(n), Kind::RoundDone, round(Some("braces"))))
        .collect();
    for (n, hash) in found.into_iter().enumerate() {
        crowd.add(on(n), Kind::Repair, repair(hash, "braces"));
    }
    for n in 0..each {
        crowd.add(on(n), Kind::RoundDone, round(None));
    }
    for n in 0..each {
        crowd.add(on(n), Kind::Permit, permit());
    }
    crowd.entries
}

/// As many findings by hand, none of them put right, and as many permits over them.
fn open(each: usize, phones: u128) -> Vec<Entry> {
    let mut crowd = Crowd::of(phones);
    let on = |n: usize| n % phones as usize;
    for n in 0..each {
        let body = json!({"category": "other", "words": format!("Thing {n}"), "name": "C", "photos": []});
        crowd.add(on(n), Kind::Finding, body);
    }
    for n in 0..each {
        crowd.add(on(n), Kind::Permit, permit());
    }
    crowd.entries
}

/// Found, repaired and looked at again, over and over, with a permit each time.
fn turns(each: usize, phones: u128) -> Vec<Entry> {
    let mut crowd = Crowd::of(phones);
    for n in 0..each {
        let on = n % phones as usize;
        let found = crowd.add(on, Kind::RoundDone, round(Some("braces")));
        crowd.add(on, Kind::Repair, repair(found, "braces"));
        crowd.add(on, Kind::RoundDone, round(None));
        crowd.add(on, Kind::Permit, permit());
    }
    crowd.entries
}

/// An entry of a phone that writes nothing else and has seen these.
fn alone(entries: &mut Vec<Entry>, kind: Kind, body: Value, seen: &[usize]) {
    let place = entries.len();
    let seen: Vec<Head> = seen.iter().filter_map(|at| entries.get(*at).map(Entry::head)).collect();
    entries.push(Entry {
        position: 0,
        device: Uuid::from_u128(place as u128 + 1),
        seq: 1,
        tick: place as i64 + 1,
        seen,
        moment: Moment { ..at(place as i64) },
        kind,
        body,
        corrects: None,
        prev: Hash::ZERO,
        hash: Hash::of(&place.to_be_bytes()),
    });
}

/// Each entry by a phone of its own that has seen the first one only: proposals, corrections of one round, findings, repairs,
/// permits and closings that know nothing of each other.
fn swarm(each: usize, _phones: u128) -> Vec<Entry> {
    let mut entries = Vec::new();
    alone(&mut entries, Kind::RoundDone, round(Some("braces")), &[]);
    let first = entries[0].hash;
    for _ in 0..each {
        alone(&mut entries, Kind::ProposalKept, json!({}), &[0]);
        alone(&mut entries, Kind::RoundDone, round(Some("braces")), &[0]);
        entries.last_mut().unwrap().corrects = Some(first);
        alone(&mut entries, Kind::RoundDone, round(Some("braces")), &[0]);
        alone(&mut entries, Kind::Repair, repair(first, "braces"), &[0]);
        alone(&mut entries, Kind::Permit, permit(), &[0]);
        alone(
            &mut entries,
            Kind::JobClosed,
            json!({"name": "D", "anyway": "sold"}),
            &[0],
        );
        alone(
            &mut entries,
            Kind::JobReopened,
            json!({"name": "D", "reason": "no"}),
            &[0],
        );
    }
    entries
}

/// One phone that saw everything, asked again and again about a swarm of others.
fn knowing(each: usize, _phones: u128) -> Vec<Entry> {
    let mut entries = Vec::new();
    for _ in 0..each {
        alone(&mut entries, Kind::RoundDone, round(Some("braces")), &[]);
    }
    let all: Vec<usize> = (0..each).collect();
    let first = entries[0].hash;
    alone(&mut entries, Kind::Repair, repair(first, "braces"), &all);
    alone(&mut entries, Kind::RoundDone, round(None), &all);
    for _ in 0..each {
        let last = entries.len() - 1;
        alone(&mut entries, Kind::Permit, permit(), &[each, last]);
    }
    entries
}

/// Rounds that each say "out" over gauges of their own, each about a code of its own that this version has no words for.
fn strange(each: usize, phones: u128) -> Vec<Entry> {
    let mut crowd = Crowd::of(phones);
    for n in 0..each {
        let reasons =
            json!([{"code": "out", "words": "Get out."}, {"code": format!("new{n}"), "words": "N1-in: odd."}]);
        let body = json!({"round": {"readings": [{"prop": "N1-in"}], "gauges": [{"name": format!("G{n}"), "mm": 1}]},
            "evaluation": {"passed": false, "stop": true, "reasons": reasons}});
        crowd.add(n % phones as usize, Kind::RoundDone, body);
    }
    crowd.entries
}

/// How often two entries are held against each other while all of them are folded.
fn held_against(entries: Vec<Entry>) -> u64 {
    let before = asked();
    let state = fold(entries);
    assert!(!state.findings.is_empty());
    asked() - before
}

/// Four times the entries may ask ten times as often; pairs would be sixteen times as many.
#[test]
fn four_times_the_entries_ask_nowhere_near_sixteen_times_as_often() {
    const SMALL: usize = 900;
    for (name, make) in [
        ("blocks", blocks as fn(usize, u128) -> Vec<Entry>),
        ("open", open),
        ("turns", turns),
        ("swarm", swarm),
        ("knowing", knowing),
        ("strange", strange),
    ] {
        for phones in [1, 3] {
            let small = held_against(make(SMALL, phones));
            let many = make(SMALL * 4, phones);
            let entries = many.len();
            let large = held_against(many);
            println!("{name}, {phones} phones: {entries} entries ask {large} times, a quarter of them {small}");
            assert!(
                small > 1000,
                "{name}, {phones} phones: {small} is no count of all of it"
            );
            assert!(large < small * 10, "{name}, {phones} phones: {small}, then {large}");
        }
    }
}

/// The same answers as before pairs were bounded, told on records small enough to count them.
#[test]
fn a_crowded_record_says_what_a_small_one_says() {
    for phones in [1, 3] {
        let state = fold(blocks(40, phones));
        assert_eq!((state.findings.len(), state.open), (1, 0));
        assert_eq!(state.findings[0].again.len(), 39);
        assert!(state.permits.iter().all(|permit| permit.stands), "{:?}", state.permits);

        let state = fold(open(50, phones));
        assert_eq!(state.open, 50);
        let told: BTreeSet<(usize, String)> = state
            .permits
            .iter()
            .map(|permit| (permit.withdrawn.len(), permit.withdrawn.last().cloned().unwrap()))
            .collect();
        let expected = (21, "Findings beside these: 30.".to_owned());
        assert_eq!(told, BTreeSet::from([expected]));

        let state = fold(turns(30, phones));
        assert_eq!((state.findings.len(), state.open), (30, 0));
        assert!(state.findings.iter().all(|finding| finding.repairs.len() == 1));
        let stands: Vec<bool> = state.permits.iter().map(|permit| permit.stands).collect();
        assert_eq!(
            stands.iter().filter(|stands| **stands).count(),
            1,
            "only the last saw all closed"
        );
        assert!(stands.last().unwrap());
        // The first permit falls to what was found after it, and to nothing else.
        assert_eq!(
            state.permits[28].withdrawn,
            ["A finding that whoever gave it had not seen: braces is wrong."]
        );
    }
}
