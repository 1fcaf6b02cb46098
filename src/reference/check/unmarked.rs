//! The guided test has answers with families and a range of carbon that can be.

use super::{Fault, Faults, Rule, unique_rows};
use crate::reference::{Element, Unmarked};

/// Letters of the families.
const LETTERS: &str = "STIMNFHO";

pub(super) fn check(data: &Unmarked, list: &mut Vec<Fault>) {
    unique_rows(&data.steps, "unmarked.ron", list);
    for step in &data.steps {
        unique_rows(&step.answers, "unmarked.ron", list);
    }
    let faults = &mut Faults { file: "unmarked.ron", list };
    for answer in data.steps.iter().flat_map(|step| &step.answers) {
        let known = !answer.families.is_empty() && answer.families.chars().all(|one| LETTERS.contains(one));
        faults.check(known, &answer.id, Rule::RowExists, || format!("families {}", answer.families));
        faults.range(&answer.id, "carbon", answer.low, answer.high, (0.0, data.top_percent));
        faults.check(answer.low.is_some() == answer.high.is_some(), &answer.id, Rule::TableWhole, || {
            "one end of carbon without the other".to_owned()
        });
    }
    for pair in data.martensite.windows(2) {
        let rises = pair[0].carbon < pair[1].carbon
            && pair[0].all_hrc < pair[1].all_hrc
            && pair[0].half_hrc < pair[1].half_hrc;
        faults.check(rises, "martensite", Rule::TableWhole, || "more carbon is softer".to_owned());
    }
    for row in &data.martensite {
        faults.check(row.half_hrc < row.all_hrc, "martensite", Rule::RangeOrdered, || {
            "half martensite is harder than all".to_owned()
        });
    }
    for row in &data.densities {
        faults.range(&row.family, "density", Some(row.low), Some(row.high), (6.0, 9.5));
    }
    // Phosphorus and sulphur tell how clean a steel is, not its alloy.
    let alloy = Element::ALL.iter().filter(|element| !matches!(element, Element::P | Element::S));
    let mut pairs = alloy.map(|&one| (data.lean.composition.get(one), data.rich.composition.get(one)));
    let richer = pairs.all(|(lean, rich)| lean <= rich);
    faults.check(richer, "lean", Rule::RangeOrdered, || "lean has more than rich".to_owned());
}
