//! The pen: writes SVG elements with a class and the same look as attributes, and knows where words already stand.
//!
//! A screen restyles the classes by its tokens; paper has no style sheet, so every element carries its look as well.

use std::fmt::Write;

/// Width of every sketch in its own units, about one unit a pixel on a phone.
pub const WIDTH: f64 = 340.0;
/// Size of words.
pub const SIZE: f64 = 12.0;

const INK: &str = "#16242c";
const SOFT: &str = "#5b6870";
const OXIDE: &str = "#a3341a";
const PENCIL: &str = "#1d4f7c";
const WASH: &str = "#ece7da";

/// What a line or an area means.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Look {
    /// Edge of the house.
    Line,
    /// A second line.
    Thin,
    /// A thin broken line.
    ThinBroken,
    /// A measure.
    Dim,
    /// What is to be cut.
    Cut,
    /// Steel as an area.
    Steel,
    /// Steel as a stroke.
    SteelLine,
    /// A board, a pane: filled with an edge.
    Board,
    /// Masonry.
    Wash,
    /// Edge of the weight.
    Weight,
}

impl Look {
    fn attributes(self) -> String {
        match self {
            Self::Line => format!("class=\"line\" fill=\"none\" stroke=\"{INK}\" stroke-width=\"1.5\""),
            Self::Thin => format!("class=\"thin\" fill=\"none\" stroke=\"{SOFT}\" stroke-width=\"0.75\""),
            Self::ThinBroken => {
                format!("class=\"thin\" fill=\"none\" stroke=\"{SOFT}\" stroke-width=\"0.75\" stroke-dasharray=\"3 3\"")
            }
            Self::Dim => format!("class=\"dim\" fill=\"none\" stroke=\"{PENCIL}\" stroke-width=\"1\""),
            Self::Cut => {
                format!("class=\"cut\" fill=\"none\" stroke=\"{INK}\" stroke-width=\"1.5\" stroke-dasharray=\"6 4\"")
            }
            Self::Steel => format!("class=\"steel\" fill=\"{OXIDE}\" stroke=\"none\""),
            Self::SteelLine => format!("class=\"steelline\" fill=\"none\" stroke=\"{OXIDE}\" stroke-width=\"5\""),
            Self::Board => format!("class=\"board\" fill=\"{WASH}\" stroke=\"{INK}\" stroke-width=\"1.25\""),
            Self::Wash => format!("class=\"wash\" fill=\"{WASH}\" stroke=\"none\""),
            Self::Weight => format!("class=\"weightline\" fill=\"none\" stroke=\"{OXIDE}\" stroke-width=\"2\""),
        }
    }
}

/// Where a text's x is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Anchor {
    /// At its beginning.
    Start,
    /// In its middle.
    Middle,
    /// At its end.
    End,
}

/// A rectangle: left, top, right, bottom.
#[derive(Clone, Copy, Debug)]
struct Extent(f64, f64, f64, f64);

impl Extent {
    fn meets(self, other: Self) -> bool {
        self.0 < other.2 && other.0 < self.2 && self.1 < other.3 && other.1 < self.3
    }
}

/// A sketch being drawn.
#[derive(Debug, Default)]
pub struct Pen {
    body: String,
    words: Vec<Extent>,
    scale: Option<(f64, f64)>,
}

impl Pen {
    /// Notes where x = 0 lies and how many units a metre has, so that a screen can turn a touch into a length.
    pub const fn note_scale(&mut self, zero: f64, unit: f64) {
        self.scale = Some((zero, unit));
    }

    /// Draws what belongs to one part of the support, which a screen then finds by its name.
    pub fn part(&mut self, name: &str, draw: impl FnOnce(&mut Self)) {
        let _ = write!(self.body, "<g data-part=\"{}\">", escaped(name));
        draw(self);
        self.body.push_str("</g>");
    }

    /// A path along points, closed or open. Points that are not finite are left out.
    pub fn path(&mut self, look: Look, points: &[(f64, f64)], closed: bool) {
        let mut d = String::new();
        for (x, y) in points.iter().filter(|(x, y)| x.is_finite() && y.is_finite()) {
            let _ = write!(d, "{}{} {}", if d.is_empty() { "M" } else { "L" }, n(*x), n(*y));
        }
        if d.is_empty() {
            return;
        }
        if closed {
            d.push('Z');
        }
        let _ = write!(self.body, "<path {} d=\"{d}\"/>", look.attributes());
    }

    /// A straight line.
    pub fn line(&mut self, look: Look, from: (f64, f64), to: (f64, f64)) {
        self.path(look, &[from, to], false);
    }

    /// A rectangle between two corners.
    pub fn rect(&mut self, look: Look, from: (f64, f64), to: (f64, f64)) {
        self.path(look, &[from, (to.0, from.1), to, (from.0, to.1)], true);
    }

    /// An arrow with an open head.
    pub fn arrow(&mut self, look: Look, from: (f64, f64), to: (f64, f64)) {
        let (dx, dy) = (to.0 - from.0, to.1 - from.1);
        let length = dx.hypot(dy).max(1e-9);
        let (ux, uy) = (dx / length * 5.0, dy / length * 5.0);
        self.line(look, from, to);
        let (left, right) = (
            (to.0 - ux - uy * 0.7, to.1 - uy + ux * 0.7),
            (to.0 - ux + uy * 0.7, to.1 - uy - ux * 0.7),
        );
        self.path(look, &[left, to, right], false);
    }

