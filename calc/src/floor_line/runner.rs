//! A runner: a beam along the wall under several needles, on fewer props than needles.

use super::comb::{Both, Effects, OnProps, PointLoad, effects};
use super::member::{Asked, BEYOND_MM, RUNNER, check as check_member};
use super::runner_lost::can_kn;
use crate::checks::feet::{self, BOARDS, Boards, Under};
use crate::checks::prop::{rate_design, stand};
use crate::checks::{At, Full, Side, Sink, Worst};
use crate::clause::NationalParameters;
use crate::clause::en1995::design::TimberUse;
use crate::job::{BuildersPlan, Job, PropChoice, PropInput, Side as SideInput};
use crate::proposal::{Check, Opt};
use crate::ready::{Ready, ready, trade_size};
use crate::tables::Member;
use crate::tables::members::parse_member;

/// Props under a runner.
#[derive(Clone, Debug, PartialEq)]
pub enum Props {
    /// At these places, m along the wall.
    At(Vec<f64>),
    /// At this spacing, m; how they fall under the needles is not said, so the worst of four ways counts.
    Every(f64),
}

/// A needle's load on a runner.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FromNeedle {
    /// Place along the wall, m.
    pub x_m: f64,
    /// At service, kN.
    pub service_kn: f64,
    /// At strength, kN.
    pub strength_kn: f64,
}

/// A runner.
#[derive(Clone, Debug)]
pub struct Runner<'a> {
    /// What it is made of.
    pub member: &'a Member,
    /// Its props.
    pub props: Props,
    /// Needles on it, in rising order.
    pub needles: &'a [FromNeedle],
    /// Width of a needle on it, mm.
    pub needle_mm: f64,
    /// Days it stands.
    pub days: f64,
    /// Nationally determined values.
    pub national: &'a NationalParameters,
}

/// What comes down on a prop of the runner.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct OnProp {
    /// At service, kN.
    pub service_kn: f64,
    /// At strength, kN.
    pub strength_kn: f64,
}

/// What the runners of a plan come to.
#[derive(Clone, Debug, Default)]
pub struct Judged {
    /// Checks of runners, props and feet.
    pub checks: Vec<Check>,
    /// In words, what happens where one of their props is lost and the others do not hold.
    pub lost: Option<String>,
}

/// Judges the runners of a builder's plan on both sides, with the props and feet under them, for an option whose needles
/// follow the plan.
///
/// # Errors
/// In words, what of the plan is not understood or holds nothing.
pub fn judge(job: &Job, plan: &BuildersPlan, option: &Opt, national: &NationalParameters) -> Result<Judged, String> {
    let Some(input) = &plan.runner else {
        return Ok(Judged::default());
    };
    let section = parse_member(&input.section).map_err(|error| format!("Runner: {error}."))?;
    let props = match (&input.props_x_m, input.spacing_m) {
        (Some(places), _) if places.len() > 1 => Props::At(places.clone()),
        (_, Some(spacing)) => Props::Every(spacing),
        _ => return Err("Runner: places of at least two props, or their spacing, are missing.".to_owned()),
    };
    let at_hand = at_hand(job, plan)?;
    let needle_mm = option
        .needles
        .first()
        .and_then(|needle| parse_member(&needle.section).ok())
        .map_or(100.0, |needle| needle.member.width_mm());
    let mut full = Full::default();
    let mut lost = None;
    for (side, input) in [(Side::Inside, &job.sides.inside), (Side::Outside, &job.sides.outside)] {
        let needles = from_needles(option, side, national.gamma_q.value);
        let runner = Runner {
            member: &section.member,
            props: props.clone(),
            needles: &needles,
            needle_mm,
            days: job.site.days,
            national,
        };
        let loads = runner.check(side, &mut full).ok_or_else(|| {
            "Runner: its props hold nothing where they stand; the needles must lie between them.".to_owned()
        })?;
        let legs = Legs {
            side,
            input,
            loads: &loads,
            top_m: option.needle_soffit_m - section.member.depth_mm() / 1000.0,
            timber: TimberUse {
                days: job.site.days,
                gamma_m: national.gamma_m_timber.value,
            },
        };
        let can = legs.check(&at_hand, &mut full);
        lost = lost.or_else(|| runner.lost(side, can));
    }
    Ok(Judged {
        checks: full.checks,
        lost,
    })
}

