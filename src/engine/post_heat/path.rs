//! Which way does hydrogen take out of a weld, and how long is it?

use std::f64::consts::{FRAC_1_SQRT_2, PI};

use once_cell::sync::Lazy;
use roots::{SimpleConvergency, find_root_brent};

use crate::engine::EngineError;
use crate::engine::error::Domain;
use crate::engine::hydrogen::slab_middle_left;
use crate::reference::Reference;

/// The weld whose hydrogen is to leave, by the size that sets its way out.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum WeldPath {
    /// A fillet, by its throat, mm.
    Fillet {
        /// Throat, mm.
        throat_mm: f64,
    },
    /// Metal built up on a surface, by its depth, mm.
    BuildUp {
        /// Depth, mm.
        depth_mm: f64,
    },
    /// A repair that was gouged and filled, by its depth, mm.
    Repair {
        /// Depth, mm.
        depth_mm: f64,
    },
    /// A groove that goes part of the way through, by its depth, mm.
    PartGroove {
        /// Depth, mm.
        depth_mm: f64,
    },
    /// A butt weld through the whole thickness, mm.
    FullButt {
        /// Thickness, mm.
        thickness_mm: f64,
        /// Does backing, a liner or a plug close one of its faces?
        one_face_closed: bool,
    },
    /// Bar welded to bar, by the diameter of the weld, mm.
    BarToBar {
        /// Diameter, mm.
        diameter_mm: f64,
    },
}

/// A weld's size, mm: no post-heat is reckoned beyond it.
const SIZE: Domain = Domain::new("a", 0.5, 1000.0);

impl WeldPath {
    /// A fillet of equal legs.
    #[must_use]
    pub fn fillet_of_leg(leg_mm: f64) -> Self {
        Self::Fillet { throat_mm: leg_mm * FRAC_1_SQRT_2 }
    }

    /// A weld of the same kind of a quarter of its size.
    #[must_use]
    pub const fn quartered(self) -> Self {
        let quarter_mm = self.size_mm() / 4.0;
        match self {
            Self::Fillet { .. } => Self::Fillet { throat_mm: quarter_mm },
            Self::BuildUp { .. } => Self::BuildUp { depth_mm: quarter_mm },
            Self::Repair { .. } => Self::Repair { depth_mm: quarter_mm },
            // Some of the way through is a groove.
            Self::PartGroove { .. } | Self::FullButt { .. } | Self::BarToBar { .. } => {
                Self::PartGroove { depth_mm: quarter_mm }
            }
        }
    }

    /// Is its size told by the leg of a fillet?
    #[must_use]
    pub const fn is_fillet(self) -> bool {
        matches!(self, Self::Fillet { .. })
    }

    /// The size that rules of the trade go by, mm.
    #[must_use]
    pub const fn size_mm(self) -> f64 {
        match self {
            Self::Fillet { throat_mm } => throat_mm,
            Self::BuildUp { depth_mm } | Self::Repair { depth_mm } | Self::PartGroove { depth_mm } => {
                depth_mm
            }
            Self::FullButt { thickness_mm, .. } => thickness_mm,
            Self::BarToBar { diameter_mm } => diameter_mm,
        }
    }

    /// The length that its closed form counts with, mm: the charged layer, the slab between
    /// its open faces, or the diameter.
    #[must_use]
    pub fn path_mm(self, reference: &Reference) -> f64 {
        match self {
            Self::Fillet { throat_mm } => throat_mm + reference.post_heat.fillet_more_mm,
            // A closed face is the middle of a slab twice as thick.
            Self::FullButt { thickness_mm, one_face_closed: true } => 2.0 * thickness_mm,
            _ => self.size_mm(),
        }
    }

    /// `D t` at which a share is left at the worst place, mm².
    #[must_use]
    pub fn spread_mm2(self, reference: &Reference, left: f64) -> f64 {
        self.spreads_mm2(reference, left).0
    }

    /// The same, and that of the deposit alone, mm²: a fillet without what it melts in.
    pub(super) fn spreads_mm2(self, reference: &Reference, left: f64) -> (f64, f64) {
        let fourier = self.fourier(left);
        let along = |path_mm: f64| fourier * path_mm * path_mm;
        let path_mm = self.path_mm(reference);
        let deposit_mm = match self {
            Self::Fillet { throat_mm } => throat_mm,
            _ => path_mm,
        };
        (along(path_mm), along(deposit_mm))
    }

