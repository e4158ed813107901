//! Findings: what was found wrong, by a round or by hand, and whether it is put right.
//!
//! A finding stays open until a repair by someone who had seen it and, after that repair, a new reading by someone who had
//! seen the repair. Nothing here looks at a clock or at the order of import, so every phone comes to the same answer.

use super::meaning::meaning;
use super::readings::{Key, Reading, Round};
use super::seen::{Versions, saw};
use crate::record::{Entry, Hash, Kind};
use serde::Serialize;
use serde_json::Value;
use std::collections::HashSet;

/// One finding.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Finding {
    /// Names it, for a repair: the entry's hash, and for what a round found also the question and the prop.
    pub id: String,
    /// The entry that opened it.
    pub entry: Hash,
    /// When, as RFC 3339.
    pub at: String,
    /// `round` or `hand`.
    pub from: &'static str,
    /// Who wrote it down; empty where a round found it.
    pub name: String,
    /// The question of the round, or the category chosen by hand.
    pub code: String,
    /// The prop or gauge it is about; empty for the whole job.
    pub about: String,
    /// Where it is, as written by hand.
    pub place: String,
    /// What it is in a few words.
    pub title: String,
    /// What was found, in one sentence.
    pub words: String,
    /// What it means.
    pub means: String,
    /// What to do, in order.
    #[serde(rename = "do")]
    pub to_do: Vec<String>,
    /// Whether work stops until it is closed.
    pub stops: bool,
    /// Whether the engineer is rung.
    pub ring: bool,
    /// Photos named with it, by SHA-256.
    pub photos: Vec<String>,
    /// Later entries that found the same while it was open.
    pub again: Vec<Again>,
    /// Repairs that name it, in the order of the record.
    pub repairs: Vec<RepairLine>,
    /// Whether it still stands.
    pub open: bool,
    /// What it waits for: `repair`, `reading`, or nothing once it is closed.
    pub waits: &'static str,
    /// What it waits for, in words.
    pub waits_words: String,
    /// What closed it.
    pub closed: Option<Closed>,
}

/// The same finding in a later entry.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Again {
    /// The entry.
    pub entry: Hash,
    /// When, as RFC 3339.
    pub at: String,
}

/// A repair that names a finding.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct RepairLine {
    /// The entry.
    pub entry: Hash,
    /// When, as RFC 3339.
    pub at: String,
    /// Who did it.
    pub name: String,
    /// What was done.
    pub words: String,
    /// Photos named with it, by SHA-256.
    pub photos: Vec<String>,
    /// Whether it counts for all of the finding.
    pub counts: bool,
    /// Why it does not, in words.
    pub why_not: String,
}

/// What closed a finding.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Closed {
    /// The repair.
    pub repair: Hash,
    /// The round that found it right; the repair itself where its photo was enough.
    pub reading: Hash,
    /// When that was, as RFC 3339.
    pub at: String,
}

/// One entry that says something is wrong, with every pair of repair and reading that closes it.
pub(super) struct Fault<'a> {
    pub(super) entry: &'a Entry,
    pub(super) closings: Vec<(&'a Entry, &'a Entry)>,
}

/// A finding with the entries it stands on.
pub(super) struct Found<'a> {
    pub(super) finding: Finding,
    pub(super) faults: Vec<Fault<'a>>,
}

/// The id of what a round found.
fn id_of(round: Hash, key: &Key) -> String {
    format!("{round}/{}/{}", key.code, key.about)
}

/// The entry that an id begins with, and what it is about where a round found it.
fn key_of(id: &str) -> Option<(Hash, Option<Key>)> {
    let mut parts = id.splitn(3, '/');
    let root = parts.next()?.parse().ok()?;
    let key = match (parts.next(), parts.next()) {
        (Some(code), Some(about)) => Some(Key {
            code: code.to_owned(),
            about: about.to_owned(),
        }),
        _ => None,
    };
    Some((root, key))
}

fn text<'a>(entry: &'a Entry, key: &str) -> &'a str {
    entry.body.get(key).and_then(Value::as_str).unwrap_or_default()
}

pub(super) fn photos_of(entry: &Entry) -> Vec<String> {
    let photos = entry.body.get("photos").and_then(Value::as_array);
    let photos = photos.into_iter().flatten().filter_map(Value::as_str);
    photos.map(str::to_owned).collect()
}

/// A repair and what it names.
struct Repair<'a> {
    entry: &'a Entry,
    shown: &'a Entry,
    names: (Hash, Option<Key>),
}

/// Everything the findings are folded from.
pub(super) struct Fold<'a> {
    rounds: Vec<Round<'a>>,
    repairs: Vec<Repair<'a>>,
    /// Photos of the record, with the entries that added them.
    photos: Vec<(&'a str, &'a Entry)>,
    by_hand: Vec<Versions<'a>>,
}

