//! One option in full: what it is made of, what each part carries and is good for, and where that comes from.

use super::blocks::{Cell, Column};
use super::checks::{checks, decides};
use super::sheet::{RUNNING, STRONG, Sheet};
use super::values::{figure, number, reasons, rows, shown, text, texts, used};
use super::words::{in_words, prop_words, titled};
use serde_json::Value;

/// Everything of one option: needles, props, feet, bracing, checks, parts.
pub fn option(sheet: &mut Sheet<'_>, option: &Value) {
    sheet.heading(2, "What decides");
    sheet.paragraph(
        &format!(
            "{}: used {}",
            decides(option),
            used(number(option, "worst_utilisation"))
        ),
        STRONG,
    );
    needles(sheet, option);
    brackets(sheet, option);
    if !rows(option, "props").is_empty() {
        sheet.heading(2, "Props");
        props(sheet, rows(option, "props"));
    }
    feet(sheet, option, "Feet");
    bracing(sheet, option);
    floor_lines(sheet, option);
    sheet.heading(2, "Checks");
    checks(sheet, rows(option, "checks"));
    let lost = reasons(option, "one_lost");
    if !lost.is_empty() {
        sheet.heading(2, "If one is lost");
        sheet.list(&lost);
    }
    let parts: Vec<Vec<Cell>> = rows(option, "parts")
        .iter()
        .map(|part| {
            vec![
                Cell::new(titled(&text(part, "what"))),
                Cell::new(text(part, "count")),
                Cell::new(figure(part, "mass_kg", 0, "kg")),
            ]
        })
        .collect();
    if !parts.is_empty() {
        sheet.heading(2, "Parts list");
        sheet.table(
            &[
                Column("Part", 0.64, false),
                Column("count", 0.16, true),
                Column("weight of one", 0.2, true),
            ],
            &parts,
        );
    }
}

/// Where the needles stand.
pub fn needles(sheet: &mut Sheet<'_>, option: &Value) {
    let needles: Vec<Vec<Cell>> = rows(option, "needles")
        .iter()
        .map(|needle| {
            vec![
                Cell::strong(text(needle, "name")),
                Cell::new(figure(needle, "x_m", 3, "m")),
                Cell::new(text(needle, "section")),
                Cell::new(figure(needle, "span_m", 2, "m")),
                Cell::new(figure(needle, "pack_mm", 0, "mm")),
                Cell::new(figure(needle, "load_kn", 1, "kN")),
            ]
        })
        .collect();
    if !needles.is_empty() {
        sheet.heading(2, "Needles");
        let columns = [
            Column("Needle", 0.12, false),
            Column("from the left jamb", 0.2, true),
            Column("Section", 0.28, false),
            Column("between props", 0.14, true),
            Column("steel pack", 0.12, true),
            Column("carries", 0.14, true),
        ];
        sheet.table(&columns, &needles);
    }
}

/// Places of brackets, which have no needle.
fn brackets(sheet: &mut Sheet<'_>, option: &Value) {
    if text(option, "kind") != "brackets" {
        return;
    }
    let cells: Vec<Vec<Cell>> = rows(option, "props")
        .iter()
        .map(|prop| {
            vec![
                Cell::strong(text(prop, "name")),
                Cell::new(figure(prop, "x_m", 3, "m")),
                Cell::new(text(prop, "leaf")),
                Cell::new(figure(prop, "arm_mm", 0, "mm")),
                Cell::new(figure(prop, "rated_kn", 1, "kN")),
                Cell::new(figure(prop, "load_kn", 1, "kN")),
            ]
        })
        .collect();
    sheet.heading(2, "Prop-head brackets");
    let columns = [
        Column("Bracket", 0.14, false),
        Column("from the left jamb", 0.2, true),
        Column("leaf", 0.16, false),
        Column("arm", 0.14, true),
        Column("maker's rated load", 0.2, true),
        Column("carries", 0.16, true),
    ];
    sheet.table(&columns, &cells);
}

