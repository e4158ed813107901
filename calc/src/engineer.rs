//! The engineer's answer: an arrangement built with the engineer's figures where given, checked by the tool's own method,
//! and compared with the tool's in words either way.
//!
//! Nothing is hidden and nobody is overruled: where the engineer's figures are lighter than the tool's and its own checks
//! fail, it says so with numbers and asks to ring the engineer.

use crate::assemble;
use crate::brief::{check_words_for, leaves_of};
use crate::candidate::check_all;
use crate::checks::{Full, is_geometry};
use crate::geometry::Geometry;
use crate::job::{EngineersAnswer, Fix, Job};
use crate::layout::fault;
use crate::plan::{evenly, in_words};
use crate::proposal::{Check, Compared, Load, Opt, Reason, RefusalKind, Standing};
use crate::propose::{Aim, Found, search};
use crate::scene::Scene;
use crate::takedown::take_down;

/// Rules of practice for where needles stand: an engineer may have reasons to do otherwise.
const RULES: [&str; 4] = ["arch_loose", "clear_masonry", "end_bay_width", "prop_distance"];

/// Least share of the weights found here that an engineer's load may be without a word: imposed load can be kept off, a wall
/// cannot. Own judgement.
const LEAST_WEIGHT: f64 = 0.9;

/// The answer held against the tool's own figures.
#[derive(Clone, Debug)]
pub struct Judged {
    /// What was compared, with the arrangement that follows from the answer.
    pub compared: Compared,
    /// Whether the arrangement passes the checks with the engineer's own load and stands where needles may.
    pub passes: bool,
    /// The best that the job may be called, where the figures differ.
    pub at_most: Option<Standing>,
    /// Why.
    pub reasons: Vec<Reason>,
}

/// What follows from the engineer's figures.
struct Arranged {
    option: Option<Opt>,
    misfit: Option<String>,
    /// The worst check of the same arrangement under the tool's own load.
    under_own: Option<Check>,
}

/// Judges the answer. `capped` says whether something outside caps options at `close`.
#[must_use]
pub fn judge(
    job: &Job,
    answer: &EngineersAnswer,
    load: &Load,
    own: &[Opt],
    refusal: Option<RefusalKind>,
    capped: bool,
) -> Judged {
    let mut out = Judged {
        compared: figures(answer, load, own),
        passes: false,
        at_most: None,
        reasons: Vec::new(),
    };
    let said = answer.section.is_some() || answer.spacing_m.is_some() || answer.load_kn_m.is_some();
    if !said || refusal == Some(RefusalKind::NoModel) {
        return out;
    }
    match arrange(job, answer, (load, own), capped) {
        Ok(arranged) => {
            out.take(arranged, answer);
            out.too_light(answer, load);
        }
        Err(words) => {
            out.differs(
                Standing::Close,
                format!("The engineer's arrangement cannot be checked here: {words}"),
            );
        }
    }
    out
}

impl Judged {
    /// What the whole job may be called: what the engineer's own arrangement stands at, which is the one that is built.
    #[must_use]
    pub fn limit(&self, own: Standing) -> Standing {
        let built = match &self.compared.option {
            Some(option) if self.passes && own != Standing::DoesNotHold => option.standing,
            _ => own,
        };
        match (self.at_most, built) {
            (Some(Standing::DoesNotHold), _) | (_, Standing::DoesNotHold) => Standing::DoesNotHold,
            (Some(_), Standing::Holds) => Standing::Close,
            (_, other) => other,
        }
    }

    fn differs(&mut self, at_most: Standing, words: String) {
        let words = format!("{words} Ring the engineer and settle it before anything is loaded.");
        self.compared.compared.push(words.clone());
        self.reasons.push(Reason::new("engineer_differs", words));
        self.at_most = Some(at_most);
    }

    /// A load below what the masonry, floors and roof weigh here: a slip, tonnes for kN or the load of one needle, looks so.
    fn too_light(&mut self, answer: &EngineersAnswer, load: &Load) {
        let weights: f64 = load.parts.iter().map(|part| part.dead_kn).sum();
        let dead_kn_m = load.mean_service_kn_m * weights / load.total_service_kn.max(1e-9);
        let Some(given) = answer.load_kn_m.filter(|given| *given < LEAST_WEIGHT * dead_kn_m) else {
            return;
        };
        if let Some(option) = self
            .compared
            .option
            .as_mut()
            .filter(|option| option.standing == Standing::Holds)
        {
            option.standing = Standing::Close;
        }
        let at_most = self.at_most.unwrap_or(Standing::Close);
        self.differs(
            at_most,
            format!(
                "The engineer's load of {given:.1} kN/m is less than the weights alone found here, {dead_kn_m:.1} kN/m: is it in kN, and for a metre of wall?"
            ),
        );
    }

