//! Synthetic sensor streams: a phone on a leaning tube, its sensor turned in its case, its accelerometer off, its hand shaking.
//!
//! The angles are made by turning whole frames and taking them apart again, not by the formula that reads them.

use crate::draw::Draw;
use serde_json::{Value, json};

type Matrix = [[f64; 3]; 3];

fn times(a: Matrix, b: Matrix) -> Matrix {
    std::array::from_fn(|i| std::array::from_fn(|j| (0..3).map(|k| a[i][k] * b[k][j]).sum()))
}

/// Turned about an axis of the frame by degrees.
fn about(axis: usize, deg: f64) -> Matrix {
    let (s, c) = deg.to_radians().sin_cos();
    match axis {
        0 => [[1.0, 0.0, 0.0], [0.0, c, -s], [0.0, s, c]],
        1 => [[c, 0.0, s], [0.0, 1.0, 0.0], [-s, 0.0, c]],
        _ => [[c, -s, 0.0], [s, c, 0.0], [0.0, 0.0, 1.0]],
    }
}

/// Angles by the specification's order Z-X'-Y'' with its ranges.
fn angles(r: Matrix) -> [f64; 3] {
    let beta = r[2][1].clamp(-1.0, 1.0).asin();
    let (mut alpha, mut beta, mut gamma) = ((-r[0][1]).atan2(r[1][1]), beta, (-r[2][0]).atan2(r[2][2]));
    if gamma.abs() > std::f64::consts::FRAC_PI_2 {
        // The same attitude with gamma within a quarter turn.
        gamma -= std::f64::consts::PI * gamma.signum();
        beta = std::f64::consts::PI * if beta < 0.0 { -1.0 } else { 1.0 } - beta;
        alpha += std::f64::consts::PI;
    }
    [
        alpha.to_degrees().rem_euclid(360.0),
        beta.to_degrees(),
        gamma.to_degrees().clamp(-90.0, 89.999_999),
    ]
}

/// What is wrong with the phone.
#[derive(Clone, Copy, Default)]
struct Fault {
    /// Sensor turned in its case, degrees about x, y, z of the device.
    turned: [f64; 3],
    /// Accelerometer off, in g along x, y, z of the device.
    offset: [f64; 3],
    /// Standard deviation of each sample, degrees.
    noise: f64,
    /// Slow slide over the whole placement, degrees.
    slide: f64,
}

/// One placement: `right` and `towards` are the leans of the tube as seen by who looks at the screen there; `edge_up` turns
/// the phone in the plane of its screen (0 top up, 180 bottom up, 90 right edge down...), `heading` about the plumb line.
fn stream(draw: &mut Draw, right: f64, towards: f64, edge_up: f64, heading: f64, fault: Fault) -> Vec<Value> {
    // Upright phone: screen's right along the earth's x, its top up, its normal towards −y.
    let upright: Matrix = about(0, 90.0);
    (0..120)
        .map(|i| {
            let slide = fault.slide * f64::from(i) / 120.0;
            let wobble = |draw: &mut Draw| draw.normal(fault.noise);
            // Leaning right turns about the normal clockwise as seen; towards turns about the screen's level axis.
            let lean = times(about(1, right + slide + wobble(draw)), about(0, towards + wobble(draw)));
            let device = times(times(about(2, heading), times(lean, upright)), about(2, edge_up));
            let sensor = times(
                device,
                times(
                    about(0, fault.turned[0]),
                    times(about(1, fault.turned[1]), about(2, fault.turned[2])),
                ),
            );
            // Up in the sensor's axes with the offset; the attitude is the nearest one with that up.
            let up: [f64; 3] = std::array::from_fn(|k| sensor[2][k] + fault.offset[k]);
            let long = up.iter().map(|v| v * v).sum::<f64>().sqrt();
            let up = up.map(|v| v / long);
            // Rows: earth x and y made square to the new up.
            let dot: f64 = (0..3).map(|k| sensor[0][k] * up[k]).sum();
            let x: [f64; 3] = std::array::from_fn(|k| sensor[0][k] - dot * up[k]);
            let n = x.iter().map(|v| v * v).sum::<f64>().sqrt();
            let x = x.map(|v| v / n);
            let y = [
                up[1] * x[2] - up[2] * x[1],
                up[2] * x[0] - up[0] * x[2],
                up[0] * x[1] - up[1] * x[0],
            ];
            let [alpha, beta, gamma] = angles([x, y, up]);
            json!({ "alpha": alpha, "beta": beta, "gamma": gamma })
        })
        .collect()
}

