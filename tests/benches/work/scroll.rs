//! Frames while a long record is scrolled by a finger, in headless Chromium with its processor slowed to a quarter.

use crate::bench::{Bench, there};
use crate::build;
use crate::drawn::drawn;
use crate::view::PHONE;
use serde_json::{Value, json};
use std::time::{Duration, Instant};

const SLOWED: u32 = 4;
/// A screen that draws 60 times a second, ms.
const FRAME_MS: f64 = 1000.0 / 60.0;
/// A swipe: where the finger begins, pixels from the top, how far it goes with each move, and how often it moves. About one move
/// fits into a frame, so it goes at some 2,000 pixels a second, as a thumb that looks for a day.
const FROM_PX: u32 = 660;
const MOVE_PX: u32 = 35;
const MOVES: u32 = 16;
const SWIPES: usize = 24;
/// Enough text for all swipes.
const PARAGRAPHS: usize = 4000;
/// How long the page runs on by itself before the next swipe.
const RUNS_ON: Duration = Duration::from_millis(250);

/// Keeps for each frame in which the page moved how long it took, and how long the page's main thread was busy with it.
const WATCH: &str = "(() => {
  window.watching = true; window.frames_ms = []; window.work_ms = []
  let [last, frame, open, at] = [0, 0, false, scrollY]
  const { port1, port2 } = new MessageChannel()
  port1.onmessage = () => { window.work_ms.push(performance.now() - frame); open = false }
  const each = (now) => {
    const moved = scrollY !== at
    if (last && moved) window.frames_ms.push(now - last)
    last = now; at = scrollY
    if (window.watching) requestAnimationFrame(each)
    if (moved && !open) { open = true; frame = performance.now(); port2.postMessage(0) }
  }
  requestAnimationFrame(each)
})()";

/// Keeps for each frame whether a place of the window shows a part of the record that was not filled yet, since a page that
/// shows nothing is easily quick.
const LOOK: &str = "(() => {
  window.empty = []
  window.looking = true
  const empty = (y) => document.elementFromPoint(180, y)?.closest('.block')?.childElementCount === 0
  const each = () => { window.empty.push([200, 400, 600].some(empty)); if (window.looking) requestAnimationFrame(each) }
  requestAnimationFrame(each)
})()";

/// Scrolls through the record of a job with `n` notes and `n` photos.
pub fn scroll(n: usize) -> Value {
    if !there("the record's frames", &["chromium"]) {
        return json!({ "not_run": "chromium is not installed" });
    }
    let bench = Bench::set(PHONE);
    let id = build::many(&bench.app().home().join("data"), n);
    bench.go(&format!("{id}/record"));
    bench.wait(
        "entries are drawn",
        "document.querySelectorAll('.timeline .block > *').length > 0",
    );
    bench.still();
    let before = spent(&bench);
    let (seconds, moved, frames, work) = watched(&bench);
    let busy: Value = spent(&bench)
        .into_iter()
        .zip(before)
        .map(|((name, now), (_, before))| (name, json!(now - before)))
        .collect();
    // Looked at apart, since looking is work as well.
    bench
        .page
        .call("Emulation.setCPUThrottlingRate", json!({"rate": SLOWED}));
    bench.value(LOOK);
    (0..SWIPES).for_each(|_| swipe(&bench));
    let empty = bench.value("window.looking = false; [window.empty.filter((one) => one).length, window.empty.length]");
    bench.value("scrollTo(0, 0)");
    bench.still();
    let screen = drawn(&bench, || (0..SWIPES).for_each(|_| swipe(&bench)));
    bench.page.call("Emulation.setCPUThrottlingRate", json!({"rate": 1}));
    bench.nothing_went_wrong();
    bench.shot("scrolled");
    let held = bench.value("document.querySelectorAll('.timeline .block > *').length");
    plain(&bench);
    let (_, _, plain, _) = watched(&bench);
    json!({ "plain": plain, "seconds": seconds, "frames": frames, "work": work, "moved_px": moved, "busy_s": busy, "empty_of": empty, "screen": screen, "entries_in_the_page": held })
}

/// Swipes through the page that is open: seconds, pixels it moved, its frames, and the work for them.
fn watched(bench: &Bench) -> (f64, Value, Value, Value) {
    bench.value(WATCH);
    bench
        .page
        .call("Emulation.setCPUThrottlingRate", json!({"rate": SLOWED}));
    swipe(bench);
    let from = bench.value("window.frames_ms.length = window.work_ms.length = 0; scrollY");
    let begun = Instant::now();
    (0..SWIPES).for_each(|_| swipe(bench));
    let seconds = begun.elapsed().as_secs_f64();
    let moved = bench.value(&format!("window.watching = false; scrollY - {from}"));
    let figures = |name: &str| figures(&bench.value(&format!("window.{name}")));
    let (frames, work) = (figures("frames_ms"), figures("work_ms"));
    bench.page.call("Emulation.setCPUThrottlingRate", json!({"rate": 1}));
    (seconds, moved, frames, work)
}

/// Opens a page of text without any script instead: frames that come late there are no fault of the record's.
fn plain(bench: &Bench) {
    bench.page.call("Page.navigate", json!({"url": "about:blank"}));
    let tree = bench.page.call("Page.getFrameTree", json!({}));
    let html = format!(
        "<!doctype html><meta name='viewport' content='width=device-width'>{}",
        "<p>Looked at the props, all tight; one more line of text.</p>".repeat(PARAGRAPHS)
    );
    bench.page.call(
        "Page.setDocumentContent",
        json!({"frameId": tree.pointer("/frameTree/frame/id"), "html": html}),
    );
}

/// What the page's main thread has done so far, by kind, s.
fn spent(bench: &Bench) -> Vec<(String, f64)> {
    bench.page.call("Performance.enable", json!({}));
    let told = bench.page.call("Performance.getMetrics", json!({}));
    let all = told.get("metrics").and_then(Value::as_array).unwrap();
    let named = all
        .iter()
        .filter_map(|one| Some((one.get("name")?.as_str()?, one.get("value")?.as_f64()?)));
    named
        .filter(|(name, _)| {
            [
                "LayoutDuration",
                "RecalcStyleDuration",
                "ScriptDuration",
                "TaskDuration",
            ]
            .contains(name)
        })
        .map(|(name, seconds)| (name.to_owned(), seconds))
        .collect()
}

/// One stroke of a finger upwards, and what the page runs on after it.
fn swipe(bench: &Bench) {
    let touch = |kind: &str, at_px: Option<u32>| {
        let points: Vec<Value> = at_px.iter().map(|y| json!({"x": 180, "y": y})).collect();
        bench
            .page
            .call("Input.dispatchTouchEvent", json!({"type": kind, "touchPoints": points}));
    };
    touch("touchStart", Some(FROM_PX));
    (1..=MOVES).for_each(|number| touch("touchMove", Some(FROM_PX - number * MOVE_PX)));
    touch("touchEnd", None);
    std::thread::park_timeout(RUNS_ON);
}

fn figures(list: &Value) -> Value {
    let mut all: Vec<f64> = list.as_array().unwrap().iter().filter_map(Value::as_f64).collect();
    all.sort_by(f64::total_cmp);
    let at = |share: f64| {
        all.get((all.len().saturating_sub(1) as f64 * share).round() as usize)
            .copied()
    };
    let late = all.iter().filter(|ms| **ms > 1.5 * FRAME_MS).count();
    json!({ "count": all.len(), "median_ms": at(0.5), "p95_ms": at(0.95), "largest_ms": at(1.0), "late": late,
        "mean_ms": all.iter().sum::<f64>() / all.len().max(1) as f64 })
}
