//! The readings of a log as comma-separated values, RFC 4180: a row for each, in the order of time.

use crate::engine::reading::judge;
use crate::log::{ReadingTaken, Standing, Thing};
use crate::report::{Pen, instrument_words};
use crate::units::TemperatureUnit;

/// The names of the columns. They are ids and stay the same in any language.
const COLUMNS: [&str; 27] = [
    "job",
    "piece",
    "trial_piece",
    "time",
    "when",
    "run",
    "part",
    "face",
    "distance_mm",
    "distance_in",
    "instrument",
    "instrument_setting",
    "typed",
    "shows_c",
    "shows_f",
    "low_c",
    "low_f",
    "high_c",
    "high_f",
    "peak",
    "verdict",
    "minimum_c",
    "maximum_c",
    "ceiling_c",
    "versions",
    "note",
    "record",
];

/// The readings of a log, those without a standing piece included. Figures have a point as decimal mark.
#[must_use]
pub fn csv(pen: &Pen<'_>, standing: &Standing<'_>) -> String {
    let mut out = line(&COLUMNS.map(str::to_owned));
    for reading in &standing.readings {
        out.push_str(&line(&cells(pen, standing, reading)));
    }
    out
}

fn cells(pen: &Pen<'_>, standing: &Standing<'_>, reading: &Thing<'_, ReadingTaken>) -> [String; 27] {
    let now = reading.now;
    let job = standing.job.as_ref().map(|job| job.now);
    let plan = job.map(|job| &job.plan);
    let limits = plan.map(crate::log::PlanCopy::limits).unwrap_or_default();
    let judged = judge(&now.band, now.when, &limits);
    let piece = standing.pieces.iter().find(|piece| piece.id == now.piece);
    let trial = standing.trials.iter().find(|trial| trial.id == now.piece);
    let part = now.member.map(|nth| {
        let known = plan.and_then(|plan| plan.members.get(usize::try_from(nth).ok()?));
        known.map_or_else(|| nth.saturating_add(1).to_string(), |member| member.name.clone())
    });
    let shows_c = now.seen.shows_c();
    let (low_c, high_c) = (now.band.low_c, now.band.high_c);
    let run = if let crate::engine::reading::When::BeforeRun(run) = now.when { Some(run) } else { None };
    [
        job.map_or_else(String::new, |job| job.name.clone()),
        piece.map_or_else(String::new, |piece| piece.now.number.to_string()),
        trial.map_or_else(String::new, |trial| trial.now.name.clone()),
        now.at.to_string(),
        now.when.id().to_owned(),
        run.map_or_else(String::new, |run| run.to_string()),
        part.unwrap_or_default(),
        now.face.id().to_owned(),
        figure(now.away_mm),
        figure(now.away_mm.map(|away_mm| away_mm / 25.4)),
        now.seen.instrument().to_owned(),
        instrument_words(pen, &now.seen),
        now.typed.clone(),
        figure(shows_c),
        figure(fahrenheit(shows_c)),
        figure(low_c),
        figure(fahrenheit(low_c)),
        figure(high_c),
        figure(fahrenheit(high_c)),
        if now.band.peak { "yes" } else { "no" }.to_owned(),
        judged.verdict.map_or("no-limit", crate::engine::reading::Verdict::id).to_owned(),
        figure(limits.minimum_c),
        figure(limits.maximum_c),
        figure(limits.ceiling_c),
        (1 + reading.others.len()).to_string(),
        now.note.clone(),
        reading.record.id.to_string(),
    ]
}

fn fahrenheit(at_c: Option<f64>) -> Option<f64> {
    at_c.map(|at_c| TemperatureUnit::F.from_c(at_c))
}

/// A figure with at most two decimals; nothing where there is none.
fn figure(value: Option<f64>) -> String {
    value.filter(|value| value.is_finite()).map_or_else(String::new, |value| {
        let fixed = format!("{value:.2}");
        fixed.trim_end_matches('0').trim_end_matches('.').to_owned()
    })
}

fn line(cells: &[String]) -> String {
    let cells: Vec<String> = cells.iter().map(|cell| quoted(cell)).collect();
    cells.join(",") + "\r\n"
}

/// A cell as RFC 4180 has it. A text that a spreadsheet would work out as a formula gets an apostrophe
/// before it, which spreadsheets take as "this is text".
fn quoted(cell: &str) -> String {
    let formula = cell.starts_with(['=', '+', '@', '\t', '\r'])
        || (cell.starts_with('-') && cell.parse::<f64>().is_err());
    let text = if formula { format!("'{cell}") } else { cell.to_owned() };
    if text.contains([',', '"', '\n', '\r']) { format!("\"{}\"", text.replace('"', "\"\"")) } else { text }
}
