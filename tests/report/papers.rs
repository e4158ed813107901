//! Papers of whole jobs, made through the doors that the screens use. With `UPSTAY_PAPERS=FOLDER` they are left there to be
//! looked at.

use crate::{flat, pages};
use serde_json::{Value, json};
use tempfile::TempDir;
use upstay_lib::form::{self, Fields};
use upstay_lib::photos::{self, Meta, PhotoKind};
use upstay_lib::record::{DraftWrite, Entry, Hash, Jobs, Kind, Moment, NewEntry, Store};
use upstay_lib::{pack, site};

const JOB: &str = include_str!("../../src-tauri/src/demo/job.json");
const DAY_MS: i64 = 86_400_000;

/// Days and minutes after 2026-03-02, 08:00 UTC, on a phone that runs all the time.
pub fn at(day: i64, minutes: i64) -> Moment {
    let ms = day * DAY_MS + minutes * 60_000;
    Moment {
        utc_ms: 1_772_438_400_000 + ms,
        offset_min: 0,
        boot_ms: Some(1_000_000 + ms),
    }
}

pub fn kept_aside(name: &str, pdf: &[u8]) {
    if let Ok(folder) = std::env::var("UPSTAY_PAPERS") {
        std::fs::write(std::path::Path::new(&folder).join(name), pdf).unwrap();
    }
}

/// Text of a document in its reading order, the line breaks of the layout left out.
fn read(pdf: &[u8]) -> Option<String> {
    Some(flat(&pages(pdf)?.join(" ")))
}

#[track_caller]
pub fn holds(text: &str, words: &[&str]) {
    for word in words {
        assert!(text.contains(word), "{word:?} is missing");
    }
}

/// No name from inside the program is printed: words joined by underscores, kinds of prop data.
#[track_caller]
pub fn no_inner_names(text: &str) {
    let raw: Vec<&str> = text
        .split(|c: char| !(c.is_ascii_alphanumeric() || c == '_'))
        .filter(|word| {
            let small = word.chars().all(|c| c.is_ascii_lowercase() || c == '_');
            // Symbols of sources, such as f_y, have a part of one letter.
            let joined = small && word.contains('_') && word.split('_').all(|part| part.len() > 1);
            joined || ["tn79", "en1065"].contains(word)
        })
        .collect();
    assert!(raw.is_empty(), "inner names are printed: {raw:?}");
}

pub fn job_of(change: impl FnOnce(&mut Value)) -> Fields {
    let mut job: Value = serde_json::from_str(JOB).unwrap();
    change(&mut job);
    form::flatten(&job)
}

/// Sets what stands at a place of the contract.
pub fn set(job: &mut Value, place: &str, value: Value) {
    let (above, key) = place.rsplit_once('/').unwrap();
    let members = job.pointer_mut(above).unwrap().as_object_mut().unwrap();
    members.insert(key.to_owned(), value);
}

pub fn begun(folder: &TempDir, name: &str, place: &str) -> Store {
    Jobs::open(folder.path())
        .unwrap()
        .begin(name, place, "england", false, at(0, 0))
        .unwrap()
}

pub fn drafted(store: &mut Store, fields: &Fields) {
    let writes: Vec<DraftWrite> = (1_i64..)
        .zip(fields)
        .map(|(counter, (field, text))| DraftWrite {
            field: field.clone(),
            text: Some(text.clone()),
            counter,
        })
        .collect();
    store.draft_put(&writes).unwrap();
}

pub fn photo(store: &mut Store, number: u32, about: &str, kind: &str, when: Moment) -> Hash {
    let meta = Meta {
        about: about.to_owned(),
        kind: PhotoKind::parse(kind).unwrap(),
        name: format!("IMG_{number}.jpg"),
        modified_ms: None,
    };
    photos::intake(store, &crate::sample::jpeg(number), &meta, when)
        .unwrap()
        .sha
}

/// A round of these props; `wrong` has a foot that is not firm.
fn round(props: &[String], wrong: Option<&str>, gauge_mm: f64) -> Value {
    let readings: Vec<Value> = props
        .iter()
        .map(|prop| {
            json!({ "prop": prop, "pin": "right", "collar_turns": 0.1, "thread_mm": 6, "lean_mm": [1.0, -2.0], "over_m": 1.0,
                "head_off_mm": 2, "foot_off_mm": 1, "foot_firm": wrong != Some(prop.as_str()), "straight": true,
                "fixed": true, "packed": true })
        })
        .collect();
    json!({ "why": "Start of the day", "name": "D. Round", "stage": "holes", "readings": readings,
        "changed": [{ "prop": "N1-in", "what": "swapped", "before": "Before: good for 9.9 kN, used 50 %." }],
        "no_photo": [{ "prop": "N1-in", "why": "too dark to see" }],
        "gauges": [{ "name": "G1 left", "mm": gauge_mm, "first_mm": 12.0, "last_mm": 12.0 }],
        "job_checks": { "braces": true, "doors_stick": false, "load_on_floors": false, "digging": false, "wind_m_s": 6 } })
}

