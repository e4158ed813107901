//! How long the wall was held by the props, and on which of those days nobody did a round. One place for what is due, the
//! record's screen, the report and `rounds.csv`, so that they can never tell different days.

use super::state::{SiteState, fold, follows};
use crate::failure::Answer;
use crate::record::{self, Entry, Kind, Moment, Store, takes_out};
use chrono::NaiveDate;

/// Days without a round while the wall was held; `entries` are all of the record, with what they hold and had seen.
#[must_use]
pub fn missing_days(entries: &[Entry], today: Moment) -> Vec<NaiveDate> {
    let ended = if entries.iter().any(may_end) {
        ended(&fold(
            entries.iter().filter(|entry| follows(entry.kind)).cloned().collect(),
        ))
    } else {
        None
    };
    record::missing_days(entries, ended, today)
}

/// The same from an outline of the record, which holds too little to tell whether a permit stands.
///
/// # Errors
///
/// What the record said.
pub(super) fn missing_in_outline(store: &Store, outline: &[Entry], today: Moment) -> Answer<Vec<NaiveDate>> {
    let ended = if outline.iter().any(may_end) {
        ended(&super::state(store)?)
    } else {
        None
    };
    Ok(record::missing_days(outline, ended, today))
}

/// The same where the state is known already.
pub(super) fn missing_with(state: &SiteState, rounds: &[Entry], today: Moment) -> Vec<NaiveDate> {
    record::missing_days(rounds, ended(state), today)
}

/// Whether an entry may end the time in which rounds are due.
fn may_end(entry: &Entry) -> bool {
    takes_out(entry) || matches!(entry.kind, Kind::LetDown | Kind::JobClosed)
}

/// The day from which no round is due any more: the permit to take out, the last prop, or the closing. A permit that was
/// withdrawn ends nothing, since the wall goes on standing on its props, unless the record says that they were out.
fn ended(state: &SiteState) -> Option<NaiveDate> {
    let standing = state
        .permits
        .iter()
        .filter(|permit| permit.stands && permit.code == record::TAKE_OUT);
    let permit = standing.filter_map(|permit| date(&permit.at)).max();
    let out = permit.or_else(|| date(state.taking_out.out_at.as_deref()?));
    let closed = state.closing.as_ref().and_then(|closing| date(&closing.at));
    out.into_iter().chain(closed).min()
}

/// The local date of an RFC 3339 text.
pub(super) fn date(at: &str) -> Option<NaiveDate> {
    at.get(..10)?.parse().ok()
}

#[cfg(test)]
mod tests {
    #![expect(clippy::unwrap_used, reason = "a test may stop at the first thing that is not there")]

    use super::{missing_days, missing_in_outline};
    use crate::record::{Jobs, Kind, Moment, NewEntry, Store};
    use crate::site::due;
    use serde_json::{Value, json};

    /// Days after 2026-03-02, ten in the morning UTC.
    fn day(number: i64) -> Moment {
        Moment {
            utc_ms: 1_772_445_600_000 + number * 86_400_000,
            offset_min: 0,
            boot_ms: None,
        }
    }

    fn add(store: &mut Store, kind: Kind, body: Value, when: Moment) -> Value {
        let kept = store.append_many(when, vec![NewEntry::new(kind, body)], None).unwrap();
        json!(kept.first().unwrap().hash)
    }

    /// What every reader of missing days says, which must be one thing.
    fn missing(store: &Store, today: Moment) -> Vec<String> {
        let all = store.all_entries().unwrap();
        let days: Vec<String> = missing_days(&all, today).iter().map(ToString::to_string).collect();
        let outline = missing_in_outline(store, &store.outline().unwrap(), today).unwrap();
        assert_eq!(outline.iter().map(ToString::to_string).collect::<Vec<_>>(), days);
        assert_eq!(due(store, today).unwrap().missing, days);
        days
    }

    #[test]
    fn a_withdrawn_permit_ends_no_missing_days_and_a_standing_one_does() {
        let folder = tempfile::tempdir().unwrap();
        let mut store = Jobs::open(folder.path())
            .unwrap()
            .begin("Weir Cottage", "", "england", false, day(0))
            .unwrap();
        let body = json!({"aim": "fewest", "option": 0, "job": {}, "proposal": {"options": [{}], "order": []}});
        let proposal = add(&mut store, Kind::ProposalKept, body, day(0));
        let round = json!({
            "proposal": proposal, "round": {"readings": []},
            "evaluation": {"passed": true, "stop": false, "reasons": []},
        });
        add(&mut store, Kind::RoundDone, round.clone(), day(0));
        let permit =
            json!({"stop": "permit_to_take_out/1", "code": "permit_to_take_out", "proposal": proposal, "name": "B"});
        add(&mut store, Kind::Permit, permit.clone(), day(1));
        assert_eq!(missing(&store, day(4)), Vec::<String>::new(), "the permit stands");
        // The crack was found after it: it stands no longer, and the rounds of these days are missing after all.
        let crack = json!({"category": "knock", "words": "A crack.", "name": "C", "photos": []});
        let finding = add(&mut store, Kind::Finding, crack, day(2));
        assert_eq!(missing(&store, day(4)), ["2026-03-03", "2026-03-04", "2026-03-05"]);
        let repair = json!({"finding": finding, "words": "Packed.", "name": "A", "photos": []});
        add(&mut store, Kind::Repair, repair, day(4));
        add(&mut store, Kind::RoundDone, round.clone(), day(4));
        assert_eq!(
            missing(&store, day(6)).last().unwrap(),
            "2026-03-07",
            "put right, but not given again"
        );
        add(&mut store, Kind::Permit, permit, day(6));
        let until_then = ["2026-03-03", "2026-03-04", "2026-03-05", "2026-03-07"];
        assert_eq!(missing(&store, day(9)), until_then);
        // Whoever looks at the gauges after the props are out makes no new days fall due.
        add(&mut store, Kind::RoundDone, round, day(8));
        assert_eq!(missing(&store, day(12)), until_then);
    }
}
