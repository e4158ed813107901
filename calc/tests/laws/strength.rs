//! Longer props, more lean, softer ground, a thinner leaf: never more strength.

use crate::common::jobs::{Kind, jobs};
use crate::common::{edit, size};
use calc::props::{PropData, State, bracket_resistance, en1065, rate};
use proptest::prelude::*;
use serde_json::{Value, json};

/// Every kind of prop whose figures are no entry of the user's.
fn props() -> Vec<PropData> {
    let classes = [
        "A25", "A35", "B30", "B35", "B40", "C35", "C40", "D30", "D35", "E30", "E35",
    ];
    (0..=4)
        .map(PropData::Tn79)
        .chain(
            classes
                .iter()
                .map(|class| PropData::En1065(en1065::parse(class).unwrap())),
        )
        .collect()
}

/// Working load, kN; nothing where the prop does not fit.
fn working(data: &PropData, length_m: f64, state: &State) -> Option<f64> {
    rate(data, length_m, state).ok().map(|rating| rating.working_load_kn)
}

fn states() -> impl Strategy<Value = State> {
    (0.0..40.0_f64, 0.0..30.0_f64, -30.0..30.0_f64, -30.0..30.0_f64).prop_map(|(head_mm, foot_mm, along, across)| {
        State {
            head_mm,
            foot_mm,
            lean_mm_m: [along, across],
        }
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 128, ..ProptestConfig::default() })]

    /// What a strut bears at first yield falls with its length; so does the working load, where the figure in the table's own
    /// state falls too or the state is the table's own. Where a table or a class's cap stays level over a stretch, the share
    /// left of it in a worse state grows with the length, as slenderness comes to outweigh eccentricity: the level figure is
    /// on the safe side for the shorter prop.
    #[test]
    fn a_longer_prop_never_holds_more(at in 0.0..1.0_f64, longer in 0.0..1.0_f64, fixed in any::<bool>()) {
        for data in props() {
            let (shortest, longest) = data.range_m().unwrap();
            let short = shortest + at * (longest - shortest);
            let long = short + longer * (longest - short);
            let state = State::design(fixed);
            if let (Ok(one), Ok(other)) = (rate(&data, short, &state), rate(&data, long, &state)) {
                let said = format!("{} {}: {one:?} at {short} m, {other:?} at {long} m", data.kind(), data.size());
                prop_assert!(other.r_state_kn <= one.r_state_kn + 1e-9, "{said}");
                prop_assert!(other.table_kn <= one.table_kn + 1e-9, "{said}");
                let own = matches!(data, PropData::Tn79(_)) && fixed;
                let by_strut = matches!(&data, PropData::En1065(class) if matches!(class.class, en1065::Class::D | en1065::Class::E));
                if own || by_strut {
                    prop_assert!(other.working_load_kn <= one.working_load_kn + 1e-9, "{said}");
                }
            }
        }
    }

    #[test]
    fn leaning_more_or_further_off_centre_never_holds_more(at in 0.0..1.0_f64, state in states(), more in 1.0..2.0_f64, which in 0..4_usize) {
        let mut worse = state;
        match which {
            0 => worse.head_mm *= more,
            1 => worse.foot_mm *= more,
            2 => worse.lean_mm_m[0] *= more,
            _ => worse.lean_mm_m[1] *= more,
        }
        for data in props() {
            let (shortest, longest) = data.range_m().unwrap();
            let length_m = shortest + at * (longest - shortest);
            if let (Some(one), Some(other)) = (working(&data, length_m, &state), working(&data, length_m, &worse)) {
                prop_assert!(other <= one + 1e-9, "{} {} at {length_m} m: {one} kN in {state:?}, {other} kN in {worse:?}", data.kind(), data.size());
            }
        }
    }

    #[test]
    fn a_bracket_with_a_longer_arm_never_holds_more(length_m in 1.8..3.0_f64, arm in 50.0..300.0_f64, more in 0.0..200.0_f64) {
        for data in props() {
            let can = |arm: f64| bracket_resistance(&data, length_m, arm, 1.5).ok().map(|found| found.can_kn);
            if let (Some(one), Some(other)) = (can(arm), can(arm + more)) {
                prop_assert!(other <= one + 1e-9, "{} {}: {one} kN at {arm} mm, {other} kN further out", data.kind(), data.size());
            }
        }
    }
}

