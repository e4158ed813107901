//! Sole boards and the ground under a prop.

use super::{At, Finding, Sink};
use crate::clause::en1995::design::{DesignValues, TimberUse};
use crate::clause::ground::{Layer, PLATE_MM, board_strip, spread};
use crate::job::{FootInput, FootKind};
use crate::proposal::Foot;
use crate::source::{Seen, Source};
use crate::tables::ground::{self, presumed_kpa};
use crate::tables::timber::grade;

/// k_c,90 of softwood on continuous support. EN 1995-1-1:2004+A1 6.1.5(3), from memory.
const KC90: f64 = 1.25;

const BOARD: Source = Source::new(
    "EN 1995-1-1:2004",
    "6.1.6, board as cantilever strip from the plate",
    Seen::Memory,
);
const FIT: Source = Source::new(
    "boards of neighbouring props",
    "side by side without overlap",
    Seen::Own,
);
const ACROSS: Source = Source::new(
    "EN 1995-1-1:2004+A1",
    "6.1.5, compression across the grain",
    Seen::Memory,
);

/// A make-up of boards under a prop.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Boards {
    /// Plain words for the parts list.
    pub words: &'static str,
    /// Layers from the top: length along its grain, breadth across, thickness, mm.
    layers: [Option<[f64; 3]>; 2],
    /// Timber pieces under one prop.
    pub pieces: u32,
}

/// Make-ups tried, the least first. C24. Common practice, no source.
pub const BOARDS: &[Boards] = &[
    Boards {
        words: "board 225 × 38 × 450",
        layers: [Some([450.0, 225.0, 38.0]), None],
        pieces: 1,
    },
    Boards {
        words: "board 225 × 63 × 600",
        layers: [Some([600.0, 225.0, 63.0]), None],
        pieces: 1,
    },
    Boards {
        words: "board 225 × 75 × 900",
        layers: [Some([900.0, 225.0, 75.0]), None],
        pieces: 1,
    },
    Boards {
        words: "sleeper 250 × 125 × 900",
        layers: [Some([900.0, 250.0, 125.0]), None],
        pieces: 1,
    },
    Boards {
        words: "crossed boards 225 × 75: 2 × 450 on 2 × 900",
        layers: [Some([450.0, 450.0, 75.0]), Some([900.0, 450.0, 75.0])],
        pieces: 4,
    },
    Boards {
        words: "crossed boards 200 × 100: 3 × 600 on 3 × 1200",
        layers: [Some([600.0, 600.0, 100.0]), Some([1200.0, 600.0, 100.0])],
        pieces: 6,
    },
];

impl Boards {
    /// One layer as somebody gives it, length, breadth, thickness in mm; a make-up of [`BOARDS`] where it has that one's
    /// sizes; no boards at all where nothing has a size, and then the prop's own plate stands on the ground.
    #[must_use]
    pub fn given(board_mm: [f64; 3]) -> Self {
        let same = |boards: &&Self| {
            boards
                .size_mm()
                .iter()
                .zip(board_mm)
                .all(|(one, given)| (one - given).abs() < 0.5)
        };
        if let Some(known) = BOARDS.iter().find(same) {
            return *known;
        }
        if board_mm.iter().any(|side| *side <= 0.0) {
            return Self {
                words: "no boards: the prop's plate on the ground",
                layers: [None, None],
                pieces: 0,
            };
        }
        Self {
            words: "the given board",
            layers: [Some(board_mm), None],
            pieces: 1,
        }
    }

    /// Total thickness, mm.
    #[must_use]
    pub fn thickness_mm(&self) -> f64 {
        self.layers.iter().flatten().map(|layer| layer[2]).sum()
    }

    /// Length, breadth and total thickness, mm.
    #[must_use]
    pub fn size_mm(&self) -> [f64; 3] {
        let bottom = self.layers.iter().flatten().last().copied().unwrap_or_default();
        [bottom[0], bottom[1], self.thickness_mm()]
    }

    /// Mass of all boards under one prop, kg.
    #[must_use]
    pub fn mass_kg(&self) -> f64 {
        let volume: f64 = self.layers.iter().flatten().map(|[l, b, t]| l * b * t * 1e-9).sum();
        volume * grade("C24").map_or(420.0, |c24| c24.rho_mean_kg_m3)
    }

