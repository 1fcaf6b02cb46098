//! From the text of the data files to the typed dataset.

use once_cell::sync::Lazy;

use ron::extensions::Extensions;
use serde::de::DeserializeOwned;

use super::tint::TintData;
use super::{
    Caution, CodeRows, D11, Designator, ElectrodeExposure, EverydayWord, Fault, Filler, Fits, Fuels, Grade,
    HeatCycleData, Joint, Metal, MethodRow, Methods, OwnSheets, PostHeatData, Practice, Process, ProcessFile,
    RepairData, Row, Rule, SlowCooling, Source, Table, TableC1, Transformation, Unmarked, WaitRule, Welding,
    check, search::Index,
};
use crate::packed::data;

/// Declares the data files: field `grades` is `data/grades.ron`.
macro_rules! files {
    ($($name:ident),* $(,)?) => {
        /// The text of every data file.
        #[derive(Debug, Clone, PartialEq, Eq)]
        #[allow(missing_docs, reason = "each field is the file of its name")]
        pub struct Files {
            $(pub $name: String,)*
        }

        impl Files {
            /// The files that the program carries.
            #[must_use]
            pub fn embedded() -> Self {
                Self { $($name: data!(concat!(stringify!($name), ".ron")),)* }
            }

            /// The text of a file by its name.
            #[must_use]
            pub fn named(&mut self, name: &str) -> Option<&mut String> {
                match name {
                    $(stringify!($name) => Some(&mut self.$name),)*
                    _ => None,
                }
            }
        }
    };
}

files! {
    sources,
    grades,
    fillers,
    cautions,
    methods,
    practice,
    d11,
    table_c1,
    code_rows,
    transformation,
    processes,
    joints,
    inspection,
    own_sheets,
    post_heat,
    fits,
    expansion,
    fuels,
    electrode_exposure,
    slow_cooling,
    heat_cycle,
    everyday_words,
    optics,
    tint_tables,
    red_heat,
    surfaces,
    crayons,
    weld_runs,
    weld_strength,
    weld_current,
    weld_cracks,
    weld_treatment,
    unmarked,
    repair,
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
    pub methods: Methods,
    /// Practice figures.
    pub practice: Practice,
    /// Tables of AWS D1.1.
    pub d11: D11,
    /// Table C.1 of EN 1011-2.
    pub table_c1: TableC1,
    /// Preheat rows of piping codes.
    pub code_rows: CodeRows,
    /// Scatter of the formulas for martensite start.
    pub transformation: Transformation,
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
    /// How hydrogen leaves a weld, and what the trade holds.
    pub post_heat: PostHeatData,
    /// Interference fits.
    pub fits: Fits,
    /// Metals that grow and shrink.
    pub metals: Table<Metal>,
    /// Fuel gas.
    pub fuels: Fuels,
    /// Covered electrodes in open air.
    pub electrode_exposure: ElectrodeExposure,
    /// How each family cools after welding.
    pub slow_cooling: Table<SlowCooling>,
    /// Surfaces, contacts and arcs of the heat cycle.
    pub heat_cycle: HeatCycleData,
    /// Words of the shop.
    pub everyday_words: Table<EverydayWord>,
    /// Temper colours, red heat, surfaces under an IR gun, crayons.
    pub tint: TintData,
    /// Runs, strength and current of a weld.
    pub welding: Welding,
    /// The guided test of a steel without a mark.
    pub unmarked: Unmarked,
    /// What a repair finds, and what it changes.
    pub repair: RepairData,
    /// The search index over grades, fillers and everyday words.
    pub index: Index,
    /// Places of the grades that have a data sheet.
    data_sheets: Vec<usize>,
}

impl Reference {
    /// The typed dataset of these files, with every rule checked; `words` are the English messages, of which each
    /// row has its own.
    ///
    /// # Errors
    /// Every fault that the files have: unreadable ones first, then broken rules.
    pub fn parse(files: &Files, words: &str) -> Result<Self, Vec<Fault>> {
        let reference = Self::read(files)?;
        let faults = check::faults(&reference, words);
        if faults.is_empty() { Ok(reference) } else { Err(faults) }
    }

