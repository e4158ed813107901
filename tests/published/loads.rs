//! Loads, small openings, ground, sideways force, beams and rules of the site.

use crate::call::{list, number, values};
use crate::{Case, Outcome};
use serde_json::{Value, json};

pub fn compute(case: &Case) -> Option<Outcome> {
    let i = &case.inputs;
    let found = match case.topic.as_str() {
        "UFC lintel example" => {
            let v = triangle(&i["L_ft"], &i["wall_psf"], json!(1000), &i["lintel_plf"]);
            json!({ "W_lb": v["weight_kn"], "Mmax_ftlb": v["moment_kn_m"] })
        }
        "45deg triangle on clear span" => {
            let v = triangle(&i["L_ft"], &i["wall_psf"], json!(1000), &json!(0));
            json!({ "W_lb": v["weight_kn"], "w_equiv_plf": v["equivalent_kn_m"] })
        }
        "triangle truncated" => {
            json!({ "W_lb": triangle(&i["L_ft"], &i["wall_psf"], i["h_ft"].clone(), &json!(0))["weight_kn"] })
        }
        "45deg triangle, base = span, 1.8 kN/m2" => {
            json!({ "W_kN": triangle(&i["span_m"], &i["w_kN_m2"], json!(1000), &json!(0))["weight_kn"] })
        }
        "BS 5977-1 point loads" => {
            // Over a 2.0 m base, 0.2 m off the middle: 0.5 m up is inside 45°, 1.2 m up inside 60° only.
            let carried = |above: f64, load: &Value| {
                let place = [
                    ("base_m", json!(2.0)),
                    ("off_middle_m", json!(0.2)),
                    ("above_m", json!(above)),
                ];
                let mut args = place.to_vec();
                args.push(("load_kn", load.clone()));
                number("triangle_share", &args)
            };
            let v = triangle(&json!(2.0), &json!(1.0), json!(1000), &json!(0));
            // Nothing but the 45° triangle's own weight is carried: base² / 4.
            let only_triangle = (v["weight_kn"].as_f64().unwrap() - 1.0).abs() < 1e-9;
            json!({
                "carried_kN": [carried(0.5, &i["P_in_load_triangle_kN"]), carried(1.2, &i["P_in_interaction_kN"])],
                "masonry_in_interaction_carried": !only_triangle,
            })
        }
        "BS 5977-1 limits" => limits(i),
        "brick 102.5 mm" | "aerated block 100 mm" | "dense solid block 100 mm" => {
            surface(i["t_mm"].clone(), i["kg_m2_per_25mm"].clone(), 0.0)
        }
        "215 mm solid brick + plaster one side" => {
            let v = surface(i["t_mm"].clone(), json!(55), i["plaster_kg_m2"].as_f64().unwrap());
            json!({ "kN_m2": v["kN_m2"] })
        }
        "cavity wall brick+aerated+plaster" => {
            json!({ "kN_m2": surface(json!([102.5, 100]), json!([55, 15]), 22.0)["kN_m2"] })
        }
        "partition load per m run" => {
            let args = [
                ("rho_kg_m3", i["rho"].clone()),
                ("t_mm", i["t_mm"].clone()),
                ("height_m", i["h_m"].clone()),
                ("plaster_kn_m2", json!(0.53)),
            ];
            json!({ "kN_m": number("partition_line", &args) })
        }
        "UK roof Cat H vs pitch" => {
            json!({ "qk_kN_m2": each(&i["pitch_deg"], |p| number("q_roof", &[("pitch_deg", p)])) })
        }
        "movable partitions EN 1991-1-1 6.3.1.2(8)" => {
            json!({ "q_kN_m2": each(&i["line_kN_m"], |w| number("q_partitions", &[("line_kn_m", w)])) })
        }
        "UK ground snow" => {
            json!({ "sk": number("s_k_uk", &[("zone", i["Z"].clone()), ("altitude_m", i["A_m"].clone())]) })
        }
        "EN 1991-1-4 qp" | "qp library" => {
            let args = [
                ("vb_m_s", i["vb"].clone()),
                ("z0_m", i["z0"].clone()),
                ("z_min_m", i["zmin"].clone()),
                ("z_m", i["z"].clone()),
            ];
            json!({ "qp_kN_m2": number("q_p", &args) })
        }
        "Handbook ex 2.2" => handbook(i),
        "beam on props / loss of support" => beam(i),
        "needle off-centre" => needle_off_centre(i),
        "needle mid-span deflection" => {
            let half = i["L_m"].as_f64().unwrap() * 500.0;
            let v = span(2.0 * half, half, i["P_kN"].as_f64().unwrap(), &i["section"]);
            json!({ "defl_mm": v["deflection_mm"], "M_kNm": v["m_max_kn_m"] })
        }
        "NHBC beam choice" => {
            return Some(Outcome::NotRun(
                "the copy does not show the span that the choice is for",
            ));
        }
        "presumed bearing NBC 9.4.4.1" => {
            let q = |ground: &str| number("presumed_bearing", &[("ground", json!(ground))]);
            // The reprint gives sand and gravel one row; the method's gravel is BS 8004's (its own file).
            json!({ "kPa": {
                "dense sand/gravel": q("dense_sand"), "loose sand/gravel": q("loose_sand"), "dense silt": q("dense_silt"),
                "stiff clay": q("stiff_clay"), "firm clay": q("firm_clay"), "soft clay": q("soft_clay"), "till": q("till"),
                "clay shale": q("clay_shale"), "sound rock": q("rock"),
            } })
        }
        "presumed bearing BS 8004 families" => {
            let range = |family: &str| {
                let v = values("bearing_family", &[("family", json!(family))]);
                json!([v["low_kpa"], v["high_kpa"]])
            };
            json!({ "kPa": {
                "sand": range("sand"), "sand_gravel": range("sand_gravel"),
                "clay_firm_to_stiff": range("clay_firm_to_stiff"),
            } })
        }
        "45deg spread through board" => {
            let v = spread(i, json!("inf"), json!(225), json!(75));
            json!({ "A_m2": v["area_m2"], "q_kPa": v["pressure_kpa"] })
        }
        "1:1 spread through slab" => {
            let v = spread(i, json!("inf"), json!("inf"), i["slab_mm"].clone());
            json!({ "A_m2": v["area_m2"], "q_kPa": v["pressure_kpa"] })
        }
        "BRE 251 categories" | "BRE 251 boundaries" => {
            json!({ "category": each(&i["width_mm"], |w| number("crack_category", &[("width_mm", w)])) })
        }
        "min horizontal force" => json!({ "H_kN": number("h_min", &[("v_kn", i["V_kN"].clone())]) }),
        "known + 1 %" => {
            let args = [("v_kn", i["V_kN"].clone()), ("identified_kn", i["known_H_kN"].clone())];
            json!({ "H_kN": number("h_min", &args) })
        }
        "Bragg 1975 original" => {
            let args = [
                ("v_kn", i["V_kN"].clone()),
                ("identified_kn", i["known_H_kN"].clone()),
                ("least_share", json!(0.03)),
            ];
            json!({ "H_kN": number("h_min", &args) })
        }
        "HSE twist/frequency reductions" => {
            let args = [
                ("base_kg", i["base_kg"].clone()),
                ("twist_deg", i["twist_deg"].clone()),
                ("per_min", i["per_min"].clone()),
            ];
            json!({ "kg": number("hse_filter", &args) })
        }
        "two-person prop handling" => {
            let v = values("section_properties", &[("section", i["section"].clone())]);
            let mass = v["mass_kg_m"].as_f64().unwrap() * i["L_m"].as_f64().unwrap();
            let lift = values("people_to_lift", &[("mass_kg", json!(mass))]);
            json!({ "mass_kg": lift["mass_kg"], "one_person_ok": lift["one_person_ok"] })
        }
        "inspection frequency" => values("inspection", &[]),
        "dry pack mix" => values("dry_pack", &[]),
        _ => return None,
    };
    Some(Outcome::Found(found))
}