    /// The layers from the top down, x along the lowest one's grain. In crossed layers the upper one's grain runs across
    /// the lower one's, and none spreads across its own grain.
    fn spreading(&self) -> [Layer; 2] {
        match self.layers {
            [Some([length, breadth, t]), None] => [Layer::board(length, breadth, t), Layer::NONE],
            [Some([upper, upper_breadth, upper_t]), Some([length, breadth, t])] => [
                Layer::crossed(upper_breadth, upper, upper_t, false),
                Layer::crossed(length, breadth, t, true),
            ],
            [None, _] => [Layer::NONE; 2],
        }
    }

    /// Footprint the load has spread to under the boards, mm: `[along the lower grain, across]`.
    #[must_use]
    pub fn spread_mm(&self) -> [f64; 2] {
        let found = spread(1.0, PLATE_MM, &self.spreading());
        [found.x_mm, found.y_mm]
    }
}

/// Whether boards can lie in the row: along the wall within the spacing, or across it between wall and working room.
pub fn fit(boards: &Boards, at: At, spacing_mm: f64, distance_mm: f64, sink: &mut impl Sink) {
    let [length, breadth, _] = boards.size_mm();
    let along = (length / spacing_mm).max(breadth / 2.0 / distance_mm);
    let across = (length / 2.0 / distance_mm).max(breadth / spacing_mm);
    let finding = Finding {
        name: "board_fit",
        at,
        demand: along.min(across),
        resistance: 1.0,
        unit: "–",
        source: FIT,
    };
    sink.put(finding, &|| {
        vec![format!("boards {length:.0} × {breadth:.0} mm, props {spacing_mm:.0} mm apart and {distance_mm:.0} mm from the wall's face: the boards must not overlap nor lie under the wall")]
    });
}

/// What lies under a foot, as figures.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Under {
    /// Thickness of a slab that spreads the load on, mm.
    pub slab_mm: Option<f64>,
    /// Allowed pressure on the ground, kPa.
    pub allowed_kpa: f64,
    /// Where that comes from.
    pub source: Source,
}

impl Under {
    /// Reads the described foot. Unknown ground counts as soft clay; paving counts as ground.
    #[must_use]
    pub fn of(foot: &FootInput) -> Self {
        let presumed = presumed_kpa(foot.ground.name()).map_or(40.0, |value| value.value);
        let slab = (foot.kind == FootKind::SlabOnGround && foot.thickness_mm > 0.0).then_some(foot.thickness_mm);
        Self {
            slab_mm: slab,
            allowed_kpa: foot.bearing_kpa.unwrap_or(presumed),
            source: if foot.bearing_kpa.is_some() {
                ground::ENTERED
            } else {
                ground::source_of(foot.ground.name())
            },
        }
    }
}

/// Pressures under a foot, kPa.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pressed {
    under_board_kpa: f64,
    under_slab_kpa: Option<f64>,
    allowed_kpa: f64,
}

impl Pressed {
    /// In the form of the contract.
    #[must_use]
    pub fn foot(&self, at: At, boards: &Boards) -> Foot {
        Foot {
            prop: at.to_string(),
            board_mm: boards.size_mm(),
            under_board_kpa: self.under_board_kpa,
            under_slab_kpa: self.under_slab_kpa,
            allowed_kpa: self.allowed_kpa,
            utilisation: self.under_slab_kpa.unwrap_or(self.under_board_kpa) / self.allowed_kpa,
        }
    }
}

