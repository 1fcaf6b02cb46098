//! What the id of a row, a part or a field stands for: made and parsed here alone.

use std::fmt::{self, Display, Formatter};
use std::str::FromStr;

use strum::{Display as StrumDisplay, EnumIter, EnumString};

use crate::app::log::kept::LogKept;
use crate::app::tint::kept::Kept;
use crate::job::Slot;

/// A row that something can happen to.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum RowId {
    /// A field of the job, of one part or of one run.
    Slot(Slot),
    /// The tempering temperature within the condition of a part.
    Temper(usize),
    /// The hydrogen class of one process.
    HydrogenClass(usize),
    /// The way in which heat input is stated.
    HeatWay,
    /// A button.
    Button(Button),
    /// A list that is folded to what is chosen in it.
    Folded(Box<Self>),
    /// A question, or an input of it: `QUESTION.INPUT`.
    Question(String),
    /// Something that the Tint place keeps.
    Tint(Kept),
    /// Something that is typed in the Log.
    Log(LogKept),
}

/// A button of a form.
#[derive(Debug, Clone, Copy, PartialEq, Eq, StrumDisplay, EnumIter, EnumString)]
#[strum(serialize_all = "kebab-case")]
pub enum Button {
    /// The second part gets a steel of its own.
    AddPart,
    /// The second part is like the first again.
    RemovePart,
    /// One process more.
    AddProcess,
}

impl RowId {
    /// That of a field.
    pub(crate) fn of(slot: impl Into<Slot>) -> Self {
        Self::Slot(slot.into())
    }

    /// The same as a folded list.
    pub(crate) fn folded(&self) -> Self {
        Self::Folded(Box::new(self.clone()))
    }
}

impl Display for RowId {
    fn fmt(&self, out: &mut Formatter<'_>) -> fmt::Result {
        match self {
            Self::Slot(slot) => out.write_str(&slot.id()),
            Self::Temper(nth) => write!(out, "temper:{nth}"),
            Self::HydrogenClass(place) => write!(out, "class:{place}"),
            Self::HeatWay => out.write_str("heat-way"),
            Self::Button(button) => write!(out, "button:{button}"),
            Self::Folded(list) => write!(out, "list:{list}"),
            Self::Question(name) => write!(out, "ask:{name}"),
            Self::Tint(kept) => write!(out, "{kept}"),
            Self::Log(kept) => write!(out, "{kept}"),
        }
    }
}

/// No row has this id.
#[derive(Debug, PartialEq, Eq)]
pub struct NoRow;

impl FromStr for RowId {
    type Err = NoRow;

    fn from_str(id: &str) -> Result<Self, NoRow> {
        let nth = |nth: &str| nth.parse().map_err(|_| NoRow);
        if let Some((kind, rest)) = id.split_once(':') {
            return Ok(match kind {
                "temper" => Self::Temper(nth(rest)?),
                "class" => Self::HydrogenClass(nth(rest)?),
                "button" => Self::Button(rest.parse().map_err(|_| NoRow)?),
                "list" => Self::Folded(Box::new(rest.parse()?)),
                "ask" => Self::Question(rest.to_owned()),
                _ => return Err(NoRow),
            });
        }
        if let Ok(kept) = id.parse() {
            return Ok(Self::Log(kept));
        }
        match id.parse() {
            Ok(kept) => Ok(Self::Tint(kept)),
            Err(_) if id == "heat-way" => Ok(Self::HeatWay),
            Err(_) => Slot::from_id(id).map(Self::Slot).ok_or(NoRow),
        }
    }
}
