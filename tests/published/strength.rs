//! Steel, timber and masonry.

use crate::call::{number, values};
use crate::{Case, Outcome};
use serde_json::{Value, json};

pub fn compute(case: &Case) -> Option<Outcome> {
    let i = &case.inputs;
    let found = match case.topic.as_str() {
        "section properties" => {
            let v = values("section_properties", &[("section", i["section"].clone())]);
            let per = |key: &str, by: f64| v[key].as_f64().unwrap() / by;
            json!({
                "A_cm2": per("area_mm2", 1e2),
                "Iy_cm4": per("iy_mm4", 1e4),
                "Wel_cm3": per("wel_y_mm3", 1e3),
                "Wpl_cm3": per("wpl_y_mm3", 1e3),
                "mass_kg_m": v["mass_kg_m"],
            })
        }
        "class-3 trap UC152x152x23" => {
            let section = named(i, "S");
            let class = values("section_class", &[("section", section.clone())]);
            let limits = class["flange_limits"].as_array().unwrap();
            json!({
                "limits": { "class1": limits.first(), "class2": limits.get(1), "class3": limits.get(2) },
                "flange_class": class["flange_class"],
                "Mc_kNm": number("m_c_rd", &[("section", section)]),
            })
        }
        "EN1993-1-5 s.6 type a" => {
            let v = values(
                "f_rd",
                &[
                    (
                        "section",
                        json!(format!("{} S{}", i["section"].as_str().unwrap(), i["fy"])),
                    ),
                    ("ss_mm", i["ss_mm"].clone()),
                    ("load", json!("a")),
                    ("a_mm", i["a_mm"].clone()),
                ],
            );
            json!({
                "kF": v["kf"], "Fcr_kN": v["fcr_kn"], "ly_mm": v["ly_mm"], "lambdaF": v["lambda_f"], "chiF": v["chi_f"],
                "FRd_kN": v["f_rd_kn"],
            })
        }
        "EN1993-1-5 s.6 needle web" => {
            let f = |load: &str| {
                number(
                    "f_rd",
                    &[
                        ("section", named(i, "S")),
                        ("ss_mm", i["ss_mm"].clone()),
                        ("load", json!(load)),
                    ],
                )
            };
            json!({ "FRd_a_kN": f("a"), "FRd_c_kN": f("c") })
        }
        "LTB needle C1=1 S275" => {
            let m = |curve: &str| {
                values(
                    "m_b_rd",
                    &[
                        ("section", i["section"].clone()),
                        ("length_mm", i["L_mm"].clone()),
                        ("c1", i["C1"].clone()),
                        ("c2", json!(0)),
                        ("zg_mm", json!(0)),
                        ("curve", json!(curve)),
                    ],
                )
            };
            let (rolled, general) = (m("rolled"), m("general"));
            json!({
                "Mcr_kNm": rolled["m_cr_kn_m"],
                "lambdaLT": rolled["lambda_lt"],
                "Mb_general_curve_a": general["m_b_rd_kn_m"],
                "Mb_6_3_2_3_curve_b": rolled["m_b_rd_kn_m"],
            })
        }
        "EN 338" => {
            let v = values("timber_grade", &[("grade", i["grade"].clone())]);
            json!({
                "fmk": v["fmk_n_mm2"], "fc0k": v["fc0k_n_mm2"], "fc90k": v["fc90k_n_mm2"], "fvk": v["fvk_n_mm2"],
                "E0mean": v["e0_mean_n_mm2"], "E005": v["e005_n_mm2"], "Gmean": v["g_mean_n_mm2"],
                "rhok": v["rho_k_kg_m3"], "rhom": v["rho_mean_kg_m3"],
            })
        }
        "design strengths C24" => design_strengths(i),
        "timber post buckling" => {
            let mut args = timber(i);
            args.extend([
                ("b_mm", i["b"].clone()),
                ("h_mm", i["h"].clone()),
                ("length_mm", i["L_mm"].clone()),
                ("n_kn", i["N_kN"].clone()),
            ]);
            let v = values("timber_column", &args);
            json!({
                "lambda_": v["lambda"], "lrel": v["lambda_rel"], "k": v["k"], "kc": v["k_c"], "fc0d": v["fc0d_n_mm2"],
                "sigma": v["sigma_n_mm2"], "util": v["utilisation"],
            })
        }
        "joist bending" => joist(i),
        "plate on sole board, kc90" => {
            let plate = i["plate_mm"].as_array().unwrap();
            let f = |k: f64| {
                let mut args = timber(i);
                args.extend([
                    ("length_mm", plate.first().unwrap().clone()),
                    ("width_mm", plate.last().unwrap().clone()),
                    ("k_c90", json!(k)),
                ]);
                values("f_c90_rd", &args)
            };
            let (softwood, plain) = (f(1.25), f(1.0));
            json!({
                "kc90": softwood["k_c90"], "Aef_mm2": softwood["aef_mm2"], "Fc90Rd_kN": softwood["f_rd_kn"],
                "Fc90Rd_kc1_kN": plain["f_rd_kn"],
            })
        }
        "sole board as cantilever strip" => {
            let v = values(
                "board_strip",
                &[
                    ("load_kn", i["P_kN"].clone()),
                    ("plate_mm", i["plate_mm"].clone()),
                    ("length_mm", i["Lboard_mm"].clone()),
                    ("board_mm", json!([225, 75])),
                ],
            );
            json!({
                "q_kN_m": v["q_kn_m"], "proj_mm": v["projection_mm"], "M_kNm": v["m_kn_m"], "sigma": v["sigma_n_mm2"],
            })
        }
        "fk = K fb^0.7 fm^0.3" => {
            let args = [
                ("k", i["K"].clone()),
                ("fb_n_mm2", i["fb"].clone()),
                ("fm_n_mm2", i["fm"].clone()),
            ];
            json!({ "fk": number("f_k", &args) })
        }
        "BS 5628-1 fk table" => {
            json!({ "fk": number("f_k_bs5628", &[("unit_n_mm2", i["unit"].clone()), ("mortar", i["mortar"].clone())]) })
        }
        "BS 5628 bearing types" => {
            let v = values(
                "bearing_types",
                &[("f_k_n_mm2", i["fk"].clone()), ("gamma_m", i["gm"].clone())],
            );
            json!({ "type1": v["type_1_n_mm2"], "type2": v["type_2_n_mm2"], "type3": v["type_3_n_mm2"] })
        }
        "EC6 6.1.3 concentrated load" => {
            let v = values(
                "n_rdc_concentrated",
                &[
                    ("lb_mm", i["lb_mm"].clone()),
                    ("t_mm", i["t_mm"].clone()),
                    ("hc_mm", i["hc_mm"].clone()),
                    ("a1_mm", i["a1_mm"].clone()),
                    ("f_k_n_mm2", i["fk"].clone()),
                    ("gamma_m", i["gM"].clone()),
                    ("group_1", json!(i["Group"] == 1)),
                ],
            );
            json!({
                "lefm_mm": v["lefm_mm"], "beta_raw": v["beta_raw"], "beta_limit": v["beta_limit"], "beta": v["beta"],
                "NRdc_kN": v["n_rdc_kn"],
            })
        }
        "needle bearing, historic brick" => historic(i),
        _ => return None,
    };
    Some(Outcome::Found(found))
}

