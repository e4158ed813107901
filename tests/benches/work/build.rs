//! Jobs to work on.

use serde_json::json;
use std::path::Path;
use upstay_lib::commands::Desk;
use upstay_lib::demo;
use upstay_lib::photos::{Meta, read_file};
use upstay_lib::record::{Hash, Jobs, Kind, Moment, NewEntry, PhotoRow, RecordError, Store};

/// Entries that are kept together while a large job is made.
const TOGETHER: usize = 500;
/// Days over which they are spread.
const DAYS: usize = 60;

/// A new job in a data folder.
pub fn begin(data: &Path) -> Store {
    let jobs = Jobs::open(data).unwrap();
    jobs.begin("Weir Cottage, kitchen", "Mill Lane 3", "england", false, Moment::now())
        .unwrap()
}

/// Takes a photo in from its file, as a camera's is.
pub fn take(desk: &Desk, id: &str, file: &Path, meta: &Meta) {
    desk.take_photo(id, &read_file(file).unwrap(), meta).unwrap();
}

/// Id of the only job of a data folder, from the name of its folder.
pub fn only_job(desk: &Desk) -> String {
    let folder = desk.jobs().data().join("jobs");
    let mut names = std::fs::read_dir(folder)
        .unwrap()
        .map(|one| one.unwrap().file_name().into_string().unwrap());
    let (first, second) = (names.next(), names.next());
    assert!(second.is_none(), "there is more than one job");
    first.unwrap()
}

/// Entries of the only job.
pub fn filled(jobs: &Jobs) -> i64 {
    jobs.list().unwrap().first().unwrap().entries
}

/// The demo's job with so many notes and so many photos more, over two months; gives its id. Of the photos
/// themselves only names lie in the folder, and all have the thumbnail of one of the demo's.
pub fn many(data: &Path, n: usize) -> String {
    let jobs = Jobs::open(data).unwrap();
    let now = Moment::now();
    let mut store = demo::make(&jobs, at(now, 0, n)).unwrap();
    let folder = store.photo_folder();
    let cache = store.folder().join("cache");
    let thumbnail = std::fs::read_dir(&cache)
        .unwrap()
        .map(|one| one.unwrap().path())
        .find(|path| path.to_string_lossy().ends_with("-thumb.jpg"))
        .unwrap();
    let mut number = 0;
    while number < n {
        let until = (number + TOGETHER).min(n);
        let rows: Vec<PhotoRow> = (number..until).map(|number| row(&store, number)).collect();
        store
            .write(|gate| {
                for (number, row) in (number..until).zip(rows) {
                    let text = format!("Looked at the props, all tight; note {number}.");
                    gate.append(at(now, number, n), NewEntry::new(Kind::Note, json!({ "text": text })))?;
                    std::fs::write(folder.join(row.sha.to_string()), b"-").unwrap();
                    std::fs::hard_link(&thumbnail, cache.join(format!("{}-thumb.jpg", row.sha))).unwrap();
                    gate.photo_add(at(now, number, n), row)?;
                }
                Ok::<_, RecordError>(())
            })
            .unwrap();
        number = until;
    }
    store.job().to_string()
}

/// The moment of one of `n` entries. The last one is now, so that no empty days come before the newest entries.
fn at(now: Moment, number: usize, n: usize) -> Moment {
    let before_ms = i64::try_from((n - number) * DAYS * 24 * 3_600_000 / n).unwrap();
    Moment {
        utc_ms: now.utc_ms - before_ms,
        boot_ms: None,
        ..now
    }
}

fn row(store: &Store, number: usize) -> PhotoRow {
    PhotoRow {
        device: store.device(),
        seq: 0,
        sha: Hash::of(number.to_string().as_bytes()),
        bytes: 3_000_000,
        name: format!("IMG_{number:05}.jpg"),
        about: "N1-in".to_owned(),
        kind: "detail".to_owned(),
        taken_utc_ms: None,
        offset_min: None,
        source: "unknown".to_owned(),
        difference_s: None,
        mark: None,
        place: false,
        orientation: 1,
        width: Some(4000),
        height: Some(3000),
        format: "jpeg".to_owned(),
        state: "whole".to_owned(),
    }
}
