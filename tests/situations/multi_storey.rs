//! A tall house, a plan without needles, a rule of thumb, and the same job in four countries.

use super::house::{checked, edit, floor, has, held, house, total_kn, words};
use super::not_yet::{ORDER_OF_WORK, not_run, todo_until_merged};
use super::order::{says, stops_for};
use super::program::size;
use serde_json::{Value, json};

/// The house of situation 01 with what its account leaves open taken as its hand check does: 215 brick, two storeys of
/// wall, two floors and a roof, about 39 kN/m.
pub fn three_storey_house() -> Value {
    let storey = |bearing_m: f64| json!({"height_m": 2.7, "openings": [], "floor": floor(4.0, 0.0, bearing_m)});
    house(
        "three_storey_terrace",
        &[
            ("/opening/width_m", json!(3.0)),
            ("/opening/left_masonry_m", json!(1.2)),
            ("/opening/right_masonry_m", json!(1.2)),
            (
                "/wall/leaves",
                json!([{"material": "clay_brick", "thickness_mm": 215, "mortar": "cement", "plaster_mm": 13}]),
            ),
            ("/above", json!([storey(2.75), storey(5.45)])),
            ("/roof/span_m", json!(7.4)),
            ("/roof/ceiling_kn_m2", json!(0.25)),
            ("/site/snow_kn_m2", json!(0.6)),
        ],
    )
}

/// Source of situation 01: forum topic 1685934, "Builder almost brought the house down..literally" (23 July 2017):
/// 3 m of the outside wall of a three-storey house out, four single props directly under the wall, no needles.
/// Its hand check: about 116 kN over 3 m, about 29 kN on each of four props.
#[test]
fn s01_four_single_props_without_needles_are_refused_with_numbers() {
    let mut job = three_storey_house();
    // A single prop with something on its head and no needle is what the contract calls a bracket plan.
    let plan = json!({"kind": "brackets", "needles_x_m": [0.375, 1.125, 1.875, 2.625]});
    edit(&mut job, &[("/builders_plan", plan)]);
    let answer = size(&job);
    assert!((95.0..140.0).contains(&total_kn(&answer)), "{}", total_kn(&answer));
    let verdict = &answer["builders_plan"];
    assert_eq!(verdict["standing"], "does_not_hold");
    let check = &verdict["checks"][0];
    let (each, can) = (check["demand"].as_f64().unwrap(), check["resistance"].as_f64().unwrap());
    assert!((23.0..36.0).contains(&each), "each would carry {each} kN");
    assert!(
        each > 2.0 * can,
        "{each} kN against {can} kN: well over what such a prop can do"
    );
    let said = verdict["words"].as_str().unwrap();
    assert!(
        said.starts_with("4 brackets") && said.contains(&format!("{each:.1} kN")),
        "{said}"
    );
    assert_eq!(answer["brackets"]["allowed"], false);
    assert!(has(&answer["brackets"]["reasons"], "storey_above") && has(&answer["brackets"]["reasons"], "overloaded"));
    not_run(
        "s01 tonnes beside kN",
        "tonnes are written by the screens; `calc` gives kN",
    );
}

/// Source of situation 01, and BS 5975-1:2024 Table 2 (read in secondary texts): "single-storey" is its example of
/// category 1, so more than one storey above needs an engineer and an independent check.
#[test]
fn s01_two_storeys_above_ask_for_the_engineer_first() {
    let answer = size(&three_storey_house());
    assert_eq!(answer["standing"], "needs_own_design");
    assert_eq!(answer["refusal"], "engineer_first");
    assert_eq!(answer["independent_check_needed"], true);
    assert!(words(&answer["reasons"], "storeys").unwrap().contains('2'));
    let cautions = answer["cautions"].to_string();
    assert!(
        cautions.contains("not to build from") && cautions.contains("independent checker"),
        "{cautions}"
    );
    let four =
        json!([2.75, 5.45, 8.15, 10.85].map(|level: f64| json!({"height_m": 2.7, "floor": floor(4.0, 0.0, level)})));
    let mut taller = three_storey_house();
    edit(&mut taller, &[("/above", four)]);
    assert_eq!(
        size(&taller)["refusal"],
        "no_model",
        "more than three storeys above lie outside the method"
    );
}

/// Source of situation 01: the props were left over the weekend with one of three steels in.
#[test]
fn s01_leaving_for_a_night_is_a_stop() {
    let test = "s01_leaving_for_a_night_is_a_stop";
    if todo_until_merged(ORDER_OF_WORK, test, "the order of work") {
        return;
    }
    let order = &size(&house("two_storey_cavity", &[]))["order"];
    assert!(stops_for(order, &["night"]), "before leaving for a night: {order}");
    assert!(says(order, &["needle", "packed"]) && says(order, &["board"]), "{order}");
}

