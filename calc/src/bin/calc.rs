//! The `calc` program: a job as JSON in, an answer as JSON out. Exit 0 when an answer was given, whatever its standing;
//! 2 for bad input, with all problems on stderr.

use calc::Problem;
use serde_json::{Value, json};
use std::io::{Read, Write};
use std::process::ExitCode;

const USAGE: &str = "calc example list | calc example [NAME] | calc size < job | calc round < round | \
    calc clause [--json] | calc clause NAME [--json] arg=value … | calc schema job|proposal|round|evaluation";

fn main() -> ExitCode {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let words: Vec<&str> = words.iter().map(String::as_str).collect();
    match answer(&words) {
        Ok(text) => print(&text),
        Err(problems) => {
            let text = json!({ "problems": problems }).to_string();
            // Nothing more can be said when stderr itself is gone.
            let _gone = writeln!(std::io::stderr(), "{text}");
            ExitCode::from(2)
        }
    }
}

fn print(text: &str) -> ExitCode {
    match writeln!(std::io::stdout(), "{text}") {
        Ok(()) => ExitCode::SUCCESS,
        // A reader that stopped early is no defect of the answer.
        Err(_) => ExitCode::SUCCESS,
    }
}

fn answer(words: &[&str]) -> Result<String, Vec<Problem>> {
    match words {
        ["example", "list"] => Ok(calc::example::names().join("\n")),
        ["example"] => example("two_storey_cavity"),
        ["example", name] => example(name),
        ["size"] => pretty(&calc::size_value(&stdin()?)?),
        ["round"] => pretty(&calc::round_value(&stdin()?)?),
        ["schema", name] => calc::schema(name).map_or_else(
            || {
                Err(vec![Problem::new(
                    "schema",
                    format!("unknown schema `{name}`"),
                    "job, proposal, round or evaluation",
                )])
            },
            |schema| pretty(&schema),
        ),
        ["clause"] | ["clause", "--json"] => pretty(&calc::clause::registry::list()),
        ["clause", name, rest @ ..] => clause(name, rest),
        _ => Err(vec![Problem::new(
            "",
            format!("`calc {}` is not a command", words.join(" ")),
            USAGE,
        )]),
    }
}

fn clause(name: &str, rest: &[&str]) -> Result<String, Vec<Problem>> {
    let mut pairs = Vec::new();
    for word in rest.iter().filter(|word| **word != "--json") {
        let Some((key, value)) = word.split_once('=') else {
            return Err(vec![Problem::new(*word, "no value", "arg=value")]);
        };
        pairs.push((key.to_owned(), value.to_owned()));
    }
    let found = calc::clause::registry::evaluate(name, &pairs)
        .map_err(|error| vec![Problem::new(error.arg, error.wrong, error.right)])?;
    pretty(&found)
}

fn example(name: &str) -> Result<String, Vec<Problem>> {
    let known = || format!("one of {}", calc::example::names().join(", "));
    let job = calc::example::job(name)
        .ok_or_else(|| vec![Problem::new("example", format!("unknown house type `{name}`"), known())])?;
    pretty(&job)
}

fn stdin() -> Result<Value, Vec<Problem>> {
    let mut bytes = Vec::new();
    std::io::stdin()
        .take(16 << 20)
        .read_to_end(&mut bytes)
        .map_err(|error| {
            vec![Problem::new(
                "",
                format!("input cannot be read: {error}"),
                "JSON on standard input",
            )]
        })?;
    calc::json::read(&bytes).map_err(|problem| vec![problem])
}

fn pretty<T: serde::Serialize>(value: &T) -> Result<String, Vec<Problem>> {
    serde_json::to_string_pretty(value).map_err(|error| {
        vec![Problem::new(
            "",
            format!("the answer cannot be written: {error}"),
            "a finite answer",
        )]
    })
}
