//! Sizes, runs, strength and current of a weld: worked examples that the registry does not ask, laws, refusals.

use proptest::prelude::*;
use strawblue::engine::EngineError;
use strawblue::engine::cooling_time::{Cooling, t85_thick_s};
use strawblue::engine::weld::amount::{AmountQuery, Rod, amount};
use strawblue::engine::weld::deposit::{area_mm2, wire_kg_per_h};
use strawblue::engine::weld::fillet::{Fillet, least_leg_mm, leg_of_area_mm};
use strawblue::engine::weld::matching::{MatchVerdict, WeldKind, WeldLoad, verdict};
use strawblue::engine::weld::offered::{Dropped, OfferQuery, dropped, offered};
use strawblue::engine::weld::ring::line_polar_mm3;
use strawblue::engine::weld::runs::{RunOf, RunsQuery, fillet_runs, rows_of_beads};
use strawblue::engine::weld::section::beads;
use strawblue::engine::weld::strength::{FilletMetal, Rules, angle_factor, en_design, per_mm};
use strawblue::engine::weld::tig::{rod_for, tungsten_for};
use strawblue::engine::weld::torch_class::allowed_a;
use strawblue::questions::{self, Answers, Given, Problem, Reply};
use strawblue::reference::{Filler, Position, RunProcess, WeldRuns, embedded};

fn near(found: f64, is: f64, within: f64) {
    assert!((found - is).abs() <= within, "{found} is not {is} within {within}");
}

fn ask(name: &str, numbers: &[(&str, f64)], choices: &[(&str, &str)]) -> Result<Reply, Problem> {
    let given =
        numbers.iter().fold(Answers::new(), |all, (key, value)| all.with(*key, Given::Number(*value)));
    let given = choices.iter().fold(given, |all, (key, id)| all.with(*key, Given::Choice((*id).to_owned())));
    questions::find(name).expect("a question").ask(&given)
}

fn runs() -> &'static WeldRuns {
    &embedded().welding.runs
}

fn out_of_range(reply: Result<Reply, Problem>) -> bool {
    matches!(reply, Err(Problem::Engine(EngineError::OutOfDomain { .. } | EngineError::BelowZero { .. })))
}

/// Budynas and Nisbett, Mechanical Engineering Design, problems 9-8, 9-1, 9-2: J = 142 cm⁴ of a ring of 4 cm
/// radius with 0.5 cm legs; 49.2 kN in print at 20 cm from two such rings at 140 MPa (its own figures give
/// 49.7); 49.5 kN on two fillets 50 mm long with 5 mm legs, 22.1 kip on two of 2 in with 5/16 in at 25 ksi.
#[test]
fn examples_of_a_machine_design_text() {
    let throat = Fillet::equal(5.0).throat_mm();
    let polar = line_polar_mm3(40.0) * throat;
    near(polar / 1e4, 142.0, 0.5);
    let force_kn = 140.0 * 2.0 * polar / 40.0 / 200.0 / 1000.0;
    near(force_kn, 49.7, 0.3);
    near(force_kn, 49.2, 0.7);
    near(2.0 * 50.0 * throat * 140.0 / 1000.0, 49.5, 0.1);
    let inch = Fillet::equal(25.4 * 0.3125).throat_mm() / 25.4;
    near(2.0 * 2.0 * inch * 25.0, 22.1, 0.05);
}

/// EN 1993-1-8 with the German annex, S460: βw 0.85, fu 540, a 5 mm (Kindmann, Stracke, Table 5.7).
#[test]
fn the_german_factor_of_s460() {
    let strength = &embedded().welding.strength;
    near(en_design(strength, 540.0, 0.85, 5.0, 0.0), 1467.1, 1.5);
    near(en_design(strength, 540.0, 0.85, 5.0, 90.0), 1796.9, 1.8);
}

/// No filler is strong enough: 940 MPa at most on 1000.
#[test]
fn no_filler_matches() {
    let strength = &embedded().welding.strength;
    let of = |strongest| verdict(strength, WeldKind::FullGroove, WeldLoad::Tension, 1000.0, 940.0, strongest);
    assert_eq!(of(Some(940.0)), MatchVerdict::NoFiller);
    assert_eq!(of(None), MatchVerdict::TooWeakTension);
}

