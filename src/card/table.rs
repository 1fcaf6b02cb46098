//! A table: its head again at the top of each page, its rows whole where a page has room for them.

use std::rc::Rc;

use super::blocks::Sides;
use super::content::Table;
use super::draw::{Drawn, Ink, Role, Weight};
use super::signs::sign;
use super::strip::{Beside, NOTE, Strip, Strips, Style};

/// Between two columns.
const GAP: f64 = 7.0;
/// A sign before the words of a cell, with the room behind it.
const SIGN: f64 = 8.5;
const AFTER_SIGN: f64 = 3.0;

const HEAD: Style = Style::new(NOTE, Weight::Strong, Ink::Soft);
const CELL: Style = Style::new(NOTE, Weight::Regular, Ink::Ink);

/// Puts a table.
pub(super) fn put(strips: &mut Strips, table: &Table, (left, right): Sides) {
    // What stands before a table speaks of it.
    strips.keep_with_next();
    let whole: f64 = table.columns.iter().map(|column| column.share).sum();
    let mut from = left;
    let columns: Vec<Sides> = table
        .columns
        .iter()
        .map(|column| {
            let width = (right - left) * column.share / whole.max(1e-9);
            let span = (from, from + width - GAP);
            from += width;
            span
        })
        .collect();
    let node = strips.node(Role::Table { summary: table.summary.clone() }, None);
    let head = Rc::new(head(strips, table, node, &columns, (left, right)));
    strips.strips.push(Strip { with_next: true, ..(*head).clone() });
    let body = strips.node(Role::TableBody, Some(node));
    for (at, row) in table.rows.iter().enumerate() {
        let row_node = strips.node(Role::Row, Some(body));
        let mut cells = Vec::new();
        let mut signs = Vec::new();
        for (place, (cell, span)) in row.iter().zip(&columns).enumerate() {
            let role = if place == 0 { Role::RowHead } else { Role::Cell };
            let node = strips.node(role, Some(row_node));
            let text = strips.drawable(&cell.text);
            let shift = if cell.sign.is_some() { SIGN + AFTER_SIGN } else { 0.0 };
            let lines = CELL.lines(&(text + " "), span.1 - span.0 - shift);
            cells.push(Beside::new(node, CELL, lines, span.0 + shift));
            signs.extend(cell.sign.map(|kind| (kind, span.0)));
        }
        let first = strips.side_by_side(cells, CELL.height(), 1.5);
        for strip in &mut strips.strips[first..] {
            strip.head = Some(Rc::clone(&head));
        }
        let Some(strip) = strips.strips.get_mut(first) else { continue };
        for (kind, x) in signs {
            for drawn in sign(kind, (x, (CELL.height() - SIGN) / 2.0), SIGN) {
                strip.put(None, drawn);
            }
        }
        if at > 0 {
            strip.put(None, Drawn::straight((left, -0.5), (right, -0.5), 0.4, Ink::Hair));
        }
        // The last row is not alone on its page.
        if at + 2 == table.rows.len() {
            strips.keep_with_next();
        }
    }
}

fn head(strips: &mut Strips, table: &Table, node: usize, columns: &[Sides], (left, right): Sides) -> Strip {
    let head = strips.node(Role::TableHead, Some(node));
    let row = strips.node(Role::Row, Some(head));
    let mut strip = Strip { before: 3.0, ..Strip::default() };
    for (column, span) in table.columns.iter().zip(columns) {
        let node = strips.node(Role::ColumnHead, Some(row));
        let text = strips.drawable(&column.head) + " ";
        for (at, line) in HEAD.lines(&text, span.1 - span.0).into_iter().enumerate() {
            let top = at as f64 * HEAD.height();
            strip.put(Some(node), HEAD.text(line, span.0, top));
            strip.height = strip.height.max(top + HEAD.height());
        }
    }
    strip.height += 1.5;
    strip.put(None, Drawn::straight((left, strip.height), (right, strip.height), 0.75, Ink::Soft));
    strip.height += 1.0;
    strip
}
