//! How figures are shown: number, no-break space, unit.

use super::gas::CUBIC_METRES_PER_CUBIC_FOOT;
use super::strength::{KG_PER_LB, MPA_PER_KSI, N_PER_LBF};
use super::{LengthUnit, Mark, Printed, Side, TemperatureUnit, Units, limit_value};

/// A figure in the reader's unit, and in the other one.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Both {
    /// In the reader's unit.
    pub main: String,
    /// In the other unit.
    pub second: String,
}

/// How figures are shown to this reader.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Show {
    /// The units.
    pub units: Units,
    /// The decimal mark of the language.
    pub mark: char,
}

impl Default for Show {
    fn default() -> Self {
        Self { units: Units::default(), mark: '.' }
    }
}

impl Show {
    /// The units with the decimal mark of a language.
    #[must_use]
    pub fn new(units: Units, words: &crate::words::Words) -> Self {
        Self { units, mark: words.decimal_mark() }
    }

    /// The mark that this reader types with.
    #[must_use]
    pub const fn typed_mark(&self) -> Mark {
        Mark::of(self.mark)
    }

    /// A number with at most so many decimals and no empty ones.
    #[must_use]
    pub fn number(&self, value: f64, decimals: usize) -> String {
        plain(value, decimals, self.mark)
    }

    /// A number with a unit.
    #[must_use]
    pub fn with_unit(&self, value: f64, decimals: usize, unit: &str) -> String {
        format!("{}\u{a0}{unit}", self.number(value, decimals))
    }

    /// A temperature point, to the nearest whole degree; a whole °C that comes from a round
    /// °F shows as that.
    #[must_use]
    pub fn temperature(&self, point_c: f64) -> Both {
        let point = |unit: TemperatureUnit| match unit {
            TemperatureUnit::C => point_c,
            TemperatureUnit::F => crate::words::whole_fahrenheit(point_c),
        };
        self.both_temperatures(|unit| self.with_unit(point(unit), 0, unit.symbol()))
    }

    /// A temperature point before it is rounded, to a tenth.
    #[must_use]
    pub fn exact_temperature(&self, point_c: f64) -> String {
        let unit = self.units.temperature;
        self.with_unit(unit.from_c(point_c), 1, unit.symbol())
    }

    /// A limit: as printed, or rounded to the safe side.
    #[must_use]
    pub fn limit(&self, side: Side, exact_c: f64, printed: Option<Printed>) -> Both {
        let shown = |unit: TemperatureUnit| {
            self.with_unit(limit_value(side, exact_c, printed, unit), 1, unit.symbol())
        };
        self.both_temperatures(shown)
    }

    /// A minimum: as printed, or rounded up.
    #[must_use]
    pub fn minimum(&self, exact_c: f64, printed: Option<Printed>) -> Both {
        self.limit(Side::Minimum, exact_c, printed)
    }

    /// A maximum: as printed, or rounded down.
    #[must_use]
    pub fn maximum(&self, exact_c: f64, printed: Option<Printed>) -> Both {
        self.limit(Side::Maximum, exact_c, printed)
    }

    /// A temperature difference, to the nearest whole degree, as a shop writes it: its words say that
    /// it is one.
    #[must_use]
    pub fn difference(&self, rise_k: f64) -> Both {
        self.both_temperatures(|unit| match unit {
            TemperatureUnit::C => self.with_unit(rise_k, 0, "°C"),
            TemperatureUnit::F => self.with_unit(rise_k * 1.8, 0, "°F"),
        })
    }

    /// The same as a term of a formula, where no word says what it is.
    #[must_use]
    pub fn term(&self, rise_k: f64) -> String {
        match self.units.temperature {
            TemperatureUnit::C => self.with_unit(rise_k, 0, "K"),
            TemperatureUnit::F => self.with_unit(rise_k * 1.8, 0, "°F"),
        }
    }

