//! Categories of visible damage by the width of cracks, on the page about the Burland scale of a building encyclopaedia.
//! The widths that go in stand inside each printed range; the page prints no width for category 5, which is what is wider
//! than 25 mm.

use super::{Group, Seen, Source, Within, row};

/// The source.
#[rustfmt::skip]
pub const SOURCE: Source = Source {
    name: "burland_scale",
    document: "Designing Buildings, The Construction Wiki, article Burland scale, table of categories",
    seen: Seen::Text,
    groups: &[
        Group { topic: "cracks", function: "crack_category", rows: &[
            row("table, category 0 Negligible",
                "Hairline cracks of less than about 0.1 mm are classed as negligible",
                "width_mm=0.08", "", 0.0, Within::Digits(0.0)),
            row("table, category 1 Very slight",
                "Fine cracks that can easily be treated during normal decoration. <1",
                "width_mm=0.9", "", 1.0, Within::Digits(0.0)),
            row("table, category 2 Slight",
                "Cracks easily filled. Redecoration probably required. <5",
                "width_mm=4", "", 2.0, Within::Digits(0.0)),
            row("table, category 3 Moderate", "5-15 or a number of cracks > 3", "width_mm=8", "", 3.0, Within::Digits(0.0)),
            row("table, category 4 Severe",
                "15-25 but also depends on number of cracks",
                "width_mm=18", "", 4.0, Within::Digits(0.0)),
            row("table, category 5 Very severe",
                "This requires a major repair involving partial or complete rebuilding.",
                "width_mm=40", "", 5.0, Within::Digits(0.0)),
        ] },
    ],
};
