//! A round as somebody walks it: cut off and gone on with, a "no" with its photo, a stop with the number to ring, what stands
//! open until it is put right, and the way out from every screen.

use crate::hand::Hand;
use crate::stage::play;
use serde_json::{Value, json};

/// The first prop of the invented house, and the one after it.
const FIRST: &str = "N1-in";
const SECOND: &str = "N1-out";

/// One touch each: what is read at a prop on a good day.
const TOUCHES: [&str; 4] = [
    "Lean along the wall: 0 mm",
    "Lean across the wall: 0 mm",
    "Head off centre: 5 mm",
    "Foot off centre: 0 mm",
];
const LAST: [&str; 4] = [
    "Is its board firm?",
    "Is it straight and undented?",
    "Are its head and foot fixed?",
    "Is the needle packed and wedged over the full leaf?",
];
const WHOLE: [(&str, &str); 4] = [
    ("Are all braces on?", "Yes"),
    ("Do doors or windows stick?", "No"),
    ("Is load stacked on the floors above?", "No"),
    ("Is anyone digging near the feet?", "No"),
];

async fn on_screen(hand: &Hand, name: &str) {
    let there = "return document.body.dataset.screen === arguments[0]";
    hand.wait(&format!("{name} is shown"), there, json!(name)).await;
}

async fn begin(hand: &Hand) {
    hand.press("Open the demo").await;
    on_screen(hand, "support").await;
    hand.press("Round").await;
    hand.answer("Why this round?", "Start of the day").await;
    hand.fill("Who does it", "Sam Weir").await;
    hand.fill("Measured over a length of", "1").await;
    hand.press("Begin with").await;
    at_prop(hand, FIRST).await;
}

async fn at_prop(hand: &Hand, name: &str) {
    let shown = "return document.querySelector('main .prop .figure b')?.textContent === arguments[0]";
    hand.wait(&format!("the round is at {name}"), shown, json!(name)).await;
}

/// Reads a prop with "yes" to everything but one question.
async fn read(hand: &Hand, no_to: &str) {
    hand.answer("Is the right pin in, all the way?", "Yes").await;
    for touch in TOUCHES {
        hand.press(touch).await;
    }
    for question in LAST {
        hand.answer(question, if question == no_to { "No" } else { "Yes" })
            .await;
    }
}

/// Reads every prop from the one shown on.
async fn read_all(hand: &Hand, no_to: &str) {
    let mut no = no_to;
    loop {
        read(hand, no).await;
        no = "";
        hand.see("today").await;
        let here = hand
            .ask("return document.querySelector('main .prop .figure b').textContent")
            .await;
        let on = "document.querySelector('.thumbs .next').click()";
        hand.ask(on).await;
        let gone = "return document.querySelector('main .prop .figure b')?.textContent !== arguments[0]";
        hand.wait("the next page is there", gone, here).await;
        if hand.ask("return !document.querySelector('main .prop')").await == json!(true) {
            return;
        }
    }
}

#[test]
fn a_round_that_was_cut_off_goes_on_where_it_stopped() {
    play(
        "a_round_that_was_cut_off_goes_on_where_it_stopped",
        async |mut stage| {
            let hand = stage.open().await;
            begin(&hand).await;
            let answered = "return document.querySelectorAll('main .prop :is(.yesno input:checked, .mark[aria-pressed=true])').length";
            assert_eq!(hand.ask(answered).await, json!(0), "nothing is answered beforehand");
            read(&hand, "").await;
            hand.see("kN today").await;
            hand.press(SECOND).await;
            at_prop(&hand, SECOND).await;
            hand.answer("Is the right pin in, all the way?", "Yes").await;
            hand.press("Head off centre: 10 mm").await;
            hand.see_tick("Head off centre").await;
            stage.pull_the_plug();

            let hand = stage.open().await;
            hand.press("demo").await;
            on_screen(&hand, "support").await;
            hand.press("Round").await;
            at_prop(&hand, SECOND).await;
            assert_eq!(hand.reads("Head off centre").await, "10");
            let pin = "return document.querySelector('main .prop .yesno input:checked')?.value";
            assert_eq!(hand.ask(pin).await, json!("right"));
            hand.press("Drawing").await;
            hand.see("1 read, 5 open").await;
            hand.close().await;
        },
    );
}

