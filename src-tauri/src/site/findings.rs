//! Findings: what was found wrong, by a round or by hand, and whether it is put right.
//!
//! A finding stays open until a repair by someone who had seen it and, after that repair, a new reading by someone who had
//! seen the repair. Nothing here looks at a clock or at the order of import, so every phone comes to the same answer.

use super::closers::{By, Chains, Closers, Pair, add_to};
use super::finding::{Again, Closed, CorrectedAway, Finding, RepairLine};
use super::meaning::meaning;
use super::readings::{Key, Reading, Round};
use super::seen::{Versions, saw};
use crate::record::{Entry, Hash, Kind};
use serde_json::Value;
use std::cell::Cell;
use std::collections::{HashMap, HashSet};
use uuid::Uuid;

/// One entry that says something is wrong, with the pairs of repair and reading that close it.
pub(super) struct Fault<'a> {
    pub(super) entry: &'a Entry,
    pub(super) closings: Vec<Pair<'a>>,
    /// The correction that says yes instead, where no version that stands says it any more.
    corrected: Option<&'a Entry>,
}

/// A finding with the entries it stands on.
pub(super) struct Found<'a> {
    pub(super) finding: Finding,
    pub(super) faults: Vec<Fault<'a>>,
    /// The fault that kept it open in the eyes of whoever was asked about last: the next one is mostly kept by the same.
    held_by: Cell<usize>,
    /// Of each chain the last fault: whoever had seen that one had seen those before it.
    heads: HashMap<Uuid, &'a Entry>,
    /// The last repair and reading of the same two chains that close every fault: whoever knows these knows all of it closed.
    all: Vec<Pair<'a>>,
}

impl<'a> Found<'a> {
    fn new(finding: Finding, fault: Fault<'a>) -> Self {
        let mut found = Self {
            finding,
            faults: Vec::new(),
            held_by: Cell::new(0),
            heads: HashMap::new(),
            all: fault.closings.clone(),
        };
        found.add(fault);
        found
    }

    fn add(&mut self, fault: Fault<'a>) {
        let entry = fault.entry;
        let head = self.heads.entry(entry.device).or_insert(entry);
        if entry.seq > head.seq {
            *head = entry;
        }
        self.all.retain_mut(|(repair, reading)| {
            let same = |pair: &&Pair<'a>| pair.0.device == repair.device && pair.1.device == reading.device;
            let other = fault.closings.iter().find(same).copied();
            if let Some((later, last)) = other {
                *repair = if later.seq > repair.seq { later } else { repair };
                *reading = if last.seq > reading.seq { last } else { reading };
            }
            other.is_some()
        });
        self.faults.push(fault);
    }

    /// Whether whoever wrote `entry` had seen all of it.
    pub(super) fn known_to(&self, entry: &Entry) -> bool {
        self.heads.values().all(|head| saw(entry, head))
    }
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

/// A repair as written and as corrected.
#[derive(Clone, Copy)]
struct Repair<'a> {
    entry: &'a Entry,
    shown: &'a Entry,
}

/// Everything the findings are folded from.
pub(super) struct Fold<'a> {
    rounds: Vec<Round<'a>>,
    /// Repairs in fold order by what they name: what a round found, and what was written down by hand.
    of_key: HashMap<Key, Vec<Repair<'a>>>,
    of_entry: HashMap<Hash, Vec<Repair<'a>>>,
    /// The same in chains.
    key_chains: By<Key, &'a Entry>,
    entry_chains: By<Hash, &'a Entry>,
    /// Photos of the record, with the entries that added them.
    photos: By<&'a str, &'a Entry>,
    by_hand: Vec<Versions<'a>>,
}

impl<'a> Fold<'a> {
    /// Reads entries in fold order.
    pub(super) fn of(entries: &'a [Entry]) -> Self {
        let mut fold = Self {
            rounds: Round::all(entries),
            of_key: HashMap::new(),
            of_entry: HashMap::new(),
            key_chains: By::new(),
            entry_chains: By::new(),
            photos: By::new(),
            by_hand: Versions::of_kind(entries, Kind::Finding),
        };
        for versions in Versions::of_kind(entries, Kind::Repair) {
            let repair = Repair {
                entry: versions.root,
                shown: versions.shown(),
            };
            let device = repair.entry.device;
            // A correction mends the words; what is repaired stays.
            match key_of(text(repair.entry, "finding")) {
                Some((_, Some(key))) => {
                    add_to(&mut fold.key_chains, key.clone(), device, repair.entry);
                    fold.of_key.entry(key).or_default().push(repair);
                }
                Some((root, None)) => {
                    add_to(&mut fold.entry_chains, root, device, repair.entry);
                    fold.of_entry.entry(root).or_default().push(repair);
                }
                None => {}
            }
        }
        // A correction says what a photo shows; it adds none.
        let added = entries
            .iter()
            .filter(|entry| entry.kind == Kind::PhotoTaken && entry.corrects.is_none());
        for entry in added {
            if let Some(sha) = entry.body.get("sha256").and_then(Value::as_str) {
                add_to(&mut fold.photos, sha, entry.device, entry);
            }
        }
        fold
    }

