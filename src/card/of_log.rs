//! From a log to what its card says.

use super::content::{Block, Cell, Column, Content, Table};
use super::of_plan::{self, heading};
use super::readings::{self, Group};
use super::said;
use crate::engine::reading::judge;
use crate::log::{
    Cooled, LogNote, Moment, Overview, PlanCopy, ReadingView, Record, Standing, TrialPiece, bounds,
};
use crate::report::{Pen, day_and_time, taught_lines};
use crate::words::List;

/// What of a log's file could not be read.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Lost {
    /// So many lines.
    pub lines: usize,
    /// Does its end miss?
    pub cut: bool,
    /// So many of its files cannot be read at all.
    pub files: usize,
}

impl Lost {
    /// What the notes on the files of a job say of it.
    #[must_use]
    pub fn of(notes: &[LogNote]) -> Self {
        let mut lost = Self::default();
        for note in notes.iter().filter(|note| note.is_loss()) {
            match note {
                LogNote::Damaged { lines, .. } => lost.lines += lines,
                _ => lost.files += 1,
            }
        }
        lost
    }
}

/// What the card of a log says at a moment; `None` where no job stands in it.
#[must_use]
pub fn content(pen: &Pen<'_>, standing: &Standing<'_>, now: Moment, lost: Lost) -> Option<Content> {
    let job = standing.job.as_ref()?.now;
    let overview = standing.overview(pen.reference, now)?;
    let plan = &job.plan;
    let name = if job.name.is_empty() { pen.words.get("log-unnamed") } else { job.name.clone() };
    let mut groups = readings::groups(pen, &overview, standing);
    groups.extend(of_none(pen, plan, standing));
    let mut blocks = vec![
        Block::Title {
            over: pen.words.get("card-name"),
            name: name.clone(),
            aside: vec![
                day_and_time(pen, now),
                pen.words.with("card-edition", &[("edition", &plan.edition)]),
            ],
        },
        Block::Blanks(blanks(pen, standing)),
    ];
    warnings(pen, standing, lost, &mut blocks);
    blocks.extend(of_plan::parts_named(pen, plan));
    of_plan::answer(pen, plan, &mut blocks);
    of_plan::cycle(pen, plan, &mut blocks);
    of_plan::order(pen, plan, &mut blocks);
    readings::plots(pen, plan, (&groups, standing), &mut blocks);
    readings::job_steps(pen, plan, standing, &mut blocks);
    readings::tables(pen, plan, &groups, &mut blocks);
    trials(pen, plan, standing, &mut blocks);
    used(pen, &overview, &mut blocks);
    conflicts(pen, plan, standing, &mut blocks);
    of_plan::typed(pen, plan, &mut blocks);
    of_plan::details(pen, plan, &mut blocks);
    of_plan::cautions(pen, plan, &mut blocks);
    let names = ["card-welder", "card-checked", "card-date"];
    blocks.push(Block::Signatures(names.iter().map(|key| pen.words.get(key)).collect()));
    blocks.push(Block::Note(pen.words.get("card-no-proof")));
    Some(Content {
        title: pen.words.with("card-title", &[("name", &name)]),
        foot: pen.words.get("plan-footer"),
        blocks,
    })
}

fn blanks(pen: &Pen<'_>, standing: &Standing<'_>) -> Vec<(String, Option<String>)> {
    let Some(job) = standing.job.as_ref().map(|job| job.now) else { return Vec::new() };
    let told = |text: &str| (!text.trim().is_empty()).then(|| text.to_owned());
    let count = usize::try_from(job.pieces).unwrap_or(0).max(standing.pieces.len());
    let trials = standing.trials.len();
    let pieces = pen.words.numbers("card-count", &[("pieces", count), ("trials", trials)], &[]);
    vec![
        (pen.words.get("card-pieces"), Some(pieces)),
        (pen.words.get("card-drawing"), told(&job.drawing)),
        (pen.words.get("card-procedure"), None),
        (pen.words.get("card-welder"), told(&job.welder)),
    ]
}

