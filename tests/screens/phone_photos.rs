//! Photos as they come on Android: over a bridge that takes text only, part by part, and with the system ending the app in
//! the middle.

use crate::bench::{Bench, play};
use crate::jobs;
use crate::phone::on_android;
use crate::view::PHONE;
use serde_json::{Value, json};
use sha2::{Digest, Sha256};
use std::path::{Path, PathBuf};

const PROP: &str = "N1-in";
const PICK: &str = "Add a photo of this prop from this device";
/// Bytes of one part, as `ui/bridge.js` has it.
const PART: usize = 768 * 1024;
/// Different photos that the page shows, each at every place where photos of that thing stand.
const SHOWN: &str = "new Set([...document.querySelectorAll('main .photos img')].map((one) => one.src)).size";
/// Room for a part as base64, and for what is said beside it.
const LONGEST: u64 = 1_100_000;

/// A picture of noise, which no codec makes small: three parts of it.
fn picture(seed: u32) -> Vec<u8> {
    let (width, height) = (1100_u16, 900_u16);
    let mut state = seed;
    let pixels: Vec<u8> = (0..usize::from(width) * usize::from(height) * 3)
        .map(|_| {
            state = state.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
            (state >> 24) as u8
        })
        .collect();
    let mut bytes = Vec::new();
    jpeg_encoder::Encoder::new(&mut bytes, 95)
        .encode(&pixels, width, height, jpeg_encoder::ColorType::Rgb)
        .unwrap();
    assert!((2 * PART..4 * PART).contains(&bytes.len()), "{} bytes", bytes.len());
    bytes
}

fn sha(bytes: &[u8]) -> String {
    hex::encode(Sha256::digest(bytes))
}

/// Photos of the job by what they show and their hashes, newest first.
fn kept(bench: &Bench, id: &str) -> Vec<(String, String)> {
    let asked = json!({"id": id, "before": null, "limit": 50});
    let list = bench.app().invoke("photos", asked).unwrap();
    let text = |photo: &Value, key: &str| photo.get(key).unwrap().as_str().unwrap().to_owned();
    list.as_array()
        .unwrap()
        .iter()
        .map(|photo| (text(photo, "about"), text(photo, "sha")))
        .collect()
}

/// What waits to be put together, and what the camera left.
fn lying(bench: &Bench, folder: &str) -> Vec<PathBuf> {
    std::fs::read_dir(bench.app().home().join(folder))
        .into_iter()
        .flatten()
        .map(|entry| entry.unwrap().path())
        .collect()
}

/// A round that has come to its first prop, with something read there, and all of its page open.
fn at_the_prop(bench: &Bench) -> String {
    on_android(bench);
    let id = jobs::at_prop(bench.app());
    bench.go(&format!("{id}/round"));
    bench.tap("Head off centre: 10 mm");
    bench.open_all();
    id
}

/// A picture as the camera app of a phone writes it: into this app's own folder, before the page hears of it.
fn taken_by_camera(bench: &Bench, bytes: &[u8]) -> PathBuf {
    let folder = bench.app().home().join("Pictures");
    std::fs::create_dir_all(&folder).unwrap();
    // The file is made before the camera opens; one that was never taken stays empty.
    std::fs::write(folder.join("JPEG_20260302_081500_1.jpg"), b"").unwrap();
    let path = folder.join("JPEG_20260302_081530_2.jpg");
    std::fs::write(&path, bytes).unwrap();
    path
}

/// Opens the camera at the prop; the camera itself stands in this test's hands.
fn open_camera(bench: &Bench, id: &str) {
    bench.device("Page.setInterceptFileChooserDialog", json!({"enabled": true}));
    bench.tap("Take a photo of this prop");
    bench.wait("what the camera is for is kept", "window.__waiting() === 0");
    bench.settle();
    let open = bench.app().invoke("job_open", json!({"id": id})).unwrap();
    let noted = open.pointer("/fields/~1job~1camera").and_then(Value::as_str);
    let noted: Value = serde_json::from_str(noted.unwrap()).unwrap();
    assert_eq!(noted, json!({"about": PROP, "kind": "detail"}));
}

/// The system ended the app, page and all; it comes up on the list of jobs, and the round is gone to again.
fn ended_and_back(bench: &Bench) {
    bench.app().start_again();
    bench.go("");
    bench.tap("Weir Cottage");
    bench.wait("the job is open", "document.body.dataset.screen === 'support'");
    bench.tap("Round");
    bench.wait(
        "the round stands where it stood",
        &format!(
            "document.querySelector('main .prop .figure b')?.textContent === {}",
            json!(PROP)
        ),
    );
    bench.settle();
    assert_eq!(bench.reads("Head off centre"), "10", "what was read is still there");
}

