//! The embedded dataset keeps every rule.

use strawblue::reference::{Files, Reference};

#[test]
fn the_embedded_dataset_keeps_every_rule() {
    if let Err(faults) = Reference::parse(&Files::EMBEDDED) {
        let lines: Vec<String> = faults.iter().map(ToString::to_string).collect();
        panic!("{} faults:\n{}", lines.len(), lines.join("\n"));
    }
}
