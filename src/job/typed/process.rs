//! The welding process, as typed.

use super::{asked, not_understood, words_of};
use crate::engine::job::Process;
use crate::reference::{ArcKind, Reference};
use crate::units::{Accepts, Hydrogen, Problem};

/// A process word: a process, or a covered electrode whose covering is not said.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TypedProcess {
    /// A process.
    Known(Process),
    /// A covered electrode of unknown covering.
    CoveredElectrode,
}

/// A covering that is not said is basic if the electrode bears a hydrogen class up to
/// this, ml/100 g: only basic electrodes are sold with one (common practice, no source).
const BASIC_CLASS_ML: f64 = 16.0;
/// The same for a measured figure: rutile and cellulosic electrodes never come so low.
const BASIC_MEASURED_ML: f64 = 10.0;

impl TypedProcess {
    /// The process; the hydrogen of the electrode may tell its covering.
    ///
    /// # Errors
    /// [`Problem::Ambiguous`] if the covering is neither said nor told by the hydrogen.
    pub fn with_hydrogen(self, text: &str, hydrogen: Option<&Hydrogen>) -> Result<Process, Problem> {
        match self {
            Self::Known(process) => Ok(process),
            Self::CoveredElectrode => {
                let basic = hydrogen.is_some_and(|hydrogen| {
                    let most = if hydrogen.class.is_some() { BASIC_CLASS_ML } else { BASIC_MEASURED_ML };
                    !hydrogen.open && hydrogen.ml <= most
                });
                if basic {
                    return Ok(Process::SmawBasic);
                }
                Err(asked(
                    text,
                    &[
                        ("smaw basic", "process-means-basic"),
                        ("smaw rutile", "process-means-rutile"),
                        ("smaw cellulosic", "process-means-cellulosic"),
                    ],
                ))
            }
        }
    }
}

/// What says that it is a covered electrode, apart from its covering.
const ELECTRODE: [&str; 10] =
    ["smaw", "mma", "mmaw", "stick", "electrode", "electrodes", "rod", "rods", "covered", "arc"];

/// A process as people write it (`said` of its row): `gtaw`, `tig`, `smaw basic`, `mma
/// low-hydrogen`, `mig`, `rutile`, `nickel`, an electrode's class by AWS (`E7018`).
///
/// # Errors
/// A [`Problem`] if the words are not known, or leave it open (`wire`: asked).
pub fn process(text: &str, reference: &Reference) -> Result<TypedProcess, Problem> {
    let words = words_of(text);
    let joined = words.join("-");
    let known = Process::ALL.iter().copied().find(|process| process.id() == joined);
    if let Some(known) = known.or_else(|| covering(&joined, reference)) {
        return Ok(TypedProcess::Known(known));
    }
    let spaced = words.join(" ");
    let rest = words.iter().map(String::as_str).filter(|word| !ELECTRODE.contains(word)).collect::<Vec<_>>();
    if rest.is_empty() && !words.is_empty() {
        return Ok(TypedProcess::CoveredElectrode);
    }
    let rest = rest.join(" ");
    let said = |process: Process| {
        let row = reference.process(process.id())?;
        let is_covered = row.arc == ArcKind::Smaw;
        row.said.iter().any(|said| *said == spaced || is_covered && *said == rest).then_some(process)
    };
    if let Some(known) = Process::ALL.iter().copied().find_map(said) {
        return Ok(TypedProcess::Known(known));
    }
    match rest.as_str() {
        "wire" | "cored wire" | "flux cored" | "flux core" | "fluxcore" | "cored" | "flux cored wire" => {
            Err(asked(
                text,
                &[
                    ("gmaw", "process-means-solid"),
                    ("mcaw", "process-means-metal-cored"),
                    ("fcaw", "process-means-flux-gas"),
                    ("fcaw-self", "process-means-flux-self"),
                ],
            ))
        }
        _ => Err(not_understood(text, Accepts::Process)),
    }
}

/// `E7018` and its like: the last two digits of the AWS class tell the covering.
#[must_use]
pub fn covering(word: &str, reference: &Reference) -> Option<Process> {
    let word = word.to_lowercase();
    let digits = word.strip_prefix('e').unwrap_or(&word).split('-').next()?;
    if !(4..=5).contains(&digits.len()) || !digits.chars().all(|c| c.is_ascii_digit()) {
        return None;
    }
    let end = digits.get(digits.len() - 2..)?;
    Process::ALL.iter().copied().find(|process| {
        let row = reference.process(process.id());
        row.is_some_and(|row| row.covering.iter().any(|ending| ending == end))
    })
}
