//! Trends: fitted lines against published and library values, what grows, and the drawings.
#![expect(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a test that fails is to stop where it fails"
)]

use calc::trend::fit::t_95;
use calc::trend::rules::{crack_grows, take_up_grows, take_up_sums};
use calc::trend::{Fit, Round, Series, Standing, Trends, What, trends};
use proptest::prelude::*;
use serde_json::{Value, json};

/// NIST Statistical Reference Datasets, linear regression, Norris: (y, x) of the calibration of ozone monitors. Read in the
/// test suites of several public libraries, which agree in every figure, not in the institute's own file.
const NORRIS: [(f64, f64); 36] = [
    (0.1, 0.2),
    (338.8, 337.4),
    (118.1, 118.2),
    (888.0, 884.6),
    (9.2, 10.1),
    (228.1, 226.5),
    (668.5, 666.3),
    (998.5, 996.3),
    (449.1, 448.6),
    (778.9, 777.0),
    (559.2, 558.2),
    (0.3, 0.4),
    (0.1, 0.6),
    (778.1, 775.5),
    (668.8, 666.9),
    (339.3, 338.0),
    (448.9, 447.5),
    (10.8, 11.6),
    (557.7, 556.0),
    (228.3, 228.1),
    (998.0, 995.8),
    (888.8, 887.6),
    (119.6, 120.2),
    (0.3, 0.3),
    (0.6, 0.3),
    (557.6, 556.8),
    (339.3, 339.1),
    (888.0, 887.2),
    (998.5, 999.0),
    (778.9, 779.0),
    (10.2, 11.1),
    (117.6, 118.3),
    (228.9, 229.2),
    (668.4, 669.1),
    (449.2, 448.9),
    (0.2, 0.5),
];

fn near(got: f64, want: f64, share: f64) -> bool {
    (got - want).abs() <= share * want.abs().max(1e-12)
}

#[test]
fn the_line_through_norris_is_the_certified_one() {
    let points: Vec<(f64, f64)> = NORRIS.iter().map(|(y, x)| (*x, *y)).collect();
    let fit = Fit::of(&points).unwrap();
    // Certified: estimates and their standard deviations, and the residual mean square.
    assert!(near(fit.slope_per_day, 1.002_116_818_020_45, 1e-12), "{fit:?}");
    assert!(near(fit.intercept, -0.262_323_073_774_029, 1e-10), "{fit:?}");
    assert!(near(fit.slope_error, 0.429_796_848_199_937e-3, 1e-9), "{fit:?}");
    assert!(near(fit.intercept_error, 0.232_818_234_301_152, 1e-9), "{fit:?}");
    assert!(
        near(fit.residual_sd * fit.residual_sd, 0.782_864_662_630_069, 1e-9),
        "{fit:?}"
    );
    assert_eq!(fit.count, 36);
}

/// `tests/published/libraries/run_scipy_lines.py` made the file.
#[test]
fn lines_and_their_reach_are_those_of_scipy() {
    let told: Value = serde_json::from_str(include_str!("lines.json")).unwrap();
    let numbers =
        |value: &Value| -> Vec<f64> { value.as_array().unwrap().iter().map(|n| n.as_f64().unwrap()).collect() };
    let rows = told["lines"].as_array().unwrap();
    assert_eq!(rows.len(), 28);
    for row in rows {
        let points: Vec<(f64, f64)> = numbers(&row["x"]).into_iter().zip(numbers(&row["y"])).collect();
        let fit = Fit::of(&points).unwrap();
        for (got, key) in [
            (fit.slope_per_day, "slope"),
            (fit.slope_error, "slope_error"),
            (fit.intercept, "intercept"),
            (fit.intercept_error, "intercept_error"),
            (fit.slope_low, "low"),
            (fit.slope_high, "high"),
        ] {
            let want = row[key].as_f64().unwrap();
            assert!(
                near(got, want, 1e-7) || (got - want).abs() < 1e-10,
                "{key}: {got} and {want}"
            );
        }
    }
    for row in told["t"].as_array().unwrap() {
        let row = numbers(row);
        assert!(
            near(t_95(row[0] as usize), row[1], 1e-9),
            "{row:?}: {}",
            t_95(row[0] as usize)
        );
    }
}

