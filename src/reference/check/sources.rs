//! Every source that is named exists, and every source is named.

use std::collections::HashSet;

use super::{Fault, Faults, Rule};
use crate::reference::tint::TintData;
use crate::reference::{Basis, GradeCondition, Reference, SaeRow};

/// What a figure of a row rests on, or is named beside it.
#[derive(Clone, Copy)]
pub(super) enum On<'a> {
    /// A source, by its id.
    Source(&'a str),
    /// A work that it is remembered from.
    Memory(&'a str),
    /// A part of the row is remembered, and no work is named.
    MemoryPart,
    /// Common practice.
    Practice,
}

/// A basis with the file and row that it stands in.
pub(super) struct Named<'a> {
    pub(super) file: &'static str,
    pub(super) row: String,
    pub(super) on: On<'a>,
}

struct Visit<'a, 'l> {
    named: Vec<Named<'a>>,
    list: &'l mut Vec<Fault>,
}

impl<'a> Visit<'a, '_> {
    fn basis(&mut self, file: &'static str, row: &str, basis: &'a Basis) {
        let (on, text) = match basis {
            Basis::Published { source, clause } => (On::Source(source), Some(clause)),
            Basis::Memory { of } => (On::Memory(of), Some(of)),
            Basis::Practice => (On::Practice, None),
        };
        self.on(file, row, on);
        let Some(text) = text else { return };
        let mut faults = Faults { file, list: self.list };
        faults.check(!text.trim().is_empty(), row, Rule::SourceExists, || {
            "a basis names no clause, or no work that it is remembered from".to_owned()
        });
    }

    fn on(&mut self, file: &'static str, row: &str, on: On<'a>) {
        self.named.push(Named { file, row: row.to_owned(), on });
    }

    fn bases(&mut self, file: &'static str, row: &str, bases: impl IntoIterator<Item = &'a Basis>) {
        for basis in bases {
            self.basis(file, row, basis);
        }
    }

    fn see(&mut self, file: &'static str, row: &str, ids: &'a [String]) {
        ids.iter().for_each(|id| self.on(file, row, On::Source(id)));
    }
}

/// All that rows rest on; faults of what is written there go into the list.
pub(super) fn named<'a>(reference: &'a Reference, list: &mut Vec<Fault>) -> Vec<Named<'a>> {
    let mut visit = Visit { named: Vec::new(), list };
    rows(reference, &mut visit);
    tables(reference, &mut visit);
    shop(reference, &mut visit);
    tint(&reference.tint, &mut visit);
    visit.named
}

pub(super) fn check(reference: &Reference, list: &mut Vec<Fault>) {
    let named = named(reference, list);
    let mut used = HashSet::new();
    for one in &named {
        let On::Source(source) = one.on else { continue };
        used.insert(source);
        let mut faults = Faults { file: one.file, list };
        faults.check(reference.sources.get(source).is_some(), &one.row, Rule::SourceExists, || {
            format!("the source {source} is not in sources.ron")
        });
    }
    let mut faults = Faults { file: "sources.ron", list };
    for source in &reference.sources {
        let named = used.contains(source.id.as_str());
        faults.check(named, &source.id, Rule::SourceUsed, || "no row names this source".to_owned());
    }
}

fn rows<'a>(reference: &'a Reference, visit: &mut Visit<'a, '_>) {
    for grade in &reference.grades {
        let file = "grades.ron";
        let caps = grade.cev_cap.iter().chain(&grade.cev_cap_thicker).map(|cap| &cap.basis);
        let tables = grade.preheat_rows.iter().chain(&grade.interpass_rows).map(|table| &table.basis);
        let preheats = grade.data_sheet.iter().chain(&grade.maker_sheet).chain(&grade.published_preheat);
        let preheats = preheats.map(|preheat| &preheat.basis);
        visit.basis(file, &grade.id, &grade.composition_basis);
        let of_condition = |one: &'a GradeCondition| std::iter::once(&one.basis).chain(&one.temper_basis);
        visit.bases(file, &grade.id, grade.conditions.iter().flat_map(of_condition));
        visit.bases(file, &grade.id, caps.chain(tables).chain(preheats));
        visit.bases(file, &grade.id, grade.d11_basis.iter().chain(grade.pwht.iter().map(|pwht| &pwht.basis)));
        visit.see(file, &grade.id, &grade.composition_seen);
        visit.bases(file, &grade.id, grade.composition_thicker.iter().map(|one| &one.basis));
        visit.bases(file, &grade.id, grade.documented_window.iter().map(|window| &window.basis));
        visit.bases(file, &grade.id, grade.p_number.iter().map(|number| &number.basis));
        visit.bases(file, &grade.id, grade.transformation.iter().map(|printed| &printed.basis));
        visit.bases(file, &grade.id, &grade.low_temper);
    }
    for filler in &reference.fillers {
        let hydrogen = filler.hydrogen.iter().map(|hydrogen| &hydrogen.basis);
        visit.bases(
            "fillers.ron",
            &filler.id,
            [&filler.mechanics_basis, &filler.composition_basis].into_iter().chain(hydrogen),
        );
    }
    for caution in &reference.cautions {
        visit.basis("cautions.ron", &caution.id, &caution.basis);
        visit.see("cautions.ron", &caution.id, &caution.see);
        if caution.memory_part {
            visit.on("cautions.ron", &caution.id, On::MemoryPart);
        }
    }
    for method in &reference.methods {
        let scatter = method.scatter.iter().map(|scatter| &scatter.basis);
        let bases = std::iter::once(&method.basis).chain(&method.limits_basis).chain(scatter);
        visit.bases("methods.ron", &method.id, bases);
        visit.see("methods.ron", &method.id, &method.see);
    }
    for process in &reference.processes {
        visit.bases("processes.ron", &process.id, [&process.efficiency_basis, &process.hydrogen_basis]);
    }
    for designator in &reference.designators {
        visit.basis("processes.ron", &designator.id, &designator.basis);
    }
    for joint in &reference.joints {
        let bases = [&joint.ways_basis, &joint.factors_basis, &joint.restraint_basis];
        visit.bases("joints.ron", &joint.id, bases);
    }
    for wait in &reference.inspection {
        visit.basis("inspection.ron", &wait.id, &wait.basis);
    }
}

