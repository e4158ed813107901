//! The whole job in short: what stood, for how long, what was found, who answered for it, and whether it is closed.

use super::blocks::{Cell, Column};
use super::model::{ReportModel, SummaryPart};
use super::sheet::{RUNNING, STRONG, Sheet};

/// The chapter.
pub fn summary(sheet: &mut Sheet<'_>, model: &ReportModel) {
    let SummaryPart {
        closing,
        lines,
        props,
        looks,
        against,
    } = &model.summary;
    sheet.heading(1, "The job in short");
    sheet.paragraph(
        closing.first().map_or("This job is not closed.", String::as_str),
        STRONG,
    );
    sheet.list(closing.get(1..).unwrap_or_default());
    sheet.list(lines);
    if closing.is_empty() && !against.is_empty() {
        sheet.heading(2, "What stands against closing it");
        sheet.list(against);
    }
    if !looks.is_empty() {
        sheet.heading(2, "Looks at the cracks after the props were out");
        sheet.list(looks);
    }
    if props.is_empty() {
        return;
    }
    sheet.heading(2, "Each prop at its first and its last reading");
    let cells: Vec<Vec<Cell>> = props
        .iter()
        .map(|[name, rest @ ..]| {
            std::iter::once(Cell::strong(name))
                .chain(rest.iter().map(Cell::new))
                .collect()
        })
        .collect();
    let columns = [
        Column("Prop", 0.14, false),
        Column("lean first, mm per m", 0.2, true),
        Column("lean last, mm per m", 0.2, true),
        Column("taken up first", 0.14, true),
        Column("taken up last", 0.14, true),
        Column("let down, out", 0.18, true),
    ];
    sheet.table(&columns, &cells);
    sheet.paragraph("Lean: along the wall, across the wall.", RUNNING);
}