#[test]
fn a_line_needs_three_points_on_more_than_one_day() {
    assert_eq!(Fit::of(&[(0.0, 1.0), (1.0, 2.0)]), None);
    assert_eq!(Fit::of(&[(4.0, 1.0), (4.0, 2.0), (4.0, 3.0)]), None);
    assert_eq!(
        Fit::of(&[(0.0, 1.0), (f64::NAN, 2.0), (1.0, f64::INFINITY), (2.0, 1.0)]),
        None
    );
}

#[test]
fn what_grows_grows_three_rounds_running() {
    for (amounts, grows) in [
        (&[0.5, 1.0, 1.5][..], true),
        (&[3.0, 0.5, 1.0, 1.5], true),
        (&[0.5, 1.0, 1.0], false),
        (&[0.0, 1.0, 1.5], false),
        (&[1.0, 1.5], false),
        (&[0.5, 1.0, 1.5, 0.0], false),
    ] {
        assert_eq!(take_up_grows(amounts), grows, "{amounts:?}");
    }
    for (gauge, grows) in [
        (&[12.0, 12.1, 12.2, 12.3][..], true),
        (&[12.0, 12.1, 12.1, 12.3], false),
        (&[12.1, 12.2, 12.3], false),
        (&[12.0, 12.05, 12.15, 12.25], false),
        (&[12.3, 12.2, 12.1, 12.0], false),
    ] {
        assert_eq!(crack_grows(gauge), grows, "{gauge:?}");
    }
}

#[test]
fn what_is_taken_up_in_all_stops_at_each_four_mm() {
    // A steady 0.8 mm a round passes 4 mm in the fifth, 8 mm in the tenth round, and stops in no other.
    let stops: Vec<usize> = (1..=12)
        .filter(|n| take_up_sums(0.8 * (*n as f64 - 1.0), 0.8))
        .collect();
    assert_eq!(stops, [5, 10]);
    assert!(!take_up_sums(5.0, 0.0) && !take_up_sums(5.0, -2.0) && take_up_sums(3.9, 0.2));
}

fn reading(prop: &str, turns: f64, lean: [f64; 2]) -> Value {
    json!({"prop": prop, "pin": "right", "collar_turns": turns, "thread_mm": 8, "lean_mm": lean, "over_m": 1.5,
        "head_off_mm": 0, "foot_off_mm": 0, "foot_firm": true, "straight": true, "fixed": true, "packed": true})
}

fn job(days: usize, row: impl Fn(usize) -> (Vec<Value>, Value)) -> Trends {
    let rounds: Vec<Round> = (0..days)
        .map(|day| {
            let (readings, gauges) = row(day);
            let at = format!("2026-03-{:02}T08:00:00+01:00", day + 1);
            Round::read(day as f64, &at, &json!({"readings": readings, "gauges": gauges}))
        })
        .collect();
    trends(&rounds)
}

fn one<'a>(trends: &'a Trends, what: What, name: &str) -> &'a Series {
    trends
        .series
        .iter()
        .find(|one| one.what == what && one.name == name)
        .unwrap()
}

