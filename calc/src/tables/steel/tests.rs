//! Tabulated sections against their dimensions, formulas against tabulated sections.

#![expect(clippy::unwrap_used, reason = "a test stops at the first missing section")]
use super::*;

/// Area and second moments of an I-section from its dimensions, with the four root fillets.
fn from_dimensions(s: &SteelSection) -> (f64, f64, f64) {
    let (hw, r) = (s.h_mm - 2.0 * s.tf_mm, s.r_mm);
    let (fillet, arm) = ((1.0 - PI / 4.0) * r * r, r * (10.0 - 3.0 * PI) / (12.0 - 3.0 * PI));
    let own = (1.0 / 3.0 - PI / 16.0 - 1.0 / (3.0 * (12.0 - 3.0 * PI))) * r.powi(4);
    let area = 2.0 * s.b_mm * s.tf_mm + hw * s.tw_mm + 4.0 * fillet;
    let iy = (s.b_mm * s.h_mm.powi(3) - (s.b_mm - s.tw_mm) * hw.powi(3)) / 12.0
        + 4.0 * (own + fillet * (hw / 2.0 - arm).powi(2));
    let wpl = s.b_mm * s.tf_mm * (s.h_mm - s.tf_mm) + s.tw_mm * hw * hw / 4.0 + 4.0 * fillet * (hw / 2.0 - arm);
    (area, iy, wpl)
}

#[test]
fn tabulated_sections_agree_with_their_dimensions() {
    for name in open_names() {
        let section = open(name).unwrap();
        let (area, iy, wpl) = from_dimensions(&section);
        assert!((area / section.area_mm2 - 1.0).abs() < 0.01, "{name}: area {area}");
        assert!((iy / section.iy_mm4 - 1.0).abs() < 0.01, "{name}: Iy {iy}");
        assert!((wpl / section.wpl_y_mm3 - 1.0).abs() < 0.01, "{name}: Wpl {wpl}");
        let iw = section.iz_mm4 * (section.h_mm - section.tf_mm).powi(2) / 4.0;
        assert!((iw / section.iw_mm6 - 1.0).abs() < 0.05, "{name}: Iw {iw}");
    }
}

#[test]
fn hollow_formulas_meet_tabulated_properties() {
    // EN 10210-2 as tabulated by steelsnakes 0.0.1a11: A cm², Iy cm⁴, Iz cm⁴, Wpl cm³, It cm⁴.
    let rows = [
        (100.0, 100.0, 5.0, [18.7, 279.0, 279.0, 66.4, 439.0], false),
        (150.0, 150.0, 8.0, [44.8, 1490.0, 1490.0, 237.0, 2350.0], false),
        (120.0, 80.0, 6.3, [23.2, 440.0, 230.0, 91.0, 487.0], false),
        (200.0, 100.0, 8.0, [44.8, 2230.0, 739.0, 282.0, 1800.0], false),
        (100.0, 100.0, 5.0, [18.4, 271.0, 271.0, 64.6, 441.0], true),
        (150.0, 150.0, 8.0, [43.2, 1410.0, 1410.0, 226.0, 2360.0], true),
    ];
    for (h, b, t, printed, cold) in rows {
        let s = hollow(h, b, t, cold).unwrap();
        let found = [
            s.area_mm2 / 1e2,
            s.iy_mm4 / 1e4,
            s.iz_mm4 / 1e4,
            s.wpl_y_mm3 / 1e3,
            s.it_mm4 / 1e4,
        ];
        for (found, printed) in found.into_iter().zip(printed) {
            assert!(
                (found / printed - 1.0).abs() < 0.006,
                "{h}x{b}x{t} {cold}: {found} against {printed}"
            );
        }
    }
}

#[test]
fn a_wall_thicker_than_the_hollow_is_no_section() {
    assert!(hollow(100.0, 100.0, 40.0, false).is_none());
    assert!(hollow(100.0, 150.0, 5.0, false).is_none());
    assert!(hollow(f64::NAN, 100.0, 5.0, false).is_none());
}
