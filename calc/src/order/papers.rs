//! Papers and people before any work: each a stop.

use super::say::short;
use super::{Group, OWN, OrderStep, Site, by_law, step};
use crate::source::{Seen, Source};

const CHECKED: Source = Source::new(
    "BS 5975-1:2024",
    "Table 2, design check categories",
    Seen::Secondary("published summaries of the table"),
);
const INSURERS: Source = Source::new(
    "household and liability policies",
    "clauses that ask for notice of structural work",
    Seen::Secondary("consumer guides, as engineerfix.com on insurance for building work"),
);
const BUILDER: Source = Source::new(
    "hiring a builder",
    "insurance, contract, stages of payment",
    Seen::Practice,
);

/// Stops that come before any work, whatever the answer.
pub fn before_any_work(site: &Site<'_>) -> Vec<OrderStep> {
    let mut out = vec![engineer(site)];
    if site.verdict.independent_check_needed {
        out.push(check(site));
    }
    out.push(by_law("authority", site.law.authority, "owner"));
    out.push(by_law("party_wall", site.law.party_wall, "owner"));
    out.push(
        step(
            Group::Papers,
            "insurers",
            "Both insurers told in writing: the house's and the builder's. Say what is cut, when, by whom, and that the wall stands on props meanwhile. Both answers kept.",
        )
        .with_photo()
        .stops("owner and builder")
        .sourced(INSURERS),
    );
    out.push(
        step(
            Group::Papers,
            "builder",
            "Builder: insured, with which company, until when? Written contract on defects, accidents, liability and stages of payment? Put the questions for the builder and keep the answers.",
        )
        .with_photo()
        .stops("owner")
        .sourced(BUILDER),
    );
    out.push(by_law("duties", site.law.duties, "owner and builder"));
    out.push(by_law("asbestos", site.law.asbestos, "owner"));
    out
}

/// Stops that belong to work on site.
pub fn on_site(site: &Site<'_>) -> Vec<OrderStep> {
    vec![
        by_law("services", site.law.services, "whoever turned them off").at("before the first hole"),
        by_law("pavement", site.law.pavement, "owner or builder"),
        step(
            Group::Papers,
            "exclusion_zone",
            "Exclusion zone closed on both sides of the wall and in the rooms above. Only those at work go in. Nobody sleeps above unless the engineer says so in writing.",
        )
        .with_photo()
        .stops("whoever runs the site")
        .sourced(OWN)
        .at("before the first hole"),
    ]
}

fn engineer(site: &Site<'_>) -> OrderStep {
    let first = !site.verdict.engineer_first.is_empty() || !site.verdict.no_model.is_empty();
    let words = match &site.job.engineer {
        Some(answer) => format!(
            "Engineer's answer in hand: {}, {}. Its figures stand before the ones here. Drawing on site.",
            short(&answer.name, 40),
            short(&answer.date, 40)
        ),
        None if first => "Engineer first: what is shown here is for checking, not for building. Nothing is set out or cut before the engineer's answer is in hand, in writing.".to_owned(),
        None => "Engineer's answer in hand, in writing: name, date, drawing. What is shown here is a proposal for the engineer to confirm.".to_owned(),
    };
    step(Group::Papers, "engineer", words)
        .with_photo()
        .stops("engineer")
        .sourced(OWN)
}

fn check(site: &Site<'_>) -> OrderStep {
    let words = match &site.job.check {
        Some(check) => format!(
            "Independent check in hand: {}, {}, category {}. Has anything changed since? Then check again.",
            short(&check.name, 40),
            short(&check.date, 40),
            check.category
        ),
        None => {
            "Independent check in hand: somebody who did not design the support has checked it, in writing.".to_owned()
        }
    };
    step(Group::Papers, "independent_check", words)
        .with_photo()
        .stops("independent checker")
        .sourced(CHECKED)
}
