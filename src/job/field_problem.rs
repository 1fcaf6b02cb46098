//! What is wrong with a field of a job, and what was put where nothing was typed.

use super::typed::Improbable;
use super::{Field, Slot, ToldSteel};
use crate::engine::job::{Process, Restraint};
use crate::engine::weld::unfit::UnfitMetal;
use crate::reference::{Element, embedded};
use crate::units::{Accepts, HardnessScale, Problem, Show, limits};
use crate::words::{List, Words};

/// Why a field could not be used.
#[derive(Debug, Clone, PartialEq)]
pub enum Fault {
    /// What is typed in it is a problem by itself.
    Typed(Problem),
    /// It must be stated and is not.
    Missing,
    /// No steel is called exactly that; these are near it.
    UnknownSteel {
        /// As typed.
        typed: String,
        /// Designations near it.
        near: Vec<String>,
    },
    /// It is a number that several steels bear; their figures differ.
    SeveralSteels {
        /// As typed.
        typed: String,
        /// Each steel, with what it has otherwise than the others.
        steels: Vec<ToldSteel>,
    },
    /// No filler is called exactly that; these are near it.
    UnknownFiller {
        /// As typed.
        typed: String,
        /// Classifications near it.
        near: Vec<String>,
    },
    /// It says the same thing as another field that is stated too.
    Conflict {
        /// The other field.
        with: Slot,
    },
    /// It says something else than another field that is stated too.
    Contradicts {
        /// The other field.
        with: Slot,
    },
    /// The process gives more hydrogen than is typed.
    LittleHydrogen {
        /// The process.
        process: Process,
        /// The least that it gives, ml/100 g.
        least_ml: f64,
    },
    /// Travel speed and a timed run both say how fast the arc travelled.
    TravelTwice,
    /// The travel speed that follows from a timed run is outside what is taken, mm/min.
    TimedTravel {
        /// What follows.
        mm_per_min: f64,
    },
    /// It holds a list, which is neither one figure for all processes nor one for each.
    Count {
        /// How many are typed.
        typed: usize,
        /// How many processes there are.
        processes: usize,
    },
    /// A joint has two parts, and this is one more.
    ThirdPart,
    /// The net heat input that follows from it is outside what is taken, kJ/mm.
    NetHeat {
        /// What follows.
        net_kj_per_mm: f64,
    },
    /// A certificate without a grade must state carbon and manganese.
    NeedsCarbonAndManganese,
    /// No steel has so much, or so little, of an element.
    Improbable(Improbable),
    /// The filler is not made for the process.
    FillerOfOtherProcess {
        /// Its classification.
        filler: String,
        /// The process of the run.
        process: Process,
        /// The processes that it is made for.
        fits: Vec<Process>,
    },
    /// A filler of unalloyed or low-alloy steel on stainless steel.
    FillerOnStainless {
        /// Its classification.
        filler: String,
        /// The steel's designation; `None` where it is known by its certificate.
        steel: Option<String>,
        /// Fillers for it.
        fits: Vec<String>,
    },
    /// A filler of unalloyed or low-alloy steel on a metal that it makes brittle.
    FillerUnfit {
        /// The metal.
        metal: UnfitMetal,
        /// Its classification.
        filler: String,
        /// The designation of the metal; `None` where it is known by its certificate.
        steel: Option<String>,
        /// Fillers for it.
        fits: Vec<String>,
    },
    /// The hardness lies outside the conversion table to HV.
    NoConversion {
        /// The figure.
        value: f64,
        /// Its scale.
        scale: HardnessScale,
    },
}

/// A field that could not be used.
#[derive(Debug, Clone, PartialEq)]
pub struct FieldProblem {
    /// The field, with its part or run.
    pub slot: Slot,
    /// Why.
    pub fault: Fault,
}

