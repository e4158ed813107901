//! Nationally determined values travel with the job: another set changes what it should, and nothing takes one from
//! anywhere else.
#![expect(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a test stops at the first broken promise"
)]

use calc::clause::{Annex, evaluate};
use calc::demand::Loads;
use calc::geometry::Geometry;
use calc::scene::Scene;
use calc::source::Sourced;
use calc::takedown::take_down;
use calc::{Job, Proposal, size_value};
use serde_json::{Value, json};
use std::path::Path;

fn job_of(name: &str, annex: Option<&str>) -> Value {
    let mut job = calc::example::job(name).unwrap();
    if let Some(annex) = annex {
        job["site"]["national"] = json!(annex);
    }
    job
}

fn part(proposal: &Proposal, what: &str) -> (f64, f64) {
    let part = proposal.load.parts.iter().find(|part| part.what == what).unwrap();
    (part.dead_kn, part.imposed_kn)
}

#[test]
fn the_set_not_named_is_the_united_kingdoms_and_listed() {
    for name in calc::example::names() {
        let mut taken = size_value(&job_of(name, None)).unwrap();
        let given = size_value(&job_of(name, Some("uk"))).unwrap();
        let before = taken.assumptions.len();
        taken.assumptions.retain(|one| one.path != "/site/national");
        assert_eq!(taken.assumptions.len() + 1, before, "{name}");
        assert_eq!(taken, given, "{name}");
    }
}

/// EN 1991-1-1 Table 6.2 (category A) against UK NA Table NA.3: 2.0 against 1.5 kN/m², so that a floor without partitions
/// brings 4/3 of its imposed load; what is entered stays as entered.
#[test]
fn recommended_floors_carry_two_where_nothing_is_entered() {
    let bare = |annex| {
        let mut job = job_of("two_storey_cavity", Some(annex));
        let floor = job["above"][0]["floor"].as_object_mut().unwrap();
        floor.remove("imposed_kn_m2");
        floor.insert("empty".to_owned(), json!(false));
        floor.insert("partitions_kn_m2".to_owned(), json!(0));
        job
    };
    let (uk, en) = (
        size_value(&bare("uk")).unwrap(),
        size_value(&bare("recommended")).unwrap(),
    );
    let ratio = part(&en, "floor").1 / part(&uk, "floor").1;
    assert!((ratio - 2.0 / 1.5).abs() < 1e-9, "{ratio}");
    assert!((part(&en, "floor").0 - part(&uk, "floor").0).abs() < 1e-9);
    let listed = en
        .assumptions
        .iter()
        .find(|one| one.path == "/above/0/floor/imposed_kn_m2")
        .unwrap();
    assert_eq!(listed.value, json!(2.0));
    assert!(listed.source.contains("Table 6.2"), "{}", listed.source);
    let mut entered = bare("recommended");
    entered["above"][0]["floor"]["imposed_kn_m2"] = json!(1.5);
    let entered = size_value(&entered).unwrap();
    assert!((part(&entered, "floor").1 - part(&uk, "floor").1).abs() < 1e-9);
}

/// UK NA Table NA.7: 0.6 kN/m² falling from 30° to 0 at 60°, so 0.5 at 35°. EN 1991-1-1 Table 6.10: 0.4 at every pitch.
#[test]
fn roofs_follow_their_own_table() {
    let q = |pitch: &str, annex: &str| {
        let args = [("pitch_deg", pitch), ("annex", annex)].map(|(k, v)| (k.to_owned(), v.to_owned()));
        evaluate("q_roof", &args).unwrap().value.as_f64().unwrap()
    };
    assert!((q("35", "uk") - 0.5).abs() < 1e-12);
    for pitch in ["0", "35", "60", "75"] {
        assert!((q(pitch, "recommended") - 0.4).abs() < 1e-12, "{pitch}");
    }
    assert!(q("60", "uk").abs() < 1e-12);
    let wrong = [("pitch_deg", "35"), ("annex", "atlantis")].map(|(k, v)| (k.to_owned(), v.to_owned()));
    assert_eq!(evaluate("q_roof", &wrong).unwrap_err().arg, "annex");
}

