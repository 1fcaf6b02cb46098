//! Each answer of the engine refuses what is no number, negative or absurd, asked straight
//! and not through the questions, which check their own limits first.

use proptest::prelude::*;
use strawblue::engine::carbon_equivalent::{Equivalent, carbon_equivalent};
use strawblue::engine::combined_thickness::{Meeting, combined_thickness, tapered_thickness};
use strawblue::engine::cooling_time::{Cooling, cooling_time, preheat_for_cooling_time};
use strawblue::engine::evidence::{
    cracking_index, dearden_oneill, ito_bessyo, method_b, multi_run, seferian,
};
use strawblue::engine::family::Family;
use strawblue::engine::hardness::hardness;
use strawblue::engine::hardness_conversion::{ConversionTable, Scale, hardness_conversion};
use strawblue::engine::heat_input::{ArcRun, Travel, heat_input};
use strawblue::engine::hydrogen::{Coefficient, Slab, hydrogen_scale, removal_time, share_left};
use strawblue::engine::inspection::{WeldToInspect, inspection_wait};
use strawblue::engine::job::Restraint;
use strawblue::engine::plan::{down_c, up_c};
use strawblue::engine::post_heat::{PostHeatQuery, WeldPath, hold_after_welding};
use strawblue::engine::transformation::{martensite, transformation_temperatures};
use strawblue::engine::{Ends, EngineError, Outcome};
use strawblue::reference::{Composition, Diffusion, Element, Method, MethodRow, Methods, Unit, embedded};
use strum::IntoEnumIterator;

type Asked = Result<Vec<Outcome>, EngineError>;

/// An answer, how many numbers it takes, and numbers that it accepts.
struct Answer {
    name: &'static str,
    sound: &'static [f64],
    ask: fn(&[f64]) -> Asked,
}

fn methods() -> &'static Methods {
    &embedded().methods
}

fn row(method: Method) -> &'static MethodRow {
    methods().row(method)
}

fn diffusion() -> &'static Diffusion {
    &embedded().own_sheets.diffusion
}

fn steel(x: &[f64]) -> Composition {
    Composition::new(&[(Element::C, x[0]), (Element::Mn, x[1]), (Element::Cr, x[2])])
}

fn weld(x: &[f64]) -> Cooling {
    Cooling { net_heat_kj_per_mm: x[0], thickness_mm: Some(x[1]), f2: x[2], f3: x[3] }
}

fn slab(x: &[f64]) -> Slab {
    Slab { thickness_mm: x[0], temperature_c: x[1], coefficient: Coefficient::Slower }
}

