//! The guided test of a steel without a mark: every core path, worked once by other means, and its laws.

use std::collections::BTreeMap;

use proptest::prelude::*;
use strawblue::engine::unmarked::{
    self, Alloy, Answered, End, Family, Reading, carbon_of_all, carbon_of_half, read, treat_as,
};
use strawblue::questions::{self, Answers, Given, Problem};
use strawblue::reference::{Element, Unmarked, embedded};

/// Answers, end, range, alloy, carbon, families, flags and steps to do again: the core paths of file, spark and
/// magnet, and others, worked by a second program from the same rows (common practice, no source).
/// That program drops high-speed steel at a density of 7.85, the very end of its range, by rounding; here it stays.
const PATHS: &str = include_str!("unmarked_paths.tsv");

fn data() -> &'static Unmarked {
    &embedded().unmarked
}

/// The answer of a step as a path writes it.
fn answered(step: &str, answer: &str) -> Answered {
    let own = match step {
        "file" => "file",
        "spark" => "spark",
        "magnet" => "magnet",
        "look" => "look",
        "chip" => "chip",
        "edge" => "cut-edge",
        "quench" => "quench",
        "air" => "air",
        "core" => "core",
        "density" => "density",
        "form" => "was",
        "ground" => "ground",
        other => panic!("{other}"),
    };
    if let Ok(number) = answer.parse::<f64>() {
        return match own {
            "quench" => unmarked::quenched(data(), number),
            "core" => unmarked::core(data(), number),
            _ => unmarked::density(data(), number),
        }
        .expect("an answer");
    }
    let row = data().answer(own, &answer.replace('+', "-")).unwrap_or_else(|| panic!("{step} {answer}"));
    unmarked::row(own, row).expect("an answer")
}

/// The order in which steps are told again.
const ORDER: [&str; 12] = [
    "file", "spark", "magnet", "look", "chip", "cut-edge", "quench", "air", "core", "density", "was",
    "ground",
];

fn in_order(mut answers: Vec<Answered>) -> Vec<Answered> {
    answers.sort_by_key(|answer| ORDER.iter().position(|step| *step == answer.step));
    answers
}

fn end_id(end: End) -> String {
    match end {
        End::AskAgain => "ask-again".to_owned(),
        End::OwnSheet(family) => format!("own-sheet:{}", family.id().replace("hss", "tool")),
        End::DoNotWeld => "do-not-weld".to_owned(),
        End::Stop => "stop".to_owned(),
        End::Ask => "ask".to_owned(),
        End::Number => "number".to_owned(),
        End::AtLeast => "at-least".to_owned(),
    }
}

fn flags(reading: &Reading) -> Vec<&'static str> {
    [
        (reading.hard_skin, "hard-skin"),
        (reading.case_likely, "case-likely"),
        (reading.case_possible, "case-possible"),
        (reading.free_cutting, "free-cutting-possible"),
        (reading.spring, "spring"),
    ]
    .into_iter()
    .filter_map(|(is, id)| is.then_some(id))
    .collect()
}

#[test]
fn every_path_ends_as_it_was_worked() {
    let mut ends: BTreeMap<String, usize> = BTreeMap::new();
    let mut failures = Vec::new();
    let lines = PATHS.lines().filter(|line| !line.starts_with('#'));
    for line in lines {
        let cells: Vec<&str> = line.split('\t').collect();
        let path = cells[0];
        let answers: Vec<Answered> = path
            .split(';')
            .filter_map(|pair| pair.split_once('='))
            .map(|(step, answer)| answered(step, answer))
            .collect();
        let reading = read(data(), &in_order(answers));
        *ends.entry(cells[1].to_owned()).or_default() += 1;
        let list =
            |cell: &str| cell.split(',').filter(|one| !one.is_empty()).map(str::to_owned).collect::<Vec<_>>();
        let mut wrong = |what: &str, found: String, is: &str| {
            if found != is {
                failures.push(format!("{path}: {what} is {found}, not {is}"));
            }
        };
        wrong("end", end_id(reading.end), cells[1]);
        let families: Vec<&str> = reading.families.iter().map(Family::id).collect();
        wrong("families", families.join(","), cells[6]);
        wrong("flags", flags(&reading).join(","), cells[7]);
        let again: Vec<String> = list(cells[8])
            .iter()
            .map(|step| match step.as_str() {
                "edge" => "cut-edge".to_owned(),
                "form" => "was".to_owned(),
                other => other.to_owned(),
            })
            .collect();
        wrong("again", reading.again.join(","), &again.join(","));
        if !cells[2].is_empty() {
            let number = |cell: &str| cell.parse::<f64>().expect("a number");
            let near = |a: f64, b: f64| (a - b).abs() < 6e-4;
            let same = near(reading.carbon.0, number(cells[2]))
                && near(reading.carbon.1, number(cells[3]))
                && near(reading.counted, number(cells[5]));
            wrong("carbon", same.to_string(), "true");
            let alloy = if reading.alloy == Alloy::Lean { "lean" } else { "rich" };
            wrong("alloy", alloy.to_owned(), cells[4]);
        }
    }
    assert!(failures.is_empty(), "{} wrong:\n{}", failures.len(), failures.join("\n"));
    assert_eq!(ends.values().sum::<usize>(), 251, "{ends:?}");
}

