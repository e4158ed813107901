//! A made-up job, written by hand in the form of the contract: no figure in it was computed.

use serde_json::{Value, json};
use std::sync::Arc;
use upstay_lib::pieces::Piece;
use upstay_lib::report::{EntryLine, PhotoPart, ReportModel, RoundPart, SealLine, Sketch};

/// The caution of the sample.
pub const CAUTION: &str = "A proposal for your engineer to confirm. Local rules and licensed practice come first. When in doubt, stay out and ring.";

/// Needle names of the sample.
pub const NEEDLES: [&str; 4] = ["N1", "N2", "N3", "N4"];

/// Prop names of the sample.
pub fn props() -> Vec<String> {
    NEEDLES
        .iter()
        .flat_map(|needle| [format!("{needle}-in"), format!("{needle}-out")])
        .collect()
}

fn check(name: &str, at: &str, demand: f64, resistance: f64, unit: &str) -> Value {
    json!({ "name": name, "at": at, "demand": demand, "resistance": resistance, "unit": unit,
        "utilisation": demand / resistance, "source": { "document": "EN 1993-1-1:2005", "locator": "6.2.5(2)", "seen": "text" },
        "steps": ["M = 8.0 kNm"] })
}

/// A proposal in the form of the contract.
pub fn proposal() -> Value {
    let needles: Vec<Value> = NEEDLES
        .iter()
        .zip([0.45, 1.35, 2.25, 3.15])
        .map(|(name, x_m)| {
            json!({ "name": name, "x_m": x_m, "section": "UB152x89x16 S275", "inside_y_mm": 728.0, "outside_y_mm": -450.0,
                "span_m": 1.18, "pack_mm": 10.0, "lever_kn": 20.1, "continuous_kn": 21.8, "load_kn": 21.8 })
        })
        .collect();
    let props: Vec<Value> = props()
        .iter()
        .map(|name| {
            json!({ "name": name, "needle": name.split('-').next(), "side": if name.ends_with("in") { "inside" } else { "outside" },
                "kind": "tn79", "size": "2", "length_m": if name.ends_with("in") { 2.212 } else { 2.362 }, "load_kn": 11.3,
                "working_load_kn": 17.0, "kappa": 0.71, "utilisation": 0.665 })
        })
        .collect();
    let feet: Vec<Value> = self::props()
        .iter()
        .map(|prop| json!({ "prop": prop, "board_mm": [600.0, 225.0, 63.0], "under_board_kpa": 71.0, "under_slab_kpa": null, "allowed_kpa": 75.0, "utilisation": 0.947 }))
        .collect();
    json!({
        "contract": 1, "version": "0.1.0", "basis": ["EN 1990", "EN 1996-1-1, γM 3.0", "BS 5975, 2.5 % sideways"],
        "standing": "close", "refusal": null, "independent_check_needed": true,
        "reasons": [{ "code": "storey_above", "words": "A storey stands above: someone independent must check this first." }],
        "cautions": ["Not an independent check."],
        "assumptions": [{ "path": "/wall/leaves/0/unit_n_mm2", "value": 10, "words": "Clay bricks of 10 N/mm² strength", "source": "low default for the age" }],
        "load": { "total_service_kn": 81.4, "total_strength_kn": 112.0, "mean_service_kn_m": 22.6, "largest_service_kn_m": 38.2,
            "parts": [{ "what": "wall", "dead_kn": 41.0, "imposed_kn": 0.0 }, { "what": "floor", "dead_kn": 9.0, "imposed_kn": 18.0 }],
            "profile": { "x_m": [0.0, 3.6], "g_kn_m": [15.0], "q_kn_m": [7.6] } },
        "brackets": { "allowed": false, "one_carries_kn": 21.0, "one_can_kn": 4.7, "reasons": [] },
        "options": [{
            "kind": "needles", "aim": "fewest", "objective": 12.0, "standing": "close", "worst_utilisation": 0.947, "governs": "ground under N1-out",
            "needle_soffit_m": 2.26, "needle_top_m": 2.412, "spacing_m": 0.9, "needles": needles, "props": props, "feet": feet,
            "bracing": { "v_kn": 90.0, "demand_along_kn": 2.25, "demand_across_kn": 2.25, "resistance_along_kn": 5.1, "resistance_across_kn": 4.8,
                "way": ["Along: two diagonals of 48.3 mm tube between N1 and N2, fittings for the prop's real tube"] },
            "floor_lines": [], "parts": [{ "what": "Needle UB152x89x16 S275, 1.5 m", "count": 5, "mass_kg": 24.0 }],
            "checks": [check("needle_bending", "N1", 8.0, 28.0, "kNm"), check("bearing_inner", "N1", 21.8, 23.2, "kN"),
                check("stage", "wall", 1.1, 1.0, "N/mm²")],
            "one_lost": [{ "lost": "N2", "worst": "N1-in", "utilisation": 0.98, "words": "If N2 is lost, N1-in is used 98 %." }],
            "movement": { "props_mm": 0.4, "needle_mm": 0.6, "board_mm": 0.5, "ground_mm": 1.0, "worst_difference_mm": 1.2, "utilisation": 0.4, "turns": 0.2 }
        }],
        "nearest": null, "builders_plan": { "standing": "does_not_hold", "checks": [], "words": "Four brackets would each carry 21 kN and can carry 4.7 kN." },
        "engineer": { "compared": ["Spacing: 0.85 m by the engineer, 0.90 m here."] },
        "order": [{ "step": 1, "words": "Services off.", "stop": true }, { "step": 2, "words": "Cut the hole for N1.", "stop": false }]
    })
}