    fn take(&mut self, arranged: Arranged, answer: &EngineersAnswer) {
        let Some(mut option) = arranged.option else {
            self.differs(
                Standing::DoesNotHold,
                "No positions are found here for the engineer's figures.".to_owned(),
            );
            return;
        };
        option.by = "engineer".to_owned();
        if let Some(section) = &answer.section {
            self.compared.compared.push(format!(
                "Section {section}: here its best use is {:.0} %, {}.",
                (option.worst_utilisation * 100.0 - 1e-6).ceil(),
                option.governs
            ));
        }
        if let Some(misfit) = arranged.misfit {
            option.standing = Standing::Close;
            self.differs(
                Standing::Close,
                format!("Needles at the engineer's spacing do not stand where this tool would let them: {misfit}."),
            );
        } else if option.checks.iter().all(passing) {
            self.passes = true;
        }
        if let Some(worst) = failing(&option.checks) {
            let at_most = if RULES.contains(&worst.name.as_str()) {
                Standing::Close
            } else {
                Standing::DoesNotHold
            };
            option.standing = Standing::DoesNotHold;
            self.differs(
                at_most,
                format!("The engineer's arrangement fails here: {}.", in_figures(worst, &option)),
            );
        } else if let Some(worst) = &arranged.under_own
            && !passing(worst)
        {
            option.standing = Standing::Close;
            self.differs(
                Standing::Close,
                format!(
                    "The engineer's arrangement holds under the engineer's load; under the load found here it fails: {}.",
                    in_figures(worst, &option)
                ),
            );
        }
        self.compared.option = Some(option);
    }
}

fn passing(check: &Check) -> bool {
    check.utilisation <= 1.0 + 1e-9
}

fn failing(checks: &[Check]) -> Option<&Check> {
    let failing = checks.iter().filter(|check| !passing(check));
    // A check of strength says more than one of place.
    failing.max_by(|a, b| {
        let key = |c: &Check| (!is_geometry(&c.name), c.utilisation);
        key(a).partial_cmp(&key(b)).unwrap_or(std::cmp::Ordering::Equal)
    })
}

fn in_figures(check: &Check, option: &Opt) -> String {
    let leaves = leaves_of(option.checks.iter().map(|one| one.name.as_str()));
    format!(
        "{} at {}, asked {:.2} {} where it can {:.2} {}",
        check_words_for(leaves, &check.name),
        check.at,
        check.demand,
        check.unit,
        check.resistance,
        check.unit
    )
}

fn arrange(
    job: &Job,
    answer: &EngineersAnswer,
    (load, own): (&Load, &[Opt]),
    capped: bool,
) -> Result<Arranged, String> {
    // Where no spacing is said, the needles stay where the tool has them, if that can be; else it looks for places anew.
    let stand = job.fix.as_ref().and_then(|fix| fix.needles_x_m.as_ref());
    let first = own.iter().find(|option| option.kind == "needles");
    if let (None, None, Some(option)) = (answer.spacing_m, stand, first) {
        let places = option.needles.iter().map(|needle| needle.x_m).collect();
        let there = arranged(job, answer, load, Some(places), capped)?;
        if there
            .option
            .as_ref()
            .is_some_and(|option| option.checks.iter().all(passing))
        {
            return Ok(there);
        }
    }
    arranged(job, answer, load, None, capped)
}

fn arranged(
    job: &Job,
    answer: &EngineersAnswer,
    load: &Load,
    places: Option<Vec<f64>>,
    capped: bool,
) -> Result<Arranged, String> {
    let mut held = job.clone();
    held.builders_plan = None;
    let geometry = Geometry::of(&held, &mut Vec::new());
    let mut fix = job.fix.clone().unwrap_or_default();
    if answer.section.is_some() {
        fix.section.clone_from(&answer.section);
    }
    held.fix = Some(Fix {
        needles_x_m: None,
        ..fix.clone()
    });
    let national = held.site.parameters();
    let down = take_down(&held, &geometry, &national, &mut Vec::new());
    if let Some(spacing) = answer.spacing_m {
        let scene = Scene::of(&held, &geometry, &down, &national, &mut Vec::new()).map_err(|p| in_words(&p))?;
        fix.needles_x_m = Some(at_spacing(&scene, spacing));
    } else if places.is_some() {
        fix.needles_x_m = places;
    }
    held.fix = Some(fix);
    let mut scene = Scene::of(&held, &geometry, &down, &national, &mut Vec::new()).map_err(|p| in_words(&p))?;
    let own = scene.loads.clone();
    if let Some(given) = answer.load_kn_m {
        scene.loads = own.evenly(given / load.mean_service_kn_m.max(1e-9));
    }
    let found = search(&scene);
    let misfit = found.misfit;
    let best = found.best.into_iter().next().map(|(_, found)| found);
    let Some(chosen) = best.or(found.nearest) else {
        return Ok(Arranged {
            option: None,
            misfit,
            under_own: None,
        });
    };
    let option = assemble::option(&scene, Aim::Fewest, &chosen, capped);
    scene.loads = own;
    let under_own = worst_of(&scene, &chosen).or_else(|| sways(&scene, &chosen, option.as_ref()?));
    Ok(Arranged {
        option,
        misfit,
        under_own,
    })
}

