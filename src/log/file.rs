//! A log as the text of a file, and back. Its form stands in `data/README.md`.

use ron::extensions::Extensions;
use ron::value::RawValue;
use serde::Deserialize;
use thiserror::Error;

use super::{Id, Record};

/// The version of what is written.
pub const SCHEMA: u32 = 1;
/// How the line of a record begins, goes on and ends.
const BEFORE_SUM: &str = "        (sum: \"";
const BEFORE_RECORD: &str = "\", record: ";
const AFTER_RECORD: &str = "),";
/// What a whole file begins with.
const OPENS: &str = "(";
/// What ends its records.
const ENDS: &str = "    ],";
/// What ends the file.
const CLOSES: &str = ")";

/// RON as the files of the log have it: a value stands for itself, not as `Some(value)`, and what a record
/// says is not in two pairs of brackets.
fn options() -> ron::Options {
    ron::Options::default()
        .with_default_extension(Extensions::IMPLICIT_SOME)
        .with_default_extension(Extensions::UNWRAP_VARIANT_NEWTYPES)
}

/// Why a file is no log at all.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum LogFileError {
    /// It is empty.
    #[error("empty")]
    Empty,
    /// It is longer than any log.
    #[error("too long")]
    TooLong,
    /// No line of it is a record of a log.
    #[error("line {line}: {detail}")]
    NoLog {
        /// Line, counted from 1.
        line: usize,
        /// What was met there.
        detail: String,
    },
    /// A newer program wrote it.
    #[error("schema {schema}")]
    Newer {
        /// Its version.
        schema: u32,
    },
}

/// What stands above the records.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LogFile {
    /// The job: the id of its first record.
    pub job: Id,
    /// The device that wrote the file.
    pub device: String,
}

/// A file that was read.
#[derive(Debug, Clone, PartialEq)]
pub struct ReadLog {
    /// What stands above the records.
    pub head: LogFile,
    /// The records that could be read.
    pub records: Vec<Record>,
    /// Each as it is written, where it was written by this program: the same text is written again, with what
    /// a later program may have put into it.
    pub(super) texts: Vec<Option<String>>,
    /// Lines that could not be read, counted from 1.
    pub damaged: Vec<usize>,
    /// Does its end miss?
    pub cut: bool,
}

impl ReadLog {
    /// Was all of it read?
    #[must_use]
    pub fn is_whole(&self) -> bool {
        self.damaged.is_empty() && !self.cut
    }
}

/// A record as one line of text, without the sum of its bits.
#[must_use]
pub(super) fn line_of(record: &Record) -> String {
    options().to_string(record).expect("texts, numbers and lists always write as RON")
}

/// The same as a line of a file: what tells whether its bits are as they were written goes first.
#[must_use]
pub(super) fn written(record: &Record) -> String {
    let line = line_of(record);
    summed(&line)
}

fn summed(line: &str) -> String {
    format!("{BEFORE_SUM}{:08x}{BEFORE_RECORD}{line}{AFTER_RECORD}\n", crc32fast::hash(line.as_bytes()))
}

/// The record of a line that is exactly as this program writes it, and whether its bits are as they were.
fn exact(line: &str) -> Option<(&str, bool)> {
    let (sum, rest) = line.strip_prefix(BEFORE_SUM)?.split_at_checked(8)?;
    let record = rest.strip_prefix(BEFORE_RECORD)?.strip_suffix(AFTER_RECORD)?;
    let sum = u32::from_str_radix(sum, 16).ok()?;
    Some((record, sum == crc32fast::hash(record.as_bytes())))
}

impl LogFile {
    /// The text of a file of records that are written already, by [`written`].
    pub(super) fn text<'a>(&self, lines: impl Iterator<Item = &'a str>) -> String {
        let device = options().to_string(&self.device).expect("a text always writes as RON");
        let mut made = format!(
            "{OPENS}\n    schema: {SCHEMA},\n    job: \"{}\",\n    device: {device},\n    records: [\n",
            self.job
        );
        let mut count = 0;
        for line in lines {
            made.push_str(line);
            count += 1;
        }
        made.push_str(&format!("{ENDS}\n    count: {count},\n{CLOSES}\n"));
        made
    }

    /// The text of a file of records.
    #[must_use]
    pub fn write<'a>(&self, records: impl IntoIterator<Item = &'a Record>) -> String {
        let lines: Vec<String> = records.into_iter().map(written).collect();
        self.text(lines.iter().map(String::as_str))
    }

    /// Reads the text of a file: all that can be read of it.
    ///
    /// # Errors
    /// [`LogFileError`] where it is no log, or one of a newer program.
    pub fn read(text: &str) -> Result<ReadLog, LogFileError> {
        if text.trim().is_empty() {
            return Err(LogFileError::Empty);
        }
        let by_lines = by_lines(text);
        match by_lines {
            Ok(read) if read.is_whole() => Ok(read),
            // Another program, or a hand, may have set its lines otherwise.
            Ok(read) => Ok(whole(text).unwrap_or(read)),
            Err(LogFileError::Newer { schema }) => Err(LogFileError::Newer { schema }),
            Err(error) => whole(text).map_err(|_| error),
        }
    }
}

