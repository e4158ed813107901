//! The builder's plan, held against the same checks as the tool's own proposal.

use crate::answer::size;
use crate::brackets::judge_plan;
use crate::brief::check_words_for;
use crate::checks::Side;
use crate::checks::is_geometry;
use crate::feet_words::{Board, board_of};
use crate::floor_line::{self, runner};
use crate::geometry::Geometry;
use crate::job::{BuildersPlan, Fix, Job};
use crate::proposal::{Check, Opt, PlanVerdict, Reason, Standing};
use crate::propose::CLOSE;
use crate::scene::Scene;
use crate::source::{Seen, Source};
use crate::standing::{Verdict, verdict};
use crate::takedown::{TakeDown, take_down};

/// kN of one tonne.
const KN_PER_T: f64 = 9.81;
/// Spacing of props where their number is not said, m. Common practice, no source.
const SPACING_M: f64 = 0.9;

const UNDER: Source = Source::new(
    "props right under a wall",
    "nothing goes through it, so nothing carries its leaves from prop to prop",
    Seen::Own,
);

/// Judges the builder's plan.
#[must_use]
pub fn judge(job: &Job, plan: &BuildersPlan) -> PlanVerdict {
    let mut held = job.clone();
    held.builders_plan = None;
    // That an engineer has answered still counts; the figures are compared once, beside the proposal.
    if let Some(answer) = &mut held.engineer {
        answer.section = None;
        answer.spacing_m = None;
        answer.load_kn_m = None;
    }
    match plan.kind.as_str() {
        "brackets" => judge_plan(&held, plan),
        "props" => with_props(&held, plan),
        _ => with_needles(&held, plan),
    }
}

/// Axes of a number of supports evenly over the cut, m.
#[must_use]
pub fn evenly(geometry: &Geometry, count: u32) -> Vec<f64> {
    let each = geometry.cut_width_m() / f64::from(count.max(1));
    (0..count)
        .map(|i| geometry.cut_left_m + (f64::from(i) + 0.5) * each)
        .collect()
}

