//! Draws a heat cycle: what is done, temperatures over one axis of minutes.

use super::cycle_picture::CyclePicture;
use super::draw::{Drawn, Ink, Point, Weight};
use super::strip::{AXIS, Style};

/// Heights: the lane, the room under it with the temperatures, the times.
const LANE: f64 = 11.0;
const WARM_TOP: f64 = LANE + 12.0;
const WARM: f64 = 108.0;
const FOOT: f64 = WARM_TOP + WARM;
const TIMES: f64 = 13.0;
/// The room of the figures at the left.
const LEFT: f64 = 30.0;
/// Two figures on an axis keep so far apart.
const APART: f64 = 8.5;

const STRONG: Style = Style::new(AXIS, Weight::Strong, Ink::Ink);

/// A picture being drawn.
struct Chart<'a> {
    of: &'a CyclePicture,
    left: f64,
    wide: f64,
    drawn: Vec<Drawn>,
}

/// Draws it as wide as is said; with it comes how high it is.
pub(super) fn draw(of: &CyclePicture, width: f64) -> (Vec<Drawn>, f64) {
    let mut chart = Chart { of, left: LEFT, wide: width - LEFT, drawn: Vec::new() };
    chart.columns();
    chart.grid();
    chart.limits();
    chart.turns();
    chart.lines();
    chart.marks();
    chart.lane();
    chart.times();
    let height = chart.legend(FOOT + TIMES);
    (chart.drawn, height)
}