fn each(inputs: &Value, f: impl Fn(Value) -> f64) -> Vec<f64> {
    inputs.as_array().unwrap().iter().cloned().map(f).collect()
}

/// The formula is the same in feet and pounds, so the values of old examples go in as printed.
fn triangle(span: &Value, wall: &Value, height: Value, uniform: &Value) -> Value {
    values(
        "load_triangle",
        &[
            ("span_m", span.clone()),
            ("base_factor", json!(1)),
            ("wall_kn_m2", wall.clone()),
            ("height_m", height),
            ("uniform_kn_m", uniform.clone()),
        ],
    )
}

fn limits(i: &Value) -> Value {
    let args = [
        ("span_m", i["clear_span_m"].clone()),
        ("storeys", i["storeys"].clone()),
        ("pier_mm", i["pier_mm"].clone()),
    ];
    let v = values("triangle_allowed", &args);
    let mut reasons = Vec::new();
    if v["span_too_long"] == true {
        reasons.push(format!("span > {} m for 2-3 storeys", v["span_limit_m"]));
    }
    if v["pier_too_narrow"] == true {
        reasons.push(format!(
            "pier < max(600, 0.2*span={:.0})",
            v["pier_limit_mm"].as_f64().unwrap()
        ));
    }
    json!({ "triangle_allowed": v["allowed"], "reasons": reasons })
}

