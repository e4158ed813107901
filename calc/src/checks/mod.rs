//! The checks: each says what is asked of a part, what it can do, and how that was found.
//!
//! A check writes into a [`Sink`]. The search hands in [`Worst`], which keeps the largest utilisation and never formats a
//! word; the answer hands in [`Full`], which keeps every check with its derivation. So what is reported is what was
//! searched with.

pub mod arch;
pub mod bearing;
pub mod feet;
pub mod lost;
pub mod movement;
pub mod needle;
pub mod plate;
pub mod prop;
pub mod rakers;
pub mod sideways;
pub mod strength;

use crate::proposal::Check;
use crate::source::Source;
use std::fmt;

/// Side of the wall.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs, reason = "two words")]
pub enum Side {
    Inside,
    Outside,
}

impl Side {
    /// Word used in names, as in `N1-in`.
    #[must_use]
    pub const fn short(self) -> &'static str {
        match self {
            Self::Inside => "in",
            Self::Outside => "out",
        }
    }

    /// Word used in the contract.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Inside => "inside",
            Self::Outside => "outside",
        }
    }
}

/// What a check is about. Needles count from 0 and are named from N1.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum At {
    /// A needle.
    Needle(usize),
    /// A prop or its foot.
    Prop(usize, Side),
    /// The masonry between a needle and the next.
    Between(usize),
    /// A bracket with its prop and foot, named from B1.
    Bracket(usize, Side),
    /// The masonry between a bracket and the next.
    BetweenBrackets(usize),
    /// The end bay on the left.
    Left,
    /// The end bay on the right.
    Right,
    /// The header of a floor's own line, by floor from 0 and side.
    Header(usize, Side),
    /// A prop of a floor's own line, by floor, side and prop from 0, with its level where the line stands on several.
    Post(usize, Side, usize, Option<usize>),
    /// A runner under the needles on a side.
    Runner(Side),
    /// A prop under a runner, from 0.
    RunnerProp(Side, usize),
    /// The whole support.
    All,
}

impl fmt::Display for At {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Needle(i) => write!(f, "N{}", i + 1),
            Self::Prop(i, side) => write!(f, "N{}-{}", i + 1, side.short()),
            Self::Between(i) => write!(f, "N{} to N{}", i + 1, i + 2),
            Self::Bracket(i, side) => write!(f, "B{}-{}", i + 1, side.short()),
            Self::BetweenBrackets(i) => write!(f, "B{} to B{}", i + 1, i + 2),
            Self::Left => f.write_str("left end"),
            Self::Right => f.write_str("right end"),
            Self::Header(floor, side) => write!(f, "F{}-{}", floor + 1, side.short()),
            Self::Post(floor, side, prop, None) => write!(f, "F{}-{}-{}", floor + 1, side.short(), prop + 1),
            Self::Post(floor, side, prop, Some(level)) => {
                write!(f, "F{}-{}-{} on level {level}", floor + 1, side.short(), prop + 1)
            }
            Self::Runner(side) => write!(f, "R-{}", side.short()),
            Self::RunnerProp(side, prop) => write!(f, "R-{}-{}", side.short(), prop + 1),
            Self::All => f.write_str("all"),
        }
    }
}

/// One finding on its way into a sink.
#[derive(Clone, Copy, Debug)]
pub struct Finding {
    /// Name of the check in the contract.
    pub name: &'static str,
    /// What it is about.
    pub at: At,
    /// What is asked.
    pub demand: f64,
    /// What it can do.
    pub resistance: f64,
    /// Unit of both.
    pub unit: &'static str,
    /// Where the rule comes from.
    pub source: Source,
}

impl Finding {
    /// Demand over resistance. A part that can do nothing is used without bound, shown as 99.
    #[must_use]
    pub fn utilisation(&self) -> f64 {
        if self.demand <= 0.0 {
            0.0
        } else if self.resistance > 0.0 {
            (self.demand / self.resistance).min(99.0)
        } else {
            99.0
        }
    }

    /// Whether the check is one of geometry: it passes or fails, and says nothing of how near a limit is.
    #[must_use]
    pub fn is_geometry(&self) -> bool {
        is_geometry(self.name)
    }
}

/// Checks of geometry: they pass or fail, and how near a limit is cannot be told from their share.
pub const GEOMETRY: [&str; 12] = [
    "clear_masonry",
    "room_under_plate",
    "arch_loose",
    "end_bay_width",
    "working_room",
    "raker_room",
    "board_fit",
    "prop_distance",
    "beam_room",
    "plate_point",
    "bracket_seat",
    "bracket_clear",
];

/// Whether a check of this name is one of geometry.
#[must_use]
pub fn is_geometry(name: &str) -> bool {
    GEOMETRY.contains(&name)
}

/// Takes findings.
pub trait Sink {
    /// Takes one finding; `steps` is called only by a sink that keeps the derivation.
    fn put(&mut self, finding: Finding, steps: &dyn Fn() -> Vec<String>);
}

/// Keeps the largest utilisation.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Worst {
    /// Largest utilisation of a check of strength.
    pub utilisation: f64,
    /// Whether a check of geometry failed.
    pub misfit: bool,
}

impl Worst {
    /// The larger of two.
    #[must_use]
    pub fn with(self, other: Self) -> Self {
        Self {
            utilisation: self.utilisation.max(other.utilisation),
            misfit: self.misfit || other.misfit,
        }
    }

    /// Whether all checks pass.
    #[must_use]
    pub fn passes(&self) -> bool {
        !self.misfit && self.utilisation <= 1.0
    }
}

impl Sink for Worst {
    fn put(&mut self, finding: Finding, _steps: &dyn Fn() -> Vec<String>) {
        let utilisation = finding.utilisation();
        if finding.is_geometry() {
            self.misfit |= utilisation > 1.0 + 1e-9;
        } else {
            self.utilisation = self.utilisation.max(utilisation);
        }
    }
}

/// Keeps everything.
#[derive(Clone, Debug, Default)]
pub struct Full {
    /// All checks.
    pub checks: Vec<Check>,
}

impl Sink for Full {
    fn put(&mut self, finding: Finding, steps: &dyn Fn() -> Vec<String>) {
        self.checks.push(Check {
            name: finding.name.to_owned(),
            at: finding.at.to_string(),
            demand: finding.demand,
            resistance: finding.resistance,
            unit: finding.unit.to_owned(),
            utilisation: finding.utilisation(),
            source: finding.source,
            steps: steps(),
        });
    }
}
