//! Beside a general library of computer vision; `tests/published/libraries/run_opencv.py` made the file.

use calc::sight::{Homography, Point};
use serde_json::{Value, json};

fn file() -> Value {
    serde_json::from_str(include_str!("opencv.json")).unwrap()
}

fn points(value: &Value) -> Vec<Point> {
    serde_json::from_value(value.clone()).unwrap()
}

/// Largest difference over the largest number of its own row kind: elements differ by many powers of ten.
fn off(ours: &Homography, theirs: &Value) -> f64 {
    let theirs: Vec<f64> = serde_json::from_value(theirs.clone()).unwrap();
    let pairs = ours.rows.iter().flatten().zip(&theirs);
    pairs.fold(0.0, |most: f64, (a, b)| most.max((a - b).abs() / b.abs().max(1e-12)))
}

#[test]
fn four_pairs_agree_to_a_millionth() {
    let file = file();
    let cases = file["four"].as_array().unwrap();
    assert!(cases.len() >= 40);
    let mut largest = (0.0_f64, 0.0_f64);
    for case in cases {
        let map = Homography::from_pairs(&points(&case["from"]), &points(&case["to"])).unwrap();
        let point: Point = serde_json::from_value(case["point"].clone()).unwrap();
        let mapped: Point = serde_json::from_value(case["mapped"].clone()).unwrap();
        let ours = map.map(point).unwrap();
        let size = mapped[0].hypot(mapped[1]).max(1.0);
        largest.0 = largest.0.max((ours[0] - mapped[0]).hypot(ours[1] - mapped[1]) / size);
        // The library brings the corners to four places of a pixel's float; elements near zero share that.
        let theirs: Vec<f64> = serde_json::from_value(case["matrix"].clone()).unwrap();
        let rows = map.rows.concat();
        let scale = |i: usize| {
            if i < 6 {
                if i % 3 == 2 { 1e3 } else { 1.0 }
            } else {
                1e-3
            }
        };
        for (i, (a, b)) in rows.iter().zip(&theirs).enumerate().take(8) {
            largest.1 = largest.1.max((a - b).abs() / b.abs().max(scale(i)));
        }
    }
    println!(
        "four pairs, {} cases: points off by {:.1e}, elements by {:.1e}",
        cases.len(),
        largest.0,
        largest.1
    );
    assert!(largest.0 < 1e-6 && largest.1 < 1e-6, "{largest:?}");
}

#[test]
fn more_pairs_agree_to_a_millionth() {
    let file = file();
    let mut largest = 0.0_f64;
    for case in file["many"].as_array().unwrap() {
        let map = Homography::from_pairs(&points(&case["from"]), &points(&case["to"])).unwrap();
        largest = largest.max(off(&map, &case["matrix"]));
        let (from, to) = (points(&case["from"]), points(&case["to"]));
        let sum: f64 = from
            .iter()
            .zip(&to)
            .map(|(a, [x, y])| {
                let [u, v] = map.map(*a).unwrap();
                (u - x).powi(2) + (v - y).powi(2)
            })
            .sum();
        assert!(
            sum <= case["sum"].as_f64().unwrap() * (1.0 + 1e-12),
            "the library found a better one: {sum} {}",
            case["sum"]
        );
    }
    println!("more pairs: elements off by {largest:.1e}");
    assert!(largest < 1e-6, "{largest:e}");
}

#[test]
fn the_angle_of_the_photo_agrees() {
    let file = file();
    for case in file["camera"].as_array().unwrap() {
        // 4000 × 3000 px with f = 2900 px: 25.1 mm on film with a diagonal of 43.27 mm.
        let film = case["focal"].as_f64().unwrap() / 5000.0 * 43.27;
        let request = json!({ "view": {
            "photo": { "width_px": 4000, "height_px": 3000, "focal_35mm_mm": film },
            "reference": { "kind": "taped", "width_mm": case["width"], "height_mm": case["height"], "plus_minus_mm": 0 },
            "corners_px": case["corners"], "tap_px": 0.5
        } });
        let answer = calc::sight::measure_value(&request).unwrap();
        let (ours, theirs) = (answer["pose"]["oblique_deg"].as_f64(), case["angle"].as_f64().unwrap());
        assert!((ours.unwrap() - theirs).abs() < 1e-5, "{ours:?} {theirs}");
    }
}

#[test]
fn a_focal_length_is_found_in_the_perspective() {
    let file = file();
    let mut found = 0;
    for case in file["camera"].as_array().unwrap() {
        let request = json!({ "view": {
            "photo": { "width_px": 4000, "height_px": 3000 },
            "reference": { "kind": "taped", "width_mm": case["width"], "height_mm": case["height"], "plus_minus_mm": 0 },
            "corners_px": case["corners"], "tap_px": 0.2
        } });
        let pose = &calc::sight::measure_value(&request).unwrap()["pose"];
        if pose["focal_from"] == "perspective" {
            found += 1;
            let focal = pose["focal_px"].as_f64().unwrap();
            assert!((focal / 2900.0 - 1.0).abs() < 1e-4, "{focal}");
        } else {
            assert_eq!(pose["focal_from"], "assumed");
        }
    }
    println!("focal length found in {found} of 40 photos with taps within ±0.2 px");
    assert!(found >= 8, "{found}");
}

#[test]
fn what_gives_no_map_is_named() {
    use calc::sight::Degenerate::{NotFinite, ThreeInLine, TooFew};
    let square = [[0.0, 0.0], [1.0, 0.0], [1.0, 1.0], [0.0, 1.0]];
    let line = [[0.0, 0.0], [1.0, 1.0], [2.0, 2.0], [0.0, 1.0]];
    assert_eq!(Homography::from_pairs(&square[..3], &square[..3]), Err(TooFew));
    assert_eq!(Homography::from_pairs(&square, &line), Err(ThreeInLine));
    assert_eq!(Homography::from_pairs(&line, &square), Err(ThreeInLine));
    let odd = [[f64::NAN, 0.0], [1.0, 0.0], [1.0, 1.0], [0.0, 1.0]];
    assert_eq!(Homography::from_pairs(&odd, &square), Err(NotFinite));
    let same = [[2.0, 2.0]; 6];
    assert_eq!(Homography::from_pairs(&same, &same), Err(ThreeInLine));
}
