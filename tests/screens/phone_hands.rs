//! A phone in the hand: turned, gone back on, and something handed out of it.

use crate::bench::{Bench, play};
use crate::jobs;
use crate::phone::on_android;
use crate::view::{LANDSCAPE, PHONE};
use crate::wall_photo::{TAPED_MM, share, take};
use serde_json::{Value, json};
use std::path::Path;

const WIDTH: &str = "Width of the opening";

/// What holds the caret, its text, where the caret is, and whether it can be seen.
const HELD: &str = "(() => { const $one = document.activeElement; const box = $one.getBoundingClientRect(); \
     return [$one.name || $one.id, $one.value, $one.selectionStart, \
     box.top >= 0 && box.bottom <= document.getElementById('foot').getBoundingClientRect().top] })()";

/// Turns the phone on its side and back; what holds the caret stays as it is all the while.
fn turn(bench: &Bench) {
    let before = bench.value(HELD);
    assert_eq!(before.get(3), Some(&json!(true)), "{before}");
    for view in [LANDSCAPE, PHONE] {
        bench.look(view);
        bench.still();
        assert_eq!(bench.value(HELD), before, "in {}", view.name());
    }
    assert_eq!(
        bench.value("window.marked"),
        json!(true),
        "the page was not started anew"
    );
}

#[test]
fn a_turned_phone_loses_no_word() {
    play("a_turned_phone_loses_no_word", PHONE, |bench| {
        on_android(bench);
        let id = jobs::at_prop(bench.app());
        bench.go(&format!("{id}/wall"));
        bench.value("(window.marked = true, 1)");
        bench.fill(WIDTH, "2.75");
        bench.value("(document.activeElement.setSelectionRange(1, 1), 1)");
        turn(bench);
        bench.write("2");
        assert_eq!(bench.reads(WIDTH), "22.75", "the caret is where it was");

        bench.go(&format!("{id}/record"));
        bench.value("(window.marked = true, 1)");
        let words = "Rain since six; the needles are dry. Sam looked at N2";
        bench.fill("Note", words);
        bench.value("(document.activeElement.setSelectionRange(9, 9), 1)");
        turn(bench);
        assert_eq!(bench.reads("Note"), words);

        // A round keeps its place and what was answered.
        bench.go(&format!("{id}/round"));
        bench.answer("Is the right pin in, all the way?", "Yes");
        bench.tap("Lean along the wall: 5 mm");
        bench.look(LANDSCAPE);
        bench.still();
        assert_eq!(bench.reads("Lean along the wall"), "5");
        bench.shot("turned-round");
        bench.look(PHONE);
        bench.still();
        assert_eq!(
            bench.value("document.querySelector('main .prop .yesno input:checked')?.value"),
            json!("right")
        );

        // What lies over the page stays open.
        bench.go(&format!("{id}/support"));
        bench.tap("Read the brief");
        bench.wait("the brief is shown", "!!document.querySelector('dialog[open]')");
        bench.look(LANDSCAPE);
        bench.still();
        assert_eq!(
            bench.value("document.querySelectorAll('dialog[open]').length"),
            json!(1)
        );
        bench.shot("turned-brief");
        bench.tap("Close");
    });
}

/// The phone's back button.
fn back(bench: &Bench) {
    bench.value("(window.__system('app', 'back-button'), 1)");
    bench.settle();
}

/// Where the page is: the screen, and what lies over it.
fn over(bench: &Bench) -> (String, u64) {
    let said = bench.value("[document.body.dataset.screen, document.querySelectorAll('dialog[open]').length]");
    (
        said.get(0).unwrap().as_str().unwrap().to_owned(),
        said.get(1).unwrap().as_u64().unwrap(),
    )
}

fn at(bench: &Bench, screen: &str) {
    bench.wait(
        &format!("`{screen}` is open"),
        &format!("document.body.dataset.screen === '{screen}' && window.__waiting() === 0"),
    );
    bench.settle();
}

