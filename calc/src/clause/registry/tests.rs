//! Every function answers, refuses and never panics.

use super::*;
use std::collections::BTreeSet;

#[test]
fn every_function_answers_to_its_own_example() {
    for entry in registry() {
        let args: Vec<(String, String)> = entry
            .args
            .iter()
            .map(|a| (a.name.to_owned(), a.example.to_owned()))
            .collect();
        let answer = evaluate(entry.name, &args);
        assert!(answer.is_ok(), "{}: {answer:?}", entry.name);
    }
}

#[test]
fn no_input_makes_a_function_panic_or_give_what_is_no_number() {
    let odd = [
        "0",
        "-1",
        "1e-200",
        "1e-9",
        "1e14",
        "1e200",
        "",
        "abc",
        "1,2",
        "0,0",
        "1e14,1e-9",
        "inf",
        "rigid",
        "-",
    ];
    for entry in registry() {
        for arg in entry.args {
            for odd in odd {
                let args: Vec<(String, String)> = entry
                    .args
                    .iter()
                    .map(|a| {
                        (
                            a.name.to_owned(),
                            if a.name == arg.name { odd } else { a.example }.to_owned(),
                        )
                    })
                    .collect();
                match evaluate(entry.name, &args) {
                    Ok(answer) => assert!(!has_null(&answer.value) && !answer.steps.is_empty(), "{}", entry.name),
                    Err(error) => assert!(!error.right.is_empty(), "{} {}={odd}: {error}", entry.name, arg.name),
                }
            }
        }
    }
}

#[test]
fn names_are_unique() {
    let names: BTreeSet<&str> = registry().map(|entry| entry.name).collect();
    assert_eq!(names.len(), registry().count());
}

#[test]
fn a_bad_argument_is_named_with_what_would_be_right() {
    for entry in registry() {
        for arg in entry.args {
            let args: Vec<(String, String)> = entry
                .args
                .iter()
                .map(|a| {
                    (
                        a.name.to_owned(),
                        if a.name == arg.name { "NaN" } else { a.example }.to_owned(),
                    )
                })
                .collect();
            let answer = evaluate(entry.name, &args);
            assert!(
                matches!(&answer, Err(e) if e.arg == arg.name && !e.right.is_empty()),
                "{} {}: {answer:?}",
                entry.name,
                arg.name
            );
        }
        let unknown = [("no_such".to_owned(), "1".to_owned())];
        assert!(
            matches!(evaluate(entry.name, &unknown), Err(e) if e.arg == "no_such"),
            "{}",
            entry.name
        );
    }
    assert!(matches!(evaluate("no_such", &[]), Err(e) if e.arg == "name"));
}
