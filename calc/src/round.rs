//! A round: today's measurements of each prop held against the proposal that stands, and what to do about them.
//!
//! The lines drawn here (method, section 16) are this project's own judgement unless a source is named.

mod read;
mod schema;
mod types;

pub use schema::{evaluation_schema, schema};
pub use types::{Evaluation, Gauge, GaugeToday, JobChecks, PropToday, Reading, SidewaysToday};

use crate::checks::sideways::{ADDED_SHARE, LEAST_SHARE, gust_kn};
use crate::geometry::Geometry;
use crate::job::{Job, PropInput};
use crate::problem::Problem;
use crate::proposal::Reason;
use crate::props::bracket::bracket_in_state;
use crate::props::{Rating, State, rate};
use crate::ready::{ready, trade_size};
use crate::trend::rules::{GAUGE_STEP_MM, crack_grows, crack_stops, take_up_grows, take_up_sums};
use read::read;
use serde_json::Value;
use types::{Entered, Standing};

/// Take-up while the load comes on that counts as bedding-in, mm.
pub(crate) const BEDDING_MM: f64 = 4.0;
/// The first rounds of a job, in which the support beds in.
pub(crate) const BEDDING_ROUNDS: usize = 2;
/// Take-up in a round later on, mm.
pub(crate) const LATER_MM: f64 = 2.0;
/// Mean lean of a line of props that is told, mm per m.
const LINE_LEAN_MM_M: f64 = 15.0;

#[derive(Default)]
struct Verdict {
    not_passed: bool,
    stop: bool,
    ring: bool,
    out: bool,
    reasons: Vec<Reason>,
}

impl Verdict {
    fn no(&mut self, code: &str, words: String) {
        self.not_passed = true;
        self.reasons.push(Reason::new(code, words));
    }

    fn stop(&mut self, code: &str, words: String, ring: bool) {
        self.stop = true;
        self.ring |= ring;
        self.no(code, words);
    }
}

/// Evaluates a round.
///
/// # Errors
///
/// All problems of the input at once.
pub fn evaluate(round: &Value) -> Result<Evaluation, Vec<Problem>> {
    let (job, entered, [props, of_lines], (earlier, earlier_gauges), bracing) = read(round)?;
    let mut verdict = Verdict::default();
    let mut today = Vec::with_capacity(props.len());
    // The first rounds see the support bed in while the load comes on, whether this prop was looked at in them or not; a
    // crack that changes meanwhile says that it is more than that.
    let still = |gauge: &Gauge| {
        gauge
            .last_mm
            .is_none_or(|last| (gauge.mm - last).abs() < GAUGE_STEP_MM - 1e-9)
    };
    let bedding = earlier.len() < BEDDING_ROUNDS && entered.gauges.iter().all(still);
    let of_needles = props.iter().map(|prop| (prop, false));
    for (prop, of_line) in of_needles.chain(of_lines.iter().map(|prop| (prop, true))) {
        let Some(reading) = entered.readings.iter().find(|reading| reading.prop == prop.name) else {
            verdict.no("not_read", format!("{} was not looked at.", prop.name));
            continue;
        };
        today.push(prop_today(
            &job,
            (prop, of_line),
            reading,
            (&earlier, bedding),
            &mut verdict,
        )?);
    }
    let sideways = sideways(&job, &entered, &props, bracing, &mut verdict);
    let gauges = gauges(&entered, &earlier_gauges, &mut verdict);
    job_checks(&entered, &gauges, &mut verdict);
    Ok(Evaluation {
        passed: !verdict.not_passed,
        stop: verdict.stop,
        ring: verdict.ring,
        out: verdict.out,
        props: today,
        sideways,
        gauges,
        reasons: verdict.reasons,
    })
}

