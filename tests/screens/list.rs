//! The states that every screen is looked at in.

use crate::app::App;
use crate::bench::Bench;
use crate::jobs;
use crate::pictures;
use crate::states::{State, look_at};

const fn state(name: &'static str, screen: &'static str, job: fn(&App) -> String, nodes: u64) -> State {
    doing(name, screen, job, nodes, |_| {})
}

const fn doing(
    name: &'static str,
    screen: &'static str,
    job: fn(&App) -> String,
    nodes: u64,
    act: fn(&Bench),
) -> State {
    State {
        name,
        screen,
        job: Some(job),
        nodes,
        act,
    }
}

const fn without(name: &'static str, screen: &'static str, nodes: u64, act: fn(&Bench)) -> State {
    State {
        name,
        screen,
        job: None,
        nodes,
        act,
    }
}

const JOBS: &[State] = &[
    without("jobs-empty", "jobs", 60, |_| {}),
    without("jobs-error", "jobs", 60, |bench| {
        bench.tap("Begin this job");
        bench.see("name");
    }),
    state("jobs-filled", "jobs", jobs::demo, 70),
    state("jobs-stop", "jobs", jobs::moving, 70),
    doing("jobs-damaged", "jobs", jobs::damaged, 70, |bench| {
        bench.see("is damaged")
    }),
    without("emergency-no-job", "emergency", 30, |_| {}),
];
const HAND_OVER: &[State] = &[
    doing("hand-over-same", "jobs", jobs::kept, 70, |bench| {
        bench.open_pack(&bench.packed());
        bench.see("Nothing new");
    }),
    without("hand-over-no-pack", "jobs", 60, |bench| {
        bench.open_pack(&bench.file("notes.zip", b"not a pack"));
        bench.see("is no pack");
    }),
    without("hand-over-refused", "jobs", 60, |bench| {
        bench.open_pack(&bench.file("broken.zip", b"PK\x03\x04 and no more"));
        bench.see("Not taken in");
    }),
    doing("hand-over-pack-made", "record", jobs::demo, 70, |bench| {
        bench.tap("Make the pack");
        bench.see("The pack is made.");
    }),
];
const START: &[State] = &[
    state("start-house", "start/house", jobs::empty, 60),
    state("start-width-empty", "start/width", jobs::empty, 40),
    state("start-width-error", "start/width", jobs::wrong_start, 40),
    state("start-head", "start/head", jobs::started, 40),
    state("start-wall", "start/wall", jobs::started, 60),
    state("start-storeys", "start/storeys", jobs::started, 50),
    state("start-floors", "start/floors", jobs::started, 50),
    state("start-roof", "start/roof", jobs::started, 50),
];
const START_ON: &[State] = &[
    state("start-windows", "start/windows", jobs::started, 50),
    state("start-sides", "start/sides", jobs::started, 40),
    state("start-feet", "start/feet", jobs::started, 80),
    state("start-beam", "start/beam", jobs::started, 50),
    state("start-strange-empty", "start/strange", jobs::empty, 100),
    state("start-strange-refused", "start/strange", jobs::strange, 100),
    state("start-all-empty", "start/all", jobs::empty, 50),
    state("start-all-filled", "start/all", jobs::started, 60),
    state("start-all-refused", "start/all", jobs::strange, 60),
];
const WALL: &[State] = &[
    state("wall-empty", "wall", jobs::empty, 150),
    state("wall-filled", "wall", jobs::described, 150),
    state("wall-error", "wall", jobs::wrong, 150),
    state("wall-refused", "wall", jobs::refused, 150),
];
const ABOVE: &[State] = &[
    state("above-empty", "above", jobs::empty, 80),
    state("above-filled", "above", jobs::described, 100),
    state("above-error", "above", jobs::wrong, 100),
];
const SUPPORT: &[State] = &[
    state("support-empty", "support", jobs::empty, 80),
    state("support-filled", "support", jobs::described, 150),
    state("support-error", "support", jobs::wrong, 80),
];
const SUPPORT_ON: &[State] = &[
    state("support-refused", "support", jobs::refused, 80),
    state("support-nothing", "support", jobs::nothing_holds, 80),
    state("support-demo", "support", jobs::demo, 150),
];
const ORDER: &[State] = &[
    state("order-empty", "order", jobs::empty, 50),
    state("order-kept", "order", jobs::kept, 80),
    state("order-stop", "order", jobs::moving, 80),
];
const ROUND: &[State] = &[
    state("round-empty", "round", jobs::described, 40),
    state("round-kept", "round", jobs::kept, 80),
    doing("round-error", "round", jobs::kept, 80, |bench| {
        bench.tap("Begin with");
        bench.see("Not answered yet");
    }),
    state("round-prop", "round", jobs::at_prop, 80),
    doing("round-stop", "round", jobs::stopped, 80, |bench| bench.see("STOP")),
    doing("round-whole", "round", jobs::at_whole, 80, |bench| {
        bench.see("Finish this round")
    }),
];
const RECORD: &[State] = &[
    state("record-empty", "record", jobs::empty, 60),
    state("record-filled", "record", jobs::demo, 80),
    doing("record-error", "record", jobs::empty, 60, |bench| {
        bench.tap("Keep this note");
        bench.see("The note is empty");
    }),
    doing("record-correct", "record", jobs::demo, 60, |bench| {
        bench.tap("Correct this");
        bench.see("Nothing is taken back");
    }),
];
const BESIDE: &[State] = &[
    state("findings-empty", "findings", jobs::kept, 40),
    state("findings-open", "findings", jobs::found, 50),
    state("findings-stop", "findings", jobs::moving, 50),
    doing("findings-error", "findings", jobs::kept, 40, |bench| {
        bench.tap("Write it down");
        bench.see("Choose what it is.");
    }),
    state("emergency-empty", "emergency", jobs::empty, 50),
    state("emergency-filled", "emergency", jobs::peopled, 50),
];

