//! Needle by needle: hole, needle, both props, packed, snug, checked; then braces, tightening, and the permit to load.

use super::say::{kn, m, prop_kind};
use super::sequence::sequence;
use super::set_up::hole_mm;
use super::{Group, OWN, OrderStep, Site, step};
use crate::proposal::{Needle, Opt, Prop};
use crate::source::{Seen, Source};

const LIMITS: Source = Source::new(
    "BS 5975:1996",
    "props: 1.5° and 25 mm",
    Seen::Secondary("CROSS report 32 (2006)"),
);
const THATCHER: Source = Source::new(
    "Thatcher, scaffolding (old trade book)",
    "wedges at the top, driven along the needle",
    Seen::Secondary("a summary"),
);
const PERMIT: Source = Source::new("BS 5975:2019", "permit to load", Seen::Memory);

/// Steps from the first hole to the permit to load.
pub fn steps(site: &Site<'_>, option: &Opt) -> Vec<OrderStep> {
    let order = sequence(option.needles.len());
    let mut out = vec![which_first(option, &order)];
    out.extend(hole(site, option));
    out.push(props(option));
    out.push(packing(site, option));
    let count = order.len();
    for (turn, place) in (1..).zip(&order) {
        if let Some(needle) = option.needles.get(*place) {
            out.push(one(option, needle, turn, count));
        }
    }
    out.push(braces(option));
    out.push(tighten(option));
    out.push(permit(option));
    out
}

fn which_first(option: &Opt, order: &[usize]) -> OrderStep {
    let names: Vec<&str> = order
        .iter()
        .filter_map(|place| option.needles.get(*place))
        .map(|needle| needle.name.as_str())
        .collect();
    let names = names.join(", ");
    let words = match order.len() {
        1 => format!("One hole only: {names}. It is packed and both props are snug before anything else is cut."),
        2 | 3 => format!(
            "One hole at a time, ends first: {names}. Neighbours cannot be kept apart with so few: each needle is packed and both its props are snug before the next hole."
        ),
        _ => format!(
            "One hole at a time: {names}. Never the hole beside the one before; ends before the middle where that allows it. Each is packed and snug before the next."
        ),
    };
    step(Group::Holes, "sequence", words).sourced(OWN)
}

fn hole(site: &Site<'_>, option: &Opt) -> Option<OrderStep> {
    let needle = option.needles.first()?;
    let size = hole_mm(&needle.section).map_or_else(
        || "needle + 75 mm each way".to_owned(),
        |(width, height)| format!("{width:.0} mm wide, {height:.0} mm high"),
    );
    Some(step(
        Group::Holes,
        "hole",
        format!(
            "Hole for {}: {size}, all told. Drill round it and cut by hand or saw, no breaker. Needle through with equal ends: props {:.0} mm inside, {:.0} mm outside from the wall's faces.",
            needle.section,
            needle.inside_y_mm - site.geometry.thickness_mm,
            -needle.outside_y_mm
        ),
    ))
}

/// Props of both sides, those alike named together.
fn props(option: &Opt) -> OrderStep {
    let mut kinds: Vec<(&str, String, String)> = Vec::new();
    for prop in &option.props {
        let one = (prop.side.as_str(), prop_kind(prop), m(prop.length_m));
        if !kinds.contains(&one) {
            kinds.push(one);
        }
    }
    let each: Vec<String> = kinds
        .iter()
        .take(3)
        .map(|(side, kind, length)| format!("{side} {kind}, {length} m"))
        .collect();
    step(
        Group::Holes,
        "props",
        format!(
            "Props {}. Upright within 25 mm per m, at most 25 mm off centre, right pin home, head and foot fixed so that a knock cannot move them.",
            each.join("; ")
        ),
    )
    .sourced(LIMITS)
}

fn packing(site: &Site<'_>, option: &Opt) -> OrderStep {
    let leaves = if site.geometry.leaves.len() > 1 {
        "each leaf"
    } else {
        "the wall"
    };
    // The steel pack lies against the masonry, because it is what spreads the needle's load there.
    let pack = option
        .needles
        .first()
        .filter(|needle| needle.pack_mm > 0.0)
        .map_or_else(
            || "bedded tight".to_owned(),
            |needle| {
                let width = super::say::member(&needle.section).map_or_else(String::new, |member| {
                    format!(", {:.0} mm wide", member.width_mm() + 2.0 * needle.pack_mm)
                });
                format!("then a steel pack {:.0} mm{width}, bedded tight", needle.pack_mm)
            },
        );
    step(
        Group::Holes,
        "packing",
        format!(
            "On the needle, under the full thickness of {leaves}: pairs of wedges as wide as the needle, driven along it from both sides, {pack} to the masonry. No softwood, no tall stack.",
        ),
    )
    .sourced(THATCHER)
}

