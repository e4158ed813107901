//! `rounds.csv`: one row per prop reading, for a spreadsheet. The first lines carry the caution.

use std::collections::HashMap;

use serde_json::Value;

use crate::record::{Entry, Kind, Moment};
use crate::site::{count, missing_days};

/// Name of the member.
pub(super) const NAME: &str = "rounds.csv";

/// Heading and where the value stands: in the reading, in the evaluation of that prop, or in the evaluation of the round.
const COLUMNS: &[(&str, Part, &str)] = &[
    ("prop", Part::Reading, "/prop"),
    ("pin", Part::Reading, "/pin"),
    ("collar_turns", Part::Reading, "/collar_turns"),
    ("thread_mm", Part::Reading, "/thread_mm"),
    ("lean_along_mm", Part::Reading, "/lean_mm/0"),
    ("lean_across_mm", Part::Reading, "/lean_mm/1"),
    ("over_m", Part::Reading, "/over_m"),
    ("head_off_mm", Part::Reading, "/head_off_mm"),
    ("foot_off_mm", Part::Reading, "/foot_off_mm"),
    ("foot_firm", Part::Reading, "/foot_firm"),
    ("straight", Part::Reading, "/straight"),
    ("fixed", Part::Reading, "/fixed"),
    ("packed", Part::Reading, "/packed"),
    ("kappa", Part::Prop, "/kappa"),
    ("working_load_kn", Part::Prop, "/working_load_kn"),
    ("load_kn", Part::Prop, "/load_kn"),
    ("utilisation", Part::Prop, "/utilisation"),
    ("take_up_mm", Part::Prop, "/take_up_mm"),
    ("round_passed", Part::Round, "/passed"),
    ("round_stop", Part::Round, "/stop"),
];

#[derive(Clone, Copy)]
enum Part {
    Reading,
    Prop,
    Round,
}

/// Heading of the last column: `missing` on the row of a day without a round.
const DAY: &str = "day";

/// The bytes of `rounds.csv` (RFC 4180) for the entries of a job, in fold order, as the days stood at `today`.
pub(super) fn build(caution: &str, entries: &[Entry], today: Moment) -> Vec<u8> {
    let demo = entries
        .iter()
        .find(|entry| entry.kind == Kind::JobBegun)
        .and_then(|begun| begun.body.get("demo"));
    let mut out = String::new();
    if demo == Some(&Value::Bool(true)) {
        row(&mut out, ["DEMO: not a real job".to_owned()]);
    }
    for line in caution.lines().filter(|line| !line.trim().is_empty()) {
        row(&mut out, [words(line)]);
    }
    let fixed = ["at", "entry", "corrects"].into_iter();
    row(
        &mut out,
        fixed
            .chain(COLUMNS.iter().map(|(heading, ..)| *heading))
            .chain([DAY])
            .map(str::to_owned),
    );
    let mut gaps = missing_days(entries, today).into_iter().peekable();
    for entry in entries.iter().filter(|entry| entry.kind == Kind::RoundDone) {
        let date = entry.moment.local_date();
        while let Some(day) = gaps.next_if(|day| date.is_some_and(|date| *day < date)) {
            missing(&mut out, &day.to_string());
        }
        let evaluation = entry.body.get("evaluation").unwrap_or(&Value::Null);
        let props = props_of(evaluation);
        let readings = entry.body.pointer("/round/readings").and_then(Value::as_array);
        for reading in readings.into_iter().flatten() {
            count();
            let name = reading.get("prop").and_then(Value::as_str);
            let prop = name.and_then(|name| props.get(name)).copied().unwrap_or(&Value::Null);
            let begin = [
                entry.moment.rfc3339(),
                entry.hash.short(),
                entry.corrects.map_or_else(String::new, |old| old.short()),
            ];
            let values = COLUMNS.iter().map(|(_, part, path)| {
                let from = match part {
                    Part::Reading => reading,
                    Part::Prop => prop,
                    Part::Round => evaluation,
                };
                cell(from.pointer(path))
            });
            row(&mut out, begin.into_iter().chain(values).chain([String::new()]));
        }
    }
    for day in gaps {
        missing(&mut out, &day.to_string());
    }
    out.into_bytes()
}