fn add(store: &mut Store, kind: Kind, body: Value, when: Moment) -> Entry {
    let written = store.append_many(when, vec![NewEntry::new(kind, body)], None).unwrap();
    written.first().unwrap().clone()
}

fn props_of(store: &Store) -> Vec<String> {
    let kept = site::kept(store).unwrap().unwrap();
    let option = kept.chosen().unwrap();
    let of = |value: &Value| -> Vec<String> {
        let props = value.get("props").and_then(Value::as_array).into_iter().flatten();
        props.map(|prop| prop["name"].as_str().unwrap().to_owned()).collect()
    };
    let lines = option["floor_lines"].as_array().into_iter().flatten();
    of(option).into_iter().chain(lines.flat_map(of)).collect()
}

/// A job of five days with everything that a chapter is made from.
fn whole(folder: &TempDir) -> Store {
    let mut store = begun(folder, "Weir Cottage", "12 Secret Lane");
    let fields = job_of(|_| {});
    drafted(&mut store, &fields);
    photo(&mut store, 1, "wall", "group", at(0, 1));
    let figure = site::figure(&fields, 0);
    let aim = figure.proposal.as_ref().unwrap().options.first().unwrap().aim.clone();
    site::keep(&mut store, &fields, &aim, at(0, 2)).unwrap();
    photo(&mut store, 2, "stop services", "detail", at(0, 3));
    site::pass(&mut store, "services/1", "A. Mason", None, at(0, 4)).unwrap();
    add(
        &mut store,
        Kind::EngineersAnswer,
        json!({"words": "By letter: build as proposed."}),
        at(0, 5),
    );
    let props = props_of(&store);
    photo(&mut store, 3, "N1-in", "detail", at(1, 0));
    site::done(&mut store, &round(&props, Some("N1-in"), 12.0), at(1, 1)).unwrap();
    // The second day has no round.
    let finding = site::state(&store).unwrap().findings.first().unwrap().id.clone();
    add(
        &mut store,
        Kind::Repair,
        json!({"finding": finding, "words": "New board laid.", "name": "B. Yard"}),
        at(3, 0),
    );
    let first = site::done(&mut store, &round(&props, None, 12.1), at(3, 1)).unwrap();
    site::correct(
        &mut store,
        first.entry,
        &json!({"round": round(&props, None, 12.2)}),
        at(3, 2),
    )
    .unwrap();
    add(
        &mut store,
        Kind::Finding,
        json!({"category": "knock", "words": "A barrow hit a raker.", "where": "outside", "name": "C. Carter"}),
        at(4, 0),
    );
    // An hour is put on the clock while the phone runs on.
    let moved = Moment {
        boot_ms: at(4, 1).boot_ms,
        ..at(4, 61)
    };
    let note = add(&mut store, Kind::Note, json!({"text": "Rubble is out."}), moved);
    site::correct(
        &mut store,
        note.hash,
        &json!({"text": "Rubble and sand are out."}),
        at(4, 70),
    )
    .unwrap();
    // As an import writes it that met another story of the same phone.
    let left = json!({"device": "3f0c5a52-0000-4000-8000-000000000000", "seq": 7, "hash": "ab".repeat(32),
        "here": "cd".repeat(32), "kind": "note", "at": "2026-03-05T09:00:00+00:00"});
    let body = json!({"pack": "0".repeat(64), "added": 2, "known": 9, "photos": 0, "left_out": [left],
        "left_out_count": 3, "words": "Taken in: 2 entries."});
    add(&mut store, Kind::Import, body, at(4, 80));
    store
}

/// No day stands on paper as `2026-03-02`, which nobody says; the one that somebody typed does.
fn no_bare_days(text: &str) {
    let figures = |part: &str, count: usize| part.len() == count && part.chars().all(|c| c.is_ascii_digit());
    let bare = |word: &&str| {
        let word = word.trim_matches(|c: char| !c.is_ascii_digit());
        let parts: Vec<&str> = word.split(['-', 'T']).collect();
        matches!(parts.as_slice(), [year, month, day, ..] if figures(year, 4) && figures(month, 2) && figures(day.get(..2).unwrap_or_default(), 2))
    };
    // The day of the independent check is typed.
    let text = text.replace("(nobody), 2026-03-02, category 1", "");
    let found: Vec<&str> = text.split_whitespace().filter(bare).collect();
    assert!(found.is_empty(), "{found:?} in {text}");
    assert!(text.contains("2 March 2026, "), "no day is written out");
}