fn prop_today(
    job: &Job,
    (prop, of_line): (&Standing, bool),
    reading: &Reading,
    (earlier, bedding): (&[Vec<Reading>], bool),
    verdict: &mut Verdict,
) -> Result<PropToday, Vec<Problem>> {
    let input = described(job, prop);
    let data = ready(&input)
        .map_err(|(wrong, right)| vec![Problem::new("/option/props", wrong, right)])?
        .data;
    let lean = reading.lean_mm.map(|lean| lean / reading.over_m);
    // Under a bracket the load sits its arm beside the prop, and what the head is off its place comes on top of that.
    let measured = State {
        head_mm: reading.head_off_mm.abs(),
        foot_mm: reading.foot_off_mm.abs(),
        lean_mm_m: lean,
    };
    let name = &prop.name;
    let mut to_do = Vec::new();
    let (kappa, working) = match prop.arm_mm {
        Some(arm_mm) => {
            let state = State {
                head_mm: arm_mm + measured.head_mm,
                ..measured
            };
            let found = bracket_in_state(&data, prop.length_m, &state).ok();
            found.map_or((0.0, 0.0), |found| {
                let working = found.can_kn.min(prop.rated_kn.unwrap_or(0.0));
                (working / found.table_kn.max(1e-9), working)
            })
        }
        None => {
            let rating: Option<Rating> = rate(&data, prop.length_m, &measured).ok();
            rating.map_or((0.0, 0.0), |rating| {
                (
                    rating.working_load_kn / rating.table_kn.max(1e-9),
                    rating.working_load_kn,
                )
            })
        }
    };
    let kappa = kappa.min(1.0);
    let utilisation = if working > 0.0 {
        (prop.load_kn / working).min(99.0)
    } else {
        99.0
    };
    if reading.pin != "right" {
        to_do.push("Put the right pin in, all the way. A bar is not a pin.".to_owned());
        verdict.stop(
            "pin",
            format!(
                "{name}: the pin is {}.",
                if reading.pin == "missing" {
                    "missing"
                } else {
                    "not the right one"
                }
            ),
            true,
        );
    }
    let in_basis = measured.in_basis();
    if !in_basis {
        to_do.push("Put it right before more load comes on: plumb it, centre it.".to_owned());
        verdict.stop(
            "out_of_basis",
            format!("{name}: more than 25 mm off centre or 25 mm per m out of plumb; no prop load allows for that."),
            true,
        );
    }
    if utilisation > 1.0 {
        to_do.push("Bring no more load on it; put it plumb and centred, or add a prop.".to_owned());
        verdict.stop(
            "overloaded",
            format!(
                "{name}: carries {:.1} kN and is good for {working:.1} kN today.",
                prop.load_kn
            ),
            true,
        );
    } else if utilisation > 0.9 {
        to_do.push("Near its limit: put it plumber and more central at the next chance.".to_owned());
    }
    // What `packed` means depends on what the prop's head carries.
    let (unpacked, pack_it) = if prop.arm_mm.is_some() {
        (
            "the bracket's plate is not packed tight under the leaf",
            "Shim the bracket's plate tight under the leaf.",
        )
    } else if of_line {
        (
            "not every joist is packed tight on its header",
            "Pack every joist tight on the header.",
        )
    } else {
        (
            "the needle is not packed and wedged over the full leaf",
            "Pack and wedge the needle over the full leaf.",
        )
    };
    let nos = [
        (
            reading.foot_firm,
            "foot",
            "the board is not firm",
            "Make the board firm before work goes on.",
        ),
        (
            reading.straight,
            "bent",
            "it is bent or dented",
            "Change this prop: set a new one beside it first.",
        ),
        (
            reading.fixed,
            "fixed",
            "head or foot is not fixed",
            "Fix head and foot against a knock.",
        ),
        (reading.packed, "packed", unpacked, pack_it),
    ];
    for (good, code, wrong, what) in nos {
        if !good {
            to_do.push(what.to_owned());
            verdict.no(code, format!("{name}: {wrong}."));
        }
    }
    let turns = |readings: &[Reading]| {
        readings
            .iter()
            .find(|r| &r.prop == name)
            .map(|r| r.collar_turns * r.thread_mm)
    };
    let mut history: Vec<f64> = earlier.iter().filter_map(|round| turns(round)).collect();
    let later = earlier.iter().skip(BEDDING_ROUNDS);
    let since_bedding = later.filter_map(|round| turns(round)).map(|mm| mm.max(0.0)).sum();
    let now = reading.collar_turns * reading.thread_mm;
    history.push(now);
    take_up(name, (&history, since_bedding), bedding, &mut to_do, verdict);
    Ok(PropToday {
        name: name.clone(),
        kappa,
        working_load_kn: working,
        load_kn: prop.load_kn,
        utilisation,
        in_basis,
        take_up_mm: history.iter().sum(),
        to_do,
    })
}

