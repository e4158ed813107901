//! The support from the side: a section through the wall at one needle, outside to the left.

use super::pen::{Anchor, Look, Pen, SIZE, WIDTH, mm, width};
use super::place::{feet_m, roof_bearing_m, thickness_m};
use crate::job::{FootKind, Job, Side};
use crate::proposal::{FloorLine, Opt, Prop};

const TALL: f64 = 300.0;
/// Room at each side for the props' names and lengths.
const ROOM: f64 = 64.0;
/// How far a needle ends beyond a prop's axis, m; the method's section 7.
const END_M: f64 = 0.15;

/// Metres to sketch units; y in m from the outer face inwards.
struct Scale {
    unit: f64,
    x0: f64,
    top_m: f64,
}

impl Scale {
    fn y(&self, y_m: f64) -> f64 {
        self.x0 + y_m * self.unit
    }

    fn z(&self, z_m: f64) -> f64 {
        8.0 + (self.top_m - z_m) * self.unit
    }
}

/// The section at the first needle of one option.
#[must_use]
pub fn side(job: &Job, option: &Opt) -> String {
    let thick = thickness_m(job);
    let needle = option.needles.first();
    // Bracket props have a place of their own on each side.
    let on_bracket = |side: &str| {
        let prop = option.props.iter().find(|prop| prop.side == side)?;
        Some(prop.bracket.as_ref()?.y_mm / 1000.0)
    };
    let outside = needle
        .map(|needle| needle.outside_y_mm / 1000.0)
        .or_else(|| on_bracket("outside"))
        .unwrap_or(-0.45)
        .min(-0.06);
    let inside = needle
        .map(|needle| needle.inside_y_mm / 1000.0)
        .or_else(|| on_bracket("inside"))
        .unwrap_or(thick + 0.45)
        .max(thick + 0.06);
    let grounds = [job.sides.outside.foot_level_m, job.sides.inside.foot_level_m];
    let low = grounds[0].min(grounds[1]);
    let top_m =
        (option.needle_top_m.max(job.opening.head_m) + 0.9).min(roof_bearing_m(job).max(option.needle_top_m + 0.2));
    let unit = ((WIDTH - 2.0 * ROOM) / (inside - outside + 2.0 * END_M).max(0.5)).min(TALL / (top_m - low).max(0.5));
    let x0 = WIDTH / 2.0 - f64::midpoint(outside, inside) * unit;
    let scale = Scale { unit, x0, top_m };
    let mut pen = Pen::default();

    wall(&mut pen, job, &scale, thick);
    ground(&mut pen, &job.sides.outside, &scale, 2.0, scale.y(0.0));
    ground(&mut pen, &job.sides.inside, &scale, scale.y(thick), WIDTH - 2.0);
    let prop = |at: &str| {
        option
            .props
            .iter()
            .find(|prop| prop.side == at && needle.is_none_or(|needle| prop.needle == needle.name))
    };
    if let Some(needle) = needle {
        let (top, soffit) = (scale.z(option.needle_top_m), scale.z(option.needle_soffit_m));
        let ends = (
            scale.y(needle.outside_y_mm / 1000.0 - END_M),
            scale.y(needle.inside_y_mm / 1000.0 + END_M),
        );
        pen.part(&needle.name, |pen| {
            pen.rect(Look::Steel, (ends.0, top), (ends.1, soffit.max(top + 4.0)));
        });
        if needle.pack_mm > 0.0 {
            // Packs stand under each leaf.
            for (from, to) in leaf_edges(job) {
                pen.rect(
                    Look::Board,
                    (scale.y(from), top - (needle.pack_mm / 1000.0 * scale.unit).max(2.0)),
                    (scale.y(to), top),
                );
            }
        }
        pen.strong(&needle.name, Anchor::End, &[(scale.y(0.0) - 6.0, top - 5.0)]);
    }
    for (at, y_m, side, end) in [
        ("outside", outside, &job.sides.outside, true),
        ("inside", inside, &job.sides.inside, false),
    ] {
        if let Some(found) = prop(at) {
            if found.bracket.is_some() {
                bracket(&mut pen, job, option, &scale, y_m);
            }
            // Its length is written beyond a floor's own line where one stands on that side.
            let lines = option
                .floor_lines
                .iter()
                .filter(|line| line.header.is_some() && line.side == at);
            let beyond = lines.filter_map(|line| line.distance_mm).fold(0.0, f64::max) / 1000.0;
            let clear = if at == "inside" { thick + beyond } else { -beyond };
            self::prop(
                &mut pen,
                option,
                found,
                &scale,
                (y_m, side.foot_level_m),
                (end, scale.y(clear)),
            );
        }
    }
    for line in &option.floor_lines {
        floor_line(&mut pen, job, option, line, &scale, thick);
    }
    let base = scale.z(low) + 14.0;
    // Brackets may stand on one side only: then nothing is measured on the other.
    let alone = |side: &str| needle.is_none() && on_bracket(side).is_none() && !option.props.is_empty();
    let stations = [
        if alone("outside") { 0.0 } else { outside },
        0.0,
        thick,
        if alone("inside") { thick } else { inside },
    ];
    let end = measures(&mut pen, &scale, stations, base);
    pen.finish(end, &label(job, option, thick))
}

