//! The briefing of a job, against what a workshop safety officer would say first.
//!
//! How the fifteen jobs a–o are read. The officer gives each job its first five acts in order. The
//! program prints fixed lines (fire, gas, shock, air, eyes and skin) before the cautions of the job,
//! so the two orders are compared where both speak: every act is said, by a fixed line, by cautions of
//! the job, by the card of first aid or by a step of the plan; the cautions of the job that say acts
//! stand at the head of its own list, in the order of the acts and with nothing between them (within one
//! act any order counts); what stands before the rest of the list is thus just what the officer names.

use std::collections::{BTreeMap, BTreeSet};

use ron::value::RawValue;
use serde::Deserialize;
use strawblue::engine::job::Job;
use strawblue::engine::plan::{Plan, Verdict, plan};
use strawblue::engine::safety_facts::SafetyFacts;
use strawblue::job::{JobText, Reading, read_job};
use strawblue::reference::{Caution, Harm, Reference, Role, Severity, Table, Trigger, embedded};
use strawblue::units::Units;
use strum::VariantNames;

/// The fixed lines, and the most that a briefing may have.
const FIXED: [&str; 5] = ["brief-fire", "brief-gas", "brief-shock", "brief-air", "brief-skin"];
const MOST: usize = 15;

/// What the officer says, and what says it here.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Act {
    says: String,
    #[serde(default)]
    fixed: String,
    #[serde(default)]
    own: Vec<String>,
    #[serde(default)]
    aid: Vec<String>,
    #[serde(default)]
    plan: Vec<String>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Case {
    name: String,
    job: Box<RawValue>,
    acts: Vec<Act>,
    /// Also there, anywhere.
    #[serde(default)]
    also: Vec<String>,
    /// Not there.
    #[serde(default)]
    never: Vec<String>,
    /// The acts are all that the job has of its own.
    #[serde(default)]
    only: bool,
    /// The facts that the job lists as not told, where they are looked at.
    not_told: Option<Vec<String>>,
}

fn cases() -> Vec<Case> {
    ron::Options::default()
        .with_default_extension(ron::extensions::Extensions::IMPLICIT_SOME)
        .from_str(include_str!("cautions.ron"))
        .expect("cautions.ron reads")
}

fn job_of(case: &Case) -> Job {
    let text = JobText::from_ron(case.job.get_ron()).unwrap_or_else(|error| panic!("{}: {error}", case.name));
    let reading = Reading {
        reference: embedded(),
        own_steels: &[],
        units: Units::C_MM,
        mark: strawblue::units::Mark::Point,
    };
    read_job(&text, &reading).unwrap_or_else(|problems| panic!("{}: {problems:?}", case.name)).job
}

fn ids(reference: &Reference, places: &[usize]) -> Vec<String> {
    places.iter().map(|place| reference.cautions.rows()[*place].id.clone()).collect()
}

/// The fixed lines and the cautions of the job, and its plan.
fn briefed(case: &Case) -> (Vec<String>, Vec<String>, Plan) {
    let made = plan(embedded(), &job_of(case));
    let (always, own) = (ids(embedded(), &made.briefing.always), ids(embedded(), &made.briefing.own));
    (always, own, made)
}

