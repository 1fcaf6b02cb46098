//! A composition, as typed or pasted from a mill certificate.

use super::not_understood;
use crate::engine::job::Steel;
use crate::engine::unmarked::Alloy;
use crate::reference::{Composition, Element, Grade, Unmarked};
use crate::units::{Accepts, Problem, tidy};

/// What a certificate line states.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct CertificateLine {
    /// The elements that count, weight percent.
    pub composition: Composition,
    /// Which of them are stated, in the order of a certificate.
    pub stated: Vec<Element>,
    /// What was read and isn't used: elements that no formula asks for, a printed CE.
    pub unused: Vec<String>,
    /// It is no certificate, but what a test of a steel without a mark ended in.
    pub unmarked: Option<UnmarkedLine>,
}

/// What a test of a steel without a mark says beside the figures.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct UnmarkedLine {
    /// The alloy that it counts with.
    pub alloy: Alloy,
    /// May it be tool steel or stainless steel as well?
    pub maybe_tool: bool,
}

impl UnmarkedLine {
    /// The words that a line begins with.
    #[must_use]
    pub fn words(self) -> String {
        let lean = if self.alloy == Alloy::Lean { [UNMARKED, LEAN].join(" ") } else { UNMARKED.to_owned() };
        if self.maybe_tool { [&lean, MAYBE_TOOL].join(" ") } else { lean }
    }
}

/// Said of a steel without a mark; one with little alloy, as a test has shown; one that may be tool steel.
const UNMARKED: &str = "unmarked";
const LEAN: &str = "lean";
const MAYBE_TOOL: &str = "tool";

impl CertificateLine {
    /// Does it say more than one thing, or that the steel has no mark? One symbol with a figure may be a
    /// name (C45).
    #[must_use]
    pub fn is_analysis(&self) -> bool {
        self.unmarked.is_some() || self.stated.len() + self.unused.len() > 1
    }

    /// What counts of it beside the grade that it names, and the elements that the grade
    /// filled: what isn't stated is put at the grade's upper limit, since a missing line must
    /// not make a steel look softer than it may be.
    #[must_use]
    pub fn with_grade(&self, grade: &Grade) -> (Composition, Vec<Element>) {
        let (mut composition, mut at_maximum) = (self.composition, Vec::new());
        for (&element, limits) in &grade.composition {
            if let Some(percent) = limits.max.or(limits.min).filter(|_| !self.stated.contains(&element)) {
                composition.set(element, percent);
                at_maximum.push(element);
            }
        }
        (composition, at_maximum)
    }

    /// The steel that a test without a mark left: what isn't stated is as much as such a steel may have.
    #[must_use]
    pub fn unmarked_steel(&self, data: &Unmarked) -> Option<Steel> {
        let UnmarkedLine { alloy, maybe_tool } = self.unmarked?;
        let worst = if alloy == Alloy::Lean { &data.lean } else { &data.rich };
        let worst = worst.composition.with(Element::C, data.top_percent);
        let composition = Element::ALL.iter().fold(worst, |made, &element| {
            if self.stated.contains(&element) {
                made.with(element, self.composition.get(element))
            } else {
                made
            }
        });
        Some(Steel::Unmarked { composition, alloy, maybe_tool })
    }
}

/// Read beside the elements and not used.
const UNUSED: [&str; 20] = [
    "Sn", "As", "Sb", "Ca", "Ta", "O", "H", "Bi", "Zn", "Te", "Se", "Ce", "La", "CE", "CEV", "CET", "Ceq",
    "CEQ", "Pcm", "PCM",
];

/// Highest share that is read, weight percent: what no steel or iron exceeds, so that a
/// certificate in hundredths (`C 41`) is not read as whole percent.
const fn highest(element: Element) -> f64 {
    match element {
        Element::C => 5.0,
        Element::Si => 8.0,
        Element::P
        | Element::S
        | Element::Nb
        | Element::Ti
        | Element::B
        | Element::N
        | Element::Zr
        | Element::Pb => 3.0,
        Element::Mg => 1.0,
        Element::Mn | Element::Cr | Element::Mo | Element::Ni | Element::W | Element::Co => 40.0,
        Element::V | Element::Cu | Element::Al => 15.0,
    }
}

#[derive(Debug, Clone, PartialEq)]
enum Token {
    Symbol(String),
    Share(f64),
}

