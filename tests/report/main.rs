//! The documents for paper: what must stand on every page, what must not be lost, and what must not break them.
#![expect(clippy::unwrap_used, clippy::panic, reason = "a test may stop where it fails")]

mod briefs;
// In this binary, because one of its own would link the whole app once more.
#[path = "../counts/mod.rs"]
mod counts;
mod papers;
mod pieces;
mod sample;

use serde_json::{Value, json};
use std::io::Write;
use std::process::{Command, Stdio};
use std::sync::Arc;
use upstay_lib::pieces::Piece;
use upstay_lib::report::{self, BriefModel, EntryLine, ReportError, ReportModel, brief_pdf};

/// Text of each page by the poppler tool; none where it is not installed.
fn pages(pdf: &[u8]) -> Option<Vec<String>> {
    pages_by(pdf, "-layout")
}

fn pages_by(pdf: &[u8], way: &str) -> Option<Vec<String>> {
    let started = Command::new("pdftotext")
        .args([way, "-", "-"])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn();
    let Ok(mut child) = started else {
        assert!(
            std::env::var("UPSTAY_REQUIRE_ALL").as_deref() != Ok("1"),
            "pdftotext is needed: install poppler-utils"
        );
        println!("NOT RUN: pdftotext is not installed");
        return None;
    };
    let mut input = child.stdin.take().unwrap();
    let bytes = pdf.to_vec();
    let writer = std::thread::spawn(move || input.write_all(&bytes));
    let output = child.wait_with_output().unwrap();
    writer.join().unwrap().unwrap();
    assert!(output.status.success(), "pdftotext refuses the file");
    let text = String::from_utf8(output.stdout).unwrap();
    let mut pages: Vec<String> = text.split('\u{c}').map(str::to_owned).collect();
    // The tool ends each page with a form feed, so the last part is empty.
    pages.pop();
    Some(pages)
}

