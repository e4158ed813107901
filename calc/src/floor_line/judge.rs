//! The checks of a line: joists, header, place, sideways, props and feet.

use super::design::{Choice, Line, STAGE_KN, TUBE_MM, Worked};
use super::member::{Asked, HEADER, check as check_member, timber_design};
use super::{JOIST_MM, SCREW_KN};
use crate::checks::feet::{self, BOARDS, Boards};
use crate::checks::prop::stand;
use crate::checks::sideways::LEAST_SHARE;
use crate::checks::{At, Finding, Sink};
use crate::clause::en1995::bearing::{self as across, AcrossGrain, f_c90_rd};
use crate::clause::sideways::{SOURCE as H_MIN, brace as one_brace};
use crate::proposal::Foot;
use crate::source::{Seen, Source};
use crate::tables::timber::grade;

/// Room behind the line, mm; as for the needles' props.
const BEHIND_MM: f64 = 150.0;
/// Packing between the joists under a board of an upper stage, mm. Own judgement.
const PACKING_MM: [f64; 2] = [150.0, 100.0];

const ROOM: Source = Source::new(
    "working room beside the wall",
    "header's axis + 150 mm within it",
    Seen::Own,
);
const FIT: Source = Source::new(
    "boards of both lines of props",
    "side by side without overlap",
    Seen::Own,
);
const SCREWS: Source = Source::new(
    "header screwed to each joist",
    "two screws 5 × 100 a joist at 0.4 kN",
    Seen::Memory,
);

