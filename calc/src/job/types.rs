//! The types of a job; keys, units and meaning as in the contract. Lengths along the wall and heights in m, sections and
//! thicknesses in mm.

use super::choices::{BuildersPlan, Catalogue, EngineersAnswer, Fix, IndependentCheck, PropInput};
use super::words::{
    Answer, CarriedDown, Condition, Direction, FootKind, Ground, Material, Mortar, Restraint, RoofKind, Terrain,
    WhichLeaf,
};
use crate::clause::{Annex, NationalParameters};
use serde::{Deserialize, Serialize};

/// A job as described, every optional key filled.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Job {
    /// Version of the contract, 1.
    pub contract: u32,
    /// Country: changes words and stops, never physics.
    pub country: String,
    /// The new opening.
    pub opening: Opening,
    /// The wall at the opening.
    pub wall: Wall,
    /// Storeys above, from the bottom up.
    pub above: Vec<Storey>,
    /// The roof.
    pub roof: Roof,
    /// Point loads.
    pub points: Vec<Point>,
    /// Both sides of the wall.
    pub sides: Sides,
    /// Stretches of the wall where no hole may be cut.
    pub forbidden: Vec<Forbidden>,
    /// Site and time.
    pub site: Site,
    /// Answers to the questions that decide whether the method applies.
    pub answers: Answers,
    /// Props at hand; empty means trade sizes 0 to 4.
    pub props: Vec<PropInput>,
    /// Sections and hire rates to choose from.
    pub catalogue: Catalogue,
    /// An independent check that was made.
    pub check: Option<IndependentCheck>,
    /// Parts of the proposal held still.
    pub fix: Option<Fix>,
    /// What the builder proposes.
    pub builders_plan: Option<BuildersPlan>,
    /// The engineer's answer.
    pub engineer: Option<EngineersAnswer>,
}

/// The new opening.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Opening {
    /// Marked width, m.
    pub width_m: f64,
    /// Height of the underside of the new beam (below the ceiling) over the inside floor, m.
    pub head_m: f64,
    /// Masonry left of the marked left jamb up to the next opening or the end of the wall, m.
    pub left_masonry_m: f64,
    /// The same to the right, m.
    pub right_masonry_m: f64,
    /// Depth of the new beam, mm.
    pub beam_depth_mm: f64,
    /// Whether the beam lies flush within the floor above.
    pub flush: bool,
    /// Underside of the needles over the inside floor where it is given, m.
    pub needle_soffit_m: Option<f64>,
    /// The new beam as a thing that has to be lifted in, where it is known. It changes words, never the support.
    #[serde(default)]
    pub beam: Option<NewBeam>,
}

/// The new beam as a thing to be lifted.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct NewBeam {
    /// Name: a section of the tables, or in the user's own words.
    pub name: Option<String>,
    /// Mass per metre, kg/m; none: by the section's name where the tables know it.
    pub mass_kg_m: Option<f64>,
    /// Length of a piece, m.
    pub length_m: Option<f64>,
    /// Pieces, each lifted by itself.
    pub pieces: u32,
}

/// The wall at the opening.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Wall {
    /// Leaves from outside in.
    pub leaves: Vec<Leaf>,
    /// Clear cavity between two leaves, mm.
    pub cavity_mm: f64,
    /// `sound`, `doubtful` or `poor`.
    pub condition: Condition,
    /// Whether this is a gable.
    pub gable: bool,
    /// Whether the weather side is outside.
    pub outside_wall: bool,
    /// Existing openings in this storey.
    pub openings: Vec<ExistingOpening>,
}

/// One leaf of masonry.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Leaf {
    /// Masonry material.
    pub material: Material,
    /// Thickness, mm.
    pub thickness_mm: f64,
    /// Mortar.
    pub mortar: Mortar,
    /// Plaster or render carried by this leaf, mm.
    pub plaster_mm: f64,
    /// Density where it is known, kN/m³.
    pub density_kn_m3: Option<f64>,
    /// Unit strength where it is known, N/mm².
    pub unit_n_mm2: Option<f64>,
    /// Whether that strength is normalised already.
    pub unit_is_normalised: bool,
    /// Unit group of EN 1996-1-1, 1 to 4.
    pub unit_group: u32,
    /// Mortar strength where it is known, N/mm².
    pub mortar_n_mm2: Option<f64>,
    /// Year the wall was built, where it is known.
    pub year: Option<f64>,
}

/// An opening that is there already in this storey.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ExistingOpening {
    /// Left edge from the marked left jamb, m.
    pub x_m: f64,
    /// Sill over the inside floor, m.
    pub sill_m: f64,
    /// Width, m.
    pub width_m: f64,
    /// Height, m.
    pub height_m: f64,
    /// Whether it stays.
    pub stays: bool,
}

/// An opening in a storey above.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct UpperOpening {
    /// Left edge from the marked left jamb, m.
    pub x_m: f64,
    /// Sill over the storey's floor, m.
    pub sill_m: f64,
    /// Width, m.
    pub width_m: f64,
    /// Height, m.
    pub height_m: f64,
}

/// A storey above the opening.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Storey {
    /// Height from bearing to bearing, m.
    pub height_m: f64,
    /// Leaves of this storey; none means as below.
    pub leaves: Option<Vec<Leaf>>,
    /// Openings of this storey.
    pub openings: Vec<UpperOpening>,
    /// The floor at the foot of this storey, where one stands on or beside the wall.
    pub floor: Option<Floor>,
}

