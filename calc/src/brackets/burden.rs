//! What brackets carry: everything above where nothing but a roof stands there, else the load triangle.

use super::rules::{BASE, zone_top_m};
use crate::clause::bs::bs5977;
use crate::demand::Loads;
use crate::geometry::floor_bears;
use crate::scene::Scene;
use crate::steps::{Channel, Shares, Steps};
use crate::takedown::{TakeDown, floor_imposed_kn_m2, leaf_weight_kn_m2, reaction_length_m};

/// Steps in which the triangle is drawn over the cut; each is as high as its highest place, so all are an upper bound.
const PIECES: u32 = 24;

/// What stands on the brackets.
pub struct Burden {
    /// The load they carry.
    pub loads: Loads,
    /// How it was found.
    pub steps: Vec<String>,
    /// Whether the load triangle is what they carry, so that the rest must arch over the opening.
    pub triangle: bool,
}

impl Burden {
    /// The load triangle where `triangle` says that it governs, else everything above.
    pub fn of(scene: &Scene<'_>, triangle: bool) -> Self {
        if triangle {
            return of_triangle(scene);
        }
        Self {
            triangle: false,
            loads: scene.loads.clone(),
            steps: vec!["everything above the brackets: no arching is counted on".to_owned()],
        }
    }
}

fn of_triangle(scene: &Scene<'_>) -> Burden {
    let geometry = scene.geometry;
    let (left, right) = (geometry.cut_left_m, geometry.cut_right_m);
    let width = right - left;
    let middle = 0.5 * (left + right);
    let half = 0.5 * BASE * width;
    let mut steps = Vec::new();
    let mut straight = Vec::with_capacity(geometry.leaves.len());
    for (i, placed) in geometry.leaves.iter().enumerate() {
        // The heavier of this leaf and what stands on it higher up.
        let upper = scene.job.above.iter().filter_map(|storey| storey.leaves.as_ref());
        let weight = upper
            .filter_map(|leaves| leaves.get(i))
            .map(leaf_weight_kn_m2)
            .fold(leaf_weight_kn_m2(&placed.leaf), f64::max);
        let found = bs5977::load_triangle(&bs5977::Triangle {
            span_m: width,
            base_factor: BASE,
            wall_kn_m2: weight,
            height_m: half,
            uniform_kn_m: 0.0,
        });
        steps.push(format!(
            "leaf {}: {weight:.2} kN/m² of wall in the load triangle",
            i + 1
        ));
        steps.extend(found.steps());
        let mut load = Steps::default();
        let piece = width / f64::from(PIECES);
        for k in 0..PIECES {
            let (from, to) = (left + f64::from(k) * piece, left + f64::from(k + 1) * piece);
            // Highest place of this piece: the apex, or the end nearer to it.
            let off = if from <= middle && to >= middle {
                0.0
            } else {
                (from - middle).abs().min((to - middle).abs())
            };
            load.add(from, to, &Shares::one(Channel::WallG, weight * (half - off).max(0.0)));
        }
        along(scene, i, (left, right), &mut load, &mut steps);
        straight.push(load);
    }
    steps.push(bs5977::SOURCE.to_string());
    let down = TakeDown {
        spread: straight.clone(),
        straight,
        below: Vec::new(),
        lone: Vec::new(),
    };
    Burden {
        triangle: true,
        loads: Loads::of(&down, (left, right), scene.national),
        steps,
    }
}

/// Floors along the wall within the zone bring half a joist spacing: in full, since they are not masonry that arches.
fn along(scene: &Scene<'_>, leaf: usize, (left, right): (f64, f64), load: &mut Steps, steps: &mut Vec<String>) {
    let zone_top = zone_top_m(scene);
    for (storey, level) in scene.job.above.iter().zip(&scene.geometry.floors_m) {
        let Some(floor) = storey.floor.as_ref().filter(|floor| !floor_bears(floor)) else {
            continue;
        };
        let share = scene.geometry.shares(floor.leaf).get(leaf).copied().unwrap_or_default();
        let length = reaction_length_m(floor) * share;
        if *level >= zone_top || length <= 0.0 {
            continue;
        }
        let (dead, imposed) = (floor.dead_kn_m2 * length, floor_imposed_kn_m2(floor) * length);
        load.add(left, right, &Shares::one(Channel::FloorG, dead));
        load.add(left, right, &Shares::one(Channel::FloorQ, imposed));
        steps.push(format!(
            "a floor along the wall within the zone: {dead:.2} + {imposed:.2} kN/m"
        ));
    }
}
