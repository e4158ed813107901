//! Dynamic pressure of an effective wind speed in two public calculation sheets by BS 6399-2.

use super::{Group, Seen, Source, Within, row};

/// The source.
#[rustfmt::skip]
pub const SOURCE: Source = Source {
    name: "bs6399_sheets",
    document: "BS 6399-2 clause 2.1.2.1 in two public calculation sheets (document 232266156; a sheet for a circular building)",
    seen: Seen::Text,
    groups: &[
        Group { topic: "wind", function: "gust_pressure", rows: &[
            row("document 232266156, dynamic pressure",
                "Ve = Vs Sb = 29.89 m/s ... qs = (0.613 kg/m3) Ve2 = 0.55 kN/m2",
                "gust_m_s=29.89", "", 0.55, Within::Digits(0.005)),
            row("sheet for a circular building, dynamic pressure",
                "Effective wind speed(Ve) = 47.48 m/s DYNAMIC PRESSURE(qs) = 1381.81 Pa",
                "gust_m_s=47.48", "", 1.38181, Within::Share(0.0001, "the speed is printed to two decimals")),
        ] },
    ],
};
