//! What a bracket's arm leaves of each prop at hand.

use super::Kit;
use crate::checks::Side;
use crate::checks::feet;
use crate::legs::leg_length_m;
use crate::props::bracket::{BracketResult, LEAN_DEG, bracket_in_state};
use crate::props::{ECCENTRICITY_LIMIT_MM, State};
use crate::scene::Scene;

/// Ratings of every prop on every make-up of boards, inside and outside, under a bracket's arm.
pub struct Ratings([Vec<Vec<Option<BracketResult>>>; 2]);

impl Ratings {
    /// Rates all props of a scene.
    pub fn of(scene: &Scene<'_>, kit: &Kit) -> Self {
        let table = |side: Side| {
            let input = if side == Side::Inside {
                &scene.job.sides.inside
            } else {
                &scene.job.sides.outside
            };
            // A foot that is not fixed on centre may stand 25 mm off to the same side as the arm.
            let foot_mm = if input.foot.fixed { 0.0 } else { ECCENTRICITY_LIMIT_MM };
            let state = State::new(kit.arm_mm, foot_mm, LEAN_DEG);
            let on = |boards: &feet::Boards| {
                let length = leg_length_m(scene.job, scene.geometry, side, boards);
                let rate = |ready: &crate::ready::Ready| {
                    let (shortest, longest) = ready.data.usable_m().ok()?;
                    let fits = length >= shortest - 1e-9 && length <= longest + 1e-9;
                    fits.then(|| bracket_in_state(&ready.data, length, &state).ok())
                        .flatten()
                };
                scene.props.iter().map(rate).collect()
            };
            scene.boards.iter().map(on).collect()
        };
        Self([table(Side::Inside), table(Side::Outside)])
    }

    /// Rating of one prop on one make-up of boards; none where it does not fit the length.
    pub fn get(&self, side: Side, boards: usize, prop: Option<usize>) -> Option<&BracketResult> {
        let Self([inside, outside]) = self;
        let table = if side == Side::Inside { inside } else { outside };
        table.get(boards)?.get(prop?)?.as_ref()
    }
}
