//! Which frames reach the screen while a page is scrolled, by the browser's own account of each: its scrolling thread draws one
//! although the page is late with what is new in it, so this is what an eye sees, while frames of the page are what its thread
//! keeps up with.

use crate::bench::Bench;
use crate::browser::Browser;
use serde_json::{Value, json};
use std::collections::HashMap;
use std::sync::Arc;
use std::sync::mpsc::Receiver;
use std::time::Duration;

/// Where the browser accounts for its frames.
const KIND: &str = "benchmark";
/// Longest wait for what the browser has written down.
const PATIENCE: Duration = Duration::from_secs(60);

/// A second session with the open page, which hears what is traced.
struct Ear {
    browser: Arc<Browser>,
    session: String,
    events: Receiver<Value>,
}

impl Ear {
    fn at(bench: &Bench) -> Self {
        let browser = Browser::shared();
        let told = bench.page.call("Target.getTargetInfo", json!({}));
        let target = told.pointer("/targetInfo/targetId").unwrap();
        let told = browser.call(
            "",
            "Target.attachToTarget",
            json!({"targetId": target, "flatten": true}),
        );
        let session = told.unwrap().get("sessionId").unwrap().as_str().unwrap().to_owned();
        let events = browser.events(&session);
        Self {
            browser,
            session,
            events,
        }
    }

    /// What the browser writes down of frames while something is done, each with its process.
    fn trace(&self, act: impl FnOnce()) -> Vec<(i64, Value)> {
        let config = json!({"transferMode": "ReportEvents", "traceConfig": {"recordMode": "recordAsMuchAsPossible", "includedCategories": [KIND]}});
        self.browser.call(&self.session, "Tracing.start", config).unwrap();
        act();
        self.browser.call(&self.session, "Tracing.end", json!({})).unwrap();
        let mut all = Vec::new();
        loop {
            let event = self.events.recv_timeout(PATIENCE).unwrap();
            match event.get("method").and_then(Value::as_str) {
                Some("Tracing.dataCollected") => {
                    let part = event.pointer("/params/value").and_then(Value::as_array);
                    let frames = part.into_iter().flatten().filter_map(|one| {
                        let told = one.pointer("/args/frame_reporter")?;
                        Some((one.get("pid")?.as_i64()?, told.clone()))
                    });
                    all.extend(frames);
                }
                Some("Tracing.tracingComplete") => return all,
                _ => {}
            }
        }
    }
}

impl Drop for Ear {
    fn drop(&mut self) {
        self.browser.forget(&self.session);
        let detach = json!({"sessionId": self.session});
        drop(self.browser.send("", "Target.detachFromTarget", detach));
    }
}

/// Frames while something is done to the page that scrolls it: how many there were to draw, how many never reached the screen,
/// and in how many of them a part of the page was not painted yet.
pub fn drawn(bench: &Bench, act: impl FnOnce()) -> Value {
    // One frame has two accounts where the page's part of it came later than the scrolling.
    let mut frames: HashMap<(i64, i64, i64), (bool, bool, bool)> = HashMap::new();
    for (process, told) in Ear::at(bench).trace(act) {
        let word = |name: &str| told.get(name).and_then(Value::as_str).unwrap();
        let number = |name: &str| told.get(name).and_then(Value::as_i64).unwrap();
        let state = word("state");
        if word("scroll_state") == "SCROLL_NONE" || state == "STATE_NO_UPDATE_DESIRED" {
            continue;
        }
        let of = (process, number("frame_source"), number("frame_sequence"));
        let (shown, dropped, missing) = frames.entry(of).or_default();
        match state {
            "STATE_PRESENTED_ALL" | "STATE_PRESENTED_PARTIAL" => *shown = true,
            "STATE_DROPPED" => *dropped = true,
            _ => panic!("no frame is known that is {state}"),
        }
        *missing |= told.get("has_missing_content").and_then(Value::as_bool).unwrap();
    }
    let count = |what: fn(&(bool, bool, bool)) -> bool| frames.values().filter(|one| what(one)).count();
    json!({ "count": frames.len(), "dropped": count(|(shown, dropped, _)| *dropped && !shown), "missing": count(|one| one.2) })
}
