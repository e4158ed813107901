//! The brief says why, what is known, what is not, and what to answer.
#![expect(clippy::unwrap_used, reason = "a test may stop where it fails")]

use super::{Brief, brief, wall_lines};
use crate::job::Job;
use crate::proposal::{
    Assumption, Brackets, Load, LoadPart, PlanVerdict, Profile, Proposal, Reason, RefusalKind, Standing,
};
use serde_json::json;

fn job() -> Job {
    let value = json!({
        "contract": 1, "country": "scotland",
        "opening": {"width_m": 3.1, "head_m": 2.05, "left_masonry_m": 0.95, "right_masonry_m": 1.25, "beam_depth_mm": 178, "flush": true},
        "wall": {"leaves": [{"material": "coursed_stone", "thickness_mm": 450, "mortar": "lime"}], "condition": "doubtful"},
        "above": [{"height_m": 2.6, "openings": [{"x_m": 0.4, "sill_m": 0.9, "width_m": 0.8, "height_m": 1.1}],
            "floor": {"leaf": "inner", "inside_span_m": 3.7, "direction": "onto", "bearing_m": 2.6, "slept_in": true}}],
        "roof": {"kind": "rafters", "leaf": "inner", "span_m": 6.4},
        "sides": {
            "inside": {"foot_level_m": 0.0, "room_m": 3.0, "foot": {"kind": "suspended_timber"}},
            "outside": {"foot_level_m": -0.3, "room_m": 2.0, "foot": {"kind": "paving", "ground": "soft_clay"}}},
        "forbidden": [{"from_m": 1.6, "to_m": 1.8, "why": "gas pipe"}],
        "answers": {"cellar": "unknown", "chimney": "yes", "bay": "no"}
    });
    Job::from_value(&value).unwrap().0
}

fn proposal(standing: Standing, refusal: Option<RefusalKind>) -> Proposal {
    Proposal {
        contract: 1,
        version: "0.1.0".to_owned(),
        basis: Vec::new(),
        standing,
        refusal,
        independent_check_needed: true,
        reasons: vec![Reason::new("chimney", "A chimney breast stands in the wall.")],
        cautions: vec!["Not an independent check.".to_owned()],
        assumptions: vec![Assumption {
            path: "/site/days".to_owned(),
            value: json!(21),
            words: "Days that the support stands".to_owned(),
            source: "own judgement".to_owned(),
        }],
        load: Load {
            total_service_kn: 91.26,
            total_strength_kn: 127.4,
            mean_service_kn_m: 29.44,
            largest_service_kn_m: 41.2,
            parts: vec![LoadPart {
                what: "wall".to_owned(),
                dead_kn: 60.5,
                imposed_kn: 0.0,
            }],
            pieces: Vec::new(),
            profile: Profile {
                x_m: vec![0.0, 3.1],
                g_kn_m: vec![29.44],
                q_kn_m: vec![0.0],
            },
        },
        brackets: Brackets {
            allowed: false,
            one_carries_kn: 20.0,
            one_can_kn: 4.0,
            reasons: Vec::new(),
        },
        options: Vec::new(),
        nearest: None,
        builders_plan: Some(PlanVerdict {
            standing: Standing::DoesNotHold,
            checks: Vec::new(),
            words: "Four brackets: does not hold.".to_owned(),
            filled: Vec::new(),
        }),
        engineer: None,
        order: Vec::new(),
    }
}

fn text(brief: &Brief) -> String {
    brief
        .sections
        .iter()
        .map(|section| format!("{}\n{}\n", section.heading, section.lines.join("\n")))
        .collect()
}

#[test]
fn a_plain_yes_needs_no_brief() {
    assert_eq!(brief(&job(), &proposal(Standing::Holds, None)), None);
}

#[test]
fn a_refusal_says_why_what_is_unknown_and_what_to_answer() {
    let brief = brief(&job(), &proposal(Standing::NeedsOwnDesign, Some(RefusalKind::NoModel))).unwrap();
    let text = text(&brief);
    for words in [
        "The method of the program does not apply here",
        "A chimney breast stands in the wall.",
        "New opening 3.10 m wide",
        "coursed stone 450.0 mm, lime mortar",
        "joists onto the wall, 3.7 m inside",
        "In all 91.3 kN",
        "41.2 kN/m at most",
        "Four brackets: does not hold.",
        "under a foot: not known.",
        "A chimney breast or stack in or over the wall: yes.",
        "Days that the support stands (21; own judgement)",
        "May people sleep above",
        "how are the joists held meanwhile?",
        "Your name, the date",
        "Not an independent check.",
        "suspended timber floor",
    ] {
        assert!(text.contains(words), "{words} is missing in\n{text}");
    }
    assert!(!text.contains("A bay window"), "a plain no is not news");
}

#[test]
fn each_standing_but_a_plain_yes_has_its_own_words() {
    let lines: Vec<String> = [
        (Standing::Close, None),
        (Standing::DoesNotHold, None),
        (Standing::NeedsOwnDesign, Some(RefusalKind::EngineerFirst)),
        (Standing::NeedsOwnDesign, Some(RefusalKind::NoModel)),
    ]
    .into_iter()
    .map(|(standing, refusal)| {
        let brief = brief(&job(), &proposal(standing, refusal)).unwrap();
        brief.sections.first().unwrap().lines.first().unwrap().clone()
    })
    .collect();
    for (index, line) in lines.iter().enumerate() {
        assert!(!lines.iter().skip(index + 1).any(|other| other == line), "{line}");
    }
}

#[test]
fn the_wall_is_described_with_its_forbidden_stretch() {
    let lines = wall_lines(&job());
    assert!(
        lines
            .iter()
            .any(|line| line == "No hole from 1.60 to 1.80 m: gas pipe."),
        "{lines:?}"
    );
    assert!(lines.iter().any(|line| line.contains("Scotland")), "{lines:?}");
}

#[test]
fn props_are_named_as_the_yard_names_them() {
    let value = crate::example::job("two_storey_cavity").unwrap();
    let mut proposal = crate::size_value(&value).unwrap();
    let described = Job::from_value(&value).unwrap().0;
    proposal.standing = Standing::Close;
    let text = text(&brief(&described, &proposal).unwrap());
    let option = proposal.options.first().unwrap();
    let prop = option.props.first().unwrap();
    assert_eq!(prop.kind, "tn79", "the example is propped by trade sizes");
    assert!(text.contains(&format!(", trade size {}, ", prop.size)), "{text}");
    assert!(!text.contains("tn79") && !text.contains("en1065"), "{text}");
}
