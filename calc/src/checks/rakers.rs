//! What holds the heads across the wall: rakers, as steep as the working room asks, or ties up to the joists of the floor
//! just above.

use super::{At, Finding, Side, Sink};
use crate::clause::sideways::brace as one_brace;
use crate::floor_line::{SCREW_KN, has_own_line};
use crate::geometry::{Geometry, floor_bears};
use crate::job::{Job, Side as SideInput};
use crate::source::{Seen, Source};

/// Wall of the bracing tube, mm.
pub const TUBE_MM: f64 = 3.2;
/// Flattest and steepest a raker stands, degrees to the ground. Steeper it lifts the heads more than it holds them. [own]
const FLATTEST_DEG: f64 = 45.0;
const STEEPEST_DEG: f64 = 70.0;
/// Room for the kicker behind a raker's foot, m. [own]
const KICKER_M: f64 = 0.10;
/// A brace starts this near to the head and to the foot, m.
const FROM_ENDS_M: f64 = 0.3;
/// Highest above the needles' underside that joists may lie for a tie up to them, m. [own]
const TIE_M: f64 = 0.6;
/// Dead load that holds down, EN 1990 Table A1.2(A), EQU, from memory.
const GAMMA_HOLD: f64 = 0.9;

const ROOM: Source = Source::new(
    "a raker within the working room",
    "45° to 70° to the ground, 0.10 m for its kicker",
    Seen::Own,
);
const LIFT: Source = Source::new(
    "statics of a raker",
    "it lifts the head by H·tan; 0.9 of the permanent load holds it down",
    Seen::Text,
);

/// The rakers of one side.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Raker {
    /// Angle to the ground, degrees.
    pub angle_deg: f64,
    /// Length, m.
    pub length_m: f64,
    /// What one resists across the wall, kN.
    pub one_kn: f64,
    /// Room asked from the wall's face when it stands as steep as it may, m.
    pub asked_m: f64,
    /// Whether it fits.
    pub fits: bool,
}

/// Height between the ends of a brace from a foot to a soffit, m.
#[must_use]
pub fn rise_m(soffit_m: f64, foot_level_m: f64) -> f64 {
    ((soffit_m - foot_level_m).max(0.5) - FROM_ENDS_M).max(0.2)
}

impl Raker {
    /// The flattest raker that fits on a side between a head at `distance_m` from the wall's face and the end of the room;
    /// where none fits, the steepest.
    #[must_use]
    pub fn of(side: &SideInput, soffit_m: f64, distance_m: f64) -> Self {
        let rise = rise_m(soffit_m, side.foot_level_m);
        let least_run = rise / STEEPEST_DEG.to_radians().tan();
        let asked_m = distance_m + least_run + KICKER_M;
        let fits = asked_m <= side.room_m + 1e-9;
        let most_run = rise / FLATTEST_DEG.to_radians().tan();
        let run = (side.room_m - distance_m - KICKER_M).min(most_run).max(least_run);
        let (length_m, angle_deg) = (rise.hypot(run), rise.atan2(run).to_degrees());
        Self {
            angle_deg,
            length_m,
            one_kn: one_brace(length_m * 1000.0, TUBE_MM, angle_deg, 1.0).h_kn,
            asked_m,
            fits,
        }
    }

    /// Puts whether it fits into a sink.
    pub fn check_room(&self, at: At, input: &SideInput, sink: &mut impl Sink) {
        let finding = Finding {
            name: "raker_room",
            at,
            demand: self.asked_m,
            resistance: input.room_m,
            unit: "m",
            source: ROOM,
        };
        sink.put(finding, &|| {
            vec![format!(
                "a raker at {STEEPEST_DEG:.0}° with its kicker ends {:.2} m from the wall's face, room {:.2} m",
                self.asked_m, input.room_m
            )]
        });
    }

    /// Puts what it lifts into a sink: `h_kn` across the wall against the permanent load on the line of heads.
    pub fn check_lift(&self, side: Side, h_kn: f64, permanent_kn: f64, sink: &mut impl Sink) {
        let lift = h_kn * self.angle_deg.to_radians().tan();
        let finding = Finding {
            name: "raker_lift",
            at: At::Prop(0, side),
            demand: lift,
            resistance: GAMMA_HOLD * permanent_kn,
            unit: "kN",
            source: LIFT,
        };
        sink.put(finding, &|| {
            vec![format!(
                "rakers at {:.0}° lift the heads by H·tan = {h_kn:.2} × {:.2} = {lift:.2} kN; {GAMMA_HOLD} × {permanent_kn:.1} kN of permanent load on this line holds them down",
                self.angle_deg,
                self.angle_deg.to_radians().tan()
            )]
        });
    }
}

