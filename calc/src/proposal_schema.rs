//! JSON Schema of a proposal, for whoever reads the program's answer.

use serde_json::{Value, json};

/// JSON Schema of a proposal.
#[must_use]
pub fn schema() -> Value {
    let n = json!({"type": "number"});
    let t = json!({"type": "string"});
    let b = json!({"type": "boolean"});
    let list = |items: &Value| json!({"type": "array", "items": items});
    let object = |properties: Value| {
        let required: Vec<&String> = properties
            .as_object()
            .into_iter()
            .flatten()
            .map(|(key, _)| key)
            .collect();
        json!({"type": "object", "required": required, "properties": properties})
    };
    let nullable = |schema: &Value| json!({"anyOf": [schema, {"type": "null"}]});
    let standing = json!({"enum": ["holds", "close", "does_not_hold", "needs_own_design"]});
    let reason = object(json!({"code": t, "words": t}));
    let source = object(json!({"document": t, "locator": t, "seen": t}));
    let check = object(
        json!({"name": t, "at": t, "demand": n, "resistance": n, "unit": t, "utilisation": n, "source": source, "steps": list(&t)}),
    );
    let prop = object(
        json!({"name": t, "needle": t, "side": t, "kind": t, "size": t, "length_m": n, "load_kn": n, "working_load_kn": n, "kappa": n, "utilisation": n}),
    );
    let foot = object(
        json!({"prop": t, "board_mm": list(&n), "under_board_kpa": n, "under_slab_kpa": nullable(&n), "allowed_kpa": n, "utilisation": n}),
    );
    let floor_line = object(
        json!({"floor": n, "side": t, "needed": b, "why": t, "header": nullable(&t), "length_m": nullable(&n), "distance_mm": nullable(&n),
            "spacing_m": nullable(&n), "load_kn": nullable(&n), "takes_kn": n, "props": list(&prop), "feet": list(&foot), "way": list(&t),
            "checks": list(&check)}),
    );
    let option = object(json!({
        "kind": {"enum": ["needles", "brackets"]}, "by": {"enum": ["tool", "engineer"]}, "aim": {"enum": ["fewest", "lightest", "cheapest"]}, "objective": n, "standing": standing,
        "worst_utilisation": n, "governs": t, "needle_soffit_m": n, "needle_top_m": n, "spacing_m": n,
        "needles": list(&object(json!({"name": t, "x_m": n, "section": t, "inside_y_mm": n, "outside_y_mm": n, "span_m": n, "pack_mm": n, "lever_kn": n, "continuous_kn": n, "load_kn": n}))),
        "props": list(&prop),
        "feet": list(&foot),
        "bracing": object(json!({"v_kn": n, "demand_along_kn": n, "demand_across_kn": n, "resistance_along_kn": n, "resistance_across_kn": n, "way": list(&t)})),
        "floor_lines": list(&floor_line),
        "parts": list(&object(json!({"what": t, "count": n, "mass_kg": n}))),
        "checks": list(&check),
        "one_lost": list(&object(json!({"lost": t, "worst": t, "utilisation": nullable(&n), "words": t}))),
        "movement": object(json!({"props_mm": n, "needle_mm": n, "board_mm": n, "ground_mm": n, "worst_difference_mm": n, "utilisation": n, "turns": n}))
    }));
    let mut whole = object(json!({
        "contract": {"const": 1}, "version": t, "basis": list(&t), "standing": standing,
        "refusal": {"enum": [null, "no_model", "engineer_first"]}, "independent_check_needed": b,
        "reasons": list(&reason), "cautions": list(&t),
        "assumptions": list(&object(json!({"path": t, "value": {}, "words": t, "source": t}))),
        "load": object(json!({
            "total_service_kn": n, "total_strength_kn": n, "mean_service_kn_m": n, "largest_service_kn_m": n,
            "parts": list(&object(json!({"what": t, "dead_kn": n, "imposed_kn": n}))),
            "pieces": list(&object(json!({"what": t, "storey": nullable(&n), "point": nullable(&n), "dead_kn": n, "imposed_kn": n, "mean_kn_m": n}))),
            "profile": object(json!({"x_m": list(&n), "g_kn_m": list(&n), "q_kn_m": list(&n)}))
        })),
        "brackets": object(json!({"allowed": b, "one_carries_kn": n, "one_can_kn": n, "reasons": list(&reason)})),
        "options": list(&option), "nearest": nullable(&option),
        "builders_plan": nullable(&object(json!({"standing": standing, "checks": list(&check), "words": t, "filled": list(&t)}))),
        "engineer": nullable(&object(json!({"compared": list(&t), "load_kn_m": nullable(&n), "spacing_m": nullable(&n), "needle_kn": nullable(&n), "prop_kn": nullable(&n), "option": nullable(&option)}))),
        "order": list(&object(json!({
            "step": n, "words": t, "stop": b,
            "code": {"type": "string", "description": "stable code of what the step is about; the steps of several needles share one"},
            "group": {"enum": ["papers", "before", "set_up", "holes", "cutting", "beam", "taking_out", "while_it_stands"], "description": "part of the work the step belongs to"},
            "when": {"type": "string", "description": "when it comes, in words"},
            "who": {"type": "string", "description": "who does it, or whose yes a stop asks"},
            "photo": {"type": "boolean", "description": "whether a photo helps"},
            "record": {"type": "array", "items": {"enum": ["yes", "name", "time", "photo"]}, "description": "what a stop takes down; empty where the work does not stop"},
            "source": source,
            "country_source": {"anyOf": [source, {"type": "null"}], "description": "source of a legal statement, for the job's country"}
        })))
    }));
    if let Some(map) = whole.as_object_mut() {
        map.insert(
            "$schema".to_owned(),
            json!("https://json-schema.org/draft/2020-12/schema"),
        );
        map.insert("title".to_owned(), json!("proposal"));
    }
    whole
}
