//! In which order is a weld tacked and run?
//!
//! Opposite segments cancel each other's pull, the second face uses the heat of the first, and no stop stands
//! over a stop. Lengths and counts are common practice.

use crate::engine::EngineError;
use crate::engine::error::Domain;

/// A face of the joint.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Face {
    /// The first, on which the tacks are.
    A,
    /// The second.
    B,
}

/// Tacks of a joint, in the order in which they are made.
#[derive(Debug, Clone, PartialEq)]
pub struct Tacks {
    /// Length of one, mm.
    pub length_mm: f64,
    /// Runs of one.
    pub runs: u8,
    /// Their places: degrees round a ring, mm to the middle along a line.
    pub at: Vec<f64>,
}

/// One deed of the order.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Deed {
    /// Heat to the minimum.
    Preheat,
    /// A tack at a place.
    Tack(f64),
    /// Feather the tacks; grind out cracked ones.
    Feather,
    /// Turn the part to this face.
    Turn(Face),
    /// Measure, at the far side too.
    Measure(Face, usize),
    /// A run of a pass: its segment, from, to.
    Run {
        /// Face.
        face: Face,
        /// Number of the pass, from 1.
        pass: usize,
        /// Segment or step, from 0.
        segment: usize,
        /// From: degrees or mm.
        from: f64,
        /// To: degrees or mm.
        to: f64,
    },
    /// Slag off, look at crater and toes.
    CleanLook(Face, usize),
    /// Post-heat.
    PostHeat,
    /// Cover, to cool slowly.
    Cover,
    /// Inspect after the plan's hours.
    Inspect,
}

/// Largest diameter with two tacks, mm.
const TWO_TACKS_MM: f64 = 200.0;
/// Longest segment of a ring, mm.
const SEGMENT_MM: f64 = 100.0;

/// Segments of a ring: two below Ø25, else at least four, none longer than 100 mm.
#[must_use]
#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a small count of segments")]
pub fn segments(diameter_mm: f64) -> usize {
    if diameter_mm < 25.0 {
        return 2;
    }
    let half = (std::f64::consts::PI * diameter_mm / (2.0 * SEGMENT_MM)).ceil() as usize;
    (2 * half).max(4)
}

/// Order of the segments of a ring: each is followed by the one opposite.
#[must_use]
pub fn ring_order(segments: usize) -> Vec<usize> {
    let half = segments / 2;
    let evens = (0..half).step_by(2);
    let odds = (1..half).step_by(2);
    evens.chain(odds).flat_map(|first| [first, first + half]).collect()
}

/// Tacks of a ring.
///
/// # Errors
/// A diameter outside 5 to 2000 mm.
pub fn ring_tacks(diameter_mm: f64, shrunk: bool) -> Result<Tacks, EngineError> {
    let diameter = Domain::new("pin-diameter", 5.0, 2000.0).check(diameter_mm)?;
    let at = match (shrunk, diameter > TWO_TACKS_MM) {
        (true, _) => vec![0.0],
        (false, false) => vec![0.0, 180.0],
        (false, true) => vec![0.0, 180.0, 90.0, 270.0],
    };
    let length_mm = (std::f64::consts::PI * diameter / 8.0).clamp(20.0, 50.0);
    Ok(Tacks { length_mm, runs: 1, at })
}

/// Both ends first, then the middle of each gap.
fn halving(count: usize) -> Vec<usize> {
    if count < 2 {
        return (0..count).collect();
    }
    let mut order = vec![0, count - 1];
    let mut gaps = std::collections::VecDeque::from([(0, count - 1)]);
    while let Some((from, to)) = gaps.pop_front() {
        if to - from > 1 {
            let middle = usize::midpoint(from, to);
            order.push(middle);
            gaps.extend([(from, middle), (middle, to)]);
        }
    }
    order
}

/// A line up to this takes two tacks, and then one for each so many more, mm.
pub const TACK_SPACING_MM: f64 = 300.0;
/// A line begins with a tack so far from its end, mm.
pub const FROM_END_MM: f64 = 25.0;

/// Length and runs of one tack of a line: by the thicker part, longer and of two runs on thick or strong
/// steel.
///
/// # Errors
/// A thickness or a yield strength that no part has.
pub fn line_tack(thickness_mm: f64, yield_mpa: f64) -> Result<(f64, u8), EngineError> {
    let thickness = Domain::new("thickness", 0.5, 2000.0).check(thickness_mm)?;
    let strong = Domain::new("base-yield", 100.0, 2500.0).check(yield_mpa)? > 500.0 || thickness > 50.0;
    Ok(match strong {
        true => (75.0, 2),
        false if thickness < 12.0 => (4.0 * thickness, 1),
        false => (50.0, 1),
    })
}