/// What braces laid out for the engineer's load cannot hold under the loads of a scene.
fn sways(scene: &Scene<'_>, found: &Found, option: &Opt) -> Option<Check> {
    let own = Found {
        loads: scene.needles(&found.axes),
        ..found.clone()
    };
    let own = assemble::option(scene, Aim::Fewest, &own, false)?;
    let laid = [
        ("sideways_along", option.bracing.resistance_along_kn),
        ("sideways_across", option.bracing.resistance_across_kn),
    ];
    laid.into_iter().find_map(|(name, resistance)| {
        let check = own.checks.iter().find(|check| check.name == name)?;
        let held = Check {
            resistance,
            utilisation: (check.demand / resistance.max(1e-9)).min(99.0),
            ..check.clone()
        };
        (!passing(&held)).then_some(held)
    })
}

/// The worst check of an arrangement under the loads of a scene.
fn worst_of(scene: &Scene<'_>, found: &Found) -> Option<Check> {
    let mut full = Full::default();
    let loads = scene.needles(&found.axes);
    check_all(scene, &found.axes, &loads, &found.candidate, &mut full);
    failing(&full.checks).cloned()
}

/// Axes at a spacing: as few as leave no end strip above half of it, about the middle; moved along by up to a quarter of
/// the spacing where that is what the rules of place ask.
fn at_spacing(scene: &Scene<'_>, spacing_m: f64) -> Vec<f64> {
    let geometry = scene.geometry;
    let count = (geometry.cut_width_m() / spacing_m - 1e-9).ceil().clamp(1.0, 40.0) as u32;
    let middle = geometry.cut_left_m + geometry.cut_width_m() / 2.0;
    let row = |shift: f64| -> Vec<f64> {
        let first = middle - spacing_m * f64::from(count - 1) / 2.0 + shift;
        (0..count).map(|i| first + f64::from(i) * spacing_m).collect()
    };
    let width = scene
        .sections
        .first()
        .map_or(100.0, |section| section.member.width_mm());
    let shifts = (0..=10).flat_map(|k| [f64::from(k), -f64::from(k)]);
    shifts
        .map(|k| row(k * spacing_m / 40.0))
        .find(|axes| fault(axes, width, scene.job, geometry, &scene.anchors).is_none())
        .unwrap_or_else(|| if count == 1 { evenly(geometry, 1) } else { row(0.0) })
}

/// The figures side by side, in words and numbers.
fn figures(answer: &EngineersAnswer, load: &Load, own: &[Opt]) -> Compared {
    let mut compared = vec![format!("Answer by {}, {}.", answer.name, answer.date)];
    if let Some(given) = answer.load_kn_m {
        compared.push(format!(
            "Load along the wall: {given:.1} kN/m by the engineer; here {:.1} kN/m on average and {:.1} kN/m at the heaviest place.",
            load.mean_service_kn_m, load.largest_service_kn_m
        ));
        let share = given / load.mean_service_kn_m.max(1e-9) - 1.0;
        if share < -0.005 {
            compared.push(format!(
                "The engineer's load is {:.0} % lighter than the one found here. It is taken as given; ask what it leaves out.",
                -share * 100.0
            ));
        } else if share > 0.005 {
            compared.push(format!(
                "The engineer's load is {:.0} % heavier than the one found here.",
                share * 100.0
            ));
        }
    }
    let first = own.iter().find(|option| option.kind == "needles");
    if let Some(given) = answer.spacing_m {
        let own = first.map_or_else(
            || "no proposal of its own".to_owned(),
            |option| format!("{:.3} m", option.spacing_m),
        );
        compared.push(format!("Spacing: {given:.3} m by the engineer; here {own}."));
    }
    let spacing = answer
        .spacing_m
        .or_else(|| first.map(|option| option.spacing_m).filter(|spacing| *spacing > 0.0));
    let line = answer.load_kn_m.unwrap_or(load.mean_service_kn_m);
    let needle_kn = spacing
        .filter(|_| answer.spacing_m.is_some() || answer.load_kn_m.is_some())
        .map(|spacing| spacing * line);
    if let (Some(needle), Some(spacing)) = (needle_kn, spacing) {
        compared.push(format!(
            "A needle then carries {spacing:.3} m × {line:.1} kN/m = {needle:.1} kN, a prop half of it and more on the heavier side: at least {:.1} kN.",
            needle / 2.0
        ));
    }
    Compared {
        compared,
        load_kn_m: answer.load_kn_m,
        spacing_m: answer.spacing_m,
        needle_kn,
        prop_kn: needle_kn.map(|needle| needle / 2.0),
        option: None,
    }
}
