//! One job: the tool's answer beside the reference.

use crate::data::{Case, answer};
use crate::{BELOW, TOTAL};
use serde_json::Value;
use std::collections::BTreeMap;

/// Uses and loads smaller than this are left out of ratios: a part in a thousand of them means nothing.
const LEAST_USE: f64 = 0.02;
const LEAST_KN: f64 = 0.5;
/// Boards as the scripts number them, mm.
const BOARDS: [[f64; 3]; 6] = [
    [450.0, 225.0, 38.0],
    [600.0, 225.0, 63.0],
    [900.0, 225.0, 75.0],
    [900.0, 250.0, 125.0],
    [900.0, 450.0, 150.0],
    [1200.0, 600.0, 200.0],
];

/// What came out of one job.
#[derive(Default)]
pub struct Compared {
    /// Tool over reference of the worst use, where both have one.
    pub worst: Option<f64>,
    /// Tool over reference of the use with one support lost.
    pub lost: Option<f64>,
    /// Tool over reference by family.
    pub families: Vec<(String, f64)>,
    /// What is less careful than the reference.
    pub wrong: Vec<String>,
    /// Whether the tool gives an option.
    pub passes: bool,
    /// What stands against it where it gives none.
    pub against: String,
}

impl Compared {
    /// Keeps a ratio; below the floor it is wrong.
    fn ratio(&mut self, case: &Case, family: &str, tool: f64, reference: f64, floor: f64) {
        let ratio = tool / reference;
        if ratio < floor {
            self.wrong.push(format!(
                "job {}: {family} {tool:.4} against {reference:.4}",
                case.number
            ));
        }
        self.families.push((family.to_owned(), ratio));
    }
}

fn list(value: &Value) -> &[Value] {
    value.as_array().map_or(&[], Vec::as_slice)
}

/// Compares the tool with the reference.
pub fn compare(case: &Case) -> Compared {
    let (tool, reference) = (answer(&case.job), &case.reference);
    let mut out = Compared::default();
    // Brackets have no second opinion here.
    let on_needles = |option: &&Value| option["kind"] == "needles";
    let mut options: Vec<&Value> = list(&tool["options"]).iter().filter(on_needles).collect();
    out.passes = !options.is_empty();
    let codes: Vec<&str> = list(&tool["reasons"])
        .iter()
        .filter_map(|r| r["code"].as_str())
        .collect();
    out.against = codes.join(", ");
    for key in ["total_service_kn", "total_strength_kn"] {
        let (a, b) = (tool["load"][key].as_f64().unwrap(), reference[key].as_f64().unwrap());
        if (a / b - 1.0).abs() > TOTAL {
            out.wrong
                .push(format!("job {}: {key} {a:.3} against {b:.3}", case.number));
        }
        out.families.push((key.to_owned(), a / b));
    }
    let fails_by = reference["worst"].as_f64().map_or(f64::INFINITY, |worst| worst);
    let geometry = list(&reference["geometry"]);
    if out.passes && (fails_by > 1.0 / BELOW || !geometry.is_empty()) {
        out.wrong.push(format!(
            "job {}: passes where the reference has {fails_by:.3} and {geometry:?}",
            case.number
        ));
    }
    if options.is_empty() && !tool["nearest"].is_null() {
        options.push(&tool["nearest"]);
    }
    let Some(best) = options.iter().min_by(|a, b| use_of(a).total_cmp(&use_of(b))) else {
        return out;
    };
    if let Some(worst) = reference["worst"].as_f64() {
        let found = use_of(best);
        out.worst = Some(found / worst);
        if found < worst * BELOW {
            out.wrong
                .push(format!("job {}: worst use {found:.4} against {worst:.4}", case.number));
        }
    }
    for option in &options {
        loads(case, option, &mut out);
        checks(case, option, &mut out);
        legs(case, option, &mut out);
    }
    out
}

fn use_of(option: &Value) -> f64 {
    option["worst_utilisation"].as_f64().unwrap()
}

