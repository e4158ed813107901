//! The house types of the screen Start are those of `calc`: with what a person answers beside them, each makes the same job.
#![expect(clippy::unwrap_used, reason = "a test may stop at the first thing that is not there")]

use super::{Fields, assemble, flatten};
use serde_json::{Map, Value};

const HOUSES: &str = include_str!("../../../ui/screens/start/houses.js");

/// What a person has to look at: no house type may fill it in.
const ASKED: [&str; 16] = [
    "/country",
    "/answers",
    "/site",
    "/props",
    "/points",
    "/forbidden",
    "/opening/width_m",
    "/opening/head_m",
    "/opening/left_masonry_m",
    "/opening/right_masonry_m",
    "/wall/condition",
    "/wall/gable",
    "/wall/openings",
    "/catalogue",
    "/sides/inside/foot/",
    "/sides/outside/foot/",
];

fn is_asked(path: &str) -> bool {
    let ending = ["/mortar", "/openings", "/floor/slept_in", "/floor/empty", "/room_m"];
    ASKED.iter().any(|start| path.starts_with(start))
        || ending.iter().any(|end| path.ends_with(end))
        || (path.starts_with("/above/") && path.contains("/openings/"))
}

/// The table of the screen, which is written so that it reads as JSON.
fn table() -> Map<String, Value> {
    let (_, rest) = HOUSES.split_once("const TABLE = Object.freeze(").unwrap();
    let (inside, _) = rest.split_once("\n})\n").unwrap();
    serde_json::from_str(&format!("{inside}\n}}")).unwrap()
}

/// A house type's fields: the whole one, with what differs in this one put in or left out.
fn fields_of(table: &Map<String, Value>, name: &str) -> Fields {
    let whole = table.get("two_storey_cavity").unwrap().as_object().unwrap();
    let own = table.get(name).unwrap().as_object().unwrap();
    let gone: Vec<&String> = own
        .iter()
        .filter(|(_, text)| text.is_null())
        .map(|(path, _)| path)
        .collect();
    let left = |path: &str| {
        !gone
            .iter()
            .any(|prefix| path == *prefix || path.starts_with(&format!("{prefix}/")))
    };
    let mut merged = whole.clone();
    merged.extend(own.clone());
    merged
        .into_iter()
        .filter(|(path, text)| !text.is_null() && left(path))
        .map(|(path, text)| (path, text.as_str().unwrap().to_owned()))
        .collect()
}

#[test]
fn every_house_type_of_the_screen_makes_the_job_of_the_ready_house() {
    let table = table();
    let names = calc::example::names();
    assert_eq!(table.len(), names.len());
    for name in names {
        let job = calc::example::job(name).unwrap();
        let mut fields = fields_of(&table, name);
        let wrong: Vec<&String> = fields.keys().filter(|path| is_asked(path)).collect();
        assert!(wrong.is_empty(), "{name} answers what is asked: {wrong:?}");
        fields.extend(flatten(&job).into_iter().filter(|(path, _)| is_asked(path)));
        let (again, problems) = assemble(&fields);
        assert_eq!(problems, Vec::new(), "{name}");
        assert_eq!(
            calc::Job::from_value(&again).unwrap().0,
            calc::Job::from_value(&job).unwrap().0,
            "{name}"
        );
    }
}