/// A floor at the foot of a storey above.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Floor {
    /// Leaf it bears on.
    pub leaf: WhichLeaf,
    /// Span inside, m.
    pub inside_span_m: f64,
    /// Span outside (0: none), m.
    pub outside_span_m: f64,
    /// Whether the joists run onto the wall or along it.
    pub direction: Direction,
    /// Whether the joists run through over the wall.
    pub continuous: bool,
    /// Joist spacing, m.
    pub joist_spacing_m: f64,
    /// Joist depth, m.
    pub joist_depth_m: f64,
    /// Dead load, kN/m².
    pub dead_kn_m2: f64,
    /// Imposed load, kN/m².
    pub imposed_kn_m2: f64,
    /// Partitions, kN/m².
    pub partitions_kn_m2: f64,
    /// Whether the storey is kept empty of furniture and stores.
    pub empty: bool,
    /// Whether people sleep there while the wall is held.
    pub slept_in: bool,
    /// Height of the joists' bearing over the inside floor of the opening's storey, m.
    pub bearing_m: Option<f64>,
    /// A beam-and-block floor instead of timber joists.
    #[serde(default)]
    pub beam_and_block: bool,
    /// Whether the user takes this floor off the needles and gives it a line of its own.
    #[serde(default)]
    pub held_apart: bool,
}

/// The roof.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Roof {
    /// Kind.
    pub kind: RoofKind,
    /// Leaf it bears on.
    pub leaf: WhichLeaf,
    /// Height of its bearing, m; none: the top of what stands above, else 2.4 m.
    pub bearing_m: Option<f64>,
    /// Span on plan, m.
    pub span_m: f64,
    /// Eaves overhang, m.
    pub overhang_m: f64,
    /// Pitch, degrees.
    pub pitch_deg: f64,
    /// Covering and timbers per m² of slope, kN/m².
    pub dead_kn_m2: f64,
    /// Ceiling and loft, kN/m².
    pub ceiling_kn_m2: f64,
    /// Whether the roof bears on this wall.
    pub bears: bool,
    /// Wall plate `[width, depth]`, mm.
    pub plate_mm: [f64; 2],
    /// Places of the trusses along the wall, m; empty where they are not known.
    pub truss_x_m: Vec<f64>,
}

/// A point load on the wall.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Point {
    /// Place from the marked left jamb, m.
    pub x_m: f64,
    /// Level: n is the bearing of `above[n].floor`; the number of storeys is the roof's bearing.
    pub level: u32,
    /// Leaf.
    pub leaf: WhichLeaf,
    /// Permanent load, kN.
    pub dead_kn: f64,
    /// Imposed load, kN.
    pub imposed_kn: f64,
    /// What it is.
    pub what: String,
}

/// The two sides of the wall.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Sides {
    /// Inside.
    pub inside: Side,
    /// Outside.
    pub outside: Side,
}

/// One side of the wall.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Side {
    /// Level of the ground or floor under the sole boards over the inside floor, m.
    pub foot_level_m: f64,
    /// Clear working room from the wall's face, m.
    pub room_m: f64,
    /// What is under the feet.
    pub foot: FootInput,
}

/// What is under a prop's foot.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FootInput {
    /// Kind.
    pub kind: FootKind,
    /// Thickness of the slab or paving, mm.
    pub thickness_mm: f64,
    /// Ground under it.
    pub ground: Ground,
    /// Bearing value of the ground where it is known, kPa.
    pub bearing_kpa: Option<f64>,
    /// Whether the prop's foot is set out and fixed on the centre of its board.
    pub fixed: bool,
    /// How the load is carried down through a suspended floor.
    pub carried_down: Option<CarriedDown>,
}

/// A stretch of wall where no hole may be cut.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Forbidden {
    /// From, m.
    pub from_m: f64,
    /// To, m.
    pub to_m: f64,
    /// Why.
    pub why: String,
}

/// Site and time.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Site {
    /// Altitude, m.
    pub altitude_m: f64,
    /// Ground snow where it is known, kN/m².
    pub snow_kn_m2: Option<f64>,
    /// Snow zone of the UK map where it is known.
    pub snow_zone: Option<f64>,
    /// Basic wind speed, m/s.
    pub wind_m_s: f64,
    /// Terrain category.
    pub terrain: Terrain,
    /// Days the support stands.
    pub days: f64,
    /// Gust forecast, m/s.
    pub gust_m_s: Option<f64>,
    /// Whose nationally determined values are taken.
    #[serde(default)]
    pub national: Annex,
}

impl Site {
    /// Nationally determined values at the site's altitude.
    #[must_use]
    pub fn parameters(&self) -> NationalParameters {
        self.national.parameters().at_altitude(self.altitude_m)
    }
}

/// Answers to the questions that decide whether the method applies.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Answers {
    /// A cellar, void, drain or manhole under a foot.
    pub cellar: Answer,
    /// A chimney breast or stack in or over the wall.
    pub chimney: Answer,
    /// A bay window.
    pub bay: Answer,
    /// A veneer over a frame.
    pub veneer: Answer,
    /// Floors, cross walls or ties removed or to be removed.
    pub removed: Answer,
    /// Digging near the feet.
    pub digging: Answer,
    /// Bulging, leaning or actively cracking.
    pub cracked: Answer,
    /// Distance to the next corner, m; none: the smaller of the masonry at the sides.
    pub corner_m: Option<f64>,
    /// What ties the wall just above the opening.
    pub restraint: Restraint,
}
