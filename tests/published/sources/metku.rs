//! Steel sections, their resistances and factors of timber in a Finnish library for the Eurocodes;
//! `libraries/run_metku.py` prints them.

use super::{Group, Seen, Source, Within, row};

const TABLE: &str = "the project tabulates IPE 200 to three digits; the library computes it from the dimensions";

/// The source.
#[rustfmt::skip]
pub const SOURCE: Source = Source {
    name: "metku",
    document: "metku 0.1.35, RHS, IPE, SteelMember and eurocodes.en1995.kmod",
    seen: Seen::Library,
    groups: &[
        Group { topic: "section properties", function: "section_properties", rows: &[
            row("RHS(100, 100, 5).A",
                "A 1835.62",
                "section=CFSHS100x100x5 S355", "/area_mm2", 1835.62, Within::Digits(0.005)),
            row("RHS(100, 100, 5).I[0]",
                "Iy 2711020.9",
                "section=CFSHS100x100x5 S355", "/iy_mm4", 2711020.9, Within::Digits(0.05)),
            row("RHS(100, 100, 5).Wpl[0]",
                "Wpl 64591.4",
                "section=CFSHS100x100x5 S355", "/wpl_y_mm3", 64591.4, Within::Digits(0.05)),
            row("RHS(150, 100, 8).Wel[0]",
                "Wel 134416.9",
                "section=CFRHS150x100x8 S355", "/wel_y_mm3", 134416.9, Within::Digits(0.05)),
            row("RHS(150, 100, 8).It",
                "It 12058883",
                "section=CFRHS150x100x8 S355", "/it_mm4", 12058883.0, Within::Digits(0.5)),
        ] },
        Group { topic: "steel bending and shear", function: "m_c_rd", rows: &[
            row("RHS(150, 100, 8).bending_resistance()",
                "MRd 60.0505 kNm",
                "section=CFRHS150x100x8 S355", "/m_c_rd_kn_m", 60.0505, Within::Digits(5e-05)),
        ] },
        Group { topic: "steel bending and shear", function: "v_c_rd", rows: &[
            row("RHS(150, 100, 8).shear_force_resistance()",
                "VRd 433.397 kN",
                "section=CFRHS150x100x8 S355", "/v_c_rd_kn", 433.397, Within::Digits(0.0005)),
            row("IPE(200).shear_force_resistance()",
                "VRd 286.945 kN",
                "section=IPE200 S355", "/v_c_rd_kn", 286.945, Within::Share(0.005, TABLE)),
        ] },
        Group { topic: "lateral torsional buckling", function: "m_b_rd", rows: &[
            row("IPE(200), 3 m, mcrit(C=[1, 0, 0])",
                "Mcr 53.0777 kNm",
                "section=IPE200 S355;length_mm=3000;c1=1;c2=0;zg_mm=0", "/m_cr_kn_m", 53.0777, Within::Share(0.005, TABLE)),
            row("IPE(200), 1.5 m, LT_buckling_strength specific",
                "MbRd specific 67.3900 kNm",
                "section=IPE200 S355;length_mm=1500;c1=1;c2=0;zg_mm=0;curve=rolled", "/m_b_rd_kn_m", 67.39, Within::Share(0.005, TABLE)),
            row("IPE(200), 3 m, LT_buckling_strength general",
                "MbRd general 40.7877 kNm",
                "section=IPE200 S355;length_mm=3000;c1=1;c2=0;zg_mm=0;curve=general", "/m_b_rd_kn_m", 40.7877, Within::Share(0.005, TABLE)),
        ] },
        Group { topic: "steel buckling", function: "n_b_rd", rows: &[
            row("IPE(200), 3 m, buckling_strength()[0]",
                "NbRd y (curve a) 942.174 kN",
                "area_mm2=2848.411;i_mm4=19431662.0;length_mm=3000;fy_n_mm2=355;curve=a", "/n_b_rd_kn", 942.174, Within::Digits(0.0005)),
            row("IPE(200), 1.5 m, buckling_strength()[1]",
                "z (curve b) 682.791 kN",
                "area_mm2=2848.411;i_mm4=1423680.0;length_mm=1500;fy_n_mm2=355;curve=b", "/n_b_rd_kn", 682.791, Within::Digits(0.0005)),
        ] },
        Group { topic: "timber", function: "k_mod", rows: &[
            row("kmod solid timber, service class 3, mt",
                "mt [0.8, 0.8, 0.65]",
                "days=60;service_class=3", "", 0.65, Within::Digits(0.0005)),
            row("kmod solid timber, service class 3, lt",
                "lt [0.7, 0.7, 0.55]",
                "days=400;service_class=3", "", 0.55, Within::Digits(0.0005)),
        ] },
    ],
};
