//! Everything the search needs of a job, found once.

use crate::checks::Side;
use crate::checks::arch::{Bearing, PLATE_M};
use crate::checks::feet::{BOARDS, Boards, Under};
use crate::checks::prop::rate_design;
use crate::checks::strength::LeafStrength;
use crate::clause::NationalParameters;
use crate::clause::en1995::design::TimberUse;
use crate::demand::{Loads, NeedleLoad, service, strength};
use crate::floor_line::has_own_line;
use crate::geometry::{Geometry, roof_bears};
use crate::job::{Direction, Job, PropChoice};
use crate::layout::Anchors;
use crate::legs::leg_length_m;
use crate::problem::Problem;
use crate::proposal::Assumption;
use crate::props::Rating;
use crate::ready::{Ready, ready};
use crate::steps::{Channel, Shares};
use crate::tables::members::{DEFAULT_CATALOGUE, NamedSection, parse_member};
use crate::takedown::TakeDown;

/// Height of the deepest needle with its pack, m.
const HIGHEST_NEEDLE_M: f64 = 0.25;

/// A needle this near to a truss counts as under it for the load, m: half the widest needle.
const UNDER_TRUSS_M: f64 = 0.11;
/// Spacing of trusses where only one is listed, m. Common practice, no source.
const TRUSS_SPACING_M: f64 = 0.6;

/// A job prepared for the search.
#[derive(Clone, Debug)]
pub struct Scene<'a> {
    /// The job.
    pub job: &'a Job,
    /// Levels and places.
    pub geometry: &'a Geometry,
    /// Nationally determined parameters.
    pub national: &'a NationalParameters,
    /// Loads at the needles' underside.
    pub loads: Loads,
    /// Places a needle must stand under.
    pub anchors: Anchors,
    /// Sections to choose from, lightest first.
    pub sections: Vec<NamedSection>,
    /// Props to choose from, lightest first.
    pub props: Vec<Ready>,
    /// Make-ups of boards to choose from, the least first.
    pub boards: Vec<Boards>,
    /// Rating of each prop on each boards on each side; none where it does not fit.
    ratings: [Vec<Vec<Option<Rating>>>; 2],
    /// Strength of each leaf.
    pub leaves: Vec<LeafStrength>,
    /// What bears on the wall over the needles.
    pub bearings: Vec<Bearing>,
    /// Sound masonry beside the cut, m.
    pub beside_m: (f64, f64),
    /// Under the feet inside.
    pub under_inside: Under,
    /// Under the feet outside.
    pub under_outside: Under,
}

impl<'a> Scene<'a> {
    /// Prepares a job.
    ///
    /// # Errors
    ///
    /// A section or prop that is not known, by its path.
    pub fn of(
        job: &'a Job,
        geometry: &'a Geometry,
        down: &TakeDown,
        national: &'a NationalParameters,
        assumptions: &mut Vec<Assumption>,
    ) -> Result<Self, Vec<Problem>> {
        let mut problems = Vec::new();
        let fix = job.fix.clone().unwrap_or_default();
        let (path, names): (&str, Vec<String>) = match (&fix.section, &job.catalogue.sections) {
            (Some(name), _) => ("/fix/section", vec![name.clone()]),
            (None, Some(names)) => ("/catalogue/sections", names.clone()),
            (None, None) => ("", DEFAULT_CATALOGUE.iter().map(|name| (*name).to_owned()).collect()),
        };
        let mut sections = Vec::with_capacity(names.len());
        for (i, name) in names.iter().enumerate() {
            match parse_member(name) {
                Ok(section) => sections.push(section),
                Err(error) => {
                    let here = if path == "/fix/section" {
                        path.to_owned()
                    } else {
                        format!("{path}/{i}")
                    };
                    problems.push(Problem::new(here, error.wrong, error.right));
                }
            }
        }
        // Timber shrinks, creeps and crushes while it stands: it is taken only where the user names it.
        if fix.section.is_none() && job.catalogue.sections.is_none() {
            sections.retain(|section| section.member.is_steel());
        }
        sections.sort_by(|a, b| a.member.mass_kg_m().total_cmp(&b.member.mass_kg_m()));
        let props = props(job, &fix.prop, &mut problems);
        let leaves = leaves(job, geometry, national, assumptions);
        let boards = fix
            .board_mm
            .map_or_else(|| BOARDS.to_vec(), |board| vec![Boards::given(board)]);
        if !problems.is_empty() {
            return Err(problems);
        }
        Ok(Self {
            job,
            geometry,
            national,
            loads: Loads::of(down, (geometry.cut_left_m, geometry.cut_right_m), national),
            anchors: Anchors::of(job, geometry),
            sections,
            ratings: [Side::Inside, Side::Outside].map(|side| ratings(job, geometry, side, &props, &boards)),
            boards,
            props,
            leaves,
            bearings: bearings(job, geometry),
            beside_m: geometry.beside_m(job),
            under_inside: Under::of(&job.sides.inside.foot),
            under_outside: Under::of(&job.sides.outside.foot),
        })
    }