#[test]
fn the_back_button_closes_then_goes_back_then_asks() {
    play("the_back_button_closes_then_goes_back_then_asks", PHONE, |bench| {
        on_android(bench);
        let id = jobs::kept(bench.app());
        bench.go("");
        // Leaving would end the app that the test stands on: it is only written down.
        bench.value(
            "(() => { const core = window.__TAURI__.core; const real = core.invoke; window.left = []; \
             core.invoke = (name, args, options) => { if (name !== 'leave') return real(name, args, options); \
             window.left.push(name); return Promise.resolve() }; return 1 })()",
        );
        bench.tap("Weir Cottage");
        at(bench, "support");
        bench.tap("Wall");
        at(bench, "wall");
        bench.fill(WIDTH, "3.1");
        back(bench);
        at(bench, "support");
        let open = bench.app().invoke("job_open", json!({"id": id})).unwrap();
        assert_eq!(
            open.pointer("/fields/~1opening~1width_m"),
            Some(&json!("3.1")),
            "what was typed is kept on the way"
        );
        bench.tap("Read the brief");
        assert_eq!(over(bench), ("support".to_owned(), 1));
        back(bench);
        assert_eq!(
            over(bench),
            ("support".to_owned(), 0),
            "what lies over the page goes first"
        );
        back(bench);
        at(bench, "jobs");
        back(bench);
        bench.see("Leave Upstay?");
        bench.shot("back-asks");
        let middle = "(() => { const box = document.querySelector('dialog[open]').getBoundingClientRect(); \
             return Math.abs(box.left + box.right - innerWidth) <= 2 && box.top > 0 && box.bottom < innerHeight })()";
        assert_eq!(bench.value(middle), json!(true), "it stands in the middle");
        back(bench);
        assert_eq!(over(bench), ("jobs".to_owned(), 0), "once more is no yes");
        back(bench);
        bench.tap("Stay");
        assert_eq!(over(bench), ("jobs".to_owned(), 0));
        assert_eq!(bench.value("window.left"), json!([]));
        back(bench);
        bench.tap("Leave");
        bench.wait("the app is left", "window.left.length === 1");
    });
}

/// Lets the page believe that it is on a phone with a picker, and writes down what is handed out.
fn with_a_picker(bench: &Bench) {
    bench.value(
        "(() => { const core = window.__TAURI__.core; const real = core.invoke; window.out = []; window.chosen = false; \
         core.invoke = async (name, args, options) => { \
         if (name === 'device') return { ...await real(name, args, options), phone: true, picker: true }; \
         if (name === 'share_file' || name === 'save_file') { window.out.push([name, args.path]); return name === 'save_file' ? window.chosen : null } \
         return real(name, args, options) }; return 1 })()",
    );
}

