//! What a kept round said no to, and what it looked at.

use super::closers::CHAINS;
use super::gauges::{GAUGE_GONE, gone_in};
use super::meaning::meaning;
use super::seen::{Versions, count, saw};
use crate::record::{Entry, Hash, Kind};
use serde_json::Value;
use std::cell::OnceCell;
use std::collections::HashSet;

/// Reasons of an evaluation that are told but are no finding: a lean of the whole line that the braces still hold, and what
/// nobody looked at, which the next round asks for anyway.
pub(super) const TOLD_ONLY: [&str; 4] = ["line_leans", "not_read", "gauge_not_read", "wind_not_read"];

/// Two names of one question: doors that stick while cracks grow are written down as the graver one.
const DOORS: [&str; 2] = ["doors_stick", "out"];

/// Most colons that the name of a prop or gauge may hold to be known in a reason (own judgement).
const COLONS: usize = 16;

/// What a finding is about: a question, and the prop or gauge that it was asked of; nothing for the whole job.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub(super) struct Key {
    pub(super) code: String,
    pub(super) about: String,
}

impl Key {
    pub(super) fn of_gauge(&self) -> bool {
        self.code.starts_with("crack") || self.is_lost()
    }

    /// Whether a gauge is gone: a reading of another one put up in its place may then stand for it.
    pub(super) fn is_lost(&self) -> bool {
        self.code == GAUGE_GONE
    }
}

/// One "no".
#[derive(Clone, Debug)]
pub(super) struct No {
    pub(super) key: Key,
    pub(super) words: String,
    pub(super) stops: bool,
    pub(super) ring: bool,
}

/// One version of a round.
pub(super) struct Reading<'a> {
    pub(super) entry: &'a Entry,
    pub(super) nos: Vec<No>,
    /// The same to be looked up.
    said: HashSet<Key>,
    /// Whether one of them is not known what it is about, and whether one is of doors that stick.
    unclear: bool,
    doors: bool,
    passed: bool,
    /// Whether every prop was looked at.
    whole: bool,
    /// Whether a gust was named.
    wind: bool,
    props: HashSet<&'a str>,
    gauges: HashSet<&'a str>,
    /// Gauges that it said are gone.
    lost: HashSet<&'a str>,
    /// One hash over the gauges that were read, and one over these and the lost ones.
    hashes: [OnceCell<Hash>; 2],
}

/// A round with its versions.
pub(super) struct Round<'a> {
    pub(super) root: &'a Entry,
    /// Every version there ever was, in fold order, and whether it stands.
    pub(super) versions: Vec<(Reading<'a>, bool)>,
    /// What those that stand say no to.
    said: HashSet<Key>,
    /// Props and gauges that they found something wrong with, and whether any of it stops.
    wrong: HashSet<String>,
    stops: bool,
}

impl<'a> Round<'a> {
    /// Every round of the record, in fold order.
    pub(super) fn all(entries: &'a [Entry]) -> Vec<Self> {
        let read = |versions: Versions<'a>| {
            let standing: HashSet<Hash> = versions.standing.iter().map(|entry| entry.hash).collect();
            let read = versions.every.iter().map(|entry| Reading::of(entry));
            let mut round = Self {
                root: versions.root,
                versions: read
                    .map(|reading| {
                        let stands = standing.contains(&reading.entry.hash);
                        (reading, stands)
                    })
                    .collect(),
                said: HashSet::new(),
                wrong: HashSet::new(),
                stops: false,
            };
            let nos = || round.standing().flat_map(|version| &version.nos);
            let said = nos().map(|no| no.key.clone()).collect();
            let wrong = nos().map(|no| no.key.about.clone()).collect();
            let stops = nos().any(|no| no.stops);
            (round.said, round.wrong, round.stops) = (said, wrong, stops);
            round
        };
        Versions::of_kind(entries, Kind::RoundDone)
            .into_iter()
            .map(read)
            .collect()
    }

    /// The versions that stand.
    pub(super) fn standing(&self) -> impl Iterator<Item = &Reading<'a>> {
        self.versions
            .iter()
            .filter(|(_, stands)| *stands)
            .map(|(version, _)| version)
    }

    /// Whether a version that stands says no to this.
    pub(super) fn says(&self, key: &Key) -> bool {
        self.said.contains(key)
    }

    /// The versions that stand and were written by somebody who had seen `gone`; looked for in as many as there may be chains.
    pub(super) fn corrections_of(&self, gone: &Entry) -> impl Iterator<Item = &'a Entry> {
        self.standing()
            .take(CHAINS)
            .map(|version| version.entry)
            .filter(move |entry| saw(entry, gone))
    }

    /// Whether this round asked the question again that `no` was said to, and every version that stands says yes.
    pub(super) fn passes(&self, key: &Key, no: &Reading<'_>) -> bool {
        self.standing().all(|version| version.passes(key, no))
    }

    /// Whether everything passed.
    pub(super) fn passed(&self) -> bool {
        self.standing().all(|version| version.passed && version.nos.is_empty())
    }

    /// Whether this prop was looked at and nothing was wrong with it.
    pub(super) fn clears(&self, prop: &str) -> bool {
        !self.stops && !self.wrong.contains(prop) && self.standing().all(|version| version.props.contains(prop))
    }
}

