//! From a found candidate to an option of the contract: needles, props, feet, bracing, parts, checks, one lost, movement.

use crate::candidate::{check_all, loaded, needle_top_m};
use crate::checks::feet;
use crate::checks::lost::{Goes, Line};
use crate::checks::movement::{Leg, movement};
use crate::checks::needle::{OVERHANG_MM, deflection_mm, worst_reaction_kn};
use crate::checks::sideways::{self, Braced, Frame};
use crate::checks::{At, Full, Side, Worst, is_geometry};
use crate::floor_line::{self, Beside};
use crate::legs::prop_length_m;
use crate::proposal::{Check, Foot, Needle, OneLost, Opt, Part, Prop, Standing};
use crate::propose::{Aim, CLOSE, Found};
use crate::scene::Scene;
use crate::steps::Steps;

/// Masses of small parts, kg: a pair of wedges, a coupler, the bolts or screws of one head or foot. Own estimates.
const WEDGES_KG: f64 = 0.6;
const COUPLER_KG: f64 = 1.2;
const FIXING_KG: f64 = 0.3;
/// Mass of a scaffold tube 48.3 × 3.2, kg/m: area × 7850 kg/m³.
const TUBE_KG_M: f64 = 3.56;

/// Builds an option from what was found. `capped` says whether something outside the option caps it at `close`.
#[must_use]
pub fn option(scene: &Scene<'_>, aim: Aim, found: &Found, capped: bool) -> Option<Opt> {
    let section = scene.sections.get(found.candidate.section)?;
    let candidate = &found.candidate;
    let mut full = Full::default();
    check_all(scene, &found.axes, &found.loads, candidate, &mut full);
    let (mut props, mut feet, mut legs) = (Vec::new(), Vec::new(), Vec::new());
    let mut needles = Vec::new();
    for (i, (x, load)) in found.axes.iter().zip(&found.loads).enumerate() {
        needles.push(Needle {
            name: At::Needle(i).to_string(),
            x_m: *x,
            section: section.name.clone(),
            inside_y_mm: candidate.inside_mm,
            outside_y_mm: candidate.outside_mm,
            span_m: (candidate.inside_mm - candidate.outside_mm) / 1000.0,
            pack_mm: candidate.pack_mm,
            lever_kn: load.lever_kn,
            continuous_kn: load.continuous_kn,
            load_kn: load.load_kn,
        });
        let bridge = loaded(scene, load, &section.member, candidate.inside_mm, candidate.outside_mm);
        let mut pair = [Leg::default(); 2];
        for ((side, choice), leg) in [(Side::Inside, candidate.inside), (Side::Outside, candidate.outside)]
            .into_iter()
            .zip(&mut pair)
        {
            let boards = scene.boards.get(choice.boards)?;
            let (service, strength) = (
                worst_reaction_kn(&bridge.service, side),
                worst_reaction_kn(&bridge.strength, side),
            );
            let at = At::Prop(i, side);
            let length_m = prop_length_m(scene, side, boards);
            let under = if side == Side::Inside {
                scene.under_inside
            } else {
                scene.under_outside
            };
            let foot = feet::check(
                boards,
                under,
                at,
                service,
                strength,
                scene.timber(),
                &mut Worst::default(),
            )
            .foot(at, boards);
            if let Some(ready) = choice.prop.and_then(|p| scene.props.get(p)) {
                let rated = choice.prop.and_then(|p| scene.rating(side, choice.boards, p));
                let (working, kappa) = rated.map_or((0.0, 0.0), |rating| (rating.working_load_kn, rating.kappa));
                props.push(Prop {
                    name: at.to_string(),
                    needle: At::Needle(i).to_string(),
                    side: side.word().to_owned(),
                    kind: ready.kind.clone(),
                    size: ready.size.clone(),
                    length_m,
                    load_kn: service,
                    working_load_kn: working,
                    kappa,
                    utilisation: if working > 0.0 { service / working } else { 99.0 },
                    bracket: None,
                });
                *leg = Leg {
                    load_kn: service,
                    length_m,
                    outer_m: ready.outer_m,
                    outer_mm2: ready.outer_mm2,
                    inner_mm2: ready.inner_mm2,
                    board_mm: boards.thickness_mm(),
                    ground_use: foot.utilisation,
                };
            }
            feet.push(foot);
        }
        legs.push(pair);
    }
    let needle_m = (found.candidate.inside_mm - found.candidate.outside_mm + 2.0 * OVERHANG_MM) / 1000.0;
    let needle_kn = section.member.mass_kg_m() * 9.81e-3 * needle_m;
    let v_kn = found.loads.iter().map(|load| load.lever_kn + needle_kn).sum::<f64>();
    let frame = Frame {
        v_kn,
        permanent_kn: scene.permanent_kn(),
        axes: &found.axes,
        heads_m: [
            (candidate.inside_mm - scene.geometry.thickness_mm) / 1000.0,
            -candidate.outside_mm / 1000.0,
        ],
    };
    let braced = sideways::brace(scene.job, scene.geometry, &frame, scene.national);
    sideways::check(&braced, &mut full);
    let needles_mm: Vec<f64> = found
        .loads
        .iter()
        .map(|load| {
            deflection_mm(
                &loaded(scene, load, &section.member, candidate.inside_mm, candidate.outside_mm),
                &section.member,
            )
        })
        .collect();
    let mut braced = braced;
    if floor_line::passed_inside(scene.job, scene.geometry) {
        braced.bracing.way.push(
            "Inside, props and rakers pass through the floor between two joists; no joist is cut for them. Where that cannot be, the bracing needs its own design."
                .to_owned(),
        );
    }
    let movement = movement(&legs, &needles_mm);
    let mut one_lost = one_lost(scene, found, &props, &feet, &full.checks);
    let lines = floor_line::lines(scene, &beside(scene, found, &props));
    one_lost.extend(lines.iter().flat_map(|designed| designed.one_lost.iter().cloned()));
    // A floor's own line is part of the option, with its checks and its parts.
    let of_lines = || lines.iter().flat_map(|designed| &designed.line.checks);
    let worst = full
        .checks
        .iter()
        .chain(of_lines())
        .filter(|check| !is_geometry(&check.name))
        .max_by(|a, b| a.utilisation.total_cmp(&b.utilisation));
    let worst_utilisation = worst.map_or(0.0, |check| check.utilisation);
    let passes = full.checks.iter().all(|check| check.utilisation <= 1.0 + 1e-9)
        && lines.iter().all(|designed| designed.line.stands());
    let lost_too_much = one_lost.iter().any(|lost| lost.utilisation.is_none_or(|u| u > 1.0));
    let standing = if !passes {
        Standing::DoesNotHold
    } else if worst_utilisation > CLOSE || capped || lost_too_much || movement.utilisation > 1.0 {
        Standing::Close
    } else {
        Standing::Holds
    };
    // What fails outside strength is what decides where something fails there.
    let misfit = full
        .checks
        .iter()
        .chain(of_lines())
        .find(|check| is_geometry(&check.name) && check.utilisation > 1.0 + 1e-9);
    let governs = misfit
        .or(worst)
        .map_or_else(String::new, |check| format!("{} at {}", check.name, check.at));
    let governs_worst = misfit.map_or(worst_utilisation, |check| check.utilisation.max(worst_utilisation));
    let mut parts = parts(scene, found, &braced);
    for part in lines.iter().flat_map(|designed| &designed.parts) {
        match parts.iter_mut().find(|listed| listed.what == part.what) {
            Some(listed) => listed.count += part.count,
            None => parts.push(part.clone()),
        }
    }
    let spacing_m = found
        .axes
        .iter()
        .zip(found.axes.iter().skip(1))
        .map(|(a, b)| b - a)
        .fold(0.0, f64::max);
    Some(Opt {
        kind: "needles".to_owned(),
        by: "tool".to_owned(),
        aim: aim.word().to_owned(),
        objective: found.judged.objective(aim),
        standing,
        worst_utilisation: governs_worst,
        governs,
        needle_soffit_m: scene.geometry.soffit_m,
        needle_top_m: needle_top_m(scene, &section.member, candidate.pack_mm),
        spacing_m,
        needles,
        props,
        feet,
        bracing: braced.bracing,
        floor_lines: lines.into_iter().map(|designed| designed.line).collect(),
        parts,
        checks: full.checks,
        one_lost,
        movement,
    })
}

