//! What is due, since when and why (method, section 16): before loading, at the start of each day, after each stage, before
//! leaving, after wind, rain, frost, a knock or a change, before taking out. The hours are this project's own judgement.

use super::curves::is_of;
use super::held::missing_with;
use super::looks::{After, after};
use super::proposals::lineage;
use super::seen::saw;
use super::state::{SiteState, state};
use super::{Kept, kept};
use crate::failure::{Answer, Failure};
use crate::record::{Entry, Kind, Moment, NewEntry, Store, as_corrected};
use crate::report;
use chrono::{DateTime, Datelike, Days, FixedOffset, NaiveDate, Timelike, Weekday};
use serde::{Deserialize, Serialize};
use serde_json::{Value, json};

/// Hour of the local clock from which a day's round that was not done counts as overdue.
const MORNING: u32 = 9;
/// Hour from which it is asked who looks after the wall at night.
const EVENING: u32 = 15;
/// A prop that was taken up while it beds in is looked at again after this time, ms (method, section 16: two hours).
const AGAIN_MS: i64 = 2 * 3_600_000;
/// An answer to who looks after the wall is looked for among so many notes, the newest; behind more it is asked again.
const NOTES: u32 = 200;
/// A round is overdue this long after what made it due, ms.
const LATE_MS: i64 = 2 * 3_600_000;
/// Findings after which a round is due.
const EVENTS: [&str; 3] = ["knock", "soft_ground", "frost"];

/// What is due.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Due {
    /// Which thing, as a stable word.
    pub code: &'static str,
    /// The next thing due, in one sentence.
    pub words: String,
    /// Since when, as RFC 3339.
    pub since: Option<String>,
    /// Whether it ought to have been done by now.
    pub overdue: bool,
    /// Everything that makes a round due, the first one decides.
    pub reasons: Vec<DueReason>,
    /// What is asked of whoever leaves a part-open wall.
    pub asks: Vec<Ask>,
    /// Days without a round.
    pub missing: Vec<String>,
    /// How the looks at the cracks stand, once the props are out.
    pub after: Option<After>,
}

/// Why a round is due.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct DueReason {
    /// Which, as a stable word.
    pub code: &'static str,
    /// In one sentence.
    pub words: String,
    /// Since when, as RFC 3339.
    pub since: String,
    /// Whether it ought to have been done by now.
    pub overdue: bool,
}

/// A question to whoever leaves the wall.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Ask {
    /// `tonight` or `weekend`.
    pub code: &'static str,
    /// The question.
    pub words: String,
    /// The day on which work begins again, as `2026-03-09`.
    pub until: String,
}

/// Who looks after the wall.
#[derive(Clone, Debug, Default, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Watch {
    /// `tonight` or `weekend`.
    pub ask: String,
    /// Who does the rounds.
    pub name: String,
    /// Until which day, as in the question.
    #[serde(default)]
    pub until: String,
}

fn plain(code: &'static str, words: &str) -> Due {
    Due {
        code,
        words: words.to_owned(),
        ..Due::default()
    }
}

fn local(moment: Moment) -> Option<DateTime<FixedOffset>> {
    DateTime::parse_from_rfc3339(&moment.rfc3339()).ok()
}

/// What is due on a job.
///
/// # Errors
///
/// What the record said.
pub fn due(store: &Store, now: Moment) -> Answer<Due> {
    due_in(store, &state(store)?, now)
}

/// The same where the state is known already.
///
/// # Errors
///
/// What the record said.
pub fn due_in(store: &Store, state: &SiteState, now: Moment) -> Answer<Due> {
    if store.last_of(Kind::ProposalKept)?.is_none() {
        let begun = store.drafts()?.iter().any(|draft| crate::form::describes(&draft.field));
        return Ok(if begun {
            plain("finish", "Finish the description and keep a proposal.")
        } else {
            plain("describe", "Describe the wall.")
        });
    }
    let rounds = as_corrected(store.of_kind(Kind::RoundDone)?);
    let mut due = match (&state.closing, &state.proposals_open) {
        (Some(_), _) => plain("closed", "This job is closed. Keep its pack."),
        (None, Some(question)) => plain("proposals", &question.words),
        (None, None) if state.props_are_out() => after_out(state, now),
        (None, None) => of_rounds(store, state, &rounds, now)?,
    };
    due.after = after(state, now);
    due.missing = missing_with(state, &rounds, now)
        .iter()
        .map(ToString::to_string)
        .collect();
    if part_open(state) && !state.props_are_out() && state.closing.is_none() {
        due.asks = asks(&store.newest_of(Kind::Note, NOTES)?, now);
    }
    Ok(due)
}

/// Whether load may be on the needles: a permit to load was given, also one that was withdrawn since, and none to take out
/// stands.
fn part_open(state: &SiteState) -> bool {
    let out = |code: &str| code == crate::record::TAKE_OUT;
    let mut permits = state.permits.iter();
    permits.clone().any(|permit| !out(&permit.code)) && !permits.any(|permit| out(&permit.code) && permit.stands)
}

