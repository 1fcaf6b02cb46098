//! Where moments lie on an axis of time: by the clock, long pauses cut out.

/// A pause longer than this is cut out, min.
const PAUSE_MIN: f64 = 90.0;
/// What stands for a pause, as a share of the axis; all of them together get at most [`PAUSES`].
const PAUSE: f64 = 0.09;
const PAUSES: f64 = 0.4;
/// The first and the last moment stand so far off the ends.
const OFF: f64 = 0.05;
/// Marks are at least so far from each other, where there are not too many.
const APART: f64 = 0.03;
/// A stretch of work is drawn at least so long, min.
const SHORTEST_MIN: f64 = 1.0;

/// An axis of time.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct TimeAxis {
    /// The place of each moment from the left, 0 to 1, in their order.
    pub(super) at: Vec<f64>,
    /// The middle of each pause that is cut out.
    pub(super) cuts: Vec<f64>,
    /// The moments that begin a stretch of work.
    pub(super) begins: Vec<usize>,
}

impl TimeAxis {
    /// The axis of moments in their order, min.
    pub(super) fn of(minutes: &[f64]) -> Self {
        let mut begins: Vec<usize> = Vec::new();
        for (nth, minute) in minutes.iter().enumerate() {
            if nth == 0 || minute - minutes[nth - 1] > PAUSE_MIN {
                begins.push(nth);
            }
        }
        let ends = begins.iter().skip(1).map(|begin| begin - 1).chain(minutes.len().checked_sub(1));
        let stretches: Vec<(usize, usize)> = begins.iter().copied().zip(ends).collect();
        let length = |&(first, last): &(usize, usize)| (minutes[last] - minutes[first]).max(SHORTEST_MIN);
        let whole: f64 = stretches.iter().map(length).sum();
        let count = stretches.len().saturating_sub(1) as f64;
        let pause = if count > 0.0 { PAUSE.min(PAUSES / count) } else { 0.0 };
        let scale = (1.0 - 2.0 * OFF - pause * count) / whole.max(SHORTEST_MIN);
        let (mut at, mut cuts, mut from) = (Vec::new(), Vec::new(), OFF);
        for stretch in &stretches {
            let (first, last) = *stretch;
            let long = length(stretch) * scale;
            // What took no time stands in the middle of its stretch.
            let taken = (minutes[last] - minutes[first]) * scale;
            let begin = from + (long - taken) / 2.0;
            at.extend((first..=last).map(|nth| begin + (minutes[nth] - minutes[first]) * scale));
            from += long;
            if cuts.len() + 1 < stretches.len() {
                cuts.push(from + pause / 2.0);
                from += pause;
            }
        }
        apart(&mut at);
        Self { at, cuts, begins }
    }
}

/// Marks of one minute stand beside each other.
fn apart(at: &mut [f64]) {
    let room = 1.0 - 2.0 * OFF;
    let step = APART.min(room / (at.len().max(2) - 1) as f64);
    for nth in 1..at.len() {
        at[nth] = at[nth].max(at[nth - 1] + step);
    }
    let mut most = 1.0 - OFF;
    for place in at.iter_mut().rev() {
        *place = place.min(most);
        most = *place - step;
    }
}

/// Which of several labels have room: those that come first in `order` before the others.
pub(super) fn with_room(places: &[f64], order: &[usize], apart: f64) -> Vec<usize> {
    let mut taken: Vec<usize> = Vec::new();
    for &nth in order {
        let Some(place) = places.get(nth) else { continue };
        if taken.iter().all(|other| (places[*other] - place).abs() >= apart) {
            taken.push(nth);
        }
    }
    taken.sort_unstable();
    taken
}

#[cfg(test)]
mod tests {
    use crate::app::log::plot_time::{APART, OFF, TimeAxis, with_room};

    /// The order of time is kept, all stay in the frame, and none hides another.
    #[test]
    fn moments_keep_their_order_and_their_room() {
        let many: Vec<f64> = (0..60).map(|nth| f64::from(nth / 3) * 7.0).collect();
        let all: [&[f64]; 6] =
            [&[], &[5.0], &[5.0, 5.0, 5.0], &[0.0, 10.0, 40.0], &[0.0, 10.0, 900.0, 905.0, 5000.0], &many];
        for minutes in all {
            let axis = TimeAxis::of(minutes);
            assert_eq!(axis.at.len(), minutes.len());
            assert!(axis.at.iter().all(|at| (OFF - 1e-9..=1.0 - OFF + 1e-9).contains(at)), "{axis:?}");
            let least = APART.min((1.0 - 2.0 * OFF) / (minutes.len().max(2) - 1) as f64);
            let close = axis.at.windows(2).find(|pair| pair[1] - pair[0] < least - 1e-9);
            assert_eq!(close, None, "{axis:?}");
        }
    }

    #[test]
    fn times_are_by_the_clock_and_a_night_is_cut_out() {
        let axis = TimeAxis::of(&[0.0, 10.0, 40.0]);
        assert!(((axis.at[2] - axis.at[1]) / (axis.at[1] - axis.at[0]) - 3.0).abs() < 1e-9, "{axis:?}");
        assert!(axis.cuts.is_empty());
        let night = TimeAxis::of(&[0.0, 20.0, 820.0, 840.0]);
        assert_eq!((night.begins.as_slice(), night.cuts.len()), ([0, 2].as_slice(), 1));
        assert!(night.at[1] < night.cuts[0] && night.cuts[0] < night.at[2], "{night:?}");
        assert!((night.at[1] - night.at[0] - (night.at[3] - night.at[2])).abs() < 1e-9, "{night:?}");
        assert_eq!(TimeAxis::of(&[7.0]).at, [0.5], "one alone stands in the middle");
    }

    #[test]
    fn labels_have_room() {
        assert_eq!(with_room(&[0.1, 0.15, 0.5, 0.9], &[0, 3, 1, 2], 0.2), [0, 2, 3]);
    }
}
