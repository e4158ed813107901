//! Statics of headers, joists and runners against the formulas of common beam tables, written from memory and worked by hand.
#![expect(clippy::unwrap_used, reason = "a test stops at the first refusal")]

use super::Timber;
use super::comb::{OnProps, PointLoad, comb_effects, effects};
use super::joist::Joists;
use super::member::timber_design;
use super::runner::{FromNeedle, Props, Runner};
use crate::checks::{Full, Side};
use crate::clause::en1995::beam::k_crit;
use crate::clause::national::Annex;
use crate::tables::members::parse_member;
use crate::tables::timber::grade;

const NEAR: f64 = 2e-4;

fn beam(length_m: f64, props_m: &[f64]) -> OnProps {
    OnProps {
        length_m,
        props_m: props_m.to_vec(),
        weight_kn_m: 0.0,
    }
}

fn point(x_m: f64, g_kn: f64, q_kn: f64) -> PointLoad {
    PointLoad { x_m, g_kn, q_kn }
}

fn near(found: f64, table: f64, what: &str) {
    assert!(
        (found - table).abs() <= NEAR * table.abs().max(1.0),
        "{what}: {found}, by the table {table}"
    );
}

/// EN 1990 Eq. (6.10).
const FACTORS: (f64, f64) = (1.35, 1.5);

/// Simple span, load in the middle: M = P·L/4, deflection P·L³/(48·E·I), V = P/2. Beam tables.
#[test]
fn a_load_in_the_middle_of_a_simple_span() {
    let found = effects(&beam(2.0, &[0.0, 2.0]), &[point(1.0, 10.0, 0.0)], FACTORS).unwrap();
    near(found.service.moment_kn_m, 5.0, "M");
    near(found.service.shear_kn, 5.0, "V");
    near(found.service.deflection_kn_m3, 10.0 * 8.0 / 48.0, "deflection");
    // EN 1990 Eq. (6.10): 1.35 on permanent load.
    near(found.strength.moment_kn_m, 1.35 * 5.0, "M at strength");
}

/// Two equal spans, a load in the middle of each: reactions 5P/16, 11P/8, 5P/16; hogging 3P·L/16. Beam tables.
#[test]
fn two_equal_spans_with_a_load_in_each() {
    let found = effects(
        &beam(4.0, &[0.0, 2.0, 4.0]),
        &[point(1.0, 8.0, 0.0), point(3.0, 8.0, 0.0)],
        FACTORS,
    )
    .unwrap();
    for (found, table) in found.service.props_kn.iter().zip([2.5, 11.0, 2.5]) {
        near(*found, table, "reaction");
    }
    near(found.service.moment_kn_m, 3.0, "hogging");
    near(found.service.total_kn, 16.0, "total");
}

/// The same with imposed load: it stands in one span alone where that is worse. Two equal spans, one load in the middle of
/// one: reactions 13P/32, 11P/16, −3P/32, sagging 13P·L/64. Beam tables.
#[test]
fn imposed_load_stands_where_it_is_worst() {
    let found = effects(
        &beam(4.0, &[0.0, 2.0, 4.0]),
        &[point(1.0, 4.0, 8.0), point(3.0, 4.0, 8.0)],
        FACTORS,
    )
    .unwrap();
    let outer = 5.0 * 4.0 / 16.0 + 13.0 * 8.0 / 32.0;
    let middle = 11.0 * 12.0 / 8.0;
    near(found.service.props_kn.first().copied().unwrap(), outer, "outer prop");
    near(found.service.props_kn.get(1).copied().unwrap(), middle, "middle prop");
    // Sagging under the load: the outer reaction times 1 m.
    near(found.service.moment_kn_m, outer.max(3.0 * 12.0 * 2.0 / 16.0), "moment");
}

/// A comb finer than the spans comes near the even load: two spans of 1.5 m, 0.1 kN each 10 mm is 10 kN/m; the middle
/// reaction is 1.25·w·L, hogging w·L²/8. Beam tables; 1 % for the comb.
#[test]
fn a_fine_comb_is_an_even_load() {
    let found = comb_effects(&beam(3.0, &[0.0, 1.5, 3.0]), 0.01, 0.1, 0.0, FACTORS).unwrap();
    let middle = found.service.props_kn.get(1).copied().unwrap();
    assert!((middle / 18.75 - 1.0).abs() < 0.01, "{middle}");
    assert!((found.service.moment_kn_m / (10.0 * 2.25 / 8.0) - 1.0).abs() < 0.01);
}

/// The worst shift of a coarse comb puts a joist in mid-span: at least P·L/4 of a simple span, where one joist stands in it.
#[test]
fn the_comb_is_shifted_to_its_worst_place() {
    let found = comb_effects(&beam(1.0, &[0.0, 1.0]), 1.0, 4.0, 0.0, FACTORS).unwrap();
    near(found.service.moment_kn_m, 1.0, "P·L/4");
    near(found.service.largest_prop_kn(), 4.0, "a joist right over a prop");
}

fn joists(through: Option<(f64, f64)>) -> Joists {
    let c16 = *grade("C16").unwrap();
    Joists {
        span_m: 4.0,
        past_m: 1.0,
        spacing_m: 0.5,
        g_kn_m2: 1.0,
        q_kn_m2: 2.0,
        through,
        timber: Timber {
            grade: c16,
            b_mm: 47.0,
            h_mm: 200.0,
            design: timber_design(&c16, 21.0, 2, &Annex::default().parameters()),
            k_cr: 0.67,
        },
        factors: FACTORS,
    }
}

