//! From the text of the data files to the typed dataset.

use once_cell::sync::Lazy;

use ron::extensions::Extensions;
use serde::de::DeserializeOwned;

use super::tint::TintData;
use super::{
    Caution, D11, Designator, EverydayWord, Fault, Filler, Grade, Joint, Method, OwnSheets, Practice,
    Process, ProcessFile, Row, Rule, Source, Table, TableC1, WaitRule, check, search::Index,
};

/// The text of every data file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[allow(missing_docs, reason = "each field is the file of its name")]
pub struct Files<'a> {
    pub sources: &'a str,
    pub grades: &'a str,
    pub fillers: &'a str,
    pub cautions: &'a str,
    pub methods: &'a str,
    pub practice: &'a str,
    pub d11: &'a str,
    pub table_c1: &'a str,
    pub processes: &'a str,
    pub joints: &'a str,
    pub inspection: &'a str,
    pub own_sheets: &'a str,
    pub everyday_words: &'a str,
    pub optics: &'a str,
    pub tint_tables: &'a str,
    pub red_heat: &'a str,
    pub surfaces: &'a str,
    pub crayons: &'a str,
    /// The English messages, for the check that every row has its words.
    pub words: &'a str,
}

impl Files<'static> {
    /// The files that the program carries.
    pub const EMBEDDED: Self = Self {
        sources: include_str!("../../data/sources.ron"),
        grades: include_str!("../../data/grades.ron"),
        fillers: include_str!("../../data/fillers.ron"),
        cautions: include_str!("../../data/cautions.ron"),
        methods: include_str!("../../data/methods.ron"),
        practice: include_str!("../../data/practice.ron"),
        d11: include_str!("../../data/d11.ron"),
        table_c1: include_str!("../../data/table_c1.ron"),
        processes: include_str!("../../data/processes.ron"),
        joints: include_str!("../../data/joints.ron"),
        inspection: include_str!("../../data/inspection.ron"),
        own_sheets: include_str!("../../data/own_sheets.ron"),
        everyday_words: include_str!("../../data/everyday_words.ron"),
        optics: include_str!("../../data/optics.ron"),
        tint_tables: include_str!("../../data/tint_tables.ron"),
        red_heat: include_str!("../../data/red_heat.ron"),
        surfaces: include_str!("../../data/surfaces.ron"),
        crayons: include_str!("../../data/crayons.ron"),
        words: include_str!("../../data/en.ftl"),
    };
}

/// The dataset.
#[derive(Debug, Clone)]
pub struct Reference {
    /// Every source, once.
    pub sources: Table<Source>,
    /// Steel grades.
    pub grades: Table<Grade>,
    /// Filler metals.
    pub fillers: Table<Filler>,
    /// Cautions.
    pub cautions: Table<Caution>,
    /// Calculation methods with their ranges.
    pub methods: Table<Method>,
    /// Practice figures.
    pub practice: Practice,
    /// Tables of AWS D1.1.
    pub d11: D11,
    /// Table C.1 of EN 1011-2.
    pub table_c1: TableC1,
    /// Welding processes.
    pub processes: Table<Process>,
    /// Hydrogen designators.
    pub designators: Table<Designator>,
    /// Joints.
    pub joints: Table<Joint>,
    /// Waits before the final inspection.
    pub inspection: Table<WaitRule>,
    /// Families with figures of their own.
    pub own_sheets: OwnSheets,
    /// Words of the shop.
    pub everyday_words: Table<EverydayWord>,
    /// Temper colours, red heat, surfaces under an IR gun, crayons.
    pub tint: TintData,
    /// The search index over grades, fillers and everyday words.
    pub index: Index,
}

impl Reference {
    /// The typed dataset of these files, with every rule checked.
    ///
    /// # Errors
    /// Every fault that the files have: unreadable ones first, then broken rules.
    pub fn parse(files: &Files<'_>) -> Result<Self, Vec<Fault>> {
        let reference = Self::read(files)?;
        let faults = check::faults(&reference, files.words);
        if faults.is_empty() { Ok(reference) } else { Err(faults) }
    }

