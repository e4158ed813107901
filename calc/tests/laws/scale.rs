//! More load, softer ground, longer standing: never a better answer.

use crate::common::jobs::{Kind, jobs};
use crate::common::{edit, options, size, used};
use proptest::prelude::*;
use serde_json::{Value, json};

/// A job whose every load can be scaled: densities entered, no empty storey (people at work are fixed), snow that outweighs
/// the roof's imposed load (which is fixed), no glazing.
fn scalable(job: &Value) -> Value {
    let mut job = job.clone();
    let known = |leaf: &mut Value| {
        if leaf["density_kn_m3"].is_null() {
            leaf["density_kn_m3"] = json!(match leaf["material"].as_str() {
                Some("medium_block") => 14.0,
                Some("aerated_block") => 7.0,
                _ => 19.0,
            });
        }
        leaf["density_kn_m3"] = json!(leaf["density_kn_m3"].as_f64().unwrap().min(20.0));
    };
    every_leaf(&mut job, known);
    for storey in job["above"].as_array_mut().unwrap() {
        storey["floor"]["empty"] = json!(false);
        storey["openings"] = json!([]);
    }
    edit(
        &mut job,
        &[
            ("/site/snow_kn_m2", json!(1.0)),
            ("/wall/openings", json!([])),
            ("/builders_plan", Value::Null),
        ],
    );
    job
}

fn every_leaf(job: &mut Value, change: impl Fn(&mut Value)) {
    job["wall"]["leaves"]
        .as_array_mut()
        .unwrap()
        .iter_mut()
        .for_each(&change);
    for storey in job["above"].as_array_mut().unwrap() {
        storey["leaves"].as_array_mut().into_iter().flatten().for_each(&change);
    }
}

/// The same job with every load times a factor.
fn scaled(job: &Value, factor: f64) -> Value {
    let mut job = job.clone();
    let times = |value: &mut Value| {
        let before = value.as_f64().unwrap();
        *value = json!(before * factor);
    };
    every_leaf(&mut job, |leaf| {
        times(&mut leaf["density_kn_m3"]);
        times(&mut leaf["plaster_mm"]);
    });
    for storey in job["above"].as_array_mut().unwrap() {
        for key in ["dead_kn_m2", "imposed_kn_m2", "partitions_kn_m2"] {
            times(&mut storey["floor"][key]);
        }
    }
    for key in ["dead_kn_m2", "ceiling_kn_m2"] {
        times(&mut job["roof"][key]);
    }
    for point in job["points"].as_array_mut().unwrap() {
        times(&mut point["dead_kn"]);
        times(&mut point["imposed_kn"]);
    }
    times(&mut job["site"]["snow_kn_m2"]);
    job
}

/// No aim's best is better than before: an option used at most 0.90 counts as better than one used more.
fn no_better(before: &Value, after: &Value) -> Result<(), TestCaseError> {
    for option in options(after) {
        let found = options(before).iter().find(|old| old["aim"] == option["aim"]);
        prop_assert!(found.is_some(), "{} appears only afterwards", option["aim"]);
        let old = found.unwrap();
        let key = |option: &Value| (used(option) > 0.9, option["objective"].as_f64().unwrap());
        let ((was_close, was), (is_close, is)) = (key(old), key(option));
        prop_assert!(
            is_close >= was_close,
            "{}: used {} after {}",
            option["aim"],
            used(option),
            used(old)
        );
        prop_assert!(
            is_close != was_close || is >= was - 1e-9,
            "{}: {is} after {was}",
            option["aim"]
        );
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 20, ..ProptestConfig::default() })]

    #[test]
    fn heavier_loads_never_improve_an_aim(job in jobs(Kind::Ordinary), factor in 1.0..1.5_f64) {
        let job = scalable(&job);
        let (light, heavy) = (size(&job)?, size(&scaled(&job, factor))?);
        // All of it was scaled: the total says so.
        let ratio = heavy["load"]["total_service_kn"].as_f64().unwrap() / light["load"]["total_service_kn"].as_f64().unwrap();
        prop_assert!((ratio - factor).abs() < 1e-9, "{ratio} of {factor}");
        no_better(&light, &heavy)?;
    }

    #[test]
    fn softer_ground_never_improves_an_aim(job in jobs(Kind::Ordinary), kpa in 60.0..300.0_f64, share in 0.4..1.0_f64) {
        let on = |kpa: f64| {
            let mut job = job.clone();
            edit(&mut job, &[("/sides/inside/foot/bearing_kpa", json!(kpa)), ("/sides/outside/foot/bearing_kpa", json!(kpa)), ("/builders_plan", Value::Null)]);
            size(&job)
        };
        no_better(&on(kpa)?, &on(kpa * share)?)?;
    }

    #[test]
    fn feet_that_are_not_fixed_never_improve_an_aim(job in jobs(Kind::Ordinary)) {
        let with = |fixed: bool| {
            let mut job = job.clone();
            edit(&mut job, &[("/sides/inside/foot/fixed", json!(fixed)), ("/sides/outside/foot/fixed", json!(fixed)), ("/builders_plan", Value::Null)]);
            size(&job)
        };
        no_better(&with(true)?, &with(false)?)?;
    }
}
