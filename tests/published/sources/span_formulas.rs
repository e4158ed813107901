//! Three equal spans under an even load on a page of beam formulas; span 1 m, load 1 kN/m and E I = 2100 kN m².

use super::{Group, Seen, Source, Within, row};

/// The source.
#[rustfmt::skip]
pub const SOURCE: Source = Source {
    name: "span_formulas",
    document: "public page of beam design formulas, Three Span Continuous Beam, Equal Spans, Uniformly Distributed Load",
    seen: Seen::Text,
    groups: &[
        Group { topic: "continuous beams", function: "beam_reactions", rows: &[
            row("formulas, moment over R2",
                "M_2 = M_4 (at R_2 or R_3) = 0.100 w L^2",
                "x_m=0,1,2,3;length_m=3;w_kn_m=1;i_cm4=1000", "/m_hog_kn_m", 0.1, Within::Digits(0.0005)),
            row("formulas, moment in the span",
                "M_1 = M_5 (at 0.400 L from R_1 or R_4) = 0.080 w L^2",
                "x_m=0,1,2,3;length_m=3;w_kn_m=1;i_cm4=1000", "/m_sag_kn_m", 0.08, Within::Digits(0.0005)),
            row("formulas, deflection",
                "Δmax (at 0.446 L from R_1 or R_4) = 0.0069 w L^4 / (λ I)",
                "x_m=0,1,2,3;length_m=3;w_kn_m=2.1;i_cm4=1000", "/d_max_mm", 0.0069, Within::Digits(5e-05)),
        ] },
    ],
};