#[test]
fn the_set_out_leaves_the_phone_as_a_picture() {
    play("the_set_out_leaves_the_phone_as_a_picture", PHONE, |bench| {
        on_android(bench);
        let id = jobs::kept(bench.app());
        let file = bench.app().home().join("wall.jpg");
        take(&file, 1.0);
        bench.go(&format!("{id}/wall"));
        bench.open_all();
        bench.upload("Add a photo of the wall from this device", &file);
        bench.wait(
            "it is shown",
            "document.querySelectorAll('main .photos img').length === 1",
        );
        let list = bench
            .app()
            .invoke("photos", json!({"id": id, "before": null, "limit": 9}))
            .unwrap();
        let sha = list.pointer("/0/sha").unwrap().as_str().unwrap().to_owned();
        tapped(bench, &id, sha.get(..12).unwrap());

        bench.go(&format!("{id}/measure"));
        bench.see("mm from the left jamb");
        with_a_picker(bench);
        bench.tap("Save as a picture");
        bench.see("Kept in the record as photo");
        bench.tap("Send it");
        bench.wait("it is handed out", "window.out.length === 1");
        bench.tap("Save it among this phone’s files");
        bench.wait("it is handed out", "window.out.length === 2");
        assert!(!bench.text().contains("Saved."), "nothing was chosen");
        bench.value("(window.chosen = true, 1)");
        bench.tap("Save it among this phone’s files");
        bench.see("Saved.");
        bench.shot("set-out-shared");
        let out = bench.value("window.out");
        let path = |i: usize| out.get(i).unwrap().get(1).unwrap().as_str().unwrap().to_owned();
        let names: Vec<&Value> = out.as_array().unwrap().iter().map(|one| one.get(0).unwrap()).collect();
        assert_eq!(names, ["share_file", "save_file", "save_file"]);
        assert!(path(0) == path(1) && path(0) == path(2), "one paper, made once: {out}");
        assert!(path(0).ends_with("wall set-out drawn on it.jpg"), "{}", path(0));

        // It is the picture of the record byte for byte, and the app itself would hand it out.
        let list = bench
            .app()
            .invoke("photos", json!({"id": id, "before": null, "limit": 9}))
            .unwrap();
        let drawn = list.pointer("/0").unwrap();
        assert_eq!(drawn.get("about"), Some(&json!("wall, set-out drawn on it")));
        let bytes = std::fs::read(Path::new(&path(0))).unwrap();
        use sha2::{Digest, Sha256};
        assert_eq!(drawn.get("sha"), Some(&json!(hex::encode(Sha256::digest(&bytes)))));
        let refused = bench.app().invoke("save_file", json!({"path": path(0)})).unwrap_err();
        assert_eq!(refused.get("code"), Some(&json!("no_picker")), "a desktop has none");
        let other = bench
            .app()
            .invoke("photo_paper", json!({"id": id, "sha": "0".repeat(64)}))
            .unwrap_err();
        assert_eq!(other.get("code"), Some(&json!("missing")));

        // From the record it goes out later too; a photo of a camera does not, since a place may be written into it.
        bench.go(&format!("{id}/record"));
        with_a_picker(bench);
        bench.wait(
            "both are shown",
            "document.querySelectorAll('main .photos img').length === 2",
        );
        enlarge(bench, "Photo of wall, set-out drawn on it");
        bench.tap("Send it");
        bench.wait("it is handed out", "window.out.length === 1");
        bench.tap("Close");
        enlarge(bench, "Photo of wall");
        bench.see("SHA-256 of the file");
        assert!(!bench.text().contains("Send it"));
        bench.tap("Close");
    });
}

/// Opens a picture by its name for those who do not see it.
fn enlarge(bench: &Bench, name: &str) {
    let picture = format!("document.querySelector({})", json!(format!("main img[alt=\"{name}\"]")));
    bench.value(&format!("({picture}.closest('button').click(), 1)"));
    bench.wait(
        "it is shown large",
        "!!document.querySelector('dialog[open] table.data')",
    );
}

/// The taps of somebody who knows where the rectangle of tape, the jamb and the floor are.
fn tapped(bench: &Bench, id: &str, photo: &str) {
    let [left, right, low, high] = TAPED_MM;
    let spots = [
        ("t/c0", [left, high]),
        ("t/c1", [right, high]),
        ("t/c2", [right, low]),
        ("t/c3", [left, low]),
        ("t/origin", [0.0, 900.0]),
        ("t/floor", [1200.0, 0.0]),
    ];
    let size = crate::wall_photo::SIZE;
    let mut fields = vec![
        (format!("/job/sight/{photo}/kind"), "taped".to_owned()),
        (format!("/job/sight/{photo}/width_mm"), format!("{}", right - left)),
        (format!("/job/sight/{photo}/height_mm"), format!("{}", high - low)),
    ];
    fields.extend(spots.map(|(key, spot)| {
        let [x, y] = share(spot);
        let (x, y) = (x * f64::from(size.0), y * f64::from(size.1));
        (format!("/job/sight/{photo}/{key}"), format!("{x:.2} {y:.2}"))
    }));
    let fields: Vec<(&str, &str)> = fields
        .iter()
        .map(|(path, text)| (path.as_str(), text.as_str()))
        .collect();
    jobs::write(bench.app(), id, &fields);
}