impl Chart<'_> {
    fn x(&self, share: f64) -> f64 {
        self.left + share * self.wide
    }

    fn y_c(&self, at_c: f64) -> f64 {
        WARM_TOP + WARM * (1.0 - (at_c / self.of.top_c).clamp(0.0, 1.0))
    }

    fn line(&mut self, points: Vec<Point>, width: f64, ink: Ink, dash: Option<(f64, f64)>) {
        self.drawn.push(Drawn::Line { points, width, ink, dash });
    }

    /// Each run as a column.
    fn columns(&mut self) {
        for run in &self.of.runs {
            let (from, to) = (self.x(run.span.0), self.x(run.span.1));
            self.drawn.push(Drawn::filled((from, WARM_TOP), (to, FOOT), Ink::Shade));
        }
    }

    fn grid(&mut self) {
        let parts: Vec<Point> = self.of.parts.iter().map(|part| (self.x(part.0), self.x(part.1))).collect();
        let mut taken: Vec<f64> = Vec::new();
        for (at_c, written, limit) in &self.of.degrees {
            let y = self.y_c(*at_c);
            for (from, to) in parts.iter().filter(|_| !limit) {
                self.drawn.push(Drawn::straight((*from, y), (*to, y), 0.5, Ink::Hair));
            }
            if taken.iter().all(|other| (other - y).abs() >= APART) {
                taken.push(y);
                let style = if *limit { STRONG } else { Style::AXIS };
                self.drawn.push(style.text_to(written.clone(), self.left - 7.0, y - style.height() / 2.0));
            }
        }
        let unit = self.of.unit.clone();
        self.drawn.push(Style::AXIS.text(unit, 0.0, WARM_TOP - Style::AXIS.height()));
        if let Some((low_c, high_c)) = self.of.minimum_c.zip(self.of.maximum_c) {
            let (low, high) = (self.y_c(low_c), self.y_c(high_c));
            let x = self.left - 4.5;
            self.line(vec![(x + 3.0, high), (x, high), (x, low), (x + 3.0, low)], 1.25, Ink::Ink, None);
        }
        let last = parts.len().saturating_sub(1);
        for (_, to) in parts.into_iter().take(last) {
            // Two strokes where the axis goes on in another scale.
            for x in [to + 1.0, to + 4.0] {
                self.line(vec![(x - 1.5, FOOT + 3.5), (x + 1.5, FOOT - 3.5)], 0.75, Ink::Soft, None);
            }
        }
    }

    fn limits(&mut self) {
        let of = self.of;
        let (from, to) = (self.left, self.x(of.end_of_weld));
        let [low, high] = [of.minimum_c, of.maximum_c].map(|limit| limit.map(|at_c| self.y_c(at_c)));
        if let Some((low, high)) = low.zip(high) {
            // While an arc burns the working range is grey between its two lines.
            let mut at = from;
            let columns: Vec<Point> =
                of.runs.iter().map(|run| (self.x(run.span.0), self.x(run.span.1))).collect();
            for (start, end) in columns.into_iter().chain([(to, to)]) {
                if start > at {
                    self.drawn.push(Drawn::filled((at, high), (start, low), Ink::Range));
                }
                at = end;
            }
        }
        for y in [low, high].into_iter().flatten() {
            self.drawn.push(Drawn::straight((from, y), (to, y), 1.25, Ink::Inside));
        }
        if let Some(y) = of.ceiling_c.map(|ceiling_c| self.y_c(ceiling_c)) {
            for (from, to) in &of.parts {
                self.drawn.push(Drawn::straight((self.x(*from), y), (self.x(*to), y), 1.0, Ink::Stop));
            }
            let style = Style::new(AXIS, Weight::Regular, Ink::Stop);
            self.drawn.push(style.text_to(of.ceiling.clone(), self.x(1.0), y + 1.0));
        }
    }

    /// Where the joint turns while it cools, with what the formula leaves open.
    fn turns(&mut self) {
        let Some((from, to)) = self.of.parts.last().map(|part| (self.x(part.0), self.x(part.1))) else {
            return;
        };
        for (nth, (at_c, low_c, high_c, says)) in self.of.turns.iter().enumerate() {
            let [y, low, high] = [*at_c, *low_c, *high_c].map(|at_c| self.y_c(at_c));
            self.drawn.push(Drawn::filled((from, high), (to, low), Ink::Shade));
            self.line(vec![(from, y), (to, y)], 0.75, Ink::Soft, Some((3.0, 2.0)));
            // The hotter one is named above its line, the colder one below: two may lie close together.
            let top = if nth == 0 { y - Style::AXIS.height() } else { y + 0.5 };
            self.drawn.push(Style::AXIS.text_to(says.clone(), to, top));
        }
    }

    fn warm(&self, curve: &[Vec<Point>]) -> Vec<Vec<Point>> {
        let at = |point: &Point| (self.x(point.0), self.y_c(point.1));
        curve.iter().map(|piece| piece.iter().map(at).collect()).collect()
    }

    fn lines(&mut self) {
        let of = self.of;
        for piece in self.warm(&of.weld) {
            self.line(piece, 0.8, Ink::Ink, None);
        }
        for piece in self.warm(&of.coldest) {
            self.line(piece, 2.0, Ink::Ink, None);
        }
    }

    fn marks(&mut self) {
        let minimum = self.of.minimum_c.map_or(FOOT, |at_c| self.y_c(at_c));
        for run in &self.of.runs {
            let x = self.x(run.span.0);
            let (low, high) = (self.y_c(run.start_c.0), self.y_c(run.start_c.1));
            self.line(vec![(x, low), (x, high)], 1.25, Ink::Ink, None);
            for y in [low, high] {
                self.line(vec![(x - 2.5, y), (x + 2.5, y)], 1.25, Ink::Ink, None);
            }
            if run.below {
                let tip = (self.x(run.span.1), minimum + 9.0);
                let points = vec![(tip.0 - 3.5, tip.1 - 6.5), (tip.0 + 3.5, tip.1 - 6.5), tip];
                self.drawn.push(Drawn::Area { points, ink: Ink::Stop });
            }
        }
    }

    /// What is done: flame, arc, post-heat, cooling.
    fn lane(&mut self) {
        let of = self.of;
        for (from, to) in &of.flames {
            let (from, to) = (self.x(*from), self.x(*to).max(self.x(*from) + 2.0));
            let mut at = from - LANE;
            while at < to {
                // A stroke of the hatch, cut at the ends of the box.
                let (start, end) = (at.max(from), (at + LANE).min(to));
                if end > start {
                    let points = vec![(start, LANE - (start - at)), (end, LANE - (end - at))];
                    self.line(points, 0.6, Ink::Soft, None);
                }
                at += 3.5;
            }
            self.drawn.push(Drawn::framed((from, 0.3), (to, LANE), 0.6, Ink::Soft));
        }
        let number = |text: &str| STRONG.width(text) + 3.0;
        let fits = of.runs.iter().all(|run| (run.span.1 - run.span.0) * self.wide >= number(&run.number));
        for run in &of.runs {
            let (from, to) = (self.x(run.span.0), self.x(run.span.1));
            self.drawn.push(Drawn::filled((from, 0.0), (to, LANE), Ink::Ink));
            if fits {
                let style = Style::new(AXIS, Weight::Strong, Ink::Paper);
                let middle = f64::midpoint(from, to);
                self.drawn.push(style.text_about(run.number.clone(), middle, (LANE - style.height()) / 2.0));
            }
        }
        if !fits {
            self.numbers();
        }
        if let Some((from, to)) = of.held.map(|(from, to)| (self.x(from), self.x(to))) {
            self.drawn.push(Drawn::framed((from, 0.5), (to, LANE), 1.0, Ink::Ink));
            let middle = LANE / 2.0;
            self.drawn.push(Drawn::straight((from + 3.0, middle), (to - 3.0, middle), 0.75, Ink::Ink));
        }
        if let Some(part) = of.parts.last() {
            let (from, to) = (self.x(part.0), self.x(part.1) - 1.0);
            let fall =
                |share: f64| (from + share * (to - from), 1.5 + (LANE - 3.0) * (1.0 - (1.0 - share).powi(2)));
            self.line((0..=12).map(|step| fall(f64::from(step) / 12.0)).collect(), 1.0, Ink::Ink, None);
            let tip = (to, LANE - 1.5);
            self.line(vec![(to - 4.0, tip.1 - 3.0), tip, (to - 4.0, tip.1 + 1.5)], 1.0, Ink::Ink, None);
        }
    }

    /// The numbers of the runs under their blocks, as many as there is room for.
    fn numbers(&mut self) {
        let of = self.of;
        let middle = |at: usize| self.x(f64::midpoint(of.runs[at].span.0, of.runs[at].span.1));
        let free = |every: &usize| {
            let shown: Vec<usize> = (0..of.runs.len()).step_by(*every).collect();
            shown
                .windows(2)
                .all(|pair| middle(pair[1]) - middle(pair[0]) >= STRONG.width(&of.runs[pair[1]].number) + 3.0)
        };
        let every = (1..=of.runs.len()).find(free).unwrap_or(1);
        let made: Vec<Drawn> = (0..of.runs.len())
            .step_by(every)
            .map(|at| STRONG.text_about(of.runs[at].number.clone(), middle(at), LANE + 0.5))
            .collect();
        self.drawn.extend(made);
    }

    fn times(&mut self) {
        for (share, written, ends) in &self.of.times {
            let (x, top) = (self.x(*share), FOOT + 2.0);
            let drawn = if *ends {
                Style::AXIS.text_to(written.clone(), x, top)
            } else {
                Style::AXIS.text(written.clone(), x, top)
            };
            self.drawn.push(drawn);
        }
    }

    /// What the lines are, each behind its line.
    fn legend(&mut self, top: f64) -> f64 {
        const KEY: f64 = 20.0;
        let half = (self.left + self.wide) / 2.0;
        let (mut down, mut column) = (top + 3.0, 0);
        for (at, says) in self.of.legend.clone().into_iter().enumerate() {
            let lines = Style::AXIS.lines(&says, half - KEY - 8.0);
            let whole = Style::AXIS.lines(&says, 2.0 * half - KEY);
            // A text of several lines takes the whole width.
            let wide = lines.len() > 1;
            if wide && column == 1 {
                (down, column) = (down + Style::AXIS.height(), 0);
            }
            let from = if column == 0 { 0.0 } else { half };
            self.key(at, from, down + Style::AXIS.height() / 2.0);
            let lines = if wide { whole } else { lines };
            let rows = lines.len() as f64;
            for (row, line) in lines.into_iter().enumerate() {
                let top = down + row as f64 * Style::AXIS.height();
                self.drawn.push(Style::AXIS.text(line, from + KEY, top));
            }
            if wide || column == 1 {
                (down, column) = (down + rows * Style::AXIS.height(), 0);
            } else {
                column = 1;
            }
        }
        if column == 1 { down + Style::AXIS.height() } else { down }
    }

    fn key(&mut self, at: usize, x: f64, y: f64) {
        let ends = vec![(x, y), (x + 15.0, y)];
        match at {
            0 => self.line(ends, 2.0, Ink::Ink, None),
            1 => self.line(ends, 0.8, Ink::Ink, None),
            2 => {
                self.drawn.push(Drawn::filled((x, y - 3.0), (x + 15.0, y + 3.0), Ink::Range));
                for y in [y - 3.0, y + 3.0] {
                    self.drawn.push(Drawn::straight((x, y), (x + 15.0, y), 1.0, Ink::Inside));
                }
            }
            4 => {
                self.drawn.push(Drawn::filled((x, y - 3.0), (x + 15.0, y + 3.0), Ink::Shade));
                self.line(ends, 0.75, Ink::Soft, Some((3.0, 2.0)));
            }
            _ => {
                self.line(vec![(x + 4.0, y - 3.5), (x + 4.0, y + 3.5)], 1.25, Ink::Ink, None);
                for y in [y - 3.5, y + 3.5] {
                    self.line(vec![(x + 1.5, y), (x + 6.5, y)], 1.25, Ink::Ink, None);
                }
                let points = vec![(x + 9.0, y - 3.0), (x + 15.0, y - 3.0), (x + 12.0, y + 3.0)];
                self.drawn.push(Drawn::Area { points, ink: Ink::Stop });
            }
        }
    }
}
