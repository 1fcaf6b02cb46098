//! Laws of a weld: legs and runs, areas and beads, strength, current, rods.

use proptest::prelude::*;
use strawblue::engine::weld::deposit::area_mm2;
use strawblue::engine::weld::fillet::{Fillet, least_leg_mm, leg_of_area_mm};
use strawblue::engine::weld::matching::{WeldKind, WeldLoad, verdict};
use strawblue::engine::weld::runs::{RunOf, RunsQuery, fillet_runs};
use strawblue::engine::weld::section::beads;
use strawblue::engine::weld::strength::{FilletMetal, Rules, angle_factor, en_design, per_mm};
use strawblue::engine::weld::tig::{rod_for, tungsten_for};
use strawblue::engine::weld::torch_class::allowed_a;
use strawblue::reference::{Position, embedded};

use crate::weld::{ask, runs};

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
