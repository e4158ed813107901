//! The engineer's brief: what it says for a job that is refused, close to its limit, or planned by a builder.

use crate::papers::{at, begun, drafted, holds, job_of, kept_aside, no_inner_names, photo, set};
use crate::{flat, pages};
use serde_json::json;
use tempfile::TempDir;
use upstay_lib::form::Fields;
use upstay_lib::site;

fn brief_of(name: &str, fields: &Fields) -> Option<(String, usize)> {
    let folder = TempDir::new().unwrap();
    let mut store = begun(&folder, name, "1 High Street");
    drafted(&mut store, fields);
    photo(&mut store, 1, "wall", "group", at(0, 1));
    photo(&mut store, 2, "crack", "detail", at(0, 2));
    let figure = site::figure(fields, 0);
    let pdf = site::brief(&store, &figure, at(0, 3)).unwrap();
    kept_aside(&format!("brief-{name}.pdf"), &pdf);
    let pages = pages(&pdf)?;
    let text = flat(&pages.join(" "));
    no_inner_names(&text);
    holds(
        &text,
        &[
            "Why this comes to you",
            "The opening and the wall",
            "New opening",
            "What stands above",
            "Storey 1",
            "kN/m on average",
            "Not known, or taken as true",
            "Please answer",
            "Photo 1",
            "Photo 2",
            "The figures here are a proposal",
        ],
    );
    for page in &pages {
        assert!(flat(page).contains(calc::CAUTION));
    }
    assert!(pages.len() <= 2, "{} pages", pages.len());
    Some((text, pages.len()))
}

#[test]
fn the_brief_of_a_refused_job_says_why() {
    let fields = job_of(|job| set(job, "/answers/chimney", json!("yes")));
    let Some((text, _)) = brief_of("refused", &fields) else {
        return;
    };
    holds(&text, &["chimney", "own design"]);
}

#[test]
fn the_brief_of_a_close_job_says_what_decides() {
    let fields = job_of(|job| {
        set(
            job,
            "/engineer",
            json!({ "name": "D. Designer", "date": "2026-02-27", "section": "SHS80x80x5 S355",
            "spacing_m": 1.1, "load_kn_m": 20.0 }),
        );
        set(job, "/wall/condition", json!("doubtful"));
    });
    let Some((text, _)) = brief_of("close", &fields) else {
        return;
    };
    holds(&text, &["Used", "D. Designer"]);
}

#[test]
fn the_brief_with_a_builders_plan_says_what_was_filled_in() {
    let fields = job_of(|job| {
        set(job, "/builders_plan", json!({ "kind": "needles", "count": 2 }));
        set(
            job,
            "/engineer",
            json!({ "name": "D. Designer", "date": "2026-02-27", "load_kn_m": 3.0 }),
        );
    });
    let Some((text, _)) = brief_of("plan", &fields) else {
        return;
    };
    holds(&text, &["What the builder proposes", "not said", "trade size"]);
}