/// EN ISO 2560-A symbols 42 and 50, as two suppliers' guides print them, are the rows of the data.
#[test]
fn strength_symbols_as_printed() {
    for (id, yield_mpa, tensile, elongation) in [
        ("iso-2560-symbol-42", 420.0, (500.0, 640.0), 20.0),
        ("iso-2560-symbol-50", 500.0, (560.0, 720.0), 18.0),
    ] {
        let row = embedded().fillers.get(id).expect("a row");
        assert_eq!(row.yield_min_mpa, Some(yield_mpa));
        assert_eq!(row.tensile_min_mpa, Some(tensile.0));
        assert!(row.tensile_max_mpa.is_none_or(|most| (most - tensile.1).abs() < 0.5), "{row:?}");
        assert!(row.elongation_min_percent.is_none_or(|least| (least - elongation).abs() < 0.5), "{row:?}");
    }
}

/// A distributor's note on stub loss: 14 in of E6010 5/32 with stubs of 2 to 6 in; .045 in wire at 400 in/min as
/// a marine welder has it; a foot of 1/4 in fillet by covered electrode, cored and solid wire, in pounds, as a
/// distributor's table has it.
#[test]
fn filler_that_ends_in_the_weld() {
    for (stub, percent) in [(2.0, 63.8), (3.0, 58.5), (4.0, 53.2), (5.0, 47.9), (6.0, 42.6)] {
        near(100.0 * Rod::with_stub(0.7443, 14.0, stub), percent, 0.1);
    }
    near(wire_kg_per_h(runs(), 1.143, 169.333, 0.97), 4.763, 0.02);
    for (share, need_lb) in [(0.55, 0.193), (0.8, 0.133), (0.9, 0.118)] {
        let own = runs().process("gmaw").expect("a process").clone();
        let process = RunProcess { deposited_share: share, ..own };
        let asked = AmountQuery {
            runs: runs(),
            process: &process,
            area_mm2: Fillet::equal(25.4 / 4.0).flat_mm2(),
            length_mm: 12.0 * 25.4,
            pieces: 1.0,
            rod: None,
            amps: None,
            runs_each: 1.0,
            flow_l_per_min: None,
        };
        let found = amount(&asked).expect("an amount");
        let bought = found.iter().find(|outcome| outcome.name == "amount-filler").and_then(|one| one.value);
        near(bought.expect("filler") / 0.453_592_37, need_lb, 0.006 * need_lb);
    }
}

/// 304L as a fabrication note has it, 18.8 and 11.3; and Weman's example, mild steel to 18-8 with 23 12 2 L at
/// 30 %, of which he reads about 10 % ferrite: within the 4 that the formula is off.
#[test]
fn austenitic_weld_metal_as_printed() {
    use strawblue::engine::crack::solidification::mixed;
    use strawblue::engine::weld::austenite::{ferrite_percent, schaeffler};
    use strawblue::reference::{Composition, Element};
    let of = |pairs: &[(Element, f64)]| Composition::new(pairs);
    let plate = of(&[
        (Element::Cr, 18.2),
        (Element::Ni, 10.1),
        (Element::Mn, 1.2),
        (Element::Si, 0.4),
        (Element::C, 0.02),
    ]);
    let (chromium, nickel) = schaeffler(&plate);
    near(chromium, 18.8, 0.06);
    near(nickel, 11.3, 0.04);
    let filler = of(&[
        (Element::Cr, 23.0),
        (Element::Mo, 2.6),
        (Element::Si, 0.8),
        (Element::Ni, 12.5),
        (Element::C, 0.02),
        (Element::Mn, 1.5),
    ]);
    let mild = of(&[(Element::C, 0.15), (Element::Mn, 0.5), (Element::Si, 0.2)]);
    let stainless = of(&[
        (Element::C, 0.03),
        (Element::Cr, 18.2),
        (Element::Ni, 8.5),
        (Element::Mn, 1.5),
        (Element::Si, 0.5),
    ]);
    let weld = mixed(&mixed(&mild, &stainless, 0.5), &filler, 0.3);
    let point = schaeffler(&weld);
    near(point.0, 21.647, 0.01);
    near(point.1, 11.93, 0.01);
    near(ferrite_percent(point), 11.56, 0.05);
    near(ferrite_percent(point), 10.0, 4.0);
}

