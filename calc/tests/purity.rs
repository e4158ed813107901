//! The core reads no files, no clock and no network: only its program under `src/bin` reads standard input.
#![expect(clippy::unwrap_used, reason = "a test stops at the first file it cannot read")]

use std::path::Path;

fn sources(folder: &Path, out: &mut Vec<(String, String)>) {
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            sources(&path, out);
        } else if path.extension().is_some_and(|end| end == "rs") {
            out.push((path.display().to_string(), std::fs::read_to_string(&path).unwrap()));
        }
    }
}

#[test]
fn the_core_is_pure() {
    let mut found = Vec::new();
    sources(&Path::new(env!("CARGO_MANIFEST_DIR")).join("src"), &mut found);
    assert!(found.len() > 30, "only {} files read", found.len());
    for (path, text) in found.iter().filter(|(path, _)| !path.contains("/bin/")) {
        for word in [
            "std::fs",
            "std::net",
            "std::env",
            "SystemTime",
            "Instant::now",
            "tauri",
            "rusqlite",
        ] {
            // The stopwatch of one ignored test is no clock of the core.
            let tests = path.ends_with("tests.rs");
            assert!(tests || !text.contains(word), "{path} uses {word}");
        }
    }
}
