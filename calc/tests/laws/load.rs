//! Load is conserved: over the whole wall at every level and on each leaf, and over the cut on the needles.

use crate::common::jobs::{Kind, jobs};
use crate::common::{each, edit, near, options, size};
use calc::clause::national::uk;
use calc::geometry::Geometry;
use calc::takedown::take_down;
use proptest::prelude::*;
use serde_json::{Value, json};

/// Density where none is entered, kN/m³: the method's section 2.
fn weight_kn_m2(leaf: &Value) -> f64 {
    let known = match leaf["material"].as_str().unwrap() {
        "clay_brick" | "calcium_silicate_brick" => 19.0,
        "dense_block" => 20.0,
        "medium_block" => 14.0,
        "aerated_block" => 7.0,
        other => panic!("{other} is not among the ordinary walls"),
    };
    let density = leaf["density_kn_m3"].as_f64().unwrap_or(known);
    (density * leaf["thickness_mm"].as_f64().unwrap() + 17.0 * leaf["plaster_mm"].as_f64().unwrap()) / 1000.0
}

/// Length of floor on the wall, m: two simple spans, or Clapeyron's middle reaction of a beam on three supports.
fn length_on_wall(floor: &Value) -> f64 {
    let (a, b) = (
        floor["inside_span_m"].as_f64().unwrap(),
        floor["outside_span_m"].as_f64().unwrap(),
    );
    if floor["continuous"] == true && b > 0.0 {
        let moment = (a * a * a + b * b * b) / (8.0 * (a + b));
        (a + b) / 2.0 + moment / a + moment / b
    } else {
        (a + b) / 2.0
    }
}

fn share(which: &Value, leaf: usize, count: usize) -> f64 {
    match (count, which.as_str().unwrap()) {
        (1, _) => 1.0,
        (_, "both") => 0.5,
        (_, "inner") => f64::from(u8::from(leaf == 1)),
        _ => f64::from(u8::from(leaf == 0)),
    }
}

