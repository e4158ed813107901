//! From a described job to the whole answer.

use crate::assemble;
use crate::brackets;
use crate::brief::check_words_for;
use crate::clause::NationalParameters;
use crate::clause::national::Annex;
use crate::demand::{service, strength};
use crate::engineer;
use crate::floor_line;
use crate::geometry::{Geometry, OVER_BEAM_M};
use crate::job::Job;
use crate::order::order;
use crate::plan;
use crate::problem::Problem;
use crate::proposal::{Assumption, Load, LoadPart, Opt, OrderStep, Profile, Proposal, Reason, RefusalKind, Standing};
use crate::propose::{CLOSE, search};
use crate::scene::Scene;
use crate::standing::{Verdict, verdict};
use crate::steps::{Channel, Shares};
use crate::takedown::{TakeDown, take_down};

/// The caution that stays in view on every answer.
pub const CAUTION: &str = "A proposal for your engineer to confirm. Local rules and licensed practice come first. When in doubt, stay out and ring.";

/// Sizes the support of a job.
///
/// # Errors
///
/// Sections or props that are not known, by their path.
pub fn size(job: &Job, mut assumptions: Vec<Assumption>) -> Result<Proposal, Vec<Problem>> {
    let national = job.site.parameters();
    fit_the_wall(job, &mut assumptions);
    let geometry = Geometry::of(job, &mut assumptions);
    if let Some(problem) = soffit_problem(job, &geometry) {
        return Err(vec![problem]);
    }
    let mut verdict = verdict(job, &geometry, &mut assumptions);
    floor_line::restraint(job, &geometry, &mut verdict);
    floor_line::assume(job, &geometry, &mut assumptions);
    let down = take_down(job, &geometry, &national, &mut assumptions);
    let scene = Scene::of(job, &geometry, &down, &national, &mut assumptions)?;
    let load = load(&scene, &down);
    let mut reasons: Vec<Reason> = verdict
        .no_model
        .iter()
        .chain(&verdict.engineer_first)
        .cloned()
        .collect();
    let refusal = if !verdict.no_model.is_empty() {
        Some(RefusalKind::NoModel)
    } else if !verdict.engineer_first.is_empty() {
        Some(RefusalKind::EngineerFirst)
    } else {
        None
    };
    let capped = !verdict.caps.is_empty() || refusal.is_some();
    let (mut options, mut nearest) = (Vec::new(), None);
    if refusal != Some(RefusalKind::NoModel) {
        let found = search(&scene);
        options = found
            .best
            .iter()
            .filter_map(|(aim, found)| assemble::option(&scene, *aim, found, capped))
            .collect();
        nearest = found
            .nearest
            .as_ref()
            .and_then(|found| assemble::option(&scene, crate::propose::Aim::Fewest, found, capped));
        if let Some(misfit) = found.misfit {
            reasons.push(Reason::new(
                "positions",
                format!("The given positions are not allowed: {misfit}."),
            ));
            nearest = options.into_iter().next().or(nearest);
            options = Vec::new();
        }
        if options.is_empty() {
            reasons.extend(why_not(&scene, nearest.as_ref()));
        }
    }
    let brackets::Offer { brackets, option } = brackets::judge(&scene, &verdict, &down);
    if let Some(option) = option {
        if options.is_empty() {
            reasons.push(Reason::new(
                "brackets_only",
                "Needles as tried do not hold here; brackets within the maker's rated load do.",
            ));
            nearest = None;
        }
        options.push(option);
    }
    let engineers = job
        .engineer
        .as_ref()
        .map(|answer| engineer::judge(job, answer, &load, &options, refusal, capped));
    if let Some(judged) = &engineers {
        reasons.extend(judged.reasons.iter().cloned());
        if let Some(option) = judged.compared.option.as_ref().filter(|_| judged.passes) {
            options.insert(0, option.clone());
        }
    }
    // A floor's own line and the bracing are parts of the option, found after the search: an option of which one does not
    // stand is none.
    let (standing_ones, fallen): (Vec<Opt>, Vec<Opt>) = options.into_iter().partition(|option| {
        option.floor_lines.iter().all(crate::proposal::FloorLine::stands)
            && option.checks.iter().all(|check| check.utilisation <= 1.0 + 1e-9)
    });
    options = standing_ones;
    let shown = fallen.into_iter().next();
    let mut not_held = floor_line::refusals(job, &geometry);
    not_held.extend(down.below.iter().map(|what| {
        Reason::new(
            "floor_line",
            format!(
                "What bears below the needles is not on them: {what} needs a support of its own, designed with it."
            ),
        )
    }));
    // What could not be designed at all is told once, by its own reason.
    if not_held.is_empty() && options.is_empty() {
        if let Some(option) = shown.as_ref().or(nearest.as_ref()) {
            reasons.extend(floor_line::why_not(option));
        }
        if let Some(option) = &shown
            && option.checks.iter().any(|check| check.utilisation > 1.0 + 1e-9)
        {
            reasons.extend(why_not(&scene, Some(option)));
        }
    }
    if !not_held.is_empty() {
        nearest = nearest.or_else(|| options.first().cloned());
        options.clear();
        reasons.extend(not_held);
    }
    nearest = if options.is_empty() { nearest.or(shown) } else { None };
    reasons.extend(held_apart(job, &geometry));
    let mut standing = standing(refusal, &options);
    if let Some(judged) = engineers.as_ref().filter(|_| refusal.is_none()) {
        standing = judged.limit(standing);
    }
    if standing == Standing::Close {
        reasons.extend(verdict.caps.iter().cloned());
        // The first option is the one shown first: its own reasons say why it is close.
        if let Some(option) = options.first() {
            reasons.extend(why_close(option));
        }
    }
    if let Some(nearest) = &mut nearest {
        nearest.standing = Standing::DoesNotHold;
    }
    let order = order(job, &geometry, &verdict, standing, options.first());
    Ok(Proposal {
        contract: 1,
        version: env!("CARGO_PKG_VERSION").to_owned(),
        basis: basis(job.site.national, &national),
        standing,
        refusal,
        independent_check_needed: verdict.independent_check_needed,
        cautions: cautions(&verdict, refusal),
        reasons,
        assumptions,
        builders_plan: job.builders_plan.as_ref().map(|plan| plan::judge(job, plan)),
        engineer: engineers.map(|judged| judged.compared),
        load,
        brackets,
        options,
        nearest,
        order,
    })
}

