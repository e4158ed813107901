#![expect(clippy::unwrap_used, reason = "a test may stop at the first thing that is not there")]

use super::{JOB, make};
use crate::form;
use crate::record::{Jobs, Kind, Moment};
use crate::{seal, site};
use serde_json::Value;

/// 2026-03-02, half past two in the afternoon, an hour ahead of UTC.
const NOW: Moment = Moment {
    utc_ms: 1_772_458_200_000,
    offset_min: 60,
    boot_ms: None,
};

#[test]
fn its_fields_give_its_job_back() {
    let job: Value = serde_json::from_str(JOB).unwrap();
    let (again, problems) = form::assemble(&form::flatten(&job));
    assert_eq!(problems, Vec::new());
    assert_eq!(
        calc::Job::from_value(&again).unwrap().0,
        calc::Job::from_value(&job).unwrap().0
    );
}

#[test]
fn it_is_a_whole_job_with_every_prop_read_and_nothing_sealed() {
    let folder = tempfile::tempdir().unwrap();
    let mut store = make(&Jobs::open(folder.path()).unwrap(), NOW).unwrap();
    assert!(store.info().unwrap().demo);

    let kept = site::kept(&store).unwrap().unwrap();
    let rounds = site::rounds(&store).unwrap();
    let round = rounds.first().unwrap();
    let read: Vec<&str> = round
        .read
        .get("readings")
        .unwrap()
        .as_array()
        .unwrap()
        .iter()
        .map(|one| one.get("prop").unwrap().as_str().unwrap())
        .collect();
    assert!(!read.is_empty());
    assert_eq!(read, kept.props());
    assert!(round.passed && !round.stop);

    let photos = site::photo_lines(&store).unwrap();
    let taken: Vec<(&str, &str)> = photos
        .iter()
        .map(|line| (line.photo.source.as_str(), line.photo.at.as_deref().unwrap()))
        .collect();
    // 190, 12 and 9 minutes before 14:30.
    assert_eq!(
        taken,
        [
            ("exif", "2026-03-02T11:20:00+01:00"),
            ("exif", "2026-03-02T14:18:00+01:00"),
            ("exif", "2026-03-02T14:21:00+01:00")
        ]
    );
    assert!(seal::give(&mut store, NOW).is_err());
    assert_eq!(store.of_kind(Kind::SealGiven).unwrap(), Vec::new());
    assert_eq!(store.verify_chain().unwrap(), Vec::new());
}
