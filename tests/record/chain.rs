//! The chain: append-only by trigger, every edit found.

use std::fs;

use rusqlite::Connection;
use serde_json::json;
use upstay_lib::record::{Hash, Kind, Moment, NewEntry, Store};
use uuid::Uuid;

use crate::make::{at, job, jpeg, note, photo};

#[test]
fn entries_link_and_read_back() {
    let (_data, _jobs, mut store) = job();
    let first = note(&mut store, 1, "one");
    let second = note(&mut store, 2, "two");
    assert_eq!((first.seq, second.seq, second.tick, second.prev), (2, 3, 3, first.hash));
    let newest = store.entries(None, 1).unwrap();
    assert_eq!(newest, std::slice::from_ref(&second));
    assert_eq!(store.entries(Some(second.position), 10).unwrap().len(), 2);
    assert_eq!(store.verify_chain().unwrap(), []);
}

/// The hash is what the documentation says: SHA-256 over the tag and the canonical fields, made here by hand.
#[test]
fn the_hash_is_over_the_tag_and_the_canonical_fields() {
    let (_data, _jobs, mut store) = job();
    let entry = note(&mut store, 1, "β \u{1F600}");
    let text = format!(
        "upstay entry 1\n{{\"at_utc_ms\":1772438460000,\"body\":{{\"text\":\"β \u{1F600}\"}},\"boot_ms\":65000,\
         \"corrects\":null,\"device\":\"{}\",\"job\":\"{}\",\"kind\":\"note\",\"offset_min\":120,\"prev\":\"{}\",\
         \"seen\":[],\"seq\":2,\"tick\":2}}",
        store.device(),
        store.job(),
        entry.prev,
    );
    assert_eq!(entry.hash, Hash::of(text.as_bytes()));
}

#[test]
fn every_way_to_change_a_row_is_refused() {
    let (_data, _jobs, mut store) = job();
    note(&mut store, 1, "one");
    photo(&mut store, &jpeg(8, 8), "wall", 2);
    let db = Connection::open(store.folder().join("record.sqlite")).unwrap();
    db.execute_batch("PRAGMA foreign_keys = ON; PRAGMA recursive_triggers = ON;")
        .unwrap();
    let copy =
        "SELECT device, seq, tick, seen, at_utc_ms, offset_min, boot_ms, kind, '{}', corrects, prev, hash FROM entry";
    for statement in [
        "UPDATE entry SET body = '{}'".to_owned(),
        "DELETE FROM entry WHERE seq = 2".to_owned(),
        format!("INSERT OR REPLACE INTO entry {copy} WHERE seq = 2"),
        "INSERT INTO entry SELECT device, seq + 7, tick, seen, at_utc_ms, offset_min, boot_ms, kind, body, corrects, prev, \
         zeroblob(32) FROM entry WHERE seq = 2"
            .to_owned(),
        "UPDATE photo SET about = 'other'".to_owned(),
        "DELETE FROM photo".to_owned(),
        "INSERT OR REPLACE INTO photo SELECT * FROM photo".to_owned(),
        "UPDATE job SET id = 'x'".to_owned(),
        "DELETE FROM job".to_owned(),
        "INSERT OR REPLACE INTO job SELECT * FROM job".to_owned(),
    ] {
        let why = db.execute(&statement, []).unwrap_err().to_string();
        let words = ["append-only", "does not follow", "job id is fixed"];
        assert!(words.iter().any(|word| why.contains(word)), "{statement}: {why}");
    }
    assert_eq!(store.verify_chain().unwrap(), []);
}

