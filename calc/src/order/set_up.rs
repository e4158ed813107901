//! Parts on site, first photos, struts, setting out, floors, boards.

use super::say::{kn, list, m, member, prop_kind, short, span};
use super::{Group, OWN, OrderStep, Site, lift, step};
use crate::job::{CarriedDown, FootKind, Side};
use crate::layout::HOLE_ROOM_MM;
use crate::proposal::{FloorLine, Foot, Opt, Prop};
use crate::source::{Seen, Source};

const THATCHER: Source = Source::new(
    "Thatcher, scaffolding (old trade book)",
    "openings strutted before needling",
    Seen::Secondary("a summary"),
);
const GAUGES: Source = Source::new(
    "BRE Digest 343",
    "crack gauges read to 0.1 mm",
    Seen::Secondary("a summary"),
);
/// How far beside the cut an opening is strutted, m. Own judgement.
const BESIDE_M: f64 = 1.0;
/// Names of needles that one step holds.
const NAMES_A_STEP: usize = 8;

/// Before the first hole, with parts on site.
pub fn before(site: &Site<'_>, option: &Opt) -> Vec<OrderStep> {
    let needles = option.needles.len();
    let mass = option
        .parts
        .iter()
        .find(|part| part.what.starts_with("needle"))
        .map_or_else(String::new, |part| {
            format!(" One needle weighs {:.0} kg.", part.mass_kg.ceil())
        });
    let mut out = vec![step(
        Group::Before,
        "parts",
        format!(
            "On site and counted: {} needles and {} props, one of each spare, spare packs and wedges, boards, braces, fixings.{mass} Missing one part: no first hole.",
            needles + 1,
            option.props.len() + 1
        ),
    )];
    out.extend(whatever_stands(site));
    out
}

/// Before the first hole or slot, whatever the wall will stand on: props in hand, beam on site, start values, what stands
/// above, openings near the cut.
pub fn whatever_stands(site: &Site<'_>) -> Vec<OrderStep> {
    let mut out = vec![
        step(
            Group::Before,
            "looked_at",
            "Every prop in hand: the right pin, never a bar; pin holes not worn; tube straight, no dent; plates flat; collar runs by hand. Any other goes back.",
        )
        .with_photo(),
        lift::on_site(site),
        step(
            Group::Before,
            "first_readings",
            "Photograph the wall, cracks, doors and windows. Mark the crack ends with dates, fix gauges, read them to 0.1 mm: the start values.",
        )
        .with_photo()
        .sourced(GAUGES),
    ];
    out.extend(loads_above(site));
    out.extend(strutted(site));
    out
}

/// Storeys whose weight is counted without furniture and stores.
fn loads_above(site: &Site<'_>) -> Option<OrderStep> {
    let empty: Vec<String> = site
        .job
        .above
        .iter()
        .enumerate()
        .filter(|(_, storey)| storey.floor.as_ref().is_some_and(|floor| floor.empty))
        .map(|(i, _)| format!("{}", i + 1))
        .collect();
    (!empty.is_empty()).then(|| {
        step(
            Group::Before,
            "loads_above",
            format!(
                "Storey {} above is counted as kept empty: furniture and stores go out before the first hole and stay out. No materials, no rubble on the floors.",
                list(&empty)
            ),
        )
        .sourced(OWN)
    })
}

/// Openings above and beside the cut, strutted before the first hole.
fn strutted(site: &Site<'_>) -> Option<OrderStep> {
    let near = |from: f64, width: f64| {
        from < site.geometry.cut_right_m + BESIDE_M && from + width > site.geometry.cut_left_m - BESIDE_M
    };
    let mut named: Vec<String> = Vec::new();
    for (i, storey) in site.job.above.iter().enumerate() {
        for o in storey.openings.iter().filter(|o| near(o.x_m, o.width_m)) {
            named.push(format!("storey {} at {} m, {} m wide", i + 1, m(o.x_m), m(o.width_m)));
        }
    }
    for o in site
        .job
        .wall
        .openings
        .iter()
        .filter(|o| o.stays && near(o.x_m, o.width_m))
    {
        named.push(format!("beside at {} m, {} m wide", m(o.x_m), m(o.width_m)));
    }
    if named.is_empty() {
        return None;
    }
    let more = named.len().saturating_sub(3);
    named.truncate(3);
    if more > 0 {
        named.push(format!("{more} more"));
    }
    Some(
        step(
            Group::Before,
            "openings_strutted",
            format!(
                "Strut openings first, side to side and under the head: {}. Struts stay until the props are out.",
                list(&named)
            ),
        )
        .with_photo()
        .sourced(THATCHER),
    )
}

/// Setting out, floors on their own lines, boards.
pub fn set_up(site: &Site<'_>, option: &Opt) -> Vec<OrderStep> {
    let mut out = set_out(site, option);
    out.extend(option.floor_lines.iter().filter(|line| line.needed).map(floor_line));
    out.extend(feet(site, option));
    out
}

/// Ground of each side where props stand, and their boards.
pub fn feet(site: &Site<'_>, option: &Opt) -> Vec<OrderStep> {
    let mut out = Vec::new();
    for (side, input) in [("inside", &site.job.sides.inside), ("outside", &site.job.sides.outside)] {
        if option.props.iter().any(|prop| prop.side == side) {
            out.extend(ground(side, input));
        }
    }
    out.extend(boards(option));
    out
}

