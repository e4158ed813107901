//! Load take-down: from what is described to the load along the wall at the underside of the needles.
//!
//! The load comes down storey by storey. At the head of an upper opening its load goes to the jambs as simple-beam
//! reactions, uniform over min(opening height, pier width) of the pier. Below that opening's sill the jamb loads go on
//! either straight down or spread at 45°; both are computed, and each needle takes the larger. Point loads always spread
//! at 45° from their level. Load is conserved at every level. [own model, after common practice of take-down]

use crate::clause::NationalParameters;
use crate::clause::en1991::imposed::q_roof;
use crate::clause::en1991::snow::{RoofSnow, UNKNOWN_ZONE_KN_M2, s_k_uk, s_roof};
use crate::floor_line::has_own_line;
use crate::geometry::{Geometry, roof_bears};
use crate::job::{Direction, Floor, Job, Leaf};
use crate::lone::Lone;
use crate::proposal::Assumption;
use crate::steps::{Channel, Shares, Steps};
use crate::tables::masonry::{GLAZING_KN_M2, PLASTER_KN_M3, material};
use serde_json::json;

/// People at work in a storey kept empty, kN/m². EN 1991-1-6 Table 4.1 (4.11), from memory.
const AT_WORK_KN_M2: f64 = 1.0;

/// Load along the wall at the needles' underside, a step function per leaf.
#[derive(Clone, Debug)]
pub struct TakeDown {
    /// Straight down below the sills of upper openings.
    pub straight: Vec<Steps>,
    /// With the 45° spread going on.
    pub spread: Vec<Steps>,
    /// What bears below the needles' underside over the cut, in words, other than floors, which get a line of their own:
    /// it is not on the needles.
    pub below: Vec<String>,
    /// Point loads one by one.
    pub lone: Vec<Lone>,
}

/// A load on its way down that spreads at 45°.
struct Spreading {
    leaf: usize,
    from: f64,
    to: f64,
    level: f64,
    load: Shares,
}

/// Takes all loads down to the needles' underside.
#[must_use]
pub fn take_down(
    job: &Job,
    geometry: &Geometry,
    national: &NationalParameters,
    assumptions: &mut Vec<Assumption>,
) -> TakeDown {
    let roof = roof_line(job, national, assumptions);
    let mut below: Vec<String> = Vec::new();
    if roof_bears(job) && geometry.top_m < geometry.soffit_m - 1e-9 {
        below.push("the roof".to_owned());
    }
    for point in &job.points {
        let level = geometry
            .floors_m
            .get(point.level as usize)
            .copied()
            .unwrap_or(geometry.top_m);
        if level < geometry.soffit_m - 1e-9 && point.x_m > geometry.cut_left_m && point.x_m < geometry.cut_right_m {
            below.push(point.what.clone());
        }
    }
    TakeDown {
        below,
        lone: Lone::all(job, geometry, |job, spread_on| descend(job, geometry, &roof, spread_on)),
        straight: descend(job, geometry, &roof, false),
        spread: descend(job, geometry, &roof, true),
    }
}

/// Takes all loads straight down to the needles' underside and lists nothing: for what single pieces bring.
#[must_use]
pub fn straight_down(job: &Job, geometry: &Geometry, national: &NationalParameters) -> Vec<Steps> {
    descend(job, geometry, &roof_line(job, national, &mut Vec::new()), false)
}

/// Weight of a leaf with its plaster, kN/m².
#[must_use]
pub fn leaf_weight_kn_m2(leaf: &Leaf) -> f64 {
    let density = leaf
        .density_kn_m3
        .or_else(|| material(leaf.material.name()).map(|row| row.density_kn_m3.value))
        .unwrap_or(24.0);
    (density * leaf.thickness_mm + PLASTER_KN_M3.value * leaf.plaster_mm) / 1000.0
}

/// Length of floor that bears on the wall, m: half of each span, more where the joists run through (three-moment
/// equation), half a joist spacing where they run along.
#[must_use]
pub fn reaction_length_m(floor: &Floor) -> f64 {
    let (a, b) = (floor.inside_span_m, floor.outside_span_m);
    match floor.direction {
        Direction::Along => 0.5 * floor.joist_spacing_m * (f64::from(u8::from(a > 0.0)) + f64::from(u8::from(b > 0.0))),
        Direction::Onto if floor.continuous && a > 0.0 && b > 0.0 => {
            let moment = (a.powi(3) + b.powi(3)) / (8.0 * (a + b));
            0.5 * (a + b) + moment / a + moment / b
        }
        Direction::Onto => 0.5 * (a + b),
    }
}

