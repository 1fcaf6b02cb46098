//! How much weld metal fills a groove?

use strum::{IntoStaticStr, VariantArray, VariantNames};

use super::runs::RunOf;
use crate::engine::error::Domain;
use crate::engine::{EngineError, Outcome, Step, Unit};
use crate::reference::{Method, Told};

/// The usual angle of a V, gap, root face and radius of a groove that states none, ° and mm (common practice).
pub const USUAL_V_DEG: f64 = 60.0;
/// See above.
pub const USUAL_GAP_MM: f64 = 2.0;
/// See above.
pub const USUAL_FACE_MM: f64 = 0.0;
/// See above.
pub const USUAL_RADIUS_MM: f64 = 6.0;

/// The shape of a groove.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, IntoStaticStr, VariantArray, VariantNames)]
#[strum(serialize_all = "kebab-case")]
pub enum GrooveShape {
    /// Square edges.
    Square,
    /// V, both edges bevelled from one side.
    V,
    /// One edge bevelled from one side.
    Bevel,
    /// V from both sides.
    DoubleV,
    /// One edge bevelled from both sides.
    DoubleBevel,
    /// U, both edges rounded.
    U,
    /// J, one edge rounded.
    J,
}

impl Told for GrooveShape {
    const TOPIC: &'static str = "option-groove-shape";

    fn key(self) -> &'static str {
        match self {
            Self::Square => "option-groove-shape-square",
            Self::V => "option-groove-shape-v",
            Self::Bevel => "option-groove-shape-bevel",
            Self::DoubleV => "option-groove-shape-double-v",
            Self::DoubleBevel => "option-groove-shape-double-bevel",
            Self::U => "option-groove-shape-u",
            Self::J => "option-groove-shape-j",
        }
    }
}

impl GrooveShape {
    /// All of them.
    pub const ALL: &'static [Self] = <Self as VariantArray>::VARIANTS;

    /// Stable id.
    #[must_use]
    pub fn id(self) -> &'static str {
        self.into()
    }

    /// Is it welded from both sides?
    #[must_use]
    pub const fn double(self) -> bool {
        matches!(self, Self::DoubleV | Self::DoubleBevel)
    }

    /// Edges that are cut back.
    const fn edges(self) -> f64 {
        match self {
            Self::Square => 0.0,
            Self::Bevel | Self::DoubleBevel | Self::J => 1.0,
            Self::V | Self::DoubleV | Self::U => 2.0,
        }
    }
}

/// A groove.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Groove {
    /// Its shape.
    pub shape: GrooveShape,
    /// Thickness of the part, mm.
    pub thickness_mm: f64,
    /// Angle, °: the whole one of a V, that of the one edge of any other.
    pub angle_deg: f64,
    /// The same on the second side.
    pub second_angle_deg: f64,
    /// Root face, mm.
    pub face_mm: f64,
    /// Gap, mm.
    pub gap_mm: f64,
    /// Radius of a U or J, mm.
    pub radius_mm: f64,
    /// Depth of the first side of a double groove above the root face, mm; half where it is not told.
    pub first_depth_mm: Option<f64>,
}

impl Groove {
    /// Depths of both sides, the root face with the first, mm.
    fn depths_mm(&self) -> (f64, f64) {
        if !self.shape.double() {
            return (self.thickness_mm, 0.0);
        }
        let cut = self.thickness_mm - self.face_mm;
        let first = self.first_depth_mm.unwrap_or(cut / 2.0);
        (first + self.face_mm, cut - first)
    }

    /// How far an edge has gone back at a height over the root face, mm.
    fn edge_mm(&self, height_mm: f64, angle_deg: f64) -> f64 {
        let radius = self.radius_mm;
        match self.shape {
            GrooveShape::Square => 0.0,
            // A V states the angle of both edges.
            GrooveShape::V | GrooveShape::DoubleV => height_mm * (angle_deg / 2.0).to_radians().tan(),
            GrooveShape::Bevel | GrooveShape::DoubleBevel => height_mm * angle_deg.to_radians().tan(),
            GrooveShape::U | GrooveShape::J if height_mm < radius => {
                (radius * radius - (radius - height_mm).powi(2)).max(0.0).sqrt()
            }
            GrooveShape::U | GrooveShape::J => radius + (height_mm - radius) * angle_deg.to_radians().tan(),
        }
    }

    /// Width at a height from the root, mm.
    fn width_mm(&self, height_mm: f64, first: bool) -> f64 {
        let (face, angle) = if first { (self.face_mm, self.angle_deg) } else { (0.0, self.second_angle_deg) };
        let above = (height_mm - face).max(0.0);
        self.gap_mm + self.shape.edges() * self.edge_mm(above, angle)
    }

    /// Area of one edge up to a height over the root face, mm².
    fn edge_mm2(&self, height_mm: f64, angle_deg: f64) -> f64 {
        let height = height_mm.max(0.0);
        let radius = self.radius_mm;
        match self.shape {
            GrooveShape::U | GrooveShape::J if height < radius => {
                // A part of a circle's quarter.
                let left = radius - height;
                let sweep = (left / radius).clamp(0.0, 1.0).acos();
                (radius * radius * sweep - left * (radius * radius - left * left).max(0.0).sqrt()) / 2.0
            }
            GrooveShape::U | GrooveShape::J => {
                let above = height - radius;
                std::f64::consts::FRAC_PI_4 * radius * radius
                    + radius * above
                    + above * above * angle_deg.to_radians().tan() / 2.0
            }
            _ => height * self.edge_mm(height, angle_deg) / 2.0,
        }
    }

