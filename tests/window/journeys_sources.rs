//! The sources in the settings: all of them, and those that are looked for.

use std::rc::Rc;

use crate::screen::hand::{fill, says, tap};
use crate::screen::{live, mock_elapsed_time};
use i_slint_backend_testing::AccessibleRole;
use slint::{ComponentHandle, Model};
use strawblue::app::{Page, State, open_page, ui};
use strawblue::job::Session;
use strawblue::reference::check::rows_of_sources;
use strawblue::reference::{Row as _, SourceRead};

fn sources(size: (u32, u32), language: &str) -> (ui::AppWindow, Rc<State>) {
    let (window, state) = live(size, Session { language: language.to_owned(), ..Session::default() });
    open_page(&window, &state, Page::Settings);
    mock_elapsed_time(50);
    (window, state)
}

fn rows(window: &ui::AppWindow) -> Vec<ui::SourceRow> {
    window.global::<ui::SourcesAdapter>().get_rows().iter().collect()
}

/// All parts of the list, turned to one after the other.
fn all_rows(window: &ui::AppWindow) -> Vec<ui::SourceRow> {
    let adapter = || window.global::<ui::SourcesAdapter>();
    let (first, mut all) = (adapter().get_shown(), rows(window));
    loop {
        adapter().invoke_turned(1);
        mock_elapsed_time(20);
        let next = rows(window);
        assert!(next.len() <= 20, "never more than are drawn in one piece");
        if adapter().get_shown() == first {
            break;
        }
        all.extend(next);
    }
    assert!(first.starts_with("1–20 of ") && first.ends_with(&all.len().to_string()), "{first}");
    // Before the first part comes the last one.
    adapter().invoke_turned(-1);
    assert!(adapter().get_shown().contains(&format!("–{} of", all.len())), "{}", adapter().get_shown());
    all
}

/// Every source with how it was read; what rests on memory or on practice has entries of its own.
#[test]
fn every_source_is_listed_with_how_far_it_can_be_trusted() {
    let (window, state) = sources((1280, 800), "en");
    assert!(rows(&window).is_empty(), "nothing is drawn until it is asked for");
    tap(&window, AccessibleRole::Button, "Sources");
    let (all, resting) = (all_rows(&window), rows_of_sources(state.reference));
    let named = state.reference.sources.iter().count();
    assert_eq!(all.len(), 2 + named + resting.works.len());
    let of = |id: &str| all.iter().find(|row| row.id == id).unwrap_or_else(|| panic!("{id} is not listed"));
    let memory = of("memory");
    assert_eq!((memory.title.as_str(), memory.basis_kind), ("From memory", ui::BasisKind::Memory));
    assert!(memory.rows.contains(&resting.memory.to_string()), "{}", memory.rows);
    assert!(of("practice").rows.contains(&resting.practice.to_string()));
    for source in &state.reference.sources {
        let row = of(source.id());
        assert!(row.seen.contains(&source.seen) && row.title.contains(&source.title), "{row:?}");
        let seen_itself = row.basis_kind == ui::BasisKind::Published;
        assert_eq!(seen_itself, source.read == SourceRead::Text, "{row:?}");
        let partly = resting.sources[source.id()].partly_memory > 0;
        assert_eq!(row.rows.contains("not checked in print"), partly, "{row:?}");
    }
    assert!(of("coe-moreton").seen.starts_with("Only a summary seen"));
}

#[test]
fn a_source_is_found_by_any_word_of_it() {
    let (window, _state) = sources((360, 2400), "en");
    tap(&window, AccessibleRole::Button, "Sources");
    // Typed once; what else is looked for comes the same way.
    fill(&window, "Find a source", "1011-2");
    assert!(rows(&window).iter().any(|row| row.id == "en-1011-2"));
    let hits = |query: &str| {
        window.global::<ui::SourcesAdapter>().invoke_wanted(query.into());
        mock_elapsed_time(20);
        rows(&window).iter().map(|row| row.id.to_string()).collect::<Vec<_>>()
    };
    // By number, by a name without its accents, by an id, by what was seen, by a note.
    assert!(hits("1011-2").contains(&"en-1011-2".to_owned()));
    assert!(hits("labanowski").contains(&"fydrych".to_owned()));
    assert_eq!(hits("perng-altstetter"), ["perng-altstetter"]);
    assert!(hits("abstract").contains(&"hagi-1992".to_owned()));
    assert!(hits("scrambles rows").contains(&"navsea-010-278".to_owned()));
    // A work that only memory knows is found as what it is.
    let recalled = hits("10025-6");
    assert!(recalled.iter().any(|id| id.contains("EN 10025-6")), "{recalled:?}");
    // What the empty field gives as examples is there.
    for example in ["EN 1011", "AWS D1.1", "NAVSEA"] {
        assert!(!hits(example).is_empty(), "{example}");
    }
    assert!(!says(&window, "No such source. Try a number, a name, or a word of the title."));
    assert!(hits("zebra").is_empty());
    assert!(says(&window, "No such source. Try a number, a name, or a word of the title."));
}

/// How a source was read is said in the reader's language.
#[test]
fn how_a_source_was_read_is_said_in_every_language() {
    for (language, said) in [
        ("de", "Nur eine Zusammenfassung"),
        ("es", "Solo vimos un resumen"),
        ("fr", "Seul un résumé"),
        ("pt-BR", "Visto só um resumo"),
    ] {
        let (window, _state) = sources((360, 740), language);
        window.global::<ui::SourcesAdapter>().invoke_toggled();
        window.global::<ui::SourcesAdapter>().invoke_wanted("coe-moreton".into());
        mock_elapsed_time(20);
        let found = rows(&window);
        assert!(found.len() == 1 && found[0].seen.starts_with(said), "{language}: {found:?}");
    }
}
