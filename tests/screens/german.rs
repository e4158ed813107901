//! The second language: as much of it as of the first, sentences of the calculation too, and pages that hold longer words.

use crate::bench::play;
use crate::jobs;
use crate::view::{LARGE_TEXT, PHONE, SMALL};
use crate::wall_photo::{TAPED_MM, see};
use serde_json::{Value, json};

/// What German lacks beside English, and which sentences of these answers have no German.
const HEAR: &str = include_str!("german.js");

/// Each how many-th of the recomputed jobs is listened to.
const EACH: usize = 160;

#[test]
fn german_says_all_that_english_says() {
    play("german_says_all_that_english_says", PHONE, |bench| {
        bench.go("");
        let houses = calc::example::names()
            .iter()
            .map(|name| calc::example::job(name).unwrap());
        let many = include_str!("../second_opinion/jobs.jsonl").lines().step_by(EACH);
        let jobs = houses.chain(many.map(|line| serde_json::from_str(line).unwrap()));
        let answers: Vec<Value> = jobs
            .filter_map(|job| calc::size_value(&job).ok())
            .map(|proposal| serde_json::to_value(proposal).unwrap())
            .collect();
        assert!(answers.len() > 15, "only {} jobs are answered", answers.len());
        let answers: Vec<Value> = answers.into_iter().chain(photo_answers()).collect();
        let heard = bench.value(&format!("{HEAR}({})", json!(answers)));
        assert_eq!(heard.get("lacking"), Some(&json!([])));
        assert_eq!(heard.get("silent"), Some(&json!([])));
        assert_eq!(heard.get("half"), Some(&json!([])));
        assert_eq!(heard.get("deaf"), Some(&json!(false)));
        assert_eq!(heard.get("touched"), Some(&json!([])));
        let texts = |key: &str| -> Vec<String> {
            let list = heard.get(key).and_then(Value::as_array).into_iter().flatten();
            list.filter_map(|text| Some(text.as_str()?.to_owned())).collect()
        };
        let (days, drawn) = (texts("days"), texts("drawn"));
        let [open, watch] = days.as_slice() else {
            panic!("{days:?}")
        };
        // The browser of the bench writes days in its own country's way.
        assert!(
            open.starts_with("Offen seit ") && !open.contains("March 2025"),
            "{open}"
        );
        assert!(open.ends_with(": Crack of 2026-03-02, seen 2 March 2026"), "{open}");
        assert!(
            watch.starts_with("A. Mason sieht bis ") && !watch.contains("9 Mar 2025"),
            "{watch}"
        );
        let [alone, named] = drawn.as_slice() else {
            panic!("{drawn:?}")
        };
        assert!(alone != "2025-03-02" && named == "G1 of 2025-03-02", "{drawn:?}");
        assert!(heard.get("heard").and_then(Value::as_u64).unwrap() > 2000, "{heard}");
    });
}