    /// Words in ink at the first of the places where they hide no other words and stay on the sheet; whether one was free.
    pub fn words(&mut self, words: &str, anchor: Anchor, places: &[(f64, f64)]) -> bool {
        self.place(words, anchor, places, "word", INK, false)
    }

    /// Bold words.
    pub fn strong(&mut self, words: &str, anchor: Anchor, places: &[(f64, f64)]) -> bool {
        self.place(words, anchor, places, "word", INK, true)
    }

    /// A measure's figure.
    pub fn measure(&mut self, words: &str, anchor: Anchor, places: &[(f64, f64)]) -> bool {
        self.place(words, anchor, places, "dimt", PENCIL, false)
    }

    fn place(
        &mut self,
        words: &str,
        anchor: Anchor,
        places: &[(f64, f64)],
        class: &str,
        fill: &str,
        strong: bool,
    ) -> bool {
        for (x, y) in places.iter().filter(|(x, y)| x.is_finite() && y.is_finite()) {
            let wide = width(words) * if strong { 1.1 } else { 1.0 };
            let left = match anchor {
                Anchor::Start => *x,
                Anchor::Middle => x - wide / 2.0,
                Anchor::End => x - wide,
            };
            // Words that would stick out over an edge are moved in.
            let left = left.min(WIDTH - 2.0 - wide).max(2.0);
            let extent = Extent(left - 1.5, y - SIZE * 0.8, left + wide + 1.5, y + SIZE * 0.25);
            if left + wide > WIDTH || self.words.iter().any(|other| other.meets(extent)) {
                continue;
            }
            self.words.push(extent);
            let (at, anchored) = match anchor {
                Anchor::Start => (left, "start"),
                Anchor::Middle => (left + wide / 2.0, "middle"),
                Anchor::End => (left + wide, "end"),
            };
            let weight = if strong { " font-weight=\"600\"" } else { "" };
            let _ = write!(
                self.body,
                "<text class=\"{class}\" x=\"{}\" y=\"{}\" font-size=\"{SIZE}\" text-anchor=\"{anchored}\" fill=\"{fill}\"{weight}>{}</text>",
                n(at),
                n(*y),
                escaped(words)
            );
            return true;
        }
        false
    }

    /// Keeps words out of a rectangle.
    pub fn keep_clear(&mut self, from: (f64, f64), to: (f64, f64)) {
        self.words.push(Extent(
            from.0.min(to.0),
            from.1.min(to.1),
            from.0.max(to.0),
            from.1.max(to.1),
        ));
    }

    /// The finished sketch of a height, with a sentence that says what it shows.
    pub fn finish(self, height: f64, label: &str) -> String {
        let scale = self.scale.map_or_else(String::new, |(zero, unit)| {
            format!(" data-zero=\"{}\" data-unit=\"{}\"", n(zero), n(unit))
        });
        format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {} {}\"{scale} role=\"img\" aria-label=\"{}\" font-family=\"system-ui, 'DejaVu Sans', sans-serif\">{}</svg>",
            n(WIDTH),
            n(height),
            escaped(label),
            self.body
        )
    }
}

/// A number as short as two decimals allow; zero where it is not finite.
fn n(value: f64) -> String {
    if !value.is_finite() {
        return "0".to_owned();
    }
    let text = format!("{value:.2}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    if text == "-0" { "0".to_owned() } else { text.to_owned() }
}

/// Text made safe as XML text and attribute; what XML cannot hold becomes the replacement character.
pub fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\'' => out.push_str("&#39;"),
            '\t' | '\n' | '\r' => out.push(' '),
            '\u{0}'..='\u{1f}' | '\u{7f}'..='\u{9f}' | '\u{fffe}' | '\u{ffff}' => out.push('\u{fffd}'),
            _ => out.push(c),
        }
    }
    out
}

/// Text cut to a number of characters, with a sign that it goes on.
pub fn short(text: &str, most: usize) -> String {
    if text.chars().count() <= most {
        return text.to_owned();
    }
    text.chars()
        .take(most.saturating_sub(1))
        .chain(std::iter::once('…'))
        .collect()
}

/// Width of words in sketch units, by shares of the size that no common screen font exceeds by much.
pub fn width(words: &str) -> f64 {
    let shares: f64 = words
        .chars()
        .map(|c| match c {
            'i' | 'j' | 'l' | 'I' | '.' | ',' | ':' | ';' | '\'' | '|' | '!' | ' ' => 0.33,
            'f' | 't' | 'r' | '-' | '(' | ')' | '/' => 0.42,
            'm' | 'w' | 'M' | 'W' | '…' | '→' | '%' => 0.98,
            'A'..='Z' | '0'..='9' | '×' | '−' => 0.68,
            c if c.is_ascii() => 0.62,
            c if u32::from(c) < 0x2000 => 0.75,
            _ => 1.05,
        })
        .sum();
    shares * SIZE
}

/// A number with some decimals; a dash where it is not a plausible figure.
pub fn plain(value: f64, decimals: usize) -> String {
    if value.is_finite() && value.abs() < 1e7 {
        format!("{value:.decimals$}")
    } else {
        "–".to_owned()
    }
}

/// A length in whole millimetres.
pub fn mm(value_m: f64) -> String {
    let text = plain(value_m * 1000.0, 0);
    if text == "-0" {
        "0".to_owned()
    } else {
        text.replace('-', "−")
    }
}
