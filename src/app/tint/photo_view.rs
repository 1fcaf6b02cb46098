//! The photo of the Tint place as rows.

use slint::ComponentHandle;

use super::ask::{self, Ask};
use super::kept::Kept;
use super::photo::REFERENCES;
use super::photo_read::{Photo, SPOT};
use super::view;
use crate::app::form::parts::segments;
use crate::app::form::parts::text_part;
use crate::app::form::row_id::RowId;
use crate::app::rows::{model, put};
use crate::app::screen_values::{choice, float};
use crate::app::{State, ui};
use crate::engine::tint::colour::film_swatch;
use crate::report::{in_both, peak_figures, peak_line, stage_name};

/// Is there a way to open a photo on this system?
const fn offered() -> bool {
    !cfg!(target_os = "android")
}

/// Fills the photo's part of the place.
pub(crate) fn refresh(window: &ui::AppWindow, state: &State, ask: &Ask) {
    let adapter = window.global::<ui::TintAdapter>();
    // Where a colour says nothing of this steel, a photo of it says no more.
    let offered = offered() && ask.steel.check().is_ok();
    adapter.set_photo_offered(offered);
    if !offered {
        return;
    }
    let card = Kept::PhotoReference.chosen(state, &REFERENCES) == 1;
    let second = if card { "photo-touch-card" } else { "photo-touch-bright" };
    adapter.set_photo_turns(model(vec![
        choice("", state.word("photo-touch-spot"), "", ""),
        choice("", state.word(second), "", ""),
    ]));
    let photo = state.photo.borrow();
    adapter.set_photo_turn(i32::from(photo.turn == 1));
    put(&adapter.get_photo_rows(), vec![file_row(state)]);
    adapter.set_photo(view(state, &photo, ask));
}

fn file_row(state: &State) -> ui::FormRow {
    let path = Kept::PhotoPath.typed(state).unwrap_or_default();
    let field = ui::FieldRow {
        id: Kept::PhotoPath.to_string().into(),
        label: state.word("photo-path"),
        text: path.into(),
        ..ui::FieldRow::default()
    };
    let held = REFERENCES
        .iter()
        .map(|id| {
            let key = format!("photo-reference-{id}");
            choice(id, state.word(&key), state.word(&format!("{key}-note")), "")
        })
        .collect();
    let at = Kept::PhotoReference.chosen(state, &REFERENCES);
    let fields = ui::PartRow {
        kind: ui::PartKind::Fields,
        fields: model(vec![field]),
        ..text_part("photo-file", String::new())
    };
    ui::FormRow {
        id: "photo-file".into(),
        pinned: true,
        parts: model(vec![
            segments(state, RowId::Tint(Kept::PhotoReference), "photo-reference", held, Some(at)),
            fields,
        ]),
        ..ui::FormRow::default()
    }
}

fn view(state: &State, photo: &Photo, ask: &Ask) -> ui::PhotoView {
    let pen = state.pen();
    let (width, height) = photo
        .photo
        .as_ref()
        .map_or((1.0, 1.0), |photo| (f64::from(photo.width()), f64::from(photo.height())));
    let side = width.min(height) * SPOT;
    let at = |spot: Option<(f64, f64)>| spot.unwrap_or_default();
    let mut view = ui::PhotoView {
        loaded: photo.photo.is_some(),
        picture: photo.picture.clone(),
        name: photo.file.as_ref().map_or_else(String::new, |path| path.display().to_string()).into(),
        busy: photo.work.is_some(),
        progress: float(photo.work.as_ref().map_or(0.0, |work| work.progress)),
        spot_x: float(at(photo.spot).0),
        spot_y: float(at(photo.spot).1),
        bright_x: float(at(photo.bright).0),
        bright_y: float(at(photo.bright).1),
        size_x: float(side / width),
        size_y: float(side / height),
        spot_set: photo.spot.is_some(),
        bright_set: photo.bright.is_some(),
        problem: photo.problem.as_ref().map(|trouble| trouble.say(&state.words)).unwrap_or_default().into(),
        lines: model(Vec::new()),
        ..ui::PhotoView::default()
    };
    match &photo.found {
        None => {}
        Some(Err(error)) => {
            view.title = state.word("photo-no-answer");
            view.sign = ui::TintSign::Unsure;
            view.lines = model(vec![state.word(&error.key())]);
        }
        Some(Ok(found)) => {
            let (first, last) = found.stages();
            let names = [("first", stage_name(&pen, first)), ("last", stage_name(&pen, last))];
            view.title = pen
                .words
                .with("photo-answer", &names.each_ref().map(|(key, name)| (*key, name.as_str())))
                .into();
            // The mark is the plan's verdict; how well the photo fits stands in words.
            view.sign = ui::TintSign::Unsure;
            view.matched = true;
            view.best = view::tint(film_swatch(found.best.film_nm).srgb);
            view.runner_up = view::tint(film_swatch(found.runner_up.film_nm).srgb);
            let named = |key: &str, stage| pen.words.with(key, &[("colour", &stage_name(&pen, stage))]);
            view.best_label = named("photo-best", found.best.stage).into();
            view.runner_up_label = named("photo-second", found.runner_up.stage).into();
            let mut lines = vec![
                state.word(&format!("photo-confidence-{}", found.confidence.id())),
                state.word("photo-stages"),
            ];
            if let Ok(peak) = view::peak(ask, first, last) {
                let line = peak_line(&pen, &ask.mode, (first, last), &peak, &ask::plan_limits(state));
                view.sign = view::sign(line.sign);
                lines.insert(0, line.sentence.into());
                let figure = peak_figures(&pen, &peak);
                let both = in_both(&pen, &figure);
                lines.insert(0, pen.words.with("photo-means", &[("figure", &both)]).into());
            }
            view.lines = model(lines);
        }
    }
    view
}
