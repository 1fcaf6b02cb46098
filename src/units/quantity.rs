//! Quantities that questions ask and jobs don't: a row of units for each.

use super::measure::{self, Row};
use super::strength::{KG_PER_LB, N_PER_LBF};
use super::{
    Accepts, CUBIC_METRES_PER_CUBIC_FOOT, LengthUnit, Problem, TemperatureUnit, TimeUnit, Units, Within,
    duration,
};

/// What is measured, in the engine's unit.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, strum::VariantArray)]
pub enum Quantity {
    /// A time, min.
    Minutes,
    /// A force, kN.
    Force,
    /// A torque or a bending moment, N·m.
    Torque,
    /// An angle, °.
    Angle,
    /// A power, kW.
    Power,
    /// A cross-section, mm².
    Area,
    /// A density, kg/dm³.
    Density,
    /// A temperature difference, K.
    Difference,
    /// A rate of heating or cooling, K/min.
    MinuteRate,
    /// A slow rate of heating or cooling, K/h.
    HourRate,
    /// A volume of liquid, l.
    Liquid,
    /// A flow of shielding gas, l/min.
    ShieldingFlow,
    /// Weld metal laid in a time, kg/h.
    DepositRate,
    /// The thickness of a film, nm.
    Film,
    /// Brinell hardness, HB.
    Brinell,
    /// Rockwell C hardness, HRC.
    RockwellC,
    /// Vickers hardness, HV.
    Vickers,
}

/// Which of the reader's units choose the unit of a bare number.
#[derive(Clone, Copy, PartialEq, Eq)]
enum By {
    Length,
    Temperature,
    Nothing,
}

/// A litre a minute in cubic metres an hour.
const CUBIC_METRES_PER_H: f64 = 0.06;
/// A foot, m.
const FOOT_M: f64 = 0.3048;
/// A square inch, mm².
const SQUARE_INCH_MM2: f64 = 645.16;
/// A pound to the cubic inch, kg/dm³.
const LB_PER_CUBIC_INCH: f64 = KG_PER_LB / 0.016_387_064;
/// A US gallon, l (231 in³).
const US_GALLON_L: f64 = 3.785_411_784;
/// A Btu (international table) to the hour, kW.
const BTU_PER_H_KW: f64 = 0.000_293_071_070_172_22;

const MINUTES: &[Row] = &[Row::plain("min", &["min"])];
const FORCE: &[Row] = &[
    Row::plain("kN", &["kn"]),
    Row::scaled("lbf", &["lbf", "lb", "lbs"], N_PER_LBF / 1000.0),
    Row::over("N", &["n"], 1000.0),
    Row::scaled("kip", &["kip", "kips"], N_PER_LBF),
];
const TORQUE: &[Row] = &[
    Row::plain("N·m", &["n.m", "n*m", "nm"]),
    Row::scaled("lbf·ft", FOOT_POUNDS, N_PER_LBF * FOOT_M),
    Row::scaled("kN·m", &["kn.m", "kn*m", "knm"], 1000.0),
    Row::scaled("lbf·in", INCH_POUNDS, N_PER_LBF * FOOT_M / 12.0),
];
/// As they come after tidying, which writes a raised dot as a point.
const FOOT_POUNDS: &[&str] = &[
    "lbf.ft", "lb.ft", "ft.lbf", "ft.lb", "lbf-ft", "lb-ft", "ft-lbf", "ft-lb", "lbfft", "lbft", "ftlbf",
    "ftlb",
];
const INCH_POUNDS: &[&str] = &[
    "lbf.in", "lb.in", "in.lbf", "in.lb", "lbf-in", "lb-in", "in-lbf", "in-lb", "lbfin", "lbin", "inlbf",
    "inlb",
];
const ANGLE: &[Row] = &[Row::plain("°", &["°", "deg", "degree", "degrees"])];
const POWER: &[Row] = &[
    Row::plain("kW", &["kw"]),
    Row::over("W", &["w"], 1000.0),
    Row::scaled("Btu/h", &["btu/h", "btu/hr", "btuh"], BTU_PER_H_KW),
];
const AREA: &[Row] = &[
    Row::plain("mm²", &["mm²", "mm2", "sqmm"]),
    Row::scaled("in²", &["in²", "in2", "sqin"], SQUARE_INCH_MM2),
    Row::scaled("cm²", &["cm²", "cm2"], 100.0),
];
const DENSITY: &[Row] = &[
    Row::plain("kg/dm³", &["kg/dm³", "kg/dm3", "g/cm³", "g/cm3", "g/cc", "kg/l"]),
    Row::scaled("lb/in³", &["lb/in³", "lb/in3"], LB_PER_CUBIC_INCH),
    Row::over("kg/m³", &["kg/m³", "kg/m3"], 1000.0),
];
const DIFFERENCE: &[Row] = &[
    Row::plain("°C", &["°c", "c", "k", "degc", "celsius", "kelvin"]),
    Row::over("°F", &["°f", "f", "degf", "fahrenheit"], 1.8),
];
const MINUTE_RATE: &[Row] =
    &[Row::plain("°C/min", &["°c/min", "c/min", "k/min"]), Row::over("°F/min", &["°f/min", "f/min"], 1.8)];
