//! Findings, permits and proposals over several phones: the careful answer wins, and it is the same everywhere.

use serde_json::{Value, json};
use tempfile::TempDir;
use upstay_lib::record::{Entry, Hash, Jobs, Kind, NewEntry, Store, check_foreign};
use upstay_lib::site::{self, NewFinding, NewRepair, SiteState, fold, state};

use crate::import::{hand_over, phone};
use crate::make::{Dice, at, job, jpeg, photo};

fn add(store: &mut Store, minutes: i64, kind: Kind, body: Value) -> Hash {
    let entry = NewEntry::new(kind, body);
    store.append_many(at(minutes), vec![entry], None).unwrap()[0].hash
}

fn keep(store: &mut Store, minutes: i64) -> Hash {
    let body = json!({"aim": "fewest", "option": 0, "job": {}, "proposal": {"options": [{}], "order": []}});
    add(store, minutes, Kind::ProposalKept, body)
}

/// A round of two props; `wrong` names those whose board is not firm.
fn round_body(proposal: Hash, wrong: &[&str]) -> Value {
    let readings: Vec<Value> = ["N1-in", "N1-out"]
        .iter()
        .map(|prop| json!({"prop": prop, "foot_firm": !wrong.contains(prop)}))
        .collect();
    let reasons: Vec<Value> = wrong
        .iter()
        .map(|prop| json!({"code": "foot", "words": format!("{prop}: the board is not firm.")}))
        .collect();
    json!({
        "proposal": proposal,
        "round": {"readings": readings},
        "evaluation": {"passed": wrong.is_empty(), "stop": false, "reasons": reasons},
    })
}

fn round(store: &mut Store, minutes: i64, proposal: Hash, wrong: &[&str]) -> Hash {
    add(store, minutes, Kind::RoundDone, round_body(proposal, wrong))
}

fn permit(store: &mut Store, minutes: i64, proposal: Hash) -> Hash {
    let body = json!({"stop": "permit_to_load/1", "code": "permit_to_load", "proposal": proposal, "name": "B. Check"});
    add(store, minutes, Kind::Permit, body)
}

fn repair(store: &mut Store, minutes: i64, finding: &str) -> Entry {
    let new = NewRepair {
        finding: finding.to_owned(),
        what: "New board under it.".to_owned(),
        name: "A. Mason".to_owned(),
        photos: Vec::new(),
    };
    site::repair_add(store, &new, at(minutes)).unwrap()
}

fn by_hand(category: &str) -> NewFinding {
    NewFinding {
        category: category.to_owned(),
        name: "C. Neighbour".to_owned(),
        place: "kitchen".to_owned(),
        ..NewFinding::default()
    }
}

/// What one phone knows is taken in by the other.
fn give(from: &Store, to: &mut Store) {
    let entries = from.all_entries().unwrap();
    check_foreign(from.job(), &entries).unwrap();
    to.write(|gate| gate.take_in(&entries).map(drop)).unwrap();
}

/// The same job on a second phone.
fn second(store: &mut Store) -> (TempDir, Jobs, Store) {
    let (data, jobs) = phone();
    hand_over(store, &jobs, 1);
    let other = jobs.open_job(store.job()).unwrap();
    (data, jobs, other)
}

fn same(stores: &[&Store]) -> SiteState {
    let first = state(stores[0]).unwrap();
    for store in stores {
        assert_eq!(state(store).unwrap(), first);
    }
    first
}

