//! The order in which things reach the medium, a simulated fall of power, and every file step failing in every way.

use std::fs;
use std::path::Path;
use std::sync::{Arc, Mutex};

use rusqlite::Connection;
use tempfile::TempDir;
use upstay_lib::pack::{Choice, Verdict, import, make_with, verify};
use upstay_lib::photos::{PhotoKind, intake_with, list};
use upstay_lib::record::{Hash, Jobs, Store, SystemDisk};

use crate::disks::{Fault, Power, Watched};
use crate::make::{at, job, jpeg, meta, note, pack, packed, photo, round};

/// Number of entries that another reader of the file sees: what was committed.
fn committed(record: &Path) -> i64 {
    let db = Connection::open(record).unwrap();
    db.query_row("SELECT count(*) FROM entry", [], |row| row.get(0))
        .unwrap()
}

/// For every photo: write, sync, rename, sync of the folder, and only then the commit of its entry.
#[test]
fn a_photo_reaches_the_medium_before_its_entry() {
    let (_data, _jobs, mut store) = job();
    let record = store.folder().join("record.sqlite");
    let trace: Arc<Mutex<Vec<String>>> = Arc::default();
    let disk = Power::new({
        let (trace, record) = (Arc::clone(&trace), record.clone());
        move |step| trace.lock().unwrap().push(format!("{step} at {}", committed(&record)))
    });
    for number in 1..=5_u16 {
        let bytes = jpeg(8 + number, 8);
        intake_with(&disk, &mut store, &bytes, &meta("wall", PhotoKind::Group), at(1)).unwrap();
        let before = i64::from(number);
        let wanted: Vec<String> = ["folder", "write", "sync", "rename", "sync folder"]
            .iter()
            .map(|step| format!("{step} at {before}"))
            .collect();
        assert_eq!(std::mem::take(&mut *trace.lock().unwrap()), wanted);
        assert_eq!(committed(&record), before + 1, "committed after the last step");
    }
}

/// A copy of what the medium holds now: the database as last committed (it syncs each commit itself, which is not simulated
/// here), and the photos that were synced under a synced name.
fn after_power_cut(store_folder: &Path, disk: &Power) -> TempDir {
    let data = TempDir::new().unwrap();
    let id = store_folder.file_name().unwrap();
    let folder = data.path().join("jobs").join(id);
    fs::create_dir_all(folder.join("photos")).unwrap();
    for name in ["record.sqlite", "record.sqlite-wal"] {
        let from = store_folder.join(name);
        if from.exists() {
            fs::copy(from, folder.join(name)).unwrap();
        }
    }
    for (name, bytes) in disk.left(&store_folder.join("photos")) {
        fs::write(folder.join("photos").join(name), bytes).unwrap();
    }
    data
}

/// At every step of every intake the power goes: what was confirmed before is there and whole.
#[test]
fn a_fall_of_power_loses_nothing_confirmed() {
    let (_data, _jobs, mut store) = job();
    let folder = store.folder().to_path_buf();
    let id = store.job();
    let confirmed: Arc<Mutex<Vec<Hash>>> = Arc::default();
    let cuts: Arc<Mutex<usize>> = Arc::default();
    let holder: Arc<Mutex<Option<Arc<Power>>>> = Arc::default();
    let check = {
        let (folder, confirmed, cuts, holder) = (folder, confirmed.clone(), cuts.clone(), holder.clone());
        move || {
            let disk = holder.lock().unwrap().clone().unwrap();
            let left = after_power_cut(&folder, &disk);
            let jobs = Jobs::open(left.path()).unwrap();
            let store = jobs.open_job(id).unwrap();
            let health = store.health().unwrap();
            assert!(health.whole, "{:?}", health.words);
            let named: Vec<Hash> = list(&store).unwrap().iter().map(|photo| photo.sha).collect();
            let confirmed = confirmed.lock().unwrap();
            assert!(confirmed.iter().all(|sha| named.contains(sha)));
            *cuts.lock().unwrap() += 1;
        }
    };
    let disk = Arc::new(Power::new({
        let check = check.clone();
        move |_| check()
    }));
    *holder.lock().unwrap() = Some(Arc::clone(&disk));
    for number in 0..6_u16 {
        // One comes twice.
        let bytes = jpeg(16 + number % 5, 8);
        let kept = intake_with(&*disk, &mut store, &bytes, &meta("N1-in", PhotoKind::Detail), at(1)).unwrap();
        confirmed.lock().unwrap().push(kept.sha);
        check();
    }
    let cuts = *cuts.lock().unwrap();
    println!("the power was cut {cuts} times");
    // Five steps of a new photo, two of one that is there already, and once after each.
    assert_eq!(cuts, 5 * 5 + 2 + 6);
}