/// One needle, from its hole to the look of a second person.
fn one(option: &Opt, needle: &Needle, turn: usize, count: usize) -> OrderStep {
    let legs: Vec<&Prop> = option.props.iter().filter(|prop| prop.needle == needle.name).collect();
    let legs: Vec<String> = legs
        .iter()
        .map(|prop| format!("{} {} m", prop.name, m(prop.length_m)))
        .collect();
    step(
        Group::Holes,
        "needle",
        format!(
            "Hole {turn} of {count}: {} at {} m. Cut, needle in, {}, packed, snug by hand, looked at by a second person. It will carry {}. Yes: go on.",
            needle.name,
            m(needle.x_m),
            legs.join(" and "),
            kn(needle.load_kn)
        ),
    )
    .with_photo()
    .stops("second person")
    .sourced(OWN)
    .at("one hole at a time")
}

/// Number of a length as `2.51 m`.
fn metres(length: &str) -> f64 {
    length.trim_end_matches(" m").parse().unwrap_or(0.0)
}

/// Braces as the parts list counts them.
pub fn braces(option: &Opt) -> OrderStep {
    let mut named: Vec<String> = Vec::new();
    for kind in ["diagonal", "raker", "lacing", "tie"] {
        let parts = || option.parts.iter().filter(|part| part.what.starts_with(kind));
        let count: u32 = parts().map(|part| part.count).sum();
        let lengths: Vec<&str> = parts()
            .map(|part| {
                part.what
                    .split(", ")
                    .find(|word| word.ends_with(" m"))
                    .unwrap_or_default()
            })
            .collect();
        let longest = lengths.iter().copied().max_by(|a, b| metres(a).total_cmp(&metres(b)));
        if let Some(longest) = longest.filter(|_| count > 0) {
            let up_to = if lengths.iter().any(|length| *length != longest) {
                "up to "
            } else {
                ""
            };
            named.push(format!("{count} × {kind} {up_to}{longest}").trim_end().to_owned());
        }
    }
    let named = if named.is_empty() {
        "as the drawing shows".to_owned()
    } else {
        named.join(", ")
    };
    step(
        Group::Holes,
        "braces",
        format!(
            "Braces on before load: {named}. Fittings for the real diameters, feet against kickers. They must hold {} along the wall and {} across it.",
            kn(option.bracing.demand_along_kn),
            kn(option.bracing.demand_across_kn)
        ),
    )
    .with_photo()
    .sourced(Source::new("EN 12812 and the Bragg report (1975)", "sideways 2.5 %", Seen::Secondary("guides on temporary works")))
}

fn tighten(option: &Opt) -> OrderStep {
    // Rounded down: too much lifts and cracks the wall, too little only leaves some settling.
    let turns = (option.movement.turns * 10.0 + 1e-9).floor() / 10.0;
    let how_far = if turns < 0.1 {
        "Snug is enough".to_owned()
    } else {
        format!("At most {turns:.1} turn a prop past snug (6 mm thread; measure yours)")
    };
    step(
        Group::Holes,
        "tighten",
        format!(
            "Tighten before cutting, ends to middle, both sides in turn, little by little. {how_far}. By hand and a light tap, never a long bar. A joint opens: stop, ring.",
        ),
    )
    .sourced(OWN)
}

fn permit(option: &Opt) -> OrderStep {
    step(
        Group::Holes,
        "permit_to_load",
        format!(
            "Permit to load: full round passed, all {} needles packed, braces on, drawing matched. Together they will carry {}. Signed by somebody who did not set it out, where one can be had.",
            option.needles.len(),
            kn(option.bracing.v_kn)
        ),
    )
    .with_photo()
    .stops("somebody who did not set it out")
    .sourced(PERMIT)
    .at("before anything is cut below the needles")
}
