//! The demo: a whole job on an invented house, so that everything can be tried before there is a job of one's own.
//!
//! It goes through the same doors as the screens. Its record, its pictures and its papers say DEMO, and nothing of it can
//! be sealed.

mod exif;
mod ink;
mod pictures;

use crate::failure::{Answer, Failure};
use crate::form::{self, Fields};
use crate::photos::{self, Meta, PhotoKind};
use crate::record::{DraftWrite, Jobs, Moment, Store};
use crate::site;
use chrono::{DateTime, FixedOffset, Utc};
use pictures::Picture;
use serde_json::{Value, json};
use std::path::Path;

const NAME: &str = "7 Tarrow Lane, kitchen wall (demo)";
const PLACE: &str = "7 Tarrow Lane, Fennock (an invented house)";
const COUNTRY: &str = "england";
/// The described wall, in the form of the contract.
const JOB: &str = include_str!("job.json");

/// Minutes before now that the three pictures were taken: the wall first, the prop and its collar on the round.
const TAKEN_MIN_AGO: [i64; 3] = [190, 12, 9];

/// Makes the demo among the jobs: the wall described, a proposal kept, photos, and one round of every prop.
///
/// # Errors
///
/// What any of its steps said; nothing of the demo is left then.
pub fn make(jobs: &Jobs, now: Moment) -> Answer<Store> {
    let mut store = jobs.begin(NAME, PLACE, COUNTRY, true, now)?;
    match fill(&mut store, now) {
        Ok(()) => Ok(store),
        Err(failure) => {
            let id = store.job();
            drop(store);
            jobs.delete_demo(id)?;
            Err(failure)
        }
    }
}

/// Does the demo without a window, leaves its pack and its report in `folder`, and tells what was done.
///
/// # Errors
///
/// What any of its steps said.
pub fn headless(folder: &Path) -> Answer<Vec<String>> {
    let unsaved = |what: &Path| {
        let what = what.display().to_string();
        move |why: std::io::Error| Failure::new("file", format!("{what} cannot be written ({why})"))
    };
    std::fs::create_dir_all(folder).map_err(unsaved(folder))?;
    let data = folder.join(format!(".demo-{}", std::process::id()));
    let done = (|| {
        let now = Moment::now();
        let mut store = make(&Jobs::open(&data)?, now)?;
        let report = folder.join("report.pdf");
        let written = site::report(&store, now)?;
        let kept = std::fs::File::create(&report).and_then(|mut file| written.write_to(&mut file));
        kept.map_err(unsaved(&report))?;
        let mut lines = vec![format!("Job: {NAME}. {PLACE}.")];
        for entry in store.all_entries()?.iter().skip(1) {
            lines.push(format!("{}: {}", entry.kind.title(), site::words(entry)));
        }
        let made = site::pack(&mut store, folder, now)?;
        lines.push(format!("Report: {}", report.display()));
        lines.push(format!(
            "Pack: {} ({} files, {} bytes)",
            made.path.display(),
            made.files,
            made.bytes
        ));
        lines.push("The demo seals nothing.".to_owned());
        lines.push(site::caution());
        Ok(lines)
    })();
    // The record of a demo is of no use without its window; its pack holds all of it.
    let cleared = std::fs::remove_dir_all(&data).map_err(unsaved(&data));
    done.and_then(|lines| cleared.map(|()| lines))
}

fn fill(store: &mut Store, now: Moment) -> Answer<()> {
    let job: Value =
        serde_json::from_str(JOB).map_err(|why| Failure::new("demo", format!("its job cannot be read: {why}")))?;
    let fields: Fields = form::flatten(&job);
    let writes: Vec<DraftWrite> = (1_i64..)
        .zip(&fields)
        .map(|(counter, (field, text))| DraftWrite {
            field: field.clone(),
            text: Some(text.clone()),
            counter,
        })
        .collect();
    store.draft_put(&writes)?;

    let figure = site::figure(&fields, 0);
    let Some(proposal) = &figure.proposal else {
        return Err(Failure::described(figure.problems));
    };
    let aim = proposal
        .options
        .first()
        .map(|option| option.aim.clone())
        .unwrap_or_default();
    let props: Vec<String> = proposal
        .options
        .iter()
        .take(1)
        .flat_map(|option| &option.props)
        .map(|prop| prop.name.clone())
        .collect();
    let first = props.first().map(String::as_str).unwrap_or_default();
    let [wall, portrait, detail] = drawn(first, now)?;

    take(store, &wall, now)?;
    site::keep(store, &fields, &aim, now)?;
    take(store, &portrait, now)?;
    take(store, &detail, now)?;
    site::done(store, &round(&props), now)?;
    Ok(())
}

fn take(store: &mut Store, picture: &Picture, now: Moment) -> Answer<()> {
    let kind = PhotoKind::parse(picture.kind).ok_or_else(|| Failure::new("demo", "a picture of no known kind"))?;
    let meta = Meta {
        about: picture.about.clone(),
        kind,
        name: picture.name.to_owned(),
        modified_ms: None,
    };
    photos::intake(store, &picture.bytes, &meta, now)?;
    Ok(())
}

/// The pictures, with the times in their EXIF block.
fn drawn(prop: &str, now: Moment) -> Answer<[Picture; 3]> {
    let outside = || Failure::new("demo", "the clock of this machine stands outside the calendar");
    let offset = FixedOffset::east_opt(now.offset_min.saturating_mul(60)).ok_or_else(outside)?;
    let mut times = Vec::new();
    let mut zone = String::new();
    for minutes in TAKEN_MIN_AGO {
        let utc_ms = now.utc_ms.saturating_sub(minutes * 60_000);
        let local = DateTime::<Utc>::from_timestamp_millis(utc_ms)
            .ok_or_else(outside)?
            .with_timezone(&offset);
        times.push(local.format("%Y:%m:%d %H:%M:%S").to_string());
        zone = local.format("%:z").to_string();
    }
    match times.as_slice() {
        [wall, portrait, detail] => pictures::draw(prop, [wall, portrait, detail], &zone)
            .map_err(|why| Failure::new("demo", format!("a picture cannot be drawn: {why}"))),
        _ => Err(outside()),
    }
}

/// What somebody would read at these props on a good day: a few millimetres out of plumb, everything tight.
fn round(props: &[String]) -> Value {
    let readings: Vec<Value> = (0_u32..)
        .zip(props)
        .map(|(number, prop)| {
            // Small and different at each prop, as readings are.
            let along = f64::from(number * 5 % 4) - 1.0;
            let across = f64::from(number * 3 % 5) - 2.0;
            json!({
                "prop": prop,
                "pin": "right",
                "collar_turns": 0,
                "thread_mm": 6,
                "lean_mm": [along, across],
                "over_m": 1.0,
                "head_off_mm": 2 + number % 3,
                "foot_off_mm": 1 + number % 4,
                "foot_firm": true,
                "straight": true,
                "fixed": true,
                "packed": true
            })
        })
        .collect();
    json!({
        "why": "Before work",
        "readings": readings,
        "gauges": [
            { "name": "G1 above the opening, left", "mm": 12.0, "first_mm": 12.0, "last_mm": 12.0 },
            { "name": "G2 above the opening, right", "mm": 9.5, "first_mm": 9.5, "last_mm": 9.5 }
        ],
        "job_checks": { "braces": true, "doors_stick": false, "load_on_floors": false, "digging": false, "wind_m_s": 6 }
    })
}

#[cfg(test)]
mod tests;
