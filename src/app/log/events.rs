//! What happens in the Log's forms: a field is typed into or left, a choice is made.

use super::entry::{With, moments, when_id, with_draft};
use super::kept::LogKept;
use super::{photos, told, used};
use crate::app::State;
use crate::engine::tint::Stage;
use crate::log::{Cooled, CrackOutcome, Face};
use crate::units;

/// A field was typed into.
pub(crate) fn typed(state: &State, kept: LogKept, text: &str) {
    told::begun(state, kept);
    kept.set(state, Some(text));
}

/// A field was left, or Enter was pressed: what belongs to a piece is written down.
pub(crate) fn committed(state: &State, kept: LogKept) {
    // A length keeps the unit that it was typed in.
    let show = state.show();
    let read = |text: &str| units::length(text, show.units.length, units::limits::ANY_LENGTH_MM);
    if kept == LogKept::Away
        && let Ok(length) = show.typed_mark().read(&kept.text(state), read)
    {
        kept.set(state, Some(&show.length(length.mm).main));
    }
    if kept == LogKept::Photo {
        photos::committed(state);
    }
    if told::OF_PIECE.contains(&kept) {
        told::write_down(state);
    }
}

/// A choice was made.
pub(crate) fn chosen(state: &State, kept: LogKept, index: usize) {
    let id = match kept {
        LogKept::With => With::ALL.get(index).map(|with| with.id().to_owned()),
        LogKept::Surface => state.reference.tint.surfaces.get(index).map(|surface| surface.id.clone()),
        LogKept::Face => Face::ALL.get(index).map(|face| face.id().to_owned()),
        LogKept::Colour => Stage::ALL.get(index).map(|stage| stage.id().to_owned()),
        LogKept::UsedWhat | LogKept::UsedPiece => used::chosen(state, kept, index),
        // The first choice is no second colour.
        LogKept::ColourTo => match index.checked_sub(1) {
            None => Some(String::new()),
            Some(index) => Stage::ALL.get(index).map(|stage| stage.id().to_owned()),
        },
        LogKept::Outcome => CrackOutcome::ALL.get(index).map(|outcome| outcome.id().to_owned()),
        LogKept::Cooled => Cooled::ALL.get(index).map(|cooled| cooled.id().to_owned()),
        LogKept::When => with_draft(state, |draft| {
            let mut offered = moments(draft.before.when);
            let now = draft.when();
            if !offered.contains(&now) {
                offered.push(now);
            }
            offered.get(index).map(|when| when_id(*when))
        })
        .flatten(),
        _ => None,
    };
    let Some(id) = id else { return };
    match kept {
        // Another instrument: what was typed for the one before was not shown by it.
        LogKept::With => {
            LogKept::set_all(state, &[(kept, Some(&id)), (LogKept::Stayed, None), (LogKept::Way, None)]);
        }
        _ => kept.set(state, Some(&id)),
    }
}
