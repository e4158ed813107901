//! One piece of the app's work at a time, done by the app's own library as the app does it, for `side_by_side.py`, which sets
//! it beside general tools. Prints one line of JSON: seconds of the work alone, counts, and the most memory held.
//!
//! Without a word that it knows it prints how it is used and does nothing.
#![expect(
    clippy::unwrap_used,
    dead_code,
    reason = "a bench may stop at the first thing that is not there, and needs only a part of what the screens' tests share"
)]

#[path = "../screens/app.rs"]
mod app;
#[path = "../screens/bench.rs"]
mod bench;
#[path = "../screens/browser.rs"]
mod browser;
#[path = "work/build.rs"]
mod build;
#[path = "work/drawn.rs"]
mod drawn;
#[path = "../screens/page.rs"]
mod page;
#[path = "work/scroll.rs"]
mod scroll;
#[path = "../screens/view.rs"]
mod view;

use build::{begin, filled, many, only_job};
use rusqlite::Connection;
use serde_json::{Value, json};
use std::fs::File;
use std::path::{Path, PathBuf};
use std::process::ExitCode;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::time::Instant;
use upstay_lib::commands::{Desk, photo};
use upstay_lib::failure::Failure;
use upstay_lib::pack::{self, Choice};
use upstay_lib::photos::{self, Meta, PhotoKind};
use upstay_lib::pieces::{Piece, Pieces};
use upstay_lib::record::{Jobs, Kind, Moment, NewEntry, SystemDisk};
use upstay_lib::site;

const USAGE: &str = "\
work prepare PHOTOS DATA N       takes N photos into a new job in the folder DATA, untimed; PHOTOS holds the JPEG files
work intake PHOTOS DATA N HANDS  takes N photos in, HANDS at once, each with its entry, its view and its thumbnail
work thumbnails DATA N HANDS     throws the cache away and asks for N thumbnails as the pages do, HANDS at once
work report DATA OUT             makes the report into the file OUT
work pack DATA REPORT OUT        makes a pack with the report in the file REPORT into the folder OUT
work verify PACK                 checks a pack
work append DATA N               adds N notes to a new job, each kept before the next
work insert FILE N               adds N rows of the same text to a bare SQLite file, WAL, FULL
work many DATA N                 makes a job with N notes and N photos, untimed
work open DATA N                 opens the only job in DATA N times, from an empty desk on
work scroll N                    scrolls the record of a job with N notes and N photos in headless Chromium, slowed 4 times";

/// Length of what is added in one entry or row, characters (a sentence or two).
const TEXT: usize = 120;

fn main() -> ExitCode {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let words: Vec<&str> = words.iter().map(String::as_str).collect();
    let number = |text: &str| text.parse::<usize>().ok().filter(|number| *number > 0);
    let told = match words.as_slice() {
        ["prepare", from, data, n] => number(n).map(|n| prepare(from.as_ref(), data.as_ref(), n)),
        ["intake", from, data, n, hands] => number(n)
            .zip(number(hands))
            .map(|(n, hands)| intake(from.as_ref(), data.as_ref(), n, hands)),
        ["thumbnails", data, n, hands] => number(n)
            .zip(number(hands))
            .map(|(n, hands)| thumbnails(data.as_ref(), n, hands)),
        ["report", data, out] => Some(report(data.as_ref(), out.as_ref())),
        ["pack", data, report, out] => Some(make_pack(data.as_ref(), report.as_ref(), out.as_ref())),
        ["verify", pack] => Some(verify(pack.as_ref())),
        ["append", data, n] => number(n).map(|n| append(data.as_ref(), n)),
        ["insert", file, n] => number(n).map(|n| insert(file.as_ref(), n)),
        ["many", data, n] => number(n).map(|n| json!({ "job": many(data.as_ref(), n) })),
        ["open", data, n] => number(n).map(|n| open(data.as_ref(), n)),
        ["scroll", n] => number(n).map(scroll::scroll),
        _ => None,
    };
    match told {
        Some(Value::Object(mut told)) => {
            told.insert("peak_kb".to_owned(), peak_kb().into());
            println!("{}", Value::Object(told));
            ExitCode::SUCCESS
        }
        _ => {
            println!("{USAGE}");
            // `cargo bench` names only itself, and whoever asks for help has asked rightly.
            let asked = matches!(words.as_slice(), ["--help" | "-h" | "help" | "--bench"]);
            ExitCode::from(if asked { 0 } else { 2 })
        }
    }
}

