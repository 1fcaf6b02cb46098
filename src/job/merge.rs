//! Two windows on one folder: what each of them changed, in one session.
//!
//! A merge of three: the session that both began with, ours and theirs. What only one of them
//! changed is changed; where both changed the same thing, ours stands. A steel is never lost: of
//! two that came to bear one name, ours gets a name of its own. A job that one of them put in the
//! place of another is one thing: two jobs are never mixed.

use std::collections::BTreeMap;

use super::exchange::PutAway;
use super::fields::{Field, Of};
use super::job_text::{JobText, OF_STEEL, Texts};
use super::own_steel::OwnSteel;
use super::session::Session;

/// What one of two changed; ours where both did.
fn changed<T: PartialEq>(base: &T, ours: T, theirs: T) -> T {
    if ours == *base { theirs } else { ours }
}

impl Session {
    /// Our changes since `base`, upon theirs.
    #[must_use]
    pub fn merged(mut base: Self, mut ours: Self, mut theirs: Self) -> Self {
        // A bare number means the unit of its window: it is written out before it moves.
        let units = changed(&base.units, ours.units, theirs.units);
        for session in [&mut base, &mut ours, &mut theirs] {
            if session.units != units {
                session.switch_units(units);
            }
        }
        tell_apart(&mut base, &mut ours, &theirs);
        let put_away = put_away(&base, &ours, &theirs);
        let (we, they) = exchanged(&base, &ours, &theirs);
        let mut merged = Self {
            language: changed(&base.language, ours.language, theirs.language),
            theme: changed(&base.theme, ours.theme, theirs.theme),
            text_size: changed(&base.text_size, ours.text_size, theirs.text_size),
            controls: changed(&base.controls, ours.controls, theirs.controls),
            units,
            place: changed(&base.place, ours.place, theirs.place),
            job: match (we, they) {
                (true, _) => ours.job,
                (false, true) => theirs.job,
                (false, false) => job(base.job, ours.job, theirs.job),
            },
            job_mark: changed(&base.job_mark, ours.job_mark, theirs.job_mark),
            typed: map(&base.typed, ours.typed, theirs.typed),
            choices: map(&base.choices, ours.choices, theirs.choices),
            own_steels: steels(&base.own_steels, &ours.own_steels, &theirs.own_steels),
        };
        if let Some(away) = &put_away {
            merged.change_put_away(away);
        }
        merged
    }
}

/// Has one of them put another job in the place of the one that both began with? Two jobs are never
/// mixed. The same exchange in both is none between them.
fn exchanged(base: &Session, ours: &Session, theirs: &Session) -> (bool, bool) {
    let other = |session: &Session| session.job_mark != base.job_mark;
    let same = ours.job_mark == theirs.job_mark;
    (!same && other(ours), !same && other(theirs))
}

/// Where one put the job away while the other one still typed into it: what was put away with what
/// was typed. None where there is nothing to add.
fn put_away(base: &Session, ours: &Session, theirs: &Session) -> Option<PutAway> {
    let written = |session: &Session| session.job.with_units_written(session.units);
    let away = |session: &Session| {
        let known = base.put_away();
        session.put_away().into_iter().find(|away| !known.contains(away))
    };
    match exchanged(base, ours, theirs) {
        (true, false) if theirs.job != base.job => {
            let PutAway { key, job: ours } = away(ours)?;
            Some(PutAway { key, job: job(written(base), ours, written(theirs)) })
        }
        (false, true) if ours.job != base.job => {
            let PutAway { key, job: theirs } = away(theirs)?;
            Some(PutAway { key, job: job(written(base), written(ours), theirs) })
        }
        _ => None,
    }
}

/// Key by key.
fn map<K: Ord + Clone, V: PartialEq + Clone>(
    base: &BTreeMap<K, V>,
    ours: BTreeMap<K, V>,
    theirs: BTreeMap<K, V>,
) -> BTreeMap<K, V> {
    let mut merged = theirs;
    for key in base.keys() {
        if !ours.contains_key(key) {
            merged.remove(key);
        }
    }
    for (key, value) in ours {
        if base.get(&key) != Some(&value) {
            merged.insert(key, value);
        }
    }
    merged
}

