//! Support as it is used: figures that open, the builder's plan on the drawing, a trial by slider, the gust, a swapped prop.

use crate::hand::Hand;
use crate::stage::play;
use serde_json::{Map, Value, json};

/// Looks at every figure of the screen; gives how many were seen and which open to nothing.
const FIGURES: &str = include_str!("figures.js");

/// Opens every fold, and those that come to light in it.
const OPEN_ALL: &str = "for (let depth = 0; depth < 4; depth += 1) for (const one of document.querySelectorAll('main details')) \
     if (!one.open) { one.open = true; one.dispatchEvent(new Event('fill')) } return true";

/// A job like the demo with some fields changed; gives its id.
async fn like_the_demo(hand: &Hand, name: &str, changes: Value) -> String {
    let demo = hand.invoke("demo_open", json!({})).await.unwrap();
    let open = hand.invoke("job_open", json!({ "id": demo.get("id") })).await.unwrap();
    let mut fields: Map<String, Value> = open.get("fields").unwrap().as_object().unwrap().clone();
    for (path, text) in changes.as_object().unwrap() {
        fields.insert(path.clone(), text.clone());
    }
    let begun = json!({"name": name, "place": "Mill Lane", "country": "england"});
    let id = hand.invoke("job_begin", begun).await.unwrap();
    let id = id.get("id").unwrap().as_str().unwrap().to_owned();
    let writes: Vec<Value> = fields
        .iter()
        .filter(|(path, text)| !text.is_null() && !path.starts_with("/round/"))
        .zip(1..)
        .map(|((field, text), counter)| json!({"field": field, "text": text, "counter": counter}))
        .collect();
    hand.invoke("draft_put", json!({"id": id, "writes": writes}))
        .await
        .unwrap();
    id
}

/// Goes to Support of a job and waits for its answer.
async fn support_of(hand: &Hand, id: &str) {
    hand.ask(&format!("location.hash = '{id}/support'; return true")).await;
    let there = "return document.body.dataset.screen === 'support' && location.hash.includes(arguments[0]) \
                 && document.querySelector('main .tile') !== null";
    hand.wait("Support stands", there, json!(id)).await;
}

#[test]
fn every_figure_on_support_opens_to_steps_and_their_source() {
    play(
        "every_figure_on_support_opens_to_steps_and_their_source",
        async |stage| {
            let hand = stage.open().await;
            let unchecked = json!({"/check/name": null, "/check/date": null, "/check/category": null});
            let with = |more: Value| {
                let mut all = unchecked.as_object().unwrap().clone();
                all.extend(more.as_object().unwrap().clone());
                Value::Object(all)
            };
            // As the page writes the day, in the window's own time.
            let today = chrono::Utc::now().format("%a %b %d %Y").to_string();
            let jobs = [
                ("Plain", json!({}), 500),
                ("Close", with(json!({"/roof/span_m": "9"})), 500),
                ("Beam in the floor", with(json!({"/opening/flush": "true"})), 500),
                ("Engineer first", json!({"/answers/cracked": "yes"}), 20),
                (
                    "Brackets and an engineer",
                    json!({"/builders_plan/kind": "brackets", "/builders_plan/count": "4", "/engineer/name": "E. Neer",
                        "/engineer/date": "2026-03-01", "/engineer/section": "UC152x152x23", "/engineer/spacing_m": "0.6",
                        "/engineer/load_kn_m": "20", "/job/gust": "20", "/job/gust_day": today}),
                    500,
                ),
            ];
            for (name, changes, least) in jobs {
                let id = like_the_demo(&hand, name, changes).await;
                support_of(&hand, &id).await;
                hand.ask(OPEN_ALL).await;
                let seen = hand.ask(FIGURES).await;
                assert_eq!(seen.get("bad").unwrap(), &json!([]), "{name}");
                let count = seen.get("seen").unwrap().as_u64().unwrap();
                assert!(count >= least, "{name}: only {count} figures seen");
            }
            // The look itself notices a figure that opens to nothing.
            hand.ask("const line = document.createElement('p'); line.textContent = 'It carries 12.3 kN.'; document.querySelector('main').append(line); return true").await;
            let seen = hand.ask(FIGURES).await;
            assert_eq!(seen.get("bad").unwrap().as_array().unwrap().len(), 1, "{seen}");
            hand.close().await;
        },
    );
}

/// Touches the builder's drawing at shares of its width, or slides from one to another.
fn touch(from: f64, to: f64) -> String {
    format!(
        "const svg = document.querySelector('.planning svg'); svg.scrollIntoView({{ block: 'center' }}); \
         const box = svg.getBoundingClientRect(); \
         const send = (kind, share) => svg.dispatchEvent(new PointerEvent(kind, {{ bubbles: true, pointerId: 7, \
         clientX: box.left + box.width * share, clientY: box.top + box.height / 3 }})); \
         send('pointerdown', {from}); send('pointermove', ({from} + {to}) / 2); send('pointermove', {to}); send('pointerup', {to}); return true"
    )
}

/// The places of the plan as numbers, m.
async fn places(hand: &Hand) -> Vec<f64> {
    let text = hand.reads("Where they stand, m from the left jamb").await;
    text.split(';').filter_map(|one| one.trim().parse().ok()).collect()
}