#[test]
fn a_no_stands_until_it_is_put_right_and_read_again() {
    let (_data, _jobs, mut store) = job();
    let proposal = keep(&mut store, 1);
    let found = round(&mut store, 2, proposal, &["N1-in"]);
    let now = state(&store).unwrap();
    let finding = &now.findings[0];
    assert_eq!(
        (now.open, finding.entry, finding.about.as_str(), finding.waits),
        (1, found, "N1-in", "repair")
    );
    assert_eq!(now.bars, ["Open since 2 March 2026: N1-in: the board is not firm."]);
    let id = finding.id.clone();
    // A reading that passes without a repair closes nothing, and a repair without a reading neither.
    round(&mut store, 3, proposal, &[]);
    assert_eq!(state(&store).unwrap().open, 1);
    repair(&mut store, 4, &id);
    assert_eq!(state(&store).unwrap().findings[0].waits, "reading");
    // The other prop's trouble does not keep this one open.
    let closing = round(&mut store, 5, proposal, &["N1-out"]);
    let now = state(&store).unwrap();
    assert_eq!(now.findings[0].closed.as_ref().unwrap().reading, closing);
    assert_eq!((now.open, now.findings[1].about.as_str()), (1, "N1-out"));
    // Found again later: a finding of its own, which the old repair does not close.
    round(&mut store, 6, proposal, &["N1-in"]);
    round(&mut store, 7, proposal, &[]);
    let now = state(&store).unwrap();
    let again: Vec<(&str, bool)> = now.findings.iter().map(|one| (one.about.as_str(), one.open)).collect();
    assert_eq!(again, [("N1-in", false), ("N1-out", true), ("N1-in", true)]);
    let why = site::repair_add(
        &mut store,
        &NewRepair {
            finding: id,
            ..NewRepair::default()
        },
        at(8),
    )
    .unwrap_err();
    assert_eq!(why.code, "no_finding");
}

#[test]
fn a_permit_given_on_one_phone_lapses_by_a_finding_on_the_other() {
    let (_data, _jobs, mut one) = job();
    let proposal = keep(&mut one, 0);
    round(&mut one, 0, proposal, &[]);
    let (_there, _theirs, mut two) = second(&mut one);
    permit(&mut one, 10, proposal);
    assert!(state(&one).unwrap().permits[0].stands);
    site::finding_add(&mut two, &by_hand("knock"), at(5)).unwrap();
    give(&one, &mut two);
    give(&two, &mut one);
    let now = same(&[&one, &two]);
    assert!(!now.permits[0].stands && now.stop);
    assert!(
        now.permits[0].withdrawn[0].contains("had not seen"),
        "{:?}",
        now.permits[0].withdrawn
    );
    assert!(site::passed(&one).unwrap().is_empty());
    // Put right and read again, it still has to be given again.
    let id = now.findings[0].id.clone();
    repair(&mut one, 20, &id);
    round(&mut one, 21, proposal, &[]);
    let now = state(&one).unwrap();
    assert_eq!((now.open, now.permits[0].stands), (0, false));
    permit(&mut one, 22, proposal);
    give(&one, &mut two);
    let now = same(&[&one, &two]);
    assert_eq!(
        now.permits.iter().map(|permit| permit.stands).collect::<Vec<_>>(),
        [false, true]
    );
    // A correction of the round that was passed, after the permit, is news to whoever gave it.
    let last = two.last_of(Kind::RoundDone).unwrap().unwrap();
    let mended = NewEntry::new(Kind::RoundDone, round_body(proposal, &["N1-out"])).correcting(last.hash);
    two.append_many(at(30), vec![mended], None).unwrap();
    give(&two, &mut one);
    let now = same(&[&one, &two]);
    assert!(now.permits.iter().all(|permit| !permit.stands));
    // The knock had closed with that very round, which did not pass after all.
    let open: Vec<&str> = now.open_findings().map(|one| one.code.as_str()).collect();
    assert_eq!(open, ["knock", "foot"]);
}

