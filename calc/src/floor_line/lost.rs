//! One prop of a floor's line lost: header and the other props under the accidental combination, no dynamic factor.
//!
//! A prop carries 1.5 times its working load and never more than the strut's first yield, the ground 1.5 times what it is
//! allowed, as for the needles; the header carries its characteristic strength. [own]

use super::comb::{Effects, OnProps, comb_with};
use super::design::{Choice, Line, Worked};
use crate::checks::At;
use crate::clause::en1995::beam::k_crit;
use crate::clause::en1995::design::{Duration, k_mod};
use crate::proposal::{Foot, OneLost};
use crate::tables::Member;

impl Line<'_> {
    /// Loses each prop in turn, its foot counting with it.
    pub(super) fn lose_each(&self, choice: Choice, worked: &Worked, feet: &[Foot]) -> Vec<OneLost> {
        let stages = self.stages_m(worked.member.depth_mm(), choice.boards);
        // The weakest stage decides for every prop; the ground by what the worst foot was asked for.
        let largest = worked.effects.service.largest_prop_kn();
        let by_prop = stages
            .iter()
            .map(|length| {
                self.prop(*length, largest)
                    .map_or(0.0, |(_, rating)| (1.5 * rating.working_load_kn).min(rating.r_state_kn))
            })
            .fold(f64::INFINITY, f64::min);
        let used = feet.iter().map(|foot| foot.utilisation).fold(0.0, f64::max);
        let can_prop = by_prop.min(1.5 * largest / used.max(1e-9));
        (0..choice.props)
            .map(|lost| self.lose(lost, choice, worked, can_prop))
            .collect()
    }

    fn lose(&self, lost: usize, choice: Choice, worked: &Worked, can_prop_kn: f64) -> OneLost {
        let stages = self.passes.len() + 1;
        let name = At::Post(self.place.floor, self.place.side, lost, (stages > 1).then_some(0)).to_string();
        let beam = OnProps {
            props_m: worked
                .on_props
                .props_m
                .iter()
                .enumerate()
                .filter(|(k, _)| *k != lost)
                .map(|(_, x)| *x)
                .collect(),
            ..worked.on_props.clone()
        };
        let psi = self.scene.national.psi1_floor.value;
        let found = comb_with(
            &beam,
            worked.joists.spacing_m,
            (worked.over.g_kn, worked.over.q_kn),
            (1.0, psi),
        );
        let Some(found) = found.filter(|_| choice.props > 2) else {
            return OneLost {
                words: format!("If {name} or its foot goes, nothing holds this floor: this one must not be lost."),
                lost: name,
                worst: "all".to_owned(),
                utilisation: None,
            };
        };
        let spans = beam.props_m.iter().zip(beam.props_m.iter().skip(1)).map(|(a, b)| b - a);
        let header = self.header_use(worked, &found, spans.fold(0.0, f64::max));
        let prop = found.largest_prop_kn() / can_prop_kn.max(1e-9);
        let (worst, utilisation) = if header > prop {
            (At::Header(self.place.floor, self.place.side).to_string(), header)
        } else {
            ("the next prop".to_owned(), prop)
        };
        let words = if utilisation > 1.0 {
            format!(
                "If {name} or its foot goes, {worst} is asked for {utilisation:.2} times what it can do: guard this line against knocks."
            )
        } else {
            format!(
                "If {name} or its foot goes, the line still holds, {worst} used {:.0} %.",
                utilisation * 100.0
            )
        };
        OneLost {
            lost: name,
            worst,
            utilisation: Some(utilisation),
            words,
        }
    }

    fn header_use(&self, worked: &Worked, found: &Effects, span_m: f64) -> f64 {
        match &worked.member {
            Member::Steel(section, grade) => {
                let bending = section.wpl_y_mm3 * grade.fy_n_mm2 * 1e-6;
                found.moment_kn_m / bending
            }
            Member::Timber { grade, b_mm, h_mm } => {
                let short = k_mod(Duration::Short, self.service_class());
                let tips = k_crit(grade, worked.ply_mm, *h_mm, span_m * 1000.0);
                let bending = grade.fmk_n_mm2 * short * tips * b_mm * h_mm * h_mm / 6.0 * 1e-6;
                let shear = grade.fvk_n_mm2 * short * self.scene.national.k_cr.value * b_mm * h_mm / 1.5 * 1e-3;
                (found.moment_kn_m / bending).max(found.shear_kn / shear)
            }
        }
    }
}
