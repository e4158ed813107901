//! The photo and the phone as measuring tools, by the whole path: what they read stands in the description or in a round.

use crate::bench::{Bench, play};
use crate::jobs;
use crate::paths::{WHOLE, begin_round, fields};
use crate::pictures::{self, Picture, add, tap};
use crate::view::{PHONE, SMALL};
use crate::wall_photo::{OPENING_MM, TAPED_MM, share};
use serde_json::{Value, json};

const DARK: [u8; 3] = [40, 36, 34];
const STEEL: [u8; 3] = [150, 60, 40];
/// Pixels of the pictures that are drawn here.
const SIZE: (u16, u16) = (1200, 1600);

fn of_picture([x, y]: [f64; 2]) -> [f64; 2] {
    [x / f64::from(SIZE.0), y / f64::from(SIZE.1)]
}

/// A figure with its ± as it is read on the page: `12 ± 3 mm`.
fn figure(bench: &Bench, selector: &str) -> [f64; 2] {
    let there = format!("!!document.querySelector({})", json!(selector));
    bench.wait(&format!("{selector} is read"), &there);
    let text = bench.value(&format!("document.querySelector({}).textContent", json!(selector)));
    let text = text.as_str().unwrap().to_owned();
    let numbers = text.split(|c: char| !(c.is_ascii_digit() || c == '.'));
    let mut numbers = numbers.filter_map(|one| one.parse::<f64>().ok());
    [numbers.next(), numbers.next()].map(|one| one.unwrap_or_else(|| panic!("no figure in `{text}`")))
}

fn field(bench: &Bench, id: &str, path: &str) -> f64 {
    let all = fields(bench, id);
    let text = all
        .get(path)
        .and_then(Value::as_str)
        .unwrap_or_else(|| panic!("no {path} in {all}"));
    text.trim_start_matches('+').parse().unwrap()
}

/// What was taken is never less than the truth, and no more than its ± beyond it.
fn safe(taken: f64, truth: f64, within: f64) {
    assert!(
        taken >= truth && taken <= truth + 2.0 * within + 1.0,
        "{taken} taken, ± {within}, in truth {truth}"
    );
}

/// The names of all props of the kept proposal.
fn props(bench: &Bench, id: &str) -> Vec<String> {
    let open = bench.app().invoke("job_open", json!({ "id": id })).unwrap();
    let chosen = open.pointer("/kept/option").and_then(Value::as_u64).unwrap();
    let props = open
        .pointer(&format!("/kept/proposal/options/{chosen}/props"))
        .and_then(Value::as_array)
        .unwrap();
    props
        .iter()
        .map(|prop| prop.get("name").unwrap().as_str().unwrap().to_owned())
        .collect()
}

/// Answers all that is still open at every prop, as if by hand.
fn answer_the_rest(bench: &Bench, id: &str) {
    let have = fields(bench, id);
    let usual = [
        ("pin", "right"),
        ("lean_along_mm", "0"),
        ("lean_across_mm", "0"),
        ("head_off_mm", "0"),
        ("foot_off_mm", "0"),
        ("foot_firm", "true"),
        ("straight", "true"),
        ("fixed", "true"),
        ("packed", "true"),
    ];
    let all: Vec<(String, &str)> = props(bench, id)
        .iter()
        .flat_map(|prop| usual.map(|(key, text)| (format!("/round/{prop}/{key}"), text)))
        .filter(|(path, _)| have.get(path).is_none())
        .collect();
    let mut all: Vec<(&str, &str)> = all.iter().map(|(path, text)| (path.as_str(), *text)).collect();
    all.push(("/round/place", "whole"));
    jobs::write(bench.app(), id, &all);
    bench.go(&format!("{id}/round"));
}

