//! Laws that hold for any input, and one statics routine against the other.

#![expect(clippy::unwrap_used, reason = "a test stops at the first refusal")]

use super::bs::bs5977::{Triangle, load_triangle};
use super::en1991::{imposed, snow, wind};
use super::en1993::ltb::{C1_POINT, C2_POINT, Ltb, LtbCurve, m_b_rd};
use super::en1993::resistance::{CrossSection, m_c_rd, m_v_rd, v_c_rd};
use super::en1993::web::{Web, WebLoad, f_rd};
use super::en1996::arch::{Arch, flat_arch};
use super::en1996::strength::{Strength, f_k};
use super::ground::{Layer, spread};
use super::national::uk;
use super::statics::{SpanLoad, simple_span};
use crate::checks::feet::BOARDS;
use crate::clause::beam::{BeamLoad, Support, beam_reactions, reactions_by_load};
use crate::tables::steel::{open, open_names};
use proptest::prelude::*;

fn steel(name: &str) -> CrossSection {
    CrossSection {
        section: open(name).unwrap(),
        fy_n_mm2: 275.0,
        gamma_m: 1.1,
    }
}

fn ltb(cross: CrossSection, length_mm: f64, zg_mm: f64) -> f64 {
    let args = Ltb {
        cross,
        length_mm,
        c1: C1_POINT,
        c2: C2_POINT,
        zg_mm,
        curve: LtbCurve::Rolled,
        lambda_lt0: 0.4,
        beta: 0.75,
    };
    m_b_rd(&args).m_b_rd_kn_m
}

