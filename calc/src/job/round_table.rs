//! The schema of what a person enters in a round.

use super::schema::Kind::{Choice, Flag, List, Number, Object, Text, Tuple};
use super::schema::Missing::{Null, Quiet, Required, Taken};
use super::schema::{Field, Kind, field};

const GAUGE: Kind = Object(&[
    field("name", Text(80), Required),
    field("mm", Number(-50.0, 100.0, "mm"), Required),
    field("first_mm", Number(-50.0, 100.0, "mm"), Null),
    field("last_mm", Number(-50.0, 100.0, "mm"), Null),
]);
const READING: Kind = Object(&[
    field("prop", Text(40), Required),
    field("pin", Choice(&["right", "wrong", "missing"]), Required),
    field("collar_turns", Number(-40.0, 40.0, "turns"), Quiet("0")),
    field(
        "thread_mm",
        Number(1.0, 20.0, "mm"),
        Taken("6", "thread pitch taken as 6 mm a turn", "own judgement"),
    ),
    field(
        "lean_mm",
        Tuple(&[Number(-500.0, 500.0, "mm"), Number(-500.0, 500.0, "mm")]),
        Required,
    ),
    field("over_m", Number(0.1, 6.0, "m"), Required),
    field("head_off_mm", Number(-300.0, 300.0, "mm"), Required),
    field("foot_off_mm", Number(-300.0, 300.0, "mm"), Required),
    field("foot_firm", Flag, Required),
    field("straight", Flag, Required),
    field("fixed", Flag, Required),
    field("packed", Flag, Required),
]);
const JOB_CHECKS: Kind = Object(&[
    field("braces", Flag, Required),
    field("doors_stick", Flag, Required),
    field("load_on_floors", Flag, Required),
    field("digging", Flag, Required),
    field("wind_m_s", Number(0.0, 90.0, "m/s"), Null),
]);

const READINGS: Kind = List(&READING, 200);

/// What a gauge read in an earlier round.
const GAUGE_READ: Kind = Object(&[
    field("name", Text(80), Required),
    field("mm", Number(-50.0, 100.0, "mm"), Required),
]);
const GAUGES_READ: Kind = List(&GAUGE_READ, 60);

/// Schema of the readings of earlier rounds, oldest first: years of them, several a day.
pub const EARLIER: &[Field] = &[
    field("earlier", List(&READINGS, 4000), Quiet("[]")),
    field("earlier_gauges", List(&GAUGES_READ, 4000), Quiet("[]")),
];

/// Schema of one reading, and of one gauge, alone.
pub const READING_ROW: &[Field] = &[field("row", READING, Required)];
/// The gauge's.
pub const GAUGE_ROW: &[Field] = &[field("row", GAUGE, Required)];

/// Schema of the parts of a round that a person enters: readings, gauges and the checks of the whole job.
pub const ROUND: &[Field] = &[
    field("readings", READINGS, Required),
    field("gauges", List(&GAUGE, 60), Quiet("[]")),
    field("job_checks", JOB_CHECKS, Required),
];
