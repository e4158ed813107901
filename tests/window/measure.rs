//! The photo as the measuring tool: from a photo to a description, and back onto the photo.

use crate::hand::Hand;
use crate::stage::{Stage, play};
use crate::wall_photo::{OPENING_MM, SIZE, TAPED_MM, see, share, take};
use fantoccini::key::Key;
use serde_json::{Value, json};
use zune_core::bytestream::ZCursor;
use zune_jpeg::JpegDecoder;

/// A job that lacks only what the photo is to give.
async fn begin(hand: &Hand) -> String {
    let begun = json!({"name": "Weir Cottage, kitchen", "place": "Mill Lane", "country": "england"});
    let begun = hand.invoke("job_begin", begun).await.unwrap();
    let id = begun.get("id").unwrap().as_str().unwrap().to_owned();
    let mut job = calc::example::job("two-storey-cavity")
        .or_else(|| calc::example::job(calc::example::names().first()?))
        .unwrap();
    let opening = job.get_mut("opening").unwrap().as_object_mut().unwrap();
    opening.remove("width_m");
    opening.remove("head_m");
    let writes: Vec<Value> = upstay_lib::form::flatten(&job)
        .iter()
        .enumerate()
        .map(|(at, (field, text))| json!({"field": field, "text": text, "counter": at + 1}))
        .collect();
    hand.invoke("draft_put", json!({"id": id, "writes": writes}))
        .await
        .unwrap();
    id
}

async fn go(hand: &Hand, id: &str, screen: &str) {
    hand.ask(&format!("location.hash = '#{id}/{screen}'")).await;
    let there = "return document.body.dataset.screen === arguments[0]";
    hand.wait(&format!("{screen} is shown"), there, json!(screen)).await;
}

/// Taps a point of the wall, and waits until one spot more stands there.
async fn tap(hand: &Hand, at: [f64; 2]) {
    let count = "return document.querySelectorAll('.tapspot').length";
    let before = hand.ask(count).await.as_u64().unwrap();
    hand.tap(".tapstage", share(at)).await;
    let more = "return document.querySelectorAll('.tapspot').length === arguments[0]";
    hand.wait("the tap is taken", more, json!(before + 1)).await;
}

async fn opened(hand: &Hand, id: &str) -> Value {
    hand.invoke("job_open", json!({"id": id})).await.unwrap()
}

pub fn number(value: &Value, at: &str) -> f64 {
    let found = value.pointer(at).unwrap_or_else(|| panic!("no {at} in {value}"));
    match found {
        Value::String(text) => text.parse().unwrap(),
        other => other.as_f64().unwrap(),
    }
}

/// The first reading that is shown under a name: value and ±, mm.
async fn shown(hand: &Hand, name: &str) -> (f64, f64) {
    let script = format!(
        "const row = [...document.querySelectorAll('.reading')][0]; \
         const figure = [...row.querySelectorAll('.pair > div')].find((one) => one.innerText.includes('{name}')); \
         return figure ? [parseFloat(figure.querySelector('b').textContent) * 1000, parseFloat(figure.querySelector('.figure span').textContent.replace('±', ''))] : null"
    );
    let there = format!("return !!(() => {{ {script} }})()");
    hand.wait(&format!("{name} is read"), &there, Value::Null).await;
    let read = hand.ask(&script).await;
    (number(&read, "/0"), number(&read, "/1"))
}

/// From the photo to a description: four taps on tape, zero tapped, the opening drawn and taken.
async fn measure(hand: &Hand, id: &str, stage: &Stage) {
    let file = stage.home().join("IMG 0050.jpg");
    take(&file, 1.0);
    go(hand, id, "measure").await;
    hand.see("No photo of the wall yet").await;
    hand.upload("Add a photo of the wall from this device", &file).await;
    hand.answer("What it is", "A taped rectangle").await;
    hand.fill("Its width", "1500").await;
    hand.fill("Its height", "2 m").await;
    hand.see("Tap: upper left corner of the taped rectangle").await;
    let [left, right, low, high] = TAPED_MM;
    for corner in [[left, high], [right, high], [right, low], [left, low]] {
        tap(hand, corner).await;
    }
    tap(hand, [0.0, 1000.0]).await;
    tap(hand, [1200.0, 0.0]).await;
    hand.press("Draw the new opening").await;
    let [wide, head] = OPENING_MM;
    for corner in [[0.0, head], [wide, head], [wide, 0.0], [0.0, 0.0]] {
        tap(hand, corner).await;
    }
    for (name, truth) in [("Width", wide), ("Head over the floor", head)] {
        let (read, within) = shown(hand, name).await;
        assert!(within > 1.0 && within < 150.0, "{name}: ± {within}");
        assert!(
            (read - truth).abs() <= within,
            "{name}: {read} ± {within}, in truth {truth}"
        );
    }
}

/// Steps by the arrow keys move a spot by less than a point of the screen, and are kept.
async fn nudge(hand: &Hand, id: &str) {
    let open = opened(hand, id).await;
    let fields = open.get("fields").unwrap().as_object().unwrap();
    let (path, before) = fields.iter().find(|(path, _)| path.ends_with("/t/c1")).unwrap();
    let x = |text: &Value| -> f64 { text.as_str().unwrap().split(' ').next().unwrap().parse().unwrap() };
    hand.key(".tapspot[data-key='t/c1']", Key::Right).await;
    hand.key(".tapspot[data-key='t/c1']", Key::Left).await;
    hand.key(".tapspot[data-key='t/c1']", Key::Right).await;
    let start = std::time::Instant::now();
    loop {
        let after = opened(hand, id).await;
        let moved = x(after.get("fields").unwrap().get(path).unwrap()) - x(before);
        if moved > 0.0 {
            let width = hand
                .ask("return document.querySelector('.tapstage img').clientWidth")
                .await;
            let step = f64::from(SIZE.0) / width.as_f64().unwrap() / 4.0;
            assert!((moved - step).abs() < 0.05, "moved {moved} px, a step is {step}");
            return;
        }
        assert!(start.elapsed() < crate::stage::PATIENCE, "the arrow key moved nothing");
    }
}

