//! What somebody else proposes, held against the same checks: the builder's plan, and the engineer's figures.

use crate::answer::size;
use crate::brief::check_words;
use crate::checks::is_geometry;
use crate::floor_line::runner;
use crate::job::{BuildersPlan, EngineersAnswer, Fix, Job};
use crate::proposal::{Brackets, Check, Compared, Load, Opt, PlanVerdict, Standing};
use crate::propose::CLOSE;
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
        Ok((standing, Some(option), _)) if plan.runner.is_some() => with_runner(job, plan, standing, &option),
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

/// Needles on runners: the needles' checks stand, but props and feet carry what the runners bring them.
fn with_runner(job: &Job, plan: &BuildersPlan, standing: Standing, option: &Opt) -> PlanVerdict {
    const OF_LEGS: [&str; 5] = ["prop", "ground", "board_bending", "board_bearing", "board_fit"];
    let mut checks: Vec<Check> = option
        .checks
        .iter()
        .filter(|check| !OF_LEGS.contains(&check.name.as_str()))
        .cloned()
        .collect();
    match runner::judge(job, plan, option, &job.site.national.parameters()) {
        Ok(of_runner) => checks.extend(of_runner),
        Err(words) => {
            return PlanVerdict {
                standing: Standing::DoesNotHold,
                checks,
                words,
            };
        }
    }
    let mut failing: Vec<&Check> = checks.iter().filter(|check| check.utilisation > 1.0 + 1e-9).collect();
    failing.sort_by(|a, b| b.utilisation.total_cmp(&a.utilisation));
    let mut named: Vec<&str> = Vec::new();
    failing.retain(|check| {
        let first = !named.contains(&check.name.as_str());
        named.push(check.name.as_str());
        first
    });
    let worst = checks
        .iter()
        .filter(|check| !is_geometry(&check.name))
        .map(|check| check.utilisation)
        .fold(0.0, f64::max);
    let count = option.needles.len();
    let (standing, words) = if failing.is_empty() {
        let standing = match standing {
            Standing::NeedsOwnDesign => Standing::NeedsOwnDesign,
            Standing::Holds if worst <= CLOSE => Standing::Holds,
            _ => Standing::Close,
        };
        (
            standing,
            format!(
                "{count} needles on runners: every check passes, used {:.0} %.",
                worst * 100.0
            ),
        )
    } else {
        let told: Vec<String> = failing
            .iter()
            .map(|check| {
                format!(
                    "{} at {}: asked {:.2} {}, can {:.2} {}.",
                    check_words(&check.name),
                    check.at,
                    check.demand,
                    check.unit,
                    check.resistance,
                    check.unit
                )
            })
            .collect();
        let standing = match standing {
            Standing::NeedsOwnDesign => Standing::NeedsOwnDesign,
            _ => Standing::DoesNotHold,
        };
        (standing, format!("{count} needles on runners: {}", told.join(" ")))
    };
    PlanVerdict {
        standing,
        checks,
        words,
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
