//! Stops, law and words.

use super::{buildable, coded, house, many_orders, one, sized};
use calc::geometry::Geometry;
use calc::order::country::Country;
use calc::order::{order, questions};
use calc::proposal::{Proposal, Standing};
use calc::standing::verdict;
use calc::{Job, example};
use serde_json::{Value, json};

const STOPS: &str = "engineer authority party_wall insurers builder duties asbestos services pavement exclusion_zone \
    permit_to_load before_night set_beam permit_to_take_out";

#[test]
fn every_stop_is_there_for_england_and_takes_a_name_and_a_time() {
    for (name, _, found) in buildable() {
        for code in STOPS.split_whitespace() {
            let steps = coded(&found.order, code);
            assert_eq!(steps.len(), 1, "{name}: {code}");
            assert!(steps[0].stop, "{name}: {code}");
        }
        assert_eq!(
            coded(&found.order, "independent_check").len(),
            usize::from(found.independent_check_needed),
            "{name}"
        );
        for step in &found.order {
            let takes = |word: &str| step.record.iter().any(|r| r == word);
            assert_eq!(
                step.stop,
                takes("yes") && takes("name") && takes("time"),
                "{}",
                step.words
            );
            assert_eq!(step.stop && step.photo, takes("photo"), "{}", step.words);
        }
        let at = |code: &str| found.order.iter().position(|step| step.code == code).unwrap();
        let codes = [
            "asbestos",
            "services",
            "set_out",
            "needle",
            "braces",
            "tighten",
            "permit_to_load",
            "padstones",
            "slot",
            "set_beam",
            "wedge_beam",
            "dry_pack",
            "permit_to_take_out",
            "slacken",
            "needles_out",
        ];
        for pair in codes.windows(2) {
            assert!(
                at(pair[0]) < at(pair[1]),
                "{name}: {} comes before {}",
                pair[0],
                pair[1]
            );
        }
    }
}

#[test]
fn the_law_of_a_country_changes_words_only() {
    let mut job = house("two_storey_cavity");
    let plain = sized(&job);
    let mut names: Vec<&str> = Country::all().iter().map(|country| country.name()).collect();
    names.extend(["France", "Northern Ireland", ""]);
    for name in names {
        job["country"] = json!(name);
        let found = sized(&job);
        let rest = |proposal: &Proposal| {
            let mut value = serde_json::to_value(proposal).unwrap();
            value["order"] = Value::Null;
            value
        };
        assert_eq!(rest(&plain), rest(&found), "{name}");
        assert_eq!(plain.order.len(), found.order.len(), "{name}");
        for (a, b) in plain.order.iter().zip(&found.order) {
            assert_eq!(
                (&a.code, &a.group, a.stop, &a.who),
                (&b.code, &b.group, b.stop, &b.who),
                "{name}"
            );
            if b.country_source.is_none() {
                assert_eq!(a.words, b.words, "{name}");
            }
        }
        let law: Vec<&str> = found
            .order
            .iter()
            .filter(|step| step.country_source.is_some())
            .map(|step| step.code.as_str())
            .collect();
        assert_eq!(
            law,
            ["authority", "party_wall", "duties", "asbestos", "services", "pavement"],
            "{name}"
        );
    }
}

#[test]
fn scotland_says_that_starting_before_the_warrant_is_an_offence() {
    // Building (Scotland) Act 2003, section 8(2): work without a warrant makes those who do it guilty of an offence.
    let mut job = house("two_storey_cavity");
    job["country"] = json!("scotland");
    let found = sized(&job);
    let step = coded(&found.order, "authority")[0];
    assert!(
        step.words.contains("offence") && step.words.contains("before the warrant"),
        "{}",
        step.words
    );
    assert!(
        step.country_source
            .unwrap()
            .document
            .contains("Building (Scotland) Act 2003")
    );
    // The 1996 Act is the law of England and Wales only.
    assert!(!one(&found.order, "party_wall").contains("two months"));
    job["country"] = json!("wales");
    assert!(one(&sized(&job).order, "party_wall").contains("Party Wall etc. Act 1996"));
    job.as_object_mut().unwrap().remove("country");
    assert!(one(&sized(&job).order, "authority").contains("Check your authority"));
}

#[test]
fn steps_are_short_numbered_and_sourced() {
    let mut job = house("two_storey_cavity");
    let long = "x".repeat(80);
    job["engineer"] = json!({"name": long, "date": "a".repeat(40), "notes": null});
    job["check"] = json!({"name": long, "date": "a".repeat(40), "category": 2});
    job["opening"]["beam"] = json!({"name": "w".repeat(40), "mass_kg_m": 123.45, "length_m": 12.345, "pieces": 3});
    job["forbidden"] = json!([
        {"from_m": 0.601, "to_m": 0.652, "why": long}, {"from_m": -0.801, "to_m": -0.752, "why": long},
        {"from_m": 3.601, "to_m": 3.652, "why": long}, {"from_m": 3.701, "to_m": 3.752, "why": long}
    ]);
    job["above"][0]["floor"]["empty"] = json!(true);
    let mut orders = many_orders();
    orders.push(sized(&job).order);
    let mut wide = house("bungalow");
    wide["opening"]["width_m"] = json!(11.5);
    wide["sides"]["inside"]["foot"]["carried_down"] = json!("props_below");
    orders.push(sized(&wide).order);
    for steps in orders {
        assert!(!steps.is_empty());
        for (i, step) in (1..).zip(&steps) {
            assert_eq!(step.step, i);
            let length = step.words.chars().count();
            assert!((20..=220).contains(&length), "{length} characters: {}", step.words);
            assert!(!step.source.document.is_empty() && !step.source.locator.is_empty());
        }
    }
    assert!(sized(&house("two_storey_cavity")).order.len() <= 46);
}

