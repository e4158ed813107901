//! What an entry says, in one plain sentence.

use crate::record::{Entry, Kind};
use serde_json::Value;

/// One sentence for an entry, for the record's screen and the report.
#[must_use]
pub fn words(entry: &Entry) -> String {
    let text = |path: &str| entry.body.pointer(path).and_then(Value::as_str).unwrap_or_default();
    match entry.kind {
        Kind::JobBegun => [text("/name"), text("/place")]
            .into_iter()
            .filter(|part| !part.is_empty())
            .collect::<Vec<_>>()
            .join(", "),
        Kind::WallDescribed => {
            let lines = entry.body.get("words").and_then(Value::as_array);
            lines
                .into_iter()
                .flatten()
                .filter_map(Value::as_str)
                .collect::<Vec<_>>()
                .join(" ")
        }
        Kind::PhotoTaken => format!("{} ({}): {}", text("/about"), text("/kind"), text("/name")),
        Kind::ProposalKept => proposal(&entry.body),
        Kind::RoundDone => round(&entry.body),
        Kind::SealGiven => format!("Code {}", text("/code")),
        Kind::Note => text("/text").to_owned(),
        Kind::PackMade => pack(&entry.body),
        Kind::Finding => {
            let parts = [text("/prop"), text("/where"), text("/words")];
            let said: Vec<&str> = parts.into_iter().filter(|part| !part.is_empty()).collect();
            signed(&said.join(": "), text("/name"))
        }
        Kind::Repair => signed(text("/words"), text("/name")),
        Kind::LetDown => let_down(&entry.body),
        Kind::LookAfter => look(&entry.body),
        Kind::JobClosed => {
            let why = text("/anyway");
            let told = if why.is_empty() {
                "Nothing stood against it.".to_owned()
            } else {
                let against = entry.body.get("against").and_then(Value::as_array);
                let against: Vec<&str> = against.into_iter().flatten().filter_map(Value::as_str).collect();
                format!("Closed anyway: {why} What stood against it: {}", against.join(" "))
            };
            signed(&told, text("/name"))
        }
        Kind::JobReopened => signed(text("/reason"), text("/name")),
        Kind::StopPassed | Kind::Permit => yes(&entry.body),
        Kind::EngineersAnswer | Kind::Import => text("/words").to_owned(),
    }
}

/// Whose name stands under an entry: whoever says what it says, else whoever held the phone.
#[must_use]
pub fn signed_by(entry: &Entry) -> Option<&str> {
    let own = match entry.kind {
        Kind::RoundDone => "/round/name",
        Kind::Finding
        | Kind::Repair
        | Kind::StopPassed
        | Kind::Permit
        | Kind::LetDown
        | Kind::LookAfter
        | Kind::JobClosed
        | Kind::JobReopened => "/name",
        _ => "/by",
    };
    let named = [own, "/by"]
        .into_iter()
        .filter_map(|path| entry.body.pointer(path)?.as_str());
    named.map(str::trim).find(|name| !name.is_empty())
}

/// Words with the name of whoever wrote them.
fn signed(words: &str, name: &str) -> String {
    match name {
        "" => words.to_owned(),
        name => format!("{words} ({name})"),
    }
}

/// A yes with the name it stands under, and why it was taken back.
fn yes(body: &Value) -> String {
    let text = |key: &str| body.get(key).and_then(Value::as_str).unwrap_or_default().trim();
    let said = match (text("name"), text("asked")) {
        ("", _) | (_, "") => text("words").to_owned(),
        (name, asked) => {
            let set_out = match body.get("set_out").and_then(Value::as_bool) {
                Some(true) => ", who set the support out",
                Some(false) => ", who did not set the support out",
                None => "",
            };
            format!("{name}{set_out}: yes. {asked}")
        }
    };
    match text(super::correct::TAKEN_BACK) {
        "" => said,
        why => format!("Taken back, because: {why} ({said})"),
    }
}

