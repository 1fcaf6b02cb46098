//! A slip in a certificate is asked about, by the reader or above the figure; a certificate that is
//! possible is read.

use crate::typed_job::{job, small};
use strawblue::engine::certificate::slip;
use strawblue::engine::plan::{Plan, plan};
use strawblue::job::{Fault, Reading, read_job};
use strawblue::reference::{Composition, Element, Grade, embedded};
use strawblue::report::{Pen, Report};
use strawblue::units::{Show, Units};
use strawblue::words::Words;

fn alone(certificate: &str) -> Result<(), Vec<Fault>> {
    let found = small(&[("steel", ""), ("certificate", certificate)]);
    found.map(|_| ()).map_err(|found| found.into_iter().map(|found| found.fault).collect())
}

/// Common practice, no source.
#[test]
fn a_figure_that_no_steel_has_is_asked_about() {
    for (certificate, element, likely) in [
        ("C 4.1 Si .25 Mn .85 Cr 1 Mo .2", Element::C, Some(0.41)),
        ("C 0 Si .25 Mn .85", Element::C, None),
        ("C .41 Si .25 Mn 7.5", Element::Mn, Some(0.75)),
        ("C .41 Si .25 Mn .85 P .5", Element::P, Some(0.05)),
        ("C .41 Si .25 Mn .85 S .5", Element::S, Some(0.05)),
        ("C .2 Si .25 Mn 1.2 B .5", Element::B, Some(0.005)),
        ("C .2 Si .25 Mn 1.2 V 5", Element::V, Some(0.5)),
        ("C .41 Si .25 Mn .85 Cr 1 Mo 2", Element::Mo, Some(0.2)),
        ("C .41 Si .25 Mn .75 Cr .8 Mo .25 Ni 18", Element::Ni, Some(1.8)),
        ("C .41 Si 2.5 Mn .85", Element::Si, Some(0.25)),
    ] {
        let found = alone(certificate).expect_err(certificate);
        let [Fault::Improbable(slip)] = found.as_slice() else { panic!("{certificate}: {found:?}") };
        assert_eq!((slip.element, slip.likely), (element, likely.or(slip.likely)), "{certificate}");
    }
    let found = small(&[("certificate", "C 4.1 Si .25 Mn .85")]).expect_err("asked");
    let said = found[0].say(&Words::english()).replace('\u{a0}', " ");
    assert!(said.contains("C 4.1 %") && said.contains("0.41 %?"), "{said}");
}

/// Iron, manganese steel, free-cutting, tool, stainless, maraging, nitriding and spring steel as
/// their standards print them (from memory).
#[test]
fn a_certificate_that_is_possible_is_read() {
    for certificate in [
        "C 3.4 Si 2.2 Mn .7 P .3 S .1",
        "C 2.5 Si 1.2 Mn .4",
        "C 2.8 Si .6 Mn .8 Cr 25",
        "C 3.6 Si 2.4 Mn .2 Mg .04",
        "C 1.15 Si .5 Mn 13",
        "C 1.2 Si .5 Mn 7 Mo 1",
        "C .08 Si .5 Mn 9 Cr 16 Ni 4",
        "C .5 Si .3 Mn 18 Cr 4",
        "C .09 Mn 1 P .08 S .33 Pb .3",
        "C 2.1 Si .3 Mn .3 Cr 12 W .7",
        "C 1.55 Si .3 Mn .3 Cr 12 Mo .8 V .9",
        "C .4 Si 1 Mn .4 Cr 5.2 Mo 1.3 V 1",
        "C 1.3 Si .3 Mn .3 Cr 4 Mo 4.5 W 5.5 V 4",
        "C .02 Si .05 Mn .05 Ni 18 Co 9 Mo 5 Ti .7 Al .1",
        "C .05 Mn 1.5 Cr 17 Ni 9 Ti .5",
        "C .05 Mn .7 Cr 16 Ni 4 Cu 3.5 Nb .3",
        "C .41 Mn .5 Cr 1.6 Mo .3 Al 1.1",
        "C .6 Si 2 Mn .85",
        "C .45 Si 3.2 Mn .4 Cr 9",
        "C .1 Mn .6 Ni 9",
        "C .1 Mn .4 Cr 9 Mo 1 V .2 Nb .08 N .05",
        "C .003 Si .01 Mn .15",
        "C .3 Mn 1 Ti .6 B .003",
    ] {
        assert_eq!(alone(certificate), Ok(()), "{certificate}");
    }
    for grade in &embedded().grades {
        for end in [0, 1, 2] {
            let of = |element: &Element| {
                let limits = grade.composition[element];
                let least = limits.min.or(limits.max.map(|max| 0.5 * max));
                [least, Some(grade.nominal().get(*element)), limits.max.or(limits.min)][end]
            };
            let mut made = Composition::default();
            for element in grade.composition.keys() {
                made.set(*element, of(element).unwrap_or(0.0));
            }
            let found = small(&[("steel", &grade.designation), ("certificate", &typed(&made))]);
            assert!(found.is_ok(), "{} {}: {found:?}", grade.id, typed(&made));
            if [Element::C, Element::Mn].iter().all(|element| made.get(*element) > 0.0) {
                assert_eq!(alone(&typed(&made)), Ok(()), "{} {}", grade.id, typed(&made));
            }
        }
    }
}