/// What must be known before anything is read: an example, entries that are lost or stand twice.
fn warnings(pen: &Pen<'_>, standing: &Standing<'_>, lost: Lost, blocks: &mut Vec<Block>) {
    let Some(job) = standing.job.as_ref().map(|job| job.now) else { return };
    if job.example {
        blocks.push(Block::Strong(pen.words.get("card-example")));
    }
    if !job.note.is_empty() {
        blocks.push(Block::Text(job.note.clone()));
    }
    if lost.lines > 0 {
        blocks.push(Block::Strong(pen.words.count("card-lost-lines", lost.lines, &[])));
    }
    if lost.files > 0 {
        blocks.push(Block::Strong(pen.words.get("log-faulty")));
    }
    if lost.cut {
        blocks.push(Block::Strong(pen.words.get("card-cut")));
    }
    let conflicts = standing.conflicts();
    if conflicts > 0 {
        blocks.push(Block::Strong(pen.words.count("card-conflicts-told", conflicts, &[])));
    }
    if !standing.more_jobs.is_empty() {
        blocks.push(Block::Strong(pen.words.get("card-more-jobs")));
    }
}

/// Readings whose piece does not stand: they were taken all the same.
fn of_none<'a>(pen: &Pen<'_>, plan: &PlanCopy, standing: &Standing<'a>) -> Option<Group<'a>> {
    let known = |id| {
        standing.pieces.iter().any(|piece| piece.id == id)
            || standing.trials.iter().any(|trial| trial.id == id)
    };
    let limits = plan.limits();
    let lone = standing.readings.iter().filter(|reading| !known(reading.now.piece));
    let readings: Vec<ReadingView<'a>> = lone
        .map(|reading| ReadingView {
            judged: judge(&reading.now.band, reading.now.when, &limits),
            thing: reading.clone(),
        })
        .collect();
    (!readings.is_empty()).then(|| Group {
        short: pen.words.get("card-no-piece-short"),
        long: pen.words.get("card-no-piece"),
        notes: Vec::new(),
        readings,
    })
}

/// The trial pieces, and what they taught.
fn trials(pen: &Pen<'_>, plan: &PlanCopy, standing: &Standing<'_>, blocks: &mut Vec<Block>) {
    if standing.trials.is_empty() {
        return;
    }
    blocks.push(heading(pen, "card-trials", String::new()));
    blocks.extend(taught_lines(pen, standing).into_iter().map(Block::Text));
    // Trial pieces of this job are of its steels.
    let minimum_c = plan.limits().minimum_c;
    let hottest = bounds(standing).into_iter().filter_map(|bounds| Some(bounds.cracked?.0)).reduce(f64::max);
    if hottest.zip(minimum_c).is_some_and(|(hottest_c, least_c)| hottest_c > least_c) {
        blocks.push(Block::Strong(pen.words.get("card-taught-above-minimum")));
    }
    let columns = [
        ("card-column-name", 0.13),
        ("card-column-steel-name", 0.17),
        ("card-column-time", 0.12),
        ("card-column-welded-at", 0.2),
        ("card-column-cooled", 0.1),
        ("card-column-result", 0.12),
        ("card-column-note", 0.16),
    ];
    let row = |trial: &TrialPiece| {
        let (sign, says) = said::cracked(pen, trial.outcome);
        let cooled = match trial.cooled {
            Cooled::NotTold => pen.words.get("card-not-told"),
            cooled => pen.words.get(&format!("log-cooled-{}", cooled.id())),
        };
        let thick = trial.thickness_mm.map(|thickness_mm| pen.show.size(thickness_mm).main);
        // A steel that is named with its size needs it once.
        let thick = thick.filter(|size| !trial.steel.contains(size.as_str()));
        let steel: Vec<String> = [Some(trial.steel.clone()), thick, Some(trial.heat_number.clone())]
            .into_iter()
            .flatten()
            .filter(|text| !text.is_empty())
            .collect();
        let mut notes = vec![trial.place.clone(), trial.note.clone()];
        if !trial.photo.is_empty() {
            notes.push(pen.words.with("card-photo", &[("file", &trial.photo)]));
        }
        notes.retain(|note| !note.is_empty());
        vec![
            Cell::from(trial.name.clone()),
            pen.words.list(List::Comma, &steel).into(),
            day_and_time(pen, trial.at).into(),
            said::steel_has(pen, &trial.band).into(),
            cooled.into(),
            Cell { sign, text: says },
            pen.words.list(List::Semicolon, &notes).into(),
        ]
    };
    blocks.push(Block::Table(Table {
        summary: pen.words.get("card-trials"),
        columns: columns
            .iter()
            .map(|(key, share)| Column { head: pen.words.get(key), share: *share })
            .collect(),
        rows: standing.trials.iter().map(|trial| row(trial.now)).collect(),
    }));
}

