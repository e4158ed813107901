//! The schema of what a support is made of and who else has a say: props, the catalogue, what is held still, the builder's
//! plan, the engineer's answer, the independent check.

use super::schema::Kind::{Choice, Flag, List, Number, Object, Text, TextOr, Tuple, Whole};
use super::schema::Missing::{Absent, Null, Quiet, Required, Taken};
use super::schema::{Field, Kind, field};
use super::table::{PRACTICE, X};

const MM: Kind = Number(0.0, 1000.0, "mm");
pub(super) const PROP_KEYS: &[Field] = &[
    field("name", Text(80), Quiet("\"\"")),
    field("data", Choice(&["tn79", "en1065", "sheet"]), Required),
    field("size", Whole(0, 4), Absent),
    field("class", Text(8), Absent),
    field(
        "table",
        List(&Tuple(&[Number(0.3, 8.0, "m"), Number(0.1, 400.0, "kN")]), 60),
        Absent,
    ),
    field("load", Choice(&["safe_working", "characteristic"]), Absent),
    field(
        "basis",
        Object(&[
            field("head_mm", Number(0.0, 100.0, "mm"), Required),
            field("foot_mm", Number(0.0, 100.0, "mm"), Required),
            field("lean_deg", Number(0.0, 10.0, "°"), Required),
        ]),
        Absent,
    ),
    field("min_m", Number(0.3, 8.0, "m"), Absent),
    field("max_m", Number(0.3, 8.0, "m"), Absent),
    field(
        "tubes",
        Object(&[
            field(
                "outer_mm",
                Tuple(&[Number(20.0, 200.0, "mm"), Number(1.0, 20.0, "mm")]),
                Required,
            ),
            field(
                "inner_mm",
                Tuple(&[Number(20.0, 200.0, "mm"), Number(1.0, 20.0, "mm")]),
                Required,
            ),
            field("closed_m", Number(0.2, 6.0, "m"), Required),
        ]),
        Absent,
    ),
];
pub(super) const CATALOGUE: Kind = Object(&[
    field("sections", List(&Text(40), 60), Null),
    field(
        "rates",
        Object(&[
            field("needle", Number(0.0, 1e6, "per week"), Required),
            field("prop", Number(0.0, 1e6, "per week"), Required),
            field("board", Number(0.0, 1e6, "per week"), Required),
        ]),
        Null,
    ),
    field("bracket", BRACKET, Null),
]);
/// Boards under a prop `[length, breadth, thickness]`; zeros for none.
const BOARD: Kind = Tuple(&[
    Number(0.0, 3000.0, "mm"),
    Number(0.0, 1200.0, "mm"),
    Number(0.0, 400.0, "mm"),
]);
const BRACKET: Kind = Object(&[
    field("rated_kn", Number(0.1, 400.0, "kN"), Null),
    field(
        "arm_mm",
        Number(0.0, 1000.0, "mm"),
        Taken(
            "200",
            "arm of the bracket taken as 200 mm",
            "CROSS reports 32 and 57 (2006): about 200 mm",
        ),
    ),
    field(
        "plate_mm",
        Tuple(&[Number(20.0, 600.0, "mm"), Number(20.0, 400.0, "mm")]),
        Taken(
            "[150,100]",
            "plate of the bracket taken as 150 mm along the wall and 100 mm into it",
            PRACTICE,
        ),
    ),
]);
pub(super) const FIX: Kind = Object(&[
    field("needles_x_m", List(&X, 40), Null),
    field("section", Text(40), Null),
    field("prop", TextOr(PROP_KEYS), Null),
    field("inside_y_mm", Number(0.0, 3000.0, "mm"), Null),
    field("outside_y_mm", Number(-3000.0, 0.0, "mm"), Null),
    field("pack_mm", Number(0.0, 25.0, "mm"), Null),
    field("board_mm", BOARD, Null),
]);
pub(super) const PLAN: Kind = Object(&[
    field("kind", Choice(&["needles", "brackets", "props"]), Required),
    field("count", Whole(1, 40), Null),
    field("needles_x_m", List(&X, 40), Null),
    field("section", Text(40), Null),
    field("prop", TextOr(PROP_KEYS), Null),
    field("inside_y_mm", Number(0.0, 3000.0, "mm"), Null),
    field("outside_y_mm", Number(-3000.0, 0.0, "mm"), Null),
    field("pack_mm", Number(0.0, 25.0, "mm"), Null),
    field("arm_mm", MM, Null),
    field("rated_kn", Number(0.1, 400.0, "kN"), Null),
    field(
        "plate_mm",
        Tuple(&[Number(20.0, 600.0, "mm"), Number(20.0, 400.0, "mm")]),
        Null,
    ),
    field("feet", Text(200), Null),
    field(
        "runner",
        Object(&[
            field("section", Text(40), Required),
            field("props_x_m", List(&X, 40), Null),
            field("spacing_m", Number(0.2, 4.0, "m"), Null),
        ]),
        Null,
    ),
]);
pub(super) const ENGINEER: Kind = Object(&[
    field("name", Text(120), Required),
    field("date", Text(40), Required),
    field("section", Text(40), Null),
    field("spacing_m", Number(0.2, 3.0, "m"), Null),
    field("load_kn_m", Number(0.1, 1000.0, "kN/m"), Null),
    field("may_sleep", Flag, Null),
    field("notes", Text(4000), Null),
]);
pub(super) const CHECK: Kind = Object(&[
    field("name", Text(120), Required),
    field("date", Text(40), Required),
    field("category", Whole(0, 3), Quiet("1")),
]);
