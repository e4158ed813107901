//! Bringing a file up to date.

use std::path::Path;

use rusqlite::Connection;
use tempfile::TempDir;
use upstay_lib::record::{MIGRATIONS, Migration, bring_up_to_date};

fn version(db: &Connection) -> i64 {
    db.query_row("PRAGMA user_version", [], |row| row.get(0)).unwrap()
}

fn tables(db: &Connection) -> Vec<String> {
    let mut statement = db
        .prepare("SELECT name FROM sqlite_schema WHERE type = 'table' ORDER BY name")
        .unwrap();
    statement
        .query_map([], |row| row.get(0))
        .unwrap()
        .map(Result::unwrap)
        .collect()
}

fn at_version(path: &Path, count: usize) -> Connection {
    let mut db = Connection::open(path).unwrap();
    bring_up_to_date(&mut db, path, &MIGRATIONS[..count]).unwrap();
    db
}

#[test]
fn step_1_makes_the_entries() {
    let data = TempDir::new().unwrap();
    let db = at_version(&data.path().join("record.sqlite"), 1);
    assert_eq!(
        (version(&db), tables(&db)),
        (1, vec!["entry".to_owned(), "job".to_owned()])
    );
    assert!(
        !data.path().join("record.before-1.sqlite").exists(),
        "an empty file needs no copy"
    );
}

#[test]
fn step_2_adds_photos_and_drafts_keeps_what_was_there_and_leaves_a_copy() {
    let data = TempDir::new().unwrap();
    let path = data.path().join("record.sqlite");
    let mut db = at_version(&path, 1);
    db.execute("INSERT INTO job VALUES (1, '00000000-0000-0000-0000-000000000001')", [])
        .unwrap();
    bring_up_to_date(&mut db, &path, &MIGRATIONS[..2]).unwrap();
    assert_eq!(
        (version(&db), tables(&db)),
        (2, ["draft", "entry", "job", "photo"].map(str::to_owned).to_vec())
    );
    let copy = Connection::open(data.path().join("record.before-2.sqlite")).unwrap();
    for db in [&db, &copy] {
        assert_eq!(
            db.query_row("SELECT count(*) FROM job", [], |row| row.get::<_, i64>(0))
                .unwrap(),
            1
        );
    }
    assert_eq!(version(&copy), 1);
}

#[test]
fn step_3_adds_an_index_alone_and_leaves_a_copy() {
    let data = TempDir::new().unwrap();
    let path = data.path().join("record.sqlite");
    let mut db = at_version(&path, 2);
    let before = tables(&db);
    bring_up_to_date(&mut db, &path, &MIGRATIONS[..3]).unwrap();
    assert_eq!((version(&db), tables(&db)), (3, before));
    assert_eq!(
        version(&Connection::open(data.path().join("record.before-3.sqlite")).unwrap()),
        2
    );
    let indexed: i64 = db
        .query_row(
            "SELECT count(*) FROM sqlite_schema WHERE type = 'index' AND name = 'entry_corrects'",
            [],
            |row| row.get(0),
        )
        .unwrap();
    assert_eq!(indexed, 1);
}

#[test]
fn every_table_is_strict() {
    let data = TempDir::new().unwrap();
    let db = at_version(&data.path().join("record.sqlite"), MIGRATIONS.len());
    let loose: i64 = db
        .query_row(
            "SELECT count(*) FROM pragma_table_list WHERE strict = 0 AND name NOT LIKE 'sqlite_%'",
            [],
            |row| row.get(0),
        )
        .unwrap();
    assert_eq!(loose, 0);
}

#[test]
fn a_step_that_fails_leaves_the_file_at_the_step_before() {
    let data = TempDir::new().unwrap();
    let path = data.path().join("record.sqlite");
    let mut db = at_version(&path, 1);
    let before = tables(&db);
    let failing = [
        MIGRATIONS[0],
        Migration {
            sql: "CREATE TABLE half (a INTEGER) STRICT; SELECT no_such_function();",
        },
    ];
    bring_up_to_date(&mut db, &path, &failing).unwrap_err();
    assert_eq!((version(&db), tables(&db)), (1, before));
    // The next start tries again, over the copy that was left.
    bring_up_to_date(&mut db, &path, MIGRATIONS).unwrap();
    assert_eq!(version(&db), i64::try_from(MIGRATIONS.len()).unwrap());
}

#[test]
fn a_newer_file_is_not_touched() {
    let data = TempDir::new().unwrap();
    let path = data.path().join("record.sqlite");
    let mut db = at_version(&path, 2);
    let why = bring_up_to_date(&mut db, &path, &MIGRATIONS[..1]).unwrap_err();
    assert_eq!((why.code(), version(&db)), ("newer", 2));
}
