//! Looks at the cracks after the props are out: the same day, a day after and two days after. That cracks are watched for 24
//! to 48 hours is common practice without a source; the times between which a look counts are this project's own judgement.

use super::gauges::{GaugeRead, gauges_moved};
use super::seen::Versions;
use super::state::{SiteState, state};
use super::taking_out::{moved_words, signed, write};
use crate::failure::{Answer, Failure};
use crate::record::{Entry, Hash, Kind, Moment, NewEntry, Store};
use serde::{Deserialize, Serialize};
use serde_json::{Value, json};

const HOUR_MS: i64 = 3_600_000;
/// The looks: what each is called, when it is due, and from when to when it counts, hours after the last prop.
const LOOKS: [(&str, i64, i64, i64); 3] = [
    ("on the day itself", 0, 0, 12),
    ("a day after", 24, 12, 36),
    ("two days after", 48, 36, i64::MAX / HOUR_MS),
];
/// A look is overdue this long after it was due, ms.
const LATE_MS: i64 = 2 * HOUR_MS;

/// A look that was done.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct LookLine {
    /// The entry.
    pub entry: Hash,
    /// When, as RFC 3339.
    pub at: String,
    /// The same, milliseconds since 1970.
    #[serde(skip)]
    pub utc_ms: i64,
    /// Who looked.
    pub name: String,
}

/// Where the looks stand now.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct After {
    /// When the last prop was out, as RFC 3339.
    pub since: String,
    /// Number of looks that are asked for.
    pub of: usize,
    /// Number of looks still missing: those that were let pass and those still to come.
    pub missing: usize,
    /// Each look and how it stands.
    pub looks: Vec<LookStands>,
    /// Whether a look is due now.
    pub now: bool,
    /// Whether it is late.
    pub overdue: bool,
    /// When the next look is due, as RFC 3339; nothing when none is to come.
    pub next: Option<String>,
    /// The next thing, in one sentence.
    pub words: String,
}

/// One look and how it stands.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct LookStands {
    /// In one sentence.
    pub words: String,
    /// Whether it was done.
    pub done: bool,
    /// Whether its time has not come yet.
    pub to_come: bool,
}

/// A look, as written.
#[derive(Clone, Debug, Default, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct NewLook {
    /// Who looked.
    pub name: String,
    /// Every gauge that was read before.
    #[serde(default)]
    pub gauges: Vec<GaugeRead>,
    /// Whether there is a new crack, or a door or window sticks, or something sagged.
    pub moved: bool,
    /// Anything else.
    #[serde(default)]
    pub words: String,
}

/// Looks and whole rounds after the entry with which the last prop was out.
pub(super) fn looks(entries: &[Entry], out: &Entry) -> Vec<LookLine> {
    let name = |entry: &Entry, path: &str| {
        entry
            .body
            .pointer(path)
            .and_then(Value::as_str)
            .unwrap_or_default()
            .to_owned()
    };
    let mut found: Vec<LookLine> = [(Kind::LookAfter, "/name"), (Kind::RoundDone, "/round/name")]
        .into_iter()
        .flat_map(|(kind, path)| {
            let all = Versions::of_kind(entries, kind)
                .into_iter()
                .map(|versions| versions.root);
            all.filter(|entry| entry.position > out.position && entry.moment.utc_ms >= out.moment.utc_ms)
                .map(move |entry| LookLine {
                    entry: entry.hash,
                    at: entry.moment.rfc3339(),
                    utc_ms: entry.moment.utc_ms,
                    name: name(entry, path),
                })
        })
        .collect();
    found.sort_by_key(|look| look.utc_ms);
    found
}

/// How the looks stand; nothing before the props are out.
#[must_use]
pub fn after(state: &SiteState, now: Moment) -> Option<After> {
    let out = &state.taking_out;
    let (since_ms, since) = (out.out_ms?, out.out_at.clone()?);
    let at = |hours: i64| {
        let moment = Moment {
            utc_ms: since_ms.saturating_add(hours.saturating_mul(HOUR_MS)),
            ..now
        };
        (moment.utc_ms, moment.rfc3339())
    };
    let mut told = After {
        since,
        of: LOOKS.len(),
        ..After::default()
    };
    for (number, (called, due, from, to)) in (1..).zip(LOOKS) {
        let counts = |look: &&LookLine| look.utc_ms >= at(from).0 && look.utc_ms < at(to).0;
        let title = format!("Look {number} of {}, {called}", LOOKS.len());
        let mut say = |done: bool, how: &str| {
            told.looks.push(LookStands {
                words: format!("{title}: {how}."),
                done,
                to_come: false,
            });
        };
        if let Some(look) = out.looks.iter().find(counts) {
            match look.name.as_str() {
                "" => say(true, "done"),
                name => say(true, &format!("done by {name}")),
            }
            continue;
        }
        let (due_ms, due_at) = at(due);
        if now.utc_ms >= at(to).0 {
            say(false, "missing, its time is over");
        } else if now.utc_ms >= due_ms {
            say(false, "due now");
            told.now = true;
            told.overdue = now.utc_ms >= due_ms.saturating_add(LATE_MS);
            told.words = format!("Read the crack gauges: look {number} of {}, {called}.", LOOKS.len());
            told.next = Some(due_at);
        } else {
            say(false, "still to come");
            if let Some(look) = told.looks.last_mut() {
                look.to_come = true;
            }
            if told.next.is_none() {
                told.words = format!(
                    "The next look at the cracks is look {number} of {}, {called}.",
                    LOOKS.len()
                );
                told.next = Some(due_at);
            }
        }
        told.missing += 1;
    }
    if told.next.is_none() {
        told.words = "Close the job: its last look is done.".to_owned();
    }
    if told.missing > 0 {
        let done = told.of.saturating_sub(told.missing);
        told.words = format!("{} {done} of {} looks are done.", told.words, told.of);
    }
    Some(told)
}

/// Writes down a look; what moved opens a finding in the same transaction.
///
/// # Errors
///
/// `name_missing`, `props_stand` before the last prop is out, `gauges_missing`, or what the record said.
pub fn look_after(store: &mut Store, new: &NewLook, moment: Moment) -> Answer<Entry> {
    let name = signed(&new.name, "/look/name")?;
    if !state(store)?.props_are_out() {
        let words = "Props still stand: look at them with a round.";
        return Err(Failure::new("props_stand", words));
    }
    let moves = gauges_moved(store, &new.gauges)?;
    let body = json!({"name": name, "gauges": new.gauges, "moved": new.moved, "words": new.words.trim()});
    write(
        store,
        NewEntry::new(Kind::LookAfter, body),
        moved_words(new.moved, moves),
        name,
        moment,
    )
}
