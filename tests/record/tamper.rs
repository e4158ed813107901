//! Random changes to a pack and to the database: each is noticed and its place named.

use std::fs;
use std::io::Cursor;
use std::process::Command;

use rusqlite::Connection;
use serde_json::{Value, json};
use tempfile::TempDir;
use upstay_lib::pack::{Verdict, verify_in};
use upstay_lib::seal;
use zip::CompressionMethod;

use crate::make::{Dice, at, job, jpeg, note, pack, photo, round};
use crate::pack::{members, rewritten};
use crate::pack_forged::{file, relist};

type Members = Vec<(String, Vec<u8>)>;

/// Number of random changes: `UPSTAY_TAMPER`, 10,000 otherwise.
fn changes() -> usize {
    std::env::var("UPSTAY_TAMPER")
        .ok()
        .and_then(|text| text.parse().ok())
        .unwrap_or(10_000)
}

/// As [`change_once`], again until the contents are others: a flipped bit in a list that is made anew is undone.
fn change(files: &mut Members, dice: &mut Dice) -> &'static str {
    let sorted = |files: &Members| {
        let mut files = files.clone();
        files.sort();
        files
    };
    let original = files.clone();
    loop {
        let what = change_once(files, dice);
        if sorted(files) != sorted(&original) {
            return what;
        }
        files.clone_from(&original);
    }
}

/// What somebody changes who opens the pack, with a new list of check sums half of the time. Gives a word for it.
fn change_once(files: &mut Members, dice: &mut Dice) -> &'static str {
    let photos: Vec<usize> = (0..files.len())
        .filter(|at| files[*at].0.starts_with("photos/"))
        .collect();
    let one = photos[dice.below(photos.len())];
    let what = match dice.below(9) {
        0 => {
            let at = dice.below(files.len());
            let place = dice.below(files[at].1.len());
            files[at].1[place] ^= 1 << dice.below(8);
            "a byte"
        }
        1 => {
            let other = photos[(photos.iter().position(|at| *at == one).unwrap() + 1) % photos.len()];
            let bytes = std::mem::take(&mut files[one].1);
            files[one].1 = std::mem::replace(&mut files[other].1, bytes);
            "a swapped photo"
        }
        2 => {
            files[one].0 = format!("photos/N{}-in-D01-detail.jpg", 20 + dice.below(70));
            "a renamed file"
        }
        3 => {
            files.push((format!("photos/extra-{}.jpg", dice.below(1000)), jpeg(8, 8)));
            "an added file"
        }
        4 => {
            drop(files.remove(dice.below(files.len())));
            "a removed file"
        }
        5 => edit(files, |entries| {
            drop(entries.remove(dice.below(entries.len())));
            "a removed entry"
        }),
        6 => edit(files, |entries| {
            let at = dice.below(entries.len() - 1);
            entries.swap(at, at + 1);
            "reordered entries"
        }),
        7 => edit(files, |entries| {
            let at = dice.below(entries.len());
            let time = entries[at]["at_utc_ms"].as_i64().unwrap();
            entries[at]["at_utc_ms"] = json!(time + 1 + i64::try_from(dice.below(86_400_000)).unwrap());
            "an edited time"
        }),
        _ => edit(files, |entries| {
            let at = dice.below(entries.len());
            entries[at]["body"]["text"] = json!(format!("other words {}", dice.below(1000)));
            "edited words"
        }),
    };
    if dice.below(2) == 0 && files.iter().any(|(name, _)| name == "SHA256SUMS") {
        relist(files);
    }
    what
}

