//! The terms of the trade in the language spoken, with the English ones that they stand for.

use slint::SharedString;

use crate::app::rows::model;
use crate::app::{State, ui};
use crate::words::{List, Term, TermSource, terms_with};

/// Fills the list. A reader of English needs none.
pub(super) fn fill(adapter: &ui::SettingsAdapter<'_>, state: &State) {
    let language = state.words.language();
    let all = terms_with(&language, "").len();
    adapter.set_terms_known(all > 0);
    adapter.set_terms_note(state.words.count("settings-terms-note", all, &[]).into());
    let open = state.open.borrow();
    adapter.set_terms_open(open.terms);
    adapter.set_terms_query(open.terms_query.as_str().into());
    let shown = if open.terms { terms_with(&language, &open.terms_query) } else { Vec::new() };
    adapter.set_terms_none(open.terms && shown.is_empty());
    let row = |(said, term): (&str, &Term)| ui::ParagraphRow { label: said.into(), text: line(state, term) };
    adapter.set_terms(model(shown.into_iter().map(row).collect()));
}

/// The English term, and where it comes from.
fn line(state: &State, term: &Term) -> SharedString {
    let from = match &term.from {
        TermSource::Standard(named) => named.clone(),
        TermSource::Trade => state.words.get("settings-terms-trade"),
        TermSource::Ours => state.words.get("settings-terms-ours"),
    };
    state.words.list(List::Names, &[&term.english, &from]).into()
}