/// Text without the line breaks that the layout put in.
fn flat(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// The report whole, as a pack writes it.
fn report_pdf(model: &ReportModel) -> Result<Vec<u8>, ReportError> {
    Ok(report::report_pdf(model)?.whole().unwrap())
}

fn occurrences(all: &[u8], part: &[u8]) -> usize {
    all.windows(part.len()).filter(|window| *window == part).count()
}

#[test]
fn every_page_holds_the_caution_the_job_and_its_number() {
    let model = sample::model();
    let Some(pages) = pages(&report_pdf(&model).unwrap()) else {
        return;
    };
    assert!(pages.len() > 4, "{} pages", pages.len());
    for (index, page) in pages.iter().enumerate() {
        let text = flat(page);
        assert!(text.contains(sample::CAUTION), "page {} lacks the caution", index + 1);
        assert!(text.contains(&model.job_name), "page {} lacks the job", index + 1);
        assert!(
            text.contains(&format!("page {} of {}", index + 1, pages.len())),
            "page {} lacks its number",
            index + 1
        );
        assert!(!text.contains("DEMO"), "page {} says DEMO", index + 1);
    }
}

#[test]
fn every_needle_prop_photo_and_hash_is_there() {
    let model = sample::model();
    let Some(pages) = pages(&report_pdf(&model).unwrap()) else {
        return;
    };
    let text = flat(&pages.join(" "));
    for name in sample::props().iter().map(String::as_str).chain(sample::NEEDLES) {
        assert!(text.contains(name), "{name} is missing");
    }
    let unspaced: String = text.split_whitespace().collect();
    for photo in &model.photos {
        assert!(
            text.contains(&format!("Photo {}", photo.number)),
            "photo {} is missing",
            photo.number
        );
        assert!(
            unspaced.contains(&photo.sha256),
            "hash of photo {} is missing",
            photo.number
        );
        assert!(
            unspaced.contains(&photo.file),
            "file of photo {} is missing",
            photo.number
        );
    }
    for entry in &model.entries {
        assert!(text.contains(&entry.words), "{} is missing", entry.words);
    }
    for words in [
        "7KQM-2XWD-9PRA",
        "Close to its limit",
        "The day is not passed.",
        "sha256sum -c SHA256SUMS",
        "2026-03-01",
        "Four brackets would each",
        "0.85 m by the engineer",
        "Services off.",
        "stop until yes",
        "doors stick: no; load stacked",
        "wind 12 m/s",
    ] {
        assert!(text.contains(words), "{words} is missing");
    }
}

#[test]
fn photos_go_in_as_the_bytes_they_are_and_once() {
    let model = sample::model();
    let pdf = report_pdf(&model).unwrap();
    for photo in &model.photos {
        assert_eq!(
            occurrences(&pdf, &photo.view.as_ref().unwrap().head(usize::MAX).unwrap()),
            1,
            "photo {}",
            photo.number
        );
    }
    assert_eq!(occurrences(&pdf, b"/Interpolate true"), 0);
    assert!(
        occurrences(&pdf, b"pdfaid:part") > 0,
        "the file does not say that it is PDF/A"
    );
}

#[test]
fn the_same_model_gives_the_same_bytes() {
    let model = sample::model();
    assert!(report_pdf(&model).unwrap() == report_pdf(&model).unwrap());
}

#[test]
fn a_view_that_cannot_be_carried_leaves_a_marked_field() {
    let mut model = sample::model();
    let whole = sample::jpeg(1);
    let mut broken: Vec<Vec<u8>> = (0..whole.len().min(700))
        .step_by(3)
        .map(|length| whole.iter().take(length).copied().collect())
        .collect();
    broken.extend([
        Vec::new(),
        vec![0xFF],
        vec![0xFF, 0xD8],
        vec![0xFF, 0xD8, 0xFF, 0xE0, 0, 0],
        b"not a picture".to_vec(),
    ]);
    let first = model.photos.first().unwrap().clone();
    model.photos = broken
        .into_iter()
        .zip(1..)
        .map(|(bytes, number)| {
            let mut photo = first.clone();
            photo.number = number;
            photo.view = Some(Piece::Held(Arc::new(bytes)));
            photo
        })
        .collect();
    model.photos.last_mut().unwrap().view = None;
    let Some(pages) = pages(&report_pdf(&model).unwrap()) else {
        return;
    };
    assert!(flat(&pages.join(" ")).contains("No view"));
}

#[test]
fn a_demo_says_so_across_every_page() {
    let model = ReportModel {
        demo: true,
        seal: None,
        ..sample::model()
    };
    let Some(pages) = pages_by(&report_pdf(&model).unwrap(), "-q") else {
        return;
    };
    for (index, page) in pages.iter().enumerate() {
        assert!(page.contains("DEMO: Lime Row"), "head of page {}", index + 1);
        // The tool reads the slanted letters as words of their own.
        let across: String = page
            .split_whitespace()
            .filter(|word| word.chars().all(|c| "DEMO".contains(c)))
            .collect();
        assert_eq!(across, "DEMO", "page {}", index + 1);
    }
    assert!(flat(&pages.join(" ")).contains("The demo seals nothing."));
}

#[test]
fn text_stays_text_and_nothing_is_dropped() {
    let mut model = sample::model();
    let nasty = "</text><script>alert('x')</script> %PDF-1.7 endobj (\\) <</JS (a)>>";
    model.job_name = format!("Кухня, τοίχος ÅŁ {nasty}");
    model.place = "中 \u{5D0} \u{0} \u{E000} \u{1F9F1} \u{202E}abc".to_owned();
    model.wall = vec![
        nasty.to_owned(),
        String::new(),
        "\r\n\t".to_owned(),
        "δ κ ≤ ² × → γM ψ1 25 mm/m".to_owned(),
    ];
    let Some(pages) = pages(&report_pdf(&model).unwrap()) else {
        return;
    };
    let text = flat(&pages.join(" "));
    for words in [
        "Кухня, τοίχος ÅŁ",
        "[U+4E2D] [U+05D0] [U+0000] [U+E000] [U+1F9F1] [U+202E]abc",
        "δ κ ≤ ² × → γM ψ1 25 mm/m",
        "<script>alert('x')</script>",
        "N1 [U+4E2D]",
    ] {
        assert!(text.contains(words), "{words} is missing");
    }
}

#[test]
fn long_texts_go_on_over_pages_to_their_last_word() {
    let mut model = sample::model();
    let note: String = (0..2500).map(|word| format!("w{word} ")).collect();
    let solid = "x".repeat(10_000);
    model.entries = vec![
        EntryLine {
            position: 1,
            at: "now".to_owned(),
            title: "Note".to_owned(),
            words: note.clone(),
            hash: "0".repeat(64),
        },
        EntryLine {
            position: 2,
            at: "now".to_owned(),
            title: "Note".to_owned(),
            words: solid.clone(),
            hash: "1".repeat(64),
        },
        EntryLine {
            position: 3,
            at: "now".to_owned(),
            title: "Note".to_owned(),
            words: "\n".repeat(300) + "end",
            hash: "2".repeat(64),
        },
    ];
    model.wall = vec![note.clone()];
    model.job_name = note.clone();
    model.caution = format!("{} {}", sample::CAUTION, "Stay out. ".repeat(40));
    let Some(pages) = pages(&report_pdf(&model).unwrap()) else {
        return;
    };
    let text = flat(&pages.join(" "));
    for word in 0..2500 {
        assert!(text.contains(&format!("w{word} ")), "w{word} is missing");
    }
    let crosses = text
        .split_whitespace()
        .filter(|word| word.chars().all(|c| c == 'x'))
        .map(str::len)
        .sum::<usize>();
    assert_eq!(crosses, solid.len());
}

#[test]
fn an_empty_model_is_still_a_document() {
    let pdf = report_pdf(&ReportModel::default()).unwrap();
    assert!(pdf.starts_with(b"%PDF-"));
    let odd =
        serde_json::json!({ "options": [1, "x", null], "load": [], "reasons": {}, "assumptions": [7], "standing": 3 });
    for option in 0..5 {
        let model = ReportModel {
            proposal: Some(odd.clone()),
            option,
            ..ReportModel::default()
        };
        assert!(report_pdf(&model).unwrap().starts_with(b"%PDF-"));
    }
}

#[test]
fn a_sketch_that_is_no_drawing_is_named() {
    let mut model = sample::model();
    model.sketches.first_mut().unwrap().svg = "<svg".to_owned();
    let Err(error) = report_pdf(&model) else {
        panic!("a broken sketch passed")
    };
    assert_eq!(error.code(), "report_sketch");
    assert!(error.to_string().contains("From the front"));
}

#[test]
fn the_brief_has_its_questions_and_the_caution() {
    let model = BriefModel {
        job_name: "Lime Row".to_owned(),
        caution: sample::CAUTION.to_owned(),
        title: "Brief for the engineer".to_owned(),
        sections: vec![(
            "Please answer".to_owned(),
            vec!["Needle size and grade".to_owned(), "Date and name".to_owned()],
        )],
        photos: sample::model().photos,
        ..BriefModel::default()
    };
    let Some(pages) = pages(&brief_pdf(&model).unwrap()) else {
        return;
    };
    for page in &pages {
        assert!(flat(page).contains(sample::CAUTION));
    }
    let text = flat(&pages.join(" "));
    for words in ["Please answer", "Needle size and grade", "Photo 10"] {
        assert!(text.contains(words), "{words} is missing");
    }
}

#[test]
fn every_character_can_stand_in_a_text_and_in_a_sketch() {
    let all: Vec<char> = (1..0x3000_u32)
        .chain((0xA000..0x1_0000).step_by(7))
        .chain((0x1_0000..0x11_0000).step_by(997))
        .filter_map(char::from_u32)
        .collect();
    let mut model = sample::model();
    model.wall = all.chunks(400).map(|part| part.iter().collect()).collect();
    model.job_name = all.iter().step_by(50).collect();
    let letters: String = all
        .iter()
        .step_by(6)
        .filter(|c| !c.is_control() && !"<&>".contains(**c) && !"\u{fffe}\u{ffff}".contains(**c))
        .collect();
    model.sketches.first_mut().unwrap().svg = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 340 40\"><text x=\"1\" y=\"20\" font-size=\"8\">{letters}</text></svg>"
    );
    assert!(report_pdf(&model).unwrap().starts_with(b"%PDF-"));
}

