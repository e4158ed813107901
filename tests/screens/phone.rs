//! What a phone does to a page: it keeps the edges of its screen for itself, and lays a keyboard over the lower half.

use crate::app::App;
use crate::bench::{Bench, play};
use crate::jobs;
use crate::view::{LANDSCAPE, PHONE, SMALL, View};
use serde_json::{Value, json};

const CLEAR: &str = include_str!("clear.js");
const TYPED: &str = include_str!("typed.js");

/// Where a screen is found, the job that it is looked at with, and what is done there first.
type Place = (&'static str, fn(&App) -> String, fn(&Bench));

fn open(bench: &Bench, (screen, job, act): Place) {
    let id = job(bench.app());
    let address = if screen.is_empty() {
        String::new()
    } else {
        format!("{id}/{screen}")
    };
    bench.go(&address);
    act(bench);
}

/// The page's own name for itself on Android; only the word for the system counts.
pub fn on_android(bench: &Bench) {
    let named = "Mozilla/5.0 (Linux; Android 14; wv) Mobile";
    bench.device("Emulation.setUserAgentOverride", json!({"userAgent": named}));
}

/// What the device keeps for itself, in pixels: top, right, bottom, left.
type Kept = [u32; 4];

fn keep_edges(bench: &Bench, [top, right, bottom, left]: Kept) {
    let insets = json!({"top": top, "right": right, "bottom": bottom, "left": left});
    bench.device("Emulation.setSafeAreaInsetsOverride", json!({"insets": insets}));
}

/// What lies where the device keeps the screen for itself.
fn in_the_way(bench: &Bench, [top, right, bottom, left]: Kept) -> Vec<String> {
    let said = bench.value(&format!("{CLEAR}({top}, {right}, {bottom}, {left})"));
    assert!(
        said.get("texts").and_then(Value::as_u64) > Some(2),
        "there is no page: {said}"
    );
    let found = said.get("found").and_then(Value::as_array).cloned().unwrap_or_default();
    found.iter().map(ToString::to_string).collect()
}

#[test]
fn nothing_lies_under_the_notch_or_the_bars_of_the_system() {
    // A notch above and a bar for gestures below, as phones have them; turned, they lie at the sides.
    let ways: [(View, Kept); 2] = [(PHONE, [47, 0, 34, 0]), (LANDSCAPE, [0, 47, 21, 47])];
    let places: [Place; 12] = [
        ("", jobs::kept, |_| {}),
        ("start/width", jobs::started, |_| {}),
        ("wall", jobs::wrong, |_| {}),
        ("above", jobs::described, |_| {}),
        ("support", jobs::demo, |_| {}),
        ("order", jobs::kept, |_| {}),
        ("round", jobs::kept, |_| {}),
        ("round", jobs::stopped, |bench| bench.see("STOP")),
        ("record", jobs::demo, |_| {}),
        ("record", jobs::demo, |bench| bench.tap("Correct this")),
        ("support", jobs::kept, |bench| bench.tap("Read the brief")),
        ("emergency", jobs::peopled, |_| {}),
    ];
    play(
        "nothing_lies_under_the_notch_or_the_bars_of_the_system",
        PHONE,
        |bench| {
            let mut found = Vec::new();
            for (view, kept) in ways {
                bench.look(view);
                keep_edges(bench, kept);
                for (screen, job, act) in places {
                    open(bench, (screen, job, act));
                    bench.settle();
                    let mut look = |how: &str| {
                        for what in in_the_way(bench, kept) {
                            found.push(format!("{screen} {how} at {}: {what}", view.name()));
                        }
                    };
                    look("at its top");
                    bench.value("(scrollTo(0, document.documentElement.scrollHeight / 3), 1)");
                    bench.settle();
                    look("in its middle");
                    bench.shot(&format!("edges-{}-{}", screen.replace('/', "-"), view.width));
                }
            }
            assert!(found.is_empty(), "{} findings:\n{}", found.len(), found.join("\n"));
            // The look itself notices a page that knows nothing of edges.
            let kept = [0, 47, 21, 47];
            bench.go(&format!("{}/support", jobs::demo(bench.app())));
            assert_eq!(
                bench.value("getComputedStyle(document.getElementById('foot')).paddingBottom"),
                json!("21px")
            );
            bench.value(
            "(['--above', '--right', '--below', '--left'].forEach((name) => document.documentElement.style.setProperty(name, '0px')), 1)",
        );
            bench.settle();
            let all = in_the_way(bench, kept).join("\n");
            for words in ["left", "right", "bottom"] {
                assert!(all.contains(words), "`{words}` is not noticed in:\n{all}");
            }
        },
    );
}

/// Screens that are typed into.
const TYPED_INTO: [Place; 10] = [
    ("", jobs::empty, |_| {}),
    ("start/width", jobs::started, |_| {}),
    ("start/sides", jobs::started, |_| {}),
    ("wall", jobs::described, |_| {}),
    ("above", jobs::described, |_| {}),
    ("support", jobs::kept, |_| {}),
    ("round", jobs::kept, |_| {}),
    ("round", jobs::stopped, |bench| bench.see("STOP")),
    ("record", jobs::kept, |_| {}),
    ("emergency", jobs::peopled, |_| {}),
];

/// Types into every field of every screen while the keyboard comes up; says what is hidden, how many fields there were, and
/// how many had to be moved.
fn with_the_keyboard(bench: &Bench, up: &dyn Fn(), down: &dyn Fn()) -> (Vec<String>, u64, u64) {
    let (mut found, mut fields, mut moved) = (Vec::new(), 0, 0);
    for (screen, job, act) in TYPED_INTO {
        open(bench, (screen, job, act));
        bench.open_all();
        bench.still();
        let count = bench.value(&format!("{TYPED}.count()")).as_u64().unwrap();
        assert!(count > 0, "{screen} is not typed into");
        // Of a long page of like fields every few.
        let step = usize::try_from(count / 12 + 1).unwrap();
        for i in (0..count).step_by(step) {
            let before = bench.value(&format!("{TYPED}.hold({i})"));
            up();
            bench.settle();
            let list = bench.value(&format!("{TYPED}.judge()"));
            let list = list.as_array().cloned().unwrap_or_default();
            if list.len() > found.len() {
                bench.shot(&format!("keyboard-hides-{}-{i}", screen.replace('/', "-")));
            }
            found.extend(
                list.iter()
                    .map(|what| format!("{screen} at {}: {what}", bench.view().name())),
            );
            let now = bench.value("document.activeElement.getBoundingClientRect().top");
            moved += u64::from(now.as_f64() != before.as_f64());
            fields += 1;
            if i == 0 {
                bench.shot(&format!("keyboard-{}-{}", screen.replace('/', "-"), bench.view().width));
            }
            down();
        }
    }
    (found, fields, moved)
}

#[test]
fn the_keyboard_never_hides_what_is_typed_into_nor_the_answers_button() {
    let test = "the_keyboard_never_hides_what_is_typed_into_nor_the_answers_button";
    play(test, PHONE, |bench| {
        on_android(bench);
        for view in [PHONE, SMALL] {
            bench.look(view);
            // A keyboard with its row of suggestions takes some 290 pixels of a phone [own judgement].
            let low = View {
                height: view.height - 290,
                ..view
            };
            let (found, fields, moved) = with_the_keyboard(bench, &|| bench.look(low), &|| bench.look(view));
            println!("{}: {fields} fields, {moved} moved", view.name());
            assert!(found.is_empty(), "{} findings:\n{}", found.len(), found.join("\n"));
            assert!(
                fields > 50 && moved > fields / 2,
                "{moved} of {fields} would have been hidden"
            );
        }
    });
}

#[test]
fn a_keyboard_that_lies_over_the_page_hides_nothing_either() {
    play(
        "a_keyboard_that_lies_over_the_page_hides_nothing_either",
        PHONE,
        |bench| {
            // As where the page keeps its height and only the part of it that can be seen gets lower.
            let over = |px: u32| {
                bench.value(&format!(
                "(Object.defineProperty(visualViewport, 'height', {{ configurable: true, get: () => innerHeight - {px} }}), \
                 visualViewport.dispatchEvent(new Event('resize')), 1)"
            ));
            };
            let (found, fields, moved) = with_the_keyboard(bench, &|| over(290), &|| over(0));
            assert!(found.is_empty(), "{} findings:\n{}", found.len(), found.join("\n"));
            assert!(
                fields > 50 && moved > fields / 2,
                "{moved} of {fields} would have been hidden"
            );
            assert_eq!(
                bench.value("document.getElementById('foot').getBoundingClientRect().bottom === innerHeight"),
                json!(true),
                "without a keyboard the foot stands at the foot"
            );
        },
    );
}
