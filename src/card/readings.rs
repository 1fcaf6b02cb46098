//! What a card says of the readings: a plot of each piece against the limits, and a table of each.

use super::content::{Block, Cell, Column, Picture, Sign, Table};
use super::degrees::degrees;
use super::of_plan::heading;
use super::pieces_picture::{Dot, FEWEST, PIECES, PieceColumn, PiecesPicture};
use super::said;
use crate::engine::reading::Verdict;
use crate::log::{CrackOutcome, Overview, PieceView, PlanCopy, ReadingView, Standing, StepCopy, TrialPiece};
use crate::report::{Pen, band_words, day_and_time, instrument_words, step_what, when_words};
use crate::words::List;

/// A reading further than this beyond the limits is drawn at the edge: the table has its figure. K.
const REACH_K: f64 = 60.0;

/// The temperatures of a plot of readings.
#[derive(Debug, Clone, PartialEq)]
pub struct Scale {
    /// From where to where, °C.
    pub span_c: (f64, f64),
    /// Figures along it: °C, as written, is it a limit? Limits come first.
    pub figures: Vec<(f64, String, bool)>,
}

/// The temperatures of a plot of readings against the limits of a plan: one scale on paper and on the screen.
#[must_use]
pub fn scale(pen: &Pen<'_>, plan: &PlanCopy, seen: &[f64]) -> Scale {
    let limits = plan.limits();
    let span_c = span(&[limits.minimum_c, limits.maximum_c], seen);
    Scale { span_c, figures: degrees(pen, plan, span_c, step(span_c)) }
}

/// The plots of all pieces, and of the trial pieces that were read.
pub(super) fn plots(
    pen: &Pen<'_>,
    plan: &PlanCopy,
    (all, standing): (&[Group<'_>], &Standing<'_>),
    blocks: &mut Vec<Block>,
) {
    let unit = pen.show.units.temperature.symbol();
    blocks.push(heading(pen, "card-readings", pen.words.with("card-readings-order", &[("unit", unit)])));
    let trials = standing.trials.iter().filter_map(|trial| trial_column(pen, trial.now));
    let mut columns: Vec<PieceColumn> = trials.collect();
    if all.iter().all(|group| group.readings.is_empty()) && columns.is_empty() {
        blocks.push(Block::Text(pen.words.get("card-readings-none")));
        return;
    }
    let limits = plan.limits();
    let dots = |group: &Group<'_>| group.readings.iter().filter_map(dot).collect::<Vec<Dot>>();
    let welding = |reading: &&ReadingView<'_>| reading.thing.now.when.in_welding();
    let seen = all.iter().flat_map(|group| group.readings.iter().filter(welding).filter_map(dot));
    let seen: Vec<f64> = seen.map(|dot| dot.at_c).collect();
    let Scale { span_c, figures } = scale(pen, plan, &seen);
    columns.extend(all.iter().map(|group| PieceColumn {
        name: group.short.clone(),
        lines: summary(pen, group),
        dots: dots(group),
    }));
    // A full row is a full row on each of several pictures.
    let slots = columns.len().clamp(FEWEST, PIECES);
    for pieces in columns.chunks(PIECES) {
        let spoken = pieces.iter().map(|piece| {
            let how = pen.words.list(List::Comma, &piece.lines);
            pen.words.with("card-plot-piece", &[("name", &piece.name), ("says", &how)])
        });
        let says = pen.words.list(List::Sentences, &spoken.collect::<Vec<_>>());
        let picture = PiecesPicture {
            minimum_c: limits.minimum_c,
            maximum_c: limits.maximum_c,
            ceiling_c: limits.ceiling_c,
            span_c,
            degrees: figures.clone(),
            slots,
            pieces: pieces.to_vec(),
        };
        blocks.push(Block::Picture { says, picture: Picture::Pieces(picture) });
    }
    let mut notes = vec![pen.words.get("card-plot-note")];
    let one_sided = columns.iter().flat_map(|column| &column.dots).any(Dot::is_one_sided);
    notes.extend(one_sided.then(|| pen.words.get("log-plot-open")));
    blocks.push(Block::Note(pen.words.list(List::Sentences, &notes)));
}

/// The steps of the whole job, with each time at which one was marked as done.
pub(super) fn job_steps(pen: &Pen<'_>, plan: &PlanCopy, standing: &Standing<'_>, blocks: &mut Vec<Block>) {
    let line = |step: &StepCopy| {
        let done = standing.steps.iter().map(|done| done.now);
        let same = done.filter(|done| done.number == step.number && done.branch == step.branch);
        let times: Vec<String> = same.map(|done| day_and_time(pen, done.at)).collect();
        let (number, times) = (step.number.to_string(), pen.words.list(List::Comma, &times));
        let what = step_what(pen.words, plan, step);
        let values = [("number", number.as_str()), ("what", &what), ("times", &times)];
        (!times.is_empty()).then(|| Block::Text(pen.words.with("card-job-step", &values)))
    };
    let lines: Vec<Block> = plan.steps.iter().filter(|step| step.is_of_job()).filter_map(line).collect();
    if !lines.is_empty() {
        blocks.push(heading(pen, "card-job-steps", String::new()));
        blocks.extend(lines);
    }
}

/// Readings that belong together, with their name in a plot and over a table.
pub(super) struct Group<'a> {
    pub(super) short: String,
    pub(super) long: String,
    pub(super) notes: Vec<String>,
    pub(super) readings: Vec<ReadingView<'a>>,
}