#[test]
fn every_chapter_of_a_whole_job_has_its_facts() {
    let folder = TempDir::new().unwrap();
    let store = whole(&folder);
    let pdf = site::report(&store, at(5, 0)).unwrap().whole().unwrap();
    kept_aside("whole.pdf", &pdf);
    let Some(text) = read(&pdf) else { return };
    no_inner_names(&text);
    no_bare_days(&text);
    holds(
        &text,
        &[
            "The wall as described",
            "The proposal",
            "By letter: build as proposed.",
            "Stops and papers",
            "Still waiting for a yes",
            "A. Mason: yes",
            "Photos of papers and stops",
            "Party Wall etc. Act 1996",
            "Order of work",
            "Rounds",
            "The day is not passed.",
            "Done by D. Round.",
            "another of the same size put in its place",
            "No photo of the no at N1-in: too dark to see",
            "as corrected",
            "Photos of this round, by prop",
            "Findings and repairs",
            "Open: 1",
            "outside: A barrow hit a raker.",
            "Closed: 1",
            "New board laid.",
            "by B. Yard",
            "Curves",
            "N1-in: taken up, mm",
            "G1 left: crack, mm",
            "lean along the wall",
            "taken up: ",
            "Missing days",
            "4 March 2026",
            "Clocks that were moved",
            "set forward by 60 min",
            "Corrections",
            "Rubble is out.",
            "Rubble and sand are out.",
            "Packs taken in",
            "Taken in: 2 entries.",
            "Left out: entry 7 of phone 3f0c5a52 (Note, 5 March 2026, 09:00:00 +00:00): abababababab there, cdcdcdcdcdcd here.",
            "And 2 more that are not named one by one.",
            "The record",
            "photos/stop-services-D01-detail.jpg",
            "photos/N1-in-D02-detail.jpg",
            "D01 is the day the job was begun",
            "How to check this pack",
            "Nothing: the pack holds the whole record",
        ],
    );
    let open = text.find("Open: 1").unwrap();
    let closed = text.find("Closed: 1").unwrap();
    assert!(open < closed, "open findings come first");
    for prop in props_of(&store) {
        assert!(text.contains(&prop), "{prop} is missing");
    }
}

#[test]
fn what_is_left_out_is_said() {
    let folder = TempDir::new().unwrap();
    let mut store = whole(&folder);
    let choice = pack::Choice {
        about: vec!["wall".to_owned()],
        without_place: true,
        ..pack::Choice::default()
    };
    let (choice, watch) = (&choice, &pack::Watch::default());
    let made = site::pack_of(&mut store, folder.path(), pack::How { choice, watch }, at(5, 0)).unwrap();
    let mut zip = zip::ZipArchive::new(std::fs::File::open(&made.path).unwrap()).unwrap();
    let mut pdf = Vec::new();
    std::io::copy(&mut zip.by_name("report.pdf").unwrap(), &mut pdf).unwrap();
    let Some(text) = read(&pdf) else { return };
    holds(
        &text,
        &[
            "The place of the job, on request; record.json holds it",
            "Files of 2 photos, since only photos of wall were chosen: 2, 3.",
            "not in this pack",
        ],
    );
    assert!(!text.contains("Secret Lane"), "the place is printed");
}

#[test]
fn nasty_words_stand_as_text_in_every_chapter() {
    let folder = TempDir::new().unwrap();
    let nasty = "<script>alert(1)</script> \u{5D0}\u{5D1} \u{1F9F1} %s \u{202E}";
    let shown = "<script>alert(1)</script> [U+05D0][U+05D1] [U+1F9F1] %s [U+202E]";
    let mut store = begun(&folder, &format!("Job {nasty}"), nasty);
    let fields = job_of(|_| {});
    drafted(&mut store, &fields);
    let aim = site::figure(&fields, 0)
        .proposal
        .unwrap()
        .options
        .first()
        .unwrap()
        .aim
        .clone();
    site::keep(&mut store, &fields, &aim, at(0, 1)).unwrap();
    site::pass(&mut store, "services/1", &format!("Stop {nasty}"), None, at(0, 2)).unwrap();
    photo(&mut store, 1, &"x".repeat(900), "detail", at(0, 3));
    let words = format!("Finding {nasty}");
    add(
        &mut store,
        Kind::Finding,
        json!({"category": "other", "words": words, "name": nasty}),
        at(0, 4),
    );
    let long = "gable ".repeat(834);
    add(
        &mut store,
        Kind::Note,
        json!({"text": format!("Note {nasty} {long}end-of-note")}),
        at(0, 5),
    );
    let solid = "y".repeat(5000);
    let note = add(&mut store, Kind::Note, json!({"text": solid}), at(0, 6));
    site::correct(
        &mut store,
        note.hash,
        &json!({"text": format!("Put right {nasty}")}),
        at(0, 7),
    )
    .unwrap();
    let pdf = site::report(&store, at(0, 8)).unwrap().whole().unwrap();
    kept_aside("nasty.pdf", &pdf);
    let Some(pages) = pages(&pdf) else { return };
    for (number, page) in pages.iter().enumerate() {
        assert!(
            flat(page).contains(calc::CAUTION),
            "page {} lacks the caution",
            number + 1
        );
    }
    let text = flat(&pages.join(" "));
    for word in ["Job", "Stop", "Finding", "Note", "Put right"] {
        // Columns are read line by line, so only the beginning is sure to stand together.
        assert!(text.contains(&format!("{word} <script>")), "{word} is not text");
    }
    holds(&text, &[shown, "end-of-note"]);
    let letters = text
        .split_whitespace()
        .filter(|word| word.len() > 5 && word.chars().all(|c| c == 'y'));
    let count: usize = letters.map(str::len).sum();
    assert!(count >= 5000, "{count} of 5000 letters");
}