/// A bracket: its arm from the prop's head to under the leaf next to it.
fn bracket(pen: &mut Pen, job: &Job, option: &Opt, scale: &Scale, y_m: f64) {
    let edges = leaf_edges(job);
    let leaf = if y_m < 0.0 { edges.first() } else { edges.last() };
    let Some((from, to)) = leaf else { return };
    let (near, far) = if y_m < 0.0 { (y_m, *to) } else { (*from, y_m) };
    let soffit = scale.z(option.needle_soffit_m);
    pen.rect(Look::Steel, (scale.y(near), soffit - 2.0), (scale.y(far), soffit + 2.0));
}

/// Outer and inner face of each leaf, m from the outer face.
pub(super) fn leaf_edges(job: &Job) -> Vec<(f64, f64)> {
    let mut at = 0.0;
    job.wall
        .leaves
        .iter()
        .map(|leaf| {
            let from = at;
            at += (leaf.thickness_mm + job.wall.cavity_mm) / 1000.0;
            (from, from + leaf.thickness_mm / 1000.0)
        })
        .collect()
}

fn wall(pen: &mut Pen, job: &Job, scale: &Scale, thick: f64) {
    let head = scale.z(job.opening.head_m);
    let top = scale.z(roof_bearing_m(job).min(scale.top_m));
    for (from, to) in leaf_edges(job) {
        let (a, b) = (scale.y(from), scale.y(to));
        pen.rect(Look::Wash, (a, top), (b, head));
        for x in [a, b] {
            pen.line(Look::Line, (x, top), (x, head));
        }
        // Bed joints, so that masonry reads as masonry.
        let mut z = job.opening.head_m + 0.225;
        while scale.z(z) > top {
            pen.line(Look::Thin, (a, scale.z(z)), (b, scale.z(z)));
            z += 0.225;
        }
    }
    // What is cut away below.
    let low = scale.z(job.sides.inside.foot_level_m.max(job.sides.outside.foot_level_m));
    pen.path(
        Look::Cut,
        &[
            (scale.y(0.0), low),
            (scale.y(0.0), head),
            (scale.y(thick), head),
            (scale.y(thick), low),
        ],
        false,
    );
    let middle = scale.y(thick / 2.0);
    if width("cut") < (thick - 0.03) * scale.unit {
        pen.words("cut", Anchor::Middle, &[(middle, f64::midpoint(head, low))]);
    }
    let beam = (job.opening.beam_depth_mm / 1000.0 * scale.unit).max(0.0);
    if !job.opening.flush && beam > 0.0 {
        pen.rect(
            Look::ThinBroken,
            (scale.y(0.02), head - beam),
            (scale.y(thick - 0.02), head),
        );
    }
    for (storey, level) in job.above.iter().zip(feet_m(job)) {
        if let Some(floor) = storey
            .floor
            .as_ref()
            .filter(|floor| level + floor.joist_depth_m < scale.top_m)
        {
            let (high, bearing) = (scale.z(level + floor.joist_depth_m), scale.z(level));
            if floor.inside_span_m > 0.0 {
                pen.rect(Look::Thin, (scale.y(thick) - 3.0, high), (WIDTH - 2.0, bearing));
                pen.words("floor", Anchor::End, &[(WIDTH - 6.0, high - 4.0)]);
            }
            if floor.outside_span_m > 0.0 {
                pen.rect(Look::Thin, (2.0, high), (scale.y(0.0) + 3.0, bearing));
            }
        }
    }
}

