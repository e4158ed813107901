//! `check.html` as it lies in a pack, in a real browser: the very file, under its own policy, with files chosen by hand.

use std::fs;
use std::path::{Path, PathBuf};

use serde_json::json;
use tempfile::TempDir;
use upstay_lib::pack::{Verdict, page, verify};
use upstay_lib::record::Kind;
use upstay_lib::seal;
use zip::CompressionMethod;

use crate::browser::Browser;
use crate::make::{at, job, note, packed};
use crate::pack::{members, rewritten};
use crate::pack_forged::{file, relist};

/// A pack with a seal, and its page unpacked; the browser stands on that page.
struct Desk {
    out: TempDir,
    pack: PathBuf,
    code: String,
    full: String,
    browser: Browser,
}

fn desk() -> Option<Desk> {
    let (_data, _jobs, mut store) = job();
    let out = TempDir::new().unwrap();
    let hostile = "</li><script>window.hurt = 1</script><img src=x onerror='window.hurt = 2'>";
    let body = json!({"job": store.job(), "name": hostile, "place": hostile, "country": "wales", "demo": false});
    let begun = store.of_kind(Kind::JobBegun).unwrap().remove(0);
    let named = upstay_lib::record::NewEntry::new(Kind::JobBegun, body).correcting(begun.hash);
    store.append_many(at(1), vec![named], None).unwrap();
    note(&mut store, 1, "β \u{1F600} __proto__ \u{2028} \"quoted\" \\ \u{7f}");
    let given = seal::give(&mut store, at(2)).unwrap();
    let pack = packed(&mut store, out.path()).path;
    let html = out.path().join("check.html");
    let own = members(&pack)
        .into_iter()
        .find(|(name, _)| name == "check.html")
        .unwrap()
        .1;
    assert_eq!(own, page().as_bytes());
    fs::write(&html, own).unwrap();
    let browser = Browser::open(&html)?;
    Some(Desk {
        pack,
        out,
        code: given.code,
        full: given.hash.to_string(),
        browser,
    })
}

impl Desk {
    /// What the page says to a file: its verdict and all its words.
    fn asked(&mut self, file: &Path, seal: &str) -> (String, String) {
        // What stood there before is taken away first, so that an old answer is never read.
        self.browser
            .value("delete document.getElementById('answer').dataset.verdict");
        self.browser
            .value(&format!("document.getElementById('seal').value = {}", json!(seal)));
        self.browser.choose("#files", &[file]);
        self.answer()
    }

    fn answer(&mut self) -> (String, String) {
        let verdict = self
            .browser
            .until("document.getElementById('answer').dataset.verdict ?? ''");
        (
            verdict,
            self.browser.until("document.getElementById('answer').textContent"),
        )
    }
}

#[test]
fn the_page_tells_whole_from_rezipped_from_changed() {
    let Some(mut desk) = desk() else { return };
    let pack = desk.pack.clone();
    let (verdict, words) = desk.asked(&pack, "");
    assert_eq!(verdict, "whole", "{words}");
    assert!(words.contains("every byte is as it was written"), "{words}");
    // What was typed stands there as text, and nothing of it ran.
    assert!(words.contains("<script>window.hurt = 1</script>"), "{words}");
    assert!(desk.browser.value("window.hurt ?? null").is_null());
    assert_eq!(desk.browser.value("document.querySelectorAll('img').length"), json!(0));
    assert_eq!(
        desk.browser.value("performance.getEntriesByType('resource').length"),
        json!(0),
        "nothing is fetched"
    );

    let (code, full) = (desk.code.clone(), desk.full.clone());
    for seal in [
        code.to_lowercase(),
        full.clone(),
        format!("UPSTAY:SEAL:1:{}", full.to_uppercase()),
    ] {
        let (verdict, words) = desk.asked(&pack, &seal);
        assert_eq!(verdict, "whole", "{words}");
        assert!(
            words.contains("The seal fits") && words.contains("7 entries came after"),
            "{words}"
        );
    }
    let (verdict, words) = desk.asked(&pack, "ZZZZ-ZZZZ-ZZZZ");
    assert_eq!(verdict, "unread", "{words}");
    let other = seal::short_code(upstay_lib::record::Hash::of(b"other"));
    let (verdict, words) = desk.asked(&pack, &other);
    assert!(
        verdict == "changed" && words.contains("no seal in this pack"),
        "{words}"
    );

    let files = members(&pack);
    let again = desk.out.path().join("again.zip");
    for method in [CompressionMethod::Stored, CompressionMethod::Deflated] {
        rewritten(&again, &files, method);
        let (verdict, words) = desk.asked(&again, &code);
        assert_eq!(verdict, "rezipped", "{words}");
    }
    let mut longer = fs::read(&pack).unwrap();
    longer.insert(0, b'x');
    fs::write(&again, longer).unwrap();
    assert_ne!(desk.asked(&again, "").0, "whole");
}

type Forge = fn(&mut Vec<(String, Vec<u8>)>);

