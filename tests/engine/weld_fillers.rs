//! Which fillers are offered for a weld, in which order, and why one is not.

use strawblue::engine::weld::matching::{WeldKind, WeldLoad};
use strawblue::engine::weld::offered::{Dropped, OfferQuery, dropped, offered};
use strawblue::reference::{Filler, embedded};

fn filler(id: &str) -> &'static Filler {
    embedded().fillers.get(id).expect("a filler")
}

fn offer_of(process: &str) -> OfferQuery<'static> {
    OfferQuery {
        chromium: None,
        process: embedded().process(process).expect("a process"),
        kind: WeldKind::Fillet,
        load: WeldLoad::Shear,
        base_mpa: 900.0,
        least_mpa: None,
        hydrogen_ml: 8.0,
        heat_treated: false,
        hardened_again: false,
        free_cutting: false,
        austenitic: true,
    }
}

/// What a filler can't do is said: an electrode under TIG, austenitic into the furnace, nickel on
/// free-cutting steel, cellulose or rutile where basic is chosen (common practice, no source).
#[test]
fn fillers_that_do_not_fit_are_dropped() {
    let strength = &embedded().welding.strength;
    let of = |asked: &OfferQuery<'_>, id: &str| dropped(strength, asked, filler(id));
    assert_eq!(of(&offer_of("gtaw"), "e7018"), Some(Dropped::WrongProcess));
    assert_eq!(of(&offer_of("smaw-basic"), "e6010"), Some(Dropped::WrongProcess));
    assert_eq!(of(&offer_of("gtaw"), "er309l"), None);
    let furnace = OfferQuery { heat_treated: true, ..offer_of("gtaw") };
    assert_eq!(of(&furnace, "er309l"), Some(Dropped::NoHeatTreatment));
    assert_eq!(of(&furnace, "ernicr-3"), None);
    let free = OfferQuery { free_cutting: true, ..offer_of("gtaw") };
    assert_eq!(of(&free, "ernicr-3"), Some(Dropped::CracksHot));
    let again = OfferQuery { hardened_again: true, ..offer_of("gtaw") };
    assert_eq!(of(&again, "er70s-2"), Some(Dropped::NotHardened));
    assert_eq!(of(&offer_of("gtaw"), "er80s-b2"), Some(Dropped::NeedsTreatment));
    assert_eq!(of(&offer_of("gtaw"), "ercusi-a"), Some(Dropped::NotForSteel));
    let groove = OfferQuery { kind: WeldKind::FullGroove, load: WeldLoad::Tension, ..offer_of("gtaw") };
    assert_eq!(of(&groove, "er120s-1"), Some(Dropped::TooWeak));
}

/// E7018 is sold as dry as H4: it fits 5 ml, and not 3.
#[test]
fn the_driest_class_of_a_filler_counts() {
    let strength = &embedded().welding.strength;
    let at = |hydrogen_ml| {
        dropped(strength, &OfferQuery { hydrogen_ml, ..offer_of("smaw-basic") }, filler("e7018"))
    };
    assert_eq!(at(5.0), None);
    assert_eq!(at(3.0), Some(Dropped::TooWet));
}

/// Ferritic stands before austenitic before nickel, and the weakest that fits is the first.
#[test]
fn fillers_are_offered_in_order() {
    let found = offered(embedded(), &offer_of("gtaw"));
    let rank = |filler: &&Filler| match format!("{:?}", filler.deposit).as_str() {
        "Ferritic" | "Martensitic" => 0,
        "Austenitic" => 1,
        _ => 2,
    };
    assert!(found.windows(2).all(|pair| rank(&pair[0]) <= rank(&pair[1])));
    let ferritic: Vec<f64> =
        found.iter().filter(|one| rank(one) == 0).filter_map(|one| one.tensile_min_mpa).collect();
    assert!(ferritic.len() > 3 && ferritic.windows(2).all(|pair| pair[0] <= pair[1]));
}