fn named(i: &Value, grade: &str) -> Value {
    json!(format!(
        "{} {}",
        i["section"].as_str().unwrap(),
        i[grade].as_str().unwrap()
    ))
}

fn timber(i: &Value) -> Vec<(&'static str, Value)> {
    vec![
        ("grade", i["grade"].clone()),
        ("k_mod", i["kmod"].clone()),
        ("gamma_m", i["gM"].clone()),
    ]
}

fn design_strengths(i: &Value) -> Value {
    let (days, class) = match i["duration"].as_str().unwrap() {
        "medium SC1/2" => (30, "2"),
        _ => (3, "3"),
    };
    let k_mod = number("k_mod", &[("days", json!(days)), ("service_class", json!(class))]);
    assert!((k_mod - i["kmod"].as_f64().unwrap()).abs() < 1e-9, "k_mod {k_mod}");
    let args = [
        ("grade", json!("C24")),
        ("k_mod", json!(k_mod)),
        ("gamma_m", i["gM"].clone()),
    ];
    let v = values("design_values", &args);
    json!({ "fmd": v["fmd_n_mm2"], "fc90d": v["fc90d_n_mm2"], "fvd": v["fvd_n_mm2"] })
}

fn joist(i: &Value) -> Value {
    let (spacing, span) = (i["spacing_m"].as_f64().unwrap(), i["span_m"].as_f64().unwrap());
    let load = number("strength_load", &[("g", i["g"].clone()), ("q", i["q"].clone())]) * spacing;
    let mut args = timber(i);
    args.extend([
        ("b_mm", i["b"].clone()),
        ("h_mm", i["h"].clone()),
        ("m_kn_m", json!(load * span * span / 8.0)),
        ("k_sys", i["ksys"].clone()),
    ]);
    let bending = values("timber_bending", &args);
    // The printed deflection is that of the variable load alone, 0.75 kN/m on the joist.
    let variable = i["q"].as_f64().unwrap() * spacing;
    let deflection = number(
        "timber_deflection",
        &[
            ("grade", i["grade"].clone()),
            ("b_mm", i["b"].clone()),
            ("h_mm", i["h"].clone()),
            ("span_mm", json!(span * 1e3)),
            ("w_kn_m", json!(variable)),
        ],
    );
    json!({ "util": bending["utilisation"], "w_inst_at_0p75_mm_with_shear": deflection })
}

fn historic(i: &Value) -> Value {
    let n = |key: &str| i[key].as_f64().unwrap();
    // The wall's own stress gives the line load, the pitch the load on one needle.
    let line = n("total_stress") * n("t_mm");
    let load = line * n("pitch_mm") / 1e3;
    let args = [
        ("load_kn", json!(load)),
        ("width_mm", i["needle_w_mm"].clone()),
        ("t_mm", i["t_mm"].clone()),
    ];
    let v = values("historic_bearing", &args);
    json!({
        "line_load_kN_m": line,
        "bearing_N_mm2": v["bearing_n_mm2"],
        "allow_local": v["allow_local_n_mm2"],
        "ok": v["ok"],
        "max_pitch_mm": v["allow_kn"].as_f64().unwrap() / line * 1e3,
    })
}
