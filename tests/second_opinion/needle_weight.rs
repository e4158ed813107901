//! Weight of the needles: the tool's lightest option beside the least weight that a brute force over positions and
//! sections finds with the scripts' own checks (`needle_weight.py`).

use crate::data::{self, Case, answer};

/// Fewest jobs.
const JOBS: usize = 40;
/// How much heavier than the best of the brute force the tool's lightest option may be.
const HEAVIER: f64 = 1.3;

/// Mass of all needles of the lightest option, kg.
fn lightest_kg(case: &Case) -> Option<f64> {
    let found = answer(&case.job);
    let options = found["options"].as_array().unwrap();
    let masses = options
        .iter()
        .filter(|option| option["aim"] == "lightest")
        .map(|option| {
            let needles = option["needles"].as_array().unwrap().len() as f64;
            let parts = option["parts"].as_array().unwrap();
            let one = parts
                .iter()
                .find(|part| part["what"].as_str().is_some_and(|what| what.starts_with("needle ")));
            needles * one.unwrap()["mass_kg"].as_f64().unwrap()
        });
    masses.reduce(f64::min)
}

#[test]
fn the_lightest_option_is_not_much_heavier_than_the_best() {
    let cases = data::pairs("needle_weight_jobs.jsonl", "needle_weight_reference.jsonl");
    let found = data::on_all_cores(&cases, lightest_kg);
    let mut ratios = Vec::new();
    let mut wrong = Vec::new();
    for (case, found) in cases.iter().zip(found) {
        let comfortable = case.reference["least_090_kg"].as_f64();
        let least = comfortable.or(case.reference["least_100_kg"].as_f64()).unwrap();
        match found {
            Some(kg) => {
                ratios.push(kg / least);
                if kg > HEAVIER * least {
                    wrong.push(format!("job {}: {kg:.1} kg against {least:.1} kg", case.number));
                }
            }
            None => wrong.push(format!("job {}: no option against {least:.1} kg", case.number)),
        }
    }
    println!(
        "{} jobs, needles of the lightest option / best of the brute force: {}",
        cases.len(),
        crate::spread_words(&mut ratios)
    );
    for line in &wrong {
        println!("  {line}");
    }
    assert!(cases.len() >= JOBS, "{} jobs", cases.len());
    assert!(
        wrong.is_empty(),
        "{} jobs heavier than {HEAVIER} × the best",
        wrong.len()
    );
}
