//! Words that people type for a choice: condition, process, joint, restraint,
//! composition.

mod composition;
mod condition;
mod improbable;
mod joint;
mod plain;
mod process;
mod told;
mod told_weld;

pub use composition::{CertificateLine, UnmarkedLine, composition};
pub use condition::condition;
pub use improbable::{Improbable, improbable};
pub use joint::{joint, restraint, restraint_is_none};
pub use plain::{code, shape_is_round, yes_no};
pub use process::{TypedProcess, covering, process};
pub use told::{Typed, told};

use crate::units::{Accepts, Choice, Problem};

/// The words of a text: lower case, hyphens and commas as spaces.
fn words_of(text: &str) -> Vec<String> {
    crate::units::tidy(text)
        .to_lowercase()
        .replace(['-', ',', ';', '(', ')', '_'], " ")
        .split(' ')
        .filter(|word| !word.is_empty())
        .map(str::to_owned)
        .collect()
}

fn not_understood(text: &str, accepts: Accepts) -> Problem {
    if crate::units::tidy(text).is_empty() {
        Problem::Empty { accepts }
    } else {
        Problem::NotUnderstood { typed: text.to_owned(), accepts }
    }
}

fn asked(text: &str, choices: &[(&str, &'static str)]) -> Problem {
    let choices = choices.iter().map(|&(write, means)| Choice { write: write.to_owned(), means }).collect();
    Problem::Ambiguous { typed: text.to_owned(), choices }
}
