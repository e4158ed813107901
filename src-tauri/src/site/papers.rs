//! The papers of a job: the engineer's brief, and the pack with its report.

mod brief;
mod changes;
mod closing;
mod findings;
mod stops;

use super::{Kept, curves, kept, missing_days, state, summary, words};
use crate::failure::Answer;
use crate::pack::{self, Choice, How, Made, Watch};
use crate::photos::{self, Photo, Size};
use crate::pieces::Pieces;
use crate::record::{Entry, Hash, Kind, Moment, PhotoRow, Store, SystemDisk, as_corrected, clock_moves};
use crate::report::{self, EntryLine, PhotoPart, ReportModel, RoundPart, SealLine, Sketch, when};
use chrono::NaiveDate;
use serde_json::Value;
use std::collections::{HashMap, HashSet};
use std::ops::RangeInclusive;
use std::path::Path;

pub use brief::brief;

/// Titles of the drawings, by the key they are kept under.
const SKETCHES: [(&str, &str); 4] = [
    ("front", "The support from the front"),
    ("plan", "The support from above"),
    ("stack", "What stands above, and the weight along the wall"),
    ("side", "The support from the side"),
];

/// Words that stand on every paper.
#[must_use]
pub fn caution() -> String {
    calc::CAUTION.to_owned()
}

/// Makes the pack into `folder`.
///
/// # Errors
///
/// What the pack said.
pub fn pack(store: &mut Store, folder: &Path, moment: Moment) -> Answer<Made> {
    let (choice, watch) = (&Choice::default(), &Watch::default());
    pack_of(store, folder, How { choice, watch }, moment)
}

/// As [`pack`], with some of the photos, and under watch.
///
/// # Errors
///
/// As [`pack`].
pub fn pack_of(store: &mut Store, folder: &Path, how: How<'_>, moment: Moment) -> Answer<Made> {
    let made = pack::make_watched(&SystemDisk, store, folder, how, &caution(), moment, |store| {
        let model = report_model(store, how.choice, moment).map_err(|failure| failure.message)?;
        report::report_pdf(&model).map_err(|why| why.to_string())
    })?;
    Ok(made)
}

/// The report as a PDF, from the record as it stands.
///
/// # Errors
///
/// What the record or the report said.
pub fn report(store: &Store, moment: Moment) -> Answer<Pieces> {
    Ok(report::report_pdf(&report_model(store, &Choice::default(), moment)?)?)
}

fn report_model(store: &Store, choice: &Choice, moment: Moment) -> Answer<ReportModel> {
    let info = store.info()?;
    let entries = store.all_entries()?;
    let mut photos = photo_parts(store)?;
    let chosen: HashSet<String> = choice.photos(&entries).iter().map(ToString::to_string).collect();
    let here = |photo: &PhotoPart| store.photo_folder().join(&photo.sha256).is_file();
    for photo in &mut photos {
        photo.in_pack = chosen.contains(&photo.sha256) && here(photo);
    }
    let kept = kept(store)?;
    let now = state(store)?;
    let trends = curves(store)?;
    // A place that was corrected would stand among the corrections.
    let hidden: &[&str] = if choice.without_place {
        &["place", "by"]
    } else {
        &["by"]
    };
    Ok(ReportModel {
        job_name: info.name,
        place: if choice.without_place {
            PLACE_LEFT_OUT.to_owned()
        } else {
            info.place
        },
        demo: info.demo,
        made_at: when(&moment.rfc3339()),
        made_utc_ms: moment.utc_ms,
        seal: store.last_of(Kind::SealGiven)?.as_ref().and_then(seal_line),
        caution: caution(),
        summary: closing::summary_part(&summary(store, moment)?),
        wall: wall(store)?,
        stops: stops::stop_parts(store, kept.as_ref(), &now, &photos)?,
        permits: stops::permit_parts(&now),
        answers: answers(&entries),
        question: now.proposals_open.as_ref().map(|open| open.words.clone()),
        findings: findings::finding_parts(&now, &photos),
        curves: findings::curve_parts(&trends),
        curve_limits: findings::curve_limits(&trends),
        curve_words: trends.words,
        clock: changes::clock_lines(&entries),
        corrections: changes::correction_parts(&entries, hidden),
        imports: changes::import_parts(&entries),
        left_out: left_out(&photos, &chosen, choice, &store.photo_rows()?),
        option: kept.as_ref().map_or(0, |kept| kept.option),
        sketches: kept
            .as_ref()
            .map(|kept| sketches(&kept.sketches, &SKETCHES.map(|(key, _)| key)))
            .unwrap_or_default(),
        proposal: kept.map(|Kept { proposal, .. }| proposal),
        rounds: round_parts(&entries, &photos),
        missing_days: missing_days(&entries, moment)
            .iter()
            .map(|date| report::day(&date.to_string()))
            .collect(),
        entries: entry_lines(&entries, choice),
        photos,
    })
}