proptest! {
    #[test]
    fn a_simple_span_agrees_with_the_beam_on_two_supports(
        span in 500.0..3000.0_f64, a in 0.05..0.5_f64, b in 0.05..0.45_f64, p in 1.0..40.0_f64, w in 1.0..40.0_f64,
    ) {
        let (from, to) = (a * span, (a + b) * span);
        let point = SpanLoad { from_mm: 0.3 * span, to_mm: 0.3 * span, load_kn: p };
        let even = SpanLoad { from_mm: from, to_mm: to, load_kn: w * (to - from) / 1e3 };
        let direct = simple_span(span, &[point, even], 2.1e5 * 1e7);
        let length = span / 1e3;
        let supports = [0.0, length].map(|x_m| Support { x_m, k_kn_m: f64::INFINITY });
        let loads = [
            BeamLoad::Point { x_m: 0.3 * length, p_kn: p },
            BeamLoad::Uniform { from_m: from / 1e3, to_m: to / 1e3, w_kn_m: w },
        ];
        let beam = beam_reactions(length, 2.1e3, &supports, &loads, true).unwrap();
        let close = |x: f64, y: f64, share: f64| (x - y).abs() <= share * y.abs().max(1e-9);
        prop_assert!(close(direct.r_left_kn, beam.r_kn.first().copied().unwrap(), 1e-6));
        prop_assert!(close(direct.m_max_kn_m, beam.m_sag_kn_m, 1e-5), "{} {}", direct.m_max_kn_m, beam.m_sag_kn_m);
        prop_assert!(close(direct.deflection_mm, beam.d_max_mm, 2e-3), "{} {}", direct.deflection_mm, beam.d_max_mm);
    }

    #[test]
    fn a_beam_conserves_load_and_its_loads_add_up(
        places in prop::collection::btree_set(0_u32..40, 2..6), w in 1.0..30.0_f64, p in 0.0..20.0_f64, at in 0.0..4.0_f64,
        spring in prop::option::of(1e3..1e5_f64),
    ) {
        let k_kn_m = spring.unwrap_or(f64::INFINITY);
        let supports: Vec<Support> = places.iter().map(|x| Support { x_m: f64::from(*x) / 10.0, k_kn_m }).collect();
        let loads = [BeamLoad::Uniform { from_m: 0.0, to_m: 4.0, w_kn_m: w }, BeamLoad::Point { x_m: at, p_kn: p }];
        let total = 4.0 * w + p;
        let both = beam_reactions(4.0, 2500.0, &supports, &loads, false).unwrap();
        prop_assert!((both.r_kn.iter().sum::<f64>() - total).abs() < 1e-4 * total);
        let apart = reactions_by_load(4.0, 2500.0, &supports, &loads).unwrap();
        for (i, r) in both.r_kn.iter().enumerate() {
            let sum: f64 = apart.iter().filter_map(|case| case.get(i)).sum();
            prop_assert!((sum - r).abs() < 1e-4 * total, "{sum} {r}");
        }
        if let Ok(push) = beam_reactions(4.0, 2500.0, &supports, &loads, true) {
            prop_assert!(push.r_kn.iter().all(|r| *r >= -1e-6 * total));
            prop_assert!((push.r_kn.iter().sum::<f64>() - total).abs() < 1e-4 * total);
        }
    }

    #[test]
    fn longer_or_loaded_higher_never_resists_buckling_better(length in 400.0..4000.0_f64, zg in 0.0..120.0_f64) {
        for name in open_names() {
            let cross = steel(name);
            let base = ltb(cross, length, zg);
            prop_assert!(base <= m_c_rd(&cross).m_c_rd_kn_m + 1e-9);
            prop_assert!(ltb(cross, length * 1.1, zg) <= base + 1e-9);
            prop_assert!(ltb(cross, length, zg + 10.0) <= base + 1e-9);
        }
    }

    #[test]
    fn shear_never_helps_bending_and_a_longer_bearing_never_hurts(share in 0.0..1.0_f64, ss in 20.0..200.0_f64) {
        for name in open_names() {
            let cross = steel(name);
            let v = v_c_rd(&cross).v_c_rd_kn;
            let m = m_v_rd(&cross, share * v).m_v_rd_kn_m;
            prop_assert!(m <= m_c_rd(&cross).m_c_rd_kn_m + 1e-9 && m >= m_v_rd(&cross, v).m_v_rd_kn_m - 1e-9);
            for load in [WebLoad::Interior, WebLoad::End] {
                let f = |ss_mm: f64| {
                    let web = Web {
                        section: cross.section, fy_n_mm2: 275.0, gamma_m1: 1.1, ss_mm, load, a_mm: f64::INFINITY, c_mm: 0.0,
                    };
                    f_rd(&web).f_rd_kn
                };
                // The term m2 drops out below a slenderness of 0.5, which makes a small step; it is left a few per cent.
                prop_assert!(f(ss * 1.2) >= f(ss) * 0.9);
            }
        }
    }

    #[test]
    fn stronger_units_and_mortar_never_weaken_masonry(fb in 2.0..60.0_f64, fm in 0.5..12.0_f64, more in 1.0..2.0_f64) {
        let f = |fb_n_mm2: f64, fm_n_mm2: f64| f_k(&Strength { k: 0.5, fb_n_mm2, fm_n_mm2, joint_along: false }).f_k_n_mm2;
        prop_assert!(f(fb * more, fm) >= f(fb, fm) && f(fb, fm * more) >= f(fb, fm));
        prop_assert!(f(fb, fm) < fb);
    }

    #[test]
    fn the_arch_thrust_grows_with_load_and_span(w in 1.0..60.0_f64, s in 200.0..1200.0_f64, d in 100.0..2000.0_f64) {
        let arch = |w_kn_m: f64, s_mm: f64| {
            flat_arch(&Arch { w_kn_m, s_mm, depth_mm: d, t_mm: 102.5, f_k_n_mm2: 3.0, gamma_m: 3.0 }).h_kn
        };
        prop_assert!(arch(w * 1.1, s) > arch(w, s) && arch(w, s * 1.1) > arch(w, s));
    }

    #[test]
    fn weather_follows_its_cause(pitch in 0.0..70.0_f64, z in 1.0..30.0_f64, v in 18.0..30.0_f64) {
        let (q, steeper) = (imposed::q_roof(pitch, &uk()).q_kn_m2, imposed::q_roof(pitch + 5.0, &uk()).q_kn_m2);
        prop_assert!(steeper <= q && q <= 0.6 && snow::mu_1(pitch + 5.0) <= snow::mu_1(pitch));
        let wind = |vb_m_s: f64, z_m: f64| {
            wind::q_p(&wind::Wind { vb_m_s, z0_m: 0.3, z_min_m: 5.0, z_m, rho_kg_m3: 1.25 }).q_p_kn_m2
        };
        prop_assert!(wind(v, z + 1.0) >= wind(v, z) && wind(v + 1.0, z) > wind(v, z));
    }

    #[test]
    fn a_triangle_carries_no_more_than_the_wall_over_it(span in 0.5..4.5_f64, height in 0.0..4.0_f64, base in 1.0..1.1_f64) {
        let t = load_triangle(&Triangle {
            span_m: span, base_factor: base, wall_kn_m2: 2.0, height_m: height, uniform_kn_m: 0.0,
        });
        prop_assert!(t.weight_kn <= 2.0 * t.base_m * height + 1e-9);
        prop_assert!(t.weight_kn <= 2.0 * t.base_m * t.base_m / 4.0 + 1e-9);
        // Between the moments of an even load and of one gathered in the middle.
        let (least, most) = (t.weight_kn * t.base_m / 8.0, t.weight_kn * t.base_m / 4.0);
        prop_assert!((least - 1e-9..=most + 1e-9).contains(&t.moment_kn_m));
    }
}

#[test]
fn no_foot_spreads_beyond_its_own_size() {
    for boards in BOARDS {
        let [length, breadth, _] = boards.size_mm();
        let [along, across] = boards.spread_mm();
        assert!(along <= length + 1e-9 && across <= breadth + 1e-9, "{}", boards.words);
        let board = Layer::board(length, breadth, boards.thickness_mm());
        let on = |layers: &[Layer]| spread(10.0, 150.0, layers).pressure_kpa;
        assert!(on(&[board, Layer::slab(100.0)]) < on(&[board]));
    }
}
