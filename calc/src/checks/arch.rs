//! The masonry between needles as a flat arch, the end bays, the stage with all holes cut, and the clear masonry.

use super::strength::LeafStrength;
use super::{At, Finding, Sink};
use crate::clause::en1996::arch::{
    Arch, ArchResult, END_BAY_SOURCE, EndBay, EndBayResult, RISE_SHARE, SOURCE as FLAT_ARCH, STAGE_SOURCE, Stage,
    end_bay, flat_arch, stage as stage_of,
};
use crate::demand::Loads;
use crate::geometry::Geometry;
use crate::layout::{clear_asked_m, hole_m};
use crate::lone::Over;
use crate::source::{Seen, Source};

/// Nothing but a roof above and less masonry than this over the needles: the wall plate carries, m. Own judgement.
pub const PLATE_M: f64 = 0.30;
/// An end needle whose nearer edge is this close to the cut edge needs no end bay, m. Common practice, no source.
const AT_EDGE_M: f64 = 0.150;

const CLEAR: Source = Source::new(
    "clear masonry between two holes",
    "at least twice the hole and 440 mm",
    Seen::Practice,
);
const LOOSE: Source = Source::new(
    "loose triangle under the flat arch",
    "what bears inside it is not carried by the arch",
    Seen::Model("half the clear gap high"),
);

/// What the arch checks need to know.
#[derive(Clone, Copy, Debug)]
pub struct Wall<'a> {
    /// Levels and places.
    pub geometry: &'a Geometry,
    /// Loads.
    pub loads: &'a Loads,
    /// Strength of each leaf.
    pub leaves: &'a [LeafStrength],
    /// Level of the needles' top with the pack, m.
    pub needle_top_m: f64,
    /// Width of a needle, mm.
    pub needle_width_mm: f64,
    /// Sound masonry beside the cut on the left and right, m.
    pub beside_m: (f64, f64),
    /// Bearing levels of joists or trusses along the wall, with the leaf each comes down on and what it is.
    pub bearings: &'a [Bearing],
}

/// Something that bears on the wall over the needles all along.
#[derive(Clone, Debug, PartialEq)]
pub struct Bearing {
    /// Level, m.
    pub level_m: f64,
    /// Place, for a point load; none where it bears all along.
    pub x_m: Option<f64>,
    /// What it is.
    pub what: String,
}

/// Checks only what holds where the wall plate carries: clear masonry and the stage with all holes cut.
pub fn check_holes(wall: &Wall<'_>, axes: &[f64], sink: &mut impl Sink) {
    clear(wall, axes, sink);
    stage(wall, axes.len(), sink);
}

/// Checks the masonry of a layout.
pub fn check(wall: &Wall<'_>, axes: &[f64], sink: &mut impl Sink) {
    check_holes(wall, axes, sink);
    check_bays(wall, axes, sink);
}

/// Only the checks of geometry among those of [`check`]: they cost next to nothing, and most layouts fail on them.
pub fn check_places(wall: &Wall<'_>, axes: &[f64], sink: &mut impl Sink) {
    clear(wall, axes, sink);
    let half = wall.needle_width_mm / 2000.0;
    for (i, (a, b)) in axes.iter().zip(axes.iter().skip(1)).enumerate() {
        loose(wall, At::Between(i), (a + half, b - half), b - a - 2.0 * half, sink);
    }
    if let (Some(first), Some(last)) = (axes.first(), axes.last()) {
        let (left, right) = (wall.geometry.cut_left_m, wall.geometry.cut_right_m);
        for (at, from, to) in [(At::Left, left, first - half), (At::Right, last + half, right)] {
            if to - from > AT_EDGE_M + 1e-9 {
                loose(wall, at, (from, to), to - from, sink);
            }
        }
    }
}

/// Checks the masonry that arches between needles, and beside the first and the last.
pub fn check_bays(wall: &Wall<'_>, axes: &[f64], sink: &mut impl Sink) {
    for (i, (a, b)) in axes.iter().zip(axes.iter().skip(1)).enumerate() {
        let half = wall.needle_width_mm / 2000.0;
        let gap = (a + half, b - half);
        bay(wall, At::Between(i), (*a, *b), gap, sink);
        loose(wall, At::Between(i), gap, gap.1 - gap.0, sink);
    }
    let half = wall.needle_width_mm / 2000.0;
    let (left, right) = (wall.geometry.cut_left_m, wall.geometry.cut_right_m);
    if let (Some(first), Some(last)) = (axes.first(), axes.last()) {
        end(wall, At::Left, (left, first - half), wall.beside_m.0, sink);
        end(wall, At::Right, (last + half, right), wall.beside_m.1, sink);
    }
}

