//! A prop as a stepped strut: outer tube at the foot, inner tube above, both ends pinned, in second order.
//!
//! With y the distance of the tube's axis from the line of thrust, each tube obeys E·I·y″ + P·y = E·I·w₀″, w₀ being the
//! bow it was made with. Both tubes are solved in closed form from their own ends and joined where they meet.

use crate::source::{Seen, Source};
use serde::Serialize;
use std::f64::consts::PI;

/// Source of the model.
pub const SOURCE: Source = Source::new(
    "Timoshenko and Gere, Theory of Elastic Stability",
    "stepped columns; beam-columns with end eccentricities",
    Seen::Model("two tubes without lap stiffness, bow L/500, load at first yield; meets secant formula and a solver"),
);

/// Share of L·tan(lean) that is added to the eccentricity at both ends.
pub const LEAN_SHARE: f64 = 0.2;
/// Bow as a share of the length.
pub const BOW: f64 = 1.0 / 500.0;
/// Yield strength of a prop's tubes, N/mm².
pub const FY_N_MM2: f64 = 235.0;
/// Modulus of elasticity, N/mm².
pub const E_N_MM2: f64 = 210_000.0;

/// Places along each tube where the offset is looked at; a parabola through the best three finds the peak.
const STATIONS: u32 = 16;
/// The root search meets its tolerance in fewer than ten rounds on ordinary props; this is the stop for odd input.
const ROUNDS: u32 = 60;

/// A tube's cross-section.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Tube {
    /// Area, mm².
    pub area_mm2: f64,
    /// Second moment, mm⁴.
    pub i_mm4: f64,
    /// Distance of the outer fibre from the axis, mm.
    pub c_mm: f64,
}

impl Tube {
    /// A round tube of outer diameter and wall thickness, mm.
    #[must_use]
    pub fn round(d_mm: f64, t_mm: f64) -> Self {
        let inner = d_mm - 2.0 * t_mm;
        Self {
            area_mm2: PI / 4.0 * (d_mm * d_mm - inner * inner),
            i_mm4: PI / 64.0 * (d_mm.powi(4) - inner.powi(4)),
            c_mm: d_mm / 2.0,
        }
    }

    /// Stress at the outer fibre under a force in N at an offset in mm, N/mm².
    fn stress(&self, p_n: f64, offset_mm: f64) -> f64 {
        p_n / self.area_mm2 + p_n * offset_mm * self.c_mm / self.i_mm4
    }
}

/// A stepped strut with its imperfections, all to one side.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Strut {
    /// Tube at the foot.
    pub outer: Tube,
    /// Tube at the head.
    pub inner: Tube,
    /// Length of the outer tube, mm.
    pub outer_mm: f64,
    /// Length of the inner tube that stands out of it, mm.
    pub inner_mm: f64,
    /// Eccentricity at the foot, mm.
    pub e_foot_mm: f64,
    /// Eccentricity at the head, mm.
    pub e_head_mm: f64,
    /// Bow in the middle, mm.
    pub bow_mm: f64,
    /// Modulus of elasticity, N/mm².
    pub e_n_mm2: f64,
    /// Yield strength, N/mm².
    pub fy_n_mm2: f64,
}

/// The strut's answer to a load below its critical load.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Response {
    /// Largest elastic deflection, mm.
    pub y_max_mm: f64,
    /// Largest moment in the outer tube, kNm.
    pub m_outer_kn_m: f64,
    /// Largest moment in the inner tube, kNm.
    pub m_inner_kn_m: f64,
    /// Largest stress in the outer tube, N/mm².
    pub sigma_outer_n_mm2: f64,
    /// Largest stress in the inner tube, N/mm².
    pub sigma_inner_n_mm2: f64,
}

/// One tube's offset from the line of thrust: e·cos(kz) + d·sin(kz) + b·sin(pz), z from the tube's own end.
#[derive(Clone, Copy)]
struct Wave {
    k: f64,
    p: f64,
    e: f64,
    d: f64,
    b: f64,
    length: f64,
}

/// Wave numbers of outer and inner tube, sines and cosines at the joint, and the joint's stiffness.
struct Joint {
    k1: f64,
    k2: f64,
    s1: f64,
    c1: f64,
    s2: f64,
    c2: f64,
    stiffness: f64,
}

