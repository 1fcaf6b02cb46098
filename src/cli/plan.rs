//! `plan`: a job from a file or from keys and values, and what its plan comes to.

use super::arguments::Request;
use super::cycle::{cycle, cycle_json, take_pairs, told};
use super::log::known_trials;
use super::plan_json::{AssumedJson, plan_json};
use super::plan_text::plan_text;
use super::{ANSWERED, NO_SAFE_ANSWER, Said};
use crate::engine::plan;
use crate::job::{
    Field, FieldProblem, JobFileError, JobText, Of, Reading, Slot, demo_job, read_answers, read_job,
};
use crate::questions::HEAT_CYCLE;
use crate::reference::{Element, embedded};
use crate::report::{Pen, Report, put_cycle, put_trials, put_weld, trial_warnings};
use crate::units::{Mark, Show, Units, shortened};
use crate::words::{List, Words};

/// The longest job file that is read, bytes.
const LONGEST: u64 = 1 << 20;

/// A plan from a file, from keys and values, or both: the keys come before the file's.
pub(super) fn plan(file: Option<&str>, pairs: &[(String, String)], request: &Request, words: &Words) -> Said {
    if file.is_none() && pairs.is_empty() {
        return Said::not_understood(words.get("cli-plan-nothing"), request.json);
    }
    let job = match file {
        None => JobText::default(),
        Some(path) => match read_file(path) {
            Ok(job) => job,
            Err(problem) => {
                return Said::problems(&[(shortened(path), problem.say(words))], request.json);
            }
        },
    };
    let (cycle_pairs, pairs) = take_pairs(pairs);
    let (job, keys) = read_plan_arguments(job, &pairs);
    let keys = keys.iter().map(|problem| (problem.key().to_owned(), problem.say(words))).collect();
    of_job(&job, &cycle_pairs, keys, request, words)
}

/// The demo's plan, where no window can be opened, and why it is shown.
pub(super) fn without_window(request: &Request, words: &Words, why: &str) -> Said {
    let mut said = of_job(&demo_job(), &[], Vec::new(), request, words);
    said.err.insert_str(0, &(words.with("cli-no-window", &[("why", why)]) + "\n\n"));
    said
}

/// The plan of a job, unless a key or a field is a problem: then all problems at once.
fn of_job(
    job: &JobText,
    cycle_pairs: &[(String, String)],
    mut problems: Vec<(String, String)>,
    request: &Request,
    words: &Words,
) -> Said {
    let reading = Reading { reference: embedded(), own_steels: &[], units: request.units, mark: Mark::Point };
    let read = read_job(job, &reading).map_err(|fields| {
        // What is typed once for all processes is told once.
        let told = |problem: &&FieldProblem| {
            let first = problem.slot.field.into();
            let same = |other: &FieldProblem| other.slot == first && other.fault == problem.fault;
            problem.slot.field.of() == Of::Run && problem.slot != first && fields.iter().any(same)
        };
        let fields = fields.iter().filter(|problem| !told(problem));
        problems.extend(fields.map(|problem| (problem.slot.id().into_owned(), problem.say(words))));
    });
    let Ok(mut read) = read else { return Said::problems(&problems, request.json) };
    let units = if request.units_stated { request.units } else { read.units };
    let typed = Reading { units, ..reading };
    if let Err(cycle) = read_answers(&HEAT_CYCLE, cycle_pairs, &typed) {
        let key = |key: &str| format!("{}.{key}", HEAT_CYCLE.name);
        problems.extend(cycle.iter().map(|problem| (key(&problem.key), problem.say(words))));
    }
    if !problems.is_empty() {
        return Said::problems(&problems, request.json);
    }
    if request.units_stated {
        read.units = request.units;
    }
    let made = plan::plan(reading.reference, &read.job);
    let trials = known_trials();
    let status = if made.verdict.answers() { ANSWERED } else { NO_SAFE_ANSWER };
    if !request.json {
        words.write_in(read.units.scales());
    }
    // JSON is in SI, also where it tells what was assumed.
    let units = if request.json { Units::default() } else { read.units };
    let pen = Pen { reference: reading.reference, words, show: Show::new(units, words) };
    let cycle = cycle(&pen, job, &read, &made, cycle_pairs);
    let assumed =
        read.defaulted.iter().map(|found| (found.slot.id().into_owned(), found.say(words, &pen.show)));
    let said = if request.json {
        let assumed = assumed.map(|(field, value)| AssumedJson { field, value }).collect();
        let cycle = cycle_json(&pen, &cycle, &reading.reference.methods);
        let warned = trial_warnings(&pen, &read.job, &made, &trials);
        Said::json(&plan_json(reading.reference, &read, &made, cycle, assumed, warned))
    } else {
        let assumed: Vec<String> = assumed
            .map(|(field, says)| words.with("text-assumed-row", &[("field", &field), ("says", &says)]))
            .collect();
        let mut report = Report::of(&pen, &read.job, &made);
        put_trials(&pen, &read.job, &made, &trials, &mut report);
        put_weld(&pen, &read.job, &read.told, &made, &mut report);
        put_cycle(&pen, &read.job, &made, told(&cycle), &mut report.steps);
        Said::answered(plan_text(&pen, &report, &assumed))
    };
    said.with_status(status)
}

