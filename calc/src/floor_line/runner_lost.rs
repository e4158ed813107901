//! One prop of a runner lost: the runner and its other props under what the needles bring at service, no dynamic factor.
//!
//! Service loads stand in for the accidental ones, which are less. A prop carries 1.5 times its working load and never
//! more than the strut's first yield, the ground 1.5 times what it is allowed, as for the needles; the runner carries what
//! it does at strength. [own]

use super::member::{Asked, RUNNER, check as check_member};
use super::runner::Runner;
use crate::checks::feet::{self, Boards, Under};
use crate::checks::{At, Finding, Side, Sink, Worst};
use crate::clause::en1995::design::TimberUse;
use crate::props::Rating;

/// Share of the allowed pressure and of a working load that counts in an accident. Own judgement.
const ACCIDENT: f64 = 1.5;

/// What one prop with its boards carries in an accident, kN.
pub(super) fn can_kn(rating: Option<&Rating>, boards: &Boards, under: Under, timber: TimberUse) -> f64 {
    let prop = rating.map_or(0.0, |rating| (ACCIDENT * rating.working_load_kn).min(rating.r_state_kn));
    // Pressure is in proportion to the load.
    let per_kn = feet::check(boards, under, At::All, 1.0, 0.0, timber, &mut Worst::default())
        .foot(At::All, boards)
        .utilisation;
    prop.min(ACCIDENT / per_kn.max(1e-9))
}

/// Keeps the largest use by strength: sag and permissible stress do not matter in an accident.
struct Strength(f64);

impl Sink for Strength {
    fn put(&mut self, finding: Finding, _steps: &dyn Fn() -> Vec<String>) {
        if finding.name != RUNNER.deflection && finding.name != RUNNER.service {
            self.0 = self.0.max(finding.utilisation());
        }
    }
}

impl Runner<'_> {
    /// Loses each prop in turn, for each way they may stand; words where the others do not hold.
    pub(super) fn lost(&self, side: Side, can_kn: f64) -> Option<String> {
        let mut worst: Option<(String, f64)> = None;
        for props in self.ways() {
            for lost in 0..props.len() {
                let left: Vec<f64> = props
                    .iter()
                    .enumerate()
                    .filter(|(k, _)| *k != lost)
                    .map(|(_, x)| *x)
                    .collect();
                let name = At::RunnerProp(side, lost).to_string();
                let Some(both) = Some(&left).filter(|left| left.len() > 1).and_then(|left| self.on(left)) else {
                    return Some(format!(
                        "If {name} or its foot goes, nothing holds the needles on this runner: this one must not be lost."
                    ));
                };
                let spans = left.iter().zip(left.iter().skip(1)).map(|(a, b)| b - a);
                let mut strength = Strength(both.service.largest_prop_kn() / can_kn.max(1e-9));
                let effects = super::comb::Both {
                    strength: both.service.clone(),
                    service: both.service,
                };
                check_member(
                    At::Runner(side),
                    &RUNNER,
                    &Asked {
                        member: self.member,
                        ply_mm: self.member.width_mm(),
                        effects: &effects,
                        span_m: spans.fold(0.1, f64::max),
                        load_kn: self.needles.iter().map(|needle| needle.service_kn).fold(0.0, f64::max),
                        contact_mm: self.needle_mm,
                        days: self.days,
                        service_class: 3,
                        national: self.national,
                    },
                    &mut strength,
                );
                if strength.0 > worst.as_ref().map_or(1.0, |(_, used)| *used) {
                    worst = Some((name, strength.0));
                }
            }
        }
        worst.map(|(name, used)| {
            format!(
                "If {name} or its foot goes, runner or props are asked for {used:.2} times what they can do: guard them against knocks, keep a spare prop at hand."
            )
        })
    }
}