#[test]
fn a_repair_by_someone_who_had_not_seen_it_does_not_close() {
    let (_data, _jobs, mut one) = job();
    let proposal = keep(&mut one, 0);
    round(&mut one, 0, proposal, &["N1-in"]);
    let (_there, _theirs, mut two) = second(&mut one);
    let id = state(&one).unwrap().findings[0].id.clone();
    // Two finds the same once more while one puts right what it knows and reads it again.
    round(&mut two, 10, proposal, &["N1-in"]);
    repair(&mut one, 11, &id);
    round(&mut one, 12, proposal, &[]);
    assert_eq!(state(&one).unwrap().open, 0);
    give(&one, &mut two);
    give(&two, &mut one);
    let now = same(&[&one, &two]);
    assert_eq!((now.open, now.findings.len(), now.findings[0].again.len()), (1, 1, 1));
    assert!(!now.findings[0].repairs[0].counts && !now.findings[0].repairs[0].why_not.is_empty());
    repair(&mut two, 13, &id);
    round(&mut two, 14, proposal, &[]);
    give(&two, &mut one);
    assert_eq!(same(&[&one, &two]).open, 0);
}

#[test]
fn what_is_written_by_hand_closes_by_a_photo_only_where_that_says_enough() {
    let (_data, _jobs, mut store) = job();
    let proposal = keep(&mut store, 0);
    for (width, category, by_photo) in [(8, "load_on_floors", true), (16, "digging", false)] {
        let id = site::finding_add(&mut store, &by_hand(category), at(2))
            .unwrap()
            .hash
            .to_string();
        let sha = photo(&mut store, &jpeg(width, 8), "floor", 2).sha.to_string();
        let mut new = NewRepair {
            finding: id.clone(),
            what: "Done.".to_owned(),
            name: "A. Mason".to_owned(),
            photos: vec![sha.replace(|_: char| true, "0")],
        };
        assert_eq!(site::repair_add(&mut store, &new, at(3)).unwrap_err().code, "no_photo");
        new.photos = vec![sha.clone()];
        site::repair_add(&mut store, &new, at(3)).unwrap();
        let open = |store: &Store| state(store).unwrap().open_findings().any(|one| one.id == id);
        assert_eq!(open(&store), !by_photo, "{category}");
        round(&mut store, 4, proposal, &[]);
        assert!(!open(&store), "{category}");
    }
    // A finding whose words were corrected is the same finding.
    let entry = site::finding_add(&mut store, &by_hand("frost"), at(5)).unwrap();
    site::correct(
        &mut store,
        entry.hash,
        &json!({"words": "Ice under two boards", "where": "yard"}),
        at(6),
    )
    .unwrap();
    let now = state(&store).unwrap();
    let last = now.findings.last().unwrap();
    assert_eq!(
        (last.words.as_str(), last.place.as_str(), now.open),
        ("Ice under two boards", "yard", 1)
    );
    for (new, code) in [
        (by_hand("pin"), "category"),
        (
            NewFinding {
                name: " ".to_owned(),
                ..by_hand("frost")
            },
            "name_missing",
        ),
        (by_hand("other"), "what_missing"),
        (
            NewFinding {
                what: "x".repeat(2001),
                ..by_hand("other")
            },
            "too_long",
        ),
    ] {
        assert_eq!(site::finding_add(&mut store, &new, at(7)).unwrap_err().code, code);
    }
}

#[test]
fn two_proposals_stand_as_a_question_until_one_is_chosen() {
    let (_data, _jobs, mut one) = job();
    let first = keep(&mut one, 0);
    let (_there, _theirs, mut two) = second(&mut one);
    assert_eq!(
        site::choose(&mut one, first, "A", at(2)).unwrap_err().code,
        "no_question"
    );
    let mine = keep(&mut one, 10);
    round(&mut one, 11, mine, &[]);
    permit(&mut one, 12, mine);
    assert!(state(&one).unwrap().permits[0].stands);
    keep(&mut two, 10);
    give(&one, &mut two);
    give(&two, &mut one);
    let now = same(&[&one, &two]);
    assert_eq!(now.proposals_open.as_ref().unwrap().proposals.len(), 2);
    assert!(!now.permits[0].stands && now.bars.len() == 1);
    assert_eq!(site::due(&one, at(13)).unwrap().code, "proposals");
    assert_eq!(
        site::choose(&mut two, first, "A", at(14)).unwrap_err().code,
        "no_proposal"
    );
    site::choose(&mut two, mine, "A. Mason", at(14)).unwrap();
    give(&two, &mut one);
    let now = same(&[&one, &two]);
    assert!(now.proposals_open.is_none() && now.bars.is_empty());
    // Whoever gave the permit knew of one only.
    assert!(!now.permits[0].stands);
    // The rounds on what was chosen go on counting.
    let curves = site::curves(&one).unwrap();
    assert!(curves.series.is_empty(), "its readings hold no turns and no lean");
    permit(&mut one, 15, two.last_of(Kind::ProposalKept).unwrap().unwrap().hash);
    assert!(state(&one).unwrap().permits[1].stands);
}

