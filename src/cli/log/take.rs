//! What a log command writes, from its keys.

use super::keys::Keys;
use crate::engine::reading::{Gun, Look, Seen, Touch, When};
use crate::engine::tint::Stage;
use crate::log::{
    Cooled, CrackOutcome, Entry, Face, Hand, Id, Moment, PieceEntry, PlanCopy, ReadingTaken, Standing,
    StepDone, Thing, TimeWrong, TrialPiece, Used,
};
use crate::reference::Reference;
use crate::units::Within;
use crate::words::Words;

/// Numbers of pieces, steps and runs.
const NUMBERS: Within = Within { low: 1.0, high: 100_000.0 };
/// Setting of a gun.
const EMISSIVITY: Within = Within { low: 0.01, high: 1.0 };
/// Amounts.
const AMOUNT: Within = Within { low: 0.0, high: 1e9 };
/// The setting that most guns have.
const USUAL_EMISSIVITY: f64 = 0.95;
/// The moments of the work, but that before a numbered run.
const WHEN: [When; 5] = [When::Heating, When::BeforeTack, When::BetweenRuns, When::PostHeat, When::Cooling];
const BEFORE_RUN: &str = "before-run";

/// What a log command is read with.
pub(super) struct Taking<'a> {
    pub(super) reference: &'a Reference,
    pub(super) words: &'a Words,
    pub(super) standing: &'a Standing<'a>,
    pub(super) plan: &'a PlanCopy,
    pub(super) hand: &'a Hand,
}

impl<'a> Taking<'a> {
    /// The piece of a number. Where two have it, neither is picked: its id tells it from the other.
    pub(super) fn piece(&self, keys: &mut Keys<'_>) -> Option<&'a Thing<'a, PieceEntry>> {
        let pieces = &self.standing.pieces;
        if let Some(id) = keys.id("piece") {
            let found = pieces.iter().find(|piece| piece.id == id);
            return found.or_else(|| self.no_piece(keys));
        }
        let Some(number) = keys.count("piece", NUMBERS) else {
            keys.missing("piece");
            return None;
        };
        let found: Vec<&Thing<'_, PieceEntry>> =
            pieces.iter().filter(|piece| piece.now.number == number).collect();
        match found.as_slice() {
            [one] => Some(one),
            [] => self.no_piece(keys),
            several => {
                let ids: Vec<String> = several.iter().map(|piece| piece.id.to_string()).collect();
                let ids = self.words.list(crate::words::List::Comma, &ids);
                keys.problem("piece", self.words.with("cli-log-same-number", &[("ids", &ids)]));
                None
            }
        }
    }

    fn no_piece(&self, keys: &mut Keys<'_>) -> Option<&'a Thing<'a, PieceEntry>> {
        let count = self.standing.pieces.len().to_string();
        keys.problem("piece", self.words.with("cli-log-no-piece", &[("count", &count)]));
        None
    }

    /// The moment: now, or what is typed.
    fn at(&self, keys: &mut Keys<'_>) -> Moment {
        let Some(text) = keys.text("time") else { return self.hand.at };
        self.hand.at.told(&text).unwrap_or_else(|wrong| {
            let key = match wrong {
                TimeWrong::NoTime => "cli-log-time",
                TimeWrong::ToCome => "cli-log-time-to-come",
            };
            keys.problem("time", self.words.get(key));
            self.hand.at
        })
    }

    /// The part where something is measured: it must be told where the plan logs parts apart.
    fn part_read(&self, keys: &mut Keys<'_>) -> Option<u32> {
        let member = self.member(keys);
        if self.plan.apart && member.is_none() {
            keys.missing("part");
        }
        member
    }

    /// The part, counted from 1 as it is typed.
    fn member(&self, keys: &mut Keys<'_>) -> Option<u32> {
        let most = self.plan.members.len().max(1);
        keys.count("part", Within { low: 1.0, high: most as f64 }).map(|nth| nth - 1)
    }

