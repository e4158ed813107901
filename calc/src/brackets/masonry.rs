//! The masonry over brackets: by the checks of needles, with a slot as wide as the plate, and as an arch over it all where
//! only the load triangle is carried.

use super::row::Row;
use crate::checks::arch::{self, OverGap, Wall};
use crate::checks::bearing::{self, Seat};
use crate::checks::strength::LeafStrength;
use crate::checks::{At, Finding, Side, Sink, plate};
use crate::source::{Seen, Source};

/// Friction in a bed joint. Common practice, no source; as for the end bays.
pub const FRICTION: f64 = 0.3;

const OVER_ALL: Source = Source::new(
    "arch over the whole opening, which the load triangle counts on",
    "thrust within the leaf and held by friction 0.3 beside",
    Seen::Model("the flat arch between needles, over the cut width"),
);
/// Renames what the checks of needles say of needles.
struct Renamed<'s, S> {
    sink: &'s mut S,
    outer: Side,
    inner: Side,
}

impl<S: Sink> Sink for Renamed<'_, S> {
    fn put(&mut self, mut finding: Finding, steps: &dyn Fn() -> Vec<String>) {
        let side = if finding.name.ends_with("outer") {
            self.outer
        } else {
            self.inner
        };
        finding.at = match finding.at {
            At::Needle(i) => At::Bracket(i, side),
            At::Between(i) => At::BetweenBrackets(i),
            other => other,
        };
        self.sink.put(finding, &|| {
            steps()
                .into_iter()
                .map(|line| line.replace("needle", "bracket"))
                .collect()
        });
    }
}

impl Row<'_, '_> {
    /// The masonry over and between the brackets, by the same checks as for needles.
    pub fn masonry(&self, axes: &[f64], sink: &mut impl Sink) {
        let scene = self.scene;
        let [along, into] = self.kit.plate_mm;
        let side_of = |leaf: usize| self.lines.iter().find(|line| line.leaf == leaf).map(|line| line.side);
        let outer = side_of(0).unwrap_or(Side::Outside);
        let mut sink = Renamed {
            sink,
            outer,
            inner: side_of(1).unwrap_or(outer),
        };
        let wall = |loads| Wall {
            geometry: scene.geometry,
            loads,
            leaves: &scene.leaves,
            needle_top_m: scene.geometry.soffit_m,
            needle_width_mm: along,
            beside_m: scene.beside_m,
            bearings: &scene.bearings,
        };
        let carried = wall(&self.burden.loads);
        if scene.on_plate(scene.geometry.soffit_m) {
            plate::room(scene.geometry.soffit_m, scene.geometry.top_m, &mut sink);
            plate::check(&carried, axes, scene.job.roof.plate_mm, scene.timber(), &mut sink);
        } else {
            arch::check_bays(&carried, axes, &mut sink);
        }
        if self.burden.triangle {
            self.over_all(&wall(&scene.loads), &mut sink);
        }
        // While the slots are cut nothing is tight: the masonry between them carries everything there is.
        arch::check_holes(&wall(&scene.loads), axes, &mut sink);
        // The plate bears on as much of the leaf as it reaches into.
        let leaves: Vec<LeafStrength> = scene.leaves.iter().map(|leaf| leaf.clone().reached(into)).collect();
        let seat = Seat {
            geometry: scene.geometry,
            leaves: &leaves,
            axes,
            width_mm: along,
            pack_mm: 0.0,
            top_m: scene.geometry.soffit_m,
        };
        for (i, load) in self.burden.loads.needles(axes).iter().enumerate() {
            bearing::check(&seat, i, load, &mut sink);
        }
    }

    /// What the brackets do not carry arches over the whole cut: its thrust within each leaf, and held by friction under the
    /// masonry beside, which carries its own load and the arch's foot. All of the load counts, the triangle's too.
    fn over_all(&self, wall: &Wall<'_>, sink: &mut impl Sink) {
        let (scene, geometry) = (self.scene, self.scene.geometry);
        let (left, right) = (geometry.cut_left_m, geometry.cut_right_m);
        let side_of = |leaf: usize| self.lines.iter().find(|line| line.leaf == leaf).map(|line| line.side);
        for (i, leaf) in scene.leaves.iter().enumerate() {
            let over = OverGap::of(wall, i, leaf, (left, right), (left, right));
            let found = over.arch;
            let permanent = |a: f64, b: f64| {
                let steps = scene.loads.straight(i);
                steps.map_or(0.0, |steps| steps.between(a, b).permanent())
            };
            let foot = permanent(left, right) / 2.0;
            let beside = permanent(left - scene.beside_m.0, left).min(permanent(right, right + scene.beside_m.1));
            let held = FRICTION * (beside + foot);
            let can = found.h_rd_kn.min(held);
            let finding = Finding {
                name: "bracket_arch",
                at: At::Bracket(0, side_of(i).unwrap_or(Side::Outside)),
                demand: found.h_kn,
                resistance: can,
                unit: "kN",
                source: OVER_ALL,
            };
            sink.put(finding, &|| {
                let mut steps = over.steps();
                steps.push(format!(
                    "{FRICTION} × ({beside:.1} kN on the masonry beside + {foot:.1} kN of the arch's foot) = {held:.2} kN"
                ));
                steps
            });
        }
    }
}
