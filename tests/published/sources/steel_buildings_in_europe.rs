//! Worked examples of a European design guide for steel buildings: a pinned column, snow on a building with two roofs.
//! The beam of part 8 is deeper than any section that this project tabulates.

use super::{Group, Seen, Source, Within, row};

/// The source.
#[rustfmt::skip]
pub const SOURCE: Source = Source {
    name: "steel_buildings_in_europe",
    document: "Steel Buildings in Europe, multi-storey part 4 (MSB04) A.5 and part 8 (MSB08) examples 1 and 5, single-storey part 3 (SSB03) appendix A",
    seen: Seen::Text,
    groups: &[
        Group { topic: "steel buckling", function: "n_b_rd", rows: &[
            row("MSB04 A.5, page 4-96, 5.6, y",
                "Ncr,y = 8151,2 kN",
                "area_mm2=14900;i_mm4=251700000;length_mm=8000;fy_n_mm2=235;curve=b", "/n_cr_kn", 8151.2, Within::Share(0.0001, "the second moment of the section is printed to four digits")),
            row("MSB04 A.5, page 4-96, 5.6, z",
                "Ncr,z = 5657,4 kN",
                "area_mm2=14900;i_mm4=85600000;length_mm=5600;fy_n_mm2=235;curve=c", "/n_cr_kn", 5657.4, Within::Share(0.0001, "the second moment of the section is printed to three digits")),
            row("MSB04 A.5, page 4-96, 5.7, y",
                "λy = 0,655",
                "area_mm2=14900;i_mm4=251700000;length_mm=8000;fy_n_mm2=235;curve=b", "/lambda", 0.655, Within::Digits(0.0005)),
            row("MSB04 A.5, page 4-96, 5.7, z",
                "λz = 0,787",
                "area_mm2=14900;i_mm4=85600000;length_mm=5600;fy_n_mm2=235;curve=c", "/lambda", 0.787, Within::Digits(0.0005)),
            row("MSB04 A.5, page 4-96, 5.8, y",
                "χy = 0,808",
                "area_mm2=14900;i_mm4=251700000;length_mm=8000;fy_n_mm2=235;curve=b", "/chi", 0.808, Within::Digits(0.0005)),
        ] },
        Group { topic: "snow", function: "s_roof", rows: &[
            row("SSB03 appendix A, page 3-38, upper roof 8,5°, exceptional",
                "1 (α = 8,5°) = 0,8 s = 0,8 × 1,30 = 1,04 kN/m 2",
                "pitch_deg=8.5;s_k_kn_m2=1.30", "/s_kn_m2", 1.04, Within::Digits(0.005)),
            row("SSB03 appendix A, page 3-39, lower roof 5,7°",
                "1 (5,7°) = 0,8 s = 0,8 × 0,65 = 0,52 kN/m 2",
                "pitch_deg=5.7;s_k_kn_m2=0.65", "/s_kn_m2", 0.52, Within::Digits(0.005)),
        ] },
        Group { topic: "steel bending and shear", function: "v_c_rd", rows: &[
            row("MSB08 example 5, page 8-27",
                "V pl,Rd = 1237 kN",
                "section=IPE500 S355", "/v_c_rd_kn", 1237.0, Within::NotRun("IPE 500 is deeper than a needle, and not in the table of sections")),
        ] },
        Group { topic: "section class", function: "section_class", rows: &[
            row("MSB08 example 1, page 8-16, web",
                "c / tw = 426 / 10,2 = 41,8",
                "section=IPE500 S355", "/web_ratio", 41.8, Within::NotRun("IPE 500 is deeper than a needle, and not in the table of sections")),
        ] },
    ],
};