    /// Rating of prop `prop` on boards `boards` on a side; none where it does not fit.
    #[must_use]
    pub fn rating(&self, side: Side, boards: usize, prop: usize) -> Option<&Rating> {
        let [inside, outside] = &self.ratings;
        let table = if side == Side::Inside { inside } else { outside };
        table.get(boards)?.get(prop)?.as_ref()
    }

    /// Whether the wall plate carries between needles instead of an arch: nothing but a roof above, little masonry.
    #[must_use]
    pub fn on_plate(&self, needle_top_m: f64) -> bool {
        self.job.above.is_empty() && self.geometry.top_m - needle_top_m < PLATE_M
    }

    /// How timber stands: its time and its partial factor.
    #[must_use]
    pub const fn timber(&self) -> TimberUse {
        TimberUse {
            days: self.job.site.days,
            gamma_m: self.national.gamma_m_timber.value,
        }
    }

    /// Loads of needles at given axes. Where the places of the trusses are known, a needle under one carries it whole: what
    /// the load along the wall leaves off, at a cut edge or between needles set closer than trusses, comes on top.
    #[must_use]
    pub fn needles(&self, axes: &[f64]) -> Vec<NeedleLoad> {
        let mut loads = self.loads.needles(axes);
        for truss in &self.anchors.trusses {
            let nearest = axes
                .iter()
                .enumerate()
                .min_by(|a, b| (a.1 - truss).abs().total_cmp(&(b.1 - truss).abs()));
            let Some((i, x)) = nearest.filter(|(_, x)| (**x - truss).abs() <= UNDER_TRUSS_M) else {
                continue;
            };
            let before = i
                .checked_sub(1)
                .and_then(|k| axes.get(k))
                .map(|other| 0.5 * (x - other));
            let after = axes.get(i + 1).map(|other| 0.5 * (other - x));
            let own = before.unwrap_or(x - self.geometry.cut_left_m) + after.unwrap_or(self.geometry.cut_right_m - x);
            let missing = (truss_width_m(&self.job.roof.truss_x_m, *truss) - own).max(0.0);
            for leaf in 0..self.leaves.len() {
                let Some(steps) = self.loads.straight(leaf) else {
                    continue;
                };
                let at = steps.at(truss.clamp(self.geometry.cut_left_m, self.geometry.cut_right_m - 1e-6));
                let roof = [Channel::RoofG, Channel::RoofQ, Channel::SnowQ]
                    .into_iter()
                    .fold(Shares::default(), |sum, channel| {
                        sum.plus(&Shares::one(channel, at.get(channel)))
                    })
                    .times(missing);
                if let Some(load) = loads.get_mut(i) {
                    load.add(leaf, service(&roof), strength(&roof, self.national));
                }
            }
        }
        loads
    }

    /// Permanent load over the cut, kN, straight down.
    #[must_use]
    pub fn permanent_kn(&self) -> f64 {
        let (left, right) = (self.geometry.cut_left_m, self.geometry.cut_right_m);
        (0..self.leaves.len())
            .filter_map(|i| self.loads.straight(i))
            .map(|steps| steps.between(left, right).permanent())
            .sum()
    }

    /// Total service load over the cut, kN, straight down.
    #[must_use]
    pub fn total_service_kn(&self) -> f64 {
        let (left, right) = (self.geometry.cut_left_m, self.geometry.cut_right_m);
        (0..self.leaves.len())
            .filter_map(|i| self.loads.straight(i))
            .map(|steps| service(&steps.between(left, right)))
            .sum()
    }
}

/// Width of roof on one truss, m: half the way to each neighbour; at the end of what is listed as on the other side.
fn truss_width_m(all: &[f64], truss: f64) -> f64 {
    let gap = |keep: &dyn Fn(f64) -> bool| {
        let gaps = all.iter().map(|other| other - truss).filter(|off| keep(*off));
        gaps.map(f64::abs).reduce(f64::min)
    };
    let (left, right) = (gap(&|off| off < -1e-6), gap(&|off| off > 1e-6));
    match (left, right) {
        (Some(left), Some(right)) => 0.5 * (left + right),
        (Some(one), None) | (None, Some(one)) => one,
        (None, None) => TRUSS_SPACING_M,
    }
}

