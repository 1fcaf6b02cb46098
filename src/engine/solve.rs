//! Where does a condition turn, between two ends?

/// Halvings that end below any double's step for the spans that are searched here.
const HALVINGS: u32 = 60;

/// The least value between two ends from which on a condition no longer holds; the upper end
/// where it always holds. The condition must hold up to one place and nowhere after it.
pub(in crate::engine) fn turning_point(low: f64, high: f64, holds: impl Fn(f64) -> bool) -> f64 {
    let (mut low, mut high) = (low, high);
    for _ in 0..HALVINGS {
        let middle = f64::midpoint(low, high);
        if holds(middle) { low = middle } else { high = middle }
    }
    high
}