    /// The typed dataset of these files, without the check of its rules.
    ///
    /// # Errors
    /// One fault for each file that can't be read.
    pub fn read(files: &Files) -> Result<Self, Vec<Fault>> {
        let mut faults = Vec::new();
        let sources = rows("sources.ron", &files.sources, &mut faults);
        let grades = rows("grades.ron", &files.grades, &mut faults);
        let fillers = rows("fillers.ron", &files.fillers, &mut faults);
        let cautions = rows("cautions.ron", &files.cautions, &mut faults);
        let methods = methods(&files.methods, &mut faults);
        let joints = rows("joints.ron", &files.joints, &mut faults);
        let inspection = rows("inspection.ron", &files.inspection, &mut faults);
        let everyday_words = rows("everyday_words.ron", &files.everyday_words, &mut faults);
        let practice = whole("practice.ron", &files.practice, &mut faults);
        let d11 = whole("d11.ron", &files.d11, &mut faults);
        let table_c1 = whole("table_c1.ron", &files.table_c1, &mut faults);
        let code_rows = whole("code_rows.ron", &files.code_rows, &mut faults);
        let transformation = whole("transformation.ron", &files.transformation, &mut faults);
        let processes: Option<ProcessFile> = whole("processes.ron", &files.processes, &mut faults);
        let own_sheets = whole("own_sheets.ron", &files.own_sheets, &mut faults);
        let post_heat = whole("post_heat.ron", &files.post_heat, &mut faults);
        let metals = rows("expansion.ron", &files.expansion, &mut faults);
        let slow_cooling = rows("slow_cooling.ron", &files.slow_cooling, &mut faults);
        let fits = whole("fits.ron", &files.fits, &mut faults);
        let fuels = whole("fuels.ron", &files.fuels, &mut faults);
        let electrode_exposure = whole("electrode_exposure.ron", &files.electrode_exposure, &mut faults);
        let heat_cycle = whole("heat_cycle.ron", &files.heat_cycle, &mut faults);
        let tint = tint(files, &mut faults);
        let welding = welding(files, &mut faults);
        let unmarked = whole("unmarked.ron", &files.unmarked, &mut faults);
        let repair = whole("repair.ron", &files.repair, &mut faults);
        let (
            Some(methods),
            Some(practice),
            Some(d11),
            Some(table_c1),
            Some(processes),
            Some(own_sheets),
            Some(tint),
        ) = (methods, practice, d11, table_c1, processes, own_sheets, tint)
        else {
            return Err(faults);
        };
        let (Some(code_rows), Some(transformation), Some(post_heat), Some(heat_cycle), true) =
            (code_rows, transformation, post_heat, heat_cycle, faults.is_empty())
        else {
            return Err(faults);
        };
        let (Some(fits), Some(fuels), Some(electrode_exposure), Some(welding), Some(unmarked), Some(repair)) =
            (fits, fuels, electrode_exposure, welding, unmarked, repair)
        else {
            return Err(faults);
        };
        let data_sheets = places(&grades, |grade: &Grade| grade.data_sheet.is_some());
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
            code_rows,
            transformation,
            processes: Table::new(processes.processes),
            designators: Table::new(processes.designators),
            joints,
            inspection,
            own_sheets,
            post_heat,
            fits,
            metals,
            fuels,
            electrode_exposure,
            slow_cooling,
            heat_cycle,
            everyday_words,
            tint,
            welding,
            unmarked,
            repair,
            data_sheets,
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

    /// Thermal efficiency of a process: net heat input is this times arc energy.
    ///
    /// # Panics
    /// Never with a dataset that was checked: each process of the engine has its row.
    #[must_use]
    pub fn efficiency(&self, process: &str) -> f64 {
        self.process(process).expect("each process has its row").efficiency
    }

    /// Is a process low in hydrogen by its nature?
    #[must_use]
    pub fn low_hydrogen(&self, process: &str) -> bool {
        self.process(process).is_some_and(|process| process.low_hydrogen)
    }

    /// The grades that have a data sheet of their own.
    pub fn with_data_sheet(&self) -> impl Iterator<Item = &Grade> {
        self.data_sheets.iter().filter_map(|&place| self.grades.rows().get(place))
    }
}

/// The dataset that the program carries.
///
/// # Panics
/// Never: `tests/dataset/rules.rs` reads the same files and checks every rule.
#[must_use]
pub fn embedded() -> &'static Reference {
    static EMBEDDED: Lazy<Reference> = Lazy::new(|| {
        Reference::read(&Files::embedded()).expect("tests/dataset/rules.rs reads the same embedded files")
    });
    &EMBEDDED
}

/// The rows of the methods: each method of the engine has one.
fn methods(text: &str, faults: &mut Vec<Fault>) -> Option<Methods> {
    let rows: Vec<MethodRow> = whole("methods.ron", text, faults)?;
    match Methods::new(rows) {
        Ok(methods) => Some(methods),
        Err(lacking) => {
            faults.extend(lacking.into_iter().map(|id| Fault {
                file: "methods.ron",
                row: id.to_owned(),
                rule: Rule::EachMethod,
                detail: "a method of the engine has no row".to_owned(),
            }));
            None
        }
    }
}

/// The places of the rows of which something is true.
fn places<T: Row>(table: &Table<T>, is: impl Fn(&T) -> bool) -> Vec<usize> {
    (0..table.len()).filter(|&place| is(&table.rows()[place])).collect()
}

fn tint(files: &Files, faults: &mut Vec<Fault>) -> Option<TintData> {
    let optics = whole("optics.ron", &files.optics, faults);
    let tables = whole("tint_tables.ron", &files.tint_tables, faults);
    let red_heat = whole("red_heat.ron", &files.red_heat, faults);
    let surfaces = whole("surfaces.ron", &files.surfaces, faults);
    let crayons = whole("crayons.ron", &files.crayons, faults);
    Some(TintData {
        optics: optics?,
        tables: tables?,
        red_heat: red_heat?,
        surfaces: surfaces?,
        crayons: crayons?,
    })
}

fn welding(files: &Files, faults: &mut Vec<Fault>) -> Option<Welding> {
    let runs = whole("weld_runs.ron", &files.weld_runs, faults);
    let strength = whole("weld_strength.ron", &files.weld_strength, faults);
    let current = whole("weld_current.ron", &files.weld_current, faults);
    let cracks = whole("weld_cracks.ron", &files.weld_cracks, faults);
    let treatment = whole("weld_treatment.ron", &files.weld_treatment, faults);
    Some(Welding {
        runs: runs?,
        strength: strength?,
        current: current?,
        cracks: cracks?,
        treatment: treatment?,
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
