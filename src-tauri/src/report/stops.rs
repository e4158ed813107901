//! Papers and stops: who said yes, when, with which photo; permits; what still waits; and the order of work.

use super::blocks::{Cell, Column};
use super::model::{PhotoPart, ReportModel, StopPart};
use super::pictures::Picture;
use super::plates;
use super::sheet::{RUNNING, STRONG, Sheet};
use super::values::{rows, text};
use super::words::group_words;
use serde_json::Value;

const PAPERS: &str = "papers";

/// The chapter.
pub fn stops(sheet: &mut Sheet<'_>, model: &ReportModel, pictures: &[Option<Picture>]) {
    sheet.heading(1, "Stops and papers");
    if model.stops.is_empty() {
        sheet.paragraph("No kept proposal has an order of work, so no stop was asked.", RUNNING);
    }
    let open: Vec<String> = model
        .stops
        .iter()
        .filter(|stop| stop.said.is_empty())
        .map(|stop| format!("Step {}: {}", stop.step, first_sentence(&stop.asks)))
        .collect();
    if !open.is_empty() {
        sheet.heading(2, "Still waiting for a yes");
        sheet.list(&open);
    } else if !model.stops.is_empty() {
        sheet.paragraph("Every stop has its yes.", STRONG);
    }
    permits(sheet, model);
    let (papers, others): (Vec<&StopPart>, Vec<&StopPart>) = model.stops.iter().partition(|stop| stop.group == PAPERS);
    for (heading, part) in [("Papers and people", papers), ("Stops of the work", others)] {
        if !part.is_empty() {
            sheet.heading(2, heading);
            table(sheet, &part);
        }
    }
    let of_stops: Vec<PhotoPart> = model
        .photos
        .iter()
        .filter(|photo| model.stops.iter().any(|stop| stop.photos.contains(&photo.number)))
        .cloned()
        .collect();
    if !of_stops.is_empty() {
        sheet.heading(2, "Photos of papers and stops");
        plates::plates_of(sheet, &of_stops, &model.photos, pictures);
    }
    if let Some(proposal) = &model.proposal {
        order(sheet, proposal);
    }
}

fn first_sentence(words: &str) -> &str {
    words.split(". ").next().unwrap_or_default().trim_end_matches('.')
}

fn table(sheet: &mut Sheet<'_>, stops: &[&StopPart]) {
    let cells: Vec<Vec<Cell>> = stops
        .iter()
        .map(|stop| {
            // In short; the order of work below has the whole.
            let mut asks = format!("{}.", first_sentence(&stop.asks));
            for (what, words) in [("Asked of", &stop.who), ("Asked", &stop.when)] {
                if !words.is_empty() {
                    asks.push_str(&format!("\n{what}: {words}."));
                }
            }
            let mut said = stop.said.clone();
            if said.is_empty() {
                said.push("waits".to_owned());
            }
            said.extend(stop.photos.iter().map(|number| format!("Photo {number}")));
            vec![
                Cell::new(&stop.step),
                Cell::new(asks),
                if stop.said.is_empty() {
                    Cell::strong(said.join("\n"))
                } else {
                    Cell::new(said.join("\n"))
                },
                Cell::new(&stop.source),
            ]
        })
        .collect();
    let columns = [
        Column("Step", 0.08, true),
        Column("What is asked", 0.41, false),
        Column("Who said yes, when, photo", 0.24, false),
        Column("Source, how it was seen", 0.27, false),
    ];
    sheet.table(&columns, &cells);
}

fn permits(sheet: &mut Sheet<'_>, model: &ReportModel) {
    if model.permits.is_empty() {
        return;
    }
    sheet.heading(2, "Permits");
    let cells: Vec<Vec<Cell>> = model
        .permits
        .iter()
        .map(|permit| {
            let state = if permit.lapsed.is_empty() {
                Cell::new("stands")
            } else {
                Cell::strong(format!("lapsed. {}", permit.lapsed.join(" ")))
            };
            vec![Cell::new(&permit.title), Cell::new(&permit.given), state]
        })
        .collect();
    let columns = [
        Column("Permit", 0.22, false),
        Column("Given by, when", 0.36, false),
        Column("Stands, or lapsed and why", 0.42, false),
    ];
    sheet.table(&columns, &cells);
}

/// The order of work, group by group.
fn order(sheet: &mut Sheet<'_>, proposal: &Value) {
    let steps = rows(proposal, "order");
    if steps.is_empty() {
        return;
    }
    sheet.heading(2, "Order of work");
    let mut cells: Vec<Vec<Cell>> = Vec::new();
    let mut group = String::new();
    for step in steps {
        let of = step.get("group").and_then(Value::as_str).unwrap_or_default();
        if of != group {
            of.clone_into(&mut group);
            cells.push(vec![Cell::new(""), Cell::strong(group_words(of)), Cell::new("")]);
        }
        let stop = step.get("stop").and_then(Value::as_bool) == Some(true);
        let mark = if stop {
            Cell::strong("stop until yes")
        } else {
            Cell::new("")
        };
        cells.push(vec![
            Cell::new(text(step, "step")),
            Cell::new(text(step, "words")),
            mark,
        ]);
    }
    let columns = [
        Column("Step", 0.08, true),
        Column("What", 0.74, false),
        Column("stop", 0.18, false),
    ];
    sheet.table(&columns, &cells);
}