/// ASTM A255 from memory: hardness of all and of half martensite, there and back.
#[test]
fn martensite_by_carbon() {
    for (carbon, all, half) in [
        (0.10, 38.0, 26.0),
        (0.15, 41.0, 29.0),
        (0.20, 44.0, 32.0),
        (0.25, 47.0, 35.0),
        (0.30, 50.0, 37.0),
        (0.35, 53.0, 40.0),
        (0.40, 56.0, 43.0),
        (0.45, 59.0, 45.0),
        (0.50, 60.5, 47.0),
        (0.55, 62.0, 50.0),
        (0.60, 64.0, 53.0),
    ] {
        assert!((carbon_of_all(data(), all) - carbon).abs() < 1e-9);
        assert!((carbon_of_half(data(), half).expect("in the table") - carbon).abs() < 1e-9);
    }
    assert_eq!(carbon_of_half(data(), 53.1), None);
}

/// Each step's answers, with the one that nobody gave.
fn choices() -> Vec<Vec<Option<Answered>>> {
    let steps = data().steps.iter().map(|step| {
        let id = ORDER.iter().find(|known| **known == step.id).copied().expect("a step");
        let given = step.answers.iter().map(|row| Some(unmarked::row(id, row).expect("an answer")));
        std::iter::once(None).chain(given).collect::<Vec<_>>()
    });
    steps.collect()
}

/// One path: what it ends with.
fn never_too_low(answers: &[Answered]) -> &'static str {
    let reading = read(data(), answers);
    let steel_left = answers.iter().all(|answer| answer.families.has(Family::Steel));
    // What is allowed, counted apart: each carbon in steps of 0.01 that no answer rules out.
    let allowed = |percent: f64| {
        answers
            .iter()
            .filter_map(|answer| answer.carbon)
            .all(|(low, high)| percent >= low - 1e-9 && percent <= high + 1e-9)
    };
    let most = (0..=140).rev().map(|step| f64::from(step) / 100.0).find(|percent| allowed(*percent));
    if let (true, Some(most)) = (steel_left, most) {
        assert!(reading.counted >= most - 1e-9, "{answers:?}: {reading:?} below {most}");
    }
    let numbered = matches!(reading.end, End::Number | End::AtLeast);
    if numbered {
        let harmed = [Family::Iron, Family::Manganese, Family::StainlessN, Family::Hss, Family::Other];
        assert!(!harmed.iter().any(|family| reading.families.has(*family)), "{answers:?}: {reading:?}");
        assert!(steel_left && most.is_some());
    }
    // In a contradiction the widest reading stands.
    if reading.end == End::AskAgain {
        let mut highest = answers.iter().filter_map(|answer| answer.carbon).map(|(_, high)| high);
        assert!(highest.all(|high| reading.carbon.1 >= high - 1e-9), "{answers:?}: {reading:?}");
    }
    if numbered { "number" } else { "none" }
}

/// All paths through all steps: never is less carbon counted than every answer allows, and never is there a
/// number while a family is left that a steel's preheat harms.
#[test]
fn no_path_ends_below_the_carbon_that_its_answers_allow() {
    // All paths of the steps that a screen leads through, and of all steps together every 53rd: a stride that
    // shares no factor with any count of answers, so that all mixes of two and three steps are met.
    let all = choices();
    let led: Vec<_> = [0, 1, 2, 5, 6, 7, 8].iter().map(|at| all[*at].clone()).collect();
    let mut ended: BTreeMap<&str, usize> = BTreeMap::new();
    for (choices, stride) in [(led, 1), (all, 53)] {
        let paths: usize = choices.iter().map(Vec::len).product();
        for path in (0..paths).step_by(stride) {
            let mut left = path;
            let answers: Vec<Answered> = choices
                .iter()
                .filter_map(|answers| {
                    let at = left % answers.len();
                    left /= answers.len();
                    answers[at].clone()
                })
                .collect();
            *ended.entry(never_too_low(&answers)).or_default() += 1;
        }
    }
    assert!(ended["number"] > 1000 && ended["none"] > 100_000, "{ended:?}");
}