/// Prepares a job with parts held still and hands it on.
///
/// # Errors
///
/// Sections or props that are not known, in words.
pub fn with_scene<T>(
    job: &Job,
    fix: Fix,
    then: impl FnOnce(&Scene<'_>, &Verdict, &TakeDown) -> T,
) -> Result<T, String> {
    let mut held = job.clone();
    held.fix = Some(fix);
    let national = held.site.parameters();
    let geometry = Geometry::of(&held, &mut Vec::new());
    let mut verdict = verdict(&held, &geometry, &mut Vec::new());
    floor_line::restraint(&held, &geometry, &mut verdict);
    let down = take_down(&held, &geometry, &national, &mut Vec::new());
    let scene =
        Scene::of(&held, &geometry, &down, &national, &mut Vec::new()).map_err(|problems| in_words(&problems))?;
    Ok(then(&scene, &verdict, &down))
}

/// Problems as sentences.
pub fn in_words(problems: &[crate::Problem]) -> String {
    let one = |p: &crate::Problem| format!("{}; right would be {}.", p.wrong, p.right);
    problems.iter().map(one).collect::<Vec<_>>().join(" ")
}

fn with_needles(job: &Job, plan: &BuildersPlan) -> PlanVerdict {
    let board = board_of(plan.feet.as_deref());
    let given = plan.needles_x_m.clone().filter(|axes| !axes.is_empty());
    let even = plan
        .count
        .map(|count| evenly(&Geometry::of(job, &mut Vec::new()), count));
    let mut held = job.clone();
    // What holds only on brackets is not this plan, nor are their reasons.
    held.catalogue.bracket = None;
    held.fix = Some(Fix {
        needles_x_m: given.or(even),
        section: plan.section.clone(),
        prop: plan.prop.clone(),
        inside_y_mm: plan.inside_y_mm,
        outside_y_mm: plan.outside_y_mm,
        pack_mm: plan.pack_mm,
        board_mm: board.mm,
    });
    let answer = match size(&held, Vec::new()) {
        Ok(answer) => answer,
        Err(problems) => {
            return PlanVerdict {
                standing: Standing::DoesNotHold,
                checks: Vec::new(),
                words: in_words(&problems),
                filled: Vec::new(),
            };
        }
    };
    let needles = |option: &Opt| option.kind == "needles";
    let option = answer.options.into_iter().find(needles).or(answer.nearest);
    let passes = option
        .as_ref()
        .is_some_and(|option| option.standing != Standing::DoesNotHold);
    let standing = match answer.standing {
        Standing::Holds | Standing::Close if !passes => Standing::DoesNotHold,
        other => other,
    };
    if let Some(option) = option.as_ref().filter(|_| plan.runner.is_some()) {
        return with_runner(
            job,
            plan,
            (standing, &answer.reasons),
            option,
            filled(plan, &board, option),
        );
    }
    let reasons: Vec<String> = answer.reasons.into_iter().map(|reason| reason.words).collect();
    let mut words = option.as_ref().map_or_else(String::new, numbers);
    if matches!(standing, Standing::Holds | Standing::Close) {
        if let Some(option) = &option {
            words.push_str(&format!(
                "Every check passes, used {:.0} %.",
                (option.worst_utilisation * 100.0 - 1e-6).ceil()
            ));
        }
    } else {
        words.push_str(&reasons.join(" "));
    }
    PlanVerdict {
        standing,
        filled: option
            .as_ref()
            .map(|option| filled(plan, &board, option))
            .unwrap_or_default(),
        checks: option.map(|option| option.checks).unwrap_or_default(),
        words,
    }
}

/// Needles on runners: the needles' checks stand, but props and feet carry what the runners bring them.
fn with_runner(
    job: &Job,
    plan: &BuildersPlan,
    (standing, reasons): (Standing, &[Reason]),
    option: &Opt,
    filled: Vec<String>,
) -> PlanVerdict {
    const OF_LEGS: [&str; 6] = [
        "prop",
        "ground",
        "board_bending",
        "board_bearing",
        "board_fit",
        "no_prop_long_enough",
    ];
    let mut checks: Vec<Check> = option
        .checks
        .iter()
        .filter(|check| !OF_LEGS.contains(&check.name.as_str()))
        .cloned()
        .collect();
    let lost = match runner::judge(job, plan, option, &job.site.parameters()) {
        Ok(of_runner) => {
            checks.extend(of_runner.checks);
            of_runner.lost
        }
        Err(words) => {
            return PlanVerdict {
                standing: Standing::DoesNotHold,
                checks,
                words,
                filled,
            };
        }
    };
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
    // Without the runner's props the needles' own may be all that failed; whatever else stood against the arrangement
    // stands against it on runners too: places that are not allowed, a floor without a line, a load below the needles.
    let against: Vec<&str> = reasons
        .iter()
        .filter(|reason| standing == Standing::DoesNotHold && !OF_LEGS.contains(&reason.code.as_str()))
        .filter(|reason| !checks.iter().any(|check| check.name == reason.code))
        .map(|reason| reason.words.as_str())
        .collect();
    let (standing, words) = if failing.is_empty() && against.is_empty() {
        let standing = match standing {
            Standing::NeedsOwnDesign => Standing::NeedsOwnDesign,
            Standing::Holds if worst <= CLOSE && lost.is_none() => Standing::Holds,
            _ => Standing::Close,
        };
        let lost = lost.map(|words| format!(" {words}")).unwrap_or_default();
        (
            standing,
            format!(
                "{count} needles on runners: every check passes, used {:.0} %.{lost}",
                worst * 100.0
            ),
        )
    } else {
        let told: Vec<String> = failing
            .iter()
            .map(|check| {
                format!(
                    "{} at {}: asked {:.2} {}, can {:.2} {}.",
                    check_words_for(job.wall.leaves.len(), &check.name),
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
        let told: Vec<&str> = told.iter().map(String::as_str).chain(against).collect();
        (standing, format!("{count} needles on runners: {}", told.join(" ")))
    };
    PlanVerdict {
        standing,
        checks,
        words,
        filled,
    }
}

/// What an arrangement comes to, in figures.
fn numbers(option: &Opt) -> String {
    let section = option.needles.first().map_or("", |needle| &needle.section);
    let most = option.needles.iter().map(|needle| needle.load_kn).fold(0.0, f64::max);
    let apart = if option.needles.len() > 1 {
        format!(" at up to {:.0} mm", option.spacing_m * 1000.0)
    } else {
        String::new()
    };
    let hardest = option
        .props
        .iter()
        .max_by(|a, b| a.utilisation.total_cmp(&b.utilisation))
        .map_or_else(String::new, |prop| {
            format!(
                ", a prop up to {:.1} kN where it is good for {:.1} kN",
                prop.load_kn, prop.working_load_kn
            )
        });
    format!(
        "{} needles {section}{apart}: a needle would carry up to {most:.1} kN ({:.1} t){hardest}. ",
        option.needles.len(),
        most / KN_PER_T
    )
}

/// What the plan left open and what was taken for it.
fn filled(plan: &BuildersPlan, board: &Board, option: &Opt) -> Vec<String> {
    let mut out = Vec::new();
    let first = option.needles.first();
    if plan.needles_x_m.as_ref().is_none_or(Vec::is_empty) {
        let places: Vec<String> = option.needles.iter().map(|n| format!("{:.3}", n.x_m)).collect();
        out.push(match plan.count {
            Some(count) => format!(
                "Places of the {count} needles not said: taken evenly, at {} m.",
                places.join(", ")
            ),
            None => format!("Number and places not said: {} m taken.", places.join(", ")),
        });
    }
    if let (None, Some(needle)) = (&plan.section, first) {
        out.push(format!("Section not said: {} taken.", needle.section));
    }
    if plan.prop.is_none() {
        for side in ["inside", "outside"] {
            if let Some(prop) = option.props.iter().find(|prop| prop.side == side) {
                out.push(format!("Props {side} not said: {} {} taken.", prop.kind, prop.size));
            }
        }
    }
    if let (None, Some(needle)) = (plan.inside_y_mm, first) {
        out.push(format!(
            "Prop line inside not said: axis at {:.0} mm taken.",
            needle.inside_y_mm
        ));
    }
    if let (None, Some(needle)) = (plan.outside_y_mm, first) {
        out.push(format!(
            "Prop line outside not said: axis at {:.0} mm taken.",
            needle.outside_y_mm
        ));
    }
    if let (None, Some(needle)) = (plan.pack_mm, first) {
        out.push(format!("Steel pack not said: {:.0} mm taken.", needle.pack_mm));
    }
    out.extend(board.filled());
    out
}

/// Props right under the wall and no needles: refused, with what they would have to carry.
fn with_props(job: &Job, plan: &BuildersPlan) -> PlanVerdict {
    let board = board_of(plan.feet.as_deref());
    let fix = Fix {
        prop: plan.prop.clone(),
        board_mm: board.mm,
        ..Fix::default()
    };
    let mut filled = board.filled();
    let judged = with_scene(job, fix, |scene, _, _| {
        let places = plan.needles_x_m.as_ref().map(Vec::len).filter(|count| *count > 0);
        let count = places.or(plan.count.map(|count| count as usize)).unwrap_or_else(|| {
            let count = (scene.geometry.cut_width_m() / SPACING_M).ceil().max(1.0) as usize;
            filled.push(format!("Number of props not said: {count} taken, 900 mm apart."));
            count
        });
        let total = scene.total_service_kn();
        let each = total / count as f64;
        let best = (0..scene.boards.len())
            .flat_map(|b| (0..scene.props.len()).filter_map(move |p| scene.rating(Side::Inside, b, p)))
            .map(|rating| rating.working_load_kn)
            .fold(0.0, f64::max);
        let check = |name: &str, at: &str, demand: f64, resistance: f64, step: String| Check {
            name: name.to_owned(),
            at: at.to_owned(),
            demand,
            resistance,
            unit: "kN".to_owned(),
            utilisation: if resistance > 0.0 {
                (demand / resistance).min(99.0)
            } else {
                99.0
            },
            source: UNDER,
            steps: vec![step],
        };
        let checks = vec![
            check(
                "no_needles",
                "all",
                total,
                0.0,
                format!(
                    "{total:.1} kN stand over the opening and no needle carries them: a prop's head holds at most the bricks it touches"
                ),
            ),
            check(
                "prop",
                "all",
                each,
                best,
                format!(
                    "{total:.1} kN / {count} = {each:.1} kN, if it could be shared evenly; the best prop at hand is good for {best:.1} kN at this length"
                ),
            ),
        ];
        let words = format!(
            "{count} props right under the wall and no needles: refused. {total:.0} kN ({:.1} t) stand over the opening, {each:.0} kN ({:.1} t) on each prop; the best prop at hand is good for {best:.0} kN at this length. Nothing goes through the wall, so a prop holds at most the bricks that its head touches. Needles through the full thickness, props in pairs, braced.",
            total / KN_PER_T,
            each / KN_PER_T
        );
        (checks, words)
    });
    let (checks, words) = judged.unwrap_or_else(|words| (Vec::new(), words));
    PlanVerdict {
        standing: Standing::DoesNotHold,
        checks,
        words,
        filled,
    }
}