/// Floors held apart from the wall: how each line is set up, its props and feet; and why the others need none.
fn floor_lines(sheet: &mut Sheet<'_>, option: &Value) {
    for line in rows(option, "floor_lines") {
        let needed = line.get("needed").and_then(Value::as_bool) == Some(true);
        let name = format!("Floor {}, {}", text(line, "floor"), text(line, "side"));
        let says = if needed {
            "its own line of props"
        } else {
            "no line of its own"
        };
        sheet.heading(2, &format!("{name}: {says}"));
        sheet.paragraph(&in_words(&text(line, "why")), RUNNING);
        if !needed {
            continue;
        }
        let mut facts = Vec::new();
        if let Some(header) = line.get("header").and_then(Value::as_str) {
            facts.push(format!(
                "Header {header}, {} long, its axis {} from the wall's face, on {} props {} apart.",
                figure(line, "length_m", 2, "m"),
                figure(line, "distance_mm", 0, "mm"),
                rows(line, "props").len(),
                figure(line, "spacing_m", 2, "m")
            ));
        } else {
            facts.push("No header was found that holds this floor.".to_owned());
        }
        facts.push(format!(
            "{} stand on it; {} of the floor are off the needles because of it.",
            figure(line, "load_kn", 1, "kN"),
            figure(line, "takes_kn", 1, "kN")
        ));
        sheet.list(&facts);
        let way = texts(line, "way");
        if !way.is_empty() {
            sheet.heading(3, "How it is set up");
            sheet.list(&way);
        }
        if !rows(line, "props").is_empty() {
            sheet.heading(3, &format!("Props of {name}"));
            props(sheet, rows(line, "props"));
        }
        feet(sheet, line, &format!("Feet of {name}"));
        if !rows(line, "checks").is_empty() {
            sheet.heading(3, &format!("Checks of {name}"));
            checks(sheet, rows(line, "checks"));
        }
    }
}

/// Props, what each carries and is good for.
pub fn props(sheet: &mut Sheet<'_>, props: &[Value]) {
    let cells: Vec<Vec<Cell>> = props
        .iter()
        .map(|prop| {
            let share = number(prop, "utilisation");
            vec![
                Cell::strong(text(prop, "name")),
                Cell::new(prop_words(prop)),
                Cell::new(figure(prop, "length_m", 3, "m")),
                Cell::new(figure(prop, "load_kn", 1, "kN")),
                Cell::new(figure(prop, "working_load_kn", 1, "kN")),
                Cell::new(used(share)).with_bar(share),
            ]
        })
        .collect();
    let columns = [
        Column("Prop", 0.16, false),
        Column("Data and size", 0.24, false),
        Column("length", 0.14, true),
        Column("carries", 0.14, true),
        Column("good for", 0.14, true),
        Column("used", 0.18, false),
    ];
    sheet.table(&columns, &cells);
}

fn feet(sheet: &mut Sheet<'_>, option: &Value, heading: &str) {
    let cells: Vec<Vec<Cell>> = rows(option, "feet")
        .iter()
        .map(|foot| {
            let board: Vec<String> = rows(foot, "board_mm")
                .iter()
                .filter_map(Value::as_f64)
                .map(|side| shown(side, 0, ""))
                .collect();
            let share = number(foot, "utilisation");
            vec![
                Cell::strong(text(foot, "prop")),
                Cell::new(format!("{} mm", board.join(" × "))),
                Cell::new(figure(foot, "under_board_kpa", 0, "kPa")),
                Cell::new(figure(foot, "allowed_kpa", 0, "kPa")),
                Cell::new(used(share)).with_bar(share),
            ]
        })
        .collect();
    if !cells.is_empty() {
        sheet.heading(if heading == "Feet" { 2 } else { 3 }, heading);
        let columns = [
            Column("Under", 0.16, false),
            Column("Sole board", 0.3, false),
            Column("presses with", 0.18, true),
            Column("ground is good for", 0.18, true),
            Column("used", 0.18, false),
        ];
        sheet.table(&columns, &cells);
    }
}

fn bracing(sheet: &mut Sheet<'_>, option: &Value) {
    let Some(bracing) = option.get("bracing") else { return };
    sheet.heading(2, "Against tipping sideways");
    for (way, demand, resistance) in [
        ("Along the wall", "demand_along_kn", "resistance_along_kn"),
        ("Across the wall", "demand_across_kn", "resistance_across_kn"),
    ] {
        let words = format!(
            "{way}: pushes with {}, braced for {}.",
            figure(bracing, demand, 2, "kN"),
            figure(bracing, resistance, 2, "kN")
        );
        sheet.paragraph(&words, RUNNING);
    }
    sheet.list(&texts(bracing, "way"));
}
