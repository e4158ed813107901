//! The changes that are tried, each kind from the least to the largest, the kinds from the least effort to the most.

use crate::checks::feet::BOARDS;
use crate::floor_line::{Held, held};
use crate::geometry::{Geometry, roof_bears};
use crate::job::{Fix, Ground, IndependentCheck, Job, PropInput, Side};
use crate::proposal::{Opt, Proposal, Standing};
use crate::ready::trade_size;
use crate::tables::members::{DEFAULT_CATALOGUE, parse_member};

/// How much narrower the opening is tried, m, and how narrow it may become: a door. Own judgement.
const NARROWER_M: [f64; 4] = [0.3, 0.6, 0.9, 1.2];
const NARROWEST_M: f64 = 0.9;
/// How much lower the beam is tried, m, and how low it may come: a person walks under it. Own judgement.
const LOWER_M: [f64; 2] = [0.15, 0.3];
const LOWEST_M: f64 = 2.0;
/// Room for rakers that is tried, m from the wall's face. Own judgement.
const ROOM_M: [f64; 4] = [1.5, 2.0, 2.5, 3.0];
/// Classes of stronger props, with the lengths that ordinary ones have. Own choice.
const STRONGER: [&str; 3] = ["D35", "E30", "E35"];
/// Sections heavier than the catalogue's that still fit into the needle's height.
const HEAVIER: [&str; 2] = ["UC203x203x52 S275", "UC203x203x60 S275"];
/// Reasons that follow from who looks at the job and from what the house is, by their codes: no part changes them.
const BY_PEOPLE: [&str; 6] = [
    "independent_check",
    "slept_in",
    "beam_and_block",
    "flat_roof",
    "condition_doubtful",
    "stone",
];
/// Grid on which needles stand, m.
const GRID_M: f64 = 0.025;

/// One change.
pub(super) struct Change {
    /// Stable code of its kind.
    pub code: &'static str,
    /// What to do, in one sentence.
    pub words: String,
    /// Field that says so.
    pub path: Option<String>,
    /// Makes it.
    pub make: Box<dyn Fn(&mut Job)>,
}

impl Change {
    fn new(code: &'static str, words: impl Into<String>, path: &str, make: impl Fn(&mut Job) + 'static) -> Self {
        Self {
            code,
            words: words.into(),
            path: (!path.is_empty()).then(|| path.to_owned()),
            make: Box::new(make),
        }
    }
}

/// All kinds of changes that this job can be given.
pub(super) fn changes(job: &Job, before: &Proposal) -> Vec<Vec<Change>> {
    let shown = before
        .options
        .first()
        .or(before.nearest.as_ref())
        .filter(|option| option.kind == "needles");
    let geometry = Geometry::of(job, &mut Vec::new());
    let mut out = vec![checked(before)];
    let [asleep, empty, apart] = floors(job, &geometry);
    out.push(asleep);
    // What only people can lift, no part does.
    if before.standing == Standing::Close
        && before
            .reasons
            .iter()
            .all(|reason| BY_PEOPLE.contains(&reason.code.as_str()))
    {
        out.retain(|group| !group.is_empty());
        return out;
    }
    out.push(fixed_feet(job));
    if let Some(option) = shown {
        out.extend([thicker(job, option), boards(option)]);
        // Where nothing holds, every number of needles was tried already.
        if before.standing == Standing::Close {
            out.push(more_needles(&geometry, option));
        }
    }
    out.push(props(job));
    out.extend([empty, apart]);
    out.extend([room(job, "inside"), room(job, "outside"), ground(job)]);
    out.extend([lower(job), narrower(job)]);
    out.retain(|group| !group.is_empty());
    out
}

/// Somebody independent looks at it, where that is all or part of what holds it back.
fn checked(before: &Proposal) -> Vec<Change> {
    let asked = before.reasons.iter().any(|reason| reason.code == "independent_check");
    let words = "Have someone independent check this proposal, someone who did not make it, and enter the name here.";
    let make = |job: &mut Job| {
        job.check = Some(IndependentCheck {
            name: "tried".to_owned(),
            date: String::new(),
            category: 1,
        });
    };
    asked
        .then(|| Change::new("check", words, "/check/name", make))
        .into_iter()
        .collect()
}

