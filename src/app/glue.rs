//! What belongs together stays in one line: a figure with its unit or its sign, a range with its
//! other end.
//!
//! Only what is drawn is glued. The command line, files and screen readers have the text as it is.

/// No line breaks beside it, and two of them are as wide as a space in the bundled font. The usual
/// no-break space does not serve: the layout lets one that lies at the end of a line hang over it, and
/// breaks after it.
const NO_BREAK: &str = "\u{202f}\u{202f}";
/// No line breaks at it, and it has no width. The font has this one, and not the word joiner.
const JOINER: char = '\u{feff}';

/// A text as it is drawn; none where it is drawn as it is.
#[must_use]
pub fn glued(said: &str) -> Option<String> {
    if !said.contains(['\u{a0}', '–', 'Ø']) {
        return None;
    }
    let mut drawn = String::with_capacity(said.len() + 8);
    let mut signs = said.chars().peekable();
    let mut before = None;
    while let Some(sign) = signs.next() {
        match sign {
            '\u{a0}' => drawn.push_str(NO_BREAK),
            _ => drawn.push(sign),
        }
        let figure = |other: Option<char>| other.is_some_and(|other| other.is_ascii_digit());
        let joins = match sign {
            // Between two figures it is a range.
            '–' => figure(before),
            'Ø' => true,
            _ => false,
        };
        if joins && figure(signs.peek().copied()) {
            drawn.push(JOINER);
        }
        before = Some(sign);
    }
    Some(drawn)
}
