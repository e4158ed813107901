//! Photos and sketches made ready to draw.

use super::ReportError;
use super::fonts::Fonts;
use super::model::{PhotoPart, Sketch};
use super::splice::Insert;
use krilla::image::Image;
use std::collections::HashMap;
use std::sync::Arc;
use usvg::{Options, Tree, fontdb, roxmltree};

/// Family of the faces in their own naming; the condensed width is a property beside it.
const FAMILY: &str = "DejaVu Sans";

/// How much of a view is looked at to find where its picture begins (own judgement: those of the app take some 600 bytes).
const HEADER: usize = 256 * 1024;

/// A photo's view with its size in pixels.
#[derive(Clone)]
pub struct Picture {
    /// The picture as far as the writer knows it.
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

/// The pictures of the photos, in their order, and the views that take their places in the file; none where a view is
/// missing or of a kind that a PDF cannot carry as it is. A photo of several things is in the file once.
pub fn pictures(photos: &[PhotoPart]) -> (Vec<Option<Picture>>, Vec<Insert>) {
    let mut inserts = Vec::new();
    let mut known: HashMap<&str, Picture> = HashMap::new();
    let pictures = photos
        .iter()
        .map(|photo| {
            let seen = known.get(photo.sha256.as_str()).filter(|_| photo.view.is_some());
            let picture = seen.cloned().or_else(|| picture(photo, &mut inserts))?;
            known.insert(&photo.sha256, picture.clone());
            Some(picture)
        })
        .collect();
    (pictures, inserts)
}

fn picture(photo: &PhotoPart, inserts: &mut Vec<Insert>) -> Option<Picture> {
    let view = photo.view.as_ref()?;
    let bytes = view.head(HEADER).ok()?;
    let header = header(&bytes)?;
    let insert = Insert::new(header, view.clone(), inserts.len(), &photo.sha256)?;
    // Interpolation stays off: the archival form forbids it, and a photo of record is not to be smoothed.
    let image = Image::from_jpeg(insert.stand_in.clone().into(), false).ok()?;
    let (width, height) = image.size();
    let (width, height) = (u16::try_from(width).ok()?, u16::try_from(height).ok()?);
    if width == 0 || height == 0 {
        return None;
    }
    inserts.push(insert);
    Some(Picture {
        image,
        ratio: f32::from(height) / f32::from(width),
    })
}

/// A JPEG up to where its picture begins; none unless its frame header says: baseline, extended or progressive, 8 bits, one or
/// three components.
fn header(bytes: &[u8]) -> Option<&[u8]> {
    let mut rest = bytes.strip_prefix(&[0xFF, 0xD8])?;
    let mut plain = false;
    loop {
        let [0xFF, marker, tail @ ..] = rest else { return None };
        match marker {
            0xFF => {
                rest = rest.get(1..)?;
                continue;
            }
            0x01 | 0xD0..=0xD7 => {
                rest = tail;
                continue;
            }
            0xC0..=0xC2 => plain = matches!(tail, [_, _, 8, _, _, _, _, 1 | 3, ..]),
            0xC3 | 0xC5..=0xC7 | 0xC9..=0xCB | 0xCD..=0xCF | 0xD9 => return None,
            _ => {}
        }
        let [high, low, ..] = tail else { return None };
        let length = usize::from(u16::from_be_bytes([*high, *low]));
        let behind = tail.get(length..).filter(|_| length >= 2)?;
        if *marker == 0xDA {
            return bytes.get(..bytes.len() - behind.len()).filter(|_| plain);
        }
        rest = behind;
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
