//! What the Tint place keeps in the session, each under its key.

use strum::{Display, EnumIter, EnumString};

use crate::app::State;

/// Something that is set. Its text is the key of the session, and the id of its row.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Display, EnumIter, EnumString)]
pub enum Kept {
    /// When one looks.
    #[strum(serialize = "tint.mode")]
    Mode,
    /// The colour that is seen.
    #[strum(serialize = "tint.seen")]
    Seen,
    /// The last of several colours that a photo leaves; none for one colour.
    #[strum(serialize = "tint.seen-last")]
    SeenLast,
    /// `seen` or `wait`: which way is asked.
    #[strum(serialize = "tint.asked")]
    Asked,
    /// The temperature waited for, °C.
    #[strum(serialize = "tint.wait")]
    Wait,
    /// The same as it was typed, where it was.
    #[strum(serialize = "tint.wait-typed")]
    WaitTyped,
    /// Minutes of heating, while the flame is on.
    #[strum(serialize = "tint.flame-minutes")]
    FlameMinutes,
    /// Minutes near the peak, looked at afterwards.
    #[strum(serialize = "tint.near-minutes")]
    NearMinutes,
    /// The steel.
    #[strum(serialize = "tint.steel")]
    Steel,
    /// Which steels the plan had when the steel was chosen: another plan asks anew.
    #[strum(serialize = "tint.steel-of")]
    SteelOf,
    /// The spot before heating.
    #[strum(serialize = "tint.spot")]
    Spot,
    /// Free air or not.
    #[strum(serialize = "tint.air")]
    Air,
    /// The colour before this heating.
    #[strum(serialize = "tint.before")]
    Before,
    /// The steel that the coupon was made of.
    #[strum(serialize = "tint.coupon-of")]
    CouponOf,
    /// The light in which a glow is seen.
    #[strum(serialize = "tint.light")]
    Light,
    /// The file of the photo.
    #[strum(serialize = "photo.path")]
    PhotoPath,
    /// What the tint on a photo is compared with.
    #[strum(serialize = "photo.reference")]
    PhotoReference,
}

impl Kept {
    /// What is chosen.
    pub(crate) fn choice(self, state: &State) -> Option<String> {
        state.session(|session| session.choices.get(&self.to_string()).cloned())
    }

    /// The place of what is chosen among what is offered, or the first.
    pub(crate) fn chosen(self, state: &State, offered: &[&str]) -> usize {
        self.choice(state).and_then(|id| offered.iter().position(|known| *known == id)).unwrap_or(0)
    }

    /// What is typed.
    pub(crate) fn typed(self, state: &State) -> Option<String> {
        state.session(|session| session.typed.get(&self.to_string()).cloned())
    }

    /// Keeps choices, all at once.
    pub(super) fn choose(state: &State, choices: &[(Self, &str)]) {
        state.change(|session| {
            session.choices.extend(choices.iter().map(|(key, id)| (key.to_string(), (*id).to_owned())));
        });
    }

    /// Keeps what is typed; none takes it away.
    pub(crate) fn type_in(self, state: &State, text: Option<String>) {
        state.change(|session| match text {
            Some(text) => {
                session.typed.insert(self.to_string(), text);
            }
            None => {
                session.typed.remove(&self.to_string());
            }
        });
    }
}
