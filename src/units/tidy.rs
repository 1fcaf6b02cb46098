//! One form for the many characters that phones, PDFs and people use for the same thing.

/// The text with one kind of space, minus, slash, quote and degree sign, fractions
/// written out, and control characters gone.
///
/// ```
/// assert_eq!(strawblue::units::tidy("1½\u{a0}″ "), "1 1/2 \"");
/// ```
#[must_use]
pub fn tidy(text: &str) -> String {
    let mut made = String::with_capacity(text.len());
    for character in text.chars() {
        match character {
            '\u{a0}'
            | '\u{2000}'..='\u{200a}'
            | '\u{202f}'
            | '\u{205f}'
            | '\u{3000}'
            | '\t'
            | '\n'
            | '\r' => {
                made.push(' ');
            }
            '\u{200b}'..='\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2060}'..='\u{206f}' | '\u{feff}' => {}
            '\u{2010}'..='\u{2015}' | '\u{2212}' | '\u{ff0d}' => made.push('-'),
            '\u{2044}' | '\u{2215}' | '\u{ff0f}' => made.push('/'),
            '\u{201c}' | '\u{201d}' | '\u{2033}' | '\u{ff02}' => made.push('"'),
            '\u{2018}' | '\u{2019}' | '\u{2032}' => made.push('\''),
            '\u{ba}' | '\u{2da}' => made.push('°'),
            '\u{2103}' => made.push_str("°C"),
            '\u{2109}' => made.push_str("°F"),
            '\u{2300}' | '\u{f8}' | '\u{2205}' => made.push('Ø'),
            '\u{ff0c}' | '\u{66b}' => made.push(','),
            '\u{ff0e}' => made.push('.'),
            '\u{b7}' | '\u{22c5}' => made.push('.'),
            '\u{ff10}'..='\u{ff19}' => made.push(ascii_digit(character)),
            _ => match vulgar(character) {
                Some(fraction) => {
                    if made.ends_with(|last: char| last.is_ascii_digit()) {
                        made.push(' ');
                    }
                    made.push_str(fraction);
                }
                None if character.is_control() => {}
                None => made.push(character),
            },
        }
    }
    made.split(' ').filter(|word| !word.is_empty()).collect::<Vec<_>>().join(" ")
}

fn ascii_digit(full_width: char) -> char {
    char::from_digit(u32::from(full_width) - 0xff10, 10).unwrap_or('0')
}

const fn vulgar(character: char) -> Option<&'static str> {
    Some(match character {
        '½' => "1/2",
        '¼' => "1/4",
        '¾' => "3/4",
        '⅛' => "1/8",
        '⅜' => "3/8",
        '⅝' => "5/8",
        '⅞' => "7/8",
        '⅓' => "1/3",
        '⅔' => "2/3",
        '⅕' => "1/5",
        '⅖' => "2/5",
        '⅗' => "3/5",
        '⅘' => "4/5",
        '⅙' => "1/6",
        '⅚' => "5/6",
        '⅒' => "1/10",
        _ => return None,
    })
}
