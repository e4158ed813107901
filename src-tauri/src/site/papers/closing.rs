//! The job in short, as the report shows it.

use super::super::Summary;
use crate::report::{SummaryPart, day, when};

/// The summary in words and rows.
pub fn summary_part(summary: &Summary) -> SummaryPart {
    let mut closing = Vec::new();
    if let Some(closed) = &summary.closing {
        closing.push(format!("Closed {} by {}.", when(&closed.at), closed.name));
        if !closed.anyway.is_empty() {
            closing.push(format!("Closed anyway, because: {}", closed.anyway));
            closing.extend(closed.against.iter().map(|line| format!("Stood against it: {line}")));
        }
    }
    SummaryPart {
        closing,
        lines: lines(summary),
        props: summary
            .props
            .iter()
            .map(|prop| {
                let lean = |lean: Option<[f64; 2]>| {
                    lean.map_or_else(dash, |[along, across]| format!("{along:.0}, {across:.0}"))
                };
                let up = |mm: Option<f64>| mm.map_or_else(dash, |mm| format!("{mm:.1} mm"));
                let [first, last] = prop.lean_mm_m;
                let [begin, end] = prop.take_up_mm;
                let out = if prop.out { ", out" } else { "" };
                let down = format!("{:.1} mm{out}", prop.down_mm);
                [prop.prop.clone(), lean(first), lean(last), up(begin), up(end), down]
            })
            .collect(),
        looks: summary.looks.iter().map(|look| look.words.clone()).collect(),
        against: summary.against.clone(),
    }
}

fn days_of(days: &[String]) -> String {
    days.iter().map(|at| day(at)).collect::<Vec<_>>().join(", ")
}

fn dash() -> String {
    "–".to_owned()
}

fn lines(summary: &Summary) -> Vec<String> {
    let mut out = Vec::new();
    if let Some((first, last)) = &summary.days {
        out.push(format!(
            "Rounds: {}, from {} to {}.",
            summary.rounds,
            day(first),
            day(last)
        ));
    }
    out.push(match summary.missing_days.len() {
        0 => "No day without a round is known.".to_owned(),
        _ => format!("Days without a round: {}.", days_of(&summary.missing_days)),
    });
    out.push(format!(
        "Findings: {} opened, {} closed.",
        summary.findings, summary.closed
    ));
    if let Some(most) = &summary.largest {
        // Rounded up, as everywhere: what is at its limit is not shown below it.
        let used = (most.utilisation * 100.0 - 1e-9).ceil();
        out.push(format!(
            "Largest use met: {used:.0} %, {}, {}.",
            most.prop,
            when(&most.at)
        ));
    }
    out.extend(summary.permits.iter().cloned());
    if !summary.names.is_empty() {
        out.push(format!("Names under the entries: {}.", summary.names.join(", ")));
    }
    let seals = summary.seals.iter();
    let seals: Vec<String> = seals.map(|seal| format!("{}, {}", seal.code, day(&seal.at))).collect();
    out.push(match seals.len() {
        0 => "No seal was given.".to_owned(),
        _ => format!("Seals given: {}.", seals.join("; ")),
    });
    out.push(format!("Photos: {}.", summary.photos));
    out
}