/// Names of arch and bearing checks of a leaf: a single leaf counts as the inner one.
#[must_use]
pub fn leaf_names(i: usize, count: usize) -> (&'static str, &'static str) {
    if i == 0 && count > 1 {
        ("arch_outer", "bearing_outer")
    } else {
        ("arch_inner", "bearing_inner")
    }
}

/// The arch of a leaf over a clear gap, with the load that it was found under.
pub struct OverGap {
    /// The arch.
    pub arch: ArchResult,
    mean_kn_m: f64,
    moment_kn_m: f64,
    gap_m: f64,
}

impl OverGap {
    /// The arch of leaf `i` over the clear gap, whose mean load is taken from `a` to `b`. Its thrust follows from the largest
    /// moment of the real load over the gap, and is never less than that of the mean.
    #[must_use]
    pub fn of(wall: &Wall<'_>, i: usize, leaf: &LeafStrength, (a, b): (f64, f64), gap: (f64, f64)) -> Self {
        let gap_m = gap.1 - gap.0;
        let masonry_top_m = wall.geometry.masonry_top_m(a, b);
        // A sliver instead of nothing keeps the thrust finite where no masonry is left: it then fails by far.
        let depth_m = (masonry_top_m - wall.needle_top_m).max(0.001);
        let mean_kn_m = wall.loads.mean_strength(i, a, b);
        let levels = Over {
            crown_m: wall.needle_top_m + RISE_SHARE * depth_m.min(gap_m.max(0.0)),
            masonry_top_m,
        };
        let moment_kn_m = wall.loads.gap_moment_kn_m(i, gap, levels);
        let even = if gap_m > 1e-9 {
            8.0 * moment_kn_m / (gap_m * gap_m)
        } else {
            0.0
        };
        Self {
            arch: flat_arch(&Arch {
                w_kn_m: mean_kn_m.max(even),
                s_mm: gap_m * 1000.0,
                depth_mm: depth_m * 1000.0,
                t_mm: leaf.thickness_mm,
                f_k_n_mm2: leaf.fk_n_mm2,
                gamma_m: leaf.gamma_m,
            }),
            mean_kn_m,
            moment_kn_m,
            gap_m,
        }
    }

    /// The derivation, line by line.
    #[must_use]
    pub fn steps(&self) -> Vec<String> {
        let (s, by_mean) = (self.gap_m, self.mean_kn_m * self.gap_m * self.gap_m / 8.0);
        let largest = self.moment_kn_m.max(by_mean);
        let mut steps = vec![format!(
            "clear gap s = {s:.3} m: M0 = {:.3} kNm, largest moment of the leaf's strength load as it lies; mean {:.2} kN/m · s²/8 = {by_mean:.3} kNm; the larger, as w = 8·M/s² = {:.2} kN/m",
            self.moment_kn_m,
            self.mean_kn_m,
            8.0 * largest / (s * s).max(1e-12)
        )];
        steps.extend(self.arch.steps());
        steps
    }
}

fn bay(wall: &Wall<'_>, at: At, (a, b): (f64, f64), gap: (f64, f64), sink: &mut impl Sink) {
    for (i, leaf) in wall.leaves.iter().enumerate() {
        let over = OverGap::of(wall, i, leaf, (a, b), gap);
        let found = over.arch;
        let finding = Finding {
            name: leaf_names(i, wall.leaves.len()).0,
            at,
            demand: found.h_kn,
            resistance: found.h_rd_kn,
            unit: "kN",
            source: FLAT_ARCH,
        };
        sink.put(finding, &|| {
            let mut steps = over.steps();
            steps.extend(leaf.steps());
            steps
        });
    }
}

fn loose(wall: &Wall<'_>, at: At, (a, b): (f64, f64), gap: f64, sink: &mut impl Sink) {
    for bearing in wall.bearings {
        let over = bearing.level_m - wall.needle_top_m;
        // What bears below the needles' underside is not on them and has a reason of its own; what bears beside a needle
        // or below its top has nothing to arch over it.
        if bearing.level_m < wall.geometry.soffit_m - 1e-9 || bearing.x_m.is_some_and(|x| x <= a || x >= b) {
            continue;
        }
        let finding = Finding {
            name: "arch_loose",
            at,
            demand: gap / 2.0,
            resistance: over.max(1e-6),
            unit: "m",
            source: LOOSE,
        };
        sink.put(finding, &|| {
            vec![
                format!("half the clear gap {:.3} / 2 = {:.3} m", gap, gap / 2.0),
                format!("{} bears {over:.3} m above the needle's top", bearing.what),
            ]
        });
    }
}

