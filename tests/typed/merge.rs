//! Two windows on one folder: what each changed stands in one session. Plain rules of our own,
//! no source.

use strawblue::job::{Draft, Field, JobText, OwnSteel, Session, demo_job};
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

/// One takes another steel, the other types the size of the part: both are kept.
#[test]
fn another_steel_takes_no_size_away() {
    let base = session(&[(Field::Steel, "4140"), (Field::Thickness, "30"), (Field::Condition, "annealed")]);
    let mut ours = base.clone();
    ours.job.take_steel(0, "S355J2");
    let mut theirs = base.clone();
    theirs.job.set(Field::Thickness, Some("38".into()));
    let expected = session(&[(Field::Steel, "S355J2"), (Field::Thickness, "38")]);
    for (ours, theirs) in [(ours.clone(), theirs.clone()), (theirs, ours)] {
        assert_eq!(Session::merged(base.clone(), ours, theirs).job, expected.job);
    }
}

/// A job that one puts in the place of another is taken whole, and what the other one types into the
/// old job meanwhile stands in the one that was put away.
#[test]
fn two_jobs_are_never_mixed() {
    let base = session(&[(Field::Steel, "4140"), (Field::Thickness, "30"), (Field::Shop, "20")]);
    let mut exchanges = base.clone();
    exchanges.put_job_away(&base.job.with_units_written(base.units));
    exchanges.exchange_job(demo_job());
    let mut types = base.clone();
    types.job.set(Field::Thickness, Some("38".into()));
    types.job.set(Field::Leg, Some("8".into()));
    let mut both = types.job.with_units_written(types.units);
    for (ours, theirs) in [(&exchanges, &types), (&types, &exchanges)] {
        let merged = Session::merged(base.clone(), ours.clone(), theirs.clone());
        assert_eq!(merged.job, demo_job());
        assert_eq!(merged.job_mark, exchanges.job_mark);
        let away: Vec<_> = merged.put_away().into_iter().map(|away| away.job).collect();
        assert_eq!(away, [both.clone()]);
    }
    // Where both put another one there, ours stands.
    let mut other = base.clone();
    other.exchange_job(JobText::default());
    assert_ne!(other.job_mark, exchanges.job_mark);
    assert_eq!(Session::merged(base.clone(), other.clone(), exchanges.clone()).job, JobText::default());
    // From then on it is one job again, field by field.
    let mut later = exchanges.clone();
    later.job.set(Field::Shop, Some("5".into()));
    let mut name = exchanges.clone();
    name.job.set(Field::Name, Some("Crank".into()));
    let merged = Session::merged(exchanges, later, name).job;
    assert_eq!((merged.get(Field::Shop), merged.get(Field::Name)), (Some("5"), Some("Crank")));
    both.set(Field::Leg, None);
    assert_ne!(merged, both);
}

/// Two windows that both put their job away leave both of them, and the oldest of too many goes.
#[test]
fn no_job_that_is_put_away_takes_the_place_of_another() {
    let base = session(&[(Field::Steel, "4140")]);
    let away = |steel: &str| {
        let mut session = base.clone();
        session.put_job_away(&job(&[(Field::Steel, steel)]));
        session
    };
    let merged = Session::merged(base.clone(), away("4130"), away("1045"));
    let steels = |session: &Session| -> Vec<String> {
        let jobs = session.put_away().into_iter();
        jobs.filter_map(|away| away.job.get(Field::Steel).map(str::to_owned)).collect()
    };
    assert_eq!(steels(&merged), ["1045", "4130"], "the newest first");
    let mut many = merged;
    for nth in 0..9 {
        many.put_job_away(&job(&[(Field::Steel, &format!("rack {nth}"))]));
    }
    assert_eq!(steels(&many), ["rack 8", "rack 7", "rack 6", "rack 5", "rack 4", "rack 3"]);
    let taken = many.take_put_away(&many.put_away()[2].key).expect("it is there");
    assert_eq!(taken.get(Field::Steel), Some("rack 6"));
    assert_eq!(steels(&many).len(), 5);
    // One that an earlier version kept is found too.
    many.typed.insert("plan.last-job".to_owned(), job(&[(Field::Steel, "old")]).to_ron());
    assert_eq!(steels(&many).last().map(String::as_str), Some("old"));
    // The clock was set back since: the newest is the newest all the same.
    let mut later = base.clone();
    for nth in 0..6 {
        let key = format!("plan.last-job.7ffffffffffffff{nth}-1-0");
        later.typed.insert(key, job(&[(Field::Steel, &format!("ahead {nth}"))]).to_ron());
    }
    later.put_job_away(&job(&[(Field::Steel, "now")]));
    assert_eq!(steels(&later), ["now", "ahead 5", "ahead 4", "ahead 3", "ahead 2", "ahead 1"]);
}

