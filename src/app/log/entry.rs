//! The reading that is typed: what it says so far, and what is wrong with it.

use strum::{EnumString, IntoStaticStr, VariantArray};

use super::kept::LogKept;
use crate::app::State;
use crate::engine::reading::{Band, Gun, Look, Seen, Touch, When};
use crate::engine::tint::Stage;
use crate::job::say_refusal;
use crate::log::{Cooled, CrackOutcome, Face, Moment, PieceView, PlanCopy, ReadingTaken};
use crate::report::day_and_time;
use crate::units::{self, Problem, TemperatureUnit, Within, limits};

/// Setting of an IR gun.
const EMISSIVITY: Within = Within { low: 0.01, high: 1.0 };
/// The setting that most have.
const USUAL_EMISSIVITY: f64 = 0.95;
/// Phases of the sequence in which a part is at its minimum, not yet welded.
const BEFORE_ARC: [&str; 2] = ["measure", "tack"];
const IN_WELDING: [&str; 2] = ["weld", "butter"];

/// An instrument.
#[derive(Debug, Clone, Copy, PartialEq, Eq, EnumString, IntoStaticStr, VariantArray)]
#[strum(serialize_all = "kebab-case")]
pub(super) enum With {
    ContactProbe,
    Thermocouple,
    IrGun,
    BlackSpotGun,
    Crayon,
    Colour,
}

impl With {
    pub(super) const ALL: &[Self] = <Self as VariantArray>::VARIANTS;

    /// Its id, which a record bears too.
    pub(super) fn id(self) -> &'static str {
        self.into()
    }

    /// The message of its name.
    pub(super) const fn key(self) -> &'static str {
        match self {
            Self::ContactProbe => "instrument-contact-probe",
            Self::Thermocouple => "log-with-thermocouple",
            Self::IrGun => "instrument-infrared",
            Self::BlackSpotGun => "log-with-black-spot-gun",
            Self::Crayon => "instrument-crayon",
            Self::Colour => "instrument-tint",
        }
    }
}

/// What a reading begins with, where nothing was chosen.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Before {
    /// The last reading of the job.
    pub(super) last: Option<ReadingTaken>,
    /// The last figure of this piece, °C.
    pub(super) shown_c: Option<f64>,
    /// When in the work.
    pub(super) when: When,
}

impl Before {
    /// For a piece: its own last reading, or the last of the job; the moment of the work by whichever is
    /// further, the steps that are done or the readings.
    pub(super) fn of(plan: &PlanCopy, piece: Option<&PieceView<'_>>, last: Option<&ReadingTaken>) -> Self {
        let own = piece.and_then(|piece| piece.readings.last()).map(|reading| reading.thing.now);
        let phase = piece.and_then(|piece| piece.next_step(plan)).map(|step| step.phase.as_str());
        let by_step = match phase {
            Some(phase) if BEFORE_ARC.contains(&phase) => When::BeforeTack,
            Some(phase) if IN_WELDING.contains(&phase) => When::BeforeRun(1),
            Some("post-heat") => When::PostHeat,
            Some("cool") => When::Cooling,
            _ => When::Heating,
        };
        Self {
            last: own.or(last).cloned(),
            shown_c: own.and_then(|own| own.seen.shows_c()),
            when: own.map_or(by_step, |own| own.when.max(by_step)),
        }
    }
}

/// The id of a moment of the work, with the number of its run.
pub(super) fn when_id(when: When) -> String {
    match when {
        When::BeforeRun(number) => format!("run-{number}"),
        other => other.id().to_owned(),
    }
}

/// The moments that are offered: runs about the one that is next.
pub(super) fn moments(now: When) -> Vec<When> {
    let at = if let When::BeforeRun(number) = now { number } else { 1 };
    let runs = (at.saturating_sub(1).max(1)..=at.saturating_add(3)).map(When::BeforeRun);
    [When::Heating, When::BeforeTack]
        .into_iter()
        .chain(runs)
        .chain([When::BetweenRuns, When::PostHeat, When::Cooling])
        .collect()
}