#[test]
fn what_photos_read_of_a_prop_and_a_crack_stands_in_the_round() {
    play(
        "what_photos_read_of_a_prop_and_a_crack_stands_in_the_round",
        PHONE,
        |bench| {
            let id = jobs::kept(bench.app());
            // A plate of 150 mm at 4 px a mm, a tube 12 mm off its middle that leans 18 mm per m to the right, a plumb line before it.
            let (off_px, lean) = (12.0 * 4.0, 0.018);
            let head = [600.0 + off_px, 330.0];
            let foot = [head[0] - lean * 1200.0, 1530.0];
            let prop = Picture::new(SIZE.0, SIZE.1)
                .strip([300.0, 300.0], [900.0, 300.0], 40.0, DARK)
                .strip(head, foot, 192.0, STEEL)
                .strip([630.0, 20.0], [630.0, 1590.0], 6.0, DARK);
            let photo = bench.file("prop.jpg", &prop.jpeg());
            begin_round(bench, &id, "N1-in");
            bench.tap("Read it on a photo");
            bench.answer("What is read", "Head off centre");
            bench.upload("Add a photo of this prop from this device", &photo);
            bench.fill("Width of the plate", "150");
            for at in [
                [300.0, 300.0],
                [900.0, 300.0],
                [head[0] - 96.0, 332.0],
                [head[0] + 96.0, 332.0],
            ] {
                tap(bench, of_picture(at));
            }
            let [off, within] = figure(bench, ".byphone .figure b");
            assert!((off - 12.0).abs() <= within && within < 8.0, "{off} ± {within}");
            bench.shot("photo-off-centre");
            bench.tap("Take it");
            bench.see("Taken on the safe side");
            let off_taken = field(bench, &id, "/round/N1-in/head_off_mm");
            safe(off_taken, 12.0, within);

            bench.answer("What is read", "Lean");
            for at in [[630.0, 40.0], [630.0, 1560.0], head, foot] {
                tap(bench, of_picture(at));
            }
            let [read, within] = figure(bench, ".byphone .leanline strong");
            assert!((read - 18.0).abs() <= within + 0.5 && within < 7.0, "{read} ± {within}");
            bench.see("Along the wall, to the right");
            bench.shot("photo-lean");
            bench.tap("Take it");
            bench.see("Along the wall");
            let lean_taken = field(bench, &id, "/round/N1-in/lean_along_mm");
            safe(lean_taken, 18.0, within);

            // A scale of 100 mm at 8 px a mm, and a crack of 2.5 mm.
            answer_the_rest(bench, &id);
            let crack = Picture::new(SIZE.0, SIZE.1)
                .strip([200.0, 500.0], [1000.0, 500.0], 60.0, DARK)
                .strip([600.0, 620.0], [600.0, 1500.0], 20.0, DARK);
            let photo = bench.file("crack.jpg", &crack.jpeg());
            bench.tap("Read a crack on a photo");
            bench.see("There is no photo of it yet");
            bench.upload("Add a photo of a crack from this device", &photo);
            for at in [[200.0, 500.0], [1000.0, 500.0], [590.0, 900.0], [610.0, 900.0]] {
                tap(bench, of_picture(at));
            }
            bench.see("Still to be typed, above: Length of the scale.");
            bench.fill("Length of the scale", "100");
            let [read, within] = figure(bench, "main .figure b");
            assert!((read - 2.5).abs() <= within && within < 0.6, "{read} ± {within}");
            bench.shot("photo-crack");
            bench.tap("Take it");
            bench.see("Gauge 1 reads");
            assert!((field(bench, &id, "/round/gauge1_mm") - read).abs() <= 0.051);
            for (question, answer) in WHOLE {
                bench.answer(question, answer);
            }
            bench.fill("Gust", "5");
            bench.tap("Finish this round");
            bench.see("Kept in the record.");
            let open = bench.app().invoke("job_open", json!({ "id": id })).unwrap();
            let round = open.pointer("/rounds/0").unwrap();
            let first = round.pointer("/readings/0").unwrap();
            let number = |path: &str| round.pointer(path).and_then(Value::as_f64);
            assert_eq!(first.get("prop"), Some(&json!("N1-in")));
            assert_eq!(number("/readings/0/head_off_mm"), Some(off_taken), "{first}");
            assert_eq!(number("/readings/0/lean_mm/0"), Some(lean_taken), "{first}");
            assert_eq!(round.pointer("/gauges/0/name"), Some(&json!("Gauge 1")));
            assert!(
                (number("/gauges/0/mm").unwrap() - 2.5).abs() <= within + 0.05,
                "{round}"
            );
        },
    );
}

/// A phone on a leaning tube: its frame turned as a whole and taken apart into the angles of the browser's own events.
const SENSOR: &str = include_str!("sensor.js");

fn feel(bench: &Bench, [right, towards]: [f64; 2], edge: f64, heading: f64, shake: f64) {
    let feel =
        json!({"right": right, "towards": towards, "edge": edge, "heading": heading, "noise": 0.1, "shake": shake});
    bench.value(&format!("Object.assign(window.phone, {feel}); 1"));
}