impl Line<'_> {
    /// All checks of a choice; the feet come back.
    pub(super) fn check(&self, choice: Choice, worked: &Worked, sink: &mut impl Sink) -> Vec<Foot> {
        let Some(boards) = BOARDS.get(choice.boards) else {
            return Vec::new();
        };
        self.timbers(worked, sink);
        self.geometry(boards, worked, sink);
        self.shared_ground(boards, worked, sink);
        self.sideways(worked, sink);
        let stages = self.stages_m(worked.member.depth_mm(), choice.boards);
        let extra = STAGE_KN * (stages.len() - 1) as f64;
        let mut feet = Vec::with_capacity(choice.props);
        let all = worked
            .effects
            .service
            .props_kn
            .iter()
            .zip(&worked.effects.strength.props_kn);
        let largest = worked.effects.service.largest_prop_kn();
        for (k, (service, strength)) in all.enumerate() {
            for (level, length) in stages.iter().enumerate() {
                let at = At::Post(
                    self.place.floor,
                    self.place.side,
                    k,
                    (stages.len() > 1).then_some(level),
                );
                let above = STAGE_KN * (stages.len() - 1 - level) as f64;
                let chosen = self.prop(*length, largest + above);
                stand(
                    at,
                    chosen.as_ref().map(|(_, rating)| rating),
                    *length,
                    service + above,
                    sink,
                );
                if level > 0 {
                    self.packing(at, strength + self.scene.national.gamma_g.value * above, sink);
                }
            }
            let at = At::Post(self.place.floor, self.place.side, k, (stages.len() > 1).then_some(0));
            feet.push(
                feet::check(
                    boards,
                    self.under,
                    at,
                    service + extra,
                    strength + self.scene.national.gamma_g.value * extra,
                    self.scene.timber(),
                    sink,
                )
                .foot(at, boards),
            );
        }
        feet
    }

    /// Joists and header.
    pub(super) fn timbers(&self, worked: &Worked, sink: &mut impl Sink) {
        let at = At::Header(self.place.floor, self.place.side);
        let days = self.scene.job.site.days;
        let strength_joist = worked.joists.strength_kn(&worked.over);
        worked.joists.check(&worked.over, &self.place, sink);
        self.on_header(worked, strength_joist, sink);
        check_member(
            at,
            &HEADER,
            &Asked {
                member: &worked.member,
                ply_mm: worked.ply_mm,
                effects: &worked.effects,
                span_m: worked.spacing_m,
                load_kn: strength_joist,
                contact_mm: JOIST_MM,
                days,
                service_class: self.service_class(),
                national: self.scene.national,
            },
            sink,
        );
    }

    /// The joist pressed by the header across its grain.
    fn on_header(&self, worked: &Worked, load_kn: f64, sink: &mut impl Sink) {
        let timber = &worked.joists.timber;
        let contact = worked.member.width_mm();
        let can = f_c90_rd(&AcrossGrain {
            length_mm: contact,
            width_mm: timber.b_mm,
            beyond_mm: [30.0, 30.0],
            fc90d_n_mm2: timber.design.fc90d_n_mm2,
            k_c90: 1.0,
        });
        let finding = Finding {
            name: "joist_bearing",
            at: At::Header(self.place.floor, self.place.side),
            demand: load_kn,
            resistance: can.f_rd_kn,
            unit: "kN",
            source: across::SOURCE,
        };
        sink.put(finding, &|| {
            let mut steps = vec![format!(
                "one joist brings {:.2} kN dead and {:.2} kN imposed; {load_kn:.2} kN at strength over {contact:.0} mm of header",
                worked.over.g_kn, worked.over.q_kn
            )];
            steps.extend(timber.design.steps());
            steps.extend(can.steps());
            steps
        });
    }

    /// Packing between the joists under the board of an upper stage.
    fn packing(&self, at: At, load_kn: f64, sink: &mut impl Sink) {
        let Some(c24) = grade("C24") else { return };
        let design = timber_design(c24, self.scene.job.site.days, 2, self.scene.national);
        let [length, breadth] = PACKING_MM;
        let can = f_c90_rd(&AcrossGrain {
            length_mm: length,
            width_mm: breadth,
            beyond_mm: [0.0, 0.0],
            fc90d_n_mm2: design.fc90d_n_mm2,
            k_c90: 1.0,
        });
        let finding = Finding {
            name: "packing_bearing",
            at,
            demand: load_kn,
            resistance: can.f_rd_kn,
            unit: "kN",
            source: across::SOURCE,
        };
        sink.put(finding, &|| {
            let mut steps = vec![format!(
                "packing {length:.0} × {breadth:.0} mm C24 tight between the joists, from the board above to the spreader below"
            )];
            steps.extend(design.steps());
            steps.extend(can.steps());
            steps
        });
    }

    fn geometry(&self, boards: &Boards, worked: &Worked, sink: &mut impl Sink) {
        let at = At::Header(self.place.floor, self.place.side);
        let needles = self.beside.distance_mm.get(self.index()).copied().unwrap_or(450.0);
        let asked = (worked.distance_mm + BEHIND_MM) / 1000.0;
        let room = Finding {
            name: "working_room",
            at,
            demand: asked,
            resistance: self.side.room_m,
            unit: "m",
            source: ROOM,
        };
        sink.put(room, &|| {
            vec![format!(
                "header {:.0} mm from the wall's face, behind the needles' props at {needles:.0} mm; 150 mm behind it, room {:.2} m",
                worked.distance_mm, self.side.room_m
            )]
        });
        let apart = Finding {
            name: "board_fit",
            at,
            demand: self.apart_mm(self.index(), boards, worked.spacing_m) / 1000.0,
            resistance: (worked.distance_mm - needles) / 1000.0,
            unit: "m",
            source: FIT,
        };
        sink.put(apart, &|| {
            vec![format!(
                "{} under the header's props and the boards of the needles' props side by side",
                boards.words
            )]
        });
        let [length, breadth, _] = boards.size_mm();
        let row = Finding {
            name: "board_fit",
            at,
            demand: length.min(breadth) / 1000.0,
            resistance: worked.spacing_m,
            unit: "m",
            source: FIT,
        };
        sink.put(row, &|| {
            vec![format!(
                "boards {length:.0} × {breadth:.0} mm, props {:.0} mm apart",
                worked.spacing_m * 1000.0
            )]
        });
    }

    /// Where a slab spreads the load on, the ground under a prop of the needles and one of the line side by side: both
    /// loads over the area that both spread to. [own model]
    fn shared_ground(&self, boards: &Boards, worked: &Worked, sink: &mut impl Sink) {
        let Some(slab) = self.under.slab_mm else { return };
        let theirs = self.beside.boards.get(self.index()).and_then(|b| BOARDS.get(*b));
        let (Some(theirs), Some(needle_kn), Some(needle_mm)) = (
            theirs,
            self.beside.load_kn.get(self.index()),
            self.beside.distance_mm.get(self.index()),
        ) else {
            return;
        };
        let patches = [theirs.spread_mm(), boards.spread_mm()];
        // Both as they lie along the wall; the shorter length counts.
        let along = patches.iter().map(|patch| patch[0]).fold(f64::INFINITY, f64::min) + 2.0 * slab;
        let breadth: f64 = patches.iter().map(|patch| patch[1] / 2.0).sum();
        let apart = worked.distance_mm - needle_mm;
        if apart >= breadth + 2.0 * slab {
            return;
        }
        let across = apart + breadth + 2.0 * slab;
        let extra = STAGE_KN * self.passes.len() as f64;
        let load = needle_kn + worked.effects.service.largest_prop_kn() + extra;
        let finding = Finding {
            name: "ground",
            at: At::Header(self.place.floor, self.place.side),
            demand: load / (along * across) * 1e6,
            resistance: self.under.allowed_kpa,
            unit: "kPa",
            source: self.under.source,
        };
        sink.put(finding, &|| {
            vec![
                format!("a prop of the needles and one of this line side by side, {apart:.0} mm apart: {load:.2} kN"),
                format!(
                    "{along:.0} × {across:.0} mm under {slab:.0} mm of slab; allowed {:.0} kPa",
                    self.under.allowed_kpa
                ),
            ]
        });
    }

    /// Rise, length and resistance along the wall of one diagonal of the line.
    pub(super) fn diagonal(&self, worked: &Worked) -> (f64, f64) {
        let boards = BOARDS.first().map_or(0.0, Boards::thickness_mm) / 1000.0;
        let bearing = self
            .scene
            .geometry
            .floors_m
            .get(self.place.floor)
            .copied()
            .unwrap_or_default();
        let under = self.passes.last().map_or(bearing, |(_, underside)| *underside);
        let rise = (under - worked.member.depth_mm() / 1000.0 - self.side.foot_level_m - boards - 0.3).max(0.2);
        let length = rise.hypot(worked.spacing_m);
        let can = one_brace(length * 1000.0, TUBE_MM, rise.atan2(worked.spacing_m).to_degrees(), 1.0).h_kn;
        (length, can)
    }

    fn sideways(&self, worked: &Worked, sink: &mut impl Sink) {
        let at = At::Header(self.place.floor, self.place.side);
        let v = worked.effects.service.total_kn;
        let demand = LEAST_SHARE * v;
        let (length, can) = self.diagonal(worked);
        let along = Finding {
            name: "line_sideways_along",
            at,
            demand,
            resistance: can,
            unit: "kN",
            source: H_MIN,
        };
        sink.put(along, &|| {
            vec![
                format!("2.5 % of {v:.1} kN on the line"),
                format!("two diagonals of {length:.2} m in opposite directions, one pushes: {can:.2} kN"),
            ]
        });
        let joists = (worked.on_props.length_m / worked.joists.spacing_m).floor();
        let can = joists * 2.0 * SCREW_KN;
        let across = Finding {
            name: "line_sideways_across",
            at,
            demand,
            resistance: can,
            unit: "kN",
            source: SCREWS,
        };
        sink.put(across, &|| {
            vec![
                format!("2.5 % of {v:.1} kN on the line"),
                format!(
                    "the floor's boards hold the joists; header screwed to {joists:.0} joists, two screws each at {SCREW_KN} kN: {can:.2} kN"
                ),
            ]
        });
    }
}