/// Each value passed in reaches what it is for: twice γ_G doubles the permanent part of the needles' strength load, and a
/// tenth of K weakens the masonry to a tenth.
#[test]
fn a_set_passed_in_is_the_set_used() {
    let (job, mut assumptions) = Job::from_value(&job_of("two_storey_cavity", None)).unwrap();
    let geometry = Geometry::of(&job, &mut assumptions);
    let uk = Annex::Uk.parameters();
    let twice = |sourced: Sourced| Sourced {
        value: 2.0 * sourced.value,
        ..sourced
    };
    let mut other = uk;
    (other.gamma_g, other.gamma_q) = (twice(uk.gamma_g), twice(uk.gamma_q));
    for k in [
        &mut other.k_masonry.clay,
        &mut other.k_masonry.aggregate,
        &mut other.k_masonry.aerated,
    ] {
        k.value /= 10.0;
    }
    let down = take_down(&job, &geometry, &uk, &mut assumptions);
    let cut = (geometry.cut_left_m, geometry.cut_right_m);
    let axes = [cut.0 + 0.4, cut.0 + 1.3, cut.1 - 0.4];
    let needles = |national| Loads::of(&down, cut, national).needles(&axes);
    for (one, two) in needles(&uk).iter().zip(needles(&other)) {
        assert!(one.load_kn > 1.0 && (one.load_kn - two.load_kn).abs() < 1e-12);
        for (a, b) in one.leaf_strength_kn.iter().zip(two.leaf_strength_kn) {
            assert!((2.0 * a - b).abs() < 1e-9, "{a} {b}");
        }
    }
    let strengths = |national| {
        let scene = Scene::of(&job, &geometry, &down, national, &mut Vec::new()).unwrap();
        scene.leaves.iter().map(|leaf| leaf.fk_n_mm2).collect::<Vec<f64>>()
    };
    for (a, b) in strengths(&uk).into_iter().zip(strengths(&other)) {
        assert!((a / 10.0 - b).abs() < 1e-9, "{a} {b}");
    }
}

/// EN 1990 Table A1.1 (from memory): ψ1 of snow is 0.2 up to 1000 m and 0.5 above. One lost takes it; nothing else does.
#[test]
fn snow_above_a_thousand_metres_counts_half_when_one_is_lost() {
    let at = |altitude: f64| {
        let mut job = job_of("two_storey_cavity", None);
        job["site"]["altitude_m"] = json!(altitude);
        job["site"]["snow_kn_m2"] = json!(4.0);
        size_value(&job).unwrap()
    };
    let (low, high) = (at(1000.0), at(1000.5));
    assert_eq!(low.load, high.load);
    let lost = |answer: &Proposal| -> Vec<f64> {
        let shown = answer.options.first().or(answer.nearest.as_ref()).unwrap();
        shown.one_lost.iter().filter_map(|lost| lost.utilisation).collect()
    };
    let (low, high) = (lost(&low), lost(&high));
    assert!(!low.is_empty() && low.len() == high.len());
    assert!(low.iter().zip(&high).all(|(low, high)| high > low), "{low:?} {high:?}");
    let psi = |altitude: f64| Annex::Uk.parameters().at_altitude(altitude).psi1_snow.value;
    assert_eq!(
        [psi(-5.0), psi(1000.0), psi(1000.5)].map(|psi| (psi * 10.0) as i32),
        [2, 2, 5]
    );
}

#[test]
fn a_foot_cites_the_table_that_its_ground_is_in() {
    let cited = |ground: &str, entered: Value| {
        let mut job = job_of("bungalow", None);
        for side in ["inside", "outside"] {
            job["sides"][side]["foot"]["ground"] = json!(ground);
            job["sides"][side]["foot"]["bearing_kpa"] = entered.clone();
        }
        let answer = size_value(&job).unwrap();
        let shown = answer.options.first().or(answer.nearest.as_ref()).unwrap();
        let check = shown.checks.iter().find(|check| check.name == "ground").unwrap();
        check.source.document
    };
    assert_eq!(cited("gravel", Value::Null), "BS 8004:1986");
    assert!(cited("firm_clay", Value::Null).contains("Canada"));
    assert!(cited("firm_clay", json!(120)).contains("entered"));
}

#[test]
fn an_answer_names_the_set_it_took() {
    let basis = |annex| size_value(&job_of("bungalow", Some(annex))).unwrap().basis.join(" ");
    assert!(basis("uk").contains("values of the UK"));
    let en = basis("recommended");
    assert!(
        en.contains("recommended in the standards") && !en.contains("UK"),
        "{en}"
    );
}

/// Only the annex itself makes a set; everything else is handed one.
#[test]
fn nothing_takes_a_set_from_nowhere() {
    fn sources(folder: &Path, out: &mut Vec<(String, String)>) {
        for entry in std::fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                sources(&path, out);
            } else if path.extension().is_some_and(|end| end == "rs") {
                out.push((path.display().to_string(), std::fs::read_to_string(&path).unwrap()));
            }
        }
    }
    let mut found = Vec::new();
    sources(&Path::new(env!("CARGO_MANIFEST_DIR")).join("src"), &mut found);
    let allowed = |path: &str| path.contains("clause/national") || path.ends_with("clause/laws.rs");
    let mut read = 0;
    for (path, text) in found.iter().filter(|(path, _)| !allowed(path)) {
        read += 1;
        for word in ["national::uk", "uk()", "recommended()", "Annex::Uk.parameters"] {
            assert!(!text.contains(word), "{path} takes a national set by itself: {word}");
        }
    }
    assert!(read > 60, "only {read} files read");
}
