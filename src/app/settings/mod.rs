//! How figures are written, how the window looks, and what the data is.

pub(crate) mod about;
pub(crate) mod backup;
mod licences;
mod sources;
mod terms;

use std::rc::Rc;

use slint::{ComponentHandle, SharedString};

use self::licences::LICENCES;
use crate::app::calls::{calls, calls_plain};
use crate::app::open::{flip, toggle};
use crate::app::rows::model;
use crate::app::rows::put;
use crate::app::screen_values::{choice, picked, place_of};
use crate::app::shell::{open_page, refresh_all, say_anew, set_units};
use crate::app::{Page, State, ui};
use crate::job::{Controls, TextSize, Theme};
use crate::reference::Role;
use crate::units::{LengthUnit, TemperatureUnit, Units};
use crate::words::Words;

/// Looks in the order in which they are offered.
const LOOKS: [(Theme, &str); 3] = [(Theme::System, "system"), (Theme::Dark, "dark"), (Theme::Light, "light")];
/// Sizes of controls, as they are offered.
const CONTROLS: [(Controls, &str); 2] = [(Controls::Normal, "normal"), (Controls::Gloves, "gloves")];
/// The last of the unit choices: temperature and length apart.
const MIXED: i32 = 2;

/// Wires the page.
pub(crate) fn connect(window: &ui::AppWindow, state: &Rc<State>) {
    let adapter = window.global::<ui::SettingsAdapter>();
    adapter.set_licences(model(Vec::new()));
    backup::connect(window, state);
    let sources = window.global::<ui::SourcesAdapter>();
    sources.set_rows(model(Vec::new()));
    sources.on_toggled(calls_plain(window, state, |window, state| {
        flip(&mut state.open.borrow_mut().sources);
        refresh(window, state);
    }));
    sources.on_wanted(calls(window, state, |window, state, query: SharedString| {
        {
            let mut open = state.open.borrow_mut();
            open.sources_query = query.to_string();
            open.sources_part = 0;
        }
        refresh(window, state);
    }));
    sources.on_turned(calls(window, state, |window, state, pages: i32| {
        {
            let mut open = state.open.borrow_mut();
            open.sources_part = open.sources_part.wrapping_add(pages);
        }
        refresh(window, state);
    }));
    adapter.on_terms_toggled(calls_plain(window, state, |window, state| {
        flip(&mut state.open.borrow_mut().terms);
        refresh(window, state);
    }));
    adapter.on_terms_wanted(calls(window, state, |window, state, query: SharedString| {
        state.open.borrow_mut().terms_query = query.to_string();
        refresh(window, state);
    }));
    adapter.on_unit_picked(calls(window, state, |window, state, index: i32| {
        state.open.borrow_mut().units_mixed = index == MIXED;
        let units = state.session(|session| session.units);
        let units = match index {
            0 => Units::C_MM,
            1 => Units::F_IN,
            // The commonest mixture, unless a mixture is there.
            _ if is_mixed(units) => units,
            _ => Units::F_MM,
        };
        set_units(window, state, units);
    }));
    adapter.on_temperature_picked(calls(window, state, |window, state, index: i32| {
        let temperature = if index == 0 { TemperatureUnit::C } else { TemperatureUnit::F };
        let length = state.session(|session| session.units.length);
        state.open.borrow_mut().units_mixed = true;
        set_units(window, state, Units { temperature, length });
    }));
    adapter.on_length_picked(calls(window, state, |window, state, index: i32| {
        let length = if index == 0 { LengthUnit::Mm } else { LengthUnit::Inch };
        let temperature = state.session(|session| session.units.temperature);
        state.open.borrow_mut().units_mixed = true;
        set_units(window, state, Units { temperature, length });
    }));
    adapter.on_look_picked(calls(window, state, |window, state, index: i32| {
        if let Some((theme, _)) = picked(&LOOKS, index) {
            state.change(|session| session.theme = theme);
            refresh_all(window, state);
        }
    }));
    adapter.on_size_picked(calls(window, state, |window, state, index: i32| {
        if let Some(size) = picked(&TextSize::ALL, index) {
            state.change(|session| session.text_size = size);
            refresh_all(window, state);
        }
    }));
    adapter.on_controls_picked(calls(window, state, |window, state, index: i32| {
        if let Some((controls, _)) = picked(&CONTROLS, index) {
            state.change(|session| session.controls = controls);
            refresh_all(window, state);
        }
    }));
    adapter.on_language_picked(calls(window, state, |window, state, index: i32| {
        if let Some(language) = usize::try_from(index).ok().and_then(|index| Words::languages().nth(index)) {
            state.change(|session| session.language = language.to_owned());
            say_anew(window, state);
        }
    }));
    adapter.on_reset_asked(calls_plain(window, state, |window, state| {
        state.change(|session| session.reset_settings(state.system.units));
        {
            let mut open = state.open.borrow_mut();
            open.units_mixed = false;
            open.settings_reset = true;
        }
        say_anew(window, state);
    }));
    adapter.on_licences_toggled(calls_plain(window, state, |window, state| {
        flip(&mut state.open.borrow_mut().licences);
        refresh(window, state);
    }));
    adapter.on_licence_toggled(calls(window, state, |window, state, id: SharedString| {
        toggle(&mut state.open.borrow_mut().licence_texts, &id);
        refresh(window, state);
    }));
    adapter.on_about_asked(calls_plain(window, state, |window, state| {
        open_page(window, state, Page::About);
    }));
}

