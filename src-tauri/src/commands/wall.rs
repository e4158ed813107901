//! Commands of the screens that describe: fields as they are typed, and photos.

use super::Desk;
use crate::failure::{Answer, Failure};
use crate::photos::{Meta, PhotoKind};
use crate::record::{DraftKept, DraftWrite};
use crate::site::PhotoLine;
use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use serde::Serialize;
use tauri::State;
use tauri::ipc::{InvokeBody, Request};

/// What became of the writes.
#[derive(Debug, Serialize)]
pub struct Drafts {
    kept: Vec<DraftKept>,
}

/// Keeps what was typed.
#[tauri::command(async)]
pub fn draft_put(desk: State<'_, Desk>, id: String, writes: Vec<DraftWrite>) -> Answer<Drafts> {
    desk.at(&id, |store| {
        Ok(Drafts {
            kept: store.draft_put(&writes)?,
        })
    })
}

/// Takes a photo in as raw bytes, what it shows in headers.
#[tauri::command(async)]
pub fn photo_add(desk: State<'_, Desk>, request: Request<'_>) -> Answer<PhotoLine> {
    let InvokeBody::Raw(bytes) = request.body() else {
        return Err(Failure::new("not_an_image", "The photo did not arrive as bytes."));
    };
    let header = |name: &str| {
        let value = request
            .headers()
            .get(name)
            .and_then(|value| value.to_str().ok())
            .unwrap_or_default();
        decoded(value)
    };
    let meta = meta(
        header("x-about"),
        &header("x-kind"),
        header("x-name"),
        header("x-modified").parse().ok(),
    )?;
    desk.take_photo(&header("x-job"), bytes, &meta)
}

/// Takes a photo in as base64 text, for systems where raw bytes never arrive.
#[tauri::command(async)]
pub fn photo_text(
    desk: State<'_, Desk>,
    id: String,
    about: String,
    kind: String,
    name: String,
    modified: Option<f64>,
    base64: String,
) -> Answer<PhotoLine> {
    let bytes = STANDARD
        .decode(base64)
        .map_err(|why| Failure::new("not_an_image", format!("The photo did not arrive whole ({why}).")))?;
    // Milliseconds of a date fit a whole number exactly.
    desk.take_photo(&id, &bytes, &meta(about, &kind, name, modified.map(|ms| ms as i64))?)
}

pub(super) fn meta(about: String, kind: &str, name: String, modified_ms: Option<i64>) -> Answer<Meta> {
    let kind = PhotoKind::parse(kind).ok_or_else(|| {
        Failure::new(
            "photo_kind",
            format!("`{kind}` is no kind of photo: group, portrait or detail."),
        )
    })?;
    Ok(Meta {
        about,
        kind,
        name,
        modified_ms,
    })
}

/// Undoes percent encoding; what is no valid encoding stands as it is.
fn decoded(text: &str) -> String {
    let mut bytes = Vec::with_capacity(text.len());
    let mut rest = text.as_bytes();
    while let Some((first, after)) = rest.split_first() {
        let digits = after.get(..2).and_then(|two| std::str::from_utf8(two).ok());
        let code = digits
            .filter(|_| *first == b'%')
            .and_then(|two| u8::from_str_radix(two, 16).ok());
        bytes.push(code.unwrap_or(*first));
        rest = if code.is_some() {
            after.get(2..).unwrap_or_default()
        } else {
            after
        };
    }
    String::from_utf8_lossy(&bytes).into_owned()
}

#[cfg(test)]
mod tests {
    use super::decoded;

    #[test]
    fn names_come_back_from_percent_encoding() {
        assert_eq!(decoded("K%C3%BCche%20100%25.jpg"), "Küche 100%.jpg");
        assert_eq!(decoded("100%"), "100%");
        assert_eq!(decoded("%zz%4"), "%zz%4");
        assert_eq!(decoded(""), "");
    }
}