const MEASURE: &[State] = &[
    state("measure-empty", "measure", jobs::described, 40),
    state("measure-photo", "measure", pictures::photographed, 60),
    doing("measure-error", "measure", pictures::photographed, 60, |bench| {
        bench.answer("What it is", "A door leaf");
        bench.fill("Its width", "wide");
        bench.see("Tap: upper left corner of the door leaf");
    }),
    doing("measure-read", "measure", pictures::tapped, 100, |bench| {
        bench.see("mm from the left jamb")
    }),
];
const CLOSE: &[State] = &[
    state("close-before", "close", jobs::kept, 50),
    state("close-down", "close", jobs::taking_out, 80),
    doing("close-down-error", "close", jobs::taking_out, 80, |bench| {
        bench.tap("Write this step down");
        bench.see("type what it reads, in mm");
    }),
    state("close-looks", "close", jobs::taken_out, 80),
    state("close-closed", "close", jobs::closed, 40),
    doing("close-correct", "record", jobs::taken_out, 80, |bench| {
        bench.tap("Correct this");
        bench.see("Nothing is taken back");
        bench.see("Turns down");
    }),
    state("round-while-stopped", "round", jobs::moving, 80),
];

macro_rules! looked_at {
    ($($test:ident: $states:ident;)*) => { $(#[test] fn $test() { look_at(stringify!($test), $states); })* };
}

looked_at! {
    states_of_jobs: JOBS;
    states_of_hand_over: HAND_OVER;
    states_of_start: START;
    states_of_start_on: START_ON;
    states_of_wall: WALL;
    states_of_above: ABOVE;
    states_of_support: SUPPORT;
    states_of_support_on: SUPPORT_ON;
    states_of_order: ORDER;
    states_of_round: ROUND;
    states_of_record: RECORD;
    states_of_pages_beside: BESIDE;
    states_of_measure: MEASURE;
    states_of_taking_out_and_closing: CLOSE;
}
