//! A described job in plain sentences.

use crate::job::{
    Answer, CarriedDown, Condition, Direction, Floor, FootKind, Ground, Job, Leaf, Material, Mortar, Restraint,
    RoofKind, Side, WhichLeaf,
};
use serde_json::Value;

/// The opening and the wall, one sentence each.
#[must_use]
pub fn wall_lines(job: &Job) -> Vec<String> {
    let opening = &job.opening;
    let mut lines = vec![
        format!(
            "New opening {:.2} m wide, underside of the new beam {:.2} m over the inside floor, in {}.",
            opening.width_m,
            opening.head_m,
            sentence(&job.country)
        ),
        format!(
            "Masonry beside it {:.2} m at the left and {:.2} m at the right.",
            opening.left_masonry_m, opening.right_masonry_m
        ),
        format!(
            "New beam {:.0} mm deep, {}.",
            opening.beam_depth_mm,
            if opening.flush {
                "within the floor above"
            } else {
                "below the ceiling"
            }
        ),
    ];
    let names: &[&str] = match job.wall.leaves.len() {
        1 => &["Wall"],
        2 => &["Outer leaf", "Inner leaf"],
        _ => &[],
    };
    for (index, leaf) in job.wall.leaves.iter().enumerate() {
        let name = names
            .get(index)
            .map_or_else(|| format!("Leaf {}", index + 1), |name| (*name).to_owned());
        lines.push(format!("{name}: {}.", self::leaf(leaf)));
    }
    if job.wall.leaves.len() > 1 {
        lines.push(format!("Cavity {:.0} mm.", job.wall.cavity_mm));
    }
    let condition = match job.wall.condition {
        Condition::Sound => "sound",
        Condition::Doubtful => "doubtful",
        Condition::Poor => "poor",
    };
    let place = if job.wall.outside_wall {
        "an outside wall"
    } else {
        "an inside wall"
    };
    let gable = if job.wall.gable { ", a gable" } else { "" };
    lines.push(format!("It is {place}{gable}; its condition as seen: {condition}."));
    for opening in &job.wall.openings {
        lines.push(format!(
            "An opening is there at {:.2} m from the left jamb, {:.2} × {:.2} m, sill at {:.2} m; it {}.",
            opening.x_m,
            opening.width_m,
            opening.height_m,
            opening.sill_m,
            if opening.stays { "stays" } else { "goes" }
        ));
    }
    for stretch in &job.forbidden {
        lines.push(format!(
            "No hole from {:.2} to {:.2} m: {}.",
            stretch.from_m, stretch.to_m, stretch.why
        ));
    }
    lines
}

fn leaf(leaf: &Leaf) -> String {
    let material = match leaf.material {
        Material::ClayBrick => "clay brick",
        Material::CalciumSilicateBrick => "calcium silicate brick",
        Material::DenseBlock => "dense block",
        Material::MediumBlock => "medium block",
        Material::AeratedBlock => "aerated block",
        Material::CoursedStone => "coursed stone",
        Material::Rubble => "rubble",
    };
    let mortar = match leaf.mortar {
        Mortar::Cement => "cement mortar",
        Mortar::Lime => "lime mortar",
        Mortar::Perished => "perished mortar",
    };
    let mut words = format!("{material} {:.1} mm, {mortar}", leaf.thickness_mm);
    if leaf.plaster_mm > 0.0 {
        words.push_str(&format!(", plaster {:.0} mm", leaf.plaster_mm));
    }
    if let Some(strength) = leaf.unit_n_mm2 {
        words.push_str(&format!(", units {strength:.1} N/mm²"));
    }
    if let Some(year) = leaf.year {
        words.push_str(&format!(", built about {year:.0}"));
    }
    words
}

/// Storeys, roof and point loads, from the bottom up.
pub fn above_lines(job: &Job) -> Vec<String> {
    let mut lines = Vec::new();
    for (index, storey) in job.above.iter().enumerate() {
        let mut words = format!("Storey {}: {:.2} m high", index + 1, storey.height_m);
        if let Some(leaves) = &storey.leaves {
            let built: Vec<String> = leaves.iter().map(leaf).collect();
            words.push_str(&format!(", {}", built.join(" and ")));
        }
        lines.push(format!("{words}."));
        for opening in &storey.openings {
            lines.push(format!(
                "In it an opening at {:.2} m from the left jamb, {:.2} × {:.2} m, sill {:.2} m over its floor.",
                opening.x_m, opening.width_m, opening.height_m, opening.sill_m
            ));
        }
        if let Some(floor) = &storey.floor {
            lines.push(floor_line(job, floor));
        }
    }
    let roof = &job.roof;
    lines.push(match roof.kind {
        RoofKind::None => "No roof bears here.".to_owned(),
        kind => {
            let name = match kind {
                RoofKind::Trusses => "Roof of trusses",
                RoofKind::Rafters => "Roof of rafters",
                RoofKind::Flat | RoofKind::None => "Flat roof",
            };
            let bears = if roof.bears { format!("bears on {}", which(job, roof.leaf)) } else { "does not bear on this wall".to_owned() };
            format!(
                "{name}, span {:.1} m, overhang {:.2} m, {:.0}°, {:.2} kN/m² on the slope and {:.2} kN/m² ceiling; it {bears}.",
                roof.span_m, roof.overhang_m, roof.pitch_deg, roof.dead_kn_m2, roof.ceiling_kn_m2
            )
        }
    });
    for point in &job.points {
        lines.push(format!(
            "Point load {} at {:.2} m: {:.1} kN dead, {:.1} kN imposed, on {}.",
            point.what,
            point.x_m,
            point.dead_kn,
            point.imposed_kn,
            which(job, point.leaf)
        ));
    }
    lines.push(match job.answers.restraint {
        Restraint::Floor => "The floor ties the wall just above the opening.".to_owned(),
        Restraint::Roof => "The roof ties the wall just above the opening.".to_owned(),
        Restraint::Strapped => "Straps tie the wall just above the opening.".to_owned(),
        Restraint::Designed => "A designed restraint holds the wall just above the opening.".to_owned(),
        Restraint::None => "Nothing ties the wall just above the opening.".to_owned(),
        Restraint::Unknown => "Whether anything ties the wall just above the opening is not known.".to_owned(),
    });
    lines
}

