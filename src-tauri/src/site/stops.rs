//! Stops of the order of work: where the work waits until a named person has said yes.

use super::proposals::lineage;
use super::seen::Versions;
use super::state::{SiteState, state};
use super::{Kept, curves, kept};
use crate::failure::{Answer, Failure};
use crate::record::{Entry, Hash, Kind, Moment, NewEntry, Order, Store, TAKE_OUT, as_corrected};
use serde::Serialize;
use serde_json::{Value, json};

/// Code of the step that lets load come onto the needles.
const LOAD: &str = "permit_to_load";
/// Code of the stop that comes again every evening.
const NIGHT: &str = "before_night";
/// Stops of the papers belong to the job; all others to the proposal that they were passed for.
const PAPERS: &str = "papers";

/// A stop that was passed.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Passed {
    /// Which stop: its step's code, and its number where several share one.
    pub key: String,
    /// Who said yes.
    pub name: String,
    /// When, as RFC 3339.
    pub at: String,
    /// The entry.
    pub entry: Hash,
}

/// One stop of the kept order.
struct Stop<'a> {
    key: String,
    code: &'a str,
    group: &'a str,
    words: &'a str,
}

/// Stops of an order, in its own sequence.
fn stops(order: &Value) -> Vec<Stop<'_>> {
    let mut out: Vec<Stop<'_>> = Vec::new();
    for step in order.as_array().into_iter().flatten() {
        let text = |key: &str| step.get(key).and_then(Value::as_str).unwrap_or_default();
        if step.get("stop").and_then(Value::as_bool) != Some(true) {
            continue;
        }
        let before = out.iter().filter(|stop| stop.code == text("code")).count();
        out.push(Stop {
            key: format!("{}/{}", text("code"), before + 1),
            code: text("code"),
            group: text("group"),
            words: text("words"),
        });
    }
    out
}

/// Every stop passed so far that still counts, oldest first; a permit that was withdrawn no longer does.
///
/// # Errors
///
/// What the record said.
pub fn passed(store: &Store) -> Answer<Vec<Passed>> {
    passed_in(store, &state(store)?)
}

/// The same where the state is known already.
///
/// # Errors
///
/// What the record said.
pub fn passed_in(store: &Store, state: &SiteState) -> Answer<Vec<Passed>> {
    let same = match kept(store)? {
        Some(kept) => lineage(store, kept.entry)?,
        None => Vec::new(),
    };
    let stands = |entry: &Entry| {
        let mut permits = state.permits.iter();
        entry.kind != Kind::Permit || permits.any(|permit| permit.entry == entry.hash && permit.stands)
    };
    let mut out: Vec<(Order, Passed)> = Vec::new();
    for kind in [Kind::StopPassed, Kind::Permit] {
        let entries = store.of_kind(kind)?;
        out.extend(Versions::of_kind(&entries, kind).into_iter().filter_map(|versions| {
            let (entry, shown) = (versions.root, versions.shown());
            let text = |key: &str| entry.body.get(key).and_then(Value::as_str);
            // A new proposal is another arrangement: what was said of the old one says nothing of it.
            let of = text("proposal").is_some_and(|of| same.iter().any(|own| own == of));
            let taken_back = versions.taken_back().next().is_some();
            let counts = stands(entry) && !taken_back && (text("group") == Some(PAPERS) || of);
            let passed = Passed {
                key: text("stop")?.to_owned(),
                name: shown.body.get("name")?.as_str()?.to_owned(),
                at: entry.moment.rfc3339(),
                entry: entry.hash,
            };
            counts.then_some((entry.order(), passed))
        }));
    }
    out.sort_by_key(|(order, _)| *order);
    Ok(out.into_iter().map(|(_, passed)| passed).collect())
}

