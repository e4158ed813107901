//! No symbol and no clause in what stands on a screen outside "why": the texts themselves are read.

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
        let files = std::fs::read_dir(ui().join("words/en")).unwrap().flatten();
        let mut files: Vec<String> = files
            .map(|file| format!("words/en/{}", file.file_name().to_string_lossy()))
            .collect();
        files.sort();
        assert!(files.len() >= 14, "{files:?}");
        // The table of fields is not handed out by its module, so it is read as it is written.
        let fields = std::fs::read_to_string(ui().join("fields.js")).unwrap();
        let said = bench.value(&format!("{READ}({}, {})", json!(files), json!(fields)));
        assert_eq!(said.get("found"), Some(&json!([])));
        let read = said.get("read").and_then(Value::as_u64).unwrap();
        assert!(read >= 1200, "only {read} texts were read");
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
            let said = bench.value(&format!("{READ}([], {})", json!(format!("'{text}'"))));
            assert_eq!(said.get("found") != Some(&json!([])), wrong, "{text}: {said}");
        }
    });
}
