//! Bad input is answered beside the field, and nothing entered before is lost.

use crate::stage::play;

#[test]
fn a_slip_of_units_and_a_file_that_is_no_picture_are_told_in_place() {
    play(
        "a_slip_of_units_and_a_file_that_is_no_picture_are_told_in_place",
        async |stage| {
            let file = stage.home().join("notes.jpg");
            std::fs::write(&file, "not a picture").unwrap();
            let hand = stage.open().await;
            hand.fill("Name of the job", "Weir Cottage <script>alert(1)</script>")
                .await;
            hand.press("Begin this job").await;
            hand.press("All questions on one page").await;
            hand.see("Weir Cottage <script>alert(1)</script>").await;
            hand.fill("Width of the opening", "3600").await;
            hand.see("perhaps 3.6 m").await;
            hand.upload("Add a photo of the wall from this device", &file).await;
            hand.see("notes.jpg:").await;
            hand.fill("Wall left of it", "1,2").await;
            hand.see_tick("Wall left of it").await;
            // The figures that come after the field's change must not take the message away.
            hand.fill("Width of the opening", "3.6").await;
            hand.see("Still to be said").await;
            hand.see("notes.jpg:").await;
            assert_eq!(hand.reads("Wall left of it").await, "1,2");
            hand.close().await;
        },
    );
}
