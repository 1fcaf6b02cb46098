//! The welding process, as typed.

use super::{asked, not_understood, words_of};
use crate::engine::job::Process;
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

/// A process as people write it: `gtaw`, `tig`, `smaw basic`, `mma low-hydrogen`, `mig`,
/// `rutile`, `nickel`, an electrode's class by AWS (`E7018`).
///
/// # Errors
/// A [`Problem`] if the words are not known, or leave it open (`wire`: asked).
pub fn process(text: &str) -> Result<TypedProcess, Problem> {
    let words = words_of(text);
    let joined = words.join("-");
    if let Some(known) = Process::ALL.iter().copied().find(|process| process.id() == joined) {
        return Ok(TypedProcess::Known(known));
    }
    if let Some(covering) = electrode_number(&joined) {
        return Ok(TypedProcess::Known(covering));
    }
    // What says that it is a covered electrode, apart from its covering.
    let is_electrode_word = |word: &str| {
        matches!(
            word,
            "smaw"
                | "mma"
                | "mmaw"
                | "stick"
                | "electrode"
                | "electrodes"
                | "rod"
                | "rods"
                | "covered"
                | "arc"
        )
    };
    let rest: Vec<&str> = words.iter().map(String::as_str).filter(|word| !is_electrode_word(word)).collect();
    let had_electrode = rest.len() < words.len();
    let known = match rest.join(" ").as_str() {
        "" if had_electrode => return Ok(TypedProcess::CoveredElectrode),
        "basic" | "low hydrogen" | "lowhydrogen" | "low h" | "lo hi" => Process::SmawBasic,
        "rutile" => Process::SmawRutile,
        "cellulosic" | "cellulose" => Process::SmawCellulosic,
        "nickel" | "nickel iron" | "cast iron" => Process::SmawNickel,
        "tig" | "gas tungsten" | "tungsten" | "wig"
            if !had_electrode || words.contains(&"arc".to_owned()) =>
        {
            Process::Gtaw
        }
        "mig" | "mag" | "mig mag" | "mig/mag" | "gas metal" | "solid wire" => Process::Gmaw,
        "metal cored" | "metal core" | "metal cored wire" => Process::Mcaw,
        "fcaw gas" | "fcaw g" | "fcaw gas shielded" | "gas shielded" | "flux cored gas" => Process::Fcaw,
        "fcaw s" | "fcaw self shielded" | "self shielded" | "gasless" | "flux cored self" => {
            Process::FcawSelf
        }
        "submerged" | "sub" => Process::Saw,
        "oxy fuel" | "oxyfuel" | "oxyacetylene" | "oxy acetylene" | "acetylene" | "gas" | "gas welding"
        | "torch" | "ofw" | "oaw" => Process::OxyFuel,
        "plasma" => Process::Paw,
        "wire" | "cored wire" | "flux cored" | "flux core" | "fluxcore" | "cored" | "flux cored wire" => {
            return Err(asked(
                text,
                &[
                    ("gmaw", "process-means-solid"),
                    ("mcaw", "process-means-metal-cored"),
                    ("fcaw", "process-means-flux-gas"),
                    ("fcaw-self", "process-means-flux-self"),
                ],
            ));
        }
        _ => return Err(not_understood(text, Accepts::Process)),
    };
    Ok(TypedProcess::Known(known))
}

/// Several processes joined by `+`.
///
/// # Errors
/// The [`Problem`] of the first that is not understood.
pub fn process_list(text: &str) -> Result<Vec<(String, TypedProcess)>, Problem> {
    text.split('+').map(|part| process(part).map(|known| (part.trim().to_owned(), known))).collect()
}

/// `E7018` and its like: the last two digits of the AWS class tell the covering
/// (AWS A5.1, A5.5; from memory).
fn electrode_number(word: &str) -> Option<Process> {
    let digits = word.strip_prefix('e').unwrap_or(word);
    let digits = digits.split('-').next()?;
    if !(4..=5).contains(&digits.len()) || !digits.chars().all(|c| c.is_ascii_digit()) {
        return None;
    }
    match digits.get(digits.len() - 2..)? {
        "15" | "16" | "18" | "28" | "48" => Some(Process::SmawBasic),
        "10" | "11" => Some(Process::SmawCellulosic),
        "12" | "13" | "14" | "24" => Some(Process::SmawRutile),
        _ => None,
    }
}
