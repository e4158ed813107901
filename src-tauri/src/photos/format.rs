//! What a file is, by its contents alone, and whether it can be shown.

use std::io::Cursor;

use image::ImageDecoder;

use pixels::jpeg;

/// Largest file taken in, bytes (own judgement: four times a large phone photo).
pub const BYTE_LIMIT: u64 = 60 * 1024 * 1024;

pub use pixels::PIXEL_LIMIT;

/// Kind of image.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Format {
    /// JPEG.
    Jpeg,
    /// PNG.
    Png,
    /// WebP.
    Webp,
    /// HEIC and its relatives.
    Heic,
}

impl Format {
    /// The kind by the first bytes; `None` for anything else.
    #[must_use]
    pub fn sniff(bytes: &[u8]) -> Option<Self> {
        if bytes.starts_with(&[0xFF, 0xD8, 0xFF]) {
            return Some(Self::Jpeg);
        }
        if bytes.starts_with(b"\x89PNG\r\n\x1a\n") {
            return Some(Self::Png);
        }
        if bytes.starts_with(b"RIFF") && bytes.get(8..12) == Some(b"WEBP") {
            return Some(Self::Webp);
        }
        // ISO base media file: a box `ftyp`, then the major brand and compatible brands (ISO/IEC 23008-12, from memory).
        let brands: [&[u8]; 9] = [
            b"heic", b"heix", b"hevc", b"hevx", b"heim", b"heis", b"mif1", b"msf1", b"avif",
        ];
        match (bytes.get(4..8), bytes.get(8..12)) {
            (Some(b"ftyp"), Some(brand)) if brands.contains(&brand) => Some(Self::Heic),
            _ => None,
        }
    }

    /// The word stored in the record.
    #[must_use]
    pub const fn as_str(self) -> &'static str {
        match self {
            Self::Jpeg => "jpeg",
            Self::Png => "png",
            Self::Webp => "webp",
            Self::Heic => "heic",
        }
    }

    /// Extension of a file name, by the word stored in the record.
    #[must_use]
    pub fn extension(word: &str) -> &'static str {
        match word {
            "jpeg" => "jpg",
            "png" => "png",
            "webp" => "webp",
            _ => "heic",
        }
    }
}

/// Whether the photo can be shown.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum State {
    /// Whole, and can be shown.
    Whole,
    /// Kept; this kind cannot be shown here.
    NoViewHere,
    /// Kept; the file ends early or its header cannot be read.
    Damaged,
    /// Kept; too many pixels to be opened.
    TooLarge,
}

impl State {
    /// The word stored in the record.
    #[must_use]
    pub const fn as_str(self) -> &'static str {
        match self {
            Self::Whole => "whole",
            Self::NoViewHere => "no_view_here",
            Self::Damaged => "damaged",
            Self::TooLarge => "too_large",
        }
    }

    /// What people are told, by the stored word; `None` when there is nothing to tell.
    #[must_use]
    pub fn words(word: &str) -> Option<&'static str> {
        match word {
            "no_view_here" => {
                Some("Kept as it came; this kind of file cannot be shown here. A JPEG, PNG or WebP would be shown.")
            }
            "damaged" => {
                Some("Kept as it came, but the file is damaged or cut short. Take the photo again if you can.")
            }
            "too_large" => {
                Some("Kept as it came; it has too many pixels to be opened here. A smaller one would be shown.")
            }
            _ => None,
        }
    }
}

/// Size as stored and state of a photo, from its header and, for a JPEG, from whether its end is there. Nothing is decoded.
pub(super) fn examine(format: Format, bytes: &[u8]) -> (Option<(u32, u32)>, State) {
    let size = match format {
        Format::Heic => return (None, State::NoViewHere),
        Format::Jpeg => jpeg::size(bytes),
        Format::Png => image::codecs::png::PngDecoder::new(Cursor::new(bytes))
            .ok()
            .map(|png| png.dimensions()),
        Format::Webp => image::codecs::webp::WebPDecoder::new(Cursor::new(bytes))
            .ok()
            .map(|webp| webp.dimensions()),
    };
    let state = match size {
        None => State::Damaged,
        Some((width, height)) if u64::from(width) * u64::from(height) > PIXEL_LIMIT => State::TooLarge,
        Some(_) if format == Format::Jpeg && !jpeg::complete(bytes) => State::Damaged,
        Some(_) => State::Whole,
    };
    (size, state)
}