/// Entries of findings that are open.
fn standing(state: &SiteState) -> Vec<Hash> {
    let entries = |one: &site::Finding| {
        std::iter::once(one.entry)
            .chain(one.again.iter().map(|more| more.entry))
            .collect::<Vec<_>>()
    };
    state.open_findings().flat_map(entries).collect()
}

/// Phones that write and hand over at random come to the same state, whatever the order, and nothing is closed by somebody
/// who did not know of it.
#[test]
fn the_order_of_import_does_not_matter() {
    for seed in 0..25 {
        let mut dice = Dice::new(seed);
        let (_data, _jobs, mut first) = job();
        let proposal = keep(&mut first, 0);
        let (_two, _two_jobs, two) = second(&mut first);
        let (_three, _three_jobs, three) = second(&mut first);
        let mut stores = [first, two, three];
        for minute in 2..30 {
            let who = dice.below(3);
            match dice.below(8) {
                0 | 1 => drop(round(&mut stores[who], minute, proposal, &[])),
                2 => drop(round(&mut stores[who], minute, proposal, &["N1-in"])),
                3 => drop(permit(&mut stores[who], minute, proposal)),
                4 => drop(site::finding_add(&mut stores[who], &by_hand("knock"), at(minute)).unwrap()),
                5 => {
                    let open = standing_ids(&stores[who]);
                    if !open.is_empty() {
                        let id = open[dice.below(open.len())].clone();
                        repair(&mut stores[who], minute, &id);
                    }
                }
                6 if dice.below(4) == 0 => drop(keep(&mut stores[who], minute)),
                _ => {
                    let to = (who + 1 + dice.below(2)) % 3;
                    let known: Vec<Hash> = stores[who]
                        .all_entries()
                        .unwrap()
                        .iter()
                        .map(|entry| entry.hash)
                        .collect();
                    let before = state(&stores[to]).unwrap();
                    let entries = stores[who].all_entries().unwrap();
                    stores[to].write(|gate| gate.take_in(&entries).map(drop)).unwrap();
                    let after = state(&stores[to]).unwrap();
                    let open = standing(&after);
                    for entry in standing(&before).iter().filter(|entry| !known.contains(entry)) {
                        assert!(
                            open.contains(entry),
                            "seed {seed}: closed by somebody who did not know of it"
                        );
                    }
                    for permit in before.permits.iter().filter(|permit| !permit.stands) {
                        let now = after.permits.iter().find(|one| one.entry == permit.entry).unwrap();
                        assert!(!now.stands, "seed {seed}: a permit that was withdrawn stands again");
                    }
                }
            }
        }
        for _ in 0..2 {
            let start = dice.below(3);
            for step in 0..3 {
                let entries = stores[(start + step) % 3].all_entries().unwrap();
                stores[(start + step + 1) % 3]
                    .write(|gate| gate.take_in(&entries).map(drop))
                    .unwrap();
            }
        }
        let [first, two, three] = &stores;
        let whole = same(&[first, two, three]);
        let mut entries = first.all_entries().unwrap();
        for place in (1..entries.len()).rev() {
            entries.swap(place, dice.below(place + 1));
        }
        assert_eq!(fold(entries), whole, "seed {seed}");
    }
}

fn standing_ids(store: &Store) -> Vec<String> {
    state(store)
        .unwrap()
        .open_findings()
        .map(|one| one.id.clone())
        .collect()
}
