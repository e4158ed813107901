//! The joists over a header: what each brings, and the length past the header towards the wall.

use super::comb::largest_shear_kn;
use super::{Place, Timber};
use crate::checks::{At, Finding, Sink};
use crate::clause::beam::{BeamLoad, Support, beam_reactions};
use crate::clause::en1995::beam::{self, TimberBending, TimberShear, timber_bending, timber_shear};
use crate::source::{Seen, Source};

/// Dead load that holds down, EN 1990 Table A1.2(A), EQU.
const GAMMA_HOLD: f64 = 0.9;
/// Dead load that lifts, same table.
const GAMMA_LIFT: f64 = 1.1;

/// What screws or a strap hold of a joist's far end where its own weight does not, kN: two screws at 0.4 kN, a low value
/// from memory.
const TIED_KN: f64 = 0.8;

const SPAN: Source = Source::new(
    "statics of a joist with an overhang",
    "its largest moment beside what it carries today, or EN 1995-1-1 6.1.6 for C16",
    Seen::Text,
);
const UPLIFT: Source = Source::new("EN 1990:2002", "6.4.2, Table A1.2(A), EQU", Seen::Memory);

/// Joists that bear on the wall from one side.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Joists {
    /// From the far bearing to the bearing in the wall, m.
    pub span_m: f64,
    /// From the header's axis to the bearing in the wall, m.
    pub past_m: f64,
    /// Spacing, m.
    pub spacing_m: f64,
    /// Dead load, kN/m².
    pub g_kn_m2: f64,
    /// Imposed load with partitions, kN/m².
    pub q_kn_m2: f64,
    /// The span on the wall's other side, with the length past the header there, where the joists run through.
    pub through: Option<(f64, f64)>,
    /// Timber of the joists.
    pub timber: Timber,
    /// Partial factors of permanent and imposed load.
    pub factors: (f64, f64),
}

impl OverHeader {
    /// Whether the far end must be screwed or strapped down.
    #[must_use]
    pub fn tied(&self) -> bool {
        self.lift_kn > self.hold_kn
    }
}

/// What a joist does over the header.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct OverHeader {
    /// Permanent load on the header, kN.
    pub g_kn: f64,
    /// Imposed load on the header, kN.
    pub q_kn: f64,
    /// Hogging over the header at strength, kNm.
    pub hog_kn_m: f64,
    /// Largest shear beside the header at strength, kN.
    pub shear_kn: f64,
    /// Sagging between header and far bearing at strength, kNm.
    pub sag_kn_m: f64,
    /// Largest moment of the joist as it is today at strength, kNm.
    pub before_kn_m: f64,
    /// What lifts the far end, kN.
    pub lift_kn: f64,
    /// What holds the far end down, kN.
    pub hold_kn: f64,
}

impl Joists {
    /// Load on the header at strength, kN.
    #[must_use]
    pub fn strength_kn(&self, over: &OverHeader) -> f64 {
        self.factors.0 * over.g_kn + self.factors.1 * over.q_kn
    }

    /// Finds what a joist does: cut at the wall, a simple span with its end hanging past the header, and where it runs
    /// through also uncut over both headers; the worse of both.
    #[must_use]
    pub fn over_header(&self) -> Option<OverHeader> {
        let (span, past) = (self.span_m, self.past_m);
        let clear = span - past;
        if !(clear > 0.1 && past >= 0.0) {
            return None;
        }
        let (g, q) = (self.g_kn_m2 * self.spacing_m, self.q_kn_m2 * self.spacing_m);
        let (gamma_g, gamma_q) = self.factors;
        let w = gamma_g * g + gamma_q * q;
        // Moments about the far bearing: the header takes w·span·(span/2)/clear.
        let share = span * span / (2.0 * clear);
        let hog = w * past * past / 2.0;
        let reaction = w * share;
        // Sagging is largest with imposed load on the span alone and the light end as light as it may be.
        let far = w * clear / 2.0 - g * past * past / (2.0 * clear);
        let mut out = OverHeader {
            g_kn: g * share,
            q_kn: q * share,
            hog_kn_m: hog,
            shear_kn: (w * past).max(reaction - w * past),
            sag_kn_m: far * far / (2.0 * w.max(1e-9)),
            before_kn_m: w * span * span / 8.0,
            lift_kn: (GAMMA_LIFT * g + gamma_q * q) * past * past / (2.0 * clear),
            hold_kn: GAMMA_HOLD * g * clear / 2.0,
        };
        if let Some((other, other_past)) = self.through {
            out.before_kn_m = out
                .before_kn_m
                .max(w * (span.powi(3) + other.powi(3)) / (8.0 * (span + other)));
            self.uncut(other, other_past, (g, q), &mut out)?;
        }
        Some(out)
    }