/// The ground line of a side with what lies under it.
fn ground(pen: &mut Pen, side: &Side, scale: &Scale, from: f64, to: f64) {
    let y = scale.z(side.foot_level_m);
    pen.line(Look::Line, (from, y), (to, y));
    let slab = side.foot.thickness_mm / 1000.0 * scale.unit;
    if matches!(
        side.foot.kind,
        FootKind::SlabOnGround | FootKind::SuspendedSlab | FootKind::Paving
    ) && slab > 1.0
    {
        pen.line(Look::Thin, (from, y + slab.min(12.0)), (to, y + slab.min(12.0)));
    } else {
        let mut x = from + 4.0;
        while x < to - 4.0 {
            pen.line(Look::Thin, (x, y + 1.0), (x - 4.0, y + 6.0));
            x += 9.0;
        }
    }
}

/// A prop with its board, its name and its length; `place` is its axis and its ground, m; its length is written to the left
/// or right of it and of `clear`.
fn prop(pen: &mut Pen, option: &Opt, prop: &Prop, scale: &Scale, place: (f64, f64), (at_left, clear): (bool, f64)) {
    let (x, floor) = (scale.y(place.0), scale.z(place.1));
    let foot = option.feet.iter().find(|foot| foot.prop == prop.name);
    let [_, broad, thick] = foot.map_or([450.0, 225.0, 38.0], |foot| foot.board_mm);
    let (half, deep) = (
        (broad / 2000.0 * scale.unit).max(7.0),
        (thick / 1000.0 * scale.unit).max(4.0),
    );
    let soffit = scale.z(option.needle_soffit_m);
    pen.part(&prop.name, |pen| {
        pen.line(Look::SteelLine, (x, soffit), (x, floor - deep));
        pen.line(Look::Line, (x - 7.0, soffit + 0.75), (x + 7.0, soffit + 0.75));
        pen.line(Look::Line, (x - 7.0, floor - deep), (x + 7.0, floor - deep));
        pen.rect(Look::Board, (x - half, floor - deep), (x + half, floor));
    });
    let (line, anchor, gap) = if at_left {
        (x.min(clear) - 14.0, Anchor::End, -5.0)
    } else {
        (x.max(clear) + 14.0, Anchor::Start, 5.0)
    };
    pen.line(Look::Dim, (line, soffit), (line, floor - deep));
    for y in [soffit, floor - deep] {
        pen.line(Look::Dim, (line - 4.0, y), (line + 4.0, y));
    }
    let middle = f64::midpoint(soffit, floor);
    pen.strong(
        &prop.name,
        anchor,
        &[(line + gap, middle - 12.0), (line + gap, middle - 30.0)],
    );
    pen.measure(
        &mm(prop.length_m),
        anchor,
        &[(line + gap, middle + 4.0), (line + gap, middle + 22.0)],
    );
    let level = format!("ground {}", mm(place.1));
    let edge = if at_left {
        (4.0, Anchor::Start)
    } else {
        (WIDTH - 4.0, Anchor::End)
    };
    pen.measure(&level, edge.1, &[(edge.0, floor - 4.0), (edge.0, floor - 18.0)]);
}