/// Different photos that the page shows, and pictures on it that have not come whole.
fn shown(bench: &Bench) -> (u64, u64) {
    let half =
        "[...document.querySelectorAll('main .photos img')].filter((one) => !one.complete || one.naturalWidth === 0)";
    let count = |script: &str| bench.value(script).as_u64().unwrap();
    (count(SHOWN), count(&format!("{half}.length")))
}

#[test]
fn on_android_photos_go_part_by_part_and_come_as_they_were() {
    play(
        "on_android_photos_go_part_by_part_and_come_as_they_were",
        PHONE,
        |bench| {
            let id = at_the_prop(bench);
            let (one, other) = (picture(1), picture(2));
            let files = [bench.file("one.jpg", &one), bench.file("other.jpg", &other)];
            bench.value(
                "(() => { window.told = []; new MutationObserver(() => { \
                 for (const $said of document.querySelectorAll('.photobox [role=status]')) window.told.push($said.textContent) \
                 }).observe(document.body, { subtree: true, childList: true, characterData: true }); return 1 })()",
            );
            bench.upload_all(PICK, &[files[0].as_path(), files[1].as_path()]);
            bench.wait("both are shown", &format!("{SHOWN} === 2"));
            bench.settle();
            // Two are on their way at once, and either may be the first to have come.
            let mut wanted = [(PROP.to_owned(), sha(&other)), (PROP.to_owned(), sha(&one))];
            let mut kept = kept(bench, &id);
            wanted.sort();
            kept.sort();
            assert_eq!(kept, wanted, "byte for byte");
            let longest = bench.value("window.__longest").as_u64().unwrap();
            assert!(
                (PART as u64..LONGEST).contains(&longest),
                "the longest message has {longest} letters"
            );
            let told = bench.value("window.told.join('\\n')");
            for words in ["Taking in one.jpg: ", "Taking in other.jpg: ", " 100 %"] {
                assert!(told.as_str().unwrap().contains(words), "{words}: {told}");
            }
            assert_eq!(lying(bench, "data/arriving"), Vec::<PathBuf>::new());
            assert_eq!(bench.reads("Head off centre"), "10", "the round stands where it stood");
            bench.shot("phone-photos");
        },
    );
}

#[test]
fn a_bridge_of_text_takes_no_bytes() {
    play("a_bridge_of_text_takes_no_bytes", PHONE, |bench| {
        let id = at_the_prop(bench);
        let said = bench.value(&format!(
            "window.__TAURI__.core.invoke('photo_add', new Uint8Array([255, 216, 255]), {{headers: {{'x-job': {}, \
             'x-kind': 'detail', 'x-about': 'N1-in', 'x-name': 'a.jpg'}}}}).then(() => 'taken', (why) => why.code)",
            json!(id)
        ));
        assert_eq!(
            said,
            json!("not_an_image"),
            "so the path by parts is what is tested here"
        );
        assert_eq!(kept(bench, &id), []);
    });
}

#[test]
fn ended_in_the_middle_of_a_photo_it_is_offered_whole_and_never_half() {
    let test = "ended_in_the_middle_of_a_photo_it_is_offered_whole_and_never_half";
    play(test, PHONE, |bench| {
        let id = at_the_prop(bench);
        let early = picture(3);
        bench.upload(PICK, &bench.file("early.jpg", &early));
        bench.wait("the first is shown", &format!("{SHOWN} === 1"));
        open_camera(bench, &id);
        let bytes = picture(4);
        let left = taken_by_camera(bench, &bytes);
        // The second part never gets through.
        bench.value(
            "(() => { const core = window.__TAURI__.core; const real = core.invoke; \
             core.invoke = (name, args, options) => (name === 'pack_part' && args.at > 0 ? \
             new Promise(() => { window.cut = true }) : real(name, args, options)); return 1 })()",
        );
        bench.upload("Take a photo of this prop", &left);
        bench.wait("it is cut in the middle", "window.cut === true");
        assert_eq!(lying(bench, "data/arriving").len(), 1, "half of it lies there");
        assert_eq!(shown(bench), (1, 0), "what has not come whole is not shown");

        ended_and_back(bench);
        assert_eq!(lying(bench, "data/arriving"), Vec::<PathBuf>::new(), "no half is kept");
        assert_eq!(
            kept(bench, &id),
            [(PROP.to_owned(), sha(&early))],
            "what was confirmed stands"
        );
        bench.see("A picture was taken while the phone had closed this app.");
        assert_eq!(
            bench.value("document.querySelectorAll('.left').length"),
            json!(1),
            "the empty file of a picture that was not taken is not offered"
        );
        let open = "document.querySelector('.left').checkVisibility()";
        assert_eq!(bench.value(open), json!(true), "it is not folded away");
        bench.shot("phone-photo-left");
        bench.tap("Add it to N1-in");
        bench.wait("it is shown", &format!("{SHOWN} === 2"));
        assert_eq!(
            kept(bench, &id),
            [(PROP.to_owned(), sha(&bytes)), (PROP.to_owned(), sha(&early))]
        );
        assert!(!left.exists(), "it does not lie on the phone twice");
        bench.wait(
            "it is offered no more",
            "document.querySelectorAll('.left').length === 0",
        );
        let faults = bench.app().invoke("job_check", json!({"id": id})).unwrap();
        assert_eq!(faults.get("whole"), Some(&json!(true)), "{faults}");
    });
}

