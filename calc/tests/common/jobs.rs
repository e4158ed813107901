//! Random plausible jobs.
//!
//! A job is read off a tape of numbers from 0 to 1. A tape of zeros is the plainest job, so that proptest's shrinking of
//! the numbers makes a job plainer.

use proptest::prelude::*;
use serde_json::{Value, json};

/// How wild a job may be.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// An ordinary house to which the method applies, most often with an answer to build from.
    Ordinary,
    /// Anything the contract allows that a person might enter.
    Any,
}

/// Jobs of a kind.
pub fn jobs(kind: Kind) -> impl Strategy<Value = Value> {
    prop::collection::vec(0.0..1.0_f64, 120).prop_map(move |tape| job(kind, &mut Tape { tape: tape.into_iter() }))
}

struct Tape {
    tape: std::vec::IntoIter<f64>,
}

impl Tape {
    fn next(&mut self) -> f64 {
        self.tape.next().unwrap_or_default()
    }

    /// A number of a range in steps, its lower end first.
    fn range(&mut self, from: f64, to: f64, step: f64) -> f64 {
        let steps = ((to - from) / step + 1e-9).floor();
        let number = from + (self.next() * (steps + 1.0)).floor().min(steps) * step;
        (number * 1e6).round() / 1e6
    }

    fn pick<T: Clone>(&mut self, list: &[T]) -> T {
        let place = (self.next() * list.len() as f64) as usize;
        list.get(place.min(list.len() - 1)).cloned().unwrap()
    }

    fn chance(&mut self, share: f64) -> bool {
        self.next() > 1.0 - share
    }

    fn maybe(&mut self, share: f64, value: impl FnOnce(&mut Self) -> Value) -> Value {
        if self.chance(share) { value(self) } else { Value::Null }
    }
}

fn leaf(t: &mut Tape, kind: Kind, only: bool) -> Value {
    let brick = json!({"thickness_mm": if only { t.pick(&[215.0, 102.5, 327.5]) } else { 102.5 }});
    let block = json!({"thickness_mm": t.pick(&[100.0, 140.0, 215.0])});
    let rare: &[&str] = if kind == Kind::Any && t.chance(0.1) {
        &["coursed_stone", "rubble"]
    } else {
        &[]
    };
    let mut names = vec![
        "clay_brick",
        "dense_block",
        "medium_block",
        "calcium_silicate_brick",
        "aerated_block",
    ];
    names.extend(rare);
    let material = t.pick(&names);
    let mut leaf = match material {
        "clay_brick" | "calcium_silicate_brick" => brick,
        "coursed_stone" | "rubble" => json!({"thickness_mm": t.pick(&[400.0, 500.0])}),
        _ => block,
    };
    leaf["material"] = json!(material);
    let mortars: &[&str] = if kind == Kind::Any && t.chance(0.1) {
        &["cement", "lime", "perished"]
    } else {
        &["cement", "cement", "lime"]
    };
    leaf["mortar"] = json!(t.pick(mortars));
    leaf["plaster_mm"] = json!(t.pick(&[0.0, 13.0, 26.0]));
    leaf["density_kn_m3"] = t.maybe(0.2, |t| json!(t.range(8.0, 22.0, 0.5)));
    leaf["unit_n_mm2"] = t.maybe(0.3, |t| json!(t.range(5.0, 40.0, 0.5)));
    leaf["unit_is_normalised"] = json!(t.chance(0.1));
    leaf["unit_group"] = json!(if t.chance(0.1) { 2 } else { 1 });
    leaf["mortar_n_mm2"] = t.maybe(0.2, |t| json!(t.range(1.0, 12.0, 0.5)));
    leaf["year"] = t.maybe(0.2, |t| json!(t.range(1850.0, 2000.0, 1.0)));
    leaf
}

fn leaves(t: &mut Tape, kind: Kind, count: usize) -> Value {
    (0..count).map(|_| leaf(t, kind, count == 1)).collect()
}

fn floor(t: &mut Tape, kind: Kind, bearing_m: f64, below: bool) -> Value {
    let loose = kind == Kind::Any;
    json!({
        "leaf": t.pick(&["inner", "both", "outer"]), "inside_span_m": t.range(2.0, 5.0, 0.1),
        "outside_span_m": if t.chance(0.25) { t.range(2.0, 4.0, 0.1) } else { 0.0 },
        "direction": if loose && t.chance(0.08) { "along" } else { "onto" }, "continuous": t.chance(0.3), "joist_spacing_m": t.pick(&[0.4, 0.45, 0.6]),
        "joist_depth_m": t.range(0.15, 0.25, 0.01), "dead_kn_m2": t.range(0.4, 1.0, 0.05), "imposed_kn_m2": 1.5,
        "partitions_kn_m2": t.pick(&[0.5, 0.0, 0.8, 1.2]), "empty": t.chance(0.3), "slept_in": t.chance(0.2),
        "bearing_m": if below { json!(bearing_m) } else { Value::Null }, "beam_and_block": t.chance(0.1)
    })
}

