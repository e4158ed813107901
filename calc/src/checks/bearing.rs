//! The masonry that a needle bears on, leaf by leaf.

use super::arch::leaf_names;
use super::strength::LeafStrength;
use super::{At, Finding, Sink};
use crate::clause::en1996::concentrated::{Concentrated, SOURCE as N_RDC, effective_length_mm, n_rdc_concentrated};
use crate::clause::en1996::historic::{Historic, SOURCE as HISTORIC, historic_bearing};
use crate::demand::NeedleLoad;
use crate::geometry::Geometry;

/// Steel packs tried, mm.
pub const PACKS_MM: &[f64] = &[0.0, 10.0, 15.0, 20.0, 25.0];
/// Least height of masonry taken over a needle, m.
const LEAST_HEIGHT_M: f64 = 0.2;

/// A needle in the row, as the masonry sees it.
#[derive(Clone, Copy, Debug)]
pub struct Seat<'a> {
    /// Levels and places.
    pub geometry: &'a Geometry,
    /// Strength of each leaf.
    pub leaves: &'a [LeafStrength],
    /// Axes of all needles, m.
    pub axes: &'a [f64],
    /// Width of a needle, mm.
    pub width_mm: f64,
    /// Steel pack, mm.
    pub pack_mm: f64,
    /// Level of the pack's top, m.
    pub top_m: f64,
}

/// Checks the masonry over needle `i`.
pub fn check(seat: &Seat<'_>, i: usize, load: &NeedleLoad, sink: &mut impl Sink) {
    let Some(x) = seat.axes.get(i).copied() else { return };
    let half = seat.width_mm / 2000.0;
    let (left, right) = (seat.geometry.cut_left_m, seat.geometry.cut_right_m);
    // The spread stops halfway to the next needle and at the cut edge.
    let before = i
        .checked_sub(1)
        .and_then(|k| seat.axes.get(k))
        .map_or(left, |other| 0.5 * (other + x));
    let after = seat.axes.get(i + 1).map_or(right, |other| 0.5 * (other + x));
    let height = seat.geometry.masonry_to_bearing_m(seat.top_m).max(LEAST_HEIGHT_M);
    let to_edge = (x - half - left).min(right - x - half).max(0.0);
    for (k, leaf) in seat.leaves.iter().enumerate() {
        let name = leaf_names(k, seat.leaves.len()).1;
        let length = seat.width_mm + 2.0 * seat.pack_mm;
        let at = At::Needle(i);
        if leaf.weak_mortar {
            let demand = load.leaf_service_kn.get(k).copied().unwrap_or_default();
            let found = historic_bearing(&Historic {
                load_kn: demand,
                width_mm: length,
                t_mm: leaf.thickness_mm,
            });
            let can = found.allow_kn;
            sink.put(
                Finding {
                    name,
                    at,
                    demand,
                    resistance: can,
                    unit: "kN",
                    source: HISTORIC,
                },
                &|| {
                    let mut steps = vec![format!(
                        "lime or weak mortar, bearing {length:.0} × {:.1} mm",
                        leaf.thickness_mm
                    )];
                    steps.extend(found.steps());
                    steps
                },
            );
            continue;
        }
        let spread = half + seat.pack_mm / 1000.0;
        let lefm_mm = effective_length_mm(
            length,
            height * 1000.0,
            (x - spread - before) * 1000.0,
            (after - x - spread) * 1000.0,
        );
        let found = n_rdc_concentrated(&Concentrated {
            lb_mm: length,
            t_mm: leaf.thickness_mm,
            hc_mm: height * 1000.0,
            a1_mm: to_edge * 1000.0,
            lefm_mm,
            f_k_n_mm2: leaf.fk_n_mm2,
            gamma_m: leaf.gamma_m,
            group_1: leaf.group1,
        });
        let demand = load.leaf_strength_kn.get(k).copied().unwrap_or_default();
        sink.put(
            Finding {
                name,
                at,
                demand,
                resistance: found.n_rdc_kn,
                unit: "kN",
                source: N_RDC,
            },
            &|| {
                let mut steps = leaf.steps();
                steps.extend(found.steps());
                steps.push(format!("leaf {} brings {demand:.2} kN", k + 1));
                steps
            },
        );
    }
}
