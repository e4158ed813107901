//! A clock that was moved shows at its place; days without a round stand as missing.

use serde_json::json;
use tempfile::TempDir;
use upstay_lib::record::{Kind, Moment, NewEntry, Store, clock_moves};
use upstay_lib::site;
use upstay_lib::site::missing_days;

use crate::make::{at, job, note, pack};
use crate::pack::members;

/// A note when the wall clock shows `wall_s` and the phone has run `boot_s` seconds.
fn noted(store: &mut Store, wall_s: i64, boot_s: Option<i64>) {
    let moment = Moment {
        utc_ms: at(0).utc_ms + wall_s * 1000,
        boot_ms: boot_s.map(|seconds| seconds * 1000),
        ..at(0)
    };
    let entry = NewEntry::new(Kind::Note, json!({"text": "x"}));
    store.append_many(moment, vec![entry], None).unwrap();
}

/// Moves found among notes, after a first one at the beginning.
fn moves(pairs: &[(i64, Option<i64>)]) -> Vec<(i64, bool)> {
    let (_data, _jobs, mut store) = job();
    for (wall_s, boot_s) in pairs {
        noted(&mut store, *wall_s, *boot_s);
    }
    let entries = store.all_entries().unwrap();
    clock_moves(&entries)
        .iter()
        .map(|found| (found.by_s, found.sure))
        .collect()
}

#[test]
fn a_clock_set_back_or_forward_shows() {
    // The job itself was begun at wall 0, five seconds after the phone was started.
    assert_eq!(
        moves(&[(60, Some(65)), (3660, Some(3665))]),
        [],
        "both clocks advance alike"
    );
    assert_eq!(moves(&[(100, Some(65))]), [], "drift and corrections");
    assert_eq!(moves(&[(-3600, Some(15))]), [(-3610, true)], "set back an hour");
    // Two days of running, then an hour forward within a minute.
    assert_eq!(
        moves(&[(172_800, Some(172_805)), (176_460, Some(172_865))]),
        [(3600, true)]
    );
    // Running four minutes, and a day later: a restart explains it, or the clock was moved.
    assert_eq!(moves(&[(86_400, Some(240))]), [(86_165, false)]);
}

#[test]
fn a_restart_alone_is_no_move() {
    // Begun five seconds after the start; restarted; an hour and a minute later the phone runs for two seconds.
    assert_eq!(moves(&[(3660, Some(2))]), []);
    // Running for an hour, though only ten minutes have passed by its clock since the entry before.
    assert_eq!(moves(&[(7200, Some(7205)), (7800, Some(3600))]), [(600 - 3600, true)]);
    assert_eq!(moves(&[(60, None), (50, None)]), [], "drift");
    assert_eq!(
        moves(&[(600, None), (300, None)]),
        [(-300, true)],
        "without the second clock only a step back shows"
    );
}

#[test]
fn the_place_is_told_in_the_record_and_each_phone_has_its_own_clock() {
    let (_data, _jobs, mut store) = job();
    let folder = store.folder().to_path_buf();
    noted(&mut store, 60, Some(65));
    // Another phone, an hour behind and started at another time.
    let mut other = Store::open(&folder, uuid::Uuid::from_u128(7)).unwrap();
    noted(&mut other, -3500, Some(900_000));
    noted(&mut store, -86_340, Some(125));
    let page = site::record_page(&store, None, 10, at(0)).unwrap();
    let told: Vec<Option<String>> = page.entries.into_iter().map(|line| line.clock).collect();
    assert_eq!(told.iter().flatten().count(), 1, "{told:?}");
    let words = told[0].as_ref().unwrap();
    assert_eq!(words, "The phone’s clock was set back by 24 h 1 min before this entry.");
}

#[test]
fn a_correction_on_a_day_without_a_round_does_not_fill_the_gap() {
    let (_data, _jobs, mut store) = job();
    let round = NewEntry::new(Kind::RoundDone, json!({}));
    let first = store.append_many(at(0), vec![round.clone()], None).unwrap().remove(0);
    let correction = NewEntry::new(Kind::RoundDone, json!({"why": "typing"})).correcting(first.hash);
    store.append_many(at(1440), vec![correction], None).unwrap();
    store.append_many(at(3 * 1440), vec![round], None).unwrap();
    let days = missing_days(&store.all_entries().unwrap(), at(4 * 1440));
    assert_eq!(
        days.iter().map(ToString::to_string).collect::<Vec<_>>(),
        ["2026-03-03", "2026-03-04"]
    );
    // The same days stand in the table of the pack, before the round that follows them.
    note(&mut store, 5 * 1440, "no round either");
    let out = TempDir::new().unwrap();
    let made = pack(&mut store, out.path(), 5 * 1440);
    let files = members(&made.path);
    let table = &files.iter().find(|(name, _)| name == "rounds.csv").unwrap().1;
    let rows: Vec<String> = String::from_utf8_lossy(table)
        .lines()
        .filter(|line| line.ends_with("missing"))
        .map(|line| line.split(',').next().unwrap().to_owned())
        .collect();
    assert_eq!(rows, ["2026-03-03", "2026-03-04", "2026-03-06"]);
}

/// A clock set to another century neither hangs the app nor fills the report.
#[test]
fn an_absurd_clock_is_borne() {
    let (_data, _jobs, mut store) = job();
    for utc_ms in [-9_000_000_000_000_000, 9_000_000_000_000_000, 253_402_300_799_000, 0] {
        let moment = Moment { utc_ms, ..at(0) };
        store
            .append_many(moment, vec![NewEntry::new(Kind::RoundDone, json!({}))], None)
            .unwrap();
    }
    let entries = store.all_entries().unwrap();
    assert!(missing_days(&entries, at(0)).len() < 4000);
    assert!(!clock_moves(&entries).is_empty());
    let out = TempDir::new().unwrap();
    let made = pack(&mut store, out.path(), 1);
    assert_eq!(
        upstay_lib::pack::verify(&made.path, None).unwrap().verdict,
        upstay_lib::pack::Verdict::Intact
    );
}