#[test]
fn a_certificate_outside_its_grade_is_named_element_by_element() {
    let lines = |certificate: &str| {
        let (_, lines) = planned(Some("SAE 4140"), certificate).expect("reads");
        lines.into_iter().filter(|line| line.starts_with("The certificate")).collect::<Vec<_>>()
    };
    let inside = "C .40 Si .25 Mn .85 P .01 S .01 Cr .95 Mo .20";
    assert!(lines(inside).is_empty());
    // Product tolerance (common practice) and what comes with the scrap.
    assert!(lines("C .44 Si .25 Mn 1.03 P .01 S .01 Cr .95 Mo .20 Ni .2 Cu .2").is_empty());
    let said = lines("C .30 Si .25 Mn 1.4 P .01 S .01 Cr .95 Mo .20");
    assert_eq!(said.len(), 1);
    assert!(
        said[0].contains("SAE 4140") && said[0].contains("in C and Mn. The plan uses the certificate"),
        "{said:?}"
    );
    // An element that the grade does not have at all.
    assert!(lines("C .40 Si .25 Mn .85 Cr .95 Mo .20 Ni 3")[0].contains("in Ni."));
    assert!(lines("C .40 Si .25 Mn .85 Cr .95 Mo .20 S .2")[0].contains("in S."));
}

/// A certificate as it is typed.
fn typed(composition: &Composition) -> String {
    let stated = Element::ALL.iter().copied().filter(|element| composition.get(*element) > 0.0);
    let pairs = stated
        .map(|element| format!("{} {}", element.symbol(), (composition.get(element) * 1e6).round() / 1e6));
    pairs.collect::<Vec<_>>().join(" ")
}

/// The plan of a butt weld in 40 mm, with the lines above its figure; `None` where the reader asks.
fn planned(steel: Option<&str>, certificate: &str) -> Option<(Plan, Vec<String>)> {
    let text = job(&[
        ("steel", steel.unwrap_or_default()),
        ("certificate", certificate),
        ("thickness", "40 mm"),
        ("joint", "butt"),
        ("process", "gmaw"),
        ("hydrogen", "5 ml"),
        ("heat-input", "1.2 kJ/mm"),
        ("restraint", "medium"),
    ]);
    let reading = Reading {
        reference: embedded(),
        own_steels: &[],
        units: Units::C_MM,
        mark: strawblue::units::Mark::Point,
    };
    let job = read_job(&text, &reading).ok()?.job;
    let made = plan(embedded(), &job);
    let words = Words::english();
    let pen = Pen { reference: embedded(), words: &words, show: Show::default() };
    let lines = Report::of(&pen, &job, &made).answer.lines;
    Some((made, lines))
}

