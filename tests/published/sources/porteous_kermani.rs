//! Timber values in a textbook on EN 1995 with worked examples. The stud of example 5.7.6 is checked about its strong
//! axis, so it goes in as a square of its depth; its height of 3.75 m is that of the next example on the same figure.

use super::{Group, Seen, Source, Within, row};

/// The source.
#[rustfmt::skip]
pub const SOURCE: Source = Source {
    name: "porteous_kermani",
    document: "Porteous and Kermani, Structural Timber Design to Eurocode 5, chapters 1, 5 and 9, public page by page reprint",
    seen: Seen::Text,
    groups: &[
        Group { topic: "timber", function: "timber_column", rows: &[
            row("Example 5.7.3, column 100 mm x 200 mm, 3.75 m",
                "Slenderness ratio about the z-z axis, ... 129.9",
                "grade=C24;b_mm=100;h_mm=200;length_mm=3750;n_kn=30;k_mod=0.8", "/lambda", 129.9, Within::Digits(0.05)),
            row("Example 5.7.6 (stud wall 3.75 m high), relative slenderness",
                "λrel.y = 2.32",
                "grade=C16;b_mm=100;h_mm=100;length_mm=3750;n_kn=1;k_mod=0.7", "/lambda_rel", 2.32, Within::Digits(0.005)),
            row("Example 5.7.6 (stud wall 3.75 m high), factor k",
                "ky — 3.39",
                "grade=C16;b_mm=100;h_mm=100;length_mm=3750;n_kn=1;k_mod=0.7", "/k", 3.39, Within::Digits(0.005)),
        ] },
        Group { topic: "timber", function: "timber_grade", rows: &[
            row("Table 1.3, C24, bending",
                "Characteristic bending strength about the y-y axis, fm.y.k = 24 N/mm2",
                "grade=C24", "/fmk_n_mm2", 24.0, Within::Digits(0.5)),
            row("Table 5.3, C24, compression",
                "fc,0,k 21 N/mm2 E0.05 7400 N/mm2",
                "grade=C24", "/fc0k_n_mm2", 21.0, Within::Digits(0.5)),
            row("Table 5.3, C24, modulus",
                "fc,0,k 21 N/mm2 E0.05 7400 N/mm2",
                "grade=C24", "/e005_n_mm2", 7400.0, Within::Digits(0.5)),
        ] },
        Group { topic: "timber", function: "k_mod", rows: &[
            row("Example 5.7.6 (stud wall 3.75 m high), long-duration loading",
                "Factor for long-duration loading and service class 2, ... kmod.long 0.7",
                "days=1000;service_class=2", "", 0.7, Within::Digits(0.005)),
            row("chapter 4 example, medium-duration loading",
                "Factor for medium-duration loading kmod.med = 0.8 and service class 1",
                "days=30;service_class=1", "", 0.8, Within::Digits(0.005)),
        ] },
        Group { topic: "load combinations", function: "strength_load", rows: &[
            row("chapter 9 example, wall panel",
                "qk = 4.5 kN/m ... qd = 6.08 kN/m",
                "g=4.5;q=0", "/total", 6.08, Within::Digits(0.005001)),
        ] },
    ],
};
