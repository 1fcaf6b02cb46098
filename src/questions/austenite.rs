//! What becomes of an austenitic filler on steel.

use super::answers::{GRADE_MIDDLE, GRADE_UPPER};
use super::{Input, Kind, Preset, Question, Reply, Work, shared};
use crate::engine::weld::austenite::austenitic;
use crate::reference::{Composition, Element};

const fn of_filler(key: &'static str, most: f64) -> Input {
    Input::new(key, Kind::Percent).within(0.0, most)
}

/// The deposit of an austenitic filler.
pub(super) static AUSTENITIC_DEPOSIT: Question = Question {
    name: "austenitic-deposit",
    work: Work::Weld,
    inputs: &[
        shared::STEEL.required(),
        Input::new("dilution", Kind::Number).or(Preset::Number(0.3)).within(0.0, 1.0),
        of_filler("filler-cr", 40.0).required(),
        of_filler("filler-ni", 40.0).required(),
        of_filler("filler-c", 2.0).required(),
        of_filler("filler-mn", 15.0).or(Preset::Number(1.5)),
        of_filler("filler-si", 5.0).or(Preset::Number(0.5)),
        of_filler("filler-mo", 10.0).or(Preset::Number(0.0)),
        of_filler("filler-nb", 5.0).or(Preset::Number(0.0)),
        of_filler("filler-n", 1.0).or(Preset::Number(0.0)),
        Input::new("layer", Kind::Number).whole().or(Preset::Number(1.0)).within(1.0, 10.0),
    ],
    answers: &["austenite-margin", "austenite-ms", "austenite-ferrite", "austenite-carbon"],
    notes: &[
        "austenite-no-martensite",
        "austenite-borderline",
        "austenite-expected",
        "austenite-hot-cracks",
        "austenite-ferrite-good",
        "austenite-duplex",
        "austenite-thin-line",
        "austenite-no-furnace",
        "austenite-preheat-stays",
        "crack-dilution",
        GRADE_MIDDLE,
        GRADE_UPPER,
    ],
    answer: |given| {
        let part = |key| given.number(key);
        let filler = Composition::new(&[
            (Element::Cr, part("filler-cr")?),
            (Element::Ni, part("filler-ni")?),
            (Element::C, part("filler-c")?),
            (Element::Mn, part("filler-mn")?),
            (Element::Si, part("filler-si")?),
            (Element::Mo, part("filler-mo")?),
            (Element::Nb, part("filler-nb")?),
            (Element::N, part("filler-n")?),
        ]);
        let base = given.composition()?;
        let found = austenitic(&base, &filler, given.number("dilution")?, given.number("layer")?)?;
        let (ferrite, manganese) = (found.ferrite_percent, found.filler_mn);
        Ok(Reply::of(found.outcomes)
            .note_if(true, found.martensite.id())
            .note_if(ferrite < 3.0 && manganese < 4.0, "austenite-hot-cracks")
            .note_if((3.0..=15.0).contains(&ferrite), "austenite-ferrite-good")
            .note_if(ferrite > 20.0, "austenite-duplex")
            .note_if(true, "austenite-thin-line")
            .note_if(true, "austenite-no-furnace")
            .note_if(true, "austenite-preheat-stays")
            .note_if(true, "crack-dilution")
            .note_of(given.grade_note(false)))
    },
};