const ANSWERS: &[Answer] = &[
    Answer {
        name: "carbon equivalent",
        sound: &[0.2, 1.0, 0.5],
        ask: |x| {
            Equivalent::iter().map(|which| carbon_equivalent(which, row(which.method()), &steel(x))).collect()
        },
    },
    Answer {
        name: "Method B",
        sound: &[0.35, 30.0, 5.0, 1.0],
        ask: |x| {
            let [cet, thickness_mm, hydrogen_ml, net_heat_kj_per_mm] = [x[0], x[1], x[2], x[3]];
            let asked = method_b::MethodB {
                cet: method_b::CetOf::figure(cet),
                thickness_mm,
                hydrogen_ml,
                net_heat_kj_per_mm,
                high_restraint: false,
            };
            let by_b = |ends| method_b::method_b(row(Method::MethodB), &asked, ends);
            Ok(vec![by_b(Ends::Drawn)?, by_b(Ends::Held)?, method_b::sew_088(row(Method::Sew088), &asked)?])
        },
    },
    Answer { name: "Seferian", sound: &[0.5, 25.0], ask: |x| Ok(vec![seferian::seferian(x[0], x[1])?]) },
    Answer {
        name: "Ito and Bessyo",
        sound: &[0.25, 3.0, 25.0, 1725.0],
        ask: |x| {
            let inputs = ito_bessyo::ItoBessyo {
                pcm: x[0],
                carbon: None,
                h_jis_ml: x[1],
                thickness_mm: x[2],
                restraint_kgf_per_mm2: Some(x[3]),
            };
            Ok(vec![ito_bessyo::ito_bessyo(row(Method::ItoBessyo), inputs)?])
        },
    },
    Answer {
        name: "multi-run",
        sound: &[3.0, 20.0, 700.0],
        ask: |x| {
            let asked = multi_run::MultiRun { h_jis_ml: x[0], weld_thickness_mm: x[1], strength_mpa: x[2] };
            let by = |ends| multi_run::multi_run(row(Method::MultiRun), asked, ends);
            Ok(vec![by(Ends::Drawn)?, by(Ends::Held)?])
        },
    },
    Answer {
        name: "bands",
        sound: &[0.5],
        ask: |x| Ok(vec![dearden_oneill::dearden_oneill(&embedded().practice.dearden_oneill, x[0])?]),
    },
    Answer {
        name: "cracking index",
        sound: &[0.35, 3.0, 4.0, 400.0],
        ask: |x| {
            let [cen, h_jis_ml, notch_factor, stress_mpa] = [x[0], x[1], x[2], x[3]];
            let inputs = cracking_index::CrackingIndex { cen, h_jis_ml, notch_factor, stress_mpa };
            cracking_index::cracking_index(inputs).map(Vec::from)
        },
    },
    Answer {
        name: "heat input by speed",
        sound: &[25.0, 150.0, 2.5, 0.8],
        ask: |x| {
            let travel = Travel::SpeedMmPerS(x[2]);
            heat_input(ArcRun { volts: x[0], amps: x[1], travel, efficiency: x[3] }).map(Vec::from)
        },
    },
    Answer {
        name: "heat input by watch",
        sound: &[25.0, 150.0, 60.0, 150.0],
        ask: |x| {
            let travel = Travel::Run { arc_time_s: x[2], run_mm: x[3] };
            heat_input(ArcRun { volts: x[0], amps: x[1], travel, efficiency: 0.8 }).map(Vec::from)
        },
    },
    Answer {
        name: "cooling time",
        sound: &[1.0, 30.0, 0.9, 0.9, 100.0],
        ask: |x| Ok(vec![cooling_time(weld(x), x[4])?]),
    },
    Answer {
        name: "preheat for a cooling time",
        sound: &[1.5, 30.0, 0.9, 0.9, 10.0],
        ask: |x| Ok(vec![preheat_for_cooling_time(weld(x), x[4])?]),
    },
    Answer {
        name: "hardness",
        sound: &[0.2, 1.0, 0.5, 10.0],
        ask: |x| hardness(methods(), &steel(x), x[3]).map(Vec::from),
    },
    Answer {
        name: "transformation",
        sound: &[0.4, 0.8, 1.0],
        ask: |x| transformation_temperatures(methods(), &steel(x)),
    },
    Answer { name: "martensite", sound: &[320.0, 200.0], ask: |x| Ok(vec![martensite(x[0], x[1])?]) },
    Answer {
        name: "hydrogen scale",
        sound: &[5.0],
        ask: |x| Ok(hydrogen_scale(&embedded().designators, x[0])?.1.to_vec()),
    },
    Answer {
        name: "removal time",
        sound: &[25.0, 250.0, 0.1],
        ask: |x| removal_time(diffusion(), slab(x), x[2]).map(Vec::from),
    },
    Answer {
        name: "share left",
        sound: &[25.0, 250.0, 4.0],
        ask: |x| share_left(diffusion(), slab(x), x[2]).map(Vec::from),
    },
    Answer {
        name: "hold after welding",
        sound: &[5.7, 4.0, 200.0, 350.0],
        ask: |x| {
            let asked = PostHeatQuery {
                weld: WeldPath::Fillet { throat_mm: x[0] },
                hydrogen_ml: x[1],
                minimum_c: x[2],
                most_c: x[3],
                m90_c: Some(249.0),
                chromium_percent: None,
                vanadium_percent: None,
                austenitic_weld_metal: false,
            };
            let found = hold_after_welding(embedded(), &asked)?;
            let of = |hours| Outcome::new(Method::PostHeat, hours, Unit::Hour);
            Ok(found
                .main
                .iter()
                .chain(&found.hot_end)
                .chain(&found.trapped)
                .map(|hold| of(hold.hours))
                .collect())
        },
    },
    Answer {
        name: "inspection wait",
        sound: &[30.0, 8.0, 460.0, 1.2],
        ask: |x| {
            let weld = WeldToInspect {
                family: Family::Structural,
                thickness_mm: x[0],
                size_mm: Some(x[1]),
                yield_mpa: Some(x[2]),
                net_heat_kj_per_mm: x[3],
                restraint: Restraint::Medium,
                heat_treated: false,
            };
            inspection_wait(&embedded().inspection, &weld)
        },
    },
    Answer {
        name: "combined thickness",
        sound: &[20.0, 15.0],
        ask: |x| {
            let joint = embedded().joint("t-fillet-one-side").expect("the dataset has this joint");
            let meeting = Meeting { joint, first_mm: x[0], second_mm: Some(x[1]), opposed_at_once: false };
            Ok(vec![combined_thickness(row(Method::CombinedThickness), meeting)?])
        },
    },
    Answer {
        name: "tapered thickness",
        sound: &[30.0, 10.0, 150.0],
        ask: |x| Ok(vec![tapered_thickness(x[0], x[1], x[2])?]),
    },
    Answer {
        name: "hardness conversion",
        sound: &[30.0],
        ask: |x| hardness_conversion(&embedded().methods, x[0], Scale::Hrc, ConversionTable::AstmE140),
    },
];