/// The page says the same as the program about every change, and names the place.
#[test]
fn the_page_names_the_place_of_every_change() {
    let Some(mut desk) = desk() else { return };
    let photo = "photos/N1-in-D04-detail.jpg";
    let changes: [(&str, &str, Forge); 10] = [
        ("a byte of a photo", photo, |files| {
            file(files, "photos/N1-in-D04-detail.jpg")[50] ^= 1
        }),
        ("a swapped photo", photo, |files| {
            let other = file(files, "photos/wall-D01-detail.jpg").clone();
            *file(files, "photos/N1-in-D04-detail.jpg") = other;
            relist(files);
        }),
        ("a renamed photo", "photos/N9-in-D04-detail.jpg", |files| {
            files
                .iter_mut()
                .find(|(name, _)| name.starts_with("photos/N1-in-D04-detail."))
                .unwrap()
                .0 = "photos/N9-in-D04-detail.jpg".to_owned();
            relist(files);
        }),
        ("an added file", "photos/extra.jpg", |files| {
            files.push(("photos/extra.jpg".to_owned(), b"x".to_vec()));
            relist(files);
        }),
        ("a missing file", "rounds.csv", |files| {
            files.retain(|(name, _)| name != "rounds.csv")
        }),
        ("another report", "report.pdf: it is not the report", |files| {
            file(files, "report.pdf").push(b' ');
            relist(files);
        }),
        ("other rounds", "the files are not those the record names", |files| {
            file(files, "rounds.csv").push(b' ');
            relist(files);
        }),
        ("an edited time", "its contents do not fit its hash", |files| {
            edit(files, |entries| entries[3]["at_utc_ms"] = json!(1_772_438_400_001_i64));
        }),
        ("a removed entry", "the entry before it is missing", |files| {
            edit(files, |entries| drop(entries.remove(3)));
        }),
        ("reordered entries", "out of order", |files| {
            edit(files, |entries| entries.swap(2, 3))
        }),
    ];
    let target = desk.out.path().join("changed.zip");
    for (what, place, forge) in changes {
        let mut files = members(&desk.pack);
        forge(&mut files);
        rewritten(&target, &files, CompressionMethod::Stored);
        assert_eq!(verify(&target, None).unwrap().verdict, Verdict::Changed, "{what}");
        let (verdict, words) = desk.asked(&target, "");
        assert_eq!(verdict, "changed", "{what}: {words}");
        assert!(words.contains(place), "{what}: {words}");
    }
}

fn edit(files: &mut Vec<(String, Vec<u8>)>, change: impl FnOnce(&mut Vec<serde_json::Value>)) {
    let bytes = file(files, "record.json");
    let mut record: serde_json::Value = serde_json::from_slice(bytes).unwrap();
    change(record["entries"].as_array_mut().unwrap());
    *bytes = serde_json_canonicalizer::to_vec(&record).unwrap();
    relist(files);
}

/// Unpacked, the files are chosen one by one or as a folder.
#[test]
fn the_page_takes_unpacked_files() {
    let Some(mut desk) = desk() else { return };
    let folder = desk.out.path().join("unpacked");
    let mut paths = Vec::new();
    for (name, bytes) in members(&desk.pack) {
        let target = folder.join(name);
        fs::create_dir_all(target.parent().unwrap()).unwrap();
        fs::write(&target, bytes).unwrap();
        paths.push(target);
    }
    let chosen: Vec<&Path> = paths.iter().map(PathBuf::as_path).collect();
    desk.browser.choose("#files", &chosen);
    let (verdict, words) = desk.answer();
    assert_eq!(verdict, "unpacked", "{words}");
    fs::write(folder.join("rounds.csv"), b"other").unwrap();
    desk.browser
        .value("delete document.getElementById('answer').dataset.verdict");
    desk.browser.choose("#folder", &[&folder]);
    let (verdict, words) = desk.answer();
    assert!(
        verdict == "changed" && words.contains("rounds.csv: its contents were changed"),
        "{words}"
    );
}

/// What is no pack is said to be none, and the page lives on.
#[test]
fn the_page_bears_what_is_no_pack() {
    let Some(mut desk) = desk() else { return };
    let target = desk.out.path().join("other.zip");
    let deep = format!("{}{}", "[".repeat(200_000), "]".repeat(200_000));
    for (bytes, words_in) in [
        (b"".to_vec(), "no ZIP file"),
        (b"PK\x05\x06 cut".to_vec(), "no ZIP file"),
        (vec![0; 70_000], "no ZIP file"),
    ] {
        fs::write(&target, bytes).unwrap();
        let (verdict, words) = desk.asked(&target, "");
        assert!(verdict == "unread" && words.contains(words_in), "{verdict}: {words}");
    }
    for record in [
        "{",
        "null",
        "{\"format\":\"upstay record\",\"version\":2}",
        deep.as_str(),
    ] {
        rewritten(
            &target,
            &[("record.json".to_owned(), record.as_bytes().to_vec())],
            CompressionMethod::Deflated,
        );
        let (verdict, words) = desk.asked(&target, "");
        assert!(
            verdict == "changed" && words.contains("record.json: "),
            "{verdict}: {words}"
        );
    }
    let names = ["../evil", "/etc/evil", "photos\\evil.jpg", "<b>evil</b>"];
    let files: Vec<_> = names.map(|name| (name.to_owned(), b"x".to_vec())).to_vec();
    rewritten(&target, &files, CompressionMethod::Stored);
    let (_, words) = desk.asked(&target, "");
    assert!(
        words.contains("<b>evil</b>") && words.contains("no place in a pack"),
        "{words}"
    );
    assert_eq!(
        desk.browser.value("document.querySelectorAll('#answer b').length"),
        json!(0)
    );
    let pack = desk.pack.clone();
    assert_eq!(desk.asked(&pack, "").0, "whole");
}
