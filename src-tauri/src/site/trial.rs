//! An arrangement that is only tried: judged like a builder's plan, drawn, and kept nowhere.

use super::derived::{self, Derived};
use super::figure::Sketches;
use crate::form::{self, Fields};
use calc::checks::prop::rate_design;
use calc::job::{BuildersPlan, Fix, PropInput};
use calc::proposal::{Opt, PlanVerdict, Prop, Standing};
use calc::source::Source;
use calc::{Job, Problem};
use serde::Serialize;
use serde_json::Value;

/// What a trial comes to.
#[derive(Clone, Debug, Default, Serialize)]
pub struct Trial {
    /// What is wrong with it; nothing is judged then.
    pub problems: Vec<Problem>,
    /// How it is judged.
    pub verdict: Option<PlanVerdict>,
    /// The arrangement with what was filled in; none on brackets.
    pub option: Option<Opt>,
    /// Its drawings.
    pub sketches: Sketches,
    /// Where its figures come from, beside its checks.
    pub derived: Vec<Derived>,
}

impl Trial {
    fn wrong(problems: Vec<Problem>) -> Self {
        Self {
            problems,
            ..Self::default()
        }
    }
}

/// A job from fields, with a plan that stands in no field.
fn with_plan(fields: &Fields, plan: Value) -> Result<(Job, BuildersPlan), Vec<Problem>> {
    let (mut job, problems) = form::assemble(fields);
    if !problems.is_empty() {
        return Err(problems);
    }
    if let Some(map) = job.as_object_mut() {
        map.insert("builders_plan".to_owned(), plan);
    }
    let (mut job, _) = Job::from_value(&job)?;
    let plan = job.builders_plan.take();
    plan.map(|plan| (job, plan)).ok_or_else(|| {
        vec![Problem::new(
            "/builders_plan",
            "there is no plan",
            "a plan with its kind",
        )]
    })
}

/// Judges a plan that stands in no field, and draws it where it has needles.
#[must_use]
pub fn trial(fields: &Fields, plan: Value) -> Trial {
    let (job, plan) = match with_plan(fields, plan) {
        Ok(both) => both,
        Err(problems) => return Trial::wrong(problems),
    };
    let verdict = calc::plan::judge(&job, &plan);
    let option = arranged(&job, &plan);
    let sketches = option
        .as_ref()
        .map_or_else(Sketches::default, |option| Sketches::of(&job, option));
    Trial {
        problems: Vec::new(),
        derived: option
            .as_ref()
            .map(|option| derived::of_option(&job, option))
            .unwrap_or_default(),
        verdict: Some(verdict),
        option,
        sketches,
    }
}

/// The plan as an arrangement, by the search with the plan's parts held still: the same that the judgement looks at.
fn arranged(job: &Job, plan: &BuildersPlan) -> Option<Opt> {
    if plan.kind != "needles" || plan.runner.is_some() {
        return None;
    }
    let board = calc::feet_words::board_of(plan.feet.as_deref());
    let mut held = job.clone();
    held.catalogue.bracket = None;
    if let Some(answer) = &mut held.engineer {
        answer.section = None;
        answer.spacing_m = None;
        answer.load_kn_m = None;
    }
    held.fix = Some(Fix {
        needles_x_m: plan.needles_x_m.clone().filter(|axes| !axes.is_empty()),
        section: plan.section.clone(),
        prop: plan.prop.clone(),
        inside_y_mm: plan.inside_y_mm,
        outside_y_mm: plan.outside_y_mm,
        pack_mm: plan.pack_mm,
        board_mm: board.mm,
    });
    let answer = calc::answer::size(&held, Vec::new()).ok()?;
    let needles = |option: &Opt| option.kind == "needles";
    let mut option = answer.options.into_iter().find(needles).or(answer.nearest)?;
    // An arrangement never has a better word than the whole answer for it.
    if matches!(answer.standing, Standing::DoesNotHold | Standing::NeedsOwnDesign) {
        option.standing = answer.standing;
    }
    Some(option)
}

/// A prop of another size where one of an arrangement stands.
#[derive(Clone, Debug, Serialize)]
pub struct Swap {
    /// Name of the prop that it stands for.
    pub prop: String,
    /// What it is called.
    pub size: String,
    /// Length it must have, m.
    pub length_m: f64,
    /// Shortest and longest length with 50 mm of adjustment left at both ends, m.
    pub usable_m: (f64, f64),
    /// What it carries, kN.
    pub load_kn: f64,
    /// What it is good for there, kN; nothing where it does not reach or does not close to that length.
    pub working_load_kn: Option<f64>,
    /// Use; nothing where it does not fit.
    pub utilisation: Option<f64>,
    /// From the table to the figure.
    pub steps: Vec<String>,
    /// Where the load comes from.
    pub source: Option<Source>,
}

/// Holds props of another size against the places of an arrangement: each prop named, with the length and the load that it
/// has there. The boards stay, so the length does.
///
/// # Errors
///
/// What is wrong with the description or with the size.
pub fn swaps(fields: &Fields, option: usize, size: &Value) -> Result<Vec<Swap>, Vec<Problem>> {
    let figure = super::figure(fields, option);
    let Some(proposal) = &figure.proposal else {
        return Err(figure.problems);
    };
    let (job, _) = Job::from_value(&figure.job)?;
    let input: PropInput = serde_json::from_value(size.clone())
        .map_err(|why| vec![Problem::new("/prop", why.to_string(), "a prop with its data and size")])?;
    let ready = calc::ready::ready(&input).map_err(|(wrong, right)| vec![Problem::new("/prop", wrong, right)])?;
    let shown = proposal.options.get(option).or(proposal.nearest.as_ref());
    let usable_m = ready.data.usable_m().unwrap_or_default();
    let one = |prop: &Prop| {
        let side = if prop.side == "inside" {
            &job.sides.inside
        } else {
            &job.sides.outside
        };
        let rating = rate_design(&ready, prop.length_m, side.foot.fixed);
        let mut steps = vec![
            format!("{} is {:.3} m long where it stands", prop.name, prop.length_m),
            format!(
                "this size reaches from {:.2} to {:.2} m with 50 mm of adjustment left at both ends",
                usable_m.0, usable_m.1
            ),
        ];
        steps.extend(rating.iter().flat_map(|rating| rating.steps()));
        let working = rating.map(|rating| rating.working_load_kn);
        Swap {
            prop: prop.name.clone(),
            size: ready.size.clone(),
            length_m: prop.length_m,
            usable_m,
            load_kn: prop.load_kn,
            working_load_kn: working,
            utilisation: working.filter(|can| *can > 0.0).map(|can| prop.load_kn / can),
            steps,
            source: rating.map(|rating| rating.source),
        }
    };
    // Under a bracket the same prop is bent by the arm: that is judged by the builder's plan alone.
    let upright = |prop: &&Prop| prop.bracket.is_none();
    Ok(shown
        .map(|option| option.props.iter().filter(upright).map(one).collect())
        .unwrap_or_default())
}
