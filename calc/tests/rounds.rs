//! Rounds as they are handed in: what is read twice or wrong, and what is taken up while the support beds in and after.
#![expect(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a test stops at the first broken rule"
)]

use serde_json::{Value, json};

fn looked_at(change: impl Fn(&mut Value)) -> Result<calc::round::Evaluation, Vec<calc::Problem>> {
    let job = calc::example::job("bungalow").unwrap();
    let option = serde_json::to_value(&calc::size_value(&job).unwrap().options[0]).unwrap();
    let readings: Vec<Value> = option["props"].as_array().unwrap().iter().map(|prop| {
        json!({"prop": prop["name"], "pin": "right", "collar_turns": 0, "thread_mm": 6, "lean_mm": [2.0, 0.0], "over_m": 1.0,
            "head_off_mm": 5, "foot_off_mm": 0, "foot_firm": true, "straight": true, "fixed": true, "packed": true})
    }).collect();
    let mut round = json!({"contract": 1, "job": job, "option": option, "earlier": [], "at": "2026-03-02T07:40:00Z", "readings": readings,
        "gauges": [], "job_checks": {"braces": true, "doors_stick": false, "load_on_floors": false, "digging": false, "wind_m_s": 3.0}});
    change(&mut round);
    calc::round_value(&round)
}

#[test]
fn a_prop_read_twice_is_a_problem_and_never_a_passed_day() {
    assert!(looked_at(|_| ()).unwrap().passed);
    let twice = looked_at(|round| {
        let mut second = round["readings"][0].clone();
        second["pin"] = json!("missing");
        round["readings"].as_array_mut().unwrap().push(second);
    });
    let problems = twice.unwrap_err();
    assert!(problems.iter().any(|p| p.wrong.contains("twice")), "{problems:?}");
    let below = looked_at(|round| round["option"]["props"][0]["load_kn"] = json!(-5.0)).unwrap_err();
    assert!(below.iter().any(|p| p.path == "/option/props"), "{below:?}");
}

/// Bedding-in is 4 mm summed over the first rounds, and only while no crack changes (method, section 16).
#[test]
fn bedding_in_is_summed_and_ends_where_a_crack_changes() {
    let bedded = |turns: f64, before: &[f64], crack_mm: f64| {
        looked_at(|round| {
            let mut first = round["readings"][0].clone();
            let earlier = before.iter().map(|turns| {
                first["collar_turns"] = json!(turns);
                json!([first.clone()])
            });
            let earlier: Vec<Value> = earlier.collect();
            round["earlier"] = json!(earlier);
            round["readings"][0]["collar_turns"] = json!(turns);
            round["gauges"] = json!([{"name": "G1", "mm": 3.0 + crack_mm, "first_mm": 3.0, "last_mm": 3.0}]);
        })
        .unwrap()
    };
    let stops = |seen: &calc::round::Evaluation| seen.stop && seen.reasons.iter().any(|r| r.code == "take_up");
    // Turns of 6 mm: 3 mm in the first round, or 1.5 and 2.4 mm in two, are bedding-in.
    for (turns, before) in [(0.5, &[][..]), (0.4, &[0.25])] {
        let seen = bedded(turns, before, 0.0);
        assert!(seen.passed, "{:?}", seen.reasons);
    }
    // 3 mm in each of both are 6 mm.
    assert!(stops(&bedded(0.5, &[0.5], 0.0)));
    // 3 mm with a crack that opened by 0.1 mm is none; neither is the crack alone.
    assert!(stops(&bedded(0.5, &[], 0.1)));
    assert!(bedded(0.0, &[], 0.1).passed);
    // A crack that closes changes as well: the wall moves.
    assert!(stops(&bedded(0.5, &[], -0.2)));
}

/// Three turns let down take a prop's share away; 3 mm taken up in a fourth round is no bedding-in (method, section 16).
#[test]
fn a_prop_let_down_or_first_looked_at_late_does_not_pass() {
    let slack = looked_at(|round| round["readings"][0]["collar_turns"] = json!(-3)).unwrap();
    assert!(
        !slack.passed && slack.reasons.iter().any(|r| r.code == "slackened"),
        "{:?}",
        slack.reasons
    );
    let late = looked_at(|round| {
        round["earlier"] = json!([[], [], []]);
        round["readings"][0]["collar_turns"] = json!(0.5);
    })
    .unwrap();
    assert!(
        late.stop && late.reasons.iter().any(|r| r.code == "take_up"),
        "{:?}",
        late.reasons
    );
}

/// What was taken up little by little is told as that, and not as much since the last round.
#[test]
fn a_little_in_each_round_is_told_as_the_sum_that_it_is() {
    let slow = looked_at(|round| {
        let mut reading = round["readings"][0].clone();
        reading["collar_turns"] = json!(0.2);
        // Turns of 6 mm: 1.2 mm in each of three rounds after bedding-in, and 1.2 mm more are 4.8 mm.
        round["earlier"] = json!([[], [], [reading], [reading], [reading]]);
        round["readings"][0]["collar_turns"] = json!(0.2);
    })
    .unwrap();
    let codes: Vec<&str> = slow.reasons.iter().map(|reason| reason.code.as_str()).collect();
    assert!(slow.stop && slow.ring, "{codes:?}");
    assert_eq!(codes, ["take_up_sum"]);
    assert!(
        slow.reasons[0].words.contains("4.8 mm taken up in all"),
        "{}",
        slow.reasons[0].words
    );
}
