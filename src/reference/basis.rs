//! Where a figure comes from: three kinds, and only three.

use std::borrow::Cow;

use serde::{Deserialize, Serialize};

/// What a figure rests on. Every figure in the dataset and every answer of the
/// engine carries one.
#[derive(Debug, Clone, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Basis {
    /// Seen in a public text: the id of a row in `data/sources.ron`, and the
    /// clause, table or page in it.
    Published {
        /// Row id in `data/sources.ron`.
        source: Cow<'static, str>,
        /// Clause, table or page.
        clause: Cow<'static, str>,
    },
    /// Common practice of the trade; there is no source to name.
    Practice,
    /// Written down from memory of the named work, to be checked against the
    /// reader's own copy.
    Memory {
        /// The work that it is remembered from.
        of: Cow<'static, str>,
    },
}

impl Basis {
    /// A published basis with fixed words, without allocation.
    #[must_use]
    pub const fn published(source: &'static str, clause: &'static str) -> Self {
        Self::Published { source: Cow::Borrowed(source), clause: Cow::Borrowed(clause) }
    }

    /// A basis from memory with fixed words, without allocation.
    #[must_use]
    pub const fn memory(of: &'static str) -> Self {
        Self::Memory { of: Cow::Borrowed(of) }
    }

    /// Of two, the one that a figure which rests on both can claim: memory before practice,
    /// practice before published.
    #[must_use]
    pub fn weaker<'a>(&'a self, other: &'a Self) -> &'a Self {
        let strength = |basis: &Self| match basis {
            Self::Memory { .. } => 0,
            Self::Practice => 1,
            Self::Published { .. } => 2,
        };
        if strength(other) < strength(self) { other } else { self }
    }

    /// The stable id of the kind: `published`, `practice` or `memory`.
    #[must_use]
    pub const fn kind(&self) -> &'static str {
        match self {
            Self::Published { .. } => "published",
            Self::Practice => "practice",
            Self::Memory { .. } => "memory",
        }
    }
}
