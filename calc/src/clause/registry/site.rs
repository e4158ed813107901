//! Ground, sideways force, cracks, handling and rules of the site by name.

use super::reader::{ArgError, Entry, Outcome, Reader, arg, opt};
use crate::clause::bs::{cracks, handling, site};
use crate::clause::ground::{self, Layer};
use crate::clause::sideways;
use crate::tables::ground as presumed;
use serde_json::json;

pub(super) const ENTRIES: &[Entry] = &[
    Entry {
        name: "presumed_bearing",
        source: presumed::SOURCE,
        args: &[arg("ground", "a ground as firm_clay", "firm_clay")],
        symbol: "q",
        unit: "kPa",
        run: |r| {
            let name = r.text("ground")?;
            let q = presumed::presumed_kpa(name).ok_or_else(|| r.refuse("ground", format!("“{name}” is not known")))?;
            Ok(Outcome::plain(q.value, format!("{name}: {} kPa", q.value)))
        },
    },
    Entry {
        name: "bearing_family",
        source: presumed::FAMILIES_SOURCE,
        args: &[arg("family", "a family as sand", "sand")],
        symbol: "q",
        unit: "record",
        run: |r| {
            let name = r.text("family")?;
            let family = presumed::family(name).ok_or_else(|| r.refuse("family", format!("“{name}” is not known")))?;
            let record = json!({ "low_kpa": family.low_kpa, "high_kpa": family.high_kpa });
            Ok(Outcome::record(record, vec![family.source.to_string()]))
        },
    },
    Entry {
        name: "spread",
        source: ground::SOURCE,
        args: &[
            arg("load_kn", "kN", "17"),
            opt("plate_mm", "mm", "150"),
            opt("length_mm", "mm or inf", "900"),
            opt("breadth_mm", "mm or inf", "225"),
            arg("t_mm", "mm", "75"),
            opt("along", "mm per mm", "2"),
            opt("across", "mm per mm", "1"),
            opt("slab_mm", "mm", "0"),
        ],
        symbol: "q",
        unit: "kPa",
        run: spread,
    },
    Entry {
        name: "board_strip",
        source: ground::STRIP_SOURCE,
        args: &[
            arg("load_kn", "kN", "17"),
            opt("plate_mm", "mm", "150"),
            arg("length_mm", "mm", "1000"),
            arg("board_mm", "list of breadth and thickness in mm", "225,75"),
        ],
        symbol: "M, σ",
        unit: "record",
        run: |r| {
            let (load, plate, length) = (
                r.non_negative("load_kn")?,
                r.positive("plate_mm")?,
                r.positive("length_mm")?,
            );
            let result = ground::board_strip(load, plate, length, r.positive_of("board_mm")?);
            Ok(Outcome::record(result, result.steps()))
        },
    },
    Entry {
        name: "h_min",
        source: sideways::SOURCE,
        args: &[
            arg("v_kn", "kN", "60"),
            opt("identified_kn", "kN", "0"),
            opt("least_share", "1", "0.025"),
            opt("added_share", "1", "0.01"),
        ],
        symbol: "H",
        unit: "kN",
        run: |r| {
            let result = sideways::h_min(&sideways::Sideways {
                v_kn: r.non_negative("v_kn")?,
                identified_kn: r.non_negative("identified_kn")?,
                least_share: r.non_negative("least_share")?,
                added_share: r.non_negative("added_share")?,
            });
            Ok(Outcome::number(result.h_kn, result, result.steps()))
        },
    },
    Entry {
        name: "brace",
        source: sideways::COUPLER_SOURCE,
        args: &[
            arg("length_mm", "mm", "2500"),
            opt("t_mm", "mm", "4"),
            arg("angle_deg", "degrees to the ground, below 90", "45"),
            opt("couplers", "at each end", "1"),
        ],
        symbol: "H",
        unit: "kN",
        run: brace,
    },
    Entry {
        name: "crack_category",
        source: cracks::SOURCE,
        args: &[arg("width_mm", "mm", "0.5")],
        symbol: "category",
        unit: "0 to 5",
        run: |r| {
            let width = r.non_negative("width_mm")?;
            let category = cracks::crack_category(width);
            Ok(Outcome::plain(
                f64::from(category),
                format!("{width} mm wide: category {category}"),
            ))
        },
    },
    Entry {
        name: "people_to_lift",
        source: handling::SOURCE,
        args: &[arg("mass_kg", "kg", "45.2"), opt("filter_kg", "kg", "25")],
        symbol: "people",
        unit: "record",
        run: |r| {
            let result = handling::people_to_lift(r.non_negative("mass_kg")?, r.positive("filter_kg")?);
            Ok(Outcome::record(result, result.steps()))
        },
    },
    Entry {
        name: "hse_filter",
        source: handling::SOURCE,
        args: &[
            arg("base_kg", "kg", "25"),
            opt("twist_deg", "degrees", "0"),
            opt("per_min", "lifts a minute", "0"),
        ],
        symbol: "m",
        unit: "kg",
        run: |r| {
            let (base, twist) = (r.positive("base_kg")?, r.non_negative("twist_deg")?);
            let kg = handling::hse_filter(base, twist, r.non_negative("per_min")?);
            Ok(Outcome::plain(kg, format!("{base} kg reduced to {kg:.2} kg")))
        },
    },
    Entry {
        name: "inspection",
        source: site::INSPECTION_SOURCE,
        args: &[],
        symbol: "when",
        unit: "record",
        run: |_| {
            Ok(Outcome::record(
                json!({ "rule": site::INSPECTION }),
                vec!["as published".to_owned()],
            ))
        },
    },
    Entry {
        name: "dry_pack",
        source: site::DRY_PACK_SOURCE,
        args: &[],
        symbol: "mix",
        unit: "record",
        run: |_| {
            let record = json!({ "cement_sand": site::DRY_PACK_MIX, "layer_mm": site::DRY_PACK_LAYER_MM });
            Ok(Outcome::record(record, vec!["as published".to_owned()]))
        },
    },
];

fn spread(r: &Reader<'_>) -> Result<Outcome, ArgError> {
    let board = Layer {
        x_mm: r.positive_or_infinite("length_mm")?,
        y_mm: r.positive_or_infinite("breadth_mm")?,
        t_mm: r.non_negative("t_mm")?,
        spread_x: r.non_negative("along")?,
        spread_y: r.non_negative("across")?,
    };
    let (load, plate) = (r.non_negative("load_kn")?, r.positive("plate_mm")?);
    let result = ground::spread(load, plate, &[board, Layer::slab(r.non_negative("slab_mm")?)]);
    Ok(Outcome::number(result.pressure_kpa, result, result.steps()))
}

fn brace(r: &Reader<'_>) -> Result<Outcome, ArgError> {
    let (length, t, angle) = (
        r.positive("length_mm")?,
        r.positive("t_mm")?,
        r.non_negative("angle_deg")?,
    );
    if angle >= 90.0 {
        return Err(r.refuse("angle_deg", format!("{angle} is not below 90")));
    }
    if t >= 24.0 {
        return Err(r.refuse("t_mm", format!("{t} fills the tube")));
    }
    let result = sideways::brace(length, t, angle, r.positive("couplers")?);
    Ok(Outcome::number(result.h_kn, result, result.steps()))
}