/// Red, green and blue of the drawn picture.
struct Drawn {
    width: usize,
    rgb: Vec<u8>,
}

impl Drawn {
    fn of(stage: &Stage, id: &str, sha: &str) -> Self {
        let file = stage
            .home()
            .join("data/org.upstay.app/jobs")
            .join(id)
            .join("photos")
            .join(sha);
        let bytes = std::fs::read(file).unwrap();
        let mut decoder = JpegDecoder::new(ZCursor::new(bytes.as_slice()));
        let rgb = decoder.decode().unwrap();
        let (width, height) = decoder.dimensions().unwrap();
        assert_eq!(width, usize::from(SIZE.0));
        assert!(height > usize::from(SIZE.1), "words stand under the photo");
        Self { width, rgb }
    }

    /// Whether the red oxide of needles lies within some px to a side of a place.
    fn oxide_near(&self, [x, y]: [f64; 2], within_px: f64) -> bool {
        let row = y.round() as usize;
        let from = (x - within_px).floor().max(0.0) as usize;
        (from..=(x + within_px).ceil() as usize).any(|column| {
            let at = (row * self.width + column) * 3;
            let [r, g, b] = <[u8; 3]>::try_from(self.rgb.get(at..at + 3).unwrap()).unwrap();
            (100..=185).contains(&r) && g < 85 && b < 65
        })
    }
}

#[test]
fn a_photo_fills_the_description_and_bears_the_set_out() {
    play("a_photo_fills_the_description_and_bears_the_set_out", async |stage| {
        let hand = stage.open().await;
        let id = begin(&hand).await;
        measure(&hand, &id, &stage).await;
        nudge(&hand, &id).await;
        hand.picture("measure").await;
        let (width, within) = shown(&hand, "Width").await;
        hand.press("Take into the description: New opening").await;
        hand.see("Taken: Width").await;
        let open = opened(&hand, &id).await;
        let fields = open.get("fields").unwrap();
        let taken = |key: &str| -> f64 { fields.get(key).unwrap().as_str().unwrap().parse::<f64>().unwrap() * 1000.0 };
        assert!((taken("/opening/width_m") - width).abs() < 0.6);
        assert!((taken("/opening/width_m") - OPENING_MM[0]).abs() <= within);
        let record = hand
            .invoke("record", json!({"id": id, "before": null, "limit": 50}))
            .await
            .unwrap();
        let note = "Measured on photo";
        let noted = record.get("entries").unwrap().as_array().unwrap();
        let noted = noted
            .iter()
            .find(|entry| entry.to_string().contains(note))
            .unwrap()
            .to_string();
        assert!(
            noted.contains("±") && noted.contains("taped rectangle, 1500 mm × 2 m"),
            "{noted}"
        );

        // The taps are still there after the app was closed.
        go(&hand, &id, "support").await;
        hand.press("Keep this proposal").await;
        hand.see("It stands in the record").await;
        hand.close().await;
        let hand = stage.open().await;
        go(&hand, &id, "measure").await;
        hand.wait(
            "the taps stand",
            "return document.querySelectorAll('.tapspot').length === 10",
            Value::Null,
        )
        .await;
        hand.see("mm from the left jamb").await;
        hand.press("Save as a picture").await;
        hand.see("Kept in the record as photo").await;
        hand.picture("measure-set-out").await;

        let open = opened(&hand, &id).await;
        let photos = open.get("photos").unwrap().as_array().unwrap();
        let drawn: Vec<&Value> = photos
            .iter()
            .filter(|photo| photo.get("about").unwrap() == "wall, set-out drawn on it")
            .collect();
        assert_eq!(drawn.len(), 1, "{photos:?}");
        let picture = Drawn::of(
            &stage,
            &id,
            drawn.first().unwrap().get("sha").unwrap().as_str().unwrap(),
        );
        let chosen = number(&open, "/kept/option");
        let option = open.pointer(&format!("/kept/proposal/options/{chosen}")).unwrap();
        let rows = hand.ask("return [...document.querySelectorAll('.setout tbody tr')].map((row) => [...row.cells].map((cell) => cell.textContent))").await;
        let needles = option.get("needles").unwrap().as_array().unwrap();
        assert_eq!(rows.as_array().unwrap().len(), needles.len());
        let soffit_mm = number(option, "/needle_soffit_m") * 1000.0;
        for (needle, row) in needles.iter().zip(rows.as_array().unwrap()) {
            let x_mm = number(needle, "/x_m") * 1000.0;
            assert!((number(row, "/1") - x_mm).abs() <= 0.5 + 1e-6, "{row}");
            let within_mm: f64 = row
                .get(3)
                .unwrap()
                .as_str()
                .unwrap()
                .trim_start_matches("± ")
                .parse()
                .unwrap();
            // The middle line just under the needle: in truth here, drawn within its own ±.
            let at = [x_mm, soffit_mm - 60.0];
            let (a, b) = (see(at), see([x_mm + within_mm, at[1]]));
            let within_px = (b[0] - a[0]).abs() + 3.0;
            assert!(
                picture.oxide_near(a, within_px),
                "{needle}: no line within {within_px} px of {a:?}"
            );
            // Half way to the next there is none.
            let between = see([x_mm + 220.0, soffit_mm - 60.0]);
            assert!(
                !picture.oxide_near(between, 4.0),
                "a line at {between:?} where none belongs"
            );
        }
        hand.close().await;
    });
}
