//! Where the figures of a proposal come from that are not checks: lengths, weights, movement, each line by line.

use calc::Job;
use calc::geometry::{Geometry, OVER_BEAM_M};
use calc::proposal::{Opt, Proposal};
use calc::props::bracket;
use calc::source::{Seen, Source};
use serde::Serialize;

const TAKE_DOWN: Source = Source::new(
    "take-down of this job",
    "what stands over the cut, straight down, below upper openings taken off",
    Seen::Own,
);
const LEVELS: Source = Source::new(
    "levels of this job",
    "needles 50 mm over the new beam, or as entered",
    Seen::Own,
);
const PLACES: Source = Source::new(
    "search over places",
    "measured from the middle of the opening, symmetric ones first among equals",
    Seen::Own,
);
const SHARE: Source = Source::new(
    "load on a needle",
    "the larger of simple spans and a beam that runs through",
    Seen::Own,
);
const ROOM: Source = Source::new("length of a needle", "150 mm beyond each prop's axis", Seen::Own);
const LOST: Source = Source::new(
    "one support lost",
    "accidental loads, rigid supports that only push, no allowance for the jolt",
    Seen::Own,
);
const MOVES: Source = Source::new(
    "movement of the support",
    "more than 3 mm between neighbours or sides caps the answer",
    Seen::Own,
);
const MASSES: Source = Source::new(
    "masses of the parts",
    "section tables for steel and timber, tubes by their size",
    Seen::Own,
);

/// Where one figure comes from.
#[derive(Clone, Debug, Serialize)]
pub struct Derived {
    /// What it is of, as the screens ask for it.
    pub of: String,
    /// Line by line.
    pub steps: Vec<String>,
    /// The rule behind it.
    pub source: Source,
}

fn derived(of: impl Into<String>, source: Source, steps: Vec<String>) -> Derived {
    Derived {
        of: of.into(),
        steps,
        source,
    }
}

/// The weight along the wall, and whether brackets may be used.
#[must_use]
pub fn of_proposal(job: &Job, proposal: &Proposal) -> Vec<Derived> {
    let load = &proposal.load;
    let cut_m = Geometry::of(job, &mut Vec::new()).cut_width_m();
    let mut total: Vec<String> = load
        .parts
        .iter()
        .map(|part| {
            format!(
                "{}: {:.1} kN that stays and {:.1} kN that comes and goes",
                part.what, part.dead_kn, part.imposed_kn
            )
        })
        .collect();
    total.push(format!("together {:.1} kN at the needles", load.total_service_kn));
    let mean = vec![
        format!("{:.1} kN over {cut_m:.2} m that are cut", load.total_service_kn),
        format!("{:.2} kN on each metre in the mean", load.mean_service_kn_m),
        format!("most at one place {:.1} kN per m", load.largest_service_kn_m),
    ];
    let brackets = &proposal.brackets;
    let used = if brackets.one_can_kn > 0.0 {
        format!(
            "{:.1} ÷ {:.1} = {:.2}",
            brackets.one_carries_kn,
            brackets.one_can_kn,
            brackets.one_carries_kn / brackets.one_can_kn
        )
    } else {
        "nothing is known that one can carry".to_owned()
    };
    let on_brackets = vec![
        format!(
            "the weight over a bracket's share of the opening: {:.1} kN",
            brackets.one_carries_kn
        ),
        format!(
            "the prop bent by the bracket's arm is good for {:.1} kN",
            brackets.one_can_kn
        ),
        used,
    ];
    vec![
        derived("weight_total", TAKE_DOWN, total),
        derived("weight_mean", TAKE_DOWN, mean),
        derived("brackets", bracket::SOURCE, on_brackets),
    ]
}

/// Lengths, loads, movement and masses of one arrangement.
#[must_use]
pub fn of_option(job: &Job, option: &Opt) -> Vec<Derived> {
    let mut out = vec![soffit(job, option), spacing(job, option)];
    out.extend(needles(job, option));
    out.extend(lengths(job, option));
    out.extend(option.one_lost.iter().map(|lost| {
        let used = lost.utilisation.map_or_else(
            || "what is left is no support".to_owned(),
            |use_| format!("{} is then used {:.0} % in an accident", lost.worst, use_ * 100.0),
        );
        let steps = vec![
            format!("{} is taken away with its props and feet", lost.lost),
            "the weight of an accident is shared among what is left, with the jambs where the wall beside is wide and sound".to_owned(),
            used,
        ];
        derived(format!("lost {}", lost.lost), LOST, steps)
    }));
    out.push(movement(option));
    let total = option
        .parts
        .iter()
        .map(|part| f64::from(part.count) * part.mass_kg)
        .sum::<f64>();
    let mut masses: Vec<String> = option
        .parts
        .iter()
        .map(|part| {
            format!(
                "{} × {:.1} kg = {:.1} kg: {}",
                part.count,
                part.mass_kg,
                f64::from(part.count) * part.mass_kg,
                part.what
            )
        })
        .collect();
    masses.push(format!("together {total:.0} kg"));
    out.push(derived("mass", MASSES, masses));
    out
}

