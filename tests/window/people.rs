//! Several people on one job and on two phones: a permit that a finding on the other phone withdraws, a weekend that nobody
//! looked after, and a job that is taken out and closed.

use crate::hand::Hand;
use crate::stage::{Stage, play, until};
use serde_json::{Value, json};
use std::path::{Path, PathBuf};
use upstay_lib::form::flatten;
use upstay_lib::record::{Jobs, Kind, Moment, NewEntry, Store};
use upstay_lib::site;

const DAY_MS: i64 = 86_400_000;

/// Where the app keeps its jobs in the home of a stage.
fn data(stage: &Stage) -> PathBuf {
    stage.home().join("data").join("org.upstay.app")
}

/// So many days before now.
fn ago(days: i64) -> Moment {
    let now = Moment::now();
    Moment {
        utc_ms: now.utc_ms - days * DAY_MS,
        boot_ms: None,
        ..now
    }
}

/// A job with a kept proposal, begun so many days ago.
fn begun(folder: &Path, days: i64) -> Store {
    let jobs = Jobs::open(folder).unwrap();
    let mut store = jobs
        .begin("Weir Cottage", "Mill Lane", "england", false, ago(days))
        .unwrap();
    let job: Value = serde_json::from_str(include_str!("../../src-tauri/src/demo/job.json")).unwrap();
    let fields = flatten(&job);
    let figure = site::figure(&fields, 0);
    let aim = figure.proposal.unwrap().options.first().unwrap().aim.clone();
    site::keep(&mut store, &fields, &aim, ago(days)).unwrap();
    store
}

/// A round that looked at every prop and found nothing.
fn round(store: &mut Store, days: i64) {
    let kept = site::kept(store).unwrap().unwrap();
    let reading = |prop: &&str| json!({"prop": prop, "lean_mm": [2, 1], "over_m": 1.0, "pin": "right"});
    let readings: Vec<Value> = kept.props().iter().map(reading).collect();
    let gauges = json!([{"name": "G1", "mm": 0.3}]);
    let body = json!({
        "proposal": kept.entry, "why": "start of the day",
        "round": {"name": "A. Mason", "readings": readings, "gauges": gauges},
        "evaluation": {"passed": true, "stop": false, "reasons": [], "props": []},
    });
    let entry = NewEntry::new(Kind::RoundDone, body);
    store.append_many(ago(days), vec![entry], None).unwrap();
}

/// Says yes to every stop of the kept order before the one of this code.
fn say_yes_until(store: &mut Store, code: &str) {
    let order = site::kept(store)
        .unwrap()
        .unwrap()
        .proposal
        .get("order")
        .cloned()
        .unwrap();
    let mut seen: Vec<String> = Vec::new();
    for step in order.as_array().unwrap() {
        let own = step.get("code").and_then(Value::as_str).unwrap().to_owned();
        if own == code {
            return;
        }
        if step.get("stop") != Some(&json!(true)) || own == "before_night" {
            continue;
        }
        let number = seen.iter().filter(|known| **known == own).count() + 1;
        seen.push(own.clone());
        let key = format!("{own}/{number}");
        let set_out = own.starts_with("permit").then_some(false);
        site::pass(store, &key, "A. Mason", set_out, ago(0)).unwrap();
    }
}

async fn screen(hand: &Hand, name: &str) {
    hand.wait("the job is open", "return location.hash.length > 5", Value::Null)
        .await;
    hand.ask(&format!("location.hash = `${{location.hash.split('/')[0]}}/{name}`"))
        .await;
    let there = "return document.body.dataset.screen === arguments[0]";
    hand.wait(&format!("{name} is shown"), there, json!(name)).await;
}

/// Makes the pack of the open job and copies it to a place of its own.
async fn pack_to(hand: &Hand, target: &Path) {
    screen(hand, "record").await;
    hand.press("Make the pack").await;
    hand.see("The pack is made.").await;
    let said = hand.text().await;
    let path = said
        .lines()
        .find_map(|line| Some(line.split_once(" at ")?.1.trim().to_owned()));
    std::fs::copy(path.unwrap(), target).unwrap();
}

#[test]
fn a_permit_given_on_one_phone_is_withdrawn_by_a_finding_on_the_other() {
    play(
        "a_permit_given_on_one_phone_is_withdrawn_by_a_finding_on_the_other",
        async |stage| {
            let shared = tempfile::tempdir().unwrap();
            let (there, back) = (shared.path().join("there.zip"), shared.path().join("back.zip"));
            let mut store = begun(&data(&stage), 0);
            say_yes_until(&mut store, "permit_to_load");
            round(&mut store, 0);
            drop(store);
            let hand = stage.open().await;
            hand.press("Weir Cottage").await;
            pack_to(&hand, &there).await;
            hand.close().await;

            // The other phone: the same window, another home. Its permit knows nothing of what the first one finds.
            let (first, aside) = (data(&stage), shared.path().join("first phone"));
            until("the first phone is closed", || std::fs::rename(&first, &aside).is_ok());
            let hand = stage.open().await;
            hand.see("Open a pack").await;
            hand.upload("Choose the pack (.zip)", &there).await;
            hand.press("Go to this job").await;
            screen(&hand, "order").await;
            hand.press("Say yes").await;
            hand.fill("Name of whoever says yes", "B. Check").await;
            hand.answer("Did this person set the support out?", "No").await;
            hand.press("Give this permit").await;
            hand.see("B. Check did not set the support out.").await;
            pack_to(&hand, &back).await;
            hand.close().await;

            let second = shared.path().join("second phone");
            until("the second phone is closed", || {
                std::fs::rename(&first, &second).is_ok()
            });
            std::fs::rename(&aside, &first).unwrap();
            let hand = stage.open().await;
            hand.press("Weir Cottage").await;
            screen(&hand, "findings").await;
            hand.fill("What it is", "Something knocked a prop or the wall").await;
            // The name of somebody who is in the record is taken by one press.
            hand.press("This is A. Mason").await;
            hand.press("Write it down").await;
            hand.see("Stop: Something knocked a prop or the wall").await;
            hand.press("‹ Jobs").await;
            hand.see("Open a pack").await;
            hand.upload("Choose the pack (.zip)", &back).await;
            hand.see("Joined with the job that is here").await;
            hand.press("Go to this job").await;
            screen(&hand, "order").await;
            hand.see("The permit of B. Check no longer stands.").await;
            hand.see("A finding that whoever gave it had not seen: Something knocked a prop or the wall.")
                .await;
            hand.picture("permit-withdrawn").await;
            screen(&hand, "record").await;
            let signed = "return [...document.querySelectorAll('.event')].some((one) => one.innerText.includes('Finding') && one.querySelector('.hash').innerText.includes('A. Mason'))";
            hand.wait("the finding has its name under it", signed, Value::Null)
                .await;
            hand.close().await;
        },
    );
}

