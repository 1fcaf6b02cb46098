//! From a job as typed to a job as the engine sees it, with all problems at once.

use super::field_problem::{DefaultValue, Defaulted, Fault, FieldProblem};
use super::read_part::part;
use super::{Field, JobText, Of, OwnSteel, Slot, typed};
use crate::engine::job::{Code, Demands, Job, Joint, Member, Repair, Restraint, Run};
use crate::engine::weld_of_job::WeldTold;
use crate::reference::Reference;
use crate::units::{self, Mark, Problem, Units, limits};

/// What a job is read with.
#[derive(Debug, Clone, Copy)]
pub struct Reading<'a> {
    /// The dataset.
    pub reference: &'a Reference,
    /// Steels of the reader's own.
    pub own_steels: &'a [OwnSteel],
    /// Units of bare numbers, where the job does not state its own.
    pub units: Units,
    /// The decimal mark that it is typed with.
    pub mark: Mark,
}

/// A job that was read.
#[derive(Debug, Clone, PartialEq)]
pub struct ReadJob {
    /// The job.
    pub job: Job,
    /// What is told of its weld beside what the plan counts with.
    pub told: WeldTold,
    /// What was put where nothing was typed.
    pub defaulted: Vec<Defaulted>,
    /// The units that its bare numbers took.
    pub units: Units,
}

/// Shop temperature where none is stated, °C.
const SHOP_C: f64 = 20.0;

/// Notes problems and defaults while the fields are read.
pub(super) struct Reader<'a> {
    text: &'a JobText,
    pub(super) reference: &'a Reference,
    pub(super) own_steels: &'a [OwnSteel],
    pub(super) units: Units,
    mark: Mark,
    problems: Vec<FieldProblem>,
    defaulted: Vec<Defaulted>,
}

impl<'a> Reader<'a> {
    /// How many parts or runs are typed.
    pub(super) fn count(&self, of: Of) -> usize {
        self.text.count(of)
    }

    pub(super) fn typed(&self, slot: impl Into<Slot>) -> Option<&'a str> {
        self.text.get(slot)
    }

    pub(super) fn has(&self, slot: impl Into<Slot>) -> bool {
        self.typed(slot).is_some()
    }

    pub(super) fn fault(&mut self, slot: impl Into<Slot>, fault: Fault) {
        self.problems.push(FieldProblem { slot: slot.into(), fault });
    }

    pub(super) fn default(&mut self, slot: impl Into<Slot>, value: DefaultValue) {
        self.defaulted.push(Defaulted { slot: slot.into(), value });
    }

    /// The quantity of a field whose problem is noted elsewhere.
    pub(super) fn quantity<T>(
        &self,
        slot: impl Into<Slot>,
        parse: impl FnOnce(&str) -> Result<T, Problem>,
    ) -> Option<T> {
        self.mark.read(self.typed(slot)?, parse).ok()
    }

    /// What a field says; `None` where nothing is typed or it is a problem, which is noted.
    pub(super) fn read<T>(
        &mut self,
        slot: impl Into<Slot>,
        parse: impl FnOnce(&str) -> Result<T, Problem>,
    ) -> Option<T> {
        let slot = slot.into();
        let text = self.typed(slot)?;
        // A designation may hold a mark that is none: 1.7225.
        let mark = if slot.field.accepts().is_quantity() { self.mark } else { Mark::Point };
        match mark.read(text, parse) {
            Ok(value) => Some(value),
            Err(problem) => {
                self.fault(slot, Fault::Typed(problem));
                None
            }
        }
    }

    /// The same for a field that must be stated.
    pub(super) fn required<T>(
        &mut self,
        slot: impl Into<Slot>,
        parse: impl FnOnce(&str) -> Result<T, Problem>,
    ) -> Option<T> {
        let slot = slot.into();
        if !self.has(slot) {
            self.fault(slot, Fault::Missing);
        }
        self.read(slot, parse)
    }
}