/// Openings side by side within the described wall.
fn windows(t: &mut Tape, from: f64, to: f64, height_m: f64) -> Value {
    let mut out = Vec::new();
    let mut edge = from + 0.3;
    for _ in 0..t.pick(&[0, 1, 2]) {
        let x_m = edge + t.range(0.0, 0.8, 0.05);
        let width_m = t.range(0.5, 1.5, 0.05);
        let sill_m = t.range(0.6, 1.0, 0.05);
        let height = t.range(0.6, 1.3, 0.05).min(height_m - 0.3 - sill_m);
        if x_m + width_m > to - 0.3 || height < 0.3 {
            break;
        }
        out.push(json!({"x_m": x_m, "sill_m": sill_m, "width_m": width_m, "height_m": height}));
        edge = x_m + width_m + 0.45;
    }
    json!(out)
}

fn side(t: &mut Tape, kind: Kind, level: f64) -> Value {
    let solid = ["slab_on_ground", "ground", "paving"];
    let any = [
        "slab_on_ground",
        "ground",
        "paving",
        "suspended_slab",
        "suspended_timber",
        "decking",
        "unknown",
    ];
    let what = if kind == Kind::Any && t.chance(0.15) {
        t.pick(&any)
    } else {
        t.pick(&solid)
    };
    let grounds = [
        "firm_clay",
        "stiff_clay",
        "gravel",
        "dense_sand",
        "soft_clay",
        "loose_sand",
        "rock",
        "unknown",
    ];
    json!({"foot_level_m": level, "room_m": t.range(1.2, 4.0, 0.1), "foot": {
        "kind": what, "thickness_mm": if what == "ground" { 0.0 } else { t.range(50.0, 150.0, 10.0) }, "ground": t.pick(&grounds),
        "bearing_kpa": t.maybe(0.2, |t| json!(t.range(40.0, 300.0, 10.0))), "fixed": !t.chance(0.2),
        "carried_down": t.maybe(0.1, |t| json!(t.pick(&["solid", "props_below"])))
    }})
}

fn props(t: &mut Tape) -> Value {
    match t.pick(&[0, 1, 2, 3]) {
        1 => {
            json!([{"name": "b", "data": "en1065", "class": t.pick(&["B35", "B40", "C35", "D35", "E35", "A35"])}, {"name": "b2", "data": "en1065", "class": "D25"}])
        }
        2 => {
            json!([{"name": "hired 2", "data": "tn79", "size": 2}, {"name": "hired 1", "data": "tn79", "size": 1}, {"name": "hired 3", "data": "tn79", "size": 3}])
        }
        3 => json!([{"name": "long sheet", "data": "sheet", "load": t.pick(&["safe_working", "characteristic"]),
            "table": [[1.8, 34.0], [2.2, 30.0], [2.6, 24.0], [3.0, 19.0], [3.4, 15.0]], "min_m": 1.7, "max_m": 3.6,
            "basis": t.maybe(0.5, |t| json!({"head_mm": t.pick(&[10.0, 25.0, 0.0]), "foot_mm": 0.0, "lean_deg": 1.5}))}]),
        _ => json!([]),
    }
}

fn answers(t: &mut Tape, kind: Kind, restraint: &str) -> Value {
    let mut out = json!({"corner_m": t.maybe(0.7, |t| json!(t.range(0.6, 5.0, 0.1))), "restraint": restraint});
    for key in ["cellar", "chimney", "bay", "veneer", "removed", "digging", "cracked"] {
        let no = kind == Kind::Ordinary || !t.chance(0.03);
        out[key] = json!(if no { "no" } else { t.pick(&["yes", "unknown"]) });
    }
    if kind == Kind::Any && t.chance(0.06) {
        out["restraint"] = json!(t.pick(&["none", "unknown", "strapped", "designed", "roof", "floor"]));
    }
    out
}

