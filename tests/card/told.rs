//! What a card says of a log: all of it, and nothing better than it is.

use strawblue::card::{Block, Lost, Paper, Picture, content, pages, pdf};
use strawblue::engine::reading::{Band, Seen, When};
use strawblue::job::{Field, JobText};
use strawblue::log::{
    Entry, Hand, JobEntry, LimitCopy, Log, Moment, PieceEntry, PlanCopy, ReadingTaken, StepDone, demo_log,
};
use strawblue::reference::embedded;
use strawblue::report::{CopyTyped, copy_of_job};
use strawblue::units::Units;

use crate::made::{bare, card, now, pen, read, says, words};

fn hand(device: &str) -> Hand {
    Hand::at(device, Moment::new(1_773_740_000, 60))
}

fn holds(text: &str, wanted: &str) -> bool {
    bare(text).contains(&bare(wanted))
}

#[test]
fn the_card_has_every_reading_with_its_verdict() {
    let log = demo_log();
    let text = read(&card(&log, Units::C_MM, Paper::A4));
    let standing = log.standing();
    assert!(standing.readings.len() > 10);
    for reading in &standing.readings {
        // Of crayons the card says which melted and which did not.
        let crayon = matches!(reading.now.seen, Seen::Crayons { .. });
        let shown = if crayon { "316 °C melted, 343 °C did not melt" } else { &reading.now.typed };
        assert!(holds(&text, shown), "{shown}");
    }
    for verdict in ["In the working range", "Below the minimum", "Above the maximum", "Cannot tell"] {
        assert!(holds(&text, verdict), "{verdict}");
    }
    for said in ["Example: an invented job, not real work.", "Cracked", "No crack", "Not given:"] {
        assert!(holds(&text, said), "{said}");
    }
    // The limits with their basis, in both units.
    for said in ["300", "570 °F", "350", "660 °F", "510", "950 °F", "Common practice", "EN 1011-2"] {
        assert!(holds(&text, said), "{said}");
    }
    let plan = &standing.job.as_ref().expect("a job").now.plan;
    for step in &plan.steps {
        assert!(holds(&text, &step.what), "{}", step.what);
        assert!(step.notes.iter().all(|note| holds(&text, note)), "{:?}", step.notes);
    }
    for caution in &plan.cautions {
        assert!(holds(&text, &caution.title) && holds(&text, &caution.do_this), "{}", caution.title);
    }
}

/// A crayon that melted says "at least": the plot runs to its frame with an arrow there, and its words say so.
/// What was done for the whole job stands with its times.
#[test]
fn the_card_shows_ends_that_nobody_knows_and_steps_of_the_whole_job() {
    let mut log = demo_log();
    let arrow = "Arrow: this end is not known.";
    let plots = |log: &Log| {
        let blocks = says(log, Units::C_MM, Lost::default()).blocks;
        let dots = |block: &Block| match block {
            Block::Picture { picture: Picture::Pieces(plot), .. } => {
                plot.pieces.iter().flat_map(|piece| piece.dots.clone()).collect()
            }
            _ => Vec::new(),
        };
        blocks.iter().flat_map(dots).filter(|dot| dot.is_one_sided()).count()
    };
    let before = plots(&log);
    assert_eq!(holds(&read(&card(&log, Units::C_MM, Paper::A4)), arrow), before > 0);
    let first = log.standing().readings[0].now.clone();
    let melted = ReadingTaken {
        seen: Seen::Crayons { melted_c: Some(316.0), stayed_c: None },
        band: Band { high_c: None, ..first.band },
        ..first
    };
    let job = log.standing().job.as_ref().expect("a job").id;
    let make_safe = StepDone {
        piece: job,
        number: 1,
        branch: String::new(),
        at: Moment::new(1_773_740_000, 60),
        note: String::new(),
    };
    let hand = hand("card-test");
    let records = [Entry::Reading(Box::new(melted)), Entry::Step(make_safe)];
    for entry in records {
        log.add(hand.begin(entry));
    }
    assert_eq!(plots(&log), before + 1);
    let text = read(&card(&log, Units::C_MM, Paper::A4));
    assert!(holds(&text, arrow));
    assert!(holds(&text, "1 Make the place safe: done"), "{text}");
}

/// Each page says that codes, drawing and procedure come first.
#[test]
fn each_page_defers() {
    let made = card(&demo_log(), Units::C_MM, Paper::A4);
    let footer = words(Units::C_MM).get("plan-footer");
    for page in 0..made.pages.len() {
        assert!(crate::made::runs(&made, page).any(|(_, run)| run.text.trim() == footer), "page {page}");
    }
}

