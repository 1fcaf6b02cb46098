//! Where is an axis cut into cells?

use super::fineness::Spacing;

/// Two coordinates nearer than this are one, m.
const SAME: f64 = 1e-9;
/// A line that may be drawn keeps so far from the others, m: a cell that is much thinner than
/// its neighbours costs more than the line is worth.
const KEEP_OFF: f64 = 3e-3;

/// One axis of a section, m.
#[derive(Debug, Clone, Default)]
pub(super) struct Axis {
    /// Lines that must be there: ends, faces, feet of a weld.
    pub(super) must: Vec<f64>,
    /// Lines that are there where they have room: edges of the heated zone.
    pub(super) may: Vec<f64>,
    /// Spans, or points, beside which the cells are finest.
    pub(super) fine: Vec<(f64, f64)>,
    /// The finest cell.
    pub(super) finest: f64,
}

impl Axis {
    /// All lines from low to high.
    pub(super) fn lines(&self, spacing: Spacing) -> Vec<f64> {
        let must = self.kept();
        let mut lines = vec![must[0]];
        for pair in must.windows(2) {
            let mut at = pair[0];
            for width in self.widths(pair[0], pair[1], spacing) {
                at += width;
                lines.push(at);
            }
            // Sums of widths end a hair beside it.
            if let Some(last) = lines.last_mut() {
                *last = pair[1];
            }
        }
        lines
    }

    /// The lines that must be there, and those that have room.
    fn kept(&self) -> Vec<f64> {
        let mut kept = self.must.clone();
        kept.sort_by(f64::total_cmp);
        kept.dedup_by(|one, other| (*one - *other).abs() <= SAME);
        let ends = (kept[0], kept[kept.len() - 1]);
        for &line in &self.may {
            let inside = line > ends.0 && line < ends.1;
            if inside && kept.iter().all(|other| (other - line).abs() >= KEEP_OFF) {
                kept.push(line);
            }
        }
        kept.sort_by(f64::total_cmp);
        kept
    }

    fn widths(&self, low: f64, high: f64, spacing: Spacing) -> Vec<f64> {
        let length = high - low;
        let widest = spacing.widest.max(length / 12.0).min(3.0 * spacing.widest);
        let inside = |at: f64, span: &&(f64, f64)| at >= span.0 - SAME && at <= span.1 + SAME;
        if self.fine.iter().any(|span| inside(low, &span) && inside(high, &span)) {
            let count = (length / self.finest + 0.5).floor().max(1.0);
            return vec![length / count; count as usize];
        }
        let touches = |at: f64| self.fine.iter().any(|span| inside(at, &span));
        let graded = |length: f64| graded(length, self.finest, spacing.growth, widest);
        match (touches(low), touches(high)) {
            (true, false) => graded(length),
            (false, true) => graded(length).into_iter().rev().collect(),
            (true, true) => {
                let half = graded(length / 2.0);
                half.iter().chain(half.iter().rev()).copied().collect()
            }
            (false, false) => {
                // A length that is a whole number of cells is not one cell more by rounding.
                let count = (length / widest - SAME).ceil().max(1.0);
                vec![length / count; count as usize]
            }
        }
    }
}

/// Widths that grow from the finest until they fill the length, then are drawn to fit it.
fn graded(length: f64, finest: f64, growth: f64, widest: f64) -> Vec<f64> {
    let (mut widths, mut sum, mut width) = (Vec::new(), 0.0, finest);
    while sum < length - SAME {
        let next = f64::min(width, widest);
        widths.push(next);
        sum += next;
        width *= growth;
    }
    let scale = length / sum;
    widths.iter_mut().for_each(|width| *width *= scale);
    widths
}