#[test]
fn a_no_asks_for_a_photo_or_a_reason_and_stays_open_on_every_screen() {
    play(
        "a_no_asks_for_a_photo_or_a_reason_and_stays_open_on_every_screen",
        async |stage| {
            let hand = stage.open().await;
            begin(&hand).await;
            hand.answer("Is its board firm?", "No").await;
            // What to do comes with the answer, before the prop is read to its end.
            hand.see("Make the board firm before work goes on.").await;
            hand.see("Take a photo of it. If you cannot, say why.").await;
            read_all(&hand, "Is its board firm?").await;
            for (question, answer) in WHOLE {
                hand.answer(question, answer).await;
            }
            hand.press("Finish this round").await;
            // The gauges that are known are asked for too, and on an outside wall the wind.
            hand.see(
                "Not answered yet: G1 above the opening, left reads, G2 above the opening, right reads, \
                 Wind, the strongest gust today.",
            )
            .await;
            hand.fill("G1 above the opening, left reads", "12").await;
            hand.fill("G2 above the opening, right reads", "9.5").await;
            hand.fill("Gust", "5").await;
            hand.press("Finish this round").await;
            hand.see("A photo, or why there is none, is still asked for: N1-in.")
                .await;
            hand.press("Drawing").await;
            hand.see("1 wrong").await;
            hand.press("N1-in, wrong").await;
            at_prop(&hand, FIRST).await;
            hand.fill("No photo, because", "Too dark behind the board").await;
            hand.see_tick("No photo, because").await;
            hand.press("Drawing").await;
            hand.press("Go on with The whole job").await;
            hand.press("Finish this round").await;
            hand.see("Not passed").await;
            hand.see("Kept in the record").await;
            for screen in ["Wall", "Above", "Support", "Order", "Round", "Record"] {
                hand.press(screen).await;
                hand.see("One finding open").await;
            }

            // The record holds who and why.
            let list = hand.invoke("jobs", json!({})).await.unwrap();
            let id = list.pointer("/jobs/0/id").cloned().unwrap();
            let record = hand
                .invoke("record", json!({"id": id, "before": null, "limit": 5}))
                .await
                .unwrap();
            let kept = record.to_string();
            assert!(kept.contains("Read by Sam Weir."), "{kept}");
            let open = hand.invoke("job_open", json!({"id": id})).await.unwrap();
            assert_eq!(
                open.pointer("/rounds/0/name"),
                Some(&json!("Sam Weir")),
                "{}",
                open.pointer("/rounds/0").unwrap()
            );
            assert_eq!(open.pointer("/state/open"), Some(&json!(1)));

            // Put right, looked at again, closed.
            hand.press("One finding open").await;
            hand.see("N1-in: the board is not firm.").await;
            hand.press("It was put right").await;
            hand.fill("What was done", "New board on a bed of lean mix").await;
            hand.press("Write the repair down").await;
            hand.see("New board on a bed of lean mix").await;
            hand.press("Look again at N1-in").await;
            at_prop(&hand, FIRST).await;
            hand.press("Drawing").await;
            hand.fill("Measured over a length of", "1").await;
            hand.press("Begin with N1-in").await;
            read(&hand, "").await;
            hand.press("The whole job").await;
            for (question, answer) in WHOLE {
                hand.answer(question, answer).await;
            }
            hand.press("Finish this round").await;
            hand.see("N1-in is good again").await;
            let open = hand.invoke("job_open", json!({"id": id})).await.unwrap();
            assert_eq!(
                open.pointer("/state/open"),
                Some(&json!(0)),
                "{}",
                open.pointer("/state").unwrap()
            );
            hand.close().await;
        },
    );
}

#[test]
fn a_stop_says_so_at_once_with_the_number_of_the_engineer() {
    play(
        "a_stop_says_so_at_once_with_the_number_of_the_engineer",
        async |stage| {
            let hand = stage.open().await;
            begin(&hand).await;
            hand.press("Emergency").await;
            hand.fill("Engineer’s name", "Ada Roy").await;
            hand.fill("Number of the engineer", "+44 1632 960123").await;
            hand.see_tick("Number of the engineer").await;
            // Numbers never become a part of what is computed.
            hand.press("Support").await;
            on_screen(&hand, "support").await;
            hand.press("Round").await;
            at_prop(&hand, FIRST).await;
            hand.answer("Is the right pin in, all the way?", "Missing").await;
            hand.see("Stop. No more load").await;
            hand.see("STOP").await;
            hand.see("Ring Ada Roy").await;
            let link = "return document.querySelector('#foot .stopnow a.ring')?.getAttribute('href')";
            assert_eq!(hand.ask(link).await, json!("tel:+441632960123"));
            let seen = "const box = document.querySelector('#foot .stopnow a.ring').getBoundingClientRect(); \
             return box.top >= 0 && box.bottom <= innerHeight && box.height >= 48";
            assert_eq!(hand.ask(seen).await, json!(true), "the number is under the thumb");
            hand.picture("round-stop").await;
            // A touch shows the number large, and never leads away from the app.
            hand.press("Ring Ada Roy").await;
            let large = "return document.querySelector('dialog[open] .digits')?.textContent === arguments[0]";
            hand.wait("the number is shown large", large, json!("+44 1632 960123"))
                .await;
            hand.press("Close").await;
            hand.see("Stop. No more load").await;
            hand.close().await;
        },
    );
}

#[test]
fn the_way_out_is_one_touch_from_every_screen_and_a_number_the_second() {
    play(
        "the_way_out_is_one_touch_from_every_screen_and_a_number_the_second",
        async |stage| {
            let hand = stage.open().await;
            hand.see("Hold the wall up before you cut it.").await;
            hand.press("Emergency").await;
            hand.see("Everybody out.").await;
            hand.press("‹ Jobs").await;
            hand.press("Open the demo").await;
            on_screen(&hand, "support").await;
            let job = hand.ask("return location.hash.slice(1).split('/')[0]").await;
            let rings = "return [...document.querySelectorAll('a.ring')].some((link) => \
                 link.getAttribute('href') === 'tel:999' && link.getBoundingClientRect().bottom <= innerHeight)";
            for screen in [
                "start/house",
                "start/all",
                "wall",
                "above",
                "support",
                "order",
                "round",
                "record",
                "findings",
            ] {
                let go = format!("location.hash = '{}/{screen}'", job.as_str().unwrap());
                hand.ask(&go).await;
                on_screen(&hand, screen.split('/').next().unwrap()).await;
                hand.press("Emergency").await;
                hand.see("Everybody out.").await;
                hand.see("Touch nothing that moves.").await;
                hand.wait("the emergency number stands in view", rings, Value::Null)
                    .await;
            }
            // Then it is written down, and stops the work.
            hand.fill("What it was", "The wall or its support moved").await;
            hand.fill("What happened", "A crack opened over N2").await;
            hand.fill("Your name", "Sam Weir").await;
            hand.press("Write it down").await;
            hand.see("Kept in the record.").await;
            hand.press("Wall").await;
            hand.see("One finding open, work stops").await;
            hand.close().await;
        },
    );
}
