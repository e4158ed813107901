//! The support from the front, seen from inside: needles, props, feet, bracing, loose triangles, measures.

use super::pen::{Anchor, Look, Pen, SIZE, WIDTH, mm, short};
use super::place::{feet_m, roof_bearing_m};
use crate::job::Job;
use crate::proposal::Opt;

/// Left margin, wide enough for an upright measure.
const LEFT: f64 = 48.0;
const RIGHT: f64 = 12.0;
const TALL: f64 = 300.0;
/// Width of a bracket's plate as drawn, m.
const PLATE_M: f64 = 0.15;

/// Metres to sketch units.
struct Scale {
    unit: f64,
    from_m: f64,
    to_m: f64,
    x0: f64,
    top_m: f64,
}

impl Scale {
    fn x(&self, x_m: f64) -> f64 {
        self.x0 + (x_m.clamp(self.from_m, self.to_m) - self.from_m) * self.unit
    }

    fn z(&self, z_m: f64) -> f64 {
        8.0 + (self.top_m - z_m.min(self.top_m)) * self.unit
    }
}

/// The front of one option.
#[must_use]
pub fn front(job: &Job, option: &Opt) -> String {
    let width = job.opening.width_m;
    let from_m = -job.opening.left_masonry_m.clamp(0.3, 0.7);
    let to_m = width + job.opening.right_masonry_m.clamp(0.3, 0.7);
    let ground = job.sides.inside.foot_level_m;
    let wall_top = roof_bearing_m(job);
    let over = option.needle_top_m.max(job.opening.head_m);
    let top_m = (over + above_m(job, over)).min(wall_top.max(over + 0.3));
    let low = ground.min(0.0);
    let unit = ((WIDTH - LEFT - RIGHT) / (to_m - from_m).max(0.5)).min(TALL / (top_m - low).max(0.5));
    let x0 = LEFT + (WIDTH - LEFT - RIGHT - (to_m - from_m) * unit) / 2.0;
    let scale = Scale {
        unit,
        from_m,
        to_m,
        x0,
        top_m,
    };
    let mut pen = Pen::default();
    pen.note_scale(scale.x(0.0), unit);
    wall(&mut pen, job, &scale, wall_top);
    let floor = scale.z(ground);
    pen.line(Look::Line, (2.0, floor), (WIDTH - 2.0, floor));
    let (a, b) = (scale.x(0.0), scale.x(width));
    pen.path(
        Look::Cut,
        &[
            (a, floor),
            (a, scale.z(job.opening.head_m)),
            (b, scale.z(job.opening.head_m)),
            (b, floor),
        ],
        false,
    );
    needles(&mut pen, option, &scale);
    forbidden(&mut pen, job, option, &scale);
    props(&mut pen, option, &scale, floor);
    upright(&mut pen, option, &scale, floor);
    let end = measures(&mut pen, width, option, &scale, floor);
    pen.finish(end, &label(job, option))
}

/// Places along the wall where something carries, with their names: needles, else brackets.
fn stations(option: &Opt) -> Vec<(f64, String)> {
    if !option.needles.is_empty() {
        let of = |needle: &crate::proposal::Needle| (needle.x_m, needle.name.clone());
        return option.needles.iter().map(of).collect();
    }
    let mut out: Vec<(f64, String)> = Vec::new();
    for prop in &option.props {
        let Some(bracket) = &prop.bracket else { continue };
        if out.iter().all(|(x, _)| (x - bracket.x_m).abs() > 0.0005) {
            // Both leaves' brackets stand at one place: B1-in and B1-out are shown as B1.
            let name = prop.name.split('-').next().unwrap_or(&prop.name);
            out.push((bracket.x_m, name.to_owned()));
        }
    }
    out.sort_by(|a, b| a.0.total_cmp(&b.0));
    out
}

/// How much wall to show over the needles, m: enough to see the foot of the openings above, where they are near.
fn above_m(job: &Job, over_m: f64) -> f64 {
    let floors = job.above.iter().zip(feet_m(job));
    let sills = floors.flat_map(|(storey, level)| {
        let depth = storey.floor.as_ref().map_or(0.0, |floor| floor.joist_depth_m);
        storey
            .openings
            .iter()
            .map(move |opening| level + depth + opening.sill_m)
    });
    let nearest = sills.filter(|sill| *sill > over_m).fold(f64::INFINITY, f64::min);
    if nearest - over_m < 1.7 {
        nearest - over_m + 0.35
    } else {
        1.1
    }
}

