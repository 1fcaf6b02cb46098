//! What an input may take from a plan, so that nothing is typed twice.

/// The fact of a plan that an input asks for. Where a plan has several, the one that is on the
/// safe side of what the questions use it for.
///
/// What the plan's heat cycle says is known only once it is worked out.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum OfPlan {
    /// The steel of the part that governs the minimum.
    Steel,
    /// The thickest part.
    Thickness,
    /// The first part of the joint's sketch.
    FirstThickness,
    /// The second part of the joint's sketch.
    SecondThickness,
    /// Combined thickness.
    CombinedThickness,
    /// Leg of the fillet.
    Leg,
    /// What heats.
    HeatedBy,
    /// Depth of a groove, a cavity or a layer.
    WeldDepth,
    /// How far from the weld the minimum is measured.
    MeasuringDistance,
    /// Throat of the fillet, where a leg is stated.
    WeldSize,
    /// The same, or else the thickest part, which a weld may be as thick as.
    WeldThickness,
    /// Tensile strength of the weld metal.
    WeldStrength,
    /// CET of the weld metal.
    WeldCet,
    /// The wettest of the processes.
    Hydrogen,
    /// The coldest of the processes.
    NetHeat,
    /// The process, the first of several.
    Process,
    /// Net heat of the runs that fill: the last process.
    FillHeat,
    /// The process of the runs that fill: the last.
    FillProcess,
    /// How many runs fill, where that is stated.
    FillRuns,
    /// Net heat of the root, where a process of its own lays it.
    RootHeat,
    /// The process of the root, where it has its own.
    RootProcess,
    /// Arc voltage.
    Volts,
    /// Current.
    Amps,
    /// Travel speed.
    Travel,
    /// Arc time of a timed run.
    ArcTime,
    /// Length of a timed run.
    RunLength,
    /// Joint.
    Joint,
    /// Restraint.
    Restraint,
    /// The family that governs the plan.
    Family,
    /// The greatest yield strength that is stated.
    Yield,
    /// Minimum preheat, as shown.
    Minimum,
    /// Maximum interpass, as shown.
    Maximum,
    /// The ceiling, as shown.
    Ceiling,
    /// Hours of the post-heat.
    PostHeatHours,
    /// The least temperature of the post-heat.
    PostHeatLeast,
    /// Fuel gas of the torch.
    Fuel,
    /// Minutes of the strongest flame that the heat cycle counts with.
    FlameLeast,
    /// Minutes of the weakest.
    FlameMost,
    /// Shop temperature.
    Shop,
}

impl OfPlan {
    /// Does the plan's heat cycle say it?
    #[must_use]
    pub const fn of_cycle(self) -> bool {
        matches!(self, Self::FlameLeast | Self::FlameMost)
    }
}
