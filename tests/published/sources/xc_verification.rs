//! Values that a public finite element program checks itself against; `cases.json` has two others of its tests.

use super::{Group, Seen, Source, Within, row};

/// The source.
#[rustfmt::skip]
pub const SOURCE: Source = Source {
    name: "xc_verification",
    document: "repository xcfem/xc, verif/tests/materials, ec3/test_buckling_resistance_02.py at 989f160 and ec5/test_EC5Wood_03.py at bd6ffcd",
    seen: Seen::Text,
    groups: &[
        Group { topic: "steel buckling", function: "n_b_rd", rows: &[
            row("ec3/test_buckling_resistance_02.py, CHS 244.5 x 10, 4 m, Example 6.7",
                "refNbRd= 0.8777838747264016*refNcRd",
                "area_mm2=7370;i_mm4=50731470;length_mm=4000;fy_n_mm2=355;curve=a", "/chi", 0.8777838747264016, Within::Share(0.0005, "the program takes the second moment from a table")),
        ] },
        Group { topic: "timber", function: "k_mod", rows: &[
            row("ec5/test_EC5Wood_03.py, permanent, class 3",
                "kmod= C18.getKmod(loadDurationClass= 'permanent', serviceClass= 3) ratio2= (kmod-0.5)/0.5",
                "days=5000;service_class=3", "", 0.5, Within::Digits(0.005)),
        ] },
    ],
};