/// Stands in the report where the place was to be left out.
const PLACE_LEFT_OUT: &str = "The place was left out of this report on request.";

/// What the report or the pack does not hold.
fn left_out(photos: &[PhotoPart], chosen: &HashSet<String>, choice: &Choice, rows: &[PhotoRow]) -> Vec<String> {
    let mut out = Vec::new();
    if choice.without_place {
        out.push(place_left_out(rows));
    }
    let numbers = |of: &dyn Fn(&PhotoPart) -> bool| -> Vec<String> {
        let some = photos.iter().filter(|photo| of(photo));
        some.map(|photo| photo.number.to_string()).collect()
    };
    let other = numbers(&|photo| !chosen.contains(&photo.sha256));
    if !other.is_empty() {
        let mut by = Vec::new();
        if let Some(days) = &choice.days {
            by.push(format!("added{}", between(days)));
        }
        if !choice.about.is_empty() {
            by.push(format!("of {}", choice.about.join(", ")));
        }
        if !choice.kinds.is_empty() {
            by.push(format!("taken as {}", choice.kinds.join(" or ")));
        }
        out.push(format!(
            "Files of {} photos, since only photos {} were chosen: {}. The record names them with their hashes; the index shows them.",
            other.len(),
            by.join(" and "),
            other.join(", ")
        ));
    }
    let gone = numbers(&|photo| chosen.contains(&photo.sha256) && !photo.in_pack);
    if !gone.is_empty() {
        out.push(format!(
            "Files that are no longer on the phone: photos {}.",
            gone.join(", ")
        ));
    }
    let unseen = numbers(&|photo| photo.view.is_none());
    if !unseen.is_empty() {
        out.push(format!(
            "Pictures in this report of photos {}: they could not be shown here.",
            unseen.join(", ")
        ));
    }
    out
}

/// From and until when, as far as that was asked.
fn between(days: &RangeInclusive<NaiveDate>) -> String {
    let said = |word: &str, date: &NaiveDate, open: NaiveDate| {
        let day = report::day(&date.to_string());
        if *date == open {
            String::new()
        } else {
            format!(" {word} {day}")
        }
    };
    let from = said("from", days.start(), NaiveDate::MIN);
    from + &said("to", days.end(), NaiveDate::MAX)
}

/// Engineers' answers as they were written down.
fn answers(entries: &[Entry]) -> Vec<String> {
    let answers = as_corrected(entries.to_vec()).into_iter();
    answers
        .filter(|entry| entry.kind == Kind::EngineersAnswer)
        .map(|entry| format!("Written down {}: {}", when(&entry.moment.rfc3339()), words(&entry)))
        .collect()
}

/// Rounds with the photos that were taken after the round before.
fn round_parts(entries: &[Entry], photos: &[PhotoPart]) -> Vec<RoundPart> {
    let corrected: HashSet<Hash> = entries.iter().filter_map(|entry| entry.corrects).collect();
    let numbers: HashMap<&str, u32> = photos
        .iter()
        // Those of stops stand by their stops.
        .filter(|photo| !photo.about.starts_with("stop "))
        .map(|photo| (photo.sha256.as_str(), photo.number))
        .collect();
    let mut taken = Vec::new();
    let mut parts = Vec::new();
    for entry in &as_corrected(entries.to_vec()) {
        match entry.kind {
            Kind::PhotoTaken => {
                let sha = entry.body.get("sha256").and_then(Value::as_str).unwrap_or_default();
                taken.extend(numbers.get(sha).copied());
            }
            Kind::RoundDone => parts.push(RoundPart {
                at: when(&entry.moment.rfc3339()),
                why: [
                    entry.body.get("why").and_then(Value::as_str).unwrap_or_default(),
                    if corrected.contains(&entry.hash) {
                        "as corrected"
                    } else {
                        ""
                    },
                ]
                .into_iter()
                .filter(|part| !part.is_empty())
                .collect::<Vec<_>>()
                .join(", "),
                round: entry.body.get("round").cloned().unwrap_or_default(),
                evaluation: entry.body.get("evaluation").cloned().unwrap_or_default(),
                photos: std::mem::take(&mut taken),
            }),
            // What was photographed before there was anything to walk round belongs to the description.
            Kind::ProposalKept => taken.clear(),
            _ => {}
        }
    }
    parts
}

