//! Reads a round, all problems at once.

use super::types::{Entered, Gauge, Reading, Standing};
use crate::job::schema::Reader;
use crate::job::{EARLIER, Job, ROUND};
use crate::problem::Problem;
use serde_json::{Value, json};

/// What earlier rounds read at the props and at the gauges, oldest first.
pub(super) type Earlier = (Vec<Vec<Reading>>, Vec<Vec<Gauge>>);

/// Job, what is entered, props that stand (of the needles, of the floors' own lines), earlier readings, and of the bracing:
/// load held, demand across, resistance along and across.
pub(super) type Read = (Job, Entered, [Vec<Standing>; 2], Earlier, [f64; 4]);

pub(super) fn read(round: &Value) -> Result<Read, Vec<Problem>> {
    let map = round
        .as_object()
        .ok_or_else(|| vec![Problem::new("", "not an object", "a round as `calc schema round` says")])?;
    let known = [
        "contract",
        "job",
        "option",
        "earlier",
        "earlier_gauges",
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
    // The props of floors' own lines are looked at with the others.
    let lines = option.get("floor_lines").and_then(Value::as_array);
    let mut of_lines: Vec<Standing> = Vec::new();
    for line in lines.into_iter().flatten() {
        match serde_json::from_value::<Vec<Standing>>(line.get("props").cloned().unwrap_or_else(|| json!([]))) {
            Ok(props) => of_lines.extend(props),
            Err(error) => problems.push(Problem::new(
                "/option/floor_lines",
                error.to_string(),
                "one option of a proposal, as proposed",
            )),
        }
    }
    if props.is_empty() {
        problems.push(Problem::new(
            "/option/props",
            "no props",
            "one option of a proposal, as proposed",
        ));
    }
    let wrong_figure = |prop: &&Standing| !(prop.load_kn >= 0.0 && prop.length_m > 0.0);
    if let Some(prop) = props.iter().chain(&of_lines).find(wrong_figure) {
        problems.push(Problem::new(
            "/option/props",
            format!("{}: a load below nothing, or no length", prop.name),
            "one option of a proposal, as proposed",
        ));
    }
    // Without its arm a bracket prop would pass for an ordinary one, which carries several times as much.
    let on_brackets = option.get("kind").and_then(Value::as_str) == Some("brackets");
    let known = |n: Option<f64>| n.is_some_and(|n| n.is_finite() && n >= 0.0);
    let on_bracket = |prop: &Standing| on_brackets || prop.needle.is_empty() || prop.arm_mm.is_some();
    if props
        .iter()
        .any(|prop| on_bracket(prop) && (!known(prop.arm_mm) || !known(prop.rated_kn)))
    {
        problems.push(Problem::new(
            "/option/props",
            "a bracket prop without its arm or its bracket's rated load",
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
        figure("v_kn"),
        figure("demand_across_kn"),
        figure("resistance_along_kn"),
        figure("resistance_across_kn"),
    ];
    if bracing.iter().any(|figure| figure.is_none_or(|n| n < 0.0)) {
        problems.push(Problem::new(
            "/option/bracing",
            "no figures of the bracing",
            "one option of a proposal, as proposed",
        ));
    }
    let mut reader = Reader::default();
    let before = reader.object(
        "",
        &json!({ "earlier": map.get("earlier"), "earlier_gauges": map.get("earlier_gauges") }),
        EARLIER,
    );
    problems.append(&mut reader.problems);
    let earlier: Vec<Vec<Reading>> = before
        .get("earlier")
        .and_then(|list| serde_json::from_value(list.clone()).ok())
        .unwrap_or_default();
    let earlier_gauges: Vec<Vec<Gauge>> = before
        .get("earlier_gauges")
        .and_then(|list| serde_json::from_value(list.clone()).ok())
        .unwrap_or_default();
    let entered: Option<Entered> = serde_json::from_value(filled).ok();
    if let Some(entered) = &entered {
        for (i, reading) in entered.readings.iter().enumerate() {
            // The second reading would be passed over: nobody knows which one holds.
            if entered
                .readings
                .iter()
                .take(i)
                .any(|before| before.prop == reading.prop)
            {
                problems.push(Problem::new(
                    format!("/readings/{i}/prop"),
                    format!("`{}` is read twice", reading.prop),
                    "one reading a prop",
                ));
            }
            let mut all = props.iter().chain(&of_lines);
            if !props.is_empty() && !all.any(|prop| prop.name == reading.prop) {
                let names: Vec<&str> = props.iter().chain(&of_lines).map(|prop| prop.name.as_str()).collect();
                problems.push(Problem::new(
                    format!("/readings/{i}/prop"),
                    format!("no prop is named `{}`", reading.prop),
                    names.join(", "),
                ));
            }
        }
    }
    match (job, entered, problems.is_empty()) {
        (Some(job), Some(entered), true) => Ok((
            job,
            entered,
            [props, of_lines],
            (earlier, earlier_gauges),
            bracing.map(Option::unwrap_or_default),
        )),
        _ => Err(problems),
    }
}