/// Field by field. Parts and runs that came or went are no longer the same ones: then the list is
/// one thing.
fn job(base: JobText, ours: JobText, theirs: JobText) -> JobText {
    let alike = |of: Of| base.count(of) == ours.count(of) && base.count(of) == theirs.count(of);
    let list = |alike: bool, base: Vec<Texts>, ours: Vec<Texts>, theirs: Vec<Texts>| {
        if !alike {
            return changed(&base, ours, theirs);
        }
        let all = base.into_iter().zip(ours).zip(theirs);
        all.map(|((base, ours), theirs)| part(&base, ours, theirs)).collect()
    };
    let (parts, runs) = (alike(Of::Part), alike(Of::Run));
    JobText {
        whole: map(&base.whole, ours.whole, theirs.whole),
        parts: list(parts, base.parts, ours.parts, theirs.parts),
        runs: list(runs, base.runs, ours.runs, theirs.runs),
    }
}

/// Field by field; but what is said of a steel goes with that steel: where one window took another,
/// nothing that the other says of the old one belongs to it.
fn part(base: &Texts, ours: Texts, theirs: Texts) -> Texts {
    const WHICH: [Field; 2] = [Field::Steel, Field::Certificate];
    let other = |texts: &Texts| WHICH.iter().any(|field| texts.get(field) != base.get(field));
    let of_steel = match (other(&ours), other(&theirs)) {
        (true, _) => ours.clone(),
        (false, true) => theirs.clone(),
        (false, false) => return map(base, ours, theirs),
    };
    let mut merged = map(base, ours, theirs);
    for field in WHICH.into_iter().chain(OF_STEEL) {
        match of_steel.get(&field) {
            Some(text) => merged.insert(field, text.clone()),
            None => merged.remove(&field),
        };
    }
    merged
}

fn called<'a>(steels: &'a [OwnSteel], name: &str) -> Option<&'a OwnSteel> {
    steels.iter().find(|own| own.is_called(name))
}

/// Where both made, or changed, a steel of one name and not to the same, ours gets another name,
/// wherever we use it.
fn tell_apart(base: &mut Session, ours: &mut Session, theirs: &Session) {
    let clash = |own: &OwnSteel| {
        let before = called(&base.own_steels, &own.name);
        let other = called(&theirs.own_steels, &own.name);
        other.is_some_and(|other| other != own && before != Some(own) && before != Some(other))
    };
    let names: Vec<String> =
        ours.own_steels.iter().filter(|own| clash(own)).map(|own| own.name.clone()).collect();
    for name in names {
        let taken = |name: &str| {
            called(&ours.own_steels, name).is_some() || called(&theirs.own_steels, name).is_some()
        };
        let Some(free) = (2..).map(|count| format!("{} ({count})", name.trim())).find(|free| !taken(free))
        else {
            continue;
        };
        ours.rename_steel(&name, &free);
        // The drafts of both are new then: each stays with its steel.
        base.remove_drafts(|steel| OwnSteel { name: name.clone(), ..OwnSteel::default() }.is_called(steel));
    }
}

/// Steel by steel. One that was changed in one window and deleted in the other stays.
fn steels(base: &[OwnSteel], ours: &[OwnSteel], theirs: &[OwnSteel]) -> Vec<OwnSteel> {
    let mut merged: Vec<OwnSteel> = Vec::new();
    for own in theirs.iter().chain(ours) {
        if called(&merged, &own.name).is_some() {
            continue;
        }
        let before = called(base, &own.name);
        let stays = match (before, called(ours, &own.name), called(theirs, &own.name)) {
            (_, Some(ours), Some(theirs)) if Some(ours) == before => Some(theirs),
            (_, Some(ours), Some(_)) => Some(ours),
            // Gone in the other window: kept where it is new or was changed here.
            (before, Some(one), None) | (before, None, Some(one)) if before != Some(one) => Some(one),
            _ => None,
        };
        merged.extend(stays.cloned());
    }
    merged
}
