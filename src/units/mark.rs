//! The decimal mark of who types. `1,500` is thousands to one language and one and a half to another.

use super::number::is_grouped;
use super::{Choice, Problem};

/// The decimal mark of the language that something is typed in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Mark {
    /// A point. `1,500` has two meanings, and is asked about. So it is where nobody says a language:
    /// in files and on the command line.
    #[default]
    Point,
    /// A comma. `1,500` is one and a half, and `1.500` is asked about.
    Comma,
}

impl Mark {
    /// The mark of a language.
    #[must_use]
    pub const fn of(mark: char) -> Self {
        if mark == ',' { Self::Comma } else { Self::Point }
    }

    /// Reads a text that is typed with this mark.
    ///
    /// # Errors
    /// The [`Problem`] of the reader, with the text as it was typed.
    pub fn read<T>(self, text: &str, read: impl FnOnce(&str) -> Result<T, Problem>) -> Result<T, Problem> {
        match self {
            Self::Point => read(text),
            Self::Comma => read(&with_points(text)?).map_err(|problem| problem.of_typed(text)),
        }
    }
}

/// The text with a point where a comma could be taken for a mark of thousands.
fn with_points(text: &str) -> Result<String, Problem> {
    let mut made = String::with_capacity(text.len());
    let mut rest = text;
    while let Some(start) = rest.find(|sign: char| sign.is_ascii_digit()) {
        let (before, number) = rest.split_at(start);
        let end = number.find(|sign: char| !matches!(sign, '0'..='9' | '.' | ',')).unwrap_or(number.len());
        let (number, after) = number.split_at(end);
        // What follows a mark without a figure before it is no whole number: `,125`.
        let whole = !before.ends_with(['.', ',']) && !number.starts_with('0');
        let once = |mark: char| whole && is_grouped(number, mark) && number.matches(mark).count() == 1;
        if once('.') {
            let write = |by: &str| format!("{made}{before}{}{after}", number.replace('.', by));
            return Err(Problem::Ambiguous {
                typed: text.to_owned(),
                choices: vec![
                    Choice { write: write(","), means: "typed-means-decimal" },
                    Choice { write: write(""), means: "typed-means-thousands" },
                ],
            });
        }
        made.push_str(before);
        made.push_str(&if once(',') { number.replace(',', ".") } else { number.to_owned() });
        rest = after;
    }
    Ok(made + rest)
}
