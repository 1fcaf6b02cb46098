//! Laws of reading and showing: no text panics, no rounding loosens, and what is
//! shown reads back as itself.

use proptest::prelude::*;
use strawblue::units::{
    self, LengthUnit, Mark, Printed, Show, Side, TemperatureUnit, Units, limit_value, limits, safe_maximum,
    safe_minimum, tidy,
};

const TEMPERATURES: [TemperatureUnit; 2] = [TemperatureUnit::C, TemperatureUnit::F];
const LENGTHS: [LengthUnit; 2] = [LengthUnit::Mm, LengthUnit::Inch];

/// Texts near what people type: digits, marks, units, and anything at all.
fn typed() -> impl Strategy<Value = String> {
    prop_oneof![
        ".{0,40}",
        "[-+−]?[0-9.,/ ½¾]{0,12} ?(mm|in|\"|°C|F|kJ/mm|kJ/in|ml|HRC|HV|ksi|h|min|:|ga|e|E|Ø|%)?[0-9]{0,3}",
        "(Ø|H|EN |D1\\.1 |dia )?[0-9]{0,4}[,.' ]?[0-9]{0,3}[a-zA-Z/°]{0,6}",
    ]
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 2000, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn no_text_panics_and_no_answer_leaves_its_limits(text in typed()) {
        let _ = tidy(&text);
        let _ = Units::read(&text);
        for unit in LENGTHS {
            if let Ok(length) = units::length(&text, unit, limits::THICKNESS_MM) {
                prop_assert!((0.4999..=500.0001).contains(&length.mm));
            }
            if let Ok(heat) = units::net_heat(&text, unit, limits::NET_HEAT_KJ_PER_MM) {
                prop_assert!((0.0499..=10.0001).contains(&heat));
            }
            if let Ok(energy) = units::arc_energy(&text, unit, limits::ARC_ENERGY_KJ_PER_MM) {
                prop_assert!((0.0499..=17.0001).contains(&energy));
            }
            if let Ok(travel) = units::travel(&text, unit, limits::TRAVEL_MM_PER_MIN) {
                prop_assert!((4.999..=5000.01).contains(&travel));
            }
            if let Ok(strength) = units::strength(&text, unit, limits::STRENGTH_MPA) {
                prop_assert!((99.99..=2500.01).contains(&strength));
            }
            if let Ok(run) = units::run_length(&text, unit, limits::RUN_MM) {
                prop_assert!((4.999..=100_000.01).contains(&run));
            }
            let _ = units::mass(&text, unit, limits::MASS_KG);
        }
        for unit in TEMPERATURES {
            if let Ok(shop) = units::temperature(&text, unit, limits::SHOP_C) {
                prop_assert!((-40.001..=60.001).contains(&shop));
            }
            let _ = units::difference(&text, unit, limits::DIFFERENCE_K);
        }
        if let Ok(hydrogen) = units::hydrogen(&text, limits::HYDROGEN_ML) {
            prop_assert!((0.0999..=100.0001).contains(&hydrogen.ml));
        }
        let _ = units::hardness(&text);
        if let Ok(time) = units::duration(&text, units::TimeUnit::Minutes, limits::DURATION_S) {
            prop_assert!(time >= 0.0 && time.is_finite());
        }
        if let Ok(time) = units::duration(&text, units::TimeUnit::Seconds, limits::ARC_TIME_S) {
            prop_assert!((0.999..=36_000.001).contains(&time));
        }
        let _ = units::voltage(&text, limits::VOLTAGE_V);
        let _ = units::current(&text, limits::CURRENT_A);
        let _ = units::share(&text);
        let _ = units::number(&text, limits::CET);
        let _ = units::count(&text, limits::RUNS);
    }

    /// A number of three decimals after a point is never taken for thousands, and the
    /// same digits after a comma are never taken silently.
    #[test]
    fn a_comma_before_three_digits_is_asked(whole in 1_u32..=999, part in 0_u32..=999) {
        let point = units::number(&format!("{whole}.{part:03}"), units::Within::new(0.0, 1e6));
        prop_assert_eq!(point, Ok(f64::from(whole * 1000 + part) / 1000.0));
        let comma = units::number(&format!("{whole},{part:03}"), units::Within::new(0.0, 1e6));
        prop_assert!(matches!(comma, Err(units::Problem::Ambiguous { .. })), "{:?}", comma);
    }

    /// Rounding is safe in either unit, by less than one step.
    #[test]
    fn our_own_limits_round_to_the_safe_side(exact_c in -40.0_f64..800.0) {
        for (unit, step_k) in [(TemperatureUnit::C, 5.0), (TemperatureUnit::F, 10.0 / 1.8)] {
            let minimum_c = unit.to_c(safe_minimum(exact_c, unit));
            prop_assert!(minimum_c >= exact_c - 1e-5 && minimum_c < exact_c + step_k);
            let maximum_c = unit.to_c(safe_maximum(exact_c, unit));
            prop_assert!(maximum_c <= exact_c + 1e-5 && maximum_c > exact_c - step_k);
        }
    }

    /// Changing the unit never loosens a limit: whatever is shown, in whatever unit, is
    /// no looser than the carried figure by more than the 1 K that printed pairs differ by;
    /// and an unprinted one by nothing.
    #[test]
    fn changing_the_unit_never_loosens(
        exact_c in -40.0_f64..800.0,
        c in proptest::option::of(-3.0_f64..3.0),
        f in proptest::option::of(-6.0_f64..6.0),
    ) {
        let printed = Printed {
            c: c.map(|off| (exact_c + off).round()),
            f: f.map(|off| (exact_c * 1.8 + 32.0 + off).round()),
        };
        for unit in TEMPERATURES {
            for printed in [None, Some(printed)] {
                let slack = if printed.is_some_and(|printed| printed.in_unit(unit).is_some()) { 1.00001 } else { 1e-5 };
                prop_assert!(unit.to_c(limit_value(Side::Minimum, exact_c, printed, unit)) >= exact_c - slack);
                prop_assert!(unit.to_c(limit_value(Side::Maximum, exact_c, printed, unit)) <= exact_c + slack);
            }
        }
    }

    /// A higher need is never shown lower.
    #[test]
    fn rounding_keeps_the_order(low_c in -40.0_f64..800.0, more_k in 0.0_f64..50.0) {
        for unit in TEMPERATURES {
            prop_assert!(safe_minimum(low_c, unit) <= safe_minimum(low_c + more_k, unit));
            prop_assert!(safe_maximum(low_c, unit) <= safe_maximum(low_c + more_k, unit));
        }
    }

    /// What is shown, read again, is shown the same, with a point or a comma.
    #[test]
    fn what_is_shown_reads_back(
        length_mm in 0.5_f64..500.0, point_c in 0.0_f64..780.0, heat in 0.06_f64..9.9,
        hydrogen in 0.1_f64..100.0, strength in 110.0_f64..2400.0, travel in 6.0_f64..4900.0, time_s in 0.0_f64..2e6,
        comma: bool,
    ) {
        for shown in Units::ALL {
            let show = Show { units: shown, mark: if comma { ',' } else { '.' } };
            let both = show.length(length_mm);
            for text in [both.main, both.second] {
                let read = |text: &str| units::length(text, shown.length, limits::THICKNESS_MM);
                let again = show.length(show.typed_mark().read(&text, read).map_or(f64::NAN, |length| length.mm));
                prop_assert!(again.main == text || again.second == text, "{} {:?}", text, again);
            }
            for both in [show.temperature(point_c), show.minimum(point_c, None), show.maximum(point_c, None)] {
                for text in [both.main, both.second] {
                    let again_c = units::temperature(&text, shown.temperature, limits::READING_C);
                    let again = show.temperature(again_c.clone().unwrap_or(f64::NAN));
                    prop_assert!(again.main == text || again.second == text, "{} {:?}", text, again_c);
                }
            }
            let minimum = show.minimum(point_c, None).main;
            let again_c = units::temperature(&minimum, shown.temperature, limits::READING_C).unwrap_or(f64::NAN);
            prop_assert_eq!(&show.minimum(again_c, None).main, &minimum);
            let maximum = show.maximum(point_c, None).main;
            let again_c = units::temperature(&maximum, shown.temperature, limits::READING_C).unwrap_or(f64::NAN);
            prop_assert_eq!(&show.maximum(again_c, None).main, &maximum);
            let text = show.heat(heat).main;
            prop_assert_eq!(show.heat(units::net_heat(&text, shown.length, limits::NET_HEAT_KJ_PER_MM).unwrap_or(f64::NAN)).main, text);
            let text = show.hydrogen(hydrogen);
            prop_assert_eq!(show.hydrogen(units::hydrogen(&text, limits::HYDROGEN_ML).map_or(f64::NAN, |read| read.ml)), text);
            let text = show.strength(strength).main;
            prop_assert_eq!(show.strength(units::strength(&text, shown.length, limits::STRENGTH_MPA).unwrap_or(f64::NAN)).main, text);
            let text = show.travel(travel).main;
            prop_assert_eq!(show.travel(units::travel(&text, shown.length, limits::TRAVEL_MM_PER_MIN).unwrap_or(f64::NAN)).main, text);
            let text = show.duration(time_s);
            prop_assert_eq!(show.duration(units::duration(&text, units::TimeUnit::Minutes, limits::DURATION_S).unwrap_or(f64::NAN)), text);
        }
    }

    /// A sixteenth of an inch is shown as one and read back to the same length.
    #[test]
    fn sixteenths_read_back_exactly(sixteenths in 1_u32..300) {
        let length_mm = f64::from(sixteenths) * 25.4 / 16.0;
        let show = Show { units: Units::F_IN, mark: '.' };
        let text = show.length(length_mm).main;
        prop_assert!(!text.contains('.'), "{}", text);
        let again = units::length(&text, LengthUnit::Inch, limits::THICKNESS_MM).map(|length| length.mm);
        prop_assert!((again.unwrap_or(0.0) - length_mm).abs() < 1e-9, "{}", text);
    }
}

