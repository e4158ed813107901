//! From a found row of brackets to an option of the contract.

use super::hold::{hold, leaf_word};
use super::row::{Line, Row};
use super::spacing_m;
use crate::brief::{check_words, sentence};
use crate::candidate::LegChoice;
use crate::checks::lost::{Goes, Line as LostLine};
use crate::checks::movement::{DIFFERENCE_MM, Leg, THREAD_MM, movement};
use crate::checks::{At, Full, Worst, is_geometry};
use crate::legs::leg_length_m;
use crate::proposal::{BracketProp, Check, OneLost, Opt, Part, Prop, Reason, Standing};
use crate::props::strut::{E_N_MM2, Tube};
use crate::steps::Steps;

/// Masses of small parts, kg: a prop-head bracket, a fixing of a head or foot, a coupler, a metre of waling. Own estimates.
const BRACKET_KG: f64 = 8.0;
const FIXING_KG: f64 = 0.3;
const COUPLER_KG: f64 = 1.2;
/// Mass of a scaffold tube 48.3 × 3.2, kg/m: area × 7850 kg/m³.
const TUBE_KG_M: f64 = 3.56;

/// All checks of a row with their derivations.
pub fn checks(row: &Row<'_, '_>, axes: &[f64], legs: &[LegChoice]) -> Vec<Check> {
    let mut full = Full::default();
    row.check(axes, legs, &mut full);
    hold(row, legs).check(&mut full);
    full.checks
}

/// Why a row fails, one reason for each kind of check.
pub fn why_not(row: &Row<'_, '_>, axes: &[f64], legs: &[LegChoice]) -> Vec<Reason> {
    let mut failing: Vec<Check> = checks(row, axes, legs)
        .into_iter()
        .filter(|check| check.utilisation > 1.0 + 1e-9)
        .collect();
    failing.sort_by(|a, b| b.utilisation.total_cmp(&a.utilisation));
    let mut out: Vec<Reason> = Vec::new();
    for check in failing {
        if out.iter().all(|reason| reason.code != check.name) {
            let words = if is_geometry(&check.name) {
                let steps = check.steps.join("; ");
                format!("{} at {}: {steps}.", sentence(&check_words(&check.name)), check.at)
            } else {
                format!(
                    "{} at {}: asked {:.2} {}, can {:.2} {}.",
                    sentence(&check_words(&check.name)),
                    check.at,
                    check.demand,
                    check.unit,
                    check.resistance,
                    check.unit
                )
            };
            out.push(Reason::new(&check.name, words));
        }
    }
    out
}

