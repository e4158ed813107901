//! Floors held apart from the wall, from a described job to the answer.
//!
//! The rules are the method's own (sections 2, 5, 10, 13); loads are worked by hand where a number is expected.
#![expect(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a test stops at the first broken rule"
)]

use calc::proposal::{Opt, Proposal, RefusalKind, Standing};
use serde_json::{Value, json};

fn house(name: &str, edits: &[(&str, Value)]) -> Value {
    let mut job = calc::example::job(name).unwrap();
    for (pointer, value) in edits {
        let (parent, key) = pointer.rsplit_once('/').unwrap();
        job.pointer_mut(parent).unwrap()[key] = value.clone();
    }
    job
}

fn size(name: &str, edits: &[(&str, Value)]) -> Proposal {
    calc::size_value(&house(name, edits)).unwrap()
}

fn flush(edits: &[(&str, Value)]) -> Proposal {
    let mut all = vec![("/opening/flush", json!(true))];
    all.extend_from_slice(edits);
    size("two_storey_cavity", &all)
}

fn takes(option: &Opt) -> f64 {
    option.floor_lines.iter().map(|line| line.takes_kn).sum()
}

fn says(answer: &Proposal, code: &str, words: &str) -> bool {
    answer.reasons.iter().any(|r| r.code == code && r.words.contains(words))
}

#[test]
fn a_flush_beam_gets_needles_in_the_room_above_and_a_line_under_its_floor() {
    let answer = flush(&[]);
    assert_eq!(answer.standing, Standing::Close, "{:?}", answer.reasons);
    assert!(!answer.options.is_empty());
    for option in &answer.options {
        // Bearing 2.75, joists and boards 0.22, 0.05 over them.
        assert!((option.needle_soffit_m - 3.02).abs() < 1e-9);
        let [line] = option.floor_lines.as_slice() else {
            panic!("one floor on one side: {:?}", option.floor_lines)
        };
        assert!(line.needed && line.header.is_some() && line.stands());
        assert_eq!((line.floor, line.side.as_str()), (1, "inside"));
        assert!(line.props.len() > 2 && line.feet.len() == line.props.len());
        for check in line.checks.iter().chain(&option.checks) {
            assert!(check.utilisation <= 1.0 + 1e-9, "{} {}", check.name, check.utilisation);
        }
        assert!(
            option.worst_utilisation
                >= line
                    .checks
                    .iter()
                    .filter(|c| c.unit == "kN")
                    .map(|c| c.utilisation)
                    .fold(0.0, f64::max)
        );
        // Foot to header: shorter than the bearing level, and the header stands behind the needles' props.
        let needle = option.needles[0].inside_y_mm - 277.5;
        assert!(line.distance_mm.unwrap() >= needle + 250.0 - 1e-6);
        assert!(
            line.props
                .iter()
                .all(|prop| prop.length_m < 2.75 && prop.length_m > 2.3)
        );
        assert!(option.parts.iter().any(|part| part.what.starts_with("header")));
    }
    assert!(says(&answer, "floor_tie_cut", "rakers"));
    assert!(
        answer
            .assumptions
            .iter()
            .any(|a| a.words.contains("between two joists"))
    );
}

#[test]
fn losing_a_prop_of_the_line_is_told() {
    for option in &flush(&[]).options {
        // With four props at the least no loss tips the header, so each has a figure.
        let of_line: Vec<_> = option
            .one_lost
            .iter()
            .filter(|one| one.lost.starts_with("F1-in"))
            .collect();
        assert_eq!(of_line.len(), option.floor_lines[0].props.len());
        for one in of_line {
            let used = one.utilisation.unwrap();
            assert!(used > 0.0 && one.words.contains(&one.lost), "{one:?}");
        }
    }
}

