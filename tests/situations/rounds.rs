//! Rounds: the house that moved overnight, months of standing, wind, digging, and a wall that only its engineer sizes.

use super::house::{checked, edit, has, house, words, worst};
use super::multi_storey::three_storey_house;
use super::not_yet::{ORDER_OF_WORK, not_run, todo_until_merged};
use super::order::says;
use super::program::{round, size};
use super::scope::rubble_house;
use serde_json::{Value, json};

/// A round in which everything is right.
fn good_round(job: &Value, option: &Value) -> Value {
    let readings: Vec<Value> = option["props"].as_array().unwrap().iter().map(|prop| {
        json!({"prop": prop["name"], "pin": "right", "collar_turns": 0, "thread_mm": 6, "lean_mm": [3.0, 2.0], "over_m": 1.0,
            "head_off_mm": 5, "foot_off_mm": 0, "foot_firm": true, "straight": true, "fixed": true, "packed": true})
    }).collect();
    json!({"contract": 1, "job": job, "option": option, "earlier": [], "at": "2026-03-02T07:40:00Z", "readings": readings, "gauges": [],
        "job_checks": {"braces": true, "doors_stick": false, "load_on_floors": false, "digging": false, "wind_m_s": 4.0}})
}

fn cavity_house() -> (Value, Value) {
    let job = house("garage_with_room_over", &[checked()]);
    let option = size(&job)["options"][0].clone();
    (job, option)
}

/// Source of situation 01: cracks grew overnight, doors and windows jam: keep out, no blind re-tightening, ring the
/// engineer and building control.
#[test]
fn s01_growing_cracks_and_sticking_doors_mean_out() {
    // The brick was tested, so that the engineer has something to check.
    let mut job = three_storey_house();
    edit(&mut job, &[("/wall/leaves/0/unit_n_mm2", json!(20.0))]);
    let option = size(&job)["options"][0].clone();
    assert!(option.is_object(), "options are computed for the engineer");
    let mut today = good_round(&job, &option);
    let quiet = round(&today);
    assert_eq!(
        (&quiet["stop"], &quiet["out"]),
        (&json!(false), &json!(false)),
        "{quiet}"
    );
    edit(
        &mut today,
        &[
            ("/job_checks/doors_stick", json!(true)),
            (
                "/gauges",
                json!([{"name": "over the opening", "mm": 2.4, "first_mm": 0.3, "last_mm": 0.9}]),
            ),
        ],
    );
    let found = round(&today);
    for key in ["stop", "ring", "out"] {
        assert_eq!(found[key], true, "{key}: {found}");
    }
    assert_eq!(found["passed"], false);
    let said = words(&found["reasons"], "out").unwrap();
    for word in ["keep out", "no re-tightening", "engineer", "building control"] {
        assert!(said.contains(word), "{word} in {said}");
    }
}

/// Source of situation 05: the account's advice is an engineer's scheme; the rounds work whatever the standing.
#[test]
fn s05_rounds_work_where_there_is_no_model() {
    // Props as the engineer drew them; the tool proposes none.
    let prop = |name: &str, side: &str| {
        json!({"name": name, "needle": "N1", "side": side, "kind": "tn79", "size": "2", "length_m": 2.3, "load_kn": 9.0,
        "working_load_kn": 15.0, "kappa": 1.0, "utilisation": 0.6})
    };
    let option = json!({"props": [prop("N1-in", "inside"), prop("N1-out", "outside")],
        "bracing": {"v_kn": 18.0, "demand_along_kn": 0.5, "demand_across_kn": 1.0, "resistance_along_kn": 6.0, "resistance_across_kn": 6.0, "way": []}});
    let mut today = good_round(&rubble_house(), &option);
    assert_eq!(round(&today)["passed"], true, "{}", round(&today));
    edit(&mut today, &[("/readings/1/pin", json!("missing"))]);
    let found = round(&today);
    assert_eq!(
        (&found["stop"], &found["passed"]),
        (&json!(true), &json!(false)),
        "{found}"
    );
}

/// Source of situation 12: buildhub.org.uk blog 827: 25 to 30 props for four to six months.
#[test]
fn s12_months_of_standing_cost_and_creep() {
    let at = |days: u32, rates: Value| {
        size(&house(
            "two_storey_cavity",
            &[("/site/days", json!(days)), ("/catalogue/rates", rates), checked()],
        ))
    };
    let cheapest = |answer: &Value| {
        let found = answer["options"]
            .as_array()
            .unwrap()
            .iter()
            .find(|option| option["aim"] == "cheapest")
            .unwrap();
        found["objective"].as_f64().unwrap()
    };
    // £5 a prop and week, as in the account: six months cost about 180/21 times three weeks.
    let rates = json!({"needle": 6.0, "prop": 5.0, "board": 0.5});
    let times = cheapest(&at(182, rates.clone())) / cheapest(&at(21, rates));
    assert!((8.0..9.5).contains(&times), "26 weeks against 3: {times}");
    assert!(
        cheapest(&at(182, Value::Null)) > cheapest(&at(21, Value::Null)),
        "piece-weeks grow too"
    );
    // Timber boards creep and are weaker the longer they stand: same arrangement, never less used.
    let boards = |days: u32| {
        let fix = json!({"needles_x_m": [0.35, 0.85, 1.35, 1.85, 2.35], "inside_y_mm": 727.5, "outside_y_mm": -450.0});
        let answer = size(&house(
            "two_storey_cavity",
            &[("/site/days", json!(days)), ("/fix", fix), checked()],
        ));
        let option = if answer["nearest"].is_null() {
            answer["options"][0].clone()
        } else {
            answer["nearest"].clone()
        };
        (
            worst(&option["checks"], "board_bending").unwrap(),
            option["feet"][0]["board_mm"].clone(),
        )
    };
    let ((short, board), (long, same)) = (boards(5), boards(300));
    assert!(board != same || long > short, "{short} after 5 days, {long} after 300");
}