impl<'a> Fold<'a> {
    /// Reads entries in fold order.
    pub(super) fn of(entries: &'a [Entry]) -> Self {
        let repair = |versions: Versions<'a>| {
            Some(Repair {
                entry: versions.root,
                shown: versions.shown(),
                // A correction mends the words; what is repaired stays.
                names: key_of(text(versions.root, "finding"))?,
            })
        };
        // A correction says what a photo shows; it adds none.
        let added = entries
            .iter()
            .filter(|entry| entry.kind == Kind::PhotoTaken && entry.corrects.is_none());
        Self {
            rounds: Round::all(entries),
            repairs: Versions::of_kind(entries, Kind::Repair)
                .into_iter()
                .filter_map(repair)
                .collect(),
            photos: added
                .filter_map(|entry| Some((entry.body.get("sha256")?.as_str()?, entry)))
                .collect(),
            by_hand: Versions::of_kind(entries, Kind::Finding),
        }
    }

    /// Every finding, in the order they were opened.
    pub(super) fn findings(&self) -> Vec<Found<'a>> {
        let mut out = self.of_rounds();
        out.extend(self.by_hand.iter().map(|versions| self.of_hand(versions)));
        out.sort_by_key(|found| found.faults.first().map(|fault| fault.entry.position));
        out
    }

    fn of_rounds(&self) -> Vec<Found<'a>> {
        let mut out: Vec<(Key, Found<'a>)> = Vec::new();
        for round in &self.rounds {
            let mut said: HashSet<&Key> = HashSet::new();
            for version in &round.versions {
                for no in &version.nos {
                    let fault = Fault {
                        entry: version.entry,
                        closings: self.closings(version, &no.key),
                    };
                    let again = Again {
                        entry: version.entry.hash,
                        at: version.entry.moment.rfc3339(),
                    };
                    // It is the same finding until it was closed before this reading's eyes.
                    let same = out.iter_mut().rev().find(|(key, _)| *key == no.key);
                    match same.filter(|(_, found)| !closed_before(found, version.entry)) {
                        Some((_, found)) => {
                            found.faults.push(fault);
                            found.finding.stops |= no.stops;
                            found.finding.ring |= no.ring;
                            if said.insert(&no.key) {
                                found.finding.again.push(again);
                            }
                        }
                        None => {
                            said.insert(&no.key);
                            let finding = Finding {
                                id: id_of(round.root.hash, &no.key),
                                stops: no.stops,
                                ring: no.ring,
                                ..opened(version.entry, "round", &no.key.code, &no.key.about, &no.words)
                            };
                            let found = Found {
                                finding,
                                faults: vec![fault],
                            };
                            out.push((no.key.clone(), found));
                        }
                    }
                }
            }
        }
        let finish = |(key, mut found): (Key, Found<'a>)| {
            let names = |repair: &&Repair<'a>| repair.names.1.as_ref() == Some(&key);
            let repairs: Vec<&Repair<'a>> = self.repairs.iter().filter(names).collect();
            settle(&mut found, &repairs);
            found
        };
        out.into_iter().map(finish).collect()
    }

    /// Pairs of a repair by someone who had seen this "no" and a later round, by someone who had seen the repair, that asked
    /// again and was told yes.
    fn closings(&self, no: &Reading<'a>, key: &Key) -> Vec<(&'a Entry, &'a Entry)> {
        let repairs = self
            .repairs
            .iter()
            .filter(|repair| repair.names.1.as_ref() == Some(key) && saw(repair.entry, no.entry));
        repairs
            .flat_map(|repair| {
                let after = self
                    .rounds
                    .iter()
                    .filter(|round| saw(round.root, repair.entry) && round.passes(key, no));
                after.map(|round| (repair.entry, round.root))
            })
            .collect()
    }

    fn of_hand(&self, versions: &Versions<'a>) -> Found<'a> {
        let (root, shown) = (versions.root, versions.shown());
        let code = match text(root, "category") {
            "" => "other",
            code => code,
        };
        let about = text(root, "prop");
        let known = meaning(code);
        let repairs: Vec<&Repair<'a>> = self
            .repairs
            .iter()
            .filter(|repair| repair.names == (root.hash, None))
            .collect();
        let closings = repairs
            .iter()
            .filter(|repair| saw(repair.entry, root))
            .flat_map(|repair| {
                let photo = !known.needs_round && self.has_photo(repair, root);
                let by_photo = photo.then_some((repair.entry, repair.entry));
                let after = self.rounds.iter().filter(|round| {
                    saw(round.root, repair.entry) && (round.passed() || (!about.is_empty() && round.clears(about)))
                });
                by_photo
                    .into_iter()
                    .chain(after.map(|round| (repair.entry, round.root)))
            });
        let fault = Fault {
            entry: root,
            closings: closings.collect(),
        };
        let finding = Finding {
            id: root.hash.to_string(),
            name: text(root, "name").to_owned(),
            place: text(shown, "where").to_owned(),
            stops: known.stops,
            ring: known.ring,
            photos: photos_of(root),
            ..opened(root, "hand", code, about, text(shown, "words"))
        };
        let mut found = Found {
            finding,
            faults: vec![fault],
        };
        settle(&mut found, &repairs);
        found
    }

    /// Whether a repair names a photo that was in the record when it was written, and was added by someone who had seen the
    /// finding: an older one shows what was there before.
    fn has_photo(&self, repair: &Repair<'_>, finding: &Entry) -> bool {
        photos_of(repair.entry).iter().any(|sha| {
            let mut added = self.photos.iter();
            added.any(|(other, entry)| other == sha && saw(repair.entry, entry) && saw(entry, finding))
        })
    }
}

