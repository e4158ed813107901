//! The list of jobs: a damaged one harms no other.

use std::fs;

use rusqlite::Connection;
use serde_json::json;
use tempfile::TempDir;
use upstay_lib::record::{Jobs, Kind, NewEntry, RecordError};
use uuid::Uuid;

use crate::make::{at, job, jpeg, note, photo};

#[test]
fn a_job_is_begun_listed_and_opened() {
    let (data, jobs, mut store) = job();
    photo(&mut store, &jpeg(8, 8), "wall", 3);
    photo(&mut store, &jpeg(8, 8), "N1-in", 4);
    let demo = jobs.begin("Example", "", "scotland", true, at(1)).unwrap();
    let lines = Jobs::open(data.path()).unwrap().list().unwrap();
    assert_eq!(
        lines.iter().map(|line| line.name.as_str()).collect::<Vec<_>>(),
        ["Mill Lane 4", "Example"]
    );
    assert_eq!((lines[0].photos, lines[0].entries, lines[0].last), (1, 3, Some(at(4))));
    assert!(lines[1].demo);
    let info = demo.info().unwrap();
    assert_eq!((info.country.as_str(), info.begun), ("scotland", at(1)));
    assert!(matches!(
        jobs.begin("  ", "", "england", false, at(0)),
        Err(RecordError::NameMissing)
    ));
    assert_eq!(jobs.open_job(Uuid::nil()).unwrap_err().code(), "no_job");
}

#[test]
fn a_new_name_is_a_correction() {
    let (_data, _jobs, mut store) = job();
    let begun = store.of_kind(Kind::JobBegun).unwrap().remove(0);
    let body = json!({"job": store.job(), "name": "Mill Lane 5", "place": "", "country": "wales", "demo": true});
    store
        .append_many(
            at(1),
            vec![NewEntry::new(Kind::JobBegun, body).correcting(begun.hash)],
            None,
        )
        .unwrap();
    let info = store.info().unwrap();
    assert_eq!(
        (info.name.as_str(), info.begun, info.demo),
        ("Mill Lane 5", at(0), false)
    );
}

type Harm = fn(&std::path::Path);

#[test]
fn every_damage_is_told_and_the_others_open() {
    let (_data, jobs, mut store) = job();
    note(&mut store, 1, "kept");
    let damage: [(&str, Harm); 5] = [
        ("no text", |path| {
            fs::write(path, b"this is no database at all, only words").unwrap()
        }),
        ("empty", |path| fs::write(path, b"").unwrap()),
        ("missing", |path| fs::remove_file(path).unwrap()),
        ("cut", |path| {
            let bytes = fs::read(path).unwrap();
            fs::write(path, &bytes[..bytes.len() / 2]).unwrap();
        }),
        ("overwritten", |path| {
            let mut bytes = fs::read(path).unwrap();
            let end = bytes.len();
            bytes[4096..end].fill(0xA5);
            fs::write(path, bytes).unwrap();
        }),
    ];
    let mut hurt = Vec::new();
    for (name, _) in &damage {
        hurt.push(jobs.begin(name, "", "england", false, at(0)).unwrap().job());
    }
    for ((_, harm), id) in damage.iter().zip(&hurt) {
        harm(
            &jobs
                .list()
                .map(|_| {
                    store
                        .folder()
                        .parent()
                        .unwrap()
                        .join(id.to_string())
                        .join("record.sqlite")
                })
                .unwrap(),
        );
    }
    let lines = jobs.list().unwrap();
    assert_eq!(lines.len(), 6);
    for line in &lines {
        assert_eq!(line.damaged.is_some(), hurt.contains(&line.id), "{line:?}");
    }
    for id in hurt {
        let why = jobs.open_job(id).unwrap_err();
        assert_eq!(why.code(), "damaged", "{why}");
        assert!(why.to_string().contains("Other jobs are not affected"), "{why}");
    }
    assert_eq!(jobs.open_job(store.job()).unwrap().entry_count().unwrap(), 2);
}