    /// The joist still whole over the wall's place, on both headers.
    fn uncut(&self, other: f64, other_past: f64, (g, q): (f64, f64), out: &mut OverHeader) -> Option<()> {
        let length = self.span_m + other;
        let supports: Vec<Support> = [0.0, self.span_m - self.past_m, self.span_m + other_past, length]
            .map(|x_m| Support {
                x_m,
                k_kn_m: f64::INFINITY,
            })
            .to_vec();
        let uniform = |from_m: f64, to_m: f64, w_kn_m: f64| BeamLoad::Uniform { from_m, to_m, w_kn_m };
        let solve = |gamma_g: f64, dead: f64, gamma_q: f64, live: f64, to: f64, from: f64| {
            let loads = vec![uniform(0.0, length, gamma_g * dead), uniform(from, to, gamma_q * live)];
            let found = beam_reactions(length, 1.0, &supports, &loads, true).ok()?;
            Some((found, loads))
        };
        let (dead, _) = solve(1.0, g, 0.0, 0.0, length, 0.0)?;
        for (from, to) in [(0.0, length), (0.0, self.span_m), (self.span_m, length)] {
            let (live, _) = solve(0.0, 0.0, 1.0, q, to, from)?;
            let at_header = |r: &[f64]| r.get(1).copied().unwrap_or(0.0);
            out.g_kn = out.g_kn.max(at_header(&dead.r_kn));
            out.q_kn = out.q_kn.max(at_header(&live.r_kn));
            let (both, loads) = solve(self.factors.0, g, self.factors.1, q, to, from)?;
            out.hog_kn_m = out.hog_kn_m.max(both.m_hog_kn_m);
            out.sag_kn_m = out.sag_kn_m.max(both.m_sag_kn_m);
            out.shear_kn = out.shear_kn.max(largest_shear_kn(&supports, &both.r_kn, &loads));
        }
        Some(())
    }

    /// Checks the joists.
    pub fn check(&self, over: &OverHeader, place: &Place, sink: &mut impl Sink) {
        let at = At::Header(place.floor, place.side);
        let Timber {
            grade,
            b_mm,
            h_mm,
            design,
            ..
        } = &self.timber;
        let bending = timber_bending(&TimberBending {
            b_mm: *b_mm,
            h_mm: *h_mm,
            m_kn_m: over.hog_kn_m,
            fmd_n_mm2: design.fmd_n_mm2,
            k_sys: 1.0,
            use_k_h: false,
        });
        let words = format!(
            "joist {} {b_mm:.0} × {h_mm:.0} mm at {:.0} mm, {:.2} m from far bearing to wall, {:.2} m of it past the header",
            grade.name,
            self.spacing_m * 1000.0,
            self.span_m,
            self.past_m
        );
        let mut put = |name, demand, resistance, unit, source, more: &dyn Fn() -> Vec<String>| {
            sink.put(
                Finding {
                    name,
                    at,
                    demand,
                    resistance,
                    unit,
                    source,
                },
                &|| {
                    let mut steps = vec![words.clone()];
                    steps.extend(more());
                    steps
                },
            );
        };
        put(
            "joist_hogging",
            over.hog_kn_m,
            bending.m_rd_kn_m,
            "kNm",
            beam::BENDING_SOURCE,
            &|| {
                let mut steps = design.steps();
                steps.extend(bending.steps());
                steps
            },
        );
        let shear = timber_shear(&TimberShear {
            b_mm: *b_mm,
            h_mm: *h_mm,
            v_kn: over.shear_kn,
            fvd_n_mm2: design.fvd_n_mm2,
            k_cr: self.timber.k_cr,
        });
        put(
            "joist_shear",
            over.shear_kn,
            shear.v_rd_kn,
            "kN",
            beam::SHEAR_SOURCE,
            &|| shear.steps(),
        );
        put(
            "joist_span",
            over.sag_kn_m,
            over.before_kn_m.max(bending.m_rd_kn_m),
            "kNm",
            SPAN,
            &|| {
                vec![format!(
                    "largest moment between header and far bearing {:.3} kNm; today {:.3} kNm, C16 could {:.3} kNm",
                    over.sag_kn_m, over.before_kn_m, bending.m_rd_kn_m
                )]
            },
        );
        let tie = if over.tied() { TIED_KN } else { 0.0 };
        put("joist_uplift", over.lift_kn, over.hold_kn + tie, "kN", UPLIFT, &|| {
            let mut steps = vec![format!(
                "people on the end past the header lift the far end by {:.3} kN; {GAMMA_HOLD} of the dead load holds it with {:.3} kN",
                over.lift_kn, over.hold_kn
            )];
            if over.tied() {
                steps.push(format!("the far end screwed or strapped down adds {TIED_KN} kN"));
            }
            steps
        });
    }
}
