//! The order of work as data: what is done, in which order, by whom, and where the work stops until somebody says yes.
//!
//! Every step carries this job's own numbers, taken from the option that is shown first. A job that the method does not
//! cover gets papers, questions and "keep out", and no word of how to cut. A country changes words, never numbers or steps.

mod brackets;
pub mod country;
mod cutting;
mod find_out;
mod holes;
mod law;
mod lift;
mod papers;
mod questions;
mod say;
pub mod sequence;
mod set_up;
mod stands;
mod taking_out;

pub use questions::{Question, questions};
pub(crate) use say::prop_kind;

use crate::geometry::Geometry;
use crate::job::Job;
use crate::proposal::{Opt, OrderStep, Standing};
use crate::source::{Seen, Source};
use crate::standing::Verdict;
use country::{Country, Law, Rule};

/// Source of steps that are common practice.
const PRACTICE: Source = Source::new("order of work", "needling and propping", Seen::Practice);
/// Source of steps that are this project's own judgement.
const OWN: Source = Source::new("order of work", "own rule", Seen::Own);

/// What the steps are made from.
#[derive(Clone, Copy)]
struct Site<'a> {
    job: &'a Job,
    geometry: &'a Geometry,
    verdict: &'a Verdict,
    law: Law,
}

/// Steps of the order of work, numbered from 1.
///
/// `option` is the option shown first; with none there are no steps of building, since the nearest arrangement is never
/// built from.
#[must_use]
pub fn order(
    job: &Job,
    geometry: &Geometry,
    verdict: &Verdict,
    standing: Standing,
    option: Option<&Opt>,
) -> Vec<OrderStep> {
    let site = Site {
        job,
        geometry,
        verdict,
        law: Country::parse(&job.country).law(),
    };
    let built_from = option.filter(|option| {
        verdict.no_model.is_empty()
            && standing != Standing::DoesNotHold
            && !(option.needles.is_empty() && option.props.is_empty())
    });
    let mut steps = match built_from {
        None => find_out::steps(&site, standing),
        Some(option) if option.kind == "brackets" => brackets::steps(&site, option),
        Some(option) => needles(&site, option),
    };
    for (number, step) in (1..).zip(&mut steps) {
        step.step = number;
    }
    steps
}

fn needles(site: &Site<'_>, option: &Opt) -> Vec<OrderStep> {
    let mut steps = papers::before_any_work(site);
    steps.extend(papers::on_site(site));
    steps.extend(set_up::before(site, option));
    steps.extend(set_up::set_up(site, option));
    steps.extend(holes::steps(site, option));
    steps.extend(cutting::steps(site, option));
    steps.extend(lift::steps(site, option));
    steps.extend(taking_out::steps(site, option));
    steps.extend(stands::steps(site, option));
    steps
}

/// Groups of steps, in the order of the work.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Group {
    Papers,
    Before,
    SetUp,
    Holes,
    Cutting,
    Beam,
    TakingOut,
    Stands,
}

impl Group {
    const fn word(self) -> &'static str {
        match self {
            Self::Papers => "papers",
            Self::Before => "before",
            Self::SetUp => "set_up",
            Self::Holes => "holes",
            Self::Cutting => "cutting",
            Self::Beam => "beam",
            Self::TakingOut => "taking_out",
            Self::Stands => "while_it_stands",
        }
    }

    const fn when(self) -> &'static str {
        match self {
            Self::Papers => "before any work",
            Self::Before => "before the first hole, with parts on site",
            Self::SetUp => "before the first hole",
            Self::Holes => "before anything is cut below the needles",
            Self::Cutting => "after the permit to load",
            Self::Beam => "when the opening is cut",
            Self::TakingOut => "when the permanent work is confirmed",
            Self::Stands => "from the first prop to the last",
        }
    }
}

/// A step that is done.
fn step(group: Group, code: &str, words: impl Into<String>) -> OrderStep {
    OrderStep {
        step: 0,
        words: words.into(),
        stop: false,
        code: code.to_owned(),
        group: group.word().to_owned(),
        when: group.when().to_owned(),
        who: "whoever does the work".to_owned(),
        photo: false,
        record: Vec::new(),
        source: PRACTICE,
        country_source: None,
    }
}

impl OrderStep {
    /// The work stops here until somebody says yes, with name and time.
    fn stops(mut self, who: &str) -> Self {
        self.stop = true;
        who.clone_into(&mut self.who);
        self.record = ["yes", "name", "time"].map(str::to_owned).to_vec();
        if self.photo {
            self.record.push("photo".to_owned());
        }
        self
    }

    /// A photo helps.
    fn with_photo(mut self) -> Self {
        self.photo = true;
        if self.stop {
            self.record.push("photo".to_owned());
        }
        self
    }

    fn sourced(mut self, source: Source) -> Self {
        self.source = source;
        self
    }

    fn at(mut self, when: &str) -> Self {
        when.clone_into(&mut self.when);
        self
    }
}

/// A stop whose words are the country's.
fn by_law(code: &str, rule: Rule, who: &str) -> OrderStep {
    let mut out = step(Group::Papers, code, rule.words).with_photo().stops(who);
    out.source = rule.source;
    out.country_source = Some(rule.source);
    out
}
