//! Prop-head brackets: allowed only for little, from first principles, and refused with numbers otherwise.
//!
//! A bracket prop takes its load far off centre: the strut with the bracket's arm at its head says how little is left.

use crate::checks::Side;
use crate::checks::feet::BOARDS;
use crate::clause::en1996::historic::{ALLOWABLE_N_MM2, LOCAL_FACTOR};
use crate::geometry::floor_bears;
use crate::job::{Answer, Condition, Mortar, Restraint};
use crate::legs::leg_length_m;
use crate::proposal::{Brackets, Reason};
use crate::props::bracket::{LEAN_DEG, bracket_resistance};
use crate::scene::Scene;
use crate::standing::Verdict;

/// Arm of a bracket where none is given, mm. CROSS reports 32 and 57.
const ARM_MM: f64 = 200.0;
/// Spacing of brackets where no plan is given, m. Common practice, no source.
const SPACING_M: f64 = 0.9;
/// Width of a bracket's plate, mm. Common practice, no source.
const PLATE_MM: f64 = 150.0;
/// Widest opening with a storey above, m, and with one outer leaf that carries no floor. Own judgement.
const SMALL_M: f64 = 1.5;
const SMALL_OUTER_M: f64 = 2.4;
/// Height of the 60° interaction zone over its base of 1.1 × the span: √3/2.
const ZONE: f64 = 0.866;

/// Judges brackets for a job, every reason reported.
#[must_use]
pub fn judge(scene: &Scene<'_>, verdict: &Verdict) -> Brackets {
    let (job, geometry) = (scene.job, scene.geometry);
    let width = geometry.cut_width_m();
    let plan = job.builders_plan.as_ref().filter(|plan| plan.kind == "brackets");
    let arm = plan.and_then(|plan| plan.arm_mm).unwrap_or(ARM_MM);
    let spacing = plan
        .and_then(|plan| plan.needles_x_m.as_ref())
        .filter(|axes| !axes.is_empty())
        .map_or(SPACING_M, |axes| width / axes.len() as f64);
    let (left, right) = (geometry.cut_left_m, geometry.cut_right_m);
    let heaviest = (0..scene.leaves.len())
        .map(|i| scene.loads.mean_service(i, left, right))
        .fold(0.0, f64::max);
    let carries = heaviest * spacing;
    let best = scene
        .props
        .iter()
        .filter_map(|ready| {
            let length = BOARDS
                .get(2)
                .map(|boards| leg_length_m(job, geometry, Side::Inside, boards))?;
            bracket_resistance(&ready.data, length, arm, LEAN_DEG).ok()
        })
        .max_by(|a, b| a.can_kn.total_cmp(&b.can_kn));
    let by_prop = best.map_or(0.0, |found| found.can_kn);
    let rated = plan.and_then(|plan| plan.rated_kn);
    let under_plate = scene
        .leaves
        .iter()
        .map(|leaf| {
            let stress = if leaf.weak_mortar {
                ALLOWABLE_N_MM2 * LOCAL_FACTOR
            } else {
                leaf.fk_n_mm2 / leaf.gamma_m / 1.5
            };
            stress * PLATE_MM * leaf.thickness_mm / 1000.0
        })
        .fold(f64::INFINITY, f64::min);
    let can = by_prop.min(rated.unwrap_or(f64::INFINITY)).min(under_plate);
    let mut reasons = Vec::new();
    if !verdict.no_model.is_empty() {
        reasons.push(Reason::new(
            "outside_method",
            "The job lies outside the method; brackets are the last thing it needs.",
        ));
    }
    if job.wall.leaves.iter().any(|leaf| leaf.mortar == Mortar::Perished) {
        reasons.push(Reason::new(
            "mortar",
            "The mortar has perished: nothing arches over a bracket.",
        ));
    }
    // The wider limit is for one leaf that carries no floor.
    let no_floor = job
        .above
        .iter()
        .filter_map(|storey| storey.floor.as_ref())
        .all(|floor| !floor_bears(floor));
    let small = if scene.leaves.len() == 1 && no_floor {
        SMALL_OUTER_M
    } else {
        SMALL_M
    };
    let zone_top = geometry.soffit_m + ZONE * 1.1 * width;
    if !job.above.is_empty() {
        if width > small + 1e-9 {
            reasons.push(Reason::new("storey_above", format!("A storey stands above and the opening is {width:.2} m wide; brackets are for at most {small} m there.")));
        }
        if geometry.floors_m.iter().any(|floor| *floor < zone_top) && !no_floor {
            reasons.push(Reason::new(
                "floor_in_zone",
                "A floor bears within the 60° zone over the opening.",
            ));
        }
        let zone_opening = job.above.iter().zip(&geometry.floors_m).any(|(storey, floor)| {
            storey
                .openings
                .iter()
                .any(|o| floor + o.sill_m < zone_top && o.x_m < right && o.x_m + o.width_m > left)
        });
        if zone_opening {
            reasons.push(Reason::new(
                "opening_in_zone",
                "An opening lies within the 60° zone, so nothing arches over.",
            ));
        }
    }
    if job.points.iter().any(|point| point.x_m > left && point.x_m < right) {
        reasons.push(Reason::new(
            "point_in_zone",
            "A point load comes down over the opening.",
        ));
    }
    if scene.leaves.len() == 1 && geometry.thickness_mm > 215.0 + 1e-9 {
        reasons.push(Reason::new(
            "wall_too_thick",
            format!(
                "The wall is {:.0} mm thick; a bracket reaches one leaf of at most 215 mm.",
                geometry.thickness_mm
            ),
        ));
    }
    if job.wall.condition != Condition::Sound || job.answers.cracked != Answer::No {
        reasons.push(Reason::new(
            "wall_not_sound",
            "The masonry is not known to be sound and free of cracks.",
        ));
    }
    if matches!(job.answers.restraint, Restraint::None | Restraint::Unknown) {
        reasons.push(Reason::new(
            "not_held_sideways",
            "Nothing named holds the wall sideways: a bracket prop takes no sideways force together with its load.",
        ));
    }
    if rated.is_none() {
        reasons.push(Reason::new(
            "no_rated_load",
            "The rated load of the bracket by its maker is not entered.",
        ));
    }
    if carries > can {
        let times = if can > 0.0 {
            format!("{:.1} times", carries / can)
        } else {
            "far more than".to_owned()
        };
        reasons.push(Reason::new(
            "overloaded",
            format!("At {:.0} mm each bracket would carry {carries:.1} kN and can carry {can:.1} kN: {times} what it can. Its load sits {arm:.0} mm beside the prop, where prop loads allow for 25 mm.", spacing * 1000.0),
        ));
    }
    Brackets {
        allowed: reasons.is_empty(),
        one_carries_kn: carries,
        one_can_kn: can,
        reasons,
    }
}