fn surface(t: Value, per: Value, plaster: f64) -> Value {
    let v = values(
        "surface_weight",
        &[("t_mm", t), ("kg_m2_per_25mm", per), ("plaster_kg_m2", json!(plaster))],
    );
    json!({ "kg_m2": v["kg_m2"], "kN_m2": v["kn_m2"] })
}

fn handbook(i: &Value) -> Value {
    // The printed strength load is that of Eq. (6.10b) with ξ 0.925.
    let q = number(
        "strength_load",
        &[
            ("g", i["g_kN_m"].clone()),
            ("q", i["q_kN_m"].clone()),
            ("xi", json!(0.925)),
        ],
    );
    let span = i["span_m"].as_f64().unwrap();
    let section = values(
        "section_properties",
        &[("section", json!(format!("{} S275", i["section"].as_str().unwrap())))],
    );
    let beam = values(
        "beam_reactions",
        &[
            ("x_m", json!([0, span])),
            ("length_m", json!(span)),
            ("w_kn_m", json!(q)),
            ("i_cm4", json!(section["iy_mm4"].as_f64().unwrap() / 1e4)),
        ],
    );
    json!({ "q_uls": q, "M": beam["m_sag_kn_m"], "V": list(&beam["r_kn"]).first().copied().unwrap() })
}

fn beam(i: &Value) -> Value {
    let v = values(
        "beam_reactions",
        &[
            ("x_m", i["x_m"].clone()),
            ("k_kn_m", i["k_kN_m"].clone()),
            ("length_m", i["L_m"].clone()),
            ("w_kn_m", i["w_kN_m"].clone()),
            ("e_n_mm2", json!(i["E"].as_f64().unwrap() / 1e3)),
            ("i_cm4", i["I_cm4"].clone()),
        ],
    );
    json!({ "R_kN": v["r_kn"], "M_sag": v["m_sag_kn_m"], "M_hog": tidy(&v["m_hog_kn_m"]), "dmax_mm": v["d_max_mm"] })
}

/// A hogging moment printed as 0 is met by rounding noise.
fn tidy(value: &Value) -> f64 {
    let value = value.as_f64().unwrap();
    if value.abs() < 1e-6 { 0.0 } else { value }
}

fn span(length_mm: f64, at_mm: f64, load_kn: f64, section: &Value) -> Value {
    let i = values("section_properties", &[("section", section.clone())])["iy_mm4"]
        .as_f64()
        .unwrap()
        / 1e4;
    values(
        "simple_span",
        &[
            ("span_mm", json!(length_mm)),
            ("from_mm", json!(at_mm)),
            ("to_mm", json!(at_mm)),
            ("load_kn", json!(load_kn)),
            ("i_cm4", json!(i)),
        ],
    )
}

fn needle_off_centre(i: &Value) -> Value {
    let (a, b) = (i["a_m"].as_f64().unwrap() * 1e3, i["b_m"].as_f64().unwrap() * 1e3);
    let v = span(a + b, a, i["P_kN"].as_f64().unwrap(), &i["section"]);
    json!({
        "R_near": v["r_left_kn"],
        "R_far": v["r_right_kn"],
        "M_kNm": v["m_max_kn_m"],
        "defl_at_load_mm": v["deflection_at_m_mm"],
    })
}

fn spread(i: &Value, length: Value, breadth: Value, t: Value) -> Value {
    values(
        "spread",
        &[
            ("load_kn", i["P_kN"].clone()),
            ("plate_mm", i["plate_mm"].clone()),
            ("length_mm", length),
            ("breadth_mm", breadth),
            ("t_mm", t),
            ("along", json!(1)),
            ("across", json!(1)),
        ],
    )
}
