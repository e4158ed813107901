//! Supports that only push, by hand.

use calc::clause::national::uk;
use calc::demand::service;
use calc::line::Influence;
use calc::pushing::Pushing;
use calc::steps::{Channel, Shares, Steps};

/// Supports at 1.0, 1.3 and 2.0 m under 10 kN/m from 0 to 2.2 m: the long free end on the left would lift the wall off the
/// middle one, so the outer two carry all 22 kN; moments about 2.0 m: 22 × (2.0 − 1.1) / 1.0 = 19.8 kN on the left one.
#[test]
fn a_needle_from_which_the_wall_lifts_leaves_the_rest_in_balance() {
    let mut steps = Steps::default();
    steps.add(0.0, 2.2, &Shares::one(Channel::WallG, 10.0));
    let leaves = vec![steps];
    let axes = [1.0, 1.3, 2.0];
    let national = uk();
    let line = Pushing {
        leaves: &leaves,
        axes: &axes,
        beam: &Influence::of(&axes),
        cut: (0.0, 2.2),
        national: &national,
    };
    let found = line.reactions();
    for (pairs, expected) in found.iter().zip([19.8, 0.0, 2.2]) {
        let kn = pairs.iter().map(|pair| service(&pair[0])).fold(0.0, f64::max);
        assert!((kn - expected).abs() < 1e-9, "{kn} against {expected}");
    }
}
