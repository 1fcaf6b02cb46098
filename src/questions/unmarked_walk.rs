//! The guided test of a steel without a mark, one test after the other.

use strum::{EnumIter, EnumString, IntoEnumIterator, IntoStaticStr};

use super::unmarked::answered;
use super::{Answers, Problem};
use crate::engine::unmarked::{self, End, Next, Reading, treat_as};
use crate::reference::{Composition, embedded};

/// A test at the bench, in the order in which they are done.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, EnumIter, EnumString, IntoStaticStr)]
#[strum(serialize_all = "kebab-case")]
pub enum BenchTest {
    /// A new file on a ground spot.
    File,
    /// The spark.
    Spark,
    /// The magnet.
    Magnet,
    /// The chip of a chisel.
    Chip,
    /// A look at the surface, and what the part was.
    Look,
    /// Mass and size.
    Density,
    /// The surface ground off, and the file again.
    Ground,
    /// A coupon that is quenched.
    Quench,
    /// A cut edge, a coupon cooled in air, a rolled section: is it alloyed?
    Alloy,
}

/// The tests that everybody does first.
const FIRST: [BenchTest; 3] = [BenchTest::File, BenchTest::Spark, BenchTest::Magnet];
/// What the part was, where that alone shows little alloy.
pub const SECTION: &str = "section";

impl BenchTest {
    /// Stable id.
    #[must_use]
    pub fn id(self) -> &'static str {
        self.into()
    }

    /// The inputs of the question that it answers.
    #[must_use]
    pub const fn inputs(self) -> &'static [&'static str] {
        match self {
            Self::File => &["file-bite"],
            Self::Spark => &["spark", "known-bar"],
            Self::Magnet => &["magnet"],
            Self::Chip => &["chip"],
            Self::Look => &["look", "was"],
            Self::Density => &["density"],
            Self::Ground => &["ground", "core-hrc"],
            Self::Quench => &["quench-coupon", "quench-hrc"],
            Self::Alloy => &["was", "cut-edge", "air-coupon"],
        }
    }

    /// The steps that are over with it.
    const fn steps(self) -> &'static [&'static str] {
        match self {
            Self::File => &["file"],
            Self::Spark => &["spark"],
            Self::Magnet => &["magnet"],
            Self::Chip => &["chip"],
            Self::Look => &["look"],
            Self::Density => &["density"],
            Self::Ground => &["ground", "core"],
            Self::Quench => &["quench"],
            Self::Alloy => &["cut-edge", "air"],
        }
    }

    const fn of(next: Next) -> Self {
        match next {
            Next::File => Self::File,
            Next::Spark => Self::Spark,
            Next::Magnet => Self::Magnet,
            Next::Chip => Self::Chip,
            Next::Look => Self::Look,
            Next::Ground => Self::Ground,
            Next::Quench => Self::Quench,
            Next::Alloyed => Self::Alloy,
            Next::Density => Self::Density,
        }
    }

    /// The test whose answer is asked again as this step.
    #[must_use]
    pub fn of_step(step: &str) -> Self {
        let has = |test: &Self| test.steps().contains(&step);
        Self::iter().find(has).unwrap_or(Self::Look)
    }

    /// Is something answered in it?
    #[must_use]
    pub fn is_answered(self, given: &Answers) -> bool {
        let was = given.maybe_choice("was");
        self.inputs().iter().any(|key| match *key {
            // One input stands in two tests: a rolled section belongs to the alloy, all else to the look.
            "was" => was.is_some_and(|was| (was == SECTION) == (self == Self::Alloy)),
            // A bar beside it is no answer yet.
            "known-bar" => false,
            key => given.get(key).is_some(),
        })
    }
}

/// How far a test has come.
#[derive(Debug, Clone, PartialEq)]
pub struct Walk {
    /// The tests so far, and the next one; the end comes after them.
    pub tests: Vec<BenchTest>,
    /// The test to do next; none where the end is reached.
    pub next: Option<BenchTest>,
    /// What the answers leave.
    pub reading: Reading,
    /// What the steel is treated as; none while there is no figure.
    pub steel: Option<Composition>,
}

/// How far a test has come with these answers, where these tests were passed over.
///
/// # Errors
/// Answers that do not go together.
pub fn walk(given: &Answers, passed: &[BenchTest]) -> Result<Walk, Problem> {
    let data = &embedded().unmarked;
    let answers = answered(data, given)?;
    let reading = unmarked::read(data, &answers);
    let is_over = |test: &BenchTest| passed.contains(test) || test.is_answered(given);
    let over: Vec<&str> =
        BenchTest::iter().filter(is_over).flat_map(|test| test.steps().iter().copied()).collect();
    let next = unmarked::next(data, &reading, &answers, &over).map(BenchTest::of);
    let shown = |test: &BenchTest| FIRST.contains(test) || is_over(test) || next == Some(*test);
    let tests = BenchTest::iter().filter(shown).collect();
    let counts = matches!(reading.end, End::Number | End::AtLeast);
    let steel = counts.then(|| treat_as(data, &reading));
    Ok(Walk { tests, next, reading, steel })
}
