//! The example of the log: made here from the demo job, with readings that are invented.
//!
//! `STRAWBLUE_BLESS=1` writes it anew, with its plan as it is then.

use strawblue::engine::reading::{Band, Gun, Seen, Touch, Verdict, When};
use strawblue::job::demo_job;
use strawblue::log::{
    Cooled, CrackOutcome, Entry, Face, Id, JobEntry, Log, LogFile, Moment, PieceEntry, PieceStatus, PlanCopy,
    ReadingTaken, Record, StepCopy, StepDone, TrialPiece, Used, bounds, demo_log,
};
use strawblue::reference::embedded;
use strawblue::report::{CopyTyped, copy_of_job, step_head, step_what, written_in};
use strawblue::words::Words;
use uuid::Uuid;

/// 17 March 2026, 07:30 on a clock one hour ahead of UTC.
const BEGINS_S: i64 = 1_773_729_000;
const OFFSET_MIN: i16 = 60;

pub(crate) fn plan_of_demo() -> PlanCopy {
    let cycle = [
        ("fuel", "acetylene"),
        ("fuel-flow", "2.8 m³/h"),
        ("plate-width", "160 mm"),
        ("plate-length", "400 mm"),
    ];
    let pairs: Vec<(String, String)> =
        cycle.iter().map(|(key, text)| ((*key).to_owned(), (*text).to_owned())).collect();
    let words = Words::english();
    copy_of_job(embedded(), &words, &demo_job(), &pairs, CopyTyped::default()).expect("the demo job is read")
}

/// Writes the example, in an order and with ids that are always the same.
struct Script {
    records: Vec<Record>,
    count: u128,
}

impl Script {
    fn moment(minutes: f64) -> Moment {
        Moment::new(BEGINS_S + (minutes * 60.0) as i64, OFFSET_MIN)
    }

    /// Ids of version 7, whose time is that of the record.
    fn say(&mut self, minutes: f64, entry: Entry) -> Id {
        self.count += 1;
        let ms = u128::try_from((BEGINS_S + (minutes * 60.0) as i64) * 1000).expect("after 1970");
        let id = Id(Uuid::from_u128(ms << 80 | 0x7 << 76 | 0x8 << 60 | self.count));
        self.records.push(Record {
            id,
            thing: id,
            device: "example".to_owned(),
            at: Self::moment(minutes),
            replaces: Vec::new(),
            entry,
        });
        id
    }

    fn reading(&mut self, minutes: f64, piece: Id, when: When, member: u32, seen: Seen, typed: &str) {
        let band = seen.band(embedded()).expect("a sound reading");
        self.say(
            minutes,
            Entry::Reading(Box::new(ReadingTaken {
                piece,
                at: Self::moment(minutes),
                member: Some(member),
                face: if member == 0 { Face::Far } else { Face::Edge },
                away_mm: Some(75.0),
                when,
                typed: typed.to_owned(),
                seen,
                band,
                note: String::new(),
            })),
        );
    }

    fn probe(&mut self, minutes: f64, piece: Id, when: When, member: u32, shows_c: f64) {
        let seen = Seen::Touched { with: Touch::ContactProbe, shows_c };
        self.reading(minutes, piece, when, member, seen, &format!("{shows_c} °C"));
    }

    fn step(&mut self, minutes: f64, piece: Id, plan: &PlanCopy, until: &str) {
        for step in &plan.steps {
            let branch = plan.branches().first().copied().unwrap_or_default().to_owned();
            if step.branch.is_empty() || step.branch == branch {
                self.say(
                    minutes,
                    Entry::Step(StepDone {
                        piece,
                        number: step.number,
                        branch: step.branch.clone(),
                        at: Self::moment(minutes),
                        note: String::new(),
                    }),
                );
            }
            if step.phase == until {
                return;
            }
        }
    }
}

fn trial(
    plan: &PlanCopy,
    minutes: f64,
    name: &str,
    shows_c: f64,
    cooled: Cooled,
    outcome: CrackOutcome,
) -> TrialPiece {
    let boss = plan.members.iter().position(|member| member.round).expect("the boss is round");
    let member = &plan.members[boss];
    let seen = Seen::Touched { with: Touch::ContactProbe, shows_c };
    TrialPiece {
        name: name.to_owned(),
        member: u32::try_from(boss).ok(),
        steel: member.name.clone(),
        grade: member.grade.clone(),
        family: member.family.clone(),
        cet: Some(member.cet),
        heat_number: "example B 17".to_owned(),
        thickness_mm: Some(member.thickness_mm),
        at: Script::moment(minutes),
        band: seen.band(embedded()).expect("a sound reading"),
        seen: Some(seen),
        cooled,
        outcome,
        ..TrialPiece::default()
    }
}