/// Everything that names a steel follows its name.
#[test]
fn a_steel_that_is_renamed_is_so_wherever_it_is_named() {
    let mut all = session(&[(Field::Steel, "Rack 7")]);
    all.own_steels.push(own("Rack 7", "C 0.4 Mn 0.9"));
    all.put_job_away(&job(&[(Field::Steel, "rack 7 "), (Field::Thickness, "30 mm")]));
    let draft = |steel: &str, window| Draft { window, steel: Some(steel.to_owned()) };
    for (key, text) in [
        ("soak.steel".to_owned(), "Rack 7"),
        (draft("Rack 7", 1).key("Mn"), "0.8"),
        (draft("Rack 7", 2).key("name"), "Rack"),
        (draft("Rack 70", 1).key("Mn"), "0.7"),
    ] {
        all.typed.insert(key, text.to_owned());
    }
    let mut renamed = all.clone();
    renamed.rename_steel("Rack 7", "Rack 8");
    assert_eq!(renamed.job.get(Field::Steel), Some("Rack 8"));
    let away = renamed.put_away().remove(0).job;
    assert_eq!((away.get(Field::Steel), away.get(Field::Thickness)), (Some("Rack 8"), Some("30 mm")));
    let typed = |key: &str| renamed.typed.get(key).map(String::as_str);
    assert_eq!(typed("soak.steel"), Some("Rack 8"));
    assert_eq!(typed(&draft("Rack 8", 1).key("Mn")), Some("0.8"));
    assert_eq!(typed(&draft("Rack 8", 2).key("name")), Some("Rack"));
    assert_eq!(typed(&draft("Rack 70", 1).key("Mn")), Some("0.7"));
    assert!(!renamed.drafts().contains(&draft("Rack 7", 1)));
    assert_eq!(renamed.renamed_since(&all, "Rack 7").as_deref(), Some("Rack 8"));
    assert_eq!(all.renamed_since(&all, "Rack 7"), None);
    // One that is deleted leaves its figures, in the job that was put away too.
    let mut without = all;
    without.remove_steel("Rack 7");
    let away = without.put_away().remove(0).job;
    for job in [&without.job, &away] {
        assert_eq!(job.get(Field::Steel), None);
        assert_eq!(job.get(Field::Certificate), Some("C 0.4 Mn 0.9"));
    }
}

/// Both make a steel of one name while a job of ours is put away: the job keeps our steel.
#[test]
fn a_job_put_away_keeps_its_steel_where_both_made_one_of_that_name() {
    let base = Session::default();
    let mut ours = base.clone();
    ours.own_steels.push(own("Rack", "C 0.4 Mn 0.9"));
    ours.put_job_away(&job(&[(Field::Steel, "Rack")]));
    let mut theirs = base.clone();
    theirs.own_steels.push(own("Rack", "C 0.2 Mn 1.2"));
    let merged = Session::merged(base, ours, theirs);
    let away = merged.put_away().remove(0).job;
    let steel = away.get(Field::Steel).expect("a steel");
    let taken = merged.own_steels.iter().find(|own| own.is_called(steel)).expect("it is there");
    assert_eq!(taken.composition, "C 0.4 Mn 0.9");
}

/// Two certificates typed at the same time stay two, and one that no window has any more is found
/// again by the next.
#[test]
fn each_window_has_its_own_drafts() {
    let new = |window| Draft { window, steel: None };
    let typing = |window: u32, carbon: &str| {
        let mut session = Session::default();
        session.typed.insert(new(window).key("C"), carbon.to_owned());
        session
    };
    let both = Session::merged(Session::default(), typing(1, "0.4"), typing(2, "0.2"));
    assert_eq!(both.drafts(), [new(2), new(1)]);
    let carbon = |session: &Session, window| session.typed.get(&new(window).key("C")).cloned();
    assert_eq!((carbon(&both, 1).as_deref(), carbon(&both, 2).as_deref()), (Some("0.4"), Some("0.2")));
    // Started while the first one runs, the third takes over what the second left.
    let mut third = both.clone();
    third.take_over_drafts(3, |window| window == 1);
    assert_eq!(third.drafts(), [new(3), new(1)]);
    assert_eq!(carbon(&third, 3).as_deref(), Some("0.2"));
    // A window with a draft of its own leaves another’s where it is.
    let mut first = both.clone();
    first.take_over_drafts(1, |_| false);
    assert_eq!(first, both);
    // What was kept by an older version is the draft of the first window.
    assert_eq!(new(1).key("C"), "certificate.new/C");
    assert!(new(1).has("certificate.new/C") && !new(1).has("certificate-2.new/C"));
}