/// What was used beside what was estimated.
fn used(pen: &Pen<'_>, overview: &Overview<'_>, blocks: &mut Vec<Block>) {
    let told: Vec<_> = overview.used.iter().filter(|used| used.any_told || used.estimate.is_some()).collect();
    if told.is_empty() {
        return;
    }
    let amount = |figure: f64, unit: &str| pen.show.with_unit(figure, 2, unit);
    let row = |used: &&crate::log::UsedOf| {
        let estimate = used
            .estimate
            .map_or_else(|| pen.words.get("card-not-known"), |figure| amount(figure, &used.unit));
        let own = if used.any_told { amount(used.told, &used.unit) } else { pen.words.get("card-not-told") };
        vec![Cell::from(used.label.clone()), estimate.into(), own.into()]
    };
    blocks.push(heading(pen, "card-used", String::new()));
    blocks.push(Block::Table(Table {
        summary: pen.words.get("card-used"),
        columns: [("card-column-what", 0.5), ("card-column-estimate", 0.25), ("card-column-used", 0.25)]
            .iter()
            .map(|(key, share)| Column { head: pen.words.get(key), share: *share })
            .collect(),
        rows: told.iter().map(row).collect(),
    }));
}

/// Entries that stand twice, each version in a row; and what was taken back.
fn conflicts(pen: &Pen<'_>, plan: &PlanCopy, standing: &Standing<'_>, blocks: &mut Vec<Block>) {
    let mut rows: Vec<Vec<Cell>> = Vec::new();
    let mut put = |record: &Record, others: &[&Record]| {
        if others.is_empty() {
            return;
        }
        for (at, version) in std::iter::once(record).chain(others.iter().copied()).enumerate() {
            let key = if at == 0 { "card-version-shown" } else { "card-version-other" };
            rows.push(vec![
                pen.words.get(key).into(),
                said::entry(pen, plan, &version.entry).into(),
                day_and_time(pen, version.at).into(),
                Cell::from(version.device.clone()),
            ]);
        }
    };
    standing.job.iter().for_each(|thing| put(thing.record, &thing.others));
    standing.pieces.iter().for_each(|thing| put(thing.record, &thing.others));
    standing.steps.iter().for_each(|thing| put(thing.record, &thing.others));
    standing.readings.iter().for_each(|thing| put(thing.record, &thing.others));
    standing.trials.iter().for_each(|thing| put(thing.record, &thing.others));
    standing.used.iter().for_each(|thing| put(thing.record, &thing.others));
    if !rows.is_empty() {
        blocks.push(heading(pen, "card-conflicts", String::new()));
        let columns = [
            ("card-column-version", 0.12),
            ("card-column-what", 0.52),
            ("card-column-written", 0.14),
            ("card-column-device", 0.22),
        ];
        blocks.push(Block::Table(Table {
            summary: pen.words.get("card-conflicts"),
            columns: columns
                .iter()
                .map(|(key, share)| Column { head: pen.words.get(key), share: *share })
                .collect(),
            rows,
        }));
    }
    let back = standing.withdrawn.len();
    if back > 0 {
        blocks.push(Block::Note(pen.words.count("card-withdrawn", back, &[])));
    }
}
