//! Hand-over: a pack opens on another phone, chains merge, nothing is overwritten.

use std::fs;
use std::path::{Path, PathBuf};

use rusqlite::Connection;
use serde_json::json;
use tempfile::TempDir;
use upstay_lib::pack::{Imported, Verdict, import, put_away, verify};
use upstay_lib::record::{Jobs, Kind, NewEntry, Store};
use upstay_lib::seal;
use uuid::Uuid;
use zip::CompressionMethod;

use crate::make::{at, job, jpeg, note, pack, packed, photo};
use crate::pack::{members, rewritten};

/// A second phone.
pub fn phone() -> (TempDir, Jobs) {
    let data = TempDir::new().unwrap();
    let jobs = Jobs::open(data.path()).unwrap();
    (data, jobs)
}

/// Everything that counts about a job, whoever holds it.
pub fn story(store: &Store) -> Vec<String> {
    let entries = store.all_entries().unwrap();
    entries
        .iter()
        .map(|entry| format!("{} {}", entry.kind.as_str(), entry.hash))
        .collect()
}

pub fn hand_over(store: &mut Store, to: &Jobs, minutes: i64) -> Imported {
    let out = TempDir::new().unwrap();
    let made = pack(store, out.path(), minutes);
    import(to, &made.path, at(minutes)).unwrap()
}

fn told(path: &Path, jobs: &Jobs) -> String {
    import(jobs, path, at(60)).unwrap_err().to_string()
}

#[test]
fn a_pack_opens_on_another_phone_as_a_job() {
    let (_data, _jobs, mut store) = job();
    let (_there, theirs) = phone();
    let out = TempDir::new().unwrap();
    let made = packed(&mut store, out.path());
    let before = story(&store);
    let done = import(&theirs, &made.path, at(6000)).unwrap();
    assert_eq!(
        (done.new_job, done.added, done.known, done.photos),
        (true, before.len(), 0, 3)
    );
    let line = theirs.list().unwrap().remove(0);
    assert_eq!(
        (line.id, line.name.as_str(), line.photos),
        (store.job(), "Mill Lane 4", 3)
    );
    let copy = theirs.open_job(store.job()).unwrap();
    let after = story(&copy);
    assert_eq!(after[..before.len()], before);
    assert!(after[before.len()].starts_with("import ") && after.len() == before.len() + 1);
    assert!(copy.health().unwrap().whole);
    let said = copy.last_of(Kind::Import).unwrap().unwrap();
    assert_eq!((said.device, said.seq), (theirs.device(), 1));
    assert_eq!(said.seen, store.heads().unwrap());
    for photo in upstay_lib::photos::list(&copy).unwrap() {
        assert_eq!(
            fs::read(copy.photo_folder().join(photo.sha.to_string())).unwrap(),
            fs::read(store.photo_folder().join(photo.sha.to_string())).unwrap()
        );
    }
}

#[test]
fn the_same_pack_twice_is_nothing() {
    let (_data, jobs, mut store) = job();
    let (_there, theirs) = phone();
    let out = TempDir::new().unwrap();
    let made = packed(&mut store, out.path());
    import(&theirs, &made.path, at(6000)).unwrap();
    let id = store.job();
    let (own, copied) = (story(&store), story(&theirs.open_job(id).unwrap()));
    drop(store);
    for _ in 0..3 {
        for (jobs, before) in [(&jobs, &own), (&theirs, &copied)] {
            let done = import(jobs, &made.path, at(6001)).unwrap();
            assert_eq!((done.added, done.photos, done.entry, done.new_job), (0, 0, None, false));
            assert!(
                done.words[0].contains("Nothing in this pack is new"),
                "{:?}",
                done.words
            );
            assert_eq!(&story(&jobs.open_job(id).unwrap()), before);
        }
    }
}

