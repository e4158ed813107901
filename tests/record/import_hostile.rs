//! Packs by somebody who wants to harm whoever takes them in: refused in words, or shown as text; memory bounded.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

use rusqlite::{Connection, params};
use serde_json::{Value, json};
use tempfile::TempDir;
use upstay_lib::pack::{Verdict, import, verify};
use upstay_lib::record::{Entry, Hash, Kind, Store};
use upstay_lib::site;
use zip::CompressionMethod;
use zip::write::SimpleFileOptions;

use crate::import::phone;
use crate::make::{at, job, jpeg, note, pack, packed, photo};
use crate::pack::{members, rewritten};
use crate::pack_forged::{file, relist};

/// Puts an entry into a job's file past the gate, with a hash that fits.
fn force(store: &Store, entry: Entry) -> Entry {
    let db = Connection::open(store.folder().join("record.sqlite")).unwrap();
    inserted(&db, store, entry)
}

fn inserted(db: &Connection, store: &Store, mut entry: Entry) -> Entry {
    entry.hash = entry.computed_hash(store.job()).unwrap();
    db.execute(
        include_str!("../../src-tauri/src/record/sql/insert_entry.sql"),
        params![
            entry.device.to_string(),
            entry.seq,
            entry.tick,
            json!(entry.seen).to_string(),
            entry.moment.utc_ms,
            entry.moment.offset_min,
            entry.moment.boot_ms,
            entry.kind.as_str(),
            entry.body.to_string(),
            entry.corrects,
            entry.prev,
            entry.hash,
        ],
    )
    .unwrap();
    entry
}

/// The entry that would follow the last one.
fn next(store: &Store, kind: Kind, body: Value) -> Entry {
    let last = store.all_entries().unwrap().pop().unwrap();
    Entry {
        position: 0,
        seq: last.seq + 1,
        tick: last.tick + 1,
        prev: last.hash,
        kind,
        body,
        corrects: None,
        hash: Hash::ZERO,
        ..last
    }
}

/// What another phone says to a pack of this job.
fn refused(store: &mut Store) -> String {
    let out = TempDir::new().unwrap();
    let (_data, theirs) = phone();
    let made = pack(store, out.path(), 50);
    let why = import(&theirs, &made.path, at(51)).unwrap_err();
    assert!(["foreign", "pack_changed"].contains(&why.code()), "{why}");
    assert_eq!(theirs.list().unwrap(), []);
    why.to_string()
}

/// Entries that hold together and that this app never writes.
#[test]
fn entries_that_the_app_does_not_write_are_refused() {
    let photo_body = |change: &dyn Fn(&mut Value)| {
        let (_data, _jobs, mut store) = job();
        photo(&mut store, &jpeg(8, 8), "wall", 1);
        let mut body = store.last_of(Kind::PhotoTaken).unwrap().unwrap().body;
        change(&mut body);
        body
    };
    type Change = fn(&mut Value);
    let changes: [Change; 7] = [
        |body| body["bytes"] = json!("many"),
        |body| body["kind"] = json!("selfie"),
        |body| body["orientation"] = json!(9),
        |body| body["about"] = json!("x".repeat(2000)),
        |body| body["extra"] = json!(1),
        |body| body["sha256"] = json!("../../../etc/passwd"),
        |body| drop(body.as_object_mut().unwrap().remove("mark")),
    ];
    for change in changes {
        let (_data, _jobs, mut store) = job();
        force(&store, next(&store, Kind::PhotoTaken, photo_body(&change)));
        let why = refused(&mut store);
        assert!(why.contains("not described as this app does"), "{why}");
    }
    let (_data, _jobs, mut store) = job();
    force(
        &store,
        next(
            &store,
            Kind::JobBegun,
            json!({"job": store.job(), "name": "Again", "demo": true}),
        ),
    );
    assert!(refused(&mut store).contains("a job begins once"));
    // A tick at the end of the range would keep every later entry from being written.
    let (_data, _jobs, mut store) = job();
    let mut late = next(&store, Kind::Note, json!({"text": "x"}));
    late.tick = 9_007_199_254_740_000;
    force(&store, late);
    assert!(refused(&mut store).contains("does not follow from what it had seen"));
}