/// Ties from the needles' ends up to the joists of a floor: they hold both ways.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tie {
    /// Floor, counted from 1.
    pub floor: usize,
    /// Joists tied to.
    pub joists: u32,
    /// What one resists across the wall, kN.
    pub one_kn: f64,
}

impl Tie {
    /// What all of them resist across the wall, kN.
    #[must_use]
    pub fn all_kn(&self) -> f64 {
        f64::from(self.joists) * self.one_kn
    }

    /// Ties up to the first floor whose timber joists come onto the wall just above the needles; none where there is none.
    ///
    /// A timber at 45° from a rail along the needles' ends to each joist over the cut, two screws at each end. Pushed, it
    /// lifts the joist by as much as it holds: no more than 0.9 of its dead load near the wall. [own model]
    #[must_use]
    pub fn of(job: &Job, geometry: &Geometry, soffit_m: f64) -> Option<Self> {
        let floors = job.above.iter().zip(&geometry.floors_m).enumerate();
        let near = floors.filter_map(|(i, (storey, level))| storey.floor.as_ref().map(|floor| (i, floor, *level)));
        let (i, floor, _) = near
            .filter(|(i, floor, level)| {
                floor_bears(floor)
                    && !floor.beam_and_block
                    && !has_own_line(job, geometry, *i)
                    && *level >= soffit_m - 1e-9
                    && *level <= soffit_m + TIE_M
            })
            .min_by(|a, b| a.2.total_cmp(&b.2))?;
        let span = floor.inside_span_m.max(floor.outside_span_m);
        let hold = GAMMA_HOLD * floor.dead_kn_m2 * floor.joist_spacing_m * span / 2.0;
        let screws = 2.0 * SCREW_KN * 45.0_f64.to_radians().cos();
        let joists = (geometry.cut_width_m() / floor.joist_spacing_m.max(0.1))
            .floor()
            .max(0.0) as u32;
        (joists > 0).then_some(Self {
            floor: i + 1,
            joists,
            one_kn: screws.min(hold),
        })
    }
}

#[cfg(test)]
mod tests {
    #![expect(clippy::unwrap_used, reason = "a test stops at the first broken promise")]
    use super::*;
    use crate::proposal::{Proposal, Standing};
    use serde_json::{Value, json};

    fn with_room(name: &str, inside: f64, outside: f64) -> Proposal {
        let mut job = crate::example::job(name).unwrap();
        *job.pointer_mut("/sides/inside/room_m").unwrap() = json!(inside);
        *job.pointer_mut("/sides/outside/room_m").unwrap() = json!(outside);
        crate::size_value(&job).unwrap()
    }

    fn side(room_m: f64) -> SideInput {
        let job = crate::example::job("bungalow").unwrap();
        let (mut job, _) = Job::from_value(&job).unwrap();
        job.sides.inside.room_m = room_m;
        job.sides.inside
    }

    /// Plane trigonometry: a head 2.40 m over the foot, 2.10 m between the brace's ends, 0.45 m off the wall, 0.10 m for the
    /// kicker. At 45° that asks 2.65 m; 2.00 m leave a run of 1.45 m; at 70° 0.764 m are asked.
    #[test]
    fn a_raker_stands_as_flat_as_the_room_lets_it() {
        for (room, run) in [(3.0, 2.1), (2.65, 2.1), (2.0, 1.45), (1.4, 0.85)] {
            let raker = Raker::of(&side(room), 2.4, 0.45);
            assert!(raker.fits, "{room}");
            assert!(
                (raker.angle_deg - (2.1_f64 / run).atan().to_degrees()).abs() < 1e-6,
                "{room}"
            );
            assert!(
                (raker.length_m - (2.1_f64.powi(2) + run * run).sqrt()).abs() < 1e-9,
                "{room}"
            );
        }
        assert!(!Raker::of(&side(1.3), 2.4, 0.45).fits && Raker::of(&side(1.3), 2.4, 0.40).fits);
        let (flat, steep) = (Raker::of(&side(3.0), 2.4, 0.45), Raker::of(&side(1.4), 2.4, 0.45));
        assert!(steep.one_kn < flat.one_kn && steep.angle_deg <= STEEPEST_DEG + 1e-9);
        // The coupler's 6.06 kN times the cosine is the most that any raker holds.
        assert!(flat.one_kn <= 10.0 / 1.65 * 45.0_f64.to_radians().cos() + 1e-9);
    }

