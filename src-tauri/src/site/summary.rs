//! The whole job on one page: what stood, for how long, what was found, and who answered for it.

use super::closing::{Closing, against_closing};
use super::due::due_in;
use super::gauges::gauge_names;
use super::looks::{LookStands, after};
use super::seals::{SealGiven, seals};
use super::state::{SiteState, state};
use crate::failure::Answer;
use crate::record::{Entry, Kind, Moment, Store, as_corrected};
use crate::report;
use serde::Serialize;
use serde_json::Value;

/// A job in short.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Summary {
    /// Day of the first and of the last round, as `2026-03-02`; nothing before there is one.
    pub days: Option<(String, String)>,
    /// Number of rounds.
    pub rounds: usize,
    /// Days without a round while the wall was held.
    pub missing_days: Vec<String>,
    /// Findings opened, and how many of them are closed.
    pub findings: usize,
    /// Those that are closed.
    pub closed: usize,
    /// Largest use of any prop that a round met, of 1.
    pub largest: Option<Largest>,
    /// Each prop at its first and at its last reading.
    pub props: Vec<PropEnds>,
    /// Permits, one sentence each, with the names of those who gave them.
    pub permits: Vec<String>,
    /// The seals given, the oldest first.
    pub seals: Vec<SealGiven>,
    /// Number of photos.
    pub photos: usize,
    /// Names under the entries, each once.
    pub names: Vec<String>,
    /// Looks after the props were out.
    pub looks: Vec<LookStands>,
    /// Names of the crack gauges.
    pub gauges: Vec<String>,
    /// What stands against closing the job.
    pub against: Vec<String>,
    /// Who closed it, where it is closed.
    pub closing: Option<Closing>,
}

/// The largest use that was met.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Largest {
    /// Of 1.
    pub utilisation: f64,
    /// The prop.
    pub prop: String,
    /// When, as RFC 3339.
    pub at: String,
}

/// A prop at the beginning and at the end.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct PropEnds {
    /// Its name.
    pub prop: String,
    /// Lean along and across the wall at the first and at the last reading, mm per m.
    pub lean_mm_m: [Option<[f64; 2]>; 2],
    /// What was taken up, summed, at the first and at the last reading, mm.
    pub take_up_mm: [Option<f64>; 2],
    /// What it was let down by when it was taken out, mm.
    pub down_mm: f64,
    /// Whether the record says that it is out.
    pub out: bool,
}

/// The summary as the record stands.
///
/// # Errors
///
/// What the record said.
pub fn summary(store: &Store, now: Moment) -> Answer<Summary> {
    let state = state(store)?;
    let rounds = as_corrected(store.of_kind(Kind::RoundDone)?);
    let mut out = Summary {
        days: days(&rounds),
        rounds: rounds.len(),
        missing_days: due_in(store, &state, now)?.missing,
        findings: state.findings.len(),
        closed: state.findings.len() - state.open,
        largest: largest(&rounds),
        seals: seals(store)?.into_iter().rev().collect(),
        photos: crate::photos::list(store)?.len(),
        names: signers(store, &state)?,
        looks: after(&state, now).map(|after| after.looks).unwrap_or_default(),
        gauges: gauge_names(store)?,
        against: against_closing(&state, now),
        ..Summary::default()
    };
    out.permits.extend(state.permits.iter().map(|permit| {
        let what = if permit.code == crate::record::TAKE_OUT {
            "to take out"
        } else {
            "to load"
        };
        let who = match permit.set_out {
            Some(true) => ", who set the support out,",
            Some(false) => ", who did not set it out,",
            None => "",
        };
        let stands = if permit.stands {
            String::new()
        } else {
            format!(" No longer stands: {}", permit.withdrawn.join(" "))
        };
        format!(
            "Permit {what}: {}{who} {}.{stands}",
            permit.name,
            report::day(&permit.at)
        )
    }));
    let mut found: Vec<PropEnds> = Vec::new();
    for round in &rounds {
        readings(round, &mut found);
    }
    for prop in &state.taking_out.props {
        let place = match found.iter().position(|one| one.prop == prop.prop) {
            Some(place) => place,
            None => {
                found.push(PropEnds {
                    prop: prop.prop.clone(),
                    ..PropEnds::default()
                });
                found.len() - 1
            }
        };
        if let Some(ends) = found.get_mut(place) {
            (ends.down_mm, ends.out) = (prop.down_mm, prop.out);
        }
    }
    out.props = found;
    out.closing = state.closing;
    Ok(out)
}

fn days(rounds: &[Entry]) -> Option<(String, String)> {
    let days = || rounds.iter().filter_map(|round| round.moment.local_date());
    Some((days().min()?.to_string(), days().max()?.to_string()))
}

fn rows<'a>(entry: &'a Entry, path: &str) -> impl Iterator<Item = &'a Value> + use<'a> {
    entry.body.pointer(path).and_then(Value::as_array).into_iter().flatten()
}

fn largest(rounds: &[Entry]) -> Option<Largest> {
    let all = rounds.iter().flat_map(|round| {
        rows(round, "/evaluation/props").filter_map(|prop| {
            Some(Largest {
                utilisation: prop.get("utilisation")?.as_f64()?,
                prop: prop.get("name")?.as_str()?.to_owned(),
                at: round.moment.rfc3339(),
            })
        })
    });
    all.max_by(|a, b| a.utilisation.total_cmp(&b.utilisation))
}

/// Takes the readings of one round into the props' beginnings and ends.
fn readings(round: &Entry, found: &mut Vec<PropEnds>) {
    for row in rows(round, "/round/readings") {
        let Some(name) = row.get("prop").and_then(Value::as_str) else {
            continue;
        };
        let over = row.get("over_m").and_then(Value::as_f64).filter(|over| *over > 0.0);
        let lean = |place: usize| Some(row.get("lean_mm")?.get(place)?.as_f64()? / over?);
        let lean = lean(0).zip(lean(1)).map(|(along, across)| [along, across]);
        let own = rows(round, "/evaluation/props").find(|prop| prop.get("name").and_then(Value::as_str) == Some(name));
        let up = own.and_then(|prop| prop.get("take_up_mm")?.as_f64());
        match found.iter_mut().find(|one| one.prop == name) {
            Some(known) => {
                let [first, last] = &mut known.lean_mm_m;
                *first = first.or(lean);
                *last = lean.or(*last);
                let [first, last] = &mut known.take_up_mm;
                *first = first.or(up);
                *last = up.or(*last);
            }
            None => found.push(PropEnds {
                prop: name.to_owned(),
                lean_mm_m: [lean, lean],
                take_up_mm: [up, up],
                ..PropEnds::default()
            }),
        }
    }
}

/// Names under the entries that the state follows from, then those of whoever put photos in and wrote nothing else.
fn signers(store: &Store, state: &SiteState) -> Answer<Vec<String>> {
    let mut names = state.names.clone();
    for entry in store.of_kind(Kind::PhotoTaken)? {
        if let Some(name) = super::signed_by(&entry)
            && !names.iter().any(|known| known == name)
        {
            names.push(name.to_owned());
        }
    }
    Ok(names)
}
