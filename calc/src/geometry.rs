//! Levels and places that follow from a described job.

use crate::job::{Direction, Floor, FootKind, Job, Leaf, Material, RoofKind, Side, WhichLeaf};
use crate::proposal::Assumption;
use crate::tables::masonry::material;
use serde_json::json;

/// Room between the new beam's top and the needle's underside, m. Own judgement.
pub const OVER_BEAM_M: f64 = 0.05;

/// A leaf with its place in the wall's thickness.
#[derive(Clone, Debug, PartialEq)]
pub struct PlacedLeaf {
    /// The leaf as described.
    pub leaf: Leaf,
    /// Outer face from the outer face of the wall, mm.
    pub from_mm: f64,
    /// Inner face, mm.
    pub to_mm: f64,
}

/// Levels and places of a job. Heights over the inside floor, m; `x` from the marked left jamb, m.
#[derive(Clone, Debug, PartialEq)]
pub struct Geometry {
    /// Left cut edge.
    pub cut_left_m: f64,
    /// Right cut edge.
    pub cut_right_m: f64,
    /// Left end of the described wall.
    pub wall_left_m: f64,
    /// Right end of the described wall.
    pub wall_right_m: f64,
    /// Underside of the needles.
    pub soffit_m: f64,
    /// Top of the new beam.
    pub beam_top_m: f64,
    /// Bearing level of each floor above.
    pub floors_m: Vec<f64>,
    /// Bearing level of the roof, which is the wall's top.
    pub top_m: f64,
    /// Levels of what ties the wall: floors whose joists bear on it, and a roof that bears on it.
    pub ties_m: Vec<f64>,
    /// Openings above as `(from, to, sill)`, sills over the inside floor, m.
    pub sills_m: Vec<(f64, f64, f64)>,
    /// Leaves at the opening, from outside in.
    pub leaves: Vec<PlacedLeaf>,
    /// Thickness of the whole wall, mm.
    pub thickness_mm: f64,
}

impl Geometry {
    /// Finds levels and places; what had to be assumed is added to the list.
    #[must_use]
    pub fn of(job: &Job, assumptions: &mut Vec<Assumption>) -> Self {
        let opening = &job.opening;
        // In stone one unit's length falls with the cut edge on each side.
        let stone = job
            .wall
            .leaves
            .iter()
            .filter(|leaf| leaf.material == Material::CoursedStone);
        let units = stone
            .filter_map(|leaf| material(leaf.material.name()))
            .map(|row| row.unit_length_mm / 1000.0);
        let fall = units.fold(0.0, f64::max);
        let mut floors_m = Vec::with_capacity(job.above.len());
        let mut level = None;
        for (i, storey) in job.above.iter().enumerate() {
            let given = storey.floor.as_ref().and_then(|floor| floor.bearing_m);
            let bearing = given.or(level).unwrap_or_else(|| {
                let taken = (opening.head_m + 0.3).max(2.4);
                assumptions.push(Assumption {
                    path: format!("/above/{i}/floor/bearing_m"),
                    value: json!(taken),
                    words: format!("joists taken as bearing at {taken:.2} m"),
                    source: "own judgement".to_owned(),
                });
                taken
            });
            floors_m.push(bearing);
            level = Some(bearing + storey.height_m);
        }
        let top_m = job.roof.bearing_m.or(level).unwrap_or_else(|| {
            assumptions.push(Assumption {
                path: "/roof/bearing_m".to_owned(),
                value: json!(2.4),
                words: "roof taken as bearing at 2.40 m".to_owned(),
                source: "own judgement".to_owned(),
            });
            2.4
        });
        let mut ties_m: Vec<f64> = job
            .above
            .iter()
            .zip(&floors_m)
            .filter(|(storey, _)| storey.floor.as_ref().is_some_and(floor_bears))
            .map(|(_, level)| *level)
            .collect();
        if roof_bears(job) {
            ties_m.push(top_m);
        }
        let mut sills_m = Vec::new();
        for (storey, bearing) in job.above.iter().zip(&floors_m) {
            let base = bearing + storey.floor.as_ref().map_or(0.0, |floor| floor.joist_depth_m);
            sills_m.extend(
                storey
                    .openings
                    .iter()
                    .map(|o| (o.x_m, o.x_m + o.width_m, base + o.sill_m)),
            );
        }
        let floor_top = job
            .above
            .first()
            .and_then(|storey| storey.floor.as_ref())
            .zip(floors_m.first());
        let floor_top = floor_top.map_or(top_m, |(floor, bearing)| bearing + floor.joist_depth_m);
        let beam_top_m = if opening.flush {
            floor_top
        } else {
            opening.head_m + opening.beam_depth_mm / 1000.0
        };
        let soffit_m = opening.needle_soffit_m.unwrap_or(beam_top_m + OVER_BEAM_M);
        let mut leaves = Vec::with_capacity(2);
        let mut y = 0.0;
        for leaf in &job.wall.leaves {
            leaves.push(PlacedLeaf {
                leaf: leaf.clone(),
                from_mm: y,
                to_mm: y + leaf.thickness_mm,
            });
            y += leaf.thickness_mm + job.wall.cavity_mm;
        }
        Self {
            cut_left_m: -fall,
            cut_right_m: opening.width_m + fall,
            wall_left_m: -opening.left_masonry_m.max(fall),
            wall_right_m: opening.width_m + opening.right_masonry_m.max(fall),
            soffit_m,
            beam_top_m,
            floors_m,
            top_m,
            thickness_mm: leaves.last().map_or(0.0, |leaf| leaf.to_mm),
            ties_m,
            sills_m,
            leaves,
        }
    }

