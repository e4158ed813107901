//! A pack under watch, a long record read page by page, and corrections shown with both sayings.

use chrono::NaiveDate;
use serde_json::json;
use tempfile::TempDir;
use upstay_lib::pack::{Choice, How, PackError, Verdict, Watch, make_watched, verify};
use upstay_lib::record::{Kind, NewEntry, Store, SystemDisk};
use upstay_lib::site;

use crate::make::{at, job, jpeg, note, photo, round};
use crate::pack::members;

fn watched(
    store: &mut Store,
    out: &TempDir,
    choice: &Choice,
    watch: &Watch,
    stop_in_report: bool,
) -> Result<upstay_lib::pack::Made, PackError> {
    let how = How { choice, watch };
    make_watched(&SystemDisk, store, out.path(), how, "", at(9000), |_| {
        if stop_in_report {
            watch.stop();
        }
        Ok(b"%PDF".to_vec().into())
    })
}

#[test]
fn a_pack_that_is_stopped_leaves_no_file_and_no_word_that_it_was_made() {
    let (_data, _jobs, mut store) = job();
    photo(&mut store, &jpeg(64, 48), "wall", 1);
    let out = TempDir::new().unwrap();
    let before = store.entry_count().unwrap();
    let watch = Watch::default();
    let why = watched(&mut store, &out, &Choice::default(), &watch, true).unwrap_err();
    assert_eq!(why.code(), "stopped");
    assert_eq!(std::fs::read_dir(out.path()).unwrap().count(), 0);
    assert_eq!(store.entry_count().unwrap(), before);
    // The next one is whole, and has read each photo twice.
    let watch = Watch::default();
    let made = watched(&mut store, &out, &Choice::default(), &watch, false).unwrap();
    assert_eq!(verify(&made.path, None).unwrap().verdict, Verdict::Intact);
    let bytes = u64::try_from(jpeg(64, 48).len()).unwrap();
    let progress = watch.progress();
    assert_eq!((progress.done_bytes, progress.total_bytes), (2 * bytes, 2 * bytes));
}

#[test]
fn a_pack_that_fails_after_its_entry_says_so_in_the_record() {
    let (_data, _jobs, mut store) = job();
    photo(&mut store, &jpeg(64, 48), "wall", 1);
    let out = TempDir::new().unwrap();
    let disk = crate::disks::Watched::default();
    // The folder is made first; then the file is begun.
    disk.fail(1, crate::disks::Fault::ReadOnly);
    let how = How {
        choice: &Choice::default(),
        watch: &Watch::default(),
    };
    let made = make_watched(&disk, &mut store, out.path(), how, "", at(9000), |_| {
        Ok(b"%PDF".to_vec().into())
    });
    assert!(made.is_err());
    let last = store.entries(None, 1).unwrap().remove(0);
    assert_eq!(last.kind, Kind::Note);
    assert!(
        site::words(&last).contains("was not finished"),
        "{}",
        site::words(&last)
    );
    assert_eq!(std::fs::read_dir(out.path()).unwrap().count(), 0);
}

#[test]
fn photos_are_chosen_by_kind_and_by_what_they_show_as_corrected() {
    let (_data, _jobs, mut store) = job();
    photo(&mut store, &jpeg(64, 48), "wall", 1);
    photo(&mut store, &jpeg(48, 64), "N1-in", 2);
    let first = store
        .entries(None, 10)
        .unwrap()
        .into_iter()
        .find(|entry| entry.seq == 2);
    site::correct(
        &mut store,
        first.unwrap().hash,
        &json!({"kind": "group", "about": "N1-in"}),
        at(3),
    )
    .unwrap();
    for (about, kinds, count) in [
        ("N1-in", vec![], 2),
        ("wall", vec![], 0),
        ("", vec!["group"], 1),
        ("N1-in", vec!["detail"], 1),
    ] {
        let choice = Choice {
            about: [about]
                .iter()
                .filter(|about| !about.is_empty())
                .map(ToString::to_string)
                .collect(),
            kinds: kinds.into_iter().map(str::to_owned).collect(),
            ..Choice::default()
        };
        let out = TempDir::new().unwrap();
        let made = watched(&mut store, &out, &choice, &Watch::default(), false).unwrap();
        let names = members(&made.path)
            .into_iter()
            .filter(|(name, _)| name.starts_with("photos/"))
            .count();
        assert_eq!((names, made.not_chosen), (count, 2 - count), "{choice:?}");
    }
}

