//! Named checks of cracks and heat treatment after welding: laws and refusals.

use proptest::prelude::*;
use strawblue::engine::crack::Check;
use strawblue::engine::crack::butter::butter;
use strawblue::engine::crack::cut_edge::cut_preheat;
use strawblue::engine::crack::hydrogen_hardness::hydrogen_hardness;
use strawblue::engine::crack::lamellar::{LamellarQuery, lamellar};
use strawblue::engine::crack::reheat::{delta_g, psr};
use strawblue::engine::crack::solidification::{mixed, ucs};
use strawblue::engine::family::Family;
use strawblue::engine::tempering::{TemperCycle, hours_at, parameter, temperature_for, together};
use strawblue::questions::{self, Answers, Given, Problem};
use strawblue::reference::{Composition, Element, Restraint, WeldCracks, WeldTreatment, embedded};

fn cracks() -> &'static WeldCracks {
    &embedded().welding.cracks
}

fn treatment() -> &'static WeldTreatment {
    &embedded().welding.treatment
}

fn key(name: &str, numbers: &[(&str, f64)]) -> String {
    let given =
        numbers.iter().fold(Answers::new(), |all, (key, value)| all.with(*key, Given::Number(*value)));
    questions::find(name).expect("a question").ask(&given).expect_err("it is refused").key()
}

#[test]
fn what_has_no_answer_is_refused() {
    assert_eq!(key("cold-bent", &[("bend-radius", 9.0), ("thickness", 10.0)]), "error-bent-normalise");
    assert_eq!(key("butter-layers", &[("base-carbon", 0.4), ("filler-carbon", 0.13)]), "error-butter-filler");
    let far = [("treat-temperature", 700.0), ("treat-hours", 1000.0), ("other-temperature", 100.0)];
    assert_eq!(key("temper-cycles", &far), "error-temper-too-far");
    let half = [("treat-temperature", 600.0), ("treat-hours", 1.0), ("second-temperature", 550.0)];
    assert_eq!(key("temper-cycles", &half), "error-missing");
    assert_eq!(key("butter-layers", &[("base-carbon", 0.4), ("dilution", 1.2)]), "error-out-of-domain");
    let base = Answers::new()
        .with("composition", Given::Composition(Composition::default().with(Element::C, 0.4)))
        .with("dilution", Given::Number(1.2));
    let asked = questions::find("hot-cracking").expect("a question").ask(&base);
    assert!(matches!(asked, Err(Problem::Engine(_))));
}

