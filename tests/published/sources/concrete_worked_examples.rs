//! Combinations of actions in worked examples on concrete frames; G and Q go in with the reductions that the example
//! applies.

use super::{Group, Seen, Source, Within, row};

/// The source.
#[rustfmt::skip]
pub const SOURCE: Source = Source {
    name: "concrete_worked_examples",
    document: "Worked Examples to Eurocode 2, actions on a column and on a wall at ground to first floor, public page by page reprint",
    seen: Seen::Text,
    groups: &[
        Group { topic: "load combinations", function: "strength_load", rows: &[
            row("column, Exp. (6.10)",
                "NEd = 1.35 x 5553.6 + 1.5 x (2279.5 - 42.0) x 0.6 + 0.7 x 1.5 x 42.0 ... 9555.3 kN",
                "g=5553.6;q=1371.9", "/total", 9555.3, Within::Share(2e-05, "the example adds three rounded terms")),
            row("column, Exp. (6.10a)",
                "7497.4 + 1436.1 : 8933.4 kN",
                "g=5553.6;q=957.39", "/total", 8933.4, Within::Digits(0.06)),
            row("column, Exp. (6.10b)",
                "0.925 x 1.35 x 5553.6 + 1.5 x (2279.5 - 42.0) x 0.6 + 0.7 x 1.5 x 42.0 ... 9000.0 kN",
                "g=5553.6;q=1371.9;xi=0.925", "/total", 9000.0, Within::Share(0.001, "the example rounds 0.925 x 1.35 to 1.25")),
            row("wall, maximum axial load",
                "1.35 (214.6 + 50.1) + 1.5 x 502.9 + 1.5 x 0.7 x 35.7 ... 1149.2 kN / m",
                "g=264.7;q=527.89", "/total", 1149.2, Within::Digits(0.05)),
        ] },
    ],
};