/// The model itself: without the sync of the folder, or of the file, the cut is seen to lose the photo.
#[test]
fn the_simulated_cut_does_lose_what_was_not_synced() {
    use upstay_lib::record::Disk;
    let folder = TempDir::new().unwrap();
    let (part, name) = (folder.path().join("a.part"), folder.path().join("a"));
    let disk = Power::new(|_| {});
    disk.write(&part, b"bytes").unwrap();
    disk.rename(&part, &name).unwrap();
    assert_eq!(disk.left(folder.path()), [], "no name yet");
    disk.sync_folder(folder.path()).unwrap();
    assert_eq!(
        disk.left(folder.path()),
        [("a".to_owned(), Vec::new())],
        "a name without contents"
    );
}

/// A new job is complete and synced before it gets its name; a pack and every photo of an import as well.
#[test]
fn folders_and_packs_are_synced_before_they_get_their_names() {
    let disk = Watched::default();
    let data = TempDir::new().unwrap();
    let jobs = Jobs::open_on(Arc::new(disk.clone()), data.path()).unwrap();
    disk.heal();
    let mut store = jobs.begin("Mill Lane 4", "", "england", false, at(0)).unwrap();
    let id = store.job();
    let part = format!(".{id}.part");
    let begun = [
        "folder photos".to_owned(),
        "sync folder photos".to_owned(),
        format!("sync folder {part}"),
    ];
    let ends = [format!("rename {id}"), "sync folder jobs".to_owned()];
    assert_eq!(disk.steps(), [begun.as_slice(), &ends].concat());

    let out = TempDir::new().unwrap();
    let made = packed(&mut store, out.path());
    disk.heal();
    let choice = Choice::default();
    make_with(&disk, &mut store, out.path(), &choice, "", at(7000), |_| {
        Ok(b"%PDF".to_vec().into())
    })
    .unwrap();
    let steps: Vec<String> = disk
        .steps()
        .iter()
        .map(|step| step.split(' ').next().unwrap().to_owned())
        .collect();
    assert_eq!((steps[0].as_str(), steps[1].as_str()), ("folder", "create"));
    assert!(
        steps[2..steps.len() - 3].iter().all(|step| step == "piece"),
        "{steps:?}"
    );
    assert_eq!(steps[steps.len() - 3..], ["sync", "rename", "sync"]);

    let there = TempDir::new().unwrap();
    let theirs = Jobs::open_on(Arc::new(disk.clone()), there.path()).unwrap();
    disk.heal();
    import(&theirs, &made.path, at(7001)).unwrap();
    let steps = disk.steps();
    let photos: Vec<&String> = steps.iter().filter(|step| step.starts_with("write .")).collect();
    assert_eq!(photos.len(), 3);
    for written in photos {
        let at = steps.iter().position(|step| step == written).unwrap();
        let name = written.trim_start_matches("write .").trim_end_matches(".part");
        assert_eq!(steps[at + 1], format!("sync .{name}.part"));
        assert_eq!(
            (&steps[at + 2], steps[at + 3].as_str()),
            (&format!("rename {name}"), "sync folder photos")
        );
    }
    assert_eq!(steps[steps.len() - 2..], ends);
}

/// Runs `work` with its first, second, … file step failing in each way until none is left to fail; after each failure
/// `check` looks at what there is, and then the work is done again without a fault.
fn every_step(
    disk: &Watched,
    mut work: impl FnMut(usize) -> Result<(), (String, String)>,
    mut check: impl FnMut(),
) -> usize {
    let mut failures = 0;
    for fault in Fault::ALL {
        for number in 0.. {
            disk.fail(number, fault);
            let done = work(failures);
            if !disk.heal() {
                done.unwrap();
                break;
            }
            let (code, words) = done.expect_err("a step failed and nobody said so");
            assert_eq!(code, "file", "{words}");
            assert!(
                words.contains("did not work") && words.contains('/'),
                "{fault:?} at {number}: {words}"
            );
            check();
            work(failures)
                .unwrap_or_else(|(_, why)| panic!("after {fault:?} at {number} the next attempt fails: {why}"));
            check();
            failures += 1;
        }
    }
    failures
}

fn said<T, E: std::fmt::Display>(
    result: Result<T, E>,
    code: impl Fn(&E) -> &'static str,
) -> Result<(), (String, String)> {
    result.map(drop).map_err(|why| (code(&why).to_owned(), why.to_string()))
}

fn sound(store: &Store) {
    let health = store.health().unwrap();
    assert!(health.whole, "{:?}", health.words);
}

#[test]
fn beginning_a_job_bears_every_fault() {
    let disk = Watched::default();
    let failures = every_step(
        &disk,
        |_| {
            let data = TempDir::new().unwrap();
            let begun = Jobs::open_on(Arc::new(disk.clone()), data.path())
                .and_then(|jobs| jobs.begin("Mill Lane 4", "", "england", false, at(0)));
            // Nothing half-made is listed; where only the last sync failed the job is there, whole.
            let jobs = Jobs::open(data.path()).unwrap();
            for line in jobs.list().unwrap() {
                assert_eq!((line.damaged, line.entries), (None, 1));
            }
            said(begun, upstay_lib::record::RecordError::code)
        },
        || {},
    );
    println!("begin: {failures} failures");
    assert!(failures >= 4 * 9);
}

