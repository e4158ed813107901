//! A drawing laid over a photo, with lines of words under it: a picture for the site.

use super::fonts::Fonts;
use super::model::Sketch;
use super::{ReportError, pictures};
use crate::photos::Pixels;
use resvg::tiny_skia::{Pixmap, PremultipliedColorU8, Transform};
use std::fmt::Write;

/// Size of the words under the picture, as a share of its width [own judgement: read at arm's length on a phone].
const SHARE: f32 = 1.0 / 46.0;
/// Distance of two lines as a share of the size.
const LEAD: f32 = 1.4;
const PAPER: [u8; 3] = [0xf7, 0xf4, 0xec];

/// The photo with `svg`, whose view box is the photo, drawn over it, and `lines` on paper under it.
///
/// # Errors
///
/// [`ReportError::Sketch`] if the drawing cannot be read or the photo is none.
pub fn lay_over(photo: &Pixels, svg: &str, lines: &[String]) -> Result<Pixels, ReportError> {
    let refused = |why: &str| ReportError::Sketch("set-out".to_owned(), why.to_owned());
    let fonts = Fonts::new()?;
    let (width, height) = (photo.width, photo.height);
    let words = under(width, lines);
    let sketches = [("set-out", svg.to_owned()), ("words", words.svg)].map(|(title, svg)| Sketch {
        title: title.to_owned(),
        svg,
    });
    let drawings = pictures::drawings(sketches.iter(), &fonts)?;
    let mut canvas = Pixmap::new(width, height + words.height).ok_or_else(|| refused("the photo has no size"))?;
    let opaque = |[r, g, b]: [u8; 3]| PremultipliedColorU8::from_rgba(r, g, b, u8::MAX);
    let paper = std::iter::repeat(PAPER);
    let pixels = photo.rgb.as_chunks::<3>().0.iter().copied().chain(paper);
    for (to, from) in canvas.pixels_mut().iter_mut().zip(pixels) {
        *to = opaque(from).ok_or_else(|| refused("a pixel cannot be set"))?;
    }
    let tops = [0.0, height as f32];
    for (drawing, top) in drawings.iter().zip(tops) {
        // Both drawings are as wide as the photo in their own units.
        let scale = width as f32 / drawing.tree.size().width();
        let place = Transform::from_scale(scale, scale).post_translate(0.0, top);
        resvg::render(&drawing.tree, place, &mut canvas.as_mut());
    }
    let rgb = canvas
        .pixels()
        .iter()
        .flat_map(|pixel| [pixel.red(), pixel.green(), pixel.blue()]);
    Ok(Pixels {
        width,
        height: height + words.height,
        rgb: rgb.collect(),
    })
}

struct Words {
    svg: String,
    height: u32,
}

/// Lines of words as a drawing of their own; what is too long for a line is narrowed by going on in the next.
fn under(width: u32, lines: &[String]) -> Words {
    let size = (width as f32 * SHARE).max(9.0);
    // A character of the condensed face is about 0.54 of its size at the most common letters.
    let fits = ((width as f32 / size - 2.0) / 0.54).max(8.0) as usize;
    let broken: Vec<(bool, String)> = lines
        .iter()
        .enumerate()
        .flat_map(|(at, line)| split(line, fits).into_iter().map(move |part| (at == 0, part)))
        .collect();
    let mut body = String::new();
    let mut y = size * LEAD;
    for (first, line) in &broken {
        let weight = if *first { 700 } else { 400 };
        let text = line.replace('&', "&amp;").replace('<', "&lt;");
        let _infallible = write!(
            body,
            "<text x=\"{size}\" y=\"{y}\" font-size=\"{size}\" font-weight=\"{weight}\" fill=\"#16242c\">{text}</text>"
        );
        y += size * LEAD;
    }
    let height = y.ceil().max(1.0);
    Words {
        svg: format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width}\" height=\"{height}\" viewBox=\"0 0 {width} {height}\" font-family=\"sans-serif\">{body}</svg>"
        ),
        height: height as u32,
    }
}

/// A line in parts of at most `most` characters, broken between words.
fn split(line: &str, most: usize) -> Vec<String> {
    let mut parts: Vec<String> = Vec::new();
    for word in line.split_whitespace() {
        match parts.last_mut() {
            Some(last) if last.chars().count() + 1 + word.chars().count() <= most => {
                last.push(' ');
                last.push_str(word);
            }
            _ => parts.push(word.to_owned()),
        }
    }
    parts
}

#[cfg(test)]
mod tests {
    #![expect(clippy::unwrap_used, reason = "a test may stop at the first thing that is not there")]

    use super::{Pixels, lay_over};

    #[test]
    fn a_line_lies_where_it_is_drawn_and_the_words_stand_under_the_photo() {
        let photo = Pixels {
            width: 200,
            height: 100,
            rgb: vec![128; 200 * 100 * 3],
        };
        // Twice as large as the photo in its own units: the line is at 50 of 100 px.
        let svg = "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 400 200\"><path d=\"M100 0V200\" stroke=\"#ff0000\" stroke-width=\"8\"/></svg>";
        let made = lay_over(&photo, svg, &["N1 & N2 <500>".to_owned()]).unwrap();
        let at = |x: u32, y: u32| {
            let from = usize::try_from((y * made.width + x) * 3).unwrap();
            <[u8; 3]>::try_from(made.rgb.get(from..from + 3).unwrap()).unwrap()
        };
        assert_eq!(at(50, 50), [255, 0, 0]);
        assert_eq!(at(44, 50), [128; 3]);
        assert_eq!(at(56, 50), [128; 3]);
        assert!(made.height > photo.height);
        let dark = (0..made.width)
            .flat_map(|x| (photo.height..made.height).map(move |y| (x, y)))
            .filter(|(x, y)| at(*x, *y).iter().all(|value| *value < 100))
            .count();
        assert!(dark > 20, "{dark} dark pixels under the photo");
    }
}
