//! Rounds, each prop by prop with its results and photos.

use super::blocks::{Cell, Column};
use super::model::{PhotoPart, ReportModel, RoundPart};
use super::pictures::Picture;
use super::plates;
use super::sheet::{RUNNING, STRONG, Sheet};
use super::values::{figure, number, reasons, rows, shown, text, texts, used};
use serde_json::Value;

/// The rounds, oldest first.
pub fn rounds(sheet: &mut Sheet<'_>, model: &ReportModel, pictures: &[Option<Picture>]) {
    sheet.heading(1, "Rounds");
    if model.rounds.is_empty() {
        sheet.paragraph("No round is in the record.", RUNNING);
    }
    for round in &model.rounds {
        self::round(sheet, round, &model.photos, pictures);
    }
}

fn round(sheet: &mut Sheet<'_>, round: &RoundPart, photos: &[PhotoPart], pictures: &[Option<Picture>]) {
    let seen = &round.evaluation;
    let title = if round.why.trim().is_empty() {
        round.at.clone()
    } else {
        format!("{}, {}", round.at, round.why)
    };
    sheet.heading(2, &title);
    let says = |key: &str| seen.get(key).and_then(Value::as_bool) == Some(true);
    let mut result = vec![if says("passed") {
        "The day is passed."
    } else {
        "The day is not passed."
    }];
    for (key, words) in [
        ("stop", "Stop."),
        ("ring", "Ring the engineer."),
        ("out", "Out, and keep out."),
    ] {
        if says(key) {
            result.push(words);
        }
    }
    sheet.paragraph(&result.join(" "), STRONG);
    sheet.list(&reasons(seen, "reasons"));
    sheet.list(&told(&round.round));
    let readings = rows(&round.round, "readings");
    let cells: Vec<Vec<Cell>> = rows(seen, "props")
        .iter()
        .map(|prop| {
            let name = text(prop, "name");
            let read = readings
                .iter()
                .find(|reading| text(reading, "prop") == name)
                .map_or_else(|| "–".to_owned(), reading_words);
            let share = number(prop, "utilisation");
            let mut todo = texts(prop, "do");
            if prop.get("in_basis").and_then(Value::as_bool) == Some(false) {
                todo.insert(0, "outside what its load is known for".to_owned());
            }
            let own: Vec<String> = photos
                .iter()
                .filter(|photo| photo.about == name && round.photos.contains(&photo.number))
                .map(|photo| photo.number.to_string())
                .collect();
            if !own.is_empty() {
                todo.push(format!("Photo {}.", own.join(", ")));
            }
            vec![
                Cell::strong(name),
                Cell::new(read),
                Cell::new(figure(prop, "load_kn", 1, "kN")),
                Cell::new(figure(prop, "working_load_kn", 1, "kN")),
                Cell::new(used(share)).with_bar(share),
                Cell::new(figure(prop, "take_up_mm", 1, "mm")),
                Cell::new(todo.join(" ")),
            ]
        })
        .collect();
    let columns = [
        Column("Prop", 0.11, false),
        Column("found", 0.27, false),
        Column("carries", 0.11, true),
        Column("good for today", 0.11, true),
        Column("used", 0.11, false),
        Column("taken up", 0.09, true),
        Column("do, photos", 0.2, false),
    ];
    sheet.table(&columns, &cells);
    if let Some(sideways) = seen.get("sideways") {
        let share = used(number(sideways, "utilisation"));
        sheet.paragraph(
            &format!(
                "Tipping sideways: used {share} of {}.",
                figure(sideways, "resistance_kn", 2, "kN")
            ),
            RUNNING,
        );
    }
    job_checks(sheet, &round.round);
    for gauge in rows(seen, "gauges") {
        let moved = [
            figure(gauge, "since_last_mm", 1, "mm"),
            figure(gauge, "since_start_mm", 1, "mm"),
        ];
        sheet.paragraph(
            &format!(
                "Gauge {}: {} since the last round, {} since the start.",
                text(gauge, "name"),
                moved[0],
                moved[1]
            ),
            RUNNING,
        );
    }
    // Photos stand by what they show, props in the order of the table.
    let mut taken: Vec<&PhotoPart> = photos
        .iter()
        .filter(|photo| round.photos.contains(&photo.number))
        .collect();
    let order: Vec<String> = rows(seen, "props").iter().map(|prop| text(prop, "name")).collect();
    taken.sort_by_key(|photo| {
        (
            order.iter().position(|name| *name == photo.about).unwrap_or(usize::MAX),
            photo.number,
        )
    });
    let taken: Vec<PhotoPart> = taken.into_iter().cloned().collect();
    if !taken.is_empty() {
        sheet.heading(3, "Photos of this round, by prop");
    }
    plates::plates_of(sheet, &taken, photos, pictures);
}

