//! Corrections, clock moves and imports, as the report shows them.

use super::super::words;
use crate::record::{Entry, Hash, Kind, clock_moves};
use crate::report::{CorrectionPart, ImportPart, when};
use serde_json::Value;
use std::collections::HashMap;

/// Most values of one correction that are told one by one; record.json has all of them.
const TOLD: usize = 40;

/// What a round comes to.
const RESULTS: [&str; 4] = ["passed", "stop", "ring", "out"];

/// Corrections with what stood before and what stands now. `hidden` keys are not shown.
pub fn correction_parts(entries: &[Entry], hidden: &[&str]) -> Vec<CorrectionPart> {
    let known: HashMap<Hash, &Entry> = entries.iter().map(|entry| (entry.hash, entry)).collect();
    // What a correction changes is what stood just before it, which may be another correction of the same entry.
    let mut now: HashMap<Hash, &Value> = HashMap::new();
    let mut out = Vec::new();
    for entry in entries {
        let Some(old) = entry.corrects else { continue };
        let Some(before) = known.get(&old) else { continue };
        let mut root = *before;
        while let Some(further) = root.corrects.and_then(|hash| known.get(&hash)) {
            root = further;
        }
        let mut changes = Vec::new();
        let stood = now.get(&root.hash).copied().unwrap_or(&root.body);
        compared("", stood, &entry.body, &mut changes);
        changes.retain(|[path, ..]| !hidden.contains(&path.as_str()));
        // What was reckoned anew from a round follows from its readings; told is only what it came to.
        changes.retain(|[path, ..]| {
            path.strip_prefix("evaluation / ")
                .is_none_or(|key| RESULTS.contains(&key))
        });
        let more = changes.len().saturating_sub(TOLD);
        changes.truncate(TOLD);
        if more > 0 {
            changes.push([
                format!("and {more} more: see record.json"),
                String::new(),
                String::new(),
            ]);
        }
        now.insert(root.hash, &entry.body);
        out.push(CorrectionPart {
            title: format!(
                "{}, entry {}, corrects entry {} of {} ({})",
                when(&entry.moment.rfc3339()),
                entry.position,
                root.position,
                when(&root.moment.rfc3339()),
                root.kind.title()
            ),
            changes,
        });
    }
    out
}

/// Values that differ, with where they stand.
fn compared(path: &str, old: &Value, new: &Value, out: &mut Vec<[String; 3]>) {
    let below = |key: &str| {
        if path.is_empty() {
            key.to_owned()
        } else {
            format!("{path} / {key}")
        }
    };
    match (old, new) {
        _ if old == new => {}
        (Value::Object(a), Value::Object(b)) => {
            let mut keys: Vec<&String> = a.keys().chain(b.keys()).collect();
            keys.sort_unstable();
            keys.dedup();
            for key in keys {
                let none = &Value::Null;
                compared(&below(key), a.get(key).unwrap_or(none), b.get(key).unwrap_or(none), out);
            }
        }
        (Value::Array(a), Value::Array(b)) => {
            for row in 0..a.len().max(b.len()) {
                let (old, new) = (a.get(row), b.get(row));
                // A reading is told by its prop, not by its place in a list.
                let name = [old, new].into_iter().flatten().find_map(|item| {
                    let name = item.get("prop").or_else(|| item.get("name"))?;
                    name.as_str().map(str::to_owned)
                });
                let name = name.unwrap_or_else(|| (row + 1).to_string());
                let none = &Value::Null;
                compared(&below(&name), old.unwrap_or(none), new.unwrap_or(none), out);
            }
        }
        _ => out.push([path.replace('_', " "), shown(old), shown(new)]),
    }
}

fn shown(value: &Value) -> String {
    match value {
        Value::Null => "–".to_owned(),
        Value::Bool(true) => "yes".to_owned(),
        Value::Bool(false) => "no".to_owned(),
        Value::String(text) => text.clone(),
        other => other.to_string(),
    }
}

/// Places where a clock was moved.
pub fn clock_lines(entries: &[Entry]) -> Vec<String> {
    let known: HashMap<Hash, &Entry> = entries.iter().map(|entry| (entry.hash, entry)).collect();
    clock_moves(entries)
        .iter()
        .filter_map(|moved| Some((known.get(&moved.entry)?, moved.words())))
        .map(|(entry, words)| {
            format!(
                "Entry {} ({}), dated {}: {words}",
                entry.position,
                entry.kind.title(),
                when(&entry.moment.rfc3339())
            )
        })
        .collect()
}

/// Packs that were taken in, and what of them was left out.
pub fn import_parts(entries: &[Entry]) -> Vec<ImportPart> {
    let taken = entries.iter().filter(|entry| entry.kind == Kind::Import);
    taken
        .map(|entry| {
            let list = entry.body.get("left_out").and_then(Value::as_array);
            let mut left_out: Vec<String> = list.into_iter().flatten().map(left).collect();
            let all = entry.body.get("left_out_count").and_then(Value::as_u64).unwrap_or(0);
            let told = u64::try_from(left_out.len()).unwrap_or(u64::MAX);
            if all > told {
                left_out.push(format!("And {} more that are not named one by one.", all - told));
            }
            ImportPart {
                at: format!("{}, entry {}", when(&entry.moment.rfc3339()), entry.position),
                words: words(entry),
                left_out,
            }
        })
        .collect()
}

/// An entry that was left out: it says something else than what stands here, or follows one that does.
fn left(one: &Value) -> String {
    let text = |key: &str| one.get(key).and_then(Value::as_str).unwrap_or_default();
    let device: String = text("device").chars().take(8).collect();
    let kind = Kind::parse(text("kind")).map_or_else(|| text("kind").to_owned(), |kind| kind.title().to_owned());
    let hash = |key: &str| text(key).chars().take(12).collect::<String>();
    let seq = one.get("seq").map(ToString::to_string).unwrap_or_default();
    let fate = match hash("here") {
        here if here.is_empty() => "it follows an entry that was left out".to_owned(),
        here => format!("{} there, {here} here", hash("hash")),
    };
    format!(
        "Left out: entry {seq} of phone {device} ({kind}, {}): {fate}.",
        when(text("at"))
    )
}