#[test]
fn a_slab_under_two_rows_of_props_carries_both() {
    let answer = flush(&[]);
    let line = &answer.options[0].floor_lines[0];
    let shared = line
        .checks
        .iter()
        .find(|c| c.name == "ground" && c.at == "F1-in")
        .unwrap();
    let of = |props: &[calc::proposal::Prop]| {
        props
            .iter()
            .filter(|p| p.side == "inside")
            .map(|p| p.load_kn)
            .fold(0.0, f64::max)
    };
    // Boards 450 × 225 × 38 spread to 302 × 225; 100 mm of slab adds 200 both ways; the rows stand 250 mm apart.
    let both = of(&answer.options[0].props) + of(&line.props);
    let by_hand = both / (0.502 * (0.25 + 0.225 + 0.2));
    assert!(
        (shared.demand - by_hand).abs() < 1e-6,
        "{} by hand {by_hand}",
        shared.demand
    );
}

#[test]
fn a_round_asks_for_the_lines_props_too() {
    let job = house("two_storey_cavity", &[("/opening/flush", json!(true))]);
    let answer = serde_json::to_value(calc::size_value(&job).unwrap()).unwrap();
    let option = answer["options"][0].clone();
    let reading = |name: &str| {
        json!({"prop": name, "pin": "right", "collar_turns": 0, "thread_mm": 6, "lean_mm": [2.0, 0.0], "over_m": 1.0,
            "head_off_mm": 5, "foot_off_mm": 0, "foot_firm": true, "straight": true, "fixed": true, "packed": true})
    };
    let names = |list: &Value| -> Vec<String> {
        list.as_array()
            .unwrap()
            .iter()
            .map(|p| p["name"].as_str().unwrap().to_owned())
            .collect()
    };
    let (needles, line) = (names(&option["props"]), names(&option["floor_lines"][0]["props"]));
    let round = |read: &[String], loose: Option<&String>| {
        let read_now = |name: &String| {
            let mut one = reading(name);
            one["packed"] = json!(Some(name) != loose);
            one
        };
        let round = json!({"contract": 1, "job": job, "option": option, "earlier": [], "at": "2026-03-02T07:40:00Z",
            "readings": read.iter().map(read_now).collect::<Vec<_>>(), "gauges": [],
            "job_checks": {"braces": true, "doors_stick": false, "load_on_floors": false, "digging": false, "wind_m_s": 4.0}});
        calc::round_value(&round).unwrap()
    };
    let half = round(&needles, None);
    assert!(
        !half.passed
            && half
                .reasons
                .iter()
                .any(|r| r.code == "not_read" && r.words.contains("F1-in"))
    );
    let all: Vec<String> = needles.iter().chain(&line).cloned().collect();
    let whole = round(&all, None);
    assert!(whole.passed, "{:?}", whole.reasons);
    assert_eq!(whole.props.len(), all.len());
    // The needles' bracing holds the needles' props; the line has its own.
    assert!((half.sideways.demand_kn - whole.sideways.demand_kn).abs() < 1e-9);

    // What is loose on a head is called by its name: joists on the line's header, a leaf on a needle.
    for (prop, what) in [(&line[0], "joist"), (&needles[0], "needle")] {
        let loose = round(&all, Some(prop));
        let said: Vec<_> = loose.reasons.iter().filter(|r| r.code == "packed").collect();
        assert!(!loose.passed && said.len() == 1);
        assert!(
            said[0].words.contains(prop.as_str()) && said[0].words.contains(what),
            "{said:?}"
        );
    }
}

#[test]
fn the_line_takes_what_the_needles_leave() {
    // Half of 4 m at 0.5 + 1.5 + 0.5 kN/m² over 2.7 m.
    let floor = 2.0 * 2.5 * 2.7;
    let with = flush(&[]);
    let none = flush(&[
        ("/above/0/floor/inside_span_m", json!(0.0)),
        ("/answers/restraint", json!("strapped")),
    ]);
    assert!(
        (with.load.total_service_kn - none.load.total_service_kn).abs() < 1e-9,
        "no floor on the needles"
    );
    for option in &with.options {
        assert!((takes(option) - floor).abs() < 1e-9, "{}", takes(option));
        // Whole joists and their lever past the header: never less than the floor's share.
        assert!(option.floor_lines[0].load_kn.unwrap() > floor);
        let props: f64 = option.floor_lines[0].props.iter().map(|prop| prop.load_kn).sum();
        assert!(
            props >= option.floor_lines[0].load_kn.unwrap() - 1e-6,
            "props carry at least what stands on the line"
        );
    }
}