fn of_rounds(store: &Store, state: &SiteState, rounds: &[Entry], now: Moment) -> Answer<Due> {
    let own = match kept(store).ok().flatten() {
        Some(Kept { entry, .. }) => lineage(store, entry)?,
        None => Vec::new(),
    };
    let mut permits = state.permits.iter();
    if let Some(out) = permits.rfind(|permit| permit.code == crate::record::TAKE_OUT && permit.stands) {
        let left = state.taking_out.props.iter().filter(|prop| !prop.out).count();
        let plural = if left == 1 { "prop stands" } else { "props stand" };
        let words =
            format!("Let the props down, a quarter turn at a time, and write each down: {left} {plural} still.");
        return Ok(Due {
            since: Some(out.at.clone()),
            ..plain("taking_out", &words)
        });
    }
    let first_open = state.open_findings().next().map(|finding| finding.at.clone());
    let last = rounds.last();
    let flag = |last: &Entry, key: &str| {
        last.body
            .pointer(&format!("/evaluation/{key}"))
            .and_then(Value::as_bool)
    };
    // Nobody is sent in for a first round either while something stops the work.
    if state.stop || last.is_some_and(|last| flag(last, "stop") != Some(false)) {
        let words = "Stop: the last round says keep out.";
        let words = if state.stop { stopped(state) } else { words.to_owned() };
        return Ok(Due {
            since: first_open,
            overdue: true,
            ..plain("stop", &words)
        });
    }
    let Some(last) = last else {
        return Ok(plain(
            "before_loading",
            "Do the first round when the props stand, before anything is cut.",
        ));
    };
    let passed = flag(last, "passed") == Some(true);
    if !passed || state.open > 0 {
        let what = state.open_findings().next().map(|finding| finding.words.clone());
        let words = what.map_or_else(
            || left_out(last),
            |what| format!("Put right what was found, then do a round: {what}"),
        );
        return Ok(Due {
            since: first_open.or_else(|| Some(last.moment.rfc3339())),
            overdue: last.moment.local_date() != now.local_date(),
            ..plain("repair", &words)
        });
    }
    let reasons = reasons(store, rounds, last, &own, now)?;
    let Some(first) = reasons.first() else {
        return Ok(plain("done", "Today's round is done."));
    };
    let words = if first.code == "start_of_day" {
        "Do today's round.".to_owned()
    } else {
        format!("Do a round. {}", first.words)
    };
    Ok(Due {
        since: Some(first.since.clone()),
        overdue: reasons.iter().any(|reason| reason.overdue),
        code: first.code,
        words,
        reasons,
        ..Due::default()
    })
}

/// What a round that is not passed waits for where nothing was found: what it did not look at.
fn left_out(round: &Entry) -> String {
    let reasons = round.body.pointer("/evaluation/reasons").and_then(Value::as_array);
    let text = |reason: &Value, key: &str| reason.get(key).and_then(Value::as_str).unwrap_or_default().to_owned();
    let unread = |reason: &&Value| text(reason, "code").ends_with("not_read");
    reasons.into_iter().flatten().find(unread).map_or_else(
        || "Put right what the last round found, then do a round.".to_owned(),
        |reason| {
            let words = text(reason, "words");
            format!("The last round left something out: {words} Read it, then do the round.")
        },
    )
}

fn stopped(state: &SiteState) -> String {
    let what = state.open_findings().find(|finding| finding.stops);
    let what = what.map_or("something is wrong.", |finding| finding.words.as_str());
    format!("Stop and keep out: {what}")
}

/// Everything since the last round that makes another one due; the start of the day comes first.
fn reasons(store: &Store, rounds: &[Entry], last: &Entry, own: &[String], now: Moment) -> Answer<Vec<DueReason>> {
    let mut out = Vec::new();
    // Places are of one phone and the next: what was done elsewhere may stand before a round that knew nothing of it.
    let later = |entry: &Entry| !saw(last, entry);
    let of_entry = |code, words: String, entry: &Entry, after_ms: i64| {
        let due_ms = entry.moment.utc_ms.saturating_add(after_ms);
        let at = Moment {
            utc_ms: due_ms,
            ..entry.moment
        };
        DueReason {
            code,
            words,
            since: at.rfc3339(),
            overdue: now.utc_ms >= due_ms.saturating_add(LATE_MS),
        }
    };
    if last.moment.local_date() != now.local_date() {
        let today = local(now);
        let midnight = today.and_then(|at| at.with_time(chrono::NaiveTime::MIN).earliest());
        let missed = |last: NaiveDate| {
            now.local_date()
                .is_some_and(|day| last.checked_add_days(Days::new(1)) < Some(day))
        };
        out.push(DueReason {
            code: "start_of_day",
            words: "A round is due at the start of each day.".to_owned(),
            since: midnight.map(|at| at.to_rfc3339()).unwrap_or_default(),
            overdue: today.is_some_and(|at| at.hour() >= MORNING) || last.moment.local_date().is_some_and(missed),
        });
    }
    if !is_of(last, own) && !own.is_empty() {
        let changed = store.of_kind(Kind::ProposalKept)?.pop();
        out.extend(changed.map(|entry| {
            let words = "Another proposal was kept since: what stands is read against it.".to_owned();
            of_entry("after_event", words, &entry, 0)
        }));
    }
    for entry in store
        .of_kind(Kind::Finding)?
        .iter()
        .filter(|entry| later(entry) && entry.corrects.is_none())
    {
        let category = entry.body.get("category").and_then(Value::as_str).unwrap_or_default();
        if EVENTS.contains(&category) {
            let what = super::meaning::meaning(category).title;
            out.push(of_entry(
                "after_event",
                format!("{what}: everything is looked at again."),
                entry,
                0,
            ));
        }
    }
    for entry in as_corrected(store.of_kind(Kind::StopPassed)?)
        .iter()
        .filter(|entry| later(entry))
    {
        let text = |key: &str| entry.body.get(key).and_then(Value::as_str).unwrap_or_default();
        if matches!(text("group"), "holes" | "cutting" | "taking_out") && text("code") != "before_night" {
            let what = text("asked").split(['.', ':']).next().unwrap_or_default();
            out.push(of_entry("after_stage", format!("After each stage: {what}."), entry, 0));
        }
    }
    let on_this = rounds.iter().filter(|entry| is_of(entry, own)).count();
    if on_this <= 2 && taken_up(last) && now.utc_ms >= last.moment.utc_ms.saturating_add(AGAIN_MS) {
        let words = "Something was tightened while it beds in: look again after two hours.".to_owned();
        out.push(of_entry("look_again", words, last, AGAIN_MS));
    }
    Ok(out)
}

