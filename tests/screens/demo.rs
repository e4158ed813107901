//! The way through the demo by what can be read on the screens: proposal, order, a round of all props, record, pack.

use crate::bench::play;
use crate::view::PHONE;

#[test]
fn the_demo_opens_on_its_proposal() {
    play("the_demo_opens_on_its_proposal", PHONE, |bench| {
        bench.go("");
        bench.tap("Open the demo");
        bench.see("When in doubt, stay out and ring.");
        assert_eq!(bench.taps(), 1);
        bench.shot("demo-support");
    });
}
