//! Random harm to what comes from outside: a job's JSON, a pack, an image's header, its EXIF data. None may crash or hang,
//! and memory is held to two gigabytes. No nightly compiler is needed: a mutator works on a small corpus, the same in
//! every run.
//!
//! `UPSTAY_FUZZ` sets the runs of each target, 3,000 otherwise. What was run by hand is in `DEVELOPERS.md`.

use std::io::Cursor;
use std::process::Command;

use serde_json::{Value, json};
use tempfile::TempDir;
use upstay_lib::pack::verify_in;
use upstay_lib::photos::facts;
use upstay_lib::seal;

use crate::make::{Dice, at, job, jpeg, note, pack, photo, round, with_exif};
use crate::pack::members;
use crate::pack_forged::relist;

const TARGET: &str = "UPSTAY_TEST_FUZZ_TARGET";

fn runs() -> usize {
    std::env::var("UPSTAY_FUZZ")
        .ok()
        .and_then(|text| text.parse().ok())
        .unwrap_or(3_000)
}

/// Runs a target in a process of its own whose memory is held.
fn target(name: &str) {
    let said = Command::new("sh")
        .args(["-c", "ulimit -v 2097152; exec \"$0\" \"$@\""])
        .arg(std::env::current_exe().unwrap())
        .args(["fuzz::runs_in_held_memory", "--exact", "--ignored", "--nocapture"])
        .env(TARGET, name)
        .output()
        .unwrap();
    let words = String::from_utf8_lossy(&said.stdout);
    assert!(
        said.status.success(),
        "{name}: {words}{}",
        String::from_utf8_lossy(&said.stderr)
    );
    let line = words.lines().find(|line| line.starts_with("fuzz ")).unwrap();
    println!("{line}");
}

#[test]
fn job_json_bears_everything() {
    target("job");
}

#[test]
fn packs_bear_everything() {
    target("pack");
}

#[test]
fn image_headers_bear_everything() {
    target("header");
}

#[test]
fn exif_bears_everything() {
    target("exif");
}

#[test]
#[ignore = "run as a process with held memory"]
fn runs_in_held_memory() {
    let name = std::env::var(TARGET).unwrap();
    let (corpus, tokens): (Vec<Vec<u8>>, &[&[u8]]) = match name.as_str() {
        "job" => (
            jobs(),
            &[
                b"null", b"-1", b"1e308", b"[]", b"{}", b"\"\"", b"true", b"0.0001", b"\\u0000",
            ],
        ),
        "pack" => (
            packs(),
            &[
                b"PK\x03\x04",
                b"PK\x01\x02",
                b"PK\x05\x06",
                b"PK\x06\x06",
                b"\xFF\xFF\xFF\xFF",
                b"\"seq\":",
                b"[]",
            ],
        ),
        "header" => (
            headers(),
            &[
                b"\xFF\xD8",
                b"\xFF\xC0",
                b"\xFF\xDA",
                b"IHDR",
                b"VP8X",
                b"\xFF\xFF\xFF\xFF",
            ],
        ),
        _ => (
            exifs(),
            &[
                b"Exif\0\0",
                b"II*\0",
                b"MM\0*",
                b"\x69\x87",
                b"\x25\x88",
                b"\xFF\xFF\xFF\xFF",
                b"2026:03:02",
            ],
        ),
    };
    let mut dice = Dice::new(21);
    let (mut taken, count) = (0, runs());
    for _ in 0..count {
        let mut bytes = corpus[dice.below(corpus.len())].clone();
        // Random bytes are seldom JSON; three of four are changed as values.
        if bytes.first() == Some(&b'{') && dice.below(4) > 0 {
            let mut value = serde_json::from_slice(&bytes).unwrap();
            for _ in 0..=dice.below(3) {
                change(&mut value, &mut dice);
            }
            bytes = value.to_string().into_bytes();
        } else {
            dice.mutate(&mut bytes, tokens);
        }
        taken += usize::from(match name.as_str() {
            "job" => job_json(&bytes),
            "pack" => pack_bytes(&bytes, &mut dice),
            _ => facts(&bytes, None, at(0)).is_ok(),
        });
    }
    println!("fuzz {name}: {count} runs, {taken} of them got past the first check, none crashed");
    assert!(taken > 0, "nothing got past the first check");
}