/// A wall of one leaf has no inner one: what bears on it bears on the wall.
fn fit_the_wall(job: &Job, assumptions: &mut [Assumption]) {
    if job.wall.leaves.len() < 2 {
        for taken in assumptions {
            taken.words = taken.words.replace("on the inner leaf", "on this wall");
        }
    }
}

/// The order of work of another option than the one shown first; empty where there is no such option.
#[must_use]
pub fn order_of(job: &Job, proposal: &Proposal, option: usize) -> Vec<OrderStep> {
    let mut known = Vec::new();
    let geometry = Geometry::of(job, &mut known);
    let mut verdict = verdict(job, &geometry, &mut known);
    floor_line::restraint(job, &geometry, &mut verdict);
    match proposal.options.get(option) {
        Some(option) => order(job, &geometry, &verdict, proposal.standing, Some(option)),
        None => Vec::new(),
    }
}

/// Says where the needles rely on a line that the user has asked for.
fn held_apart(job: &Job, geometry: &Geometry) -> Vec<Reason> {
    (0..job.above.len())
        .filter(|i| floor_line::held(job, geometry, *i) == Some(floor_line::Held::Apart))
        .map(|i| {
            Reason::new(
                "held_apart",
                format!(
                    "Floor {} is taken off the needles: they rely on its own line, which must stand, tight, before the first hole is cut and until the new beam carries.",
                    i + 1
                ),
            )
        })
        .collect()
}

/// The needles must lie over the new beam: 50 mm at the least.
fn soffit_problem(job: &Job, geometry: &Geometry) -> Option<Problem> {
    let least = geometry.beam_top_m + OVER_BEAM_M;
    let given = job.opening.needle_soffit_m?;
    (given < least - 1e-9).then(|| {
        Problem::new(
            "/opening/needle_soffit_m",
            format!(
                "{given:.3} m lies less than 50 mm over the new beam's top at {:.3} m",
                geometry.beam_top_m
            ),
            format!("at least {least:.3} m, or empty"),
        )
    })
}

