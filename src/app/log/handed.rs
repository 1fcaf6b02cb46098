//! Files that are handed over: a card, a table of readings or a job file is written, and a job file is taken
//! in, both off the screen's thread.

use std::fs;
use std::io::{self, Write};
use std::path::{Path, PathBuf};
use std::sync::mpsc::{Receiver, TryRecvError, channel};

use super::sheets::CardOf;
use crate::card::{Pages, csv, pdf};
use crate::job::StoreError;
use crate::log::{Id, Imported, Log, LogStoreError, Logs, Moment};
use crate::words::Words;

/// No name of a file is longer, letters.
const LONGEST_NAME: usize = 60;
/// So many files of one name are told apart by a number.
const MOST_OF_A_NAME: usize = 999;

/// What is written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum What {
    /// The card.
    Card,
    /// The readings as a table.
    Readings,
    /// The job file, for another device.
    JobFile,
}

impl What {
    /// The one of an id.
    pub(super) fn of(id: &str) -> Option<Self> {
        match id {
            "card" => Some(Self::Card),
            "readings" => Some(Self::Readings),
            "job-file" => Some(Self::JobFile),
            _ => None,
        }
    }

    const fn ending(self) -> &'static str {
        match self {
            Self::Card => "pdf",
            Self::Readings => "csv",
            Self::JobFile => "ron",
        }
    }

    /// Its media type.
    const fn kind(self) -> &'static str {
        match self {
            Self::Card => "application/pdf",
            Self::Readings => "text/csv",
            // No type that would have the system add an ending to its name.
            Self::JobFile => "application/octet-stream",
        }
    }

    /// What its file is called, of a job by its name.
    pub(super) fn named(self, words: &Words, job: &str) -> String {
        let named = [("name", job)];
        match self {
            Self::Card => words.with("card-title", &named),
            Self::Readings => words.with("card-readings-of-job", &named),
            Self::JobFile => job.to_owned(),
        }
    }
}

/// What is to be written.
pub(super) struct ToSave {
    pub(super) what: What,
    pub(super) of: CardOf,
    pub(super) log: Log,
    /// The job file.
    pub(super) export: String,
    pub(super) folder: PathBuf,
    /// Is the folder the program's own, which is made where it is missing?
    pub(super) own_folder: bool,
    /// What the file is called.
    pub(super) name: String,
}

/// What was written.
struct Written {
    what: What,
    file: PathBuf,
    /// Pages, readings or records.
    count: usize,
}

impl Written {
    fn say(&self, words: &Words) -> String {
        let key = match self.what {
            What::Card => "card-saved",
            What::Readings => "card-saved-readings",
            What::JobFile => "log-saved-job",
        };
        words.count(key, self.count, &[("file", &self.file.display().to_string())])
    }
}

/// The same, with the pages that it was made of.
struct Saved {
    written: Written,
    of: CardOf,
    pages: Option<Pages>,
}

/// Why nothing was written.
enum NotSaved {
    /// No job stands in the log.
    NoJob,
    /// The PDF library has something against it.
    Refused(String),
    /// The system can't.
    Store(StoreError),
    /// The work was not brought to its end.
    Lost,
}

/// Why a job file was not taken in.
enum NotImported {
    Refused(LogStoreError),
    /// The work was not brought to its end.
    Lost,
}

impl NotSaved {
    fn say(&self, words: &Words) -> String {
        match self {
            Self::NoJob => words.get("log-no-job"),
            Self::Refused(cause) => words.with("cli-card-refused", &[("cause", cause)]),
            Self::Store(error) => error.say(words),
            Self::Lost => words.get("log-hand-lost"),
        }
    }
}

