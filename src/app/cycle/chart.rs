//! The heat cycle as a picture: what is done, temperature and hydrogen over one axis of minutes.

use slint::Image;

use super::canvas::{Canvas, Point};
use super::inks::Inks;
use super::seen::Seen;
use crate::app::screen_values::round_c;
use crate::engine::heat_cycle::{Moment, Phase, Turned};
use crate::report::cycle_axis::Axis;
use crate::units::TemperatureUnit;

/// Heights, logical pixels: the lane, the gap under it, temperatures, the gap, hydrogen.
pub(super) const LANE: f64 = 16.0;
const UNDER_LANE: f64 = 18.0;
const WARM: f64 = 200.0;
const BETWEEN: f64 = 32.0;
const WET: f64 = 84.0;
/// Where numbers under the lane stand.
pub(super) const UNDER_LANE_AT: f64 = LANE + UNDER_LANE / 2.0;
/// Where the hydrogen's head stands.
pub(super) const WET_HEAD_AT: f64 = LANE + UNDER_LANE + WARM + BETWEEN / 2.0 + 3.0;
/// The whole picture.
pub(super) const HEIGHT: f64 = LANE + UNDER_LANE + WARM + BETWEEN + WET;
/// Around an arc the model has no figure for the weld, min.
const NO_FIGURE_MIN: f64 = 1.0;
/// The least hydrogen that is drawn, ml/100 g.
pub(super) const LEAST_ML: f64 = 0.01;
/// Lines of the grid lie so far apart, K; twice as many °F.
const GRID_K: f64 = 100.0;

/// What is drawn, and to which scale.
pub(super) struct Chart<'a> {
    seen: &'a Seen,
    pub(super) axis: Axis,
    /// The top of the temperatures, °C.
    pub(super) top_c: f64,
    /// The top of the hydrogen, ml/100 g.
    pub(super) most_ml: f64,
    /// The unit that its axis is told in.
    unit: TemperatureUnit,
}

impl<'a> Chart<'a> {
    pub(super) fn of(seen: &'a Seen, unit: TemperatureUnit) -> Self {
        let (query, cycle) = (&seen.flames.cycle, &seen.found.cycle);
        let hottest = cycle.moments.iter().map(|moment| moment.hottest_c.max(moment.core_c));
        let hottest_c = hottest.fold(query.ceiling_c.unwrap_or(0.0), f64::max);
        let most = cycle.moments.iter().filter_map(|moment| Some(moment.hydrogen_ml?[0]));
        let most_ml = most.fold(query.hydrogen_ml(), f64::max);
        Self {
            axis: Axis::of_cycle(query, cycle),
            // The arc's own heat is no figure, and would press all else together.
            top_c: (hottest_c.min(query.ceiling_c.unwrap_or(600.0).max(query.minimum_c + 150.0)) / 50.0)
                .ceil()
                * 50.0,
            most_ml: most_ml.max(10.0 * LEAST_ML),
            unit,
            seen,
        }
    }

    /// Where a temperature lies, logical pixels from the top.
    pub(super) fn y_c(&self, at_c: f64) -> f64 {
        let share = (at_c / self.top_c).clamp(0.0, 1.0);
        LANE + UNDER_LANE + WARM * (1.0 - share)
    }

    /// Round figures of the axis, °C.
    pub(super) fn grid_c(&self) -> Vec<f64> {
        round_c(self.unit, (0.0, self.top_c), GRID_K).collect()
    }

    /// Is a point of the transformation on the picture?
    pub(super) fn shows(&self, turned: &Turned) -> bool {
        (0.0..self.top_c).contains(&turned.at_c)
    }

    /// Where a hydrogen content lies, on a scale of tenfolds.
    pub(super) fn y_ml(&self, ml: f64) -> f64 {
        let share = ((ml.max(LEAST_ML) / LEAST_ML).ln() / (self.most_ml / LEAST_ML).ln()).clamp(0.0, 1.0);
        HEIGHT - WET * share
    }

    /// Draws it, without the moment that is looked at.
    pub(super) fn image(&self, width: f64, scale: f64, inks: &Inks) -> Image {
        let mut canvas = Canvas::new(width, HEIGHT, scale);
        self.grid(&mut canvas, width, inks);
        self.runs(&mut canvas, width, inks);
        self.limits(&mut canvas, width, inks);
        self.turns(&mut canvas, width, inks);
        self.lines(&mut canvas, width, inks);
        self.marks(&mut canvas, width, inks);
        self.hydrogen(&mut canvas, width, inks);
        canvas.image()
    }

