//! How fine is the section cut, and how far does one step go?

/// How fine.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, strum::IntoStaticStr, strum::VariantArray)]
#[strum(serialize_all = "kebab-case")]
pub enum Fineness {
    /// While somebody types: within one frame.
    Live,
    /// For what is shown.
    Fine,
    /// For tests of the other two.
    Check,
}

/// How the cells grow away from a weld.
#[derive(Debug, Clone, Copy)]
pub(super) struct Spacing {
    /// Cells along the leg of a fillet.
    pub(super) per_leg: f64,
    /// Each cell by so much wider than the one before.
    pub(super) growth: f64,
    /// No cell wider than this, m, but in long parts.
    pub(super) widest: f64,
}

/// How far one step goes: the change that it aims at, K, and the longest step of each phase, s.
#[derive(Debug, Clone, Copy)]
pub(super) struct Pace {
    pub(super) change_k: f64,
    pub(super) change_in_pass_k: f64,
    pub(super) flame_s: f64,
    pub(super) pass_s: f64,
    pub(super) wait_s: f64,
    pub(super) hold_s: f64,
    pub(super) cool_s: f64,
}

impl Fineness {
    /// All, the coarse one first.
    pub const ALL: &[Self] = <Self as strum::VariantArray>::VARIANTS;

    /// Stable id.
    #[must_use]
    pub fn id(self) -> &'static str {
        self.into()
    }

    pub(super) const fn spacing(self) -> Spacing {
        match self {
            Self::Live => Spacing { per_leg: 4.0, growth: 1.4, widest: 8e-3 },
            Self::Fine => Spacing { per_leg: 8.0, growth: 1.25, widest: 5e-3 },
            Self::Check => Spacing { per_leg: 12.0, growth: 1.2, widest: 3e-3 },
        }
    }

    /// The finest cell of a layer on a shaft, m.
    pub(super) const fn finest_layer(self) -> f64 {
        match self {
            Self::Live => 1e-3,
            Self::Fine | Self::Check => 0.5e-3,
        }
    }

    /// A hold is cut no coarser than 30 s: the two sweeps of a step follow each other, and at
    /// longer steps a thin rim reads up to 16 K low.
    pub(super) const fn pace(self) -> Pace {
        match self {
            Self::Live => Pace {
                change_k: 6.0,
                change_in_pass_k: 15.0,
                flame_s: 4.0,
                pass_s: 8.0,
                wait_s: 30.0,
                hold_s: 30.0,
                cool_s: 60.0,
            },
            Self::Fine => Pace {
                change_k: 3.0,
                change_in_pass_k: 8.0,
                flame_s: 2.0,
                pass_s: 4.0,
                wait_s: 15.0,
                hold_s: 30.0,
                cool_s: 30.0,
            },
            Self::Check => Pace {
                change_k: 1.5,
                change_in_pass_k: 4.0,
                flame_s: 1.0,
                pass_s: 2.0,
                wait_s: 8.0,
                hold_s: 30.0,
                cool_s: 15.0,
            },
        }
    }
}