/// The row of a day without a round.
fn missing(out: &mut String, day: &str) {
    let empty = (0..COLUMNS.len() + 2).map(|_| String::new());
    row(
        out,
        std::iter::once(day.to_owned())
            .chain(empty)
            .chain(["missing".to_owned()]),
    );
}

/// The evaluation of each prop by its name; of two of one name the first.
fn props_of(evaluation: &Value) -> HashMap<&str, &Value> {
    let mut out = HashMap::new();
    for prop in evaluation.get("props").and_then(Value::as_array).into_iter().flatten() {
        count();
        if let Some(name) = prop.get("name").and_then(Value::as_str) {
            out.entry(name).or_insert(prop);
        }
    }
    out
}

fn cell(value: Option<&Value>) -> String {
    match value {
        None | Some(Value::Null) => String::new(),
        Some(Value::String(text)) => words(text),
        Some(Value::Bool(true)) => "yes".to_owned(),
        Some(Value::Bool(false)) => "no".to_owned(),
        // Canonical, so that the same number is always spelt the same way.
        Some(other) => serde_json_canonicalizer::to_string(other).unwrap_or_default(),
    }
}

/// Typed words. A spreadsheet would run a cell that begins like a formula; a quote before it makes it text.
fn words(text: &str) -> String {
    if text.starts_with(['=', '+', '-', '@', '\t', '\r']) {
        format!("'{text}")
    } else {
        text.to_owned()
    }
}

fn row(out: &mut String, cells: impl IntoIterator<Item = String>) {
    for (place, text) in cells.into_iter().enumerate() {
        if place > 0 {
            out.push(',');
        }
        if text.contains(['"', ',', '\n', '\r']) || text.starts_with(' ') || text.ends_with(' ') {
            out.push('"');
            out.push_str(&text.replace('"', "\"\""));
            out.push('"');
        } else {
            out.push_str(&text);
        }
    }
    out.push_str("\r\n");
}

#[cfg(test)]
mod tests {
    use serde_json::{Value, json};
    use uuid::Uuid;

    use super::build;
    use crate::record::{Entry, Hash, Kind, Moment};
    use crate::site::asked;

    /// One round of so many props.
    fn round(props: usize) -> Entry {
        let name = |prop: usize| format!("N{prop}-in");
        let readings: Vec<Value> = (0..props).map(|prop| json!({"prop": name(prop)})).collect();
        let today: Vec<Value> = (0..props)
            .rev()
            .map(|prop| json!({"name": name(prop), "kappa": prop}))
            .collect();
        Entry {
            position: 1,
            device: Uuid::from_u128(1),
            seq: 1,
            tick: 1,
            seen: Vec::new(),
            moment: Moment {
                utc_ms: 0,
                offset_min: 0,
                boot_ms: None,
            },
            kind: Kind::RoundDone,
            body: json!({"round": {"readings": readings}, "evaluation": {"props": today}}),
            corrects: None,
            prev: Hash::ZERO,
            hash: Hash::of(b"round"),
        }
    }

    #[test]
    fn each_reading_finds_its_prop_without_asking_all_the_others() {
        let cost = |props: usize| {
            let (before, round) = (asked(), round(props));
            let today = round.moment;
            let rows = String::from_utf8_lossy(&build("", &[round], today)).into_owned();
            // The factor of the last prop stands in its own row.
            let last = rows.lines().last().unwrap_or_default().to_owned();
            let cells: Vec<&str> = last.split(',').collect();
            let (name, kappa) = (format!("N{}-in", props - 1), (props - 1).to_string());
            assert!(
                cells.contains(&name.as_str()) && cells.contains(&kappa.as_str()),
                "{last}"
            );
            asked() - before
        };
        assert_eq!((cost(500), cost(2000)), (1000, 4000));
    }
}