/// Three phones that write at the same time come to the same record in the same order, whoever hands over to whom.
#[test]
fn chains_of_several_phones_merge() {
    let (_one_data, one, mut first) = job();
    let (_two_data, two) = phone();
    let (_three_data, three) = phone();
    photo(&mut first, &jpeg(8, 8), "wall", 1);
    let id = first.job();
    hand_over(&mut first, &two, 2);
    hand_over(&mut first, &three, 3);
    let mut second = two.open_job(id).unwrap();
    let mut third = three.open_job(id).unwrap();
    // Apart from each other: each writes and photographs.
    for (number, store) in (0_u16..).zip([&mut first, &mut second, &mut third]) {
        note(store, 10 + i64::from(number), &format!("phone {number}"));
        photo(store, &jpeg(16 + number, 8), "N1-in", 12);
    }
    drop((second, third));
    // One hands to two, two to three, three to one, and round once more.
    let phones = [&one, &two, &three];
    drop(first);
    for turn in 0..6_usize {
        let (from, to) = (phones[turn % 3], phones[(turn + 1) % 3]);
        let done = hand_over(&mut from.open_job(id).unwrap(), to, 20 + i64::try_from(turn).unwrap());
        assert!(done.left_out.is_empty() && done.added > 0, "{:?}", done.words);
    }
    let stores = phones.map(|jobs| jobs.open_job(id).unwrap());
    // Each has what the other two wrote apart, in one order.
    let notes = stores.each_ref().map(|store| {
        let notes = store.of_kind(Kind::Note).unwrap();
        notes
            .iter()
            .map(|note| note.body["text"].as_str().unwrap().to_owned())
            .collect::<Vec<_>>()
    });
    assert_eq!(notes[0].len(), 3);
    assert!(notes.iter().all(|list| *list == notes[0]), "{notes:?}");
    for store in &stores {
        assert!(store.health().unwrap().whole, "{:?}", store.health().unwrap().words);
        assert_eq!(store.heads().unwrap().len(), 3);
        // Told from the last row's number; counted by reading them all.
        let all = i64::try_from(store.all_entries().unwrap().len()).unwrap();
        assert_eq!(
            (store.entry_count().unwrap(), store.health().unwrap().entries),
            (all, all)
        );
        assert_eq!(upstay_lib::photos::list(store).unwrap().len(), 4);
    }
    let out = TempDir::new().unwrap();
    let [mut store, ..] = stores;
    let given = seal::give(&mut store, at(40)).unwrap();
    let made = pack(&mut store, out.path(), 41);
    assert_eq!(verify(&made.path, Some(&given.code)).unwrap().verdict, Verdict::Intact);
}

/// Goes back to how a job stood: what a copy of the data folder to another place and back does.
fn saved(store: &Store) -> Vec<u8> {
    let target = store.folder().join("copy.sqlite");
    let db = Connection::open(store.folder().join("record.sqlite")).unwrap();
    db.execute("VACUUM INTO ?1", [target.to_string_lossy()]).unwrap();
    let bytes = fs::read(&target).unwrap();
    fs::remove_file(target).unwrap();
    bytes
}

fn went_back(store: Store, bytes: &[u8]) {
    let folder = store.folder().to_path_buf();
    drop(store);
    fs::write(folder.join("record.sqlite"), bytes).unwrap();
}

