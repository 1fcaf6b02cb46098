//! The families of steel, each told in one row: by which rungs it is weighed, whether it
//! hardens, which sheet speaks for it, how hot it may get between runs.
//!
//! A family is added here: its variant and its row. [`super::treatment`] says which steel
//! belongs to it.

use strum::{EnumIter, IntoStaticStr};

use crate::reference::{Composition, Element};

/// How a steel is treated.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, EnumIter, IntoStaticStr)]
#[strum(serialize_all = "kebab-case")]
pub enum Family {
    /// Structural: everything else.
    Structural,
    /// Quenched and tempered, C at most 0.25 %, yield at least 460 MPa.
    QuenchedTempered,
    /// Plain carbon above 0.25 %.
    PlainCarbon,
    /// Hardenable: C above 0.25 % and Cr + Mo + Ni above 0.5 %.
    Hardenable,
    /// Cast iron.
    Iron,
    /// Tool steel.
    Tool,
    /// Creep-resisting steel.
    Creep,
    /// Stainless steel that hardens as it cools.
    StainlessMartensitic,
    /// Stainless steel that stays ferrite.
    StainlessFerritic,
    /// Stainless steel that stays austenite.
    StainlessAustenitic,
    /// Stainless steel of ferrite and austenite.
    StainlessDuplex,
    /// Austenitic manganese steel.
    Manganese,
    /// Chromium or manganese above 3 %, and no family of its own: no method covers it.
    HighAlloy,
    /// High-alloy by its analysis: which it is must be told first.
    Unsettled,
    /// Must not be welded.
    DoNotWeld,
}

/// By what a member's minimum is weighed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Rungs {
    /// A table or a category may clear it; else the greater of Method B and the D1.1 annex.
    Clearing,
    /// The greatest of Method B, the D1.1 annex and the grade's own rows.
    Strongest,
    /// The same with the lowest sufficient practice figure.
    Practice,
    /// The same with the carbon chart among the practice figures.
    PracticeByCarbon,
    /// No carbon-equivalent method speaks for it: a sheet of its own.
    Sheet,
    /// It is not welded.
    None,
}

/// Maximum interpass where neither grade nor sheet prints one.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Interpass {
    /// 250 °C, or the minimum + 50.
    Structural,
    /// 200 °C.
    Quenched,
    /// 315 °C or the minimum + 50, not above 370 nor Ms.
    Hardenable,
    /// 315 °C or the minimum + 50.
    Sheet,
}

/// What a family is like.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Traits {
    /// By what its minimum is weighed.
    pub rungs: Rungs,
    /// Can it harden as it cools, and crack from hydrogen?
    pub hardens: bool,
    /// Does it harden through, so that it is cooled slowly, tried first and buttered?
    pub hardens_through: bool,
    /// Is a wait by its yield and size not enough: the longer rules for hardening steel count?
    pub waits_longer: bool,
    /// Its sheet in `data/own_sheets.ron`, where it has just one.
    pub sheet: Option<&'static str>,
    /// Maximum interpass where nothing prints one.
    pub interpass: Interpass,
    /// Is it never heat-treated after welding?
    pub never_heat_treated: bool,
}

impl Family {
    /// Stable id, as printed in JSON.
    #[must_use]
    pub fn id(self) -> &'static str {
        self.into()
    }

    /// Its row.
    #[must_use]
    pub const fn traits(self) -> Traits {
        let weighed = Traits {
            rungs: Rungs::Clearing,
            hardens: true,
            hardens_through: false,
            waits_longer: true,
            sheet: None,
            interpass: Interpass::Structural,
            never_heat_treated: false,
        };
        const fn by_sheet(sheet: Option<&'static str>, hardens: bool) -> Traits {
            Traits {
                rungs: Rungs::Sheet,
                hardens,
                hardens_through: false,
                waits_longer: true,
                sheet,
                interpass: Interpass::Sheet,
                never_heat_treated: false,
            }
        }
        let through = Traits { hardens_through: true, interpass: Interpass::Hardenable, ..weighed };
        match self {
            Self::Structural => Traits { waits_longer: false, ..weighed },
            Self::QuenchedTempered => Traits {
                rungs: Rungs::Strongest,
                interpass: Interpass::Quenched,
                never_heat_treated: true,
                ..weighed
            },
            Self::PlainCarbon => Traits { rungs: Rungs::PracticeByCarbon, ..through },
            Self::Hardenable => Traits { rungs: Rungs::Practice, ..through },
            Self::Iron => Traits { waits_longer: false, ..by_sheet(None, false) },
            Self::Tool => by_sheet(Some("tool"), true),
            Self::Creep => by_sheet(None, true),
            Self::StainlessMartensitic => by_sheet(Some("stainless-martensitic"), true),
            Self::StainlessFerritic => by_sheet(Some("stainless-ferritic"), false),
            Self::StainlessAustenitic => by_sheet(Some("stainless-austenitic"), false),
            Self::StainlessDuplex => by_sheet(Some("stainless-duplex"), false),
            Self::Manganese => by_sheet(Some("high-manganese"), false),
            Self::HighAlloy | Self::Unsettled | Self::DoNotWeld => {
                Traits { rungs: Rungs::None, ..by_sheet(None, true) }
            }
        }
    }

    /// Is it weighed by methods?
    #[must_use]
    pub const fn by_methods(self) -> bool {
        !matches!(self.traits().rungs, Rungs::Sheet | Rungs::None)
    }

    /// Has it no figures at all: not welded, not covered, or not settled?
    #[must_use]
    pub const fn without_figures(self) -> bool {
        matches!(self.traits().rungs, Rungs::None)
    }

    /// Is it one of the stainless kinds?
    #[must_use]
    pub const fn stainless(self) -> bool {
        matches!(
            self,
            Self::StainlessMartensitic
                | Self::StainlessFerritic
                | Self::StainlessAustenitic
                | Self::StainlessDuplex
        )
    }
}

/// The kinds that a stainless steel may be by its analysis, the likeliest first (common practice).
#[must_use]
pub fn stainless_kinds(steel: &Composition) -> [Family; 4] {
    let percent = |element| steel.get(element);
    let (nickel, chromium) = (percent(Element::Ni), percent(Element::Cr));
    let austenite = nickel + 0.5 * percent(Element::Mn) + 30.0 * (percent(Element::C) + percent(Element::N));
    let [austenitic, duplex, ferritic, martensitic] = [
        Family::StainlessAustenitic,
        Family::StainlessDuplex,
        Family::StainlessFerritic,
        Family::StainlessMartensitic,
    ];
    if chromium >= 21.0 && (1.0..10.0).contains(&nickel) {
        [duplex, austenitic, ferritic, martensitic]
    } else if nickel >= 6.0 || austenite >= 12.0 && nickel >= 3.0 {
        [austenitic, duplex, martensitic, ferritic]
    } else if percent(Element::C) >= 0.08 || nickel >= 1.0 {
        [martensitic, ferritic, austenitic, duplex]
    } else {
        [ferritic, martensitic, austenitic, duplex]
    }
}
