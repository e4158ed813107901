//! Whether the method applies, and what caps the answer. The method's section 0, as data and words.

use crate::geometry::{Geometry, floor_bears, foot_reaches_ground, roof_bears};
use crate::job::{Answer, Condition, FootKind, Job, Material, Mortar, Restraint, RoofKind};
use crate::proposal::{Assumption, Reason};
use serde_json::json;

/// Nearest that an opening may come to a corner, m. Own judgement.
const CORNER_M: f64 = 0.45;
/// Largest point load a layman's job may have, kN. Own judgement.
const POINT_KN: f64 = 15.0;

/// Loads no farther apart than this come down at one place, m. Own judgement.
const SAME_PLACE_M: f64 = 0.3;

/// What stands against an answer.
#[derive(Clone, Debug, Default)]
pub struct Verdict {
    /// The method does not apply.
    pub no_model: Vec<Reason>,
    /// The method applies, but an engineer comes first.
    pub engineer_first: Vec<Reason>,
    /// Caps at `close`.
    pub caps: Vec<Reason>,
    /// Whether an independent checker is needed.
    pub independent_check_needed: bool,
}

/// Reads the described job against the method's scope.
#[must_use]
pub fn verdict(job: &Job, geometry: &Geometry, assumptions: &mut Vec<Assumption>) -> Verdict {
    let mut out = Verdict::default();
    wall(job, &mut out);
    answers(job, &mut out);
    sides(job, geometry, assumptions, &mut out);
    restraint(job, &mut out);
    feet(job, &mut out);
    beyond_a_layman(job, geometry, &mut out);
    caps(job, &mut out);
    out
}

fn wall(job: &Job, out: &mut Verdict) {
    let leaves = job
        .wall
        .leaves
        .iter()
        .chain(job.above.iter().filter_map(|storey| storey.leaves.as_ref()).flatten());
    let (mut rubble, mut perished, mut stone) = (false, false, false);
    for leaf in leaves {
        rubble |= leaf.material == Material::Rubble;
        perished |= leaf.mortar == Mortar::Perished;
        stone |= leaf.material == Material::CoursedStone;
    }
    let upper = job.above.iter().filter_map(|storey| storey.leaves.as_ref()).flatten();
    let lime = job
        .wall
        .leaves
        .iter()
        .chain(upper)
        .any(|leaf| leaf.mortar != Mortar::Cement);
    if rubble {
        out.no_model.push(Reason::new(
            "rubble",
            "The wall is random rubble: nobody can say how it carries between needles.",
        ));
    }
    if perished {
        out.no_model.push(Reason::new(
            "perished_mortar",
            "The mortar is mud or has perished: the masonry cannot carry from needle to needle.",
        ));
    }
    if stone {
        out.engineer_first.push(Reason::new(
            "stone",
            "A stone wall: an engineer must see how it is built before needles are cut in.",
        ));
        out.caps.push(Reason::new("stone", "Coursed stone."));
    }
    if job.wall.gable {
        if lime {
            out.no_model.push(Reason::new(
                "gable_lime",
                "A gable in lime mortar: nothing ties it and its mortar is weak.",
            ));
        } else if !matches!(job.answers.restraint, Restraint::Strapped | Restraint::Designed) {
            out.no_model.push(Reason::new(
                "gable",
                "A gable that is not strapped: no floor or roof ties it above the opening.",
            ));
        }
    }
    match job.wall.condition {
        Condition::Poor => out
            .no_model
            .push(Reason::new("condition_poor", "The wall is in poor condition.")),
        Condition::Doubtful => out.caps.push(Reason::new(
            "condition_doubtful",
            "The condition of the wall is doubtful.",
        )),
        Condition::Sound => {}
    }
}

fn answers(job: &Job, out: &mut Verdict) {
    let asked = [
        (
            "cellar",
            job.answers.cellar,
            "a cellar, void, drain or manhole lies under or near a foot",
        ),
        (
            "chimney",
            job.answers.chimney,
            "a chimney breast or stack stands in or over the wall",
        ),
        ("bay", job.answers.bay, "there is a bay window"),
        ("veneer", job.answers.veneer, "the wall is a veneer over a frame"),
        (
            "removed",
            job.answers.removed,
            "floors, cross walls or roof ties are removed or to be removed",
        ),
        ("digging", job.answers.digging, "someone digs near the feet"),
        ("cracked", job.answers.cracked, "the wall bulges, leans or is cracking"),
    ];
    for (code, answer, words) in asked {
        match answer {
            Answer::Yes => out
                .no_model
                .push(Reason::new(code, format!("Outside the method: {words}."))),
            Answer::Unknown => {
                out.no_model.push(Reason::new(
                    &format!("{code}_unknown"),
                    format!("Not known whether {words}: find out first."),
                ));
            }
            Answer::No => {}
        }
    }
}

fn sides(job: &Job, geometry: &Geometry, assumptions: &mut Vec<Assumption>, out: &mut Verdict) {
    let (left, right) = geometry.beside_m(job);
    let least = left.min(right);
    let corner = job.answers.corner_m.unwrap_or_else(|| {
        assumptions.push(Assumption {
            path: "/answers/corner_m".to_owned(),
            value: json!(least),
            words: format!(
                "distance to the next corner taken as {least:.2} m, the smaller of the masonry at the sides"
            ),
            source: "own judgement".to_owned(),
        });
        least
    });
    // A difference of decimal input such as 1.63 m less 1.18 m is off by its binary error.
    if corner < CORNER_M - 1e-9 {
        out.no_model.push(Reason::new(
            "corner",
            format!("The opening comes within {corner:.2} m of a corner; at least {CORNER_M} m is needed."),
        ));
    }
    if least < CORNER_M - 1e-9 {
        out.no_model.push(Reason::new(
            "pier",
            format!("Only {least:.2} m of masonry stays beside the cut; at least {CORNER_M} m is needed."),
        ));
    }
}

