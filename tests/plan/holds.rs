//! The post-heat of a plan: for the weld and not for the part, asked for its size, practicable or not.

use strawblue::engine::plan::{Branch, Deed, Find, StepFigure};

use crate::jobs::said;
use crate::on_top::{BUTT_4140, made, remarks, top, with};

fn hours(pairs: &[(&str, &str)]) -> f64 {
    let (_, plan) = made(pairs);
    let held = plan.side.and_then(|side| side.post_heat).and_then(|held| held.answer.main);
    held.map_or(f64::NAN, |hold| hold.shown_h())
}

/// A heat input that no such wall takes is asked about beside the cooling time that it would bring.
#[test]
fn a_cooling_time_that_no_wall_has_is_doubted() {
    let told = |mm: &'static str, heat: &'static str| {
        let pairs = [("steel", "4130"), ("shape", "round"), ("thickness", mm), ("heat_input", heat)];
        let pairs = with(&[("joint", "t-fillet-one-side"), ("process", "gtaw")], &pairs);
        let (read, plan) = made(&pairs);
        said(&read.job, &plan).contains("So slow is hardly real")
    };
    assert!(told("1.2", "1.0") && !told("1.2", "0.15") && !told("30", "1.0"));
}

/// A butt weld is as thick as its thinner plate; the depth of a repair or a groove can be told, and is
/// asked for; the hours fall with it.
#[test]
fn a_post_heat_is_for_the_weld_and_not_for_the_part() {
    let thin = [("steel-b", "S355J2"), ("thickness", "40"), ("thickness-b", "200")];
    let equal = [("steel-b", "S355J2"), ("thickness", "40"), ("thickness-b", "40")];
    let (one, other) = (hours(&with(&BUTT_4140, &thin)), hours(&with(&BUTT_4140, &equal)));
    assert!((one - other).abs() < 1e-9 && one <= 24.0, "{one} {other}");
    for joint in ["butt", "repair"] {
        let open = with(&BUTT_4140, &[("joint", joint), ("thickness", "80")]);
        let told = with(&open, &[("weld-depth", "8")]);
        assert!(hours(&told) < 10.0 && hours(&open) > 50.0, "{joint}");
        assert!(made(&open).1.sequence.find.contains(&Find::WeldSize), "{joint}");
        assert!(!made(&told).1.sequence.find.contains(&Find::WeldSize), "{joint}");
        // A deeper weld never takes less, and none more than one through the part.
        let mut before = 0.0;
        for depth in ["4", "8", "16", "30", "50", "70", "79"] {
            let held = hours(&with(&open, &[("weld-depth", depth)]));
            assert!(before <= held && held <= hours(&open), "{joint} {depth}: {held}");
            before = held;
        }
        // Deeper than the part is through the part.
        let deep = with(&open, &[("weld-depth", "500")]);
        assert!((hours(&deep) - hours(&open)).abs() < 1e-9, "{joint}");
    }
}

/// Nobody keeps a joint hot for weeks (common practice, no source): the computed hours stay, are called
/// not practicable, and the rules of thumb stand beside them as what they are. With a furnace, heat
/// treatment straight from the heat takes the place of the hold.
#[test]
fn a_hold_of_weeks_is_called_not_practicable() {
    for (thickness, steel) in [("80", "4140"), ("300", "4140"), ("150", "4340")] {
        let taken = [("joint", "repair"), ("thickness", thickness), ("steel", steel)];
        // A size that nobody told is asked for first.
        let untold = with(&BUTT_4140, &taken);
        let (read, plan) = made(&untold);
        let text = said(&read.job, &plan);
        assert!(text.contains("How deep is the weld?") && text.contains("which is assumed"), "{text}");
        assert!(!text.to_lowercase().contains("not practicable"), "{text}");
        let pairs = with(&untold, &[("weld-depth", thickness)]);
        let (read, plan) = made(&pairs);
        let held = hours(&pairs);
        assert!(held > 24.0);
        let text = said(&read.job, &plan);
        for wanted in ["not practicable", "Not practicable", "1 h per inch", "2–4 h per 25 mm"] {
            assert!(text.contains(wanted), "{thickness}: {wanted}\n{text}");
        }
        assert!(top(&pairs).contains(&format!("{held} h")), "{}", top(&pairs));
        let way = |wanted| {
            let found = plan.sequence.branches.iter().find(|(branch, _)| *branch == wanted);
            found.unwrap_or_else(|| panic!("{thickness}: no {wanted:?}")).1.as_slice()
        };
        let does = |wanted, deed| way(wanted).iter().any(|step| step.deed == deed);
        assert!(does(Branch::NoFurnace, Deed::PostHeat) && !does(Branch::FurnaceAtHand, Deed::PostHeat));
        let first = way(Branch::FurnaceAtHand)[0].deed;
        assert!(matches!(first, Deed::HeatTreatNow | Deed::FurnaceFirst), "{first:?}");
        assert!(!plan.sequence.steps.iter().any(|step| step.deed == Deed::PostHeat));
        let hold = way(Branch::NoFurnace).iter().find(|step| step.deed == Deed::PostHeat);
        assert_eq!(hold.and_then(|step| step.figure), Some(StepFigure::Hours(held)));
    }
    let short = with(&BUTT_4140, &[("joint", "t-fillet-one-side"), ("leg", "8")]);
    assert!(!remarks(&short).contains(&"hold-too-long"));
}
