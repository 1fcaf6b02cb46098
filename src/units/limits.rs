//! The limits of what a field takes. They keep slips out (a thickness of 900 mm, a
//! current of 2000 A); they are wider than the range of any method, which the plan
//! states and checks itself.

/// A closed range in the unit that the engine works in.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Within {
    /// Lowest accepted.
    pub low: f64,
    /// Highest accepted.
    pub high: f64,
}

impl Within {
    /// A range.
    #[must_use]
    pub const fn new(low: f64, high: f64) -> Self {
        Self { low, high }
    }

    /// Is the value inside, allowing for a unit conversion's last digits?
    #[must_use]
    pub fn holds(self, value: f64) -> bool {
        // Each end by its own size: the slack of a long time would let a negative one in.
        let (low, high) = (self.low - 1e-9 * self.low.abs(), self.high + 1e-9 * (1.0 + self.high.abs()));
        value.is_finite() && value >= low && value <= high
    }
}

/// Thickness of a part or diameter of a round, mm.
pub const THICKNESS_MM: Within = Within::new(0.5, 500.0);
/// Leg of a fillet, mm.
pub const LEG_MM: Within = Within::new(1.0, 100.0);
/// Depth of a weld, mm.
pub const WELD_DEPTH_MM: Within = Within::new(0.5, 1_000.0);
/// Any other length of the bench (a part's length, a distance), mm.
pub const ANY_LENGTH_MM: Within = Within::new(0.0, 100_000.0);
/// Shop temperature, °C.
pub const SHOP_C: Within = Within::new(-40.0, 60.0);
/// A temperature that a drawing, procedure or customer demands, °C.
pub const DEMAND_C: Within = Within::new(0.0, 800.0);
/// Tempering temperature, °C: from the low temper of a case to just below Ac1.
pub const TEMPER_C: Within = Within::new(100.0, 780.0);
/// Any temperature that is measured or asked about, °C.
pub const READING_C: Within = Within::new(-200.0, 1600.0);
/// A temperature difference, K.
pub const DIFFERENCE_K: Within = Within::new(0.0, 1600.0);
/// Net heat input, kJ/mm.
pub const NET_HEAT_KJ_PER_MM: Within = Within::new(0.05, 10.0);
/// Arc energy, kJ/mm: up to the highest net heat input at the lowest efficiency.
pub const ARC_ENERGY_KJ_PER_MM: Within = Within::new(0.05, 17.0);
/// Diffusible hydrogen, ml/100 g. No weld has none, and no method measures less.
pub const HYDROGEN_ML: Within = Within::new(0.1, 100.0);
/// Arc voltage, V.
pub const VOLTAGE_V: Within = Within::new(5.0, 60.0);
/// Current, A.
pub const CURRENT_A: Within = Within::new(5.0, 1500.0);
/// Travel speed, mm/min.
pub const TRAVEL_MM_PER_MIN: Within = Within::new(5.0, 5000.0);
/// Time that the arc burns over one run, s: from a short stitch to a seam of ten hours.
pub const ARC_TIME_S: Within = Within::new(1.0, 36_000.0);
/// Length of one run, mm: from a short stitch to a seam of 100 m.
pub const RUN_MM: Within = Within::new(5.0, 100_000.0);
/// Angle of a groove, °.
pub const GROOVE_DEG: Within = Within::new(0.0, 120.0);
/// Gap at the root of a groove, mm.
pub const ROOT_GAP_MM: Within = Within::new(0.0, 20.0);
/// Root face of a groove, mm.
pub const ROOT_FACE_MM: Within = Within::new(0.0, 500.0);
/// Yield or tensile strength, MPa.
pub const STRENGTH_MPA: Within = Within::new(100.0, 2500.0);
/// Vickers hardness.
pub const VICKERS: Within = Within::new(50.0, 1500.0);
/// Brinell hardness.
pub const BRINELL: Within = Within::new(50.0, 750.0);
/// Rockwell C: below 20 the scale is not valid.
pub const ROCKWELL_C: Within = Within::new(20.0, 70.0);
/// Number of runs.
pub const RUNS: Within = Within::new(1.0, 1000.0);
/// Number of gas cylinders.
pub const CYLINDERS: Within = Within::new(1.0, 50.0);
/// Carbon equivalent CET of the weld metal, %.
pub const CET: Within = Within::new(0.01, 1.5);
/// Mass, kg.
pub const MASS_KG: Within = Within::new(0.001, 100_000.0);
/// Flow of fuel gas, m³/h.
pub const GAS_FLOW_M3_PER_H: Within = Within::new(0.01, 100.0);
/// Volume of gas or of a room, m³.
pub const VOLUME_M3: Within = Within::new(0.01, 1000.0);
/// Time, s: up to a month.
pub const DURATION_S: Within = Within::new(0.0, 2_678_400.0);
/// A share, an emissivity.
pub const SHARE: Within = Within::new(0.0, 1.0);
