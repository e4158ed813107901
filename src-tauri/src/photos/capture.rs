//! When a photo was taken, by what the file says or the phone says.

use std::io::{BufRead, Cursor, Seek};

use chrono::{NaiveDate, NaiveDateTime};
use exif::{DateTime, Exif, In, Reader, Tag, Value};

use crate::record::Moment;

/// A photo that comes later than this after its capture was probably not taken here, seconds (own judgement).
const ELSEWHERE_S: i64 = 600;

/// A camera clock this far ahead of the phone's is told, seconds (own judgement).
const AHEAD_S: i64 = 120;

/// Capture time with its source, and what else the file's data say.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Capture {
    pub(super) utc_ms: Option<i64>,
    pub(super) offset_min: Option<i32>,
    pub(super) source: &'static str,
    pub(super) difference_s: Option<i64>,
    pub(super) mark: Option<&'static str>,
    pub(super) orientation: i64,
    pub(super) place: bool,
}

/// What people are told about a mark.
pub(super) fn mark_words(mark: &str, difference_s: Option<i64>) -> Option<String> {
    let away = difference_s.map(words_of_seconds).unwrap_or_default();
    match mark {
        "no_camera_time" => Some("The file holds no time from a camera; the time shown is the file's.".to_owned()),
        "no_time" => Some("The file says nothing about when it was taken.".to_owned()),
        "from_elsewhere" => Some(format!("Taken {away} before it was added here.")),
        "clock_ahead" => Some(format!("The camera's clock is {away} ahead of this phone's.")),
        _ => None,
    }
}

/// Reads the capture time: the camera's where the file has one, else the file's own time, else none.
pub(super) fn read(bytes: &[u8], modified_ms: Option<i64>, moment: Moment) -> Capture {
    let exif = exif_of(bytes);
    let camera = exif.as_ref().and_then(camera_time);
    // A camera that keeps no offset is taken to stand at the phone's.
    let camera = camera.map(|(local, offset)| (local, offset.unwrap_or(moment.offset_min)));
    let (utc_ms, offset_min, source) = match (camera, modified_ms) {
        (Some((local, offset)), _) => (
            Some(local.and_utc().timestamp_millis() - i64::from(offset) * 60_000),
            Some(offset),
            "exif",
        ),
        (None, Some(modified)) => (Some(modified), Some(moment.offset_min), "phone"),
        (None, None) => (None, None, "unknown"),
    };
    let difference_s = utc_ms.map(|taken| moment.utc_ms.saturating_sub(taken) / 1000);
    let mark = match (source, difference_s) {
        ("unknown", _) => Some("no_time"),
        (_, Some(away)) if away > ELSEWHERE_S => Some("from_elsewhere"),
        ("exif", Some(away)) if away < -AHEAD_S => Some("clock_ahead"),
        ("phone", _) => Some("no_camera_time"),
        _ => None,
    };
    let orientation = exif
        .as_ref()
        .and_then(|exif| exif.get_field(Tag::Orientation, In::PRIMARY)?.value.get_uint(0));
    Capture {
        utc_ms,
        offset_min,
        source,
        difference_s,
        mark,
        orientation: orientation.filter(|turn| (1..=8).contains(turn)).map_or(1, i64::from),
        place: exif.is_some_and(|exif| exif.get_field(Tag::GPSLatitude, In::PRIMARY).is_some()),
    }
}

/// Focal length on 35 mm film, mm, by the file's own data; none where they do not say it or say 0, which means not known.
pub(super) fn focal_35mm_mm(file: &mut (impl BufRead + Seek)) -> Option<f64> {
    let exif = exif_in(file)?;
    let field = exif.get_field(Tag::FocalLengthIn35mmFilm, In::PRIMARY)?;
    field.value.get_uint(0).filter(|mm| *mm > 0).map(f64::from)
}

fn exif_of(bytes: &[u8]) -> Option<Exif> {
    exif_in(&mut Cursor::new(bytes))
}

fn exif_in(file: &mut (impl BufRead + Seek)) -> Option<Exif> {
    let mut reader = Reader::new();
    reader.continue_on_error(true);
    let read = reader.read_from_container(file);
    read.or_else(|why| why.distill_partial_result(|_| ())).ok()
}

/// DateTimeOriginal on the camera's clock, and OffsetTimeOriginal in minutes where it is there.
fn camera_time(exif: &Exif) -> Option<(NaiveDateTime, Option<i32>)> {
    let mut at = DateTime::from_ascii(ascii(exif, Tag::DateTimeOriginal)?).ok()?;
    if let Some(offset) = ascii(exif, Tag::OffsetTimeOriginal) {
        // A malformed offset is as good as none; the time still stands.
        let _unread = at.parse_offset(offset);
    }
    let date = NaiveDate::from_ymd_opt(i32::from(at.year), u32::from(at.month), u32::from(at.day))?;
    let time = date.and_hms_opt(u32::from(at.hour), u32::from(at.minute), u32::from(at.second))?;
    let offset = at.offset.map(i32::from).filter(|minutes| minutes.abs() <= 1080);
    Some((time, offset))
}

fn ascii(exif: &Exif, tag: Tag) -> Option<&[u8]> {
    match &exif.get_field(tag, In::PRIMARY)?.value {
        Value::Ascii(parts) => parts.first().map(Vec::as_slice),
        _ => None,
    }
}

fn words_of_seconds(seconds: i64) -> String {
    let seconds = seconds.unsigned_abs();
    let (count, unit) = match seconds {
        0..=119 => (seconds, "second"),
        120..=7_199 => (seconds / 60, "minute"),
        7_200..=172_799 => (seconds / 3_600, "hour"),
        _ => (seconds / 86_400, "day"),
    };
    format!("{count} {unit}{}", if count == 1 { "" } else { "s" })
}
