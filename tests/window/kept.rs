//! What was typed and ticked is there again after the app was ended without a word.

use crate::stage::play;

#[test]
fn a_field_with_a_tick_survives_a_kill() {
    play("a_field_with_a_tick_survives_a_kill", async |mut stage| {
        let hand = stage.open().await;
        hand.fill("Name of the job", "Weir Cottage").await;
        hand.press("Begin this job").await;
        hand.press("All questions on one page").await;
        hand.fill("Width of the opening", "3,65").await;
        hand.see_tick("Width of the opening").await;
        hand.answer("Condition of the wall", "Sound").await;
        hand.fill("Depth of the new beam", "152").await;
        hand.see_tick("Depth of the new beam").await;
        stage.pull_the_plug();

        let hand = stage.open().await;
        hand.press("Weir Cottage").await;
        assert_eq!(hand.reads("Width of the opening").await, "3,65");
        assert_eq!(hand.reads("Depth of the new beam").await, "152");
        hand.see_tick("Width of the opening").await;
        hand.close().await;
    });
}
