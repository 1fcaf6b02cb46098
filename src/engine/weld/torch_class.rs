//! Is an air-cooled TIG torch enough?

use crate::engine::error::Domain;
use crate::engine::{EngineError, Outcome, Unit};
use crate::reference::{Method, TorchClass, WeldCurrent};

/// Share of the current that a torch carries beside a part of a temperature.
#[must_use]
pub fn hot_share(current: &WeldCurrent, part_c: f64) -> f64 {
    current.hot_torch.iter().rev().find(|row| part_c >= row.from_c).map_or(1.0, |row| row.share)
}

/// Current that a torch carries, A: `I sqrt(DC0/DC) f`, at most 1.3 times its rating.
#[must_use]
pub fn allowed_a(current: &WeldCurrent, torch: &TorchClass, duty_percent: f64, part_c: f64) -> f64 {
    let by_duty = torch.amps * (torch.duty_percent / duty_percent).sqrt();
    (by_duty * hot_share(current, part_c)).min(current.most_over_rated * torch.amps)
}

/// Names of the answers, one for each class.
pub const CLASSES: [&str; 6] = [
    "torch-air-125",
    "torch-air-150",
    "torch-air-200",
    "torch-water-250",
    "torch-water-350",
    "torch-water-500",
];

/// Which torch is enough.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, strum::IntoStaticStr)]
#[strum(prefix = "torch-enough-", serialize_all = "kebab-case")]
pub enum TorchVerdict {
    /// An air-cooled one of the 150 class, or smaller.
    Air,
    /// An air-cooled one of the 200 class.
    LargeAir,
    /// One with water.
    Water,
    /// None of the classes.
    None,
}

impl TorchVerdict {
    /// Id of its note.
    #[must_use]
    pub fn id(self) -> &'static str {
        self.into()
    }
}

/// What each class of torches carries at this duty beside a part this hot, and which is enough.
///
/// Source: classes from memory; the shares beside hot parts are common practice. In print air cooling ends
/// at 150 A in one plant's standard and at 200 A in two texts.
///
/// # Errors
/// A current, a duty or a temperature that no weld has.
pub fn torch_class(
    current: &WeldCurrent,
    amps: f64,
    duty_percent: f64,
    part_c: f64,
) -> Result<(Vec<Outcome>, TorchVerdict), EngineError> {
    let amps = Domain::new("amps", 3.0, 1500.0).check(amps)?;
    let duty = Domain::new("duty", 1.0, 100.0).check(duty_percent)?;
    let part_c = Domain::new("part-temperature", -50.0, 700.0).check(part_c)?;
    let outcomes = CLASSES.iter().zip(&current.torches).map(|(name, torch)| {
        let basis =
            if hot_share(current, part_c) < 1.0 { &current.hot_torch_basis } else { &current.torches_basis };
        Outcome::new(Method::TorchClass, allowed_a(current, torch, duty, part_c), Unit::Ampere)
            .named(name)
            .resting_on(current.torches_basis.weaker(basis))
    });
    let enough = |torch: &&TorchClass| allowed_a(current, torch, duty, part_c) >= amps;
    let first = current.torches.iter().find(enough);
    let verdict = match first {
        Some(torch) if torch.water => TorchVerdict::Water,
        Some(torch) if torch.amps > 150.0 => TorchVerdict::LargeAir,
        Some(_) => TorchVerdict::Air,
        None => TorchVerdict::None,
    };
    Ok((outcomes.collect(), verdict))
}