fn fixed_feet(job: &Job) -> Vec<Change> {
    let fixed = job.sides.inside.foot.fixed && job.sides.outside.foot.fixed;
    let words = "Set each prop’s foot out on the middle of its board and fix it there.";
    let make = |job: &mut Job| {
        job.sides.inside.foot.fixed = true;
        job.sides.outside.foot.fixed = true;
    };
    (!fixed)
        .then(|| Change::new("feet_fixed", words, "/sides/inside/foot/fixed", make))
        .into_iter()
        .collect()
}

/// Needles of the next thicker sections, each given alone.
fn thicker(job: &Job, option: &Opt) -> Vec<Change> {
    let mass = |name: &str| parse_member(name).ok().map(|one| (one.member.mass_kg_m(), one));
    let Some(((now, _), needle)) = option
        .needles
        .first()
        .and_then(|needle| Some((mass(&needle.section)?, needle)))
    else {
        return Vec::new();
    };
    let known = DEFAULT_CATALOGUE.iter().copied().chain(HEAVIER);
    // Where nothing holds, all that could be chosen from was tried: only what lies outside of it is new.
    let at_hand: Vec<&str> = match &job.catalogue.sections {
        Some(given) => given.iter().map(String::as_str).collect(),
        None => DEFAULT_CATALOGUE.to_vec(),
    };
    let fails = option.standing == Standing::DoesNotHold;
    let mut heavier: Vec<(f64, &str)> = known
        .filter(|name| *name != needle.section && !(fails && at_hand.contains(name)))
        .filter_map(|name| {
            mass(name)
                .filter(|(_, one)| one.member.is_steel())
                .map(|(kg, _)| (kg, name))
        })
        .filter(|(kg, _)| *kg > now + 1e-9)
        .collect();
    heavier.sort_by(|a, b| a.0.total_cmp(&b.0));
    heavier
        .into_iter()
        .map(|(_, name)| {
            Change::new("section", format!("Take thicker needles: {name}."), "", move |job| {
                fix(job).section = Some(name.to_owned());
            })
        })
        .collect()
}

/// Larger boards under every prop.
fn boards(option: &Opt) -> Vec<Change> {
    let area = |size: [f64; 3]| size[0] * size[1];
    let now = option.feet.iter().map(|foot| area(foot.board_mm)).fold(0.0, f64::max);
    BOARDS
        .iter()
        .filter(|boards| area(boards.size_mm()) > now + 1.0)
        .map(|boards| {
            let size = boards.size_mm();
            Change::new(
                "boards",
                format!("Lay larger boards under the props: {}.", boards.words),
                "",
                move |job| {
                    fix(job).board_mm = Some(size);
                },
            )
        })
        .collect()
}

/// One and two needles more, evenly over the cut.
fn more_needles(geometry: &Geometry, option: &Opt) -> Vec<Change> {
    let (width, now) = (geometry.cut_width_m(), option.needles.len());
    let middle = geometry.cut_left_m + width / 2.0;
    [1, 2]
        .into_iter()
        .map(|more| {
            let count = now + more;
            let apart = (width / count as f64 / GRID_M - 1e-9).ceil() * GRID_M;
            let first = middle - apart * (count as f64 - 1.0) / 2.0;
            let axes: Vec<f64> = (0..count).map(|i| first + apart * i as f64).collect();
            let words = format!(
                "Take {count} needles in place of {now}, {:.0} mm apart.",
                apart * 1000.0
            );
            Change::new("needles", words, "", move |job| {
                fix(job).needles_x_m = Some(axes.clone());
            })
        })
        .collect()
}

/// Stronger props beside those at hand.
fn props(job: &Job) -> Vec<Change> {
    let at_hand: Vec<PropInput> = if job.props.is_empty() {
        (0..=4).map(trade_size).collect()
    } else {
        job.props.clone()
    };
    let mut all = at_hand;
    all.extend(STRONGER.iter().map(|class| PropInput {
        name: format!("class {class}"),
        data: "en1065".to_owned(),
        size: None,
        class: Some((*class).to_owned()),
        ..trade_size(0)
    }));
    let words = "Hire stronger props: class D or E, with the maker’s sheet.";
    let make = move |job: &mut Job| job.props.clone_from(&all);
    vec![Change::new("props", words, "", make)]
}