fn restraint(job: &Job, out: &mut Verdict) {
    let first = job.above.first();
    let floor_ties = first.and_then(|storey| storey.floor.as_ref()).is_some_and(floor_bears);
    let described = roof_bears(job)
        || job
            .above
            .iter()
            .filter_map(|storey| storey.floor.as_ref())
            .any(|floor| floor.inside_span_m + floor.outside_span_m > 0.0);
    let roof_ties = job.above.is_empty() && roof_bears(job);
    let words = match job.answers.restraint {
        Restraint::Unknown => Some("It is not known what ties the wall just above the opening."),
        Restraint::None => Some("Nothing ties the wall just above the opening."),
        Restraint::Floor if !floor_ties => {
            Some("A floor is named as what ties the wall, but no floor described bears on it just above the opening.")
        }
        Restraint::Roof if !job.above.is_empty() => {
            Some("A roof cannot tie the wall just above the opening where a storey stands between.")
        }
        Restraint::Roof if !roof_ties => {
            Some("The roof is named as what ties the wall, but the roof described does not bear on it.")
        }
        Restraint::Strapped if !described => {
            Some("Straps are named as what ties the wall, but no floor or roof is described that they could go to.")
        }
        _ => None,
    };
    if let Some(words) = words {
        out.no_model.push(Reason::new("restraint", words));
    }
}

fn feet(job: &Job, out: &mut Verdict) {
    for (name, side) in [("inside", &job.sides.inside), ("outside", &job.sides.outside)] {
        if foot_reaches_ground(side) {
            continue;
        }
        let what = match side.foot.kind {
            FootKind::Decking => "stand on decking: take the props through it to the ground, or say what is below",
            FootKind::SuspendedTimber => {
                "stand on a suspended timber floor with nothing carried down: lift boards, prop below in line or go through to solid ground"
            }
            FootKind::SuspendedSlab => "stand on a suspended slab with nothing carried down",
            _ => "stand on something not known: find out what is below",
        };
        out.no_model
            .push(Reason::new(&format!("foot_{name}"), format!("The feet {name} {what}.")));
    }
}

fn beyond_a_layman(job: &Job, geometry: &Geometry, out: &mut Verdict) {
    let storeys = job.above.len();
    if storeys > 3 {
        out.no_model.push(Reason::new(
            "storeys",
            format!("{storeys} storeys stand above; the method ends at three."),
        ));
    } else if storeys >= 2 {
        out.engineer_first.push(Reason::new(
            "storeys",
            format!("{storeys} storeys stand above the opening."),
        ));
    }
    let limit = if storeys == 0 { 4.5 } else { 3.6 };
    if geometry.cut_width_m() > limit + 1e-9 {
        out.engineer_first.push(Reason::new(
            "width",
            format!(
                "The opening is {:.2} m wide; above {limit} m an engineer comes first.",
                geometry.cut_width_m()
            ),
        ));
    }
    for point in &job.points {
        // Loads that come down at one place count together.
        let here = job
            .points
            .iter()
            .filter(|other| (other.x_m - point.x_m).abs() < SAME_PLACE_M + 1e-9);
        let load: f64 = here.map(|other| other.dead_kn + other.imposed_kn).sum();
        if load > POINT_KN {
            out.engineer_first.push(Reason::new(
                "point_load",
                format!(
                    "{} brings {load:.1} kN at one place; above {POINT_KN} kN an engineer comes first.",
                    point.what
                ),
            ));
        }
    }
    let cut = geometry.cut_left_m..geometry.cut_right_m;
    let reaches = |o: &crate::job::ExistingOpening| {
        o.sill_m + o.height_m > geometry.soffit_m && o.x_m < cut.end && o.x_m + o.width_m > cut.start
    };
    if job.wall.openings.iter().any(reaches) {
        out.no_model.push(Reason::new(
            "existing_opening",
            "An existing opening over the cut reaches above the needles: there is no masonry for them to hold.",
        ));
    }
    out.independent_check_needed = storeys > 0 || !out.engineer_first.is_empty();
}

fn caps(job: &Job, out: &mut Verdict) {
    if job.above.len() == 1 && job.check.as_ref().is_none_or(|check| check.category < 1) {
        out.caps.push(Reason::new(
            "independent_check",
            "A storey stands above: someone independent must check this first.",
        ));
    }
    // Only the engineer's word on sleeping lifts this, not an answer that says nothing of it.
    let may_sleep = job.engineer.as_ref().and_then(|answer| answer.may_sleep) == Some(true);
    if !may_sleep
        && job
            .above
            .iter()
            .filter_map(|storey| storey.floor.as_ref())
            .any(|floor| floor.slept_in)
    {
        out.caps.push(Reason::new(
            "slept_in",
            "People sleep above: ask the engineer whether they may.",
        ));
    }
    if job
        .above
        .iter()
        .filter_map(|storey| storey.floor.as_ref())
        .any(|floor| floor.beam_and_block)
    {
        out.caps.push(Reason::new(
            "beam_and_block",
            "A beam-and-block floor is heavier and stiffer than the method assumes.",
        ));
    }
    if job.roof.kind == RoofKind::Flat && roof_bears(job) {
        out.caps
            .push(Reason::new("flat_roof", "A flat roof: its build-up is seldom known."));
    }
}