/// In the other unit the limits are those that the plan printed beside its own, never converted anew.
#[test]
fn a_card_in_the_other_unit_has_the_limits_as_printed() {
    for (units, figure) in [(Units::C_MM, "300"), (Units::F_IN, "570"), (Units::F_MM, "570")] {
        let told = says(&demo_log(), units, Lost::default());
        let limits = told.blocks.iter().find_map(|block| match block {
            Block::Limits(limits) => Some(limits),
            _ => None,
        });
        assert_eq!(limits.expect("limits")[0].figure, figure, "{units:?}");
    }
    let text = read(&card(&demo_log(), Units::F_IN, Paper::Letter));
    assert!(holds(&text, "Words of the plan keep the units"));
    assert!(!bare(&text).contains("572") && !bare(&text).contains("662"), "a limit converted anew");
}

/// A job without anything: the card is whole, and says what is not known.
#[test]
fn an_empty_log_has_a_card() {
    let log: Log = hand("a").begin_job(JobEntry::default()).into_iter().collect();
    for paper in Paper::ALL {
        let made = card(&log, Units::C_MM, paper);
        let text = read(&made);
        assert!(holds(&text, "Job without a name") && holds(&text, "No reading yet."), "{text}");
        assert!(pdf(&made, now()).is_ok());
        // Nothing that looks like a permission.
        assert!(!holds(&text, "In the working range") && !holds(&text, "Minimum preheat"), "{text}");
    }
}

#[test]
fn a_log_without_a_job_has_no_card() {
    let words = words(Units::C_MM);
    let log = Log::default();
    assert!(content(&pen(&words, Units::C_MM), &log.standing(), now(), Lost::default()).is_none());
}

/// A plan that refuses has its refusal on the card, and what it lacks is not known rather than none.
#[test]
fn a_refused_plan_shows_no_figure_as_none() {
    let plan = PlanCopy {
        title: "Do not weld this".to_owned(),
        status: vec!["The steel has lead.".to_owned()],
        maximum: Some(LimitCopy { at_c: 350.0, text: "350\u{a0}°C".to_owned(), ..LimitCopy::default() }),
        ..PlanCopy::default()
    };
    let job = JobEntry { name: "X".to_owned(), plan, ..JobEntry::default() };
    let log: Log = hand("a").begin_job(job).into_iter().collect();
    let text = read(&card(&log, Units::C_MM, Paper::A4));
    for said in ["Do not weld this", "The steel has lead.", "Not known"] {
        assert!(holds(&text, said), "{said}");
    }
    assert!(!text.lines().any(|line| line.contains("None")), "{text}");
}

fn copy_of(pairs: &[(Field, &str)]) -> PlanCopy {
    let mut job = JobText::default();
    for (field, text) in pairs {
        job.set(*field, Some((*text).to_owned()));
    }
    let words = words(Units::C_MM);
    copy_of_job(embedded(), &words, &job, &[], CopyTyped::default()).expect("the job is read")
}

fn card_of(plan: PlanCopy) -> String {
    let job = JobEntry { name: "X".to_owned(), plan, ..JobEntry::default() };
    let log: Log = hand("a").begin_job(job).into_iter().collect();
    read(&card(&log, Units::C_MM, Paper::A4))
}

/// Cast iron has two methods, each with its limits: none of them is a limit of the card, and no preheat is
/// never said to be the minimum.
#[test]
fn two_routes_have_no_limits_in_common() {
    let iron = "Grey iron (A48 Cl 30 / EN-GJL-200 type)";
    let plan = copy_of(&[
        (Field::Steel, iron),
        (Field::Thickness, "30"),
        (Field::Joint, "butt"),
        (Field::Process, "smaw basic"),
        (Field::Hydrogen, "4 ml"),
        (Field::HeatInput, "1.2"),
    ]);
    assert_eq!(plan.verdict, "two-routes");
    assert!(plan.minimum.is_none() && plan.maximum.is_none() && plan.ceiling.is_none(), "{:?}", plan.maximum);
    let text = card_of(plan);
    assert!(holds(&text, "Each method has its own limits."), "{text}");
    assert!(!text.lines().any(|line| line.contains("None") || line.contains("Minimum preheat")), "{text}");
}

/// What a plan says in the place of a ceiling is on the card: "none" is not "not known".
#[test]
fn a_plan_without_a_ceiling_says_so() {
    let plan = copy_of(&[
        (Field::Steel, "S355J2"),
        (Field::Condition, "as rolled"),
        (Field::Thickness, "60"),
        (Field::Joint, "butt"),
        (Field::Process, "smaw basic"),
        (Field::Hydrogen, "4 ml"),
        (Field::HeatInput, "1.2"),
    ]);
    assert!(plan.answers && plan.ceiling.is_none(), "{:?}", plan.ceiling);
    let said = words(Units::C_MM).get("answer-no-ceiling");
    assert_eq!(plan.ceiling_word, said);
    assert!(holds(&card_of(plan), &said));
}