/// Why a job file could not be used.
pub(super) enum FileProblem {
    /// The system can't read it.
    Unread(std::io::Error),
    /// It is too long to be a job.
    TooLong,
    /// It is no text.
    NotText,
    /// It is no job.
    NoJob(JobFileError),
}

impl FileProblem {
    pub(super) fn say(&self, words: &Words) -> String {
        match self {
            Self::Unread(cause) => words.with("cli-file-unread", &[("cause", &cause.to_string())]),
            Self::TooLong => words.get("cli-file-too-long"),
            Self::NotText => words.get("cli-file-not-text"),
            Self::NoJob(JobFileError { line, unknown_field: Some(field), .. }) => {
                words.with("cli-file-field", &[("line", &line.to_string()), ("field", field)])
            }
            Self::NoJob(JobFileError { line, detail, .. }) => {
                words.with("cli-file-no-job", &[("line", &line.to_string()), ("detail", detail)])
            }
        }
    }
}

pub(super) fn read_file(path: &str) -> Result<JobText, FileProblem> {
    let length = std::fs::metadata(path).map_err(FileProblem::Unread)?.len();
    if length > LONGEST {
        return Err(FileProblem::TooLong);
    }
    let bytes = std::fs::read(path).map_err(FileProblem::Unread)?;
    let text = String::from_utf8(bytes).map_err(|_| FileProblem::NotText)?;
    JobText::from_ron(&text).map_err(FileProblem::NoJob)
}

/// A key that could not be used.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum KeyProblem {
    /// No field and no element has this key.
    Unknown(String),
    /// The key is given twice.
    Twice(String),
}

impl KeyProblem {
    pub(super) fn key(&self) -> &str {
        match self {
            Self::Unknown(key) | Self::Twice(key) => key,
        }
    }

    pub(super) fn say(&self, words: &Words) -> String {
        match self {
            Self::Unknown(key) => {
                let count = |field: &Field| if field.of() == Of::Part { 2 } else { 1 };
                let slots = Field::ALL.iter().flat_map(|field| (0..count(field)).map(|nth| field.nth(nth)));
                let near: Vec<_> = slots.map(Slot::id).filter(|id| near(id, key)).collect();
                let says = if near.is_empty() { "cli-unknown-key" } else { "cli-unknown-key-near" };
                words.with(says, &[("near", &words.list(List::Comma, &near))])
            }
            Self::Twice(_) => words.get("asked-twice"),
        }
    }
}

/// Do two keys begin alike?
fn near(id: &str, key: &str) -> bool {
    let alike = id.chars().zip(key.chars()).take_while(|(one, other)| one == other).count();
    alike >= 3 || (alike >= 2 && id.len().abs_diff(key.len()) <= 1)
}

/// Puts keys and values into a job: fields by their id, those of several processes joined by
/// `+`, elements of the certificate by their symbol (`C`, `Mn`; `C-b`, `Mn-b` for the second
/// part).
///
/// With the job comes every key that can't be used.
#[must_use]
pub fn read_plan_arguments(mut job: JobText, pairs: &[(String, String)]) -> (JobText, Vec<KeyProblem>) {
    let (mut problems, mut fields) = (Vec::new(), Vec::new());
    let mut elements = [Vec::new(), Vec::new()];
    for (at, (key, value)) in pairs.iter().enumerate() {
        if pairs[..at].iter().any(|(earlier, _)| earlier.eq_ignore_ascii_case(key)) {
            problems.push(KeyProblem::Twice(key.clone()));
        } else if let Some(slot) = Slot::from_id(key) {
            fields.push((slot, value.clone()));
        } else if let Some((part, symbol)) = element(key) {
            elements[part].push(format!("{symbol} {value}"));
        } else {
            problems.push(KeyProblem::Unknown(key.clone()));
        }
    }
    job.put_keys(fields);
    for (nth, typed) in elements.into_iter().enumerate() {
        if !typed.is_empty() {
            let slot = Field::Certificate.nth(nth);
            let before = job.get(slot).map(str::to_owned);
            job.set(slot, Some(before.into_iter().chain(typed).collect::<Vec<_>>().join("; ")));
        }
    }
    (job, problems)
}

/// The part and the element of a key.
fn element(key: &str) -> Option<(usize, &'static str)> {
    let (symbol, part) = match key.strip_suffix("-b").or_else(|| key.strip_suffix("_b")) {
        Some(symbol) => (symbol, 1),
        None => (key, 0),
    };
    Element::from_symbol(symbol).map(|element| (part, element.symbol()))
}