/// Tacks of a line.
///
/// # Errors
/// A length, a thickness or a yield strength that no part has.
#[allow(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    clippy::cast_precision_loss,
    reason = "a small count of tacks"
)]
pub fn line_tacks(length_mm: f64, thickness_mm: f64, yield_mpa: f64) -> Result<Tacks, EngineError> {
    let length = Domain::new("weld-length", 5.0, 20_000.0).check(length_mm)?;
    let (tack, runs) = line_tack(thickness_mm, yield_mpa)?;
    let count = if length < 2.0 * tack + 70.0 {
        1
    } else if length <= TACK_SPACING_MM {
        2
    } else {
        1 + (length / TACK_SPACING_MM).ceil() as usize
    };
    let tack = tack.min(length);
    let (first, last) = (FROM_END_MM + tack / 2.0, length - FROM_END_MM - tack / 2.0);
    let centre = |at: usize| {
        if count == 1 { length / 2.0 } else { first + (last - first) * at as f64 / (count - 1) as f64 }
    };
    Ok(Tacks { length_mm: tack, runs, at: halving(count).into_iter().map(centre).collect() })
}

/// Steps of a line, the first one made first: up to three go one way, more go back-step from the middle.
#[must_use]
#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a small count of steps")]
pub fn line_order(length_mm: f64, step_mm: f64) -> Vec<usize> {
    let count = (length_mm / step_mm).ceil().max(1.0) as usize;
    if count <= 3 {
        return (0..count).collect();
    }
    let start = (count - 1) / 2;
    let mut order = vec![start];
    for away in 1..count {
        order.extend((start + away < count).then_some(start + away));
        order.extend(start.checked_sub(away));
    }
    order
}

/// Faces of a pass: odd passes begin on the first, even ones stay where the part lies.
#[must_use]
pub const fn faces(pass: usize, both: bool) -> &'static [Face] {
    match (both, pass % 2) {
        (false, _) => &[Face::A],
        (true, 1) => &[Face::A, Face::B],
        (true, _) => &[Face::B, Face::A],
    }
}

fn whole(
    tacks: &Tacks,
    passes: usize,
    both: bool,
    run: impl Fn(usize) -> Vec<(usize, f64, f64)>,
) -> Vec<Deed> {
    let mut deeds = vec![Deed::Preheat];
    deeds.extend(tacks.at.iter().map(|at| Deed::Tack(*at)));
    deeds.push(Deed::Feather);
    let mut up = Face::A;
    for pass in 1..=passes {
        for &face in faces(pass, both) {
            if face != up {
                deeds.push(Deed::Turn(face));
                up = face;
            }
            deeds.push(Deed::Measure(face, pass));
            let runs = run(pass).into_iter();
            deeds.extend(runs.map(|(segment, from, to)| Deed::Run { face, pass, segment, from, to }));
            deeds.push(Deed::CleanLook(face, pass));
        }
    }
    deeds.extend([Deed::PostHeat, Deed::Cover, Deed::Inspect]);
    deeds
}

/// The whole order of a ring: odd passes one way round, even ones the other, by half a segment further.
///
/// # Errors
/// A diameter outside 5 to 2000 mm.
pub fn ring(diameter_mm: f64, passes: usize, both: bool, shrunk: bool) -> Result<Vec<Deed>, EngineError> {
    let tacks = ring_tacks(diameter_mm, shrunk)?;
    let count = segments(diameter_mm);
    #[allow(clippy::cast_precision_loss, reason = "a small count of segments")]
    let at = |segment: usize, shift: f64| (360.0 * (segment as f64 + shift) / count as f64) % 360.0;
    let run = |pass: usize| {
        let segment = |k: usize| {
            if pass % 2 == 1 { (k, at(k, 0.0), at(k, 1.0)) } else { (k, at(k, 1.5), at(k, 0.5)) }
        };
        ring_order(count).into_iter().map(segment).collect()
    };
    Ok(whole(&tacks, passes, both, run))
}

/// The whole order of a line on one face: every step is made towards the middle; where all go one way, even
/// passes come from the other end.
///
/// # Errors
/// A length, a thickness or a yield strength that no part has; a step outside 10 to 1000 mm.
pub fn line(
    length_mm: f64,
    thickness_mm: f64,
    yield_mpa: f64,
    step_mm: f64,
    passes: usize,
) -> Result<Vec<Deed>, EngineError> {
    let tacks = line_tacks(length_mm, thickness_mm, yield_mpa)?;
    let order = line_order(length_mm, Domain::new("step", 10.0, 1000.0).check(step_mm)?);
    #[allow(clippy::cast_precision_loss, reason = "a small count of steps")]
    let at = |border: usize| length_mm * border as f64 / order.len() as f64;
    let (one_way, start) = (order.len() <= 3, order[0]);
    let run = |pass: usize| {
        let back = one_way && pass.is_multiple_of(2);
        let step = |k: usize| {
            let leftwards = if one_way { back } else { k >= start };
            if leftwards { (k, at(k + 1), at(k)) } else { (k, at(k), at(k + 1)) }
        };
        let steps: Vec<usize> = if back { order.iter().rev().copied().collect() } else { order.clone() };
        steps.into_iter().map(step).collect()
    };
    Ok(whole(&tacks, passes, false, run))
}
