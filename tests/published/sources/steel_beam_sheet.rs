//! A floor beam of UB 254 x 146 x 31 in S275 worked through by EN 1993 in a public sheet.

use super::{Group, Seen, Source, Within, row};

/// The source.
#[rustfmt::skip]
pub const SOURCE: Source = Source {
    name: "steel_beam_sheet",
    document: "public beam spreadsheet, document 51644571, design of a 254 x 146 x 31 UB by EN 1993-1-1 with the UK annex",
    seen: Seen::Text,
    groups: &[
        Group { topic: "section properties", function: "section_properties", rows: &[
            row("section, A",
                "A 39.7 cm²",
                "section=UB254x146x31 S275", "/area_mm2", 39.7, Within::Digits(0.05)).printed_per(100.0),
            row("section, Iy",
                "Iy 4413 cm4",
                "section=UB254x146x31 S275", "/iy_mm4", 4413.0, Within::Share(0.001, "EN 10365 is tabulated to three digits here, to four in the sheet")).printed_per(10000.0),
            row("section, Iz",
                "Iz 448 cm4",
                "section=UB254x146x31 S275", "/iz_mm4", 448.0, Within::Digits(0.5)).printed_per(10000.0),
            row("section, Wel,y",
                "Wel,y 351 cm³",
                "section=UB254x146x31 S275", "/wel_y_mm3", 351.0, Within::Digits(0.5)).printed_per(1000.0),
            row("section, Wpl,y",
                "Wpl,y 393 cm³",
                "section=UB254x146x31 S275", "/wpl_y_mm3", 393.0, Within::Digits(0.5)).printed_per(1000.0),
        ] },
        Group { topic: "section class", function: "section_class", rows: &[
            row("class of flange, ε", "ε 0.92", "section=UB254x146x31 S275", "/epsilon", 0.92, Within::Digits(0.005)),
            row("class of flange, ratio",
                "Width-to-Thickness Ratio ... 7.26 Class 1",
                "section=UB254x146x31 S275", "/flange_ratio", 7.26, Within::Digits(0.005)),
            row("class of web, ratio",
                "Width-to-Thickness Ratio 36.50 Class 1",
                "section=UB254x146x31 S275", "/web_ratio", 36.5, Within::Digits(0.005)),
            row("class of the section",
                "Therefore Class 1",
                "section=UB254x146x31 S275", "/class", 1.0, Within::Digits(0.0)),
        ] },
        Group { topic: "steel bending and shear", function: "v_c_rd", rows: &[
            row("shear capacity, area",
                "Calculated Shear Area Av 1639.4 mm²",
                "section=UB254x146x31 S275", "/av_mm2", 1639.4, Within::Digits(0.05)),
            row("shear capacity, resistance",
                "Shear Resistance Vc,Rd 260.29 kN OK",
                "section=UB254x146x31 S275", "/v_c_rd_kn", 260.29, Within::Digits(0.005)),
        ] },
        Group { topic: "steel bending and shear", function: "m_c_rd", rows: &[
            row("moment capacity",
                "Moment Capacity Mc,Rd 108.08 kNm OK",
                "section=UB254x146x31 S275", "/m_c_rd_kn_m", 108.08, Within::Digits(0.00501)),
        ] },
        Group { topic: "load combinations", function: "strength_load", rows: &[
            row("loads, width 1800 mm",
                "ULS Design Load Fd 22.46 kN/m",
                "g=4.5;q=10.926", "/total", 22.46, Within::Digits(0.005)),
        ] },
        Group { topic: "simple spans", function: "simple_span", rows: &[
            row("span 6150 mm, moment",
                "Max Design Bending Moment My,Ed 106.21 kNm",
                "span_mm=6150;from_mm=0;to_mm=6150;load_kn=138.1536;i_cm4=4413", "/m_max_kn_m", 106.21, Within::Digits(0.005)),
            row("span 6150 mm, shear",
                "Max Design Shear Force VEd 69.08 kN",
                "span_mm=6150;from_mm=0;to_mm=6150;load_kn=138.1536;i_cm4=4413", "/v_max_kn", 69.08, Within::Digits(0.005)),
        ] },
    ],
};