/// Checks one foot and says its pressures.
pub fn check(
    boards: &Boards,
    under: Under,
    at: At,
    service_kn: f64,
    strength_kn: f64,
    timber: TimberUse,
    sink: &mut impl Sink,
) -> Pressed {
    let [upper, lower] = boards.spreading();
    let below = spread(service_kn, PLATE_MM, &[upper, lower]);
    let (along, across, on_board) = (below.x_mm, below.y_mm, below.pressure_kpa);
    let on_ground = under
        .slab_mm
        .map(|slab| spread(service_kn, PLATE_MM, &[upper, lower, Layer::slab(slab)]).pressure_kpa);
    let pressure = on_ground.unwrap_or(on_board);
    let ground = Finding {
        name: "ground",
        at,
        demand: pressure,
        resistance: under.allowed_kpa,
        unit: "kPa",
        source: under.source,
    };
    sink.put(ground, &|| {
        let mut steps = vec![
            format!(
                "plate {PLATE_MM:.0} × {PLATE_MM:.0} mm spreads 2:1 along the grain and 1:1 across through {}",
                boards.words
            ),
            format!("{along:.0} × {across:.0} mm under the boards: {service_kn:.2} kN gives {on_board:.0} kPa"),
        ];
        if let (Some(slab), Some(on_ground)) = (under.slab_mm, on_ground) {
            steps.push(format!(
                "45° through {slab:.0} mm of slab: {:.0} × {:.0} mm: {on_ground:.0} kPa",
                along + 2.0 * slab,
                across + 2.0 * slab
            ));
        }
        steps.push(format!("allowed {:.0} kPa", under.allowed_kpa));
        steps
    });
    let of_timber = boards.layers.iter().any(Option::is_some);
    if let Some(c24) = grade("C24").filter(|_| of_timber) {
        let design = timber.design_values(c24, 3);
        bending(boards, at, strength_kn, &design, sink);
        // 30 mm of timber beside the plate helps at both ends along the grain; a board on continuous support.
        let area = (PLATE_MM + 60.0) * PLATE_MM;
        let can = KC90 * design.fc90d_n_mm2 * area / 1000.0;
        sink.put(
            Finding {
                name: "board_bearing",
                at,
                demand: strength_kn,
                resistance: can,
                unit: "kN",
                source: ACROSS,
            },
            &|| {
                let mut steps = design.steps();
                steps.push(format!(
                    "kc,90 f_c,90,d A_ef = {:.2} × {:.2} × {area:.0} mm² = {can:.1} kN",
                    KC90, design.fc90d_n_mm2
                ));
                steps
            },
        );
    }
    Pressed {
        under_board_kpa: on_board,
        under_slab_kpa: on_ground,
        allowed_kpa: under.allowed_kpa,
    }
}

fn bending(boards: &Boards, at: At, strength_kn: f64, design: &DesignValues, sink: &mut impl Sink) {
    // Each layer cantilevers along its own grain from the patch that loads it.
    let mut patch = [PLATE_MM, PLATE_MM];
    for layer in boards.spreading().iter().filter(|layer| layer.t_mm > 0.0) {
        let reached = layer.under(patch);
        let along_x = layer.spread_x >= layer.spread_y;
        let (from, reach, width) = if along_x {
            (patch[0], reached[0], reached[1])
        } else {
            (patch[1], reached[1], reached[0])
        };
        let thickness = layer.t_mm;
        let strip = board_strip(strength_kn, from, reach, [width, thickness]);
        let finding = Finding {
            name: "board_bending",
            at,
            demand: strip.sigma_n_mm2,
            resistance: design.fmd_n_mm2,
            unit: "N/mm²",
            source: BOARD,
        };
        sink.put(finding, &|| {
            let mut steps = design.steps();
            steps.push(format!(
                "{strength_kn:.2} kN over {reach:.0} mm, cantilever {:.0} mm: M = {:.3} kNm",
                strip.projection_mm, strip.m_kn_m
            ));
            steps.push(format!(
                "W = {width:.0} × {thickness:.0}² / 6 = {:.0} mm³: {:.2} N/mm²",
                strip.w_mm3, strip.sigma_n_mm2
            ));
            steps
        });
        patch = reached;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 10 kN on a 450 × 225 × 38 board: 302 × 225 mm and about 147 kPa.
    /// Source: hand check beside the published spread method (2:1 with the grain, 1:1 across), SITUATIONS, last paragraph.
    #[test]
    fn a_scaffold_board_spreads_as_published() {
        let [along, across] = BOARDS.first().map(Boards::spread_mm).unwrap_or_default();
        assert!((along - 302.0).abs() < 1e-9 && (across - 225.0).abs() < 1e-9);
        assert!((10.0 / (along * across) * 1e6 - 147.2).abs() < 0.1);
    }
}