#[test]
fn a_weekend_that_nobody_looked_after_is_told_on_the_first_screen_and_in_the_record() {
    play(
        "a_weekend_that_nobody_looked_after_is_told_on_the_first_screen_and_in_the_record",
        async |stage| {
            use chrono::Datelike;
            // The last Friday with a whole weekend after it.
            let today = ago(0).local_date().unwrap();
            let friday = (3..10)
                .find(|days| (today - chrono::Days::new(*days)).weekday() == chrono::Weekday::Fri)
                .unwrap();
            let days = i64::try_from(friday).unwrap();
            let mut store = begun(&data(&stage), days);
            round(&mut store, days);
            drop(store);
            let hand = stage.open().await;
            hand.see("Do today's round.").await;
            let overdue = "return document.querySelector('.jobs .due .wrong') !== null";
            hand.wait("it is overdue", overdue, Value::Null).await;
            hand.press("Weir Cottage").await;
            screen(&hand, "record").await;
            hand.see("Days without a round").await;
            let shown = hand.ask("return document.querySelectorAll('.day.missed').length").await;
            let missing = friday - 1;
            assert_eq!(shown, json!(missing), "Saturday, Sunday and every day since");
            let id = hand.ask("return location.hash.slice(1).split('/')[0]").await;
            let told = hand.invoke("due", json!({"id": id})).await.unwrap();
            for after in [1, 2] {
                let missed = today - chrono::Days::new(friday) + chrono::Days::new(after);
                let missed = json!(missed.to_string());
                assert!(told.get("missing").and_then(Value::as_array).unwrap().contains(&missed));
            }
            hand.picture("missed-weekend").await;
            hand.close().await;
        },
    );
}

#[test]
fn props_are_let_down_the_cracks_are_looked_at_and_the_job_is_closed_and_opened_again() {
    play(
        "props_are_let_down_the_cracks_are_looked_at_and_the_job_is_closed_and_opened_again",
        async |stage| {
            let mut store = begun(&data(&stage), 0);
            round(&mut store, 0);
            say_yes_until(&mut store, "permit_to_take_out");
            let given = site::pass(&mut store, "permit_to_take_out/1", "C. Engineer", Some(false), ago(0));
            given.unwrap();
            let props: Vec<String> = site::kept(&store)
                .unwrap()
                .unwrap()
                .props()
                .iter()
                .map(|&name| name.to_owned())
                .collect();
            drop(store);
            let hand = stage.open().await;
            hand.press("Weir Cottage").await;
            screen(&hand, "close").await;
            hand.see("still stand").await;
            let first = props.first().unwrap();
            hand.answer(&format!("{first}, down 0.0 mm"), "¼ turn down").await;
            hand.press("Write this step down").await;
            hand.see("Gauge G1: type what it reads, in mm.").await;
            hand.fill("Gauge G1 reads", "0,4").await;
            hand.answer("Did beam, gap or wall move, crack or sag?", "No").await;
            hand.fill("Who does it", "A. Mason").await;
            hand.picture("let-down").await;
            hand.press("Write this step down").await;
            // A quarter turn of a thread of 6 mm.
            hand.see(&format!("{first}, down 1.5 mm")).await;
            for prop in &props {
                let down = if prop == first { "1.5" } else { "0.0" };
                hand.answer(&format!("{prop}, down {down} mm"), "Out").await;
            }
            hand.fill("Gauge G1 reads", "0.4").await;
            hand.answer("Did beam, gap or wall move, crack or sag?", "No").await;
            hand.press("Write this step down").await;
            hand.see("0 of 3 looks are done.").await;
            hand.fill("Gauge G1 reads", "0.4").await;
            hand.answer("Any new crack, a door that sticks, anything sagging?", "No")
                .await;
            hand.press("Write this look down").await;
            hand.see("1 of 3 looks are done.").await;
            hand.press("Close it anyway").await;
            hand.see("This job cannot be closed yet.").await;
            hand.fill("Close anyway, because", "The owner looks at them himself.")
                .await;
            hand.press("Close it anyway").await;
            hand.see("Closed by A. Mason").await;
            hand.picture("closed").await;
            hand.press("‹ Jobs").await;
            hand.see("This job is closed.").await;
            hand.press("Weir Cottage").await;
            screen(&hand, "close").await;
            hand.fill("Why it is opened again", "A crack beside the beam.").await;
            hand.press("Open this job again").await;
            hand.see("Close the job").await;
            hand.close().await;
        },
    );
}
