//! What does the weld metal ask for (O3)?
//!
//! EN 1011-2 Method B at the deposit's CET + 0.03 %, at the thickest member; and, with
//! two runs or more and a deposit of 60 kgf/mm² or more, the multi-run formula of Suzuki
//! et al. with strength above 90 put at 90 ("at least"), H_JIS at least 0.1 and weld
//! thickness put at 15 to 40 mm. An unknown filler is said, never guessed.

use super::case::method;
use super::{heat_affected, multi_run};
use crate::engine::RangeCheck;
use crate::engine::hydrogen::h_jis_ml;
use crate::engine::job::Job;
use crate::engine::plan::{Evidence, Obligation, Says};
use crate::reference::{Reference, Restraint};

/// The deposit counts as richer than its CET by this, %.
pub const CET_MARGIN: f64 = 0.03;
/// One kgf/mm² in MPa.
pub const MPA_PER_KGF_MM2: f64 = 9.806_65;
/// Deposit strength from which the multi-run formula is asked, kgf/mm².
pub const MULTI_RUN_FROM_KGF_MM2: f64 = 60.0;

/// The evidence on the weld metal; empty when neither CET nor strength is known.
#[must_use]
pub fn on(reference: &Reference, job: &Job) -> Vec<Evidence> {
    if job.weld.austenitic {
        return Vec::new();
    }
    let mut found = Vec::with_capacity(2);
    if let Some(weld_cet) = job.weld.cet {
        found.push(by_method_b(reference, job, weld_cet + CET_MARGIN));
    }
    let strength = job.weld.tensile_mpa.map(|tensile_mpa| tensile_mpa / MPA_PER_KGF_MM2);
    if let Some(strength) = strength.filter(|&strength| strength >= MULTI_RUN_FROM_KGF_MM2 - 1e-9)
        && job.weld.several_runs
    {
        found.push(by_multi_run(reference, job, strength));
    }
    found
}

fn weld_evidence(id: &'static str, says: Says, reference: &Reference) -> Evidence {
    Evidence::new(id, Obligation::WeldMetal, says, method(reference, id).basis.clone())
}

fn by_method_b(reference: &Reference, job: &Job, cet: f64) -> Evidence {
    let found = heat_affected::at_range_ends(
        method(reference, "method-b"),
        &heat_affected::MethodBQuery {
            cet,
            held_cet: cet,
            thickness_mm: job.thickest_mm(),
            hydrogen_ml: job.hydrogen_ml(),
            net_heat_kj_per_mm: job.net_heat_kj_per_mm(),
            high_restraint: job.restraint == Restraint::High,
        },
    );
    let mut evidence = weld_evidence("method-b", heat_affected::says(found.value_c), reference);
    heat_affected::fill(&mut evidence, found, Vec::new());
    evidence
}

fn by_multi_run(reference: &Reference, job: &Job, strength_kgf_mm2: f64) -> Evidence {
    let hydrogen_jis = h_jis_ml(job.hydrogen_ml());
    let thickness_mm = job.weld.thickness_mm.unwrap_or_else(|| job.thickest_mm());
    let value_c = multi_run::multi_run_c(
        hydrogen_jis.max(0.1),
        thickness_mm.clamp(15.0, 40.0),
        strength_kgf_mm2.min(90.0),
    );
    let mut evidence = weld_evidence("multi-run", heat_affected::says(value_c), reference);
    evidence.range = vec![
        RangeCheck { symbol: "H_JIS", value: hydrogen_jis, low: Some(0.1), high: Some(40.0) },
        RangeCheck { symbol: "hw", value: thickness_mm, low: Some(15.0), high: Some(40.0) },
        RangeCheck { symbol: "sigma_B", value: strength_kgf_mm2, low: Some(60.0), high: Some(90.0) },
    ];
    evidence.at_limit = strength_kgf_mm2 > 90.0 || thickness_mm > 40.0;
    evidence
}
