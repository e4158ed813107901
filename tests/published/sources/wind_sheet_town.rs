//! Wind by EN 1991-1-4 in terrain category III in a public sheet.

use super::{Group, Seen, Source, Within, row};

/// The source.
#[rustfmt::skip]
pub const SOURCE: Source = Source {
    name: "wind_sheet_town",
    document: "public calculation sheet, document 797462041, wind load by EN 1991-1-4",
    seen: Seen::Text,
    groups: &[
        Group { topic: "wind", function: "q_p", rows: &[
            row("roughness factor, 4.3.2",
                "cr(z) 0.68",
                "vb_m_s=22;z0_m=0.3;z_min_m=5;z_m=7.02", "/c_r", 0.68, Within::Digits(0.005)),
            row("turbulence intensity, 4.4",
                "Iv(z) 0.31718482",
                "vb_m_s=22;z0_m=0.3;z_min_m=5;z_m=7.02", "/i_v", 0.31718482, Within::Share(1e-07, "the sheet prints its spreadsheet's digits")),
            row("peak velocity pressure, 4.5",
                "qp(z) 1.25 0.449",
                "vb_m_s=22;z0_m=0.3;z_min_m=5;z_m=7.02", "/q_p_kn_m2", 0.449, Within::Digits(0.0005)),
        ] },
    ],
};
