//! Script, markup and very long words in every field that takes text stay text, and push no page out of its screen.

use crate::bench::{Bench, play};
use crate::jobs;
use crate::pictures;
use crate::view::{PHONE, SMALL, View};
use serde_json::{Value, json};

/// Pages of a job that take text; the questions of Start have pages of their own.
const PAGES: [&str; 21] = [
    "wall",
    "above",
    "support",
    "order",
    "round",
    "record",
    "findings",
    "emergency",
    "measure",
    "close",
    "start/width",
    "start/head",
    "start/wall",
    "start/floors",
    "start/roof",
    "start/windows",
    "start/sides",
    "start/feet",
    "start/beam",
    "start/strange",
    "start/all",
];
/// What would show that a text was taken as anything else.
const TAKEN: &str = "[window.taken ?? 0, document.querySelectorAll('main img[src=x], main script, main iframe, main svg[onload], header img').length]";

fn markup() -> String {
    "<img src=x onerror=\"window.taken=1\"><script>window.taken=1</script><svg onload=window.taken=1>'\"><b>&lt;\u{202e}${1}".to_owned()
}

/// No page may be wider than its screen, also with large text.
fn fits(bench: &Bench, what: &str, all: &mut Vec<String>) {
    for view in [SMALL, View { text: 200, ..SMALL }] {
        bench.look(view);
        let wide = bench.too_wide();
        let wide = wide.as_array().unwrap().iter().filter_map(Value::as_str);
        all.extend(wide.map(|one| format!("{what} at {}: {one}", view.name())));
    }
}

fn type_everywhere(test: &'static str, text: &str, name: &str, least: u64) {
    play(test, PHONE, |bench| {
        // The list of jobs first: what is typed there becomes a name.
        bench.go("");
        bench.fill("Name of the job", name);
        bench.fill("Place", name);
        let mut wide = Vec::new();
        fits(bench, "jobs", &mut wide);
        bench.look(PHONE);
        bench.tap("Begin this job");
        bench.wait(
            "the job is open or refused in words",
            "location.hash.length > 5 || document.querySelector('#said').textContent !== ''",
        );
        bench.go("");
        fits(bench, "jobs with such a name", &mut wide);
        assert_eq!(bench.value(TAKEN), json!([0, 0]), "jobs");

        let mut typed = 0;
        for page in PAGES {
            bench.look(PHONE);
            // A job for each page: what is wrong on one must not empty another.
            let id = match page {
                "round" => jobs::at_prop(bench.app()),
                "measure" => pictures::tapped(bench.app()),
                "close" => jobs::taking_out(bench.app()),
                "order" | "record" | "findings" | "emergency" => jobs::kept(bench.app()),
                _ => jobs::described(bench.app()),
            };
            if page == "support" {
                jobs::write(bench.app(), &id, &[("/builders_plan/kind", "needles")]);
            }
            if page == "round" {
                typed += round(bench, &id, text, &mut wide);
            }
            if page == "close" {
                let out = jobs::taken_out(bench.app());
                bench.go(&format!("{out}/close"));
                typed += enter(bench, text);
                fits(bench, "looks after", &mut wide);
                bench.look(PHONE);
            }
            bench.go(&format!("{id}/{page}"));
            bench.open_all();
            typed += enter(bench, text);
            if page == "record" {
                bench.tap("Keep this note");
                bench.settle();
            }
            fits(bench, page, &mut wide);
            assert_eq!(bench.value(TAKEN), json!([0, 0]), "{page}");
            // And as it comes up again from what was kept, on the page itself and where it is shown.
            let shown = ["wall", "above", "start/width", "emergency"]
                .contains(&page)
                .then_some("support");
            for again in [page].into_iter().chain(shown) {
                bench.go(&format!("{id}/{again}"));
                bench.open_all();
                fits(bench, &format!("{again} after {page}"), &mut wide);
                assert_eq!(bench.value(TAKEN), json!([0, 0]), "{again} after {page}");
            }
        }
        println!("{test}: {typed} fields");
        assert!(
            wide.is_empty(),
            "{} pages are too wide:\n{}",
            wide.len(),
            wide.join("\n")
        );
        assert!(typed >= least, "only {typed} fields");
    });
}

/// The pages of a round beside the prop that it stands at.
fn round(bench: &Bench, id: &str, text: &str, wide: &mut Vec<String>) -> u64 {
    ["begin", "whole", "N1-in"]
        .iter()
        .map(|place| {
            jobs::write(bench.app(), id, &[("/round/place", place)]);
            bench.go(&format!("{id}/round"));
            bench.open_all();
            let typed = enter(bench, text);
            fits(bench, &format!("round, {place}"), wide);
            assert_eq!(bench.value(TAKEN), json!([0, 0]), "round, {place}");
            typed
        })
        .sum()
}

/// Types into all fields and waits until the page has made of it what it can.
fn enter(bench: &Bench, text: &str) -> u64 {
    let typed = bench.value(&format!("{}({})", include_str!("hostile.js"), json!(text)));
    // Fields are kept, and figures asked for, a little after the last key.
    bench.value("new Promise((done) => setTimeout(() => done(1), 350))");
    bench.settle();
    typed.as_u64().unwrap()
}

#[test]
fn script_and_markup_in_every_field_stay_text() {
    let text = markup();
    type_everywhere("script_and_markup_in_every_field_stay_text", &text, &text, 140);
}

#[test]
fn ten_thousand_letters_without_a_blank_push_nothing_out() {
    let text = "W".repeat(10_000);
    type_everywhere(
        "ten_thousand_letters_without_a_blank_push_nothing_out",
        &text,
        &text,
        150,
    );
}