    /// Width that is cut, m.
    #[must_use]
    pub fn cut_width_m(&self) -> f64 {
        self.cut_right_m - self.cut_left_m
    }

    /// Width of sound masonry beside the cut edge on the left and on the right, m: up to the wall's end or to the next
    /// opening of this storey that stays.
    #[must_use]
    pub fn beside_m(&self, job: &Job) -> (f64, f64) {
        let (mut left, mut right) = (self.cut_left_m - self.wall_left_m, self.wall_right_m - self.cut_right_m);
        for existing in job.wall.openings.iter().filter(|opening| opening.stays) {
            let (from, to) = (existing.x_m, existing.x_m + existing.width_m);
            if from < self.cut_right_m && to > self.cut_left_m {
                // What stays and reaches into the cut leaves nothing beside it.
                return (0.0, 0.0);
            }
            if to <= self.cut_left_m + 1e-9 {
                left = left.min(self.cut_left_m - to);
            }
            if from >= self.cut_right_m - 1e-9 {
                right = right.min(from - self.cut_right_m);
            }
        }
        (left.max(0.0), right.max(0.0))
    }

    /// Shares of a load among the leaves, outermost first.
    #[must_use]
    pub fn shares(&self, which: WhichLeaf) -> [f64; 2] {
        match (self.leaves.len(), which) {
            (1, _) | (_, WhichLeaf::Outer) => [1.0, 0.0],
            (_, WhichLeaf::Inner) => [0.0, 1.0],
            (_, WhichLeaf::Both) => [0.5, 0.5],
        }
    }

    /// Top of the unbroken masonry between two places: the lowest sill of an upper opening there, else the wall's top, m.
    #[must_use]
    pub fn masonry_top_m(&self, a: f64, b: f64) -> f64 {
        let over = self
            .sills_m
            .iter()
            .filter(|(from, to, _)| *from < b - 1e-9 && *to > a + 1e-9);
        over.map(|(_, _, sill)| *sill).fold(self.top_m, f64::min)
    }

    /// Level of the next floor or roof above a level that ties the wall; the wall's top where none does, m.
    #[must_use]
    pub fn next_tie_m(&self, level_m: f64) -> f64 {
        self.ties_m
            .iter()
            .copied()
            .filter(|tie| *tie > level_m)
            .fold(self.top_m, f64::min)
    }

    /// Height of masonry over a level up to the next floor bearing above it or the wall's top, m.
    #[must_use]
    pub fn masonry_to_bearing_m(&self, level_m: f64) -> f64 {
        let next = self
            .ties_m
            .iter()
            .copied()
            .filter(|floor| *floor > level_m)
            .fold(self.top_m, f64::min);
        next - level_m
    }
}

/// Whether any storey or floor stands above the opening.
#[must_use]
pub fn storey_above(job: &Job) -> bool {
    !job.above.is_empty()
}

/// Whether a floor's joists bear on the wall.
#[must_use]
pub fn floor_bears(floor: &Floor) -> bool {
    floor.direction == Direction::Onto && floor.inside_span_m + floor.outside_span_m > 0.0
}

/// Whether the roof's load comes down on this wall.
#[must_use]
pub fn roof_bears(job: &Job) -> bool {
    job.roof.kind != RoofKind::None && job.roof.bears && job.roof.span_m > 0.0
}

/// Whether a foot stands on something that takes the load to the ground by itself.
#[must_use]
pub fn foot_reaches_ground(side: &Side) -> bool {
    match side.foot.kind {
        FootKind::SlabOnGround | FootKind::Ground | FootKind::Paving => true,
        FootKind::SuspendedSlab | FootKind::SuspendedTimber | FootKind::Decking | FootKind::Unknown => {
            side.foot.carried_down.is_some()
        }
    }
}
