//! From the fields of the screens to a proposal with its drawings.

use super::derived::{self, Derived};
use super::hire::{Hire, hire};
use crate::form::{self, Fields};
use calc::brief::Brief;
use calc::helps::Helps;
use calc::order::{Question, questions};
use calc::proposal::Opt;
use calc::{Job, Problem, Proposal};
use serde::Serialize;
use serde_json::{Value, json};

/// What the description gives.
#[derive(Clone, Debug, Serialize)]
pub struct Figure {
    /// The job assembled from the fields.
    pub job: Value,
    /// What is wrong with it; nothing is computed then.
    pub problems: Vec<Problem>,
    /// The answer.
    pub proposal: Option<Proposal>,
    /// The wall as described, one sentence each.
    pub words: Vec<String>,
    /// Drawings.
    pub sketches: Sketches,
    /// What to ask an engineer, where the answer is not plainly that it holds.
    pub brief: Option<Brief>,
    /// What to ask the builder, in writing, before hiring.
    pub questions: Vec<Question>,
    /// What is fetched for the option that is drawn; nothing for one that does not pass.
    pub hire: Option<Hire>,
    /// Where its figures come from, beside its checks.
    pub derived: Vec<Derived>,
}

/// Drawings as SVG text.
#[derive(Clone, Debug, Default, Serialize)]
pub struct Sketches {
    /// The house above, with the weight along the wall.
    pub stack: Option<String>,
    /// The support from the front.
    pub front: Option<String>,
    /// The support from the side.
    pub side: Option<String>,
    /// The support from above.
    pub plan: Option<String>,
}

impl Sketches {
    /// The three drawings of one arrangement.
    #[must_use]
    pub fn of(job: &Job, option: &Opt) -> Self {
        Self {
            stack: None,
            front: Some(calc::sketch::front(job, option)),
            side: Some(calc::sketch::side(job, option)),
            plan: Some(calc::sketch::plan(job, option)),
        }
    }
}

/// Computes what the fields describe and draws its option number `option`; where nothing passes, the nearest.
#[must_use]
pub fn figure(fields: &Fields, option: usize) -> Figure {
    let (job, mut problems) = form::assemble(fields);
    let read = Job::from_value(&job);
    let described = match read {
        Ok((described, _)) if problems.is_empty() => described,
        Ok(_) => return empty(job, problems),
        Err(more) => {
            // A field whose text could not be read is missing for `calc` too: once is enough.
            let known: Vec<String> = problems.iter().map(|problem| problem.path.clone()).collect();
            problems.extend(more.into_iter().filter(|problem| !known.contains(&problem.path)));
            return empty(job, problems);
        }
    };
    let mut proposal = match calc::size_value(&job) {
        Ok(proposal) => proposal,
        Err(problems) => return empty(job, problems),
    };
    // The order of work follows the option that is shown.
    if option > 0 && option < proposal.options.len() {
        proposal.order = calc::answer::order_of(&described, &proposal, option);
    }
    let drawn: Option<&Opt> = proposal.options.get(option).or(proposal.nearest.as_ref());
    let sketches = Sketches {
        stack: Some(calc::sketch::stack(&described, &proposal.load)),
        ..drawn.map_or_else(Sketches::default, |option| Sketches::of(&described, option))
    };
    let mut derived = derived::of_proposal(&described, &proposal);
    derived.extend(drawn.iter().flat_map(|option| derived::of_option(&described, option)));
    Figure {
        hire: proposal.options.get(option).map(|option| hire(&described, option)),
        derived,
        words: calc::brief::wall_lines(&described),
        brief: calc::brief::brief(&described, &proposal),
        questions: questions(&described),
        job,
        problems,
        proposal: Some(proposal),
        sketches,
    }
}

/// Tries what would help what the fields describe. It takes dozens of searches, so it is asked for by itself.
#[must_use]
pub fn helps(fields: &Fields) -> Option<Helps> {
    let (job, problems) = form::assemble(fields);
    if !problems.is_empty() {
        return None;
    }
    let (job, assumptions) = Job::from_value(&job).ok()?;
    let before = calc::answer::size(&job, assumptions).ok()?;
    calc::helps::helps(&job, &before)
}

fn empty(job: Value, problems: Vec<Problem>) -> Figure {
    Figure {
        questions: early_questions(&job),
        job,
        problems,
        proposal: None,
        words: Vec::new(),
        sketches: Sketches::default(),
        brief: None,
        hire: None,
        derived: Vec::new(),
    }
}

/// The questions while the wall is not described yet, when they are wanted most. They follow the country and the days that
/// the support stands; a stand-in holds the place of the rest.
fn early_questions(job: &Value) -> Vec<Question> {
    let mut stand_in = json!({
        "contract": 1, "opening": {"width_m": 1, "head_m": 2}, "above": [],
        "wall": {"leaves": [{"material": "clay_brick", "thickness_mm": 215}]}
    });
    if let (Some(map), Some(country)) = (
        stand_in.as_object_mut(),
        job.get("country").filter(|one| one.is_string()),
    ) {
        map.insert("country".to_owned(), country.clone());
    }
    let days = job.pointer("/site/days").filter(|days| days.is_number());
    let with_days = days.and_then(|days| {
        let mut long = stand_in.clone();
        long.as_object_mut()?.insert("site".to_owned(), json!({ "days": days }));
        Some(Job::from_value(&long).ok()?.0)
    });
    let read = with_days.or_else(|| Some(Job::from_value(&stand_in).ok()?.0));
    read.map(|job| questions(&job)).unwrap_or_default()
}