/// Script, markup, formulas and odd letters in names and notes come out as they went in, as text.
#[test]
fn script_in_names_and_notes_is_text() {
    let (_data, _jobs, mut store) = job();
    let (_there, theirs) = phone();
    let out = TempDir::new().unwrap();
    let nasty = "<script>alert(1)</script> =cmd|' /C calc'!A0 \u{202E}gnp.exe \u{0} ';DROP TABLE entry;--";
    note(&mut store, 1, nasty);
    photo(&mut store, &jpeg(8, 8), "../../<img src=x onerror=alert(1)>", 2);
    let made = pack(&mut store, out.path(), 3);
    let names: Vec<String> = members(&made.path).into_iter().map(|(name, _)| name).collect();
    assert!(
        names.contains(&"photos/img-src-x-onerror-alert-1-D01-detail.jpg".to_owned()),
        "{names:?}"
    );
    import(&theirs, &made.path, at(4)).unwrap();
    let copy = theirs.open_job(store.job()).unwrap();
    let page = site::record_page(&copy, None, 10, at(5)).unwrap();
    assert!(page.entries.iter().any(|line| line.words == nasty));
    assert!(copy.health().unwrap().whole);
    // Nothing was written outside the folder of the job.
    let outside: Vec<String> = fs::read_dir(copy.folder().parent().unwrap().parent().unwrap())
        .unwrap()
        .map(|item| item.unwrap().file_name().to_string_lossy().into_owned())
        .collect();
    assert!(
        outside.iter().all(|name| ["jobs", "device"].contains(&name.as_str())),
        "{outside:?}"
    );
}

/// Makes a pack with more in it; the list of check sums is made to fit.
fn with_more(name: &str, out: &TempDir, add: impl FnOnce(&mut zip::ZipWriter<fs::File>)) -> PathBuf {
    let (_data, _jobs, mut store) = job();
    let made = packed(&mut store, out.path());
    let target = out.path().join(name);
    let mut files = members(&made.path);
    relist(&mut files);
    let mut zip = zip::ZipWriter::new(fs::File::create(&target).unwrap());
    for (name, bytes) in &files {
        let options = SimpleFileOptions::default().compression_method(CompressionMethod::Stored);
        zip.start_file(name.as_str(), options).unwrap();
        std::io::Write::write_all(&mut zip, bytes).unwrap();
    }
    add(&mut zip);
    zip.finish().unwrap();
    target
}

fn told(path: &Path) -> String {
    let (data, theirs) = phone();
    let why = import(&theirs, path, at(1)).unwrap_err();
    assert_eq!(why.code(), "pack_changed");
    let inside = fs::read_dir(data.path().join("jobs")).unwrap().count();
    assert_eq!(
        (inside, data.path().parent().unwrap().join("evil").exists()),
        (0, false)
    );
    why.to_string()
}

#[test]
fn paths_links_and_doubled_names_are_refused() {
    let out = TempDir::new().unwrap();
    let options = SimpleFileOptions::default();
    let link = with_more("link.zip", &out, |zip| {
        zip.add_symlink("photos/link.jpg", "/etc/passwd", options).unwrap();
    });
    assert!(told(&link).contains("photos/link.jpg: it is not listed"));
    for name in [
        "../evil",
        "/evil",
        "photos/../../evil",
        "C:\\evil",
        "photos\\evil",
        "photos/CON\u{0}.jpg",
    ] {
        let path = with_more("path.zip", &out, |zip| {
            zip.start_file(name, options).unwrap();
        });
        assert!(told(&path).contains("no place in a pack"), "{name}");
    }
    // Names that become one: by another case, by a leading slash, by a dot.
    for (name, words) in [
        ("PHOTOS/wall-D01-detail.jpg", "no place in a pack"),
        ("photos/WALL-d01-detail.JPG", "this name stands twice"),
        ("/photos/wall-D01-detail.jpg", "no place in a pack"),
        ("./record.json", "no place in a pack"),
        ("Record.json", "this name stands twice"),
    ] {
        let path = with_more("twice.zip", &out, |zip| {
            zip.start_file(name, options).unwrap();
        });
        assert!(told(&path).contains(words), "{name}: {}", told(&path));
    }
}

/// Names in no encoding that a pack uses.
#[test]
fn wrong_encodings_are_refused() {
    let out = TempDir::new().unwrap();
    let path = with_more("name.zip", &out, |zip| {
        zip.start_file("photos/xyz.jpg", SimpleFileOptions::default()).unwrap();
    });
    let mut bytes = fs::read(&path).unwrap();
    for at in 0..bytes.len() - 3 {
        if &bytes[at..at + 3] == b"xyz" {
            bytes[at] = 0xFF;
        }
    }
    fs::write(&path, bytes).unwrap();
    assert!(told(&path).contains("list of files is broken"), "{}", told(&path));
    let target = out.path().join("text.zip");
    for record in [
        b"\xFF\xFE{\0}\0".as_slice(),
        b"\xEF\xBB\xBF{}",
        b"{\"format\":\"upstay record\",\"version\":1,\"job\":{\"id\":\"\xC3\x28\"}}",
        b"{\"a\":",
        b"[]",
        b"\"\\ud800\"",
        b"{\"format\":\"upstay record\",\"version\":1e999}",
    ] {
        let files = [("record.json".to_owned(), record.to_vec())];
        rewritten(&target, &files, CompressionMethod::Stored);
        assert!(told(&target).contains("record.json: "), "{}", told(&target));
    }
}

