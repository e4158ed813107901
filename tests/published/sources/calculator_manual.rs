//! Two columns in the manual of a programmable calculator: one that buckles, one loaded off its centre. Lengths go in as
//! cm and forces as kN; the second moment is the area times the printed radius squared.

use super::{Group, Seen, Source, Within, row};

/// The source.
#[rustfmt::skip]
pub const SOURCE: Source = Source {
    name: "calculator_manual",
    document: "user's manual of a programmable calculator, equation library, page 430",
    seen: Seen::Text,
    groups: &[
        Group { topic: "struts", function: "secant", rows: &[
            row("page 430, Eccentric Columns, example",
                "P=1908.2571_kN, c=15.24_cm, Solution: max=140853.0970_kPa",
                "area=187.9351;i=13525.965216;c=15.24;length=665.42;p=1908.2571;e=1.1806;modulus=20684.2718795", "/sigma_max", 14.0853097, Within::Share(1e-05, "the second moment is printed to fewer digits than the stress")),
        ] },
        Group { topic: "struts", function: "strut_response", rows: &[
            row("page 430, Elastic Buckling, example",
                "L=7.3152_m, r=4.1148_cm, ... K=0.7, ... Solution: Pcr=676.6019_kN",
                "outer_length_mm=2560.32;inner_length_mm=2560.32;p_kn=100;e_foot_mm=0;e_head_mm=0;e_n_mm2=199947.961502;outer=5309.67,8990110.08,50;inner=5309.67,8990110.08,50", "/p_cr_kn", 676.6019, Within::Share(1e-05, "area and radius are printed to six digits")),
        ] },
    ],
};
