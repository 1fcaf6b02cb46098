//! The units that the engine works in and its methods state their limits in.

use serde::{Deserialize, Serialize};
use strum::{EnumString, IntoStaticStr};

/// The unit of a value. Its symbol is what `data/methods.ron` and JSON write.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, EnumString, IntoStaticStr, Serialize, Deserialize)]
#[serde(try_from = "String", into = "&'static str")]
pub enum Unit {
    /// A temperature point.
    #[strum(serialize = "°C")]
    Celsius,
    /// A temperature difference.
    #[strum(serialize = "K")]
    Kelvin,
    /// A cooling rate.
    #[strum(serialize = "K/h")]
    KelvinPerHour,
    /// A length.
    #[strum(serialize = "mm")]
    Millimetre,
    /// A fine length: an interference, a clearance.
    #[strum(serialize = "um")]
    Micrometre,
    /// The thickness of an oxide film.
    #[strum(serialize = "nm")]
    Nanometre,
    /// An area.
    #[strum(serialize = "mm2")]
    SquareMillimetre,
    /// A coefficient of diffusion.
    #[strum(serialize = "mm2/h")]
    SquareMillimetrePerHour,
    /// A travel speed.
    #[strum(serialize = "mm/s")]
    MillimetrePerSecond,
    /// A short time.
    #[strum(serialize = "s")]
    Second,
    /// A time.
    #[strum(serialize = "min")]
    Minute,
    /// A long time.
    #[strum(serialize = "h")]
    Hour,
    /// Arc energy or heat input.
    #[strum(serialize = "kJ/mm")]
    KilojoulePerMm,
    /// The same as an inch drawing has it.
    #[strum(serialize = "kJ/in")]
    KilojoulePerInch,
    /// A current.
    #[strum(serialize = "A")]
    Ampere,
    /// A voltage.
    #[strum(serialize = "V")]
    Volt,
    /// Arc power.
    #[strum(serialize = "kW")]
    Kilowatt,
    /// Diffusible hydrogen in deposited metal.
    #[strum(serialize = "ml/100 g")]
    MlPer100g,
    /// Parts per million by mass.
    #[strum(serialize = "ppm")]
    Ppm,
    /// Weight percent.
    #[strum(serialize = "%")]
    Percent,
    /// Vickers hardness.
    #[strum(serialize = "HV")]
    Vickers,
    /// Rockwell hardness, scale C.
    #[strum(serialize = "HRC")]
    RockwellC,
    /// Brinell hardness.
    #[strum(serialize = "HB")]
    Brinell,
    /// A strength or stress.
    #[strum(serialize = "MPa")]
    Megapascal,
    /// A strength as older formulas have it.
    #[strum(serialize = "kgf/mm2")]
    KgfPerSquareMm,
    /// A force.
    #[strum(serialize = "kN")]
    Kilonewton,
    /// A force on a length of weld.
    #[strum(serialize = "N/mm")]
    NewtonPerMm,
    /// A torque.
    #[strum(serialize = "N m")]
    NewtonMetre,
    /// Heat.
    #[strum(serialize = "MJ")]
    Megajoule,
    /// A volume of gas.
    #[strum(serialize = "m3")]
    CubicMetre,
    /// A flow of gas.
    #[strum(serialize = "m3/h")]
    CubicMetrePerHour,
    /// A volume of shielding gas.
    #[strum(serialize = "l")]
    Litre,
    /// A flow of shielding gas.
    #[strum(serialize = "l/min")]
    LitrePerMinute,
    /// A rate of deposit.
    #[strum(serialize = "kg/h")]
    KilogramPerHour,
    /// An angle.
    #[strum(serialize = "°")]
    Degree,
    /// A mass.
    #[strum(serialize = "kg")]
    Kilogram,
    /// A share from 0 to 1, an emissivity, an efficiency, an index.
    #[strum(serialize = "1")]
    One,
}

impl Unit {
    /// The stable symbol, as written in JSON.
    #[must_use]
    pub fn symbol(self) -> &'static str {
        self.into()
    }
}

impl TryFrom<String> for Unit {
    type Error = strum::ParseError;

    fn try_from(symbol: String) -> Result<Self, Self::Error> {
        symbol.parse()
    }
}