fn soffit(job: &Job, option: &Opt) -> Derived {
    let geometry = Geometry::of(job, &mut Vec::new());
    let mut steps = match job.opening.needle_soffit_m {
        Some(entered) => vec![format!("underside of the needles entered: {entered:.3} m")],
        None => vec![
            format!("top of the new beam {:.3} m over the floor inside", geometry.beam_top_m),
            format!("and {:.0} mm of room over it", OVER_BEAM_M * 1000.0),
        ],
    };
    steps.push(format!("underside of the needles {:.3} m", option.needle_soffit_m));
    derived("soffit", LEVELS, steps)
}

fn spacing(job: &Job, option: &Opt) -> Derived {
    let axes: Vec<f64> = if option.needles.is_empty() {
        option
            .props
            .iter()
            .filter_map(|prop| Some(prop.bracket.as_ref()?.x_m))
            .collect()
    } else {
        option.needles.iter().map(|needle| needle.x_m).collect()
    };
    let middle = job.opening.width_m / 2.0;
    let mut steps: Vec<String> = axes
        .iter()
        .map(|x| {
            let off = x - middle;
            let way = if off.abs() < 0.0005 {
                "in the middle".to_owned()
            } else {
                format!(
                    "{:.0} mm {} of the middle",
                    off.abs() * 1000.0,
                    if off < 0.0 { "left" } else { "right" }
                )
            };
            format!("{:.0} mm from the left jamb: {way}", x * 1000.0)
        })
        .collect();
    steps.push(format!(
        "largest distance between two of them {:.0} mm",
        option.spacing_m * 1000.0
    ));
    derived("spacing", PLACES, steps)
}

fn needles(job: &Job, option: &Opt) -> Vec<Derived> {
    let thick_mm = Geometry::of(job, &mut Vec::new()).thickness_mm;
    option
        .needles
        .iter()
        .flat_map(|needle| {
            let load = vec![
                format!("as simple spans from needle to needle: {:.2} kN", needle.lever_kn),
                format!("as a beam that runs through: {:.2} kN", needle.continuous_kn),
                format!("the larger counts: {:.2} kN", needle.load_kn),
            ];
            let length = vec![
                format!(
                    "axes of its props {:.0} mm inside of the wall and {:.0} mm outside, the wall {thick_mm:.0} mm thick",
                    needle.inside_y_mm - thick_mm,
                    -needle.outside_y_mm
                ),
                format!("from prop to prop {:.3} m", needle.span_m),
                format!("and 150 mm more at each end: {:.2} m", needle.span_m + 0.3),
            ];
            [
                derived(format!("load {}", needle.name), SHARE, load),
                derived(format!("span {}", needle.name), ROOM, length),
            ]
        })
        .collect()
}

/// From the needle down to the board.
fn lengths(job: &Job, option: &Opt) -> Vec<Derived> {
    option
        .props
        .iter()
        .map(|prop| {
            let level = if prop.side == "inside" {
                job.sides.inside.foot_level_m
            } else {
                job.sides.outside.foot_level_m
            };
            let board_mm = option
                .feet
                .iter()
                .find(|foot| foot.prop == prop.name)
                .and_then(|foot| foot.board_mm.last().copied())
                .unwrap_or_default();
            let steps = vec![
                format!(
                    "underside of the needle {:.3} m over the floor inside",
                    option.needle_soffit_m
                ),
                format!("less the ground there at {level:.3} m and {board_mm:.0} mm of boards"),
                format!("length of {}: {:.3} m", prop.name, prop.length_m),
            ];
            derived(format!("length {}", prop.name), LEVELS, steps)
        })
        .collect()
}

fn movement(option: &Opt) -> Derived {
    let m = &option.movement;
    let steps = vec![
        format!(
            "props shorten by up to {:.2} mm, boards are pressed by {:.2} mm",
            m.props_mm, m.board_mm
        ),
        format!(
            "ground settles by up to {:.1} mm: 10 mm where it is used in full",
            m.ground_mm
        ),
        format!("needles sag by up to {:.2} mm", m.needle_mm),
        "half of what props, boards and ground give is taken out by tightening before cutting".to_owned(),
        format!(
            "what is left differs by up to {:.2} mm between neighbours or sides",
            m.worst_difference_mm
        ),
        format!(
            "the half to take out, over 6 mm a turn: {:.2} turns at the most",
            m.turns
        ),
    ];
    derived("movement", MOVES, steps)
}