impl ToSave {
    fn save(self) -> Result<Saved, NotSaved> {
        let now = Moment::now();
        let (mut pages, mut count) = (None, self.log.len());
        let bytes = match self.what {
            What::Card => {
                let made = self.of.pages(&self.log, now).ok_or(NotSaved::NoJob)?;
                let bytes = pdf(&made, now).map_err(|cause| NotSaved::Refused(cause.to_string()))?;
                count = made.pages.len();
                pages = Some(made);
                bytes
            }
            What::Readings => {
                let standing = self.log.standing();
                count = standing.readings.len();
                self.of.with_pen(|pen| csv(pen, &standing)).into_bytes()
            }
            What::JobFile => self.export.into_bytes(),
        };
        if self.own_folder {
            fs::create_dir_all(&self.folder).map_err(|cause| {
                NotSaved::Store(StoreError::Folder { folder: self.folder.clone(), cause })
            })?;
        }
        let file =
            write_new(&self.folder, &self.name, self.what.ending(), &bytes).map_err(NotSaved::Store)?;
        Ok(Saved { written: Written { what: self.what, file, count }, of: self.of, pages })
    }
}

/// A name without the signs that a file system may refuse.
fn file_name(name: &str) -> String {
    let refused = |sign: char| sign.is_control() || "/\\:*?\"<>|".contains(sign);
    let made: String =
        name.chars().map(|sign| if refused(sign) { '-' } else { sign }).take(LONGEST_NAME).collect();
    let made = made.trim_matches(|sign: char| sign == '.' || sign.is_whitespace()).to_owned();
    if made.is_empty() { "strawblue".to_owned() } else { made }
}

/// Writes a file under a name that no other one there has, whole: it is on the disk when this returns.
fn write_new(folder: &Path, name: &str, ending: &str, bytes: &[u8]) -> Result<PathBuf, StoreError> {
    let name = file_name(name);
    for nth in 1..=MOST_OF_A_NAME {
        let numbered = if nth == 1 { format!("{name}.{ending}") } else { format!("{name} ({nth}).{ending}") };
        let file = folder.join(numbered);
        // Its name is taken first, so that nothing that is there is written over.
        match fs::File::create_new(&file) {
            Ok(_) => {}
            Err(cause) if cause.kind() == io::ErrorKind::AlreadyExists => continue,
            Err(cause) if cause.kind() == io::ErrorKind::NotFound => {
                return Err(StoreError::Folder { folder: folder.to_owned(), cause });
            }
            Err(cause) => return Err(StoreError::File { file, cause }),
        }
        return match fill(folder, &file, bytes) {
            Ok(()) => Ok(file),
            Err(cause) => {
                let _ = fs::remove_file(&file);
                Err(StoreError::File { file, cause })
            }
        };
    }
    Err(StoreError::File { file: folder.join(name), cause: io::ErrorKind::AlreadyExists.into() })
}

fn fill(folder: &Path, file: &Path, bytes: &[u8]) -> io::Result<()> {
    let mut builder = tempfile::Builder::new();
    // As open to others as any file that a person makes.
    #[cfg(unix)]
    builder.permissions(std::os::unix::fs::PermissionsExt::from_mode(0o666));
    let mut beside = builder.prefix(".half-written-").tempfile_in(folder)?;
    beside.write_all(bytes)?;
    beside.as_file().sync_all()?;
    beside.persist(file)?;
    Ok(())
}

/// What came of a wait.
enum Heard<T> {
    Nothing,
    Told(T),
    Lost,
}

fn heard<T>(wait: &mut Option<Receiver<T>>) -> Heard<T> {
    let heard = match wait.as_ref().map(Receiver::try_recv) {
        None | Some(Err(TryRecvError::Empty)) => return Heard::Nothing,
        Some(Ok(told)) => Heard::Told(told),
        Some(Err(TryRecvError::Disconnected)) => Heard::Lost,
    };
    *wait = None;
    heard
}

/// What was handed over last, and what is on its way.
#[derive(Default)]
pub(crate) struct HandedOver {
    saving: Option<Receiver<Result<Saved, NotSaved>>>,
    importing: Option<Receiver<Result<Imported, LogStoreError>>>,
    /// The job that was last written to a file, and what came of it.
    job: Option<Id>,
    last: Option<Result<Written, NotSaved>>,
    /// Why it was not handed on, in the words of the system.
    not_shared: Option<String>,
    /// Why the last job file was not taken in.
    not_imported: Option<NotImported>,
    /// What the last import brought, of which job.
    pub(super) imported: Option<Imported>,
}