#[test]
fn a_missed_day_stands_between_its_neighbours_and_the_days_hold_every_entry() {
    const DAY: i64 = 24 * 60;
    let (_data, _jobs, mut store) = job();
    round(&mut store, 60);
    round(&mut store, 3 * DAY);
    note(&mut store, 3 * DAY + 5, "late");
    let days = site::record_days(&store, at(4 * DAY)).unwrap();
    let seen: Vec<(&str, usize, bool)> = days
        .days
        .iter()
        .map(|one| (one.day.as_str(), one.entries, one.missing))
        .collect();
    assert_eq!(
        seen,
        [
            ("2026-03-05", 2, false),
            ("2026-03-04", 0, true),
            ("2026-03-03", 0, true),
            ("2026-03-02", 2, false)
        ]
    );
    assert_eq!(days.entries, 4);
    // A day with entries but without its round keeps both.
    let with_note = NewEntry::new(Kind::Note, json!({"text": "nobody came"}));
    store.append_many(at(4 * DAY), vec![with_note], None).unwrap();
    let after = site::record_days(&store, at(5 * DAY)).unwrap();
    assert_eq!(
        (after.days[0].day.as_str(), after.days[0].entries, after.days[0].missing),
        ("2026-03-06", 1, true)
    );
    assert!(NaiveDate::parse_from_str(&after.days[0].day, "%Y-%m-%d").is_ok());
}

#[test]
fn ten_thousand_entries_are_read_a_page_at_a_time_and_none_twice() {
    let (_data, _jobs, mut store) = job();
    let many: Vec<NewEntry> = (0..10_000)
        .map(|number| NewEntry::new(Kind::Note, json!({"text": format!("note {number}")})))
        .collect();
    store.append_many(at(1), many, None).unwrap();
    let days = site::record_days(&store, at(2)).unwrap();
    assert_eq!(days.days.iter().map(|one| one.entries).sum::<usize>(), 10_001);
    let page = site::record_page(&store, Some(5_001), 20, at(2)).unwrap();
    let places: Vec<i64> = page.entries.iter().map(|entry| entry.position).collect();
    assert_eq!(places, (4_981..=5_000).rev().collect::<Vec<_>>());
    // The first entry begins the job, so the note at place n has the number n - 2.
    assert_eq!(page.entries[0].words, "note 4998");
    let bare = serde_json::to_string(&page).unwrap().len();
    assert!(bare < 40_000, "a page is small whatever the record holds: {bare} bytes");
}

#[test]
fn a_correction_and_what_it_corrects_show_each_other() {
    let (_data, _jobs, mut store) = job();
    let old = note(&mut store, 1, "N1 leans 4 mm");
    let second = site::correct(&mut store, old.hash, &json!({"text": "N1 leans 14 mm"}), at(2)).unwrap();
    site::correct(&mut store, second.hash, &json!({"text": "N2 leans 14 mm"}), at(3)).unwrap();
    let page = site::record_page(&store, None, 10, at(4)).unwrap();
    let line = |seq: i64| page.entries.iter().find(|entry| entry.seq == seq).unwrap();
    assert_eq!(line(2).words, "N1 leans 4 mm");
    assert_eq!(line(2).now.as_ref().unwrap().words, "N2 leans 14 mm");
    assert_eq!(line(3).was.as_ref().unwrap().words, "N1 leans 4 mm");
    assert_eq!(line(4).was.as_ref().unwrap().words, "N1 leans 14 mm");
    assert_eq!(line(3).now.as_ref().unwrap().words, "N2 leans 14 mm");
    assert!(line(4).now.is_none());
    assert_eq!(line(2).may, ["text"]);
}