/// What the acts say that is not so, and what they leave out.
fn wrong_in(case: &Case) -> Vec<String> {
    let (always, own, made) = briefed(case);
    let mut wrong = Vec::new();
    let mut rest = own.as_slice();
    let mut said = BTreeSet::new();
    for act in &case.acts {
        let fixed = !act.fixed.is_empty();
        if fixed && !always.contains(&act.fixed) {
            wrong.push(format!("{}: no {}", act.says, act.fixed));
        }
        let aid = |id: &String| embedded().cautions.get(id).is_some_and(|row| row.role == Role::FirstAid);
        if !act.aid.iter().all(aid) {
            wrong.push(format!("{}: {:?} is no first aid", act.says, act.aid));
        }
        let planned: Vec<&str> = made.actions.iter().map(|action| action.id()).collect();
        if !act.plan.iter().all(|id| planned.contains(&id.as_str())) {
            wrong.push(format!("{}: the plan has {planned:?}", act.says));
        }
        let new: BTreeSet<&String> = act.own.iter().filter(|id| said.insert((*id).clone())).collect();
        let (head, tail) = rest.split_at(new.len().min(rest.len()));
        if head.iter().collect::<BTreeSet<_>>() != new {
            wrong.push(format!("{}: {head:?} stand there, not {new:?}; all: {own:?}", act.says));
        }
        rest = tail;
    }
    if case.only && !rest.is_empty() {
        wrong.push(format!("there are {rest:?} too"));
    }
    let there = |id: &&String| own.contains(id) || always.contains(id);
    let missing: Vec<&String> = case.also.iter().filter(|id| !there(id)).collect();
    let silly: Vec<&String> = case.never.iter().filter(there).collect();
    if !missing.is_empty() || !silly.is_empty() {
        wrong.push(format!("lacks {missing:?}, has {silly:?}; all: {own:?}"));
    }
    let not_told: Vec<String> = made.briefing.not_told.iter().map(|fact| fact.id().to_owned()).collect();
    if case.not_told.as_ref().is_some_and(|expected| *expected != not_told) {
        wrong.push(format!("not told: {not_told:?}"));
    }
    wrong.into_iter().map(|one| format!("{}: {one}", case.name)).collect()
}