fn written() -> (Id, Vec<Record>) {
    let plan = plan_of_demo();
    let limits = plan.limits();
    let (low_c, high_c) = (limits.minimum_c.expect("a minimum"), limits.maximum_c.expect("a maximum"));
    let mut script = Script { records: Vec::new(), count: 0 };
    let job = script.say(
        0.0,
        Entry::Job(Box::new(JobEntry {
            name: "Screen bell crank".to_owned(),
            pieces: 8,
            drawing: "Example drawing: boss Ø90 mm in a 30 mm arm, fillets of 8 mm on both faces".to_owned(),
            welder: "Example".to_owned(),
            note: "An invented batch: it shows what a log looks like".to_owned(),
            example: true,
            plan: plan.clone(),
        })),
    );
    let pieces: Vec<Id> = (1..=8)
        .map(|number| {
            let finished = number <= 2;
            let heat_numbers = vec!["example A 4".to_owned(), "example B 17".to_owned()];
            let note = String::new();
            script.say(0.5, Entry::Piece(PieceEntry { number, heat_numbers, note, finished }))
        })
        .collect();
    let mut cold = trial(&plan, 5.0, "Trial 1", 21.0, Cooled::Fast, CrackOutcome::Cracked);
    cold.place = "Along the fusion line on the boss side, seen the next morning".to_owned();
    script.say(6.0, Entry::Trial(Box::new(cold)));
    let mut warm = trial(&plan, 65.0, "Trial 2", low_c + 25.0, Cooled::Slow, CrackOutcome::Sound);
    warm.place = "No crack on either face after 48 h, magnetic particle test".to_owned();
    script.say(66.0, Entry::Trial(Box::new(warm)));
    for (nth, piece) in pieces[..2].iter().enumerate() {
        let begin = 1500.0 + 130.0 * nth as f64;
        for member in [0, 1] {
            script.probe(begin + f64::from(member), *piece, When::BeforeTack, member, low_c + 32.0);
            script.probe(begin + 22.0 + f64::from(member), *piece, When::BeforeRun(1), member, low_c + 24.0);
            script.probe(begin + 46.0 + f64::from(member), *piece, When::BeforeRun(2), member, low_c + 28.0);
        }
        script.probe(begin + 70.0, *piece, When::Cooling, 1, low_c - 60.0);
        script.step(begin + 90.0, *piece, &plan, "cool");
    }
    // The third was too hot for its second run, and waited.
    let third = pieces[2];
    script.probe(1800.0, third, When::BeforeTack, 0, low_c + 30.0);
    script.probe(1801.0, third, When::BeforeTack, 1, low_c + 26.0);
    script.probe(1822.0, third, When::BeforeRun(2), 0, high_c + 25.0);
    script.probe(1836.0, third, When::BeforeRun(2), 0, high_c - 12.0);
    script.probe(1837.0, third, When::BeforeRun(2), 1, high_c - 26.0);
    script.step(1860.0, third, &plan, "weld");
    // The fourth was first read with a gun on bright steel, which tells nothing, and then with crayons.
    let fourth = pieces[3];
    let gun = Gun { shows_c: 140.0, emissivity: 0.95, surface: "bright".to_owned(), shop_c: 15.0 };
    script.reading(1900.0, fourth, When::BeforeTack, 1, Seen::Gun(gun), "140 °C");
    let crayons = Seen::Crayons { melted_c: Some(316.0), stayed_c: Some(343.0) };
    script.reading(1903.0, fourth, When::BeforeTack, 1, crayons, "316 °C, 343 °C");
    script.probe(1904.0, fourth, When::BeforeTack, 0, low_c - 22.0);
    let used = |what: &str, amount: f64, minutes: f64| {
        Entry::Used(Used {
            what: what.to_owned(),
            amount,
            unit: "kg".to_owned(),
            at: Script::moment(minutes),
            piece: None,
            note: String::new(),
        })
    };
    for (nth, need) in plan.needs.iter().enumerate() {
        let minutes = 1790.0 + nth as f64;
        script.say(minutes, used(&need.id, (need.per_piece * 250.0).ceil() / 100.0, minutes));
    }
    (job, script.records)
}