/// A small JPEG, different for each number.
pub fn jpeg(number: u32) -> Arc<Vec<u8>> {
    let (width, height) = (48_u16, 36_u16);
    let mut pixels = Vec::new();
    for y in 0..height {
        for x in 0..width {
            let shade = (u32::from(x) * 5 + u32::from(y) * 3 + number * 37) % 256;
            pixels.extend([u8::try_from(shade).unwrap(), 120, u8::try_from(255 - shade).unwrap()]);
        }
    }
    let mut bytes = Vec::new();
    jpeg_encoder::Encoder::new(&mut bytes, 85)
        .encode(&pixels, width, height, jpeg_encoder::ColorType::Rgb)
        .unwrap();
    Arc::new(bytes)
}

fn photo(number: u32, about: &str) -> PhotoPart {
    PhotoPart {
        number,
        file: format!("photos/{number:03}-{about}.jpg"),
        sha256: format!("{number:064x}"),
        about: about.to_owned(),
        kind: "detail".to_owned(),
        times: vec![
            "taken 2026-03-03 07:41 +00:00 by its own data".to_owned(),
            "received 2026-03-03 07:42, 61 s later".to_owned(),
        ],
        in_pack: true,
        mark: number.is_multiple_of(3).then(|| "came from elsewhere".to_owned()),
        view: Some(Piece::Held(jpeg(number))),
    }
}

fn round(at: &str, passed: bool, photos: Vec<u32>) -> RoundPart {
    let readings: Vec<Value> = props()
        .iter()
        .map(|prop| json!({ "prop": prop, "pin": "right", "collar_turns": 0.5, "thread_mm": 8.0, "lean_mm": [11.0, 4.0], "over_m": 1.0,
            "head_off_mm": 5.0, "foot_off_mm": 0.0, "foot_firm": passed, "straight": true, "fixed": true, "packed": true }))
        .collect();
    let seen: Vec<Value> = props()
        .iter()
        .map(|name| json!({ "name": name, "kappa": 0.8, "working_load_kn": 17.0, "load_kn": 10.8, "utilisation": 0.636, "in_basis": true, "take_up_mm": 4.0, "do": [] }))
        .collect();
    RoundPart {
        at: at.to_owned(),
        why: "before work".to_owned(),
        round: json!({ "why": "before_work", "readings": readings, "gauges": [], "job_checks": { "braces": true, "doors_stick": false, "load_on_floors": false, "digging": false, "wind_m_s": 12.0 } }),
        evaluation: json!({ "passed": passed, "stop": !passed, "ring": !passed, "out": false, "props": seen,
            "sideways": { "demand_kn": 2.3, "resistance_kn": 4.8, "utilisation": 0.48 },
            "gauges": [{ "name": "G1", "since_start_mm": 0.1, "since_last_mm": 0.0 }],
            "reasons": if passed { json!([]) } else { json!([{ "code": "foot", "words": "A foot is not firm." }]) } }),
        photos,
    }
}

/// A job with two rounds, ten photos and some entries.
pub fn model() -> ReportModel {
    let mut photos = vec![photo(1, "wall")];
    photos.extend(props().iter().zip(2..).map(|(name, number)| photo(number, name)));
    photos.push(photo(10, "crack"));
    ReportModel {
        job_name: "Lime Row, back wall".to_owned(),
        place: "3 Lime Row, Ashby".to_owned(),
        made_at: "Tuesday 3 March 2026, 17:20".to_owned(),
        made_utc_ms: 1_772_558_400_000,
        seal: Some(SealLine { code: "7KQM-2XWD-9PRA".to_owned(), at: "Tuesday 3 March 2026, 17:19".to_owned() }),
        caution: CAUTION.to_owned(),
        wall: vec!["Opening 3.60 m wide, head at 2.00 m.".to_owned(), "Outer leaf: clay brick 102.5 mm, cement mortar.".to_owned()],
        proposal: Some(proposal()),
        sketches: vec![Sketch {
            title: "From the front".to_owned(),
            svg: "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 340 100\" role=\"img\" aria-label=\"Four needles\"><path d=\"M10 90h320\" stroke=\"#16242c\" fill=\"none\"/><text x=\"20\" y=\"40\" font-size=\"12\">N1 中</text></svg>".to_owned(),
        }],
        rounds: vec![round("Monday 2 March 2026, 07:40", true, vec![2, 3]), round("Tuesday 3 March 2026, 07:41", false, vec![4, 5, 10])],
        missing_days: vec!["2026-03-01".to_owned()],
        entries: (1..=5)
            .map(|position| EntryLine {
                position,
                at: "2026-03-03 07:41 +00:00".to_owned(),
                title: "Note".to_owned(),
                words: format!("Entry number {position}."),
                hash: format!("{position:064x}"),
            })
            .collect(),
        photos,
        ..ReportModel::default()
    }
}
