//! What would help where nothing holds, or where an answer is close to its limit.
//!
//! Nothing here is guessed: each change is made to the job as described, the whole search is run on it, and it is told only
//! if the answer comes out better. Of each kind the least change that helps is told. Where no single change helps, pairs are
//! tried. A change is told in one sentence, with what the answer would be then.

mod changes;

use crate::answer::size;
use crate::job::Job;
use crate::proposal::{Check, Opt, Proposal, Standing};
use crate::source::{Seen, Source};
use changes::{Change, changes};
use serde::Serialize;

/// Most changes that are told: more would be a list to choose from, not advice.
const TOLD: usize = 3;

/// Where an answer of these trials rests when no check decides it.
const OWN: Source = Source::new(
    "the tool's own search",
    "every change tried by the same checks",
    Seen::Own,
);

/// A change that was tried and helps.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Help {
    /// Stable codes of what was changed: one, or two where only both together help.
    pub codes: Vec<String>,
    /// What to change, one sentence each.
    pub words: Vec<String>,
    /// The fields to change for it, as JSON pointers; empty where it is chosen otherwise.
    pub paths: Vec<String>,
    /// What the answer would be.
    pub standing: Standing,
    /// Reasons that would no longer stand against it, in words; empty where nothing holds before.
    pub away: Vec<String>,
    /// Share of what the weakest part could do that would be used.
    pub worst_utilisation: f64,
    /// From the change to its answer.
    pub steps: Vec<String>,
    /// Rule of the check that would decide.
    pub source: Source,
}

/// What was tried, and what of it helps.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Helps {
    /// How many changed jobs were searched.
    pub tried: usize,
    /// The changes that help most for the least effort, the best first; at most three.
    pub helps: Vec<Help>,
}

/// Tries what would help a job whose answer is `before`; none where it holds, or where it needs its own design: there the
/// reasons say what is to be done, and no trial may stand beside them.
#[must_use]
pub fn helps(job: &Job, before: &Proposal) -> Option<Helps> {
    if !matches!(before.standing, Standing::Close | Standing::DoesNotHold) {
        return None;
    }
    let mut trials = Trials {
        job,
        before,
        rank: rank(before),
        tried: 0,
    };
    let groups = changes(job, before);
    let mut found: Vec<Help> = groups.iter().filter_map(|group| trials.least(group)).collect();
    if found.is_empty() && before.standing == Standing::DoesNotHold {
        found = trials.pairs(&groups);
    }
    // The groups come in order of effort, and a stable sort keeps that order among equals.
    found.sort_by_key(|help| help.standing != Standing::Holds);
    found.truncate(TOLD);
    Some(Helps {
        tried: trials.tried,
        helps: found,
    })
}

/// How far an answer is from holding: its standing, then how many reasons stand against it.
fn rank(proposal: &Proposal) -> (u8, usize) {
    let standing = match proposal.standing {
        Standing::Holds => 0,
        Standing::Close => 1,
        Standing::DoesNotHold => 2,
        Standing::NeedsOwnDesign => 3,
    };
    // What fails in the nearest arrangement differs with the arrangement: only passing answers are told apart by reasons.
    let reasons = if standing == 1 { proposal.reasons.len() } else { 0 };
    (standing, reasons)
}

struct Trials<'a> {
    job: &'a Job,
    before: &'a Proposal,
    rank: (u8, usize),
    tried: usize,
}

impl Trials<'_> {
    /// The job with these changes, if its answer is better.
    fn answer(&mut self, made: &[&Change]) -> Option<Help> {
        self.tried += 1;
        let mut job = self.job.clone();
        // What a builder proposes is judged for itself and changes no answer.
        job.builders_plan = None;
        for change in made {
            (change.make)(&mut job);
        }
        let after = size(&job, Vec::new()).ok()?;
        let option = after.options.first()?;
        (rank(&after) < self.rank).then(|| told(made, self.before, &after, option))
    }

    /// The least change of one kind that helps.
    fn least(&mut self, group: &[Change]) -> Option<Help> {
        group.iter().find_map(|change| self.answer(&[change]))
    }

    /// Two kinds together, where the largest change of each does it: then the least of both that still does.
    fn pairs(&mut self, groups: &[Vec<Change>]) -> Vec<Help> {
        let mut out = Vec::new();
        for (i, one) in groups.iter().enumerate() {
            for other in groups.iter().skip(i + 1) {
                let (Some(most), Some(also)) = (one.last(), other.last()) else {
                    continue;
                };
                let Some(whole) = self.answer(&[most, also]) else {
                    continue;
                };
                let least = one
                    .iter()
                    .flat_map(|a| other.iter().map(move |b| [a, b]))
                    .find_map(|both| self.answer(&both));
                out.push(least.unwrap_or(whole));
                if out.len() == TOLD {
                    return out;
                }
            }
        }
        out
    }
}

fn told(made: &[&Change], before: &Proposal, after: &Proposal, option: &Opt) -> Help {
    let gone = |code: &str| after.reasons.iter().all(|reason| reason.code != code);
    let away = before
        .reasons
        .iter()
        .filter(|reason| before.standing == Standing::Close && gone(&reason.code))
        .map(|reason| reason.words.clone())
        .collect();
    let decides = decider(option);
    let mut steps: Vec<String> = made.iter().map(|change| format!("Changed: {}", change.words)).collect();
    steps.push("Nothing else was changed, and the whole search was run again.".to_owned());
    steps.extend(decides.map(|check| {
        format!(
            "What then decides: {} at {}, asked {:.2} {}, there is {:.2} {}: used {:.0} %.",
            check.name.replace('_', " "),
            check.at,
            check.demand,
            check.unit,
            check.resistance,
            check.unit,
            check.utilisation * 100.0
        )
    }));
    Help {
        codes: made.iter().map(|change| change.code.to_owned()).collect(),
        words: made.iter().map(|change| change.words.clone()).collect(),
        paths: made.iter().filter_map(|change| change.path.clone()).collect(),
        standing: after.standing,
        away,
        worst_utilisation: option.worst_utilisation,
        steps,
        source: decides.map_or(OWN, |check| check.source),
    }
}

/// The check that the option names as what decides.
fn decider(option: &Opt) -> Option<&Check> {
    let lines = option.floor_lines.iter().flat_map(|line| &line.checks);
    option
        .checks
        .iter()
        .chain(lines)
        .find(|check| option.governs == format!("{} at {}", check.name, check.at))
}

#[cfg(test)]
mod tests;
