//! The first start: the units of a region, the welcome that is kept until it is answered, settings put back.

use strawblue::job::{Field, Session, Store, Theme, demo_job, is_demo};
use strawblue::units::Units;

use crate::session::filled;

/// Source: Unicode Technical Standard #35, Locale Data Markup Language, measurement system data: US units in LR, MM
/// and US, but metric temperatures in LR and MM; US temperatures in BS, BZ, KY, PR and PW; metric in the world (001).
/// The United Kingdom’s own system counts as metric here: its drawings are in mm (common practice, no source).
#[test]
fn a_region_has_its_units() {
    for (locale, units) in [
        ("en-US", Units::F_IN),
        ("en_US.UTF-8", Units::F_IN),
        ("es_US", Units::F_IN),
        ("de-US", Units::F_IN),
        ("es_PR.UTF-8", Units::F_MM),
        ("en-BS", Units::F_MM),
        ("my_MM", Units::C_IN),
        ("en_LR", Units::C_IN),
        ("de_DE.UTF-8@euro", Units::C_MM),
        ("en-GB", Units::C_MM),
        ("en-CA", Units::C_MM),
        ("pt-BR", Units::C_MM),
        ("zh-Hans-CN", Units::C_MM),
        ("uz-Cyrl-US", Units::F_IN),
        // No region is named: not by a language alone, its number, or what is said beside the name.
        ("en", Units::C_MM),
        ("us", Units::C_MM),
        ("es-419", Units::C_MM),
        ("en-x-us", Units::C_MM),
        ("de-u-rg-us", Units::C_MM),
        ("C", Units::C_MM),
        ("C.UTF-8", Units::C_MM),
        ("POSIX", Units::C_MM),
        ("", Units::C_MM),
        ("\u{1f525}-_@.", Units::C_MM),
    ] {
        assert_eq!(Units::of_region(locale), units, "{locale}");
    }
}

/// Source: POSIX.1-2017, base definitions, 8.2: LC_ALL, if it is set and not empty, before the variable of a category,
/// and that before LANG. `LC_MEASUREMENT` is the category for units of ISO/IEC TR 30112.
#[test]
fn the_variable_for_units_decides_over_that_for_everything() {
    let of = |set: &[(&str, &str)]| {
        let set: std::collections::BTreeMap<String, String> =
            set.iter().map(|(name, value)| ((*name).to_owned(), (*value).to_owned())).collect();
        Units::of_variables(|name| set.get(name).cloned())
    };
    assert_eq!(of(&[]), Units::C_MM);
    assert_eq!(of(&[("LANG", "en_US.UTF-8")]), Units::F_IN);
    assert_eq!(of(&[("LANG", "en_US.UTF-8"), ("LC_MEASUREMENT", "de_DE.UTF-8")]), Units::C_MM);
    assert_eq!(of(&[("LANG", "de_DE.UTF-8"), ("LC_MEASUREMENT", "en_US.UTF-8")]), Units::F_IN);
    assert_eq!(of(&[("LC_ALL", "en_US"), ("LC_MEASUREMENT", "de_DE.UTF-8")]), Units::F_IN);
    assert_eq!(of(&[("LC_ALL", ""), ("LC_MEASUREMENT", ""), ("LANG", "en_US")]), Units::F_IN);
    // The language of the messages names no region to live in.
    assert_eq!(of(&[("LANG", "de_DE.UTF-8"), ("LANGUAGE", "en_US:en")]), Units::C_MM);
    assert_eq!(of(&[("LC_ALL", "C.UTF-8"), ("LANG", "en_US.UTF-8")]), Units::C_MM);
}

#[test]
fn a_welcome_is_kept_until_it_is_answered() {
    let folder = tempfile::tempdir().expect("a folder");
    let store = Store::open(folder.path()).expect("opens");
    assert!(Session::load(&store).expect("reads").first, "there is no file");
    let mut session = Session::first(Units::F_IN);
    assert!(session.is_to_be_welcomed());
    assert_eq!(session.units, Units::F_IN);
    session.language = "de".to_owned();
    session.save(&store).expect("saves");
    let found = Session::load(&store).expect("reads");
    assert!(!found.first && found.session.is_to_be_welcomed(), "it was left open");
    session.end_welcome();
    session.save(&store).expect("saves");
    assert!(!Session::load(&store).expect("reads").session.is_to_be_welcomed());
    // Nobody who has worked here before is welcomed.
    assert!(!Session::default().is_to_be_welcomed() && !filled().is_to_be_welcomed());
}

/// What is set is listed here by name, so that whatever else a session keeps is found to stay.
#[test]
fn reset_settings_take_nothing_else_with_them() {
    let set = ["language", "theme", "units", "text_size", "controls"];
    let (first, mut now) = (filled(), filled());
    now.reset_settings(first.units);
    let fields = |session: &Session| -> Vec<(String, String)> {
        let text = session.to_ron();
        // A field begins a line four blanks in, and what is in it stands further in.
        let begins =
            |line: &str| line.starts_with("    ") && !line.starts_with("     ") && line.contains(": ");
        let mut found: Vec<(String, String)> = Vec::new();
        for line in text.lines() {
            match line.trim().split_once(": ").filter(|_| begins(line)) {
                Some((name, value)) => found.push((name.to_owned(), value.to_owned())),
                None => found.last_mut().into_iter().for_each(|(_, value)| value.push_str(line)),
            }
        }
        found
    };
    let (before, after) = (fields(&first), fields(&now));
    assert!(before.len() > 6, "{before:?}");
    for ((name, was), (_, is)) in before.iter().zip(&after) {
        assert!(set.contains(&name.as_str()) || was == is, "{name} was {was} and is {is}");
    }
    assert_eq!((now.language.as_str(), now.theme), ("", Theme::System));
}

/// A bare figure means what it meant when it was typed.
#[test]
fn reset_units_leave_every_size_as_it_was() {
    let mut session = Session { units: Units::F_IN, ..Session::default() };
    session.job.set(Field::Thickness, Some("1.5".into()));
    session.reset_settings(Units::C_MM);
    assert_eq!(session.units, Units::C_MM);
    assert_eq!(session.job.get(Field::Thickness), Some("1.5 in"));
    // Where the units stay, so does what was typed.
    let mut session = Session { units: Units::C_MM, ..Session::default() };
    session.job.set(Field::Thickness, Some("38".into()));
    session.reset_settings(Units::C_MM);
    assert_eq!(session.job.get(Field::Thickness), Some("38"));
}

/// What nobody changed of the example is invented, however much was.
#[test]
fn an_example_is_one_until_it_has_a_name_of_its_own() {
    let mut job = demo_job();
    assert!(is_demo(&job));
    job.set(Field::Leg, Some("10 mm".into()));
    assert!(is_demo(&job));
    job.set(Field::Name, Some("Loader arm".into()));
    assert!(!is_demo(&job));
    job.set(Field::Name, None);
    assert!(!is_demo(&job));
    assert!(!is_demo(&strawblue::job::JobText::default()));
}
