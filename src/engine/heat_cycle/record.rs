//! What is kept of a cycle for its pictures.

#![allow(clippy::needless_range_loop, reason = "several arrays are walked side by side")]

use super::hydrogen::Lanes;
use super::query::Keep;
use super::run::State;

/// What is going on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, strum::IntoStaticStr)]
#[strum(serialize_all = "kebab-case")]
pub enum Phase {
    /// The part is being heated.
    Heating,
    /// It evens out after the flame.
    Even,
    /// It cools to the maximum interpass.
    Interpass,
    /// A pass is being laid.
    Arc(usize),
    /// Between the end of an arc and whatever is next.
    Pause,
    /// Post-heat.
    Hold,
    /// It cools.
    Cooling,
}

/// One moment of a cycle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Moment {
    /// From the first flame, min.
    pub minute: f64,
    /// What is going on.
    pub phase: Phase,
    /// Share of the source's power that is used.
    pub flame: f64,
    /// Mean of the weld, °C. No figure for the arc's own spot.
    pub weld_c: f64,
    /// Hottest of weld and heat-affected zone, °C.
    pub hottest_c: f64,
    /// Coldest place that must have the minimum, °C.
    pub coldest_c: f64,
    /// Core, °C.
    pub core_c: f64,
    /// Far face, °C.
    pub far_face_c: f64,
    /// The point at the required distance, °C.
    pub required_point_c: f64,
    /// Hottest heated skin, °C, while the flame is on.
    pub skin_c: Option<f64>,
    /// Largest hydrogen of weld and heat-affected zone, ml/100 g, once there is some: slow, middle
    /// and fast diffusivity, and the slow one of steel with traps.
    pub hydrogen_ml: Option<Lanes>,
}

/// Temperatures (and hydrogen by the slow diffusivity) of all cells at a moment.
#[derive(Debug, Clone, PartialEq)]
pub struct Field {
    /// From the first flame, min.
    pub minute: f64,
    /// What is going on.
    pub phase: Phase,
    /// °C, cell by cell.
    pub at_c: Vec<f32>,
    /// ml/100 g, cell by cell.
    pub hydrogen_ml: Vec<f32>,
}

/// What is kept.
#[derive(Debug, Clone)]
pub(super) struct Record {
    keep: Keep,
    pub(super) moments: Vec<Moment>,
    pub(super) fields: Vec<Field>,
    /// When the last field was kept, and in which phase.
    kept: Option<(f64, Phase)>,
}

impl Record {
    pub(super) fn new(keep: Keep) -> Self {
        let room = if keep == Keep::Figures { 0 } else { 2048 };
        Self { keep, moments: Vec::with_capacity(room), fields: Vec::new(), kept: None }
    }

    /// Nothing is kept from here on: a look ahead on a copy.
    pub(super) fn closed() -> Self {
        Self::new(Keep::Figures)
    }

    pub(super) fn wants(&self) -> bool {
        self.keep != Keep::Figures
    }

    pub(super) fn saw(&mut self, moment: Moment, state: &State) {
        self.moments.push(moment);
        if self.keep != Keep::Fields {
            return;
        }
        let (now, phase) = (moment.minute, moment.phase);
        let apart_min = match phase {
            Phase::Heating | Phase::Arc(_) => 10.0 / 60.0,
            Phase::Even | Phase::Interpass | Phase::Pause => 0.5,
            Phase::Hold | Phase::Cooling => 5.0,
        };
        let due = |kept: (f64, Phase)| now - kept.0 >= apart_min - 1e-9 || kept.1 != phase;
        if self.kept.is_none_or(due) {
            self.kept = Some((now, phase));
            self.fields.push(Field {
                minute: now,
                phase,
                at_c: state.heat.at_c.iter().map(|&at_c| at_c as f32).collect(),
                hydrogen_ml: state.hydrogen.content.iter().map(|content| content[0] as f32).collect(),
            });
        }
    }
}

/// At most so many moments: the ends of phases, and of the others those that a straight line
/// between their neighbours misses most.
pub(super) fn thinned(moments: &[Moment], most: usize) -> Vec<Moment> {
    let ends_phase = |at: usize| at + 1 == moments.len() || moments[at].phase != moments[at + 1].phase;
    let mut kept = vec![false; moments.len()];
    for at in 0..moments.len() {
        kept[at] = at == 0 || ends_phase(at) || moments[at - 1].phase != moments[at].phase;
    }
    let within: Vec<usize> = (0..moments.len()).filter(|&at| !kept[at]).collect();
    let room = most.saturating_sub(moments.len() - within.len());
    if within.len() <= room {
        return moments.to_vec();
    }
    let bend = |at: usize| {
        let (before, now, after) = (&moments[at - 1], &moments[at], &moments[at + 1]);
        let share = (now.minute - before.minute) / (after.minute - before.minute);
        let off = |of: fn(&Moment) -> f64| (of(now) - of(before) - share * (of(after) - of(before))).abs();
        off(|moment| moment.hottest_c) + off(|moment| moment.coldest_c)
    };
    // Even steps along the curve carry its shape; the bends are taken besides.
    let every = (within.len() as f64 / (room as f64 * 0.8).max(1.0)).max(1.0);
    let mut next = 0.0;
    let mut left = room;
    for (place, &at) in within.iter().enumerate() {
        if place as f64 >= next && left > 0 {
            kept[at] = true;
            left -= 1;
            next += every;
        }
    }
    let mut bent: Vec<usize> = within.into_iter().filter(|&at| !kept[at]).collect();
    bent.sort_by(|&one, &other| bend(other).total_cmp(&bend(one)));
    bent.into_iter().take(left).for_each(|at| kept[at] = true);
    moments.iter().zip(&kept).filter(|(_, kept)| **kept).map(|(moment, _)| *moment).collect()
}