fn floor_line(job: &Job, floor: &Floor) -> String {
    let spans: Vec<String> = [(floor.inside_span_m, "inside"), (floor.outside_span_m, "outside")]
        .into_iter()
        .filter(|(span, _)| *span > 0.0)
        .map(|(span, side)| format!("{span:.1} m {side}"))
        .collect();
    let mut words = match floor.direction {
        Direction::Onto => format!(
            "Floor on {}: joists onto the wall, {}{}",
            which(job, floor.leaf),
            spans.join(" and "),
            if floor.continuous { ", running through" } else { "" }
        ),
        Direction::Along => "Floor beside it: joists along the wall".to_owned(),
    };
    if floor.beam_and_block {
        words.push_str(", beam and block");
    }
    words.push_str(&format!(
        ", {:.2} m deep at {:.2} m; {:.2} kN/m² dead, {:.2} imposed, {:.2} partitions",
        floor.joist_depth_m, floor.joist_spacing_m, floor.dead_kn_m2, floor.imposed_kn_m2, floor.partitions_kn_m2
    ));
    if let Some(bearing) = floor.bearing_m {
        words.push_str(&format!("; bearing at {bearing:.2} m"));
    }
    if floor.empty {
        words.push_str("; kept empty");
    }
    if floor.slept_in {
        words.push_str("; slept in");
    }
    words + "."
}

fn which(job: &Job, leaf: WhichLeaf) -> &'static str {
    match leaf {
        _ if job.wall.leaves.len() < 2 => "the wall",
        WhichLeaf::Inner => "the inner leaf",
        WhichLeaf::Outer => "the outer leaf",
        WhichLeaf::Both => "the whole wall",
    }
}

/// Both sides where props would stand.
pub fn ground_lines(job: &Job) -> Vec<String> {
    vec![
        side_line("Inside", &job.sides.inside),
        side_line("Outside", &job.sides.outside),
    ]
}

fn side_line(name: &str, side: &Side) -> String {
    let surface = match side.foot.kind {
        FootKind::SlabOnGround => "slab on ground",
        FootKind::SuspendedSlab => "suspended slab",
        FootKind::SuspendedTimber => "suspended timber floor",
        FootKind::Ground => "bare ground",
        FootKind::Paving => "paving",
        FootKind::Decking => "decking",
        FootKind::Unknown => "not known",
    };
    let ground = match side.foot.ground {
        Ground::SoftClay => "soft clay",
        Ground::FirmClay => "firm clay",
        Ground::StiffClay => "stiff clay",
        Ground::LooseSand => "loose sand",
        Ground::DenseSand => "dense sand",
        Ground::Gravel => "gravel",
        Ground::Rock => "rock",
        Ground::Unknown => "ground not known",
    };
    let slab = if side.foot.thickness_mm > 0.0 {
        format!(" {:.0} mm", side.foot.thickness_mm)
    } else {
        String::new()
    };
    let value = side
        .foot
        .bearing_kpa
        .map_or_else(String::new, |kpa| format!(" of {kpa:.0} kPa"));
    let down = match side.foot.carried_down {
        None => "",
        Some(CarriedDown::PropsBelow) => "; carried down by props below",
        Some(CarriedDown::Solid) => "; carried down to solid ground",
    };
    format!(
        "{name}: {surface}{slab} on {ground}{value}, at {:.2} m; clear room {:.2} m{down}.",
        side.foot_level_m, side.room_m
    )
}