fn tables<'a>(reference: &'a Reference, visit: &mut Visit<'a, '_>) {
    let file = "practice.ron";
    let practice = &reference.practice;
    visit.basis(file, "low_hydrogen", &practice.low_hydrogen.hydrogen_basis);
    for row in &practice.low_hydrogen.rows {
        visit.bases(file, &row.id, row.cracked.iter().map(|case| &case.basis));
        visit.basis(file, &row.id, &row.basis);
    }
    visit.basis(file, "cover", &practice.cover.basis);
    visit.basis(file, "ceq_bands", &practice.ceq_bands.basis);
    visit.bases(file, "carbon_line", [&practice.carbon_line.basis, &practice.carbon_line.reading_basis]);
    visit.basis(file, "hydrogen_shift", &practice.hydrogen_shift.basis);
    visit.basis(file, "thickness_credit", &practice.thickness_credit.basis);
    visit.basis(file, "dearden_oneill", &practice.dearden_oneill.basis);
    for SaeRow { id, basis, .. } in &practice.sae_chart {
        visit.basis(file, id, basis);
    }
    for span in &practice.shown_spans {
        visit.basis(file, &span.id, &span.basis);
    }

    visit.bases(file, "thin_tube", [&practice.thin_tube.basis, &practice.thin_tube.others_basis]);
    let rolled = &practice.thermomechanical;
    visit.bases(file, "thermomechanical", [&rolled.interpass_basis, &rolled.ceiling_basis]);
    visit.bases(file, "temper_curves", practice.temper_curves.iter().map(|curve| &curve.basis));
    visit.bases(file, "bolt_classes", practice.bolt_classes.iter().map(|class| &class.basis));

    let file = "code_rows.ron";
    for row in &reference.code_rows.piping {
        visit.basis(file, &row.id, &row.basis);
    }
    for row in &reference.code_rows.naval {
        visit.basis(file, &row.id, &row.basis);
    }
    visit.basis("transformation.ron", "ms_scatter", &reference.transformation.ms_scatter.basis);

    let file = "d11.ron";
    let d11 = &reference.d11;
    visit.bases(file, "annex", [&d11.annex.basis, &d11.annex.seen_basis]);
    visit.bases(file, "groups", [&d11.groups.basis, &d11.si_bands.basis]);
    visit.bases(file, "levels", d11.levels.iter().map(|level| &level.basis));
    visit.bases(file, "categories", d11.categories.iter().map(|row| &row.basis));
    visit.bases(file, "zone", [&d11.warm_zone.basis, &d11.cold_start.basis]);
    visit.basis(file, "prequalified", &d11.prequalified.basis);

    visit.basis("table_c1.ron", "table", &reference.table_c1.basis);

    let file = "own_sheets.ron";
    let sheets = &reference.own_sheets;
    for route in &sheets.iron {
        visit.basis(file, &route.id, &route.basis);
    }
    for span in &sheets.iron_spans {
        visit.basis(file, &span.id, &span.basis);
    }
    for group in &sheets.groups {
        visit.basis(file, &group.id, &group.basis);
    }
    for sheet in &sheets.sheets {
        visit.basis(file, &sheet.id, &sheet.basis);
    }
    visit.bases(file, "hardness", [&sheets.hardness.basis]);
    visit.bases(file, "diffusion", [&sheets.diffusion.basis]);

    let file = "post_heat.ron";
    let post_heat = &reference.post_heat;
    let curves = &post_heat.diffusivity;
    visit.bases(file, "diffusivity", curves.slow.iter().chain(&curves.fast).map(|point| &point.basis));
    visit.basis(file, "trapping", &post_heat.trapping.basis);
    let austenite = &post_heat.austenite;
    let bases = [&austenite.basis, &austenite.turning_basis, &austenite.drop_basis];
    visit.bases(file, "austenite", bases);
    for rule in &post_heat.rules {
        visit.basis(file, &rule.id, &rule.basis);
    }

    let (file, heat_cycle) = ("heat_cycle.ron", &reference.heat_cycle);
    visit.basis(file, "alloyed", &heat_cycle.alloyed_basis);
    visit.basis(file, "blanket", &heat_cycle.blanket_basis);
    visit.basis(file, "hindered", &heat_cycle.hindered_basis);
    visit.basis(file, "losses", &heat_cycle.losses.basis);
    visit.basis(file, "flame", &heat_cycle.longest_flame_basis);
    visit.basis(file, "melting", &heat_cycle.melting_basis);
    let surfaces = heat_cycle.surfaces.iter().map(|row| (&row.id, &row.basis));
    let contacts = heat_cycle.contacts.iter().map(|row| (&row.id, &row.basis));
    let arcs = heat_cycle.arcs.iter().map(|row| (&row.id, &row.basis));
    for (id, basis) in surfaces.chain(contacts).chain(arcs) {
        visit.basis(file, id, basis);
    }
}

