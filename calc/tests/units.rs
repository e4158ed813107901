//! A job in feet, inches and pounds is the metric job it equals, at every door where text comes in.
#![expect(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a test stops at the first broken promise"
)]

use calc::clause::evaluate;
use calc::job::job_schema;
use calc::job::schema::Kind;
use calc::units::{Unit, read};
use calc::{Problem, size_value};
use proptest::prelude::*;
use serde_json::{Value, json};

/// lbf in N, as the agreement defines it: the pound's mass times standard gravity.
const LBF_N: f64 = 0.453_592_37 * 9.806_65;
const FOOT_M: f64 = 0.3048;

/// A length in eighths of an inch, as one of the ways to write it.
fn tape(eighths: i64, way: usize) -> String {
    let sign = if eighths < 0 { "-" } else { "" };
    let all = eighths.abs();
    let (feet, inches, share) = (all / 96, all % 96 / 8, all % 8);
    match way % 4 {
        0 => format!("{sign}{feet}' {inches} {share}/8\""),
        1 if share == 0 => format!("{sign}{feet} ft {inches} in"),
        1 => format!("{sign}{feet}'-{inches} {share}/8\""),
        2 => format!("{sign}{}.{:03} in", all / 8, 125 * share),
        _ => format!("{sign}{all}/8 in"),
    }
}

/// A value near `value` in the other units, as text and as the metric number it equals by arithmetic of this test's own.
fn both(value: f64, unit: &str, way: usize) -> Option<(String, f64)> {
    let rounded = |one: f64| (value / one * 10.0).round() / 10.0;
    let per = |name: &str, one: f64| Some((format!("{:.1} {name}", rounded(one)), rounded(one) * one));
    let area = FOOT_M * FOOT_M;
    match unit {
        // An eighth of an inch is 3.175 mm; whole numbers divided once are the nearest binary numbers.
        "m" => {
            let n = (value / 0.003_175).round();
            Some((tape(n as i64, way), n * 3175.0 / 1e6))
        }
        "mm" => {
            let n = (value / 3.175).round();
            Some((tape(n as i64, way), n * 3175.0 / 1e3))
        }
        "kN" => per("lb", LBF_N / 1000.0),
        "kN/m" => per("plf", LBF_N / FOOT_M / 1000.0),
        "kN/m²" | "kPa" => per("psf", LBF_N / area / 1000.0),
        "kN/m³" => per("pcf", LBF_N / area / FOOT_M / 1000.0),
        "N/mm²" => per("psi", LBF_N / (0.0254 * 0.0254) / 1e6),
        "m/s" => per("mph", 0.44704),
        "°" => Some((format!("{value}°"), value)),
        "days" => Some((format!("{value} days"), value)),
        _ => None,
    }
}

/// Replaces every number that has a unit, in one job by text and in the other by the number that the text is, which has to
/// be the metric equal to twelve digits.
fn replace(text: &mut Value, metric: &mut Value, kind: Kind, factors: &[f64], count: &mut usize) {
    match kind {
        Kind::Number(min, max, unit) => {
            let Some(value) = text.as_f64() else { return };
            *count += 1;
            let factor = factors[*count % factors.len()];
            if let Some((words, equal)) = both(value * factor, unit, *count) {
                let found = read(&words, Unit::of_symbol(unit).unwrap()).unwrap();
                assert!((found - equal).abs() <= 1e-12 * equal.abs(), "{words}: {found} {equal}");
                if found >= min && found <= max {
                    *text = json!(words);
                    // To the last bit, for two props used alike are told apart by less.
                    *metric = json!(found);
                }
            }
        }
        Kind::Object(fields) | Kind::TextOr(fields) if text.is_object() => {
            for field in fields {
                if let (Some(a), Some(b)) = (text.get_mut(field.key), metric.get_mut(field.key)) {
                    replace(a, b, field.kind, factors, count);
                }
            }
        }
        Kind::List(each, _) => pairs(text, metric, std::iter::repeat(*each), factors, count),
        Kind::Tuple(kinds) => pairs(text, metric, kinds.iter().copied(), factors, count),
        _ => {}
    }
}

fn pairs(text: &mut Value, metric: &mut Value, kinds: impl Iterator<Item = Kind>, factors: &[f64], count: &mut usize) {
    if let (Some(a), Some(b)) = (text.as_array_mut(), metric.as_array_mut()) {
        for ((a, b), kind) in a.iter_mut().zip(b).zip(kinds) {
            replace(a, b, kind, factors, count);
        }
    }
}

