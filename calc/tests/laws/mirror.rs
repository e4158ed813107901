//! A mirrored house gets the mirrored support: left for right, and inside for outside.

use crate::common::jobs::{Kind, jobs};
use crate::common::{near, options, shown, size, used};
use calc::geometry::Geometry;
use calc::job::Job;
use calc::layout::{Anchors, layouts};
use proptest::prelude::*;
use serde_json::{Value, json};

fn turned(list: &mut Value, mirror: impl Fn(&mut Value)) {
    list.as_array_mut().into_iter().flatten().for_each(mirror);
}

fn number(value: &Value, key: &str) -> f64 {
    value[key].as_f64().unwrap()
}

/// The job seen from the other end of the wall: x becomes width − x.
fn left_for_right(job: &Value) -> Value {
    let mut out = job.clone();
    let width = number(&job["opening"], "width_m");
    out["opening"]["left_masonry_m"] = job["opening"]["right_masonry_m"].clone();
    out["opening"]["right_masonry_m"] = job["opening"]["left_masonry_m"].clone();
    let hole = |hole: &mut Value| hole["x_m"] = json!(width - number(hole, "x_m") - number(hole, "width_m"));
    turned(&mut out["wall"]["openings"], hole);
    turned(&mut out["above"], |storey| turned(&mut storey["openings"], hole));
    turned(&mut out["points"], |point| {
        point["x_m"] = json!(width - number(point, "x_m"))
    });
    turned(&mut out["forbidden"], |stretch| {
        let (from, to) = (number(stretch, "from_m"), number(stretch, "to_m"));
        stretch["from_m"] = json!(width - to);
        stretch["to_m"] = json!(width - from);
    });
    out
}

/// The job seen from the other side: leaves, floors and feet change places, the datum stays.
fn inside_for_outside(job: &Value) -> Value {
    let mut out = job.clone();
    let other = |value: &mut Value| {
        *value = match value.as_str() {
            Some("inner") => json!("outer"),
            Some("outer") => json!("inner"),
            _ => json!("both"),
        }
    };
    out["wall"]["leaves"].as_array_mut().unwrap().reverse();
    other(&mut out["roof"]["leaf"]);
    turned(&mut out["points"], |point| other(&mut point["leaf"]));
    turned(&mut out["above"], |storey| {
        if let Some(leaves) = storey["leaves"].as_array_mut() {
            leaves.reverse();
        }
        let floor = &mut storey["floor"];
        other(&mut floor["leaf"]);
        let (inside, outside) = (floor["inside_span_m"].clone(), floor["outside_span_m"].clone());
        floor["inside_span_m"] = outside;
        floor["outside_span_m"] = inside;
    });
    out["sides"]["inside"] = job["sides"]["outside"].clone();
    out["sides"]["outside"] = job["sides"]["inside"].clone();
    out
}

/// The arrangement of an option as a thing to hold still, mirrored along the wall or through it.
fn held(option: &Value, along: Option<f64>, through: Option<f64>) -> Value {
    let needle = &option["needles"][0];
    let mut axes: Vec<f64> = option["needles"]
        .as_array()
        .unwrap()
        .iter()
        .map(|n| number(n, "x_m"))
        .map(|x| along.map_or(x, |width| width - x))
        .collect();
    axes.sort_by(f64::total_cmp);
    let (inside, outside) = (number(needle, "inside_y_mm"), number(needle, "outside_y_mm"));
    let (inside, outside) = through.map_or((inside, outside), |thickness| (thickness - outside, thickness - inside));
    json!({"needles_x_m": axes, "section": needle["section"], "pack_mm": needle["pack_mm"], "inside_y_mm": inside, "outside_y_mm": outside})
}

fn thickness(job: &Value) -> f64 {
    let leaves = job["wall"]["leaves"].as_array().unwrap();
    leaves.iter().map(|leaf| number(leaf, "thickness_mm")).sum::<f64>()
        + number(&job["wall"], "cavity_mm") * (leaves.len() - 1) as f64
}

fn same_answer(one: &Value, other: &Value) -> Result<(), TestCaseError> {
    prop_assert!(near(
        number(&one["load"], "total_service_kn"),
        number(&other["load"], "total_service_kn")
    ));
    prop_assert_eq!(
        &one["standing"],
        &other["standing"],
        "{} {}",
        one["reasons"],
        other["reasons"]
    );
    prop_assert_eq!(options(one).len(), options(other).len());
    for (a, b) in options(one).iter().zip(options(other)) {
        prop_assert_eq!(&a["aim"], &b["aim"]);
        prop_assert!(
            near(number(a, "objective"), number(b, "objective")),
            "{}: {} and {}",
            a["aim"],
            a["objective"],
            b["objective"]
        );
        prop_assert!(near(used(a), used(b)), "{}: {} and {}", a["aim"], used(a), used(b));
        prop_assert_eq!(&a["standing"], &b["standing"]);
    }
    Ok(())
}

