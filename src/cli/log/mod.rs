//! `log`: jobs, pieces, readings and trial pieces, kept and shown.

mod find;
mod json;
mod keys;
mod show;
mod take;

use std::path::{Path, PathBuf};

use keys::Keys;
use take::Taking;

use super::arguments::Request;
use super::{NO_SAFE_ANSWER, Said};
use crate::job::JobText;
#[cfg(not(target_os = "android"))]
use crate::job::Store;
use crate::log::{
    Entry, Hand, Id, JobEntry, LogNote, LogStoreError, Logs, Moment, OpenLog, Record, Standing, Thing,
};
use crate::reference::embedded;
use crate::report::{CopyTyped, Pen, copy_of_job};
use crate::units::{Show, Units, Within, shortened};
use crate::words::{List, Words};

/// What is done with a log.
const ACTIONS: [&str; 15] = [
    "list", "show", "new", "read", "trial", "step", "piece", "used", "undo", "remove", "back", "settle",
    "export", "import", "example",
];
/// Pieces of a batch.
const PIECES: Within = Within { low: 1.0, high: 10_000.0 };

pub(super) use find::{NotFound, named as job_named};

/// Keys with what is said of them, or typed for them.
type Pairs = Vec<(String, String)>;

/// What the command is answered with, or the problems, each with its key.
type Answer = Result<Said, Pairs>;

/// Answers `log …`.
pub(super) fn log(words_given: &[String], request: &Request, words: &Words) -> Said {
    let ask = Asked { request, words };
    ask.answer(words_given).unwrap_or_else(|problems| Said::problems(&problems, request.json))
}

/// The logs as a plan asks them: what trial pieces taught; nothing where none was ever begun.
pub(super) fn known_trials() -> Vec<crate::log::KnownTrial> {
    let logs = folder().and_then(|folder| Logs::to_read(&folder));
    logs.and_then(|logs| logs.trials().ok()).unwrap_or_default()
}

#[cfg(not(target_os = "android"))]
fn folder() -> Option<PathBuf> {
    Store::desktop_folder()
}

#[cfg(target_os = "android")]
fn folder() -> Option<PathBuf> {
    None
}

struct Asked<'a> {
    request: &'a Request,
    words: &'a Words,
}

