//! The record's screens: a job handed over between two phones, a fork, a damaged job, corrections, seals, packs that are
//! chosen or refused, and a long record.

use crate::hand::Hand;
use crate::stage::{Stage, play, until};
use jpeg_encoder::{ColorType, Encoder};
use serde_json::{Value, json};
use std::path::{Path, PathBuf};
use std::process::Command;
use upstay_lib::record::{Jobs, Kind, Moment, NewEntry};

/// Where the app keeps its jobs in the home of a stage.
fn data(stage: &Stage) -> PathBuf {
    stage.home().join("data").join("org.upstay.app")
}

/// Begins a job by its name and goes to its record.
async fn begin(hand: &Hand, name: &str) {
    hand.fill("Name of the job", name).await;
    hand.press("Begin this job").await;
    to_record(hand).await;
}

async fn to_record(hand: &Hand) {
    hand.wait("the job is open", "return location.hash.length > 5", Value::Null)
        .await;
    hand.ask("location.hash = `${location.hash.split('/')[0]}/record`")
        .await;
    hand.see("Add to the record").await;
}

async fn to_jobs(hand: &Hand) {
    hand.press("‹ Jobs").await;
    hand.see("Open a pack").await;
}

async fn keep_note(hand: &Hand, text: &str) {
    hand.fill("Note", text).await;
    hand.press("Keep this note").await;
    hand.see_entry(text).await;
}

impl Hand {
    /// Waits until an entry of the time line says this.
    async fn see_entry(&self, words: &str) {
        let script =
            "return [...document.querySelectorAll('.event')].some((one) => one.innerText.includes(arguments[0]))";
        self.wait(&format!("an entry says `{words}`"), script, json!(words))
            .await;
    }
}

/// Makes the pack of the open job and copies it to a place of its own.
async fn pack_to(hand: &Hand, target: &Path) -> PathBuf {
    hand.press("Make the pack").await;
    hand.see("The pack is made.").await;
    let said = hand.text().await;
    let path = said
        .lines()
        .find_map(|line| Some(line.split_once(" at ")?.1.trim().to_owned()));
    let path = PathBuf::from(path.unwrap_or_else(|| panic!("no path in:\n{said}")));
    std::fs::copy(&path, target).unwrap();
    path
}

async fn open_pack(hand: &Hand, pack: &Path, said: &str) {
    hand.upload("Choose the pack (.zip)", pack).await;
    hand.see(said).await;
}

/// What the entries of the open job say, without those of packs and imports.
async fn story(hand: &Hand) -> Vec<String> {
    let id = hand.ask("return location.hash.slice(1).split('/')[0]").await;
    let page = hand
        .invoke("record", json!({"id": id, "before": null, "limit": 100}))
        .await
        .unwrap();
    let entries = page.get("entries").and_then(Value::as_array).unwrap().clone();
    let text = |entry: &Value, key: &str| entry.get(key).and_then(Value::as_str).unwrap_or_default().to_owned();
    entries
        .iter()
        .filter(|entry| !["import", "pack_made"].contains(&text(entry, "kind").as_str()))
        .map(|entry| format!("{}: {}", text(entry, "kind"), text(entry, "words")))
        .collect()
}

#[test]
fn a_job_goes_to_another_phone_and_comes_back_and_both_show_the_same() {
    play(
        "a_job_goes_to_another_phone_and_comes_back_and_both_show_the_same",
        async |stage| {
            let shared = tempfile::tempdir().unwrap();
            let (there, back) = (shared.path().join("there.zip"), shared.path().join("back.zip"));
            let hand = stage.open().await;
            begin(&hand, "Hand over <b>").await;
            keep_note(&hand, "written on the first phone").await;
            pack_to(&hand, &there).await;
            hand.close().await;

            // The other phone: the same window, another home.
            let first = data(&stage);
            let aside = shared.path().join("first phone");
            until("the first phone is closed", || std::fs::rename(&first, &aside).is_ok());
            let hand = stage.open().await;
            hand.see("Open a pack").await;
            open_pack(&hand, &there, "A new job from this pack").await;
            hand.press("Go to this job").await;
            hand.see_entry("written on the first phone").await;
            hand.see("Also written by another phone").await;
            keep_note(&hand, "written on the second phone").await;
            pack_to(&hand, &back).await;
            let second_story = story(&hand).await;
            hand.close().await;

            let second = shared.path().join("second phone");
            until("the second phone is closed", || {
                std::fs::rename(&first, &second).is_ok()
            });
            std::fs::rename(&aside, &first).unwrap();
            let hand = stage.open().await;
            hand.see("Hand over <b>").await;
            open_pack(&hand, &back, "Joined with the job that is here").await;
            hand.picture("hand-over").await;
            hand.press("Go to this job").await;
            hand.see_entry("written on the second phone").await;
            hand.see("from phone").await;
            assert_eq!(story(&hand).await, second_story);
            to_jobs(&hand).await;
            // The same pack once more is nothing.
            open_pack(&hand, &back, "Nothing new").await;
            hand.close().await;
        },
    );
}

