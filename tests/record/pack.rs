//! The pack as it is written, and the check of it.

use std::fs::{self, File};
use std::io::{Read, Write};
use std::path::Path;
use std::process::Command;

use tempfile::TempDir;
use upstay_lib::pack::{SealForm, Verdict, verify};
use upstay_lib::record::{Hash, Kind};
use upstay_lib::seal;
use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, ZipArchive, ZipWriter};

use crate::make::{at, job, jpeg, note, pack, packed, photo, round};

/// Names and contents as another program reads them.
pub fn members(path: &Path) -> Vec<(String, Vec<u8>)> {
    let mut zip = ZipArchive::new(File::open(path).unwrap()).unwrap();
    (0..zip.len())
        .map(|place| {
            let mut member = zip.by_index(place).unwrap();
            let mut bytes = Vec::new();
            member.read_to_end(&mut bytes).unwrap();
            (member.name().unwrap().into_owned(), bytes)
        })
        .collect()
}

/// Writes a container anew with another program.
pub fn rewritten(path: &Path, members: &[(String, Vec<u8>)], method: CompressionMethod) {
    let time = zip::DateTime::from_date_and_time(2026, 4, 5, 6, 7, 8).unwrap();
    let mut zip = ZipWriter::new(File::create(path).unwrap());
    for (name, bytes) in members {
        let options = SimpleFileOptions::default()
            .compression_method(method)
            .last_modified_time(time);
        zip.start_file(name.as_str(), options).unwrap();
        zip.write_all(bytes).unwrap();
    }
    zip.finish().unwrap();
}

#[test]
fn a_pack_holds_what_it_should_and_is_intact() {
    let (_data, _jobs, mut store) = job();
    let out = TempDir::new().unwrap();
    let made = packed(&mut store, out.path());
    let names: Vec<String> = members(&made.path).into_iter().map(|(name, _)| name).collect();
    assert_eq!(
        names,
        [
            "report.pdf",
            "photos/wall-D01-detail.jpg",
            "photos/N1-in-D04-detail.jpg",
            "photos/N1-in-D04-detail-2.jpg",
            "record.json",
            "rounds.csv",
            "check.html",
            "SHA256SUMS"
        ]
    );
    assert_eq!((made.files, made.bytes), (8, fs::metadata(&made.path).unwrap().len()));
    let answer = verify(&made.path, None).unwrap();
    assert_eq!(
        (answer.verdict, &answer.places, &answer.notes),
        (Verdict::Intact, &vec![], &vec![])
    );
    assert_eq!(answer.verdict.exit_code(), 0);
    let record: serde_json::Value = serde_json::from_slice(&members(&made.path)[4].1).unwrap();
    let last = record["entries"].as_array().unwrap().last().unwrap();
    assert_eq!(
        (last["kind"].as_str(), last["hash"].as_str()),
        (Some("pack_made"), Some(made.entry.to_string().as_str()))
    );
}

