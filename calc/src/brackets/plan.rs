//! The builder's brackets, by the same functions as the tool's own.

use super::burden::Burden;
use super::ratings::Ratings;
use super::search::{Best, at_places, search};
use super::{Kit, option, rules, spacing_m};
use crate::feet_words::board_of;
use crate::job::{BuildersPlan, Fix, Job};
use crate::layout::fault;
use crate::plan::{evenly, with_scene};
use crate::proposal::{Check, PlanVerdict, Reason, Standing};
use crate::props::bracket;
use crate::scene::Scene;
use crate::standing::Verdict;
use crate::takedown::TakeDown;

/// Judges a builder's plan of brackets; `job` must not hold a plan or an engineer's answer of its own any more.
#[must_use]
pub fn judge(job: &Job, plan: &BuildersPlan) -> PlanVerdict {
    let board = board_of(plan.feet.as_deref());
    let fix = Fix {
        prop: plan.prop.clone(),
        board_mm: board.mm,
        ..Fix::default()
    };
    let mut filled = board.filled();
    let judged = with_scene(job, fix, |scene, verdict, down| {
        on_scene(job, plan, (scene, verdict, down), &mut filled)
    });
    match judged {
        Ok((standing, checks, words)) => PlanVerdict {
            standing,
            checks,
            words,
            filled,
        },
        Err(words) => PlanVerdict {
            standing: Standing::DoesNotHold,
            checks: Vec::new(),
            words,
            filled,
        },
    }
}

fn on_scene(
    job: &Job,
    plan: &BuildersPlan,
    (scene, verdict, down): (&Scene<'_>, &Verdict, &TakeDown),
    filled: &mut Vec<String>,
) -> (Standing, Vec<Check>, String) {
    let kit = Kit::of_plan(job, plan);
    let found = rules::rules(scene, &kit, verdict, down);
    let burden = Burden::of(scene, found.triangle);
    let ratings = Ratings::of(scene, &kit);
    let mut reasons = found.reasons;
    let axes = places(plan, (scene, &kit), (&burden, &ratings), filled);
    if plan.arm_mm.is_none() {
        filled.push(format!("Arm of the bracket not said: {:.0} mm taken.", kit.arm_mm));
    }
    if plan.plate_mm.is_none() {
        let [along, into] = kit.plate_mm;
        filled.push(format!(
            "Plate of the bracket not said: {along:.0} × {into:.0} mm taken."
        ));
    }
    let [along, _] = kit.plate_mm;
    let misfit = fault(&axes, along, job, scene.geometry, &scene.anchors);
    let Some(Best { row, axes, legs, .. }) = at_places(scene, &kit, &burden, &ratings, &axes) else {
        return (Standing::DoesNotHold, Vec::new(), "No places for brackets.".to_owned());
    };
    if let Some(misfit) = misfit {
        let words = format!(
            "The given positions are not allowed: {}.",
            misfit.replace("needle", "bracket")
        );
        reasons.push(Reason::new("positions", words));
    }
    let (carries, can) = row.hardest(&axes, &legs);
    if plan.prop.is_none()
        && let Some(ready) = legs.first().and_then(|leg| scene.props.get(leg.prop?))
    {
        filled.push(format!("Props not said: {} taken.", ready.words));
    }
    let failing = option::why_not(&row, &axes, &legs);
    let mut steps = burden.steps.clone();
    steps.push("each bracket carries its leaf's load over its share of the opening".to_owned());
    steps.extend(reasons.iter().map(|reason| reason.words.clone()));
    let mut checks = vec![Check {
        name: "bracket".to_owned(),
        at: "all".to_owned(),
        demand: carries,
        resistance: can,
        unit: "kN".to_owned(),
        utilisation: if can > 0.0 { (carries / can).min(99.0) } else { 99.0 },
        source: bracket::SOURCE,
        steps,
    }];
    checks.extend(option::checks(&row, &axes, &legs));
    let passes = reasons.is_empty() && failing.is_empty();
    let standing = if !verdict.no_model.is_empty() || (passes && !verdict.engineer_first.is_empty()) {
        Standing::NeedsOwnDesign
    } else if passes {
        Standing::Close
    } else {
        Standing::DoesNotHold
    };
    let apart = spacing_m(&axes);
    let at = if apart > 0.0 {
        format!(" at {:.0} mm", apart * 1000.0)
    } else {
        String::new()
    };
    let lines = if row.lines.len() > 1 { " under each leaf" } else { "" };
    let mut words = format!(
        "{} brackets{at}{lines}: each would carry {carries:.1} kN, can carry {can:.1} kN.",
        axes.len()
    );
    if carries > can {
        words.push_str(&format!(
            " Its load sits {:.0} mm beside the prop, where prop loads allow for 25 mm.",
            kit.arm_mm
        ));
    }
    let first = verdict.engineer_first.iter().filter(|_| passes);
    for line in reasons.iter().chain(&failing).chain(first).map(|reason| &reason.words) {
        words.push(' ');
        words.push_str(line);
    }
    (standing, checks, words)
}

/// The plan's places; by its number evenly; else as the tool itself would place them.
fn places(
    plan: &BuildersPlan,
    (scene, kit): (&Scene<'_>, &Kit),
    (burden, ratings): (&Burden, &Ratings),
    filled: &mut Vec<String>,
) -> Vec<f64> {
    if let Some(axes) = plan.needles_x_m.as_ref().filter(|axes| !axes.is_empty()) {
        let mut axes = axes.clone();
        axes.sort_by(f64::total_cmp);
        return axes;
    }
    if let Some(count) = plan.count {
        filled.push(format!(
            "Places of the {count} brackets not said: taken evenly over the opening."
        ));
        return evenly(scene.geometry, count);
    }
    let axes = search(scene, kit, burden, ratings).map_or_else(
        || {
            let count = (scene.geometry.cut_width_m() / super::SPACING_M)
                .ceil()
                .clamp(1.0, 40.0);
            evenly(scene.geometry, count as u32)
        },
        |best| best.axes,
    );
    filled.push(format!("Number and places not said: {} brackets taken.", axes.len()));
    axes
}