/// Loads of the needles on a side. The strength load is the one that the needle's own foot was asked to carry; where that
/// is not found, the service load times the larger partial factor.
fn from_needles(option: &Opt, side: Side, larger_factor: f64) -> Vec<FromNeedle> {
    let on_side = option.props.iter().filter(|prop| prop.side == side.word());
    let mut out: Vec<FromNeedle> = on_side
        .filter_map(|prop| {
            let needle = option.needles.iter().find(|needle| needle.name == prop.needle)?;
            let foot = option
                .checks
                .iter()
                .find(|check| check.name == "board_bearing" && check.at == prop.name);
            Some(FromNeedle {
                x_m: needle.x_m,
                service_kn: prop.load_kn,
                strength_kn: foot.map_or(larger_factor * prop.load_kn, |check| check.demand),
            })
        })
        .collect();
    out.sort_by(|a, b| a.x_m.total_cmp(&b.x_m));
    out
}

fn at_hand(job: &Job, plan: &BuildersPlan) -> Result<Vec<Ready>, String> {
    let inputs: Vec<PropInput> = match &plan.prop {
        Some(PropChoice::Given(input)) => vec![input.as_ref().clone()],
        Some(PropChoice::Named(name)) => job.props.iter().filter(|prop| &prop.name == name).cloned().collect(),
        None if job.props.is_empty() => (0..=4).map(trade_size).collect(),
        None => job.props.clone(),
    };
    let mut out = Vec::with_capacity(inputs.len());
    for input in &inputs {
        out.push(ready(input).map_err(|(wrong, right)| format!("Prop: {wrong}; right would be {right}."))?);
    }
    Ok(out)
}

/// One side's legs under a runner.
struct Legs<'a> {
    side: Side,
    input: &'a SideInput,
    loads: &'a [OnProp],
    /// Underside of the runner, m.
    top_m: f64,
    timber: TimberUse,
}

impl Legs<'_> {
    /// Checks props and feet with one make-up of boards and one prop, or none.
    fn with(&self, boards: &Boards, ready: Option<&Ready>, sink: &mut impl Sink) {
        let under = Under::of(&self.input.foot);
        let length = self.top_m - self.input.foot_level_m - boards.thickness_mm() / 1000.0;
        let rating = ready.and_then(|ready| rate_design(ready, length, self.input.foot.fixed));
        for (k, load) in self.loads.iter().enumerate() {
            let at = At::RunnerProp(self.side, k);
            stand(at, rating.as_ref(), length, load.service_kn, sink);
            feet::check(boards, under, at, load.service_kn, load.strength_kn, self.timber, sink);
        }
    }

    /// Checks them with the prop and boards that are used least; what one of them carries in an accident comes back, kN.
    fn check(&self, at_hand: &[Ready], sink: &mut impl Sink) -> f64 {
        let mut best: Option<(f64, &Boards, Option<&Ready>)> = None;
        for boards in BOARDS {
            for ready in at_hand.iter().map(Some).chain([None]) {
                let mut worst = Worst::default();
                self.with(boards, ready, &mut worst);
                if best.is_none_or(|(old, ..)| worst.utilisation < old - 1e-9) {
                    best = Some((worst.utilisation, boards, ready));
                }
            }
        }
        let Some((_, boards, ready)) = best else {
            return 0.0;
        };
        self.with(boards, ready, sink);
        let length = self.top_m - self.input.foot_level_m - boards.thickness_mm() / 1000.0;
        let rating = ready.and_then(|ready| rate_design(ready, length, self.input.foot.fixed));
        can_kn(rating.as_ref(), boards, Under::of(&self.input.foot), self.timber)
    }
}

