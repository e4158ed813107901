//! Where needles may stand: layouts to try, and the rules of place that pass or fail.

use crate::geometry::{Geometry, roof_bears};
use crate::job::{Job, RoofKind};

/// Widest spacing ever proposed, m. Common practice, no source.
pub const WIDEST_M: f64 = 1.2;
/// Room around a needle in its hole, all told, mm. Common practice, no source.
pub const HOLE_ROOM_MM: f64 = 75.0;
/// Least clear masonry between two holes, m. Common practice, no source.
const CLEAR_M: f64 = 0.44;
/// Widest cut that one needle alone may hold, m. Common practice, no source.
const SINGLE_M: f64 = 1.2;
/// A truss this near to a cut edge has no sound bearing beside it, m. Own judgement.
const EDGE_M: f64 = 0.05;
/// Step of the search along the wall, m.
const STEP_M: f64 = 0.025;
/// Places nearer than this are one place, m: else the last digits of a sum decide on which side of an edge something stands. Own judgement.
const HAIR_M: f64 = 1e-9;
/// Most needles tried.
const MOST: usize = 24;

/// Places that a needle must stand under.
#[derive(Clone, Debug, Default)]
pub struct Anchors {
    /// Piers between upper openings over the cut, as stretches.
    pub piers: Vec<(f64, f64)>,
    /// Point loads over the cut.
    pub points: Vec<f64>,
    /// Trusses over the cut, in rising order, where nothing but the roof stands above and their places are known.
    pub trusses: Vec<f64>,
}

impl Anchors {
    /// Finds piers and points over the cut.
    #[must_use]
    pub fn of(job: &Job, geometry: &Geometry) -> Self {
        let mut out = Self::default();
        for storey in &job.above {
            let mut openings: Vec<(f64, f64)> = storey.openings.iter().map(|o| (o.x_m, o.x_m + o.width_m)).collect();
            openings.sort_by(|a, b| a.0.total_cmp(&b.0));
            for (left, right) in openings.iter().zip(openings.iter().skip(1)) {
                let (from, to) = (left.1.max(geometry.cut_left_m), right.0.min(geometry.cut_right_m));
                // A pier wholly over the cut, between two openings, has only the needles to stand on.
                let over = left.1 >= geometry.cut_left_m - HAIR_M && right.0 <= geometry.cut_right_m + HAIR_M;
                if over && to > from + HAIR_M {
                    out.piers.push((from, to));
                }
            }
        }
        let over = |x: &f64| *x > geometry.cut_left_m + HAIR_M && *x < geometry.cut_right_m - HAIR_M;
        out.points = job.points.iter().map(|point| point.x_m).filter(over).collect();
        if job.above.is_empty() && roof_bears(job) && job.roof.kind == RoofKind::Trusses {
            // A truss over a cut edge counts as over the cut.
            let near = |x: &f64| *x > geometry.cut_left_m - EDGE_M && *x < geometry.cut_right_m + EDGE_M;
            out.trusses = job.roof.truss_x_m.iter().copied().filter(near).collect();
            out.trusses.sort_by(f64::total_cmp);
        }
        out
    }

    /// Whether a needle stands under every truss over the cut, within its own width; never where none is known.
    #[must_use]
    pub fn under_every_truss(&self, axes: &[f64], needle_width_mm: f64) -> bool {
        let half = needle_width_mm / 2000.0 + 1e-9;
        !self.trusses.is_empty()
            && self
                .trusses
                .iter()
                .all(|truss| axes.iter().any(|x| (x - truss).abs() <= half))
    }
}

/// Width of the hole for a needle, m.
#[must_use]
pub fn hole_m(needle_width_mm: f64) -> f64 {
    (needle_width_mm + HOLE_ROOM_MM) / 1000.0
}

/// Least distance between the axes of two needles, m.
#[must_use]
pub fn least_spacing_m(needle_width_mm: f64) -> f64 {
    let hole = hole_m(needle_width_mm);
    hole + (2.0 * hole).max(CLEAR_M)
}

/// Clear masonry asked between two holes, m.
#[must_use]
pub fn clear_asked_m(needle_width_mm: f64) -> f64 {
    (2.0 * hole_m(needle_width_mm)).max(CLEAR_M)
}

