#![expect(clippy::unwrap_used, reason = "a test may stop at the first thing that is not there")]

use super::*;
use proptest::prelude::*;

fn fields(pairs: &[(&str, &str)]) -> Fields {
    pairs
        .iter()
        .map(|(path, text)| ((*path).to_owned(), (*text).to_owned()))
        .collect()
}

fn one(path: &str, text: &str) -> Result<Value, Problem> {
    let (job, problems) = assemble(&fields(&[(path, text)]));
    match problems.into_iter().next() {
        Some(problem) => Err(problem),
        None => Ok(job.pointer(path).cloned().unwrap_or(Value::Null)),
    }
}

#[test]
fn a_length_may_be_typed_with_point_comma_or_unit() {
    for text in [
        "3.6", "3,6", "3.6 m", "3,60 m", "3600 mm", "360 cm", "3600mm", " 3.6 ", "3.6 M",
    ] {
        assert_eq!(one("/opening/width_m", text), Ok(json!(3.6)), "{text}");
    }
    assert_eq!(one("/wall/leaves/0/thickness_mm", "10.25 cm"), Ok(json!(102.5)));
    assert_eq!(one("/wall/leaves/0/thickness_mm", "0,1025 m"), Ok(json!(102.5)));
    assert_eq!(one("/sides/outside/foot_level_m", "−150 mm"), Ok(json!(-0.15)));
    assert_eq!(one("/site/wind_m_s", "36 km/h"), Ok(json!(10)));
}

#[test]
fn wrong_text_names_the_path_what_is_wrong_and_what_would_be_right() {
    let problem = one("/opening/width_m", "wide").unwrap_err();
    assert_eq!(problem.path, "/opening/width_m");
    assert!(problem.wrong.contains("“wide” is not a number"), "{}", problem.wrong);
    assert!(problem.right.contains("3600 mm"), "{}", problem.right);
    for text in [
        "3.6 kg", "1.2.3", "1e3", "nan", "inf", "--1", "3-6", "0x10", "3.6 m m", ".", ",",
    ] {
        let problem = one("/opening/width_m", text).unwrap_err();
        assert_eq!(problem.path, "/opening/width_m", "{text}");
    }
}

#[test]
fn a_comma_that_could_be_thousands_is_asked_again() {
    let problem = one("/opening/beam_depth_mm", "1,200").unwrap_err();
    assert!(problem.wrong.contains("two ways"), "{}", problem.wrong);
    assert_eq!(one("/opening/width_m", "0,750"), Ok(json!(0.75)));
    assert_eq!(one("/opening/width_m", "3,65"), Ok(json!(3.65)));
}

/// Feet and inches by the agreement of 1959: a foot 0.3048 m, an inch 25.4 mm; 12 psf is 12 × 47.880 26 Pa.
#[test]
fn feet_inches_and_pounds_work_in_any_field() {
    assert_eq!(one("/opening/width_m", "11' 9\""), Ok(json!(3.5814)));
    assert_eq!(one("/wall/leaves/0/thickness_mm", "4 1/8 in"), Ok(json!(104.775)));
    let psf = one("/above/0/floor/dead_kn_m2", "12 psf").unwrap().as_f64().unwrap();
    assert!((psf - 12.0 * 0.047_880_26).abs() < 1e-7, "{psf}");
    assert_eq!(one("/site/days", "4 weeks"), Ok(json!(28)));
    assert_eq!(one("/opening/beam/mass_kg_m", "30 kg/m"), Ok(json!(30)));
    // A sheet's rows have no key of their own: the schema says which unit.
    assert_eq!(one("/props/0/table/0/0", "3000 mm"), Ok(json!(3)));
    assert_eq!(one("/props/0/table/0/1", "20 kN"), Ok(json!(20)));
    for text in ["3 kN", "2 tons", "2,000 mm", "11 ft 14 in", "4 1/8"] {
        let problem = one("/opening/width_m", text).unwrap_err();
        assert!(problem.right.contains("11 ft 9 in"), "{text}: {problem:?}");
    }
}

#[test]
fn a_list_says_its_unit_for_all_or_for_each() {
    let x = "/builders_plan/needles_x_m";
    for text in [
        "18 in; 54 in; 90 in",
        "1' 6\"; 4' 6\"; 7' 6\"",
        "18 54 90 in",
        "457.2 mm; 1371.6 mm; 2286 mm",
        "0.4572; 1.3716; 2.286 m",
        "0,4572 1,3716, 2,286",
    ] {
        if text.ends_with("2,286") {
            assert!(one(x, text).unwrap_err().wrong.contains("two ways"), "{text}");
        } else {
            assert_eq!(one(x, text), Ok(json!([0.4572, 1.3716, 2.286])), "{text}");
        }
    }
    // 4 mm of plate would be read where 4 inches were meant.
    assert_eq!(one("/roof/plate_mm", "4 × 2 in"), Ok(json!([101.6, 50.8])));
    assert_eq!(one("/roof/plate_mm", "4x2 in"), Ok(json!([101.6, 50.8])));
    for text in ["18; 54; 90 in", "18 in; 54; 90", "0.45; 54 in"] {
        assert!(one(x, text).unwrap_err().wrong.contains("some without"), "{text}");
    }
    assert_eq!(one("/roof/truss_x_m", "−0.3; 0.3; 0.9"), Ok(json!([-0.3, 0.3, 0.9])));
}

