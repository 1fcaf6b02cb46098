//! What the job tells for the sake of safety, read.

use super::Field;
use super::read_job::Reader;
use super::typed::{self, Typed, told};
use crate::engine::safety_facts::SafetyFacts;
use crate::units::{self, limits};

pub(super) fn safety(reader: &mut Reader<'_>) -> SafetyFacts {
    SafetyFacts {
        heat_source: answer(reader, Field::HeatSource),
        cylinders: reader.read(Field::Cylinders, |text| units::count(text, limits::CYLINDERS)),
        coating: answer(reader, Field::Coating),
        cavity: answer(reader, Field::Cavity),
        cleaner: answer(reader, Field::Cleaner),
        assembly: answer(reader, Field::Assembly),
        place: answer(reader, Field::Place),
        alone: yes_no(reader, Field::Alone),
        copper_alloy: yes_no(reader, Field::CopperAlloy),
        seals: yes_no(reader, Field::Seals),
        battery: yes_no(reader, Field::Battery),
        grinder: answer(reader, Field::Grinder),
        light_metal: yes_no(reader, Field::LightMetal),
        lifted: yes_no(reader, Field::Lifted),
        overnight: yes_no(reader, Field::Overnight),
        inspection: answer(reader, Field::Inspection),
    }
}

fn answer<T: Typed + 'static>(reader: &mut Reader<'_>, field: Field) -> Option<T> {
    reader.read(field, told)
}

fn yes_no(reader: &mut Reader<'_>, field: Field) -> Option<bool> {
    reader.read(field, typed::yes_no)
}