    /// Every finding, in the order they were opened.
    pub(super) fn findings(&self) -> Vec<Found<'a>> {
        let mut closers = Closers::of(&self.rounds);
        let mut out = self.of_rounds(&mut closers);
        out.extend(self.by_hand.iter().map(|versions| self.of_hand(versions, &mut closers)));
        out.sort_by_key(|found| found.faults.first().map(|fault| fault.entry.position));
        out
    }

    fn of_rounds(&self, closers: &mut Closers<'_, 'a>) -> Vec<Found<'a>> {
        let mut out: Vec<(&Key, Found<'a>)> = Vec::new();
        // The last finding of each question.
        let mut last: HashMap<&Key, usize> = HashMap::new();
        for round in &self.rounds {
            let mut said: HashSet<&Key> = HashSet::new();
            for (version, stands) in &round.versions {
                let told = version.nos.iter().filter(|no| *stands || !round.says(&no.key));
                for no in told {
                    let fault = self.fault(round, version, *stands, &no.key, closers);
                    let first = said.insert(&no.key);
                    // It is the same finding until it was closed before this reading's eyes.
                    let same = last.get(&no.key).and_then(|place| out.get_mut(*place));
                    match same.filter(|(_, found)| !closed_before(found, version.entry)) {
                        Some((_, found)) => {
                            found.add(fault);
                            found.finding.stops |= no.stops;
                            found.finding.ring |= no.ring;
                            if first {
                                found.finding.again.push(Again {
                                    entry: version.entry.hash,
                                    at: version.entry.moment.rfc3339(),
                                });
                            }
                        }
                        None => {
                            let finding = Finding {
                                id: id_of(round.root.hash, &no.key),
                                stops: no.stops,
                                ring: no.ring,
                                ..opened(version.entry, "round", &no.key.code, &no.key.about, &no.words)
                            };
                            last.insert(&no.key, out.len());
                            out.push((&no.key, Found::new(finding, fault)));
                        }
                    }
                }
            }
        }
        let finish = |(key, mut found): (&Key, Found<'a>)| {
            settle(&mut found, self.of_key.get(key).map_or(&[], Vec::as_slice));
            found
        };
        out.into_iter().map(finish).collect()
    }

    /// One "no" of a version of a round, and what closes it: a repair and a new reading. What a correction says yes to is no
    /// way round that: a new reading by somebody who had seen the correction closes it too, the correction alone does not.
    fn fault(
        &self,
        round: &Round<'a>,
        version: &Reading<'a>,
        stands: bool,
        key: &Key,
        closers: &mut Closers<'_, 'a>,
    ) -> Fault<'a> {
        let none = Chains::default();
        let repairs = self.key_chains.get(key).unwrap_or(&none);
        let mut closings = closers.of_no(version, key, repairs);
        let mut corrections = Chains::default();
        let mut corrected = None;
        if !stands {
            for correction in round.corrections_of(version.entry) {
                corrections.add(correction.device, correction);
                corrected = Some(correction);
            }
            closings.extend(closers.of_no(version, key, &corrections));
        }
        Fault {
            entry: version.entry,
            closings,
            corrected,
        }
    }

    fn of_hand(&self, versions: &Versions<'a>, closers: &mut Closers<'_, 'a>) -> Found<'a> {
        let (root, shown) = (versions.root, versions.shown());
        let code = match text(root, "category") {
            "" => "other",
            code => code,
        };
        let about = text(root, "prop");
        let known = meaning(code);
        let repairs = self.of_entry.get(&root.hash).map_or(&[][..], Vec::as_slice);
        let by_photo = repairs
            .iter()
            .filter(|repair| !known.needs_round && saw(repair.entry, root) && self.has_photo(repair, root))
            .map(|repair| (repair.entry, repair.entry));
        let mut closings: Vec<Pair<'a>> = by_photo.collect();
        if let Some(chains) = self.entry_chains.get(&root.hash) {
            closings.extend(closers.of_hand(root, about, chains));
        }
        let fault = Fault {
            entry: root,
            closings,
            corrected: None,
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
        let mut found = Found::new(finding, fault);
        settle(&mut found, repairs);
        found
    }

    /// Whether a repair names a photo that was in the record when it was written, and was added by someone who had seen the
    /// finding: an older one shows what was there before.
    fn has_photo(&self, repair: &Repair<'_>, finding: &Entry) -> bool {
        photos_of(repair.entry).iter().any(|sha| {
            // Of each chain the first that had seen the finding is the one that a repair has likeliest seen.
            let added = self.photos.get(sha.as_str());
            let mut added = added.into_iter().flat_map(|chains| chains.after(finding));
            added.any(|entry| saw(repair.entry, entry))
        })
    }
}

/// Whether whoever wrote `entry` had seen every fault of a finding closed.
pub(super) fn closed_before(found: &Found<'_>, entry: &Entry) -> bool {
    let knew = |other: &Entry| other.hash == entry.hash || saw(entry, other);
    let closed = |fault: &Fault<'_>| {
        let mut closings = fault.closings.iter();
        closings.any(|(repair, reading)| knew(repair) && knew(reading))
    };
    let held = found.faults.get(found.held_by.get());
    if held.is_some_and(|fault| !closed(fault)) {
        return false;
    }
    if found.all.iter().any(|(repair, reading)| knew(repair) && knew(reading)) {
        return true;
    }
    // The last one is the likeliest to be open still.
    match found.faults.iter().rposition(|fault| !closed(fault)) {
        Some(place) => {
            found.held_by.set(place);
            false
        }
        None => true,
    }
}

