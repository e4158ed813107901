//! What may be chosen from and what is held still: props, sections, a given arrangement, a builder's plan, an engineer's answer.

use serde::{Deserialize, Serialize};

/// A prop at hand.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PropInput {
    /// Name.
    pub name: String,
    /// `tn79`, `en1065` or `sheet`.
    pub data: String,
    /// Trade size of `tn79`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub size: Option<u32>,
    /// Class of `en1065`, as `B35`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub class: Option<String>,
    /// Rows `[length_m, load_kn]` of a sheet.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub table: Option<Vec<[f64; 2]>>,
    /// Kind of load of a sheet: `safe_working` or `characteristic`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub load: Option<String>,
    /// State the sheet's loads assume.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub basis: Option<SheetBasis>,
    /// Shortest length of a sheet's prop, m.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub min_m: Option<f64>,
    /// Longest length of a sheet's prop, m.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub max_m: Option<f64>,
    /// Tubes of a sheet's prop.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub tubes: Option<SheetTubes>,
}

/// State of the prop that a sheet's loads assume.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SheetBasis {
    /// Off centre at the head, mm.
    pub head_mm: f64,
    /// Off centre at the foot, mm.
    pub foot_mm: f64,
    /// Lean, degrees.
    pub lean_deg: f64,
}

/// Tubes of a sheet's prop.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SheetTubes {
    /// Outer tube `[diameter, wall]`, mm.
    pub outer_mm: [f64; 2],
    /// Inner tube `[diameter, wall]`, mm.
    pub inner_mm: [f64; 2],
    /// Closed length, m.
    pub closed_m: f64,
}

/// Sections and hire rates to choose from.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Catalogue {
    /// Section names; none: the whole table.
    pub sections: Option<Vec<String>>,
    /// Hire rates by piece and week.
    pub rates: Option<Rates>,
    /// The prop-head bracket at hand.
    #[serde(default)]
    pub bracket: Option<BracketInput>,
}

/// A prop-head bracket by its maker.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct BracketInput {
    /// Rated load by its maker, kN; without it no bracket is ever allowed.
    pub rated_kn: Option<f64>,
    /// From the prop's axis to the middle of the plate, mm.
    pub arm_mm: f64,
    /// Plate, along the wall and into it, mm.
    pub plate_mm: [f64; 2],
}

/// Hire rates per piece and week, in the user's own money.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Rates {
    /// A needle.
    pub needle: f64,
    /// A prop.
    pub prop: f64,
    /// A sole board.
    pub board: f64,
}

/// An independent check that was made.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct IndependentCheck {
    /// Who checked.
    pub name: String,
    /// When.
    pub date: String,
    /// Design check category.
    pub category: u32,
}

/// A prop by name or in full.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(untagged)]
pub enum PropChoice {
    /// Name of a prop in `props`.
    Named(String),
    /// A prop of its own.
    Given(Box<PropInput>),
}

/// Parts of the proposal held still.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Fix {
    /// Needle axes, m.
    pub needles_x_m: Option<Vec<f64>>,
    /// Section.
    pub section: Option<String>,
    /// Prop.
    pub prop: Option<PropChoice>,
    /// Prop axis inside, mm.
    pub inside_y_mm: Option<f64>,
    /// Prop axis outside, mm.
    pub outside_y_mm: Option<f64>,
    /// Steel pack between needle and masonry, mm.
    pub pack_mm: Option<f64>,
    /// Boards under a prop, `[length, breadth, thickness]` in mm; zeros for none.
    #[serde(default)]
    pub board_mm: Option<[f64; 3]>,
}

/// A beam along the wall under the needles, on fewer props.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RunnerInput {
    /// Section.
    pub section: String,
    /// Prop axes, m; none: by spacing.
    pub props_x_m: Option<Vec<f64>>,
    /// Spacing of the props, m.
    pub spacing_m: Option<f64>,
}

/// What the builder proposes.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct BuildersPlan {
    /// `needles`, `brackets`, or `props`: props right under the wall with nothing through it.
    pub kind: String,
    /// How many needles, brackets or props, where their places are not said.
    pub count: Option<u32>,
    /// Axes, m.
    pub needles_x_m: Option<Vec<f64>>,
    /// Section.
    pub section: Option<String>,
    /// Prop.
    pub prop: Option<PropChoice>,
    /// Prop axis inside, mm.
    pub inside_y_mm: Option<f64>,
    /// Prop axis outside, mm.
    pub outside_y_mm: Option<f64>,
    /// Steel pack, mm.
    pub pack_mm: Option<f64>,
    /// Arm of a bracket, mm.
    pub arm_mm: Option<f64>,
    /// Rated load of a bracket by its maker, kN.
    pub rated_kn: Option<f64>,
    /// Plate of a bracket, along the wall and into it, mm.
    pub plate_mm: Option<[f64; 2]>,
    /// Feet, in words.
    pub feet: Option<String>,
    /// Runner under the needles on each side.
    #[serde(default)]
    pub runner: Option<RunnerInput>,
}

/// The engineer's answer.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct EngineersAnswer {
    /// Name.
    pub name: String,
    /// Date.
    pub date: String,
    /// Section.
    pub section: Option<String>,
    /// Spacing, m.
    pub spacing_m: Option<f64>,
    /// Load along the wall, kN/m.
    pub load_kn_m: Option<f64>,
    /// Whether people may sleep above, by the engineer's word; none where nothing is said of it.
    pub may_sleep: Option<bool>,
    /// Notes.
    pub notes: Option<String>,
}
