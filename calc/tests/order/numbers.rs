//! Numbers of the steps are those of the option shown first.

use super::{buildable, coded, figures, has, house, one, order_for, sized};
use calc::geometry::Geometry;
use calc::order::sequence::{beside, sequence};
use calc::proposal::FloorLine;
use calc::{Job, size_value};
use serde_json::{Value, json};

#[test]
fn numbers_of_the_steps_are_those_of_the_option_shown_first() {
    for (name, job, found) in buildable() {
        let (option, steps) = (&found.options[0], &found.order);
        let set_out: String = coded(steps, "set_out").iter().map(|step| step.words.as_str()).collect();
        let each = coded(steps, "needle");
        assert_eq!(each.len(), option.needles.len(), "{name}");
        for needle in &option.needles {
            assert!(set_out.contains(&format!("{} ", needle.name)), "{name}: {set_out}");
            has(&set_out, needle.x_m, 0.0005);
            let step = each
                .iter()
                .find(|step| step.words.contains(&format!(": {} at", needle.name)))
                .unwrap();
            assert!(step.stop, "{name}");
            has(&step.words, needle.x_m, 0.0005);
            has(&step.words, needle.load_kn, 0.05);
            // kN to kg at 9.81 m/s², rounded up to ten.
            has(&step.words, needle.load_kn * 1000.0 / 9.81 + 5.0, 5.0);
            for prop in option.props.iter().filter(|prop| prop.needle == needle.name) {
                assert!(step.words.contains(&prop.name), "{name}: {}", step.words);
                has(&step.words, prop.length_m, 0.0005);
                has(one(steps, "props"), prop.length_m, 0.0005);
            }
        }
        has(&set_out, option.needle_soffit_m, 0.0005);
        has(one(steps, "permit_to_load"), option.bracing.v_kn, 0.05);
        has(one(steps, "braces"), option.bracing.demand_along_kn, 0.05);
        has(one(steps, "braces"), option.bracing.demand_across_kn, 0.05);
        has(one(steps, "parts"), option.needles.len() as f64 + 1.0, 0.0);
        has(one(steps, "parts"), option.props.len() as f64 + 1.0, 0.0);
        let boards: String = coded(steps, "boards").iter().map(|step| step.words.as_str()).collect();
        for foot in &option.feet {
            for side in foot.board_mm {
                has(&boards, side, 0.5);
            }
        }
        // Never more turns than the option asks: too much lifts the wall.
        if option.movement.turns >= 0.1 {
            let turns = figures(one(steps, "tighten"))[0];
            assert!(
                turns <= option.movement.turns + 1e-9 && turns > option.movement.turns - 0.1,
                "{name}: {turns}"
            );
        }
        // A needle's hole is its nominal size, as its name gives it, and 75 mm; open sections differ a little from their names.
        let section = &option.needles[0].section;
        let nominal = figures(section.trim_start_matches(|c: char| c.is_ascii_alphabetic()));
        for side in [nominal[0], nominal[1]] {
            has(
                one(steps, "hole"),
                side + 75.0,
                if section.starts_with('U') { 6.0 } else { 0.5 },
            );
        }
        if option.needles[0].pack_mm > 0.0 {
            has(one(steps, "packing"), option.needles[0].pack_mm, 0.5);
        }
        let width_m = job["opening"]["width_m"].as_f64().unwrap();
        has(one(steps, "rest_of_opening"), width_m, 0.0005);
    }
}

#[test]
fn loose_triangles_are_half_the_clear_gap_high() {
    let found = sized(&house("two_storey_cavity"));
    let needles = &found.options[0].needles;
    let words = one(&found.order, "loose_triangles");
    // UB127x76x13: 76.0 mm wide (EN 10365).
    assert!(needles[0].section.starts_with("UB127x76x13"), "{}", needles[0].section);
    for pair in needles.windows(2) {
        let gap_m = pair[1].x_m - pair[0].x_m - 0.076;
        assert!(
            words.contains(&format!("{} to {}", pair[0].name, pair[1].name)),
            "{words}"
        );
        has(words, gap_m / 2.0, 0.0005);
    }
    has(words, (needles[0].x_m - 0.038) / 2.0, 0.0005);
    has(words, (2.7 - needles[needles.len() - 1].x_m - 0.038) / 2.0, 0.0005);
}

