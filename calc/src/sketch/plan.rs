//! The support from above: wall, needles, props with their boards, measures both ways. Outside lies at the top.

use super::pen::{Anchor, Look, Pen, SIZE, WIDTH, mm, width};
use super::place::thickness_m;
use super::side::leaf_edges;
use crate::job::Job;
use crate::proposal::{FloorLine, Opt, Prop};

/// Left margin, wide enough for the measures across the wall.
const LEFT: f64 = 56.0;
const RIGHT: f64 = 12.0;
const TALL: f64 = 240.0;
/// How far a needle ends beyond a prop's axis, m; the method's section 7.
const END_M: f64 = 0.15;
/// Side of a prop's plate, m; the method's section 9.
const PLATE_M: f64 = 0.15;
/// Farthest that anything is drawn from the wall, m.
const FAR_M: f64 = 4.0;

/// Metres to sketch units; y in m from the outer face inwards.
struct Scale {
    unit: f64,
    x0: f64,
    from_m: f64,
    to_m: f64,
    y0: f64,
}

impl Scale {
    fn x(&self, x_m: f64) -> f64 {
        self.x0 + (x_m.clamp(self.from_m, self.to_m) - self.from_m) * self.unit
    }

    fn y(&self, y_m: f64) -> f64 {
        self.y0 + y_m.clamp(-FAR_M, FAR_M) * self.unit
    }
}

/// A prop with its place: along the wall and across it, m.
struct Placed<'a> {
    prop: &'a Prop,
    x_m: f64,
    y_m: f64,
}

/// The plan of one option.
#[must_use]
pub fn plan(job: &Job, option: &Opt) -> String {
    let cut_m = job.opening.width_m;
    let thick = thickness_m(job);
    let placed = placed(option);
    let finite = |y: &f64| y.is_finite();
    let rows = placed.iter().map(|one| one.y_m).filter(finite);
    let lines = option.floor_lines.iter().filter_map(|line| line_y_m(line, thick));
    let (mut low, mut high) = (-0.3, thick + 0.3);
    for y in rows.chain(lines) {
        low = y.min(low);
        high = y.max(high);
    }
    let (low, high) = ((low - 0.35).max(-FAR_M), (high + 0.35).min(FAR_M + thick));
    let from_m = -job.opening.left_masonry_m.clamp(0.3, 0.7);
    let to_m = cut_m + job.opening.right_masonry_m.clamp(0.3, 0.7);
    let room = WIDTH - LEFT - RIGHT;
    let unit = (room / (to_m - from_m).max(0.5)).min(TALL / (high - low).max(0.5));
    let scale = Scale {
        unit,
        x0: LEFT + (room - (to_m - from_m) * unit) / 2.0,
        from_m,
        to_m,
        y0: 18.0 - low * unit,
    };
    let mut pen = Pen::default();
    pen.note_scale(scale.x(0.0), unit);
    wall(&mut pen, job, &scale);
    for line in &option.floor_lines {
        header(&mut pen, line, &scale, (cut_m, thick));
    }
    lacing(&mut pen, option, &placed, &scale);
    needles(&mut pen, option, &scale);
    props(&mut pen, option, &placed, &scale);
    across(&mut pen, &placed, &scale, thick);
    pen.words("outside", Anchor::Start, &[(2.0, 12.0)]);
    let end = measures(&mut pen, cut_m, &placed, &scale, scale.y(high) + 6.0);
    pen.finish(end, &label(option, &placed, thick))
}

/// Every prop under a needle or a bracket with its place.
fn placed(option: &Opt) -> Vec<Placed<'_>> {
    let place = |prop: &Prop| {
        if let Some(bracket) = &prop.bracket {
            return Some((bracket.x_m, bracket.y_mm / 1000.0));
        }
        let needle = option.needles.iter().find(|needle| needle.name == prop.needle)?;
        let y_mm = if prop.side == "inside" {
            needle.inside_y_mm
        } else {
            needle.outside_y_mm
        };
        Some((needle.x_m, y_mm / 1000.0))
    };
    let with_place = |prop| place(prop).map(|(x_m, y_m)| Placed { prop, x_m, y_m });
    option.props.iter().filter_map(with_place).collect()
}

/// Axis of a floor's own line, m from the outer face.
fn line_y_m(line: &FloorLine, thick_m: f64) -> Option<f64> {
    line.header.as_ref()?;
    let away = line.distance_mm.filter(|away| away.is_finite())? / 1000.0;
    Some(if line.side == "inside" { thick_m + away } else { -away })
}

