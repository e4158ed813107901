//! What a ± is said to come from is what makes it smaller when it is done better, and a level is a height over the floor.

use crate::draw::Camera;
use serde_json::{Value, json};

/// A door leaf and an opening of 2.4 m by 2.1 m beside it, seen squarely; the inside floor is at the leaf's foot.
fn request(tap_px: f64, size_mm: f64, lens: &str) -> Value {
    let camera = Camera {
        width: 4000.0,
        height: 3000.0,
        focal: 3000.0,
        target: [1800.0, 1200.0],
        distance: 5000.0,
        pitch: 0.0,
        pan: 0.1,
        roll: 0.0,
        bend: 0.0,
    };
    let see = |at| camera.see(at).unwrap();
    let leaf = [[3000.0, 1981.0], [3762.0, 1981.0], [3762.0, 0.0], [3000.0, 0.0]].map(see);
    let opening = [[0.0, 2100.0], [2400.0, 2100.0], [2400.0, 0.0], [0.0, 0.0]].map(see);
    let rim: Vec<[f64; 2]> = (0..7).map(|i| see([-200.0 + 650.0 * f64::from(i), 2500.0])).collect();
    json!({ "view": {
        "photo": { "width_px": 4000, "height_px": 3000 }, "lens": lens, "corners_px": leaf, "tap_px": tap_px, "edges_px": [rim],
        "reference": { "kind": "door_leaf", "width_mm": 762, "height_mm": 1981, "plus_minus_mm": size_mm },
        "origin": { "at_px": see([0.0, 1000.0]), "x_mm": 0 }, "floor": { "at_px": see([1000.0, 0.0]), "level_mm": 0 }
    }, "lengths": [{ "name": "head", "from_px": see([0.0, 2100.0]), "to_px": see([2400.0, 2100.0]) }],
       "rectangles": [{ "name": "opening", "corners_px": opening }],
       "levels": [{ "name": "head", "at_px": see([1200.0, 2100.0]) }, { "name": "floor", "at_px": see([2000.0, 0.0]) }] })
}

fn without_edges(mut request: Value) -> Value {
    request["view"]["edges_px"] = json!([]);
    request
}

fn ask(request: &Value) -> Value {
    calc::sight::measure_value(request).unwrap()
}

fn width(answer: &Value) -> f64 {
    answer["rectangles"][0]["sizes"]["width"]["plus_minus_mm"]
        .as_f64()
        .unwrap()
}

#[test]
fn the_cause_that_is_named_is_the_one_worth_doing_better() {
    // Each time one thing is bad: it is named, and made good it leaves a third of the range at most.
    let good = ask(&request(0.5, 0.5, "phone"));
    for (bad, cause) in [
        (request(12.0, 0.5, "phone"), "corners"),
        (request(0.5, 40.0, "phone"), "size"),
        (without_edges(request(0.5, 0.5, "unknown")), "lens"),
    ] {
        let answer = ask(&bad);
        for list in ["lengths", "rectangles"] {
            assert_eq!(answer[list][0]["mostly"], cause, "{list}: {answer}");
        }
        assert!(
            width(&answer) > 3.0 * width(&good),
            "{cause}: {} against {}",
            width(&answer),
            width(&good)
        );
    }
}

#[test]
fn a_straight_edge_makes_the_range_smaller_where_the_lens_is_the_cause() {
    let with = ask(&request(1.0, 1.0, "unknown"));
    let without = ask(&without_edges(request(1.0, 1.0, "unknown")));
    assert_eq!(
        (&with["lens"]["from_edges"], &without["lens"]["from_edges"]),
        (&json!(true), &json!(false))
    );
    assert!(
        width(&with) < 0.5 * width(&without),
        "{} against {}",
        width(&with),
        width(&without)
    );
    // It still holds: this camera bends nothing, so the truth is 2400.
    let read = with["rectangles"][0]["sizes"]["width"]["mm"].as_f64().unwrap();
    assert!((read - 2400.0).abs() <= width(&with), "{read}");
}

#[test]
fn a_level_is_read_over_the_floor_and_near_it_too() {
    let answer = ask(&request(1.0, 1.0, "phone"));
    for (i, truth) in [2100.0, 0.0].into_iter().enumerate() {
        let level = &answer["levels"][i];
        let (mm, within) = (
            level["length"]["mm"].as_f64().unwrap(),
            level["length"]["plus_minus_mm"].as_f64().unwrap(),
        );
        assert!((mm - truth).abs() <= within && within < 60.0, "{level}");
        assert_eq!(level["trust"], "good", "{level}");
    }
    let mut off = request(1.0, 1.0, "phone");
    off["levels"][0]["at_px"] = json!([-5.0, 10.0]);
    let problems = calc::sight::measure_value(&off).unwrap_err();
    assert!(
        problems.iter().any(|problem| problem.path == "/levels/0/at_px"),
        "{problems:?}"
    );
}
