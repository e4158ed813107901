//! The set-out as SVG over the photo: under every dark stroke and word lies a light one, so that it can be read on brick and on
//! plaster alike. Looks are attributes: a picture for the site has no style sheet.

use super::homography::Point;
use super::setout::{Label, Shape, What};
use super::view::Photo;
use crate::sketch::{SIZE, escaped, text_width};
use std::fmt::Write;

const LIGHT: &str = "#fffdf6";
const INK: &str = "#16242c";
const OXIDE: &str = "#8f2a12";
const PENCIL: &str = "#123f68";

/// Class, dark colour, share of the usual width, and dashes in widths.
const fn look(what: What) -> (&'static str, &'static str, f64, Option<[f64; 2]>) {
    match what {
        What::Opening => ("cut", INK, 1.2, Some([6.0, 4.0])),
        What::Needle => ("needle", OXIDE, 1.5, None),
        What::NeedleCentre => ("centre", OXIDE, 0.8, None),
        What::Measure => ("dim", PENCIL, 0.8, None),
        What::LooseTriangle => ("loose", INK, 0.8, Some([2.0, 3.0])),
        What::Forbidden => ("forbidden", OXIDE, 0.8, Some([4.0, 2.0])),
        What::Feet => ("feet", INK, 1.0, Some([10.0, 3.0])),
    }
}

fn path(points: &[Point], closed: bool) -> String {
    let mut d = String::new();
    for [x, y] in points {
        let _ = write!(d, "{}{x:.1} {y:.1}", if d.is_empty() { "M" } else { "L" });
    }
    if closed {
        d.push('Z');
    }
    d
}

/// The first place at or under a label's own where it lies on the photo and over no other words. None: the figure stands in
/// the list of marks as well.
fn free(label: &Label, size: f64, photo: &Photo, taken: &mut Vec<[f64; 4]>) -> Option<Point> {
    let half = text_width(&label.words) * size / SIZE / 2.0;
    let [x, y] = label.at_px;
    let meets = |[a, b, c, d]: [f64; 4], [e, f, g, h]: [f64; 4]| a < g && e < c && b < h && f < d;
    (0..6).find_map(|down| {
        let y = y + f64::from(down) * size * 1.2;
        let extent = [x - half, y - size * 0.6, x + half, y + size * 0.6];
        let [left, top, right, low] = extent;
        let on = left >= 0.0 && top >= 0.0 && right <= photo.width_px && low <= photo.height_px;
        (on && !taken.iter().any(|other| meets(*other, extent))).then(|| {
            taken.push(extent);
            [x, y]
        })
    })
}

/// The overlay, as large as the photo.
pub(super) fn svg(photo: &Photo, shapes: &[Shape], labels: &[Label]) -> String {
    let (width, height) = (photo.width_px, photo.height_px);
    // One unit of the pen is what one point of a phone's screen makes when the photo fills it.
    let unit = width.max(height) / 500.0;
    let mut body = String::new();
    for (under, colour_of) in [(true, LIGHT), (false, "")] {
        for shape in shapes {
            let (class, dark, share, dashes) = look(shape.what);
            let thick = unit * share * if under { 3.2 } else { 1.4 };
            let colour = if under { colour_of } else { dark };
            let dash = match dashes.filter(|_| !under) {
                Some([on, off]) => format!(" stroke-dasharray=\"{:.1} {:.1}\"", on * unit, off * unit),
                None => String::new(),
            };
            let _ = write!(
                body,
                "<path class=\"{class}{}\" fill=\"none\" stroke=\"{colour}\" stroke-width=\"{thick:.1}\" stroke-linejoin=\"round\"{dash} d=\"{}\"/>",
                if under { " under" } else { "" },
                path(&shape.points_px, shape.closed)
            );
        }
    }
    let size = unit * 10.0;
    let mut taken: Vec<[f64; 4]> = Vec::new();
    for label in labels {
        let (class, dark, ..) = look(label.what);
        let Some([x, y]) = free(label, size, photo, &mut taken) else {
            continue;
        };
        let _ = write!(
            body,
            "<text class=\"{class}\" x=\"{x:.1}\" y=\"{:.1}\" font-size=\"{size:.1}\" font-weight=\"600\" text-anchor=\"middle\" fill=\"{dark}\" stroke=\"{LIGHT}\" stroke-width=\"{:.1}\" stroke-linejoin=\"round\" paint-order=\"stroke\">{}</text>",
            y + size * 0.35,
            unit * 4.0,
            escaped(&label.words)
        );
    }
    format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {width} {height}\" role=\"img\" aria-label=\"The set-out drawn on the wall\" font-family=\"system-ui, 'DejaVu Sans', sans-serif\">{body}</svg>"
    )
}
