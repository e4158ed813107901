//! Ready house types: ordinary answers that fill a job in one step. Invented jobs, named nowhere else.

use serde_json::{Value, json};

/// Names of the ready house types.
#[must_use]
pub const fn names() -> &'static [&'static str] {
    &[
        "bungalow",
        "two_storey_cavity",
        "solid_wall_terrace",
        "three_storey_terrace",
        "garage_with_room_over",
        "internal_bearing_wall",
    ]
}

/// The job of a house type as JSON; none for an unknown name.
#[must_use]
pub fn job(name: &str) -> Option<Value> {
    let mut job = base();
    match name {
        "two_storey_cavity" => {}
        "bungalow" => {
            set(
                &mut job,
                "/opening",
                json!({"width_m": 2.4, "head_m": 2.0, "left_masonry_m": 1.2, "right_masonry_m": 1.5, "beam_depth_mm": 150, "flush": false}),
            );
            set(&mut job, "/above", json!([]));
            set(&mut job, "/roof/bearing_m", json!(2.6));
            set(&mut job, "/roof/span_m", json!(7.5));
            set(&mut job, "/answers/restraint", json!("roof"));
        }
        "solid_wall_terrace" => {
            set(
                &mut job,
                "/wall/leaves",
                json!([{"material": "clay_brick", "thickness_mm": 215, "mortar": "lime", "plaster_mm": 15, "year": 1895}]),
            );
            set(&mut job, "/wall/cavity_mm", json!(0));
            set(
                &mut job,
                "/opening",
                json!({"width_m": 2.1, "head_m": 2.1, "left_masonry_m": 1.2, "right_masonry_m": 1.4, "beam_depth_mm": 178, "flush": false}),
            );
            set(&mut job, "/above/0/floor/bearing_m", json!(2.85));
            set(&mut job, "/above/0/floor/inside_span_m", json!(3.4));
            set(&mut job, "/above/0/floor/empty", json!(true));
            set(&mut job, "/above/0/openings", json!([]));
            set(
                &mut job,
                "/roof",
                json!({"kind": "rafters", "leaf": "inner", "span_m": 6.0, "overhang_m": 0.2, "pitch_deg": 38, "dead_kn_m2": 0.75, "ceiling_kn_m2": 0.3, "bears": true}),
            );
        }
        "three_storey_terrace" => {
            set(
                &mut job,
                "/wall/leaves",
                json!([{"material": "clay_brick", "thickness_mm": 327.5, "mortar": "lime", "plaster_mm": 15, "year": 1880}]),
            );
            set(&mut job, "/wall/cavity_mm", json!(0));
            set(
                &mut job,
                "/opening",
                json!({"width_m": 1.8, "head_m": 2.1, "left_masonry_m": 1.5, "right_masonry_m": 1.5, "beam_depth_mm": 203, "flush": false}),
            );
            let storey = |bearing: f64| {
                json!({"height_m": 2.8, "openings": [], "floor": {"leaf": "inner", "inside_span_m": 3.6, "outside_span_m": 0,
                    "direction": "onto", "continuous": false, "joist_spacing_m": 0.4, "joist_depth_m": 0.22, "dead_kn_m2": 0.5,
                    "imposed_kn_m2": 1.5, "partitions_kn_m2": 0.5, "empty": true, "slept_in": false, "bearing_m": bearing}})
            };
            set(&mut job, "/above", json!([storey(2.9), storey(5.7)]));
        }
        "garage_with_room_over" => {
            set(
                &mut job,
                "/opening",
                json!({"width_m": 2.4, "head_m": 2.1, "left_masonry_m": 0.9, "right_masonry_m": 0.9, "beam_depth_mm": 203, "flush": false}),
            );
            set(&mut job, "/above/0/floor/inside_span_m", json!(3.0));
            set(&mut job, "/above/0/floor/bearing_m", json!(2.85));
            set(
                &mut job,
                "/above/0/openings",
                json!([{"x_m": 0.75, "sill_m": 0.9, "width_m": 0.9, "height_m": 1.1}]),
            );
            set(&mut job, "/roof/span_m", json!(5.0));
        }
        "internal_bearing_wall" => {
            set(
                &mut job,
                "/wall/leaves",
                json!([{"material": "dense_block", "thickness_mm": 100, "mortar": "cement", "plaster_mm": 26}]),
            );
            set(&mut job, "/wall/cavity_mm", json!(0));
            set(&mut job, "/wall/outside_wall", json!(false));
            set(
                &mut job,
                "/opening",
                json!({"width_m": 2.4, "head_m": 2.05, "left_masonry_m": 0.9, "right_masonry_m": 1.1, "beam_depth_mm": 152, "flush": false}),
            );
            set(&mut job, "/above/0/floor/outside_span_m", json!(3.2));
            set(&mut job, "/above/0/floor/inside_span_m", json!(3.2));
            set(&mut job, "/above/0/floor/continuous", json!(true));
            set(&mut job, "/above/0/openings", json!([]));
            set(&mut job, "/roof", json!({"kind": "none", "bears": false}));
            set(
                &mut job,
                "/sides/outside",
                json!({"foot_level_m": 0.0, "room_m": 2.5, "foot": {"kind": "slab_on_ground", "thickness_mm": 100, "ground": "firm_clay", "fixed": true}}),
            );
        }
        _ => return None,
    }
    Some(job)
}

