//! A card with scales in true size, to lie beside a crack in a photo.

use super::draw::{self, Frame};
use super::fonts::Fonts;
use super::model::Sketch;
use super::sheet::{Area, MARGIN, RUNNING, STRONG, Shape, Sheet};
use super::{ReportError, pictures};
use std::fmt::Write;

/// Points of a page in one millimetre: an inch is 25.4 mm and 72 points.
const POINTS_PER_MM: f32 = 72.0 / 25.4;
/// Size of the drawing, mm.
const CARD_MM: (f32, f32) = (170.0, 138.0);
/// Widths of the lines to hold beside a crack, mm.
const LINES_MM: [f64; 9] = [0.1, 0.2, 0.3, 0.5, 0.75, 1.0, 2.0, 3.0, 5.0];
/// A bank card by ISO/IEC 7810, size ID-1, mm [from memory].
const BANK_CARD_MM: (f64, f64) = (85.6, 53.98);

/// The scale card as a PDF: A4, to be printed at 100 %.
///
/// # Errors
///
/// [`ReportError`] if the writer refuses.
pub fn card_pdf(caution: &str, made_utc_ms: i64) -> Result<Vec<u8>, ReportError> {
    let fonts = Fonts::new()?;
    let card = Sketch {
        title: "Scale card".to_owned(),
        svg: drawing(),
    };
    let drawings = pictures::drawings(std::iter::once(&card), &fonts)?;
    let mut sheet = Sheet::new(&fonts, caution);
    sheet.heading(1, "Scale card");
    sheet.list(&[
        "Print at 100 %, “actual size”, never “fit to page”. On stiff paper it lies flat.",
        "Check it before use: the two crosses are 100 mm apart by a steel rule, or a bank card fills its frame. If not, do not use it.",
        "Hold it flat on the wall, close beside the crack. Take the photo straight on, near enough that the card is a third of the picture at least.",
        "In the photo tap both ends of the black scale, then both edges of the crack.",
    ]);
    let (wide, high) = (CARD_MM.0 * POINTS_PER_MM, CARD_MM.1 * POINTS_PER_MM);
    sheet.need(high + 16.0);
    let area = Area(MARGIN, sheet.y + 8.0, wide, high);
    sheet.figure(
        area,
        "Scales in true size: 100 mm across, 50 mm up, lines of known width, and a bank card's frame",
        |area| Shape::Drawing(area, 0),
    );
    sheet.y += high + 16.0;
    sheet.paragraph(
        "Lines of known width, mm: the one that looks as wide as the crack says its width without a photo.",
        RUNNING,
    );
    sheet.paragraph(
        "A printed line spreads a little on paper: below 0.3 mm trust the photo or a gauge more.",
        STRONG,
    );
    let frame = Frame {
        title: "Upstay scale card",
        head: "Scale card",
        demo: false,
        made_utc_ms,
    };
    draw::write(&sheet, &frame, &[], &drawings)
}