/// Every way in which one slip changes a certificate: a decimal mark moved, two figures exchanged.
/// A figure left out is the next test's.
fn slips(of: &Composition) -> Vec<Composition> {
    let stated: Vec<Element> =
        Element::ALL.iter().copied().filter(|element| of.get(*element) > 0.0).collect();
    let mut made = Vec::new();
    for (nth, element) in stated.iter().enumerate() {
        made.extend([0.1, 10.0, 100.0].map(|by| of.with(*element, of.get(*element) * by)));
        for other in &stated[nth + 1..] {
            made.push(of.with(*element, of.get(*other)).with(*other, of.get(*element)));
        }
    }
    made
}

/// What comes with the scrap of elements that a grade does not name, % (common practice).
fn most_of_scrap(element: Element) -> f64 {
    match element {
        Element::Cr => 0.3,
        Element::Ni => 0.4,
        Element::Mo => 0.1,
        Element::V => 0.05,
        _ => 0.6,
    }
}

/// Is it, in what makes a steel harden, a certificate that a grade of the dataset may really have?
/// Then nothing in it can show that it is another steel's. Carbon of less than an eighth of the
/// upper limit is none of it.
fn is_possible(grade: &Grade, of: &Composition) -> bool {
    [Element::C, Element::Mn, Element::Cr, Element::Mo, Element::Ni, Element::V].into_iter().all(|element| {
        let percent = of.get(element);
        let Some(limits) = grade.composition.get(&element) else { return percent <= most_of_scrap(element) };
        let most = limits.max.unwrap_or(f64::INFINITY);
        let lean = element == Element::C && limits.min.is_none() && most >= 0.12 && percent < most / 8.0;
        !lean && percent <= 1.06 * most + 0.03 && percent >= 0.94 * limits.min.unwrap_or(0.0) - 0.03
    })
}

/// Does the grade cap an alloying element of which there is much, and ask for none of it?
fn takes_by_caps(grade: &Grade, of: &Composition) -> bool {
    [Element::Cr, Element::Mo, Element::Ni].into_iter().any(|element| {
        let percent = of.get(element);
        let limits = grade.composition.get(&element);
        let cap = limits.and_then(|limits| if limits.min.is_none() { limits.max } else { None });
        cap.is_some_and(|cap| percent > cap / 2.0) && percent > most_of_scrap(element)
    })
}

/// Is it a line above the figure that asks about the certificate?
fn is_of_certificate(line: &str) -> bool {
    line.starts_with("The certificate is outside")
        || line.contains("ertificate") && line.contains("grade here")
}

/// Does a line above the figure ask about the certificate, or which steel it is?
fn asks(line: &str) -> bool {
    is_of_certificate(line) || line.contains("tool steel") || line.contains("kind of stainless")
}

/// A certificate right in the middle of a grade, or at a mill's usual figures, is not asked about.
#[test]
fn a_right_certificate_is_not_asked_about() {
    for grade in &embedded().grades {
        for named in [Some(grade.designation.as_str()), None] {
            let (_, lines) = planned(named, &typed(&grade.nominal())).expect("reads");
            let asked = lines.iter().find(|line| is_of_certificate(line));
            assert_eq!(asked, None, "{} {named:?}", grade.id);
        }
    }
    // Invented, at what mills usually pour (common practice): mild steel, S355, S690, a shaft.
    for certificate in [
        "C .08 Si .02 Mn .45 P .012 S .008 Al .04",
        "C .15 Si .2 Mn .6 P .015 S .01 Cr .05 Ni .04 Cu .12",
        "C .16 Si .35 Mn 1.45 P .015 S .005 Cr .04 Ni .03 Cu .03 Nb .02 Al .035 V .003",
        "C .16 Si .3 Mn 1.3 P .01 S .001 Cr .3 Mo .2 Ni .06 Nb .02 B .0018 Al .06",
        "C .42 Si .24 Mn .82 P .011 S .022 Cr 1.04 Mo .19 Ni .13 Cu .2 Al .02",
        "C .34 Si .25 Mn .75 Cr 1.05 Mo .2",
    ] {
        let (_, lines) = planned(None, certificate).expect("reads");
        let asked = lines.iter().find(|line| is_of_certificate(line));
        assert_eq!(asked, None, "{certificate}");
    }
}

