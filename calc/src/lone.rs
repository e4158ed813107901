//! Point loads one by one, for the masonry that arches over a gap.
//!
//! At the needles' underside a point load has spread at 45° from its level. The arch over a gap rises most of its depth
//! above the needles, and a load that comes down on it from below or near its crown has hardly spread: there it counts as
//! it lies at the crown's level.

use crate::geometry::Geometry;
use crate::job::Job;
use crate::steps::{Channel, Shares, Steps};

/// Least length over which a load stands, m. As in the take-down. [own]
const STANDS_ON_M: f64 = 0.1;

/// A point load with how it comes down at the needles' underside.
#[derive(Clone, Debug, PartialEq)]
pub struct Lone {
    x_m: f64,
    level_m: f64,
    /// Ends of the described wall, beyond which nothing spreads, m.
    wall_m: (f64, f64),
    /// What it brings to each leaf, kN.
    load: Vec<Shares>,
    /// Where it lies at the needles' underside, by way of coming down (straight, spread) and leaf: from, to, kN/m.
    lies: [Vec<Vec<(f64, f64, Shares)>>; 2],
}

impl Lone {
    /// All point loads at or above the needles, with `descend` taking a job's loads down either way.
    #[must_use]
    pub fn all(job: &Job, geometry: &Geometry, descend: impl Fn(&Job, bool) -> Vec<Steps>) -> Vec<Self> {
        if job.points.is_empty() {
            return Vec::new();
        }
        let mut others = job.clone();
        let all = [false, true].map(|spread| descend(job, spread));
        let mut out = Vec::with_capacity(job.points.len());
        for (i, point) in job.points.iter().enumerate() {
            let level_m = geometry
                .floors_m
                .get(point.level as usize)
                .copied()
                .unwrap_or(geometry.top_m);
            if level_m < geometry.soffit_m - 1e-9 {
                continue;
            }
            others.points.clone_from(&job.points);
            others.points.remove(i);
            // What the others bring, taken away from all, leaves this one; every way down is linear in the loads.
            let own = |all: &[Steps], without: Vec<Steps>| -> Vec<Vec<(f64, f64, Shares)>> {
                all.iter()
                    .zip(without)
                    .map(|(all, without)| {
                        let mut own = all.clone();
                        for (from, to, value) in without.intervals() {
                            own.add(from, to, &value.times(-1.0));
                        }
                        own.intervals()
                            .filter(|(_, _, value)| value.0.iter().any(|part| part.abs() > 1e-9))
                            .map(|(from, to, value)| (from, to, *value))
                            .collect()
                    })
                    .collect()
            };
            let [straight, spread] = &all;
            let lies = [
                own(straight, descend(&others, false)),
                own(spread, descend(&others, true)),
            ];
            let load =
                Shares::one(Channel::PointG, point.dead_kn).plus(&Shares::one(Channel::PointQ, point.imposed_kn));
            let shares = geometry.shares(point.leaf);
            out.push(Self {
                x_m: point.x_m,
                level_m,
                wall_m: (geometry.wall_left_m, geometry.wall_right_m),
                load: shares.iter().map(|share| load.times(*share)).collect(),
                lies,
            });
        }
        out
    }

    /// Puts the load as it lies at the arch's crown in place of how it lies at the needles; `way` is 0 straight down and 1
    /// spread. Whether anything was changed: nothing is where the load stands above the masonry that arches, or spreads
    /// clear of the gap.
    pub fn at_crown(&self, way: usize, leaf: usize, gap: (f64, f64), arch: Over, steps: &mut Steps) -> bool {
        let half = (self.level_m - arch.crown_m).max(STANDS_ON_M / 2.0);
        let (left, right) = self.wall_m;
        let from = (self.x_m - half).clamp(left, (right - STANDS_ON_M).max(left));
        let to = (self.x_m + half).clamp(from + STANDS_ON_M, right.max(from + STANDS_ON_M));
        if self.level_m > arch.masonry_top_m + 1e-9 || to <= gap.0 || from >= gap.1 {
            return false;
        }
        let (Some(load), Some(lies)) = (
            self.load.get(leaf),
            self.lies.get(way).and_then(|leaves| leaves.get(leaf)),
        ) else {
            return false;
        };
        for (from, to, value) in lies {
            steps.add(*from, *to, &value.times(-1.0));
        }
        steps.add(from, to, &load.times(1.0 / (to - from)));
        true
    }
}

