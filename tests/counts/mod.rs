//! Counts for fixed inputs: what work costs without a clock, so that a slip is seen on any machine however busy it is.
//!
//! `baseline.json` holds each count with the share by which it may grow. A count that falls is fine, and the file may then be
//! written anew: `UPDATE_COUNTS=1 cargo test -p upstay --test report counts`. One that grows further fails; a higher one is
//! written into the file only with a reason in the commit.

mod quoted;

use allocation_counter::measure;
use calc::geometry::Geometry;
use calc::propose::search;
use calc::scene::Scene;
use calc::takedown::take_down;
use calc::{Job, example};
use serde_json::{Map, Value, json};
use std::collections::HashMap;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, PoisonError};
use tempfile::TempDir;
use upstay_lib::photos::{Meta, PhotoKind, Size, intake, picture};
use upstay_lib::record::{Hash, Jobs, Kind, Moment, NewEntry, PhotoRow, RecordError, Store};
use upstay_lib::{demo, site};

/// Where every count is kept.
fn file() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../tests/counts/baseline.json")
}

/// Holds counts against the file, or writes them into it where that is asked for.
fn hold(counts: &[(String, u64)]) {
    static ONE_AT_A_TIME: Mutex<()> = Mutex::new(());
    let _turn = ONE_AT_A_TIME.lock().unwrap_or_else(PoisonError::into_inner);
    let mut kept: Value = serde_json::from_str(&std::fs::read_to_string(file()).unwrap()).unwrap();
    let update = std::env::var_os("UPDATE_COUNTS").is_some();
    let mut grown = Vec::new();
    for (name, count) in counts {
        let group = name.split(' ').next().unwrap();
        let may_grow = kept.pointer(&format!("/may_grow/{group}")).and_then(Value::as_f64);
        let may_grow = may_grow.unwrap_or_else(|| panic!("{} says nothing of {group}", file().display()));
        let list = kept.get_mut("counts").and_then(Value::as_object_mut).unwrap();
        if update {
            list.insert(name.clone(), json!(count));
        }
        let Some(before) = list.get(name).and_then(Value::as_u64) else {
            panic!("{name} is {count} here and stands in no file");
        };
        if *count as f64 > before as f64 * (1.0 + may_grow) {
            grown.push(format!("{name}: {before} before, {count} now"));
        }
        println!("{name}: {count} (kept: {before})");
    }
    if update {
        let list = kept.get_mut("counts").and_then(Value::as_object_mut).unwrap();
        let mut sorted: Vec<(String, Value)> = std::mem::take(list).into_iter().collect();
        sorted.sort_by(|one, other| one.0.cmp(&other.0));
        *list = sorted.into_iter().collect::<Map<_, _>>();
        std::fs::write(file(), serde_json::to_string_pretty(&kept).unwrap() + "\n").unwrap();
    }
    assert!(grown.is_empty(), "more work than before:\n{}", grown.join("\n"));
}

fn at(minutes: i64) -> Moment {
    Moment {
        utc_ms: 1_772_438_400_000 + minutes * 60_000,
        offset_min: 60,
        boot_ms: Some(5_000 + minutes * 60_000),
    }
}

/// Layouts with a section that the search for a ready house type looks at.
fn looked_at(job: &Value) -> u64 {
    let (job, mut assumptions) = Job::from_value(job).unwrap();
    let national = job.site.parameters();
    let geometry = Geometry::of(&job, &mut assumptions);
    let down = take_down(&job, &geometry, &national, &mut assumptions);
    let scene = Scene::of(&job, &geometry, &down, &national, &mut assumptions).unwrap();
    search(&scene).looked_at
}

#[test]
fn counts_of_the_search_for_the_ready_house_types() {
    let mut counts = Vec::new();
    for name in example::names() {
        let job = example::job(name).unwrap();
        counts.push((format!("candidates {name}"), looked_at(&job)));
        // What is built once for all searches is not counted.
        calc::size_value(&job).unwrap();
        let asked = measure(|| drop(calc::size_value(&job).unwrap()));
        counts.push((format!("allocations search {name}"), asked.count_total));
    }
    hold(&counts);
}