impl<'a> Reading<'a> {
    fn of(entry: &'a Entry) -> Self {
        let names = |list: &str, key: &str| -> HashSet<&'a str> {
            let rows = entry.body.pointer(list).and_then(Value::as_array);
            rows.into_iter()
                .flatten()
                .filter_map(|row| row.get(key)?.as_str())
                .collect()
        };
        let mut reading = Self {
            entry,
            nos: Vec::new(),
            said: HashSet::new(),
            unclear: false,
            doors: false,
            passed: entry.body.pointer("/evaluation/passed").and_then(Value::as_bool) == Some(true),
            whole: !reasons_of(entry).any(|(code, _)| code == "not_read"),
            wind: entry
                .body
                .pointer("/round/job_checks/wind_m_s")
                .is_some_and(Value::is_number),
            props: names("/round/readings", "prop"),
            gauges: names("/round/gauges", "name"),
            lost: entry.body.get("round").into_iter().flat_map(gone_in).collect(),
            hashes: [OnceCell::new(), OnceCell::new()],
        };
        reading.evaluated();
        reading.answered();
        reading
    }

    /// The props and gauges that it read.
    pub(super) fn names(&self) -> impl Iterator<Item = &'a str> {
        self.props.iter().chain(&self.gauges).copied()
    }

    /// What closing a "no" of this version hangs on beside its question: whether a gust was counted, and the gauges it read, as
    /// one hash over their names.
    pub(super) fn hangs_on(&self, key: &Key) -> (bool, Option<Hash>) {
        let [read, known] = &self.hashes;
        let none = HashSet::new();
        let hashed = |cell: &OnceCell<Hash>, lost: &HashSet<&str>| {
            *cell.get_or_init(|| {
                let mut names: Vec<&str> = self.gauges.union(lost).copied().collect();
                names.sort_unstable();
                Hash::of(serde_json::json!(names).to_string().as_bytes())
            })
        };
        let gauges = match key.code.as_str() {
            "out" => Some(hashed(read, &none)),
            GAUGE_GONE => Some(hashed(known, &self.lost)),
            _ => None,
        };
        (key.code == "sideways" && self.wind, gauges)
    }

    fn passes(&self, key: &Key, no: &Reading<'_>) -> bool {
        count();
        let doors = self.doors && DOORS.contains(&key.code.as_str());
        self.looked(key, no) && !self.said.contains(key) && !self.unclear && !doors
    }

    /// Whether this version looked at what `no` found. What a round leaves out it says nothing of: one that reads a single
    /// prop, no gust or no gauge closes nothing that hangs on the others.
    fn looked(&self, key: &Key, no: &Reading<'_>) -> bool {
        if key.is_lost() {
            // The same gauge read again, or one that was not there when it went.
            let new = |name: &&str| !no.gauges.contains(name) && !no.lost.contains(name);
            return self.gauges.contains(key.about.as_str()) || self.gauges.iter().any(new);
        }
        if !key.about.is_empty() {
            if key.of_gauge() {
                return self.gauges.contains(key.about.as_str());
            }
            // A prop that a passed round does not name is no longer part of the support: it asked every one that is.
            return self.props.contains(key.about.as_str()) || self.passed;
        }
        match key.code.as_str() {
            "wind" => self.wind,
            // The leans of all props make the force, and the gust where one was counted.
            "sideways" => self.whole && (self.wind || !no.wind),
            "out" => no.gauges.is_subset(&self.gauges),
            "unclear" => self.passed,
            _ => true,
        }
    }

    fn add(&mut self, code: &str, about: &str, words: &str, says_stop: bool) {
        let key = Key {
            code: code.to_owned(),
            about: about.to_owned(),
        };
        if !self.said.insert(key.clone()) {
            return;
        }
        self.unclear |= code == "unclear";
        self.doors |= DOORS.contains(&code);
        let meaning = meaning(code);
        self.nos.push(No {
            key,
            words: words.to_owned(),
            stops: meaning.stops && says_stop,
            ring: meaning.ring && says_stop,
        });
    }

    /// The reasons of the evaluation.
    fn evaluated(&mut self) {
        if self.passed {
            return;
        }
        let entry = self.entry;
        // What cannot be read counts as a stop.
        let says_stop = entry.body.pointer("/evaluation/stop").and_then(Value::as_bool) != Some(false);
        let reasons: Vec<(&str, &str)> = reasons_of(entry).collect();
        for (code, words) in &reasons {
            if !TOLD_ONLY.contains(code) {
                let about = self.named_in(words);
                self.add(code, about, words, says_stop);
            }
        }
        if reasons.is_empty() {
            self.add(
                "unclear",
                "",
                "The round is not passed and does not say why.",
                says_stop,
            );
        }
    }

    /// The plain answers themselves: a "no" is a finding whatever the evaluation made of it.
    fn answered(&mut self) {
        let entry = self.entry;
        let rows = entry.body.pointer("/round/readings").and_then(Value::as_array);
        for row in rows.into_iter().flatten() {
            let Some(prop) = row.get("prop").and_then(Value::as_str) else {
                continue;
            };
            if row.get("pin").and_then(Value::as_str).is_some_and(|pin| pin != "right") {
                self.add(
                    "pin",
                    prop,
                    &format!("{prop}: the pin is not the right one, all the way in."),
                    true,
                );
            }
            for (key, code) in [
                ("foot_firm", "foot"),
                ("straight", "bent"),
                ("fixed", "fixed"),
                ("packed", "packed"),
            ] {
                if row.get(key).and_then(Value::as_bool) == Some(false) {
                    self.add(
                        code,
                        prop,
                        &format!("{prop}: {}.", meaning(code).title.to_lowercase()),
                        true,
                    );
                }
            }
        }
        for (key, good, code) in [
            ("braces", true, "braces"),
            ("doors_stick", false, "doors_stick"),
            ("load_on_floors", false, "load_on_floors"),
            ("digging", false, "digging"),
        ] {
            let said = entry
                .body
                .pointer("/round/job_checks")
                .and_then(|checks| checks.get(key)?.as_bool());
            // Doors that stick while cracks grow are one finding, the graver one.
            let graver = code == "doors_stick" && self.nos.iter().any(|no| no.key.code == "out");
            if said == Some(!good) && !graver {
                self.add(code, "", &format!("{}.", meaning(code).title), true);
            }
        }
    }

    /// The prop or gauge that a reason begins with.
    fn named_in(&self, words: &str) -> &'a str {
        let named = |name: &str| {
            [&self.props, &self.gauges, &self.lost]
                .into_iter()
                .find_map(|names| names.get(name))
        };
        let ends = words.match_indices(':').take(COLONS);
        let begins = ends.filter_map(|(end, _)| named(words.get(..end)?));
        begins.last().copied().unwrap_or("")
    }
}

/// Code and words of every reason of an evaluation.
fn reasons_of(entry: &Entry) -> impl Iterator<Item = (&str, &str)> {
    let reasons = entry.body.pointer("/evaluation/reasons").and_then(Value::as_array);
    reasons
        .into_iter()
        .flatten()
        .filter_map(|reason| Some((reason.get("code")?.as_str()?, reason.get("words")?.as_str()?)))
}