/// Both placements on the two sides of a tube that leans to the right and towards the first looker.
fn other_side(draw: &mut Draw, right: f64, towards: f64, edge_up: f64, fault: Fault) -> Value {
    json!({ "first": stream(draw, right, towards, edge_up, 20.0, fault),
        "second": stream(draw, -right, -towards, edge_up, 200.0, fault), "turn": "other_side", "faces": "away_from_wall" })
}

fn ask(request: &Value) -> Value {
    calc::sight::tilt_value(request).unwrap()
}

fn near(answer: &Value, key: &str, deg: f64) -> bool {
    answer[key]["deg"].as_f64().is_some_and(|read| (read - deg).abs() < 0.1)
}

#[test]
fn the_angles_made_here_are_those_of_the_specification_s_examples() {
    // Flat with its top to the west: alpha 90; upright: beta 90; upright with its top to the right: gamma 90.
    let [alpha, beta, gamma] = angles(about(2, 90.0));
    assert!((alpha - 90.0).abs() < 1e-9 && beta.abs() < 1e-9 && gamma.abs() < 1e-9);
    let [_, beta, _] = angles(about(0, 90.0));
    assert!((beta - 90.0).abs() < 1e-6);
    // Top to the right as seen: turned clockwise about the normal by 90°.
    let [_, beta, gamma] = angles(times(about(0, 90.0), about(2, -90.0)));
    assert!(beta.abs() < 1e-6 && (gamma.abs() - 90.0).abs() < 1e-5, "{beta} {gamma}");
}

#[test]
fn the_other_side_removes_a_zero_error_of_two_degrees_of_any_kind() {
    let mut draw = Draw(5);
    let mut faults = Vec::new();
    for axis in 0..3 {
        for sign in [-1.0, 1.0] {
            let mut turned = [0.0; 3];
            turned[axis] = 2.0 * sign;
            faults.push(Fault {
                turned,
                noise: 0.2,
                ..Fault::default()
            });
            let mut offset = [0.0; 3];
            offset[axis] = 0.035 * sign;
            faults.push(Fault {
                offset,
                noise: 0.2,
                ..Fault::default()
            });
        }
    }
    faults.push(Fault {
        turned: [1.4, 0.0, -1.4],
        offset: [0.02, 0.01, -0.02],
        noise: 0.2,
        slide: 0.0,
    });
    for fault in faults {
        for (right, towards) in [(0.0_f64, 0.0_f64), (1.2, -0.7), (-0.9, 1.4), (-2.5, 1.5)] {
            for edge_up in [0.0, 180.0, 90.0, -90.0] {
                let answer = ask(&other_side(&mut draw, right, towards, edge_up, fault));
                assert_ne!(answer["trust"], "refused", "{answer}");
                let off = |key: &str, deg: f64| (answer[key]["deg"].as_f64().unwrap() - deg).abs();
                // Up to the limit of 25 mm per m (1.43°) a tenth of a degree. Beyond, two degrees of zero error times the lean
                // itself stay: the reading is out by up to 3.5 % of it and turned by two degrees about the tube.
                let allowed = if right.abs().max(towards.abs()) < 1.44 {
                    0.1
                } else {
                    0.05 + 0.035 * right.hypot(towards)
                };
                assert!(
                    off("along", right) < allowed && off("across", towards) < allowed,
                    "{right} {towards} {edge_up}: {answer}"
                );
                assert_eq!(answer["along"]["zero_removed"], true);
            }
        }
    }
}

#[test]
fn one_side_alone_would_be_wrong_by_the_zero_error() {
    let mut draw = Draw(6);
    let fault = Fault {
        turned: [2.0, 0.0, 2.0],
        noise: 0.1,
        ..Fault::default()
    };
    let answer = ask(&other_side(&mut draw, 1.0, 1.0, 0.0, fault));
    for key in ["along", "across"] {
        assert!(
            (answer[key]["zero_deg"].as_f64().unwrap().abs() - 2.0).abs() < 0.15,
            "{answer}"
        );
    }
}

#[test]
fn held_in_portrait_landscape_and_upside_down_it_reads_the_same() {
    let mut draw = Draw(8);
    for (edge_up, edge) in [(0.0, "top"), (180.0, "bottom"), (90.0, "right"), (-90.0, "left")] {
        let answer = ask(&other_side(
            &mut draw,
            1.1,
            -0.6,
            edge_up,
            Fault {
                noise: 0.05,
                ..Fault::default()
            },
        ));
        assert_eq!(answer["up"], json!([edge, edge]));
        assert!(near(&answer, "along", 1.1) && near(&answer, "across", -0.6), "{answer}");
        let along = &answer["along"];
        assert!((along["mm_per_m"].as_f64().unwrap() - 19.2).abs() < 1.8, "{along}");
    }
}

