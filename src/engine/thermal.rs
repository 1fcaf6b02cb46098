//! How does steel take up heat, pass it on and grow?
//!
//! Carbon and low-alloy steel by EN 1993-1-2:2005 clause 3.4.1, stainless steel by its
//! Annex C.3. Temperatures in °C, all else in SI.

/// Density, kg/m³, at every temperature: EN 1993-1-2 clause 3.4.
pub const DENSITY_KG_PER_M3: f64 = 7850.0;

/// Stefan-Boltzmann constant, W/(m² K⁴), CODATA 2018.
pub const STEFAN_BOLTZMANN: f64 = 5.670_374_419e-8;

/// 0 °C in K.
pub const ZERO_C_IN_K: f64 = 273.15;

/// The temperature from which elongation and heat content are counted, °C.
pub const COUNTED_FROM_C: f64 = 20.0;

/// Carbon and low-alloy steel. Outside 20-1200 °C the figures at those ends hold; elongation
/// alone is drawn on below 20 °C, where a shop and a cold yard need it.
pub mod carbon_steel {
    use super::COUNTED_FROM_C;

    /// Up to here the specific heat is a cubic, °C.
    const CUBIC_UP_TO_C: f64 = 600.0;
    /// The peak of the specific heat, °C: 5000 J/(kg K) from both sides.
    const PEAK_C: f64 = 735.0;
    const FLAT_FROM_C: f64 = 900.0;
    const BEFORE_PEAK: (f64, f64, f64) = (666.0, 13002.0, 738.0);
    const AFTER_PEAK: (f64, f64, f64) = (545.0, 17820.0, 731.0);
    const HOT_J_PER_KG_K: f64 = 650.0;

    /// Relative elongation from 20 °C, a length per length.
    ///
    /// `1.2e-5 T + 0.4e-8 T² - 2.416e-4` up to 750 °C; flat while the steel turns; then
    /// `2e-5 T - 6.2e-3`. EN 1993-1-2 clause 3.4.1.1, printed for 20-1200 °C.
    ///
    /// ```
    /// let hot = strawblue::engine::thermal::carbon_steel::elongation(300.0);
    /// assert!((hot - 3.718e-3).abs() < 1e-6);
    /// ```
    #[must_use]
    pub fn elongation(at_c: f64) -> f64 {
        if at_c < 750.0 {
            0.4e-8_f64.mul_add(at_c * at_c, 1.2e-5 * at_c) - 2.416e-4
        } else if at_c <= 860.0 {
            1.1e-2
        } else {
            2e-5_f64.mul_add(at_c.min(1200.0), -6.2e-3)
        }
    }

    /// Mean expansion between two temperatures, 1/K: the difference of their elongations over
    /// that of the temperatures, so below 750 °C `1.2e-5 + 0.4e-8 (T1 + T2)`.
    #[must_use]
    pub fn mean_expansion_per_k(from_c: f64, to_c: f64) -> f64 {
        if from_c.max(to_c) < 750.0 {
            return 0.4e-8_f64.mul_add(from_c + to_c, 1.2e-5);
        }
        (elongation(to_c) - elongation(from_c)) / (to_c - from_c)
    }

    /// Specific heat, J/(kg K): EN 1993-1-2 clause 3.4.1.2.
    #[must_use]
    pub fn specific_heat(at_c: f64) -> f64 {
        let t = at_c.max(COUNTED_FROM_C);
        if t < CUBIC_UP_TO_C {
            2.22e-6_f64.mul_add(t, -1.69e-3).mul_add(t, 7.73e-1).mul_add(t, 425.0)
        } else if t < PEAK_C {
            let (base, factor, pole_c) = BEFORE_PEAK;
            base + factor / (pole_c - t)
        } else if t < FLAT_FROM_C {
            let (base, factor, pole_c) = AFTER_PEAK;
            base + factor / (t - pole_c)
        } else {
            HOT_J_PER_KG_K
        }
    }

    /// Heat content from 20 °C, J/kg: the integral of the specific heat in closed form, so that
    /// no step can pass over its peak. Below 20 °C it falls with the specific heat at 20 °C.
    #[must_use]
    pub fn heat_content(at_c: f64) -> f64 {
        let cubic = |t: f64| {
            let slope =
                (2.22e-6 / 4.0_f64).mul_add(t, -1.69e-3 / 3.0).mul_add(t, 7.73e-1 / 2.0).mul_add(t, 425.0);
            t * slope
        };
        let from_20 = |t: f64| cubic(t) - cubic(COUNTED_FROM_C);
        let before = |t: f64| {
            let (base, factor, pole_c) = BEFORE_PEAK;
            let share = (pole_c - t) / (pole_c - CUBIC_UP_TO_C);
            from_20(CUBIC_UP_TO_C) + base * (t - CUBIC_UP_TO_C) - factor * share.ln()
        };
        let after = |t: f64| {
            let (base, factor, pole_c) = AFTER_PEAK;
            let share = (t - pole_c) / (PEAK_C - pole_c);
            before(PEAK_C) + base * (t - PEAK_C) + factor * share.ln()
        };
        if at_c < COUNTED_FROM_C {
            (at_c - COUNTED_FROM_C) * specific_heat(COUNTED_FROM_C)
        } else if at_c < CUBIC_UP_TO_C {
            from_20(at_c)
        } else if at_c < PEAK_C {
            before(at_c)
        } else if at_c < FLAT_FROM_C {
            after(at_c)
        } else {
            after(FLAT_FROM_C) + HOT_J_PER_KG_K * (at_c - FLAT_FROM_C)
        }
    }

    /// Thermal conductivity, W/(m K): `54 - 3.33e-2 T` up to 800 °C, then 27.3.
    /// EN 1993-1-2 clause 3.4.1.3.
    #[must_use]
    pub fn conductivity(at_c: f64) -> f64 {
        let t = at_c.max(COUNTED_FROM_C);
        if t < 800.0 { (-3.33e-2_f64).mul_add(t, 54.0) } else { 27.3 }
    }
}

/// Stainless steel: EN 1993-1-2 Annex C.3, printed for 20-1200 °C.
pub mod stainless_steel {
    use super::COUNTED_FROM_C;

    /// Relative elongation from 20 °C, a length per length.
    #[must_use]
    pub fn elongation(at_c: f64) -> f64 {
        (-1.243e-6_f64).mul_add(at_c, 4.79e-3).mul_add(at_c, 16.0) * (at_c - COUNTED_FROM_C) * 1e-6
    }

    /// Specific heat, J/(kg K).
    #[must_use]
    pub fn specific_heat(at_c: f64) -> f64 {
        1.34e-7_f64.mul_add(at_c, -2.91e-4).mul_add(at_c, 0.280).mul_add(at_c, 450.0)
    }

    /// Thermal conductivity, W/(m K).
    #[must_use]
    pub fn conductivity(at_c: f64) -> f64 {
        1.27e-2_f64.mul_add(at_c, 14.6)
    }
}
