//! The app is ended in the middle of its work, again and again: what was said to be kept is there and whole, nothing
//! half-made is shown, and the app opens. The list of what was said is kept outside the app.
//!
//! `UPSTAY_KILLS` sets how often in all, 60 otherwise, spread evenly over the phases.

use std::collections::HashSet;
use std::fs;
use std::io::{BufRead, BufReader, Write};
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::Duration;

use serde_json::json;
use tempfile::TempDir;
use upstay_lib::pack::{Verdict, import, verify};
use upstay_lib::photos::{Size, list, picture};
use upstay_lib::record::{DraftWrite, Hash, Jobs, Kind, NewEntry};
use uuid::Uuid;

use crate::make::{Dice, at, jpeg, note, pack, packed, photo, round};

const PHASE: &str = "UPSTAY_TEST_KILL_PHASE";

const FOLDER: &str = "UPSTAY_TEST_KILL_FOLDER";

/// Number of kills for each phase.
fn kills() -> usize {
    let all = std::env::var("UPSTAY_KILLS")
        .ok()
        .and_then(|text| text.parse().ok())
        .unwrap_or(60);
    usize::max(1, all / 4)
}

/// Starts the writer of a phase, kills it at a random moment, and gives what it had said by then.
fn killed(phase: &str, folder: &Path, dice: &mut Dice) -> Vec<String> {
    let mut child = Command::new(std::env::current_exe().unwrap())
        .args(["kill::works_until_killed", "--exact", "--ignored", "--nocapture"])
        .env(PHASE, phase)
        .env(FOLDER, folder)
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .unwrap();
    let mut lines = BufReader::new(child.stdout.take().unwrap()).lines();
    let wanted = dice.below(12);
    let mut said: Vec<String> = Vec::new();
    while said.len() < wanted || said.is_empty() {
        let line = lines.next().expect("the writer writes").unwrap();
        said.extend(line.strip_prefix("kept ").map(str::to_owned));
    }
    std::thread::sleep(Duration::from_micros(u64::try_from(dice.below(25_000)).unwrap()));
    child.kill().unwrap();
    child.wait().unwrap();
    // What was on its way was said as well.
    said.extend(lines.filter_map(|line| line.ok()?.strip_prefix("kept ").map(str::to_owned)));
    said
}

/// The job opens, its chains hold, and every photo that is shown is whole.
fn whole(jobs: &Jobs, id: Uuid) -> HashSet<String> {
    let line = jobs.list().unwrap().into_iter().find(|line| line.id == id).unwrap();
    assert_eq!(line.damaged, None);
    let store = jobs.open_job(id).unwrap();
    let health = store.health().unwrap();
    assert!(health.whole, "{:?}", health.words);
    let photos = list(&store).unwrap();
    for photo in photos.iter().rev().take(3) {
        picture(store.folder(), photo.sha, Size::Thumb).unwrap();
    }
    // A file under a photo's name is whole even if no entry names it yet.
    for sha in upstay_lib::photos::unnamed(&store).unwrap() {
        assert_eq!(
            Hash::of(&fs::read(store.photo_folder().join(sha.to_string())).unwrap()),
            sha
        );
    }
    let entries = store.all_entries().unwrap();
    let photos = photos.iter().map(|photo| photo.sha.to_string());
    entries
        .iter()
        .map(|entry| entry.hash.to_string())
        .chain(photos)
        .collect()
}

/// Kills one phase again and again and prints the count.
fn phase(name: &str, mut after: impl FnMut(&Path, &Jobs, &[String])) {
    let data = TempDir::new().unwrap();
    let jobs = Jobs::open(data.path()).unwrap();
    let mut dice = Dice::new(0x5EED ^ u64::try_from(name.len()).unwrap());
    let mut confirmed: Vec<String> = Vec::new();
    for _ in 0..kills() {
        let said = killed(name, data.path(), &mut dice);
        confirmed.extend(said);
        after(data.path(), &jobs, &confirmed);
    }
    println!(
        "kill -9 in phase {name}: {} times, {} confirmed things, all there",
        kills(),
        confirmed.len()
    );
    assert!(confirmed.len() >= kills());
}

/// What was confirmed about the one job of intake and round.
fn all_there(jobs: &Jobs, confirmed: &[String]) {
    let id = jobs.list().unwrap()[0].id;
    let there = whole(jobs, id);
    for word in confirmed {
        assert!(there.contains(word), "{word} was confirmed and is not there");
    }
}

#[test]
fn intake() {
    phase("intake", |_, jobs, confirmed| all_there(jobs, confirmed));
}

#[test]
fn rounds() {
    phase("round", |_, jobs, confirmed| {
        all_there(jobs, confirmed);
        // A round and the clearing of its drafts are one: either both or none.
        let store = jobs.open_job(jobs.list().unwrap()[0].id).unwrap();
        let typed = store
            .drafts()
            .unwrap()
            .into_iter()
            .find(|draft| draft.field == "/round/why");
        let done = store.of_kind(Kind::RoundDone).unwrap().len();
        if let Some(typed) = typed {
            assert_eq!(
                typed.text.parse::<usize>().unwrap(),
                done,
                "the draft of a round that is done stands again"
            );
        }
    });
}

