//! What stands on a section: figures of its lines, places to measure, the coldest and the hottest.

use super::canvas::Point;
use super::section::{HEIGHT, Section, Verdict};

/// Labels of one line keep so far apart, logical pixels.
const LABELS_APART: f64 = 36.0;

/// What a mark on the section is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Sign {
    /// The figure of a line of one temperature.
    Level,
    /// A place to measure.
    Dot,
    /// The coldest place that must have the minimum.
    Coldest,
    /// The hottest of weld and heat-affected zone.
    Hottest,
}

/// A mark on the section.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Mark {
    pub(super) at: Point,
    pub(super) sign: Sign,
    pub(super) at_c: f64,
}

impl Section {
    /// All marks, where they stand on a picture so wide.
    pub(super) fn marks(&self, width: f64) -> Vec<Mark> {
        let size = (width, HEIGHT);
        let mut marks: Vec<Mark> = Vec::new();
        let put = |marks: &mut Vec<Mark>, at: Point, sign, at_c| marks.push(Mark { at, sign, at_c });
        for place in self.dots_mm() {
            put(&mut marks, self.drawn_at(size, place), Sign::Dot, self.at_c(place));
        }
        if self.counted() {
            if let Some((place, at_c, _)) = self.extreme(true) {
                // What hits a dot stands on the other half.
                let place = if self.seen.drawing.round { (-place.0, place.1) } else { place };
                put(&mut marks, self.drawn_at(size, place), Sign::Coldest, at_c);
            }
            let above = |at_c: f64| matches!(self.verdict(at_c), Verdict::Above | Verdict::Ceiling);
            if let Some((place, at_c, _)) = self.extreme(false).filter(|found| above(found.1)) {
                let place = if self.seen.drawing.round { (-place.0, place.1) } else { place };
                put(&mut marks, self.drawn_at(size, place), Sign::Hottest, at_c);
            }
        }
        self.level_marks(size, &mut marks);
        marks
    }

    /// Figures of the lines, where each crosses the middle of the first part, or that of the second.
    fn level_marks(&self, size: Point, marks: &mut Vec<Mark>) {
        let drawing = &self.seen.drawing;
        let (left, right, low, high) = self.view;
        let core = drawing.required_point_mm;
        let ways = [
            ((drawing.core_mm.0.max(0.0), core.1), (right, core.1)),
            (((left + right) / 2.0, drawing.core_mm.1.max(low)), ((left + right) / 2.0, high)),
        ];
        for (from, to) in ways {
            let at = |share: f64| (from.0 + share * (to.0 - from.0), from.1 + share * (to.1 - from.1));
            let mut before: Option<f64> = None;
            for step in 0..=160 {
                let place = at(f64::from(step) / 160.0);
                let inside = (place.0.abs(), place.1);
                let here = self.seen.places.at(inside.0, inside.1).map(|_| self.at_c(inside));
                if let (Some(was), Some(now)) = (before, here) {
                    for &(level_c, _) in &self.levels {
                        let crosses = (was - level_c) * (now - level_c) <= 0.0 && was != now;
                        let drawn = self.drawn_at(size, place);
                        let free = marks.iter().all(|mark| {
                            (mark.at.0 - drawn.0).abs() > LABELS_APART || (mark.at.1 - drawn.1).abs() > 20.0
                        });
                        if crosses && free && self.inside(place) {
                            marks.push(Mark { at: drawn, sign: Sign::Level, at_c: level_c });
                        }
                    }
                }
                before = here;
            }
        }
    }
}
