//! What trial pieces taught: the coldest that did not crack, the hottest that did.

use serde::{Deserialize, Serialize};

use super::entry::{CrackOutcome, TrialPiece};
use super::{Id, Standing, Thing};

/// What the trial pieces of one steel taught.
#[derive(Debug, Clone, PartialEq)]
pub struct Bounds<'a> {
    /// The steel, as it is named.
    pub steel: &'a str,
    /// The coldest that did not crack. It counts by its hot end: it may have been that hot. One whose hot
    /// end is not known shows nothing.
    pub sound: Option<(f64, Thing<'a, TrialPiece>)>,
    /// The hottest that cracked, by its hot end as well. One whose hot end is not known counts as hotter
    /// than any: its figure is no number.
    pub cracked: Option<(f64, Thing<'a, TrialPiece>)>,
}

impl Bounds<'_> {
    /// Did one crack that was at least as hot as one that did not? The steel alone does not tell them
    /// apart then.
    #[must_use]
    pub fn overlap(&self) -> bool {
        // Of one whose hot end is not known the cold end is all that is sure.
        let sure_c = |(at_c, trial): &(f64, Thing<'_, TrialPiece>)| {
            Some(*at_c).filter(|at_c| at_c.is_finite()).or(trial.now.band.low_c)
        };
        let cracked_c = self.cracked.as_ref().and_then(sure_c);
        self.sound.as_ref().zip(cracked_c).is_some_and(|(sound, cracked_c)| cracked_c >= sound.0)
    }
}

impl TrialPiece {
    /// The temperature that it counts by, °C: the hottest that it may have been, since neither "cracked at
    /// so much" nor "sound at so much" may be flattered. Nothing where no hot end is known.
    #[must_use]
    pub fn counts_c(&self) -> Option<f64> {
        self.band.high_c.filter(|at_c| at_c.is_finite())
    }

    /// The same of one that cracked: where no hot end is known it may have been hotter than any minimum.
    fn cracked_c(&self) -> f64 {
        self.counts_c().unwrap_or(f64::INFINITY)
    }

    /// Does it teach anything? A crack always does.
    fn teaches(&self) -> bool {
        match self.outcome {
            CrackOutcome::NotYet => false,
            CrackOutcome::Sound => self.counts_c().is_some(),
            CrackOutcome::Cracked => true,
        }
    }

    /// What tells its steel from another.
    #[must_use]
    fn steel_key(&self) -> &str {
        self.grade.as_deref().unwrap_or(&self.steel)
    }
}

/// What the trial pieces of a job taught, steel by steel, in the order in which they were welded.
#[must_use]
pub fn bounds<'a>(standing: &Standing<'a>) -> Vec<Bounds<'a>> {
    let mut found: Vec<(&str, Bounds<'a>)> = Vec::new();
    for trial in &standing.trials {
        let key = trial.now.steel_key();
        if !found.iter().any(|(known, _)| *known == key) {
            found.push((key, Bounds { steel: &trial.now.steel, sound: None, cracked: None }));
        }
        let Some((_, bounds)) = found.iter_mut().find(|(known, _)| *known == key) else { continue };
        match (trial.now.outcome, trial.now.counts_c()) {
            (CrackOutcome::Sound, Some(at_c))
                if bounds.sound.as_ref().is_none_or(|(before_c, _)| at_c < *before_c) =>
            {
                bounds.sound = Some((at_c, trial.clone()));
            }
            (CrackOutcome::Cracked, _) => {
                let at_c = trial.now.cracked_c();
                if bounds.cracked.as_ref().is_none_or(|(before_c, _)| at_c > *before_c) {
                    bounds.cracked = Some((at_c, trial.clone()));
                }
            }
            _ => {}
        }
    }
    found.into_iter().map(|(_, bounds)| bounds).collect()
}

/// A trial piece of any job, as the plan of another one asks for it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct KnownTrial {
    /// The job.
    pub job: Id,
    /// Its name.
    pub job_name: String,
    /// The trial piece.
    pub trial: TrialPiece,
}

/// The trial pieces of a job that teach something; none of an example.
#[must_use]
pub fn known_trials(job: Id, standing: &Standing<'_>) -> Vec<KnownTrial> {
    let Some(entry) = standing.job.as_ref().map(|job| job.now).filter(|job| !job.example) else {
        return Vec::new();
    };
    let told = standing.trials.iter().map(|trial| trial.now);
    let told = told.filter(|trial| trial.teaches());
    told.map(|trial| KnownTrial { job, job_name: entry.name.clone(), trial: trial.clone() }).collect()
}

/// A steel of a plan.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct SteelAsked {
    /// The part.
    pub member: usize,
    /// Id of its grade.
    pub grade: Option<String>,
    /// Id of its family.
    pub family: String,
    /// Carbon equivalent CET, %.
    pub cet: f64,
}

impl SteelAsked {
    /// Is a trial piece of such a steel? Of the same grade, or of its family with no more carbon
    /// equivalent: what cracked in the easier steel cracks in the harder one.
    #[must_use]
    pub fn is_like(&self, trial: &TrialPiece) -> bool {
        let same = self.grade.is_some() && self.grade == trial.grade;
        let easier = trial.cet.is_some_and(|cet| cet <= self.cet + 1e-9);
        same || (!self.family.is_empty() && self.family == trial.family && easier)
    }
}

/// The hottest trial piece that cracked in a steel of the plan although it was hotter than the plan's
/// minimum, for each part; none where no preheat is needed is a minimum of the shop. One whose hot end is
/// not known may have been hotter than any minimum: its figure is no number.
#[must_use]
pub fn cracked_above<'a>(
    known: &'a [KnownTrial],
    steels: &[SteelAsked],
    minimum_c: f64,
) -> Vec<(usize, &'a KnownTrial, f64)> {
    let of = |steel: &SteelAsked| {
        let hotter = known
            .iter()
            .filter(|known| known.trial.outcome == CrackOutcome::Cracked && steel.is_like(&known.trial));
        let hottest = hotter.map(|known| (known, known.trial.cracked_c()));
        let hottest = hottest.max_by(|one, other| one.1.total_cmp(&other.1))?;
        (hottest.1 > minimum_c).then_some((steel.member, hottest.0, hottest.1))
    };
    steels.iter().filter_map(of).collect()
}
