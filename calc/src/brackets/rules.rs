//! Where brackets are allowed at all: the rules of the method's section 4 that ask for no number of the bracket.

use super::Kit;
use crate::floor_line;
use crate::geometry::floor_bears;
use crate::job::{Answer, Condition, Mortar, Restraint};
use crate::proposal::Reason;
use crate::scene::Scene;
use crate::standing::Verdict;
use crate::takedown::TakeDown;

/// Widest opening with a storey above, m, and with one outer leaf that carries no floor. Own judgement.
const SMALL_M: f64 = 1.5;
const SMALL_OUTER_M: f64 = 2.4;
/// Base of both triangles over the clear span, BS 5977-1.
pub const BASE: f64 = 1.1;
/// Height of the 60° interaction zone over its base: √3/2.
const ZONE: f64 = 0.866;
/// Thickest leaf that a bracket carries from one side, mm. Common practice, no source.
const THICKEST_MM: f64 = 215.0;

/// What stands against brackets, and whether the load triangle is what they carry.
pub struct Rules {
    /// Reasons against.
    pub reasons: Vec<Reason>,
    /// A storey stands above and everything that the load triangle asks for is there.
    pub triangle: bool,
}

/// Top of the 60° zone over the opening, m.
pub fn zone_top_m(scene: &Scene<'_>) -> f64 {
    scene.geometry.soffit_m + ZONE * BASE * scene.geometry.cut_width_m()
}

/// Reads a job against the rules.
pub fn rules(scene: &Scene<'_>, kit: &Kit, verdict: &Verdict, down: &TakeDown) -> Rules {
    let job = scene.job;
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
    arching(scene, &mut reasons);
    if job.wall.condition != Condition::Sound || job.answers.cracked != Answer::No {
        reasons.push(Reason::new(
            "wall_not_sound",
            "The masonry is not known to be sound and free of cracks.",
        ));
    }
    let triangle = !job.above.is_empty() && reasons.is_empty();
    let thickest = job.wall.leaves.iter().map(|leaf| leaf.thickness_mm).fold(0.0, f64::max);
    if thickest > THICKEST_MM + 1e-9 {
        reasons.push(Reason::new(
            "wall_too_thick",
            format!("A leaf is {thickest:.0} mm thick; a bracket reaches one of at most {THICKEST_MM:.0} mm."),
        ));
    }
    if !down.below.is_empty() {
        reasons.push(Reason::new(
            "bears_below",
            format!(
                "What bears below the brackets is not on them: {}.",
                down.below.join(", ")
            ),
        ));
    }
    // Nobody has designed brackets and a floor's own line together.
    if (0..job.above.len()).any(|i| floor_line::has_own_line(job, scene.geometry, i)) {
        reasons.push(Reason::new(
            "floor_apart",
            "A floor is held on a line of its own: brackets beside such a line are not designed here.",
        ));
    }
    if matches!(job.answers.restraint, Restraint::None | Restraint::Unknown) {
        reasons.push(Reason::new(
            "not_held_sideways",
            "Nothing named holds the wall sideways: a bracket prop takes no sideways force together with its load.",
        ));
    }
    if kit.rated_kn.is_none() {
        reasons.push(Reason::new(
            "no_rated_load",
            "The rated load of the bracket by its maker is not entered.",
        ));
    }
    Rules { reasons, triangle }
}

/// What a small opening under a storey asks of the masonry over it.
fn arching(scene: &Scene<'_>, reasons: &mut Vec<Reason>) {
    let (job, geometry) = (scene.job, scene.geometry);
    let width = geometry.cut_width_m();
    // Both triangles stand on a base wider than the opening.
    let over = (BASE - 1.0) / 2.0 * width;
    let (left, right) = (geometry.cut_left_m - over, geometry.cut_right_m + over);
    if job.points.iter().any(|point| point.x_m > left && point.x_m < right) {
        reasons.push(Reason::new(
            "point_in_zone",
            "A point load comes down over the opening.",
        ));
    }
    if job.above.is_empty() {
        return;
    }
    // The wider limit is for one leaf that carries no floor.
    let no_floor = job
        .above
        .iter()
        .filter_map(|storey| storey.floor.as_ref())
        .all(|floor| !floor_bears(floor));
    let outer = scene.leaves.len() == 1 && no_floor && job.wall.outside_wall;
    let small = if outer { SMALL_OUTER_M } else { SMALL_M };
    let zone_top = zone_top_m(scene);
    if width > small + 1e-9 {
        reasons.push(Reason::new(
            "storey_above",
            format!(
                "A storey stands above and the opening is {width:.2} m wide; brackets are for at most {small} m there."
            ),
        ));
    }
    let bears_in_zone = job
        .above
        .iter()
        .zip(&geometry.floors_m)
        .any(|(storey, level)| *level < zone_top && storey.floor.as_ref().is_some_and(floor_bears));
    if bears_in_zone {
        reasons.push(Reason::new(
            "floor_in_zone",
            "A floor bears within the 60° zone over the opening.",
        ));
    }
    let opening_in_zone = geometry
        .sills_m
        .iter()
        .any(|(from, to, sill)| *sill < zone_top && *from < right && *to > left);
    if opening_in_zone {
        reasons.push(Reason::new(
            "opening_in_zone",
            "An opening lies within the 60° zone, so nothing arches over.",
        ));
    }
    if geometry.top_m < zone_top - 1e-9 {
        reasons.push(Reason::new(
            "zone_cut_off",
            format!(
                "The wall ends {:.2} m below the top of the 60° zone: too little masonry to arch over.",
                zone_top - geometry.top_m
            ),
        ));
    }
    let asked = (0.2 * width).max(0.6);
    let beside = scene.beside_m.0.min(scene.beside_m.1);
    if beside < asked - 1e-9 {
        reasons.push(Reason::new(
            "no_abutment",
            format!("Only {beside:.2} m of masonry stays beside the opening; an arch asks for {asked:.2} m."),
        ));
    }
}
