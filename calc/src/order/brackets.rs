//! Steps where the support is brackets on the heads of props.

use super::say::{kn, m, prop_kind};
use super::sequence::sequence;
use super::{Group, OWN, OrderStep, Site, cutting, lift, papers, set_up, stands, step, taking_out};
use crate::proposal::Opt;
use crate::source::{Seen, Source};

const CROSS: Source = Source::new(
    "CROSS reports 32 and 57 (2006)",
    "brackets on props: arm about 200 mm, small openings, as many as the maker says",
    Seen::Secondary("the summaries on cross-safety.org"),
);

/// Steps for a bracket option.
pub fn steps(site: &Site<'_>, option: &Opt) -> Vec<OrderStep> {
    let mut out = papers::before_any_work(site);
    out.extend(papers::on_site(site));
    out.push(
        step(
            Group::Before,
            "parts",
            format!(
                "On site and counted: {} props and brackets, one of each spare, boards, fixings, the maker's sheet with its rated load. Missing one part: no first slot.",
                option.props.len() + 1
            ),
        )
        .sourced(CROSS),
    );
    out.extend(set_up::whatever_stands(site));
    out.extend(set_up::feet(site, option));
    out.push(rakers(option));
    let order = sequence(option.props.len());
    let names: Vec<&str> = order
        .iter()
        .filter_map(|place| option.props.get(*place))
        .map(|prop| prop.name.as_str())
        .collect();
    out.push(
        step(
            Group::Holes,
            "sequence",
            format!(
                "One bracket at a time: {}. Slot one bed joint, plate in over the full leaf, prop snug by hand, second look; then the next. No bracket prop takes a sideways force.",
                if names.len() > 12 { "ends to middle".to_owned() } else { names.join(", ") }
            ),
        )
        .sourced(CROSS),
    );
    for (turn, place) in (1..).zip(&order) {
        if let Some(prop) = option.props.get(*place) {
            out.push(
                step(
                    Group::Holes,
                    "bracket",
                    format!(
                        "Bracket {turn} of {}: {}, {}, {} m long. Plate tight under the full leaf, prop upright, foot fixed. It will carry {}. Yes: go on.",
                        order.len(),
                        prop.name,
                        prop_kind(prop),
                        m(prop.length_m),
                        kn(prop.load_kn)
                    ),
                )
                .with_photo()
                .stops("second person")
                .at("one bracket at a time"),
            );
        }
    }
    out.push(
        step(
            Group::Holes,
            "permit_to_load",
            format!(
                "Permit to load: full round passed, every bracket tight, rakers on, drawing matched. Together they will carry {}. Signed by somebody who did not set it out, where one can be had.",
                kn(option.bracing.v_kn)
            ),
        )
        .with_photo()
        .stops("somebody who did not set it out")
        .sourced(OWN),
    );
    out.push(
        step(
            Group::Cutting,
            "slot",
            format!(
                "Cut from the top down, {} m wide, middle first, jambs last by saw. The triangle over the cut is loose between the brackets: take it down or strut it from the side.",
                m(site.job.opening.width_m)
            ),
        )
        .sourced(OWN),
    );
    out.push(cutting::night("every bracket tight; no slot without its bracket"));
    out.extend(lift::after_lifting(site, "brackets"));
    out.push(taking_out::permit());
    out.push(
        step(
            Group::TakingOut,
            "slacken",
            "Slacken every prop little by little, a quarter turn at most, in rounds, one watching. Nothing moves: brackets out one at a time, each slot filled at once.",
        )
        .sourced(OWN),
    );
    out.push(stands::rounds());
    out.push(stands::keep_off());
    out.extend(stands::long(&site.job.site, &site.job.catalogue, option));
    out
}

/// What holds the wall sideways, before a bracket may: rakers against a waling, none of them on the bracket props.
fn rakers(option: &Opt) -> OrderStep {
    let named: Vec<String> = option
        .parts
        .iter()
        .filter(|part| part.what.starts_with("raker"))
        .map(|part| {
            let length = part
                .what
                .split(", ")
                .find(|word| word.ends_with(" m"))
                .unwrap_or_default();
            format!("{} of {length}", part.count)
                .trim_end_matches(" of ")
                .to_owned()
        })
        .collect();
    step(
        Group::SetUp,
        "braces",
        format!(
            "Rakers first, {} in all, half each side: from a waling on the wall just over the brackets to kickers in the ground. They must hold {} across the wall. Nothing is fixed to a bracket prop.",
            named.join(", "),
            kn(option.bracing.demand_across_kn)
        ),
    )
    .with_photo()
    .sourced(OWN)
}
