//! What all answers together leave, and what stands at the end.

use super::answered::Answered;
use super::families::{Families, Family};
pub use crate::engine::job::Alloy;
use crate::reference::{TestFlag, Unmarked};

/// Where the test ends.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum End {
    /// The answers contradict each other.
    AskAgain,
    /// One family that has figures of its own.
    OwnSheet(Family),
    /// High-speed steel.
    DoNotWeld,
    /// Not a steel.
    Stop,
    /// Several families, of which some are harmed by the preheat of a steel.
    Ask,
    /// Steel: treat it as the worst that is left.
    Number,
    /// Steel or tool or stainless steel: at least that.
    AtLeast,
}

/// The test that tells most next.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, strum::IntoStaticStr)]
#[strum(prefix = "unmarked-next-", serialize_all = "kebab-case")]
pub enum Next {
    /// The file.
    File,
    /// The spark.
    Spark,
    /// The magnet.
    Magnet,
    /// A chip, which parts iron from steel.
    Chip,
    /// A look at the surface and what it was.
    Look,
    /// The surface ground off, and the file again.
    Ground,
    /// The quenched coupon.
    Quench,
    /// The air-cooled coupon or a cut edge: is it alloyed?
    Alloyed,
    /// Mass and size.
    Density,
}

impl Next {
    /// Id of its note.
    #[must_use]
    pub fn id(self) -> &'static str {
        self.into()
    }
}

/// What all answers together leave.
#[derive(Debug, Clone, PartialEq)]
pub struct Reading {
    /// Families that are left; in a contradiction all that any answer allows.
    pub families: Families,
    /// Range of carbon of a steel, %.
    pub carbon: (f64, f64),
    /// The alloy that it counts with.
    pub alloy: Alloy,
    /// Carbon that it counts with, %.
    pub counted: f64,
    /// Where it ends.
    pub end: End,
    /// Steps to be done again.
    pub again: Vec<&'static str>,
    /// Is the surface harder than a file?
    pub hard_skin: bool,
    /// Is the hard surface off where the weld goes?
    pub skin_off: bool,
    /// Is it a hard case on soft steel?
    pub case_likely: bool,
    /// Are parts of this kind often case-hardened?
    pub case_possible: bool,
    /// Does free-cutting steel look like this?
    pub free_cutting: bool,
    /// Is it a spring?
    pub spring: bool,
    /// The test that tells most next; none where nothing more is to be had.
    pub next: Option<Next>,
}

/// Families and carbon that all of these allow; families are empty, or the range is, where they
/// contradict each other.
fn common<'a>(answers: impl Iterator<Item = &'a Answered>, top: f64) -> (Families, (f64, f64)) {
    answers.fold((Families::ALL, (0.0, top)), |(families, (low, high)), answer| {
        let (from, to) = answer.carbon.unwrap_or((0.0, top));
        (families.and(answer.families), (low.max(from), high.min(to)))
    })
}

fn contradicts((families, (low, high)): (Families, (f64, f64))) -> bool {
    families.is_empty() || families.has(Family::Steel) && low > high
}

/// What answers leave together. Order changes nothing.
///
/// Source: none; common practice, with allowances for the worst case. A hard surface on a steel whose spark
/// is soft is no contradiction: the surface is another steel than the core.
#[must_use]
pub fn read(data: &Unmarked, answers: &[Answered]) -> Reading {
    let top = data.top_percent;
    let all = common(answers.iter(), top);
    let wrong = contradicts(all);
    let (families, carbon, again) = if wrong { widest(answers, top) } else { (all.0, all.1, Vec::new()) };
    let told = |flag| answers.iter().any(|answer| answer.flags.contains(&flag));
    let shown = told(TestFlag::Section)
        || told(TestFlag::AirSame)
        || told(TestFlag::EdgeSame) && !told(TestFlag::HardSkin) && easily_filed(answers);
    let lean = !wrong && !told(TestFlag::Harder) && carbon.1 <= data.lean_up_to && shown;
    let (alloy, treat) = if lean { (Alloy::Lean, &data.lean) } else { (Alloy::Rich, &data.rich) };
    let hard_skin = told(TestFlag::HardSkin);
    let end = if wrong { End::AskAgain } else { end(families) };
    let reading = Reading {
        families,
        carbon,
        alloy,
        counted: carbon.1.max(treat.least_carbon),
        end,
        again,
        hard_skin,
        skin_off: hard_skin && told(TestFlag::SkinOff),
        case_likely: hard_skin && told(TestFlag::SoftSpark),
        case_possible: told(TestFlag::CasePossible),
        free_cutting: told(TestFlag::FreeCutting),
        spring: told(TestFlag::Spring),
        next: None,
    };
    Reading { next: next(data, &reading, answers, &[]), ..reading }
}