const HOUR_RATE: &[Row] = &[
    Row::plain("°C/h", &["°c/h", "c/h", "k/h", "°c/hr", "c/hr"]),
    Row::over("°F/h", &["°f/h", "f/h", "°f/hr", "f/hr"], 1.8),
];
const LIQUID: &[Row] = &[
    Row::plain("l", &["l", "litre", "litres", "liter", "liters"]),
    Row::scaled("US gal", &["usgal", "gal", "gallon", "gallons"], US_GALLON_L),
];
const SHIELDING_FLOW: &[Row] = &[
    Row::plain("l/min", &["l/min", "lpm"]),
    Row::scaled(
        "ft³/h",
        &["ft³/h", "ft3/h", "cfh", "scfh"],
        CUBIC_METRES_PER_CUBIC_FOOT / CUBIC_METRES_PER_H,
    ),
];
const DEPOSIT_RATE: &[Row] =
    &[Row::plain("kg/h", &["kg/h", "kg/hr"]), Row::scaled("lb/h", &["lb/h", "lb/hr", "lbs/h"], KG_PER_LB)];
const FILM: &[Row] = &[Row::plain("nm", &["nm"]), Row::scaled("µm", &["µm", "μm", "um"], 1000.0)];
const BRINELL: &[Row] = &[Row::plain("HB", &["hb", "hbw", "brinell"])];
const ROCKWELL_C: &[Row] = &[Row::plain("HRC", &["hrc", "rc", "rockwellc"])];
const VICKERS: &[Row] = &[Row::plain("HV", &["hv", "hv5", "hv10", "hv30", "vickers"])];

impl Quantity {
    const fn of(self) -> (Accepts, &'static [Row], By) {
        match self {
            Self::Minutes => (Accepts::Duration, MINUTES, By::Nothing),
            Self::Force => (Accepts::Force, FORCE, By::Length),
            Self::Torque => (Accepts::Torque, TORQUE, By::Length),
            Self::Angle => (Accepts::Angle, ANGLE, By::Nothing),
            Self::Power => (Accepts::Power, POWER, By::Nothing),
            Self::Area => (Accepts::Area, AREA, By::Length),
            Self::Density => (Accepts::Density, DENSITY, By::Length),
            Self::Difference => (Accepts::Difference, DIFFERENCE, By::Temperature),
            Self::MinuteRate => (Accepts::MinuteRate, MINUTE_RATE, By::Temperature),
            Self::HourRate => (Accepts::HourRate, HOUR_RATE, By::Temperature),
            Self::Liquid => (Accepts::Liquid, LIQUID, By::Nothing),
            Self::ShieldingFlow => (Accepts::ShieldingFlow, SHIELDING_FLOW, By::Length),
            Self::DepositRate => (Accepts::DepositRate, DEPOSIT_RATE, By::Length),
            Self::Film => (Accepts::Film, FILM, By::Nothing),
            Self::Brinell => (Accepts::Brinell, BRINELL, By::Nothing),
            Self::RockwellC => (Accepts::RockwellC, ROCKWELL_C, By::Nothing),
            Self::Vickers => (Accepts::Vickers, VICKERS, By::Nothing),
        }
    }

    /// The row of the unit that a bare number takes: the first is the engine's, the second the other one.
    fn shown(self, units: Units) -> usize {
        match self.of().2 {
            By::Length => usize::from(units.length == LengthUnit::Inch),
            By::Temperature => usize::from(units.temperature == TemperatureUnit::F),
            By::Nothing => 0,
        }
    }

    /// The unit that a bare number takes.
    #[must_use]
    pub fn unit(self, units: Units) -> &'static str {
        self.of().1[self.shown(units)].symbol
    }

    /// The engine's unit.
    #[must_use]
    pub const fn own_unit(self) -> &'static str {
        self.of().1[0].symbol
    }

    /// A value in the unit that the reader sees, without that unit.
    #[must_use]
    pub fn in_unit(self, value: f64, units: Units) -> f64 {
        self.of().1[self.shown(units)].in_this_unit(value)
    }

    /// A value as people write it, in the engine's unit: `300 HB`, `45 min`, `1 h 20`, `12 kN`, `2700 lbf`.
    ///
    /// # Errors
    /// A [`Problem`] if it is no such quantity, or outside the limits.
    pub fn read(self, text: &str, units: Units, within: Within) -> Result<f64, Problem> {
        let (accepts, rows, _) = self.of();
        if self == Self::Minutes {
            let seconds = Within::new(within.low * 60.0, within.high * 60.0);
            return duration(text, TimeUnit::Minutes, seconds).map(|seconds| seconds / 60.0);
        }
        // A hardness is written either way round.
        let turned = matches!(self, Self::Brinell | Self::RockwellC | Self::Vickers).then(|| behind(text));
        let text = turned.as_deref().unwrap_or(text);
        measure::read(text, accepts, rows, self.shown(units), within).map(|read| read.value)
    }
}

/// `HRC 30` as `30 HRC`.
fn behind(text: &str) -> String {
    let text = text.trim();
    match text.find(|letter: char| letter.is_ascii_digit()) {
        Some(at) if at > 0 && text[..at].trim().chars().all(char::is_alphabetic) => {
            format!("{} {}", &text[at..], text[..at].trim())
        }
        _ => text.to_owned(),
    }
}