#[test]
fn the_side_that_sinks_the_prop_that_loosens_and_the_crack_that_grows_are_named() {
    let seen = job(9, |day| {
        let inside = if day > 1 { 0.125 } else { 0.0 };
        let readings = vec![
            reading("N1-in", inside, [day as f64 * 1.5, 3.0]),
            reading("N1-out", 0.0, [0.0, 3.0]),
            reading("N2-in", inside, [0.0, 3.0]),
            reading("N2-out", 0.0, [0.0, 3.0]),
        ];
        (
            readings,
            json!([{"name": "G1", "mm": 12.0 + day as f64 * 0.05}, {"name": "G2", "mm": 4.0}]),
        )
    });
    // An eighth of a turn of 8 mm in seven rounds is 7 mm.
    let prop = one(&seen, What::TakeUp, "N1-in");
    assert!((prop.points.last().unwrap().value - 7.0).abs() < 1e-9);
    assert!((prop.fit.unwrap().slope_per_day - 1.0).abs() < 1e-9, "{:?}", prop.fit);
    assert_eq!((prop.standing, prop.stops), (Standing::Moves, false));
    assert_eq!(
        seen.words[0],
        "The inside settles more: its props were taken up 7.0 mm on average, those of the outside 0.0 mm."
    );
    assert!(
        prop.words
            .starts_with("N1-in goes on loosening: 7.0 mm taken up in all"),
        "{}",
        prop.words
    );
    assert_eq!(one(&seen, What::TakeUp, "N2-out").standing, Standing::Steady);
    // 0.05 mm a day over eight days.
    assert!(
        one(&seen, What::Crack, "G1")
            .words
            .starts_with("G1 grows: 0.4 mm since the start")
    );
    assert_eq!(one(&seen, What::Crack, "G2").words, "G2 has not changed.");
    // 12 mm on 1.5 m is 8 mm per m, 1 mm per m a day: 17 days to 25.
    let lean = one(&seen, What::LeanAlong, "N1-in");
    assert_eq!(
        lean.words,
        "N1-in leans 8 mm per m along the wall and leans more each day: at this rate it is at its limit in 17 days."
    );
    assert!(!seen.stop);
}

#[test]
fn what_stops_is_marked_and_told_first() {
    let seen = job(5, |day| {
        let readings = vec![
            reading("N1-in", day as f64 * 0.05, [0.0, 0.0]),
            reading("N1-out", 0.0, [0.0, -39.0]),
        ];
        (
            readings,
            json!([{"name": "G <1>", "mm": 3.0 + day as f64 * 0.3, "first_mm": 2.0}]),
        )
    });
    assert!(seen.stop);
    assert_eq!(one(&seen, What::TakeUp, "N1-in").standing, Standing::Growing);
    // Since the 2.0 mm that the gauge read when it was put up.
    let crack = one(&seen, What::Crack, "G <1>");
    assert_eq!((crack.standing, crack.stops), (Standing::Over, true));
    assert!(crack.words.contains("2.2 mm since the start"), "{}", crack.words);
    assert!(one(&seen, What::LeanAcross, "N1-out").stops, "26 mm per m");
    assert!(seen.words[0].contains("Stop and ring"), "{:?}", seen.words);
}

/// What the round stops for (method, section 16), no curve may call steady, however few its readings.
#[test]
fn a_curve_of_two_to_four_readings_is_not_steady_where_the_round_stops_or_tells() {
    let gauge = |readings: &[f64]| {
        job(readings.len(), |day| {
            (
                vec![reading("N1-in", 0.0, [0.0, 0.0])],
                json!([{"name": "G1", "mm": readings[day]}]),
            )
        })
    };
    // 0.5 mm since the last round is a stop, with two readings as with forty.
    let jumps = gauge(&[2.0, 2.5]);
    let crack = one(&jumps, What::Crack, "G1");
    assert_eq!((crack.standing, crack.stops, jumps.stop), (Standing::Over, true, true));
    assert!(crack.words.contains("0.5 mm since the last round"), "{}", crack.words);
    assert!(jumps.words[0].contains("Stop and ring"), "{:?}", jumps.words);
    // Four steps of a gauge of 0.1 mm are seen by anybody, whatever a line through two or three points is sure of.
    for readings in [&[2.0, 2.4][..], &[2.0, 2.1, 2.4], &[2.0, 2.0, 2.3, 2.3]] {
        let seen = gauge(readings);
        let crack = one(&seen, What::Crack, "G1");
        assert_eq!((crack.standing, crack.stops), (Standing::Moves, false), "{readings:?}");
        assert!(seen.words[0].contains("wider than at the start"), "{:?}", seen.words);
    }
    // Five of which the line is not sure: it is not said that nothing moved.
    let seen = gauge(&[2.0, 2.0, 2.0, 2.4, 2.4]);
    assert!(
        seen.words.iter().all(|words| !words.contains("Nothing has moved")),
        "{:?}",
        seen.words
    );
    let still = gauge(&[2.0, 2.1, 2.0]);
    assert_eq!(one(&still, What::Crack, "G1").standing, Standing::Steady);
    assert_eq!(
        still.words,
        ["Nothing has moved so that it could be told from the readings."]
    );
}