/// Did the file bite easily? A cut edge as soft as its plate tells nothing on a plate that is hard.
fn easily_filed(answers: &[Answered]) -> bool {
    answers.iter().any(|answer| answer.step == "file" && answer.flags.contains(&TestFlag::FiledEasily))
}

/// In a contradiction: all that any answer allows, and the steps that may be wrong.
fn widest(answers: &[Answered], top: f64) -> (Families, (f64, f64), Vec<&'static str>) {
    let narrowing = answers.iter().filter(|answer| answer.families != Families::ALL);
    let families = narrowing.fold(Families::one(Family::Steel), |all, answer| all.or(answer.families));
    let carbon = answers
        .iter()
        .filter_map(|answer| answer.carbon)
        .reduce(|(low, high), (from, to)| (low.min(from), high.max(to)))
        .unwrap_or((0.0, top));
    let mends = |at: usize| {
        let rest = answers.iter().enumerate().filter(|(other, _)| *other != at).map(|(_, answer)| answer);
        !contradicts(common(rest, top))
    };
    let mut again: Vec<&'static str> =
        answers.iter().enumerate().filter(|(at, _)| mends(*at)).map(|(_, answer)| answer.step).collect();
    if again.is_empty() {
        again = answers.iter().filter(|answer| answer.narrows()).map(|answer| answer.step).collect();
    }
    (families, carbon, again)
}

fn end(families: Families) -> End {
    if !families.has(Family::Steel) {
        return match (families.count(), families.iter().next()) {
            (1, Some(Family::Hss)) => End::DoNotWeld,
            (1, Some(Family::Other)) => End::Stop,
            (1, Some(family)) => End::OwnSheet(family),
            _ => End::Ask,
        };
    }
    let harmed = [Family::Iron, Family::Manganese, Family::StainlessN, Family::Hss, Family::Other];
    if harmed.iter().any(|family| families.has(*family)) {
        End::Ask
    } else if families.count() == 1 {
        End::Number
    } else {
        End::AtLeast
    }
}

/// The test that tells most next, those left out that nobody could answer: the drawn three first, then what parts the families that are left, then the
/// alloy, then the carbon.
#[must_use]
pub fn next(data: &Unmarked, reading: &Reading, answers: &[Answered], passed: &[&str]) -> Option<Next> {
    let done =
        |step: &str| passed.contains(&step) || answers.iter().any(|answer| answer.step.starts_with(step));
    let open = |next: Next, step: &str| (!done(step)).then_some(next);
    if reading.end == End::AskAgain {
        return None;
    }
    let drawn = || open(Next::File, "file").or(open(Next::Spark, "spark")).or(open(Next::Magnet, "magnet"));
    let settled = matches!(reading.end, End::OwnSheet(_) | End::DoNotWeld | End::Stop);
    if settled {
        return None;
    }
    let has = |family| reading.families.has(family);
    let alloyed = || (!done("air") && !done("cut-edge")).then_some(Next::Alloyed);
    drawn()
        .or_else(|| if has(Family::Iron) { open(Next::Chip, "chip") } else { None })
        .or_else(|| {
            let weak = has(Family::Manganese) || has(Family::StainlessN);
            if weak { open(Next::Look, "look").or(open(Next::Density, "density")) } else { None }
        })
        .or_else(|| {
            let odd = has(Family::Hss) || has(Family::Other);
            if odd && reading.end == End::Ask { open(Next::Density, "density") } else { None }
        })
        .or_else(|| {
            let covered = reading.hard_skin && !done("ground");
            if covered { open(Next::Ground, "core") } else { None }
        })
        // With so much carbon no test of the alloy spares anything.
        .or_else(|| if reading.carbon.1 > data.lean_up_to { open(Next::Quench, "quench") } else { None })
        .or_else(|| {
            let may_be_lean = reading.alloy == Alloy::Rich && reading.carbon.1 <= data.lean_up_to;
            if may_be_lean { alloyed() } else { None }
        })
}
