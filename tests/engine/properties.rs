//! Laws that hold for any input: nothing panics, nothing answers with what is no number,
//! formulas rise and fall as they must, and inverses lead back.

use proptest::prelude::*;
use std::sync::Arc;
use strawblue::engine::carbon_equivalent::Equivalent;
use strawblue::engine::combined_thickness::{Meeting, tapered_mm};
use strawblue::engine::cooling_time::{Cooling, t85_thick_s, t85_thin_s, transition_mm};
use strawblue::engine::evidence::{
    cracking_index, dearden_oneill, ito_bessyo, method_b, multi_run, seferian,
};
use strawblue::engine::family::Family;
use strawblue::engine::hardness::Yurioka1987;
use strawblue::engine::hardness_conversion::{ConversionTable, Scale};
use strawblue::engine::heat_input::{arc_energy_kj_per_mm, arc_energy_of_run_kj_per_mm};
use strawblue::engine::hydrogen::{
    diffusion_arrhenius_cm2_per_s, diffusion_measured_cm2_per_s, diffusion_slower_cm2_per_s, hydrogen_scale,
    mean_left, mean_time_h, middle_left, middle_time_h, slab_mean_left, slab_middle_left,
};
use strawblue::engine::inspection::{WeldToInspect, inspection_wait};
use strawblue::engine::job::{Restraint, Steel};
use strawblue::engine::transformation::{martensite_share, ms_steven_haynes_c};
use strawblue::questions::{self, Answers, Given, Input, Kind, Question};
use strawblue::reference::{self, Composition, Element, embedded};
use strum::IntoEnumIterator;

/// Any double, the awkward ones often.
fn any_number() -> impl Strategy<Value = f64> {
    prop_oneof![
        3 => any::<f64>(),
        2 => prop::sample::select(vec![
            f64::NAN, f64::INFINITY, f64::NEG_INFINITY, f64::MAX, f64::MIN, f64::MIN_POSITIVE, 0.0, -0.0, -1.0, 1e300,
            -1e300, 1e-300,
        ]),
        2 => -1000.0..5000.0,
    ]
}

fn any_composition() -> impl Strategy<Value = Composition> {
    prop::collection::vec((0..Element::ALL.len(), any_number()), 0..6).prop_map(|pairs| {
        Composition::new(&pairs.into_iter().map(|(at, x)| (Element::ALL[at], x)).collect::<Vec<_>>())
    })
}

/// Any low-alloy steel, and some that are none.
fn steel() -> impl Strategy<Value = Composition> {
    use Element::{B, C, Cr, Cu, Mn, Mo, N, Nb, Ni, Si, V};
    let range = |high: f64| 0.0..high;
    (
        (range(1.2), range(2.0), range(2.0), range(5.0), range(1.5), range(5.0)),
        (range(1.0), range(1.0), range(0.1), range(0.005), range(0.02)),
    )
        .prop_map(|((c, si, mn, cr, mo, ni), (v, cu, nb, b, n))| {
            Composition::new(&[
                (C, c),
                (Si, si),
                (Mn, mn),
                (Cr, cr),
                (Mo, mo),
                (Ni, ni),
                (V, v),
                (Cu, cu),
                (Nb, nb),
                (B, b),
                (N, n),
            ])
        })
}

/// A steel that is known by its grade.
fn grade() -> impl Strategy<Value = Given> {
    (0..embedded().grades.len()).prop_map(|place| {
        Given::Steel(Box::new(Steel::Grade(Arc::new(embedded().grades.rows()[place].clone()))))
    })
}

/// Something to give for an input: mostly of its kind; `None` leaves it out.
fn anything_for(input: &'static Input) -> BoxedStrategy<Option<Given>> {
    let of_kind = match input.kind {
        Kind::Composition => any_composition().prop_map(Given::Composition).boxed(),
        Kind::Choice(ids) => {
            prop::sample::select(ids.to_vec()).prop_map(|id| Given::Choice(id.to_owned())).boxed()
        }
        Kind::Flag => any::<bool>().prop_map(Given::Flag).boxed(),
        Kind::Text => any::<String>().prop_map(Given::Text).boxed(),
        _ => any_number().prop_map(Given::Number).boxed(),
    };
    let of_another =
        prop_oneof![any::<String>().prop_map(Given::Choice), any_number().prop_map(Given::Number)];
    prop_oneof![8 => of_kind.prop_map(Some), 1 => of_another.prop_map(Some), 2 => Just(None)].boxed()
}