/// Printed pairs of the AWS D1.1 prequalified table: 150 °F / 65 °C, 225 °F / 110 °C, and
/// of the A514 row, 125 °F / 52 °C (preheat of hardenable steels; °F verified there).
#[test]
fn printed_figures_are_shown_as_printed_unless_looser() {
    let pair = |c: f64, f: f64| Some(Printed { c: Some(c), f: Some(f) });
    let show_f = Show { units: Units::F_IN, mark: '.' };
    let show_c = Show::default();
    assert_eq!(show_c.minimum(52.0, pair(52.0, 125.0)).main, "52\u{a0}°C");
    assert_eq!(show_f.minimum(52.0, pair(52.0, 125.0)).main, "125\u{a0}°F");
    assert_eq!(show_f.minimum(65.0, pair(65.0, 150.0)).main, "150\u{a0}°F");
    // 225 °F is 107.2 °C, looser than 110 °C by more than 1 K.
    assert_eq!(show_f.minimum(110.0, pair(110.0, 225.0)).main, "230\u{a0}°F");
    // A source in °C only: 300 °C is 572 °F.
    let celsius = Some(Printed { c: Some(300.0), f: None });
    assert_eq!(show_f.minimum(300.0, celsius).main, "580\u{a0}°F");
    assert_eq!(show_c.minimum(300.0, celsius).main, "300\u{a0}°C");
    // A514 interpass: 400 °F / 205 °C; 400 °F is 204.4 °C, the tighter one.
    assert_eq!(show_f.maximum(205.0, pair(205.0, 400.0)).main, "400\u{a0}°F");
    assert_eq!(show_c.maximum(205.0, pair(205.0, 400.0)).main, "205\u{a0}°C");
}

