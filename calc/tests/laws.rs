//! Laws that hold for every job: load is conserved, a mirrored job gives the mirrored load, scaling all loads up never
//! improves an aim, an unknown key is refused, no input panics.
#![expect(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a test stops at the first broken law"
)]

use proptest::prelude::*;
use serde_json::{Value, json};

fn job(width: f64, x: f64, window: f64, span: f64, point: f64) -> Value {
    let mut job = calc::example::job("two_storey_cavity").unwrap();
    *job.pointer_mut("/opening/width_m").unwrap() = json!(width);
    *job.pointer_mut("/above/0/openings/0/x_m").unwrap() = json!(x);
    *job.pointer_mut("/above/0/openings/0/width_m").unwrap() = json!(window);
    *job.pointer_mut("/above/0/floor/inside_span_m").unwrap() = json!(span);
    if point > 0.5 {
        *job.pointer_mut("/points").unwrap() = json!([{"x_m": width / 3.0, "level": 1, "leaf": "inner", "dead_kn": point, "imposed_kn": 1.0, "what": "post"}]);
    }
    job
}

/// The same job with dead and imposed loads times a factor: areas are scaled through every load key.
fn scaled(job: &Value, factor: f64) -> Value {
    let mut job = job.clone();
    for leaf in job.pointer_mut("/wall/leaves").and_then(Value::as_array_mut).unwrap() {
        let density = if leaf["material"] == "clay_brick" { 19.0 } else { 20.0 };
        leaf["density_kn_m3"] = json!((density * factor).min(30.0));
        leaf["plaster_mm"] = json!(0.0);
    }
    for path in [
        "/above/0/floor/dead_kn_m2",
        "/above/0/floor/imposed_kn_m2",
        "/above/0/floor/partitions_kn_m2",
        "/roof/dead_kn_m2",
        "/roof/ceiling_kn_m2",
    ] {
        let value = job.pointer_mut(path).unwrap();
        *value = json!(value.as_f64().unwrap() * factor);
    }
    job
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, ..ProptestConfig::default() })]

    #[test]
    fn needles_carry_what_comes_down(width in 1.2..3.6_f64, x in -0.5..2.0_f64, window in 0.5..1.5_f64, span in 0.0..5.0_f64, point in 0.0..10.0_f64) {
        let proposal = calc::size_value(&job(width, x, window, span, point)).unwrap();
        for option in &proposal.options {
            let lever: f64 = option.needles.iter().map(|needle| needle.lever_kn).sum();
            // Each needle takes the larger of two ways down, so the sum may exceed the total but never fall below it.
            prop_assert!(lever >= proposal.load.total_service_kn - 1e-6, "{} of {}", lever, proposal.load.total_service_kn);
        }
        let profile = &proposal.load.profile;
        let area: f64 = profile.x_m.iter().zip(profile.x_m.iter().skip(1)).zip(profile.g_kn_m.iter().zip(&profile.q_kn_m)).map(|((a, b), (g, q))| (b - a) * (g + q)).sum();
        prop_assert!((area - proposal.load.total_service_kn).abs() < 1e-6);
        let parts: f64 = proposal.load.parts.iter().map(|part| part.dead_kn + part.imposed_kn).sum();
        prop_assert!((parts - proposal.load.total_service_kn).abs() < 1e-6);
    }

    #[test]
    fn a_mirrored_job_weighs_the_same(width in 1.2..3.6_f64, x in -0.5..2.0_f64, window in 0.5..1.2_f64) {
        let one = job(width, x, window, 4.0, 0.0);
        let mut other = one.clone();
        *other.pointer_mut("/above/0/openings/0/x_m").unwrap() = json!(width - x - window);
        *other.pointer_mut("/opening/left_masonry_m").unwrap() = one.pointer("/opening/right_masonry_m").unwrap().clone();
        *other.pointer_mut("/opening/right_masonry_m").unwrap() = one.pointer("/opening/left_masonry_m").unwrap().clone();
        let (one, other) = (calc::size_value(&one).unwrap(), calc::size_value(&other).unwrap());
        prop_assert!((one.load.total_service_kn - other.load.total_service_kn).abs() < 1e-6);
        let aims = |p: &calc::Proposal| p.options.iter().map(|o| (o.aim.clone(), (o.objective * 1e6).round() as i64)).collect::<Vec<_>>();
        prop_assert_eq!(aims(&one), aims(&other));
    }

    #[test]
    fn heavier_loads_never_improve_an_aim(width in 1.2..3.0_f64, span in 1.0..5.0_f64, factor in 1.0..1.5_f64) {
        let plain = scaled(&job(width, 0.4, 0.8, span, 0.0), 1.0);
        let (light, heavy) = (calc::size_value(&plain).unwrap(), calc::size_value(&scaled(&plain, factor)).unwrap());
        for option in &heavy.options {
            let before = light.options.iter().find(|o| o.aim == option.aim);
            prop_assert!(before.is_some(), "{} appears only under more load", option.aim);
            let before = before.unwrap();
            let first_kind = |o: &calc::proposal::Opt| o.worst_utilisation <= 0.9;
            if first_kind(before) == first_kind(option) {
                prop_assert!(option.objective >= before.objective - 1e-9, "{}: {} after {}", option.aim, option.objective, before.objective);
            } else {
                prop_assert!(first_kind(before), "{} got further from its limit under more load", option.aim);
            }
        }
    }

    #[test]
    fn any_number_anywhere_is_answered_or_refused(value in prop_oneof![Just(0.0), Just(-1.0), Just(1e308), Just(102_000.0), -10.0..10.0_f64], index in 0..200_usize) {
        let mut job = calc::example::job("two_storey_cavity").unwrap();
        let mut paths = Vec::new();
        numbers(&job, String::new(), &mut paths);
        let path = &paths[index % paths.len()];
        *job.pointer_mut(path).unwrap() = json!(value);
        match calc::size_value(&job) {
            Ok(proposal) => prop_assert!(serde_json::to_string(&proposal).unwrap().contains("standing")),
            Err(problems) => prop_assert!(problems.iter().all(|p| !p.wrong.is_empty() && !p.right.is_empty())),
        }
    }
}

