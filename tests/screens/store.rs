//! The pictures that stores show of the app, from its real pages in both languages. `UPSTAY_STORE=FOLDER` writes them into
//! `FOLDER/LANGUAGE/images/phoneScreenshots`; without it they are only made and looked at.

use crate::bench::{Bench, play};
use crate::jobs;
use crate::view::{PHONE, View};
use serde_json::json;
use std::path::Path;

/// Two pixels of the picture for one of the page: what stores ask for at the least is 320 pixels a side [from memory].
const SHARP: View = View { sharp: 2, ..PHONE };

/// Name of a picture, its screen, what must be read on it in each language, and down to what it is scrolled.
struct Shown {
    name: &'static str,
    screen: &'static str,
    job: fn(&crate::app::App) -> String,
    words: [&'static str; 2],
    to: &'static str,
}

const ALL: [Shown; 4] = [
    Shown {
        name: "1_support",
        screen: "support",
        job: jobs::kept,
        words: ["Close to its limit", "Nahe an der Grenze"],
        to: "",
    },
    Shown {
        name: "2_drawing",
        screen: "support",
        job: jobs::kept,
        words: ["N1", "N1"],
        to: ".drawings",
    },
    Shown {
        name: "3_round",
        screen: "round",
        job: jobs::at_prop,
        words: [
            "Is the right pin in, all the way?",
            "Steckt der richtige Bolzen ganz drin?",
        ],
        to: "",
    },
    Shown {
        name: "4_stop",
        screen: "round",
        job: jobs::stopped,
        words: ["STOP", "HALT"],
        to: "",
    },
];

/// The same picture packed smaller, since these lie in the tree: even surfaces pack best as they are.
fn smaller(picture: &[u8]) -> Vec<u8> {
    use image::codecs::png::{CompressionType, FilterType, PngEncoder};
    let pixels = image::load_from_memory(picture).unwrap().to_rgb8();
    let mut bytes = Vec::new();
    pixels
        .write_with_encoder(PngEncoder::new_with_quality(
            &mut bytes,
            CompressionType::Best,
            FilterType::NoFilter,
        ))
        .unwrap();
    bytes
}

fn speak(bench: &Bench, language: &str) {
    bench.go("");
    bench.tap(if language == "de" {
        "How this phone shows it"
    } else {
        "Wie dieses Telefon es zeigt"
    });
    bench.tap(if language == "de" { "Deutsch" } else { "English" });
    bench.wait(
        "the page speaks so",
        &format!("document.documentElement.lang === '{language}'"),
    );
}

#[test]
fn the_pictures_for_stores_are_of_the_real_pages() {
    play("the_pictures_for_stores_are_of_the_real_pages", SHARP, |bench| {
        for (at, (language, folder)) in [("en", "en-US"), ("de", "de-DE")].into_iter().enumerate() {
            if language != "en" {
                speak(bench, language);
            }
            for shown in &ALL {
                let id = (shown.job)(bench.app());
                bench.go(&format!("{id}/{}", shown.screen));
                bench.see(shown.words.get(at).unwrap());
                bench.value(&format!(
                    "(document.querySelector({})?.scrollIntoView({{ block: 'start', behavior: 'instant' }}), 1)",
                    json!(if shown.to.is_empty() { "#head" } else { shown.to })
                ));
                bench.still();
                let picture = smaller(&bench.picture(false));
                // Width and height stand in the first chunk of a PNG.
                let side = |from: usize| u32::from_be_bytes(picture.get(from..from + 4).unwrap().try_into().unwrap());
                assert_eq!((side(16), side(20)), (SHARP.width * 2, SHARP.height * 2));
                assert!(picture.len() > 20_000, "{} in {language} is all but empty", shown.name);
                if let Some(store) = std::env::var_os("UPSTAY_STORE") {
                    let folder = Path::new(&store).join(folder).join("images/phoneScreenshots");
                    std::fs::create_dir_all(&folder).unwrap();
                    std::fs::write(folder.join(format!("{}.png", shown.name)), &picture).unwrap();
                }
            }
        }
    });
}
