//! What is typed while a job cannot be written: it waits for that job, and never comes into another.

use crate::bench::{Bench, play};
use crate::jobs;
use crate::view::PHONE;
use serde_json::{Value, json};

const WIDTH: &str = "/opening/width_m";
const LABEL: &str = "Width of the opening";

/// What the app has kept of the width of a job's opening.
fn kept(bench: &Bench, id: &str) -> Option<Value> {
    let open = bench.app().invoke("job_open", json!({ "id": id })).unwrap();
    open.get("fields").unwrap().get(WIDTH).cloned()
}

/// Goes on to another job on the same page, as links do, and waits until it stands there.
fn over_to(bench: &Bench, id: &str) {
    bench.value(&format!("(location.hash = {}, 1)", json!(format!("#{id}/wall"))));
    bench.wait(
        "the other job is open",
        "document.body.dataset.screen === 'wall' && window.__waiting() === 0",
    );
    bench.settle();
}

#[test]
fn what_one_job_could_not_keep_stays_out_of_the_next() {
    play("what_one_job_could_not_keep_stays_out_of_the_next", PHONE, |bench| {
        let (first, second) = (jobs::empty(bench.app()), jobs::empty(bench.app()));
        bench.go(&format!("{first}/wall"));
        bench.value(&format!(
            "(() => {{ const core = window.__TAURI__.core; const real = core.invoke; window.stuck = true; \
             core.invoke = (name, args, options) => (window.stuck && name === 'draft_put' && args.id === {} \
             ? Promise.reject({{ code: 'full', message: 'no room' }}) : real(name, args, options)); return 1 }})()",
            json!(first)
        ));
        bench.fill(LABEL, "2.7");
        bench.see("Not kept on this phone yet. Trying again.");
        over_to(bench, &second);
        assert_eq!(bench.reads(LABEL), "", "the next job is another one");
        bench.fill(LABEL, "1.1");
        bench.wait(
            "the next job keeps its own",
            &format!("document.querySelector('[data-field=\"{WIDTH}\"]').dataset.kept === 'true'"),
        );
        assert_eq!((kept(bench, &first), kept(bench, &second)), (None, Some(json!("1.1"))));
        over_to(bench, &first);
        assert_eq!(bench.reads(LABEL), "2.7", "nothing typed is lost");
        bench.value("(window.stuck = false, 1)");
        bench.wait(
            "what waited is kept",
            &format!("document.querySelector('[data-field=\"{WIDTH}\"]').dataset.kept === 'true'"),
        );
        assert_eq!(
            (kept(bench, &first), kept(bench, &second)),
            (Some(json!("2.7")), Some(json!("1.1")))
        );
    });
}