fn loads(case: &Case, option: &Value, out: &mut Compared) {
    for key in ["lever_kn", "continuous_kn", "load_kn"] {
        for (needle, reference) in list(&option["needles"]).iter().zip(list(&case.reference[key])) {
            let reference = reference.as_f64().unwrap();
            if reference > LEAST_KN {
                out.ratio(case, key, needle[key].as_f64().unwrap(), reference, BELOW);
            }
        }
    }
    for prop in list(&option["props"]) {
        let side = prop["side"].as_str().unwrap();
        let at = list(&option["needles"])
            .iter()
            .position(|n| n["name"] == prop["needle"])
            .unwrap();
        let reference = case.reference[format!("prop_{side}_kn")][at].as_f64().unwrap();
        out.ratio(case, "prop_kn", prop["load_kn"].as_f64().unwrap(), reference, BELOW);
    }
    let sideways = &case.reference["sideways"];
    for (k, key) in ["demand_along_kn", "demand_across_kn"].iter().enumerate() {
        let found = option["bracing"][*key].as_f64().unwrap();
        out.ratio(case, key, found, sideways[k].as_f64().unwrap(), BELOW);
    }
}

/// Largest use of each family in an option.
fn largest(option: &Value) -> BTreeMap<String, f64> {
    let mut out = BTreeMap::new();
    for check in list(&option["checks"]) {
        let name = match check["name"].as_str().unwrap() {
            "needle_bending_service" => "needle_bending",
            name => name,
        };
        let cell: &mut f64 = out.entry(name.to_owned()).or_default();
        *cell = cell.max(check["utilisation"].as_f64().unwrap());
    }
    out
}

fn checks(case: &Case, option: &Value, out: &mut Compared) {
    let tool = largest(option);
    for (family, reference) in case.reference["use"].as_object().unwrap() {
        // What the reference finds without end is a fault of the arrangement, which `geometry` names.
        let Some(reference) = reference.as_f64().filter(|reference| *reference > LEAST_USE) else {
            continue;
        };
        out.ratio(
            case,
            family,
            tool.get(family).copied().unwrap_or_default(),
            reference,
            BELOW,
        );
    }
}

/// Place of the boards that the tool chose in the list of the scripts.
fn board(foot: &Value) -> usize {
    let mm: Vec<f64> = list(&foot["board_mm"]).iter().filter_map(Value::as_f64).collect();
    let same = |row: &[f64; 3]| row.iter().zip(&mm).all(|(a, b)| (a - b).abs() < 1e-6);
    BOARDS.iter().position(same).unwrap()
}

/// Props and feet of each side, for the boards that the tool chose; and the loss of a support.
fn legs(case: &Case, option: &Value, out: &mut Compared) {
    let mut lost = case.reference["lost_bending"].as_f64().unwrap();
    for (side, ending) in [("inside", "-in"), ("outside", "-out")] {
        let on_side = |value: &&Value, key: &str| value[key].as_str().is_some_and(|at| at.ends_with(ending));
        let feet: Vec<&Value> = list(&option["feet"])
            .iter()
            .filter(|foot| on_side(foot, "prop"))
            .collect();
        let Some(first) = feet.first() else { return };
        let row = &case.reference["sides"][side][board(first)];
        if row.is_null() {
            if out.passes {
                out.wrong
                    .push(format!("job {}: no prop stands at this length {side}", case.number));
            }
            return;
        }
        for (k, family) in ["prop", "ground", "board_bending", "board_bearing"].iter().enumerate() {
            let uses = list(&option["checks"])
                .iter()
                .filter(|check| check["name"] == *family && on_side(check, "at"))
                .filter_map(|check| check["utilisation"].as_f64());
            let found = uses.fold(0.0, f64::max);
            let reference = row[k].as_f64().unwrap();
            if reference > LEAST_USE {
                out.ratio(case, family, found, reference, BELOW);
            }
        }
        lost = lost.max(row[4].as_f64().unwrap());
    }
    let uses: Vec<Option<f64>> = list(&option["one_lost"])
        .iter()
        .map(|one| one["utilisation"].as_f64())
        .collect();
    let unstable = case.reference["lost_unstable"] == true;
    let all: Option<Vec<f64>> = uses.into_iter().collect();
    match all {
        // Nothing holds by the tool: the most careful answer there is.
        None => {}
        Some(_) if unstable => out.wrong.push(format!(
            "job {}: nothing holds when one is lost, the tool finds otherwise",
            case.number
        )),
        Some(all) => {
            let found = all.into_iter().fold(0.0, f64::max);
            if lost > LEAST_USE {
                out.lost = Some(found / lost);
                out.ratio(case, "one_lost", found, lost, crate::LOST_BELOW);
            }
        }
    }
}