/// Runs the program with its memory held to a gigabyte, and gives its answer.
fn held(words: &[&std::ffi::OsStr]) -> (Option<i32>, String) {
    let said = Command::new("sh")
        .args([
            "-c",
            "ulimit -v 1048576; exec \"$0\" \"$@\"",
            env!("CARGO_BIN_EXE_upstay"),
        ])
        .args(words)
        .output()
        .unwrap();
    let text = format!(
        "{}{}",
        String::from_utf8_lossy(&said.stdout),
        String::from_utf8_lossy(&said.stderr)
    );
    (said.status.code(), text)
}

/// 100,000 entries, 100,000 files, a few megabytes that would parse into gigabytes, and bombs.
#[test]
fn huge_packs_are_refused_in_bounded_memory() {
    let (_data, _jobs, mut store) = job();
    let out = TempDir::new().unwrap();
    let target = out.path().join("huge.zip");
    let refused = |words: &str| {
        let phone = out.path().join("phone");
        for args in [
            ["verify".as_ref(), target.as_os_str()].as_slice(),
            &["import".as_ref(), target.as_os_str(), phone.as_os_str()],
        ] {
            let (code, said) = held(args);
            assert!(code == Some(1) && said.contains(words), "{code:?} {said}");
        }
    };
    // A record of the length that a pack may have.
    let made = packed(&mut store, out.path());
    let files = members(&made.path);
    for (what, words) in [
        ("[],", "more values"),
        ("{\"a\":1},", "more values"),
        ("\"aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa\",", "lacks a part"),
    ] {
        let mut forged = files.clone();
        let list = what.repeat(40 * 1024 * 1024 / what.len());
        let begin = "{\"format\":\"upstay record\",\"version\":1,\"job\":{\"id\":\"00000000-0000-0000-0000-000000000001\"},\"entries\":[";
        *file(&mut forged, "record.json") = format!("{begin}{}]}}", list.trim_end_matches(',')).into_bytes();
        relist(&mut forged);
        rewritten(&target, &forged, CompressionMethod::Deflated);
        refused(words);
    }
    // More files than a pack has.
    let many: Vec<(String, Vec<u8>)> = (0..100_001)
        .map(|number| (format!("photos/{number}.jpg"), Vec::new()))
        .collect();
    rewritten(&target, &many, CompressionMethod::Stored);
    refused("more than a pack can have");
    rewritten(&target, &many[..99_990], CompressionMethod::Stored);
    refused("SHA256SUMS: it is missing");
    // A bomb: a thousandth of what it would unpack to.
    let zeros = vec![0; 50 * 1024 * 1024];
    let bomb: Vec<(String, Vec<u8>)> = (0..8)
        .map(|number| (format!("photos/{number}.jpg"), zeros.clone()))
        .collect();
    rewritten(&target, &bomb, CompressionMethod::Deflated);
    refused("far more than a pack");
}

/// A record that holds together and is longer than any job: looked at in bounded memory, and not taken in.
#[test]
fn a_hundred_thousand_entries_are_looked_at_and_not_taken_in() {
    let (_data, _jobs, mut store) = job();
    let out = TempDir::new().unwrap();
    let db = Connection::open(store.folder().join("record.sqlite")).unwrap();
    db.execute_batch("BEGIN").unwrap();
    let mut last = next(&store, Kind::Note, json!({"text": "x"}));
    for _ in 0..100_000 {
        last = inserted(&db, &store, last);
        last = Entry {
            seq: last.seq + 1,
            tick: last.tick + 1,
            prev: last.hash,
            ..last
        };
    }
    db.execute_batch("COMMIT").unwrap();
    drop(db);
    let made = pack(&mut store, out.path(), 200);
    let (code, said) = held(&["verify".as_ref(), made.path.as_os_str()]);
    assert!(code == Some(0), "{said}");
    let phone = out.path().join("phone");
    let (code, said) = held(&["import".as_ref(), made.path.as_os_str(), phone.as_os_str()]);
    assert!(
        code == Some(1) && said.contains("it has 100002 entries, more than"),
        "{said}"
    );
    assert_eq!(verify(&made.path, None).unwrap().verdict, Verdict::Intact);
}