/// Reads a job as typed.
///
/// What is not stated and has a fair default gets it, and the default is listed:
/// restraint by the joint, hydrogen at the upper typical value of the process, net heat
/// input 1.0 kJ/mm, shop 20 °C, condition not known, several runs, the second part as
/// the first.
///
/// # Errors
/// Every field that can't be used, in the order in which the fields are asked.
pub fn read_job(text: &JobText, reading: &Reading<'_>) -> Result<ReadJob, Vec<FieldProblem>> {
    let mut reader = Reader {
        text,
        reference: reading.reference,
        own_steels: reading.own_steels,
        units: reading.units,
        mark: reading.mark,
        problems: Vec::new(),
        defaulted: Vec::new(),
    };
    if let Some(own) = reader.read(Field::Units, Units::read) {
        reader.units = own;
    }
    let joint = reader.required(Field::Joint, typed::joint);
    let members = members(&mut reader, joint);
    let runs = super::read_weld::runs(&mut reader);
    let weld = super::read_weld::weld_metal(&mut reader, joint, runs.as_deref().unwrap_or_default());
    if let (Some(members), Some(runs)) = (&members, &runs) {
        super::filler_fit::fillers_fit(&mut reader, members, runs);
    }
    let repair = repair(&mut reader, joint);
    let restraint = restraint(&mut reader, joint, repair);
    let temperature = reader.units.temperature;
    let shop_c = reader.read(Field::Shop, |text| units::temperature(text, temperature, limits::SHOP_C));
    if !reader.has(Field::Shop) {
        reader.default(Field::Shop, DefaultValue::Shop(SHOP_C));
    }
    let mut demand =
        |field| reader.read(field, |text| units::temperature(text, temperature, limits::DEMAND_C));
    let demands = Demands {
        preheat_c: demand(Field::DemandPreheat),
        interpass_c: demand(Field::DemandInterpass),
        ceiling_c: demand(Field::DemandCeiling),
    };
    let damp = reader.read(Field::Damp, typed::yes_no).unwrap_or(false);
    let thermal_cut = reader.read(Field::ThermalCut, typed::yes_no).unwrap_or(false);
    let safety = super::read_safety::safety(&mut reader);
    let code = reader.read(Field::Code, typed::code).unwrap_or(Code::None);

    let told = super::read_told::told(&mut reader, joint, members.as_deref(), weld.thickness_mm);
    let Reader { mut problems, mut defaulted, units, .. } = reader;
    if let (Some(joint), Some(members), Some(runs), Some(restraint), true) =
        (joint, members, runs, restraint, problems.is_empty())
    {
        defaulted.sort_by_key(|defaulted| defaulted.slot);
        let shop_c = shop_c.unwrap_or(SHOP_C);
        let runs = soaked(runs, repair, reading.reference);
        let job = Job {
            members,
            joint,
            runs,
            restraint,
            weld,
            shop_c,
            damp,
            code,
            demands,
            thermal_cut,
            repair,
            safety,
        };
        return Ok(ReadJob { job, told, defaulted, units });
    }
    problems.sort_by_key(|problem| problem.slot);
    Err(problems)
}

/// The members in the order of the joint's sketch.
fn members(reader: &mut Reader<'_>, joint: Option<Joint>) -> Option<Vec<Member>> {
    let row = joint.and_then(|joint| reader.reference.joint(joint.id()));
    let (takes, rounds) =
        row.map_or((1, [false, false]), |row| (row.members, [row.first_is_round, row.second_is_round]));
    let typed =
        |nth: usize| Field::ALL.iter().any(|field| field.of() == Of::Part && reader.has(field.nth(nth)));
    let second_typed = typed(1);
    if (2..reader.count(Of::Part)).any(typed) {
        reader.fault(Field::Steel.nth(2), Fault::ThirdPart);
    }
    // With both shapes typed the sketch's order follows from them.
    let first = part(reader, 0, None, rounds[0] && !second_typed || rounds == [true, true]);
    if !second_typed {
        let first = first?;
        if takes < 2 {
            return Some(vec![first]);
        }
        reader.default(Field::Steel.nth(1), DefaultValue::SamePart);
        return Some(vec![first.clone(), first]);
    }
    let first_round = first.as_ref().is_some_and(|first| first.round);
    let by_joint = rounds[1] && (rounds[0] || !first_round);
    let second = part(reader, 1, first.as_ref().map(|first| &first.steel), by_joint);
    let (first, second) = (first?, second?);
    let turned = rounds[0] != rounds[1] && first.round != rounds[0] && second.round != rounds[1];
    Some(if turned { vec![second, first] } else { vec![first, second] })
}

fn repair(reader: &mut Reader<'_>, joint: Option<Joint>) -> Repair {
    let mut told = |field| reader.read(field, typed::yes_no);
    let (crack, oil_soaked) = (told(Field::Crack), told(Field::OilSoaked));
    let yes = |answer: Option<bool>| answer.unwrap_or(false);
    let open = |answer: Option<bool>| answer.is_none() && joint == Some(Joint::Repair);
    Repair {
        crack: yes(crack),
        crack_open: open(crack),
        oil_soaked: yes(oil_soaked),
        oil_open: open(oil_soaked),
        old_weld: yes(told(Field::OldWeld)),
        hardfacing: yes(told(Field::Hardfacing)),
        build_up: yes(told(Field::BuildUp)),
    }
}

/// Oil in the metal brings its own hydrogen, however dry the process is.
fn soaked(mut runs: Vec<Run>, repair: Repair, reference: &Reference) -> Vec<Run> {
    if repair.oil_soaked || repair.oil_open {
        runs.iter_mut()
            .for_each(|run| run.hydrogen_ml = run.hydrogen_ml.max(reference.repair.oil.hydrogen_ml));
    }
    runs
}

fn restraint(reader: &mut Reader<'_>, joint: Option<Joint>, repair: Repair) -> Option<Restraint> {
    if let Some(typed) = reader.typed(Field::Restraint) {
        if typed::restraint_is_none(typed) {
            reader.default(Field::Restraint, DefaultValue::RestraintNone);
        }
        return reader.read(Field::Restraint, typed::restraint);
    }
    let row = reader.reference.joint(joint?.id());
    // The joints of the dataset are those of the engine (a test compares them); the most
    // severe stands for one that is missing.
    let by_joint = row.map_or(Restraint::High, |row| row.restraint);
    // The part around a crack holds it from all sides.
    let by_joint = if repair.crack { Restraint::High } else { by_joint };
    reader.default(Field::Restraint, DefaultValue::Restraint(by_joint));
    Some(by_joint)
}