impl FieldProblem {
    /// The problem in one plain line, without the field's name.
    #[must_use]
    pub fn say(&self, words: &Words) -> String {
        let accepts = words.get(self.slot.field.accepts().key());
        let show = Show::new(crate::units::Units::default(), words);
        let beside = |key: &str, other: Slot| {
            let values = [("other", other.name(words)), ("id", other.id().into_owned())];
            let [other, id] = values.each_ref().map(|(key, value)| (*key, value.as_str()));
            words.with(key, &[other, id, ("accepts", &accepts)])
        };
        match &self.fault {
            Fault::Typed(problem) => problem.say(words),
            Fault::Missing => match self.slot.field {
                Field::Travel => words.with("job-missing-travel", &[("accepts", &accepts)]),
                Field::ArcTime => beside("job-missing-beside", Field::RunLength.nth(self.slot.nth)),
                Field::RunLength => beside("job-missing-beside", Field::ArcTime.nth(self.slot.nth)),
                _ => words.with("job-missing", &[("accepts", &accepts)]),
            },
            Fault::TravelTwice => words.get("job-travel-twice"),
            Fault::TimedTravel { mm_per_min } => {
                // So slow a run would be shown as none at all.
                let limit = |value: f64| match value {
                    value if value < 1.0 => show.with_unit(value, 3, "mm/min"),
                    value => show.travel(value).main,
                };
                let taken = limits::TRAVEL_MM_PER_MIN;
                let (low, high) = (limit(taken.low), limit(taken.high));
                let values = [("value", limit(*mm_per_min)), ("low", low), ("high", high)];
                words.with("job-timed-travel", &values.each_ref().map(|(key, value)| (*key, value.as_str())))
            }
            Fault::UnknownSteel { typed, near } => say_unknown_steel(typed, near, words),
            Fault::UnknownFiller { typed, near } => {
                let typed = crate::units::shortened(typed);
                let key = if near.is_empty() { "job-unknown-filler-none" } else { "job-unknown-filler" };
                let near = words.list(List::Comma, near);
                words.with(key, &[("typed", &typed), ("near", &near), ("accepts", &accepts)])
            }
            Fault::Conflict { with } => beside("job-conflict", *with),
            Fault::Contradicts { with } => beside("job-contradicts", *with),
            Fault::ThirdPart => words.get("job-third-part"),
            Fault::LittleHydrogen { process, least_ml } => {
                let name = words.get(&format!("process-{}", process.id()));
                words.with("job-little-hydrogen", &[("process", &name), ("value", &show.hydrogen(*least_ml))])
            }
            Fault::SeveralSteels { typed, steels } => say_several_steels(typed, steels, words),
            Fault::Count { typed, processes } => {
                words.numbers("job-count", &[("typed", *typed), ("processes", *processes)], &[])
            }
            Fault::NetHeat { net_kj_per_mm } => {
                words.with("job-net-heat", &[("value", &show.heat(*net_kj_per_mm).main)])
            }
            Fault::NeedsCarbonAndManganese => words.get("job-needs-carbon-manganese"),
            Fault::Improbable(slip) => slip.say(words),
            Fault::FillerOfOtherProcess { filler, process, fits } => {
                let name = |process: &Process| words.get(&format!("process-{}", process.id()));
                let fits: Vec<String> = fits.iter().map(name).collect();
                let (process, fits) = (name(process), words.list(List::Semicolon, &fits));
                let values = [("filler", filler.as_str()), ("process", &process), ("fits", &fits)];
                words.with("job-filler-of-other-process", &values)
            }
            Fault::FillerOnStainless { filler, steel, fits } => {
                let steel = steel.clone().unwrap_or_else(|| words.get("steel-by-certificate"));
                let fits = words.list(List::Comma, fits);
                let values = [("filler", filler.as_str()), ("steel", &steel), ("fits", &fits)];
                words.with("job-filler-on-stainless", &values)
            }
            Fault::FillerUnfit { metal, filler, steel, fits } => {
                let steel = steel.clone().unwrap_or_else(|| words.get("steel-by-certificate"));
                let fits = words.list(List::Comma, fits);
                let key = match metal {
                    UnfitMetal::Iron => "job-filler-on-iron",
                    UnfitMetal::Manganese => "job-filler-on-manganese",
                };
                words.with(key, &[("filler", filler.as_str()), ("steel", &steel), ("fits", &fits)])
            }
            Fault::NoConversion { value, scale } => {
                words.with("job-no-conversion", &[("value", &show.with_unit(*value, 0, scale.symbol()))])
            }
        }
    }
}

/// A name that no steel bears, with what is near it, or else what would be accepted; and what there
/// is to say of it where it is a word of the shop: that it is no steel, or one without a chemistry.
pub(super) fn say_unknown_steel(typed: &str, near: &[String], words: &Words) -> String {
    let notes = embedded().search(typed).notes;
    let accepts = words.get(Accepts::Steel.key());
    let key = match (near.is_empty(), notes.is_empty()) {
        (true, true) => "job-unknown-steel-none",
        (true, false) => "job-unknown-steel-word",
        (false, _) => "job-unknown-steel",
    };
    let (typed, near) = (crate::units::shortened(typed), words.list(List::Comma, near));
    let line = words.with(key, &[("typed", &typed), ("near", &near), ("accepts", &accepts)]);
    let said = notes.iter().map(|note| words.get(note));
    words.list(List::Sentences, &std::iter::once(line).chain(said).collect::<Vec<_>>())
}

/// A number that several steels bear, and what tells them apart, in one plain line.
pub(super) fn say_several_steels(typed: &str, steels: &[ToldSteel], words: &Words) -> String {
    let typed = crate::units::shortened(typed);
    let told = steels.iter().map(|steel| {
        let mark = words.decimal_mark().to_string();
        let shares: Vec<String> = steel.shares.iter().map(|share| share.replace('.', &mark)).collect();
        let shares = words.list(List::Comma, &shares);
        let values = [("steel", &*steel.designation), ("shares", &*shares)];
        if shares.is_empty() { steel.designation.clone() } else { words.with("job-steel-told", &values) }
    });
    let told = words.list(List::Semicolon, &told.collect::<Vec<_>>());
    words.count("job-several-steels", steels.len(), &[("typed", &typed), ("steels", &told)])
}