/// A floor's own line: its header under the joists and its prop, where the sketch has room for it.
fn floor_line(pen: &mut Pen, job: &Job, option: &Opt, line: &FloorLine, scale: &Scale, thick: f64) {
    let inside = line.side == "inside";
    let side = if inside { &job.sides.inside } else { &job.sides.outside };
    let level = feet_m(job).into_iter().nth((line.floor as usize).saturating_sub(1));
    let (Some(distance), Some(prop), Some(level)) = (line.distance_mm, line.props.first(), level) else {
        return;
    };
    let away = distance / 1000.0;
    let x = scale.y(if inside { thick + away } else { -away });
    if line.header.is_none() || level > scale.top_m || !(8.0..=WIDTH - 8.0).contains(&x) {
        return;
    }
    let deep = line
        .feet
        .first()
        .map_or(0.038, |foot| foot.board_mm.last().copied().unwrap_or(38.0) / 1000.0);
    let floor = scale.z(side.foot_level_m);
    // A line that passes floors is drawn from its lowest foot up; its header's depth is what is left.
    let depth = if line.props.len() == line.feet.len() {
        level - side.foot_level_m - deep - prop.length_m
    } else {
        0.1
    };
    let (top, soffit) = (scale.z(level), scale.z(level - depth.max(0.05)));
    let half = (0.05 * scale.unit).max(4.0);
    pen.rect(Look::Board, (x - half, top), (x + half, soffit.max(top + 4.0)));
    let foot = (deep * scale.unit).max(4.0);
    pen.line(Look::SteelLine, (x, soffit.max(top + 4.0)), (x, floor - foot));
    pen.rect(Look::Board, (x - 7.0, floor - foot), (x + 7.0, floor));
    let name = format!("F{}-{}", line.floor, if inside { "in" } else { "out" });
    let middle = f64::midpoint(floor, scale.z(option.needle_soffit_m));
    // Beyond the line that shows the needle's prop's length.
    let (anchor, gap) = if inside {
        (Anchor::Start, 19.0)
    } else {
        (Anchor::End, -19.0)
    };
    pen.strong(
        &name,
        anchor,
        &[
            (x + gap, middle + 40.0),
            (x + gap, middle + 60.0),
            (x + gap, middle - 40.0),
        ],
    );
}

fn measures(pen: &mut Pen, scale: &Scale, stations: [f64; 4], y: f64) -> f64 {
    let [first, .., last] = stations;
    pen.line(Look::Dim, (scale.y(first), y), (scale.y(last), y));
    for station in stations {
        pen.line(Look::Dim, (scale.y(station), y - 4.0), (scale.y(station), y + 4.0));
    }
    for pair in stations.windows(2) {
        if let [from, to] = pair
            && to - from > 0.0005
        {
            let middle = f64::midpoint(scale.y(*from), scale.y(*to));
            pen.measure(
                &mm(to - from),
                Anchor::Middle,
                &[(middle, y + 15.0), (middle, y + 17.0 + SIZE)],
            );
        }
    }
    let end = y + 17.0 + 2.0 * SIZE;
    pen.words("outside", Anchor::Start, &[(6.0, end)]);
    pen.words("inside", Anchor::End, &[(WIDTH - 6.0, end)]);
    pen.words("mm", Anchor::Middle, &[(WIDTH / 2.0, end + 2.0)]);
    end + 8.0
}

fn label(job: &Job, option: &Opt, thick_m: f64) -> String {
    if let Some(first) = option.props.iter().find(|prop| prop.bracket.is_some()) {
        let place = first.name.split('-').next().unwrap_or(&first.name);
        let props: Vec<String> = option
            .props
            .iter()
            .filter(|prop| prop.name.split('-').next() == Some(place))
            .map(|prop| format!("{} {} mm long", prop.name, mm(prop.length_m)))
            .collect();
        return format!(
            "A section through the wall at brackets {place}: the wall is {} mm thick, each leaf stands on a bracket beside its prop, {}; the ground lies at {} mm outside and {} mm inside.",
            mm(thick_m),
            props.join(" and "),
            mm(job.sides.outside.foot_level_m),
            mm(job.sides.inside.foot_level_m)
        );
    }
    let Some(needle) = option.needles.first() else {
        return format!(
            "A section through the wall, {} mm thick; this option has no needles.",
            mm(thick_m)
        );
    };
    let props: Vec<String> = option
        .props
        .iter()
        .filter(|prop| prop.needle == needle.name)
        .map(|prop| format!("{} {} mm long", prop.name, mm(prop.length_m)))
        .collect();
    format!(
        "A section through the wall at needle {}: the wall is {} mm thick, the needle goes through it on props {}; the ground lies at {} mm outside and {} mm inside.",
        needle.name,
        mm(thick_m),
        props.join(" and "),
        mm(job.sides.outside.foot_level_m),
        mm(job.sides.inside.foot_level_m)
    )
}
