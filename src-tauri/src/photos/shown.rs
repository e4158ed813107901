//! A photo's size as it is shown, and what its own data say of the lens: what measuring on it starts from.

use std::fs;
use std::io::BufReader;

use serde::Serialize;

use crate::record::{Hash, Store};

use super::error::file;
use super::photo::turned;
use super::{PhotoError, capture};

/// A photo to measure on.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Shown {
    /// Width after turning by the file's own data, pixels.
    pub width_px: i64,
    /// Height after turning, pixels.
    pub height_px: i64,
    /// Focal length on 35 mm film, mm, where the file says it.
    pub focal_35mm_mm: Option<f64>,
}

/// Size and lens of a photo of this job.
///
/// # Errors
///
/// [`PhotoError::Missing`] if the job has no such photo, [`PhotoError::NoView`] if its size is not known, and what reading
/// the file said.
pub fn shown(store: &Store, sha: Hash) -> Result<Shown, PhotoError> {
    let path = store.photo_folder().join(sha.to_string());
    let row = store.photo_rows()?.into_iter().find(|row| row.sha == sha);
    let Some(row) = row else {
        return Err(PhotoError::Missing { path });
    };
    let (Some(width), Some(height)) = (row.width, row.height) else {
        return Err(PhotoError::NoView {
            words: "The size of this photo is not known, so it cannot be measured on. A JPEG, PNG or WebP can."
                .to_owned(),
        });
    };
    let opened = fs::File::open(&path).map_err(file("Open the photo", &path))?;
    let (width_px, height_px) = if turned(&row) { (height, width) } else { (width, height) };
    Ok(Shown {
        width_px,
        height_px,
        focal_35mm_mm: capture::focal_35mm_mm(&mut BufReader::new(opened)),
    })
}
