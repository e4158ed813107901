//! The cover and the wall as described.

use super::fonts::Weight;
use super::model::ReportModel;
use super::sheet::{Area, Colour, MARGIN, RUNNING, SOFT, STRONG, Shape, Sheet, Style};
use super::values::{reasons, standing, texts};
use serde_json::Value;

/// The first page.
pub fn cover(sheet: &mut Sheet<'_>, model: &ReportModel) {
    let proposal = model.proposal.as_ref().unwrap_or(&Value::Null);
    sheet.heading(
        1,
        if model.job_name.trim().is_empty() {
            "Job without a name"
        } else {
            &model.job_name
        },
    );
    if !model.place.trim().is_empty() {
        sheet.paragraph(&model.place, RUNNING);
    }
    sheet.paragraph(&format!("Support proposal and record. Made {}.", model.made_at), SOFT);
    if model.demo {
        sheet.paragraph(
            "DEMO: an invented house to try the program with. Nothing here is a record of anything.",
            STRONG,
        );
    }
    sheet.y += 8.0;
    beam(sheet, proposal);
    let answer = if model.proposal.is_some() {
        standing(proposal)
    } else {
        "No proposal is kept"
    };
    sheet.paragraph(answer, Style(Weight::Bold, 20.0, Colour::Ink));
    if proposal.get("independent_check_needed").and_then(Value::as_bool) == Some(true) {
        sheet.paragraph("Someone independent must check this before it is built.", RUNNING);
    }
    sheet.list(&reasons(proposal, "reasons"));
    sheet.heading(2, "Caution");
    sheet.paragraph(&model.caution, Style(Weight::Bold, 11.0, Colour::Oxide));
    let further: Vec<String> = texts(proposal, "cautions")
        .into_iter()
        .filter(|caution| *caution != model.caution)
        .collect();
    sheet.list(&further);
    sheet.heading(2, "Seal");
    match &model.seal {
        Some(seal) => {
            sheet.paragraph(&seal.code, Style(Weight::Bold, 18.0, Colour::Ink));
            sheet.paragraph(&format!("given {}", seal.at), SOFT);
        }
        None if model.demo => sheet.paragraph("The demo seals nothing.", RUNNING),
        None => sheet.paragraph("No seal was given.", RUNNING),
    }
    sheet.list(model.question.as_slice());
    let open = model.findings.iter().filter(|finding| finding.open).count();
    let waits = model.stops.iter().filter(|stop| stop.said.is_empty()).count();
    sheet.heading(2, "What is in here");
    sheet.list(&[
        counted(model.rounds.len(), "round", "rounds"),
        counted(model.entries.len(), "entry of the record", "entries of the record"),
        counted(model.photos.len(), "photo", "photos"),
        match model.missing_days.len() {
            0 => "no day without a round is known".to_owned(),
            _ => format!("days without a round: {}", model.missing_days.join(", ")),
        },
        format!(
            "{}, {open} of them open",
            counted(model.findings.len(), "finding", "findings")
        ),
        match waits {
            0 => "no stop waits for its yes".to_owned(),
            1 => "1 stop still waits for its yes".to_owned(),
            _ => format!("{waits} stops still wait for their yes"),
        },
    ]);
    sheet.heading(2, "What is left out");
    if model.left_out.is_empty() {
        sheet.paragraph(
            "Nothing: the pack holds the whole record and every photo named in it.",
            RUNNING,
        );
    }
    sheet.list(&model.left_out);
    sheet.heading(1, "The wall as described");
    if model.wall.is_empty() {
        sheet.paragraph("The wall was not described.", RUNNING);
    }
    sheet.list(&model.wall);
}

/// A number of things, as one says it.
fn counted(count: usize, one: &str, many: &str) -> String {
    format!("{count} {}", if count == 1 { one } else { many })
}

/// The answer drawn: a beam on two supports; broken where it does not hold. The words beside it carry the meaning.
fn beam(sheet: &mut Sheet<'_>, proposal: &Value) {
    let (y, ink) = (sheet.y, Colour::Ink);
    let pieces: &[Area] = match proposal.get("standing").and_then(Value::as_str) {
        Some("holds") => &[Area(0.0, 0.0, 110.0, 11.0)],
        // Hatched: near its limit.
        Some("close") => &[
            Area(0.0, 0.0, 14.0, 11.0),
            Area(19.0, 0.0, 14.0, 11.0),
            Area(38.0, 0.0, 14.0, 11.0),
            Area(57.0, 0.0, 14.0, 11.0),
            Area(76.0, 0.0, 14.0, 11.0),
            Area(95.0, 0.0, 15.0, 11.0),
        ],
        _ => &[Area(0.0, 0.0, 46.0, 11.0), Area(64.0, 6.0, 46.0, 11.0)],
    };
    for Area(x, down, width, height) in pieces {
        sheet.put(
            Shape::Fill(Area(MARGIN + x, y + down, *width, *height), Colour::Oxide),
            None,
        );
    }
    for x in [16.0, 92.0] {
        sheet.put(Shape::Fill(Area(MARGIN + x, y + 12.0, 1.8, 22.0), ink), None);
        sheet.put(Shape::Fill(Area(MARGIN + x - 10.0, y + 34.0, 22.0, 1.8), ink), None);
    }
    sheet.y += 42.0;
}
