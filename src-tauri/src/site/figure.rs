//! From the fields of the screens to a proposal with its drawings.

use crate::form::{self, Fields};
use calc::brief::Brief;
use calc::proposal::Opt;
use calc::{Job, Problem, Proposal};
use serde::Serialize;
use serde_json::Value;

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
        front: drawn.map(|option| calc::sketch::front(&described, option)),
        side: drawn.map(|option| calc::sketch::side(&described, option)),
    };
    Figure {
        words: calc::brief::wall_lines(&described),
        brief: calc::brief::brief(&described, &proposal),
        job,
        problems,
        proposal: Some(proposal),
        sketches,
    }
}

fn empty(job: Value, problems: Vec<Problem>) -> Figure {
    Figure {
        job,
        problems,
        proposal: None,
        words: Vec::new(),
        sketches: Sketches::default(),
        brief: None,
    }
}