    fn grid(&self, canvas: &mut Canvas, width: f64, inks: &Inks) {
        for part in &self.axis.parts {
            let (left, right) = (part.left * width, part.right * width);
            // The foot of the plot, and round figures above it.
            for at_c in [0.0].into_iter().chain(self.grid_c()) {
                canvas.fill((left, self.y_c(at_c)), (right, self.y_c(at_c) + 1.0), inks.line, 1.0);
            }
            let mut ml = LEAST_ML;
            while ml <= self.most_ml {
                canvas.fill((left, self.y_ml(ml)), (right, self.y_ml(ml) + 1.0), inks.line, 1.0);
                ml *= 10.0;
            }
            // Two strokes where the axis goes on in another scale.
            if part.right < 0.999 {
                for x in [right + 1.0, right + 4.0] {
                    let strokes = [self.y_c(0.0), HEIGHT - 1.0];
                    for y in strokes {
                        canvas.line(&[(x - 2.0, y + 5.0), (x + 2.0, y - 5.0)], 1.0, inks.ink2, None);
                    }
                }
            }
        }
    }

    /// The lane, and each run as a column through both charts.
    fn runs(&self, canvas: &mut Canvas, width: f64, inks: &Inks) {
        let (query, cycle) = (&self.seen.flames.cycle, &self.seen.found.cycle);
        let x = |minute: f64| self.axis.x(minute) * width;
        let flame = |canvas: &mut Canvas, from: f64, to: f64| {
            let (left, right) = (x(from), x(to).max(x(from) + 3.0));
            canvas.hatch((left, 0.0), (right, LANE), inks.ink2, (1.6, 5.0));
            let frame = [(left, 0.5), (right, 0.5), (right, LANE - 0.5), (left, LANE - 0.5), (left, 0.5)];
            canvas.line(&frame, 1.0, inks.ink2, None);
        };
        flame(canvas, 0.0, cycle.preheat.heated.minutes);
        for pass in &cycle.passes {
            let start = pass.start_min;
            if let Some(heated) = pass.reheat {
                // The flame comes before the part evens out and the weld falls to the maximum.
                let from = self.flame_before(start);
                flame(canvas, from, from + heated.minutes);
            }
            let (left, right) = (x(start), x(start + pass.arc_min));
            canvas.fill((left, 0.0), (right, LANE), inks.ink, 1.0);
            canvas.fill((left, LANE + UNDER_LANE), (right, HEIGHT), inks.line, 0.45);
        }
        let held = query.post_heat.hours * 60.0;
        let end = cycle.end_of_weld_min;
        if held > 0.0 {
            let (left, right) =
                (x(end + 1e-6).max(self.axis.parts[self.axis.parts.len() - 2].left * width), x(end + held));
            let frame = [(left, 1.0), (right, 1.0), (right, LANE - 1.0), (left, LANE - 1.0), (left, 1.0)];
            canvas.line(&frame, 1.5, inks.ink, None);
            canvas.line(&[(left + 3.0, LANE / 2.0), (right - 3.0, LANE / 2.0)], 1.0, inks.ink, None);
        }
        if let Some(part) = self.axis.parts.last() {
            let (left, right) = (part.left * width, part.right * width - 1.0);
            let fall: Vec<Point> = (0..=12)
                .map(|step| {
                    let share = f64::from(step) / 12.0;
                    (left + share * (right - left), 2.0 + (LANE - 4.0) * (1.0 - (1.0 - share).powi(2)))
                })
                .collect();
            canvas.line(&fall, 1.5, inks.ink, None);
            let tip = (right, LANE - 2.0);
            canvas.line(&[(tip.0 - 6.0, tip.1 - 4.0), tip, (tip.0 - 6.0, tip.1 + 2.0)], 1.5, inks.ink, None);
        }
    }

    /// When the flame before a run began, min.
    fn flame_before(&self, start_min: f64) -> f64 {
        let moments = &self.seen.found.cycle.moments;
        let last =
            moments.iter().rposition(|moment| moment.minute < start_min && moment.phase == Phase::Heating);
        let Some(last) = last else { return start_min };
        let first = moments[..last].iter().rposition(|moment| moment.phase != Phase::Heating);
        first.map_or(0.0, |before| moments[before].minute)
    }

    fn limits(&self, canvas: &mut Canvas, width: f64, inks: &Inks) {
        let (query, cycle) = (&self.seen.flames.cycle, &self.seen.found.cycle);
        let right = self.axis.x(cycle.end_of_weld_min) * width;
        let low = self.y_c(query.minimum_c);
        if let Some(most_c) = query.interpass_c {
            let high = self.y_c(most_c);
            canvas.fill((0.0, high), (right, low), inks.accent, 0.16);
            canvas.fill((0.0, high - 1.0), (right, high + 1.0), inks.accent, 1.0);
        }
        canvas.fill((0.0, low - 1.0), (right, low + 1.0), inks.accent, 1.0);
        if query.post_heat.hours > 0.0 {
            let y = self.y_c(query.post_heat.at_c);
            let left = right + 0.02 * width;
            let end = self.axis.x(cycle.end_of_weld_min + query.post_heat.hours * 60.0) * width;
            canvas.fill((left, y - 1.0), (end, y + 1.0), inks.accent, 1.0);
        }
        if let Some(ceiling_c) = query.ceiling_c {
            let y = self.y_c(ceiling_c);
            for part in &self.axis.parts {
                canvas.fill((part.left * width, y - 1.0), (part.right * width, y + 1.0), inks.stop, 1.0);
            }
        }
    }