#[test]
fn a_builders_plan_is_set_on_the_drawing_and_judged_in_words() {
    play(
        "a_builders_plan_is_set_on_the_drawing_and_judged_in_words",
        async |stage| {
            let hand = stage.open().await;
            let id = like_the_demo(&hand, "Brackets", json!({})).await;
            support_of(&hand, &id).await;
            hand.press("The builder’s plan").await;
            hand.answer("How the wall is to be held", "On prop-head brackets").await;
            hand.wait(
                "the drawing stands",
                "return document.querySelector('.planning svg') !== null",
                Value::Null,
            )
            .await;
            for share in [0.3, 0.42, 0.54, 0.66] {
                hand.ask(&touch(share, share)).await;
            }
            let set = places(&hand).await;
            assert_eq!(set.len(), 4, "{set:?}");
            assert!(set.windows(2).all(|pair| pair.first() < pair.last()), "{set:?}");
            hand.see("4 brackets at").await;
            hand.see("each would carry").await;
            hand.see("Does not hold. Do not load").await;

            // A finger slides the second, an arrow key moves the first by 25 mm, a button takes the last out.
            hand.ask(&touch(0.42, 0.46)).await;
            let slid = places(&hand).await;
            assert!(
                slid.get(1) > set.get(1) && slid.first() == set.first(),
                "{set:?} {slid:?}"
            );
            hand.ask("const one = document.querySelector('.station'); one.focus(); one.dispatchEvent(new KeyboardEvent('keydown', { key: 'ArrowRight', bubbles: true })); return true").await;
            let keyed = places(&hand).await;
            let step = keyed.first().unwrap() - slid.first().unwrap();
            assert!((step - 0.025).abs() < 1e-9, "{step}");
            let last = format!("Take B4 at {:.0} mm out", keyed.last().unwrap() * 1000.0);
            hand.press(&last).await;
            assert_eq!(places(&hand).await.len(), 3);
            hand.see("3 brackets at").await;

            // What is typed stands on the drawing.
            hand.fill("Where they stand, m from the left jamb", "0.5; 1.9").await;
            hand.wait(
                "two stand on the drawing",
                "return document.querySelectorAll('.station').length === 2",
                Value::Null,
            )
            .await;
            hand.close().await;
        },
    );
}

#[test]
fn sliders_answer_with_their_last_place_and_keep_nothing_until_asked() {
    play(
        "sliders_answer_with_their_last_place_and_keep_nothing_until_asked",
        async |stage| {
            let hand = stage.open().await;
            let id = like_the_demo(&hand, "Slider", json!({})).await;
            support_of(&hand, &id).await;
            hand.press("Try another spacing or length").await;
            // Many places in one go, as a finger gives them.
            hand.ask("const slider = document.querySelector('input[type=range]'); for (const mm of [1200, 1000, 800, 600, 500]) { slider.value = mm; slider.dispatchEvent(new Event('input', { bubbles: true })) } return true").await;
            hand.see("Trial, not the proposal.").await;
            // 2.40 m less 150 mm at each end hold five at 500 mm.
            hand.see("500 mm, 5 needles").await;
            hand.wait(
                "the answer is that of the last place",
                "return document.querySelector('.trialanswer')?.innerText.includes('5 needles SHS')",
                Value::Null,
            )
            .await;
            let drawn = hand
                .ask("return document.querySelectorAll('.trialanswer [data-part=N5]').length")
                .await;
            assert!(drawn.as_u64().unwrap() >= 2, "{drawn}");
            let plan = |open: &Value| open.pointer("/fields/~1builders_plan~1needles_x_m").cloned();
            let open = hand.invoke("job_open", json!({ "id": id })).await.unwrap();
            assert_eq!(plan(&open), None, "a trial is kept");

            hand.press("Keep as the plan").await;
            hand.see("The builder’s plan, held against the same checks").await;
            let open = hand.invoke("job_open", json!({ "id": id })).await.unwrap();
            assert_eq!(plan(&open).unwrap().as_str().unwrap().split(';').count(), 5);
            hand.close().await;
        },
    );
}

#[test]
fn a_lost_needle_a_gust_and_swapped_props_are_answered_in_words() {
    play(
        "a_lost_needle_a_gust_and_swapped_props_are_answered_in_words",
        async |stage| {
            let hand = stage.open().await;
            let id = like_the_demo(&hand, "Answers", json!({})).await;
            support_of(&hand, &id).await;
            hand.press("N2").await;
            hand.see("If N2, one of its props or one of its feet goes").await;
            let marks = "return [...document.querySelectorAll('.drawn svg')].map((one) => one.querySelectorAll('.cross, .ring').length)";
            // Front and plan show what is gone and what is then used most; the section shows another needle.
            assert_eq!(hand.ask(marks).await, json!([2, 0, 2]));

            hand.press("Today’s gust").await;
            hand.answer("The forecast says", "mph").await;
            hand.fill("Gust", "60").await;
            // 60 mph are 26.8 m/s.
            hand.see("Gust 26.8 m/s").await;
            hand.see("nobody works beside the wall").await;

            hand.press("Props came in another size").await;
            hand.fill("Size that came", "size 0").await;
            hand.see("Send back: not good enough as N1-in").await;
            hand.fill("Size that came", "size 2").await;
            hand.see("Good enough at every place").await;

            hand.still().await;
            hand.press("Enlarge this drawing: From above").await;
            let open = "return !!document.querySelector('dialog[open] .stage')";
            hand.wait("the drawing is open", open, json!(null)).await;
            hand.ask("document.querySelector('dialog .stage').dispatchEvent(new KeyboardEvent('keydown', { key: '+', bubbles: true })); return true").await;
            let scale = hand
                .ask("return document.querySelector('dialog .moved').style.transform")
                .await;
            assert!(scale.as_str().unwrap().contains("scale(1.4)"), "{scale}");
            hand.press("Close").await;
            hand.close().await;
        },
    );
}