#[test]
fn packs() {
    phase("pack", |data, jobs, confirmed| {
        whole(jobs, jobs.list().unwrap()[0].id);
        let out = data.join("out");
        for item in fs::read_dir(&out).unwrap() {
            let path = item.unwrap().path();
            if path.extension().is_some_and(|end| end == "zip") {
                assert_eq!(
                    verify(&path, None).unwrap().verdict,
                    Verdict::Intact,
                    "{}",
                    path.display()
                );
                // Checked once; many would slow the later turns.
                if !confirmed.contains(&path.to_string_lossy().into_owned()) {
                    continue;
                }
                fs::rename(&path, path.with_extension("checked")).unwrap();
            }
        }
        for word in confirmed {
            assert!(
                Path::new(word).with_extension("checked").exists(),
                "{word} was confirmed and is not there"
            );
        }
    });
}

#[test]
fn imports() {
    phase("import", |data, _, confirmed| {
        let mut folders: Vec<PathBuf> = fs::read_dir(data.join("phones"))
            .unwrap()
            .map(|item| item.unwrap().path())
            .collect();
        folders.sort();
        for folder in folders {
            let jobs = Jobs::open(&folder).unwrap();
            let name = folder.file_name().unwrap().to_string_lossy().into_owned();
            // The job is there whole, or not at all where nothing was confirmed.
            let lines = jobs.list().unwrap();
            let steps = confirmed
                .iter()
                .filter(|word| word.split(' ').next() == Some(&name))
                .count();
            assert!(lines.len() == 1 || steps == 0, "{name}: {steps} imports were confirmed");
            for line in &lines {
                let there = whole(&jobs, line.id);
                let least: usize = confirmed
                    .iter()
                    .filter_map(|word| word.strip_prefix(&format!("{name} "))?.parse().ok())
                    .max()
                    .unwrap_or(0);
                assert!(there.len() >= least, "{name}");
            }
            // The interrupted import done again leads to the same.
            for pack in ["one.zip", "two.zip"] {
                import(&jobs, &data.join(pack), at(9000)).unwrap();
            }
            let id = jobs.list().unwrap()[0].id;
            whole(&jobs, id);
            assert_eq!(jobs.open_job(id).unwrap().of_kind(Kind::Note).unwrap().len(), 2);
            fs::remove_dir_all(folder.join("jobs")).unwrap();
            fs::remove_dir_all(&folder).unwrap();
        }
    });
}

#[test]
#[ignore = "run as the process that is killed"]
fn works_until_killed() {
    let folder = PathBuf::from(std::env::var_os(FOLDER).unwrap());
    let phase = std::env::var(PHASE).unwrap();
    let jobs = Jobs::open(&folder).unwrap();
    let say = |words: &dyn std::fmt::Display| {
        let mut out = std::io::stdout().lock();
        writeln!(out, "kept {words}").unwrap();
        out.flush().unwrap();
    };
    if phase == "import" {
        return imports_until_killed(&folder, &say);
    }
    let mut store = match jobs.list().unwrap().first() {
        Some(line) => jobs.open_job(line.id).unwrap(),
        None => jobs.begin("Mill Lane 4", "", "england", false, at(0)).unwrap(),
    };
    let begun = store.entry_count().unwrap();
    for number in begun.. {
        let salt = u16::try_from(number % 1500).unwrap();
        match phase.as_str() {
            "intake" => {
                let photo = photo(&mut store, &jpeg(8 + salt, 16), "N1-in", number);
                say(&photo.sha);
            }
            "round" => {
                let done = store.of_kind(Kind::RoundDone).unwrap().len();
                let counter = store.draft_counter().unwrap() + 1;
                let write = DraftWrite {
                    field: "/round/why".to_owned(),
                    text: Some(done.to_string()),
                    counter,
                };
                store.draft_put(&[write]).unwrap();
                let entry = NewEntry::new(Kind::RoundDone, json!({"why": "daily", "number": number}));
                let kept = store.append_many(at(number), vec![entry], Some("/round/")).unwrap();
                say(&kept[0].hash);
            }
            _ => {
                if number < 6 {
                    photo(&mut store, &jpeg(200 + salt, 200), "wall", number);
                    round(&mut store, number);
                }
                let made = pack(&mut store, &folder.join("out"), number);
                say(&made.path.display());
            }
        }
    }
}

/// Takes two packs of one job in, the second into the job the first made, on one new phone after the other.
fn imports_until_killed(folder: &Path, say: &dyn Fn(&dyn std::fmt::Display)) {
    if !folder.join("two.zip").exists() {
        let source = TempDir::new().unwrap();
        let jobs = Jobs::open(source.path()).unwrap();
        let mut store = jobs.begin("Mill Lane 4", "", "england", false, at(0)).unwrap();
        let one = packed(&mut store, source.path()).path;
        fs::rename(one, folder.join("one.zip")).unwrap();
        note(&mut store, 6000, "later");
        photo(&mut store, &jpeg(99, 9), "N2-in", 6001);
        let two = pack(&mut store, source.path(), 6002).path;
        fs::rename(two, folder.join("two.zip")).unwrap();
    }
    loop {
        let name = Uuid::new_v4().to_string();
        let jobs = Jobs::open(&folder.join("phones").join(&name)).unwrap();
        for pack in ["one.zip", "two.zip"] {
            let done = import(&jobs, &folder.join(pack), at(7000)).unwrap();
            // Its entries, the one that says so, and its photos.
            say(&format!("{name} {}", done.known + done.added + 1 + done.photos));
        }
    }
}
