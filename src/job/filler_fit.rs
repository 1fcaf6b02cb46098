//! Does a filler fit the process that it is typed for, and the steel?

use super::field_problem::{Fault, UnfitMetal};
use super::read_job::Reader;
use super::steel::find_filler;
use super::typed;
use super::{Field, Of};
use crate::engine::job::{Member, Process, Run, Steel};
use crate::reference::{DepositKind, Element, Filler, FillerKind, GradeFamily, Reference};

/// Chromium from which a steel is stainless, %.
const STAINLESS_CHROMIUM: f64 = 10.5;
/// Carbon from which a steel with so much chromium is a tool steel, %.
const TOOL_CARBON: f64 = 0.5;
/// Chromium under which a ferritic filler is far from stainless, %: a filler of 5 or 9 % is laid
/// on stainless of 12 % (common practice, no source).
const LITTLE_CHROMIUM: f64 = 4.0;
/// So many fillers are named at most.
const NAMED: usize = 6;

/// Asks about each filler that is not made for its process, or not for the steel.
pub(super) fn fillers_fit(reader: &mut Reader<'_>, members: &[Member], runs: &[Run]) {
    let reference = reader.reference;
    let typed: Vec<Option<&Filler>> = (0..reader.count(Of::Run).max(1))
        .map(|nth| reader.typed(Field::Filler.nth(nth)))
        .map(|name| find_filler(name?, reference).ok())
        .collect();
    // One filler typed for all processes at once is that of one of them.
    let for_all = typed.len() > 1 && typed.windows(2).all(|pair| pair[0] == pair[1]);
    let somewhere = |filler: &Filler| runs.iter().any(|run| takes(filler, run.process, reference));
    for (nth, (filler, run)) in typed.iter().zip(runs).enumerate() {
        let Some(filler) = filler else { continue };
        let laid = takes(filler, run.process, reference) || for_all && somewhere(filler);
        if !laid {
            let fits =
                Process::ALL.iter().copied().filter(|process| takes(filler, *process, reference)).collect();
            let filler = filler.classification.clone();
            let fault = Fault::FillerOfOtherProcess { filler, process: run.process, fits };
            reader.fault(Field::Filler.nth(nth), fault);
        } else if let Some(member) = members.iter().find(|member| is_stainless(member) && !member.buttered)
            && is_far_from_stainless(filler)
        {
            let fault = Fault::FillerOnStainless {
                filler: filler.classification.clone(),
                steel: member.steel.grade().map(|grade| grade.designation.clone()),
                fits: for_stainless(reference, run.process),
            };
            reader.fault(Field::Filler.nth(nth), fault);
        } else if let Some((metal, member)) = members.iter().find_map(|member| unfit(member, filler)) {
            let fault = Fault::FillerUnfit {
                metal,
                filler: filler.classification.clone(),
                steel: member.steel.grade().map(|grade| grade.designation.clone()),
                fits: fitting(reference, metal),
            };
            reader.fault(Field::Filler.nth(nth), fault);
        }
    }
}

/// Carbon from which a metal is cast iron, %.
const IRON_CARBON: f64 = 2.0;
/// Manganese and carbon of austenitic manganese steel, %, at least.
const MANGANESE_STEEL: (f64, f64) = (10.0, 0.7);

/// The part, where a filler of steel that hardens makes its weld brittle: cast iron gives it carbon, and
/// manganese steel gives it the manganese of a martensite (common practice, no source). A buttering
/// keeps the filler off the part.
fn unfit<'a>(member: &'a Member, filler: &Filler) -> Option<(UnfitMetal, &'a Member)> {
    let hardens = matches!(filler.deposit, DepositKind::Ferritic | DepositKind::Martensitic);
    if !hardens || member.buttered {
        return None;
    }
    let metal = match (member.steel.grade().map(|grade| grade.family), &member.steel) {
        (Some(GradeFamily::GreyIron | GradeFamily::DuctileIron), _) => UnfitMetal::Iron,
        (Some(GradeFamily::AusteniticManganese), _) => UnfitMetal::Manganese,
        (_, Steel::Certificate { composition, .. } | Steel::Unmarked { composition, .. })
            if composition.get(Element::C) >= IRON_CARBON =>
        {
            UnfitMetal::Iron
        }
        (_, Steel::Certificate { composition, .. } | Steel::Unmarked { composition, .. })
            if composition.get(Element::Mn) >= MANGANESE_STEEL.0
                && composition.get(Element::C) >= MANGANESE_STEEL.1 =>
        {
            UnfitMetal::Manganese
        }
        _ => return None,
    };
    Some((metal, member))
}

