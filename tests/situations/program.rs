//! The program as its user meets it: JSON in, JSON out.

use serde_json::Value;
use std::io::Write;
use std::process::{Command, Output, Stdio};

fn run(words: &[&str], input: &str) -> Output {
    let mut child = Command::new(env!("CARGO_BIN_EXE_calc"))
        .args(words)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    // The program reads all of its input before it writes; a program that reads none closes the pipe, which is no defect.
    let _closed = child.stdin.take().unwrap().write_all(input.as_bytes());
    child.wait_with_output().unwrap()
}

fn answered(words: &[&str], input: &str) -> Value {
    let out = run(words, input);
    let told = String::from_utf8_lossy(&out.stderr);
    assert_eq!(out.status.code(), Some(0), "calc {words:?}: {told}");
    serde_json::from_slice(&out.stdout).unwrap()
}

/// The proposal for a job.
pub fn size(job: &Value) -> Value {
    answered(&["size"], &job.to_string())
}

/// What today's round says.
pub fn round(round: &Value) -> Value {
    answered(&["round"], &round.to_string())
}

/// A ready house type.
pub fn example(name: &str) -> Value {
    answered(&["example", name], "")
}

/// A clause function's answer.
pub fn clause(name: &str, args: &[&str]) -> Value {
    let words: Vec<&str> = ["clause", name, "--json"]
        .into_iter()
        .chain(args.iter().copied())
        .collect();
    answered(&words, "")
}

/// The problems of bad input.
pub fn problems(job: &Value) -> Vec<Value> {
    let out = run(&["size"], &job.to_string());
    assert_eq!(out.status.code(), Some(2), "bad input must be refused");
    let told: Value = serde_json::from_slice(&out.stderr).unwrap();
    told["problems"].as_array().unwrap().clone()
}
