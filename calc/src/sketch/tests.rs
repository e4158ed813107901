//! What every sketch must be: well-formed, in words, to scale, without words over words, and deaf to hostile text.
#![expect(clippy::unwrap_used, reason = "a test may stop where it fails")]

use super::{WIDTH, front, plan, side, stack};
use crate::job::Job;
use crate::proposal::{Bracing, BracketProp, Foot, Load, LoadPart, Movement, Needle, Opt, Profile, Prop, Standing};
use roxmltree::Document;
use serde_json::json;

/// An invented job: one storey, two windows, a pier between them.
fn job(width_m: f64) -> Job {
    let leaf =
        |material: &str, thickness: f64| json!({"material": material, "thickness_mm": thickness, "mortar": "cement"});
    let value = json!({
        "contract": 1, "country": "england",
        "opening": {"width_m": width_m, "head_m": 2.0, "left_masonry_m": 0.9, "right_masonry_m": 1.2, "beam_depth_mm": 203, "flush": false},
        "wall": {"leaves": [leaf("clay_brick", 102.5), leaf("dense_block", 100.0)], "cavity_mm": 75, "condition": "sound"},
        "above": [{"height_m": 2.6,
            "openings": [{"x_m": 0.3, "sill_m": 0.9, "width_m": 0.9, "height_m": 1.1}, {"x_m": 1.6, "sill_m": 0.9, "width_m": 0.6, "height_m": 1.1}],
            "floor": {"leaf": "inner", "inside_span_m": 4.0, "direction": "onto", "bearing_m": 2.75}}],
        "roof": {"kind": "trusses", "leaf": "inner", "span_m": 7.2, "pitch_deg": 35},
        "sides": {
            "inside": {"foot_level_m": 0.0, "room_m": 3.0, "foot": {"kind": "slab_on_ground", "thickness_mm": 100, "ground": "firm_clay", "fixed": true}},
            "outside": {"foot_level_m": -0.15, "room_m": 2.0, "foot": {"kind": "ground", "ground": "firm_clay", "fixed": true}}},
        "forbidden": [{"from_m": 1.62, "to_m": 1.78, "why": "soil pipe"}],
        "points": [{"x_m": 1.4, "level": 1, "leaf": "inner", "dead_kn": 6.0, "imposed_kn": 3.0, "what": "purlin post"}]
    });
    Job::from_value(&value).unwrap().0
}

fn option(places: &[f64]) -> Opt {
    let needles: Vec<Needle> = places
        .iter()
        .zip(1..)
        .map(|(x_m, number)| Needle {
            name: format!("N{number}"),
            x_m: *x_m,
            section: "UB152x89x16 S275".to_owned(),
            inside_y_mm: 728.0,
            outside_y_mm: -450.0,
            span_m: 1.178,
            pack_mm: 10.0,
            lever_kn: 20.0,
            continuous_kn: 21.0,
            load_kn: 21.0,
        })
        .collect();
    let prop = |needle: &Needle, side: &str, short: &str, length_m: f64| Prop {
        name: format!("{}-{short}", needle.name),
        needle: needle.name.clone(),
        side: side.to_owned(),
        kind: "tn79".to_owned(),
        size: "2".to_owned(),
        length_m,
        load_kn: 11.0,
        working_load_kn: 17.0,
        kappa: 0.7,
        utilisation: 0.65,
        bracket: None,
    };
    let props: Vec<Prop> = needles
        .iter()
        .flat_map(|needle| {
            [
                prop(needle, "inside", "in", 2.215),
                prop(needle, "outside", "out", 2.365),
            ]
        })
        .collect();
    let feet = props
        .iter()
        .map(|prop| Foot {
            prop: prop.name.clone(),
            board_mm: [450.0, 225.0, 38.0],
            under_board_kpa: 70.0,
            under_slab_kpa: None,
            allowed_kpa: 75.0,
            utilisation: 0.93,
        })
        .collect();
    Opt {
        kind: "needles".to_owned(),
        by: "tool".to_owned(),
        aim: "fewest".to_owned(),
        objective: 1.0,
        standing: Standing::Close,
        worst_utilisation: 0.93,
        governs: "ground".to_owned(),
        needle_soffit_m: 2.253,
        needle_top_m: 2.405,
        spacing_m: 0.9,
        needles,
        props,
        feet,
        bracing: Bracing {
            way: vec!["lacing and diagonals".to_owned()],
            ..Bracing::default()
        },
        floor_lines: Vec::new(),
        parts: Vec::new(),
        checks: Vec::new(),
        one_lost: Vec::new(),
        movement: Movement::default(),
    }
}