/// Changes one value somewhere inside.
fn change(value: &mut Value, dice: &mut Dice) {
    let deeper = dice.below(8) > 0;
    match value {
        Value::Object(members) if deeper && !members.is_empty() => {
            let at = dice.below(members.len());
            let (key, inner) = members.iter_mut().nth(at).unwrap();
            if dice.below(12) > 0 {
                return change(inner, dice);
            }
            let key = key.clone();
            let inner = members.remove(&key).unwrap();
            if dice.below(2) == 0 {
                members.insert(format!("{key}{}", dice.below(10)), inner);
            }
        }
        Value::Array(items) if deeper && !items.is_empty() => {
            let at = dice.below(items.len());
            match dice.below(12) {
                0 => drop(items.remove(at)),
                1 => items.push(items[at].clone()),
                2 => items.reverse(),
                _ => change(&mut items[at], dice),
            }
        }
        other => {
            *other = match dice.below(10) {
                0 => Value::Null,
                1 => json!(dice.below(2) == 0),
                2 => json!(-(i64::try_from(dice.below(1_000_000)).unwrap())),
                3 => json!([0.0, -0.0, 1e-300, 1e300, 0.1, 9_007_199_254_740_993.0][dice.below(6)]),
                4 => json!(i64::MAX),
                5 => json!("\u{0}<script>'\"\\ \u{1F600}"),
                6 => json!([]),
                7 => json!({}),
                8 => json!("x".repeat(dice.below(5000))),
                _ => json!(dice.below(10_000)),
            }
        }
    }
}

/// Whether it was JSON at all.
fn job_json(bytes: &[u8]) -> bool {
    let Ok(value) = serde_json::from_slice::<serde_json::Value>(bytes) else {
        return false;
    };
    let flat = upstay_lib::form::flatten(&value);
    let _assembled = upstay_lib::form::assemble(&flat);
    let _read = calc::Job::from_value(&value);
    true
}

/// Whether it was a container; half of the time the contents are changed and wrapped anew, so that the record is reached.
fn pack_bytes(bytes: &[u8], dice: &mut Dice) -> bool {
    if bytes.first() == Some(&b'{') {
        let files = [("record.json".to_owned(), bytes.to_vec())];
        let mut zip = zip::ZipWriter::new(Cursor::new(Vec::new()));
        let mut files = files.to_vec();
        relist(&mut files);
        for (name, bytes) in &files {
            let options = zip::write::SimpleFileOptions::default().compression_method(zip::CompressionMethod::Stored);
            zip.start_file(name.as_str(), options).unwrap();
            std::io::Write::write_all(&mut zip, bytes).unwrap();
        }
        let mut whole = zip.finish().unwrap();
        drop(verify_in(&mut whole, Some("ZZZZZZZZZZZE")));
        return true;
    }
    let code = dice.below(4) == 0;
    let answer = verify_in(&mut Cursor::new(bytes), code.then_some(&*"0".repeat(64))).unwrap();
    !answer
        .places
        .first()
        .is_some_and(|place| place.starts_with("the file: "))
}

fn jobs() -> Vec<Vec<u8>> {
    let demo = include_bytes!("../../src-tauri/src/demo/job.json").to_vec();
    let small = br#"{"contract":1,"opening":{"width_m":2.4,"head_m":2.0},"wall":{"leaves":[{"material":"brick","thickness_mm":102.5}]},"above":[]}"#;
    vec![demo, small.to_vec()]
}

fn packs() -> Vec<Vec<u8>> {
    let (_data, _jobs, mut store) = job();
    let out = TempDir::new().unwrap();
    note(&mut store, 1, "short");
    photo(&mut store, &jpeg(8, 8), "wall", 2);
    seal::give(&mut store, at(3)).unwrap();
    round(&mut store, 4);
    let path = pack(&mut store, out.path(), 5).path;
    let record = members(&path)
        .into_iter()
        .find(|(name, _)| name == "record.json")
        .unwrap()
        .1;
    vec![std::fs::read(path).unwrap(), record]
}

fn headers() -> Vec<Vec<u8>> {
    let mut out = vec![jpeg(16, 16), b"\0\0\0\x18ftypheic\0\0\0\0mif1heic".to_vec()];
    let picture = image::RgbImage::from_pixel(8, 8, image::Rgb([9, 99, 199]));
    for format in [image::ImageFormat::Png, image::ImageFormat::WebP] {
        let mut bytes = Cursor::new(Vec::new());
        picture.write_to(&mut bytes, format).unwrap();
        out.push(bytes.into_inner());
    }
    out
}

fn exifs() -> Vec<Vec<u8>> {
    vec![
        with_exif(&jpeg(8, 8), 6, "2026:03:02 10:00:00", Some("+02:00"), true),
        with_exif(&jpeg(8, 8), 1, "2026:03:02 10:00:00", None, false),
    ]
}