/// The pieces, then the trial pieces, then what belongs to none of them.
pub(super) fn groups<'a>(pen: &Pen<'_>, overview: &Overview<'a>, standing: &Standing<'a>) -> Vec<Group<'a>> {
    let mut made: Vec<Group<'a>> = overview.pieces.iter().map(|piece| of_piece(pen, piece)).collect();
    for trial in &standing.trials {
        let readings: Vec<ReadingView<'a>> = overview
            .trial_readings
            .iter()
            .filter(|reading| reading.thing.now.piece == trial.id)
            .cloned()
            .collect();
        if !readings.is_empty() {
            let name = trial.now.name.clone();
            let long = pen.words.with("card-trial-named", &[("name", &name)]);
            made.push(Group { short: name, long, notes: Vec::new(), readings });
        }
    }
    made
}

fn of_piece<'a>(pen: &Pen<'_>, piece: &PieceView<'a>) -> Group<'a> {
    let now = piece.thing.now;
    let number = now.number.to_string();
    let heats: Vec<&String> = now.heat_numbers.iter().filter(|heat| !heat.is_empty()).collect();
    let mut notes = Vec::new();
    if !heats.is_empty() {
        let heats = pen.words.list(List::Comma, &heats);
        notes.push(pen.words.with("card-heat-numbers", &[("numbers", &heats)]));
    }
    if !piece.steps.is_empty() {
        let mut done: Vec<u32> = piece.steps.iter().map(|step| step.now.number).collect();
        done.sort_unstable();
        done.dedup();
        let done: Vec<String> = done.iter().map(u32::to_string).collect();
        let done = pen.words.list(List::Comma, &done);
        notes.push(pen.words.with("card-steps-done", &[("numbers", &done)]));
    }
    notes.extend((!now.note.is_empty()).then(|| now.note.clone()));
    if now.finished {
        notes.push(pen.words.get("card-finished"));
    }
    Group {
        long: pen.words.with("card-piece", &[("number", &number)]),
        short: number,
        notes,
        readings: piece.readings.clone(),
    }
}

/// The table of each group that has readings or a note.
pub(super) fn tables(pen: &Pen<'_>, plan: &PlanCopy, all: &[Group<'_>], blocks: &mut Vec<Block>) {
    let told = |group: &&Group<'_>| !group.readings.is_empty() || !group.notes.is_empty();
    if !all.iter().any(|group| told(&group)) {
        return;
    }
    blocks.push(heading(pen, "card-each-reading", String::new()));
    for group in all.iter().filter(told) {
        let aside = pen.words.list(List::Comma, &summary(pen, group));
        blocks.push(Block::Heading { level: 3, text: group.long.clone(), aside });
        if !group.notes.is_empty() {
            blocks.push(Block::Note(pen.words.list(List::Semicolon, &group.notes)));
        }
        if !group.readings.is_empty() {
            blocks.push(Block::Table(table(pen, plan, group)));
        }
    }
}

fn table(pen: &Pen<'_>, plan: &PlanCopy, group: &Group<'_>) -> Table {
    let noted = |reading: &ReadingView<'_>| reading.thing.in_conflict() || !reading.thing.now.note.is_empty();
    let with_notes = group.readings.iter().any(noted);
    let mut columns = vec![
        ("card-column-time", 0.107),
        ("card-column-when", 0.12),
        ("card-column-where", 0.2),
        ("card-column-instrument", 0.145),
        ("card-column-read", 0.09),
        ("card-column-steel", 0.14),
        ("card-column-verdict", if with_notes { 0.15 } else { 0.2 }),
    ];
    columns.extend(with_notes.then_some(("card-column-note", 0.15)));
    let mut day = String::new();
    let row = |reading: &ReadingView<'_>| {
        let now = reading.thing.now;
        let (own_day, time) = now.at.day_and_time();
        // The day stands where it changes.
        let at = if own_day == day { time } else { day_and_time(pen, now.at) };
        day = own_day;
        let (sign, verdict) = said::verdict(pen, &reading.judged, now.when);
        let mut notes: Vec<String> = Vec::new();
        notes.extend(reading.thing.in_conflict().then(|| pen.words.get("card-two-versions")));
        notes.extend((!now.note.is_empty()).then(|| now.note.clone()));
        let mut cells = vec![
            at.into(),
            when_words(pen, now.when).into(),
            said::place(pen, plan, now).into(),
            instrument_words(pen, &now.seen).into(),
            said::shown(pen, now).into(),
            said::steel_has(pen, &now.band).into(),
            Cell { sign, text: verdict },
        ];
        cells.extend(with_notes.then(|| pen.words.list(List::Semicolon, &notes).into()));
        cells
    };
    Table {
        summary: pen.words.with("card-readings-of", &[("name", &group.long)]),
        columns: columns
            .iter()
            .map(|(key, share)| Column { head: pen.words.get(key), share: *share })
            .collect(),
        rows: group.readings.iter().map(row).collect(),
    }
}