#[test]
fn a_pack_that_tells_another_story_is_shown_and_overwrites_nothing() {
    play(
        "a_pack_that_tells_another_story_is_shown_and_overwrites_nothing",
        async |stage| {
            let shared = tempfile::tempdir().unwrap();
            let other = shared.path().join("other.zip");
            let copy = shared.path().join("copy");
            let hand = stage.open().await;
            begin(&hand, "Fork").await;
            hand.close().await;
            // The jobs are put back from an older copy behind the app's back, and written on.
            copied(&data(&stage).join("jobs"), &copy);
            let hand = stage.open().await;
            hand.press("Fork").await;
            to_record(&hand).await;
            keep_note(&hand, "one story").await;
            pack_to(&hand, &other).await;
            hand.close().await;
            let here = data(&stage).join("jobs");
            until("the app is closed", || std::fs::remove_dir_all(&here).is_ok());
            copied(&copy, &here);
            let hand = stage.open().await;
            hand.press("Fork").await;
            to_record(&hand).await;
            keep_note(&hand, "another story").await;
            to_jobs(&hand).await;
            open_pack(&hand, &other, "Some of it does not fit").await;
            hand.see("Keep this pack file").await;
            hand.see("says something else than the entry here").await;
            hand.picture("fork").await;
            hand.press("Go to this job").await;
            hand.see_entry("another story").await;
            let story = story(&hand).await.join("\n");
            assert!(!story.contains("one story"), "{story}");
            hand.close().await;
        },
    );
}

fn copied(from: &Path, to: &Path) {
    let done = Command::new("cp").args(["-a", "-T"]).args([from, to]).status().unwrap();
    assert!(done.success());
}

#[test]
fn a_damaged_job_is_shown_set_aside_and_restored_from_its_pack() {
    play(
        "a_damaged_job_is_shown_set_aside_and_restored_from_its_pack",
        async |stage| {
            let shared = tempfile::tempdir().unwrap();
            let pack = shared.path().join("last.zip");
            let hand = stage.open().await;
            begin(&hand, "To be damaged").await;
            keep_note(&hand, "as it was").await;
            pack_to(&hand, &pack).await;
            hand.close().await;
            let jobs = data(&stage).join("jobs");
            let folder = std::fs::read_dir(&jobs).unwrap().flatten().next().unwrap().path();
            let file = folder.join("record.sqlite");
            let db = rusqlite::Connection::open(&file).unwrap();
            db.execute_batch("DROP TRIGGER entry_no_update; UPDATE entry SET body = '{\"text\":\"as it was not\"}' WHERE kind = 'note';")
            .unwrap();
            drop(db);
            let hand = stage.open().await;
            hand.see("To be damaged is damaged").await;
            hand.see("The other jobs are whole").await;
            hand.press("Look at what is damaged").await;
            hand.see("What to do").await;
            hand.picture("damaged").await;
            hand.press("Set it aside").await;
            hand.see("Set aside, unchanged").await;
            open_pack(&hand, &pack, "A new job from this pack").await;
            hand.press("Go to this job").await;
            hand.see_entry("as it was").await;
            hand.press("Check the record").await;
            hand.see("The record is whole").await;
            hand.close().await;
        },
    );
}

