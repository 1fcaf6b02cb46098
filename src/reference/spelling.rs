//! How designations are compared: case, spaces and hyphens don't count, digits do.

/// Words that stand around a designation without being part of it.
const AROUND: [&str; 18] = [
    "sae", "aisi", "astm", "asme", "en", "din", "uns", "iso", "aws", "type", "grade", "gr", "class", "cl",
    "steel", "no", "number", "alloy",
];

/// Bodies that are also written without a space: `SAE4140`.
const GLUED: [&str; 4] = ["aisi", "astm", "asme", "sae"];

/// The form in which designations are compared. A comma between digits counts as a point.
#[must_use]
pub fn normal(text: &str) -> String {
    let lower = text.to_lowercase();
    let kept: Vec<&str> = lower.split_whitespace().filter(|word| !AROUND.contains(word)).collect();
    // A query that is nothing but such a word is still a query.
    let joined = if kept.is_empty() { lower.split_whitespace().collect::<String>() } else { kept.concat() };
    let letters: Vec<char> = joined.chars().collect();
    let mut made = String::with_capacity(joined.len());
    for (place, &letter) in letters.iter().enumerate() {
        let between_digits = place > 0
            && letters[place - 1].is_ascii_digit()
            && letters.get(place + 1).is_some_and(char::is_ascii_digit);
        match letter {
            '.' | ',' if between_digits => made.push('.'),
            _ if letter.is_alphanumeric() => made.push(letter),
            _ => {}
        }
    }
    for body in GLUED {
        if let Some(rest) = made.strip_prefix(body)
            && rest.contains(|letter: char| letter.is_ascii_digit())
        {
            return rest.to_owned();
        }
    }
    made
}

/// Are two words one slip apart: a letter or digit changed, left out, added, or two
/// neighbours swapped?
#[must_use]
pub fn one_slip(left: &[char], right: &[char]) -> bool {
    let (short, long) = if left.len() <= right.len() { (left, right) } else { (right, left) };
    if long.len() - short.len() > 1 {
        return false;
    }
    let Some(at) = (0..short.len()).find(|&place| short[place] != long[place]) else {
        return long.len() > short.len();
    };
    if short.len() < long.len() {
        return short[at..] == long[at + 1..];
    }
    let swapped = at + 1 < short.len()
        && short[at] == long[at + 1]
        && short[at + 1] == long[at]
        && short[at + 2..] == long[at + 2..];
    swapped || short[at + 1..] == long[at + 1..]
}
