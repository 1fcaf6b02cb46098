//! Records, logs and falls as cases of the laws.

use proptest::prelude::*;
use strawblue::engine::reading::{Band, Fall, Falls, Gun, Look, Seen, Touch, When};
use strawblue::log::{
    Cooled, CrackOutcome, Entry, Face, Id, JobEntry, LimitCopy, Log, Moment, PieceEntry, PlanCopy,
    ReadingTaken, Record, StepDone, TrialPiece, Used,
};
use uuid::Uuid;

/// A small id, so that records meet.
pub(crate) fn id(number: u128) -> Id {
    Id(Uuid::from_u128(0x7000_8000_0000_0000_0000 | number))
}

pub(crate) fn some_id() -> impl Strategy<Value = Id> {
    (1..12_u128).prop_map(id)
}

/// Texts with all that could upset a file.
pub(crate) fn text() -> impl Strategy<Value = String> {
    prop_oneof![
        Just(String::new()),
        "[a-zäß\"'\\\\,()\\[\\]{}:;\n\r\t #/*-]{0,12}",
        "\\PC{0,8}",
        Just("(sum: \"0\", record: (".to_owned()),
        Just("count: 3,\n)\n".to_owned()),
    ]
}

pub(crate) fn moment() -> impl Strategy<Value = Moment> {
    (-4_000_000_000_i64..8_000_000_000, -1439_i16..1440)
        .prop_map(|(utc_s, offset)| Moment::new(utc_s, offset))
}

pub(crate) fn degree() -> impl Strategy<Value = f64> {
    prop_oneof![0.0..700.0_f64, Just(300.0), Just(350.0), Just(-0.0)]
}

pub(crate) fn band() -> impl Strategy<Value = Band> {
    let end = || prop::option::of(degree());
    (end(), end(), end(), any::<bool>()).prop_map(|(one, other, judged_low_c, peak)| {
        let (low_c, high_c) = match (one, other) {
            (Some(one), Some(other)) => (Some(one.min(other)), Some(one.max(other))),
            open => open,
        };
        Band { low_c, high_c, judged_low_c, peak }
    })
}

pub(crate) fn when() -> impl Strategy<Value = When> {
    prop_oneof![
        Just(When::Heating),
        Just(When::BeforeTack),
        (1..5_u32).prop_map(When::BeforeRun),
        Just(When::BetweenRuns),
        Just(When::PostHeat),
        Just(When::Cooling),
    ]
}

fn seen() -> impl Strategy<Value = Seen> {
    prop_oneof![
        (degree(), 0.1..1.0_f64, text()).prop_map(|(shows_c, emissivity, surface)| {
            Seen::Gun(Gun { shows_c, emissivity, surface, shop_c: 15.0 })
        }),
        degree().prop_map(|shows_c| Seen::Touched { with: Touch::Thermocouple, shows_c }),
        (prop::option::of(degree()), prop::option::of(degree()))
            .prop_map(|(melted_c, stayed_c)| Seen::Crayons { melted_c, stayed_c }),
        text().prop_map(|from| Seen::Colour {
            to: from.clone(),
            from,
            look: Look::Afterwards,
            chromium_pct: Some(1.1),
        }),
    ]
}

pub(crate) fn reading() -> impl Strategy<Value = ReadingTaken> {
    let place = (some_id(), moment(), prop::option::of(0..3_u32), prop::option::of(degree()));
    (place, when(), text(), seen(), band(), text()).prop_map(|(place, when, typed, seen, band, note)| {
        let (piece, at, member, away_mm) = place;
        ReadingTaken { piece, at, member, face: Face::Far, away_mm, when, typed, seen, band, note }
    })
}

/// A plan that a log may hold, small.
pub(crate) fn plan() -> impl Strategy<Value = PlanCopy> {
    (text(), 100.0..320.0_f64, 30.0..200.0_f64, any::<bool>()).prop_map(
        |(title, minimum_c, room_k, answers)| {
            let limit = |at_c: f64| Some(LimitCopy { at_c, exact_c: at_c, ..LimitCopy::default() });
            PlanCopy {
                title,
                answers,
                minimum: limit(minimum_c),
                maximum: limit(minimum_c + room_k),
                ceiling: limit(minimum_c + 2.0 * room_k),
                shop_c: 15.0,
                ..PlanCopy::default()
            }
        },
    )
}

fn entry() -> BoxedStrategy<Entry> {
    prop_oneof![
        (text(), 0..9_u32, any::<bool>(), plan()).prop_map(|(name, pieces, example, plan)| {
            Entry::Job(Box::new(JobEntry { name, pieces, example, plan, ..JobEntry::default() }))
        }),
        (0..9_u32, text(), any::<bool>()).prop_map(|(number, note, finished)| {
            Entry::Piece(PieceEntry { number, heat_numbers: vec![note.clone()], note, finished })
        }),
        (some_id(), 0..9_u32, moment(), text()).prop_map(|(piece, number, at, note)| {
            Entry::Step(StepDone { piece, number, branch: note.clone(), at, note })
        }),
        reading().prop_map(|reading| Entry::Reading(Box::new(reading))),
        (text(), band(), moment()).prop_map(|(name, band, at)| {
            let (cooled, outcome) = (Cooled::Fast, CrackOutcome::Cracked);
            Entry::Trial(Box::new(TrialPiece { name, band, at, cooled, outcome, ..TrialPiece::default() }))
        }),
        (text(), 0.0..9.0_f64, moment()).prop_map(|(what, amount, at)| {
            Entry::Used(Used { unit: what.clone(), what, amount, at, piece: None, note: String::new() })
        }),
        Just(Entry::Withdrawn),
    ]
    .boxed()
}

/// A record: the ids are few, so that some replace others, some in a circle, and some share an id.
pub(crate) fn record() -> BoxedStrategy<Record> {
    let all = (some_id(), 1..5_u128, text(), moment(), prop::collection::vec(some_id(), 0..3), entry());
    all.prop_map(|(id, thing, device, at, replaces, entry)| Record {
        id,
        thing: self::id(thing),
        device,
        at,
        replaces,
        entry,
    })
    .boxed()
}

pub(crate) fn records() -> impl Strategy<Value = Vec<Record>> {
    prop::collection::vec(record(), 0..14)
}

pub(crate) fn log_of(records: &[Record]) -> Log {
    records.iter().cloned().collect()
}

/// A fall from hot to cold.
fn fall() -> impl Strategy<Value = Fall> {
    (prop::collection::vec((0.05..9.0_f64, 0.5..40.0_f64), 1..20), 150.0..640.0_f64).prop_map(
        |(steps, from_c)| {
            let mut points = vec![(0.0, from_c)];
            for (minutes, by_k) in steps {
                let (minute, at_c) = points[points.len() - 1];
                points.push((minute + minutes, at_c - by_k));
            }
            Fall { points }
        },
    )
}

pub(crate) fn falls() -> impl Strategy<Value = Falls> {
    (fall(), fall()).prop_map(|(quick, slow)| Falls { quick, slow })
}
