//! Where nothing is built: papers, what to ask the engineer, what to find out, keep out.

use super::{Group, OWN, OrderStep, Site, papers, step};
use crate::proposal::Standing;

/// Steps where no option is shown.
pub fn steps(site: &Site<'_>, standing: Standing) -> Vec<OrderStep> {
    let mut out = vec![keep_out(standing)];
    out.extend(papers::before_any_work(site));
    out.push(
        step(
            Group::Before,
            "ask_engineer",
            "Send the engineer the brief made from this job, with photos. Ask: what holds the wall, floors and roof, in which order, who checks it, what to look at each day, when the support may go.",
        )
        .sourced(OWN)
        .at("before any work"),
    );
    let mut codes: Vec<&str> = Vec::new();
    for reason in site.verdict.no_model.iter().chain(&site.verdict.engineer_first) {
        if !codes.contains(&reason.code.as_str()) {
            codes.push(&reason.code);
        }
    }
    for code in codes {
        out.push(
            step(Group::Before, &format!("find_out_{code}"), what(code))
                .with_photo()
                .sourced(OWN)
                .at("before any work"),
        );
    }
    out.push(
        step(
            Group::Stands,
            "rounds",
            "Props are up already? Then keep out of the zone, do the rounds and the record here every day, and show them to the engineer.",
        )
        .sourced(OWN),
    );
    out
}

fn keep_out(standing: Standing) -> OrderStep {
    let words = if standing == Standing::DoesNotHold {
        "Nothing is cut: no arrangement passes. Nothing shown as nearest is built from. Change what fails, or ask the engineer. Cracks grow or doors stick: out, keep out, ring."
    } else {
        "Nothing is cut and no prop is moved: the job needs its own design. Cracks grow, bulge or doors stick: out, keep out, ring the engineer and the building authority."
    };
    step(Group::Papers, "keep_out", words).stops("owner").sourced(OWN)
}

/// What to find out for a reason of refusal.
fn what(code: &str) -> &'static str {
    match code.strip_suffix("_unknown").unwrap_or(code) {
        "rubble" => {
            "Rubble: open the wall in one small place at each face. Note stones, filling, mortar, thickness. The engineer says whether it is grouted or needled close, through its full thickness."
        }
        "perished_mortar" => {
            "Mortar: scrape a joint with a key at five places. How deep does it fall out? Ask whether it is repointed or grouted first."
        }
        "stone" => {
            "Stone: photograph both faces and a jamb. Do stones run through the wall? Ask how it is built inside."
        }
        "gable" | "gable_lime" => {
            "Gable: look in the loft and under the floor. Are joists and roof strapped to it, how often, with what? Ask for straps or shores designed before any cut."
        }
        "condition_poor" | "condition_doubtful" => {
            "Condition: photograph damp, frost damage, loose bricks, old repairs. Ask what is repaired before anything is cut."
        }
        "cellar" => {
            "Under the feet: find cellars, drains, voids, manholes. Old plans, a lifted cover, a rod, a trial hole. Mark them with depth and distance to each prop."
        }
        "chimney" => {
            "Chimney: follow breast and stack through every storey and the loft. What carries it where it ends? Photograph each level."
        }
        "bay" => {
            "Bay: look for posts inside the window frames, the ring beam, which way joists run. Frames are structure until proved otherwise. Ask how the bay is held first."
        }
        "veneer" => {
            "Veneer: find out what stands behind the brick: timber or steel frame, ties, who carries the floors. A socket hole or the loft edge shows it."
        }
        "removed" => {
            "What is or was taken out: floors, cross walls, roof ties, chimney breasts. List each with its date and who designed it. The engineer looks at the whole house."
        }
        "digging" => {
            "Digging near: how deep, how far from wall and feet, when open, when filled? No trench stands open beside a wall on props."
        }
        "cracked" => {
            "Cracks, bulge, lean: measure width, mark ends with dates, hang a plumb line, read again every day. Find what moves and why before anything is cut."
        }
        "corner" | "pier" => {
            "Masonry beside the cut: measure to the next corner, opening or flue on each side, inside and outside. Ask whether the opening moves, narrows or gets a frame."
        }
        "existing_opening" => {
            "Opening over the cut: measure sill, head, width and what its lintel is and bears on. Ask how it is strutted or filled first."
        }
        "restraint" => {
            "What ties the wall over the opening: lift boards or ceiling. Which way do joists run, how far do they sit in, are there straps? Photograph both ends."
        }
        "foot_inside" | "foot_outside" | "feet" => {
            "Under the props: lift a board or cut a small hole. What is below, how deep, how firm? Ask how the load goes to solid ground."
        }
        "storeys" | "width" => {
            "Too large for a layman: measure every storey, floor and wall above. The engineer designs support, beam and what carries the jambs."
        }
        "point_load" => {
            "Point load: trace post, beam, purlin or trimmer up to what it carries. Give its place to the centimetre. Ask for a line of its own under it."
        }
        _ => "Read the reason in the answer, photograph the place, and put it to the engineer as a question.",
    }
}
