//! The fourth law on a job as typed: mm, °C and kJ/mm, or inches, °F and kJ/in, and its fields in any
//! order: one plan. Sizes are sixteenths of an inch, so that the borders that a rule prints in inches
//! (3/8, 1/2, 3/4, 1, 1-1/2, 2, 2-1/2, 4 in) are met from both sides.

use proptest::strategy::{Strategy, ValueTree};
use proptest::test_runner::{Config, RngAlgorithm, TestRng, TestRunner};
use strawblue::engine::job::{Job, Steel};
use strawblue::engine::plan::figures;
use strawblue::job::{Reading, Slot, read_job};
use strawblue::reference::{ConditionKind, Element, embedded};
use strawblue::units::Units;

use crate::laws::{a_job, jobs_a_lane};
use crate::typed_job::job as typed;

/// The fields of a job: the metric text, the other one with bare numbers.
type Pair = (String, String, String);

fn same(slot: &str, text: &str) -> Pair {
    (slot.to_owned(), text.to_owned(), text.to_owned())
}

/// The job as its reader would type it in one system and in the other, on figures that both can write.
fn texts(job: &Job, sixteenths: usize) -> Vec<Pair> {
    let mut all = Vec::new();
    for (nth, member) in job.members.iter().enumerate() {
        let slot = |field: &str| if nth == 0 { field.to_owned() } else { format!("{field}-b") };
        if let Steel::Certificate { composition, .. } = &member.steel {
            let shares = Element::ALL.iter().map(|&element| (element, composition.get(element)));
            let shares = shares.filter(|(_, share)| *share > 0.0);
            let shares = shares.map(|(element, share)| format!("{element:?} {share:.4}"));
            all.push(same(&slot("certificate"), &shares.collect::<Vec<_>>().join(" ")));
        }
        let (condition, other) = match (member.condition.kind, member.condition.temper_c) {
            (ConditionKind::AsRolled, _) => ("as rolled".to_owned(), None),
            (ConditionKind::Normalised, _) => ("normalised".to_owned(), None),
            (ConditionKind::HardenedTempered, None) if nth == 0 => {
                ("hardened and tempered 540 °C".to_owned(), Some("hardened and tempered 1004".to_owned()))
            }
            (ConditionKind::HardenedTempered, _) => ("hardened and tempered".to_owned(), None),
            _ => ("unknown".to_owned(), None),
        };
        let other = other.unwrap_or_else(|| condition.clone());
        all.push((slot("condition"), condition, other));
        let part_16 = 2 + (sixteenths * (nth + 1)) % 72;
        let mm = part_16 as f64 * 1.5875;
        all.push((slot("thickness"), format!("{mm:.4} mm"), format!("{}", part_16 as f64 / 16.0)));
        if let Some(mpa) = member.yield_mpa {
            all.push(same(&slot("yield"), &format!("{mpa:.0} MPa")));
        }
    }
    all.push(same("joint", job.joint.id()));
    if job.joint.has_fillet() {
        all.push(("leg".to_owned(), "9.525 mm".to_owned(), "3/8".to_owned()));
    }
    let run = job.runs[0];
    all.push(same("process", run.process.id()));
    all.push(same("hydrogen", &format!("{:.2} ml", run.hydrogen_ml)));
    let twentieths = (run.net_heat_kj_per_mm * 20.0).round().max(2.0);
    all.push((
        "heat-input".to_owned(),
        format!("{:.2} kJ/mm", twentieths / 20.0),
        format!("{:.2}", twentieths * 1.27),
    ));
    let restraint = format!("{:?}", job.restraint).to_lowercase();
    all.push(same("restraint", &restraint));
    let shop_c = job.shop_c.round();
    all.push(("shop".to_owned(), format!("{shop_c} °C"), format!("{:.1}", 1.8f64.mul_add(shop_c, 32.0))));
    if let Some(cet) = job.weld.cet {
        all.push(same("weld-cet", &format!("{cet:.3}")));
    }
    if let Some(mpa) = job.weld.tensile_mpa {
        all.push(same("weld-strength", &format!("{mpa:.0} MPa")));
    }
    all
}

fn read<'a>(pairs: impl Iterator<Item = (&'a str, &'a str)>, units: Units) -> Result<Job, String> {
    let pairs: Vec<(&str, &str)> = pairs.collect();
    assert!(pairs.iter().all(|(slot, _)| Slot::from_id(slot).is_some()), "{pairs:?}");
    let reading =
        Reading { reference: embedded(), own_steels: &[], units, mark: strawblue::units::Mark::Point };
    read_job(&typed(&pairs), &reading).map(|read| read.job).map_err(|found| format!("{found:?}"))
}

fn lane(seed: u8) {
    let mut runner =
        TestRunner::new_with_rng(Config::default(), TestRng::from_seed(RngAlgorithm::ChaCha, &[seed; 32]));
    let (mut planned, mut first) = (0, None);
    for nth in 0..jobs_a_lane() {
        let texts = texts(&a_job().new_tree(&mut runner).expect("a job").current(), nth);
        let metric = read(texts.iter().map(|(slot, mm, _)| (slot.as_str(), mm.as_str())), Units::C_MM);
        let inch =
            read(texts.iter().rev().map(|(slot, _, inch)| (slot.as_str(), inch.as_str())), Units::F_IN);
        let (metric, inch) = match (metric, inch) {
            (Ok(metric), Ok(inch)) => (metric, inch),
            (Err(one), Err(_)) => {
                first.get_or_insert(one);
                continue;
            }
            (metric, inch) => panic!("{texts:?}: {:?} {:?}", metric.err(), inch.err()),
        };
        if metric == inch {
            // One job to the last bit has one plan.
            planned += 1;
            continue;
        }
        let (one, other) = (figures(embedded(), &metric), figures(embedded(), &inch));
        let shown = |found: &Option<strawblue::engine::plan::Figures>| {
            found.as_ref().map(|found| {
                (
                    found.minimum_c,
                    found.interpass_c,
                    found.usable,
                    found.upper.ceiling.exact_c().map(f64::round),
                )
            })
        };
        assert_eq!(shown(&one), shown(&other), "{texts:?}");
        if let (Some(one), Some(other)) = (&one, &other) {
            let off_k = one.exact_c.zip(other.exact_c).map_or(0.0, |(one, other)| (one - other).abs());
            assert!(off_k < 1e-6, "{off_k} K off: {texts:?}");
            planned += 1;
        }
    }
    assert!(planned > jobs_a_lane() / 2, "only {planned} were planned: {first:?}");
}

#[test]
fn neither_units_nor_the_order_of_fields_change_a_plan_lane_1() {
    lane(5);
}

#[test]
fn neither_units_nor_the_order_of_fields_change_a_plan_lane_2() {
    lane(7);
}

#[test]
fn neither_units_nor_the_order_of_fields_change_a_plan_lane_3() {
    lane(13);
}

#[test]
fn neither_units_nor_the_order_of_fields_change_a_plan_lane_4() {
    lane(17);
}