/// The first place where two answers differ by more than the last digits of binary arithmetic.
fn differs(a: &Value, b: &Value, at: &str) -> Option<String> {
    let no = || Some(format!("{at}: {a} against {b}"));
    match (a, b) {
        (Value::Number(x), Value::Number(y)) => {
            let (x, y) = (x.as_f64().unwrap(), y.as_f64().unwrap());
            if (x - y).abs() <= 1e-9 * x.abs().max(y.abs()).max(1.0) {
                None
            } else {
                no()
            }
        }
        (Value::Array(x), Value::Array(y)) if x.len() == y.len() => {
            let mut each = x.iter().zip(y).enumerate();
            each.find_map(|(i, (x, y))| differs(x, y, &format!("{at}/{i}")))
        }
        (Value::Object(x), Value::Object(y)) if x.len() == y.len() => x
            .iter()
            .find_map(|(key, one)| differs(one, y.get(key).unwrap_or(&Value::Null), &format!("{at}/{key}"))),
        _ if a == b => None,
        _ => no(),
    }
}

fn full(name: &str) -> Value {
    let mut job = calc::example::job(name).unwrap();
    job["points"] = json!([{"x_m": 0.9, "level": 0, "leaf": "inner", "dead_kn": 3.2, "imposed_kn": 1.4}]);
    job["wall"]["leaves"][0]["density_kn_m3"] = json!(19.5);
    job["wall"]["leaves"][0]["unit_n_mm2"] = json!(15.0);
    job["site"]["snow_kn_m2"] = json!(0.5);
    job["sides"]["inside"]["foot"]["bearing_kpa"] = json!(110.0);
    job["roof"]["plate_mm"] = json!([100, 75]);
    job["engineer"] = json!({"name": "R. Okafor", "date": "2026-03-01", "spacing_m": 0.9, "load_kn_m": 28.0});
    job
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]
    #[test]
    fn feet_and_pounds_are_the_metric_job(
        name in proptest::sample::select(calc::example::names()),
        factors in proptest::collection::vec(0.97..1.03_f64, 31),
    ) {
        let (mut text, mut metric) = (full(name), full(name));
        let mut count = 0;
        replace(&mut text, &mut metric, Kind::Object(job_schema()), &factors, &mut count);
        prop_assert!(count > 25, "only {count} numbers");
        prop_assert!(text != metric);
        match (size_value(&text), size_value(&metric)) {
            (Ok(a), Ok(b)) => prop_assert!(a == b, "{name}: {:?}", differs(&json!(a), &json!(b), "")),
            (Err(a), Err(b)) => prop_assert_eq!(a, b),
            (a, b) => prop_assert!(false, "{}: {:?} {:?}", name, a.is_ok(), b.is_ok()),
        }
    }
}

/// Without chance: the house types as they are, so that the law above is known to have compared answers.
#[test]
fn every_house_type_is_sized_from_feet_and_pounds() {
    for name in calc::example::names() {
        let (mut text, mut metric) = (full(name), full(name));
        replace(&mut text, &mut metric, Kind::Object(job_schema()), &[1.0], &mut 0);
        let (a, b) = (size_value(&text), size_value(&metric));
        assert!(a.is_ok() && b.is_ok(), "{name}: {a:?} {b:?}");
        let (a, b) = (a.unwrap(), b.unwrap());
        assert!(a == b, "{name}: {:?}", differs(&json!(a), &json!(b), ""));
    }
}

fn problem(job: &Value) -> Problem {
    let problems = size_value(job).unwrap_err();
    assert_eq!(problems.len(), 1, "{problems:?}");
    problems[0].clone()
}

#[test]
fn a_wrong_unit_is_a_problem_at_its_path_and_ranges_hold_after_conversion() {
    let mut job = calc::example::job("bungalow").unwrap();
    job["opening"]["width_m"] = json!("12 psf");
    let found = problem(&job);
    assert_eq!(found.path, "/opening/width_m");
    assert!(
        found.wrong.contains("load per area") && found.right.contains("11 ft 9 in"),
        "{found:?}"
    );
    job["opening"]["width_m"] = json!("7' 10\"");
    assert!(size_value(&job).is_ok());
    // 60 ft are 18.288 m; the contract ends at 12 m.
    job["opening"]["width_m"] = json!("60 ft");
    let found = problem(&job);
    assert!(found.wrong.contains("18.288 m is out of range"), "{found:?}");
    job["opening"]["width_m"] = json!("8");
    assert!(problem(&job).wrong.contains("no unit"));
    job["opening"]["width_m"] = json!(2.4);
    job["roof"]["plate_mm"] = json!(["4 in", "3 kN"]);
    assert_eq!(problem(&job).path, "/roof/plate_mm/1");
    job["roof"]["plate_mm"] = json!(["4 in", "2 in"]);
    job["wall"]["leaves"][0]["year"] = json!("1895 years");
    assert!(problem(&job).path.ends_with("/year"));
}