impl Wave {
    /// Largest absolute offset along the tube.
    fn peak(&self) -> f64 {
        let step = self.length / f64::from(STATIONS);
        let ((sk, ck), (sp, cp)) = ((self.k * step).sin_cos(), (self.p * step).sin_cos());
        // Angles grow station by station through the addition theorem, which spares the trigonometry.
        let (mut s, mut c, mut sb, mut cb) = (0.0_f64, 1.0_f64, 0.0_f64, 1.0_f64);
        let (mut before, mut here) = (0.0_f64, self.e.abs());
        let mut best = here;
        for station in 1..=STATIONS {
            (s, c) = (s * ck + c * sk, c * ck - s * sk);
            (sb, cb) = (sb * cp + cb * sp, cb * cp - sb * sp);
            let next = (self.e * c + self.d * s + self.b * sb).abs();
            best = best.max(next);
            // The top of the parabola through three stations, wherever it lies between them: also beside a tube's end,
            // or the largest offset would jump as the top moves past a station.
            let curve = before - 2.0 * here + next;
            if station > 1 && curve < 0.0 && (next - before).abs() <= -2.0 * curve {
                best = best.max(here - (next - before).powi(2) / (8.0 * curve));
            }
            (before, here) = (here, next);
        }
        best
    }
}

impl Strut {
    /// Length, mm.
    #[must_use]
    pub fn length_mm(&self) -> f64 {
        self.outer_mm + self.inner_mm
    }

    /// Whether a load in N is below the critical one: neither tube reaches a half wave of its own and the joint's stiffness
    /// stays positive. Within that range the stiffness falls steadily, so its first zero is the critical load.
    fn joint(&self, p_n: f64) -> Option<Joint> {
        let k1 = (p_n / (self.e_n_mm2 * self.outer.i_mm4)).sqrt();
        let k2 = (p_n / (self.e_n_mm2 * self.inner.i_mm4)).sqrt();
        let (a1, a2) = (k1 * self.outer_mm, k2 * self.inner_mm);
        if a1 >= PI || a2 >= PI {
            return None;
        }
        let ((s1, c1), (s2, c2)) = (a1.sin_cos(), a2.sin_cos());
        let stiffness = s1 * k2 * c2 + s2 * k1 * c1;
        (stiffness > 0.0).then_some(Joint {
            k1,
            k2,
            s1,
            c1,
            s2,
            c2,
            stiffness,
        })
    }

    /// Both tubes' offsets under a load in N; `None` at or above the critical load.
    fn waves(&self, p_n: f64) -> Option<(Wave, Wave)> {
        let Joint {
            k1,
            k2,
            s1,
            c1,
            s2,
            c2,
            stiffness,
        } = self.joint(p_n)?;
        let p = PI / self.length_mm();
        let bow = |k: f64| {
            let gap = 1.0 - (k / p).powi(2);
            // A tube whose own Euler load over the whole length is just met has no bounded particular part; the joined
            // solution is smooth there, so a hair's breadth beside it serves.
            self.bow_mm / if gap.abs() < 1e-7 { 1e-7 } else { gap }
        };
        let (b1, b2) = (bow(k1), bow(k2));
        let (sa, ca) = (p * self.outer_mm).sin_cos();
        let r1 = self.e_head_mm * c2 - self.e_foot_mm * c1 + (b2 - b1) * sa;
        let r2 = self.e_foot_mm * k1 * s1 + self.e_head_mm * k2 * s2 + (b2 - b1) * p * ca;
        let d1 = (r1 * k2 * c2 + s2 * r2) / stiffness;
        let d2 = (s1 * r2 - k1 * c1 * r1) / stiffness;
        Some((
            Wave {
                k: k1,
                p,
                e: self.e_foot_mm,
                d: d1,
                b: b1,
                length: self.outer_mm,
            },
            Wave {
                k: k2,
                p,
                e: self.e_head_mm,
                d: d2,
                b: b2,
                length: self.inner_mm,
            },
        ))
    }

