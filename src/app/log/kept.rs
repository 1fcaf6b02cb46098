//! What is typed and chosen in the Log and not yet written down, each under its key of the session, so that
//! a kill loses none of it. Each window has its own.

use strum::{Display, EnumIter, EnumString, IntoEnumIterator};

use crate::app::State;

/// Something that is set. Its text is the id of its row.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Display, EnumIter, EnumString)]
pub enum LogKept {
    /// Name of the new job.
    #[strum(serialize = "log.name")]
    Name,
    /// How many pieces it has.
    #[strum(serialize = "log.pieces")]
    Pieces,
    /// Its drawing.
    #[strum(serialize = "log.drawing")]
    Drawing,
    /// Who welds.
    #[strum(serialize = "log.welder")]
    Welder,
    /// The job, the piece and the page that were open, for the next start.
    #[strum(serialize = "log.job")]
    Job,
    /// The piece.
    #[strum(serialize = "log.piece")]
    Piece,
    /// The page.
    #[strum(serialize = "log.page")]
    Page,
    /// What the instrument shows.
    #[strum(serialize = "log.shows")]
    Shows,
    /// The crayon that did not melt.
    #[strum(serialize = "log.stayed")]
    Stayed,
    /// The unit of a bare figure.
    #[strum(serialize = "log.unit")]
    Unit,
    /// The instrument.
    #[strum(serialize = "log.with")]
    With,
    /// Which of two crayons is typed, or when a colour was looked at.
    #[strum(serialize = "log.way")]
    Way,
    /// The surface that an IR gun looks at.
    #[strum(serialize = "log.surface")]
    Surface,
    /// What it is set to.
    #[strum(serialize = "log.setting")]
    Setting,
    /// The colour seen.
    #[strum(serialize = "log.colour")]
    Colour,
    /// The last colour of a range seen.
    #[strum(serialize = "log.colour-to")]
    ColourTo,
    /// The part.
    #[strum(serialize = "log.part")]
    Part,
    /// The face.
    #[strum(serialize = "log.face")]
    Face,
    /// So far from the weld.
    #[strum(serialize = "log.away")]
    Away,
    /// When in the work.
    #[strum(serialize = "log.when")]
    When,
    /// The time of day, where it is not now.
    #[strum(serialize = "log.time")]
    Time,
    /// A note.
    #[strum(serialize = "log.note")]
    Note,
    /// Did a trial piece crack?
    #[strum(serialize = "log.outcome")]
    Outcome,
    /// How it cooled.
    #[strum(serialize = "log.cooled")]
    Cooled,
    /// Its heat number.
    #[strum(serialize = "log.heat")]
    Heat,
    /// Where it cracked.
    #[strum(serialize = "log.place")]
    Place,
    /// Heat number of the first part of a piece.
    #[strum(serialize = "log.heat-a")]
    HeatA,
    /// That of the second.
    #[strum(serialize = "log.heat-b")]
    HeatB,
    /// What else is known of the piece.
    #[strum(serialize = "log.piece-note")]
    PieceNote,
    /// The paper of a job card.
    #[strum(serialize = "log.paper")]
    Paper,
    /// Its units.
    #[strum(serialize = "log.card-units")]
    CardUnits,
    /// The folder that files are written to.
    #[strum(serialize = "log.folder")]
    Folder,
    /// The job file that is taken in.
    #[strum(serialize = "log.file")]
    File,
    /// The record of the piece that stood when these were begun.
    #[strum(serialize = "log.piece-seen")]
    PieceSeen,
    /// How many pieces are added to the job.
    #[strum(serialize = "log.more")]
    More,
    /// Heat number of their first part.
    #[strum(serialize = "log.more-heat-a")]
    MoreHeatA,
    /// That of the second.
    #[strum(serialize = "log.more-heat-b")]
    MoreHeatB,
    /// What was used up.
    #[strum(serialize = "log.used-what")]
    UsedWhat,
    /// What that is called, where the plan has no estimate of it.
    #[strum(serialize = "log.used-name")]
    UsedName,
    /// How much.
    #[strum(serialize = "log.used-amount")]
    UsedAmount,
    /// Its unit.
    #[strum(serialize = "log.used-unit")]
    UsedUnit,
    /// The piece that it was used on.
    #[strum(serialize = "log.used-piece")]
    UsedPiece,
    /// The file of a picture.
    #[strum(serialize = "log.photo")]
    Photo,
}

/// What belongs to one reading alone: the next one begins without it.
const OF_ONE_READING: [LogKept; 11] = [
    LogKept::Shows,
    LogKept::Stayed,
    LogKept::Colour,
    LogKept::ColourTo,
    LogKept::When,
    LogKept::Time,
    LogKept::Note,
    LogKept::Outcome,
    LogKept::Heat,
    LogKept::Place,
    LogKept::Cooled,
];

/// What follows the unit that a figure was typed in while no unit was chosen for it.
pub(super) const TYPED: &str = "-typed";

impl LogKept {
    /// The key of the session: each window keeps its own.
    fn key(self, state: &State) -> String {
        let window = state.window();
        if window == 1 { self.to_string() } else { format!("{self}/{window}") }
    }

    /// What is typed or chosen; none where there is nothing.
    pub(super) fn get(self, state: &State) -> Option<String> {
        let key = self.key(state);
        state.session(|session| session.typed.get(&key).cloned())
    }

    /// The same as text, empty where there is nothing.
    pub(super) fn text(self, state: &State) -> String {
        self.get(state).unwrap_or_default()
    }

    /// Keeps a text; an empty one is kept too, where `Some`.
    pub(super) fn set(self, state: &State, text: Option<&str>) {
        Self::set_all(state, &[(self, text)]);
    }

    /// Keeps several at the same time.
    pub(super) fn set_all(state: &State, all: &[(Self, Option<&str>)]) {
        let keyed: Vec<(String, Option<String>)> =
            all.iter().map(|(kept, text)| (kept.key(state), text.map(str::to_owned))).collect();
        state.change(|session| {
            for (key, text) in keyed {
                match text {
                    Some(text) => session.typed.insert(key, text),
                    None => session.typed.remove(&key),
                };
            }
        });
    }

    /// The reading is written down: what was typed for it goes, what was chosen stays for the next.
    pub(super) fn begin_reading(state: &State) {
        Self::set_all(state, &OF_ONE_READING.map(|kept| (kept, None)));
        // A unit that was chosen stays, one that a figure was only typed in does not.
        if Self::Unit.text(state).ends_with(TYPED) {
            Self::Unit.set(state, None);
        }
    }

    /// Another piece or job: what was typed for the one before is not that of this one.
    pub(super) fn forget_piece(state: &State) {
        let of_piece = [Self::HeatA, Self::HeatB, Self::PieceNote, Self::PieceSeen];
        let all: Vec<(Self, Option<&str>)> = Self::iter()
            .filter(|kept| of_piece.contains(kept) || OF_ONE_READING.contains(kept))
            .map(|kept| (kept, None))
            .collect();
        Self::set_all(state, &all);
    }

    /// Another job: the parts are other ones too.
    pub(super) fn forget_job(state: &State) {
        Self::forget_piece(state);
        let of_job = [Self::Away, Self::Part, Self::More, Self::MoreHeatA, Self::MoreHeatB, Self::Photo];
        let used = [Self::UsedWhat, Self::UsedName, Self::UsedAmount, Self::UsedUnit, Self::UsedPiece];
        let all: Vec<(Self, Option<&str>)> = of_job.iter().chain(&used).map(|kept| (*kept, None)).collect();
        Self::set_all(state, &all);
    }
}
