//! Closing a job and opening it again. Nothing is locked by it: a finding that whoever closed it had not seen opens it again
//! by itself, on every phone alike.

use super::findings::{Found, closed_before};
use super::looks::after;
use super::runs::runs;
use super::seen::{Versions, saw};
use super::state::{SiteState, state};
use super::taking_out::signed;
use crate::failure::{Answer, Failure};
use crate::record::{Entry, Hash, Kind, Moment, NewEntry, Store};
use serde::{Deserialize, Serialize};
use serde_json::{Value, json};

/// Longest reason, characters (own judgement: a paragraph).
const REASON: usize = 1000;

/// A closing that stands.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Closing {
    /// The entry.
    pub entry: Hash,
    /// When, as RFC 3339.
    pub at: String,
    /// Who closed it.
    pub name: String,
    /// Why it was closed although something stood against it; empty where nothing did.
    pub anyway: String,
    /// What stood against it then, one sentence each.
    pub against: Vec<String>,
}

/// A closing as asked for.
#[derive(Clone, Debug, Default, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct NewClosing {
    /// Who closes it.
    pub name: String,
    /// Why, although something stands against it.
    #[serde(default)]
    pub anyway: String,
}

/// The last closing that stands; `entries` are in fold order.
pub(super) fn closing(entries: &[Entry], findings: &[Found<'_>]) -> Option<Closing> {
    let opened = Versions::of_kind(entries, Kind::JobReopened);
    let closings = Versions::of_kind(entries, Kind::JobClosed);
    // One that did not know of an opening gives way to it, and so does one that did not know of a finding. What stood open
    // before its eyes was closed anyway. Along a run nothing is forgotten, so those that give way stand at its beginning.
    let roots: Vec<&Entry> = closings.iter().map(|versions| versions.root).collect();
    let last = runs(&roots).runs.into_iter().filter_map(|run| {
        let first = |gives_way: &dyn Fn(&Entry) -> bool| {
            run.partition_point(|place| roots.get(*place).is_some_and(|entry| gives_way(entry)))
        };
        let opened = opened.iter().map(|opening| first(&|entry| !saw(entry, opening.root)));
        let found = findings
            .iter()
            .map(|found| first(&|entry| !closed_before(found, entry) && !found.known_to(entry)));
        let stands = run.get(opened.chain(found).max().unwrap_or_default()..)?;
        stands.last().copied()
    });
    let last = closings.get(last.max()?)?;
    let text = |key: &str| {
        last.shown()
            .body
            .get(key)
            .and_then(Value::as_str)
            .unwrap_or_default()
            .to_owned()
    };
    let against = last.root.body.get("against").and_then(Value::as_array);
    let against = against.into_iter().flatten().filter_map(Value::as_str);
    Some(Closing {
        entry: last.root.hash,
        at: last.root.moment.rfc3339(),
        name: text("name"),
        anyway: text("anyway"),
        against: against.map(str::to_owned).collect(),
    })
}

/// What stands against closing a job, one sentence each.
#[must_use]
pub fn against_closing(state: &SiteState, now: Moment) -> Vec<String> {
    let mut out = state.bars.clone();
    let left: Vec<&str> = state
        .taking_out
        .props
        .iter()
        .filter(|prop| !prop.out)
        .map(|prop| prop.prop.as_str())
        .collect();
    if !left.is_empty() {
        out.push(format!(
            "The record does not say that these props are out: {}.",
            left.join(", ")
        ));
    }
    if let Some(after) = after(state, now) {
        let missing = after.looks.into_iter().filter(|look| !look.done);
        out.extend(missing.map(|look| look.words));
    }
    out
}

/// Closes a job.
///
/// # Errors
///
/// `closed` already, `name_missing`, `too_long`, `close_refused` with everything that stands against it where no reason
/// was given, or what the record said.
pub fn close(store: &mut Store, new: &NewClosing, moment: Moment) -> Answer<Entry> {
    let now = state(store)?;
    open_only(&now)?;
    let name = signed(&new.name, "/closing/name")?;
    let anyway = reason(&new.anyway)?;
    let against = against_closing(&now, moment);
    if !against.is_empty() && anyway.is_empty() {
        let words = format!("This job cannot be closed yet. {}", against.join(" "));
        return Err(Failure::new("close_refused", words));
    }
    // A reason that was not needed would tell of something that was not there.
    let anyway = if against.is_empty() { "" } else { anyway };
    let body = json!({"name": name, "anyway": anyway, "against": against});
    Ok(store.write(|gate| gate.append(moment, NewEntry::new(Kind::JobClosed, body)))?)
}

/// Opens a closed job again.
///
/// # Errors
///
/// `not_closed`, `name_missing`, `reason_missing`, `too_long`, or what the record said.
pub fn reopen(store: &mut Store, name: &str, why: &str, moment: Moment) -> Answer<Entry> {
    let Some(closing) = state(store)?.closing else {
        return Err(Failure::new("not_closed", "This job is open."));
    };
    let name = signed(name, "/opening/name")?;
    let why = reason(why)?;
    if why.is_empty() {
        return Err(Failure::new("reason_missing", "Say why it is opened again.").at("/opening/reason"));
    }
    let body = json!({"name": name, "reason": why, "closing": closing.entry});
    Ok(store.write(|gate| gate.append(moment, NewEntry::new(Kind::JobReopened, body)))?)
}

/// Refuses what belongs to a job that goes on.
///
/// # Errors
///
/// `closed`.
pub(super) fn open_only(state: &SiteState) -> Answer<()> {
    match &state.closing {
        Some(_) => Err(Failure::new(
            "closed",
            "This job is closed. Open it again first, and say why.",
        )),
        None => Ok(()),
    }
}

fn reason(text: &str) -> Answer<&str> {
    let text = text.trim();
    if text.chars().count() > REASON {
        let words = format!("This is longer than {REASON} letters: put the rest into a note.");
        return Err(Failure::new("too_long", words));
    }
    Ok(text)
}
