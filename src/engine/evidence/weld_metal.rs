//! What does the weld metal ask for (O3)?
//!
//! EN 1011-2 Method B at the deposit's CET + 0.03 %, at the thickest member; and, with
//! two runs or more and a deposit of 60 kgf/mm² or more, the multi-run formula of Suzuki
//! et al. An unknown filler is said, never guessed.

use super::method_b::{self, CetOf, MethodB, WELD_MARGIN_CET};
use super::multi_run::{self, MPA_PER_KGF_MM2, MultiRun};
use super::{Evidence, Obligation};
use crate::engine::hydrogen::h_jis_ml;
use crate::engine::job::Job;
use crate::reference::{Method, Reference, Restraint};

/// The evidence on the weld metal; empty when neither CET nor strength is known.
#[must_use]
pub fn on(reference: &Reference, job: &Job) -> Vec<Evidence> {
    let weld = &job.weld;
    if weld.austenitic {
        return Vec::new();
    }
    let row = |method| reference.methods.row(method);
    let mut found = Vec::with_capacity(2);
    if let Some(weld_cet) = weld.cet {
        let asked = MethodB {
            cet: CetOf::figure(weld_cet + WELD_MARGIN_CET),
            thickness_mm: job.thickest_mm(),
            hydrogen_ml: job.hydrogen_ml(),
            net_heat_kj_per_mm: job.net_heat_kj_per_mm(),
            high_restraint: job.restraint == Restraint::High,
        };
        found.push(method_b::held(row(Method::MethodB), &asked));
    }
    let formula = row(Method::MultiRun);
    let from_mpa = formula.limit("sigma_B").and_then(|limit| limit.low).unwrap_or(0.0) * MPA_PER_KGF_MM2;
    if let Some(strength_mpa) = weld.tensile_mpa.filter(|&strength_mpa| strength_mpa >= from_mpa - 1e-6)
        && weld.several_runs
    {
        let asked = MultiRun {
            h_jis_ml: h_jis_ml(job.hydrogen_ml()),
            weld_thickness_mm: weld.thickness_mm.unwrap_or_else(|| job.thickest_mm()),
            strength_mpa,
        };
        found.push(multi_run::held(formula, asked));
    }
    found.into_iter().map(|outcome| Evidence::new(outcome, Obligation::WeldMetal)).collect()
}