/// Ways of starting a comb of props under the needles, in shares of the spacing.
const STARTS: [f64; 4] = [0.0, 0.25, 0.5, 0.75];

impl Runner<'_> {
    /// Prop axes to be looked at, one list for each way they may fall, m along the wall.
    pub(super) fn ways(&self) -> Vec<Vec<f64>> {
        let (Some(first), Some(last)) = (self.needles.first(), self.needles.last()) else {
            return Vec::new();
        };
        match &self.props {
            Props::At(places) => {
                let mut places = places.clone();
                places.sort_by(f64::total_cmp);
                places.dedup_by(|a, b| (*a - *b).abs() < 0.01);
                vec![places]
            }
            Props::Every(spacing) => STARTS
                .iter()
                .map(|share| {
                    let from = first.x_m - share * spacing;
                    let count = ((last.x_m - from) / spacing - 1e-9).ceil().clamp(1.0, 60.0) as u32;
                    (0..=count).map(|k| from + f64::from(k) * spacing).collect()
                })
                .collect(),
        }
    }

    /// Effects of the needles' loads on props at given axes; none where nothing holds it.
    pub(super) fn on(&self, props: &[f64]) -> Option<Both> {
        let beyond = BEYOND_MM / 1000.0;
        let ends = props
            .iter()
            .copied()
            .chain(self.needles.iter().map(|needle| needle.x_m));
        let from = ends.clone().fold(f64::INFINITY, f64::min) - beyond;
        let to = ends.fold(f64::NEG_INFINITY, f64::max) + beyond;
        // Service and strength loads are known apart for each needle, so both run as given loads.
        let run = |load: fn(&FromNeedle) -> f64, weight: f64| -> Option<Effects> {
            let beam = OnProps {
                length_m: to - from,
                props_m: props.iter().map(|x| x - from).collect(),
                weight_kn_m: weight * self.member.mass_kg_m() * 9.81e-3,
            };
            let loads: Vec<PointLoad> = self
                .needles
                .iter()
                .map(|needle| PointLoad {
                    x_m: needle.x_m - from,
                    g_kn: load(needle),
                    q_kn: 0.0,
                })
                .collect();
            effects(&beam, &loads, (1.0, 1.0)).map(|both| both.service)
        };
        Some(Both {
            service: run(|needle| needle.service_kn, 1.0)?,
            strength: run(|needle| needle.strength_kn, self.national.gamma_g.value)?,
        })
    }

    /// Checks the runner on a side; the loads of its props come back for the worst way, none where nothing holds it.
    pub fn check(&self, side: Side, sink: &mut impl Sink) -> Option<Vec<OnProp>> {
        let mut worst: Option<(f64, Vec<OnProp>)> = None;
        for props in self.ways() {
            let both = self.on(&props)?;
            let span_m = props
                .iter()
                .zip(props.iter().skip(1))
                .map(|(a, b)| b - a)
                .fold(0.1, f64::max);
            check_member(
                At::Runner(side),
                &RUNNER,
                &Asked {
                    member: self.member,
                    ply_mm: self.member.width_mm(),
                    effects: &both,
                    span_m,
                    load_kn: self.needles.iter().map(|needle| needle.strength_kn).fold(0.0, f64::max),
                    contact_mm: self.needle_mm,
                    days: self.days,
                    // Timber under a wall that is open to the weather.
                    service_class: 3,
                    national: self.national,
                },
                sink,
            );
            let loads: Vec<OnProp> = both
                .service
                .props_kn
                .iter()
                .zip(&both.strength.props_kn)
                .map(|(service_kn, strength_kn)| OnProp {
                    service_kn: *service_kn,
                    strength_kn: *strength_kn,
                })
                .collect();
            let heaviest = both.service.largest_prop_kn();
            if worst.as_ref().is_none_or(|(old, _)| heaviest > *old) {
                worst = Some((heaviest, loads));
            }
        }
        worst.map(|(_, loads)| loads)
    }
}
