//! Surfaces, contacts and arcs that can be.

use super::tables::once;
use super::{Fault, Faults, Rule};
use crate::reference::Reference;

pub(super) fn check(reference: &Reference, list: &mut Vec<Fault>) {
    let data = &reference.heat_cycle;
    let mut faults = Faults { file: "heat_cycle.ron", list };
    once(&mut faults, &data.surfaces);
    once(&mut faults, &data.contacts);
    once(&mut faults, &data.arcs);
    for row in &data.surfaces {
        faults.range(&row.id, "transfer", Some(row.transfer_w_per_m2_k), None, (0.5, 2000.0));
        faults.range(&row.id, "emissivity", Some(row.emissivity), None, (0.0, 1.0));
    }
    for row in &data.contacts {
        faults.range(&row.id, "transfer", Some(row.transfer_w_per_m2_k), None, (10.0, 1e5));
    }
    for row in &data.arcs {
        faults.range(&row.id, "power", Some(row.net_w), None, (100.0, 50_000.0));
        faults.check(reference.process(&row.id).is_some(), &row.id, Rule::RowExists, || {
            "no process has this id".to_owned()
        });
    }
    for id in ["still-air", "draught", "blanket", "oven", "pad"] {
        faults.check(data.surface(id).is_some(), id, Rule::RowExists, || "a surface is missing".to_owned());
    }
    faults.range("blanket", "conductivity", Some(data.blanket_w_per_m_k), None, (0.02, 0.5));
    let air = |id| data.surface(id).map(|row| row.transfer_w_per_m2_k);
    faults.range("draught", "transfer", air("still-air"), air("draught"), (2.0, 100.0));
    faults.range("hindered", "share", Some(data.hindered_share), None, (0.1, 1.0));
    let (least, most) = data.losses.bounds();
    faults.range("losses", "least", Some(least), Some(1.0), (0.1, 1.0));
    faults.range("losses", "most", Some(1.0), Some(most), (1.0, 10.0));
    faults.range("flame", "longest", Some(data.longest_flame_min), None, (30.0, 480.0));
    faults.range("melting", "heat", Some(data.melting_kj_per_mm3), None, (0.008, 0.013));
    faults.range("melting", "share", Some(data.melting_share), None, (0.3, 1.0));
    faults.range("alloyed", "conductivity", Some(data.alloyed_conductivity), None, (0.3, 1.0));
}
