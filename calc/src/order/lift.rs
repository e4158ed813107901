//! The new beam: what it weighs, who lifts it, the way in, wedging, the gap over it, curing.

use super::say::{m, short};
use super::{Group, OWN, OrderStep, PRACTICE, Site, step};
use crate::clause::bs::handling::{FILTER_KG, SOURCE as FILTER, people_to_lift};
use crate::job::NewBeam;
use crate::proposal::Opt;
use crate::source::{Seen, Source};
use crate::tables::members::parse_member;

/// Half of the largest tube of a prop, 76.1 mm, rounded up, mm. Own allowance.
const HALF_TUBE_MM: f64 = 40.0;
const CURING: Source = Source::new(
    "advice on when props may go",
    "from a day to several days, differing by writer: so by product, temperature and engineer",
    Seen::Secondary("a comparison of published advice"),
);

/// The beam is on site before anything is cut.
pub fn on_site(site: &Site<'_>) -> OrderStep {
    step(Group::Before, "beam_on_site", weight(site.job.opening.beam.as_ref())).sourced(FILTER)
}

/// Mass of a beam per metre, kg/m: as entered, else by the name of its section.
fn mass_kg_m(beam: &NewBeam) -> Option<f64> {
    beam.mass_kg_m.or_else(|| {
        let name = beam.name.as_deref()?;
        parse_member(name).ok().map(|named| named.member.mass_kg_m())
    })
}

fn weight(beam: Option<&NewBeam>) -> String {
    let [filter, _] = FILTER_KG;
    let four = 2.0 * filter;
    let known = beam.and_then(|beam| Some((beam, mass_kg_m(beam)?, beam.length_m?)));
    let Some((beam, per_m, length)) = known else {
        return format!(
            "Beam, padstones, lifting gear on site first. Ask: section, kg per m, length, number of pieces. kg per m × m = kg. Over {four:.0} kg is more than the guideline filter lets four lift: use a lift."
        );
    };
    let mass = per_m * length;
    let name = beam
        .name
        .as_deref()
        .map_or_else(String::new, |name| format!(" {}", short(name, 24)));
    let pieces = if beam.pieces > 1 {
        format!(", {} pieces, each", beam.pieces)
    } else {
        ":".to_owned()
    };
    let people = people_to_lift(mass, filter).people;
    let who = match people {
        0 => format!(
            "By four {:.0} kg each; the guideline filter lets four lift {four:.0} kg at the waist: a lift, not shoulders",
            (mass / 4.0 - 1e-9).ceil()
        ),
        1 => format!("One can lift it by the guideline filter ({filter:.0} kg at the waist), two guide it"),
        n => format!("{n} to lift by the guideline filter ({filter:.0} kg for one at the waist)"),
    };
    format!(
        "Beam, padstones, lift on site first. Beam{name}{pieces} {per_m:.1} kg/m × {} m = {:.0} kg. {who}.",
        m(length),
        (mass - 1e-9).ceil()
    )
}

/// Steps from lifting the beam to its cured packing.
pub fn steps(site: &Site<'_>, option: &Opt) -> Vec<OrderStep> {
    let mut out = vec![path(site, option)];
    out.extend(after_lifting(site, "needles"));
    out
}

/// From the lift to the cured packing, under what carries the wall.
pub fn after_lifting(site: &Site<'_>, carried_by: &str) -> Vec<OrderStep> {
    vec![set(site, carried_by), wedge(carried_by), cure()]
}

fn path(site: &Site<'_>, option: &Opt) -> OrderStep {
    // The beam comes in from the side with more room: the place of the props was chosen for that.
    let inside = site.job.sides.inside.room_m >= site.job.sides.outside.room_m;
    let (side, axis_mm) = option.needles.first().map_or(("inside", 0.0), |needle| {
        if inside {
            ("inside", needle.inside_y_mm - site.geometry.thickness_mm)
        } else {
            ("outside", -needle.outside_y_mm)
        }
    });
    let named = site.job.opening.beam.as_ref().and_then(|beam| beam.name.as_deref());
    let width = named.and_then(|name| parse_member(name).ok()).map_or_else(
        || "its width to be measured first".to_owned(),
        |beam| format!("{:.0} mm wide", beam.member.width_mm()),
    );
    step(
        Group::Beam,
        "path",
        format!(
            "Way in from {side}, lengthways between wall and props: {:.0} mm clear. The beam is {:.0} mm deep, {width}. It touches no prop and no brace. One person does nothing but watch the props.",
            (axis_mm - HALF_TUBE_MM).max(0.0),
            site.job.opening.beam_depth_mm
        ),
    )
    .sourced(OWN)
}

fn set(site: &Site<'_>, carried_by: &str) -> OrderStep {
    let top = site.geometry.beam_top_m;
    let gap_mm = (site.geometry.soffit_m - top) * 1000.0;
    step(
        Group::Beam,
        "set_beam",
        format!(
            "Lift in short steps, blocked under at each, to underside {} m; {gap_mm:.0} mm stay free under the {carried_by}. Padstones cured? Full bearing both ends, tied against rolling, never left on the lift.",
            m(top - site.job.opening.beam_depth_mm / 1000.0)
        ),
    )
    .with_photo()
    .stops("whoever runs the lift")
}

fn wedge(carried_by: &str) -> OrderStep {
    step(
        Group::Beam,
        "wedge_beam",
        format!(
            "The beam sags when load comes. Wedge it up against the wall between the {carried_by} in steps: steel or slate, middle first, ends next, again and again. Props stay tight: watch that none goes slack."
        ),
    )
    .sourced(PRACTICE)
}

fn cure() -> OrderStep {
    step(
        Group::Beam,
        "dry_pack",
        "Rebuild the loose parts, ram the gap over the beam full of stiff dry-pack. Note product, time, temperature. It cures as product and engineer say, the longer counts. Time below 5 °C does not count.",
    )
    .with_photo()
    .sourced(CURING)
}