#[test]
fn taking_a_photo_in_bears_every_fault() {
    let (_data, _jobs, mut store) = job();
    let disk = Watched::default();
    let id = store.job();
    note(&mut store, 1, "kept");
    let folder = store.folder().to_path_buf();
    let mut fresh = 8;
    let failures = every_step(
        &disk,
        |_| {
            let kept = intake_with(
                &disk,
                &mut store,
                &jpeg(fresh, 8),
                &meta("wall", PhotoKind::Group),
                at(1),
            );
            fresh += u16::from(kept.is_ok());
            said(kept, upstay_lib::photos::PhotoError::code)
        },
        || {
            let other = Jobs::open(folder.parent().unwrap().parent().unwrap())
                .unwrap()
                .open_job(id)
                .unwrap();
            sound(&other);
            assert!(other.entry_count().unwrap() >= 2);
        },
    );
    println!("intake: {failures} failures");
    assert_eq!(failures, 4 * 5);
}

#[test]
fn making_a_pack_bears_every_fault() {
    let (_data, _jobs, mut store) = job();
    let out = TempDir::new().unwrap();
    photo(&mut store, &jpeg(32, 32), "wall", 1);
    round(&mut store, 2);
    let disk = Watched::default();
    let packs = out.path().to_path_buf();
    let folder = store.folder().to_path_buf();
    let (id, data) = (store.job(), folder.parent().unwrap().parent().unwrap().to_path_buf());
    let choice = Choice::default();
    let failures = every_step(
        &disk,
        |turn| {
            let minutes = 10 + i64::try_from(turn).unwrap();
            let made = make_with(&disk, &mut store, &packs, &choice, "", at(minutes), |_| {
                Ok(vec![7; 700_000].into())
            });
            if let Ok(made) = &made {
                assert_eq!(verify(&made.path, None).unwrap().verdict, Verdict::Intact);
            }
            said(made, upstay_lib::pack::PackError::code)
        },
        || {
            sound(&Jobs::open(&data).unwrap().open_job(id).unwrap());
            // Whatever bears the name of a pack is one.
            for item in fs::read_dir(out.path()).unwrap() {
                let path = item.unwrap().path();
                assert!(
                    path.extension().is_some_and(|end| end == "zip"),
                    "{} is left",
                    path.display()
                );
                assert_eq!(verify(&path, None).unwrap().verdict, Verdict::Intact);
                fs::remove_file(path).unwrap();
            }
        },
    );
    println!("pack: {failures} failures");
    assert!(failures >= 4 * 6);
}

#[test]
fn importing_bears_every_fault() {
    let (_data, _jobs, mut store) = job();
    let out = TempDir::new().unwrap();
    let first = packed(&mut store, out.path());
    photo(&mut store, &jpeg(50, 20), "N2-in", 7000);
    let second = pack(&mut store, out.path(), 7001);
    let id = store.job();
    let disk = Watched::default();
    // As a new job, and into a job that is here.
    for (already, pack) in [(None, &first), (Some(&first), &second)] {
        let mut here: Option<(TempDir, usize)> = None;
        let failures = every_step(
            &disk,
            |turn| {
                // Each attempt and the one after it work on the same phone.
                if here.as_ref().is_none_or(|(_, of)| *of != turn) {
                    let data = TempDir::new().unwrap();
                    let jobs = Jobs::open_on(Arc::new(SystemDisk), data.path()).unwrap();
                    if let Some(first) = already {
                        import(&jobs, &first.path, at(7002)).unwrap();
                    }
                    here = Some((data, turn));
                }
                let data = here.as_ref().unwrap().0.path();
                let done = Jobs::open_on(Arc::new(disk.clone()), data)
                    .map_err(Into::into)
                    .and_then(|jobs| import(&jobs, &pack.path, at(7003)));
                let jobs = Jobs::open(data).unwrap();
                for line in jobs.list().unwrap() {
                    assert_eq!((line.damaged, line.id), (None, id));
                    sound(&jobs.open_job(id).unwrap());
                }
                assert!(already.is_none() || jobs.open_job(id).unwrap().entry_count().unwrap() >= 8);
                if done.is_ok() {
                    assert_eq!(
                        list(&jobs.open_job(id).unwrap()).unwrap().len(),
                        if already.is_none() { 3 } else { 4 }
                    );
                }
                said(done, upstay_lib::pack::PackError::code)
            },
            || {},
        );
        println!(
            "import {}: {failures} failures",
            if already.is_none() {
                "as a new job"
            } else {
                "into a job"
            }
        );
        assert!(failures >= 4 * 6);
    }
}