/// A right certificate of any grade raises no alarm, wherever in its grade it lies: its least, its
/// middle and its most of every element, and the mixes of the three for the elements that matter.
#[test]
fn no_right_certificate_of_a_grade_raises_an_alarm() {
    let mut alarms = Vec::new();
    let mut tried = 0;
    for grade in &embedded().grades {
        let end = |element: Element, which: usize| {
            let limits = grade.composition[&element];
            // A mill pours some third of what is only capped.
            let least = limits.min.or(limits.max.map(|max| max / 3.0));
            [least, Some(grade.nominal().get(element)), limits.max.or(limits.min)][which].unwrap_or(0.0)
        };
        // All at one end, and each element at either end with the rest in the middle.
        let mut made: Vec<Composition> = (0..3)
            .map(|which| {
                grade
                    .composition
                    .keys()
                    .fold(Composition::default(), |of, element| of.with(*element, end(*element, which)))
            })
            .collect();
        for element in grade.composition.keys() {
            made.extend([0, 2].map(|which| made[1].with(*element, end(*element, which))));
        }
        for of in made {
            tried += 1;
            if let Some(slip) = slip(embedded(), &of) {
                alarms.push(format!("{}: {slip:?} of {}", grade.id, typed(&of)));
            }
        }
    }
    assert!(tried > 3_000, "{tried}");
    // Steels without a row here, as their standards print them (from memory).
    for certificate in [
        "C .16 Si .3 Mn 1.1 Cr .6 Mo .5 Ni 1.2 V .03 B .002",
        "C .17 Si .2 Mn 1.3 P .01 S .002 Cr .5 Mo .5 Ni 1.2 V .04 Nb .02 Cu .05",
        "C .18 Si .4 Mn 1.2 P .012 S .003 Cr .6 Mo .5 Ni 1.8 V .05 B .003",
        "C .09 Si .45 Mn .35 P .09 S .01 Cr .7 Ni .25 Cu .35",
        "C .09 Si .4 Mn .35 P .12 S .01 Cr .8 Ni .3 Cu .4",
        "C .06 Si .25 Mn .6 P .005 S .002 Ni 9.1",
        "C .1 Si .2 Mn .5 P .005 S .002 Ni 5",
        "C .12 Si .06 Mn .5 P .006 S .003 Cr 2.4 Mo 1.0 V .3",
        "C .19 Si .25 Mn 1.4 P .006 S .003 Mo .5 Ni .6",
        "C .18 Si .2 Mn 1.35 P .01 S .005 Mo .5 Ni .9",
    ] {
        let of = read_certificate(certificate);
        if let Some(slip) = slip(embedded(), &of) {
            alarms.push(format!("{certificate}: {slip:?}"));
        }
    }
    assert!(alarms.is_empty(), "{} alarms of {tried}:\n{}", alarms.len(), alarms.join("\n"));
}

fn read_certificate(typed: &str) -> Composition {
    let words: Vec<&str> = typed.split(' ').collect();
    words.chunks(2).fold(Composition::default(), |of, pair| {
        let element = Element::ALL.iter().find(|element| element.symbol() == pair[0]).expect("an element");
        of.with(*element, pair[1].parse().expect("a figure"))
    })
}

/// A minimum is shown to such steps, K.
const STEP_K: f64 = 5.0;