fn set_out(site: &Site<'_>, option: &Opt) -> Vec<OrderStep> {
    let mut out = Vec::new();
    for needles in option.needles.chunks(NAMES_A_STEP) {
        let places: Vec<String> = needles.iter().map(|n| format!("{} {}", n.name, m(n.x_m))).collect();
        out.push(
            step(
                Group::SetUp,
                "set_out",
                format!(
                    "Mark the needle axes from the marked left jamb, m: {}. Underside {} m over the inside floor. A second person measures again.",
                    places.join(", "),
                    m(option.needle_soffit_m)
                ),
            )
            .with_photo(),
        );
    }
    let forbidden: Vec<String> = site
        .job
        .forbidden
        .iter()
        .take(3)
        .map(|stretch| {
            let why = if stretch.why.is_empty() {
                String::new()
            } else {
                format!(" ({})", short(&stretch.why, 30))
            };
            format!("{} to {} m{why}", m(stretch.from_m), m(stretch.to_m))
        })
        .collect();
    if !forbidden.is_empty() {
        let more = site.job.forbidden.len().saturating_sub(3);
        let more = if more > 0 {
            format!(" and {more} more")
        } else {
            String::new()
        };
        out.push(step(
            Group::SetUp,
            "forbidden",
            format!("Mark where no hole may go: {}{more}.", list(&forbidden)),
        ));
    }
    out
}

/// A floor that is held apart from the wall: its own line of props, first in and last out.
pub fn floor_line(line: &FloorLine) -> OrderStep {
    let header = line.header.as_ref().map_or_else(String::new, |header| {
        format!("header {} tight under the joists, ", short(header, 24))
    });
    let names: Vec<&str> = line.props.iter().map(|prop| prop.name.as_str()).collect();
    let longest = line.props.iter().map(|prop| prop.length_m).fold(0.0, f64::max);
    let most = line.props.iter().map(|prop| prop.load_kn).fold(0.0, f64::max);
    let kind = line.props.first().map_or_else(String::new, prop_kind);
    let props = if names.is_empty() {
        "props as designed".to_owned()
    } else {
        format!(
            "{} props {}, {kind}, {} m long, up to {} each",
            names.len(),
            span(&names),
            m(longest),
            kn(most)
        )
    };
    step(
        Group::SetUp,
        "floor_line",
        format!(
            "Floor {} {} first, on its own line near the wall: {header}{props}. Snug, braced, before the first hole. Last to come out.",
            line.floor, line.side
        ),
    )
    .with_photo()
}

/// What has to be done under the feet before boards are laid.
fn ground(side: &str, input: &Side) -> Option<OrderStep> {
    let words = match (input.foot.kind, input.foot.carried_down) {
        (_, Some(CarriedDown::PropsBelow)) => format!(
            "{side}: props below the floor in line under every foot first, on boards of their own. Head plate under foot plate, checked from below."
        ),
        (_, Some(CarriedDown::Solid)) => {
            format!(
                "{side}: open the floor and stand every foot on the solid ground that was found. Nothing rests on joists or deck."
            )
        }
        (FootKind::Ground | FootKind::Paving, None) => {
            format!(
                "{side}: scrape off soil and loose stuff down to firm, dry, level ground for every board. No frost in it, no fill, no drain or trench near."
            )
        }
        _ => return None,
    };
    let mut text = words.chars();
    let words = text
        .next()
        .map_or_else(String::new, |first| first.to_uppercase().chain(text).collect());
    Some(step(Group::SetUp, "ground", words).with_photo())
}

/// Boards of each side, those alike named together.
fn boards(option: &Opt) -> Vec<OrderStep> {
    let of = |foot: &Foot| -> Option<&Prop> { option.props.iter().find(|prop| prop.name == foot.prop) };
    let mut kinds: Vec<(String, [f64; 3], Vec<&str>)> = Vec::new();
    for foot in &option.feet {
        let side = of(foot).map_or_else(String::new, |prop| prop.side.clone());
        let same = |a: &[f64; 3]| a.iter().zip(foot.board_mm).all(|(a, b)| (a - b).abs() < 0.5);
        match kinds.iter_mut().find(|(s, size, _)| *s == side && same(size)) {
            Some((_, _, names)) => names.push(&foot.prop),
            None => kinds.push((side, foot.board_mm, vec![&foot.prop])),
        }
    }
    let each: Vec<String> = kinds
        .iter()
        .map(|(_, [l, b, t], names)| format!("{} on {l:.0} × {b:.0} × {t:.0} mm", span(names)))
        .collect();
    let mut out: Vec<OrderStep> = Vec::new();
    for few in each.chunks(3) {
        out.push(step(
            Group::SetUp,
            "boards",
            format!(
                "Sole boards, C24, full bearing, level: {}. Plate on the middle of its board, fixed. Nothing loose under a board.",
                few.join("; ")
            ),
        ));
    }
    out
}

/// Size of the hole for a needle, mm: width and height.
pub fn hole_mm(section: &str) -> Option<(f64, f64)> {
    let member = member(section)?;
    Some((member.width_mm() + HOLE_ROOM_MM, member.depth_mm() + HOLE_ROOM_MM))
}
