//! While the support stands: rounds, knocks, what must not happen near it, long standing.

use super::say::list;
use super::{Group, OWN, OrderStep, Site, step};
use crate::job::{Catalogue, Site as Place};
use crate::proposal::Opt;
use crate::source::{Seen, Source};

const ROUNDS: Source = Source::new(
    "SafeWork NSW; EM 385-1-1",
    "inspection at the start of each day and after any event",
    Seen::Secondary("summaries"),
);
const LOST: Source = Source::new("one support lost", "loads of the others", Seen::Own);
/// From here on a support stands long, days. Own judgement.
pub const LONG_DAYS: f64 = 28.0;

/// Steps while it stands.
pub fn steps(site: &Site<'_>, option: &Opt) -> Vec<OrderStep> {
    let mut out = vec![rounds(), knocked(option), keep_off()];
    out.extend(long(&site.job.site, &site.job.catalogue, option));
    out
}

pub fn rounds() -> OrderStep {
    step(
        Group::Stands,
        "rounds",
        "A round at the start of each day, before leaving, after each stage, after wind, heavy rain, frost or thaw, a knock, any change. A missed day stays written as missed. Wind forecast each day.",
    )
    .sourced(ROUNDS)
}

/// A knocked prop, with those that must not be lost by name.
fn knocked(option: &Opt) -> OrderStep {
    let worst: Vec<String> = option
        .one_lost
        .iter()
        .filter(|lost| lost.utilisation.is_none_or(|use_| use_ > 1.0))
        .map(|lost| lost.lost.clone())
        .collect();
    let named = match worst.len() {
        0 => String::new(),
        1..=4 => format!(" {} must not be lost: guard it.", list(&worst)),
        _ => " None of them can be spared: guard them all.".to_owned(),
    };
    step(
        Group::Stands,
        "knocked",
        format!(
            "Prop knocked: everybody out, look from outside. Only if nothing moves: spare prop beside it, snug, then take the bad one. Spare prop, needle, packs at hand. Moving: keep out, ring.{named}",
        ),
    )
    .sourced(LOST)
}

pub fn keep_off() -> OrderStep {
    step(
        Group::Stands,
        "keep_off",
        "Near the support: no hot cutting by packs, no digging or drain work by the feet, no wheels, nothing stacked on floors or hung on props. Growing cracks and sticking doors: out, keep out, ring.",
    )
    .sourced(OWN)
}

/// What a long stand adds.
pub fn long(place: &Place, catalogue: &Catalogue, option: &Opt) -> Option<OrderStep> {
    if place.days <= LONG_DAYS {
        return None;
    }
    let weeks = (place.days / 7.0).ceil();
    let cost = catalogue.rates.as_ref().map_or_else(
        || "note the hire by week".to_owned(),
        |rates| {
            let needles = if option.needles.is_empty() {
                0
            } else {
                option.needles.len() + 1
            };
            let week = rates.needle * needles as f64
                + rates.prop * (option.props.len() + 1) as f64
                + rates.board * option.feet.len() as f64;
            format!(
                "hire about {week:.0} a week with the spares, {:.0} in all",
                week * weeks
            )
        },
    );
    Some(
        step(
            Group::Stands,
            "long_standing",
            format!(
                "It stands {:.0} days, {weeks:.0} weeks: {cost}. Timber shrinks, ground softens, wedges loosen: a round first, then re-pack and snug by hand. Keep rain off. Rounds go on every day.",
                place.days
            ),
        )
        .sourced(OWN)
        .at("as long as it stands"),
    )
}
