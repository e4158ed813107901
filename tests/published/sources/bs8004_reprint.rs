//! Presumed bearing values in an adapted reprint of the table of BS 8004.

use super::{Group, Seen, Source, Within, row};

/// The source.
#[rustfmt::skip]
pub const SOURCE: Source = Source {
    name: "bs8004_reprint",
    document: "BS 8004:1986 Table 1, adapted reprint on a structural engineer's public page, 19 June 2023",
    seen: Seen::Text,
    groups: &[
        Group { topic: "soil bearing", function: "bearing_family", rows: &[
            row("cohesive soils, firm clays, lower value",
                "Firm clays 75 to 150",
                "family=clay_firm", "/low_kpa", 75.0, Within::Digits(0.5)),
            row("cohesive soils, firm clays, upper value",
                "Firm clays 75 to 150",
                "family=clay_firm", "/high_kpa", 150.0, Within::Digits(0.5)),
            row("cohesive soils, stiff clays, lower value",
                "Stiff clays 150 to 300",
                "family=clay_stiff", "/low_kpa", 150.0, Within::Digits(0.5)),
            row("cohesive soils, stiff clays, upper value",
                "Stiff clays 150 to 300",
                "family=clay_stiff", "/high_kpa", 300.0, Within::Digits(0.5)),
            row("cohesive soils, soft clays and silts",
                "Soft clays and silts < 75",
                "family=clay_soft", "/high_kpa", 75.0, Within::Digits(0.5)),
            row("cohesive soils, very stiff, lower value",
                "Very stiff boulder clays and hard clays 300 to 600",
                "family=clay_very_stiff", "/low_kpa", 300.0, Within::Digits(0.5)),
            row("cohesive soils, very stiff, upper value",
                "Very stiff boulder clays and hard clays 300 to 600",
                "family=clay_very_stiff", "/high_kpa", 600.0, Within::Digits(0.5)),
            row("granular soils, loose gravel",
                "Loose gravel, or loose sand & gravel < 200",
                "family=sand_gravel_loose", "/high_kpa", 200.0, Within::Digits(0.5)),
            row("granular soils, loose sand",
                "Loose sand < 100",
                "family=sand_loose", "/high_kpa", 100.0, Within::Digits(0.5)),
        ] },
        Group { topic: "soil bearing", function: "presumed_bearing", rows: &[
            row("granular soils, medium dense gravel, low end",
                "Medium dense gravel, or medium dense sand & gravel 200 to 600",
                "ground=gravel", "", 200.0, Within::Digits(0.5)),
            row("cohesive soils, firm clays, low end",
                "Firm clays 75 to 150",
                "ground=firm_clay", "", 75.0, Within::Digits(0.5)),
            row("cohesive soils, stiff clays, low end",
                "Stiff clays 150 to 300",
                "ground=stiff_clay", "", 150.0, Within::Digits(0.5)),
        ] },
    ],
};
