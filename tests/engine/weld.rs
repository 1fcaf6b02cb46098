//! Sizes, runs, strength and current of a weld: worked examples that the registry does not ask, refusals.

use strawblue::engine::EngineError;
use strawblue::engine::cooling_time::{Cooling, t85_thick_s};
use strawblue::engine::weld::amount::{AmountQuery, Rod, amount};
use strawblue::engine::weld::deposit::{area_mm2, wire_kg_per_h};
use strawblue::engine::weld::fillet::{Fillet, leg_of_area_mm};
use strawblue::engine::weld::matching::{MatchVerdict, WeldKind, WeldLoad, verdict};
use strawblue::engine::weld::ring::line_polar_mm3;
use strawblue::engine::weld::runs::rows_of_beads;
use strawblue::engine::weld::section::beads;
use strawblue::engine::weld::strength::en_design;
use strawblue::questions::{self, Answers, Given, Problem, Reply};
use strawblue::reference::{RunProcess, WeldRuns, embedded};

pub(crate) fn near(found: f64, is: f64, within: f64) {
    assert!((found - is).abs() <= within, "{found} is not {is} within {within}");
}

pub(crate) fn ask(name: &str, numbers: &[(&str, f64)], choices: &[(&str, &str)]) -> Result<Reply, Problem> {
    let given =
        numbers.iter().fold(Answers::new(), |all, (key, value)| all.with(*key, Given::Number(*value)));
    let given = choices.iter().fold(given, |all, (key, id)| all.with(*key, Given::Choice((*id).to_owned())));
    questions::find(name).expect("a question").ask(&given)
}

pub(crate) fn runs() -> &'static WeldRuns {
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