/// The same places on brackets, one line a leaf: props 150 mm from the wall's faces, as it would be proposed.
fn on_brackets(places: &[f64]) -> Opt {
    let mut out = option(places);
    let mut props = Vec::new();
    for needle in out.needles.drain(..) {
        for (side, short, leaf, y_mm) in [("outside", "out", "outer", -150.0), ("inside", "in", "inner", 428.0)] {
            let prop = out
                .props
                .iter()
                .find(|prop| prop.needle == needle.name && prop.side == side);
            let mut prop = prop.unwrap().clone();
            prop.name = format!("{}-{short}", needle.name.replace('N', "B"));
            prop.needle = String::new();
            prop.bracket = Some(BracketProp {
                x_m: needle.x_m,
                y_mm,
                leaf: leaf.to_owned(),
                arm_mm: 200.0,
                rated_kn: 15.0,
            });
            props.push(prop);
        }
    }
    for (foot, prop) in out.feet.iter_mut().zip(&props) {
        foot.prop.clone_from(&prop.name);
    }
    out.kind = "brackets".to_owned();
    out.props = props;
    out.needle_top_m = out.needle_soffit_m;
    out
}

fn load(x_m: &[f64], g_kn_m: &[f64]) -> Load {
    Load {
        total_service_kn: 70.0,
        total_strength_kn: 98.0,
        mean_service_kn_m: 22.6,
        largest_service_kn_m: 38.2,
        parts: vec![LoadPart {
            what: "wall".to_owned(),
            dead_kn: 40.0,
            imposed_kn: 0.0,
        }],
        pieces: Vec::new(),
        profile: Profile {
            x_m: x_m.to_vec(),
            g_kn_m: g_kn_m.to_vec(),
            q_kn_m: g_kn_m.iter().map(|_| 4.0).collect(),
        },
    }
}

fn sketches(job: &Job, option: &Opt, load: &Load) -> [String; 4] {
    [
        stack(job, load),
        front(job, option),
        side(job, option),
        plan(job, option),
    ]
}

fn usual() -> [String; 4] {
    let load = load(&[0.0, 0.3, 1.2, 1.6, 2.2, 2.7], &[11.0, 7.0, 34.2, 7.0, 11.0]);
    sketches(&job(2.7), &option(&[0.3, 0.9, 1.4, 2.0, 2.4]), &load)
}

/// Left, top, right, bottom of each text by an estimate of its own: 0.58 of the size a letter.
fn boxes(document: &Document<'_>) -> Vec<(f64, f64, f64, f64, String)> {
    let texts = document.descendants().filter(|node| node.has_tag_name("text"));
    texts
        .map(|node| {
            let number = |name: &str| node.attribute(name).unwrap().parse::<f64>().unwrap();
            let words = node.text().unwrap_or_default();
            let (x, y, size) = (number("x"), number("y"), number("font-size"));
            let letters = words.chars().fold(0.0, |sum, _| sum + 1.0);
            let wide = letters * size * 0.58;
            let left = match node.attribute("text-anchor").unwrap() {
                "middle" => x - wide / 2.0,
                "end" => x - wide,
                _ => x,
            };
            (left, y - size * 0.72, left + wide, y + size * 0.2, words.to_owned())
        })
        .collect()
}