impl HandedOver {
    /// Begins to write a file.
    pub(super) fn save(&mut self, to_save: ToSave) {
        (self.last, self.not_shared) = Default::default();
        self.job = Some(to_save.of.job);
        let (sender, saving) = channel();
        std::thread::spawn(move || {
            // Nobody may wait for it any more.
            let _ = sender.send(to_save.save());
        });
        self.saving = Some(saving);
    }

    /// Begins to take in a job file.
    pub(super) fn import(&mut self, logs: &Logs, file: PathBuf) {
        self.not_imported = None;
        let (sender, importing) = channel();
        let logs = logs.clone();
        std::thread::spawn(move || {
            // Nobody may wait for it any more.
            let _ = sender.send(logs.import(&file));
        });
        self.importing = Some(importing);
    }

    /// Is a file being written?
    pub(super) const fn saves(&self) -> bool {
        self.saving.is_some()
    }

    /// Is a file being taken in?
    pub(super) const fn imports(&self) -> bool {
        self.importing.is_some()
    }

    /// What there is to say of the last file of a job: where it lies, or why there is none.
    pub(super) fn said_of(&self, words: &Words, job: Option<Id>) -> (String, String) {
        match self.last.as_ref().filter(|_| self.job.is_some() && self.job == job) {
            None => Default::default(),
            Some(Ok(written)) => {
                let not_shared = |cause: &String| words.with("log-not-shared", &[("cause", cause)]);
                (written.say(words), self.not_shared.as_ref().map(not_shared).unwrap_or_default())
            }
            Some(Err(why)) => (String::new(), why.say(words)),
        }
    }

    /// The last file of a job, with its kind.
    pub(super) fn file_of(&self, job: Option<Id>) -> Option<(&Path, &'static str)> {
        let written = self.last.as_ref()?.as_ref().ok().filter(|_| self.job == job)?;
        Some((&written.file, written.what.kind()))
    }

    /// Takes in what came of handing the last file on.
    pub(super) fn shared(&mut self, came: Result<(), String>) {
        self.not_shared = came.err();
    }

    /// Why the last job file was not taken in; empty where there is nothing to say.
    pub(super) fn import_problem(&self, words: &Words) -> String {
        match &self.not_imported {
            None => String::new(),
            Some(NotImported::Refused(error)) => error.say(words),
            Some(NotImported::Lost) => words.get("log-hand-lost"),
        }
    }

    /// A job file is looked for anew.
    pub(super) fn import_anew(&mut self) {
        self.not_imported = None;
    }

    /// Takes in what came of a file that was written: none where there is nothing new, else the pages that it
    /// was made of.
    pub(super) fn hear_saved(&mut self) -> Option<Option<(CardOf, Pages)>> {
        let (last, pages) = match heard(&mut self.saving) {
            Heard::Nothing => return None,
            Heard::Told(Ok(saved)) => (Ok(saved.written), saved.pages.map(|pages| (saved.of, pages))),
            Heard::Told(Err(why)) => (Err(why), None),
            Heard::Lost => (Err(NotSaved::Lost), None),
        };
        self.last = Some(last);
        Some(pages)
    }

    /// Takes in what came of an import: none where there is nothing new, else the job, or none where it was
    /// refused.
    pub(super) fn hear_imported(&mut self) -> Option<Option<Imported>> {
        let why = match heard(&mut self.importing) {
            Heard::Nothing => return None,
            Heard::Told(Ok(imported)) => return Some(Some(imported)),
            Heard::Told(Err(error)) => NotImported::Refused(error),
            Heard::Lost => NotImported::Lost,
        };
        self.not_imported = Some(why);
        Some(None)
    }
}
