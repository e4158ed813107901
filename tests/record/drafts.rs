//! What is being typed.

use serde_json::json;
use upstay_lib::record::{DraftWrite, Kind, NewEntry};

use crate::make::{at, job};

fn write(field: &str, text: Option<&str>, counter: i64) -> DraftWrite {
    DraftWrite {
        field: field.to_owned(),
        text: text.map(str::to_owned),
        counter,
    }
}

#[test]
fn an_older_write_is_ignored_and_says_so() {
    let (_data, _jobs, mut store) = job();
    let kept = store
        .draft_put(&[write("/a", Some("3.6"), 5), write("/a", Some("3"), 4)])
        .unwrap();
    assert_eq!(kept.iter().map(|one| one.kept).collect::<Vec<_>>(), [true, false]);
    assert_eq!(store.drafts().unwrap()[0].text, "3.6");
    // Sent twice because the answer was lost: it stands, so it is kept.
    assert!(store.draft_put(&[write("/a", Some("3.6"), 5)]).unwrap()[0].kept);
    assert!(!store.draft_put(&[write("/a", Some("other"), 5)]).unwrap()[0].kept);
    assert_eq!(store.draft_counter().unwrap(), 5);
}

#[test]
fn an_emptied_field_does_not_come_back() {
    let (_data, _jobs, mut store) = job();
    store
        .draft_put(&[write("/a", Some("1"), 1), write("/a", None, 3)])
        .unwrap();
    assert_eq!(store.drafts().unwrap(), []);
    assert!(!store.draft_put(&[write("/a", Some("late"), 2)]).unwrap()[0].kept);
    assert_eq!(store.drafts().unwrap(), []);
}

#[test]
fn a_round_done_clears_its_own_drafts_in_the_same_transaction() {
    let (_data, jobs, mut store) = job();
    store
        .draft_put(&[
            write("/round/readings/0/pin", Some("right"), 1),
            write("/roundabout", Some("stays"), 2),
            write("/wall/cavity_mm", Some("75"), 3),
        ])
        .unwrap();
    store
        .append_many(at(1), vec![NewEntry::new(Kind::RoundDone, json!({}))], Some("/round/"))
        .unwrap();
    // A write that was on its way when the round was kept.
    assert!(
        !store
            .draft_put(&[write("/round/readings/0/pin", Some("right"), 3)])
            .unwrap()[0]
            .kept
    );
    let id = store.job();
    drop(store);
    let fields: Vec<String> = jobs
        .open_job(id)
        .unwrap()
        .drafts()
        .unwrap()
        .into_iter()
        .map(|one| one.field)
        .collect();
    assert_eq!(fields, ["/roundabout", "/wall/cavity_mm"]);
}

/// Percent and underscore are letters here, not patterns.
#[test]
fn a_prefix_is_taken_as_it_stands() {
    let (_data, _jobs, mut store) = job();
    store
        .draft_put(&[write("/a_b", Some("1"), 1), write("/axb", Some("2"), 2)])
        .unwrap();
    store.write(|gate| gate.draft_clear_prefix("/a_")).unwrap();
    assert_eq!(store.drafts().unwrap().len(), 1);
}