/// Who wrote a correction: whoever held the phone then, not whoever did the round.
fn corrected_by(entry: &Entry) -> String {
    let name = text(entry, crate::record::WRITTEN_BY).trim();
    match name {
        "" => super::signed_by(entry).unwrap_or_default().to_owned(),
        name => name.to_owned(),
    }
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
        corrected: None,
    }
}

/// Fills in the repairs of a finding and whether they closed it.
fn settle(found: &mut Found<'_>, repairs: &[Repair<'_>]) {
    let faults = &found.faults;
    let last = |fault: &Fault<'_>| {
        let first = fault
            .closings
            .iter()
            .min_by_key(|(repair, reading)| (reading.position, repair.position))?;
        Some((first.0.hash, first.1.hash, first.1.position, first.1.moment.rfc3339()))
    };
    let closings: Option<Vec<_>> = faults.iter().map(last).collect();
    let closed = closings.and_then(|all| all.into_iter().max_by_key(|(_, _, position, _)| *position));
    let line = |repair: &Repair<'_>| {
        let counts = found.known_to(repair.entry);
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
    // A repair of another time that the same question was found wrong belongs there.
    let first = faults.first().map_or(0, |fault| fault.entry.position);
    let from = repairs.partition_point(|repair| repair.entry.position <= first);
    let until = closed.as_ref().map_or(i64::MAX, |(_, _, position, _)| *position);
    let of_this = repairs.iter().skip(from);
    found.finding.repairs = of_this
        .take_while(|repair| repair.entry.position <= until)
        .map(line)
        .collect();
    let mut corrected = faults.iter().map(|fault| fault.corrected);
    let all = corrected.clone().all(|correction| correction.is_some());
    found.finding.corrected = corrected
        .next_back()
        .flatten()
        .filter(|_| all)
        .map(|entry| CorrectedAway {
            entry: entry.hash,
            at: entry.moment.rfc3339(),
            name: corrected_by(entry),
        });
    let finding = &mut found.finding;
    finding.closed = closed.map(|(repair, reading, _, at)| Closed { repair, reading, at });
    finding.open = finding.closed.is_none();
    (finding.waits, finding.waits_words) = waits(finding);
}

fn waits(finding: &Finding) -> (&'static str, String) {
    if !finding.open {
        return ("", String::new());
    }
    let repaired = finding.repairs.iter().any(|repair| repair.counts);
    if repaired || finding.corrected.is_some() {
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
        let words = match &finding.corrected {
            Some(_) if !repaired => {
                format!(
                    "Corrected since: it was no, and now it says yes. It closes with {asked}, not with the correction."
                )
            }
            _ => format!("Put right, as written down. It closes with {asked}."),
        };
        return ("reading", words);
    }
    let words = "It waits for a repair: who did what, written down by someone who has this finding on their phone.";
    ("repair", words.to_owned())
}
