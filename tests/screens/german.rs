//! The second language: as much of it as of the first, sentences of the calculation too, and pages that hold longer words.

use crate::bench::play;
use crate::jobs;
use crate::view::{LARGE_TEXT, PHONE, SMALL};
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
        let heard = bench.value(&format!("{HEAR}({})", json!(answers)));
        assert_eq!(heard.get("lacking"), Some(&json!([])));
        assert_eq!(heard.get("silent"), Some(&json!([])));
        assert_eq!(heard.get("deaf"), Some(&json!(false)));
        assert_eq!(heard.get("touched"), Some(&json!([])));
        assert!(heard.get("heard").and_then(Value::as_u64).unwrap() > 2000, "{heard}");
    });
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
                let wide = bench.value("[document.documentElement.scrollWidth, innerWidth]");
                let at = |i: usize| wide.get(i).and_then(Value::as_f64).unwrap();
                assert!(at(0) <= at(1), "{screen} in {}: {wide}", view.name());
            }
            bench.shot(&format!("german-{screen}"));
        }
    });
}