/// A JPEG of three million pixels with edges everywhere.
fn jpeg() -> Vec<u8> {
    let (width, height) = (2000_u16, 1500_u16);
    let grey = |x: u16, y: u16| if (x / 16 + y / 16).is_multiple_of(2) { 200 } else { 60 };
    let rows = (0..height).flat_map(|y| (0..width).map(move |x| (x, y)));
    let pixels: Vec<u8> = rows.flat_map(|(x, y)| [grey(x, y), 120, 90]).collect();
    let mut out = Vec::new();
    jpeg_encoder::Encoder::new(&mut out, 90)
        .encode(&pixels, width, height, jpeg_encoder::ColorType::Rgb)
        .unwrap();
    out
}

#[test]
fn counts_of_a_photo() {
    let data = TempDir::new().unwrap();
    let jobs = Jobs::open(data.path()).unwrap();
    let mut store = jobs.begin("Mill Lane 4", "", "england", false, at(0)).unwrap();
    let meta = Meta {
        about: "wall".to_owned(),
        kind: PhotoKind::Group,
        name: "IMG_0001.jpg".to_owned(),
        modified_ms: None,
    };
    let bytes = jpeg();
    let pixels = 2000 * 1500;
    let taken = measure(|| drop(intake(&mut store, &bytes, &meta, at(1)).unwrap()));
    let sha = Hash::of(&bytes);
    std::fs::remove_dir_all(store.folder().join("cache")).unwrap();
    let shown = measure(|| drop(picture(store.folder(), sha, Size::Thumb).unwrap()));
    // Three bytes are held for each pixel that is decoded, and hardly anything else is large: with a file of this size, what
    // is held at once tells how many pixels were decoded together.
    let decoded = |asked: allocation_counter::AllocationInfo| asked.bytes_max.saturating_sub(bytes.len() as u64) / 3;
    hold(&[
        ("pixels held in intake of 3000000".to_owned(), decoded(taken)),
        ("pixels held for a thumbnail of 3000000".to_owned(), decoded(shown)),
        ("allocations intake".to_owned(), taken.count_total),
        ("allocations thumbnail".to_owned(), shown.count_total),
    ]);
    assert!(decoded(taken) > pixels / 100, "a view cannot be made of nothing");
}

/// What a report and a pack hold at once beyond their own small parts: with photos of this size, whether they hold any.
#[test]
fn counts_of_what_a_report_and_a_pack_hold_at_once() {
    const PHOTOS: u32 = 12;
    const BYTES: usize = 4_000_000;
    let data = TempDir::new().unwrap();
    let jobs = Jobs::open(data.path()).unwrap();
    let mut store = demo::make(&jobs, at(0)).unwrap();
    for number in 0..PHOTOS {
        let mut bytes = small(number);
        bytes.resize(BYTES, 0);
        let meta = Meta {
            about: "wall".to_owned(),
            kind: PhotoKind::Group,
            name: format!("IMG_{number:04}.jpg"),
            modified_ms: None,
        };
        let sha = intake(&mut store, &bytes, &meta, at(1)).unwrap().sha;
        // A view as large as a photo.
        let view = store.folder().join("cache").join(format!("{sha}-view.jpg"));
        std::fs::write(view, bytes).unwrap();
    }
    let out = TempDir::new().unwrap();
    let mut written = 0;
    let reported = measure(|| {
        let report = site::report(&store, at(2)).unwrap();
        let mut file = std::fs::File::create(out.path().join("report.pdf")).unwrap();
        report.write_to(&mut file).unwrap();
        written = report.bytes();
    });
    let mut packed = 0;
    let packing = measure(|| packed = site::pack(&mut store, out.path(), at(3)).unwrap().bytes);
    let photos = u64::from(PHOTOS) * BYTES as u64;
    assert!(written > photos && packed > 2 * photos, "the photos are missing");
    hold(&[
        (
            "held by a report of 12 photos of 4 MB, MB".to_owned(),
            reported.bytes_max.div_ceil(1_000_000),
        ),
        (
            "held by a pack of 12 photos of 4 MB, MB".to_owned(),
            packing.bytes_max.div_ceil(1_000_000),
        ),
    ]);
}

