//! Taking the support out.

use super::say::span;
use super::sequence::{from_end, sequence};
use super::{Group, OWN, OrderStep, Site, step};
use crate::proposal::Opt;
use crate::source::{Seen, Source};

const PERMIT: Source = Source::new("BS 5975:2019", "permit to unload or strike", Seen::Memory);

/// Steps of taking out.
pub fn steps(_site: &Site<'_>, option: &Opt) -> Vec<OrderStep> {
    let mut out = vec![permit(), slacken(option), needles_out(option)];
    out.extend(floors_last(option));
    out
}

pub fn permit() -> OrderStep {
    step(
        Group::TakingOut,
        "permit_to_take_out",
        "Permit to take out: a named person confirms the permanent work: beam, bearings, padstones, dry-pack cured by product, temperature and the engineer's minimum. Building authority has seen it. Round passed.",
    )
    .with_photo()
    .stops("engineer or a person the engineer names")
    .sourced(PERMIT)
}

/// The middle first, so that the beam takes its load as it will carry it; small turns, all round, watched.
fn slacken(option: &Opt) -> OrderStep {
    let count = option.needles.len();
    let mut places: Vec<usize> = (0..count).collect();
    places.sort_by_key(|place| (count - from_end(*place, count), *place));
    let names: Vec<&str> = places
        .iter()
        .filter_map(|place| option.needles.get(*place))
        .map(|needle| needle.name.as_str())
        .collect();
    let order = if names.len() > 12 {
        "middle to ends".to_owned()
    } else {
        names.join(", ")
    };
    step(
        Group::TakingOut,
        "slacken",
        format!(
            "Slacken little by little: a quarter turn at most, both props of a needle together, in rounds {order}. One watches beam, gap and gauges. A crack or a sag: stop, leave, ring. No blind re-tightening.",
        ),
    )
    .sourced(OWN)
}

fn needles_out(option: &Opt) -> OrderStep {
    let names: Vec<&str> = sequence(option.needles.len())
        .into_iter()
        .filter_map(|place| option.needles.get(place))
        .map(|needle| needle.name.as_str())
        .collect();
    let order = if names.len() > 12 {
        "ends to middle".to_owned()
    } else {
        names.join(", ")
    };
    step(
        Group::TakingOut,
        "needles_out",
        format!(
            "All slack and nothing moved: one needle out at a time, {order}. Fill and pack its hole at once, before the next. One task at a time. Braces go with the last props.",
        ),
    )
    .sourced(OWN)
}

/// Floors on their own line come out last.
fn floors_last(option: &Opt) -> Option<OrderStep> {
    let floors: Vec<String> = option
        .floor_lines
        .iter()
        .filter(|line| line.needed)
        .map(|line| {
            let names: Vec<&str> = line.props.iter().map(|prop| prop.name.as_str()).collect();
            format!("floor {} {} {}", line.floor, line.side, span(&names))
                .trim_end()
                .to_owned()
        })
        .collect();
    (!floors.is_empty()).then(|| {
        step(
            Group::TakingOut,
            "floors_out",
            format!(
                "The floors' own lines last, when the joists sit on their new bearing and somebody named has said so: {}. Little by little, watched.",
                floors.join("; ")
            ),
        )
        .with_photo()
    })
}
