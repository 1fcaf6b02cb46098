//! A section made ready for steps: arrays in the order of each sweep.

use super::properties::Properties;
use super::recipe::Matter;
use super::section::{Section, Side};

/// Between a cell and the one before it in a sweep; no area where there is none.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Face {
    pub(super) area: f64,
    pub(super) before: f64,
    pub(super) after: f64,
    /// Of a gap, m² K/W.
    pub(super) resistance: f64,
    pub(super) unfused: bool,
    pub(super) fusion: bool,
}

/// A face to the air in a sweep.
#[derive(Debug, Clone, Copy)]
pub(super) struct Edge {
    pub(super) cell: usize,
    /// Place of its cell in the sweep.
    pub(super) place: usize,
    pub(super) area: f64,
    pub(super) depth: f64,
}

/// One direction: its cells from end to end, line after line.
#[derive(Debug, Clone)]
pub(super) struct Sweep {
    pub(super) order: Vec<usize>,
    /// Before each place.
    pub(super) faces: Vec<Face>,
    pub(super) edges: Vec<Edge>,
}

/// A section with what it is made of.
#[derive(Debug, Clone)]
pub(super) struct Body<'a> {
    pub(super) properties: &'a Properties,
    pub(super) volume: Vec<f64>,
    /// So many times the table's resistivity.
    pub(super) slower: Vec<f64>,
    pub(super) x: Sweep,
    pub(super) y: Sweep,
}

impl<'a> Body<'a> {
    /// Factors on the conductivity of first member, second member and weld; resistance of the gap
    /// between members that only touch, m² K/W.
    pub(super) fn new(section: &Section, properties: &'a Properties, factors: [f64; 3], gap: f64) -> Self {
        let slower = |matter| match matter {
            Matter::First => factors[0],
            Matter::Second => factors[1],
            Matter::Weld | Matter::Void => factors[2],
        };
        let rows: Vec<usize> = (0..section.cells.len()).collect();
        let mut columns = rows.clone();
        columns.sort_by_key(|&cell| (section.cells[cell].column, section.cells[cell].row));
        Self {
            properties,
            volume: section.cells.iter().map(|cell| cell.volume).collect(),
            slower: section.cells.iter().map(|cell| 1.0 / slower(cell.matter)).collect(),
            x: Sweep::new(section, rows, Side::Left, gap),
            y: Sweep::new(section, columns, Side::Down, gap),
        }
    }

    pub(super) fn cells(&self) -> usize {
        self.volume.len()
    }
}

impl Sweep {
    fn new(section: &Section, order: Vec<usize>, before: Side, gap: f64) -> Self {
        let mut place = vec![0; order.len()];
        for (at, &cell) in order.iter().enumerate() {
            place[cell] = at;
        }
        let faces = order
            .iter()
            .map(|&cell| {
                section.joined(cell, before).map_or_else(Face::default, |joined| Face {
                    area: joined.area,
                    before: joined.before,
                    after: joined.after,
                    resistance: if joined.unfused { gap } else { 0.0 },
                    unfused: joined.unfused,
                    fusion: joined.fusion,
                })
            })
            .collect();
        let along_x = before.along_x();
        let edges = section
            .open
            .iter()
            .filter(|open| open.side.along_x() == along_x)
            .map(|open| Edge { cell: open.cell, place: place[open.cell], area: open.area, depth: open.depth })
            .collect();
        Self { order, faces, edges }
    }
}