/// The needles' props, as the floors' own lines see them.
fn beside(scene: &Scene<'_>, found: &Found, props: &[Prop]) -> Beside {
    let most = |side: Side| {
        let on_side = props.iter().filter(|prop| prop.side == side.word());
        on_side.map(|prop| prop.load_kn).fold(0.0, f64::max)
    };
    let candidate = &found.candidate;
    let spacing = found
        .axes
        .iter()
        .zip(found.axes.iter().skip(1))
        .map(|(a, b)| (b - a) * 1000.0);
    Beside {
        distance_mm: [candidate.inside_mm - scene.geometry.thickness_mm, -candidate.outside_mm],
        boards: [candidate.inside.boards, candidate.outside.boards],
        spacing_mm: spacing.fold(1e6, f64::min),
        load_kn: [most(Side::Inside), most(Side::Outside)],
    }
}

fn one_lost(scene: &Scene<'_>, found: &Found, props: &[Prop], feet: &[Foot], checks: &[Check]) -> Vec<OneLost> {
    let jamb = |beside: f64| {
        let wide = beside >= (0.2 * scene.geometry.cut_width_m()).max(0.6) - 1e-9;
        wide && scene.job.wall.condition == crate::job::Condition::Sound
    };
    // A needle carries in an accident what its weaker leg carries, and what the needle itself carries at strength. A prop
    // of which only a working load is known carries 1.5 times that, and never more than the strut's first yield; the
    // ground 1.5 times what it is allowed (both own judgement).
    let resistance: Vec<f64> = found
        .loads
        .iter()
        .enumerate()
        .map(|(i, load)| {
            let name = At::Needle(i).to_string();
            let leg = |side: Side, choice: crate::candidate::LegChoice| {
                let at = At::Prop(i, side).to_string();
                let prop = props.iter().find(|prop| prop.name == at && prop.load_kn > 0.0)?;
                let rating = choice.prop.and_then(|p| scene.rating(side, choice.boards, p))?;
                let ground = feet
                    .iter()
                    .find(|foot| foot.prop == at)
                    .map_or(f64::INFINITY, |foot| 1.5 * prop.load_kn / foot.utilisation.max(1e-9));
                let can = (1.5 * prop.working_load_kn).min(rating.r_state_kn).min(ground);
                Some(load.load_kn * can / prop.load_kn)
            };
            let by_legs = [
                (Side::Inside, found.candidate.inside),
                (Side::Outside, found.candidate.outside),
            ]
            .into_iter()
            .map(|(side, choice)| leg(side, choice).unwrap_or(0.0))
            .fold(f64::INFINITY, f64::min);
            let strength: f64 = load.strength_kn.iter().sum();
            let of_needle = |check: &&Check| {
                check.at == name
                    && (check.name.starts_with("needle_") || check.name.starts_with("timber_"))
                    && !matches!(check.name.as_str(), "needle_bending_service" | "needle_deflection")
                    && check.utilisation > 0.0
            };
            let by_needle = checks
                .iter()
                .filter(of_needle)
                .map(|check| strength / check.utilisation)
                .fold(f64::INFINITY, f64::min);
            by_legs.min(by_needle)
        })
        .collect();
    let names: Vec<String> = (0..found.axes.len()).map(|i| At::Needle(i).to_string()).collect();
    let line = Line {
        axes: &found.axes,
        names: &names,
        goes: Goes::NEEDLE,
        resistance_kn: &resistance,
        cut: (scene.geometry.cut_left_m, scene.geometry.cut_right_m),
        jambs: (jamb(scene.beside_m.0), jamb(scene.beside_m.1)),
        national: scene.national,
    };
    // Each loss is judged for either way of coming down, and the harder one is told.
    let ways: Vec<Vec<OneLost>> = scene
        .loads
        .ways()
        .map(|leaves| line.lose_each(&leaves.iter().collect::<Vec<&Steps>>()))
        .collect();
    let harder = |a: OneLost, b: OneLost| match (a.utilisation, b.utilisation) {
        (None, _) => a,
        (_, None) => b,
        (Some(x), Some(y)) => {
            if y > x {
                b
            } else {
                a
            }
        }
    };
    ways.into_iter()
        .reduce(|a, b| a.into_iter().zip(b).map(|(a, b)| harder(a, b)).collect())
        .unwrap_or_default()
}

