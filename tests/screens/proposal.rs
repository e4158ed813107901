//! What stands on a proposal whatever one does there: the caution in view, and a way behind every figure.

use crate::app::App;
use crate::bench::{Bench, play};
use crate::jobs;
use crate::view::{DESK, LANDSCAPE, LARGE_TEXT, PHONE, SMALL, TABLET};
use serde_json::{Value, json};

/// Makes a job; gives its id.
type Make = fn(&App) -> String;

/// The caution can be read: its own words are what a finger would touch in the middle of it, inside of the window.
const CAUTION: &str = "(() => { const box = document.querySelector('.caution')?.getBoundingClientRect(); if (!box) return 'none'; \
    const [top, bottom] = [Math.max(0, box.top), Math.min(innerHeight, box.bottom)]; if (bottom - top < 24) return `only ${bottom - top} px`; \
    const hit = document.elementFromPoint(Math.min(innerWidth - 4, box.left + 20), (top + bottom) / 2); \
    return hit?.closest('.caution') ? '' : `covered by ${hit?.outerHTML.slice(0, 80)}` })()";

fn caution_everywhere(bench: &Bench, what: &str) {
    let views = [PHONE, SMALL, LARGE_TEXT, LANDSCAPE, TABLET, DESK];
    for view in views {
        bench.look(view);
        bench.value("scrollTo(0, 0)");
        for place in [
            "0",
            "innerHeight * 1.5",
            "document.body.scrollHeight / 2",
            "document.body.scrollHeight",
        ] {
            bench.value(&format!("scrollTo(0, {place})"));
            bench.settle();
            assert_eq!(
                bench.value(CAUTION),
                json!(""),
                "{what} at {}, scrolled to {place}",
                view.name()
            );
        }
    }
}

#[test]
fn the_caution_is_in_view_wherever_a_proposal_is() {
    play("the_caution_is_in_view_wherever_a_proposal_is", PHONE, |bench| {
        let made: [(&str, Make); 5] = [
            ("kept", jobs::kept),
            ("described", jobs::described),
            ("refused", jobs::refused),
            ("nothing holds", jobs::nothing_holds),
            ("demo", jobs::demo),
        ];
        for (name, make) in made {
            let id = make(bench.app());
            for screen in ["support", "order"] {
                bench.look(PHONE);
                bench.go(&format!("{id}/{screen}"));
                // As it comes up, before anybody moves.
                assert_eq!(bench.value(CAUTION), json!(""), "{name}, {screen}");
                caution_everywhere(bench, &format!("{name}, {screen}"));
            }
        }
        // The look notices a caution that is pushed out.
        bench.value("document.querySelector('.caution').style.setProperty('display', 'none')");
        assert_ne!(bench.value(CAUTION), json!(""));
    });
}

#[test]
fn every_figure_on_support_opens_to_two_steps_and_a_locator() {
    play(
        "every_figure_on_support_opens_to_two_steps_and_a_locator",
        PHONE,
        |bench| {
            let look = format!("(function () {{ {} }})()", include_str!("../window/figures.js"));
            let made: [(&str, Make, u64); 4] = [
                ("kept", jobs::kept, 300),
                ("nothing holds", jobs::nothing_holds, 200),
                ("refused", jobs::refused, 20),
                ("demo", jobs::demo, 300),
            ];
            for (name, make, least) in made {
                let id = make(bench.app());
                bench.go(&format!("{id}/support"));
                bench.open_all();
                let seen = bench.value(&look);
                assert_eq!(seen.get("bad"), Some(&json!([])), "{name}");
                let count = seen.get("seen").and_then(Value::as_u64).unwrap();
                assert!(count >= least, "{name}: only {count} figures");
            }
            bench.value("const $line = document.createElement('p'); $line.textContent = 'It carries 12.3 kN.'; document.querySelector('main').append($line); 1");
            assert_eq!(bench.value(&look).get("bad").unwrap().as_array().unwrap().len(), 1);
        },
    );
}