#[test]
fn no_group_of_the_order_stands_alone_at_a_pages_foot() {
    let mut model = sample::model();
    let steps = |group: &str| {
        let step = |number: usize| json!({"step": number, "group": group, "words": "One thing after the other.", "stop": false});
        (0..3).map(step).collect::<Vec<Value>>()
    };
    let groups = [
        "papers",
        "before",
        "set_up",
        "holes",
        "cutting",
        "beam",
        "taking_out",
        "while_it_stands",
    ];
    model.proposal.as_mut().unwrap()["order"] = groups.map(steps).concat().into();
    let titles = [
        "Papers and people",
        "On site before the first hole",
        "Setting out",
        "Holes, needles, props",
        "Cutting the opening",
        "The new beam",
        "Taking the props out",
        "While it stands on props",
    ];
    let mut at_foot = 0;
    // Each further line above moves every group of the order by one line.
    for more in 0..40 {
        model.wall.push(format!("Line {more}."));
        let Some(pages) = pages_by(&report_pdf(&model).unwrap(), "-layout") else {
            return;
        };
        for page in &pages {
            let lines: Vec<&str> = page.lines().map(str::trim).filter(|line| !line.is_empty()).collect();
            let foot = lines
                .iter()
                .position(|line| sample::CAUTION.starts_with(*line))
                .unwrap();
            at_foot += usize::from(
                lines
                    .get(foot - 1)
                    .is_some_and(|line| line.contains("One thing after the other.")),
            );
            let last = lines.get(foot - 1).unwrap();
            assert!(!titles.contains(last), "{more}: {last} stands alone:\n{page}");
        }
    }
    assert!(at_foot > 20, "the order ended a page {at_foot} times only");
}