/// Source of situation 12: inspections must go on for months.
#[test]
fn s12_half_a_year_of_rounds_is_read() {
    let (job, option) = cavity_house();
    let mut today = good_round(&job, &option);
    let still = today["readings"].clone();
    let earlier: Vec<Value> = (0..180).map(|_| still.clone()).collect();
    today["earlier"] = json!(earlier);
    assert_eq!(round(&today)["passed"], true);
    // 3 mm taken up in one day is bedding-in on the first day and a stop after half a year.
    edit(&mut today, &[("/readings/0/collar_turns", json!(0.5))]);
    let late = round(&today);
    assert!(late["stop"] == true && has(&late["reasons"], "take_up"), "{late}");
    edit(&mut today, &[("/earlier", json!([]))]);
    assert_eq!(round(&today)["stop"], false);
    not_run(
        "s12 a missed day",
        "gaps are told by the record and its screen (`tests/record`), `calc` has no clock",
    );
}

/// Source of situation 12: creep and shrinkage: tighten again; look after storms.
#[test]
fn s12_looking_again_after_storms_and_shrinkage_is_in_the_order() {
    let test = "s12_looking_again_after_storms_and_shrinkage_is_in_the_order";
    if todo_until_merged(ORDER_OF_WORK, test, "the order of work") {
        return;
    }
    let order = &size(&house("two_storey_cavity", &[("/site/days", json!(180))]))["order"];
    assert!(says(order, &["wind", "forecast"]) && says(order, &["frost"]), "{order}");
    assert!(says(order, &["tighten"]) || says(order, &["wedge"]), "{order}");
}

/// Source of situation 16: digging seen on a round.
#[test]
fn s16_digging_seen_on_a_round_stops() {
    let (job, option) = cavity_house();
    let mut today = good_round(&job, &option);
    edit(&mut today, &[("/job_checks/digging", json!(true))]);
    let found = round(&today);
    assert!(
        found["stop"] == true && found["ring"] == true && found["passed"] == false,
        "{found}"
    );
    assert!(
        words(&found["reasons"], "digging")
            .unwrap()
            .contains("stop the digging")
    );
}

/// Source of situations 07 and 18: a very windy day; worksafe.vic.gov.au news of 15 June 2016: strong wind forecast, a wall
/// of 2.7 m × 7.47 m not braced. Pressure of a gust: 0.613 v² N/m².
#[test]
fn s18_a_gust_asks_more_of_the_braces_of_an_outside_wall() {
    let across = |outside: bool, gust: Value| {
        let answer = size(&house(
            "two_storey_cavity",
            &[
                ("/wall/outside_wall", json!(outside)),
                ("/site/gust_m_s", gust),
                checked(),
            ],
        ));
        let braces = answer["options"][0]["bracing"].clone();
        assert!(
            braces["resistance_across_kn"].as_f64() >= braces["demand_across_kn"].as_f64(),
            "{braces}"
        );
        assert!(
            !braces["way"].as_array().unwrap().is_empty(),
            "bracing is in every proposal"
        );
        braces["demand_across_kn"].as_f64().unwrap()
    };
    let (calm, storm) = (across(true, Value::Null), across(true, json!(45.0)));
    assert!(storm > calm, "{storm} after {calm}");
    assert!(
        (across(false, json!(45.0)) - across(false, Value::Null)).abs() < 1e-9,
        "no wind indoors"
    );
}

/// Source of situations 07 and 18: the daily check asks for wind now; stop in wind.
#[test]
fn s18_wind_on_a_round_is_held_against_the_braces() {
    let (job, option) = cavity_house();
    let mut today = good_round(&job, &option);
    let calm = round(&today);
    assert_eq!(calm["passed"], true, "{calm}");
    // A hurricane: 0.613 × 60² = 2.2 kN/m².
    edit(&mut today, &[("/job_checks/wind_m_s", json!(60.0))]);
    let storm = round(&today);
    assert_eq!(storm["passed"], false, "{storm}");
    assert_eq!(storm["stop"], true, "{storm}");
    let said = words(&storm["reasons"], "wind").unwrap();
    assert!(
        said.contains("nobody beside the wall") && said.contains("look at everything again"),
        "{said}"
    );
    // Indoors the same wind is no matter.
    let indoors = house("internal_bearing_wall", &[checked()]);
    let mut today = good_round(&indoors, &size(&indoors)["options"][0]);
    edit(&mut today, &[("/job_checks/wind_m_s", json!(60.0))]);
    assert_eq!(round(&today)["passed"], true, "{}", round(&today));
    not_run(
        "s18 the forecast in a round",
        "the order of work asks for it each day; a round and its screen have the wind of now only",
    );
}