/// Every path of up to three steps, walked whole.
#[test]
fn every_path_of_three_steps_is_walked() {
    let choices = choices();
    let mut walked = 0;
    for a in 0..choices.len() {
        for b in a + 1..choices.len() {
            for c in b + 1..choices.len() {
                for one in &choices[a] {
                    for two in &choices[b] {
                        for three in &choices[c] {
                            let answers: Vec<Answered> =
                                [one, two, three].into_iter().flatten().cloned().collect();
                            never_lower_without_one(&answers);
                            walked += 1;
                        }
                    }
                }
            }
        }
    }
    assert!(walked > 15_000, "{walked}");
}

/// To take an answer away from a consistent path never lowers the top and never drops a family.
fn never_lower_without_one(answers: &[Answered]) {
    let whole = read(data(), answers);
    if whole.end == End::AskAgain {
        return;
    }
    for at in 0..answers.len() {
        let mut rest = answers.to_vec();
        rest.remove(at);
        let less = read(data(), &rest);
        assert!(less.carbon.1 >= whole.carbon.1 - 1e-9, "{answers:?} without {at}");
        assert_eq!(less.families.and(whole.families), whole.families, "{answers:?} without {at}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(3000))]

    /// Order changes nothing; with any answers the laws of removal hold; the richer row never has less.
    #[test]
    fn laws_of_any_path(picks in prop::collection::vec(0usize..64, 9), hrc in 0.0..70.0f64, core in 0.0..70.0f64, with in any::<(bool, bool)>()) {
        let mut answers: Vec<Answered> = choices()
            .into_iter()
            .zip(&picks)
            .filter_map(|(answers, pick)| answers[pick % answers.len()].clone())
            .collect();
        if with.0 && !answers.iter().any(|answer| answer.step == "quench") {
            answers.push(unmarked::quenched(data(), hrc).expect("an answer"));
        }
        if with.1 {
            answers.push(unmarked::core(data(), core).expect("an answer"));
        }
        never_lower_without_one(&answers);
        let there = read(data(), &answers);
        answers.reverse();
        let back = read(data(), &answers);
        prop_assert_eq!(there.carbon, back.carbon);
        prop_assert_eq!(there.families, back.families);
        prop_assert_eq!(there.end, back.end);
        prop_assert_eq!(there.alloy, back.alloy);
        let rich = treat_as(data(), &Reading { alloy: Alloy::Rich, ..there.clone() });
        let lean = treat_as(data(), &Reading { alloy: Alloy::Lean, ..there });
        for &element in Element::ALL {
            let clean = matches!(element, Element::P | Element::S);
            prop_assert!(clean || lean.get(element) <= rich.get(element));
        }
    }
}

/// What is rich is at or above the all-maximum analysis of every grade with at most 3 % chromium whose carbon
/// cap is at or below the top, by carbon equivalent; tool, stainless, iron and free-cutting grades left out.
#[test]
fn rich_covers_every_grade() {
    use strawblue::engine::carbon_equivalent::Equivalent;
    let mut checked = 0;
    for grade in embedded().grades.iter() {
        let most =
            |element: Element| grade.composition.get(&element).and_then(|limits| limits.max).unwrap_or(0.0);
        let carbon = most(Element::C);
        let family = format!("{:?}", grade.family);
        let left_out =
            ["Tool", "Stainless", "Iron", "Manganese", "FreeMachining", "FreeCutting", "HighSpeed"];
        if left_out.iter().any(|out| family.contains(out))
            || most(Element::Cr) > 3.0
            || most(Element::Mn) > 2.5
            || most(Element::S) > 0.06
            || carbon > 1.4
        {
            continue;
        }
        let reading = Reading { carbon: (0.0, carbon), ..read(data(), &[]) };
        let counted = carbon.max(data().rich.least_carbon);
        let steel = treat_as(data(), &Reading { counted, alloy: Alloy::Rich, ..reading });
        let worst = Element::ALL
            .iter()
            .fold(strawblue::reference::Composition::default(), |made, &e| made.with(e, most(e)));
        for which in [Equivalent::CeIiw, Equivalent::Cet] {
            let (treated, grade_most) = (which.of(&steel), which.of(&worst));
            assert!(treated >= grade_most - 1e-9, "{}: {which:?} {grade_most} above {treated}", grade.id);
        }
        checked += 1;
    }
    assert!(checked > 60, "only {checked}");
}

#[test]
fn two_answers_to_one_coupon_are_refused() {
    let given = Answers::new()
        .with("quench-coupon", Given::Choice("bites".to_owned()))
        .with("quench-hrc", Given::Number(50.0));
    let problem = questions::find("unmarked-steel").expect("a question").ask(&given);
    assert!(matches!(problem, Err(Problem::OnlyOne { .. })));
    let absurd = Answers::new().with("density", Given::Number(0.5));
    assert!(questions::find("unmarked-steel").expect("a question").ask(&absurd).is_err());
}