/// What a round tells beside its readings: by whom and at which stage it was done, what was done to props since the round
/// before, and why a "no" has no photo.
fn told(round: &Value) -> Vec<String> {
    let said = |row: &Value, key: &str| row.get(key).and_then(Value::as_str).unwrap_or_default().to_owned();
    let mut out: Vec<String> = [("name", "Done by"), ("stage", "Stage of the work:")]
        .into_iter()
        .map(|(key, what)| (said(round, key), what))
        .filter(|(words, _)| !words.is_empty())
        .map(|(words, what)| format!("{what} {words}."))
        .collect();
    out.extend(rows(round, "changed").iter().map(|row| {
        let what = match said(row, "what").as_str() {
            "swapped" => "another of the same size put in its place".to_owned(),
            "re-tightened" => "tightened again".to_owned(),
            "re-plumbed" => "plumbed or centred".to_owned(),
            other => other.to_owned(),
        };
        let (prop, before) = (said(row, "prop"), said(row, "before"));
        let line = format!("{prop}, since the round before: {what}. {before}");
        line.trim_end().to_owned()
    }));
    out.extend(rows(round, "no_photo").iter().map(|row| {
        let about = match said(row, "prop") {
            prop if prop.is_empty() => "the whole job".to_owned(),
            prop => prop,
        };
        format!("No photo of the no at {about}: {}", said(row, "why"))
    }));
    out
}

/// The checks of the whole job, each with its answer.
fn job_checks(sheet: &mut Sheet<'_>, round: &Value) {
    let Some(checks) = round.get("job_checks").filter(|checks| checks.is_object()) else {
        return;
    };
    let mut words: Vec<String> = [
        ("braces", "braces on"),
        ("doors_stick", "doors stick"),
        ("load_on_floors", "load stacked on floors"),
        ("digging", "digging near the feet"),
    ]
    .into_iter()
    .filter(|(key, _)| checks.get(*key).is_some())
    .map(|(key, what)| format!("{what}: {}", text(checks, key)))
    .collect();
    if number(checks, "wind_m_s").is_some() {
        words.push(format!("wind {}", figure(checks, "wind_m_s", 0, "m/s")));
    }
    if !words.is_empty() {
        sheet.paragraph(&format!("The whole job: {}.", words.join("; ")), RUNNING);
    }
}

/// What was read at a prop, in words.
fn reading_words(reading: &Value) -> String {
    let mut words = vec![format!("pin {}", text(reading, "pin"))];
    if let [along, across] = rows(reading, "lean_mm") {
        let side = |value: &Value| value.as_f64().map_or_else(|| "–".to_owned(), |mm| shown(mm, 0, ""));
        words.push(format!(
            "lean {} and {} mm over {}",
            side(along),
            side(across),
            figure(reading, "over_m", 1, "m")
        ));
    }
    words.push(format!(
        "off centre {} at the head, {} at the foot",
        figure(reading, "head_off_mm", 0, "mm"),
        figure(reading, "foot_off_mm", 0, "mm")
    ));
    for (key, no) in [
        ("foot_firm", "foot not firm"),
        ("straight", "not straight"),
        ("fixed", "not fixed"),
        ("packed", "not packed"),
    ] {
        if reading.get(key).and_then(Value::as_bool) == Some(false) {
            words.push(no.to_owned());
        }
    }
    if let Some(note) = reading
        .get("note")
        .and_then(Value::as_str)
        .filter(|note| !note.is_empty())
    {
        words.push(format!("note: {note}"));
    }
    words.join(", ")
}
