//! Heights and stretches of the house that several sketches need.

use crate::job::{Job, RoofKind};

/// Height where the roof bears, m: as entered, else the top of what stands above, else 2.4 m.
pub fn roof_bearing_m(job: &Job) -> f64 {
    job.roof
        .bearing_m
        .unwrap_or_else(|| tops_m(job).last().copied().unwrap_or(2.4))
}

/// Height of each storey's foot (its floor's bearing, or the top of the storey below), m.
pub fn feet_m(job: &Job) -> Vec<f64> {
    let mut at = 2.4;
    job.above
        .iter()
        .map(|storey| {
            let foot = storey.floor.as_ref().and_then(|floor| floor.bearing_m).unwrap_or(at);
            at = foot + storey.height_m;
            foot
        })
        .collect()
}

/// Height of each storey's top, m.
pub fn tops_m(job: &Job) -> Vec<f64> {
    feet_m(job)
        .iter()
        .zip(&job.above)
        .map(|(foot, storey)| foot + storey.height_m)
        .collect()
}

/// Height of the roof over its bearing as seen from the front, m; drawn no higher than 2.2 m.
pub fn rise_m(job: &Job) -> f64 {
    match job.roof.kind {
        RoofKind::None => 0.0,
        RoofKind::Flat => 0.25,
        RoofKind::Trusses | RoofKind::Rafters => {
            (job.roof.span_m / 2.0 * job.roof.pitch_deg.clamp(0.0, 80.0).to_radians().tan()).clamp(0.3, 2.2)
        }
    }
}

/// The stretch of wall shown, m: the opening with the masonry beside it and every opening above, within reason.
pub fn stretch_m(job: &Job) -> (f64, f64) {
    let width = job.opening.width_m;
    let mut from = -job.opening.left_masonry_m.clamp(0.3, 1.5);
    let mut to = width + job.opening.right_masonry_m.clamp(0.3, 1.5);
    for opening in job.above.iter().flat_map(|storey| &storey.openings) {
        from = from.min(opening.x_m - 0.3);
        to = to.max(opening.x_m + opening.width_m + 0.3);
    }
    (from.max(-2.5), to.min(width + 2.5))
}

/// Thickness of the whole wall, m.
pub fn thickness_m(job: &Job) -> f64 {
    let leaves: f64 = job.wall.leaves.iter().map(|leaf| leaf.thickness_mm).sum();
    let gaps = job
        .wall
        .leaves
        .iter()
        .skip(1)
        .fold(0.0, |sum, _| sum + job.wall.cavity_mm);
    (leaves + gaps) / 1000.0
}
