//! What a command line says: text for the two outputs and the exit status.

use serde::Serialize;
use serde_json::{Value, json};

use super::{ANSWERED, NOT_UNDERSTOOD};

/// What a command line says.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Said {
    /// For standard output.
    pub out: String,
    /// For standard error.
    pub err: String,
    /// The exit status.
    pub status: u8,
}

impl Said {
    /// An answer.
    pub(super) fn answered(out: String) -> Self {
        Self { out, err: String::new(), status: ANSWERED }
    }

    /// One line on what was not understood in the command line itself.
    pub(super) fn not_understood(line: String, as_json: bool) -> Self {
        if as_json {
            return Self::problems(&[("arguments".to_owned(), line)], true);
        }
        Self { out: String::new(), err: line + "\n", status: NOT_UNDERSTOOD }
    }

    /// All problems, each with the key that it belongs to.
    pub(super) fn problems(problems: &[(String, String)], as_json: bool) -> Self {
        if as_json {
            let list: Vec<Value> =
                problems.iter().map(|(key, says)| json!({ "key": key, "says": says })).collect();
            return Self { status: NOT_UNDERSTOOD, ..Self::json(&json!({ "problems": list })) };
        }
        let err = problems.iter().map(|(key, says)| format!("{key}: {says}\n")).collect();
        Self { out: String::new(), err, status: NOT_UNDERSTOOD }
    }

    /// An answer as JSON.
    pub(super) fn json(value: &impl Serialize) -> Self {
        let text =
            serde_json::to_string_pretty(value).expect("texts, numbers and lists always write as JSON");
        Self::answered(text + "\n")
    }

    /// The same with another exit status.
    pub(super) fn with_status(mut self, status: u8) -> Self {
        self.status = status;
        self
    }
}