#[test]
fn the_phone_reads_lean_in_portrait_landscape_and_upside_down() {
    play(
        "the_phone_reads_lean_in_portrait_landscape_and_upside_down",
        PHONE,
        |bench| {
            let id = jobs::kept(bench.app());
            begin_round(bench, &id, "N1-in");
            bench.value(SENSOR);
            bench.tap("Read the lean with this phone");
            let read = |right: f64, towards: f64, edge: f64, shake: f64| {
                for (sign, button) in [
                    (1.0, "Phone is on the tube: read"),
                    (-1.0, "Phone is on the other side: read"),
                ] {
                    feel(
                        bench,
                        [sign * right, sign * towards],
                        edge,
                        20.0 + 90.0 * (1.0 - sign),
                        shake,
                    );
                    bench.tap(button);
                    bench.wait(
                        "the phone is read",
                        "!document.querySelector('.tilt button.do').disabled",
                    );
                }
                bench.settle();
                bench.value("[...document.querySelectorAll('.leanline')].map((one) => [one.querySelector('.soft').textContent, parseFloat(one.querySelector('strong').textContent)])")
            };
            // Shaking: nothing is read, and why is said.
            assert_eq!(read(0.8, 0.5, 0.0, 4.0), json!([]));
            bench.see("The phone shakes");
            for (edge, held, right, towards) in [
                (0.0, "upright", 0.8_f64, 0.5_f64),
                (90.0, "on its left edge", -1.1, 0.7),
                (-90.0, "on its right edge", 0.6, -0.9),
                (180.0, "upside down", -0.7, -0.6),
            ] {
                let lines = read(right, towards, edge, 0.0);
                for (i, (truth, ways)) in [
                    (right, ["to the right", "to the left"]),
                    (towards, ["inwards", "outwards"]),
                ]
                .into_iter()
                .enumerate()
                {
                    let line = lines
                        .get(i)
                        .unwrap_or_else(|| panic!("{held}: {lines}\n{}", bench.text()));
                    let deg = (line.get(1).and_then(Value::as_f64).unwrap() / 1000.0)
                        .atan()
                        .to_degrees();
                    // Its own error of two degrees is gone both ways.
                    assert!((deg - truth.abs()).abs() <= 0.1, "{held}: {deg}° for {truth}°, {lines}");
                    let way = if truth > 0.0 { ways[0] } else { ways[1] };
                    assert!(
                        line.get(0).and_then(Value::as_str).unwrap().contains(way),
                        "{held}: {lines}"
                    );
                }
            }
            bench.shot("tilt");
            bench.tap("Take into this prop’s answers");
            bench.see("Taken on the safe side");
            // The last one, upside down: to the left and outwards.
            let (along, across) = (
                field(bench, &id, "/round/N1-in/lean_along_mm"),
                field(bench, &id, "/round/N1-in/lean_across_mm"),
            );
            let mm = |deg: f64| deg.to_radians().tan() * 1000.0;
            assert!(
                (-25.0..=-mm(0.7)).contains(&along) && (-25.0..=-mm(0.6)).contains(&across),
                "{along} {across}"
            );
        },
    );
}

/// The ± of the first figure of a reading, mm.
fn within(bench: &Bench, label: &str) -> f64 {
    let script = format!(
        "(() => {{ const $one = [...document.querySelectorAll('.reading .pair > div')].find((one) => one.innerText.includes({})); return $one && parseFloat($one.querySelector('.figure span').textContent.replace('±', '')) }})()",
        json!(label)
    );
    bench.wait(&format!("{label} is read"), &format!("!!{script}"));
    bench.settle();
    bench.value(&script).as_f64().unwrap()
}

