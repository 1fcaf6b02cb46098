//! What a picture of a shrink fit is drawn from: the room between bore and pin as the hub gets hot.

use super::fit::{SHRINK_FIT, asked_shrink, tightness};
use super::{Answers, Problem};
use crate::engine::fit::at_preheat::{WarmFit, fit_at_preheat};
use crate::engine::fit::room::PairOf;
use crate::reference::embedded;

/// Steps of a line.
const STEPS: u32 = 120;

/// A point of a line: hub, °C; room on the diameter, µm.
type RoomAt = (f64, f64);

/// A shrink fit, ready to be drawn. Rooms are on the diameter; negative where the pin is the larger.
#[derive(Debug, Clone, PartialEq)]
pub struct FitDrawing {
    /// Diameter, mm.
    pub diameter_mm: f64,
    /// How much larger the pin of the tightest pair is with both at the temperature of the shop, µm.
    pub tight_um: f64,
    /// Room to enter, µm.
    pub wanted_um: f64,
    /// Shop, °C.
    pub shop_c: f64,
    /// Pin, °C.
    pub pin_c: f64,
    /// The hub with that room, °C; `None` beyond the figures of its metal.
    pub needed_c: Option<f64>,
    /// What the hub must not pass, °C.
    pub ceiling_c: f64,
    /// The line of the tightest pair.
    pub tightest: Vec<RoomAt>,
    /// The line of the loosest pair.
    pub loosest: Vec<RoomAt>,
    /// The line of the tightest pair where only the metal round the bore is hot; empty where all of the hub
    /// is.
    pub locally: Vec<RoomAt>,
    /// The temperature of that metal with the same room, °C.
    pub needed_locally_c: Option<f64>,
    /// Hub and pin at one temperature afterwards, °C, and how tight the tightest pair is then, µm.
    pub afterwards: Option<(f64, f64)>,
}

/// The drawing of what is given for the question `shrink-fit`; `both_c` is what hub and pin are heated to
/// afterwards.
///
/// # Errors
/// What the question itself refuses.
pub fn fit_drawing(given: &Answers, both_c: Option<f64>) -> Result<FitDrawing, Problem> {
    let fits = &embedded().fits;
    let given = &SHRINK_FIT.filled(given)?;
    let tightness = tightness(given)?;
    let asked = asked_shrink(given, &tightness)?;
    let pin_c = asked.pin_c.unwrap_or(asked.shop_c);
    let needed_c = asked.needed_c(fits);
    let hottest = [needed_c.map(|needed_c| needed_c + 60.0), both_c.map(|both_c| both_c + 40.0), Some(200.0)];
    let to_c = hottest.into_iter().flatten().fold(asked.shop_c + 50.0, f64::max).min(asked.hub.up_to_c);
    let line = |room_um: &dyn Fn(f64) -> Option<f64>| {
        (0..=STEPS)
            .filter_map(|step| {
                let hub_c = asked.shop_c + (to_c - asked.shop_c) * f64::from(step) / f64::from(STEPS);
                Some((hub_c, room_um(hub_c)?))
            })
            .collect()
    };
    let warm = |both_c| WarmFit {
        tightness: &tightness,
        hub: asked.hub,
        pin: asked.pin,
        shop_c: asked.shop_c,
        both_c,
    };
    let afterwards = both_c.and_then(|both_c| {
        let found = fit_at_preheat(&warm(both_c)).ok()?;
        Some((both_c, found[0].high?))
    });
    Ok(FitDrawing {
        diameter_mm: tightness.diameter_mm,
        tight_um: tightness.high_um,
        wanted_um: asked.room_wanted_um(fits),
        shop_c: asked.shop_c,
        pin_c,
        needed_c,
        ceiling_c: asked.ceiling_c,
        tightest: line(&|hub_c| asked.room_at_um(hub_c, PairOf::Tightest)),
        loosest: line(&|hub_c| asked.room_at_um(hub_c, PairOf::Loosest)),
        locally: line(&|hot_c| asked.room_locally_um(hot_c)),
        needed_locally_c: asked.needed_locally_c(fits),
        afterwards,
    })
}