    /// A length: mm to two decimals; inches as a fraction to 1/16 where that is within
    /// 0.02 mm, else to three decimals.
    #[must_use]
    pub fn length(&self, length_mm: f64) -> Both {
        self.both_lengths(|unit| match unit {
            LengthUnit::Mm => self.with_unit(length_mm, 2, "mm"),
            LengthUnit::Inch => match inch_fraction(length_mm) {
                Some(fraction) => format!("{fraction}\u{a0}in"),
                None => self.with_unit(decimal_inches(length_mm), 4, "in"),
            },
        })
    }

    /// The size that a part is named by: as a length, inches to two decimals at most.
    #[must_use]
    pub fn size(&self, length_mm: f64) -> Both {
        self.both_lengths(|unit| match unit {
            LengthUnit::Mm => self.with_unit(length_mm, 1, "mm"),
            LengthUnit::Inch => match inch_fraction(length_mm) {
                Some(fraction) => format!("{fraction}\u{a0}in"),
                None => self.with_unit(length_mm / 25.4, 2, "in"),
            },
        })
    }

    /// A length that is a minimum: up to the next whole mm or quarter inch.
    #[must_use]
    pub fn least_length(&self, length_mm: f64) -> Both {
        const QUARTER_MM: f64 = 25.4 / 4.0;
        // A unit conversion leaves dust, which must not cost a step.
        let up = |step: f64| ((length_mm / step - 1e-6).ceil() * step).max(step);
        let (mm, quarters) = (self.length(up(1.0)), self.length(up(QUARTER_MM)));
        match self.units.length {
            LengthUnit::Mm => Both { main: mm.main, second: quarters.second },
            LengthUnit::Inch => Both { main: quarters.main, second: mm.second },
        }
    }

    /// A length of a rule of thumb: whole mm, and the nearest quarter inch, or from a quarter inch
    /// down the nearest sixteenth: no more digits than the rule has.
    #[must_use]
    pub fn rule_length(&self, length_mm: f64) -> Both {
        let inches = length_mm / 25.4;
        let step = if inches < 0.5 { 16.0 } else { 4.0 };
        let (mm, inch) = (self.length(length_mm.round()), self.length((inches * step).round() / step * 25.4));
        match self.units.length {
            LengthUnit::Mm => Both { main: mm.main, second: inch.second },
            LengthUnit::Inch => Both { main: inch.main, second: mm.second },
        }
    }

    /// A heat input of a rule of thumb: kJ/mm to one decimal, kJ/in to the nearest five.
    #[must_use]
    pub fn rule_heat(&self, energy_kj_per_mm: f64) -> Both {
        self.both_lengths(|unit| match unit {
            LengthUnit::Mm => self.with_unit(energy_kj_per_mm, 1, "kJ/mm"),
            LengthUnit::Inch => self.with_unit((energy_kj_per_mm * 25.4 / 5.0).round() * 5.0, 0, "kJ/in"),
        })
    }

    /// A heat input that is a minimum: up to the next 0.1 kJ/mm or 5 kJ/in.
    #[must_use]
    pub fn least_heat(&self, energy_kj_per_mm: f64) -> Both {
        // A unit conversion leaves dust, which must not cost a step.
        let up = |value: f64, step: f64| (value / step - 1e-9).ceil() * step;
        self.both_lengths(|unit| match unit {
            LengthUnit::Mm => self.with_unit(up(energy_kj_per_mm, 0.1), 1, "kJ/mm"),
            LengthUnit::Inch => self.with_unit(up(energy_kj_per_mm * 25.4, 5.0), 0, "kJ/in"),
        })
    }

    /// Heat input: kJ/mm to two decimals, kJ/in to one.
    #[must_use]
    pub fn heat(&self, energy_kj_per_mm: f64) -> Both {
        self.both_lengths(|unit| match unit {
            LengthUnit::Mm => self.with_unit(energy_kj_per_mm, 2, "kJ/mm"),
            LengthUnit::Inch => self.with_unit(energy_kj_per_mm * 25.4, 1, "kJ/in"),
        })
    }