/// Two devices that changed one reading: both versions are on the card, and its first page says so.
#[test]
fn both_versions_of_an_entry_are_shown() {
    let mut log = demo_log();
    let records = {
        let standing = log.standing();
        let reading = &standing.readings[0];
        let noted = |device: &str, note: &str| {
            let now = ReadingTaken { note: note.to_owned(), ..reading.now.clone() };
            hand(device).change(reading, Entry::Reading(Box::new(now)))
        };
        [noted("phone one", "first version"), noted("phone two", "second version")]
    };
    log.extend(records);
    let made = card(&log, Units::C_MM, Paper::A4);
    let text = read(&made);
    for said in ["first version", "second version", "phone one", "phone two", "Two versions"] {
        assert!(holds(&text, said), "{said}");
    }
    let first: String = crate::made::runs(&made, 0).map(|(_, run)| run.text.as_str()).collect();
    assert!(holds(&first, "One entry has two versions."), "{first}");
}

/// What was taken back is counted; a reading whose piece was taken back is still on the card.
#[test]
fn what_was_taken_back_is_told_and_its_readings_stay() {
    let mut log = demo_log();
    let (record, typed) = {
        let standing = log.standing();
        let piece = &standing.pieces[2];
        let of = standing.readings.iter().filter(|reading| reading.now.piece == piece.id);
        (hand("a").withdraw(piece), of.map(|reading| reading.now.typed.clone()).collect::<Vec<_>>())
    };
    log.add(record);
    let text = read(&card(&log, Units::C_MM, Paper::A4));
    assert!(holds(&text, "Readings without a piece") && holds(&text, "One entry was taken back."));
    assert!(!typed.is_empty() && typed.iter().all(|typed| holds(&text, typed)));
}

#[test]
fn what_could_not_be_read_is_told_first() {
    let lost = Lost { lines: 3, cut: true, files: 1 };
    let words = words(Units::C_MM);
    let made = pages(&says(&demo_log(), Units::C_MM, lost), Paper::A4, &words);
    let first: String = crate::made::runs(&made, 0).map(|(_, run)| run.text.as_str()).collect();
    assert!(holds(&first, "3 lines of the job file cannot be read."), "{first}");
    assert!(holds(&first, "The end of the job file is missing."), "{first}");
}

/// Letters that the font lacks are marked, and the card says so; it is made all the same.
#[test]
fn letters_that_the_font_lacks_are_told() {
    let job = JobEntry { name: "曲柄 crank 🔥".to_owned(), pieces: 1, ..JobEntry::default() };
    let log: Log = hand("a").begin_job(job).into_iter().collect();
    let made = card(&log, Units::C_MM, Paper::A4);
    assert!(holds(&read(&made), "◊◊ crank ◊") && holds(&read(&made), "replaces a letter"));
    assert!(pdf(&made, now()).is_ok());
}

/// Outside the weld the working range does not count, and the card does not say that it was kept.
#[test]
fn a_reading_in_cooling_is_not_said_to_be_in_the_working_range() {
    let demo = demo_log();
    let standing = demo.standing();
    let reading = standing.readings.iter().find(|reading| reading.now.when == When::Cooling);
    let reading = reading.expect("the example has one").now.clone();
    let job = standing.job.as_ref().expect("a job").now.clone();
    let mut log = Log::default();
    log.add(hand("a").begin(Entry::Job(Box::new(JobEntry { note: String::new(), ..job }))));
    let piece = hand("a").begin(Entry::Piece(PieceEntry { number: 1, ..PieceEntry::default() }));
    let id = piece.thing;
    log.add(piece);
    log.add(hand("a").begin(Entry::Reading(Box::new(ReadingTaken { piece: id, ..reading }))));
    let told = says(&log, Units::C_MM, Lost::default());
    let verdicts: Vec<String> = told
        .blocks
        .iter()
        .filter_map(|block| match block {
            Block::Table(table) if table.columns.iter().any(|column| column.head == "Verdict") => {
                let place = table.columns.iter().position(|column| column.head == "Verdict")?;
                Some(table.rows.iter().map(move |row| row[place].text.clone()))
            }
            _ => None,
        })
        .flatten()
        .collect();
    assert_eq!(verdicts, ["Not judged"]);
}