    fn when(&self, keys: &mut Keys<'_>) -> Option<When> {
        let run = keys.count("run", NUMBERS);
        let text = keys.text("when").map(|text| text.to_ascii_lowercase().replace([' ', '_'], "-"));
        match (text.as_deref(), run) {
            (None | Some(BEFORE_RUN), Some(number)) => Some(When::BeforeRun(number)),
            (Some(BEFORE_RUN), None) => {
                keys.missing("run");
                None
            }
            (Some(text), _) => {
                let found = WHEN.into_iter().find(|when| when.id() == text);
                if found.is_none() {
                    let ids: Vec<&str> = WHEN.iter().map(|when| when.id()).chain([BEFORE_RUN]).collect();
                    let ids = self.words.list(crate::words::List::Comma, &ids);
                    keys.problem("when", self.words.with("cli-log-choice", &[("ids", &ids)]));
                }
                found
            }
            (None, None) => {
                keys.missing("when");
                None
            }
        }
    }

    /// What was seen, and as it was typed.
    fn seen(&self, keys: &mut Keys<'_>, member: Option<u32>) -> Option<(Seen, String)> {
        // A colour has no figure: its names are kept with what was seen.
        let typed = keys.typed(&["probe", "thermocouple", "black-spot", "ir-gun", "melted", "stayed"]);
        let mut found: Vec<Seen> = Vec::new();
        let touching = [
            ("probe", Touch::ContactProbe),
            ("thermocouple", Touch::Thermocouple),
            ("black-spot", Touch::BlackSpotGun),
        ];
        for (key, with) in touching {
            found.extend(keys.temperature(key).map(|shows_c| Seen::Touched { with, shows_c }));
        }
        let (emissivity, surface) = (keys.number("emissivity", EMISSIVITY), keys.text("surface"));
        if let Some(shows_c) = keys.temperature("ir-gun") {
            let all: Vec<&str> = self.reference.tint.surfaces.iter().map(|row| row.id.as_str()).collect();
            match surface.filter(|surface| all.contains(&surface.as_str())) {
                Some(surface) => found.push(Seen::Gun(Gun {
                    shows_c,
                    emissivity: emissivity.unwrap_or(USUAL_EMISSIVITY),
                    surface,
                    shop_c: self.plan.shop_c,
                })),
                None => {
                    let ids = self.words.list(crate::words::List::Comma, &all);
                    keys.problem("surface", self.words.with("cli-log-choice", &[("ids", &ids)]));
                }
            }
        }
        let (melted_c, stayed_c) = (keys.temperature("melted"), keys.temperature("stayed"));
        if melted_c.or(stayed_c).is_some() {
            found.push(Seen::Crayons { melted_c, stayed_c });
        }
        let to = keys.choice("colour-to", Stage::ALL, Stage::id);
        let look = keys.choice("look", Look::ALL, Look::id);
        if let Some(from) = keys.choice("colour", Stage::ALL, Stage::id) {
            let to = to.unwrap_or(from);
            found.push(Seen::Colour {
                from: from.id().to_owned(),
                to: to.id().to_owned(),
                look: look.unwrap_or(Look::Afterwards),
                chromium_pct: self.plan.chromium_pct(member),
            });
        }
        match found.len() {
            1 => found.pop().map(|seen| (seen, typed)),
            0 => {
                keys.missing("probe");
                None
            }
            _ => {
                keys.problem("probe", self.words.get("cli-log-two-instruments"));
                None
            }
        }
    }

    /// A reading.
    pub(super) fn reading(&self, keys: &mut Keys<'_>) -> Option<Entry> {
        let (piece, at, member) =
            (self.piece(keys).map(|piece| piece.id), self.at(keys), self.part_read(keys));
        let face = keys.choice("face", Face::ALL, Face::id).unwrap_or_default();
        let away_mm = keys.length("away").or(self.plan.measured_at_mm);
        let (when, note) = (self.when(keys), keys.any("note"));
        let (seen, typed) = self.seen(keys, member)?;
        let band = self.band(keys, &seen)?;
        Some(Entry::Reading(Box::new(ReadingTaken {
            piece: piece?,
            at,
            member,
            face,
            away_mm,
            when: when?,
            typed,
            seen,
            band,
            note,
        })))
    }

    fn band(&self, keys: &mut Keys<'_>, seen: &Seen) -> Option<crate::engine::reading::Band> {
        match seen.band(self.reference) {
            Ok(band) => Some(band),
            Err(error) => {
                let says = crate::job::say_refusal(&error.into(), self.words);
                keys.problem(seen.instrument(), says);
                None
            }
        }
    }