#[test]
fn a_prop_that_is_taken_up_by_more_than_the_round_allows_stops_on_its_curve_too() {
    let turned = |turns: &[f64]| {
        job(turns.len(), |day| {
            (vec![reading("N1-in", turns[day], [0.0, 0.0])], json!([]))
        })
    };
    // Turns of 8 mm: 4 mm in the first two rounds is bedding-in, 2.4 mm in the third is not.
    let bedding = turned(&[0.25, 0.25]);
    assert!(!bedding.stop);
    let late = turned(&[0.0, 0.0, 0.3]);
    let prop = one(&late, What::TakeUp, "N1-in");
    assert_eq!((prop.standing, prop.stops), (Standing::Over, true), "{}", prop.words);
    // 1.6 mm after two still rounds: told, no stop.
    let told = turned(&[0.0, 0.0, 0.2]);
    assert_eq!(one(&told, What::TakeUp, "N1-in").standing, Standing::Moves);
    assert!(told.words[0].contains("1.6 mm taken up"), "{:?}", told.words);
    // The first day is bedding-in however many rounds it has: three times 1.2 mm, not four.
    let day = |rounds: &[f64]| {
        let round = |turns: &f64| Round::read(0.1, "x", &json!({"readings": [reading("N1-in", *turns, [0.0, 0.0])]}));
        trends(&rounds.iter().map(round).collect::<Vec<_>>()).stop
    };
    assert!(!day(&[0.15, 0.15, 0.15]) && day(&[0.15, 0.15, 0.15, 0.15]));
    // Three rounds of one later day, 1.6 mm each: more than 2 mm in a day.
    let rounds: Vec<Round> = [0.0, 1.0, 2.0, 2.2, 2.4]
        .iter()
        .zip([0.0, 0.0, 0.2, 0.2, 0.2])
        .map(|(day, turns)| Round::read(*day, "x", &json!({"readings": [reading("N1-in", turns, [0.0, 0.0])]})))
        .collect();
    let seen = trends(&rounds);
    assert_eq!(
        one(&seen, What::TakeUp, "N1-in").standing,
        Standing::Over,
        "{:?}",
        seen.words
    );
}

#[test]
fn a_lean_of_two_readings_is_told_and_both_ways_together_stop() {
    let leant = |leans: &[[f64; 2]]| job(leans.len(), |day| (vec![reading("N1-in", 0.0, leans[day])], json!([])));
    // 3 mm, then 24 mm on 1.5 m: 2 and 16 mm per m.
    let seen = leant(&[[3.0, 0.0], [24.0, 0.0]]);
    let lean = one(&seen, What::LeanAlong, "N1-in");
    assert_eq!((lean.standing, lean.stops), (Standing::Moves, false));
    assert!(seen.words[0].contains("16 mm per m along the wall"), "{:?}", seen.words);
    // 20 mm per m both ways is 28 aslant: the round stops at 25.
    let seen = leant(&[[0.0, 0.0], [30.0, 30.0]]);
    for what in [What::LeanAlong, What::LeanAcross] {
        assert!(one(&seen, what, "N1-in").stops, "{what:?}");
    }
    // 15 and 20 mm per m are 25 exactly: at the limit, not over it.
    assert!(!leant(&[[22.5, 30.0]]).stop);
}

