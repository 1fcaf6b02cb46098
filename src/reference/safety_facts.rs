//! What a job may tell for the sake of safety: what heats, what is on the metal, what is in it,
//! where the work is done. All of it is optional, and none of it changes a figure.

use serde::{Deserialize, Serialize};
use strum::{IntoStaticStr, VariantArray};

/// A fact with a few answers.
pub trait Told: Copy + PartialEq + Into<&'static str> + VariantArray {
    /// What its messages begin with: the messages of its answers are `TOPIC-ID`.
    const TOPIC: &'static str;

    /// The Fluent message that names the answer.
    fn key(self) -> &'static str {
        self.into()
    }

    /// The stable id, as it is written in a file.
    fn id(self) -> &'static str {
        self.key().strip_prefix(Self::TOPIC).map_or("", |id| id.trim_start_matches('-'))
    }
}

/// Facts, each with the topic of its messages.
macro_rules! told {
    ($($(#[$meta:meta])* pub enum $name:ident ($topic:literal) { $($answers:tt)* })*) => {$(
        #[derive(
            Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize, IntoStaticStr,
            VariantArray,
        )]
        $(#[$meta])*
        pub enum $name { $($answers)* }

        impl Told for $name {
            const TOPIC: &'static str = $topic;
        }
    )*};
}

told! {
    /// What heats the parts.
    #[strum(prefix = "heat-source-", serialize_all = "kebab-case")]
    pub enum HeatSource ("heat-source") {
        /// Nothing: no heat beside the arc.
        None,
        /// An oxy-acetylene torch.
        Acetylene,
        /// A torch or burner on propane, natural gas or another gas.
        Propane,
        /// A furnace or an oven.
        Furnace,
        /// Resistance mats.
        Mats,
        /// An induction coil.
        Induction,
    }

    /// What is on the metal where it gets hot or is ground.
    #[strum(prefix = "coating-", serialize_all = "kebab-case")]
    pub enum Coating ("coating") {
        /// Nothing: bare metal, scale or rust.
        Bare,
        /// Zinc: galvanised or zinc-plated.
        Zinc,
        /// Cadmium, or a plate that nobody can name.
        Cadmium,
        /// Hard chrome, or a chromate primer.
        HardChrome,
        /// Paint, plastic, rubber or sealant.
        Paint,
        /// Paint that may hold lead: from before 1980, or nobody knows when.
        OldPaint,
    }

    /// A closed space in or behind the part.
    #[strum(prefix = "cavity-", serialize_all = "kebab-case")]
    pub enum Cavity ("cavity") {
        /// None, or it is open.
        None,
        /// Closed, with air in it.
        Dry,
        /// It held oil, grease, fuel or another thing that burns.
        Oil,
        /// It holds or held gas or pressure.
        Pressure,
    }

    /// What the part was cleaned with.
    #[strum(prefix = "cleaner-", serialize_all = "kebab-case")]
    pub enum Cleaner ("cleaner") {
        /// Nothing.
        None,
        /// Water or detergent.
        Water,
        /// Acetone, alcohol or another solvent without chlorine.
        Solvent,
        /// Brake cleaner, degreaser or another chlorinated or unknown cleaner.
        Chlorinated,
    }

    /// How the parts are held or fitted.
    #[strum(prefix = "assembly-", serialize_all = "kebab-case")]
    pub enum Assembly ("assembly") {
        /// Nothing is fitted, and nothing is under load.
        None,
        /// A hub is heated and a pin goes into it.
        HotHub,
        /// A pin is frozen in dry ice.
        DryIce,
        /// A pin is frozen in liquid nitrogen.
        Nitrogen,
        /// A pin is or gets pressed in or out.
        Pressed,
        /// A spring, strut, rail or frame is under load.
        Spring,
        /// A tyre is on the wheel.
        Tyre,
    }

    /// Where the work is done.
    #[strum(prefix = "work-place-", serialize_all = "kebab-case")]
    pub enum WorkPlace ("work-place") {
        /// An open shop.
        OpenShop,
        /// A small or closed room.
        ClosedRoom,
        /// A pit, tank, box section or another confined space.
        Confined,
        /// Outdoors.
        Outdoors,
    }

    /// What is ground with.
    #[strum(prefix = "grinder-", serialize_all = "kebab-case")]
    pub enum Grinder ("grinder") {
        /// Nothing is ground.
        None,
        /// A hand grinder.
        Hand,
        /// A bench grinder.
        Bench,
    }

    /// How the weld is inspected.
    #[strum(prefix = "inspection-", serialize_all = "kebab-case")]
    pub enum Inspection ("inspection") {
        /// By eye.
        Visual,
        /// With penetrant.
        Penetrant,
        /// With magnetic particles.
        Magnetic,
        /// With ultrasound.
        Ultrasonic,
        /// With X-rays or a source.
        Radiography,
    }
}
