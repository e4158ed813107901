//! The kept proposal: weight, sketches, the option, what stands beside it, assumptions and basis.

use super::blocks::{Cell, Column, count};
use super::checks::{checks, decides, worst};
use super::model::ReportModel;
use super::option;
use super::pictures::Drawing;
use super::sheet::{Area, LEAD, MARGIN, MEASURE, RUNNING, Role, SOFT, STRONG, Shape, Sheet};
use super::values::{figure, number, rows, shown, standing, text, texts, used};
use super::words::{in_words, titled};
use calc::brief::value_words;
use serde_json::Value;

/// The kept proposal.
pub fn proposal(sheet: &mut Sheet<'_>, model: &ReportModel, drawings: &[Drawing]) {
    sheet.heading(1, "The proposal");
    sheet.list(model.question.as_slice());
    let Some(proposal) = &model.proposal else {
        sheet.paragraph("No proposal is kept.", STRONG);
        sheet.list(&model.answers);
        sketches(sheet, drawings, 0, Size::Full);
        return;
    };
    if let Some(load) = proposal.get("load") {
        loads(sheet, load);
    }
    sketches(sheet, drawings, 0, Size::Full);
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
    beside(sheet, proposal, &model.answers);
    let assumed = rows(proposal, "assumptions");
    if !assumed.is_empty() {
        sheet.heading(2, "Taken as true because nothing was entered");
        let cells: Vec<Vec<Cell>> = assumed
            .iter()
            .map(|one| {
                let value = one.get("value").map_or_else(String::new, value_words);
                vec![
                    Cell::new(titled(&text(one, "words"))),
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
fn beside(sheet: &mut Sheet<'_>, proposal: &Value, answers: &[String]) {
    if let Some(plan) = proposal.get("builders_plan").filter(|plan| plan.is_object()) {
        sheet.heading(2, "What the builder proposes");
        sheet.paragraph(
            &format!("{}: {}", standing(plan), in_words(&text(plan, "words"))),
            STRONG,
        );
        let filled = texts(plan, "filled");
        if !filled.is_empty() {
            sheet.paragraph("The plan left open, and this was taken for it:", RUNNING);
            sheet.list(&filled);
        }
        if !rows(plan, "checks").is_empty() {
            sheet.heading(3, "Checks of the builder's plan, each where it is used most");
            checks(sheet, &worst(rows(plan, "checks")));
        }
    }
    let engineer = proposal.get("engineer").filter(|engineer| engineer.is_object());
    if engineer.is_some() || !answers.is_empty() {
        sheet.heading(2, "The engineer's answer");
    }
    sheet.list(answers);
    if let Some(engineer) = engineer {
        sheet.paragraph("Beside what was found here:", RUNNING);
        sheet.list(&texts(engineer, "compared"));
        if let Some(option) = engineer.get("option").filter(|option| option.is_object()) {
            arrangement(sheet, option);
        }
    }
}

/// What the engineer's figures come to, in short.
fn arrangement(sheet: &mut Sheet<'_>, option: &Value) {
    sheet.heading(3, "The engineer's arrangement as reckoned here");
    sheet.paragraph(
        &format!(
            "{}: {}, used {}.",
            standing(option),
            decides(option),
            used(number(option, "worst_utilisation"))
        ),
        STRONG,
    );
    option::needles(sheet, option);
    option::props(sheet, rows(option, "props"));
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
                titled(&text(part, "what")),
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

/// How large sketches stand.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Size {
    /// To build from: the last ones stand two in a row, those before them, front and plan, alone across the measure.
    Full,
    /// Two in a row, without their titles: a curve has its own inside.
    Half,
}

/// Sketches in rows, each under its title; `first` is the place of the first of them among all drawings.
pub fn sketches(sheet: &mut Sheet<'_>, drawings: &[Drawing], first: usize, size: Size) {
    const GAP: f32 = 16.0;
    let (across, most) = match size {
        Size::Full => (2, 330.0),
        Size::Half => (2, 250.0),
    };
    let (alone, rest) = drawings.split_at(match size {
        Size::Full if drawings.len() % 2 == 1 => 1,
        Size::Full if drawings.len() > 2 => 2,
        _ => 0,
    });
    let mut index = first;
    for row in alone.chunks(1).chain(rest.chunks(across)) {
        let columns = if index < first + alone.len() { 1 } else { across };
        let width = (MEASURE - GAP * (count(columns) - 1.0)) / count(columns);
        let titles: Vec<Vec<String>> = row
            .iter()
            .map(|drawing| match size {
                Size::Full => sheet.lines(&drawing.title, STRONG, width).into_iter().take(4).collect(),
                Size::Half => Vec::new(),
            })
            .collect();
        let head = titles.iter().map(|lines| count(lines.len())).fold(0.0, f32::max) * STRONG.1 * LEAD + 8.0;
        let sizes: Vec<(f32, f32)> = row
            .iter()
            .map(|drawing| {
                let (wide, high) = (drawing.tree.size().width(), drawing.tree.size().height());
                let scale = (width / wide).min(most / high);
                (wide * scale, high * scale)
            })
            .collect();
        let high = sizes.iter().map(|size| size.1).fold(0.0, f32::max);
        sheet.need(high + head + 8.0);
        let top = sheet.y;
        let mut left = MARGIN;
        for ((drawing, lines), (wide, tall)) in row.iter().zip(titles).zip(sizes) {
            let node = sheet.node(Role::Paragraph, None);
            let mut y = top;
            for line in lines {
                y += STRONG.1 * LEAD;
                sheet.put(Shape::Text(left, y, STRONG, line), Some(node));
            }
            let area = Area(left + (width - wide) / 2.0, top + head, wide, tall);
            sheet.figure(area, &drawing.words, |area| Shape::Drawing(area, index));
            left += width + GAP;
            index += 1;
        }
        sheet.y = top + head + high + 8.0;
    }
}