#[test]
fn every_drawing_is_whole_and_holds_no_style() {
    let seen = job(40, |day| {
        let readings = vec![
            reading("N1-in", 0.1, [day as f64, -3.0]),
            reading("<b>&\"", -0.2, [0.0, 0.0]),
        ];
        (readings, json!([{"name": "G1", "mm": (day % 3) as f64 * 0.1}]))
    });
    assert_eq!(seen.series.len(), 7);
    for series in &seen.series {
        let drawn = roxmltree::Document::parse(&series.svg).unwrap();
        let all = || drawn.descendants().filter(roxmltree::Node::is_element);
        assert!(
            all()
                .all(|node| ["svg", "path", "text"].contains(&node.tag_name().name())
                    && node.attribute("style").is_none())
        );
        let words: Vec<&str> = all().filter_map(|node| node.text()).collect();
        assert!(words[0].starts_with(&series.name), "{words:?}");
        assert!(
            words.contains(&"2026-03-01") && words.contains(&"2026-03-40"),
            "{words:?}"
        );
        let marks = all()
            .filter(|node| matches!(node.attribute("class"), Some("board" | "weightline")))
            .count();
        assert!(marks >= 40, "{marks} marks for 40 readings");
    }
    if let Ok(folder) = std::env::var("UPSTAY_CURVES") {
        for (number, series) in seen.series.iter().enumerate() {
            std::fs::write(format!("{folder}/{number}.svg"), &series.svg).unwrap();
        }
    }
}

#[test]
fn rows_that_cannot_be_read_leave_a_gap() {
    let broken = json!({"readings": [{"prop": "N1-in"}, 7, reading("N1-out", 1.0, [0.0, 0.0])], "gauges": [{"name": "G1"}, null]});
    let seen = trends(&[Round::read(f64::NAN, "", &broken), Round::read(0.0, "", &Value::Null)]);
    assert_eq!(seen.series.len(), 3);
    assert!((seen.series[0].points[0].value - 8.0).abs() < 1e-9);
}

proptest! {
    #[test]
    fn a_line_follows_its_points(
        slope in -5.0..5.0_f64, from in -20.0..20.0_f64, shift in 0.0..500.0_f64, noise in prop::collection::vec(-0.5..0.5_f64, 3..40),
    ) {
        let at = |day: f64| from + slope * day;
        let exact: Vec<(f64, f64)> = (0..noise.len()).map(|day| (day as f64 + shift, at(day as f64 + shift))).collect();
        let fit = Fit::of(&exact).unwrap();
        prop_assert!((fit.slope_per_day - slope).abs() < 1e-8 && fit.slope_error < 1e-6);
        let rough: Vec<(f64, f64)> = exact.iter().zip(&noise).map(|((x, y), off)| (*x, y + off)).collect();
        let fit = Fit::of(&rough).unwrap();
        prop_assert!(fit.slope_low <= fit.slope_per_day && fit.slope_per_day <= fit.slope_high);
        // Turned round, the line turns round; in any order it is the same.
        let mut turned: Vec<(f64, f64)> = rough.iter().map(|(x, y)| (*x, -y)).collect();
        turned.reverse();
        let other = Fit::of(&turned).unwrap();
        prop_assert!((fit.slope_per_day + other.slope_per_day).abs() < 1e-9);
        prop_assert!((fit.residual_sd - other.residual_sd).abs() < 1e-9);
    }

    #[test]
    fn no_reading_breaks_a_curve(
        turns in prop::collection::vec(-40.0..40.0_f64, 0..12), gauge in -50.0..100.0_f64, day in prop::num::f64::ANY,
    ) {
        let rounds: Vec<Round> = turns
            .iter()
            .map(|turns| Round::read(day, "x", &json!({"readings": [reading("P", *turns, [*turns, gauge])], "gauges": [{"name": "G", "mm": gauge}]})))
            .collect();
        for series in trends(&rounds).series {
            prop_assert!(roxmltree::Document::parse(&series.svg).is_ok() && !series.words.contains("NaN"), "{}", series.words);
        }
    }
}