#[test]
fn ended_after_the_app_had_it_the_photo_stands_once() {
    play("ended_after_the_app_had_it_the_photo_stands_once", PHONE, |bench| {
        let id = at_the_prop(bench);
        open_camera(bench, &id);
        let bytes = picture(5);
        let left = taken_by_camera(bench, &bytes);
        // The app's answer never comes back to the page.
        bench.value(
            "(() => { const core = window.__TAURI__.core; const real = core.invoke; \
             core.invoke = (name, args, options) => (name === 'photo_arrived' ? \
             real(name, args, options).then(() => { window.cut = true; return new Promise(() => {}) }) : \
             real(name, args, options)); return 1 })()",
        );
        bench.upload("Take a photo of this prop", &left);
        bench.wait("the app has it", "window.cut === true");
        ended_and_back(bench);
        assert_eq!(kept(bench, &id), [(PROP.to_owned(), sha(&bytes))]);
        assert!(!left.exists(), "it does not lie on the phone twice");
        bench.open_all();
        bench.wait("it is shown", &format!("{SHOWN} === 1"));
        assert_eq!(
            bench.value("document.querySelectorAll('.left').length"),
            json!(0),
            "what the app has is not offered again"
        );
    });
}

#[test]
fn ended_while_the_camera_was_open_the_picture_waits_at_its_prop() {
    let test = "ended_while_the_camera_was_open_the_picture_waits_at_its_prop";
    play(test, PHONE, |bench| {
        let id = at_the_prop(bench);
        open_camera(bench, &id);
        let bytes = picture(6);
        let left = taken_by_camera(bench, &bytes);
        ended_and_back(bench);
        assert_eq!(kept(bench, &id), [], "nothing comes in by itself");
        bench.see("Add it to N1-in");
        // Beside other props it is not offered: it was not taken for them.
        bench.tap("N1-out ›");
        bench.open_all();
        bench.settle();
        assert_eq!(bench.value("document.querySelectorAll('.left').length"), json!(0));
        bench.tap("‹ N1-in");
        bench.see("Add it to N1-in");
        bench.tap("Throw it away");
        bench.wait(
            "it is offered no more",
            "document.querySelectorAll('.left').length === 0",
        );
        assert!(!left.exists());
        assert_eq!(kept(bench, &id), []);
    });
}

#[test]
fn a_photo_that_finds_no_room_leaves_nothing_and_the_next_one_comes() {
    let test = "a_photo_that_finds_no_room_leaves_nothing_and_the_next_one_comes";
    play(test, PHONE, |bench| {
        let id = at_the_prop(bench);
        bench.value(
            "(() => { const core = window.__TAURI__.core; const real = core.invoke; let first; \
             core.invoke = (name, args, options) => { if (name === 'pack_part') first ??= args.upload; \
             if (name === 'pack_part' && args.upload === first && args.at > 0) return Promise.reject({ code: 'no_room', message: 'There is too little room: 2 MB.' }); \
             return real(name, args, options) }; return 1 })()",
        );
        let (one, other) = (picture(7), picture(8));
        let files = [bench.file("one.jpg", &one), bench.file("other.jpg", &other)];
        let files: Vec<&Path> = files.iter().map(PathBuf::as_path).collect();
        bench.upload_all(PICK, &files);
        bench.see("one.jpg: There is too little room: 2 MB.");
        bench.wait("the other is shown", &format!("{SHOWN} === 1"));
        assert_eq!(kept(bench, &id), [(PROP.to_owned(), sha(&other))]);
        assert_eq!(lying(bench, "data/arriving"), Vec::<PathBuf>::new());
    });
}

/// Holds every part behind the first of each photo until `window.release` is called, with a failure or without.
const HOLD: &str = "(() => { const core = window.__TAURI__.core; const real = core.invoke; window.held = 0; \
    const gate = new Promise((open) => { window.release = open }); \
    core.invoke = async (name, args, options) => { if (name === 'pack_part' && args.at > 0) { window.held += 1; \
    const failure = await gate; if (failure) throw failure } return real(name, args, options) }; return 1 })()";

