//! What would help is tried, told in words, and leads to where it is changed; one arrangement that serves several aims stands once.

use crate::bench::play;
use crate::jobs;
use crate::view::{PHONE, SMALL};
use serde_json::{Value, json};

const TOP: &str = "document.querySelector('[data-key=helps]').getBoundingClientRect().top";

#[test]
fn what_would_help_is_tried_told_and_led_to() {
    play("what_would_help_is_tried_told_and_led_to", PHONE, |bench| {
        let id = jobs::nothing_holds(bench.app());
        bench.go(&format!("{id}/support"));
        bench.value("document.querySelector('[data-key=helps]').scrollIntoView({ block: 'center' })");
        let before = bench.value(TOP);
        bench.tap("What would help");
        bench.see("Hold floor 1 apart, on a line of props of its own");
        bench.see("Then it would come out as “Close to its limit”");
        bench.see("Nothing is done yet.");
        // What comes in, comes in below: nothing moves under the finger that asked for it.
        assert_eq!(bench.value(TOP), before);
        bench.shot("helps");
        bench.open_all();
        let look = format!("(function () {{ {} }})()", include_str!("../window/figures.js"));
        assert_eq!(bench.value(&look).get("bad"), Some(&json!([])));
        bench.tap("Change: Storey 1 above: hold it apart");
        bench.wait("Above is open", "document.body.dataset.screen === 'above'");
        bench.look(SMALL);
        bench.go(&format!("{id}/support"));
        bench.tap("What would help");
        bench.see("Found by trying");
        assert_eq!(bench.too_wide(), json!([]));
    });
}

#[test]
fn nothing_is_tried_beside_a_refusal() {
    play("nothing_is_tried_beside_a_refusal", PHONE, |bench| {
        let id = jobs::refused(bench.app());
        bench.go(&format!("{id}/support"));
        bench.see("Ask for its own design");
        assert!(!bench.text().contains("What would help"));
    });
}

#[test]
fn an_arrangement_that_serves_several_aims_stands_once() {
    play("an_arrangement_that_serves_several_aims_stands_once", PHONE, |bench| {
        let id = jobs::described(bench.app());
        bench.go(&format!("{id}/support"));
        let figure = bench
            .app()
            .invoke("figure", json!({"fields": jobs::fields(), "option": 0}))
            .unwrap();
        let one = figure.pointer("/proposal/options/0").unwrap().clone();
        let with = |path: &str, value: Value| {
            let mut other = one.clone();
            *other.pointer_mut(path).unwrap() = value;
            other
        };
        let grouped = |options: &[Value]| {
            bench.value(&format!(
                "import('/screens/support/options.js').then(({{ grouped }}) => grouped({}))",
                json!(options)
            ))
        };
        let same = with("/aim", json!("cheapest"));
        let moved = with("/needles/0/x_m", json!(0.123));
        assert_eq!(
            grouped(&[one.clone(), moved.clone(), same.clone()]),
            json!([[0, 2], [1]])
        );
        assert_eq!(grouped(&[one.clone(), same]), json!([[0, 1]]));
        assert_eq!(grouped(&[one.clone(), moved]), json!([[0], [1]]));
        // On the page: as many rows as there are different arrangements, and every aim is named.
        let words = bench.text();
        for aim in ["ewest parts", "ightest needles", "east hire"] {
            assert!(words.contains(aim), "{aim} is not named in:\n{words}");
        }
        let all = figure.pointer("/proposal/options").and_then(Value::as_array).unwrap();
        let groups = grouped(all).as_array().unwrap().len();
        let rows = bench.value("document.querySelectorAll('.compared tbody tr').length");
        assert_eq!(rows, json!(if groups > 1 { groups } else { 0 }));
    });
}