fn edit(files: &mut Members, change: impl FnOnce(&mut Vec<Value>) -> &'static str) -> &'static str {
    let bytes = file(files, "record.json");
    let mut record: Value = serde_json::from_slice(bytes).unwrap();
    let what = change(record["entries"].as_array_mut().unwrap());
    *bytes = serde_json_canonicalizer::to_vec(&record).unwrap();
    what
}

/// A small pack and the code of a seal in it.
fn small(out: &TempDir) -> (std::path::PathBuf, String) {
    let (_data, _jobs, mut store) = job();
    note(&mut store, 1, "short");
    photo(&mut store, &jpeg(8, 8), "wall", 2);
    photo(&mut store, &jpeg(16, 8), "N1-in", 3);
    let code = seal::give(&mut store, at(4)).unwrap().code;
    round(&mut store, 5);
    (pack(&mut store, out.path(), 6).path, code)
}

#[test]
fn ten_thousand_changes_to_a_pack_are_noticed() {
    let out = TempDir::new().unwrap();
    let (path, _) = small(&out);
    let (original, files) = (fs::read(&path).unwrap(), members(&path));
    let target = out.path().join("changed.zip");
    let mut dice = Dice::new(11);
    let (mut raw, mut rewritten_count, mut by_kind) = (0, 0, std::collections::BTreeMap::new());
    for number in 0..changes() {
        // Half of the changes are made to the bytes of the file, half to what is in it.
        let (bytes, what) = if number % 2 == 0 {
            let mut bytes = original.clone();
            while bytes == original {
                dice.mutate(&mut bytes, &[b"PK\x03\x04", b"PK\x01\x02", b"\0\0\0\0", b"photos/"]);
            }
            (bytes, "raw bytes")
        } else {
            let mut changed = files.clone();
            let what = change(&mut changed, &mut dice);
            rewritten(&target, &changed, CompressionMethod::Stored);
            (fs::read(&target).unwrap(), what)
        };
        let answer = verify_in(&mut Cursor::new(bytes), None).unwrap();
        *by_kind.entry(what).or_insert(0) += 1;
        if what == "raw bytes" {
            raw += 1;
            assert_ne!(answer.verdict, Verdict::Intact, "change {number} is not noticed");
            rewritten_count += usize::from(answer.verdict == Verdict::ContentsIntact);
        } else {
            assert_eq!(answer.verdict, Verdict::Changed, "change {number}, {what}: {answer}");
        }
        let named = answer.verdict != Verdict::Changed || answer.places.iter().all(|place| place.contains(": "));
        assert!(
            named && (answer.verdict != Verdict::Changed || !answer.places.is_empty()),
            "{answer}"
        );
    }
    println!(
        "{} changes: {by_kind:?}; of the raw ones {rewritten_count} touched the container only",
        changes()
    );
    // Headers hold times and rights, which are no contents.
    assert!(rewritten_count * 10 < raw, "{rewritten_count} of {raw}");
}

/// What counts as the container only is so: another program reads the same contents.
#[test]
fn a_rewritten_container_holds_the_same() {
    let out = TempDir::new().unwrap();
    let (path, _) = small(&out);
    let (original, files) = (fs::read(&path).unwrap(), members(&path));
    let target = out.path().join("changed.zip");
    let mut dice = Dice::new(12);
    let mut looked = 0;
    for _ in 0..20_000 {
        let mut bytes = original.clone();
        let place = dice.below(bytes.len());
        bytes[place] ^= 1 << dice.below(8);
        let answer = verify_in(&mut Cursor::new(bytes.as_slice()), None).unwrap();
        if answer.verdict == Verdict::ContentsIntact {
            fs::write(&target, &bytes).unwrap();
            // The other program may refuse what this one bears; what it reads must be the same.
            if let Ok(read) = std::panic::catch_unwind(|| members(&target)) {
                assert_eq!(read, files);
                looked += 1;
            }
        }
        if looked >= 40 {
            break;
        }
    }
    assert!(looked >= 20, "{looked}");
}

#[test]
fn twenty_changes_are_noticed_by_the_program() {
    let out = TempDir::new().unwrap();
    let (path, code) = small(&out);
    let run = |path: &std::path::Path, seal: Option<&str>| {
        let mut program = Command::new(env!("CARGO_BIN_EXE_upstay"));
        program.arg("verify").arg(path);
        if let Some(code) = seal {
            program.args(["--seal", code]);
        }
        let said = program.output().unwrap();
        (said.status.code().unwrap(), String::from_utf8(said.stdout).unwrap())
    };
    assert_eq!(run(&path, Some(&code)).0, 0);
    assert!(
        run(&path, Some(&code))
            .1
            .contains("nothing before this seal was changed")
    );
    let files = members(&path);
    let target = out.path().join("changed.zip");
    rewritten(&target, &files, CompressionMethod::Deflated);
    assert_eq!(run(&target, Some(&code)).0, 3);
    let mut dice = Dice::new(13);
    for number in 0..20 {
        let mut changed = files.clone();
        let what = change(&mut changed, &mut dice);
        rewritten(&target, &changed, CompressionMethod::Stored);
        let (code, words) = run(&target, None);
        assert!(
            code == 1 && words.starts_with("Changed:\n- "),
            "{number}, {what}: {words}"
        );
    }
}

/// Changes to the file of a job: by whoever takes the triggers away, and by a medium that rots.
#[test]
fn changes_to_the_database_are_noticed() {
    let (_data, jobs, mut store) = job();
    for minute in 1..8 {
        note(&mut store, minute, "as it was");
    }
    photo(&mut store, &jpeg(8, 8), "wall", 9);
    round(&mut store, 10);
    let (id, path) = (store.job(), store.folder().join("record.sqlite"));
    let before = store.all_entries().unwrap();
    drop(store);
    let original = fs::read(&path).unwrap();
    let mut dice = Dice::new(14);
    let triggers = "DROP TRIGGER entry_no_update; DROP TRIGGER entry_no_delete; DROP TRIGGER entry_follows; \
         DROP TRIGGER photo_no_update; DROP TRIGGER photo_no_delete; DROP TRIGGER photo_once; PRAGMA foreign_keys = OFF;";
    let mut noticed = 0;
    let edits = 500;
    for _ in 0..edits {
        fs::write(&path, &original).unwrap();
        let row = 1 + dice.below(before.len());
        let other = 1 + row % before.len();
        let edit = match dice.below(9) {
            0 => format!("UPDATE entry SET body = json_set(body, '$.text', 'other') WHERE seq = {row}"),
            1 => format!(
                "UPDATE entry SET at_utc_ms = at_utc_ms + {} WHERE seq = {row}",
                1 + dice.below(100_000)
            ),
            2 => format!("UPDATE entry SET boot_ms = boot_ms + 1 WHERE seq = {row}"),
            3 => format!("UPDATE entry SET kind = 'finding' WHERE seq = {row}"),
            4 => format!("UPDATE entry SET tick = tick + 50 WHERE seq = {row}"),
            5 => format!("UPDATE entry SET hash = zeroblob(32) WHERE seq = {row}"),
            6 if row < before.len() => format!("DELETE FROM entry WHERE seq = {row}"),
            7 => format!(
                "UPDATE entry SET body = (SELECT body FROM entry WHERE seq = {other}) WHERE seq = {row} \
                 AND body <> (SELECT body FROM entry WHERE seq = {other})"
            ),
            _ => format!("UPDATE photo SET name = 'other-{}'", dice.below(1000)),
        };
        let db = Connection::open(&path).unwrap();
        db.execute_batch(triggers).unwrap();
        let touched = db.execute(&edit, []).unwrap();
        drop(db);
        if touched == 0 {
            continue;
        }
        let found = jobs.open_job(id).and_then(|store| store.verify_chain());
        match found {
            Ok(faults) => assert!(!faults.is_empty(), "{edit} is not noticed"),
            Err(why) => assert_eq!(why.code(), "damaged", "{edit}: {why}"),
        }
        noticed += 1;
    }
    let (mut rotten, mut harmless) = (0, 0);
    for _ in 0..500 {
        let mut bytes = original.clone();
        let place = dice.below(bytes.len());
        bytes[place] ^= 1 << dice.below(8);
        fs::write(&path, &bytes).unwrap();
        // Either it is told, or every entry reads as before: most of a database file is empty space.
        match jobs
            .open_job(id)
            .and_then(|store| Ok((store.verify_chain()?, store.all_entries()?)))
        {
            Ok((faults, entries)) if faults.is_empty() => {
                assert_eq!(entries, before, "byte {place}");
                harmless += 1;
            }
            Ok(_) | Err(_) => rotten += 1,
        }
    }
    println!("database: {noticed} edits noticed; of 500 flipped bits {rotten} noticed, {harmless} without effect");
    assert!(noticed > edits * 3 / 4 && rotten > 20);
}
