//! What a reader years later must not overlook: days without a round, clocks that were moved, corrections, imports.

use super::blocks::{Cell, Column};
use super::model::ReportModel;
use super::sheet::{RUNNING, STRONG, Sheet};

/// The chapters.
pub fn changes(sheet: &mut Sheet<'_>, model: &ReportModel) {
    sheet.heading(1, "Missing days");
    if model.missing_days.is_empty() {
        sheet.paragraph("From the first round on no day without a round is known.", RUNNING);
    } else {
        sheet.paragraph(
            &format!(
                "No round was done on these days, from the first round until today or until the day of a permit to take the props out that stands: {}.",
                model.missing_days.join(", ")
            ),
            RUNNING,
        );
    }
    sheet.heading(1, "Clock, corrections and imports");
    sheet.heading(2, "Clocks that were moved");
    if model.clock.is_empty() {
        sheet.paragraph(
            "No phone's clock is seen to have been moved between two entries.",
            RUNNING,
        );
    }
    sheet.list(&model.clock);
    sheet.heading(2, "Corrections");
    if model.corrections.is_empty() {
        sheet.paragraph("Nothing was corrected.", RUNNING);
    }
    for correction in &model.corrections {
        sheet.need(60.0);
        sheet.paragraph(&correction.title, STRONG);
        let cells: Vec<Vec<Cell>> = correction
            .changes
            .iter()
            .map(|change| change.iter().map(Cell::new).collect())
            .collect();
        let columns = [
            Column("What", 0.26, false),
            Column("before", 0.37, false),
            Column("now", 0.37, false),
        ];
        sheet.table(&columns, &cells);
        if cells.is_empty() {
            sheet.paragraph("It says the same as before.", RUNNING);
        }
    }
    sheet.heading(2, "Packs taken in");
    if model.imports.is_empty() {
        sheet.paragraph("No pack of another phone was taken in.", RUNNING);
    }
    for import in &model.imports {
        sheet.need(40.0);
        sheet.paragraph(&import.at, STRONG);
        sheet.paragraph(&import.words, RUNNING);
        sheet.list(&import.left_out);
    }
}
