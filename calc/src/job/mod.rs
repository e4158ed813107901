//! The described job: what the user says of the wall, of what stands above, and of the ground beside it.
//!
//! The JSON form is the public contract. [`Job::from_value`] checks it against one schema table, lists every problem at
//! once, writes a listed assumption for every optional key that is missing, and only then builds these types: whoever
//! holds a [`Job`] holds finite numbers inside plausible ranges.

mod choices;
mod cross;
mod round_table;
pub mod schema;
mod support_table;
mod table;
pub mod types;
mod words;

pub use choices::*;
pub use round_table::{EARLIER, GAUGE_ROW, READING_ROW, ROUND};
pub use table::job_schema;
pub use types::*;
pub use words::*;

use crate::clause::Annex;
use crate::problem::Problem;
use crate::proposal::Assumption;
use serde_json::Value;

impl Job {
    /// Reads a job and the assumptions that filled its gaps.
    ///
    /// # Errors
    ///
    /// All problems at once: unknown keys, wrong types, numbers out of range, openings that overlap or do not fit.
    pub fn from_value(value: &Value) -> Result<(Self, Vec<Assumption>), Vec<Problem>> {
        let mut reader = schema::Reader::default();
        let filled = reader.object("", value, job_schema());
        if !reader.problems.is_empty() {
            return Err(reader.problems);
        }
        let job: Self = serde_json::from_value(filled).map_err(|error| {
            vec![Problem::new(
                "",
                format!("the job cannot be read: {error}"),
                "a job as `calc schema job` describes it",
            )]
        })?;
        let mut job = job;
        if job.roof.kind == RoofKind::Flat {
            for taken in reader
                .assumptions
                .iter_mut()
                .filter(|taken| taken.path == "/roof/pitch_deg")
            {
                job.roof.pitch_deg = 0.0;
                taken.value = serde_json::json!(0.0);
                taken.words = "pitch of the flat roof taken as 0°".to_owned();
            }
        }
        if job.site.national == Annex::Recommended {
            dwelling_floors(&mut job, &mut reader.assumptions);
        }
        let problems = cross::problems(&job);
        if problems.is_empty() {
            Ok((job, reader.assumptions))
        } else {
            Err(problems)
        }
    }
}

/// Floors whose imposed load was not given: the schema's default is the United Kingdom's, another set has its own.
fn dwelling_floors(job: &mut Job, assumptions: &mut [Assumption]) {
    let floor = job.site.national.parameters().floor_imposed_kn_m2;
    for (i, storey) in job.above.iter_mut().enumerate() {
        let path = format!("/above/{i}/floor/imposed_kn_m2");
        let Some(taken) = assumptions.iter_mut().find(|taken| taken.path == path) else {
            continue;
        };
        if let Some(described) = &mut storey.floor {
            described.imposed_kn_m2 = floor.value;
            taken.value = serde_json::json!(floor.value);
            taken.words = format!("dwelling {} kN/m²", floor.value);
            taken.source = floor.source.to_string();
        }
    }
}