/// Floors held apart, kept empty, not slept in.
fn floors(job: &Job, geometry: &Geometry) -> [Vec<Change>; 3] {
    let (mut empty, mut apart, mut asleep) = (Vec::new(), Vec::new(), Vec::new());
    for (i, storey) in job.above.iter().enumerate() {
        let Some(floor) = &storey.floor else { continue };
        let n = i + 1;
        let at = move |job: &mut Job, set: &dyn Fn(&mut crate::job::Floor)| {
            if let Some(floor) = job.above.get_mut(i).and_then(|storey| storey.floor.as_mut()) {
                set(floor);
            }
        };
        let path = |key: &str| format!("/above/{i}/floor/{key}");
        if floor.slept_in {
            let words = format!("Let nobody sleep on floor {n} while the wall is held.");
            asleep.push(Change::new("slept_in", words, &path("slept_in"), move |job| {
                at(job, &|floor| floor.slept_in = false);
            }));
        }
        if held(job, geometry, i) == Some(Held::OnNeedles) {
            if !floor.empty {
                let words =
                    format!("Clear floor {n} of furniture and stores, and keep it empty while the wall is held.");
                empty.push(Change::new("floor_empty", words, &path("empty"), move |job| {
                    at(job, &|floor| floor.empty = true);
                }));
            }
            let words = format!(
                "Hold floor {n} apart, on a line of props of its own, so that it does not rest on the needles."
            );
            apart.push(Change::new("floor_apart", words, &path("held_apart"), move |job| {
                at(job, &|floor| floor.held_apart = true);
            }));
        }
    }
    [asleep, empty, apart]
}

fn side<'a>(job: &'a mut Job, name: &str) -> &'a mut Side {
    if name == "inside" {
        &mut job.sides.inside
    } else {
        &mut job.sides.outside
    }
}

/// More room beside the wall for rakers.
fn room(job: &Job, name: &'static str) -> Vec<Change> {
    let now = if name == "inside" {
        job.sides.inside.room_m
    } else {
        job.sides.outside.room_m
    };
    ROOM_M
        .into_iter()
        .filter(|room| *room > now + 1e-9)
        .map(|room| {
            let words = format!("Clear more room {name} for raking struts: {room:.1} m from the wall.");
            Change::new("room", words, &format!("/sides/{name}/room_m"), move |job| {
                side(job, name).room_m = room
            })
        })
        .collect()
}

/// Ground that nobody knows counts as soft: whether it is worth finding out.
fn ground(job: &Job) -> Vec<Change> {
    let unknown = |side: &Side| side.foot.ground == Ground::Unknown && side.foot.bearing_kpa.is_none();
    let sides: Vec<&'static str> = [("inside", &job.sides.inside), ("outside", &job.sides.outside)]
        .into_iter()
        .filter(|(_, side)| unknown(side))
        .map(|(name, _)| name)
        .collect();
    let Some(first) = sides.first() else { return Vec::new() };
    let path = format!("/sides/{first}/foot/ground");
    let words = "Find out what ground the feet stand on: it counts as soft because nobody said. This is if it is firm clay; never say so only because it would help.";
    vec![Change::new("ground", words, &path, move |job| {
        for name in &sides {
            side(job, name).foot.ground = Ground::FirmClay;
        }
    })]
}

/// The beam lower, so that more masonry stays over it.
fn lower(job: &Job) -> Vec<Change> {
    // Where nothing stands over the beam but a roof, lower is also more room under the plate.
    if job.above.is_empty() && !roof_bears(job) {
        return Vec::new();
    }
    LOWER_M
        .into_iter()
        .filter(|less| job.opening.head_m - less >= LOWEST_M - 1e-9 && !job.opening.flush)
        .map(|less| {
            let head = job.opening.head_m - less;
            let words = format!("Set the new beam {less:.2} m lower, with its underside at {head:.2} m.");
            Change::new("lower", words, "/opening/head_m", move |job| {
                job.opening.head_m -= less;
                job.opening.needle_soffit_m = job.opening.needle_soffit_m.map(|soffit| soffit - less);
            })
        })
        .collect()
}

/// A smaller opening, its left jamb where it is.
fn narrower(job: &Job) -> Vec<Change> {
    NARROWER_M
        .into_iter()
        .filter(|less| job.opening.width_m - less >= NARROWEST_M - 1e-9)
        .map(|less| {
            let width = job.opening.width_m - less;
            let words = format!("Make the opening {less:.1} m narrower: {width:.2} m, from the left jamb.");
            Change::new("narrower", words, "/opening/width_m", move |job| {
                job.opening.width_m -= less;
                job.opening.right_masonry_m += less;
            })
        })
        .collect()
}

/// What is held still, made where nothing was.
fn fix(job: &mut Job) -> &mut Fix {
    job.fix.get_or_insert_with(Fix::default)
}