/// A prop's readings may come from a tape in inches: the evaluation is that of the metric round.
#[test]
fn a_round_reads_inches_too() {
    let job = calc::example::job("bungalow").unwrap();
    let option = serde_json::to_value(&size_value(&job).unwrap().options[0]).unwrap();
    let reading = |name: &Value, lean: Value, over: Value, head: Value| {
        json!({"prop": name, "pin": "right", "collar_turns": 0, "thread_mm": 6, "lean_mm": lean, "over_m": over,
            "head_off_mm": head, "foot_off_mm": 0, "foot_firm": true, "straight": true, "fixed": true, "packed": true})
    };
    let round = |lean: Value, over: Value, head: Value| {
        let props = option["props"].as_array().unwrap();
        let readings: Vec<Value> = props
            .iter()
            .map(|prop| reading(&prop["name"], lean.clone(), over.clone(), head.clone()))
            .collect();
        json!({"contract": 1, "job": job, "option": option, "at": "2026-03-02T07:40:00Z", "readings": readings,
            "gauges": [{"name": "over the door", "mm": 0.2}],
            "job_checks": {"braces": true, "doors_stick": false, "load_on_floors": false, "digging": false}})
    };
    let metric = calc::round_value(&round(json!([6.35, -12.7]), json!(1.2192), json!(9.525))).unwrap();
    let inches = calc::round_value(&round(json!(["1/4 in", "-1/2\""]), json!("4 ft"), json!("3/8 in"))).unwrap();
    assert_eq!(metric, inches);
    assert!(!metric.props.is_empty());
    // What was entered in inches yesterday is an earlier reading today.
    let after = |first: Value, now: Value| {
        let mut round = now;
        round["earlier"] = json!([first["readings"]]);
        calc::round_value(&round).unwrap()
    };
    let (by_inch, by_mm) = (
        round(json!(["1/4 in", "-1/2\""]), json!("4 ft"), json!("3/8 in")),
        round(json!([6.35, -12.7]), json!(1.2192), json!(9.525)),
    );
    assert_eq!(after(by_inch.clone(), by_inch), after(by_mm.clone(), by_mm));
    let wrong = calc::round_value(&round(json!(["1/4 in", "2 lb"]), json!("4 ft"), json!(0))).unwrap_err();
    assert!(wrong[0].path.ends_with("/lean_mm/1"), "{wrong:?}");
}

#[test]
fn clause_functions_read_units_by_their_arguments() {
    let call = |name: &str, args: &[(&str, &str)]| {
        let args: Vec<(String, String)> = args.iter().map(|(k, v)| ((*k).to_owned(), (*v).to_owned())).collect();
        evaluate(name, &args)
    };
    // 50 mph are 22.352 m/s: 0.613e-3 × 22.352² = 0.30626 kN/m².
    let q = call("gust_pressure", &[("gust_m_s", "50 mph")])
        .unwrap()
        .value
        .as_f64()
        .unwrap();
    assert!((q - 0.306_26).abs() < 5e-6, "{q}");
    let feet = call(
        "simple_span",
        &[
            ("span_mm", "4 ft"),
            ("from_mm", "2 ft"),
            ("to_mm", "24 in"),
            ("load_kn", "4000 lb"),
            ("i_cm4", "1250"),
        ],
    );
    let metric = call(
        "simple_span",
        &[
            ("span_mm", "1219.2"),
            ("from_mm", "609.6"),
            ("to_mm", "609.6"),
            ("load_kn", "17.792886461042"),
            ("i_cm4", "1250"),
        ],
    );
    assert_eq!(differs(&feet.unwrap().value, &metric.unwrap().value, ""), None);
    let wrong = call("gust_pressure", &[("gust_m_s", "50 lb")]).unwrap_err();
    assert_eq!(wrong.arg, "gust_m_s");
    // A moment shares its suffix with a load per length: no unit is read for it.
    let moment = call(
        "timber_bending",
        &[
            ("grade", "C24"),
            ("b_mm", "3 in"),
            ("h_mm", "8 in"),
            ("m_kn_m", "100 plf"),
            ("k_mod", "0.8"),
        ],
    );
    assert_eq!(moment.unwrap_err().arg, "m_kn_m");
}

#[test]
fn the_schema_says_that_text_with_a_unit_is_taken() {
    let schema = calc::schema("job").unwrap();
    let width = &schema["properties"]["opening"]["properties"]["width_m"];
    assert_eq!(width["type"], json!(["number", "string"]));
    assert!(width["description"].as_str().unwrap().contains("11 ft 9 in"), "{width}");
    assert_eq!(
        schema["properties"]["catalogue"]["anyOf"][0]["properties"]["rates"]["anyOf"][0]["properties"]["prop"]["type"],
        json!("number")
    );
}