fn end(wall: &Wall<'_>, at: At, (from, to): (f64, f64), beside: f64, sink: &mut impl Sink) {
    let s = to - from;
    if s <= AT_EDGE_M + 1e-9 {
        return;
    }
    let cut = wall.geometry.cut_width_m();
    let asked = (0.2 * cut).max(0.6);
    let finding = Finding {
        name: "end_bay_width",
        at,
        demand: asked,
        resistance: beside,
        unit: "m",
        source: END_BAY_SOURCE,
    };
    sink.put(finding, &|| {
        vec![format!(
            "masonry beside the cut {beside:.3} m, asked max(0.6, 0.2 × {cut:.3}) = {asked:.3} m"
        )]
    });
    loose(wall, at, (from, to), s, sink);
    for (i, leaf) in wall.leaves.iter().enumerate() {
        let over = OverGap::of(wall, i, leaf, (from, to), (from, to));
        let found = over.arch;
        // Whichever way the load comes down, it must be held by what the end bay then has; the harder one is told.
        let ways = wall.loads.holds(i, from, to).map(|hold| {
            let n = hold * beside;
            let held = end_bay(&EndBay {
                h_kn: found.h_kn,
                d_mm: found.d_mm,
                n_kn: n,
                width_mm: beside * 1000.0,
                least_width_mm: asked.min(beside) * 1000.0,
            });
            (n, held)
        });
        let harder = |a: &EndBayResult, b: &EndBayResult| (a.h_kn * b.h_rd_kn).total_cmp(&(b.h_kn * a.h_rd_kn));
        let Some((n, held)) = ways.max_by(|a, b| harder(&a.1, &b.1)) else {
            continue;
        };
        let finding = Finding {
            name: "end_bay",
            at,
            demand: held.h_kn,
            resistance: held.h_rd_kn,
            unit: "kN",
            source: END_BAY_SOURCE,
        };
        sink.put(finding, &|| {
            let mut steps = over.steps();
            steps.push(format!(
                "N = permanent load at needle level of this bay × {beside:.3} m of masonry beside = {n:.2} kN"
            ));
            steps.extend(held.steps());
            steps
        });
    }
}

fn stage(wall: &Wall<'_>, count: usize, sink: &mut impl Sink) {
    let (left, right) = (wall.geometry.cut_left_m, wall.geometry.cut_right_m);
    let clear = right - left - count as f64 * hole_m(wall.needle_width_mm);
    for (i, leaf) in wall.leaves.iter().enumerate() {
        let load_kn = wall.loads.mean_strength(i, left, right) * (right - left);
        let found = stage_of(&Stage {
            load_kn,
            t_mm: leaf.thickness_mm,
            clear_mm: clear.max(0.001) * 1000.0,
            f_k_n_mm2: leaf.fk_n_mm2,
            gamma_m: leaf.gamma_m,
        });
        let finding = Finding {
            name: "stage",
            at: At::All,
            demand: found.stress_n_mm2,
            resistance: found.fd_n_mm2,
            unit: "N/mm²",
            source: STAGE_SOURCE,
        };
        sink.put(finding, &|| {
            let mut steps = vec![format!(
                "all holes cut: {clear:.3} m of leaf {} carries {load_kn:.1} kN",
                i + 1
            )];
            steps.extend(found.steps());
            steps.extend(leaf.steps());
            steps
        });
    }
}

fn clear(wall: &Wall<'_>, axes: &[f64], sink: &mut impl Sink) {
    for (i, (a, b)) in axes.iter().zip(axes.iter().skip(1)).enumerate() {
        let hole = hole_m(wall.needle_width_mm);
        let (asked, found) = (clear_asked_m(wall.needle_width_mm), b - a - hole);
        let finding = Finding {
            name: "clear_masonry",
            at: At::Between(i),
            demand: asked,
            resistance: found,
            unit: "m",
            source: CLEAR,
        };
        sink.put(finding, &|| {
            vec![format!(
                "hole = needle + 75 = {:.0} mm; clear {:.0} mm, asked {:.0} mm",
                hole * 1000.0,
                found * 1000.0,
                asked * 1000.0
            )]
        });
    }
}
