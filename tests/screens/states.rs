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
            bench.still();
            bench.shot(&format!("{}-light", state.name));
            // Each width in each theme once, half of them with all that opens laid open.
            for view in [SMALL, PHONE.dark()] {
                bench.look(view);
                judge(bench, &axe, state, &view.name(), &mut found);
            }
            bench.shot(&format!("{}-dark", state.name));
            bench.open_all();
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

#[test]
fn the_look_itself_notices_what_it_looks_for() {
    let test = "the_look_itself_notices_what_it_looks_for";
    let Some(axe) = axe::source(test) else { return };
    play(test, SMALL, |bench| {
        bench.go("");
        let spoil = include_str!("spoil.js");
        bench.value(spoil);
        let state = State {
            name: "spoilt",
            screen: "jobs",
            job: None,
            nodes: 100_000,
            act: |_| {},
        };
        let mut found = Vec::new();
        judge(bench, &axe, &state, "", &mut found);
        let all = found.join("\n");
        for words in [
            "contrast 1.",
            "image-alt",
            "button-name",
            "too small to press (20 x 20)",
            "in each other's way",
            "wider than the screen",
            "only ",
        ] {
            assert!(all.contains(words), "`{words}` is not noticed in:\n{all}");
        }
    });
}