/// Writes down that a stop was passed: who said yes, and now.
///
/// # Errors
///
/// `no_proposal` before one was kept, `stop_unknown`, `name_missing`, `permit_refused` with what still stands against it,
/// or what the record said.
pub fn pass(store: &mut Store, key: &str, name: &str, set_out: Option<bool>, moment: Moment) -> Answer<Entry> {
    let Some(kept) = kept(store)? else {
        let words = "Stops belong to a kept proposal: keep one on the Support screen first.";
        return Err(Failure::new("no_proposal", words));
    };
    let order = kept.proposal.get("order").cloned().unwrap_or_default();
    let all = stops(&order);
    let Some(stop) = all.iter().find(|stop| stop.key == key) else {
        return Err(Failure::new("stop_unknown", "The kept order of work has no such stop."));
    };
    let name = name.trim();
    if name.is_empty() {
        return Err(Failure::new("name_missing", "A yes needs the name of whoever says it."));
    }
    super::closing::open_only(&state(store)?)?;
    let permit = matches!(stop.code, LOAD | TAKE_OUT);
    if permit {
        let against = against(store, &all, stop, &kept, moment)?;
        if !against.is_empty() {
            let words = format!("This permit cannot be given yet. {}", against.join(" "));
            return Err(Failure::new("permit_refused", words));
        }
    }
    let body = json!({
        "stop": stop.key,
        "code": stop.code,
        "group": stop.group,
        "proposal": kept.entry,
        "name": name,
        "set_out": set_out,
        "asked": stop.words,
        "words": format!("{name}: yes. {}", stop.words),
    });
    let kind = if permit { Kind::Permit } else { Kind::StopPassed };
    Ok(store.write(|gate| gate.append(moment, NewEntry::new(kind, body)))?)
}

