//! Facts of the trade that a whole plan must agree with: common practice, no source.

use crate::typed_job::read;
use strawblue::engine::plan::plan;
use strawblue::reference::embedded;

/// A thick chromium-molybdenum part of C 0.28 to 0.35 %, welded at 5 ml/100 g or less, is
/// preheated to about 260 °C (500 °F): that figure lies inside its window (common practice,
/// no source).
#[test]
fn a_thick_chromium_molybdenum_part_may_be_welded_at_260_c() {
    let mut asked = 0;
    for carbon in ["0.28", "0.30", "0.32", "0.35"] {
        for hydrogen in ["2", "3", "H5"] {
            for thickness in ["40", "60", "75"] {
                for (restraint, condition) in
                    [("low", "normalised"), ("medium", "annealed"), ("medium", "hardened and tempered 600 C")]
                {
                    let certificate = format!("C {carbon} Si 0.25 Mn 0.6 P 0.01 S 0.01 Cr 1.0 Mo 0.2");
                    let job = read(&[
                        ("certificate", certificate.as_str()),
                        ("condition", condition),
                        ("thickness", thickness),
                        ("joint", "butt"),
                        ("process", "gmaw"),
                        ("hydrogen", hydrogen),
                        ("heat-input", "1.2"),
                        ("restraint", restraint),
                    ]);
                    let plan = plan(embedded(), &job.expect("reads").job);
                    let at = format!("C {carbon}, {hydrogen} ml, {thickness} mm, {restraint}, {condition}");
                    let (minimum_c, interpass_c) = (plan.minimum_c.expect("a figure"), plan.interpass_c);
                    assert!(plan.usable_window, "{at}");
                    assert!(minimum_c <= 260.0, "{at}: at least {minimum_c}");
                    assert!(
                        interpass_c.is_some_and(|most_c| most_c >= 260.0),
                        "{at}: at most {interpass_c:?}"
                    );
                    assert!(plan.ceiling_c.is_none_or(|ceiling_c| ceiling_c >= 260.0), "{at}");
                    asked += 1;
                }
            }
        }
    }
    assert_eq!(asked, 108);
}

/// An undermatched filler is what hardenable steel is often welded with: beside a matching
/// one it never asks for more preheat (common practice, no source).
#[test]
fn an_undermatched_filler_never_asks_for_more() {
    let minimum_c = |strength: &str, cet: &str| {
        let job = read(&[
            ("steel", "4140"),
            ("condition", "hardened and tempered 600 C"),
            ("thickness", "40"),
            ("joint", "butt"),
            ("process", "smaw basic"),
            ("hydrogen", "H4"),
            ("weld-strength", strength),
            ("weld-cet", cet),
        ]);
        plan(embedded(), &job.expect("reads").job).minimum_c.expect("a figure")
    };
    let weak = minimum_c("500 MPa", "0.20");
    let strong = minimum_c("900 MPa", "0.40");
    assert!(weak <= strong, "{weak} {strong}");
}