fn parts(scene: &Scene<'_>, found: &Found, braced: &Braced) -> Vec<Part> {
    let candidate = &found.candidate;
    let Some(section) = scene.sections.get(candidate.section) else {
        return Vec::new();
    };
    let n = found.axes.len() as u32;
    let length = (candidate.inside_mm - candidate.outside_mm + 2.0 * OVERHANG_MM) / 1000.0;
    let mut out = vec![Part {
        what: format!("needle {} of {length:.2} m, one of them spare", section.name),
        count: n + 1,
        mass_kg: section.member.mass_kg_m() * length,
    }];
    let mut add = |what: String, count: u32, mass_kg: f64| match out.iter_mut().find(|part| part.what == what) {
        Some(part) => part.count += count,
        None => out.push(Part { what, count, mass_kg }),
    };
    for choice in [candidate.inside, candidate.outside] {
        if let Some(ready) = choice.prop.and_then(|p| scene.props.get(p)) {
            add(format!("adjustable steel prop, {}", ready.words), n, ready.mass_kg);
        }
    }
    if let Some(ready) = candidate.inside.prop.and_then(|p| scene.props.get(p)) {
        add(
            format!("spare adjustable steel prop, {}", ready.words),
            1,
            ready.mass_kg,
        );
    }
    for choice in [candidate.inside, candidate.outside] {
        if let Some(boards) = scene.boards.get(choice.boards) {
            add(format!("{}, C24, under one prop", boards.words), n, boards.mass_kg());
        }
    }
    let leaves = scene.leaves.len() as u32;
    if candidate.pack_mm > 0.0 {
        let width = section.member.width_mm() + 2.0 * candidate.pack_mm;
        let mass =
            width * scene.leaves.iter().map(|leaf| leaf.thickness_mm).fold(0.0, f64::max) * candidate.pack_mm * 7.85e-6;
        add(
            format!(
                "steel pack {:.0} mm, {width:.0} mm wide, over the {}",
                candidate.pack_mm,
                if leaves > 1 {
                    "full leaf"
                } else {
                    "wall's full thickness"
                }
            ),
            n * leaves,
            mass,
        );
    }
    add(
        format!(
            "pair of hardwood or steel wedges over {}",
            if leaves > 1 {
                "each leaf"
            } else {
                "the wall's full thickness"
            }
        ),
        n * leaves,
        WEDGES_KG,
    );
    add(
        format!("diagonal, tube 48.3 × 3.2, {:.2} m", braced.diagonal_m),
        2 * braced.diagonals_per_line,
        braced.diagonal_m * TUBE_KG_M,
    );
    let mut rakers = 0;
    for (raker, count) in braced.rakers.iter().flatten() {
        rakers += count;
        add(
            format!("raker, tube 48.3 × 3.2, {:.2} m, with kicker", raker.length_m),
            *count,
            raker.length_m * TUBE_KG_M,
        );
    }
    if let Some(tie) = braced.tie {
        add(
            "tie 47 × 100 mm, C16, 0.90 m, from rail to joist".to_owned(),
            tie.joists,
            2.0,
        );
        add(
            "rail 100 × 50 mm, C16, along the needles' ends".to_owned(),
            1,
            2.3 * scene.geometry.cut_width_m(),
        );
        add("screw 5 × 100, tie to joist and rail".to_owned(), 4 * tie.joists, 0.015);
    }
    let run = found
        .axes
        .last()
        .zip(found.axes.first())
        .map_or(0.0, |(last, first)| last - first)
        + 0.6;
    add(format!("lacing, tube 48.3 × 3.2, {run:.2} m"), 4, run * TUBE_KG_M);
    add(
        "coupler or clamp for the real diameters".to_owned(),
        4 * n + 4 * braced.diagonals_per_line + 2 * rakers,
        COUPLER_KG,
    );
    add(
        "fixing of a head or foot (bolts or screws)".to_owned(),
        4 * n,
        FIXING_KG,
    );
    out
}