#[test]
fn taking_a_floor_off_the_needles_moves_its_load_to_the_line_and_says_so() {
    let plain = size("internal_bearing_wall", &[]);
    let apart = size("internal_bearing_wall", &[("/above/0/floor/held_apart", json!(true))]);
    assert!(
        !plain.options.is_empty() && !apart.options.is_empty(),
        "{:?}",
        apart.reasons
    );
    assert!(
        plain.options[0]
            .floor_lines
            .iter()
            .all(|line| !line.needed && !line.why.is_empty())
    );
    assert!(
        apart.options[0]
            .floor_lines
            .iter()
            .all(|line| line.needed && line.stands())
    );
    // Joists run through: 1.25 × (3.2 / 2 + 3.2 / 2) × 2.5 kN/m² × 2.4 m by the three-moment equation.
    let floor = 1.25 * 3.2 * 2.5 * 2.4;
    for option in &apart.options {
        assert!((takes(option) - floor).abs() < 1e-6, "{}", takes(option));
        let total = apart.load.total_service_kn + takes(option);
        assert!((total - plain.load.total_service_kn).abs() < 1e-6, "{total}");
    }
    assert!(says(&apart, "held_apart", "rely"));
    assert!(
        plain.options.iter().all(|option| takes(option).abs() < 1e-12),
        "as a reserve it takes nothing"
    );
}

#[test]
fn no_floor_stays_without_an_entry() {
    for name in calc::example::names() {
        let job = calc::example::job(name).unwrap();
        let answer = calc::size_value(&job).unwrap();
        let mut spans = 0;
        for storey in job["above"].as_array().unwrap() {
            for key in ["inside_span_m", "outside_span_m"] {
                spans += usize::from(storey["floor"][key].as_f64().unwrap_or(0.0) > 0.0);
            }
        }
        for option in &answer.options {
            assert_eq!(option.floor_lines.len(), spans, "{name}");
            assert!(option.floor_lines.iter().all(|line| !line.why.is_empty()), "{name}");
        }
    }
}

#[test]
fn joists_along_the_wall_need_no_line_even_below_the_needles() {
    let answer = flush(&[
        ("/above/0/floor/direction", json!("along")),
        ("/answers/restraint", json!("strapped")),
    ]);
    assert!(!answer.options.is_empty(), "{:?}", answer.reasons);
    let line = &answer.options[0].floor_lines[0];
    assert!(!line.needed && line.why.contains("along the wall"), "{}", line.why);
}

#[test]
fn a_floor_too_heavy_for_its_line_does_not_hold_and_says_why() {
    let answer = flush(&[
        ("/above/0/floor/inside_span_m", json!(9.0)),
        ("/above/0/floor/imposed_kn_m2", json!(9.0)),
        ("/above/0/floor/dead_kn_m2", json!(4.0)),
    ]);
    assert_eq!(answer.standing, Standing::DoesNotHold);
    assert!(answer.options.is_empty() && answer.nearest.is_some());
    assert!(says(&answer, "floor_line", "joist"), "{:?}", answer.reasons);
}

#[test]
fn short_joists_are_tied_down_or_refused_never_silently() {
    let tied = flush(&[("/above/0/floor/inside_span_m", json!(2.0))]);
    assert!(!tied.options.is_empty(), "{:?}", tied.reasons);
    assert!(
        tied.options[0].floor_lines[0]
            .way
            .iter()
            .any(|line| line.contains("far bearing"))
    );
    for span in [0.75, 0.6] {
        let answer = flush(&[("/above/0/floor/inside_span_m", json!(span))]);
        assert_eq!(answer.standing, Standing::DoesNotHold, "{span}");
        assert!(says(&answer, "floor_line", "inside"), "{span}: {:?}", answer.reasons);
    }
}

