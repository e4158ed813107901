//! Props and struts.

use crate::call::{number, refuses, values};
use crate::{Case, Outcome};
use serde_json::{Map, Value, json};
use std::f64::consts::PI;

pub fn compute(case: &Case) -> Option<Outcome> {
    let (i, expected) = (&case.inputs, &case.expected);
    let found = match case.topic.as_str() {
        "EN1065 class A" | "EN1065 class B" | "EN1065 class B cap" | "EN1065 class C" => {
            json!({ "Ryk_kN": nominal(i, &i["l_m"])["ryk_kn"] })
        }
        "EN1065 class E" => both(&nominal(i, &i["l_m"])),
        "EN1065 class D" => {
            let all: Vec<Value> = i["l_m"]
                .as_array()
                .unwrap()
                .iter()
                .map(|l| both(&nominal(i, l)))
                .collect();
            assert!(
                all.windows(2).all(|pair| pair.first() == pair.last()),
                "one strength at every length"
            );
            all.first().unwrap().clone()
        }
        "EN1065 min. details" => {
            let v = values("prop_least_details", &[]);
            json!({
                "t_min_mm": { "A": v["tube_a_mm"], "B-E": v["tube_mm"] },
                "pin_d_min_mm": v["pin_mm"],
                "endplate_t_min_mm": { "A,B,D": v["plate_abd_mm"], "C,E": v["plate_ce_mm"] },
            })
        }
        "BS prop SWL ecc" => json!({ "swl_kN_by_height_m": table(i, &expected["swl_kN_by_height_m"], false) }),
        "BS prop SWL concentric" => json!({ "swl_kN_by_height_m": table(i, &expected["swl_kN_by_height_m"], true) }),
        "BS prop SWL size 4" => {
            let sizes = json!({ "sizes": [i["size"]] });
            json!({
                "ecc25": table(&sizes, &expected["ecc25"], false),
                "concentric": table(&sizes, &expected["concentric"], true),
            })
        }
        "SWL interpolation is conservative" => {
            let load = |height: f64| swl(&i["size"], height, false);
            let linear = load(2.75) + (load(3.0) - load(2.75)) * (i["height_m"].as_f64().unwrap() - 2.75) / 0.25;
            json!({ "swl_kN_linear": linear, "swl_kN_next_row_up": load(i["height_m"].as_f64().unwrap()) })
        }
        "ecc/plumb limits" => {
            let v = values("prop_limits", &[]);
            json!({
                "plumb_mm_per_m": v["lean_limit_mm_m"],
                "plumb_deg": v["lean_of_the_tables_deg"],
                "ecc_mm": v["off_centre_limit_mm"],
            })
        }
        "generic size ranges" => {
            let mut ranges = Map::new();
            for size in 0..=4 {
                let v = values("prop_range", &[("prop", json!(size))]);
                let mm = |key: &str| v[key].as_f64().unwrap() * 1e3;
                ranges.insert(size.to_string(), json!([mm("min_m"), mm("max_m")]));
            }
            json!({ "range_mm": ranges })
        }
        "eccentric/concentric ratio" => {
            let height = i["height_m"].as_f64().unwrap();
            json!({ "ratio": swl(&json!(2), height, false) / swl(&json!(2), height, true) })
        }
        "out-of-range height" => {
            let args = [("size", i["size"].clone()), ("length_m", i["height_m"].clone())];
            let rated = [("prop", i["size"].clone()), ("length_m", i["height_m"].clone())];
            json!({ "valid": !(refuses("prop_tn79", &args) && refuses("prop_working_load", &rated)) })
        }
        "strut buckling scaffold tube 48.3x4.0 fy235" => scaffold_tube(i),
        "secant formula Gere 11.6-1" => {
            let b = i["b_in"].as_f64().unwrap();
            let v = secant(
                &[b * b, b.powi(4) / 12.0, b / 2.0],
                &i["L_in"],
                &i["P_kip"],
                i["e_in"].clone(),
                &i["E_ksi"],
            );
            json!({ "sigma_max_ksi": v["sigma_max"] })
        }
        "secant formula Gere 11.6-11" => {
            let n = |key: &str| i[key].as_f64().unwrap();
            let load = n("P1") + n("P2");
            let e = n("P2") * n("s") / load;
            let v = secant(&[n("A"), n("I"), n("c")], &i["L"], &json!(load), json!(e), &i["E"]);
            json!({
                "e_in": e, "ec_r2": v["ec_r2"], "sigma_max_ksi": v["sigma_max"], "P_yield_k": v["p_yield"],
                "n": v["factor"],
            })
        }
        "secant tube fixed-free" => {
            let (ro, ri) = (i["ro"].as_f64().unwrap(), i["ri"].as_f64().unwrap());
            let (area, second) = (PI * (ro * ro - ri * ri), PI / 4.0 * (ro.powi(4) - ri.powi(4)));
            let v = secant(&[area, second, ro], &i["Le_in"], &i["P"], i["e"].clone(), &i["E"]);
            json!({ "A": area, "I": second, "sigma_ksi": v["sigma_max"] })
        }
        "amplification" => {
            let v = values("amplification", &[("p_over_pcr", i["P_over_Pcr"].clone())]);
            json!({ "sin_bow": v["sine_bow"], "equal_end_ecc_secant": v["equal_ends"] })
        }
        "symmetric stepped column (Timoshenko-Gere table)" => {
            let parts = i["a_over_l"].as_array().unwrap().iter();
            let m: Vec<f64> = parts
                .map(|a| {
                    number(
                        "stepped_column",
                        &[("i1_over_i2", i["I1_over_I2"].clone()), ("a_over_l", a.clone())],
                    )
                })
                .collect();
            json!({ "m": m })
        }
        "two-part telescopic prop, pinned" => {
            let args = [
                ("stiff_part", i["stiff_part_a_over_l"].clone()),
                ("i_in_over_i_out", i["I_in_over_I_out"].clone()),
            ];
            json!({ "Pcr_l2_over_E_Iout": number("strut_critical", &args) })
        }
        "stepped prop with end eccentricities, 2nd order" => second_order(i),
        "plumb check" => {
            let checks: Vec<Value> = i["offset_mm"]
                .as_array()
                .unwrap()
                .iter()
                .map(|o| {
                    values(
                        "prop_limits",
                        &[("offset_mm", o.clone()), ("gauge_mm", i["gauge_mm"].clone())],
                    )
                })
                .collect();
            let column = |key: &str| checks.iter().map(|v| v[key].clone()).collect::<Vec<_>>();
            json!({ "mm_per_m": column("lean_mm_m"), "ok": column("within") })
        }
        _ => return None,
    };
    Some(Outcome::Found(found))
}