/// Inputs that may be below zero: temperatures.
const MAY_BE_NEGATIVE: &[(&str, usize)] = &[("cooling time", 4), ("martensite", 0), ("martensite", 1)];

#[test]
fn sound_numbers_are_answered_and_bad_ones_refused_one_at_a_time() {
    for answer in ANSWERS {
        let Answer { name, sound, ask } = answer;
        assert!(ask(sound).is_ok(), "{name} refuses sound inputs: {:?}", ask(sound));
        for at in 0..sound.len() {
            let with = |bad: f64| {
                let mut inputs = sound.to_vec();
                inputs[at] = bad;
                ask(&inputs)
            };
            assert!(
                matches!(with(f64::NAN), Err(EngineError::NotANumber { .. })),
                "{name}: input {at} takes what is no number"
            );
            for absurd in [f64::INFINITY, f64::NEG_INFINITY, 1e300, -1e300] {
                assert!(with(absurd).is_err(), "{name}: input {at} takes {absurd}");
            }
            if !MAY_BE_NEGATIVE.contains(&(*name, at)) {
                let below = with(-1.0);
                assert!(
                    matches!(below, Err(EngineError::BelowZero { .. })),
                    "{name}: input {at} at -1: {below:?}"
                );
            }
        }
    }
}

/// Any double, the awkward ones often, everyday ones too.
fn any_number() -> impl Strategy<Value = f64> {
    let awkward = vec![f64::NAN, f64::INFINITY, f64::MAX, f64::MIN_POSITIVE, 0.0, -0.0, 1e-300];
    prop_oneof![any::<f64>(), prop::sample::select(awkward), 0.0..1.0, 0.0..50.0, -200.0..2000.0]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(3000))]

    #[test]
    fn what_is_answered_is_a_number(inputs in prop::collection::vec(any_number(), 5)) {
        for answer in ANSWERS {
            let Ok(outcomes) = (answer.ask)(&inputs[..answer.sound.len()]) else { continue };
            for outcome in outcomes {
                let parts = [outcome.value, outcome.low, outcome.high];
                for value in parts.into_iter().flatten().chain(outcome.steps.iter().map(|step| step.value)) {
                    prop_assert!(value.is_finite(), "{}: {outcome:?} from {inputs:?}", answer.name);
                }
            }
        }
    }
}

#[test]
fn a_figure_on_the_step_stays_on_it() {
    assert!((up_c(280.000_000_1) - 280.0).abs() < 1e-9);
    assert!((down_c(319.999_999_9) - 320.0).abs() < 1e-9);
    assert!((up_c(278.3) - 280.0).abs() < 1e-9);
    assert!((down_c(319.8) - 315.0).abs() < 1e-9);
}