/// Levels of an arch over a gap.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Over {
    /// Level of its crown, m.
    pub crown_m: f64,
    /// Top of the unbroken masonry over the gap, m.
    pub masonry_top_m: f64,
}

#[cfg(test)]
mod tests {
    #![expect(clippy::unwrap_used, reason = "a test stops at the first broken promise")]
    use serde_json::{Value, json};

    /// Thrust of an arch check and its place, for a half-brick outer leaf over three needles 0.9 m apart, 0.8 m clear.
    fn thrust(name: &str, at: &str, point: Option<Value>) -> f64 {
        let mut job = crate::example::job("two_storey_cavity").unwrap();
        *job.pointer_mut("/above/0/openings").unwrap() = json!([]);
        *job.pointer_mut("/opening/width_m").unwrap() = json!(2.4);
        *job.pointer_mut("/points").unwrap() = json!(point.into_iter().collect::<Vec<Value>>());
        *job.pointer_mut("/fix").unwrap() =
            json!({"needles_x_m": [0.3, 1.2, 2.1], "section": "SHS100x100x5 S355", "pack_mm": 0});
        let answer = crate::size_value(&job).unwrap();
        let option = answer.options.first().or(answer.nearest.as_ref()).unwrap();
        let mut found = option
            .checks
            .iter()
            .filter(|check| check.name == name && check.at == at);
        found.next().unwrap().demand
    }

    fn post(x_m: f64, level: u32) -> Option<Value> {
        Some(json!({"x_m": x_m, "level": level, "leaf": "outer", "dead_kn": 10.0, "imposed_kn": 0.0, "what": "post"}))
    }

    /// Statics: P over 0.1 m in the middle of a clear 0.8 m gives P·(0.8/4 − 0.1/8), and the arch rises 0.9 × 0.8 m.
    #[test]
    fn a_load_below_the_crown_of_an_arch_thrusts_as_it_stands() {
        let (without, with) = (
            thrust("arch_outer", "N1 to N2", None),
            thrust("arch_outer", "N1 to N2", post(0.75, 0)),
        );
        let more = 1.35 * 10.0 * (0.8 / 4.0 - 0.1 / 8.0) / 0.72;
        assert!((with - without - more).abs() < 1e-6, "{with} {without} {more}");
        // By the mean over the gap alone, with the load spread to the needles, it would be about half of that.
        assert!(more > 1.8 * 1.35 * 10.0 * 0.8 / 8.0 / 0.72);
    }

    /// The roof bears 2.997 m over the needles' top, 2.277 m over the crown: there the load has spread from the wall's left
    /// end at −0.9 m to 0.75 + 2.277 m, at the needles farther. The heavier load at the crown counts.
    #[test]
    fn a_load_high_above_the_arch_has_spread_before_it_comes_down() {
        let (without, with) = (
            thrust("arch_outer", "N1 to N2", None),
            thrust("arch_outer", "N1 to N2", post(0.75, 1)),
        );
        let half: f64 = 5.35 - (2.253 + 0.1 + 0.72);
        let more = 1.35 * 10.0 / (0.75 + half + 0.9) * 0.8 * 0.8 / 8.0 / 0.72;
        assert!((with - without - more).abs() < 1e-6, "{with} {without} {more}");
    }

    /// In an end bay of 0.25 m clear the arch rises 0.225 m and the floor bears 0.397 m over the needles' top: the load has
    /// spread by 0.172 m either way, beyond the bay, and thrusts as an even load.
    #[test]
    fn the_end_bay_takes_the_load_where_it_stands() {
        let (without, with) = (
            thrust("end_bay", "left end", None),
            thrust("end_bay", "left end", post(0.125, 0)),
        );
        let more = 1.35 * 10.0 / (2.0 * 0.172) * 0.25 * 0.25 / 8.0 / 0.225;
        assert!((with - without - more).abs() < 1e-6, "{with} {without} {more}");
    }
}