/// The card in millimetres.
fn drawing() -> String {
    let mut body = String::new();
    let mut put = |part: String| body.push_str(&part);
    let word = |x: f64, y: f64, words: &str, anchor: &str| {
        format!("<text x=\"{x}\" y=\"{y}\" font-size=\"3.4\" text-anchor=\"{anchor}\" fill=\"#16242c\">{words}</text>")
    };
    let line =
        |d: &str, width: f64| format!("<path d=\"{d}\" fill=\"none\" stroke=\"#000\" stroke-width=\"{width}\"/>");
    // The check: crosses 100 mm apart, along the top.
    for x in [5.0, 105.0] {
        put(line(&format!("M{} 6H{}M{x} 2V10", x - 4.0, x + 4.0), 0.2));
    }
    put(word(55.0, 7.2, "check: 100 mm from cross to cross", "middle"));
    // The scale of 100 mm: blocks of 10 mm, black and white, with a tick each millimetre.
    put(ruler(5.0, 28.0, 100, false));
    put(word(5.0, 20.0, "0", "middle"));
    put(word(55.0, 20.0, "50", "middle"));
    put(word(105.0, 20.0, "100 mm", "middle"));
    // The scale of 50 mm, upright.
    put(ruler(130.0, 64.0, 50, true));
    put(word(122.0, 65.2, "0", "end"));
    put(word(122.0, 15.2, "50 mm", "end"));
    // Lines of known width.
    for (at, width) in LINES_MM.iter().enumerate() {
        let x = 10.0 + at as f64 * 11.5;
        put(line(&format!("M{x} 42V60"), *width));
        put(word(x, 66.0, &width.to_string(), "middle"));
    }
    let (wide, high) = BANK_CARD_MM;
    put(format!(
        "<rect x=\"5\" y=\"78\" width=\"{wide}\" height=\"{high}\" rx=\"3.2\" fill=\"none\" stroke=\"#000\" stroke-width=\"0.2\"/>"
    ));
    put(word(
        5.0 + wide / 2.0,
        78.0 + high / 2.0,
        "check: a bank card fills this frame",
        "middle",
    ));
    format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{w}\" height=\"{h}\" viewBox=\"0 0 {w} {h}\" font-family=\"sans-serif\" aria-label=\"Scale card\">{body}</svg>",
        w = CARD_MM.0,
        h = CARD_MM.1
    )
}

/// A scale from a place on: blocks of ten millimetres beside single ticks.
fn ruler(x: f64, y: f64, length_mm: u32, up: bool) -> String {
    let mut out = String::new();
    // Along the scale by `a`, to its side by `b`.
    let at = |a: f64, b: f64| if up { (x - b, y - a) } else { (x + a, y - b) };
    for mm in 0..=length_mm {
        let long = match mm {
            mm if mm % 10 == 0 => 6.0,
            mm if mm % 5 == 0 => 4.5,
            _ => 3.0,
        };
        let (x1, y1) = at(f64::from(mm), 0.0);
        let (x2, y2) = at(f64::from(mm), long);
        let _infallible = write!(
            out,
            "<path d=\"M{x1} {y1}L{x2} {y2}\" stroke=\"#000\" stroke-width=\"0.18\"/>"
        );
    }
    for ten in (0..length_mm / 10).map(|ten| f64::from(ten) * 10.0) {
        let corners = [at(ten, 0.0), at(ten + 10.0, 0.0), at(ten + 10.0, -4.0), at(ten, -4.0)];
        let path: Vec<String> = corners.iter().map(|(x, y)| format!("{x} {y}")).collect();
        let fill = if (ten / 10.0) % 2.0 < 1.0 { "#000" } else { "#fff" };
        let _infallible = write!(
            out,
            "<path d=\"M{}Z\" fill=\"{fill}\" stroke=\"#000\" stroke-width=\"0.18\"/>",
            path.join("L")
        );
    }
    out
}

#[cfg(test)]
mod tests {
    #![expect(clippy::unwrap_used, reason = "a test may stop at the first thing that is not there")]

    use super::{CARD_MM, POINTS_PER_MM, card_pdf, drawing};
    use usvg::roxmltree;

    #[test]
    fn the_check_marks_are_100_mm_apart_when_drawn_at_their_size() {
        let svg = drawing();
        let card = roxmltree::Document::parse(&svg).unwrap();
        // One unit of the drawing is one millimetre of the card, so that the page's points make it true.
        let (wide, high) = CARD_MM;
        assert_eq!(
            card.root_element().attribute("viewBox").unwrap(),
            format!("0 0 {wide} {high}")
        );
        let crosses: Vec<f64> = card
            .descendants()
            .filter_map(|part| {
                part.attribute("d")?
                    .strip_suffix(" 2V10")?
                    .rsplit('M')
                    .next()?
                    .parse()
                    .ok()
            })
            .collect();
        let [left, right] = crosses.try_into().unwrap();
        // 72 points and 25.4 mm are an inch.
        let apart_mm = f64::from(POINTS_PER_MM) * (right - left) / 72.0 * 25.4;
        assert!((apart_mm - 100.0).abs() < 0.001, "{apart_mm}");
        assert!(card_pdf("Caution.", 0).unwrap().starts_with(b"%PDF"));
    }
}