/// A record with its sum.
#[derive(Deserialize)]
struct Summed {
    #[serde(default)]
    sum: Option<String>,
    record: Box<RawValue>,
}

impl Summed {
    /// The record, where its bits are as they were written. What has no sum was written by another program
    /// or by hand.
    fn open(&self) -> Option<Record> {
        let text = self.record.get_ron().trim();
        let same = |sum: &String| {
            u32::from_str_radix(sum, 16).is_ok_and(|sum| sum == crc32fast::hash(text.as_bytes()))
        };
        if self.sum.as_ref().is_some_and(|sum| !same(sum)) {
            return None;
        }
        options().from_str(text).ok()
    }
}

/// The whole file, as RON.
#[derive(Deserialize)]
struct Whole {
    #[serde(default)]
    schema: u32,
    job: Id,
    #[serde(default)]
    device: String,
    records: Vec<Summed>,
    #[serde(default)]
    count: Option<usize>,
}

fn whole(text: &str) -> Result<ReadLog, LogFileError> {
    let whole: Whole = options().from_str(text).map_err(|error| LogFileError::NoLog {
        line: error.span.start.line,
        detail: error.code.to_string(),
    })?;
    if whole.schema > SCHEMA {
        return Err(LogFileError::Newer { schema: whole.schema });
    }
    let opened: Vec<Option<Record>> = whole.records.iter().map(Summed::open).collect();
    let damaged = opened.iter().enumerate().filter(|(_, record)| record.is_none());
    Ok(ReadLog {
        head: LogFile { job: whole.job, device: whole.device },
        damaged: damaged.map(|(nth, _)| nth + 1).collect(),
        texts: vec![None; opened.iter().flatten().count()],
        cut: whole.count.is_some_and(|count| count != opened.len()),
        records: opened.into_iter().flatten().collect(),
    })
}

/// A field of the head that stands on a line of its own.
fn head_field<'a>(line: &'a str, name: &str) -> Option<&'a str> {
    line.trim().strip_prefix(name)?.trim_start().strip_prefix(':')?.trim().strip_suffix(',').map(str::trim)
}

/// Reads line by line, so that one bad line takes no other with it.
fn by_lines(text: &str) -> Result<ReadLog, LogFileError> {
    let (mut schema, mut job, mut device, mut count) = (None, None, None, None);
    let (mut records, mut texts, mut damaged, mut closed) = (Vec::new(), Vec::new(), Vec::new(), false);
    let mut lines = 0;
    for (nth, line) in text.lines().enumerate() {
        let bare = line.trim();
        if bare.starts_with("(sum") || bare.starts_with("(record") {
            lines += 1;
            match record_of(line) {
                Some((record, text)) => {
                    records.push(record);
                    texts.push(text);
                }
                None => damaged.push(nth + 1),
            }
        } else if let Some(value) = head_field(line, "schema") {
            schema = value.parse::<u32>().ok();
        } else if let Some(value) = head_field(line, "job") {
            job = Id::read(value.trim_matches('"'));
        } else if let Some(value) = head_field(line, "device") {
            device = options().from_str::<String>(value).ok();
        } else if let Some(value) = head_field(line, "count") {
            count = value.parse::<usize>().ok();
        } else if bare == CLOSES && nth > 0 {
            closed = true;
        } else if !matches!(bare, "" | "(" | "records: [" | "]," | "]") {
            damaged.push(nth + 1);
        }
    }
    if let Some(schema) = schema.filter(|schema| *schema > SCHEMA) {
        return Err(LogFileError::Newer { schema });
    }
    // The records themselves name the job, where the head is gone.
    let own = || records.iter().find(|record: &&Record| record.begins() && record.entry.kind() == "job");
    let job = job.or_else(|| own().map(|record| record.id));
    let job = match (job, lines) {
        (Some(job), _) if !records.is_empty() || schema.is_some() => job,
        _ if records.is_empty() => {
            return Err(LogFileError::NoLog {
                line: damaged.first().copied().unwrap_or(1),
                detail: String::new(),
            });
        }
        _ => Id::default(),
    };
    let head_lost = schema.is_none() || device.is_none();
    if head_lost {
        damaged.insert(0, 1);
    }
    Ok(ReadLog {
        head: LogFile { job, device: device.unwrap_or_default() },
        cut: !closed || count.is_none_or(|count| count != lines),
        records,
        texts,
        damaged,
    })
}

/// The record of a line, with the line as it is written where this program wrote it.
fn record_of(line: &str) -> Option<(Record, Option<String>)> {
    if let Some((record, sound)) = exact(line) {
        let read = if sound { options().from_str(record).ok() } else { None };
        return read.map(|read| (read, Some(format!("{line}\n"))));
    }
    let bare = line.trim();
    let summed: Summed = options().from_str(bare.strip_suffix(',').unwrap_or(bare)).ok()?;
    Some((summed.open()?, None))
}
