//! The set-out drawn onto a photo, read back through the test's own camera.

use crate::draw::Camera;
use serde_json::{Value, json};

fn camera() -> Camera {
    Camera {
        width: 4000.0,
        height: 3000.0,
        focal: 2600.0,
        target: [1800.0, 1400.0],
        distance: 5500.0,
        pitch: 0.03,
        pan: 0.25,
        roll: 0.01,
        bend: 0.0,
    }
}

fn request() -> Value {
    let camera = camera();
    let see = |x: f64, y: f64| camera.see([x, y]).unwrap();
    let mut job = calc::example::job("semi-detached")
        .or_else(|| calc::example::job(calc::example::names()[0]))
        .unwrap();
    job["forbidden"] = json!([{ "from_m": 0.1, "to_m": 0.2, "why": "soil <pipe>" }]);
    let option = json!({ "needle_soffit_m": 2.25, "needle_top_m": 2.4,
        "needles": [
            { "name": "N1", "x_m": 0.5, "section": "SHS100x100x5 S355", "inside_y_mm": 725.0, "outside_y_mm": -450.0 },
            { "name": "N2", "x_m": 1.45, "section": "SHS100x100x5 S355", "inside_y_mm": 725.0, "outside_y_mm": -450.0 }
        ], "props": [] });
    json!({ "view": {
        "photo": { "width_px": 4000, "height_px": 3000 },
        "reference": { "kind": "taped", "width_mm": 2000, "height_mm": 1500, "plus_minus_mm": 2 },
        "corners_px": [see(600.0, 1800.0), see(2600.0, 1800.0), see(2600.0, 300.0), see(600.0, 300.0)],
        "tap_px": 2, "origin": { "at_px": see(0.0, 1000.0) }, "floor": { "at_px": see(1500.0, 0.0) }
    }, "job": job, "option": option })
}

#[test]
fn needles_are_drawn_where_they_stand() {
    let answer = calc::sight::set_out_value(&request()).unwrap();
    assert_eq!(answer["trust"], "good", "{}", answer["doubts"]);
    let marks = answer["marks"].as_array().unwrap();
    for (mark, x) in marks.iter().zip([500.0, 1450.0]) {
        let at: [f64; 2] = serde_json::from_value(mark["at_px"].clone()).unwrap();
        let seen = camera().see([x, 2325.0]).unwrap();
        assert!((at[0] - seen[0]).hypot(at[1] - seen[1]) < 1e-6, "{at:?} {seen:?}");
        assert!((mark["drawn_x"]["mm"].as_f64().unwrap() - x).abs() < 1e-6);
        let pm = mark["drawn_x"]["plus_minus_mm"].as_f64().unwrap();
        assert!(pm > 1.0 && pm < 40.0, "{pm}");
    }
    let hole = answer["shapes"]
        .as_array()
        .unwrap()
        .iter()
        .find(|s| s["what"] == "needle")
        .unwrap();
    // SHS 100 and 75 mm of hole: 175 mm wide, from the soffit to 75 mm over the top.
    let corners: Vec<[f64; 2]> = serde_json::from_value(hole["points_px"].clone()).unwrap();
    for corner in [[412.5, 2475.0], [587.5, 2475.0], [587.5, 2250.0], [412.5, 2250.0]] {
        let seen = camera().see(corner).unwrap();
        let near = corners.iter().any(|p| (p[0] - seen[0]).hypot(p[1] - seen[1]) < 1e-6);
        assert!(near, "{corner:?} is missing");
    }
    for what in [
        "opening",
        "needle_centre",
        "measure",
        "loose_triangle",
        "forbidden",
        "feet",
    ] {
        assert!(
            answer["shapes"].as_array().unwrap().iter().any(|s| s["what"] == what),
            "{what}"
        );
    }
    let words: Vec<&str> = answer["labels"]
        .as_array()
        .unwrap()
        .iter()
        .map(|l| l["words"].as_str().unwrap())
        .collect();
    assert!(
        words.contains(&"500") && words.contains(&"1450") && words.contains(&"N2"),
        "{words:?}"
    );
}

#[test]
fn the_overlay_is_sound_and_every_stroke_stands_twice() {
    let svg = calc::sight::set_out_value(&request()).unwrap()["svg"]
        .as_str()
        .unwrap()
        .to_owned();
    let tree = roxmltree::Document::parse(&svg).unwrap();
    let paths: Vec<_> = tree.descendants().filter(|n| n.has_tag_name("path")).collect();
    let is_under = |n: &roxmltree::Node<'_, '_>| n.attribute("class").unwrap().ends_with(" under");
    let under: Vec<_> = paths.iter().filter(|n| is_under(n)).collect();
    let over: Vec<_> = paths.iter().filter(|n| !is_under(n)).collect();
    assert!(under.len() > 8 && under.len() == over.len());
    for (light, dark) in under.iter().zip(over.iter()) {
        assert_eq!(light.attribute("d"), dark.attribute("d"));
        let thick = |n: &roxmltree::Node<'_, '_>| n.attribute("stroke-width").unwrap().parse::<f64>().unwrap();
        assert!(thick(light) > 1.5 * thick(dark));
    }
    let words: Vec<(f64, f64, usize)> = tree
        .descendants()
        .filter(|n| n.has_tag_name("text") && !n.attribute("class").unwrap().ends_with(" under"))
        .map(|n| {
            let number = |key: &str| n.attribute(key).unwrap().parse::<f64>().unwrap();
            (number("x"), number("y"), n.text().unwrap().chars().count())
        })
        .collect();
    assert!(words.len() >= 6, "{words:?}");
    for (i, (x, y, long)) in words.iter().enumerate() {
        for (x2, y2, long2) in words.iter().skip(i + 1) {
            // Words of 80 px: a third of that a character at the least, a line each.
            let apart = (x - x2).abs() > 26.0 * (long + long2) as f64 / 2.0 || (y - y2).abs() > 80.0;
            assert!(apart, "words over words: {words:?}");
        }
    }
    assert!(svg.contains("soil &lt;pipe&gt;") && !svg.contains("style=") && !svg.contains("<script"));
}

#[test]
fn without_jamb_or_floor_nothing_is_drawn() {
    for (key, code) in [("origin", "no_jamb"), ("floor", "no_floor")] {
        let mut request = request();
        request["view"][key] = Value::Null;
        let answer = calc::sight::set_out_value(&request).unwrap();
        assert_eq!(
            (&answer["trust"], &answer["doubts"][0]["code"]),
            (&json!("refused"), &json!(code))
        );
        assert!(answer["shapes"].as_array().unwrap().is_empty() && answer["svg"] == "");
    }
}

#[test]
fn every_proposal_of_the_ready_houses_can_be_drawn() {
    for name in calc::example::names() {
        let job = calc::example::job(name).unwrap();
        let proposal = serde_json::to_value(calc::size_value(&job).unwrap()).unwrap();
        for option in proposal["options"].as_array().unwrap() {
            let mut request = request();
            (request["job"], request["option"]) = (job.clone(), option.clone());
            let answer = calc::sight::set_out_value(&request).unwrap();
            assert!(
                !answer["marks"].as_array().unwrap().is_empty(),
                "{name}: {}",
                answer["doubts"]
            );
        }
    }
    let mut bad = request();
    bad["option"] = json!({ "needles": 3 });
    assert_eq!(calc::sight::set_out_value(&bad).unwrap_err()[0].path, "/option");
}
