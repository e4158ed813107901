//! What somebody else proposes, held against the same checks: the builder's plan, and the engineer's figures.

use crate::answer::size;
use crate::job::{BuildersPlan, EngineersAnswer, Fix, Job};
use crate::proposal::{Brackets, Check, Compared, Load, Opt, PlanVerdict, Standing};
use crate::props::bracket;

/// Judges the builder's plan.
#[must_use]
pub fn judge(job: &Job, plan: &BuildersPlan, brackets: &Brackets, refused: bool) -> PlanVerdict {
    if plan.kind == "brackets" {
        with_brackets(plan, brackets, refused)
    } else {
        with_needles(job, plan)
    }
}

fn with_brackets(plan: &BuildersPlan, brackets: &Brackets, refused: bool) -> PlanVerdict {
    let standing = if refused {
        Standing::NeedsOwnDesign
    } else if brackets.allowed {
        Standing::Close
    } else {
        Standing::DoesNotHold
    };
    let utilisation = if brackets.one_can_kn > 0.0 {
        (brackets.one_carries_kn / brackets.one_can_kn).min(99.0)
    } else {
        99.0
    };
    let mut steps = vec!["each bracket carries the heaviest leaf's load over its share of the opening".to_owned()];
    steps.extend(brackets.reasons.iter().map(|reason| reason.words.clone()));
    let check = Check {
        name: "bracket".to_owned(),
        at: "all".to_owned(),
        demand: brackets.one_carries_kn,
        resistance: brackets.one_can_kn,
        unit: "kN".to_owned(),
        utilisation,
        source: bracket::SOURCE,
        steps,
    };
    let count = plan
        .needles_x_m
        .as_ref()
        .map_or_else(|| "Brackets".to_owned(), |axes| format!("{} brackets", axes.len()));
    let words = format!(
        "{count}: each would carry {:.1} kN, can carry {:.1} kN. {}",
        brackets.one_carries_kn,
        brackets.one_can_kn,
        brackets.reasons.first().map_or("", |reason| &reason.words)
    );
    PlanVerdict {
        standing,
        checks: vec![check],
        words: words.trim().to_owned(),
    }
}

fn with_needles(job: &Job, plan: &BuildersPlan) -> PlanVerdict {
    let fix = Fix {
        needles_x_m: plan.needles_x_m.clone(),
        section: plan.section.clone(),
        prop: plan.prop.clone(),
        inside_y_mm: plan.inside_y_mm,
        outside_y_mm: plan.outside_y_mm,
        pack_mm: plan.pack_mm,
    };
    match checked(job, fix) {
        Ok((standing, option, reasons)) => {
            let words = match &option {
                Some(option) if standing == Standing::Holds || standing == Standing::Close => {
                    format!(
                        "{} needles: every check passes, used {:.0} %.",
                        option.needles.len(),
                        option.worst_utilisation * 100.0
                    )
                }
                Some(option) => format!("{} needles: {}", option.needles.len(), reasons.join(" ")),
                None => reasons.join(" "),
            };
            PlanVerdict {
                standing,
                checks: option.map(|option| option.checks).unwrap_or_default(),
                words,
            }
        }
        Err(words) => PlanVerdict {
            standing: Standing::DoesNotHold,
            checks: Vec::new(),
            words,
        },
    }
}

/// The job with parts held still and nothing else to judge.
fn checked(job: &Job, fix: Fix) -> Result<(Standing, Option<Opt>, Vec<String>), String> {
    let mut held = job.clone();
    held.fix = Some(fix);
    held.builders_plan = None;
    // That an engineer has answered still counts; the figures are compared once, beside the proposal.
    if let Some(engineer) = &mut held.engineer {
        engineer.section = None;
    }
    let answer = size(&held, Vec::new()).map_err(|problems| {
        problems
            .iter()
            .map(|p| format!("{}; right would be {}.", p.wrong, p.right))
            .collect::<Vec<_>>()
            .join(" ")
    })?;
    let reasons = answer.reasons.into_iter().map(|reason| reason.words).collect();
    Ok((
        answer.standing,
        answer.options.into_iter().next().or(answer.nearest),
        reasons,
    ))
}

/// The engineer's figures beside the tool's own.
#[must_use]
pub fn compare(job: &Job, answer: &EngineersAnswer, load: &Load, options: &[Opt]) -> Compared {
    let mut compared = vec![format!("Answer by {}, {}.", answer.name, answer.date)];
    if let Some(given) = answer.load_kn_m {
        compared.push(format!(
            "Load along the wall: {given:.1} kN/m by the engineer; here {:.1} kN/m on average and {:.1} kN/m at the heaviest place.",
            load.mean_service_kn_m, load.largest_service_kn_m
        ));
    }
    if let Some(given) = answer.spacing_m {
        let own = options.first().map_or_else(
            || "no proposal of its own".to_owned(),
            |option| format!("{:.3} m", option.spacing_m),
        );
        compared.push(format!("Spacing: {given:.3} m by the engineer; here {own}."));
    }
    if let Some(section) = &answer.section {
        let fix = Fix {
            section: Some(section.clone()),
            ..Fix::default()
        };
        compared.push(match checked(job, fix) {
            Ok((_, Some(option), _)) => format!(
                "Section {section}: here its best use is {:.0} %, {}.",
                option.worst_utilisation * 100.0,
                option.governs
            ),
            Ok((_, None, _)) => format!("Section {section}: no positions for it are found here."),
            Err(words) => format!("Section {section}: {words}"),
        });
    }
    Compared { compared }
}
