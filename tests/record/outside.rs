//! The pack as other programs see it: unpackers, check sums, PDF tools and a reader of square codes.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

use serde_json::Value;
use tempfile::TempDir;
use upstay_lib::record::{Hash, Kind, NewEntry};
use upstay_lib::seal;

use crate::browser::{Browser, there};
use crate::make::{at, job, note, round};

/// What a program says; `None` where it is not installed.
fn run(folder: &Path, program: &str, words: &[&str]) -> Option<Output> {
    there(program).then(|| Command::new(program).args(words).current_dir(folder).output().unwrap())
}

#[track_caller]
fn well(said: &Output) -> String {
    let (out, err) = (
        String::from_utf8_lossy(&said.stdout),
        String::from_utf8_lossy(&said.stderr),
    );
    assert!(said.status.success(), "{out}{err}");
    out.into_owned()
}

/// The pack of the demo as the program makes it, and the folder it was unpacked into by another program.
fn demo() -> Option<(TempDir, PathBuf, PathBuf)> {
    let out = TempDir::new().unwrap();
    well(
        &Command::new(env!("CARGO_BIN_EXE_upstay"))
            .arg("demo")
            .arg(out.path())
            .output()
            .unwrap(),
    );
    let pack = fs::read_dir(out.path())
        .unwrap()
        .map(|item| item.unwrap().path())
        .find(|path| path.extension().is_some_and(|end| end == "zip"))
        .unwrap();
    let unpacked = out.path().join("unpacked");
    fs::create_dir(&unpacked).unwrap();
    well(&run(&unpacked, "unzip", &["-q", &pack.to_string_lossy()])?);
    Some((out, pack, unpacked))
}

