//! What each piece of the house brings to the needles over the cut: wall of each storey, floors, roof, points.
//!
//! Every way down is linear in the loads, so a piece's share is all of it less what comes down without that piece. Openings
//! stay where they are, since they lead the loads of everything above them.

use crate::clause::NationalParameters;
use crate::geometry::Geometry;
use crate::job::{Job, Leaf};
use crate::proposal::LoadPiece;
use crate::steps::{Channel, Shares};
use crate::takedown::straight_down;

/// Shares of all pieces that bring something, service loads over the cut width straight down at the needles' underside, kN.
///
/// `what` is wall (`storey` none: below the lowest floor), glazing (of all openings together), floor, roof, snow or point.
#[must_use]
pub fn pieces(job: &Job, geometry: &Geometry, national: &NationalParameters) -> Vec<LoadPiece> {
    let (left, right) = (geometry.cut_left_m, geometry.cut_right_m);
    let width_m = right - left;
    let brings = |job: &Job| -> Shares {
        straight_down(job, geometry, national)
            .iter()
            .fold(Shares::default(), |sum, steps| sum.plus(&steps.between(left, right)))
    };
    let piece = |what: &str, storey: Option<usize>, point: Option<usize>, dead_kn: f64, imposed_kn: f64| LoadPiece {
        what: what.to_owned(),
        storey,
        point,
        dead_kn,
        imposed_kn,
        mean_kn_m: (dead_kn + imposed_kn) / width_m,
    };
    let all = brings(job);
    let mut out = Vec::new();
    let mut walls_kn = 0.0;
    let bare = with_walls(job);
    for (i, storey) in (0..=job.above.len()).map(|i| (i, i.checked_sub(1))) {
        let mut without = bare.clone();
        let leaves = match storey {
            None => Some(&mut without.wall.leaves),
            Some(above) => without.above.get_mut(above).and_then(|storey| storey.leaves.as_mut()),
        };
        leaves.into_iter().flatten().for_each(weightless);
        let dead_kn = all.get(Channel::WallG) - brings(&without).get(Channel::WallG);
        walls_kn += dead_kn;
        out.push(piece("wall", i.checked_sub(1), None, dead_kn, 0.0));
    }
    out.push(piece("glazing", None, None, all.get(Channel::WallG) - walls_kn, 0.0));
    for i in 0..job.above.len() {
        let mut without = job.clone();
        if let Some(floor) = without.above.get_mut(i).and_then(|storey| storey.floor.as_mut()) {
            (floor.dead_kn_m2, floor.imposed_kn_m2, floor.partitions_kn_m2) = (0.0, 0.0, 0.0);
            floor.empty = false;
        }
        let rest = brings(&without);
        let share = |channel| all.get(channel) - rest.get(channel);
        out.push(piece(
            "floor",
            Some(i),
            None,
            share(Channel::FloorG),
            share(Channel::FloorQ),
        ));
    }
    out.push(piece(
        "roof",
        None,
        None,
        all.get(Channel::RoofG),
        all.get(Channel::RoofQ),
    ));
    out.push(piece("snow", None, None, 0.0, all.get(Channel::SnowQ)));
    for i in 0..job.points.len() {
        let mut without = job.clone();
        if let Some(point) = without.points.get_mut(i) {
            (point.dead_kn, point.imposed_kn) = (0.0, 0.0);
        }
        // A roof's own share may hang on its posts; only what comes down as a point is looked at here.
        let rest = brings(&without);
        let share = |channel| all.get(channel) - rest.get(channel);
        out.push(piece(
            "point",
            None,
            Some(i),
            share(Channel::PointG),
            share(Channel::PointQ),
        ));
    }
    // What is left of a difference of equal numbers is no weight.
    out.retain(|piece| piece.dead_kn + piece.imposed_kn > 1e-6);
    out
}

/// The job with each storey's leaves written out, so that one can be changed without those above it.
fn with_walls(job: &Job) -> Job {
    let mut out = job.clone();
    let mut current = job.wall.leaves.clone();
    for storey in &mut out.above {
        current = storey.leaves.take().unwrap_or(current);
        storey.leaves = Some(current.clone());
    }
    out
}

const fn weightless(leaf: &mut Leaf) {
    leaf.density_kn_m3 = Some(0.0);
    leaf.plaster_mm = 0.0;
}

#[cfg(test)]
mod tests {
    #![expect(clippy::unwrap_used, reason = "a test may stop at the first thing that is not there")]

    use serde_json::{Value, json};

    fn load(job: &Value) -> Value {
        serde_json::to_value(crate::size_value(job).unwrap().load).unwrap()
    }

    fn of<'a>(load: &'a Value, what: &str, storey: Option<u64>) -> Option<&'a Value> {
        let pieces = load.pointer("/pieces").unwrap().as_array().unwrap();
        pieces
            .iter()
            .find(|piece| piece.get("what") == Some(&json!(what)) && piece.get("storey") == Some(&json!(storey)))
    }

    fn kn(piece: &Value) -> f64 {
        piece.get("dead_kn").unwrap().as_f64().unwrap() + piece.get("imposed_kn").unwrap().as_f64().unwrap()
    }

    #[test]
    fn the_pieces_of_every_ready_house_add_up_to_its_weight() {
        for name in crate::example::names() {
            let mut job = crate::example::job(name).unwrap();
            let point =
                json!([{"x_m": 0.7, "level": 0, "leaf": "inner", "dead_kn": 4.0, "imposed_kn": 2.0, "what": "tank"}]);
            job.as_object_mut().unwrap().insert("points".to_owned(), point);
            let load = load(&job);
            let sum: f64 = load
                .pointer("/pieces")
                .unwrap()
                .as_array()
                .unwrap()
                .iter()
                .map(kn)
                .sum();
            let total = load.pointer("/total_service_kn").unwrap().as_f64().unwrap();
            assert!((sum - total).abs() < 1e-6 * total, "{name}: {sum} of {total}");
        }
    }

    /// METHOD 2: (g + q) × half the span of a simple floor; nothing leads it aside where the storey has no windows.
    #[test]
    fn a_floor_brings_its_load_times_half_its_span() {
        let mut job = crate::example::job("two_storey_cavity").unwrap();
        *job.pointer_mut("/above/0/openings").unwrap() = json!([]);
        let load = load(&job);
        let floor = of(&load, "floor", Some(0)).unwrap();
        // 0.5 dead, 1.5 imposed, 0.5 partitions over half of 4.0 m, along 2.7 m of opening.
        assert!((floor.get("mean_kn_m").unwrap().as_f64().unwrap() - 5.0).abs() < 1e-9);
        assert!((kn(floor) - 13.5).abs() < 1e-9);
        assert!(of(&load, "glazing", None).is_none(), "no window, no glass");
    }

    /// 215 mm of clay brick at 19 kN/m³ with 15 mm of plaster at 17 kN/m³: 4.34 kN/m² of wall.
    #[test]
    fn a_storey_of_wall_brings_its_height() {
        let mut job = crate::example::job("solid_wall_terrace").unwrap();
        *job.pointer_mut("/above/0/height_m").unwrap() = json!(2.5);
        let load = load(&job);
        let wall = of(&load, "wall", Some(0)).unwrap();
        assert!((wall.get("mean_kn_m").unwrap().as_f64().unwrap() - 2.5 * 4.34).abs() < 1e-9);
    }
}
