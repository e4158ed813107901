#![expect(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a test may stop where it fails"
)]

use super::helps;
use crate::answer::size;
use crate::job::Job;
use crate::proposal::{Proposal, Standing};
use serde_json::{Value, json};

fn house(name: &str, changed: &[(&str, Value)]) -> Job {
    let mut job = crate::example::job(name).unwrap();
    for (path, value) in changed {
        let (at, key) = path.rsplit_once('/').unwrap();
        job.pointer_mut(at).unwrap()[key] = value.clone();
    }
    Job::from_value(&job).unwrap().0
}

fn answer(job: &Job) -> Proposal {
    size(job, Vec::new()).unwrap()
}

/// Two storeys with a floor that is too wide, and lime mortar.
fn heavy() -> Job {
    house(
        "two_storey_cavity",
        &[
            ("/roof/span_m", json!(14)),
            ("/above/0/floor/inside_span_m", json!(9)),
            ("/wall/leaves/1/mortar", json!("lime")),
        ],
    )
}

fn codes(job: &Job) -> Vec<Vec<String>> {
    let out = helps(job, &answer(job)).unwrap();
    assert!(out.tried > 0 && out.helps.len() <= 3);
    out.helps.into_iter().map(|help| help.codes).collect()
}

#[test]
fn what_holds_or_is_refused_gets_no_trial_beside_it() {
    for (name, standing) in [
        ("bungalow", Standing::Holds),
        ("three_storey_terrace", Standing::NeedsOwnDesign),
    ] {
        let job = house(name, &[]);
        let before = answer(&job);
        assert_eq!((before.standing, helps(&job, &before)), (standing, None), "{name}");
    }
}

#[test]
fn what_is_told_comes_out_so_when_it_is_done_by_hand() {
    let mut job = heavy();
    job.opening.width_m = 2.4;
    let before = answer(&job);
    assert_eq!(before.standing, Standing::DoesNotHold);
    let told = helps(&job, &before).unwrap().helps;
    let [help] = told.as_slice() else { panic!("{told:?}") };
    assert_eq!(
        (help.codes.as_slice(), help.paths.as_slice()),
        (
            ["floor_apart".to_owned()].as_slice(),
            ["/above/0/floor/held_apart".to_owned()].as_slice()
        )
    );
    job.above.first_mut().unwrap().floor.as_mut().unwrap().held_apart = true;
    let after = answer(&job);
    assert_eq!(after.standing, help.standing);
    let used = after.options.first().unwrap().worst_utilisation;
    assert!((used - help.worst_utilisation).abs() < 1e-12);
    assert!(help.steps.len() >= 2 && !help.source.locator.is_empty());
}

#[test]
fn two_changes_are_told_together_only_where_neither_does_it_alone() {
    let mut job = heavy();
    job.opening.width_m = 3.0;
    assert_eq!(codes(&job), [["floor_apart", "narrower"]]);
    let fails = |job: &Job| answer(job).standing == Standing::DoesNotHold;
    let narrower = |job: &Job, less: f64| {
        let mut job = job.clone();
        job.opening.width_m -= less;
        job.opening.right_masonry_m += less;
        job
    };
    let mut apart = job.clone();
    apart.above.first_mut().unwrap().floor.as_mut().unwrap().held_apart = true;
    assert!(fails(&apart) && fails(&narrower(&job, 0.6)));
    // The least that does: 0.6 m, not 0.3.
    assert!(fails(&narrower(&apart, 0.3)) && !fails(&narrower(&apart, 0.6)));
}

#[test]
fn what_only_people_can_lift_is_asked_of_people_alone() {
    let job = house("two_storey_cavity", &[]);
    let before = answer(&job);
    let out = helps(&job, &before).unwrap();
    let [help] = out.helps.as_slice() else {
        panic!("{out:?}")
    };
    assert_eq!(
        (help.codes.as_slice(), help.standing, out.tried),
        (["check".to_owned()].as_slice(), Standing::Holds, 1)
    );
    assert_eq!(
        help.away,
        before
            .reasons
            .iter()
            .map(|reason| reason.words.clone())
            .collect::<Vec<_>>()
    );
}

#[test]
fn no_change_is_told_that_does_not_better_the_answer() {
    let (mut fails, mut close) = (0, 0);
    for name in [
        "bungalow",
        "two_storey_cavity",
        "solid_wall_terrace",
        "garage_with_room_over",
        "internal_bearing_wall",
    ] {
        for (mortar, width, sections) in [
            ("cement", 2.1, Some(vec!["SHS80x80x5 S355".to_owned()])),
            ("lime", 3.0, Some(vec!["SHS80x80x5 S355".to_owned()])),
            ("lime", 3.6, None),
            ("cement", 2.4, None),
        ] {
            let mut job = house(name, &[("/opening/width_m", json!(width)), ("/roof/span_m", json!(12))]);
            for leaf in &mut job.wall.leaves {
                leaf.mortar = serde_json::from_value(json!(mortar)).unwrap();
            }
            job.catalogue.sections.clone_from(&sections);
            let before = answer(&job);
            let Some(out) = helps(&job, &before) else { continue };
            match before.standing {
                Standing::DoesNotHold => fails += 1,
                _ => close += 1,
            }
            for help in &out.helps {
                let better = match help.standing {
                    Standing::Holds => true,
                    Standing::Close => before.standing == Standing::DoesNotHold || !help.away.is_empty(),
                    _ => false,
                };
                assert!(
                    better && help.worst_utilisation <= 1.0 + 1e-9,
                    "{name} {mortar} {width}: {help:?}"
                );
            }
        }
    }
    assert!(fails > 2 && close > 2, "{fails} {close}");
}

#[test]
fn where_nothing_helps_nothing_is_told() {
    let mut job = heavy();
    job.opening.width_m = 3.6;
    for leaf in &mut job.wall.leaves {
        leaf.unit_n_mm2 = Some(1.0);
        leaf.mortar_n_mm2 = Some(0.5);
    }
    let before = answer(&job);
    assert_eq!(before.standing, Standing::DoesNotHold);
    let out = helps(&job, &before).unwrap();
    assert!(out.helps.is_empty() && out.tried > 10, "{out:?}");
}

#[test]
fn a_wall_of_one_leaf_is_told_of_no_other() {
    let mut job = crate::example::job("solid_wall_terrace").unwrap();
    job["roof"]["span_m"] = json!(12);
    job["opening"]["width_m"] = json!(3);
    job["catalogue"] = json!({"sections": ["SHS80x80x5 S355"]});
    job["roof"].as_object_mut().unwrap().remove("leaf");
    job["above"][0]["floor"].as_object_mut().unwrap().remove("leaf");
    let answer = serde_json::to_value(crate::size_value(&job).unwrap()).unwrap();
    for list in ["reasons", "assumptions"] {
        let words = answer[list].to_string();
        assert!(
            words.len() > 2
                && !words.contains("leaf on")
                && !words.contains("inner leaf")
                && !words.contains("outer leaf"),
            "{words}"
        );
    }
    assert!(
        answer["assumptions"]
            .to_string()
            .contains("taken as bearing on this wall")
    );
    assert!(
        answer["reasons"].to_string().contains("wall on the needle"),
        "{}",
        answer["reasons"]
    );
}