/// What is said of readings on photos and by the phone's sensor: of each kind of doubt that taps can bring about, one.
fn photo_answers() -> Vec<Value> {
    let [left, right, low, high] = TAPED_MM;
    let corners = [[left, high], [right, high], [right, low], [left, low]].map(see);
    let [a, b, c, d] = corners;
    let photo = json!({"width_px": 1600, "height_px": 1200});
    let measured = |corners: [[f64; 2]; 4], tap_px: f64, more: Value| {
        let edge = [[600.0, 590.0], [640.0, 590.0], [680.0, 590.0]];
        let mut request = json!({"view": {"photo": photo, "corners_px": corners, "tap_px": tap_px, "edges_px": [edge],
            "reference": {"kind": "taped", "width_mm": 1500, "height_mm": 2000}}});
        for (key, list) in more.as_object().unwrap() {
            request.as_object_mut().unwrap().insert(key.clone(), list.clone());
        }
        calc::sight::measure_value(&request).unwrap()
    };
    let tall = |corners: [[f64; 2]; 4]| json!({"rectangles": [{"name": "0", "corners_px": corners}]});
    let none = || json!({});
    let off = [
        see([0.0, 2100.0]),
        see([2400.0, 2300.0]),
        see([2400.0, 0.0]),
        see([0.0, 0.0]),
    ];
    let counted = json!({"coursing": [{"name": "0", "from_px": see([500.0, 300.0]), "to_px": see([500.0, 1800.0]), "of": "courses", "count": 12}]});
    let mut all = vec![
        measured(corners, 2.0, counted),
        measured(corners, 2.0, tall(off)),
        measured(corners, 1.0, tall([a, b, [a[0] + 3.0, a[1] + 3.0], [900.0, 100.0]])),
        measured(
            corners,
            9.0,
            json!({"lengths": [{"name": "0", "from_px": [20, 20], "to_px": [60, 60]}]}),
        ),
        measured(corners, 30.0, none()),
        measured([d, c, b, a], 1.0, none()),
        measured([a, c, b, d], 1.0, none()),
        measured([b, c, d, a], 1.0, none()),
        measured([a, [(a[0] + c[0]) / 2.0, (a[1] + c[1]) / 2.0], c, d], 1.0, none()),
    ];
    let lean = |vertical: Value, axis: Value| {
        let request = json!({"photo": photo, "vertical_px": vertical, "axis_px": axis, "tap_px": 3.0});
        calc::sight::lean_value(&request).unwrap()
    };
    all.push(lean(
        json!([[100, 100], [100, 1100]]),
        json!([[1500, 100], [1500, 1100]]),
    ));
    all.push(lean(json!([[100, 1100], [100, 100]]), json!([[200, 100], [200, 110]])));
    for (plate, tube) in [
        ([[100, 600], [1500, 600]], [[700, 600], [900, 600]]),
        ([[100, 600], [110, 600]], [[120, 600], [118, 600]]),
    ] {
        let request = json!({"photo": photo, "plate_px": plate, "tube_px": tube, "plate_mm": 150, "tap_px": 3.0});
        all.push(calc::sight::off_centre_value(&request).unwrap());
    }
    for (scale, crack) in [
        ([[100, 600], [1500, 600]], [[700, 700], [702, 700]]),
        ([[100, 600], [110, 600]], [[700, 700], [720, 700]]),
    ] {
        let request = json!({"photo": photo, "scale_px": scale, "crack_px": crack, "scale_mm": 100, "tap_px": 3.0});
        all.push(calc::sight::crack_value(&request).unwrap());
    }
    let held = |beta: f64, swing: f64, many: u32| -> Vec<Value> {
        (0..many)
            .map(|i| json!({"alpha": 20.0, "beta": beta + if i % 2 == 0 { swing } else { -swing }, "gamma": 1.0}))
            .collect()
    };
    for (first, second, turn) in [
        (held(89.0, 0.0, 4), held(89.0, 0.0, 90), "other_side"),
        (held(89.0, 6.0, 90), held(89.0, 0.0, 90), "other_side"),
        (held(89.0, 0.0, 90), held(89.0, 0.0, 90), "other_side"),
        (held(30.0, 0.0, 90), held(30.0, 0.0, 90), "other_side"),
        (held(89.0, 0.0, 90), held(89.0, 0.0, 90), "end_for_end"),
        (held(89.0, 0.0, 90), held(-89.0, 0.0, 90), "end_for_end"),
    ] {
        let request = json!({"first": first, "second": second, "turn": turn, "faces": "away_from_wall"});
        all.push(calc::sight::tilt_value(&request).unwrap());
    }
    let codes: std::collections::BTreeSet<String> = all
        .iter()
        .flat_map(|answer| {
            [
                answer.get("doubts"),
                answer.pointer("/rectangles/0/doubts"),
                answer.pointer("/lengths/0/doubts"),
                answer.pointer("/coursing/0/doubts"),
            ]
        })
        .flatten()
        .flat_map(|doubts| doubts.as_array().cloned().unwrap_or_default())
        .map(|doubt| doubt.get("code").unwrap().as_str().unwrap().to_owned())
        .collect();
    assert!(codes.len() >= 14, "only these doubts: {codes:?}");
    println!("{codes:?}");
    all
}