/// The report of a job that was just kept.
fn report_of(name: &str, fields: &Fields) -> Option<String> {
    let folder = TempDir::new().unwrap();
    let mut store = begun(&folder, name, "1 High Street");
    drafted(&mut store, fields);
    let figure = site::figure(fields, 0);
    let proposal = figure.proposal.unwrap();
    let option = proposal.options.first().unwrap_or_else(|| panic!("{name}: no option"));
    let pick = match (option.by.as_str(), option.kind.as_str()) {
        ("engineer", _) => "engineer",
        (_, "brackets") => "brackets",
        _ => option.aim.as_str(),
    };
    site::keep(&mut store, fields, pick, at(0, 1)).unwrap();
    let names = props_of(&store);
    let pdf = site::report(&store, at(0, 2)).unwrap().whole().unwrap();
    kept_aside(&format!("{name}.pdf"), &pdf);
    let text = read(&pdf)?;
    no_inner_names(&text);
    for prop in names {
        assert!(text.contains(&prop), "{prop} is missing");
    }
    Some(text)
}

#[test]
fn a_floor_line_stands_with_its_way_props_and_feet() {
    let fields = job_of(|job| {
        set(job, "/opening/flush", json!(true));
        set(job, "/above/0/floor/bearing_m", json!(2.05));
    });
    let Some(text) = report_of("floor-line", &fields) else {
        return;
    };
    holds(
        &text,
        &[
            "Floor 1, inside: its own line of props",
            "Header",
            "How it is set up",
            "Props of Floor 1, inside",
            "Feet of Floor 1, inside",
            "Checks of Floor 1, inside",
        ],
    );
}

#[test]
fn brackets_stand_with_arm_and_rated_load() {
    let mut job = calc::example::job("bungalow").unwrap();
    set(&mut job, "/roof/span_m", json!(5.5));
    let bracket = json!({"bracket": {"rated_kn": 15.0, "arm_mm": 200.0, "plate_mm": [100.0, 100.0]}});
    set(&mut job, "/catalogue", bracket);
    set(
        &mut job,
        "/props",
        json!([{"name": "strong", "data": "en1065", "class": "D35"}]),
    );
    let fields = form::flatten(&job);
    let folder = TempDir::new().unwrap();
    let mut store = begun(&folder, "brackets", "1 High Street");
    drafted(&mut store, &fields);
    site::keep(&mut store, &fields, "brackets", at(0, 1)).unwrap();
    let names = props_of(&store);
    let pdf = site::report(&store, at(0, 2)).unwrap().whole().unwrap();
    kept_aside("brackets.pdf", &pdf);
    let Some(text) = read(&pdf) else { return };
    no_inner_names(&text);
    holds(
        &text,
        &[
            "Prop-head brackets",
            "maker's rated load",
            "200 mm",
            "15.0 kN",
            "class D35",
        ],
    );
    assert!(!names.is_empty() && names.iter().all(|name| text.contains(name)));
}

#[test]
fn the_engineers_arrangement_and_the_builders_plan_stand_beside_the_proposal() {
    let fields = job_of(|job| {
        set(job, "/builders_plan", json!({ "kind": "needles", "count": 3 }));
        let answer = json!({ "name": "D. Designer", "date": "2026-02-27", "spacing_m": 0.8, "load_kn_m": 22.0 });
        set(job, "/engineer", answer);
    });
    let Some(text) = report_of("beside", &fields) else {
        return;
    };
    holds(
        &text,
        &[
            "What the builder proposes",
            "The plan left open, and this was taken for it:",
            "Section not said",
            "The engineer's answer",
            "Answer by D. Designer, 2026-02-27.",
            "by the engineer; here",
            "The engineer's arrangement as reckoned here",
        ],
    );
}
