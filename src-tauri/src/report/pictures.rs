//! Photos and sketches made ready to draw.

use super::ReportError;
use super::fonts::Fonts;
use super::model::{PhotoPart, Sketch};
use krilla::image::Image;
use std::sync::Arc;
use usvg::{Options, Tree, fontdb, roxmltree};

/// Family of the faces in their own naming; the condensed width is a property beside it.
const FAMILY: &str = "DejaVu Sans";

/// A photo's view with its size in pixels.
pub struct Picture {
    /// The picture, its JPEG bytes passed through.
    pub image: Image,
    /// Height over width.
    pub ratio: f32,
}

/// A parsed sketch.
pub struct Drawing {
    /// Its title.
    pub title: String,
    /// Its alternative text.
    pub words: String,
    /// What to draw.
    pub tree: Tree,
}

/// The pictures of the photos, in their order; none where a view is missing or of a kind that a PDF cannot carry as it is.
pub fn pictures(photos: &[PhotoPart]) -> Vec<Option<Picture>> {
    photos
        .iter()
        .map(|photo| photo.view.as_ref().and_then(picture))
        .collect()
}

fn picture(bytes: &Arc<Vec<u8>>) -> Option<Picture> {
    if !is_plain_jpeg(bytes) {
        return None;
    }
    // Interpolation stays off: the archival form forbids it, and a photo of record is not to be smoothed.
    let image = Image::from_jpeg(Arc::clone(bytes).into(), false).ok()?;
    let (width, height) = image.size();
    let (width, height) = (u16::try_from(width).ok()?, u16::try_from(height).ok()?);
    (width > 0 && height > 0).then(|| Picture {
        image,
        ratio: f32::from(height) / f32::from(width),
    })
}

/// Whether the frame header says: baseline, extended or progressive, 8 bits, one or three components.
fn is_plain_jpeg(bytes: &[u8]) -> bool {
    let mut rest = match bytes.strip_prefix(&[0xFF, 0xD8]) {
        Some(rest) => rest,
        None => return false,
    };
    loop {
        let [0xFF, marker, tail @ ..] = rest else { return false };
        match marker {
            0xFF => rest = rest.get(1..).unwrap_or_default(),
            0xC0..=0xC2 => return matches!(tail, [_, _, 8, _, _, _, _, 1 | 3, ..]),
            0xC3 | 0xC5..=0xC7 | 0xC9..=0xCB | 0xCD..=0xCF | 0xD9 | 0xDA => return false,
            0x01 | 0xD0..=0xD7 => rest = tail,
            _ => {
                let [high, low, ..] = tail else { return false };
                let length = usize::from(u16::from_be_bytes([*high, *low]));
                match tail.get(length..) {
                    Some(next) if length >= 2 => rest = next,
                    _ => return false,
                }
            }
        }
    }
}

/// How drawings are read: with the documents' own fonts, never those of the system.
fn options() -> Options<'static> {
    let mut list = fontdb::Database::new();
    for file in Fonts::files() {
        list.load_font_data(file.to_vec());
    }
    list.set_sans_serif_family(FAMILY);
    Options {
        font_family: FAMILY.to_owned(),
        fontdb: Arc::new(list),
        ..Options::default()
    }
}

/// Parses the sketches with the documents' own fonts.
///
/// # Errors
///
/// [`ReportError::Sketch`] if one is not an SVG.
pub fn drawings<'s>(sketches: impl Iterator<Item = &'s Sketch>, fonts: &Fonts) -> Result<Vec<Drawing>, ReportError> {
    let options = options();
    sketches
        .map(|sketch| {
            // Characters that the fonts lack become escaped code points before the drawing is parsed.
            let svg = fonts.shown(&sketch.svg);
            let refused = |error: &dyn std::fmt::Display| ReportError::Sketch(sketch.title.clone(), error.to_string());
            let parsed = roxmltree::Document::parse(&svg).map_err(|error| refused(&error))?;
            let words = parsed
                .root_element()
                .attribute("aria-label")
                .unwrap_or(&sketch.title)
                .to_owned();
            let tree = Tree::from_xmltree(&parsed, &options).map_err(|error| refused(&error))?;
            Ok(Drawing {
                title: sketch.title.clone(),
                words,
                tree,
            })
        })
        .collect()
}
