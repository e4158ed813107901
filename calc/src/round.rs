//! A round: today's measurements of each prop held against the proposal that stands, and what to do about them.
//!
//! The lines drawn here (method, section 16) are this project's own judgement unless a source is named.

use crate::job::schema::{Reader, json_schema};
use crate::job::{Job, PropInput, ROUND};
use crate::problem::Problem;
use crate::proposal::Reason;
use crate::props::{Rating, State, rate};
use crate::ready::{ready, trade_size};
use serde::{Deserialize, Serialize};
use serde_json::{Value, json};

/// Take-up while the load comes on that counts as bedding-in, mm.
const BEDDING_MM: f64 = 4.0;
/// Take-up in a round later on, mm.
const LATER_MM: f64 = 2.0;
/// Growth of a crack gauge since the last round and since the start, mm.
const GAUGE_LAST_MM: f64 = 0.5;
const GAUGE_START_MM: f64 = 1.0;
/// Mean lean of a line of props that is told, mm per m.
const LINE_LEAN_MM_M: f64 = 15.0;

/// One prop's reading.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[allow(missing_docs, reason = "keys are the contract's own")]
pub struct Reading {
    pub prop: String,
    pub pin: String,
    pub collar_turns: f64,
    pub thread_mm: f64,
    pub lean_mm: [f64; 2],
    pub over_m: f64,
    pub head_off_mm: f64,
    pub foot_off_mm: f64,
    pub foot_firm: bool,
    pub straight: bool,
    pub fixed: bool,
    pub packed: bool,
}

/// A crack gauge.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[allow(missing_docs, reason = "keys are the contract's own")]
pub struct Gauge {
    pub name: String,
    pub mm: f64,
    pub first_mm: Option<f64>,
    pub last_mm: Option<f64>,
}

/// Checks of the whole job.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[allow(missing_docs, reason = "keys are the contract's own")]
pub struct JobChecks {
    pub braces: bool,
    pub doors_stick: bool,
    pub load_on_floors: bool,
    pub digging: bool,
    pub wind_m_s: Option<f64>,
}

#[derive(Clone, Debug, Deserialize)]
struct Entered {
    readings: Vec<Reading>,
    gauges: Vec<Gauge>,
    job_checks: JobChecks,
}

/// A prop of the option that stands, as the round needs it.
#[derive(Clone, Debug, Deserialize)]
struct Standing {
    name: String,
    kind: String,
    size: String,
    length_m: f64,
    load_kn: f64,
}

/// One prop today.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[allow(missing_docs, reason = "keys are the contract's own")]
pub struct PropToday {
    pub name: String,
    pub kappa: f64,
    pub working_load_kn: f64,
    pub load_kn: f64,
    pub utilisation: f64,
    pub in_basis: bool,
    pub take_up_mm: f64,
    #[serde(rename = "do")]
    pub to_do: Vec<String>,
}

/// Sideways force today.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[allow(missing_docs, reason = "keys are the contract's own")]
pub struct SidewaysToday {
    pub demand_kn: f64,
    pub resistance_kn: f64,
    pub utilisation: f64,
}

/// A gauge today.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[allow(missing_docs, reason = "keys are the contract's own")]
pub struct GaugeToday {
    pub name: String,
    pub since_start_mm: f64,
    pub since_last_mm: f64,
}

/// What a round says.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[allow(missing_docs, reason = "keys are the contract's own")]
pub struct Evaluation {
    pub passed: bool,
    pub stop: bool,
    pub ring: bool,
    pub out: bool,
    pub props: Vec<PropToday>,
    pub sideways: SidewaysToday,
    pub gauges: Vec<GaugeToday>,
    pub reasons: Vec<Reason>,
}

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
    let (job, entered, props, earlier, bracing) = read(round)?;
    let mut verdict = Verdict::default();
    let mut today = Vec::with_capacity(props.len());
    for prop in &props {
        let Some(reading) = entered.readings.iter().find(|reading| reading.prop == prop.name) else {
            verdict.no("not_read", format!("{} was not looked at.", prop.name));
            continue;
        };
        today.push(prop_today(&job, prop, reading, &earlier, &mut verdict)?);
    }
    let sideways = sideways(&entered, &props, bracing, &mut verdict);
    let gauges = gauges(&entered, &mut verdict);
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

type Read = (Job, Entered, Vec<Standing>, Vec<Vec<Reading>>, [f64; 3]);

