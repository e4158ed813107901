//! Needles as simple spans under one leaf, two leaves as points and two as stretches, solved exactly;
//! `libraries/run_sympy.py` prints them.

use super::{Group, Seen, Source, Within, row};

const STATIONS: &str = "the script looks at 4000 stations, the function at a few hundred";

/// The source.
#[rustfmt::skip]
pub const SOURCE: Source = Source {
    name: "sympy",
    document: "sympy 1.14.0, physics.continuum_mechanics.beam.Beam",
    seen: Seen::Library,
    groups: &[
        Group { topic: "simple spans", function: "simple_span", rows: &[
            row("one leaf 102.5 mm off the middle, R",
                "R [12.5, 7.5]",
                "span_mm=1200;from_mm=398.75;to_mm=501.25;load_kn=20;i_cm4=1250", "/r_left_kn", 12.5, Within::Digits(1e-09)),
            row("one leaf 102.5 mm off the middle, M",
                "M 5.384764878048781",
                "span_mm=1200;from_mm=398.75;to_mm=501.25;load_kn=20;i_cm4=1250", "/m_max_kn_m", 5.384764878048781, Within::Share(0.0005, STATIONS)),
            row("one leaf 102.5 mm off the middle, w",
                "w mm 0.25151417672892856",
                "span_mm=1200;from_mm=398.75;to_mm=501.25;load_kn=20;i_cm4=1250", "/deflection_mm", 0.25151417672892856, Within::Share(0.0005, STATIONS)),
            row("two leaves as points, R",
                "R [13.366666666666667, 9.633333333333333]",
                "span_mm=1500;from_mm=550,750;to_mm=550,750;load_kn=14,9;i_cm4=1750", "/r_left_kn", 13.366666666666667, Within::Digits(1e-09)),
            row("two leaves as points, M",
                "M 7.351587500000001",
                "span_mm=1500;from_mm=550,750;to_mm=550,750;load_kn=14,9;i_cm4=1750", "/m_max_kn_m", 7.351587500000001, Within::Share(0.0005, STATIONS)),
            row("two leaves as points, w",
                "w mm 0.41495022757291666",
                "span_mm=1500;from_mm=550,750;to_mm=550,750;load_kn=14,9;i_cm4=1750", "/deflection_mm", 0.41495022757291666, Within::Share(0.0005, STATIONS)),
            row("cavity wall, R",
                "R [11.0, 9.0]",
                "span_mm=1600;from_mm=600,775;to_mm=700,875;load_kn=12,8;i_cm4=834", "/r_right_kn", 9.0, Within::Digits(1e-09)),
            row("cavity wall, M",
                "M 7.1041663999999995",
                "span_mm=1600;from_mm=600,775;to_mm=700,875;load_kn=12,8;i_cm4=834", "/m_max_kn_m", 7.1041663999999995, Within::Share(0.0005, STATIONS)),
            row("cavity wall, w",
                "w mm 0.9442500977766999",
                "span_mm=1600;from_mm=600,775;to_mm=700,875;load_kn=12,8;i_cm4=834", "/deflection_mm", 0.9442500977766999, Within::Share(0.0005, STATIONS)),
        ] },
    ],
};
