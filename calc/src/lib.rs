//! Sizes the temporary support of a masonry wall while an opening is cut: needles, props, feet and bracing.
//!
//! The crate reads like its method: `job` (what the user says) → `takedown` (load along the wall) → `checks` (what each
//! part can do) → `propose` (search) → [`Proposal`]; `round` holds today's measurements against a proposal, `trend` what
//! those of all rounds say together. Pure functions:
//! no files, no clock, no network. JSON is the public form of a job and its answer.

pub mod answer;
pub mod assemble;
pub mod brackets;
pub mod brief;
pub mod candidate;
pub mod checks;
pub mod clause;
pub mod demand;
pub mod engineer;
pub mod example;
pub mod feet_words;
pub mod floor_line;
pub mod geometry;
pub mod helps;
pub mod job;
pub mod json;
pub mod layout;
pub mod legs;
pub mod line;
pub mod lone;
pub mod order;
pub mod packs;
pub mod pieces;
pub mod plan;
pub mod problem;
pub mod proposal;
pub mod proposal_schema;
pub mod propose;
pub mod props;
pub mod pushing;
pub mod ready;
pub mod round;
pub mod scene;
pub mod sight;
pub mod sketch;
pub mod source;
pub mod stand;
pub mod standing;
pub mod steps;
pub mod tables;
pub mod takedown;
pub mod trend;
pub mod units;

pub use answer::CAUTION;
pub use job::Job;
pub use problem::Problem;
pub use proposal::Proposal;
pub use round::Evaluation;

use serde_json::Value;

/// Sizes the support of a job given as JSON.
///
/// # Errors
///
/// All problems of the input at once, each with path, what is wrong and what would be right.
pub fn size_value(job: &Value) -> Result<Proposal, Vec<Problem>> {
    let (job, assumptions) = Job::from_value(job)?;
    answer::size(&job, assumptions)
}

/// Evaluates a round given as JSON.
///
/// # Errors
///
/// All problems of the input at once.
pub fn round_value(round: &Value) -> Result<Evaluation, Vec<Problem>> {
    round::evaluate(round)
}

/// JSON Schema of an input or an answer: `job`, `round`, `proposal` or `evaluation`.
#[must_use]
pub fn schema(name: &str) -> Option<Value> {
    match name {
        "job" => Some(job::schema::json_schema("job", job::job_schema())),
        "round" => Some(round::schema()),
        "proposal" => Some(proposal_schema::schema()),
        "evaluation" => Some(round::evaluation_schema()),
        _ => None,
    }
}