    /// Travel speed: mm/min to the whole, in/min to one decimal.
    #[must_use]
    pub fn travel(&self, travel_mm_per_min: f64) -> Both {
        self.both_lengths(|unit| match unit {
            LengthUnit::Mm => self.with_unit(travel_mm_per_min, 0, "mm/min"),
            LengthUnit::Inch => self.with_unit(travel_mm_per_min / 25.4, 1, "in/min"),
        })
    }

    /// Strength: MPa, ksi, to the whole.
    #[must_use]
    pub fn strength(&self, strength_mpa: f64) -> Both {
        self.both_lengths(|unit| match unit {
            LengthUnit::Mm => self.with_unit(strength_mpa, 0, "MPa"),
            LengthUnit::Inch => self.with_unit(strength_mpa / MPA_PER_KSI, 0, "ksi"),
        })
    }

    /// A rate of heating or cooling, to the nearest whole degree an hour.
    #[must_use]
    pub fn rate_per_hour(&self, rate_k: f64) -> Both {
        self.both_temperatures(|unit| match unit {
            TemperatureUnit::C => self.with_unit(rate_k, 0, "°C/h"),
            TemperatureUnit::F => self.with_unit(rate_k * 1.8, 0, "°F/h"),
        })
    }

    /// Mass: kg, lb, to two decimals.
    #[must_use]
    pub fn mass(&self, mass_kg: f64) -> Both {
        self.both_lengths(|unit| match unit {
            LengthUnit::Mm => self.with_unit(mass_kg, 2, "kg"),
            LengthUnit::Inch => self.with_unit(mass_kg / KG_PER_LB, 2, "lb"),
        })
    }

    /// A fine length: µm to one decimal; inches to four.
    #[must_use]
    pub fn fine(&self, length_um: f64) -> Both {
        self.both_lengths(|unit| match unit {
            LengthUnit::Mm => self.with_unit(length_um, 1, "µm"),
            LengthUnit::Inch => self.with_unit(length_um / 25_400.0, 4, "in"),
        })
    }

    /// A flow of gas: m³/h to two decimals, ft³/h to one.
    #[must_use]
    pub fn gas_flow(&self, flow_m3_per_h: f64) -> Both {
        self.both_lengths(|unit| match unit {
            LengthUnit::Mm => self.with_unit(flow_m3_per_h, 2, "m³/h"),
            LengthUnit::Inch => self.with_unit(flow_m3_per_h / CUBIC_METRES_PER_CUBIC_FOOT, 1, "ft³/h"),
        })
    }

    /// A volume: m³ to three decimals, ft³ to one.
    #[must_use]
    pub fn volume(&self, volume_m3: f64) -> Both {
        self.both_lengths(|unit| match unit {
            LengthUnit::Mm => self.with_unit(volume_m3, 3, "m³"),
            LengthUnit::Inch => self.with_unit(volume_m3 / CUBIC_METRES_PER_CUBIC_FOOT, 1, "ft³"),
        })
    }

    /// A force: kN to one decimal, lbf to the whole.
    #[must_use]
    pub fn force(&self, force_kn: f64) -> Both {
        self.both_lengths(|unit| match unit {
            LengthUnit::Mm => self.with_unit(force_kn, 1, "kN"),
            LengthUnit::Inch => self.with_unit(force_kn * 1000.0 / N_PER_LBF, 0, "lbf"),
        })
    }

    /// A torque: N·m and lbf·ft, to the whole.
    #[must_use]
    pub fn torque(&self, torque_nm: f64) -> Both {
        self.both_lengths(|unit| match unit {
            LengthUnit::Mm => self.with_unit(torque_nm, 0, "N·m"),
            LengthUnit::Inch => self.with_unit(torque_nm / N_PER_LBF / 0.3048, 0, "lbf·ft"),
        })
    }

    /// Diffusible hydrogen.
    #[must_use]
    pub fn hydrogen(&self, hydrogen_ml: f64) -> String {
        self.with_unit(hydrogen_ml, 1, "ml/100\u{a0}g")
    }

