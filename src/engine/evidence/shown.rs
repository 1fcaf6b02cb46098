//! What do the methods say that are shown beside the plan and never govern it?
//!
//! Seferian (knows no hydrogen), Dearden-O'Neill bands ("no figure" below 0.45), rows of
//! the old SAE chart (neither hydrogen nor thickness), Ito-Bessyo (the severest
//! restraint, low carbon only). Adding one changes no plan.

use super::{Case, Evidence, dearden_oneill, ito_bessyo, sae_chart, seferian};

/// The shown-only evidence on a member.
pub fn on(case: &Case<'_>) -> impl Iterator<Item = Evidence> {
    [seferian::on(case), dearden_oneill::on(case)]
        .into_iter()
        .chain(ito_bessyo::on(case))
        .chain(sae_chart::on(case))
}