#[test]
fn holes_go_from_the_ends_inwards_and_never_to_a_neighbour_where_that_can_be() {
    assert_eq!(sequence(0), Vec::<usize>::new());
    assert_eq!(sequence(1), [0]);
    assert_eq!(sequence(2), [0, 1]);
    assert_eq!(sequence(3), [0, 2, 1]);
    for count in 4..=40 {
        let order = sequence(count);
        let mut sorted = order.clone();
        sorted.sort_unstable();
        assert_eq!(sorted, (0..count).collect::<Vec<_>>(), "each hole once");
        assert!(
            !order.windows(2).any(|pair| beside(pair[0], pair[1])),
            "{count}: {order:?}"
        );
        let end = |place: usize| place == 0 || place + 1 == count;
        assert!(count == 4 || end(order[0]), "{count}: {order:?}");
        assert!(!end(order[count - 1]), "{count}: {order:?}");
        let rank =
            |places: &[usize]| places.iter().map(|p| (*p).min(count - 1 - p) as f64).sum::<f64>() / places.len() as f64;
        let (first, last) = order.split_at(count / 2);
        assert!(rank(first) <= rank(last), "{count}: {order:?}");
    }
    for (name, _, found) in buildable() {
        let needles = &found.options[0].needles;
        let expected: Vec<&str> = sequence(needles.len())
            .iter()
            .map(|i| needles[*i].name.as_str())
            .collect();
        let words = one(&found.order, "sequence");
        assert!(words.contains(&expected.join(", ")), "{name}: {words}");
        let steps = coded(&found.order, "needle");
        for (step, needle) in steps.iter().zip(&expected) {
            assert!(step.words.contains(&format!(": {needle} at")), "{name}: {}", step.words);
        }
        if matches!(needles.len(), 2 | 3) {
            assert!(
                words.contains("packed") && words.contains("before the next hole"),
                "{words}"
            );
        }
    }
}

#[test]
fn a_heavy_beam_is_lifted_by_machine() {
    // jlg-photography.co.uk, week 8 day 4: 350 kg by four people is 88 kg each.
    let mut job = house("two_storey_cavity");
    job["opening"]["beam"] = json!({"name": null, "mass_kg_m": 70, "length_m": 5.0});
    let words = one(&sized(&job).order, "beam_on_site").to_owned();
    for text in ["350 kg", "By four 88 kg", "a lift, not shoulders"] {
        assert!(words.contains(text), "{text}: {words}");
    }
    // UC152x152x23: 23.0 kg/m (EN 10365), 3 m: 69 kg, 152.2 mm wide.
    job["opening"]["beam"] = json!({"name": "UC152x152x23 S275", "length_m": 3.0});
    let found = sized(&job);
    assert!(
        one(&found.order, "beam_on_site").contains("= 69 kg"),
        "{}",
        one(&found.order, "beam_on_site")
    );
    assert!(one(&found.order, "path").contains("152 mm wide"));
    // HSE filter: 25 kg at the waist for one.
    job["opening"]["beam"] = json!({"mass_kg_m": 10, "length_m": 2.5});
    assert!(one(&sized(&job).order, "beam_on_site").contains("One can lift it"));
    job["opening"]["beam"] = Value::Null;
    assert!(one(&sized(&job).order, "beam_on_site").contains("Ask: section, kg per m, length"));
    job["opening"]["beam"] = json!({"weight": 3});
    assert!(size_value(&job).is_err(), "an unknown key is an error");
}

#[test]
fn the_way_in_is_what_the_props_leave() {
    for (name, job, found) in buildable() {
        let (parsed, mut assumptions) = Job::from_value(&job).unwrap();
        let thickness_mm = Geometry::of(&parsed, &mut assumptions).thickness_mm;
        let needle = &found.options[0].needles[0];
        // House types have more room, or as much, inside.
        let clear = needle.inside_y_mm - thickness_mm - 40.0;
        has(one(&found.order, "path"), clear, 0.5);
        assert!(clear >= parsed.opening.beam_depth_mm.min(254.0), "{name}");
    }
}