fn wall(pen: &mut Pen, job: &Job, scale: &Scale, wall_top: f64) {
    let (left, right) = (scale.x(scale.from_m), scale.x(scale.to_m));
    let (top, head) = (scale.z(wall_top), scale.z(job.opening.head_m));
    pen.rect(Look::Wash, (left, top), (right, head));
    for x in [left, right] {
        pen.line(Look::Line, (x, top), (x, scale.z(job.sides.inside.foot_level_m)));
    }
    if wall_top <= scale.top_m {
        pen.line(Look::Line, (left, top), (right, top));
    }
    for (storey, level) in job.above.iter().zip(feet_m(job)) {
        let depth = storey.floor.as_ref().map_or(0.0, |floor| floor.joist_depth_m);
        if storey.floor.is_some() && level < scale.top_m {
            for z in [level, level + depth] {
                pen.line(Look::Thin, (left, scale.z(z)), (right, scale.z(z)));
            }
        }
        for opening in &storey.openings {
            let sill = level + depth + opening.sill_m;
            let (a, b) = (scale.x(opening.x_m), scale.x(opening.x_m + opening.width_m));
            let (low, high) = (scale.z(sill), scale.z(sill + opening.height_m));
            if b - a > 1.0 && low - high > 1.0 {
                pen.rect(Look::Board, (a, high), (b, low));
            }
        }
    }
}

/// Stretches where no hole may be cut: hatched at needle height, with the reason.
fn forbidden(pen: &mut Pen, job: &Job, option: &Opt, scale: &Scale) {
    for stretch in &job.forbidden {
        let (a, b) = (scale.x(stretch.from_m), scale.x(stretch.to_m));
        let (high, low) = (
            scale.z(option.needle_top_m + 0.12),
            scale.z(option.needle_soffit_m - 0.12),
        );
        if b - a < 0.5 {
            continue;
        }
        pen.rect(Look::ThinBroken, (a, high), (b, low));
        let mut x = a;
        while x < b {
            pen.line(Look::Thin, (x, low), ((x + (low - high) * 0.5).min(b), high));
            x += 5.0;
        }
        let middle = f64::midpoint(a, b);
        pen.words(
            &short(&stretch.why, 14),
            Anchor::Middle,
            &[(middle, high - 4.0), (middle, high - 18.0), (middle, high - 32.0)],
        );
    }
}

fn needles(pen: &mut Pen, option: &Opt, scale: &Scale) {
    let (top, soffit) = (scale.z(option.needle_top_m), scale.z(option.needle_soffit_m));
    // The section's name does not give its width everywhere: a needle is drawn two thirds as wide as high, never a hair.
    // A bracket shows its plate alone.
    let half = if option.needles.is_empty() {
        (PLATE_M / 2.0 * scale.unit).max(3.0)
    } else {
        ((soffit - top) / 3.0).max(3.0)
    };
    let stations = stations(option);
    for pair in stations.windows(2) {
        let [(one, _), (next, _)] = pair else { continue };
        let (from, to) = (scale.x(*one) + half, scale.x(*next) - half);
        if to > from {
            // The loose triangle rises half the clear gap; it falls or is taken down.
            let apex = (top - (to - from) / 2.0).max(8.0);
            pen.path(
                Look::Thin,
                &[(from, top), (f64::midpoint(from, to), apex), (to, top)],
                false,
            );
        }
    }
    for (x_m, name) in &stations {
        let x = scale.x(*x_m);
        pen.keep_clear((x - half, top), (x + half, soffit));
        pen.part(name, |pen| {
            pen.rect(Look::Steel, (x - half, top), (x + half, soffit.max(top + 4.0)));
            pen.strong(
                name,
                Anchor::Middle,
                &[(x, top - 5.0), (x, top - 5.0 - SIZE), (x, top - 5.0 - 2.0 * SIZE)],
            );
        });
    }
}

