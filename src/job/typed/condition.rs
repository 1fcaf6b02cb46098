//! The state that a part is in, as typed.

use super::{asked, not_understood, words_of};
use crate::engine::job::Condition;
use crate::reference::ConditionKind;
use crate::units::{Accepts, Problem, TemperatureUnit, limits, temperature, tidy};

/// What the words of a condition say.
#[derive(Default)]
#[allow(clippy::struct_excessive_bools, reason = "one flag per word that was seen")]
struct Seen {
    hardened: bool,
    tempered: bool,
    quenched_and_tempered: bool,
    normalised: bool,
    kinds: Vec<ConditionKind>,
}

/// A condition as people write it: `hardened and tempered 540 C`, `Q&T 540`, `annealed`,
/// `normalised`, `as rolled`, `case-hardened, tempered 170`, `unknown`; the symbols of
/// EN delivery conditions (`+QT`, `+N`, `+AR`, `+A`, `+M`, `+C`) too.
///
/// A bare tempering temperature takes the unit shown. What a part is *not* (`not
/// tempered`) is refused, since its words are those of the condition that it denies.
///
/// # Errors
/// A [`Problem`] if a word is not known, the words leave it open (`hardened`, `tempered`:
/// asked) or deny a condition, or a tempering temperature stands where there is none.
pub fn condition(text: &str, shown: TemperatureUnit) -> Result<Condition, Problem> {
    let tidied = tidy(text).to_lowercase();
    let front = tidied.find(|c: char| c.is_ascii_digit()).unwrap_or(tidied.len());
    let (before, figure) = tidied.split_at(front);
    let temper_c = if figure.is_empty() {
        None
    } else {
        let figure = figure.trim_end_matches([')', '.']);
        let problem = |problem| of_figure(problem, as_typed(text, figure));
        Some(temperature(figure, shown, limits::TEMPER_C).map_err(problem)?)
    };
    let kind = kind(text, before)?;
    let takes_temper = matches!(
        kind,
        ConditionKind::HardenedTempered
            | ConditionKind::NormalisedTempered
            | ConditionKind::CaseHardened
            | ConditionKind::InductionHardened
    );
    if temper_c.is_some() && !takes_temper {
        return Err(Problem::Trap { typed: text.to_owned(), key: "typed-no-temper" });
    }
    Ok(Condition { kind, temper_c })
}

/// A piece of a text as it was typed: what is read is in small letters.
fn as_typed<'a>(text: &'a str, piece: &'a str) -> &'a str {
    let at = text.to_lowercase().find(piece);
    at.and_then(|at| text.get(at..at + piece.len())).unwrap_or(piece)
}

/// A problem of the temperature. The words before it may have been chosen, and are not quoted.
fn of_figure(problem: Problem, figure: &str) -> Problem {
    match problem {
        Problem::OutOfRange { low, high, unit, .. } => {
            Problem::OutOfRange { typed: figure.to_owned(), low, high, unit, accepts: Accepts::Condition }
        }
        _ => not_understood(figure, Accepts::Condition),
    }
}

fn kind(text: &str, before: &str) -> Result<ConditionKind, Problem> {
    let joined = before
        .replace(" & ", "&")
        .replace("q&t", " qt ")
        .replace("h&t", " qt ")
        .replace("q+t", " qt ")
        .replace("q/t", " qt ")
        .replace('&', " and ");
    let mut seen = Seen::default();
    let words = words_of(&joined);
    let mut rest = words.iter().map(String::as_str).peekable();
    while let Some(word) = rest.next() {
        let understood = match word {
            "not" => match rest.next() {
                Some("known" | "stated" | "sure" | "certain" | "given" | "marked") => {
                    note("unknown", &mut seen)
                }
                _ => return Err(Problem::Trap { typed: text.to_owned(), key: "typed-condition-not" }),
            },
            // Alone it says nothing; "pre-hardened" is hardened and tempered at the mill.
            "pre" => matches!(rest.next(), Some("hardened" | "hard")) && note("prehardened", &mut seen),
            _ => note(word, &mut seen),
        };
        if !understood {
            return Err(not_understood(as_typed(text, word), Accepts::Condition));
        }
    }
    seen.kinds.dedup();
    // A skin is hardened and tempered too; beside any other state the two are a second state.
    let skin =
        matches!(seen.kinds.as_slice(), [ConditionKind::CaseHardened | ConditionKind::InductionHardened]);
    if !(skin || seen.kinds.is_empty()) && (seen.hardened || seen.tempered) {
        return Err(not_understood(text, Accepts::Condition));
    }
    match (seen.kinds.as_slice(), &seen) {
        ([kind], Seen { normalised: false, quenched_and_tempered: false, .. }) => Ok(*kind),
        ([], Seen { normalised: true, hardened: false, quenched_and_tempered: false, tempered, .. }) => {
            Ok(if *tempered { ConditionKind::NormalisedTempered } else { ConditionKind::Normalised })
        }
        ([], Seen { normalised: false, quenched_and_tempered: true, .. })
        | ([], Seen { normalised: false, hardened: true, tempered: true, .. }) => {
            Ok(ConditionKind::HardenedTempered)
        }
        ([], Seen { hardened: true, normalised: false, .. }) => Err(asked(
            text,
            &[
                ("quenched and tempered", "condition-means-through"),
                ("case-hardened", "condition-means-case"),
                ("induction hardened", "condition-means-induction"),
            ],
        )),
        ([], Seen { tempered: true, normalised: false, .. }) => Err(asked(
            text,
            &[
                ("quenched and tempered", "condition-means-through"),
                ("normalised and tempered", "condition-means-normalised-tempered"),
            ],
        )),
        _ => Err(not_understood(text, Accepts::Condition)),
    }
}

/// Notes what a word says; `false` if the word is not known.
fn note(word: &str, seen: &mut Seen) -> bool {
    let kind = match word {
        "and" | "at" | "to" | "as" | "hot" | "soft" | "the" | "°" | "condition" | "cold" | "worked"
        | "delivered" | "surface" => match word {
            "worked" => ConditionKind::ColdWorked,
            _ => return true,
        },
        "hardened" | "quenched" | "through" => {
            seen.hardened = true;
            return true;
        }
        "tempered" => {
            seen.tempered = true;
            return true;
        }
        "qt" | "+qt" | "prehardened" | "prehard" => {
            seen.quenched_and_tempered = true;
            return true;
        }
        "normalised" | "normalized" | "+n" => {
            seen.normalised = true;
            return true;
        }
        "+nt" => ConditionKind::NormalisedTempered,
        "annealed" | "spheroidised" | "spheroidized" | "+a" => ConditionKind::Annealed,
        "rolled" | "forged" | "finished" | "+ar" => ConditionKind::AsRolled,
        "tmcp" | "tm" | "thermomechanical" | "thermomechanically" | "+m" => ConditionKind::Thermomechanical,
        "drawn" | "formed" | "bent" | "+c" => ConditionKind::ColdWorked,
        "case" | "carburised" | "carburized" => ConditionKind::CaseHardened,
        "induction" | "flame" => ConditionKind::InductionHardened,
        "cast" => ConditionKind::AsCast,
        "unknown" | "?" => ConditionKind::Unknown,
        _ => return false,
    };
    // "Thermomechanically rolled" is one state, not two.
    if !(kind == ConditionKind::AsRolled && seen.kinds.contains(&ConditionKind::Thermomechanical)) {
        seen.kinds.push(kind);
    }
    true
}