/// A phone that went on from an older copy of its own file tells two stories; the first that came in stands.
#[test]
fn a_fork_is_shown_and_overwrites_nothing() {
    let (_data, jobs, mut store) = job();
    let (_there, theirs) = phone();
    let id = store.job();
    note(&mut store, 1, "common");
    let old = saved(&store);
    note(&mut store, 2, "N2 was missing its pin");
    photo(&mut store, &jpeg(8, 8), "N2-in", 3);
    hand_over(&mut store, &theirs, 4);
    went_back(store, &old);
    let mut store = jobs.open_job(id).unwrap();
    note(&mut store, 2, "all pins were in");
    photo(&mut store, &jpeg(24, 8), "N2-in", 3);

    let before = story(&theirs.open_job(id).unwrap());
    let out = TempDir::new().unwrap();
    let second = pack(&mut store, out.path(), 5);
    let done = import(&theirs, &second.path, at(6)).unwrap();
    assert_eq!(
        (done.added, done.left_out.len(), done.photos),
        (0, 3, 0),
        "{:?}",
        done.words
    );
    assert!(done.left_out[0].here.is_some() && done.left_out[0].kind == Kind::Note);
    let words = done.words.join(" ");
    assert!(
        words.contains("What stands here was not changed") && words.contains("Keep that pack"),
        "{words}"
    );
    let copy = theirs.open_job(id).unwrap();
    let after = story(&copy);
    assert_eq!(after[..before.len()], before);
    // Written down once, however often that pack comes.
    assert!(after.len() == before.len() + 1 && after.last().unwrap().starts_with("import "));
    let said = copy.last_of(Kind::Import).unwrap().unwrap();
    assert_eq!(said.body["left_out"].as_array().unwrap().len(), 3);
    drop(copy);
    assert_eq!(import(&theirs, &second.path, at(7)).unwrap().entry, None);
    // The other way round as well: the first story comes to the phone with the second.
    let mut copy = theirs.open_job(id).unwrap();
    let back = pack(&mut copy, out.path(), 8);
    drop(store);
    let done = import(&jobs, &back.path, at(9)).unwrap();
    assert!(!done.left_out.is_empty());
    let store = jobs.open_job(id).unwrap();
    assert!(store.health().unwrap().whole, "{:?}", store.health().unwrap().words);
    let notes = store.of_kind(Kind::Note).unwrap();
    assert!(notes.iter().any(|note| note.body["text"] == "all pins were in"));
    assert!(notes.iter().all(|note| note.body["text"] != "N2 was missing its pin"));
}

/// What another phone wrote without having seen the fork comes in; what builds on the fork stays out.
#[test]
fn beside_a_fork_the_rest_is_taken_in() {
    let (_data, jobs, mut store) = job();
    let (_b, second) = phone();
    let (_c, third) = phone();
    let id = store.job();
    hand_over(&mut store, &second, 1);
    let old = saved(&store);
    note(&mut store, 2, "first story");
    hand_over(&mut store, &third, 3);
    went_back(store, &old);
    let mut store = jobs.open_job(id).unwrap();
    // The second phone wrote on its own, then saw the second story and wrote on.
    let mut other = second.open_job(id).unwrap();
    note(&mut other, 4, "on its own");
    drop(other);
    note(&mut store, 5, "second story");
    hand_over(&mut store, &second, 6);
    let mut other = second.open_job(id).unwrap();
    note(&mut other, 7, "after the second story");
    let done = hand_over(&mut other, &third, 8);
    assert!(done.added > 0 && !done.left_out.is_empty(), "{:?}", done.words);
    let store = third.open_job(id).unwrap();
    let notes: Vec<String> = store
        .of_kind(Kind::Note)
        .unwrap()
        .iter()
        .map(|note| note.body["text"].as_str().unwrap().to_owned())
        .collect();
    assert!(
        notes.contains(&"first story".to_owned()) && notes.contains(&"on its own".to_owned()),
        "{notes:?}"
    );
    assert!(!notes.iter().any(|text| text.contains("second story")), "{notes:?}");
    assert!(store.health().unwrap().whole);
}

#[test]
fn a_changed_pack_is_refused_with_the_place() {
    let (_data, _jobs, mut store) = job();
    let (_there, theirs) = phone();
    let out = TempDir::new().unwrap();
    let made = packed(&mut store, out.path());
    let mut files = members(&made.path);
    files[1].1[40] ^= 1;
    let target = out.path().join("changed.zip");
    rewritten(&target, &files, CompressionMethod::Stored);
    let why = told(&target, &theirs);
    assert!(
        why.contains("photos/wall-D01-detail.jpg: its contents were changed"),
        "{why}"
    );
    assert_eq!(theirs.list().unwrap(), []);
    assert_eq!(
        import(&theirs, &out.path().join("none.zip"), at(1)).unwrap_err().code(),
        "file"
    );
    // Zipped anew it is taken in, and says so.
    rewritten(&target, &members(&made.path), CompressionMethod::Deflated);
    let done = import(&theirs, &target, at(1)).unwrap();
    assert!(done.words[1].contains("written anew"), "{:?}", done.words);
}

