//! Beams over several supports, rigid and springy, by a library for continuous beams; `libraries/run_pycba.py` prints
//! them.

use super::{Group, Seen, Source, Within, row};

const SAMPLED: &str = "the library takes the largest of 2000 stations";

/// The source.
#[rustfmt::skip]
pub const SOURCE: Source = Source {
    name: "pycba",
    document: "PyCBA 1.0.2, BeamAnalysis",
    seen: Seen::Library,
    groups: &[
        Group { topic: "continuous beams", function: "beam_reactions", rows: &[
            row("unequal spans 1.2 and 1.8 m, R1",
                "R [ 4.25 52.9167 17.8333]",
                "x_m=0,1.2,3;length_m=3;w_kn_m=20;point_x_m=1.8;point_kn=15;i_cm4=1250", "/r_kn/0", 4.25, Within::Digits(5e-05)),
            row("unequal spans 1.2 and 1.8 m, R2",
                "R [ 4.25 52.9167 17.8333]",
                "x_m=0,1.2,3;length_m=3;w_kn_m=20;point_x_m=1.8;point_kn=15;i_cm4=1250", "/r_kn/1", 52.9167, Within::Digits(5e-05)),
            row("unequal spans 1.2 and 1.8 m, hogging",
                "M 7.9507 -9.3",
                "x_m=0,1.2,3;length_m=3;w_kn_m=20;point_x_m=1.8;point_kn=15;i_cm4=1250", "/m_hog_kn_m", 9.3, Within::Digits(5e-05)),
            row("unequal spans 1.2 and 1.8 m, sagging",
                "M 7.9507 -9.3",
                "x_m=0,1.2,3;length_m=3;w_kn_m=20;point_x_m=1.8;point_kn=15;i_cm4=1250", "/m_sag_kn_m", 7.9507, Within::Share(0.0001, SAMPLED)),
            row("unequal spans 1.2 and 1.8 m, deflection",
                "D mm 0.91792",
                "x_m=0,1.2,3;length_m=3;w_kn_m=20;point_x_m=1.8;point_kn=15;i_cm4=1250", "/d_max_mm", 0.91792, Within::Share(0.0001, SAMPLED)),
            row("three unequal spans, R2",
                "R [ 7.3352 18.1561 36.1889 13.8198]",
                "x_m=0,0.7,1.6,2.7;length_m=2.7;w_kn_m=25;point_x_m=2.1;point_kn=8;i_cm4=834", "/r_kn/1", 18.1561, Within::Digits(5e-05)),
            row("three unequal spans, R3",
                "R [ 7.3352 18.1561 36.1889 13.8198]",
                "x_m=0,0.7,1.6,2.7;length_m=2.7;w_kn_m=25;point_x_m=2.1;point_kn=8;i_cm4=834", "/r_kn/2", 36.1889, Within::Digits(5e-05)),
            row("three unequal spans, R4",
                "R [ 7.3352 18.1561 36.1889 13.8198]",
                "x_m=0,0.7,1.6,2.7;length_m=2.7;w_kn_m=25;point_x_m=2.1;point_kn=8;i_cm4=834", "/r_kn/3", 13.8198, Within::Digits(5e-05)),
            row("overhangs of 0.4 m, hogging",
                "M 3.6225 -1.44",
                "x_m=0.4,1.9;length_m=2.3;w_kn_m=18;i_cm4=1250", "/m_hog_kn_m", 1.44, Within::Digits(5e-05)),
            row("overhangs of 0.4 m, sagging",
                "M 3.6225 -1.44",
                "x_m=0.4,1.9;length_m=2.3;w_kn_m=18;i_cm4=1250", "/m_sag_kn_m", 3.6225, Within::Digits(5e-05)),
            row("overhangs of 0.4 m, deflection",
                "D mm 0.29772",
                "x_m=0.4,1.9;length_m=2.3;w_kn_m=18;i_cm4=1250", "/d_max_mm", 0.29772, Within::Share(0.0001, SAMPLED)),
            row("supports on springs, R1",
                "[17.0511 30.3124 15.4365]",
                "x_m=0,1,2.4;k_kn_m=8000,12000,8000;length_m=2.4;w_kn_m=22;point_x_m=0.4;point_kn=10;i_cm4=2340", "/r_kn/0", 17.0511, Within::Digits(5e-05)),
            row("supports on springs, R2",
                "[17.0511 30.3124 15.4365]",
                "x_m=0,1,2.4;k_kn_m=8000,12000,8000;length_m=2.4;w_kn_m=22;point_x_m=0.4;point_kn=10;i_cm4=2340", "/r_kn/1", 30.3124, Within::Digits(5e-05)),
            row("supports on springs, sagging",
                "M 5.4156",
                "x_m=0,1,2.4;k_kn_m=8000,12000,8000;length_m=2.4;w_kn_m=22;point_x_m=0.4;point_kn=10;i_cm4=2340", "/m_sag_kn_m", 5.4156, Within::Share(0.0001, SAMPLED)),
            row("supports on springs, deflection",
                "D mm 2.54097",
                "x_m=0,1,2.4;k_kn_m=8000,12000,8000;length_m=2.4;w_kn_m=22;point_x_m=0.4;point_kn=10;i_cm4=2340", "/d_max_mm", 2.54097, Within::Share(0.0001, SAMPLED)),
        ] },
    ],
};