fn shop<'a>(reference: &'a Reference, visit: &mut Visit<'a, '_>) {
    let (file, fits) = ("fits.ron", &reference.fits);
    let bases = [
        &fits.basis,
        &fits.room_basis,
        &fits.on_the_way_share_basis,
        &fits.on_the_way_k_basis,
        &fits.friction_basis,
        &fits.smoothing_basis,
        &fits.gap_basis,
        &fits.nitrogen_basis,
        &fits.carbon_dioxide_basis,
        &fits.oxygen_least_basis,
        &fits.carbon_dioxide_most_basis,
        &fits.carbon_dioxide_deadly_basis,
    ];
    visit.bases(file, "fits", bases);
    fits.coolants.iter().for_each(|row| visit.basis(file, &row.id, &row.basis));
    for metal in &reference.metals {
        visit.bases(
            "expansion.ron",
            &metal.id,
            std::iter::once(&metal.basis).chain(&metal.cold_basis).chain(&metal.heat_basis),
        );
    }
    let (file, fuels) = ("fuels.ron", &reference.fuels);
    fuels.fuels.iter().for_each(|row| visit.basis(file, &row.id, &row.basis));
    let bases = [&fuels.tips_basis, &fuels.efficiency_basis];
    visit.bases(file, "fuels", bases);
    visit.bases(file, "draw", [&fuels.draw.basis, &fuels.draw.older_basis, &fuels.draw.usual_basis]);
    let exposure = &reference.electrode_exposure;
    let bases = [&exposure.classes_basis, &exposure.moisture_resistant_basis, &exposure.handling_basis];
    visit.bases("electrode_exposure.ron", "exposure", bases);
    for row in &reference.slow_cooling {
        visit.basis("slow_cooling.ron", &row.id, &row.basis);
    }
    let (file, unmarked) = ("unmarked.ron", &reference.unmarked);
    for answer in unmarked.steps.iter().flat_map(|step| &step.answers) {
        visit.basis(file, &answer.id, &answer.basis);
    }
    let bases = [&unmarked.martensite_basis, &unmarked.densities_basis, &unmarked.treat_basis];
    visit.bases(file, "unmarked", bases);
    for (row, basis) in reference.repair.bases() {
        visit.basis("repair.ron", row, basis);
    }
    for (file, row, basis) in reference.welding.bases() {
        visit.basis(file, row, basis);
    }
}

fn tint<'a>(data: &'a TintData, visit: &mut Visit<'a, '_>) {
    let optics = &data.optics;
    visit.basis("optics.ron", "light", &optics.light_basis);
    visit.basis("optics.ron", "classical", &optics.classical_basis);
    visit.bases(
        "optics.ron",
        "materials",
        [
            &optics.iron_basis,
            &optics.iron_other_basis,
            &optics.magnetite_clear_basis,
            &optics.magnetite_bulk_basis,
            &optics.hematite_basis,
        ],
    );
    for column in data.tables.columns.iter().chain(&data.tables.stainless) {
        visit.basis("tint_tables.ron", &column.id, &column.basis);
    }
    visit.basis("tint_tables.ron", &data.tables.practice.id, &data.tables.practice.basis);
    for list in &data.red_heat.lists {
        visit.basis("red_heat.ron", &list.id, &list.basis);
    }
    for surface in &data.surfaces {
        visit.basis("surfaces.ron", &surface.id, &surface.basis);
    }
    visit.basis("crayons.ron", "crayons", &data.crayons.basis);
    for row in &data.crayons.instruments {
        visit.basis("crayons.ron", &row.id, &row.basis);
    }
}