/// A composition as people write it: `C=0.405 Mn=0.875`, `C .40 Si .25 Mn .85`,
/// `C 0,40 %; Mn 0,85 %`, or a row of symbols with a row of figures below it.
/// `<0.005` counts as 0.005.
///
/// # Errors
/// A [`Problem`] if a word or figure is not understood, an element is stated twice, or a
/// share is outside what steel and iron have.
pub fn composition(text: &str) -> Result<CertificateLine, Problem> {
    let lost = || not_understood(text, Accepts::Composition);
    let tidied = tidy(text);
    if tidied.is_empty() || tidied.chars().count() > 2000 {
        return Err(lost());
    }
    let mut tokens = tokens(&tidied).ok_or_else(lost)?;
    let unmarked = unmarked(&mut tokens);
    if unmarked.is_some() && tokens.is_empty() {
        return Ok(CertificateLine { unmarked, ..CertificateLine::default() });
    }
    let pairs = pairs(&tokens).ok_or_else(lost)?;
    let mut line = CertificateLine { unmarked, ..CertificateLine::default() };
    for (symbol, share) in pairs {
        let Some(element) = element(&symbol) else {
            if !UNUSED.contains(&symbol.as_str()) {
                return Err(Problem::Trap { typed: symbol, key: "typed-unknown-element" });
            }
            line.unused.push(symbol);
            continue;
        };
        if line.stated.contains(&element) {
            return Err(Problem::Trap { typed: text.to_owned(), key: "typed-element-twice" });
        }
        if !(0.0..=highest(element)).contains(&share) {
            return Err(Problem::OutOfRange {
                typed: format!("{symbol} {share}"),
                low: 0.0,
                high: highest(element),
                unit: "%",
                accepts: Accepts::Composition,
            });
        }
        line.composition.set(element, share);
        line.stated.push(element);
    }
    let total: f64 = line.stated.iter().map(|element| line.composition.get(*element)).sum();
    if line.stated.is_empty() || total > 100.0 {
        return Err(lost());
    }
    line.stated.sort_unstable();
    Ok(line)
}

/// Takes the words off that a line of a steel without a mark begins with.
fn unmarked(tokens: &mut Vec<Token>) -> Option<UnmarkedLine> {
    let mut take = |word: &str| {
        let is = |token: &Token| matches!(token, Token::Symbol(text) if text.eq_ignore_ascii_case(word));
        let said = tokens.first().is_some_and(is);
        if said {
            tokens.remove(0);
        }
        said
    };
    take(UNMARKED).then(|| UnmarkedLine {
        alloy: if take(LEAN) { Alloy::Lean } else { Alloy::Rich },
        maybe_tool: take(MAYBE_TOOL),
    })
}

/// The element of a symbol; lower case is taken too, `CE` is not cerium here.
fn element(symbol: &str) -> Option<Element> {
    if UNUSED.contains(&symbol) { None } else { Element::from_symbol(symbol) }
}

/// Symbols and shares; `None` if anything else stands there.
fn tokens(text: &str) -> Option<Vec<Token>> {
    let mut made = Vec::new();
    let mut rest = text;
    while let Some(first) = rest.chars().next() {
        if first.is_ascii_digit() || matches!(first, '.' | ',') && digit_follows(rest) {
            let end = number_end(rest);
            let share: f64 = rest[..end].replace(',', ".").parse().ok()?;
            rest = rest[end..].trim_start();
            let lower = rest.get(..3).unwrap_or_default().to_ascii_lowercase();
            let ppm = lower == "ppm";
            rest = if ppm { &rest[3..] } else { rest };
            made.push(Token::Share(if ppm { share / 10_000.0 } else { share }));
        } else if first.is_ascii_alphabetic() {
            let end = rest.find(|c: char| !c.is_ascii_alphabetic()).unwrap_or(rest.len());
            let word = &rest[..end];
            // `max`, `wt` and `and` say nothing about the figure that counts.
            if !matches!(word.to_ascii_lowercase().as_str(), "max" | "wt" | "and") {
                made.push(Token::Symbol(word.to_owned()));
            }
            rest = &rest[end..];
        } else if matches!(first, ' ' | ',' | ';' | '=' | ':' | '%' | '<' | '≤' | '|' | '/' | '.') {
            rest = &rest[first.len_utf8()..];
        } else {
            return None;
        }
    }
    Some(made)
}

fn digit_follows(text: &str) -> bool {
    text.chars().nth(1).is_some_and(|c| c.is_ascii_digit())
}

/// The end of a number with one decimal mark that digits follow.
fn number_end(text: &str) -> usize {
    let bytes = text.as_bytes();
    let mut marked = false;
    let mut at = 0;
    while at < bytes.len() {
        match bytes[at] {
            b'0'..=b'9' => {}
            b'.' | b',' if !marked && bytes.get(at + 1).is_some_and(u8::is_ascii_digit) => marked = true,
            _ => break,
        }
        at += 1;
    }
    at
}

/// Symbol and share in turn, or all symbols and then as many shares.
fn pairs(tokens: &[Token]) -> Option<Vec<(String, f64)>> {
    let symbols: Vec<&String> = tokens
        .iter()
        .filter_map(|token| if let Token::Symbol(symbol) = token { Some(symbol) } else { None })
        .collect();
    let shares: Vec<f64> = tokens
        .iter()
        .filter_map(|token| if let Token::Share(share) = token { Some(*share) } else { None })
        .collect();
    if symbols.is_empty() || symbols.len() != shares.len() {
        return None;
    }
    let is_symbol = |token: &Token| matches!(token, Token::Symbol(_));
    let in_turn = tokens.chunks(2).all(|pair| pair.len() == 2 && is_symbol(&pair[0]) && !is_symbol(&pair[1]));
    let in_rows = tokens.iter().take(symbols.len()).all(is_symbol);
    (in_turn || in_rows).then(|| symbols.into_iter().cloned().zip(shares).collect())
}