#[test]
fn every_job_is_briefed_as_an_officer_would() {
    let cases = cases();
    assert!(cases.len() >= 25);
    let wrong: Vec<String> = cases.iter().flat_map(wrong_in).collect();
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn the_cases_speak_of_cautions_that_exist() {
    for case in &cases() {
        let of_acts = case.acts.iter().flat_map(|act| act.own.iter().chain(&act.aid));
        for id in of_acts.chain(&case.also).chain(&case.never) {
            assert!(embedded().cautions.get(id).is_some(), "{}: {id}", case.name);
        }
        for act in case.acts.iter().filter(|act| !act.fixed.is_empty()) {
            assert!(FIXED.contains(&act.fixed.as_str()), "{}: {}", case.name, act.fixed);
        }
    }
}

/// A caution that one fact brings up by itself is in the list or named below it, however much else is
/// told, and be there a safe way to weld or none.
#[test]
fn nothing_that_was_told_is_dropped_in_silence() {
    type One = fn(&Job) -> SafetyFacts;
    const FACTS: [One; 7] = [
        |job| SafetyFacts { coating: job.safety.coating, ..SafetyFacts::default() },
        |job| SafetyFacts { cavity: job.safety.cavity, ..SafetyFacts::default() },
        |job| SafetyFacts { cleaner: job.safety.cleaner, ..SafetyFacts::default() },
        |job| SafetyFacts { assembly: job.safety.assembly, ..SafetyFacts::default() },
        |job| SafetyFacts { seals: job.safety.seals, ..SafetyFacts::default() },
        |job| SafetyFacts { battery: job.safety.battery, ..SafetyFacts::default() },
        |job| SafetyFacts { copper_alloy: job.safety.copper_alloy, ..SafetyFacts::default() },
    ];
    let named = |job: &Job| {
        let briefing = plan(embedded(), job).briefing;
        [ids(embedded(), &briefing.own), ids(embedded(), &briefing.left_out)].concat()
    };
    let (mut asked, mut shut) = (0, 0);
    for case in &cases() {
        let whole = job_of(case);
        let all = named(&whole);
        let bare = named(&Job { safety: SafetyFacts::default(), ..whole.clone() });
        for fact in FACTS {
            let alone = named(&Job { safety: fact(&whole), ..whole.clone() });
            for id in alone.iter().filter(|id| !bare.contains(id)) {
                assert!(all.contains(id), "{}: {id} is in neither of {all:?}", case.name);
                asked += 1;
            }
        }
        let briefing = plan(embedded(), &whole).briefing;
        shut += usize::from(briefing.own.is_empty() && !briefing.left_out.is_empty());
        let danger = |place: &&usize| embedded().cautions.rows()[**place].severity == Severity::Danger;
        let dangers = briefing.left_out.iter().filter(danger).count();
        let own = briefing.own.iter().filter(danger).count();
        assert!(dangers == 0 || own == 0 || own == MOST - FIXED.len(), "{}", case.name);
    }
    assert!(asked > 25 && shut > 0, "{asked} {shut}");
}

#[test]
fn no_briefing_is_longer_than_a_minute_and_the_fixed_lines_keep_their_order() {
    let mut longest = 0;
    for case in &cases() {
        let (always, own, made) = briefed(case);
        assert!(always.len() + own.len() <= MOST, "{}: {own:?}", case.name);
        longest = longest.max(own.len());
        let gas = always.contains(&FIXED[1].to_owned());
        let expected: Vec<&str> = FIXED.iter().copied().filter(|id| gas || *id != FIXED[1]).collect();
        assert_eq!(always, expected, "{}", case.name);
        let twice: BTreeSet<&String> = own.iter().collect();
        assert_eq!(twice.len(), own.len(), "{}: {own:?}", case.name);
        if matches!(made.verdict, Verdict::Refused(_) | Verdict::NoWindow | Verdict::NoMethod | Verdict::Asks)
        {
            assert!(own.is_empty() && made.briefing.not_told.is_empty(), "{}: {own:?}", case.name);
        }
    }
    assert_eq!(longest, MOST - FIXED.len(), "no job is so full that the limit holds it");
}

/// What must be off the part before anything touches it, then what kills today, what injures, what
/// kills in years; of each, what is stated before what is assumed.
#[test]
fn what_kills_today_stands_before_what_kills_later() {
    for case in &cases() {
        let rows = embedded().cautions.rows();
        let made = plan(embedded(), &job_of(case));
        let own: Vec<&Caution> = made.briefing.own.iter().map(|place| &rows[*place]).collect();
        let assumed = |row: &Caution| {
            let mut quiet = row.clone();
            quiet.assumed.clear();
            fired(&[quiet], &job_of(case)).is_empty()
        };
        for pair in own.windows(2) {
            let key = |row: &Caution| (row.harm, assumed(row), row.rank);
            assert!(key(pair[0]) < key(pair[1]), "{}: {} before {}", case.name, pair[0].id, pair[1].id);
        }
    }
}

/// Which of these rows the job brings up, with the fixed lines and no others.
fn fired(rows: &[Caution], job: &Job) -> BTreeSet<String> {
    let mut reference = embedded().clone();
    let fixed = embedded().cautions.iter().filter(|row| row.role == Role::Briefing).cloned();
    reference.cautions = Table::new(fixed.chain(rows.iter().cloned()).collect());
    let made = plan(&reference, job);
    ids(&reference, &made.briefing.own).into_iter().collect()
}

/// Every trigger of the dataset brings its caution up in some of the jobs, and every kind of trigger
/// that the engine has is used by the dataset.
#[test]
fn every_trigger_fires() {
    let mut triggers: BTreeMap<String, Caution> = BTreeMap::new();
    let mut kinds = BTreeSet::new();
    for row in &embedded().cautions {
        for trigger in row.stated.iter().chain(&row.assumed) {
            kinds.insert(<&str>::from(*trigger));
            let name = format!("{trigger:?}");
            let alone =
                Caution { id: name.clone(), stated: vec![*trigger], assumed: Vec::new(), ..row.clone() };
            triggers.insert(name, alone);
        }
    }
    let unused: Vec<&&str> = Trigger::VARIANTS.iter().filter(|kind| !kinds.contains(**kind)).collect();
    assert!(unused.is_empty(), "no caution has {unused:?}");
    let jobs: Vec<Job> = cases().iter().map(job_of).collect();
    let rows: Vec<Caution> = triggers.values().cloned().collect();
    // Few at a time, so that the limit of a briefing hides none.
    for few in rows.chunks(MOST - FIXED.len()) {
        for job in &jobs {
            for id in fired(few, job) {
                triggers.remove(&id);
            }
        }
    }
    assert!(triggers.is_empty(), "these never fire: {:?}", triggers.keys());
}

/// A used part is none of what it may be until somebody says so.
#[test]
fn a_repair_stands_for_nothing_by_itself() {
    let repair = |joint: &str| {
        let text = format!(
            r#"(steel: "S355J2", thickness: "20 mm", joint: "{joint}", process: "smaw basic", heat_source: "none", oil_soaked: "no")"#
        );
        let text = JobText::from_ron(&text).expect("it reads");
        let reading = Reading {
            reference: embedded(),
            own_steels: &[],
            units: Units::C_MM,
            mark: strawblue::units::Mark::Point,
        };
        let read = read_job(&text, &reading).expect("it is a job");
        ids(embedded(), &plan(embedded(), &read.job).briefing.own)
    };
    assert_eq!(repair("repair"), repair("butt"));
}

/// What became of a row of the review of safety.
#[derive(Deserialize)]
enum Fate {
    /// It is a row of the dataset, under its own id or under this one.
    Taken(Option<String>),
    /// Another row says it.
    Merged(String),
    /// It spoils the part, not a person: it belongs to the steps of the plan.
    Plan,
}

/// Every row of the review, n01 to n26 and the first aid among them, and every row that stood before it.
#[test]
fn every_row_of_the_review_is_accounted_for() {
    let table: BTreeMap<String, Fate> = ron::Options::default()
        .with_default_extension(ron::extensions::Extensions::IMPLICIT_SOME)
        .from_str(include_str!("safety_rows.ron"))
        .expect("safety_rows.ron reads");
    let cautions = &embedded().cautions;
    let mut accounted: BTreeSet<&str> = FIXED.into();
    for (id, fate) in &table {
        match fate {
            Fate::Taken(here) => {
                let here = here.as_ref().unwrap_or(id);
                assert!(cautions.get(here).is_some(), "{id} is not there as {here}");
                accounted.insert(here);
            }
            Fate::Merged(into) => {
                assert!(cautions.get(id).is_none() && cautions.get(into).is_some(), "{id} in {into}");
            }
            Fate::Plan => assert!(cautions.get(id).is_none(), "{id}"),
        }
    }
    let expected = (1..=97)
        .map(|nth| format!("c{nth:03}"))
        .chain((1..=26).map(|nth| format!("n{nth:02}")))
        .chain(["n-fa1".to_owned(), "n-fa2".to_owned()]);
    let left: Vec<String> = expected.filter(|id| !table.contains_key(id)).collect();
    assert!(left.is_empty(), "nothing is said of {left:?}");
    let unknown: Vec<&String> =
        cautions.iter().map(|row| &row.id).filter(|id| !accounted.contains(id.as_str())).collect();
    assert!(unknown.is_empty(), "these come from nowhere: {unknown:?}");
}

/// The signal words are those of harm to people, and no caution of later years outranks one of today
/// by its word: a caution that kills in years and is graded a danger is told after those of today.
#[test]
fn first_aid_is_a_card_and_no_caution() {
    let aid: Vec<&Caution> = embedded().cautions.iter().filter(|row| row.role == Role::FirstAid).collect();
    assert!(aid.len() >= 9);
    for case in &cases() {
        let (always, own, _) = briefed(case);
        assert!(aid.iter().all(|row| !always.contains(&row.id) && !own.contains(&row.id)), "{}", case.name);
    }
    let later = embedded().cautions.iter().filter(|row| row.harm == Harm::Later);
    assert!(later.clone().any(|row| row.severity == Severity::Danger) && later.count() > 5);
}
