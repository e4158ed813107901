//! What is due next, in one sentence.

use super::due::due;
use crate::failure::Answer;
use crate::record::{Moment, Store};

/// The next thing due on a job, in one sentence.
///
/// # Errors
///
/// What the record said.
pub fn next_due(store: &Store, today: Moment) -> Answer<String> {
    Ok(due(store, today)?.words)
}

#[cfg(test)]
mod tests {
    #![expect(clippy::unwrap_used, reason = "a test may stop at the first thing that is not there")]

    use super::next_due;
    use crate::record::{DraftWrite, Entry, Jobs, Kind, Moment, NewEntry, Store};
    use crate::site::missing_days;
    use serde_json::json;

    const DAY_MS: i64 = 86_400_000;
    /// 2026-03-02, ten in the morning UTC.
    const MONDAY_MS: i64 = 1_772_445_600_000;

    fn day(number: i64) -> Moment {
        Moment {
            utc_ms: MONDAY_MS + number * DAY_MS,
            offset_min: 0,
            boot_ms: None,
        }
    }

    fn job(folder: &tempfile::TempDir) -> Store {
        Jobs::open(folder.path())
            .unwrap()
            .begin("Weir Cottage", "", "england", false, day(0))
            .unwrap()
    }

    fn add(store: &mut Store, kind: Kind, body: serde_json::Value, when: Moment) {
        store.append_many(when, vec![NewEntry::new(kind, body)], None).unwrap();
    }

    fn missing(entries: &[Entry], today: Moment) -> Vec<String> {
        missing_days(entries, today).iter().map(ToString::to_string).collect()
    }

    #[test]
    fn days_without_a_round_stand_as_missing_until_the_props_are_out() {
        let folder = tempfile::tempdir().unwrap();
        let mut store = job(&folder);
        assert!(
            missing(&store.all_entries().unwrap(), day(9)).is_empty(),
            "nothing stands before the first round"
        );
        for when in [1, 2, 5] {
            let passed = json!({"evaluation": {"stop": false, "passed": true}});
            add(&mut store, Kind::RoundDone, passed, day(when));
        }
        let entries = store.all_entries().unwrap();
        assert_eq!(missing(&entries, day(5)), ["2026-03-05", "2026-03-06"]);
        assert_eq!(
            missing(&entries, day(7)),
            ["2026-03-05", "2026-03-06", "2026-03-08"],
            "today is not over yet"
        );
        add(&mut store, Kind::Permit, json!({"code": "permit_to_load"}), day(6));
        assert_eq!(
            missing(&store.all_entries().unwrap(), day(7)).len(),
            3,
            "a permit to load ends nothing"
        );
        add(&mut store, Kind::Permit, json!({"code": "permit_to_take_out"}), day(6));
        assert_eq!(
            missing(&store.all_entries().unwrap(), day(30)),
            ["2026-03-05", "2026-03-06"]
        );
    }

    #[test]
    fn the_next_thing_follows_what_is_in_the_record() {
        let folder = tempfile::tempdir().unwrap();
        let mut store = job(&folder);
        let next = |store: &Store, when| next_due(store, day(when)).unwrap();
        assert!(next(&store, 0).contains("Describe the wall"));
        let typed = DraftWrite {
            field: "/opening/width_m".to_owned(),
            text: Some("3".to_owned()),
            counter: 1,
        };
        store.draft_put(&[typed]).unwrap();
        assert!(next(&store, 0).contains("Finish the description"));
        add(&mut store, Kind::ProposalKept, json!({}), day(0));
        assert!(next(&store, 0).contains("first round"));
        let round = |stop, passed| json!({"evaluation": {"stop": stop, "passed": passed}});
        add(&mut store, Kind::RoundDone, round(false, true), day(1));
        assert!(next(&store, 1).contains("round is done"));
        assert!(next(&store, 2).contains("Do today's round"));
        add(&mut store, Kind::RoundDone, round(false, false), day(2));
        assert!(next(&store, 2).contains("Put right"));
        add(&mut store, Kind::RoundDone, round(true, false), day(2));
        assert!(next(&store, 2).starts_with("Stop"));
        // A round that cannot be read is no reason to go in.
        add(&mut store, Kind::RoundDone, json!({}), day(2));
        assert!(next(&store, 2).starts_with("Stop"));
    }
}