/// Imposed load of a floor with its partitions, kN/m².
#[must_use]
pub fn floor_imposed_kn_m2(floor: &Floor) -> f64 {
    let people = if floor.empty {
        AT_WORK_KN_M2
    } else {
        floor.imposed_kn_m2
    };
    people + floor.partitions_kn_m2
}

fn floor_line(floor: &Floor) -> Shares {
    let length = reaction_length_m(floor);
    Shares::one(Channel::FloorG, floor.dead_kn_m2 * length)
        .plus(&Shares::one(Channel::FloorQ, floor_imposed_kn_m2(floor) * length))
}

/// Snow on the ground, kN/m²: as entered, else by zone and altitude, else 0.6.
fn ground_snow_kn_m2(job: &Job, assumptions: &mut Vec<Assumption>) -> f64 {
    if let Some(snow) = job.site.snow_kn_m2 {
        return snow;
    }
    if let Some(zone) = job.site.snow_zone {
        return s_k_uk(zone, job.site.altitude_m).s_k_kn_m2;
    }
    assumptions.push(Assumption {
        path: "/site/snow_kn_m2".to_owned(),
        value: json!(UNKNOWN_ZONE_KN_M2),
        words: format!("ground snow taken as {UNKNOWN_ZONE_KN_M2} kN/m²"),
        source: "own judgement".to_owned(),
    });
    UNKNOWN_ZONE_KN_M2
}

/// Load of the roof along the wall, kN/m.
fn roof_line(job: &Job, national: &NationalParameters, assumptions: &mut Vec<Assumption>) -> Shares {
    if !roof_bears(job) {
        return Shares::default();
    }
    let roof = &job.roof;
    let full = roof.span_m / 2.0 + roof.overhang_m;
    let dead = roof.dead_kn_m2 / roof.pitch_deg.to_radians().cos() + roof.ceiling_kn_m2;
    let imposed = q_roof(roof.pitch_deg, national).q_kn_m2;
    let ground = ground_snow_kn_m2(job, assumptions);
    let snow = s_roof(&RoofSnow {
        pitch_deg: roof.pitch_deg,
        s_k_kn_m2: ground,
        c_e: 1.0,
        c_t: 1.0,
    })
    .s_kn_m2;
    // The rafters bring only their lower half where the posts of the purlins are entered as points that bring at least
    // half of what is left off over the opening. Own judgement for "at least half".
    let posts: f64 = job
        .points
        .iter()
        .filter(|point| point.level as usize == job.above.len())
        .map(|point| point.dead_kn + point.imposed_kn)
        .sum();
    let left_off = roof.span_m / 4.0 * (dead + imposed.max(snow)) * job.opening.width_m;
    let rafters = roof.kind == crate::job::RoofKind::Rafters && posts > 0.0 && posts >= 0.5 * left_off;
    let length = if rafters { full - roof.span_m / 4.0 } else { full };
    let g = Shares::one(Channel::RoofG, dead * length);
    let q = if snow > imposed {
        Shares::one(Channel::SnowQ, snow * length)
    } else {
        Shares::one(Channel::RoofQ, imposed * length)
    };
    g.plus(&q)
}

fn descend(job: &Job, geometry: &Geometry, roof: &Shares, spread_on: bool) -> Vec<Steps> {
    let count = geometry.leaves.len();
    let mut down = Descent {
        geometry,
        spread_on,
        flat: vec![Steps::default(); count],
        spreading: Vec::new(),
    };
    if geometry.top_m >= geometry.soffit_m - 1e-9 {
        down.along(&geometry.shares(job.roof.leaf), roof);
    }
    down.gable(job);
    down.points(job, job.above.len(), geometry.top_m);
    let mut top = geometry.top_m;
    let below: Vec<Leaf> = job.wall.leaves.clone();
    let builds: Vec<&Vec<Leaf>> = job
        .above
        .iter()
        .scan(&below, |current, storey| {
            if let Some(leaves) = &storey.leaves {
                *current = leaves;
            }
            Some(*current)
        })
        .collect();
    for (i, storey) in job.above.iter().enumerate().rev() {
        let bearing = geometry.floors_m.get(i).copied().unwrap_or(top);
        let sill_base = bearing + storey.floor.as_ref().map_or(0.0, |floor| floor.joist_depth_m);
        let holes: Vec<Hole> = storey
            .openings
            .iter()
            .map(|o| Hole {
                from: o.x_m,
                to: o.x_m + o.width_m,
                sill: sill_base + o.sill_m,
                head: sill_base + o.sill_m + o.height_m,
            })
            .collect();
        down.course(top, bearing, builds.get(i).copied().unwrap_or(&below), &holes);
        if bearing >= geometry.soffit_m - 1e-9
            && !has_own_line(job, geometry, i)
            && let Some(floor) = &storey.floor
        {
            down.along(&geometry.shares(floor.leaf), &floor_line(floor));
        }
        down.points(job, i, bearing);
        top = bearing;
    }
    let holes: Vec<Hole> = job
        .wall
        .openings
        .iter()
        .filter(|o| o.stays && o.sill_m + o.height_m > geometry.soffit_m)
        .map(|o| Hole {
            from: o.x_m,
            to: o.x_m + o.width_m,
            sill: o.sill_m,
            head: o.sill_m + o.height_m,
        })
        .collect();
    down.course(top, geometry.soffit_m, &below, &holes);
    down.settle(geometry.soffit_m);
    down.flat
}

