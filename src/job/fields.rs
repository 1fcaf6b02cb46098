//! The fields of a job. Each is declared here and nowhere else: its reading, the form, the
//! command line, help, files and the session take it from this table, and its name is the
//! message `field-ID`.

use std::borrow::Cow;
use std::cmp::Ordering;

use crate::units::Accepts;
use crate::words::Words;

/// What a field says something of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Of {
    /// The whole job.
    Job,
    /// One part of the joint.
    Part,
    /// The runs of one process.
    Run,
}

macro_rules! fields {
    ($(#[doc = $doc:literal] $of:ident $variant:ident $name:ident $id:literal $accepts:ident;)*) => {
        /// A field of a job, of each part or of each run.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
        pub enum Field {
            $(#[doc = $doc] $variant,)*
        }

        impl Field {
            /// All fields in the order in which they are asked.
            pub const ALL: &[Self] = &[$(Self::$variant,)*];

            /// The id: the key on the command line.
            #[must_use]
            pub const fn id(self) -> &'static str {
                match self { $(Self::$variant => $id,)* }
            }

            /// What it is called in a file.
            pub(super) const fn name_in_file(self) -> &'static str {
                match self { $(Self::$variant => stringify!($name),)* }
            }

            /// What it says something of.
            #[must_use]
            pub const fn of(self) -> Of {
                match self { $(Self::$variant => Of::$of,)* }
            }

            /// What it takes.
            #[must_use]
            pub const fn accepts(self) -> Accepts {
                match self { $(Self::$variant => Accepts::$accepts,)* }
            }
        }
    };
}

fields! {
    /// Name of the job.
    Job Name name "name" Steel;
    /// Units of bare numbers: `c-mm`, `f-in`, `f-mm`, `c-in`.
    Job Units units "units" Units;
    /// Steel.
    Part Steel steel "steel" Steel;
    /// Certificate.
    Part Certificate certificate "certificate" Composition;
    /// Condition, with the tempering temperature.
    Part Condition condition "condition" Condition;
    /// Thickness.
    Part Thickness thickness "thickness" Length;
    /// Shape: `plate` or `round`.
    Part Shape shape "shape" Shape;
    /// Diameter, in place of thickness and shape.
    Part Diameter diameter "diameter" Length;
    /// Hardness.
    Part Hardness hardness "hardness" Hardness;
    /// Yield strength.
    Part Yield yield_strength "yield" Strength;
    /// Is the weld zone buttered?
    Part Buttered buttered "buttered" YesNo;
    /// The joint.
    Job Joint joint "joint" Joint;
    /// Leg of the fillet.
    Job Leg leg "leg" Length;
    /// Depth of a groove, a repair or a build-up.
    Job WeldDepth weld_depth "weld-depth" Length;
    /// How the weld is loaded.
    Job Load load "load" Load;
    /// Position of welding.
    Job Position position "position" Position;
    /// Length of the weld on one side.
    Job WeldLength weld_length "weld-length" RunLength;
    /// Shape of the groove.
    Job Groove groove "groove" Groove;
    /// Angle of the groove.
    Job GrooveAngle groove_angle "groove-angle" Angle;
    /// Gap at the root.
    Job RootGap root_gap "root-gap" Length;
    /// Root face.
    Job RootFace root_face "root-face" Length;
    /// Process.
    Run Process process "process" Process;
    /// Diffusible hydrogen.
    Run Hydrogen hydrogen "hydrogen" Hydrogen;
    /// Net heat input.
    Run HeatInput heat_input "heat-input" Heat;
    /// Arc energy.
    Run ArcEnergy arc_energy "arc-energy" ArcEnergy;
    /// Arc voltage.
    Run Volts volts "volts" Voltage;
    /// Current.
    Run Amps amps "amps" Current;
    /// Travel speed.
    Run Travel travel "travel" Travel;
    /// Arc time of a timed run, in place of the travel speed.
    Run ArcTime arc_time "arc-time" ShortTime;
    /// Length of a timed run.
    Run RunLength run_length "run-length" RunLength;
    /// Filler.
    Run Filler filler "filler" Filler;
    /// Number of runs.
    Run Passes passes "runs" Count;
    /// Restraint.
    Job Restraint restraint "restraint" Restraint;
    /// Tensile strength of the weld metal.
    Job WeldStrength weld_strength "weld-strength" Strength;
    /// CET of the weld metal.
    Job WeldCet weld_cet "weld-cet" Number;
    /// Shop temperature.
    Job Shop shop "shop" Temperature;
    /// Is the air very humid?
    Job Damp damp "damp" YesNo;
    /// Code that the job names.
    Job Code code "code" Code;
    /// Minimum preheat demanded by drawing, procedure or customer.
    Job DemandPreheat demand_preheat "demand-preheat" Temperature;
    /// Maximum interpass demanded.
    Job DemandInterpass demand_interpass "demand-interpass" Temperature;
    /// Ceiling demanded.
    Job DemandCeiling demand_ceiling "demand-ceiling" Temperature;
    /// Are edges cut by flame or plasma?
    Job ThermalCut thermal_cut "thermal-cut" YesNo;
    /// Is a crack repaired?
    Job Crack crack "crack" YesNo;
    /// Has oil soaked the metal?
    Job OilSoaked oil_soaked "oil-soaked" YesNo;
    /// Is there an old weld of unknown filler?
    Job OldWeld old_weld "old-weld" YesNo;
    /// Is there a hardfacing where the weld goes?
    Job Hardfacing hardfacing "hardfacing" YesNo;
    /// Is a worn part built up?
    Job BuildUp build_up "build-up" YesNo;
    /// What heats the parts.
    Job HeatSource heat_source "heat-source" HeatSource;
    /// How many gas cylinders are coupled or in use.
    Job Cylinders cylinders "cylinders" Count;
    /// What is on the metal.
    Job Coating coating "coating" Coating;
    /// A closed space.
    Job Cavity cavity "cavity" Cavity;
    /// What the part was cleaned with.
    Job Cleaner cleaner "cleaner" Cleaner;
    /// How the parts are held or fitted.
    Job Assembly assembly "assembly" Assembly;
    /// Where the work is done.
    Job Place place "place" WorkPlace;
    /// Does the person work alone?
    Job Alone alone "alone" YesNo;
    /// Is a copper alloy in or near the heat?
    Job CopperAlloy copper_alloy "copper-alloy" YesNo;
    /// Is rubber or PTFE in or near the heat?
    Job Seals seals "seals" YesNo;
    /// Is a battery, electronics or fuel on the machine?
    Job Battery battery "battery" YesNo;
    /// What is ground with.
    Job Grinder grinder "grinder" Grinder;
    /// Does the grinder or its extractor also take light metal?
    Job LightMetal light_metal "light-metal" YesNo;
    /// Is the part lifted with tackle?
    Job Lifted lifted "lifted" YesNo;
    /// Does heat or slow cooling go on when nobody is there?
    Job Overnight overnight "overnight" YesNo;
    /// How the weld is inspected.
    Job Inspection inspection "inspection" Inspection;
}

