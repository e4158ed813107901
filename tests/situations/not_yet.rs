//! What is not there yet: the one place to switch a waiting test on, and the voice for what does not run here.

use std::io::Write;

/// `order` of a proposal holds the steps and stops of the job (method, section 15).
pub const ORDER_OF_WORK: bool = true;
/// Where brackets are allowed they are offered as an option of kind `brackets` (method, sections 4 and 5).
pub const BRACKET_OPTION: bool = true;
/// A floor that bears below the needles gets a line of its own in `floor_lines` (method, section 13).
pub const FLOOR_LINES: bool = true;

/// Whether a part of a test has to wait; says so aloud where it has.
pub fn todo_until_merged(there: bool, test: &str, what: &str) -> bool {
    if !there {
        not_run(test, &format!("waits for {what}"));
    }
    !there
}

/// Says what does not run. It goes past the test harness, which would keep the words of a passing test to itself.
pub fn not_run(test: &str, why: &str) {
    // Nothing more can be said when the standard error itself is gone.
    let _gone = writeln!(std::io::stderr(), "NOT RUN {test}: {why}");
}