/// Beam overhanging one support under an even load, l = 3 m between supports, a = 1 m beyond: reaction at the overhang
/// w(l + a)²/(2l), moment over it w·a²/2, shear l-side w(l² + a²)/(2l). Beam tables; w = 0.5 and 1.0 kN/m.
#[test]
fn a_joist_hangs_past_its_header() {
    let found = joists(None).over_header().unwrap();
    near(found.g_kn, 0.5 * 16.0 / 6.0, "permanent");
    near(found.q_kn, 1.0 * 16.0 / 6.0, "imposed");
    let w = 1.35 * 0.5 + 1.5 * 1.0;
    near(found.hog_kn_m, w / 2.0, "hogging");
    near(found.shear_kn, w * 10.0 / 6.0, "shear");
    // Imposed on the span alone, dead alone (not increased) past the header: far reaction w·l/2 − g·a²/(2l), M = R²/(2w).
    let far = w * 1.5 - 0.5 / 6.0;
    near(found.sag_kn_m, far * far / (2.0 * w), "sagging");
    near(found.before_kn_m, w * 2.0, "today");
    assert!(
        joists(None).over_header().unwrap().g_kn > 0.5 * 4.0 / 2.0,
        "more than the wall carries today"
    );
}

/// Uncut over two headers the sum of all four reactions is the load, and by symmetry each half carries its own.
#[test]
fn joists_that_run_through_load_the_header_no_less() {
    let (cut, through) = (
        joists(None).over_header().unwrap(),
        joists(Some((4.0, 1.0))).over_header().unwrap(),
    );
    assert!(through.g_kn >= cut.g_kn && through.q_kn >= cut.q_kn);
    assert!(
        through.g_kn < 0.5 * 4.0,
        "half of the beam carries its own half: {}",
        through.g_kn
    );
}

/// EN 1995-1-1 Eq. (6.32), by hand: 75 × 225 C24, 1350 mm: σ_crit = 0.78·75²·7400/(225·1800) = 80.2, λ = 0.547, k = 1.
/// 20 × 200 over 3000 mm: σ_crit = 0.78·20²·7400/(200·3400) = 3.395, λ = 2.659, k = 1/λ² = 0.1415.
#[test]
fn a_slender_header_tips() {
    let c24 = grade("C24").unwrap();
    near(k_crit(c24, 75.0, 225.0, 1350.0), 1.0, "stocky");
    assert!((k_crit(c24, 20.0, 200.0, 3000.0) - 0.1415).abs() < 5e-4);
}

/// A 100 × 100 runner on props at 1.2 m with a needle of 3.75 kN in mid-span: about 6.7 N/mm² without factors.
/// Source: the old manual's plan (SITUATIONS 02, hand check): 3.75·1.2/4 = 1.125 kNm over 166 667 mm³ = 6.75 N/mm².
#[test]
fn the_old_manuals_runner() {
    let member = parse_member("C24 100x100").unwrap().member;
    let needles = [FromNeedle {
        x_m: 0.6,
        service_kn: 3.75,
        strength_kn: 5.2,
    }];
    let runner = Runner {
        member: &member,
        props: Props::At(vec![1.2, 0.0]),
        needles: &needles,
        needle_mm: 100.0,
        days: 21.0,
        national: &Annex::default().parameters(),
    };
    let mut full = Full::default();
    let props = runner.check(Side::Inside, &mut full).unwrap();
    let bending = full.checks.iter().find(|check| check.name == "runner_bending").unwrap();
    // Its own 4.2 kg/m add 1.35·0.0412·(1.2²/8 − 0.15²/2) = 0.009 kNm.
    assert!(
        (bending.demand - 5.2 * 1.2 / 4.0 - 0.0094).abs() < 1e-3,
        "{}",
        bending.demand
    );
    // C24, 21 days, outdoors: 24 × 0.65 / 1.3 = 12 N/mm² on 166 667 mm³ is 2.0 kNm; k_crit is 1.
    near(bending.resistance, 2.0, "M_Rd");
    for prop in props {
        assert!((prop.service_kn - 1.875 - 0.0412 * 0.75).abs() < 1e-3, "{prop:?}");
    }
}

/// With only a spacing said, the needle in mid-span and the needle over a prop are both looked at.
#[test]
fn a_runner_with_only_a_spacing_counts_at_its_worst() {
    let member = parse_member("C24 100x100").unwrap().member;
    let needles = [0.0, 0.6, 1.2, 1.8].map(|x_m| FromNeedle {
        x_m,
        service_kn: 5.0,
        strength_kn: 7.0,
    });
    let mut full = Full::default();
    let runner = Runner {
        member: &member,
        props: Props::Every(1.2),
        needles: &needles,
        needle_mm: 100.0,
        days: 21.0,
        national: &Annex::default().parameters(),
    };
    let props = runner.check(Side::Outside, &mut full).unwrap();
    let largest = props.iter().map(|prop| prop.service_kn).fold(0.0, f64::max);
    assert!(
        largest >= 10.0,
        "a prop under one needle takes half of both its neighbours: {largest}"
    );
    let nothing = Runner {
        props: Props::At(vec![5.0]),
        ..runner
    };
    assert!(
        nothing.check(Side::Inside, &mut full).is_none(),
        "one prop holds no runner"
    );
}