/// Whether anything was taken up in a round.
fn taken_up(round: &Entry) -> bool {
    let rows = round.body.pointer("/round/readings").and_then(Value::as_array);
    rows.into_iter()
        .flatten()
        .filter_map(|row| row.get("collar_turns")?.as_f64())
        .any(|turns| turns > 0.0)
}

/// After the props are out: what stands open, the looks at the cracks, then closing the job.
fn after_out(state: &SiteState, now: Moment) -> Due {
    let first = state.open_findings().next();
    if let Some(finding) = first {
        let (code, words) = if state.stop {
            ("stop", stopped(state))
        } else {
            ("repair", format!("Put right what was found: {}", finding.words))
        };
        return Due {
            since: Some(finding.at.clone()),
            overdue: state.stop,
            ..plain(code, &words)
        };
    }
    let Some(after) = after(state, now) else {
        return Due::default();
    };
    Due {
        since: after.next.clone(),
        overdue: after.overdue,
        ..plain(if after.next.is_some() { "after_out" } else { "close" }, &after.words)
    }
}

/// Who looks after a part-open wall tonight, and over the weekend, where nobody has said so yet.
fn asks(notes: &[Entry], now: Moment) -> Vec<Ask> {
    let Some(at) = local(now) else { return Vec::new() };
    let today = at.date_naive();
    let ahead = |days: u64| today.checked_add_days(Days::new(days)).unwrap_or(today);
    let answered = |code: &str, until: NaiveDate| {
        notes.iter().any(|note| {
            let text = |key: &str| note.body.get(key).and_then(Value::as_str);
            text("ask") == Some(code) && text("until") == Some(until.to_string().as_str())
        })
    };
    let weekend = match today.weekday() {
        Weekday::Fri => Some(3),
        Weekday::Sat => Some(2),
        Weekday::Sun => Some(1),
        _ => None,
    };
    let mut out = Vec::new();
    if let Some(until) = weekend.map(ahead).filter(|until| !answered("weekend", *until)) {
        out.push(Ask {
            code: "weekend",
            words: "The wall stands on props over the weekend: who looks at it on Saturday and Sunday?".to_owned(),
            until: until.to_string(),
        });
    }
    if at.hour() >= EVENING && !answered("tonight", ahead(1)) {
        out.push(Ask {
            code: "tonight",
            words: "The wall stands on props tonight: is everything packed and braced, is the opening boarded, does nobody \
                    sleep above, and who looks at it tomorrow before work?"
                .to_owned(),
            until: ahead(1).to_string(),
        });
    }
    out
}

/// Writes down who looks after the wall.
///
/// # Errors
///
/// `ask` for a question that is not asked, `name_missing`, or what the record said.
pub fn watch(store: &mut Store, watch: &Watch, now: Moment) -> Answer<Entry> {
    let name = watch.name.trim();
    let asked = due(store, now)?.asks;
    let Some(ask) = asked
        .iter()
        .find(|ask| ask.code == watch.ask && (watch.until.is_empty() || ask.until == watch.until))
    else {
        return Err(Failure::new("ask", "That is not asked now."));
    };
    if name.is_empty() {
        return Err(Failure::new("name_missing", "Write the name of whoever looks after the wall.").at("/watch/name"));
    }
    let text = format!("{name} looks after the wall until {}.", report::day(&ask.until));
    let body = json!({ "text": text, "ask": ask.code, "until": ask.until, "name": name });
    Ok(store.write(|gate| gate.append(now, NewEntry::new(Kind::Note, body)))?)
}