/// Props turned down and taken out, what the gauges read, and whether something moved.
fn let_down(body: &Value) -> String {
    let rows = |key: &str| body.get(key).and_then(Value::as_array).into_iter().flatten();
    let turns: Vec<String> = rows("turns")
        .filter_map(|turn| {
            let turns = turn.get("turns")?.as_f64()?;
            Some(format!("{} {turns} turn down", turn.get("prop")?.as_str()?))
        })
        .collect();
    let out: Vec<&str> = rows("out").filter_map(Value::as_str).collect();
    let mut parts = Vec::new();
    if !turns.is_empty() {
        parts.push(format!("{}.", turns.join(", ")));
    }
    if !out.is_empty() {
        parts.push(format!("Out: {}.", out.join(", ")));
    }
    parts.push(look(body));
    parts.join(" ")
}

/// What a look read.
fn look(body: &Value) -> String {
    let text = |key: &str| body.get(key).and_then(Value::as_str).unwrap_or_default();
    let gauges = body.get("gauges").and_then(Value::as_array);
    let gauges: Vec<String> = gauges
        .into_iter()
        .flatten()
        .filter_map(|gauge| {
            Some(format!(
                "{} {:.1} mm",
                gauge.get("name")?.as_str()?,
                gauge.get("mm")?.as_f64()?
            ))
        })
        .collect();
    let mut parts = Vec::new();
    if !gauges.is_empty() {
        parts.push(format!("Gauges: {}.", gauges.join(", ")));
    }
    parts.push(match body.get("moved").and_then(Value::as_bool) {
        Some(false) => "Nothing moved.".to_owned(),
        _ => "Something moved.".to_owned(),
    });
    parts.push(text("words").to_owned());
    parts.retain(|part| !part.is_empty());
    signed(&parts.join(" "), text("name"))
}

fn proposal(body: &Value) -> String {
    let option = body
        .get("option")
        .and_then(Value::as_u64)
        .and_then(|index| usize::try_from(index).ok());
    let option = option.and_then(|index| body.pointer("/proposal/options")?.get(index));
    let Some(option) = option else {
        return "A proposal without an option.".to_owned();
    };
    let count = |key: &str| option.get(key).and_then(Value::as_array).map_or(0, Vec::len);
    let used = option
        .get("worst_utilisation")
        .and_then(Value::as_f64)
        .unwrap_or(f64::NAN);
    let standing = |of: &Value| {
        of.get("standing")
            .and_then(Value::as_str)
            .unwrap_or_default()
            .to_owned()
    };
    // An option may pass every check while the job as a whole is an engineer's.
    let whole = body.get("proposal").map(standing).unwrap_or_default();
    let standing = match (whole.as_str(), standing(option).as_str()) {
        ("holds" | "close", "holds") => "holds",
        ("holds" | "close", "close") => "close to its limit",
        _ => "for an engineer to check, not to build from",
    };
    let carriers = if option.get("kind").and_then(Value::as_str) == Some("brackets") {
        "Brackets, no needles".to_owned()
    } else {
        format!("{} needles", count("needles"))
    };
    format!(
        "{carriers}, {} props, used {:.0} %: {standing}.",
        count("props"),
        // Rounded up: 99.2 % is shown as 100 %.
        (used * 100.0).ceil()
    )
}

fn pack(body: &Value) -> String {
    let missing = body.get("missing").and_then(Value::as_array).map_or(0, Vec::len);
    match missing {
        0 => "Everything in the record up to here, with its photos.".to_owned(),
        _ => format!("Everything in the record up to here; {missing} photos are no longer here as they were taken in."),
    }
}

fn round(body: &Value) -> String {
    let flag = |path: &str| body.pointer(path).and_then(Value::as_bool);
    let result = match (flag("/evaluation/stop"), flag("/evaluation/passed")) {
        (Some(false), Some(true)) => "Everything passed.",
        (Some(false), _) => "Something must be put right.",
        _ => "Stop: keep out.",
    };
    let reasons = body.pointer("/evaluation/reasons").and_then(Value::as_array);
    let reasons = reasons
        .into_iter()
        .flatten()
        .filter_map(|reason| reason.get("words")?.as_str());
    let why = body
        .get("why")
        .and_then(Value::as_str)
        .filter(|why| !why.is_empty())
        .map(|why| format!("{why}."));
    let name = body.pointer("/round/name").and_then(Value::as_str);
    let name = name.map(|name| format!("Read by {name}."));
    why.iter()
        .chain(&name)
        .map(String::as_str)
        .chain([result])
        .chain(reasons)
        .collect::<Vec<_>>()
        .join(" ")
}
