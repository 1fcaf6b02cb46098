//! Does a certificate agree with the grade named beside it; and where none is named, is it one slip
//! of the pen away from a grade?

use super::job::{Member, Steel};
use super::treatment::outside_grade;
use crate::reference::{Composition, Element, Grade, Limits, Reference};

/// What a steel has of elements that its standard does not name, from scrap and from the melt, at
/// most, % (common practice, no source; standards of bar print about these figures).
const RESIDUAL: [(Element, f64); 8] = [
    (Element::Si, 0.6),
    (Element::Mn, 0.6),
    (Element::Cr, 0.3),
    (Element::Ni, 0.4),
    (Element::Mo, 0.1),
    (Element::Cu, 0.4),
    (Element::V, 0.05),
    (Element::B, 0.0008),
];
/// A cap is one on residuals up to so many times of them.
const RESIDUAL_CAP: f64 = 1.5;
/// The same for any other element, %.
const TRACE: f64 = 0.1;

/// Silicon that a grade without an upper limit takes, % (common practice, no source).
const MOST_SILICON: f64 = 1.0;

/// Share of a limit by which a figure may lie outside it as product tolerance, and the least
/// width of that, % (common practice, no source).
const TOLERANCE: (f64, f64) = (0.05, 0.02);
/// Elements that are stated to the third decimal: their tolerance has no least width.
const FINE: [Element; 6] = [Element::P, Element::S, Element::B, Element::N, Element::Nb, Element::Ti];

/// Carbon and manganese below this share of a grade's upper limit are no figures of it although it
/// sets no lower limit, from these upper limits on, % (common practice, no source: leaner ones are
/// grades of their own; steel with a cap of 1.6 % of manganese lives by it).
const LEAN: [(Element, f64, f64); 3] =
    [(Element::C, 0.12, 1.0 / 6.0), (Element::Mn, 0.8, 1.0 / 6.0), (Element::Mn, 1.6, 0.3)];

/// How a certificate that fits no grade would fit one.
#[derive(Debug, Clone, PartialEq)]
pub enum Slip {
    /// With one decimal mark moved.
    Decimal {
        /// The element.
        element: Element,
        /// As stated, %.
        percent: f64,
        /// What would fit, %.
        likely: f64,
        /// The grade's designation.
        grade: String,
    },
    /// With two figures exchanged.
    Exchanged {
        /// The two elements.
        elements: [Element; 2],
        /// The grade's designation.
        grade: String,
    },
}

/// The elements in which a certificate lies outside the grade named beside it: product tolerance
/// and residuals allowed for.
#[must_use]
pub fn outside_named_grade(member: &Member) -> Vec<Element> {
    let Steel::Certificate { composition, grade: Some(grade) } = &member.steel else { return Vec::new() };
    let by_limits = outside_grade(member);
    let is_outside = |element: &Element| {
        let limits = grade.composition.get(element);
        let percent = composition.get(*element);
        let too_much = match limits {
            // The limits of the main elements have tolerances of their own.
            Some(limits) => {
                FINE.contains(element) && limits.max.is_some_and(|_| !fits(Some(limits), *element, percent))
            }
            None => !fits(None, *element, percent),
        };
        let lean = limits.is_some_and(|limits| too_lean(limits, *element, percent));
        by_limits.contains(element) || too_much || lean
    };
    Element::ALL.iter().copied().filter(is_outside).collect()
}

/// Does so much of an element fit the limits of a grade?
fn fits(limits: Option<&Limits>, element: Element, percent: f64) -> bool {
    let Some(limits) = limits else {
        let most = RESIDUAL.iter().find(|(known, _)| *known == element).map_or(TRACE, |(_, most)| *most);
        return percent <= most;
    };
    let slack = |limit: f64| {
        let (share, least) = TOLERANCE;
        let own = share * limit;
        if FINE.contains(&element) { own } else { own.max(least) }
    };
    !too_lean(limits, element, percent)
        && limits
            .max
            .map_or(element != Element::Si || percent <= MOST_SILICON, |max| percent <= max + slack(max))
        && limits.min.is_none_or(|min| percent >= min - slack(min))
}