/// Builds the option. Brackets are never better than close: they hang on one typed-in figure and on props in bending. Own
/// judgement.
pub fn option(row: &Row<'_, '_>, axes: &[f64], legs: &[LegChoice]) -> Option<Opt> {
    let scene = row.scene;
    let checks = checks(row, axes, legs);
    let held = hold(row, legs);
    let (mut props, mut feet, mut one_lost) = (Vec::new(), Vec::new(), Vec::new());
    let mut pairs: Vec<Vec<Leg>> = vec![Vec::new(); axes.len()];
    let mut tips_mm = vec![0.0_f64; axes.len()];
    for (line, choice) in row.lines.iter().zip(legs) {
        let boards = scene.boards.get(choice.boards)?;
        let ready = choice.prop.and_then(|p| scene.props.get(p))?;
        let found = row.ratings.get(line.side, choice.boards, choice.prop)?;
        let length_m = leg_length_m(scene.job, scene.geometry, line.side, boards);
        let can = row.can_kn(*line, *choice);
        let tubes = ready.data.tubes().ok()?;
        let [inner_d, inner_t] = tubes.inner_mm;
        let i_mm4 = Tube::round(inner_d, inner_t).i_mm4;
        for (i, (x, load)) in axes.iter().zip(row.loads(axes, *line)).enumerate() {
            let at = At::Bracket(i, line.side);
            let foot = row
                .leg(i, *line, *choice, load, 1e6, &mut Worst::default())?
                .foot(at, boards);
            let (service, _) = load;
            props.push(Prop {
                name: at.to_string(),
                needle: String::new(),
                side: line.side.word().to_owned(),
                kind: ready.kind.clone(),
                size: ready.size.clone(),
                length_m,
                load_kn: service,
                working_load_kn: can,
                kappa: found.kappa,
                utilisation: if can > 0.0 { (service / can).min(99.0) } else { 99.0 },
                bracket: Some(BracketProp {
                    x_m: *x,
                    y_mm: row.axis_mm(*line),
                    leaf: leaf_word(line.leaf, scene.leaves.len(), line.side).to_owned(),
                    arm_mm: row.kit.arm_mm,
                    rated_kn: row.kit.rated_kn.unwrap_or(0.0),
                }),
            });
            if let (Some(pair), Some(tip)) = (pairs.get_mut(i), tips_mm.get_mut(i)) {
                pair.push(Leg {
                    load_kn: service,
                    length_m,
                    outer_m: ready.outer_m,
                    outer_mm2: ready.outer_mm2,
                    inner_mm2: ready.inner_mm2,
                    board_mm: boards.thickness_mm(),
                    ground_use: foot.utilisation,
                });
                *tip = tip.max(tip_mm(service, row.kit.arm_mm, length_m, (i_mm4, found.r_kn)));
            }
            feet.push(foot);
        }
        one_lost.extend(lost(row, axes, *line, *choice));
    }
    let pairs: Vec<[Leg; 2]> = pairs
        .iter()
        .map(|pair| match pair.as_slice() {
            [one, other, ..] => [*one, *other],
            [one] => [*one, *one],
            [] => [Leg::default(); 2],
        })
        .collect();
    let mut movement = movement(&pairs, &tips_mm);
    // The masonry beside the opening stays where it is: half of what the tips sink is left after tightening.
    let beside = 0.5 * tips_mm.iter().copied().fold(0.0, f64::max);
    if beside > movement.worst_difference_mm {
        movement.worst_difference_mm = beside;
        movement.utilisation = beside / DIFFERENCE_MM;
    }
    movement.turns += beside / THREAD_MM;
    let worst = checks
        .iter()
        .filter(|check| !is_geometry(&check.name))
        .max_by(|a, b| a.utilisation.total_cmp(&b.utilisation));
    let worst_utilisation = worst.map_or(0.0, |check| check.utilisation);
    let governs = worst.map_or_else(String::new, |check| format!("{} at {}", check.name, check.at));
    let parts = parts(row, axes, legs, held.rakers, held.raker_m);
    let pieces: f64 = row.lines.iter().zip(legs).fold(0.0, |sum, (_, choice)| {
        let boards = scene.boards.get(choice.boards).map_or(0, |boards| boards.pieces);
        sum + axes.len() as f64 * (2.0 + f64::from(boards))
    });
    Some(Opt {
        kind: "brackets".to_owned(),
        by: "tool".to_owned(),
        aim: "fewest".to_owned(),
        objective: pieces,
        standing: if checks.iter().all(|check| check.utilisation <= 1.0 + 1e-9) {
            Standing::Close
        } else {
            Standing::DoesNotHold
        },
        worst_utilisation,
        governs,
        needle_soffit_m: scene.geometry.soffit_m,
        needle_top_m: scene.geometry.soffit_m,
        spacing_m: spacing_m(axes),
        needles: Vec::new(),
        props,
        feet,
        bracing: held.bracing,
        floor_lines: Vec::new(),
        parts,
        checks,
        one_lost,
        movement,
    })
}

/// How far the bracket's tip sinks because the prop's head turns under it, mm: load × arm² × length ÷ (3 E I) of a pinned
/// strut with the moment at one end, the inner tube all along, and more as the load nears first yield (taken as the
/// critical load). An upper bound [own model].
fn tip_mm(load_kn: f64, arm_mm: f64, length_m: f64, (i_mm4, r_kn): (f64, f64)) -> f64 {
    let first_order = load_kn * 1e3 * arm_mm * arm_mm * length_m * 1e3 / (3.0 * E_N_MM2 * i_mm4);
    first_order / (1.0 - load_kn / r_kn.max(1e-6)).max(0.1)
}