/// Somebody edits the file itself: the database is sound, the chain is not.
#[test]
fn an_edited_byte_is_found() {
    let (_data, jobs, mut store) = job();
    note(&mut store, 1, "Prop N2 leaned 40 mm");
    note(&mut store, 2, "later");
    let (id, path) = (store.job(), store.folder().join("record.sqlite"));
    drop(store);
    let mut bytes = fs::read(&path).unwrap();
    let at = bytes.windows(14).position(|part| part == b"N2 leaned 40 m").unwrap();
    bytes[at + 10] = b'1';
    fs::write(&path, bytes).unwrap();
    let store = jobs.open_job(id).unwrap();
    let faults = store.verify_chain().unwrap();
    assert_eq!(faults.iter().map(|fault| fault.seq).collect::<Vec<_>>(), [2]);
    assert!(faults[0].what.contains("do not fit"), "{}", faults[0].what);
}

/// Somebody takes the triggers away first.
#[test]
fn rows_changed_without_triggers_are_found() {
    let edits = [
        ("UPDATE entry SET at_utc_ms = at_utc_ms + 1 WHERE seq = 3", 3),
        ("UPDATE entry SET boot_ms = NULL WHERE seq = 3", 3),
        ("UPDATE entry SET kind = 'repair' WHERE seq = 3", 3),
        ("UPDATE entry SET prev = zeroblob(32) WHERE seq = 3", 3),
        ("UPDATE entry SET kind = 'nonsense' WHERE seq = 3", 3),
        ("DELETE FROM entry WHERE seq = 3", 4),
    ];
    for (edit, seq) in edits {
        let (_data, _jobs, mut store) = job();
        for minute in 1..5 {
            note(&mut store, minute, "as it was");
        }
        let db = Connection::open(store.folder().join("record.sqlite")).unwrap();
        db.execute_batch("DROP TRIGGER entry_no_update; DROP TRIGGER entry_no_delete;")
            .unwrap();
        assert_eq!(db.execute(edit, []).unwrap(), 1, "{edit}");
        let faults = store.verify_chain().unwrap();
        assert!(faults.iter().any(|fault| fault.seq == seq), "{edit}: {faults:?}");
    }
    let (_data, _jobs, mut store) = job();
    photo(&mut store, &jpeg(8, 8), "wall", 2);
    let db = Connection::open(store.folder().join("record.sqlite")).unwrap();
    db.execute_batch("DROP TRIGGER photo_no_update; UPDATE photo SET about = 'N1-in';")
        .unwrap();
    assert_eq!(store.verify_chain().unwrap().len(), 1);
}

/// A second device writes its own chain and names what it had seen; the fold order is the same for both.
#[test]
fn two_devices_write_two_chains() {
    let (_data, _jobs, mut store) = job();
    let folder = store.folder().to_path_buf();
    let first = note(&mut store, 1, "here");
    let mut other = Store::open(&folder, Uuid::from_u128(7)).unwrap();
    let theirs = note(&mut other, 2, "there");
    assert_eq!((theirs.seq, theirs.tick, theirs.prev), (1, 3, Hash::ZERO));
    assert_eq!(theirs.seen, [first.head()]);
    let again = note(&mut store, 3, "here again");
    assert_eq!((again.prev, again.seen), (first.hash, vec![theirs.head()]));
    assert_eq!(store.heads().unwrap().len(), 2);
    let order: Vec<i64> = other.all_entries().unwrap().iter().map(|entry| entry.tick).collect();
    assert_eq!(order, [1, 2, 3, 4]);
    assert_eq!(store.entry(theirs.hash).unwrap().unwrap().position, 3);
    let paged = |before| -> Vec<i64> {
        store
            .entries(before, 2)
            .unwrap()
            .iter()
            .map(|entry| entry.position)
            .collect()
    };
    assert_eq!(
        (paged(None), paged(Some(3)), paged(Some(1)), paged(Some(99))),
        (vec![4, 3], vec![2, 1], vec![], vec![4, 3])
    );
    assert_eq!(store.entries(Some(4), 1).unwrap(), std::slice::from_ref(&theirs));
    assert_eq!(other.verify_chain().unwrap(), []);
}

