//! Minutes along a picture: the one mapper that chart, lane, slider and job card share.
//!
//! Five minutes of flame and hours of cooling share one axis, so it has parts. Each is straight, and
//! between them is a gap.

use crate::engine::heat_cycle::{Cycle, HeatCycle};

/// One part: its minutes, and its place from 0 to 1.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Part {
    /// First minute.
    pub from_min: f64,
    /// Last minute.
    pub to_min: f64,
    /// Left end.
    pub left: f64,
    /// Right end.
    pub right: f64,
}

/// The axis.
#[derive(Debug, Clone, PartialEq)]
pub struct Axis {
    /// Its parts, from the left.
    pub parts: Vec<Part>,
}

/// Between two parts.
const GAP: f64 = 0.025;
/// A flame that burns longer has a part of its own, min.
const LONG_FLAME_MIN: f64 = 60.0;

impl Axis {
    /// An axis of parts, each with its length and its share of the room.
    #[must_use]
    pub fn of(spans: &[(f64, f64)]) -> Self {
        let spans: Vec<(f64, f64)> = spans.iter().copied().filter(|(length, _)| *length > 0.0).collect();
        let room = 1.0 - GAP * (spans.len().max(1) - 1) as f64;
        let whole: f64 = spans.iter().map(|(_, share)| share).sum();
        let (mut minute, mut at) = (0.0, 0.0);
        let parts = spans.iter().map(|(length, share)| {
            let part = Part {
                from_min: minute,
                to_min: minute + length,
                left: at,
                right: at + room * share / whole,
            };
            minute = part.to_min;
            at = part.right + GAP;
            part
        });
        Self { parts: parts.collect() }
    }

    /// The axis of a cycle: heat and weld, post-heat, cooling.
    #[must_use]
    pub fn of_cycle(query: &HeatCycle, cycle: &Cycle) -> Self {
        let end = cycle.moments.last().map_or(cycle.end_of_weld_min, |moment| moment.minute);
        let held = query.post_heat.hours * 60.0;
        let flame = cycle.preheat.heated.minutes;
        let cooling = (end - cycle.end_of_weld_min - held).max(1.0);
        if flame > LONG_FLAME_MIN {
            return Self::of(&[
                (flame, 0.25),
                (cycle.end_of_weld_min - flame, 0.4),
                (held, 0.13),
                (cooling, 0.22),
            ]);
        }
        Self::of(&[(cycle.end_of_weld_min, 0.64), (held, 0.14), (cooling, 0.22)])
    }

    /// The last minute.
    #[must_use]
    pub fn end_min(&self) -> f64 {
        self.parts.last().map_or(0.0, |part| part.to_min)
    }

    /// Where a minute lies, from 0 to 1.
    #[must_use]
    pub fn x(&self, minute: f64) -> f64 {
        let part = self.parts.iter().find(|part| minute <= part.to_min).or_else(|| self.parts.last());
        part.map_or(0.0, |part| {
            let share = ((minute - part.from_min) / (part.to_min - part.from_min)).clamp(0.0, 1.0);
            share.mul_add(part.right - part.left, part.left)
        })
    }

    /// A line of minutes with their figures, part by part, each place from 0 to 1; interrupted where it
    /// has none.
    #[must_use]
    pub fn curve<L>(&self, line: L) -> Vec<Vec<(f64, f64)>>
    where
        L: Iterator<Item = (f64, Option<f64>)> + Clone,
    {
        let mut pieces: Vec<Vec<(f64, f64)>> = Vec::new();
        for part in &self.parts {
            let mut piece = Vec::new();
            let within = |minute: f64| minute >= part.from_min - 1e-6 && minute <= part.to_min + 1e-6;
            for (minute, figure) in line.clone().filter(|(minute, _)| within(*minute)) {
                match figure {
                    Some(figure) => {
                        let share = (minute - part.from_min) / (part.to_min - part.from_min);
                        piece.push((part.left + share.clamp(0.0, 1.0) * (part.right - part.left), figure));
                    }
                    None => pieces.push(std::mem::take(&mut piece)),
                }
            }
            pieces.push(piece);
        }
        pieces.retain(|piece| piece.len() > 1);
        pieces
    }

    /// The minute at a place; in a gap that of the nearer end.
    #[must_use]
    pub fn minute(&self, x: f64) -> f64 {
        let part = self.parts.iter().find(|part| x <= part.right + GAP / 2.0).or_else(|| self.parts.last());
        part.map_or(0.0, |part| {
            let share = ((x - part.left) / (part.right - part.left)).clamp(0.0, 1.0);
            share.mul_add(part.to_min - part.from_min, part.from_min)
        })
    }
}
