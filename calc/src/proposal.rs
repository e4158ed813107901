//! The answer: a proposal in the form of the contract.

use crate::source::Source;
use serde::{Deserialize, Serialize};

/// What the answer is, as a word.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
#[allow(
    missing_docs,
    reason = "the words are the contract's own; the method's section 0 defines them"
)]
pub enum Standing {
    Holds,
    Close,
    DoesNotHold,
    NeedsOwnDesign,
}

/// Why a job needs its own design.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum RefusalKind {
    /// The method does not apply.
    NoModel,
    /// The method applies, but the job is beyond a layman.
    EngineerFirst,
}

/// A reason with a stable code and plain words.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Reason {
    /// Stable code.
    pub code: String,
    /// Plain words.
    pub words: String,
}

impl Reason {
    /// Builds a reason.
    pub fn new(code: &str, words: impl Into<String>) -> Self {
        Self {
            code: code.to_owned(),
            words: words.into(),
        }
    }
}

/// Something taken as true because nothing was entered.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Assumption {
    /// JSON pointer to the key.
    pub path: String,
    /// The value taken.
    pub value: serde_json::Value,
    /// Plain words.
    pub words: String,
    /// Where the value comes from.
    pub source: String,
}

/// The whole answer.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[allow(missing_docs, reason = "keys are the contract's own")]
pub struct Proposal {
    pub contract: u32,
    pub version: String,
    pub basis: Vec<String>,
    pub standing: Standing,
    pub refusal: Option<RefusalKind>,
    pub independent_check_needed: bool,
    pub reasons: Vec<Reason>,
    pub cautions: Vec<String>,
    pub assumptions: Vec<Assumption>,
    pub load: Load,
    pub brackets: Brackets,
    pub options: Vec<Opt>,
    pub nearest: Option<Opt>,
    pub builders_plan: Option<PlanVerdict>,
    pub engineer: Option<Compared>,
    pub order: Vec<OrderStep>,
}

/// The weight on the needles.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[allow(missing_docs, reason = "keys are the contract's own")]
pub struct Load {
    pub total_service_kn: f64,
    pub total_strength_kn: f64,
    pub mean_service_kn_m: f64,
    pub largest_service_kn_m: f64,
    pub parts: Vec<LoadPart>,
    pub pieces: Vec<LoadPiece>,
    pub profile: Profile,
}

/// One share of the weight.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[allow(missing_docs, reason = "keys are the contract's own")]
pub struct LoadPart {
    pub what: String,
    pub dead_kn: f64,
    pub imposed_kn: f64,
}

/// What one piece of the house brings over the cut; `storey` counts from the lowest above, `point` as in the job.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[allow(missing_docs, reason = "keys are the contract's own")]
pub struct LoadPiece {
    pub what: String,
    pub storey: Option<usize>,
    pub point: Option<usize>,
    pub dead_kn: f64,
    pub imposed_kn: f64,
    pub mean_kn_m: f64,
}

/// The weight along the wall: break points and one value per interval between them.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[allow(missing_docs, reason = "keys are the contract's own")]
pub struct Profile {
    pub x_m: Vec<f64>,
    pub g_kn_m: Vec<f64>,
    pub q_kn_m: Vec<f64>,
}

/// Whether prop-head brackets may be used, with numbers.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[allow(missing_docs, reason = "keys are the contract's own")]
pub struct Brackets {
    pub allowed: bool,
    pub one_carries_kn: f64,
    pub one_can_kn: f64,
    pub reasons: Vec<Reason>,
}

/// One way to hold the wall up.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[allow(missing_docs, reason = "keys are the contract's own")]
pub struct Opt {
    pub kind: String,
    pub by: String,
    pub aim: String,
    pub objective: f64,
    pub standing: Standing,
    pub worst_utilisation: f64,
    pub governs: String,
    pub needle_soffit_m: f64,
    pub needle_top_m: f64,
    pub spacing_m: f64,
    pub needles: Vec<Needle>,
    pub props: Vec<Prop>,
    pub feet: Vec<Foot>,
    pub bracing: Bracing,
    pub floor_lines: Vec<FloorLine>,
    pub parts: Vec<Part>,
    pub checks: Vec<Check>,
    pub one_lost: Vec<OneLost>,
    pub movement: Movement,
}

/// A needle.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[allow(missing_docs, reason = "keys are the contract's own")]
pub struct Needle {
    pub name: String,
    pub x_m: f64,
    pub section: String,
    pub inside_y_mm: f64,
    pub outside_y_mm: f64,
    pub span_m: f64,
    pub pack_mm: f64,
    pub lever_kn: f64,
    pub continuous_kn: f64,
    pub load_kn: f64,
}

/// A prop under a needle.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[allow(missing_docs, reason = "keys are the contract's own")]
pub struct Prop {
    pub name: String,
    pub needle: String,
    pub side: String,
    pub kind: String,
    pub size: String,
    pub length_m: f64,
    pub load_kn: f64,
    pub working_load_kn: f64,
    pub kappa: f64,
    pub utilisation: f64,
    #[serde(flatten, skip_serializing_if = "Option::is_none")]
    pub bracket: Option<BracketProp>,
}