#[test]
fn the_wall_plate_case_takes_loose_courses_down() {
    let mut job = house("bungalow");
    job["roof"]["bearing_m"] = json!(2.45);
    let found = sized(&job);
    let option = &found.options[0];
    assert!(option.checks.iter().any(|check| check.name == "plate_bending"));
    has(
        one(&found.order, "plate_courses"),
        (2.45 - option.needle_top_m) * 1000.0,
        0.5,
    );
    assert!(coded(&found.order, "loose_triangles").is_empty());
    assert!(coded(&sized(&house("bungalow")).order, "plate_courses").is_empty());
}

#[test]
fn openings_near_the_cut_are_strutted_first() {
    let mut job = house("two_storey_cavity");
    let words = one(&sized(&job).order, "openings_strutted").to_owned();
    has(&words, 0.6, 0.0005);
    has(&words, 1.2, 0.0005);
    job["above"][0]["openings"] = json!([]);
    assert!(coded(&sized(&job).order, "openings_strutted").is_empty());
}

#[test]
fn a_long_stand_says_what_it_costs() {
    let mut job = house("two_storey_cavity");
    job["site"]["days"] = json!(28);
    assert!(coded(&sized(&job).order, "long_standing").is_empty());
    job["site"]["days"] = json!(60);
    job["catalogue"]["rates"] = json!({"needle": 6, "prop": 5, "board": 1});
    let found = sized(&job);
    let option = &found.options[0];
    let (needles, props) = (option.needles.len() as f64, option.props.len() as f64);
    // 60 days are 9 weeks begun; one needle and one prop are spare.
    let week = 6.0 * (needles + 1.0) + 5.0 * (props + 1.0) + option.feet.len() as f64;
    has(one(&found.order, "long_standing"), week, 0.0);
    has(one(&found.order, "long_standing"), 9.0 * week, 0.0);
}

#[test]
fn a_floor_on_its_own_line_is_first_in_and_last_out() {
    let job = house("two_storey_cavity");
    let mut option = sized(&job).options[0].clone();
    let mut prop = option.props[0].clone();
    (prop.name, prop.length_m, prop.load_kn) = ("F1-1".to_owned(), 2.411, 7.3);
    option.floor_lines = vec![FloorLine {
        floor: 1,
        side: "inside".to_owned(),
        needed: true,
        why: "the joists bear below the needles".to_owned(),
        header: Some("C24 100x200".to_owned()),
        props: vec![prop],
        ..FloorLine::default()
    }];
    let steps = order_for(&job, &option);
    let at = |code: &str| steps.iter().position(|step| step.code == code).unwrap();
    assert!(at("floor_line") < at("needle"));
    assert!(at("floors_out") > at("needles_out"));
    let words = one(&steps, "floor_line");
    for text in ["F1-1", "C24 100x200", "2.411 m", "7.3 kN"] {
        assert!(words.contains(text), "{text}: {words}");
    }
    option.floor_lines[0].needed = false;
    assert!(coded(&order_for(&job, &option), "floor_line").is_empty());
}

#[test]
fn brackets_have_a_short_order_of_their_own() {
    let job = house("bungalow");
    let mut option = sized(&job).options[0].clone();
    option.kind = "brackets".to_owned();
    option.needles.clear();
    option.props.retain(|prop| prop.side == "inside");
    let steps = order_for(&job, &option);
    assert!(coded(&steps, "needle").is_empty());
    let each = coded(&steps, "bracket");
    assert_eq!(each.len(), option.props.len());
    for prop in &option.props {
        let step = each.iter().find(|step| step.words.contains(&prop.name)).unwrap();
        has(&step.words, prop.length_m, 0.0005);
        has(&step.words, prop.load_kn, 0.05);
    }
    for code in ["permit_to_load", "before_night", "permit_to_take_out", "authority"] {
        assert!(coded(&steps, code)[0].stop, "{code}");
    }
    assert!(steps.iter().all(|step| step.words.chars().count() <= 220));
}
