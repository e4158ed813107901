//! The window opens on the list of jobs, and a machine without a display is told so.

use crate::stage::play;
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
