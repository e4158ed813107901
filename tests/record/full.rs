//! A medium that is really full: a small file system in memory that is written until nothing fits, also in the middle of
//! a transaction. Needs the right to mount, which no package can bring: where it is missing the test says NOT RUN, also
//! where everything else is required to run.

use std::fs;
use std::path::Path;
use std::process::Command;

use tempfile::TempDir;
use upstay_lib::photos::{Meta, PhotoKind, intake, list};
use upstay_lib::record::{Jobs, Kind, NewEntry, Store};
use uuid::Uuid;

use crate::make::{Dice, at, jpeg, note};

/// A file system of its own, taken down again at the end.
struct Medium(TempDir);

impl Medium {
    fn of(kilobytes: u32) -> Option<Self> {
        let folder = TempDir::new().unwrap();
        let mounted = Command::new("mount")
            .args(["-t", "tmpfs", "-o", &format!("size={kilobytes}k"), "tmpfs"])
            .arg(folder.path())
            .output();
        mounted.is_ok_and(|run| run.status.success()).then_some(Self(folder))
    }
}

impl Drop for Medium {
    fn drop(&mut self) {
        let _gone = Command::new("umount").arg(self.0.path()).status();
    }
}

/// Writes notes and photos until one is refused; gives what was confirmed, and the refusal.
fn fill(store: &mut Store, dice: &mut Dice) -> (Vec<String>, String) {
    let mut kept = Vec::new();
    for minute in 1.. {
        let done = if dice.below(3) == 0 {
            let meta = Meta {
                about: "N1-in".to_owned(),
                kind: PhotoKind::Detail,
                name: "one.jpg".to_owned(),
                modified_ms: None,
            };
            let width = u16::try_from(8 + dice.below(900)).unwrap();
            intake(store, &jpeg(width, 64), &meta, at(minute))
                .map(|photo| photo.sha.to_string())
                .map_err(|failure| failure.to_string())
        } else {
            let text = "a crack ".repeat(1 + dice.below(900));
            let entry = NewEntry::new(Kind::Note, serde_json::json!({ "text": text }));
            store
                .append_many(at(minute), vec![entry], None)
                .map(|entries| entries[0].hash.to_string())
                .map_err(|failure| failure.to_string())
        };
        match done {
            Ok(hash) => kept.push(hash),
            Err(words) => return (kept, words),
        }
    }
    unreachable!("a medium of some kilobytes holds everything")
}

fn all_there(data: &Path, id: Uuid, kept: &[String]) -> Store {
    let jobs = Jobs::open(data).unwrap();
    let line = jobs.list().unwrap().into_iter().find(|line| line.id == id).unwrap();
    assert_eq!(line.damaged, None);
    let store = jobs.open_job(id).unwrap();
    let health = store.health().unwrap();
    assert!(health.whole, "{:?}", health.words);
    let entries = store.all_entries().unwrap();
    let photos = list(&store).unwrap();
    for hash in kept {
        assert!(
            entries.iter().any(|entry| entry.hash.to_string() == *hash)
                || photos.iter().any(|photo| photo.sha.to_string() == *hash),
            "{hash} was confirmed and is not there"
        );
    }
    store
}

#[test]
fn what_no_longer_fits_is_refused_in_words_and_nothing_kept_is_lost() {
    let mut dice = Dice::new(0xF011);
    let (mut media, mut confirmed) = (0, 0);
    for kilobytes in (240..520).step_by(20) {
        let Some(medium) = Medium::of(kilobytes) else {
            println!("NOT RUN: a full medium (no right to mount one)");
            return;
        };
        let data = medium.0.path();
        // Taken away later, so that there is room again.
        let ballast = data.join("ballast");
        fs::write(&ballast, vec![1; 64 << 10]).unwrap();
        let mut store = Jobs::open(data)
            .unwrap()
            .begin("Mill Lane 4", "", "england", false, at(0))
            .unwrap();
        let id = store.job();
        let (mut kept, words) = fill(&mut store, &mut dice);
        let said = words.to_lowercase();
        assert!(said.contains("full") || said.contains("space"), "{words}");
        // Smaller things may still fit; none that is refused harms what is there.
        kept.extend(fill(&mut store, &mut dice).0);
        drop(store);

        fs::remove_file(&ballast).unwrap();
        let mut store = all_there(data, id, &kept);
        kept.push(note(&mut store, 100_000, "There is room again.").hash.to_string());
        drop(store);
        all_there(data, id, &kept);
        media += 1;
        confirmed += kept.len();
    }
    println!("full media: {media}, {confirmed} confirmed things, all there");
}