    /// Critical load, kN.
    #[must_use]
    pub fn critical_kn(&self) -> f64 {
        let own = |tube: &Tube, l: f64| PI * PI * self.e_n_mm2 * tube.i_mm4 / (l * l);
        let (mut low, mut high) = (
            0.0,
            own(&self.outer, self.outer_mm).min(own(&self.inner, self.inner_mm)),
        );
        for _ in 0..ROUNDS {
            let middle = f64::midpoint(low, high);
            if self.joint(middle).is_some() {
                low = middle
            } else {
                high = middle
            }
        }
        f64::midpoint(low, high) * 1e-3
    }

    /// Load that would bring first yield if the offsets stayed as they are under `p_n`, N; 0 above the critical load.
    fn yield_at_shape(&self, p_n: f64) -> f64 {
        let Some((outer, inner)) = self.waves(p_n) else {
            return 0.0;
        };
        let load = |tube: &Tube, offset: f64| self.fy_n_mm2 / tube.stress(1.0, offset);
        load(&self.outer, outer.peak()).min(load(&self.inner, inner.peak()))
    }

    /// Load at first yield of either tube, kN.
    ///
    /// The load that the shape under P would carry falls with P, nearly along a line, and the first yield is where both are
    /// equal: regula falsi with halving finds it in a few rounds. Returns 0 for a strut without length or substance.
    #[must_use]
    pub fn first_yield_kn(&self) -> f64 {
        let excess = |p: f64| self.yield_at_shape(p) - p;
        let squash = self.fy_n_mm2 * self.outer.area_mm2.min(self.inner.area_mm2);
        let sound = self.length_mm() > 0.0 && self.outer_mm > 0.0 && self.inner_mm > 0.0 && squash > 0.0;
        let stiff = self.outer.i_mm4 > 0.0 && self.inner.i_mm4 > 0.0;
        if !sound || !stiff || !squash.is_finite() {
            return 0.0;
        }
        let mut low = squash * 1e-6;
        let mut above = excess(low);
        if above <= 0.0 {
            return 0.0;
        }
        let mut high = low + above;
        let mut below = excess(high);
        if below >= -1e-9 * high {
            // The peak stays at an end, where the offset does not grow with the load.
            return high * 1e-3;
        }
        let mut side = 0_i8;
        for _ in 0..ROUNDS {
            if high - low < 1e-7 * high {
                break;
            }
            let next = (low + (high - low) * above / (above - below)).clamp(low, high);
            let value = excess(next);
            if value.abs() < 1e-9 * next {
                return next * 1e-3;
            }
            if value > 0.0 {
                (low, above) = (next, value);
                if side == 1 {
                    below /= 2.0;
                }
                side = 1;
            } else {
                (high, below) = (next, value);
                if side == -1 {
                    above /= 2.0;
                }
                side = -1;
            }
        }
        f64::midpoint(low, high) * 1e-3
    }

    /// Deflection, moments and stresses under a load in kN; `None` at or above the critical load.
    #[must_use]
    pub fn response(&self, p_kn: f64) -> Option<Response> {
        let p_n = p_kn * 1e3;
        let (outer, inner) = self.waves(p_n)?;
        let (yo, yi) = (outer.peak(), inner.peak());
        let length = self.length_mm();
        let y_max_mm = (0..=400)
            .map(|i| f64::from(i) / 400.0 * length)
            .map(|z| {
                let (wave, own) = if z <= self.outer_mm {
                    (&outer, z)
                } else {
                    (&inner, length - z)
                };
                let offset =
                    wave.e * (wave.k * own).cos() + wave.d * (wave.k * own).sin() + wave.b * (wave.p * own).sin();
                let made = self.e_foot_mm + (self.e_head_mm - self.e_foot_mm) * z / length;
                (offset - made - self.bow_mm * (wave.p * own).sin()).abs()
            })
            .fold(0.0, f64::max);
        Some(Response {
            y_max_mm,
            m_outer_kn_m: p_n * yo * 1e-6,
            m_inner_kn_m: p_n * yi * 1e-6,
            sigma_outer_n_mm2: self.outer.stress(p_n, yo),
            sigma_inner_n_mm2: self.inner.stress(p_n, yi),
        })
    }

    /// Shortening under a load in kN, both tubes straight, mm.
    #[must_use]
    pub fn shortening_mm(&self, p_kn: f64) -> f64 {
        let flexibility = self.outer_mm / self.outer.area_mm2 + self.inner_mm / self.inner.area_mm2;
        p_kn * 1e3 * flexibility / self.e_n_mm2
    }
}
