//! What stands open on the screen: it is not kept over a restart.

use std::collections::BTreeSet;

use super::Page;
use crate::engine::carbon_equivalent::Equivalent;
use crate::questions::{BenchTest, Question};

/// What a steel or a filler is chosen for.
#[derive(Debug, Clone, Copy)]
pub enum ChosenFor {
    /// A part of the joint, or a process: which of them.
    Nth(usize),
    /// A question.
    Question(&'static Question),
}

impl ChosenFor {
    /// Which part or process; the first where it is a question.
    #[must_use]
    pub const fn nth(self) -> usize {
        match self {
            Self::Nth(nth) => nth,
            Self::Question(_) => 0,
        }
    }
}

impl Default for ChosenFor {
    fn default() -> Self {
        Self::Nth(0)
    }
}

/// Where the test of a steel without a mark stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum UnmarkedAt {
    /// At the first test that is neither answered nor passed over.
    #[default]
    First,
    /// At a test.
    Test(BenchTest),
    /// At its end.
    End,
}

/// A figure that can be asked for its basis.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum BasisOf {
    /// A figure of the plan, by its id.
    Plan(String),
    /// The answer of the Tint place.
    Tint,
    /// An equivalent of the certificate.
    Certificate(Equivalent),
    /// An answer of the question that is open, by its name.
    Answer(String),
    /// A figure of the heat cycle, by the name of its answer.
    Cycle(String),
}

/// What the results of a plan stand for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ResultsOf {
    /// The steels of the plan, as typed.
    pub steels: String,
    /// Is it refused?
    pub refused: bool,
}

/// What stands open on the screen; it is not kept over a restart.
#[derive(Default)]
pub struct Open {
    /// Rows of the form.
    pub rows: BTreeSet<String>,
    /// Which set of evidence is shown; until one is picked, the one that governs.
    pub evidence_set: Option<usize>,
    /// What the results were last filled for: another steel, or a refusal, begins at their top.
    pub results_of: Option<ResultsOf>,
    /// Are all cautions of the job shown?
    pub all_cautions: bool,
    /// Cautions that are open.
    pub cautions: BTreeSet<String>,
    /// The figure whose basis is open.
    pub basis: Option<BasisOf>,
    /// Pages opened above the place, the last one on top.
    pub pages: Vec<Page>,
    /// What a steel or a filler is being chosen for.
    pub chosen_for: ChosenFor,
    /// Further questions that the Tint place shows after its own instruments.
    pub questions: Vec<&'static Question>,
    /// The question that is open on the Bench.
    pub question: Option<&'static Question>,
    /// What is looked for among the questions.
    pub bench_query: String,
    /// What is looked for among the steels.
    pub steel_query: String,
    /// Groups of steels that are unfolded.
    pub steel_groups: BTreeSet<String>,
    /// The steel that is looked at.
    pub steel_detail: Option<String>,
    /// The own steel that is being changed; none for a new one.
    pub certificate_of: Option<String>,
    /// Where the test of a steel without a mark stands.
    pub unmarked_at: UnmarkedAt,
    /// Tests of it that nobody could answer.
    pub unmarked_passed: Vec<BenchTest>,
    /// Was the pasted line asked to be read?
    pub certificate_line_asked: bool,
    /// What is looked for among the fillers.
    pub filler_query: String,
    /// What is looked for among the cautions.
    pub safety_query: String,
    /// Places of the cautions that are unfolded.
    pub safety_places: BTreeSet<String>,
    /// Cautions that are open in the list of all.
    pub safety_cautions: BTreeSet<String>,
    /// Is first aid unfolded?
    pub first_aid: bool,
    /// Are temperature and length chosen apart, whatever they are?
    pub units_mixed: bool,
    /// Were the settings just reset?
    pub settings_reset: bool,
    /// Is the list of terms unfolded?
    pub terms: bool,
    /// What is looked for in it.
    pub terms_query: String,
    /// Is the list of sources unfolded?
    pub sources: bool,
    /// What is looked for in it.
    pub sources_query: String,
    /// Which part of it is shown; past the last one it begins anew.
    pub sources_part: i32,
    /// Is the list of licences unfolded?
    pub licences: bool,
    /// Licences whose text is unfolded.
    pub licence_texts: BTreeSet<String>,
}

impl Open {
    /// Another job begins: nothing of the one before stands open.
    pub(super) fn begin_job(&mut self) {
        self.rows.clear();
        self.evidence_set = None;
        self.all_cautions = false;
        self.cautions.clear();
        if matches!(self.basis, Some(BasisOf::Plan(_) | BasisOf::Cycle(_))) {
            self.basis = None;
        }
    }
}

/// A toggle of a set of ids.
pub(super) fn toggle(set: &mut BTreeSet<String>, id: &str) {
    if !set.remove(id) {
        set.insert(id.to_owned());
    }
}

/// What is shut opens; what is open shuts.
pub(super) const fn flip(open: &mut bool) {
    *open = !*open;
}
