//! Heat input: net, and arc energy.

use super::measure::{self, Row};
use super::{Accepts, LengthUnit, Problem, limits};

const ROWS: &[Row] = &[
    Row::plain("kJ/mm", &["kj/mm"]),
    Row::over("kJ/in", &["kj/in", "kj/inch", "kj/\""], 25.4),
    Row::over("kJ/cm", &["kj/cm"], 10.0),
    Row::over("J/mm", &["j/mm"], 1000.0),
    Row::over("J/in", &["j/in", "j/inch"], 25_400.0),
    Row::over("J/cm", &["j/cm"], 10_000.0),
];

/// Net heat input (efficiency included) as people write it, in kJ/mm: `1.5 kJ/mm`,
/// `38 kJ/in`, `1500 J/mm`; the word `net` may follow.
///
/// # Errors
/// A [`Problem`] if it is no heat input, says `arc`, or is outside the limits.
pub fn net_heat(text: &str, shown: LengthUnit) -> Result<f64, Problem> {
    let (rest, said) = kind(text);
    if said == Some(Kind::Arc) {
        return Err(Problem::Trap { typed: text.to_owned(), key: "typed-arc-in-net" });
    }
    let row = usize::from(shown == LengthUnit::Inch);
    measure::read(&rest, Accepts::Heat, ROWS, row, limits::NET_HEAT_KJ_PER_MM).map(|read| read.value)
}

/// Arc energy (voltage times current over travel, no efficiency) as people write it,
/// in kJ/mm; the word `arc` may follow.
///
/// # Errors
/// A [`Problem`] if it is no arc energy, says `net`, or is outside the limits.
pub fn arc_energy(text: &str, shown: LengthUnit) -> Result<f64, Problem> {
    let (rest, said) = kind(text);
    if said == Some(Kind::Net) {
        return Err(Problem::Trap { typed: text.to_owned(), key: "typed-net-in-arc" });
    }
    let row = usize::from(shown == LengthUnit::Inch);
    measure::read(&rest, Accepts::ArcEnergy, ROWS, row, limits::ARC_ENERGY_KJ_PER_MM).map(|read| read.value)
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Kind {
    Net,
    Arc,
}

fn kind(text: &str) -> (String, Option<Kind>) {
    let tidied = super::tidy(text);
    let lower = tidied.to_ascii_lowercase();
    for (word, kind) in [("arc energy", Kind::Arc), ("arc", Kind::Arc), ("net", Kind::Net)] {
        if let Some(rest) = lower.strip_suffix(word) {
            return (rest.trim_end().to_owned(), Some(kind));
        }
        if let Some(rest) = lower.strip_prefix(word) {
            return (rest.trim_start().to_owned(), Some(kind));
        }
    }
    (text.to_owned(), None)
}