#[test]
fn a_newer_file_is_refused_in_words_and_left_as_it_is() {
    let (_data, jobs, store) = job();
    let (id, path) = (store.job(), store.folder().join("record.sqlite"));
    drop(store);
    Connection::open(&path)
        .unwrap()
        .pragma_update(None, "user_version", 99)
        .unwrap();
    let before = fs::read(&path).unwrap();
    let why = jobs.open_job(id).unwrap_err();
    assert_eq!(why.code(), "newer");
    assert!(why.to_string().contains("Update the app"), "{why}");
    assert!(
        jobs.list().unwrap()[0]
            .damaged
            .as_ref()
            .unwrap()
            .contains("newer version")
    );
    assert_eq!(fs::read(&path).unwrap(), before);
}

/// A copied installation must not go on writing the same chain.
#[test]
fn a_copied_data_folder_begins_a_new_device() {
    let (data, jobs, mut store) = job();
    note(&mut store, 1, "on the old phone");
    let id = store.job();
    drop(store);
    assert_eq!(Jobs::open(data.path()).unwrap().device(), jobs.device());
    let copy = TempDir::new().unwrap();
    copy_folder(data.path(), copy.path());
    let restored = Jobs::open(copy.path()).unwrap();
    assert_ne!(restored.device(), jobs.device());
    let mut store = restored.open_job(id).unwrap();
    let entry = note(&mut store, 2, "on the new phone");
    assert_eq!((entry.device, entry.seq), (restored.device(), 1));
    assert_eq!(store.verify_chain().unwrap(), []);
}

fn copy_folder(from: &std::path::Path, to: &std::path::Path) {
    fs::create_dir_all(to).unwrap();
    for item in fs::read_dir(from).unwrap() {
        let item = item.unwrap();
        let target = to.join(item.file_name());
        if item.path().is_dir() {
            copy_folder(&item.path(), &target);
        } else {
            fs::copy(item.path(), target).unwrap();
        }
    }
}

#[test]
fn only_a_demo_is_deleted() {
    let (_data, jobs, store) = job();
    let demo = jobs.begin("Example", "", "england", true, at(1)).unwrap().job();
    assert_eq!(jobs.delete_demo(store.job()).unwrap_err().code(), "not_a_demo");
    jobs.delete_demo(demo).unwrap();
    assert_eq!(jobs.list().unwrap().len(), 1);
}

/// One letter in an index: the file opens and reads, only the check at start sees it.
#[test]
fn a_quiet_damage_is_found_at_start() {
    let (_data, jobs, store) = job();
    let (id, path) = (store.job(), store.folder().join("record.sqlite"));
    drop(store);
    let bytes = fs::read(&path).unwrap();
    let places: Vec<usize> = (0..bytes.len() - 9)
        .filter(|at| &bytes[*at..at + 9] == b"job_begun")
        .collect();
    assert!(places.len() >= 2, "once in the table, once in the index");
    for place in places {
        let mut harmed = bytes.clone();
        harmed[place + 8] = b'm';
        fs::write(&path, harmed).unwrap();
        let why = jobs.open_job(id).unwrap_err();
        assert!(why.code() == "damaged" && why.to_string().contains("index"), "{why}");
    }
    fs::write(&path, bytes).unwrap();
    jobs.open_job(id).unwrap();
}

/// A folder that cannot be written is told with its name. (A file in the way serves where tests run with all rights.)
#[test]
fn a_folder_that_cannot_be_made_is_told() {
    let data = TempDir::new().unwrap();
    fs::write(data.path().join("jobs"), b"in the way").unwrap();
    let why = Jobs::open(data.path()).unwrap_err();
    assert_eq!(why.code(), "file");
    assert!(why.to_string().contains("jobs"), "{why}");
}

/// The app ended while a job was being begun: nothing half-made is listed.
#[test]
fn a_half_begun_job_is_not_listed() {
    let (data, jobs, _store) = job();
    fs::create_dir_all(data.path().join("jobs").join(format!(".{}.part", Uuid::from_u128(3)))).unwrap();
    assert_eq!(jobs.list().unwrap().len(), 1);
}