/// Rows of 1 to 10 beads, and the corners of the second of three in a leg of 12 mm: computed.
#[test]
fn beads_stand_in_rows() {
    for (count, rows) in [
        (1, vec![1]),
        (2, vec![1, 1]),
        (3, vec![1, 2]),
        (4, vec![1, 2, 1]),
        (6, vec![1, 2, 3]),
        (7, vec![1, 2, 3, 1]),
        (10, vec![1, 2, 3, 4]),
    ] {
        assert_eq!(rows_of_beads(count), rows);
    }
    let made = beads(Fillet::equal(12.0), &[24.0; 3]);
    let second = &made[1];
    assert_eq!(second.row, 2);
    for (found, is) in second.corners.iter().zip([(6.9282, 0.0), (12.0, 0.0), (6.0, 6.0), (3.4641, 3.4641)]) {
        near(found.0, is.0, 0.001);
        near(found.1, is.1, 0.001);
    }
    near(second.area_mm2(), 24.0, 1e-9);
}

/// 8 mm round Ø50 at 200 °C: a TIG root and a fill of basic electrodes, worked once by hand. The fill's own
/// area makes the leg whole, and both cool as they should (shape factor 0.67).
#[test]
fn a_root_and_a_fill_make_the_leg() {
    let root = area_mm2(runs(), 0.6625, 1.6).expect("a run");
    let whole = Fillet::equal(8.0).planned_mm2(runs());
    near(root, 14.652, 0.03);
    near(whole, 36.267, 0.01);
    near(leg_of_area_mm(runs(), root + 21.615), 8.0, 0.01);
    for (net, seconds) in [(0.8044, 5.12), (1.286, 8.19)] {
        let weld = Cooling { net_heat_kj_per_mm: net, thickness_mm: None, f2: 0.67, f3: 0.67 };
        near(weld.t85_s(200.0), seconds, 0.02);
        near(t85_thick_s(200.0, net, 0.67), seconds, 0.02);
    }
}

fn filler(id: &str) -> &'static Filler {
    embedded().fillers.get(id).expect("a filler")
}

fn offer_of(process: &str) -> OfferQuery<'static> {
    OfferQuery {
        process: embedded().process(process).expect("a process"),
        kind: WeldKind::Fillet,
        load: WeldLoad::Shear,
        base_mpa: 900.0,
        least_mpa: None,
        hydrogen_ml: 8.0,
        heat_treated: false,
        hardened_again: false,
        free_cutting: false,
        austenitic: true,
    }
}

/// What a filler can't do is said: an electrode under TIG, austenitic into the furnace, nickel on
/// free-cutting steel, cellulose or rutile where basic is chosen (common practice, no source).
#[test]
fn fillers_that_do_not_fit_are_dropped() {
    let strength = &embedded().welding.strength;
    let of = |asked: &OfferQuery<'_>, id: &str| dropped(strength, asked, filler(id));
    assert_eq!(of(&offer_of("gtaw"), "e7018"), Some(Dropped::WrongProcess));
    assert_eq!(of(&offer_of("smaw-basic"), "e6010"), Some(Dropped::WrongProcess));
    assert_eq!(of(&offer_of("gtaw"), "er309l"), None);
    let furnace = OfferQuery { heat_treated: true, ..offer_of("gtaw") };
    assert_eq!(of(&furnace, "er309l"), Some(Dropped::NoHeatTreatment));
    assert_eq!(of(&furnace, "ernicr-3"), None);
    let free = OfferQuery { free_cutting: true, ..offer_of("gtaw") };
    assert_eq!(of(&free, "ernicr-3"), Some(Dropped::CracksHot));
    let again = OfferQuery { hardened_again: true, ..offer_of("gtaw") };
    assert_eq!(of(&again, "er70s-2"), Some(Dropped::NotHardened));
    assert_eq!(of(&offer_of("gtaw"), "er80s-b2"), Some(Dropped::NeedsTreatment));
    assert_eq!(of(&offer_of("gtaw"), "ercusi-a"), Some(Dropped::NotForSteel));
    let groove = OfferQuery { kind: WeldKind::FullGroove, load: WeldLoad::Tension, ..offer_of("gtaw") };
    assert_eq!(of(&groove, "er120s-1"), Some(Dropped::TooWeak));
}