/// Something that the input accepts; `None` leaves an optional one out.
fn accepted_for(input: &'static Input) -> BoxedStrategy<Option<Given>> {
    let of_kind = match input.kind {
        Kind::Composition => prop_oneof![2 => steel().prop_map(Given::Composition), 1 => grade()].boxed(),
        Kind::Choice(ids) => {
            prop::sample::select(ids.to_vec()).prop_map(|id| Given::Choice(id.to_owned())).boxed()
        }
        Kind::Flag => any::<bool>().prop_map(Given::Flag).boxed(),
        Kind::Text => any::<String>().prop_map(Given::Text).boxed(),
        _ => {
            let (low, high) = (
                input.low.expect("a number has a lower limit"),
                input.high.expect("a number has an upper limit"),
            );
            // Everyday values sit near the lower end of wide limits: the share is raised to a power.
            (0.0..=1.0f64, prop::sample::select(vec![1.0, 4.0, 12.0]))
                .prop_map(move |(share, power)| {
                    let number = (low + (high - low) * share.powf(power)).clamp(low, high);
                    Given::Number(if input.whole { number.round() } else { number })
                })
                .boxed()
        }
    };
    if input.required { of_kind.prop_map(Some).boxed() } else { prop::option::weighted(0.7, of_kind).boxed() }
}

fn inputs_of(
    question: &'static Question,
    strategy: fn(&'static Input) -> BoxedStrategy<Option<Given>>,
) -> BoxedStrategy<Answers> {
    let each: Vec<_> = question.inputs.iter().map(strategy).collect();
    each.prop_map(|values| {
        let mut answers = Answers::new();
        for (input, value) in question.inputs.iter().zip(values) {
            if let Some(value) = value {
                answers.set(input.key, value);
            }
        }
        answers
    })
    .boxed()
}

fn any_question(
    strategy: fn(&'static Input) -> BoxedStrategy<Option<Given>>,
) -> impl Strategy<Value = (&'static Question, Answers)> {
    prop::sample::select(questions::ALL.to_vec())
        .prop_flat_map(move |question| (Just(question), inputs_of(question, strategy)))
}

/// What is answered is a number, and is declared.
fn sound(question: &Question, answers: &Answers) -> Result<bool, TestCaseError> {
    let Ok(reply) = question.ask(answers) else { return Ok(false) };
    prop_assert!(!reply.answers.is_empty());
    for outcome in &reply.answers {
        prop_assert!(question.answers.contains(&outcome.name), "{} is not declared", outcome.name);
        let parts = [outcome.value, outcome.low, outcome.high];
        for value in parts.into_iter().flatten().chain(outcome.steps.iter().map(|step| step.value)) {
            prop_assert!(
                value.is_finite(),
                "{} of {}: {outcome:?} from {answers:?}",
                outcome.name,
                question.name
            );
        }
        if let (Some(low), Some(high)) = (outcome.low, outcome.high) {
            prop_assert!(low <= high, "{outcome:?}");
        }
    }
    Ok(true)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(6000))]

    #[test]
    fn no_input_makes_a_question_panic((question, answers) in any_question(anything_for)) {
        sound(question, &answers)?;
    }

    #[test]
    fn accepted_inputs_give_numbers((question, answers) in any_question(accepted_for)) {
        sound(question, &answers)?;
    }
}

