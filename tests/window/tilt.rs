//! Lean by the phone's own sensor, fed with events from here.

use crate::hand::Hand;
use crate::measure::number;
use crate::stage::play;
use serde_json::{Value, json};

/// A sensor that is fed from here: lean to the right and towards the looker, degrees, the phone's own error, and how it shakes.
const SENSOR: &str = "window.DeviceOrientationEvent ??= class extends Event {}; \
    window.sensor = { right: 0, towards: 0, zero: 0, shake: 0 }; window.calls = 0; \
    setInterval(() => { const { right, towards, zero, shake } = window.sensor; const rad = Math.PI / 180; \
      const off = () => zero + (Math.random() - 0.5) * 2 * shake; \
      let u = [-Math.tan((right + off()) * rad), 1, -Math.tan((towards + off()) * rad)]; \
      const long = Math.hypot(...u); u = u.map((one) => one / long); \
      const gamma = Math.atan(-u[0] / u[2]); \
      const event = new Event('deviceorientation'); \
      Object.assign(event, { alpha: null, beta: Math.atan2(u[1], u[2] / Math.cos(gamma)) / rad, gamma: gamma / rad }); \
      dispatchEvent(event) }, 16)";

async fn feel(hand: &Hand, right: f64, towards: f64, shake: f64) {
    // Two degrees of the phone's own error in both directions, all the time.
    let script = format!("window.sensor = {{ right: {right}, towards: {towards}, zero: 2, shake: {shake} }}");
    hand.ask(&script).await;
}

#[test]
fn the_phone_reads_lean_without_its_own_error_and_not_while_it_shakes() {
    play(
        "the_phone_reads_lean_without_its_own_error_and_not_while_it_shakes",
        async |stage| {
            let hand = stage.open().await;
            hand.ask(SENSOR).await;
            hand.press("Open the demo").await;
            hand.wait(
                "the demo is open",
                "return document.body.dataset.screen === 'support'",
                Value::Null,
            )
            .await;
            hand.press("Round").await;
            hand.answer("Why this round?", "Start of the day").await;
            hand.fill("Who does it", "Sam Weir").await;
            hand.fill("Measured over a length of", "1").await;
            hand.press("Begin with").await;
            hand.press("Read the lean with this phone").await;

            // A phone that does not let it be read says so once, and the hand way stays.
            hand.ask(
                "window.DeviceOrientationEvent.requestPermission = async () => { window.calls += 1; return 'denied' }",
            )
            .await;
            hand.press("Phone is on the tube: read").await;
            hand.see("does not let tilt be read").await;
            assert_eq!(hand.ask("return window.calls").await, json!(1), "asked in the touch");
            hand.ask("window.DeviceOrientationEvent.requestPermission = async () => 'granted'")
                .await;

            feel(&hand, 0.8, 0.5, 3.0).await;
            hand.press("Phone is on the tube: read").await;
            hand.see("Now carry it round to the other side").await;
            hand.press("Phone is on the other side: read").await;
            let refused =
                "return document.querySelectorAll('.tilt .wrong').length > 0 && !document.querySelector('.leanline')";
            hand.wait("a shaking phone is refused", refused, Value::Null).await;

            feel(&hand, 0.8, 0.5, 0.05).await;
            hand.press("Phone is on the tube: read").await;
            hand.see("Now carry it round to the other side").await;
            feel(&hand, -0.8, -0.5, 0.05).await;
            hand.press("Phone is on the other side: read").await;
            hand.wait(
                "both leans are read",
                "return document.querySelectorAll('.leanline').length === 2",
                Value::Null,
            )
            .await;
            hand.picture("tilt").await;
            let read = hand.ask("return [...document.querySelectorAll('.leanline')].map((one) => [one.innerText, parseFloat(one.querySelector('strong').textContent)])").await;
            // tan 0.8° = 13.96 mm per m to the right, tan 0.5° = 8.73 inwards; two degrees of error would be 35.
            let deg = |mm: f64| (mm / 1000.0).atan().to_degrees();
            assert!((deg(number(&read, "/0/1")) - 0.8).abs() <= 0.1, "{read}");
            assert!((deg(number(&read, "/1/1")) - 0.5).abs() <= 0.1, "{read}");
            assert!(
                read.pointer("/0/0").unwrap().as_str().unwrap().contains("to the right"),
                "{read}"
            );
            assert!(
                read.pointer("/1/0").unwrap().as_str().unwrap().contains("inwards"),
                "{read}"
            );
            hand.press("Take into this prop’s answers").await;
            hand.see("Taken on the safe side").await;
            let along: f64 = hand
                .reads("Lean along the wall")
                .await
                .trim_start_matches('+')
                .parse()
                .unwrap();
            let across: f64 = hand
                .reads("Lean across the wall")
                .await
                .trim_start_matches('+')
                .parse()
                .unwrap();
            // With its ± on the safe side: never less than the truth.
            assert!((14.0..=25.0).contains(&along), "{along}");
            assert!((9.0..=16.0).contains(&across), "{across}");
            hand.close().await;
        },
    );
}