fn props(pen: &mut Pen, option: &Opt, scale: &Scale, floor: f64) {
    let soffit = scale.z(option.needle_soffit_m);
    let of_needle = |needle: &crate::proposal::Needle| {
        let prop = option
            .props
            .iter()
            .find(|prop| prop.needle == needle.name && prop.side == "inside")?;
        Some((scale.x(needle.x_m), prop.name.as_str()))
    };
    let mut inside: Vec<(f64, &str)> = option.needles.iter().filter_map(of_needle).collect();
    let on_brackets = option.needles.is_empty();
    if on_brackets {
        // Brackets may stand outside only.
        let side = option
            .props
            .iter()
            .find(|prop| prop.side == "inside")
            .or(option.props.first());
        let side = side.map_or("inside", |prop| prop.side.as_str());
        let props = option.props.iter().filter(|prop| prop.side == side);
        inside = props
            .filter_map(|prop| Some((scale.x(prop.bracket.as_ref()?.x_m), prop.name.as_str())))
            .collect();
    }
    let gap = inside
        .windows(2)
        .filter_map(|pair| Some(pair.last()?.0 - pair.first()?.0))
        .fold(f64::INFINITY, f64::min);
    // Nothing is braced against bracket props.
    if !option.bracing.way.is_empty() && !on_brackets {
        for (index, pair) in inside.windows(2).enumerate() {
            if let [one, next] = pair {
                let (high, low) = (soffit + 14.0, floor - 16.0);
                let (from, to) = if index % 2 == 0 { (low, high) } else { (high, low) };
                pen.line(Look::ThinBroken, (one.0, from), (next.0, to));
            }
        }
    }
    for (x, _) in &inside {
        pen.keep_clear((x - 3.0, soffit), (x + 3.0, floor));
    }
    let last = inside.last().map(|(x, _)| *x);
    let many = inside.len() > 1;
    for (x, name) in inside {
        let foot = option.feet.iter().find(|foot| foot.prop == name);
        let [long, broad, thick] = foot.map_or([450.0, 225.0, 38.0], |foot| foot.board_mm);
        // Boards are drawn the long way where neighbours leave room, else the narrow way.
        let long = if long / 1000.0 * scale.unit <= gap + 0.5 {
            long
        } else {
            broad.min(long)
        };
        let (half, deep) = (long / 2000.0 * scale.unit, (thick / 1000.0 * scale.unit).max(4.0));
        let middle = f64::midpoint(soffit, floor);
        pen.part(name, |pen| {
            pen.line(Look::SteelLine, (x, soffit), (x, floor - deep));
            pen.line(Look::Line, (x - 5.0, floor - deep), (x + 5.0, floor - deep));
            pen.line(Look::Line, (x - 5.0, soffit + 0.75), (x + 5.0, soffit + 0.75));
            pen.rect(Look::Board, (x - half, floor - deep), (x + half, floor));
            // Beside its prop, or lower where a neighbour's name stands already.
            let places = [0.0, 1.2 * SIZE, 2.4 * SIZE, -1.2 * SIZE, -2.4 * SIZE];
            // The last one's name stands at its left, clear of the jamb.
            if many && Some(x) == last {
                pen.words(name, Anchor::End, &places.map(|lower| (x - 6.0, middle + lower)));
            } else {
                pen.words(name, Anchor::Start, &places.map(|lower| (x + 6.0, middle + lower)));
            }
        });
    }
}

/// The needles' underside over the ground inside, as an upright measure at the left.
fn upright(pen: &mut Pen, option: &Opt, scale: &Scale, floor: f64) {
    let (x, soffit) = (scale.x(scale.from_m) - 18.0, scale.z(option.needle_soffit_m));
    pen.line(Look::Dim, (x, soffit), (x, floor));
    for y in [soffit, floor] {
        pen.line(Look::Dim, (x - 4.0, y), (x + 4.0, y));
    }
    let ground_m = scale.top_m - (floor - 8.0) / scale.unit;
    pen.measure(
        &mm(option.needle_soffit_m - ground_m),
        Anchor::Middle,
        &[(x, soffit - 6.0)],
    );
}

/// Distances from axis to axis and, under them, running from the left jamb, in mm; gives the lower end of the sketch.
fn measures(pen: &mut Pen, width_m: f64, option: &Opt, scale: &Scale, floor: f64) -> f64 {
    let mut stations = vec![0.0];
    stations.extend(self::stations(option).into_iter().map(|(x, _)| x));
    stations.push(width_m);
    stations.sort_by(f64::total_cmp);
    let y = floor + 10.0;
    pen.line(Look::Dim, (scale.x(0.0), y), (scale.x(width_m), y));
    for x in &stations {
        pen.line(Look::Dim, (scale.x(*x), y - 4.0), (scale.x(*x), y + 4.0));
    }
    let (first, second, third) = (y + 15.0, y + 30.0, y + 43.0);
    for pair in stations.windows(2) {
        if let [from, to] = pair {
            let middle = f64::midpoint(scale.x(*from), scale.x(*to));
            if to - from > 0.0005 && super::pen::width(&mm(to - from)) < (scale.x(*to) - scale.x(*from)) {
                pen.measure(&mm(to - from), Anchor::Middle, &[(middle, first)]);
            }
        }
    }
    let mut last = None;
    for x in &stations {
        // A needle on the jamb line would print the same figure twice.
        if last.is_some_and(|last: f64| (x - last).abs() < 0.0005) {
            continue;
        }
        last = Some(*x);
        pen.measure(&mm(*x), Anchor::Middle, &[(scale.x(*x), second), (scale.x(*x), third)]);
    }
    pen.words(
        "mm from axis to axis, and from the left jamb",
        Anchor::Middle,
        &[(WIDTH / 2.0, third + 15.0)],
    );
    third + 20.0
}

fn label(job: &Job, option: &Opt) -> String {
    let names: Vec<String> = stations(option)
        .iter()
        .map(|(x, name)| format!("{name} at {} mm", mm(*x)))
        .collect();
    let under = if option.needles.is_empty() && !names.is_empty() {
        "brackets'"
    } else {
        "needles'"
    };
    let place = if names.is_empty() {
        "no needles".to_owned()
    } else {
        names.join(", ")
    };
    format!(
        "The wall from inside with the opening {} mm wide, {} props and {place} from the left jamb; the {under} underside is {} mm over the inside floor.",
        mm(job.opening.width_m),
        option.props.len(),
        mm(option.needle_soffit_m)
    )
}