/// Two photos that are picked at the prop and held in their middle.
fn on_their_way(bench: &Bench) -> [Vec<u8>; 2] {
    bench.value(HOLD);
    let pictures = [picture(9), picture(10)];
    let files = [
        bench.file("one.jpg", &pictures[0]),
        bench.file("other.jpg", &pictures[1]),
    ];
    bench.upload_all(PICK, &[files[0].as_path(), files[1].as_path()]);
    bench.wait("both are on their way", "window.held === 2");
    pictures
}

/// Goes to another page as a link does, without the page being loaded anew.
fn over_to(bench: &Bench, address: &str, screen: &str) {
    bench.value(&format!("(location.hash = {}, 1)", json!(address)));
    bench.wait(
        &format!("`{screen}` is open"),
        &format!("document.body.dataset.screen === {}", json!(screen)),
    );
}

/// Waits until both photos are in the record of a job.
fn both_in(bench: &Bench, id: &str, pictures: &[Vec<u8>; 2]) {
    bench.wait("all has been told", "window.__waiting() === 0");
    bench.still();
    let mut wanted: Vec<(String, String)> = pictures.iter().map(|one| (PROP.to_owned(), sha(one))).collect();
    let mut found = kept(bench, id);
    wanted.sort();
    found.sort();
    assert_eq!(found, wanted);
}

#[test]
fn photos_come_into_the_job_they_were_picked_for_though_another_is_opened() {
    let test = "photos_come_into_the_job_they_were_picked_for_though_another_is_opened";
    play(test, PHONE, |bench| {
        let other = jobs::kept(bench.app());
        let id = at_the_prop(bench);
        let pictures = on_their_way(bench);
        over_to(bench, &format!("{other}/record"), "record");
        bench.settle();
        bench.value("(window.release(), 1)");
        both_in(bench, &id, &pictures);
        assert_eq!(kept(bench, &other), [], "the job that stands open has none");
        assert_eq!(shown(bench), (0, 0), "nor does its page show one");
        over_to(bench, &format!("{id}/round"), "round");
        bench.open_all();
        bench.wait("both are shown where they were picked", &format!("{SHOWN} === 2"));
        assert_eq!(bench.reads("Head off centre"), "10", "the round stands where it stood");
    });
}

#[test]
fn photos_that_come_after_their_page_was_left_and_opened_again_are_shown_there() {
    let test = "photos_that_come_after_their_page_was_left_and_opened_again_are_shown_there";
    play(test, PHONE, |bench| {
        let id = at_the_prop(bench);
        let pictures = on_their_way(bench);
        over_to(bench, &format!("{id}/record"), "record");
        over_to(bench, &format!("{id}/round"), "round");
        bench.open_all();
        bench.see("Taking in ");
        bench.value("(window.release(), 1)");
        bench.wait("both are shown", &format!("{SHOWN} === 2"));
        both_in(bench, &id, &pictures);
        assert!(!bench.text().contains("Taking in "), "{}", bench.text());
    });
}

#[test]
fn a_photo_of_the_wall_that_comes_late_does_not_take_the_page_of_another_screen() {
    let test = "a_photo_of_the_wall_that_comes_late_does_not_take_the_page_of_another_screen";
    play(test, PHONE, |bench| {
        on_android(bench);
        let id = jobs::at_prop(bench.app());
        bench.go(&format!("{id}/measure"));
        bench.value(HOLD);
        bench.upload(
            "Add a photo of the wall from this device",
            &bench.file("wall.jpg", &picture(11)),
        );
        bench.wait("it is on its way", "window.held === 1");
        over_to(bench, &format!("{id}/round"), "round");
        bench.value("(window.release(), 1)");
        bench.still();
        assert_eq!(kept(bench, &id).len(), 1);
        assert_eq!(bench.value("document.body.dataset.screen"), json!("round"));
        bench.see(PROP);
    });
}

#[test]
fn a_photo_that_fails_after_its_page_was_left_says_so_and_says_it_there_too() {
    let test = "a_photo_that_fails_after_its_page_was_left_says_so_and_says_it_there_too";
    play(test, PHONE, |bench| {
        let other = jobs::kept(bench.app());
        let id = at_the_prop(bench);
        on_their_way(bench);
        over_to(bench, &format!("{other}/record"), "record");
        bench.value("(window.release({ code: 'no_room', message: 'There is too little room: 2 MB.' }), 1)");
        bench.see("Not taken into Weir Cottage, kitchen");
        bench.see("one.jpg: There is too little room: 2 MB. other.jpg: There is too little room: 2 MB.");
        bench.shot("phone-photo-failed-elsewhere");
        bench.tap("Close");
        over_to(bench, &format!("{id}/round"), "round");
        bench.open_all();
        bench.see("one.jpg: There is too little room: 2 MB.");
        assert_eq!(kept(bench, &id), []);
        assert_eq!(lying(bench, "data/arriving"), Vec::<PathBuf>::new());
    });
}
