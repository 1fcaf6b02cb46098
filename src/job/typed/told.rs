//! What is told for the sake of safety, as typed.

use super::{not_understood, words_of};
use crate::reference::{
    Assembly, Cavity, Cleaner, Coating, Grinder, HeatSource, Inspection, Told, WorkPlace,
};
use crate::units::{Accepts, Problem};

/// A fact with the words that people write for its answers, beside the ids.
pub trait Typed: Told {
    /// What the field takes.
    const ACCEPTS: Accepts;
    /// Everyday words, in lower case, with hyphens as spaces.
    const WORDS: &'static [(&'static str, Self)];
}

/// An answer as people write it: its id, or an everyday word.
///
/// # Errors
/// A [`Problem`] for anything else.
pub fn told<T: Typed + 'static>(text: &str) -> Result<T, Problem> {
    let words = words_of(text);
    let id = words.join("-");
    let known = T::VARIANTS.iter().copied().find(|answer| answer.id() == id);
    let written = words.join(" ");
    let everyday = || T::WORDS.iter().find(|(word, _)| *word == written).map(|(_, answer)| *answer);
    known.or_else(everyday).ok_or_else(|| not_understood(text, T::ACCEPTS))
}

impl Typed for HeatSource {
    const ACCEPTS: Accepts = Accepts::HeatSource;
    const WORDS: &'static [(&'static str, Self)] = &[
        ("no", Self::None),
        ("oxy acetylene", Self::Acetylene),
        ("oxyacetylene", Self::Acetylene),
        ("gas", Self::Propane),
        ("lpg", Self::Propane),
        ("natural gas", Self::Propane),
        ("burner", Self::Propane),
        ("oxy propane", Self::Propane),
        ("oven", Self::Furnace),
        ("mat", Self::Mats),
        ("heating mats", Self::Mats),
        ("resistance mats", Self::Mats),
        ("coil", Self::Induction),
    ];
}

impl Typed for Coating {
    const ACCEPTS: Accepts = Accepts::Coating;
    const WORDS: &'static [(&'static str, Self)] = &[
        ("none", Self::Bare),
        ("no", Self::Bare),
        ("galvanised", Self::Zinc),
        ("galvanized", Self::Zinc),
        ("galv", Self::Zinc),
        ("plated", Self::Cadmium),
        ("unknown", Self::Cadmium),
        ("not known", Self::Cadmium),
        ("cad", Self::Cadmium),
        ("chrome", Self::HardChrome),
        ("chromed", Self::HardChrome),
        ("chromium", Self::HardChrome),
        ("painted", Self::Paint),
        ("plastic", Self::Paint),
        ("lead paint", Self::OldPaint),
        ("lead", Self::OldPaint),
    ];
}

impl Typed for Cavity {
    const ACCEPTS: Accepts = Accepts::Cavity;
    const WORDS: &'static [(&'static str, Self)] = &[
        ("no", Self::None),
        ("open", Self::None),
        ("vented", Self::None),
        ("air", Self::Dry),
        ("fuel", Self::Oil),
        ("grease", Self::Oil),
        ("gas", Self::Pressure),
        // What nobody knows is the worst that it may be.
        ("unknown", Self::Oil),
        ("not known", Self::Oil),
    ];
}

impl Typed for Cleaner {
    const ACCEPTS: Accepts = Accepts::Cleaner;
    const WORDS: &'static [(&'static str, Self)] = &[
        ("no", Self::None),
        ("detergent", Self::Water),
        ("soap", Self::Water),
        ("acetone", Self::Solvent),
        ("alcohol", Self::Solvent),
        ("brake cleaner", Self::Chlorinated),
        ("degreaser", Self::Chlorinated),
        ("unknown", Self::Chlorinated),
        ("not known", Self::Chlorinated),
    ];
}

impl Typed for Assembly {
    const ACCEPTS: Accepts = Accepts::Assembly;
    const WORDS: &'static [(&'static str, Self)] = &[
        ("no", Self::None),
        ("shrink fit", Self::HotHub),
        ("liquid nitrogen", Self::Nitrogen),
        ("ln2", Self::Nitrogen),
        ("press", Self::Pressed),
        ("press fit", Self::Pressed),
        ("load", Self::Spring),
        ("strut", Self::Spring),
        ("tire", Self::Tyre),
    ];
}

impl Typed for WorkPlace {
    const ACCEPTS: Accepts = Accepts::WorkPlace;
    const WORDS: &'static [(&'static str, Self)] = &[
        ("shop", Self::OpenShop),
        ("open", Self::OpenShop),
        ("room", Self::ClosedRoom),
        ("small room", Self::ClosedRoom),
        ("pit", Self::Confined),
        ("tank", Self::Confined),
        ("box section", Self::Confined),
        ("confined space", Self::Confined),
        ("outside", Self::Outdoors),
        ("field", Self::Outdoors),
        ("site", Self::Outdoors),
    ];
}

impl Typed for Grinder {
    const ACCEPTS: Accepts = Accepts::Grinder;
    const WORDS: &'static [(&'static str, Self)] =
        &[("no", Self::None), ("angle grinder", Self::Hand), ("pedestal", Self::Bench)];
}

impl Typed for Inspection {
    const ACCEPTS: Accepts = Accepts::Inspection;
    const WORDS: &'static [(&'static str, Self)] = &[
        ("eye", Self::Visual),
        ("vt", Self::Visual),
        ("dye", Self::Penetrant),
        ("pt", Self::Penetrant),
        ("magnetic particles", Self::Magnetic),
        ("mt", Self::Magnetic),
        ("mpi", Self::Magnetic),
        ("ultrasound", Self::Ultrasonic),
        ("ut", Self::Ultrasonic),
        ("x ray", Self::Radiography),
        ("rt", Self::Radiography),
    ];
}
