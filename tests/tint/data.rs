//! The rows behind tint: readable, in order, each with its source.

use std::collections::HashSet;

use strawblue::engine::tint::{Refusal, SpotState, Stage, TintNote};
use strawblue::engine::{instrument::Instrument, measuring::MeasuringRule};
use strawblue::reference::tint::{Light, RedHeat, TintData};
use strawblue::reference::{Basis, embedded};
use strawblue::words::Words;

/// Every basis in the rows.
fn bases(data: &TintData) -> Vec<&Basis> {
    let optics = &data.optics;
    let tables = data.tables.columns.iter().chain(&data.tables.stainless).map(|column| &column.basis);
    let heats = data.red_heat.lists.iter().map(|list| &list.basis);
    let surfaces = data.surfaces.iter().map(|surface| &surface.basis);
    [
        &optics.light_basis,
        &optics.iron_basis,
        &optics.iron_other_basis,
        &optics.magnetite_clear_basis,
        &optics.magnetite_bulk_basis,
        &optics.hematite_basis,
        &optics.classical_basis,
        &data.tables.practice.basis,
        &data.crayons.basis,
    ]
    .into_iter()
    .chain(tables)
    .chain(heats)
    .chain(surfaces)
    .collect()
}

#[test]
fn every_basis_names_a_source() {
    let data = TintData::embedded();
    let ids: HashSet<&str> = embedded().sources.iter().map(|source| source.id.as_str()).collect();
    for basis in bases(data) {
        if let Basis::Published { source, .. } = basis {
            assert!(ids.contains(source.as_ref()), "{source}");
        }
    }
}

#[test]
fn rows_are_in_order() {
    let data = TintData::embedded();
    assert!(data.optics.light.windows(2).all(|pair| pair[1].nm - pair[0].nm == 10.0));
    assert_eq!((data.optics.light[0].nm, data.optics.light[40].nm), (380.0, 780.0));
    assert!(data.optics.materials.windows(2).all(|pair| pair[0].nm < pair[1].nm));
    assert!(data.crayons.steps_c.windows(2).all(|pair| pair[0] < pair[1]));
    for surface in &data.surfaces {
        assert!(0.0 < surface.low && surface.low < surface.high && surface.high <= 1.0, "{}", surface.id);
    }
    for column in data.tables.columns.iter().chain(&data.tables.stainless) {
        for row in &column.rows {
            assert!(row.low_c <= row.high_c, "{} {}", column.id, row.name);
            assert!(
                row.stage.as_deref().is_none_or(|id| Stage::from_id(id).is_some()),
                "{} {}",
                column.id,
                row.name
            );
        }
    }
    for list in &data.red_heat.lists {
        assert!(list.rows.iter().all(|row| row.low_c <= row.high_c), "{}", list.id);
        assert!(list.rows.windows(2).all(|pair| pair[0].name <= pair[1].name), "{}", list.id);
    }
}

#[test]
fn everything_shown_has_words() {
    let words = Words::english();
    let data = TintData::embedded();
    let mut keys: Vec<String> = Vec::new();
    keys.extend(Stage::ALL.iter().map(|stage| format!("tint-stage-{}", stage.id())));
    keys.extend(TintNote::ALL.iter().map(|note| format!("note-{}", note.id())));
    keys.extend(SpotState::ALL.iter().map(|spot| format!("tint-spot-{}", spot.id())));
    keys.extend(Refusal::ALL.iter().map(|refusal| format!("error-{}", refusal.id())));
    keys.extend(RedHeat::ALL.iter().map(|heat| format!("red-heat-{}", heat.id())));
    keys.extend(Light::ALL.iter().map(|light| format!("light-{}", light.id())));
    keys.extend(MeasuringRule::ALL.iter().map(|rule| format!("note-{}", rule.id())));
    keys.extend(data.surfaces.iter().map(|surface| format!("surface-{}", surface.id)));
    for &instrument in Instrument::ALL {
        let id = instrument.id();
        keys.extend([
            format!("instrument-{id}"),
            format!("instrument-{id}.can"),
            format!("instrument-{id}.cannot"),
        ]);
    }
    keys.push("note-ir-minimum-ask-another".to_owned());
    for verdict in ["kept", "not-shown", "missed"] {
        keys.extend(["minimum", "maximum"].map(|limit| format!("note-ir-{limit}-{verdict}")));
    }
    for reason in [
        "ir-no-solution",
        "ir-below-surroundings",
        "crayon-window",
        "crayon-no-pair",
        "red-heat-not-listed",
        "red-heat-too-cold",
        "heat-curve",
        "span-swapped",
        "photo-region",
        "photo-clipped",
        "photo-too-dark",
        "photo-coloured-light",
        "photo-uneven",
        "photo-brighter",
        "photo-no-film",
        "photo-ambiguous",
        "photo-too-thick",
        "photo-stopped",
    ] {
        keys.push(format!("error-{reason}"));
    }
    keys.extend(["fair", "good"].map(|id| format!("photo-confidence-{id}")));
    keys.extend(
        ["note-ir-no-use", "note-ir-black-spot", "tint-no-independent-row", "photo-how-to"]
            .map(str::to_owned),
    );
    let missing: Vec<_> = keys.iter().filter(|key| !words.has(key)).collect();
    assert!(missing.is_empty(), "no words for {missing:?}");
}
