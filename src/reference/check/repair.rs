//! What a repair takes off is a depth that a hand can grind, and the oil of a casting burns below red heat.

use super::{Fault, Faults};
use crate::reference::RepairData;

pub(super) fn check(data: &RepairData, list: &mut Vec<Fault>) {
    let faults = &mut Faults { file: "repair.ron", list };
    for (row, mm) in [
        ("crack", data.crack.beyond_mm),
        ("crack", data.crack.radius_mm),
        ("old-weld", data.old_weld.below_mm),
        ("hardfacing", data.hardfacing.below_mm),
        ("build-up", data.build_up.stays_mm),
    ] {
        faults.range(row, "mm", Some(mm), Some(mm), (0.5, 50.0));
    }
    let oil = &data.oil;
    faults.range("oil", "hydrogen", Some(oil.hydrogen_ml), Some(oil.hydrogen_ml), (5.0, 40.0));
    faults.range("oil", "°C", Some(oil.iron_c), Some(oil.iron_c), (300.0, 550.0));
    faults.range("oil", "min", Some(oil.iron_min), Some(oil.iron_min), (5.0, 60.0));
}