/// The most memory this process held so far, KiB; nothing where the system does not say.
fn peak_kb() -> Option<u64> {
    let status = std::fs::read_to_string("/proc/self/status").ok()?;
    let line = status.lines().find(|line| line.starts_with("VmHWM:"))?;
    line.split_whitespace().nth(1)?.parse().ok()
}

fn timed<T>(work: impl FnOnce() -> T) -> (f64, T) {
    let begun = Instant::now();
    let done = work();
    (begun.elapsed().as_secs_f64(), done)
}

fn meta(name: &str) -> Meta {
    Meta {
        about: "wall".to_owned(),
        kind: PhotoKind::Group,
        name: name.to_owned(),
        modified_ms: None,
    }
}

/// The files of a folder by name.
fn files(folder: &Path) -> Vec<PathBuf> {
    let mut all: Vec<PathBuf> = std::fs::read_dir(folder)
        .unwrap()
        .map(|one| one.unwrap().path())
        .collect();
    all.sort();
    all
}

/// A photo of many: the files in turn, each time with another comment in it, so that no two are the same.
fn numbered(file: &Path, turn: usize) -> Vec<u8> {
    let mut bytes = std::fs::read(file).unwrap();
    if turn > 0 {
        let text = format!("{turn:08}");
        let length = u16::try_from(text.len() + 2).unwrap().to_be_bytes();
        let comment = [&[0xFF, 0xFE], &length, text.as_bytes()].concat();
        // Behind the first segment, which is the camera's own.
        let [high, low] = [4, 5].map(|at| usize::from(*bytes.get(at).unwrap()));
        let behind = 4 + high * 256 + low;
        bytes.splice(behind..behind, comment);
    }
    bytes
}

fn prepare(from: &Path, data: &Path, n: usize) -> Value {
    let mut store = begin(data);
    let files = files(from);
    for at in 0..n {
        let file = files.get(at % files.len()).unwrap();
        let bytes = numbered(file, at / files.len());
        photos::intake(&mut store, &bytes, &meta(&format!("IMG_{at:04}.jpg")), Moment::now()).unwrap();
    }
    json!({ "job": store.job(), "photos": n })
}

/// Each photo is read from its file, as the camera leaves it. With two hands, two are on the way at once.
fn intake(from: &Path, data: &Path, n: usize, hands: usize) -> Value {
    let id = begin(data).job().to_string();
    let files: Vec<PathBuf> = files(from).into_iter().take(n).collect();
    assert_eq!(files.len(), n, "there are not so many photos");
    let desk = Desk::open(data, None).unwrap();
    let (seconds, ()) = timed(|| {
        at_once(&files, hands, |file| {
            build::take(&desk, &id, file, &meta("IMG_0001.jpg"))
        })
    });
    let photos = desk.at(&id, |store| Ok::<_, Failure>(photos::list(store)?)).unwrap();
    let hashes: Vec<String> = photos.iter().map(|photo| photo.sha.to_string()).collect();
    json!({ "seconds": seconds, "hashes": hashes, "cache": data.join("jobs").join(id).join("cache") })
}

/// Does a piece of work for each, so many at once.
fn at_once<T: Sync>(all: &[T], hands: usize, work: impl Fn(&T) + Sync) {
    let next = AtomicUsize::new(0);
    std::thread::scope(|scope| {
        for _ in 0..hands {
            scope.spawn(|| {
                while let Some(one) = all.get(next.fetch_add(1, Ordering::Relaxed)) {
                    work(one);
                }
            });
        }
    });
}

fn thumbnails(data: &Path, n: usize, hands: usize) -> Value {
    let desk = Desk::open(data, None).unwrap();
    let id = only_job(&desk);
    let hashes = desk
        .at(&id, |store| Ok::<_, Failure>(photos::list(store)?))
        .unwrap()
        .into_iter()
        .map(|photo| photo.sha.to_string());
    let hashes: Vec<String> = hashes.take(n).collect();
    assert_eq!(hashes.len(), n, "there are not so many photos");
    let cache = data.join("jobs").join(&id).join("cache");
    if cache.exists() {
        std::fs::remove_dir_all(&cache).unwrap();
    }
    let shown = AtomicUsize::new(0);
    let ask = |sha: &String| {
        let answer = photo(&desk, &format!("/{id}/{sha}/thumb"));
        shown.fetch_add(usize::from(answer.status().is_success()), Ordering::Relaxed);
    };
    let (seconds, ()) = timed(|| at_once(&hashes, hands, ask));
    json!({ "seconds": seconds, "shown": shown.into_inner(), "cache": cache })
}