/// Source of situation 03: blog "How to remove a load bearing wall": "A rough guide is 4 props and 2 needles".
/// The number follows width and load: needles by spacing, props and boards twice that.
#[test]
fn s03_count_follows_width_and_load() {
    let at = |width: f64, edits: &[(&str, Value)]| {
        let mut job = house(
            "two_storey_cavity",
            &[
                ("/opening/width_m", json!(width)),
                ("/above/0/openings", json!([])),
                checked(),
            ],
        );
        edit(&mut job, edits);
        size(&job)
    };
    let mut counts = Vec::new();
    for width in [1.6, 2.4, 3.0, 3.6] {
        let answer = at(width, &[]);
        let fewest = answer["options"]
            .as_array()
            .unwrap()
            .iter()
            .find(|option| option["aim"] == "fewest")
            .unwrap();
        let needles = fewest["needles"].as_array().unwrap().len();
        assert_eq!(
            fewest["props"].as_array().unwrap().len(),
            2 * needles,
            "two props to a needle"
        );
        assert_eq!(
            fewest["feet"].as_array().unwrap().len(),
            2 * needles,
            "a board to a prop"
        );
        counts.push(needles);
    }
    assert!(
        counts.windows(2).all(|pair| pair[0] <= pair[1]) && counts[3] > counts[0],
        "{counts:?}"
    );
    assert!(counts[2] > 2, "two needles are too few for 3 m: {counts:?}");
    // 2 m more of floor on the same 3 m: half of it, with 0.5 dead, 1.5 imposed and 0.5 partitions, is 7.5 kN more.
    let (light, heavy) = (at(3.0, &[]), at(3.0, &[("/above/0/floor/inside_span_m", json!(6.0))]));
    let needles = |answer: &Value| answer["options"][0]["needles"].as_array().unwrap().len();
    let more = total_kn(&heavy) - total_kn(&light);
    assert!(
        (more - 7.5).abs() < 0.05 && needles(&heavy) >= needles(&light),
        "{more}"
    );
}

/// Source of situation 03: with two needles on a 3 m opening the spacing is about 1.5 m, half of that at the jambs.
#[test]
fn s03_two_needles_over_three_metres_get_judged() {
    let two = json!([0.75, 2.25]);
    let plan = json!({"kind": "needles", "needles_x_m": two, "inside_y_mm": 827.5, "outside_y_mm": -550.0});
    let edits = [
        ("/opening/width_m", json!(3.0)),
        ("/above/0/openings", json!([])),
        checked(),
    ];
    let mut job = house("two_storey_cavity", &edits);
    edit(&mut job, &[("/builders_plan", plan)]);
    let answer = size(&job);
    assert!(
        held(&answer),
        "the house can be held another way: {}",
        answer["reasons"]
    );
    let verdict = &answer["builders_plan"];
    assert_eq!(verdict["standing"], "does_not_hold");
    assert!(
        verdict["words"].as_str().unwrap().contains("1.500 m"),
        "{}",
        verdict["words"]
    );
    assert!(
        !verdict["checks"].as_array().unwrap().is_empty(),
        "its effect is shown in numbers"
    );
    // Held still, the same two carry half of the whole each.
    edit(
        &mut job,
        &[("/builders_plan", Value::Null), ("/fix", json!({"needles_x_m": two}))],
    );
    let answer = size(&job);
    assert_eq!(answer["standing"], "does_not_hold");
    let share = answer["nearest"]["needles"][0]["lever_kn"].as_f64().unwrap() / total_kn(&answer);
    assert!((0.45..0.60).contains(&share), "{share}");
}

/// Source of situation 13: a council's page, bauredakteur.de, two Scottish councils, 29 CFR 1926.850.
/// Law differs, physics does not.
#[test]
fn s13_four_countries_same_numbers() {
    let answers: Vec<Value> = ["england", "scotland", "germany", "united states", "elsewhere"]
        .map(|country| size(&house("two_storey_cavity", &[("/country", json!(country))])))
        .into();
    for answer in &answers {
        for key in ["load", "options", "brackets", "standing", "nearest"] {
            assert_eq!(answer[key], answers[0][key], "{key}");
        }
        let said = answer.to_string().to_lowercase();
        for word in ["no permission", "permission is not needed", "no notice is needed"] {
            assert!(!said.contains(word), "{word}");
        }
        assert!(
            answer["cautions"].to_string().contains("Local rules"),
            "check your authority: {}",
            answer["cautions"]
        );
    }
}

/// Source of situation 13: Scotland: an offence to start before the warrant; elsewhere other words.
#[test]
fn s13_four_countries_other_words() {
    let test = "s13_four_countries_other_words";
    if todo_until_merged(ORDER_OF_WORK, test, "the order of work") {
        return;
    }
    let order = |country: &str| size(&house("two_storey_cavity", &[("/country", json!(country))]))["order"].clone();
    let (england, scotland, germany, elsewhere) = (
        order("england"),
        order("scotland"),
        order("germany"),
        order("elsewhere"),
    );
    assert!(stops_for(&england, &["notice"]), "{england}");
    assert!(stops_for(&scotland, &["warrant"]), "{scotland}");
    assert!(england != scotland && scotland != germany && germany != england);
    assert!(
        says(&elsewhere, &["authority"]),
        "unknown country: check your authority: {elsewhere}"
    );
}
