//! One option in full: what it is made of, what each part carries and is good for, and where that comes from.

use super::blocks::{Cell, Column};
use super::sheet::{RUNNING, STRONG, Sheet};
use super::values::{figure, number, rows, shown, text, texts, used};
use calc::brief::check_words;
use serde_json::Value;

/// Everything of one option: needles, props, feet, bracing, checks, parts.
pub fn option(sheet: &mut Sheet<'_>, option: &Value) {
    sheet.heading(2, "What decides");
    sheet.paragraph(
        &format!(
            "{}: used {}",
            decides(&text(option, "governs")),
            used(number(option, "worst_utilisation"))
        ),
        STRONG,
    );
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
    brackets(sheet, option);
    sheet.heading(2, "Props");
    props(sheet, rows(option, "props"));
    feet(sheet, option);
    bracing(sheet, option);
    for line in rows(option, "floor_lines") {
        let needed = line.get("needed").and_then(Value::as_bool) == Some(true);
        sheet.heading(
            3,
            &format!(
                "Floor {}, {}: {}",
                text(line, "floor"),
                text(line, "side"),
                if needed {
                    "its own line of props"
                } else {
                    "no line of its own"
                }
            ),
        );
        sheet.paragraph(&text(line, "why"), RUNNING);
        props(sheet, rows(line, "props"));
        checks(sheet, rows(line, "checks"));
    }
    sheet.heading(2, "Checks");
    checks(sheet, rows(option, "checks"));
    let lost: Vec<String> = rows(option, "one_lost").iter().map(|one| text(one, "words")).collect();
    if !lost.is_empty() {
        sheet.heading(2, "If one is lost");
        sheet.list(&lost);
    }
    let parts: Vec<Vec<Cell>> = rows(option, "parts")
        .iter()
        .map(|part| {
            vec![
                Cell::new(text(part, "what")),
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

fn props(sheet: &mut Sheet<'_>, props: &[Value]) {
    let cells: Vec<Vec<Cell>> = props
        .iter()
        .map(|prop| {
            let share = number(prop, "utilisation");
            vec![
                Cell::strong(text(prop, "name")),
                Cell::new(format!("{} {}", text(prop, "kind"), text(prop, "size"))),
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

fn feet(sheet: &mut Sheet<'_>, option: &Value) {
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
        sheet.heading(2, "Feet");
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

fn checks(sheet: &mut Sheet<'_>, checks: &[Value]) {
    let cells: Vec<Vec<Cell>> = checks
        .iter()
        .map(|check| {
            let unit = text(check, "unit");
            let share = number(check, "utilisation");
            let source = check.get("source").map_or_else(String::new, |s| {
                format!("{}, {}; {}", text(s, "document"), text(s, "locator"), text(s, "seen"))
            });
            vec![
                Cell::new(format!(
                    "{} at {}",
                    check_words(&text(check, "name")),
                    text(check, "at")
                )),
                Cell::new(figure(check, "demand", 2, &unit)),
                Cell::new(figure(check, "resistance", 2, &unit)),
                Cell::new(used(share)).with_bar(share),
                Cell::new(source),
            ]
        })
        .collect();
    let columns = [
        Column("What", 0.29, false),
        Column("carries", 0.14, true),
        Column("good for", 0.14, true),
        Column("used", 0.13, false),
        Column("Source", 0.3, false),
    ];
    sheet.table(&columns, &cells);
}

/// What decides, its check's name in plain words.
fn decides(governs: &str) -> String {
    match governs.split_once(" at ") {
        Some((name, place)) => format!("{} at {place}", check_words(name)),
        None => check_words(governs),
    }
}