fn nominal(i: &Value, length: &Value) -> Value {
    assert_eq!(
        i["l_max_m"].as_f64().map(|l| format!("{:.0}", l * 10.0)),
        i["l_max_m"]
            .as_f64()
            .map(|_| i["cls"].as_str().unwrap().get(1..).unwrap().to_owned()),
        "class and longest length agree"
    );
    values(
        "prop_nominal_en1065",
        &[("class", i["cls"].clone()), ("length_m", length.clone())],
    )
}

fn both(v: &Value) -> Value {
    json!({ "Ryk_kN": v["ryk_kn"], "allowable_kN": v["allowable_kn"] })
}

fn swl(size: &Value, height: f64, concentric: bool) -> f64 {
    number(
        "prop_tn79",
        &[
            ("size", size.clone()),
            ("length_m", json!(height)),
            ("concentric", json!(concentric)),
        ],
    )
}

/// The published rows as every size that reaches them gives them; sizes must agree. A row above a size's longest length is
/// asked for at that length.
fn table(i: &Value, rows: &Value, concentric: bool) -> Value {
    let rows = rows.as_object().unwrap();
    let mut heights: Vec<f64> = rows.keys().map(|key| key.parse().unwrap()).collect();
    heights.sort_by(f64::total_cmp);
    let mut found = Map::new();
    for size in i["sizes"].as_array().unwrap() {
        let range = values("prop_range", &[("prop", size.clone())]);
        let (min, max) = (range["min_m"].as_f64().unwrap(), range["max_m"].as_f64().unwrap());
        for (k, height) in heights.iter().enumerate() {
            let reached = k == 0 || heights.get(k - 1).unwrap() < &max;
            if *height >= min && reached {
                let key = rows
                    .keys()
                    .find(|key| (key.parse::<f64>().unwrap() - height).abs() < 1e-9)
                    .unwrap();
                let load = json!(swl(size, height.min(max), concentric));
                if let Some(other) = found.insert(key.clone(), load.clone()) {
                    assert_eq!(other, load, "size {size} at {height} m");
                }
            }
        }
    }
    Value::Object(found)
}

fn scaffold_tube(i: &Value) -> Value {
    let (d, inner) = (48.3_f64, 40.3_f64);
    let n = |gamma: f64| {
        number(
            "n_b_rd",
            &[
                ("area_mm2", json!(PI / 4.0 * (d * d - inner * inner))),
                ("i_mm4", json!(PI / 64.0 * (d.powi(4) - inner.powi(4)))),
                ("length_mm", json!(i["Leff_m"].as_f64().unwrap() * 1e3)),
                ("fy_n_mm2", json!(235)),
                ("curve", i["curve"].clone()),
                ("gamma_m", json!(gamma)),
            ],
        )
    };
    json!({ "safe_axial_kN": n(i["divisor"].as_f64().unwrap()), "Nb_kN": n(1.0) })
}

fn secant(section: &[f64; 3], length: &Value, p: &Value, e: Value, modulus: &Value) -> Value {
    let [area, second, c] = section;
    values(
        "secant",
        &[
            ("area", json!(area)),
            ("i", json!(second)),
            ("c", json!(c)),
            ("length", length.clone()),
            ("p", p.clone()),
            ("e", e),
            ("modulus", modulus.clone()),
            ("fy", json!(36)),
        ],
    )
}

fn second_order(i: &Value) -> Value {
    // The outer tube's fibre is not printed and no stress of it is expected, so any will do.
    let tube = |part: &Value| json!([part["A"], part["I_mm4"], part["c"].as_f64().unwrap_or(30.15)]);
    let v = values(
        "strut_response",
        &[
            ("outer_length_mm", i["l_outer"].clone()),
            ("inner_length_mm", i["l_inner"].clone()),
            ("p_kn", i["P_kN"].clone()),
            ("e_foot_mm", i["e_bot"].clone()),
            ("e_head_mm", i["e_top"].clone()),
            ("e_n_mm2", i["E"].clone()),
            ("outer", tube(&i["outer"])),
            ("inner", tube(&i["inner"])),
        ],
    );
    let r = &v["response"];
    json!({
        "Pcr_kN": v["p_cr_kn"],
        "y_max_mm": r["y_max_mm"],
        "M_inner_kNm": r["m_inner_kn_m"],
        "M_outer_kNm": r["m_outer_kn_m"],
        "sigma_inner": r["sigma_inner_n_mm2"],
    })
}
