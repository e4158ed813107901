//! Which repair and which later reading close what was found, looked up chain by chain: a record that somebody hands over may
//! hold tens of thousands of each, and every pair of them would be too many.

use super::readings::{Key, Reading, Round};
use super::seen::saw;
use crate::record::{self, Entry};
use std::collections::HashMap;
use std::hash::Hash;
use uuid::Uuid;

/// Most chains in which a closing is looked for. A job has a few phones; in a record of more chains than this what later ones
/// say closes nothing, which is the careful side.
pub(super) const CHAINS: usize = 64;
/// Most questions that hang on gauges for which an answer is looked for in every round; those beyond stay open.
const GAUGES: usize = 64;

/// Things of a few chains, each chain's in its own order.
#[derive(Clone, Debug)]
pub(super) struct Chains<T>(Vec<(Uuid, Vec<T>)>);

impl<T> Default for Chains<T> {
    fn default() -> Self {
        Self(Vec::new())
    }
}

impl<T> Chains<T> {
    /// Adds what a device wrote after all that was added of it before.
    pub(super) fn add(&mut self, device: Uuid, one: T) {
        if let Some((_, all)) = self.0.iter_mut().find(|(other, _)| *other == device) {
            all.push(one);
        } else if self.0.len() < CHAINS {
            self.0.push((device, vec![one]));
        }
    }
}

impl<'a> Chains<&'a Entry> {
    /// Of each chain the first entry by somebody who had seen `entry`. A phone forgets nothing, so within a chain those who
    /// had seen it are the later ones; where a chain says otherwise it may be passed over, never taken wrongly.
    pub(super) fn after<'b>(&'b self, entry: &'b Entry) -> impl Iterator<Item = &'a Entry> + 'b {
        self.0.iter().filter_map(move |(_, all)| {
            let at = all.partition_point(|one| !saw(one, entry));
            all.get(at).copied().filter(|one| saw(one, entry))
        })
    }
}

/// Things by what they are about, each in chains.
pub(super) type By<K, T> = HashMap<K, Chains<T>>;

/// Adds to one of them.
pub(super) fn add_to<K: Eq + Hash, T>(map: &mut By<K, T>, key: K, device: Uuid, one: T) {
    map.entry(key).or_default().add(device, one);
}

/// What a reading has to have asked and found right.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
enum Asked {
    /// What a round said no to: the question, whether a gust was counted in it, and the gauges that it hangs on.
    No(Key, bool, Option<record::Hash>),
    /// What was written down by hand about a prop.
    Hand(String),
}

/// Looks up which readings close what.
pub(super) struct Closers<'r, 'a> {
    rounds: &'r [Round<'a>],
    /// Rounds by the prop or gauge that they read.
    reading: HashMap<&'a str, Vec<usize>>,
    /// Rounds in which everything passed.
    clean: Chains<&'a Entry>,
    /// What was looked up before.
    known: HashMap<Asked, Chains<&'a Entry>>,
    /// How many of these hung on gauges.
    gauges: usize,
}

impl<'r, 'a> Closers<'r, 'a> {
    /// `rounds` are in fold order.
    pub(super) fn of(rounds: &'r [Round<'a>]) -> Self {
        let mut reading: HashMap<&'a str, Vec<usize>> = HashMap::new();
        let mut clean = Chains::default();
        for (place, round) in rounds.iter().enumerate() {
            for name in round.standing().flat_map(Reading::names) {
                let places = reading.entry(name).or_default();
                if places.last() != Some(&place) {
                    places.push(place);
                }
            }
            if round.passed() {
                clean.add(round.root.device, round.root);
            }
        }
        Self {
            rounds,
            reading,
            clean,
            known: HashMap::new(),
            gauges: 0,
        }
    }

    /// Pairs of a repair by somebody who had seen `entry`, and a later reading by somebody who had seen the repair, that
    /// asked again what `no` said no to and was told yes.
    pub(super) fn of_no(&mut self, no: &Reading<'a>, key: &Key, repairs: &Chains<&'a Entry>) -> Vec<Pair<'a>> {
        let (wind, gauges) = no.hangs_on(key);
        let asked = Asked::No(key.clone(), wind, gauges);
        let (rounds, reading) = (self.rounds, &self.reading);
        if gauges.is_some() && !self.known.contains_key(&asked) {
            self.gauges += 1;
        }
        let in_every = gauges.is_some() && self.gauges <= GAUGES;
        let is_known = super::meaning::is_known(&key.code);
        let found = self.known.entry(asked).or_insert_with(|| {
            let mut found = Chains::default();
            let mut add = |round: &Round<'a>| {
                if round.passes(key, no) {
                    found.add(round.root.device, round.root);
                }
            };
            if in_every || (is_known && key.about.is_empty() && gauges.is_none()) {
                rounds.iter().for_each(&mut add);
            } else if is_known && !key.about.is_empty() {
                let places = reading.get(key.about.as_str()).into_iter().flatten();
                places.filter_map(|place| rounds.get(*place)).for_each(&mut add);
            }
            found
        });
        // A prop that a passed round does not name is no longer part of the support: it asked every one that is. What this
        // version has no words for is closed by a round in which everything passes and nothing else.
        let of_clean = !is_known || (!key.about.is_empty() && !key.of_gauge());
        let none = Chains::default();
        pairs(no.entry, repairs, [found, if of_clean { &self.clean } else { &none }])
    }

    /// The same for what was written down by hand: a round in which everything passes, or one that clears the prop.
    pub(super) fn of_hand(&mut self, entry: &Entry, about: &str, repairs: &Chains<&'a Entry>) -> Vec<Pair<'a>> {
        let (rounds, reading) = (self.rounds, &self.reading);
        let found = self.known.entry(Asked::Hand(about.to_owned())).or_insert_with(|| {
            let mut found = Chains::default();
            let places = reading.get(about).into_iter().flatten();
            for round in places.filter_map(|place| rounds.get(*place)) {
                if round.clears(about) {
                    found.add(round.root.device, round.root);
                }
            }
            found
        });
        pairs(entry, repairs, [found, &self.clean])
    }
}

/// A repair and the reading after it.
pub(super) type Pair<'a> = (&'a Entry, &'a Entry);

/// Of each chain of readings the first that closes `entry`. Whoever knows a later one of the same chain knows that one too.
fn pairs<'a>(entry: &Entry, repairs: &Chains<&'a Entry>, readings: [&Chains<&'a Entry>; 2]) -> Vec<Pair<'a>> {
    let mut out: Vec<Pair<'a>> = Vec::new();
    for repair in repairs.after(entry) {
        for reading in readings.iter().flat_map(|chains| chains.after(repair)) {
            match out.iter_mut().find(|(_, other)| other.device == reading.device) {
                Some(pair) if reading.seq < pair.1.seq => *pair = (repair, reading),
                Some(_) => {}
                None => out.push((repair, reading)),
            }
        }
    }
    out
}
