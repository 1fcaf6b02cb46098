//! How long is the next step?

/// The length of the steps of one phase: each phase starts anew.
#[derive(Debug, Clone, Copy)]
pub(super) struct Stride {
    dt: f64,
    change_k: f64,
}

/// No step is shorter, s.
const SHORTEST_S: f64 = 0.05;
/// Where the flame comes or goes, a wait or the cooling begins, s.
pub(super) const AT_ONCE_S: f64 = 0.5;
/// Where an arc comes or goes, s.
pub(super) const AT_ARC_S: f64 = 0.2;

impl Stride {
    pub(super) const fn new(first_s: f64, change_k: f64) -> Self {
        Self { dt: first_s, change_k }
    }

    /// The next step under a cap.
    pub(super) const fn next(&self, cap_s: f64) -> f64 {
        if self.dt < cap_s { self.dt } else { cap_s }
    }

    /// After a step of its whole length under this cap.
    pub(super) fn adapt(&mut self, change_k: f64, cap_s: f64) {
        let factor = if change_k > 0.0 { (self.change_k / change_k).clamp(0.4, 1.4) } else { 1.4 };
        self.dt = (self.dt.min(cap_s) * factor).clamp(SHORTEST_S, cap_s);
    }
}

/// What is waited for: a figure on its way to a target.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Approach {
    last: Option<(f64, f64)>,
    rate: Option<f64>,
}

impl Approach {
    /// The figure at a time, s.
    pub(super) fn saw(&mut self, at_s: f64, figure: f64) {
        self.rate = self.last.filter(|last| at_s > last.0).map(|last| (figure - last.1) / (at_s - last.0));
        self.last = Some((at_s, figure));
    }

    /// A step that ends just past the target.
    pub(super) fn until(&self, target: f64, shortest_s: f64) -> f64 {
        match (self.last, self.rate) {
            (Some((_, now)), Some(rate)) if (target - now) * rate > 0.0 => {
                (1.02 * (target - now) / rate).max(shortest_s)
            }
            _ => f64::INFINITY,
        }
    }
}