    /// The typed dataset of these files, without the check of its rules.
    ///
    /// # Errors
    /// One fault for each file that can't be read.
    pub fn read(files: &Files<'_>) -> Result<Self, Vec<Fault>> {
        let mut faults = Vec::new();
        let sources = rows("sources.ron", files.sources, &mut faults);
        let grades = rows("grades.ron", files.grades, &mut faults);
        let fillers = rows("fillers.ron", files.fillers, &mut faults);
        let cautions = rows("cautions.ron", files.cautions, &mut faults);
        let methods = rows("methods.ron", files.methods, &mut faults);
        let joints = rows("joints.ron", files.joints, &mut faults);
        let inspection = rows("inspection.ron", files.inspection, &mut faults);
        let everyday_words = rows("everyday_words.ron", files.everyday_words, &mut faults);
        let practice = whole("practice.ron", files.practice, &mut faults);
        let d11 = whole("d11.ron", files.d11, &mut faults);
        let table_c1 = whole("table_c1.ron", files.table_c1, &mut faults);
        let processes: Option<ProcessFile> = whole("processes.ron", files.processes, &mut faults);
        let own_sheets = whole("own_sheets.ron", files.own_sheets, &mut faults);
        let tint = tint(files, &mut faults);
        let (Some(practice), Some(d11), Some(table_c1), Some(processes), Some(own_sheets), Some(tint), true) =
            (practice, d11, table_c1, processes, own_sheets, tint, faults.is_empty())
        else {
            return Err(faults);
        };
        let index = Index::build(&grades, &fillers, &everyday_words);
        Ok(Self {
            sources,
            grades,
            fillers,
            cautions,
            methods,
            practice,
            d11,
            table_c1,
            processes: Table::new(processes.processes),
            designators: Table::new(processes.designators),
            joints,
            inspection,
            own_sheets,
            everyday_words,
            tint,
            index,
        })
    }

    /// A grade by its id.
    #[must_use]
    pub fn grade(&self, id: &str) -> Option<&Grade> {
        self.grades.get(id)
    }

    /// A filler by its id.
    #[must_use]
    pub fn filler(&self, id: &str) -> Option<&Filler> {
        self.fillers.get(id)
    }

    /// A method by its id.
    #[must_use]
    pub fn method(&self, id: &str) -> Option<&Method> {
        self.methods.get(id)
    }

    /// A source by its id.
    #[must_use]
    pub fn source(&self, id: &str) -> Option<&Source> {
        self.sources.get(id)
    }

    /// A joint by its id.
    #[must_use]
    pub fn joint(&self, id: &str) -> Option<&Joint> {
        self.joints.get(id)
    }

    /// A process by its id.
    #[must_use]
    pub fn process(&self, id: &str) -> Option<&Process> {
        self.processes.get(id)
    }
}

/// The dataset that the program carries.
///
/// # Panics
/// Never: `tests/dataset/rules.rs` reads the same files and checks every rule.
#[must_use]
pub fn embedded() -> &'static Reference {
    static EMBEDDED: Lazy<Reference> = Lazy::new(|| {
        Reference::read(&Files::EMBEDDED).expect("tests/dataset/rules.rs reads the same embedded files")
    });
    &EMBEDDED
}

fn tint(files: &Files<'_>, faults: &mut Vec<Fault>) -> Option<TintData> {
    let optics = whole("optics.ron", files.optics, faults);
    let tables = whole("tint_tables.ron", files.tint_tables, faults);
    let red_heat = whole("red_heat.ron", files.red_heat, faults);
    let surfaces = whole("surfaces.ron", files.surfaces, faults);
    let crayons = whole("crayons.ron", files.crayons, faults);
    Some(TintData {
        optics: optics?,
        tables: tables?,
        red_heat: red_heat?,
        surfaces: surfaces?,
        crayons: crayons?,
    })
}

fn whole<T: DeserializeOwned>(file: &'static str, text: &str, faults: &mut Vec<Fault>) -> Option<T> {
    // So that a figure is written as itself and not as `Some(figure)`.
    let options = ron::Options::default().with_default_extension(Extensions::IMPLICIT_SOME);
    match options.from_str(text) {
        Ok(read) => Some(read),
        Err(error) => {
            let row = format!("line {}", error.span.start.line);
            faults.push(Fault { file, row, rule: Rule::Readable, detail: error.code.to_string() });
            None
        }
    }
}

fn rows<T: DeserializeOwned + Row>(file: &'static str, text: &str, faults: &mut Vec<Fault>) -> Table<T> {
    Table::new(whole(file, text, faults).unwrap_or_default())
}
