//! Turning a small picture upright by its EXIF orientation.

/// A picture, four bytes a pixel: red, green, blue, and one that nothing goes by. Four are what the resizer is built for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Rgba {
    /// Width, pixels.
    pub width: usize,
    /// Height, pixels.
    pub height: usize,
    /// The pixels row by row from the top.
    pub bytes: Vec<u8>,
}

impl Rgba {
    /// Its longest side, pixels.
    #[must_use]
    pub const fn longest(&self) -> usize {
        if self.width > self.height {
            self.width
        } else {
            self.height
        }
    }
}

/// Applies orientation 1 to 8 (EXIF 2.3, tag 0x0112, from memory); anything else leaves the picture as it is.
#[must_use]
pub fn upright(picture: Rgba, orientation: i64) -> Rgba {
    let Rgba {
        width,
        height,
        ref bytes,
    } = picture;
    let (right, bottom) = (width.saturating_sub(1), height.saturating_sub(1));
    let turned = matches!(orientation, 5..=8);
    let (new_width, new_height) = if turned { (height, width) } else { (width, height) };
    if !matches!(orientation, 2..=8) {
        return picture;
    }
    let mut out = Vec::with_capacity(bytes.len());
    for y in 0..new_height {
        for x in 0..new_width {
            let (from_x, from_y) = match orientation {
                2 => (right - x, y),
                3 => (right - x, bottom - y),
                4 => (x, bottom - y),
                5 => (y, x),
                6 => (y, bottom - x),
                7 => (right - y, bottom - x),
                _ => (right - y, x),
            };
            let at = (from_y * width + from_x) * 4;
            out.extend_from_slice(bytes.get(at..at + 4).unwrap_or(&[0; 4]));
        }
    }
    Rgba {
        width: new_width,
        height: new_height,
        bytes: out,
    }
}