/// Another job under the same number: two jobs with one id are made by a forger only.
#[test]
fn another_job_of_the_same_number_is_refused() {
    let (data, jobs, mut store) = job();
    let (_there, theirs) = phone();
    let id = store.job();
    hand_over(&mut store, &theirs, 1);
    let before = story(&theirs.open_job(id).unwrap());
    // The job is begun anew under its id, on a third phone.
    drop(store);
    fs::remove_dir_all(data.path().join("jobs").join(id.to_string())).unwrap();
    let other = jobs.begin("Mill Lane 4", "", "england", true, at(0)).unwrap();
    let begun = other.folder().to_path_buf();
    drop(other);
    let forged = data.path().join("jobs").join(id.to_string());
    fs::rename(begun, &forged).unwrap();
    let db = Connection::open(forged.join("record.sqlite")).unwrap();
    db.execute_batch(&format!(
        "DROP TRIGGER job_no_update; DROP TRIGGER entry_no_delete; UPDATE job SET id = '{id}'; DELETE FROM entry;"
    ))
    .unwrap();
    drop(db);
    let mut store = jobs.open_job(id).unwrap();
    let body = json!({"job": id, "name": "Other", "place": "", "country": "england", "demo": true});
    store
        .append_many(at(0), vec![NewEntry::new(Kind::JobBegun, body)], None)
        .unwrap();
    let out = TempDir::new().unwrap();
    let made = pack(&mut store, out.path(), 1);
    assert_eq!(verify(&made.path, None).unwrap().verdict, Verdict::Intact);
    assert_eq!(import(&theirs, &made.path, at(2)).unwrap_err().code(), "other_job");
    assert_eq!(story(&theirs.open_job(id).unwrap()), before);
}

/// Backup and restore: a new installation reads the old chain and writes its own.
#[test]
fn a_pack_restores_a_lost_phone() {
    let (data, jobs, mut store) = job();
    let out = TempDir::new().unwrap();
    let made = packed(&mut store, out.path());
    let (id, before) = (store.job(), story(&store));
    let lost = jobs.device();
    drop(store);
    drop(data);
    let (_new, restored) = phone();
    assert_ne!(restored.device(), lost);
    import(&restored, &made.path, at(6000)).unwrap();
    let mut store = restored.open_job(id).unwrap();
    let entry = note(&mut store, 6001, "on the new phone");
    assert_eq!((entry.device, entry.seq), (restored.device(), 2));
    assert_eq!(story(&store)[..before.len()], before);
    assert!(store.health().unwrap().whole);
}

/// Restored over its own damaged file, a phone does not go on with the chain whose end it may have lost.
#[test]
fn a_damaged_job_is_set_aside_and_restored_with_a_chain_of_its_own() {
    let (data, jobs, mut store) = job();
    let out = TempDir::new().unwrap();
    let made = packed(&mut store, out.path());
    note(&mut store, 6000, "after the pack, and lost with the file");
    let (id, lost) = (store.job(), jobs.device());
    assert_eq!(jobs.set_aside(id).unwrap_err().code(), "not_damaged");
    let path = store.folder().join("record.sqlite");
    drop(store);
    fs::write(&path, b"nothing of a database is left").unwrap();
    let why = told(&made.path, &jobs);
    assert!(why.contains("set the damaged job aside"), "{why}");
    let aside = jobs.set_aside(id).unwrap();
    assert!(aside.join("record.sqlite").is_file() && aside.starts_with(data.path().join("damaged")));
    import(&jobs, &made.path, at(6001)).unwrap();
    let mut store = jobs.open_job(id).unwrap();
    let own = store.device();
    assert_ne!(own, lost, "the old chain is only read");
    let first = note(&mut store, 6002, "again");
    drop(store);
    let mut store = jobs.open_job(id).unwrap();
    assert_eq!(
        (store.device(), note(&mut store, 6003, "and again").prev),
        (own, first.hash)
    );
    assert!(store.health().unwrap().whole);
    // Other jobs of the phone keep their chain.
    assert_eq!(jobs.begin("Other", "", "england", false, at(1)).unwrap().device(), lost);
}

/// A phone set back to an older copy meets its own later entries.
#[test]
fn an_own_chain_that_comes_back_is_taken_in_and_not_gone_on_with() {
    let (_data, jobs, mut store) = job();
    let (id, own, old) = (store.job(), store.device(), saved(&store));
    let out = TempDir::new().unwrap();
    let made = packed(&mut store, out.path());
    went_back(store, &old);
    let done = import(&jobs, &made.path, at(6001)).unwrap();
    assert!(done.left_out.is_empty() && done.added == 6, "{:?}", done.words);
    let store = jobs.open_job(id).unwrap();
    assert_ne!(store.device(), own);
    assert!(store.health().unwrap().whole);
}

