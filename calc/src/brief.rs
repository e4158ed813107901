//! The engineer's brief: what an engineer must know to answer, and the questions to answer.
//!
//! Given whenever the answer is not plain `holds`. It states what was described, what was reckoned, what is not known and
//! why the job comes to an engineer; it decides nothing.

#[cfg(test)]
mod tests;
mod words;

use crate::job::Job;
use crate::order::prop_kind;
use crate::proposal::{Check, FloorLine, Opt, Proposal, RefusalKind, Standing};
use serde::{Deserialize, Serialize};
pub use words::{check_words, check_words_for, leaves_of, sentence, value_words, wall_lines};

/// A brief to send.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Brief {
    /// Title.
    pub title: String,
    /// Sections in reading order.
    pub sections: Vec<Section>,
}

/// One section of a brief.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Section {
    /// Heading.
    pub heading: String,
    /// Lines, one statement or question each.
    pub lines: Vec<String>,
}

/// Checks of place: they pass or fail, and how near they come says nothing of strength.
const PLACES: [&str; 8] = [
    "bracket_seat",
    "bracket_clear",
    "clear_masonry",
    "arch_loose",
    "end_bay_width",
    "working_room",
    "raker_room",
    "room_under_plate",
];
/// Most checks named under what decides.
const DECIDING: usize = 4;

/// The brief of a job; none where the answer is plain `holds`.
#[must_use]
pub fn brief(job: &Job, proposal: &Proposal) -> Option<Brief> {
    if proposal.standing == Standing::Holds {
        return None;
    }
    let mut sections = Vec::new();
    let mut add = |heading: &str, lines: Vec<String>| {
        if !lines.is_empty() {
            sections.push(Section {
                heading: heading.to_owned(),
                lines,
            });
        }
    };
    add("Why this comes to you", why(proposal));
    add("The opening and the wall", wall_lines(job));
    add("What stands above", words::above_lines(job));
    add("Where the props would stand", words::ground_lines(job));
    add("Weight on the needles, as reckoned", loads(proposal));
    add("What is proposed, for you to check", proposed(proposal));
    add("What the builder proposes", builder(proposal));
    add("Not known, or taken as true", unknown(job, proposal));
    add("Please answer", questions(job));
    let mut caution = vec![
        "The figures here are a proposal by a program from what was described. They are not an independent check and were not seen by anyone on site.".to_owned(),
        "Nothing is built from this before your answer is in hand.".to_owned(),
    ];
    caution.extend(proposal.cautions.iter().cloned());
    caution.dedup();
    add("Caution", caution);
    Some(Brief {
        title: "Brief for the engineer: holding up a wall over a new opening".to_owned(),
        sections,
    })
}

fn why(proposal: &Proposal) -> Vec<String> {
    let answer = match (proposal.standing, proposal.refusal) {
        (Standing::NeedsOwnDesign, Some(RefusalKind::NoModel)) => {
            "The method of the program does not apply here: the support needs its own design."
        }
        (Standing::NeedsOwnDesign, _) if proposal.options.is_empty() => {
            "The job is beyond a layman, and no arrangement that was tried holds."
        }
        (Standing::NeedsOwnDesign, _) => {
            "The job is beyond a layman: the arrangement below is for you to check, not to build from."
        }
        (Standing::DoesNotHold, _) => "No arrangement that was tried holds.",
        (Standing::Close | Standing::Holds, _) => {
            "The arrangement holds by reckoning, but close to a limit or only with your word."
        }
    };
    let mut lines = vec![answer.to_owned()];
    lines.extend(proposal.reasons.iter().map(|reason| reason.words.clone()));
    if proposal.independent_check_needed && !lines.iter().any(|line| line.contains("independent")) {
        lines.push("A storey stands above the opening: an independent check is needed.".to_owned());
    }
    lines
}