/// E7018 is sold as dry as H4: it fits 5 ml, and not 3.
#[test]
fn the_driest_class_of_a_filler_counts() {
    let strength = &embedded().welding.strength;
    let at = |hydrogen_ml| {
        dropped(strength, &OfferQuery { hydrogen_ml, ..offer_of("smaw-basic") }, filler("e7018"))
    };
    assert_eq!(at(5.0), None);
    assert_eq!(at(3.0), Some(Dropped::TooWet));
}

/// What follows from an estimated rate is as wide as the rate: TIG within a half, volts within 15 %.
#[test]
fn an_estimate_stands_with_its_spread() {
    let numbers = [("amps", 165.0), ("bead-area", 14.0), ("run-length", 157.0)];
    let reply = ask("run-deposit", &numbers, &[("process", "gtaw")]).expect("a run");
    let answer = |name: &str| reply.answer(name).expect("an answer");
    let ends = |name: &str| {
        let found = answer(name);
        (found.low.expect("an end"), found.value.expect("a figure"), found.high.expect("an end"))
    };
    let (low, energy, high) = ends("bead-energy");
    near(low, energy * 0.85 / 1.5, 1e-9);
    near(high, energy * 1.15 / 0.5, 1e-9);
    let (short, seconds, long) = ends("bead-time");
    near(short, seconds / 1.5, 1e-9);
    near(long, seconds / 0.5, 1e-9);
    for name in ["bead-energy", "bead-net-heat", "bead-time", "bead-per-energy"] {
        assert_eq!(answer(name).basis(&embedded().methods).kind(), "memory", "{name}");
    }
    let known = [("amps", 165.0), ("volts", 13.0), ("travel-speed", 1.6)];
    let reply = ask("run-deposit", &known, &[("process", "gtaw")]).expect("a run");
    assert_eq!(reply.answer("bead-energy").and_then(|found| found.low), None);
}

/// Ferritic stands before austenitic before nickel, and the weakest that fits is the first.
#[test]
fn fillers_are_offered_in_order() {
    let found = offered(embedded(), &offer_of("gtaw"));
    let rank = |filler: &&Filler| match format!("{:?}", filler.deposit).as_str() {
        "Ferritic" | "Martensitic" => 0,
        "Austenitic" => 1,
        _ => 2,
    };
    assert!(found.windows(2).all(|pair| rank(&pair[0]) <= rank(&pair[1])));
    let ferritic: Vec<f64> =
        found.iter().filter(|one| rank(one) == 0).filter_map(|one| one.tensile_min_mpa).collect();
    assert!(ferritic.len() > 3 && ferritic.windows(2).all(|pair| pair[0] <= pair[1]));
}

#[test]
fn what_no_weld_has_is_refused() {
    assert!(out_of_range(ask("fillet-size", &[("leg", 0.0)], &[])));
    assert!(out_of_range(ask("fillet-size", &[("leg", 3.0), ("second-leg", 13.0)], &[])));
    let weld = [("leg", 8.0), ("weld-length", 100.0), ("filler-strength", 485.0), ("force-angle", 120.0)];
    assert!(out_of_range(ask("fillet-strength", &weld, &[])));
    let rod = [
        ("weld-area", 30.0),
        ("weld-length", 500.0),
        ("rod-diameter", 3.2),
        ("rod-length", 350.0),
        ("stub", 350.0),
    ];
    assert!(out_of_range(ask("weld-amount", &rod, &[("process", "smaw-basic")])));
    assert!(out_of_range(ask(
        "run-deposit",
        &[("amps", 120.0), ("travel-speed", 0.0)],
        &[("process", "gtaw")]
    )));
    assert!(out_of_range(ask("groove-area", &[("thickness", 10.0), ("root-face", 12.0)], &[])));
    let ring = [("pin-diameter", 50.0), ("leg", 8.0), ("filler-strength", 485.0), ("torque", 1e9)];
    assert!(out_of_range(ask("ring-strength", &ring, &[])));
    let key = |reply: Result<Reply, Problem>| reply.expect_err("it is refused").key();
    let overhead = ask("fillet-runs", &[("leg", 8.0)], &[("process", "saw"), ("position", "overhead")]);
    assert_eq!(key(overhead), "error-runs-position");
    let short = [("leg", 8.0), ("weld-length", 30.0), ("filler-strength", 485.0)];
    assert_eq!(key(ask("fillet-strength", &short, &[])), "error-strength-too-short");
    let european = [("leg", 8.0), ("weld-length", 200.0), ("filler-strength", 485.0)];
    let no_base = ask("fillet-strength", &european, &[("rules", "en-simplified")]);
    assert_eq!(key(no_base), "error-strength-needs-base");
    let factored = Answers::new()
        .with("leg", Given::Number(8.0))
        .with("weld-length", Given::Number(200.0))
        .with("filler-strength", Given::Number(485.0))
        .with("load-along", Given::Number(10.0))
        .with("load-factored", Given::Flag(true));
    let refused = questions::find("fillet-strength").expect("a question").ask(&factored);
    assert_eq!(key(refused), "error-strength-factored");
    let none = ask(
        "filler-choice",
        &[("base-strength", 1500.0)],
        &[("process", "smaw-basic"), ("weld-type", "full-groove"), ("weld-load", "tension")],
    );
    assert_eq!(key(none), "error-filler-none");
}

