//! European beams in a library of steel sections; `libraries/run_steel_sections.py` prints them.

use super::{Group, Seen, Source, Within, row};

const DIGITS: &str = "the project tabulates to three digits, the library to more";

/// The source.
#[rustfmt::skip]
pub const SOURCE: Source = Source {
    name: "steel_sections",
    document: "steel-sections 0.1.0, get, series IPE by EN 10365",
    seen: Seen::Library,
    groups: &[
        Group { topic: "section properties", function: "section_properties", rows: &[
            row("get, IPE100, area",
                "A 10.323 cm2, Iy 171.0 cm4, Iz 15.9 cm4, mass 8.1 kg/m",
                "section=IPE100 S275", "/area_mm2", 10.323, Within::Share(0.004, DIGITS)).printed_per(100.0),
            row("get, IPE100, Iy",
                "A 10.323 cm2, Iy 171.0 cm4, Iz 15.9 cm4, mass 8.1 kg/m",
                "section=IPE100 S275", "/iy_mm4", 171.0, Within::Share(0.002, DIGITS)).printed_per(10000.0),
            row("get, IPE120, area",
                "A 13.21 cm2, Iy 317.7 cm4, Iz 27.7 cm4, mass 10.37 kg/m",
                "section=IPE120 S275", "/area_mm2", 13.21, Within::Share(0.004, DIGITS)).printed_per(100.0),
            row("get, IPE120, Iy",
                "A 13.21 cm2, Iy 317.7 cm4, Iz 27.7 cm4, mass 10.37 kg/m",
                "section=IPE120 S275", "/iy_mm4", 317.7, Within::Share(0.002, DIGITS)).printed_per(10000.0),
            row("get, IPE120, mass",
                "A 13.21 cm2, Iy 317.7 cm4, Iz 27.7 cm4, mass 10.37 kg/m",
                "section=IPE120 S275", "/mass_kg_m", 10.37, Within::Share(0.003, DIGITS)),
            row("get, IPE140, area",
                "A 16.426 cm2, Iy 541.2 cm4, Iz 44.9 cm4, mass 12.89 kg/m",
                "section=IPE140 S275", "/area_mm2", 16.426, Within::Share(0.004, DIGITS)).printed_per(100.0),
            row("get, IPE140, Iy",
                "A 16.426 cm2, Iy 541.2 cm4, Iz 44.9 cm4, mass 12.89 kg/m",
                "section=IPE140 S275", "/iy_mm4", 541.2, Within::Share(0.002, DIGITS)).printed_per(10000.0),
            row("get, IPE140, Iz",
                "A 16.426 cm2, Iy 541.2 cm4, Iz 44.9 cm4, mass 12.89 kg/m",
                "section=IPE140 S275", "/iz_mm4", 44.9, Within::Share(0.0025, DIGITS)).printed_per(10000.0),
            row("get, IPE160, area",
                "A 20.091 cm2, Iy 869.3 cm4, Iz 68.3 cm4, mass 15.77 kg/m",
                "section=IPE160 S275", "/area_mm2", 20.091, Within::Share(0.004, DIGITS)).printed_per(100.0),
            row("get, IPE160, Iy",
                "A 20.091 cm2, Iy 869.3 cm4, Iz 68.3 cm4, mass 15.77 kg/m",
                "section=IPE160 S275", "/iy_mm4", 869.3, Within::Share(0.002, DIGITS)).printed_per(10000.0),
            row("get, IPE160, mass",
                "A 20.091 cm2, Iy 869.3 cm4, Iz 68.3 cm4, mass 15.77 kg/m",
                "section=IPE160 S275", "/mass_kg_m", 15.77, Within::Share(0.003, DIGITS)),
            row("get, IPE200, area",
                "A 28.484 cm2, Iy 1943.1 cm4, Iz 142.3 cm4, mass 22.36 kg/m",
                "section=IPE200 S275", "/area_mm2", 28.484, Within::Share(0.004, DIGITS)).printed_per(100.0),
            row("get, IPE200, Iy",
                "A 28.484 cm2, Iy 1943.1 cm4, Iz 142.3 cm4, mass 22.36 kg/m",
                "section=IPE200 S275", "/iy_mm4", 1943.1, Within::Share(0.002, DIGITS)).printed_per(10000.0),
            row("get, IPE200, Iz",
                "A 28.484 cm2, Iy 1943.1 cm4, Iz 142.3 cm4, mass 22.36 kg/m",
                "section=IPE200 S275", "/iz_mm4", 142.3, Within::Share(0.0025, DIGITS)).printed_per(10000.0),
        ] },
    ],
};