/// The reading that is typed.
pub(super) struct Draft<'a> {
    pub(super) state: &'a State,
    pub(super) plan: &'a PlanCopy,
    pub(super) before: &'a Before,
    pub(super) now: Moment,
}

/// A reading that can be written down.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Taken {
    pub(super) seen: Seen,
    pub(super) typed: String,
    pub(super) band: Band,
}

/// The reading that is typed, for the piece or trial piece that is open; none where no job is.
pub(super) fn with_draft<T>(state: &State, look: impl FnOnce(&Draft<'_>) -> T) -> Option<T> {
    let desk = state.log.borrow();
    let standing = desk.open.as_ref()?.log().standing();
    let plan = &standing.job.as_ref()?.now.plan;
    let now = Moment::now();
    let overview = standing.overview(state.reference, now)?;
    let own = overview.pieces.iter().find(|piece| Some(piece.thing.id) == desk.piece && !desk.of_trial);
    let last = standing.readings.iter().max_by_key(|reading| reading.record.id).map(|last| last.now);
    let before = Before::of(plan, own, last);
    Some(look(&Draft { state, plan, before: &before, now }))
}

/// Did the trial piece crack, and how did it cool, as chosen so far?
pub(super) fn trial_told(state: &State) -> (CrackOutcome, Cooled) {
    let outcome = LogKept::Outcome.text(state);
    let cooled = LogKept::Cooled.text(state);
    (
        CrackOutcome::ALL.iter().copied().find(|known| known.id() == outcome).unwrap_or_default(),
        Cooled::ALL.iter().copied().find(|known| known.id() == cooled).unwrap_or_default(),
    )
}

/// A time of this day alone, another one with its day.
pub(super) fn time_words(state: &State, at: Moment, now: Moment) -> String {
    let (day, time) = at.day_and_time();
    if day == now.day_and_time().0 { time } else { day_and_time(&state.pen(), at) }
}

/// What is wrong with an entry, beside where it was typed.
pub(super) type Wrong = Vec<(LogKept, String)>;

impl Draft<'_> {
    fn typed(&self, kept: LogKept) -> Option<String> {
        kept.get(self.state).filter(|text| !text.trim().is_empty())
    }

    /// The instrument: chosen, or that of the last reading.
    pub(super) fn with(&self) -> With {
        let chosen = self.typed(LogKept::With).and_then(|id| id.parse().ok());
        let last = || self.before.last.as_ref()?.seen.instrument().parse().ok();
        chosen.or_else(last).unwrap_or(With::ContactProbe)
    }

    /// The unit of a bare figure.
    pub(super) fn unit(&self) -> TemperatureUnit {
        match self.typed(LogKept::Unit).as_deref() {
            Some("c" | "c-typed") => TemperatureUnit::C,
            Some("f" | "f-typed") => TemperatureUnit::F,
            _ => self.state.show().units.temperature,
        }
    }

    /// Is the crayon that did not melt typed, and not the one that did; was the colour seen under the flame?
    pub(super) fn second_way(&self) -> bool {
        self.typed(LogKept::Way).as_deref() == Some("second")
    }

    /// Is still to be said whether the crayon melted? Neither stands for the other.
    pub(super) fn way_open(&self) -> bool {
        self.with() == With::Crayon && self.typed(LogKept::Way).is_none()
    }

    /// Where the figure on the screen is kept.
    pub(super) fn field(&self) -> LogKept {
        if self.with() == With::Crayon && self.second_way() { LogKept::Stayed } else { LogKept::Shows }
    }

    /// The part, where parts are logged apart or one was chosen.
    pub(super) fn part(&self) -> Option<u32> {
        let nth: u32 = self.typed(LogKept::Part)?.parse().ok()?;
        usize::try_from(nth).ok().filter(|nth| *nth < self.plan.members.len()).map(|_| nth)
    }

    pub(super) fn face(&self) -> Face {
        let chosen = self.typed(LogKept::Face);
        let chosen = chosen.and_then(|id| Face::ALL.iter().copied().find(|face| face.id() == id));
        chosen.or_else(|| self.before.last.as_ref().map(|last| last.face)).unwrap_or_default()
    }

    /// How far from the weld; none where nobody told and the plan does not say.
    pub(super) fn away_mm(&self) -> Result<Option<f64>, Problem> {
        let Some(text) = self.typed(LogKept::Away) else { return Ok(self.plan.measured_at_mm) };
        let show = self.state.show();
        let read = |text: &str| units::length(text, show.units.length, limits::ANY_LENGTH_MM);
        show.typed_mark().read(&text, read).map(|length| Some(length.mm))
    }

    pub(super) fn when(&self) -> When {
        let chosen = self.typed(LogKept::When);
        let run = |id: &str| id.strip_prefix("run-").and_then(|number| number.parse().ok());
        let of = |id: String| {
            run(&id)
                .map(When::BeforeRun)
                .or_else(|| moments(self.before.when).into_iter().find(|when| when_id(*when) == id))
        };
        chosen.and_then(of).unwrap_or(self.before.when)
    }

    /// Now, or the time that is typed; one of yesterday evening is written in the night. `None` for what is
    /// no time, or is still to come.
    pub(super) fn at(&self) -> Option<Moment> {
        self.typed(LogKept::Time).map_or(Some(self.now), |text| self.now.told(&text).ok())
    }

    pub(super) fn surface(&self) -> Option<String> {
        let last = || match &self.before.last.as_ref()?.seen {
            Seen::Gun(gun) => Some(gun.surface.clone()),
            _ => None,
        };
        let known = |id: &String| self.state.reference.tint.surface(id).is_some();
        self.typed(LogKept::Surface).or_else(last).filter(known)
    }

    pub(super) fn colour(&self) -> Option<Stage> {
        Stage::from_id(&self.typed(LogKept::Colour)?)
    }

    /// The other end of a range of colours; none where one colour was seen.
    pub(super) fn colour_to(&self) -> Option<Stage> {
        Stage::from_id(&self.typed(LogKept::ColourTo)?)
    }

    /// The colours that were seen, from the one of the lesser temperature.
    fn colours(&self) -> Option<(Stage, Stage)> {
        let (one, other) = (self.colour()?, self.colour_to());
        let other = other.unwrap_or(one);
        Some((one.min(other), one.max(other)))
    }

    /// Is nothing typed yet of what the instrument shows?
    pub(super) fn is_empty(&self) -> bool {
        match self.with() {
            With::Colour => self.colour().is_none(),
            With::Crayon => self.typed(LogKept::Shows).or_else(|| self.typed(LogKept::Stayed)).is_none(),
            _ => self.typed(LogKept::Shows).is_none(),
        }
    }

    /// A temperature as it is typed for the instrument.
    pub(super) fn read_c(&self, text: &str) -> Result<f64, Problem> {
        let read = |text: &str| units::temperature(text, self.unit(), limits::READING_C);
        self.state.show().typed_mark().read(text, read)
    }

    fn temperature(&self, kept: LogKept, wrong: &mut Wrong) -> Option<f64> {
        let text = self.typed(kept)?;
        match self.read_c(&text) {
            Ok(at_c) => Some(at_c),
            Err(problem) => {
                wrong.push((kept, problem.say(&self.state.words)));
                None
            }
        }
    }

    /// A figure as it was typed, with its unit.
    fn with_unit(&self, kept: LogKept) -> Option<String> {
        let text = self.typed(kept)?;
        let bare = text.trim().ends_with(|sign: char| sign.is_ascii_digit() || matches!(sign, '.' | ','));
        Some(if bare { format!("{}\u{a0}{}", text.trim(), self.unit().symbol()) } else { text })
    }

    /// What was seen, as far as it is typed; it is written down only where nothing is wrong. `None` with nothing
    /// wrong where something is still missing.
    pub(super) fn taken(&self, wrong: &mut Wrong) -> Option<Taken> {
        let say = |key: &str| self.state.words.get(key);
        let with = self.with();
        let touched = |with: Touch, wrong: &mut Wrong| {
            let shows_c = self.temperature(LogKept::Shows, wrong)?;
            Some(Seen::Touched { with, shows_c })
        };
        let seen = match with {
            With::ContactProbe => touched(Touch::ContactProbe, wrong),
            With::Thermocouple => touched(Touch::Thermocouple, wrong),
            With::BlackSpotGun => touched(Touch::BlackSpotGun, wrong),
            With::IrGun => self.gun(wrong),
            With::Crayon => self.crayons(wrong),
            With::Colour => self.colours().map(|(from, to)| Seen::Colour {
                from: from.id().to_owned(),
                to: to.id().to_owned(),
                look: if self.second_way() { Look::FlameOn } else { Look::Afterwards },
                chromium_pct: self.plan.chromium_pct(self.part()),
            }),
        };
        if self.plan.apart && self.part().is_none() {
            wrong.push((LogKept::Part, say("log-part-missing")));
        }
        if let Err(problem) = self.away_mm() {
            wrong.push((LogKept::Away, problem.say(&self.state.words)));
        }
        if self.at().is_none() {
            wrong.push((LogKept::Time, say("log-time-wrong")));
        }
        let seen = seen?;
        let band = match seen.band(self.state.reference) {
            Ok(band) => band,
            Err(error) => {
                wrong.push((self.field(), say_refusal(&error.into(), &self.state.words)));
                return None;
            }
        };
        let typed: Vec<String> =
            [LogKept::Shows, LogKept::Stayed].into_iter().filter_map(|kept| self.with_unit(kept)).collect();
        let typed = if with == With::Colour {
            String::new()
        } else {
            self.state.words.list(crate::words::List::Semicolon, &typed)
        };
        Some(Taken { seen, typed, band })
    }

    /// What one crayon did, or two; nothing is written down that does not stand on the screen.
    fn crayons(&self, wrong: &mut Wrong) -> Option<Seen> {
        let (melted_c, stayed_c) =
            (self.temperature(LogKept::Shows, wrong), self.temperature(LogKept::Stayed, wrong));
        melted_c.or(stayed_c)?;
        if self.way_open() {
            wrong.push((LogKept::Way, self.state.words.get("log-way-missing")));
            return None;
        }
        let hidden = if self.second_way() { LogKept::Shows } else { LogKept::Stayed };
        if self.typed(self.field()).is_none()
            && let Some(figure) = self.with_unit(hidden)
        {
            let says = self.state.words.with("log-way-other", &[("figure", &figure)]);
            wrong.push((LogKept::Way, says));
            return None;
        }
        Some(Seen::Crayons { melted_c, stayed_c })
    }

    fn gun(&self, wrong: &mut Wrong) -> Option<Seen> {
        let shows_c = self.temperature(LogKept::Shows, wrong);
        let mark = self.state.show().typed_mark();
        let typed = self.typed(LogKept::Setting);
        let emissivity = match typed.map(|text| mark.read(&text, |text| units::number(text, EMISSIVITY))) {
            None => self.last_setting(),
            Some(Ok(setting)) => setting,
            Some(Err(problem)) => {
                wrong.push((LogKept::Setting, problem.say(&self.state.words)));
                return None;
            }
        };
        let surface = self.surface();
        if surface.is_none() {
            wrong.push((LogKept::Surface, self.state.words.get("log-surface-missing")));
        }
        Some(Seen::Gun(Gun { shows_c: shows_c?, emissivity, surface: surface?, shop_c: self.plan.shop_c }))
    }

    /// The setting of the last reading with an IR gun, or the usual one.
    pub(super) fn last_setting(&self) -> f64 {
        match self.before.last.as_ref().map(|last| &last.seen) {
            Some(Seen::Gun(gun)) => gun.emissivity,
            _ => USUAL_EMISSIVITY,
        }
    }

    /// The entry that is written down for a piece.
    pub(super) fn reading(&self, piece: crate::log::Id, taken: Taken) -> ReadingTaken {
        ReadingTaken {
            piece,
            at: self.at().unwrap_or(self.now),
            member: self.part(),
            face: self.face(),
            away_mm: self.away_mm().ok().flatten(),
            when: self.when(),
            typed: taken.typed,
            seen: taken.seen,
            band: taken.band,
            note: LogKept::Note.text(self.state),
        }
    }
}
