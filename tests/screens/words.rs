//! No symbol and no clause in what stands on a screen outside "why": the texts themselves are read, in both languages.

use crate::bench::play;
use crate::view::PHONE;
use serde_json::{Value, json};
use std::path::PathBuf;

/// Gives the texts of all modules of words, and of the fields, that hold a symbol or name a clause.
const READ: &str = include_str!("words.js");

fn ui() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../ui")
}

#[test]
fn no_symbol_or_clause_stands_outside_why() {
    play("no_symbol_or_clause_stands_outside_why", PHONE, |bench| {
        bench.go("");
        for language in ["en", "de"] {
            let files = std::fs::read_dir(ui().join("words").join(language)).unwrap().flatten();
            // Names of libraries are no words of ours, and sentences of the calculation name their clauses behind "why" only.
            let mut files: Vec<String> = files
                .map(|file| file.file_name().to_string_lossy().into_owned())
                .filter(|name| {
                    name.ends_with(".js") && !["licences.js", "said.js", "index.js"].contains(&name.as_str())
                })
                .map(|name| format!("words/{language}/{name}"))
                .collect();
            files.sort();
            assert!(files.len() >= 18, "{files:?}");
            let said = bench.value(&format!("{READ}({})", json!(files)));
            assert_eq!(said.get("found"), Some(&json!([])));
            let read = said.get("read").and_then(Value::as_u64).unwrap();
            assert!(read >= 1200, "only {read} texts were read");
        }
        // The look itself notices what it looks for, and lets ordinary words pass.
        for (text, wrong) in [
            ("It carries γ times more", true),
            ("See 6.3.1 of it", true),
            ("after EN 1996", true),
            ("by BS 5975", true),
            ("N_Ed is too large", true),
            ("clause 4", true),
            ("the Eurocode says", true),
            ("f_k of the wall", true),
            ("At most 25 mm over 1 m, 0.5 N/mm².", false),
            ("Look at the end of the wall", false),
        ] {
            let said = bench.value(&format!("{READ}([], {})", json!(text)));
            assert_eq!(said.get("found") != Some(&json!([])), wrong, "{text}: {said}");
        }
    });
}

#[test]
fn the_checks_that_only_fit_or_not_are_those_of_the_calculation() {
    play(
        "the_checks_that_only_fit_or_not_are_those_of_the_calculation",
        PHONE,
        |bench| {
            bench.go("");
            let shown = bench.value("import('./parts/why.js').then(({ OF_ROOM }) => [...OF_ROOM].sort())");
            let mut known = calc::checks::GEOMETRY.to_vec();
            known.sort_unstable();
            assert_eq!(shown, json!(known));
        },
    );
}