/// The wall as it was last described.
fn wall(store: &Store) -> Answer<Vec<String>> {
    let described = store.last_of(Kind::WallDescribed)?;
    let lines = described.as_ref().and_then(|entry| entry.body.get("words")?.as_array());
    Ok(lines
        .into_iter()
        .flatten()
        .filter_map(Value::as_str)
        .map(str::to_owned)
        .collect())
}

fn seal_line(entry: &Entry) -> Option<SealLine> {
    Some(SealLine {
        code: entry.body.get("code")?.as_str()?.to_owned(),
        at: when(&entry.moment.rfc3339()),
    })
}

/// The record as a list; a clock that was moved is told at its place.
fn entry_lines(entries: &[Entry], choice: &Choice) -> Vec<EntryLine> {
    let moved: HashMap<Hash, String> = clock_moves(entries)
        .iter()
        .map(|moved| (moved.entry, moved.words()))
        .collect();
    let line = |entry: &Entry| {
        let said = if choice.without_place && entry.kind == Kind::JobBegun {
            entry
                .body
                .get("name")
                .and_then(Value::as_str)
                .unwrap_or_default()
                .to_owned()
        } else {
            words(entry)
        };
        // Most words end with the name already.
        let by = super::signed_by(entry).filter(|name| !said.contains(name));
        let by = by.map(|name| format!("({name})"));
        let parts = [Some(said), by, moved.get(&entry.hash).cloned()];
        EntryLine {
            position: u64::try_from(entry.position).unwrap_or_default(),
            at: when(&entry.moment.rfc3339()),
            title: match entry.corrects {
                Some(old) => format!("{} (corrects entry {})", entry.kind.title(), old.short()),
                None => entry.kind.title().to_owned(),
            },
            words: parts
                .into_iter()
                .flatten()
                .filter(|part| !part.is_empty())
                .collect::<Vec<_>>()
                .join(" "),
            hash: entry.hash.to_string(),
        }
    };
    entries.iter().map(line).collect()
}

/// What stands in the report where the place was to be left out.
fn place_left_out(photos: &[PhotoRow]) -> String {
    let placed: HashSet<Hash> = photos.iter().filter(|row| row.place).map(|row| row.sha).collect();
    let originals = match placed.len() {
        0 => "no original photo says where it was taken".to_owned(),
        count => format!("{count} original photos in the pack still say where they were taken"),
    };
    format!("The place of the job, on request; record.json holds it, and {originals}.")
}

/// Drawings with these keys; the brief leaves out the plan, to keep to its two pages.
fn sketches(kept: &Value, keys: &[&str]) -> Vec<Sketch> {
    let drawn = SKETCHES
        .iter()
        .filter(|(key, _)| keys.contains(key))
        .filter_map(|(key, title)| Some((title, kept.get(key)?.as_str()?)));
    drawn
        .map(|(title, svg)| Sketch {
            title: (*title).to_owned(),
            svg: svg.to_owned(),
        })
        .collect()
}

/// Every photo once, numbered as in the pack.
fn photo_parts(store: &Store) -> Answer<Vec<PhotoPart>> {
    let added: HashMap<Hash, Photo> = photos::list(store)?
        .into_iter()
        .rev()
        .map(|photo| (photo.sha, photo))
        .collect();
    let files = pack::photo_files(&store.all_entries()?);
    let numbered = (1_u32..).zip(files);
    Ok(numbered
        .filter_map(|(number, file)| Some((number, file.file, added.get(&file.sha)?)))
        .map(|(number, file, photo)| PhotoPart {
            number,
            file,
            sha256: photo.sha.to_string(),
            about: photo.about.clone(),
            kind: photo.kind.clone(),
            in_pack: true,
            times: times(photo),
            mark: photo.mark.clone(),
            // A picture that cannot be shown stands in the report as a placeholder with its hash.
            view: photos::picture_piece(store.folder(), photo.sha, Size::View).ok(),
        })
        .collect())
}

fn times(photo: &Photo) -> Vec<String> {
    let taken = match (photo.source.as_str(), &photo.at) {
        ("exif", Some(at)) => format!("taken {} by the camera's own clock", when(at)),
        (_, Some(at)) => format!("dated {} by the phone", when(at)),
        (_, None) => "the time it was taken is not known".to_owned(),
    };
    let later = photo.difference_s.map(|seconds| match seconds {
        0.. => format!("added {} later", span(seconds)),
        _ => format!("dated {} after it was added", span(-seconds)),
    });
    std::iter::once(taken).chain(later).collect()
}

/// A length of time in the largest unit that still says something.
fn span(seconds: i64) -> String {
    match seconds {
        0..120 => format!("{seconds} s"),
        120..7200 => format!("{} min", seconds / 60),
        7200..172_800 => format!("{} h", seconds / 3600),
        _ => format!("{} days", seconds / 86_400),
    }
}