#[test]
fn no_room_behind_the_needles_props_is_told() {
    let answer = flush(&[
        ("/sides/inside/room_m", json!(0.65)),
        ("/fix", json!({"inside_y_mm": 277.5 + 400.0})),
    ]);
    assert_eq!(answer.standing, Standing::DoesNotHold);
    assert!(says(&answer, "floor_line", "room"), "{:?}", answer.reasons);
}

#[test]
fn what_cannot_be_designed_is_refused_with_its_reason() {
    let concrete = flush(&[("/above/0/floor/beam_and_block", json!(true))]);
    assert_eq!(concrete.standing, Standing::DoesNotHold);
    assert!(says(&concrete, "floor_line", "concrete"), "{:?}", concrete.reasons);
    let shown = concrete.nearest.unwrap();
    assert!(shown.floor_lines[0].needed && shown.floor_lines[0].header.is_none() && !shown.floor_lines[0].stands());

    let both = size(
        "three_storey_terrace",
        &[
            ("/above/0/floor/held_apart", json!(true)),
            ("/above/1/floor/held_apart", json!(true)),
        ],
    );
    assert!(
        both.options.is_empty() && says(&both, "floor_line", "one above the other"),
        "{:?}",
        both.reasons
    );

    let roof = size("bungalow", &[("/opening/flush", json!(true))]);
    assert!(
        roof.options.is_empty() && says(&roof, "floor_line", "the roof"),
        "{:?}",
        roof.reasons
    );
}

#[test]
fn a_tie_that_the_opening_cuts_does_not_count() {
    // Nothing but the floor that bears beside the new beam ties this wall.
    let answer = size("internal_bearing_wall", &[("/opening/flush", json!(true))]);
    assert_eq!(answer.standing, Standing::NeedsOwnDesign);
    assert!(
        answer.options.is_empty() && says(&answer, "restraint", "cut from the wall"),
        "{:?}",
        answer.reasons
    );
}

#[test]
fn a_line_upstairs_is_carried_down_and_counted() {
    // Firmer ground and stronger bricks than the ready house has, so that nothing but the line is at stake.
    let answer = size(
        "three_storey_terrace",
        &[
            ("/above/1/floor/held_apart", json!(true)),
            ("/wall/leaves/0/unit_n_mm2", json!(20)),
            ("/wall/leaves/0/mortar", json!("cement")),
            ("/sides/outside/foot/ground", json!("stiff_clay")),
        ],
    );
    assert!(!answer.options.is_empty(), "{:?}", answer.reasons);
    let line = answer.options[0]
        .floor_lines
        .iter()
        .find(|line| line.floor == 2)
        .unwrap();
    assert!(line.needed && line.stands());
    assert_eq!(line.props.len(), 2 * line.feet.len(), "two levels");
    assert!(line.why.contains("2 levels"), "{}", line.why);
    let on = |level: &str| {
        line.props
            .iter()
            .filter(|prop| prop.name.ends_with(level))
            .map(|prop| prop.load_kn)
            .sum::<f64>()
    };
    assert!(
        on("level 0") > on("level 1"),
        "the lower stage carries the upper one too"
    );
    assert!(line.checks.iter().any(|check| check.name == "packing_bearing"));
}

#[test]
fn a_prop_that_is_missing_is_told_with_its_missing_length() {
    let answer = flush(&[("/props", json!([{"name": "short", "data": "tn79", "size": 0}]))]);
    assert_eq!(answer.standing, Standing::DoesNotHold);
    // Size 0 draws out to 1.82 m, 1.77 m with 50 mm kept.
    assert!(says(&answer, "no_prop_long_enough", "1.77 m"), "{:?}", answer.reasons);
}