fn take_up(
    name: &str,
    (history, since_bedding): (&[f64], f64),
    bedding: bool,
    to_do: &mut Vec<String>,
    verdict: &mut Verdict,
) {
    let now = history.last().copied().unwrap_or_default();
    // What is taken up while it beds in is summed; what was let down in between takes nothing off.
    let bedded: f64 = history.iter().map(|mm| mm.max(0.0)).sum();
    if now < -LATER_MM {
        to_do.push("Snug it by hand again, and look at its neighbours: they carry what it has let go.".to_owned());
        verdict.no(
            "slackened",
            format!(
                "{name}: let down {:.1} mm since the last round. Before the permit to take out no prop is let down.",
                -now
            ),
        );
    } else if bedding && now > 0.0 && bedded <= BEDDING_MM + 1e-9 {
        to_do.push("Tightened while it beds in: look again in two hours.".to_owned());
    } else if now > if bedding { 0.0 } else { LATER_MM } {
        verdict.stop(
            "take_up",
            format!("{name}: {now:.1} mm taken up since the last round. Something gives way."),
            true,
        );
    } else if !bedding && take_up_sums(since_bedding, now) {
        verdict.stop(
            "take_up_sum",
            format!(
                "{name}: {:.1} mm taken up in all since it bedded in. Something gives way slowly.",
                since_bedding + now
            ),
            true,
        );
    }
    if take_up_grows(history) {
        verdict.stop(
            "take_up_growing",
            format!("{name}: taken up more in each of three rounds running."),
            true,
        );
    }
}

fn described(job: &Job, prop: &Standing) -> PropInput {
    let matches =
        |input: &&PropInput| ready(input).is_ok_and(|ready| ready.kind == prop.kind && ready.size == prop.size);
    let fixed = job.fix.as_ref().and_then(|fix| match &fix.prop {
        Some(crate::job::PropChoice::Given(input)) => Some(input.as_ref()),
        _ => None,
    });
    let found = job.props.iter().chain(fixed).find(matches);
    found
        .cloned()
        .unwrap_or_else(|| trade_size(prop.size.parse().unwrap_or(u32::MAX)))
}

/// What the heavier line of bracket props pushes the wall with: load × arm ÷ length; nothing under needles.
fn push_kn(props: &[Standing]) -> f64 {
    let line = |side: &str| -> f64 {
        let props = props.iter().filter(|prop| prop.name.ends_with(side));
        props
            .filter_map(|prop| Some(prop.load_kn * prop.arm_mm? / 1000.0 / prop.length_m.max(0.5)))
            .sum()
    };
    line("-in").max(line("-out"))
}