/// Every question answers some of its accepted inputs: the sweep above is not all refusals.
#[test]
fn every_question_is_reached_by_the_sweep() {
    use proptest::strategy::ValueTree;
    for question in questions::ALL.iter() {
        let mut runner = proptest::test_runner::TestRunner::deterministic();
        let strategy = inputs_of(question, accepted_for);
        // Tint answers on bright low-alloy steel only, so that it refuses most draws; a heat cycle takes
        // long, and most drawn flames are too weak or too strong for their joint.
        let (draws, enough) = if question.name == "heat-cycle" { (2000, 1) } else { (400, 10) };
        // Readings that don't fit each other, or the minutes of a first part that none fits, say nothing
        // of the rest.
        let left_out = ["first-reading", "second-reading", "minutes-between", "first-part-minutes"];
        let kept = |drawn: &Answers| {
            let keys = drawn.keys().filter(|key| draws == 400 || !left_out.contains(key));
            keys.fold(Answers::new(), |all, key| all.with(key, drawn.get(key).unwrap().clone()))
        };
        let answered = (0..draws)
            .filter(|_| question.ask(&kept(&strategy.new_tree(&mut runner).unwrap().current())).is_ok())
            .take(enough)
            .count();
        assert_eq!(answered, enough, "{} answers {answered} of {draws}", question.name);
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2000))]

    #[test]
    fn equivalents_never_fall_with_an_element(steel in steel(), at in 0..Element::ALL.len(), more in 0.0..1.0f64) {
        let element = Element::ALL[at];
        let richer = steel.with(element, steel.get(element) + more);
        for which in Equivalent::iter() {
            prop_assert!(which.of(&richer) >= which.of(&steel) - 1e-12, "{which:?} falls with {element:?}");
        }
        prop_assert!(seferian::c_chem(&richer) >= seferian::c_chem(&steel) - 1e-12);
        prop_assert!(ms_steven_haynes_c(&richer) <= ms_steven_haynes_c(&steel) + 1e-9);
    }

    #[test]
    fn method_b_rises_as_it_must(
        cet in 0.1..0.6f64, d in 1.0..200.0f64, hd in 0.1..50.0f64, q in 0.3..6.0f64, more in 0.0..1.0f64,
    ) {
        let base = method_b::method_b_c(cet, d, hd, q);
        prop_assert!(method_b::method_b_c(cet + 0.1 * more, d, hd, q) >= base - 1e-9);
        prop_assert!(method_b::method_b_c(cet, d + 50.0 * more, hd, q) >= base - 1e-9);
        prop_assert!(method_b::method_b_c(cet, d, hd + 5.0 * more, q) >= base - 1e-9);
        prop_assert!(method_b::method_b_c(cet, d, hd, q + more) <= base + 1e-9);
        let parts = method_b::cet_part_k(cet)
            + method_b::thickness_part_k(d)
            + method_b::hydrogen_part_k(hd)
            + method_b::heat_part_k(cet, q);
        prop_assert!((parts - base).abs() < 1e-9, "the parts sum to {parts}, not {base}");
        prop_assert!((method_b::governing_cet(cet, Some(cet - 0.03)) - cet).abs() < 1e-12);
    }

    #[test]
    fn the_other_formulas_rise_as_they_must(
        p in 0.1..0.6f64, h in 0.1..20.0f64, d in 5.0..100.0f64, s in 40.0..95.0f64, more in 0.001..1.0f64,
    ) {
        let severe = |p, h, d| ito_bessyo::preheat_c(ito_bessyo::pc(p, h, d));
        prop_assert!(severe(p + more, h, d) > severe(p, h, d));
        prop_assert!(severe(p, h + more, d) > severe(p, h, d));
        prop_assert!(severe(p, h, d + more) > severe(p, h, d));
        prop_assert!(multi_run::multi_run_c(h + more, d, s) > multi_run::multi_run_c(h, d, s));
        prop_assert!(multi_run::multi_run_c(h, d + more, s) > multi_run::multi_run_c(h, d, s));
        prop_assert!(multi_run::multi_run_c(h, d, s + more) > multi_run::multi_run_c(h, d, s));
        let index = |p, h, s| cracking_index::yurioka_1983(p, h, 4.0, s);
        prop_assert!(index(p + more, h, s) > index(p, h, s) && index(p, h + more, s) > index(p, h, s));
        prop_assert!(cracking_index::t100cr_s(p + more) > cracking_index::t100cr_s(p));
        prop_assert!(seferian::preheat_c(p + more) >= seferian::preheat_c(p));
        let bands = &embedded().practice.dearden_oneill;
        let band = |ce: f64| dearden_oneill::dearden_oneill(bands, ce).unwrap().value;
        prop_assert!(band(p + more) >= band(p));
    }

    #[test]
    fn cooling_time_rises_with_preheat_and_heat(
        t0 in -50.0..440.0f64, q in 0.1..10.0f64, d in 2.0..150.0f64, f2 in 0.45..1.0f64, f3 in 0.67..1.0f64,
    ) {
        let weld = Cooling { net_heat_kj_per_mm: q, thickness_mm: Some(d), f2, f3 };
        let time = weld.t85_s(t0);
        prop_assert!(weld.t85_s(t0 + 5.0) > time);
        prop_assert!(Cooling { net_heat_kj_per_mm: q * 1.05, ..weld }.t85_s(t0) > time, "more heat cools slower");
        prop_assert!(Cooling { thickness_mm: Some(d * 1.05), ..weld }.t85_s(t0) <= time, "thicker cools faster");
        prop_assert!(Cooling { thickness_mm: None, ..weld }.t85_s(t0) <= time, "thick plate is fastest");
        let back = weld.preheat_for_c(time).unwrap();
        prop_assert!((back - t0).abs() < 1e-6, "{back} for {t0}");
        let heat = weld.heat_for_kj_per_mm(t0, time);
        prop_assert!((heat / q - 1.0).abs() < 1e-9, "{heat} for {q}");
        let border = transition_mm(t0, q);
        prop_assert!((t85_thin_s(t0, q, border, 1.0) / t85_thick_s(t0, q, 1.0) - 1.0).abs() < 1e-9);
    }

    #[test]
    fn hydrogen_leaves_as_it_must(
        d in 1e-8..1e-4f64, mm in 1.0..300.0f64, left in 0.01..0.98f64, less in 0.001..0.009f64, t in 0.0..640.0f64,
    ) {
        let mean_h = mean_time_h(d, mm, left);
        let middle_h = middle_time_h(d, mm, left);
        prop_assert!((mean_left(d, mm, mean_h) - left).abs() < 1e-9);
        prop_assert!((middle_left(d, mm, middle_h) - left).abs() < 1e-9);
        prop_assert!(middle_h >= mean_h);
        prop_assert!(mean_time_h(d, mm, left - less) > mean_h);
        prop_assert!((mean_time_h(d, 2.0 * mm, left) / mean_h - 4.0).abs() < 1e-9, "time grows with the square");
        prop_assert!(diffusion_arrhenius_cm2_per_s(t + 10.0) > diffusion_arrhenius_cm2_per_s(t));
        let table = &embedded().own_sheets.diffusion;
        let slower = diffusion_slower_cm2_per_s(table, t);
        prop_assert!(slower <= diffusion_arrhenius_cm2_per_s(t));
        prop_assert!(diffusion_measured_cm2_per_s(table, t).is_none_or(|measured| slower <= measured));
    }

    #[test]
    fn the_slab_only_loses(fourier in 0.0..1.5f64, more in 1e-6..0.1f64) {
        prop_assert!(slab_mean_left(fourier + more) < slab_mean_left(fourier));
        prop_assert!(slab_middle_left(fourier + more) <= slab_middle_left(fourier) + 1e-12);
        prop_assert!(slab_mean_left(fourier) <= slab_middle_left(fourier) + 1e-9);
    }

    #[test]
    fn scales_convert_there_and_back(hv in 100.0..940.0f64, more in 0.1..50.0f64) {
        for &table in ConversionTable::ALL {
            for to in [Scale::Hrc, Scale::Hb, Scale::Mpa] {
                let Some(there) = table.convert(hv, Scale::Hv, to) else { continue };
                let back = table.convert(there, to, Scale::Hv).unwrap();
                prop_assert!((back - hv).abs() < 1e-9, "{hv} HV comes back as {back} by {to:?}");
                if let Some(harder) = table.convert(hv + more, Scale::Hv, to) {
                    prop_assert!(harder > there);
                }
            }
        }
    }

    #[test]
    fn the_wait_never_falls(
        mm in 1.0..150.0f64, size in 1.0..60.0f64, q in 0.2..6.0f64, mpa in 200.0..1000.0f64, more in 0.0..30.0f64,
    ) {
        let weld = WeldToInspect {
            family: Family::Structural,
            thickness_mm: mm,
            size_mm: Some(size),
            yield_mpa: Some(mpa),
            net_heat_kj_per_mm: q,
            restraint: Restraint::Medium,
            heat_treated: false,
        };
        let hours = |weld: WeldToInspect| inspection_wait(&embedded().inspection, &weld).unwrap()[0].value.unwrap();
        let base = hours(weld);
        prop_assert!(hours(WeldToInspect { thickness_mm: mm + more, ..weld }) >= base, "the wait falls");
        prop_assert!(hours(WeldToInspect { size_mm: Some(size + more), ..weld }) >= base, "the wait falls");
        prop_assert!(hours(WeldToInspect { net_heat_kj_per_mm: q + more, ..weld }) >= base, "the wait falls");
        prop_assert!(hours(WeldToInspect { yield_mpa: Some(mpa + 10.0 * more), ..weld }) >= base, "the wait falls");
        prop_assert!(hours(WeldToInspect { restraint: Restraint::High, ..weld }) >= base, "the wait falls");
        for family in [Family::QuenchedTempered, Family::PlainCarbon, Family::Hardenable] {
            prop_assert!(hours(WeldToInspect { family, ..weld }) >= base, "the wait falls");
        }
    }

    #[test]
    fn thickness_counts_every_path(a in 1.0..200.0f64, b in 1.0..200.0f64, taper in 0.0..300.0f64, more in 0.0..50.0f64) {
        for joint in reference::embedded().joints.iter() {
            let meeting = Meeting { joint, first_mm: a, second_mm: Some(b), opposed_at_once: false };
            prop_assert!(Meeting { first_mm: a + more, ..meeting }.combined_mm() >= meeting.combined_mm(), "combined thickness falls");
            prop_assert!(Meeting { second_mm: Some(b + more), ..meeting }.combined_mm() >= meeting.combined_mm(), "combined thickness falls");
            prop_assert!(Meeting { opposed_at_once: true, ..meeting }.combined_mm() <= meeting.combined_mm(), "combined thickness falls");
        }
        let mean = tapered_mm(a, b, taper);
        prop_assert!(mean >= a.min(b) - 1e-9 && mean <= a.max(b) + 1e-9);
    }

    #[test]
    fn martensite_and_hardness_stay_in_their_span(steel in steel(), t in -50.0..600.0f64, seconds in 0.1..1000.0f64) {
        let share = martensite_share(ms_steven_haynes_c(&steel), t);
        prop_assert!((0.0..=1.0).contains(&share));
        prop_assert!(martensite_share(ms_steven_haynes_c(&steel), t + 10.0) <= share);
        let yurioka = Yurioka1987::of(&steel);
        if yurioka.martensite_hv > yurioka.bainite_hv && yurioka.bainite_s > yurioka.martensite_s {
            prop_assert!(yurioka.hv(seconds) <= yurioka.martensite_hv + 1e-9);
            prop_assert!(yurioka.hv(seconds * 1.1) <= yurioka.hv(seconds) + 1e-9, "slower cooling hardens");
        }
    }

    #[test]
    fn a_run_by_watch_equals_its_speed(v in 5.0..50.0f64, i in 20.0..600.0f64, s in 1.0..300.0f64, mm in 10.0..2000.0f64) {
        let by_speed = arc_energy_kj_per_mm(v, i, mm / s);
        prop_assert!((arc_energy_of_run_kj_per_mm(v, i, s, mm) / by_speed - 1.0).abs() < 1e-12);
    }
}

#[test]
fn the_hydrogen_band_contains_its_content() {
    for tenth in 0..400 {
        let content = f64::from(tenth) / 10.0;
        let (letter, _) = hydrogen_scale(&embedded().designators, content).unwrap();
        let above = letter.above_ml.is_none_or(|low| content > low);
        assert!(above && letter.up_to_ml.is_none_or(|high| content <= high), "{content}");
    }
    assert!(hydrogen_scale(&embedded().designators, f64::NAN).is_err());
}
