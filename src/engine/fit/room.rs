//! How much room is there between bore and pin, the hotter the hub gets?

use super::metal::{End, growth};
use super::shrink::ShrinkFit;
use crate::reference::Fits;

/// Which pair of all that a fit allows.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum PairOf {
    /// The largest pin in the smallest hole, with the hub that grows the least: it counts.
    Tightest,
    /// The smallest pin in the largest hole, with the hub that grows the most.
    Loosest,
}

impl ShrinkFit<'_> {
    /// Room on the diameter with the hub at a temperature, µm; negative where the pin is the larger.
    /// `None` beyond the figures of a metal.
    ///
    /// `room = d (e_h(T) - e_h(T0) + s_p) - delta`, as in [`super::shrink::shrink_fit`], whose answer
    /// is where this is the room to enter.
    #[must_use]
    pub fn room_at_um(&self, hub_c: f64, pair: PairOf) -> Option<f64> {
        self.room_of_share_um(hub_c, pair, 1.0)
    }

    /// The same of the tightest pair where only the metal round the bore is that hot; `None` where the
    /// whole hub is.
    #[must_use]
    pub fn room_locally_um(&self, hot_c: f64) -> Option<f64> {
        self.room_of_share_um(hot_c, PairOf::Tightest, self.local?.share(self.bore_mm()))
    }

    fn room_of_share_um(&self, hub_c: f64, pair: PairOf, share: f64) -> Option<f64> {
        let (end, interference_um) = match pair {
            PairOf::Tightest => (End::Least, self.tightness.high_um),
            PairOf::Loosest => (End::Most, self.tightness.low_um),
        };
        let grown = share * (growth(self.hub, hub_c, end)? - growth(self.hub, self.shop_c, end)?);
        let shrunk = self.shrunk(self.pin_c.unwrap_or(self.shop_c))?;
        Some(1e3 * self.tightness.diameter_mm * (grown + shrunk) - interference_um)
    }

    /// The temperature of the metal round the bore that gives it the room to enter where the rest of the
    /// hub is cold, whatever the ceiling, °C; `None` where the whole hub is hot, or beyond the figures.
    #[must_use]
    pub fn needed_locally_c(&self, fits: &Fits) -> Option<f64> {
        let share = self.local?.share(self.bore_mm());
        self.hot_zone_c(fits, self.pin_c.unwrap_or(self.shop_c), share)
    }

    /// The room to enter that counts, µm.
    #[must_use]
    pub fn room_wanted_um(&self, fits: &Fits) -> f64 {
        self.room_um(fits)
    }

    /// The hub's temperature that gives the tightest pair that room, whatever the ceiling, °C; `None`
    /// beyond the figures of a metal.
    #[must_use]
    pub fn needed_c(&self, fits: &Fits) -> Option<f64> {
        self.hub_c(fits, self.pin_c.unwrap_or(self.shop_c))
    }
}