    /// Area from the root up to a height, mm².
    fn up_to_mm2(&self, height_mm: f64, first: bool) -> f64 {
        let (face, angle) = if first { (self.face_mm, self.angle_deg) } else { (0.0, self.second_angle_deg) };
        self.gap_mm * height_mm + self.shape.edges() * self.edge_mm2(height_mm - face, angle)
    }

    /// Area without any cap, mm².
    ///
    /// V `g t + (t - f)² tan(α/2)`; one edge half of that with its own angle; U
    /// `g t + π r²/2 + 2 r q + q² tan β` with `q = t - f - r`; J half of the edge's part.
    #[must_use]
    pub fn area_mm2(&self) -> f64 {
        let (first, second) = self.depths_mm();
        self.up_to_mm2(first, true) + self.up_to_mm2(second, false)
    }

    /// Widths of the top, one for each side that is welded, mm.
    fn tops_mm(&self) -> Vec<f64> {
        let (first, second) = self.depths_mm();
        let mut tops = vec![self.width_mm(first, true)];
        if self.shape.double() {
            tops.push(self.width_mm(second, false));
        }
        tops
    }

    /// Area with a cap on each side that is welded, mm²: `2/3 (w + 2) h`, `h = 1 + 0.1 w` up to 3 mm
    /// (common practice).
    #[must_use]
    pub fn caps_mm2(&self) -> f64 {
        self.tops_mm().iter().map(|width| 2.0 / 3.0 * (width + 2.0) * (1.0 + 0.1 * width).min(3.0)).sum()
    }

    /// Areas of the slices of all sides from the root up, mm²; the last one of a side has its cap.
    #[must_use]
    pub fn slices_mm2(&self, slice_mm: f64) -> Vec<f64> {
        let (first, second) = self.depths_mm();
        let caps = self.tops_mm().into_iter().map(|w| 2.0 / 3.0 * (w + 2.0) * (1.0 + 0.1 * w).min(3.0));
        let mut slices = Vec::new();
        for ((depth, is_first), cap) in [(first, true), (second, false)].into_iter().zip(caps) {
            let mut from = 0.0;
            while depth - from > 1e-9 {
                // What is left over joins the last slice.
                let to = if depth - from < 1.5 * slice_mm { depth } else { from + slice_mm };
                let area = self.up_to_mm2(to, is_first) - self.up_to_mm2(from, is_first);
                slices.push(if to >= depth { area + cap } else { area });
                from = to;
            }
        }
        slices
    }

    /// Passes a groove that can be cut.
    fn check(&self) -> Result<(), EngineError> {
        Domain::new("thickness", 0.5, 500.0).check(self.thickness_mm)?;
        let most_deg = if matches!(self.shape, GrooveShape::V | GrooveShape::DoubleV) { 120.0 } else { 60.0 };
        Domain::new("groove-angle", 0.0, most_deg).check(self.angle_deg)?;
        Domain::new("second-angle", 0.0, most_deg).check(self.second_angle_deg)?;
        Domain::new("root-gap", 0.0, 20.0).check(self.gap_mm)?;
        Domain::new("root-face", 0.0, 0.999 * self.thickness_mm).check(self.face_mm)?;
        let cut_mm = self.thickness_mm - self.face_mm;
        if matches!(self.shape, GrooveShape::U | GrooveShape::J) {
            Domain::new("groove-radius", 0.1, cut_mm).check(self.radius_mm)?;
        }
        if let Some(depth_mm) = self.first_depth_mm.filter(|_| self.shape.double()) {
            Domain::new("first-depth", 0.0, cut_mm).check(depth_mm)?;
        }
        Ok(())
    }
}

/// Area of the groove, of it with caps, and its runs where the process is known.
///
/// # Errors
/// A groove that nobody can cut; a run that no arc makes.
pub fn groove_area(groove: &Groove, run: Option<RunOf<'_>>) -> Result<Vec<Outcome>, EngineError> {
    groove.check()?;
    let answer = |name, value, unit| Outcome::new(Method::GrooveArea, value, unit).named(name);
    let tops = groove.tops_mm();
    let (area, caps) = (groove.area_mm2(), groove.caps_mm2());
    let mut outcomes = vec![
        answer("groove-area", area, Unit::SquareMillimetre).worked(vec![Step::new(
            "top",
            tops[0],
            Unit::Millimetre,
        )]),
        answer("groove-filled", area + caps, Unit::SquareMillimetre)
            .resting_on(&crate::reference::Basis::Practice),
    ];
    if let Some(run) = run {
        let slices = groove.slices_mm2(run.process.slice_mm);
        let each = run.area_mm2()?;
        let beads: f64 = slices.iter().map(|slice| run.count(*slice, each)).sum();
        #[allow(clippy::cast_precision_loss, reason = "a few slices")]
        let layers = slices.len() as f64;
        outcomes.push(answer("groove-layers", layers, Unit::One).resting_on(&run.process.basis));
        outcomes.push(
            answer("groove-runs", beads, Unit::One).resting_on(&run.process.basis).worked(vec![Step::new(
                "each",
                each,
                Unit::SquareMillimetre,
            )]),
        );
    }
    Ok(outcomes)
}