/// The leaves, whole beside the opening and broken lines where they are cut.
fn wall(pen: &mut Pen, job: &Job, scale: &Scale) {
    let cut_m = job.opening.width_m;
    for (from, to) in leaf_edges(job) {
        let (high, low) = (scale.y(from), scale.y(to));
        for (a, b) in [(scale.from_m, 0.0), (cut_m, scale.to_m)] {
            pen.rect(Look::Wash, (scale.x(a), high), (scale.x(b), low));
            for y in [high, low] {
                pen.line(Look::Line, (scale.x(a), y), (scale.x(b), y));
            }
            // Joints, so that masonry reads as masonry.
            let mut x = a + 0.1;
            while x < b {
                pen.line(Look::Thin, (scale.x(x), high), (scale.x(x), low));
                x += 0.225;
            }
        }
        for x in [0.0, cut_m] {
            pen.line(Look::Line, (scale.x(x), high), (scale.x(x), low));
        }
        for y in [high, low] {
            pen.line(Look::Cut, (scale.x(0.0), y), (scale.x(cut_m), y));
        }
    }
}

/// The header of a floor's own line, as a strip over the opening.
fn header(pen: &mut Pen, line: &FloorLine, scale: &Scale, (cut_m, thick_m): (f64, f64)) {
    let Some(y_m) = line_y_m(line, thick_m) else { return };
    let half = line.length_m.filter(|long| long.is_finite()).unwrap_or(cut_m).max(0.3) / 2.0;
    let (a, b) = (scale.x(cut_m / 2.0 - half), scale.x(cut_m / 2.0 + half));
    let y = scale.y(y_m);
    let name = format!("F{}-{}", line.floor, if line.side == "inside" { "in" } else { "out" });
    pen.part(&name, |pen| pen.rect(Look::Board, (a, y - 3.0), (b, y + 3.0)));
    pen.keep_clear((a, y - 3.0), (b, y + 3.0));
    pen.words(&name, Anchor::End, &[(b, y - 6.0), (b, y + 15.0)]);
}