/// A photo lost on the phone comes back with a pack that has it.
#[test]
fn a_lost_photo_is_put_back() {
    let (_data, jobs, mut store) = job();
    let out = TempDir::new().unwrap();
    let made = packed(&mut store, out.path());
    let photos = upstay_lib::photos::list(&store).unwrap();
    fs::remove_file(store.photo_folder().join(photos[0].sha.to_string())).unwrap();
    fs::write(store.photo_folder().join(photos[1].sha.to_string()), b"rotten").unwrap();
    let found = store.health().unwrap();
    assert_eq!(
        (
            found.whole,
            found.photos_missing.len(),
            found.photos_changed.len(),
            found.photos_whole
        ),
        (false, 1, 1, 1)
    );
    assert!(
        found.words.join(" ").contains("take in a pack of this job"),
        "{:?}",
        found.words
    );
    let id = store.job();
    drop(store);
    let done = import(&jobs, &made.path, at(6001)).unwrap();
    assert_eq!((done.added, done.photos), (0, 2));
    assert!(jobs.open_job(id).unwrap().health().unwrap().whole);
}

/// A job goes only when a pack holds all of it.
#[test]
fn a_job_is_put_away_only_after_a_whole_pack() {
    let (_data, jobs, mut store) = job();
    let out = TempDir::new().unwrap();
    let made = packed(&mut store, out.path());
    note(&mut store, 6000, "after the pack");
    let id = store.job();
    let refused = |path: &Path, id: Uuid| {
        let why = put_away(&jobs, id, path).unwrap_err();
        assert_eq!(why.code(), "not_put_away");
        why.to_string()
    };
    assert!(refused(&made.path, id).contains("1 entries are not in that pack"));
    let last = pack(&mut store, out.path(), 6001);
    let mut bytes = fs::read(&last.path).unwrap();
    let middle = bytes.len() / 2;
    bytes[middle] ^= 1;
    let harmed: PathBuf = out.path().join("harmed.zip");
    fs::write(&harmed, bytes).unwrap();
    assert!(refused(&harmed, id).contains("not as it was written"));
    let other = jobs.begin("Other", "", "england", false, at(1)).unwrap().job();
    assert!(refused(&last.path, other).contains("of another job"));
    drop(store);
    let away = put_away(&jobs, id, &last.path).unwrap();
    assert!(away.join("record.sqlite").is_file() && away.join("photos").is_dir());
    assert_eq!(jobs.list().unwrap().len(), 1);
    // And it comes back from its pack.
    import(&jobs, &last.path, at(6002)).unwrap();
    assert!(jobs.open_job(id).unwrap().health().unwrap().whole);
}

#[test]
fn the_program_takes_a_pack_in() {
    let (_data, _jobs, mut store) = job();
    let out = TempDir::new().unwrap();
    let made = packed(&mut store, out.path());
    let folder = out.path().join("phone");
    let run = |pack: &Path| {
        let said = std::process::Command::new(env!("CARGO_BIN_EXE_upstay"))
            .arg("import")
            .args([pack, &folder])
            .output()
            .unwrap();
        let words = format!(
            "{}{}",
            String::from_utf8_lossy(&said.stdout),
            String::from_utf8_lossy(&said.stderr)
        );
        (said.status.code(), words)
    };
    let (code, words) = run(&made.path);
    assert!(
        code == Some(0) && words.contains("Taken in: 7 entries and 3 photos"),
        "{words}"
    );
    let (code, words) = run(&made.path);
    assert!(
        code == Some(0) && words.contains("Nothing in this pack is new"),
        "{words}"
    );
    let (code, words) = run(&folder.join("device"));
    assert!(code == Some(1) && words.contains("no ZIP file"), "{words}");
    assert!(
        Jobs::open(&folder)
            .unwrap()
            .open_job(store.job())
            .unwrap()
            .health()
            .unwrap()
            .whole
    );
}