#[test]
fn the_schema_tells_text_from_number() {
    // A name that looks like a number stays a name; a flag reads yes and no.
    assert_eq!(one("/points/0/what", "12"), Ok(json!("12")));
    assert_eq!(one("/answers/cellar", "no"), Ok(json!("no")));
    assert_eq!(one("/wall/gable", "no"), Ok(json!(false)));
    assert_eq!(one("/wall/gable", "true"), Ok(json!(true)));
    assert!(one("/wall/gable", "perhaps").is_err());
    assert_eq!(one("/site/days", "21"), Ok(json!(21)));
    assert_eq!(one("/roof/plate_mm", "100 × 50 mm"), Ok(json!([100, 50])));
    assert_eq!(one("/above", "[]"), Ok(json!([])));
    assert_eq!(
        one("/fix/needles_x_m", "0,45; 1,35 2,25"),
        Ok(json!([0.45, 1.35, 2.25]))
    );
}

#[test]
fn lists_are_as_long_as_their_highest_row_and_null_takes_away() {
    let (job, problems) = assemble(&fields(&[
        ("/above/1/height_m", "2.4"),
        ("/above/0/floor", "null"),
        ("/above/0/floor/inside_span_m", "4"),
        ("/above/2/height_m", "  "),
        ("/job/name", "kept beside the job"),
        ("/round/readings/0/pin", "right"),
    ]));
    assert_eq!(problems, Vec::new());
    assert_eq!(
        job,
        json!({"contract": 1, "above": [{"floor": null}, {"height_m": 2.4}]})
    );
}

#[test]
fn a_row_beyond_any_list_is_a_problem_and_costs_nothing() {
    let (job, problems) = assemble(&fields(&[("/above/4000000000/height_m", "2.4"), ("opening", "x")]));
    assert_eq!(job, json!({"contract": 1}));
    assert_eq!(problems.len(), 2);
}

#[test]
fn unknown_keys_reach_calc_which_names_them() {
    let (job, problems) = assemble(&fields(&[("/opening/widht_m", "3.6")]));
    assert_eq!(problems, Vec::new());
    let problems = calc::Job::from_value(&job).unwrap_err();
    assert!(
        problems.iter().any(|problem| problem.path == "/opening/widht_m"),
        "{problems:?}"
    );
}

#[test]
fn every_ready_house_type_comes_back_from_its_fields() {
    let names = calc::example::names();
    assert!(!names.is_empty());
    for name in names {
        let job = calc::example::job(name).unwrap();
        let (again, problems) = assemble(&flatten(&job));
        assert_eq!(problems, Vec::new(), "{name}");
        // Null and absent mean the same, so both are compared as `calc` reads them.
        assert_eq!(
            calc::Job::from_value(&again).unwrap().0,
            calc::Job::from_value(&job).unwrap().0,
            "{name}"
        );
    }
}

proptest! {
    #[test]
    fn no_text_stops_the_program(path in "(/[a-z0-9_/]{0,24})?", text in "\\PC{0,24}") {
        let (_, _) = assemble(&fields(&[(&path, &text)]));
    }

    #[test]
    fn millimetres_and_metres_give_the_same_wall(millimetres in 1_i32..20_000) {
        let as_metres = f64::from(millimetres) / 1000.0;
        prop_assert_eq!(one("/opening/width_m", &format!("{millimetres} mm")), one("/opening/width_m", &as_metres.to_string()));
    }
}

#[test]
fn a_wall_of_which_nobody_said_whether_it_is_a_gable_counts_as_one() {
    let gable = |texts: &[(&str, &str)]| {
        let fields = texts
            .iter()
            .map(|(path, text)| ((*path).to_owned(), (*text).to_owned()));
        super::assemble(&fields.collect()).0.pointer("/wall/gable").cloned()
    };
    let leaf = ("/wall/leaves/0/material", "clay_brick");
    assert_eq!(gable(&[leaf]), Some(json!(true)));
    assert_eq!(gable(&[leaf, ("/wall/gable", "no")]), Some(json!(false)));
    assert_eq!(gable(&[("/opening/width_m", "3")]), None, "no wall is described yet");
}
