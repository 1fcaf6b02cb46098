//! Two windows on one folder: what each changed stands in one session. Plain rules of our own,
//! no source.

use strawblue::job::{Field, JobText, OwnSteel, Session};
use strawblue::units::Units;

fn job(pairs: &[(Field, &str)]) -> JobText {
    let mut job = JobText::default();
    for (field, text) in pairs {
        job.set(*field, Some((*text).to_owned()));
    }
    job
}

fn session(pairs: &[(Field, &str)]) -> Session {
    Session { job: job(pairs), ..Session::default() }
}

fn own(name: &str, composition: &str) -> OwnSteel {
    OwnSteel { name: name.into(), composition: composition.into(), grade: String::new() }
}

#[test]
fn what_only_one_changed_is_changed() {
    let base = session(&[(Field::Thickness, "30"), (Field::Shop, "20"), (Field::Leg, "8")]);
    let ours = session(&[(Field::Thickness, "38"), (Field::Shop, "20")]);
    let theirs =
        session(&[(Field::Thickness, "30"), (Field::Shop, "5"), (Field::Leg, "8"), (Field::Amps, "140")]);
    let merged = Session::merged(base.clone(), ours.clone(), theirs.clone());
    let expected = session(&[(Field::Thickness, "38"), (Field::Shop, "5"), (Field::Amps, "140")]);
    assert_eq!(merged.job.whole, expected.job.whole);
    assert_eq!(merged.job.parts, expected.job.parts);
    // Their run is new, and the list of runs is theirs.
    assert_eq!(merged.job.runs, expected.job.runs);
    // With nothing changed on one side it is the other; the same twice is itself.
    assert_eq!(Session::merged(base.clone(), base.clone(), theirs.clone()), theirs);
    assert_eq!(Session::merged(base.clone(), ours.clone(), base), ours);
    assert_eq!(Session::merged(ours.clone(), theirs.clone(), theirs.clone()), theirs);
}

#[test]
fn a_bare_number_keeps_its_size_when_the_other_window_changes_the_units() {
    let base = session(&[(Field::Shop, "20")]);
    let mut theirs = base.clone();
    theirs.switch_units(Units::F_IN);
    let mut ours = base.clone();
    ours.job.set(Field::Thickness, Some("38".into()));
    let merged = Session::merged(base, ours, theirs);
    assert_eq!(merged.units, Units::F_IN);
    assert_eq!(merged.job.get(Field::Thickness), Some("38 mm"));
    assert_eq!(merged.job.get(Field::Shop), Some("20 °C"));
}

#[test]
fn nothing_said_of_one_steel_comes_to_another() {
    let base = session(&[(Field::Steel, "4140"), (Field::Condition, "annealed")]);
    let ours = session(&[(Field::Steel, "S355J2")]);
    let mut theirs = base.clone();
    theirs.job.set(Field::Hardness, Some("30 HRC".into()));
    let merged = Session::merged(base, ours.clone(), theirs);
    assert_eq!(merged.job.parts, ours.job.parts);
}

#[test]
fn a_steel_is_kept_unless_it_was_deleted_as_it_stood() {
    let with = |steels: &[OwnSteel]| Session { own_steels: steels.to_vec(), ..Session::default() };
    let (rack, axle) = (own("Rack", "C 0.4 Mn 0.9"), own("Axle", "C 0.45 Mn 0.7"));
    let changed = own("Rack", "C 0.4 Mn 0.9 Cr 1");
    let merged = |base: &[OwnSteel], ours: &[OwnSteel], theirs: &[OwnSteel]| {
        let mut steels = Session::merged(with(base), with(ours), with(theirs)).own_steels;
        steels.sort_by(|a, b| a.name.cmp(&b.name));
        steels
    };
    let (rack1, axle1) = (std::slice::from_ref(&rack), std::slice::from_ref(&axle));
    let changed1 = std::slice::from_ref(&changed);
    assert_eq!(merged(&[], rack1, axle1), [axle.clone(), rack.clone()]);
    assert_eq!(merged(rack1, &[], rack1), []);
    assert_eq!(merged(rack1, rack1, &[]), []);
    assert_eq!(merged(rack1, &[], changed1), changed1);
    assert_eq!(merged(rack1, changed1, &[]), changed1);
    // Both saved one of that name.
    let two = merged(&[], rack1, changed1);
    assert_eq!(two, [changed.clone(), own("Rack (2)", &rack.composition)]);
}
