//! The commands as the page calls them, one whole job through the window's own channel.

use crate::stage::play;
use image::codecs::png::PngEncoder;
use image::{ExtendedColorType, ImageEncoder};
use serde_json::{Value, json};
use upstay_lib::form::{Fields, flatten};

/// A ready house type that can be built from, so that a proposal can be kept.
const HOUSE: &str = "two_storey_cavity";

fn at<'a>(value: &'a Value, path: &str) -> &'a Value {
    value
        .pointer(path)
        .unwrap_or_else(|| panic!("{path} is missing in {value}"))
}

fn text(value: &Value, path: &str) -> String {
    at(value, path)
        .as_str()
        .unwrap_or_else(|| panic!("{path} is no text in {value}"))
        .to_owned()
}

fn described() -> Fields {
    flatten(&calc::example::job(HOUSE).unwrap())
}

/// What is read on a good day.
fn reading(prop: &Value) -> Value {
    json!({
        "prop": at(prop, "/name"), "pin": "right", "collar_turns": 0, "thread_mm": 6, "lean_mm": [1, -2], "over_m": 1.0,
        "head_off_mm": 2, "foot_off_mm": 1, "foot_firm": true, "straight": true, "fixed": true, "packed": true
    })
}

fn png() -> Vec<u8> {
    let mut bytes = Vec::new();
    let grey: Vec<u8> = (0..640 * 480_u32).map(|at| (at % 251) as u8).collect();
    PngEncoder::new(&mut bytes)
        .write_image(&grey, 640, 480, ExtendedColorType::L8)
        .unwrap();
    bytes
}

#[test]
fn a_whole_job_goes_through_the_commands() {
    play("a_whole_job_goes_through_the_commands", async |stage| {
        let hand = stage.open().await;
        hand.see("Jobs").await;
        let begun = hand
            .invoke(
                "job_begin",
                json!({"name": "Weir Cottage", "place": "Mill Lane", "country": "england"}),
            )
            .await;
        let id = text(&begun.unwrap(), "/id");
        let fields = described();

        // What is typed is kept, and an older write is ignored.
        let write = |text: &str, counter: u32| json!({"field": "/opening/width_m", "text": text, "counter": counter});
        let kept = hand
            .invoke("draft_put", json!({"id": id, "writes": [write("3,1", 5)]}))
            .await
            .unwrap();
        assert_eq!(at(&kept, "/kept/0/kept"), &json!(true));
        let older = hand
            .invoke("draft_put", json!({"id": id, "writes": [write("9", 4)]}))
            .await
            .unwrap();
        assert_eq!(at(&older, "/kept/0/kept"), &json!(false));
        let open = hand.invoke("job_open", json!({"id": id})).await.unwrap();
        assert_eq!(open.get("fields").unwrap(), &json!({"/opening/width_m": "3,1"}));
        assert_eq!(at(&open, "/counter"), &json!(5));

        // A figure, and what is wrong with a description that cannot be figured.
        let figure = hand
            .invoke("figure", json!({"fields": fields, "option": 0}))
            .await
            .unwrap();
        assert_eq!(at(&figure, "/problems"), &json!([]));
        assert!(text(&figure, "/sketches/front").starts_with("<svg"));
        let aim = text(&figure, "/proposal/options/0/aim");
        let mut wrong = fields.clone();
        wrong.insert("/opening/width_m".to_owned(), "three".to_owned());
        let bad = hand.invoke("figure", json!({"fields": wrong})).await.unwrap();
        assert_eq!(at(&bad, "/proposal"), &Value::Null);
        assert_eq!(text(&bad, "/problems/0/path"), "/opening/width_m");
        assert_eq!(at(&bad, "/problems").as_array().unwrap().len(), 1, "{bad}");

        // A round before anything is kept is refused; afterwards it is checked against what is kept.
        let early = hand
            .invoke("round_check", json!({"id": id, "round": {}}))
            .await
            .unwrap_err();
        assert_eq!(text(&early, "/code"), "no_proposal");
        hand.invoke("keep", json!({"id": id, "fields": fields, "aim": aim}))
            .await
            .unwrap();
        let open = hand.invoke("job_open", json!({"id": id})).await.unwrap();
        let props = at(&open, "/kept/proposal/options/0/props").as_array().unwrap();
        assert!(props.len() >= 2);

        // Photos: raw and as text are the same photo; its picture loads in the page.
        let headers = json!({"x-job": id, "x-about": "wall", "x-kind": "group", "x-name": "K%C3%BCche.png", "x-modified": "1700000000000"});
        let photo = hand.send_photo(&png(), headers).await.unwrap();
        assert_eq!(text(&photo, "/name"), "Küche.png");
        assert_eq!(hand.picture_width(&text(&photo, "/thumb_url")).await, 320);
        assert_eq!(hand.picture_width(&text(&photo, "/view_url")).await, 640);
        assert_eq!(
            hand.picture_width(&text(&photo, "/view_url").replace("view", "original"))
                .await,
            0
        );
        let as_text = json!({"id": id, "about": "wall", "kind": "detail", "name": "a.png", "modified": null, "base64": base64(&png())});
        let again = hand.invoke("photo_text", as_text).await.unwrap();
        assert_eq!(text(&again, "/sha"), text(&photo, "/sha"));

        let good = json!({
            "why": "Before work", "readings": props.iter().map(reading).collect::<Vec<_>>(), "gauges": [],
            "job_checks": {"braces": true, "doors_stick": false, "load_on_floors": false, "digging": false, "wind_m_s": 5}
        });
        let live = hand
            .invoke("round_check", json!({"id": id, "round": good}))
            .await
            .unwrap();
        assert_eq!(at(&live, "/passed"), &json!(true), "{live}");
        let mut loose = good.clone();
        *loose.pointer_mut("/readings/0/pin").unwrap() = json!("missing");
        let live = hand
            .invoke("round_check", json!({"id": id, "round": loose}))
            .await
            .unwrap();
        assert_eq!(at(&live, "/passed"), &json!(false), "{live}");
        let typed = json!({"field": "/round/readings/0/pin", "text": "right", "counter": 6});
        hand.invoke("draft_put", json!({"id": id, "writes": [typed]}))
            .await
            .unwrap();
        hand.invoke("round_done", json!({"id": id, "round": good}))
            .await
            .unwrap();
        let open = hand.invoke("job_open", json!({"id": id})).await.unwrap();
        assert_eq!(at(&open, "/rounds/0/passed"), &json!(true));
        assert!(
            open.get("fields").unwrap().get("/round/readings/0/pin").is_none(),
            "the round's fields are cleared"
        );

        // The record, a seal, a pack that verifies with that seal.
        hand.invoke("note_add", json!({"id": id, "text": "Props stand on full boards."}))
            .await
            .unwrap();
        let page = hand
            .invoke("record", json!({"id": id, "before": null, "limit": 3}))
            .await
            .unwrap();
        assert_eq!(at(&page, "/more"), &json!(true));
        assert_eq!(text(&page, "/entries/0/words"), "Props stand on full boards.");
        let before = at(&page, "/entries/2/position").clone();
        let older = hand
            .invoke("record", json!({"id": id, "before": before, "limit": 50}))
            .await
            .unwrap();
        assert_eq!(at(&older, "/more"), &json!(false));
        let seal = text(&hand.invoke("seal_give", json!({"id": id})).await.unwrap(), "/code");
        let pack = text(&hand.invoke("pack_make", json!({"id": id})).await.unwrap(), "/path");
        hand.close().await;

        assert!(std::path::Path::new(&pack).starts_with(stage.home()), "{pack}");
        let verified = |code: &str| {
            let mut program = std::process::Command::new(env!("CARGO_BIN_EXE_upstay"));
            program
                .args(["verify", &pack, "--seal", code])
                .output()
                .unwrap()
                .status
                .code()
        };
        assert_eq!(verified(&seal), Some(0));
        // Another well-formed code is no seal of this pack; one that cannot be a code is no question.
        assert_eq!(verified("0000-0000-0000"), Some(1));
        assert_eq!(verified("hello"), Some(2));
    });
}