struct Hole {
    from: f64,
    to: f64,
    sill: f64,
    head: f64,
}

struct Descent<'a> {
    geometry: &'a Geometry,
    spread_on: bool,
    flat: Vec<Steps>,
    spreading: Vec<Spreading>,
}

impl Descent<'_> {
    fn ends(&self) -> (f64, f64) {
        (self.geometry.wall_left_m, self.geometry.wall_right_m)
    }

    /// A line load over the whole described wall.
    fn along(&mut self, shares: &[f64; 2], per_m: &Shares) {
        let (from, to) = self.ends();
        for (steps, share) in self.flat.iter_mut().zip(shares) {
            steps.add(from, to, &per_m.times(*share));
        }
    }

    /// The masonry of a gable over the roof's bearing, as if its full height ran along: an upper bound, since the place of
    /// the apex is not described. [own]
    fn gable(&mut self, job: &Job) {
        let pitched = matches!(
            job.roof.kind,
            crate::job::RoofKind::Trusses | crate::job::RoofKind::Rafters
        );
        if !(job.wall.gable && pitched) {
            return;
        }
        let height = job.roof.span_m / 2.0 * job.roof.pitch_deg.to_radians().tan();
        let top = job
            .above
            .iter()
            .rev()
            .find_map(|storey| storey.leaves.as_ref())
            .unwrap_or(&job.wall.leaves);
        let weights: Vec<f64> = top.iter().map(leaf_weight_kn_m2).collect();
        let (from, to) = self.ends();
        self.masonry(from, to, height, &weights);
    }

    fn points(&mut self, job: &Job, level: usize, height: f64) {
        if height < self.geometry.soffit_m - 1e-9 {
            return;
        }
        for point in job.points.iter().filter(|point| point.level as usize == level) {
            let load =
                Shares::one(Channel::PointG, point.dead_kn).plus(&Shares::one(Channel::PointQ, point.imposed_kn));
            for (leaf, share) in self
                .geometry
                .shares(point.leaf)
                .into_iter()
                .enumerate()
                .filter(|(_, share)| *share > 0.0)
            {
                self.spreading.push(Spreading {
                    leaf,
                    from: point.x_m,
                    to: point.x_m,
                    level: height,
                    load: load.times(share),
                });
            }
        }
    }

    /// Turns all spreading loads into flat ones at a level.
    fn settle(&mut self, level: f64) {
        let (left, right) = self.ends();
        for load in std::mem::take(&mut self.spreading) {
            // A load that has not spread yet still stands on something; 0.1 m keeps it finite. [own]
            let grow = (load.level - level).max(0.0).max(0.05 - 0.5 * (load.to - load.from));
            let from = (load.from - grow).clamp(left, right - 0.1);
            let to = (load.to + grow).clamp(from + 0.1, right.max(from + 0.1));
            if let Some(steps) = self.flat.get_mut(load.leaf) {
                steps.add(from, to, &load.load.times(1.0 / (to - from)));
            }
        }
    }

    /// At the heads of a course's openings the spreading loads come to rest: what stands over an opening goes to its
    /// jambs, what stands clear of all of them goes straight down, or spreads on from their sills.
    fn pass_heads(&mut self, top: f64, holes: &[&Hole]) {
        let Some(highest) = holes.iter().map(|hole| hole.head.min(top)).reduce(f64::max) else {
            return;
        };
        let sill = holes.iter().map(|hole| hole.sill).fold(f64::NEG_INFINITY, f64::max);
        let mut clear = Vec::new();
        if self.spread_on {
            let (left, right) = self.ends();
            let (on, over) = std::mem::take(&mut self.spreading).into_iter().partition(|load| {
                let grow = (load.level - highest).max(0.0);
                let (from, to) = ((load.from - grow).max(left), (load.to + grow).min(right));
                holes
                    .iter()
                    .all(|hole| hole.from >= to - 1e-9 || hole.to <= from + 1e-9)
            });
            self.spreading = over;
            let rest = |load: Spreading| {
                let grow = (load.level - highest).max(0.0);
                let (from, to) = ((load.from - grow).max(left), (load.to + grow).min(right));
                let level = sill;
                Spreading {
                    from,
                    to,
                    level,
                    ..load
                }
            };
            let on: Vec<Spreading> = on;
            clear = on.into_iter().map(rest).collect();
        }
        self.settle(highest);
        self.spreading.extend(clear);
    }

    /// Masonry from `top` down to `bottom`, not below the needles, with its openings.
    fn course(&mut self, top: f64, bottom: f64, leaves: &[Leaf], holes: &[Hole]) {
        let bottom = bottom.max(self.geometry.soffit_m);
        if top <= bottom {
            return;
        }
        let (left, right) = self.ends();
        let holes: Vec<&Hole> = holes
            .iter()
            .filter(|hole| hole.head > bottom && hole.to > left && hole.from < right)
            .collect();
        self.pass_heads(top, &holes);
        let weights: Vec<f64> = leaves.iter().map(leaf_weight_kn_m2).collect();
        for hole in &holes {
            self.opening(hole, (top, bottom), &weights, &holes);
        }
        // The masonry beside the openings, straight down.
        let mut edge = left;
        let mut sorted = holes.clone();
        sorted.sort_by(|a, b| a.from.total_cmp(&b.from));
        for hole in sorted {
            self.masonry(edge, hole.from, top - bottom, &weights);
            edge = edge.max(hole.to);
        }
        self.masonry(edge, right, top - bottom, &weights);
    }

    fn masonry(&mut self, from: f64, to: f64, height: f64, weights: &[f64]) {
        for (steps, weight) in self.flat.iter_mut().zip(weights) {
            steps.add(from, to, &Shares::one(Channel::WallG, weight * height));
        }
    }

    fn opening(&mut self, hole: &Hole, (top, bottom): (f64, f64), weights: &[f64], holes: &[&Hole]) {
        let (left, right) = self.ends();
        let (from, to) = (hole.from.max(left), hole.to.min(right));
        let head = hole.head.min(top);
        let sill = hole.sill.max(bottom);
        self.masonry(from, to, top - head, weights);
        let pier_left = from
            - holes
                .iter()
                .filter(|o| o.to <= from + 1e-9)
                .map(|o| o.to)
                .fold(left, f64::max);
        let pier_right = holes
            .iter()
            .filter(|o| o.from >= to - 1e-9)
            .map(|o| o.from)
            .fold(right, f64::min)
            - to;
        let over = |pier: f64| (head - sill).min(pier).max(0.05);
        let glazing = GLAZING_KN_M2.value * (head - sill) / weights.len().max(1) as f64;
        for leaf in 0..self.flat.len() {
            let Some(steps) = self.flat.get_mut(leaf) else { continue };
            let (on_left, on_right) = steps.lift(from, to);
            let (a, b) = (over(pier_left), over(pier_right));
            // An opening that reaches the end of the described wall has one jamb only.
            let strips = match (pier_left > 1e-9, pier_right > 1e-9) {
                (true, false) => vec![(from - a, from, on_left.plus(&on_right))],
                (false, true) => vec![(to, to + b, on_left.plus(&on_right))],
                (false, false) => vec![(from, to, on_left.plus(&on_right))],
                (true, true) => vec![(from - a, from, on_left), (to, to + b, on_right)],
            };
            for (strip_from, strip_to, load) in strips {
                if self.spread_on {
                    self.spreading.push(Spreading {
                        leaf,
                        from: strip_from,
                        to: strip_to,
                        level: sill,
                        load,
                    });
                } else if let Some(steps) = self.flat.get_mut(leaf) {
                    steps.add(strip_from, strip_to, &load.times(1.0 / (strip_to - strip_from)));
                }
            }
            if let (Some(steps), Some(weight)) = (self.flat.get_mut(leaf), weights.get(leaf)) {
                steps.add(
                    from,
                    to,
                    &Shares::one(Channel::WallG, weight * (sill - bottom).max(0.0) + glazing),
                );
            }
        }
    }
}
