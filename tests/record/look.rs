//! A job that is opened to look: it can be read before its whole file was checked, and is not written before.

use rusqlite::Connection;
use serde_json::json;
use std::io::{Seek, SeekFrom, Write};
use tempfile::TempDir;
use upstay_lib::record::{Jobs, Kind, Moment, NewEntry};

fn at(second: i64) -> Moment {
    Moment {
        utc_ms: second * 1000,
        offset_min: 0,
        boot_ms: None,
    }
}

/// A job with enough notes to fill many pages, with bytes in the middle of its file overwritten.
fn hurt(data: &TempDir) -> (Jobs, uuid::Uuid) {
    let jobs = Jobs::open(data.path()).unwrap();
    let mut store = jobs.begin("Weir Cottage", "", "england", false, at(1)).unwrap();
    let notes = (0..400).map(|number| NewEntry::new(Kind::Note, json!({ "text": format!("note {number}") })));
    store.append_many(at(2), notes.collect(), None).unwrap();
    let (id, path) = (store.job(), store.folder().join("record.sqlite"));
    drop(store);
    let db = Connection::open(&path).unwrap();
    // Everything into the file itself, and the root page of an index that reading a page of entries does not need.
    let root: i64 = db
        .query_row(
            "SELECT rootpage FROM sqlite_schema WHERE name = 'photo_sha256'",
            [],
            |row| row.get(0),
        )
        .unwrap();
    db.query_row("PRAGMA wal_checkpoint(TRUNCATE)", [], |_| Ok(())).unwrap();
    let size: i64 = db.query_row("PRAGMA page_size", [], |row| row.get(0)).unwrap();
    drop(db);
    let mut file = std::fs::OpenOptions::new().write(true).open(&path).unwrap();
    file.seek(SeekFrom::Start(u64::try_from((root - 1) * size).unwrap()))
        .unwrap();
    file.write_all(&[0xA5; 64]).unwrap();
    (jobs, id)
}

#[test]
fn a_damaged_file_is_looked_at_and_never_written() {
    let data = TempDir::new().unwrap();
    let (jobs, id) = hurt(&data);
    assert_eq!(jobs.open_job(id).unwrap_err().code(), "damaged");
    let mut store = jobs.look_at(id).unwrap();
    assert_eq!(store.entries(None, 3).unwrap().len(), 3);
    let note = || NewEntry::new(Kind::Note, json!({"text": "too late"}));
    for _ in 0..2 {
        let why = store.append_many(at(3), vec![note()], None).unwrap_err();
        assert_eq!(why.code(), "damaged");
    }
    assert_eq!(store.entry_count().unwrap(), 401);
}

#[test]
fn a_sound_file_is_written_after_its_check() {
    let data = TempDir::new().unwrap();
    let jobs = Jobs::open(data.path()).unwrap();
    let id = jobs.begin("Weir Cottage", "", "england", false, at(1)).unwrap().job();
    let mut store = jobs.look_at(id).unwrap();
    let note = NewEntry::new(Kind::Note, json!({"text": "in time"}));
    store.append_many(at(2), vec![note], None).unwrap();
    assert_eq!(store.entry_count().unwrap(), 2);
    assert!(store.verify_chain().unwrap().is_empty());
}

/// Rows are numbered from 1 on; in a file that somebody numbered anew a page can still be asked for, and nothing is hidden by it
/// from the check of the whole.
#[test]
fn rows_numbered_by_somebody_else_are_looked_at() {
    let data = TempDir::new().unwrap();
    let jobs = Jobs::open(data.path()).unwrap();
    let mut store = jobs.begin("Weir Cottage", "", "england", false, at(1)).unwrap();
    let notes = (0..4).map(|number| NewEntry::new(Kind::Note, json!({ "text": format!("note {number}") })));
    store.append_many(at(2), notes.collect(), None).unwrap();
    let (id, path) = (store.job(), store.folder().join("record.sqlite"));
    drop(store);
    for (change, told) in [("-rowid", 0), ("9223372036854775807 + rowid", i64::MAX - 1)] {
        let db = Connection::open(&path).unwrap();
        db.execute_batch("PRAGMA foreign_keys = OFF; DROP TRIGGER IF EXISTS entry_no_update;")
            .unwrap();
        db.execute(&format!("UPDATE entry SET rowid = {change}"), []).unwrap();
        drop(db);
        let store = jobs.look_at(id).unwrap();
        assert_eq!(store.entry_count().unwrap(), told, "{change}");
        assert_eq!(store.entries(None, 9).unwrap().len(), 5, "{change}");
        assert!(store.entries(Some(3), 9).unwrap().len() <= 5, "{change}");
        assert_eq!(store.health().unwrap().entries, 5, "{change}");
    }
}