#[test]
fn each_is_well_formed_and_says_in_words_what_it_shows() {
    for svg in usual() {
        let document = Document::parse(&svg).unwrap();
        let root = document.root_element();
        assert_eq!(root.attribute("role"), Some("img"));
        let label = root.attribute("aria-label").unwrap();
        assert!(label.len() > 40 && label.ends_with('.'), "{label}");
        let view: Vec<f64> = root
            .attribute("viewBox")
            .unwrap()
            .split(' ')
            .map(|n| n.parse().unwrap())
            .collect();
        let [_, _, width, height] = view[..] else {
            panic!("viewBox of {} numbers", view.len())
        };
        assert!(
            (width - WIDTH).abs() < 1e-9 && height > 100.0 && height < 520.0,
            "{width} × {height}"
        );
    }
}

#[test]
fn each_element_carries_class_and_look() {
    for svg in usual() {
        let document = Document::parse(&svg).unwrap();
        let drawn = document
            .descendants()
            .filter(|node| node.has_tag_name("path") || node.has_tag_name("text"));
        for node in drawn {
            assert!(
                node.attribute("class").is_some() && node.attribute("fill").is_some(),
                "{node:?}"
            );
            assert!(node.attribute("style").is_none());
        }
    }
}

#[test]
fn every_needle_stands_in_the_front_and_both_props_in_the_side() {
    let [_, front, side, plan] = usual();
    let words = |svg: &str| -> Vec<String> {
        boxes(&Document::parse(svg).unwrap())
            .into_iter()
            .map(|text| text.4)
            .collect()
    };
    let (front, side, plan) = (words(&front), words(&side), words(&plan));
    for name in ["N1", "N2", "N3", "N4", "N5"] {
        assert!(front.iter().any(|word| word == name), "{name} in {front:?}");
    }
    for words in ["N1", "N1-in", "N1-out", "2215", "2365", "450", "278"] {
        assert!(side.iter().any(|word| word == words), "{words} in {side:?}");
    }
    // 728 mm inside of the outer face is 450.5 mm from the inner face of a wall 277.5 mm thick.
    for words in ["N1-in", "N5-out", "N3", "450", "278"] {
        assert!(plan.iter().any(|word| word == words), "{words} in {plan:?}");
    }
}

/// Centre of what a part is drawn as, from all numbers of its first path.
fn centre(document: &Document<'_>, part: &str, class: &str) -> (f64, f64) {
    let group = document
        .descendants()
        .find(|node| node.attribute("data-part") == Some(part))
        .unwrap();
    let path = group
        .descendants()
        .find(|node| node.attribute("class") == Some(class))
        .unwrap();
    let numbers: Vec<f64> = path
        .attribute("d")
        .unwrap()
        .split(|sign: char| sign.is_ascii_alphabetic() || sign == ' ')
        .filter_map(|number| number.parse().ok())
        .collect();
    let middle = |from: usize| {
        let of: Vec<f64> = numbers.iter().skip(from).step_by(2).copied().collect();
        let low = of.iter().copied().fold(f64::INFINITY, f64::min);
        f64::midpoint(low, of.iter().copied().fold(f64::NEG_INFINITY, f64::max))
    };
    (middle(0), middle(1))
}

#[test]
fn a_touch_can_be_turned_into_a_length_and_a_part() {
    let places = [0.3, 0.9, 2.4];
    let [_, front, _, plan] = sketches(&job(2.7), &option(&places), &load(&[0.0, 2.7], &[12.0]));
    for svg in [front, plan] {
        let document = Document::parse(&svg).unwrap();
        let root = document.root_element();
        let number = |name: &str| root.attribute(name).unwrap().parse::<f64>().unwrap();
        let (zero, unit) = (number("data-zero"), number("data-unit"));
        for (name, x_m) in ["N1", "N2", "N3"].iter().zip(places) {
            let (x, _) = centre(&document, name, "steel");
            assert!(((x - zero) / unit - x_m).abs() < 0.002, "{name}: {x}, {zero}, {unit}");
        }
    }
}