#[test]
fn along_and_across_follow_where_the_screen_looks() {
    let mut draw = Draw(9);
    let mut request = other_side(&mut draw, 1.2, -2.0, 0.0, Fault::default());
    request["faces"] = json!("along_wall");
    let answer = ask(&request);
    assert!(near(&answer, "along", -2.0) && near(&answer, "across", 1.2), "{answer}");
    // 2° are 34.9 mm per m: beyond 25 with the whole ±; 1.2° are 20.9, and an edge is laid along a tube to ±7.
    assert_eq!(
        (&answer["along"]["limit"], &answer["across"]["limit"]),
        (&json!("beyond"), &json!("unclear"))
    );
}

#[test]
fn end_for_end_on_one_side_removes_what_it_can_and_says_so() {
    let mut draw = Draw(10);
    let both = |draw: &mut Draw, fault: Fault| {
        json!({ "first": stream(draw, 1.0, -0.5, 0.0, 20.0, fault), "second": stream(draw, 1.0, -0.5, 180.0, 20.0, fault),
            "turn": "end_for_end", "faces": "away_from_wall" })
    };
    // A sensor turned about the level axis goes out of the lean towards; an accelerometer off sideways goes out of the other.
    let turned = ask(&both(
        &mut draw,
        Fault {
            turned: [2.0, 0.0, 0.0],
            noise: 0.1,
            ..Fault::default()
        },
    ));
    assert!(near(&turned, "across", -0.5), "{turned}");
    let offset = ask(&both(
        &mut draw,
        Fault {
            offset: [0.035, 0.0, 0.0],
            noise: 0.1,
            ..Fault::default()
        },
    ));
    assert!(near(&offset, "along", 1.0), "{offset}");
    // What it cannot remove stays in the reading, within the wider ±.
    let stays = ask(&both(
        &mut draw,
        Fault {
            turned: [0.0, 0.0, 1.9],
            noise: 0.1,
            ..Fault::default()
        },
    ));
    let along = &stays["along"];
    let off = (along["deg"].as_f64().unwrap() - 1.0).abs();
    assert!(off > 1.5 && off <= along["plus_minus_deg"].as_f64().unwrap(), "{stays}");
    assert_eq!(
        (&along["zero_removed"], &stays["trust"]),
        (&json!(false), &json!("doubtful"))
    );
}

#[test]
fn shaking_sliding_and_wrong_turns_are_refused() {
    let mut draw = Draw(11);
    let refused = |request: &Value, code: &str| {
        let answer = ask(request);
        let said = answer["doubts"].as_array().unwrap().iter().any(|d| d["code"] == code);
        assert!(
            said && answer["trust"] == "refused" && answer["along"].is_null(),
            "{code}: {answer}"
        );
    };
    refused(
        &other_side(
            &mut draw,
            1.0,
            0.0,
            0.0,
            Fault {
                noise: 1.0,
                ..Fault::default()
            },
        ),
        "shaking",
    );
    refused(
        &other_side(
            &mut draw,
            1.0,
            0.0,
            0.0,
            Fault {
                noise: 0.05,
                slide: 1.0,
                ..Fault::default()
            },
        ),
        "moving",
    );
    refused(&other_side(&mut draw, 40.0, 0.0, 0.0, Fault::default()), "not_along");
    let mut same = other_side(&mut draw, 1.0, 0.0, 0.0, Fault::default());
    same["second"] = same["first"].clone();
    refused(&same, "not_turned");
    let mut wrong = other_side(&mut draw, 1.0, 0.0, 0.0, Fault::default());
    wrong["turn"] = json!("end_for_end");
    refused(&wrong, "not_turned");
    let mut few = other_side(&mut draw, 1.0, 0.0, 0.0, Fault::default());
    few["first"].as_array_mut().unwrap().truncate(10);
    refused(&few, "too_few");
    let mut odd = other_side(&mut draw, 1.0, 0.0, 0.0, Fault::default());
    odd["first"][3]["beta"] = json!(700);
    assert_eq!(calc::sight::tilt_value(&odd).unwrap_err()[0].path, "/first/3");
}