#[test]
fn a_correction_names_the_old_entry_and_both_stay() {
    let (_data, _jobs, mut store) = job();
    let old = note(&mut store, 1, "N1 leans left");
    let new = NewEntry::new(Kind::Note, json!({"text": "N1 leans right"})).correcting(old.hash);
    let kept = store.append_many(at(2), vec![new], None).unwrap().remove(0);
    assert_eq!(kept.corrects, Some(old.hash));
    assert_eq!(store.of_kind(Kind::Note).unwrap().len(), 2);
    let other_kind = NewEntry::new(Kind::Finding, json!({})).correcting(old.hash);
    assert_eq!(
        store.append_many(at(3), vec![other_kind], None).unwrap_err().code(),
        "correction"
    );
    let nowhere = NewEntry::new(Kind::Note, json!({})).correcting(Hash::of(b"nothing"));
    assert_eq!(
        store.append_many(at(3), vec![nowhere], None).unwrap_err().code(),
        "correction"
    );
    assert_eq!(store.verify_chain().unwrap(), []);
}

/// An entry's hash is made from texts that are at hand while it is written; whoever reads it back makes it from its fields.
#[test]
fn the_hash_made_while_writing_is_that_of_the_fields() {
    let (_data, _jobs, mut store) = job();
    let folder = store.folder().to_path_buf();
    let body = json!({"text": "\"β\" \u{1F600}\n\u{7}", "b": [1.5, -0.0, 1e30, null, {"z": true, "a": "1"}], "A": {}});
    let before_1970 = Moment {
        utc_ms: -1,
        offset_min: -210,
        boot_ms: None,
    };
    for device in [u128::MAX, 7, 1 << 100] {
        let mut other = Store::open(&folder, Uuid::from_u128(device)).unwrap();
        let old = other.append_many(at(2), vec![NewEntry::new(Kind::Note, body.clone())], None);
        let new = NewEntry::new(Kind::Note, json!({})).correcting(old.unwrap().remove(0).hash);
        other.append_many(before_1970, vec![new], None).unwrap();
    }
    for entry in store.all_entries().unwrap() {
        assert_eq!(entry.computed_hash(store.job()).unwrap(), entry.hash, "{entry:?}");
    }
    let heads = store.heads().unwrap();
    assert_eq!(heads.len(), 4);
    assert!(heads.is_sorted_by_key(|head| head.device), "{heads:?}");
    assert_eq!(store.verify_chain().unwrap(), []);
    let never = Moment {
        utc_ms: i64::MAX,
        ..before_1970
    };
    let refused = store.append_many(never, vec![NewEntry::new(Kind::Note, json!({}))], None);
    assert_eq!(refused.unwrap_err().code(), "body");
}

/// A body that is taken must have a hash that can be made again: its fields stand one level deeper there.
#[test]
fn what_is_nested_too_deep_for_a_hash_is_refused() {
    let (_data, _jobs, mut store) = job();
    let nested = |levels: usize| (1..levels).fold(json!({}), |inner, _| json!({ "a": inner }));
    let mut keep = |levels| store.append_many(at(2), vec![NewEntry::new(Kind::Note, nested(levels))], None);
    let deepest = (1..200).take_while(|levels| keep(*levels).is_ok()).last().unwrap();
    assert!(deepest > 32, "{deepest} levels");
    assert_eq!(keep(deepest + 1).unwrap_err().code(), "body");
    assert_eq!(store.verify_chain().unwrap(), []);
}

/// Of several entries in one transaction either all are kept or none.
#[test]
fn one_bad_entry_keeps_its_neighbours_out() {
    let (_data, _jobs, mut store) = job();
    let good = NewEntry::new(Kind::Note, json!({"text": "good"}));
    let bad = NewEntry::new(Kind::Note, json!({"number": 9_007_199_254_740_993_i64}));
    assert_eq!(
        store
            .append_many(at(1), vec![good, bad], Some("/round/"))
            .unwrap_err()
            .code(),
        "body"
    );
    assert_eq!(store.entry_count().unwrap(), 1);
}