    /// Where the steel turns on its way down: a line in the cooling, and what the formula leaves open.
    fn turns(&self, canvas: &mut Canvas, width: f64, inks: &Inks) {
        let Some(part) = self.axis.parts.last() else { return };
        let (left, right) = (part.left * width, part.right * width);
        for turned in self.seen.found.turned(&self.seen.flames).iter().filter(|turned| self.shows(turned)) {
            canvas.fill((left, self.y_c(turned.high_c)), (right, self.y_c(turned.low_c)), inks.ink2, 0.14);
            let y = self.y_c(turned.at_c);
            canvas.line(&[(left, y), (right, y)], 1.2, inks.ink2, Some((5.0, 3.0)));
        }
    }

    /// One line of the cycle, logical pixels to the right.
    fn curve(&self, width: f64, of: impl Fn(&Moment) -> Option<f64>) -> Vec<Vec<Point>> {
        let moments = self.seen.found.cycle.moments.iter();
        let mut pieces = self.axis.curve(moments.map(|moment| (moment.minute, of(moment))));
        pieces.iter_mut().flatten().for_each(|point| point.0 *= width);
        pieces
    }

    fn warm(&self, width: f64, of: impl Fn(&Moment) -> Option<f64>) -> Vec<Vec<Point>> {
        let mut pieces = self.curve(width, of);
        pieces.iter_mut().flatten().for_each(|point| point.1 = self.y_c(point.1));
        pieces
    }

    fn lines(&self, canvas: &mut Canvas, width: f64, inks: &Inks) {
        let passes = &self.seen.found.cycle.passes;
        let by_arc = |minute: f64| {
            passes.iter().any(|pass| {
                (pass.start_min..=pass.start_min + pass.arc_min + NO_FIGURE_MIN).contains(&minute)
            })
        };
        let weld = self.warm(width, |moment| (!by_arc(moment.minute)).then_some(moment.weld_c));
        weld.iter().for_each(|piece| canvas.line(piece, 1.5, inks.ink, None));
        let core = self.warm(width, |moment| (!by_arc(moment.minute)).then_some(moment.core_c));
        core.iter().for_each(|piece| canvas.line(piece, 1.2, inks.ink2, Some((7.0, 4.0))));
        let surface = self.warm(width, |moment| moment.skin_c);
        surface.iter().for_each(|piece| canvas.line(piece, 1.5, inks.stop, Some((1.5, 3.0))));
        let coldest = self.warm(width, |moment| Some(moment.coldest_c));
        coldest.iter().for_each(|piece| canvas.line(piece, 3.0, inks.ink, None));
    }

    fn marks(&self, canvas: &mut Canvas, width: f64, inks: &Inks) {
        let (query, cycle) = (&self.seen.flames.cycle, &self.seen.found.cycle);
        for pass in &cycle.passes {
            let x = self.axis.x(pass.start_min) * width;
            let (low, high) = (self.y_c(pass.coldest_start_c), self.y_c(pass.hottest_start_c));
            canvas.line(&[(x, low), (x, high)], 2.0, inks.ink, None);
            for y in [low, high] {
                canvas.line(&[(x - 4.0, y), (x + 4.0, y)], 2.0, inks.ink, None);
            }
            if pass.coldest_end_c < query.minimum_c {
                let at =
                    (self.axis.x(pass.start_min + pass.arc_min) * width, self.y_c(query.minimum_c) + 3.0);
                canvas.pointer_down(at, 9.0, inks.stop);
            }
        }
        // Without an arc the minimum is lost here.
        let lost = cycle.preheat.heated.minutes + cycle.preheat.lasts_min();
        if lost < cycle.end_of_weld_min {
            let at = (self.axis.x(lost) * width, self.y_c(query.minimum_c));
            canvas.ring(at, 5.0, 2.0, inks.accent);
        }
    }

    fn hydrogen(&self, canvas: &mut Canvas, width: f64, inks: &Inks) {
        let lane = |lane: usize| {
            let mut pieces = self.curve(width, |moment| Some(moment.hydrogen_ml?[lane]));
            pieces.iter_mut().flatten().for_each(|point| point.1 = self.y_ml(point.1));
            pieces
        };
        let (slow, fast, trapped) = (lane(0), lane(2), lane(3));
        for (upper, lower) in slow.iter().zip(&fast) {
            canvas.between(upper, lower, inks.ink2, 0.22);
        }
        fast.iter().for_each(|piece| canvas.line(piece, 1.2, inks.ink2, None));
        slow.iter().for_each(|piece| canvas.line(piece, 2.0, inks.ink, None));
        if !self.seen.flames.carbon_steel {
            trapped.iter().for_each(|piece| canvas.line(piece, 1.5, inks.ink, Some((5.0, 3.0))));
        }
    }
}