/// What a prop under a bracket has besides: its place, its leaf, and why it carries so little.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[allow(missing_docs, reason = "keys are the contract's own")]
pub struct BracketProp {
    pub x_m: f64,
    pub y_mm: f64,
    pub leaf: String,
    pub arm_mm: f64,
    pub rated_kn: f64,
}

/// The foot of a prop.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[allow(missing_docs, reason = "keys are the contract's own")]
pub struct Foot {
    pub prop: String,
    pub board_mm: [f64; 3],
    pub under_board_kpa: f64,
    pub under_slab_kpa: Option<f64>,
    pub allowed_kpa: f64,
    pub utilisation: f64,
}

/// Bracing against tipping sideways.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
#[allow(missing_docs, reason = "keys are the contract's own")]
pub struct Bracing {
    pub v_kn: f64,
    pub demand_along_kn: f64,
    pub demand_across_kn: f64,
    pub resistance_along_kn: f64,
    pub resistance_across_kn: f64,
    pub way: Vec<String>,
}

/// A floor that needs a line of its own beside the needles.
///
/// `takes_kn` is what of the floor is not on the needles because of this line, over the cut width at service; `load_kn` is
/// what stands on the line, more by the joists' lever and by whole joists.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
#[allow(missing_docs, reason = "keys are the contract's own")]
pub struct FloorLine {
    pub floor: u32,
    pub side: String,
    pub needed: bool,
    pub why: String,
    pub header: Option<String>,
    pub length_m: Option<f64>,
    pub distance_mm: Option<f64>,
    pub spacing_m: Option<f64>,
    pub load_kn: Option<f64>,
    pub takes_kn: f64,
    pub props: Vec<Prop>,
    pub feet: Vec<Foot>,
    pub way: Vec<String>,
    pub checks: Vec<Check>,
}

impl FloorLine {
    /// Whether the line is not needed, or is designed and passes all its checks.
    #[must_use]
    pub fn stands(&self) -> bool {
        !self.needed || (self.header.is_some() && self.checks.iter().all(|check| check.utilisation <= 1.0 + 1e-9))
    }
}

/// A line of the parts list.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[allow(missing_docs, reason = "keys are the contract's own")]
pub struct Part {
    pub what: String,
    pub count: u32,
    pub mass_kg: f64,
}

/// One check: what is asked of a part, what it can do, and how that was found.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[allow(missing_docs, reason = "keys are the contract's own")]
pub struct Check {
    pub name: String,
    pub at: String,
    pub demand: f64,
    pub resistance: f64,
    pub unit: String,
    pub utilisation: f64,
    pub source: Source,
    pub steps: Vec<String>,
}

/// What happens when one support is lost.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[allow(missing_docs, reason = "keys are the contract's own")]
pub struct OneLost {
    pub lost: String,
    pub worst: String,
    pub utilisation: Option<f64>,
    pub words: String,
}

/// How much the support gives way when the weight comes on.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
#[allow(missing_docs, reason = "keys are the contract's own")]
pub struct Movement {
    pub props_mm: f64,
    pub needle_mm: f64,
    pub board_mm: f64,
    pub ground_mm: f64,
    pub worst_difference_mm: f64,
    pub utilisation: f64,
    pub turns: f64,
}

/// The builder's plan, judged.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[allow(missing_docs, reason = "keys are the contract's own")]
pub struct PlanVerdict {
    pub standing: Standing,
    pub checks: Vec<Check>,
    pub words: String,
    pub filled: Vec<String>,
}

/// The engineer's figures beside the tool's.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[allow(missing_docs, reason = "keys are the contract's own")]
pub struct Compared {
    pub compared: Vec<String>,
    pub load_kn_m: Option<f64>,
    pub spacing_m: Option<f64>,
    pub needle_kn: Option<f64>,
    pub prop_kn: Option<f64>,
    pub option: Option<Opt>,
}

/// A step of the order of work.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[allow(missing_docs, reason = "keys are the contract's own")]
pub struct OrderStep {
    /// Number, from 1.
    pub step: u32,
    /// Plain words.
    pub words: String,
    /// Whether the work stops here until somebody says yes.
    pub stop: bool,
    /// Stable code of what the step is about; several needles share one.
    pub code: String,
    /// `papers`, `before`, `set_up`, `holes`, `cutting`, `beam`, `taking_out` or `while_it_stands`.
    pub group: String,
    /// When it comes, in words.
    pub when: String,
    /// Who does it, or whose yes is asked.
    pub who: String,
    /// Whether a photo helps.
    pub photo: bool,
    /// What a stop takes down: `yes`, `name`, `time`, and `photo` where one helps.
    pub record: Vec<String>,
    /// Where the step comes from and how that was seen.
    pub source: Source,
    /// Source of a legal statement, which holds for the job's country.
    pub country_source: Option<Source>,
}
