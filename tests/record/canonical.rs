//! RFC 8785: the published vectors.

use serde_json::{Value, json};
use upstay_lib::record::canonical;

/// Section 3.2.2: numbers, strings and literals.
#[test]
fn the_sample_of_section_3_2_2() {
    let input = r#"{
        "numbers": [333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001],
        "string": "\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/",
        "literals": [null, true, false]
    }"#;
    let value: Value = serde_json::from_str(input).unwrap();
    let expected = concat!(
        r#"{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],"#,
        r#""string":"€$\u000f\nA'B\"\\\\\"/"}"#
    );
    assert_eq!(canonical(&value).unwrap(), expected);
}

/// Section 3.2.3: members by UTF-16 code units, which puts the emoji before the Hebrew letter.
#[test]
fn the_sorting_sample_of_section_3_2_3() {
    let input = r#"{"\u20ac": "Euro Sign", "\r": "Carriage Return", "\ufb33": "Hebrew Letter Dalet With Dagesh",
        "1": "One", "\ud83d\ude00": "Emoji: Grinning Face", "\u0080": "Control",
        "\u00f6": "Latin Small Letter O With Diaeresis"}"#;
    let text = canonical(&serde_json::from_str(input).unwrap()).unwrap();
    let order = [
        "Carriage Return",
        "One",
        "Control",
        "Latin Small",
        "Euro Sign",
        "Emoji",
        "Hebrew",
    ];
    let found: Vec<usize> = order.iter().map(|words| text.find(words).unwrap()).collect();
    assert!(found.is_sorted(), "{text}");
}

/// Appendix B: bit patterns and their spelling.
#[test]
fn the_numbers_of_appendix_b() {
    for (bits, spelt) in [
        (0x0000_0000_0000_0000, "0"),
        (0x8000_0000_0000_0000, "0"),
        (0x0000_0000_0000_0001, "5e-324"),
        (0x8000_0000_0000_0001, "-5e-324"),
        (0x7fef_ffff_ffff_ffff, "1.7976931348623157e+308"),
        (0x4340_0000_0000_0000, "9007199254740992"),
        (0x4430_0000_0000_0000, "295147905179352830000"),
        (0x44b5_2d02_c7e1_4af5, "9.999999999999997e+22"),
        (0x44b5_2d02_c7e1_4af6, "1e+23"),
        (0x44b5_2d02_c7e1_4af7, "1.0000000000000001e+23"),
        (0x444b_1ae4_d6e2_ef4e, "999999999999999700000"),
        (0x444b_1ae4_d6e2_ef4f, "999999999999999900000"),
        (0x444b_1ae4_d6e2_ef50, "1e+21"),
        (0x3eb0_c6f7_a0b5_ed8c, "9.999999999999997e-7"),
        (0x3eb0_c6f7_a0b5_ed8d, "0.000001"),
        (0x41b3_de43_5555_5553, "333333333.3333332"),
        (0x41b3_de43_5555_5554, "333333333.33333325"),
        (0x41b3_de43_5555_5555, "333333333.3333333"),
        (0x41b3_de43_5555_5556, "333333333.3333334"),
        (0xbecb_f647_612f_3696, "-0.0000033333333333333333"),
    ] {
        assert_eq!(canonical(&json!(f64::from_bits(bits))).unwrap(), spelt, "{bits:016x}");
    }
}

/// What would not read back the same is refused, not rounded.
#[test]
fn a_whole_number_beyond_the_exact_range_is_refused() {
    assert_eq!(
        canonical(&json!(9_007_199_254_740_991_i64)).unwrap(),
        "9007199254740991"
    );
    assert_eq!(canonical(&json!(9_007_199_254_740_993_i64)).unwrap_err().code(), "body");
    assert_eq!(canonical(&json!({"a": [u64::MAX]})).unwrap_err().code(), "body");
    let deep = (0..200).fold(json!(1), |inner, _| json!([inner]));
    assert_eq!(canonical(&deep).unwrap_err().code(), "body");
}
