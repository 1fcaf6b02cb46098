//! Hardness with its scale.

use super::number::{self, Fault};
use super::{Accepts, Choice, Problem, Within, limits};

/// A hardness scale.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum HardnessScale {
    /// HV.
    Vickers,
    /// HB (HBW).
    Brinell,
    /// HRC.
    RockwellC,
}

impl HardnessScale {
    /// The symbol.
    #[must_use]
    pub const fn symbol(self) -> &'static str {
        match self {
            Self::Vickers => "HV",
            Self::Brinell => "HB",
            Self::RockwellC => "HRC",
        }
    }

    const fn within(self) -> Within {
        match self {
            Self::Vickers => limits::VICKERS,
            Self::Brinell => limits::BRINELL,
            Self::RockwellC => limits::ROCKWELL_C,
        }
    }
}

/// A hardness as typed. Conversion between scales is the engine's.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Hardness {
    /// The figure.
    pub value: f64,
    /// Its scale.
    pub scale: HardnessScale,
}

/// A hardness as people write it: `30 HRC`, `HRC 30`, `300 HV10`, `285 HB`.
///
/// # Errors
/// A [`Problem`] if it is no hardness, has no scale (asked, with the choices), or is
/// outside its scale.
pub fn hardness(text: &str) -> Result<Hardness, Problem> {
    let tidied = number::tidied(text, Accepts::Hardness)?;
    let front = tidied.find(|c: char| c.is_ascii_digit() || c == '.').unwrap_or(tidied.len());
    let (before, figure) = tidied.split_at(front);
    let found = match number::leading(figure) {
        Ok(found) => found,
        Err(Fault::None | Fault::Thousands { .. }) => {
            return Err(Problem::not_understood(text, Accepts::Hardness));
        }
    };
    let name = match (before.trim(), found.rest.trim()) {
        ("", "") => return Err(which_scale(text, found.value)),
        (name, "") | ("", name) => scale(name),
        _ => None,
    };
    let Some(scale) = name else { return Err(Problem::not_understood(text, Accepts::Hardness)) };
    let within = scale.within();
    if within.holds(found.value) {
        return Ok(Hardness { value: found.value, scale });
    }
    Err(Problem::OutOfRange {
        typed: text.to_owned(),
        low: within.low,
        high: within.high,
        unit: scale.symbol(),
        accepts: Accepts::Hardness,
    })
}

fn scale(name: &str) -> Option<HardnessScale> {
    let name = name.to_ascii_uppercase().replace(' ', "");
    Some(match name.as_str() {
        "HRC" | "RC" | "ROCKWELLC" => HardnessScale::RockwellC,
        "HB" | "HBW" | "BHN" | "BRINELL" | "HBN" => HardnessScale::Brinell,
        "HV" | "VICKERS" | "DPH" | "HV1" | "HV5" | "HV10" | "HV20" | "HV30" => HardnessScale::Vickers,
        _ => return None,
    })
}

fn which_scale(text: &str, value: f64) -> Problem {
    let scales = [
        (HardnessScale::RockwellC, "typed-means-hrc"),
        (HardnessScale::Brinell, "typed-means-hb"),
        (HardnessScale::Vickers, "typed-means-hv"),
    ];
    let choices: Vec<Choice> = scales
        .into_iter()
        .filter(|(scale, _)| scale.within().holds(value))
        .map(|(scale, means)| Choice { write: format!("{} {}", text.trim(), scale.symbol()), means })
        .collect();
    if choices.is_empty() {
        Problem::not_understood(text, Accepts::Hardness)
    } else {
        Problem::Ambiguous { typed: text.to_owned(), choices }
    }
}