fn sideways(
    job: &Job,
    entered: &Entered,
    props: &[Standing],
    [v, across_proposed, along_can, across_can]: [f64; 4],
    verdict: &mut Verdict,
) -> SidewaysToday {
    // The props' loads are each the worst that may come on that one; together they would be more than stands above. Their
    // shares weigh the leans, the true total makes the force.
    let worst_sum: f64 = props.iter().map(|prop| prop.load_kn).sum();
    let share = if worst_sum > 0.0 { v / worst_sum } else { 0.0 };
    let mut leans = [0.0, 0.0];
    for reading in &entered.readings {
        let load = props
            .iter()
            .find(|prop| prop.name == reading.prop)
            .map_or(0.0, |prop| prop.load_kn);
        for (sum, lean) in leans.iter_mut().zip(reading.lean_mm) {
            *sum += share * load * lean / reading.over_m / 1000.0;
        }
    }
    let [along, across] = leans.map(f64::abs);
    if along.max(across) > LINE_LEAN_MM_M / 1000.0 * v && v > 0.0 {
        verdict.reasons.push(Reason::new(
            "line_leans",
            format!(
                "The props lean together, {:.0} mm per m on average: the braces carry more.",
                along.max(across) / v * 1000.0
            ),
        ));
    }
    // What the proposal named beside the least force (wind, the push of brackets) stays in the figure across the wall.
    let demand = |lean: f64, named: f64| (LEAST_SHARE * v).max(lean + named + ADDED_SHARE * v);
    let planned = if across_proposed > LEAST_SHARE * v + 1e-9 {
        (across_proposed - ADDED_SHARE * v).max(0.0)
    } else {
        0.0
    };
    let geometry = Geometry::of(job, &mut Vec::new());
    let wind = entered
        .job_checks
        .wind_m_s
        .map_or(0.0, |wind| gust_kn(job, &geometry, geometry.soffit_m, wind));
    // Under brackets the wind comes on top of their push.
    let wind = if wind > 0.0 { wind + share * push_kn(props) } else { 0.0 };
    if demand(0.0, wind) > across_proposed.max(demand(0.0, planned)) + 1e-9 {
        verdict.stop(
            "wind",
            format!(
                "Wind brings {wind:.1} kN on the wall over the opening, more than the braces were laid out for: stop, nobody beside the wall, and look at everything again when it has dropped."
            ),
            false,
        );
    }
    let named = planned.max(wind);
    let pairs = [(demand(along, 0.0), along_can), (demand(across, named), across_can)];
    let used = |(demand, can): (f64, f64)| if can > 0.0 { (demand / can).min(99.0) } else { 99.0 };
    let [one, other] = pairs;
    let worst = if used(one) >= used(other) { one } else { other };
    if used(worst) > 1.0 {
        verdict.stop(
            "sideways",
            format!(
                "The braces are asked for {:.1} kN and can do {:.1} kN.",
                worst.0, worst.1
            ),
            true,
        );
    }
    SidewaysToday {
        demand_kn: worst.0,
        resistance_kn: worst.1,
        utilisation: used(worst),
    }
}

fn gauges(entered: &Entered, earlier: &[Vec<Gauge>], verdict: &mut Verdict) -> Vec<GaugeToday> {
    let mut out = Vec::with_capacity(entered.gauges.len());
    for gauge in &entered.gauges {
        let since = |earlier: Option<f64>| earlier.map_or(0.0, |earlier| gauge.mm - earlier);
        let (start, last) = (since(gauge.first_mm), since(gauge.last_mm));
        if crack_stops(last, start) {
            verdict.stop(
                "crack",
                format!(
                    "{}: grown {last:.1} mm since the last round, {start:.1} mm since the start.",
                    gauge.name
                ),
                true,
            );
        }
        let before = earlier
            .iter()
            .filter_map(|round| round.iter().find(|row| row.name == gauge.name));
        let history: Vec<f64> = before.map(|row| row.mm).chain([gauge.mm]).collect();
        if crack_grows(&history) {
            verdict.stop(
                "crack_growing",
                format!("{}: grown in each of three rounds running.", gauge.name),
                true,
            );
        }
        out.push(GaugeToday {
            name: gauge.name.clone(),
            since_start_mm: start,
            since_last_mm: last,
        });
    }
    out
}

fn job_checks(entered: &Entered, gauges: &[GaugeToday], verdict: &mut Verdict) {
    let checks = &entered.job_checks;
    if !checks.braces {
        verdict.no("braces", "The braces are not all on.".to_owned());
    }
    if checks.load_on_floors {
        verdict.no(
            "load_on_floors",
            "Load is stacked on the floors above: take it off before work goes on.".to_owned(),
        );
    }
    if checks.digging {
        verdict.stop(
            "digging",
            "Someone digs near the feet: stop the digging, keep out of the trench, ring the engineer.".to_owned(),
            true,
        );
    }
    if checks.doors_stick {
        let growing = gauges
            .iter()
            .any(|gauge| gauge.since_last_mm > 0.0 || gauge.since_start_mm > 0.0);
        if growing {
            verdict.out = true;
            verdict.stop("out", "Cracks grow and doors stick: get out, keep out, no re-tightening in a moving structure. Ring the engineer and building control.".to_owned(), true);
        } else {
            verdict.stop(
                "doors_stick",
                "Doors or windows stick: something moves. Stop and ring the engineer.".to_owned(),
                true,
            );
        }
    }
}