#[test]
fn a_rough_reading_says_so_and_a_straight_edge_makes_it_surer() {
    play(
        "a_rough_reading_says_so_and_a_straight_edge_makes_it_surer",
        SMALL,
        |bench| {
            let id = jobs::described(bench.app());
            add(bench.app(), &id, "wall", pictures::wall(bench.app(), 1.0));
            bench.go(&format!("{id}/measure"));
            bench.answer("Taken with", "Wide angle, or not known");
            bench.answer("What it is", "A taped rectangle");
            let [left, right, low, high] = TAPED_MM;
            for corner in [
                [left, high],
                [right, high],
                [right, low],
                [left, low],
                [0.0, 1000.0],
                [1200.0, 0.0],
            ] {
                tap(bench, share(corner));
            }
            // What is missing, or cannot be, is said by its name.
            bench.see("Still to be typed, above: Its width, Its height.");
            bench.fill("Its width", "1500");
            bench.fill("Its height", "two");
            bench.see("Its height: “two” ");
            bench.fill("Its height", "2000");
            let [wide, head] = OPENING_MM;
            bench.tap("Draw the new opening");
            for corner in [[0.0, head], [wide, head], [wide, 0.0], [0.0, 0.0]] {
                tap(bench, share(corner));
            }
            let before = within(bench, "Width");
            assert!(before > 25.0, "± {before}");
            bench.see("Read, but roughly");
            bench.see("mm is too much to go by: measure it with a rule");
            bench.see("Most of the ± comes from the lens: tap along a straight edge");
            bench.shot("measure-rough");
            bench.tap("A smaller ±: straight edges");
            bench.tap("Tap along an edge");
            bench.see("Straight edge 1, spot 1 along it");
            // The top of a course, along the whole of the photo; the middle first, since any order will do.
            for spot in [[1800.0, 2250.0], [-250.0, 2250.0], [4150.0, 2250.0]] {
                tap(bench, share(spot));
            }
            bench.see("The lens is now known within");
            let now = within(bench, "Width");
            assert!(now < 0.7 * before, "± {now} after ± {before}");
            bench.see(&format!("New opening: now ± {now} mm, before ± {before} mm"));
            bench.shot("measure-edge");

            // A height over the floor, into the description.
            bench.tap("Read a height over the floor");
            tap(bench, share([1200.0, head]));
            let level = within(bench, "Over the floor");
            bench.fill("Take it as", "Head height");
            bench.tap("Take into the description: Height 1");
            bench.see("Taken: Head height");
            let taken = field(bench, &id, "/opening/head_m") * 1000.0;
            assert!((taken - head).abs() <= level, "{taken} ± {level}");
            let record = bench
                .app()
                .invoke("record", json!({"id": id, "before": null, "limit": 50}))
                .unwrap()
                .to_string();
            assert!(record.contains("lens by one straight edge"), "{record}");

            // The edge stands again after the page went, and goes when it is taken out.
            bench.go(&format!("{id}/measure"));
            bench.see("3 spots along it.");
            assert!((within(bench, "Width") - now).abs() <= 1.0);
            bench.tap("Take out: Straight edge 1");
            bench.wait("the edge is gone", "!document.querySelector('.lens .onerow')");
            assert!((within(bench, "Width") - before).abs() <= 1.0);
        },
    );
}

#[test]
fn the_scale_card_goes_out_as_other_papers_do() {
    play("the_scale_card_goes_out_as_other_papers_do", PHONE, |bench| {
        let id = pictures::tapped(bench.app());
        bench.go(&format!("{id}/measure"));
        bench.tap("Scale card to print");
        bench.see("Print it at 100 %.");
        bench.see("Show it in its folder");
        let papers = bench.app().home().join("Documents");
        let text = bench.text();
        let path = text
            .split_once("Saved as ")
            .unwrap()
            .1
            .split_inclusive(".pdf")
            .next()
            .unwrap();
        assert!(path.starts_with(papers.to_str().unwrap()), "{path}");
        assert!(std::fs::read(path).unwrap().starts_with(b"%PDF-"));
        if let Some(folder) = std::env::var_os("UPSTAY_SHOTS") {
            std::fs::copy(path, std::path::Path::new(&folder).join("scale-card.pdf")).unwrap();
        }
    });
}

#[test]
fn the_set_out_is_drawn_into_a_picture_that_goes_into_the_pack() {
    play(
        "the_set_out_is_drawn_into_a_picture_that_goes_into_the_pack",
        PHONE,
        |bench| {
            let id = pictures::tapped(bench.app());
            bench.go(&format!("{id}/measure"));
            bench.see("mm from the left jamb");
            bench.tap("Save as a picture");
            bench.see("marked as drawn. It goes into the pack.");
            bench.shot("set-out-saved");
            let open = bench.app().invoke("job_open", json!({ "id": id })).unwrap();
            let photos = open.get("photos").and_then(Value::as_array).unwrap();
            let drawn = photos
                .iter()
                .find(|one| one.get("about") == Some(&json!("wall, set-out drawn on it")))
                .unwrap();
            let sha = drawn.get("sha").and_then(Value::as_str).unwrap();
            let kept = std::fs::read(bench.app().home().join("data/jobs").join(&id).join("photos").join(sha)).unwrap();
            if let Some(folder) = std::env::var_os("UPSTAY_SHOTS") {
                std::fs::write(std::path::Path::new(&folder).join("set-out.jpg"), &kept).unwrap();
            }
            // Byte by byte the same in the pack, under a name that says when and what.
            let mut pack = zip::ZipArchive::new(std::fs::File::open(bench.packed()).unwrap()).unwrap();
            let found = (0..pack.len()).any(|i| {
                let mut file = pack.by_index(i).unwrap();
                let mut bytes = Vec::new();
                std::io::Read::read_to_end(&mut file, &mut bytes).unwrap();
                bytes == kept
            });
            assert!(found, "the drawn picture is not in the pack");
        },
    );
}