fn loads(proposal: &Proposal) -> Vec<String> {
    let load = &proposal.load;
    if load.total_service_kn <= 0.0 {
        return vec!["The weight could not be reckoned from what was described.".to_owned()];
    }
    let mut lines = vec![
        format!(
            "In all {:.1} kN as it stands (G + Q), {:.1} kN with factors (1.35 G + 1.5 Q), over the cut width.",
            load.total_service_kn, load.total_strength_kn
        ),
        format!(
            "Along the wall {:.1} kN/m on average and {:.1} kN/m at most.",
            load.mean_service_kn_m, load.largest_service_kn_m
        ),
    ];
    lines.extend(
        load.parts
            .iter()
            .filter(|part| part.dead_kn + part.imposed_kn > 0.0)
            .map(|part| {
                format!(
                    "{}: {:.1} kN dead, {:.1} kN imposed.",
                    words::sentence(&part.what),
                    part.dead_kn,
                    part.imposed_kn
                )
            }),
    );
    lines
}

fn proposed(proposal: &Proposal) -> Vec<String> {
    let (option, passes) = match (proposal.options.first(), &proposal.nearest) {
        (Some(option), _) => (option, true),
        (None, Some(nearest)) => (nearest, false),
        (None, None) => return Vec::new(),
    };
    let mut lines = Vec::new();
    if !passes {
        lines.push("The nearest arrangement, which fails:".to_owned());
    }
    lines.extend(arrangement(option));
    let worth = |check: &&Check| check.utilisation.is_finite() && !PLACES.contains(&check.name.as_str());
    let mut checks: Vec<&Check> = option.checks.iter().filter(worth).collect();
    checks.sort_by(|a, b| b.utilisation.total_cmp(&a.utilisation));
    // Each kind of check is named once, at its worst place.
    let mut named: Vec<&str> = Vec::new();
    checks.retain(|check| {
        let first = !named.contains(&check.name.as_str());
        named.push(check.name.as_str());
        first
    });
    lines.extend(checks.iter().take(DECIDING).map(|check| {
        format!(
            "Used {:.0} %: {} at {}, {:.2} of {:.2} {} ({}, {}).",
            (check.utilisation * 100.0 - 1e-6).ceil(),
            check_words_for(
                leaves_of(option.checks.iter().map(|check| check.name.as_str())),
                &check.name
            ),
            check.at,
            check.demand,
            check.resistance,
            check.unit,
            check.source.document,
            check.source.locator
        )
    }));
    lines.extend(
        option
            .one_lost
            .iter()
            .filter(|one| one.utilisation.is_none_or(|used| used > 1.0))
            .map(|one| one.words.clone()),
    );
    lines
}

fn arrangement(option: &Opt) -> Vec<String> {
    let mut lines = Vec::new();
    if let Some(first) = option.needles.first() {
        let places: Vec<String> = option
            .needles
            .iter()
            .map(|needle| format!("{} {:.3}", needle.name, needle.x_m))
            .collect();
        lines.push(format!(
            "{} needles {}, underside {:.3} m over the inside floor; axes in m from the left jamb: {}.",
            option.needles.len(),
            first.section,
            option.needle_soffit_m,
            places.join(", ")
        ));
        lines.push(format!(
            "Prop axes {:.0} mm outside the outer face and {:.0} mm in from it; span {:.2} m; steel packs {:.0} mm.",
            -first.outside_y_mm, first.inside_y_mm, first.span_m, first.pack_mm
        ));
    }
    if option.kind == "brackets" {
        let places: Vec<String> = option
            .props
            .iter()
            .filter_map(|prop| Some(format!("{} {:.3}", prop.name, prop.bracket.as_ref()?.x_m)))
            .collect();
        let arm = option.props.iter().find_map(|prop| prop.bracket.as_ref());
        lines.push(format!(
            "Prop-head brackets, arm {:.0} mm, rated {:.1} kN by their maker as typed in, no needles; underside of the plates {:.3} m over the inside floor; places in m from the left jamb: {}.",
            arm.map_or(0.0, |one| one.arm_mm),
            arm.map_or(0.0, |one| one.rated_kn),
            option.needle_soffit_m,
            places.join(", ")
        ));
    }
    for side in ["inside", "outside"] {
        let props: Vec<_> = option.props.iter().filter(|prop| prop.side == side).collect();
        let worst = props.iter().max_by(|a, b| a.utilisation.total_cmp(&b.utilisation));
        if let Some(prop) = worst {
            lines.push(format!(
                "{} props {side}, {}, {:.3} m long; the most loaded, {}, carries {:.1} kN and is good for {:.1} kN (κ {:.2}).",
                props.len(),
                prop_kind(prop),
                prop.length_m,
                prop.name,
                prop.load_kn,
                prop.working_load_kn,
                prop.kappa
            ));
        }
    }
    if let Some(foot) = option
        .feet
        .iter()
        .max_by(|a, b| a.utilisation.total_cmp(&b.utilisation))
    {
        let [long, broad, thick] = foot.board_mm;
        lines.push(format!("Sole boards {long:.0} × {broad:.0} × {thick:.0} mm; at worst {:.0} kPa under {} on ground good for {:.0} kPa.", foot.under_board_kpa, foot.prop, foot.allowed_kpa));
    }
    lines.extend(option.floor_lines.iter().filter(|line| line.needed).map(floor_line));
    let bracing = &option.bracing;
    lines.push(format!(
        "Sideways {:.2} kN along and {:.2} kN across; braced for {:.2} and {:.2} kN.",
        bracing.demand_along_kn, bracing.demand_across_kn, bracing.resistance_along_kn, bracing.resistance_across_kn
    ));
    lines.extend(bracing.way.iter().cloned());
    lines
}