#[test]
fn the_plan_is_to_scale_both_ways() {
    let [.., plan] = sketches(&job(2.7), &option(&[0.3, 0.9, 2.4]), &load(&[0.0, 2.7], &[12.0]));
    let document = Document::parse(&plan).unwrap();
    let unit: f64 = document.root_element().attribute("data-unit").unwrap().parse().unwrap();
    let (x_in, y_in) = centre(&document, "N1-in", "steel");
    let (x_out, y_out) = centre(&document, "N1-out", "steel");
    let (x_next, _) = centre(&document, "N2-in", "steel");
    // Axes of the props at 728 and −450 mm, needles 600 mm apart, outside at the top.
    assert!(((y_in - y_out) / unit - 1.178).abs() < 0.002, "{y_in} {y_out}");
    assert!((x_in - x_out).abs() < 1e-6 && ((x_next - x_in) / unit - 0.6).abs() < 0.002);
}

#[test]
fn the_weight_shows_its_largest_figure_and_every_level_that_fits() {
    let [stack, ..] = usual();
    let words: Vec<String> = boxes(&Document::parse(&stack).unwrap())
        .into_iter()
        .map(|text| text.4)
        .collect();
    for figure in ["38", "15", "11"] {
        assert!(words.iter().any(|word| word == figure), "{figure} in {words:?}");
    }
}

#[test]
fn no_words_lie_over_words_or_leave_the_sheet() {
    let many: Vec<f64> = (0..14).map(|n| 0.2 + 0.3 * f64::from(n)).collect();
    let steps: Vec<f64> = (0..40).map(|n| 0.1 * f64::from(n)).collect();
    let values: Vec<f64> = (0..39).map(|n| 10.0 + 3.0 * f64::from(n % 5)).collect();
    let crowded = sketches(&job(4.4), &option(&many), &load(&steps, &values));
    let narrow = sketches(&job(0.6), &option(&[0.1, 0.2, 0.3, 0.5]), &load(&[0.0, 0.6], &[12.0]));
    let brackets = sketches(
        &job(2.7),
        &on_brackets(&[0.3, 0.9, 1.4, 2.0, 2.4]),
        &load(&[0.0, 2.7], &[12.0]),
    );
    let alone = sketches(&job(0.9), &on_brackets(&[0.45]), &load(&[0.0, 0.9], &[12.0]));
    for svg in usual()
        .into_iter()
        .chain(crowded)
        .chain(narrow)
        .chain(brackets)
        .chain(alone)
    {
        let document = Document::parse(&svg).unwrap();
        let texts = boxes(&document);
        for (index, one) in texts.iter().enumerate() {
            assert!(one.0 > -1.0 && one.2 < WIDTH + 1.0, "{} leaves the sheet", one.4);
            for other in texts.iter().skip(index + 1) {
                let apart = one.2 <= other.0 || other.2 <= one.0 || one.3 <= other.1 || other.3 <= one.1;
                assert!(apart, "{} lies over {}", one.4, other.4);
            }
        }
    }
}

#[test]
fn brackets_are_drawn_where_they_stand() {
    let places = [0.3, 0.9, 1.4, 2.0, 2.4];
    let [_, front, side, _] = sketches(&job(2.7), &on_brackets(&places), &load(&[0.0, 2.7], &[12.0]));
    let document = Document::parse(&front).unwrap();
    let words: Vec<String> = boxes(&document).into_iter().map(|text| text.4).collect();
    for name in ["B1", "B2", "B3", "B4", "B5", "900", "2400"] {
        assert!(words.iter().any(|word| word == name), "{name} in {words:?}");
    }
    let label = |svg: &str| {
        let document = Document::parse(svg).unwrap();
        document.root_element().attribute("aria-label").unwrap().to_owned()
    };
    assert!(
        label(&front).contains("B5 at 2400 mm") && label(&front).contains("10 props"),
        "{}",
        label(&front)
    );
    assert!(
        label(&side).contains("brackets B1") && !label(&side).contains("needle"),
        "{}",
        label(&side)
    );
    let document = Document::parse(&side).unwrap();
    let words: Vec<String> = boxes(&document).into_iter().map(|text| text.4).collect();
    for name in ["B1-in", "B1-out", "2215", "2365", "150"] {
        assert!(words.iter().any(|word| word == name), "{name} in {words:?}");
    }
    let mut inside = on_brackets(&places);
    inside.props.retain(|prop| prop.side == "inside");
    let [_, _, side_alone, _] = sketches(&job(2.7), &inside, &load(&[0.0, 2.7], &[12.0]));
    let alone: Vec<String> = boxes(&Document::parse(&side_alone).unwrap())
        .into_iter()
        .map(|text| text.4)
        .collect();
    assert!(!alone.iter().any(|word| word == "450" || word == "B1-out"), "{alone:?}");
    // Props that stand beside the wall, a bracket each.
    assert_eq!(
        document
            .descendants()
            .filter(|node| node.attribute("class") == Some("steel"))
            .count(),
        2
    );
}