/// What stands against a permit, in words: stops before it, and the last round.
fn against(store: &Store, all: &[Stop<'_>], permit: &Stop<'_>, kept: &Kept, moment: Moment) -> Answer<Vec<String>> {
    let now = state(store)?;
    let said = passed_in(store, &now)?;
    let open: Vec<&str> = all
        .iter()
        .take_while(|stop| stop.key != permit.key)
        .filter(|stop| stop.code != NIGHT && !said.iter().any(|passed| passed.key == stop.key))
        .map(|stop| stop.words.split(['.', ':']).next().unwrap_or_default().trim())
        .collect();
    let mut out = Vec::new();
    if !open.is_empty() {
        out.push(format!(
            "Stops before it still wait for their yes: {}.",
            open.join("; ")
        ));
    }
    out.extend(now.bars);
    // The curves see what no round sees by itself: the sum of a day, and readings that were corrected since.
    let stopping = curves(store)?.series.into_iter().filter(|one| one.stops);
    out.extend(stopping.map(|one| one.words));
    let same = lineage(store, kept.entry)?;
    let last = as_corrected(store.of_kind(Kind::RoundDone)?).pop();
    let round = last.filter(|round| {
        let of = round.body.get("proposal").and_then(Value::as_str);
        of.is_some_and(|of| same.iter().any(|own| own == of))
    });
    match round {
        None => out.push("No round has been done on this proposal.".to_owned()),
        Some(round) if round.body.pointer("/evaluation/passed").and_then(Value::as_bool) != Some(true) => {
            out.push("The last round is not passed.".to_owned());
        }
        Some(round) if round.moment.local_date() != moment.local_date() => {
            out.push("The last round is not of today.".to_owned());
        }
        Some(_) => {}
    }
    Ok(out)
}

#[cfg(test)]
mod tests {
    #![expect(clippy::unwrap_used, reason = "a test may stop at the first thing that is not there")]

    use super::super::state::state;
    use super::{Passed, pass, passed};
    use crate::record::{Jobs, Kind, Moment, NewEntry, Store};
    use serde_json::{Value, json};

    const DAY_MS: i64 = 86_400_000;

    /// Days after 2026-03-02, ten in the morning UTC.
    fn day(number: i64) -> Moment {
        Moment {
            utc_ms: 1_772_445_600_000 + number * DAY_MS,
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

    fn keep(store: &mut Store) -> Value {
        let stop =
            |code: &str, group: &str| json!({"stop": true, "code": code, "group": group, "words": format!("{code}.")});
        let order = json!([
            stop("services", "papers"),
            {"stop": false, "code": "set_out", "group": "set_up", "words": "Mark."},
            stop("needle", "holes"),
            stop("needle", "holes"),
            stop("permit_to_load", "holes"),
            stop("before_night", "cutting"),
            stop("permit_to_take_out", "taking_out"),
        ]);
        let body = json!({"aim": "fewest", "option": 0, "job": {}, "proposal": {"order": order}});
        let kept = NewEntry::new(Kind::ProposalKept, body);
        json!(
            store
                .append_many(day(0), vec![kept], None)
                .unwrap()
                .first()
                .unwrap()
                .hash
        )
    }

    fn round(store: &mut Store, proposal: &Value, passed: bool, when: Moment) {
        let reasons = if passed {
            json!([])
        } else {
            json!([{"code": "foot", "words": "N1-in: the board is not firm."}])
        };
        let body = json!({
            "proposal": proposal,
            "round": {"readings": [{"prop": "N1-in"}]},
            "evaluation": {"passed": passed, "stop": false, "reasons": reasons},
        });
        store
            .append_many(when, vec![NewEntry::new(Kind::RoundDone, body)], None)
            .unwrap();
    }

    fn keys(list: &[Passed]) -> Vec<&str> {
        list.iter().map(|one| one.key.as_str()).collect()
    }

    #[test]
    fn a_stop_needs_a_proposal_a_known_key_and_a_name() {
        let folder = tempfile::tempdir().unwrap();
        let mut store = job(&folder);
        let code = |store: &mut Store, key: &str, name: &str| pass(store, key, name, None, day(0)).unwrap_err().code;
        assert_eq!(code(&mut store, "services/1", "A. Mason"), "no_proposal");
        keep(&mut store);
        assert_eq!(
            code(&mut store, "set_out/1", "A. Mason"),
            "stop_unknown",
            "a step that is no stop"
        );
        assert_eq!(code(&mut store, "services/1", "  "), "name_missing");
        let entry = pass(&mut store, "services/1", " A. Mason ", None, day(0)).unwrap();
        assert_eq!(entry.kind, Kind::StopPassed);
        assert_eq!(passed(&store).unwrap().first().unwrap().name, "A. Mason");
    }

    #[test]
    fn a_permit_waits_for_every_stop_before_it_and_for_a_passed_round_of_the_same_day() {
        let folder = tempfile::tempdir().unwrap();
        let mut store = job(&folder);
        let proposal = keep(&mut store);
        let refused =
            |store: &mut Store, when| pass(store, "permit_to_load/1", "B. Check", Some(false), when).unwrap_err();
        let why = refused(&mut store, day(0));
        assert_eq!(why.code, "permit_refused");
        assert!(why.message.contains("services; needle; needle"), "{}", why.message);
        assert!(why.message.contains("No round"), "{}", why.message);
        for key in ["services/1", "needle/1", "needle/2"] {
            pass(&mut store, key, "A. Mason", None, day(0)).unwrap();
        }
        round(&mut store, &proposal, false, day(0));
        assert!(refused(&mut store, day(0)).message.contains("not passed"));
        round(&mut store, &proposal, true, day(0));
        // What the round before found stands until it is put right and read again.
        let why = refused(&mut store, day(0)).message;
        assert!(
            why.contains("Open since 2 March 2026: N1-in: the board is not firm."),
            "{why}"
        );
        let finding = state(&store).unwrap().findings.remove(0).id;
        let repair = json!({"finding": finding, "words": "New board.", "name": "A. Mason"});
        store
            .append_many(day(0), vec![NewEntry::new(Kind::Repair, repair)], None)
            .unwrap();
        assert!(refused(&mut store, day(0)).message.contains("not firm"));
        round(&mut store, &proposal, true, day(0));
        assert!(refused(&mut store, day(1)).message.contains("not of today"));
        let entry = pass(&mut store, "permit_to_load/1", "B. Check", Some(false), day(0)).unwrap();
        assert_eq!(entry.kind, Kind::Permit);
        // The stop of every evening is no bar to taking out; the permit to load is.
        let entry = pass(&mut store, "permit_to_take_out/1", "C. Engineer", Some(false), day(0)).unwrap();
        assert!(crate::record::takes_out(&entry));
    }

    #[test]
    fn a_new_proposal_keeps_the_papers_and_asks_everything_else_again() {
        let folder = tempfile::tempdir().unwrap();
        let mut store = job(&folder);
        let first = keep(&mut store);
        pass(&mut store, "services/1", "A. Mason", None, day(0)).unwrap();
        pass(&mut store, "needle/1", "A. Mason", None, day(0)).unwrap();
        assert_eq!(keys(&passed(&store).unwrap()), ["services/1", "needle/1"]);
        round(&mut store, &first, true, day(0));
        keep(&mut store);
        assert_eq!(keys(&passed(&store).unwrap()), ["services/1"]);
        for key in ["needle/1", "needle/2"] {
            pass(&mut store, key, "A. Mason", None, day(0)).unwrap();
        }
        let why = pass(&mut store, "permit_to_load/1", "B. Check", None, day(0)).unwrap_err();
        assert!(
            why.message.contains("No round"),
            "a round of the old proposal says nothing: {}",
            why.message
        );
    }
}
