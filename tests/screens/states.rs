//! Every screen in every state that it can be found in: nobody is kept out, everything can be pressed, nothing sticks out.

use crate::app::App;
use crate::axe;
use crate::bench::{Bench, play};
use crate::view::{LANDSCAPE, LARGE_TEXT, PHONE, SMALL, TABLET, View};
use serde_json::{Value, json};

/// Least width and height of what is pressed, in pixels.
const TARGET: u32 = 48;
/// Rules of axe-core that something on every page must pass, lest a page that is not there passes all.
const RULES: usize = 15;

/// A screen in a state.
pub struct State {
    /// How a finding names it, and its pictures.
    pub name: &'static str,
    /// Where it is: `jobs`, a page without a job, or what stands in the address behind the job.
    pub screen: &'static str,
    /// Makes the job; none for pages without one.
    pub job: Option<fn(&App) -> String>,
    /// Elements that axe-core must have looked at.
    pub nodes: u64,
    /// What a person does there first.
    pub act: fn(&Bench),
}

/// Looks at states of one screen in every way; says all that it found at once.
pub fn look_at(test: &str, states: &[State]) {
    let Some(axe) = axe::source(test) else { return };
    play(test, PHONE, |bench| {
        let mut found = Vec::new();
        for state in states {
            let job = state.job.map(|make| make(bench.app()));
            let address = match (&job, state.screen) {
                (_, "jobs") => String::new(),
                (Some(id), screen) => format!("{id}/{screen}"),
                (None, screen) => screen.to_owned(),
            };
            bench.look(PHONE);
            bench.go(&address);
            (state.act)(bench);
            bench.settle();
            bench.shot(&format!("{}-light", state.name));
            // Each width in each theme once, half of them with all that opens laid open.
            for view in [SMALL, PHONE.dark()] {
                bench.look(view);
                judge(bench, &axe, state, &view.name(), &mut found);
            }
            bench.shot(&format!("{}-dark", state.name));
            open_all(bench);
            for view in [PHONE, SMALL.dark()] {
                bench.look(view);
                judge(bench, &axe, state, &format!("{}, all opened", view.name()), &mut found);
            }
            for view in [LARGE_TEXT, View { text: 200, ..SMALL }, TABLET, LANDSCAPE] {
                bench.look(view);
                measure(bench, state, &view.name(), &mut found);
            }
        }
        assert!(found.is_empty(), "{} findings:\n{}", found.len(), found.join("\n"));
    });
}

/// Opens all that opens, also what lies in something that opens.
fn open_all(bench: &Bench) {
    for _ in 0..3 {
        bench.value("for (const $one of document.querySelectorAll('details:not([open])')) $one.open = true; 1");
        bench.settle();
    }
}

fn judge(bench: &Bench, axe: &str, state: &State, how: &str, found: &mut Vec<String>) {
    let said = axe::look(bench, axe);
    found.extend(said.found.iter().map(|what| format!("{} ({how}): {what}", state.name)));
    if said.passed < RULES || said.nodes < state.nodes {
        found.push(format!(
            "{} ({how}): only {} rules and {} nodes",
            state.name, said.passed, said.nodes
        ));
    }
    measure(bench, state, how, found);
}

fn measure(bench: &Bench, state: &State, how: &str, found: &mut Vec<String>) {
    let width = bench.view().width;
    let said = bench.value(&format!("{}({width}, {TARGET})", include_str!("measure.js")));
    let list = said.get("found").and_then(Value::as_array).cloned().unwrap_or_default();
    found.extend(
        list.iter()
            .map(|what| format!("{} ({how}): {}", state.name, what.as_str().unwrap_or_default())),
    );
    assert_ne!(
        said.get("controls"),
        Some(&json!(0)),
        "{}: nothing can be pressed",
        state.name
    );
}