#[test]
fn a_correction_shows_both_sayings_and_a_seal_given_fits_the_pack() {
    play(
        "a_correction_shows_both_sayings_and_a_seal_given_fits_the_pack",
        async |stage| {
            let shared = tempfile::tempdir().unwrap();
            let pack = shared.path().join("sealed.zip");
            let hand = stage.open().await;
            begin(&hand, "Corrected").await;
            keep_note(&hand, "N1 leans 4 mm").await;
            hand.press("Correct this: Note").await;
            hand.fill("Note", "N1 leans 14 mm <script>window.pwned = 1</script>")
                .await;
            hand.press("Keep the correction").await;
            hand.see("It says now:").await;
            hand.see_entry("N1 leans 14 mm <script>").await;
            let both = "return [...document.querySelectorAll('.event')].filter((one) => one.innerText.includes('N1 leans 4 mm') && \
             one.innerText.includes('N1 leans 14 mm')).length === 2";
            hand.wait("the old entry and its correction show both", both, Value::Null)
                .await;
            assert_eq!(hand.ask("return window.pwned ?? null").await, Value::Null);
            hand.press("Give a seal").await;
            hand.wait(
                "a seal is shown",
                "return document.querySelector('.code')?.textContent.length >= 12",
                Value::Null,
            )
            .await;
            let code = hand.ask("return document.querySelector('.code').textContent").await;
            hand.see("Where to keep it").await;
            hand.press("Seals given: 1").await;
            hand.see("covers 3 entries").await;
            let (wide, close) = (shared.path().join("wide.jpg"), shared.path().join("close.jpg"));
            for (file, kind, width) in [(&wide, "All of it", 64), (&close, "Close up", 48)] {
                Encoder::new_file(file, 90)
                    .unwrap()
                    .encode(&vec![120; usize::from(width) * 32 * 3], width, 32, ColorType::Rgb)
                    .unwrap();
                hand.answer("How close is the next photo?", kind).await;
                hand.upload("Add a photo from this device", file).await;
                let name = file.file_name().unwrap().to_string_lossy().into_owned();
                let taken =
                    "return window.__TAURI__ && document.querySelectorAll('.photobox figure').length === arguments[0]";
                let count = if name == "wide.jpg" { 1 } else { 2 };
                hand.wait(&format!("{name} is kept"), taken, json!(count)).await;
            }
            hand.see("Lay a ruler, or a coin").await;
            hand.press("Choose the photos").await;
            hand.see("All 2 photos go in").await;
            hand.press("All of it").await;
            hand.see("1 of 2 photos go in").await;
            hand.press("Leave the place out").await;
            pack_to(&hand, &pack).await;
            hand.close().await;
            let verify = Command::new(env!("CARGO_BIN_EXE_upstay"))
                .args(["verify", pack.to_str().unwrap(), "--seal", code.as_str().unwrap()])
                .output()
                .unwrap();
            let answer = String::from_utf8_lossy(&verify.stdout);
            assert_eq!(verify.status.code(), Some(0), "{answer}");
            assert!(answer.contains("nothing before this seal was changed"), "{answer}");
            let mut zip = zip::ZipArchive::new(std::fs::File::open(&pack).unwrap()).unwrap();
            let names: Vec<String> = (0..zip.len())
                .map(|at| zip.by_index(at).unwrap().name().unwrap().into_owned())
                .collect();
            let photos: Vec<&String> = names.iter().filter(|name| name.starts_with("photos/")).collect();
            assert!(
                photos.len() == 1 && photos.iter().all(|name| name.contains("detail")),
                "{names:?}"
            );
        },
    );
}

#[test]
fn what_is_no_whole_pack_is_refused_in_words_and_leaves_nothing() {
    play(
        "what_is_no_whole_pack_is_refused_in_words_and_leaves_nothing",
        async |stage| {
            let shared = tempfile::tempdir().unwrap();
            let (pack, file) = (shared.path().join("whole.zip"), shared.path().join("other.zip"));
            let hand = stage.open().await;
            begin(&hand, "Refused").await;
            let made = pack_to(&hand, &pack).await;
            to_jobs(&hand).await;
            let whole = std::fs::read(&pack).unwrap();
            let mut changed = whole.clone();
            *changed.get_mut(2_000).unwrap() ^= 1;
            for (bytes, said) in [
                (b"not a zip".to_vec(), "is no pack"),
                (Vec::new(), "is empty"),
                (whole.get(..whole.len() / 2).unwrap().to_vec(), "Not taken in"),
                (changed, "Not taken in"),
            ] {
                std::fs::write(&file, bytes).unwrap();
                open_pack(&hand, &file, said).await;
                hand.wait(
                    "it can be tried again",
                    "return !document.querySelector('.packin .file').hidden",
                    Value::Null,
                )
                .await;
            }
            let left = std::fs::read_dir(data(&stage).join("arriving")).unwrap().count();
            assert_eq!(left, 0, "what did not come in leaves nothing");
            open_pack(&hand, &made, "Nothing new").await;
            hand.close().await;
        },
    );
}

#[test]
fn a_record_of_ten_thousand_entries_keeps_few_of_them_in_the_page() {
    play(
        "a_record_of_ten_thousand_entries_keeps_few_of_them_in_the_page",
        async |stage| {
            let jobs = Jobs::open(&data(&stage)).unwrap();
            let moment = |number: i64| Moment {
                utc_ms: 1_772_438_400_000 + number * 600_000,
                offset_min: 0,
                boot_ms: None,
            };
            let mut store = jobs.begin("Long", "", "england", false, moment(0)).unwrap();
            for day in 0..70 {
                let notes = (0..144)
                    .map(|number| NewEntry::new(Kind::Note, json!({"text": format!("note {}", day * 144 + number)})));
                store.append_many(moment(day * 144), notes.collect(), None).unwrap();
            }
            drop(store);
            let hand = stage.open().await;
            hand.press("Long").await;
            to_record(&hand).await;
            hand.see_entry("note 10079").await;
            let drawn = "return document.querySelectorAll('.event').length";
            assert!(hand.ask(drawn).await.as_u64().unwrap() < 200);
            hand.fill("Go to a day", "Monday, 2 March 2026").await;
            hand.see_entry("note 143").await;
            hand.ask("scrollTo(0, document.documentElement.scrollHeight)").await;
            hand.see_entry("Long").await;
            assert!(
                hand.ask(drawn).await.as_u64().unwrap() < 200,
                "what went far is taken out again"
            );
            hand.close().await;
        },
    );
}
