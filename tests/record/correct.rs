//! Corrections, choices of photos, and the room that is left.

use chrono::NaiveDate;
use serde_json::json;
use tempfile::TempDir;
use upstay_lib::pack::{Choice, How, PackError, Verdict, Watch, make_with, put_away, verify};
use upstay_lib::photos::list;
use upstay_lib::record::{Kind, Room, SystemDisk};
use upstay_lib::site;

use crate::make::{at, job, jpeg, note, pack, packed, photo};
use crate::pack::members;

#[test]
fn a_correction_is_shown_and_the_old_stays() {
    let (_data, _jobs, mut store) = job();
    let old = note(&mut store, 1, "N1 leans left");
    let first = site::correct(&mut store, old.hash, &json!({"text": "N1 leans right"}), at(2)).unwrap();
    // A correction of the correction, and one more of the old entry: the last one counts.
    site::correct(&mut store, first.hash, &json!({"text": "N1 leans in"}), at(3)).unwrap();
    let last = site::correct(&mut store, old.hash, &json!({"text": "N1 leans out"}), at(4)).unwrap();
    let standing = upstay_lib::record::as_corrected(store.all_entries().unwrap());
    let notes: Vec<&str> = standing
        .iter()
        .filter_map(|entry| entry.body["text"].as_str())
        .collect();
    assert_eq!(notes, ["N1 leans out"]);
    let page = site::record_page(&store, None, 10, at(5)).unwrap();
    let line = page.entries.iter().find(|line| line.hash == old.hash).unwrap();
    assert_eq!(
        (line.words.as_str(), line.corrected_by),
        ("N1 leans left", Some(last.hash))
    );

    let taken = photo(&mut store, &jpeg(8, 8), "N1-in", 6);
    let entry = store.last_of(Kind::PhotoTaken).unwrap().unwrap();
    site::correct(
        &mut store,
        entry.hash,
        &json!({"about": "N2-in", "kind": "group"}),
        at(7),
    )
    .unwrap();
    let shown = list(&store).unwrap().remove(0);
    assert_eq!(
        (shown.sha, shown.about.as_str(), shown.kind.as_str()),
        (taken.sha, "N2-in", "group")
    );
    let begun = store.of_kind(Kind::JobBegun).unwrap().remove(0);
    site::correct(&mut store, begun.hash, &json!({"name": "Mill Lane 5"}), at(8)).unwrap();
    assert_eq!(store.info().unwrap().name, "Mill Lane 5");
    assert!(store.health().unwrap().whole);
    let out = TempDir::new().unwrap();
    let made = pack(&mut store, out.path(), 9);
    assert_eq!(verify(&made.path, None).unwrap().verdict, Verdict::Intact);
}

#[test]
fn what_cannot_be_corrected_is_refused_in_words() {
    let (_data, _jobs, mut store) = job();
    let out = TempDir::new().unwrap();
    let text = note(&mut store, 1, "x");
    let made = pack(&mut store, out.path(), 2).entry;
    for (entry, change) in [
        (text.hash, json!({})),
        (text.hash, json!({"text": " "})),
        (text.hash, json!({"text": 7})),
        (text.hash, json!({"at_utc_ms": 7})),
        (made, json!({"caution": "none"})),
        (text.prev, json!({"demo": true})),
    ] {
        let count = store.entry_count().unwrap();
        let why = site::correct(&mut store, entry, &change, at(3)).unwrap_err();
        assert_eq!(
            (why.code.as_str(), store.entry_count().unwrap()),
            ("not_corrected", count),
            "{change}"
        );
    }
    let nowhere = upstay_lib::record::Hash::of(b"x");
    assert_eq!(
        site::correct(&mut store, nowhere, &json!({"text": "y"}), at(3))
            .unwrap_err()
            .code,
        "no_entry"
    );
}