/// Places to try for needles beside windows above, from the left and from the right: axes and edges often fall on one place,
/// where the last digits of a sum must not decide.
#[test]
fn places_to_try_beside_windows_are_mirrored() {
    let mut tried = 0;
    for (left, right) in (1..28).flat_map(|left| (left + 1..28).map(move |right| (left, right))) {
        let (left_m, right_m) = (f64::from(left) * 0.05, f64::from(right) * 0.05);
        let mut job = beside_windows();
        job["above"][0]["openings"] = json!([
            {"x_m": left_m - 1.35, "sill_m": 0.6, "width_m": 1.35, "height_m": 0.6},
            {"x_m": right_m, "sill_m": 0.6, "width_m": 0.5, "height_m": 0.6},
        ]);
        let straight = places(&job);
        let mut back: Vec<Vec<i64>> = places(&left_for_right(&job))
            .into_iter()
            .map(|axes| axes.iter().rev().map(|x| 1_400_000 - x).collect())
            .collect();
        back.sort();
        assert_eq!(straight, back, "pier from {left_m} to {right_m} m");
        tried += straight.len();
    }
    assert!(tried > 300, "{tried}");
}

/// A wall with one storey above, of which only the opening and the windows matter here.
fn beside_windows() -> Value {
    json!({
        "contract": 1, "country": "england",
        "opening": {"width_m": 1.4, "head_m": 2.0, "left_masonry_m": 1.2, "right_masonry_m": 0.9, "beam_depth_mm": 100, "flush": false},
        "wall": {"leaves": [{"thickness_mm": 215, "material": "clay_brick", "mortar": "cement"}], "condition": "sound", "openings": []},
        "above": [{"height_m": 2.3, "openings": [], "floor": {"leaf": "inner", "inside_span_m": 2.0, "direction": "onto"}}],
        "roof": {"kind": "rafters", "leaf": "inner", "span_m": 7.6, "pitch_deg": 40},
        "sides": {
            "inside": {"foot_level_m": 0.0, "room_m": 2.5, "foot": {"kind": "ground", "ground": "firm_clay", "fixed": true}},
            "outside": {"foot_level_m": 0.0, "room_m": 4.0, "foot": {"kind": "ground", "ground": "firm_clay", "fixed": true}}},
        "points": [], "forbidden": []
    })
}

/// Layouts to try for a needle 152 mm wide, in thousandths of a millimetre, in rising order.
fn places(job: &Value) -> Vec<Vec<i64>> {
    let (job, mut assumptions) = Job::from_value(job).unwrap();
    let geometry = Geometry::of(&job, &mut assumptions);
    let found = layouts(152.0, &job, &geometry, &Anchors::of(&job, &geometry));
    let mut out: Vec<Vec<i64>> = found
        .iter()
        .map(|axes| axes.iter().map(|x| (x * 1e6).round() as i64).collect())
        .collect();
    out.sort();
    out.dedup();
    out
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 64, ..ProptestConfig::default() })]

    #[test]
    fn left_for_right_gets_the_mirrored_support(job in jobs(Kind::Ordinary)) {
        let mut job = job;
        job["builders_plan"] = Value::Null;
        let mut mirrored = left_for_right(&job);
        let (one, other) = (size(&job)?, size(&mirrored)?);
        same_answer(&one, &other)?;
        // The very support, mirrored, gets the very use.
        if let Some(option) = options(&one).first() {
            mirrored["fix"] = held(option, Some(number(&job["opening"], "width_m")), None);
            let again = size(&mirrored)?;
            prop_assert!(near(used(shown(&again)), used(option)), "{} after {}", used(shown(&again)), used(option));
        }
    }

    #[test]
    fn inside_for_outside_gets_the_mirrored_support(job in jobs(Kind::Ordinary)) {
        let mut job = job;
        job["builders_plan"] = Value::Null;
        // Equal rooms leave it open from where the beam comes; here one side has plainly more, and the taller storey's
        // height is counted from the inside floor on both.
        job["sides"]["inside"]["room_m"] = json!(4.5);
        let mut mirrored = inside_for_outside(&job);
        let (one, other) = (size(&job)?, size(&mirrored)?);
        same_answer(&one, &other)?;
        if let Some(option) = options(&one).first() {
            mirrored["fix"] = held(option, None, Some(thickness(&job)));
            let again = size(&mirrored)?;
            prop_assert!(near(used(shown(&again)), used(option)), "{} after {}", used(shown(&again)), used(option));
        }
    }
}