fn read(round: &Value) -> Result<Read, Vec<Problem>> {
    let map = round
        .as_object()
        .ok_or_else(|| vec![Problem::new("", "not an object", "a round as `calc schema round` says")])?;
    let known = [
        "contract",
        "job",
        "option",
        "earlier",
        "at",
        "readings",
        "gauges",
        "job_checks",
    ];
    let mut problems: Vec<Problem> = map
        .keys()
        .filter(|key| !known.contains(&key.as_str()))
        .map(|key| Problem::new(format!("/{key}"), format!("unknown key `{key}`"), known.join(", ")))
        .collect();
    if map.get("contract").and_then(Value::as_u64) != Some(1) {
        problems.push(Problem::new("/contract", "not 1", "1"));
    }
    if !map
        .get("at")
        .and_then(Value::as_str)
        .is_some_and(|at| at.len() >= 16 && at.contains('T'))
    {
        problems.push(Problem::new(
            "/at",
            "no time of the round",
            "a time such as 2026-03-02T07:40:00Z",
        ));
    }
    let entered = json!({
        "readings": map.get("readings"), "gauges": map.get("gauges").unwrap_or(&json!([])), "job_checks": map.get("job_checks")
    });
    let mut reader = Reader::default();
    let filled = reader.object("", &entered, ROUND);
    problems.append(&mut reader.problems);
    let job = match map.get("job") {
        Some(job) => match Job::from_value(job) {
            Ok((job, _)) => Some(job),
            Err(found) => {
                problems.extend(
                    found
                        .into_iter()
                        .map(|p| Problem::new(format!("/job{}", p.path), p.wrong, p.right)),
                );
                None
            }
        },
        None => {
            problems.push(Problem::new("/job", "missing", "the job as described"));
            None
        }
    };
    let option = map.get("option").cloned().unwrap_or(Value::Null);
    let props: Vec<Standing> =
        serde_json::from_value(option.get("props").cloned().unwrap_or(Value::Null)).unwrap_or_default();
    if props.is_empty() {
        problems.push(Problem::new(
            "/option/props",
            "no props",
            "one option of a proposal, as proposed",
        ));
    }
    let figure = |key: &str| {
        option
            .pointer(&format!("/bracing/{key}"))
            .and_then(Value::as_f64)
            .filter(|n| n.is_finite())
    };
    let bracing = [
        figure("demand_across_kn"),
        figure("resistance_along_kn"),
        figure("resistance_across_kn"),
    ];
    if bracing.iter().any(Option::is_none) {
        problems.push(Problem::new(
            "/option/bracing",
            "no figures of the bracing",
            "one option of a proposal, as proposed",
        ));
    }
    let earlier: Vec<Vec<Reading>> =
        match serde_json::from_value(map.get("earlier").cloned().unwrap_or_else(|| json!([]))) {
            Ok(earlier) => earlier,
            Err(error) => {
                problems.push(Problem::new(
                    "/earlier",
                    error.to_string(),
                    "a list of lists of readings, oldest first",
                ));
                Vec::new()
            }
        };
    let entered: Option<Entered> = serde_json::from_value(filled).ok();
    if let Some(entered) = &entered {
        for (i, reading) in entered.readings.iter().enumerate() {
            if !props.is_empty() && !props.iter().any(|prop| prop.name == reading.prop) {
                let names: Vec<&str> = props.iter().map(|prop| prop.name.as_str()).collect();
                problems.push(Problem::new(
                    format!("/readings/{i}/prop"),
                    format!("no prop is named `{}`", reading.prop),
                    names.join(", "),
                ));
            }
        }
    }
    match (job, entered, problems.is_empty()) {
        (Some(job), Some(entered), true) => Ok((job, entered, props, earlier, bracing.map(Option::unwrap_or_default))),
        _ => Err(problems),
    }
}