/// Whether whoever wrote `entry` had seen every fault of a finding closed.
pub(super) fn closed_before(found: &Found<'_>, entry: &Entry) -> bool {
    found.faults.iter().all(|fault| {
        let mut closings = fault.closings.iter();
        closings.any(|(repair, reading)| {
            let knew = |other: &Entry| other.hash == entry.hash || saw(entry, other);
            knew(repair) && knew(reading)
        })
    })
}

fn opened(entry: &Entry, from: &'static str, code: &str, about: &str, words: &str) -> Finding {
    let known = meaning(code);
    Finding {
        id: String::new(),
        entry: entry.hash,
        at: entry.moment.rfc3339(),
        from,
        // Whoever did the round; what is written by hand has its own name.
        name: entry
            .body
            .pointer("/round/name")
            .and_then(serde_json::Value::as_str)
            .unwrap_or_default()
            .to_owned(),
        code: code.to_owned(),
        about: about.to_owned(),
        place: String::new(),
        title: known.title.to_owned(),
        words: words.to_owned(),
        means: known.means.to_owned(),
        to_do: known.to_do.iter().map(|&line| line.to_owned()).collect(),
        stops: false,
        ring: false,
        photos: Vec::new(),
        again: Vec::new(),
        repairs: Vec::new(),
        open: true,
        waits: "repair",
        waits_words: String::new(),
        closed: None,
    }
}

/// Fills in the repairs of a finding and whether they closed it.
fn settle(found: &mut Found<'_>, repairs: &[&Repair<'_>]) {
    let faults = &found.faults;
    let first = faults.first().map(|fault| fault.entry.position);
    let line = |repair: &&Repair<'_>| {
        let counts = faults.iter().all(|fault| saw(repair.entry, fault.entry));
        RepairLine {
            entry: repair.entry.hash,
            at: repair.entry.moment.rfc3339(),
            name: text(repair.shown, "name").to_owned(),
            words: text(repair.shown, "words").to_owned(),
            photos: photos_of(repair.entry),
            counts,
            why_not: if counts {
                String::new()
            } else {
                "Whoever wrote this down had not seen all of the finding: look at it again and write it down again."
                    .to_owned()
            },
        }
    };
    // A repair of an earlier time that the same question was found wrong belongs there.
    let of_this = repairs.iter().filter(|repair| Some(repair.entry.position) > first);
    found.finding.repairs = of_this.map(line).collect();
    let last = |fault: &Fault<'_>| {
        let first = fault.closings.iter().min_by_key(|(_, reading)| reading.position)?;
        Some((first.0.hash, first.1.hash, first.1.position, first.1.moment.rfc3339()))
    };
    let closings: Option<Vec<_>> = faults.iter().map(last).collect();
    let finding = &mut found.finding;
    let closed = closings.and_then(|all| all.into_iter().max_by_key(|(_, _, position, _)| *position));
    finding.closed = closed.map(|(repair, reading, _, at)| Closed { repair, reading, at });
    finding.open = finding.closed.is_none();
    (finding.waits, finding.waits_words) = waits(finding);
}

fn waits(finding: &Finding) -> (&'static str, String) {
    if !finding.open {
        return ("", String::new());
    }
    if finding.repairs.iter().any(|repair| repair.counts) {
        let asked = match (finding.about.as_str(), finding.from) {
            ("", "round") if finding.code == "wind" => {
                "a round that names a gust no harder than the braces were laid out for".to_owned()
            }
            ("", "round") if finding.code == "sideways" => {
                "a round of every prop in which this question passes".to_owned()
            }
            ("", "round") if finding.code == "out" => {
                "a round in which no door sticks and every gauge is read again".to_owned()
            }
            ("", "hand") => "a round in which everything passes".to_owned(),
            ("", _) => "a round in which this question passes".to_owned(),
            (about, _) => format!("a new reading of {about} with nothing wrong"),
        };
        return (
            "reading",
            format!("Put right, as written down. It closes with {asked}."),
        );
    }
    let words = "It waits for a repair: who did what, written down by someone who has this finding on their phone.";
    ("repair", words.to_owned())
}
