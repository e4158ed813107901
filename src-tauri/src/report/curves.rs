//! Curves of the readings: take-up, cracks, lean, each with its limits.

use super::model::ReportModel;
use super::pictures::Drawing;
use super::proposal::{Size, sketches};
use super::sheet::{RUNNING, STRONG, Sheet};

/// The chapter; the curves' drawings stand behind those of the sketches.
pub fn curves(sheet: &mut Sheet<'_>, model: &ReportModel, drawings: &[Drawing]) {
    sheet.heading(1, "Curves");
    if model.curves.is_empty() {
        sheet.paragraph(
            "There are no two rounds yet whose readings could be drawn as a curve.",
            RUNNING,
        );
        // A single reading past its limit is told all the same.
        sheet.list(&model.curve_words);
        return;
    }
    if model.curves.iter().any(|curve| curve.stops) {
        sheet.paragraph("A curve stops the job.", STRONG);
    }
    sheet.list(&model.curve_words);
    let first = model.sketches.len();
    sketches(sheet, drawings.get(first..).unwrap_or_default(), first, Size::Half);
    sheet.heading(2, "Limits");
    sheet.list(&model.curve_limits);
    sheet.heading(2, "What each curve says");
    let lines: Vec<String> = model
        .curves
        .iter()
        .map(|curve| format!("{}: {}", curve.sketch.title, curve.words))
        .collect();
    sheet.list(&lines);
}