    /// A time span: seconds below two minutes, minutes below two hours, else hours and minutes.
    #[must_use]
    pub fn duration(&self, time_s: f64) -> String {
        if time_s.round() < 120.0 {
            return self.with_unit(time_s, 0, "s");
        }
        let minutes = (time_s / 60.0).round();
        if minutes < 120.0 {
            return self.with_unit(minutes, 0, "min");
        }
        let hours = (minutes / 60.0).floor();
        let left = minutes - hours * 60.0;
        let hours = self.with_unit(hours, 0, "h");
        if left == 0.0 { hours } else { format!("{hours} {}", self.with_unit(left, 0, "min")) }
    }

    /// The second figure with as many digits as the first has, and at least two: a conversion of a
    /// round figure is no more exact than that. Fractions stay.
    #[must_use]
    pub fn alike(&self, both: Both) -> Both {
        let digits = both.main.chars().skip_while(|sign| !('1'..='9').contains(sign));
        let digits = digits.take_while(|sign| *sign != '\u{a0}').filter(char::is_ascii_digit).count().max(2);
        let second = both.second.split_once('\u{a0}').and_then(|(number, unit)| {
            let value: f64 = number.replace(self.mark, ".").parse().ok().filter(|value| *value > 0.0)?;
            // The place of the first digit: 0 for 1 to 9, 1 for tens.
            let first = value.log10().floor();
            #[allow(clippy::cast_precision_loss, reason = "a handful of digits")]
            let step = 10_f64.powf(first + 1.0 - digits as f64);
            Some(self.with_unit((value / step).round() * step, 4, unit))
        });
        Both { second: second.unwrap_or(both.second), main: both.main }
    }

    fn both_temperatures(&self, shown: impl Fn(TemperatureUnit) -> String) -> Both {
        let unit = self.units.temperature;
        Both { main: shown(unit), second: shown(unit.other()) }
    }

    fn both_lengths(&self, shown: impl Fn(LengthUnit) -> String) -> Both {
        let unit = self.units.length;
        Both { main: shown(unit), second: shown(unit.other()) }
    }
}

/// The number of a shown figure and its unit, which a no-break space joins here and nowhere else.
#[must_use]
pub fn parts(shown: &str) -> (&str, &str) {
    shown.split_once('\u{a0}').unwrap_or((shown, ""))
}

/// A number with at most so many decimals, a true minus sign, and no empty decimals.
pub(super) fn plain(value: f64, decimals: usize, mark: char) -> String {
    if !value.is_finite() {
        return "–".to_owned();
    }
    let fixed = format!("{:.decimals$}", value.abs());
    let trimmed = if decimals > 0 { fixed.trim_end_matches('0').trim_end_matches('.') } else { &fixed };
    let sign = if value < 0.0 && trimmed != "0" { "\u{2212}" } else { "" };
    format!("{sign}{}", trimmed.replace('.', &mark.to_string()))
}

/// Inches to three decimals; to four beside a sixteenth, where three would read back as it.
fn decimal_inches(length_mm: f64) -> f64 {
    let fourth = (length_mm / 25.4 * 10_000.0).round() / 10_000.0;
    let off_mm = ((fourth * 16.0).round() / 16.0 - fourth).abs() * 25.4;
    if off_mm < 0.05 { fourth } else { (fourth * 1000.0).round() / 1000.0 }
}

/// `1-1/2`, `3/4` or `2` inches where that is within 0.02 mm, and the length is not tiny.
fn inch_fraction(length_mm: f64) -> Option<String> {
    let sixteenths = (length_mm / 25.4 * 16.0).round();
    if !(1.0..=160_000.0).contains(&sixteenths) || (sixteenths * 25.4 / 16.0 - length_mm).abs() > 0.02 {
        return None;
    }
    // In range and whole, so that the cast is exact.
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "whole, 1 to 160 000")]
    let sixteenths = sixteenths as u32;
    let (whole, left) = (sixteenths / 16, sixteenths % 16);
    let shift = left.trailing_zeros().min(4);
    Some(match (whole, left) {
        (whole, 0) => whole.to_string(),
        (0, left) => format!("{}/{}", left >> shift, 16 >> shift),
        (whole, left) => format!("{whole}-{}/{}", left >> shift, 16 >> shift),
    })
}