/// The own line of a floor in one sentence or two.
fn floor_line(line: &FloorLine) -> String {
    let worst = line.props.iter().max_by(|a, b| a.utilisation.total_cmp(&b.utilisation));
    match (&line.header, worst) {
        (Some(header), Some(prop)) => format!(
            "Floor {} {} has its own line: header {header}, {:.2} m long, axis {:.0} mm from the wall's face, {} props, {}, at {:.0} mm; the most loaded, {}, carries {:.1} kN and is good for {:.1} kN.",
            line.floor,
            line.side,
            line.length_m.unwrap_or_default(),
            line.distance_mm.unwrap_or_default(),
            line.props.len(),
            prop_kind(prop),
            line.spacing_m.unwrap_or_default() * 1000.0,
            prop.name,
            prop.load_kn,
            prop.working_load_kn
        ),
        _ => format!("Floor {} {}: {}", line.floor, line.side, line.why),
    }
}

fn builder(proposal: &Proposal) -> Vec<String> {
    let plans = proposal.builders_plan.iter();
    plans
        .flat_map(|plan| std::iter::once(plan.words.clone()).chain(plan.filled.iter().cloned()))
        .collect()
}

fn unknown(job: &Job, proposal: &Proposal) -> Vec<String> {
    let mut lines = words::unknown_answers(job);
    lines.extend(proposal.assumptions.iter().map(|one| {
        let (value, words) = (value_words(&one.value), one.words.trim_end_matches('.'));
        // Most words hold the value already.
        let value = if words.contains(&value) {
            String::new()
        } else {
            format!("{value}; ")
        };
        format!("Taken: {words} ({value}{}).", one.source)
    }));
    lines
}

/// What the answer must hold for the rounds to check against it.
fn questions(job: &Job) -> Vec<String> {
    let mut lines = vec![
        "Is the wall, as described and photographed, fit to be held on needles? What must be looked at on site first?".to_owned(),
        "Needles: size, grade, number, spacing, length, packs.".to_owned(),
        "Loads: kN/m along the wall and kN on the worst prop that you design for.".to_owned(),
        "Props: kind and size, working load at their length, limits for lean and for standing off centre.".to_owned(),
        "Feet: sole boards, ground value, and what lies under the floor.".to_owned(),
        "Sideways: what holds the heads along and across the wall, and its fixings.".to_owned(),
        "Sequence: order of the holes, when it may be loaded, when props may be taken out, what the new beam stands on.".to_owned(),
    ];
    if job
        .above
        .iter()
        .any(|storey| storey.floor.as_ref().is_some_and(|floor| floor.slept_in))
    {
        lines.push("May people sleep above while the wall is held?".to_owned());
    }
    if job.opening.flush {
        lines.push("The beam lies within the floor above: how are the joists held meanwhile?".to_owned());
    }
    lines.push("Movement: what may the gauges show before work stops?".to_owned());
    lines.push("Your name, the date, and who checks independently.".to_owned());
    lines
}