#[test]
fn the_demo_opens_once_and_cannot_be_sealed() {
    play("the_demo_opens_once_and_cannot_be_sealed", async |stage| {
        let hand = stage.open().await;
        hand.see("Jobs").await;
        let first = hand.invoke("demo_open", json!({})).await.unwrap();
        let again = hand.invoke("demo_open", json!({})).await.unwrap();
        assert_eq!(first, again);
        let list = hand.invoke("jobs", json!({})).await.unwrap();
        assert_eq!(at(&list, "/jobs").as_array().unwrap().len(), 1);
        assert_eq!(at(&list, "/jobs/0/demo"), &json!(true));
        let open = hand.invoke("job_open", first.clone()).await.unwrap();
        let photos = at(&open, "/photos").as_array().unwrap();
        assert_eq!(photos.len(), 3);
        // The time comes out of the EXIF block that the demo wrote.
        assert!(
            photos.iter().all(|photo| text(photo, "/source") == "exif"),
            "{photos:?}"
        );
        let refused = hand.invoke("seal_give", first.clone()).await.unwrap_err();
        assert_eq!(text(&refused, "/code"), "demo_seals_nothing");
        let unnamed = hand
            .invoke("job_begin", json!({"name": " ", "place": "", "country": "england"}))
            .await
            .unwrap_err();
        assert_eq!(
            (text(&unnamed, "/code"), text(&unnamed, "/field")),
            ("name_missing".to_owned(), "/job/name".to_owned())
        );
        // It can be deleted; a job cannot.
        let own = hand
            .invoke(
                "job_begin",
                json!({"name": "Weir Cottage", "place": "", "country": "england"}),
            )
            .await
            .unwrap();
        assert_eq!(
            text(&hand.invoke("demo_delete", own).await.unwrap_err(), "/code"),
            "not_a_demo"
        );
        hand.invoke("demo_delete", first).await.unwrap();
        let list = hand.invoke("jobs", json!({})).await.unwrap();
        assert_eq!(at(&list, "/jobs").as_array().unwrap().len(), 1);
        assert_eq!(text(&list, "/jobs/0/name"), "Weir Cottage");
        hand.close().await;
    });
}

fn base64(bytes: &[u8]) -> String {
    use base64::Engine;
    base64::engine::general_purpose::STANDARD.encode(bytes)
}