/// Lacing along each row of props; nothing is braced against bracket props.
fn lacing(pen: &mut Pen, option: &Opt, placed: &[Placed<'_>], scale: &Scale) {
    if option.bracing.way.is_empty() || option.needles.is_empty() {
        return;
    }
    for side in ["outside", "inside"] {
        let mut row: Vec<&Placed<'_>> = placed.iter().filter(|one| one.prop.side == side).collect();
        row.sort_by(|a, b| a.x_m.total_cmp(&b.x_m));
        for pair in row.windows(2) {
            if let [one, next] = pair {
                let from = (scale.x(one.x_m), scale.y(one.y_m) + 4.0);
                pen.line(Look::ThinBroken, from, (scale.x(next.x_m), scale.y(next.y_m) + 4.0));
            }
        }
    }
}

fn needles(pen: &mut Pen, option: &Opt, scale: &Scale) {
    // As wide as in the front: the name of a section does not give its width everywhere.
    let deep = (option.needle_top_m - option.needle_soffit_m) * scale.unit;
    let half = if deep.is_finite() {
        (deep / 3.0).clamp(3.0, 12.0)
    } else {
        3.0
    };
    for needle in &option.needles {
        let x = scale.x(needle.x_m);
        let ends = (
            scale.y(needle.outside_y_mm / 1000.0 - END_M),
            scale.y(needle.inside_y_mm / 1000.0 + END_M),
        );
        pen.keep_clear((x - half, ends.0), (x + half, ends.1));
        pen.part(&needle.name, |pen| {
            pen.rect(Look::Steel, (x - half, ends.0), (x + half, ends.1));
        });
    }
    for needle in &option.needles {
        let (x, middle) = (scale.x(needle.x_m), scale.y(0.0) - 5.0);
        let right = x + half + 3.0;
        let placed = pen.strong(&needle.name, Anchor::Start, &[(right, middle), (right, middle - SIZE)]);
        // Close needles leave room on one side only.
        if !placed {
            let left = x - half - 3.0;
            pen.strong(&needle.name, Anchor::End, &[(left, middle), (left, middle - SIZE)]);
        }
    }
}

/// Boards, plates and names.
fn props(pen: &mut Pen, option: &Opt, placed: &[Placed<'_>], scale: &Scale) {
    let mut axes: Vec<f64> = placed.iter().map(|one| scale.x(one.x_m)).collect();
    axes.sort_by(f64::total_cmp);
    let between = axes.iter().zip(axes.iter().skip(1)).map(|(a, b)| b - a);
    let gap = between.filter(|gap| *gap > 0.5).fold(f64::INFINITY, f64::min);
    for one in placed {
        let foot = option.feet.iter().find(|foot| foot.prop == one.prop.name);
        let [long, broad, _] = foot.map_or([450.0, 225.0, 38.0], |foot| foot.board_mm);
        let size = |board_mm: f64| (board_mm / 2000.0 * scale.unit).clamp(0.0, 60.0);
        // Boards lie along the wall where neighbours leave room, else across it; the front draws them so too.
        let (along, into) = if 2.0 * size(long) <= gap + 0.5 {
            (size(long), size(broad))
        } else {
            (size(broad), size(long))
        };
        let (x, y) = (scale.x(one.x_m), scale.y(one.y_m));
        let plate = PLATE_M / 2.0 * scale.unit;
        pen.keep_clear((x - along, y - into), (x + along, y + into));
        pen.part(&one.prop.name, |pen| {
            pen.rect(Look::Board, (x - along, y - into), (x + along, y + into));
            pen.rect(Look::Steel, (x - plate, y - plate), (x + plate, y + plate));
        });
    }
    for one in placed {
        let (x, y) = (scale.x(one.x_m), scale.y(one.y_m));
        let away = (END_M * scale.unit).max(12.0);
        let places = if one.prop.side == "inside" {
            [y + away + SIZE, y + away + 2.2 * SIZE, y + away + 3.4 * SIZE]
        } else {
            [y - away - 4.0, y - away - 4.0 - 1.2 * SIZE, y - away - 4.0 - 2.4 * SIZE]
        };
        pen.strong(&one.prop.name, Anchor::Middle, &places.map(|y| (x, y)));
    }
}

/// From the axis outside over both faces to the axis inside, at the left.
fn across(pen: &mut Pen, placed: &[Placed<'_>], scale: &Scale, thick_m: f64) {
    let row = |side: &str| placed.iter().find(|one| one.prop.side == side).map(|one| one.y_m);
    let mut stations = vec![0.0, thick_m];
    stations.extend(row("outside"));
    stations.extend(row("inside"));
    stations.retain(|y| y.is_finite());
    stations.sort_by(f64::total_cmp);
    let x = scale.x(scale.from_m) - 8.0;
    let (Some(first), Some(last)) = (stations.first(), stations.last()) else {
        return;
    };
    pen.line(Look::Dim, (x, scale.y(*first)), (x, scale.y(*last)));
    for y in &stations {
        pen.line(Look::Dim, (x - 4.0, scale.y(*y)), (x + 4.0, scale.y(*y)));
    }
    for pair in stations.windows(2) {
        if let [from, to] = pair
            && to - from > 0.0005
        {
            let middle = f64::midpoint(scale.y(*from), scale.y(*to)) + SIZE / 3.0;
            pen.measure(&mm(to - from), Anchor::End, &[(x - 7.0, middle)]);
        }
    }
}

/// From axis to axis and, under that, running from the left jamb, in mm; gives the lower end of the sketch.
fn measures(pen: &mut Pen, cut_m: f64, placed: &[Placed<'_>], scale: &Scale, from_y: f64) -> f64 {
    let mut stations = vec![0.0, cut_m];
    stations.extend(placed.iter().map(|one| one.x_m).filter(|x| x.is_finite()));
    stations.sort_by(f64::total_cmp);
    stations.dedup_by(|a, b| (*a - *b).abs() < 0.0005);
    let y = from_y + 2.5 * SIZE;
    pen.words("inside", Anchor::Start, &[(2.0, y - 8.0)]);
    pen.line(Look::Dim, (scale.x(0.0), y), (scale.x(cut_m), y));
    for x in &stations {
        pen.line(Look::Dim, (scale.x(*x), y - 4.0), (scale.x(*x), y + 4.0));
    }
    for pair in stations.windows(2) {
        if let [from, to] = pair {
            let (a, b) = (scale.x(*from), scale.x(*to));
            let words = mm(to - from);
            if width(&words) < b - a {
                pen.measure(&words, Anchor::Middle, &[(f64::midpoint(a, b), y + 15.0)]);
            }
        }
    }
    for x in &stations {
        let x_units = scale.x(*x);
        pen.measure(&mm(*x), Anchor::Middle, &[(x_units, y + 30.0), (x_units, y + 43.0)]);
    }
    let last = y + 58.0;
    let said = "mm from axis to axis, and from the left jamb";
    pen.words(said, Anchor::Middle, &[(WIDTH / 2.0, last)]);
    last + 5.0
}

fn label(option: &Opt, placed: &[Placed<'_>], thick_m: f64) -> String {
    let row = |side: &str, face_m: f64| {
        let one = placed.iter().find(|one| one.prop.side == side)?;
        Some(format!(
            "props {side} {} mm from the wall's face",
            mm((one.y_m - face_m).abs())
        ))
    };
    let rows: Vec<String> = [row("outside", 0.0), row("inside", thick_m)]
        .into_iter()
        .flatten()
        .collect();
    let props = if rows.is_empty() {
        "no props".to_owned()
    } else {
        rows.join(", ")
    };
    format!(
        "The support from above, outside at the top: the wall is {} mm thick, {} needles go through it, {props}.",
        mm(thick_m),
        option.needles.len()
    )
}