/// A pack of some photos names those left out, and does not let the job be put away.
#[test]
fn photos_are_chosen_by_day_and_prop() {
    let (_data, jobs, mut store) = job();
    let out = TempDir::new().unwrap();
    packed(&mut store, out.path());
    let day = |day| NaiveDate::from_ymd_opt(2026, 3, day).unwrap();
    let choices = [
        (Choice::default(), 3),
        (
            Choice {
                days: Some(day(5)..=day(5)),
                ..Choice::default()
            },
            2,
        ),
        (
            Choice {
                about: vec!["wall".to_owned()],
                ..Choice::default()
            },
            1,
        ),
        (
            Choice {
                about: vec!["N1-in".to_owned()],
                days: Some(day(2)..=day(4)),
                ..Choice::default()
            },
            0,
        ),
    ];
    for (minutes, (choice, count)) in (5000..).zip(choices) {
        let made = make_with(&SystemDisk, &mut store, out.path(), &choice, "", at(minutes), |_| {
            Ok(b"%PDF".to_vec().into())
        })
        .unwrap();
        assert_eq!(made.missing, Vec::<String>::new());
        let photos = members(&made.path)
            .iter()
            .filter(|(name, _)| name.starts_with("photos/"))
            .count();
        let answer = verify(&made.path, None).unwrap();
        assert_eq!(
            (photos, answer.verdict, answer.notes.len()),
            (count, Verdict::Intact, 3 - count),
            "{answer}"
        );
        assert!(
            answer
                .notes
                .iter()
                .all(|note| note.contains("not chosen when the pack was made")),
            "{answer}"
        );
        if count < 3 {
            let why = put_away(&jobs, store.job(), &made.path).unwrap_err();
            assert!(why.to_string().contains("does not hold every photo"), "{why}");
        }
    }
}

#[test]
fn the_place_is_left_out_of_the_report_and_said_to_be() {
    let (_data, _jobs, mut store) = job();
    let out = TempDir::new().unwrap();
    let bytes = crate::make::with_exif(&jpeg(8, 8), 1, "2026:03:02 10:00:00", Some("+02:00"), true);
    photo(&mut store, &bytes, "wall", 1);
    for (without_place, minutes) in [(false, 2), (true, 3)] {
        let choice = Choice {
            without_place,
            ..Choice::default()
        };
        let how = How {
            choice: &choice,
            watch: &Watch::default(),
        };
        let made = site::pack_of(&mut store, out.path(), how, at(minutes)).unwrap();
        let report = members(&made.path).remove(0).1;
        let path = out.path().join("report.pdf");
        std::fs::write(&path, report).unwrap();
        if !crate::browser::there("pdftotext") {
            return;
        }
        let said = std::process::Command::new("pdftotext")
            .arg(&path)
            .arg("-")
            .output()
            .unwrap();
        let text = String::from_utf8(said.stdout)
            .unwrap()
            .split_whitespace()
            .collect::<Vec<_>>()
            .join(" ");
        assert_eq!(text.contains("Back wall"), !without_place, "{text}");
        assert_eq!(
            text.contains("1 original photos in the pack still say where they were taken"),
            without_place
        );
    }
}

#[test]
fn a_warning_comes_before_space_runs_low() {
    let mb = 1024 * 1024;
    assert_eq!(Room::of(Some(600 * mb)).words, "");
    let low = Room::of(Some(400 * mb));
    assert!(
        low.low && low.words.contains("400 MB") && low.words.contains("after its pack is checked"),
        "{low:?}"
    );
    assert!(!Room::of(None).low);
    assert_eq!(Room::lacking(Some(200 * mb), 150 * mb), None);
    assert!(Room::lacking(Some(200 * mb), 151 * mb).unwrap().contains("1 MB more"));
    assert_eq!(Room::lacking(None, u64::MAX), None);
    assert!(upstay_lib::record::free_bytes(std::path::Path::new("/")).is_some_and(|free| free > 0));
    let why = PackError::NoRoom {
        what: "1 MB more must be free for this".to_owned(),
    };
    assert_eq!(why.code(), "no_room");
}

/// A round that was typed wrong is evaluated again against its own proposal; what is due follows the corrected one.
#[test]
fn a_corrected_round_is_evaluated_again() {
    let data = TempDir::new().unwrap();
    let jobs = upstay_lib::record::Jobs::open(data.path()).unwrap();
    let mut store = upstay_lib::demo::make(&jobs, at(0)).unwrap();
    let done = store.last_of(Kind::RoundDone).unwrap().unwrap();
    assert!(site::next_due(&store, at(1)).unwrap().contains("round is done"));
    let mut round = json!({"why": "Before work"});
    for key in ["readings", "gauges", "job_checks"] {
        round[key] = done.body["round"][key].clone();
    }
    round["readings"][0]["foot_firm"] = json!(false);
    let correction = site::correct(&mut store, done.hash, &json!({"round": round}), at(60)).unwrap();
    assert_eq!(correction.body["evaluation"]["passed"], json!(false));
    assert_eq!(correction.body["proposal"], done.body["proposal"]);
    let rounds = site::rounds(&store).unwrap();
    assert_eq!((rounds.len(), rounds[0].passed, rounds[0].entry), (1, false, done.hash));
    assert!(!site::next_due(&store, at(61)).unwrap().contains("round is done"));
    round["readings"][0]["pin"] = json!("nonsense");
    let why = site::correct(&mut store, done.hash, &json!({"round": round}), at(62)).unwrap_err();
    assert_eq!(why.code, "description");
    assert!(store.health().unwrap().whole);
}