fn too_lean(limits: &Limits, element: Element, percent: f64) -> bool {
    let (None, Some(max)) = (limits.min, limits.max) else { return false };
    LEAN.iter().any(|(known, from, share)| *known == element && max >= *from && percent < share * max)
}

/// Does a grade take the composition only by caps far above what its steel usually has? A grade that
/// caps all alloying and asks for none would else excuse almost any slip.
fn is_cap_only(grade: &Grade, composition: &Composition) -> bool {
    const ALLOYING: [Element; 3] = [Element::Cr, Element::Mo, Element::Ni];
    let asks_for = |element: &Element| {
        let least = grade.composition.get(element).and_then(|limits| limits.min);
        least.is_some_and(|least| !fits(None, *element, least))
    };
    !ALLOYING.iter().any(asks_for)
        && ALLOYING.into_iter().any(|element| {
            let percent = composition.get(element);
            let limits = grade.composition.get(&element);
            let cap = limits.filter(|limits| limits.min.is_none()).and_then(|limits| limits.max);
            // A cap hardly above what comes with the scrap excuses hardly more than that.
            let wide = |cap: f64| !fits(None, element, cap / RESIDUAL_CAP);
            cap.is_some_and(|cap| wide(cap) && percent > 0.5 * cap) && !fits(None, element, percent)
        })
}

/// The elements of a composition that don't fit a grade; more than two are not told apart.
fn misfits(grade: &Grade, composition: &Composition) -> Vec<Element> {
    let wrong =
        |element: &Element| !fits(grade.composition.get(element), *element, composition.get(*element));
    Element::ALL.iter().copied().filter(wrong).take(3).collect()
}

/// A certificate's figures without a grade beside them: `None` where they fit a grade, or are not
/// one slip away from one.
#[must_use]
pub fn slip(reference: &Reference, composition: &Composition) -> Option<Slip> {
    let (mut decimal, mut turned) = (None, None);
    let mut capped = false;
    for grade in reference.grades.iter() {
        match misfits(grade, composition).as_slice() {
            [] if !is_cap_only(grade, composition) => return None,
            [] => capped = true,
            [element] => {
                decimal = decimal.or_else(|| moved(grade, composition, *element));
                let others = Element::ALL.iter().copied().filter(|other| other != element);
                turned = turned.or_else(|| {
                    others.into_iter().find_map(|other| exchanged(grade, composition, [*element, other]))
                });
            }
            [one, other] => turned = turned.or_else(|| exchanged(grade, composition, [*one, *other])),
            _ => {}
        }
    }
    // What a grade takes by its caps may be two figures exchanged, and far more often is not.
    decimal.or(turned.filter(|_| !capped))
}

/// The composition with the decimal mark of one element moved, where that fits the grade.
///
/// But for carbon only a figure that is ten times too low is asked about: one that is too high makes the plan
/// hotter and no less safe, and steels of which this dataset has no row have such figures (nickel
/// steels for the cold, weathering steels, creep-resisting steels with vanadium). What no steel has
/// is asked about by the reader.
fn moved(grade: &Grade, composition: &Composition, element: Element) -> Option<Slip> {
    let percent = composition.get(element);
    let limits = grade.composition.get(&element);
    let by: &[f64] = if element == Element::C { &[0.1, 10.0, 0.01, 100.0] } else { &[10.0, 100.0] };
    let mut moved = by.iter().map(|by| (percent * by * 1e6).round() / 1e6);
    let likely = moved.find(|moved| percent > 0.0 && fits(limits, element, *moved))?;
    Some(Slip::Decimal { element, percent, likely, grade: grade.designation.clone() })
}

/// The composition with two figures exchanged, where that fits the grade.
fn exchanged(grade: &Grade, composition: &Composition, elements: [Element; 2]) -> Option<Slip> {
    let [first, second] = elements.map(|element| composition.get(element));
    let turned = composition.with(elements[0], second).with(elements[1], first);
    let fits = first > 0.0 && second > 0.0 && misfits(grade, &turned).is_empty();
    fits.then(|| Slip::Exchanged { elements, grade: grade.designation.clone() })
}