/// Whatever one slip does to the certificate of a grade, it is not answered in silence: the reader
/// asks; or a line above the figure asks about the certificate, or which steel it is; or the plan
/// has no figure; or its minimum is no lower; or the certificate is one that its own grade, or
/// where none is named another one, may really have, so that a lower minimum is what its composition explains.
#[test]
fn no_slip_is_answered_in_silence() {
    let reference = embedded();
    let (mut silent, mut counts) = (Vec::new(), [0_usize; 4]);
    let grades: Vec<&Grade> = reference.grades.iter().step_by(10).collect();
    assert!(grades.len() >= 20);
    for grade in grades {
        for named in [Some(grade.designation.as_str()), None] {
            let right = grade.nominal();
            let Some((untouched, before)) = planned(named, &typed(&right)) else {
                panic!("{} by its own middle: {}", grade.id, typed(&right))
            };
            // What asks of every certificate asks nothing: the middle one is not asked about.
            let of_certificate = before.iter().find(|line| is_of_certificate(line));
            assert_eq!(of_certificate, None, "{} {named:?} {}", grade.id, typed(&right));
            for slip in slips(&right) {
                let Some((plan, lines)) = planned(named, &typed(&slip)) else {
                    counts[0] += 1;
                    continue;
                };
                let lower = match (plan.minimum_c, untouched.minimum_c) {
                    // One step of the rounding is no lower minimum: a hair makes it.
                    (Some(now_c), Some(before_c)) => now_c < before_c - STEP_K - 0.5,
                    (now, before) => now.is_some() && before.is_none(),
                };
                let possible = match named {
                    Some(_) => is_possible(grade, &slip),
                    None => {
                        let close =
                            |grade: &&Grade| is_possible(grade, &slip) && !takes_by_caps(grade, &slip);
                        is_possible(grade, &slip) || reference.grades.iter().any(|grade| close(&grade))
                    }
                };
                if lines.iter().any(|line| asks(line)) {
                    counts[1] += 1;
                } else if !lower {
                    counts[2] += 1;
                } else if possible {
                    counts[3] += 1;
                } else {
                    silent.push(format!(
                        "{} {}: {:?}, not {:?}",
                        named.map_or_else(|| format!("{} not named", grade.id), str::to_owned),
                        typed(&slip),
                        plan.minimum_c,
                        untouched.minimum_c
                    ));
                }
            }
        }
    }
    let [by_reader, above, safe, possible] = counts;
    println!(
        "asked by the reader {by_reader}, above the figure {above}; no lower {safe}; possible {possible}"
    );
    assert!(by_reader > 250 && above > 500, "{counts:?}");
    assert!(silent.is_empty(), "{} in silence of {counts:?}:\n{}", silent.len(), silent.join("\n"));
}

/// A figure left out counts at the grade's maximum; without a grade it counts as none, which is
/// said, and carbon and manganese are asked for.
#[test]
fn a_figure_left_out_is_said_or_counts_at_its_maximum() {
    for grade in embedded().grades.iter().step_by(5) {
        let right = grade.nominal();
        let with_all = planned(Some(&grade.designation), &typed(&right)).expect("reads").0;
        for element in grade.composition.keys().filter(|element| right.get(**element) > 0.0) {
            let certificate = typed(&right.with(*element, 0.0));
            if certificate.is_empty() {
                continue;
            }
            let without = planned(Some(&grade.designation), &certificate);
            if let Some((without, _)) = without {
                let (all, less) = (with_all.minimum_c.unwrap_or(0.0), without.minimum_c);
                assert!(less.is_none_or(|less| less >= all - 0.5), "{} without {element:?}", grade.id);
            }
            let alone = small(&[("steel", ""), ("certificate", &certificate)]);
            let told = match &alone {
                Err(_) => true,
                Ok(read) => {
                    !strawblue::job::LOOKED_FOR.contains(element)
                        || read.defaulted.iter().any(|said| {
                            matches!(&said.value, strawblue::job::DefaultValue::NotStated(all) if all.contains(element))
                        })
                }
            };
            assert!(told, "{} without {element:?}: {certificate}", grade.id);
        }
    }
}
