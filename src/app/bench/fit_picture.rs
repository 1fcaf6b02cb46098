//! A shrink fit in three moments: cold, with the hub hot, and both warm again.

use crate::app::rows::model;
use crate::app::screen_values::float;
use crate::app::ui;
use crate::questions::FitDrawing;
use crate::report::{Pen, degrees_up};
use crate::words::List;

/// How wide the greatest gap is drawn, as a share of the diameter.
const DRAWN: f64 = 0.16;
/// Round numbers that something is drawn too large by, within a power of ten.
const ROUND: [f64; 5] = [7.5, 5.0, 3.0, 2.0, 1.5];

/// The picture, ready to be drawn.
pub(super) fn picture(pen: &Pen<'_>, fit: &FitDrawing) -> ui::FitPicture {
    let times = times_too_large(fit);
    let fine = |room_um: f64| pen.show.fine(room_um.abs()).main;
    let degrees = |at_c: f64| pen.show.temperature(at_c).main;
    // A gap lies on both sides; it is drawn as a share of the diameter.
    let share = |room_um: f64| float(times * room_um / 2.0 / (1e3 * fit.diameter_mm));
    let said = |key: &str, at_c: f64, room_um: f64| {
        pen.words.with(key, &[("at", &degrees(at_c)), ("length", &fine(room_um))]).into()
    };
    let moment = ui::FitMoment::default();
    let cold = ui::FitMoment {
        title: said("bench-fit-cold", fit.shop_c, fit.tight_um),
        note: pen.words.get("bench-fit-tightest").into(),
        gap: share(-fit.tight_um),
        raised: true,
        ..moment.clone()
    };
    let hot = match fit.needed_c {
        Some(needed_c) if needed_c <= fit.ceiling_c => {
            let (at, room) = (degrees_up(pen, needed_c).main, fine(fit.wanted_um));
            let hot = [("at", at.as_str()), ("length", room.as_str())];
            let half = [("length", fine(fit.wanted_um / 2.0)), ("pin", degrees(fit.pin_c))];
            let half: Vec<(&str, &str)> = half.iter().map(|(name, text)| (*name, text.as_str())).collect();
            ui::FitMoment {
                title: pen.words.with("bench-fit-hot", &hot).into(),
                note: pen.words.with("bench-fit-hot-note", &half).into(),
                gap: share(fit.wanted_um),
                ..moment.clone()
            }
        }
        needed_c => {
            let ceiling = degrees(fit.ceiling_c);
            let at = needed_c.map_or_else(
                || pen.words.get("bench-fit-beyond"),
                |needed_c| pen.words.with("bench-fit-too-hot", &[("at", &degrees_up(pen, needed_c).main)]),
            );
            ui::FitMoment {
                title: at.into(),
                note: pen.words.with("bench-fit-ceiling", &[("ceiling", &ceiling)]).into(),
                gap: share(-fit.tight_um),
                raised: true,
                refused: true,
                ..moment.clone()
            }
        }
    };
    let (both_c, left_um) = fit.afterwards.unwrap_or((fit.shop_c, fit.tight_um));
    let warm = ui::FitMoment {
        title: said(if left_um > 0.0 { "bench-fit-warm" } else { "bench-fit-loose" }, both_c, left_um),
        note: pen
            .words
            .get(if fit.afterwards.is_some() { "bench-fit-preheat" } else { "bench-fit-shop" })
            .into(),
        gap: share((-left_um).max(0.0)),
        tight: left_um > 0.0,
        ..moment
    };
    let moments = [cold, hot, warm];
    let spoken: Vec<String> = moments.iter().map(|moment| moment.title.to_string()).collect();
    let times = pen.show.number(times, 1);
    ui::FitPicture {
        title: pen.words.with("bench-fit-drawn", &[("times", &times)]).into(),
        spoken: pen.words.list(List::Semicolon, &spoken).into(),
        moments: model(moments.into()),
    }
}

/// How many times too large it is drawn, so that it can be seen at all.
fn times_too_large(fit: &FitDrawing) -> f64 {
    let most_um = fit.tight_um.max(fit.wanted_um).max(0.1);
    let exact = DRAWN * 1e3 * fit.diameter_mm / most_um;
    let power = 10_f64.powf(exact.log10().floor());
    let round = ROUND.iter().map(|round| round * power).find(|round| *round <= exact);
    round.unwrap_or(power).max(1.0)
}