/// Strength of each leaf; where the needles reach up to the first floor's bearing, the weaker of what lies below and above.
fn leaves(
    job: &Job,
    geometry: &Geometry,
    national: &NationalParameters,
    assumptions: &mut Vec<Assumption>,
) -> Vec<LeafStrength> {
    let below = job
        .wall
        .leaves
        .iter()
        .enumerate()
        .filter_map(|(i, leaf)| LeafStrength::of(leaf, i, national, assumptions));
    let mut out: Vec<LeafStrength> = below.collect();
    let first = geometry.floors_m.first().copied().unwrap_or(f64::INFINITY);
    if geometry.soffit_m + HIGHEST_NEEDLE_M > first {
        for upper in job.above.iter().filter_map(|storey| storey.leaves.as_ref()) {
            // What is taken for unknown units above is listed with the storey's leaves as described.
            let strengths = upper
                .iter()
                .enumerate()
                .filter_map(|(i, leaf)| LeafStrength::of(leaf, i, national, &mut Vec::new()));
            out = out
                .into_iter()
                .zip(strengths)
                .map(|(one, other)| one.weaker(other))
                .collect();
        }
    }
    out
}

fn ratings(job: &Job, geometry: &Geometry, side: Side, props: &[Ready], boards: &[Boards]) -> Vec<Vec<Option<Rating>>> {
    let fixed = if side == Side::Inside {
        job.sides.inside.foot.fixed
    } else {
        job.sides.outside.foot.fixed
    };
    let on = |boards: &Boards| {
        let length = leg_length_m(job, geometry, side, boards);
        props.iter().map(|ready| rate_design(ready, length, fixed)).collect()
    };
    boards.iter().map(on).collect()
}

fn props(job: &Job, fixed: &Option<PropChoice>, problems: &mut Vec<Problem>) -> Vec<Ready> {
    let mut out = Vec::new();
    let mut add = |path: String, input: &crate::job::PropInput, problems: &mut Vec<Problem>| match ready(input) {
        Ok(prop) => out.push(prop),
        Err((wrong, right)) => problems.push(Problem::new(path, wrong, right)),
    };
    match fixed {
        Some(PropChoice::Given(input)) => add("/fix/prop".to_owned(), input, problems),
        Some(PropChoice::Named(name)) => match job.props.iter().find(|prop| &prop.name == name) {
            Some(input) => add("/fix/prop".to_owned(), input, problems),
            None => {
                let known: Vec<&str> = job.props.iter().map(|prop| prop.name.as_str()).collect();
                problems.push(Problem::new(
                    "/fix/prop",
                    format!("no prop is named `{name}`"),
                    if known.is_empty() {
                        "a name from the job's props, which has none, or the prop itself as there".to_owned()
                    } else {
                        format!("one of {}", known.join(", "))
                    },
                ));
            }
        },
        None if job.props.is_empty() => {
            for size in 0..=4 {
                add("/props".to_owned(), &crate::ready::trade_size(size), problems);
            }
        }
        None => {
            for (i, input) in job.props.iter().enumerate() {
                add(format!("/props/{i}"), input, problems);
            }
        }
    }
    out.sort_by(|a, b| a.mass_kg.total_cmp(&b.mass_kg));
    out
}

fn bearings(job: &Job, geometry: &Geometry) -> Vec<Bearing> {
    let mut out = Vec::new();
    for (i, storey) in job.above.iter().enumerate() {
        let level_m = geometry.floors_m.get(i).copied().unwrap_or_default();
        if storey
            .floor
            .as_ref()
            .is_some_and(|floor| floor.direction == Direction::Onto)
            // Joists on a line of their own rest on no masonry between needles.
            && !has_own_line(job, geometry, i)
        {
            out.push(Bearing {
                level_m,
                x_m: None,
                what: format!("the floor of storey {}", i + 1),
            });
        }
    }
    if roof_bears(job) {
        out.push(Bearing {
            level_m: geometry.top_m,
            x_m: None,
            what: "the roof".to_owned(),
        });
    }
    for point in &job.points {
        let level_m = geometry
            .floors_m
            .get(point.level as usize)
            .copied()
            .unwrap_or(geometry.top_m);
        out.push(Bearing {
            level_m,
            x_m: Some(point.x_m),
            what: point.what.clone(),
        });
    }
    out
}