/// Chromium and manganese from which an austenitic filler bears much dilution, % (common practice, no
/// source: 309, 312 and 18-8-Mn do).
const RICH: (f64, f64) = (22.0, 4.0);

fn is_rich(filler: &Filler) -> bool {
    filler.nominal().is_some_and(|made| made.get(Element::Cr) >= RICH.0 || made.get(Element::Mn) >= RICH.1)
}

/// Fillers for such a metal.
fn fitting(reference: &Reference, metal: UnfitMetal) -> Vec<String> {
    let fits = |filler: &&Filler| match metal {
        UnfitMetal::Iron => filler.deposit == DepositKind::CastIron,
        // The lean ones turn to martensite in the mixed zone, as steel does.
        UnfitMetal::Manganese => filler.deposit == DepositKind::Austenitic && is_rich(filler),
    };
    reference.fillers.iter().filter(fits).take(NAMED).map(|filler| filler.classification.clone()).collect()
}

/// Can the filler be laid by the process? Asked of ferritic and copper fillers that one buys: an
/// austenitic or nickel alloy is sold as electrode, wire and rod under much the same name, and a
/// strength symbol belongs to several of them.
fn takes(filler: &Filler, process: Process, reference: &Reference) -> bool {
    if filler.kind == FillerKind::StrengthSymbol || filler.tolerates_hydrogen() {
        return true;
    }
    let Some(row) = reference.process(process.id()) else { return true };
    let gas = match process {
        Process::Fcaw => filler.self_shielded != Some(true),
        Process::FcawSelf => filler.self_shielded != Some(false),
        _ => true,
    };
    let made_for = gas && row.lays.iter().any(|arc| filler.arcs.contains(arc));
    // The covering decides how much hydrogen there is.
    let own = typed::covering(&filler.classification, reference);
    made_for && (row.covering.is_empty() || own.is_none_or(|own| own == process))
}

fn is_stainless(member: &Member) -> bool {
    match member.steel.grade().map(|grade| grade.family) {
        Some(family) => matches!(
            family,
            GradeFamily::StainlessAustenitic
                | GradeFamily::StainlessFerritic
                | GradeFamily::StainlessDuplex
                | GradeFamily::StainlessMartensitic
        ),
        None => {
            let Some(composition) = member.steel.analysis() else { return false };
            composition.get(Element::Cr) >= STAINLESS_CHROMIUM && composition.get(Element::C) < TOOL_CARBON
        }
    }
}

/// Does the filler leave ferritic steel with next to no chromium?
fn is_far_from_stainless(filler: &Filler) -> bool {
    let limits = filler.composition.get(&Element::Cr);
    let chromium = limits.and_then(|limits| limits.max.or(limits.min)).unwrap_or(0.0);
    filler.deposit == DepositKind::Ferritic && chromium < LITTLE_CHROMIUM
}

/// Fillers for stainless steel, those of the process where there are any.
fn for_stainless(reference: &Reference, process: Process) -> Vec<String> {
    let arc = reference.process(process.id()).map(|row| row.arc);
    let all = || {
        let kinds = [DepositKind::Austenitic, DepositKind::Nickel];
        reference.fillers.iter().filter(move |filler| kinds.contains(&filler.deposit))
    };
    let own: Vec<&Filler> =
        all().filter(|filler| arc.is_some_and(|arc| filler.arcs.contains(&arc))).collect();
    let found = if own.is_empty() { all().collect() } else { own };
    found.into_iter().take(NAMED).map(|filler| filler.classification.clone()).collect()
}
