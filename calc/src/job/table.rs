//! The job's schema: every key, its range, and what is taken when it is missing.

use super::schema::Kind::{Choice, Flag, List, Number, Object, Text, Tuple, Whole};
use super::schema::Missing::{Null, Quiet, Required, Taken};
use super::schema::{Field, Kind, field};
use super::support_table::{CATALOGUE, CHECK, ENGINEER, FIX, PLAN, PROP_KEYS};

const OWN: &str = "own judgement";
pub(super) const PRACTICE: &str = "common practice, no source";

/// Schema of a job.
#[must_use]
pub const fn job_schema() -> &'static [Field] {
    JOB
}

pub(super) const X: Kind = Number(-60.0, 60.0, "m");
const MATERIAL: Kind = Choice(&[
    "clay_brick",
    "calcium_silicate_brick",
    "dense_block",
    "medium_block",
    "aerated_block",
    "coursed_stone",
    "rubble",
]);
const LEAF: Kind = Object(&[
    field("material", MATERIAL, Required),
    field("thickness_mm", Number(50.0, 900.0, "mm"), Required),
    field(
        "mortar",
        Choice(&["cement", "lime", "perished"]),
        Taken("\"lime\"", "mortar not said: taken as lime, the weaker", OWN),
    ),
    field("plaster_mm", Number(0.0, 60.0, "mm"), Quiet("0")),
    field("density_kn_m3", Number(3.0, 30.0, "kN/m³"), Null),
    field("unit_n_mm2", Number(1.0, 150.0, "N/mm²"), Null),
    field("unit_is_normalised", Flag, Quiet("false")),
    field("unit_group", Whole(1, 4), Quiet("1")),
    field("mortar_n_mm2", Number(0.2, 30.0, "N/mm²"), Null),
    field("year", Number(1000.0, 2100.0, ""), Null),
]);
const WHICH: Kind = Choice(&["inner", "outer", "both"]);
const OPENING: Kind = Object(&[
    field("width_m", Number(0.3, 12.0, "m"), Required),
    field("head_m", Number(0.5, 6.0, "m"), Required),
    field(
        "left_masonry_m",
        Number(0.0, 60.0, "m"),
        Taken("0", "masonry left of the opening not said: taken as none", OWN),
    ),
    field(
        "right_masonry_m",
        Number(0.0, 60.0, "m"),
        Taken("0", "masonry right of the opening not said: taken as none", OWN),
    ),
    field(
        "beam_depth_mm",
        Number(0.0, 900.0, "mm"),
        Taken("203", "new beam taken as 203 mm deep", OWN),
    ),
    field(
        "flush",
        Flag,
        Taken("false", "new beam taken as below the ceiling", OWN),
    ),
    field("needle_soffit_m", Number(0.5, 9.0, "m"), Null),
    field("beam", NEW_BEAM, Null),
]);
const NEW_BEAM: Kind = Object(&[
    field("name", Text(40), Null),
    field("mass_kg_m", Number(0.5, 500.0, "kg/m"), Null),
    field("length_m", Number(0.3, 15.0, "m"), Null),
    field("pieces", Whole(1, 4), Quiet("1")),
]);
const EXISTING: Kind = Object(&[
    field("x_m", X, Required),
    field("sill_m", Number(0.0, 6.0, "m"), Required),
    field("width_m", Number(0.1, 12.0, "m"), Required),
    field("height_m", Number(0.1, 6.0, "m"), Required),
    field("stays", Flag, Taken("true", "existing opening taken as staying", OWN)),
]);
const UPPER: Kind = Object(&[
    field("x_m", X, Required),
    field("sill_m", Number(0.0, 6.0, "m"), Required),
    field("width_m", Number(0.1, 12.0, "m"), Required),
    field("height_m", Number(0.1, 6.0, "m"), Required),
]);
const WALL: Kind = Object(&[
    field("leaves", List(&LEAF, 2), Required),
    field(
        "cavity_mm",
        Number(0.0, 300.0, "mm"),
        Taken("50", "cavity taken as 50 mm", PRACTICE),
    ),
    field(
        "condition",
        Choice(&["sound", "doubtful", "poor"]),
        Taken("\"doubtful\"", "condition of the wall not said: taken as doubtful", OWN),
    ),
    field("gable", Flag, Taken("false", "taken as no gable", OWN)),
    field("outside_wall", Flag, Taken("true", "taken as an outside wall", OWN)),
    field("openings", List(&EXISTING, 20), Quiet("[]")),
]);
const FLOOR: Kind = Object(&[
    field(
        "leaf",
        WHICH,
        Taken("\"inner\"", "floor taken as bearing on the inner leaf", PRACTICE),
    ),
    field(
        "inside_span_m",
        Number(0.0, 12.0, "m"),
        Taken("4", "floor span inside taken as 4 m", OWN),
    ),
    field(
        "outside_span_m",
        Number(0.0, 12.0, "m"),
        Taken("0", "no floor outside", OWN),
    ),
    field(
        "direction",
        Choice(&["onto", "along"]),
        Taken("\"onto\"", "joists taken as bearing on the wall", OWN),
    ),
    field(
        "continuous",
        Flag,
        Taken("false", "joists taken as two simple spans", OWN),
    ),
    field(
        "joist_spacing_m",
        Number(0.1, 1.2, "m"),
        Taken("0.4", "joists taken at 400 mm", PRACTICE),
    ),
    field(
        "joist_depth_m",
        Number(0.05, 0.6, "m"),
        Taken("0.22", "joists and boards taken as 220 mm deep", PRACTICE),
    ),
    field(
        "dead_kn_m2",
        Number(0.0, 10.0, "kN/m²"),
        Taken("0.5", "timber floor 0.5 kN/m²", "common practice, no source"),
    ),
    field(
        "imposed_kn_m2",
        Number(0.0, 10.0, "kN/m²"),
        Taken(
            "1.5",
            "dwelling 1.5 kN/m²",
            "UK NA to EN 1991-1-1 Table NA.3, category A1 (secondary)",
        ),
    ),
    field(
        "partitions_kn_m2",
        Number(0.0, 5.0, "kN/m²"),
        Taken("0.5", "light partitions 0.5 kN/m²", "EN 1991-1-1 6.3.1.2(8)"),
    ),
    field("empty", Flag, Taken("false", "storey taken as furnished", OWN)),
    field("slept_in", Flag, Taken("true", "taken as slept in", OWN)),
    field("bearing_m", Number(0.5, 15.0, "m"), Null),
    field("beam_and_block", Flag, Quiet("false")),
    field("held_apart", Flag, Quiet("false")),
]);
const STOREY: Kind = Object(&[
    field(
        "height_m",
        Number(0.3, 6.0, "m"),
        Taken("2.6", "storey height taken as 2.6 m", PRACTICE),
    ),
    field("leaves", List(&LEAF, 2), Null),
    field("openings", List(&UPPER, 20), Quiet("[]")),
    field("floor", FLOOR, Null),
]);
const ROOF: Kind = Object(&[
    field(
        "kind",
        Choice(&["trusses", "rafters", "flat", "none"]),
        Taken("\"trusses\"", "roof taken as trusses", PRACTICE),
    ),
    field(
        "leaf",
        WHICH,
        Taken("\"inner\"", "roof taken as bearing on the inner leaf", PRACTICE),
    ),
    field("bearing_m", Number(0.5, 20.0, "m"), Null),
    field(
        "span_m",
        Number(0.0, 20.0, "m"),
        Taken("8", "roof span taken as 8 m", OWN),
    ),
    field(
        "overhang_m",
        Number(0.0, 2.0, "m"),
        Taken("0.3", "eaves overhang taken as 0.3 m", PRACTICE),
    ),
    field(
        "pitch_deg",
        Number(0.0, 75.0, "°"),
        Taken("35", "pitch taken as 35°", PRACTICE),
    ),
    field(
        "dead_kn_m2",
        Number(0.0, 6.0, "kN/m²"),
        Taken("0.85", "tiles, battens and timbers 0.85 kN/m² of slope", PRACTICE),
    ),
    field(
        "ceiling_kn_m2",
        Number(0.0, 3.0, "kN/m²"),
        Taken("0.3", "ceiling and insulation 0.3 kN/m²", PRACTICE),
    ),
    field(
        "bears",
        Flag,
        Taken("true", "not sure whether the roof bears counts as bearing", OWN),
    ),
    field(
        "plate_mm",
        Tuple(&[Number(20.0, 400.0, "mm"), Number(20.0, 400.0, "mm")]),
        Taken("[100,50]", "wall plate taken as 100 × 50 mm, C16", PRACTICE),
    ),
    field("truss_x_m", List(&X, 60), Quiet("[]")),
]);
const POINT: Kind = Object(&[
    field("x_m", X, Required),
    field("level", Whole(0, 6), Required),
    field(
        "leaf",
        WHICH,
        Taken("\"inner\"", "point load taken on the inner leaf", OWN),
    ),
    field("dead_kn", Number(0.0, 500.0, "kN"), Required),
    field("imposed_kn", Number(0.0, 500.0, "kN"), Quiet("0")),
    field("what", Text(80), Quiet("\"point load\"")),
]);
const FOOT: Kind = Object(&[
    field(
        "kind",
        Choice(&[
            "slab_on_ground",
            "suspended_slab",
            "suspended_timber",
            "ground",
            "paving",
            "decking",
            "unknown",
        ]),
        Taken("\"unknown\"", "what is under the feet is not said", OWN),
    ),
    field("thickness_mm", Number(0.0, 600.0, "mm"), Quiet("0")),
    field(
        "ground",
        Choice(&[
            "soft_clay",
            "firm_clay",
            "stiff_clay",
            "loose_sand",
            "dense_sand",
            "gravel",
            "rock",
            "unknown",
        ]),
        Taken("\"unknown\"", "ground not said: taken as soft clay", OWN),
    ),
    field("bearing_kpa", Number(10.0, 2000.0, "kPa"), Null),
    field(
        "fixed",
        Flag,
        Taken("false", "feet taken as not fixed on the centre of their boards", OWN),
    ),
    field("carried_down", Choice(&["props_below", "solid"]), Null),
]);
const SIDE: Kind = Object(&[
    field(
        "foot_level_m",
        Number(-4.0, 3.0, "m"),
        Taken("0", "ground taken level with the inside floor", OWN),
    ),
    field(
        "room_m",
        Number(0.0, 30.0, "m"),
        Taken("1.2", "working room taken as 1.2 m", OWN),
    ),
    field("foot", FOOT, Taken("{}", "what is under the feet is not said", OWN)),
]);
const SIDES: Kind = Object(&[
    field("inside", SIDE, Taken("{}", "inside not described", OWN)),
    field("outside", SIDE, Taken("{}", "outside not described", OWN)),
]);
const FORBIDDEN: Kind = Object(&[
    field("from_m", X, Required),
    field("to_m", X, Required),
    field("why", Text(80), Quiet("\"\"")),
]);
const SITE: Kind = Object(&[
    field(
        "altitude_m",
        Number(-10.0, 1500.0, "m"),
        Taken("100", "altitude taken as 100 m", OWN),
    ),
    field("snow_kn_m2", Number(0.0, 10.0, "kN/m²"), Null),
    field("snow_zone", Number(1.0, 6.5, ""), Null),
    field(
        "wind_m_s",
        Number(5.0, 60.0, "m/s"),
        Taken("24", "basic wind taken as 24 m/s", OWN),
    ),
    field(
        "terrain",
        Choice(&["0", "I", "II", "III", "IV"]),
        Taken("\"II\"", "terrain taken as open country", OWN),
    ),
    field(
        "days",
        Number(1.0, 730.0, "days"),
        Taken("28", "taken as standing 28 days", OWN),
    ),
    field("gust_m_s", Number(0.0, 90.0, "m/s"), Null),
    field(
        "national",
        Choice(&["uk", "recommended"]),
        Taken(
            "\"uk\"",
            "nationally determined values taken as the United Kingdom's",
            OWN,
        ),
    ),
]);
const ASKED: Kind = Choice(&["yes", "no", "unknown"]);
const UNKNOWN: &str = "\"unknown\"";
const ANSWERS: Kind = Object(&[
    field(
        "cellar",
        ASKED,
        Taken(UNKNOWN, "cellar, drain or void under the feet: not answered", OWN),
    ),
    field(
        "chimney",
        ASKED,
        Taken(UNKNOWN, "chimney breast or stack: not answered", OWN),
    ),
    field("bay", ASKED, Taken(UNKNOWN, "bay window: not answered", OWN)),
    field(
        "veneer",
        ASKED,
        Taken(UNKNOWN, "veneer over a frame: not answered", OWN),
    ),
    field(
        "removed",
        ASKED,
        Taken(UNKNOWN, "floors, cross walls or ties removed: not answered", OWN),
    ),
    field(
        "digging",
        ASKED,
        Taken(UNKNOWN, "digging near the feet: not answered", OWN),
    ),
    field(
        "cracked",
        ASKED,
        Taken(UNKNOWN, "bulging, leaning or cracking: not answered", OWN),
    ),
    field("corner_m", Number(0.0, 60.0, "m"), Null),
    field(
        "restraint",
        Choice(&["floor", "roof", "strapped", "designed", "none", "unknown"]),
        Taken(UNKNOWN, "what ties the wall above the opening: not answered", OWN),
    ),
]);
const JOB: &[Field] = &[
    field("contract", Whole(1, 1), Required),
    field(
        "country",
        Text(40),
        Taken("\"other\"", "country not said: check your own authority", OWN),
    ),
    field("opening", OPENING, Required),
    field("wall", WALL, Required),
    field("above", List(&STOREY, 6), Required),
    field("roof", ROOF, Taken("{}", "roof not described", OWN)),
    field("points", List(&POINT, 40), Quiet("[]")),
    field("sides", SIDES, Taken("{}", "ground at the sides not described", OWN)),
    field("forbidden", List(&FORBIDDEN, 40), Quiet("[]")),
    field("site", SITE, Taken("{}", "site not described", OWN)),
    field("answers", ANSWERS, Taken("{}", "the questions are not answered", OWN)),
    field("props", List(&Object(PROP_KEYS), 40), Quiet("[]")),
    field("catalogue", CATALOGUE, Quiet("{}")),
    field("check", CHECK, Null),
    field("fix", FIX, Null),
    field("builders_plan", PLAN, Null),
    field("engineer", ENGINEER, Null),
];
