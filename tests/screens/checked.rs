//! The pages' scripts are read by machines: types by their JSDoc, and the rules of `eslint.config.js`.

use crate::bench::{not_run, there};
use std::path::PathBuf;
use std::process::Command;

fn tree() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("..")
}

/// Runs a program that was fetched beside the tests; it must find nothing.
fn run(test: &str, program: &str, arguments: &[&str]) -> Option<String> {
    let file = tree().join("tests/screens/node_modules").join(program);
    if !there(test, &["node"]) {
        return None;
    }
    if !file.is_file() {
        not_run(&format!("{test}: tests/screens/node_modules is missing here"));
        return None;
    }
    let output = Command::new("node")
        .arg(file)
        .args(arguments)
        .current_dir(tree())
        .output()
        .unwrap();
    let said = String::from_utf8_lossy(&output.stdout).into_owned() + &String::from_utf8_lossy(&output.stderr);
    assert!(output.status.success(), "{said}");
    Some(said)
}

#[test]
fn types_of_the_pages_agree() {
    let test = "types_of_the_pages_agree";
    let arguments = ["-p", "tests/screens/tsconfig.json", "--listFiles"];
    if let Some(said) = run(test, "typescript/lib/tsc.js", &arguments) {
        let read = said.lines().filter(|line| line.contains("/ui/")).count();
        assert!(read >= 80, "only {read} files were read:\n{said}");
    }
}

#[test]
fn the_pages_keep_the_rules_of_the_linter() {
    let test = "the_pages_keep_the_rules_of_the_linter";
    let config = ["--config", "tests/screens/eslint.config.js", "--max-warnings", "0"];
    let arguments = [&config[..], &["--format", "json", "ui"]].concat();
    if let Some(said) = run(test, "eslint/bin/eslint.js", &arguments) {
        let files: Vec<serde_json::Value> = serde_json::from_str(&said).unwrap();
        assert!(files.len() >= 80, "only {} files were read", files.len());
    }
}