#[test]
fn distances_are_to_scale() {
    let svg = front(&job(2.7), &option(&[0.3, 0.9, 2.4]));
    let document = Document::parse(&svg).unwrap();
    let centres: Vec<f64> = document
        .descendants()
        .filter(|node| node.attribute("class") == Some("steel"))
        .map(|node| {
            let numbers: Vec<f64> = node
                .attribute("d")
                .unwrap()
                .split(|c: char| c.is_ascii_alphabetic())
                .filter_map(|pair| pair.split(' ').next()?.parse().ok())
                .collect();
            let low = numbers.iter().copied().fold(f64::INFINITY, f64::min);
            let high = numbers.iter().copied().fold(f64::NEG_INFINITY, f64::max);
            f64::midpoint(low, high)
        })
        .collect();
    let [first, second, third] = centres[..] else {
        panic!("{} needles drawn", centres.len())
    };
    let share = (second - first) / (third - first);
    assert!((share - 0.6 / 2.1).abs() < 0.002, "{share}");
}

#[test]
fn hostile_text_stays_text() {
    let nasty = "</text><script>x</script>\"'&\u{0}\u{1b}";
    let mut job = job(2.7);
    job.forbidden.first_mut().unwrap().why = nasty.to_owned();
    job.points.first_mut().unwrap().what = nasty.to_owned();
    let mut option = option(&[0.45, 1.35, 2.25]);
    option.needles.first_mut().unwrap().name = nasty.to_owned();
    for prop in &mut option.props {
        prop.name = nasty.to_owned();
    }
    for svg in sketches(&job, &option, &load(&[0.0, 2.7], &[12.0])) {
        let document = Document::parse(&svg).unwrap();
        assert!(
            document
                .descendants()
                .filter(roxmltree::Node::is_element)
                .all(|node| ["svg", "g", "path", "text"].contains(&node.tag_name().name()))
        );
    }
}

#[test]
fn odd_figures_still_give_a_sketch() {
    for odd in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, -1e300, 0.0, 1e300] {
        let mut option = option(&[odd, 1.0]);
        option.needle_soffit_m = odd;
        for needle in &mut option.needles {
            needle.inside_y_mm = odd;
            needle.pack_mm = odd;
        }
        for svg in sketches(&job(2.7), &option, &load(&[0.0, odd, 2.7], &[odd, 12.0])) {
            assert!(!svg.contains("NaN") && !svg.contains("inf"), "{odd}");
            Document::parse(&svg).unwrap();
        }
        let mut brackets = on_brackets(&[odd, 1.0]);
        for bracket in brackets.props.iter_mut().filter_map(|prop| prop.bracket.as_mut()) {
            bracket.y_mm = odd;
        }
        for svg in sketches(&job(2.7), &brackets, &load(&[0.0, 2.7], &[12.0])) {
            assert!(!svg.contains("NaN") && !svg.contains("inf"), "{odd}");
            Document::parse(&svg).unwrap();
        }
    }
    let mut none = option(&[]);
    none.props.clear();
    for svg in sketches(&job(2.7), &none, &load(&[], &[])) {
        Document::parse(&svg).unwrap();
    }
}