fn steel() -> impl Strategy<Value = Composition> {
    prop::collection::vec(0.0..1.0f64, 10).prop_map(|parts| {
        let most = [0.8, 0.6, 1.6, 0.05, 0.05, 2.0, 1.0, 0.3, 0.06, 0.1];
        let elements = [
            Element::C,
            Element::Si,
            Element::Mn,
            Element::P,
            Element::S,
            Element::Cr,
            Element::Mo,
            Element::V,
            Element::Nb,
            Element::Ti,
        ];
        elements
            .into_iter()
            .zip(most)
            .zip(parts)
            .fold(Composition::default(), |made, ((element, most), part)| made.with(element, most * part))
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2000))]

    /// The index rises with C, S, P and Nb; mixing keeps every element between part and filler; the reheat
    /// indicators rise with each of their elements.
    #[test]
    fn indicators_rise_as_they_must(base in steel(), filler in steel(), share in 0.0..1.0f64, more in 0.001..0.2f64) {
        for element in [Element::C, Element::S, Element::P, Element::Nb] {
            let richer = base.with(element, base.get(element) + more);
            prop_assert!(ucs(cracks(), &richer) >= ucs(cracks(), &base));
        }
        let weld = mixed(&base, &filler, share);
        for &element in Element::ALL {
            let (a, b) = (base.get(element), filler.get(element));
            prop_assert!(weld.get(element) >= a.min(b) - 1e-12 && weld.get(element) <= a.max(b) + 1e-12);
        }
        prop_assert!((ucs(cracks(), &mixed(&base, &filler, 0.0)) - ucs(cracks(), &filler)).abs() < 1e-9);
        prop_assert!((ucs(cracks(), &mixed(&base, &filler, 1.0)) - ucs(cracks(), &base)).abs() < 1e-9);
        for element in [Element::Cr, Element::Mo, Element::V, Element::Cu, Element::Nb, Element::Ti] {
            let richer = base.with(element, base.get(element) + more);
            prop_assert!(delta_g(&richer) >= delta_g(&base) && psr(&richer) >= psr(&base));
        }
    }

    /// A harder zone, more hydrogen or more restraint never turns a warning into a pass.
    #[test]
    fn hydrogen_never_gets_better(hv in 200.0..500.0f64, harder in 0.0..100.0f64, ml in 0.0..20.0f64, wetter in 0.0..10.0f64) {
        let of = |hv, ml, restraint, family| {
            hydrogen_hardness(cracks(), hv, ml, restraint, family).expect("a check").1
        };
        let family = Family::Structural;
        if of(hv, ml, Restraint::Low, family) == Check::Warn {
            prop_assert_eq!(of(hv + harder, ml + wetter, Restraint::High, family), Check::Warn);
        }
        prop_assert_eq!(of(hv, ml, Restraint::Low, Family::Hardenable), Check::NoFigure);
    }

    /// The strain through a plate rises with weld, plate and restraint and falls with preheat; preheat before
    /// cutting rises with hardness and thickness; layers never fall with carbon or share.
    #[test]
    fn sizes_and_hardness_never_ease(
        a in 1.0..50.0f64, s in 5.0..80.0f64, more in 0.0..20.0f64, hb in 300.0..550.0f64, c in 0.13..0.9f64, d in 0.1..0.5f64,
    ) {
        let z = |throat_mm, plate_mm, restraint, preheat_c| {
            let asked = LamellarQuery { throat_mm, shape: "full-tee", plate_mm, compressed: false, restraint, preheat_c };
            lamellar(cracks(), &asked).expect("a sum")[0].value.expect("a figure")
        };
        let base = z(a, s, Restraint::Low, 20.0);
        prop_assert!(z(a + more, s, Restraint::Low, 20.0) >= base && z(a, s + more, Restraint::Low, 20.0) >= base);
        prop_assert!(z(a, s, Restraint::High, 20.0) >= base && z(a, s, Restraint::Low, 150.0) <= base);
        let cut = |hb, mm| cut_preheat(cracks(), hb, mm).expect("a row");
        let (less, now) = (cut(hb, s), cut(hb + more, s + more));
        if let (Some(less), Some(now)) = (less.preheat_c(), now.preheat_c()) {
            prop_assert!(now >= less);
        }
        let layers = |c, d| butter(cracks(), c, 0.08, d).expect("layers")[0].value.expect("a count");
        prop_assert!(layers(c + 0.1, d) >= layers(c, d) && layers(c, d + 0.1) >= layers(c, d));
    }

    /// Hours there and back are the same; the parameter rises with both; cycles together are at least each.
    #[test]
    fn one_cycle_is_the_other(t1 in 450.0..750.0f64, t2 in 450.0..750.0f64, h in 0.1..50.0f64, more in 0.1..20.0f64) {
        let data = treatment();
        let cycle = TemperCycle { at_c: t1, hours: h };
        let p = parameter(data, cycle);
        let there = hours_at(data, p, t2);
        let back = hours_at(data, parameter(data, TemperCycle { at_c: t2, hours: there }), t1);
        prop_assert!((back / h - 1.0).abs() < 1e-9);
        prop_assert!((temperature_for(data, p, h) - t1).abs() < 1e-6);
        let of = |at_c, hours| parameter(data, TemperCycle { at_c, hours });
        prop_assert!(of(t1 + more, h) > p && of(t1, h + more) > p);
        prop_assert!(hours_at(data, p, t2 + more) < there);
        let both = together(data, &[cycle, TemperCycle { at_c: t2, hours: h }]).expect("cycles");
        prop_assert!(parameter(data, both) >= p - 1e-12);
    }
}

/// Hours never fall with thickness, rates never rise with it.
#[test]
fn thicker_takes_longer_and_goes_slower() {
    let mut before: Option<Vec<f64>> = None;
    for mm in 1..300 {
        let given = Answers::new().with("thickness", Given::Number(f64::from(mm)));
        let reply = questions::find("stress-relief").expect("a question").ask(&given).expect("hours");
        let value = |name: &str| reply.answer(name).and_then(|found| found.value).expect("a figure");
        let now = vec![
            value("relief-hours-navsea"),
            value("relief-hours-asme"),
            -value("relief-rate-en"),
            -value("relief-heating-asme"),
            -value("relief-cooling-asme"),
        ];
        if let Some(before) = before {
            assert!(before.iter().zip(&now).all(|(less, more)| less <= more), "{mm}");
        }
        before = Some(now);
    }
}
