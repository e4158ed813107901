//! The kept proposal: weight, sketches, the option, what stands beside it, the order of work, assumptions and basis.

use super::blocks::{Cell, Column};
use super::model::ReportModel;
use super::option;
use super::pictures::Drawing;
use super::sheet::{Area, MARGIN, MEASURE, RUNNING, Role, SOFT, STRONG, Shape, Sheet};
use super::values::{figure, number, rows, shown, standing, text, texts};
use calc::brief::value_words;
use serde_json::Value;

/// The kept proposal.
pub fn proposal(sheet: &mut Sheet<'_>, model: &ReportModel, drawings: &[Drawing]) {
    let Some(proposal) = &model.proposal else {
        sketches(sheet, drawings);
        return;
    };
    sheet.heading(1, "The proposal");
    if let Some(load) = proposal.get("load") {
        loads(sheet, load);
    }
    sketches(sheet, drawings);
    let options = rows(proposal, "options");
    match options
        .get(model.option)
        .or_else(|| proposal.get("nearest").filter(|nearest| !nearest.is_null()))
    {
        Some(option) => {
            if options.is_empty() {
                sheet.paragraph(
                    "Nothing passes. What follows is the nearest, with what it fails on: do not build it.",
                    STRONG,
                );
            } else if proposal.get("refusal").and_then(Value::as_str) == Some("engineer_first") {
                sheet.paragraph("For your engineer to check, not to build from.", STRONG);
            }
            option::option(sheet, option);
        }
        None => sheet.paragraph("No arrangement is proposed.", STRONG),
    }
    beside(sheet, proposal);
    order(sheet, proposal);
    let assumed = rows(proposal, "assumptions");
    if !assumed.is_empty() {
        sheet.heading(2, "Taken as true because nothing was entered");
        let cells: Vec<Vec<Cell>> = assumed
            .iter()
            .map(|one| {
                let value = one.get("value").map_or_else(String::new, value_words);
                vec![
                    Cell::new(text(one, "words")),
                    Cell::new(value),
                    Cell::new(text(one, "source")),
                ]
            })
            .collect();
        sheet.table(
            &[
                Column("What", 0.5, false),
                Column("Value", 0.2, false),
                Column("From", 0.3, false),
            ],
            &cells,
        );
    }
    let basis = texts(proposal, "basis");
    if !basis.is_empty() {
        sheet.heading(2, "Basis");
        sheet.paragraph(&format!("Version {}", text(proposal, "version")), SOFT);
        sheet.list(&basis);
    }
}

/// The builder's plan and the engineer's answer, where they were entered.
fn beside(sheet: &mut Sheet<'_>, proposal: &Value) {
    if let Some(plan) = proposal.get("builders_plan").filter(|plan| plan.is_object()) {
        sheet.heading(2, "What the builder proposes");
        sheet.paragraph(&format!("{}: {}", standing(plan), text(plan, "words")), STRONG);
    }
    if let Some(engineer) = proposal.get("engineer").filter(|engineer| engineer.is_object()) {
        sheet.heading(2, "Beside the engineer's answer");
        sheet.list(&texts(engineer, "compared"));
    }
}

/// The order of work with its stops.
fn order(sheet: &mut Sheet<'_>, proposal: &Value) {
    let cells: Vec<Vec<Cell>> = rows(proposal, "order")
        .iter()
        .map(|step| {
            let stop = step.get("stop").and_then(Value::as_bool) == Some(true);
            let mark = if stop {
                Cell::strong("stop until yes")
            } else {
                Cell::new("")
            };
            vec![Cell::new(text(step, "step")), Cell::new(text(step, "words")), mark]
        })
        .collect();
    if !cells.is_empty() {
        sheet.heading(2, "Order of work");
        sheet.table(
            &[
                Column("Step", 0.08, true),
                Column("What", 0.74, false),
                Column("stop", 0.18, false),
            ],
            &cells,
        );
    }
}

fn loads(sheet: &mut Sheet<'_>, load: &Value) {
    sheet.heading(2, "Weight on the needles");
    let tonnes =
        number(load, "total_service_kn").map_or_else(String::new, |kn| format!(", {}", shown(kn / 9.81, 1, "t")));
    sheet.paragraph(
        &format!(
            "{}{tonnes} in all, dead and imposed",
            figure(load, "total_service_kn", 1, "kN")
        ),
        STRONG,
    );
    sheet.paragraph(
        &format!(
            "{} on average and {} at most along the wall.",
            figure(load, "mean_service_kn_m", 1, "kN per m"),
            figure(load, "largest_service_kn_m", 1, "kN per m")
        ),
        RUNNING,
    );
    let cells: Vec<Vec<Cell>> = rows(load, "parts")
        .iter()
        .map(|part| {
            let words = [
                text(part, "what"),
                figure(part, "dead_kn", 1, "kN"),
                figure(part, "imposed_kn", 1, "kN"),
            ];
            words.into_iter().map(Cell::new).collect()
        })
        .collect();
    sheet.table(
        &[
            Column("Part", 0.5, false),
            Column("dead", 0.25, true),
            Column("imposed", 0.25, true),
        ],
        &cells,
    );
}

/// Sketches two in a row, each under its title.
pub fn sketches(sheet: &mut Sheet<'_>, drawings: &[Drawing]) {
    const GAP: f32 = 16.0;
    let width = (MEASURE - GAP) / 2.0;
    let most = sheet.full() - 60.0;
    for first in (0..drawings.len()).step_by(2) {
        let row: Vec<(usize, &Drawing)> = drawings.iter().enumerate().skip(first).take(2).collect();
        let size = |drawing: &Drawing| {
            let (wide, high) = (drawing.tree.size().width(), drawing.tree.size().height());
            let scale = (width / wide).min(most / high);
            (wide * scale, high * scale)
        };
        let sizes: Vec<(f32, f32)> = row.iter().map(|(_, drawing)| size(drawing)).collect();
        let high = sizes.iter().map(|size| size.1).fold(0.0, f32::max);
        sheet.need(high + 40.0);
        let top = sheet.y;
        let mut left = MARGIN;
        for ((index, drawing), (wide, tall)) in row.into_iter().zip(sizes) {
            let title = sheet
                .lines(&drawing.title, STRONG, width)
                .into_iter()
                .next()
                .unwrap_or_default();
            let node = sheet.node(Role::Paragraph, None);
            sheet.put(Shape::Text(left, top + 16.0, STRONG, title), Some(node));
            let area = Area(left + (width - wide) / 2.0, top + 24.0, wide, tall);
            sheet.figure(area, &drawing.words, |area| Shape::Drawing(area, index));
            left += width + GAP;
        }
        sheet.y = top + high + 36.0;
    }
}