#[test]
fn nothing_says_that_a_permission_can_be_done_without() {
    for steps in many_orders() {
        for step in steps {
            let words = step.words.to_lowercase();
            for phrase in [
                "no permission",
                "permission needed",
                "no permit",
                "no warrant",
                "no notice",
                "not needed",
                "not required",
                "do not need",
                "exempt",
            ] {
                assert!(!words.contains(phrase), "{phrase}: {}", step.words);
            }
        }
    }
}

#[test]
fn curing_has_no_fixed_count_of_hours() {
    for steps in many_orders() {
        for step in steps
            .iter()
            .filter(|step| matches!(step.group.as_str(), "cutting" | "beam" | "taking_out"))
        {
            let words: Vec<&str> = step.words.split_whitespace().collect();
            for pair in words.windows(2) {
                let counts = pair[0].starts_with(|c: char| c.is_ascii_digit());
                let time = ["hour", "day", "week", "h.", "h,"]
                    .iter()
                    .any(|unit| pair[1].to_lowercase().starts_with(unit));
                assert!(!(counts && time), "{}", step.words);
            }
        }
        for step in coded(&steps, "dry_pack") {
            for word in ["product", "temperature", "engineer", "5 °C does not count"] {
                assert!(step.words.contains(word), "{word}: {}", step.words);
            }
        }
    }
}

/// A name inside a sentence is one of law, standards or parts of this job; makers have none.
#[test]
fn no_name_but_those_of_law_and_of_this_job() {
    let known = "N C24 S275 S355 CDM CFR USA Act Acts Party Wall Land Law Conveyancing Reform Construction Regulations \
        District Court Scotland England Wales Northern Ireland Germany Council Statiker Baustellenverordnung Sondernutzung July \
        C Signed Self-build Land's Länder UB UC SHS RHS Statute";
    for steps in many_orders() {
        for step in steps {
            let mut starts = true;
            for word in step.words.split_whitespace() {
                let plain = word.trim_matches(|c: char| !c.is_alphanumeric() && c != '°');
                let capital = plain.starts_with(|c: char| c.is_ascii_uppercase());
                let letters: String = plain.chars().take_while(char::is_ascii_alphabetic).collect();
                let fine = known
                    .split_whitespace()
                    .any(|k| k == plain || (k.len() <= 3 && k == letters));
                assert!(starts || !capital || fine, "{plain}: {}", step.words);
                starts = word.ends_with(['.', '?', ':', '!']) || word.ends_with(".)");
            }
        }
    }
}

#[test]
fn a_job_outside_the_method_gets_papers_and_questions_and_no_word_of_cutting() {
    for name in example::names() {
        let mut job = house(name);
        job["answers"]["cellar"] = json!("unknown");
        job["answers"]["bay"] = json!("yes");
        let found = sized(&job);
        assert_eq!(found.standing, Standing::NeedsOwnDesign);
        for step in &found.order {
            assert!(
                matches!(step.group.as_str(), "papers" | "before" | "while_it_stands"),
                "{}: {}",
                step.group,
                step.words
            );
            assert!(!step.words.contains("N1"), "{}", step.words);
        }
        assert!(coded(&found.order, "keep_out")[0].stop);
        for code in [
            "find_out_cellar_unknown",
            "find_out_bay",
            "ask_engineer",
            "authority",
            "insurers",
        ] {
            assert_eq!(coded(&found.order, code).len(), 1, "{name}: {code}");
        }
        assert!(coded(&found.order, "permit_to_load").is_empty());
    }
}

#[test]
fn what_does_not_hold_is_not_built_from() {
    let mut job = house("two_storey_cavity");
    job["catalogue"]["sections"] = json!(["C24 100x100"]);
    let found = sized(&job);
    assert_eq!(found.standing, Standing::DoesNotHold);
    assert!(found.nearest.is_some());
    assert!(
        found
            .order
            .iter()
            .all(|step| !step.words.contains("C24") && !step.words.contains("N1"))
    );
    assert!(one(&found.order, "keep_out").contains("nearest is built from"));
    // Nor when somebody hands the nearest in.
    let steps = {
        let (parsed, mut assumptions) = Job::from_value(&job).unwrap();
        let geometry = Geometry::of(&parsed, &mut assumptions);
        let scope = verdict(&parsed, &geometry, &mut assumptions);
        order(
            &parsed,
            &geometry,
            &scope,
            Standing::DoesNotHold,
            found.nearest.as_ref(),
        )
    };
    assert!(coded(&steps, "needle").is_empty());
}

#[test]
fn the_builder_is_asked_who_designs_and_who_pays() {
    let mut job = house("two_storey_cavity");
    let asked = |job: &Value| questions(&Job::from_value(job).unwrap().0);
    let codes: Vec<String> = asked(&job).into_iter().map(|question| question.code).collect();
    for code in "insured company contract payment designer supervisor night curing".split(' ') {
        assert!(codes.iter().any(|c| c == code), "{code}");
    }
    assert!(
        asked(&job)
            .iter()
            .all(|question| question.words.contains('?') && !question.why.is_empty())
    );
    job["site"]["days"] = json!(120);
    assert_eq!(asked(&job).len(), codes.len() + 1);
}