impl Asked<'_> {
    fn answer(&self, given: &[String]) -> Answer {
        let (action, rest) =
            given.split_first().map_or(("list", given), |(first, rest)| (first.as_str(), rest));
        if !ACTIONS.contains(&action) {
            let known = self.words.list(List::Comma, &ACTIONS);
            let given = shortened(action);
            return self
                .problem("log", self.words.with("cli-log-action", &[("given", &given), ("known", &known)]));
        }
        let logs = self.logs()?;
        match action {
            "list" => self.list(&logs),
            "new" => self.new_job(&logs, rest),
            "import" => self.import(&logs, rest),
            "example" => {
                let done = logs.load_example().map_err(|error| self.fault(&error))?;
                let open = self.open(&logs, done.job)?;
                Ok(self.shown(&open, None))
            }
            _ => self.of_job(&logs, action, rest),
        }
    }

    fn logs(&self) -> Result<Logs, Pairs> {
        let folder = folder().ok_or_else(|| vec![("log".to_owned(), self.words.get("cli-log-no-folder"))])?;
        Logs::open(folder).map_err(|error| self.fault(&error))
    }

    fn fault(&self, error: &LogStoreError) -> Pairs {
        vec![("log".to_owned(), error.say(self.words))]
    }

    fn problem(&self, key: &str, says: String) -> Answer {
        Err(vec![(key.to_owned(), says)])
    }

    /// In the units that are asked for, or in those of the job.
    fn pen(&self, own: Option<Units>) -> Pen<'_> {
        let stated = self.request.units_stated || self.request.json;
        let units = own.filter(|_| !stated).unwrap_or(self.request.units);
        if !self.request.json {
            self.words.write_in(units.scales());
        }
        Pen { reference: embedded(), words: self.words, show: Show::new(units, self.words) }
    }

    fn list(&self, logs: &Logs) -> Answer {
        let rows = logs.list_all().map_err(|error| self.fault(&error))?;
        Ok(if self.request.json {
            json::list(&rows)
        } else {
            Said::answered(show::list(&self.pen(None), &rows))
        })
    }

    fn open(&self, logs: &Logs, job: Id) -> Result<OpenLog, Pairs> {
        logs.job(job).map_err(|error| self.fault(&error))
    }

    fn find(&self, logs: &Logs, named: Option<&String>) -> Result<Id, Pairs> {
        let failed = |says: String| vec![("job".to_owned(), says)];
        let named = named.ok_or_else(|| failed(self.words.get("cli-log-which")))?;
        find::job(logs, named).map_err(|why| failed(why.say(self.words)))
    }

    fn new_job(&self, logs: &Logs, rest: &[String]) -> Answer {
        let (files, pairs): (Vec<&String>, Vec<&String>) = rest.iter().partition(|word| !word.contains('='));
        let mut keys = Keys::of(&self.pairs(&pairs)?, self.request.units, self.words);
        let pieces = keys.count("pieces", PIECES);
        let (drawing, welder, note) = (keys.any("drawing"), keys.any("welder"), keys.any("note"));
        if pieces.is_none() {
            keys.missing("pieces");
        }
        let (cycle, fields) = super::cycle::take_pairs(&keys.rest());
        let text = match files.as_slice() {
            [] => JobText::default(),
            [file] => super::plan::read_file(file)
                .map_err(|problem| vec![(shortened(file), problem.say(self.words))])?,
            [_, second, ..] => {
                let says = self.words.with("cli-second-file", &[("given", &shortened(second))]);
                return self.problem("arguments", says);
            }
        };
        let (job, unknown) = super::read_plan_arguments(text, &fields);
        for problem in &unknown {
            keys.problem(problem.key(), problem.say(self.words));
        }
        let typed = CopyTyped {
            units: self.request.units,
            units_stated: self.request.units_stated,
            ..CopyTyped::default()
        };
        let plan = copy_of_job(embedded(), self.words, &job, &cycle, typed);
        let mut problems = keys.end();
        let plan = plan.map_err(|fields| {
            let said = |problem: &crate::job::FieldProblem| {
                (problem.slot.id().into_owned(), problem.say(self.words))
            };
            problems.extend(fields.iter().map(said));
            std::mem::take(&mut problems)
        })?;
        if !problems.is_empty() {
            return Err(problems);
        }
        let name =
            job.get(crate::job::Field::Name).map_or_else(|| self.words.get("log-unnamed"), str::to_owned);
        let pieces = pieces.unwrap_or(1);
        let answers = plan.answers;
        let example = crate::job::is_demo_called(&plan.job, &name);
        let entry = JobEntry { name, pieces, drawing, welder, note, example, plan };
        let open =
            logs.begin(Hand::now(logs.device()).begin_job(entry)).map_err(|error| self.fault(&error))?;
        let said = self.shown(&open, None);
        // A plan without an answer to weld by may be logged, and says so.
        Ok(if answers { said } else { said.with_status(NO_SAFE_ANSWER) })
    }

    fn pairs(&self, words: &[&String]) -> Result<Pairs, Pairs> {
        let pair = |word: &&String| match word.split_once('=') {
            Some((key, value)) if !key.trim().is_empty() => Ok((key.trim().to_owned(), value.to_owned())),
            _ => {
                let says = self.words.with("cli-no-pair", &[("given", &shortened(word))]);
                Err(vec![("arguments".to_owned(), says)])
            }
        };
        words.iter().map(pair).collect()
    }

    fn import(&self, logs: &Logs, rest: &[String]) -> Answer {
        let [file] = rest else { return self.problem("import", self.words.get("cli-log-one-file")) };
        let done = logs.import(Path::new(file)).map_err(|error| self.fault(&error))?;
        if self.request.json {
            return Ok(json::imported(&done));
        }
        let counts = [("new", done.new), ("known", done.known)];
        let mut said = vec![self.words.numbers("log-imported", &counts, &[])];
        if !done.damaged.is_empty() {
            said.push(self.words.count("log-imported-damaged", done.damaged.len(), &[]));
        }
        if done.cut {
            said.push(self.words.get("log-imported-cut"));
        }
        if done.conflicts > 0 {
            said.push(self.words.count("log-conflicts", done.conflicts, &[]));
        }
        said.push(done.job.to_string());
        Ok(Said::answered(said.join("\n") + "\n"))
    }

    fn of_job(&self, logs: &Logs, action: &str, rest: &[String]) -> Answer {
        let job = self.find(logs, rest.first())?;
        let mut open = self.open(logs, job)?;
        let rest = rest.get(1..).unwrap_or_default();
        if action == "export" {
            return self.export(&open, rest);
        }
        let pairs = self.pairs(&rest.iter().collect::<Vec<_>>())?;
        let mut keys = Keys::of(&pairs, self.request.units, self.words);
        let hand = open.hand();
        let photo = match (action, keys.photo()) {
            ("trial", Some(file)) => open.keep_photo(Path::new(&file)).map_err(|error| self.fault(&error))?,
            _ => String::new(),
        };
        let mut piece = None;
        let records = {
            let standing = open.log().standing();
            let plan = standing.job.as_ref().map(|job| job.now.plan.clone()).unwrap_or_default();
            let taking = Taking {
                reference: embedded(),
                words: self.words,
                standing: &standing,
                plan: &plan,
                hand: &hand,
            };
            let one =
                |entry: Option<Entry>| entry.map(|entry| hand.begin(entry)).into_iter().collect::<Vec<_>>();
            let records: Vec<Record> = match action {
                "show" => {
                    if keys.has("piece") {
                        piece = taking.piece(&mut keys).map(|piece| piece.id);
                    }
                    Vec::new()
                }
                "read" => one(taking.reading(&mut keys)),
                "trial" => one(taking.trial(&mut keys, photo)),
                "step" => one(taking.step(&mut keys)),
                "used" => one(taking.used(&mut keys)),
                "piece" => taking
                    .change_piece(&mut keys)
                    .map(|(thing, entry)| hand.change(thing, entry))
                    .into_iter()
                    .collect(),
                "undo" => hand.undo_last(open.log()),
                "remove" => standing.job.iter().map(|job| hand.withdraw(job)).collect(),
                "back" => standing
                    .withdrawn
                    .iter()
                    .filter(|(record, _)| record.thing == job)
                    .flat_map(|(record, _)| hand.undo(open.log(), record))
                    .collect(),
                _ => self.settle(&standing, &hand, &mut keys).into_iter().collect(),
            };
            let problems = keys.end();
            if !problems.is_empty() {
                return Err(problems);
            }
            if records.is_empty() && action != "show" {
                return self.problem(action, self.words.get("cli-log-nothing"));
            }
            records
        };
        if !records.is_empty() {
            open.add(records).map_err(|error| self.fault(&error))?;
        }
        Ok(self.shown(&open, piece))
    }

    /// Of several records that stand of one thing, the one that is kept.
    fn settle(&self, standing: &Standing<'_>, hand: &Hand, keys: &mut Keys<'_>) -> Option<Record> {
        let Some(id) = keys.text("keep").as_deref().and_then(Id::read) else {
            keys.missing("keep");
            return None;
        };
        fn of<T>(things: &[Thing<'_, T>], id: Id, hand: &Hand) -> Option<Record> {
            things.iter().filter(|thing| thing.in_conflict()).find_map(|thing| {
                let all = [thing.record].into_iter().chain(thing.others.iter().copied());
                let kept = all.into_iter().find(|record| record.id == id)?;
                Some(hand.change(thing, kept.entry.clone()))
            })
        }
        of(standing.job.as_slice(), id, hand)
            .or_else(|| of(&standing.pieces, id, hand))
            .or_else(|| of(&standing.steps, id, hand))
            .or_else(|| of(&standing.readings, id, hand))
            .or_else(|| of(&standing.trials, id, hand))
            .or_else(|| of(&standing.used, id, hand))
    }

    fn export(&self, open: &OpenLog, rest: &[String]) -> Answer {
        let [file] = rest else { return self.problem("export", self.words.get("cli-log-one-file")) };
        let failed = |cause: std::io::Error| {
            let values = [("path", file.as_str()), ("cause", &cause.to_string())];
            vec![("export".to_owned(), self.words.with("store-file", &values))]
        };
        let path = Path::new(file);
        // Nothing that is there is written over.
        let made = std::fs::File::create_new(path).map_err(failed)?;
        let mut made = made;
        std::io::Write::write_all(&mut made, open.export().as_bytes())
            .and_then(|()| made.sync_all())
            .map_err(failed)?;
        Ok(Said::answered(format!("{}\n", path.display())))
    }

    /// What stands of a job, with what had to be said of its files.
    fn shown(&self, open: &OpenLog, piece: Option<Id>) -> Said {
        let now = Moment::now();
        let standing = open.log().standing();
        let pen = self.pen(standing.job.as_ref().map(|job| job.now.plan.units));
        let mut notes: Vec<String> = open.notes().iter().map(|note: &LogNote| note.say(self.words)).collect();
        if open.hand().is_set_back(open.log()) {
            notes.push(self.words.get("log-set-back"));
        }
        if self.request.json {
            return json::job(&pen, open.job(), &standing, now, piece, notes);
        }
        let err: String = notes.iter().map(|note| format!("{note}\n")).collect();
        Said { err, ..Said::answered(show::job(&pen, open.job(), &standing, now, piece)) }
    }
}