fn report(data: &Path, out: &Path) -> Value {
    let desk = Desk::open(data, None).unwrap();
    let (seconds, bytes) = timed(|| {
        let made = desk.at(&only_job(&desk), |store| site::report(store, Moment::now()));
        let made = made.unwrap();
        made.write_to(&mut File::create(out).unwrap()).unwrap();
        made.bytes()
    });
    json!({ "seconds": seconds, "bytes": bytes })
}

fn make_pack(data: &Path, report: &Path, out: &Path) -> Value {
    let report: Pieces = vec![Piece::file(report.to_owned()).unwrap()].into();
    let desk = Desk::open(data, None).unwrap();
    let id = only_job(&desk);
    // The check of the whole record comes once after each start, and belongs to no pack.
    desk.at(&id, |store| Ok::<_, Failure>(store.check()?)).unwrap();
    let (seconds, made) = timed(|| {
        let made = desk.at(&id, |store| {
            let (choice, now) = (Choice::default(), Moment::now());
            let caution = site::caution();
            Ok::<_, Failure>(pack::make_with(
                &SystemDisk,
                store,
                out,
                &choice,
                &caution,
                now,
                |_| Ok(report),
            )?)
        });
        made.unwrap()
    });
    json!({ "seconds": seconds, "pack": made.path, "bytes": made.bytes, "files": made.files })
}

fn verify(file: &Path) -> Value {
    let (seconds, answer) = timed(|| pack::verify(file, None).unwrap());
    json!({ "seconds": seconds, "code": answer.verdict.exit_code() })
}

fn append(data: &Path, n: usize) -> Value {
    let id = begin(data).job().to_string();
    let desk = Desk::open(data, None).unwrap();
    let add = |number: usize| {
        desk.at(&id, |store| {
            let note = NewEntry::new(Kind::Note, json!({ "text": text(number) }));
            Ok::<_, Failure>(store.write(|gate| gate.append(Moment::now(), note))?)
        })
        .unwrap()
    };
    // The first one pays for the check of the whole file.
    add(0);
    let (seconds, ()) = timed(|| (1..=n).for_each(|number| drop(add(number))));
    let kept = desk.at(&id, |store| Ok::<_, Failure>(store.entry_count()?)).unwrap();
    json!({ "seconds": seconds, "kept": kept - 2 })
}

fn insert(file: &Path, n: usize) -> Value {
    let db = Connection::open(file).unwrap();
    let mode: String = db.query_row("PRAGMA journal_mode = WAL", [], |row| row.get(0)).unwrap();
    assert_eq!(mode, "wal");
    db.execute_batch(
        "PRAGMA synchronous = FULL; CREATE TABLE note (id INTEGER PRIMARY KEY, text TEXT NOT NULL) STRICT;",
    )
    .unwrap();
    let mut add = db.prepare("INSERT INTO note (text) VALUES (?1)").unwrap();
    add.execute([text(0)]).unwrap();
    let (seconds, ()) = timed(|| {
        for number in 1..=n {
            add.execute([text(number)]).unwrap();
        }
    });
    let kept: i64 = db.query_row("SELECT count(*) FROM note", [], |row| row.get(0)).unwrap();
    json!({ "seconds": seconds, "kept": kept - 1 })
}

fn text(number: usize) -> String {
    format!("{number:0TEXT$}")
}

fn open(data: &Path, n: usize) -> Value {
    let mut seconds = Vec::new();
    let mut bytes = 0;
    for _ in 0..n {
        let (took, length) = timed(|| {
            let desk = Desk::open(data, None).unwrap();
            let id = only_job(&desk);
            let opened = desk.at(&id, |store| site::open(store)).unwrap();
            serde_json::to_string(&opened).unwrap().len()
        });
        seconds.push(took);
        bytes = length;
    }
    seconds.sort_by(f64::total_cmp);
    let entries = filled(&Jobs::open(data).unwrap());
    json!({ "seconds": seconds.get(n / 2), "bytes": bytes, "entries": entries })
}