/// Why a layout is not allowed, in words; none where it is.
#[must_use]
pub fn fault(axes: &[f64], needle_width_mm: f64, job: &Job, geometry: &Geometry, anchors: &Anchors) -> Option<String> {
    let hole = hole_m(needle_width_mm);
    let (left, right) = (geometry.cut_left_m, geometry.cut_right_m);
    let (Some(first), Some(last)) = (axes.first(), axes.last()) else {
        return Some("no needle".to_owned());
    };
    if *first - hole / 2.0 < left - 1e-9 || *last + hole / 2.0 > right + 1e-9 {
        return Some("a hole reaches beyond the cut".to_owned());
    }
    if axes.len() == 1 {
        if right - left > SINGLE_M + 1e-9 {
            return Some(format!("one needle alone holds at most {SINGLE_M} m"));
        }
        let third = (right - left) / 3.0;
        if *first < left + third - 1e-9 || *first > right - third + 1e-9 {
            return Some("one needle alone must stand in the middle third".to_owned());
        }
    } else {
        let spacings = axes.iter().zip(axes.iter().skip(1)).map(|(a, b)| b - a);
        let widest = spacings.clone().fold(0.0, f64::max);
        if widest > WIDEST_M + 1e-9 {
            return Some(format!("spacing {widest:.3} m; above {WIDEST_M} m is never proposed"));
        }
        let narrowest = spacings.fold(f64::INFINITY, f64::min);
        if narrowest < least_spacing_m(needle_width_mm) - 1e-9 {
            return Some(format!(
                "only {:.0} mm of masonry stays between two holes; at least {:.0} mm is needed",
                (narrowest - hole) * 1000.0,
                clear_asked_m(needle_width_mm) * 1000.0
            ));
        }
        if (*first - left).max(right - *last) > widest / 2.0 + 1e-9 {
            return Some("an end needle stands farther from the cut edge than half the largest spacing".to_owned());
        }
    }
    let touches = |from: f64, to: f64| {
        axes.iter()
            .any(|x| x + hole / 2.0 > from + 1e-9 && x - hole / 2.0 < to - 1e-9)
    };
    if let Some(forbidden) = job.forbidden.iter().find(|f| touches(f.from_m, f.to_m)) {
        return Some(format!(
            "a hole touches the forbidden stretch {:.2} to {:.2} m ({})",
            forbidden.from_m, forbidden.to_m, forbidden.why
        ));
    }
    let missed = anchors
        .piers
        .iter()
        .find(|(from, to)| !axes.iter().any(|x| *x > from + HAIR_M && *x < to - HAIR_M));
    missed.map(|(from, to)| format!("no needle under the pier from {from:.2} to {to:.2} m"))
}

/// Layouts to try for a needle of this width, symmetric ones first.
#[must_use]
pub fn layouts(needle_width_mm: f64, job: &Job, geometry: &Geometry, anchors: &Anchors) -> Vec<Vec<f64>> {
    let width = geometry.cut_width_m();
    let middle = geometry.cut_left_m + width / 2.0;
    let least = (least_spacing_m(needle_width_mm) / STEP_M - 1e-6).ceil() * STEP_M;
    let mut out: Vec<Vec<f64>> = Vec::new();
    let keep = |axes: Vec<f64>, out: &mut Vec<Vec<f64>>| {
        if fault(&axes, needle_width_mm, job, geometry, anchors).is_none() && !out.contains(&axes) {
            out.push(axes);
        }
    };
    // One needle alone: its middle third, from the middle outwards.
    let sideways = (width / (12.0 * STEP_M) + 1e-9).floor() as i32;
    for shift in (0..=sideways).flat_map(|k| if k == 0 { vec![0] } else { vec![k, -k] }) {
        if width > SINGLE_M + 1e-9 {
            break;
        }
        keep(vec![middle + f64::from(shift) * 2.0 * STEP_M], &mut out);
    }
    if !anchors.trusses.is_empty() {
        keep(anchors.trusses.clone(), &mut out);
    }
    for count in 2..=MOST {
        let gaps = (count - 1) as f64;
        if gaps * least > width {
            break;
        }
        let mut spacing = WIDEST_M;
        while spacing >= least - 1e-9 {
            let end = (width - gaps * spacing) / 2.0;
            if end > -1e-9 && end <= spacing / 2.0 + 1e-9 {
                let free = ((spacing / 2.0 - end) / (2.0 * STEP_M)).floor().clamp(0.0, 6.0) as i32;
                for shift in (0..=free).flat_map(|k| if k == 0 { vec![0] } else { vec![k, -k] }) {
                    let from = middle - gaps * spacing / 2.0 + f64::from(shift) * 2.0 * STEP_M;
                    let axes: Vec<f64> = (0..count).map(|i| from + i as f64 * spacing).collect();
                    for moved in moved_to(&axes, needle_width_mm, job, anchors) {
                        keep(moved, &mut out);
                    }
                    keep(axes, &mut out);
                }
            }
            spacing -= STEP_M;
        }
    }
    out
}

/// The same layout with its nearest needle under each point and pier, and with needles beside forbidden stretches.
fn moved_to(axes: &[f64], needle_width_mm: f64, job: &Job, anchors: &Anchors) -> Vec<Vec<f64>> {
    let mut out = Vec::new();
    let targets: Vec<f64> = anchors
        .points
        .iter()
        .copied()
        .chain(anchors.piers.iter().map(|(a, b)| 0.5 * (a + b)))
        .collect();
    if !targets.is_empty() {
        let mut moved = axes.to_vec();
        for target in &targets {
            let nearest = moved
                .iter_mut()
                .min_by(|a, b| (**a - target).abs().total_cmp(&(**b - target).abs()));
            if let Some(nearest) = nearest {
                *nearest = *target;
            }
        }
        out.push(moved);
    }
    let half = hole_m(needle_width_mm) / 2.0;
    for forbidden in &job.forbidden {
        for beside in [forbidden.from_m - half, forbidden.to_m + half] {
            let mut moved = axes.to_vec();
            for x in &mut moved {
                if *x + half > forbidden.from_m && *x - half < forbidden.to_m {
                    *x = beside;
                }
            }
            out.push(moved);
        }
    }
    out
}