/// What was put where nothing was typed.
#[derive(Debug, Clone, PartialEq)]
pub enum DefaultValue {
    /// The condition counts as not known.
    UnknownCondition,
    /// The restraint that the joint has.
    Restraint(Restraint),
    /// "None" is typed as the restraint.
    RestraintNone,
    /// A leg is typed for a joint that has no fillet.
    LegNotUsed,
    /// A groove is that of a butt weld, and this joint is none.
    GrooveNotUsed,
    /// The usual angle of such a groove, °.
    GrooveAngle(f64),
    /// The usual gap at a root, mm.
    RootGap(f64),
    /// The usual root face, mm.
    RootFace(f64),
    /// A depth is typed for a joint with a fillet.
    DepthNotUsed,
    /// The steel is typed by a number that is another name of its grade.
    TakenFor {
        /// As typed.
        typed: String,
        /// The grade's designation.
        grade: String,
    },
    /// The upper typical hydrogen of a process, ml/100 g.
    Hydrogen {
        /// The process.
        process: Process,
        /// The figure.
        ml: f64,
    },
    /// An open class of hydrogen counts as this much, ml/100 g.
    OpenHydrogen {
        /// The process.
        process: Process,
        /// The figure.
        ml: f64,
    },
    /// Net heat input, kJ/mm.
    NetHeat(f64),
    /// The travel speed of a timed run, mm/min.
    TimedTravel(f64),
    /// Shop temperature, °C.
    Shop(f64),
    /// The weld counts as one of several runs.
    SeveralRuns,
    /// The second part is as the first.
    SamePart,
    /// The steel of the second part is that of the first.
    SameSteel,
    /// The part is a round by its joint.
    Round,
    /// Elements that the certificate does not state count as none.
    NotStated(Vec<Element>),
    /// Elements that the certificate does not state are put at the grade's maximum.
    GradeMaximum(Vec<Element>),
}

/// A field that was not typed, and what counts in its place.
#[derive(Debug, Clone, PartialEq)]
pub struct Defaulted {
    /// The field, with its part or run.
    pub slot: Slot,
    /// What counts.
    pub value: DefaultValue,
}

impl Defaulted {
    /// What counts, in one plain line.
    #[must_use]
    pub fn say(&self, words: &Words, show: &Show) -> String {
        let symbols = |elements: &[Element]| {
            let symbols: Vec<&str> = elements.iter().map(|element| element.symbol()).collect();
            words.list(List::Comma, &symbols)
        };
        let hydrogen = |key: &str, process: Process, ml: f64| {
            let name = words.get(&format!("process-{}", process.id()));
            words.with(key, &[("process", &name), ("value", &show.hydrogen(ml))])
        };
        match &self.value {
            DefaultValue::UnknownCondition => words.get("default-condition"),
            DefaultValue::Restraint(Restraint::Low) => words.get("default-restraint-low"),
            DefaultValue::Restraint(Restraint::Medium) => words.get("default-restraint-medium"),
            DefaultValue::Restraint(Restraint::High) => words.get("default-restraint-high"),
            DefaultValue::RestraintNone => words.get("default-restraint-none"),
            DefaultValue::LegNotUsed => words.get("default-leg-not-used"),
            DefaultValue::GrooveNotUsed => words.get("default-groove-not-used"),
            DefaultValue::GrooveAngle(degrees) => {
                words.with("default-groove-angle", &[("value", &show.with_unit(*degrees, 0, "°"))])
            }
            DefaultValue::RootGap(mm) => words.with("default-root-gap", &[("value", &show.size(*mm).main)]),
            DefaultValue::RootFace(mm) => words.with("default-root-face", &[("value", &show.size(*mm).main)]),
            DefaultValue::DepthNotUsed => words.get("default-depth-not-used"),
            DefaultValue::TakenFor { typed, grade } => {
                let typed = crate::units::shortened(typed);
                words.with("default-taken-for", &[("typed", &typed), ("grade", grade)])
            }
            DefaultValue::Hydrogen { process: process @ Process::SmawBasic, ml } => {
                hydrogen("default-hydrogen-basic", *process, *ml)
            }
            DefaultValue::Hydrogen { process, ml } => hydrogen("default-hydrogen", *process, *ml),
            DefaultValue::OpenHydrogen { process, ml } => hydrogen("default-open-hydrogen", *process, *ml),
            DefaultValue::NetHeat(heat) => {
                words.with("default-net-heat", &[("value", &show.rule_heat(*heat).main)])
            }
            DefaultValue::TimedTravel(mm_per_min) => {
                words.with("default-timed-travel", &[("value", &show.travel(*mm_per_min).main)])
            }
            DefaultValue::Shop(shop_c) => {
                words.with("default-shop", &[("value", &show.temperature(*shop_c).main)])
            }
            DefaultValue::SeveralRuns => words.get("default-several-runs"),
            DefaultValue::SamePart => words.get("default-same-part"),
            DefaultValue::SameSteel => words.get("default-same-steel"),
            DefaultValue::Round => words.get("default-round"),
            DefaultValue::NotStated(elements) => {
                words.with("default-not-stated", &[("elements", &symbols(elements))])
            }
            DefaultValue::GradeMaximum(elements) => {
                words.with("default-grade-maximum", &[("elements", &symbols(elements))])
            }
        }
    }
}
