//! Problems that show only when two keys are seen together.

use super::choices::PropChoice;
use super::schema::trim;
use super::types::{ExistingOpening, Job, UpperOpening};
use crate::problem::Problem;

/// All problems between keys.
pub fn problems(job: &Job) -> Vec<Problem> {
    let mut out = Vec::new();
    if job.wall.leaves.is_empty() {
        out.push(Problem::new(
            "/wall/leaves",
            "no leaf",
            "one or two leaves, from outside in",
        ));
    }
    let extent = (
        -job.opening.left_masonry_m,
        job.opening.width_m + job.opening.right_masonry_m,
    );
    let mut level = None;
    for (i, storey) in job.above.iter().enumerate() {
        let path = format!("/above/{i}");
        if storey
            .leaves
            .as_ref()
            .is_some_and(|leaves| leaves.len() != job.wall.leaves.len())
        {
            out.push(Problem::new(
                format!("{path}/leaves"),
                "another number of leaves than the wall below",
                format!("{} leaves, or null for the same as below", job.wall.leaves.len()),
            ));
        }
        for (j, opening) in storey.openings.iter().enumerate() {
            upper(
                &mut out,
                &format!("{path}/openings/{j}"),
                opening,
                storey.height_m,
                extent,
            );
            for (k, other) in storey.openings.iter().enumerate().skip(j + 1) {
                if opening.x_m < other.x_m + other.width_m && other.x_m < opening.x_m + opening.width_m {
                    out.push(Problem::new(
                        format!("{path}/openings/{k}/x_m"),
                        "overlaps another opening of this storey",
                        "openings side by side with masonry between them",
                    ));
                }
            }
        }
        if let (Some(floor), Some(below)) = (&storey.floor, level) {
            let bearing = floor.bearing_m.unwrap_or(below);
            if (bearing - below).abs() > 0.6 {
                out.push(Problem::new(
                    format!("{path}/floor/bearing_m"),
                    format!("{} m does not follow from the storeys below", trim(bearing)),
                    format!("about {} m, the bearing below plus the storey's height", trim(below)),
                ));
            }
        }
        let bearing = storey.floor.as_ref().and_then(|floor| floor.bearing_m).or(level);
        level = bearing.map(|bearing| bearing + storey.height_m);
    }
    for (j, opening) in job.wall.openings.iter().enumerate() {
        for (k, other) in job.wall.openings.iter().enumerate().skip(j + 1) {
            if overlap(opening, other) {
                out.push(Problem::new(
                    format!("/wall/openings/{k}/x_m"),
                    "overlaps another opening of this storey",
                    "openings side by side with masonry between them",
                ));
            }
        }
    }
    if let (Some(roof), Some(top)) = (job.roof.bearing_m, level)
        && (roof - top).abs() > 0.6
    {
        out.push(Problem::new(
            "/roof/bearing_m",
            format!("{} m does not follow from the storeys below", trim(roof)),
            format!("about {} m, the last bearing plus its storey's height", trim(top)),
        ));
    }
    for (j, existing) in job.wall.openings.iter().enumerate() {
        if existing.stays && existing.x_m < job.opening.width_m && existing.x_m + existing.width_m > 0.0 {
            out.push(Problem::new(
                format!("/wall/openings/{j}/stays"),
                "an opening that stays cannot reach into the new one",
                "false where the new opening swallows it, or its true place",
            ));
        }
    }
    for (i, point) in job.points.iter().enumerate() {
        if point.x_m < extent.0 - 1e-9 || point.x_m > extent.1 + 1e-9 {
            out.push(Problem::new(
                format!("/points/{i}/x_m"),
                "outside the described wall",
                format!("from {} to {} m", trim(extent.0), trim(extent.1)),
            ));
        }
        if point.level as usize > job.above.len() {
            out.push(Problem::new(
                format!("/points/{i}/level"),
                format!("level {} is above the roof's bearing", point.level),
                format!("from 0 to {}", job.above.len()),
            ));
        }
    }
    for (i, forbidden) in job.forbidden.iter().enumerate() {
        if forbidden.to_m < forbidden.from_m {
            out.push(Problem::new(
                format!("/forbidden/{i}/to_m"),
                "left of from_m",
                "to_m at or right of from_m",
            ));
        }
    }
    let given = |choice: &Option<PropChoice>| match choice {
        Some(PropChoice::Given(input)) => Some(input.as_ref().clone()),
        _ => None,
    };
    let fixed = job.fix.as_ref().and_then(|fix| given(&fix.prop));
    let planned = job.builders_plan.as_ref().and_then(|plan| given(&plan.prop));
    let listed = job
        .props
        .iter()
        .enumerate()
        .map(|(i, prop)| (format!("/props/{i}"), prop));
    let others = fixed
        .iter()
        .map(|prop| ("/fix/prop".to_owned(), prop))
        .chain(planned.iter().map(|prop| ("/builders_plan/prop".to_owned(), prop)));
    for (path, prop) in listed.chain(others) {
        let lacks = match prop.data.as_str() {
            "tn79" if prop.size.is_none() => Some(("size", "a trade size from 0 to 4")),
            "en1065" if prop.class.is_none() => Some(("class", "a class such as B35")),
            "sheet" if prop.table.as_ref().is_none_or(Vec::is_empty) => {
                Some(("table", "at least one row [length_m, load_kn] of the maker's sheet"))
            }
            "sheet" if prop.load.is_none() => Some(("load", "safe_working or characteristic")),
            _ => None,
        };
        if let Some((key, right)) = lacks {
            out.push(Problem::new(format!("{path}/{key}"), "missing", right));
        }
    }
    out
}

fn upper(out: &mut Vec<Problem>, path: &str, opening: &UpperOpening, height_m: f64, extent: (f64, f64)) {
    if opening.x_m + opening.width_m < extent.0 - 1e-9 || opening.x_m > extent.1 + 1e-9 {
        out.push(Problem::new(
            format!("{path}/x_m"),
            "outside the described wall",
            format!("from {} to {} m", trim(extent.0), trim(extent.1 - opening.width_m)),
        ));
    }
    if opening.sill_m + opening.height_m > height_m + 1e-9 {
        out.push(Problem::new(
            format!("{path}/height_m"),
            format!(
                "reaches {} m, above this storey",
                trim(opening.sill_m + opening.height_m)
            ),
            format!("sill and height together at most {} m", trim(height_m)),
        ));
    }
}

fn overlap(a: &ExistingOpening, b: &ExistingOpening) -> bool {
    let beside = a.x_m + a.width_m <= b.x_m || b.x_m + b.width_m <= a.x_m;
    let over = a.sill_m + a.height_m <= b.sill_m || b.sill_m + b.height_m <= a.sill_m;
    !(beside || over)
}