fn flat(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn the_pack_passes_other_programs() {
    let Some((out, pack, unpacked)) = demo() else { return };
    if let Some(said) = run(out.path(), "unzip", &["-t", &pack.to_string_lossy()]) {
        assert!(well(&said).contains("No errors detected"));
    }
    if let Some(said) = run(&unpacked, "sha256sum", &["--strict", "-c", "SHA256SUMS"]) {
        assert_eq!(well(&said).lines().filter(|line| line.ends_with(": OK")).count(), 7);
    }
    if let Some(said) = run(&unpacked, "qpdf", &["--check", "report.pdf"]) {
        assert!(well(&said).contains("No syntax or stream encoding errors found"));
    }
    if let Some(said) = run(&unpacked, "pdfinfo", &["report.pdf"]) {
        let words = well(&said);
        assert!(
            words.contains("Tagged:          yes") && words.contains("Encrypted:       no"),
            "{words}"
        );
        // Older versions of this program complain of `/Suspects false`, which the standard asks to be a boolean
        // (ISO 32000-1, table 321, from memory); anything else it says is ours.
        let complaints = String::from_utf8_lossy(&said.stderr).into_owned();
        let other: Vec<&str> = complaints
            .lines()
            .filter(|line| !line.contains("Suspects object is wrong type (boolean)"))
            .collect();
        assert!(other.is_empty(), "{other:?}");
    }
}

#[test]
fn the_report_holds_caution_props_and_photos_on_paper() {
    let Some((_out, _pack, unpacked)) = demo() else { return };
    let record: Value = serde_json::from_slice(&fs::read(unpacked.join("record.json")).unwrap()).unwrap();
    let kept = record["entries"]
        .as_array()
        .unwrap()
        .iter()
        .find(|entry| entry["kind"] == "proposal_kept")
        .unwrap();
    let option =
        &kept["body"]["proposal"]["options"][usize::try_from(kept["body"]["option"].as_u64().unwrap()).unwrap()];
    let props: Vec<&str> = option["props"]
        .as_array()
        .unwrap()
        .iter()
        .map(|prop| prop["name"].as_str().unwrap())
        .collect();
    let photos: Vec<&str> = record["photos"]
        .as_array()
        .unwrap()
        .iter()
        .map(|photo| photo["sha256"].as_str().unwrap())
        .collect();
    assert!(props.len() >= 4 && photos.len() == 3);
    if let Some(said) = run(&unpacked, "pdftotext", &["-layout", "report.pdf", "-"]) {
        let text = well(&said);
        let pages: Vec<&str> = text.trim_end_matches('\u{c}').split('\u{c}').collect();
        assert!(pages.len() > 5);
        for (number, page) in pages.iter().enumerate() {
            assert!(
                flat(page).contains(calc::CAUTION),
                "page {} lacks the caution",
                number + 1
            );
        }
        for name in props {
            assert!(text.contains(name), "{name} is missing");
        }
        let unspaced: String = text.split_whitespace().collect();
        for sha in &photos {
            assert!(unspaced.contains(&sha[..12]), "the hash of a photo is missing");
        }
    }
    if let Some(said) = run(&unpacked, "pdfimages", &["-list", "report.pdf"]) {
        // The same picture may stand on several pages; each has one object number.
        let listed = well(&said);
        let objects: BTreeSet<&str> = listed
            .lines()
            .skip(2)
            .filter(|line| line.split_whitespace().nth(2) == Some("image"))
            .filter_map(|line| line.split_whitespace().nth(10))
            .collect();
        assert_eq!(objects.len(), photos.len(), "{listed}");
    }
}

/// The table of rounds as a reader of such tables sees it: the caution, a heading, and rows of one length.
#[test]
fn the_rounds_open_in_another_program() {
    let (_data, _jobs, mut store) = job();
    round(&mut store, 0);
    let first = round(&mut store, 3 * 1440);
    let body = first.body.clone();
    let corrected = NewEntry::new(Kind::RoundDone, body).correcting(first.hash);
    store.append_many(at(3 * 1440 + 1), vec![corrected], None).unwrap();
    let out = TempDir::new().unwrap();
    let made = crate::make::pack(&mut store, out.path(), 5 * 1440);
    let name = made.path.to_string_lossy().into_owned();
    let script = "import csv,io,json,sys,zipfile\n\
                  text=zipfile.ZipFile(sys.argv[1]).read('rounds.csv').decode('utf-8')\n\
                  print(json.dumps(list(csv.reader(io.StringIO(text,newline='')))))";
    let Some(said) = run(out.path(), "python3", &["-c", script, &name]) else {
        return;
    };
    let rows: Vec<Vec<String>> = serde_json::from_str(&well(&said)).unwrap();
    let head = rows
        .iter()
        .position(|row| row.first().is_some_and(|cell| cell == "at"))
        .unwrap();
    assert!(head > 0, "the caution stands before the heading");
    let (width, body) = (rows[head].len(), &rows[head + 1..]);
    assert!(body.iter().all(|row| row.len() == width), "{rows:?}");
    let missing: Vec<&str> = body
        .iter()
        .filter(|row| row.last().is_some_and(|cell| cell == "missing"))
        .map(|row| row[0].as_str())
        .collect();
    // Rounds on 2 and 5 March, the pack on the 7th, whose own day is not over.
    assert_eq!(missing, ["2026-03-03", "2026-03-04", "2026-03-06"]);
    let column = rows[head].iter().position(|cell| cell == "corrects").unwrap();
    let corrects = body.iter().filter(|row| row[column] == first.hash.short()).count();
    assert_eq!(
        corrects, 2,
        "both readings of the corrected round name what they correct"
    );
    let prop = rows[head].iter().position(|cell| cell == "prop").unwrap();
    assert!(
        body.iter().any(|row| row[prop].starts_with("'=1+1")),
        "a formula stays text"
    );
}

/// The square code is drawn by a browser and read by a reader of such codes.
#[test]
fn the_square_code_reads_as_the_whole_seal() {
    let (_data, _jobs, mut store) = job();
    note(&mut store, 1, "sealed");
    let given = seal::give(&mut store, at(2)).unwrap();
    let out = TempDir::new().unwrap();
    let page = out.path().join("code.html");
    let html = format!(
        "<html data-ready=yes><body style='width:400px;padding:20px;background:white'>{}</body></html>",
        given.qr
    );
    fs::write(&page, html).unwrap();
    if !there("zbarimg") {
        return;
    }
    let Some(mut browser) = Browser::open(&page) else {
        return;
    };
    let picture = out.path().join("code.png");
    fs::write(&picture, browser.picture()).unwrap();
    let said = run(out.path(), "zbarimg", &["-q", "--raw", "code.png"]).unwrap();
    let text = well(&said).trim().to_owned();
    assert_eq!(text, format!("UPSTAY:SEAL:1:{}", given.hash.to_string().to_uppercase()));
    assert_eq!(seal::parse(&text).unwrap(), seal::SealCode::Full(given.hash));
}

/// FIPS 180-4's published examples, and a million letters.
#[test]
fn the_vectors_of_sha_256() {
    let million = vec![b'a'; 1_000_000];
    let vectors: [(&[u8], &str); 4] = [
        (b"", "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"),
        (
            b"abc",
            "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad",
        ),
        (
            b"abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq",
            "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1",
        ),
        (
            &million,
            "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0",
        ),
    ];
    for (bytes, sha) in vectors {
        assert_eq!(Hash::of(bytes).to_string(), sha);
    }
}