impl Field {
    /// The field of this id, or of its name in a file.
    #[must_use]
    pub fn from_id(id: &str) -> Option<Self> {
        let id = id.trim().to_ascii_lowercase();
        let same =
            |field: &Self| field.id() == id.replace('_', "-") || field.name_in_file() == id.replace('-', "_");
        Self::ALL.iter().copied().find(same)
    }

    /// The Fluent message with its name.
    #[must_use]
    pub fn key(self) -> String {
        format!("field-{}", self.id())
    }

    /// The field of this part or run, counted from 0.
    #[must_use]
    pub const fn nth(self, nth: usize) -> Slot {
        Slot { field: self, nth }
    }
}

/// A field of one part or one run: where a text stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Slot {
    /// The field.
    pub field: Field,
    /// Which part or run, counted from 0; 0 for a field of the whole job.
    pub nth: usize,
}

/// The most runs that keys tell apart.
const RUNS: usize = 99;

impl Slot {
    /// The id: that of the field, `-b` with it for the second part and `-2`, `-3` … for
    /// further runs. It is the key on the command line.
    #[must_use]
    pub fn id(self) -> Cow<'static, str> {
        let id = self.field.id();
        match (self.field.of(), self.nth) {
            (Of::Job, _) | (_, 0) => id.into(),
            (Of::Part, 1) => format!("{id}-b").into(),
            (Of::Part | Of::Run, nth) => format!("{id}-{}", nth + 1).into(),
        }
    }

    /// The slot of an id; `-` and `_` are the same, and so are `yield` and `yield-strength`,
    /// `runs` and `passes`.
    #[must_use]
    pub fn from_id(id: &str) -> Option<Self> {
        if let Some(field) = Field::from_id(id) {
            return Some(field.into());
        }
        let (id, nth) = id.trim().rsplit_once(['-', '_'])?;
        let field = Field::from_id(id)?;
        match (field.of(), nth) {
            (Of::Part, "b" | "B") => Some(field.nth(1)),
            (Of::Run, nth) => {
                let nth = nth.parse().ok().filter(|nth| (2..=RUNS).contains(nth))?;
                Some(field.nth(nth - 1))
            }
            _ => None,
        }
    }

    /// Its name, with the part or the run where it is not the first.
    #[must_use]
    pub fn name(self, words: &Words) -> String {
        let field = words.get(&self.field.key());
        match (self.field.of(), self.nth) {
            (Of::Job, _) | (_, 0) => field,
            (Of::Part, _) => words.with("field-of-second", &[("field", &field)]),
            (Of::Run, nth) => words.count("field-of-run", nth + 1, &[("field", &field)]),
        }
    }

    /// All fields of a part stand before those of the next one, and so with runs.
    const fn rank(self) -> (Field, usize, Field) {
        let group = match self.field.of() {
            Of::Job => self.field,
            Of::Part => Field::Steel,
            Of::Run => Field::Process,
        };
        (group, self.nth, self.field)
    }
}

impl From<Field> for Slot {
    fn from(field: Field) -> Self {
        field.nth(0)
    }
}

impl PartialOrd for Slot {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Slot {
    fn cmp(&self, other: &Self) -> Ordering {
        self.rank().cmp(&other.rank())
    }
}
