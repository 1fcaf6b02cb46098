//! What a picture of the section needs: its cells in the order of every field, and the places that
//! are measured.

use super::query::HeatCycle;
use super::recipe::{Matter, Recipe};
use super::refusal::Refusal;
use super::run::Setup;
use super::shape::JointShape;
use crate::reference::Reference;

/// One cell of a drawing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DrawnCell {
    /// Between the lines `xs_mm[column]` and the next.
    pub column: usize,
    /// Between the lines `ys_mm[row]` and the next.
    pub row: usize,
    /// What it is made of.
    pub matter: Matter,
    /// The half that is cut away lies to the right (or left) and above (or below): a triangle.
    pub half: Option<(bool, bool)>,
    /// Must it have the minimum?
    pub required: bool,
}

/// A section as it is drawn, mm. Round parts have x = r and y along the axis.
#[derive(Debug, Clone, PartialEq)]
pub struct Drawing {
    /// Is it round about x = 0?
    pub round: bool,
    /// Is it a bar or a shaft, whose axis lies level?
    pub lies: bool,
    /// Lines across.
    pub xs_mm: Vec<f64>,
    /// Lines upwards.
    pub ys_mm: Vec<f64>,
    /// Cells in the order of every field.
    pub cells: Vec<DrawnCell>,
    /// Open faces that are heated, by their middles.
    pub heated_mm: Vec<(f64, f64)>,
    /// Core.
    pub core_mm: (f64, f64),
    /// Far face.
    pub far_face_mm: (f64, f64),
    /// The point at the required distance.
    pub required_point_mm: (f64, f64),
}

/// The section of a joint.
///
/// # Errors
/// What [`Refusal`] says of the joint.
pub fn drawing(reference: &Reference, query: &HeatCycle) -> Result<Drawing, Refusal> {
    let setup = Setup::of(reference, query)?;
    let places =
        Recipe::of(&query.shape, query.fineness, query.zone_mm * 1e-3, query.required_mm * 1e-3).places;
    let mm = |(x, y): (f64, f64)| (x * 1e3, y * 1e3);
    let section = &setup.section;
    let mut required = vec![false; section.cells.len()];
    setup.sites.required.iter().for_each(|&cell| required[cell] = true);
    let cells = section.cells.iter().zip(required).map(|(cell, required)| DrawnCell {
        column: cell.column,
        row: cell.row,
        matter: cell.matter,
        half: cell.half,
        required,
    });
    let heated = setup.sites.heated.iter().map(|&face| mm((section.open[face].x, section.open[face].y)));
    Ok(Drawing {
        round: section.round,
        lies: matches!(query.shape, JointShape::RunOnShaft { .. } | JointShape::BarToBar { .. }),
        xs_mm: section.xs.iter().map(|x| x * 1e3).collect(),
        ys_mm: section.ys.iter().map(|y| y * 1e3).collect(),
        cells: cells.collect(),
        heated_mm: heated.collect(),
        core_mm: mm(places.core),
        far_face_mm: mm(places.far_face),
        required_point_mm: mm(places.required),
    })
}