fn is_mixed(units: Units) -> bool {
    units != Units::C_MM && units != Units::F_IN
}

/// Fills the page.
pub(crate) fn refresh(window: &ui::AppWindow, state: &State) {
    let adapter = window.global::<ui::SettingsAdapter>();
    let (units, theme) = state.session(|session| (session.units, session.theme));
    let mixed = state.open.borrow().units_mixed || is_mixed(units);
    adapter.set_unit_choices(model(vec![
        choice("c-mm", state.word("units-c-mm"), "", ""),
        choice("f-in", state.word("units-f-in"), "", ""),
        // Said as the switch of the pages says it.
        choice(
            "mixed",
            state.word("settings-mixed"),
            if is_mixed(units) { state.word(&format!("units-{}", units.id())) } else { "".into() },
            "",
        ),
    ]));
    adapter.set_unit_chosen(if mixed { MIXED } else { i32::from(units == Units::F_IN) });
    adapter.set_mixed(mixed);
    adapter.set_temperature_choices(model(vec![choice("c", "°C", "", ""), choice("f", "°F", "", "")]));
    adapter.set_temperature_chosen(i32::from(units.temperature == TemperatureUnit::F));
    adapter.set_length_choices(model(vec![choice("mm", "mm", "", ""), choice("in", "in", "", "")]));
    adapter.set_length_chosen(i32::from(units.length == LengthUnit::Inch));
    adapter.set_look_choices(model(
        LOOKS.iter().map(|(_, id)| choice(id, state.word(&format!("settings-look-{id}")), "", "")).collect(),
    ));
    let look = LOOKS.iter().position(|(known, _)| *known == theme);
    adapter.set_look_chosen(place_of(look));
    let (size, controls) = state.session(|session| (session.text_size, session.controls));
    let percent = |size: &TextSize| {
        let percent = size.percent().to_string();
        let said = state.words.with("settings-text-percent", &[("percent", &percent)]);
        choice(&percent, said, "", "")
    };
    adapter.set_size_choices(model(TextSize::ALL.iter().map(percent).collect()));
    adapter.set_size_chosen(place_of(TextSize::ALL.iter().position(|known| *known == size)));
    let named =
        |(_, id): &(Controls, &str)| choice(id, state.word(&format!("settings-controls-{id}")), "", "");
    adapter.set_controls_choices(model(CONTROLS.iter().map(named).collect()));
    adapter.set_controls_chosen(place_of(CONTROLS.iter().position(|(known, _)| *known == controls)));
    adapter.set_languages(model(
        Words::languages().map(|tag| choice(tag, state.word(&format!("language-{tag}")), "", "")).collect(),
    ));
    let spoken = Words::languages().position(|tag| tag == state.words.language());
    adapter.set_language_chosen(place_of(spoken));
    adapter.set_reset_done(state.open.borrow().settings_reset);
    terms::fill(&adapter, state);
    sources::fill(&window.global::<ui::SourcesAdapter>(), state);
    fill_data(&adapter, state);
    adapter.set_about_note(about::version(state));
}

fn fill_data(adapter: &ui::SettingsAdapter<'_>, state: &State) {
    let reference = state.reference;
    adapter
        .set_edition(state.words.with("settings-edition", &[("version", env!("CARGO_PKG_VERSION"))]).into());
    let count =
        |key: &str, count: usize| ui::ParagraphRow { label: state.word(key), text: count.to_string().into() };
    let sources = reference.sources.iter().count();
    let cautions = reference.cautions.iter().filter(|row| row.role == Role::Caution).count();
    adapter.set_counts(model(vec![
        count("steels-list", reference.grades.iter().count()),
        count("fillers-list", reference.fillers.iter().count()),
        count("settings-cautions", cautions),
        count("settings-sources", sources),
    ]));
    let open = state.open.borrow();
    adapter.set_licences_note(state.word("settings-licences-note"));
    adapter.set_licences_open(open.licences);
    let licences = LICENCES.iter().map(|licence| ui::LicenceRow {
        id: licence.id.into(),
        title: licence.title.into(),
        kind: licence.kind.into(),
        text: [licence.works, licence.text].join("\n\n").trim_start().into(),
        open: open.licence_texts.contains(licence.id),
    });
    put(&adapter.get_licences(), licences.collect());
}
