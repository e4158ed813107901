//! The two fonts of the documents: their widths, and what to do with characters they lack.
//!
//! DejaVu Sans Condensed covers Latin, Greek and Cyrillic with the signs of the trade (≤ × → δ κ ²), has figures of one
//! width, and is free to embed (licence beside the files). Lines are set glyph by glyph from the font's own advances, so
//! that what is measured for line breaking is exactly what is drawn. Scripts whose letters join or run from right to left
//! are not set right by this, so their letters are shown as escaped code points like those the font lacks: never dropped,
//! never in a wrong order.

use super::ReportError;
use flate2::read::ZlibDecoder;
use krilla::text::{Font, GlyphId, KrillaGlyph};
use skrifa::MetadataProvider;
use skrifa::charmap::Charmap;
use skrifa::instance::{LocationRef, Size};
use skrifa::metrics::GlyphMetrics;
use std::io::Read;
use std::sync::LazyLock;

// Squeezed by `build.rs` to half their size, and opened once where the first paper or drawing needs them.
static REGULAR: LazyLock<Vec<u8>> =
    LazyLock::new(|| opened(include_bytes!(concat!(env!("OUT_DIR"), "/DejaVuSansCondensed.ttf.z"))));
static BOLD: LazyLock<Vec<u8>> = LazyLock::new(|| {
    opened(include_bytes!(concat!(
        env!("OUT_DIR"),
        "/DejaVuSansCondensed-Bold.ttf.z"
    )))
});

/// What was squeezed; nothing where that cannot be opened, which no font is.
fn opened(squeezed: &[u8]) -> Vec<u8> {
    let mut out = Vec::new();
    match ZlibDecoder::new(squeezed).read_to_end(&mut out) {
        Ok(_) => out,
        Err(_) => Vec::new(),
    }
}

/// Weight of a text.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Weight {
    /// Running text.
    Regular,
    /// Headings and names.
    Bold,
}

/// One face, ready to measure and to draw.
pub struct Face {
    font: Font,
    charmap: Charmap<'static>,
    metrics: GlyphMetrics<'static>,
    per_em: f32,
}

impl Face {
    fn new(bytes: &'static [u8]) -> Result<Self, ReportError> {
        let font = Font::new(bytes.into(), 0).ok_or(ReportError::Font)?;
        let reader = skrifa::FontRef::new(bytes).map_err(|_| ReportError::Font)?;
        Ok(Self {
            per_em: font.units_per_em(),
            font,
            charmap: reader.charmap(),
            metrics: reader.glyph_metrics(Size::unscaled(), LocationRef::default()),
        })
    }

    /// The font as the PDF writer takes it.
    pub fn font(&self) -> Font {
        self.font.clone()
    }

    fn has(&self, c: char) -> bool {
        self.charmap.map(c).is_some_and(|glyph| glyph.to_u32() != 0)
    }

    /// Width of one character at size 1.
    fn advance(&self, c: char) -> f32 {
        self.charmap
            .map(c)
            .and_then(|glyph| self.metrics.advance_width(glyph))
            .unwrap_or(0.0)
            / self.per_em
    }

    /// Width of a text at a size, in points.
    pub fn width(&self, text: &str, size_pt: f32) -> f32 {
        text.chars().map(|c| self.advance(c)).sum::<f32>() * size_pt
    }

    /// The glyphs of a text, placed one after the other.
    pub fn glyphs(&self, text: &str) -> Vec<KrillaGlyph> {
        text.char_indices()
            .map(|(at, c)| {
                let id = self.charmap.map(c).map_or(0, |glyph| glyph.to_u32());
                KrillaGlyph::new(
                    GlyphId::new(id),
                    self.advance(c),
                    0.0,
                    0.0,
                    0.0,
                    at..at + c.len_utf8(),
                    None,
                )
            })
            .collect()
    }
}

/// Both faces.
pub struct Fonts {
    regular: Face,
    bold: Face,
}

impl Fonts {
    /// Reads the faces that ride in the program.
    ///
    /// # Errors
    ///
    /// [`ReportError::Font`] if one cannot be read, which means a damaged program.
    pub fn new() -> Result<Self, ReportError> {
        Ok(Self {
            regular: Face::new(&REGULAR)?,
            bold: Face::new(&BOLD)?,
        })
    }

    /// The face of a weight.
    pub fn face(&self, weight: Weight) -> &Face {
        match weight {
            Weight::Regular => &self.regular,
            Weight::Bold => &self.bold,
        }
    }

    /// The text with every character that cannot be shown as `[U+…]`; line ends and tabs stay.
    pub fn shown(&self, text: &str) -> String {
        let mut out = String::with_capacity(text.len());
        for c in text.chars() {
            if matches!(c, '\n' | '\t') || self.can_show(c) {
                out.push(c);
            } else if c != '\r' {
                out.push_str(&format!("[U+{:04X}]", u32::from(c)));
            }
        }
        out
    }

    fn can_show(&self, c: char) -> bool {
        let set_right = !c.is_control() && !is_joined_or_leftward(c) && !is_private(c) && c != '\u{FEFF}';
        set_right && self.regular.has(c) && self.bold.has(c)
    }

    /// The bytes of both faces, for the sketches' own font list.
    pub fn files() -> [&'static [u8]; 2] {
        [&REGULAR, &BOLD]
    }
}

/// Hebrew, Arabic and their kin, the marks that turn the writing direction, joiners and other invisible signs.
fn is_joined_or_leftward(c: char) -> bool {
    matches!(u32::from(c), 0x0590..=0x08FF | 0x200B..=0x200F | 0x2028..=0x202E | 0x2060..=0x206F | 0xFB1D..=0xFDFF
        | 0xFE00..=0xFE0F | 0xFE70..=0xFEFF | 0x0001_0800..=0x0001_0FFF | 0x0001_E800..=0x0001_EFFF)
}

/// Private use: a code point without a meaning of its own, which an archival file must not hold.
fn is_private(c: char) -> bool {
    matches!(u32::from(c), 0xE000..=0xF8FF | 0x000F_0000..=0x0010_FFFF)
}
