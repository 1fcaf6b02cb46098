//! How is a joint drawn as a section: lines, members, weld, toes, and where it must be warm?

mod plates;
mod rounds;

use super::fineness::Fineness;
use super::lines::Axis;
use super::shape::JointShape;

/// What a cell is made of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Matter {
    /// Air.
    Void,
    /// First member.
    First,
    /// Second member.
    Second,
    /// Weld metal.
    Weld,
}

/// A fillet of equal legs in the corner at a point, m.
#[derive(Debug, Clone, Copy)]
pub(super) struct Fillet {
    pub(super) corner: (f64, f64),
    pub(super) right: bool,
    pub(super) up: bool,
    pub(super) leg: f64,
}

/// How a weld fills.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Filling {
    /// Fillets, in bands from the corner out.
    Corners,
    /// Upwards.
    Up,
    /// Outwards along x.
    Out,
}

/// The cells among which a reading on one face speaks for the other.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Stations {
    /// Columns of the first member, rows of the second.
    ByMember,
    /// Columns through everything.
    Columns,
    /// Rows.
    Rows,
}

/// Places that a reader knows by name, m.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Places {
    pub(super) core: (f64, f64),
    pub(super) far_face: (f64, f64),
    pub(super) required: (f64, f64),
}

type Inside = Box<dyn Fn(f64, f64) -> Matter>;
type Required = Box<dyn Fn(Matter, f64, f64) -> bool>;

/// A joint as a section; lengths in m. Round parts have x = r and y = z.
pub(super) struct Recipe {
    pub(super) round: bool,
    pub(super) x: Axis,
    pub(super) y: Axis,
    /// What lies at a place, fillets left out.
    pub(super) matter: Inside,
    pub(super) fillets: Vec<Fillet>,
    pub(super) filling: Filling,
    pub(super) toes: Vec<(f64, f64)>,
    /// Must a cell of a member have the minimum? Weld metal always must.
    pub(super) required: Required,
    pub(super) stations: Stations,
    pub(super) places: Places,
    /// Length of all that is laid in one layer of one weld, m.
    pub(super) run_length: f64,
    /// Beads side by side that the passes of a weld share among them.
    pub(super) beads: Option<f64>,
}

impl Recipe {
    /// The recipe of a joint whose zone Z is heated and which must be warm out to a distance A
    /// from the toe, m.
    pub(super) fn of(shape: &JointShape, fineness: Fineness, zone: f64, required: f64) -> Self {
        match *shape {
            JointShape::BossThrough { .. } => rounds::boss(shape, fineness, zone, required),
            JointShape::RunOnShaft { .. } => rounds::shaft(shape, fineness, zone, required),
            JointShape::BarToBar { .. } => rounds::bars(shape, fineness, zone, required),
            JointShape::Tee { .. } => plates::tee(shape, fineness, zone, required),
            JointShape::Lap { .. } => plates::lap(shape, fineness, zone, required),
            JointShape::Butt { .. } => plates::butt(shape, fineness, zone, required),
            JointShape::Repair { .. } => plates::repair(shape, fineness, zone, required),
        }
    }

    /// Length of one pass of a weld that has so many, m.
    pub(super) fn pass_length(&self, passes: usize) -> f64 {
        self.beads.map_or(self.run_length, |beads| self.run_length * beads / passes.max(1) as f64)
    }
}

/// Millimetres as metres.
const fn m(mm: f64) -> f64 {
    mm * 1e-3
}
