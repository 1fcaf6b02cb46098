//! Figures of a certificate that no steel or iron of this trade has: slips of the decimal mark.
//!
//! The limits are common practice, no source: the widest that standards of low-alloy, tool,
//! stainless, maraging and manganese steel and of iron are remembered to print, and some more. What
//! a rich alloy may have is allowed beside what makes it rich.

use crate::reference::{Composition, Element, Grade};
use crate::units::{Show, Units};
use crate::words::Words;

/// A figure that no steel has beside the other figures of its certificate.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Improbable {
    /// The element.
    pub element: Element,
    /// As stated, weight percent.
    pub percent: f64,
    /// The same with the decimal mark one or two places on, where a steel may have that.
    pub likely: Option<f64>,
}

impl Improbable {
    /// What is asked about it, in plain words.
    #[must_use]
    pub fn say(&self, words: &Words) -> String {
        let percent = |value: f64| Show::new(Units::default(), words).with_unit(value, 4, "%");
        let (symbol, value) = (self.element.symbol(), percent(self.percent));
        match self.likely.filter(|likely| *likely > 0.0).map(percent) {
            Some(likely) => {
                let values = [("symbol", symbol), ("value", &value), ("likely", &likely)];
                words.with("job-improbable", &values)
            }
            None => words.with("job-improbable-none", &[("symbol", symbol), ("value", &value)]),
        }
    }
}

/// The figures of a certificate that no steel has, of the elements that it states; what the grade
/// beside it has itself is never one.
#[must_use]
pub fn improbable(stated: &[Element], composition: &Composition, grade: Option<&Grade>) -> Vec<Improbable> {
    let of_grade = |element: Element, percent: f64| {
        let limits = grade.and_then(|grade| grade.composition.get(&element));
        limits.and_then(|limits| limits.max).is_some_and(|max| percent > 0.0 && percent <= 1.1 * max)
    };
    let odd = |element: &Element| {
        let percent = composition.get(*element);
        !of_grade(*element, percent) && !may_have(composition, *element, percent)
    };
    let named = |element: Element| {
        let percent = composition.get(element);
        let smaller = [10.0, 100.0].map(|by| (percent / by * 1e6).round() / 1e6);
        let likely =
            smaller.into_iter().find(|less| may_have(&composition.with(element, *less), element, *less));
        Improbable { element, percent, likely }
    };
    stated.iter().copied().filter(odd).map(named).collect()
}

/// May a steel or iron with these other figures have so much of an element?
fn may_have(other: &Composition, element: Element, percent: f64) -> bool {
    let of = |element| other.get(element);
    let (carbon, chromium, nickel) = (of(Element::C), of(Element::Cr), of(Element::Ni));
    let iron = carbon >= 2.0;
    let stainless = chromium >= 8.0;
    let carbides = of(Element::Mo) + of(Element::W);
    let most = match element {
        // No steel has none. Above 1.5 %: iron with its silicon, white iron and high-carbon tool
        // steel with their chromium, high-speed steel, manganese steel.
        Element::C if percent <= 0.0 => return false,
        Element::C if of(Element::Si) >= 0.8 || chromium >= 1.4 => 4.5,
        Element::C if carbides >= 2.0 || of(Element::Mn) >= 6.0 => 2.0,
        Element::C => 1.5,
        // Electrical sheet, valve and heat-resisting steel, iron.
        Element::Si if iron || carbon <= 0.1 || chromium >= 5.0 => 6.0,
        Element::Si => 2.3,
        // Manganese steel from 6 %, austenitic manganese from 10 %, stainless with manganese for nickel.
        Element::Mn if chromium >= 10.0 => 40.0,
        // Steel of so much carbon has 11 to 20 (ASTM A128, from memory); that of 25 and more has less carbon.
        Element::Mn if percent >= 6.0 && carbon >= 0.9 => 20.0,
        Element::Mn if percent >= 10.0 && carbon >= 0.3 => 40.0,
        Element::Mn => 3.0,
        Element::P if iron => 1.5,
        Element::P => 0.16,
        Element::S => 0.4,
        // Borated stainless is sold up to some 2 %.
        Element::B if stainless => 2.3,
        Element::B => 0.01,
        Element::N if stainless => 1.2,
        Element::N => 0.05,
        // Hot-work, cold-work and high-speed steel.
        Element::V if carbon >= 0.8 && (chromium >= 2.0 || carbides >= 1.0) => 15.0,
        Element::V if carbon >= 0.25 && (chromium >= 2.0 || carbides >= 1.0) => 3.0,
        Element::V => 0.6,
        Element::Mo if chromium >= 2.9 || nickel >= 7.0 || iron => 40.0,
        Element::Mo if carbon >= 0.6 && of(Element::W) + of(Element::V) >= 1.0 => 40.0,
        Element::Mo => 1.3,
        // Cold-tough and maraging steel, invar, high-cobalt steel, Ni-resistant iron.
        Element::Ni if stainless || iron || carbon <= 0.2 || of(Element::Co) >= 3.0 => 40.0,
        Element::Ni => 6.0,
        Element::Cu if stainless || iron => 8.0,
        Element::Cu => 2.0,
        Element::Nb if stainless || nickel >= 7.0 => 3.0,
        Element::Nb => 0.2,
        Element::Ti if stainless || nickel >= 7.0 => 3.0,
        Element::Ti => 0.7,
        Element::Al if stainless || of(Element::Mn) >= 10.0 => 15.0,
        Element::Al => 2.0,
        Element::W if carbon >= 0.3 || stainless => 40.0,
        Element::W => 1.0,
        Element::Co if chromium >= 2.0 || nickel >= 7.0 || carbon >= 0.6 => 40.0,
        Element::Co => 1.0,
        Element::Pb => 0.5,
        Element::Zr => 0.3,
        Element::Mg => 0.15,
        Element::Cr => 40.0,
    };
    percent <= most
}
