//! The program `upstay`: the window, and three words that work without one.

mod display;

use std::ffi::{OsStr, OsString};
use std::path::Path;
use std::process::ExitCode;
use upstay_lib::record::{Jobs, Moment};
use upstay_lib::{demo, pack};

const USAGE: &str = "\
upstay [PACK]                       opens the window, and takes the pack in where one is named
upstay demo FOLDER                  does a whole demo job without a window; leaves its pack and report in FOLDER
upstay verify PACK [--seal CODE]    checks a pack: 0 intact, 3 contents intact but the container was rewritten,
                                    1 changed (and where), 2 not a question this can answer
upstay import PACK FOLDER           takes a pack into the data folder FOLDER, as a new job or into the one that is there:
                                    0 done or nothing new, 3 done, but some entries do not fit and were left out,
                                    1 refused (and why)";

/// Exit code for a wrong question.
const USAGE_CODE: u8 = 2;

fn main() -> ExitCode {
    let words: Vec<OsString> = std::env::args_os().skip(1).collect();
    let words: Vec<&OsStr> = words.iter().map(OsString::as_os_str).collect();
    let is = |word: &OsStr, text: &str| word == OsStr::new(text);
    match words.as_slice() {
        [] => window(),
        // As a file manager opens a pack: the window offers to take it in.
        [pack] if Path::new(pack).is_file() => window(),
        [word] if is(word, "--help") || is(word, "-h") || is(word, "help") => {
            println!("{USAGE}");
            ExitCode::SUCCESS
        }
        [word, folder] if is(word, "demo") => do_demo(Path::new(folder)),
        [word, pack, folder] if is(word, "import") => import(Path::new(pack), Path::new(folder)),
        [word, pack] if is(word, "verify") => verify(Path::new(pack), None),
        [word, pack, flag, code] | [word, flag, code, pack] if is(word, "verify") && is(flag, "--seal") => {
            verify(Path::new(pack), Some(&code.to_string_lossy()))
        }
        [word, ..] => wrong(&format!("`{}` cannot be done like this.", word.to_string_lossy())),
    }
}

fn window() -> ExitCode {
    if !display::there() {
        return wrong_line("There is no display to open a window on; `upstay demo FOLDER` works without one.");
    }
    match upstay_lib::run() {
        Ok(()) => ExitCode::SUCCESS,
        Err(why) => {
            eprintln!("The window cannot be opened: {why}");
            ExitCode::FAILURE
        }
    }
}

fn do_demo(folder: &Path) -> ExitCode {
    match demo::headless(folder) {
        Ok(lines) => {
            println!("{}", lines.join("\n"));
            ExitCode::SUCCESS
        }
        Err(failure) => {
            eprintln!("The demo could not be done: {}", failure.message);
            ExitCode::FAILURE
        }
    }
}

fn verify(file: &Path, code: Option<&str>) -> ExitCode {
    match pack::verify(file, code) {
        Ok(answer) => {
            println!("{answer}");
            ExitCode::from(answer.verdict.exit_code())
        }
        Err(why) => wrong_line(&why.to_string()),
    }
}

fn import(file: &Path, folder: &Path) -> ExitCode {
    let done = Jobs::open(folder)
        .map_err(pack::PackError::from)
        .and_then(|jobs| pack::import(&jobs, file, Moment::now()));
    match done {
        Ok(done) => {
            println!("Job {}\n{}", done.job, done.words.join("\n"));
            ExitCode::from(if done.left_out.is_empty() { 0 } else { 3 })
        }
        Err(why) => {
            eprintln!("{why}");
            ExitCode::FAILURE
        }
    }
}

fn wrong(what: &str) -> ExitCode {
    eprintln!("{what}\n{USAGE}");
    ExitCode::from(USAGE_CODE)
}

fn wrong_line(what: &str) -> ExitCode {
    eprintln!("{what}");
    ExitCode::from(USAGE_CODE)
}