    /// `D t` over the square of its path at which a share is left: of its shape, whatever its size.
    fn fourier(self, left: f64) -> f64 {
        match self {
            Self::Fillet { .. } | Self::BuildUp { .. } | Self::Repair { .. } | Self::PartGroove { .. } => {
                falls_to(left, layer_peak)
            }
            Self::FullButt { .. } => falls_to(left, slab_middle_left),
            // The series counts with the radius.
            Self::BarToBar { .. } => falls_to(left, cylinder_axis_left) / 4.0,
        }
    }

    /// Hours until a share is left at the worst place; D in cm²/s.
    #[must_use]
    pub fn hours(self, reference: &Reference, left: f64, diffusivity_cm2_per_s: f64) -> f64 {
        hours(self.spread_mm2(reference, left), diffusivity_cm2_per_s)
    }

    pub(super) fn check(self) -> Result<(), EngineError> {
        SIZE.check(self.size_mm()).map(|_| ())
    }
}

/// Hours of a `D t` in mm²; D in cm²/s.
pub(super) fn hours(spread_mm2: f64, diffusivity_cm2_per_s: f64) -> f64 {
    const MM2_PER_CM2: f64 = 100.0;
    spread_mm2 / (diffusivity_cm2_per_s * MM2_PER_CM2 * 3600.0)
}

/// The largest share left of a charged layer on a thick part at `F = D t / a²`:
/// `½ [2 erf(x/s) - erf((x-a)/s) - erf((x+a)/s)]` with `s = 2 √(D t)`, at its peak
/// `x = s²/2a · arcosh exp(a²/s²)`.
///
/// The surface keeps no hydrogen. Late it is `0.121 / F`.
#[must_use]
pub fn layer_peak(fourier: f64) -> f64 {
    if fourier <= 0.0 {
        return 1.0;
    }
    let s = 2.0 * fourier.sqrt();
    let x = layer_peak_depth(fourier);
    let left = libm::erf(x / s) - 0.5 * (libm::erf((x - 1.0) / s) + libm::erf((x + 1.0) / s));
    left.clamp(0.0, 1.0)
}

/// The depth of that peak, in depths of the layer.
#[must_use]
pub fn layer_peak_depth(fourier: f64) -> f64 {
    let square = 4.0 * fourier;
    let power = 1.0 / square;
    // arcosh of an exponential, without its overflow and without loss near 1.
    let arcosh = power + (-(-2.0 * power).exp_m1()).sqrt().ln_1p();
    0.5 * square * arcosh
}

/// Share left in the axis of a cylinder charged all through at `F = D t / R²`:
/// `2 Σ exp(-βn² F) / (βn J1(βn))`, βn the roots of J0.
#[must_use]
pub fn cylinder_axis_left(fourier: f64) -> f64 {
    // Before this nothing has reached the axis, and the terms below don't suffice.
    const SHORT: f64 = 0.01;
    const TERMS: usize = 20;
    /// Each root with its factor.
    static SERIES: Lazy<[(f64, f64); TERMS]> = Lazy::new(|| {
        std::array::from_fn(|n| {
            // The root lies within a tenth of (n + 3/4) π, counted from none.
            let near = (n as f64 + 0.75) * PI;
            let beta = root(near - 0.1, near + 0.1, libm::j0);
            (beta, 2.0 / (beta * libm::j1(beta)))
        })
    });
    if fourier <= SHORT {
        return 1.0;
    }
    let sum: f64 = SERIES.iter().map(|(beta, factor)| factor * (-beta * beta * fourier).exp()).sum();
    sum.clamp(0.0, 1.0)
}

/// The `F` at which a share that falls with it comes down to `left`.
fn falls_to(left: f64, share: fn(f64) -> f64) -> f64 {
    // By the logarithm, since it runs over many powers of ten.
    let (low, high) = (1e-5_f64.ln(), 1e5_f64.ln());
    root(low, high, |at: f64| share(at.exp()) - left).exp()
}

fn root(low: f64, high: f64, falls: impl Fn(f64) -> f64) -> f64 {
    let mut near = SimpleConvergency { eps: 1e-13, max_iter: 200 };
    find_root_brent(low, high, &falls, &mut near).expect("the ends lie on both sides of the root")
}
