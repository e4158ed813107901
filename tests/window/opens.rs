//! The window opens on the list of jobs, and a machine without a display is told so.

use crate::stage::play;
use serde_json::{Value, json};
use std::process::Command;

#[test]
fn the_window_opens_on_the_list_of_jobs() {
    play("the_window_opens_on_the_list_of_jobs", async |stage| {
        let hand = stage.open().await;
        hand.see("Jobs").await;
        assert_eq!(hand.title().await, "Upstay");
        assert_eq!(hand.page_size().await, (360, 740));
        hand.picture("jobs-empty").await;
        hand.close().await;
    });
}

/// Pages of a job.
const PAGES: [&str; 11] = [
    "start",
    "wall",
    "above",
    "support",
    "order",
    "round",
    "record",
    "findings",
    "measure",
    "close",
    "emergency",
];

#[test]
fn each_page_is_fetched_by_itself_in_both_languages() {
    play("each_page_is_fetched_by_itself_in_both_languages", async |stage| {
        let hand = stage.open().await;
        let demo = hand.invoke("demo_open", json!({})).await.unwrap();
        let id = demo.get("id").and_then(Value::as_str).unwrap();
        let mut pages: Vec<(String, &str)> = PAGES.iter().map(|page| (format!("{id}/{page}"), *page)).collect();
        pages.push(("about".to_owned(), "about"));
        let mut english = Vec::new();
        for language in ["en", "de"] {
            let chosen = json!({ "language": language }).to_string();
            hand.ask(&format!("localStorage.setItem('shown', {})", json!(chosen)))
                .await;
            for (at, (address, page)) in pages.iter().enumerate() {
                // Loaded anew, so that nothing is there that another page has fetched.
                hand.ask(&format!(
                    "window.before = true; location.hash = '#{address}'; location.reload()"
                ))
                .await;
                let there = "return !window.before && document.body.dataset.screen === arguments[0] && \
                     document.querySelector('main').innerText.length > 60";
                hand.wait(&format!("`{address}` is there in {language}"), there, json!(page))
                    .await;
                assert_eq!(hand.ask("return document.documentElement.lang").await, json!(language));
                let text = hand.text().await;
                assert_ne!(english.get(at), Some(&text), "`{page}` says the same in both languages");
                english.push(text);
            }
        }
        hand.close().await;
    });
}

#[test]
fn without_a_display_it_says_one_sentence_and_ends() {
    // None named, and one named that nobody serves.
    for display in ["", ":64999"] {
        let run = Command::new(env!("CARGO_BIN_EXE_upstay"))
            .env("DISPLAY", display)
            .env_remove("WAYLAND_DISPLAY")
            .output()
            .unwrap();
        assert_eq!(run.status.code(), Some(2), "{display:?}");
        let said = String::from_utf8(run.stderr).unwrap();
        assert_eq!(said.lines().count(), 1, "{said}");
        assert!(said.contains("upstay demo FOLDER"), "{said}");
    }
}

#[test]
fn a_wrong_word_gives_the_usage() {
    let run = Command::new(env!("CARGO_BIN_EXE_upstay")).arg("dmeo").output().unwrap();
    assert_eq!(run.status.code(), Some(2));
    let said = String::from_utf8(run.stderr).unwrap();
    assert!(
        said.contains("verify PACK [--seal CODE]") && said.contains("`dmeo`"),
        "{said}"
    );
}
