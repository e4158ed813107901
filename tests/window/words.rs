//! The words that work without a window.

use std::path::{Path, PathBuf};
use std::process::{Command, Output};

fn upstay(words: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_upstay"))
        .args(words)
        .env_remove("DISPLAY")
        .env_remove("WAYLAND_DISPLAY")
        .output()
        .unwrap()
}

fn said(output: &Output) -> String {
    String::from_utf8_lossy(&output.stdout).into_owned() + &String::from_utf8_lossy(&output.stderr)
}

fn pack_in(folder: &Path) -> PathBuf {
    let files = std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path());
    let packs: Vec<PathBuf> = files
        .filter(|path| path.extension().is_some_and(|ending| ending == "zip"))
        .collect();
    assert_eq!(packs.len(), 1, "{packs:?}");
    packs.into_iter().next().unwrap()
}

#[test]
fn the_demo_leaves_a_pack_that_verifies_and_a_report_that_says_demo() {
    let folder = tempfile::tempdir().unwrap();
    let run = upstay(&["demo", folder.path().to_str().unwrap()]);
    assert_eq!(run.status.code(), Some(0), "{}", said(&run));
    for words in [
        "Proposal kept",
        "Round done",
        "Everything passed",
        "The demo seals nothing",
        "When in doubt",
    ] {
        assert!(said(&run).contains(words), "{words} is missing in:\n{}", said(&run));
    }
    let report = std::fs::read(folder.path().join("report.pdf")).unwrap();
    assert!(report.starts_with(b"%PDF-"));

    let pack = pack_in(folder.path());
    let pack = pack.to_str().unwrap();
    assert_eq!(upstay(&["verify", pack]).status.code(), Some(0));
    // Nothing of the demo's own record is left behind.
    assert_eq!(std::fs::read_dir(folder.path()).unwrap().count(), 2);
}

#[test]
fn one_changed_byte_anywhere_in_a_pack_is_found_and_named() {
    let folder = tempfile::tempdir().unwrap();
    let run = upstay(&["demo", folder.path().to_str().unwrap()]);
    assert_eq!(run.status.code(), Some(0), "{}", said(&run));
    let pack = pack_in(folder.path());
    let whole = std::fs::read(&pack).unwrap();
    let changed = folder.path().join("changed.zip");
    for share in [3, 20, 40, 60, 80, 97] {
        let mut bytes = whole.clone();
        let at = whole.len() * share / 100;
        *bytes.get_mut(at).unwrap() ^= 0x20;
        std::fs::write(&changed, &bytes).unwrap();
        let answer = upstay(&["verify", changed.to_str().unwrap()]);
        assert_eq!(answer.status.code(), Some(1), "byte {at}: {}", said(&answer));
    }
    std::fs::write(&changed, whole.get(..whole.len() - 1).unwrap()).unwrap();
    assert_ne!(upstay(&["verify", changed.to_str().unwrap()]).status.code(), Some(0));
}

#[test]
fn what_cannot_be_answered_ends_with_two() {
    for words in [
        &["verify"][..],
        &["verify", "/nowhere/at/all.zip"],
        &["demo"],
        &["verify", "a", "--seal"],
        &["open", "b"],
    ] {
        let run = upstay(words);
        assert_eq!(run.status.code(), Some(2), "{words:?}: {}", said(&run));
        assert!(!said(&run).trim().is_empty(), "{words:?}");
    }
}