/// A reading in a plot; none for one whose temperature nobody can say.
fn dot(reading: &ReadingView<'_>) -> Option<Dot> {
    let band = &reading.thing.now.band;
    let welding = reading.thing.now.when.in_welding();
    let sign = match reading.judged.verdict {
        // The range of the picture does not count then.
        Some(Verdict::In) if !welding => Sign::NoLimit,
        Some(Verdict::In) => Sign::Inside,
        Some(Verdict::Below) => Sign::Below,
        Some(Verdict::Over) => Sign::Over,
        Some(Verdict::CannotTell) => Sign::CannotTell,
        None => Sign::NoLimit,
    };
    Dot::of((band.low_c, band.high_c), sign)
}

/// A trial piece in a plot: the temperature that it was welded at, and whether it cracked.
fn trial_column(pen: &Pen<'_>, trial: &TrialPiece) -> Option<PieceColumn> {
    let sign = match trial.outcome {
        CrackOutcome::NotYet => Sign::NoLimit,
        CrackOutcome::Sound => Sign::NotCracked,
        CrackOutcome::Cracked => Sign::Cracked,
    };
    let range = band_words(pen, &trial.band);
    let dot = Dot::of((trial.band.low_c, trial.band.high_c), sign)?;
    Some(PieceColumn {
        name: trial.name.clone(),
        lines: vec![said::cracked(pen, trial.outcome).1, range],
        dots: vec![dot],
    })
}

/// How a group went, in a few words.
fn summary(pen: &Pen<'_>, group: &Group<'_>) -> Vec<String> {
    if group.readings.is_empty() {
        return vec![pen.words.get("card-dots-none")];
    }
    let count = |verdict: Verdict| {
        group.readings.iter().filter(|reading| reading.judged.verdict == Some(verdict)).count()
    };
    let bad = [
        (Verdict::Below, "card-dots-below"),
        (Verdict::Over, "card-dots-over"),
        (Verdict::CannotTell, "card-dots-unclear"),
    ];
    let mut lines: Vec<String> = bad
        .into_iter()
        .map(|(verdict, key)| (count(verdict), key))
        .filter(|(count, _)| *count > 0)
        .map(|(count, key)| pen.words.count(key, count, &[]))
        .collect();
    let (inside, all) = (count(Verdict::In), group.readings.len());
    if inside > 0 {
        let key = if inside == all { "card-dots-all-inside" } else { "card-dots-inside" };
        lines.insert(0, pen.words.count(key, inside, &[]));
    }
    let open = group.readings.iter().filter(|reading| reading.judged.verdict.is_none()).count();
    lines.extend((open > 0).then(|| pen.words.count("card-dots-not-judged", open, &[])));
    lines
}

/// The temperatures of a plot: the limits with room about them, and readings as far as they reach.
fn span(limits: &[Option<f64>; 2], seen: &[f64]) -> (f64, f64) {
    let known = || limits.iter().flatten().copied();
    let least = |figures: &mut dyn Iterator<Item = f64>| figures.fold(f64::INFINITY, f64::min);
    let most = |figures: &mut dyn Iterator<Item = f64>| figures.fold(f64::NEG_INFINITY, f64::max);
    let (low, high) = (least(&mut known()), most(&mut known()));
    let (seen_low, seen_high) = (least(&mut seen.iter().copied()), most(&mut seen.iter().copied()));
    if !low.is_finite() {
        return (seen_low - 20.0, seen_high + 20.0);
    }
    let room = ((high - low) * 0.5).max(25.0);
    let reach = |at: f64| at.clamp(low - REACH_K, high + REACH_K);
    ((low - room).min(reach(seen_low) - 10.0), (high + room).max(reach(seen_high) + 10.0))
}

/// From line to line, so that there are at most six, °C.
fn step((low, high): (f64, f64)) -> f64 {
    let round = [10.0, 20.0, 50.0, 100.0, 200.0];
    round.into_iter().find(|step| (high - low) / step <= 6.0).unwrap_or(500.0)
}