/// A small JPEG of one colour, another for each number.
fn small(number: u32) -> Vec<u8> {
    let [shade, ..] = (number * 20).to_le_bytes();
    let mut out = Vec::new();
    jpeg_encoder::Encoder::new(&mut out, 90)
        .encode(&[shade; 64 * 48 * 3], 64, 48, jpeg_encoder::ColorType::Rgb)
        .unwrap();
    out
}

/// Statements, and steps of the database's machine, while `work` runs. `first` comes before it and is not counted: a
/// statement that is kept tells the steps of all its uses, so one use has to be seen.
fn statements<T>(store: &mut Store, first: impl FnOnce(&mut Store), work: impl FnOnce(&mut Store) -> T) -> (u64, u64) {
    #[derive(Default)]
    struct Seen {
        statements: u64,
        steps: u64,
        before: HashMap<String, i32>,
        counting: bool,
    }
    let seen = Arc::new(Mutex::new(Seen::default()));
    let told = seen.clone();
    store
        .watch_statements(move |text, sum| {
            let mut seen = told.lock().unwrap_or_else(PoisonError::into_inner);
            // One that is used again tells the sum of its uses.
            let before = seen.before.insert(text.to_owned(), sum).filter(|before| *before < sum);
            if seen.counting {
                seen.statements += 1;
                seen.steps += u64::try_from(sum - before.unwrap_or(0)).unwrap();
            }
        })
        .unwrap();
    first(store);
    seen.lock().unwrap_or_else(PoisonError::into_inner).counting = true;
    work(store);
    store.watch_statements(|_, _| ()).unwrap();
    let seen = seen.lock().unwrap_or_else(PoisonError::into_inner);
    (seen.statements, seen.steps)
}

/// The demo's job with so many notes and photos more; opened anew.
fn job_of(data: &Path, n: usize) -> Store {
    let jobs = Jobs::open(data).unwrap();
    let mut store = demo::make(&jobs, at(0)).unwrap();
    let device = store.device();
    store
        .write(|gate| {
            for number in 0..n {
                let moment = at(i64::try_from(number).unwrap());
                let text = format!("Looked at the props, all tight; note {number}.");
                gate.append(moment, NewEntry::new(Kind::Note, json!({ "text": text })))?;
                gate.photo_add(moment, row(device, number))?;
            }
            Ok::<_, RecordError>(())
        })
        .unwrap();
    let id = store.job();
    drop(store);
    jobs.open_job(id).unwrap()
}

fn row(device: uuid::Uuid, number: usize) -> PhotoRow {
    PhotoRow {
        device,
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

#[test]
fn counts_of_the_record() {
    let mut counts = Vec::new();
    for n in [10, 1000] {
        let data = TempDir::new().unwrap();
        let mut store = job_of(data.path(), n);
        let (asked, steps) = statements(&mut store, |_| (), |store| site::open(store).unwrap());
        counts.push((format!("statements open {n}"), asked));
        counts.push((format!("steps open {n}"), steps));
        let append = |minutes: i64| {
            move |store: &mut Store| {
                let note = NewEntry::new(Kind::Note, json!({"text": "The second prop stands plumb again."}));
                drop(store.write(|gate| gate.append(at(minutes), note)).unwrap());
            }
        };
        // The first write after opening is like no other, since the whole file is checked for it.
        let (asked, steps) = statements(&mut store, append(2000), append(2001));
        counts.push((format!("statements append {n}"), asked));
        counts.push((format!("steps append {n}"), steps));
        let asked = measure(|| append(2002)(&mut store));
        counts.push((format!("allocations append {n}"), asked.count_total));
    }
    hold(&counts);
}
