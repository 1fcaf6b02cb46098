//! What do the methods say that are shown beside the plan and never govern it?
//!
//! Seferian (knows no hydrogen), Dearden-O'Neill bands ("no figure" below 0.45), rows of
//! the old SAE chart (neither hydrogen nor thickness), Ito-Bessyo (the severest
//! restraint). Adding one changes no plan.

use super::{Case, dearden_oneill, ito_bessyo, seferian};
use crate::engine::RangeCheck;
use crate::engine::carbon_equivalent::ce_iiw;
use crate::engine::hydrogen::h_jis_ml;
use crate::engine::plan::{Evidence, Says, Standing};
use crate::reference::Element;

/// The shown-only evidence on a member.
#[must_use]
pub fn on(case: &Case<'_>) -> Vec<Evidence> {
    let mut found = vec![seferian_on(case), dearden_on(case), ito_bessyo_on(case)];
    found.extend(sae_chart_on(case));
    for evidence in &mut found {
        evidence.standing = Standing::ShownOnly;
    }
    found
}

fn figure_or_none(value_c: Option<f64>) -> Says {
    value_c.map_or(Says::Clears, Says::Figure)
}

fn seferian_on(case: &Case<'_>) -> Evidence {
    let total = seferian::c_total(seferian::c_chem(&case.chemistry.composition), case.member.thickness_mm);
    let says = figure_or_none(seferian::preheat_c(total));
    let mut evidence = case.evidence("seferian", says, case.method("seferian").basis.clone());
    evidence.range = vec![RangeCheck { symbol: "C_tot", value: total, low: None, high: None }];
    evidence
}

fn dearden_on(case: &Case<'_>) -> Evidence {
    let ce = ce_iiw(&case.chemistry.composition);
    let says =
        dearden_oneill::band_c(ce).map_or(Says::NoFigure, |(low_c, high_c)| Says::Span { low_c, high_c });
    let mut evidence =
        case.evidence("dearden-oneill", says, case.reference.practice.dearden_oneill.basis.clone());
    evidence.range = vec![RangeCheck { symbol: "CE", value: ce, low: Some(0.45), high: None }];
    evidence
}

fn ito_bessyo_on(case: &Case<'_>) -> Evidence {
    let pcm = case.chemistry.pcm();
    let hydrogen_jis = h_jis_ml(case.hydrogen_ml);
    let value_c = ito_bessyo::preheat_c(ito_bessyo::pc(pcm, hydrogen_jis, case.member.thickness_mm));
    let says = figure_or_none((value_c >= 20.0).then_some(value_c));
    let mut evidence = case.evidence("ito-bessyo", says, case.method("ito-bessyo").basis.clone());
    evidence.range = vec![
        RangeCheck {
            symbol: "C",
            value: case.chemistry.nominal.get(Element::C),
            low: Some(0.07),
            high: Some(0.22),
        },
        RangeCheck { symbol: "H_JIS", value: hydrogen_jis, low: Some(1.0), high: Some(5.0) },
        RangeCheck { symbol: "d", value: case.member.thickness_mm, low: Some(19.0), high: Some(50.0) },
    ];
    evidence
}

/// The chart row that names the grade, else the one that the dataset assigns to it.
fn sae_chart_on(case: &Case<'_>) -> Option<Evidence> {
    let grade = case.member.steel.grade()?;
    let published = grade.published_preheat.as_ref().filter(|published| published.sae_chart)?;
    let (low_c, high_c) = (published.low_c?, published.high_c?);
    let mut evidence = case.evidence("sae-chart", Says::Span { low_c, high_c }, published.basis.clone());
    evidence.row = Some(grade.id.clone());
    Some(evidence)
}