fn base() -> Value {
    json!({
        "contract": 1,
        "country": "england",
        "opening": {"width_m": 2.7, "head_m": 2.0, "left_masonry_m": 0.9, "right_masonry_m": 1.2, "beam_depth_mm": 203, "flush": false, "needle_soffit_m": null},
        "wall": {
            "leaves": [
                {"material": "clay_brick", "thickness_mm": 102.5, "mortar": "cement"},
                {"material": "dense_block", "thickness_mm": 100, "mortar": "cement", "plaster_mm": 13}
            ],
            "cavity_mm": 75, "condition": "sound", "gable": false, "outside_wall": true, "openings": []
        },
        "above": [{
            "height_m": 2.6, "leaves": null,
            "openings": [{"x_m": 0.6, "sill_m": 0.9, "width_m": 1.2, "height_m": 1.2}],
            "floor": {"leaf": "inner", "inside_span_m": 4.0, "outside_span_m": 0, "direction": "onto", "continuous": false,
                "joist_spacing_m": 0.4, "joist_depth_m": 0.22, "dead_kn_m2": 0.5, "imposed_kn_m2": 1.5, "partitions_kn_m2": 0.5,
                "empty": false, "slept_in": false, "bearing_m": 2.75}
        }],
        "roof": {"kind": "trusses", "leaf": "inner", "bearing_m": null, "span_m": 7.2, "overhang_m": 0.3, "pitch_deg": 35,
            "dead_kn_m2": 0.85, "ceiling_kn_m2": 0.3, "bears": true},
        "points": [],
        "sides": {
            "inside": {"foot_level_m": 0.0, "room_m": 3.0, "foot": {"kind": "slab_on_ground", "thickness_mm": 100, "ground": "firm_clay", "fixed": true}},
            "outside": {"foot_level_m": -0.15, "room_m": 2.0, "foot": {"kind": "ground", "ground": "firm_clay", "fixed": true}}
        },
        "forbidden": [],
        "site": {"altitude_m": 60, "snow_kn_m2": null, "snow_zone": 3, "wind_m_s": 22, "terrain": "III", "days": 21, "gust_m_s": null},
        "answers": {"cellar": "no", "chimney": "no", "bay": "no", "veneer": "no", "removed": "no", "digging": "no", "cracked": "no",
            "corner_m": 2.5, "restraint": "floor"},
        "props": [],
        "catalogue": {"sections": null, "rates": null},
        "check": null, "fix": null, "builders_plan": null, "engineer": null
    })
}

fn set(job: &mut Value, pointer: &str, value: Value) {
    if let Some((parent, key)) = pointer.rsplit_once('/')
        && let Some(object) = job.pointer_mut(parent).and_then(Value::as_object_mut)
    {
        object.insert(key.to_owned(), value);
    }
}
