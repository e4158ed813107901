//! What matters in the projects for phones: permissions exactly as listed, what other apps may reach, names and versions in
//! step with the rest of the tree. Nothing here builds or runs a phone app.

#![expect(clippy::unwrap_used, reason = "a test may stop at the first thing that is not there")]

mod android;
mod ios;
mod tools;

use serde_json::Value;
use std::path::{Path, PathBuf};

/// A file of the app's folder.
fn path(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join(name)
}

fn text(name: &str) -> String {
    let path = path(name);
    std::fs::read_to_string(&path).unwrap_or_else(|why| panic!("{}: {why}", path.display()))
}

fn config() -> Value {
    serde_json::from_str(&text("tauri.conf.json")).unwrap()
}

fn identifier() -> String {
    config().pointer("/identifier").unwrap().as_str().unwrap().to_owned()
}

/// The words that stand between two others, at their first place.
fn between<'a>(text: &'a str, before: &str, after: &str) -> &'a str {
    let start = text.find(before).unwrap_or_else(|| panic!("`{before}` is missing")) + before.len();
    let rest = text.get(start..).unwrap();
    rest.get(..rest.find(after).unwrap()).unwrap()
}