#[test]
fn german_is_chosen_on_the_first_page_and_fits() {
    play("german_is_chosen_on_the_first_page_and_fits", PHONE, |bench| {
        let id = jobs::demo(bench.app());
        bench.go("");
        bench.tap("How this phone shows it");
        bench.tap("Deutsch");
        bench.wait("the page speaks German", "document.documentElement.lang === 'de'");
        bench.see("Ein Vorhaben beginnen");
        let mut wide: Vec<String> = Vec::new();
        for (screen, words) in [
            ("start", "Welches Haus ist Ihrem am nächsten?"),
            ("wall", "Breite der Öffnung"),
            ("above", "Gewicht über der Öffnung"),
            ("support", "Hält, wie beschrieben"),
            ("order", "Papiere und Leute"),
            ("round", "Warum diese Runde?"),
            ("record", "Das Paket machen"),
            ("emergency", "Alle hinaus."),
            ("close", "Das Vorhaben in Kürze"),
            ("measure", "Auf dem Foto messen"),
        ] {
            for view in [PHONE, SMALL, LARGE_TEXT] {
                bench.look(view);
                bench.go(&format!("{id}/{screen}"));
                bench.see(words);
                bench.open_all();
                let found = bench.too_wide();
                let found = found.as_array().unwrap().iter();
                wide.extend(found.map(|one| format!("{screen} in {}: {one}", view.name())));
            }
            bench.shot(&format!("german-{screen}"));
        }
        assert!(wide.is_empty(), "{}", wide.join("\n"));
    });
}

#[test]
fn no_word_of_the_second_language_is_cut_on_a_small_phone() {
    play(
        "no_word_of_the_second_language_is_cut_on_a_small_phone",
        SMALL,
        |bench| {
            let (started, kept) = (jobs::started(bench.app()), jobs::at_prop(bench.app()));
            bench.go("");
            bench.value("localStorage.setItem('shown', '{\"language\":\"de\"}')");
            // A word that runs over two lines without a place to break it in lies in two boxes.
            let cut = include_str!("cut.js");
            for address in [
                "start/house",
                "start/wall",
                "start/storeys",
                "start/feet",
                "start/strange",
                "start/all",
            ] {
                bench.go(&format!("{started}/{address}"));
                assert_eq!(bench.value(cut), json!([]), "{address}");
            }
            for address in ["support", "round", "emergency"] {
                bench.go(&format!("{kept}/{address}"));
                assert_eq!(bench.value(cut), json!([]), "{address}");
            }
            let bar = "(() => { const box = document.querySelector('.bar'); return !box || box.scrollWidth <= box.clientWidth })()";
            assert_eq!(bench.value(bar), json!(true), "the bar is wider than the phone");
            bench.value("const $b = document.createElement('button'); $b.style.width = '40px'; $b.style.overflowWrap = 'anywhere'; $b.style.display = 'block'; $b.textContent = 'Hohlraumdecke'; document.querySelector('main').prepend($b); 1");
            assert_eq!(
                bench.value(cut).as_array().map(Vec::len),
                Some(1),
                "a cut word is noticed"
            );
        },
    );
}

#[test]
fn the_number_of_the_emergency_services_is_whole_above_the_bar() {
    play(
        "the_number_of_the_emergency_services_is_whole_above_the_bar",
        SMALL,
        |bench| {
            let id = jobs::moving(bench.app());
            bench.go(&format!("{id}/emergency"));
            let free = "document.querySelector('#foot').getBoundingClientRect().top - document.querySelector('.rings .ring').getBoundingClientRect().bottom";
            assert!(bench.value(free).as_f64().unwrap() >= 0.0, "{}", bench.text());
        },
    );
}
