//! What a round of every prop left out although it is asked for each time: a crack gauge that is known, and on an outside
//! wall the wind (method, section 16). The calculation takes a round as it comes; whether the day is passed is for the app to
//! say, and it is not passed on what nobody looked at.

use super::gauges::{GAUGE_GONE, gone_in};
use calc::proposal::Reason;
use calc::round::Evaluation;
use serde_json::Value;

/// Says what was left out, and that the round is not passed for it. A round of one prop says so of itself already, but a gauge
/// that it says is gone is asked for no longer and is found there and then.
pub(super) fn say_left_out(evaluation: &mut Evaluation, job: &Value, round: &Value, known: &[String]) {
    let gone: Vec<&str> = gone_in(round).collect();
    let lost: Vec<&String> = known.iter().filter(|name| gone.contains(&name.as_str())).collect();
    // One put up and read in the same round takes its place at once.
    let new = evaluation.gauges.iter().filter(|gauge| !known.contains(&gauge.name));
    let replaced = new.count() >= lost.len();
    for name in lost.iter().filter(|_| !replaced) {
        let words = format!("{name}: gone or broken. Whether this crack grows is not seen any more.");
        evaluation.reasons.push(Reason::new(GAUGE_GONE, words));
        evaluation.passed = false;
    }
    if evaluation.reasons.iter().any(|reason| reason.code == "not_read") {
        return;
    }
    let there = |name: &str| evaluation.gauges.iter().any(|gauge| gauge.name == name) || gone.contains(&name);
    let unread = known.iter().filter(|name| !there(name));
    let mut left: Vec<Reason> = unread
        .map(|name| {
            let words = format!("{name}: not read in this round. Whether this crack grew is not known.");
            Reason::new("gauge_not_read", words)
        })
        .collect();
    let outside = job.pointer("/wall/outside_wall").and_then(Value::as_bool) != Some(false);
    let wind = round
        .pointer("/job_checks/wind_m_s")
        .is_some_and(|wind| !wind.is_null());
    if outside && !wind {
        let words = "Nobody said how hard it blows. On an outside wall the day is not passed without the wind.";
        left.push(Reason::new("wind_not_read", words.to_owned()));
    }
    evaluation.passed &= left.is_empty();
    evaluation.reasons.extend(left);
}
