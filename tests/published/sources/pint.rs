//! Conversions between the units of old drawings and metric ones, by a library of units; `libraries/run_pint.py` prints
//! them.

use super::{Group, Seen, Source, Within, row};

/// The source.
#[rustfmt::skip]
pub const SOURCE: Source = Source {
    name: "pint",
    document: "pint 0.25.3, UnitRegistry.Quantity.to",
    seen: Seen::Library,
    groups: &[
        Group { topic: "units", function: "convert", rows: &[
            row("1 force_pound / foot**2",
                "1 force_pound / foot**2 -> 0.04788026",
                "value=1;from=lbf/ft2;to=kN/m2", "", 0.04788026, Within::Digits(5e-09)),
            row("40 force_pound / foot**2",
                "40 force_pound / foot**2 -> 1.91521",
                "value=40;from=lbf/ft2;to=kN/m2", "", 1.91521, Within::Share(5e-07, "pint was printed to seven digits")),
            row("1000 force_pound / inch**2",
                "1000 force_pound / inch**2 -> 6.894757",
                "value=1000;from=lbf/in2;to=N/mm2", "", 6.894757, Within::Digits(5e-07)),
            row("2.5 force_long_ton",
                "2.5 force_long_ton -> 24.91004",
                "value=2.5;from=tonf;to=kN", "", 24.91004, Within::Digits(5e-06)),
            row("1 force_long_ton / foot**2",
                "1 force_long_ton / foot**2 -> 107.2518",
                "value=1;from=tonf/ft2;to=kN/m2", "", 107.2518, Within::Digits(5e-05)),
            row("100 force_pound / foot",
                "100 force_pound / foot -> 1.45939",
                "value=100;from=lbf/ft;to=kN/m", "", 1.45939, Within::Share(5e-07, "pint was printed to seven digits")),
            row("120 pound / foot**3",
                "120 pound / foot**3 -> 1922.216",
                "value=120;from=lb/ft3;to=kg/m3", "", 1922.216, Within::Digits(0.0005)),
            row("9 inch", "9 inch -> 228.6", "value=9;from=in;to=mm", "", 228.6, Within::Digits(1e-09)),
            row("1 UK_hundredweight",
                "1 UK_hundredweight -> 50.80235",
                "value=1;from=cwt;to=kg", "", 50.80235, Within::Digits(5e-06)),
            row("60 mile / hour",
                "60 mile / hour -> 26.8224",
                "value=60;from=mile/h;to=m/s", "", 26.8224, Within::Digits(1e-09)),
            row("1000 foot * force_pound",
                "1000 foot * force_pound -> 1.355818",
                "value=1000;from=lbf.ft;to=kNm", "", 1.355818, Within::Digits(5e-07)),
            row("40 kilonewton / meter**2",
                "40 kilonewton / meter**2 -> 835.4174",
                "value=40;from=kN/m2;to=lbf/ft2", "", 835.4174, Within::Digits(5e-05)),
        ] },
    ],
};
