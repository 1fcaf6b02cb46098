//! Which readings of a piece belong together: of one part, of one place, of one moment.

use super::ReadingTaken;

/// Who reads a part at several places takes no longer, min (common practice, no source).
const ROUND_MIN: f64 = 5.0;

/// Does a reading say by itself what is left: is its cold end known, or is it surely below?
pub(super) fn says(reading: &ReadingTaken, minimum_c: f64) -> bool {
    reading.band.most_c().is_some_and(|most_c| most_c < minimum_c) || reading.band.least_c().is_some()
}

/// The readings that tell what a part was when it was last looked at: the latest, and those of that moment at
/// its other places. Where only the hottest that it was is known, it is no hotter now.
pub(super) fn latest_of(readings: &[&ReadingTaken]) -> Vec<usize> {
    let last = readings.iter().rposition(|reading| !reading.band.peak);
    let Some(last) = last.or_else(|| readings.len().checked_sub(1)) else { return Vec::new() };
    let mut found = of_one_moment(readings, last, |reading| !reading.band.peak);
    found.push(last);
    found
}

/// Was a part surely above its maximum when it was last looked at?
pub(super) fn surely_over(readings: &[&ReadingTaken], maximum_c: f64) -> bool {
    let over = |nth: usize| readings[nth].band.low_c.is_some_and(|low_c| low_c > maximum_c);
    latest_of(readings).into_iter().any(|nth| !readings[nth].band.peak && over(nth))
}

pub(super) fn of<'a>(readings: &[&'a ReadingTaken], member: Option<u32>) -> Vec<&'a ReadingTaken> {
    readings.iter().filter(|reading| reading.member == member).copied().collect()
}

/// The latest readings at other places of a part that are of one moment with one of its readings: who goes
/// round a part takes a few minutes.
pub(super) fn of_one_moment(
    readings: &[&ReadingTaken],
    last: usize,
    says: impl Fn(&ReadingTaken) -> bool,
) -> Vec<usize> {
    let mut found: Vec<usize> = vec![last];
    for (nth, reading) in readings.iter().enumerate().rev() {
        let near_min = readings[last].at.minutes_since(reading.at).abs();
        let new = !found.iter().any(|known| is_same_place(readings[*known], reading));
        if near_min <= ROUND_MIN && new && says(reading) {
            found.push(nth);
        }
    }
    found.split_off(1)
}

pub(super) fn is_same_place(one: &ReadingTaken, other: &ReadingTaken) -> bool {
    one.member == other.member && one.face == other.face && one.away_mm == other.away_mm
}

/// Two readings of one place at one point of the work.
pub(super) fn same_place(first: &ReadingTaken, second: &ReadingTaken) -> bool {
    first.when == second.when
        && first.when.in_welding()
        && is_same_place(first, second)
        && first.at < second.at
}
