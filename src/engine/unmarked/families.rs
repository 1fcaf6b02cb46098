//! The eight families that a metal without a mark is sorted into.

/// A family.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, strum::IntoStaticStr, strum::VariantArray)]
#[strum(serialize_all = "kebab-case")]
pub enum Family {
    /// Plain and low-alloy steel, wrought or cast.
    Steel,
    /// Tool steel.
    Tool,
    /// Grey, ductile, malleable or white iron.
    Iron,
    /// Austenitic manganese steel.
    Manganese,
    /// Stainless steel that no magnet takes.
    StainlessN,
    /// Stainless steel that a magnet takes.
    StainlessM,
    /// High-speed steel.
    Hss,
    /// Nickel, bronze, hardfacing and whatever there is besides.
    Other,
}

impl Family {
    /// All of them, in the order in which they are told.
    pub const ALL: &'static [Self] = <Self as strum::VariantArray>::VARIANTS;
    const LETTERS: [char; 8] = ['S', 'T', 'I', 'M', 'N', 'F', 'H', 'O'];

    /// Stable id.
    #[must_use]
    pub fn id(self) -> &'static str {
        self.into()
    }
}

/// Some of the families.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Families(u8);

impl Families {
    /// All of them.
    pub const ALL: Self = Self(0xff);
    /// None.
    pub const NONE: Self = Self(0);

    /// Just one.
    #[must_use]
    pub const fn one(family: Family) -> Self {
        Self(1 << family as u8)
    }

    /// By their letters; none that is unknown.
    #[must_use]
    pub fn of_letters(letters: &str) -> Option<Self> {
        letters.chars().try_fold(Self::NONE, |all, letter| {
            let at = Family::LETTERS.iter().position(|known| *known == letter)?;
            Some(all.or(Self::one(Family::ALL[at])))
        })
    }

    /// What both have.
    #[must_use]
    pub const fn and(self, other: Self) -> Self {
        Self(self.0 & other.0)
    }

    /// What either has.
    #[must_use]
    pub const fn or(self, other: Self) -> Self {
        Self(self.0 | other.0)
    }

    /// Is one of them among these?
    #[must_use]
    pub const fn has(self, family: Family) -> bool {
        self.0 & Self::one(family).0 != 0
    }

    /// Is there any?
    #[must_use]
    pub const fn is_empty(self) -> bool {
        self.0 == 0
    }

    /// How many.
    #[must_use]
    pub const fn count(self) -> u32 {
        self.0.count_ones()
    }

    /// Those that are among these.
    pub fn iter(self) -> impl Iterator<Item = Family> {
        Family::ALL.iter().copied().filter(move |family| self.has(*family))
    }
}