    /// A trial piece.
    pub(super) fn trial(&self, keys: &mut Keys<'_>, photo: String) -> Option<Entry> {
        let (at, member) = (self.at(keys), self.part_read(keys).unwrap_or(0));
        let outcome = keys.choice("outcome", CrackOutcome::ALL, CrackOutcome::id).unwrap_or_default();
        let cooled = keys.choice("cooled", Cooled::ALL, Cooled::id).unwrap_or_default();
        let (heat_number, place) = (keys.any("heat-number"), keys.any("place"));
        let note = keys.any("note");
        let name = keys.text("name").unwrap_or_else(|| {
            let number = (self.standing.trials.len() + 1).to_string();
            self.words.with("log-trial-name", &[("number", &number)])
        });
        let of = usize::try_from(member).ok().and_then(|nth| self.plan.members.get(nth))?;
        let (seen, _) = self.seen(keys, Some(member))?;
        let band = self.band(keys, &seen)?;
        Some(Entry::Trial(Box::new(TrialPiece {
            name,
            member: Some(member),
            steel: of.name.clone(),
            grade: of.grade.clone(),
            family: of.family.clone(),
            cet: Some(of.cet),
            heat_number,
            thickness_mm: Some(of.thickness_mm),
            at,
            seen: Some(seen),
            band,
            cooled,
            outcome,
            place,
            photo,
            note,
        })))
    }

    /// A step that was done.
    pub(super) fn step(&self, keys: &mut Keys<'_>) -> Option<Entry> {
        let (at, note) = (self.at(keys), keys.any("note"));
        let Some(number) = keys.count("step", NUMBERS) else {
            keys.missing("step");
            return None;
        };
        let branches = self.plan.branches();
        let way =
            keys.text("way").unwrap_or_else(|| branches.first().copied().unwrap_or_default().to_owned());
        let Some(step) = self.plan.way(&way).find(|step| step.number == number) else {
            let count = self.plan.way(&way).count().to_string();
            keys.problem("step", self.words.with("cli-log-no-step", &[("count", &count)]));
            return None;
        };
        // A step of the whole job needs no piece.
        let piece = match &self.standing.job {
            Some(job) if step.is_of_job() && !keys.has("piece") => Some(job.id),
            _ => self.piece(keys).map(|piece| piece.id),
        };
        Some(Entry::Step(StepDone { piece: piece?, number, branch: step.branch.clone(), at, note }))
    }

    /// A piece that is changed, with what stands of it.
    pub(super) fn change_piece(&self, keys: &mut Keys<'_>) -> Option<(&'a Thing<'a, PieceEntry>, Entry)> {
        let piece = self.piece(keys);
        let (number, heats) = (keys.count("number", NUMBERS), keys.text("heat-numbers"));
        let (note, finished) = (keys.text("note"), keys.yes_no("finished"));
        let piece = piece?;
        let mut now = piece.now.clone();
        if let Some(number) = number {
            let taken = self.standing.pieces.iter();
            if taken.filter(|other| other.id != piece.id).any(|other| other.now.number == number) {
                keys.problem("number", self.words.get("cli-log-number-taken"));
            }
            now.number = number;
        }
        if let Some(heats) = heats {
            now.heat_numbers = heats.split(';').map(|text| text.trim().to_owned()).collect();
        }
        now.note = note.unwrap_or(now.note);
        now.finished = finished.unwrap_or(now.finished);
        Some((piece, Entry::Piece(now)))
    }

    /// What was used.
    pub(super) fn used(&self, keys: &mut Keys<'_>) -> Option<Entry> {
        let at = self.at(keys);
        let (what, amount) = (keys.text("what"), keys.number("amount", AMOUNT));
        let (unit, note) = (keys.text("unit"), keys.any("note"));
        let piece: Option<Id> = if keys.has("piece") { self.piece(keys).map(|piece| piece.id) } else { None };
        for (key, given) in [("what", what.is_some()), ("amount", amount.is_some())] {
            if !given {
                keys.missing(key);
            }
        }
        let what = what?;
        let need = self.plan.needs.iter().find(|need| need.id == what);
        let unit = unit.or_else(|| need.map(|need| need.unit.clone())).unwrap_or_else(|| "kg".to_owned());
        Some(Entry::Used(Used { what, amount: amount?, unit, at, piece, note }))
    }
}
