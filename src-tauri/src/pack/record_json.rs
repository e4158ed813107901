//! `record.json`: every entry with its hash, in canonical JSON, so that each hash can be made again from it.

use serde_json::{Value, json};
use uuid::Uuid;

use crate::record::{Entry, Kind, Moment, RecordError, canonical, head_of};

use super::names::photo_files;

/// Name of the member.
pub(super) const NAME: &str = "record.json";

/// Largest `record.json` written or read, bytes (own judgement: some hundred rounds take about 1 MB).
pub(super) const LIMIT: u64 = 64 * 1024 * 1024;

/// Most values in a `record.json` that is read (own judgement: each takes up to some hundred bytes once it is parsed, and
/// the record of a long job has some ten thousand).
const VALUES: usize = 3_000_000;

const FORMAT: &str = "upstay record";

const VERSION: i64 = 1;

/// The bytes of `record.json` for the entries of a job, in fold order. Photos and names follow from the entries.
pub(super) fn build(job: Uuid, entries: &[Entry]) -> Result<Vec<u8>, RecordError> {
    // Members stand in the order of their names, as RFC 8785 asks; built piece by piece to hold it only once.
    let mut out = String::from("{\"entries\":[");
    for (place, entry) in entries.iter().enumerate() {
        if place > 0 {
            out.push(',');
        }
        let mut value = entry.hashed(job);
        if let Some(members) = value.as_object_mut() {
            members.insert("hash".to_owned(), json!(entry.hash));
        }
        out.push_str(&canonical(&value)?);
    }
    let named = entries
        .iter()
        .rev()
        .find(|entry| entry.kind == Kind::JobBegun)
        .map(|entry| &entry.body);
    let text = |key: &str| named.and_then(|body| body.get(key)).cloned().unwrap_or(Value::Null);
    let about = json!({
        "id": job, "name": text("name"), "place": text("place"), "country": text("country"), "demo": text("demo"),
    });
    let photos: Vec<Value> = photo_files(entries)
        .into_iter()
        .map(|photo| json!({"file": photo.file, "sha256": photo.sha}))
        .collect();
    out.push_str(&format!(
        "],\"format\":{},\"job\":{},\"photos\":{},\"version\":{VERSION}}}",
        canonical(&json!(FORMAT))?,
        canonical(&about)?,
        canonical(&json!(photos))?,
    ));
    Ok(out.into_bytes())
}

/// Reads a `record.json` back. What is wrong is told in words.
pub(super) fn parse(bytes: &[u8]) -> Result<(Uuid, Vec<Entry>), String> {
    // A few bytes of text can make a hundred of values, so they are counted before they are made.
    if bytes.iter().filter(|byte| matches!(byte, b',' | b'[' | b'{')).count() > VALUES {
        return Err("it holds more values than a record can have".to_owned());
    }
    let whole: Value = serde_json::from_slice(bytes).map_err(|why| format!("it is not JSON ({why})"))?;
    if whole.get("format").and_then(Value::as_str) != Some(FORMAT) {
        return Err("it is not the record of a job".to_owned());
    }
    match whole.get("version").and_then(Value::as_i64) {
        Some(VERSION) => {}
        Some(newer) if newer > VERSION => {
            return Err(format!(
                "it was written by a newer version of the app (format {newer}); update the app"
            ));
        }
        _ => return Err("it has no version".to_owned()),
    }
    let job = whole
        .pointer("/job/id")
        .and_then(Value::as_str)
        .and_then(|id| Uuid::parse_str(id).ok());
    let job = job.ok_or("it names no job")?;
    let list = whole
        .get("entries")
        .and_then(Value::as_array)
        .ok_or("it has no entries")?;
    let entries: Option<Vec<Entry>> = (1_i64..)
        .zip(list)
        .map(|(position, value)| entry_of(position, value))
        .collect();
    let entries = entries.ok_or("an entry lacks a part or has one of the wrong kind")?;
    Ok((job, entries))
}

fn entry_of(position: i64, value: &Value) -> Option<Entry> {
    let text = |key: &str| value.get(key)?.as_str();
    let whole = |key: &str| value.get(key)?.as_i64();
    // Absent and null are different things here: a part that is missing is a fault.
    let optional = |key: &str| value.get(key).map(|part| (!part.is_null()).then_some(part));
    Some(Entry {
        position,
        device: Uuid::parse_str(text("device")?).ok()?,
        seq: whole("seq")?,
        tick: whole("tick")?,
        seen: value
            .get("seen")?
            .as_array()?
            .iter()
            .map(head_of)
            .collect::<Option<_>>()?,
        moment: Moment {
            utc_ms: whole("at_utc_ms")?,
            offset_min: i32::try_from(whole("offset_min")?).ok()?,
            boot_ms: match optional("boot_ms")? {
                Some(part) => Some(part.as_i64()?),
                None => None,
            },
        },
        kind: Kind::parse(text("kind")?)?,
        body: value.get("body")?.clone(),
        corrects: match optional("corrects")? {
            Some(part) => Some(part.as_str()?.parse().ok()?),
            None => None,
        },
        prev: text("prev")?.parse().ok()?,
        hash: text("hash")?.parse().ok()?,
    })
}