/// Questions that were answered with "don't know", or with a yes that stops.
pub fn unknown_answers(job: &Job) -> Vec<String> {
    let answers = &job.answers;
    let asked = [
        (answers.cellar, "A cellar, void, drain or manhole under a foot"),
        (answers.chimney, "A chimney breast or stack in or over the wall"),
        (answers.bay, "A bay window"),
        (answers.veneer, "A veneer over a frame"),
        (answers.removed, "Floors, cross walls or ties removed or to be removed"),
        (answers.digging, "Digging near the feet"),
        (answers.cracked, "Bulging, leaning or active cracking"),
    ];
    asked
        .into_iter()
        .filter_map(|(answer, what)| match answer {
            Answer::No => None,
            Answer::Yes => Some(format!("{what}: yes.")),
            Answer::Unknown => Some(format!("{what}: not known.")),
        })
        .collect()
}

/// The first letter made large.
#[must_use]
pub fn sentence(words: &str) -> String {
    let mut letters = words.chars();
    letters
        .next()
        .map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// A check's name in plain words that fit a wall of so many leaves: a single one is neither inner nor outer, but the wall.
#[must_use]
pub fn check_words_for(leaves: usize, name: &str) -> String {
    match name {
        "bearing_inner" if leaves < 2 => "wall on the needle".to_owned(),
        "arch_inner" if leaves < 2 => "wall between needles".to_owned(),
        _ => check_words(name),
    }
}

/// How many leaves the wall has that these checks were made on: only one of two has checks of an outer leaf.
#[must_use]
pub fn leaves_of<'a>(mut names: impl Iterator<Item = &'a str>) -> usize {
    if names.any(|name| matches!(name, "bearing_outer" | "arch_outer")) {
        2
    } else {
        1
    }
}

/// A check's name in plain words, as `bearing_inner` → "inner leaf on the needle".
#[must_use]
pub fn check_words(name: &str) -> String {
    let words = match name {
        "board_fit" => "room for the boards",
        "prop_distance" => "distance of the props from the wall",
        "beam_room" => "way in for the new beam",
        "bracket" => "bracket",
        "bracket_rated" => "maker's rated load of the bracket",
        "bracket_prop" => "prop under the bracket",
        "bracket_strut" => "prop bent by the bracket's arm",
        "bracket_arch" => "arch over the whole opening",
        "bracket_seat" => "bracket's plate under the leaf",
        "bracket_clear" => "prop beside the wall",
        "no_needles" => "wall with no needles",
        "plate_point" => "point load on the wall plate",
        "needle_bending" => "needle bending",
        "needle_bending_service" => "needle bending by permissible stress",
        "needle_shear" => "needle shear",
        "needle_bending_shear" => "needle bending with shear",
        "needle_ltb" => "needle rolling over sideways",
        "needle_web_wall" => "needle web under the wall",
        "needle_web_prop" => "needle web over the prop",
        "needle_deflection" => "needle sag",
        "header_bending" => "header bending",
        "header_bending_service" => "header bending by permissible stress",
        "header_shear" => "header shear",
        "header_bearing" => "header pressed across its grain",
        "header_web" => "header's walls over a prop or under a joist",
        "header_deflection" => "header sag",
        "joist_hogging" => "joist bending over the header",
        "joist_shear" => "joist shear beside the header",
        "joist_span" => "joist bending in its span",
        "joist_uplift" => "joist lifting off its far bearing",
        "joist_bearing" => "joist pressed by the header",
        "packing_bearing" => "packing between joists",
        "line_sideways_along" => "floor line tipping along the wall",
        "line_sideways_across" => "floor line tipping across the wall",
        "runner_bending" => "runner bending",
        "runner_bending_service" => "runner bending by permissible stress",
        "runner_shear" => "runner shear",
        "runner_bearing" => "runner pressed across its grain",
        "runner_web" => "runner's web over a prop or under a needle",
        "runner_deflection" => "runner sag",
        "bearing_outer" => "outer leaf on the needle",
        "bearing_inner" => "inner leaf on the needle",
        "arch_outer" => "outer leaf between needles",
        "arch_inner" => "inner leaf between needles",
        "arch_loose" => "loose masonry between needles",
        "stage" => "masonry with all holes cut",
        "clear_masonry" => "masonry left between holes",
        "end_bay" => "end bay beside the opening",
        "end_bay_width" => "masonry beside the end bay",
        "working_room" => "room to work",
        "raker_room" => "room for the rakers",
        "raker_lift" => "heads lifted by the rakers",
        "room_under_plate" => "room under the wall plate",
        "board_bending" => "sole board bending",
        "board_bearing" => "sole board under the plate",
        "ground" => "ground under the foot",
        "sideways_along" => "tipping along the wall",
        "sideways_across" => "tipping across the wall",
        "plate_bending" => "wall plate between needles",
        other => return other.replace('_', " "),
    };
    words.to_owned()
}

/// A value as people write it: words without underscores, lists as sizes, whole numbers without a point.
pub fn value_words(value: &Value) -> String {
    match value {
        Value::Null => "none".to_owned(),
        Value::Bool(yes) => (if *yes { "yes" } else { "no" }).to_owned(),
        Value::String(word) => word.replace('_', " "),
        Value::Number(number) => number
            .as_f64()
            .map_or_else(|| number.to_string(), |number| number.to_string()),
        Value::Array(items) => items.iter().map(value_words).collect::<Vec<_>>().join(" × "),
        Value::Object(_) => value.to_string(),
    }
}