/// One bracket of a line lost: the others of that line and the masonry beside carry its leaf.
fn lost(row: &Row<'_, '_>, axes: &[f64], line: Line, choice: LegChoice) -> Vec<OneLost> {
    let scene = row.scene;
    let jamb = |beside: f64| {
        let wide = beside >= (0.2 * scene.geometry.cut_width_m()).max(0.6) - 1e-9;
        wide && scene.job.wall.condition == crate::job::Condition::Sound
    };
    let Some(found) = row.ratings.get(line.side, choice.boards, choice.prop) else {
        return Vec::new();
    };
    // The prop 1.5 times what it may carry and never beyond first yield, the ground 1.5 times what is allowed; the bracket
    // itself no more than its rated load, since nothing is known of how it fails. Own judgement.
    let resistance: Vec<f64> = row
        .loads(axes, line)
        .into_iter()
        .enumerate()
        .map(|(i, load)| {
            let pressed = row.leg(i, line, choice, load, 1e6, &mut Worst::default());
            let foot = pressed.zip(scene.boards.get(choice.boards));
            let foot = foot.map(|(pressed, boards)| pressed.foot(At::Bracket(i, line.side), boards));
            let ground = foot.map_or(f64::INFINITY, |foot| 1.5 * load.0 / foot.utilisation.max(1e-9));
            (1.5 * found.can_kn)
                .min(found.r_kn)
                .min(ground)
                .min(row.kit.rated_kn.unwrap_or(0.0))
        })
        .collect();
    let names: Vec<String> = (0..axes.len()).map(|i| At::Bracket(i, line.side).to_string()).collect();
    let leaves: Vec<&Steps> = row.burden.loads.straight(line.leaf).into_iter().collect();
    LostLine {
        axes,
        names: &names,
        goes: Goes::BRACKET,
        resistance_kn: &resistance,
        cut: (scene.geometry.cut_left_m, scene.geometry.cut_right_m),
        jambs: (jamb(scene.beside_m.0), jamb(scene.beside_m.1)),
        national: scene.national,
    }
    .lose_each(&leaves)
}

fn parts(row: &Row<'_, '_>, axes: &[f64], legs: &[LegChoice], rakers: u32, raker_m: f64) -> Vec<Part> {
    let scene = row.scene;
    let n = axes.len() as u32;
    let all = n * row.lines.len() as u32;
    let mut out: Vec<Part> = Vec::new();
    let mut add = |what: String, count: u32, mass_kg: f64| match out.iter_mut().find(|part| part.what == what) {
        Some(part) => part.count += count,
        None => out.push(Part { what, count, mass_kg }),
    };
    add(
        format!("prop-head bracket, arm {:.0} mm, one of them spare", row.kit.arm_mm),
        all + 1,
        BRACKET_KG,
    );
    for choice in legs {
        if let Some(ready) = choice.prop.and_then(|p| scene.props.get(p)) {
            add(format!("adjustable steel prop, {}", ready.words), n, ready.mass_kg);
        }
        if let Some(boards) = scene.boards.get(choice.boards) {
            add(format!("{}, C24, under one prop", boards.words), n, boards.mass_kg());
        }
    }
    if let Some(ready) = legs.first().and_then(|choice| scene.props.get(choice.prop?)) {
        add(
            format!("spare adjustable steel prop, {}", ready.words),
            1,
            ready.mass_kg,
        );
    }
    let [along, into] = row.kit.plate_mm;
    add(
        format!("steel shims {along:.0} × {into:.0} mm between plate and masonry, a set"),
        all,
        along * into * 5.0 * 7.85e-6,
    );
    let waling = scene.geometry.cut_width_m() + 1.2;
    add(
        format!("waling along the wall, tube 48.3 × 3.2, {waling:.2} m"),
        2,
        waling * TUBE_KG_M,
    );
    add(
        format!("raker, tube 48.3 × 3.2, {raker_m:.2} m, with kicker"),
        2 * rakers,
        raker_m * TUBE_KG_M,
    );
    add(
        "coupler or clamp for the real diameters".to_owned(),
        4 * rakers,
        COUPLER_KG,
    );
    add(
        "fixing of a head or foot (bolts or screws)".to_owned(),
        2 * all + 4 * rakers,
        FIXING_KG,
    );
    out
}
