//! Prop-head brackets: an option of its own kind where every rule of the method allows them, refused with numbers
//! everywhere else.
//!
//! A bracket prop takes its load far off centre: the strut with the bracket's arm at its head says how little is left. Each
//! leaf is carried on a line of its own beside it, nothing goes through the wall, and nothing sideways may be asked of the
//! props.

mod burden;
mod hold;
mod masonry;
mod option;
mod plan;
mod ratings;
mod row;
mod rules;
mod search;

pub use plan::judge as judge_plan;

use crate::job::{BuildersPlan, Job};
use crate::proposal::{Brackets, Opt, Reason};
use crate::scene::Scene;
use crate::standing::Verdict;
use crate::takedown::TakeDown;
use burden::Burden;
use ratings::Ratings;
use search::{Best, search};

/// Arm of a bracket where none is given, mm. CROSS reports 32 and 57.
const ARM_MM: f64 = 200.0;
/// Spacing of brackets where no places are given, m. Common practice, no source.
const SPACING_M: f64 = 0.9;
/// Plate of a bracket where none is given, along the wall and into it, mm. Common practice, no source.
const PLATE_MM: [f64; 2] = [150.0, 100.0];

/// A bracket as far as it is known.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Kit {
    /// Rated load by its maker, kN.
    pub rated_kn: Option<f64>,
    /// From the prop's axis to the middle of the plate, mm.
    pub arm_mm: f64,
    /// Plate, along the wall and into it, mm.
    pub plate_mm: [f64; 2],
}

impl Kit {
    /// The bracket at hand: the user's, else the builder's, else the defaults without a rated load.
    #[must_use]
    pub fn of(job: &Job) -> Self {
        let plan = job.builders_plan.as_ref().filter(|plan| plan.kind == "brackets");
        match (&job.catalogue.bracket, plan) {
            (Some(own), _) => Self {
                rated_kn: own.rated_kn,
                arm_mm: own.arm_mm,
                plate_mm: own.plate_mm,
            },
            (None, Some(plan)) => Self::of_plan(job, plan),
            (None, None) => Self {
                rated_kn: None,
                arm_mm: ARM_MM,
                plate_mm: PLATE_MM,
            },
        }
    }

    /// The builder's bracket; what the plan leaves open is taken from the bracket at hand, else from the defaults.
    #[must_use]
    pub fn of_plan(job: &Job, plan: &BuildersPlan) -> Self {
        let own = job.catalogue.bracket.as_ref();
        Self {
            rated_kn: plan.rated_kn.or_else(|| own.and_then(|own| own.rated_kn)),
            arm_mm: plan.arm_mm.or(own.map(|own| own.arm_mm)).unwrap_or(ARM_MM),
            plate_mm: plan.plate_mm.or(own.map(|own| own.plate_mm)).unwrap_or(PLATE_MM),
        }
    }

    /// From the leaf's face to the prop's axis, mm.
    #[must_use]
    pub fn distance_mm(&self) -> f64 {
        let [_, into] = self.plate_mm;
        self.arm_mm - into / 2.0
    }
}

/// What brackets come to for a job.
#[derive(Clone, Debug)]
pub struct Offer {
    /// Whether they are allowed, with numbers and reasons.
    pub brackets: Brackets,
    /// The option, where they are.
    pub option: Option<Opt>,
}

/// Judges brackets for a job, every reason reported, and proposes them where every rule allows it.
#[must_use]
pub fn judge(scene: &Scene<'_>, verdict: &Verdict, down: &TakeDown) -> Offer {
    let kit = Kit::of(scene.job);
    let rules = rules::rules(scene, &kit, verdict, down);
    let burden = Burden::of(scene, rules.triangle);
    let ratings = Ratings::of(scene, &kit);
    let mut reasons = rules.reasons;
    let mut option = None;
    let mut numbers = None;
    if reasons.is_empty() {
        match search(scene, &kit, &burden, &ratings) {
            Some(Best {
                row,
                axes,
                legs,
                passes,
            }) => {
                let (carries, can) = row.hardest(&axes, &legs);
                numbers = Some((carries, can, spacing_m(&axes)));
                if passes {
                    option = option::option(&row, &axes, &legs);
                } else {
                    reasons.extend(option::why_not(&row, &axes, &legs));
                }
            }
            None => reasons.push(Reason::new(
                "no_layout",
                "No places for brackets satisfy the rules: masonry left between slots, forbidden stretches, ends.",
            )),
        }
    }
    let (carries, can, spacing) = numbers.unwrap_or_else(|| {
        let plan = scene
            .job
            .builders_plan
            .as_ref()
            .filter(|plan| plan.kind == "brackets")
            .and_then(|plan| plan.needles_x_m.as_ref())
            .filter(|axes| !axes.is_empty());
        let spacing = plan.map_or(SPACING_M, |axes| scene.geometry.cut_width_m() / axes.len() as f64);
        let (carries, can) = search::at_spacing(scene, &kit, &burden, &ratings, spacing);
        (carries, can, spacing)
    });
    if option.is_none() && carries > can {
        reasons.push(overloaded(carries, can, spacing, &kit));
    }
    Offer {
        brackets: Brackets {
            allowed: option.is_some(),
            one_carries_kn: carries,
            one_can_kn: can,
            reasons,
        },
        option,
    }
}

fn overloaded(carries: f64, can: f64, spacing_m: f64, kit: &Kit) -> Reason {
    let times = if can > 0.0 {
        format!("{:.1} times", carries / can)
    } else {
        "far more than".to_owned()
    };
    let at = if spacing_m > 0.0 {
        format!("At {:.0} mm each", spacing_m * 1000.0)
    } else {
        "The".to_owned()
    };
    Reason::new(
        "overloaded",
        format!(
            "{at} bracket would carry {carries:.1} kN and can carry {can:.1} kN: {times} what it can. Its load sits {:.0} mm beside the prop, where prop loads allow for 25 mm.",
            kit.arm_mm
        ),
    )
}

/// Largest distance between neighbours, m; none for one alone.
fn spacing_m(axes: &[f64]) -> f64 {
    axes.iter()
        .zip(axes.iter().skip(1))
        .map(|(a, b)| b - a)
        .fold(0.0, f64::max)
}