fn why_close(option: &Opt) -> Vec<Reason> {
    let mut out = Vec::new();
    if option.worst_utilisation > CLOSE {
        out.push(Reason::new(
            "near_limit",
            "This option uses more than 90 % of what its weakest part can do.",
        ));
    }
    if option
        .one_lost
        .iter()
        .any(|lost| lost.utilisation.is_none_or(|u| u > 1.0))
    {
        let what = if option.kind == "brackets" { "bracket" } else { "needle" };
        out.push(Reason::new("one_lost", format!("If one {what} is lost the others are asked for more than they can do: guard it against knocks, keep spares on site.")));
    }
    if option.movement.utilisation > 1.0 {
        out.push(Reason::new(
            "movement",
            format!(
                "Neighbours or sides may settle {:.1} mm apart: more than 3 mm.",
                option.movement.worst_difference_mm
            ),
        ));
    }
    out
}

fn standing(refusal: Option<RefusalKind>, options: &[Opt]) -> Standing {
    if refusal.is_some() {
        return Standing::NeedsOwnDesign;
    }
    if options.is_empty() {
        return Standing::DoesNotHold;
    }
    if options.iter().any(|option| option.standing == Standing::Holds) {
        Standing::Holds
    } else {
        Standing::Close
    }
}

fn basis(annex: Annex, national: &NationalParameters) -> Vec<String> {
    let actions = format!(
        "Actions EN 1990 6.10, {} G + {} Q; masonry EN 1996-1-1; steel EN 1993-1-1 and EN 1993-1-5, γM {} for hired steel; timber EN 1995-1-1; {}.",
        national.gamma_g.value,
        national.gamma_q.value,
        national.gamma_m_hired.value,
        annex.words()
    );
    [
        "Needles carry everything above; no arching is counted on.",
        &actions,
        "Prop loads: CIRIA Technical Note 79 (1977) tables, EN 1065 classes or the maker's sheet, with 25 mm off centre at the head and 1.5° of lean.",
        "Not an independent check: this is a proposal, and whoever selects it takes on a designer's duties (BS 5975:2019, read in secondary texts).",
    ]
    .map(str::to_owned)
    .to_vec()
}

fn cautions(verdict: &Verdict, refusal: Option<RefusalKind>) -> Vec<String> {
    let mut out = vec![CAUTION.to_owned()];
    if verdict.independent_check_needed {
        out.push("With a storey above, an independent checker is needed: BS 5975-1:2024 Table 2 (read in secondary texts) gives needling in single-storey construction as its example of category 1.".to_owned());
    }
    if refusal == Some(RefusalKind::EngineerFirst) {
        out.push("For your engineer to check, not to build from.".to_owned());
    }
    out
}

fn load(scene: &Scene<'_>, down: &TakeDown) -> Load {
    let (left, right) = (scene.geometry.cut_left_m, scene.geometry.cut_right_m);
    let mut total = Shares::default();
    let mut breaks = vec![left, right];
    for steps in &down.straight {
        total = total.plus(&steps.between(left, right));
        breaks.extend(
            steps
                .breaks()
                .iter()
                .copied()
                .filter(|x| *x > left + 1e-9 && *x < right - 1e-9),
        );
    }
    breaks.sort_by(f64::total_cmp);
    breaks.dedup_by(|a, b| (*a - *b).abs() < 1e-9);
    let middle: Vec<f64> = breaks
        .iter()
        .zip(breaks.iter().skip(1))
        .map(|(a, b)| 0.5 * (a + b))
        .collect();
    let at = |part: fn(&Shares) -> f64| -> Vec<f64> {
        middle
            .iter()
            .map(|x| down.straight.iter().map(|steps| part(&steps.at(*x))).sum())
            .collect()
    };
    let (g, q) = (at(Shares::permanent), at(Shares::imposed));
    let largest = g.iter().zip(&q).map(|(g, q)| g + q).fold(0.0, f64::max);
    let part = |what: &str, dead: Channel, imposed: Option<Channel>| LoadPart {
        what: what.to_owned(),
        dead_kn: total.get(dead),
        imposed_kn: imposed.map_or(0.0, |channel| total.get(channel)),
    };
    let mut parts = vec![
        part("wall", Channel::WallG, None),
        part("floor", Channel::FloorG, Some(Channel::FloorQ)),
        part("roof", Channel::RoofG, Some(Channel::RoofQ)),
        LoadPart {
            what: "snow".to_owned(),
            dead_kn: 0.0,
            imposed_kn: total.get(Channel::SnowQ),
        },
        part("point", Channel::PointG, Some(Channel::PointQ)),
    ];
    parts.retain(|part| part.dead_kn + part.imposed_kn > 0.0);
    Load {
        total_service_kn: service(&total),
        total_strength_kn: strength(&total, scene.national),
        mean_service_kn_m: service(&total) / (right - left),
        largest_service_kn_m: largest,
        parts,
        pieces: crate::pieces::pieces(scene.job, scene.geometry, scene.national),
        profile: Profile {
            x_m: breaks,
            g_kn_m: g,
            q_kn_m: q,
        },
    }
}