    #[test]
    fn no_raker_ends_beyond_the_room_and_two_metres_are_enough() {
        for name in [
            "bungalow",
            "two_storey_cavity",
            "solid_wall_terrace",
            "garage_with_room_over",
        ] {
            let (wide, narrow) = (with_room(name, 3.5, 3.5), with_room(name, 2.0, 2.0));
            assert_eq!(wide.standing, narrow.standing, "{name} {:?}", narrow.reasons);
            let option = narrow.options.first().unwrap();
            assert!(!option.bracing.way.iter().any(|way| way.contains("no raker")), "{name}");
            let room: Vec<_> = option
                .checks
                .iter()
                .filter(|check| check.name == "raker_room")
                .collect();
            assert!(
                room.len() == 2 && room.iter().all(|check| check.utilisation <= 1.0),
                "{name}"
            );
        }
    }

    #[test]
    fn without_room_a_bungalow_is_refused_and_told_what_to_do() {
        let answer = with_room("bungalow", 2.5, 0.9);
        assert_eq!(answer.standing, Standing::DoesNotHold);
        let why = answer
            .reasons
            .iter()
            .find(|reason| reason.code == "raker_room")
            .unwrap();
        assert!(
            why.words.contains("outside") && why.words.contains("0.90 m are there"),
            "{}",
            why.words
        );
        assert!(
            why.words.contains("return") && why.words.contains("engineer"),
            "{}",
            why.words
        );
    }

    /// By hand: 6 joists at 0.4 m over 2.7 m; two screws of 0.4 kN at 45° hold 0.566 kN, 0.9 × 0.5 kN/m² × 0.4 m × 2 m of
    /// dead load hold 0.36 kN down: 6 × 0.36 = 2.16 kN.
    #[test]
    fn joists_just_above_hold_the_heads_where_no_raker_fits() {
        let answer = with_room("two_storey_cavity", 2.5, 0.9);
        let option = answer.options.first().unwrap();
        assert!(
            (option.bracing.resistance_across_kn - 2.16).abs() < 1e-9,
            "{:?}",
            option.bracing
        );
        assert!(option.bracing.demand_across_kn <= 2.16);
        let said = |words: &str| option.bracing.way.iter().any(|way| way.contains(words));
        assert!(
            said("outside: no raker fits") && said("6 joists of floor 1"),
            "{:?}",
            option.bracing.way
        );
        assert!(
            option
                .parts
                .iter()
                .any(|part| part.what.starts_with("tie") && part.count == 6)
        );
        // A floor that is itself held on props ties nothing.
        let mut job = crate::example::job("two_storey_cavity").unwrap();
        *job.pointer_mut("/sides/outside/room_m").unwrap() = json!(0.9);
        job.pointer_mut("/above/0/floor")
            .unwrap()
            .as_object_mut()
            .unwrap()
            .insert("held_apart".to_owned(), Value::Bool(true));
        let apart = crate::size_value(&job).unwrap();
        assert!(apart.options.is_empty() && apart.reasons.iter().any(|reason| reason.code == "raker_room"));
    }
    /// By hand: six joists with 0.1 kN/m² hold 6 × 0.9 × 0.1 × 0.4 × 2 = 0.43 kN, and 2.5 % of some 40 kN are asked.
    #[test]
    fn joists_too_light_to_hold_the_heads_are_no_tie() {
        let light = |outside: f64| {
            let mut job = crate::example::job("two_storey_cavity").unwrap();
            *job.pointer_mut("/sides/outside/room_m").unwrap() = json!(outside);
            *job.pointer_mut("/above/0/floor/dead_kn_m2").unwrap() = json!(0.1);
            crate::size_value(&job).unwrap()
        };
        let (narrow, wide) = (light(0.9), light(2.0));
        assert!(narrow.options.is_empty() && narrow.reasons.iter().any(|reason| reason.code == "raker_room"));
        assert!(!wide.options.is_empty());
    }
}
