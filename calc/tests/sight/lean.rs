//! Lean, off centre and cracks from taps.

use crate::draw::{Camera, Draw};
use calc::sight::{crack_value, lean_value, off_centre_value};
use serde_json::{Value, json};

fn photo() -> Value {
    json!({ "width_px": 3000, "height_px": 4000 })
}

#[test]
fn a_lean_by_hand() {
    // 60 px aside over 2400 px of height beside a plumb line: 25 mm per m.
    let request =
        json!({ "photo": photo(), "vertical_px": [[1400, 500], [1400, 3000]], "axis_px": [[1560, 600], [1500, 3000]] });
    let answer = lean_value(&request).unwrap();
    assert!((answer["mm_per_m"].as_f64().unwrap() - 25.0).abs() < 1e-9, "{answer}");
    assert_eq!(answer["limit"], "unclear");
    let mut upright = request.clone();
    upright["axis_px"] = json!([[1400, 600], [1400, 3000]]);
    assert_eq!(lean_value(&upright).unwrap()["limit"], "within");
    let mut beyond = request.clone();
    beyond["axis_px"] = json!([[1400, 600], [1620, 3000]]);
    let beyond = lean_value(&beyond).unwrap();
    assert_eq!(beyond["limit"], "beyond");
    assert!(beyond["mm_per_m"].as_f64().unwrap() < -80.0);
}

#[test]
fn lean_in_the_photo_holds_within_its_range() {
    let mut draw = Draw(21);
    let (mut within, mut all) = (0, 0);
    for _ in 0..2000 {
        let camera = Camera {
            width: 3000.0,
            height: 4000.0,
            focal: 3000.0,
            target: [0.0, 1200.0],
            distance: draw.even(2500.0, 4000.0),
            pitch: draw.normal(5.0_f64.to_radians()),
            pan: 0.0,
            roll: draw.normal(0.05),
            bend: 0.0,
        };
        let (lean, apart) = (draw.even(-0.05, 0.05), draw.even(-600.0, 600.0));
        let points = [
            [apart, 2000.0],
            [apart, 300.0],
            [lean * 2000.0, 2000.0],
            [lean * 300.0, 300.0],
        ];
        let mut tap = |at: [f64; 2]| {
            camera
                .see(at)
                .map(|[x, y]| [x + draw.normal(2.0), y + draw.normal(2.0)])
        };
        let Some(taps) = points.map(&mut tap).into_iter().collect::<Option<Vec<_>>>() else {
            continue;
        };
        let request = json!({ "photo": photo(), "vertical_px": &taps[..2], "axis_px": &taps[2..] });
        let Ok(answer) = lean_value(&request) else { continue };
        let (mm, pm) = (
            answer["mm_per_m"].as_f64().unwrap(),
            answer["plus_minus_mm_per_m"].as_f64().unwrap(),
        );
        all += 1;
        within += usize::from((mm - 1000.0 * lean).abs() <= pm);
    }
    println!("lean by photo: {within} of {all} within ±");
    assert!(all > 1200 && within * 100 >= all * 95, "{within} of {all}");
}

#[test]
fn off_centre_by_hand() {
    // A plate of 150 mm over 900 px; the tube's middle 60 px right of the plate's: 10 mm.
    let request = json!({ "photo": photo(), "plate_px": [[1000, 2000], [1900, 2000]], "tube_px": [[1400, 2300], [1620, 2300]], "plate_mm": 150 });
    let read = off_centre_value(&request).unwrap();
    assert!((read["reading"]["mm"].as_f64().unwrap() - 10.0).abs() < 1e-9, "{read}");
    let pm = read["reading"]["plus_minus_mm"].as_f64().unwrap();
    assert!(
        (5.0..8.0).contains(&pm),
        "seen 4° aside the tube moves by 75 × tan 4° = 5.2 mm, stated a tenth wider: {pm}"
    );
    let mut turned = request.clone();
    turned["tube_px"] = json!([[1620, 2300], [1400, 2300]]);
    assert_eq!(off_centre_value(&turned).unwrap()["trust"], "refused");
    let mut small = request.clone();
    small["plate_px"] = json!([[1000, 2000], [1050, 2000]]);
    assert_eq!(off_centre_value(&small).unwrap()["doubts"][0]["code"], "scale_small");
}

#[test]
fn a_crack_by_hand() {
    // 50 mm over 2000 px, a crack of 20 px: 0.5 mm.
    let request = json!({ "photo": photo(), "crack_px": [[1500, 1000], [1520, 1000]], "scale_px": [[500, 2000], [2500, 2000]],
        "scale_mm": 50, "tap_px": 1.5 });
    let read = crack_value(&request).unwrap();
    let (mm, pm) = (
        read["reading"]["mm"].as_f64().unwrap(),
        read["reading"]["plus_minus_mm"].as_f64().unwrap(),
    );
    assert!((mm - 0.5).abs() < 1e-12, "{read}");
    // Two taps of ±1.5 px: 2.12 px, 0.053 mm, stated a tenth wider; the scale adds next to nothing.
    assert!((pm - 0.0583).abs() < 0.003, "{pm}");
    let mut rough = request.clone();
    rough["tap_px"] = json!(10);
    assert_eq!(crack_value(&rough).unwrap()["trust"], "doubtful");
    let mut off = request.clone();
    off["crack_px"] = json!([[1500, -1], [1520, 1000]]);
    assert_eq!(crack_value(&off).unwrap_err()[0].path, "/crack_px/0");
}