fn numbers(value: &Value, path: String, out: &mut Vec<String>) {
    match value {
        Value::Number(_) => out.push(path),
        Value::Array(items) => items
            .iter()
            .enumerate()
            .for_each(|(i, item)| numbers(item, format!("{path}/{i}"), out)),
        Value::Object(map) => map
            .iter()
            .for_each(|(key, item)| numbers(item, format!("{path}/{key}"), out)),
        _ => {}
    }
}

#[test]
fn an_unknown_key_names_itself_and_its_neighbour() {
    let mut job = calc::example::job("bungalow").unwrap();
    job["opening"]["widht_m"] = json!(3.0);
    let problems = calc::size_value(&job).unwrap_err();
    assert!(
        problems
            .iter()
            .any(|p| p.path == "/opening/widht_m" && p.right.contains("width_m")),
        "{problems:?}"
    );
}

#[test]
fn all_problems_come_at_once_and_a_slip_of_units_is_guessed() {
    let mut job = calc::example::job("two_storey_cavity").unwrap();
    job["wall"]["leaves"][0]["thickness_mm"] = json!(102_500.0);
    job["opening"]["width_m"] = json!("wide");
    job["answers"]["bay"] = json!("perhaps");
    let problems = calc::size_value(&job).unwrap_err();
    for path in ["/wall/leaves/0/thickness_mm", "/opening/width_m", "/answers/bay"] {
        assert!(problems.iter().any(|p| p.path == path), "{path} in {problems:?}");
    }
    assert!(
        problems.iter().any(|p| p.right.contains("perhaps 102.5 mm")),
        "{problems:?}"
    );
}

#[test]
fn every_refusal_reason_of_the_questions_refuses_when_yes_unknown_or_missing() {
    for key in ["cellar", "chimney", "bay", "veneer", "removed", "digging", "cracked"] {
        for answer in [json!("yes"), json!("unknown"), Value::Null] {
            let mut job = calc::example::job("two_storey_cavity").unwrap();
            job["answers"][key] = answer.clone();
            let proposal = calc::size_value(&job).unwrap();
            assert_eq!(
                serde_json::to_value(proposal.standing).unwrap(),
                "needs_own_design",
                "{key} {answer}"
            );
            assert!(
                proposal.options.is_empty() && proposal.reasons.iter().any(|r| r.code.starts_with(key)),
                "{key} {answer}"
            );
        }
    }
}

#[test]
fn a_proposal_fed_back_through_fix_gets_the_same_verdict() {
    for name in calc::example::names() {
        let mut job = calc::example::job(name).unwrap();
        let first = calc::size_value(&job).unwrap();
        for option in &first.options {
            let needle = option.needles.first().unwrap();
            job["fix"] = json!({
                "needles_x_m": option.needles.iter().map(|n| n.x_m).collect::<Vec<_>>(), "section": needle.section,
                "inside_y_mm": needle.inside_y_mm, "outside_y_mm": needle.outside_y_mm, "pack_mm": needle.pack_mm
            });
            let again = calc::size_value(&job).unwrap();
            let same = again.options.iter().find(|o| o.aim == option.aim).unwrap();
            assert!(
                (same.worst_utilisation - option.worst_utilisation).abs() < 1e-9,
                "{name} {}",
                option.aim
            );
            assert_eq!(same.standing, option.standing, "{name} {}", option.aim);
        }
    }
}
