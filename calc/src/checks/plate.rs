//! Most bungalows: little or no masonry over the needles, so the wall plate carries the roof from needle to needle.

use super::arch::Wall;
use super::{At, Finding, Sink};
use crate::clause::en1995::design::TimberUse;
use crate::source::{Seen, Source};
use crate::tables::timber::grade;

const PLATE: Source = Source::new(
    "EN 1995-1-1:2004",
    "6.1.6, wall plate as simple beams between needles",
    Seen::Memory,
);

const POINT: Source = Source::new("point loads on a wall plate", "a needle under each", Seen::Own);
const ROOM: Source = Source::new(
    "room under the wall plate",
    "the needle's top stays at or below it",
    Seen::Own,
);

/// Checks that the needle fits under the wall plate.
pub fn room(needle_top_m: f64, plate_m: f64, sink: &mut impl Sink) {
    let finding = Finding {
        name: "room_under_plate",
        at: At::All,
        demand: needle_top_m,
        resistance: plate_m,
        unit: "m",
        source: ROOM,
    };
    sink.put(finding, &|| {
        vec![format!(
            "needle's top with its pack {needle_top_m:.3} m, wall plate {plate_m:.3} m"
        )]
    });
}

/// Checks the wall plate, C16, `[width, depth]` mm, between needles that stand at `axes`.
pub fn check(wall: &Wall<'_>, axes: &[f64], plate_mm: [f64; 2], timber: TimberUse, sink: &mut impl Sink) {
    let (loads, leaves, needle_width_mm) = (wall.loads, wall.leaves.len(), wall.needle_width_mm);
    let cut = (wall.geometry.cut_left_m, wall.geometry.cut_right_m);
    let [width, depth] = plate_mm;
    let Some(c16) = grade("C16") else { return };
    let design = timber.design_values(c16, 2);
    let modulus = width * depth * depth / 6.0;
    let can = design.fmd_n_mm2 * modulus * 1e-6;
    let half = needle_width_mm / 2000.0;
    for bearing in wall.bearings {
        let Some(x) = bearing.x_m.filter(|x| *x > cut.0 && *x < cut.1) else {
            continue;
        };
        let off = axes.iter().map(|axis| (axis - x).abs()).fold(f64::INFINITY, f64::min);
        let finding = Finding {
            name: "plate_point",
            at: At::All,
            demand: off,
            resistance: half,
            unit: "m",
            source: POINT,
        };
        sink.put(finding, &|| {
            vec![format!(
                "{} at {x:.3} m stands {off:.3} m beside the nearest needle's axis; the plate carries no point load",
                bearing.what
            )]
        });
    }
    let mut bays: Vec<(At, f64, f64, f64)> = axes
        .iter()
        .zip(axes.iter().skip(1))
        .enumerate()
        .map(|(i, (a, b))| (At::Between(i), a + half, b - half, 8.0))
        .collect();
    // At the ends the plate rests on the needle and on the wall beside the cut.
    if let (Some(first), Some(last)) = (axes.first(), axes.last()) {
        bays.push((At::Left, cut.0, first - half, 8.0));
        bays.push((At::Right, last + half, cut.1, 8.0));
    }
    for (at, a, b, divisor) in bays {
        let span = b - a;
        if span <= 1e-6 {
            continue;
        }
        let load: f64 = (0..leaves).map(|i| loads.mean_strength(i, a, b)).sum();
        let moment = load * span * span / divisor;
        sink.put(
            Finding {
                name: "plate_bending",
                at,
                demand: moment,
                resistance: can,
                unit: "kNm",
                source: PLATE,
            },
            &|| {
                let mut steps = design.steps();
                steps.push(format!(
                    "W = {width:.0} × {depth:.0}² / 6 = {modulus:.0} mm³; M_Rd = {can:.3} kNm"
                ));
                steps.push(format!("M = {load:.2} × {span:.3}² / {divisor} = {moment:.3} kNm"));
                steps
            },
        );
    }
}
