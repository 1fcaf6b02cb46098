//! `card`: the job card of a log as a PDF, or its readings as comma-separated values.

use std::io::Write;
use std::path::Path;

use serde_json::json;

use super::Said;
use super::arguments::Request;
use super::log::{NotFound, job_named};
use crate::card::{Lost, Paper, content, csv, pages, pdf};
use crate::log::{Log, LogFileError, LogStoreError, Moment, read_log_file};
use crate::reference::embedded;
use crate::report::Pen;
use crate::units::{Show, shortened};
use crate::words::Words;

/// The options that only a card has.
pub(super) const OPTIONS: [&str; 2] = ["--letter", "--csv"];

/// What is asked of a card.
struct Asked<'a> {
    log: &'a str,
    /// Where to; none for standard output.
    file: Option<&'a str>,
    paper: Paper,
    csv: bool,
}

/// The card of a log.
pub(super) fn card(given: &[String], options: &[String], request: &Request, words: &Words) -> Said {
    let asked = match Asked::read(given, options) {
        Ok(asked) => asked,
        Err(key) => return Said::not_understood(words.get(key), request.json),
    };
    let problem = |path: &str, says: String| Said::problems(&[(shortened(path), says)], request.json);
    let (log, lost) = match read_log(asked.log, words) {
        Ok(read) => read,
        Err(says) => return problem(asked.log, says),
    };
    if asked.file.is_some_and(|file| same_file(file, asked.log)) {
        return problem(asked.log, words.get("cli-card-over-log"));
    }
    let standing = log.standing();
    let Some(job) = standing.job.as_ref() else { return problem(asked.log, words.get("cli-card-no-job")) };
    let units = if request.units_stated { request.units } else { job.now.plan.units };
    words.write_in(units.scales());
    let pen = Pen { reference: embedded(), words, show: Show::new(units, words) };
    let said = if asked.csv {
        let table = csv(&pen, &standing);
        let Some(file) = asked.file else { return warned(Said::answered(table), lost, words) };
        match write(file, table.as_bytes()) {
            Ok(()) => made("cli-card-table", "readings", file, standing.readings.len(), request, words),
            Err(cause) => return problem(file, unwritten(words, &cause)),
        }
    } else {
        let Some(file) = asked.file else {
            return Said::not_understood(words.get("cli-card-no-file"), request.json);
        };
        let now = Moment::now();
        let Some(content) = content(&pen, &standing, now, lost) else {
            return problem(asked.log, words.get("cli-card-no-job"));
        };
        let pages = pages(&content, asked.paper, words);
        let bytes = match pdf(&pages, now) {
            Ok(bytes) => bytes,
            Err(cause) => {
                let cause = cause.to_string();
                return problem(asked.log, words.with("cli-card-refused", &[("cause", &cause)]));
            }
        };
        match write(file, &bytes) {
            Ok(()) => made("cli-card-made", "pages", file, pages.pages.len(), request, words),
            Err(cause) => return problem(file, unwritten(words, &cause)),
        }
    };
    warned(said, lost, words)
}

impl<'a> Asked<'a> {
    /// What is asked, or the message of why it can't be told.
    fn read(given: &'a [String], options: &[String]) -> Result<Self, &'static str> {
        let (mut log, mut file) = (None, None);
        let mut rest = given.iter();
        while let Some(word) = rest.next() {
            match word.as_str() {
                "-o" => file = Some(rest.next().ok_or("cli-card-no-file")?.as_str()),
                word if log.is_none() => log = Some(word),
                _ => return Err("cli-card-no-log"),
            }
        }
        let has = |option: &str| options.iter().any(|given| given == option);
        Ok(Self {
            log: log.ok_or("cli-card-no-log")?,
            file,
            paper: if has("--letter") { Paper::Letter } else { Paper::A4 },
            csv: has("--csv"),
        })
    }
}

/// A log of a file, or of a job by its name or its id, with what of it could not be read.
fn read_log(named: &str, words: &Words) -> Result<(Log, Lost), String> {
    let path = Path::new(named);
    let read = match read_log_file(path) {
        Ok(read) => read,
        // What is no file may be a job; what looks like one is not.
        Err(_) if !path.exists() && path.extension().is_none_or(|ending| ending != "ron") => {
            return match job_named(named) {
                Ok(open) => Ok((open.log().clone(), Lost::of(open.notes()))),
                Err(NotFound::None) => Err(words.get("cli-card-neither")),
                Err(why) => Err(why.say(words)),
            };
        }
        // Elsewhere such a file is read and not written; here nothing is read of it.
        Err(LogStoreError::NoLog { why: LogFileError::Newer { .. }, .. }) => {
            return Err(words.get("cli-card-newer"));
        }
        Err(problem) => return Err(problem.say(words)),
    };
    let lost = Lost { lines: read.damaged.len(), cut: read.cut, files: 0 };
    Ok((read.records.into_iter().collect(), lost))
}

/// Are two paths one file? A card must never take the place of the log that it is made of.
fn same_file(one: &str, other: &str) -> bool {
    let real = |path: &str| std::fs::canonicalize(path).ok();
    one == other || real(one).is_some_and(|one| Some(one) == real(other))
}

/// Writes a file as a whole: what was there stays until all of it is on the disk.
fn write(path: &str, bytes: &[u8]) -> std::io::Result<()> {
    let folder = Path::new(path).parent().filter(|folder| !folder.as_os_str().is_empty());
    let mut builder = tempfile::Builder::new();
    // As open to others as any file that a person makes.
    #[cfg(unix)]
    builder.permissions(std::os::unix::fs::PermissionsExt::from_mode(0o666));
    let mut file = builder.tempfile_in(folder.unwrap_or_else(|| Path::new(".")))?;
    file.write_all(bytes)?;
    file.as_file().sync_all()?;
    file.persist(path)?;
    Ok(())
}

fn unwritten(words: &Words, cause: &std::io::Error) -> String {
    words.with("cli-card-unwritten", &[("cause", &cause.to_string())])
}

fn made(key: &str, counted: &str, file: &str, count: usize, request: &Request, words: &Words) -> Said {
    if request.json {
        return Said::json(&json!({ "file": file, counted: count }));
    }
    Said::answered(words.count(key, count, &[("file", file)]) + "\n")
}

/// The same, with what of the log could not be read.
fn warned(mut said: Said, lost: Lost, words: &Words) -> Said {
    if lost.lines > 0 {
        said.err.push_str(&(words.count("card-lost-lines", lost.lines, &[]) + "\n"));
    }
    if lost.files > 0 {
        said.err.push_str(&(words.get("log-faulty") + "\n"));
    }
    if lost.cut {
        said.err.push_str(&(words.get("card-cut") + "\n"));
    }
    said
}