/// The same row of needles under one leaf of a thickness; its density makes each weigh the same.
fn under_one_leaf(job: &Value, material: &str, thickness_mm: f64) -> Value {
    let mut job = job.clone();
    let leaf = json!({"material": material, "thickness_mm": thickness_mm, "mortar": "cement", "density_kn_m3": 2000.0 / thickness_mm});
    edit(
        &mut job,
        &[
            ("/wall/leaves", json!([leaf])),
            ("/wall/cavity_mm", json!(0)),
            ("/builders_plan", Value::Null),
        ],
    );
    for storey in job["above"].as_array_mut().unwrap() {
        storey["leaves"] = Value::Null;
    }
    let width = job["opening"]["width_m"].as_f64().unwrap();
    let axes: Vec<f64> = (0..3).map(|i| width * (f64::from(i) + 0.5) / 3.0).collect();
    job["fix"] = json!({"needles_x_m": axes, "section": "UC152x152x30 S275", "pack_mm": 10,
        "prop": {"name": "strong", "data": "en1065", "class": "E35"}});
    job
}

/// Largest utilisation of each check of the masonry; the bays by their own names.
fn masonry(answer: &Value) -> Vec<(String, f64)> {
    let option = crate::common::shown(answer);
    let names = ["bearing_inner", "bearing_outer", "arch_inner", "arch_outer", "stage"];
    let checks = option["checks"].as_array().cloned().unwrap_or_default();
    names
        .iter()
        .filter_map(|name| {
            let worst = checks
                .iter()
                .filter(|check| check["name"] == *name)
                .filter_map(|check| check["utilisation"].as_f64())
                .reduce(f64::max);
            worst.map(|worst| ((*name).to_owned(), worst))
        })
        .collect()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 16, ..ProptestConfig::default() })]

    #[test]
    fn a_thinner_leaf_of_the_same_weight_is_never_used_less(job in jobs(Kind::Ordinary), kind in 0..4_usize, step in 0..2_usize) {
        let (material, thicknesses) = [
            ("clay_brick", [102.5, 215.0, 327.5]),
            ("dense_block", [100.0, 140.0, 215.0]),
            ("medium_block", [100.0, 140.0, 190.0]),
            ("aerated_block", [100.0, 150.0, 215.0]),
        ][kind];
        let at = |thickness: f64| size(&under_one_leaf(&job, material, thickness));
        let (thin, thick) = (masonry(&at(thicknesses[step])?), masonry(&at(thicknesses[step + 1])?));
        for ((name, thin), (same, thick)) in thin.iter().zip(&thick) {
            prop_assert_eq!(name, same);
            prop_assert!(thin >= &(thick - 1e-9), "{}: {} at {} mm of {}, {} at {} mm", name, thin, thicknesses[step], material, thick, thicknesses[step + 1]);
        }
    }

    #[test]
    fn weaker_units_or_mortar_are_never_used_less(job in jobs(Kind::Ordinary), unit in 8.0..30.0_f64, share in 0.4..1.0_f64) {
        let with = |unit: f64, mortar: f64| {
            let mut job = under_one_leaf(&job, "clay_brick", 215.0);
            edit(&mut job, &[("/wall/leaves/0/unit_n_mm2", json!(unit)), ("/wall/leaves/0/mortar_n_mm2", json!(mortar))]);
            size(&job).map(|answer| masonry(&answer))
        };
        let strong = with(unit, 6.0)?;
        for weak in [with(unit * share, 6.0)?, with(unit, 6.0 * share)?] {
            for ((name, weak), (_, strong)) in weak.iter().zip(&strong) {
                prop_assert!(weak >= &(strong - 1e-9), "{name}: {weak} after {strong}");
            }
        }
    }
}
