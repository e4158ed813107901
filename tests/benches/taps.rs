//! Frames while a tap is moved on a photo of 12 megapixels, in headless Chromium with its processor slowed to a quarter: how long
//! the page works for each, and how far they are apart. Prints figures and judges nothing.
//!
//! `cargo test -p upstay --bench taps`
#![expect(
    clippy::unwrap_used,
    dead_code,
    reason = "a bench may stop at the first thing that is not there, and needs only a part of what the screens' tests share"
)]

#[path = "../screens/app.rs"]
mod app;
#[path = "../screens/bench.rs"]
mod bench;
#[path = "../screens/browser.rs"]
mod browser;
#[path = "../screens/jobs.rs"]
mod jobs;
#[path = "../screens/page.rs"]
mod page;
#[path = "../screens/pictures.rs"]
mod pictures;
#[path = "../screens/view.rs"]
mod view;
#[path = "../window/wall_photo.rs"]
mod wall_photo;

use bench::{Bench, play};
use serde_json::{Value, json};
use view::{PHONE, View};

/// Along each side of the drawn photo: 4000 by 3000 pixels.
const TIMES: f64 = 2.5;
/// Pixels of the screen for one of the page, as on most phones.
const SHARP: u32 = 3;
const SLOWED: u32 = 4;
const MOVES: u32 = 240;
/// A screen that draws 60 times a second, ms.
const FRAME_MS: f64 = 1000.0 / 60.0;

/// Keeps when frames begin, and how long the page works for each in which the finger moved: in its own scripts, and from the
/// frame's beginning until it is laid out and handed on.
const WATCH: &str = "(() => {
  window.frames_ms = []; window.work_ms = []; window.script_ms = []
  let [last, handled, begun, frame, scripts, asked] = [0, 0, 0, 0, 0, false]
  const { port1, port2 } = new MessageChannel()
  port1.onmessage = () => {
    window.work_ms.push(handled + performance.now() - frame); window.script_ms.push(handled + scripts)
    handled = 0
  }
  const each = (now) => {
    if (last) window.frames_ms.push(now - last)
    last = now
    requestAnimationFrame(each)
    if (asked) { asked = false; frame = performance.now(); port2.postMessage(0) }
  }
  requestAnimationFrame(each)
  addEventListener('pointermove', () => { begun = performance.now() }, true)
  // After the page's own: what it leaves for the frame comes before this, too.
  addEventListener('pointermove', () => {
    handled += performance.now() - begun; asked = true
    requestAnimationFrame(() => { scripts = performance.now() - frame })
  })
})()";

fn main() {
    play("taps", View { sharp: SHARP, ..PHONE }, |bench| {
        let id = pictures::tapped_on(bench.app(), TIMES);
        bench.go(&format!("{id}/measure"));
        bench.see("mm from the left jamb");
        bench.still();
        pictures::place(bench, [0.5, 0.5]);
        let corner = bench.value("(() => { const box = document.querySelector(\"[data-key='r/0/1']\").getBoundingClientRect(); return [box.x + 24, box.y + 24] })()");
        let [x, y] = [0, 1].map(|i| corner.get(i).and_then(Value::as_f64).unwrap());
        println!("photo 4000 x 3000 px, page 360 x 740, {SHARP} pixels of the screen for one of it");
        bench.value(WATCH);
        for (name, rate) in [("as it is", 1), ("slowed 4 times", SLOWED)] {
            bench.page.call("Emulation.setCPUThrottlingRate", json!({"rate": rate}));
            drag(bench, [x, y]);
            bench.page.call("Emulation.setCPUThrottlingRate", json!({"rate": 1}));
            bench.still();
            for (what, list) in [
                ("work for a frame", "work_ms"),
                ("of it in scripts", "script_ms"),
                ("from frame to frame", "frames_ms"),
            ] {
                report(name, what, &bench.value(&format!("window.{list}")));
            }
        }
    });
}

/// Draws a circle with a finger that lies beside the spot.
fn drag(bench: &Bench, [x, y]: [f64; 2]) {
    let touch = |kind: &str, at: Option<[f64; 2]>| {
        let points: Vec<Value> = at.iter().map(|[x, y]| json!({"x": x, "y": y})).collect();
        bench
            .page
            .call("Input.dispatchTouchEvent", json!({"type": kind, "touchPoints": points}));
    };
    touch("touchStart", Some([x + 20.0, y]));
    bench.value("window.frames_ms.length = window.work_ms.length = window.script_ms.length = 0; 1");
    for step in 0..MOVES {
        let (sin, cos) = (f64::from(step) / 12.0).sin_cos();
        touch("touchMove", Some([x + 20.0 * cos, y + 20.0 * sin]));
    }
    touch("touchEnd", None);
}

fn report(name: &str, what: &str, list: &Value) {
    let mut all: Vec<f64> = list.as_array().unwrap().iter().filter_map(Value::as_f64).collect();
    all.sort_by(f64::total_cmp);
    let at = |share: f64| {
        all.get(((all.len() - 1) as f64 * share).round() as usize)
            .copied()
            .unwrap_or(f64::NAN)
    };
    let over = all.iter().filter(|ms| **ms > 1.5 * FRAME_MS).count();
    println!(
        "{name}: {what}: {} of them, median {:.1} ms, 95th percentile {:.1} ms, largest {:.1} ms; {over} over one and a half frames of {FRAME_MS:.1} ms",
        all.len(),
        at(0.5),
        at(0.95),
        at(1.0)
    );
}
