//! Several people on one job: whose name stands under an entry, and a yes that is taken back.

use serde_json::{Value, json};
use upstay_lib::record::{DraftWrite, Hash, Kind, NewEntry, Store};
use upstay_lib::site::{self, passed, signed_by, state, words};

use crate::import::{hand_over, phone};
use crate::make::{at, job};

fn add(store: &mut Store, minutes: i64, kind: Kind, body: Value) -> Hash {
    store
        .append_many(at(minutes), vec![NewEntry::new(kind, body)], None)
        .unwrap()[0]
        .hash
}

/// Says on this phone who holds it.
fn holds(store: &mut Store, name: &str, counter: i64) {
    let write = DraftWrite {
        field: "/job/people/me".to_owned(),
        text: Some(name.to_owned()),
        counter,
    };
    store.draft_put(&[write]).unwrap();
}

fn keep(store: &mut Store) -> Hash {
    let stop = |code: &str| json!({"stop": true, "code": code, "group": "holes", "words": format!("{code}.")});
    let order = json!([stop("needle"), stop("permit_to_load")]);
    let body = json!({"aim": "fewest", "option": 0, "job": {}, "proposal": {"options": [{}], "order": order}});
    add(store, 1, Kind::ProposalKept, body)
}

#[test]
fn every_entry_has_the_name_of_whoever_held_the_phone_and_each_phone_its_own() {
    let (_data, _jobs, mut store) = job();
    add(&mut store, 1, Kind::Note, json!({"text": "before anybody was named"}));
    holds(&mut store, " A. Mason ", 1);
    let first = add(
        &mut store,
        2,
        Kind::Note,
        json!({"text": "by the mason", "by": "somebody else"}),
    );
    holds(&mut store, "B. Check", 2);
    add(&mut store, 3, Kind::Note, json!({"text": "by the checker"}));
    let (_other_data, jobs) = phone();
    hand_over(&mut store, &jobs, 4);
    let mut other = jobs.open_job(store.job()).unwrap();
    // The name stays with the phone: another one asks for its own.
    add(&mut other, 5, Kind::Note, json!({"text": "on a phone of nobody"}));
    holds(&mut other, "C. Neighbour", 1);
    add(&mut other, 6, Kind::Note, json!({"text": "by the neighbour"}));
    let notes: Vec<Option<String>> = other
        .of_kind(Kind::Note)
        .unwrap()
        .iter()
        .map(|entry| signed_by(entry).map(str::to_owned))
        .collect();
    let name = |name: &str| Some(name.to_owned());
    assert_eq!(
        notes,
        [None, name("A. Mason"), name("B. Check"), None, name("C. Neighbour")]
    );
    // Whoever corrects it signs the correction, and not the one whose words they are.
    let corrected = site::correct(&mut other, first, &json!({"text": "by the mason, yes"}), at(7)).unwrap();
    assert_eq!(signed_by(&corrected), Some("C. Neighbour"));
}

#[test]
fn names_under_what_was_said_are_offered_on_both_phones() {
    let (_data, _jobs, mut store) = job();
    let proposal = keep(&mut store);
    let round = json!({"proposal": proposal, "round": {"name": "A. Mason", "readings": []},
        "evaluation": {"passed": true, "stop": false, "reasons": []}});
    add(&mut store, 2, Kind::RoundDone, round);
    site::pass(&mut store, "needle/1", "B. Check", None, at(3)).unwrap();
    assert_eq!(state(&store).unwrap().names, ["A. Mason", "B. Check"]);
}

#[test]
fn a_yes_is_corrected_in_its_name_or_taken_back_and_then_asked_again() {
    let (_data, _jobs, mut store) = job();
    let proposal = keep(&mut store);
    let yes = site::pass(&mut store, "needle/1", "A. Masson", None, at(2))
        .unwrap()
        .hash;
    site::correct(&mut store, yes, &json!({"name": "A. Mason"}), at(3)).unwrap();
    let said = passed(&store).unwrap();
    assert_eq!((said.len(), said[0].name.as_str(), said[0].entry), (1, "A. Mason", yes));
    let round = json!({"proposal": proposal, "round": {"readings": []},
        "evaluation": {"passed": true, "stop": false, "reasons": []}});
    add(&mut store, 4, Kind::RoundDone, round);
    let permit = site::pass(&mut store, "permit_to_load/1", "B. Check", Some(false), at(5))
        .unwrap()
        .hash;
    let fix = site::correct(&mut store, permit, &json!({"set_out": true}), at(6)).unwrap();
    assert_eq!(words(&fix), "B. Check, who set the support out: yes. permit_to_load.");
    let now = state(&store).unwrap().permits;
    assert_eq!((now.len(), now[0].set_out, now[0].stands), (1, Some(true), true));
    let empty = site::correct(&mut store, permit, &json!({"taken_back": " "}), at(7)).unwrap_err();
    assert_eq!(empty.code, "not_corrected");
    site::correct(&mut store, permit, &json!({"taken_back": "Pressed by mistake"}), at(8)).unwrap();
    let now = state(&store).unwrap().permits;
    assert!(
        !now[0].stands && now[0].withdrawn == ["It was taken back: Pressed by mistake."],
        "{now:?}"
    );
    site::correct(&mut store, yes, &json!({"taken_back": "Wrong needle"}), at(9)).unwrap();
    assert!(passed(&store).unwrap().is_empty());
    let why = site::pass(&mut store, "permit_to_load/1", "B. Check", Some(false), at(10)).unwrap_err();
    assert!(
        why.message.contains("still wait for their yes: needle"),
        "{}",
        why.message
    );
    site::pass(&mut store, "needle/1", "A. Mason", None, at(11)).unwrap();
    site::pass(&mut store, "permit_to_load/1", "B. Check", Some(false), at(12)).unwrap();
    assert_eq!(passed(&store).unwrap().len(), 2);
}
