//! The section at one moment in words: its marks, where to measure, what is said of it.

use super::events::phase_key;
use super::section::{Section, Verdict};
use super::section_marks::{Mark, Sign};
use crate::app::rows::model;
use crate::app::screen_values::float;
use crate::app::ui;
use crate::engine::heat_cycle::{JointShape, Matter, Phase};
use crate::report::Pen;
use crate::words::List;

/// Fills what is of the moment; it lies at a place of the axis, from 0 to 1.
pub(super) fn fill(adapter: &ui::CycleAdapter<'_>, pen: &Pen<'_>, section: &Section, at: f64) {
    let time = pen.show.duration(section.field().minute * 60.0);
    let phase = pen.words.get(phase_key(section.field().phase));
    let moment = pen.words.with("cycle-moment-at", &[("time", &time), ("phase", &phase)]);
    adapter.set_moment(moment.as_str().into());
    adapter.set_moment_at(float(at));
    adapter.set_counted(section.counted());
    adapter.set_measure(model(measure_rows(pen, section)));
    adapter.set_section_line(section_line(pen, section).into());
    adapter.set_section_spoken(section_spoken(pen, section, &moment).into());
    adapter.set_drawn(i32::try_from(section.at()).unwrap_or_default());
}

/// The marks of a section with their figures.
pub(super) fn section_marks(pen: &Pen<'_>, section: &Section, width: f64) -> Vec<ui::SectionMark> {
    let minimum_c = section.seen.flames.cycle.minimum_c;
    let unit = pen.show.units.temperature;
    let mut number = 0;
    let mark = |mark: &Mark| {
        let text = if mark.sign == Sign::Dot {
            number += 1;
            pen.show.number(f64::from(number), 0)
        } else {
            // A minimum is judged by its cold end, a maximum by its hot end.
            let at_c = match mark.sign {
                Sign::Coldest => mark.at_c.floor(),
                Sign::Hottest => mark.at_c.ceil(),
                Sign::Level | Sign::Dot => mark.at_c,
            };
            pen.show.number(unit.from_c(at_c), 0)
        };
        ui::SectionMark {
            x: float(mark.at.0),
            y: float(mark.at.1),
            text: text.into(),
            sign: match mark.sign {
                Sign::Level => ui::SectionSign::Level,
                Sign::Dot => ui::SectionSign::Dot,
                Sign::Coldest => ui::SectionSign::Coldest,
                Sign::Hottest => ui::SectionSign::Hottest,
            },
            // The hottest stands only where it is above its maximum.
            stops: match mark.sign {
                Sign::Coldest => mark.at_c < minimum_c,
                Sign::Hottest => true,
                Sign::Level | Sign::Dot => false,
            },
        }
    };
    section.marks(width).iter().map(mark).collect()
}

fn measure_rows(pen: &Pen<'_>, section: &Section) -> Vec<ui::MeasureRow> {
    let keys = match section.seen.flames.cycle.shape {
        JointShape::RunOnShaft { .. } | JointShape::BarToBar { .. } => {
            ["cycle-measure-side", "cycle-measure-far-side"]
        }
        _ => ["cycle-measure-top", "cycle-measure-foot"],
    };
    let rows = section.dots_mm().into_iter().zip(keys).enumerate().map(|(at, (place, key))| ui::MeasureRow {
        number: pen.show.number((at + 1) as f64, 0).into(),
        place: pen.words.get(key).into(),
        figure: pen.show.temperature(section.at_c(place).round()).main.into(),
    });
    rows.collect()
}

const fn verdict_key(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::None => "cycle-fill-none",
        Verdict::Below => "cycle-fill-below",
        Verdict::Inside => "cycle-fill-inside",
        Verdict::Above => "cycle-fill-above",
        Verdict::Ceiling => "cycle-fill-ceiling",
    }
}

const fn matter_key(shape: &JointShape, matter: Matter) -> &'static str {
    let plate = matches!(shape, JointShape::BossThrough { .. } | JointShape::Tee { .. });
    match matter {
        Matter::Weld => "cycle-part-weld",
        Matter::Second if plate => "cycle-part-second",
        Matter::Second => "cycle-part-other",
        Matter::First | Matter::Void if plate => "cycle-part-first",
        Matter::First | Matter::Void => "cycle-part-one",
    }
}

/// The coldest that counts, where, and what it is held against.
fn section_line(pen: &Pen<'_>, section: &Section) -> String {
    let Some((_, at_c, matter)) = section.extreme(true) else { return String::new() };
    let figure = pen.show.temperature(at_c.floor()).main;
    let (place, verdict) = (
        pen.words.get(matter_key(&section.seen.flames.cycle.shape, matter)),
        pen.words.get(verdict_key(section.verdict(at_c))),
    );
    let values = [("figure", figure.as_str()), ("place", &place), ("verdict", &verdict)];
    pen.words.with("cycle-section-coldest", &values)
}

fn section_spoken(pen: &Pen<'_>, section: &Section, moment: &str) -> String {
    let mut said =
        vec![pen.words.with("cycle-section-at", &[("moment", moment)]), section_line(pen, section)];
    if let Some((_, at_c, _)) =
        section.extreme(false).filter(|_| !matches!(section.field().phase, Phase::Arc(_)))
    {
        let figure = pen.show.temperature(at_c.ceil()).main;
        said.push(pen.words.with("cycle-section-hottest", &[("figure", &figure)]));
    }
    let points = measure_rows(pen, section).into_iter().map(|row| {
        let values = [("number", row.number.as_str()), ("place", &row.place), ("figure", &row.figure)];
        pen.words.with("cycle-section-point", &values)
    });
    said.extend(points);
    pen.words.list(List::Sentences, &said)
}
