//! What is a film's colour called?

/// A temper colour, in the order in which they appear.
#[derive(
    Debug,
    Clone,
    Copy,
    PartialEq,
    Eq,
    PartialOrd,
    Ord,
    Hash,
    strum::IntoStaticStr,
    strum::VariantNames,
    strum::VariantArray,
)]
#[strum(serialize_all = "kebab-case")]
pub enum Stage {
    /// No tint to be seen.
    Bright,
    /// Faint yellow.
    FaintYellow,
    /// Light straw.
    LightStraw,
    /// Dark straw.
    DarkStraw,
    /// Bronze, brown.
    Bronze,
    /// Reddish purple.
    ReddishPurple,
    /// Bluish purple, purple-blue.
    BluishPurple,
    /// Blue.
    Blue,
    /// Light blue, grey-blue.
    LightBlue,
    /// Greenish blue, blue-grey.
    GreenishBlue,
    /// Colours of later orders, which look like earlier ones: not to be judged.
    Later,
}

impl Stage {
    /// All stages in order.
    pub const ALL: &[Self] = <Self as strum::VariantArray>::VARIANTS;

    /// Where each stage begins, model film in nm. Three borders rest on names in published
    /// lists and in the trade, the others lie where the names of those lists allow.
    const FROM_NM: [f64; Self::ALL.len()] = [0.0, 9.0, 15.0, 20.0, 24.5, 30.5, 35.0, 40.5, 47.0, 59.0, 85.0];

    /// The film that stands for each stage, nm: classical thickness less 29.2 nm from straw
    /// to blue, the others by hue.
    const TYPICAL_NM: [f64; Self::ALL.len()] =
        [0.0, 12.0, 16.8, 22.8, 28.0, 32.5, 38.0, 42.8, 55.0, 66.0, 100.0];

    /// Stable id; the words are the Fluent message `tint-stage-ID`.
    #[must_use]
    pub fn id(self) -> &'static str {
        self.into()
    }

    /// The stage of an id.
    #[must_use]
    pub fn from_id(id: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|stage| stage.id() == id)
    }

    /// The stage of a film.
    #[must_use]
    pub fn of(film_nm: f64) -> Self {
        let place = Self::FROM_NM.iter().rposition(|&from_nm| film_nm >= from_nm).unwrap_or(0);
        Self::ALL[place]
    }

    const fn place(self) -> usize {
        self as usize
    }

    /// Where the stage begins, nm.
    #[must_use]
    pub const fn from_nm(self) -> f64 {
        Self::FROM_NM[self.place()]
    }

    /// Where the next stage begins, nm; `None` after the last.
    #[must_use]
    pub fn to_nm(self) -> Option<f64> {
        Self::FROM_NM.get(self.place() + 1).copied()
    }

    /// The film that stands for the stage, nm.
    #[must_use]
    pub const fn typical_nm(self) -> f64 {
        Self::TYPICAL_NM[self.place()]
    }

    /// How many stages lie from this one to another.
    #[must_use]
    pub const fn steps_to(self, other: Self) -> usize {
        self.place().abs_diff(other.place())
    }

    /// The stage before, or the first.
    #[must_use]
    pub const fn before(self) -> Self {
        Self::ALL[self.place().saturating_sub(1)]
    }

    /// The stage after, or the last.
    #[must_use]
    pub const fn after(self) -> Self {
        if self.place() + 1 < Self::ALL.len() { Self::ALL[self.place() + 1] } else { self }
    }
}
