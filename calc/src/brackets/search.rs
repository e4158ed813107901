//! Where brackets stand: the same grid and rules of place as for needles, with a slot as wide as the plate.

use super::Kit;
use super::burden::Burden;
use super::hold::hold;
use super::ratings::Ratings;
use super::row::{Line, Row};
use crate::candidate::LegChoice;
use crate::checks::{Side, Worst};
use crate::clause::en1996::historic::{ALLOWABLE_N_MM2, LOCAL_FACTOR};
use crate::layout::layouts;
use crate::propose::CLOSE;
use crate::scene::Scene;

/// The best row, or the nearest to passing.
pub struct Best<'a, 'b> {
    /// Its lines.
    pub row: Row<'a, 'b>,
    /// Axes, m.
    pub axes: Vec<f64>,
    /// Leg of each line.
    pub legs: Vec<LegChoice>,
    /// Whether every check passes.
    pub passes: bool,
}

/// Lines that carry every leaf: one each; a single leaf from inside or from outside.
pub fn lines(leaves: usize) -> Vec<Vec<Line>> {
    let on = |leaf, side| Line { leaf, side };
    if leaves == 1 {
        vec![vec![on(0, Side::Inside)], vec![on(0, Side::Outside)]]
    } else {
        vec![vec![on(0, Side::Outside), on(1, Side::Inside)]]
    }
}

/// The fewest brackets used at most 0.90, else at most 1.0, else the nearest to passing; none where no places are allowed.
pub fn search<'a, 'b>(
    scene: &'b Scene<'a>,
    kit: &Kit,
    burden: &'b Burden,
    ratings: &'b Ratings,
) -> Option<Best<'a, 'b>> {
    let [along, _] = kit.plate_mm;
    let mut all = layouts(along, scene.job, scene.geometry, &scene.anchors);
    // Stable, so that symmetric ones stay first among as many.
    all.sort_by_key(Vec::len);
    let mut nearest: Option<(Best<'a, 'b>, f64)> = None;
    for limit in [CLOSE, 1.0] {
        let mut best: Option<(Best<'a, 'b>, f64)> = None;
        for axes in &all {
            if best.as_ref().is_some_and(|(old, _)| old.axes.len() < axes.len()) {
                break;
            }
            for lines in lines(scene.leaves.len()) {
                let row = Row {
                    scene,
                    kit: *kit,
                    burden,
                    ratings,
                    lines,
                };
                let legs = row.choose(axes, limit);
                let bad = badness(&row, axes, &legs);
                let passes = bad <= limit;
                let slot = if passes { &mut best } else { &mut nearest };
                if slot.as_ref().is_none_or(|(_, old)| bad < old - 1e-9) {
                    let found = Best {
                        row,
                        axes: axes.clone(),
                        legs,
                        passes,
                    };
                    *slot = Some((found, bad));
                }
            }
        }
        if let Some((found, _)) = best {
            return Some(found);
        }
    }
    nearest.map(|(found, _)| found)
}

/// The lines that fare best at given places, with their legs.
pub fn at_places<'a, 'b>(
    scene: &'b Scene<'a>,
    kit: &Kit,
    burden: &'b Burden,
    ratings: &'b Ratings,
    axes: &[f64],
) -> Option<Best<'a, 'b>> {
    let judged = lines(scene.leaves.len()).into_iter().map(|lines| {
        let row = Row {
            scene,
            kit: *kit,
            burden,
            ratings,
            lines,
        };
        let legs = row.choose(axes, CLOSE);
        let bad = badness(&row, axes, &legs);
        let found = Best {
            row,
            axes: axes.to_vec(),
            legs,
            passes: bad <= 1.0,
        };
        (found, bad)
    });
    judged.min_by(|a, b| a.1.total_cmp(&b.1)).map(|(found, _)| found)
}

/// Largest use; what fails of place counts for a hundred more.
fn badness(row: &Row<'_, '_>, axes: &[f64], legs: &[LegChoice]) -> f64 {
    let mut worst = Worst::default();
    row.check(axes, legs, &mut worst);
    hold(row, legs).check(&mut worst);
    worst.utilisation + if worst.misfit { 100.0 } else { 0.0 }
}

/// What a bracket at a spacing would carry and what it can, kN, without a search: for the words of a refusal.
pub fn at_spacing(scene: &Scene<'_>, kit: &Kit, burden: &Burden, ratings: &Ratings, spacing_m: f64) -> (f64, f64) {
    let (left, right) = (scene.geometry.cut_left_m, scene.geometry.cut_right_m);
    let heaviest = (0..scene.leaves.len())
        .map(|i| burden.loads.mean_service(i, left, right))
        .fold(0.0, f64::max);
    let boards = 0..scene.boards.len();
    let by_prop = boards
        .flat_map(|boards| (0..scene.props.len()).filter_map(move |prop| ratings.get(Side::Inside, boards, Some(prop))))
        .map(|found| found.can_kn)
        .fold(0.0, f64::max);
    let [along, into] = kit.plate_mm;
    let under_plate = scene
        .leaves
        .iter()
        .map(|leaf| {
            let stress = if leaf.weak_mortar {
                ALLOWABLE_N_MM2 * LOCAL_FACTOR
            } else {
                leaf.fk_n_mm2 / leaf.gamma_m / 1.5
            };
            stress * along * leaf.thickness_mm.min(into) / 1000.0
        })
        .fold(f64::INFINITY, f64::min);
    let can = by_prop.min(kit.rated_kn.unwrap_or(f64::INFINITY)).min(under_plate);
    (heaviest * spacing_m, can)
}