/// What of a leaf with all that stands on it lies above a level over the whole described wall: permanent and imposed, kN.
fn by_hand(job: &Value, leaf: usize, soffit_m: f64) -> (f64, f64) {
    let opening = &job["opening"];
    let length: f64 = ["left_masonry_m", "width_m", "right_masonry_m"]
        .map(|key| opening[key].as_f64().unwrap())
        .iter()
        .sum();
    let count = job["wall"]["leaves"].as_array().unwrap().len();
    let (mut g, mut q) = (0.0, 0.0);
    let storeys = job["above"].as_array().unwrap();
    let mut build = &job["wall"]["leaves"];
    let first = storeys
        .first()
        .map(|storey| storey["floor"]["bearing_m"].as_f64().unwrap());
    let base_top = first.unwrap_or_else(|| job["roof"]["bearing_m"].as_f64().unwrap());
    g += weight_kn_m2(&build[leaf]) * length * (base_top - soffit_m).max(0.0);
    let mut levels = vec![base_top];
    for storey in storeys {
        if storey["leaves"].is_array() {
            build = &storey["leaves"];
        }
        let (bottom, top) = (
            levels[levels.len() - 1],
            levels[levels.len() - 1] + storey["height_m"].as_f64().unwrap(),
        );
        let weight = weight_kn_m2(&build[leaf]);
        g += weight * length * (top - bottom.max(soffit_m)).max(0.0);
        let base = bottom + storey["floor"]["joist_depth_m"].as_f64().unwrap();
        for hole in storey["openings"].as_array().unwrap() {
            let sill = base + hole["sill_m"].as_f64().unwrap();
            let head = (sill + hole["height_m"].as_f64().unwrap()).min(top);
            let open = hole["width_m"].as_f64().unwrap() * (head - sill.max(soffit_m)).max(0.0);
            g += open * (0.35 / count as f64 - weight);
        }
        let floor = &storey["floor"];
        if bottom >= soffit_m {
            let on = share(&floor["leaf"], leaf, count) * length * length_on_wall(floor);
            g += on * floor["dead_kn_m2"].as_f64().unwrap();
            let people = if floor["empty"] == true {
                1.0
            } else {
                floor["imposed_kn_m2"].as_f64().unwrap()
            };
            q += on * (people + floor["partitions_kn_m2"].as_f64().unwrap());
        }
        levels.push(top);
    }
    let (roof, top) = (&job["roof"], levels[levels.len() - 1]);
    if roof["bears"] == true && top >= soffit_m {
        let pitch = roof["pitch_deg"].as_f64().unwrap();
        let on = share(&roof["leaf"], leaf, count)
            * length
            * (roof["span_m"].as_f64().unwrap() / 2.0 + roof["overhang_m"].as_f64().unwrap());
        g += on
            * (roof["dead_kn_m2"].as_f64().unwrap() / pitch.to_radians().cos()
                + roof["ceiling_kn_m2"].as_f64().unwrap());
        let falling = ((60.0 - pitch) / 30.0).clamp(0.0, 1.0);
        q += on * (0.6 * falling).max(0.8 * falling * job["site"]["snow_kn_m2"].as_f64().unwrap());
    }
    for point in job["points"].as_array().unwrap() {
        if levels[point["level"].as_u64().unwrap() as usize] >= soffit_m {
            g += share(&point["leaf"], leaf, count) * point["dead_kn"].as_f64().unwrap();
            q += share(&point["leaf"], leaf, count) * point["imposed_kn"].as_f64().unwrap();
        }
    }
    (g, q)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 128, ..ProptestConfig::default() })]

    #[test]
    fn at_every_level_each_leaf_brings_what_stands_on_it(job in jobs(Kind::Ordinary), snow in 0.3..1.5_f64, up in 0.0..6.0_f64) {
        let mut job = job;
        edit(&mut job, &[("/site/snow_kn_m2", json!(snow)), ("/roof/kind", json!("trusses")), ("/wall/openings", json!([]))]);
        let lowest = job["opening"]["head_m"].as_f64().unwrap() + job["opening"]["beam_depth_mm"].as_f64().unwrap() / 1000.0 + 0.05;
        let soffit_m = (lowest + up).min(9.0);
        edit(&mut job, &[("/opening/needle_soffit_m", json!(soffit_m))]);
        let (read, _) = calc::Job::from_value(&job).map_err(|problems| TestCaseError::fail(format!("{problems:?}")))?;
        let geometry = Geometry::of(&read, &mut Vec::new());
        let down = take_down(&read, &geometry, &uk(), &mut Vec::new());
        for (way, leaves) in [("straight", &down.straight), ("spread", &down.spread)] {
            for (k, steps) in leaves.iter().enumerate() {
                let found = steps.between(-100.0, 100.0);
                let (g, q) = by_hand(&job, k, soffit_m);
                prop_assert!(near(found.permanent(), g) && near(found.imposed(), q),
                    "{way}, leaf {k} at {soffit_m} m: {} and {}, by hand {g} and {q}", found.permanent(), found.imposed());
            }
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 32, ..ProptestConfig::default() })]

    #[test]
    fn needles_carry_what_comes_down_over_the_cut(job in jobs(Kind::Any)) {
        let answer = size(&job)?;
        let total = answer["load"]["total_service_kn"].as_f64().unwrap();
        let profile = &answer["load"]["profile"];
        let numbers = |key: &str| -> Vec<f64> { profile[key].as_array().unwrap().iter().map(|n| n.as_f64().unwrap()).collect() };
        let (x, g, q) = (numbers("x_m"), numbers("g_kn_m"), numbers("q_kn_m"));
        prop_assert!(x.len() == g.len() + 1 && g.len() == q.len());
        let area: f64 = x.windows(2).zip(g.iter().zip(&q)).map(|(ends, (g, q))| (ends[1] - ends[0]) * (g + q)).sum();
        prop_assert!(near(area, total), "profile {area}, total {total}");
        let parts: f64 = ["dead_kn", "imposed_kn"].iter().flat_map(|key| each(&answer["load"]["parts"], key)).sum();
        prop_assert!(near(parts, total), "parts {parts}, total {total}");
        let plain = job["above"].as_array().unwrap().iter().all(|storey| storey["openings"] == json!([]));
        for option in options(&answer).iter().filter(|option| option["kind"] == "needles") {
            let lever: f64 = each(&option["needles"], "lever_kn").iter().sum();
            let most: f64 = each(&option["needles"], "load_kn").iter().sum();
            // Under upper openings each needle takes the larger of two ways down, so the sum may exceed the total.
            prop_assert!(lever >= total - 1e-6 && most >= lever - 1e-6, "{lever} and {most} of {total}");
            prop_assert!(!plain || near(lever, total), "{lever} of {total}");
            for (one, whole) in each(&option["needles"], "lever_kn").iter().zip(each(&option["needles"], "load_kn")) {
                prop_assert!(whole >= one - 1e-9);
            }
        }
    }

    /// A row of equally spaced supports under an even load: with one away, the largest reaction is never smaller.
    #[test]
    fn a_support_less_never_eases_the_hardest(job in jobs(Kind::Ordinary), count in 3..6_usize, lost in 0..6_usize, end in 0.1..0.5_f64) {
        let mut job = job;
        edit(&mut job, &[("/points", json!([])), ("/wall/openings", json!([])), ("/forbidden", json!([]))]);
        for storey in job["above"].as_array_mut().unwrap() {
            storey["openings"] = json!([]);
        }
        let width = job["opening"]["width_m"].as_f64().unwrap();
        let spacing = width / (count as f64 - 1.0 + 2.0 * end);
        let row: Vec<f64> = (0..count).map(|i| spacing * (end + i as f64)).collect();
        let without: Vec<f64> = row.iter().enumerate().filter(|(i, _)| *i != lost % count).map(|(_, x)| *x).collect();
        let (read, _) = calc::Job::from_value(&job).unwrap();
        let geometry = Geometry::of(&read, &mut Vec::new());
        let down = take_down(&read, &geometry, &uk(), &mut Vec::new());
        let loads = calc::demand::Loads::of(&down, (geometry.cut_left_m, geometry.cut_right_m), &uk());
        let largest = |axes: &[f64], pick: fn(&calc::demand::NeedleLoad) -> f64| loads.needles(axes).iter().map(pick).fold(0.0, f64::max);
        let picks = [|n: &calc::demand::NeedleLoad| n.lever_kn, |n: &calc::demand::NeedleLoad| n.continuous_kn, |n: &calc::demand::NeedleLoad| n.load_kn];
        // The middle one of three takes 1.25 shares of a continuous beam, and two take 1 share and an end each: there the law
        // holds for the lever rule only.
        let lever_only = count == 3 && lost % count == 1;
        for pick in picks.iter().take(if lever_only { 1 } else { 3 }) {
            let (all, fewer) = (largest(&row, *pick), largest(&without, *pick));
            prop_assert!(fewer >= all - 1e-9, "{fewer} after {all} without {} of {row:?}", lost % count);
        }
    }
}
