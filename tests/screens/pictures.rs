//! Photos of known size, drawn here, and jobs that have them.

use crate::app::App;
use crate::bench::Bench;
use crate::jobs;
use crate::wall_photo;
use jpeg_encoder::{ColorType, Encoder};
use serde_json::{Value, json};
use std::time::{Duration, Instant};
use tauri::ipc::InvokeBody;

/// A picture that is drawn pixel by pixel.
pub struct Picture {
    size: (u16, u16),
    rgb: Vec<u8>,
}

impl Picture {
    /// Plaster with a little grain.
    pub fn new(width: u16, height: u16) -> Self {
        let pixels = usize::from(width) * usize::from(height);
        let grain = |i: usize| ((i.wrapping_mul(2_654_435_761) >> 13) % 9) as u8;
        let rgb = (0..pixels)
            .flat_map(|i| [214 - grain(i), 206 - grain(i), 190 - grain(i)])
            .collect();
        Self {
            size: (width, height),
            rgb,
        }
    }

    /// A strip between two points, px, with its width across.
    pub fn strip(mut self, from: [f64; 2], to: [f64; 2], wide: f64, colour: [u8; 3]) -> Self {
        let ([ax, ay], [bx, by]) = (from, to);
        let (dx, dy) = (bx - ax, by - ay);
        let long = dx.hypot(dy);
        let columns = usize::from(self.size.0);
        for (i, pixel) in self.rgb.chunks_exact_mut(3).enumerate() {
            let (x, y) = ((i % columns) as f64 + 0.5 - ax, (i / columns) as f64 + 0.5 - ay);
            let (along, across) = ((x * dx + y * dy) / long, (x * dy - y * dx) / long);
            if (0.0..=long).contains(&along) && across.abs() <= wide / 2.0 {
                pixel.copy_from_slice(&colour);
            }
        }
        self
    }

    /// As JPEG.
    pub fn jpeg(&self) -> Vec<u8> {
        let mut bytes = Vec::new();
        let (width, height) = self.size;
        Encoder::new(&mut bytes, 92)
            .encode(&self.rgb, width, height, ColorType::Rgb)
            .unwrap();
        bytes
    }
}

/// Puts a photo into a job, without the screens; gives its hash.
pub fn add(app: &App, id: &str, about: &str, bytes: Vec<u8>) -> String {
    let headers =
        json!({"x-job": id, "x-about": about, "x-kind": "group", "x-name": "IMG_0050.jpg", "x-modified": "0"});
    let photo = app.send("photo_add", InvokeBody::Raw(bytes), &headers).unwrap();
    photo.get("sha").and_then(Value::as_str).unwrap().to_owned()
}

/// The wall of known size as a JPEG, so many times as large as it is drawn for taps.
pub fn wall(app: &App, times: f64) -> Vec<u8> {
    let file = app.home().join("wall.jpg");
    wall_photo::take(&file, times);
    std::fs::read(file).unwrap()
}

/// A job with a proposal kept and a photo of its wall, nothing tapped yet.
pub fn photographed(app: &App) -> String {
    let id = jobs::kept(app);
    add(app, &id, "wall", wall(app, 1.0));
    id
}

/// The same, with all taps made: a small thing of known size, zero, the opening, a height, an edge.
pub fn tapped(app: &App) -> String {
    tapped_on(app, 1.0)
}

/// The same on a photo with so many times its pixels along each side.
pub fn tapped_on(app: &App, times: f64) -> String {
    let id = jobs::kept(app);
    let sha = add(app, &id, "wall", wall(app, times));
    let [left, right, low, high] = wall_photo::TAPED_MM;
    let [wide, head] = wall_photo::OPENING_MM;
    let taps = [
        ("t/c0", [left, high]),
        ("t/c1", [right, high]),
        ("t/c2", [right, low]),
        ("t/c3", [left, low]),
        ("t/origin", [0.0, 1000.0]),
        ("t/floor", [1200.0, 0.0]),
        ("r/0/0", [0.0, head]),
        ("r/0/1", [wide, head]),
        ("r/0/2", [wide, 0.0]),
        ("r/0/3", [0.0, 0.0]),
        ("r/1/0", [2550.0, 2250.0]),
        ("e/0/0", [-200.0, 2250.0]),
        ("e/0/1", [1800.0, 2250.0]),
        ("e/0/2", [4100.0, 2250.0]),
    ];
    let at = |key: &str| format!("/job/sight/{}/{key}", sha.get(..12).unwrap());
    let said = [
        ("kind", "taped"),
        ("width_mm", "1500"),
        ("height_mm", "2000"),
        ("r/0/what", "opening"),
        ("r/1/what", "level"),
        ("e/0/n", "3"),
    ];
    let all: Vec<(String, String)> = said
        .iter()
        .map(|(key, text)| (at(key), (*text).to_owned()))
        .chain(taps.iter().map(|(key, spot)| {
            let [x, y] = wall_photo::see(*spot).map(|px| px * times);
            (at(key), format!("{x:.2} {y:.2}"))
        }))
        .collect();
    let all: Vec<(&str, &str)> = all
        .iter()
        .map(|(field, text)| (field.as_str(), text.as_str()))
        .collect();
    jobs::write(app, &id, &all);
    id
}

/// Where a share of the photo lies on the screen, once it stands still in sight.
pub fn place(bench: &Bench, [x, y]: [f64; 2]) -> [f64; 2] {
    bench.wait("a photo can be tapped", "!!document.querySelector('.tapstage img')");
    let script = format!(
        "(async () => {{ const $img = document.querySelector('.tapstage img'); await $img.decode(); \
         $img.scrollIntoView({{ block: 'center', behavior: 'instant' }}); \
         await new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))); \
         const box = $img.getBoundingClientRect(); return [box.left + {x} * box.width, box.top + {y} * box.height] }})()"
    );
    let at = bench.value(&script);
    [0, 1].map(|i| at.get(i).and_then(Value::as_f64).unwrap())
}

/// Taps a share of the photo with a finger, and waits until one spot more stands there.
pub fn tap(bench: &Bench, share: [f64; 2]) {
    let count = "document.querySelectorAll('.tapspot').length";
    let before = bench.value(count).as_u64().unwrap();
    let begun = Instant::now();
    let [x, y] = place(bench, share);
    bench.touch(x, y);
    while bench.value(count) != json!(before + 1) {
        assert!(
            begun.elapsed() < Duration::from_secs(10),
            "the tap at {share:?} is not taken"
        );
        std::thread::park_timeout(Duration::from_millis(15));
    }
    bench.settle();
}