/// What is offered are the rows of the data.
#[test]
fn every_row_is_offered() {
    use strawblue::questions::Kind;
    let offered = |question: &str, key: &str| match questions::find(question)
        .and_then(|found| found.input(key))
        .map(|input| input.kind)
    {
        Some(Kind::Choice(ids)) => ids.iter().map(|id| (*id).to_owned()).collect::<Vec<_>>(),
        kind => panic!("{key} of {question} is {kind:?}"),
    };
    let welding = &embedded().welding;
    let ids = |rows: Vec<&String>| rows.into_iter().cloned().collect::<Vec<_>>();
    let processes = ids(welding.runs.processes.iter().map(|row| &row.id).collect());
    assert_eq!(offered("fillet-runs", "process"), processes);
    let lines = ids(welding.current.load_lines.iter().map(|row| &row.id).collect());
    assert_eq!(lines, processes);
    let electrodes = ids(welding.current.electrodes.iter().map(|row| &row.id).collect());
    assert_eq!(offered("electrode-current", "electrode"), electrodes);
    assert_eq!(
        offered("wire-current", "wire"),
        ids(welding.current.wires.iter().map(|row| &row.id).collect())
    );
    let steels = ids(welding.strength.correlation.iter().map(|row| &row.id).collect());
    assert_eq!(offered("fillet-strength", "correlation-steel"), steels);
    let shapes = ids(welding.cracks.shapes.iter().map(|row| &row.id).collect());
    assert_eq!(offered("lamellar-tearing", "pulling-shape"), shapes);
    let torches: Vec<String> =
        welding.current.torches.iter().map(|row| format!("torch-{}", row.id)).collect();
    assert_eq!(torches, strawblue::engine::weld::torch_class::CLASSES);
}

fn run_of(process: &str, energy: f64) -> RunOf<'static> {
    RunOf {
        runs: runs(),
        process: runs().process(process).expect("a process"),
        energy_kj_per_mm: Some(energy),
        per_energy_mm2: None,
    }
}

