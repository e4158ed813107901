//! Crack gauges over the whole record: which there are, what they read before, and which have grown too much.

use crate::failure::{Answer, Failure};
use crate::record::{Entry, Hash, Kind, Order, Store, as_corrected};
use calc::trend::rules::crack_stops;
use serde::{Deserialize, Serialize};
use serde_json::{Value, json};
use std::collections::HashMap;

/// Why a gauge was left out of a round: it is gone, and is not asked for any more. What it was put up for is found instead.
const GONE: &str = "gone";
/// Code of what is found where a gauge is gone.
pub(super) const GAUGE_GONE: &str = "gauge_gone";

/// What was read at a crack gauge.
#[derive(Clone, Debug, Default, Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
pub struct GaugeRead {
    /// Its name, as in the rounds.
    pub name: String,
    /// What it reads, mm.
    pub mm: f64,
}

/// Names of the gauges that this round said are gone.
pub(super) fn gone_in(round: &Value) -> impl Iterator<Item = &str> {
    let rows = round.get("gauges_left").and_then(Value::as_array);
    rows.into_iter()
        .flatten()
        .filter(|row| row.get("why").and_then(Value::as_str) == Some(GONE))
        .filter_map(|row| row.get("gauge")?.as_str())
}

/// What was read at gauges, or that one is gone, in the order of the record.
struct Known {
    order: Order,
    name: String,
    /// What it read, mm; nothing where it is gone.
    mm: Option<f64>,
}

/// What entries of a kind say of gauges; their readings stand under `path`.
fn known_of(entries: &[Entry], path: &str) -> Vec<Known> {
    let mut out = Vec::new();
    for entry in entries {
        let known = |name: &str, mm: Option<f64>| Known {
            order: entry.order(),
            name: name.to_owned(),
            mm,
        };
        let rows = entry.body.pointer(path).and_then(Value::as_array);
        let read = |row: &Value| Some(known(row.get("name")?.as_str()?, Some(row.get("mm")?.as_f64()?)));
        out.extend(rows.into_iter().flatten().filter_map(read));
        if let Some(round) = entry.body.get("round") {
            out.extend(gone_in(round).map(|name| known(name, None)));
        }
    }
    out
}

/// Names of the gauges that are there, in the order they were first read: one that is gone comes back by being read again.
fn names(known: &[Known]) -> Vec<String> {
    let mut out: Vec<String> = Vec::new();
    for one in known {
        match out.iter().position(|name| *name == one.name) {
            Some(place) if one.mm.is_none() => drop(out.remove(place)),
            None if one.mm.is_some() => out.push(one.name.clone()),
            _ => {}
        }
    }
    out
}

/// Names of the gauges that these rounds know of.
pub(super) fn names_in(rounds: &[Entry]) -> Vec<String> {
    names(&known_of(rounds, "/round/gauges"))
}

/// All that the record knows of gauges, in its order, with one entry as a correction would have it.
fn history(store: &Store, corrected: Option<(Hash, &Value)>) -> Answer<Vec<Known>> {
    let mut out = Vec::new();
    for (kind, path) in [
        (Kind::RoundDone, "/round/gauges"),
        (Kind::LetDown, "/gauges"),
        (Kind::LookAfter, "/gauges"),
    ] {
        let mut entries = as_corrected(store.of_kind(kind)?);
        if let Some((hash, body)) = corrected
            && let Some(entry) = entries.iter_mut().find(|entry| entry.hash == hash)
        {
            entry.body = body.clone();
        }
        out.extend(known_of(&entries, path));
    }
    out.sort_by_key(|known| known.order);
    Ok(out)
}

/// Names of the gauges of a job, in the order they were first read.
pub(super) fn gauge_names(store: &Store) -> Answer<Vec<String>> {
    Ok(names(&history(store, None)?))
}

/// Every gauge that was read before has to be read again; says which have grown too much.
pub(super) fn gauges_moved(store: &Store, read: &[GaugeRead]) -> Answer<Vec<String>> {
    let history = history(store, None)?;
    let unread: Vec<String> = names(&history)
        .into_iter()
        .filter(|name| !read.iter().any(|gauge| gauge.name == *name))
        .collect();
    if !unread.is_empty() || read.iter().any(|gauge| !gauge.mm.is_finite()) {
        let words = format!("Read every gauge first: {}.", unread.join(", "));
        return Err(Failure::new("gauges_missing", words));
    }
    let before = |gauge: &GaugeRead| Before::of(history.iter().filter(|known| known.name == gauge.name));
    Ok(read
        .iter()
        .filter_map(|gauge| before(gauge).grown(&gauge.name, gauge.mm))
        .collect())
}