fn prop_today(
    job: &Job,
    prop: &Standing,
    reading: &Reading,
    earlier: &[Vec<Reading>],
    verdict: &mut Verdict,
) -> Result<PropToday, Vec<Problem>> {
    let input = described(job, prop);
    let data = ready(&input)
        .map_err(|(wrong, right)| vec![Problem::new("/option/props", wrong, right)])?
        .data;
    let lean = reading.lean_mm.map(|lean| lean / reading.over_m);
    let state = State {
        head_mm: reading.head_off_mm.abs(),
        foot_mm: reading.foot_off_mm.abs(),
        lean_mm_m: lean,
    };
    let name = &prop.name;
    let mut to_do = Vec::new();
    let rating: Option<Rating> = rate(&data, prop.length_m, &state).ok();
    let (kappa, working) = rating.map_or((0.0, 0.0), |rating| {
        (
            rating.working_load_kn / rating.table_kn.max(1e-9),
            rating.working_load_kn,
        )
    });
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
    let in_basis = state.in_basis();
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
        (
            reading.packed,
            "packed",
            "the needle is not packed and wedged over the full leaf",
            "Pack and wedge the needle over the full leaf.",
        ),
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
    let now = reading.collar_turns * reading.thread_mm;
    history.push(now);
    take_up(name, &history, &mut to_do, verdict);
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

fn take_up(name: &str, history: &[f64], to_do: &mut Vec<String>, verdict: &mut Verdict) {
    let now = history.last().copied().unwrap_or_default();
    // The first rounds see the support bed in while the load comes on.
    let bedding = history.len() <= 2;
    if bedding && now > 0.0 && now <= BEDDING_MM {
        to_do.push("Tightened while it beds in: look again in two hours.".to_owned());
    } else if now > if bedding { BEDDING_MM } else { LATER_MM } {
        verdict.stop(
            "take_up",
            format!("{name}: {now:.1} mm taken up since the last round. Something gives way."),
            true,
        );
    }
    let mut last = history.iter().rev();
    if let (Some(c), Some(b), Some(a)) = (last.next(), last.next(), last.next())
        && *a > 0.0
        && b > a
        && c > b
    {
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

fn sideways(
    entered: &Entered,
    props: &[Standing],
    [across_proposed, along_can, across_can]: [f64; 3],
    verdict: &mut Verdict,
) -> SidewaysToday {
    let v: f64 = props.iter().map(|prop| prop.load_kn).sum();
    let mut leans = [0.0, 0.0];
    for reading in &entered.readings {
        let load = props
            .iter()
            .find(|prop| prop.name == reading.prop)
            .map_or(0.0, |prop| prop.load_kn);
        for (sum, lean) in leans.iter_mut().zip(reading.lean_mm) {
            *sum += load * lean / reading.over_m / 1000.0;
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
    // What the proposal named beside the least force (wind) stays in the figure across the wall.
    let named = (across_proposed - 0.025 * v).max(0.0);
    let demand = |lean: f64, named: f64| (0.025 * v).max(lean + named + 0.01 * v);
    let pairs = [(demand(along, 0.0), along_can), (demand(across, named), across_can)];
    let used = |(demand, can): (f64, f64)| if can > 0.0 { demand / can } else { 99.0 };
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

fn gauges(entered: &Entered, verdict: &mut Verdict) -> Vec<GaugeToday> {
    let mut out = Vec::with_capacity(entered.gauges.len());
    for gauge in &entered.gauges {
        let since = |earlier: Option<f64>| earlier.map_or(0.0, |earlier| gauge.mm - earlier);
        let (start, last) = (since(gauge.first_mm), since(gauge.last_mm));
        if last > GAUGE_LAST_MM - 1e-9 || start > GAUGE_START_MM - 1e-9 {
            verdict.stop(
                "crack",
                format!(
                    "{}: grown {last:.1} mm since the last round, {start:.1} mm since the start.",
                    gauge.name
                ),
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

/// JSON Schema of a round.
#[must_use]
pub fn schema() -> Value {
    let mut schema = json_schema("round", ROUND);
    let job = json_schema("job", crate::job::job_schema());
    if let Some(properties) = schema.get_mut("properties").and_then(Value::as_object_mut) {
        properties.insert("contract".to_owned(), json!({"const": 1}));
        properties.insert("job".to_owned(), job);
        properties.insert(
            "option".to_owned(),
            json!({"type": "object", "description": "one option of a proposal, as proposed"}),
        );
        properties.insert(
            "earlier".to_owned(),
            json!({"type": "array", "items": {"type": "array"}}),
        );
        properties.insert("at".to_owned(), json!({"type": "string", "format": "date-time"}));
    }
    if let Some(map) = schema.as_object_mut() {
        map.insert(
            "required".to_owned(),
            json!(["contract", "job", "option", "at", "readings", "job_checks"]),
        );
    }
    schema
}

/// JSON Schema of an evaluation.
#[must_use]
pub fn evaluation_schema() -> Value {
    let number = json!({"type": "number"});
    let text = json!({"type": "string"});
    let flag = json!({"type": "boolean"});
    let object = |properties: Value| json!({"type": "object", "properties": properties});
    let list = |items: Value| json!({"type": "array", "items": items});
    let prop = object(
        json!({"name": text, "kappa": number, "working_load_kn": number, "load_kn": number, "utilisation": number,
        "in_basis": flag, "take_up_mm": number, "do": list(text.clone())}),
    );
    json!({
        "$schema": "https://json-schema.org/draft/2020-12/schema", "title": "evaluation", "type": "object",
        "required": ["passed", "stop", "ring", "out", "props", "sideways", "gauges", "reasons"],
        "properties": {
            "passed": flag, "stop": flag, "ring": flag, "out": flag, "props": list(prop),
            "sideways": object(json!({"demand_kn": number, "resistance_kn": number, "utilisation": number})),
            "gauges": list(object(json!({"name": text, "since_start_mm": number, "since_last_mm": number}))),
            "reasons": list(object(json!({"code": text, "words": text})))
        }
    })
}
