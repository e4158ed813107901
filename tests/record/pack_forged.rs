//! Packs by somebody who knows how they are made.

use std::fs;
use std::path::Path;

use serde_json::json;
use tempfile::TempDir;
use upstay_lib::pack::{Answer, Verdict, verify};
use upstay_lib::record::{Hash, Kind, NewEntry};
use upstay_lib::seal;
use zip::CompressionMethod;

use crate::make::{at, job, jpeg, note, pack, packed};
use crate::pack::{members, rewritten};

type Members = Vec<(String, Vec<u8>)>;

/// Makes a pack, lets `forge` change its files, and checks what comes out.
fn forged(forge: impl FnOnce(&mut Members)) -> Answer {
    let (_data, _jobs, mut store) = job();
    let out = TempDir::new().unwrap();
    let made = packed(&mut store, out.path());
    let mut files = members(&made.path);
    forge(&mut files);
    let target = out.path().join("forged.zip");
    rewritten(&target, &files, CompressionMethod::Stored);
    verify(&target, None).unwrap()
}

/// Makes the list of checksums anew, as any forger would.
pub fn relist(files: &mut Members) {
    files.retain(|(name, _)| name != "SHA256SUMS");
    let mut lines: Vec<String> = files
        .iter()
        .map(|(name, bytes)| format!("{}  {name}\n", Hash::of(bytes)))
        .collect();
    lines.sort_by_key(|line| line[66..].to_owned());
    files.push(("SHA256SUMS".to_owned(), lines.concat().into_bytes()));
}

pub fn file<'a>(files: &'a mut Members, name: &str) -> &'a mut Vec<u8> {
    &mut files.iter_mut().find(|(known, _)| known == name).unwrap().1
}

#[track_caller]
fn changed(answer: &Answer, where_: &str) {
    assert_eq!(answer.verdict, Verdict::Changed, "{answer}");
    assert_eq!(answer.verdict.exit_code(), 1);
    assert!(answer.places.iter().any(|place| place.contains(where_)), "{answer}");
}

#[test]
fn a_relisted_pack_without_a_change_is_not_a_change() {
    assert_eq!(forged(relist).verdict, Verdict::ContentsIntact);
}

#[test]
fn files_swapped_added_removed_or_renamed_are_told() {
    let photo = "photos/N1-in-D04-detail.jpg";
    changed(
        &forged(|files| *file(files, photo) = jpeg(9, 9)),
        "N1-in-D04-detail.jpg: its contents were changed",
    );
    for relisted in [false, true] {
        let finish = |files: &mut Members| {
            if relisted {
                relist(files);
            }
        };
        let added = forged(|files| {
            files.push(("photos/extra.jpg".to_owned(), jpeg(8, 8)));
            finish(files);
        });
        changed(&added, "photos/extra.jpg");
        let removed = forged(|files| {
            files.retain(|(name, _)| name != photo);
            finish(files);
        });
        changed(&removed, photo);
        let renamed = forged(|files| {
            files.iter_mut().find(|(name, _)| name == photo).unwrap().0 = "photos/N9-in-D04-detail.jpg".to_owned();
            finish(files);
        });
        changed(&renamed, "N9-in-D04-detail.jpg");
        let swapped = forged(|files| {
            let (one, two) = (
                file(files, photo).clone(),
                file(files, "photos/wall-D01-detail.jpg").clone(),
            );
            *file(files, photo) = two;
            *file(files, "photos/wall-D01-detail.jpg") = one;
            finish(files);
        });
        changed(&swapped, photo);
        for name in ["report.pdf", "record.json", "rounds.csv", "SHA256SUMS"] {
            let lacking = forged(|files| {
                finish(files);
                files.retain(|(known, _)| known != name);
            });
            changed(&lacking, name);
        }
    }
}

#[test]
fn a_relisted_change_of_words_is_told() {
    let record = forged(|files| {
        let bytes = file(files, "record.json");
        let text = String::from_utf8(bytes.clone())
            .unwrap()
            .replace("driven home", "driven half");
        *bytes = text.into_bytes();
        relist(files);
    });
    changed(&record, "its contents do not fit its hash");
    let rounds = forged(|files| {
        let bytes = file(files, "rounds.csv");
        *bytes = String::from_utf8(bytes.clone())
            .unwrap()
            .replace("wrong", "right")
            .into_bytes();
        relist(files);
    });
    changed(&rounds, "rounds.csv: it does not follow from the record");
    let report = forged(|files| {
        file(files, "report.pdf").push(b' ');
        relist(files);
    });
    changed(&report, "report.pdf: it is not the report");
    let spelling = forged(|files| {
        file(files, "record.json").push(b'\n');
        relist(files);
    });
    changed(&spelling, "record.json: it does not follow");
    let newer = forged(|files| {
        let bytes = file(files, "record.json");
        let text = String::from_utf8(bytes.clone())
            .unwrap()
            .replace("\"version\":1}", "\"version\":2}");
        *bytes = text.into_bytes();
        relist(files);
    });
    changed(&newer, "newer version of the app");
}

#[test]
fn an_entry_taken_out_breaks_the_chain() {
    let answer = forged(|files| {
        let bytes = file(files, "record.json");
        let mut record: serde_json::Value = serde_json::from_slice(bytes).unwrap();
        record["entries"]
            .as_array_mut()
            .unwrap()
            .retain(|entry| entry["kind"] != "note");
        *bytes = serde_json_canonicalizer::to_vec(&record).unwrap();
        relist(files);
    });
    changed(&answer, "the entry before it is missing");
}