#[test]
fn the_example_is_read_and_is_the_one_that_is_made() {
    let (job, records) = written();
    let text = LogFile { job, device: "example".to_owned() }.write(&records);
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/data/demo_log.ron");
    if std::env::var_os("STRAWBLUE_BLESS").is_some() {
        std::fs::write(path, &text).expect("writes");
    }
    let there = std::fs::read_to_string(path).expect("reads");
    let read = LogFile::read(&there).expect("a log");
    assert!(read.is_whole(), "{:?} {}", read.damaged, read.cut);
    assert_eq!(read.records.len(), records.len());
    // The plan in it is that of its day: a word, a source or the last digit of a fall may be another one now.
    let plain = |records: &[Record]| {
        let mut log: Vec<Record> = records.to_vec();
        for record in &mut log {
            match &mut record.entry {
                Entry::Job(job) => {
                    let PlanCopy { minimum, maximum, ceiling, job: text, .. } = job.plan.clone();
                    let at_c = [minimum, maximum, ceiling].map(|limit| limit.map(|limit| limit.at_c));
                    job.plan = PlanCopy { job: text, ..PlanCopy::default() };
                    job.note = format!("{} {at_c:?}", job.note);
                }
                Entry::Trial(trial) => (trial.cet, trial.steel) = (None, String::new()),
                _ => {}
            }
        }
        log
    };
    assert_eq!(plain(&read.records), plain(&records), "STRAWBLUE_BLESS=1 writes the example anew");
}

/// A plan that was copied in English names its steps in the reader's language, and says in which its
/// sentences stand.
#[test]
fn the_steps_of_the_example_are_named_in_each_language() {
    let log = demo_log();
    let standing = log.standing();
    let plan = &standing.job.as_ref().expect("a job").now.plan;
    for tag in Words::languages() {
        let words = Words::of(tag);
        let said = written_in(&words, plan);
        assert_eq!(said.is_none(), tag == "en", "{tag}: {said:?}");
        assert!(said.is_none_or(|said| said.contains("English")), "{tag}");
        for step in &plan.steps {
            let (what, head) = (step_what(&words, plan, step), step_head(&words, plan, step));
            assert_eq!(what == step.what, tag == "en", "{tag}: {what}");
            assert_eq!(head.is_empty(), step.head.is_empty(), "{tag}: {head}");
            assert!(head.is_empty() || (head == step.head) == (tag == "en"), "{tag}: {head}");
        }
    }
    // A copy from before the language was kept, a step that names its part, and a deed of a newer
    // program keep their text.
    let german = Words::of("de");
    let step = |deed: &str| StepCopy { deed: deed.into(), what: "As written".into(), ..StepCopy::default() };
    let old = PlanCopy { language: String::new(), ..plan.clone() };
    assert_eq!(step_what(&german, &old, &step("weld")), "As written");
    assert_eq!(step_what(&german, plan, &step("butter")), "As written");
    assert_eq!(step_what(&german, plan, &step("polish")), "As written");
    assert_ne!(step_what(&german, plan, &step("weld")), "As written");
}

#[test]
fn the_example_shows_what_a_log_can_say() {
    if std::env::var_os("STRAWBLUE_BLESS").is_some() {
        return;
    }
    let log: Log = demo_log();
    let standing = log.standing();
    assert!(standing.job.as_ref().expect("a job").now.example);
    let now = Script::moment(1910.0);
    let overview = standing.overview(embedded(), now).expect("a job");
    assert_eq!(overview.pieces.len(), 8);
    let all: Vec<Verdict> = overview
        .pieces
        .iter()
        .flat_map(|piece| &piece.readings)
        .filter_map(|reading| reading.judged.verdict)
        .collect();
    for verdict in Verdict::ALL {
        assert!(all.contains(verdict), "no reading is {verdict:?}");
    }
    let status: Vec<PieceStatus> = overview.pieces.iter().map(|piece| piece.status).collect();
    assert_eq!(status[..2], [PieceStatus::Done; 2]);
    assert_eq!(status[3], PieceStatus::Overdue, "{:?}", overview.pieces[3].clock);
    assert!(status[4..].iter().all(|status| *status == PieceStatus::NotBegun));
    assert_eq!(overview.urgent[0], 3, "{:?}", overview.urgent);
    let taught = bounds(&standing);
    assert_eq!(taught.len(), 1);
    let (sound, cracked) =
        (taught[0].sound.as_ref().expect("sound").0, taught[0].cracked.as_ref().expect("cracked").0);
    assert!(cracked < sound && !taught[0].overlap());
    assert!(Band::default().least_c().is_none());
}