#[test]
fn the_rounds_are_rows_and_open_with_the_caution() {
    let (_data, _jobs, mut store) = job();
    let out = TempDir::new().unwrap();
    let made = packed(&mut store, out.path());
    let text = String::from_utf8(members(&made.path)[5].1.clone()).unwrap();
    let lines: Vec<&str> = text.split("\r\n").collect();
    assert_eq!(&lines[..2], ["Not a substitute for an engineer.", "'=Check each day."]);
    assert!(
        lines[2].starts_with("at,entry,corrects,prop,pin,collar_turns,") && lines[2].ends_with(",round_stop,day"),
        "{}",
        lines[2]
    );
    let hash = store.last_of(Kind::RoundDone).unwrap().unwrap().hash.short();
    assert_eq!(
        lines[3],
        format!(
            "2026-03-05T10:09:00+02:00,{hash},,N1-in,right,0.5,80,3,-2,1.5,4,0,yes,yes,yes,yes,0.71,,12.25,,,no,yes,"
        )
    );
    assert!(
        lines[4].contains(r#""'=1+1, ""two""",wrong,,,0,0,1.5,"#),
        "{}",
        lines[4]
    );
    assert_eq!(lines[5], "");
}

/// The same contents give the same bytes.
#[test]
fn the_bytes_are_determined_by_the_contents() {
    let (_data, _jobs, mut store) = job();
    let out = TempDir::new().unwrap();
    let made = packed(&mut store, out.path());
    let original = fs::read(&made.path).unwrap();
    let names: Vec<_> = members(&made.path);
    // By hand, from the format's description: a stored member has a 30-byte header, its name, its contents.
    let first = &names[0];
    assert_eq!(&original[..4], b"PK\x03\x04");
    assert_eq!(
        &original[10..14],
        [0, 0, 0x21, 0],
        "no time, and the first date the format knows"
    );
    assert_eq!(&original[30..40], first.0.as_bytes());
    assert_eq!(&original[40..40 + first.1.len()], first.1);
}

#[test]
fn the_list_of_checksums_serves_the_usual_program() {
    let (_data, _jobs, mut store) = job();
    let out = TempDir::new().unwrap();
    let made = packed(&mut store, out.path());
    for (name, bytes) in members(&made.path) {
        let target = out.path().join(name);
        fs::create_dir_all(target.parent().unwrap()).unwrap();
        fs::write(target, bytes).unwrap();
    }
    match Command::new("sha256sum")
        .args(["--strict", "-c", "SHA256SUMS"])
        .current_dir(out.path())
        .output()
    {
        Ok(said) => assert!(said.status.success(), "{}", String::from_utf8_lossy(&said.stderr)),
        Err(why) => {
            println!("NOT RUN: sha256sum ({why})");
            assert!(
                std::env::var_os("UPSTAY_REQUIRE_ALL").is_none(),
                "sha256sum is required"
            );
        }
    }
}

/// Every byte of a small pack, changed one at a time: by turns in all of its bits and in one of them.
#[test]
fn no_flipped_byte_leaves_it_intact() {
    let (_data, _jobs, mut store) = job();
    let out = TempDir::new().unwrap();
    note(&mut store, 1, "short");
    photo(&mut store, &jpeg(8, 8), "wall", 2);
    let made = pack(&mut store, out.path(), 3);
    let original = fs::read(&made.path).unwrap();
    let target = out.path().join("flipped.zip");
    let (mut tried, mut rewritten) = (0, 0);
    // The page is as long as all else together; some of its bytes must do.
    let page = original.windows(9).position(|part| part == b"<!doctype").unwrap();
    let page = page..page + upstay_lib::pack::page().len();
    for place in (0..original.len()).filter(|place| !page.contains(place) || place % 31 == 0) {
        let mut bytes = original.clone();
        bytes[place] ^= if place % 2 == 0 { 0xFF } else { 1 << (place / 2 % 8) };
        fs::write(&target, &bytes).unwrap();
        let answer = verify(&target, None).unwrap();
        assert_ne!(answer.verdict, Verdict::Intact, "byte {place}");
        tried += 1;
        rewritten += usize::from(answer.verdict == Verdict::ContentsIntact);
    }
    assert!(tried >= 500, "{tried}");
    // Times, rights and versions in the headers carry no contents; the rest does.
    assert!(rewritten * 5 < tried, "{rewritten} of {tried}");
}

#[test]
fn cut_off_or_lengthened_it_is_not_intact() {
    let (_data, _jobs, mut store) = job();
    let out = TempDir::new().unwrap();
    let made = packed(&mut store, out.path());
    let original = fs::read(&made.path).unwrap();
    let target = out.path().join("other.zip");
    for keep in (0..original.len()).step_by(97) {
        fs::write(&target, &original[..keep]).unwrap();
        assert_eq!(verify(&target, None).unwrap().verdict, Verdict::Changed, "{keep} bytes");
    }
    for bytes in [
        [original.as_slice(), b"x"].concat(),
        [b"x", original.as_slice()].concat(),
    ] {
        fs::write(&target, bytes).unwrap();
        assert_ne!(verify(&target, None).unwrap().verdict, Verdict::Intact);
    }
}

/// A second directory behind the first, pointing at the same files: all that was written is there, and more.
#[test]
fn a_second_directory_is_not_intact() {
    let (_data, _jobs, mut store) = job();
    let out = TempDir::new().unwrap();
    let made = packed(&mut store, out.path());
    let mut bytes = fs::read(&made.path).unwrap();
    let number = |bytes: &[u8], from_end: usize| {
        let at = bytes.len() - from_end;
        usize::try_from(u32::from_le_bytes(bytes[at..at + 4].try_into().unwrap())).unwrap()
    };
    let directory = bytes[number(&bytes, 6)..].to_vec();
    let begins = u32::try_from(bytes.len()).unwrap();
    bytes.extend(directory);
    let end = bytes.len();
    bytes[end - 6..end - 2].copy_from_slice(&begins.to_le_bytes());
    let target = out.path().join("twice.zip");
    fs::write(&target, bytes).unwrap();
    let answer = verify(&target, None).unwrap();
    assert_eq!(answer.verdict, Verdict::ContentsIntact, "{answer}");
}

#[test]
fn written_anew_by_another_program_the_contents_are_intact() {
    let (_data, _jobs, mut store) = job();
    let out = TempDir::new().unwrap();
    let made = packed(&mut store, out.path());
    let mut members = members(&made.path);
    let target = out.path().join("again.zip");
    for method in [CompressionMethod::Stored, CompressionMethod::Deflated] {
        rewritten(&target, &members, method);
        let answer = verify(&target, None).unwrap();
        assert_eq!(
            (answer.verdict, answer.verdict.exit_code()),
            (Verdict::ContentsIntact, 3),
            "{answer}"
        );
    }
    members.reverse();
    rewritten(&target, &members, CompressionMethod::Stored);
    assert_eq!(verify(&target, None).unwrap().verdict, Verdict::ContentsIntact);
}

#[test]
fn the_seal_is_found_in_both_forms() {
    let (_data, _jobs, mut store) = job();
    let out = TempDir::new().unwrap();
    note(&mut store, 1, "sealed");
    let given = seal::give(&mut store, at(2)).unwrap();
    let made = packed(&mut store, out.path());
    assert_eq!(made.seal.as_deref(), Some(given.code.as_str()));
    for (text, form) in [
        (given.code.clone(), SealForm::Short),
        (given.code.to_lowercase().replace('-', " "), SealForm::Short),
        (given.hash.to_string(), SealForm::Full),
    ] {
        let answer = verify(&made.path, Some(&text)).unwrap();
        assert_eq!((answer.verdict, answer.seal), (Verdict::Intact, Some(form)), "{answer}");
        // The seal's own entry, three photos, a note, a round and the pack.
        assert!(answer.notes[0].contains("7 entries came after"), "{answer}");
    }
    let other = seal::short_code(Hash::of(b"other"));
    let answer = verify(&made.path, Some(&other)).unwrap();
    assert_eq!((answer.verdict, answer.seal), (Verdict::Changed, None));
    assert!(answer.places[0].contains("no seal in this pack"), "{answer}");
    assert_eq!(verify(&made.path, Some("ABC")).unwrap_err().code(), "seal_code");
}

/// A photo lost on the phone does not keep the pack from being made, and stays lost in it.
#[test]
fn a_photo_missing_on_the_phone_stands_as_missing() {
    let (_data, _jobs, mut store) = job();
    let out = TempDir::new().unwrap();
    let lost = photo(&mut store, &jpeg(8, 8), "wall", 1);
    let rotten = photo(&mut store, &jpeg(16, 16), "N1-in", 2);
    photo(&mut store, &jpeg(24, 24), "N2-in", 3);
    fs::remove_file(store.photo_folder().join(lost.sha.to_string())).unwrap();
    fs::write(store.photo_folder().join(rotten.sha.to_string()), b"other bytes").unwrap();
    let made = pack(&mut store, out.path(), 4);
    assert_eq!(made.missing.len(), 2);
    let answer = verify(&made.path, None).unwrap();
    assert_eq!(answer.verdict, Verdict::Intact, "{answer}");
    assert_eq!(answer.notes.len(), 2);
    assert!(
        answer
            .to_string()
            .contains("photos/N1-in-D01-detail.jpg: changed on the phone"),
        "{answer}"
    );
}

#[test]
fn the_demo_says_so() {
    let (_data, jobs, _store) = job();
    let out = TempDir::new().unwrap();
    let mut demo = jobs.begin("Example", "", "england", true, at(0)).unwrap();
    round(&mut demo, 1);
    let made = pack(&mut demo, out.path(), 2);
    assert!(made.path.file_name().unwrap().to_string_lossy().starts_with("DEMO-"));
    let members = members(&made.path);
    assert!(
        members
            .iter()
            .any(|(name, bytes)| name == "rounds.csv" && bytes.starts_with(b"DEMO"))
    );
    assert_eq!(verify(&made.path, None).unwrap().verdict, Verdict::Intact);
}

#[test]
fn a_report_that_fails_leaves_no_entry_and_no_file() {
    let (_data, _jobs, mut store) = job();
    let out = TempDir::new().unwrap();
    let why = upstay_lib::pack::make(&mut store, out.path(), "", at(1), |_| Err("no font".to_owned())).unwrap_err();
    assert_eq!((why.code(), store.entry_count().unwrap()), ("report", 1));
    assert_eq!(fs::read_dir(out.path()).unwrap().count(), 0);
}