/// The forger makes the hash of the changed entry anew, but not those that follow.
#[test]
fn an_entry_hashed_anew_does_not_fit_the_next() {
    let answer = forged(|files| {
        let bytes = file(files, "record.json");
        let mut record: serde_json::Value = serde_json::from_slice(bytes).unwrap();
        let entry = record["entries"]
            .as_array_mut()
            .unwrap()
            .iter_mut()
            .find(|entry| entry["kind"] == "note")
            .unwrap();
        entry["body"]["text"] = json!("No wedge at N1.");
        entry.as_object_mut().unwrap().remove("hash");
        let text = format!(
            "upstay entry 1\n{}",
            serde_json_canonicalizer::to_string(entry).unwrap()
        );
        entry["hash"] = json!(Hash::of(text.as_bytes()));
        *bytes = serde_json_canonicalizer::to_vec(&record).unwrap();
        relist(files);
    });
    assert_eq!(answer.places.len(), 1, "{answer}");
    changed(&answer, "it does not follow the entry before it");
}

/// Another story told from a copy of the same phone: it holds together, but not with the seal of the first.
#[test]
fn a_second_story_does_not_fit_the_seal_of_the_first() {
    let (data, jobs, mut store) = job();
    let out = TempDir::new().unwrap();
    let id = store.job();
    store.write(|gate| gate.draft_clear_prefix("/")).unwrap();
    drop(store);
    let file = data.path().join("jobs").join(id.to_string()).join("record.sqlite");
    let begun = fs::read(&file).unwrap();
    let mut store = jobs.open_job(id).unwrap();
    note(&mut store, 1, "N2 was missing its pin");
    let given = seal::give(&mut store, at(2)).unwrap();
    let sealed = store.last_of(Kind::SealGiven).unwrap().unwrap().body;
    drop(store);

    fs::write(&file, begun).unwrap();
    let mut store = jobs.open_job(id).unwrap();
    note(&mut store, 1, "all pins were in");
    let plain = pack(&mut store, out.path(), 3).path;
    assert_eq!(verify(&plain, None).unwrap().verdict, Verdict::Intact);
    changed(
        &verify(&plain, Some(&given.code)).unwrap(),
        "no seal in this pack gives that code",
    );
    // The forger also copies the first seal's list into the second story.
    store
        .write(|gate| gate.append(at(4), NewEntry::new(Kind::SealGiven, sealed)))
        .unwrap();
    let copied = pack(&mut store, out.path(), 5).path;
    for code in [given.code, given.hash.to_string()] {
        changed(
            &verify(&copied, Some(&code)).unwrap(),
            "does not contain what was sealed",
        );
    }
}

/// Names that would leave the folder, or that two systems read differently.
#[test]
fn hostile_names_are_refused() {
    for name in [
        "../evil",
        "/etc/evil",
        "photos/../../evil",
        "photos\\evil.jpg",
        "C:evil",
        "photos/.hidden",
        "a/b/c",
        "évil",
    ] {
        let answer = forged(|files| {
            files.push((name.to_owned(), b"x".to_vec()));
            relist(files);
        });
        changed(&answer, "a name that has no place in a pack");
    }
    let answer = forged(|files| files.push(("Report.PDF".to_owned(), b"x".to_vec())));
    changed(&answer, "this name stands twice");
}

/// A few kilobytes that would unpack to gigabytes are not unpacked.
#[test]
fn a_bomb_is_refused_unread() {
    let out = TempDir::new().unwrap();
    let target = out.path().join("bomb.zip");
    let zeros = vec![0; 50 * 1024 * 1024];
    let files: Members = (0..8)
        .map(|number| (format!("photos/{number}.jpg"), zeros.clone()))
        .collect();
    rewritten(&target, &files, CompressionMethod::Deflated);
    assert!(fs::metadata(&target).unwrap().len() < 1_000_000);
    changed(&verify(&target, None).unwrap(), "far more than a pack");
    let record: Members = vec![("record.json".to_owned(), vec![b'['; 65 * 1024 * 1024])];
    rewritten(&target, &record, CompressionMethod::Deflated);
    changed(&verify(&target, None).unwrap(), "more than it can have in a pack");
}

#[test]
fn what_is_no_pack_is_an_answer_and_what_is_not_there_an_error() {
    let out = TempDir::new().unwrap();
    let target = out.path().join("x.zip");
    for bytes in [b"".as_slice(), b"PK", b"not a zip at all", &[0; 70_000]] {
        fs::write(&target, bytes).unwrap();
        changed(&verify(&target, None).unwrap(), "no ZIP file");
    }
    // A directory that claims more files than the limit.
    let mut end = b"PK\x05\x06\0\0\0\0".to_vec();
    end.extend([0xFF, 0xFF, 0xFF, 0xFF]);
    end.extend([0xFF, 0xFF, 0xFF, 0x7F, 0, 0, 0, 0, 0, 0]);
    fs::write(&target, end).unwrap();
    changed(&verify(&target, None).unwrap(), "more than a pack can have");
    rewritten(
        &target,
        &[("record.json".to_owned(), json!({"format": 1}).to_string().into_bytes())],
        CompressionMethod::Stored,
    );
    changed(&verify(&target, None).unwrap(), "not the record of a job");
    assert_eq!(verify(Path::new("/nowhere/x.zip"), None).unwrap_err().code(), "file");
}