fn count(process: &str, leg: f64, energy: f64, position: Position) -> f64 {
    let query = RunsQuery {
        fillet: Fillet::equal(leg),
        run: run_of(process, energy),
        position,
        efficiency: 0.8,
        thickness_mm: None,
    };
    fillet_runs(&query).map_or(f64::NAN, |found| found.count)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(1500))]

    /// A bigger leg never needs fewer runs; more energy never needs more.
    #[test]
    fn a_bigger_leg_never_needs_fewer_runs(
        leg in 2.0..16.0f64, more in 0.0..6.0f64, energy in 0.6..3.0f64, hotter in 0.0..2.0f64,
        process in prop::sample::select(vec!["gtaw", "smaw-basic", "gmaw", "fcaw"]),
        position in prop::sample::select(vec![Position::Flat, Position::Horizontal, Position::VerticalUp]),
    ) {
        let base = count(process, leg, energy, position);
        prop_assume!(base.is_finite());
        let larger = count(process, leg + more, energy, position);
        prop_assert!(larger.is_nan() || larger >= base, "{larger} runs for a bigger leg than {base}");
        prop_assert!(count(process, leg, energy + hotter, position) <= base);
    }

    /// Bead areas cover the leg, within 2 %: here to rounding. None leaves the triangle, each has an area.
    #[test]
    fn bead_areas_cover_the_leg(
        first in 3.0..30.0f64, ratio in 0.4..2.5f64, shares in prop::collection::vec(0.3..3.0f64, 1..14),
    ) {
        let fillet = Fillet { first_mm: first, second_mm: first * ratio };
        let made = beads(fillet, &shares);
        let sum: f64 = shares.iter().sum();
        let covered: f64 = made.iter().map(strawblue::engine::weld::section::Bead::area_mm2).sum();
        prop_assert!((covered / fillet.flat_mm2() - 1.0).abs() < 0.02);
        prop_assert!((covered / fillet.flat_mm2() - 1.0).abs() < 1e-9);
        for (bead, share) in made.iter().zip(&shares) {
            prop_assert!((bead.area_mm2() - share / sum * fillet.flat_mm2()).abs() < 1e-6 * fillet.flat_mm2());
            for (x, y) in &bead.corners {
                prop_assert!(*x >= -1e-9 && *y >= -1e-9);
                prop_assert!(x / fillet.first_mm + y / fillet.second_mm <= 1.0 + 1e-9);
            }
        }
    }

    /// A stronger part never accepts a weaker filler in a groove weld in tension, and what is accepted is
    /// never below 0.99 of the part.
    #[test]
    fn a_stronger_part_never_accepts_a_weaker_filler(
        base in 250.0..1000.0f64, harder in 0.0..400.0f64, filler in 300.0..1000.0f64, weaker in 0.0..400.0f64,
    ) {
        let strength = &embedded().welding.strength;
        let refused = |base, filler| {
            verdict(strength, WeldKind::FullGroove, WeldLoad::Tension, base, filler, None).refused()
        };
        if refused(base, filler) {
            prop_assert!(refused(base + harder, filler - weaker));
        } else {
            prop_assert!(filler >= 0.99 * base - 1e-9);
        }
    }

    /// Strength rises with leg, filler and angle; throat is no larger than a leg, and symmetric.
    #[test]
    fn strength_rises_as_it_must(
        z in 3.0..30.0f64, ratio in 0.5..2.0f64, filler in 400.0..900.0f64, angle in 0.0..89.0f64, more in 0.01..1.0f64,
    ) {
        let strength = &embedded().welding.strength;
        let fillet = Fillet { first_mm: z, second_mm: z * ratio };
        let turned = Fillet { first_mm: z * ratio, second_mm: z };
        prop_assert!((fillet.throat_mm() - turned.throat_mm()).abs() < 1e-12);
        prop_assert!(fillet.throat_mm() <= fillet.shorter_mm());
        for rules in [Rules::AiscWorking, Rules::AiscFactored, Rules::EnSimplified, Rules::EnDirectional] {
            let of = |filler_mpa: f64, throat: f64, angle: f64| {
                let metal = FilletMetal { filler_mpa, base_mpa: Some(2000.0), correlation: 1.0 };
                per_mm(strength, rules, &metal, throat, angle).expect("a strength")
            };
            let base = of(filler, fillet.throat_mm(), angle);
            prop_assert!(of(filler + more, fillet.throat_mm(), angle) > base);
            prop_assert!(of(filler, fillet.throat_mm() + more, angle) > base);
            prop_assert!(of(filler, fillet.throat_mm(), angle + more) >= base - 1e-9);
        }
        let en = |angle| en_design(strength, 500.0, 0.9, 5.0, angle);
        prop_assert!((en(90.0) / en(0.0) - 1.5_f64.sqrt()).abs() < 1e-12);
        prop_assert!((angle_factor(strength, 90.0) - 1.5).abs() < 1e-12);
    }

    /// Area and leg, speed and area invert; the least leg never falls with thickness; tungsten never gets
    /// thinner with more amperes; a torch never carries more with more duty or beside a hotter part.
    #[test]
    fn what_inverts_and_what_never_falls(
        z in 2.0..30.0f64, v in 0.3..12.0f64, rate in 0.3..8.0f64, t in 1.0..100.0f64, more in 0.0..50.0f64,
        amps in 5.0..330.0f64, duty in 5.0..95.0f64, part_c in 0.0..400.0f64,
    ) {
        let area = Fillet::equal(z).planned_mm2(runs());
        prop_assert!((leg_of_area_mm(runs(), area) - z).abs() < 1e-12 * z.max(1.0));
        let bead = area_mm2(runs(), rate, v).expect("a run");
        let back = area_mm2(runs(), rate, 1.0).expect("a run") / bead;
        prop_assert!((back - v).abs() < 1e-9);
        prop_assert!(least_leg_mm(runs(), t + more, t + more, true) >= least_leg_mm(runs(), t, t, true));
        let current = &embedded().welding.current;
        let thick = |amps| tungsten_for(current, amps).map_or(f64::MAX, |row| row.diameter_mm);
        prop_assert!(thick(amps + more) >= thick(amps));
        prop_assert!(rod_for(current, amps).is_some());
        for torch in &current.torches {
            let base = allowed_a(current, torch, duty, part_c);
            prop_assert!(allowed_a(current, torch, duty + 5.0, part_c) <= base + 1e-9);
            prop_assert!(allowed_a(current, torch, duty, part_c + more) <= base + 1e-9);
            prop_assert!(base <= 1.3 * torch.amps + 1e-9);
        }
    }

    /// Rods of a batch are enough, and no more than those of all its parts.
    #[test]
    fn rods_are_enough(area in 5.0..200.0f64, length in 20.0..2000.0f64, pieces in 1usize..200, d in 1.6..5.0f64) {
        #[allow(clippy::cast_precision_loss, reason = "a count of parts")]
        let pieces = pieces as f64;
        let numbers = [("weld-area", area), ("weld-length", length), ("pieces", pieces), ("rod-diameter", d)];
        let reply = ask("weld-amount", &numbers, &[("process", "smaw-basic")]).expect("an amount");
        let value = |name: &str| reply.answer(name).and_then(|found| found.value).expect("a figure");
        let each = reply.answer("amount-rods").expect("rods").steps[0].value;
        prop_assert!(value("amount-rods") * each >= value("amount-weld") - 1e-9);
        prop_assert!(value("amount-rods-batch") * each >= pieces * value("amount-weld") - 1e-9);
        prop_assert!(value("amount-rods-batch") <= pieces * value("amount-rods"));
    }

    /// More measured area never asks for more runs.
    #[test]
    fn more_done_is_never_more_to_do(leg in 6.0..16.0f64, a in 3.0..14.0f64, b in 3.0..14.0f64, more in 0.0..3.0f64) {
        let of = |a: f64, b: f64| {
            let numbers = [("leg", leg), ("measured-leg", a), ("measured-second-leg", b)];
            let reply = ask("runs-left", &numbers, &[("process", "smaw-basic")]).ok()?;
            reply.answer("runs-more").and_then(|found| found.value)
        };
        if let (Some(less), Some(now)) = (of(a + more, b + more), of(a, b)) {
            prop_assert!(less <= now, "{less} after more, {now} before");
        }
    }

    /// The slices of a groove sum to its area with its caps, for every shape.
    #[test]
    fn slices_fill_the_groove(
        t in 6.0..60.0f64, angle in 5.0..50.0f64, face in 0.0..3.0f64, gap in 0.0..4.0f64, r in 2.0..5.0f64, slice in 2.0..5.0f64,
    ) {
        use strawblue::engine::weld::groove::{Groove, GrooveShape};
        for &shape in GrooveShape::ALL {
            prop_assume!(r < t - face);
            let groove = Groove {
                shape, thickness_mm: t, angle_deg: angle, second_angle_deg: angle, face_mm: face, gap_mm: gap,
                radius_mm: r, first_depth_mm: None,
            };
            let sum: f64 = groove.slices_mm2(slice).iter().sum();
            prop_assert!((sum - groove.area_mm2() - groove.caps_mm2()).abs() < 1e-6 * sum, "{shape:?}");
        }
    }
}
