//! A chosen line in the form of the contract, with its parts.

use super::design::{Choice, Designed, Line, STAGE_KN, TUBE_KG_M, entry};
use super::span_m;
use crate::checks::feet::{BOARDS, Boards};
use crate::checks::{At, Full};
use crate::proposal::{FloorLine, Part, Prop};
use crate::takedown::{floor_imposed_kn_m2, reaction_length_m};

impl Line<'_> {
    /// Load per metre of wall that this side of the floor would bring to it, kN/m.
    fn share_kn_m(&self) -> f64 {
        let floor = self.floor;
        let both = floor.inside_span_m + floor.outside_span_m;
        let all = reaction_length_m(floor) * (floor.dead_kn_m2 + floor_imposed_kn_m2(floor));
        all * span_m(floor, self.place.side) / both.max(1e-9)
    }

    pub(super) fn write(&self, choice: Choice, below: bool) -> Option<Designed> {
        let worked = self.worked(choice)?;
        let boards = BOARDS.get(choice.boards)?;
        let mut full = Full::default();
        let feet = self.check(choice, &worked, &mut full);
        let stages = self.stages_m(worked.member.depth_mm(), choice.boards);
        let largest = worked.effects.service.largest_prop_kn();
        let header_at = At::Header(self.place.floor, self.place.side).to_string();
        let mut props = Vec::new();
        let mut parts: Vec<Part> = Vec::new();
        let mut add = |what: String, count: u32, mass_kg: f64| match parts.iter_mut().find(|part| part.what == what) {
            Some(part) => part.count += count,
            None => parts.push(Part { what, count, mass_kg }),
        };
        let count = choice.props as u32;
        add(
            format!(
                "header {} of {:.2} m, in one piece",
                worked.name, worked.on_props.length_m
            ),
            1,
            worked.member.mass_kg_m() * worked.on_props.length_m,
        );
        for (level, length) in stages.iter().enumerate() {
            let above = STAGE_KN * (stages.len() - 1 - level) as f64;
            let chosen = self.prop(*length, largest + above);
            let at_hand = chosen.as_ref().and_then(|(k, _)| self.at_hand.get(*k));
            if let Some(prop) = at_hand {
                add(format!("adjustable steel prop, {}", prop.words), count, prop.mass_kg);
            }
            for (k, service) in worked.effects.service.props_kn.iter().enumerate() {
                let at = At::Post(
                    self.place.floor,
                    self.place.side,
                    k,
                    (stages.len() > 1).then_some(level),
                );
                let (working, kappa) = chosen
                    .as_ref()
                    .map_or((0.0, 0.0), |(_, r)| (r.working_load_kn, r.kappa));
                let load_kn = service + above;
                props.push(Prop {
                    bracket: None,
                    name: at.to_string(),
                    needle: header_at.clone(),
                    side: self.place.side.word().to_owned(),
                    kind: at_hand.map_or_else(String::new, |prop| prop.kind.clone()),
                    size: at_hand.map_or_else(|| "none fits".to_owned(), |prop| prop.size.clone()),
                    length_m: *length,
                    load_kn,
                    working_load_kn: working,
                    kappa,
                    utilisation: if working > 0.0 {
                        (load_kn / working).min(99.0)
                    } else {
                        99.0
                    },
                });
            }
            if level > 0 {
                add(
                    "board 225 × 38 × 450, C24, under one prop".to_owned(),
                    count,
                    BOARDS.first().map_or(0.0, Boards::mass_kg),
                );
                add(
                    format!("spreader {} of 0.60 m under a floor that the line passes", worked.name),
                    count,
                    worked.member.mass_kg_m() * 0.6,
                );
                add("packing 150 × 100 mm, C24, tight between joists".to_owned(), count, 1.5);
            }
        }
        add(
            format!("{}, C24, under one prop", boards.words),
            count,
            boards.mass_kg(),
        );
        let (diagonal, _) = self.diagonal(&worked);
        add(
            format!("diagonal, tube 48.3 × 3.2, {diagonal:.2} m"),
            2,
            diagonal * TUBE_KG_M,
        );
        add("coupler or clamp for the real diameters".to_owned(), 4, 1.2);
        let joists = (worked.on_props.length_m / worked.joists.spacing_m).floor() as u32 + 1;
        add("screw 5 × 100, header to joist".to_owned(), 2 * joists, 0.015);
        add(
            "fixing of a head or foot (bolts or screws)".to_owned(),
            2 * count * stages.len() as u32,
            0.3,
        );
        let cause = if below {
            "This floor bears below the needles, so they do not carry it: without this line nothing holds it while the wall is cut."
        } else {
            "The needles are reckoned without this floor: this line alone carries it and must stand, tight, before a hole is cut, until the new beam carries."
        };
        let down = if stages.len() > 1 {
            format!(
                " Props stand in line on {} levels down to the ground, packed tight between the joists of each floor that they pass: {} props.",
                stages.len(),
                props.len()
            )
        } else {
            String::new()
        };
        let why = format!(
            "{cause} Header {} {:.0} mm from the wall's face, {} props at {:.0} mm.{down}",
            worked.name,
            worked.distance_mm,
            choice.props,
            worked.spacing_m * 1000.0
        );
        let mut way = vec![
            "Floor: its boards hold the joists; the header is screwed to every joist, the heads of the props to the header."
                .to_owned(),
            format!("Along the wall: two diagonals of tube 48.3 × 3.2 in the line, {diagonal:.1} m, in opposite directions."),
            "Foot: boards fixed against sliding, feet fixed to the boards.".to_owned(),
            "Joists stay on their bearing in the wall until every joist is packed tight on the header.".to_owned(),
        ];
        way.push(
            "Ceiling: taken down along the header, so that it bears on the joists themselves; every joist packed tight on it."
                .to_owned(),
        );
        if worked.over.tied() {
            way.push(format!(
                "Far end: each joist screwed (two 5 × 100) or strapped down on its far bearing, since a load on the end past the header lifts it by {:.2} kN.",
                worked.over.lift_kn - worked.over.hold_kn
            ));
        }
        let one_lost = self.lose_each(choice, &worked, &feet);
        Some(Designed {
            one_lost,
            line: FloorLine {
                header: Some(worked.name.to_owned()),
                length_m: Some(worked.on_props.length_m),
                distance_mm: Some(worked.distance_mm),
                spacing_m: Some(worked.spacing_m),
                load_kn: Some(worked.effects.service.total_kn),
                takes_kn: self.share_kn_m() * self.width_m(),
                props,
                feet,
                way,
                checks: full.checks,
                ..entry(self.place, true, &why)
            },
            parts,
        })
    }
}