fn job(kind: Kind, t: &mut Tape) -> Value {
    let storeys: usize = t.pick(&[1, 0, 1, 2, 1, 3]);
    let width_m = t.range(1.2, if kind == Kind::Any { 4.4 } else { 3.2 }, 0.05);
    let (head_m, beam_mm) = (t.range(2.0, 2.2, 0.05), t.range(100.0, 260.0, 1.0));
    let (left, right) = (t.range(0.9, 2.5, 0.05), t.range(0.9, 2.5, 0.05));
    let count = t.pick(&[2, 1]);
    let wall = leaves(t, kind, count);
    // Joists a little over the needles, as most houses have it; lower ones refuse, which is an answer too.
    let first = head_m + beam_mm / 1000.0 + t.range(if kind == Kind::Any { 0.2 } else { 0.35 }, 0.7, 0.05);
    let mut above = Vec::new();
    for i in 0..storeys {
        let height_m = t.range(2.3, 2.8, 0.1);
        let own = t.chance(0.15);
        let openings = windows(t, -left, width_m + right, height_m);
        above.push(json!({"height_m": height_m, "leaves": if own { leaves(t, kind, count) } else { Value::Null }, "openings": openings,
            "floor": floor(t, kind, first, i == 0)}));
    }
    let flat = t.chance(0.1);
    let roof_kind = if flat { "flat" } else { t.pick(&["trusses", "rafters"]) };
    let restraint = if storeys > 0 { "floor" } else { "roof" };
    let bears = storeys == 0 || !t.chance(0.2);
    let mut points = Vec::new();
    for _ in 0..t.pick(&[0, 0, 1, 2]) {
        points.push(json!({"x_m": t.range(-left + 0.2, width_m + right - 0.2, 0.05), "level": (t.next() * (storeys + 1) as f64) as u32,
            "leaf": t.pick(&["inner", "both", "outer"]), "dead_kn": t.range(1.0, 10.0, 0.5), "imposed_kn": t.range(0.0, 4.0, 0.5), "what": "post"}));
    }
    let mut forbidden = Vec::new();
    if t.chance(0.25) {
        let from_m = t.range(0.0, width_m, 0.05);
        forbidden.push(json!({"from_m": from_m, "to_m": from_m + t.range(0.05, 0.2, 0.05), "why": "soil pipe"}));
    }
    let outside_wall = !t.chance(0.25);
    let lower = t.range(-0.5, 0.0, 0.05);
    let existing = t.maybe(
        0.15,
        |_| json!([{"x_m": width_m + 0.7, "sill_m": 0.9, "width_m": 0.2, "height_m": 1.0, "stays": true}]),
    );
    let plan = t.maybe(0.3, |t| {
        let axes: Vec<f64> = (0..4).map(|i| width_m * (f64::from(i) + 0.5) / 4.0).collect();
        json!({"kind": t.pick(&["needles", "brackets"]), "needles_x_m": axes, "arm_mm": t.pick(&[150.0, 200.0]), "rated_kn": t.maybe(0.5, |t| json!(t.range(2.0, 15.0, 1.0)))})
    });
    json!({
        "contract": 1, "country": t.pick(&["england", "scotland", "germany", "france"]),
        "opening": {"width_m": width_m, "head_m": head_m, "left_masonry_m": left, "right_masonry_m": right, "beam_depth_mm": beam_mm,
            "flush": kind == Kind::Any && t.chance(0.1), "needle_soffit_m": Value::Null},
        "wall": {"leaves": wall, "cavity_mm": if count == 2 { t.pick(&[50.0, 75.0, 100.0]) } else { 0.0 }, "condition": t.pick(&["sound", "sound", "doubtful"]),
            "gable": kind == Kind::Any && t.chance(0.08), "outside_wall": outside_wall, "openings": if existing.is_null() { json!([]) } else { existing }},
        "above": above,
        "roof": {"kind": roof_kind, "leaf": t.pick(&["inner", "both"]), "bearing_m": if storeys == 0 { json!(first + t.range(0.0, 0.6, 0.05)) } else { Value::Null },
            "span_m": t.range(4.0, 8.0, 0.1), "overhang_m": t.range(0.0, 0.4, 0.1), "pitch_deg": if flat { 0.0 } else { t.range(20.0, 55.0, 1.0) },
            "dead_kn_m2": t.range(0.5, 1.0, 0.05), "ceiling_kn_m2": t.range(0.1, 0.4, 0.05), "bears": bears},
        "points": points,
        "sides": {"inside": side(t, kind, 0.0), "outside": side(t, kind, lower)},
        "forbidden": forbidden,
        "site": {"altitude_m": t.range(0.0, 300.0, 10.0), "snow_kn_m2": t.maybe(0.3, |t| json!(t.range(0.3, 1.2, 0.1))), "snow_zone": t.maybe(0.5, |t| json!(t.range(1.0, 5.0, 1.0))),
            "wind_m_s": t.range(20.0, 28.0, 1.0), "terrain": t.pick(&["III", "II", "IV", "I", "0"]), "days": t.range(5.0, 200.0, 5.0),
            "gust_m_s": t.maybe(0.2, |t| json!(t.range(15.0, 35.0, 1.0)))},
        "answers": answers(t, kind, restraint),
        "props": props(t),
        "catalogue": {
            "sections": t.maybe(0.2, |t| t.pick(&[json!(["UC152x152x23 S275", "SHS100x100x5 S355", "SHS120x120x6.3 S355"]), json!(["D40 200x200", "UC152x152x30 S275"])])),
            "rates": t.maybe(0.3, |_| json!({"needle": 6.0, "prop": 1.5, "board": 0.5}))},
        "check": t.maybe(0.5, |_| json!({"name": "A. Checker", "date": "2026-03-01", "category": 2})),
        "fix": Value::Null, "builders_plan": plan,
        "engineer": t.maybe(0.1, |_| json!({"name": "E. Engineer", "date": "2026-03-02", "section": "UC152x152x23 S275", "spacing_m": 0.8, "load_kn_m": 30.0}))
    })
}