proptest! {
    /// A number that is written with a mark is read with that mark as what it was, whatever its decimals.
    #[test]
    fn a_number_reads_back_with_its_mark(value in -2e6_f64..2e6, decimals in 0_usize..6, comma: bool) {
        let show = Show { mark: if comma { ',' } else { '.' }, ..Show::default() };
        let text = show.number(value, decimals);
        let any = units::Within::new(-1e9, 1e9);
        let again = show.typed_mark().read(&text, |text| units::number(text, any));
        prop_assert_eq!(again.map(|again| show.number(again, decimals)), Ok(text));
    }
}

/// Common practice, no source: a German writes 1.500 for fifteen hundred and 1,500 for one and a half.
#[test]
fn one_mark_with_three_figures_is_never_guessed_against_the_language() {
    let any = units::Within::new(0.0, 1e9);
    let read = |mark: Mark, text: &str| mark.read(text, |text| units::number(text, any));
    for (text, value) in [
        ("1,500", 1.5),
        ("0,125", 0.125),
        ("1,5", 1.5),
        ("1.5", 1.5),
        ("0.125", 0.125),
        ("1.500,5", 1500.5),
        ("1 500", 1500.0),
        ("1.500.000", 1.5e6),
        ("12,4567", 12.4567),
    ] {
        assert_eq!(read(Mark::Comma, text), Ok(value), "{text}");
    }
    let asked = read(Mark::Comma, "1.500").expect_err("two meanings");
    let writes: Vec<&str> = asked.choices().iter().map(|choice| choice.write.as_str()).collect();
    assert_eq!((asked.typed(), writes), ("1.500", vec!["1,500", "1500"]));
    // Each of them is understood, and what is typed comes back as it was typed.
    assert_eq!(read(Mark::Comma, "1,500"), Ok(1.5));
    let far = Mark::Comma.read("1,500", |text| units::number(text, limits::SHARE)).expect_err("too much");
    assert_eq!(far.typed(), "1,500");
    // Without a language the comma is asked about, and the point is a point.
    assert_eq!(read(Mark::Point, "1.500"), Ok(1.5));
    assert_eq!(read(Mark::Point, "1,500").expect_err("two meanings").choices().len(), 2);
    // A range, a sum and a fraction keep their parts.
    let kept = |text: &str| Mark::Comma.read(text, |text| Ok::<_, units::Problem>(text.to_owned()));
    assert_eq!(kept("1,250–2,500 mm"), Ok("1.250–2.500 mm".to_owned()));
    assert_eq!(kept("1-1/2 in + 0,125"), Ok("1-1/2 in + 0,125".to_owned()));
}

#[test]
fn figures_are_shown_as_the_trade_writes_them() {
    let show = Show { units: Units::F_IN, mark: '.' };
    assert_eq!(show.length(38.1).main, "1-1/2\u{a0}in");
    assert_eq!(show.length(19.05).main, "3/4\u{a0}in");
    assert_eq!(show.length(50.8).main, "2\u{a0}in");
    assert_eq!(show.length(38.0).main, "1.496\u{a0}in");
    assert_eq!(show.length(38.1).second, "38.1\u{a0}mm");
    assert_eq!(show.temperature(-40.0).main, "\u{2212}40\u{a0}°F");
    assert_eq!(show.difference(30.0).main, "54\u{a0}°F");
    assert_eq!(Show { mark: ',', ..Show::default() }.heat(1.25).main, "1,25\u{a0}kJ/mm");
    assert_eq!(show.duration(8400.0), "2\u{a0}h 20\u{a0}min");
}