/// The longest prop that is missing, where no prop at hand is long enough.
fn no_prop(scene: &Scene<'_>, nearest: &Opt) -> Option<Reason> {
    let longest = scene
        .props
        .iter()
        .filter_map(|prop| prop.data.usable_m().ok())
        .map(|(_, longest)| longest)
        .fold(0.0, f64::max);
    let asked = nearest
        .props
        .iter()
        .filter(|prop| prop.working_load_kn <= 0.0)
        .max_by(|a, b| a.length_m.total_cmp(&b.length_m))?;
    let missing = asked.length_m - longest;
    (missing > 1e-9).then(|| {
        Reason::new(
            "no_prop_long_enough",
            format!(
                "{} must be {:.2} m long; the longest prop at hand may be drawn out to {longest:.2} m (50 mm of adjustment kept): {missing:.2} m are missing. Props of two stages in line need their own design.",
                asked.name, asked.length_m
            ),
        )
    })
}

/// Why nothing passes, from the nearest candidate.
fn why_not(scene: &Scene<'_>, nearest: Option<&Opt>) -> Vec<Reason> {
    let Some(nearest) = nearest else {
        return vec![Reason::new(
            "no_layout",
            "No positions satisfy the rules of place: clear masonry, forbidden stretches, piers, ends.",
        )];
    };
    let mut failing: Vec<_> = nearest
        .checks
        .iter()
        .filter(|check| check.utilisation > 1.0 + 1e-9)
        .collect();
    failing.sort_by(|a, b| b.utilisation.total_cmp(&a.utilisation));
    failing.dedup_by(|a, b| a.name == b.name);
    let mut out: Vec<Reason> = no_prop(scene, nearest).into_iter().collect();
    for check in failing {
        if check.name == "prop" && out.iter().any(|reason| reason.code == "no_prop_long_enough") {
            continue;
        }
        if out.iter().any(|reason| reason.code == check.name) {
            continue;
        }
        if check.name == "raker_room" {
            let side = if check.at.ends_with("-in") { "inside" } else { "outside" };
            out.push(Reason::new(
                "raker_room",
                format!(
                    "No raker fits {side}: as steep as it may stand it needs {:.2} m of room from the wall's face, {:.2} m are there. Clear more room there, or have the engineer tie the heads to a return, a cross wall or a floor.",
                    check.demand, check.resistance
                ),
            ));
        } else if check.name == "room_under_plate" {
            let missing = (nearest.needle_top_m - scene.geometry.top_m) * 1000.0;
            out.push(Reason::new(
                "no_room_under_plate",
                format!("The needle does not fit under the wall plate: {missing:.0} mm are missing."),
            ));
        } else {
            out.push(Reason::new(
                &check.name,
                format!(
                    "{} at {}: asked {:.2} {}, can {:.2} {}.",
                    check_words_for(scene.leaves.len(), &check.name),
                    check.at,
                    check.demand,
                    check.unit,
                    check.resistance,
                    check.unit
                ),
            ));
        }
    }
    out
}
