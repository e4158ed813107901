//! Statics and releases of the beam.

#![expect(clippy::unwrap_used, reason = "a test stops at the first refusal")]
use super::*;

const RIGID: f64 = f64::INFINITY;

#[test]
fn load_is_conserved_and_pulls_are_released() {
    let supports = [0.0, 1.0, 3.0].map(|x_m| Support { x_m, k_kn_m: RIGID });
    let loads = [
        BeamLoad::Point { x_m: 3.6, p_kn: 10.0 },
        BeamLoad::Uniform {
            from_m: 2.0,
            to_m: 3.6,
            w_kn_m: 4.0,
        },
    ];
    let both = beam_reactions(3.6, 4000.0, &supports, &loads, false).unwrap();
    assert!((both.r_kn.iter().sum::<f64>() - 16.4).abs() < 1e-6);
    assert!(both.r_kn.iter().any(|r| *r < 0.0));
    let push = beam_reactions(3.6, 4000.0, &supports, &loads, true);
    if let Ok(push) = push {
        assert!(push.r_kn.iter().all(|r| *r >= -1e-6));
    } else {
        assert_eq!(push, Err(BeamError::Mechanism));
    }
}

#[test]
fn two_rigid_supports_follow_statics() {
    let supports = [0.5, 2.5].map(|x_m| Support { x_m, k_kn_m: RIGID });
    let load = [BeamLoad::Uniform {
        from_m: 0.0,
        to_m: 3.0,
        w_kn_m: 10.0,
    }];
    let r = beam_reactions(3.0, 1000.0, &supports, &load, true).unwrap();
    assert!(r.r_kn.iter().all(|r| (r - 15.0).abs() < 1e-5), "{r:?}");
    assert!((r.m_hog_kn_m - 10.0 * 0.125).abs() < 1e-5);
    assert!((r.m_sag_kn_m - (10.0 * 4.0 / 8.0 - 1.25)).abs() < 1e-5, "{r:?}");
}

#[test]
fn one_support_is_a_mechanism() {
    let load = [BeamLoad::Point { x_m: 1.0, p_kn: 1.0 }];
    let one = [Support {
        x_m: 1.0,
        k_kn_m: 100.0,
    }];
    assert_eq!(beam_reactions(2.0, 1.0, &one, &load, true), Err(BeamError::Mechanism));
}