#[test]
fn a_floor_on_its_own_line_no_longer_rests_between_needles() {
    // Joists 50 mm over a beam that leaves no height: only their own line helps.
    let low = [
        ("/above/0/floor/bearing_m", json!(2.45)),
        ("/roof/bearing_m", Value::Null),
    ];
    let without = size("two_storey_cavity", &low);
    assert!(
        without.options.is_empty() && says(&without, "arch_loose", ""),
        "{:?}",
        without.reasons
    );
    let mut with = low.to_vec();
    with.push(("/above/0/floor/held_apart", json!(true)));
    let with = size("two_storey_cavity", &with);
    assert!(!with.options.is_empty(), "{:?}", with.reasons);
}

/// The old manual's plan: 100 × 100 needles at 600 mm, a 100 × 100 runner, props at 1.2 m (SITUATIONS 02). The needle fails,
/// and the props carry two needles each.
#[test]
fn the_old_manuals_plan_with_a_runner_is_judged() {
    let axes: Vec<f64> = (0..4).map(|k| 0.3 + 0.6 * f64::from(k)).collect();
    let plan = |section: &str| {
        json!({"kind": "needles", "needles_x_m": axes, "section": section,
            "runner": {"section": "C24 100x100", "spacing_m": 1.2}})
    };
    let answer = size("internal_bearing_wall", &[("/builders_plan", plan("C24 100x100"))]);
    let verdict = answer.builders_plan.unwrap();
    assert_eq!(verdict.standing, Standing::DoesNotHold, "{}", verdict.words);
    assert!(verdict.words.contains("timber"), "{}", verdict.words);
    let of = |name: &str| verdict.checks.iter().filter(|check| check.name == name).count();
    assert!(of("runner_bending") > 0 && of("runner_bearing") > 0);
    assert!(
        verdict
            .checks
            .iter()
            .filter(|check| check.name == "prop")
            .all(|check| check.at.starts_with("R-"))
    );
    // The props under the runner carry all needles of their side.
    let needles: f64 = answer.options[0].needles.iter().map(|needle| needle.lever_kn).sum();
    let props: f64 = verdict
        .checks
        .iter()
        .filter(|check| check.name == "prop")
        .map(|check| check.demand)
        .sum();
    assert!(props > needles, "{props} of {needles}");
    let missing = size(
        "internal_bearing_wall",
        &[(
            "/builders_plan",
            json!({"kind": "needles", "needles_x_m": axes, "runner": {"section": "C24 100x100"}}),
        )],
    );
    assert!(missing.builders_plan.unwrap().words.contains("spacing"));
}

#[test]
fn brief_and_sketch_name_the_line() {
    let job = house("two_storey_cavity", &[("/opening/flush", json!(true))]);
    let answer = calc::size_value(&job).unwrap();
    let (typed, _) = calc::Job::from_value(&job).unwrap();
    let brief = calc::brief::brief(&typed, &answer).unwrap();
    let lines: Vec<&String> = brief.sections.iter().flat_map(|section| &section.lines).collect();
    assert!(lines.iter().any(|line| line.contains("its own line: header")));
    let svg = calc::sketch::side(&typed, &answer.options[0]);
    assert!(svg.contains("F1-in"), "the header's line stands in the section");
}

/// A restraint that the opening cuts does not count: straps to joists that run along the wall go with it too.
#[test]
fn straps_to_joists_along_the_wall_are_cut_with_it() {
    let along = [
        ("/above/0/floor/direction", json!("along")),
        ("/answers/restraint", json!("strapped")),
    ];
    assert!(says(&flush(&along), "floor_tie_cut", "next floor or roof"));
    let mut alone = along.to_vec();
    alone.push(("/roof/bears", json!(false)));
    let alone = flush(&alone);
    assert_eq!(alone.refusal, Some(RefusalKind::NoModel), "{:?}", alone.reasons);
    assert!(alone.options.is_empty() && says(&alone, "restraint", "nothing else above ties it"));
    // Under joists above the needles the straps stay.
    let above = size("two_storey_cavity", &along);
    assert!(
        !above.options.is_empty() && !says(&above, "floor_tie_cut", ""),
        "{:?}",
        above.reasons
    );
}