/// What a corrected reading brings to light: steps of a gauge that are too large with the correction and were not before.
pub(super) fn grown_by_correction(store: &Store, root: Hash, body: &Value) -> Answer<Vec<String>> {
    let before = steps(&history(store, None)?);
    let mut now = steps(&history(store, Some((root, body)))?);
    now.retain(|words| !before.contains(words));
    Ok(now)
}

/// Every step of a gauge that is too large, in words.
fn steps(history: &[Known]) -> Vec<String> {
    let mut before: HashMap<&str, Before> = HashMap::new();
    let mut out = Vec::new();
    for known in history {
        let read = before.entry(known.name.as_str()).or_default();
        out.extend(known.mm.and_then(|mm| read.grown(&known.name, mm)));
        read.add(known.mm);
    }
    out
}

/// What the gauges of a round read.
pub(super) fn gauges_of(entry: &Entry) -> Value {
    let rows = entry.body.pointer("/round/gauges").and_then(Value::as_array);
    let read = |row: &Value| Some(json!({ "name": row.get("name")?.as_str()?, "mm": row.get("mm")?.as_f64()? }));
    Value::Array(rows.into_iter().flatten().filter_map(read).collect())
}

/// What a gauge read at the start and last time comes from the record wherever it knows the gauge: what is handed in may
/// stem from a reading that was corrected since. `rounds` are those before in the order of the record and as they followed
/// each other; where these differ the lesser reading counts, so that growth never looks smaller than it may be.
pub(super) fn fill_gauges(gauges: Option<&mut Value>, rounds: [&[&Entry]; 2]) {
    let lesser = |[one, other]: [Option<f64>; 2]| Some(one?.min(other?));
    for row in gauges.and_then(Value::as_array_mut).into_iter().flatten() {
        let Some(row) = row.as_object_mut() else { continue };
        let Some(name) = row.get("name").and_then(Value::as_str) else {
            continue;
        };
        let known = rounds.map(|rounds| gauge_reads(rounds, name));
        let first = lesser(known.map(|before| before.start));
        let last = lesser(known.map(|before| before.last));
        for (key, mm) in [("first_mm", first), ("last_mm", last)] {
            if let Some(mm) = mm {
                row.insert(key.to_owned(), json!(mm));
            }
        }
    }
}

/// What a gauge read in these rounds, and at the start as far as each of them knew.
fn gauge_reads(rounds: &[&Entry], name: &str) -> Before {
    let mut before = Before::default();
    for round in rounds.iter().filter_map(|entry| entry.body.get("round")) {
        let rows = round.get("gauges").and_then(Value::as_array);
        let named = |row: &&Value| row.get("name").and_then(Value::as_str) == Some(name);
        for row in rows.into_iter().flatten().filter(named) {
            if let Some(mm) = row.get("mm").and_then(Value::as_f64) {
                before.read(row.get("first_mm").and_then(Value::as_f64).unwrap_or(mm), mm);
            }
        }
        if gone_in(round).any(|gone| gone == name) {
            before.gone();
        }
    }
    before
}

/// What was read at a gauge so far. One that is read again after it was gone may hang there anew with a zero of its own, or
/// may never have been gone: the lesser of both starts counts, so that growth never looks smaller than it may be.
#[derive(Clone, Copy, Default)]
struct Before {
    start: Option<f64>,
    last: Option<f64>,
    anew: bool,
}

impl Before {
    /// It read `mm`; `first` is what it read when it was put up, as far as that is known.
    fn read(&mut self, first: f64, mm: f64) {
        self.start = Some(match self.start {
            Some(start) if self.anew => start.min(mm),
            Some(start) => start,
            None => first,
        });
        self.last = Some(mm);
        self.anew = false;
    }

    fn gone(&mut self) {
        self.anew = true;
    }

    fn of<'a>(known: impl Iterator<Item = &'a Known>) -> Self {
        let mut before = Self::default();
        for one in known {
            before.add(one.mm);
        }
        before
    }

    fn add(&mut self, mm: Option<f64>) {
        match mm {
            Some(mm) => self.read(mm, mm),
            None => self.gone(),
        }
    }

    /// Says what the gauge has grown to `mm` where that is too much.
    fn grown(&self, name: &str, mm: f64) -> Option<String> {
        let start = self.start.map(|start| if self.anew { start.min(mm) } else { start })?;
        let (start, last) = (mm - start, mm - self.last?);
        crack_stops(last, start)
            .then(|| format!("{name}: grown {last:.1} mm since it was read last, {start:.1} mm since the start."))
    }
}
