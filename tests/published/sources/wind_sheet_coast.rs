//! Wind by EN 1991-1-4 in terrain category I in a public sheet; its last column forgets to square the roughness factor.

use super::{Group, Seen, Source, Within, row};

/// The source.
#[rustfmt::skip]
pub const SOURCE: Source = Source {
    name: "wind_sheet_coast",
    document: "public calculation sheet, document 241618914, wind load as per EN 1991-1-4:2005",
    seen: Seen::Text,
    groups: &[
        Group { topic: "wind", function: "q_p", rows: &[
            row("basic velocity pressure",
                "qb = 1.046 kPa Basic velocity pressure; Section 4.5, (1) Expression (4.10)",
                "vb_m_s=40.9;z0_m=0.01;z_min_m=1;z_m=5", "/q_b_kn_m2", 1.046, Within::Digits(0.0005)),
            row("roughness factor at 5 m",
                "5 0.161 1 1.055 2.243 2.345",
                "vb_m_s=40.9;z0_m=0.01;z_min_m=1;z_m=5", "/c_r", 1.055, Within::Digits(0.0005)),
            row("roughness factor at 10 m",
                "10 0.145 1 1.173 2.361 2.468",
                "vb_m_s=40.9;z0_m=0.01;z_min_m=1;z_m=10", "/c_r", 1.173, Within::Digits(0.0005)),
            row("roughness factor at 20 m",
                "20 0.132 1 1.290 2.479 2.591",
                "vb_m_s=40.9;z0_m=0.01;z_min_m=1;z_m=20", "/c_r", 1.29, Within::Digits(0.0005)),
            row("roughness factor at 40 m",
                "40 0.121 1 1.408 2.596 2.714",
                "vb_m_s=40.9;z0_m=0.01;z_min_m=1;z_m=40", "/c_r", 1.408, Within::Digits(0.0005)),
            row("turbulence at 5 m",
                "5 0.161 1 1.055 2.243 2.345",
                "vb_m_s=40.9;z0_m=0.01;z_min_m=1;z_m=5", "/i_v", 0.161, Within::Digits(0.0005)),
            row("turbulence at 10 m",
                "10 0.145 1 1.173 2.361 2.468",
                "vb_m_s=40.9;z0_m=0.01;z_min_m=1;z_m=10", "/i_v", 0.145, Within::Digits(0.0005)),
            row("turbulence at 20 m",
                "20 0.132 1 1.290 2.479 2.591",
                "vb_m_s=40.9;z0_m=0.01;z_min_m=1;z_m=20", "/i_v", 0.132, Within::Digits(0.0005)),
            row("peak pressure at 10 m",
                "10 0.145 1 1.173 2.361 2.468",
                "vb_m_s=40.9;z0_m=0.01;z_min_m=1;z_m=10", "/q_p_kn_m2", 2.468, Within::Digits(0.0005)),
        ] },
    ],
};
