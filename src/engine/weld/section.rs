//! Where does each bead of a fillet stand?

use super::fillet::Fillet;
use super::runs::rows_of_beads;

/// One bead of the section: its corners, mm, the corner of the joint at (0, 0), x along the running part.
#[derive(Debug, Clone, PartialEq)]
pub struct Bead {
    /// Its row, from 1 at the root.
    pub row: usize,
    /// Its corners, round it.
    pub corners: Vec<(f64, f64)>,
}

impl Bead {
    /// Its area, mm².
    #[must_use]
    pub fn area_mm2(&self) -> f64 {
        let next = self.corners.iter().cycle().skip(1);
        let twice: f64 = self.corners.iter().zip(next).map(|(a, b)| a.0 * b.1 - b.0 * a.1).sum();
        twice.abs() / 2.0
    }
}

/// The beads of a fillet in the order in which they are made: rows from the root, each from the lower toe
/// up. A bead's area is its share of the fillet's triangle.
///
/// Row borders are parallel to the face, `z sqrt(C/C0)` along both legs; within a row the beads are cut
/// by rays from the corner, along which a triangle's area grows evenly.
#[must_use]
pub fn beads(fillet: Fillet, areas_mm2: &[f64]) -> Vec<Bead> {
    let total: f64 = areas_mm2.iter().sum();
    let mut made = Vec::with_capacity(areas_mm2.len());
    let (mut below, mut first) = (0.0_f64, 0);
    for (row, count) in rows_of_beads(areas_mm2.len()).into_iter().enumerate() {
        let of_row = &areas_mm2[first..first + count];
        let sum: f64 = of_row.iter().sum();
        let above = below + sum;
        let (inner, outer) = ((below / total).sqrt(), (above / total).sqrt());
        let at = |share: f64, border: f64| {
            ((1.0 - share) * border * fillet.first_mm, share * border * fillet.second_mm)
        };
        let mut from = 0.0;
        for area in of_row {
            let to = from + area / sum;
            let mut corners = vec![at(from, inner), at(from, outer), at(to, outer), at(to, inner)];
            if inner <= 0.0 {
                corners.pop();
            }
            made.push(Bead { row: row + 1, corners });
            from = to;
        }
        (below, first) = (above, first + count);
    }
    made
}
