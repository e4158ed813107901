//! Reductions of the guideline weights for lifting in two pages of a training booklet that reprints the regulator's brief
//! guide.

use super::{Group, Seen, Source, Within, row};

/// The source.
#[rustfmt::skip]
pub const SOURCE: Source = Source {
    name: "handling_booklet",
    document: "HSE INDG143 Manual handling at work, a brief guide, reprinted in a public training booklet, pages 59 and 65",
    seen: Seen::Text,
    groups: &[
        Group { topic: "manual handling", function: "hse_filter", rows: &[
            row("page 59, twisting, beyond 45°",
                "reduce them by 10% if the handler twists beyond 45°",
                "base_kg=25;twist_deg=50", "", 22.5, Within::Digits(0.005)),
            row("page 59, twisting, beyond 90°",
                "by 20% if the handler twists beyond 90°",
                "base_kg=25;twist_deg=100", "", 20.0, Within::Digits(0.005)),
            row("page 59, not beyond 45°",
                "as a rough guide, reduce them by 10% if the handler twists beyond 45°",
                "base_kg=16;twist_deg=30", "", 16.0, Within::Digits(0.005)),
            row("page 59, frequent lifting, 30%",
                "reduce the weights by 30% if the operation is repeated once or twice a minute",
                "base_kg=25;per_min=2", "", 17.5, Within::Digits(0.005)),
            row("page 59, frequent lifting, 50%",
                "by 50% if it is repeated 5–8 times a minute",
                "base_kg=25;per_min=6", "", 12.5, Within::Digits(0.005)),
            row("page 59, frequent lifting, 80%",
                "by 80% where it is repeated more than 12 times a minute",
                "base_kg=25;per_min=13", "", 5.0, Within::Digits(0.005)),
            row("page 65, 2.4, up to 30 an hour",
                "relatively infrequent operations – up to approximately 30 operations per hour",
                "base_kg=16;per_min=0.5", "", 16.0, Within::Digits(0.005)),
        ] },
    ],
};
